"""Which sheet holds pieces of which trays, so that a cut sheet can be sorted."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from printkit.guide.blocks import Column, Row, paragraph, subsection, table
from printkit.guide.cuts import sheet_numbers
from printkit.guide.flow import Look, Strip, spaced
from printkit.guide.lines import say, say_count
from printkit.guide.sets import GuideSet, backs_only, is_label
from printkit.labels import set_title
from printkit.sheets.model import Page, SheetFile
from printkit.texts import Catalogue

_FEW = 16
"""Lines of a file that are not parted in the table."""
Held = tuple[tuple[tuple[str, int], ...], tuple[str, ...]]
"""How many pieces of which sets, and the sets whose labels a sheet holds."""


def fronts(file: SheetFile) -> tuple[Page, ...]:
    """The fronts of a file's sheets in order; none in a file of backs."""
    return () if backs_only(file) else tuple(page for page in file.pages if page.side == "front")


def held(page: Page) -> Held:
    """What a sheet holds, in the order in which one reads it."""
    own = Counter(item.piece.set for item in page.placed if not is_label(item.piece))
    labels = tuple(item.piece.set for item in page.placed if is_label(item.piece))
    return tuple(own.items()), labels


def sheets_with(item: GuideSet, files: Sequence[SheetFile]) -> dict[str, tuple[int, ...]]:
    """The sheets that hold pieces of a set, by file, counted from 1."""
    child, name = item.tray.child.name, item.tray.set
    found = {
        file.name: tuple(
            number
            for number, page in enumerate(fronts(file), 1)
            if any(
                each.piece.child == child and each.piece.set == name and not is_label(each.piece)
                for each in page.placed
            )
        )
        for file in files
    }
    return {file: numbers for file, numbers in found.items() if numbers}


def sheets_of_files(sheets: Mapping[str, Sequence[int]], texts: Catalogue) -> str:
    """'sheets 1 and 2 of wren-card.pdf and sheet 1 of juno-card.pdf'."""
    return texts.listing(
        say(texts, "guide.cut.of_file", sheets=sheet_numbers(numbers, texts), file=name)
        for name, numbers in sheets.items()
    )


def sheet_map(
    look: Look, sets: Sequence[GuideSet], files: Sequence[SheetFile], texts: Catalogue
) -> tuple[Strip, ...]:
    """The part 'What is on which sheet', where there is more than one set."""
    if len(sets) < 2:
        return ()
    titles = {(item.tray.child.name, item.tray.set): set_title(item.tray, texts) for item in sets}
    rows: list[Row] = []
    for file in files:
        numbered = [(number, held(page)) for number, page in enumerate(fronts(file), 1)]
        if not numbered:
            continue
        names = {name: title for (child, name), title in titles.items() if child == file.child}
        rows.append(Row(cells=(file.name, ""), strong=True))
        own: list[Row] = []
        for what, group in groupby(numbered, key=lambda entry: entry[1]):
            numbers = [number for number, _ in group]
            which = sheet_numbers(numbers, texts)
            cells = (f"{which[:1].upper()}{which[1:]}", _held_words(what, len(numbers) > 1, names, texts))
            own.append(Row(cells=cells, rule=False, tied=True))
        # A file stays on one page with its name, if it is not very long.
        rows += own if len(own) <= _FEW else (replace(row, tied=False) for row in own)
        rows[-1] = replace(rows[-1], tied=False)
    columns = (
        Column(title=say(texts, "guide.map.sheet"), keep=True),
        Column(title=say(texts, "guide.map.holds")),
    )
    strips = [*subsection(look, say(texts, "guide.map.title"), color=True)]
    strips += spaced(paragraph(look, say(texts, "guide.map.how")), 1.0)
    return (*strips, *table(look, columns, rows, gap=3.0, full=True))


def _held_words(what: Held, several: bool, names: Mapping[str, str], texts: Catalogue) -> str:
    """'Pairs: 6 pieces · Sizes: 3 pieces · label: Pairs'."""
    own, labels = what
    kind = "each" if several else "pieces"
    parts = [say_count(texts, f"guide.map.{kind}", n, set=names.get(name, name)) for name, n in own]
    if labels:
        shown = tuple(names.get(name, name) for name in labels)
        parts.append(say_count(texts, "guide.map.labels", len(labels), sets=shown))
    return " · ".join(parts)
