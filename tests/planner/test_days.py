"""The days of a week: when what is shown."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from printkit.planner import ChildPlan, Move, Reason, Season, Week
from printkit.planner.days import DAYS, days, still_out


def move(name, key="follows"):
    """A move of a set, of no importance why."""
    return Move(set=name, reason=Reason(key=key, area="counting"))


def plan(new, back=0, away=0, number=2):
    """A plan of children with so many new sets each in that week."""
    children = []
    for child, count in enumerate(new):
        week = Week(
            number=number,
            new=tuple(move(f"new {n}") for n in range(count)),
            back=tuple(move(f"back {n}", "favorite") for n in range(back)),
            away=tuple(move(f"away {n}", "makes_room") for n in range(away)),
        )
        names = [item.set for item in (*week.new, *week.back, *week.away)]
        weeks = (*(Week(number=n) for n in range(1, number)), week)
        areas = tuple((name, "counting") for name in names)
        children.append(ChildPlan(child=f"child {child}", weeks=weeks, areas=areas))
    return Season(children=tuple(children))


@given(st.lists(st.integers(0, 9), min_size=1, max_size=5), st.integers(0, 4), st.integers(1, 3))
def test_every_move_has_one_day(new, away, number):
    """All that comes and goes in a week has a day, once; what goes does so when something comes."""
    found = days(plan(new, away=away, number=number), number)
    for child, count in enumerate(new):
        events = [event for day in found for event in day.events if event.child == f"child {child}"]
        assert [item.set for event in events for item in event.new] == [f"new {n}" for n in range(count)]
        gone = sorted(item.set for event in events for item in event.away)
        assert gone == ([f"away {n}" for n in range(away)] if count else [])


@given(st.lists(st.integers(0, DAYS), min_size=1, max_size=5), st.integers(1, 3))
def test_a_child_is_shown_one_new_tray_a_day(new, number):
    """Up to five new trays of a child fall on five different days."""
    for day in days(plan(new, number=number), number):
        children = [event.child for event in day.events]
        assert len(children) == len(set(children))


@given(st.lists(st.integers(0, 2), min_size=1, max_size=5).filter(lambda new: sum(new) <= DAYS))
def test_a_family_is_shown_one_new_tray_a_day_where_five_days_suffice(new):
    """Five new trays or fewer of all children together fall on different days."""
    assert all(len(day.events) <= 1 for day in days(plan(new), 2))


def test_two_new_trays_leave_monday_and_a_day_between():
    """Two new trays come on Tuesday and Thursday; in the first week the first one is there on Monday."""
    assert [len(day.events) for day in days(plan([2]), 2)] == [0, 1, 0, 1, 0]
    assert [len(day.events) for day in days(plan([2], number=1), 1)] == [1, 0, 1, 0, 0]


def test_favorites_come_back_on_monday_with_what_they_replace():
    """Each favorite is an event of its own on Monday, and takes the place of one tray."""
    monday = days(plan([0], back=2, away=2), 2)[0]

    assert [[item.set for item in (*event.back, *event.away)] for event in monday.events] == [
        ["back 0", "away 0"],
        ["back 1", "away 1"],
    ]


def test_what_goes_only_later_in_the_week_is_still_out():
    """On Tuesday a set that leaves on Thursday counts as out, one that comes on Thursday does not."""

    def gone(name):
        return Move(set=name, reason=Reason(key="makes_room", area="counting", others=("new 0", "new 1")))

    week = replace(plan([2]).children[0].weeks[1], away=(gone("away 0"), gone("away 1")))
    child = replace(plan([2], away=2).children[0], weeks=(Week(number=1), week))
    found = days(Season(children=(child,)), 2)
    told = [
        [move.reason.others for event in day.events for move in still_out(event, found[n:]).away]
        for n, day in enumerate(found, 1)
    ]

    assert told == [[], [("away 1", "new 0")], [], [("new 0", "new 1")], []]
