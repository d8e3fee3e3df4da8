"""The written part of a strip: numerals on their base rules, signs, an empty box for the unknown."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from printkit import letters
from printkit.letters import Numerals
from printkit.materials.layout import INK, base_rule, numeral
from printkit.pieces import Box, Color, Dot, Mark, Text
from printkit.units import Rect, micrometres

BOX_PAD = 1.5
"""mm a box reaches above and below the numerals beside it."""
BOX_WIDTH = 14.0
"""mm of a box for one figure in a child's hand (design choice); narrower only beside small numerals."""
SLOT = 1.4
"""Width kept for a sign and the space on both sides of it, in heights of a numeral."""
THIN: Color = (0.5,)
"""Figures and words on a back: they must not shine through."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Figures:
    """How large a set writes: numerals `height` mm high, boxes `box` mm wide and at least `tall` mm high."""

    height: float
    box: float
    numerals: Numerals
    tall: float = 0.0

    @property
    def slot(self) -> float:
        return SLOT * self.height

    @property
    def high(self) -> float:
        """Height of the line with its boxes, in mm."""
        return max(self.tall, self.height + 2 * BOX_PAD)

    @property
    def pad(self) -> float:
        """mm from the upper edge of a box to the top of the numerals beside it."""
        return (self.high - self.height) / 2 if self.tall > self.height + 2 * BOX_PAD else BOX_PAD

    def wide(self, number: int) -> float:
        """Width of a numeral with its base rule, in mm."""
        return _bold(str(number), self.height, self.numerals).width + 0.14 * self.height


def figures(height: float, digits: int, numerals: Numerals, least: float = 0.0) -> Figures:
    """Numerals `height` mm high and boxes that hold numbers of so many digits, `least` mm wide and high."""
    box = max((0.7 * digits + 0.5) * height, min(BOX_WIDTH, 2 * height), least)
    return Figures(height=height, box=micrometres(box), numerals=numerals, tall=least)


def _bold(text: str, height: float, numerals: Numerals):
    return letters.run(text, height / letters.numeral_ratio(bold=True), bold=True, numerals=numerals)


Term = int | None
"""A number, or None for an empty box."""


def natural_columns(how: Figures, terms: Sequence[Term], box: Rect) -> tuple[tuple[float, float], ...]:
    """(left, width) of each term when the equation is set close, about the middle of the box."""
    widths = [how.box if term is None else how.wide(term) for term in terms]
    total = sum(widths) + how.slot * (len(widths) - 1)
    left = box.left + (box.width - total) / 2
    columns = []
    for width in widths:
        columns.append((left, width))
        left += width + how.slot
    return tuple(columns)


def equation(
    how: Figures,
    terms: Sequence[Term],
    sign: str | None,
    columns: Sequence[tuple[float, float]],
    top: float,
) -> tuple[Mark, ...]:
    """The marks of `a sign b = result`, each term in the middle of its column.

    `top` is where the boxes begin. Without a sign there is an empty round to write it in.
    """
    base = micrometres(top + how.pad + how.height)
    marks: list[Mark] = []
    for term, (left, width) in zip(terms, columns, strict=True):
        middle = left + width / 2
        if term is None:
            marks.append(_empty(how, middle, top))
        else:
            marks += numeral(str(term), middle, base, how.height, how.numerals)
    first, second = _between(columns)
    if sign is None:
        marks.append(
            Dot(
                x=micrometres(first), y=micrometres(base - how.height / 2),
                radius=micrometres(0.42 * how.height), stroke=INK, line=0.3,
            )
        )  # fmt: skip
    else:
        marks.append(_sign(how, sign, first, base))
    marks.append(_sign(how, "=", second, base))
    return tuple(marks)


def _between(columns: Sequence[tuple[float, float]]) -> list[float]:
    """The middles of the gaps between neighbouring columns, whichever comes first."""
    middles = []
    for one, two in pairwise(columns):
        (left, width), (after, _) = sorted((one, two))
        middles.append((left + width + after) / 2)
    return middles


def _empty(how: Figures, middle: float, top: float) -> Box:
    edge = Rect(middle - how.box / 2, top, how.box, how.high).inset(_BOX_LINE / 2)
    return Box(
        x=micrometres(edge.left),
        y=micrometres(edge.top),
        width=micrometres(edge.width),
        height=micrometres(edge.height),
        radius=1.5,
        stroke=INK,
        line=_BOX_LINE,
    )


_BOX_LINE = 0.3


def _sign(how: Figures, sign: str, middle: float, base: float) -> Text:
    run = _bold(sign, how.height, how.numerals)
    return Text(run=run, x=micrometres(middle - (run.ink[0] + run.ink[2]) / 2), y=base, color=INK)


# --- the control -----------------------------------------------------------------------------


def control(
    terms: Sequence[int], sign: str, box: Rect, numerals: Numerals, *, leftward: bool = False
) -> tuple[tuple[Mark, ...], Rect]:
    """The whole equation in thin gray figures about the middle of the box, and where it stands.

    `leftward`: it is read from the right; its parts change places, digits never do.
    """
    texts = (str(terms[0]), sign, str(terms[1]), "=", str(terms[2]))
    high = min(14.0, box.height - 2.5, 14.0 * (box.width - 1.0) / _thin_width(texts, 14.0, numerals))
    total = _thin_width(texts, high, numerals)
    begin = box.left + (box.width - total) / 2
    base = micrometres(box.top + (box.height + high) / 2)
    marks: list[Mark] = []
    done = 0.0
    for text in texts:
        run = _regular(text, high, numerals)
        left = begin + (total - done - run.width if leftward else done)
        wide = run.ink[2] - run.ink[0]
        start = micrometres(left + (run.width - wide) / 2 - run.ink[0])
        marks.append(Text(run=run, x=start, y=base, color=THIN))
        if text.isdigit():
            marks.append(base_rule(left + run.width / 2, base, wide + 0.2 * high, 0.3, THIN))
        done += run.width + _THIN_GAP * high
    return tuple(marks), around(marks)


_THIN_GAP = 0.3


def _thin_width(texts: Sequence[str], high: float, numerals: Numerals) -> float:
    runs = [_regular(text, high, numerals) for text in texts]
    return sum(run.width for run in runs) + _THIN_GAP * high * (len(texts) - 1)


def _regular(text: str, height: float, numerals: Numerals):
    return letters.run(text, height / letters.numeral_ratio(), numerals=numerals)


def around(marks: Sequence[Mark]) -> Rect:
    """The box about marks, a little larger."""
    bounds = [mark.bounds() for mark in marks]
    left, top = min(box.left for box in bounds), min(box.top for box in bounds)
    return Rect(
        micrometres(left - 0.2),
        micrometres(top - 0.2),
        micrometres(max(box.right for box in bounds) - left + 0.4),
        micrometres(max(box.bottom for box in bounds) - top + 0.4),
    )
