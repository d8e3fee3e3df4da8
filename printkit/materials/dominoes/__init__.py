"""Dominoes: tiles with two quantities, each two numbers together on exactly one of them."""

from dataclasses import dataclass
from itertools import combinations_with_replacement
from typing import Literal

from printkit.checks import OneOf, Whole, Words, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.dominoes.guidance import GUIDANCE
from printkit.materials.dominoes.values import tiles_of, used
from printkit.materials.layout import (
    CONTENT_INSET,
    SMALLEST_THING,
    SOFT,
    accent,
    content,
    fits_sheet,
    hairline,
    numeral,
    numeral_height,
    set_marked,
    size_problem,
    sizes_for,
)
from printkit.materials.motifs import ChosenMotif, chosen_motif
from printkit.materials.quantities import Quantities, quantities
from printkit.pack import Tray
from printkit.pieces import Area, Face, Line, Mark, Piece
from printkit.texts import Note
from printkit.units import Rect, micrometres

SIZES = {
    #          lying           on a sheet of A4 and of Letter
    "small": (62.0, 41.5),  # 18 and 18
    "medium": (94.0, 41.5),  # 12 and 12
    "large": (125.0, 62.0),  # 6 and 6
}
_BESIDE = 2.5
"""mm that things keep from the line in the middle."""
_LINES = 0.4
"""mm that the places keep from the content's edge for the lines of frames."""
Half = Literal["things", "numeral"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for dominoes."""

    halves: Literal["things", "mixed"] = setting(
        "things",
        OneOf(("things", "mixed")),
        "things on both halves, or things on one and a numeral on the other",
    )
    values: int | None = setting(
        None,
        Whole(2, 13),
        "how many different numbers, from the child's first one on; unset: up to seven, which is 28 tiles,"
        " none beyond six if they begin below four",
    )
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is counted")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a tile: the number on each half of the lying tile, and how each is shown."""

    left: int
    right: int
    shows: tuple[Half, Half]


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A full set of tiles: every two of the numbers once, doubles too."""
    settings: Settings = tray.settings
    there = tray.child.numbers[1] - tray.child.numbers[0] + 1
    if settings.values is not None and settings.values > there:
        first, last = tray.child.numbers
        return refused(
            problem(
                tray,
                "values",
                f"{settings.values} different numbers, but from {first} to {last} there are only {there}",
                f"at most {there}, or a wider range of numbers" if there > 1 else "a wider range of numbers",
            )
        )
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    sizes = sizes_for(tray, room, SIZES)
    if not sizes or not fits_sheet(sizes[0], room):
        return refused(size_problem(tray, room, sizes[0] if sizes else SIZES["small"]))
    first, last = used(tray)
    tried = ((size, quantities(motif, range(first, last + 1), halves_of(size)[0])) for size in sizes)
    found = needs.nearest(
        (item for item in tried if item[1].thing >= SMALLEST_THING), lambda item: _merit(tray, *item)
    )
    if found:
        size, things = found
        pieces = [_piece(tray, size, things, left, right) for left, right in _pairs(first, last)]
        return Made(pieces=set_marked(pieces), notes=_notes(tray))
    return refused(_too_many(tray, last, sizes[-1], motif))


def _merit(tray: Tray, size: tuple[float, float], things: Quantities) -> float:
    mixed = tray.settings.halves == "mixed"
    return needs.merit(tray.child, things.thing, _figure(tray, halves_of(size)[0]) if mixed else None)


def _pairs(first: int, last: int) -> tuple[tuple[int, int], ...]:
    """Every two numbers once, the smaller on the left: 0-0, 0-1, ... 1-1, 1-2, ..."""
    return tuple(combinations_with_replacement(range(first, last + 1), 2))


def _notes(tray: Tray) -> tuple[str, ...]:
    first, last = used(tray)
    if (first, last) == tray.child.numbers:
        return ()
    return (Note("notes.domino_numbers", tiles=tiles_of(last - first + 1), first=first, last=last),)


def _too_many(tray: Tray, last: int, size: tuple[float, float], motif: ChosenMotif):
    box = halves_of(size)[0]
    fitting = (n for n in range(1, last) if quantities(motif, range(n + 1), box).thing >= SMALLEST_THING)
    most = max(fitting, default=0)
    return problem(
        tray,
        "size" if tray.size is not None else "numbers",
        f"{last} things of {SMALLEST_THING:g} mm or more do not fit half a tile of "
        f"{size[0]:.4g} x {size[1]:.4g} mm",
        f"at most {most} there, or a larger tile" if most else "a larger tile",
    )


# --- drawing ---------------------------------------------------------------------------------


def halves_of(size: tuple[float, float]) -> tuple[Rect, Rect]:
    """The places for things on both halves of a lying tile, in mm from its top left."""
    box, middle = content(size).inset(_LINES), size[0] / 2
    width = micrometres(middle - _BESIDE - box.left)
    return (
        Rect(box.left, box.top, width, box.height),
        Rect(micrometres(middle + _BESIDE), box.top, width, box.height),
    )


def shown(halves: str, left: int, right: int) -> tuple[Half, Half]:
    """Which half has things and which a numeral, so that each number is a numeral about as often."""
    if halves == "things":
        return "things", "things"
    return ("numeral", "things") if (left + right) % 2 else ("things", "numeral")


def _piece(tray: Tray, size: tuple[float, float], things: Quantities, left: int, right: int) -> Piece:
    shows = shown(tray.settings.halves, left, right)
    middle = micrometres(size[0] / 2)
    line = Line(x1=middle, y1=CONTENT_INSET, x2=middle, y2=content(size).bottom, color=SOFT, line=0.3)
    marks: list[Mark] = [hairline(size, accent(tray)), line]
    areas: list[Area] = []
    for number, how, box in zip((left, right), shows, halves_of(size), strict=True):
        if how == "things":
            drawn, area = things.drawn(number, box)
            marks += drawn
            areas.append(area)
        else:
            marks += _numeral(tray, number, box)
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=f"{left}-{right}",
        width=size[0],
        height=size[1],
        front=Face(marks=tuple(marks), areas=tuple(areas)),
        facts=Facts(left=left, right=right, shows=shows),
        stock=tray.stock,
    )


def _figure(tray: Tray, box: Rect) -> float:
    """The height in mm of all numerals of a set."""
    first, last = used(tray)
    return numeral_height(range(first, last + 1), 0.62 * box.height, box.width - 3, tray.child.numerals)


def _numeral(tray: Tray, number: int, box: Rect) -> tuple[Mark, Mark]:
    height = _figure(tray, box)
    base = box.top + (box.height + height) / 2
    return numeral(str(number), box.left + box.width / 2, base, height, tray.child.numerals)


MATERIAL = Material(
    name="dominoes",
    order=44,
    line="tiles with two quantities to lay end to end; every two numbers together on one tile",
    track="counting",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
