"""Where pieces lie -> the straight cuts that free them, in the order a trimmer makes them.

Nothing is known here of how a sheet was laid out: the cuts are found from the pieces' boxes alone. Each
goes across the part still in hand, from edge to edge, and crosses no piece. A part is cut along all lines
across it that cross no piece, or along all lines down it, whichever leads to fewer cuts in all (the
shorter ones if that is even); then each of its parts is, in turn.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from printkit.sheets.model import Cut
from printkit.units import Rect


class Edges(NamedTuple):
    """A rectangle by its four edges, in whole micrometres."""

    left: int
    top: int
    right: int
    bottom: int


def edges_of(box: Rect) -> Edges:
    """A rectangle in mm by its edges in micrometres."""
    left, top = round(box.left * 1000), round(box.top * 1000)
    return Edges(left, top, left + round(box.width * 1000), top + round(box.height * 1000))


def cuts_of(boxes: Sequence[Rect], paper: tuple[float, float], foot: float) -> tuple[Cut, ...]:
    """The cuts of a sheet of pieces that lie in `boxes`, all above `foot` (mm from the paper's top).

    The first takes the foot off, the second the top, the third the left edge. Raises ValueError
    if no straight cuts free every piece.
    """
    pieces = tuple(sorted(edges_of(box) for box in boxes))
    width, end = round(paper[0] * 1000), round(foot * 1000)
    left, top = min(box.left for box in pieces), min(box.top for box in pieces)
    lines = [
        Edges(0, end, width, end),
        Edges(0, top, width, top),
        Edges(left, top, left, end),
    ]
    # A piece may reach over the foot or the right margin by the rounding of a length.
    inner = _Cutter().best(Edges(left, top, width, end), pieces)
    if inner is None:
        raise ValueError("no straight cuts free these pieces")
    return tuple(
        Cut(n=n, x1=line.left / 1000, y1=line.top / 1000, x2=line.right / 1000, y2=line.bottom / 1000)
        for n, line in enumerate([*lines, *inner.lines], 1)
    )


class _Way(NamedTuple):
    """One way to cut a part: its cuts in order and their length together."""

    lines: tuple[Edges, ...]
    length: int

    @property
    def cost(self) -> tuple[int, int]:
        return len(self.lines), self.length


class _Cutter:
    """Finds the best way for each part once."""

    def __init__(self) -> None:
        self.known: dict[tuple[Edges, tuple[Edges, ...]], _Way | None] = {}

    def best(self, part: Edges, pieces: tuple[Edges, ...]) -> _Way | None:
        """The fewest cuts that free the pieces of a part, None if there are none."""
        if not pieces or (len(pieces) == 1 and _fills(pieces[0], part)):
            return _Way((), 0)
        key = (part, pieces)
        if key not in self.known:
            ways = [way for way in (self.across(part, pieces), self.down(part, pieces)) if way is not None]
            self.known[key] = min(ways, key=lambda way: way.cost, default=None)
        return self.known[key]

    def across(self, part: Edges, pieces: tuple[Edges, ...]) -> _Way | None:
        places = _free(pieces, part.top, part.bottom, lambda box: (box.top, box.bottom))
        lines = [Edges(part.left, y, part.right, y) for y in places]
        parts = [
            Edges(part.left, y1, part.right, y2) for y1, y2 in pairwise((part.top, *places, part.bottom))
        ]
        return self.parted(lines, parts, pieces)

    def down(self, part: Edges, pieces: tuple[Edges, ...]) -> _Way | None:
        places = _free(pieces, part.left, part.right, lambda box: (box.left, box.right))
        lines = [Edges(x, part.top, x, part.bottom) for x in places]
        parts = [
            Edges(x1, part.top, x2, part.bottom) for x1, x2 in pairwise((part.left, *places, part.right))
        ]
        return self.parted(lines, parts, pieces)

    def parted(self, lines: list[Edges], parts: list[Edges], pieces: tuple[Edges, ...]) -> _Way | None:
        if not lines:
            return None
        made = list(lines)
        length = sum(line.right - line.left + line.bottom - line.top for line in lines)
        for part in parts:
            way = self.best(part, tuple(box for box in pieces if _middle_in(box, part)))
            if way is None:
                return None
            made += way.lines
            length += way.length
        return _Way(tuple(made), length)


def _pairs(start: int, places: Sequence[int], end: int) -> Iterator[tuple[int, int]]:
    """From where to where each part goes between two ends that is cut at some places."""
    return pairwise((start, *places, end))


def _fills(box: Edges, part: Edges) -> bool:
    """Whether a piece is all of a part; past its edge it may reach by the rounding of a length."""
    return (
        box.left <= part.left
        and box.top <= part.top
        and box.right >= part.right
        and box.bottom >= part.bottom
    )


def _middle_in(box: Edges, part: Edges) -> bool:
    return (
        2 * part.left < box.left + box.right < 2 * part.right
        and 2 * part.top < box.top + box.bottom < 2 * part.bottom
    )


def _free(
    pieces: tuple[Edges, ...], start: int, end: int, sides: Callable[[Edges], tuple[int, int]]
) -> tuple[int, ...]:
    """The edges of pieces between two ends that cross no piece."""
    spans = sorted(sides(box) for box in pieces)
    found: list[int] = []
    reached = start
    for low, high in spans:
        if low >= reached:
            found += [reached, low]
        reached = max(reached, high)
    found.append(reached)
    return tuple(place for place in sorted(set(found)) if start < place < end)
