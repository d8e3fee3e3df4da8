"""Quantities drawn on small faces: things of one size, as the face of a die or in frames of ten."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from printkit.chance import Chance
from printkit.materials import arrange as arranging
from printkit.materials.frames import frame_marks
from printkit.materials.layout import pictures, shape_of
from printkit.materials.motifs import ChosenMotif
from printkit.pieces import Area, Drawing, Ground, Mark
from printkit.units import Rect

_MOST_SHARE = 0.45
"""The largest a thing may be, as a share of the shorter side of its place: two never look crowded."""
_NO_CHANCE = Chance(0, "quantities")


@dataclass(frozen=True, kw_only=True, slots=True)
class Quantities:
    """A drawing and the size in mm at which all quantities of a set show it."""

    drawing: Drawing
    thing: float

    def drawn(self, number: int, box: Rect) -> tuple[tuple[Mark, ...], Area]:
        """`number` things in the middle of a box, and the area in which they can be counted."""
        marks: list[Mark] = []
        ground: Ground = "none"
        arrange = arranging.picked(number)
        if arrange == "frame":
            ground = "frame"
            for frame in arranging.frames(number, box, self.thing / arranging.FRAME_FILL):
                marks += frame_marks(frame)
        wide, high = shape_of(self.drawing)
        marks += pictures(
            self.drawing, arranging.laid(number, arrange, box, self.thing, wide, high, _NO_CHANCE)
        )
        return tuple(marks), Area(box=box, things=number, ground=ground)


def quantities(motif: ChosenMotif, numbers: Iterable[int], box: Rect) -> Quantities:
    """The things of a set, as large as the largest number allows in a box of that size.

    They may be too small to be counted: see `layout.SMALLEST_THING`.
    """
    drawing = motif.drawing(20.0)
    wide, high = shape_of(drawing)
    most = min(
        arranging.largest(number, arranging.picked(number), box, wide, high, _NO_CHANCE) for number in numbers
    )
    thing = min(most, _MOST_SHARE * max(0.0, min(box.width, box.height)))
    return Quantities(drawing=motif.drawing(max(thing, 1.0)), thing=thing)


def widened(numbers: tuple[int, int], least: int) -> tuple[int, int]:
    """The range, or one of at least `least` numbers round it: first down, where the easier ones are.

    It goes down to 1, to 0 only where the range holds 0, and up to 100.
    """
    first, last = numbers
    lowest = 0 if first == 0 else 1
    first = max(lowest, min(first, last - least + 1))
    return first, min(100, max(last, first + least - 1))


def spread_choice(numbers: Sequence[int], count: int, chance: Chance) -> tuple[int, ...]:
    """`count` of the numbers by chance, one from each of `count` equal stretches, rising."""
    if count >= len(numbers):
        return tuple(numbers)
    edges = [len(numbers) * i // count for i in range(count + 1)]
    return tuple(chance.choice(numbers[start:end]) for start, end in pairwise(edges))
