"""Shapes of a drawing with the parts they belong to; clipping and fading them together."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from printkit.pictures.flatten import placed
from printkit.pictures.paths import Bounds, Path, bounds, oriented, shifted, united
from printkit.pieces import BLACK, Clip, Shape


@dataclass(frozen=True, kw_only=True, slots=True)
class Item:
    """A shape, the ids of the elements it lies in (outermost first), and whether it is mere shade."""

    shape: Shape
    ids: tuple[str, ...] = ()
    shade: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Region:
    """The inside of some paths together, in the units of the drawing; nothing if there are none."""

    paths: tuple[Path, ...]
    even_odd: bool = False

    @property
    def box(self) -> Bounds | None:
        """The smallest box around it."""
        return united(box for path in self.paths if (box := bounds(path)) is not None)

    @property
    def is_box(self) -> bool:
        """Whether it is one upright rectangle."""
        if len(self.paths) != 1:
            return False
        (path,) = self.paths
        points = [step[1:] for step in path if step[0] != "Z"]
        corners = set(points)
        return (
            all(step[0] in "MLZ" for step in path)
            and len(corners) == 4
            and len(points) in (4, 5)
            and len({x for x, _ in corners}) == len({y for _, y in corners}) == 2
            and all((a == c) != (b == d) for (a, b), (c, d) in pairwise(points))
        )


def region(paths: Iterable[tuple[Path, bool]]) -> tuple[Region, bool]:
    """What lies in any of the paths (each with whether it follows the even-odd rule), and if that is exact.

    Several paths are turned the same way, so that the nonzero rule takes them together.
    """
    found = [(path, even_odd) for path, even_odd in paths if path]
    if len(found) == 1:
        return Region(paths=(found[0][0],), even_odd=found[0][1]), True
    exact = not any(even_odd and sum(step[0] == "M" for step in path) > 1 for path, even_odd in found)
    return Region(paths=tuple(oriented(path) for path, _ in found)), exact


def clipped(items: list[Item], area: Region, decimals: int) -> list[Item]:
    """The items as far as they lie in the region."""
    box = area.box
    if box is None:
        return []
    is_box = area.is_box
    result = []
    for item in items:
        edges = _reach(item.shape)
        if edges is None or not _meet(edges, box):
            continue
        if is_box and _holds(box, edges):
            result.append(item)
            continue
        x, y = item.shape.path[0][1:3]
        clip = Clip(
            paths=tuple(shifted(path, -x, -y, decimals + 2) for path in area.paths), even_odd=area.even_odd
        )
        result.append(replace(item, shape=replace(item.shape, clips=(*item.shape.clips, clip))))
    return result


def _reach(shape: Shape) -> Bounds | None:
    """A box that holds all the shape paints, perhaps a little more."""
    edges = bounds(shape.path)
    if edges is None or shape.stroke is None:
        return edges
    by = shape.stroke_width / 2 * (shape.miter_limit if shape.join == "miter" else 1.5)
    return edges[0] - by, edges[1] - by, edges[2] + by, edges[3] + by


def _meet(one: Bounds, two: Bounds) -> bool:
    return one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]


def _holds(outer: Bounds, inner: Bounds) -> bool:
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def faded(items: list[Item], opacity: float, number: int) -> list[Item]:
    """The items drawn together and then made see-through; `number` names their layer if they need one."""
    if opacity >= 1:
        return items
    if opacity <= 0:
        return []
    if _overlap(items):
        layer = (number, round(opacity, 4))
        return [
            replace(item, shape=replace(item.shape, layers=(layer, *item.shape.layers))) for item in items
        ]
    return [replace(item, shape=_fainter(item.shape, opacity)) for item in items]


def _fainter(shape: Shape, opacity: float) -> Shape:
    if shape.layers:
        (number, had), *inner = shape.layers
        return replace(shape, layers=((number, round(had * opacity, 4)), *inner))
    return replace(
        shape,
        fill_opacity=round(shape.fill_opacity * opacity, 4),
        stroke_opacity=round(shape.stroke_opacity * opacity, 4),
    )


def _overlap(items: list[Item]) -> bool:
    """Whether any paint may lie on other paint, judged by boxes."""
    if any(item.shape.fill is not None and item.shape.stroke is not None for item in items):
        return True
    if len(items) > 50 or sum(len(item.shape.path) for item in items) > 2_000:
        return True
    boxes = [box for item in items if (box := _reach(item.shape)) is not None]
    return any(_meet(one, two) for i, one in enumerate(boxes) for two in boxes[:i])


def cut_edges(shape: Shape, line: float) -> list[Shape]:
    """The black edges, `line` wide, along which a filled shape is cut off by its clips.

    For drawings in outline, beside the shape itself with its clips.
    """
    if shape.fill is None:
        return []
    edges = []
    for number, clip in enumerate(shape.clips):
        others = [each for i, each in enumerate(shape.clips) if i != number]
        for path in placed(clip, shape):
            x, y = path[0][1:3]
            within = [Clip(paths=(shifted(shape.path, -x, -y, 9),), even_odd=shape.even_odd)]
            within += [
                Clip(
                    paths=tuple(shifted(each, -x, -y, 9) for each in placed(other, shape)),
                    even_odd=other.even_odd,
                )
                for other in others
            ]
            edges.append(
                Shape(
                    path=path, stroke=BLACK, stroke_width=line, cap="round", join="round", clips=tuple(within)
                )
            )
    return edges
