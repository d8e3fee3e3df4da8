"""Where pieces lie -> the straight cuts that free them, in the order a trimmer makes them.

Nothing is known here of how a sheet was laid out: the cuts are found from the pieces' boxes alone. Each
goes across the part still in hand, from edge to edge, and crosses no piece. A part is cut along some of the
lines that cross no piece, all across or all down, then each of its parts is cut the other way: the lines
are chosen so that the cuts are few, then so that few parts
must be taken in hand, then so that they are short.
"""

from collections.abc import Callable, Sequence
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
    inner = _Cutter(pieces).best(Edges(left, top, width, end))
    if inner is None:
        raise ValueError("no straight cuts free these pieces")
    return tuple(
        Cut(n=n, x1=line.left / 1000, y1=line.top / 1000, x2=line.right / 1000, y2=line.bottom / 1000)
        for n, line in enumerate([*lines, *inner.lines], 1)
    )


class _Way(NamedTuple):
    """One way to cut a part: its cuts in order, how many parts are taken in hand, the cuts' length."""

    lines: tuple[Edges, ...]
    parts: int
    length: int

    @property
    def cost(self) -> tuple[int, int, int]:
        return len(self.lines), self.parts, self.length

    def and_then(self, other: "_Way") -> "_Way":
        return _Way(self.lines + other.lines, self.parts + other.parts, self.length + other.length)


_NOTHING = _Way((), 0, 0)
_MANY = 8
"""Strips of a part that are tried in every grouping; where there are more, each is a part of its own."""


class _Cutter:
    """Finds the best way for each part once; the pieces of a part are those whose middles lie in it."""

    def __init__(self, pieces: tuple[Edges, ...]) -> None:
        self.pieces = pieces
        self.known: dict[tuple[Edges, bool], _Way | None] = {}

    def best(self, part: Edges) -> _Way | None:
        """The best cuts that free the pieces of a part, None if there are none."""
        ways = [way for way in (self.along(part, across=True), self.along(part, across=False)) if way]
        return min(ways, key=lambda way: way.cost, default=None)

    def along(self, part: Edges, *, across: bool) -> _Way | None:
        """The best cuts of which the first run across the part (or down it)."""
        key = (part, across)
        if key not in self.known:
            self.known[key] = self.found(part, across)
        return self.known[key]

    def found(self, part: Edges, across: bool) -> _Way | None:
        pieces = tuple(box for box in self.pieces if _middle_in(box, part))
        if not pieces or (len(pieces) == 1 and _fills(pieces[0], part)):
            return _NOTHING
        low, high = (1, 3) if across else (0, 2)
        start, end = part[low], part[high]
        places = _free(pieces, start, end, lambda box: (box[low], box[high]))
        edges = (start, *places, end)
        last = len(edges) - 1
        # Per edge: the best way to part all that lies before it, lines and what follows them apart.
        best: list[tuple[_Way, _Way] | None] = [(_NOTHING, _NOTHING)] + [None] * last
        for here in range(1, last + 1):
            line = (
                _NOTHING
                if here == last
                else _Way((_line(part, edges[here], across),), 0, _across(part, across))
            )
            tried: list[tuple[_Way, _Way]] = []
            for before in range(here - 1 if last > _MANY else 0, here):
                begun = best[before]
                inner = None
                if begun is not None and (before, here) != (0, last):
                    inner = self.along(_between(part, edges[before], edges[here], across), across=not across)
                if begun is not None and inner is not None:
                    tried.append((begun[0].and_then(line), begun[1].and_then(inner)))
            best[here] = min(tried, key=lambda pair: pair[0].and_then(pair[1]).cost, default=None)
        made = best[last]
        return None if made is None else made[0].and_then(made[1]).and_then(_Way((), 1, 0))


def _line(part: Edges, place: int, across: bool) -> Edges:
    if across:
        return Edges(part.left, place, part.right, place)
    return Edges(place, part.top, place, part.bottom)


def _across(part: Edges, across: bool) -> int:
    """The length of a cut through a part."""
    return part.right - part.left if across else part.bottom - part.top


def _between(part: Edges, start: int, end: int, across: bool) -> Edges:
    if across:
        return Edges(part.left, start, part.right, end)
    return Edges(start, part.top, end, part.bottom)


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
