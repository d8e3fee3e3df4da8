"""The path language of stroke letters, and the geometry of pen paths. Units of the letter grid, y up.

`M x y` sets the pen down, `L x y` draws a line, `C x1 y1 x2 y2 x y` a Bézier curve,
`A cx cy rx ry from to` an arc of an ellipse between two angles in degrees (the sign of the sweep is the
direction of the pen; a line joins it to where the pen is), `D x y` a dot.
"""

import math
import re
from collections.abc import Sequence
from itertools import pairwise

Point = tuple[float, float]
Curve = tuple[Point, Point, Point, Point]
"""One piece of a pen path as a cubic Bézier; a line has its control points on itself."""

CORNER = 35.0
"""Degrees: a sharper turn is a corner, where dashes start anew (found by trying)."""
_NUMBERS = {"M": 2, "L": 2, "C": 6, "A": 6, "D": 2}
_TOKEN = re.compile(r"\s*([MLCAD]|-?\d+(?:\.\d+)?)")


class PathError(ValueError):
    """A path that cannot be read; the message says where and what was expected."""


def commands(text: str) -> list[tuple[str, tuple[float, ...]]]:
    """The commands of a path with their numbers. Raises PathError."""
    tokens, at = [], 0
    while text[at:].strip():
        match = _TOKEN.match(text, at)
        if not match:
            raise PathError(f"'{text[at:].strip()[:12]}' is no command and no number")
        tokens.append(match.group(1))
        at = match.end()
    found, i = [], 0
    while i < len(tokens):
        name = tokens[i]
        if name not in _NUMBERS:
            raise PathError(f"'{name}' stands where a command is due: M, L, C, A or D")
        numbers = tokens[i + 1 : i + 1 + _NUMBERS[name]]
        if len(numbers) < _NUMBERS[name] or any(each in _NUMBERS for each in numbers):
            raise PathError(f"{name} needs {_NUMBERS[name]} numbers")
        found.append((name, tuple(float(each) for each in numbers)))
        i += 1 + _NUMBERS[name]
    return found


def line(start: Point, end: Point) -> Curve:
    """A straight piece."""
    third = ((end[0] - start[0]) / 3, (end[1] - start[1]) / 3)
    return (start, (start[0] + third[0], start[1] + third[1]), (end[0] - third[0], end[1] - third[1]), end)


def arc(cx: float, cy: float, rx: float, ry: float, first: float, last: float) -> list[Curve]:
    """An arc of an ellipse in pieces of at most 60 degrees."""
    count = max(1, math.ceil(abs(last - first) / 60 - 1e-9))
    step = math.radians((last - first) / count)
    reach = 4 / 3 * math.tan(step / 4)
    pieces = []
    for i in range(count):
        a = math.radians(first) + i * step
        b = a + step
        p0 = (cx + rx * math.cos(a), cy + ry * math.sin(a))
        p3 = (cx + rx * math.cos(b), cy + ry * math.sin(b))
        p1 = (p0[0] - reach * rx * math.sin(a), p0[1] + reach * ry * math.cos(a))
        p2 = (p3[0] + reach * rx * math.sin(b), p3[1] - reach * ry * math.cos(b))
        pieces.append((p0, p1, p2, p3))
    return pieces


def read(text: str) -> tuple[tuple[Curve, ...], Point | None]:
    """A path as its curves, or the place of its dot. Raises PathError."""
    curves: list[Curve] = []
    pen: Point | None = None
    for name, v in commands(text):
        if name == "D":
            if curves or pen:
                raise PathError("a dot stands alone")
            return (), (v[0], v[1])
        if name == "M":
            if curves:
                raise PathError("M begins a path; a pen that is lifted begins a new one")
            pen = (v[0], v[1])
        elif name == "A":
            pieces = arc(*v)
            if pen is not None and math.dist(pen, pieces[0][0]) > 0.05:
                curves.append(line(pen, pieces[0][0]))
            curves += pieces
            pen = pieces[-1][3]
        elif pen is None:
            raise PathError(f"{name} comes before M")
        elif name == "L":
            curves.append(line(pen, (v[0], v[1])))
            pen = (v[0], v[1])
        else:
            curves.append((pen, (v[0], v[1]), (v[2], v[3]), (v[4], v[5])))
            pen = (v[4], v[5])
    if not curves:
        raise PathError("a path draws a line, a curve, an arc or a dot")
    return tuple(curves), None


# --- geometry ------------------------------------------------------------------------------------


def at(curve: Curve, t: float) -> Point:
    """The point of a curve at `t` from 0 to 1."""
    u = 1 - t
    a, b, c, d = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
    p0, p1, p2, p3 = curve
    return (a * p0[0] + b * p1[0] + c * p2[0] + d * p3[0], a * p0[1] + b * p1[1] + c * p2[1] + d * p3[1])


def part(curve: Curve, start: float, end: float) -> Curve:
    """The piece of a curve between two parameters (de Casteljau)."""
    if start <= 0 and end >= 1:
        return curve

    def point(t: float, s: float, r: float) -> Point:
        (p0, p1, p2, p3) = curve
        values = []
        for axis in (0, 1):
            a = [p0[axis], p1[axis], p2[axis], p3[axis]]
            for k in (t, s, r):
                a = [(1 - k) * x + k * y for x, y in pairwise(a)]
            values.append(a[0])
        return (values[0], values[1])

    return (
        point(start, start, start),
        point(start, start, end),
        point(start, end, end),
        point(end, end, end),
    )


def is_straight(curve: Curve) -> bool:
    """Whether the control points lie on the line between the ends."""
    (x0, y0), *inner, (x3, y3) = curve
    length = math.hypot(x3 - x0, y3 - y0) or 1.0
    return all(abs((x3 - x0) * (y - y0) - (y3 - y0) * (x - x0)) / length < 1e-6 for x, y in inner)


def flat(curves: Sequence[Curve], step: float = 0.25) -> list[Point]:
    """Points along a path, at most about `step` apart."""
    points: list[Point] = []
    for curve in curves:
        count = max(2, math.ceil(rough(curve) / step))
        first = 0 if not points or math.dist(points[-1], curve[0]) > 1e-9 else 1
        points += [at(curve, i / count) for i in range(first, count + 1)]
    return points


def rough(curve: Curve) -> float:
    """The length of a curve's control polygon: never less than the curve."""
    return sum(math.dist(a, b) for a, b in pairwise(curve))


def length(curves: Sequence[Curve]) -> float:
    """The length of a path, to about a thousandth."""
    total = 0.0
    for curve in curves:
        if is_straight(curve):
            total += math.dist(curve[0], curve[3])
        else:
            points = [at(curve, i / 32) for i in range(33)]
            total += sum(math.dist(a, b) for a, b in pairwise(points))
    return total


def heading(curve: Curve, end: bool = False) -> Point:
    """The direction of the pen at the start (or the end) of a curve, of length 1."""
    points = list(reversed(curve)) if end else list(curve)
    start = points[0]
    other = next((p for p in points[1:] if math.dist(p, start) > 1e-6), (start[0] + 1.0, start[1]))
    size = math.dist(start, other) * (-1 if end else 1)
    return ((other[0] - start[0]) / size, (other[1] - start[1]) / size)


def corners(curves: Sequence[Curve]) -> list[list[Curve]]:
    """A path parted where the pen turns sharply."""
    parts: list[list[Curve]] = []
    for curve in curves:
        if parts:
            (ax, ay), (bx, by) = heading(parts[-1][-1], end=True), heading(curve)
            if ax * bx + ay * by >= math.cos(math.radians(CORNER)):
                parts[-1].append(curve)
                continue
        parts.append([curve])
    return parts


def is_closed(curves: Sequence[Curve]) -> bool:
    """Whether a path ends where it began."""
    return math.dist(curves[0][0], curves[-1][3]) < 0.05


def moved(curves: Sequence[Curve], dx: float, dy: float, scale: float = 1.0) -> tuple[Curve, ...]:
    """A path shifted (after it was scaled)."""
    return tuple(
        tuple((x * scale + dx, y * scale + dy) for x, y in curve)  # type: ignore[misc]
        for curve in curves
    )
