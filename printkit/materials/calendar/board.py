"""The month board and what lies on it: how large places, tiles and labels are, and how the board is drawn.

A board has seven columns and up to six rows of places; it comes in one part or in a few that lie side
by side, so that tiles are large enough for small hands. Above the rows stand the names of the weekdays,
above those two places for labels: the weekday of today and the month.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from printkit import letters
from printkit.letters import Numerals
from printkit.materials.base import Room
from printkit.materials.calendar.names import Names
from printkit.materials.layout import INK, SOFT, centered, content, hairline, numeral, numeral_height
from printkit.pieces import Box, Color, Face, Mark, Text
from printkit.units import Rect, micrometres

CLEAR = 1.4
"""mm by which a place is larger than its tile, across and down."""
ROWS = 6
_LABEL, _LOW_LABEL = 26.0, 22.0
"""mm height of a label, on sheets from 240 mm and on lower ones."""
_NAMES = 8.0
_TALLEST = 33.4
"""mm of a place's height at most where it is not wide: six of them fill a sheet of Letter."""
_WIDEST_LABEL = 87.0
_MIDDLE = 40.0
"""mm between the two labels of a board in one part: the year, or nothing."""
SAFE_TILE = 32.0
"""mm: a tile that is this wide and high is no small part (16 CFR 1501.4, cylinder of 31.75 mm)."""
LEAST_TILE = (22.0, 19.0)
"""mm of the smallest tile on which a numeral of 5 mm stands clear of the cut."""
MARKED_TILE = 24.0
"""mm of height from which a tile has room for the set mark under its numeral."""
_EDGE = 12.0
"""mm of a board's width outside its places: twice the inset."""
SECOND: Color = (0.42,)
PALE: Color = (0.62,)
"""Numerals under the tiles of a dated board."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Plan:
    """Sizes in mm: a place, a tile, a label, and how many columns each part of the board has."""

    place: tuple[float, float]
    tile: tuple[float, float]
    label: tuple[float, float]
    parts: tuple[int, ...]

    @property
    def top(self) -> float:
        """The height of a board's first row, in which labels lie."""
        return self.label[1] + CLEAR

    def board(self, part: int, rows: int) -> tuple[float, float]:
        """The size of one part of a board with that many rows."""
        inner = 2 * (content((100.0, 100.0)).left)
        strip = 100.0 - content((100.0, 100.0)).height
        width = self.parts[part] * self.place[0] + inner
        return micrometres(width), micrometres(strip + self.top + _NAMES + rows * self.place[1])


def planned(room: Room, parts: int) -> Plan | None:
    """The largest places of a board in so many parts; None if tiles would be too small."""
    columns = math.ceil(7 / parts)
    wide = math.floor(2 * (room.width - _EDGE) / columns) / 2
    strip = 100.0 - content((100.0, 100.0)).height
    free = room.height - strip - _label_high(room) - CLEAR - _NAMES
    high = math.floor(10 * free / ROWS) / 10
    wide = min(wide, 60.0)
    return _plan((wide, min(high, max(_TALLEST, 0.7 * wide))), room)


def _label_high(room: Room) -> float:
    return _LABEL if room.height >= 240 else _LOW_LABEL


def around(tile: tuple[float, float], room: Room) -> Plan | None:
    """The board for tiles of that size; None if it does not fit the sheet or the tile holds no numeral."""
    return _plan((tile[0] + CLEAR, tile[1] + CLEAR), room)


def _plan(place: tuple[float, float], room: Room) -> Plan | None:
    tile = (micrometres(place[0] - CLEAR), micrometres(place[1] - CLEAR))
    if tile[0] < LEAST_TILE[0] or tile[1] < LEAST_TILE[1]:
        return None
    across = int((room.width - _EDGE + 1e-6) // place[0])
    if not across:
        return None
    count = math.ceil(7 / across)
    parts = tuple(7 // count + (1 if i < 7 % count else 0) for i in range(count))
    top = parts[0] * place[0]
    free = top - _MIDDLE if count == 1 else top - 3.0
    label = (micrometres(min(_WIDEST_LABEL, free / 2) - CLEAR), _label_high(room))
    plan = Plan(place=place, tile=tile, label=label, parts=parts)
    fits = plan.board(0, ROWS)[1] <= room.height + 1e-6
    return plan if fits and label[0] >= 34.0 else None


def usual(room: Room) -> Plan | None:
    """The board in the fewest parts whose tiles are no small parts; else in the fewest there can be."""
    plans = [plan for plan in (planned(room, parts) for parts in (1, 2, 3, 4)) if plan]
    return next((plan for plan in plans if min(plan.tile) >= SAFE_TILE), next(iter(plans), None))


# --- the board -------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Month:
    """What a board shows: the weekdays of its columns (ISO), days by place (column, row), or no dates.

    `rows` is how many rows it has; `heading` the names of the month, `year` its year in digits.
    """

    weekdays: tuple[int, ...]
    rows: int
    days: tuple[tuple[int, int, int], ...] = ()
    marked: tuple[int, ...] = ()
    heading: tuple[str, ...] = ()
    year: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Pen:
    """How a board is written: names, numerals and the theme's color."""

    names: tuple[Names, ...]
    numerals: Numerals
    accent: Color


def board_face(plan: Plan, part: int, month: Month, pen: Pen, ornament: Sequence[Mark]) -> Face:
    """One part of the board; `ornament` lies in its top row where no label does."""
    size = plan.board(part, month.rows)
    inner = content(size)
    first = sum(plan.parts[:part])
    columns = range(first, first + plan.parts[part])
    marks: list[Mark] = [hairline(size, pen.accent)]
    if part == 0:
        marks += _label_places(plan, month, inner)
    if part == len(plan.parts) - 1:
        marks += _year(plan, month, pen, year_box(plan, month.rows))
    marks += ornament
    top = inner.top + plan.top
    marks += _weekday_names(plan, month, pen, columns, Rect(inner.left, top, inner.width, _NAMES))
    by_place = {(column, row): day for column, row, day in month.days}
    for column in columns:
        for row in range(month.rows):
            day = by_place.get((column, row))
            if month.days and day is None:
                continue
            box = Rect(
                micrometres(inner.left + (column - first) * plan.place[0]),
                micrometres(top + _NAMES + row * plan.place[1]),
                *plan.place,
            )
            marks += _place(box, day, day in month.marked, pen)
    return Face(marks=tuple(marks))


def year_box(plan: Plan, rows: int) -> Rect:
    """Where the year, or an ornament, lies: in the top row of the last part, beside or between labels."""
    inner = content(plan.board(len(plan.parts) - 1, rows))
    if len(plan.parts) == 1:
        taken = plan.label[0] + CLEAR
        return Rect(inner.left + taken, inner.top, inner.width - 2 * taken, plan.top)
    return Rect(inner.left, inner.top, inner.width, plan.top)


def _label_places(plan: Plan, month: Month, inner: Rect) -> list[Mark]:
    """The place for the weekday of today at the left, for the month at the right."""
    wide, high = plan.label[0] + CLEAR, plan.label[1] + CLEAR
    lefts = (inner.left, inner.left + plan.parts[0] * plan.place[0] - wide)
    boxes = [Rect(micrometres(left), inner.top, micrometres(wide), micrometres(high)) for left in lefts]
    marks: list[Mark] = [_outline(box) for box in boxes]
    if month.heading:
        marks += name_marks(month.heading, boxes[1].inset(4.0), 6.0, colors=(PALE, PALE))
    return marks


def _year(plan: Plan, month: Month, pen: Pen, box: Rect) -> list[Mark]:
    if not month.year or box.width < 24:
        return []
    high = numeral_height((int(month.year),), 12.0, box.width - 6.0, pen.numerals)
    base = micrometres(box.top + (box.height + high) / 2)
    left = box.left + box.width / 2 if len(plan.parts) == 1 else box.right - 26.0
    return list(numeral(month.year, micrometres(left), base, high, pen.numerals, color=PALE))


def _weekday_names(plan: Plan, month: Month, pen: Pen, columns: range, box: Rect) -> list[Mark]:
    """The names over the columns, all of one size, each language in a line of its own."""
    marks: list[Mark] = []
    wide = plan.place[0] - 2.0
    lines = len(pen.names)
    for n, names in enumerate(pen.names):
        size = letters.shrink_to(names.weekdays, wide, (4.6 if n == 0 else 3.4) if lines == 1 else 3.2)
        base = micrometres(box.top + (0.72 if lines == 1 else 0.42 + 0.44 * n) * box.height)
        for i, column in enumerate(columns):
            middle = box.left + (i + 0.5) * plan.place[0]
            word = names.weekday(month.weekdays[column])
            marks.append(centered(word, middle, base, size, color=INK if n == 0 else SECOND))
    return marks


def _place(box: Rect, day: int | None, marked: bool, pen: Pen) -> list[Mark]:
    marks: list[Mark] = [_outline(box)]
    if marked:
        edge = box.inset(1.6)
        marks.append(
            Box(
                x=edge.left, y=edge.top, width=edge.width, height=edge.height,
                radius=1.2, stroke=pen.accent, line=0.9,
            )
        )  # fmt: skip
    if day is not None:
        high = numeral_height(range(20, 32), 0.34 * box.height, 0.6 * box.width, pen.numerals)
        base = micrometres(box.top + (box.height + high) / 2)
        middle = micrometres(box.left + box.width / 2)
        marks += numeral(str(day), middle, base, high, pen.numerals, color=PALE)
    return marks


def _outline(box: Rect) -> Box:
    edge = box.inset(0.3)
    return Box(
        x=edge.left, y=edge.top, width=edge.width, height=edge.height, radius=1.8, stroke=SOFT, line=0.35
    )


def name_marks(
    names: Sequence[str], box: Rect, most: float, *, colors: tuple[Color, Color] = (INK, SECOND),
    among: Sequence[Sequence[str]] | None = None,
) -> list[Text]:  # fmt: skip
    """Names side by side or one under the other in a box, whichever is larger.

    `among` holds for each language all names of which these are some; all are written equally large.
    """
    every = among or [(name,) for name in names]
    half = Rect(box.left, box.top, (box.width - 4.0) / 2, box.height)
    beside = min(letters.shrink_to(tuple(each), half.width, min(most, box.height / _LEAD)) for each in every)
    first, second = _stacked(every, box, most)
    if len(names) == 2 and beside > first:
        middles = (half.left + half.width / 2, box.right - half.width / 2)
        base = box.top + (box.height - _LEAD * beside) / 2 + 0.98 * beside
        return [
            centered(name, middle, base, beside, color=color)
            for name, middle, color in zip(names, middles, colors, strict=True)
        ]
    sizes = [first, *([second] * (len(names) - 1))]
    y = box.top + (box.height - _LEAD * sum(sizes)) / 2
    marks = []
    for n, (name, size) in enumerate(zip(names, sizes, strict=True)):
        marks.append(centered(name, box.left + box.width / 2, y + 0.98 * size, size, color=colors[min(n, 1)]))
        y += _LEAD * size
    return marks


_LEAD = 1.35
_SECOND_SIZE = 0.85


def _stacked(every: Sequence[Sequence[str]], box: Rect, most: float) -> tuple[float, float]:
    """The sizes of two languages one under the other."""
    top = min(most, box.height / (_LEAD * (1 + _SECOND_SIZE * (len(every) - 1))))
    first = letters.shrink_to(tuple(every[0]), box.width, top)
    others = tuple(name for each in every[1:] for name in each)
    return first, letters.shrink_to(others, box.width, _SECOND_SIZE * first) if others else first
