"""SVG files -> shapes: a reader for what flat drawings are made of.

Read: svg, g, a, switch, defs, symbol, use (#id), path, rect, circle, ellipse, line, polyline,
polygon; fill, stroke and opacity in attributes, style= and simple <style> rules; linear and radial
gradients; clip paths; transforms.
What cannot be drawn is named in a note; what is harmful, damaged or without anything to see is
refused.
"""

import math
from dataclasses import dataclass

from printkit.errors import PrintkitError, Problem, listing
from printkit.pictures import css
from printkit.pictures.flatten import shape_bounds
from printkit.pictures.items import Item
from printkit.pictures.paths import Bounds, bounds
from printkit.pictures.tree import Node, UnusableError, read_tree
from printkit.pictures.walk import Place, Walk
from printkit.pieces import Drawing, Shape

__all__ = ["Artwork", "Item", "read_svg"]

Box = tuple[float, float, float, float]  # left, top, width, height


@dataclass(frozen=True, kw_only=True, slots=True)
class Artwork:
    """An SVG that was read: its items in drawing order, within a box of width x height.

    `notes` say how it was drawn where that differs from the file, each to be read after 'drawn'.
    """

    name: str
    width: float
    height: float
    items: tuple[Item, ...]
    notes: tuple[str, ...] = ()

    @property
    def drawing(self) -> Drawing:
        """The whole box with every shape."""
        shapes = tuple(item.shape for item in self.items)
        return Drawing(name=self.name, width=self.width, height=self.height, shapes=shapes)


def read_svg(data: bytes, name: str) -> Artwork:
    """The drawing in an SVG file.

    Raises PrintkitError with one Problem whose place is `name` when the file is not SVG, is
    damaged, refers to other files, goes beyond the limits or shows nothing.
    """
    try:
        return _read(data, name)
    except UnusableError as refused:
        problem = Problem(place=name, found=refused.found, allowed=refused.allowed)
        raise PrintkitError([problem]) from None


def _read(data: bytes, name: str) -> Artwork:
    from fontTools.misc.transform import Transform

    svg = read_tree(data)
    view_box = _view_box(svg)
    left, top, width, height = _sheet(svg, view_box)
    walk = Walk(decimals=_decimals(view_box))
    walk.learn(svg)
    walk.whole(svg, Place(matrix=Transform(1, 0, 0, 1, -left, -top), size=view_box[2:]))
    items = tuple(item for item in walk.items if _meets(item.shape, width, height))
    if not items:
        raise UnusableError(_nothing(sorted(walk.notes)))
    return Artwork(name=name, width=width, height=height, items=items, notes=tuple(sorted(walk.notes)))


def _nothing(notes: list[str]) -> str:
    words = "nothing of the drawing can be seen"
    return f"{words}, as it is drawn {listing(notes, last='and')}; save it as PNG instead" if notes else words


def _decimals(view_box: Box) -> int:
    """As many as give a hundred-thousandth of the drawing: 1 micrometer on a picture of 100 mm."""
    return max(0, 5 - math.floor(math.log10(max(view_box[2:]))))


def _view_box(svg: Node) -> Box:
    """Left, top, width and height of the drawing's own space."""
    box = css.numbers(svg.attributes.get("viewBox"))
    if len(box) != 4:
        size = _size(svg)
        if size is None:
            raise UnusableError("the drawing has no size: it needs a viewBox, or a width and a height")
        box = [0.0, 0.0, *size]
    left, top, width, height = box
    if not (1e-3 < width < 1e6 and 1e-3 < height < 1e6):
        raise UnusableError(f"the drawing's size, {width:g} by {height:g}, cannot be drawn")
    return left, top, width, height


def _sheet(svg: Node, view_box: Box) -> Box:
    """What a viewer shows: where the sheet and the viewBox differ in shape, that lies in its middle."""
    size = _size(svg)
    if size is None:
        return view_box
    left, top, width, height = view_box
    scale = min(size[0] / width, size[1] / height)
    wide, high = size[0] / scale, size[1] / scale
    return left - (wide - width) / 2, top - (high - height) / 2, wide, high


def _size(svg: Node) -> tuple[float, float] | None:
    width, height = svg.attributes.get("width", "%"), svg.attributes.get("height", "%")
    if "%" in width + height:
        return None
    size = css.length(width), css.length(height)
    return size if min(size) > 0 else None


def _meets(shape: Shape, width: float, height: float) -> bool:
    """Whether any of what the shape paints lies on the sheet."""
    edges = bounds(shape.path)
    if shape.stroke is not None and edges is not None and not _inside(edges, width, height):
        edges = shape_bounds(shape, max(width, height) * 1e-5)
    if edges is None:
        return False
    left, top, right, bottom = edges
    if shape.stroke is None and (left == right or top == bottom):
        return False
    return left < width and top < height and right > 0 and bottom > 0


def _inside(edges: Bounds, width: float, height: float) -> bool:
    left, top, right, bottom = edges
    return left > 0 and top > 0 and right < width and bottom < height
