"""Tables of a pack file that is being changed: a child's, its list of materials, one tray in it."""

from collections.abc import Iterable, Mapping, MutableMapping, MutableSequence
from typing import Any

import tomlkit

from printkit.files import same_name

Table = MutableMapping[str, Any]


def child_table(document: Table, name: str) -> Table | None:
    """The table of a child; None if the pack file has none (a family's file then has it)."""
    tables = document.get("children", [])
    return next((table for table in tables if same_name(str(table.get("name", "")), name)), None)


def made_child_table(document: Table, name: str) -> Table:
    """The table of a child, added at the end if there was none."""
    found = child_table(document, name)
    if found is not None:
        return found
    if "children" not in document:
        document.append("children", tomlkit.aot())
    fresh = tomlkit.table()
    fresh.append("name", name)
    fresh.trivia.indent = "\n"
    document["children"].append(fresh)
    return document["children"][-1]


def trays_of(document: Table, name: str) -> MutableSequence[Any]:
    """A child's list of materials; one that all children have in common becomes the child's own."""
    table = child_table(document, name)
    if table is not None and "materials" in table:
        return table["materials"]
    table = made_child_table(document, name)
    table.append("materials", tomlkit.parse(f"x = {document['materials'].as_string()}")["x"])
    return table["materials"]


def read_trays(document: Table, name: str) -> list[dict[str, Any]]:
    """A child's materials as plain tables, wherever they stand."""
    table = child_table(document, name)
    listed = table["materials"] if table is not None and "materials" in table else document["materials"]
    return [as_table(entry) for entry in listed]


def as_table(entry: Any) -> dict[str, Any]:
    """A material's entry as a plain table, also if it is only a word."""
    plain = entry.unwrap() if hasattr(entry, "unwrap") else entry
    return {"make": plain} if isinstance(plain, str) else dict(plain)


def set_of(entry: Any) -> str:
    """The name of the set that an entry makes."""
    table = as_table(entry)
    return str(table.get("set", table["make"]))


def place_of(listed: Iterable[Any], name: str) -> int:
    """Where in a list of materials a set stands. Raises LookupError if it does not."""
    return next(number for number, entry in enumerate(listed) if same_name(set_of(entry), name))


def change(
    listed: MutableSequence[Any], at: int, new: Mapping[str, Any], dropped: Iterable[str] = ()
) -> None:
    """Sets keys of a tray anew and leaves some out; an entry that is only a word becomes a table."""
    old = as_table(listed[at])
    going = set(dropped) - set(new)
    fresh = {key: value for key, value in old.items() if key not in going} | dict(new)
    if fresh == old:
        return
    if isinstance(listed, tomlkit.items.AoT):
        for key in going & old.keys():
            del listed[at][key]
        listed[at].update(new)
    else:
        listed[at] = inline(fresh)


def insert(listed: MutableSequence[Any], at: int, entry: Mapping[str, Any]) -> None:
    """A new tray, at this place of the list."""
    if isinstance(listed, tomlkit.items.AoT):
        fresh = tomlkit.table()
        fresh.update(entry)
        listed.insert(at, fresh)
    else:
        listed.insert(at, inline(entry))


def inline(entry: Mapping[str, Any]) -> Any:
    """A tray as it is written in a list: a word, or a table on one line."""
    if set(entry) == {"make"}:
        return entry["make"]
    keys = ", ".join(f"{key} = {tomlkit.item(value).as_string()}" for key, value in entry.items())
    return tomlkit.parse(f"x = {{ {keys} }}")["x"]


def put(table: Any, key: str, value: Any) -> None:
    """Sets a key of a child's table; a new one is lined up with the child's name."""
    if key in table or isinstance(table, tomlkit.items.InlineTable):
        table[key] = value
        return
    name = next((known for known, _ in table.value.body if known is not None and known.key == "name"), None)
    width = len(name.as_string()) + len(name.sep) if name is not None else 0
    table.append(tomlkit.items.SingleKey(key, sep=" " * max(1, width - len(key) - 2) + "= "), value)


def written(value: Any) -> Any:
    """A value as TOML has it: lists for tuples, a word for a list of one word, 18 for 18.0."""
    match value:
        case (str(word),):
            return word
        case tuple() | list():
            return [written(item) for item in value]
        case float() if value.is_integer():
            return int(value)
    return value


def remark(table: Any, key: str, text: str, mark: str) -> None:
    """Puts a remark behind a key's line, unless the family has one of its own there."""
    item = table.item(key) if hasattr(table, "item") else None
    if item is None or isinstance(table, tomlkit.items.InlineTable):
        return
    if not item.trivia.comment or item.trivia.comment.startswith(f"# {mark}"):
        item.comment(f"{mark} {text}")


def clear_remarks(table: Any, mark: str) -> None:
    """Takes away the remarks of the season before."""
    for key, item in table.value.body if hasattr(table.value, "body") else []:
        if key is not None and item.trivia.comment.startswith(f"# {mark}"):
            item.trivia.comment = item.trivia.comment_ws = ""
