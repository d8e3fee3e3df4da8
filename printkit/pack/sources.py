"""Where the words of a pack came from: as plain values, and in lines for `check`."""

from collections.abc import Iterable, Sequence
from typing import Any

from printkit.pack.model import Pack, Source


def settings_of(pack: Pack) -> list[dict[str, Any]]:
    """Each key that some level sets: whose, its value as a pack file writes it, the level, file and line.

    `set` is None where the key holds for all trays of a child; `usual` tells a value that is the default.
    """
    rows: list[dict[str, Any]] = []
    for item in pack.children:
        rows += [_row(item.child.name, None, source) for source in item.sources]
        for tray in item.trays:
            rows += [_row(item.child.name, tray.set, source) for source in tray.sources]
    return rows


def _row(child: str, set_name: str | None, source: Source) -> dict[str, Any]:
    return {
        "child": child,
        "set": set_name,
        "key": source.key,
        "value": source.value,
        "level": source.level,
        "file": source.file,
        "line": source.line,
        "over": source.over,
        "usual": source.usual,
    }


def settings_lines(rows: Sequence[dict[str, Any]]) -> list[str]:
    """The settings that are not the usual ones, in lines: what holds for all, then each child's, each set's.

    'Wren: numbers = [1, 5] (family.toml, line 8), paper = 'a5' (command line)'.
    """
    kept = [row for row in rows if not row["usual"]]
    children = list(dict.fromkeys(row["child"] for row in rows))
    single = [row for row in kept if row["set"] is None]
    said = [_part(row) for row in single]
    for_all = {part for part in said if said.count(part) == len(children)}
    named = {"all": [{**row, "over": ""} for row in single if _part(row) in for_all]}
    for child in children:
        own = [row for row in kept if row["child"] == child]
        named[child] = [
            row for row in own if row["set"] is None and (row["over"] or _part(row) not in for_all)
        ]
        for row in own:
            if row["set"] is not None:
                named.setdefault(f"{child}'s {row['set']}", []).append(row)
    return [f"{whose}: {_listed(own)}" for whose, own in named.items() if own]


def _listed(rows: Iterable[dict[str, Any]]) -> str:
    return ", ".join(dict.fromkeys(_part(row, row["over"]) for row in rows))


def _part(row: dict[str, Any], over: str = "") -> str:
    wins = f", wins over {over}" if over else ""
    return f"{row['key']} = {row['value']} ({_where(row)}{wins})"


def _where(row: dict[str, Any]) -> str:
    if row["level"] == "children":
        return "from those who share"
    if not row["file"]:
        return "command line"
    return f"{row['file']}, line {row['line']}"
