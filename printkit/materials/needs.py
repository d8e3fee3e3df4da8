"""What a child's `needs` ask of every material, in numbers: the one table that all of them read.

Every length is in mm. A child without that need gets what the material does for everybody, which is
what these functions return then. Facts: a child resolves 1 mm at arm's length where an adult of full
sight sees 0.3 mm (20/50 at 400 mm); ratios of contrast are those of WCAG 2.x.
"""

from collections.abc import Callable, Iterable
from typing import TypeVar

from printkit.pack import Child

Item = TypeVar("Item")

SMALLEST_THING = 5.0
"""mm across of the smallest thing a small child can be asked to count here (design choice)."""
LARGE_THING = 20.0
"""mm of a thing to count or look at for a child who needs them large: 20 mm at 400 mm is an angle of
2.9 degrees, 69 times what 20/50 resolves (design choice)."""
LARGE_NUMERAL = 40.0
"""mm of a numeral for that child (design choice)."""
GRIP_PIECE = 70.0
"""mm of either side of a piece for a child who grips with the whole hand; more than twice the 31.7 mm of
the small-parts cylinder (16 CFR 1501.4), and longer than anything that fits it (design choice)."""
PEG_PITCH = 20.0
"""mm between two clip zones: a peg of 10 mm and a small hand's error of 5 mm to either side."""
GRIP_PITCH = 28.0
"""mm between two choices for a child who needs an easy grip: 9 mm of error to either side of a peg,
or a ring for a counter of 22 mm with 2 mm free on either side (design choice)."""
GRIP_LINE = 25.0
"""mm of a way to cut along or trace, and of a line to write on (first ruled lines are 24 mm, from
memory; design choice)."""


def is_large(child: Child) -> bool:
    """Whether things and numerals are to be large, black on white."""
    return "large" in child.needs


def is_easy_grip(child: Child) -> bool:
    """Whether pieces, ways and places are to be large enough for a hand that does not pinch."""
    return "easy-grip" in child.needs


def is_color_safe(child: Child) -> bool:
    """Whether no task may hang on a color that people who lack a kind of cone cannot tell."""
    return "color-safe" in child.needs


def least_thing(child: Child, least: float = SMALLEST_THING) -> float:
    """mm of the longer side of a thing to count or look at; `least` is what all children get."""
    return max(least, LARGE_THING) if is_large(child) else least


def least_numeral(child: Child, least: float = 0.0) -> float:
    """mm of the height of a numeral; `least` is what all children get."""
    return max(least, LARGE_NUMERAL) if is_large(child) else least


def least_piece(child: Child, least: float = 0.0) -> float:
    """mm of the shorter side of a piece that a child handles."""
    return max(least, GRIP_PIECE) if is_easy_grip(child) else least


def pitch(child: Child) -> float:
    """mm from the middle of one choice to the next, at least; rings for counters lie 4 mm apart or more."""
    return max(GRIP_PITCH, child.counter + 6.0) if is_easy_grip(child) else PEG_PITCH


def line(child: Child, usual: float) -> float:
    """mm of a way to cut along or trace, or of a line to write on; `usual` is what all children get."""
    return max(usual, GRIP_LINE) if is_easy_grip(child) else usual


def narrow_line(child: Child, height: float) -> tuple[str, ...]:
    """A note that lines of `height` mm are less than the child's hand needs, if they are."""
    wanted = line(child, 0.0)
    if height >= wanted:
        return ()
    return (f"lines to write on or to follow are {height:g} mm, 'easy-grip' asks for {wanted:g} mm",)


def places(child: Child) -> bool:
    """Whether a ring to lay a counter in stands where others clip a clothespin or draw a mark."""
    return is_easy_grip(child)


def nearest(items: Iterable[Item], merit: Callable[[Item], float]) -> Item | None:
    """The first item that meets a need (merit 1), or else the one that comes nearest; None for no items."""
    found: list[tuple[float, Item]] = []
    for item in items:
        share = merit(item)
        found.append((share, item))
        if share >= 1:
            break
    return max(found, key=lambda each: each[0])[1] if found else None


def merit(child: Child, thing: float | None = None, numeral: float | None = None) -> float:
    """How far a layout meets 'large': 1 if it does, else the share of the worse of the two; 1 without it."""
    if not is_large(child):
        return 1.0
    shares = [1.0]
    if thing is not None:
        shares.append(thing / LARGE_THING)
    if numeral is not None:
        shares.append(numeral / LARGE_NUMERAL)
    return min(shares)
