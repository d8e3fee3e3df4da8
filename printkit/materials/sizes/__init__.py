"""Sizes: one picture in three to seven sizes, to be put in order or sorted under two headings."""

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from printkit.chance import Chance
from printkit.checks import Millimetres, OneOf, Whole, Words, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.layout import (
    FAINT,
    SOFT,
    accent,
    content,
    hairline,
    hatching,
    set_marked,
    shape_of,
    size_problem,
)
from printkit.materials.making import fitting_sizes, piece_of
from printkit.materials.motifs import chosen_motif
from printkit.materials.naming import SPARSE
from printkit.materials.sizes.guidance import GUIDANCE
from printkit.pack import Tray
from printkit.pieces import Area, Box, Color, Face, Line, Mark, Picture, Piece
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Motif

FINEST, COARSEST = 1.15, 2.0
"""Ratio from one size to the next: finer steps are hard for a small child to see (design choice)."""
USUAL = 1.3
SMALLEST = 10.0
"""mm of the longer side of the smallest picture; one step up is then at least 1.5 mm (design choice)."""
_GROUND = 0.3
"""mm of the line that pictures stand on: their ink ends where it begins."""
_SLACK = 0.05
"""mm for the last digits of sizes that are rounded."""
_BAND = 4.0
"""mm of the band that tells a heading from a card to be sorted."""
_PILLAR, _BETWEEN = 4.0, 2.0
"""mm of the pillars of the control and of the gaps between them, where there is room."""
_OUTLINE: Color = (0.7,)


class Ratio(Millimetres):
    """A number by which each size is larger than the one before."""

    def allowed(self) -> str:
        return f"a number from {self.low:g} to {self.high:g}; finer steps are hard to see"


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for sizes."""

    form: Literal["order", "groups"] = setting(
        "order", OneOf(("order", "groups")), "to be put in order, or under a large and a small heading card"
    )
    count: int = setting(5, Whole(3, 7), "how many sizes of each picture")
    ratio: float | None = setting(
        None,
        Ratio(FINEST, COARSEST),
        f"how many times as large as the one before each is; unset: {USUAL:g}, or finer on small cards",
    )
    pictures: int = setting(1, Whole(1, 3), "how many different pictures, each in all sizes")
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme comes first")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a card: `height` and `width` in mm of the picture as printed, edge to edge.

    Heights follow the ratio; widths do so but for outlines, which are no broader on larger pictures.
    `place` counts from 1, the smallest, to `count`; `ratio` leads from each size to the next. `group`
    is 'small' or 'large' where cards are sorted; a card with `heading` says what belongs below it.
    Between the two groups one step is left out, so that none is doubtful.
    """

    motif: str
    height: float
    width: float
    place: int
    count: int
    ratio: float
    group: str = field(default="", metadata=SPARSE)
    heading: bool = field(default=False, metadata=SPARSE)


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of cards with one thing each, in `count` sizes by steps of one ratio."""
    motifs = _motifs(seed, tray)
    if isinstance(motifs, Made):
        return motifs
    sizes = fitting_sizes(tray, room, _NAMED)
    if not sizes:
        asked = tray.size if isinstance(tray.size, tuple) else _NAMED[tray.size or "medium"]
        return refused(size_problem(tray, room, asked))
    found = next(
        (
            (size, ratio)
            for smallest in dict.fromkeys((needs.least_thing(tray.child, SMALLEST), SMALLEST))
            for size in sizes
            if (ratio := _ratio(tray, size, motifs, smallest))
        ),
        None,
    )
    if found is None:
        return refused(_too_coarse(tray, sizes[-1], motifs))
    size, ratio = found
    pieces = [piece for motif in motifs for piece in _series(tray, size, ratio, motif)]
    if tray.settings.form == "groups":
        pieces = [*(_heading(tray, size, ratio, motifs[0], group) for group in ("small", "large")), *pieces]
    return Made(pieces=set_marked(pieces))


_NAMED = {
    "small": (47.0, 62.0),
    "medium": (62.0, 88.0),
    "large": (94.0, 125.0),
}


def _motifs(seed: int, tray: Tray) -> "tuple[Motif, ...] | Made":
    """The pictures of the set: the one asked for first, the others by chance."""
    first = chosen_motif(seed, tray)
    if first.motif is None:
        return Made(problems=(first.problem,) if first.problem else ())
    wanted, theme = tray.settings.pictures, tray.child.theme
    others = [motif for motif in theme.counted if motif is not first.motif]
    if wanted > len(others) + 1:
        return refused(
            problem(
                tray,
                "pictures",
                f"the theme has no {wanted} pictures of one thing each",
                f"at most {len(others) + 1} with this theme",
            )
        )
    chance = Chance(seed, tray.child.name, tray.set, "others")
    return (first.motif, *chance.shuffled(others)[: wanted - 1])


# --- sizes -----------------------------------------------------------------------------------


def exponents(count: int, form: str) -> tuple[int, ...]:
    """How many steps each size lies above the smallest; in groups one step is left out half way."""
    if form == "order":
        return tuple(range(count))
    small = (count + 1) // 2
    return tuple(step if step < small else step + 1 for step in range(count))


def _field(size: tuple[float, float]) -> Rect:
    """Where the thing stands: below the place that the band of a heading takes."""
    box = content(size)
    return Rect(box.left, box.top + _BAND + 2, box.width, box.height - _BAND - 2)


def _tallest(tray: Tray, size: tuple[float, float], motif: "Motif") -> tuple[float, float]:
    """Height and longer side, in mm, at which the picture fills the field of a card."""
    box = _field(size)
    longest = min(box.width, box.height)
    for _ in range(2):  # outlines add more to the sides of a small picture than to those of a large one
        wide, high = shape_of(motif.drawing(tray.child.ink, size=round(longest, 1)))
        longest = min((box.width - _SLACK) / wide, (box.height - _GROUND / 2 - _SLACK) / high)
    return longest * high, longest


def _ratio(tray: Tray, size: tuple[float, float], motifs, smallest: float) -> float | None:
    """The ratio at which the smallest is large enough on a card of this size; None if none is."""
    steps = exponents(tray.settings.count, tray.settings.form)[-1]
    largest = min(_tallest(tray, size, motif)[1] for motif in motifs)
    if largest < smallest:
        return None
    most = math.floor((largest / smallest) ** (1 / steps) * 1000) / 1000
    wanted = tray.settings.ratio
    if wanted is not None:
        return wanted if wanted <= most else None
    return min(USUAL, most) if most >= FINEST else None


def _too_coarse(tray: Tray, size: tuple[float, float], motifs):
    settings: Settings = tray.settings
    ratio = settings.ratio or FINEST
    largest = min(_tallest(tray, size, motif)[1] for motif in motifs)
    smallest = largest / ratio ** exponents(settings.count, settings.form)[-1]
    could = [
        f"{count} sizes by steps of at most {_finer(largest, count, settings.form):.2f}"
        for count in dict.fromkeys((settings.count, 3))
        if _finer(largest, count, settings.form) >= FINEST
    ]
    where = "a larger card" if tray.size is not None else "a larger sheet"
    return problem(
        tray,
        "ratio" if settings.ratio else "size",
        f"with {settings.count} sizes by steps of {ratio:g} on a card of {size[0]:g} x {size[1]:g} mm the "
        f"smallest picture is {smallest:.1f} mm long, too small to see well",
        ", ".join(could) + f", or {where}" if could else where,
    )


def _finer(largest: float, count: int, form: str) -> float:
    """The coarsest step, rounded down to two decimals, at which the smallest is large enough."""
    steps = exponents(count, form)[-1]
    return min(COARSEST, math.floor(max(0.0, largest / SMALLEST) ** (1 / steps) * 100) / 100)


# --- cards -----------------------------------------------------------------------------------


def _series(tray: Tray, size: tuple[float, float], ratio: float, motif: "Motif") -> list[Piece]:
    """The cards of one picture, from the smallest."""
    settings: Settings = tray.settings
    rungs = exponents(settings.count, settings.form)
    tallest = _tallest(tray, size, motif)[0]
    pieces = []
    for place, rung in enumerate(rungs, 1):
        group = "" if settings.form == "order" else "small" if place <= (len(rungs) + 1) // 2 else "large"
        shown = _standing(tray, size, motif, tallest / ratio ** (rungs[-1] - rung))
        facts = Facts(
            motif=motif.key, height=shown.height, width=shown.width, place=place, count=settings.count,
            ratio=ratio, group=group,
        )  # fmt: skip
        key = str(place) if settings.pictures == 1 else f"{motif.key}-{place}"
        pillars, which = (settings.count, place - 1) if not group else (2, int(group == "large"))
        pieces.append(_card(tray, size, key, facts, (shown,), _pillars(size, pillars, which), motif))
    return pieces


def _heading(tray: Tray, size: tuple[float, float], ratio: float, motif: "Motif", group: str) -> Piece:
    """A card that a group is laid under: its smallest or largest picture, below a band."""
    settings: Settings = tray.settings
    rungs = exponents(settings.count, settings.form)
    place = 1 if group == "small" else settings.count
    below = rungs[-1] if group == "small" else 0
    shown = _standing(tray, size, motif, _tallest(tray, size, motif)[0] / ratio**below)
    facts = Facts(
        motif=motif.key, height=shown.height, width=shown.width, place=place, count=settings.count,
        ratio=ratio, group=group, heading=True,
    )  # fmt: skip
    box = content(size)
    color = _light(accent(tray))
    band = Box(x=box.left, y=box.top, width=box.width, height=_BAND, radius=_BAND / 2, fill=color)
    return _card(
        tray, size, group, facts, (shown, band), _pillars(size, 2, int(group == "large")), motif
    )  # fmt: skip


def _light(color: Color) -> Color:
    """A light tint of a color, for a surface that takes little ink."""
    return tuple(round(1 - (1 - part) * 0.45, 3) for part in color)


def _standing(tray: Tray, size: tuple[float, float], motif: "Motif", height: float) -> Picture:
    """The picture `height` mm high, in the middle of its ground line."""
    wide, high = shape_of(motif.drawing(tray.child.ink, size=40.0))
    drawing = motif.drawing(tray.child.ink, size=round(height * max(1.0, wide / high), 1))
    width, height = micrometres(height * drawing.width / drawing.height), micrometres(height)
    box = _field(size)
    return Picture(
        drawing=drawing,
        x=micrometres(box.left + (box.width - width) / 2),
        y=micrometres(box.bottom - _GROUND / 2 - height),
        width=width,
        height=height,
    )


def _card(tray: Tray, size, key: str, facts: Facts, marks, pillars, motif: "Motif") -> Piece:
    frame = hairline(size, accent(tray))
    box = _field(size)
    ground = Line(
        x1=box.left, y1=box.bottom, x2=box.right, y2=box.bottom, color=SOFT, line=_GROUND, round_ends=False
    )
    area = Area(box=Rect(box.left, box.top, box.width, micrometres(box.height - _GROUND)), things=1)
    front = Face(marks=(frame, *marks, ground), areas=(area,) if motif.counted else ())
    back, control = pillars
    return piece_of(tray, size, key, front, facts, back=Face(marks=(frame, *back)), control=control)


def _pillars(size: tuple[float, float], count: int, which: int) -> tuple[tuple[Mark, ...], Rect]:
    """The control: pillars that rise from the left, the card's own hatched; and where that one stands."""
    box = content(size)
    unit = min(1.0, box.width / (count * _PILLAR + (count - 1) * _BETWEEN))
    wide, gap = _PILLAR * unit, _BETWEEN * unit
    tall = min(24.0, 0.55 * box.height)
    left = box.left + (box.width - count * wide - (count - 1) * gap) / 2
    base = box.top + (box.height + tall) / 2
    marks: list[Mark] = []
    own = Rect(0, 0, 0, 0)
    for i in range(count):
        high = tall * (0.3 + 0.7 * i / (count - 1))
        pillar = Rect(
            micrometres(left + i * (wide + gap)),
            micrometres(base - high),
            micrometres(wide),
            micrometres(high),
        )
        mine = i == which
        marks.append(
            Box(
                x=pillar.left, y=pillar.top, width=pillar.width, height=pillar.height,
                radius=0.6, stroke=_OUTLINE, line=0.4 if mine else 0.25,
            )
        )  # fmt: skip
        if mine:
            own = pillar
            marks += hatching(pillar.inset(0.5), gap=1.1, color=FAINT, line=0.45)
    return tuple(marks), own


MATERIAL = Material(
    name="sizes",
    order=100,
    line="one picture in three to seven sizes, to be put in order or sorted into large and small",
    track="looking",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
