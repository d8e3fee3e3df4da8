"""Which theme comes next, and what of a tray belongs to the old one."""

import tomllib
from collections.abc import Iterable
from pathlib import Path

from printkit.journal import Entry
from printkit.resources import resource

_YEAR = ("spring", "summer", "autumn", "winter")


def themes_of_the_year() -> tuple[str, ...]:
    """The built-in themes from spring to winter."""
    seasons = {
        file.parent.name: tomllib.loads(file.read_text(encoding="utf-8"))["season"]
        for file in resource("themes").glob("*/theme.toml")
    }
    return tuple(sorted(seasons, key=lambda name: (_YEAR.index(seasons[name]), name)))


def next_theme(current: str, entries: Iterable[Entry]) -> str:
    """The next built-in theme, going on in the year from the current one, that no note knows yet.

    If all were there already, the one that was there longest ago.
    """
    last = {str(dict(entry.played).get("theme")): entry.on for entry in sorted(entries, key=_day)}
    year = themes_of_the_year()
    begin = year.index(current) + 1 if current in year else 0
    coming = [name for name in (*year[begin:], *year[:begin]) if name != current]
    fresh = [name for name in coming if name not in last]
    return fresh[0] if fresh else min(coming, key=lambda name: last[name])


def _day(entry: Entry) -> object:
    return entry.on


def theme_word(given: str, folder: Path) -> str:
    """A theme of the command line as a pack file in `folder` names it: a folder's path goes from there."""
    path = Path(given)
    if given in themes_of_the_year() or not path.is_dir():
        return given
    try:
        return f"./{path.resolve().relative_to(folder.resolve()).as_posix()}"
    except ValueError:
        return path.resolve().as_posix()
