"""A sheet as a small drawing with its pieces, its cuts and their numbers."""

from collections.abc import Iterator, Sequence

from printkit.guide.cuts import Pattern, Step, steps
from printkit.guide.flow import HAIR, QUIET, Look
from printkit.letters import run
from printkit.pieces import Box, Line, Mark, Text
from printkit.sheets.model import Cut
from printkit.units import Rect, micrometres

SIZES = ((23.5, 33.0), (37.0, 52.0), (58.0, 82.0))
"""mm that the drawing of a sheet may measure: the first in which all numbers have room."""
_LANE, _TOP = 4.6, 1.2
_TINT = (0.94,)
_AIR = 0.35
"""mm around a number that no line comes into."""
_SLACK = 1e-3
_ALONG = (0.5, 0.3, 0.7, 0.15, 0.85)
"""Where along a cut its number may stand."""


def diagram(look: Look, pattern: Pattern) -> tuple[tuple[Mark, ...], float, float]:
    """The sheet with its pieces, cuts and their numbers: marks, width, height in mm.

    Where even the largest drawing has no room for all numbers, those between the first and the last
    of a step are left out.
    """
    room = look.wide - 60.0
    sizes = [size for size in SIZES if _LANE + size[0] <= room] or [SIZES[0]]
    for size in sizes:
        drawing = _Drawing(look, pattern, size)
        if drawing.whole or size is sizes[-1]:
            return drawing.marks(), drawing.right, drawing.bottom
    raise AssertionError


class _Drawing:
    """One size of the drawing."""

    def __init__(self, look: Look, pattern: Pattern, most: tuple[float, float]):
        self.look, self.pattern = look, pattern
        self.scale = min(most[0] / pattern.paper[0], most[1] / pattern.paper[1])
        self.right = _LANE + pattern.paper[0] * self.scale
        self.bottom = _TOP + pattern.paper[1] * self.scale
        self.edge = min((box.left for box in pattern.boxes), default=0.0)
        self.lines = {cut.n: self._line(cut) for cut in pattern.cuts}
        self.figures: dict[int, Text] = {}
        by_number = {cut.n: cut for cut in pattern.cuts}
        for number in _ranked(steps(pattern.paper, pattern.cuts)):
            found = self._figure(by_number[number])
            if found is not None:
                self.figures[number] = found
        self.whole = len(self.figures) == len(pattern.cuts)

    def marks(self) -> tuple[Mark, ...]:
        pieces = [self._box(box) for box in self.pattern.boxes]
        paper = Box(
            x=_LANE, y=_TOP, width=self.right - _LANE, height=self.bottom - _TOP, stroke=HAIR, line=0.25
        )
        figures = [self.figures[number] for number in sorted(self.figures)]
        return (*pieces, paper, *self.lines.values(), *figures)

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return micrometres(_LANE + x * self.scale), micrometres(_TOP + y * self.scale)

    def _box(self, box: Rect) -> Box:
        x, y = self._at(box.left, box.top)
        return Box(x=x, y=y, width=box.width * self.scale, height=box.height * self.scale, fill=_TINT)

    def _line(self, cut: Cut) -> Line:
        (x1, y1), (x2, y2) = self._at(cut.x1, cut.y1), self._at(cut.x2, cut.y2)
        return Line(x1=x1, y1=y1, x2=x2, y2=y2, color=QUIET, line=0.2, dash=(0.8, 0.6))

    def _figure(self, cut: Cut) -> Text | None:
        """The number of a cut where it is free of other numbers and of lines; None without such a place."""
        taken = [figure.bounds() for figure in self.figures.values()]
        for spot in self._spots(cut):
            bounds = spot.bounds()
            around = Rect(
                bounds.left - _AIR, bounds.top - _AIR, bounds.width + 2 * _AIR, bounds.height + 2 * _AIR
            )
            if any(around.meets(other) for other in taken):
                continue
            if not any(_crosses(line, around) for line in self.lines.values()):
                return spot
        return None

    def _spots(self, cut: Cut) -> Iterator[Text]:
        """Places for a number: beside the sheet for a whole cut across, else close to the line."""
        figure = run(str(cut.n), self.look.size * 0.62, bold=True)
        line, high, wide = self.lines[cut.n], -figure.ink[1], figure.width

        def text(x: float, y: float) -> Text:
            return Text(run=figure, x=micrometres(x), y=micrometres(y), color=self.look.accent)

        if abs(line.x1 - line.x2) > _SLACK:
            if cut.x1 <= self.edge + _SLACK and abs(cut.x2 - self.pattern.paper[0]) < _SLACK:
                x = _LANE - 0.9 - wide
                yield from (text(x, line.y1 + high / 2 + by * high) for by in (0.0, -0.5, -1.0, 0.5, 1.0))
            for share in _ALONG:
                x = line.x1 + share * (line.x2 - line.x1) - wide / 2
                yield from (text(x, line.y1 - 0.6), text(x, line.y1 + high + 0.6))
            return
        for share in (0.0, *_ALONG):
            y = line.y1 + high + 0.9 if not share else line.y1 + share * (line.y2 - line.y1) + high / 2
            yield from (
                text(x, y) for x in (line.x1 + 0.6, line.x1 - 0.6 - wide) if _LANE < x < self.right - wide
            )


def _ranked(told: Sequence[Step]) -> list[int]:
    """The numbers of all cuts, the first and the last of each step before those between."""
    ends = [number for step in told for number in (step.first, step.last)]
    between = [number for step in told for number in range(step.first + 1, step.last)]
    return list(dict.fromkeys((*ends, *between)))


def _crosses(line: Line, box: Rect) -> bool:
    """Whether an upright or level line enters a box."""
    return (
        min(line.x1, line.x2) < box.right
        and max(line.x1, line.x2) > box.left
        and min(line.y1, line.y2) < box.bottom
        and max(line.y1, line.y2) > box.top
    )
