"""Every stroke letter on paper, for the eye: how it is drawn, where the pen starts, which way it goes."""

from collections.abc import Sequence
from pathlib import Path

from printkit import letters
from printkit.letters.numerals import PLAIN_NUMERALS, Numerals
from printkit.letters.strokes import characters
from printkit.letters.traced import Style, traced, width
from printkit.pieces import Line, Mark, Text
from printkit.sheets.model import Page
from printkit.units import PAPERS, micrometres

_HEIGHT = 13.0
_MARGIN = 14.0
_COLUMNS, _ROWS = 7, 9
_SOFT = (0.78,)
_OTHER = Numerals(one="foot", four="open", seven="barred")


def letter_pages() -> tuple[Page, ...]:
    """A4 pages with every letter on its lines and its character beside it; other numerals come last."""
    shown = [(char, PLAIN_NUMERALS) for char in characters()] + [(char, _OTHER) for char in "147"]
    many = _COLUMNS * _ROWS
    return tuple(_page(shown[first : first + many]) for first in range(0, len(shown), many))


def write_letters(file: Path) -> None:
    """Writes the pages into a new PDF. Raises OSError, FileExistsError if there is such a file."""
    from printkit.writer import write

    written = write(letter_pages(), title="Stroke letters", language="en")
    with open(file, "xb") as out:
        out.write(written.data)


def _page(shown: Sequence[tuple[str, Numerals]]) -> Page:
    wide, high = PAPERS["a4"]
    across, down = (wide - 2 * _MARGIN) / _COLUMNS, (high - 2 * _MARGIN) / _ROWS
    marks: list[Mark] = []
    for place, (char, numerals) in enumerate(shown):
        left = _MARGIN + across * (place % _COLUMNS)
        top = _MARGIN + down * (place // _COLUMNS)
        marks += _cell(char, numerals, left, top, across, down)
    return Page(width=wide, height=high, marks=tuple(marks))


def _cell(char: str, numerals: Numerals, left: float, top: float, across: float, down: float) -> list[Mark]:
    base = micrometres(top + down * 0.62)
    marks: list[Mark] = [
        Line(
            x1=micrometres(left + 1),
            y1=micrometres(y),
            x2=micrometres(left + across - 1),
            y2=micrometres(y),
            color=_SOFT,
            line=0.4 if y == base else 0.15,
        )
        for y in (base - _HEIGHT, base - _HEIGHT / 2, base, base + _HEIGHT / 2)
    ]
    style = Style(height=_HEIGHT, manner="solid", signs="arrows", numerals=numerals)
    x = left + (across - width(char, style)) / 2
    marks.append(traced(char, style, micrometres(x), base))
    run = letters.run(char, 3.2, numerals=numerals)
    marks.append(Text(run=run, x=micrometres(left + 1.5), y=micrometres(top + 2.5), color=(0.45,)))
    return marks
