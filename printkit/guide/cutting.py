"""How to cut: every pattern of cuts with its drawing, once; what is on which sheet; laminating."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from printkit import letters
from printkit.guide.blocks import beside, items, joined, labelled, paragraph, section, text
from printkit.guide.cuts import Pattern, patterns, step_words, steps
from printkit.guide.drawn import diagram
from printkit.guide.flow import Look, Strip, height_of
from printkit.guide.laminating import laminating
from printkit.guide.lines import aside, bold, say, say_all, say_count, set_text
from printkit.guide.opening import sheets_words
from printkit.guide.sets import GuideSet
from printkit.guide.which import sheet_map, sheets_of_files
from printkit.labels import length, sides
from printkit.sheets.model import SheetFile
from printkit.texts import Catalogue


def cutting(
    look: Look, sets: Sequence[GuideSet], files: Sequence[SheetFile], units: str, texts: Catalogue
) -> tuple[Strip, ...]:
    """The section 'Cut'."""
    found = patterns(files)
    whole = [pattern for pattern in found if not pattern.cuts]
    cut = [pattern for pattern in found if pattern.cuts]
    strips = [*section(look, say(texts, "guide.cut.title"), "cut")]
    if cut:
        told = say_all(texts, "guide.cut.how", total=_total(files, units, texts))
        if any(item.tray.child.stack for item in sets):
            told += (say(texts, "guide.cut.stack"),)
        how = items(look, told)
        strips += labelled(look, say(texts, "guide.cut.how_title"), how, gap=1.0)
    for pattern in cut:
        strips += _pattern(look, pattern, units, texts)
    if whole:
        names = [_sheets(pattern, texts) for pattern in whole]
        words = say(texts, "guide.cut.whole", sheets=tuple(names))
        title = say(texts, "guide.cut.whole_title")
        strips += labelled(look, title, paragraph(look, words, 0.0), gap=5.0)
    strips += sheet_map(look, sets, files, texts)
    strips += laminating(look, sets, files, units, texts)
    return tuple(strips)


def _total(files: Sequence[SheetFile], units: str, texts: Catalogue) -> str:
    """How many cuts on how many sheets of each stock, and the longest."""
    cuts, sheets = 0, Counter()
    longest = 0.0
    for file in files:
        for page in file.pages:
            if page.side == "front" and page.cuts:
                cuts += len(page.cuts)
                sheets[file.stock] += 1
                longest = max(longest, *(abs(cut.x2 - cut.x1) + abs(cut.y2 - cut.y1) for cut in page.cuts))
    return say(
        texts,
        "guide.cut.total",
        cuts=say_count(texts, "guide.cut.cuts", cuts),
        sheets=sheets_words(sheets, texts),
        length=length(longest, units, texts),
    )


def _sheets(pattern: Pattern, texts: Catalogue) -> str:
    """'sheets 1 and 2 of wren-card.pdf and sheet 1 of juno-card.pdf'."""
    return sheets_of_files(dict(pattern.sheets), texts)


def _pattern(look: Look, pattern: Pattern, units: str, texts: Catalogue) -> tuple[Strip, ...]:
    """One pattern: which sheets, the drawing at the left, its cuts in order at the right and below."""
    marks, wide, high = diagram(look, pattern)
    narrow = max(look.side, wide + 4.3)
    which = _sheets(pattern, texts)
    sizes = texts.listing([sides(size, units, texts) for size in pattern.sizes])
    title = {"sheets": bold(f"{which[:1].upper()}{which[1:]}"), "sizes": aside(sizes)}
    lines = [*text(say(texts, "guide.cut.of_size", **title), look.style(), narrow, look.wide - narrow)]
    below: list[Strip] = []
    told = step_words(steps(pattern.paper, pattern.cuts), units, texts)
    figures = look.style(bold=True, color=look.accent)
    widest = max((letters.text_width(numbers, figures.size, bold=True) for numbers, _ in told), default=0.0)
    indent = max(_INDENT, widest + 1.5)
    for numbers, said in told:
        if not below and height_of(lines) < high:
            lines += _step(look, numbers, said, narrow, indent)
        else:
            below.append(joined(_step(look, numbers, said, look.side, indent)))
    own = beside(marks, high, lines, 5.0)
    return (replace(own, glue=bool(below)), *below)


_INDENT = 13.4
"""mm from the numbers of a step's cuts to what to do, unless the numbers are wider."""


def _step(look: Look, numbers: str, said: str, left: float, indent: float) -> tuple[Strip, ...]:
    """The numbers of a step's cuts, and `indent` mm further what to do, from `left` to the right edge."""
    own = text(said, look.style(), left + indent, look.wide - left - indent, 0.7)
    figure = set_text(numbers, look.style(bold=True, color=look.accent), left, indent)
    return (replace(own[0], marks=(*figure, *own[0].marks)), *own[1:])
