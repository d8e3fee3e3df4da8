"""The page's sentences: `texts/<language>/page.toml`, English where a language has a gap."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from printkit.resources import resource
from printkit.texts import Catalogue, catalogue, catalogue_languages

FILE = "page.toml"


@dataclass(frozen=True, kw_only=True, slots=True)
class PageWords:
    """The sentences of one language; `materials` has the names of the materials and rungs."""

    language: str
    own: Catalogue
    english: Catalogue
    materials: Catalogue

    def say(self, key: str, **values: Any) -> str:
        """The sentence of that key. Raises KeyError for one that English lacks."""
        found = self.own if self.own.has(key) else self.english
        return found.say(key, **values)

    def has(self, key: str) -> bool:
        """Whether there is a sentence of that key."""
        return self.own.has(key) or self.english.has(key)

    def count(self, key: str, number: int, **values: Any) -> str:
        """The form of a sentence for a number: `one` or `other`."""
        return self.say(f"{key}.{'one' if number == 1 else 'other'}", n=number, **values)

    def material(self, name: str) -> str:
        """What a material is called."""
        key = f"materials.{name}.title"
        return self.materials.say(key) if self.materials.has(key) else spoken(name)

    def rung(self, name: str) -> str:
        """What is new on a rung."""
        return self.materials.say(f"next.rungs.{name}")

    def word(self, value: str, key: str) -> str:
        """A word of the pack file as people say it there: 'plain' of a stock is not that of a 7.

        A part of a table ('flip.card') without words of its own has those of the table.
        """
        for name in (key, key.partition(".")[0]):
            if self.has(f"values.{name}.{value}"):
                return self.say(f"values.{name}.{value}")
        return spoken(value)


def spoken(name: str) -> str:
    """'line_height' -> 'line height'."""
    return name.replace("_", " ").replace("-", " ")


@cache
def page_languages() -> tuple[str, ...]:
    """The languages the page speaks, English first."""
    found = sorted(file.parent.name for file in resource("texts").glob(f"*/{FILE}"))
    return ("en", *(tag for tag in found if tag != "en"))


@cache
def page_words(language: str) -> PageWords:
    """The sentences in a language of `page_languages()`."""
    known = language if language in catalogue_languages() else "en"
    return PageWords(language=language, own=_read(language), english=_read("en"), materials=catalogue(known))


def _read(language: str) -> Catalogue:
    data: Mapping[str, Any] = tomllib.loads((resource("texts") / language / FILE).read_text(encoding="utf-8"))
    return Catalogue(language=language, entries=tuple(data["page"].items()))
