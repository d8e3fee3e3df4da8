"""SVG files -> shapes: a reader for what flat drawings are made of.

Read: svg, g, a, switch, defs, symbol, use (#id), path, rect, circle, ellipse, line, polyline,
polygon; fill, stroke and opacity in attributes, style= and simple <style> rules; transforms.
What cannot be drawn is named in a note; what is harmful, damaged or without anything to see is
refused.
"""

import math
from dataclasses import dataclass, field
from typing import Any

from printkit.errors import PrintkitError, Problem
from printkit.pictures import css
from printkit.pictures.css import Style
from printkit.pictures.flatten import shape_bounds
from printkit.pictures.paints import Line, Paints, in_order, painted
from printkit.pictures.paths import Bounds, bounds, mapped, outline
from printkit.pictures.tree import Node, UnusableError, read_tree
from printkit.pieces import Drawing, Shape

MAX_DRAWN = 20_000
MAX_USES = 12
MAX_POINTS = 200_000
MAX_LEVELS = 150

_SHAPES = frozenset(["path", "rect", "circle", "ellipse", "line", "polyline", "polygon"])
_GROUPS = frozenset(["svg", "g", "a", "switch", "use"])

# What a drawing may hold that is not drawn, and the words for it; the rest is not meant to be seen.
_LOST_ELEMENTS = {
    "text": "without its text (turn letters into paths)",
    "image": "without the photo inside it",
    "foreignObject": "without its embedded page",
    "animate": "without movement",
    "animateTransform": "without movement",
    "animateMotion": "without movement",
}
_LOST_PROPERTIES = {
    "filter": "without its blur or shadow (filter)",
    "mask": "without its mask",
    "clip-path": "without its clipping (clipPath)",
    "mix-blend-mode": "without blending",
}
_MARKER = "without arrowheads (marker)"
_DASHES = "with whole lines for dashes"
_UNEVEN = "with lines of one width where they were stretched"
_LAYERS = "with see-through parts that show each other (group opacity)"
_BROKEN = "without the unreadable part of a path"
_SELECTORS = "without the style rules it cannot read"

Box = tuple[float, float, float, float]  # left, top, width, height


@dataclass(frozen=True, kw_only=True, slots=True)
class Item:
    """A shape, the ids of the elements it lies in (outermost first), and whether it is mere shade."""

    shape: Shape
    ids: tuple[str, ...] = ()
    shade: bool = False


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
    reader = _Reader(width=view_box[2], height=view_box[3], decimals=_decimals(view_box))
    reader.learn(svg)
    reader.children(svg, _Place(matrix=Transform(1, 0, 0, 1, -left, -top)).into(svg, reader))
    items = tuple(item for item in reader.items if _meets(item.shape, width, height))
    if not items:
        raise UnusableError("nothing of the drawing can be seen")
    return Artwork(name=name, width=width, height=height, items=items, notes=tuple(sorted(reader.notes)))


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


@dataclass(frozen=True, kw_only=True, slots=True)
class _Place:
    """What an element has from the elements around it."""

    matrix: Any
    style: Style = field(default_factory=dict)
    opacity: float = 1.0
    ids: tuple[str, ...] = ()
    shade: bool = False
    level: int = 0
    uses: int = 0

    def into(self, node: Node, reader: "_Reader") -> "_Place":
        """The place of what lies inside `node`."""
        own = reader.paints.sheet.own(node)
        name = node.attributes.get("id")
        return _Place(
            matrix=self.matrix.transform(css.transform(own.get("transform"))),
            style=css.inherit(self.style, own),
            opacity=self.opacity * css.share(own.get("opacity")),
            ids=(*self.ids, name) if name else self.ids,
            shade=self.shade or "shade" in node.classes,
            level=self.level + 1,
            uses=self.uses,
        )

    def moved(self, matrix: Any, uses: int = 0) -> "_Place":
        return _Place(
            matrix=self.matrix.transform(matrix),
            style=self.style,
            opacity=self.opacity,
            ids=self.ids,
            shade=self.shade,
            level=self.level,
            uses=self.uses + uses,
        )


@dataclass(kw_only=True, slots=True)
class _Reader:
    """Walks the tree once, gathering items and notes."""

    width: float
    height: float
    decimals: int
    paints: Paints = field(default_factory=Paints)
    items: list[Item] = field(default_factory=list)
    notes: set[str] = field(default_factory=set)
    drawn: int = 0
    points: int = 0

    def learn(self, node: Node) -> None:
        """Note ids, style rules and movement of the whole tree."""
        waiting = [node]
        while waiting:
            node = waiting.pop()
            if "id" in node.attributes:
                self.paints.by_id.setdefault(node.attributes["id"], node)
            if node.tag == "style":
                self.paints.sheet.add(node.text)
            if node.tag.startswith("animate"):
                self.notes.add(_LOST_ELEMENTS.get(node.tag, _LOST_ELEMENTS["animate"]))
            waiting.extend(reversed(node.children))
        if self.paints.sheet.unread:
            self.notes.add(_SELECTORS)

    def children(self, node: Node, place: _Place) -> None:
        for child in _chosen(node) if node.tag == "switch" else node.children:
            self.element(child, place)

    def element(self, node: Node, above: _Place) -> None:
        self.drawn += 1
        if self.drawn > MAX_DRAWN:
            raise UnusableError("the drawing repeats its parts too often", f"at most {MAX_DRAWN:,} parts")
        if above.level > MAX_LEVELS:
            raise UnusableError("the drawing's groups are nested too deep", f"at most {MAX_LEVELS} levels")
        if node.tag not in _SHAPES and node.tag not in _GROUPS and node.tag not in _LOST_ELEMENTS:
            return
        own = self.paints.sheet.own(node)
        if own.get("display") == "none":
            return
        if node.tag in _LOST_ELEMENTS:
            if node.tag != "text" or _says_anything(node):
                self.notes.add(_LOST_ELEMENTS[node.tag])
            return
        for name, words in _LOST_PROPERTIES.items():
            if own.get(name, "none") not in ("none", "normal"):
                self.notes.add(words)
        place = above.into(node, self)
        first = len(self.items)
        if node.tag in _SHAPES:
            self.shape(node, place)
        elif node.tag == "use":
            self.use(node, place)
        elif node.tag == "svg":
            self.children(node, place.moved(self.viewport(node, node)))
        else:
            self.children(node, place)
        if css.share(own.get("opacity")) < 1 and _overlap(self.items[first:]):
            self.notes.add(_LAYERS)

    def use(self, node: Node, place: _Place) -> None:
        """Draw what a <use> points at, if it lies in this file."""
        href = node.attributes.get("href", "")
        aim = self.paints.by_id.get(href[1:]) if href.startswith("#") else None
        if aim is None:
            return
        if place.uses >= MAX_USES:
            raise UnusableError("the drawing's <use> elements lead in a circle or too deep")
        from fontTools.misc.transform import Transform

        at = node.attributes.get
        shift = Transform().translate(css.length(at("x"), 0, self.width), css.length(at("y"), 0, self.height))
        place = place.moved(shift, uses=1)
        if aim.tag in ("symbol", "svg"):
            inside = place.into(aim, self)
            self.children(aim, inside.moved(self.viewport(aim, node)))
        else:
            self.element(aim, place)

    def viewport(self, node: Node, sized: Node) -> Any:
        """The transform into an inner <svg> or <symbol>, whose width and height stand on `sized`."""
        from fontTools.misc.transform import Transform

        at, own = sized.attributes.get, node.attributes.get
        matrix = Transform()
        if node.tag == "svg":
            x, y = css.length(own("x"), 0, self.width), css.length(own("y"), 0, self.height)
            matrix = matrix.translate(x, y)
        box = css.numbers(own("viewBox"))
        if len(box) != 4 or box[2] <= 0 or box[3] <= 0:
            return matrix
        width = css.length(at("width") or own("width"), self.width, self.width)
        height = css.length(at("height") or own("height"), self.height, self.height)
        scale = min(width / box[2], height / box[3])
        matrix = matrix.translate((width - box[2] * scale) / 2, (height - box[3] * scale) / 2)
        return matrix.scale(scale).translate(-box[0], -box[1])

    def shape(self, node: Node, place: _Place) -> None:
        style = place.style
        if style.get("visibility", "visible") != "visible":
            return
        path, whole = outline(node, self.width, self.height)
        if not whole:
            self.notes.add(_BROKEN)
        scale = self.line_scale(place.matrix, style)
        self.points += len(path)
        if self.points > MAX_POINTS:
            raise UnusableError("the drawing is too intricate", f"at most {MAX_POINTS:,} points")
        path = mapped(path, place.matrix, self.decimals)
        if not path or scale == 0:
            return
        fill = self.paints.color(style.get("fill", "black"), style)
        stroke = self.paints.color(style.get("stroke", "none"), style)
        self.notes |= self.paints.notes
        diagonal = math.hypot(self.width, self.height) / math.sqrt(2)
        width = css.length(style.get("stroke-width"), 1.0, diagonal) * scale
        if width <= 0:
            stroke = None
        if stroke is not None:
            self.note_line(style)
        line = Line(paint=stroke, width=round(width, self.decimals + 1))
        shape = painted(path, style, fill, line, place.opacity)
        for part in in_order(shape, style):
            self.items.append(Item(shape=part, ids=place.ids, shade=place.shade))
        if place.opacity < 1 and shape.fill is not None and shape.stroke is not None:
            self.notes.add(_LAYERS)

    def note_line(self, style: Style) -> None:
        if _DASHES not in self.notes and any(css.numbers(style.get("stroke-dasharray"))):
            self.notes.add(_DASHES)
        if any(style.get(name, "none") != "none" for name in _MARKERS):
            self.notes.add(_MARKER)

    def line_scale(self, matrix: Any, style: Style) -> float:
        """How much wider a line is drawn than its stroke-width says; 0 when all is squeezed flat."""
        a, b, c, d = matrix[:4]
        scale = math.sqrt(abs(a * d - b * c))
        if scale < 1e-9:
            return 0.0
        if style.get("stroke", "none") != "none":
            across, down = sorted((math.hypot(a, b), math.hypot(c, d)))
            slant = abs(a * c + b * d) / (across * down)
            if down / across > 1.25 or slant > 0.25:
                self.notes.add(_UNEVEN)
        return scale


_MARKERS = ("marker", "marker-start", "marker-mid", "marker-end")


def _chosen(switch: Node) -> list[Node]:
    """The one child of a <switch> that is drawn: the first that asks for nothing special."""
    return [
        child
        for child in switch.children
        if child.tag in _SHAPES | _GROUPS
        and not child.attributes.get("requiredExtensions")
        and not child.attributes.get("systemLanguage")
    ][:1]


def _says_anything(text: Node) -> bool:
    return bool(text.text.strip()) or any(_says_anything(child) for child in text.children)


def _overlap(items: list[Item]) -> bool:
    """Whether any two of the items may lie on each other, judged by their boxes."""
    if len(items) > 50 or sum(len(item.shape.path) for item in items) > 2_000:
        return True
    boxes = [box for item in items if (box := bounds(item.shape.path)) is not None]
    return any(
        one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]
        for i, one in enumerate(boxes)
        for two in boxes[:i]
    )
