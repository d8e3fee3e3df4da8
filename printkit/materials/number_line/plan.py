"""How a number line is laid out: how far numbers lie apart, which numbers a segment holds.

A line longer than a sheet is printed in segments. Each but the last goes on beyond its joint with a
tab, on which the next one is glued, its left edge on the joint: so the line runs to that edge, where
all else keeps clear of the cut. A joint lies halfway between two numbers where there is room, else
nearer to the one before, whose numeral lies under the edge and cannot be cut.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from printkit import letters
from printkit.letters import Numerals
from printkit.materials.layout import CONTENT_INSET
from printkit.units import micrometres

TAB = 14.0
"""mm of a tab: enough for a glue stick (design choice)."""
SMALLEST_FIGURE = 5.0
"""mm of the smallest numeral of a line (design choice)."""
_APART = 2.5
"""mm between the rules of two neighboring numerals."""
_UNDER_EDGE = 0.8
"""mm between a numeral and the edge of the segment that is glued beside it."""
_FINE = 0.5
"""mm by which steps are tried."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Segment:
    """The numbers first..last at `places` (mm from the left edge); `joint` is where the next edge lies."""

    first: int
    last: int
    places: tuple[float, ...]
    joint: float | None

    @property
    def numbers(self) -> range:
        return range(self.first, self.last + 1)


@dataclass(frozen=True, kw_only=True, slots=True)
class LinePlan:
    """A whole line: `step` mm from number to number, every segment `width` mm wide.

    `figure` is the height of its numerals in mm.
    """

    step: float
    width: float
    figure: float
    segments: tuple[Segment, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Ask:
    """What a line must hold: the numbers first..last in segments at most `length` mm long.

    Numbers lie `least` to `most` mm apart; numerals are `floor` to `figure` mm high.
    """

    first: int
    last: int
    length: float
    least: float
    most: float
    figure: float
    numerals: Numerals
    floor: float = SMALLEST_FIGURE


def planned(ask: Ask) -> LinePlan | None:
    """The line with the fewest segments, its step as wide as they allow; None if nothing fits."""
    count = ask.last - ask.first + 1
    ends, inner = _wide(ask, (ask.first, ask.last)), _wide(ask, range(ask.first, ask.last))
    for segments in range(1, count // 2 + 1):
        tried = ask.most
        while tried >= ask.least - 1e-6:
            found = _laid(ask, segments, micrometres(tried), ends, inner)
            if found is not None and found.width <= ask.length + 1e-6:
                return found
            tried = tried - _FINE if tried - _FINE > ask.least or tried <= ask.least else ask.least
    return None


def _wide(ask: Ask, numbers: Iterable[int]) -> float:
    """The width of the widest of some numerals with its rule, in heights."""
    size = 1 / letters.numeral_ratio(bold=True)
    runs = [letters.run(str(n), size, bold=True, numerals=ask.numerals) for n in numbers]
    return max(run.ink[2] - run.ink[0] for run in runs) + 0.2


def _laid(ask: Ask, segments: int, step: float, ends: float, inner: float) -> LinePlan | None:
    """The line at that step, however long; None if its numerals were too small."""
    joined = segments > 1
    figure = min(ask.figure, (step - _APART) / max(ends, inner))
    if joined:
        figure = min(figure, (step - CONTENT_INSET - _UNDER_EDGE) / inner)
    if figure < ask.floor - 1e-6:
        return None
    end = max(step / 2, CONTENT_INSET + figure * ends / 2)
    lead = max(step / 2, CONTENT_INSET + figure * inner / 2)
    share, more = divmod(ask.last - ask.first + 1, segments)
    counts = [share + 1] * more + [share] * (segments - more)
    first, made = ask.first, []
    for number, here in enumerate(counts):
        start = lead if number else end
        places = tuple(micrometres(start + i * step) for i in range(here))
        joint = None if number == segments - 1 else micrometres(places[-1] + step - lead)
        made.append(Segment(first=first, last=first + here - 1, places=places, joint=joint))
        first += here
    width = max(item.places[-1] + end if item.joint is None else item.joint + TAB for item in made)
    return LinePlan(step=step, width=micrometres(width), figure=figure, segments=tuple(made))
