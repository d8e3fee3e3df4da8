"""The rules of patterns as words over A, B and C, and how a shown part may go on by any rule."""

from collections.abc import Iterator
from itertools import count, product

UNITS = {"AB": "AB", "AAB": "AAB", "ABB": "ABB", "ABC": "ABC"}
"""What comes again and again."""
GROWING = "growing"
"""A B AA B AAA B: the first thing comes once more in each group."""
RULES = (*UNITS, GROWING)
SEEN_UNITS = 2
"""A unit is seen as one that comes again when it is shown this often as a whole (design choice)."""
SEEN_GROUPS = 3
"""Groups that a growing rule must show as a whole: two could grow in many ways (design choice)."""


def letters_of(rule: str) -> str:
    """The letters a rule uses, in order."""
    return "".join(sorted(set(UNITS.get(rule, "AB"))))


def word(rule: str, length: int) -> str:
    """The first `length` letters of a pattern."""
    if rule in UNITS:
        unit = UNITS[rule]
        return (unit * (length // len(unit) + 1))[:length]
    return _grown(1, 1, 1, 0, length)


def _grown(first: int, more_first: int, second: int, more_second: int, length: int) -> str:
    """Groups of A then B: `first` and `second` of them at the start, so many more each time."""
    groups = ""
    for group in count():
        if len(groups) >= length:
            break
        groups += "A" * (first + more_first * group) + "B" * (second + more_second * group)
    return groups[:length]


def least_shown(rule: str) -> int:
    """How many letters must be shown before the rule is seen."""
    if rule in UNITS:
        return SEEN_UNITS * len(UNITS[rule])
    return sum(range(1, SEEN_GROUPS + 1)) + SEEN_GROUPS


def least_places(rule: str, shown: int) -> int:
    """How many letters more make the unit or the group whole that comes next."""
    if rule in UNITS:
        return len(UNITS[rule])
    length = shown
    while word(rule, length + 1)[shown:].count("B") == 0:
        length += 1
    return length + 1 - shown


def continuations(shown: str, places: int) -> frozenset[str]:
    """Every way in which a shown part goes on by a rule that it lets one see.

    Tried are all units that are shown as a whole twice or more, and all rules with two runs by turns
    that grow by none, one or two each time, of which three groups are shown as a whole.
    """
    return frozenset(
        whole[len(shown) :] for whole in _fitting(shown, len(shown) + places) if whole.startswith(shown)
    )


def _fitting(shown: str, length: int) -> Iterator[str]:
    """Words of that length by every rule that enough of `shown` could follow."""
    for unit in range(1, len(shown) // SEEN_UNITS + 1):
        yield (shown[:unit] * (length // unit + 1))[:length]
    if len(set(shown)) != 2:
        return
    one, two = dict.fromkeys(shown)
    most = len(shown)
    for first, second in product(range(1, most), repeat=2):
        for more_first, more_second in product(range(3), repeat=2):
            three = SEEN_GROUPS * (first + second) + (more_first + more_second) * 3
            if three <= len(shown) and (more_first or more_second):
                grown = _grown(first, more_first, second, more_second, length)
                yield grown.replace("A", "a").replace("B", two).replace("a", one)


def is_clear(rule: str, shown: int, places: int) -> bool:
    """Whether the shown part goes on in one way only, and that is the rule's."""
    whole = word(rule, shown + places)
    return continuations(whole[:shown], places) == {whole[shown:]}
