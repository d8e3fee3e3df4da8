"""Compare: true groups, one right answer, fair places; the patch lies behind it."""

from collections import Counter
from itertools import combinations

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.materials.compare.tasks import ASKS, ranks, samples, spaced
from printkit.materials.compare.tasks import pairs as all_pairs
from printkit.pieces import Picture
from printkit.sheets import turned_to_fit

FEW = settings(max_examples=12)
RIGHT = {
    "more": lambda facts: max(facts.numbers),
    "fewer": lambda facts: min(facts.numbers),
    "as-many": lambda facts: facts.sample,
    "one-more": lambda facts: facts.sample + 1,
    "one-fewer": lambda facts: facts.sample - 1,
}


@st.composite
def sets(draw):
    """A tray of compare cards that can be made, and what it makes."""
    first = draw(st.integers(0, 100))
    last = min(100, first + draw(st.integers(0, 9)))
    asked = tray(
        "compare", draw(faces.children(numbers=[first, last])),
        asks=draw(st.sampled_from(ASKS)), count=draw(st.integers(1, 9)),
    )  # fmt: skip
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assume(made.pieces)
    return faces.Set(asked, made.pieces, seed)


@FEW
@given(sets())
def test_there_is_one_right_answer_and_it_is_told(made):
    """By the words of the question: the largest, the smallest, the same, one more or one fewer; no other."""
    for piece in made.pieces:
        facts = piece.facts
        right = RIGHT[facts.asks](facts)
        assert facts.numbers[facts.answer] == right
        assert facts.numbers.count(right) == 1
        assert len(set(facts.numbers)) == len(facts.numbers) == (2 if facts.sample is None else 3)
        assert all(0 <= n <= 100 for n in facts.numbers)


@pytest.mark.parametrize("asks", ASKS)
@pytest.mark.parametrize("count", [6, 8, 9])
def test_each_place_is_right_about_as_often(asks, count):
    """The places of the answers differ by one at most, over several seeds."""
    for seed in range(5):
        pieces = made_of(tray("compare", {"numbers": [3, 12]}, asks=asks, count=count), seed).pieces
        used = Counter(piece.facts.answer for piece in pieces)
        places = range(2 if asks in ("more", "fewer") else 3)
        assert max(used[place] for place in places) - min(used[place] for place in places) <= 1


@pytest.mark.parametrize("asks", ["as-many", "one-more", "one-fewer"])
def test_no_rank_gives_the_answer_away(asks):
    """The right one of three is as often the smallest, the middle and the largest of them."""
    for seed in range(5):
        pieces = made_of(tray("compare", {"numbers": [5, 13]}, asks=asks, count=9), seed).pieces
        rank = Counter(sorted(p.facts.numbers).index(p.facts.numbers[p.facts.answer]) for p in pieces)
        assert rank == {0: 3, 1: 3, 2: 3}


@pytest.mark.parametrize("answer", range(101))
@pytest.mark.parametrize("least", [0, 1])
def test_neighbors_stay_within_the_numbers(answer, least):
    """Each rank that may be keeps all three within least..100; one may always be."""
    if answer < least:
        return
    allowed = ranks(answer, least)
    assert allowed
    for rank in range(3):
        inside = answer - rank >= least and answer - rank + 2 <= 100
        assert (rank in allowed) == inside


def test_pairs_are_all_pairs_of_the_range():
    """Every two numbers once; with a distance, those that far apart; the easiest to tell apart first."""
    assert {frozenset(pair) for pair in all_pairs(2, 9, None)} == set(
        map(frozenset, combinations(range(2, 10), 2))
    )
    assert all_pairs(2, 6, 3) == ((2, 5), (3, 6))
    shares = [small / large for small, large in all_pairs(1, 10, None)]
    assert shares == sorted(shares)


@given(st.integers(1, 12), st.integers(1, 30))
def test_cards_are_taken_evenly_from_all(size, count):
    """As many as asked for, none twice before all came once, first and last among them."""
    taken = spaced(tuple(range(size)), count)
    used = Counter(taken)
    assert len(taken) == count
    assert max(used.values()) - min(used.get(i, 0) for i in range(size)) <= 1
    assert count < 2 or {0, size - 1} <= set(taken)


@pytest.mark.parametrize(
    ("asks", "number", "sample"), [("one-more", 100, 99), ("one-fewer", 1, 2), ("one-fewer", 0, 1)]
)
def test_at_the_ends_a_number_near_by_is_the_sample(asks, number, sample):
    """Nothing is one more than 100 or one fewer than 0."""
    assert samples(asks, number, number, 0 if number == 0 else 1) == (sample,)


@FEW
@given(sets())
def test_groups_are_as_large_as_the_facts_say(made):
    """Things in the areas, or the numerals, in the order of the facts, the sample first."""
    written = made.asked.child.numerals.written
    for piece in made.pieces:
        facts = piece.facts
        numbers = [*(() if facts.sample is None else (facts.sample,)), *facts.numbers]
        if facts.shown == "numerals":
            assert [text.run.text for text in faces.texts(piece.front)] == [written(str(n)) for n in numbers]
            continue
        shown = [mark.bounds() for mark in piece.front.marks if isinstance(mark, Picture)]
        assert [area.things for area in piece.front.areas] == numbers
        assert [
            sum(area.box.holds(box, faces.NEAR) for box in shown) for area in piece.front.areas
        ] == numbers
        assert len({round(max(box.width, box.height), 2) for box in shown}) <= 1


@FEW
@given(sets())
def test_cards_keep_their_distances(made):
    """Hairline and content keep clear of the cut and the set mark; cards fit the sheet."""
    for piece in made.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=True)
        assert turned_to_fit(piece, room_of(made.asked)) is not None


@FEW
@given(sets())
def test_the_patch_lies_behind_the_right_group(made):
    """Turned like a page, left and right change places: the patch lies inside the answer's box alone."""
    for piece in made.pieces:
        left = piece.width - piece.control.right
        there = piece.control._replace(left=left)
        held = [n for n, box in enumerate(piece.boxes) if box.holds(there, faces.NEAR)]
        assert held == [piece.facts.answer]


@pytest.mark.parametrize(
    ("last", "shown"), [(8, "things"), (10, "things"), (11, "numerals"), (60, "numerals")]
)
def test_groups_are_drawn_to_ten(last, shown):
    """Groups of up to 10 objects are compared (CCSSM K.CC.C.6); beyond stand numerals, unless asked for."""
    pieces = made_of(tray("compare", {"numbers": [1, last]})).pieces
    assert {piece.facts.shown for piece in pieces} == {shown}


@pytest.mark.parametrize(
    ("child", "keys", "found", "allowed"),
    [
        ({"numbers": [2, 5]}, {"apart": 7}, "no two numbers from 2 to 5 are 7 apart", "1 to 3"),
        (
            {"numbers": [1, 60]}, {"show": "things", "size": "small"},
            "groups of up to 60 things of 5 mm do not fit a card of 88 x 62 mm",
            "show = 'numerals', a larger card or smaller numbers",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told(child, keys, found, allowed):
    """The sentence says which distances there are, or what would fit."""
    (problem,) = made_of(tray("compare", child, **keys)).problems
    assert (problem.found, problem.allowed) == (found, allowed)
