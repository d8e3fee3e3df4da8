"""The sentences of the sheets and the guide: a catalogue for each language.

A catalogue is `<language>.toml`, and the files of the folder `<language>/` laid into it.
"""

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from printkit.resources import resource

BOLD = "\x01"
"""Stands on both sides of a stretch that is to be set bold."""


_DECIMAL_COMMA = re.compile(r"\d,\d")


def bold(text: str) -> str:
    """The text, marked to be set bold."""
    return f"{BOLD}{text}{BOLD}"


class Note(str):
    """A sentence in English that knows its key and values, so that it can be said in other languages."""

    key: str
    values: Mapping[str, Any]

    def __new__(cls, key: str, **values: Any) -> "Note":
        """The sentence of that key. Raises KeyError for a gap in the English catalogue."""
        note = super().__new__(cls, catalogue("en").say(key, **values))
        note.key, note.values = key, values
        return note


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """Two ends, said as '16 to 20'."""

    first: object
    last: object


@dataclass(frozen=True, kw_only=True, slots=True)
class Catalogue:
    """The sentences of one language, by dotted keys: `say('sheet.back', n=2)`.

    A value may be a tuple (said as 'a, b and c'), a `Span`, a `Note`, or a number with decimals
    (rounded before): each is written as the language writes it.
    """

    language: str
    entries: tuple[tuple[str, Any], ...]

    def say(self, key: str, **values: Any) -> str:
        """The sentence of that key with its values filled in. Raises KeyError for a gap."""
        return str(self.find(key)).format(**self.written(values))

    def count(self, key: str, n: int, **values: Any) -> str:
        """The form of `key` for a number of things by CLDR's plural categories, else its `other`."""
        return self.say(self.form(key, n), n=n, **values)

    def form(self, key: str, n: int) -> str:
        """The key of that form: 'label.pieces.one'."""
        own = f"{key}.{_category(self.language, n)}"
        return own if self.has(own) else f"{key}.other"

    def listing(self, words: Iterable[object], last: Literal["and", "or"] = "and") -> str:
        """'a, b and c'; '' for nothing. Where items hold a decimal comma, semicolons part them."""
        *firsts, final = [str(self._one(word)) for word in words] or [""]
        if not firsts:
            return final
        joined, comma = firsts[0], str(self.find("list.comma"))
        if any(_DECIMAL_COMMA.search(word) for word in (*firsts, final)):
            comma = comma.replace(",", ";")
        for word in firsts[1:]:
            joined = comma.format(first=joined, last=word)
        before = str(self.find(f"list.before.{last}"))
        soft = before and re.match(before, final.lstrip(BOLD).casefold())
        return self.say(f"list.soft.{last}" if soft else f"list.{last}", first=joined, last=final)

    def number(self, value: float, digits: int = 2) -> str:
        """A number with at most so many decimals, and the language's mark before them."""
        shown = f"{value + 1e-9:.{digits}f}"
        return self._marked(shown.rstrip("0").rstrip(".") if "." in shown else shown)

    def fixed(self, value: float, digits: int) -> str:
        """A number with just so many decimals."""
        return self._marked(f"{value:.{digits}f}")

    def told(self, note: str) -> str:
        """A note in this language, if it knows its key; else as it is."""
        return self.say(note.key, **note.values) if isinstance(note, Note) else note

    def written(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """The values as this language writes them."""
        return {name: self._one(value) for name, value in values.items()}

    def _one(self, value: object) -> Any:
        match value:
            case Note():
                return self.told(value)
            case tuple():
                return self.listing(value)
            case Span():
                return self.say("list.to", first=value.first, last=value.last)
            case float():
                return self.number(value)
        return value if isinstance(value, int) else str(value)

    def _marked(self, shown: str) -> str:
        return shown.replace(".", str(self.find("number.decimal")))

    def lines(self, key: str, **values: Any) -> tuple[str, ...]:
        """The sentences of a list."""
        return tuple(str(line).format(**self.written(values)) for line in self.find(key))

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


@cache
def _category(language: str, n: int) -> str:
    from babel import Locale

    return Locale.parse(language, sep="-").plural_form(n)


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
