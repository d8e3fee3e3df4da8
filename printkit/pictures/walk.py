"""Walks the elements of an SVG once, in drawing order, gathering shapes and notes."""

import math
from dataclasses import dataclass, field, replace
from typing import Any

from printkit.pictures import css
from printkit.pictures.css import Style
from printkit.pictures.gradients import Ground
from printkit.pictures.items import Item, Region, clipped, faded, region
from printkit.pictures.paints import Line, Paints, in_order, painted
from printkit.pictures.paths import Bounds, Path, bounds, mapped, outline, united
from printkit.pictures.tree import Node, UnusableError
from printkit.pieces import Gradient

MAX_DRAWN = 5_000
MAX_USES = 12
MAX_POINTS = 60_000
MAX_LEVELS = 150
# How far clips may be clipped themselves; a circle ends here.
MAX_CLIPS = 4

SHAPES = frozenset(["path", "rect", "circle", "ellipse", "line", "polyline", "polygon"])
GROUPS = frozenset(["svg", "g", "a", "switch", "use"])

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
    "mix-blend-mode": "without blending",
}
_MARKERS = ("marker", "marker-start", "marker-mid", "marker-end")
_MARKER = "without arrowheads (marker)"
_UNEVEN = "with lines of one width where they were stretched"
_BROKEN = "without the unreadable part of a path"
_SELECTORS = "without the style rules it cannot read"
_CLIPPING = "with a simpler edge where it is clipped (clipPath)"


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """What an element has from the elements around it; `size` is what percentages are taken of."""

    matrix: Any
    size: tuple[float, float]
    style: Style = field(default_factory=dict)
    ids: tuple[str, ...] = ()
    shade: bool = False
    level: int = 0
    uses: int = 0

    def into(self, node: Node, own: Style) -> "Place":
        """The place of what lies inside `node`, which says `own`."""
        name = node.attributes.get("id")
        return replace(
            self,
            matrix=self.matrix.transform(css.transform(own.get("transform"))),
            style=css.inherit(self.style, own),
            ids=(*self.ids, name) if name else self.ids,
            shade=self.shade or "shade" in node.classes,
            level=self.level + 1,
        )

    def moved(self, matrix: Any) -> "Place":
        return replace(self, matrix=self.matrix.transform(matrix))


@dataclass(kw_only=True, slots=True)
class Walk:
    """One walk through a drawing; lengths are rounded to `decimals`."""

    decimals: int
    paints: Paints = field(default_factory=Paints)
    items: list[Item] = field(default_factory=list)
    notes: set[str] = field(default_factory=set)
    drawn: int = 0
    points: int = 0
    layers: int = 0
    outlines: dict[Any, tuple[Path, bool, Bounds | None]] = field(default_factory=dict)

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

    def whole(self, svg: Node, place: Place) -> None:
        """The outermost element."""
        own = self.paints.sheet.own(svg)
        inside = place.into(svg, own)
        self.children(svg, inside)
        self.finish(own, inside, 0)

    def children(self, node: Node, place: Place) -> None:
        for child in _chosen(node) if node.tag == "switch" else node.children:
            self.element(child, place)

    def element(self, node: Node, above: Place) -> None:
        self.drawn += 1
        if self.drawn > MAX_DRAWN:
            raise UnusableError("the drawing repeats its parts too often", f"at most {MAX_DRAWN:,} parts")
        if above.level > MAX_LEVELS:
            raise UnusableError("the drawing's groups are nested too deep", f"at most {MAX_LEVELS} levels")
        if node.tag not in SHAPES and node.tag not in GROUPS and node.tag not in _LOST_ELEMENTS:
            return
        own = self.paints.sheet.own(node)
        if own.get("display") == "none":
            return
        if node.tag in _LOST_ELEMENTS:
            if node.tag != "text" or _says_anything(node):
                self.notes.add(_LOST_ELEMENTS[node.tag])
            return
        place = above.into(node, own)
        first = len(self.items)
        if node.tag in SHAPES:
            self.shape(node, place)
        elif node.tag == "use":
            self.use(node, place)
        elif node.tag == "svg":
            self.viewport(node, node, place)
        else:
            self.children(node, place)
        self.finish(own, place, first)

    def finish(self, own: Style, place: Place, first: int) -> None:
        """What an element does to all it has drawn together: `items` from `first` on."""
        for name, words in _LOST_PROPERTIES.items():
            if own.get(name, "none") not in ("none", "normal"):
                self.notes.add(words)
        clip = self.clip_of(own)
        if clip is not None:
            for area in self.regions(clip, place, first):
                self.cut(area, first)
        opacity = css.share(own.get("opacity"))
        if opacity < 1:
            self.layers += 1
            self.count(len(self.items) - first)
            self.items[first:] = faded(self.items[first:], opacity, self.layers)

    # --- other elements ---

    def use(self, node: Node, place: Place) -> None:
        """Draw what a <use> points at, if it lies in this file."""
        aim = self.aim(node)
        if aim is None:
            return
        if place.uses >= MAX_USES:
            raise UnusableError("the drawing's <use> elements lead in a circle or too deep")
        place = replace(place.moved(_shift(node, place)), uses=place.uses + 1)
        if aim.tag in ("symbol", "svg"):
            own = self.paints.sheet.own(aim)
            inside, first = place.into(aim, own), len(self.items)
            self.viewport(aim, node, inside)
            self.finish(own, inside, first)
        else:
            self.element(aim, place)

    def aim(self, node: Node) -> Node | None:
        href = node.attributes.get("href", "").strip()
        return self.paints.by_id.get(href[1:]) if href.startswith("#") else None

    def viewport(self, node: Node, sized: Node, place: Place) -> None:
        """What lies in an inner <svg> or <symbol>, whose width and height stand on `sized`."""
        at, own = sized.attributes.get, node.attributes.get
        if node.tag == "svg":
            place = place.moved(_shift(node, place))
        width = css.length(_given(at("width")) or _given(own("width")), place.size[0], place.size[0])
        height = css.length(_given(at("height")) or _given(own("height")), place.size[1], place.size[1])
        if width <= 0 or height <= 0:
            return
        inside, size = place, (width, height)
        box = css.numbers(own("viewBox"))
        if len(box) == 4 and box[2] > 0 and box[3] > 0:
            inside = place.moved(_fitted(box, width, height, own("preserveAspectRatio", "")))
            size = (box[2], box[3])
        first = len(self.items)
        self.children(node, replace(inside, size=size))
        if self.paints.sheet.own(node).get("overflow", "hidden") in ("hidden", "scroll"):
            window: Path = (("M", 0, 0), ("L", width, 0), ("L", width, height), ("L", 0, height), ("Z",))
            self.cut(Region(paths=(mapped(window, place.matrix, self.decimals),)), first)

    def shape(self, node: Node, place: Place) -> None:
        style = place.style
        if style.get("visibility", "visible") != "visible":
            return
        own, whole, box = self.outline(node, place.size)
        if not whole:
            self.notes.add(_BROKEN)
        scale = self.line_scale(place.matrix, style)
        self.count(len(own))
        path = mapped(own, place.matrix, self.decimals)
        if not path or box is None or scale == 0:
            return
        ground = Ground(box=box, matrix=place.matrix, start=path[0][1:3], size=place.size)
        diagonal = math.hypot(*place.size) / math.sqrt(2)
        width = css.length(style.get("stroke-width"), 1.0, diagonal)
        fill = self.paints.paint(style.get("fill", "black"), style, ground)
        around = replace(ground, reach=width)
        stroke = self.paints.paint(style.get("stroke", "none"), style, around) if width > 0 else None
        self.notes |= self.paints.notes
        self.count(2 * sum(len(found.stops) for found in (fill, stroke) if isinstance(found, Gradient)))
        if stroke is not None and any(style.get(name, "none") != "none" for name in _MARKERS):
            self.notes.add(_MARKER)
        line = Line(paint=stroke, width=round(width * scale, self.decimals + 1), scale=scale, whole=diagonal)
        for part in in_order(painted(path, style, fill, line), style):
            self.items.append(Item(shape=part, ids=place.ids, shade=place.shade))

    def outline(self, node: Node, size: tuple[float, float]) -> tuple[Path, bool, Bounds | None]:
        """The path of a shape in its own numbers, if it is whole, and its box."""
        key = (id(node), size)
        if key not in self.outlines:
            path, whole = outline(node, *size)
            self.outlines[key] = (path, whole, bounds(path))
        return self.outlines[key]

    def count(self, points: int) -> None:
        self.points += points
        if self.points > MAX_POINTS:
            raise UnusableError("the drawing is too intricate", f"at most {MAX_POINTS:,} points")

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

    # --- clipping ---

    def box(self, place: Place, first: int) -> Bounds | None:
        """The box of what was drawn, lines without their width, where `place` has its numbers."""
        a, b, c, d = place.matrix[:4]
        if abs(a * d - b * c) < 1e-12:
            return None
        back = place.matrix.inverse()
        self.count(sum(len(item.shape.path) for item in self.items[first:]))
        paths = (mapped(item.shape.path, back, 9) for item in self.items[first:])
        return united(box for path in paths if (box := bounds(path)) is not None)

    def cut(self, area: Region, first: int) -> None:
        """Keep what lies in the region."""
        before = self.items[first:]
        self.count(5 * len(before))
        after = clipped(before, area, self.decimals)
        grown = sum(len(item.shape.clips) for item in after) - sum(len(item.shape.clips) for item in before)
        self.count(max(0, grown) * (10 + sum(len(path) for path in area.paths)))
        self.items[first:] = after

    def regions(self, clip: Node, place: Place, first: int, hops: int = 0) -> list[Region]:
        """Where what refers to a <clipPath> shows: inside every one of these.

        `first` is the place in `items` of what is clipped.
        """
        own = self.paints.sheet.own(clip)
        matrix, size = place.matrix, place.size
        if clip.attributes.get("clipPathUnits") == "objectBoundingBox":
            box = self.box(place, first)
            if box is None:
                return [Region(paths=())]
            left, top, right, bottom = box
            matrix, size = matrix.transform((right - left, 0, 0, bottom - top, left, top)), (1.0, 1.0)
        inside = replace(place, matrix=matrix, size=size, style={}).into(clip, own)
        self.count(len(clip.children))
        paths = [path for child in clip.children for path in self.clip_paths(child, inside, 0)]
        area, exact = region(paths)
        within = [
            found
            for child in clip.children
            if (found := self.clip_of(self.paints.sheet.own(child))) is not None
        ]
        outer = self.clip_of(own)
        more: list[Region] = []
        if outer is not None and hops < MAX_CLIPS:
            more += self.regions(outer, place, first, hops + 1)
        # Where a clip's only shape is itself clipped, both hold; of several each would have its own.
        if len(within) == len(clip.children) == 1 and hops < MAX_CLIPS:
            more += self.regions(within[0], inside, first, hops + 1)
        elif within:
            exact = False
        if not exact:
            self.notes.add(_CLIPPING)
        return [area, *more]

    def clip_of(self, own: Style) -> Node | None:
        """The <clipPath> that an element refers to."""
        node = self.paints.by_id.get(css.target(own.get("clip-path")))
        return node if node is not None and node.tag == "clipPath" else None

    def clip_paths(self, node: Node, above: Place, uses: int) -> list[tuple[Path, bool]]:
        """The paths that an element inside a <clipPath> adds, with whether they follow even-odd."""
        own = self.paints.sheet.own(node)
        place = above.into(node, own)
        if own.get("display") == "none":
            return []
        if node.tag == "use" and uses < MAX_USES:
            aim = self.aim(node)
            moved = place.moved(_shift(node, place))
            return self.clip_paths(aim, moved, uses + 1) if aim is not None else []
        if node.tag == "text":
            self.notes.add(_LOST_ELEMENTS["text"])
        if node.tag not in SHAPES or place.style.get("visibility", "visible") != "visible":
            return []
        path, _, _ = self.outline(node, place.size)
        self.count(len(path))
        return [(mapped(path, place.matrix, self.decimals), place.style.get("clip-rule") == "evenodd")]


def _shift(node: Node, place: Place) -> Any:
    from fontTools.misc.transform import Transform

    at = node.attributes.get
    return Transform().translate(css.length(at("x"), 0, place.size[0]), css.length(at("y"), 0, place.size[1]))


def _given(text: str | None) -> str:
    return "" if text in (None, "auto") else text


def _fitted(box: list[float], width: float, height: float, how: str) -> Any:
    """The transform of a viewBox into its room, kept in proportion unless `how` says 'none'."""
    from fontTools.misc.transform import Transform

    words = how.split() or [""]
    across, down = width / box[2], height / box[3]
    if words[0] == "none":
        return Transform().scale(across, down).translate(-box[0], -box[1])
    scale = max(across, down) if "slice" in words else min(across, down)
    shares = {"Min": 0.0, "Max": 1.0}
    left = (width - box[2] * scale) * shares.get(words[0][1:4], 0.5)
    top = (height - box[3] * scale) * shares.get(words[0][5:8], 0.5)
    return Transform().translate(left, top).scale(scale).translate(-box[0], -box[1])


def _chosen(switch: Node) -> list[Node]:
    """The one child of a <switch> that is drawn: the first that asks for nothing special."""
    return [
        child
        for child in switch.children
        if child.tag in SHAPES | GROUPS
        and not child.attributes.get("requiredExtensions")
        and not child.attributes.get("systemLanguage")
    ][:1]


def _says_anything(text: Node) -> bool:
    return bool(text.text.strip()) or any(_says_anything(child) for child in text.children)
