"""The family's file: what stays from season to season, read below the season's own pack file."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from printkit.checks import Check
from printkit.files import same_name
from printkit.pack.keys import child_checks, family_checks, family_child_checks, pack_checks
from printkit.pack.levels import Level, Rank
from printkit.pack.naming import check_child_name
from printkit.pack.origin import Keys, Origin
from printkit.pack.told import Told

FAMILY = "family.toml"
"""The name under which the family's file is found beside a pack file."""


def family_beside(file: Path) -> Path | None:
    """The family's file in the folder of a pack file, if there is one; a pack file is not its own."""
    found = file.parent / FAMILY
    return found if file.name.casefold() != FAMILY and found.is_file() else None


@dataclass(frozen=True, kw_only=True, slots=True)
class Household:
    """What a family's file says: of all, and of each child in its order. Both empty without a file.

    `unclear` where its children could not be read, which was told then.
    """

    name: str = ""
    top: tuple[Level, ...] = ()
    children: tuple[Level, ...] = ()
    unclear: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(level.whose for level in self.children)

    def child(self, name: str) -> tuple[Level, ...]:
        """The level of the child of that name, however written; none if there is none."""
        return tuple(level for level in self.children if same_name(level.whose, name))


def read_household(origin: Origin, told: Told) -> Household:
    """What a family's file says; problems are told."""
    top = _level("family", origin, told, origin.raw, (), "", family_checks(), pack_checks())
    names: list[str] = []
    children = []
    for number, table in enumerate(top.values.get("children", ())):
        path = ("children", number)
        check_child_name(told, origin, table, path, names)
        whose = table["name"] if isinstance(table.get("name"), str) else f"child {number + 1}"
        checks = family_child_checks()
        own = _level("child in family", origin, told, table, path, whose, checks, child_checks())
        children.append(own)
    unclear = "children" in origin.raw and "children" not in top.values
    return Household(name=origin.name, top=(top,), children=tuple(children), unclear=unclear)


def _level(
    rank: Rank,
    origin: Origin,
    told: Told,
    table: Mapping[str, Any],
    path: Keys,
    whose: str,
    checks: Mapping[str, Check],
    of_the_pack: Mapping[str, Check],
) -> Level:
    """The level of a table; what a pack file alone may set is told as that."""
    season = [key for key in table if key in of_the_pack and key not in checks]
    for key in season:
        said = f"'{key}' belongs to the season"
        told.say(origin.place((*path, key), whose), said, f"'{key}' in the season's pack file, not here")
    kept = {key: value for key, value in table.items() if key not in season}
    return told.level(rank, origin, kept, path, whose, checks)
