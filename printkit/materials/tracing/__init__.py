"""Tracing: the numeral and its words to trace and write on ruled lines, beside that many things."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from typing import Literal

from printkit.checks import Millimetres, OneOf, Several, Whole, Words, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.frames import ground_marks
from printkit.materials.layout import (
    accent,
    fits_sheet,
    hairline,
    pictures,
    set_marked,
    shape_of,
    size_problem,
)
from printkit.materials.motifs import chosen_motif
from printkit.materials.strips import groups as groups
from printkit.materials.strips.groups import Shape
from printkit.materials.tracing.card import card_made
from printkit.materials.tracing.guidance import GUIDANCE
from printkit.materials.tracing.plan import AROUND, Mode, Plan, Texts, inner, planned, rows_of
from printkit.materials.tracing.rows import EDGE, Writing, has_strokes, ink_width, row_marks
from printkit.pack import Child, Tray
from printkit.pieces import Area, Drawing, Face, Mark, Piece
from printkit.texts import Note
from printkit.words import find

FADES = ("solid", "dashed", "dotted", "hollow", "starts", "empty")
"""Ways to write a word, from most to least help."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for tracing."""

    form: Literal["strips", "sheet", "card"] = setting(
        "strips",
        OneOf(("strips", "sheet", "card")),
        "strips to cut out, a whole sheet for each number, or a card with one big numeral",
    )
    line_height: float | None = setting(
        None,
        Millimetres(8, 150),
        "mm from the top line to the base line, 8 to 40; unset: the largest of 18, 16, 14, 12, 10, 8 that"
        " fits; on a card the height of the numeral, 60 to 150; unset: up to 80",
    )
    line_most: float | None = setting(
        None,
        Millimetres(8, 40),
        "mm: the largest line height of rows that is tried where line_height is unset; lower where a word"
        " is too long",
    )
    help: Literal["arrows", "dots", "none"] = setting(
        "arrows",
        OneOf(("arrows", "dots", "none")),
        "what the first model of a row shows: start dots with arrows and numbers, start dots, nothing",
    )
    fade: tuple[str, ...] = setting(
        (),
        Several(OneOf(FADES), 12),
        "how the words along a row are written, the last one to its end; unset: a model at both ends,"
        " dashed between",
    )
    rows: int | None = setting(
        None, Whole(1, 6), "rows to write for numeral and word; unset: 2, on a sheet all that fit"
    )
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is drawn")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """The number of a strip and its bare word in each language."""

    numeral: int
    words: dict[str, str]


HEIGHTS = (18.0, 16.0, 14.0, 12.0, 10.0, 8.0)
"""Line heights tried in turn, in mm (common practice: larger ones for younger children)."""
_BARE = 0.7
"""What a strip without things counts for, beside one with them, for a child with needs."""
_LARGER = (40.0, 32.0, 25.0, 20.0)
"""Those tried before for a child who needs numerals large."""
PLEASING = 14.0
"""mm: a line height that gives way for two strips on a sheet, not lower."""
LARGEST = 40.0
"""mm: the largest line height of a row."""
WIDEST = 190.0
"""mm of a strip at most: what a hand follows without moving the paper (design choice)."""
NAMED = {"small": 83.0, "medium": 125.0}
"""Heights of strips by name: 3 and 2 fit a sheet of A4 and of Letter; a large one fills it."""
_MOST_ROWS = 12


@dataclass(frozen=True, kw_only=True, slots=True)
class _Space:
    """Strips may be `width` mm wide and at most `limit` mm high; with `fill` just that high.

    Line heights under `least` are not tried in it.
    """

    width: float
    limit: float
    fill: bool
    least: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class _Wish:
    """Rows and line height as the pack file asks for them, and the child they are for."""

    rows: int | None
    height: float | None
    child: Child
    most: float | None = None

    @property
    def heights(self) -> tuple[tuple[float, ...], ...]:
        """Line heights in mm, in turn: all of a group give way to a shorter strip, none of a later group
        does. The one asked for, or the usual ones and those that the child needs.
        """
        if self.height:
            return ((self.height,),)
        large, line = needs.least_numeral(self.child), needs.line(self.child, 0.0)
        wanted = {each for each in _LARGER if each <= large} | ({line} if line else set())
        if self.most and not wanted:
            return ((self.most,), *((each,) for each in HEIGHTS if each < self.most))
        return ((*sorted(wanted, reverse=True), *HEIGHTS),)

    def met(self, plan: Plan) -> float:
        """How far a plan meets the needs of the child: 1 if it does."""
        thing = plan.things.size if plan.things else None
        line = needs.line(self.child, 0.0)
        merit = needs.merit(self.child, thing, plan.height)
        merit = min(merit, plan.height / line) if line and not self.height else merit
        return merit if plan.things or not self.child.needs else _BARE * merit


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Something to trace for each of the child's numbers."""
    settings: Settings = tray.settings
    if settings.form == "card":
        return card_made(tray, room, _texts(tray), Facts, _notes(_texts(tray)))
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    if tray.size is not None and settings.form == "sheet":
        return refused(
            problem(tray, "size", "a tracing sheet fills the whole sheet", "no size, or form = 'strips'")
        )
    if settings.line_height and settings.line_height > LARGEST:
        found = f"{settings.line_height:g} mm is the height of a card's numeral"
        return refused(problem(tray, "line_height", found, "8 to 40 mm, or form = 'card'"))
    spaces = _spaces(tray, room)
    if not fits_sheet((spaces[0].width, spaces[0].limit), room):
        return refused(size_problem(tray, room, (spaces[0].width, spaces[0].limit)))
    texts = _texts(tray)
    shape = Shape(*shape_of(motif.drawing(20.0)))
    wish = _Wish(rows=settings.rows, height=settings.line_height, child=tray.child, most=settings.line_most)
    plan = _plan(wish, spaces, texts, shape)
    if plan is None:
        return refused(_too_large(tray, room, wish, spaces, texts, shape))
    drawing = motif.drawing(plan.things.size) if plan.things else None
    pieces = [_piece(tray, plan, texts, number, drawing, shape) for number in texts.numbers]
    if settings.form == "strips":
        pieces = set_marked(pieces)
    notes = (*_notes(texts), *needs.narrow_line(tray.child, plan.height))
    return Made(pieces=tuple(pieces), needs=(Need(what="pencil", count=1),), notes=notes)


def _texts(tray: Tray) -> Texts:
    first, last = tray.child.numbers
    numbers = tuple(range(first, last + 1))
    return Texts(
        numbers=numbers,
        items=tuple((str(n), *(tray.child.spelled(tag, n) for tag in tray.child.languages)) for n in numbers),
        writing=Writing(
            help=tray.settings.help,
            fade=tray.settings.fade,
            numerals=tray.child.numerals,
            hand=tray.child.hand,
        ),
        leftward=_leftward(tray.child.languages),
        large=needs.least_thing(tray.child, 0.0),
        narrowest=needs.least_piece(tray.child, 62.0),
    )


def _leftward(languages: tuple[str, ...]) -> tuple[bool, ...]:
    """Which rows run from the right: the numeral's go with the leading language."""
    ways = tuple(find(tag, "languages").direction == "rtl" for tag in languages)
    return (ways[0], *ways)


def _notes(texts: Texts) -> tuple[str, ...]:
    """Which words are hollow because their letters have no strokes."""
    hollow = [
        text for column in texts.columns for text in column if not has_strokes(text, texts.writing.numerals)
    ]
    if not hollow:
        return ()
    shown = [f"'{word}'" for word in dict.fromkeys(hollow)]
    if len(shown) > 3:
        return (Note("notes.hollow_more", words=", ".join(shown[:3]), more=len(shown) - 3),)
    return (Note("notes.hollow", words=tuple(shown)),)


# --- what fits -------------------------------------------------------------------------------


def _spaces(tray: Tray, room: Room) -> tuple[_Space, ...]:
    """The spaces in which the set may be laid out; lengthways last, for long words on small paper."""
    upright, lying = room, Room(room.height, room.width)
    if tray.settings.form == "sheet":
        found = [_Space(width=each.width, limit=each.height, fill=True) for each in (upright, lying)]
    elif isinstance(tray.size, tuple):
        return (_Space(width=tray.size[0], limit=tray.size[1], fill=True),)
    elif tray.size is not None:
        limit = NAMED.get(tray.size, room.height)
        return (_Space(width=min(WIDEST, room.width), limit=limit, fill=True),)
    else:
        found = [
            _Space(width=min(WIDEST, each.width), limit=each.height, fill=False) for each in (upright, lying)
        ]
        two = _Space(width=found[0].width, limit=room.height / 2, fill=False, least=PLEASING)
        return (two, *(found[:1] if found[1].width <= found[0].width else found))
    return tuple(found[:1] if found[1].width <= found[0].width else found)


def _plan(wish: _Wish, spaces: tuple[_Space, ...], texts: Texts, shape: Shape) -> Plan | None:
    """The plan that keeps most of what is usual: the things, two rows, then large letters."""
    return needs.nearest(_plans(wish, spaces, texts, shape), wish.met)


def _plans(wish: _Wish, spaces, texts, shape) -> Iterator[Plan]:
    for heights, (modes, least) in product(wish.heights, _GIVING_WAY):
        for space in spaces:
            for height in (each for each in heights if each >= space.least):
                for rows, mode in product(_row_counts(wish, space, least), modes):
                    plan = planned(
                        space.width, space.limit, height, rows, mode, texts, shape, fill=space.fill
                    )
                    if plan:
                        yield plan


_GIVING_WAY: tuple[tuple[tuple[Mode, ...], int], ...] = tuple(
    product((("beside", "above"), ("none",)), (2, 1))
)
"""Where the things may be, and how many rows there are at least: what is given up one after the other."""


def _row_counts(wish: _Wish, space: _Space, least: int) -> tuple[int, ...]:
    if wish.rows:
        return (wish.rows,)
    return tuple(range(_MOST_ROWS, least - 1, -1)) if space.fill else (least,)


def _too_large(tray, room, wish, spaces, texts, shape):
    """Why there is no plan: a word is too long, or the rows asked for are too high."""
    line = max(inner((space.width, 100.0)).width - 2 * EDGE for space in spaces)
    height = wish.height or HEIGHTS[-1]
    word = max(
        (text for column in texts.columns for text in column),
        key=lambda text: ink_width(text, 1.0, texts.writing),
    )
    wide = ink_width(word, height, texts.writing)
    if wide > line:
        return _too_long(tray, wish, word, wide, line, height)
    if wish.rows:
        fewer = (replace(wish, rows=n) for n in range(wish.rows - 1, 0, -1))
        fitting = next((each for each in fewer if _plan(each, spaces, texts, shape)), None)
        if fitting:
            return problem(
                tray, "rows", f"{wish.rows} rows for each word do not fit", f"at most {fitting.rows}"
            )
    if wish.height:
        halves = range(int(2 * wish.height), 15, -1)
        lower = (replace(wish, height=half / 2) for half in halves)
        fitting = next((each for each in lower if _plan(each, spaces, texts, shape)), None)
        if fitting:
            return problem(
                tray,
                "line_height",
                f"rows of {wish.height:g} mm do not fit one below the other",
                f"at most {fitting.height:g} mm",
            )
    return _too_high(tray, room, spaces, texts, shape)


def _too_long(tray, wish, word, wide, line, height):
    found = f"'{word}' is {wide:.1f} mm long at a line height of {height:g} mm, the line only {line:.1f} mm"
    most = int(10 * height * line / wide) / 10
    if wish.height and most >= HEIGHTS[-1]:
        return problem(tray, "line_height", found, f"a line height of at most {most:g} mm")
    key = "size" if tray.size is not None else "paper"
    return problem(tray, key, found, "a longer line, or numbers with shorter words")


def _too_high(tray, room, spaces, texts, shape):
    roomy = [_Space(width=space.width, limit=2000.0, fill=False) for space in spaces]
    least = planned(roomy[-1].width, 2000.0, HEIGHTS[-1], 1, "none", texts, shape, fill=False)
    size = least.size if least else (roomy[-1].width, AROUND + HEIGHTS[-1])
    if isinstance(tray.size, tuple):
        return problem(
            tray,
            "size",
            f"the rows do not fit a strip of {tray.size[0]:g} x {tray.size[1]:g} mm",
            f"at least {math.ceil(size[1])} mm high at that width",
        )
    return size_problem(tray, room, (round(size[0], 1), round(size[1], 1)))


# --- drawing ---------------------------------------------------------------------------------


def _piece(tray: Tray, plan: Plan, texts: Texts, number: int, drawing: Drawing | None, shape: Shape) -> Piece:
    marks: list[Mark] = [hairline(plan.size, accent(tray))]
    areas: list[Area] = []
    if plan.things:
        box = plan.things.box
        if texts.numbers[0] == 0:
            marks += ground_marks(box)
        marks += pictures(drawing, groups.laid(number, plan.things.across, shape, plan.things.size, box))
        areas.append(Area(box=box, things=number))
    for row in rows_of(plan, number, texts):
        marks += row_marks(row, plan.height, texts.writing)
    words = dict(zip(tray.child.languages, texts.of(number)[1:], strict=True))
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=str(number),
        width=plan.size[0],
        height=plan.size[1],
        front=Face(marks=tuple(marks), areas=tuple(areas)),
        facts=Facts(numeral=number, words=words),
        stock=tray.stock,
        cut=tray.settings.form == "strips",
    )


MATERIAL = Material(
    name="tracing",
    order=20,
    line="the numeral and its words to trace and write on ruled lines, with that many things",
    track="writing",
    settings=Settings,
    facts=Facts,
    stock="plain",
    make=make,
    guidance=GUIDANCE,
)
