"""The rules by which things take turns: what is out in which week."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.planner.model import AREAS
from printkit.planner.rotation import A_WEEK, FEW, MOST, STAY, Thing, arrivals, calm_weeks, coming, turns

WEEKS = st.integers(1, 20)


@st.composite
def shelves(draw, most=26):
    """Things of any areas and steps, with names that differ."""
    areas = draw(st.lists(st.sampled_from(AREAS), max_size=most))
    return tuple(
        Thing(name=f"{area} {number}", area=area, step=(draw(st.integers(0, 4)), number))
        for number, area in enumerate(areas)
    )


def first_week(found, name):
    """The number of the week in which a thing comes."""
    return next(number for number, turn in enumerate(found, 1) if name in turn.new)


def area_of(things):
    """The area of each thing by its name."""
    return {thing.name: thing.area for thing in things}


@given(shelves(), WEEKS)
def test_everything_is_out_and_new_once(things, weeks):
    """Each thing is new in exactly one week, and there are as many weeks as asked for."""
    found = turns(things, weeks)

    assert len(found) == weeks
    assert sorted(name for turn in found for name in turn.new) == sorted(thing.name for thing in things)


@given(shelves(), WEEKS)
def test_what_is_out_follows_from_what_comes_and_goes(things, weeks):
    """Each week's shelf is last week's with what is new or back, less what goes; only what is there goes."""
    before: set[str] = set()
    for turn in turns(things, weeks):
        came = set(turn.new) | set(turn.back)
        assert set(turn.away) <= before | came
        assert set(turn.out) == (before | came) - set(turn.away)
        assert len(turn.out) == len(set(turn.out))
        assert not came & set(turn.away)
        before = set(turn.out)


@given(shelves(), WEEKS)
def test_nothing_comes_before_what_is_easier(things, weeks):
    """Within an area things come in the order of their steps, and sums not before the first of counting."""
    found = turns(things, weeks)
    for area in AREAS:
        own = sorted((thing for thing in things if thing.area == area), key=lambda thing: thing.step)
        came = [first_week(found, thing.name) for thing in own]
        assert came == sorted(came)
    order = [area_of(things)[name] for turn in found for name in turn.new]
    if {"counting", "operations"} <= set(order):
        assert order.index("counting") < order.index("operations")


@given(shelves(), WEEKS)
def test_no_more_are_out_than_a_shelf_holds(things, weeks):
    """At most seven are out at once, or as many as come at once where there are more than seven a week."""
    found = turns(things, weeks)
    most = max(MOST, *(len(turn.new) for turn in found))

    assert all(len(turn.out) <= most for turn in found)
    assert len(things) > MOST * max(1, weeks - 1) or most == MOST


@given(shelves(), WEEKS)
def test_no_area_is_left_empty_where_two_a_week_come(things, weeks):
    """With time for all, an area that was opened has something out in every week after."""
    found = turns(things, weeks)
    areas = area_of(things)
    if calm_weeks(len(things)) > weeks:
        return
    opened: set[str] = set()
    for turn in found:
        opened |= {areas[name] for name in turn.new}
        assert opened <= {areas[name] for name in turn.out}


@given(shelves(), WEEKS)
def test_what_comes_stays_for_two_weeks_where_two_a_week_come(things, weeks):
    """With time for all, whatever comes stays for two weeks, unless an area would be left empty.

    A thing goes after one week only where everything that was out longer is the last of its area.
    """
    found = turns(things, weeks)
    areas = area_of(things)
    if calm_weeks(len(things)) > weeks:
        return
    for number, turn in enumerate(found, 1):
        for name in turn.away:
            if number - first_week(found, name) < STAY and name not in turn.back:
                longer = [other for other in turn.out if number - first_week(found, other) >= STAY]
                assert all([areas[out] for out in turn.out].count(areas[other]) == 1 for other in longer)


@given(shelves(most=18), st.integers(3, 20))
def test_the_last_week_has_favorites_and_nothing_new(things, weeks):
    """Of three weeks or more the last has nothing new; what comes back takes the place of its own area."""
    found = turns(things, weeks)
    areas = area_of(things)
    last = found[-1]

    assert last.new == ()
    assert len(last.back) == len(last.away) <= 2
    assert [areas[name] for name in last.back] == [areas[name] for name in last.away]
    assert all(turn.back == () for turn in found[:-1])


@given(st.integers(0, FEW), WEEKS)
def test_few_things_are_all_out_from_the_start(count, weeks):
    """Five or fewer all come in the first week and never go."""
    things = [Thing(name=str(number), area="counting", step=(number,)) for number in range(count)]

    assert all(len(turn.out) == count and not turn.away for turn in turns(things, weeks))


@given(st.integers(0, 120), WEEKS)
def test_arrivals_add_up_and_keep_the_pace(count, weeks):
    """All come; with time for all four or five come first, then two a week at most, and none in the last."""
    found = arrivals(count, weeks)

    assert len(found) == weeks
    assert sum(found) == count
    if weeks > 2 and count > FEW:
        assert found[-1] == 0
    if calm_weeks(count) <= weeks:
        assert found[0] <= FEW
        assert all(number <= A_WEEK for number in found[1:])


@given(st.integers(0, 120))
def test_calm_weeks_are_the_least(count):
    """A week fewer than the calm number would bring more than five, or more than two, at once."""
    calm = calm_weeks(count)
    for weeks in range(1, calm):
        found = arrivals(count, weeks)
        assert found[0] > FEW or max(found[1:], default=0) > A_WEEK


@given(shelves())
def test_areas_are_opened_first_and_then_shared_evenly(things):
    """The first things are one of each area; after that no area runs ahead of another by much."""
    order = coming(things)
    areas = [thing.area for thing in order]
    kinds = set(areas)

    assert sorted(thing.name for thing in order) == sorted(thing.name for thing in things)
    assert set(areas[: len(kinds)]) == kinds
    for end in range(len(kinds), len(areas) + 1):
        shares = [Fraction(areas[:end].count(kind), areas.count(kind)) for kind in kinds]
        least = min((areas.count(kind) for kind in kinds), default=1)
        assert max(shares, default=0) - min(shares, default=0) <= Fraction(1, least)


@pytest.mark.parametrize(
    ("count", "weeks", "expected"),
    [
        (5, 6, (5, 0, 0, 0, 0, 0)),
        (6, 6, (4, 1, 0, 1, 0, 0)),
        (11, 6, (4, 2, 2, 2, 1, 0)),
        (13, 6, (5, 2, 2, 2, 2, 0)),
        (20, 6, (5, 4, 4, 4, 3, 0)),
        (11, 2, (6, 5)),
        (9, 1, (9,)),
        (12, 3, (6, 6, 0)),
    ],
)
def test_arrivals_by_hand(count, weeks, expected):
    """Counts worked out by hand from the rules."""
    assert arrivals(count, weeks) == expected


def test_a_season_by_hand():
    """Eight things in five weeks, as the rules say on paper."""
    things = [
        Thing(name="count", area="counting", step=(0,)),
        Thing(name="clip", area="counting", step=(1,)),
        Thing(name="frames", area="counting", step=(2,)),
        Thing(name="odd", area="looking", step=(0,)),
        Thing(name="match", area="looking", step=(1,)),
        Thing(name="lace", area="hands", step=(0,)),
        Thing(name="path", area="writing", step=(0,)),
        Thing(name="sums", area="operations", step=(0,)),
    ]
    found = turns(things, 5)

    assert [turn.new for turn in found] == [
        ("count", "odd", "lace", "path"),
        ("sums", "clip"),
        ("match",),
        ("frames",),
        (),
    ]
    assert [turn.away for turn in found] == [(), (), ("count",), ("odd",), ("clip", "match")]
    assert found[4].back == ("count", "odd")
