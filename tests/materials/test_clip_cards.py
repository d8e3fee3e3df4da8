"""Clip cards: neighbours to choose from, zones a peg fits, a control behind the right one."""

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.materials.clip_cards import allowed_places
from printkit.pieces import Dot
from printkit.sheets import turned_to_fit
from printkit.units import Rect

NEAR = faces.NEAR
FEW = settings(max_examples=25)


@st.composite
def sets(draw):
    """A tray of clip cards that can be made, and what it makes."""
    arrange = draw(st.just("auto") | faces.arrangements())
    child = draw(faces.children(numbers=draw(faces.numbers_for(arrange))))
    choices = draw(st.sampled_from((3, 4)))
    asked = tray("clip-cards", child, arrange=arrange, choices=choices)
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assume(made.pieces)  # long lines do not fit small papers
    return faces.Set(asked, made.pieces, seed)


@FEW
@given(sets())
def test_choices_are_rising_neighbours_that_hold_the_answer(made):
    """The numerals rise by one and the things' number stands at `answer`."""
    asked, pieces, _ = made
    for piece in pieces:
        facts = piece.facts
        assert len(facts.choices) == asked.settings.choices
        assert {after - before for before, after in pairwise(facts.choices)} == {1}
        assert facts.choices[facts.answer] == facts.quantity
        assert [int(text.run.text) for text in faces.numerals(piece.front)] == list(facts.choices)


@FEW
@given(sets())
def test_choices_leave_the_range_by_little_and_never_go_below_one(made):
    """At most choices - 1 beyond the range; 0 is a choice only where the child's numbers hold it."""
    asked, pieces, _ = made
    first, last = asked.child.numbers
    beyond = asked.settings.choices - 1
    for piece in pieces:
        assert first - beyond <= min(piece.facts.choices)
        assert max(piece.facts.choices) <= last + beyond
        assert min(piece.facts.choices) >= (0 if first == 0 else 1)


@FEW
@given(sets())
def test_the_number_of_things_is_what_is_asked_for(made):
    """Each number has a card for each way of lying, and shows that many things alone in their place."""
    asked, pieces, _ = made
    first, last = asked.child.numbers
    wanted = Counter(range(first, last + 1))
    assert Counter(piece.facts.quantity for piece in pieces) == Counter(
        {number: count * len(asked.settings.arrange) for number, count in wanted.items()}
    )
    for piece in pieces:
        (area,) = piece.front.areas
        shown = faces.pictures(piece.front)
        assert area.things == piece.facts.quantity == len(shown)
        assert all(area.box.holds(picture.bounds(), NEAR) for picture in shown)
        assert area.ground == ("frame" if piece.facts.arrangement == "frame" else "none")


@FEW
@given(sets())
def test_zones_are_far_enough_apart_and_deep_enough(made):
    """Zones lie side by side on the lower edge, 20 mm or more from middle to middle, 12 mm deep or more.

    20 mm: a peg of 10 mm (metric pegs, from memory) and an error of 5 mm to either side (derived).
    """
    for piece in made.pieces:
        assert len(piece.zones) == len(piece.facts.choices)
        for one, two in pairwise(piece.zones):
            assert (two.left + two.width / 2) - (one.left + one.width / 2) >= 20 - NEAR
            assert two.left >= one.right - NEAR
        for zone in piece.zones:
            assert abs(zone.bottom - piece.height) < NEAR
            assert zone.height >= 12
            assert zone.left >= 0
            assert zone.right <= piece.width


@FEW
@given(sets())
def test_each_numeral_stands_above_its_own_zone(made):
    """A numeral is no wider than its zone and not covered by the jaws; a ring shows where they go."""
    for piece in made.pieces:
        rings = sorted(mark.x for mark in piece.front.marks if isinstance(mark, Dot))
        shown = faces.numerals(piece.front)
        for text, zone, x in zip(shown, piece.zones, rings, strict=True):
            box = text.bounds()
            assert zone.left < box.left
            assert box.right < zone.right
            assert box.bottom < zone.top
            assert abs(x - (zone.left + zone.width / 2)) < NEAR
        assert max(text.run.size for text in shown) == min(text.run.size for text in shown)


@FEW
@given(sets())
def test_the_control_lies_behind_the_zone_of_the_answer(made):
    """Turned like a page, the bar on the back lies behind the right zone only, beside and below a peg.

    16 mm wide or more, from 10 to 25 mm inside the edge: pegs are 7 to 15 mm wide and cover the outer
    10 to 20 mm of a card (from memory).
    """
    for piece in made.pieces:
        control = piece.control
        seen = Rect(piece.width - control.right, control.top, control.width, control.height)
        zone = piece.zones[piece.facts.answer]
        assert zone.left - NEAR <= seen.left
        assert seen.right <= zone.right + NEAR
        assert control.width >= 16
        assert abs(piece.height - control.bottom - 10) < NEAR
        assert abs(piece.height - control.top - 25) < NEAR
        assert piece.facts.choices[piece.facts.answer] == piece.facts.quantity
        inked = [mark for mark in piece.back.marks if not faces.is_hairline(mark, piece)]
        assert inked
        assert all(control.inset(-0.2).holds(mark.bounds(), NEAR) for mark in inked)


@FEW
@given(sets())
def test_fronts_keep_their_distance_from_the_cut(made):
    """The hairline keeps 4 mm, all else 6 mm, numerals stand on rules, and the card fits its sheet."""
    room = room_of(made.asked)
    for piece in made.pieces:
        faces.assert_inside(replace(piece, back=None))
        faces.assert_numerals_stand_on_rules(piece.front)
        assert turned_to_fit(piece, room) is not None


@FEW
@given(sets())
def test_backs_keep_their_distance_from_the_cut(made):
    """On the back too the hairline keeps 4 mm and all else 6 mm."""
    for piece in made.pieces:
        faces.assert_inside(piece)


@FEW
@given(sets())
def test_the_set_mark_has_its_corner_of_the_back(made):
    """Nothing is drawn where the small line that names the set will stand."""
    for piece in made.pieces:
        faces.assert_mark_is_clear(piece, backs=True)


@FEW
@given(sets())
def test_the_set_mark_has_a_corner_of_the_front_where_nothing_has_a_back(made):
    """With flip 'none' the mark stands on the front, and touches neither ring nor line there."""
    for piece in made.pieces:
        faces.assert_mark_is_clear(piece, backs=False)


@FEW
@given(sets())
def test_no_card_is_another_one_turned(made):
    """No face of the set equals another face turned by half a turn."""
    faces.assert_none_is_another_turned(made.pieces)


@FEW
@given(sets())
def test_things_are_of_one_size_and_ground_is_on_all_cards_or_none(made):
    """Nothing but the number tells one card from another; a light ground lies where a set holds 0."""
    asked, pieces, _ = made
    shown = [picture for piece in pieces for picture in faces.pictures(piece.front)]
    assert len({(picture.width, picture.height, picture.drawing) for picture in shown}) <= 1
    grounds = {faces.grounds(piece.front, piece) for piece in pieces}
    assert len(grounds) == 1
    assert len(grounds.pop()) == (asked.child.numbers[0] == 0)


# --- where the answers stand -----------------------------------------------------------------


def most_even(allowed: list[tuple[int, ...]], choices: int) -> int:
    """The least sum of squares of how often each place is used, by trying everything step by step."""
    reached = {(0,) * choices}
    for places in allowed:
        reached = {
            tuple(used + (place == chosen) for place, used in enumerate(uses))
            for uses in reached
            for chosen in places
        }
    return min(sum(used * used for used in uses) for uses in reached)


@pytest.mark.parametrize("choices", [3, 4])
@pytest.mark.parametrize(
    "numbers", [(1, 1), (1, 3), (1, 5), (0, 5), (1, 10), (0, 10), (2, 4), (5, 12), (95, 100)]
)
@pytest.mark.parametrize("seed", range(3))
def test_answers_stand_in_each_place_as_evenly_as_the_range_allows(numbers, choices, seed):
    """No other spread of the answers over the places is more even, with what 1 and 2 must leave out."""
    asked = tray("clip-cards", {"numbers": list(numbers)}, choices=choices)
    used = Counter(piece.facts.answer for piece in made_of(asked, seed).pieces)
    first, last = numbers
    allowed = [
        tuple(place for place in range(choices) if number - place >= min(first, 1))
        for number in range(first, last + 1)
    ]
    assert sum(count * count for count in used.values()) == most_even(allowed, choices)


def test_places_leave_out_what_would_lie_below_the_first_number():
    """1 can only stand first, unless the range holds 0."""
    assert allowed_places(1, 1, 3) == (0,)
    assert allowed_places(1, 0, 3) == (0, 1)
    assert allowed_places(0, 0, 3) == (0,)
    assert allowed_places(3, 3, 3) == (0, 1, 2)


# --- what cannot be made ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("child", "wanted", "said"),
    [
        ({"numbers": [5, 9]}, {"arrange": "dice"}, "7 to 9 cannot be laid as 'dice'"),
        ({"numbers": [4, 6]}, {"arrange": "array"}, "5 cannot be laid as 'array'"),
        ({}, {"motif": "disk"}, "the theme has no motif 'disk'"),
        ({}, {"size": [60, 60]}, "a card of this size has no room for 3 clothespins"),
        ({}, {"size": [70, 60], "choices": 4}, "a card of this size has no room for 4 clothespins"),
        ({"paper": "a5"}, {"size": [130, 130]}, "a piece of 130 x 130 mm is larger than the sheet"),
        ({"paper": "a4"}, {"size": [280, 60]}, "a piece of 280 x 60 mm is larger than the sheet"),
        (
            {"numbers": [1, 60]},
            {"size": "small"},
            "60 things of 5 mm or more do not fit a card of 88 x 62 mm",
        ),
    ],
)
def test_what_cannot_be_made_is_said(child, wanted, said):
    """Nothing is made, and the sentence names what is in the way."""
    made = made_of(tray("clip-cards", child, **wanted))
    assert made.pieces == ()
    assert [problem.found for problem in made.problems] == [said]


def test_a_near_word_is_offered_for_a_motif():
    """A motif that is spelled almost right is suggested."""
    (problem,) = made_of(tray("clip-cards", {}, motif="squares")).problems
    assert problem.nearest == "square"


def test_what_does_not_fit_is_told_apart_from_what_does():
    """With several ways to lie, the number named as too many is not also the one that is allowed."""
    child = {"paper": [130, 180], "numbers": [20, 20]}
    (problem,) = made_of(tray("clip-cards", child, arrange=["line", "frame"])).problems
    assert problem.found.startswith("20 things")
    assert not problem.allowed.startswith("at most 20")
