"""Pictures cut by upright lines, and pictures paled for a back."""

from dataclasses import replace

from printkit.pictures.flatten import opened
from printkit.pictures.paths import shifted
from printkit.pieces import Color, Drawing, Gradient, Raster, Shape

_DECIMALS = 4
_PALE = 0.5
"""How much of a color is left on a back (design choice): clear to see, yet it does not shine through."""


def cropped(drawing: Drawing, start: float, end: float) -> Drawing:
    """The part of a drawing between two shares of its width (0 at the left, 1 at the right).

    A drawing of shapes keeps them all: a page shows of it what lies in its box.
    """
    left, right = start * drawing.width, end * drawing.width
    name = f"{drawing.name} from {start:.4f} to {end:.4f}"
    if drawing.raster is not None:
        raster = _cut(drawing.raster, start, end)
        return replace(drawing, name=name, width=right - left, raster=raster)
    shapes = tuple(
        replace(shape, path=shifted(shape.path, -left, 0.0, _DECIMALS)) for shape in drawing.shapes
    )
    return replace(drawing, name=name, width=right - left, shapes=shapes)


def _cut(raster: Raster, start: float, end: float) -> Raster:
    """The columns of pixels of a photo between two shares of its width, at least one."""
    first = min(round(start * raster.width_px), raster.width_px - 1)
    last = max(round(end * raster.width_px), first + 1)
    image, mask = opened(raster)
    return _packed(
        image.crop((first, 0, last, image.height)), mask and mask.crop((first, 0, last, mask.height))
    )


def _packed(image, mask) -> Raster:
    """Pixels (L or RGB) and their alpha, packed without loss."""
    import zlib

    return Raster(
        data=zlib.compress(image.tobytes(), 9),
        filter="FlateDecode",
        width_px=image.width,
        height_px=image.height,
        channels=1 if image.mode == "L" else 3,
        mask=None if mask is None else zlib.compress(mask.tobytes(), 9),
    )


def paled(drawing: Drawing) -> Drawing:
    """A gray or outline drawing in light gray, for a back."""
    name = f"{drawing.name} paled"
    if drawing.raster is not None:
        image, mask = opened(drawing.raster)
        lighter = image.point(
            [round(255 - (255 - i % 256) * _PALE) for i in range(256 * len(image.getbands()))]
        )
        return replace(drawing, name=name, raster=_packed(lighter, mask))
    return replace(drawing, name=name, shapes=tuple(_pale_shape(shape) for shape in drawing.shapes))


def _pale_shape(shape: Shape) -> Shape:
    return replace(
        shape,
        fill=None if shape.fill is None else _pale(shape.fill),
        stroke=None if shape.stroke is None else _pale(shape.stroke),
        fill_gradient=_pale_gradient(shape.fill_gradient),
        stroke_gradient=_pale_gradient(shape.stroke_gradient),
    )


def _pale_gradient(gradient: Gradient | None) -> Gradient | None:
    if gradient is None:
        return None
    stops = tuple((offset, _pale(color), alpha) for offset, color, alpha in gradient.stops)
    return replace(gradient, stops=stops, mean=_pale(gradient.mean))


def _pale(color: Color) -> Color:
    return tuple(round(1 - (1 - part) * _PALE, 4) for part in color)
