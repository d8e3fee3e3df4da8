"""Which values lie where on the boards: every board another one, each able to win alone.

A board is told by the set of its values. Boards hold equally many, so no two with different sets can
be full on the same call unless they share the last value called: for every board there is an order of
calls after which it alone is full. Where rows win, all rows of all boards differ in the same way.
"""

import math
from collections.abc import Sequence
from itertools import combinations

from printkit.chance import Chance

Board = tuple[int, ...]
"""Values as numbers from 0, in reading order."""

SHAPES = ("2x2", "2x3", "3x3", "3x4", "4x4")
"""Rows and columns of a lying board."""
_USUAL = ("3x3", "2x3", "2x2")
LEAST_VALUES = 5
"""Fewer values than that cannot fill four cells in different ways."""
MOST_VALUES = 20
"""Values of a game, unless a board asks for more: a round should come to an end."""
_DRAWS = 60
_STARTS = 40


def sides_of(shape: str) -> tuple[int, int]:
    """Rows and columns: '2x3' is (2, 3)."""
    rows, columns = shape.split("x")
    return int(rows), int(columns)


def cells_of(shape: str) -> int:
    return math.prod(sides_of(shape))


def usual_shape(values: int) -> str:
    """The largest board that takes at most two thirds of the values, so that boards differ well."""
    return next((shape for shape in _USUAL if 3 * cells_of(shape) <= 2 * values), _USUAL[-1])


def most_boards(values: int, cells: int) -> int:
    """How many boards with different values there can be."""
    return math.comb(values, cells)


def boards(
    values: int, rows: int, columns: int, count: int, chance: Chance, *, rows_differ: bool
) -> tuple[Board, ...] | None:
    """`count` boards of different values, every value on about as many boards.

    With `rows_differ` no two rows of any boards hold the same values; None if none such is found.
    """
    sets = _sets(values, rows * columns, count, chance.again("sets"))
    for start in range(_STARTS):
        laid = _laid(sets, rows, columns, chance.again(f"lay/{start}"))
        if laid is not None:
            return laid
    if rows_differ:
        return None
    return tuple(chance.again(f"board/{n}").shuffled(values) for n, values in enumerate(sets))


def _sets(values: int, cells: int, count: int, chance: Chance) -> list[Board]:
    """Different sets, each time of the values used least, with as little in common as can be had."""
    uses, chosen = [0] * values, []
    for number in range(count):
        draws = (_least_used(uses, cells, chance.again(f"{number}/{i}")) for i in range(_DRAWS))
        new = [draw for draw in draws if draw not in chosen]
        if new:
            best = min(new, key=lambda draw: _in_common(draw, chosen))
        else:
            best = next(each for each in combinations(range(values), cells) if each not in chosen)
        chosen.append(best)
        for value in best:
            uses[value] += 1
    return chosen


def _least_used(uses: Sequence[int], cells: int, chance: Chance) -> Board:
    order = sorted(chance.shuffled(range(len(uses))), key=lambda value: uses[value])
    return tuple(sorted(order[:cells]))


def _in_common(board: Board, others: Sequence[Board]) -> tuple[int, int]:
    """The most values shared with another board, and those shared with all of them."""
    shared = [len(set(board) & set(other)) for other in others]
    return max(shared, default=0), sum(shared)


def _laid(sets: Sequence[Board], rows: int, columns: int, chance: Chance) -> tuple[Board, ...] | None:
    """The sets as boards whose rows all differ, or None where chance finds none."""
    taken: set[frozenset[int]] = set()
    laid: list[Board] = []
    for number, values in enumerate(sets):
        for attempt in range(_DRAWS):
            board = chance.again(f"{number}/{attempt}").shuffled(values)
            own = rows_of(board, columns)
            if not own & taken:
                break
        else:
            return None
        laid.append(board)
        taken |= own
    return tuple(laid)


def rows_of(board: Board, columns: int) -> set[frozenset[int]]:
    """The values of each row."""
    return {frozenset(board[i : i + columns]) for i in range(0, len(board), columns)}
