"""Ten-frames: filled ones as cards with their number behind, empty ones as mats for loose counters."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from printkit.chance import Chance
from printkit.checks import OneOf, WordOrWords, Words, setting
from printkit.materials import arrange as arranging
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.frames import frame_marks
from printkit.materials.layout import (
    BEHIND,
    CONTENT_INSET,
    INK,
    MARK_STRIP,
    SMALLEST_THING,
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
from printkit.materials.making import fitting_sizes, piece_of
from printkit.materials.motifs import chosen_motif
from printkit.materials.naming import Naming, height_of, naming, written
from printkit.materials.ten_frames.guidance import GUIDANCE
from printkit.pack import Child, Tray
from printkit.pieces import Area, Dot, Drawing, Face, Mark, Piece
from printkit.units import Rect, micrometres

FILLS = ("fives", "pairs", "any")


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for ten-frames."""

    form: Literal["cards", "mats"] = setting(
        "cards", OneOf(("cards", "mats")), "filled frames on cards, or empty ones as mats for loose counters"
    )
    fill: tuple[str, ...] = setting(
        ("fives",),
        WordOrWords(FILLS),
        "which places are taken first: a row of five, pairs, or any; with a list each number has a card each",
    )
    things: Literal["pictures", "dots"] = setting(
        "pictures",
        OneOf(("pictures", "dots")),
        "what fills the frames: a picture of the theme, or plain dots",
    )
    asks: Literal["filled", "empty"] = setting(
        "filled",
        OneOf(("filled", "empty")),
        "what the back tells: how many places are filled, or still empty",
    )
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is counted")
    words: Literal["number", "none"] = setting(
        "number", OneOf(("number", "none")), "number words behind, or the numeral alone"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a card or mat; `fill`, `numeral` and `words` are empty on a mat.

    `cells` are the filled places, counted from 0 through all frames, each row from the left. `numeral`
    is what the back says: the number of filled places, or of `empty` ones.
    """

    quantity: int
    frames: int
    empty: int
    fill: str | None
    cells: tuple[int, ...]
    numeral: int | None
    words: dict[str, str]


SIZES_ONE = {
    #          lying         fits a sheet of A4 and of Letter
    "small":  (62.0, 41.8),  # 18 times
    "medium": (94.0, 50.0),  # 10 times
    "large":  (125.0, 62.0), # 6 times, turned
}  # fmt: skip
SIZES_TWO = {
    "small":  (62.0, 62.0),  # 12 times
    "medium": (94.0, 83.5),  # 6 times
    "large":  (125.0, 94.0), # 4 times
}  # fmt: skip
SIZES_MORE = {
    "small":  (62.0, 88.0),  # 9 and 6 times
    "medium": (94.0, 125.0), # 4 times
    "large":  (188.0, 125.0),  # twice
}  # fmt: skip
_LARGEST_CELL = 24.0
_FRAME_AIR = 1.2
"""mm between a frame and the edge of what may be drawn on."""
_AIR = {"small": 2.0, "medium": 6.0, "large": 12.0}
"""mm by which the places of a mat are larger than a counter."""


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of filled cards for the child's numbers, or the empty mats that they take."""
    if tray.settings.form == "mats":
        return _mats(tray, room)
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    last = tray.child.numbers[1]
    named = SIZES_ONE if last <= 10 else SIZES_TWO if last <= 20 else SIZES_MORE
    sizes = fitting_sizes(tray, room, named)
    if not sizes:
        return refused(
            size_problem(tray, room, tray.size if isinstance(tray.size, tuple) else named["small"])
        )
    size = next(
        (size for size in sizes if _cell(tray.child, last, size) * arranging.FRAME_FILL >= SMALLEST_THING),
        None,
    )
    if size is None:
        return refused(_too_many(tray, sizes[-1]))
    size = needs.nearest(
        (each for each in sizes if _cell(tray.child, last, each) * arranging.FRAME_FILL >= SMALLEST_THING),
        lambda each: needs.merit(tray.child, _cell(tray.child, last, each) * arranging.FRAME_FILL),
    )
    cell = _cell(tray.child, last, size)
    drawing = motif.drawing(cell * arranging.FRAME_FILL) if tray.settings.things == "pictures" else None
    said = sorted({_said(tray, number) for number in _numbers(tray)})
    words, notes = naming(tray.child, tray.settings.words, None, said)
    pieces = [
        _card(seed, tray, size, cell, number, fill, drawing, words, said)
        for number in _numbers(tray)
        for fill in tray.settings.fill
    ]
    return Made(pieces=set_marked(pieces), notes=notes)


def filled(number: int, fill: str, chance: Chance) -> tuple[int, ...]:
    """The places that `number` things take, counted through all frames, each row of five from the left.

    Whole frames are filled first. Five-wise the upper row comes first, pair-wise one column after the
    other (see the sources of tests); in 'any' way the last frame is neither, where there is a choice.
    """
    full, rest = divmod(number, 10)
    if fill == "pairs":
        last = [(i % 2) * 5 + i // 2 for i in range(rest)]
    elif fill == "any":
        last = list(_any(rest, chance))
    else:
        last = list(range(rest))
    return (*range(10 * full), *(10 * full + place for place in sorted(last)))


def _any(rest: int, chance: Chance) -> tuple[int, ...]:
    """Places without the usual order; every one of C(10, rest) fillings but two may come."""
    usual = {filled(rest, "fives", chance), filled(rest, "pairs", chance)}
    for attempt in range(50):
        places = tuple(sorted(chance.again(f"any/{attempt}").shuffled(range(10))[:rest]))
        if places not in usual:
            return places
    return places


def _numbers(tray: Tray) -> range:
    first, last = tray.child.numbers
    return range(first, last + 1)


def _frames(number: int) -> int:
    return max(1, -(-number // 10))


def _lying(count: int, box: Rect, cell: float | None = None) -> tuple[arranging.Frame, ...]:
    """Frames with two rows of five, as the guide speaks of them, on a card of any shape."""
    return arranging.frames(count, box, cell, arranging.LYING)


def _said(tray: Tray, number: int) -> int:
    """The number on the back."""
    return number if tray.settings.asks == "filled" else 10 * _frames(number) - number


# --- cards -----------------------------------------------------------------------------------


def _cell(child: Child, most: int, size: tuple[float, float]) -> float:
    """The side of a place in mm at which the frames for `most` things fit a card."""
    return min(
        needs.least_thing(child, arranging.FRAME_FILL * _LARGEST_CELL) / arranging.FRAME_FILL,
        *(
            _lying(10 * count, _box(size))[0].cell if min(_box(size)[2:]) > 0 else 0.0
            for count in range(1, _frames(most) + 1)
        ),
    )


def _box(size: tuple[float, float]) -> Rect:
    """Where frames may lie: a little inside the hairline, clear of the strip of the set mark."""
    return content(size).inset(_FRAME_AIR)


def _too_many(tray: Tray, size: tuple[float, float]):
    last = tray.child.numbers[1]
    fits = [n for n in range(1, last) if _cell(tray.child, n, size) * arranging.FRAME_FILL >= SMALLEST_THING]
    return problem(
        tray,
        "size" if tray.size is not None else "numbers",
        f"frames for {last} things of {SMALLEST_THING:g} mm do not fit "
        f"a card of {size[0]:g} x {size[1]:g} mm",
        f"at most {max(fits, default=0)} there, or a larger card",
    )


def _card(
    seed: int,
    tray: Tray,
    size: tuple[float, float],
    cell: float,
    number: int,
    fill: str,
    drawing: Drawing | None,
    words: Naming,
    numbers: Sequence[int],
) -> Piece:
    key = str(number) if len(tray.settings.fill) == 1 else f"{number}-{fill}"
    cells = filled(number, fill, Chance(seed, tray.child.name, tray.set, key))
    frames = _lying(number, _box(size), cell)
    marks: list[Mark] = [hairline(size, accent(tray))]
    for frame in frames:
        marks += frame_marks(frame)
    marks += [_thing(tray, drawing, _place(frames, place)) for place in cells]
    said = _said(tray, number)
    back, control = _back(tray, size, said, words, numbers)
    facts = Facts(
        quantity=number,
        frames=len(frames),
        empty=10 * len(frames) - number,
        fill=fill,
        cells=cells,
        numeral=said,
        words=words.words(said),
    )
    front = Face(marks=tuple(marks), areas=(Area(box=_around(frames), things=number, ground="frame"),))
    return piece_of(tray, size, key, front, facts, back=back, control=control)


def _place(frames: Sequence[arranging.Frame], place: int) -> Rect:
    """The cell of a place."""
    return frames[place // 10].place(place % 10)


def _around(frames: Sequence[arranging.Frame]) -> Rect:
    """The box about all frames."""
    left, top = min(frame.left for frame in frames), min(frame.top for frame in frames)
    right, bottom = max(frame.box.right for frame in frames), max(frame.box.bottom for frame in frames)
    return Rect(*(micrometres(part) for part in (left, top, right - left, bottom - top)))


def _thing(tray: Tray, drawing: Drawing | None, cell: Rect) -> Mark:
    box = cell.inset(cell.width * (1 - arranging.FRAME_FILL) / 2)
    if drawing is not None:
        return picture(drawing, box)
    x, y = micrometres(cell.left + cell.width / 2), micrometres(cell.top + cell.height / 2)
    radius = micrometres(box.width / 2)
    if tray.child.ink == "outline":
        return Dot(x=x, y=y, radius=radius - 0.2, stroke=INK, line=0.4)
    return Dot(x=x, y=y, radius=radius, fill=accent(tray))


def _back(
    tray: Tray, size: tuple[float, float], number: int, words: Naming, numbers: Sequence[int]
) -> tuple[Face, Rect]:
    """Numeral and words in light gray in the middle of the back, and the box they stand in."""
    box = content(size)
    most = min(8.0, 0.12 * box.height + 1.0)
    words_high = height_of(words, numbers, box.width, most)
    gap = 3.0 if words_high else 0.0
    high = max(5.0, min(0.5 * box.height, 40.0, box.height - gap - words_high - 3.0))
    high = numeral_height(numbers, high, box.width, tray.child.numerals)
    top = box.top + (box.height - high - 1.5 - gap - words_high) / 2
    base = micrometres(top + high)
    marks: list[Mark] = list(
        numeral(str(number), box.left + box.width / 2, base, high, tray.child.numerals, color=BEHIND)
    )
    under = Rect(box.left, base + 1.5 + gap, box.width, words_high)
    marks += written(words, numbers, number, under, most, color=BEHIND)
    bounds = [mark.bounds() for mark in marks]
    left, upper = min(each.left for each in bounds), min(each.top for each in bounds)
    right, lower = max(each.right for each in bounds), max(each.bottom for each in bounds)
    control = Rect(*(micrometres(part) for part in (left, upper, right - left, lower - upper)))
    return Face(marks=(hairline(size, accent(tray)), *marks)), control


# --- mats ------------------------------------------------------------------------------------


def _mats(tray: Tray, room: Room) -> Made:
    """One mat with one or two frames, or as many with two as the child's numbers take."""
    needed = _frames(tray.child.numbers[1])
    frames = min(2, needed)
    counter = tray.child.counter
    if isinstance(tray.size, tuple):
        size, wanted = tray.size, counter + _AIR["small"]
        if not fits_sheet(size, room):
            return refused(size_problem(tray, room, size))
    else:
        air = (_AIR[tray.size],) if tray.size else (_AIR["medium"], 4.0, _AIR["small"])
        tried = [(_mat_size(counter + each, frames), counter + each) for each in air]
        size, wanted = next((item for item in tried if fits_sheet(item[0], room)), tried[-1])
    box = _box(size)
    cell = _lying(10 * frames, box)[0].cell if min(box[2:]) > 0 else 0.0
    if not fits_sheet(size, room) or cell < wanted - 1e-6:
        return refused(_too_wide(tray, room, size, wanted, frames))
    cell = wanted if not isinstance(tray.size, tuple) else micrometres(min(cell, counter + _AIR["large"]))
    laid = _lying(10 * frames, box, cell)
    marks = (hairline(size, accent(tray)), *(mark for frame in laid for mark in frame_marks(frame)))
    front = Face(marks=marks, areas=(Area(box=_around(laid), things=0, ground="frame"),))
    facts = Facts(quantity=0, frames=frames, empty=10 * frames, fill=None, cells=(), numeral=None, words={})
    mats = [piece_of(tray, size, f"mat-{n}", front, facts) for n in range(1, -(-needed // frames) + 1)]
    counters = max(1, tray.child.numbers[1])
    return Made(pieces=set_marked(mats), needs=(Need(what="counters", count=counters, size=counter),))


def _mat_size(cell: float, frames: int) -> tuple[float, float]:
    """The size of a mat whose frames have cells of `cell` mm."""
    high = (2 * frames + 0.5 * (frames - 1)) * cell
    around = 2 * (CONTENT_INSET + _FRAME_AIR)
    return (micrometres(5 * cell + around), micrometres(high + around + MARK_STRIP))


def _too_wide(tray: Tray, room: Room, size: tuple[float, float], cell: float, frames: int):
    """A mat that does not fit the sheet, or the size asked for."""
    own = isinstance(tray.size, tuple)
    limit = size if own else (max(room), min(room))
    box = _box(limit)
    most = _lying(10 * frames, box)[0].cell - _AIR["small"] if min(box[2:]) > 0 else 0.0
    where = f"a mat of {size[0]:g} x {size[1]:g} mm" if own else "the sheet"
    smaller = f"counters of at most {int(most)} mm, or " if most >= 8 else ""
    return problem(
        tray,
        "size" if own else "counter",
        f"a frame of ten places of {cell:g} mm does not fit {where}",
        f"{smaller}a larger {'mat' if own else 'sheet'}",
    )


MATERIAL = Material(
    name="ten-frames",
    order=12,
    line="frames of ten: filled ones as cards with the number behind, empty ones for loose counters",
    track="counting",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
