"""The field of find-the-match: its grid, where the targets lie, which of the others lie where."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from printkit.chance import Chance
from printkit.units import Rect, micrometres

FILL = 0.78
"""How much of its cell's shorter side a picture may take: neighbors stay clearly apart."""
LARGEST = 40.0
"""mm of the largest picture in a field; on larger sheets the pictures lie wider apart."""
AIR = 3.0
"""mm between the sample and the line of its box."""
GAP = 8.0
"""mm between the sample and the field."""
_EVEN = 0.88
"""How much smaller pictures may be so that every row of the field is full."""
_TRIES = 80


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """Rows and columns of a field in `box`; a last row that is not full lies in the middle."""

    box: Rect
    count: int
    columns: int
    side: float

    @property
    def rows(self) -> int:
        return math.ceil(self.count / self.columns)

    def centers(self) -> tuple[tuple[float, float], ...]:
        """The middle of every picture, in reading order."""
        across, down = self.box.width / self.columns, self.box.height / self.rows
        found = []
        for n in range(self.count):
            row, column = divmod(n, self.columns)
            here = min(self.columns, self.count - row * self.columns)
            x = self.box.left + self.box.width / 2 + (column - (here - 1) / 2) * across
            found.append((micrometres(x), micrometres(self.box.top + (row + 0.5) * down)))
        return tuple(found)

    def squares(self) -> tuple[Rect, ...]:
        """The square round each picture."""
        half = self.side / 2
        return tuple(
            Rect(micrometres(x - half), micrometres(y - half), micrometres(self.side), micrometres(self.side))
            for x, y in self.centers()
        )

    def neighbors(self) -> tuple[tuple[int, ...], ...]:
        """For each picture those beside, above and below it; half a step aside still counts."""
        centers = self.centers()
        across, down = self.box.width / self.columns, self.box.height / self.rows
        return tuple(
            tuple(
                j
                for j, (a, b) in enumerate(centers)
                if j != i and abs(a - x) / across + abs(b - y) / down < 1.6
            )
            for i, (x, y) in enumerate(centers)
        )


def grid_in(box: Rect, count: int) -> Grid:
    """The grid with the largest pictures, or one with full rows and pictures not much smaller."""
    found = [Grid(box=box, count=count, columns=columns, side=_side(box, count, columns))
             for columns in range(2, count // 2 + 1)]  # fmt: skip
    best = max(grid.side for grid in found)
    near = [grid for grid in found if grid.side >= _EVEN * best]
    return min(near, key=lambda grid: (-grid.count % grid.columns, -grid.side))


def _side(box: Rect, count: int, columns: int) -> float:
    across, down = box.width / columns, box.height / math.ceil(count / columns)
    return micrometres(min(FILL * across, FILL * down, LARGEST))


# --- places for the counters -----------------------------------------------------------------

_BETWEEN = 2.5
"""mm between two places for counters."""


def rings_high(lines: int, place: float) -> float:
    """How high so many rows of places are, in mm."""
    return lines * (place + _BETWEEN) - _BETWEEN + 0.4


def rings(count: int, lines: int, box: Rect, place: float) -> tuple[tuple[float, float], ...] | None:
    """Middles of `count` places of `place` mm in at most so many rows, from the left of the box.

    Rows of five where they fit, as they are seen at a glance. None where there is no room.
    """
    step = place + _BETWEEN
    room = int((box.width - 0.4 + _BETWEEN) // step)
    columns = math.ceil(count / lines)
    if lines > 1 and columns <= 5 <= room:
        columns = min(5, count)
    if columns > room or rings_high(lines, place) > box.height + 1e-6:
        return None
    rows = math.ceil(count / columns)
    top = box.top + box.height / 2 - (rows - 1) * step / 2
    left = box.left + 0.2 + place / 2
    return tuple(
        (micrometres(left + (n % columns) * step), micrometres(top + (n // columns) * step))
        for n in range(count)
    )


# --- where the targets lie -------------------------------------------------------------------


def target_places(neighbors: Sequence[Sequence[int]], count: int, chance: Chance) -> tuple[int, ...]:
    """`count` places by chance, no two of them neighbors, in all parts of the field; rising.

    Among many chance choices the one that is spread best is taken, so that no part of the field can
    be passed over. Asks for at most as many as every second place.
    """
    tries = [_apart(neighbors, count, chance.again(f"targets/{i}")) for i in range(_TRIES)]
    full = [places for places in tries if len(places) == count]
    if not full:
        return _every_second(neighbors, count, chance.again("targets"))
    return min(full, key=lambda places: _lumps(places, len(neighbors)))


def _apart(neighbors: Sequence[Sequence[int]], count: int, chance: Chance) -> tuple[int, ...]:
    chosen: list[int] = []
    for place in chance.shuffled(range(len(neighbors))):
        if len(chosen) < count and not set(neighbors[place]) & set(chosen):
            chosen.append(place)
    return tuple(sorted(chosen))


def _every_second(neighbors: Sequence[Sequence[int]], count: int, chance: Chance) -> tuple[int, ...]:
    """Places of one color of a chess board, where chance alone finds too few."""
    chosen: list[int] = []
    for place in range(len(neighbors)):
        if not set(neighbors[place]) & set(chosen):
            chosen.append(place)
    return tuple(sorted(chance.shuffled(chosen)[:count]))


def _lumps(places: tuple[int, ...], field: int) -> tuple[int, int]:
    """How unevenly the places lie over the thirds of a field, and how many equal steps they make."""
    thirds = [0, 0, 0]
    for place in places:
        thirds[3 * place // field] += 1
    steps = [after - before for before, after in pairwise(places)]
    return max(thirds) - min(thirds), sum(1 for one, two in pairwise(steps) if one == two)


# --- which of the others lie where -----------------------------------------------------------


def others_laid(
    neighbors: Sequence[Sequence[int]], targets: Sequence[int], kinds: int, chance: Chance
) -> tuple[int | None, ...]:
    """For each place None for a target, else which of the `kinds` lies there.

    Each kind comes about as often; two alike lie side by side only where there are too few kinds.
    """
    laid: list[int | None] = [None] * len(neighbors)
    uses = [0] * kinds
    for place in range(len(neighbors)):
        if place in targets:
            continue
        near = [laid[other] for other in neighbors[place]]
        order = chance.shuffled(range(kinds))
        kind = min(order, key=lambda kind: (near.count(kind), uses[kind]))
        laid[place] = kind
        uses[kind] += 1
    return tuple(laid)
