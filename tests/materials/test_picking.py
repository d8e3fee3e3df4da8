"""Strips about doubles, one total or sums through ten, with a third that is known."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import made_of, tray

from printkit.chance import Chance
from printkit.materials.strips.facts import facts_within
from printkit.materials.strips.picking import PICKS, Picking, none_picked, picked_facts


def picking(most: int, operation: str, pick: str, known: int | None = None) -> Picking:
    """What a tray asks for."""
    return Picking(most=most, operation=operation, pick=pick, known=known, zero=False)


# Closed counts: 36 ordered sums of two one-digit numbers are beyond ten; 10 doubles; n - 1 ways to make n.
@pytest.mark.parametrize(
    ("pick", "most", "count"),
    [("through-ten", 20, 36), ("doubles", 20, 10), ("exact", 10, 9), ("any", 10, 45)],
)
@pytest.mark.parametrize("operation", ["add", "subtract"])
def test_facts_are_as_many_as_counted(pick, most, count, operation):
    """Sums and differences of each pick are complete: their number is known."""
    facts = picking(most, operation, pick).picked(operation)

    assert len(set(facts)) == len(facts) == count


def test_what_is_picked_is_so():
    """Doubles have like parts, a total is always the same, through ten starts and ends on its two sides."""
    for operation in ("add", "subtract"):
        for fact in picking(20, operation, "doubles").picked(operation):
            assert 2 * (fact.b) == fact.whole
        for fact in picking(7, operation, "exact").picked(operation):
            assert fact.whole == 7
        for fact in picking(20, operation, "through-ten").picked(operation):
            assert fact.whole > 10 > max(fact.whole - fact.b, fact.b)


@given(
    st.integers(11, 30), st.sampled_from(["add", "subtract", "both"]), st.sampled_from(PICKS),
    st.integers(2, 10), st.integers(3, 40), st.booleans(),
)  # fmt: skip
def test_a_third_stays_within_what_is_known(most, operation, pick, known, count, shuffled):
    """Of any number of strips a third is within the known sum, the rest picked and beyond it."""
    asked = picking(most, operation, pick, known)
    facts = picked_facts(asked, count, 12, shuffled=shuffled, chance=Chance(1, "Wren"))
    sure = [fact for fact in facts if fact.whole <= known]

    assert len(facts) == count
    assert len(sure) == -(-count // 3)
    assert all(fact in asked.picked(fact.operation) for fact in facts if fact.whole > known)
    assert shuffled or list(facts[: len(sure)]) == sure


def test_a_known_sum_that_leaves_nothing_new_is_left_out():
    """Where all is known there is no third to keep."""
    facts = picked_facts(picking(5, "add", "any", 5), None, 12, shuffled=False, chance=Chance(1, "Wren"))

    assert set(facts) == set(facts_within(5, "add", zero=False))


def test_few_facts_come_once():
    """Unasked there are no more strips than facts: five new doubles, and three known ones."""
    facts = picked_facts(
        picking(20, "add", "doubles", 10), None, 12, shuffled=False, chance=Chance(1, "Wren")
    )

    assert [fact.whole > 10 for fact in facts] == [False] * 3 + [True] * 5
    assert {fact.a for fact in facts if fact.whole > 10} == {6, 7, 8, 9, 10}


def test_nothing_goes_through_ten_within_ten():
    """Sums to 10 are refused in words, sums to 11 are not."""
    assert none_picked(picking(10, "both", "through-ten"))[0] == "pick"
    assert none_picked(picking(11, "both", "through-ten")) is None


def test_strips_carry_what_was_picked():
    """The pieces of a tray are the facts that were asked for."""
    made = made_of(tray("strips", {"sums_to": 20}, pick="through-ten", known=10, operation="both"))
    wholes = [max(piece.facts.a, piece.facts.result) for piece in made.pieces]

    assert len(made.pieces) == 12
    assert sum(whole <= 10 for whole in wholes) == 4
