"""A note as data: who, which tray, how it went, and the tray as it was played."""

from dataclasses import dataclass
from datetime import date
from typing import Any, Literal, get_args

from printkit.texts import Note

Result = Literal["sure", "growing", "not-yet", "unused"]
RESULTS: tuple[Result, ...] = get_args(Result)
"""What an adult can see: it is sure, it is growing, it is not there yet, it was left lying."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Entry:
    """One note.

    `played` holds the tray's keys as they were: `make` (the material), `numbers`, `sums_to`, `lookalike`,
    `theme` and the material's settings that were not the usual ones. It is empty in a short line written
    by hand. `title` is the pack's, `said` the adult's own words, `line` where it stands (0: nowhere yet).
    """

    on: date
    child: str
    set: str
    result: Result
    played: tuple[tuple[str, Any], ...] = ()
    title: str = ""
    said: str = ""
    line: int = 0


@dataclass(frozen=True, kw_only=True, slots=True)
class Broken:
    """A line that is no note: its number, its text as far as it can be read, and why."""

    line: int
    text: str
    why: Note


@dataclass(frozen=True, kw_only=True, slots=True)
class Journal:
    """All notes in the order of their lines, and the lines that could not be read."""

    entries: tuple[Entry, ...] = ()
    broken: tuple[Broken, ...] = ()
