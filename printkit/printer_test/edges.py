"""What runs round the paper: stairs that show the printable edge, and rulers in mm and inches.

Depth is measured from an edge of the paper inward, `along` from its left or top end.
"""

from collections.abc import Callable, Iterator
from functools import partial

from printkit import letters
from printkit.pieces import Color, Line, Mark, Text
from printkit.units import MM_PER_INCH, micrometres

INSET = 35.0
"""mm from each edge of the paper to what stands within the rulers."""

STEPS = 15
"""The widest unprintable edge of the home printers looked at is 14 mm (an inkjet's trailing edge)."""

_TREAD = 3.7
_NUMBERS = 17.4
_RULER = 26.6
_INK: Color = (0.2,)
_DASH: Color = (0.05,)
_SOFT: Color = (0.78,)
_INCHES: Color = (0.4,)
_FIGURES, _SMALL = 2.1, 1.9

Point = Callable[[float, float], tuple[float, float]]


def edges(width: float, height: float) -> Iterator[Mark]:
    """Stairs and rulers on all four sides of the paper; each corner of the rulers says mm and in."""
    for side in ("top", "right", "bottom", "left"):
        at = partial(_at, side, width, height)
        level = side in ("top", "bottom")
        length = width if level else height
        yield from _stairs(at, length)
        yield from _ruler(at, length, 0.0 if level else 0.7)
    for text, depth, color in (("mm", _RULER - 2.9, _INK), ("in", _RULER + 3.6, _INCHES)):
        for x in (depth, width - depth):
            for y in (depth, height - depth):
                yield centered(text, x, y, _SMALL, color)


def _at(side: str, width: float, height: float, along: float, depth: float) -> tuple[float, float]:
    """The point of the page at that depth from one of its sides."""
    x, y = {
        "top": (along, depth),
        "bottom": (along, height - depth),
        "left": (depth, along),
        "right": (width - depth, along),
    }[side]
    return micrometres(x), micrometres(y)


def _stairs(at: Point, length: float) -> Iterator[Mark]:
    """Steps 1, 2, ... mm from the edge, in the middle of the side, each with its number."""
    start = (length - STEPS * _TREAD) / 2
    for step in range(1, STEPS + 1):
        left = start + (step - 1) * _TREAD
        middle = left + _TREAD / 2
        if step < STEPS:
            yield _line(at(middle, step + 0.5), at(middle, _NUMBERS - 1.8), _SOFT, 0.1)
        yield _line(at(left, step), at(left + _TREAD, step), _DASH, 0.4)
        yield centered(str(step), *at(middle, _NUMBERS), _FIGURES)


def _ruler(at: Point, length: float, aside: float) -> Iterator[Mark]:
    """One line with millimetres on its outer side and eighths of an inch on its inner side.

    `aside` is how much farther off its numbers stand where they stand beside their marks.
    """
    first, last = _RULER, length - _RULER
    yield _line(at(first, _RULER), at(last, _RULER), _INK, 0.2)
    for mm in range(int(first) + 1, int(last) + 1):
        long = 2.4 if mm % 10 == 0 else 1.7 if mm % 5 == 0 else 1.0
        yield _line(at(mm, _RULER), at(mm, _RULER - long), _INK, 0.12)
        if mm % 10 == 0 and first + 3 < mm < last - 3:
            yield centered(str(mm), *at(mm, _RULER - 3.7 - aside), _SMALL)
    for eighth in range(int(first / MM_PER_INCH * 8) + 1, int(last / MM_PER_INCH * 8) + 1):
        along = eighth * MM_PER_INCH / 8
        long = {0: 2.2, 4: 1.7, 2: 1.3, 6: 1.3}.get(eighth % 8, 0.9)
        yield _line(at(along, _RULER), at(along, _RULER + long), _INCHES, 0.12)
        if eighth % 8 == 0 and first + 5.6 < along < last - 5.6:
            yield centered(str(eighth // 8), *at(along, _RULER + 3.6), _SMALL, _INCHES)


def _line(start: tuple[float, float], end: tuple[float, float], color: Color, width: float) -> Line:
    return Line(x1=start[0], y1=start[1], x2=end[0], y2=end[1], color=color, line=width)


def centered(text: str, x: float, y: float, size: float, color: Color = _INK, *, bold: bool = False) -> Text:
    """A short text with its middle at (x, y), figures by their height."""
    run = letters.run(text, size, bold=bold)
    base = y + letters.numeral_ratio() * size / 2
    return Text(run=run, x=micrometres(x - run.width / 2), y=micrometres(base), color=color)
