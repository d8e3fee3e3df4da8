"""Colored drawings -> the shapes of one ink: as they are, in gray, or as outlines to color in."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal

from printkit.pictures.colors import gray
from printkit.pictures.flatten import shape_bounds
from printkit.pictures.items import Item, cut_edges
from printkit.pictures.paths import Bounds, bounds, shifted, united
from printkit.pictures.strokes import area, flat
from printkit.pictures.svg import Artwork
from printkit.pieces import BLACK, WHITE, Color, Shape

Ink = Literal["color", "gray", "outline"]

DARK = 0.3
"""The lightest gray of eyes, buttons and wheels that stay black in outline (design choice)."""
SMALL = 0.2
"""The widest of them, as a share of the file's longer side (design choice)."""
_ROUND = 0.03
"""How far a disc may be from a circle, as a share of its width and of its area."""

THINNEST = 1.6
"""In widths of the outline: thinner shapes leave no white between their two edges (design choice)."""

NO_GRAYS: Mapping[Color, Color] = {}


def outline_width(size: float) -> float:
    """The width of outlines in mm for a picture `size` mm long: 1 from 40 mm up, at least 0.35.

    A design choice: bold on pictures to color in, finer on small ones, so that no gap fills up.
    """
    return min(1.0, max(0.35, size / 40))


def length(points: list[tuple[float, float]]) -> float:
    """How long a line through the points is."""
    return sum(abs(complex(b[0] - a[0], b[1] - a[1])) for a, b in pairwise(points))


def all_inked(
    items: Sequence[Item], ink: Ink, line: float, grays: Mapping[Color, Color], widest: float
) -> Iterator[Shape]:
    """The shapes of a drawing in an ink; in outline the glints of eyes stay, as they are black."""
    discs: list[Bounds] = []
    for item in items:
        shape = item.shape
        yield from _inked(item, ink, line, grays, widest)
        if ink != "outline":
            continue
        if not item.shade and _is_dark_disc(shape, widest):
            discs += [box for box in (bounds(shape.path),) if box is not None]
        elif item.shade and _is_glint(shape, discs):
            yield Shape(path=shape.path, fill=WHITE, even_odd=shape.even_odd, clips=shape.clips)


def _inked(
    item: Item, ink: Ink, line: float, grays: Mapping[Color, Color] = NO_GRAYS, widest: float = 0.0
) -> list[Shape]:
    """The shapes that one item becomes in an ink; `line` is the outline's width in its units.

    `grays` tell what colors become in gray; the others become what a gray printer makes of them.
    Dark discs up to `widest` units across stay black in outline.
    """
    shape = item.shape
    if ink == "outline":
        return [] if item.shade else _outlined(shape, line, widest)
    if ink == "gray":
        return [
            replace(
                shape,
                fill=None if shape.fill is None else grays.get(shape.fill) or gray(shape.fill),
                stroke=None if shape.stroke is None else grays.get(shape.stroke) or gray(shape.stroke),
            )
        ]
    return [shape]


def _outlined(shape: Shape, line: float, widest: float) -> list[Shape]:
    """White with a black edge; a line much wider than the edge becomes a white band with two.

    What is so thin that its two edges would run together becomes one black line itself, and small
    dark discs such as eyes stay black.
    """
    path = {
        "path": shape.path, "even_odd": shape.even_odd, "clips": shape.clips, "join": "round", "cap": "round"
    }  # fmt: skip
    wide = shape.stroke_width if shape.stroke is not None else 0.0
    thin = shape.fill is not None and _thickness(shape) < THINNEST * line
    if not wide and (thin or _is_dark_disc(shape, widest)):
        return [Shape(**path, fill=BLACK)]
    fill = None if shape.fill is None else WHITE
    if wide < 2 * line:
        return [Shape(**path, fill=fill, stroke=BLACK, stroke_width=line), *cut_edges(shape, line)]
    band = Shape(**path, fill=fill, stroke=WHITE, stroke_width=wide - line)
    edge = Shape(**path, fill=fill, stroke=BLACK, stroke_width=wide + line)
    return [edge, band, *cut_edges(shape, line)]


def _is_dark_disc(shape: Shape, widest: float) -> bool:
    """Whether a shape is such a thing as an eye or a button: dark, small and round."""
    box = bounds(shape.path)
    if shape.fill is None or box is None or gray(shape.fill)[0] > DARK:
        return False
    wide, high = box[2] - box[0], box[3] - box[1]
    if max(wide, high) > widest or abs(wide - high) > _ROUND * max(wide, high):
        return False
    covered = abs(sum(area(points) for points, _ in flat(shape.path, 0.002 * wide)))
    return abs(covered - math.pi / 4 * wide * high) <= _ROUND * wide * high


def _is_glint(shape: Shape, discs: Sequence[Bounds]) -> bool:
    """Whether a shade is light and lies within one of the discs."""
    box = bounds(shape.path)
    if shape.fill is None or box is None or gray(shape.fill)[0] < 1 - DARK:
        return False
    return any(
        left <= box[0] and top <= box[1] and box[2] <= right and box[3] <= bottom
        for left, top, right, bottom in discs
    )


def _thickness(shape: Shape) -> float:
    """How thick a shape is on the whole: that of a band with its area and the length of its edge."""
    lines = flat(shape.path, 0.1)
    edge = sum(length([*points, points[0]]) for points, _ in lines)
    return 2 * abs(sum(area(points) for points, _ in lines)) / edge if edge else 0.0


# --- the frame -------------------------------------------------------------------------------


def framed(art: Artwork, line: float, size: float) -> tuple[Artwork, float]:
    """The artwork cropped to its ink, and the width of outlines in its units.

    In outline when `line` is not 0, so that it is `line` mm wide when printed `size` mm long.
    What reaches out of the file's own sheet is cut off, as every viewer does.
    """
    left, top, right, bottom = _ink_box(art, 0.0)
    units = 0.0
    if line:
        # A first guess tells how long the picture is without its edge, which adds half its width on
        # both sides: units / (longest + units) = line / size.
        guess = line * max(right - left, bottom - top) / size
        left, top, right, bottom = _ink_box(art, guess)
        longest = max(right - left, bottom - top) - guess
        units = line * longest / max(size - line, line)
        left, top, right, bottom = _ink_box(art, units)
    decimals = max(1, 6 - len(str(int(max(art.width, art.height)))))
    items = tuple(
        replace(item, shape=replace(item.shape, path=shifted(item.shape.path, -left, -top, decimals)))
        for item in art.items
    )
    width, height = round(right - left, decimals), round(bottom - top, decimals)
    return replace(art, width=width, height=height, items=items), units


def _ink_box(art: Artwork, line: float) -> Bounds:
    """The box of all the ink within the sheet: in outline when `line` is not 0, else in color."""
    ink: Ink = "outline" if line else "color"
    widest = SMALL * max(art.width, art.height)
    shapes = [shape for item in art.items for shape in _inked(item, ink, line, widest=widest)]
    tolerance = max(art.width, art.height) * 1e-5
    boxes = (shape_bounds(shape, tolerance) for shape in shapes)
    box = united(box for box in boxes if box is not None)
    # The edge of what touches the border of the sheet lies half outside it.
    reach = line / 2
    sheet = (-reach, -reach, art.width + reach, art.height + reach)
    if box is None:
        return sheet
    left, top = max(sheet[0], box[0]), max(sheet[1], box[1])
    right, bottom = min(sheet[2], box[2]), min(sheet[3], box[3])
    return (left, top, right, bottom) if left < right and top < bottom else sheet
