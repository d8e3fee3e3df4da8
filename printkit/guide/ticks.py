"""Two tables for the weeks: which tray is out when, and one to be filled in with a pencil. mm throughout."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from printkit.guide.blocks import joined
from printkit.guide.flow import HAIR, QUIET, Look, Strip, moved
from printkit.guide.lines import Style, aside, bold, broken, say, set_line, set_text, width_of
from printkit.pieces import Box, Dot, Line, Mark
from printkit.texts import Catalogue

_BOX = 3.8
"""A box to tick: a pencil's cross fits."""
_ROW = 6.0
_BETWEEN = 9.0
"""Between two tables side by side."""
_WRITE: tuple[float, ...] = (0.55,)
"""Gray of lines to be written on."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """A tray to be watched; `child` only in the first row of a child, `since` what is new about it."""

    child: str
    tray: str
    since: str = ""


def overview(
    look: Look, child: str, rows: Sequence[tuple[str, tuple[str, ...]]], count: int, *, across: int = 1
) -> tuple[Strip, ...]:
    """A child's trays down and weeks across: a full dot new, a ring out, a ring with a dot back again, a
    ring with a stroke through it out for a part of the week.

    `across` such tables are to stand side by side.
    """
    wide = (look.wide - _BETWEEN * (across - 1)) / across
    style, head = look.style(0.92), look.style(0.92, bold=True)
    step = min(
        9.0, 0.66 * wide / max(1, count), max(5.0, (wide - 50.0) / max(1, count)) if across > 1 else 9.0
    )
    names = wide - step * count
    first = wide - step * (count - 0.5)
    marks: list[Mark] = [*set_line(broken(child, head, names - 3)[0], head, 0.0, 0.5)]
    small = look.style(0.82, bold=True, color=look.accent)
    for number in range(count):
        marks += _centered(str(number + 1), small, first + number * step, 0.8)
    top = Strip(height=style.step + 1.0, marks=tuple(marks), gap=4.0, glue=True)
    strips = [top]
    for place, (name, signs) in enumerate(rows):
        lines = broken(name, style, names - 3)
        height = len(lines) * style.step + 0.9
        own: list[Mark] = [Line(x1=0.0, y1=0.0, x2=wide, y2=0.0, color=HAIR, line=0.15)]
        for n, line in enumerate(lines):
            own += set_line(line, style, 0.0, 0.4 + n * style.step)
        for number, sign in enumerate(signs):
            own += _dot(look, sign, first + number * step, height / 2)
        strips.append(Strip(height=height, marks=tuple(own), head=top, glue=place == 0))
    return tuple(strips)


def side_by_side(look: Look, tables: Sequence[tuple[Strip, ...]]) -> tuple[Strip, ...]:
    """Tables made for that many across as one, not to be parted; a single one stays as it is."""
    if len(tables) == 1:
        return tables[0]
    shift = (look.wide + _BETWEEN) / len(tables)
    own = [joined(table) for table in tables]
    marks = tuple(
        moved(mark, number * shift, 0.0) for number, strip in enumerate(own) for mark in strip.marks
    )
    return (Strip(height=max(strip.height for strip in own), marks=marks, gap=own[0].gap),)


def legend(look: Look, words: Mapping[str, str], rest: str) -> tuple[Strip, ...]:
    """What the dots mean, each beside its word; what does not fit goes onto a line of its own."""
    style = look.style(0.9, color=QUIET)
    parts = [*((sign, word, 2.6) for sign, word in words.items()), ("", rest, -1.4)]
    strips: list[Strip] = []
    marks: list[Mark] = []
    pen = 1.4
    for sign, word, shift in parts:
        wide = shift + width_of(word, style)
        if marks and pen + wide > look.wide:
            strips.append(Strip(height=style.step, marks=tuple(marks), gap=1.0, glue=True))
            marks, pen = [], 1.4
        marks += _dot(look, sign, pen, 0.5 * style.step)
        marks += set_text(word, style, pen + shift, look.wide)
        pen += wide + 7.0
    return (*strips, Strip(height=style.step, marks=tuple(marks), gap=1.0, glue=True))


def date_line(look: Look, strip: Strip, word: str) -> Strip:
    """The strip with a word and a line for a date at its right end."""
    style = look.style(0.9, color=QUIET)
    y = strip.height - 1.2
    line = Line(x1=look.wide - 30.0, y1=y, x2=look.wide, y2=y, color=_WRITE, line=0.15)
    left = look.wide - 32.0 - width_of(word, style)
    said = set_text(word, style, left, look.wide, y + 0.4 - style.step)
    return replace(strip, marks=(*strip.marks, line, *said))


def _dot(look: Look, sign: str, x: float, y: float) -> tuple[Mark, ...]:
    match sign:
        case "new":
            return (Dot(x=x, y=y, radius=1.35, fill=look.accent),)
        case "out":
            return (Dot(x=x, y=y, radius=1.15, stroke=look.accent, line=0.4),)
        case "goes":
            ring = Dot(x=x, y=y, radius=1.15, stroke=look.accent, line=0.4)
            stroke = Line(x1=x - 1.6, y1=y + 1.6, x2=x + 1.6, y2=y - 1.6, color=look.accent, line=0.4)
            return (ring, stroke)
        case "back":
            ring = Dot(x=x, y=y, radius=1.15, stroke=look.accent, line=0.4)
            return (ring, Dot(x=x, y=y, radius=0.55, fill=look.accent))
        case _:
            return ()


def tick_table(look: Look, rows: Sequence[Row], texts: Catalogue) -> tuple[Strip, ...]:
    """A row for each tray with a place for the date, four boxes and a line for a word."""
    words = ("sure", "growing", "not_yet", "unused")
    head = look.style(0.82, bold=True, color=look.accent)
    titles = {
        key: say(texts, f"weeks.guide.columns.{key}") for key in ("child", "tray", "date", *words, "word")
    }
    box = max(width_of(titles[key], head) for key in words) + 3.0
    date = max(14.0, width_of(titles["date"], head) + 3.0)
    wanted = max((width_of(row.child, look.style(0.92, bold=True)) for row in rows), default=0.0) + 3.0
    child = min(max(wanted, width_of(titles["child"], head) + 3.0), 0.16 * look.wide)
    free = look.wide - child - date - 4 * box
    tray = max(0.56 * free, min(free, 34.0))
    lefts = [0.0, child, child + tray, child + tray + date]
    boxes = [lefts[3] + (n + 0.5) * box for n in range(4)]
    word = lefts[3] + 4 * box + 2.0
    marks: list[Mark] = []
    for key, left in zip(("child", "tray", "date"), lefts, strict=False):
        marks += set_text(titles[key], head, left, look.wide)
    for key, x in zip(words, boxes, strict=True):
        marks += _centered(titles[key], head, x, 0.0)
    writes = look.wide - word
    if writes >= width_of(titles["word"], head):
        marks += set_text(titles["word"], head, word, look.wide)
    top = Strip(height=head.step + 0.8, marks=tuple(marks), gap=2.0, glue=True)
    strips = [top]
    style = look.style(0.92)
    for place, row in enumerate(rows):
        own: list[Mark] = []
        rule = 0.0 if row.child else child
        own.append(Line(x1=rule, y1=0.0, x2=look.wide, y2=0.0, color=HAIR, line=0.15))
        name = _lines(row, style, tray - 3.0)
        names = broken(bold(row.child), style, child - 2.0)
        height = max(_ROW, len(name) * style.step + 1.2, len(names) * style.step + 1.2)
        base = (_ROW - style.step) / 2
        for n, line in enumerate(names if row.child else ()):
            own += set_line(line, style, 0.0, base + n * style.step)
        for n, line in enumerate(name):
            own += set_line(line, style, child, base + n * style.step)
        foot = height - 1.2
        own.append(Line(x1=lefts[2], y1=foot, x2=lefts[2] + date - 3.0, y2=foot, color=_WRITE, line=0.15))
        for x in boxes:
            own.append(
                Box(
                    x=x - _BOX / 2, y=height / 2 - _BOX / 2, width=_BOX, height=_BOX, radius=0.6,
                    stroke=_WRITE, line=0.25,
                )
            )  # fmt: skip
        if writes > 8:
            own.append(Line(x1=word, y1=foot, x2=look.wide, y2=foot, color=_WRITE, line=0.15))
        strips.append(Strip(height=height, marks=tuple(own), head=top, glue=place == 0))
    return tuple(strips)


def _lines(row: Row, style: Style, width: float):
    """The tray's name with what is new about it in small letters, on one line or two."""
    words = f"{row.tray} {aside(row.since.replace(' ', chr(0xA0)))}" if row.since else row.tray
    return broken(words, style, width)


def _centered(words: str, style: Style, x: float, top: float) -> tuple[Mark, ...]:
    return set_text(words, style, x - width_of(words, style) / 2, 1000.0, top)
