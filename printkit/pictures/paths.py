# ruff: noqa: N802
"""Paths as tuples of ('M', x, y), ('L', x, y), ('C', x1, y1, x2, y2, x, y) and ('Z',)."""

import math
import re
from collections.abc import Callable, Iterable
from typing import Any

from printkit.pictures.css import MAX_NUMBER, length, numbers
from printkit.pictures.tree import Node, UnusableError

MAX_OPERATORS = 50_000

Path = tuple[tuple[Any, ...], ...]
Bounds = tuple[float, float, float, float]  # left, top, right, bottom

_SEGMENT = re.compile(r"[MmZzLlHhVvCcSsQqTtAa][^MmZzLlHhVvCcSsQqTtAa]*")
_LEADING_ZEROS = re.compile(r"(?<![\d.])0+(?=\d)")
_TRAILING_POINT = re.compile(r"(?<=\d)\.(?!\d)")
_SPACE = re.compile(r"\s+")


class PathPen:
    """A pen, with the method names of fontTools' pens, that keeps what it is told as a path."""

    def __init__(self) -> None:
        self.path: list[tuple[Any, ...]] = []

    def _add(self, operator: str, *points: tuple[float, float]) -> None:
        if len(self.path) >= MAX_OPERATORS:
            raise UnusableError(
                "the drawing holds a path that is too long", f"at most {MAX_OPERATORS:,} points"
            )
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
    from fontTools.svgLib.path import parse_path

    pen = PathPen()
    try:
        parse_path(_tidy(_description(node, width, height)), pen)
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


def _description(node: Node, width: float, height: float) -> str:
    """Path data for an element, '' when it draws nothing."""
    at = node.attributes.get
    across, down = (lambda key: length(at(key), 0, width)), (lambda key: length(at(key), 0, height))
    either = math.hypot(width, height) / math.sqrt(2)
    match node.tag:
        case "path":
            return at("d", "")
        case "rect":
            return _rectangle(node, across, down)
        case "circle":
            radius = length(at("r"), 0, either)
            return _ellipse(across("cx"), down("cy"), radius, radius)
        case "ellipse":
            rx = down("ry") if at("rx") in (None, "auto") else across("rx")
            ry = across("rx") if at("ry") in (None, "auto") else down("ry")
            return _ellipse(across("cx"), down("cy"), rx, ry)
        case "line":
            return f"M{across('x1')!r} {down('y1')!r}L{across('x2')!r} {down('y2')!r}"
    points = numbers(at("points"))
    points = points[: len(points) // 2 * 2]
    if len(points) < 4:
        return ""
    return "M" + " ".join(map(repr, points)) + ("Z" if node.tag == "polygon" else "")


def _rectangle(node: Node, across: Callable[[str], float], down: Callable[[str], float]) -> str:
    x, y, width, height = across("x"), down("y"), across("width"), down("height")
    if width <= 0 or height <= 0:
        return ""
    has_rx, has_ry = (node.attributes.get(key) not in (None, "auto") for key in ("rx", "ry"))
    rx = across("rx") if has_rx else down("ry")
    ry = down("ry") if has_ry else across("rx")
    rx, ry = min(max(rx, 0), width / 2), min(max(ry, 0), height / 2)
    if not rx or not ry:
        return f"M{x!r} {y!r}h{width!r}v{height!r}h{-width!r}Z"
    corner = f"a{rx!r} {ry!r} 0 0 1"
    flat, upright = width - 2 * rx, height - 2 * ry
    return (
        f"M{x + rx!r} {y!r}h{flat!r}{corner} {rx!r} {ry!r}v{upright!r}{corner} {-rx!r} {ry!r}"
        f"h{-flat!r}{corner} {-rx!r} {-ry!r}v{-upright!r}{corner} {rx!r} {-ry!r}Z"
    )


def _ellipse(x: float, y: float, rx: float, ry: float) -> str:
    if rx <= 0 or ry <= 0:
        return ""
    half = f"a{rx!r} {ry!r} 0 0 1"
    return f"M{x - rx!r} {y!r}{half} {2 * rx!r} 0{half} {-2 * rx!r} 0Z"


# --- whole paths -----------------------------------------------------------------------------


def mapped(path: Path, matrix: Any, decimals: int) -> Path:
    """The path through a fontTools Transform, rounded; UnusableError when it lands too far away."""
    pen = PathPen()
    for operator, *values in path:
        if operator == "Z":
            pen.closePath()
            continue
        points = matrix.transformPoints(list(zip(values[::2], values[1::2], strict=True)))
        pen._add(operator, *((round(x, decimals) + 0.0, round(y, decimals) + 0.0) for x, y in points))
    return tuple(pen.path)


def shifted(path: Path, dx: float, dy: float, decimals: int) -> Path:
    """The path moved by (dx, dy), rounded."""
    result = []
    for operator, *values in path:
        moved = (round(value + (dy if i % 2 else dx), decimals) + 0.0 for i, value in enumerate(values))
        result.append((operator, *moved))
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
