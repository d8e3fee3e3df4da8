"""Drawings -> what a PDF form object holds: operators, and the paints, masks and groups they name.

A form keeps the units of its drawing, y down; its matrix turns it upright. Gradients are shading
patterns, where they fade within a soft mask; see-through groups are forms of their own. What is
gray is written in DeviceGray, gradients too.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import groupby, pairwise

from printkit.pieces import Clip, Color, Drawing, Gradient, Shape

MITER = 4.0  # the limit of SVG; that of PDF is 10

_OPERATORS = {"M": "m", "L": "l", "C": "c"}
_CAPS = {"butt": 0, "round": 1, "square": 2}
_JOINS = {"miter": 0, "round": 1, "bevel": 2}


@dataclass(frozen=True, kw_only=True, slots=True)
class Form:
    """The content of one form object and what it names.

    `opacities` are (fill, stroke) by name; `masks` and `groups` forms by name; `patterns` and
    `shadings` dictionaries as text. `height` is None within another form, which has turned it upright.
    `kind` is '' for a plain form, 'group' for one that is drawn as a whole, 'mask' for a soft mask.
    """

    width: float
    height: float
    content: str
    kind: str = ""
    upright: bool = False
    opacities: tuple[tuple[str, tuple[float, float]], ...] = ()
    masks: tuple[tuple[str, "Form"], ...] = ()
    groups: tuple[tuple[str, "Form"], ...] = ()
    patterns: tuple[tuple[str, str], ...] = ()
    shadings: tuple[tuple[str, str], ...] = ()


def form_of(drawing: Drawing) -> Form:
    """The form of a drawing made of shapes."""
    digits = max(3, 4 - math.floor(math.log10(max(drawing.width, drawing.height))))
    making = _Making(width=drawing.width, height=drawing.height, digits=digits)
    making.out.append(f"{short(MITER)} M")
    making.draw(drawing.shapes, 0)
    return making.made(upright=True)


@dataclass(kw_only=True, slots=True)
class _Making:
    """One form as it grows."""

    width: float
    height: float
    digits: int
    out: list[str] = field(default_factory=list)
    opacities: dict[tuple[float, float], str] = field(default_factory=dict)
    masks: dict[Form, str] = field(default_factory=dict)
    groups: dict[Form, str] = field(default_factory=dict)
    patterns: dict[str, str] = field(default_factory=dict)

    def made(self, *, upright: bool = False, kind: str = "") -> Form:
        return Form(
            width=self.width,
            height=self.height,
            content="\n".join(self.out),
            upright=upright,
            kind=kind,
            opacities=tuple((name, value) for value, name in self.opacities.items()),
            masks=tuple((name, value) for value, name in self.masks.items()),
            groups=tuple((name, value) for value, name in self.groups.items()),
            patterns=tuple((name, value) for value, name in self.patterns.items()),
        )

    def draw(self, shapes: Iterable[Shape], depth: int) -> None:
        """The shapes in their order, those of one layer together; `depth` layers are open already."""
        for layer, together in groupby(shapes, key=lambda shape: (*shape.layers, None)[depth]):
            if layer is None:
                for clip, run in groupby(together, key=self.clip):
                    self.run(clip, run)
                continue
            inner = _Making(width=self.width, height=self.height, digits=self.digits)
            inner.draw(together, depth + 1)
            name = _named(self.groups, inner.made(kind="group"), "X")
            self.out.append(f"q /{self.opacity(layer[1], 1.0)} gs /{name} Do Q")

    def run(self, clip: str, shapes: Iterable[Shape]) -> None:
        """Shapes that are clipped alike."""
        if clip:
            self.out.append(f"q {clip}")
        for shape in shapes:
            self.out.extend(self.shape(shape))
        if clip:
            self.out.append("Q")

    def shape(self, shape: Shape) -> Iterator[str]:
        """The operators of one shape; fill and line at once only where both are plain.

        Under a see-through line the fill shows, and viewers differ in how they paint patterns at once.
        """
        fill, stroke = shape.fill is not None, shape.stroke is not None
        varied = shape.fill_gradient is not None or shape.stroke_gradient is not None
        if fill and stroke and shape.stroke_opacity == 1 and not varied:
            yield self.painted(shape, fill=True, stroke=True)
            return
        if fill:
            yield self.painted(shape, fill=True, fades=_fading(shape.fill_gradient))
        if stroke:
            yield self.painted(shape, stroke=True, fades=_fading(shape.stroke_gradient))

    def painted(
        self, shape: Shape, *, fill: bool = False, stroke: bool = False, fades: Gradient | None = None
    ) -> str:
        start = shape.path[0][1:3] if shape.path else (0.0, 0.0)
        parts = []
        opacities = (shape.fill_opacity if fill else 1.0, shape.stroke_opacity if stroke else 1.0)
        if opacities != (1.0, 1.0):
            parts.append(f"/{self.opacity(*opacities)} gs")
        if fades is not None:
            parts.append(f"/{_named(self.masks, self.mask(fades, start), 'M')} gs")
        if fill:
            parts.append(self.paint(shape.fill, shape.fill_gradient, start, "rg", "g", "cs", "scn"))
        if stroke:
            parts.append(self.paint(shape.stroke, shape.stroke_gradient, start, "RG", "G", "CS", "SCN"))
            parts.append(f"{self.number(shape.stroke_width)} w {_CAPS[shape.cap]} J {_JOINS[shape.join]} j")
            if shape.dash:
                lengths = " ".join(self.number(value) for value in shape.dash)
                parts.append(f"[{lengths}] {self.number(shape.dash_start)} d")
            if shape.miter_limit != MITER:
                parts.append(f"{short(shape.miter_limit)} M")
        parts.append(self.path(shape.path))
        parts.append(paint_operator(fill, stroke) + ("*" if fill and shape.even_odd else ""))
        kept = opacities != (1.0, 1.0) or fades is not None
        if not kept and stroke and shape.dash:
            parts.append("[] 0 d")
        if not kept and stroke and shape.miter_limit != MITER:
            parts.append(f"{short(MITER)} M")
        return f"q {' '.join(parts)} Q" if kept else " ".join(parts)

    def paint(
        self,
        color: Color | None,
        gradient: Gradient | None,
        start: tuple[float, float],
        rgb: str,
        gray: str,
        space: str,
        pattern: str,
    ) -> str:
        if gradient is None:
            return color_operator(color, rgb, gray)
        stops = tuple((offset, stop) for offset, stop, _ in gradient.about(color))
        shading = _shading(gradient.ends, stops)
        text = f"<< /PatternType 2 /Shading {shading} /Matrix [{_matrix(gradient, start)}] >>"
        return f"/Pattern {space} /{_named(self.patterns, text, 'P')} {pattern}"

    def mask(self, gradient: Gradient, start: tuple[float, float]) -> Form:
        """How solid a gradient is, in gray: white where it is opaque."""
        stops = tuple((offset, (alpha,)) for offset, _, alpha in gradient.stops)
        return Form(
            width=self.width,
            height=self.height,
            content=f"{_matrix(gradient, start)} cm /S0 sh",
            kind="mask",
            shadings=(("S0", _shading(gradient.ends, stops)),),
        )

    def opacity(self, fill: float, stroke: float) -> str:
        return _named(self.opacities, (fill, stroke), "A")

    # --- operators ---

    def number(self, value: float) -> str:
        return f"{value:.{self.digits}f}".rstrip("0").rstrip(".") if value else "0"

    def path(self, path: Iterable[tuple], left: float = 0.0, top: float = 0.0) -> str:
        parts = []
        for step in path:
            if step[0] == "Z":
                parts.append("h")
            else:
                moved = (value + (top if i % 2 else left) for i, value in enumerate(step[1:]))
                parts.append(f"{' '.join(map(self.number, moved))} {_OPERATORS[step[0]]}")
        return " ".join(parts)

    def clip(self, shape: Shape) -> str:
        """The operators that clip to all of a shape's clips, '' for none."""
        if not shape.clips:
            return ""
        left, top = shape.path[0][1:3]
        return " ".join(self.clip_path(clip, left, top) for clip in shape.clips)

    def clip_path(self, clip: Clip, left: float, top: float) -> str:
        paths = " ".join(self.path(path, left, top) for path in clip.paths)
        return f"{paths} {'W*' if clip.even_odd else 'W'} n"


def _fading(gradient: Gradient | None) -> Gradient | None:
    """The gradient, if it is anywhere see-through."""
    return gradient if gradient and any(alpha < 1 for *_, alpha in gradient.stops) else None


def _named(names: dict, value: object, letter: str) -> str:
    """The name of a value, a new one at its first use."""
    return names.setdefault(value, f"{letter}{len(names)}")


# --- gradients -------------------------------------------------------------------------------


def _matrix(gradient: Gradient, start: tuple[float, float]) -> str:
    a, b, c, d, e, f = gradient.matrix
    return " ".join(_figures(value) for value in (a, b, c, d, e + start[0], f + start[1]))


def _shading(ends: tuple[float, ...], stops: tuple[tuple[float, Color], ...]) -> str:
    """A shading along a line (type 2) or between circles (type 3) that goes on beyond both ends."""
    channels = max(len(color) for _, color in stops)
    runs = [
        (start, end, _function(_all(one, channels), _all(two, channels)))
        for (start, one), (end, two) in pairwise(stops)
        if end > start
    ]
    function = runs[0][2]
    if len(runs) > 1:
        bounds = " ".join(_figures(end) for _, end, _ in runs[:-1])
        function = (
            f"<< /FunctionType 3 /Domain [0 1] /Functions [{' '.join(run[2] for run in runs)}] "
            f"/Bounds [{bounds}] /Encode [{' '.join(['0 1'] * len(runs))}] >>"
        )
    return (
        f"<< /ShadingType {2 if len(ends) == 4 else 3} "
        f"/ColorSpace /{'DeviceGray' if channels == 1 else 'DeviceRGB'} "
        f"/Coords [{' '.join(map(_figures, ends))}] /Function {function} /Extend [true true] >>"
    )


def _all(color: Color, channels: int) -> Color:
    return color * channels if len(color) < channels else color


def _function(one: Color, two: Color) -> str:
    first, second = (" ".join(map(short, color)) for color in (one, two))
    return f"<< /FunctionType 2 /Domain [0 1] /C0 [{first}] /C1 [{second}] /N 1 >>"


# --- numbers and colors ----------------------------------------------------------------------


def short(value: float) -> str:
    """A number with three decimals at most."""
    return f"{value:.3f}".rstrip("0").rstrip(".") if value else "0"


def _figures(value: float) -> str:
    """A number with seven figures, never with an exponent, which PDF does not know."""
    text = f"{value:.7g}"
    if "e" in text:
        text = f"{value:.12f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text) or "0"


def color_operator(color: Color, rgb: str, gray: str) -> str:
    """The operator that sets a color; gray is written as such."""
    if len(color) == 1 or color[0] == color[1] == color[2]:
        return f"{short(color[0])} {gray}"
    return f"{short(color[0])} {short(color[1])} {short(color[2])} {rgb}"


def paint_operator(fill: bool, stroke: bool) -> str:
    """The operator that paints a path."""
    return {(True, False): "f", (False, True): "S", (True, True): "B"}.get((fill, stroke), "n")
