"""Rectangles -> bins by straight edge-to-edge cuts: as few bins as can be found, and a bound beside them.

Lengths are whole numbers (micrometres, on sheets); nothing hangs on a clock or on how often it was called
before. First every item goes where it fits best, in several orders; then, while the bound says that
fewer bins may do, one bin is given up and its items are worked into the others: again and again a few bins
lose some items, and all items without a place are tried anew, the large ones first (ruin and recreate:
Schrimpf et al., 'Record breaking optimization results using the ruin and recreate principle', Journal of
Computational Physics 159, 2000).
"""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from printkit.sheets.bounds import Size, bound
from printkit.sheets.trees import Bin, Node, Place


@dataclass(frozen=True, kw_only=True, slots=True)
class Packed:
    """The bins, each the places of its items, and how many no layout can do without."""

    bins: tuple[tuple[Place, ...], ...]
    bound: int


def pack(sizes: Sequence[Size], room: tuple[int, int], steps: int, seed: int = 0) -> Packed:
    """Packs items (width, height, may turn), each of which must fit the room one of its ways.

    `steps` is how many times bins are ruined at most; items are named by their place in `sizes`.
    """
    least = bound(sizes, room)
    search = _Search(sizes, room, seed)
    best = search.built(least)
    if len(best) > least:
        best = search.improved(best, least, steps)
    return Packed(bins=tuple(item.places() for item in best), bound=least)


# Tried on a part of the published instances (see tests/benchmarks/packing.py); none of them decides much.
_MEMORY = 50
"""How many steps ago a solution may be no worse than."""
_RUINED = 4
"""How many bins are ruined at most in one step."""
_WHOLE = 0.3
"""How often a ruined bin loses all of its items."""
_SHARE = 0.5
"""The share of its items that it loses otherwise, at most."""
_TIGHT = 0.5
"""How often parts that became too broad give way."""
_BLINK = 0.02
"""How often a place that fits is overlooked."""
_NOISE = 0.3
"""By what share of its measure an item moves in the order at most."""
_OTHER = 0.5
"""How often another measure than the area is taken by chance."""
_SPLIT = 0.5
"""How often, in every second step, an item is parted from the rest in the way that leaves more whole."""

_Score = Callable[[int, int, int], float]
"""How badly an item fits: what is left along, what is left across, the free area."""

_SCORES: tuple[_Score, ...] = (
    lambda along, across, free: along if along < across else across,
    lambda along, across, free: free,
    lambda along, across, free: along if along > across else across,
)


class _Search:
    """What all steps of one packing share."""

    def __init__(self, sizes: Sequence[Size], room: tuple[int, int], seed: int):
        self.sizes, self.room = sizes, room
        self.area = [width * height for width, height, _ in sizes]
        self.rand = random.Random(seed).random
        self.keys: tuple[Callable[[int], float], ...] = (
            lambda item: -self.area[item],
            lambda item: -max(sizes[item][:2]),
            lambda item: -min(sizes[item][:2]),
            lambda item: -sum(sizes[item][:2]),
        )

    # --- building ---

    def built(self, least: int) -> list[Bin]:
        """The best of several orders and rules."""
        best: list[Bin] | None = None
        for key in self.keys:
            order = sorted(range(len(self.sizes)), key=key)
            for score in _SCORES:
                for split in (1.0, 0.0):
                    bins: list[Bin] = []
                    own: set[int] = set()
                    for item in order:
                        if not self.insert(item, bins, own, score, split, 0.0):
                            own.add(len(bins))
                            bins.append(Bin(*self.room))
                            self.insert(item, bins, own, score, split, 0.0)
                    if best is None or len(bins) < len(best):
                        best = bins
                    if len(best) == least:
                        return best
        assert best is not None
        return best

    def insert(
        self, item: int, bins: list[Bin], own: set[int], score: _Score, split: float, blink: float
    ) -> bool:
        """Lays an item where it fits best; now and then (`blink`) a good place is overlooked.

        Bins whose numbers are not in `own` belong to another solution too and are copied first.
        """
        width, height, turns = self.sizes[item]
        area = self.area[item]
        rand = self.rand
        best: tuple[int, Node, int, int, bool] | None = None
        least = 0.0
        for number, there in enumerate(bins):
            if there.free < area:
                continue
            for node in there.spaces:
                slack, breadth = node.slack, node.breadth
                free = slack * breadth
                if free < area:
                    continue
                along, across = (height, width) if node.down else (width, height)
                if along <= slack and across <= breadth and not (blink and rand() < blink):
                    value = score(slack - along, breadth - across, free)
                    if best is None or value < least:
                        best, least = (number, node, along, across, False), value
                if turns and across <= slack and along <= breadth and not (blink and rand() < blink):
                    value = score(slack - across, breadth - along, free)
                    if best is None or value < least:
                        best, least = (number, node, across, along, True), value
        if best is None:
            return False
        number, node, along, across, turned = best
        if number not in own:
            node = self.owned(bins, number, node)
            own.add(number)
        behind, beside = node.slack - along, node.breadth - across
        # Whole: what is left is behind x breadth and along x beside, else slack x beside and behind x across.
        whole = max(behind * node.breadth, along * beside) >= max(node.slack * beside, behind * across)
        if split < 1.0 and rand() >= split:
            whole = not whole
        bins[number].put(node, item, along, across, turned, whole)
        return True

    def owned(self, bins: list[Bin], number: int, node: Node) -> Node:
        """Puts a copy in a bin's place; the copy's node in the place of `node`."""
        path: list[int] = []
        while node.parent is not None:
            path.append(node.parent.kids.index(node))
            node = node.parent
        bins[number] = bins[number].copy()
        node = bins[number].root
        for step in reversed(path):
            node = node.kids[step]
        return node

    # --- ruining and recreating ---

    def improved(self, best: list[Bin], least: int, steps: int) -> list[Bin]:
        """Gives up one bin after the other, as long as the items of each find room in the others."""
        left = steps
        while len(best) > least and left > 0:
            found, left = self.fewer(best, left)
            if found is None:
                break
            best = found
        return best

    def fewer(self, full: list[Bin], steps: int) -> tuple[list[Bin] | None, int]:
        """The same items in one bin less, if `steps` suffice; and how many of them are left."""
        ordered = sorted(full, key=lambda item: -item.free)
        outside = [leaf.item for leaf in ordered[0].leaves()]
        bins = ordered[1:]
        area = self.area
        rand = self.rand
        cost = sum(area[item] for item in outside)
        history = [cost] * _MEMORY
        for step in range(steps):
            tried = list(bins)
            pool = list(outside)
            own = self.ruin(tried, pool)
            noise = _NOISE * rand()
            order = self.keys[int(rand() * 4)] if rand() < _OTHER else self.keys[0]
            ranked = sorted(pool, key=lambda item: order(item) * (1.0 - noise * rand()))
            score = _SCORES[int(rand() * 3)]
            split = 1.0 if rand() < 0.5 else _SPLIT
            missed = [item for item in ranked if not self.insert(item, tried, own, score, split, _BLINK)]
            now = sum(area[item] for item in missed)
            if not missed:
                return tried, steps - step - 1
            if now <= cost or now <= history[step % _MEMORY]:
                bins, outside, cost = tried, missed, now
            history[step % _MEMORY] = cost
        return None, 0

    def ruin(self, bins: list[Bin], pool: list[int]) -> set[int]:
        """Takes items out of a few bins (copies of them), into the pool; says which bins those are."""
        rand = self.rand
        own: set[int] = set()
        for _ in range(1 + int(rand() * _RUINED)):
            number = int(rand() * len(bins))
            own.add(number)
            if rand() < _WHOLE:
                pool += [leaf.item for leaf in bins[number].leaves()]
                bins[number] = Bin(*self.room)
                continue
            there = bins[number] = bins[number].copy()
            leaves = there.leaves()
            tight = rand() < _TIGHT
            for _ in range(1 + int(rand() * len(leaves) * _SHARE)):
                if not leaves:
                    break
                leaf = leaves.pop(int(rand() * len(leaves)))
                pool.append(leaf.item)
                there.take(leaf, tight)
            there.look()
        return own
