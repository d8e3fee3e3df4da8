"""What is measured within the rulers: bars, crosses and the grids behind them, grays, fine lines, letters."""

from collections.abc import Iterator

from printkit import letters
from printkit.pieces import Box, Color, Dot, Line, Mark, Text
from printkit.printer_test.edges import centered
from printkit.texts import Catalogue
from printkit.units import MM_PER_INCH, micrometres

REACH = 10
"""mm to each side that a grid measures: as far as backs can be moved."""

ARM = 12.0
"""mm from the middle of a cross to the ends of its arms, a little beyond the grid."""

LABEL = 6.0
"""mm at the left of a grid that its numbers need."""

LINES = (0.1, 0.15, 0.25, 0.5)
"""mm; cut lines are 0.15."""

SIZES = (4, 5, 6, 8)
"""Points; set marks are 6."""

_INK: Color = (0.1,)
_FIGURES = 2.7
_GRAYS = 11
_POINT = 25.4 / 72


def bars(left: float, top: float, label_mm: str, label_in: str) -> Iterator[Mark]:
    """A bar of 50 mm and one of 2 inches below it, like those at the foot of a sheet."""
    for y, length, label in ((top + 2.0, 50.0, label_mm), (top + 7.0, 2 * MM_PER_INCH, label_in)):
        right = micrometres(left + length)
        yield Line(x1=left, y1=y, x2=right, y2=y, color=_INK, line=0.3)
        for x in (left, right):
            yield Line(x1=x, y1=micrometres(y - 1.4), x2=x, y2=micrometres(y + 1.4), color=_INK, line=0.2)
        yield Text(
            run=letters.run(label, 2.8), x=micrometres(right + 2.5), y=micrometres(y + 1.05), color=_INK
        )


def upright(x: float, top: float, label: str) -> Iterator[Mark]:
    """A bar of 50 mm down the page, its label at the left of it."""
    end = micrometres(top + 50.0)
    yield Line(x1=x, y1=top, x2=x, y2=end, color=_INK, line=0.3)
    for y in (top, end):
        yield Line(x1=micrometres(x - 1.4), y1=y, x2=micrometres(x + 1.4), y2=y, color=_INK, line=0.2)
    run = letters.run(label, 2.8)
    yield Text(run=run, x=micrometres(x - 2.0 - run.width), y=micrometres(top + 5.0), color=_INK)


def cross(x: float, y: float) -> Iterator[Mark]:
    """A cross dark enough to show through paper against a window."""
    yield Dot(x=x, y=y, radius=4.0, stroke=_INK, line=0.25)
    for dx, dy in ((ARM, 0.0), (0.0, ARM)):
        yield Line(
            x1=micrometres(x - dx),
            y1=micrometres(y - dy),
            x2=micrometres(x + dx),
            y2=micrometres(y + dy),
            color=_INK,
            line=0.35,
        )


def grid(x: float, y: float) -> Iterator[Mark]:
    """Millimetres about the middle, as far as REACH, with their numbers below and at the left."""
    across = range(-REACH, REACH + 1)
    fine, fifth, zero = (
        [mm for mm in across if mm % 5],
        [mm for mm in across if mm % 5 == 0 and mm],
        [0],
    )
    # Stronger lines are drawn over lighter ones, so that none is broken by another.
    for places, color, width in ((fine, (0.76,), 0.1), (fifth, (0.42,), 0.2), (zero, (0.1,), 0.3)):
        for mm in places:
            yield _whole(x + mm, y - REACH, x + mm, y + REACH, color, width)
            yield _whole(x - REACH, y + mm, x + REACH, y + mm, color, width)
    for mm in range(-REACH, REACH + 1, 5):
        yield centered(_signed(mm), x + mm, y + REACH + 2.6, _FIGURES)
        shown = letters.run(_signed(mm), _FIGURES)
        yield Text(
            run=shown,
            x=micrometres(x - REACH - 1.2 - shown.width),
            y=micrometres(y + mm + letters.numeral_ratio() * _FIGURES / 2),
            color=(0.2,),
        )


def _whole(x1: float, y1: float, x2: float, y2: float, color: Color, width: float) -> Line:
    return Line(
        x1=micrometres(x1),
        y1=micrometres(y1),
        x2=micrometres(x2),
        y2=micrometres(y2),
        color=color,
        line=width,
    )


def _signed(mm: int) -> str:
    """With the hyphen that is typed in a pack file as its minus."""
    return f"{mm:+d}" if mm else "0"


def grays(left: float, top: float, width: float) -> Iterator[Mark]:
    """Steps from white to black, 10 % each, with their share of black below."""
    wide = width / _GRAYS
    for step in range(_GRAYS):
        x = micrometres(left + step * wide)
        yield Box(x=x, y=top, width=micrometres(wide), height=6.0, fill=(round(1 - step / 10, 1),))
        yield centered(str(step * 10), x + wide / 2, top + 7.8, 1.9)
    yield Box(x=left, y=top, width=micrometres(width), height=6.0, stroke=(0.4,), line=0.12)


def fine_lines(left: float, top: float, width: float, texts: Catalogue) -> Iterator[Mark]:
    """The thinnest lines, whole and dashed like cut lines, each with its mm."""
    wide = width / len(LINES)
    for number, line in enumerate(LINES):
        x1 = micrometres(left + number * wide)
        x2 = micrometres(x1 + wide - 3.0)
        yield Line(x1=x1, y1=top, x2=x2, y2=top, color=_INK, line=line)
        y = micrometres(top + 1.6)
        yield Line(x1=x1, y1=y, x2=x2, y2=y, color=_INK, line=line, dash=(1.0, 1.2))
        yield Text(
            run=letters.run(f"{texts.number(line)} mm", 1.9), x=x1, y=micrometres(top + 4.4), color=(0.3,)
        )


def small_letters(left: float, top: float, width: float) -> Iterator[Mark]:
    """The same letters and figures in small sizes, each with its points."""
    wide = width / len(SIZES)
    for number, size in enumerate(SIZES):
        run = letters.run("14769 agde", size * _POINT)
        x = micrometres(left + number * wide)
        yield Text(run=run, x=x, y=micrometres(top + 2.6), color=_INK)
        yield Text(run=letters.run(f"{size} pt", 1.9), x=x, y=micrometres(top + 5.6), color=(0.3,))
