"""The faces of pairs: one thing in the middle of each front, one pattern on every back."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from printkit import letters
from printkit.materials.layout import (
    CONTENT_INSET,
    FAINT,
    MARK_SIZE,
    MARK_STRIP,
    accent,
    centered,
    content,
    hairline,
    hatching,
    numeral,
    numeral_height,
    picture,
    words_block,
)
from printkit.materials.quantities import Quantities
from printkit.pack import Tray
from printkit.pieces import Area, Box, Color, Drawing, Face, Line, Mark, Text
from printkit.units import Rect, micrometres

_PLACE_INK: Color = (0.4,)
_AIR = 1.0
SMALLEST_WORD = 3.0
"""mm an em of the smallest word a child is asked to read here (design choice)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Lettered:
    """How the words of a set are written: all `size` mm an em, `lines` of them at most on a card."""

    size: float
    lines: int

    @classmethod
    def of(cls, texts: Sequence[Sequence[str]], size: tuple[float, float], *, under: bool) -> "Lettered":
        """The size for words under a picture, or for words that have a card for themselves."""
        every = tuple(text for lines in texts for text in lines)
        lines = max((len(each) for each in texts), default=0)
        box = content(size)
        most = min(6.5, 0.1 * size[1]) if under else min(0.16 * size[1], box.height / (1.6 * max(lines, 1)))
        return cls(size=letters.shrink_to(every, box.width - 2 * _AIR, most), lines=lines)


def front(
    tray: Tray,
    size: tuple[float, float],
    facts: Any,
    drawing: Drawing | None,
    lines: tuple[str, ...],
    things: Quantities | None,
    lettered: Lettered,
    numerals: Sequence[int],
    place: str,
) -> Face:
    """The front of a card; `place` is the small 'n of N', where the back may not tell it."""
    box = content(size)
    # What the strip of the set mark takes away below is left free above as well.
    middle = Rect(box.left, box.top + MARK_STRIP, box.width, box.height - MARK_STRIP)
    marks: list[Mark] = [hairline(size, accent(tray))]
    areas: tuple[Area, ...] = ()
    if drawing is not None:
        high = lettered.size * 1.5 if lines else 0.0
        spot = Rect(middle.left, middle.top, middle.width, middle.height - high)
        marks.append(picture(drawing, _square_in(spot)))
        areas = (Area(box=Rect(box.left, box.top, box.width, spot.bottom - box.top), things=1),)
        base = middle.bottom - 0.35 * lettered.size
        marks += [centered(line, size[0] / 2, base, lettered.size) for line in lines]
    elif facts.shows == "things" and things is not None:
        drawn, area = things.drawn(facts.quantity, box.inset(1))
        marks += drawn
        areas = (area,)
    elif facts.shows == "numeral":
        height = numeral_height(numerals, 0.42 * size[1], middle.width - 4 * _AIR, tray.child.numerals)
        base = middle.top + (middle.height + height) / 2
        marks += numeral(str(facts.numeral), size[0] / 2, base, height, tray.child.numerals)
    else:
        marks += words_block(lines, middle, lettered.size)
    if place:
        marks.append(_place(place, size))
    return Face(marks=tuple(marks), areas=areas)


def _square_in(box: Rect) -> Rect:
    """A square in the middle, with a little air round it."""
    side = 0.94 * min(box.width, box.height)
    return Rect(box.left + (box.width - side) / 2, box.top + (box.height - side) / 2, side, side)


def _place(text: str, size: tuple[float, float]) -> Text:
    """Which card this is, where other cards have their set mark."""
    run = letters.run(text, MARK_SIZE)
    return Text(
        run=run,
        x=CONTENT_INSET,
        y=micrometres(size[1] - CONTENT_INSET - 0.3 * MARK_SIZE),
        color=_PLACE_INK,
    )


def patterned_back(tray: Tray, size: tuple[float, float]) -> Face:
    """The back of every card: a light lattice that looks the same both ways up and hides the front."""
    box = content(size)
    box = Rect(box.left, box.top + MARK_STRIP, box.width, box.height - MARK_STRIP).inset(0.4)
    tint = _light(accent(tray))
    inner = box.inset(1.4)
    slanting = hatching(inner, gap=4.5, color=tint, line=0.3)
    other_way = [
        Line(
            x1=micrometres(inner.left + inner.right - line.x1), y1=line.y1,
            x2=micrometres(inner.left + inner.right - line.x2), y2=line.y2,
            color=line.color, line=line.line,
        )
        for line in slanting
        if isinstance(line, Line)
    ]  # fmt: skip
    edge = Box(x=box.left, y=box.top, width=box.width, height=box.height, radius=2, stroke=tint, line=0.5)
    return Face(marks=(hairline(size, accent(tray)), edge, *slanting, *other_way))


def _light(color: Color) -> Color:
    """A color so light that it does not shine through paper."""
    if len(color) == 1:
        return FAINT
    return tuple(round(1 - 0.35 * (1 - part), 3) for part in color)
