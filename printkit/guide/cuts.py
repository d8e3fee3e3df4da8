"""The cuts of the sheets in words and as a small drawing, each pattern of cuts told once."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Literal

from printkit.errors import listing
from printkit.guide.flow import HAIR, QUIET, Look, moved
from printkit.labels import lengths
from printkit.letters import run
from printkit.pieces import Box, Line, Mark, Text
from printkit.sheets.model import Cut, SheetFile
from printkit.texts import Catalogue
from printkit.units import Rect, micrometres

_SLACK = 1e-3
_EVEN = 0.05
"""mm: nobody cuts finer than a tenth."""
_DIAGRAM = (23.5, 33.0)
"""mm that the drawing of a sheet may measure."""
_TINT = (0.94,)


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """Cuts `first` to `last` of a sheet, alike but for their places `at` (mm on the whole sheet).

    'foot' takes the foot off; 'top' and 'left' free one edge of all that is left; 'across' goes on
    to the right edge of the paper (`at` from the top edge); 'down' parts what lies from `span[0]` to
    `span[1]` mm below the top edge (`at` from the left edge); 'column' parts the columns `columns`,
    out of `across`, of what was last parted down (`at` from the top edge). `edge` is where the fresh
    edge lies from which the first of these cuts can be measured, None while the paper's is there.
    """

    kind: Literal["foot", "top", "left", "across", "down", "column"]
    first: int
    last: int
    at: tuple[float, ...]
    edge: float | None = None
    span: tuple[float, float] = (0.0, 0.0)
    columns: tuple[int, ...] = ()
    across: int = 0

    @property
    def fresh(self) -> tuple[float, ...]:
        """How far each cut is from the fresh edge before it, where there is one."""
        edges = self.at if self.edge is None else (self.edge, *self.at)
        return tuple(end - start for start, end in pairwise(edges))


@dataclass(frozen=True, kw_only=True, slots=True)
class Pattern:
    """Sheets that are cut alike: which of which file, their cuts, sizes and places of their pieces."""

    paper: tuple[float, float]
    cuts: tuple[Cut, ...]
    sheets: tuple[tuple[str, tuple[int, ...]], ...]
    sizes: tuple[tuple[float, float], ...]
    boxes: tuple[Rect, ...]


def patterns(files: Sequence[SheetFile]) -> tuple[Pattern, ...]:
    """Every pattern of cuts, with the sheets that have it, in the order of the files.

    Sheets are counted by their fronts; a sheet without cuts is used whole.
    """
    found: dict[tuple, dict] = {}
    for file in files:
        fronts = [page for page in file.pages if page.side == "front"]
        for number, page in enumerate(fronts, 1):
            key = ((page.width, page.height), page.cuts)
            entry = found.setdefault(key, {"sheets": {}, "sizes": {}, "boxes": {}})
            entry["sheets"].setdefault(file.name, []).append(number)
            entry["sizes"] |= {(item.piece.width, item.piece.height): None for item in page.placed}
            entry["boxes"] |= {item.box: None for item in page.placed}
    return tuple(
        Pattern(
            paper=paper,
            cuts=cuts,
            sheets=tuple((name, tuple(numbers)) for name, numbers in entry["sheets"].items()),
            sizes=tuple(entry["sizes"]),
            boxes=tuple(entry["boxes"]),
        )
        for (paper, cuts), entry in found.items()
    )


def steps(paper: tuple[float, float], cuts: Sequence[Cut]) -> tuple[Step, ...]:
    """The cuts in order, those that can be told together in one step; every cut is in one."""
    made: list[Step] = []
    top: float | None = None
    left: float | None = None
    starts: tuple[float, ...] = ()
    for kind, group in groupby(cuts, key=lambda cut: _kind(cut, paper)):
        own = list(group)
        match kind[0]:
            case "foot":
                made.append(_step("foot", own, [own[0].y1]))
            case "across":
                alone = top is None and len(own) == 1
                made.append(_step("top" if alone else "across", own, [cut.y1 for cut in own], edge=top))
                top = own[0].y1 if top is None else top
            case "down":
                xs = [cut.x1 for cut in own]
                alone = left is None and len(own) == 1
                span = (own[0].y1, own[0].y2)
                made.append(_step("left" if alone else "down", own, xs, edge=left, span=span))
                starts = tuple(xs) if left is None else (left, *xs)
                left = xs[0] if left is None else left
            case _:
                made += _columns(own, starts, made[-1].span)
    return tuple(made)


def _kind(cut: Cut, paper: tuple[float, float]) -> tuple:
    """What can be told in one step has one kind."""
    if cut.n == 1:
        return ("foot",)
    if abs(cut.x1 - cut.x2) < _SLACK:
        return ("down", cut.y1, cut.y2)
    return ("across",) if abs(cut.x2 - paper[0]) < _SLACK else ("column",)


def _step(kind, cuts: Sequence[Cut], at: Sequence[float], **more) -> Step:
    return Step(kind=kind, first=cuts[0].n, last=cuts[-1].n, at=tuple(at), **more)


def _columns(cuts: Sequence[Cut], starts: Sequence[float], span: tuple[float, float]) -> list[Step]:
    """The cuts within the columns of a band; neighbors with equal cuts are told together."""
    columns = [list(group) for _, group in groupby(cuts, key=lambda cut: (cut.x1, cut.x2))]
    made: list[Step] = []
    for _, group in groupby(columns, key=lambda own: tuple(cut.y1 for cut in own)):
        alike = list(group)
        numbers = tuple(_column(own[0].x1, starts) for own in alike)
        flat = [cut for own in alike for cut in own]
        made.append(
            _step(
                "column", flat, [cut.y1 for cut in alike[0]],
                edge=span[0], span=span, columns=numbers, across=len(starts) - 1,
            )
        )  # fmt: skip
    return made


def _column(x: float, starts: Sequence[float]) -> int:
    """Which column begins there, counted from 1."""
    return 1 + min(range(len(starts)), key=lambda i: abs(starts[i] - x))


# --- words -----------------------------------------------------------------------------------


def step_words(all_steps: Sequence[Step], units: str, texts: Catalogue) -> tuple[tuple[str, str], ...]:
    """(numbers of the cuts, what to do) for each step."""
    bands = sum(step.kind == "down" for step in all_steps)
    return tuple((_numbers(step), _step_words(step, bands > 1, units, texts)) for step in all_steps)


def _step_words(step: Step, bands: bool, units: str, texts: Catalogue) -> str:
    where = lengths(step.at, units, texts.say("guide.and"))
    if step.kind == "column":
        said = _column_words(step, where, texts)
    elif step.kind == "down" and bands:
        span = lengths(step.span, units, texts.say("guide.to"))
        said = texts.say("guide.cut.band", at=where, span=span)
    else:
        said = texts.say(f"guide.cut.{step.kind}", at=where)
    return said + _fresh_words(step, units, texts)


def _fresh_words(step: Step, units: str, texts: Catalogue) -> str:
    """The same cuts from the fresh edges, as the paper's own are gone: 'every 62 mm'."""
    fresh = step.fresh
    if not fresh:
        return ""
    even = len(fresh) > 1 and max(fresh) - min(fresh) < _EVEN
    shown = lengths(fresh[:1] if even else fresh, units, texts.say("guide.and"))
    begun = "then" if step.edge is None else "fresh"
    return texts.say(f"guide.cut.{begun}.{'every' if even else 'each'}", at=shown)


def _column_words(step: Step, where: str, texts: Catalogue) -> str:
    if len(step.columns) == step.across:
        return texts.say("guide.cut.columns" if step.across > 1 else "guide.cut.only_column", at=where)
    which = listing(step.columns, texts.say("guide.and"))
    kind = "one" if len(step.columns) == 1 else "other"
    return texts.say(f"guide.cut.some_columns.{kind}", columns=which, at=where)


def _numbers(step: Step) -> str:
    if step.first == step.last:
        return str(step.first)
    return f"{step.first}–{step.last}" if step.last - step.first > 1 else f"{step.first}, {step.last}"


def sheet_numbers(numbers: Sequence[int], texts: Catalogue) -> str:
    """'sheet 2', 'sheets 1 to 3', 'sheets 1, 2 and 4'."""
    if len(numbers) > 2 and list(numbers) == list(range(numbers[0], numbers[-1] + 1)):
        which = f"{numbers[0]} {texts.say('guide.to')} {numbers[-1]}"
    else:
        which = listing(numbers, texts.say("guide.and"))
    return texts.say(f"guide.cut.sheets.{'one' if len(numbers) == 1 else 'other'}", which=which)


# --- the drawing -----------------------------------------------------------------------------


def diagram(look: Look, pattern: Pattern) -> tuple[tuple[Mark, ...], float, float]:
    """The sheet with its pieces, cuts and their numbers: marks, width, height.

    A number without room of its own is left out.
    """
    lane, top = 4.2, 1.2
    scale = min(_DIAGRAM[0] / pattern.paper[0], _DIAGRAM[1] / pattern.paper[1])
    wide, high = pattern.paper[0] * scale, pattern.paper[1] * scale

    def at(x: float, y: float) -> tuple[float, float]:
        return micrometres(lane + x * scale), micrometres(top + y * scale)

    marks: list[Mark] = [
        Box(x=x, y=y, width=box.width * scale, height=box.height * scale, fill=_TINT)
        for box in pattern.boxes
        for x, y in [at(box.left, box.top)]
    ]
    marks.append(Box(x=lane, y=top, width=wide, height=high, stroke=HAIR, line=0.25))
    figures: list[Text] = []
    for cut in pattern.cuts:
        start, end = at(cut.x1, cut.y1), at(cut.x2, cut.y2)
        marks.append(
            Line(x1=start[0], y1=start[1], x2=end[0], y2=end[1], color=QUIET, line=0.2, dash=(0.8, 0.6))
        )
        figure = _figure(look, cut, start, end, pattern.paper, (lane, lane + wide))
        free = (
            shifted
            for shifted in (moved(figure, 0.0, by) for by in _tries(cut, figure, pattern.paper))
            if not any(shifted.bounds().inset(-0.2).meets(other.bounds()) for other in figures)
        )
        figures += [shifted for shifted in [next(free, None)] if shifted is not None]
    return (*marks, *figures), lane + wide, top + high


def _tries(cut: Cut, figure: Text, paper: tuple[float, float]) -> tuple[float, ...]:
    """How far the number of a cut across may move up or down to keep clear of its neighbors'."""
    high = figure.bounds().height
    beside = _kind(cut, paper)[0] in ("foot", "across")
    return (0.0, -0.5 * high, -high, 0.5 * high, high) if beside else (0.0,)


def _figure(look: Look, cut: Cut, start, end, paper: tuple[float, float], sides: tuple[float, float]) -> Text:
    """The number of a cut: beside the sheet for whole cuts, at the line for the others."""
    figure = run(str(cut.n), look.size * 0.62, bold=True)
    kind = _kind(cut, paper)[0]
    high = -figure.ink[1]
    if kind in ("foot", "across"):
        x, y = sides[0] - 0.9 - figure.width, start[1] + high / 2
    elif kind == "down":
        beyond = start[0] + 0.6 + figure.width > sides[1]
        x = start[0] - 0.6 - figure.width if beyond else start[0] + 0.6
        y = start[1] + high + 0.9
    else:
        x, y = (start[0] + end[0]) / 2 - figure.width / 2, start[1] - 0.6
    return Text(run=figure, x=micrometres(x), y=micrometres(y), color=look.accent)
