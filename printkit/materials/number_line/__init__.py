"""Number lines: one strip, or segments to be glued into a long one, with a picture at every ten."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from printkit.checks import Millimetres, OneOf, Range, Words, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when, word
from printkit.materials.layout import (
    CONTENT_INSET,
    INK,
    MARK_STRIP,
    fits_sheet,
    numeral,
    picture,
    set_marked,
    size_problem,
)
from printkit.materials.making import piece_of
from printkit.materials.motifs import ChosenMotif, chosen_motif
from printkit.materials.number_line.plan import SMALLEST_FIGURE, Ask, LinePlan, Segment, planned
from printkit.pack import Tray
from printkit.pieces import Box, Color, Drawing, Face, Line, Mark, Piece
from printkit.texts import Note
from printkit.units import Rect, micrometres

SHOWN = ("all", "fives", "tens", "ends")


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for number lines."""

    range: tuple[int, int] | None = setting(
        None, Range(0, 100), "first and last number; unset: the child's numbers"
    )
    step: float | None = setting(
        None, Millimetres(12, 60), "mm from number to number; unset: as wide as few segments allow"
    )
    shown: Literal["all", "fives", "tens", "ends"] = setting(
        "all", OneOf(SHOWN), "which numerals are written; the others are marks to be named"
    )
    motif: str | None = setting(
        None, Words("the name of a motif"), "which picture of the theme stands at the ends and at every ten"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a segment: its numbers, those written out, and where each lies.

    `places_mm` are measured from the left edge of the piece; they lie `step_mm` apart. `joint_mm` is
    where the left edge of the next segment is glued, None on the last one.
    """

    first: int
    last: int
    shown: tuple[int, ...]
    step_mm: float
    places_mm: tuple[float, ...]
    joint_mm: float | None
    segment: int
    segments: int


HEIGHTS = {"small": 38.0, "medium": 47.0, "large": 62.0}
"""mm of a segment: 5, 4 or 3 lie side by side on A4 and on Letter."""
_WIDEST_STEP = 34.0
_SHORT = 20
"""Steps of the longest line on which numerals grow to all of what a child needs; longer ones would lead
through the whole room, so that half of it must do (design choice)."""
_LARGE_HIGH, _LARGE_STEP = 94.0, 68.0
"""mm of a segment with numerals of 40 mm, of which two lie on A4 and on Letter, and of its widest step."""
_STEPS = {"small": (12.0, 16.0), "medium": (16.0, 30.0), "large": (26.0, _WIDEST_STEP)}
"""The least and the widest distance of two numbers in mm, for a size that is named."""
_ROOMY = 20.0
"""mm from number to number at least on a line to 20, so that counters of usual size can lie there."""
_TICK, _FIVE, _TEN = 3.5, 5.0, 7.5
"""mm of a mark, of one at a five, of one at a ten."""
_LINE = 0.8
_ABOVE = 0.35
"""The share of a mark that lies above the line."""


def make(seed: int, tray: Tray, room: Room) -> Made:
    """The segments of a number line, in their order."""
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    (first, last), notes = _range(tray)
    if isinstance(tray.size, tuple) and not fits_sheet(tray.size, room):
        return refused(size_problem(tray, room, tray.size))
    length, high = _segment_room(tray, room)
    if high < _LEAST_HIGH:
        return refused(
            problem(
                tray,
                "size",
                f"a number line does not fit a height of {high:.4g} mm",
                f"at least {_LEAST_HIGH:g} mm",
            )
        )
    plan = _plan(tray, first, last, length, high)
    if plan is None:
        return refused(_too_short(tray, first, last, length))
    bands = _bands(plan, high)
    size = (plan.width, high)
    pieces = [_piece(tray, plan, size, bands, item, n, motif) for n, item in enumerate(plan.segments)]
    gather = [Need(what="counters", count=1, size=tray.child.counter)]
    if len(pieces) > 1:
        gather.append(Need(what="glue stick", count=1))
    return Made(pieces=set_marked(pieces), needs=tuple(gather), notes=notes)


def _range(tray: Tray) -> tuple[tuple[int, int], tuple[str, ...]]:
    """First and last number; a single one has its neighbors beside it."""
    first, last = tray.settings.range or tray.child.numbers
    if first < last:
        return (first, last), ()
    around = (max(0, first - 1), min(100, first + 1))
    return around, (Note("notes.line_alone", number=first, first=around[0], last=around[1]),)


# --- what fits -------------------------------------------------------------------------------


def _segment_room(tray: Tray, room: Room) -> tuple[float, float]:
    """How long a segment may be, and its height, in mm."""
    if isinstance(tray.size, tuple):
        return tray.size
    high = HEIGHTS[tray.size or "medium"]
    if tray.size is None:
        high = max(high, needs.least_piece(tray.child), _LARGE_HIGH if needs.is_large(tray.child) else 0.0)
    return max(room), min(high, min(room))


def _plan(tray: Tray, first: int, last: int, length: float, high: float) -> LinePlan | None:
    """The first that can be laid of the steps that please; the one asked for, if any."""
    step = tray.settings.step
    if step is not None:
        steps = ((step, step),)
    elif isinstance(tray.size, str):
        steps = (_STEPS[tray.size], (12.0, _WIDEST_STEP))
    else:
        steps = ((_ROOMY if last - first <= 20 else 16.0, _WIDEST_STEP), (12.0, _ROOMY))
    figure = min(16.0, 0.3 * (high - _AROUND))
    large = needs.least_numeral(tray.child)
    shares = (1.0, 0.75, 0.5) if last - first <= _SHORT else (0.5,)
    tall = [(share * large,) * 2 for share in shares if 0 < share * large < high - _AROUND]
    asks = (
        Ask(
            first=first, last=last, length=length, least=least, most=most if step else max(most, wide),
            figure=highest, numerals=tray.child.numerals, floor=floor,
        )
        for highest, floor in (*tall, (figure, SMALLEST_FIGURE))
        for wide in (_LARGE_STEP if highest > figure else 0.0,)
        for least, most in steps
    )  # fmt: skip
    return next((plan for ask in asks if (plan := planned(ask))), None)


def _too_short(tray: Tray, first: int, last: int, length: float):
    if tray.settings.step is not None:
        return problem(
            tray,
            "step",
            f"numerals to {last} do not fit {tray.settings.step:g} mm apart on segments of {length:.4g} mm",
            "a step of 18 to 30 mm, or none",
        )
    return problem(
        tray,
        "size" if isinstance(tray.size, tuple) else "paper",
        f"a segment of {length:.4g} mm is too short for a number line to {last}",
        "at least 80 mm",
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class _Bands:
    """Where things stand on every segment: the side of a picture and its foot, the line, the base; mm."""

    side: float
    foot: float
    line: float
    base: float


_AROUND = 2 * CONTENT_INSET + MARK_STRIP
_LEAST_HIGH = 34.0
"""mm of the lowest segment: marks and numerals of 5 mm, and it is no small part."""


def _bands(plan: LinePlan, high: float) -> _Bands:
    """The heights of a segment's parts, all in the middle of its height."""
    room = high - _AROUND
    below = 2.0 + 1.15 * plan.figure
    up, down = _ABOVE * _TEN, (1 - _ABOVE) * _TEN
    side = min(room - up - down - below - 1.0, 22.0, _clear(plan))
    side = side if side >= _SMALLEST_PICTURE else 0.0
    over = side + 1.0 if side else 0.0
    top = CONTENT_INSET + max(0.0, room - over - up - down - below) / 2
    line = top + over + up
    return _Bands(
        side=micrometres(side),
        foot=micrometres(top + side),
        line=micrometres(line),
        base=micrometres(line + down + 2.0 + plan.figure),
    )


_SMALLEST_PICTURE = 6.0


def _clear(plan: LinePlan) -> float:
    """How wide pictures may be: apart from each other, clear of cuts and of the edges glued over them."""
    halves = [plan.step / 2 - 1.0]
    for item in plan.segments:
        for number, x in zip(item.numbers, item.places, strict=True):
            if _pictured(plan, number):
                right = plan.width - CONTENT_INSET if item.joint is None else item.joint - 0.5
                halves += [x - CONTENT_INSET, right - x]
    return 2 * min(halves)


def _pictured(plan: LinePlan, number: int) -> bool:
    return number % 10 == 0 or number in (plan.segments[0].first, plan.segments[-1].last)


# --- drawing ---------------------------------------------------------------------------------


def written(shown: str, first: int, last: int) -> tuple[int, ...]:
    """The numbers of a line from `first` to `last` whose numerals are written."""
    numbers = range(first, last + 1)
    if shown == "all":
        return tuple(numbers)
    every = {"fives": 5, "tens": 10}.get(shown, 1000)
    return tuple(n for n in numbers if n in (first, last) or (n % every == 0 and every < 1000))


def _piece(
    tray: Tray,
    plan: LinePlan,
    size: tuple[float, float],
    bands: _Bands,
    item: Segment,
    n: int,
    motif: ChosenMotif,
) -> Piece:
    first, last = plan.segments[0].first, plan.segments[-1].last
    told = [number for number in written(tray.settings.shown, first, last) if number in item.numbers]
    marks: list[Mark] = []
    if item.joint is not None:
        marks += _tab(item.joint, size)
    marks.append(_line(plan, item, n, size, bands))
    for number, x in zip(item.numbers, item.places, strict=True):
        marks.append(_tick(number, x, bands))
        if number in told:
            marks += numeral(str(number), x, bands.base, plan.figure, tray.child.numerals)
        if bands.side and _pictured(plan, number):
            marks.append(_picture(motif.drawing(bands.side), x, bands))
    facts = Facts(
        first=item.first,
        last=item.last,
        shown=tuple(told),
        step_mm=plan.step,
        places_mm=item.places,
        joint_mm=item.joint,
        segment=n + 1,
        segments=len(plan.segments),
    )
    return piece_of(tray, size, f"{item.first}-{item.last}", Face(marks=tuple(marks)), facts)


def _line(plan: LinePlan, item: Segment, n: int, size: tuple[float, float], bands: _Bands) -> Line:
    """The line itself: from the left edge or a little before the first number, under the next one's edge."""
    reach = min(5.0, plan.step / 3)
    left = 0.0 if n else max(CONTENT_INSET, item.places[0] - reach)
    if item.joint is None:
        right = min(item.places[-1] + reach, size[0] - CONTENT_INSET)
    else:
        right = item.joint + _UNDER
    return Line(
        x1=micrometres(left), y1=bands.line, x2=micrometres(right), y2=bands.line, color=INK, line=_LINE
    )


_UNDER = 3.0
"""mm the line goes on beyond a joint, so that no gap shows where the next segment is cut a little short."""


def _tick(number: int, x: float, bands: _Bands) -> Line:
    high = _TEN if number % 10 == 0 else _FIVE if number % 5 == 0 else _TICK
    return Line(
        x1=x,
        y1=micrometres(bands.line - _ABOVE * high),
        x2=x,
        y2=micrometres(bands.line + (1 - _ABOVE) * high),
        color=INK,
        line=0.9 if number % 10 == 0 else 0.6,
    )


def _picture(drawing: Drawing, x: float, bands: _Bands) -> Mark:
    """A picture standing above its number."""
    found = picture(drawing, Rect(x - bands.side / 2, bands.foot - bands.side, bands.side, bands.side))
    return replace(found, y=micrometres(bands.foot - found.height))


_GLUED: Color = (0.92,)


def _tab(joint: float, size: tuple[float, float]) -> list[Mark]:
    """Where the next segment is glued: light gray, with a fine line for its edge."""
    top, bottom = CONTENT_INSET, size[1] - CONTENT_INSET - MARK_STRIP
    box = Rect(joint + 1.5, top, max(0.0, size[0] - CONTENT_INSET - joint - 1.5), bottom - top)
    return [
        Box(x=box.left, y=box.top, width=box.width, height=box.height, fill=_GLUED),
        Line(x1=joint, y1=top, x2=joint, y2=bottom, color=(0.45,), line=0.25),
    ]


# --- guidance --------------------------------------------------------------------------------


def _about(tray: Tray, say: Say) -> str:
    (first, last), _ = _range(tray)
    return say("label.numbers", first=first, last=last)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    (first, last), _ = _range(tray)
    shown = tray.settings.shown
    return Holding(
        variants=("gaps",) if shown != "all" else (),
        notes=when(segments=len(pieces) > 1, single=len(pieces) == 1, far=last - first > 20),
    )


def _examples(facts: Sequence[Facts], spelled: Spelled) -> dict[str, str]:
    """`n` a number in the middle, `m` the next, `p` the one before."""
    first, last = facts[0].first, facts[-1].last
    n = max(first + 1, min(last - 1, (first + last) // 2)) if last - first > 1 else first
    return {"n": word(n, spelled), "m": word(n + 1, spelled), "p": word(max(first, n - 1), spelled)}


MATERIAL = Material(
    name="number-line",
    order=14,
    line="a line of numbers as one strip, or in segments to be glued, for hops and counters",
    track="counting",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=Guidance(about=_about, holding=_holding, examples=_examples),
)
