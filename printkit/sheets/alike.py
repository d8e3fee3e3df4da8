"""Pieces of one size on one sheet: the best of all layouts in rows, some upright and some turned."""

from typing import NamedTuple


class Slot(NamedTuple):
    """Room for one piece, in whole micrometres from the top left of the usable room."""

    left: int
    top: int
    width: int
    height: int


def patterns(size: tuple[int, int], room: tuple[int, int]) -> tuple[tuple[Slot, ...], ...]:
    """The most slots of one size with all pieces the same way, and if that is more, the most at all.

    Those are rows (or columns) of upright and rows (or columns) of turned pieces: the best of all
    two-stage patterns, in which each part of the first cuts holds pieces of one way. Empty if the
    size does not fit at all.
    """
    rows = _rows(size, room)
    columns = tuple(
        Slot(top, left, height, width) for left, top, width, height in _rows(size[::-1], room[::-1])
    )
    even = max(_even(size, room), _even(size[::-1], room), key=len)
    most = max(rows, columns, key=len)
    return (even, most) if len(most) > len(even) else (even,)


def _even(size: tuple[int, int], room: tuple[int, int]) -> tuple[Slot, ...]:
    """Rows and columns of pieces that all lie this way."""
    (width, height), across = size, room[0] // size[0]
    return tuple(
        Slot(n % across * width, n // across * height, width, height)
        for n in range(across * (room[1] // height))
    )


def _rows(size: tuple[int, int], room: tuple[int, int]) -> tuple[Slot, ...]:
    """The best number of upright rows; as many turned ones as fit below them."""
    width, height = size
    upright, turned = room[0] // width, room[0] // height
    counts = [
        (number * upright + below * turned, number, below)
        for number in range(room[1] // height + 1 if upright else 1)
        for below in [(room[1] - number * height) // width if turned else 0]
    ]
    _, number, below = max(counts)
    slots = [
        Slot(column * width, row * height, width, height)
        for row in range(number)
        for column in range(upright)
    ]
    top = number * height
    slots += [
        Slot(column * height, top + row * width, height, width)
        for row in range(below)
        for column in range(turned)
    ]
    return tuple(slots)
