"""Which plural form a number takes: the categories of CLDR for whole numbers from 0 to 100.

The rules are those of CLDR's supplemental plural data; a language without a row here is taken to
have 'one' for 1 and 'other' for the rest.
"""

from collections.abc import Callable, Iterable
from typing import TypeVar

T = TypeVar("T")

CATEGORIES = ("zero", "one", "two", "few", "many", "other")


def category(tag: str, n: int) -> str:
    """The plural category of `n` in a language (BCP 47 tag)."""
    rule = _RULES.get(tag.lower()) or _RULES.get(tag.lower().partition("-")[0], _one)
    return rule(n)


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


def _one(n: int) -> str:
    return "one" if n == 1 else "other"


def _none(n: int) -> str:
    return "other"


def _zero_and_one(n: int) -> str:
    return "one" if n in (0, 1) else "other"


def _polish(n: int) -> str:
    if n == 1:
        return "one"
    return "few" if n % 10 in (2, 3, 4) and n % 100 not in (12, 13, 14) else "many"


def _east_slavic(n: int) -> str:
    if n % 10 == 1 and n % 100 != 11:
        return "one"
    return "few" if n % 10 in (2, 3, 4) and n % 100 not in (12, 13, 14) else "many"


def _south_slavic(n: int) -> str:
    form = _east_slavic(n)
    return "other" if form == "many" else form


def _czech(n: int) -> str:
    if n == 1:
        return "one"
    return "few" if n in (2, 3, 4) else "other"


def _arabic(n: int) -> str:
    if n < 3:
        return CATEGORIES[n]
    if n % 100 in range(3, 11):
        return "few"
    return "many" if n % 100 >= 11 else "other"


def _welsh(n: int) -> str:
    return {0: "zero", 1: "one", 2: "two", 3: "few", 6: "many"}.get(n, "other")


_RULES: dict[str, Callable[[int], str]] = {
    "ar": _arabic,
    "be": _east_slavic,
    "bs": _south_slavic,
    "cs": _czech,
    "cy": _welsh,
    "fr": _zero_and_one,
    "hr": _south_slavic,
    "id": _none,
    "ja": _none,
    "ko": _none,
    "pl": _polish,
    "pt": _zero_and_one,
    "pt-pt": _one,
    "ru": _east_slavic,
    "sk": _czech,
    "sr": _south_slavic,
    "th": _none,
    "uk": _east_slavic,
    "vi": _none,
    "zh": _none,
}  # fmt: skip
