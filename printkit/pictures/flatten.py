"""Drawings -> polygons -> pixels, with nothing but the standard library and pillow.

Used to measure what a child can see and to find the exact box of a picture; nothing printed is
made of these pixels.
"""

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING

from printkit.pictures.colors import rgb
from printkit.pictures.paths import Bounds, Path, bounds, united
from printkit.pictures.strokes import Cap, Join, Point, flat, widened
from printkit.pieces import Color, Drawing, Raster, Shape

if TYPE_CHECKING:
    from PIL import Image

# Each row of pixels is the mean of this many; along a row the coverage is exact.
_ROWS = 4

# Curves are followed to this part of a pixel.
_TOLERANCE = 0.05


def shape_bounds(shape: Shape, tolerance: float) -> Bounds | None:
    """The box of what the shape paints, lines with their width; None if it paints nothing.

    Exact for fills and for lines with round ends and joins; else short by at most `tolerance`.
    """
    edges = bounds(shape.path)
    boxes = []
    if shape.fill is not None and shape.fill_opacity > 0:
        boxes.append(edges)
    if _has_line(shape) and edges and shape.cap == "round" and shape.join == "round":
        half = shape.stroke_width / 2
        boxes.append((edges[0] - half, edges[1] - half, edges[2] + half, edges[3] + half))
    elif _has_line(shape):
        boxes.extend(
            (min(xs), min(ys), max(xs), max(ys))
            for polygon in line_polygons(shape, tolerance)
            for xs, ys in [tuple(zip(*polygon, strict=True))]
        )
    return united(box for box in boxes if box is not None)


def line_polygons(shape: Shape, tolerance: float) -> list[list[Point]]:
    """Polygons that together cover the shape's line."""
    return [
        polygon
        for points, closed in flat(shape.path, tolerance)
        for polygon in widened(points, closed, shape.stroke_width, shape.cap, shape.join, tolerance)
    ]


def _has_line(shape: Shape) -> bool:
    return shape.stroke is not None and shape.stroke_width > 0 and shape.stroke_opacity > 0


# --- pixels ----------------------------------------------------------------------------------


def rasterise(drawing: Drawing, width: int, height: int | None = None) -> "Image.Image":
    """The drawing on white as an RGB image, fitted into width x height pixels and centered.

    Without `height` the image has the drawing's own proportions.
    """
    if height is None:
        height = max(1, round(width * drawing.height / drawing.width))
    return layers(drawing, width, height)[0]


def layers(
    drawing: Drawing, width: int, height: int, longest: float | None = None
) -> tuple["Image.Image", "Image.Image"]:
    """The drawing in the middle of an image: its colors on white (RGB) and what it covers (L).

    Its longer side becomes `longest` pixels, or it fills the image.
    """
    from PIL import Image

    scale = (
        min(width / drawing.width, height / drawing.height)
        if longest is None
        else longest / max(drawing.width, drawing.height)
    )
    left, top = (width - drawing.width * scale) / 2, (height - drawing.height * scale) / 2
    colors = Image.new("RGB", (width, height), "white")
    cover = Image.new("L", (width, height), 0)
    if drawing.raster is not None:
        _paste(colors, cover, drawing.raster, left, top, drawing.width * scale, drawing.height * scale)
        return colors, cover
    for shape in drawing.shapes:
        if shape.fill is not None and shape.fill_opacity > 0:
            mask = _fill_mask(shape.path, shape.even_odd, scale, left, top, width, height)
            _lay(colors, cover, mask, shape.fill, shape.fill_opacity)
        if shape.stroke is not None and _has_line(shape):
            line = (shape.stroke_width, shape.cap, shape.join)
            mask = _line_mask(shape.path, line, scale, left, top, width, height)
            _lay(colors, cover, mask, shape.stroke, shape.stroke_opacity)
    if left > 0 or top > 0:
        _clear_outside(colors, cover, left, top)
    return colors, cover


def _clear_outside(colors: "Image.Image", cover: "Image.Image", left: float, top: float) -> None:
    """Wipe what reaches out of the drawing's box, as the PDF does."""
    from PIL import Image

    width, height = colors.size
    x, y = max(0, math.floor(left)), max(0, math.floor(top))
    inside = (x, y, width - x, height - y)
    for image, blank in ((colors, "white"), (cover, 0)):
        kept = image.crop(inside)
        image.paste(Image.new(image.mode, image.size, blank))
        image.paste(kept, inside)


def _lay(
    colors: "Image.Image", cover: "Image.Image", found: "_Mask | None", color: Color, opacity: float
) -> None:
    if found is None:
        return
    at, mask = found
    if opacity < 1:
        mask = mask.point([round(value * opacity) for value in range(256)])
    colors.paste(tuple(round(part * 255) for part in rgb(color)), at, mask)
    cover.paste(255, at, mask)


# Where its top left corner lies, and how far each pixel is covered (L).
_Mask = tuple[tuple[int, int], "Image.Image"]


@lru_cache(maxsize=512)
def _fill_mask(
    path: Path, even_odd: bool, scale: float, left: float, top: float, width: int, height: int
) -> _Mask | None:
    polygons = [points for points, _ in flat(path, _TOLERANCE / scale)]
    return _mask(polygons, even_odd, scale, left, top, width, height)


@lru_cache(maxsize=512)
def _line_mask(
    path: Path,
    line: tuple[float, Cap, Join],
    scale: float,
    left: float,
    top: float,
    width: int,
    height: int,
) -> _Mask | None:
    tolerance = _TOLERANCE / scale
    polygons = [
        polygon
        for points, closed in flat(path, tolerance)
        for polygon in widened(points, closed, *line, tolerance)
    ]
    return _mask(polygons, False, scale, left, top, width, height)


def _mask(
    polygons: list[list[Point]],
    even_odd: bool,
    scale: float,
    left: float,
    top: float,
    width: int,
    height: int,
) -> _Mask | None:
    """How far each pixel is covered; None for nothing at all."""
    from PIL import Image

    rows: dict[int, list[tuple[float, int]]] = {}
    down = scale * _ROWS
    for polygon in polygons:
        placed = [(left + x * scale, top * _ROWS + y * down) for x, y in polygon]
        for (x0, y0), (x1, y1) in zip(placed, placed[1:] + placed[:1], strict=True):
            if y0 == y1:
                continue
            way = 1
            if y0 > y1:
                x0, y0, x1, y1, way = x1, y1, x0, y0, -1
            first = max(0, math.ceil(y0 - 0.5))
            last = min(height * _ROWS, math.ceil(y1 - 0.5))
            if first >= last:
                continue
            slope = (x1 - x0) / (y1 - y0)
            x = x0 + slope * (first + 0.5 - y0)
            for row in range(first, last):
                rows.setdefault(row, []).append((x, way))
                x += slope
    spans = [
        (row, start, end)
        for row, crossings in rows.items()
        for start, end in _inside(crossings, even_odd)
        if end > 0 and start < width and end > start
    ]
    if not spans:
        return None
    x, y = max(0, int(min(start for _, start, _ in spans))), min(rows) // _ROWS
    wide = min(width, int(max(end for _, _, end in spans)) + 1) - x
    high = max(rows) // _ROWS + 1 - y
    lines = bytearray(wide * high * _ROWS)
    for row, start, end in spans:
        _cover(lines, (row - y * _ROWS) * wide, max(0.0, start - x), min(float(wide), end - x))
    return (x, y), Image.frombytes("L", (wide, high * _ROWS), bytes(lines)).reduce((1, _ROWS))


def _inside(crossings: list[tuple[float, int]], even_odd: bool) -> Iterator[tuple[float, float]]:
    """The stretches of one row that lie inside, from where edges cross it and which way they run."""
    crossings.sort()
    winding, start = 0, 0.0
    for x, way in crossings:
        was_inside = winding & 1 if even_odd else winding
        winding += way
        if not was_inside:
            start = x
        elif not (winding & 1 if even_odd else winding):
            yield start, x


def _cover(lines: bytearray, base: int, start: float, end: float) -> None:
    """Mark a stretch of one row as covered, its first and last pixel by their share."""
    if end <= start:
        return
    first, last = int(start), int(end)
    if first == last:
        lines[base + first] = min(255, lines[base + first] + round((end - start) * 255))
        return
    lines[base + first] = min(255, lines[base + first] + round((first + 1 - start) * 255))
    lines[base + first + 1 : base + last] = b"\xff" * (last - first - 1)
    share = round((end - last) * 255)
    if share:
        lines[base + last] = min(255, lines[base + last] + share)


# --- photos ----------------------------------------------------------------------------------


def opened(raster: Raster) -> tuple["Image.Image", "Image.Image | None"]:
    """The photo's pixels (RGB or L) and its alpha (L), as they stand in the PDF."""
    import io
    import zlib

    from PIL import Image

    size = (raster.width_px, raster.height_px)
    if raster.filter == "DCTDecode":
        image = Image.open(io.BytesIO(raster.data))
        image.load()
    else:
        mode = "L" if raster.channels == 1 else "RGB"
        image = Image.frombytes(mode, size, zlib.decompress(raster.data))
    mask = None
    if raster.mask is not None:
        mask = Image.frombytes("L", size, zlib.decompress(raster.mask))
    return image, mask


def _paste(
    colors: "Image.Image",
    cover: "Image.Image",
    raster: Raster,
    left: float,
    top: float,
    width: float,
    height: float,
) -> None:
    from PIL import Image

    image, mask = opened(raster)
    size = (max(1, round(width)), max(1, round(height)))
    at = (round(left), round(top))
    alpha = Image.new("L", image.size, 255) if mask is None else mask
    alpha = alpha.resize(size, Image.Resampling.LANCZOS)
    colors.paste(image.convert("RGB").resize(size, Image.Resampling.LANCZOS), at, alpha)
    cover.paste(alpha, at)
