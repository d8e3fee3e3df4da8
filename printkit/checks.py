"""Values as a pack file gives them -> values we can trust, or what is wrong with them.

A check reads one value and returns what the rest of the program uses, or a `Wrong`. Checks are
data: `allowed()` is the sentence for errors and lists; tests build legal values from their fields.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from typing import Any, Protocol

from printkit.errors import listing, nearest


@dataclass(frozen=True, kw_only=True, slots=True)
class Wrong:
    """What was found instead of a legal value, what is allowed, the nearest right word."""

    found: str
    allowed: str
    nearest: str = ""


class Check(Protocol):
    """Reads a value from a pack file."""

    def read(self, value: Any) -> Any:
        """The value to use, or a `Wrong`."""

    def allowed(self) -> str:
        """What a legal value is, in words."""


def shown(value: Any) -> str:
    """A value the way a pack file writes it, short enough for a sentence."""
    match value:
        case bool():
            text = "true" if value else "false"
        case str():
            text = "'" + "".join(_visible(sign) for sign in value) + "'"
        case float():
            text = f"{value:g}"
        case list() | tuple():
            text = f"[{', '.join(shown(item) for item in value)}]"
        case dict():
            text = f"{{ {', '.join(f'{key} = {shown(item)}' for key, item in value.items())} }}"
        case _:
            text = str(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def found(value: Any) -> str:
    """'found 5': the value as a sentence goes on after its place."""
    return f"found {shown(value)}"


def _visible(sign: str) -> str:
    return sign if sign.isprintable() else f"\\u{ord(sign):04x}"


def is_whole(value: Any) -> bool:
    """Whether the value is a whole number (true and false are no numbers)."""
    return isinstance(value, int) and not isinstance(value, bool)


def is_number(value: Any) -> bool:
    """Whether the value is a finite number (true and false are no numbers)."""
    return is_whole(value) or (isinstance(value, float) and math.isfinite(value))


@dataclass(frozen=True, slots=True)
class OneOf:
    """One of a closed set of words; `also` maps other spellings to them."""

    words: tuple[str, ...]
    also: tuple[tuple[str, str], ...] = ()

    def read(self, value: Any) -> Any:
        word = dict(self.also).get(value, value) if isinstance(value, str) else value
        if isinstance(word, str) and word in self.words:
            return word
        near = nearest(value, self.words) if isinstance(value, str) else ""
        return Wrong(found=found(value), allowed=self.allowed(), nearest=near)

    def allowed(self) -> str:
        return listing(self.words)


@dataclass(frozen=True, slots=True)
class Several:
    """A list of one to `most` words out of a closed set, as a tuple; a word may come again."""

    each: OneOf
    most: int

    def read(self, value: Any) -> Any:
        if not isinstance(value, list) or not 1 <= len(value) <= self.most:
            return Wrong(found=found(value), allowed=self.allowed())
        words = [self.each.read(word) for word in value]
        return next((word for word in words if isinstance(word, Wrong)), tuple(words))

    def allowed(self) -> str:
        return f"a list of up to {self.most} of: {self.each.allowed()}"


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number from `low` to `high`."""

    low: int
    high: int

    def read(self, value: Any) -> Any:
        if is_whole(value) and self.low <= value <= self.high:
            return value
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return f"a whole number from {self.low} to {self.high}"


@dataclass(frozen=True, slots=True)
class Millimetres:
    """A length from `low` to `high` mm."""

    low: float
    high: float

    def read(self, value: Any) -> Any:
        if is_number(value) and self.low <= value <= self.high:
            return float(value)
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return f"{self.low:g} to {self.high:g} mm"


@dataclass(frozen=True, slots=True)
class Flag:
    """true or false."""

    def read(self, value: Any) -> Any:
        return value if isinstance(value, bool) else Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return "true or false"


@dataclass(frozen=True, slots=True)
class Words:
    """A text that is not empty."""

    says: str = "a text in quotation marks"

    def read(self, value: Any) -> Any:
        if isinstance(value, str) and value.strip():
            return value.strip()
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return self.says


@dataclass(frozen=True, slots=True)
class WordOrWords:
    """One of the words, or a list of different ones; always read as a tuple."""

    words: tuple[str, ...]

    def read(self, value: Any) -> Any:
        several = value if isinstance(value, list) else [value]
        read = [OneOf(self.words).read(item) for item in several]
        wrong = next((item for item in read if isinstance(item, Wrong)), None)
        if wrong:
            return Wrong(found=wrong.found, allowed=self.allowed(), nearest=wrong.nearest)
        if not read or len(set(read)) < len(read):
            return Wrong(found=found(value), allowed=self.allowed())
        return tuple(read)

    def allowed(self) -> str:
        return f"{listing(self.words)}, or a list of different ones of them"


@dataclass(frozen=True, slots=True)
class AnyOf:
    """A list of none, some or all of the words, or one word alone; a tuple in the order of `words`.

    `also` maps other spellings to them.
    """

    words: tuple[str, ...]
    also: tuple[tuple[str, str], ...] = ()

    def read(self, value: Any) -> Any:
        several = value if isinstance(value, list) else [value]
        each = OneOf(self.words, self.also)
        read = [each.read(item) for item in several]
        wrong = next((item for item in read if isinstance(item, Wrong)), None)
        if wrong is not None:
            return Wrong(found=wrong.found, allowed=self.allowed(), nearest=wrong.nearest)
        return tuple(word for word in self.words if word in read)

    def allowed(self) -> str:
        return f"{listing(self.words)}, or a list of any of them"


@dataclass(frozen=True, slots=True)
class Range:
    """[first, last] with low <= first <= last <= high."""

    low: int
    high: int

    def read(self, value: Any) -> Any:
        if isinstance(value, list) and len(value) == 2 and all(is_whole(item) for item in value):
            first, last = value
            if self.low <= first <= last <= self.high:
                return (first, last)
            if self.low <= last < first <= self.high:
                return Wrong(
                    found=f"{shown(value)} runs backwards",
                    allowed=f"[{last}, {first}], the smaller first",
                )
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return f"[first, last], two whole numbers from {self.low} to {self.high}"


@dataclass(frozen=True, slots=True)
class Extent:
    """[width, height] in mm."""

    low: float
    high: float

    def read(self, value: Any) -> Any:
        if (
            isinstance(value, list)
            and len(value) == 2
            and all(is_number(item) and self.low <= item <= self.high for item in value)
        ):
            return (float(value[0]), float(value[1]))
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return f"[width, height], each {self.low:g} to {self.high:g} mm"


@dataclass(frozen=True, slots=True)
class Either:
    """What the first check reads, or else what the second one reads."""

    first: Check
    second: Check

    def read(self, value: Any) -> Any:
        wrong = self.first.read(value)
        if not isinstance(wrong, Wrong):
            return wrong
        second = self.second.read(value)
        if not isinstance(second, Wrong):
            return second
        if isinstance(value, dict):
            return second
        return Wrong(found=wrong.found, allowed=self.allowed(), nearest=wrong.nearest)

    def allowed(self) -> str:
        return f"{self.first.allowed()}, or {self.second.allowed()}"


@dataclass(frozen=True, slots=True)
class TableOf:
    """A table whose keys each have a check; read as a plain dict of the keys given."""

    keys: tuple[tuple[str, Check], ...]

    def read(self, value: Any) -> Any:
        if not isinstance(value, dict):
            return Wrong(found=found(value), allowed=self.allowed())
        checks, read = dict(self.keys), {}
        for key, item in value.items():
            if key not in checks:
                return Wrong(
                    found=f"'{key}' is no key here",
                    allowed=listing(checks),
                    nearest=nearest(key, checks),
                )
            read[key] = checks[key].read(item)
            if isinstance(read[key], Wrong):
                wrong = read[key]
                return Wrong(found=f"{wrong.found} as {key}", allowed=wrong.allowed, nearest=wrong.nearest)
        return read

    def allowed(self) -> str:
        parts = ", ".join(f"{key} = {check.allowed()}" for key, check in self.keys)
        return f"{{ {parts} }}"


def setting(default: Any, check: Check, says: str) -> Any:
    """A field of a material's settings: its default, its check, one line for lists and docs."""
    return dataclass_field(default=default, metadata={"check": check, "says": says})


def read_keys(
    table: Mapping[str, Any], checks: Mapping[str, Check]
) -> tuple[dict[str, Any], dict[str, Wrong]]:
    """The legal values of a table, and what is wrong with the others, each by its key."""
    values, wrongs = {}, {}
    for key, value in table.items():
        if key not in checks:
            wrongs[key] = Wrong(
                found=f"'{key}' is no key here",
                allowed=listing(sorted(checks)),
                nearest=nearest(key, checks),
            )
            continue
        read = checks[key].read(value)
        if isinstance(read, Wrong):
            wrongs[key] = read
        else:
            values[key] = read
    return values, wrongs
