"""The faces of strips: groups of things or places above an equation; the whole equation behind."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from printkit.letters import Numerals
from printkit.materials.layout import FAINT, INK, SOFT, blank_face, hairline, pictures
from printkit.materials.naming import LEAD, Naming, lettering
from printkit.materials.strips import groups as groups
from printkit.materials.strips.equation import (
    THIN,
    Figures,
    Term,
    around,
    control,
    equation,
    natural_columns,
)
from printkit.materials.strips.facts import SIGN, Fact, Operation, Task
from printkit.materials.strips.plan import (
    BETWEEN,
    Columns,
    Fit,
    Kind,
    Wants,
    columns,
    hidden,
    inner,
    picture_columns,
    place_columns,
    shown,
)
from printkit.pieces import Area, Box, Color, Dot, Drawing, Face, Line, Mark
from printkit.units import Rect, micrometres


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """What all strips of a set share.

    `leftward` strips are read from the right: numbers, signs and groups change places, digits never
    do. `results` are those of the set, for words of one size.
    """

    fit: Fit
    wants: Wants
    drawing: Drawing | None
    frame: Color
    numerals: Numerals
    place: float
    naming: Naming
    results: tuple[int, ...]
    leftward: bool = False


def front(look: Look, task: Task) -> Face:
    """The strip of a task: what is known above the equation with its empty box."""
    fact = task.fact
    kind: Kind = (fact.operation, task.unknown)
    terms = [None if out else n for n, out in zip(fact.numbers, hidden(kind), strict=True)]
    if look.wants.help == "none":
        return _plain_face(look, look.fit.how, terms, SIGN[fact.operation])
    placed = _columns(look, kind, fact)
    band, top = _bands(
        look,
        max(
            _group_high(look, number, width)
            for number, drawn, (_, width) in zip(fact.numbers, shown(kind), placed, strict=True)
            if drawn
        ),
    )
    marks: list[Mark] = [hairline(look.fit.size, look.frame)]
    areas: list[Area] = []
    for i, (left, width) in enumerate(placed):
        spot = Rect(left, band.top, width, band.height)
        if hidden(kind)[i]:
            marks.append(_dashed(spot))
        elif shown(kind)[i]:
            crossed = fact.b if i == 0 and not shown(kind)[1] and not hidden(kind)[1] else 0
            drawn, area = _group(look, fact.numbers[i], crossed, spot)
            marks += drawn
            areas.append(area)
    marks += equation(look.fit.how, terms, SIGN[fact.operation], placed, top)
    return Face(marks=tuple(marks), areas=tuple(areas))


def own_front(look: Look, operation: Operation | None) -> Face:
    """A strip for an equation of the child's own; without an operation the sign is left open too."""
    sign = SIGN[operation] if operation else None
    terms = (None, None, None)
    how = look.fit.how
    room = inner(look.fit.size).width - 2 * how.slot
    how = replace(how, box=min(how.box, math.floor(room / 3 * 1000) / 1000))
    if look.wants.help == "none":
        return _plain_face(look, how, terms, sign)
    band, top = _bands(look, 0.0)
    placed = _directed(look, columns(look.fit, [how.box] * 3))
    spots = [_dashed(Rect(left, band.top, width, band.height)) for left, width in placed]
    line = equation(how, terms, sign, placed, top)
    return Face(marks=(hairline(look.fit.size, look.frame), *spots, *line))


def back(look: Look, fact: Fact) -> tuple[Face, Rect]:
    """The control: the whole equation in thin figures, the result in words if wanted, and where it stands."""
    box = inner(look.fit.size).inset(0.5)
    said, high = _said(look, fact.result, box)
    over = Rect(box.left, box.top, box.width, box.height - high)
    marks, place = control(fact.numbers, SIGN[fact.operation], over, look.numerals, leftward=look.leftward)
    if said:
        place = around((*marks, *said))
    return Face(marks=(hairline(look.fit.size, look.frame), *marks, *said)), place


_LARGEST_WORDS = 5.0
"""mm an em of the words behind, at most."""
_WORDS_SHARE = 0.45
"""The share of the height of a back that its words take at most."""


def _said(look: Look, result: int, box: Rect) -> tuple[tuple[Mark, ...], float]:
    """The result in words at the foot of a box, and their height in mm; nothing if none are wanted."""
    lines = len(look.naming.words(result))
    if not lines:
        return (), 0.0
    most = min(_LARGEST_WORDS, _WORDS_SHARE * box.height / (LEAD * lines))
    letters = lettering(look.naming, look.results, box.width, most, breaking=False)
    high = letters.high(result)
    under = Rect(box.left, box.bottom - high, box.width, high)
    return letters.block(result, under, color=THIN), high


def own_back(look: Look) -> Face:
    """The back of a strip that has no answer yet."""
    return blank_face(look.fit.size, look.frame)


def counters(tasks: Sequence[Task]) -> int:
    """The most places on one strip."""
    drawn = [shown((task.fact.operation, task.unknown)) for task in tasks]
    return max(
        sum(number for number, has in zip(task.fact.numbers, shows, strict=True) if has)
        for task, shows in zip(tasks, drawn, strict=True)
    )


# --- parts -----------------------------------------------------------------------------------


def _plain_face(look: Look, how: Figures, terms: Sequence[Term], sign: str | None) -> Face:
    box = inner(look.fit.size)
    placed = _directed(look, natural_columns(how, terms, box))
    middle = min(look.fit.size[1] / 2, box.bottom - how.high / 2)
    line = equation(how, terms, sign, placed, middle - how.high / 2)
    return Face(marks=(hairline(look.fit.size, look.frame), *line))


def _bands(look: Look, high: float) -> tuple[Rect, float]:
    """The band of things and where the equation begins; what is left goes around them."""
    box, fit = inner(look.fit.size), look.fit
    most = box.height - BETWEEN - fit.how.high
    high = micrometres(min(most, max(high, _LEAST_BAND)))
    spare = most - high
    gap = min(spare / 3, _WIDEST_GAP)
    part = (spare - gap) / 2
    top = micrometres(box.top + part + min(part, _LOWER))
    return Rect(box.left, top, box.width, high), top + high + BETWEEN + gap


def _group_high(look: Look, number: int, width: float) -> float:
    """Height in mm of a group of things or places in a column."""
    if look.wants.help == "places":
        return _rows(look, number, width)[1] * (look.place + BETWEEN) - BETWEEN
    high = groups.extent(number, look.fit.across, look.wants.shape)[1]
    return high * look.fit.thing + 2 * look.wants.pad


_LEAST_BAND = 15.0
"""mm: a child must be able to draw in the place of what is asked for."""
_WIDEST_GAP = 4.0
"""mm at most between things and their numerals, so that they are seen as one."""
_LOWER = 0.75
"""mm from the middle of the drawn part to that of the strip: the set mark has its place below."""


def _columns(look: Look, kind: Kind, fact: Fact) -> Columns:
    if look.wants.help == "places":
        return _directed(look, place_columns(look.fit, look.wants, kind, fact))
    return _directed(look, picture_columns(look.fit, look.wants, kind, fact))


def _directed(look: Look, placed: Columns) -> Columns:
    """The columns as they are, or seen from the other side of the strip."""
    if not look.leftward:
        return placed
    return tuple((look.fit.size[0] - left - width, width) for left, width in placed)


def _from_right(look: Look, things: Sequence[Rect], spot: Rect) -> list[Rect]:
    """The places of things, in a strip that is read from the right counted from there."""
    if not look.leftward:
        return list(things)
    both = spot.left + spot.right
    return [thing._replace(left=micrometres(both - thing.right)) for thing in things]


def _dashed(spot: Rect) -> Box:
    """The place of what is asked for: nothing is drawn there, a child may draw or lay."""
    edge = spot.inset(0.2)
    return Box(
        x=micrometres(edge.left), y=micrometres(edge.top), width=micrometres(edge.width),
        height=micrometres(edge.height), radius=2.5, stroke=FAINT, line=0.35,
    )  # fmt: skip


def _group(look: Look, number: int, crossed: int, spot: Rect) -> tuple[list[Mark], Area]:
    if look.wants.help == "places":
        return _places(look, number, spot)
    box = spot.inset(look.wants.pad)
    marks: list[Mark] = []
    if look.wants.pad:
        edge = spot.inset(0.2)
        marks.append(
            Box(
                x=edge.left,
                y=edge.top,
                width=edge.width,
                height=edge.height,
                radius=2.5,
                stroke=SOFT,
                line=0.25,
            )
        )
    fit = look.fit
    laid = groups.laid(number, fit.across, look.wants.shape, fit.thing, box, low=not look.wants.pad)
    boxes = _from_right(look, laid, box)
    marks += pictures(look.drawing, boxes)
    marks += [_cross(thing) for thing in boxes[number - crossed :]]
    return marks, Area(box=box, things=number, ground="crossed" if crossed else "none")


def _cross(thing: Rect) -> Line:
    """One clean line through a thing, from corner to corner, inside its box."""
    inner = thing.inset(0.07 * max(thing.width, thing.height))
    return Line(
        x1=micrometres(inner.left), y1=micrometres(inner.bottom),
        x2=micrometres(inner.right), y2=micrometres(inner.top),
        color=INK, line=0.6, round_ends=True,
    )  # fmt: skip


def _rows(look: Look, number: int, width: float) -> tuple[int, int]:
    """Places side by side and rows of them: five in a row where the column allows."""
    needed = math.ceil(number / look.fit.down)
    across = max(needed, min(5, number, int((width + BETWEEN + 1e-6) // (look.place + BETWEEN))))
    return across, math.ceil(number / across) if number else 0


def _places(look: Look, number: int, spot: Rect) -> tuple[list[Mark], Area]:
    """Round places in rows, at the lower edge of the spot."""
    step = look.place + BETWEEN
    across, rows = _rows(look, number, spot.width)
    left = spot.left + (spot.width - across * step + BETWEEN) / 2
    top = spot.bottom - rows * step + BETWEEN
    radius = micrometres(look.place / 2)
    middles = [
        (left + (i % across) * step + radius, top + (i // across) * step + radius) for i in range(number)
    ]
    if look.leftward:
        middles = [(spot.left + spot.right - x, y) for x, y in middles]
    marks: list[Mark] = [
        Dot(x=micrometres(x), y=micrometres(y), radius=radius - 0.15, stroke=SOFT, line=0.3)
        for x, y in middles
    ]
    return marks, Area(box=spot, things=0, ground="places")
