"""Pieces of all sizes -> as few sheets as can be found, and of those the neatest.

Sheets are tried from neat to thrifty: every set for itself, sets whole but together on a sheet, sets
parted between sheets, all pieces mixed. The first that needs no more sheets than the best is taken, so
that sets stay together wherever that costs no paper.
"""

from collections import Counter
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from printkit.sheets.alike import Slot, patterns
from printkit.sheets.bounds import bound
from printkit.sheets.packing import pack
from printkit.sheets.piles import Laid

Size = tuple[int, int]
"""Width and height of a piece, in whole micrometres."""

_STEPS = 400
"""How often bins are ruined to save a sheet: a fraction of a second for the pieces of one child."""
_MOST = 80
"""Pieces that are mixed at most; of sets with more, full sheets are taken off first."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The sheets, and how many no layout can do without."""

    sheets: tuple[Laid, ...]
    bound: int


def thrifty(
    sizes: Sequence[Size], runs: Sequence[str], sides: Sequence[bool], room: Size, *, alone: bool
) -> Layout:
    """Lays pieces on the fewest sheets found. Each must fit the room upright or turned.

    `runs` says which pieces are kept together where it costs no sheet, `sides` which ones should not
    share a sheet without need; with `alone` no run shares a sheet at all. Pieces of one size keep their
    order from sheet to sheet and, as one reads, on each.
    """
    desk = _Desk(sizes, room)
    least = bound([(*size, True) for size in sizes], room)
    best: list[Laid] | None = None
    for made in desk.by_runs(runs) if alone else desk.layouts(runs, sides):
        if best is None or len(made) < len(best):
            best = made
        if len(best) == least:
            break
    assert best is not None
    return Layout(sheets=tuple(best), bound=least)


_Kind = tuple[int, int]
"""The sides of a size, the shorter first: pieces that are alike but for a turn."""


class _Desk:
    """What the ways to lay out one batch of pieces share."""

    def __init__(self, sizes: Sequence[Size], room: Size):
        self.sizes, self.room = sizes, room
        self.kinds: list[_Kind] = [(min(size), max(size)) for size in sizes]
        self.upright: dict[_Kind, Size] = {}
        for kind, size in zip(self.kinds, sizes, strict=True):
            self.upright.setdefault(kind, size)
        self.patterns = {kind: patterns(size, room) for kind, size in self.upright.items()}
        self.fitted: dict[tuple[tuple[_Kind, int], ...], tuple[tuple[_Kind, Slot], ...] | None] = {}

    def by_runs(self, runs: Sequence[str]) -> Iterator[list[Laid]]:
        """Each run for itself."""
        blocks = _grouped(range(len(self.sizes)), lambda n: runs[n])
        yield [sheet for block in blocks for sheet in self.fewest([block])]

    def layouts(self, runs: Sequence[str], sides: Sequence[bool]) -> Iterator[list[Laid]]:
        """Ways to lay all pieces, the neat ones first."""
        numbers = range(len(self.sizes))
        halves = _grouped(numbers, lambda n: sides[n])
        yield [sheet for half in halves for sheet in self.fewest(_grouped(half, lambda n: runs[n]))]
        if len(halves) > 1:
            yield self.fewest(_grouped(numbers, lambda n: runs[n]))

    def fewest(self, runs: Sequence[list[int]]) -> list[Laid]:
        """Some runs on the fewest sheets found, of those the one with the fewest runs to a sheet."""
        numbers = sorted(n for run in runs for n in run)
        run_of = {n: number for number, run in enumerate(runs) for n in run}
        by_run = [block for run in runs for block in _grouped(run, lambda n: self.kinds[n])]
        least = bound([(*self.sizes[n], True) for n in numbers], self.room)
        apart = sum(-(-len(block) // len(self.patterns[self.kinds[block[0]]][-1])) for block in by_run)
        best: list[Laid] = []
        cost = (len(numbers) + 1, 0)
        for made in self.ways_to_lay(by_run, numbers):
            torn = sum(len({run_of[n] for n in sheet.pieces}) for sheet in made)
            if (len(made), torn) < cost:
                best, cost = made, (len(made), torn)
            if cost <= (least, apart):
                break
        return best

    def ways_to_lay(self, by_run: Sequence[list[int]], numbers: list[int]) -> Iterator[list[Laid]]:
        """Runs whole and parted, kinds whole and parted, in several orders; at last all mixed."""
        by_kind = _grouped(numbers, lambda n: self.kinds[n])
        uneven = any(len(self.patterns[self.kinds[block[0]]]) > 1 for block in by_kind)
        for way in (0, -1) if uneven else (0,):
            for whole, blocks in product((True, False), (by_run, by_kind)):
                full, rest = self.full(blocks, way)
                large = sorted(rest, key=self.area, reverse=True)
                for order in (rest, large, large[::-1]):
                    yield full + self.together(order, whole=whole)
            full, rest = self.full(by_kind, way)
            yield full + self.mixed([n for block in rest for n in block])
            full, rest = self.full(by_kind, way, keep=1)
            left = [n for block in rest for n in block]
            if len(left) <= _MOST:
                yield full + self.mixed(left)

    def area(self, block: list[int]) -> int:
        return sum(self.sizes[n][0] * self.sizes[n][1] for n in block)

    # --- sheets of one kind ---

    def full(
        self, blocks: Sequence[list[int]], way: int, keep: int = 0
    ) -> tuple[list[Laid], list[list[int]]]:
        """Full sheets of one kind each, and what is left of the blocks; `keep` full sheets stay there too.

        They are filled all the same way for `way` 0, and as full as can be for -1.
        """
        sheets: list[Laid] = []
        rest: list[list[int]] = []
        for block in blocks:
            slots = self.patterns[self.kinds[block[0]]][way]
            count = max(0, len(block) // len(slots) - keep) * len(slots)
            sheets += [
                Laid(tuple(block[start : start + len(slots)]), slots, slots)
                for start in range(0, count, len(slots))
            ]
            rest += [block[count:]] if block[count:] else []
        return sheets, rest

    # --- several kinds ---

    def together(self, blocks: Sequence[list[int]], whole: bool) -> list[Laid]:
        """Each block onto the first sheet that takes it; unless `whole`, as much of it as fits."""
        sheets: list[list[int]] = []
        for block in blocks:
            left = block
            for sheet in sheets:
                count = len(left) if whole else self.most(sheet, left)
                if count and self.slots(sheet + left[:count]) is not None:
                    sheet += left[:count]
                    left = left[count:]
                if not left:
                    break
            if left:
                sheets.append(list(left))
        return [self.laid(sorted(sheet)) for sheet in sheets]

    def most(self, sheet: list[int], block: list[int]) -> int:
        """How many pieces of a block still fit a sheet."""
        low, high = 0, len(block)
        while low < high:
            middle = (low + high + 1) // 2
            if self.slots(sheet + block[:middle]) is None:
                high = middle - 1
            else:
                low = middle
        return low

    def mixed(self, numbers: Sequence[int]) -> list[Laid]:
        """All pieces as the packing has them, those of one kind in order from sheet to sheet."""
        if not numbers:
            return []
        packed = pack([(*self.upright[self.kinds[n]], True) for n in numbers], self.room, _STEPS)
        waiting = {kind: list(block) for kind, block in self.queues(numbers)}
        sheets: list[Laid] = []
        for places in packed.bins:
            counts = Counter(self.kinds[numbers[place.item]] for place in places)
            own = sorted(n for kind, count in counts.items() for n in waiting[kind][:count])
            for kind, count in counts.items():
                del waiting[kind][:count]
            slots = [
                (self.kinds[numbers[place.item]], Slot(place.left, place.top, place.width, place.height))
                for place in places
            ]
            sheets.append(_assigned(own, self.slots(own) or tuple(slots), self.kinds))
        return sheets

    def queues(self, numbers: Sequence[int]) -> Iterator[tuple[_Kind, list[int]]]:
        for block in _grouped(sorted(numbers), lambda n: self.kinds[n]):
            yield self.kinds[block[0]], block

    def laid(self, numbers: list[int]) -> Laid:
        """One sheet of pieces that are known to fit."""
        slots = self.slots(numbers)
        assert slots is not None
        return _assigned(numbers, slots, self.kinds)

    def slots(self, numbers: Sequence[int]) -> tuple[tuple[_Kind, Slot], ...] | None:
        """The neatest slots found for pieces on one sheet, None if they do not fit."""
        counts = Counter(self.kinds[n] for n in sorted(numbers))
        key = tuple(counts.items())
        if key not in self.fitted:
            self.fitted[key] = self.in_rows(counts) or self.packed(counts)
        return self.fitted[key]

    def in_rows(self, counts: Counter[_Kind]) -> tuple[tuple[_Kind, Slot], ...] | None:
        """Kinds one below the other in rows of one way each, as low as can be."""
        if len(counts) == 1:
            ((kind, count),) = counts.items()
            slots = next((slots for slots in self.patterns[kind] if count <= len(slots)), None)
            return None if slots is None else tuple((kind, slot) for slot in slots[:count])
        choices = [self.ways(kind, count) for kind, count in counts.items()]
        if not all(choices) or len(choices) > 6:
            return None
        best = min(product(*choices), key=lambda ways: sum(rows * size[1] for size, _, rows in ways))
        if sum(rows * size[1] for size, _, rows in best) > self.room[1]:
            return None
        made: list[tuple[_Kind, Slot]] = []
        top = 0
        for (kind, count), (size, columns, rows) in zip(counts.items(), best, strict=True):
            made += [
                (kind, Slot(n % columns * size[0], top + n // columns * size[1], *size)) for n in range(count)
            ]
            top += rows * size[1]
        return tuple(made)

    def ways(self, kind: _Kind, count: int) -> list[tuple[Size, int, int]]:
        """Upright and turned: the size on the sheet, how many a row, how many rows."""
        size = self.upright[kind]
        return [
            (way, self.room[0] // way[0], -(-count // (self.room[0] // way[0])))
            for way in dict.fromkeys((size, size[::-1]))
            if way[0] <= self.room[0] and way[1] <= self.room[1]
        ]

    def packed(self, counts: Counter[_Kind]) -> tuple[tuple[_Kind, Slot], ...] | None:
        """Any layout on one sheet that the packing finds."""
        kinds = [kind for kind, count in counts.items() for _ in range(count)]
        sizes = [(*self.upright[kind], True) for kind in kinds]
        if bound(sizes, self.room) > 1:
            return None
        packed = pack(sizes, self.room, steps=0)
        if len(packed.bins) > 1:
            return None
        return tuple(
            (kinds[place.item], Slot(place.left, place.top, place.width, place.height))
            for place in packed.bins[0]
        )


def _grouped(numbers: Sequence[int], key: Callable[[int], Hashable]) -> list[list[int]]:
    groups: dict[Hashable, list[int]] = {}
    for number in numbers:
        groups.setdefault(key(number), []).append(number)
    return list(groups.values())


def _assigned(numbers: list[int], slots: Sequence[tuple[_Kind, Slot]], kinds: Sequence[_Kind]) -> Laid:
    """The pieces of each kind in its slots as one reads, from row to row."""
    free: dict[_Kind, list[Slot]] = {}
    for kind, slot in sorted(slots, key=lambda item: (item[1].top, item[1].left)):
        free.setdefault(kind, []).append(slot)
    own = tuple(free[kinds[n]].pop(0) for n in numbers)
    return Laid(tuple(numbers), own, own)
