"""Examples for the sentences about a tray: numbers that stand in the set itself, in words."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from printkit.guide.sets import GuideSet

Spelled = Callable[[int], str]

_MOST_WORDS = 3
"""Numbers that are counted aloud in an example; longer counts leave out what lies between."""


def examples(item: GuideSet, language: str) -> dict[str, str]:
    """The words that sentences about a set may name, its examples taken from its facts.

    Numbers are spelled in `language`; a name with a capital is the same word with a capital letter.
    """
    facts = [piece.facts for piece in item.own]
    spelled = partial(item.tray.child.spelled, language)
    found = EXAMPLES.get(item.tray.material, _none)(facts, spelled) if facts else {}
    return found | {name.capitalize(): word[:1].upper() + word[1:] for name, word in found.items()}


def _none(facts: list[Any], spelled: Spelled) -> dict[str, str]:
    return {}


def _counting_cards(facts: list[Any], spelled: Spelled) -> dict[str, str]:
    """`n`: a number of the set, three or the next one where there is a choice."""
    numbers = sorted({fact.quantity for fact in facts})
    return {"n": _word(next((n for n in numbers if n >= 3), numbers[-1]), spelled)}


def _strips(facts: list[Any], spelled: Spelled) -> dict[str, str]:
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
        "a": _word(a, spelled),
        "b": _word(b, spelled),
        "r": _word(r, spelled),
        "larger": _word(max(a, b), spelled),
        "on": _counted(max(a, b), r, spelled),
        "change": _counted(low, high, spelled),
        "back": _counted(high, low, spelled),
    }


def _counted(start: int, end: int, spelled: Spelled) -> str:
    """The numbers after `start` up or down to `end`: 'four, five'; the end alone if they are one."""
    step = 1 if end >= start else -1
    words = [_word(n, spelled) for n in range(start + step, end + step, step)] or [_word(end, spelled)]
    if len(words) > _MOST_WORDS:
        words = [*words[:2], "… " + words[-1]]
    return ", ".join(words)


def _word(number: int, spelled: Spelled) -> str:
    try:
        return spelled(number)
    except ValueError:  # beyond a hundred
        return str(number)


EXAMPLES: Mapping[str, Callable[[list[Any], Spelled], dict[str, str]]] = {
    "counting-cards": _counting_cards,
    "strips": _strips,
}
