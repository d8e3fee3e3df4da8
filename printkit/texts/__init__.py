"""The sentences of the sheets and the guide: a catalogue for each language.

A catalogue is `<language>.toml`, and the files of the folder `<language>/` laid into it.
"""

import tomllib
from dataclasses import dataclass
from functools import cache
from typing import Any

from printkit.resources import resource

BOLD = "\x01"
"""Stands on both sides of a stretch that is to be set bold."""


def bold(text: str) -> str:
    """The text, marked to be set bold."""
    return f"{BOLD}{text}{BOLD}"


@dataclass(frozen=True, kw_only=True, slots=True)
class Catalogue:
    """The sentences of one language, by dotted keys: `say('sheet.back', n=2)`."""

    language: str
    entries: tuple[tuple[str, Any], ...]

    def say(self, key: str, **values: Any) -> str:
        """The sentence of that key with its values filled in. Raises KeyError for a gap."""
        return str(self.find(key)).format(**values)

    def lines(self, key: str, **values: Any) -> tuple[str, ...]:
        """The sentences of a list."""
        return tuple(str(line).format(**values) for line in self.find(key))

    def find(self, key: str) -> Any:
        """What stands under a dotted key."""
        found: Any = dict(self.entries)
        for part in key.split("."):
            found = found[part]
        return found

    def has(self, key: str) -> bool:
        """Whether there is an entry of that key."""
        try:
            self.find(key)
        except (KeyError, TypeError):
            return False
        return True


def catalogue_languages() -> tuple[str, ...]:
    """The languages that have a catalogue."""
    return tuple(sorted(file.stem for file in resource("texts").glob("*.toml")))


@cache
def catalogue(language: str) -> Catalogue:
    """The catalogue of a language of `catalogue_languages()`."""
    folder = resource("texts")
    data: dict[str, Any] = {}
    for file in (folder / f"{language}.toml", *sorted((folder / language).glob("*.toml"))):
        _lay(tomllib.loads(file.read_text(encoding="utf-8")), data)
    return Catalogue(language=language, entries=tuple(data.items()))


def _lay(more: dict[str, Any], into: dict[str, Any]) -> None:
    """Adds entries, table by table. Raises ValueError for a sentence that is there already."""
    for key, value in more.items():
        if isinstance(value, dict) and isinstance(into.get(key), dict):
            _lay(value, into[key])
        elif key in into:
            raise ValueError(f"two texts for '{key}'")
        else:
            into[key] = value
