"""The contact sheet of a theme: all motifs at a glance, then each in three inks at three sizes."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from printkit import letters
from printkit.materials.layout import border, picture
from printkit.pictures import Motif, Theme, spoken
from printkit.pieces import Color, Dot, Line, Mark, Text
from printkit.sheets.model import Page
from printkit.shown import write_shown
from printkit.units import PAPERS, Rect, micrometres

INKS = ("color", "gray", "outline")
SIZES = (30.0, 20.0, 12.0)

_WIDE, _HIGH = PAPERS["a4"]
_MARGIN = 12.0
_ROOM = Rect(_MARGIN, _MARGIN, _WIDE - 2 * _MARGIN, _HIGH - 2 * _MARGIN)
_COLUMNS, _ROWS = 4, 4
_HEAD = 30.0
_GAP = 2.0
_INK: Color = (0.12,)
_QUIET: Color = (0.4,)


def contact_pages(theme: Theme) -> tuple[Page, ...]:
    """A4 pages: first the motifs in color with their English names, then every one in detail."""
    many = _COLUMNS * _ROWS + _COLUMNS
    motifs = theme.motifs
    glance = [_glance(theme, motifs[first : first + many]) for first in range(0, len(motifs), many)]
    return (*glance, *_details(theme))


def write_contact_sheet(theme: Theme, file: Path) -> None:
    """Writes the sheet as a PDF or a PNG (see `shown`). Raises PrintkitError, OSError."""
    write_shown(contact_pages(theme), file, title=theme.title("en"), kind="contact sheet")


# --- at a glance -----------------------------------------------------------------------------


def _glance(theme: Theme, motifs: Sequence[Motif]) -> Page:
    marks = [*_heading(theme)]
    rows = max(_ROWS, -(-len(motifs) // _COLUMNS))
    wide = _ROOM.width / _COLUMNS
    high = (_ROOM.height - _HEAD) / rows
    side = min(wide, high - 7.0) - 4.0
    for place, motif in enumerate(motifs):
        left = _ROOM.left + wide * (place % _COLUMNS)
        top = _ROOM.top + _HEAD + high * (place // _COLUMNS)
        spot = Rect(left + (wide - side) / 2, top + 2.0, side, side)
        marks.append(picture(motif.drawing("color", size=round(side, 1)), spot))
        marks.append(_middle(_said(motif.name("en", 1)), left + wide / 2, top + side + 6.5, wide - 2, 3.6))
    return Page(width=_WIDE, height=_HIGH, marks=tuple(marks))


def _heading(theme: Theme) -> Iterator[Mark]:
    """Title, season and number of pictures, the palette, and the border if there is one."""
    left, top = _ROOM.left, _ROOM.top
    yield _line(theme.title("en"), left, top + 9.0, 9.0, color=theme.accent, bold=True)
    count = f"{len(theme.motifs)} picture{'' if len(theme.motifs) == 1 else 's'}"
    about = " · ".join(word for word in (theme.season, count) if word)
    yield _line(about, left, top + 15.5, 3.8, color=_QUIET)
    for i, (_, color) in enumerate(reversed(theme.palette[:12])):
        yield Dot(
            x=micrometres(_ROOM.right - 3.5 - 8.0 * i),
            y=micrometres(top + 6.0),
            radius=3.0,
            fill=color,
            stroke=(0.8,),
            line=0.15,
        )
    yield from border(theme, "color", Rect(left, top + 19.5, _ROOM.width, 6.0))


# --- in detail -------------------------------------------------------------------------------


def _details(theme: Theme) -> Iterator[Page]:
    marks: list[Mark] = list(_columns())
    top = start = _ROOM.top + 7.0
    for motif in theme.motifs:
        texts = _texts(motif)
        high = SIZES[0] + 2.5 + 3.3 * len(texts) + 3.0
        if top + high > _ROOM.bottom and top > start:
            yield Page(width=_WIDE, height=_HIGH, marks=tuple(marks))
            marks, top = list(_columns()), start
        marks += _pictures(motif, top)
        for i, (text, bold) in enumerate(texts):
            base = top + SIZES[0] + 4.5 + 3.3 * i
            marks.append(_line(text, _ROOM.left, base, 2.4, color=_INK if bold else _QUIET, bold=bold))
        top += high
    yield Page(width=_WIDE, height=_HIGH, marks=tuple(marks))


def _columns() -> Iterator[Mark]:
    sizes = ", ".join(f"{size:g}" for size in SIZES)
    for i, ink in enumerate(INKS):
        left = _ROOM.left + _block() * i
        yield _line(f"{ink}: {sizes} mm", left, _ROOM.top + 3.0, 3.2, color=_QUIET)
    y = micrometres(_ROOM.top + 4.5)
    yield Line(x1=_ROOM.left, y1=y, x2=_ROOM.right, y2=y, color=(0.8,), line=0.2)


def _block() -> float:
    """The width of one ink's three sizes and the air behind them."""
    return _ROOM.width / len(INKS)


def _pictures(motif: Motif, top: float) -> Iterator[Mark]:
    """In each ink the largest picture, and beside it the two smaller ones over each other."""
    large, middle, small = SIZES
    for i, ink in enumerate(INKS):
        left = _ROOM.left + _block() * i
        beside = left + large + _GAP
        spots = (
            Rect(left, top, large, large),
            Rect(beside, top, middle, middle),
            Rect(beside, top + large - small, small, small),
        )
        for size, spot in zip(SIZES, spots, strict=True):
            yield picture(motif.drawing(ink, size=size), spot)


def _texts(motif: Motif) -> list[tuple[str, bool]]:
    """The lines under a motif, and whether each is bold: its key, names, parts and notes."""
    names = " · ".join(f"{tag}: {_forms(motif, tag)}" for tag, _ in motif.names)
    parts = ", ".join(spoken(part) for part in motif.parts)
    said = [
        names or "no names yet",
        f"parts: {parts}" if parts else "no named parts",
        *(f"drawn {note}" for note in motif.notes_in("outline")),
    ]
    wrapped = (line for text in said for line in letters.wrap(_said(text), 2.4, _ROOM.width))
    return [(_said(motif.key), True), *((line, False) for line in wrapped)]


def _forms(motif: Motif, tag: str) -> str:
    name = dict(motif.names)[tag]
    forms = ", ".join(dict.fromkeys(form for _, form in name.forms))
    return f"{forms} ({name.gender})" if name.gender else forms


# --- text ------------------------------------------------------------------------------------


def _said(text: str) -> str:
    """The text without letters that no typeface here has."""
    lost = letters.missing(text)
    return "".join(char for char in text if char not in lost) or "?"


def _line(text: str, x: float, base: float, size: float, *, color: Color, bold: bool = False) -> Text:
    run = letters.run(_said(text), size, bold=bold)
    return Text(run=run, x=micrometres(x), y=micrometres(base), color=color)


def _middle(text: str, middle: float, base: float, width: float, most: float) -> Text:
    run = letters.run(text, letters.shrink_to((text,), width, most))
    return Text(run=run, x=micrometres(middle - run.width / 2), y=micrometres(base), color=_INK)
