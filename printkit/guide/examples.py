"""Examples for the sentences about a tray: numbers that stand in the set itself, in words."""

from collections.abc import Callable, Mapping
from typing import Any

from printkit.guide.sets import GuideSet
from printkit.words import spell

_MOST_WORDS = 3
"""Numbers that are counted aloud in an example; longer counts leave out what lies between."""


def examples(item: GuideSet, language: str) -> dict[str, str]:
    """The words that sentences about a set may name, its examples taken from its facts.

    Numbers are spelled in `language`; a name with a capital is the same word with a capital letter.
    """
    facts = [piece.facts for piece in item.own]
    found = EXAMPLES.get(item.tray.material, _none)(facts, language) if facts else {}
    return found | {name.capitalize(): word[:1].upper() + word[1:] for name, word in found.items()}


def _none(facts: list[Any], language: str) -> dict[str, str]:
    return {}


def _counting_cards(facts: list[Any], language: str) -> dict[str, str]:
    """`n`: a number of the set, three or the next one where there is a choice."""
    numbers = sorted({fact.quantity for fact in facts})
    return {"n": _word(next((n for n in numbers if n >= 3), numbers[-1]), language)}


def _strips(facts: list[Any], language: str) -> dict[str, str]:
    """`a`, `b`, `r`: a line of the set; `larger`, `on`, `change`, `back`: how it is counted."""
    lines = [fact for fact in facts if fact.operation is not None]
    if not lines:
        return {}
    # The first line is often 1 + 1, which shows little.
    plain = (fact for least in (2, 1) for fact in lines if min(fact.a, fact.b, fact.result) >= least)
    fact = next(plain, lines[0])
    a, b, r = fact.a, fact.b, fact.result
    low, high = min(a, r), max(a, r)
    return {
        "a": _word(a, language),
        "b": _word(b, language),
        "r": _word(r, language),
        "larger": _word(max(a, b), language),
        "on": _counted(max(a, b), r, language),
        "change": _counted(low, high, language),
        "back": _counted(high, low, language),
    }


def _counted(start: int, end: int, language: str) -> str:
    """The numbers after `start` up or down to `end`: 'four, five'; the end alone if they are one."""
    step = 1 if end >= start else -1
    words = [_word(n, language) for n in range(start + step, end + step, step)] or [_word(end, language)]
    if len(words) > _MOST_WORDS:
        words = [*words[:2], "… " + words[-1]]
    return ", ".join(words)


def _word(number: int, language: str) -> str:
    try:
        return spell(language, number)
    except ValueError:  # beyond a hundred
        return str(number)


EXAMPLES: Mapping[str, Callable[[list[Any], str], dict[str, str]]] = {
    "counting-cards": _counting_cards,
    "strips": _strips,
}
