"""The faces of strips: groups of things or places above an equation; the whole equation behind."""

from collections.abc import Sequence
from dataclasses import dataclass

from printkit.letters import Numerals
from printkit.materials import strips_groups as groups
from printkit.materials.arrange import grid_for
from printkit.materials.layout import INK, SOFT, blank_face, content, hairline, pictures
from printkit.materials.strips_equation import control, equation, natural_columns
from printkit.materials.strips_facts import SIGN, Fact, Operation, Task
from printkit.materials.strips_plan import (
    BETWEEN,
    Columns,
    Fit,
    Kind,
    Wants,
    columns,
    hidden,
    largest_counts,
    picture_columns,
    place_columns,
    shown,
)
from printkit.pieces import Area, Box, Color, Dot, Drawing, Face, Line, Mark
from printkit.units import Rect, micrometres


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """What all strips of a set share."""

    fit: Fit
    wants: Wants
    drawing: Drawing | None
    frame: Color
    numerals: Numerals
    place: float


def front(look: Look, task: Task) -> Face:
    """The strip of a task: what is known above the equation with its empty box."""
    fact = task.fact
    kind: Kind = (fact.operation, task.unknown)
    terms = [None if out else n for n, out in zip(fact.numbers, hidden(kind), strict=True)]
    if look.wants.help == "none":
        return _plain_face(look, terms, SIGN[fact.operation])
    band, top = _bands(look)
    placed = _columns(look, kind, fact)
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
    if look.wants.help == "none":
        return _plain_face(look, terms, sign)
    band, top = _bands(look)
    placed = columns(look.fit, [look.fit.how.box] * 3)
    spots = [_dashed(Rect(left, band.top, width, band.height)) for left, width in placed]
    line = equation(look.fit.how, terms, sign, placed, top)
    return Face(marks=(hairline(look.fit.size, look.frame), *spots, *line))


def back(look: Look, fact: Fact) -> tuple[Face, Rect]:
    """The control: the whole equation in thin figures, and where it stands."""
    marks, box = control(
        fact.numbers, SIGN[fact.operation], content(look.fit.size).inset(0.5), look.numerals
    )
    return Face(marks=(hairline(look.fit.size, look.frame), *marks)), box


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


def _plain_face(look: Look, terms, sign: str | None) -> Face:
    box = content(look.fit.size)
    how = look.fit.how
    placed = natural_columns(how, terms, box)
    line = equation(how, terms, sign, placed, box.top + (box.height - how.high) / 2)
    return Face(marks=(hairline(look.fit.size, look.frame), *line))


def _bands(look: Look) -> tuple[Rect, float]:
    """The band of the things and where the equation begins: what is left over goes between and around."""
    box, fit, wants = content(look.fit.size), look.fit, look.wants
    if wants.help == "places":
        high = fit.down * (wants.place + BETWEEN) - BETWEEN
    else:
        counts = [count for kind in wants.kinds for count in largest_counts(wants, kind)]
        high = max(groups.extent(n, fit.across, wants.shape)[1] for n in counts) * fit.thing
        high += 2 * wants.pad
    spare = max(0.0, box.height - high - BETWEEN - fit.how.high)
    part = spare / 3
    top = micrometres(box.top + part)
    return Rect(box.left, top, box.width, micrometres(high)), top + high + BETWEEN + part


def _columns(look: Look, kind: Kind, fact: Fact) -> Columns:
    if look.wants.help == "places":
        return place_columns(look.fit, look.wants, kind, fact)
    return picture_columns(look.fit, look.wants, kind)


def _dashed(spot: Rect) -> Box:
    """The place of what is asked for: nothing is drawn there, a child may draw or lay."""
    edge = spot.inset(0.2)
    return Box(
        x=micrometres(edge.left), y=micrometres(edge.top), width=micrometres(edge.width),
        height=micrometres(edge.height), radius=2.5, stroke=SOFT, line=0.35, dash=(1.6, 1.2),
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
                x=edge.left, y=edge.top, width=edge.width, height=edge.height, radius=2.5,
                stroke=SOFT, line=0.25,
            )  # fmt: skip
        )
    fit = look.fit
    boxes = groups.laid(number, fit.across, look.wants.shape, fit.thing, box)
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


def _places(look: Look, number: int, spot: Rect) -> tuple[list[Mark], Area]:
    middles = grid_for(number, spot, look.place) if number else ()
    marks: list[Mark] = [
        Dot(x=x, y=y, radius=look.place / 2 - 0.2, stroke=SOFT, line=0.35, dash=(1.4, 1.0))
        for x, y in middles
    ]
    return marks, Area(box=spot, things=0, ground="places")
