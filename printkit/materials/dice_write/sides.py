"""The sides of a rolling sheet: which numbers and words stand on them, and how a side is drawn.

A row holds what was rolled (a die's face, or a numeral for two dice), a line for the numeral, the
word to trace and that many things, filled in twos from the left.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

from printkit.chance import Chance
from printkit.materials import arrange, needs
from printkit.materials.layout import (
    CONTENT_INSET,
    FAINT,
    INK,
    SMALLEST_THING,
    SOFT,
    hairline,
    numeral,
    numeral_height,
    picture,
)
from printkit.materials.motifs import ChosenMotif
from printkit.materials.tracing.rows import EDGE, Row, Span, Writing, ink_width, reach, row_marks
from printkit.pack import Child
from printkit.pieces import Area, Box, Color, Dot, Face, Line, Mark
from printkit.units import Rect, micrometres
from printkit.words import find

FACES = {1: (1, 6), 2: (2, 12)}
"""What one die and two dice can show (C: a die has the faces 1 to 6)."""
HEIGHTS = (18.0, 16.0, 14.0, 12.0, 10.0, 8.0)
"""Line heights tried in turn, in mm, as on tracing strips."""
INSET = CONTENT_INSET + 2.0
"""mm between the edge of a sheet and its rows: 4 mm inside the hairline."""
_HIGHEST_ROW = 46.0
_LOWEST_ROW = 17.0
_AIR = 2.0
"""mm free above and below what stands in a row, and between things."""
_GAP = 5.0
"""mm between the columns of a row."""
_LARGEST_THING = 20.0
_PLEASING = 12.0
"""mm of a thing that a small hand can color (design choice); smaller ones only where paper is small."""
_THROWN_LARGE = 1.7
"""Side of the place of what two dice show, in line heights, for a child who needs numerals large."""
_OVER, _UNDER = 0.25, 0.55
"""The shares of what a high row has left by which its lines and its things are moved down."""
_WORD_SHARE = 0.42
"""The part of a row's width that the word may take."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Side:
    """One side of a sheet as plain values: dice, language, the numbers of its rows and their words."""

    dice: int
    language: str
    numbers: tuple[int, ...]
    spelled: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Columns:
    """Where the parts of a row lie, in mm from the left and the top of the row; all rows share them."""

    row: float
    height: float
    above: float
    thrown: Rect
    figure: Span
    word: Span
    things: Rect
    place: float
    per_line: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """What all sides of a set share: the child, the picture to color (none: rings), places for counters."""

    child: Child
    motif: ChosenMotif | None
    counter: float
    traced_numerals: bool
    accent: Color

    def writing(self) -> Writing:
        return Writing(help="none", numerals=self.child.numerals, hand=self.child.hand)


def side_of(child: Child, dice: int, tag: str) -> Side:
    """All numbers that so many dice can show, with their words in a language."""
    first, last = FACES[dice]
    numbers = tuple(range(first, last + 1))
    return Side(
        dice=dice, language=tag, numbers=numbers, spelled=tuple(child.spelled(tag, n) for n in numbers)
    )


def parted(side: Side, parts: int) -> tuple[Side, ...]:
    """A side in so many parts of nearly the same number of rows, the larger ones first."""
    count = len(side.numbers)
    ends = [math.ceil(count * i / parts) for i in range(parts + 1)]
    return tuple(
        Side(dice=side.dice, language=side.language, numbers=side.numbers[a:b], spelled=side.spelled[a:b])
        for a, b in pairwise(ends)
    )


def columns(side: Side, look: Look, size: tuple[float, float]) -> tuple[Columns, int] | None:
    """The columns of a side and on how many sheets its rows stand; None if not even one row fits.

    It takes the fewest sheets on which things are large enough to color, else the fewest there can be.
    """
    for least, line in _wishes(look.child):
        for parts in range(1, len(side.numbers) + 1):
            rows = math.ceil(len(side.numbers) / parts)
            high = (size[1] - 2 * INSET) / rows
            high = high if look.counter else min(max(_HIGHEST_ROW, 2.2 * line + 2 * least), high)
            width = size[0] - 2 * INSET
            fits = high >= _LOWEST_ROW
            found = _columns(side, look, width, micrometres(high), least, line) if fits else None
            if found:
                return found, parts
    return None


def _wishes(child: Child) -> tuple[tuple[float, float], ...]:
    """The least size of a thing and the least line height in mm, tried in turn."""
    line = max(needs.least_numeral(child), needs.line(child, 0.0))
    lines = [line, 32.0, 25.0, 18.0] if needs.is_large(child) else [line] if line else []
    things = dict.fromkeys((needs.least_thing(child, _PLEASING), _PLEASING))
    wanted = [(thing, each) for each in lines for thing in things]
    return (*wanted, (_PLEASING, 0.0), (SMALLEST_THING, 0.0))


def _columns(
    side: Side, look: Look, width: float, row: float, least: float, line_least: float
) -> Columns | None:
    writing = look.writing()
    texts = [*side.spelled, *map(str, side.numbers)]
    most = max(side.numbers)
    for height in sorted({*HEIGHTS, line_least}, reverse=True):
        if height < max(line_least, HEIGHTS[-1]):
            continue
        up, down = reach(texts, height, writing)
        line = up + height + down
        if line > 0.62 * row:
            continue
        word = max(ink_width(text, height, writing) for text in side.spelled) + 2 * EDGE
        figure = max(max(ink_width(str(n), height, writing) for n in side.numbers), height) + 6 * EDGE
        beside_line = _THROWN_LARGE if needs.is_large(look.child) and side.dice == 2 else 1.15
        thrown = min(row - 2 * _AIR, beside_line * height, max(20.0, 1.7 * line_least))
        used = thrown + figure + word + 2 * _GAP
        if word > _WORD_SHARE * width and height > HEIGHTS[-1] and not line_least:
            continue
        if used > width:
            continue
        free = used + 1.6 * _GAP
        things = Rect(micrometres(INSET + free), _AIR, micrometres(width - free), row - 2 * _AIR)
        beside = _beside(look, most, things)
        if not beside or beside[0] < least:
            beside = None
            top = micrometres(2 * _AIR + line)
            things = Rect(INSET, top, micrometres(width), micrometres(row - _AIR - top))
        place = beside or _below(look, most, things)
        if not place or place[0] < least:
            continue
        top = _AIR if not beside else (row - line) / 2
        if not beside and line_least:
            lines = math.ceil(most / place[1])
            spare = things.height - lines * (place[0] + _AIR) + _AIR
            top += _OVER * spare
            lower = micrometres(things.top + _UNDER * spare)
            things = Rect(things.left, lower, things.width, micrometres(things.bottom - lower))
        first = INSET + thrown + _GAP
        second = first + figure + _GAP
        return Columns(
            row=row,
            height=height,
            above=micrometres(top + up),
            thrown=Rect(INSET, micrometres(top + up + height - (height + thrown) / 2), thrown, thrown),
            figure=Span(left=micrometres(first), right=micrometres(first + figure)),
            word=Span(left=micrometres(second), right=micrometres(second + word)),
            things=things,
            place=place[0],
            per_line=place[1],
        )
    return None


_Place = tuple[float, int]
"""How large a thing or a place is in mm, and how many lie side by side."""


def _beside(look: Look, most: int, box: Rect) -> _Place | None:
    """Things beside the word, in columns of two; None if they are too small there."""
    across = math.ceil(most / 2)
    return _sized(look, min((box.width + _AIR) / across, (box.height + _AIR) / 2) - _AIR, across)


def _below(look: Look, most: int, box: Rect) -> _Place | None:
    """Things under the word, in lines of the number that leaves them largest; None if they are too small."""

    def cell(across: int) -> float:
        lines = math.ceil(most / across)
        return min((box.width + _AIR) / across, (box.height + _AIR) / lines) - _AIR

    enough = look.counter + 2 if look.counter else _LARGEST_THING
    across = max(range(1, most + 1), key=lambda count: (min(cell(count), enough), count))
    return _sized(look, cell(across), across)


def _sized(look: Look, cell: float, across: int) -> _Place | None:
    if look.counter:
        place = look.counter + 2
        return (place, across) if cell >= place - 1e-6 else None
    return (micrometres(min(cell, _LARGEST_THING)), across) if cell >= SMALLEST_THING else None


# --- drawing ---------------------------------------------------------------------------------


def face_of(side: Side, look: Look, columns: Columns, size: tuple[float, float]) -> Face:
    """A side as it is printed: a row for each number, light rules between."""
    marks: list[Mark] = [hairline(size, look.accent)]
    areas: list[Area] = []
    spare = size[1] - 2 * INSET - columns.row * len(side.numbers)
    gap = spare / max(1, len(side.numbers)) if spare > 0 else 0.0
    for i, (number, word) in enumerate(zip(side.numbers, side.spelled, strict=True)):
        top = micrometres(INSET + gap / 2 + i * (columns.row + gap))
        if i:
            y = micrometres(top - gap / 2)
            marks.append(Line(x1=INSET, y1=y, x2=size[0] - INSET, y2=y, color=FAINT, line=0.3))
        marks += _thrown(side.dice, number, columns, look, top)
        marks += _written(side, number, word, columns, look, top)
        made, box = _things(number, columns, look, top)
        marks += made
        drawn = look.motif is not None and not look.counter
        areas.append(Area(box=box, things=number if drawn else 0, ground="none" if drawn else "places"))
    return Face(marks=tuple(marks), areas=tuple(areas))


def _thrown(dice: int, number: int, columns: Columns, look: Look, top: float) -> tuple[Mark, ...]:
    """What is looked up: the face of the die, or what two dice show together."""
    box = Rect(columns.thrown.left, micrometres(columns.thrown.top + top), *columns.thrown[2:])
    if dice == 2:
        high = min(0.62 * box.height, 0.42 * box.width)
        if needs.is_large(look.child):
            numbers = range(FACES[2][1] + 1)
            high = numeral_height(numbers, 0.72 * box.height, box.width, look.child.numerals)
        middle, base = box.left + box.width / 2, box.top + (box.height + high) / 2
        return numeral(str(number), micrometres(middle), micrometres(base), high, look.child.numerals)
    edge = box.inset(0.3)
    pips = arrange.laid(number, "dice", box, 0.17 * box.width, 1.0, 1.0, Chance(0, "die"))
    return (
        Box(
            x=edge.left, y=edge.top, width=edge.width, height=edge.height,
            radius=0.18 * box.width, stroke=INK, line=0.5,
        ),
        *(
            Dot(x=micrometres(p.left + p.width / 2), y=micrometres(p.top + p.height / 2),
                radius=micrometres(p.width / 2), fill=INK)
            for p in pips
        ),
    )  # fmt: skip


def _written(
    side: Side, number: int, word: str, columns: Columns, look: Look, top: float
) -> tuple[Mark, ...]:
    """The line for the numeral and the word to trace."""
    writing, at = look.writing(), micrometres(top + columns.above)
    wide = ink_width(str(number), columns.height, writing)
    spare = max(0.0, columns.figure.room - wide) / 2
    centered = Span(left=micrometres(columns.figure.left), right=micrometres(columns.figure.right))
    ruled = row_marks(Row(text=str(number), filled="empty", span=centered, top=at), columns.height, writing)
    figure: tuple[Mark, ...] = ruled
    if look.traced_numerals:
        inside = Span(left=micrometres(columns.figure.left + spare), right=columns.figure.right)
        row = Row(text=str(number), filled="traced", span=inside, top=at)
        figure = (
            *ruled,
            *(mark for mark in row_marks(row, columns.height, writing) if not isinstance(mark, Line)),
        )
    leftward = find(side.language, "languages").direction == "rtl"
    row = Row(text=word, filled="traced", span=columns.word, top=at, leftward=leftward)
    return (*figure, *row_marks(row, columns.height, writing))


def _things(number: int, columns: Columns, look: Look, top: float) -> tuple[tuple[Mark, ...], Rect]:
    """That many things in twos from the left, or places in lines, and the box they lie in."""
    box = Rect(columns.things.left, micrometres(columns.things.top + top), *columns.things[2:])
    cells = _cells(number, columns, look, box)
    if look.motif is None or look.counter:
        color = SOFT
        return tuple(
            Dot(x=x, y=y, radius=columns.place / 2 - 0.15, stroke=color, line=0.3) for x, y in cells
        ), box
    drawing = look.motif.motif.drawing("outline", size=round(columns.place, 1))
    half = columns.place / 2
    return tuple(
        picture(drawing, Rect(x - half, y - half, columns.place, columns.place)) for x, y in cells
    ), box


def _cells(number: int, columns: Columns, look: Look, box: Rect) -> list[tuple[float, float]]:
    """The middles of the things of a row."""
    beside = box.left > INSET
    if beside:
        step_x = min((box.width + _AIR) / columns.per_line, columns.place + 4 * _AIR)
        step_y = min((box.height + _AIR) / 2, columns.place + 4 * _AIR)
        top = box.top + (box.height - step_y) / 2
        left = box.right - columns.place / 2 - (columns.per_line - 1) * step_x
        places = [(i // 2, i % 2) for i in range(number)]
        return [(micrometres(left + c * step_x), micrometres(top + r * step_y)) for c, r in places]
    step = columns.place + _AIR
    places = [(i % columns.per_line, i // columns.per_line) for i in range(number)]
    half = columns.place / 2
    return [
        (micrometres(box.left + half + c * step), micrometres(box.top + half + r * step)) for c, r in places
    ]
