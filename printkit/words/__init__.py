"""Number words: every spelling that is printed comes from here.

In: a language tag, a number from 0 to 100 and, if wished, a choice of spelling; out: the word. Only
tags of the table ever reach the library that spells, because it answers an unknown tag in another
language.
"""

import functools
import unicodedata

from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.words.choices import CHOICES
from printkit.words.model import Choice, Language, Row
from printkit.words.refusals import explain
from printkit.words.table import ROWS

__all__ = ["Choice", "Language", "choices", "choose", "find", "languages", "sample", "spell"]

LOWEST, HIGHEST = 0, 100

_BY_TAG = {row.language.tag.lower(): row for row in ROWS}


def languages() -> tuple[Language, ...]:
    """Every language that is offered, sorted by tag. Loads no library."""
    return tuple(sorted((row.language for row in ROWS), key=lambda language: language.tag))


def find(tag: str, place: str) -> Language:
    """The language of a BCP 47 tag, in whatever case it is written.

    Raises PrintkitError with one Problem at `place` for a tag that is unknown or refused.
    """
    return _row(tag, place).language


def choices(tag: str) -> tuple[Choice, ...]:
    """The ways to count that a language has, the usual one first; none if there is one way only.

    Raises PrintkitError for a tag that `find` refuses. Loads no library.
    """
    return CHOICES.get(_row(tag, "language").language.tag, ())


def choose(tag: str, name: str, place: str) -> Choice:
    """The choice of a language by its name or another word for it.

    Raises PrintkitError with one Problem at `place` for a tag that `find` refuses and for a name that
    the language does not have.
    """
    language = find(tag, place)
    for choice in choices(tag):
        if name in (choice.name, *choice.also):
            return choice
    names = [choice.name for choice in choices(tag)]
    if not names:
        said = f"there is nothing to choose in the number words of {language.name}"
        raise PrintkitError([Problem(place=place, found=said, allowed="to leave this line out")])
    said = f"{language.name} has no choice '{name}'"
    raise PrintkitError(
        [Problem(place=place, found=said, allowed=listing(names), nearest=nearest(name, names))]
    )


def spell(tag: str, number: int, choice: str = "") -> str:
    """The word for a number from 0 to 100: one, two; uno, dos. '' is the usual choice, as one counts.

    Raises PrintkitError for a tag that `find` refuses and a choice that `choose` refuses, ValueError
    for any other number, True and False included.
    """
    row = _row(tag, "language")
    if type(number) is not int or not LOWEST <= number <= HIGHEST:
        raise ValueError(f"words are known for whole numbers {LOWEST} to {HIGHEST}, not for {number!r}")
    chosen = choose(tag, choice, "choice").words if choice else {}
    return _tidy(chosen[number]) if number in chosen else _word(row.language.tag, number)


def sample(tag: str) -> str:
    """The words of 1, 2 and 3, such as 'one, two, three'. Loads no library; raises what `find` raises."""
    return ", ".join(find(tag, "language").sample)


def _row(tag: str, place: str) -> Row:
    # isascii: some other characters have an English letter as their lower case (U+212A is a 'k').
    row = _BY_TAG.get(tag.lower()) if isinstance(tag, str) and tag.isascii() else None
    if row is None:
        raise PrintkitError([explain(tag, place)])
    return row


@functools.cache
def _word(tag: str, number: int) -> str:
    row = _BY_TAG[tag.lower()]
    return _tidy(row.words.get(number) or _library_word(row, number))


def _library_word(row: Row, number: int) -> str:
    from num2words import num2words

    word = num2words(number, lang=row.code)
    for wrong, right in row.characters:
        word = word.replace(wrong, right)
    return word


def _tidy(word: str) -> str:
    """NFC, single spaces, no soft hyphen, no space of zero width."""
    seen = word.replace("\u00ad", "").replace("\u200b", "")
    return unicodedata.normalize("NFC", " ".join(seen.split()))
