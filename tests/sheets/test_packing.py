"""Packing by straight cuts: nothing lost, nothing over anything, never under the bound."""

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from printkit.sheets.alike import Slot, patterns
from printkit.sheets.bounds import area_bound, bound
from printkit.sheets.packing import pack

ROOM = (40, 60)


@st.composite
def items(draw) -> list[tuple[int, int, bool]]:
    """Items that fit the room upright; some may be turned."""
    size = st.tuples(st.integers(1, ROOM[0]), st.integers(1, ROOM[1]), st.booleans())
    return draw(st.lists(size, min_size=1, max_size=14))


def guillotine(boxes: Sequence[tuple[int, int, int, int]]) -> bool:
    """Whether straight cuts from edge to edge part boxes (left, top, right, bottom): facts of the trade."""
    if len(boxes) < 2:
        return True
    for low, high in ((0, 2), (1, 3)):
        for place in {box[high] for box in boxes}:
            before = [box for box in boxes if box[high] <= place]
            after = [box for box in boxes if box[low] >= place]
            if before and after and len(before) + len(after) == len(boxes):
                return guillotine(before) and guillotine(after)
    return False


def boxes_of(places) -> list[tuple[int, int, int, int]]:
    """Left, top, right, bottom of the items of a bin."""
    return [(item.left, item.top, item.left + item.width, item.top + item.height) for item in places]


@given(items())
@settings(max_examples=60)
def test_every_item_lies_in_one_bin_inside_and_over_no_other(sizes):
    """Items keep their size, turn only where they may, and share no area."""
    packed = pack(sizes, ROOM, 20)
    assert sorted(item.item for places in packed.bins for item in places) == list(range(len(sizes)))
    for places in packed.bins:
        boxes = boxes_of(places)
        for item in places:
            width, height, turns = sizes[item.item]
            assert (item.width, item.height) == ((height, width) if item.turned else (width, height))
            assert turns or not item.turned
        for n, (left, top, right, bottom) in enumerate(boxes):
            assert min(left, top) >= 0
            assert right <= ROOM[0]
            assert bottom <= ROOM[1]
            assert not any(
                left < other[2] and other[0] < right and top < other[3] and other[1] < bottom
                for other in boxes[:n]
            )


@given(items())
@settings(max_examples=60)
def test_straight_cuts_part_every_bin(sizes):
    """Edge to edge, again and again, no item crossed."""
    for places in pack(sizes, ROOM, 20).bins:
        assert guillotine(boxes_of(places))


def test_the_smallest_layout_that_no_straight_cut_parts_is_seen():
    """Five pieces like the arms of a pinwheel: the smallest layout that is not guillotine."""
    pinwheel = [(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3), (1, 1, 2, 2)]
    assert not guillotine(pinwheel)
    assert guillotine(pinwheel[:1] + pinwheel[1:2])


@given(items())
@settings(max_examples=60)
def test_no_packing_is_below_the_bound_nor_the_bound_below_the_area(sizes):
    """Fewer bins than the bound would show a fault in one of the two."""
    packed = pack(sizes, ROOM, 20)
    assert area_bound(sizes, ROOM) <= packed.bound == bound(sizes, ROOM) <= len(packed.bins)


@st.composite
def cut_up(draw) -> list[tuple[int, int, bool]]:
    """One to three full rooms cut up at random by straight cuts, the parts shuffled and turned."""
    parts = [ROOM] * draw(st.integers(1, 3))
    for _ in range(draw(st.integers(0, 9))):
        width, height = parts.pop(draw(st.integers(0, len(parts) - 1)))
        if draw(st.booleans()) and width > 1:
            at = draw(st.integers(1, width - 1))
            parts += [(at, height), (width - at, height)]
        elif height > 1:
            at = draw(st.integers(1, height - 1))
            parts += [(width, at), (width, height - at)]
        else:
            parts.append((width, height))
    return [(*size, True) for size in draw(st.permutations(parts))]


@given(cut_up())
def test_the_bound_is_never_above_what_is_possible(sizes):
    """Rooms that were cut up have a packing in as many rooms: the bound says exactly that."""
    assert bound(sizes, ROOM) == sum(width * height for width, height, _ in sizes) // (ROOM[0] * ROOM[1])


def test_large_items_are_known_to_need_a_bin_each():
    """Items longer than half a bin both ways never share one, though their area would let them."""
    assert area_bound([(21, 31, False)] * 5, ROOM) == 2
    assert bound([(21, 31, False)] * 5, ROOM) == 5
    assert bound([(31, 35, True)] * 5, ROOM) == 5


@given(items())
@settings(max_examples=20)
def test_the_same_items_are_packed_the_same_way(sizes):
    """Nothing hangs on what was packed before."""
    assert pack(sizes, ROOM, 20) == pack(sizes, ROOM, 20)


def test_a_bin_is_saved_that_the_first_tries_need():
    """Two rooms cut up without any waste: filled bin by bin they take three, worked over two."""
    sides = [(40, 24), (40, 28), (17, 18), (18, 36), (40, 10), (40, 4), (22, 12), (22, 24), (23, 7), (23, 11)]
    sizes = [(*size, True) for size in sides]
    assert len(pack(sizes, ROOM, 0).bins) == 3
    assert len(pack(sizes, ROOM, 400).bins) == 2


# --- one size --------------------------------------------------------------------------------


def brute(size: tuple[int, int], room: tuple[int, int]) -> int:
    """The most pieces in two stages, counted strip by strip."""
    best = 0
    for (wide, high), (width, height) in ((room, size), (room[::-1], size)):
        strips = [0] * (high + 1)
        for used in range(1, high + 1):
            strips[used] = strips[used - 1]
            for across, deep in ((width, height), (height, width)):
                if deep <= used:
                    strips[used] = max(strips[used], strips[used - deep] + wide // across)
        best = max(best, strips[high])
    return best


@given(st.tuples(st.integers(2, 45), st.integers(2, 45)), st.tuples(st.integers(20, 60), st.integers(20, 60)))
def test_alike_pieces_have_the_best_two_stage_pattern(size, room):
    """As many slots as strips of either way can hold, counted another way."""
    made = patterns(size, room)
    assert len(made[-1]) == brute(size, room)
    assert len(made[0]) <= len(made[-1])


@given(st.tuples(st.integers(2, 45), st.integers(2, 45)), st.tuples(st.integers(20, 60), st.integers(20, 60)))
def test_slots_of_a_pattern_lie_inside_and_apart(size, room):
    """Each slot has the size, upright or turned; the first pattern has all slots one way."""
    for slots in patterns(size, room):
        for n, slot in enumerate(slots):
            assert sorted((slot.width, slot.height)) == sorted(size)
            assert slot.left + slot.width <= room[0]
            assert slot.top + slot.height <= room[1]
            assert not any(_meet(slot, other) for other in slots[:n])
    assert len({(slot.width, slot.height) for slot in patterns(size, room)[0]}) <= 1


def _meet(one: Slot, two: Slot) -> bool:
    return (
        one.left < two.left + two.width
        and two.left < one.left + one.width
        and one.top < two.top + two.height
        and two.top < one.top + one.height
    )


@pytest.mark.parametrize(("size", "count"), [((62, 88), 9), ((47, 62), 17), ((94, 125), 4), ((186, 50), 5)])
def test_usual_sizes_on_a4(size, count):
    """What fits 190 x 269 mm, worked out by hand: 47 x 62 mm gains one by a column of turned cards."""
    assert len(patterns(size, (190, 269))[-1]) == count
