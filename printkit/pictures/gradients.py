"""<linearGradient> and <radialGradient> -> gradients in the units of a drawing, or one flat color."""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from printkit.pictures.colors import plain, rgb
from printkit.pictures.css import Tint, length, share, tint, transform
from printkit.pictures.paths import Bounds
from printkit.pictures.selectors import StyleSheet
from printkit.pictures.tree import Node
from printkit.pieces import BLACK, Color, Gradient

# How far gradients may refer to one another; a circle ends here.
MAX_HOPS = 12
MAX_STOPS = 256
# How many stops a repeating gradient is written with at most.
MAX_REPEATED = 512

UNSEEN: Tint = (BLACK, 0.0)

Stop = tuple[float, Color, float]

# Where a focus lies at most, as a share of the radius: on the edge itself PDF has no cone to draw.
_FOCUS = 0.999
# Stops that lie on an end are moved inside by this, so that both of a pair count.
_INSIDE = 1e-4


@dataclass(frozen=True, kw_only=True, slots=True)
class Ground:
    """What a gradient is laid on.

    `box` is that of the path, `matrix` (a fontTools Transform) leads from there to the drawing, `start`
    is the path's first point in the drawing, `size` what percentages are taken of. `reach` is how far
    the paint goes beyond the box.
    """

    box: Bounds
    matrix: Any
    start: tuple[float, float]
    size: tuple[float, float]
    reach: float = 0.0


def stops_of(node: Node, by_id: dict[str, Node], sheet: StyleSheet) -> tuple[Stop, ...]:
    """The stops of a gradient, or of the first one it refers to that has any."""
    return next((found for each in _chain(node, by_id) if (found := _stops(each, sheet))), ())


def gradient(
    node: Node, by_id: dict[str, Node], stops: tuple[Stop, ...], ground: Ground
) -> Gradient | Tint | None:
    """The gradient of an element, the color it comes to where nothing varies, None where it has no room."""
    if not stops:
        return None
    last = stops[-1]
    if all(stop[1:] == last[1:] for stop in stops):
        return last[1], last[2]
    at: dict[str, str] = {}
    for each in reversed(_chain(node, by_id)):
        at |= each.attributes if each.tag == node.tag else _shared(each.attributes)
    left, top, right, bottom = ground.box
    matrix, size = ground.matrix, ground.size
    if at.get("gradientUnits") != "userSpaceOnUse":
        if right == left or bottom == top:
            return None
        matrix, size = matrix.transform((right - left, 0, 0, bottom - top, left, top)), (1.0, 1.0)
    middle = mean(stops)[0]
    matrix = matrix.transform(transform(at.get("gradientTransform")))
    a, b, c, d, e, f = matrix
    ends = _line(at, size) if node.tag == "linearGradient" else _circles(at, size)
    if ends is None or abs(a * d - b * c) < 1e-12:
        return last[1], last[2]
    if at.get("spreadMethod") in ("repeat", "reflect"):
        corners = _corners(ground, matrix)
        ends, stops = _repeated(ends, stops, corners, at["spreadMethod"] == "reflect")
    return Gradient(
        ends=tuple(_tidy(value) for value in ends),
        stops=stops,
        matrix=tuple(_tidy(value) for value in (a, b, c, d, e - ground.start[0], f - ground.start[1])),
        mean=middle,
    )


_GEOMETRY = frozenset(["x1", "y1", "x2", "y2", "cx", "cy", "r", "fx", "fy", "fr"])


def _shared(attributes: dict[str, str]) -> dict[str, str]:
    """What a gradient has from one of the other kind: all but the geometry."""
    return {key: value for key, value in attributes.items() if key not in _GEOMETRY}


def _tidy(value: float) -> float:
    """Seven figures, for equal bytes wherever it is computed."""
    return float(f"{value:.7g}") + 0.0


def _chain(node: Node, by_id: dict[str, Node]) -> list[Node]:
    """The gradient and those it refers to, one after the other."""
    chain = [node]
    while len(chain) < MAX_HOPS:
        after = by_id.get(chain[-1].attributes.get("href", "")[1:])
        if after is None or after in chain or after.tag not in ("linearGradient", "radialGradient"):
            break
        chain.append(after)
    return chain


# --- stops -----------------------------------------------------------------------------------


def _stops(node: Node, sheet: StyleSheet) -> tuple[Stop, ...]:
    """The gradient's own stops, from 0 to 1, as many as count."""
    found: list[Stop] = []
    offset = 0.0
    for child in node.children:
        if child.tag != "stop" or len(found) > MAX_STOPS:
            continue
        own = sheet.own(child)
        offset = max(offset, min(1.0, length(child.attributes.get("offset"), 0.0, 1.0)))
        color, alpha = tint(own.get("stop-color", "black"), current(child, sheet)) or UNSEEN
        found.append((offset, color, round(alpha * share(own.get("stop-opacity")), 4)))
    if not found:
        return ()
    if found[0][0] > 0:
        found.insert(0, (0.0, *found[0][1:]))
    if found[-1][0] < 1:
        found.append((1.0, *found[-1][1:]))
    # Of stops at one place only the first and the last count.
    kept = [
        stop
        for i, stop in enumerate(found)
        if not (0 < i < len(found) - 1 and found[i - 1][0] == stop[0] == found[i + 1][0])
    ]
    if kept[1][0] == 0:
        kept[1] = (_INSIDE, *kept[1][1:])
    if kept[-2][0] == 1:
        kept[-2] = (1 - _INSIDE, *kept[-2][1:])
    return tuple(kept)


def current(node: Node, sheet: StyleSheet) -> Tint:
    """What currentColor stands for in an element."""
    above: Node | None = node
    while above is not None:
        word = sheet.own(above).get("color", "inherit")
        if word.lower() not in ("inherit", "currentcolor"):
            return tint(word) or UNSEEN
        above = above.parent
    return BLACK, 1.0


def mean(stops: tuple[Stop, ...]) -> Tint:
    """The mean color, each part by how solid it is, and the mean alpha along a gradient.

    Colors of three numbers have a mean of three, even if it is gray.
    """
    parts, solid = [0.0, 0.0, 0.0], 0.0
    for (start, one, alpha), (end, two, other) in pairwise(stops):
        wide = end - start
        solid += wide * (alpha + other) / 2
        for i, (first, second) in enumerate(zip(rgb(one), rgb(two), strict=True)):
            # The integral of color times alpha, both running straight from stop to stop.
            parts[i] += wide * (first * (2 * alpha + other) + second * (alpha + 2 * other)) / 6
    if solid <= 0:
        return stops[-1][1], 0.0
    color: Color = tuple(round(min(1.0, part / solid), 4) for part in parts)
    return (plain(color) if all(len(stop[1]) == 1 for stop in stops) else color), round(solid, 4)


# --- where it runs ---------------------------------------------------------------------------


def _line(at: dict[str, str], size: tuple[float, float]) -> tuple[float, ...] | None:
    """The ends of a linear gradient; None for one without length."""
    width, height = size
    x0, y0 = length(at.get("x1"), 0.0, width), length(at.get("y1"), 0.0, height)
    x1, y1 = length(at.get("x2"), width, width), length(at.get("y2"), 0.0, height)
    return None if (x0, y0) == (x1, y1) else (x0, y0, x1, y1)


def _circles(at: dict[str, str], size: tuple[float, float]) -> tuple[float, ...] | None:
    """The focus and the edge of a radial gradient; None for one without a radius."""
    width, height = size
    x, y = length(at.get("cx"), width / 2, width), length(at.get("cy"), height / 2, height)
    either = math.hypot(width, height) / math.sqrt(2)
    radius = length(at.get("r"), either / 2, either)
    if radius <= 0:
        return None
    fx, fy = length(at.get("fx"), x, width), length(at.get("fy"), y, height)
    inner = min(max(0.0, length(at.get("fr"), 0.0, either)), radius * _FOCUS)
    away, reach = math.hypot(fx - x, fy - y), (radius - inner) * _FOCUS
    if away > reach:
        fx, fy = x + (fx - x) * reach / away, y + (fy - y) * reach / away
    return fx, fy, inner, x, y, radius


# --- repeats ---------------------------------------------------------------------------------


def _corners(ground: Ground, matrix: Any) -> list[tuple[float, float]]:
    """The corners of what is painted, where the gradient has its numbers."""
    left, top, right, bottom = ground.box
    more = ground.reach
    box = [(x, y) for x in (left - more, right + more) for y in (top - more, bottom + more)]
    return matrix.inverse().transformPoints(ground.matrix.transformPoints(box))


def _repeated(
    ends: tuple[float, ...], stops: tuple[Stop, ...], corners: list[tuple[float, float]], mirrored: bool
) -> tuple[tuple[float, ...], tuple[Stop, ...]]:
    """The gradient made longer until it covers the corners, its stops repeated."""
    most = max(1, MAX_REPEATED // len(stops))
    if len(ends) == 4:
        x0, y0, x1, y1 = ends
        square = (x1 - x0) ** 2 + (y1 - y0) ** 2
        along = [((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / square for x, y in corners]
        first, last = math.floor(min(along)), math.ceil(max(along))
        last = min(max(last, first + 1), first + most)
        new = tuple(value + n * by for n in (first, last) for value, by in ((x0, x1 - x0), (y0, y1 - y0)))
    else:
        fx, fy, inner, x, y, radius = ends
        first, last = 0, 1
        # Each round is one circle on; a corner lies in circle n when it is near enough to its middle.
        while last < most and not all(
            math.hypot(a - (fx + last * (x - fx)), b - (fy + last * (y - fy)))
            <= inner + last * (radius - inner)
            for a, b in corners
        ):
            last += 1
        new = (
            fx,
            fy,
            inner,
            fx + last * (x - fx),
            fy + last * (y - fy),
            inner + last * (radius - inner),
        )
    rounds = last - first
    laid: list[Stop] = []
    for n in range(first, last):
        turned = mirrored and n % 2
        for offset, color, alpha in reversed(stops) if turned else stops:
            place = (n - first + (1 - offset if turned else offset)) / rounds
            if not laid or laid[-1] != (round(place, 6), color, alpha):
                laid.append((round(place, 6), color, alpha))
    return new, tuple(laid)
