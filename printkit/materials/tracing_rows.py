"""Ruled rows with a word or numeral on them: solid models, hollow letters to trace, or nothing.

A row has a top line, a dashed middle line at the height of x, and a base line. `height` is the
distance from the top line to the base; letters are as large as their ascenders reach the top line.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from printkit import letters
from printkit.letters import Numerals
from printkit.materials.layout import INK, SOFT
from printkit.pieces import Color, Line, Mark, Run, Text
from printkit.units import micrometres

Filled = Literal["models", "copies", "solid", "hollow", "empty"]
"""models: a solid model at both ends, hollow copies between; copies: hollow ones only; solid or
hollow: one long word."""

Hand = Literal["left", "right"]

TRACE: Color = (0.5,)
TRACE_LINE = 0.3
"""mm of the line that draws hollow letters: seen, yet covered by a pencil."""
EDGE = 1.0
"""mm between the end of a ruled line and the first letter."""
_APART = 0.5
"""Least space between two copies, in line heights."""
_LEAST = 0.6
"""What a narrow numeral counts for at least, in line heights: a pencil needs more room than a 1."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """Where the lines of some rows begin and end, in mm from the left of the face."""

    left: float
    right: float

    @property
    def room(self) -> float:
        """What a word may fill."""
        return self.right - self.left - 2 * EDGE


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One ruled row: its text, how it is filled, its span, where its top line lies."""

    text: str
    filled: Filled
    span: Span
    top: float


@cache
def _measured(text: str, numerals: Numerals) -> Run:
    return letters.run(text, 1.0, numerals=numerals)


def em(height: float) -> float:
    """The size of letters, in mm an em, for a line height in mm."""
    return height / letters.ascender_ratio()


def ink_width(text: str, height: float, numerals: Numerals) -> float:
    """How wide a text is on lines of that height, in mm."""
    left, _, right, _ = _measured(text, numerals).ink
    return (right - left) * em(height)


def reach(texts: Sequence[str], height: float, numerals: Numerals) -> tuple[float, float]:
    """How far the texts reach above the top line and below the base line, in mm."""
    inks = [_measured(text, numerals).ink for text in texts]
    above = max(-top for _, top, _, _ in inks) * em(height) - height
    return max(0.0, above), max(0.0, max(bottom for *_, bottom in inks) * em(height))


def copies(text: str, height: float, room: float, numerals: Numerals) -> int:
    """How often a text fits a line of that room; 0 if not even once."""
    wide, apart = ink_width(text, height, numerals), _APART * height
    if wide > room:
        return 0
    return 1 + int((room - wide + 1e-6) // (max(wide, _LEAST * height) + apart))


def row_marks(row: Row, height: float, numerals: Numerals, hand: Hand = "right") -> tuple[Mark, ...]:
    """The lines of a row and what is written on them."""
    base = micrometres(row.top + height)
    return (*_ruling(row, base, height), *_writing(row, base, height, numerals, hand))


def _ruling(row: Row, base: float, height: float) -> tuple[Mark, ...]:
    left, right = micrometres(row.span.left), micrometres(row.span.right)
    middle = micrometres(base - letters.x_height_ratio() * em(height))
    top = micrometres(row.top)
    return (
        Line(x1=left, y1=top, x2=right, y2=top, color=SOFT, line=0.2),
        Line(x1=left, y1=middle, x2=right, y2=middle, color=SOFT, line=0.2, dash=(1.2, 1.6)),
        Line(x1=left, y1=base, x2=right, y2=base, color=SOFT, line=0.4),
    )


def _writing(row: Row, base: float, height: float, numerals: Numerals, hand: Hand) -> tuple[Mark, ...]:
    if row.filled == "empty":
        return ()
    size = em(height)
    run = letters.run(row.text, size, numerals=numerals)
    start, wide = row.span.left + EDGE - run.ink[0], run.ink[2] - run.ink[0]
    count = copies(row.text, height, row.span.room, numerals) if row.filled in ("models", "copies") else 1
    step = (row.span.room - wide) / (count - 1) if count > 1 else 0.0
    marks: list[Mark] = []
    for i in range(count):
        x = micrometres(start + i * step)
        if _is_model(row.filled, i, count, hand):
            marks.append(Text(run=run, x=x, y=base, color=INK))
        else:
            marks.append(
                letters.hollow(row.text, size, x, base, color=TRACE, width=TRACE_LINE, numerals=numerals)
            )
    return tuple(marks)


def _is_model(filled: Filled, place: int, count: int, hand: Hand) -> bool:
    """Models stand at both ends, for either hand; where two copies fit, away from the writing hand."""
    if filled == "models" and count > 2:
        return place in (0, count - 1)
    if filled == "models":
        return place == (count - 1 if hand == "left" else 0)
    return filled == "solid"


def fillings(rows: int, *, long: bool, extra: bool) -> tuple[Filled, ...]:
    """How `rows` rows to write are filled: the first half to trace, the rest empty.

    A `long` word stands only once on its line, so a row with the model comes first. With `extra`
    the other words of the set have a row more too.
    """
    traced = (rows + 1) // 2
    empty: tuple[Filled, ...] = ("empty",) * (rows - traced)
    if long:
        return ("solid", *(("hollow",) * traced), *empty)
    return ("models", *(("copies",) * (traced + extra - 1)), *empty)
