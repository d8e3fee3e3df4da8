"""Find the match: a sample and a field of look-alikes; a counter goes on each one like the sample."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from printkit.chance import Chance
from printkit.checks import OneOf, Whole, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.find_the_match.field import (
    AIR,
    GAP,
    Grid,
    grid_in,
    others_laid,
    rings,
    rings_high,
    target_places,
)
from printkit.materials.find_the_match.guidance import GUIDANCE
from printkit.materials.find_the_match.rounds import Round, none_visible, rounds
from printkit.materials.layout import (
    SHEET_EDGE,
    SOFT,
    accent,
    content,
    fits_sheet,
    hairline,
    numeral,
    numeral_height,
    set_marked,
    sheet_size,
    size_problem,
)
from printkit.pack import Tray
from printkit.pieces import Area, Box, Dot, Face, Mark, Picture, Piece
from printkit.texts import Note
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Look

FIELDS = (20, 16, 12)
"""How many look-alikes there are if nothing is asked for: the most that have room."""
LEAST = 10.0
"""mm of the smallest picture to be looked at closely (design choice)."""
SHEETS = 4
_MOST_BAND = 0.4
"""How much of a piece places for counters may take unless asked for; beyond that a numeral tells it."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for find-the-match."""

    count: int = setting(SHEETS, Whole(1, 24), "how many sheets or cards, each with another picture")
    field: int | None = setting(
        None, Whole(12, 40), "how many look-alikes lie in a field; unset: 20, fewer on small paper"
    )
    targets: int | None = setting(
        None,
        Whole(1, 20),
        "how many of them are like the sample, up to a third; unset: a quarter or so, not always as many",
    )
    told: Literal["places", "numeral", "none"] | None = setting(
        None,
        OneOf(("places", "numeral", "none")),
        "how the child knows how many to find: a place for each counter, a numeral, not at all; "
        "unset: places where they fit",
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a field; places count from 0, in reading order, `columns` to a row.

    `others` says of each picture that is not like the sample how it differs, in reading order.
    """

    motif: str
    field: int
    columns: int
    targets: tuple[int, ...]
    others: tuple[str, ...]
    told: str


@dataclass(frozen=True, kw_only=True, slots=True)
class _Plan:
    """What all sheets of a set share.

    `targets` says how many of each field are like its sample, `lines` in how many rows the places for
    counters lie.
    """

    tray: Tray
    size: tuple[float, float]
    sample: Rect
    beside: Rect
    grid: Grid
    told: str
    targets: tuple[int, ...]
    lines: int


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of sheets or cards, each with a sample and a field."""
    settings: Settings = tray.settings
    size = sheet_size(tray, room)
    if not fits_sheet(size, room):
        return refused(size_problem(tray, room, size))
    fields = (settings.field,) if settings.field else FIELDS
    if settings.targets is not None and settings.targets > most_targets(fields[0]):
        return refused(
            problem(
                tray,
                "targets",
                f"{settings.targets} of {fields[0]} would leave too few others to look through",
                f"at most {most_targets(fields[0])} of {fields[0]}, or a larger field",
            )
        )
    plan = next((plan for field in fields if (plan := _plan(seed, tray, size, field)) is not None), None)
    if plan is None:
        return refused(
            problem(
                tray,
                "size" if tray.size is not None else "field" if settings.field else "paper",
                f"a sample and {fields[-1]} pictures of {LEAST:g} mm or more do not fit "
                f"{size[0]:.4g} x {size[1]:.4g} mm",
                "a larger piece or larger paper" + (", or a smaller field" if fields[-1] > 12 else ""),
            )
        )
    found = rounds(seed, tray, plan.grid.side)
    if not found:
        return refused(none_visible(tray, plan.grid.side))
    pieces = [_piece(seed, plan, item, n) for n, item in enumerate(found, 1)]
    gather = (Need(what="counters", count=max(plan.targets), size=tray.child.counter),)
    return Made(pieces=set_marked(pieces), needs=gather, notes=_notes(plan))


def most_targets(field: int) -> int:
    """How many of a field may be like the sample: a third, so that there is something to look through."""
    return field // 3


def _notes(plan: _Plan) -> tuple[str, ...]:
    counter = plan.tray.child.counter
    across = min(plan.grid.box.width / plan.grid.columns, plan.grid.box.height / plan.grid.rows)
    if counter <= across:
        return ()
    return (Note("notes.over_neighbors", counter=float(counter), across=round(across, 1)),)


# --- how it is laid out ----------------------------------------------------------------------


def _plan(seed: int, tray: Tray, size: tuple[float, float], field: int) -> _Plan | None:
    """Sample, places and field on a piece; None where the pictures would be too small."""
    settings: Settings = tray.settings
    if settings.targets is not None and settings.targets > most_targets(field):
        return None
    targets = _targets(seed, tray, field)
    box = Rect(0, 0, *size).inset(SHEET_EDGE) if _is_whole(tray) else content(size)
    asked = settings.told or "places"
    for lines in (1, 2, 3) if asked == "places" else ():
        sample, beside, grid = _bands(box, field, rings_high(lines, tray.child.counter + 2))
        fits = all(rings(count, lines, beside, tray.child.counter + 2) for count in targets)
        small = settings.told is None and beside.height > _MOST_BAND * box.height
        if fits and grid.side >= LEAST and not small:
            return _planned(tray, size, (sample, beside, grid), "places", targets, lines)
    sample, beside, grid = _bands(box, field, 0.0)
    if grid.side < LEAST or settings.told == "places":
        return None
    told = "numeral" if asked == "places" else asked
    return _planned(tray, size, (sample, beside, grid), told, targets, 0)


def _planned(tray, size, bands, told, targets, lines) -> _Plan:
    sample, beside, grid = bands
    return _Plan(
        tray=tray, size=size, sample=sample, beside=beside, grid=grid, told=told, targets=targets, lines=lines
    )


def _targets(seed: int, tray: Tray, field: int) -> tuple[int, ...]:
    """How many of each field are like its sample: as asked for, or about a quarter, by chance."""
    settings: Settings = tray.settings
    if settings.targets is not None:
        return (settings.targets,) * settings.count
    low, high = max(2, round(0.18 * field)), round(0.3 * field)
    chances = (Chance(seed, tray.child.name, tray.set, str(n), "targets") for n in range(settings.count))
    return tuple(low + chance.below(high - low + 1) for chance in chances)


def _is_whole(tray: Tray) -> bool:
    """Whether the sheet is used uncut."""
    return tray.size is None


def _bands(box: Rect, field: int, least: float) -> tuple[Rect, Rect, Grid]:
    """The sample's box, the room beside it (at least `least` mm high) and the field below.

    The sample is as large as the pictures of the field, which hang on how high its own band is.
    """
    side, band = LEAST, 0.0
    for _ in range(12):
        band = max(side + 2 * AIR, least)
        top = box.top + band + GAP
        grid = grid_in(Rect(box.left, top, box.width, max(1.0, box.bottom - top)), field)
        side = (side + grid.side) / 2
    side = min(grid.side, band - 2 * AIR)
    grid = Grid(box=grid.box, count=field, columns=grid.columns, side=micrometres(side))
    wide = grid.side + 2 * AIR
    sample = Rect(box.left, micrometres(box.top + (band - wide) / 2), micrometres(wide), micrometres(wide))
    left = sample.right + GAP
    return sample, Rect(left, box.top, box.right - left, band), grid


# --- drawing ---------------------------------------------------------------------------------


def _piece(seed: int, plan: _Plan, item: Round, n: int) -> Piece:
    tray, grid = plan.tray, plan.grid
    chance = Chance(seed, tray.child.name, tray.set, str(n), "places")
    neighbors = grid.neighbors()
    targets = target_places(neighbors, plan.targets[n - 1], chance)
    laid = others_laid(neighbors, targets, len(item.kinds), chance.again("others"))
    squares = grid.squares()
    looks = [item.sample if kind is None else item.kinds[kind].odd for kind in laid]
    edge = plan.sample.inset(0.2)
    told_marks, told_areas = _told(plan, len(targets))
    marks: list[Mark] = [] if _is_whole(tray) else [hairline(plan.size, accent(tray))]
    marks.append(
        Box(
            x=edge.left, y=edge.top, width=edge.width, height=edge.height,
            radius=3, stroke=accent(tray), line=0.4,
        )
    )  # fmt: skip
    marks.append(_looked(item.sample, plan.sample.inset(AIR)))
    marks += told_marks
    marks += [_looked(look, square) for look, square in zip(looks, squares, strict=True)]
    areas = (
        Area(box=plan.sample.inset(1.2), things=1),
        *told_areas,
        *(Area(box=square.inset(-0.8), things=1) for square in squares),
    )
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=str(n),
        width=plan.size[0],
        height=plan.size[1],
        front=Face(marks=tuple(marks), areas=areas),
        facts=Facts(
            motif=item.motif,
            field=grid.count,
            columns=grid.columns,
            targets=targets,
            others=tuple(" ".join(item.kinds[kind].said) for kind in laid if kind is not None),
            told=plan.told,
        ),
        stock=tray.stock,
        cut=not _is_whole(tray),
        boxes=squares,
    )


def _told(plan: _Plan, count: int) -> tuple[Sequence[Mark], tuple[Area, ...]]:
    """How many to find, beside the sample: a place for each counter, or a numeral."""
    beside, child = plan.beside, plan.tray.child
    if plan.told == "places":
        places = rings(count, plan.lines, beside, child.counter + 2) or ()
        radius = child.counter / 2 + 1
        dots = [Dot(x=x, y=y, radius=radius, stroke=SOFT, line=0.3) for x, y in places]
        return dots, (Area(box=beside, things=0, ground="places"),)
    if plan.told == "none":
        return (), ()
    most = max(plan.targets)
    highest = min(needs.least_numeral(child, 26.0), 0.6 * beside.height)
    height = numeral_height(range(1, most + 1), highest, max(40.0, 1.6 * highest), child.numerals)
    base = beside.top + (beside.height + height) / 2
    return numeral(str(count), beside.left + height, base, height, child.numerals), ()


def _looked(look: "Look", box: Rect) -> Picture:
    """A look in the middle of its square; its turns are quarter turns, so that it fits turned too."""
    drawing = look.drawing
    scale = min(box.width, box.height) / max(drawing.width, drawing.height) * look.scale
    width, height = micrometres(drawing.width * scale), micrometres(drawing.height * scale)
    return Picture(
        drawing=drawing,
        x=micrometres(box.left + (box.width - width) / 2),
        y=micrometres(box.top + (box.height - height) / 2),
        width=width,
        height=height,
        turn=look.turn,
        mirror=look.mirror,
    )


MATERIAL = Material(
    name="find-the-match",
    order=110,
    line="a sample and a field of look-alikes; a counter goes on each one like the sample",
    track="looking",
    settings=Settings,
    facts=Facts,
    stock="plain",
    make=make,
    guidance=GUIDANCE,
)
