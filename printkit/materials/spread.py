"""Places for answers over a set: as even as can be, and in no pattern that could be learnt."""

from collections.abc import Sequence
from itertools import pairwise

from printkit.chance import Chance


def spread_places(allowed: Sequence[Sequence[int]], chance: Chance) -> tuple[int, ...]:
    """One place for each piece from those it may have, evenly used and without a pattern.

    As even as the allowed places let it be (no place could be used once less for another used
    once more); among many chance orders the one with the shortest runs and repeats is taken.
    """
    if not allowed:
        return ()
    return min((_even(allowed, chance.again(f"spread/{attempt}")) for attempt in range(24)), key=_pattern)


def _even(allowed: Sequence[Sequence[int]], chance: Chance) -> tuple[int, ...]:
    """A chance assignment, then moved along chains until no place is used two times more than another."""
    order = chance.shuffled(range(len(allowed)))
    places = {piece: chance.choice(allowed[piece]) for piece in order}
    while chain := _better(places, order, allowed):
        for piece, place in chain:
            places[piece] = place
    return tuple(places[piece] for piece in range(len(allowed)))


def _better(places, order, allowed) -> list[tuple[int, int]]:
    """Moves that take one use from a place to one used at least two times less, or none."""
    every = sorted({place for choice in allowed for place in choice})
    uses = {place: sum(1 for used in places.values() if used == place) for place in every}
    for start in sorted(every, key=lambda place: -uses[place]):
        reached: dict[int, list[tuple[int, int]]] = {start: []}
        waiting = [start]
        while waiting:
            here = waiting.pop(0)
            for piece in order:
                if places[piece] != here:
                    continue
                for there in allowed[piece]:
                    if there in reached:
                        continue
                    reached[there] = [*reached[here], (piece, there)]
                    if uses[there] <= uses[start] - 2:
                        return reached[there]
                    waiting.append(there)
    return []


def _pattern(places: tuple[int, ...]) -> tuple[float, ...]:
    """How much of a pattern there is: long runs, too many or too few pairs, steps, cycles."""
    pairs = list(pairwise(places))
    run = longest = 1
    for before, after in pairs:
        run = run + 1 if before == after else 1
        longest = max(longest, run)
    steps = [after - before for before, after in pairs]
    same_step = sum(1 for a, b in pairwise(steps) if a == b)
    doubled = sum(1 for before, after in pairs if before == after)
    usual = len(pairs) / len(set(places))
    cycles = sum(1 for period in (2, 3, 4) for a, b in zip(places, places[period:], strict=False) if a == b)
    return (max(longest, 2), same_step + abs(doubled - usual), cycles)
