"""The ladder of counting: ranges, how the things lie, zero, numerals written and read, tens.

Ways to lie come in this order: a line, the faces of a die, frames of ten, scattered (design choice;
Clements 1999 has scrambled things as the hardest, from memory). Each range keeps at least a third of
the one before it.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from printkit.ladder import expectations as is_asked
from printkit.ladder.rungs import Expectation, Fact, Rung, made

TRACK = "counting"


def _rung(
    name: str,
    numbers: tuple[int, int],
    lies: str,
    *expectation: Expectation,
    chart: Mapping[str, Any] | None = None,
    more: Mapping[str, Mapping[str, Any]] | None = None,
    facts: Iterable[Fact] = (),
) -> Rung:
    """A rung whose things `lie` so on cards to count; `chart` are settings of a hundred chart."""
    first, last = numbers
    more = more or {}
    settings = {
        "counting-cards": {"arrange": (lies,)} | dict(more.get("counting-cards", {})),
        "clip-cards": {"arrange": (lies,)},
        "hundred-chart": {"rows": -(-last // 10)} | dict(chart or {}),
        **{material: given for material, given in more.items() if material != "counting-cards"},
    }
    met = {("number", number) for number in range(first, last + 1)} | {("lies", lies)} | set(facts)
    return made(TRACK, name, expectation, frozenset(met), {"numbers": numbers}, settings)


_BY_HAND = {"tiles": False}
"""A chart without tiles: the numbers left out are written."""

RUNGS = (
    _rung("count-1-3", (1, 3), "line", is_asked.COUNT_IN_LINE),
    _rung("count-1-5", (1, 5), "line", is_asked.COUNT_IN_LINE, is_asked.NUMERALS_TO_5),
    _rung("see-1-5", (1, 5), "dice", is_asked.SEE_TO_5, is_asked.SEE_TO_5_AU),
    _rung("frames-1-5", (1, 5), "frame", is_asked.SAME_HOWEVER_LAID),
    _rung("scattered-1-5", (1, 5), "scatter", is_asked.SCATTERED_5),
    _rung("count-4-10", (4, 10), "frame", is_asked.COUNT_TO_10),
    _rung(
        "twos-4-10", (4, 10), "frame", is_asked.DOUBLES_WITHIN_10,
        more={"ten-frames": {"fill": ("fives", "pairs")}}, facts=[("fills", "pairs")],
    ),
    _rung("scattered-4-10", (4, 10), "scatter", is_asked.SCATTERED_10),
    _rung("zero", (0, 10), "frame", is_asked.ZERO, chart={"start": 0, "rows": 2}),
    _rung(
        "write-to-10", (0, 10), "frame", is_asked.WRITE_TO_10,
        chart=_BY_HAND, facts=[("writes", "to 10")],
    ),
    _rung("count-7-14", (7, 14), "frame", is_asked.TEN_AND_ONES),
    _rung("count-10-20", (10, 20), "frame", is_asked.COUNT_TO_20, is_asked.TEN_AND_ONES),
    _rung("write-to-20", (10, 20), "frame", is_asked.ZERO, chart=_BY_HAND, facts=[("writes", "to 20")]),
    _rung(
        "read-to-20", (10, 20), "frame", is_asked.READ_TO_20,
        more={"counting-cards": {"layout": "pair"}, "bingo": {"board": "words"}},
        facts=[("reads", "words")],
    ),
    _rung("count-15-30", (15, 30), "frame", is_asked.COUNT_TO_30, is_asked.COUNT_FROM_ANY),
    _rung("count-25-45", (25, 45), "frame", is_asked.COUNT_FROM_ANY),
    _rung("count-38-60", (38, 60), "frame", is_asked.COUNT_FROM_ANY),
    _rung("count-52-80", (52, 80), "frame", is_asked.COUNT_FROM_ANY),
    _rung("count-70-100", (70, 100), "frame", is_asked.COUNT_TO_100, is_asked.TO_100),
    _rung(
        "tens-to-100", (70, 100), "frame", is_asked.COUNT_TO_100, is_asked.TO_100,
        chart={"blanks": "tens"}, more={"number-line": {"range": (0, 100), "shown": "tens"}},
        facts=[("counts by", 10)],
    ),
)  # fmt: skip
