"""Balanced trays for a child: which sets a new pack file has, by the numbers the child counts with.

The rule (a design choice; that sums follow counting, and that cutting, lacing and following ways go before
writing numerals, is common practice): a child who counts

- to 5 gets things to count, to compare by eye and to do with the hands, ways to follow, no sums;
- to 10 gets first sums with counters and pictures, and strips within 5;
- to 20 gets sums within 10 with tiles to lay, the number line, numerals to trace and to write;
- further gets the chart of a hundred, sums within 20 with any number missing, words to read.

Every child has two sets or more for each area but sums, which begin at 10: enough for five to seven on the
shelf and a basket to take turns with, and not more than six weeks take at two new ones a week.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from printkit.planner.model import AREAS, Area
from printkit.planner.rotation import Thing, calm_weeks, coming

_EXTRA = ("calendar", "tiles")
"""They take no place of their own on the shelf: one hangs, the other goes with the strips."""

TO_FIVE, TO_TEN, TO_TWENTY = 5, 10, 20


@dataclass(frozen=True, kw_only=True, slots=True)
class NewChild:
    """A child as a pack file begins with; `numbers` are the first and last number it counts with.

    `at_home`: the family's file has the child with its numbers, and `sums` if it says how far sums go.
    """

    name: str
    numbers: tuple[int, int]
    hand: Literal["left", "right"] = "right"
    at_home: bool = False
    sums: int | None = None

    @property
    def sums_to(self) -> int | None:
        """Addition and subtraction within; None before the child counts beyond 5, unless it is said."""
        last = self.numbers[1]
        if self.sums is not None:
            return self.sums
        if last <= TO_FIVE:
            return None
        return 5 if last <= TO_TEN else 10 if last <= TO_TWENTY else 20

    @property
    def lookalike(self) -> int:
        """How closely the child looks, of 6 levels."""
        last = self.numbers[1]
        return 1 + (last > TO_FIVE) + (last > TO_TEN) + (last > TO_TWENTY)


@dataclass(frozen=True, kw_only=True, slots=True)
class NewSet:
    """A set to be made: its material, what it is for, and what its table says besides."""

    make: str
    area: Area
    keys: tuple[tuple[str, Any], ...] = ()

    @property
    def name(self) -> str:
        """What the set is called."""
        return dict(self.keys).get("set", self.make)


def _set(area: Area, make: str, name: str = "", **keys: Any) -> NewSet:
    own = {"set": name} if name else {}
    return NewSet(make=make, area=area, keys=tuple((own | keys).items()))


def balanced(child: NewChild, weeks: int = 6) -> tuple[NewSet, ...]:
    """The sets for a child, area by area, the easiest of each first.

    In a season shorter than six weeks only as many as can come calmly: those that would come first.
    """
    first, last = child.numbers
    if last <= TO_FIVE:
        found = _to_five()
    elif last <= TO_TEN:
        found = _to_ten()
    elif last <= TO_TWENTY:
        found = _to_twenty()
    else:
        found = _beyond(first, last)
    kept = _first_to_come(found, weeks)
    return tuple(item for area in AREAS for item in found if item.area == area and item.name in kept)


def _first_to_come(found: Sequence[NewSet], weeks: int) -> set[str]:
    things = [
        Thing(name=item.name, area=item.area, step=(place,))
        for place, item in enumerate(found)
        if item.make not in _EXTRA
    ]
    most = max(count for count in range(len(things) + 1) if calm_weeks(count) <= weeks)
    kept = {thing.name for thing in coming(things)[:most]}
    return kept | {"calendar"} | ({"tiles"} if "strips" in kept else set())


def _to_five() -> tuple[NewSet, ...]:
    return (
        _set("counting", "counting-cards"),
        _set("counting", "counting-cards", "count out", things="places", layout="back"),
        _set("counting", "clip-cards"),
        _set("looking", "pairs"),
        _set("looking", "sizes"),
        _set("looking", "odd-one-out"),
        _set("looking", "patterns"),
        _set("hands", "halves"),
        _set("hands", "lacing"),
        _set("hands", "paths", "snip", form="snip"),
        _set("writing", "paths"),
        _set("writing", "tracing", "big numerals", form="card"),
    )


def _to_ten() -> tuple[NewSet, ...]:
    return (
        _set("counting", "counting-cards", layout="back"),
        _set("counting", "clip-cards"),
        _set("counting", "ten-frames"),
        _set("counting", "dominoes"),
        _set("looking", "odd-one-out"),
        _set("looking", "patterns"),
        _set("hands", "lacing"),
        _set("hands", "paths", "snip", form="snip"),
        _set("writing", "paths"),
        _set("writing", "tracing"),
        _set("operations", "place-mats"),
        _set("operations", "part-whole"),
        _set("operations", "strips"),
    )


def _to_twenty() -> tuple[NewSet, ...]:
    return (
        _set("counting", "clip-cards", choices=4),
        _set("counting", "ten-frames"),
        _set("counting", "number-line"),
        _set("counting", "calendar"),
        _set("looking", "odd-one-out"),
        _set("looking", "find-the-match"),
        _set("hands", "halves", parts=4),
        _set("hands", "outdoors", counted=True),
        _set("writing", "tracing"),
        _set("writing", "dice-write"),
        _set("operations", "part-whole"),
        _set("operations", "strips"),
        _set("operations", "strips", "take away", operation="subtract"),
        _set("operations", "tiles"),
    )


def _beyond(first: int, last: int) -> tuple[NewSet, ...]:
    """A child who counts beyond 20; sets of words keep to ten numbers, the line to twenty."""
    ten = [11, 20] if first <= 11 else [first, min(last, first + 9)]
    return (
        _set("counting", "pairs", "numeral and word", match="numeral-word", numbers=ten),
        _set("counting", "number-line", range=[first, min(last, first + 20)]),
        _set("counting", "hundred-chart"),
        _set("counting", "calendar"),
        _set("looking", "odd-one-out"),
        _set("looking", "find-the-match"),
        _set("hands", "halves", parts=4),
        _set("hands", "outdoors", counted=True),
        _set("writing", "tracing", numbers=ten),
        _set("writing", "dice-write"),
        _set("operations", "part-whole", show="numerals"),
        _set("operations", "strips", operation="both", unknown="mixed"),
        _set("operations", "tiles", operation="both", unknown="mixed"),
    )
