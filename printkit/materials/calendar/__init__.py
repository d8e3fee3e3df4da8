"""A calendar to lay: a month board, day tiles 1 to 31, labels for months and weekdays.

No clock is read: month and year are those of the pack file, or the board has no dates.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from printkit.checks import Several, Whole, Words, setting
from printkit.errors import Problem, listing
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.calendar.board import (
    LEAST_TILE,
    MARKED_TILE,
    Month,
    Pen,
    Plan,
    around,
    board_face,
    name_marks,
    planned,
    usual,
    year_box,
)
from printkit.materials.calendar.guidance import GUIDANCE
from printkit.materials.calendar.names import (
    MONTHS,
    WEEKDAYS,
    Names,
    Region,
    first_weekday,
    lead,
    month_length,
    names_in,
    region_of,
    rows_of,
    weekdays_from,
)
from printkit.materials.calendar.tiles import TilePen, tile_face
from printkit.materials.layout import (
    accent,
    content,
    hairline,
    picture,
    set_marked,
)
from printkit.materials.motifs import ChosenMotif, chosen_motif
from printkit.materials.naming import SPARSE
from printkit.pack import Tray
from printkit.pieces import Face, Mark, Picture, Piece
from printkit.texts import Note
from printkit.units import Rect
from printkit.words import find

DAYS = range(1, 32)


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for a calendar."""

    month: int | None = setting(None, Whole(1, 12), "the month of the board; unset: a board without dates")
    year: int | None = setting(None, Whole(1900, 2199), "the year of that month")
    region: str | None = setting(
        None, Region(), "whose weeks: a region in two letters; unset: that of the leading language"
    )
    marks: tuple[int, ...] = setting(
        (), Several(Whole(1, 31), 31), "days to mark: a bar on the tile, a frame on a dated board"
    )
    motif: str | None = setting(
        None, Words("the name of a motif"), "which picture of the theme is on the tiles"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What a piece of the calendar is; only what it has is told.

    Weekdays are those of ISO 8601: 1 is Monday, 7 is Sunday. On a board `columns` are the weekdays of
    this part's columns from the left, `weeks_begin` the weekday on which a week begins; with dates
    `first` is the weekday of the 1st, `days` how many days the month has, `rows` how many rows it takes.
    """

    kind: Literal["board", "day", "month", "weekday"]
    day: int | None = field(default=None, metadata=SPARSE)
    month: int | None = field(default=None, metadata=SPARSE)
    year: int | None = field(default=None, metadata=SPARSE)
    weekday: int | None = field(default=None, metadata=SPARSE)
    weeks_begin: int | None = field(default=None, metadata=SPARSE)
    columns: tuple[int, ...] = field(default=(), metadata=SPARSE)
    rows: int | None = field(default=None, metadata=SPARSE)
    first: int | None = field(default=None, metadata=SPARSE)
    days: int | None = field(default=None, metadata=SPARSE)
    marked: tuple[int, ...] | bool = field(default=(), metadata=SPARSE)
    names: dict[str, str] = field(default_factory=dict, metadata=SPARSE)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Set:
    """What all pieces of a set share."""

    tray: Tray
    plan: Plan
    names: tuple[Names, ...]
    month: Month
    motif: ChosenMotif
    weeks_begin: int


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Board, tiles and labels."""
    motif = chosen_motif(seed, tray)
    problems = (*((motif.problem,) if motif.problem else ()), *_wrong_dates(tray))
    if problems:
        return refused(*problems)
    plan = _plan(tray, room)
    if isinstance(plan, Problem):
        return refused(plan)
    names, notes = _names(tray)
    begin = first_weekday(tray.settings.region or region_of(tray.child.languages[0]))
    shared = _Set(
        tray=tray, plan=plan, names=names, month=_month(tray, names, begin), motif=motif, weeks_begin=begin
    )
    pieces = [_board(shared, part) for part in range(len(plan.parts))]
    pieces += [_tile(shared, day) for day in DAYS]
    pieces += [_label(shared, "month", n) for n in MONTHS]
    pieces += [_label(shared, "weekday", n) for n in weekdays_from(begin)]
    tile = next(piece for piece in pieces if piece.facts.kind == "day")
    pictured = any(isinstance(mark, Picture) for mark in tile.front.marks)
    if not pictured and not needs.is_large(tray.child):
        notes += (Note("notes.no_tile_pictures"),)
    marked = set_marked(pieces)
    if plan.tile[1] < MARKED_TILE:
        marked = tuple(replace(piece, mark="") if piece.facts.kind == "day" else piece for piece in marked)
    boards = sum(piece.facts.kind == "board" for piece in marked)
    gather = (Need(what="tape", count=1),) if boards > 1 else ()
    return Made(pieces=marked, needs=gather, notes=notes)


# --- what is asked for -----------------------------------------------------------------------


def _wrong_dates(tray: Tray) -> tuple[Problem, ...]:
    """A month without its year or the other way round, or a day that the month does not have."""
    settings: Settings = tray.settings
    if (settings.month is None) != (settings.year is None):
        there, missing = ("month", "year") if settings.year is None else ("year", "month")
        value = settings.month if settings.year is None else settings.year
        found = f"{there} = {value} stands without a {missing}"
        return (problem(tray, there, found, "month and year together, or neither for a board without dates"),)
    if settings.month is None:
        return ()
    length = month_length(settings.year, settings.month)
    beyond = sorted({day for day in settings.marks if day > length})
    if not beyond:
        return ()
    found = f"month {settings.month} of {settings.year} has no day {listing(beyond, 'and')}"
    return (problem(tray, "marks", found, f"1 to {length}"),)


def _plan(tray: Tray, room: Room) -> Plan | Problem:
    if isinstance(tray.size, tuple):
        plan = around(tray.size, room)
    elif tray.size == "small":
        plan = next((p for p in (planned(room, n) for n in (1, 2, 3, 4)) if p), None)
    elif tray.size == "large":
        plan = next((p for p in (planned(room, n) for n in (4, 3, 2)) if p and p.tile[0] >= 55), None)
    elif needs.is_large(tray.child) or needs.is_easy_grip(tray.child):
        plan = next((p for p in (planned(room, n) for n in (4, 3, 2, 1)) if p), None)
    else:
        plan = usual(room)
    if plan:
        return plan
    best = usual(room)
    if best is None:
        found = f"a calendar does not fit a sheet of {room.width:.4g} x {room.height:.4g} mm"
        return problem(tray, "paper", found, "larger paper, such as a5, a4 or letter")
    wanted = tray.size if isinstance(tray.size, str) else f"{tray.size[0]:g} x {tray.size[1]:g} mm"
    found = f"no board for tiles of the size {wanted} fits the sheet"
    least = f"{LEAST_TILE[0]:g} x {LEAST_TILE[1]:g} mm"
    return problem(tray, "size", found, f"tiles from {least} up; {best.tile[0]:g} x {best.tile[1]:g} mm fit")


def _names(tray: Tray) -> tuple[tuple[Names, ...], tuple[str, ...]]:
    """The names in the child's languages, in English where there are none at all, and what is to be said."""
    found = [(tag, names_in(tag)) for tag in tray.child.languages]
    known = tuple(names for _, names in found if names)
    missing = [tag for tag, names in found if names is None]
    if not missing:
        return known, ()
    note = Note("notes.no_month_names" if known else "notes.english_month_names", tags=tuple(missing))
    english = names_in("en")
    assert english is not None
    return known or (english,), (note,)


def _month(tray: Tray, names: Sequence[Names], begin: int) -> Month:
    """The board's columns and days; from the right where the leading language is written so."""
    settings: Settings = tray.settings
    leftward = find(tray.child.languages[0], tray.place("languages")).direction == "rtl"
    weekdays = weekdays_from(begin)

    def column(place: int) -> int:
        return 6 - place if leftward else place

    shown = tuple(weekdays[column(i)] for i in range(7))
    if settings.month is None:
        return Month(weekdays=shown, rows=6, marked=settings.marks)
    before = lead(settings.year, settings.month, begin)
    length = month_length(settings.year, settings.month)
    places = [divmod(before + day - 1, 7) for day in range(1, length + 1)]
    return Month(
        weekdays=shown,
        rows=rows_of(settings.year, settings.month, begin),
        days=tuple((column(place), row, day) for day, (row, place) in enumerate(places, 1)),
        marked=settings.marks,
        heading=tuple(each.month(settings.month) for each in names),
        year=str(settings.year),
    )


# --- pieces ----------------------------------------------------------------------------------


def _piece(shared: _Set, key: str, size: tuple[float, float], face: Face, facts: Facts) -> Piece:
    tray = shared.tray
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=key,
        width=size[0],
        height=size[1],
        front=face,
        facts=facts,
        stock=tray.stock,
    )


def _board(shared: _Set, part: int) -> Piece:
    tray, plan, month = shared.tray, shared.plan, shared.month
    settings: Settings = tray.settings
    pen = Pen(names=shared.names, numerals=tray.child.numerals, accent=accent(tray))
    first = sum(plan.parts[:part])
    columns = month.weekdays[first : first + plan.parts[part]]
    starts = next((month.weekdays[column] for column, _, day in month.days if day == 1), None)
    facts = Facts(
        kind="board",
        month=settings.month,
        year=settings.year,
        weeks_begin=shared.weeks_begin,
        columns=columns,
        rows=month.rows,
        first=starts,
        days=len(month.days) or None,
        marked=tuple(sorted(set(month.marked))) if month.days else (),
    )
    face = board_face(plan, part, month, pen, _ornament(shared, part))
    return _piece(shared, f"board-{part + 1}", plan.board(part, month.rows), face, facts)


def _ornament(shared: _Set, part: int) -> tuple[Mark, ...]:
    """A few pictures of the theme in the top row of the last part, where there is room beside the year."""
    plan, child = shared.plan, shared.tray.child
    if part == 0 or part != len(plan.parts) - 1:
        return ()
    box = year_box(plan, shared.month.rows)
    if shared.month.year:
        box = Rect(box.left, box.top, box.width - 52.0, box.height)
    box = Rect(box.left + 2, box.top + 3, box.width - 4, box.height - 6)
    others = [motif for motif in child.theme.motifs if motif is not shared.motif.motif]
    count = min(len(others) + 1, int(box.width // (box.height * 1.25)))
    shown = [shared.motif.motif, *others][: max(0, count)]
    step = box.width / max(1, len(shown))
    return tuple(
        picture(
            motif.drawing(child.ink, size=round(box.height, 1)),
            Rect(box.left + i * step, box.top, step, box.height),
        )
        for i, motif in enumerate(shown)
    )


def _tile(shared: _Set, day: int) -> Piece:
    """A day: its numeral, beside or over a picture where there is room for one."""
    tray = shared.tray
    marked = day in tray.settings.marks
    pen = TilePen(
        numerals=tray.child.numerals,
        accent=accent(tray),
        drawing=shared.motif.drawing,
        large=needs.is_large(tray.child),
    )
    face = tile_face(day, shared.plan.tile, pen, marked=marked)
    return _piece(shared, f"day-{day}", shared.plan.tile, face, Facts(kind="day", day=day, marked=marked))


def _label(shared: _Set, kind: Literal["month", "weekday"], n: int) -> Piece:
    """A label with the names of a month or a weekday, all of a kind equally large."""

    def name(each: Names, number: int) -> str:
        return each.month(number) if kind == "month" else each.weekday(number)

    every = MONTHS if kind == "month" else WEEKDAYS
    among = [tuple(name(each, number) for number in every) for each in shared.names]
    size = shared.plan.label
    words = [name(each, n) for each in shared.names]
    marks = name_marks(words, content(size).inset(0.5), 7.5, among=among)
    facts = Facts(
        kind=kind,
        month=n if kind == "month" else None,
        weekday=n if kind == "weekday" else None,
        names={each.tag: word for each, word in zip(shared.names, words, strict=True)},
    )
    face = Face(marks=(hairline(size, accent(shared.tray)), *marks))
    return _piece(shared, f"{kind}-{n}", size, face, facts)


MATERIAL = Material(
    name="calendar",
    order=200,
    line="a month board with day tiles 1 to 31 and labels for months and weekdays; reads no clock",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
