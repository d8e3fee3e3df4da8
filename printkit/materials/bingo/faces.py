"""The faces of bingo: a board of cells with fine lines between, and a card for each call."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from printkit import letters
from printkit.materials import needs
from printkit.materials.layout import (
    MARK_STRIP,
    SOFT,
    accent,
    content,
    hairline,
    numeral,
    numeral_height,
    picture,
    words_block,
)
from printkit.materials.quantities import Quantities
from printkit.pack import Tray
from printkit.pieces import Area, Drawing, Face, Line, Mark
from printkit.units import Rect, micrometres

AIR = 3.0
"""mm that things keep from the lines of their cell."""
MOST_WORD = 9.0
SMALLEST_WORD = 3.0
"""mm an em of the smallest word a child is asked to read here (design choice)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Shown:
    """How the values of a game are shown on one kind of piece.

    `how` is 'numerals', 'things', 'words' or 'pictures'; `words` holds the lines of each number, all
    `word` mm an em; `drawings` the pictures by their keys.
    """

    how: str
    tray: Tray
    numbers: tuple[int, ...] = ()
    things: Quantities | None = None
    words: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    word: float = 0.0
    drawings: Mapping[str, Drawing] = field(default_factory=dict)

    def drawn(self, value: int | str, box: Rect) -> tuple[tuple[Mark, ...], tuple[Area, ...]]:
        """One value in the middle of a box, and the area in which it can be counted, if it can."""
        middle = box.left + box.width / 2
        match self.how:
            case "pictures":
                side = 0.9 * min(box.width, box.height)
                spot = Rect(middle - side / 2, box.top + (box.height - side) / 2, side, side)
                return (picture(self.drawings[str(value)], spot),), (Area(box=box, things=1),)
            case "things" if self.things is not None:
                marks, area = self.things.drawn(int(value), box)
                return marks, (area,)
            case "words":
                return words_block(self.words[int(value)], box, self.word), ()
            case _:
                numerals = self.tray.child.numerals
                most = min(0.6 * box.height, needs.least_numeral(self.tray.child, 32.0))
                height = numeral_height(self.numbers, most, box.width - 2, numerals)
                base = box.top + (box.height + height) / 2
                return numeral(str(value), middle, base, height, numerals), ()


def word_size(words: Mapping[int, tuple[str, ...]], box: Rect) -> float:
    """The size at which all words fit a box, in mm an em."""
    every = tuple(line for lines in words.values() for line in lines)
    lines = max(map(len, words.values()))
    return letters.shrink_to(every, box.width - 2, min(MOST_WORD, box.height / (1.6 * lines)))


def drawing_size(box: Rect) -> float:
    """How large a picture in such a box is, in mm."""
    return round(0.9 * min(box.width, box.height), 1)


# --- boards ----------------------------------------------------------------------------------


def field_of(size: tuple[float, float]) -> Rect:
    """Where the cells of a board lie; the strip of the set mark is left free above, too."""
    box = content(size)
    return Rect(box.left, box.top + MARK_STRIP, box.width, box.height - MARK_STRIP)


def board_cells(size: tuple[float, float], rows: int, columns: int) -> tuple[Rect, ...]:
    """The cells of a board in reading order, lines left out."""
    box = field_of(size)
    wide, high = box.width / columns, box.height / rows
    return tuple(
        Rect(
            micrometres(box.left + (n % columns) * wide),
            micrometres(box.top + (n // columns) * high),
            micrometres(wide),
            micrometres(high),
        ).inset(AIR)
        for n in range(rows * columns)
    )


def board_face(
    size: tuple[float, float], rows: int, columns: int, values: Sequence[int | str], shown: Shown
) -> Face:
    """A board."""
    box = field_of(size)
    marks: list[Mark] = [hairline(size, accent(shown.tray))]
    areas: list[Area] = []
    for i in range(1, columns):
        x = micrometres(box.left + i * box.width / columns)
        marks.append(Line(x1=x, y1=box.top, x2=x, y2=box.bottom, color=SOFT, line=0.3))
    for i in range(1, rows):
        y = micrometres(box.top + i * box.height / rows)
        marks.append(Line(x1=box.left, y1=y, x2=box.right, y2=y, color=SOFT, line=0.3))
    for value, cell in zip(values, board_cells(size, rows, columns), strict=True):
        drawn, counted = shown.drawn(value, cell)
        marks += drawn
        areas += counted
    return Face(marks=tuple(marks), areas=tuple(areas))


# --- calls -----------------------------------------------------------------------------------


def call_box(size: tuple[float, float]) -> Rect:
    """Where a calling card shows its value."""
    return field_of(size).inset(1)


def call_face(size: tuple[float, float], value: int | str, shown: Shown) -> Face:
    """A calling card."""
    marks, areas = shown.drawn(value, call_box(size))
    return Face(marks=(hairline(size, accent(shown.tray)), *marks), areas=areas)
