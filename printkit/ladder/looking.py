"""The ladder of looking closely: six levels of difference, and larger fields to search.

No framework has steps for this; the expectations named are those that looking closely serves.
"""

from printkit.ladder import expectations as is_asked
from printkit.ladder.rungs import Expectation, Rung, made

TRACK = "looking"


def _rung(name: str, level: int, field: int, *expectation: Expectation) -> Rung:
    """A rung of one level, with so many look-alikes in a field."""
    met = {("boxes", 4), ("level", level), ("field", field)}
    keys, settings = {"lookalike": level}, {"find-the-match": {"field": field}}
    return made(TRACK, name, expectation, frozenset(met), keys, settings)


RUNGS = (
    _rung("another-thing", 1, 12, is_asked.SORT),
    _rung("alike-in-color", 2, 12, is_asked.SORT),
    _rung("wider-field", 2, 20, is_asked.SORT, is_asked.COUNT_OUT),
    _rung("another-size", 3, 20, is_asked.SIZE),
    _rung("a-part-differs", 4, 20, is_asked.PARTS),
    _rung("widest-field", 4, 30, is_asked.PARTS, is_asked.COUNT_OUT),
    _rung("only-turned", 5, 30, is_asked.TURNED),
    _rung("only-mirrored", 6, 30, is_asked.TURNED),
)
