"""Names of children and sets: they can stand in the names of files, are drawn, and differ."""

from collections.abc import Iterable, Mapping
from typing import Any

from printkit.checks import shown
from printkit.files import name_fault, safe_name, same_name
from printkit.letters import missing
from printkit.pack.keys import RESERVED
from printkit.pack.origin import Keys, Origin
from printkit.pack.told import Told

_FOR_A_FILE = "a name that can stand in the name of a file"
_LETTERS = "Latin, Greek or Cyrillic letters"
_OWN_FILE = "is the name of one of the pack's own files"


def twin_of(name: str, names: Iterable[str]) -> str | None:
    """The first of `names` that would give files of the same name, or None."""
    return next((other for other in names if same_name(name, other)), None)


def check_child_name(
    told: Told, origin: Origin, table: Mapping[str, Any], path: Keys, names: list[str]
) -> None:
    """Tells what is wrong with the name of a child's table; the name joins `names`."""
    name = table.get("name")
    if name is None:
        told.say(origin.place(path), "a child has no name", 'name = "..."')
        return
    if not isinstance(name, str):
        return
    place = origin.place((*path, "name"))
    check_name(told, place, name)
    twin = twin_of(name, names)
    if twin is not None:
        said = f"{shown(twin)} and {shown(name)} would have files of one name"
        told.say(place, said, "names that differ in more than upper and lower case")
    names.append(name)


def check_name(told: Told, place: str, name: str) -> None:
    """Tells what is wrong with what a child, or those who share, are called."""
    fault = name_fault(name)
    if fault:
        told.say(place, f"{shown(name)} {fault}", _FOR_A_FILE)
    elif any(same_name(name, word) for word in RESERVED):
        told.say(place, f"{shown(name)} {_OWN_FILE}", "another name")
    elif lacking := missing(name):
        told.say(place, f"{shown(name)} holds {shown(lacking)}, which the typeface cannot draw", _LETTERS)


def check_set_name(told: Told, place: str, name: Any, sets: list[str]) -> None:
    """Tells what is wrong with the name of a set; the name joins `sets`, the child's others."""
    if not isinstance(name, str):
        return
    fault = name_fault(name)
    if fault:
        told.say(place, f"{shown(name)} {fault}", _FOR_A_FILE)
    elif lacking := missing(name):
        told.say(place, f"{shown(name)} holds {shown(lacking)}, which the typeface cannot draw", _LETTERS)
    elif safe_name(name).split("-")[0] in ("card", "plain"):
        told.say(place, f"{shown(name)} {_OWN_FILE}", "another name")
    twin = twin_of(name, sets)
    if twin is not None:
        said = (
            f"the set {shown(name)} occurs twice"
            if twin == name
            else f"the sets {shown(twin)} and {shown(name)} would have files of one name"
        )
        told.say(place, said, 'set = "..." with a name of its own')
    sets.append(name)
