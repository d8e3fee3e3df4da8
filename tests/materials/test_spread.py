"""Places of answers: as even as can be, in no pattern that a child could learn instead of counting."""

from collections import Counter
from itertools import groupby, pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.chance import Chance
from printkit.materials.spread import spread_places


def chance(seed: int) -> Chance:
    """A source for one set."""
    return Chance(seed, "Wren", "clip-cards", "places")


def unevenness(places) -> int:
    """The sum of squares of how often each place is used: least where the uses are most even."""
    return sum(count * count for count in Counter(places).values())


def longest_run(places) -> int:
    """The most neighbours that share one place."""
    return max(len(list(run)) for _, run in groupby(places))


allowed_sets = st.lists(
    st.sets(st.integers(0, 3), min_size=1, max_size=4).map(lambda places: tuple(sorted(places))),
    min_size=1, max_size=6,
)  # fmt: skip


@given(allowed=allowed_sets, seed=st.integers(0, 99))
def test_every_piece_has_a_place_it_may_have(allowed, seed):
    """One place a piece, each from those allowed."""
    places = spread_places(allowed, chance(seed))
    assert len(places) == len(allowed)
    assert all(place in may for place, may in zip(places, allowed, strict=True))


@given(allowed=allowed_sets, seed=st.integers(0, 99))
def test_no_other_spread_is_more_even(allowed, seed):
    """Among all spreads that are allowed, tried one by one, none uses the places more evenly."""
    best = min(unevenness(places) for places in product(*allowed))
    assert unevenness(spread_places(allowed, chance(seed))) == best


@given(count=st.integers(1, 60), choices=st.integers(2, 4), seed=st.integers(0, 99))
def test_where_all_is_allowed_no_place_is_used_twice_more_than_another(count, choices, seed):
    """Over n pieces each of k places is used n/k times, rounded up or down."""
    uses = Counter(spread_places([tuple(range(choices))] * count, chance(seed)))
    counts = [uses[place] for place in range(choices)]
    assert sum(counts) == count
    assert max(counts) - min(counts) <= 1


@pytest.mark.parametrize("choices", [3, 4])
@pytest.mark.parametrize("count", [6, 8, 10, 12])
def test_answers_make_no_run_and_no_cycle(count, choices):
    """Of many sets none has three neighbours alike, a step that repeats all the way, or a cycle to 4."""
    for seed in range(40):
        places = spread_places([tuple(range(choices))] * count, chance(seed))
        assert longest_run(places) <= 2
        steps = {(after - before) % choices for before, after in pairwise(places)}
        assert len(steps) > 1
        for period in (1, 2, 3, 4):
            again = zip(places, places[period:], strict=False)
            assert count - period < 2 or any(one != two for one, two in again)


@pytest.mark.parametrize("count", [20, 40])
def test_long_sets_have_short_runs(count):
    """Also over many pieces no place comes more than three times in a row."""
    for seed in range(15):
        assert longest_run(spread_places([(0, 1, 2)] * count, chance(seed))) <= 3


@given(allowed=allowed_sets, seed=st.integers(0, 99))
def test_runs_are_no_longer_than_what_is_allowed_forces(allowed, seed):
    """A run of more than two occurs only where every most even spread has one (or one shorter)."""
    best = min(unevenness(places) for places in product(*allowed))
    forced = min(longest_run(places) for places in product(*allowed) if unevenness(places) == best)
    assert longest_run(spread_places(allowed, chance(seed))) <= max(2, forced + 1)


@given(allowed=allowed_sets, seed=st.integers(0, 99))
def test_places_hang_on_the_source_only(allowed, seed):
    """The same source gives the same places again."""
    assert spread_places(allowed, chance(seed)) == spread_places(allowed, chance(seed))


def test_sources_differ():
    """Children and sets have orders of their own."""
    orders = {spread_places([(0, 1, 2)] * 10, chance(seed)) for seed in range(20)}
    assert len(orders) >= 19


def test_nothing_has_no_places():
    """No pieces, no places."""
    assert spread_places([], chance(0)) == ()
