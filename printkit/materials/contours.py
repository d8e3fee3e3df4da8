"""The silhouette of a drawing, its contour, and ways that run inside it at a distance.

A picture is drawn into pixels, the pixels' edge is followed, and every distance that matters is then
measured between points and straight lines. Lengths are in mm from the drawing's top left corner.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from printkit.pictures.flatten import layers
from printkit.pieces import Drawing

if TYPE_CHECKING:
    from PIL import Image

Point = tuple[float, float]
PIXEL = 0.5
"""mm of a pixel."""
_PAD = 3
_WHOLE = 200
"""From this cover (of 255) on a pixel counts as covered, so that a slit finer than a pixel is one too."""
_SAFE = 2.7
"""Pixels added to a distance, as both edges are only known by their pixels (measured)."""
_EVEN = 4
"""How often the line of a rim, which scissors follow, is evened out."""
_SPECK = 0.002
"""Parts smaller than this share of the whole are specks of antialiasing, not parts."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Silhouette:
    """What a drawing covers, its inner gaps filled; `parts` tells of how many pieces it consists.

    `contour` is the closed outer line of the largest of them, `mask` its pixels (L, 0 or 255) with
    `pad` empty ones on every side.
    """

    parts: int
    contour: tuple[Point, ...]
    mask: "Image.Image"
    pad: int = _PAD


def silhouette(drawing: Drawing, width: float, height: float) -> Silhouette:
    """The silhouette of a drawing printed `width` x `height` mm."""
    across, down = max(1, round(width / PIXEL)), max(1, round(height / PIXEL))
    cover = layers(drawing, across, down)[1].point([0] * _WHOLE + [255] * (256 - _WHOLE))
    parts = _parts(_padded(cover, _PAD))
    largest = parts[0]
    contour = _in_mm(_smoothed(largest.corners), _PAD)
    return Silhouette(parts=len(parts), contour=contour, mask=largest.mask)


def _padded(mask: "Image.Image", pad: int) -> "Image.Image":
    from PIL import Image

    wide = Image.new("L", (mask.width + 2 * pad, mask.height + 2 * pad), 0)
    wide.paste(mask, (pad, pad))
    return wide


def _parts(mask: "Image.Image") -> list["_Part"]:
    """The connected pieces of a mask (corners touch), gaps within each filled, the largest first."""
    from PIL import Image

    left = mask.copy()
    found: list[_Part] = []
    while (box := left.getbbox()) is not None:
        corners = _corners(left, box)
        filled = Image.frombytes("L", left.size, _filled(corners, *left.size))
        left.paste(0, (0, 0), filled)
        found.append(_Part(pixels=filled.histogram()[255], corners=corners, mask=filled))
    found.sort(key=lambda part: -part.pixels)
    whole = sum(part.pixels for part in found)
    return [part for part in found if part.pixels >= _SPECK * whole]


class _Part(NamedTuple):
    """A connected piece of a mask: how many pixels, the corners round it, the piece alone."""

    pixels: int
    corners: list[tuple[int, int]]
    mask: "Image.Image"


# --- the edge of a mask ----------------------------------------------------------------------

_TURNS = ((1, 0), (0, 1), (-1, 0), (0, -1))
"""Right, down, left, up."""


def _corners(mask: "Image.Image", box: tuple[int, int, int, int]) -> list[tuple[int, int]]:
    """The corners of pixels round the piece that is first met from the top, clockwise."""
    width = mask.width
    data = mask.tobytes()
    top = box[1]
    start = (data.index(b"\xff", top * width) - top * width, top)
    corner, way = start, 0
    points: list[tuple[int, int]] = []
    while True:
        points.append(corner)
        dx, dy = _TURNS[way]
        corner = x, y = corner[0] + dx, corner[1] + dy
        (left_x, left_y), (right_x, right_y) = _AHEAD[way]
        if data[(y + left_y) * width + x + left_x]:
            way = (way - 1) % 4
        elif not data[(y + right_y) * width + x + right_x]:
            way = (way + 1) % 4
        if corner == start and way == 0:
            return points


_AHEAD = (
    ((0, -1), (0, 0)),
    ((0, 0), (-1, 0)),
    ((-1, 0), (-1, -1)),
    ((-1, -1), (0, -1)),
)
"""By way: the pixels ahead of a corner, to the left and to the right."""


def _filled(corners: Sequence[tuple[int, int]], width: int, height: int) -> bytes:
    """All pixels within a closed line of corners, in an image of that size."""
    rows: dict[int, list[int]] = {}
    for (x, y1), (_, y2) in pairwise((*corners, corners[0])):
        if y1 != y2:
            rows.setdefault(min(y1, y2), []).append(x)
    data = bytearray(width * height)
    for y, crossings in rows.items():
        crossings.sort()
        for start, end in zip(crossings[::2], crossings[1::2], strict=True):
            data[y * width + start : y * width + end] = b"\xff" * (end - start)
    return bytes(data)


def _smoothed(points: Sequence[tuple[float, float]]) -> tuple[Point, ...]:
    """The middles of the steps, evened out, so that stairs of pixels become a line."""
    count = len(points)
    middles = [_mean(points[i], points[(i + 1) % count]) for i in range(count)]
    for _ in range(2):
        middles = [
            (
                (middles[i - 1][0] + 2 * middles[i][0] + middles[(i + 1) % count][0]) / 4,
                (middles[i - 1][1] + 2 * middles[i][1] + middles[(i + 1) % count][1]) / 4,
            )
            for i in range(count)
        ]
    return tuple(middles)


def _mean(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def _in_mm(points: Sequence[Point], pad: int) -> tuple[Point, ...]:
    return tuple(((x - pad) * PIXEL, (y - pad) * PIXEL) for x, y in points)


# --- ways round it and inside ----------------------------------------------------------------


def widened(shape: Silhouette, by: float, bay: float) -> Silhouette:
    """The silhouette with a rim of `by` mm all round; bays less than twice `bay` mm wide are filled."""
    more = math.ceil((by + bay) / PIXEL) + _PAD
    first = _parts(_padded(shape.mask, more))[0]
    grown = _parts(_grown(first, (by + bay) / PIXEL))[0]
    pad = shape.pad + more
    filled = Silhouette(parts=1, contour=(), mask=grown.mask, pad=pad)
    rim = _parts(_worn(filled, bay / PIXEL))[0]
    edge = rim.corners
    for _ in range(_EVEN):
        edge = _smoothed(edge)
    return Silhouette(parts=shape.parts, contour=_in_mm(edge, pad), mask=rim.mask, pad=pad)


def inset(shape: Silhouette, distance: float, radius: float) -> tuple[Point, ...]:
    """The longest closed way that keeps `distance` mm from the contour and bends outward by no less
    than `radius` mm; () if there is none.

    What is too narrow for it is passed by.
    """
    core = _worn(shape, (distance + radius) / PIXEL + _SAFE)
    ways = [_smoothed(_parts(_grown(part, radius / PIXEL))[0].corners) for part in _parts(core)]
    return max((_in_mm(way, shape.pad) for way in ways), key=length_of, default=())


def _worn(shape: Silhouette, reach: float) -> "Image.Image":
    """The pixels of a silhouette that lie further than `reach` pixels from its edge."""
    from PIL import ImageChops

    box = shape.mask.getbbox()
    assert box is not None
    return ImageChops.subtract(shape.mask, _discs(_corners(shape.mask, box), shape.mask.size, reach))


def _grown(part: "_Part", reach: float) -> "Image.Image":
    """The pixels that lie within `reach` of a piece."""
    from PIL import ImageChops

    return ImageChops.lighter(part.mask, _discs(part.corners, part.mask.size, reach))


def _discs(corners: Sequence[tuple[int, int]], size: tuple[int, int], reach: float) -> "Image.Image":
    """Discs about every other point of an edge."""
    from PIL import Image, ImageDraw

    found = Image.new("L", size, 0)
    pen = ImageDraw.Draw(found)
    for x, y in corners[::2]:
        pen.ellipse((x - 0.5 - reach, y - 0.5 - reach, x - 0.5 + reach, y - 0.5 + reach), fill=255)
    return found


def length_of(way: Sequence[Point]) -> float:
    """mm round a closed way."""
    return sum(math.dist(a, b) for a, b in pairwise((*way, way[0])))


def places_along(way: Sequence[Point], count: int, start: float) -> tuple[Point, ...]:
    """`count` points evenly along a closed way, the first `start` mm from its beginning."""
    whole = length_of(way)
    wanted = sorted((start + whole * i / count) % whole for i in range(count))
    shift = wanted.index(start % whole)
    found: list[Point] = []
    done, next_one = 0.0, 0
    for a, b in pairwise((*way, way[0])):
        step = math.dist(a, b)
        while next_one < count and wanted[next_one] <= done + step:
            share = (wanted[next_one] - done) / step if step else 0.0
            found.append((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
            next_one += 1
        done += step
    while next_one < count:
        found.append(way[0])
        next_one += 1
    return tuple(found[shift:] + found[:shift])


def distance_to(point: Point, line: Sequence[Point]) -> float:
    """mm from a point to a closed line."""
    return min(_off(point, a, b) for a, b in pairwise((*line, line[0])))


def _off(point: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    squared = dx * dx + dy * dy
    share = 0.0 if not squared else ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / squared
    share = min(1.0, max(0.0, share))
    return math.hypot(point[0] - a[0] - share * dx, point[1] - a[1] - share * dy)


def holds(line: Sequence[Point], point: Point) -> bool:
    """Whether a point lies inside a closed line."""
    inside = False
    x, y = point
    for (x1, y1), (x2, y2) in pairwise((*line, line[0])):
        if (y1 > y) != (y2 > y) and x < x1 + (x2 - x1) * (y - y1) / (y2 - y1):
            inside = not inside
    return inside


def simplified(line: Sequence[Point], tolerance: float) -> tuple[Point, ...]:
    """A closed line with fewer corners, none of those left out further off than `tolerance` mm."""
    far = max(range(len(line)), key=lambda i: math.dist(line[0], line[i]))
    first = _fewer(line[: far + 1], tolerance)
    second = _fewer((*line[far:], line[0]), tolerance)
    return (*first[:-1], *second[:-1])


def _fewer(points: Sequence[Point], tolerance: float) -> tuple[Point, ...]:
    kept = {0, len(points) - 1}
    waiting = [(0, len(points) - 1)]
    while waiting:
        low, high = waiting.pop()
        if high - low < 2:
            continue
        off, at = max((_off(points[i], points[low], points[high]), i) for i in range(low + 1, high))
        if off > tolerance:
            kept.add(at)
            waiting += [(low, at), (at, high)]
    return tuple(points[i] for i in sorted(kept))
