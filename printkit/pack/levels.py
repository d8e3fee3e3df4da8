"""Which word wins: the levels that may set a key, from the family's file to the command line."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
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

ALL_KEYS = (*KEYS, "start")
"""Every key that a level may say."""
_MERGED = ("flip", "numerals", "words")
"""Tables of which a level may set a part; the rest stays as it was."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Level:
    """A table that sets keys: where it stands, whose it is, and its legal values.

    Without an origin it is the command line's, or, with rank 'children', nobody's own words.
    """

    rank: Rank
    values: Mapping[str, Any]
    origin: Origin | None = None
    path: Keys = ()
    whose: str = ""

    def place(self, key: str, whose: str | None = None) -> str:
        """Where a key of this level stands, as problems name it."""
        if self.origin is None:
            return f"--{key}"
        return self.origin.place((*self.path, key), self.whose if whose is None else whose)


@dataclass(frozen=True, kw_only=True, slots=True)
class Said:
    """The word that wins for a key, the level that says it, and the one it wins over.

    `key` is what the level writes: 'start' for the keys that a rung sets.
    """

    value: Any
    level: Level
    key: str
    over: Level | None = None

    def place(self, whose: str | None = None) -> str:
        """Where the word stands, as problems name it."""
        return self.level.place(self.key, whose)


def laid(levels: Iterable[Level]) -> dict[str, Said]:
    """The word for each key that any level sets, of levels in their order, the weakest first.

    What a level's rungs set stands below its own words, and above those of the levels below.
    """
    said: dict[str, Said] = {}
    for level in levels:
        rungs = rung_keys(level.values.get("start", ()))
        words = [(key, value, "start") for key, value in rungs.items()]
        words += [(key, level.values[key], key) for key in level.values if key in ALL_KEYS]
        for key, value, written in words:
            before = said.get(key)
            below = before.level if before and before.level is not level else None
            merged = _over(key, before.value if before else None, value)
            said[key] = Said(value=merged, level=level, key=written, over=below)
    return said


def _over(key: str, below: Any, value: Any) -> Any:
    if key == "flip" and isinstance(value, str):
        return {"plain": value, "card": value}
    if key == "start":
        return together(below or (), value)
    return {**below, **value} if key in _MERGED and below else value


def sources(said: Mapping[str, Said], *ranks: Rank) -> tuple[Source, ...]:
    """Where the word for each key came from, in the order of the keys; only of these ranks if any."""
    return tuple(
        _source(key, said[key])
        for key in ALL_KEYS
        if key in said and (not ranks or said[key].level.rank in ranks)
    )


def _source(key: str, said: Said) -> Source:
    level, path = said.level, (*said.level.path, said.key)
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
        case "words" | "start":
            return not value
        case _:
            return value == KEYS[key][1]
