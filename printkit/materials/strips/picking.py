"""Which facts a set of strips is about, and the third of it that the child knows already."""

from collections.abc import Callable
from dataclasses import dataclass

from printkit.chance import Chance
from printkit.materials.strips.facts import Fact, Operation, among, facts_within, operations


def _exact(fact: Fact, most: int) -> bool:
    return fact.whole == most


def _doubles(fact: Fact, most: int) -> bool:
    return fact.a == fact.b if fact.operation == "add" else fact.b == fact.result


def _through_ten(fact: Fact, most: int) -> bool:
    """8 + 6, 14 - 6: both parts have one digit, the whole is beyond ten."""
    parts = (fact.a, fact.b) if fact.operation == "add" else (fact.b, fact.result)
    return fact.whole > 10 and max(parts) < 10


_HOLDS: dict[str, Callable[[Fact, int], bool]] = {
    "any": lambda fact, most: True,
    "exact": _exact,
    "doubles": _doubles,
    "through-ten": _through_ten,
}
PICKS = tuple(_HOLDS)


@dataclass(frozen=True, kw_only=True, slots=True)
class Picking:
    """The settings that say which facts there are; a third of a set stays within `known`."""

    most: int
    operation: str
    pick: str
    known: int | None
    zero: bool

    def picked(self, operation: Operation) -> tuple[Fact, ...]:
        """Every fact of the operation that is picked, known or not."""
        every = facts_within(self.most, operation, zero=self.zero)
        return tuple(fact for fact in every if _HOLDS[self.pick](fact, self.most))

    @property
    def sure(self) -> int:
        """The largest sum that is known and leaves something new; 0 if there is none."""
        known = self.known or 0
        kinds = operations(self.operation)
        new = all(any(fact.whole > known for fact in self.picked(kind)) for kind in kinds)
        return known if new else 0


def none_picked(picking: Picking) -> tuple[str, str, str] | None:
    """The key, what is wrong and what is allowed if there is no such fact."""
    if all(picking.picked(kind) for kind in operations(picking.operation)):
        return None
    return (
        "pick",
        f"nothing within {picking.most} goes through ten",
        "sums_to from 11 on, or another pick",
    )


def picked_facts(
    picking: Picking, count: int | None, usual: int, *, shuffled: bool, chance: Chance
) -> tuple[Fact, ...]:
    """The facts of a set in order, what is known first; `usual` many at most if `count` is not given."""
    kinds = operations(picking.operation)
    sure = picking.sure
    new = {kind: tuple(fact for fact in picking.picked(kind) if fact.whole > sure) for kind in kinds}
    fresh = len(kinds) * min(len(facts) for facts in new.values())
    if not sure:
        return among(new, count or min(usual, fresh), shuffled=shuffled, chance=chance)
    known = {kind: facts_within(sure, kind, zero=picking.zero) for kind in kinds}
    total = count or min(usual, fresh + -(-fresh // 2))
    first = -(-total // 3)
    draw = chance.again("known")
    facts = (
        *among(known, first, shuffled=shuffled, chance=draw),
        *among(new, total - first, shuffled=shuffled, chance=chance),
    )
    return draw.again("order").shuffled(facts) if shuffled else facts
