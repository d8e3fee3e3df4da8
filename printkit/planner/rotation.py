"""Which things are out in which week, by rule: names, areas and their order go in, weeks come out.

The rules, in the order in which they win over each other (design choices; that fewer trays are out than
there are, and that they take turns, is common practice):

1. Everything is out at least once.
2. Within an area nothing comes before what is easier; sums come no sooner than the first of counting.
3. Up to seven are out at once: four or five in the first week, one from each area first.
4. One or two new ones come a week, and as many go once six or seven are out.
5. No area that was opened is ever left empty.
6. Whatever comes stays for two weeks at least.
7. The longest out goes first, out of the area that has most out.
8. Of three weeks or more, the last has nothing new: up to two favorites come back instead.

Five or fewer are all out from the first week, and what fits on the shelf never goes. Where there are too
many things for the weeks, more than two come at once, and rules 5 and 6 bend before 1 to 3 do.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from printkit.planner.model import AREAS, Area

FEW = 5
"""So many are all out at once from the first week."""
FIRST = 4
MOST = 7
"""No more are out at once, unless there are more things than seven a week."""
A_WEEK = 2
"""New ones a week."""
STAY = 2
"""Weeks that whatever comes stays."""
FAVORITES = 2


@dataclass(frozen=True, kw_only=True, slots=True)
class Thing:
    """Something with a place on the shelf; `step` orders the things of an area, the easiest first."""

    name: str
    area: Area
    step: tuple[int, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Turn:
    """A week: names of what is new, what comes back, what goes, and all that is out."""

    new: tuple[str, ...] = ()
    back: tuple[str, ...] = ()
    away: tuple[str, ...] = ()
    out: tuple[str, ...] = ()


def coming(things: Sequence[Thing]) -> tuple[Thing, ...]:
    """The things in the order in which they come: each area opened first, then all areas evenly."""
    waiting = {
        area: sorted((thing for thing in things if thing.area == area), key=lambda thing: thing.step)
        for area in AREAS
    }
    totals = {area: len(found) for area, found in waiting.items()}
    order: list[Thing] = []
    while any(waiting.values()):
        placed = {area: totals[area] - len(found) for area, found in waiting.items()}
        held = {"operations"} if totals["counting"] and not placed["counting"] else set()
        area = min(
            (area for area, found in waiting.items() if found and area not in held),
            key=lambda area: (placed[area] > 0 and (placed[area] + 0.5) / totals[area], AREAS.index(area)),
        )
        order.append(waiting[area].pop(0))
    return tuple(order)


def arrivals(count: int, weeks: int) -> tuple[int, ...]:
    """How many of `count` things come in each of the weeks (rules 3, 4 and 8)."""
    opening = weeks if weeks <= 2 else weeks - 1
    if count <= FEW or opening == 1:
        return (count, *(0 for _ in range(weeks - 1)))
    usual = min(FEW, max(FIRST, count - A_WEEK * (opening - 1)))
    first = max(usual, -(-count // opening))
    rest, later = count - first, opening - 1
    found = [first, *(0 for _ in range(weeks - 1))]
    for number in range(rest):
        found[1 + number * later // rest] += 1
    return tuple(found)


def calm_weeks(count: int) -> int:
    """The least number of weeks in which at first no more than five, then no more than two things come."""

    def calm(found: tuple[int, ...]) -> bool:
        return found[0] <= FEW and all(number <= A_WEEK for number in found[1:])

    return next(weeks for weeks in range(1, count + 3) if calm(arrivals(count, weeks)))


def turns(things: Sequence[Thing], weeks: int) -> tuple[Turn, ...]:
    """The weeks of things by the rules above; names must differ. Pure, and the same every time."""
    order = coming(things)
    counts = arrivals(len(order), weeks)
    full = min(MOST, max(counts[0], FIRST) + A_WEEK)
    shelf = _Shelf(kept=(), rank={thing.name: number for number, thing in enumerate(order)})
    found: list[Turn] = []
    done = 0
    for number, count in enumerate(counts, 1):
        new = order[done : done + count]
        done += count
        if number == weeks and weeks > 2:
            turn, shelf = _favorites(shelf, order, number)
        else:
            turn, shelf = _week(shelf, new, number, full)
        found.append(turn)
    return tuple(found)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Shelf:
    """What is out, each with the week in which it came; `rank` is the order of coming."""

    kept: tuple[tuple[Thing, int], ...]
    rank: dict[str, int]

    def names(self) -> tuple[str, ...]:
        return tuple(thing.name for thing, _ in self.kept)

    def crowd(self, area: Area) -> int:
        """How many things of an area are out."""
        return sum(thing.area == area for thing, _ in self.kept)

    def without(self, gone: Thing) -> "_Shelf":
        return replace(self, kept=tuple(item for item in self.kept if item[0] != gone))

    def to_go(self, week: int, stayed: int, *, last_too: bool) -> Thing | None:
        """What goes in that week of those out for `stayed` weeks or more (rules 5 and 7)."""
        may = [
            (thing, since)
            for thing, since in self.kept
            if week - since >= stayed and (last_too or self.crowd(thing.area) > 1)
        ]
        return min(
            (item[0] for item in sorted(may, key=lambda item: (item[1], self.rank[item[0].name]))),
            key=lambda thing: -self.crowd(thing.area),
            default=None,
        )


def _week(shelf: _Shelf, new: Sequence[Thing], week: int, full: int) -> tuple[Turn, _Shelf]:
    shelf = replace(shelf, kept=(*shelf.kept, *((thing, week) for thing in new)))
    away: list[str] = []
    while len(shelf.kept) > full:
        gone = shelf.to_go(week, STAY, last_too=False)
        if gone is None and len(shelf.kept) > MOST:
            gone = shelf.to_go(week, 1, last_too=False) or shelf.to_go(week, 1, last_too=True)
        if gone is None:
            break
        away.append(gone.name)
        shelf = shelf.without(gone)
    names = tuple(thing.name for thing in new)
    return Turn(new=names, away=tuple(away), out=shelf.names()), shelf


def _favorites(shelf: _Shelf, order: Sequence[Thing], week: int) -> tuple[Turn, _Shelf]:
    """The last week: what was away longest comes back, each in the place of one of its own area."""
    back: list[str] = []
    away: list[str] = []
    out = set(shelf.names())
    for thing in order:
        if thing.name in out or len(back) == FAVORITES:
            continue
        places = [
            (since, shelf.rank[other.name], other)
            for other, since in shelf.kept
            if week - since >= STAY and other.name not in back and other.area == thing.area
        ]
        if places:
            gone = min(places, key=lambda item: item[:2])[2]
            back.append(thing.name)
            away.append(gone.name)
            shelf = shelf.without(gone)
            shelf = replace(shelf, kept=(*shelf.kept, (thing, week)))
    return Turn(back=tuple(back), away=tuple(away), out=shelf.names()), shelf
