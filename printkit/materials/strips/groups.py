"""Things in rows of five, two rows a block: a number is seen as tens, fives and the rest.

A block holds ten things; blocks lie side by side or below one another with a wider gap between
them. Sizes count in things: `Shape` says how wide and high a thing is as shares of its longer
side, `size` is that longer side in mm. Clear gaps between things are never under a quarter of it.
"""

import math
from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from printkit.units import Rect, micrometres

GAP = 0.3
"""Clear gap between two things of a block, in sizes."""
BLOCK_GAP = 0.8
"""Clear gap between two blocks, in sizes."""


class Shape(NamedTuple):
    """Width and height of a thing as shares of its longer side."""

    wide: float
    high: float


@cache
def extent(count: int, across: int, shape: Shape) -> tuple[float, float]:
    """Width and height, in sizes, of `count` things with at most `across` blocks side by side."""
    if count == 0:
        return (0.0, 0.0)
    blocks = math.ceil(count / 10)
    columns = min(across, blocks)
    across_last = min(5, count) if blocks == 1 else 5
    wide = (columns - 1) * _block_step(5, shape.wide) + _span(across_last, shape.wide)
    lines = math.ceil(blocks / columns)
    last = 1 if _only_single_rows(count, columns, blocks) else 2
    high = (lines - 1) * _block_step(2, shape.high) + _span(last, shape.high)
    return (wide, high)


def _only_single_rows(count: int, columns: int, blocks: int) -> bool:
    """Whether the last line of blocks is one block of one row."""
    return (blocks - 1) % columns == 0 and count - 10 * (blocks - 1) <= 5


def _span(things: int, share: float) -> float:
    return things * share + (things - 1) * GAP


def _block_step(things: int, share: float) -> float:
    return _span(things, share) + BLOCK_GAP


def largest(counts: Iterable[int], across: int, shape: Shape, width: float, height: float) -> float:
    """The largest size in mm at which each of the counts fits `width` x `height` mm."""
    size = math.inf
    for count in counts:
        wide, high = extent(count, across, shape)
        if count:
            size = min(size, width / wide, height / high)
    return size


def laid(
    count: int, across: int, shape: Shape, size: float, box: Rect, *, low: bool = False
) -> tuple[Rect, ...]:
    """The boxes of `count` things of `size` mm in the middle of `box`, or `low`: at its lower edge."""
    wide, high = extent(count, across, shape)
    left = box.left + (box.width - wide * size) / 2
    spare = box.height - high * size
    top = box.top + (spare if low else spare / 2)
    boxes = []
    for i in range(count):
        block, place = divmod(i, 10)
        line, column = divmod(block, min(across, math.ceil(count / 10)))
        row, slot = divmod(place, 5)
        x = column * _block_step(5, shape.wide) + slot * (shape.wide + GAP)
        y = line * _block_step(2, shape.high) + row * (shape.high + GAP)
        boxes.append(
            Rect(
                micrometres(left + x * size),
                micrometres(top + y * size),
                micrometres(size * shape.wide),
                micrometres(size * shape.high),
            )
        )
    return tuple(boxes)
