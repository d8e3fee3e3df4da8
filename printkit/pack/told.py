"""What a reading has to tell: problems and notes, kept until all was looked at."""

from collections.abc import Collection, Mapping
from typing import Any

from printkit.checks import Check, read_keys
from printkit.errors import Problem
from printkit.pack.levels import Level, Rank
from printkit.pack.origin import Keys, Origin


class Told:
    """The problems and notes of a reading, in order, each once.

    `without` are keys that the command line sets: nobody looks at what the files say there.
    """

    def __init__(self, without: Collection[str] = ()) -> None:
        self.without = frozenset(without)
        self.problems: list[Problem] = []
        self.notes: list[str] = []

    def say(self, place: str, said: str, allowed: str = "", near: str = "") -> None:
        self.add(Problem(place=place, found=said, allowed=allowed, nearest=near))

    def add(self, *problems: Problem) -> None:
        self.problems += [problem for problem in problems if problem not in self.problems]

    def level(
        self,
        rank: Rank,
        origin: Origin,
        table: Mapping[str, Any],
        path: Keys,
        whose: str,
        checks: Mapping[str, Check],
    ) -> Level:
        """The legal values of a table; what is wrong with the others is told."""
        values, wrongs = read_keys({key: table[key] for key in table if key not in self.without}, checks)
        for key, wrong in wrongs.items():
            self.say(origin.place((*path, key), whose), wrong.found, wrong.allowed, wrong.nearest)
        return Level(rank=rank, values=values, origin=origin, path=path, whose=whose)
