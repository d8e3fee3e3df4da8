"""How to print: the files, true size, card, backs."""

from collections.abc import Sequence
from dataclasses import dataclass

from printkit.guide.blocks import Column, Row, items, labelled, paragraph, section, small, table
from printkit.guide.flow import Look, Strip
from printkit.guide.lines import bold, say, say_all
from printkit.guide.opening import sheets_words
from printkit.guide.sets import (
    GuideSet,
    backs_only,
    fronts_for,
    has_backs,
    sheets_by_stock,
    unprinted_control,
)
from printkit.labels import material_title, set_title, sides
from printkit.pack import Tray
from printkit.sheets.model import SheetFile
from printkit.texts import Catalogue
from printkit.units import PAPERS

# The bars at the foot of a sheet, and how far off they may be: every usual wrong setting of a print
# dialog reads under 98 % (worked out from the papers and common margins), so 1 % tells them apart.
BAR_MM, BAR_IN = 50.0, 2.0
RIGHT = (0.99, 1.01)
_FEW = 16
"""Files that are not parted in the table."""
WEIGHED = ("card", "plain")
COLORED_LEVELS = (1, 2, 4)
"""Levels of likeness at which pictures may differ in color."""


def printing(
    look: Look,
    sets: Sequence[GuideSet],
    files: Sequence[SheetFile],
    units: str,
    texts: Catalogue,
    *,
    fresh: bool,
) -> tuple[Strip, ...]:
    """The section 'Print', on a new page if `fresh`."""
    strips = [*section(look, say(texts, "guide.print.title"), "print", fresh=fresh)]
    strips += _files(look, files, units, texts)
    papers = [paper_name(paper, units, texts) for paper in dict.fromkeys(file.paper for file in files)]
    total = say(
        texts,
        "guide.print.total",
        sheets=sheets_words(sheets_by_stock(files), texts),
        papers=tuple(papers),
    )
    strips += small(look, total, gap=1.6)
    values = {
        "papers": texts.listing([bold(paper) for paper in papers], "or"),
        "ink": _ink_words(sets, texts),
        "right": _right(units, texts),
    }
    strips += labelled(
        look,
        say(texts, "guide.print.scale_title"),
        items(look, say_all(texts, "guide.print.scale", **values), numbered=True),
        gap=5.0,
    )
    for part in _parts(sets, files, texts):
        names = texts.listing(part.names)
        weight = say(texts, f"guide.print.weight.{part.key}.{units}") if part.key in WEIGHED else ""
        words = say_all(texts, f"guide.print.{part.key}", names=names, weight=weight)
        title = say(texts, f"guide.print.{part.key}_title")
        steps = items(look, words, numbered=part.key == "hand")
        body = steps if len(words) > 1 else paragraph(look, words[0], 0.0)
        strips += labelled(look, title, body, gap=4.5)
    return tuple(strips)


def _right(units: str, texts: Catalogue) -> str:
    """Which bar is measured, and the lengths at which it is right."""
    return say(
        texts,
        f"guide.print.right.{units}",
        low_mm=texts.fixed(BAR_MM * RIGHT[0], 1),
        high_mm=texts.fixed(BAR_MM * RIGHT[1], 1),
        low_in=texts.fixed(BAR_IN * RIGHT[0], 2),
        high_in=texts.fixed(BAR_IN * RIGHT[1], 2),
    )


def _ink_words(sets: Sequence[GuideSet], texts: Catalogue) -> str:
    """Whether to print in color, and which sets cannot be solved without it."""
    colored = [item.tray for item in sets if item.tray.child.ink == "color"]
    if not colored:
        return say(texts, "guide.print.ink.black")
    told = [tray.material for tray in colored if by_color(tray)]
    names = [say(texts, "guide.quoted", title=material_title(name, texts)) for name in dict.fromkeys(told)]
    if not names:
        return say(texts, "guide.print.ink.color")
    return say(texts, "guide.print.ink.odd", sets=tuple(names))


def by_color(tray: Tray) -> bool:
    """Whether a set in color cannot be solved on a print without color."""
    if tray.material in ("odd-one-out", "find-the-match"):
        return tray.child.lookalike in COLORED_LEVELS
    return tray.material == "shades"


def _files(look: Look, files: Sequence[SheetFile], units: str, texts: Catalogue) -> tuple[Strip, ...]:
    columns = (
        Column(title=say(texts, "guide.print.file"), keep=True),
        Column(title=say(texts, "guide.print.sheets"), lean="right"),
        Column(title=say(texts, "guide.print.paper")),
        Column(title=say(texts, "guide.print.sides")),
    )
    papers = {file.paper for file in files}
    rows = [
        Row(
            cells=(
                file.name,
                say(texts, "guide.print.same") if _fed_again(file, files) else str(file.sheets),
                _paper(file, len(papers) > 1, units, texts),
                _sides(file, files, texts),
            ),
            tied=len(files) <= _FEW,
        )
        for file in files
    ]
    return table(look, columns, rows, gap=0.5, full=True)


def _fed_again(file: SheetFile, files: Sequence[SheetFile]) -> bool:
    """Whether a file is printed on sheets that are counted with another file."""
    return backs_only(file) and fronts_for(file, files) is not None


def _paper(file: SheetFile, several: bool, units: str, texts: Catalogue) -> str:
    stock = say(texts, f"guide.stock.{file.stock}")
    if not several:
        return stock
    return say(texts, "guide.print.on_paper", stock=stock, paper=paper_name(file.paper, units, texts))


def paper_name(paper: tuple[float, float], units: str, texts: Catalogue) -> str:
    """'A4', 'Letter', or the size of a paper without a name."""
    name = next((name for name, size in PAPERS.items() if size == paper), None)
    return say(texts, f"guide.papers.{name}") if name else sides(paper, units, texts)


def _sides(file: SheetFile, files: Sequence[SheetFile], texts: Catalogue) -> str:
    if backs_only(file):
        fronts = fronts_for(file, files)
        return say(texts, "guide.print.side_backs", file=fronts.name if fronts else "")
    if file.duplex in ("long", "short"):
        return say(texts, f"guide.print.side_{file.duplex}")
    waits = any(backs_only(other) and fronts_for(other, files) is file for other in files)
    return say(texts, "guide.print.side_fronts" if waits else "guide.print.side_one")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Part:
    """A further part of the section, by its key in the catalogue, and what it concerns."""

    key: str
    names: tuple[str, ...] = ()


def _parts(sets: Sequence[GuideSet], files: Sequence[SheetFile], texts: Catalogue) -> list[_Part]:
    """What this pack's files ask for, and no more."""
    parts = [_Part(key=stock) for stock in ("card", "plain") if any(file.stock == stock for file in files)]
    for flip in ("long", "short"):
        names = tuple(file.name for file in files if file.duplex == flip and has_backs(file))
        if names:
            parts.append(_Part(key=flip, names=names))
    if any(backs_only(file) for file in files):
        parts.append(_Part(key="hand"))
    names = tuple(
        say(texts, "guide.childs", child=item.tray.child.name, set=set_title(item.tray, texts))
        for item in sets
        if unprinted_control(item)
    )
    if names:
        parts.append(_Part(key="none", names=names))
    return parts
