"""One picture of a theme and its variations: ink, parts left out, parts in another color."""

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any, Literal

from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.pictures.colors import gray
from printkit.pictures.flatten import shape_bounds
from printkit.pictures.grays import tones
from printkit.pictures.items import cut_edges
from printkit.pictures.paths import Bounds, shifted, united
from printkit.pictures.plurals import best, category
from printkit.pictures.raster import Photo, in_gray
from printkit.pictures.strokes import area, flat
from printkit.pictures.svg import Artwork, Item
from printkit.pieces import BLACK, WHITE, Color, Drawing, Shape

Ink = Literal["color", "gray", "outline"]
Recolor = tuple[tuple[str, Color], ...]

THINNEST = 1.6
"""In widths of the outline: thinner shapes leave no white between their two edges (design choice)."""

_NO_GRAYS: Mapping[Color, Color] = {}

_PHOTO_IN_OUTLINE = "in gray, as a photo has no outline"

# Ids such as 'left-claw' or 'arm-2' were chosen by a person; 'path1234' and 'g' by a program.
_SPOKEN = re.compile(r"[A-Za-z]+(?:[-_ ][A-Za-z]+)*(?:[-_ ]\d)?")
_UNSPOKEN = frozenset(
    {
        "a", "circle", "clip", "compound", "defs", "ellipse", "g", "group", "id", "layer", "line",
        "mask", "object", "path", "polygon", "polyline", "rect", "shape", "svg", "symbol", "text", "use",
        "vector",
    }
)  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class Name:
    """What a motif is called in one language: a form for each plural category, and its gender."""

    forms: tuple[tuple[str, str], ...]
    gender: str = ""

    def form(self, wanted: str) -> str:
        """The form for a plural category; 'other', or any there is, stands in."""
        forms = dict(self.forms)
        return forms.get(wanted) or forms.get("other") or forms.get("one") or next(iter(forms.values()))


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Motif:
    """One picture. Equal arguments to `drawing` give the same object each time.

    `symmetric` is what the theme says of left and right, None if it says nothing; `counted` is false
    where the picture shows several things, so that it is no thing to count. `source` is the
    picture as it was read; `file` names it in problems and notes.
    """

    key: str
    file: str
    theme: str
    source: Artwork | Photo
    names: tuple[tuple[str, Name], ...] = ()
    symmetric: bool | None = None
    counted: bool = True
    _made: dict[Any, Any] = field(default_factory=dict, repr=False)
    _framed: dict[tuple[float, float], tuple[Artwork, float]] = field(default_factory=dict, repr=False)

    @property
    def is_photo(self) -> bool:
        """Whether the motif is made of pixels: it has no parts and no outline."""
        return isinstance(self.source, Photo)

    @property
    def notes(self) -> tuple[str, ...]:
        """How the picture is drawn where that differs from its file; reads on after 'drawn'."""
        return self.source.notes

    def notes_in(self, ink: Ink) -> tuple[str, ...]:
        """The notes that hold in one ink."""
        if self.is_photo and ink == "outline":
            return (*self.notes, _PHOTO_IN_OUTLINE)
        return self.notes

    def name(self, tag: str, n: int = 1) -> str:
        """What `n` of it are called in a language (BCP 47 tag); else in English; else its key."""
        found = best(tag, self.names)
        return found[1].form(category(found[0], n)) if found else spoken(self.key)

    def gender(self, tag: str) -> str:
        """The grammatical gender of the name that `name` gives, '' if none is known."""
        found = best(tag, self.names)
        return found[1].gender if found else ""

    @property
    def parts(self) -> tuple[str, ...]:
        """Ids of parts that can be left out or recolored, in drawing order."""
        if isinstance(self.source, Photo):
            return ()
        items = self.source.items
        counts = Counter(name for item in items for name in dict.fromkeys(item.ids))
        return tuple(name for name, count in counts.items() if count < len(items) and _was_chosen(name))

    def part_color(self, part: str) -> Color | None:
        """The color that covers most of a part, shades aside; None if it has none."""
        return _main_color([item for item in self._items() if part in item.ids])

    @property
    def main_color(self) -> Color | None:
        """The color that covers most of the drawing, shades aside; None for a photo."""
        return next(iter(self.large_colors), None)

    @property
    def large_colors(self) -> tuple[Color, ...]:
        """The colors that each cover a sixth of the drawing or more, shades aside, largest first."""
        if "colors" not in self._made:
            covered = _covered(list(self._items()))
            whole = sum(covered.values())
            self._made["colors"] = tuple(color for color, size in covered.most_common() if size >= whole / 6)
        return self._made["colors"]

    def _items(self) -> tuple[Item, ...]:
        return () if isinstance(self.source, Photo) else self.source.items

    def drawing(self, ink: Ink, *, size: float, hide: tuple[str, ...] = (), recolor: Recolor = ()) -> Drawing:
        """The motif in one ink, cropped to what the whole motif covers, so that variations align.

        `size` is the longer side in mm as printed; only the width of outlines hangs on it.
        `hide` names parts left out. `recolor` gives parts another color: it replaces the one that
        covers most of the part, wherever it occurs in it. Raises PrintkitError for an unknown part.
        """
        line = round(outline_width(size), 3) if ink == "outline" and not self.is_photo else 0.0
        key = (ink, line, line and size, hide, recolor)
        if key not in self._made:
            self._check(hide + tuple(part for part, _ in recolor))
            self._made[key] = self._make(ink, line, size, hide, recolor)
        return self._made[key]

    def _check(self, parts: tuple[str, ...]) -> None:
        unknown = [part for part in parts if part not in self.parts]
        if unknown:
            raise PrintkitError(
                Problem(
                    place=self.file,
                    found=f"there is no part '{part}'",
                    allowed=listing(self.parts) or "none, as the picture has no named parts",
                    nearest=nearest(part, self.parts),
                )
                for part in unknown
            )

    def _make(self, ink: Ink, line: float, size: float, hide: tuple[str, ...], recolor: Recolor) -> Drawing:
        if isinstance(self.source, Photo):
            raster = self.source.raster if ink == "color" else in_gray(self.source.raster)
            return replace(self.source.drawing(raster), name=self._title(ink, size, hide, recolor))
        grays = self._tones if ink == "gray" else _NO_GRAYS
        wanted = (line, line and size)
        if wanted not in self._framed:
            self._framed[wanted] = _framed(self.source, line, size)
        art, units = self._framed[wanted]
        items = [item for item in art.items if not set(item.ids) & set(hide)]
        for part, color in recolor:
            items = recolored(items, part, color)
        return Drawing(
            name=self._title(ink, size, hide, recolor),
            width=art.width,
            height=art.height,
            shapes=tuple(shape for item in items for shape in _inked(item, ink, units, grays)),
        )

    @property
    def _tones(self) -> Mapping[Color, Color]:
        """The grays of the whole picture; a variation keeps them, so that nothing else changes in it."""
        if "tones" not in self._made:
            shapes = [item.shape for item in self._items() if not item.shade]
            self._made["tones"] = tones(shapes, self.source.width, self.source.height)
        return self._made["tones"]

    def _title(self, ink: Ink, size: float, hide: tuple[str, ...], recolor: Recolor) -> str:
        words = [f"{self.theme}/{self.key}", ink]
        if ink == "outline":
            words.append(f"at {size:g} mm")
        words.extend(f"without {part}" for part in hide)
        words.extend(f"{part} {' '.join(f'{value:g}' for value in color)}" for part, color in recolor)
        return " ".join(words)


@dataclass(frozen=True, kw_only=True, slots=True)
class Border:
    """A strip of ornament whose right end meets its left one; drawn whole, nothing is cropped."""

    theme: str
    source: Artwork

    def drawing(self, ink: Ink, *, size: float) -> Drawing:
        """One length of the strip in an ink, `size` mm long as printed."""
        art = self.source
        units = outline_width(size) * art.width / size
        return Drawing(
            name=f"{self.theme}/border {ink}",
            width=art.width,
            height=art.height,
            shapes=tuple(shape for item in art.items for shape in _inked(item, ink, units)),
        )


def _was_chosen(name: str) -> bool:
    """Whether an id is the name of a part, not one that a drawing program gave."""
    return bool(_SPOKEN.fullmatch(name)) and name.lower().rstrip("-_ 0123456789") not in _UNSPOKEN


def spoken(key: str) -> str:
    """A key or id as words: 'sea_star' and 'sea-star' are 'sea star'."""
    return re.sub(r"[-_\s]+", " ", key).strip()


def outline_width(size: float) -> float:
    """The width of outlines in mm for a picture `size` mm long: 1 from 40 mm up, at least 0.35.

    A design choice: bold on pictures to color in, finer on small ones, so that no gap fills up.
    """
    return min(1.0, max(0.35, size / 40))


# --- variations ------------------------------------------------------------------------------


def recolored(items: list[Item], part: str, color: Color) -> list[Item]:
    """The items with the main color of one part replaced."""
    main = _main_color([item for item in items if part in item.ids])
    return [
        replace(item, shape=_repainted(item.shape, main, color))
        if part in item.ids and not item.shade
        else item
        for item in items
    ]


def _repainted(shape: Shape, old: Color | None, new: Color) -> Shape:
    return replace(
        shape,
        fill=new if shape.fill is not None and shape.fill == old else shape.fill,
        stroke=new if shape.stroke is not None and shape.stroke == old else shape.stroke,
    )


def _main_color(items: list[Item]) -> Color | None:
    """The color that covers most; shades aside."""
    covered = _covered(items)
    return max(covered, key=lambda color: covered[color]) if covered else None


def _covered(items: list[Item]) -> Counter[Color]:
    """How much each color covers, lines counted by length and width; shades aside."""
    covered: Counter[Color] = Counter()
    for item in items:
        if item.shade:
            continue
        shape = item.shape
        lines = flat(shape.path, 0.1)
        if shape.fill is not None:
            covered[shape.fill] += abs(sum(area(points) for points, _ in lines)) + 1e-9
        if shape.stroke is not None:
            covered[shape.stroke] += shape.stroke_width * sum(_length(points) for points, _ in lines)
    return covered


def _length(points: list[tuple[float, float]]) -> float:
    return sum(abs(complex(b[0] - a[0], b[1] - a[1])) for a, b in pairwise(points))


# --- inks ------------------------------------------------------------------------------------


def _inked(item: Item, ink: Ink, line: float, grays: Mapping[Color, Color] = _NO_GRAYS) -> list[Shape]:
    """The shapes that one item becomes in an ink; `line` is the outline's width in its units.

    `grays` tell what colors become in gray; the others become what a gray printer makes of them.
    """
    shape = item.shape
    if ink == "outline":
        return [] if item.shade else _outlined(shape, line)
    if ink == "gray":
        return [
            replace(
                shape,
                fill=None if shape.fill is None else grays.get(shape.fill) or gray(shape.fill),
                stroke=None if shape.stroke is None else grays.get(shape.stroke) or gray(shape.stroke),
            )
        ]
    return [shape]


def _outlined(shape: Shape, line: float) -> list[Shape]:
    """White with a black edge; a line much wider than the edge becomes a white band with two.

    What is so thin that its two edges would run together becomes one black line itself.
    """
    path = {
        "path": shape.path, "even_odd": shape.even_odd, "clips": shape.clips, "join": "round", "cap": "round"
    }  # fmt: skip
    wide = shape.stroke_width if shape.stroke is not None else 0.0
    if shape.fill is not None and not wide and _thickness(shape) < THINNEST * line:
        return [Shape(**path, fill=BLACK)]
    fill = None if shape.fill is None else WHITE
    if wide < 2 * line:
        return [Shape(**path, fill=fill, stroke=BLACK, stroke_width=line), *cut_edges(shape, line)]
    band = Shape(**path, fill=fill, stroke=WHITE, stroke_width=wide - line)
    edge = Shape(**path, fill=fill, stroke=BLACK, stroke_width=wide + line)
    return [edge, band, *cut_edges(shape, line)]


def _thickness(shape: Shape) -> float:
    """How thick a shape is on the whole: that of a band with its area and the length of its edge."""
    lines = flat(shape.path, 0.1)
    edge = sum(_length([*points, points[0]]) for points, _ in lines)
    return 2 * abs(sum(area(points) for points, _ in lines)) / edge if edge else 0.0


# --- the frame -------------------------------------------------------------------------------


def _framed(art: Artwork, line: float, size: float) -> tuple[Artwork, float]:
    """The artwork cropped to its ink, and the width of outlines in its units.

    In outline when `line` is not 0, so that it is `line` mm wide when printed `size` mm long.
    What reaches out of the file's own sheet is cut off, as every viewer does.
    """
    left, top, right, bottom = _ink_box(art, 0.0)
    units = 0.0
    if line:
        # A first guess tells how long the picture is without its edge, which adds half its width on
        # both sides: units / (longest + units) = line / size.
        guess = line * max(right - left, bottom - top) / size
        left, top, right, bottom = _ink_box(art, guess)
        longest = max(right - left, bottom - top) - guess
        units = line * longest / max(size - line, line)
        left, top, right, bottom = _ink_box(art, units)
    decimals = max(1, 6 - len(str(int(max(art.width, art.height)))))
    items = tuple(
        replace(item, shape=replace(item.shape, path=shifted(item.shape.path, -left, -top, decimals)))
        for item in art.items
    )
    width, height = round(right - left, decimals), round(bottom - top, decimals)
    return replace(art, width=width, height=height, items=items), units


def _ink_box(art: Artwork, line: float) -> Bounds:
    """The box of all the ink within the sheet: in outline when `line` is not 0, else in color."""
    ink: Ink = "outline" if line else "color"
    shapes = [shape for item in art.items for shape in _inked(item, ink, line)]
    tolerance = max(art.width, art.height) * 1e-5
    boxes = (shape_bounds(shape, tolerance) for shape in shapes)
    box = united(box for box in boxes if box is not None)
    # The edge of what touches the border of the sheet lies half outside it.
    reach = line / 2
    sheet = (-reach, -reach, art.width + reach, art.height + reach)
    if box is None:
        return sheet
    left, top = max(sheet[0], box[0]), max(sheet[1], box[1])
    right, bottom = min(sheet[2], box[2]), min(sheet[3], box[3])
    return (left, top, right, bottom) if left < right and top < bottom else sheet
