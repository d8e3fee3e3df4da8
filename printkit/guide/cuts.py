"""The cuts of the sheets in words, each pattern of cuts told once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise
from typing import Literal

from printkit.labels import lengths, span
from printkit.sheets.model import Cut, SheetFile
from printkit.texts import Catalogue, Span
from printkit.units import Rect, micrometres

_SLACK = 1e-3
_EVEN = 0.05
"""mm: nobody cuts finer than a tenth."""

_NOWHERE = Rect(0.0, 0.0, 0.0, 0.0)
Kind = Literal["foot", "top", "left", "across", "down", "column", "part_across", "part_down"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """Cuts `first` to `last` of a sheet, alike but for their places `at` (mm on the whole sheet).

    'foot' takes the foot off; 'top' and 'left' free one edge of all that is left; 'across' goes on
    to the right edge of the paper (`at` from the top edge); 'down' parts what lies from `span[0]` to
    `span[1]` mm below the top edge (`at` from the left edge); 'column' parts the columns `columns`,
    out of `across`, of what was last parted down (`at` from the top edge); 'part_across' and
    'part_down' cut a smaller part, which is `part`. `edge` is where the fresh edge lies from which the
    first of these cuts can be measured, None while the paper's is there.
    """

    kind: Kind
    first: int
    last: int
    at: tuple[float, ...]
    edge: float | None = None
    span: tuple[float, float] = (0.0, 0.0)
    columns: tuple[int, ...] = ()
    across: int = 0
    part: Rect = _NOWHERE

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
    parts = [Rect(0.0, 0.0, *paper)]
    top: float | None = None
    left: float | None = None
    down: Step | None = None
    for upright, group in groupby(cuts, key=lambda cut: (cut.n == 1, *_line(cut))):
        own = list(group)
        part = _in_hand(own[0], parts)
        parts = _parted(own, part, parts)
        if own[0].n == 1:
            made.append(_step("foot", own, part))
        elif top is None or left is None:
            # The top edge and the left one come off in turn; what else is cut down at once goes along.
            kind: Kind = "top" if top is None else "left" if len(own) == 1 else "down"
            made.append(_step(kind, own, part))
            down = made[-1]
            top, left = (made[-1].at[0], left) if top is None else (top, made[-1].at[0])
        elif down is not None and _is_column(part, down, left):
            made = _with_column(made, own, part, _starts(down, left))
        elif _reaches(part, left, paper[0]):
            made.append(_step("down" if upright[1] else "across", own, part, inner=True))
            down = made[-1] if upright[1] else down
        else:
            made.append(_step("part_down" if upright[1] else "part_across", own, part, inner=True))
    return tuple(made)


def _line(cut: Cut) -> tuple[bool, float, float]:
    """Whether a cut is upright, and from where to where it runs."""
    upright = abs(cut.x1 - cut.x2) < _SLACK
    return (True, cut.y1, cut.y2) if upright else (False, cut.x1, cut.x2)


def _in_hand(cut: Cut, parts: Sequence[Rect]) -> Rect:
    """The part that a cut goes across."""
    x, y = (cut.x1 + cut.x2) / 2, (cut.y1 + cut.y2) / 2
    return next(part for part in parts if part.left < x < part.right and part.top < y < part.bottom)


def _parted(cuts: Sequence[Cut], part: Rect, parts: Sequence[Rect]) -> list[Rect]:
    """The parts after one of them was cut along neighboring lines."""
    made = [other for other in parts if other is not part]
    if _line(cuts[0])[0]:
        edges = (part.left, *(cut.x1 for cut in cuts), part.right)
        return made + [Rect(x1, part.top, x2 - x1, part.height) for x1, x2 in pairwise(edges)]
    edges = (part.top, *(cut.y1 for cut in cuts), part.bottom)
    return made + [Rect(part.left, y1, part.width, y2 - y1) for y1, y2 in pairwise(edges)]


def _step(kind: Kind, cuts: Sequence[Cut], part: Rect, *, inner: bool = False, **more) -> Step:
    upright = _line(cuts[0])[0]
    at = tuple(cut.x1 if upright else cut.y1 for cut in cuts)
    edge = (part.left if upright else part.top) if inner else None
    span = (part.top, micrometres(part.bottom))
    return Step(kind=kind, first=cuts[0].n, last=cuts[-1].n, at=at, edge=edge, span=span, part=part, **more)


def _starts(down: Step, left: float) -> tuple[float, ...]:
    """Where the columns of a step begin; the last one is where what is left over begins."""
    return down.at if down.edge is None else (left, *down.at)


def _near(one: float, two: float) -> bool:
    return abs(one - two) < _SLACK


def _is_column(part: Rect, down: Step, left: float) -> bool:
    """Whether a part is a whole column of what was last parted down."""
    if down.kind not in ("down", "left") or not (
        _near(part.top, down.span[0]) and _near(part.bottom, down.span[1])
    ):
        return False
    starts = _starts(down, left)
    return any(_near(part.left, x1) and _near(part.right, x2) for x1, x2 in pairwise(starts))


def _reaches(part: Rect, left: float, right: float) -> bool:
    return _near(part.left, left) and _near(part.right, right)


def _with_column(made: list[Step], cuts: Sequence[Cut], part: Rect, starts: Sequence[float]) -> list[Step]:
    """The steps with the cuts of one column: told with its neighbor's if they are equal."""
    number = 1 + min(range(len(starts)), key=lambda i: abs(starts[i] - part.left))
    last = made[-1]
    at = tuple(cut.y1 for cut in cuts)
    if last.kind == "column" and last.at == at and last.span == (part.top, micrometres(part.bottom)):
        return [*made[:-1], replace(last, last=cuts[-1].n, columns=(*last.columns, number))]
    new = _step("column", cuts, part, inner=True, columns=(number,), across=len(starts) - 1)
    return [*made, new]


# --- words -----------------------------------------------------------------------------------


def step_words(all_steps: Sequence[Step], units: str, texts: Catalogue) -> tuple[tuple[str, str], ...]:
    """(numbers of the cuts, what to do) for each step."""
    bands = sum(step.kind == "down" for step in all_steps)
    return tuple((_numbers(step), _step_words(step, bands > 1, units, texts)) for step in all_steps)


def _step_words(step: Step, bands: bool, units: str, texts: Catalogue) -> str:
    where = lengths(step.at, units, texts)
    if step.kind == "column":
        said = _column_words(step, where, texts)
    elif step.kind == "down" and bands:
        said = texts.say("guide.cut.band", at=where, span=span(step.span, units, texts))
    elif step.kind in ("part_across", "part_down"):
        x = span((step.part.left, step.part.right), units, texts)
        y = span((step.part.top, step.part.bottom), units, texts)
        said = texts.say(f"guide.cut.{step.kind}", at=where, x=x, y=y)
    else:
        said = texts.say(f"guide.cut.{step.kind}", at=where)
    return said + _fresh_words(step, units, texts)


def _fresh_words(step: Step, units: str, texts: Catalogue) -> str:
    """The same cuts from the fresh edges, as the paper's own are gone: 'every 62 mm'."""
    fresh = step.fresh
    if not fresh:
        return ""
    even = len(fresh) > 1 and max(fresh) - min(fresh) < _EVEN
    shown = lengths(fresh[:1] if even else fresh, units, texts)
    begun = "then" if step.edge is None else "fresh"
    return texts.say(f"guide.cut.{begun}.{'every' if even else 'each'}", at=shown)


def _column_words(step: Step, where: str, texts: Catalogue) -> str:
    if len(step.columns) == step.across:
        return texts.say("guide.cut.columns" if step.across > 1 else "guide.cut.only_column", at=where)
    form = texts.form("guide.cut.some_columns", len(step.columns))
    return texts.say(form, columns=step.columns, at=where)


def _numbers(step: Step) -> str:
    if step.first == step.last:
        return str(step.first)
    return f"{step.first}–{step.last}" if step.last - step.first > 1 else f"{step.first}, {step.last}"


def sheet_numbers(numbers: Sequence[int], texts: Catalogue) -> str:
    """'sheet 2', 'sheets 1 to 3', 'sheets 1, 2 and 4'."""
    if len(numbers) > 2 and list(numbers) == list(range(numbers[0], numbers[-1] + 1)):
        which: object = Span(first=numbers[0], last=numbers[-1])
    else:
        which = tuple(numbers)
    return texts.say(texts.form("guide.cut.sheets", len(numbers)), which=which)
