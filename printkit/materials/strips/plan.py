"""How large the things, places and numerals of a set of strips can be on a strip of a given size.

A strip has three columns (a, b and the result) with a gap for a sign between them. What fits is
asked of the set's hardest facts, so it hangs on the settings alone and never on chance.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from printkit.letters import Numerals
from printkit.materials.layout import SMALLEST_THING, content
from printkit.materials.strips import groups as groups
from printkit.materials.strips.equation import Figures, figures
from printkit.materials.strips.facts import Fact, Operation, Unknown, with_whole
from printkit.materials.strips.groups import Shape
from printkit.units import Rect

Help = Literal["pictures", "places", "none"]
Kind = tuple[Operation, Unknown]
Columns = tuple[tuple[float, float], ...]

LARGEST_THING = 13.0
BETWEEN = 2.4
"""mm between the things and the equation under them, and between two places."""
FRAME_PAD = 1.4
"""mm between the frame of a group and its things; frames are drawn only where a group may be empty."""
_NUMERALS = tuple(20.0 - 0.5 * i for i in range(29))
"""Heights of numerals that are tried, in mm, down to 6."""
_LARGER = tuple(40.0 - i for i in range(20))
"""Heights that are tried before for a child who needs numerals large."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Wants:
    """What a set of strips may hold: every fact within `most` of these kinds.

    Boxes are at least `box` mm wide and high. Where the child needs things and numerals large, they
    grow to `large_thing` and `large_numeral` mm; both are 0 for others.
    """

    most: int
    kinds: tuple[Kind, ...]
    zero: bool
    help: Help
    place: float
    shape: Shape
    numerals: Numerals
    box: float = 0.0
    large_thing: float = 0.0
    large_numeral: float = 0.0

    @property
    def heights(self) -> tuple[float, ...]:
        """Heights of numerals to be tried, in mm, large ones first."""
        return (*(h for h in _LARGER if h <= self.large_numeral), *_NUMERALS)

    def figures(self, height: float) -> Figures:
        """Numerals of that height with the boxes of the set."""
        return figures(height, self.digits, self.numerals, self.box)

    def suits(self, height: float, usual: float) -> bool:
        """Whether numerals are not too high for the strip, by what is `usual` there or by the need."""
        return height <= max(usual, self.large_numeral)

    @property
    def digits(self) -> int:
        return len(str(self.most))

    @property
    def pad(self) -> float:
        return FRAME_PAD if self.zero and self.help == "pictures" else 0.0

    def hardest(self, kind: Kind) -> tuple[Fact, ...]:
        """The facts of a kind that need most room: every other one is smaller in each number."""
        return with_whole(self.most, kind[0], zero=self.zero)


@dataclass(frozen=True, kw_only=True, slots=True)
class Fit:
    """What a strip of `size` can hold: numerals and things of these sizes.

    `across` is how many blocks of ten lie side by side, `down` how many places below one another.
    """

    size: tuple[float, float]
    how: Figures
    thing: float = 0.0
    across: int = 1
    down: int = 1

    @property
    def merit(self) -> float:
        """What decides whether the strip pleases: the size of a thing, or else of a numeral."""
        return self.thing or self.how.height


def inner(size: tuple[float, float]) -> Rect:
    """The part of a strip that is drawn on: a little air inside the hairline, on all sides."""
    box = content(size)
    return Rect(box.left + 2.0, box.top + 1.5, box.width - 4.0, box.height - 1.5)


def shown(kind: Kind) -> tuple[bool, bool, bool]:
    """Which of a, b and the result have their things drawn.

    What is taken away is drawn crossed among the a things where the result is asked for.
    """
    operation, unknown = kind
    if operation == "subtract" and unknown == "result":
        return (True, False, False)
    return (unknown != "start", unknown != "change", unknown != "result")


def hidden(kind: Kind) -> tuple[bool, bool, bool]:
    """Which of a, b and the result is the unknown."""
    return (kind[1] == "start", kind[1] == "change", kind[1] == "result")


def fitted(size: tuple[float, float], wants: Wants) -> Fit | None:
    """The best a strip of that size can do, or None if it cannot hold the set."""
    fits = [fit for fit in _FITS[wants.help](size, wants) if fit is not None]
    if wants.large_numeral:
        return max(fits, key=lambda fit: (met(fit, wants), fit.how.height, fit.thing), default=None)
    return max(fits, key=lambda fit: (min(fit.thing / _BESIDE, fit.how.height), fit.thing), default=None)


def met(fit: Fit, wants: Wants) -> float:
    """How far a strip meets the need of a child who needs things and numerals large: 1 if it does."""
    thing = fit.thing / wants.large_thing if wants.help == "pictures" else 1.0
    return min(1.0, thing, fit.how.height / wants.large_numeral)


_BESIDE = 0.6
"""The size of a thing that looks right above a numeral, in heights of the numeral (design choice)."""


def minimums(how: Figures, wants: Wants, kind: Kind) -> tuple[float, ...]:
    """The least width of each column: that of its widest numeral, or of the box."""
    ends = wants.hardest(kind)[0], wants.hardest(kind)[-1]
    digits = [max(len(str(fact.numbers[i])) for fact in ends) for i in range(3)]
    return tuple(
        how.box if unknown else how.wide(int("8" * count))
        for unknown, count in zip(hidden(kind), digits, strict=True)
    )


# --- without things --------------------------------------------------------------------------


def _plain(size: tuple[float, float], wants: Wants) -> Iterator[Fit | None]:
    box = inner(size)
    for height in wants.heights:
        how = wants.figures(height)
        if how.high > box.height or not wants.suits(height, 18.0):
            continue
        if all(sum(minimums(how, wants, kind)) + 2 * how.slot <= box.width for kind in wants.kinds):
            yield Fit(size=size, how=how)
            return


# --- with things -----------------------------------------------------------------------------


def _pictured(size: tuple[float, float], wants: Wants) -> Iterator[Fit | None]:
    box = inner(size)
    for height in wants.heights:
        how = wants.figures(height)
        if not wants.suits(height, _preferred(box)) or height < 7.0:
            continue
        least = {kind: minimums(how, wants, kind) for kind in wants.kinds}
        for across in _acrosses(wants.most):
            thing = _thing(how, across, box, wants, least)
            if thing >= SMALLEST_THING:
                yield Fit(size=size, how=how, across=across, thing=math.floor(thing * 100) / 100)


def _preferred(box: Rect) -> float:
    """The height of numerals that looks right under things, in mm."""
    return max(9.5, min(16.0, 0.4 * box.height - 2.0))


def _acrosses(most: int) -> list[int]:
    """How many blocks of ten may lie side by side: the fewest for each number of lines."""
    blocks = math.ceil(most / 10)
    return sorted({math.ceil(blocks / lines) for lines in range(1, blocks + 1)})


def _thing(
    how: Figures, across: int, box: Rect, wants: Wants, least: Mapping[Kind, Sequence[float]]
) -> float:
    """The size of a thing at which every fact fits; 0 once it is too small."""
    band = box.height - how.high - BETWEEN - 2 * wants.pad
    size = min(
        max(LARGEST_THING, wants.large_thing), band / groups.extent(wants.most, across, wants.shape)[1]
    )
    for kind in wants.kinds:
        for fact in wants.hardest(kind):
            if size < SMALLEST_THING:
                return 0.0
            size = min(size, _widest_thing(how, across, kind, fact, least[kind], box, wants))
    return size


def _widest_thing(how, across, kind, fact, least, box, wants) -> float:
    units = [
        groups.extent(number, across, wants.shape)[0] if drawn else 0.0
        for number, drawn in zip(fact.numbers, shown(kind), strict=True)
    ]
    bare = [
        max(0.0, width - (2 * wants.pad if unit else 0.0)) for width, unit in zip(least, units, strict=True)
    ]
    padding = 2 * wants.pad * sum(1 for unit in units if unit)
    return _common_size(units, bare, box.width - 2 * how.slot - padding)


def _common_size(units: Sequence[float], least: Sequence[float], width: float) -> float:
    """The size at which columns of max(unit x size, least) are `width` mm wide together; 0 if none."""
    growing = [i for i, unit in enumerate(units) if unit]
    if not growing:
        return LARGEST_THING if sum(least) <= width else 0.0
    while growing:
        fixed = sum(wide for i, wide in enumerate(least) if i not in growing)
        size = (width - fixed) / sum(units[i] for i in growing)
        held = [i for i in growing if units[i] * size >= least[i]]
        if len(held) == len(growing):
            return size
        growing = held
    return 0.0


def picture_columns(fit: Fit, wants: Wants, kind: Kind, fact: Fact) -> Columns:
    """The columns of one strip: as even as its things allow."""
    least = list(minimums(fit.how, wants, kind))
    for i, (number, drawn) in enumerate(zip(fact.numbers, shown(kind), strict=True)):
        if drawn:
            unit = groups.extent(number, fit.across, wants.shape)[0]
            least[i] = max(least[i], unit * fit.thing + 2 * wants.pad)
    return columns(fit, least)


# --- with places -----------------------------------------------------------------------------


def _placed(size: tuple[float, float], wants: Wants) -> Iterator[Fit | None]:
    box = inner(size)
    for height in wants.heights:
        how = wants.figures(height)
        if not wants.suits(height, min(_preferred(box), 12.0)) or height < 7.0:
            continue
        band = box.height - how.high - BETWEEN
        down = int((band + BETWEEN + 1e-6) // (wants.place + BETWEEN))
        if down >= 1 and all(_places_fit(how, down, kind, box, wants) for kind in wants.kinds):
            yield Fit(size=size, how=how, down=down, thing=wants.place)


def _places_fit(how: Figures, down: int, kind: Kind, box: Rect, wants: Wants) -> bool:
    least = minimums(how, wants, kind)
    room = box.width - 2 * how.slot
    return all(
        sum(place_widths(least, down, kind, fact, wants.place)) <= room + 1e-6 for fact in wants.hardest(kind)
    )


def place_widths(
    least: Sequence[float], down: int, kind: Kind, fact: Fact, place: float
) -> tuple[float, ...]:
    """The least width of each column of a strip with places, at most `down` below one another."""
    return tuple(
        max(width, math.ceil(number / down) * (place + BETWEEN) - BETWEEN) if drawn else width
        for width, number, drawn in zip(least, fact.numbers, shown(kind), strict=True)
    )


def place_columns(fit: Fit, wants: Wants, kind: Kind, fact: Fact) -> Columns:
    """The columns of one strip with places: as even as its places allow."""
    least = minimums(fit.how, wants, kind)
    return columns(fit, place_widths(least, fit.down, kind, fact, wants.place))


# --- columns ---------------------------------------------------------------------------------

_WIDEST = 62.0
"""mm to which a column is widened at most: an equation should be read at one look."""


def columns(fit: Fit, least: Sequence[float]) -> Columns:
    """(left, width) of three columns, none narrower than `least`, as even as possible."""
    box = inner(fit.size)
    room = box.width - 2 * fit.how.slot
    level = _level(least, room)
    widths = [max(width, min(level, _WIDEST)) for width in least]
    left = box.left + (box.width - sum(widths) - 2 * fit.how.slot) / 2
    placed = []
    for width in widths:
        placed.append((left, width))
        left += width + fit.how.slot
    return tuple(placed)


def _level(least: Sequence[float], room: float) -> float:
    """The width to which narrow columns can be raised together."""
    raised = sorted(least)
    while len(raised) > 1:
        wide = raised[-1]
        level = (room - (sum(least) - sum(raised))) / len(raised)
        if wide <= level:
            return level
        raised.pop()
    return room - (sum(least) - sum(raised))


_FITS = {"none": _plain, "pictures": _pictured, "places": _placed}
