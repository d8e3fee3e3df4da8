"""Paths: ways to follow from a picture to a picture, and strips to snip, before any letter."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, TypeVar

from printkit.chance import Chance
from printkit.checks import Millimetres, OneOf, Whole, WordOrWords, Words, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.lanes import KINDS, Lane, drawn, steps, straight, wave, zigzag
from printkit.materials.layout import (
    SOFT,
    accent,
    content,
    fits_sheet,
    hairline,
    picture,
    set_marked,
    size_problem,
)
from printkit.materials.making import piece_of
from printkit.materials.motifs import chosen_motif
from printkit.materials.naming import SPARSE
from printkit.materials.paths.guidance import GUIDANCE
from printkit.materials.paths.travelers import pair, turned
from printkit.pack import Tray
from printkit.pieces import Color, Dot, Face, Mark, Piece
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Motif

T = TypeVar("T")

BROADEST, NARROWEST = 16.0, 8.0
"""mm of the ways from the first to the last of a kind where no width is asked for (design choice)."""
_BY = 4.0
"""mm between a picture and a way."""
_LARGEST_PICTURE = 36.0
_ABOVE_MARK = 1.3
"""mm that pictures keep above the strip of the set mark, so that 2 mm of white lie between them."""
_SHORTEST = 20.0
"""mm of the shortest way worth following."""
_BETWEEN, _DOT = 10.0, 1.6
"""mm between two snips; radius of the dot at the start."""
SIZES = {
    #          lying          fits a sheet of A4 and of Letter
    "small":  (125.0, 41.8),   # 8 and 8 times
    "medium": (188.0, 62.0),   # 4 and 4 times
    "large":  (188.0, 125.0),  # 2 and 2 times
}  # fmt: skip
SNIP_SIZES = {
    "small":  (125.0, 31.0),   # 12 and 12 times
    "medium": (188.0, 41.8),   # 6 and 6 times
    "large":  (188.0, 62.0),   # 4 and 4 times
}  # fmt: skip
GRIP_SIZE = (188.0, 83.5)
"""mm of a strip for a child who needs an easy grip: 3 on A4 and on Letter. Strips to be snipped across stay
as low as small scissors open, and are held at their end."""
SNIP_LINES = (188.0, 31.0)
"""mm of a strip to be snipped across: what small scissors open to (design choice)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for paths."""

    form: Literal["follow", "snip"] = setting(
        "follow",
        OneOf(("follow", "snip")),
        "ways to follow with finger and pen, or strips to cut with scissors",
    )
    kinds: tuple[str, ...] = setting(KINDS, WordOrWords(KINDS), "which ways there are, in this order")
    width: float | None = setting(
        None, Millimetres(6, 20), "mm from edge to edge of a way; unset: from 16 down to 8 in each kind"
    )
    count: int = setting(4, Whole(1, 12), "how many strips of each kind")
    motif: str | None = setting(
        None, Words("the name of a motif"), "which picture of the theme every way leads to"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a strip: `length` in mm along the middle of one way, `lanes` how many there are.

    `start` and `goal` are motifs; a strip to snip has its one picture at the end that is held, on the
    `held` side. `runs` says from which side the way is followed.
    """

    kind: str
    width: float
    length: float
    bends: int
    lanes: int
    goal: str
    runs: str
    start: str = field(default="", metadata=SPARSE)
    held: str = field(default="", metadata=SPARSE)


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Strips with a way each, kind by kind, broad ways before narrow ones."""
    settings: Settings = tray.settings
    goal = chosen_motif(seed, tray)
    if goal.problem is not None:
        return refused(goal.problem)
    pieces: list[Piece] = []
    for kind in settings.kinds:
        size = _size(tray, room, kind)
        if not fits_sheet(size, room):
            return refused(size_problem(tray, room, size))
        for place, width in enumerate(_widths(tray)):
            chance = Chance(seed, tray.child.name, tray.set, f"{kind}-{place + 1}")
            motifs = pair(tray, chance, goal.motif if settings.motif else None)
            laid = _first(_laid(tray, size, kind, place, w) for w in _tried(settings, width))
            if laid is None:
                return refused(_no_room(tray, size, kind, width))
            pieces.append(_strip(tray, size, f"{kind}-{place + 1}", kind, laid, motifs))
    narrowest = min(piece.facts.width for piece in pieces)
    return Made(pieces=set_marked(pieces), needs=_needs(tray), notes=needs.narrow_line(tray.child, narrowest))


def _needs(tray: Tray) -> tuple[Need, ...]:
    if tray.settings.form == "snip":
        return (Need(what="scissors", count=1),)
    return (Need(what="wipe-off pen" if tray.stock == "card" else "pencil", count=1),)


def _size(tray: Tray, room: Room, kind: str) -> tuple[float, float]:
    """The size of a strip: the one asked for, or the usual one, shorter on small paper."""
    snip = tray.settings.form == "snip"
    named = SNIP_SIZES if snip else SIZES
    if isinstance(tray.size, tuple):
        return tray.size
    if tray.size is not None:
        return named[tray.size]
    across = snip and kind == "lines"
    usual = SNIP_LINES if across else named["medium"]
    if needs.is_easy_grip(tray.child) and not across:
        usual = GRIP_SIZE
    if fits_sheet(usual, room):
        return usual
    long, short = max(room), min(room)
    return (min(long, usual[0]), min(short, usual[1]))


def _widths(tray: Tray) -> tuple[float, ...]:
    """The width of each way of a kind, in whole and half mm."""
    settings: Settings = tray.settings
    broadest, narrowest = needs.line(tray.child, BROADEST), needs.line(tray.child, NARROWEST)
    if settings.width is not None:
        return (settings.width,) * settings.count
    last = max(1, settings.count - 1)
    return tuple(round((broadest - (broadest - narrowest) * i / last) * 2) / 2 for i in range(settings.count))


def _tried(settings: Settings, width: float) -> tuple[float, ...]:
    """The widths a way may have, the wanted one first: narrower ones only where none was asked for."""
    if settings.width is not None:
        return (width,)
    return (width, *(narrower for narrower in (20.0, 16.0, 12.0, 10.0, 8.0, 6.0) if narrower < width))


# --- where the ways run ----------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class _Laid:
    """The ways of a strip, from where they are followed, and the boxes of start and goal picture."""

    lanes: tuple[Lane, ...]
    runs: str
    start: Rect | None
    goal: Rect


def _laid(tray: Tray, size: tuple[float, float], kind: str, place: int, width: float) -> _Laid | None:
    """The way number `place` (from 0) of a kind; None if the strip has no room for it."""
    if tray.settings.form == "snip":
        return _snips(tray, size, width) if kind == "lines" else _cut(tray, size, kind, place, width)
    return _followed(size, kind, place, width, _reading_side(tray))


def _reading_side(tray: Tray) -> str:
    """From which side the leading language is written: ways lead the same way."""
    from printkit.words import find

    leading = find(tray.child.languages[0], tray.place("languages"))
    return "right" if leading.direction == "rtl" else "left"


def _side(box: Rect) -> float:
    """mm of the pictures: square boxes at the ends, small enough to leave most to the way."""
    return min(box.height - _ABOVE_MARK, _LARGEST_PICTURE, box.width / 4.5)


def _followed(size, kind: str, place: int, width: float, runs: str) -> _Laid | None:
    box = content(size)
    side = _side(box)
    way = Rect(box.left + side + _BY, box.top, box.width - 2 * (side + _BY), box.height)
    lane = _lane(way, kind, place, width)
    if lane is None:
        return None
    low, high = box.bottom - _ABOVE_MARK - side, box.top
    middle = _level(box.top + box.height / 2, side, box)
    rise = _RISES[place % len(_RISES)] if kind == "lines" else 0
    first, last = {0: (middle, middle), 1: (low, high), -1: (high, low)}[rise]
    if kind == "corners" and lane.points[0][1] != way.top + way.height / 2:
        first, last = (_level(lane.points[end][1], side, box) for end in (0, -1))
    start = Rect(box.left, micrometres(first), side, side)
    goal = Rect(box.right - side, micrometres(last), side, side)
    if runs == "right":
        lane, start, goal = _mirrored(lane, size), _over(start, size), _over(goal, size)
    return _Laid(lanes=(lane,), runs=runs, start=start, goal=goal)


def _level(y: float, side: float, box: Rect) -> float:
    """The top of a picture whose middle lies as near as can be to a height."""
    return min(max(y - side / 2, box.top), box.bottom - _ABOVE_MARK - side)


def _mirrored(lane: Lane, size: tuple[float, float]) -> Lane:
    points = tuple((micrometres(size[0] - x), y) for x, y in lane.points)
    return Lane(points=points, width=lane.width, bends=lane.bends, rounded=lane.rounded)


def _over(box: Rect, size: tuple[float, float]) -> Rect:
    return Rect(micrometres(size[0] - box.right), box.top, box.width, box.height)


_RISES = (0, 1, -1)
"""Straight ways run level, up, down, and so on."""


def _lane(way: Rect, kind: str, place: int, width: float) -> Lane | None:
    """A way from the left to the right end of a box; where bends have no room there are fewer."""
    half = width / 2
    middle = way.top + way.height / 2
    start, end = (way.left + half, middle), (way.right - half, middle)
    reach = way.height / 2 - half
    if end[0] - start[0] < _SHORTEST or reach < 0:
        return None
    if kind == "lines":
        rise = _RISES[place % len(_RISES)] * reach
        return straight((start[0], middle + rise), (end[0], middle - rise), width)
    if kind == "waves":
        return _first(wave(start, end, reach, width, bends) for bends in range(place + 2, 0, -1))
    angular = (zigzag, steps) if place % 2 == 0 else (steps, zigzag)
    return _first(
        draw(start, end, reach, width, bends) for draw in angular for bends in range(place + 3, 0, -1)
    )


def _first(found: Iterable[T | None]) -> T | None:
    return next((each for each in found if each is not None), None)


def _held(tray: Tray) -> str:
    """The hand without the scissors holds the strip: the left one for a right-handed child."""
    return "left" if tray.child.hand == "right" else "right"


def _cut(tray: Tray, size, kind: str, place: int, width: float) -> _Laid | None:
    """A way from the free end of a strip to the picture at the end that is held."""
    box = content(size)
    side = _side(box)
    lane = _lane(Rect(box.left, box.top, box.width - side - _BY, box.height), kind, place, width)
    if lane is None:
        return None
    goal = Rect(box.right - side, _level(lane.points[-1][1], side, box), side, side)
    if _held(tray) == "right":
        return _Laid(lanes=(lane,), runs="left", start=None, goal=goal)
    return _Laid(lanes=(_mirrored(lane, size),), runs="right", start=None, goal=_over(goal, size))


def _snips(tray: Tray, size, width: float) -> _Laid | None:
    """Short ways straight across a strip, from the free end to the picture at the end that is held."""
    box = content(size)
    side = _side(box)
    room = box.width - side - _BY
    count = int((room - width) // (width + _BETWEEN)) + 1 if room >= width else 0
    if count < 2 or box.height < 2:
        return None
    first = box.left + room - width / 2 - (count - 1) * (width + _BETWEEN)
    first -= (first - width / 2 - box.left) / 2
    lanes = [
        straight((x, box.top), (x, box.bottom), width, rounded=False)
        for x in (first + i * (width + _BETWEEN) for i in range(count))
    ]
    middle = _level(box.top + box.height / 2, side, box)
    goal = Rect(box.right - side, micrometres(middle), side, side)
    if _held(tray) == "right":
        return _Laid(lanes=tuple(lanes), runs="left", start=None, goal=goal)
    mirrored = tuple(_mirrored(lane, size) for lane in lanes)
    return _Laid(lanes=mirrored, runs="right", start=None, goal=_over(goal, size))


def _no_room(tray: Tray, size: tuple[float, float], kind: str, width: float):
    """A strip too small for its way, and what would do."""
    narrower = [w for w in (14, 12, 10, 8, 6) if w < width and all(
        _laid(tray, size, kind, place, float(w)) for place in range(tray.settings.count)
    )]  # fmt: skip
    could = [f"ways of at most {narrower[0]:g} mm"] if narrower else []
    return problem(
        tray,
        "size" if tray.size is not None else "width",
        f"a strip of {size[0]:g} x {size[1]:g} mm has no room for {kind} {width:g} mm wide",
        " or ".join([*could, "a larger strip, such as 188 x 62 mm"]),
    )


# --- drawing ---------------------------------------------------------------------------------


def _colors(tray: Tray) -> tuple[Color, Color]:
    """The ground of a way and its edges: a breath of the theme's color, or white to be colored in."""
    if tray.child.ink == "outline":
        return (1.0,), (0.0,)
    tint = tuple(round(1 - (1 - part) * 0.16, 3) for part in accent(tray))
    return tint, SOFT


def _strip(tray: Tray, size, key: str, kind: str, laid: _Laid, motifs: "tuple[Motif, Motif]") -> Piece:
    start, goal = motifs
    ink = tray.child.ink
    marks: list[Mark] = [hairline(size, accent(tray))]
    for motif, box in ((start, laid.start), (goal, laid.goal)):
        if box is not None:
            mirror = box is laid.start and turned(motif, laid.runs)
            marks.append(picture(motif.drawing(ink, size=round(box.width, 1)), box, mirror=mirror))
    marks += [drawn(lane, *_colors(tray)) for lane in laid.lanes]
    lane = laid.lanes[0]
    if tray.settings.form == "follow":
        x, y = lane.points[0]
        marks.append(Dot(x=x, y=y, radius=_DOT, fill=(0.4,)))
    facts = Facts(
        kind=kind, width=lane.width, length=round(lane.length, 1), bends=lane.bends, lanes=len(laid.lanes),
        goal=goal.key, runs=laid.runs,
        start=start.key if laid.start is not None else "",
        held="" if laid.start is not None else _held(tray),
    )  # fmt: skip
    return piece_of(tray, size, key, Face(marks=tuple(marks)), facts)


MATERIAL = Material(
    name="paths",
    order=150,
    line="ways to follow from a picture to a picture, and strips to snip, before any letter",
    track="writing",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
    handled=lambda piece: not (piece.facts.held and piece.facts.kind == "lines"),
)
