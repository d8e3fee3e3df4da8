"""How to cut and laminate: every pattern of cuts with its drawing, once."""

from collections.abc import Sequence
from dataclasses import replace

from printkit.errors import listing
from printkit.guide.blocks import (
    beside,
    items,
    labelled,
    paragraph,
    section,
    subsection,
    text,
)
from printkit.guide.cuts import Pattern, diagram, patterns, sheet_numbers, step_words, steps
from printkit.guide.flow import Look, Strip, spaced
from printkit.guide.lines import aside, bold, say, say_all, set_text
from printkit.guide.printing import paper_name
from printkit.guide.sets import GuideSet
from printkit.labels import length, lengths, set_title, sides
from printkit.sheets.model import SheetFile
from printkit.texts import Catalogue
from printkit.units import PAPERS

# Pouches by paper, mm. Letter: 9 x 11.5 in, legal: 9 x 14.5 in (public buyer's guides); A sizes:
# the sheet and 6 mm (from memory, makers' tables).
POUCHES = {
    "a3":     (303.0, 426.0),
    "a4":     (216.0, 303.0),
    "a5":     (154.0, 216.0),
    "letter": (228.6, 292.1),
    "legal":  (228.6, 368.3),
}  # fmt: skip
# A sealed rim of 2 to 3 mm (makers' advice), hence 6 mm between pieces in a pouch.
RIM, BETWEEN = (2.0, 3.0), 6.0
ROUND = 3.0


def cutting(
    look: Look, sets: Sequence[GuideSet], files: Sequence[SheetFile], units: str, texts: Catalogue
) -> tuple[Strip, ...]:
    """The section 'Cut'."""
    found = patterns(files)
    whole = [pattern for pattern in found if not pattern.cuts]
    cut = [pattern for pattern in found if pattern.cuts]
    strips = [*section(look, say(texts, "guide.cut.title"), "cut")]
    if cut:
        told = say_all(texts, "guide.cut.how")
        if any(item.tray.child.stack for item in sets):
            told += (say(texts, "guide.cut.stack"),)
        how = items(look, told)
        strips += labelled(look, say(texts, "guide.cut.how_title"), how, gap=1.0)
    for pattern in cut:
        strips += _pattern(look, pattern, units, texts)
    if whole:
        names = [_sheets(pattern, texts) for pattern in whole]
        words = say(texts, "guide.cut.whole", sheets=listing(names, say(texts, "guide.and")))
        title = say(texts, "guide.cut.whole_title")
        strips += labelled(look, title, paragraph(look, words, 0.0), gap=5.0)
    strips += _laminating(look, sets, files, units, texts)
    return tuple(strips)


def _sheets(pattern: Pattern, texts: Catalogue) -> str:
    """'sheets 1 and 2 of wren-card.pdf and sheet 1 of juno-card.pdf'."""
    parts = [
        say(texts, "guide.cut.of_file", sheets=sheet_numbers(numbers, texts), file=name)
        for name, numbers in pattern.sheets
    ]
    return listing(parts, say(texts, "guide.and"))


def _pattern(look: Look, pattern: Pattern, units: str, texts: Catalogue) -> tuple[Strip, ...]:
    """One pattern: which sheets, the drawing at the left, its cuts in order at the right."""
    marks, wide, high = diagram(look, pattern)
    left = max(look.side, wide + 4.3)
    width = look.wide - left
    which = _sheets(pattern, texts)
    sizes = listing([sides(size, units) for size in pattern.sizes], say(texts, "guide.and"))
    style = look.style()
    title = {"sheets": bold(f"{which[:1].upper()}{which[1:]}"), "sizes": aside(sizes)}
    lines = [*text(say(texts, "guide.cut.of_size", **title), style, left, width)]
    number = 13.4
    for numbers, said in step_words(steps(pattern.paper, pattern.cuts), units, texts):
        own = text(said, style, left + number, width - number, 0.7)
        figure = set_text(numbers, look.style(bold=True, color=look.accent), left, number)
        lines += (replace(own[0], marks=(*figure, *own[0].marks)), *own[1:])
    return (beside(marks, high, lines, 5.0),)


def _laminating(
    look: Look, sets: Sequence[GuideSet], files: Sequence[SheetFile], units: str, texts: Catalogue
) -> tuple[Strip, ...]:
    values = {
        "rim": lengths(RIM, units, say(texts, "guide.to")),
        "between": length(BETWEEN, units),
        "round": length(ROUND, units),
    }
    strips = [*subsection(look, say(texts, "guide.laminate.title"), color=True)]
    lines = list(say_all(texts, "guide.laminate.how", **values))
    pouches = [
        say(
            texts,
            "guide.laminate.pouch",
            paper=paper_name(paper, units, texts),
            size=sides(pouch, units),
        )
        for name, pouch in POUCHES.items()
        for paper in [PAPERS[name]]
        if any(file.paper == paper for file in files)
    ]
    if pouches:
        named = listing(pouches, say(texts, "guide.and"))
        lines.append(say(texts, "guide.laminate.pouches", pouches=named))
    arcs = any(item.tray.child.corner for item in sets)
    lines.append(say(texts, f"guide.laminate.{'arcs' if arcs else 'corners'}", **values))
    strips += spaced(items(look, lines), 1.0)
    wiped = [
        say(texts, "guide.childs", child=item.tray.child.name, set=set_title(item.tray, texts))
        for item in sets
        if any(need.what == "wipe-off pen" for need in item.needs)
    ]
    if wiped:
        words = say(texts, "guide.laminate.wiped", sets=listing(wiped, say(texts, "guide.and")))
        strips += labelled(look, say(texts, "guide.laminate.wiped_title"), paragraph(look, words, 0.0))
    return tuple(strips)
