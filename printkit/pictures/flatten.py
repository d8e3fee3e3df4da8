"""Drawings -> polygons -> pixels, with nothing but the standard library and pillow.

Used to measure what a child can see and to find the exact box of a picture; nothing printed is
made of these pixels.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import groupby
from typing import TYPE_CHECKING, Any, NamedTuple

from printkit.pictures.colors import rgb
from printkit.pictures.paths import Bounds, Path, bounds, shifted, united
from printkit.pictures.shading import shaded
from printkit.pictures.strokes import Point, dashed, flat, widened
from printkit.pieces import BLACK, Clip, Color, Drawing, Gradient, Raster, Shape

if TYPE_CHECKING:
    from PIL import Image

# Each row of pixels is the mean of this many; along a row the coverage is exact.
_ROWS = 4

# Curves are followed to this part of a pixel.
_TOLERANCE = 0.05


def shape_bounds(shape: Shape, tolerance: float) -> Bounds | None:
    """The box of what the shape paints, lines with their width; None if it paints nothing.

    Exact for fills and for lines with round ends and joins; else short by at most `tolerance`. Of
    clips the box counts, of dashes the whole line.
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
    box = united(box for box in boxes if box is not None)
    for clip in shape.clips:
        inside = united(edges for path in placed(clip, shape) if (edges := bounds(path)) is not None)
        box = _shared(box, inside)
    return box


def _shared(one: Bounds | None, two: Bounds | None) -> Bounds | None:
    if one is None or two is None:
        return None
    left, top = max(one[0], two[0]), max(one[1], two[1])
    right, bottom = min(one[2], two[2]), min(one[3], two[3])
    return (left, top, right, bottom) if left < right and top < bottom else None


def placed(clip: Clip, shape: Shape) -> tuple[Path, ...]:
    """The paths of one of the shape's clips where they lie in the drawing."""
    left, top = shape.path[0][1:3]
    return tuple(shifted(path, left, top, 9) for path in clip.paths)


def line_polygons(shape: Shape, tolerance: float) -> list[list[Point]]:
    """Polygons that together cover the shape's line, dashes as if they were whole."""
    return _polygons(replace(shape, dash=None), tolerance)


def _polygons(shape: Shape, tolerance: float) -> list[list[Point]]:
    lines = flat(shape.path, tolerance)
    if shape.dash is not None:
        lines = dashed(lines, shape.dash, shape.dash_start)
    return [
        polygon
        for points, closed in lines
        for polygon in widened(
            points, closed, shape.stroke_width, shape.cap, shape.join, tolerance, shape.miter_limit
        )
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
    _draw(colors, cover, drawing.shapes, _View(scale, left, top, width, height), 0)
    if left > 0 or top > 0:
        _clear_outside(colors, cover, left, top)
    return colors, cover


class _View(NamedTuple):
    """Where a drawing lies on an image: its scale, its top left corner, the image's size."""

    scale: float
    left: float
    top: float
    width: int
    height: int


def _draw(
    colors: "Image.Image", cover: "Image.Image", shapes: Iterable[Shape], view: _View, depth: int
) -> None:
    """The shapes over what is there; those of one layer together, `depth` layers being open already."""
    from PIL import Image

    for layer, together in groupby(shapes, key=lambda shape: (*shape.layers, None)[depth]):
        if layer is None:
            for shape in together:
                _draw_shape(colors, cover, shape, view)
            continue
        inner = colors.copy(), cover.copy()
        _draw(*inner, together, view, depth + 1)
        for whole, drawn in zip((colors, cover), inner, strict=True):
            whole.paste(Image.blend(whole, drawn, layer[1]))


def _draw_shape(colors: "Image.Image", cover: "Image.Image", shape: Shape, view: _View) -> None:
    if shape.fill is not None and shape.fill_opacity > 0:
        mask = _clipped(_fill_mask(shape.path, shape.even_odd, view), shape, view)
        paint = (shape.fill, shape.fill_gradient, shape.fill_opacity)
        _lay(colors, cover, mask, paint, shape, view)
    if shape.stroke is not None and _has_line(shape):
        line = replace(
            shape, fill=None, stroke=BLACK, stroke_opacity=1.0, fill_gradient=None, stroke_gradient=None,
            clips=(), layers=(),
        )  # fmt: skip
        mask = _clipped(_line_mask(line, view), shape, view)
        paint = (shape.stroke, shape.stroke_gradient, shape.stroke_opacity)
        _lay(colors, cover, mask, paint, shape, view)


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
    colors: "Image.Image",
    cover: "Image.Image",
    found: "_Mask | None",
    paint: tuple[Color, Gradient | None, float],
    shape: Shape,
    view: _View,
) -> None:
    """Paint the mask in a color or gradient at an opacity."""
    from PIL import ImageChops

    if found is None:
        return
    at, mask = found
    color, gradient, opacity = paint
    if opacity < 1:
        mask = mask.point([round(value * opacity) for value in range(256)])
    ink: Any = tuple(round(part * 255) for part in rgb(color))
    if gradient is not None:
        x, y = shape.path[0][1:3]
        scale = view.scale
        to_pixels = (scale, 0, 0, scale, view.left + x * scale - at[0], view.top + y * scale - at[1])
        ink = shaded(gradient, color, to_pixels, mask.size)
        mask = ImageChops.multiply(mask, ink.getchannel("A"))
        ink = ink.convert("RGB")
    colors.paste(ink, (*at, at[0] + mask.width, at[1] + mask.height), mask)
    cover.paste(255, (*at, at[0] + mask.width, at[1] + mask.height), mask)


# Where its top left corner lies, and how far each pixel is covered (L).
_Mask = tuple[tuple[int, int], "Image.Image"]


@lru_cache(maxsize=512)
def _fill_mask(path: Path, even_odd: bool, view: _View) -> _Mask | None:
    polygons = [points for points, _ in flat(path, _TOLERANCE / view.scale)]
    return _mask(polygons, even_odd, *view)


@lru_cache(maxsize=512)
def _line_mask(line: Shape, view: _View) -> _Mask | None:
    return _mask(_polygons(line, _TOLERANCE / view.scale), False, *view)


def _clipped(found: _Mask | None, shape: Shape, view: _View) -> _Mask | None:
    """The mask as far as it lies in all of the shape's clips."""
    from PIL import ImageChops

    for clip in shape.clips:
        if found is None:
            return None
        (x, y), mask = found
        area = _clip_mask(placed(clip, shape), clip.even_odd, view)
        mask = ImageChops.multiply(mask, area.crop((x, y, x + mask.width, y + mask.height)))
        found = (x, y), mask
    return found


@lru_cache(maxsize=64)
def _clip_mask(paths: tuple[Path, ...], even_odd: bool, view: _View) -> "Image.Image":
    """How far each pixel of the whole image lies in any of the paths."""
    from PIL import Image

    whole = Image.new("L", (view.width, view.height), 0)
    for path in paths:
        found = _fill_mask(path, even_odd, view)
        if found is not None:
            whole.paste(255, found[0], found[1])
    return whole


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
