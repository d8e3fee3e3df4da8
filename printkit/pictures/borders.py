"""The border of a theme: one length of ornament, repeated along a strip without a seam."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from itertools import groupby
from typing import Any

from printkit.pictures.colors import gray
from printkit.pictures.flatten import shape_bounds
from printkit.pictures.inks import Ink, outline_width
from printkit.pictures.paths import Bounds, bounds, shifted, united
from printkit.pictures.svg import Artwork, Item
from printkit.pieces import BLACK, WHITE, Drawing, Shape

_DECIMALS = 4
_LAP = 0.2
"""In widths of the outline: how far shapes that end at a joint reach over it, so that no gap shows."""
_SLACK = 0.02
"""Share of a length by which a strip may be higher than its room before it gets one length more."""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Border:
    """A strip of ornament whose right end meets its left one; `source` is one length of it.

    What a named part, or what lies in none, draws in one color is one thing in outline, however many
    shapes make it up.
    """

    theme: str
    source: Artwork
    _made: dict[Any, Drawing] = field(default_factory=dict, repr=False)

    def strip(self, ink: Ink, *, length: float, height: float) -> Drawing:
        """As many lengths as make a strip of `length` mm not higher than `height` mm, all ink inside it.

        It has the same scale and place in every ink. In outline the lines are as wide as those of a
        picture twice as long as the strip is high.
        Equal arguments give the same object each time.
        """
        key = (ink, round(length, 3), round(height, 3))
        if key not in self._made:
            self._made[key] = self._make(ink, length, height)
        return self._made[key]

    def _make(self, ink: Ink, length: float, height: float) -> Drawing:
        art = self.source
        thick = outline_width(2 * height) * art.height / height
        left, top, right, bottom = self._box(self._shapes("outline", 1, thick))
        high = max(art.height, bottom - top)
        ends = right - left - art.width
        count = max(1, math.ceil((length * high / height - ends) / art.width - _SLACK))
        shapes = self._shapes(ink, count, thick)
        return Drawing(
            name=f"{self.theme}/border {ink} {count} times at {height:g} mm",
            width=round(right - left + (count - 1) * art.width, _DECIMALS),
            height=round(bottom - top, _DECIMALS),
            shapes=tuple(_moved(shape, -left, -top) for shape in shapes),
        )

    def _box(self, shapes: Iterable[Shape]) -> Bounds:
        tolerance = self.source.width * 1e-4
        found = united(box for shape in shapes if (box := shape_bounds(shape, tolerance)) is not None)
        return found or (0.0, 0.0, self.source.width, self.source.height)

    def _shapes(self, ink: Ink, count: int, thick: float) -> list[Shape]:
        """The shapes of `count` lengths, those of one paint together, with outlines `thick` units wide."""
        drawn = [item for item in self.source.items if not (item.shade and ink == "outline")]
        shapes: list[Shape] = []
        for _, together in groupby(drawn, key=_paint):
            run = [self._lapped(item.shape, thick) for item in together]
            lengths = [part for shape in run for part in self._repeated(shape, count)]
            if ink == "outline":
                shapes += [edge for shape in lengths for edge in _edge(shape, thick)]
                shapes += [white for shape in lengths for white in _inside(shape, thick)]
            else:
                shapes += lengths if ink == "color" else map(_grayed, lengths)
        return shapes

    def _repeated(self, shape: Shape, count: int) -> list[Shape]:
        """A shape once a length; a line that goes on from length to length as one line."""
        wide = self.source.width
        copies = [_moved(shape, at * wide, 0) for at in range(count)]
        first, last = shape.path[0], shape.path[-1]
        goes_on = (
            shape.fill is None
            and last[0] != "Z"
            and sum(step[0] == "M" for step in shape.path) == 1
            and math.dist((first[1] + wide, first[2]), last[-2:]) < wide * 1e-4
        )
        if not goes_on:
            return copies
        return [
            replace(shape, path=shape.path + tuple(step for each in copies[1:] for step in each.path[1:]))
        ]

    def _lapped(self, shape: Shape, thick: float) -> Shape:
        """The shape reaching a little over the joints where it ends there."""
        edges = bounds(shape.path)
        near = self.source.width * 1e-4
        if edges is None or (edges[0] > near and edges[2] < self.source.width - near):
            return shape
        if shape.stroke is not None:
            return replace(shape, cap="round")
        if shape.fill_gradient is not None or shape.fill_opacity < 1:
            return shape
        return replace(shape, stroke=shape.fill, stroke_width=_LAP * thick, join="round")


def _paint(item: Item) -> tuple[Any, ...]:
    """What shapes share that are one thing in outline."""
    return item.ids[:1], item.shape.fill or item.shape.stroke, item.shape.layers


def _moved(shape: Shape, x: float, y: float) -> Shape:
    return replace(shape, path=shifted(shape.path, x, y, _DECIMALS))


def _grayed(shape: Shape) -> Shape:
    return replace(
        shape,
        fill=None if shape.fill is None else gray(shape.fill),
        stroke=None if shape.stroke is None else gray(shape.stroke),
    )


def _edge(shape: Shape, thick: float) -> list[Shape]:
    """What is black of a shape: an edge about what is filled, half an edge about a line."""
    wide = shape.stroke_width if shape.stroke is not None else 0.0
    if shape.fill is None:
        wide = wide + thick if wide >= 2 * thick else max(wide, thick)
    else:
        wide += 2 * thick
    return [_plain(shape, BLACK, wide)]


def _inside(shape: Shape, thick: float) -> list[Shape]:
    """What is white of it: nothing of a thin line."""
    wide = shape.stroke_width if shape.stroke is not None else 0.0
    if shape.fill is not None:
        return [_plain(shape, WHITE, wide)]
    return [_plain(shape, WHITE, wide - thick)] if wide >= 2 * thick else []


def _plain(shape: Shape, color: tuple[float, ...], wide: float) -> Shape:
    """The shape in one color, its line `wide` units wide."""
    return Shape(
        path=shape.path,
        fill=None if shape.fill is None else color,
        stroke=color if wide else None,
        stroke_width=wide,
        cap="round",
        join="round",
        even_odd=shape.even_odd,
        clips=shape.clips,
    )
