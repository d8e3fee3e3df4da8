"""Ways to follow with pen or scissors: their middle lines, and how they are drawn."""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from printkit.pieces import Color, Drawing, Picture, Shape
from printkit.units import micrometres

Point = tuple[float, float]
Kind = Literal["lines", "waves", "corners"]
KINDS: tuple[Kind, ...] = ("lines", "waves", "corners")

CLEAR = 4.0
"""mm that stay white between two stretches of a way, so that nobody slips from one to the other."""
LEAST_SWING = 4.0
"""mm that a wave or corner swings out to either side at least, or it looks straight (design choice)."""
EDGE = 0.5
_STEPS = 24
"""Straight pieces to half a wave."""
_SHARPEST = math.radians(70)
"""Corners are no sharper than this, so that the inner edges of the way leave room to turn."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Lane:
    """A way `width` mm wide about a middle line; `bends` are its waves' crests or its corners."""

    points: tuple[Point, ...]
    width: float
    bends: int
    rounded: bool = True

    @property
    def length(self) -> float:
        """mm along its middle line."""
        return sum(math.dist(a, b) for a, b in pairwise(self.points))


def straight(start: Point, end: Point, width: float, *, rounded: bool = True) -> Lane:
    """The straight way between two points."""
    return Lane(points=_rounded((start, end)), width=width, bends=0, rounded=rounded)


def wave(start: Point, end: Point, reach: float, width: float, bends: int) -> Lane | None:
    """A level way with `bends` crests, up first, as high as `reach` mm to either side allows.

    No crest is bent more closely than to a radius of half its width and `CLEAR`. None if it would
    swing out less than `LEAST_SWING` mm.
    """
    (x0, y0), (x1, _) = start, end
    half_wave = abs(x1 - x0) / bends
    swing = min(reach, (half_wave / math.pi) ** 2 / (width / 2 + CLEAR))
    if swing < LEAST_SWING:
        return None
    count = _STEPS * bends
    points = (
        (x0 + (x1 - x0) * i / count, y0 - swing * math.sin(math.pi * bends * i / count))
        for i in range(count + 1)
    )
    return Lane(points=_rounded(points), width=width, bends=bends)


def zigzag(start: Point, end: Point, reach: float, width: float, bends: int) -> Lane | None:
    """A level way with `bends` corners, up first; None if it would swing out too little."""
    (x0, y0), (x1, _) = start, end
    step = abs(x1 - x0) / (bends + 1)
    # From one corner to the opposite one the way climbs twice its swing.
    swing = min(reach, step / math.tan(_SHARPEST / 2) / 2)
    if swing < LEAST_SWING or math.hypot(step, 2 * swing) < width + CLEAR:
        return None
    way = 1 if x1 > x0 else -1
    corners = [(x0 + way * step * (i + 1), y0 + (swing if i % 2 else -swing)) for i in range(bends)]
    return Lane(points=_rounded((start, *corners, end)), width=width, bends=bends)


def steps(start: Point, end: Point, reach: float, width: float, bends: int) -> Lane | None:
    """A way of right angles with `bends` of them, an even number; None if there is no room.

    It begins below and runs `reach` mm high and low, with at least `CLEAR` mm between its stretches.
    """
    (x0, y0), (x1, _) = start, end
    uprights = bends // 2
    step = abs(x1 - x0) / (uprights + 1)
    narrow = min(step, 2 * reach) < width + CLEAR or reach < LEAST_SWING
    if bends % 2 or not uprights or narrow:
        return None
    way = 1 if x1 > x0 else -1
    points = [(x0, y0 + reach)]
    for i in range(uprights):
        x = x0 + way * step * (i + 1)
        before, after = (reach, -reach) if i % 2 == 0 else (-reach, reach)
        points += [(x, y0 + before), (x, y0 + after)]
    points.append((x1, points[-1][1]))
    return Lane(points=_rounded(points), width=width, bends=bends)


def _rounded(points) -> tuple[Point, ...]:
    return tuple((micrometres(x), micrometres(y)) for x, y in points)


def drawn(lane: Lane, fill: Color, edge: Color) -> Picture:
    """The way with its two edges; its ends are round if the lane's are."""
    half = lane.width / 2
    left = min(x for x, _ in lane.points) - half
    top = min(y for _, y in lane.points) - half
    right = max(x for x, _ in lane.points) + half
    bottom = max(y for _, y in lane.points) + half
    if not lane.rounded:
        # Straight across: flat ends reach no further than the middle line does.
        top, bottom = top + half, bottom - half
    path = tuple(
        ("M" if i == 0 else "L", micrometres(x - left), micrometres(y - top))
        for i, (x, y) in enumerate(lane.points)
    )
    cap = "round" if lane.rounded else "butt"
    shapes = (
        Shape(path=path, stroke=edge, stroke_width=lane.width, cap=cap, join="round"),
        Shape(path=path, stroke=fill, stroke_width=lane.width - 2 * EDGE, cap=cap, join="round"),
    )
    width, height = micrometres(right - left), micrometres(bottom - top)
    drawing = Drawing(name=f"a way {lane.width:g} mm wide", width=width, height=height, shapes=shapes)
    return Picture(drawing=drawing, x=micrometres(left), y=micrometres(top), width=width, height=height)
