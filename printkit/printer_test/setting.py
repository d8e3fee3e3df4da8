"""How words stand on the printer test: titles, numbered entries, lines to fill in. mm throughout."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from printkit import letters
from printkit.guide.lines import QUIET, Style, say, set_text, width_of
from printkit.guide.lines import broken as lines_of
from printkit.pieces import Box, Color, Line, Mark
from printkit.printer_test.edges import INSET, centered
from printkit.printer_test.patterns import ARM
from printkit.texts import Catalogue, bold
from printkit.units import PAPERS, Rect, micrometres

_INK: Color = (0.12,)
_ACCENTS: dict[str, Color] = {"front": (0.1, 0.36, 0.42), "back": (0.58, 0.27, 0.1)}
_PALE: Color = (0.94,)
_WHITE: Color = (1.0,)
_DISC = 1.5
"""The disc of a number, as a share of the size of the text."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Sheet:
    """The paper, and how text stands on one of its sides: `size` mm an em, `air` mm above each entry."""

    width: float
    height: float
    size: float
    flip: str
    texts: Catalogue
    side: str
    air: float = 0.0

    @property
    def room(self) -> Rect:
        """What lies within the rulers."""
        return Rect(INSET, INSET, self.width - 2 * INSET, self.height - 2 * INSET)

    @property
    def wide(self) -> bool:
        """Whether titles have a column of their own; on narrow paper they begin their text."""
        return self.room.width > 110

    @property
    def left(self) -> float:
        """Where the text begins."""
        return micrometres(self.room.left + (7.9 if self.wide else 2.1) * self.size)

    @property
    def style(self) -> Style:
        """How the text is set."""
        return Style(size=self.size, color=_INK)

    @property
    def accent(self) -> Color:
        """The color of titles: another on the back."""
        return _ACCENTS[self.side]

    @property
    def blank(self) -> float:
        """The width of a place to write a number in."""
        return 9.0 if self.wide else 6.0

    @property
    def targets(self) -> tuple[float, float]:
        """The middles of the two crosses, from the left: as far from it as from the right."""
        half = min(50.0, self.room.width / 2 - ARM - 4.5)
        return micrometres(self.width / 2 - half), micrometres(self.width / 2 + half)

    @property
    def paper_name(self) -> str:
        """The name of the paper, or its sides."""
        names = (name for name, size in PAPERS.items() if size == (self.width, self.height))
        name = next(names, "")
        if name:
            return self.texts.say(f"guide.papers.{name}")
        return f"{self.texts.number(self.width)} × {self.texts.number(self.height)} mm"

    def say(self, key: str) -> str:
        """A sentence of the test; '_' stands for a place to write."""
        return say(self.texts, f"printer_test.{key}", blank="_", paper=self.paper_name)


def title(sheet: Sheet) -> Iterator[Mark]:
    """The side in large letters, the paper, and at the right an arrow to the edge that goes in first."""
    room, size = sheet.room, sheet.size
    style = Style(size=2.2 * size, color=sheet.accent, bold=True)
    name = sheet.say(f"{sheet.side}_title")
    yield from set_text(name, style, room.left, room.width, room.top - 0.35 * size)
    left = room.left + width_of(name, style) + 1.1 * size
    about, edge = sheet.say("about"), sheet.say("first" if sheet.flip == "hand" else "top")
    x = micrometres(room.right - 0.6 * size)
    small = _beside(about, edge, 0.95 * size, x - 2.4 * size - left)
    quiet, dark = Style(size=small, color=QUIET), Style(size=small, color=_INK)
    top = room.top + 1.83 * size - small
    yield from set_text(about, quiet, left, room.width, top)
    right = x - 1.2 * size - width_of(edge, dark)
    yield from set_text(edge, dark, right, room.width, top)
    tip, end = micrometres(room.top - 0.1 * size), micrometres(room.top + 2.1 * size)
    barb = 0.55 * size
    yield Line(x1=x, y1=end, x2=x, y2=tip, color=_INK, line=0.5, round_ends=True)
    for dx in (-barb, barb):
        yield Line(
            x1=micrometres(x + dx), y1=micrometres(tip + 1.3 * barb), x2=x, y2=tip,
            color=_INK, line=0.5, round_ends=True,
        )  # fmt: skip
    y = micrometres(room.top + 2.6 * size)
    yield Line(x1=room.left, y1=y, x2=micrometres(room.right), y2=y, color=sheet.accent, line=0.4)


def _beside(one: str, other: str, size: float, width: float) -> float:
    """The size, at most `size` mm an em, at which two texts stand beside each other in `width` mm."""
    style = Style(size=size, color=_INK)
    return size * min(1.0, width / (width_of(one, style) + width_of(other, style)))


def entry(
    marks: list[Mark], sheet: Sheet, number: int, name: str, key: str, top: float, *, less: float = 0.0
) -> float:
    """A sentence with its number and title, `less` mm narrower; returns where the next may begin."""
    room, size = sheet.room, sheet.size
    top += sheet.air
    marks += _disc(sheet, number, top)
    words, heading = sheet.say(key), sheet.say(f"{name}_title")
    if sheet.wide:
        strong = Style(size=size, color=sheet.accent, bold=True)
        begin = room.left + 2.0 * size
        marks += set_text(heading, strong, begin, sheet.left - begin - 0.3 * size, top)
    else:
        stop = "" if heading.endswith("?") else "."
        words = f"{bold(heading + stop)} {words}"
    return text(marks, sheet, words, top, less=less)


def text(marks: list[Mark], sheet: Sheet, words: str, top: float, *, less: float = 0.0) -> float:
    """A text in the column for text; returns where the next may begin."""
    width = sheet.room.right - sheet.left - less
    marks += set_text(words, sheet.style, sheet.left, width, top)
    return top + len(lines_of(words, sheet.style, width)) * sheet.style.step + 0.75 * sheet.size


def _disc(sheet: Sheet, number: int, top: float) -> Iterator[Mark]:
    """The number of an entry, white on a disc, level with its first line."""
    across = micrometres(_DISC * sheet.size)
    y = micrometres(top + 0.65 * sheet.size - across / 2)
    left = sheet.room.left
    yield Box(x=left, y=y, width=across, height=across, radius=micrometres(across / 2), fill=sheet.accent)
    yield centered(str(number), left + across / 2, y + across / 2, sheet.size, _WHITE, bold=True)


def writing(marks: list[Mark], sheet: Sheet, name: str, top: float) -> float:
    """What to write into the pack file, with blanks in a light box, and an example."""
    style, left = sheet.style, sheet.left
    top = micrometres(text(marks, sheet, sheet.say(f"{name}_write"), top) - 0.4 * sheet.size)
    line, strong, blank = sheet.say(f"{name}_line"), 1.08 * style.size, 1.35 * sheet.blank
    inside, high = form_width(line, strong, blank) + 2 * style.size, 2.0 * style.step
    marks.append(
        Box(x=left, y=top, width=micrometres(inside), height=micrometres(high), radius=1.5, fill=_PALE)
    )
    marks += form(line, strong, left + 1.1 * style.size, top + 0.45 * style.step, blank)
    return text(marks, sheet, sheet.say(f"{name}_example"), top + high + 0.35 * style.size)


def between(sheet: Sheet, lines: Sequence[str], x: float, y: float) -> Iterator[Mark]:
    """Small words with their middle at (x, y)."""
    size = 0.85 * sheet.size
    for number, line in enumerate(lines):
        yield centered(line, x, y + (number - (len(lines) - 1) / 2) * 1.5 * size, size, (0.25,))


def form_width(line: str, size: float, blank: float) -> float:
    """The width of a line with places to write in."""
    return sum(_part_width(part, size, blank) for part in line.split(" ")) - 0.32 * size


def _part_width(part: str, size: float, blank: float) -> float:
    return (blank if part == "_" else letters.text_width(part, size)) + 0.32 * size


def form(line: str, size: float, left: float, top: float, blank: float) -> Iterator[Mark]:
    """A line with places to write in."""
    style = Style(size=size, color=_INK)
    pen, base = left, micrometres(top + 1.12 * size)
    for part in line.split(" "):
        if part == "_":
            end = micrometres(pen + blank)
            yield Line(x1=micrometres(pen), y1=base, x2=end, y2=base, color=(0.4,), line=0.2)
        else:
            yield from set_text(part, style, pen, 1000.0, top)
        pen += _part_width(part, size, blank)
