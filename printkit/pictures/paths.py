# ruff: noqa: N802
"""Paths as tuples of ('M', x, y), ('L', x, y), ('C', x1, y1, x2, y2, x, y) and ('Z',)."""

import math
import re
from collections.abc import Callable, Iterable
from typing import Any

from printkit.pictures.css import MAX_NUMBER, length, numbers
from printkit.pictures.tree import Node, UnusableError

MAX_OPERATORS = 20_000

# A quarter of a circle of radius 1: how far the controls of its curve lie from its ends.
_QUARTER = 4 / 3 * (math.sqrt(2) - 1)

Path = tuple[tuple[Any, ...], ...]
Bounds = tuple[float, float, float, float]  # left, top, right, bottom

_COMMANDS = "MmZzLlHhVvCcSsQqTtAa"
_SEGMENT = re.compile(r"[MmZzLlHhVvCcSsQqTtAa][^MmZzLlHhVvCcSsQqTtAa]*")
_LEADING_ZEROS = re.compile(r"(?<![\d.])0+(?=\d)")
_TRAILING_POINT = re.compile(r"(?<=\d)\.(?!\d)")
_SPACE = re.compile(r"\s+")


class PathPen:
    """A pen, with the method names of fontTools' pens, that keeps what it is told as a path."""

    def __init__(self) -> None:
        self.path: list[tuple[Any, ...]] = []

    def _add(self, operator: str, *points: tuple[float, float]) -> None:
        _limit(len(self.path) + 1)
        values = [value for point in points for value in point]
        if not all(abs(value) < MAX_NUMBER for value in values):
            raise UnusableError("the drawing holds a number that is too large", f"up to {MAX_NUMBER:,.0f}")
        self.path.append((operator, *values))

    def moveTo(self, point: tuple[float, float]) -> None:
        self._add("M", point)

    def lineTo(self, point: tuple[float, float]) -> None:
        self._add("L", point)

    def curveTo(self, *points: tuple[float, float]) -> None:
        self._add("C", *points)

    def qCurveTo(self, control: tuple[float, float], end: tuple[float, float]) -> None:
        # A quadratic curve is the cubic whose controls lie two thirds of the way to its own.
        x, y = self.path[-1][-2:]
        first = (x + 2 / 3 * (control[0] - x), y + 2 / 3 * (control[1] - y))
        second = (end[0] + 2 / 3 * (control[0] - end[0]), end[1] + 2 / 3 * (control[1] - end[1]))
        self._add("C", first, second, end)

    def closePath(self) -> None:
        self.path.append(("Z",))

    def endPath(self) -> None:
        pass


def outline(node: Node, width: float, height: float) -> tuple[Path, bool]:
    """The path of a basic shape or <path>, and whether it was whole.

    `width` and `height` are what percentages are taken of. A broken path is drawn as far as it
    can be read. Raises UnusableError for numbers that are too large and paths that are too long.
    """
    at = node.attributes.get
    across, down = (lambda key: length(at(key), 0, width)), (lambda key: length(at(key), 0, height))
    match node.tag:
        case "path":
            return _parsed(at("d", ""))
        case "rect":
            return _rectangle(node, across, down), True
        case "circle":
            radius = length(at("r"), 0, math.hypot(width, height) / math.sqrt(2))
            return _ellipse(across("cx"), down("cy"), radius, radius), True
        case "ellipse":
            rx = down("ry") if at("rx") in (None, "auto") else across("rx")
            ry = across("rx") if at("ry") in (None, "auto") else down("ry")
            return _ellipse(across("cx"), down("cy"), rx, ry), True
        case "line":
            return (("M", across("x1"), down("y1")), ("L", across("x2"), down("y2"))), True
    points = numbers(at("points"))
    corners = list(zip(points[::2], points[1::2], strict=False))
    _limit(len(corners))
    if len(corners) < 2:
        return (), True
    lines = (("M", *corners[0]), *(("L", *corner) for corner in corners[1:]))
    return ((*lines, ("Z",)) if node.tag == "polygon" else lines), True


def _limit(steps: int) -> None:
    if steps > MAX_OPERATORS:
        raise UnusableError("the drawing holds a path that is too long", f"at most {MAX_OPERATORS:,} points")


def _parsed(description: str) -> tuple[Path, bool]:
    from fontTools.svgLib.path import parse_path

    _limit(sum(map(description.count, _COMMANDS)))
    pen = PathPen()
    try:
        parse_path(_tidy(description), pen)
    except (ValueError, IndexError, ArithmeticError, TypeError):
        return tuple(pen.path), False
    return tuple(pen.path), True


def _tidy(description: str) -> str:
    """Path data with numbers as fontTools' grammar knows them: '05' and '5.' become '5'."""

    def segment(match: re.Match[str]) -> str:
        text = _TRAILING_POINT.sub("", _SPACE.sub(" ", match[0]))
        # In arcs '01' may be two flags.
        return text if text[0] in "Aa" else _LEADING_ZEROS.sub("", text)

    return _SEGMENT.sub(segment, description)


def _rectangle(node: Node, across: Callable[[str], float], down: Callable[[str], float]) -> Path:
    x, y, width, height = across("x"), down("y"), across("width"), down("height")
    if width <= 0 or height <= 0:
        return ()
    has_rx, has_ry = (node.attributes.get(key) not in (None, "auto") for key in ("rx", "ry"))
    rx = across("rx") if has_rx else down("ry")
    ry = down("ry") if has_ry else across("rx")
    rx, ry = min(max(rx, 0), width / 2), min(max(ry, 0), height / 2)
    right, bottom = x + width, y + height
    if not rx or not ry:
        return (("M", x, y), ("L", right, y), ("L", right, bottom), ("L", x, bottom), ("Z",))
    # How far the controls of the corner's curve lie from the corner.
    cx, cy = rx * (1 - _QUARTER), ry * (1 - _QUARTER)
    return (
        ("M", x + rx, y),
        ("L", right - rx, y),
        ("C", right - cx, y, right, y + cy, right, y + ry),
        ("L", right, bottom - ry),
        ("C", right, bottom - cy, right - cx, bottom, right - rx, bottom),
        ("L", x + rx, bottom),
        ("C", x + cx, bottom, x, bottom - cy, x, bottom - ry),
        ("L", x, y + ry),
        ("C", x, y + cy, x + cx, y, x + rx, y),
        ("Z",),
    )


def _ellipse(x: float, y: float, rx: float, ry: float) -> Path:
    """From the right, clockwise (SVG 2, 10.3: where dashes start)."""
    if rx <= 0 or ry <= 0:
        return ()
    kx, ky = rx * _QUARTER, ry * _QUARTER
    return (
        ("M", x + rx, y),
        ("C", x + rx, y + ky, x + kx, y + ry, x, y + ry),
        ("C", x - kx, y + ry, x - rx, y + ky, x - rx, y),
        ("C", x - rx, y - ky, x - kx, y - ry, x, y - ry),
        ("C", x + kx, y - ry, x + rx, y - ky, x + rx, y),
        ("Z",),
    )


# --- whole paths -----------------------------------------------------------------------------


def mapped(path: Path, matrix: Any, decimals: int) -> Path:
    """The path through a fontTools Transform, rounded; UnusableError when it lands too far away."""
    a, b, c, d, e, f = matrix
    result: list[tuple[Any, ...]] = []
    for step in path:
        if step[0] == "Z":
            result.append(step)
            continue
        values = []
        for i in range(1, len(step), 2):
            x, y = step[i], step[i + 1]
            values.append(round(a * x + c * y + e, decimals) + 0.0)
            values.append(round(b * x + d * y + f, decimals) + 0.0)
        if not (max(values) < MAX_NUMBER and min(values) > -MAX_NUMBER):
            raise UnusableError("the drawing holds a number that is too large", f"up to {MAX_NUMBER:,.0f}")
        result.append((step[0], *values))
    return tuple(result)


def shifted(path: Path, dx: float, dy: float, decimals: int) -> Path:
    """The path moved by (dx, dy), rounded."""
    result = []
    for operator, *values in path:
        moved = (round(value + (dy if i % 2 else dx), decimals) + 0.0 for i, value in enumerate(values))
        result.append((operator, *moved))
    return tuple(result)


def oriented(path: Path) -> Path:
    """The path, run backwards if it turns to the left as a whole (y down)."""
    corners: list[tuple[float, float]] = []
    total = 0.0
    for operator, *values in path:
        if operator == "M":
            total += _twice_area(corners)
            corners = []
        corners.extend(zip(values[::2], values[1::2], strict=True))
    total += _twice_area(corners)
    return path if total >= 0 else backwards(path)


def _twice_area(corners: list[tuple[float, float]]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1], strict=True))


def backwards(path: Path) -> Path:
    """The same lines drawn from their ends to their starts; every subpath is closed."""
    result: list[tuple[Any, ...]] = []
    run: list[tuple[Any, ...]] = []
    for step in (*path, ("M",)):
        if step[0] not in "MZ":
            run.append(step)
            continue
        start = run[:1]
        if len(run) > 1:
            points = [each[-2:] for each in run]
            result.append(("M", *points[-1]))
            for each, before in zip(reversed(run[1:]), reversed(points[:-1]), strict=True):
                turned = (*each[3:5], *each[1:3]) if each[0] == "C" else ()
                result.append((each[0], *turned, *before))
            result.append(("Z",))
        # What follows a closed subpath without a move starts where that did.
        run = start if step[0] == "Z" else [step]
    return tuple(result)


def bounds(path: Path) -> Bounds | None:
    """The exact box of the path's line, None for an empty path."""
    from fontTools.misc.bezierTools import calcCubicBounds

    boxes: list[Bounds] = []
    at = start = (0.0, 0.0)
    for operator, *values in path:
        if operator == "M":
            at = start = (values[0], values[1])
        elif operator == "L":
            end = (values[0], values[1])
            boxes.append((min(at[0], end[0]), min(at[1], end[1]), max(at[0], end[0]), max(at[1], end[1])))
            at = end
        elif operator == "C":
            points = list(zip(values[::2], values[1::2], strict=True))
            left, top, right, bottom = calcCubicBounds(at, *points)
            boxes.append((left, top, right, bottom))
            at = points[-1]
        else:
            if at == start:
                boxes.append((*at, *at))
            at = start
    return united(boxes)


def united(boxes: Iterable[Bounds]) -> Bounds | None:
    """The smallest box around all, None around none."""
    edges = list(zip(*boxes, strict=True))
    if not edges:
        return None
    return min(edges[0]), min(edges[1]), max(edges[2]), max(edges[3])
