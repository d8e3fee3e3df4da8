"""Part and whole: a number in its frame, two parts below it; what is missing is worked out."""

import math
from dataclasses import dataclass, field, replace
from typing import Literal

from printkit.chance import Chance
from printkit.checks import Flag, OneOf, Whole, Words, setting
from printkit.errors import listing
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.layout import SMALLEST_THING, set_marked, shape_of, size_problem
from printkit.materials.making import fitting_sizes, piece_of
from printkit.materials.motifs import chosen_motif
from printkit.materials.naming import SPARSE
from printkit.materials.part_whole.faces import Look, back, front, place_fits, thing_size, ways_back
from printkit.materials.part_whole.guidance import GUIDANCE
from printkit.materials.spread import spread_places
from printkit.materials.strips.groups import Shape
from printkit.pack import Tray
from printkit.pieces import Piece


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for part-whole cards."""

    total: int | None = setting(
        None, Whole(2, 20), "the whole; unset: the child's sums_to or last number, from 2 to 10"
    )
    show: Literal["things", "places", "numerals"] = setting(
        "things",
        OneOf(("things", "places", "numerals")),
        "what stands in the frames: things, places for counters, or numerals",
    )
    unknown: Literal["part", "both", "whole"] = setting(
        "part",
        OneOf(("part", "both", "whole")),
        "what is asked for: one part, both parts (a card for each whole up to the total), or the whole",
    )
    zero: bool = setting(False, Flag(), "whether a part may be 0")
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is counted")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """The whole and its parts, left and right; `unknown` is what the front leaves open.

    With both parts open `parts` is None and `ways` holds every pair that makes the whole, as the back
    does.
    """

    whole: int
    parts: tuple[int, int] | None
    unknown: Literal["left", "right", "both", "whole"]
    shown: Literal["things", "places", "numerals"]
    ways: tuple[tuple[int, int], ...] = field(default=(), metadata=SPARSE)


SIZES = {
    #          lying         fits a sheet of A4 and of Letter
    "small":  (62.0, 62.0),   # 12 times
    "medium": (94.0, 83.5),   # 6 times
    "large":  (125.0, 94.0),  # 4 times
}  # fmt: skip
_FIGURE = {"things": SMALLEST_THING, "numerals": 8.0}
"""mm of the smallest thing or numeral."""


def ways(total: int, *, zero: bool) -> tuple[tuple[int, int], ...]:
    """Every pair that makes `total`, by its first part: total + 1 of them with zero, else total - 1."""
    least = 0 if zero else 1
    return tuple((part, total - part) for part in range(least, total - least + 1))


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A card for each way to part the whole, or for each whole with both parts open."""
    settings: Settings = tray.settings
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    sizes = fitting_sizes(tray, room, SIZES)
    if not sizes:
        return refused(
            size_problem(tray, room, tray.size if isinstance(tray.size, tuple) else SIZES["small"])
        )
    total = total_of(tray)
    shape = Shape(*shape_of(motif.drawing(20.0)))
    found = _found(tray, sizes, total, shape)
    if found is None:
        return refused(_too_many(tray, sizes[-1], total, shape))
    drawing = motif.drawing(found.thing) if settings.show == "things" else None
    if settings.unknown == "both":
        pieces = [_whole(tray, found, drawing, whole) for whole in range(2, total + 1)]
    else:
        pieces = _parted(seed, tray, found, drawing, total)
    need = (
        Need(what="counters", count=total, size=tray.child.counter)
        if settings.show == "places"
        else Need(what="wipe-off pen", count=1)
    )
    return Made(pieces=set_marked(pieces), needs=(need,))


def total_of(tray: Tray) -> int:
    """The whole of a tray: the one asked for, or what fits the child."""
    child = tray.child
    return tray.settings.total or max(2, min(10, child.sums_to or child.numbers[1]))


# --- which cards -----------------------------------------------------------------------------


def _parted(seed: int, tray: Tray, look: Look, drawing, total: int) -> list[Piece]:
    """Each way once: every part is asked for once, left and right about as often."""
    pairs = ways(total, zero=tray.settings.zero)
    if tray.settings.unknown == "whole":
        return [_card(tray, look, drawing, total, pair, "whole", f"{pair[0]}-{pair[1]}") for pair in pairs]
    chance = Chance(seed, tray.child.name, tray.set, "sides")
    pieces = []
    for (known, asked), side in zip(pairs, spread_places([(0, 1)] * len(pairs), chance), strict=True):
        parts = (asked, known) if side == 0 else (known, asked)
        pieces.append(_card(tray, look, drawing, total, parts, ("left", "right")[side], f"{total}-{known}"))
    return pieces


def _card(tray: Tray, look: Look, drawing, total: int, parts, unknown, key: str) -> Piece:
    numbers = (total, *parts)
    behind, control = back(look, numbers)
    facts = Facts(whole=total, parts=parts, unknown=unknown, shown=tray.settings.show)
    shown = tuple(
        None if name == unknown else n for name, n in zip(("whole", "left", "right"), numbers, strict=True)
    )
    face = front(look, shown, drawing)
    return piece_of(tray, look.size, key, face, facts, back=behind, control=control)


def _whole(tray: Tray, look: Look, drawing, whole: int) -> Piece:
    pairs = ways(whole, zero=tray.settings.zero)
    behind, control = ways_back(look, pairs)
    facts = Facts(whole=whole, parts=None, unknown="both", shown=tray.settings.show, ways=pairs)
    face = front(look, (whole, None, None), drawing)
    return piece_of(tray, look.size, str(whole), face, facts, back=behind, control=control)


# --- what fits -------------------------------------------------------------------------------


def _look(tray: Tray, size: tuple[float, float], total: int, shape: Shape, least: float = 0.0) -> Look | None:
    """How the cards of a set look at that size; None if it is too small."""
    look = Look(tray=tray, size=size, total=total, shape=shape, thing=0.0, zero=tray.settings.zero)
    if tray.settings.show == "places":
        place = tray.child.counter + 2
        looks = (replace(look, upper=upper, thing=place) for upper in _UPPER)
        return next((each for each in looks if place_fits(each, place)), None)
    thing = thing_size(look)
    if thing < max(least, _FIGURE[tray.settings.show]):
        return None
    return replace(look, thing=math.floor(thing * 100) / 100)


_UPPER = (0.5, 0.4, 0.34, 0.3, 0.26)
"""Shares of the height that the frame of a whole may take where places need room."""
_PLEASING = 6.5
"""mm across of things that please; smaller ones only where no card has room for these."""


def _found(tray: Tray, sizes, total: int, shape: Shape) -> Look | None:
    """The smallest card that pleases, or else the smallest that holds the set."""
    looks = (_look(tray, size, total, shape, least) for least in (_PLEASING, 0.0) for size in sizes)
    return needs.nearest((look for look in looks if look), lambda look: _merit(tray, look))


def _merit(tray: Tray, look: Look) -> float:
    """How far a card meets the need of a child who needs what stands on it large."""
    if tray.settings.show == "numerals":
        return needs.merit(tray.child, numeral=look.thing)
    return needs.merit(tray.child, look.thing)


def _too_many(tray: Tray, size: tuple[float, float], total: int, shape: Shape):
    fits = [n for n in range(2, total) if _look(tray, size, n, shape)]
    things = {
        "things": f"{total} things of {SMALLEST_THING:g} mm",
        "places": f"{total} places of {tray.child.counter + 2:g} mm",
        "numerals": f"numerals of {_FIGURE['numerals']:g} mm",
    }[tray.settings.show]
    possible = [f"total = {max(fits)} or less"] if fits else []
    possible += ["a larger card"]
    possible += ["show = 'numerals'"] if tray.settings.show != "numerals" else []
    return problem(
        tray,
        "size" if tray.size is not None else "show",
        f"{things} and their parts do not fit a card of {size[0]:g} x {size[1]:g} mm",
        listing(possible),
    )


MATERIAL = Material(
    name="part-whole",
    order=55,
    line="a whole in its frame and two parts below it, one of the three or both parts to be found",
    track="operations",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
