"""Whom a pack is made for: the children of its file, those of the family, and those who share trays."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from printkit.checks import found, shown
from printkit.errors import listing, nearest
from printkit.pack.family import FAMILY, Household
from printkit.pack.keys import child_checks, shared_checks
from printkit.pack.levels import Level
from printkit.pack.naming import check_child_name, twin_of
from printkit.pack.origin import Keys, Origin
from printkit.pack.sharing import together
from printkit.pack.told import Told

Shared = Sequence[tuple[Keys, Mapping[str, Any]]]
"""The tables of those who share trays, each with the way to it."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Person:
    """Whom trays are made for: the levels of keys below the command line's, the weakest first.

    `listed` are the materials as the file has them, None if it has none, `here` the way to them;
    `path` is the way to the person's own table, and empty without one.
    """

    name: str
    levels: tuple[Level, ...]
    listed: Any
    here: Keys
    path: Keys = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Group:
    """A table of those who share trays, and their names."""

    level: Level
    table: Mapping[str, Any]
    names: tuple[str, ...]

    @property
    def name(self) -> str:
        """What they are called together."""
        return self.level.values.get("name", together(self.names))


def gather_people(origin: Origin, home: Household, top: Level, told: Told) -> tuple[Person, ...]:
    """The children of the pack file and those of the family for whom it has anything, in the family's order.

    Materials at the top are for every child that has none of its own, those of the family too. A
    child of the family that only a table of those who share names, or that is among all of them as the
    file names no child, has none.
    """
    listed = top.values.get("materials") and origin.raw["materials"]
    people: list[Person] = []
    names: list[str] = []
    for number, table in enumerate(top.values.get("children", ())):
        path = ("children", number)
        check_child_name(told, origin, table, path, names)
        named = isinstance(table.get("name"), str)
        whose = table["name"] if named else f"child {number + 1}"
        if named:
            _note_stranger(origin, home, told, whose, path)
        own = told.level("child", origin, table, path, whose, child_checks())
        levels = (*home.top, *home.child(whose), top, own)
        for_all = "materials" not in table and listed is not None
        here = ("materials",) if for_all else (*path, "materials")
        materials = listed if for_all else table.get("materials")
        people.append(Person(name=whose, levels=levels, listed=materials, here=here, path=path))
    absent = [name for name in home.names if twin_of(name, names) is None]
    tables = shared_tables(origin)
    if listed is None and (names or not tables):
        sharing = [name for _, table in tables for name in _texts(table.get("with"))]
        absent = [name for name in absent if twin_of(name, sharing) is not None]
    people += [
        Person(name=name, levels=(*home.top, *home.child(name), top), listed=listed, here=("materials",))
        for name in absent
    ]
    people.sort(key=lambda person: _place_at_home(home, person.name))
    unclear = home.unclear or ("children" in origin.raw and "children" not in top.values)
    if not people and not unclear:
        _tell_no_children(origin, home, told)
    return tuple(people)


def _place_at_home(home: Household, name: str) -> int:
    """The family's order stays from season to season; children it does not know come last."""
    known = twin_of(name, home.names)
    return len(home.names) if known is None else home.names.index(known)


def _note_stranger(origin: Origin, home: Household, told: Told, name: str, path: Keys) -> None:
    """A child whom the family's file does not know may be a slip of the pen."""
    near = "" if home.child(name) else nearest(name, home.names)
    if near:
        told.notes.append(
            f"{origin.place((*path, 'name'))}: {shown(name)} is not in {home.name}, so nothing is taken "
            f"from there but what holds for all; did you mean '{near}'?"
        )


def _tell_no_children(origin: Origin, home: Household, told: Told) -> None:
    allowed = "a table [[children]] with a name and materials"
    if home.children:
        allowed += f", or materials = [...] at the top for the children of {home.name}"
    elif "materials" in origin.raw or "shared" in origin.raw:
        allowed = f"a table [[children]] with a name, here or in {FAMILY} beside this file"
    told.say(origin.place(("children",) if "children" in origin.raw else ()), "has no children", allowed)


# --- those who share -------------------------------------------------------------------------


def shared_tables(origin: Origin) -> Shared:
    """The tables [shared] or [[shared]] of a pack file, each with the way to it."""
    shared = origin.raw.get("shared")
    if isinstance(shared, dict):
        return [(("shared",), shared)]
    tables = shared if isinstance(shared, list) else []
    return [
        (("shared", number), table) for number, table in enumerate(tables) if isinstance(table, dict)
    ]


def gather_groups(
    origin: Origin, home: Household, people: Sequence[Person], told: Told
) -> tuple[Group, ...]:
    """The tables of those who share, as far as it is clear who they are; what is not is told."""
    shared = origin.raw.get("shared")
    tables = shared_tables(origin)
    if shared is not None and len(tables) != (len(shared) if isinstance(shared, list) else 1):
        allowed = "a table [shared] with materials, or several tables [[shared]]"
        told.say(origin.place(("shared",)), found(shared), allowed)
    groups = []
    for path, table in tables:
        known = [person.name for person in people]
        names = _sharing(origin, home, table, path, known, told) if known else ()
        whose = (
            table["name"] if isinstance(table.get("name"), str) else together(names) or "those who share"
        )
        level = told.level("shared", origin, table, path, whose, shared_checks())
        if names:
            groups.append(Group(level=level, table=table, names=names))
    return tuple(groups)


def _sharing(
    origin: Origin,
    home: Household,
    table: Mapping[str, Any],
    path: Keys,
    known: Sequence[str],
    told: Told,
) -> tuple[str, ...]:
    """The names of those who share a table's trays, in the order given; none if they are not clear."""
    if "with" not in table:
        if len(known) > 1:
            return tuple(known)
        allowed = "two or more children; one child's materials stand in its own table"
        told.say(origin.place(path), f"is for {known[0]} alone", allowed)
        return ()
    place = origin.place((*path, "with"))
    everyone = list(dict.fromkeys([*known, *home.names]))
    wished = _texts(table["with"])
    for name in wished:
        if twin_of(name, everyone) is None:
            told.say(
                place, f"there is no child {shown(name)}", listing(everyone), nearest(name, everyone)
            )
    names = [name for name in (twin_of(wish, known) for wish in wished) if name is not None]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        told.say(place, f"names {shown(twice)} twice", "each child once")
        return ()
    return tuple(names) if len(wished) == len(names) > 1 else ()


def _texts(value: Any) -> list[str]:
    return [item for item in value if isinstance(item, str)] if isinstance(value, list) else []
