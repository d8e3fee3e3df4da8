"""Day tiles: a numeral, a picture where there is room, a bar on days that are marked."""

from collections.abc import Callable
from dataclasses import dataclass

from printkit.letters import Numerals
from printkit.materials.calendar.board import MARKED_TILE
from printkit.materials.layout import CONTENT_INSET, content, hairline, numeral, numeral_height, picture
from printkit.pieces import Box, Color, Drawing, Face, Mark
from printkit.units import Rect, micrometres

_SMALLEST_NUMERAL = 6.0
"""mm: where numerals beside a picture would be lower, the picture is left out."""
_BAR = 1.4
"""mm across of the bar on the tile of a marked day; its place is kept free on every tile."""


@dataclass(frozen=True, kw_only=True, slots=True)
class TilePen:
    """How tiles are drawn: numerals, the theme's color, the picture at a length in mm.

    Where numerals are to be `large` there is no picture.
    """

    numerals: Numerals
    accent: Color
    drawing: Callable[[float], Drawing]
    large: bool = False


def tile_face(day: int, size: tuple[float, float], pen: TilePen, *, marked: bool) -> Face:
    """The tile of a day; with a bar if it is `marked`."""
    inner = content(size) if size[1] >= MARKED_TILE else Rect(0, 0, *size).inset(CONTENT_INSET)
    marks: list[Mark] = [hairline(size, pen.accent)]
    bar, free = _barred(inner)
    if marked:
        marks.append(
            Box(x=bar.left, y=bar.top, width=bar.width, height=bar.height, radius=_BAR / 2, fill=pen.accent)
        )
    figure, spot = _halves(free)
    high = _numeral(figure, pen.numerals)
    pictured = high >= _SMALLEST_NUMERAL and not pen.large
    if not pictured:
        figure, high = free, _numeral(free, pen.numerals)
    base = micrometres(figure.top + (figure.height + high) / 2 - 0.8)
    marks += numeral(str(day), micrometres(figure.left + figure.width / 2), base, high, pen.numerals)
    if pictured:
        marks.append(picture(pen.drawing(max(spot.width, spot.height)), spot))
    return Face(marks=tuple(marks))


def _numeral(box: Rect, numerals: Numerals) -> float:
    """The height at which every day's numeral fits a box."""
    return numeral_height(range(20, 32), box.height - 1.9, box.width - 0.6, numerals)


def _barred(box: Rect) -> tuple[Rect, Rect]:
    """Where the bar of a marked day lies, over the numeral or left of it on a low tile, and what is left."""
    taken = _BAR + 0.8
    if box.height >= 12:
        bar = Rect(box.left, box.top, box.width, _BAR)
        return bar, Rect(box.left, box.top + taken, box.width, box.height - taken)
    bar = Rect(box.left, box.top, _BAR, box.height)
    return bar, Rect(box.left + taken, box.top, box.width - taken, box.height)


def _halves(box: Rect) -> tuple[Rect, Rect]:
    """The boxes of numeral and picture: side by side on a wide tile, one over the other on a high one."""
    if box.width >= box.height:
        wide = 0.56 * box.width
        return (
            Rect(box.left, box.top, wide, box.height),
            Rect(box.left + wide + 1.0, box.top, box.width - wide - 1.0, box.height),
        )
    high = 0.5 * box.height
    return (
        Rect(box.left, box.top, box.width, high),
        Rect(box.left, box.top + high + 2.0, box.width, box.height - high - 2.0),
    )
