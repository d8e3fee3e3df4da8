"""What a fill or stroke comes to: a color or a gradient; paths with their paint."""

from dataclasses import dataclass, field, replace

from printkit.pictures.css import Reference, Style, Tint, bounded, length, numbers, paint, share, tint
from printkit.pictures.gradients import UNSEEN, Ground, Stop, gradient, stops_of
from printkit.pictures.paths import Path
from printkit.pictures.selectors import StyleSheet
from printkit.pictures.strokes import MITER_LIMIT, Cap, Join
from printkit.pictures.tree import Node
from printkit.pieces import Color, Gradient, Shape

_PATTERN = "without its pattern"
_MOST_DASHES = 32

Paint = Tint | Gradient


@dataclass(kw_only=True, slots=True)
class Paints:
    """The style rules and named elements of a drawing; `notes` gathers what is drawn otherwise.

    `stops` keeps those of the gradients that were used.
    """

    sheet: StyleSheet = field(default_factory=StyleSheet)
    by_id: dict[str, Node] = field(default_factory=dict)
    stops: dict[str, tuple[Stop, ...]] = field(default_factory=dict)
    notes: set[str] = field(default_factory=set)

    def paint(self, text: str, style: Style, ground: Ground) -> Paint | None:
        """What the value of fill or stroke comes to on a shape; None when nothing is painted."""
        found = paint(text, _current(style))
        if not isinstance(found, Reference):
            return found
        node = self.by_id.get(found.id)
        if node is None:
            return found.otherwise
        if node.tag not in ("linearGradient", "radialGradient"):
            self.notes.add(_PATTERN)
            return found.otherwise
        if found.id not in self.stops:
            self.stops[found.id] = stops_of(node, self.by_id, self.sheet)
        return gradient(node, self.by_id, self.stops[found.id], ground)


def _current(style: Style) -> Tint:
    return tint(style.get("color", "black")) or UNSEEN


# --- shapes ----------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Line:
    """The line of a shape before opacities are known: its paint, and its width as it is drawn.

    `scale` is how many of the drawing's units one of the shape's own becomes, `whole` what
    percentages are taken of.
    """

    paint: Paint | None
    width: float
    scale: float = 1.0
    whole: float = 1.0


def painted(path: Path, style: Style, fill: Paint | None, line: Line) -> Shape:
    """A path with its fill and line; what is wholly transparent is left out."""
    fill_color, fill_opacity = _seen(fill, share(style.get("fill-opacity")))
    stroke, line_opacity = _seen(line.paint, share(style.get("stroke-opacity")))
    dash, dash_start = _dashes(style, line) if stroke else (None, 0.0)
    return Shape(
        path=path,
        fill=fill_color,
        stroke=stroke,
        stroke_width=line.width if stroke else 0.0,
        cap=_CAPS.get(style.get("stroke-linecap", ""), "butt"),
        join=_JOINS.get(style.get("stroke-linejoin", ""), "miter"),
        miter_limit=_miter_limit(style) if stroke else MITER_LIMIT,
        dash=dash,
        dash_start=dash_start,
        even_odd=style.get("fill-rule") == "evenodd",
        fill_opacity=fill_opacity,
        stroke_opacity=line_opacity,
        fill_gradient=fill if isinstance(fill, Gradient) and fill_color else None,
        stroke_gradient=line.paint if isinstance(line.paint, Gradient) and stroke else None,
    )


def _seen(what: Paint | None, opacity: float) -> tuple[Color | None, float]:
    """The color, the mean one of a gradient, and the opacity; no color for what cannot be seen."""
    if isinstance(what, Gradient):
        color, solid = what.mean, any(alpha > 0 for *_, alpha in what.stops)
        opacity *= solid
    else:
        color, alpha = what or UNSEEN
        opacity *= alpha
    return (color, round(opacity, 4)) if round(opacity, 4) > 0 else (None, 1.0)


_CAPS: dict[str, Cap] = {"round": "round", "square": "square"}
_JOINS: dict[str, Join] = {"round": "round", "bevel": "bevel"}


def _miter_limit(style: Style) -> float:
    limit = length(style.get("stroke-miterlimit"), MITER_LIMIT)
    return round(limit, 3) if limit >= 1 else MITER_LIMIT


def _dashes(style: Style, line: Line) -> tuple[tuple[float, ...] | None, float]:
    """The lengths on and off along a line, an even number of them, and where in them it starts."""
    text = style.get("stroke-dasharray", "none").replace(",", " ")
    if not any(numbers(text)):
        return None, 0.0
    lengths = [length(word, 0.0, line.whole) * line.scale for word in text.split()]
    whole = sum(lengths)
    # SVG 2, 13.5.6: a negative length makes the whole list void, and so does a sum of nothing.
    if min(lengths) < 0 or whole <= line.width * 1e-3 or len(lengths) > _MOST_DASHES:
        return None, 0.0
    if len(lengths) % 2:
        lengths, whole = lengths * 2, whole * 2
    start = length(style.get("stroke-dashoffset"), 0.0, line.whole) * line.scale % whole
    return tuple(round(bounded(each), 4) for each in lengths), round(start, 4)


def in_order(shape: Shape, style: Style) -> list[Shape]:
    """The shape, as two when its line lies under its fill; none when it paints nothing."""
    if shape.fill is None and shape.stroke is None:
        return []
    words = style.get("paint-order", "normal").split()
    stroke_first = "stroke" in words and "fill" not in words[: words.index("stroke")]
    if not stroke_first or shape.fill is None or shape.stroke is None:
        return [shape]
    line = replace(shape, fill=None, fill_gradient=None, fill_opacity=1.0, even_odd=False)
    face = replace(
        shape, stroke=None, stroke_gradient=None, stroke_opacity=1.0, stroke_width=0.0, dash=None,
        dash_start=0.0,
    )  # fmt: skip
    return [line, face]
