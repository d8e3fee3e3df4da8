"""Which plural form a number takes: the categories of CLDR, by Babel's copy of its rules.

A language that CLDR does not know is taken to have 'one' for 1 and 'other' for the rest.
"""

from collections.abc import Callable, Iterable
from functools import cache
from typing import TypeVar

T = TypeVar("T")

CATEGORIES = ("zero", "one", "two", "few", "many", "other")
WITHOUT_OTHER = frozenset({"be", "pl", "ru", "uk"})
"""Languages whose whole numbers never take 'other': CLDR 48 keeps it for fractions there."""


def category(tag: str, n: int) -> str:
    """The plural category of a whole number in a language (BCP 47 tag)."""
    return _rule(tag)(n)


@cache
def _rule(tag: str) -> Callable[[int], str]:
    """The rule of a language; regions and scripts that have none of their own take the language's."""
    from babel import Locale, UnknownLocaleError

    known = tag
    while known:
        try:
            return Locale.parse(known, sep="-").plural_form
        except (UnknownLocaleError, ValueError, TypeError):
            known = known.rpartition("-")[0]
    return _one


def _one(n: int) -> str:
    return "one" if n == 1 else "other"


def categories(tag: str) -> tuple[str, ...]:
    """The plural categories that the whole numbers up to 1000 take in a language, in CLDR's order."""
    taken = {category(tag, n) for n in range(1001)}
    return tuple(form for form in CATEGORIES if form in taken)


def own(tag: str, entries: Iterable[tuple[str, T]]) -> T | None:
    """The entry for a language (BCP 47 tag) itself, or for the language without its region."""
    wanted = tag.casefold()
    found = {known.casefold(): value for known, value in entries}
    while wanted:
        if wanted in found:
            return found[wanted]
        wanted = wanted.rpartition("-")[0]
    return None


def best(tag: str, entries: Iterable[tuple[str, T]]) -> tuple[str, T] | None:
    """The entry for a language (BCP 47 tag): its own, the bare language's, a sister's, English."""
    language = tag.casefold().partition("-")[0]
    ranks = {tag.casefold(): 0, language: 1}
    ranked = [
        (ranks.get(known, 2 if known.partition("-")[0] == language else 3), i, known_tag, value)
        for i, (known_tag, value) in enumerate(entries)
        for known in [known_tag.casefold()]
    ]
    usable = [entry for entry in ranked if entry[0] < 3 or entry[2].casefold() == "en"]
    if not usable:
        return None
    _, _, known_tag, value = min(usable, key=lambda entry: entry[:2])
    return known_tag, value
