"""Ten-frames: the right places are filled, the back tells them, empty mats hold the counters."""

from itertools import combinations
from math import comb

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.chance import Chance
from printkit.materials.ten_frames import filled
from printkit.pieces import Dot, Picture
from printkit.sheets import turned_to_fit

FEW = settings(max_examples=12)


@st.composite
def cards(draw):
    """A tray of filled cards that can be made, and what it makes."""
    first = draw(st.integers(0, 30))
    asked = tray(
        "ten-frames",
        draw(faces.children(numbers=[first, first + draw(st.integers(0, 6))])),
        fill=draw(st.sampled_from(["fives", "pairs", "any", ["fives", "pairs"]])),
        things=draw(st.sampled_from(["pictures", "dots"])),
        asks=draw(st.sampled_from(["filled", "empty"])),
    )
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assume(made.pieces)
    return faces.Set(asked, made.pieces, seed)


def things(face):
    """What fills the places."""
    return [mark for mark in face.marks if isinstance(mark, Picture | Dot)]


def test_five_wise_fills_the_upper_row_first():
    """Row by row from the left: 6 is 5 + 1, 10 is 5 + 5 (arrangements of ten-frames, public descriptions)."""
    for count in range(11):
        assert filled(count, "fives", Chance(0)) == tuple(range(count))


def test_pair_wise_fills_column_by_column():
    """7 = 2 + 2 + 2 + 1: each column of two is full before the next one begins (common practice)."""
    for count in range(11):
        columns = [place % 5 for place in filled(count, "pairs", Chance(0))]
        assert sorted(columns) == [i // 2 for i in range(count)]
        assert count % 2 == 0 or (count // 2) in filled(count, "pairs", Chance(0))


@pytest.mark.parametrize("count", range(11))
def test_any_places_are_one_of_all_fillings(count):
    """Of the C(10, k) fillings of a frame 'any' takes one that is neither five-wise nor pair-wise."""
    every = set(combinations(range(10), count))
    usual = {filled(count, way, Chance(0)) for way in ("fives", "pairs")}
    taken = {filled(count, "any", Chance(seed)) for seed in range(30)}

    assert len(every) == comb(10, count)
    assert taken <= every
    assert count in (0, 10) or not taken & usual


@FEW
@given(cards())
def test_as_many_places_are_filled_as_the_facts_say(made):
    """Things, cells, empty places and the number behind agree, and whole frames come first."""
    for piece in made.pieces:
        facts = piece.facts
        assert len(things(piece.front)) == len(set(facts.cells)) == facts.quantity
        assert facts.empty == 10 * facts.frames - facts.quantity
        assert 0 <= facts.empty <= 10
        assert facts.numeral == (facts.empty if made.asked.settings.asks == "empty" else facts.quantity)
        full = 10 * (facts.quantity // 10)
        assert facts.cells[:full] == tuple(range(full))
        assert faces.texts(piece.back)[0].run.text == made.asked.child.numerals.written(str(facts.numeral))
        assert piece.front.areas[0].things == facts.quantity


@FEW
@given(cards())
def test_cards_keep_their_distances(made):
    """Hairline and content keep clear of the cut, things lie apart inside the area, cards fit the sheet."""
    for piece in made.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=True)
        boxes = [mark.bounds() for mark in things(piece.front)]
        assert not any(a.meets(b) for a, b in combinations(boxes, 2))
        assert all(piece.front.areas[0].box.holds(box) for box in boxes)
        assert all(max(box.width, box.height) >= 5.0 - faces.NEAR for box in boxes)
        assert turned_to_fit(piece, room_of(made.asked)) is not None


def test_each_number_has_a_card_for_each_way_to_fill():
    """With a list every number comes once in each way, under a key of its own."""
    pieces = made_of(tray("ten-frames", {"numbers": [3, 5]}, fill=["fives", "pairs"])).pieces
    assert [piece.key for piece in pieces] == [
        "3-fives", "3-pairs", "4-fives", "4-pairs", "5-fives", "5-pairs"
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("last", "frames"), [(0, [1]), (10, [1]), (11, [2]), (20, [2]), (21, [2, 2]), (100, [2] * 5)]
)
@pytest.mark.parametrize("counter", [10, 22])
def test_mats_hold_all_counters(last, frames, counter):
    """Empty frames for the largest number, each place at least 2 mm larger than a counter."""
    asked = tray("ten-frames", {"numbers": [0, last], "counter": counter}, form="mats")
    made = made_of(asked)
    assert [piece.facts.frames for piece in made.pieces] == frames
    assert made.needs[0].count == max(1, last)
    for piece in made.pieces:
        faces.assert_inside(piece)
        assert not things(piece.front)
        area = piece.front.areas[0]
        assert area.things == 0
        assert area.box.width / 5 >= counter + 2 - faces.NEAR


@pytest.mark.parametrize(
    ("child", "keys", "found", "allowed"),
    [
        (
            {"counter": 60}, {"form": "mats"},
            "a frame of ten places of 62 mm does not fit the sheet",
            "counters of at most 48 mm, or a larger sheet",
        ),
        (
            {"numbers": [1, 100]}, {"size": "small"},
            "frames for 100 things of 5 mm do not fit a card of 62 x 88 mm",
            "at most 40 there, or a larger card",
        ),
        (
            {}, {"size": [40, 30], "form": "mats"},
            "a frame of ten places of 24 mm does not fit a mat of 40 x 30 mm",
            "a larger mat",
        ),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_told(child, keys, found, allowed):
    """The sentence says how many would fit, or which counters."""
    (problem,) = made_of(tray("ten-frames", {"paper": "a4", **child}, **keys)).problems
    assert (problem.found, problem.allowed) == (found, allowed)
