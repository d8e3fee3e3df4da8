"""Words written in stroke letters: models, and letters to trace, as marks that the writer draws.

A letter in one height and manner is one drawing; a word places the drawings of its letters.
"""

import math
import unicodedata
from dataclasses import dataclass, replace
from functools import cache
from typing import Literal

from printkit.letters import paths
from printkit.letters.dashes import Pen, dashed
from printkit.letters.helps import DOT, NUMBER, Helps, helps
from printkit.letters.numerals import PLAIN_NUMERALS, Numerals
from printkit.letters.paths import Curve
from printkit.letters.shape import run
from printkit.letters.spacing import laid
from printkit.letters.strokes import ASCENDER, Letter, bounds, letter
from printkit.pieces import WHITE, Color, Drawing, Shape, Traced
from printkit.units import micrometres

Manner = Literal["solid", "dashed", "dotted", "hollow", "starts", "road"]
Signs = Literal["none", "dots", "arrows"]

MODEL: Color = (0.13,)
TRACE: Color = (0.55,)
SIGN: Color = (0.3,)
ROAD: Color = (0.88,)
ROAD_WIDE = 0.11
"""The band under a big numeral, for a finger, as a share of its height."""
_EM = 1.37
"""mm an em of the unseen text, for a line height of 1: Andika's ascenders reach as high."""


def line_width(height: float) -> float:
    """The width in mm of a letter's line for a line height in mm: 0.85 at 18 (found by looking)."""
    return 0.2 * math.sqrt(height)


@dataclass(frozen=True, kw_only=True, slots=True)
class Style:
    """How letters are written: `height` is the line height in mm, from the base line to the top line.

    `extra` is what more lies between two letters, in units of the grid, as room for signs.
    """

    height: float
    manner: Manner
    signs: Signs = "none"
    numerals: Numerals = PLAIN_NUMERALS
    extra: float = 0.0


def traced(text: str, style: Style, x: float, y: float) -> Traced:
    """`text` with the left of its first letter's line at `x` and its base line at `y`, in mm."""
    unit = style.height / ASCENDER
    half = line_width(style.height) / 2
    places, _ = laid(text, style.numerals, style.extra)
    letters = []
    for character, at in places:
        drawing, left, top = drawn(character, style)
        if drawing.shapes:
            letters.append((drawing, micrometres(at * unit + half + left), micrometres(top)))
    return Traced(
        letters=tuple(letters),
        run=run(text, _EM * style.height, numerals=style.numerals),
        x=x,
        y=y,
    )


def width(text: str, style: Style) -> float:
    """How wide the lines of `text` are together, in mm; signs beside the first letter lie outside."""
    unit = style.height / ASCENDER
    return laid(text, style.numerals, style.extra)[1] * unit + line_width(style.height)


@cache
def _helps(character: str, numerals: Numerals) -> Helps:
    each = letter(character, numerals)
    assert each is not None
    return helps(each)


@cache
def _extent(character: str, numerals: Numerals) -> tuple[float, float]:
    each = letter(character, numerals)
    return bounds([each]) if each else (0.0, 0.0)


@cache
def reach(text: str, signs: bool = False, numerals: Numerals = PLAIN_NUMERALS) -> tuple[float, float]:
    """How far a text reaches above the top line and below the base line, as a share of the line height."""
    highest = lowest = 0.0
    for char in unicodedata.normalize("NFC", text):
        if letter(char, numerals) is None:
            continue
        low, high = _extent(char, numerals)
        highest, lowest = max(highest, high), min(lowest, low)
        if signs:
            found = _helps(char, numerals)
            tops = [y + NUMBER / 2 for _, (_, y) in found.numbers] + [y + DOT for _, y in found.starts]
            highest = max([highest, *tops])
    return max(0.0, highest - ASCENDER) / ASCENDER, -lowest / ASCENDER


@cache
def drawn(character: str, style: Style) -> tuple[Drawing, float, float]:
    """A letter's drawing in mm, and where its top left lies from the letter's origin, y down."""
    each = letter(character, style.numerals)
    if each is None:
        raise ValueError(f"there are no strokes for {character!r}")
    unit = style.height / ASCENDER
    shapes = _shapes(each, style, unit)
    if not shapes:
        return Drawing(name=character, width=1.0, height=1.0), 0.0, 0.0
    boxes = [_reached(shape) for shape in shapes]
    left, top = min(box[0] for box in boxes), min(box[1] for box in boxes)
    moved = tuple(_shifted(shape, -left, -top) for shape in shapes)
    wide, high = max(box[2] for box in boxes) - left, max(box[3] for box in boxes) - top
    drawing = Drawing(name=character, width=micrometres(wide), height=micrometres(high), shapes=moved)
    return drawing, left, top


def _reached(shape: Shape) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a shape's control points, with the line's width."""
    half = shape.stroke_width / 2 + 0.02
    xs = [x for step in shape.path for x in step[1::2]]
    ys = [y for step in shape.path for y in step[2::2]]
    return min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half


def _shapes(each: Letter, style: Style, unit: float) -> list[Shape]:
    line = line_width(style.height)
    shapes = [] if style.manner == "starts" else _inked(each, style, unit, line)
    if style.signs != "none" or style.manner == "starts":
        shapes += _signs(_helps(each.character, style.numerals), style, unit)
    return shapes


def _inked(each: Letter, style: Style, unit: float, line: float) -> list[Shape]:
    dots = [_disc(stroke.dot, 0.8 * line, unit) for stroke in each.strokes if stroke.dot]
    color = MODEL if style.manner == "solid" else TRACE
    if style.manner == "hollow":
        curves = [(part, None) for stroke in each.strokes for part in stroke.parts]
        wide = 2.4 * line
        return [
            *(_line(part, unit, color, wide) for part, _ in curves),
            *(_disc_shape(path, color, 0.0) for path in dots),
            *(_line(part, unit, WHITE, wide - 0.6) for part, _ in curves),
        ]
    if style.manner == "road":
        return [
            *(
                _line(part, unit, ROAD, ROAD_WIDE * style.height)
                for stroke in each.strokes
                for part in stroke.parts
            ),
            *_inked(each, replace(style, manner="dashed"), unit, line),
        ]
    if style.manner == "solid":
        pieces = [(part, None) for stroke in each.strokes for part in stroke.parts]
    else:
        dotted = style.manner == "dotted"
        pen = Pen(
            width=line / unit,
            on=(0.05 if dotted else 1.4) * line / unit,
            off=2.0 * line / unit,
        )
        pieces = [(piece.curves, piece.dash) for piece in dashed(each, pen)]
    return [
        *(
            _line(curves, unit, color, line, (dash[0] * unit, dash[1] * unit) if dash else None)
            for curves, dash in pieces
        ),
        *(_disc_shape(path, color, 0.0) for path in dots),
    ]


def _signs(found: Helps, style: Style, unit: float) -> list[Shape]:
    shapes: list[Shape] = []
    thin = max(0.25, 0.018 * style.height)
    if style.signs == "arrows":
        for arrow in found.arrows:
            shapes += _arrow_shapes(arrow.points, unit, thin)
        for what, (x, y) in found.numbers:
            digit = letter(what)
            assert digit is not None
            scale = NUMBER / ASCENDER
            dx, dy = x - digit.width * scale / 2, y - NUMBER / 2
            for stroke in digit.strokes:
                shapes += [_line(paths.moved(part, dx, dy, scale), unit, SIGN, thin) for part in stroke.parts]
    for start in found.starts:
        shapes.append(_disc_shape(_disc(start, DOT * unit, unit), SIGN, thin))
    return shapes


def _arrow_shapes(points, unit: float, thin: float) -> list[Shape]:
    (ax, ay), (bx, by) = points[max(0, len(points) - 4)], points[-1]
    size = math.hypot(bx - ax, by - ay) or 1.0
    hx, hy = (bx - ax) / size, (by - ay) / size
    long, wide = 1.5, 0.75
    tip = (bx + hx * 0.4, by + hy * 0.4)
    back = (tip[0] - hx * long, tip[1] - hy * long)
    head = (
        ("M", tip[0] * unit, -tip[1] * unit),
        ("L", (back[0] - hy * wide) * unit, -(back[1] + hx * wide) * unit),
        ("L", (back[0] + hy * wide) * unit, -(back[1] - hx * wide) * unit),
        ("Z",),
    )
    shaft = (
        ("M", points[0][0] * unit, -points[0][1] * unit),
        *(("L", x * unit, -y * unit) for x, y in points[1:-2]),
        ("L", back[0] * unit, -back[1] * unit),
    )
    return [
        Shape(path=shaft, stroke=SIGN, stroke_width=thin, cap="round", join="round"),
        Shape(path=head, fill=SIGN),
    ]


def _line(
    curves: tuple[Curve, ...], unit: float, color: Color, line: float, dash: tuple[float, float] | None = None
) -> Shape:
    path: list[tuple] = []
    pen = None
    for curve in curves:
        start, first, second, end = [(round(x * unit, 4), round(-y * unit, 4)) for x, y in curve]
        if pen != start:
            path.append(("M", *start))
        path.append(("L", *end) if paths.is_straight(curve) else ("C", *first, *second, *end))
        pen = end
    return Shape(
        path=tuple(path), stroke=color, stroke_width=round(line, 3), cap="round", join="round",
        dash=(round(dash[0], 3), round(dash[1], 3)) if dash else None,
    )  # fmt: skip


def _disc(middle, radius: float, unit: float) -> tuple:
    x, y = middle[0] * unit, -middle[1] * unit
    k = 0.5522847498 * radius
    return (
        ("M", x + radius, y),
        ("C", x + radius, y + k, x + k, y + radius, x, y + radius),
        ("C", x - k, y + radius, x - radius, y + k, x - radius, y),
        ("C", x - radius, y - k, x - k, y - radius, x, y - radius),
        ("C", x + k, y - radius, x + radius, y - k, x + radius, y),
        ("Z",),
    )


def _disc_shape(path: tuple, color: Color, ring: float) -> Shape:
    if ring:
        return Shape(path=path, fill=WHITE, stroke=color, stroke_width=ring)
    return Shape(path=path, fill=color)


def _shifted(shape: Shape, dx: float, dy: float) -> Shape:
    path = tuple(
        (step[0], *(round(v + (dx if i % 2 == 0 else dy), 4) for i, v in enumerate(step[1:])))
        for step in shape.path
    )
    return replace(shape, path=path)
