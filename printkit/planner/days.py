"""A week of all children -> its days: one new tray a child a day, and as few a day as can be."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise

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
        found[1] += _quiet(child, week)
        events = _paired(child, week.new, week.away)
        slots = _slots(len(events), loads, first=number == 1)
        for event, slot in zip(events, slots, strict=True):
            loads[slot] += 1
            found[slot + 1].append(event)
    return tuple(Day(number=day, events=tuple(events)) for day, events in found.items())


def still_out(event: Event, later: Sequence[Day]) -> Event:
    """The event with what is out at the end of its own day in the reasons of what goes.

    Reasons tell how a week ends; `later` are the days of the week that follow the event's. What goes only
    then is still out, what comes only then is not yet.
    """
    own = [other for day in later for other in day.events if other.child == event.child]
    goes = [move for other in own for move in other.away if move.reason.key == "makes_room"]
    comes = {move.set for other in own for move in (*other.new, *other.back)}

    def true(move: Move) -> Move:
        if move.reason.key != "makes_room":
            return move
        stay = [other.set for other in goes if other.reason.area == move.reason.area]
        others = (*stay, *(name for name in move.reason.others if name not in comes))
        return replace(move, reason=replace(move.reason, others=others))

    return replace(event, away=tuple(true(move) for move in event.away))


def leaving(plan: Season, number: int, child: str) -> dict[str, int]:
    """The sets of a child that are out for some days of a week only, with the day on which they go."""
    return {
        move.set: day.number
        for day in days(plan, number)[1:]
        for event in day.events
        if event.child == child
        for move in event.away
    }


def _grouped(moves: Sequence[Move]) -> list[list[Move]]:
    """Moves with what goes together with them; standing sets are left out."""
    groups: list[list[Move]] = []
    for move in moves:
        if move.reason.key == "together" and groups:
            groups[-1].append(move)
        elif move.reason.key != "stands":
            groups.append([move])
    return groups


def _paired(child: ChildPlan, comes: Sequence[Move], goes: Sequence[Move]) -> list[Event]:
    """One event for each tray that comes, with what goes in its place: of its own area first."""
    groups, away = _grouped(comes), _grouped(goes)
    if not groups:
        return []
    places: list[list[Move]] = [[] for _ in groups]
    areas = dict(child.areas)
    for gone in away:
        free = [i for i in range(len(groups)) if not places[i]]
        own = [i for i in free if areas[groups[i][0].set] == areas[gone[0].set]]
        places[next(iter([*own, *free]), len(groups) - 1)] += gone
    return [
        Event(
            child=child.child,
            new=tuple(move for move in group if group[0].reason.key != "favorite"),
            back=tuple(move for move in group if group[0].reason.key == "favorite"),
            away=tuple(gone),
        )
        for group, gone in zip(groups, places, strict=True)
    ]


def _quiet(child: ChildPlan, week: Week) -> list[Event]:
    """What is done on Monday without showing anything: standing sets go up, favorites come back."""
    standing = [move for move in week.new if move.reason.key == "stands"]
    up = [Event(child=child.child, new=(move,)) for move in standing]
    return [*up, *_paired(child, week.back, week.away)]


def _slots(count: int, loads: Sequence[int], *, first: bool) -> tuple[int, ...]:
    """The days of a child's new trays, counted from 0."""
    if count > DAYS:
        return tuple(number * DAYS // count for number in range(count))

    def cost(days: tuple[int, ...]) -> tuple:
        apart = min((b - a for a, b in pairwise(days)), default=_REST)
        monday = (0 in days) != first
        return (sum(loads[day] for day in days), -min(apart, _REST), monday, days)

    return min(combinations(range(DAYS), count), key=cost)
