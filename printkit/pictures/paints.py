"""What a fill or stroke comes to, gradients as the mean of their stops; paths with their paint."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from printkit.pictures.colors import plain, rgb
from printkit.pictures.css import Reference, Style, StyleSheet, Tint, length, paint, share, tint
from printkit.pictures.paths import Path
from printkit.pictures.strokes import Cap, Join
from printkit.pictures.tree import Node
from printkit.pieces import Shape

_FLAT = "with one flat color for each gradient"
_PATTERN = "without its pattern"
# How far gradients may refer to one another; a circle ends here.
_MAX_HOPS = 12

_UNSEEN: Tint = ((0.0,), 0.0)

Stop = tuple[float, float, float, float, float]  # offset, red, green, blue, alpha


@dataclass(kw_only=True, slots=True)
class Paints:
    """The style rules and named elements of a drawing; `notes` gathers what is drawn otherwise."""

    sheet: StyleSheet = field(default_factory=StyleSheet)
    by_id: dict[str, Node] = field(default_factory=dict)
    notes: set[str] = field(default_factory=set)

    def color(self, text: str, style: Style) -> Tint | None:
        """Color and alpha of the value of fill or stroke; None when nothing is painted."""
        found = paint(text, _current(style))
        if not isinstance(found, Reference):
            return found
        node = self.by_id.get(found.id)
        if node is None:
            return found.otherwise
        if node.tag not in ("linearGradient", "radialGradient"):
            self.notes.add(_PATTERN)
            return found.otherwise
        self.notes.add(_FLAT)
        return _mean(self._stops(node))

    def _stops(self, gradient: Node) -> list[Stop]:
        """The stops of a gradient, or of the one it refers to if it has none of its own."""
        node: Node | None = gradient
        for _ in range(_MAX_HOPS):
            if node is None:
                break
            stops = [child for child in node.children if child.tag == "stop"]
            if stops:
                return list(self._placed(stops))
            node = self.by_id.get(node.attributes.get("href", "")[1:])
        return []

    def _placed(self, stops: list[Node]) -> Iterator[Stop]:
        last = 0.0
        for stop in stops:
            own = self.sheet.own(stop)
            last = max(last, min(1.0, length(stop.attributes.get("offset"), 0.0, 1.0)))
            color, alpha = tint(own.get("stop-color", "black"), _current(own)) or _UNSEEN
            yield last, *rgb(color), alpha * share(own.get("stop-opacity"))


def _current(style: Style) -> Tint:
    return tint(style.get("color", "black")) or _UNSEEN


def _mean(stops: list[Stop]) -> Tint | None:
    """The mean color and alpha along the whole length of a gradient."""
    if not stops:
        return None
    whole = [(0.0, *stops[0][1:]), *stops, (1.0, *stops[-1][1:])]
    total = [0.0] * 4
    for (start, *here), (end, *there) in pairwise(whole):
        for i, (one, two) in enumerate(zip(here, there, strict=True)):
            total[i] += (end - start) * (one + two) / 2
    return plain(tuple(round(part, 4) for part in total[:3])), round(total[3], 4)


# --- shapes ----------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Line:
    """The line of a shape before opacities are known: its paint, its width in the drawing's units."""

    paint: Tint | None
    width: float


def painted(path: Path, style: Style, fill: Tint | None, line: Line, opacity: float) -> Shape:
    """A path with its fill and line; what is wholly transparent is left out."""
    fill_opacity = share(style.get("fill-opacity")) * (fill[1] if fill else 0) * opacity
    line_opacity = share(style.get("stroke-opacity")) * (line.paint[1] if line.paint else 0) * opacity
    stroke = line.paint[0] if line.paint and line_opacity > 0 else None
    return Shape(
        path=path,
        fill=fill[0] if fill and fill_opacity > 0 else None,
        stroke=stroke,
        stroke_width=line.width if stroke else 0.0,
        cap=_CAPS.get(style.get("stroke-linecap", ""), "butt"),
        join=_join(style),
        even_odd=style.get("fill-rule") == "evenodd",
        fill_opacity=round(fill_opacity, 4) if fill_opacity > 0 else 1.0,
        stroke_opacity=round(line_opacity, 4) if stroke else 1.0,
    )


_CAPS: dict[str, Cap] = {"round": "round", "square": "square"}
_JOINS: dict[str, Join] = {"round": "round", "bevel": "bevel"}


def _join(style: Style) -> Join:
    """How lines meet; a miter that is always cut off is a bevel, other limits count as the usual 4."""
    miter: Join = "bevel" if length(style.get("stroke-miterlimit"), 4.0) <= 1 else "miter"
    return _JOINS.get(style.get("stroke-linejoin", ""), miter)


def in_order(shape: Shape, style: Style) -> list[Shape]:
    """The shape, as two when its line lies under its fill; none when it paints nothing."""
    if shape.fill is None and shape.stroke is None:
        return []
    words = style.get("paint-order", "normal").split()
    stroke_first = "stroke" in words and "fill" not in words[: words.index("stroke")]
    if not stroke_first or shape.fill is None or shape.stroke is None:
        return [shape]
    line = Shape(
        path=shape.path,
        stroke=shape.stroke,
        stroke_width=shape.stroke_width,
        cap=shape.cap,
        join=shape.join,
        stroke_opacity=shape.stroke_opacity,
    )
    face = Shape(path=shape.path, fill=shape.fill, even_odd=shape.even_odd, fill_opacity=shape.fill_opacity)
    return [line, face]
