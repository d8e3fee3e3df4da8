"""Curves -> short straight lines, and lines with a width -> polygons that together cover them."""

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Literal

from printkit.pictures.paths import Path

Point = tuple[float, float]
Cap = Literal["butt", "round", "square"]
Join = Literal["miter", "round", "bevel"]

# SVG's own limit (SVG 2, 13.5.5); corners sharper than that are cut off.
MITER_LIMIT = 4.0

_MOST_DASHES = 5_000

# Corners blunter than this come from flattened curves; a plain wedge closes them.
_BLUNT = math.cos(math.radians(8))


def flat(path: Path, tolerance: float) -> list[tuple[list[Point], bool]]:
    """Each subpath as its points and whether it is closed, at most `tolerance` off the curve."""
    result: list[tuple[list[Point], bool]] = []
    points: list[Point] = []
    start: Point = (0.0, 0.0)
    for operator, *values in path:
        if operator in "MZ":
            if operator == "Z":
                result.append((points or [start], True))
            elif len(points) > 1:
                result.append((points, False))
            points = []
        if operator == "M":
            start = (values[0], values[1])
            points = [start]
        elif operator in "LC":
            points = points or [start]
            if operator == "L":
                points.append((values[0], values[1]))
            else:
                points.extend(_curve(points[-1], values, tolerance))
    if len(points) > 1:
        result.append((points, False))
    return result


def _curve(start: Point, values: list[float], tolerance: float) -> Iterator[Point]:
    (x0, y0), (x1, y1, x2, y2, x3, y3) = start, values
    bend = max(math.hypot(x0 - 2 * x1 + x2, y0 - 2 * y1 + y2), math.hypot(x1 - 2 * x2 + x3, y1 - 2 * y2 + y3))
    # The error of n equal steps is at most 6/8 bend / n^2, from the second derivative.
    steps = max(1, min(400, math.ceil(math.sqrt(0.75 * bend / tolerance))))
    for step in range(1, steps):
        t = step / steps
        u = 1 - t
        a, b, c, d = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
        yield a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3
    yield x3, y3


def dashed(
    lines: list[tuple[list[Point], bool]], dash: tuple[float, ...], start: float
) -> list[tuple[list[Point], bool]]:
    """The stretches of lines that a dash pattern (on, off, ...) draws, each line from `start` in it.

    A line that would fall into more than some thousand stretches is left whole.
    """
    result: list[tuple[list[Point], bool]] = []
    for points, closed in lines:
        whole = [*points, points[0]] if closed else points
        length = sum(math.dist(a, b) for a, b in pairwise(whole))
        if length / sum(dash) * len(dash) > _MOST_DASHES:
            result.append((points, closed))
        else:
            result.extend((stretch, False) for stretch in _stretches(whole, dash, start))
    return result


def _stretches(points: list[Point], dash: tuple[float, ...], start: float) -> Iterator[list[Point]]:
    turn, left = 0, dash[0]
    while start > 0 and start >= left:
        start -= left
        turn = (turn + 1) % len(dash)
        left = dash[turn]
    left -= start
    stretch = [points[0]]
    for a, b in pairwise(points):
        length, done = math.dist(a, b), 0.0
        while length - done > left:
            done += left
            at = (a[0] + (b[0] - a[0]) * done / length, a[1] + (b[1] - a[1]) * done / length)
            if turn % 2 == 0:
                yield [*stretch, at]
            stretch = [at]
            turn = (turn + 1) % len(dash)
            left = dash[turn]
        left -= length - done
        stretch.append(b)
    if turn % 2 == 0:
        yield stretch


def widened(
    points: list[Point],
    closed: bool,
    width: float,
    cap: Cap,
    join: Join,
    tolerance: float,
    miter_limit: float = MITER_LIMIT,
) -> list[list[Point]]:
    """Polygons, all turning the same way, whose union is the line `width` wide along the points."""
    half = width / 2
    line = [points[0]]
    line.extend(point for before, point in pairwise(points) if point != before)
    if closed and len(line) > 1 and line[0] == line[-1]:
        line.pop()
    if len(line) == 1:
        return _dot(line[0], half, cap, tolerance)
    ends = [*line, line[0]] if closed else line
    sides = [_side(a, b, half) for a, b in pairwise(ends)]
    polygons = [
        [_plus(a, n), _plus(b, n), _minus(b, n), _minus(a, n)]
        for a, b, n in zip(ends, ends[1:], sides, strict=False)
    ]
    corners = list(zip(ends[1:], sides, sides[1:], strict=False))
    if closed:
        corners.append((line[0], sides[-1], sides[0]))
    for corner, before, after in corners:
        polygons.append(_corner(corner, before, after, half, join, tolerance, miter_limit))
    if not closed:
        polygons.append(_end(line[0], (-sides[0][0], -sides[0][1]), cap, tolerance))
        polygons.append(_end(line[-1], sides[-1], cap, tolerance))
    return [polygon if area(polygon) > 0 else polygon[::-1] for polygon in polygons if len(polygon) > 2]


def area(polygon: list[Point]) -> float:
    """The signed area."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(polygon, polygon[1:] + polygon[:1], strict=True)) / 2


def _plus(point: Point, by: Point) -> Point:
    return point[0] + by[0], point[1] + by[1]


def _minus(point: Point, by: Point) -> Point:
    return point[0] - by[0], point[1] - by[1]


def _side(a: Point, b: Point, half: float) -> Point:
    """From the middle of the line to its edge, at right angles."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    scale = half / math.hypot(dx, dy)
    return -dy * scale, dx * scale


def _corner(
    corner: Point,
    before: Point,
    after: Point,
    half: float,
    join: Join,
    tolerance: float,
    miter_limit: float,
) -> list[Point]:
    """What fills the gap on the outer side of a corner between two edges."""
    cross = before[0] * after[1] - before[1] * after[0]
    dot = (before[0] * after[0] + before[1] * after[1]) / half**2
    if cross > 0:
        before, after = (-before[0], -before[1]), (-after[0], -after[1])
    a, b = _plus(corner, before), _plus(corner, after)
    if join == "round" and dot < _BLUNT:
        return [corner, *_arc(corner, before, after, half, tolerance)]
    # The miter's length, squared, is 1 / sin(half the inner angle)^2, that is 2 / (1 + cos(turn)).
    if join == "miter" and miter_limit**2 * (1 + dot) >= 2:
        tip = (before[0] + after[0]) / (1 + dot), (before[1] + after[1]) / (1 + dot)
        return [corner, a, _plus(corner, tip), b]
    return [corner, a, b]


def _arc(middle: Point, start: Point, end: Point, radius: float, tolerance: float) -> list[Point]:
    """Points on the shorter arc about `middle`; half a turn goes by the way of `start` turned left."""
    first = math.atan2(start[1], start[0])
    turn = (math.atan2(end[1], end[0]) - first + math.pi) % (2 * math.pi) - math.pi
    steps = _steps(radius, abs(turn), tolerance)
    return [
        (middle[0] + radius * math.cos(first + turn * i / steps),
         middle[1] + radius * math.sin(first + turn * i / steps))
        for i in range(steps + 1)
    ]  # fmt: skip


def _steps(radius: float, turn: float, tolerance: float) -> int:
    widest = 2 * math.acos(max(0.0, 1 - tolerance / radius)) if radius > tolerance else math.pi / 2
    return max(2, math.ceil(turn / widest))


def _end(end: Point, side: Point, cap: Cap, tolerance: float) -> list[Point]:
    """The cap beyond an end; a quarter turn back from `side` (y down) leads out of the line."""
    if cap == "butt":
        return []
    half = math.hypot(*side)
    out = (side[1], -side[0])
    a, b = _plus(end, side), _minus(end, side)
    if cap == "square":
        return [a, _plus(a, out), _plus(b, out), b]
    first = _arc(end, side, out, half, tolerance)
    return [*first, *_arc(end, out, (-side[0], -side[1]), half, tolerance)[1:]]


def _dot(point: Point, half: float, cap: Cap, tolerance: float) -> list[list[Point]]:
    """A line without length: nothing, a disc or a square, as its caps are (SVG 2, 13.5.4)."""
    x, y = point
    if cap == "butt":
        return []
    if cap == "square":
        return [[(x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)]]
    steps = 4 * _steps(half, math.pi / 2, tolerance)
    circle = [2 * math.pi * i / steps for i in range(steps)]
    return [[(x + half * math.cos(angle), y + half * math.sin(angle)) for angle in circle]]
