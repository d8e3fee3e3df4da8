"""How to laminate, and how many pouches it takes at most."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from printkit.guide.blocks import Column, Row, items, labelled, paragraph, subsection, table
from printkit.guide.flow import Look, Strip, glued, spaced
from printkit.guide.lines import say, say_all
from printkit.guide.printing import paper_name
from printkit.guide.sets import GuideSet, backs_only
from printkit.labels import length, set_title, sides, span
from printkit.pieces import Piece
from printkit.sheets.model import SheetFile
from printkit.texts import Catalogue
from printkit.units import PAPERS

LAMINATE = "laminate"
"""The name by which the pages of the guide know this part."""
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


@dataclass(frozen=True, kw_only=True, slots=True)
class Pouches:
    """How many pouches for one paper: of pieces that are cut first, and of whole sheets."""

    paper: tuple[float, float]
    cut_first: int
    whole: int


def laminating(
    look: Look, sets: Sequence[GuideSet], files: Sequence[SheetFile], units: str, texts: Catalogue
) -> tuple[Strip, ...]:
    """The part 'Laminate and round off'."""
    values = {
        "rim": span(RIM, units, texts),
        "between": length(BETWEEN, units, texts),
        "round": length(ROUND, units, texts),
    }
    strips = [*subsection(look, say(texts, "guide.laminate.title"), anchor=LAMINATE, color=True)]
    lines = list(say_all(texts, "guide.laminate.how", **values))
    arcs = any(item.tray.child.corner for item in sets)
    lines.append(say(texts, f"guide.laminate.{'arcs' if arcs else 'corners'}", **values))
    wiped = [item for item in sets if is_wiped(item)]
    if wiped:
        names = tuple(
            say(texts, "guide.childs", child=item.tray.child.name, set=set_title(item.tray, texts))
            for item in wiped
        )
        lines.append(say(texts, "guide.laminate.wiped", sets=names))
    strips += spaced(items(look, lines), 1.0)
    return (*strips, *_counted(look, sets, wiped, files, units, texts))


def is_wiped(item: GuideSet) -> bool:
    """Whether a set is written on with a pen that needs film."""
    return any(need.what == "wipe-off pen" for need in item.needs)


def pouches(sets: Sequence[GuideSet], files: Sequence[SheetFile]) -> tuple[Pouches, ...]:
    """The pouches for all that is on the sheets of some sets, for each paper that pouches are made for.

    Cut first, each size of piece lies by itself in rows, so that it may take fewer.
    """
    ids = {(item.tray.child.name, item.tray.set) for item in sets}
    sheets: Counter[tuple[float, float]] = Counter()
    sizes: dict[tuple[float, float], Counter[tuple[float, float]]] = {}
    for file in files:
        if backs_only(file):
            continue
        for page in file.pages:
            own = [item.piece for item in page.placed if (item.piece.child, item.piece.set) in ids]
            if page.side == "front" and own:
                sheets[file.paper] += 1
                sizes.setdefault(file.paper, Counter()).update(_size(piece) for piece in own)
    return tuple(
        Pouches(
            paper=paper,
            cut_first=sum(-(-n // _a_pouch(paper, size)) for size, n in sizes[paper].items()),
            whole=sheets[paper],
        )
        for paper in (PAPERS[name] for name in POUCHES)
        if sheets[paper]
    )


def _size(piece: Piece) -> tuple[float, float]:
    return (min(piece.width, piece.height), max(piece.width, piece.height))


def _a_pouch(paper: tuple[float, float], size: tuple[float, float]) -> int:
    """How many pieces lie in one pouch in rows with enough film between them, all turned alike."""

    def rows(across: float, down: float) -> int:
        return int((paper[0] + BETWEEN) // (across + BETWEEN)) * int((paper[1] + BETWEEN) // (down + BETWEEN))

    return max(1, rows(*size), rows(size[1], size[0]))


def _counted(
    look: Look,
    sets: Sequence[GuideSet],
    wiped: Sequence[GuideSet],
    files: Sequence[SheetFile],
    units: str,
    texts: Catalogue,
) -> tuple[Strip, ...]:
    """A table of pouches: for what is wiped, and for everything."""
    everything = pouches(sets, files)
    if not everything:
        return ()
    by_paper = {PAPERS[name]: size for name, size in POUCHES.items()}
    named = {each.paper: paper_name(each.paper, units, texts) for each in everything}
    kinds = tuple(
        say(texts, "guide.laminate.pouch", paper=name, size=sides(by_paper[paper], units, texts))
        for paper, name in named.items()
    )
    rows = [
        Row(cells=(_what(key, each, named, texts), str(each.cut_first), str(each.whole)))
        for key, several in (("all_wiped", pouches(wiped, files)), ("everything", everything))
        for each in several
    ]
    columns = (
        Column(title=say(texts, "guide.laminate.what")),
        Column(title=say(texts, "guide.laminate.cut_first"), lean="right"),
        Column(title=say(texts, "guide.laminate.whole_sheets"), lean="right"),
    )
    told = glued(paragraph(look, say(texts, "guide.laminate.pouches", pouches=kinds), 0.0))
    counted = table(look, columns, rows, left=look.body_left, width=look.body, full=True, gap=1.0)
    return labelled(look, say(texts, "guide.laminate.pouches_title"), (*told, *counted), gap=4.0)


def _what(key: str, each: Pouches, named: dict[tuple[float, float], str], texts: Catalogue) -> str:
    what = say(texts, f"guide.laminate.{key}")
    if len(named) == 1:
        return what
    return say(texts, "guide.laminate.on_paper", what=what, paper=named[each.paper])
