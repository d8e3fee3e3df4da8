"""The ladder of addition and subtraction: within 5, making ten, within 10, doubles, through ten, within 20.

What a child meets is the two parts of a whole, whichever of its sums and differences is asked; putting
together, taking away and each unknown are ideas of their own. The unknowns come in the order of CCSSM's
table 1: result, change, start.
"""

from collections.abc import Iterable

from printkit.ladder import expectations as is_asked
from printkit.ladder.rungs import Expectation, Fact, Rung, made

TRACK = "operations"
_UNKNOWNS = ("result", "change", "start")


def within(most: int) -> frozenset[Fact]:
    """Two parts, neither 0, of each whole up to `most`: floor(most squared / 4) of them."""
    return frozenset(("parts", a, b) for a in range(1, most) for b in range(a, most - a + 1))


def _picked(most: int, pick: str) -> frozenset[Fact]:
    """The parts that strips with this `pick` hold."""
    whole = within(most)
    match pick:
        case "exact":
            return frozenset(fact for fact in whole if fact[1] + fact[2] == most)
        case "doubles":
            return frozenset(fact for fact in whole if fact[1] == fact[2])
        case "through-ten":
            return frozenset(fact for fact in whole if fact[2] < 10 < fact[1] + fact[2])
    return whole


def _rung(
    name: str,
    most: int,
    operation: str,
    unknown: str,
    *expectation: Expectation,
    pick: str = "any",
    known: int | None = None,
) -> Rung:
    """A rung of sums within `most`; a third of its strips stay within `known`."""
    strips = {"operation": operation, "unknown": unknown}
    settings = {
        "strips": strips | ({"pick": pick} if pick != "any" else {}) | ({"known": known} if known else {}),
        "tiles": strips,
        "place-mats": {"operation": "add" if operation == "add" else "subtract"},
        "part-whole": {"unknown": "whole" if unknown == "result" else "part"},
    }
    met = _picked(most, pick) | within(known or 0)
    met |= {("operation", each) for each in _each(operation, "both", ("add", "subtract"))}
    met |= {("unknown", each) for each in _each(unknown, "mixed", _UNKNOWNS)}
    return made(TRACK, name, expectation, met, {"sums_to": most}, settings)


def _each(word: str, all_of_them: str, words: Iterable[str]) -> tuple[str, ...]:
    return tuple(words) if word == all_of_them else (word,)


RUNGS = (
    _rung("add-within-5", 5, "add", "result", is_asked.WITHIN_5),
    _rung("both-within-5", 5, "both", "result", is_asked.WITHIN_5, is_asked.BONDS_TO_5),
    _rung("missing-within-5", 5, "add", "change", is_asked.CHANGE),
    _rung("make-ten", 10, "add", "change", is_asked.MAKE_TEN, pick="exact", known=5),
    _rung("add-within-10", 10, "add", "result", is_asked.WITHIN_10),
    _rung("take-away-within-10", 10, "subtract", "result", is_asked.WITHIN_10, is_asked.UNKNOWN_ADDEND),
    _rung("both-within-10", 10, "both", "result", is_asked.EASE_TO_10),
    _rung("missing-within-10", 10, "both", "change", is_asked.CHANGE),
    _rung("start-within-10", 10, "both", "start", is_asked.START),
    _rung(
        "doubles", 20, "add", "result", is_asked.DOUBLES, is_asked.NEAR_DOUBLES,
        pick="doubles", known=10,
    ),
    _rung("bridge-ten", 20, "add", "result", is_asked.BRIDGE, pick="through-ten", known=10),
    _rung("bridge-back", 20, "both", "result", is_asked.BRIDGE_BACK, pick="through-ten", known=10),
    _rung("both-within-20", 20, "both", "result", is_asked.WITHIN_20, known=10),
    _rung("missing-within-20", 20, "both", "change", is_asked.ANY_UNKNOWN, known=10),
    _rung("start-within-20", 20, "both", "start", is_asked.ANY_UNKNOWN, known=10),
    _rung("any-within-20", 20, "both", "mixed", is_asked.ANY_UNKNOWN, is_asked.EQUATION, known=10),
)  # fmt: skip
