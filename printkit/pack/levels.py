"""Which word wins: the levels that may set a key, from the family's file to the command line."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal

from printkit.checks import shown
from printkit.letters import Numerals
from printkit.pack.keys import KEYS
from printkit.pack.model import Flips, Source
from printkit.pack.origin import Keys, Origin
from printkit.pack.starting import rung_keys, together

Rank = Literal[
    "family", "child in family", "pack", "child", "children", "shared", "tray", "command line"
]
"""The levels, the weakest first. A default is said by none; 'children' is what those who share have in
common, 'shared' their table; 'child in family' stays below 'pack', as the season's file has the last word."""

_MERGED = ("flip", "numerals", "words")
"""Tables of which a level may set a part; the rest stays as it was."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Level:
    """A table that sets keys: where it stands, whose it is, and its legal values.

    Without an origin it is the command line's, or, with rank 'children', nobody's own words. `by` is the
    key that all values come from, where they were not written one by one: 'start'.
    """

    rank: Rank
    values: Mapping[str, Any]
    origin: Origin | None = None
    path: Keys = ()
    whose: str = ""
    by: str = ""

    def place(self, key: str, whose: str | None = None) -> str:
        """Where a key of this level stands, as problems name it."""
        if self.origin is None:
            return f"--{key}"
        return self.origin.place((*self.path, self.by or key), self.whose if whose is None else whose)


@dataclass(frozen=True, kw_only=True, slots=True)
class Said:
    """The word that wins for a key, the level that says it, and the one it wins over."""

    value: Any
    level: Level
    over: Level | None = None


def laid(levels: Iterable[Level]) -> dict[str, Said]:
    """The word for each key that any level sets, of levels in their order, the weakest first."""
    said: dict[str, Said] = {}
    for level in _with_rungs(levels):
        for key, value in level.values.items():
            if key not in KEYS:
                continue
            before = said.get(key)
            merged = _over(key, before.value if before else None, value)
            said[key] = Said(value=merged, level=level, over=before.level if before else None)
    return said


def _with_rungs(levels: Iterable[Level]) -> Iterator[Level]:
    """The levels, each after what the rungs set that it starts on: its own words win over those."""
    for level in levels:
        if level.values.get("start"):
            yield replace(level, values=rung_keys(level.values["start"]), by="start")
        yield level


def starts(levels: Iterable[Level]) -> tuple[str, ...]:
    """The rungs that a child stands on, one a ladder: the last word of each."""
    names: tuple[str, ...] = ()
    for level in levels:
        names = together(names, level.values.get("start", ()))
    return names


def _over(key: str, below: Any, value: Any) -> Any:
    if key == "flip" and isinstance(value, str):
        return {"plain": value, "card": value}
    return {**below, **value} if key in _MERGED and below else value


def sources(said: Mapping[str, Said], *ranks: Rank) -> tuple[Source, ...]:
    """Where the word for each key came from, in the order of the keys; only of these ranks if any."""
    return tuple(
        _source(key, said[key])
        for key in KEYS
        if key in said and (not ranks or said[key].level.rank in ranks)
    )


def _source(key: str, said: Said) -> Source:
    level, path = said.level, (*said.level.path, said.level.by or key)
    return Source(
        key=key,
        value=shown(_written(said.value)),
        level=level.rank,
        file=level.origin.name if level.origin else "",
        line=level.origin.line(path) if level.origin else 0,
        over=_set_aside(key, said),
        usual=_usual(key, said.value),
    )


def _written(value: Any) -> Any:
    return list(value) if isinstance(value, tuple) else value


def _set_aside(key: str, said: Said) -> str:
    """The place of a child's own word in the family's file that the whole pack's word wins over."""
    hidden = said.over is not None and said.over.rank == "child in family" and said.level.rank == "pack"
    return said.over.origin.spot((*said.over.path, key)) if hidden else ""


def _usual(key: str, value: Any) -> bool:
    """Whether a value is what holds without a word."""
    match key:
        case "flip":
            return Flips(**value) == Flips()
        case "numerals":
            return Numerals(**value) == Numerals()
        case "words":
            return not value
        case _:
            return value == KEYS[key][1]
