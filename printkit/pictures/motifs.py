"""One picture of a theme and its variations: ink, parts left out, parts in another color."""

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.pictures.grays import tones
from printkit.pictures.inks import NO_GRAYS, SMALL, Ink, all_inked, framed, length, outline_width
from printkit.pictures.plurals import best, category
from printkit.pictures.raster import Photo, in_gray
from printkit.pictures.strokes import area, flat
from printkit.pictures.svg import Artwork, Item
from printkit.pieces import Color, Drawing, Shape

Recolor = tuple[tuple[str, Color], ...]

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
    where the picture shows several things, so that it is no thing to count; `faces` is 'left' or
    'right' for what could travel that way, '' for what cannot or looks at the viewer. `source` is
    the picture as it was read; `file` names it in problems and notes.
    """

    key: str
    file: str
    theme: str
    source: Artwork | Photo
    names: tuple[tuple[str, Name], ...] = ()
    symmetric: bool | None = None
    counted: bool = True
    faces: str = ""
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
        grays = self._tones if ink == "gray" else NO_GRAYS
        frame = (line, line and size)
        if frame not in self._framed:
            self._framed[frame] = framed(self.source, line, size)
        art, units = self._framed[frame]
        longest = max(self.source.width, self.source.height)
        items = [item for item in art.items if not set(item.ids) & set(hide)]
        for part, color in recolor:
            items = recolored(items, part, color)
        return Drawing(
            name=self._title(ink, size, hide, recolor),
            width=art.width,
            height=art.height,
            shapes=tuple(all_inked(items, ink, units, grays, SMALL * longest)),
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


def _was_chosen(name: str) -> bool:
    """Whether an id is the name of a part, not one that a drawing program gave."""
    return bool(_SPOKEN.fullmatch(name)) and name.lower().rstrip("-_ 0123456789") not in _UNSPOKEN


def spoken(key: str) -> str:
    """A key or id as words: 'sea_star' and 'sea-star' are 'sea star'."""
    return re.sub(r"[-_\s]+", " ", key).strip()


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
            covered[shape.stroke] += shape.stroke_width * sum(length(points) for points, _ in lines)
    return covered
