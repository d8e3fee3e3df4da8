"""What a page of the guide is built from: headings, paragraphs, lists, tables, boxes. Each is strips."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from printkit.guide.flow import HAIR, QUIET, Look, Strip, glued, height_of, moved, spaced
from printkit.guide.lines import (
    Style,
    bold,
    broken,
    set_line,
    set_text,
    width_of,
)
from printkit.pieces import Box, Dot, Line, Mark
from printkit.sheets.model import Bookmark

_ITEM_GAP = 0.9
_CELL = 5.0
"""Free at the right end of a table's cell."""


def _kept(strips: Sequence[Strip]) -> tuple[Strip, ...]:
    """No line of a paragraph alone: the first two stay together, and the last two."""
    last = len(strips) - 1
    return tuple(
        replace(strip, glue=strip.glue or (last > 0 and number in (0, last - 1)))
        for number, strip in enumerate(strips)
    )


def text(words: str, style: Style, left: float, width: float, gap: float = 0.0) -> tuple[Strip, ...]:
    """A paragraph, one strip a line."""
    return _kept(
        [
            Strip(
                height=style.step,
                marks=set_line(line, style, left),
                gap=0.0 if number else gap,
            )
            for number, line in enumerate(broken(words, style, width))
        ]
    )


def paragraph(look: Look, words: str, gap: float = 2.2) -> tuple[Strip, ...]:
    """Body text."""
    return text(words, look.style(), look.body_left, look.body, gap)


def section(
    look: Look, title: str, anchor: str, *, fresh: bool = False, want: float = 60.0
) -> tuple[Strip, ...]:
    """The heading of a section with a fine rule under it, and its bookmark."""
    style = look.style(1.75, bold=True, color=look.accent)
    strips = text(title, style, 0.0, look.wide, 9.0)
    y = strips[-1].height + 0.6
    rule = Line(x1=0.0, y1=y, x2=look.wide, y2=y, color=look.accent, line=0.35)
    last = replace(strips[-1], height=y + 1.6, marks=(*strips[-1].marks, rule))
    strips = (*strips[:-1], last)
    first = replace(strips[0], fresh=fresh, want=want, anchor=anchor, bookmarks=(Bookmark(title=title),))
    return glued((first, *strips[1:]))


def subsection(
    look: Look,
    title: str,
    *,
    share: float = 1.25,
    gap: float = 5.5,
    want: float = 34.0,
    anchor: str = "",
    level: int | None = None,
    color: bool = False,
    width: float | None = None,
) -> tuple[Strip, ...]:
    """A smaller heading across the text; with `level` it is a bookmark."""
    style = look.style(share, bold=True, color=look.accent) if color else look.style(share, bold=True)
    strips = text(title, style, 0.0, look.wide if width is None else width, gap)
    marks = () if level is None else (Bookmark(title=title, level=level),)
    return glued((replace(strips[0], want=want, anchor=anchor, bookmarks=marks), *strips[1:]))


def items(
    look: Look,
    lines: Sequence[str],
    *,
    numbered: bool = False,
    first: int = 1,
    left: float | None = None,
    width: float | None = None,
) -> tuple[Strip, ...]:
    """A list with figures or dots."""
    left = look.body_left if left is None else left
    width = look.body if width is None else width
    style = look.style()
    indent = style.size * (1.45 if numbered else 1.1)
    strips: list[Strip] = []
    for number, line in enumerate(lines):
        own = text(line, style, left + indent, width - indent, _ITEM_GAP if number else 0.0)
        sign = _sign(look, numbered, first + number, left)
        strips.append(replace(own[0], marks=(*sign, *own[0].marks)))
        strips += own[1:]
    return tuple(strips)


def _sign(look: Look, numbered: bool, number: int, left: float) -> tuple[Mark, ...]:
    if numbered:
        return set_text(str(number), look.style(bold=True, color=look.accent), left, look.wide)
    size = look.size
    return (Dot(x=left + size * 0.3, y=size * 0.72, radius=size * 0.16, fill=look.accent),)


def labelled(look: Look, label: str, strips: Sequence[Strip], gap: float = 2.6) -> tuple[Strip, ...]:
    """Text with its label in the column at its left, or above it on narrow paper."""
    style = look.style(0.9, bold=True, color=look.accent)
    if not look.side:
        above = glued(text(label, style, 0.0, look.wide, gap))
        return (*above, *spaced(strips, 0.4))
    lines = broken(label, style, look.side - 4.0)
    step = look.style().step
    own = list(spaced(strips, gap))
    own += [Strip(height=step)] * (len(lines) - len(own))
    for number, line in enumerate(lines):
        # The base lines of label and text meet although the label is smaller.
        top = 0.97 * (look.size - style.size)
        own[number] = replace(
            own[number],
            marks=(*set_line(line, style, 0.0, top), *own[number].marks),
            glue=own[number].glue or number < len(lines) - 1,
        )
    return tuple(own)


# --- tables ----------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Column:
    """A column: its title, where its text leans, whether its text is kept whole if that can be."""

    title: str = ""
    lean: Literal["left", "right"] = "left"
    keep: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """A row of a table; `rule` draws a line above it, `strong` sets it bold, `tied` keeps the next with it."""

    cells: tuple[str, ...]
    rule: bool = True
    strong: bool = False
    tied: bool = False


def table(
    look: Look,
    columns: Sequence[Column],
    rows: Sequence[Row],
    *,
    left: float = 0.0,
    width: float | None = None,
    gap: float = 3.0,
    full: bool = False,
) -> tuple[Strip, ...]:
    """A table at most `width` mm wide (`full`: just as wide); its head is repeated on a new page."""
    width = look.wide - left if width is None else width
    body, head = look.style(0.92), look.style(0.82, bold=True, color=look.accent)
    wides = _column_widths(columns, rows, body, head, width, full)
    titled = any(column.title for column in columns)
    titles = Row(cells=tuple(column.title for column in columns), rule=False)
    above = _row(columns, titles, head, wides, left) if titled else None
    strips = []
    if above is not None:
        strips.append(replace(above, gap=gap, glue=True))
    for number, row in enumerate(rows):
        style = replace(body, bold=True) if row.strong else body
        strip = replace(_row(columns, row, style, wides, left), head=above)
        first = above is None and not number
        following = rows[number + 1] if number + 1 < len(rows) else None
        glue = following is not None and (not number or row.strong or row.tied)
        strips.append(replace(strip, gap=gap if first else 0.0, glue=glue))
    return tuple(strips)


def _column_widths(
    columns: Sequence[Column], rows: Sequence[Row], body: Style, head: Style, width: float, full: bool
) -> list[float]:
    """What each column needs, or a fair share of what there is where that is less."""
    strong = replace(body, bold=True)
    natural = [
        max(
            width_of(columns[i].title, head),
            *(width_of(row.cells[i], strong if row.strong else body) for row in rows),
        )
        + (_CELL if i + 1 < len(columns) else 0.0)
        + 0.2
        for i in range(len(columns))
    ]
    kept = [i for i, column in enumerate(columns) if column.keep and natural[i] <= width / 2]
    wides = [natural[i] if i in kept else 0.0 for i in range(len(columns))]
    left, open_ = width - sum(wides), set(range(len(columns))) - set(kept)
    while open_:
        share = left / len(open_)
        fitting = [i for i in open_ if natural[i] <= share + 1e-9]
        for i in fitting or open_:
            wides[i] = natural[i] if fitting else share
        taken = set(fitting) or set(open_)
        left -= sum(wides[i] for i in taken)
        open_ -= taken
    if full and left > 0:
        wides = [wide + left / len(wides) for wide in wides]
    return wides


def _row(columns: Sequence[Column], row: Row, style: Style, wides: Sequence[float], left: float) -> Strip:
    above, below = 0.8, 0.6
    marks: list[Mark] = []
    most = 1
    pen = left
    for column, cell, wide in zip(columns, row.cells, wides, strict=True):
        wide -= 0.0 if column is columns[-1] else _CELL
        lines = broken(cell, style, wide)
        most = max(most, len(lines))
        for number, line in enumerate(lines):
            own = set_line(line, style, pen, above + number * style.step)
            if column.lean == "right" and own:
                end = own[-1].x + own[-1].run.width
                own = tuple(moved(mark, pen + wide - end, 0.0) for mark in own)
            marks += own
        pen += wide + _CELL
    if row.rule:
        marks.append(Line(x1=left, y1=0.0, x2=left + sum(wides), y2=0.0, color=HAIR, line=0.15))
    return Strip(height=above + most * style.step + below, marks=tuple(marks))


def columned(
    look: Look, cells: Sequence[str], *, left: float, width: float, gap: float = 2.0
) -> tuple[Strip, ...]:
    """Short entries in as many columns as fit, read downwards."""
    style = look.style(0.92)
    widest = max((width_of(cell, style) for cell in cells), default=0.0) + 6.0
    across = max(1, min(len(cells), int((width + 6.0) // widest)))
    down = -(-len(cells) // across)
    strips = []
    for row in range(down):
        marks: list[Mark] = []
        most = 1
        for column in range(across):
            if row + column * down < len(cells):
                cell = cells[row + column * down]
                wide = width if across == 1 else widest - 6.0
                lines = broken(cell, style, wide)
                most = max(most, len(lines))
                marks += set_text(cell, style, left + column * (width + 6.0) / across, wide)
        strips.append(
            Strip(
                height=most * style.step,
                marks=tuple(marks),
                gap=0.0 if row else gap,
                glue=row == 0 and down > 1,
            )
        )
    return tuple(strips)


# --- boxes and things side by side -----------------------------------------------------------


def joined(strips: Sequence[Strip]) -> Strip:
    """Strips that stay together, as one."""
    marks: list[Mark] = []
    top = 0.0
    for number, strip in enumerate(strips):
        top += strip.gap if number else 0.0
        marks += (moved(mark, 0.0, top) for mark in strip.marks)
        top += strip.height
    return Strip(height=height_of(strips), marks=tuple(marks), gap=strips[0].gap)


def beside(picture: Sequence[Mark], height: float, strips: Sequence[Strip], gap: float) -> Strip:
    """A drawing `height` mm high at the left with strips beside it, not to be parted."""
    own = joined(strips)
    return Strip(height=max(height, own.height), marks=(*picture, *own.marks), gap=gap)


def boxed(look: Look, title: str, lines: Sequence[str], gap: float = 6.0) -> tuple[Strip, ...]:
    """A light box with a title and paragraphs, not to be parted."""
    pad = 4.0
    style = look.style(0.92)
    strips = list(text(bold(title), style, pad, look.wide - 2 * pad))
    for line in lines:
        strips += text(line, style, pad, look.wide - 2 * pad, 1.0)
    inner = joined(strips)
    height = inner.height + 2 * pad - 1.0
    edge = Box(x=0.0, y=0.0, width=look.wide, height=height, radius=2.5, stroke=HAIR, line=0.25)
    marks = (edge, *(moved(mark, 0.0, pad - 0.5) for mark in inner.marks))
    return (Strip(height=height, marks=marks, gap=gap),)


def small(look: Look, words: str, *, gap: float = 0.0, width: float | None = None) -> tuple[Strip, ...]:
    """Quiet small text."""
    return text(words, look.style(0.9, color=QUIET), 0.0, look.wide if width is None else width, gap)
