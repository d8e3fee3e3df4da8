"""Ruled rows with a word or numeral on them: models, letters to trace, or nothing.

A row has a top line, a dashed middle line at the height of x, and a base line. `height` is the
distance from the top line to the base. Words whose letters have strokes are drawn stroke by stroke;
others are hollow, to colour in, on a base line alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from printkit import letters
from printkit.letters import Numerals
from printkit.letters import traced as pen
from printkit.letters.helps import BESIDE
from printkit.letters.strokes import ASCENDER, lacking
from printkit.letters.traced import Manner, Signs, Style
from printkit.materials.layout import INK, SOFT
from printkit.pieces import Color, Line, Mark, Text
from printkit.units import micrometres

Filled = Literal["models", "copies", "solid", "traced", "empty"]
"""models: a model, then copies to trace; copies: to trace only; solid or traced: one long word."""

Hand = Literal["left", "right"]

FAINT: Color = (0.72,)
"""Lines above the base line: paler than what is to be traced on them."""
TRACE_LINE = 0.4
"""mm of the line that draws hollow letters: seen, yet covered by a pencil."""
EDGE = 1.0
"""mm between the end of a ruled line and the first letter."""
_APART = 0.5
"""Least space between two copies, in line heights."""
_LEAST = 0.6
"""What a narrow numeral counts for at least, in line heights: a pencil needs more room than a 1."""
_OPEN = 1.5
"""Units of the grid by which letters stand wider where arrows lie beside their strokes."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Writing:
    """How a set is written: the help on first models, the order along a row, the forms of numerals.

    An empty `fade` is a model at both ends of a row and dashed copies between.
    """

    help: Signs = "arrows"
    fade: tuple[str, ...] = ()
    numerals: Numerals = letters.PLAIN_NUMERALS
    hand: Hand = "right"

    def style(self, height: float, manner: Manner, signs: Signs = "none") -> Style:
        extra = _OPEN if self.help == "arrows" else 0.0
        return Style(height=height, manner=manner, signs=signs, numerals=self.numerals, extra=extra)


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """Where the lines of some rows begin and end, in mm from the left of the face."""

    left: float
    right: float

    @property
    def room(self) -> float:
        """What words may fill."""
        return self.right - self.left - 2 * EDGE


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One ruled row: its text, how it is filled, its span, where its top line lies.

    `first` is true for the row whose first model has help, `leftward` if the row runs from the right.
    """

    text: str
    filled: Filled
    span: Span
    top: float
    first: bool = False
    leftward: bool = False


def has_strokes(text: str, numerals: Numerals) -> bool:
    """Whether a text can be drawn stroke by stroke."""
    native = text.isdecimal() and numerals.digits != letters.PLAIN_NUMERALS.digits
    return not native and not lacking(text, numerals)


def em(height: float) -> float:
    """The size of hollow letters, in mm an em, for a line height in mm."""
    return height / letters.ascender_ratio()


def aside(text: str, height: float, writing: Writing) -> float:
    """What signs take left of the first letter, in mm."""
    signed = writing.help == "arrows" and has_strokes(text, writing.numerals)
    return BESIDE * height / ASCENDER if signed else 0.0


@lru_cache(maxsize=4096)
def ink_width(text: str, height: float, writing: Writing) -> float:
    """How wide a text is on lines of that height, with the room for its signs, in mm."""
    if has_strokes(text, writing.numerals):
        return pen.width(text, writing.style(height, "solid")) + aside(text, height, writing)
    left, _, right, _ = letters.run(text, em(height), numerals=writing.numerals).ink
    return right - left


def reach(texts: Sequence[str], height: float, writing: Writing) -> tuple[float, float]:
    """How far the texts reach above the top line and below the base line, in mm."""
    found = [(0.0, 0.0), *(_reach(text, height, writing) for text in texts)]
    return max(up for up, _ in found), max(down for _, down in found)


@lru_cache(maxsize=4096)
def _reach(text: str, height: float, writing: Writing) -> tuple[float, float]:
    if has_strokes(text, writing.numerals):
        above, below = pen.reach(text, writing.help == "arrows", writing.numerals)
        line = pen.line_width(height) / 2
        return above * height + line, below * height + line
    _, top, _, bottom = letters.run(text, em(height), numerals=writing.numerals).ink
    return -top - height + TRACE_LINE, bottom + TRACE_LINE


def copies(text: str, height: float, room: float, writing: Writing) -> int:
    """How often a text fits a line of that room; 0 if not even once."""
    wide, apart = ink_width(text, height, writing), _APART * height
    if wide > room:
        return 0
    return 1 + int((room - wide + 1e-6) // (max(wide, _LEAST * height) + apart))


def row_marks(row: Row, height: float, writing: Writing) -> tuple[Mark, ...]:
    """The lines of a row and what is written on them."""
    base = micrometres(row.top + height)
    return (*_ruling(row, base, height, writing), *_written(row, base, height, writing))


def _ruling(row: Row, base: float, height: float, writing: Writing) -> tuple[Mark, ...]:
    left, right = micrometres(row.span.left), micrometres(row.span.right)
    lower = Line(x1=left, y1=base, x2=right, y2=base, color=SOFT, line=0.4)
    if not has_strokes(row.text, writing.numerals):
        _, ink_top, _, _ = letters.run(row.text, em(height), numerals=writing.numerals).ink
        above = micrometres(base + ink_top - 0.6)
        upper = Line(x1=left, y1=above, x2=right, y2=above, color=SOFT, line=0.2)
        return (upper, lower)
    middle, top = micrometres(base - height / 2), micrometres(row.top)
    return (
        Line(x1=left, y1=top, x2=right, y2=top, color=FAINT, line=0.2),
        Line(x1=left, y1=middle, x2=right, y2=middle, color=FAINT, line=0.2, dash=(1.2, 1.6)),
        lower,
    )


def _written(row: Row, base: float, height: float, writing: Writing) -> tuple[Mark, ...]:
    if row.filled == "empty":
        return ()
    wide = ink_width(row.text, height, writing)
    many = row.filled in ("models", "copies")
    count = copies(row.text, height, row.span.room, writing) if many else 1
    step = (row.span.room - wide) / (count - 1) if count > 1 else 0.0
    start = row.span.left + EDGE
    places = [start + i * step for i in range(count)]
    if row.leftward:
        places = [row.span.right - EDGE - wide - i * step for i in range(count)]
    manners = _manners(row.filled, count, writing)
    help_at = manners.index("solid") if row.first and "solid" in manners else -1
    if row.first and help_at < 0 and not many:
        help_at = 0
    marks: list[Mark] = []
    for i, (x, manner) in enumerate(zip(places, manners, strict=True)):
        signs = writing.help if i == help_at else "none"
        mark = _word(row.text, manner, signs, x, base, height, writing)
        marks += [mark] if mark else []
    return tuple(marks)


def _word(text, manner, signs: Signs, x: float, base: float, height: float, writing: Writing) -> Mark | None:
    if manner == "empty":
        return None
    if has_strokes(text, writing.numerals):
        style = writing.style(height, manner, signs)
        return pen.traced(text, style, micrometres(x + aside(text, height, writing)), base)
    run = letters.run(text, em(height), numerals=writing.numerals)
    left = micrometres(x - run.ink[0])
    if manner == "solid":
        return Text(run=run, x=left, y=base, color=INK)
    if manner == "starts":
        return None
    return letters.hollow(
        text, em(height), left, base, color=pen.TRACE, width=TRACE_LINE, numerals=writing.numerals
    )


def _manners(filled: Filled, count: int, writing: Writing) -> tuple[str, ...]:
    """How each place of a row is written, from where the row begins."""
    fade = writing.fade or ("solid", "dashed")
    last = fade[-1]
    if filled == "solid":
        return (fade[0],)
    if filled == "traced":
        return (fade[1] if len(fade) > 1 else last,)
    if filled == "copies":
        rest = fade[1:] or fade
        return tuple(rest[min(i, len(rest) - 1)] for i in range(count))
    manners = [fade[min(i, len(fade) - 1)] for i in range(count)]
    if not writing.fade and count > 2:
        manners[-1] = "solid"
    elif not writing.fade and writing.hand == "left":
        manners.reverse()
    return tuple(manners)


def fillings(rows: int, *, long: bool, extra: bool) -> tuple[Filled, ...]:
    """How `rows` rows to write are filled: the first half to trace, the rest empty.

    A `long` word stands only once on its line, so a row with the model comes first. With `extra`
    the other words of the set have a row more too.
    """
    traced = (rows + 1) // 2
    empty: tuple[Filled, ...] = ("empty",) * (rows - traced)
    if long:
        return ("solid", *(("traced",) * traced), *empty)
    return ("models", *(("copies",) * (traced + extra - 1)), *empty)
