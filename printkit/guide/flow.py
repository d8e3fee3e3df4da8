"""Strips -> pages: what may be parted and what may not, page heads and page numbers. mm throughout.

A strip is what no page break can part: a line of text, a row of a table, a drawing with its text.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from printkit.guide.lines import QUIET, Style, broken, set_line, set_text, width_of
from printkit.pieces import Box, Color, Dot, Hollow, Line, Mark, Picture, Text, Traced
from printkit.sheets.model import Bookmark, Page
from printkit.units import PAPERS, micrometres

INK: Color = (0.13,)
HAIR: Color = (0.72,)
LEAST_MARGIN = 15.0
_MOST_WIDE = 190.0
_SMALLEST = (100.0, 130.0)
"""A page with less room than this is no page to read: the guide is then laid out on A4."""
_HEAD = 9.0
_GRAY: Color = (0.3,)
"""Headings where the ink is not color."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """A page of the guide and its hand: paper, where text stands, colour of headings, mm an em.

    `side` is the width of the column for side labels; 0 on narrow paper, where they stand above.
    """

    width: float
    height: float
    margin: float
    left: float
    wide: float
    side: float
    accent: Color
    size: float = 3.5

    @property
    def body_left(self) -> float:
        """Where body text begins, from the left end of the text."""
        return self.side

    @property
    def body(self) -> float:
        """The width of body text."""
        return self.wide - self.side

    @property
    def room(self) -> float:
        """The height that strips can fill."""
        return self.height - 2 * self.margin - 2 * _HEAD

    def style(self, share: float = 1.0, *, bold: bool = False, color: Color = INK) -> Style:
        """The hand at a share of the body's size."""
        return Style(size=self.size * share, bold=bold, color=color)


def look_of(paper: tuple[float, float], margin: float, accent: Color) -> Look:
    """The look of a guide on that paper, or on A4 if that leaves no page to read."""
    own = max(margin, LEAST_MARGIN)
    if paper[0] - 2 * own < _SMALLEST[0] or paper[1] - 2 * own < _SMALLEST[1]:
        paper, own = PAPERS["a4"], LEAST_MARGIN
    wide = min(paper[0] - 2 * own, _MOST_WIDE)
    return Look(
        width=paper[0],
        height=paper[1],
        margin=own,
        left=micrometres((paper[0] - wide) / 2),
        wide=wide,
        side=36.0 if wide >= 150 else 0.0,
        accent=_GRAY if len(set(accent)) == 1 else _readable(accent),
    )


def _readable(color: Color) -> Color:
    """The colour, darkened until it can be read on white: contrast 4.5 (WCAG 2.2, 1.4.3)."""
    while _contrast(color) < 4.5:
        color = tuple(round(value * 0.92, 3) for value in color)
    return color


def _contrast(color: Color) -> float:
    red, green, blue = (
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (color if len(color) == 3 else color * 3)
    )
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)


@dataclass(frozen=True, kw_only=True, slots=True)
class Strip:
    """Marks in a strip of the text's width, from its top left corner.

    `gap` is kept free above it, except at the top of a page; with `glue` the next strip stays on
    the same page; `want` is the height that must be left on the page, or it begins a new one;
    `head` is repeated above it when it begins a page. `anchor` names the strip for page numbers.
    """

    height: float
    marks: tuple[Mark, ...] = ()
    gap: float = 0.0
    glue: bool = False
    want: float = 0.0
    fresh: bool = False
    head: "Strip | None" = None
    bookmarks: tuple[Bookmark, ...] = ()
    anchor: str = ""


def moved(mark: Mark, dx: float, dy: float) -> Mark:
    """The mark, shifted."""
    match mark:
        case Line():
            return replace(
                mark,
                x1=micrometres(mark.x1 + dx),
                y1=micrometres(mark.y1 + dy),
                x2=micrometres(mark.x2 + dx),
                y2=micrometres(mark.y2 + dy),
            )
        case Text() | Traced() | Hollow() | Picture() | Box() | Dot():
            return replace(mark, x=micrometres(mark.x + dx), y=micrometres(mark.y + dy))


def glued(strips: Sequence[Strip], *, last: bool = True) -> tuple[Strip, ...]:
    """The strips, none parted from the next; the last one stays as it is unless `last`."""
    end = len(strips) - 1
    return tuple(
        replace(strip, glue=True) if number < end or last else strip for number, strip in enumerate(strips)
    )


def spaced(strips: Sequence[Strip], gap: float) -> tuple[Strip, ...]:
    """The strips with that much free above the first."""
    return (replace(strips[0], gap=gap), *strips[1:]) if strips else ()


def height_of(strips: Sequence[Strip]) -> float:
    """How high the strips are, one under the other, without the gap above the first."""
    return sum(strip.gap + strip.height for strip in strips) - (strips[0].gap if strips else 0.0)


# --- pages -----------------------------------------------------------------------------------


def _groups(strips: Sequence[Strip]) -> Iterator[list[Strip]]:
    group: list[Strip] = []
    for strip in strips:
        group.append(strip)
        if not strip.glue:
            yield group
            group = []
    if group:
        yield group


def _filled(strips: Sequence[Strip], room: float) -> list[list[tuple[float, Strip]]]:
    """The strips of each page with the distance of each from the top of the text."""
    pages: list[list[tuple[float, Strip]]] = [[]]
    used = 0.0

    def begin(head: Strip | None) -> None:
        nonlocal used
        pages.append([])
        used = 0.0
        if head is not None:
            pages[-1].append((0.0, head))
            used = head.height

    for group in _groups(strips):
        first = group[0]
        needed = max(first.gap + height_of(group), first.want)
        if pages[-1] and (first.fresh or used + needed > room + 1e-6):
            begin(first.head)
        for strip in group:
            gap = strip.gap if pages[-1] else 0.0
            if pages[-1] and used + gap + strip.height > room + 1e-6:
                begin(strip.head)
                gap = 0.0
            pages[-1].append((used + gap, strip))
            used += gap + strip.height
    return [page for page in pages if page]


def anchors(strips: Sequence[Strip], look: Look) -> dict[str, int]:
    """The page on which each named strip stands, counted from 1."""
    return {
        strip.anchor: number
        for number, page in enumerate(_filled(strips, look.room), 1)
        for _, strip in page
        if strip.anchor
    }


def pages(strips: Sequence[Strip], look: Look, head: tuple[str, str]) -> tuple[Page, ...]:
    """The pages of the guide; `head` stands at the left and right above all but the first."""
    return tuple(
        Page(
            width=look.width,
            height=look.height,
            marks=(*_above(look, number, head), *_placed(page, look), *_below(look, number)),
            bookmarks=tuple(mark for _, strip in page for mark in strip.bookmarks),
        )
        for number, page in enumerate(_filled(strips, look.room), 1)
    )


def _placed(page: Sequence[tuple[float, Strip]], look: Look) -> Iterator[Mark]:
    for top, strip in page:
        for mark in strip.marks:
            yield moved(mark, look.left, look.margin + _HEAD + top)


def _above(look: Look, number: int, head: tuple[str, str]) -> tuple[Mark, ...]:
    """The head of every page but the first, which has its title."""
    if number == 1:
        return ()
    style, right = _small(look), look.left + look.wide
    wide = width_of(head[1], style)
    title = broken(head[0], style, look.wide - wide - 8)[0]
    y = micrometres(look.margin + style.step + 0.8)
    return (
        *set_line(title, style, look.left, look.margin),
        *set_text(head[1], style, right - wide, look.wide, look.margin),
        Line(x1=look.left, y1=y, x2=right, y2=y, color=HAIR, line=0.15),
    )


def _below(look: Look, number: int) -> tuple[Mark, ...]:
    style = _small(look)
    left = look.left + look.wide - width_of(str(number), style)
    return set_text(str(number), style, left, look.wide, look.height - look.margin - style.step)


def _small(look: Look) -> Style:
    return look.style(0.78, color=QUIET)


def settled(make, look: Look, tries: int = 4) -> tuple[Strip, ...]:
    """The strips of `make(pages by anchor)` once they know on which pages they stand."""
    known: Mapping[str, int] = {}
    strips: tuple[Strip, ...] = ()
    for _ in range(tries):
        strips = make(known)
        found = anchors(strips, look)
        if found == known:
            break
        known = found
    return strips
