"""Outdoors: a list to take along, with a picture and a name for each thing and places to tick."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from printkit import letters
from printkit.chance import Chance
from printkit.checks import Flag, setting
from printkit.errors import listing
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.layout import (
    FAINT,
    INK,
    SOFT,
    accent,
    content,
    fits_sheet,
    hairline,
    numeral,
    numeral_height,
    picture,
    set_marked,
    size_problem,
)
from printkit.materials.named import MotifNames, called, unnamed, wanted_motifs
from printkit.materials.naming import naming
from printkit.materials.outdoors.guidance import GUIDANCE
from printkit.pack import Tray
from printkit.pieces import Area, Box, Color, Face, Line, Mark, Piece, Text
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Motif

SIZES = {"small": (94.0, 125.0), "medium": (94.0, 250.0), "large": (188.0, 250.0)}
"""mm of a list: 4, 2 and 1 of them on a sheet of A4 and of Letter."""
MOST = 10
"""The most of one thing that is to be found (design choice: K.CC.B.5 counts up to 10 scattered things)."""
SECOND: Color = (0.42,)
_TITLE = 15.0
"""mm that the heading takes, its rule included."""
_LOWEST = 18.0
_HIGHEST = 27.0
_TICK = 6.5
"""mm of one of several places to tick."""
_BETWEEN = 1.8
_SMALLEST_WORD = 2.2
_LEAD = 1.3


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for outdoors."""

    counted: bool = setting(
        False, Flag(), "whether each thing has a number (three shells) and as many places"
    )
    motifs: tuple[str, ...] = setting((), MotifNames(), "which pictures of the theme; unset: all")


@dataclass(frozen=True, kw_only=True, slots=True)
class Item:
    """One line of a list: the thing, how many places to tick it has, and what is written beside it.

    `texts` are names by language, or phrases such as 'three shells' where the list is counted.
    """

    motif: str
    places: int
    texts: dict[str, str]


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """The lines of a list, from top to bottom; `counted` if the places say how many to find."""

    counted: bool
    items: tuple[Item, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Line:
    motif: "Motif"
    item: Item


@dataclass(frozen=True, kw_only=True, slots=True)
class _Plan:
    """What all lists of a set share: their size, the height of a line, the size of words."""

    size: tuple[float, float]
    line: float
    title: float
    words: tuple[float, float]
    across: int
    numeral: float


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Lists of all the motifs wanted, as many lines on each as fit."""
    settings: Settings = tray.settings
    theme = tray.child.theme
    pool = theme.counted if settings.counted else theme.motifs
    motifs, problems = wanted_motifs(tray, settings.motifs, pool)
    problems += _uncounted(tray, motifs)
    if problems:
        return refused(*problems)
    lines, notes = _lines(seed, tray, motifs)
    size = _size(tray, room)
    if not fits_sheet(size, room):
        return refused(size_problem(tray, room, size))
    plan = _plan(tray, lines, size)
    if plan is None:
        found = f"not even one line fits a list of {size[0]:g} x {size[1]:g} mm"
        return refused(problem(tray, "size" if tray.size else "paper", found, "at least 80 x 70 mm"))
    groups = _groups(lines, plan)
    if tray.size is None:
        plan = _trimmed(plan, max(map(len, groups)))
    pieces = [_piece(tray, plan, group, n) for n, group in enumerate(groups, 1)]
    gather = (Need(what="pencil", count=1), Need(what="clipboard", count=1))
    return Made(pieces=set_marked(pieces), needs=gather, notes=notes)


def _uncounted(tray: Tray, motifs: Sequence["Motif"]):
    """Motifs that were asked for by name and show several things, where things are to be counted."""
    if not tray.settings.counted:
        return ()
    allowed = [motif.key for motif in tray.child.theme.counted]
    return tuple(
        problem(
            tray, "motifs", f"'{motif.key}' shows several things, so it cannot be counted", listing(allowed)
        )
        for motif in motifs
        if motif.key not in allowed
    )  # fmt: skip


# --- what stands on the lines ----------------------------------------------------------------


def _lines(seed: int, tray: Tray, motifs: Sequence["Motif"]) -> tuple[list[_Line], tuple[str, ...]]:
    child = tray.child
    if not tray.settings.counted:
        items = [Item(motif=m.key, places=1, texts=dict(called(m, child))) for m in motifs]
        return [_Line(motif=m, item=i) for m, i in zip(motifs, items, strict=True)], unnamed(motifs, child)
    lines: list[_Line] = []
    notes: list[str] = []
    low, high = _range(tray)
    for motif in motifs:
        count = low + Chance(seed, child.name, tray.set, motif.key).below(high - low + 1)
        words, why = naming(child, "phrase", motif, (count,))
        notes += why
        texts = dict(zip(child.languages, words.texts(count), strict=True))
        lines.append(_Line(motif=motif, item=Item(motif=motif.key, places=count, texts=texts)))
    return lines, tuple(dict.fromkeys(notes))


def _range(tray: Tray) -> tuple[int, int]:
    """The child's numbers as far as they are 1 to 10; 1 to 10 for a child who counts beyond only."""
    first, last = tray.child.numbers
    low, high = max(1, first), min(MOST, last)
    return (low, high) if low <= high else (1, MOST)


# --- sizes -----------------------------------------------------------------------------------


def _size(tray: Tray, room: Room) -> tuple[float, float]:
    if isinstance(tray.size, tuple):
        return tray.size
    if tray.size is not None:
        return SIZES[tray.size]
    width, height = SIZES["medium"]
    if needs.is_large(tray.child) or needs.is_easy_grip(tray.child):
        return tuple(room)
    return (width if room.width >= 2 * width else room.width, min(height, room.height))


def _scale(size: tuple[float, float]) -> float:
    """How much larger a wide list is drawn."""
    return min(1.5, max(0.7, size[0] / SIZES["medium"][0]))


def _plan(tray: Tray, lines: Sequence[_Line], size: tuple[float, float]) -> _Plan | None:
    """The height of a line, and the size at which all texts of the set fit it."""
    inner, scale = content(size), _scale(size)
    title = micrometres(_TITLE * scale)
    free = inner.height - title
    wide = _text_width(inner.width, scale, counted=tray.settings.counted)
    across = max(1, int((wide + _BETWEEN) // (_TICK + _BETWEEN)))
    most = max(line.item.places for line in lines)
    words = _word_sizes(lines, wide, 5.2 * scale)
    if min(words) < _SMALLEST_WORD:
        return None
    needed = max(_words_high(line.item, words) for line in lines) + 3.0
    if tray.settings.counted:
        needed += math.ceil(most / across) * (_TICK + _BETWEEN) + 1.0
    line = max(_LOWEST * scale, needed)
    if line > free:
        return None
    count = min(len(lines), int(free // line))
    sheets = math.ceil(len(lines) / count)
    rows = math.ceil(len(lines) / sheets)
    line = micrometres(min(free / rows, max(line, _HIGHEST * scale)))
    counts = sorted({line.item.places for line in lines})
    high = numeral_height(counts, 9.0 * scale, 15.0 * scale, tray.child.numerals)
    return _Plan(size=size, line=line, title=title, words=words, across=across, numeral=high)


def _word_sizes(lines: Sequence[_Line], wide: float, most: float) -> tuple[float, float]:
    """The sizes of the first language and of the second, in mm an em, at which every text fits."""
    texts = [tuple(line.item.texts.values()) for line in lines]
    first = letters.shrink_to(tuple(each[0] for each in texts), wide, most)
    others = tuple(text for each in texts for text in each[1:])
    second = letters.shrink_to(others, wide, 0.9 * first) if others else first
    return min(first, second / 0.7), second


def _words_high(item: Item, words: tuple[float, float]) -> float:
    return _LEAD * (words[0] + words[1] * (len(item.texts) - 1))


def _text_width(wide: float, scale: float, *, counted: bool) -> float:
    """What is left for words between the picture and what stands at the other end of a line."""
    return wide - _picture_width(scale) - (16.0 if counted else 13.0) * scale - 4.0


def _picture_width(scale: float) -> float:
    return 22.0 * scale


def _groups(lines: Sequence[_Line], plan: _Plan) -> list[Sequence[_Line]]:
    """The lines of each list, nearly as many on each."""
    free = content(plan.size).height - plan.title
    count = math.ceil(len(lines) / int((free + 1e-6) // plan.line))
    ends = [math.ceil(len(lines) * i / count) for i in range(count + 1)]
    return [lines[a:b] for a, b in pairwise(ends)]


def _trimmed(plan: _Plan, rows: int) -> _Plan:
    """The plan with lists no longer than their lines."""
    width, height = plan.size
    spare = content(plan.size).height - plan.title - rows * plan.line
    return _Plan(
        size=(width, micrometres(height - max(0.0, spare))), line=plan.line, title=plan.title,
        words=plan.words, across=plan.across, numeral=plan.numeral,
    )  # fmt: skip


# --- drawing ---------------------------------------------------------------------------------


def _piece(tray: Tray, plan: _Plan, lines: Sequence[_Line], n: int) -> Piece:
    inner, scale = content(plan.size), _scale(plan.size)
    marks: list[Mark] = [hairline(plan.size, accent(tray)), *_title_marks(tray, plan, inner)]
    areas: list[Area] = []
    for i, line in enumerate(lines):
        box = Rect(inner.left, micrometres(inner.top + plan.title + i * plan.line), inner.width, plan.line)
        if i:
            marks.append(Line(x1=box.left, y1=box.top, x2=box.right, y2=box.top, color=FAINT, line=0.3))
        spot, words, end = _cells(box, scale, tray)
        side = max(spot.width, spot.height)
        marks.append(picture(line.motif.drawing(tray.child.ink, size=round(side, 1)), spot))
        areas.append(Area(box=spot.inset(-0.8), things=1))
        marks += _line_marks(tray, plan, line, words, end)
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=f"list-{n}",
        width=plan.size[0],
        height=plan.size[1],
        front=Face(marks=tuple(marks), areas=tuple(areas)),
        facts=Facts(counted=tray.settings.counted, items=tuple(line.item for line in lines)),
        stock=tray.stock,
    )


def _title_marks(tray: Tray, plan: _Plan, inner: Rect) -> list[Mark]:
    """The theme's title in the leading language over a thin rule."""
    text = tray.child.theme.title(tray.child.languages[0])
    size = letters.shrink_to((text,), inner.width - 2, 0.42 * plan.title)
    run = letters.run(text, size)
    y = micrometres(inner.top + plan.title - 2.0)
    return [
        Text(
            run=run, x=micrometres(inner.left + 1 - min(0.0, run.ink[0])),
            y=micrometres(inner.top + 0.56 * plan.title), color=INK,
        ),
        Line(x1=inner.left, y1=y, x2=inner.right, y2=y, color=accent(tray), line=0.5),
    ]  # fmt: skip


def _cells(box: Rect, scale: float, tray: Tray) -> tuple[Rect, Rect, Rect]:
    """The boxes of the picture, of the words and of what stands at the end where the pencil is held."""
    end_wide = (16.0 if tray.settings.counted else 13.0) * scale
    across = _picture_width(scale)
    high = micrometres(min(box.height - 4.0, across - 2.0))
    top = micrometres(box.top + (box.height - high) / 2)
    if tray.child.hand == "left":
        end = Rect(box.left, box.top, end_wide, box.height)
        spot = Rect(micrometres(end.right + 1.0), top, across - 2.0, high)
        left = end.right + across + 2.0
        words = Rect(left, box.top, box.right - left, box.height)
    else:
        end = Rect(box.right - end_wide, box.top, end_wide, box.height)
        spot = Rect(micrometres(box.left + 1.0), top, across - 2.0, high)
        left = box.left + across + 2.0
        words = Rect(left, box.top, end.left - 2.0 - left, box.height)
    return spot, words, end


def _line_marks(tray: Tray, plan: _Plan, line: _Line, words: Rect, end: Rect) -> list[Mark]:
    item = line.item
    counted = tray.settings.counted
    high = _words_high(item, plan.words)
    rows = math.ceil(item.places / plan.across) if counted else 0
    ticks = rows * (_TICK + _BETWEEN)
    y = words.top + (words.height - high - ticks) / 2
    marks: list[Mark] = []
    for n, text in enumerate(item.texts.values()):
        size = plan.words[min(n, 1)]
        run = letters.run(text, size)
        x = micrometres(words.left - min(0.0, run.ink[0]))
        base = micrometres(y + 0.97 * size)
        marks.append(Text(run=run, x=x, y=base, color=INK if n == 0 else SECOND))
        y += _LEAD * size
    if not counted:
        side = micrometres(min(0.6 * words.height, 0.85 * end.width))
        middle = words.top + words.height / 2
        marks.append(_tick(end.left + (end.width - side) / 2, middle - side / 2, side))
        return marks
    for i in range(item.places):
        row, column = divmod(i, plan.across)
        marks.append(
            _tick(
                words.left + column * (_TICK + _BETWEEN), y + _BETWEEN / 2 + row * (_TICK + _BETWEEN), _TICK
            )
        )
    base = micrometres(end.top + (end.height + plan.numeral) / 2)
    middle = micrometres(end.left + end.width / 2)
    marks += numeral(str(item.places), middle, base, plan.numeral, tray.child.numerals)
    return marks


def _tick(x: float, y: float, side: float) -> Box:
    return Box(
        x=micrometres(x),
        y=micrometres(y),
        width=side,
        height=side,
        radius=0.16 * side,
        stroke=SOFT,
        line=0.45,
    )


MATERIAL = Material(
    name="outdoors",
    order=210,
    line="a list to take outside: pictures and names, places to tick, with numbers if asked for",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
