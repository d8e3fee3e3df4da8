"""Hundred chart: numbers in rows of ten, some left blank, with tiles to lay there; all of them behind."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from printkit.chance import Chance
from printkit.checks import Flag, OneOf, Whole, setting
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, when, word
from printkit.materials.layout import (
    BEHIND,
    FAINT,
    INK,
    SOFT,
    accent,
    border,
    content,
    fits_sheet,
    hairline,
    numeral,
    numeral_height,
    size_problem,
)
from printkit.materials.making import piece_of
from printkit.materials.tile_faces import PLAY, numeral_tile, roomy_inset, tile_height
from printkit.pack import Tray
from printkit.pieces import Box, Color, Face, Line, Mark, Piece
from printkit.units import Rect, micrometres

BLANKS = ("some", "range", "evens", "fives", "tens", "all", "none")


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for hundred charts."""

    start: int = setting(1, Whole(0, 1), "the first number of the chart, 0 or 1")
    rows: int = setting(10, Whole(1, 10), "rows of ten")
    blanks: Literal["some", "range", "evens", "fives", "tens", "all", "none"] = setting(
        "some",
        OneOf(BLANKS),
        "which numbers are left out: some of the child's numbers by chance, all of those, every second, "
        "fifth or tenth number of the chart, all, or none",
    )
    tiles: bool = setting(True, Flag(), "whether there are tiles for the blanks")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a chart: its first and last number and its blanks; of a tile: its `numeral`.

    `cell_mm` is the side of a place of the chart.
    """

    first: int | None
    last: int | None
    blanks: tuple[int, ...]
    numeral: int | None
    cell_mm: float


_NAMED = {"small": 13.0, "medium": 16.0, "large": 100.0}
"""mm of a place at most, for a size that is named; else as large as the sheet allows."""
_SMALLEST_FIGURE = 2.0
_MOST_BY_CHANCE = 20
_BORDER = 13.0
_FIELD = 22.0
"""mm of the lowest field for loose tiles under a chart."""
_AIR = 6.0
_EDGE = 4.0
"""mm that a chart keeps from the edge of what can be printed: its back may be shifted a little."""
_NARROW = 120.0
"""mm of the width of a sheet below which a chart takes all of it."""


def make(seed: int, tray: Tray, room: Room) -> Made:
    """The chart as a whole sheet (or cut to the size asked for), and a tile for each blank."""
    own = isinstance(tray.size, tuple)
    size = tray.size if own else tuple(room)
    if not fits_sheet(size, room):
        return refused(size_problem(tray, room, size))
    settings: Settings = tray.settings
    box = content(size).inset(1.5) if own else Rect(0, 0, *size).inset(_EDGE if size[0] >= _NARROW else 0.5)
    cell = _cell(tray, box)
    tile = (micrometres(cell - PLAY), micrometres(cell - PLAY))
    numbers = range(settings.start, settings.start + 10 * settings.rows)
    figure = _figure_of(tray, numbers, cell)
    if figure < _SMALLEST_FIGURE:
        return refused(
            problem(
                tray,
                "size" if own else "paper",
                f"places of {cell:.3g} mm are too small for numbers and tiles",
                f"at least {_least_width(tray)} mm wide and "
                f"{_least_width(tray) * settings.rows // 10} mm high",
            )
        )
    missing = blanks_of(seed, tray)
    chart = _chart(tray, size, box, cell, missing, cut=own)
    tiles = [
        piece_of(
            tray, tile, f"tile-{number}", numeral_tile(number, tile, figure, tray.child.numerals),
            Facts(first=None, last=None, blanks=(), numeral=number, cell_mm=cell),
        )
        for number in (missing if settings.tiles else ())
    ]  # fmt: skip
    return Made(pieces=(chart, *tiles))


def _cell(tray: Tray, box: Rect) -> float:
    most = _NAMED[tray.size] if isinstance(tray.size, str) else 100.0
    side = min(most, box.width / 10, box.height / tray.settings.rows)
    return max(0.0, int(side * 10) / 10)


def _figure_of(tray: Tray, numbers: range, cell: float) -> float:
    """The height of the numerals on the tiles of a chart with places of `cell` mm."""
    side = cell - PLAY
    return tile_height(numbers, (side, side), tray.child.numerals, roomy_inset(side)) if side > 0 else 0.0


def _least_width(tray: Tray) -> int:
    """The least width of a chart in mm at which its tiles can be read."""
    numbers = range(tray.settings.start, tray.settings.start + 10 * tray.settings.rows)
    around = 16 if isinstance(tray.size, tuple) else 1
    sides = (10.0 + n / 10 for n in range(200))
    enough = next(side for side in sides if _figure_of(tray, numbers, side) >= _SMALLEST_FIGURE)
    return int(10 * enough) + around


# --- blanks ----------------------------------------------------------------------------------


def blanks_of(seed: int, tray: Tray) -> tuple[int, ...]:
    """The numbers left out, climbing."""
    settings: Settings = tray.settings
    first, last = settings.start, settings.start + 10 * settings.rows - 1
    numbers = range(first, last + 1)
    step = {"evens": 2, "fives": 5, "tens": 10}.get(settings.blanks)
    if step:
        return tuple(n for n in numbers if n % step == 0)
    if settings.blanks in ("all", "none"):
        return tuple(numbers) if settings.blanks == "all" else ()
    low, high = tray.child.numbers
    own = [n for n in numbers if low <= n <= high] or list(numbers)
    if settings.blanks == "range":
        return tuple(own)
    return _some(own, Chance(seed, tray.child.name, tray.set, "blanks"))


def _some(numbers: Sequence[int], chance: Chance) -> tuple[int, ...]:
    """A third of the numbers, 20 at most: no two side by side or below one another while others are left."""
    count = min(_MOST_BY_CHANCE, -(-len(numbers) // 3))
    order = chance.shuffled(numbers)
    chosen: list[int] = []
    for alone in (True, False):
        for n in order:
            if len(chosen) < count and n not in chosen and not (alone and _beside(n, chosen)):
                chosen.append(n)
    return tuple(sorted(chosen))


def _beside(n: int, chosen: Sequence[int]) -> bool:
    return any(abs(n - other) in (1, 10) for other in chosen)


# --- the chart -------------------------------------------------------------------------------


def _chart(
    tray: Tray,
    size: tuple[float, float],
    box: Rect,
    cell: float,
    missing: Sequence[int],
    *,
    cut: bool,
) -> Piece:
    settings: Settings = tray.settings
    first = settings.start
    last = first + 10 * settings.rows - 1
    numbers = range(first, last + 1)
    strip, grid, field = _bands(tray, box, cell, room_for_tiles=bool(missing) and settings.tiles, cut=cut)
    frame = [hairline(size, accent(tray))] if cut else []
    marks: list[Mark] = [*frame, *_grid(grid, cell, settings.rows)]
    if strip is not None:
        marks += border(tray.child.theme, tray.child.ink, strip)
    if field is not None:
        marks.append(_field(field))
    for n in numbers:
        spot = _spot(grid, cell, n - first)
        if n in missing:
            marks.append(_place(spot))
        else:
            marks += _figure(tray, numbers, n, spot, INK)
    behind = None
    control = None
    if missing:
        mirrored = Rect(micrometres(size[0] - grid.right), grid.top, grid.width, grid.height)
        outline = () if field is None else (_field(field),)
        behind = Face(marks=(*frame, *outline, *_behind(tray, mirrored, cell, numbers, missing)))
        control = mirrored
    facts = Facts(first=first, last=last, blanks=tuple(missing), numeral=None, cell_mm=cell)
    return piece_of(
        tray, size, "chart", Face(marks=tuple(marks)), facts, back=behind, control=control, cut=cut
    )


def _bands(tray: Tray, box: Rect, cell: float, *, room_for_tiles: bool, cut: bool):
    """The strip of the border, the grid and the field for loose tiles; None for what has no room."""
    high, wide = cell * tray.settings.rows, cell * 10
    spare = box.height - high
    strip = not cut and tray.child.theme.border is not None and spare >= _BORDER + _AIR
    spare -= _BORDER + _AIR if strip else 0.0
    top = box.top + (_BORDER + _AIR if strip else 0.0)
    left = micrometres(box.left + (box.width - wide) / 2)
    held = room_for_tiles and not cut and spare >= _FIELD + _AIR
    if not held:
        top += spare / 2
    grid = Rect(left, micrometres(top), wide, high)
    field = Rect(box.left, grid.bottom + _AIR, box.width, box.bottom - grid.bottom - _AIR) if held else None
    return Rect(box.left, box.top, box.width, _BORDER) if strip else None, grid, field


def _grid(grid: Rect, cell: float, rows: int, color: Color = SOFT) -> list[Mark]:
    """The outline and the inner lines; the line after every fifth column is a little stronger."""
    marks: list[Mark] = [
        Box(x=grid.left, y=grid.top, width=grid.width, height=grid.height, radius=1.5, stroke=color, line=0.6)
    ]
    for i in range(1, 10):
        x = micrometres(grid.left + i * cell)
        line = 0.6 if i == 5 else 0.25
        marks.append(Line(x1=x, y1=grid.top, x2=x, y2=grid.bottom, color=color, line=line))
    for i in range(1, rows):
        y = micrometres(grid.top + i * cell)
        marks.append(Line(x1=grid.left, y1=y, x2=grid.right, y2=y, color=color, line=0.25))
    return marks


def _spot(grid: Rect, cell: float, place: int) -> Rect:
    row, column = divmod(place, 10)
    return Rect(grid.left + column * cell, grid.top + row * cell, cell, cell)


def _place(spot: Rect) -> Box:
    """Where a tile is to be laid."""
    edge = spot.inset(1.2)
    return Box(
        x=micrometres(edge.left), y=micrometres(edge.top), width=micrometres(edge.width),
        height=micrometres(edge.height), radius=1.5, stroke=FAINT, line=0.4,
    )  # fmt: skip


def _field(field: Rect) -> Box:
    edge = field.inset(0.3)
    return Box(
        x=micrometres(edge.left), y=micrometres(edge.top), width=micrometres(edge.width),
        height=micrometres(edge.height), radius=5, stroke=FAINT, line=0.6,
    )  # fmt: skip


def _figure(tray: Tray, numbers: range, n: int, spot: Rect, color: Color) -> tuple[Mark, ...]:
    high = numeral_height(numbers, 0.5 * spot.height, spot.width - 5.0, tray.child.numerals)
    base = micrometres(spot.top + (spot.height + high) / 2 - 0.06 * high)
    return numeral(str(n), spot.left + spot.width / 2, base, high, tray.child.numerals, color=color)


def _behind(tray: Tray, grid: Rect, cell: float, numbers: range, missing: Sequence[int]) -> list[Mark]:
    """The whole chart: what is missing in front is darker."""
    marks = _grid(grid, cell, tray.settings.rows, FAINT)
    for n in numbers:
        marks += _figure(
            tray, numbers, n, _spot(grid, cell, n - numbers[0]), BEHIND if n in missing else FAINT
        )
    return marks


# --- guidance --------------------------------------------------------------------------------


def _about(tray: Tray, say: Say) -> str:
    first = tray.settings.start
    return say("label.numbers", first=first, last=first + 10 * tray.settings.rows - 1)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    if not pieces[0].facts.blanks:
        return Holding(variants=("none",))
    variants = ("all",) if settings.blanks == "all" else ()
    written = () if settings.tiles else ("written",)
    return Holding(variants=(*written, *variants), notes=when(small=settings.tiles))


def _examples(facts: Sequence[Facts], spelled: Spelled) -> dict[str, str]:
    """`n` a blank, else any number, `p` and `m` those beside it."""
    chart = next((fact for fact in facts if fact.numeral is None), None)
    if chart is None:
        return {}
    inner = [n for n in chart.blanks if chart.first < n < chart.last]
    n = inner[0] if inner else chart.first + 4
    return {"n": word(n, spelled), "p": word(n - 1, spelled), "m": word(n + 1, spelled)}


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    found = (piece.facts for piece in pieces if piece.back is not None)
    return Key(
        lines=tuple(
            say("guide.keys.hundred-chart.entry", blanks=", ".join(str(n) for n in fact.blanks))
            for fact in found
        )
    )


MATERIAL = Material(
    name="hundred-chart",
    order=16,
    line="numbers in rows of ten with blanks, tiles to lay there, and the whole chart behind",
    track="counting",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=Guidance(about=_about, holding=_holding, examples=_examples, key=_key),
)
