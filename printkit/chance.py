"""Chance that hangs on names only: each piece draws from a source of its own.

The source is a hash of (seed, child, set, piece key), so adding a child, a tray or a number
changes no other piece. Only `random.Random.random()` is used: it alone gives the same numbers in
every Python version.
"""

import hashlib
import random
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")


class Chance:
    """A stream of chance for one piece; made anew wherever it is needed, never shared."""

    def __init__(self, seed: int, *names: str):
        self._seed, self._names = seed, names
        text = "\x1f".join([str(seed), *names])
        self._random = random.Random(int.from_bytes(hashlib.sha256(text.encode()).digest(), "big"))

    def again(self, name: str) -> "Chance":
        """Another source for the same piece, by a name of its own; it does not move this one."""
        return Chance(self._seed, *self._names, name)

    def share(self) -> float:
        """A number from 0 up to, but not, 1."""
        return self._random.random()

    def between(self, low: float, high: float) -> float:
        """A number from `low` to `high`."""
        return low + (high - low) * self.share()

    def below(self, count: int) -> int:
        """A whole number from 0 up to, but not, `count`."""
        return min(int(self.share() * count), count - 1)

    def choice(self, items: Sequence[T]) -> T:
        """One of the items."""
        return items[self.below(len(items))]

    def shuffled(self, items: Sequence[T]) -> tuple[T, ...]:
        """The items in a chance order."""
        left = list(items)
        for i in range(len(left) - 1, 0, -1):
            j = self.below(i + 1)
            left[i], left[j] = left[j], left[i]
        return tuple(left)
