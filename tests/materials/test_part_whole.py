"""Part and whole: every decomposition once, asked for fairly, drawn and told truly."""

from itertools import combinations, product

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.materials.part_whole import ways
from printkit.pieces import Dot, Picture
from printkit.sheets import turned_to_fit

FEW = settings(max_examples=12)


@st.composite
def sets(draw, **fixed):
    """A tray of part-whole cards that can be made, and what it makes."""
    keys = {
        "total": draw(st.integers(2, 12)),
        "show": draw(st.sampled_from(["things", "places", "numerals"])),
        "unknown": draw(st.sampled_from(["part", "both", "whole"])),
        "zero": draw(st.booleans()),
        **fixed,
    }
    asked = tray("part-whole", draw(faces.children()), **keys)
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assume(made.pieces)
    return faces.Set(asked, made.pieces, seed)


@pytest.mark.parametrize("total", range(2, 21))
def test_ways_are_all_pairs_that_make_the_whole(total):
    """By brute force over all pairs; total + 1 with zero, total - 1 without (ordered decompositions)."""
    every = {(a, b) for a, b in product(range(total + 1), repeat=2) if a + b == total}
    assert set(ways(total, zero=True)) == every
    assert set(ways(total, zero=False)) == {pair for pair in every if 0 not in pair}
    assert (len(ways(total, zero=True)), len(ways(total, zero=False))) == (total + 1, total - 1)


@FEW
@given(sets(unknown="part"))
def test_every_part_is_asked_for_once_and_sides_are_even(made):
    """Each number that can be a part is the answer of one card; left and right differ by one at most."""
    total, zero = made.asked.settings.total, made.asked.settings.zero
    facts = [piece.facts for piece in made.pieces]
    asked = [fact.parts[0 if fact.unknown == "left" else 1] for fact in facts]
    assert sorted(asked) == list(range(0 if zero else 1, total + (1 if zero else 0)))
    left = sum(fact.unknown == "left" for fact in facts)
    assert abs(2 * left - len(facts)) <= 1
    assert all(sum(fact.parts) == fact.whole == total for fact in facts)


@FEW
@given(sets(unknown="both"))
def test_open_cards_list_every_way_behind(made):
    """A card for each whole up to the total; the back says as many sums as there are ways, all true."""
    settings_ = made.asked.settings
    assert [piece.facts.whole for piece in made.pieces] == list(range(2, settings_.total + 1))
    written = made.asked.child.numerals.written
    for piece in made.pieces:
        assert piece.facts.parts is None
        assert piece.facts.ways == ways(piece.facts.whole, zero=settings_.zero)
        said = [text.run.text for text in faces.texts(piece.back)]
        told = list(zip(said[::3], said[1::3], said[2::3], strict=True))
        assert told == [(written(str(a)), "+", written(str(b))) for a, b in piece.facts.ways]


@FEW
@given(sets())
def test_frames_hold_what_is_known_and_nothing_else(made):
    """Whole, left and right: as many things or rings, or the numeral; nothing where it is asked for."""
    written = made.asked.child.numerals.written
    for piece in made.pieces:
        facts = piece.facts
        parts = facts.parts or (None, None)
        numbers = {"whole": facts.whole, "left": parts[0], "right": parts[1]}
        asked = ("left", "right") if facts.unknown == "both" else (facts.unknown,)
        known = [n for name, n in numbers.items() if name not in asked]
        if facts.shown == "numerals":
            assert [text.run.text for text in faces.texts(piece.front)] == [written(str(n)) for n in known]
        else:
            kind = Picture if facts.shown == "things" else Dot
            shown = [mark.bounds() for mark in piece.front.marks if isinstance(mark, kind)]
            assert len(shown) == sum(known)
            assert not any(a.meets(b) for a, b in combinations(shown, 2))
            areas = piece.front.areas
            held = [sum(area.box.holds(box, faces.NEAR) for box in shown) for area in areas]
            assert sum(held) == len(shown)
            if facts.shown == "things":
                assert held == [area.things for area in areas]


@FEW
@given(sets())
def test_cards_keep_their_distances(made):
    """Hairline and content keep clear of the cut and the set mark; cards fit the sheet."""
    for piece in made.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=True)
        assert turned_to_fit(piece, room_of(made.asked)) is not None


@FEW
@given(sets(unknown="part"))
def test_the_back_tells_all_three_numbers(made):
    """Whole, left and right part in this order, each in its frame."""
    written = made.asked.child.numerals.written
    for piece in made.pieces:
        said = [text.run.text for text in faces.texts(piece.back)]
        assert said == [written(str(n)) for n in (piece.facts.whole, *piece.facts.parts)]


@pytest.mark.parametrize(
    ("child", "total"),
    [
        ({"numbers": [0, 0]}, 2),
        ({"numbers": [1, 7]}, 7),
        ({"numbers": [40, 60]}, 10),
        ({"numbers": [1, 20], "sums_to": 5}, 5),
        ({"sums_to": 100}, 10),
    ],
)
def test_without_a_total_it_is_the_childs(child, total):
    """Sums, else the last number, from 2 to 10 (bonds to 10: EYFS goal 'Number')."""
    assert {piece.facts.whole for piece in made_of(tray("part-whole", child)).pieces} == {total}


@pytest.mark.parametrize(
    ("keys", "found", "allowed"),
    [
        (
            {"total": 20, "size": "small"},
            "20 things of 5 mm and their parts do not fit a card of 62 x 62 mm",
            "total = 3 or less, a larger card or show = 'numerals'",
        ),
        (
            {"total": 12, "show": "places", "size": "large"},
            "12 places of 24 mm and their parts do not fit a card of 125 x 94 mm",
            "total = 2 or less, a larger card or show = 'numerals'",
        ),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_told(keys, found, allowed):
    """The sentence says which totals would do, and what else."""
    (problem,) = made_of(tray("part-whole", {"paper": "a4"}, **keys)).problems
    assert (problem.found, problem.allowed) == (found, allowed)
