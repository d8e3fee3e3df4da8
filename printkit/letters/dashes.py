"""Dashes that a pencil can follow: even along each piece, ink at every end and corner, none twice."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from printkit.letters import paths
from printkit.letters.paths import Curve, Point
from printkit.letters.strokes import Letter, Stroke


@dataclass(frozen=True, kw_only=True, slots=True)
class Pen:
    """The line's width and the wished lengths of dash and gap along its centre line, all in one unit."""

    width: float
    on: float
    off: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Dashed:
    """A piece of a path and its (on, off), None where it is too short to be broken."""

    curves: tuple[Curve, ...]
    dash: tuple[float, float] | None


_STEP = 0.2
_CROSSING = 3.2
"""A contact shorter than that many times the reach is a mere crossing."""


def fitted(length: float, pen: Pen, closed: bool) -> tuple[float, float] | None:
    """Dash and gap near the wished ones with which a piece begins and ends on a dash."""
    if closed:
        count = max(2, round(length / (pen.on + pen.off)))
        scale = length / (count * (pen.on + pen.off))
        return pen.on * scale, pen.off * scale
    count = round((length + pen.off) / (pen.on + pen.off))
    if count < 2:
        return None
    scale = length / (count * pen.on + (count - 1) * pen.off)
    return pen.on * scale, pen.off * scale


def dashed(drawn: Letter, pen: Pen) -> tuple[Dashed, ...]:
    """The pieces of a letter's strokes in the order of the pen, each with its dash."""
    reach = 0.95 * pen.width
    ink = _Ink(reach)
    parts = [(stroke, part) for stroke in drawn.strokes for part in stroke.parts]
    straight_first = sorted(
        range(len(parts)), key=lambda i: (not all(paths.is_straight(curve) for curve in parts[i][1]), i)
    )
    found: dict[int, list[Dashed]] = {}
    for i in straight_first:
        stroke, part = parts[i]
        found[i] = _pieces(part, stroke, ink, pen)
        ink.add(paths.flat(part, _STEP))
    return tuple(piece for i in sorted(found) for piece in found[i])


def _pieces(part: tuple[Curve, ...], stroke: Stroke, ink: "_Ink", pen: Pen) -> list[Dashed]:
    if stroke.mark:  # marks are too small for dashes
        return [Dashed(curves=part, dash=None)]
    pieces = []
    for piece in paths.corners(part):
        for span in _free(piece, ink):
            closed = paths.is_closed(span) and len(span) == len(piece)
            pieces.append(Dashed(curves=tuple(span), dash=fitted(paths.length(span), pen, closed)))
    return pieces


class _Ink:
    """Points that are drawn already, in cells as wide as the reach."""

    def __init__(self, reach: float):
        self.reach = reach
        self.cells: dict[tuple[int, int], list[Point]] = {}

    def add(self, points: Sequence[Point]) -> None:
        for x, y in points:
            self.cells.setdefault((int(x // self.reach), int(y // self.reach)), []).append((x, y))

    def near(self, point: Point) -> bool:
        column, row = int(point[0] // self.reach), int(point[1] // self.reach)
        return any(
            math.dist(point, other) < self.reach
            for i in (column - 1, column, column + 1)
            for j in (row - 1, row, row + 1)
            for other in self.cells.get((i, j), ())
        )


def _free(piece: list[Curve], ink: _Ink) -> list[list[Curve]]:
    """The spans of a piece that do not run along ink which is there already."""
    places = [
        (i, k / count)
        for i, curve in enumerate(piece)
        for count in [max(8, math.ceil(paths.rough(curve) / _STEP))]
        for k in range(count + 1)
    ]
    points = [paths.at(piece[i], t) for i, t in places]
    touched = [ink.near(point) for point in points]
    if not any(touched):
        return [piece]
    runs = _runs(touched)
    spans = []
    for number, (near, first, last) in enumerate(runs):
        inner = 0 < number < len(runs) - 1
        short = _along(points[first : last + 1]) < _CROSSING * ink.reach
        if near and inner and short:
            near = False
        if not near and spans and spans[-1][1] == first:
            spans[-1][1] = last + 1
        elif not near:
            spans.append([first, last + 1])
    cut = [_between(piece, places[first], places[last - 1]) for first, last in spans]
    whole = [span for span in cut if span and paths.length(span) > 3 * _STEP]
    if len(whole) > 1 and not touched[0] and not touched[-1] and paths.is_closed(piece):
        whole[0] = whole.pop() + whole[0]
    return whole


def _runs(flags: list[bool]) -> list[tuple[bool, int, int]]:
    runs, first = [], 0
    for i in range(1, len(flags) + 1):
        if i == len(flags) or flags[i] != flags[first]:
            runs.append((flags[first], first, i - 1))
            first = i
    return runs


def _along(points: Sequence[Point]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(points))


def _between(piece: list[Curve], start: tuple[int, float], end: tuple[int, float]) -> list[Curve]:
    (i, t), (j, s) = start, end
    if i == j:
        return [paths.part(piece[i], t, s)] if s > t else []
    first = [paths.part(piece[i], t, 1.0)] if t < 1 else []
    last = [paths.part(piece[j], 0.0, s)] if s > 0 else []
    return [*first, *piece[i + 1 : j], *last]
