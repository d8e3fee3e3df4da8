"""Bar charts: a field of mixed things; as many boxes are colored above each as are counted."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from printkit.chance import Chance
from printkit.checks import Whole, setting
from printkit.errors import listing
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, when, word
from printkit.materials.layout import (
    SHEET_EDGE,
    SMALLEST_THING,
    SOFT,
    accent,
    content,
    fits_sheet,
    hairline,
    numeral,
    numeral_height,
    picture,
    set_marked,
    sheet_size,
    size_problem,
)
from printkit.materials.making import piece_of
from printkit.materials.named import MotifNames, wanted_motifs
from printkit.pack import Tray
from printkit.pieces import Area, Box, Face, Mark, Piece
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Motif

KINDS, MOST_KINDS = 3, 5
"""Up to three categories first, then more (CCSSM 1.MD.C.4, 2.MD.D.10)."""
MOST = 10
"""At most so many of a kind: category counts are limited to 10 (CCSSM K.MD.B.3)."""
_GAP = 5.0
_FIELD = 0.48
"""Share of a piece that the things take; the chart has the rest."""
_FILL = 0.74
"""How much of its cell a thing may fill: what is left keeps neighbors apart."""
_EMPTY = 2
"""Cells of the field that stay free: the things lie mixed, not in rows."""
_LARGEST = 26.0
_CELL = 30.0
"""mm of the widest box to color."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for bar charts."""

    count: int = setting(2, Whole(1, 12), "how many sheets or cards")
    kinds: int | None = setting(
        None, Whole(2, MOST_KINDS), "how many kinds of things; unset: 3, fewer in a theme that has fewer"
    )
    most: int | None = setting(
        None, Whole(2, MOST), "at most so many of a kind; unset: the child's last number, from 4 to 10"
    )
    motifs: tuple[str, ...] = setting((), MotifNames(), "which pictures of the theme; unset: by chance")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """How many there are of each motif, from the left; `rows` boxes stand above each of them."""

    motifs: tuple[str, ...]
    counts: tuple[int, ...]
    rows: int


@dataclass(frozen=True, kw_only=True, slots=True)
class _Plan:
    """What all sheets of a set share: the field of things, cells of the chart, the axis beside them."""

    tray: Tray
    size: tuple[float, float]
    field: Rect
    chart: Rect
    cell: tuple[float, float]
    foot: float
    axis: float
    figure: float
    most: int


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Sheets or cards with a field of things and an empty chart below."""
    settings: Settings = tray.settings
    size = sheet_size(tray, room)
    if not fits_sheet(size, room):
        return refused(size_problem(tray, room, size))
    motifs, problems = wanted_motifs(tray, settings.motifs, tray.child.theme.counted)
    problems += _unfit(tray, motifs)
    if problems:
        return refused(*problems)
    kinds = settings.kinds or len(settings.motifs) or min(KINDS, len(motifs))
    most = max(kinds, settings.most or min(MOST, max(4, tray.child.numbers[1])))
    plan = _plan(tray, size, kinds, most)
    if plan is None:
        found = f"a chart of {kinds} columns up to {most} does not fit {size[0]:.4g} x {size[1]:.4g} mm"
        allowed = "a larger piece, fewer kinds or a smaller most"
        return refused(problem(tray, "size" if tray.size is not None else "paper", found, allowed))
    pieces = [_piece(seed, plan, motifs, kinds, n) for n in range(1, settings.count + 1)]
    needs = (Need(what="crayon", count=1),)
    return Made(pieces=set_marked(pieces), needs=needs)


def _unfit(tray: Tray, motifs: Sequence["Motif"]):
    """What is wrong with the motifs: too few of them, too many, or one that cannot be counted."""
    settings: Settings = tray.settings
    countable = [motif.key for motif in tray.child.theme.counted]
    several = [motif.key for motif in motifs if motif.key not in countable]
    if several:
        found = f"'{several[0]}' shows several things, so it cannot be counted"
        return (problem(tray, "motifs", found, listing(countable)),)
    kinds = settings.kinds or 2
    if len(motifs) < kinds:
        there = "1 picture" if len(motifs) == 1 else f"{len(motifs)} pictures"
        where = "motifs names" if settings.motifs else "the theme has"
        allowed = "a theme of more pictures" if len(countable) < kinds else "more names, or a smaller kinds"
        key = "motifs" if settings.motifs else "kinds"
        return (problem(tray, key, f"{where} {there} to count, for {kinds} columns", allowed),)
    if len(settings.motifs) > MOST_KINDS and settings.kinds is None:
        found = f"{len(settings.motifs)} motifs are more columns than a chart has here"
        return (problem(tray, "motifs", found, f"at most {MOST_KINDS}, or kinds = {MOST_KINDS}"),)
    return ()


# --- how it is laid out ----------------------------------------------------------------------


def _plan(tray: Tray, size: tuple[float, float], kinds: int, most: int) -> _Plan | None:
    """Field, chart and axis on a piece; None where things or boxes would be too small."""
    box = Rect(0, 0, *size).inset(SHEET_EDGE) if tray.size is None else content(size)
    field, below = _halves(box)
    foot = min(_LARGEST, below.height / (most + 1.5) * 1.5)
    tall = (below.height - foot) / most
    figure = numeral_height(range(1, most + 1), min(9.0, 0.55 * tall), 12.0, tray.child.numerals)
    axis = 2.4 * figure
    wide = min(_CELL, 2.8 * tall, (below.width - axis) / kinds)
    left = below.left + (below.width - axis - kinds * wide) / 2 + axis
    chart = Rect(*map(micrometres, (left, below.top, kinds * wide, most * tall)))
    largest = sum(range(most, most - kinds, -1))
    thing = _FILL * _grid(field, largest + _EMPTY)[2]
    if min(thing, tall, wide - 2.0) < SMALLEST_THING or figure < 2.5:
        return None
    return _Plan(
        tray=tray, size=size, field=field, chart=chart, cell=(wide, tall), foot=foot, axis=axis,
        figure=figure, most=most,
    )  # fmt: skip


def _halves(box: Rect) -> tuple[Rect, Rect]:
    """The field of things and the room of the chart: above it, or beside it on a piece that lies."""
    if box.width > box.height:
        wide = micrometres(_FIELD * box.width)
        rest = box.left + wide + _GAP
        return Rect(box.left, box.top, wide, box.height), Rect(rest, box.top, box.right - rest, box.height)
    high = micrometres(_FIELD * box.height)
    rest = box.top + high + _GAP
    return Rect(box.left, box.top, box.width, high), Rect(box.left, rest, box.width, box.bottom - rest)


def _grid(box: Rect, count: int) -> tuple[int, int, float]:
    """Columns and rows for `count` cells as near to square as may be, and the side that fits them."""
    columns = max(range(1, count + 1), key=lambda c: min(box.width / c, box.height / math.ceil(count / c)))
    rows = math.ceil(count / columns)
    return columns, rows, min(box.width / columns, box.height / rows)


def counts(kinds: int, most: int, chance: Chance) -> tuple[int, ...]:
    """How many of each kind, all different, so that there is one most and one fewest; the most is there."""
    others = chance.shuffled(range(1, most))[: kinds - 1]
    return chance.again("order").shuffled((most, *others))


# --- drawing ---------------------------------------------------------------------------------


def _piece(seed: int, plan: _Plan, motifs: Sequence["Motif"], kinds: int, n: int) -> Piece:
    tray = plan.tray
    chance = Chance(seed, tray.child.name, tray.set, str(n))
    chosen = motifs[:kinds] if tray.settings.motifs else chance.again("motifs").shuffled(motifs)[:kinds]
    numbers = counts(kinds, plan.most, chance.again("counts"))
    whole = tray.size is None
    marks: list[Mark] = [] if whole else [hairline(plan.size, accent(tray))]
    marks += _things(plan, chosen, numbers, chance)
    marks += _chart(plan, chosen)
    areas = (Area(box=plan.field, things=sum(numbers)), *_feet(plan, kinds))
    facts = Facts(motifs=tuple(motif.key for motif in chosen), counts=numbers, rows=plan.most)
    return piece_of(tray, plan.size, str(n), Face(marks=tuple(marks), areas=areas), facts, cut=not whole)


def _things(plan: _Plan, motifs: Sequence["Motif"], numbers: Sequence[int], chance: Chance) -> list[Mark]:
    """All things of all kinds, mixed, one in each cell of an uneven grid; some cells stay empty."""
    columns, rows, side = _grid(plan.field, sum(numbers) + _EMPTY)
    thing = min(_LARGEST, _FILL * side)
    kinds = [kind for kind, number in enumerate(numbers) for _ in range(number)]
    cells = chance.again("cells").shuffled(range(columns * rows))[: len(kinds)]
    wide, high = plan.field.width / columns, plan.field.height / rows
    moved = chance.again("moved")
    marks: list[Mark] = []
    for kind, cell in zip(kinds, cells, strict=True):
        row, column = divmod(cell, columns)
        # Half of the gap stays between two things that move towards each other.
        free = 0.25 * thing
        x = plan.field.left + column * wide + moved.between(free / 2, max(free / 2, wide - thing - free / 2))
        y = plan.field.top + row * high + moved.between(free / 2, max(free / 2, high - thing - free / 2))
        drawing = motifs[kind].drawing(plan.tray.child.ink, size=round(thing, 1))
        marks.append(picture(drawing, Rect(x, y, thing, thing)))
    return marks


def _chart(plan: _Plan, motifs: Sequence["Motif"]) -> list[Mark]:
    """Empty boxes, each column above its picture, each row beside its numeral."""
    wide, tall = plan.cell
    child = plan.tray.child
    marks: list[Mark] = []
    for row in range(plan.most):
        top = plan.chart.bottom - (row + 1) * tall
        for column in range(len(motifs)):
            left = plan.chart.left + column * wide
            marks.append(
                Box(
                    x=micrometres(left + 0.6), y=micrometres(top + 0.6), width=micrometres(wide - 1.2),
                    height=micrometres(tall - 1.2), radius=0.8, stroke=SOFT, line=0.3,
                )
            )  # fmt: skip
        base = micrometres(top + (tall + plan.figure) / 2 - 0.05 * plan.figure)
        marks += numeral(str(row + 1), plan.chart.left - plan.axis / 2, base, plan.figure, child.numerals)
    for motif, foot in zip(motifs, _feet(plan, len(motifs)), strict=True):
        drawing = motif.drawing(child.ink, size=round(min(foot.box.width, foot.box.height), 1))
        marks.append(picture(drawing, foot.box.inset(1.2)))
    return marks


def _feet(plan: _Plan, kinds: int) -> tuple[Area, ...]:
    """Where the picture of each column stands."""
    wide, _ = plan.cell
    return tuple(
        Area(
            box=Rect(*map(micrometres, (plan.chart.left + i * wide, plan.chart.bottom, wide, plan.foot))),
            things=1,
        )
        for i in range(kinds)
    )


# --- what the guide asks ---------------------------------------------------------------------


def _about(tray: Tray, say: Say) -> str:
    """'numbers 1 to 6'."""
    most = max(tray.settings.kinds or 2, tray.settings.most or min(MOST, max(4, tray.child.numbers[1])))
    return say("label.numbers", first=1, last=most)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    return Holding(variants=when(two=bool(pieces) and len(pieces[0].facts.counts) == 2))


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`most`: how many there are of what there is most of, on the first sheet."""
    return {"most": word(max(facts[0].counts), spelled)}


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    lines = (
        say(
            f"guide.keys.bar-chart.{'card' if piece.cut else 'sheet'}",
            n=n,
            counts=", ".join(str(count) for count in piece.facts.counts),
        )
        for n, piece in enumerate(pieces, 1)
    )
    return Key(lines=tuple(lines))


MATERIAL = Material(
    name="bar-chart",
    order=65,
    line="mixed things to sort by eye and count; as many boxes are colored above each kind",
    settings=Settings,
    facts=Facts,
    stock="plain",
    make=make,
    track="counting",
    guidance=Guidance(about=_about, holding=_holding, examples=_examples, key=_key, keyed=True),
)
