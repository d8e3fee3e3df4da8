"""How many bins are needed at least, whatever the layout: by area, and by weights that large items carry.

A weight for each length such that lengths that fit side by side weigh at most 1 together, one for the
width and one for the height, gives a bound: the products weigh at most 1 a bin (Fekete and Schepers,
'A general framework for bounds for higher-dimensional orthogonal packing problems', Math. Methods of
Operations Research 60, 2004). An item that may be turned counts with the lighter of its two ways.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial

Size = tuple[int, int, bool]
"""Width, height, and whether the item may be turned."""


def area_bound(sizes: Sequence[Size], room: tuple[int, int]) -> int:
    """The area of all items in bins, rounded up."""
    return -(-sum(width * height for width, height, _ in sizes) // (room[0] * room[1]))


def bound(sizes: Sequence[Size], room: tuple[int, int]) -> int:
    """The best bound known: never more than the fewest bins, never less than the area's.

    Every item must fit the room one of its ways.
    """
    counted = Counter(
        (width, height, turns and (height, width) != (width, height)) for width, height, turns in sizes
    )
    lengths = sorted({length for width, height, _ in counted for length in (width, height)})
    across, down = _weights(lengths, room[0]), _weights(lengths, room[1])
    best = area_bound(sizes, room)
    pairs = {**{(one, two): None for one in across for two in down[:_CORE]}}
    pairs |= {(one, two): None for one in across[:_CORE] for two in down}
    pairs |= dict.fromkeys(zip(across, down, strict=False))
    for one, two in pairs:
        total = 0
        for (width, height, turns), count in counted.items():
            weight = one.of[width] * two.of[height]
            if turns:
                weight = min(weight, one.of[height] * two.of[width])
            total += weight * count
        best = max(best, -(-total // (one.unit * two.unit)))
    return best


_CORE = 6
"""How many of the weights of one direction are tried with all of the other."""


class _Weight:
    """A weight of each length, in whole parts of `unit`."""

    __slots__ = ("of", "unit")

    def __init__(self, lengths: Sequence[int], room: int, unit: int, of: Callable[[int], int]):
        self.unit = unit
        self.of = {length: of(length) if length <= room else _NEVER for length in lengths}


_NEVER = 10**30
"""The weight of a length that does not fit at all: the other way of the item is the lighter one."""


def _weights(lengths: Sequence[int], room: int) -> list[_Weight]:
    """The length itself, the halves, thirds ... it fills, itself but whole when large, and in steps."""
    made = [_Weight(lengths, room, room, lambda length: length)]
    made += [_Weight(lengths, room, room * k, partial(_parts, room, k)) for k in range(1, _CORE)]
    steps = [length for length in lengths if length <= room // 2]
    made += [_Weight(lengths, room, room, partial(_rounded, room, step)) for step in (*steps, room // 2)]
    made += [_Weight(lengths, room, 2 * (room // step), partial(_steps, room, step)) for step in steps]
    return made


def _parts(room: int, k: int, length: int) -> int:
    """At most k lengths longer than room / (k + 1) fit."""
    whole, rest = divmod((k + 1) * length, room)
    return whole * room if rest else k * length


def _rounded(room: int, step: int, length: int) -> int:
    """Beside a length over room - step nothing of step or more fits."""
    return room if length > room - step else length if length >= step else 0


def _steps(room: int, step: int, length: int) -> int:
    """Lengths in steps: up to a half rounded down, beyond it what is left rounded down."""
    if 2 * length == room:
        return room // step
    if 2 * length < room:
        return 2 * (length // step)
    return 2 * (room // step - (room - length) // step)
