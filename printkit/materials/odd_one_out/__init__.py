"""Odd one out: four boxes, three alike and one different, by how closely a child must look."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING, Literal

from printkit.chance import Chance
from printkit.checks import OneOf, Whole, setting
from printkit.errors import listing
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.layout import (
    MARK_STRIP,
    accent,
    content,
    fits_sheet,
    hairline,
    hatching,
    set_marked,
    size_problem,
    sizes_for,
)
from printkit.materials.odd_one_out.guidance import GUIDANCE
from printkit.materials.spread import spread_places
from printkit.pack import Tray
from printkit.pieces import Area, Box, Color, Face, Mark, Picture, Piece
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Difference, Look
    from printkit.pictures.differences import Candidate

BOXES = 4
_CARDS = 8
_GAP = 3.0
_AIR = 2.0
"""mm between a picture and the line of its box."""
_LEAST = 10.0
"""mm of the smallest picture to be looked at closely (design choice)."""
_SIZES_LEVEL = 3
_SMALLER = 1.6
"""The level at which pictures differ in size, and by how much more room lets the smaller one be large."""
_ROWS_ON_SHEET = 6
_BETWEEN_ROWS = 10.0
"""mm from row to row: more than within a row, so that the eye goes along the row."""
_LINE = 0.3
_BOX_LINE: Color = (0.72,)


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for odd-one-out."""

    form: Literal["cards", "sheet"] = setting(
        "cards", OneOf(("cards", "sheet")), "cards of four boxes, or sheets with rows of four"
    )
    count: int | None = setting(
        None, Whole(1, 60), "how many rounds of four boxes; eight cards or one full sheet if unset"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a card or a sheet of rows; `odd` counts from 0, in reading order.

    On a sheet the boxes are numbered through all rows and `odd` names one box a row.
    """

    boxes: int
    odd: int | tuple[int, ...]
    difference: str | tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Round:
    """Three alike and one odd, before they are laid on a card or a row."""

    difference: "Difference"
    odd: int


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of odd-one-out cards, or of sheets with rows."""
    sheet = tray.settings.form == "sheet"
    sizes = (tuple(room),) if sheet else sizes_for(tray, room)
    if not sizes or not fits_sheet(sizes[0], room):
        return refused(size_problem(tray, room, sizes[0] if sizes else (62.0, 88.0)))
    least = needs.least_thing(tray.child, _LEAST)
    if tray.child.lookalike == _SIZES_LEVEL and least > _LEAST:
        least *= _SMALLER
    size = next((size for size in sizes if _room_in_box(size, sheet) >= least), sizes[-1])
    per_sheet = _rows_on(size) if sheet else 1
    room_in_box = _room_in_box(size, sheet)
    if room_in_box < _LEAST:
        return refused(
            problem(
                tray,
                "size",
                f"boxes of {room_in_box + 2 * _AIR:.3g} mm are too small to look closely",
                "cards of at least 46 x 52 mm",
            )
        )
    count = tray.settings.count or (per_sheet if sheet else _CARDS)
    rounds = _rounds(seed, tray, min(room_in_box, 40.0), count)
    if not rounds:
        return refused(_none_visible(tray))
    if sheet:
        groups = [rounds[i : i + per_sheet] for i in range(0, len(rounds), per_sheet)]
        pieces = [_sheet(tray, size, per_sheet, group, n) for n, group in enumerate(groups, 1)]
    else:
        pieces = [_card(tray, size, item, n) for n, item in enumerate(rounds, 1)]
    return Made(pieces=set_marked(pieces))


def _room_in_box(size: tuple[float, float], sheet: bool) -> float:
    """How long a picture can be in one of the boxes, in mm."""
    boxes = _row_boxes(size, 0, _rows_on(size)) if sheet else _card_boxes(size)
    return min(min(box.width, box.height) for box in boxes) - 2 * _AIR


def _none_visible(tray: Tray):
    level = tray.child.lookalike
    return problem(
        tray,
        "lookalike",
        f"the theme '{tray.child.theme.name}' has no difference of look-alike level {level} "
        f"that can be seen in {tray.child.ink} and in gray",
        f"{listing(_levels(tray)) or 'none with this theme'}; a theme with more or richer pictures has more",
    )


def _levels(tray: Tray) -> list[int]:
    from printkit.pictures import differences

    return [level for level in range(1, 7) if differences(tray.child.theme, level, tray.child.ink, 20.0)]


# --- which differences -----------------------------------------------------------------------


def _rounds(seed: int, tray: Tray, size: float, count: int) -> list[_Round]:
    """`count` rounds: every motif once before any comes again, the odd places evenly spread.

    They run from what is seen at once to what is seen on a second look.
    """
    chance = Chance(seed, tray.child.name, tray.set, "rounds")
    chosen = list(islice(_by_turns(tray, round(size, 1), chance), count))
    chosen.sort(key=lambda item: -item.area * item.contrast)
    places = spread_places([tuple(range(BOXES))] * len(chosen), chance)
    return [_Round(difference=item, odd=place) for item, place in zip(chosen, places, strict=True)]


def _by_turns(tray: Tray, size: float, chance: Chance) -> Iterator["Difference"]:
    """Differences without end, motif by motif in a chance order; none if none can be seen."""
    from printkit.pictures import candidates

    theme, child = tray.child.theme, tray.child
    waiting = {
        motif.key: list(chance.shuffled(candidates(theme, motif, child.lookalike, child.ink, size)))
        for motif in theme.motifs
    }
    while any(waiting.values()):
        for key in chance.shuffled(sorted(waiting)):
            found = _next_seen(waiting[key])
            if found is not None:
                yield found


def _next_seen(candidates: list["Candidate"]) -> "Difference | None":
    """The first that can be seen, put back at the end; those that cannot are dropped."""
    while candidates:
        candidate = candidates.pop(0)
        found = candidate()
        if found is not None:
            candidates.append(candidate)
            return found
    return None


# --- boxes -----------------------------------------------------------------------------------


def _card_boxes(size: tuple[float, float]) -> tuple[Rect, ...]:
    """Four boxes, two by two, in reading order, in the middle of the card."""
    box = content(size)
    box = Rect(box.left, box.top + MARK_STRIP, box.width, box.height - MARK_STRIP)
    width, height = (box.width - _GAP) / 2, (box.height - _GAP) / 2
    return tuple(
        Rect(
            micrometres(box.left + column * (width + _GAP)),
            micrometres(box.top + row * (height + _GAP)),
            micrometres(width),
            micrometres(height),
        )
        for row in range(2)
        for column in range(2)
    )


def _rows_on(size: tuple[float, float]) -> int:
    """How many rows a whole sheet takes, none lower than 24 mm."""
    return max(1, min(_ROWS_ON_SHEET, int(size[1] // 30)))


def _row_boxes(size: tuple[float, float], row: int, rows: int) -> tuple[Rect, ...]:
    """The four boxes of one row of a sheet."""
    side = min((size[0] - (BOXES - 1) * _GAP) / BOXES, (size[1] - rows * _BETWEEN_ROWS) / rows)
    across = min((size[0] - BOXES * side) / (BOXES - 1), 2 * _GAP)
    left = (size[0] - BOXES * side - (BOXES - 1) * across) / 2
    down = (size[1] - rows * side) / rows
    top = down / 2 + row * (side + down)
    return tuple(
        Rect(
            micrometres(left + i * (side + across)),
            micrometres(top),
            micrometres(side),
            micrometres(side),
        )
        for i in range(BOXES)
    )


def _looked(look: "Look", box: Rect) -> Picture:
    """A look in the middle of its box, as large in all four."""
    drawing = look.drawing
    inner = box.inset(_AIR)
    side = min(inner.width, inner.height)
    reach = (drawing.width**2 + drawing.height**2) ** 0.5 if look.turn % 90 else 0
    longest = max(drawing.width, drawing.height, reach)
    scale = side / longest * look.scale
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


def _box_marks(boxes: tuple[Rect, ...], item: _Round, odd: int) -> list[Mark]:
    marks: list[Mark] = []
    for place, box in enumerate(boxes):
        look = item.difference.odd if place == odd else item.difference.alike
        edge = box.inset(_LINE / 2)
        marks.append(
            Box(
                x=edge.left, y=edge.top, width=edge.width, height=edge.height,
                radius=2, stroke=_BOX_LINE, line=_LINE,
            )
        )  # fmt: skip
        marks.append(_looked(look, box))
    return marks


def _areas(boxes: tuple[Rect, ...]) -> tuple[Area, ...]:
    """In each box lies one thing; a millimetre inside its line nothing else is drawn."""
    return tuple(Area(box=box.inset(1), things=1) for box in boxes)


def _card(tray: Tray, size: tuple[float, float], item: _Round, n: int) -> Piece:
    boxes = _card_boxes(size)
    right = boxes[item.odd]
    behind = Rect(micrometres(size[0] - right.right), right.top, right.width, right.height)
    control = behind.inset(min(right.width, right.height) * 0.22)
    frame = hairline(size, accent(tray))
    outline = Box(
        x=control.left, y=control.top, width=control.width, height=control.height,
        radius=1.5, stroke=(0.7,), line=0.3,
    )  # fmt: skip
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=str(n),
        width=size[0],
        height=size[1],
        front=Face(marks=(frame, *_box_marks(boxes, item, item.odd)), areas=_areas(boxes)),
        back=Face(marks=(frame, outline, *hatching(control.inset(0.8)))),
        facts=Facts(boxes=BOXES, odd=item.odd, difference=item.difference.kind),
        stock=tray.stock,
        boxes=boxes,
        control=control,
    )


def _sheet(tray: Tray, size: tuple[float, float], rows: int, rounds: list[_Round], n: int) -> Piece:
    marks: list[Mark] = []
    boxes: list[Rect] = []
    odd: list[int] = []
    for row, item in enumerate(rounds):
        here = _row_boxes(size, row, rows)
        marks += _box_marks(here, item, item.odd)
        boxes += here
        odd.append(row * BOXES + item.odd)
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=f"sheet-{n}",
        width=size[0],
        height=size[1],
        front=Face(marks=tuple(marks), areas=_areas(tuple(boxes))),
        facts=Facts(
            boxes=len(boxes),
            odd=tuple(odd),
            difference=tuple(item.difference.kind for item in rounds),
        ),
        stock=tray.stock,
        cut=False,
        boxes=tuple(boxes),
    )


MATERIAL = Material(
    name="odd-one-out",
    order=50,
    line="four pictures, three alike and one different; six levels of looking closely",
    track="looking",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
