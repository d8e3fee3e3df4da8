"""Lacing cards: a large picture with a rim all round it, and evenly spaced holes to punch in that."""

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import TYPE_CHECKING

from printkit.chance import Chance
from printkit.checks import Millimetres, Whole, Words, setting
from printkit.errors import listing, nearest
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.contours import (
    Point,
    distance_to,
    inset,
    length_of,
    places_along,
    silhouette,
    simplified,
    widened,
)
from printkit.materials.lacing.guidance import GUIDANCE, SPACING, spacing_of
from printkit.materials.layout import (
    CONTENT_INSET,
    MARK_STRIP,
    accent,
    fits_sheet,
    set_marked,
    shape_of,
)
from printkit.materials.making import piece_of
from printkit.pack import Tray
from printkit.pieces import WHITE, Color, Dot, Drawing, Face, Mark, Picture, Piece, Shape
from printkit.units import micrometres

if TYPE_CHECKING:
    from printkit.pictures import Ink, Motif

HOLE = 6.0
"""mm across a hole: that of an office punch (ISO 838: 6 +- 0.5 mm)."""
APART = 15.0
"""mm between the centers of any two holes at least."""
EDGE = 8.0
"""mm from the edge of a hole to the contour of the card at least, so that it does not tear."""
CLEAR = 2.0
"""mm from the edge of a hole to the picture at least."""
RIM = EDGE + HOLE + CLEAR + 3.5
"""mm from the picture to the contour; the last 3.5 mm are what whole pixels and bends may take."""
SHORTEST = 120.0 - 2 * RIM
"""mm of the picture: with its rim it is 120 mm and more."""
USUAL = 160.0
LACE = 1.3
"""How many times the way round a lace is long (derived): enough to pull, no more than needed."""
_FEWEST = 8
_BEND = 2.0
_BAY = 14.0
"""mm: half the width of a bay of the picture that the contour does not go into."""
_AROUND = RIM + CONTENT_INSET
"""mm from the picture to the edge of the piece: a rim with a little air."""
_INK: Color = (0.25,)
_LENGTHS = {"small": 120.0, "medium": 150.0, "large": 180.0}


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for lacing."""

    count: int = setting(2, Whole(1, 12), "how many cards, each with another picture")
    length: float | None = setting(
        None, Millimetres(SHORTEST, 400), "mm of the longer side of the picture; unset: up to 160"
    )
    spacing: float | None = setting(
        None,
        Millimetres(APART, 40),
        f"mm from hole to hole, or a little more; unset: {SPACING:g}, farther for a child who needs an easy grip",
    )
    motif: str | None = setting(
        None, Words("the name of a motif"), "the one picture of the theme to be laced"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a lacing card; lengths in mm.

    `places` are the centers of the holes from the top left corner of the card, clockwise from the start.
    `spacing` is the way from each to the next, `closest` the least straight distance between any two
    centers, `to_edge` the least from the edge of a hole to the contour, `to_picture` to what is drawn.
    `lace` is a length that does.
    """

    motif: str
    length: float
    holes: int
    spacing: float
    closest: float
    to_edge: float
    to_picture: float
    lace: int
    places: tuple[tuple[float, float], ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Laced:
    """The holes and the contour of the card, from the picture's top left corner, or why it has none."""

    places: tuple[Point, ...] = ()
    contour: tuple[Point, ...] = ()
    way: float = 0.0
    to_edge: float = 0.0
    to_picture: float = 0.0
    why_not: str = ""


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Lacing cards, each as large as its picture needs."""
    settings: Settings = tray.settings
    theme = tray.child.theme
    keys = [motif.key for motif in theme.motifs]
    if settings.motif is not None and settings.motif not in keys:
        found, near = f"the theme has no motif '{settings.motif}'", nearest(settings.motif, keys)
        return refused(problem(tray, "motif", found, listing(keys), near))
    if settings.motif is not None:
        return _one(tray, room, theme.motif(settings.motif))
    chance = Chance(seed, tray.child.name, tray.set, "pictures")
    mixed = chance.shuffled(theme.motifs)
    chosen: list[Piece] = []
    for motif in sorted(mixed, key=lambda motif: not motif.counted):
        length = _length(tray, room, motif)
        found = laced(motif, tray.child.ink, length, spacing_of(tray)) if length else None
        if found is not None and not found.why_not:
            chosen.append(_card(tray, motif, length, found))
        if len(chosen) == settings.count:
            break
    if not chosen:
        return refused(_nothing(tray, room))
    if len(chosen) < settings.count and settings.count > Settings().count:
        said = f"the theme has no {settings.count} pictures that can be laced"
        allowed = (
            f"at most {len(chosen)} with this theme: {listing(sorted(p.key for p in chosen), last='and')}"
        )
        return refused(problem(tray, "count", said, allowed))
    return _made(chosen)


def _made(pieces: list[Piece]) -> Made:
    gather = (Need(what="laces", count=len(pieces)), Need(what="punch", count=1))
    return Made(pieces=set_marked(pieces), needs=gather)


def _one(tray: Tray, room: Room, motif: "Motif") -> Made:
    """The card of the one picture that the pack file names."""
    settings: Settings = tray.settings
    if settings.count > Settings().count:
        found = f"with one motif named there is 1 card, not {settings.count}"
        return refused(problem(tray, "count", found, "count = 1, or no motif"))
    length = _length(tray, room, motif)
    if not length:
        return refused(_too_large(tray, room, motif))
    found = laced(motif, tray.child.ink, length, spacing_of(tray))
    if found.why_not:
        would = listing(_would_do(tray, room)) or "a theme with pictures in one part"
        return refused(problem(tray, "motif", f"'{motif.key}' {found.why_not}", would))
    return _made([_card(tray, motif, length, found)])


def _nothing(tray: Tray, room: Room):
    """No picture of the theme can be laced on this paper."""
    if not any(_length(tray, room, motif) for motif in tray.child.theme.motifs):
        return _too_large(tray, room, tray.child.theme.motifs[0])
    return problem(
        tray,
        "theme",
        f"no picture of the theme '{tray.child.theme.name}' is in one part",
        "a theme with pictures in one part",
    )


def _too_large(tray: Tray, room: Room, motif: "Motif"):
    length = tray.settings.length or SHORTEST
    size = tray.size if isinstance(tray.size, tuple) else _size(motif, length)
    if isinstance(tray.size, tuple) and fits_sheet(size, room):
        least = _size(motif, SHORTEST)
        found = f"on a card of {size[0]:g} x {size[1]:g} mm the picture is shorter than {SHORTEST:g} mm"
        return problem(tray, "size", found, f"at least {least[0]:.0f} x {least[1]:.0f} mm for '{motif.key}'")
    return problem(
        tray,
        "length" if tray.settings.length else "size",
        f"a card of {size[0]:.4g} x {size[1]:.4g} mm, with '{motif.key}' {length:g} mm long, is larger than "
        "the sheet",
        f"at most {room.width:.4g} x {room.height:.4g} mm within the margins and above the foot",
    )


def _would_do(tray: Tray, room: Room) -> list[str]:
    """The motifs that could be laced."""
    found = []
    for motif in tray.child.theme.motifs:
        length = _length(tray, room, motif)
        if length and not laced(motif, tray.child.ink, length, spacing_of(tray)).why_not:
            found.append(motif.key)
    return found


# --- sizes -----------------------------------------------------------------------------------


def _size(motif: "Motif", length: float) -> tuple[float, float]:
    """The card that a picture `length` mm long needs."""
    wide, high = shape_of(motif.drawing("color", size=SHORTEST))
    return (
        micrometres(length * wide + 2 * _AROUND),
        micrometres(length * high + 2 * _AROUND + MARK_STRIP),
    )


def _length(tray: Tray, room: Room, motif: "Motif") -> float:
    """How long the picture is: as asked for, or as long as a sheet allows; 0.0 if it does not fit."""
    wide, high = shape_of(motif.drawing("color", size=SHORTEST))

    def most(width: float, height: float) -> float:
        return min((width - 2 * _AROUND) / wide, (height - 2 * _AROUND - MARK_STRIP) / high)

    if isinstance(tray.size, tuple):
        length = min(most(*tray.size), tray.settings.length or 400.0)
        return _down(length) if length >= SHORTEST and fits_sheet(tray.size, room) else 0.0
    largest = max(most(*room), most(room.height, room.width))
    wanted = tray.settings.length or (_LENGTHS[tray.size] if tray.size else None)
    if wanted is not None:
        return wanted if wanted <= largest + 1e-6 else 0.0
    return _down(min(largest, USUAL)) if largest >= SHORTEST else 0.0


def _down(length: float) -> float:
    """In whole tenths of a mm, rounded down."""
    return math.floor(length * 10 + 1e-6) / 10


# --- holes -----------------------------------------------------------------------------------


@lru_cache(maxsize=256)
def laced(motif: "Motif", ink: "Ink", length: float, spacing: float) -> Laced:
    """The holes of a picture `length` mm long, `spacing` mm from one to the next or a little more."""
    drawing = motif.drawing(ink, size=round(length, 1))
    wide, high = shape_of(drawing)
    shape = silhouette(drawing, length * wide, length * high)
    if shape.parts > 1:
        return Laced(why_not=f"lies in {shape.parts} parts, and a lace holds only one together")
    card = widened(shape, RIM, _BAY)
    way = inset(card, EDGE + HOLE / 2, _BEND)
    contour, edge = simplified(card.contour, 0.05), simplified(shape.contour, 0.05)
    for count in range(int(length_of(way) / spacing), _FEWEST - 1, -1):
        step = length_of(way) / count
        for shift in range(6):
            places = places_along(way, count, step * shift / 6)
            if min(math.dist(a, b) for a, b in combinations(places, 2)) < APART + 0.05:
                continue
            to_edge = min(distance_to(place, contour) for place in places) - HOLE / 2
            to_picture = min(distance_to(place, edge) for place in places) - HOLE / 2
            if to_edge >= EDGE and to_picture >= CLEAR:
                return Laced(
                    places=_from_top(places, length * wide),
                    contour=contour,
                    way=length_of(way),
                    to_edge=to_edge,
                    to_picture=to_picture,
                )
    return Laced(why_not="has no room for holes far enough apart")


def _from_top(places: tuple[Point, ...], width: float) -> tuple[Point, ...]:
    """The same places from the one nearest to the middle of the upper edge on."""
    first = min(range(len(places)), key=lambda i: math.dist(places[i], (width / 2, 0.0)))
    return (*places[first:], *places[:first])


# --- drawing ---------------------------------------------------------------------------------


def _card(tray: Tray, motif: "Motif", length: float, found: Laced) -> Piece:
    drawing = motif.drawing(tray.child.ink, size=round(length, 1))
    wide, high = shape_of(drawing)
    size = tray.size if isinstance(tray.size, tuple) else _size(motif, length)
    width, height = micrometres(length * wide), micrometres(length * high)
    left = micrometres((size[0] - width) / 2)
    top = micrometres((size[1] - MARK_STRIP - height) / 2)
    places = tuple((micrometres(left + x), micrometres(top + y)) for x, y in found.places)
    shown = Picture(drawing=drawing, x=left, y=top, width=width, height=height)
    marks: list[Mark] = [shown, _edge(tray, found.contour, left, top)]
    for number, (x, y) in enumerate(places):
        marks.append(Dot(x=x, y=y, radius=HOLE / 2 - 0.2, fill=WHITE, stroke=_INK, line=0.4))
        marks.append(Dot(x=x, y=y, radius=0.45 if number else 1.6, fill=_INK))
    facts = Facts(
        motif=motif.key,
        length=max(width, height),
        holes=len(places),
        spacing=round(found.way / len(places), 2),
        closest=round(min(math.dist(a, b) for a, b in combinations(places, 2)), 2),
        to_edge=round(found.to_edge, 2),
        to_picture=round(found.to_picture, 2),
        lace=math.ceil(found.way * LACE / 50) * 50,
        places=places,
    )
    return piece_of(tray, size, motif.key, Face(marks=tuple(marks)), facts)


def _edge(tray: Tray, contour: tuple[Point, ...], left: float, top: float) -> Picture:
    """The contour of the card: a fine line to cut along with scissors."""
    across, down = [x for x, _ in contour], [y for _, y in contour]
    x, y = min(across), min(down)
    width, height = max(across) - x, max(down) - y
    moved = [(round(px - x, 3), round(py - y, 3)) for px, py in contour]
    path = (("M", *moved[0]), *(("L", *point) for point in moved[1:]), ("Z",))
    line = Shape(path=path, stroke=accent(tray), stroke_width=0.25, join="round")
    return Picture(
        drawing=Drawing(name="edge of a lacing card", width=width, height=height, shapes=(line,)),
        x=micrometres(left + x), y=micrometres(top + y), width=micrometres(width), height=micrometres(height),
    )  # fmt: skip


MATERIAL = Material(
    name="lacing",
    order=170,
    line="large pictures with holes to punch all round them, to be laced",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
