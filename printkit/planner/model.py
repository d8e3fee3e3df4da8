"""What a plan of weeks is made of: values only."""

from dataclasses import dataclass
from typing import Literal

Area = Literal["counting", "looking", "hands", "writing", "operations"]
AREAS: tuple[Area, ...] = ("counting", "looking", "hands", "writing", "operations")
"""In the order in which areas come onto a shelf: sums are last, they build on counting."""

ReasonKey = Literal["opens", "only", "sums", "follows", "stands", "together", "makes_room", "favorite"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Reason:
    """Why a set comes or goes: a sentence of the catalogue (`weeks.reason.<key>`) and what it names.

    `others` are sets of the same child, `weeks` is the week in which the set came, where the
    sentence tells it.
    """

    key: ReasonKey
    area: Area
    others: tuple[str, ...] = ()
    weeks: int = 0


@dataclass(frozen=True, kw_only=True, slots=True)
class Move:
    """A set that comes onto the shelf or goes into the basket, and why."""

    set: str
    reason: Reason


@dataclass(frozen=True, kw_only=True, slots=True)
class Week:
    """One week of one child: what is new, what comes back, what goes, and all that is out.

    `out` are the names of sets in the order in which they came; `number` counts from 1.
    """

    number: int
    new: tuple[Move, ...] = ()
    back: tuple[Move, ...] = ()
    away: tuple[Move, ...] = ()
    out: tuple[str, ...] = ()

    @property
    def changes(self) -> bool:
        """Whether anything comes or goes."""
        return bool(self.new or self.back or self.away)


@dataclass(frozen=True, kw_only=True, slots=True)
class ChildPlan:
    """The weeks of one child.

    `areas` has the area of each set, `standing` the sets that hang or stick somewhere and take no place
    on the shelf, `all_stay` says that there are so few sets that none ever goes; `calm` is the number
    of weeks in which no more than two new sets a week would come, if that is more than the plan has.
    """

    child: str
    weeks: tuple[Week, ...]
    areas: tuple[tuple[str, Area], ...]
    standing: tuple[str, ...] = ()
    all_stay: bool = False
    calm: int | None = None

    def first_week(self, name: str) -> int:
        """The week in which a set comes. Raises StopIteration for a set that there is not."""
        return next(week.number for week in self.weeks if name in week.out)


@dataclass(frozen=True, kw_only=True, slots=True)
class Season:
    """The weeks of all children of a pack, in its order."""

    children: tuple[ChildPlan, ...]

    @property
    def length(self) -> int:
        """How many weeks there are."""
        return max((len(item.weeks) for item in self.children), default=0)
