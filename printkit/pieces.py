"""What is made: pieces with facts, their faces, and the marks drawn on a face.

Every length is in mm, measured from the top left of the face, y down. Colours are tuples of
numbers from 0 to 1: (grey,) or (red, green, blue). Everything is frozen and can be compared.
"""

import math
from dataclasses import dataclass
from typing import Any, Literal

from printkit.units import Rect

Color = tuple[float, ...]
Stock = Literal["card", "plain"]
Ground = Literal["none", "frame", "places", "crossed"]

BLACK: Color = (0.0,)
WHITE: Color = (1.0,)


# --- what a mark draws -----------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Gradient:
    """How a paint runs from color to color, along a line or from one circle to another.

    `ends` is (x0, y0, x1, y1), or (x0, y0, r0, x1, y1, r1) for circles; `matrix` (a, b, c, d, e, f)
    leads from there to the units of the drawing, measured from the first point of the shape's path,
    so that a path that is moved takes its gradient along. `stops` hold (offset, color, alpha) with
    offsets that rise from 0 to 1; beyond the ends the first and the last go on. `mean` is their
    mean color.
    """

    ends: tuple[float, ...]
    stops: tuple[tuple[float, Color, float], ...]
    matrix: tuple[float, float, float, float, float, float]
    mean: Color

    def about(self, color: Color) -> tuple[tuple[float, Color, float], ...]:
        """The stops for a shape whose paint is `color`: as they are for the mean, else moved with it.

        For a gray of one number they are gray (by the luma weights of ITU-R BT.709).
        """
        if color == self.mean:
            return self.stops
        middle = _in_channels(self.mean, len(color))
        return tuple(
            (
                offset,
                tuple(
                    round(min(1.0, max(0.0, part + new - old)), 4)
                    for part, new, old in zip(_in_channels(stop, len(color)), color, middle, strict=True)
                ),
                alpha,
            )
            for offset, stop, alpha in self.stops
        )


def _in_channels(color: Color, channels: int) -> Color:
    if len(color) == channels:
        return color
    if channels == 3:
        return color * 3
    return (0.2126 * color[0] + 0.7152 * color[1] + 0.0722 * color[2],)


@dataclass(frozen=True, kw_only=True, slots=True)
class Clip:
    """Where a shape shows: inside any of `paths`, measured from the first point of the shape's own path."""

    paths: tuple[tuple[tuple[Any, ...], ...], ...]
    even_odd: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Shape:
    """One path with its paint, in the units of its drawing, y down.

    `path` is a tuple of ('M', x, y), ('L', x, y), ('C', x1, y1, x2, y2, x, y) and ('Z',);
    `dash` is (on, off, ...) along its stroke, an even number of lengths, from `dash_start` on.
    With a gradient, `fill` or `stroke` is the mean color about which it varies, and its opacity is
    that of the whole. A shape shows where all of its `clips` do. `layers` are the see-through groups
    that it lies in, outermost first, as (number, opacity): neighbors with the same number are drawn
    together before the opacity is applied.
    """

    path: tuple[tuple[Any, ...], ...]
    fill: Color | None = None
    stroke: Color | None = None
    stroke_width: float = 0.0
    cap: Literal["butt", "round", "square"] = "butt"
    join: Literal["miter", "round", "bevel"] = "miter"
    miter_limit: float = 4.0
    dash: tuple[float, ...] | None = None
    dash_start: float = 0.0
    even_odd: bool = False
    fill_opacity: float = 1.0
    stroke_opacity: float = 1.0
    fill_gradient: Gradient | None = None
    stroke_gradient: Gradient | None = None
    clips: tuple[Clip, ...] = ()
    layers: tuple[tuple[int, float], ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Raster:
    """A prepared photo: bytes as they will stand in the PDF, 8 bits a channel.

    `mask` holds zlib-compressed 8-bit alpha of the same size, or None.
    """

    data: bytes
    filter: Literal["DCTDecode", "FlateDecode"]
    width_px: int
    height_px: int
    channels: Literal[1, 3]
    mask: bytes | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Drawing:
    """A picture in a box of its own: shapes in drawing order, or one raster that fills the box."""

    name: str
    width: float
    height: float
    shapes: tuple[Shape, ...] = ()
    raster: Raster | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """Neighbouring glyphs of one face within a run.

    `glyphs` is how many they are, `scale` the em of their face in ems of the run. `said` is the text
    of all together where the single glyphs cannot tell it, else ''.
    """

    font: str
    glyphs: int
    scale: float = 1.0
    said: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """Text that was shaped and measured once, at `size` mm an em.

    `glyphs` holds (glyph id, advance, x offset, y offset, text) from left to right, whatever the
    direction of the text, with lengths in 1/1000 em, y up; `text` is what the glyph stands for ('' when
    the glyph before it told it already).
    `ink` is (left, top, right, bottom) in mm from the pen's start on the base line, y down.
    `spans` cover the glyphs in their order; without any, all glyphs are of `font` as they are.
    """

    text: str
    font: str
    size: float
    glyphs: tuple[tuple[int, float, float, float, str], ...]
    width: float
    ink: tuple[float, float, float, float]
    spans: tuple[Span, ...] = ()


# --- marks -----------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Text:
    """A run with its pen's start at (x, y) on the base line."""

    run: Run
    x: float
    y: float
    color: Color = BLACK

    def bounds(self) -> Rect:
        left, top, right, bottom = self.run.ink
        return Rect(self.x + left, self.y + top, right - left, bottom - top)


@dataclass(frozen=True, kw_only=True, slots=True)
class Hollow:
    """The outlines of a run, hollow, to colour in: drawn with a line `width` mm wide."""

    run: Run
    x: float
    y: float
    color: Color
    width: float

    def bounds(self) -> Rect:
        left, top, right, bottom = self.run.ink
        half = self.width / 2
        return Rect(
            self.x + left - half, self.y + top - half, right - left + 2 * half, bottom - top + 2 * half
        )


@dataclass(frozen=True, kw_only=True, slots=True)
class Traced:
    """Letters drawn stroke by stroke, to trace or as a model, with their pen's start at (x, y).

    `letters` holds drawings in mm and where the top left of each lies from the pen's start, y down.
    `run` says the same; it is written unseen, so that the word can be searched and read aloud.
    """

    letters: tuple[tuple[Drawing, float, float], ...]
    run: Run
    x: float
    y: float

    def bounds(self) -> Rect:
        left = min(dx for _, dx, _ in self.letters)
        top = min(dy for _, _, dy in self.letters)
        right = max(dx + drawing.width for drawing, dx, _ in self.letters)
        bottom = max(dy + drawing.height for drawing, _, dy in self.letters)
        return Rect(self.x + left, self.y + top, right - left, bottom - top)


@dataclass(frozen=True, kw_only=True, slots=True)
class Picture:
    """A drawing fitted to a box, turned clockwise by `turn` degrees about its middle, or mirrored."""

    drawing: Drawing
    x: float
    y: float
    width: float
    height: float
    turn: float = 0.0
    mirror: bool = False

    def bounds(self) -> Rect:
        if not self.turn:
            return Rect(self.x, self.y, self.width, self.height)
        angle = math.radians(self.turn)
        cos, sin = abs(math.cos(angle)), abs(math.sin(angle))
        width, height = self.width * cos + self.height * sin, self.width * sin + self.height * cos
        return Rect(self.x + (self.width - width) / 2, self.y + (self.height - height) / 2, width, height)


@dataclass(frozen=True, kw_only=True, slots=True)
class Box:
    """A rectangle, perhaps with round corners; `dash` is (on, off) in mm."""

    x: float
    y: float
    width: float
    height: float
    radius: float = 0.0
    fill: Color | None = None
    stroke: Color | None = None
    line: float = 0.2
    dash: tuple[float, float] | None = None

    def bounds(self) -> Rect:
        half = self.line / 2 if self.stroke is not None else 0.0
        return Rect(self.x, self.y, self.width, self.height).inset(-half)


@dataclass(frozen=True, kw_only=True, slots=True)
class Line:
    """A straight line; its ends are round when `round_ends`."""

    x1: float
    y1: float
    x2: float
    y2: float
    color: Color = BLACK
    line: float = 0.2
    dash: tuple[float, float] | None = None
    round_ends: bool = False

    def bounds(self) -> Rect:
        half = self.line / 2
        left, top = min(self.x1, self.x2), min(self.y1, self.y2)
        return Rect(
            left - half,
            top - half,
            abs(self.x2 - self.x1) + 2 * half,
            abs(self.y2 - self.y1) + 2 * half,
        )


@dataclass(frozen=True, kw_only=True, slots=True)
class Dot:
    """A disc or ring about (x, y)."""

    x: float
    y: float
    radius: float
    fill: Color | None = None
    stroke: Color | None = None
    line: float = 0.2
    dash: tuple[float, float] | None = None

    def bounds(self) -> Rect:
        reach = self.radius + (self.line / 2 if self.stroke is not None else 0.0)
        return Rect(self.x - reach, self.y - reach, 2 * reach, 2 * reach)


Mark = Text | Hollow | Traced | Picture | Box | Line | Dot


# --- faces and pieces ------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Area:
    """A place where separate things can be counted; with ground 'none' nothing else is drawn there."""

    box: Rect
    things: int
    ground: Ground = "none"


@dataclass(frozen=True, kw_only=True, slots=True)
class Face:
    """What is drawn on one side of a piece, in drawing order."""

    marks: tuple[Mark, ...]
    areas: tuple[Area, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """One thing that is cut out, or (with `cut` false) a whole sheet that is used uncut.

    `back` is drawn as it is read after the piece was turned over like the page of a book.
    `key` names the piece within its set; `facts` is the material's own frozen data class.
    `zones` (clip zones) and `boxes` lie on the front, `control` on the back.
    `mark` is the small line that says where the piece belongs.
    """

    child: str
    set: str
    material: str
    key: str
    width: float
    height: float
    front: Face
    back: Face | None = None
    facts: Any = None
    stock: Stock = "card"
    cut: bool = True
    zones: tuple[Rect, ...] = ()
    boxes: tuple[Rect, ...] = ()
    control: Rect | None = None
    mark: str = ""
