"""Where things lie: every arrangement is what it is called, with room between the things."""

import math
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from printkit.chance import Chance
from printkit.materials import arrange as arranging
from printkit.units import Rect

NEAR = 0.003
"""mm: places are rounded to whole micrometres."""
COMPOSITE = {4, 6, 8, 9, 10, 12, 14, 15, 16, 18, 20}
"""Numbers to 20 with an array of two or more rows and columns; 1 and the primes have none (computed)."""
MOST = {"line": 20, "array": 20, "ring": 20, "dice": 6, "frame": 100, "scatter": 10}
"""CCSSM K.CC.B.5: to 20 things in a line, an array or a circle, to 10 scattered; a die has six faces."""
PIPS = {
    1: {(1, 1)},
    2: {(0, 0), (2, 2)},
    3: {(0, 0), (1, 1), (2, 2)},
    4: {(0, 0), (2, 0), (0, 2), (2, 2)},
    5: {(0, 0), (2, 0), (0, 2), (2, 2), (1, 1)},
    6: {(0, 0), (0, 1), (0, 2), (2, 0), (2, 1), (2, 2)},
}
"""A die on a grid of three by three: 3 is 2 with the centre, 5 is 4 with it, 6 two columns of three."""

boxes = st.builds(Rect, st.floats(0, 30), st.floats(0, 30), st.floats(25, 190), st.floats(25, 190))
card_boxes = st.builds(Rect, st.just(7.0), st.just(7.0), st.integers(35, 100), st.integers(40, 90))
"""Boxes such as cards have: a scatter is found by trying, and in a narrow box that takes long."""
FEW = settings(max_examples=15)
shares = st.sampled_from(((1.0, 1.0), (1.0, 0.6), (0.45, 1.0), (1.0, 0.25))) | st.tuples(
    st.just(1.0), st.floats(0.2, 1.0)
)


@st.composite
def layouts(draw, arrange: str, least: int = 1, most: int | None = None):
    """Things laid so in some box: (boxes of the things, box, size, shape)."""
    count = draw(st.integers(least, most or MOST[arrange]))
    assume(arranging.possible(count, arrange))
    box = draw(card_boxes if arrange == "scatter" else boxes)
    wide, high = draw(shares)
    chance = Chance(draw(st.integers(0, 1000)), "Wren", "counting", str(count))
    largest = arranging.largest(count, arrange, box, wide, high, chance)
    size = largest * draw(st.sampled_from((1.0, 1.0, 0.9, 0.6)))
    assume(size > 1.0)
    return arranging.laid(count, arrange, box, size, wide, high, chance), box, size, (wide, high), count


def middles(laid) -> list[tuple[float, float]]:
    """The centers of the things."""
    return [(thing.left + thing.width / 2, thing.top + thing.height / 2) for thing in laid]


# --- every arrangement -----------------------------------------------------------------------


@pytest.mark.parametrize("arrange", arranging.ARRANGEMENTS)
@given(data=st.data())
def test_as_many_things_as_asked_for_all_of_one_size_inside_the_box(arrange, data):
    """n things of `size` mm along their longer side, none of which leaves the box."""
    laid, box, size, (wide, high), count = data.draw(layouts(arrange))
    assert len(laid) == count
    assert {(thing.width, thing.height) for thing in laid} == {(round(size * wide, 3), round(size * high, 3))}
    assert all(box.holds(thing, NEAR) for thing in laid)


@pytest.mark.parametrize("arrange", arranging.ARRANGEMENTS)
@settings(max_examples=25)
@given(data=st.data())
def test_things_keep_a_quarter_of_a_thing_apart(arrange, data):
    """Between any two things a quarter of one stays free, across or down, so that none touch."""
    laid, _, size, _, _ = data.draw(layouts(arrange, least=2))
    for one, two in combinations(laid, 2):
        across = max(one.left, two.left) - min(one.right, two.right)
        down = max(one.top, two.top) - min(one.bottom, two.bottom)
        assert max(across, down) >= size / 4 - NEAR


@pytest.mark.parametrize("arrange", arranging.ARRANGEMENTS)
@given(data=st.data())
def test_the_same_question_has_the_same_answer(arrange, data):
    """Places hang on the arguments only."""
    count = data.draw(st.integers(1, 6))
    assume(arranging.possible(count, arrange))
    box = Rect(7, 7, 48, 50)
    twice = []
    for _ in range(2):
        chance = Chance(3, "Wren", "counting", str(count))
        size = arranging.largest(count, arrange, box, 1.0, 0.8, chance)
        twice.append((size, arranging.laid(count, arrange, box, size, 1.0, 0.8, chance)))
    assert twice[0] == twice[1]


@pytest.mark.parametrize("arrange", arranging.ARRANGEMENTS)
def test_nothing_can_be_laid_any_way(arrange):
    """A card for 0 has no things and sets no limit to their size, but a frame's cells do."""
    box, chance = Rect(0, 0, 50, 50), Chance(0, "Wren")
    assert arranging.possible(0, arrange)
    assert arranging.laid(0, arrange, box, 10.0, 1.0, 1.0, chance) == ()
    largest = arranging.largest(0, arrange, box, 1.0, 1.0, chance)
    assert largest < 10 if arrange == "frame" else largest > 50


@pytest.mark.parametrize("arrange", arranging.ARRANGEMENTS)
def test_limits_are_those_of_the_standards(arrange):
    """Line, array and ring to 20, scatter to 10 (CCSSM K.CC.B.5), dice to 6, arrays of composites."""
    possible = {count for count in range(1, 101) if arranging.possible(count, arrange)}
    assert possible == (COMPOSITE if arrange == "array" else set(range(1, MOST[arrange] + 1)))


def test_auto_picks_a_die_to_six_and_frames_beyond():
    """Small numbers are seen at once as a die shows them, larger ones as five and some more."""
    assert [arranging.picked(count) for count in (0, 1, 6)] == ["dice"] * 3
    assert {arranging.picked(count) for count in range(7, 101)} == {"frame"}


@pytest.mark.parametrize(
    ("wanted", "said"),
    [
        ([(n, "dice") for n in range(5, 11)], "7 to 10 cannot be laid as 'dice'"),
        ([(n, "array") for n in range(1, 6)], "1 to 3 and 5 cannot be laid as 'array'"),
        ([(n, "array") for n in (2, 4, 7)], "2 and 7 cannot be laid as 'array'"),
        ([(11, "scatter"), (12, "scatter")], "11 and 12 cannot be laid as 'scatter'"),
        ([(5, "line"), (21, "line"), (7, "dice")], "21 cannot be laid as 'line'"),
        ([(n, "frame") for n in range(101)], ""),
    ],
)
def test_what_cannot_be_laid_is_named(wanted, said):
    """The sentence names the numbers, runs of them together, and the arrangement."""
    assert arranging.impossible(wanted) == said


# --- each arrangement ------------------------------------------------------------------------


@given(layouts("line", least=2))
def test_a_line_is_one_straight_row_with_even_steps(made):
    """All middles share one coordinate; the other rises in equal steps."""
    laid, _, _, _, _ = made
    xs, ys = zip(*middles(laid), strict=True)
    along = xs if max(ys) - min(ys) < NEAR else ys
    assert min(max(xs) - min(xs), max(ys) - min(ys)) < NEAR
    steps = [after - before for before, after in pairwise(along)]
    assert max(steps) - min(steps) < NEAR


@given(layouts("array", least=4))
def test_an_array_is_a_full_grid_of_two_or_more_even_rows(made):
    """Each row has as many things as any other, each column too, and there are two or more of both."""
    laid, _, _, _, count = made
    xs = sorted({round(x, 2) for x, _ in middles(laid)})
    ys = sorted({round(y, 2) for _, y in middles(laid)})
    columns = 1 + sum(b - a > 0.1 for a, b in pairwise(xs))
    rows = 1 + sum(b - a > 0.1 for a, b in pairwise(ys))
    assert columns * rows == count
    assert min(columns, rows) >= 2


@given(layouts("ring", least=3))
def test_a_ring_lies_on_a_circle_with_even_steps(made):
    """All middles are equally far from the centre, and neighbours equally far from each other."""
    laid, _, _, _, count = made
    centers = middles(laid)
    center = (sum(x for x, _ in centers) / count, sum(y for _, y in centers) / count)
    reach = [math.dist(center, place) for place in centers]
    steps = [math.dist(a, b) for a, b in zip(centers, centers[1:] + centers[:1], strict=True)]
    assert max(reach) - min(reach) < 2 * NEAR
    assert max(steps) - min(steps) < 2 * NEAR


@given(layouts("dice"))
def test_dice_show_the_pips_of_a_die(made):
    """The middles are the face of a die on three by three equal steps about the middle of the box."""
    laid, box, _, _, count = made
    middle = (box.left + box.width / 2, box.top + box.height / 2)
    reach = max(max(abs(x - middle[0]), abs(y - middle[1])) for x, y in middles(laid))
    step = reach if count > 1 else 1.0
    seen = {(1 + (x - middle[0]) / step, 1 + (y - middle[1]) / step) for x, y in middles(laid)}
    assert {(round(x, 2), round(y, 2)) for x, y in seen} == PIPS[count]


@given(layouts("dice"))
def test_a_quarter_turn_changes_two_three_and_six_only(made):
    """1, 4 and 5 look the same after a quarter turn, the others do not (standard pip layout)."""
    laid, box, _, _, count = made
    x0, y0 = box.left + box.width / 2, box.top + box.height / 2
    upright = {(round(x - x0, 1) + 0, round(y - y0, 1) + 0) for x, y in middles(laid)}
    turned = {(round(-(y - y0), 1) + 0, round(x - x0, 1) + 0) for x, y in middles(laid)}
    assert (upright != turned) == (count in (2, 3, 6))


@given(layouts("frame", least=0))
def test_frames_are_filled_five_by_five_the_first_frame_first(made):
    """Thing k lies in cell k % 10 of frame k // 10: a row (upright: a column) of five, then the other."""
    laid, box, size, _, count = made
    frames = arranging.frames(count, box, size / arranging.FRAME_FILL)
    assert len(frames) == max(1, math.ceil(count / 10))
    for k, (x, y) in enumerate(middles(laid)):
        frame = frames[k // 10]
        row, column = reversed(divmod(k % 10, 5)) if box.height > 1.2 * box.width else divmod(k % 10, 5)
        assert abs(x - (frame.left + (column + 0.5) * frame.cell)) < NEAR
        assert abs(y - (frame.top + (row + 0.5) * frame.cell)) < NEAR


@given(count=st.integers(0, 100), box=boxes, share=st.floats(0.3, 1.0) | st.just(1.0))
def test_frames_lie_in_the_box_and_apart(count, box, share):
    """Frames of two fives never leave the box or touch, at the largest size or a smaller one."""
    most = arranging.frames(count, box)[0].cell
    frames = [frame.box for frame in arranging.frames(count, box, most * share)]
    assert all(box.holds(frame, NEAR) for frame in frames)
    assert all(
        max(
            max(one.left, two.left) - min(one.right, two.right),
            max(one.top, two.top) - min(one.bottom, two.bottom),
        )
        > 0.3 * most * share
        for one, two in combinations(frames, 2)
    )
    order = [(frame.top, frame.left) for frame in frames]
    assert order == sorted(order)


# --- scatter ---------------------------------------------------------------------------------


def off_line(a, b, c) -> float:
    """How far the middle one of three is from the line through the outer two."""
    outer = max(combinations((a, b, c), 2), key=lambda pair: math.dist(*pair))
    (inner,) = {a, b, c} - set(outer)
    one, two = (np.array(point) for point in outer)
    along = (two - one) / np.linalg.norm(two - one)
    away = np.array(inner) - one
    return float(np.linalg.norm(away - (away @ along) * along))


def farthest_from_die(places, count: int) -> float:
    """How far the places are from the nearest die's face at their own scale: the worst pip, in radii."""

    def shaped(points):
        points = np.array(points, float)
        points -= points.mean(axis=0)
        return points / max(np.hypot(*points.T).max(), 1e-9)

    own, worst = shaped(places), []
    for face in (PIPS[count], {(2 - row, column) for column, row in PIPS[count]}):
        far = np.linalg.norm(shaped(sorted(face))[:, None] - own[None], axis=2)
        rows, columns = linear_sum_assignment(far)
        worst.append(far[rows, columns].max())
    return min(worst)


@FEW
@given(layouts("scatter", least=3))
def test_scattered_things_never_lie_in_a_row(made):
    """No three of them have their middles within a quarter of a thing of one line."""
    laid, _, size, _, _ = made
    assert min(off_line(*three) for three in combinations(middles(laid), 3)) > size / 4 - NEAR


@FEW
@given(layouts("scatter", least=4))
def test_scattered_things_are_unevenly_far_apart(made):
    """The distances to the nearest neighbour differ by more than 10 %."""
    places = middles(made[0])
    nearest = [min(math.dist(a, b) for b in places if b != a) for a in places]
    assert max(nearest) > 1.09 * min(nearest)


@given(layouts("scatter", least=2, most=6))
def test_scattered_things_never_look_like_a_die(made):
    """Moved and scaled, at least one thing is a quarter of the radius or more off the face of a die."""
    assert farthest_from_die(middles(made[0]), made[4]) > 0.25


@given(count=st.integers(1, 10), seed=st.integers(0, 10**9))
def test_every_card_scatters_anew(count, seed):
    """Another child, set, card or seed lays the same number of things in another way."""
    box = Rect(7, 7, 48, 50)
    names = (
        (seed, "Wren", "counting", "4"),
        (seed, "Juno", "counting", "4"),
        (seed, "Wren", "again", "4"),
        (seed, "Wren", "counting", "5"),
        (seed + 1, "Wren", "counting", "4"),
    )
    seen = {
        arranging.laid(count, "scatter", box, 6.0, 1.0, 1.0, Chance(first, *rest)) for first, *rest in names
    }
    assert len(seen) == len(names)


# --- places for counters ---------------------------------------------------------------------


@given(count=st.integers(1, 100), box=boxes, place=st.sampled_from((10.0, 18.0, 24.0)))
def test_places_for_counters_lie_apart_inside_the_box(count, box, place):
    """Round places never touch or leave the box; there are none only where even rows cannot fit."""
    found = arranging.grid_for(count, box, place)
    fits = any(
        columns * (place + 2) - 2 <= box.width and math.ceil(count / columns) * (place + 2) - 2 <= box.height
        for columns in range(1, count + 1)
    )
    assert (found is not None) == fits
    for x, y in found or ():
        assert box.holds(Rect(x - place / 2, y - place / 2, place, place), NEAR)
    for one, two in combinations(found or (), 2):
        assert math.dist(one, two) >= place + 2 - NEAR
    assert len(found or range(count)) == count
