"""The faces of part-whole cards: three frames joined by two lines; all numbers behind."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from printkit import letters
from printkit.materials import arrange as arranging
from printkit.materials import needs
from printkit.materials.layout import (
    BEHIND,
    FAINT,
    INK,
    SOFT,
    accent,
    content,
    hairline,
    numeral,
    numeral_height,
    pictures,
)
from printkit.materials.strips import groups as groups
from printkit.materials.strips.groups import Shape
from printkit.pack import Tray
from printkit.pieces import Area, Box, Color, Dot, Drawing, Face, Line, Mark, Text
from printkit.units import Rect, micrometres

_PAD = 2.0
"""mm between a frame and what stands in it."""
_LARGEST_THING = 14.0
_LARGEST_FIGURE = 26.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """What all cards of a set have in common.

    `thing` is the size of a thing, a place or a numeral in mm, `upper` the share of the height that the
    frame of the whole takes from both rows of frames.
    """

    tray: Tray
    size: tuple[float, float]
    total: int
    shape: Shape
    thing: float
    zero: bool
    upper: float = 0.5

    @property
    def frames(self) -> tuple[Rect, Rect, Rect]:
        """The frames of the whole, the left and the right part."""
        box = content(self.size)
        box = Rect(box.left + 1.5, box.top + 1.0, box.width - 3.0, box.height - 1.5)
        across, down = max(4.0, 0.06 * box.width), max(5.0, 0.1 * box.height)
        both, part = box.height - down, (box.width - across) / 2
        high = self.upper * both
        wide = box.width if self.tray.settings.show == "places" else max(part, 0.7 * box.width)
        lower = box.top + high + down
        return (
            _rounded(box.left + (box.width - wide) / 2, box.top, wide, high),
            _rounded(box.left, lower, part, both - high),
            _rounded(box.left + part + across, lower, part, both - high),
        )

    @property
    def largest_part(self) -> int:
        return self.total if self.zero else self.total - 1


def _rounded(*parts: float) -> Rect:
    return Rect(*(micrometres(part) for part in parts))


def _inner(frame: Rect) -> Rect:
    return frame.inset(_PAD)


# --- what fits -------------------------------------------------------------------------------


def place_fits(look: Look, place: float) -> bool:
    """Whether the places of the whole and of the largest part fit their frames."""
    frames, counts = look.frames, (look.total, look.largest_part)
    return all(
        arranging.grid_for(count, _inner(frame), place) is not None
        for frame, count in zip(frames, counts, strict=False)
    )


def thing_size(look: Look) -> float:
    """The largest size in mm of things, or of numerals, that fits every card of the set."""
    boxes = [_inner(frame) for frame in look.frames[:2]]
    if min(min(box.width, box.height) for box in boxes) <= 0:
        return 0.0
    if look.tray.settings.show == "numerals":
        high = min(box.height for box in boxes) - 2.0
        width = min(box.width for box in boxes)
        most = min(needs.least_numeral(look.tray.child, _LARGEST_FIGURE), 0.7 * high)
        return numeral_height(range(look.total + 1), most, width, look.tray.child.numerals)
    whole, part = boxes
    return min(
        needs.least_thing(look.tray.child, _LARGEST_THING),
        groups.largest(range(1, look.total + 1), 1, look.shape, whole.width, whole.height),
        groups.largest(range(1, look.largest_part + 1), 1, look.shape, part.width, part.height),
    )


# --- fronts ----------------------------------------------------------------------------------


def front(look: Look, numbers: Sequence[int | None], drawing: Drawing | None) -> Face:
    """The three frames with what is known in them; None is what is asked for."""
    marks: list[Mark] = [hairline(look.size, accent(look.tray)), *_joints(look, SOFT)]
    areas: list[Area] = []
    for frame, number in zip(look.frames, numbers, strict=True):
        marks.append(_frame(frame, asked=number is None))
        if number is None:
            areas.append(Area(box=_inner(frame), things=0))
            continue
        held, ground = _held(look, frame, number, drawing)
        marks += held
        if ground:
            things = number if ground == "none" else 0
            areas.append(Area(box=_inner(frame), things=things, ground=ground))
    return Face(marks=tuple(marks), areas=tuple(areas))


def _held(look: Look, frame: Rect, number: int, drawing: Drawing | None):
    """What stands in the frame of a known number, and on which ground things could be counted."""
    box, tray = _inner(frame), look.tray
    if tray.settings.show == "numerals":
        return numeral_in(look, frame, number, INK), ""
    if drawing is None:
        middles = arranging.grid_for(number, box, look.thing) if number else ()
        radius = look.thing / 2 - 0.15
        dots = [Dot(x=x, y=y, radius=radius, stroke=SOFT, line=0.3) for x, y in middles or ()]
        return tuple(dots), "places"
    return pictures(drawing, groups.laid(number, 1, look.shape, look.thing, box)), "none"


def numeral_in(look: Look, frame: Rect, number: int, color: Color) -> tuple[Mark, ...]:
    """A numeral in the middle of a frame, as high as all of the set."""
    box = _inner(frame)
    largest = needs.least_numeral(look.tray.child, _LARGEST_FIGURE)
    most = min(largest, *(0.7 * (_inner(each).height - 2.0) for each in look.frames))
    width = min(_inner(each).width for each in look.frames)
    high = numeral_height(range(look.total + 1), most, width, look.tray.child.numerals)
    base = micrometres(box.top + (box.height + high) / 2 - 0.4)
    return numeral(str(number), box.left + box.width / 2, base, high, look.tray.child.numerals, color=color)


def _frame(frame: Rect, *, asked: bool, color: Color | None = None) -> Box:
    line = 0.6 if asked else 0.35
    edge = frame.inset(line / 2)
    return Box(
        x=micrometres(edge.left), y=micrometres(edge.top), width=micrometres(edge.width),
        height=micrometres(edge.height), radius=3, stroke=color or (INK if asked else SOFT), line=line,
    )  # fmt: skip


def _joints(look: Look, color: Color) -> list[Mark]:
    """The lines from the whole down to its parts."""
    whole, *parts = look.frames
    middle = whole.left + whole.width / 2
    return [
        Line(
            x1=micrometres(middle + (-1 if side == 0 else 1) * 0.18 * whole.width),
            y1=whole.bottom,
            x2=micrometres(part.left + part.width / 2),
            y2=part.top,
            color=color,
            line=0.6,
        )
        for side, part in enumerate(parts)
    ]


# --- backs -----------------------------------------------------------------------------------


def back(look: Look, numbers: Sequence[int]) -> tuple[Face, Rect]:
    """All three numerals in their frames in light gray, left and right as on the front."""
    marks: list[Mark] = _joints(look, FAINT)
    for frame, number in zip(look.frames, numbers, strict=True):
        marks.append(_frame(frame, asked=False, color=FAINT))
        marks += numeral_in(look, frame, number, BEHIND)
    around = look.frames
    left, top = around[1].left, around[0].top
    control = _rounded(left, top, around[2].right - left, around[2].bottom - top)
    return Face(marks=(hairline(look.size, accent(look.tray)), *marks)), control


def ways_back(look: Look, pairs: Sequence[tuple[int, int]]) -> tuple[Face, Rect]:
    """Every way to part the whole, a line each, in one to four columns."""
    box = content(look.size).inset(2.0)
    columns = min(range(1, 5), key=lambda n: -_line_high(look, pairs, box, n))
    high = _line_high(look, pairs, box, columns)
    rows = math.ceil(len(pairs) / columns)
    step, wide = 2.0 * high, box.width / columns
    top = box.top + (box.height - rows * step) / 2
    marks: list[Text] = []
    for i, pair in enumerate(pairs):
        column, row = divmod(i, rows)
        base = micrometres(top + row * step + 1.45 * high)
        marks += _sum(look, pair, box.left + (column + 0.5) * wide, base, high)
    bounds = [mark.bounds() for mark in marks]
    left, upper = min(each.left for each in bounds), min(each.top for each in bounds)
    right, lower = max(each.right for each in bounds), max(each.bottom for each in bounds)
    control = _rounded(left, upper, right - left, lower - upper)
    return Face(marks=(hairline(look.size, accent(look.tray)), *marks)), control


def _line_high(look: Look, pairs: Sequence[tuple[int, int]], box: Rect, columns: int) -> float:
    """The height of figures at which the lines fit in so many columns."""
    rows = math.ceil(len(pairs) / columns)
    wide = max(sum(run.width for run in _runs(look, pair, 1.0)) + 2 * _SPACE for pair in pairs)
    return min(8.0, box.height / (2.0 * rows), (box.width / columns - _COLUMN_GAP) / wide)


_COLUMN_GAP = 8.0
_SPACE = 0.45
"""Space on either side of a plus, in heights of a figure."""


def _runs(look: Look, pair: tuple[int, int], high: float):
    size = high / letters.numeral_ratio()
    numerals = look.tray.child.numerals
    return [letters.run(text, size, numerals=numerals) for text in (str(pair[0]), "+", str(pair[1]))]


def _sum(look: Look, pair: tuple[int, int], middle: float, base: float, high: float) -> list[Text]:
    runs = _runs(look, pair, high)
    pen = middle - (sum(run.width for run in runs) + 2 * _SPACE * high) / 2
    marks = []
    for run in runs:
        marks.append(Text(run=run, x=micrometres(pen), y=base, color=BEHIND))
        pen += run.width + _SPACE * high
    return marks
