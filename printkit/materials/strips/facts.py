"""Which sums and differences a set of strips holds, in which order, and what each hides.

"Within n" means that no number of the equation is larger than n. Counts are closed (with zeros
(n + 1)(n + 2) / 2 ordered facts of each operation, without n(n - 1) / 2), so tests can know them.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import chain, zip_longest
from typing import Literal

from printkit.chance import Chance

Operation = Literal["add", "subtract"]
Unknown = Literal["result", "change", "start"]
UNKNOWNS: tuple[Unknown, ...] = ("result", "change", "start")
SIGN = {"add": "+", "subtract": "\N{MINUS SIGN}"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Fact:
    """a + b = result or a - b = result."""

    operation: Operation
    a: int
    b: int
    result: int

    @property
    def whole(self) -> int:
        """The largest number: the sum, or what is taken from."""
        return self.result if self.operation == "add" else self.a

    @property
    def key(self) -> str:
        return f"{self.a}{'+' if self.operation == 'add' else '-'}{self.b}"

    @property
    def numbers(self) -> tuple[int, int, int]:
        return (self.a, self.b, self.result)


@dataclass(frozen=True, kw_only=True, slots=True)
class Task:
    """A fact with the number that is asked for, and the key of its strip."""

    fact: Fact
    unknown: Unknown
    key: str


@cache
def with_whole(whole: int, operation: Operation, *, zero: bool) -> tuple[Fact, ...]:
    """The facts whose sum (or number taken from) is `whole`, by their parts."""
    parts = range(0 if zero else 1, whole + (1 if zero else 0))
    if operation == "add":
        return tuple(Fact(operation="add", a=a, b=whole - a, result=whole) for a in parts)
    return tuple(Fact(operation="subtract", a=whole, b=b, result=whole - b) for b in parts)


def facts_within(most: int, operation: Operation, *, zero: bool) -> tuple[Fact, ...]:
    """Every fact within `most`, climbing."""
    wholes = range(most + 1)
    return tuple(chain.from_iterable(with_whole(whole, operation, zero=zero) for whole in wholes))


def passes(facts: Sequence[Fact], count: int, chance: Chance) -> tuple[tuple[Fact, ...], ...]:
    """`count` of the facts, even over their wholes; each pass but the last holds all of them once."""
    made: list[tuple[Fact, ...]] = []
    while count > 0:
        chosen = _pass(facts, count, chance.again(f"pass {len(made)}"))
        made.append(tuple(sorted(chosen, key=_climbing)))
        count -= len(chosen)
    return tuple(made)


def _pass(facts: Sequence[Fact], count: int, chance: Chance) -> list[Fact]:
    """At most `count` different facts: one of each whole, again and again; the last ones evenly."""
    chosen: list[Fact] = []
    left = _by_whole(facts, chance)
    while left and len(chosen) < count:
        wholes = sorted(left)
        wanted = count - len(chosen)
        if wanted < len(wholes):
            wholes = _evenly(wholes, wanted, chance)
        chosen += [left[whole].pop() for whole in wholes]
        left = {whole: rest for whole, rest in left.items() if rest}
    return chosen


def _by_whole(facts: Sequence[Fact], chance: Chance) -> dict[int, list[Fact]]:
    groups: dict[int, list[Fact]] = {}
    for fact in chance.shuffled(facts):
        groups.setdefault(fact.whole, []).append(fact)
    return groups


def _evenly(items: Sequence[int], count: int, chance: Chance) -> list[int]:
    """`count` of the items, one from each of as many equal stretches."""
    start = chance.share()
    return [items[int((i + start) * len(items) / count)] for i in range(count)]


def _climbing(fact: Fact) -> tuple[int, int, int]:
    return (fact.whole, fact.a, fact.b)


def operations(setting: str) -> tuple[Operation, ...]:
    """The operations of the setting add, subtract or both."""
    return ("add", "subtract") if setting == "both" else (setting,)


def chosen_facts(
    most: int, setting: str, count: int, *, zero: bool, shuffled: bool, chance: Chance
) -> tuple[Fact, ...]:
    """`count` of all facts within `most`, as `among` chooses them."""
    facts = {kind: facts_within(most, kind, zero=zero) for kind in operations(setting)}
    return among(facts, count, shuffled=shuffled, chance=chance)


def among(
    facts: Mapping[Operation, Sequence[Fact]], count: int, *, shuffled: bool, chance: Chance
) -> tuple[Fact, ...]:
    """`count` of the facts in order: climbing, or shuffled; none again until all have appeared.

    Of two operations they take turns, in their order.
    """
    shares = [(count + len(facts) - 1 - i) // len(facts) for i in range(len(facts))]
    lists: list[list[Fact]] = []
    for (kind, every), share in zip(facts.items(), shares, strict=True):
        draw = chance.again(kind)
        made = passes(every, share, draw)
        ordered = [draw.shuffled(each) if shuffled else each for each in made]
        lists.append([fact for each in ordered for fact in each])
    return tuple(fact for turn in zip_longest(*lists) for fact in turn if fact is not None)


def tasks(facts: Iterable[Fact], setting: str, chance: Chance) -> tuple[Task, ...]:
    """What each strip asks: one place always, or 'mixed': the three places evenly, by chance.

    A fact that comes again asks for another place first, as far as the even spread allows.
    """
    every = UNKNOWNS if setting == "mixed" else (setting,)
    used: Counter[str] = Counter()
    used_by_fact: Counter[tuple[str, str]] = Counter()
    seen: Counter[str] = Counter()
    made: list[Task] = []
    for fact in facts:
        least = min(used[unknown] for unknown in every)
        open_now = [unknown for unknown in every if used[unknown] == least]
        fewest = min(used_by_fact[fact.key, unknown] for unknown in open_now)
        fresh = [unknown for unknown in open_now if used_by_fact[fact.key, unknown] == fewest]
        unknown = chance.choice(fresh)
        used[unknown] += 1
        used_by_fact[fact.key, unknown] += 1
        seen[fact.key] += 1
        again = f"-{seen[fact.key]}" if seen[fact.key] > 1 else ""
        made.append(Task(fact=fact, unknown=unknown, key=f"{fact.key}{again}"))
    return tuple(made)
