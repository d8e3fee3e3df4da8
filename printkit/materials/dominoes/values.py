"""Which numbers a set of dominoes has, and how many tiles that makes."""

from printkit.materials.quantities import widened
from printkit.pack import Tray

MOST = 7
"""Different numbers if nothing is asked for: 28 tiles, as in the usual set from 0 to 6."""
PIPS = 6
"""The highest number that is seen at a glance, as on a die (common practice)."""
LEAST = 4
"""Fewer numbers make no game; the range is widened to so many."""


def tiles_of(values: int) -> int:
    """How many tiles hold every two of so many numbers once: (n + 1)(n + 2) / 2 for 0 to n.

    These are the triangular numbers (https://oeis.org/A000217).
    """
    return values * (values + 1) // 2


def used(tray: Tray) -> tuple[int, int]:
    """The first and the last number on the tiles.

    If nothing is asked for, numbers beyond those of a die come in only where the child's begin there: one
    frame of ten in the set would make all pictures small.
    """
    values = tray.settings.values
    if values is not None:
        first = tray.child.numbers[0]
        return first, first + values - 1
    first, last = widened(tray.child.numbers, LEAST)
    most = min(last, first + MOST - 1)
    return first, min(most, PIPS) if first + LEAST - 1 <= PIPS else most
