"""Chance hangs on names only, is the same everywhere, and favours nobody."""

from collections import Counter
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.chance import Chance

seeds = st.integers(0, 2**63 - 1)
names = st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\x1f"), max_size=8), max_size=4)


def first(source: Chance, count: int = 5) -> list[float]:
    """The next few numbers of a source."""
    return [source.share() for _ in range(count)]


@given(seeds, names)
def test_the_same_names_give_the_same_numbers(seed, called):
    """A source is made anew from seed and names, and tells the same again."""
    assert first(Chance(seed, *called)) == first(Chance(seed, *called))


@given(seeds, names, names)
def test_other_names_give_other_numbers(seed, called, others):
    """Another child, set or piece has numbers of its own; where one name ends counts too."""
    same = called == others
    assert (first(Chance(seed, *called)) == first(Chance(seed, *others))) == same


def test_names_are_not_run_together():
    """('ab', 'c') and ('a', 'bc') are two sources."""
    assert first(Chance(7, "ab", "c")) != first(Chance(7, "a", "bc"))


def test_the_seed_counts():
    """Another seed is another pack."""
    assert first(Chance(7, "Wren")) != first(Chance(8, "Wren"))


def test_numbers_are_the_same_in_every_version():
    """SHA-256 of the names seeds the generator, whose random() is stable (docs of `random`).

    The values were computed once with CPython 3.11.
    """
    assert [round(value, 12) for value in first(Chance(7, "Wren", "counting-cards", "4"), 3)] == [
        0.325135991553,
        0.681400329829,
        0.649428414313,
    ]


@given(seeds, st.integers(0, 5))
def test_another_source_by_name_does_not_move_this_one(seed, before):
    """`again` gives the same source however far this one has gone, and takes nothing from it."""
    one, two = Chance(seed, "Wren"), Chance(seed, "Wren")
    first(one, before)
    first(two, before)
    assert first(one.again("places")) == first(Chance(seed, "Wren", "places"))
    assert first(one) == first(two)


@given(seeds, st.integers(1, 50))
def test_below_stays_below(seed, count):
    """A whole number from 0 to count - 1."""
    drawn = [Chance(seed, "Wren", str(n)).below(count) for n in range(20)]
    assert all(isinstance(value, int) and 0 <= value < count for value in drawn)


@given(seeds, st.floats(-100, 100), st.floats(0, 100))
def test_between_stays_between(seed, low, width):
    """A number from low to high, both included."""
    value = Chance(seed, "Wren").between(low, low + width)
    assert low <= value <= low + width


@given(seeds, st.lists(st.integers(), max_size=20))
def test_shuffling_keeps_every_item(seed, items):
    """The same items in some order; what was given stays as it was."""
    given_items = list(items)
    assert Counter(Chance(seed, "Wren").shuffled(items)) == Counter(items)
    assert items == given_items


@given(seeds, st.lists(st.integers(), min_size=1, max_size=9))
def test_a_choice_is_one_of_the_items(seed, items):
    """Only what is there can be chosen."""
    assert Chance(seed, "Wren").choice(items) in items


@pytest.mark.parametrize("count", [2, 3, 7])
def test_all_numbers_come_up_about_equally_often(count):
    """Over 3000 pieces chi-square of `below` stays under its 0.999 quantile (tables of chi-square)."""
    drawn = Counter(Chance(0, "Wren", str(n)).below(count) for n in range(3000))
    expected = 3000 / count
    chi = sum((drawn[value] - expected) ** 2 / expected for value in range(count))
    assert chi < {2: 10.83, 3: 13.82, 7: 22.46}[count]


def test_all_orders_come_up_about_equally_often():
    """Over 3000 pieces each of 6 orders is as likely (chi-square, 5 degrees, 0.999: 20.52)."""
    drawn = Counter(Chance(0, "Wren", str(n)).shuffled("abc") for n in range(3000))
    chi = sum((drawn[order] - 500) ** 2 / 500 for order in permutations("abc"))
    assert chi < 20.52
