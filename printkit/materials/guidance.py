"""What a material tells the guide and the labels: which sentences hold, examples, the answers of a set.

The sentences themselves stand in the catalogues (`texts`), under `materials.<name>`.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from printkit.pack import Tray
from printkit.pieces import Piece
from printkit.texts import bold

Words = tuple[str, ...]

Say = Callable[..., str]
"""`say(key, **values)`: a sentence of the catalogue. Tuples and decimals are written as its language does.

In a key `motif` is that of a picture of the theme; the sentence has its name as `{name}`.
"""

Spelled = Callable[[int], str]
"""A number in words. Raises ValueError for one that no words are known for."""

_MOST_WORDS = 3
"""Numbers that are counted aloud in an example; longer counts leave out what lies between."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Holding:
    """Variants, the most special first; notes that hold on top; fields that come before `next`."""

    variants: Words = ()
    notes: Words = ()
    next: Words = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Key:
    """The answers of a set: a line each, and what holds for every one of them, if anything does."""

    lines: Words = ()
    always: str = ""


def numbers(tray: Tray, say: Say) -> str:
    """'numbers 1 to 5'."""
    first, last = tray.child.numbers
    if first == last:
        return say("label.number", first=first)
    return say("label.numbers", first=first, last=last)


def nothing_special(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    """The plain sentences hold for every setting."""
    return Holding()


def no_examples(facts: Sequence[Any], spelled: Spelled) -> Mapping[str, object]:
    """The sentences name no example."""
    return {}


def no_key(pieces: Sequence[Piece], say: Say) -> Key:
    """There are no answers to tell."""
    return Key()


@dataclass(frozen=True, kw_only=True, slots=True)
class Guidance:
    """What the guide and the labels ask of a material; the defaults fit where nothing special holds.

    `about` says what a set is about, for its label. `holding` names the texts that hold for a set's
    settings. `examples` are words that its sentences may name, from the set's own facts. `key` holds the
    answers; they are told where no back does, and always where `keyed` is true, as the answer is what
    one looks for.
    """

    about: Callable[[Tray, Say], str] = numbers
    holding: Callable[[Tray, Sequence[Piece]], Holding] = nothing_special
    examples: Callable[[Sequence[Any], Spelled], Mapping[str, object]] = no_examples
    key: Callable[[Sequence[Piece], Say], Key] = no_key
    keyed: bool = False


def when(**conditions: bool) -> Words:
    """The names of the conditions that hold."""
    return tuple(word for word, holds in conditions.items() if holds)


def word(number: int, spelled: Spelled) -> str:
    """A number in words, in digits beyond those."""
    try:
        return spelled(number)
    except ValueError:
        return str(number)


def counted(start: int, end: int, spelled: Spelled) -> str:
    """The numbers after `start` up or down to `end`: 'four, five'; the end alone if they are one."""
    step = 1 if end >= start else -1
    words = [word(n, spelled) for n in range(start + step, end + step, step)] or [word(end, spelled)]
    if len(words) > _MOST_WORDS:
        words = [*words[:2], "… " + words[-1]]
    return ", ".join(words)


__all__ = [
    "Guidance", "Holding", "Key", "Say", "Spelled", "Words", "bold", "counted", "no_examples", "no_key",
    "nothing_special", "numbers", "when", "word",
]  # fmt: skip
