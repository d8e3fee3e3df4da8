"""A proposal as a value."""

from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

from printkit.climbing.rule import Change
from printkit.ladder import Rung

Move = Literal["stay", "widen", "step-up", "step-back", "rest", "return"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Proposal:
    """What comes next for some trays of a child, on one ladder.

    `sets` are the trays it is about, `at` the rung they stand on and `to` the one they go to (the same
    if they stay; None below the first rung). `reason` is a key of the catalogue, `days` the days it
    rests on. `change` is what else is to change; `again` the sets that the child chose for their own
    sake, which stay as they are beside the new ones. `played` is how a tray that comes back was.
    """

    child: str
    track: str
    sets: tuple[str, ...]
    move: Move
    at: Rung | None
    to: Rung | None
    reason: str
    days: tuple[date, ...] = ()
    change: Change = ""
    again: tuple[str, ...] = ()
    played: tuple[tuple[str, Any], ...] = ()
