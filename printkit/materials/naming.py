"""The words beside a numeral: the number alone, what is counted with it, or none.

A phrase is a number word in the gender of its noun and the noun in the plural of its number. A
language whose phrases cannot be told for every number of a set has the number word alone there.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from printkit import letters
from printkit.materials.layout import INK, centered, words_block
from printkit.pack import Child
from printkit.pieces import Color, Text
from printkit.texts import Note
from printkit.units import Rect
from printkit.words.phrases import elided, has_rule, joined, phrase_word

if TYPE_CHECKING:
    from printkit.pictures import Motif
    from printkit.pictures.motifs import Name

Mode = Literal["number", "phrase", "none"]
MODES: tuple[Mode, ...] = ("number", "phrase", "none")
LEAD = 1.3
"""From one line of words to the next, in ems."""
_BETWEEN = 0.4
"""What two languages lie further apart where phrases take two lines, in ems."""
_AIR = 1.0
"""mm that phrases on a card keep clear on both sides, as they fill their line more often than words do."""
_SMALLER = 0.8
"""How much smaller phrases may be set before they are broken into two lines (design choice)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Naming:
    """What is written beside the numerals of a set; `nouns` holds the languages that have phrases."""

    child: Child
    mode: Mode
    nouns: tuple[tuple[str, "Name"], ...] = ()

    def words(self, n: int) -> dict[str, str]:
        """The bare number word by language; none if no words are wanted."""
        if self.mode == "none":
            return {}
        return {tag: self.child.spelled(tag, n) for tag in self.child.languages}

    def parts(self, n: int) -> tuple[tuple[str, str], ...]:
        """Number word and noun for each language in its order; '' for a noun where there is none."""
        nouns = dict(self.nouns)
        return tuple(
            _parts(tag, n, nouns[tag], word) or (word, "") if tag in nouns else (word, "")
            for tag, word in self.words(n).items()
        )

    def phrases(self, n: int) -> dict[str, str]:
        """The phrase by language, for the languages that have one."""
        pairs = zip(self.words(n), self.parts(n), strict=True)
        return {tag: joined(*parts) for tag, parts in pairs if parts[1]}

    def texts(self, n: int) -> tuple[str, ...]:
        """What is written, one text a language."""
        return tuple(_text(parts) for parts in self.parts(n))


def naming(
    child: Child, mode: Mode, motif: "Motif | None", numbers: Iterable[int]
) -> tuple[Naming, tuple[str, ...]]:
    """The words of a set and what `check` says of them; without a motif nothing can be named."""
    if mode != "phrase":
        return Naming(child=child, mode=mode), ()
    if motif is None:
        note = Note("notes.bare_words")
        return Naming(child=child, mode=mode), (note,)
    from printkit.pictures.plurals import own

    needed = tuple(numbers)
    nouns: list[tuple[str, Name]] = []
    lacking: dict[tuple[str, str], list[str]] = {}
    for tag in child.languages:
        name = own(tag, motif.names)
        why = _why_not(child, tag, name, needed)
        if name is None or why[0]:
            lacking.setdefault(why, []).append(tag)
        else:
            nouns.append((tag, name))
    notes = tuple(
        Note(f"notes.{why}", motif=motif.key, tags=tuple(tags), form=form)
        for (why, form), tags in lacking.items()
    )
    return Naming(child=child, mode=mode, nouns=tuple(nouns)), notes


def _why_not(child: Child, tag: str, name: "Name | None", numbers: Sequence[int]) -> tuple[str, str]:
    """Why there are no phrases in a language, and the form it lacks, if so; '' for each if not."""
    if not has_rule(tag):
        return "no_rule", ""
    if name is None:
        return "no_name", ""
    for n in numbers:
        if _parts(tag, n, name, child.spelled(tag, n)) is None:
            from printkit.pictures.plurals import category

            form = category(tag, n)
            return ("no_gender", "") if form in dict(name.forms) else ("no_form", form)
    return "", ""


def _parts(tag: str, n: int, name: "Name", word: str) -> tuple[str, str] | None:
    from printkit.pictures.plurals import category

    noun = dict(name.forms).get(category(tag, n))
    before = phrase_word(tag, n, name.gender, noun, word) if noun else None
    return (before, noun) if before and noun else None


def _text(parts: tuple[str, str]) -> str:
    return joined(*parts) if parts[1] else parts[0]


# --- on the card -----------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Lettering:
    """How the words of a set are written: all `size` mm an em, no line wider than `width` mm.

    With `broken` a phrase that is wider is set in two lines, the number above what is counted.
    """

    naming: Naming
    width: float
    size: float
    broken: bool

    def lines(self, n: int) -> tuple[tuple[str, ...], ...]:
        """The lines of each language."""
        return tuple(self._lines(parts) for parts in self.naming.parts(n))

    def _lines(self, parts: tuple[str, str]) -> tuple[str, ...]:
        text = _text(parts)
        if not self.broken or not _breaks(parts) or self.size * _wide(text) <= self.width:
            return (text,)
        return parts

    def high(self, n: int) -> float:
        """Height in mm of the words of a number."""
        lines = self.lines(n)
        between = _BETWEEN * (len(lines) - 1) if self.broken else 0.0
        return self.size * (LEAD * sum(map(len, lines)) + max(0.0, between))

    def block(self, n: int, box: Rect, *, color: Color = INK) -> tuple[Text, ...]:
        """The words of a number, each line in the middle of the box, all in its middle."""
        middle = box.left + box.width / 2
        y = box.top + (box.height - self.high(n)) / 2 + 0.95 * self.size
        marks: list[Text] = []
        for lines in self.lines(n):
            for line in lines:
                marks.append(centered(line, middle, y, self.size, color=color))
                y += LEAD * self.size
            y += _BETWEEN * self.size if self.broken else 0.0
        return tuple(marks)


def _breaks(parts: tuple[str, str]) -> bool:
    return bool(parts[1]) and not elided(parts[0])


def lettering(
    naming: Naming, numbers: Iterable[int], width: float, most: float, *, breaking: bool = True
) -> Lettering:
    """The size, at most `most` mm an em, at which the words of all these numbers fit `width` mm."""
    every = [parts for n in numbers for parts in naming.parts(n)]
    whole = _shrunk((_text(parts) for parts in every), width, most)
    pieces = [parts if _breaks(parts) else (_text(parts),) for parts in every]
    halves = _shrunk((text for piece in pieces for text in piece), width, most)
    broken = breaking and whole < _SMALLER * most and halves > whole
    return Lettering(naming=naming, width=width, size=halves if broken else whole, broken=broken)


def height_of(naming: Naming, numbers: Sequence[int], width: float, most: float) -> float:
    """The height in mm that the words of a set take, at most `most` mm an em."""
    if naming.mode == "phrase":
        letters = lettering(naming, numbers, width - 2 * _AIR, most)
        return max(letters.high(n) for n in numbers)
    return len(naming.words(numbers[0])) * most * LEAD


def written(
    naming: Naming, numbers: Sequence[int], n: int, box: Rect, most: float, *, color: Color = INK
) -> tuple[Text, ...]:
    """The words of `n` in the middle of a box; phrases are equally large for all `numbers` of the set."""
    if naming.mode == "phrase":
        return lettering(naming, numbers, box.width - 2 * _AIR, most).block(n, box, color=color)
    texts = naming.texts(n)
    return words_block(texts, box, most, color=color) if texts else ()


def _shrunk(texts: Iterable[str], width: float, most: float) -> float:
    """The largest size at which every text fits, in mm an em."""
    return min((most, *(width / _wide(text) for text in set(texts))))


def _wide(text: str) -> float:
    """The width in ems that a text takes about its middle; a j may reach beyond its own width."""
    run = letters.run(text, 1.0)
    left, _, right, _ = run.ink
    return max(run.width, run.width - 2 * left, 2 * right - run.width)


SPARSE: Mapping[str, bool] = {"sparse": True}
"""Metadata of a fact that the manifest names only where there is something to say."""
