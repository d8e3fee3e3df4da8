"""Tiles with a numeral or a sign, to be laid in boxes: so small that drawing keeps 2 mm from the cut.

A printer drifts by 1 to 2 mm (common practice): the numeral of a tile may come to stand beside its
middle, yet is never cut.
"""

from collections.abc import Iterable

from printkit import letters
from printkit.letters import Numerals
from printkit.materials.layout import INK, base_rule, numeral, numeral_height
from printkit.pieces import Face, Text
from printkit.units import micrometres

TILE_INSET = 2.0
"""mm that a numeral keeps from the cut of its tile at least."""
_WIDE_INSET = 3.7
_SHARE = 0.2
PLAY = 1.0
"""mm by which a tile is smaller than its box, in width and height (design choice)."""
_RULE = 1.1
"""mm from the base line to the lower edge of the rule under a numeral of a tile."""

_ROUND = 0.3
"""mm by which round figures may reach beyond their height."""


def roomy_inset(side: float) -> float:
    """mm that a numeral keeps from the cut of a square tile: a fifth of it, from 2 to 3.7."""
    return min(_WIDE_INSET, max(TILE_INSET, _SHARE * side))


def tile_height(
    numbers: Iterable[int], size: tuple[float, float], numerals: Numerals, inset: float = TILE_INSET
) -> float:
    """The height of numerals that fit tiles of that size, in mm."""
    most = max(0.0, size[1] - 2 * inset - _RULE - _ROUND)
    return numeral_height(numbers, most, max(0.0, size[0] - 2 * inset), numerals)


def numeral_tile(number: int, size: tuple[float, float], height: float, numerals: Numerals) -> Face:
    """A numeral `height` mm high on its rule in the middle of a tile."""
    base = micrometres((size[1] + height - _RULE) / 2)
    text, rule = numeral(str(number), size[0] / 2, base, height, numerals)
    fine = min(rule.line, max(0.15, 0.055 * height))
    return Face(marks=(text, base_rule(size[0] / 2, base, rule.x2 - rule.x1, fine)))


def sign_tile(sign: str, size: tuple[float, float], height: float) -> Face:
    """A sign beside numerals `height` mm high, in the middle of a tile."""
    wide = letters.run(sign, 1.0, bold=True)
    most = (size[0] - 2 * TILE_INSET) / (wide.ink[2] - wide.ink[0])
    run = letters.run(sign, min(height / letters.numeral_ratio(bold=True), most), bold=True)
    x = micrometres((size[0] - run.ink[0] - run.ink[2]) / 2)
    y = micrometres((size[1] - run.ink[1] - run.ink[3]) / 2)
    return Face(marks=(Text(run=run, x=x, y=y, color=INK),))
