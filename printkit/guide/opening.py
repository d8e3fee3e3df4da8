"""The first page: what the pack is, the children and their trays at a glance, where to find what."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from printkit.guide.blocks import Column, Row, boxed, items, labelled, paragraph, table, text
from printkit.guide.flow import QUIET, Look, Strip, height_of
from printkit.guide.lines import say, say_count
from printkit.guide.sets import GuideSet, by_child, sheets_by_stock, tray_anchor
from printkit.labels import own_numbers, range_words, set_title
from printkit.materials.layout import border, picture
from printkit.pack import Child, Pack
from printkit.pieces import Mark
from printkit.sheets.model import Bookmark, SheetFile
from printkit.texts import Catalogue
from printkit.units import Rect, micrometres

_FEW = 8
"""Trays of a child that are not parted in the table."""
_BORDER = 5.0
"""mm of the theme's border under the title."""


def first_page(
    look: Look,
    pack: Pack,
    sets: Sequence[GuideSet],
    files: Sequence[SheetFile],
    texts: Catalogue,
    contents: Mapping[str, str],
    known: Mapping[str, int],
) -> tuple[Strip, ...]:
    """`contents` holds the title of each section by its anchor, `known` its page."""
    strips = [*_title(look, pack, texts)]
    strips += text(_introduction(sets, files, texts), look.style(), 0.0, look.wide, 5.0)
    glance = table(look, _columns(texts), _rows(sets, files, texts, known), gap=5.0, full=True)
    strips += (*glance[:-1], replace(glance[-1], glue=True))
    strips += _contents(look, contents, known, texts)
    if pack.notes:
        strips += _notes(look, pack.notes, texts)
    return tuple(strips)


def _title(look: Look, pack: Pack, texts: Catalogue) -> tuple[Strip, ...]:
    """The title with pictures of the theme above it; theme and ink are those of the first child."""
    child = pack.children[0].child
    high = min(26.0, 0.11 * look.room)
    ornaments = Strip(height=high, marks=_pictures(child, high))
    title = text(pack.title, look.style(2.7, bold=True, color=look.accent), 0.0, look.wide, 6.0)
    subtitle = _subtitle(pack.title, child, texts)
    under = text(subtitle, look.style(1.2, color=QUIET), 0.0, look.wide, 0.5)
    title = (replace(title[0], bookmarks=(Bookmark(title=pack.title),)), *title[1:])
    line = Strip(
        height=_BORDER + 2.0, marks=border(child.theme, child.ink, Rect(0.0, 2.0, look.wide, _BORDER))
    )
    return tuple(replace(strip, glue=True) for strip in (ornaments, *title, *under, line))


def _subtitle(title: str, child: Child, texts: Catalogue) -> str:
    """What the document is, with the theme before it where the title does not name it already."""
    theme, folded = child.theme.title(texts.language), title.casefold()
    names = [name.casefold() for name in (theme, *(name for _, name in child.theme.titles))]
    if any(name in folded or folded in name for name in names):
        return say(texts, "guide.subtitle.alone")
    return say(texts, "guide.subtitle.themed", theme=theme)


def _pictures(child: Child, high: float) -> tuple[Mark, ...]:
    """The first three pictures of the theme side by side, standing on one line."""
    marks: list[Mark] = []
    pen = 0.0
    for motif in child.theme.motifs[:3]:
        mark = picture(motif.drawing(child.ink, size=round(high, 1)), Rect(pen, 0.0, high, high))
        marks.append(replace(mark, x=micrometres(pen), y=micrometres(high - mark.height)))
        pen += mark.width + 0.27 * high
    return tuple(marks)


def _introduction(sets: Sequence[GuideSet], files: Sequence[SheetFile], texts: Catalogue) -> str:
    children = list(dict.fromkeys(name for item in sets for name in item.users))
    return say_count(
        texts,
        "guide.intro",
        len(sets),
        children=tuple(children),
        sheets=sheets_words(sheets_by_stock(files), texts),
    )


def sheets_words(counts: Mapping[str, int], texts: Catalogue) -> str:
    """'4 sheets of card and 2 sheets of plain paper'."""
    parts = [say_count(texts, f"guide.sheets.{stock}", count) for stock, count in counts.items() if count]
    return texts.listing(parts)


def _columns(texts: Catalogue) -> tuple[Column, ...]:
    return (
        Column(title=say(texts, "guide.glance.tray")),
        Column(title=say(texts, "guide.glance.about")),
        Column(title=say(texts, "guide.glance.pieces"), lean="right"),
        Column(title=say(texts, "guide.glance.paper"), lean="right"),
        Column(title=say(texts, "guide.glance.page"), lean="right"),
    )


def _rows(
    sets: Sequence[GuideSet], files: Sequence[SheetFile], texts: Catalogue, known: Mapping[str, int]
) -> list[Row]:
    rows: list[Row] = []
    for child, own in by_child(sets).items():
        counts = sheets_by_stock(files, child)
        paper = [say(texts, f"guide.glance.{stock}_sheets", n=n) for stock, n in counts.items() if n]
        pieces = sum(len(item.own) for item in own)
        numbers = own_numbers(own[0].tray.child)
        rows.append(Row(cells=(child, numbers, str(pieces), ", ".join(paper), ""), strong=True))
        for number, item in enumerate(own, 1):
            about = range_words(item.tray, texts)
            stock = say(texts, f"guide.stock.{item.tray.stock}")
            page = str(known.get(tray_anchor(item), 1))
            cells = (set_title(item.tray, texts), about, str(len(item.own)), stock, page)
            # Few trays stay on one page; of many no single one is left behind.
            tied = len(own) <= _FEW or number in (1, len(own) - 1)
            rows.append(Row(cells=cells, rule=False, tied=tied and number < len(own)))
    return rows


def _contents(
    look: Look, contents: Mapping[str, str], known: Mapping[str, int], texts: Catalogue
) -> tuple[Strip, ...]:
    lines = [
        say(texts, "guide.contents_line", title=title, page=known.get(anchor, 1))
        for anchor, title in contents.items()
    ]
    if not lines:
        return ()
    kept = " · ".join(line.replace(" ", "\xa0") for line in lines)
    strips = paragraph(look, kept, 0.0)
    return labelled(look, say(texts, "guide.contents"), strips, gap=7.0)


def _notes(look: Look, notes: Sequence[str], texts: Catalogue) -> tuple[Strip, ...]:
    title = say(texts, "guide.notes")
    notes = [texts.told(note) for note in notes]
    own = boxed(look, title, notes)
    if height_of(own) <= 0.4 * look.room:
        return own
    return labelled(look, title, items(look, notes), gap=7.0)
