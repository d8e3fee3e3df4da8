"""A week of all children -> its days: one new tray a child a day, and as few a day as can be."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from printkit.planner.model import ChildPlan, Move, Season, Week

DAYS = 5
_REST = 2
"""Days from one new tray to a child's next, if the week has room (design choice)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Event:
    """What happens on one day for one child: shown for the first time, back again, into the basket."""

    child: str
    new: tuple[Move, ...] = ()
    back: tuple[Move, ...] = ()
    away: tuple[Move, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Day:
    """A day from 1 (Monday) to 5 (Friday)."""

    number: int
    events: tuple[Event, ...] = ()


def days(plan: Season, number: int) -> tuple[Day, ...]:
    """The five days of a week.

    New trays are shared out so that as few as possible meet on one day, with a day between two of one
    child where that can be. What they take the place of goes on the same day; favorites come back on
    Monday. In the first week the first tray is there on Monday; later Monday has nothing new if the
    other days can take it.
    """
    found: dict[int, list[Event]] = {day: [] for day in range(1, DAYS + 1)}
    loads = [0] * DAYS
    for child in plan.children:
        week = child.weeks[number - 1]
        events = _events(child, week)
        slots = _slots(len(events), loads, first=number == 1)
        for event, slot in zip(events, slots, strict=True):
            loads[slot] += 1
            found[slot + 1].append(event)
        rest = _with_monday(child, week, shown=bool(events))
        if rest is not None:
            found[1].insert(0, rest)
    return tuple(Day(number=day, events=tuple(events)) for day, events in found.items())


def _grouped(moves: Sequence[Move]) -> list[list[Move]]:
    """Moves with what goes together with them; standing sets are left out."""
    groups: list[list[Move]] = []
    for move in moves:
        if move.reason.key == "together" and groups:
            groups[-1].append(move)
        elif move.reason.key != "stands":
            groups.append([move])
    return groups


def _events(child: ChildPlan, week: Week) -> list[Event]:
    """One event for each new tray, with what goes in its place: of its own area first."""
    new, away = _grouped(week.new), _grouped(week.away)
    if not new:
        return []
    places: list[list[Move]] = [[] for _ in new]
    areas = dict(child.areas)
    for group in away:
        area = areas[group[0].set]
        free = [i for i in range(len(new)) if not places[i]]
        own = [i for i in free if areas[new[i][0].set] == area]
        place = next(iter([*own, *free]), len(new) - 1)
        places[place] += group
    return [
        Event(child=child.child, new=tuple(group), away=tuple(gone))
        for group, gone in zip(new, places, strict=True)
    ]


def _with_monday(child: ChildPlan, week: Week, *, shown: bool) -> Event | None:
    """What is done on Monday without showing anything: standing sets, favorites that come back."""
    standing = tuple(move for move in week.new if move.reason.key == "stands")
    away = () if shown else week.away
    if not (standing or week.back or away):
        return None
    return Event(child=child.child, new=standing, back=week.back, away=away)


def _slots(count: int, loads: Sequence[int], *, first: bool) -> tuple[int, ...]:
    """The days of a child's new trays, counted from 0."""
    if count > DAYS:
        return tuple(number * DAYS // count for number in range(count))

    def cost(days: tuple[int, ...]) -> tuple:
        apart = min((b - a for a, b in zip(days, days[1:], strict=False)), default=_REST)
        monday = (0 in days) != first
        return (sum(loads[day] for day in days), -min(apart, _REST), monday, days)

    return min(combinations(range(DAYS), count), key=cost)
