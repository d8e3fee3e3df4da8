"""Number words: every spelling that is printed comes from here.

In: a language tag and a number from 0 to 100; out: the word as one counts aloud. Only tags of the
table ever reach the library that spells, because it answers an unknown tag in another language.
"""

import functools
import unicodedata

from printkit.errors import PrintkitError
from printkit.words.refusals import explain
from printkit.words.table import ROWS, Language, Row

__all__ = ["Language", "find", "languages", "sample", "spell"]

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


def spell(tag: str, number: int) -> str:
    """The word for a number from 0 to 100, in the form used to count: one, two; uno, dos.

    Raises PrintkitError for a tag that `find` refuses, ValueError for any other number, True and
    False included.
    """
    row = _row(tag, "language")
    if type(number) is not int or not LOWEST <= number <= HIGHEST:
        raise ValueError(f"words are known for whole numbers {LOWEST} to {HIGHEST}, not for {number!r}")
    return _word(row.language.tag, number)


def sample(tag: str) -> str:
    """The words of 1, 2 and 3, such as 'one, two, three'. Raises what `spell` raises."""
    return ", ".join(spell(tag, number) for number in (1, 2, 3))


def _row(tag: str, place: str) -> Row:
    # isascii: some other characters have an English letter as their lower case (U+212A is a 'k').
    row = _BY_TAG.get(tag.lower()) if isinstance(tag, str) and tag.isascii() else None
    if row is None:
        raise PrintkitError([explain(tag, place)])
    return row


@functools.cache
def _word(tag: str, number: int) -> str:
    row = _BY_TAG[tag.lower()]
    return _tidy(row.corrections.get(number) or _library_word(row, number))


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
