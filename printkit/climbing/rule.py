"""The rule of climbing, for one ladder: what was seen on which rung -> what comes next, and why.

Rungs are levels here, 0 for the first one; the rule knows no numbers and no materials. Days count, not
notes: of several notes of one day on one rung the most careful one holds. The thresholds (two days, four
weeks) are design choices.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from printkit.journal import Result

Change = Literal["", "theme", "material"]

SURE_DAYS = 2
"""On so many different days it is sure before the next rung comes."""
HARD_DAYS = 2
"""On so many days in a row it is not there yet before it goes a rung back."""
CHOSEN_DAYS = 3
"""Sure on so many days, a tray was chosen for its own sake: it stays beside the new one."""
REST_WEEKS = 4
"""What was put away as too hard, or was left lying, comes back after so many weeks."""

_CAREFUL: tuple[Result, ...] = ("not-yet", "growing", "sure", "unused")


@dataclass(frozen=True, kw_only=True, slots=True)
class Seen:
    """A note placed on its ladder: `level` counts rungs from 0, -1 is below the first.

    Names of sets are equal here if they mean one set.
    """

    on: date
    level: int
    result: Result
    set: str = ""
    material: str = ""
    theme: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Verdict:
    """What the rule says: where to go, the key of the reason, its days, and what else changes."""

    move: Literal["stay", "up", "back", "rest"]
    reason: str
    days: tuple[date, ...] = ()
    change: Change = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Day:
    """What one day says about one rung."""

    on: date
    result: Result


def judge(seen: Sequence[Seen], at: int, *, first: bool = False, last: bool = False) -> Verdict:
    """What comes after level `at`, where nothing is easier (`first`) or harder (`last`) if so said.

    `seen` are a child's notes on that ladder, in any order.
    """
    here = _since_harder(seen, at)
    days = days_of(here)
    tried = [day for day in days if day.result != "unused"]
    if not days:
        return Verdict(move="stay", reason="no-note")
    if not tried:
        return _left_lying(here)
    sure = _sure_days(tried)
    hard = _hard_days(tried, _regained(seen, at))
    if len(hard) >= HARD_DAYS:
        if first:
            return Verdict(move="rest", reason="hard-at-first", days=hard)
        return Verdict(move="back", reason="hard", days=hard)
    if len(sure) >= SURE_DAYS and tried[-1].result == "sure":
        if last:
            return Verdict(move="rest", reason="sure-at-last", days=sure)
        return Verdict(move="up", reason="sure", days=sure)
    if days[-1].result == "unused":
        return _left_lying(here)
    reasons = {"sure": "sure-once", "growing": "growing", "not-yet": "hard-once"}
    latest = tried[-1]
    return Verdict(move="stay", reason=reasons[latest.result], days=(latest.on,))


def days_of(seen: Iterable[Seen]) -> tuple[Day, ...]:
    """One day each, in order; of several notes the most careful one holds, 'unused' only alone."""
    found: dict[date, Result] = {}
    for note in seen:
        held = found.get(note.on, note.result)
        found[note.on] = min(held, note.result, key=_CAREFUL.index)
    return tuple(Day(on=on, result=found[on]) for on in sorted(found))


def _since_harder(seen: Iterable[Seen], at: int) -> list[Seen]:
    """The notes on this rung since the child was last on a harder one: after a step back it starts anew."""
    notes = list(seen)
    harder = [note.on for note in notes if note.level > at]
    return [note for note in notes if note.level == at and (not harder or note.on > max(harder))]


def _sure_days(days: Sequence[Day]) -> tuple[date, ...]:
    """The days on which it was sure since it was last not there yet."""
    hard = [day.on for day in days if day.result == "not-yet"]
    return tuple(day.on for day in days if day.result == "sure" and (not hard or day.on > hard[-1]))


def _hard_days(days: Sequence[Day], regained: date | None) -> tuple[date, ...]:
    """The last days in a row on which it was not there yet.

    Only those since the child regained confidence count, and since the last long pause.
    """
    found: list[date] = []
    for day in reversed(days):
        if day.result != "not-yet" or (regained is not None and day.on <= regained):
            break
        if found and (found[-1] - day.on).days >= 7 * REST_WEEKS:
            break
        found.append(day.on)
    return tuple(reversed(found))


def _regained(seen: Sequence[Seen], at: int) -> date | None:
    """The last day by which the child had been sure of easier rungs on two days since trying this one.

    What was hard comes back after that with a clean slate.
    """
    here = sorted({note.on for note in seen if note.level == at})
    easier = sorted({note.on for note in seen if note.level < at and note.result == "sure"})
    for day in reversed(easier):
        tried = [on for on in here if on < day]
        since = [on for on in easier if on <= day and (not tried or on > tried[-1])]
        if tried and len(since) >= SURE_DAYS:
            return day
    return None


def _left_lying(here: Sequence[Seen]) -> Verdict:
    """Never another level: first another theme, then another material, then a rest."""
    used = [note.on for note in here if note.result != "unused"]
    lying = [note for note in here if note.result == "unused" and (not used or note.on > max(used))]
    days = tuple(sorted({note.on for note in lying}))
    themes, materials = ({getattr(note, key) for note in lying} for key in ("theme", "material"))
    if len(themes) < 2:
        return Verdict(move="stay", reason="unused", days=days, change="theme")
    if len(materials) < 2:
        return Verdict(move="stay", reason="unused-again", days=days, change="material")
    return Verdict(move="rest", reason="unused-still", days=days)
