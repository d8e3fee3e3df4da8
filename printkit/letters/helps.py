"""Signs beside the strokes of a model: where the pen starts, which way it goes, in which order.

Places are found once for each letter: an arrow beside its stroke, a number beside the start, none of
them touching a stroke or each other, and none reaching into the next letter.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from printkit.letters import paths
from printkit.letters.paths import Point
from printkit.letters.strokes import Letter

DOT = 1.0
"""The radius of a start dot, in units of the grid (20 to a line height)."""
BESIDE = 2.5
"""How far signs may reach left of a letter; the letters of a model stand that much wider apart."""
RIGHT = 1.2
"""How far they may reach right of it."""
NUMBER = 3.0
"""The height of a stroke's number."""
_OFFSET = 1.55
_SIZES = (4.2, 3.4, 2.7)
"""Lengths of arrows, tried from the longest; a shorter one nearer the start is better."""
_CLEAR = 0.95
_TOP = 24.5
_BOTTOM = -13.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Arrow:
    """The line of an arrow from its tail to its tip."""

    points: tuple[Point, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Helps:
    """Start dots in the order of the strokes, numbers (what, middle), arrows."""

    starts: tuple[Point, ...]
    numbers: tuple[tuple[str, Point], ...]
    arrows: tuple[Arrow, ...]


def helps(drawn: Letter) -> Helps:
    """The signs of one letter, in units of its grid."""
    strokes = [stroke for stroke in drawn.strokes if stroke.parts and not stroke.mark]
    ink = [
        p
        for stroke in drawn.strokes
        for p in ([stroke.dot] if stroke.dot else paths.flat(stroke.curves, 0.5))
    ]
    left = min(x for x, _ in ink) - BESIDE
    right = max(x for x, _ in ink) + RIGHT
    box = (left, right)
    starts = tuple(stroke.parts[0][0][0] for stroke in strokes)
    taken: list[tuple[Point, float]] = [(start, DOT) for start in starts]
    numbers = _numbers(strokes, ink, taken, box)
    taken += [(place, NUMBER * 0.5) for _, place in numbers]
    arrows = []
    for stroke in strokes:
        for part in stroke.parts:
            arrow = _arrow(part, ink, taken, box)
            if arrow:
                arrows.append(Arrow(points=arrow))
                taken += [(point, 0.55) for point in arrow]
    return Helps(starts=starts, numbers=tuple(numbers), arrows=tuple(arrows))


def _numbers(strokes, ink, taken, box) -> list[tuple[str, Point]]:
    """Numbers beside the starts; where one finds no place, the last is placed first."""
    if len(strokes) < 2:
        return []
    best: list[tuple[str, Point]] = []
    for order in (range(len(strokes)), reversed(range(len(strokes)))):
        found: dict[int, Point] = {}
        for i in order:
            others = [*taken, *((place, NUMBER * 0.5) for place in found.values())]
            first = strokes[i].parts[0]
            shared = sum(math.dist(first[0][0], s.parts[0][0][0]) < 0.5 for s in strokes) > 1
            ways = (_along(first), _behind(first[0])) if shared else (_behind(first[0]), _along(first))
            place = _first_free((p for way in ways for p in way), ink, others, box)
            if place:
                found[i] = place
        if len(found) > len(best):
            best = [(str(i + 1), found[i]) for i in sorted(found)]
        if len(best) == len(strokes):
            break
    return best


def _behind(curve) -> Iterator[Point]:
    """Places round the start of a stroke, those against its direction first."""
    x, y = curve[0]
    hx, hy = paths.heading(curve)
    back = math.atan2(-hy, -hx)
    for far in (DOT + NUMBER * each for each in (0.62, 0.85, 1.1, 1.4, 1.7)):
        for turn in (0, 30, -30, 60, -60, 90, -90, 120, -120, 75, -75, 105, -105, 140, -140, 170, -170):
            angle = back + math.radians(turn)
            yield x + far * math.cos(angle), y + far * math.sin(angle)


def _along(part) -> Iterator[Point]:
    """Places beside a stroke not far from its start: which stroke is meant where two start together."""
    points = paths.flat(part, 0.3)
    for far in (NUMBER * 0.85, NUMBER * 1.0):
        for start in (1.6, 2.2, 2.8, 3.4, 4.2, 5.0, 6.0):
            for side in _sides(points):
                yield from _beside(points, start, start + 0.35, side, far)[:1]


def _first_free(places: Iterator[Point], ink, taken, box) -> Point | None:
    clear = NUMBER * 0.5 + 0.55
    free = (place for place in places if _is_free([place], clear, ink, taken, box, NUMBER * 0.35))
    return next(free, None)


def _arrow(part, ink: Sequence[Point], taken, box) -> tuple[Point, ...] | None:
    points = paths.flat(part, 0.3)
    whole = sum(math.dist(a, b) for a, b in pairwise(points))
    sizes = [size for size in _SIZES if size <= max(0.6 * whole, _SIZES[-1])] if whole > 4 else []
    tries = sorted(
        (start + 1.5 * (_SIZES[0] - size) + 0.5 * late, start, size, side)
        for size in sizes
        for start in _starts(whole, size)
        for late, side in enumerate(_sides(points))
    )
    for _, start, size, side in tries:
        beside = _beside(points, start, start + size, side)
        if len(beside) > 2 and _is_free(beside, _CLEAR, ink, taken, box, 0.3):
            return tuple(beside)
    return None


def _sides(points: Sequence[Point]) -> tuple[int, int]:
    """Left of the letter first where the stroke runs down; outside of a bow first."""
    (ax, ay), (bx, by), (cx, cy) = points[0], points[len(points) // 3], points[2 * len(points) // 3]
    bend = (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
    if abs(bend) > 0.5:
        return (-1, 1) if bend > 0 else (1, -1)  # to the right of a bow that turns left: outside
    return (-1, 1) if by < ay else (1, -1)


def _starts(whole: float, size: float) -> Iterator[float]:
    first = min(DOT + 0.8, max(0.0, whole - size))
    at = first
    while at + size <= whole + 1e-6:
        yield at
        at += 0.5


def _beside(
    points: Sequence[Point], start: float, end: float, side: int, far: float = _OFFSET
) -> list[Point]:
    """The stretch of a path between two lengths, shifted sideways; side 1 is left of the pen's way."""
    shifted: list[Point] = []
    run = 0.0
    for (ax, ay), (bx, by) in pairwise(points):
        step = math.dist((ax, ay), (bx, by))
        if step and start <= run + step / 2 <= end:
            nx, ny = -(by - ay) / step * side, (bx - ax) / step * side
            shifted.append(((ax + bx) / 2 + nx * far, (ay + by) / 2 + ny * far))
        run += step
    return shifted


def _is_free(points, clear: float, ink, taken, box, pad: float) -> bool:
    left, right = box
    if any(not (left + pad <= x <= right - pad and _BOTTOM <= y <= _TOP) for x, y in points):
        return False
    for x, y in points:
        near = (other for other in ink if abs(other[0] - x) < clear + 0.45)
        if any(math.dist((x, y), other) < clear + 0.45 for other in near):
            return False
        if any(math.dist((x, y), other) < clear + radius - 0.35 for other, radius in taken):
            return False
    return True
