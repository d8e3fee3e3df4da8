"""How to print: the files, true size, card, backs."""

from collections.abc import Sequence
from dataclasses import dataclass

from printkit.errors import listing
from printkit.guide.blocks import Column, Row, items, labelled, paragraph, section, small, table
from printkit.guide.flow import Look, Strip
from printkit.guide.lines import say, say_all
from printkit.guide.opening import sheets_words
from printkit.guide.sets import (
    GuideSet,
    backs_only,
    fronts_for,
    has_backs,
    sheets_by_stock,
    unprinted_control,
)
from printkit.labels import length, lengths, set_title, sides
from printkit.sheets.model import SheetFile
from printkit.texts import Catalogue
from printkit.units import MM_PER_INCH, PAPERS

# The bars at the foot of a sheet, and how far off they may be: every usual wrong setting of a print
# dialog reads under 98 % (worked out from the papers and common margins), so 1 % tells them apart.
BAR_MM, BAR_IN = 50.0, 2 * MM_PER_INCH
RIGHT, WRONG = (0.99, 1.01), 0.98


def printing(
    look: Look, sets: Sequence[GuideSet], files: Sequence[SheetFile], units: str, texts: Catalogue
) -> tuple[Strip, ...]:
    """The section 'Print'."""
    strips = [*section(look, say(texts, "guide.print.title"), "print", fresh=True)]
    strips += _files(look, files, texts)
    total = say(texts, "guide.print.total", sheets=sheets_words(sheets_by_stock(files), texts))
    strips += small(look, total, gap=1.6)
    strips += labelled(
        look,
        say(texts, "guide.print.scale_title"),
        items(look, say_all(texts, "guide.print.scale", **_bars(units)), numbered=True),
        gap=5.0,
    )
    for part in _parts(sets, files, texts):
        words = say_all(texts, f"guide.print.{part.key}", names=listing(part.names, say(texts, "guide.and")))
        title = say(texts, f"guide.print.{part.key}_title")
        numbered = len(words) > 1
        body = items(look, words, numbered=True) if numbered else paragraph(look, words[0], 0.0)
        strips += labelled(look, title, body, gap=4.5)
    return tuple(strips)


def _bars(units: str) -> dict[str, str]:
    """The lengths of the bars as they must read, and from where they tell of a wrong setting."""
    both = {"mm": (BAR_MM,), "in": (BAR_IN,)}.get(units, (BAR_MM, BAR_IN))
    names = {BAR_MM: "mm", BAR_IN: "in"}
    wanted = {BAR_MM: "50 mm", BAR_IN: "2 in"}
    return {
        "bar": listing([wanted[bar] for bar in both], "/"),
        "right": listing(
            [lengths([bar * share for share in RIGHT], names[bar], "–").replace(" – ", "–") for bar in both], "/"
        ),
        "wrong": listing([length(bar * WRONG, names[bar]) for bar in both], "/"),
    }


def _files(look: Look, files: Sequence[SheetFile], texts: Catalogue) -> tuple[Strip, ...]:
    columns = (
        Column(title=say(texts, "guide.print.file")),
        Column(title=say(texts, "guide.print.sheets"), lean="right"),
        Column(title=say(texts, "guide.print.paper")),
        Column(title=say(texts, "guide.print.sides")),
    )
    papers = {file.paper for file in files}
    rows = [
        Row(
            cells=(
                file.name,
                str(file.sheets),
                _paper(file, len(papers) > 1, texts),
                _sides(file, files, texts),
            )
        )
        for file in files
    ]
    return table(look, columns, rows, gap=0.5, full=True)


def _paper(file: SheetFile, several: bool, texts: Catalogue) -> str:
    stock = say(texts, f"guide.stock.{file.stock}")
    if not several:
        return stock
    return say(texts, "guide.print.on_paper", stock=stock, paper=paper_name(file.paper, texts))


def paper_name(paper: tuple[float, float], texts: Catalogue) -> str:
    """'A4', 'Letter', or the size of a paper without a name."""
    name = next((name for name, size in PAPERS.items() if size == paper), None)
    return say(texts, f"guide.papers.{name}") if name else sides(paper, "mm")


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
    parts = [
        _Part(key=stock) for stock in ("card", "plain") if any(file.stock == stock for file in files)
    ]
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
