"""What the cards of `compare` ask: which numbers stand on them, and which of them is the answer.

The answers are fair: each place is right about as often, and where there are three to choose from the
right one is about as often the smallest, the middle and the largest of them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from printkit.chance import Chance
from printkit.materials.spread import spread_places

Asks = Literal["more", "fewer", "as-many", "one-more", "one-fewer"]
ASKS: tuple[Asks, ...] = ("more", "fewer", "as-many", "one-more", "one-fewer")
STEP = {"as-many": 0, "one-more": 1, "one-fewer": -1}
CHOICES = 3
MOST = 100


@dataclass(frozen=True, kw_only=True, slots=True)
class Task:
    """The numbers of a card from the left; `answer` is the place of the right one, `sample` stands above."""

    numbers: tuple[int, ...]
    answer: int
    sample: int | None = None


def pairs(first: int, last: int, apart: int | None) -> tuple[tuple[int, int], ...]:
    """Every two numbers of a range, the smaller first, those that are easy to tell apart first."""
    found = [(a, b) for a, b in combinations(range(first, last + 1), 2) if apart is None or b - a == apart]
    return tuple(sorted(found, key=lambda pair: (pair[0] / pair[1], pair)))


def spaced(items: Sequence, count: int) -> tuple:
    """`count` of the items, evenly through their order; all of them, then again, if they are fewer."""
    if count > len(items):
        return (*items, *spaced(items, count - len(items)))
    if count == 1:
        return (items[len(items) // 2],)
    return tuple(items[round(i * (len(items) - 1) / (count - 1))] for i in range(count))


def paired(asks: Asks, found: Sequence[tuple[int, int]], chance: Chance) -> tuple[Task, ...]:
    """A card for each pair: which side is right is spread evenly."""
    places = spread_places([(0, 1)] * len(found), chance)
    tasks = []
    for (small, large), place in zip(found, places, strict=True):
        right, other = (large, small) if asks == "more" else (small, large)
        tasks.append(Task(numbers=(right, other) if place == 0 else (other, right), answer=place))
    return tuple(tasks)


def samples(asks: Asks, first: int, last: int, least: int) -> tuple[int, ...]:
    """The numbers of a range to which there is an answer from `least` to 100; else one near by."""
    step = STEP[asks]
    found = tuple(n for n in range(first, last + 1) if least <= n + step <= MOST)
    return found or (min(MOST - 1, max(least + 1, first)),)


def ranks(answer: int, least: int) -> tuple[int, ...]:
    """Which of three rising neighbors the answer may be: none below `least` or beyond 100."""
    return tuple(
        rank for rank in range(CHOICES) if answer - rank >= least and answer - rank + CHOICES - 1 <= MOST
    )


def chosen(asks: Asks, numbers: Sequence[int], least: int, chance: Chance) -> tuple[Task, ...]:
    """A card for each sample with three neighbors to choose from, in any order."""
    answers = [n + STEP[asks] for n in numbers]
    rank = spread_places([ranks(answer, least) for answer in answers], chance.again("ranks"))
    place = spread_places([tuple(range(CHOICES))] * len(answers), chance.again("places"))
    tasks = []
    for i, (sample, answer) in enumerate(zip(numbers, answers, strict=True)):
        others = [n for n in range(answer - rank[i], answer - rank[i] + CHOICES) if n != answer]
        laid = list(chance.again(f"others {i}").shuffled(others))
        laid.insert(place[i], answer)
        tasks.append(Task(numbers=tuple(laid), answer=place[i], sample=sample))
    return tuple(tasks)
