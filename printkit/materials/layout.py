"""What the faces of all materials share: sizes, safe distances, numerals on rules, set marks."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from printkit import letters
from printkit.errors import Problem
from printkit.letters import Numerals
from printkit.materials import needs
from printkit.materials.base import Room, problem
from printkit.materials.needs import SMALLEST_THING as SMALLEST_THING
from printkit.pack import Tray
from printkit.pieces import Box, Color, Drawing, Face, Line, Mark, Picture, Piece, Text
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Ink, Theme

HAIRLINE_INSET = 4.0
"""mm a hairline keeps from the cut: a home printer drifts by 1 to 2 mm (common practice)."""
CONTENT_INSET = 6.0
"""mm that everything else keeps from the cut."""
MARK_STRIP = 3.0
"""mm above the bottom inset that are kept for the set mark."""
MARK_SIZE = 2.1
"""mm an em of a set mark: 6 pt."""
INK: Color = (0.13,)
"""Numerals, words and rules: nearly black, in black ink only."""
BEHIND: Color = (0.45,)
"""Numerals and words on a back: clear, yet too light to shine through."""
SOFT: Color = (0.55,)
"""Places, frames and helping lines."""
FAINT: Color = (0.8,)
"""Grounds, hatching: they must not shine through paper."""

SIZES = {
    #          upright       fits a sheet of A4 and of Letter
    "small":  (47.0, 62.0),   # 16 and 16 times
    "medium": (62.0, 88.0),   # 9 and 8 times
    "large":  (94.0, 125.0),  # 4 and 4 times
}  # fmt: skip

SHEETS = {
    #          turned as fits    a sheet of A4 and of Letter
    "small":  (94.0, 125.0),   # 4 and 4 times
    "medium": (188.0, 125.0),  # 2 and 2 times
    "large":  (188.0, 251.0),  # once and once
}  # fmt: skip
"""Sizes of work that fills a whole sheet if no size is asked for."""
SHEET_EDGE = 1.0
"""mm that a whole sheet, which is not cut, keeps free at its edge."""


def sheet_size(tray: Tray, room: Room) -> tuple[float, float]:
    """The size asked for (see `SHEETS`); a whole sheet if none is."""
    if isinstance(tray.size, tuple):
        return tray.size
    return SHEETS[tray.size] if tray.size is not None else tuple(room)


def sizes_for(
    tray: Tray, room: Room, named: Mapping[str, tuple[float, float]] = SIZES
) -> tuple[tuple[float, float], ...]:
    """The sizes a card of this tray may have, smallest first: the one asked for, or all that fit.

    Without a size in the pack file the card grows with what it must show: medium, large, half the
    usable sheet, the whole of it.
    """
    if isinstance(tray.size, tuple):
        return (tray.size,)
    if tray.size is not None:
        return (named[tray.size],)
    if needs.is_large(tray.child) or needs.is_easy_grip(tray.child):
        return _needed(tray, room, named["medium"])
    half = (188.0, 125.0) if room.width >= 188 else (room.width, room.height / 2)
    grown = (named["medium"], named["large"], half, (room.width, room.height))
    return tuple(size for size in grown if fits_sheet(size, room))


_SLIM = 2.2
"""How much longer than wide a card may be, if it is not slimmer by its nature (design choice)."""


def _needed(tray: Tray, room: Room, usual: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Sizes for a child with needs, smallest first: the usual one, and the even parts of a sheet."""
    least = needs.least_piece(tray.child, min(usual))
    wide = usual[0] > usual[1]
    start = (max(usual[0], least), max(usual[1], least))
    parts = {
        (math.floor(side / across * 2) / 2, math.floor(other / down * 2) / 2)
        for side, other in (room, (room.height, room.width))
        for across in (1, 2, 3)
        for down in (1, 2, 3, 4)
    }
    slim = max(_SLIM, 1.3 * max(usual) / min(usual))
    shapely = {
        size for size in parts
        if min(size) >= least and max(size) <= slim * min(size) and size[0] * size[1] >= start[0] * start[1]
    }  # fmt: skip
    found = sorted(shapely | {start}, key=lambda size: (size[0] * size[1], (size[0] > size[1]) != wide, size))
    fitting = tuple(size for size in found if fits_sheet(size, room))
    return fitting or (tuple(room),)


def fits_sheet(size: tuple[float, float], room: Room) -> bool:
    """Whether a piece of that size fits a sheet, upright or turned."""
    width, height = size
    slack = 1e-6
    return (width <= room.width + slack and height <= room.height + slack) or (
        height <= room.width + slack and width <= room.height + slack
    )


def size_problem(tray: Tray, room: Room, size: tuple[float, float]) -> Problem:
    """A piece that is larger than the sheet."""
    return problem(
        tray,
        "size",
        f"a piece of {size[0]:g} x {size[1]:g} mm is larger than the sheet",
        f"at most {room.width:.4g} x {room.height:.4g} mm within the margins and above the foot",
    )


def content(size: tuple[float, float]) -> Rect:
    """The part of a face on which may be drawn, the strip of the set mark left out."""
    width, height = size
    return Rect(
        CONTENT_INSET,
        CONTENT_INSET,
        width - 2 * CONTENT_INSET,
        height - 2 * CONTENT_INSET - MARK_STRIP,
    )


_RULE_REACH = 0.1
"""How far a base rule reaches beyond its numeral on either side, in heights of the numeral."""


def hairline(size: tuple[float, float], color: Color) -> Box:
    """The fine frame of a card in the theme's colour."""
    frame = Rect(0, 0, *size).inset(HAIRLINE_INSET)
    return Box(
        x=frame.left,
        y=frame.top,
        width=frame.width,
        height=frame.height,
        radius=3,
        stroke=color,
        line=0.25,
    )


def accent(tray: Tray) -> Color:
    """The colour of hairlines: the theme's, or a grey in the other inks."""
    return tray.child.theme.accent if tray.child.ink == "color" else (0.45,)


def numeral(
    text: str, middle: float, base: float, height: float, numerals: Numerals, *, color: Color = INK
) -> tuple[Mark, Mark]:
    """A numeral `height` mm high about `middle`, standing on its short rule with the base line at `base`."""
    size = height / letters.numeral_ratio(bold=True)
    run = letters.run(text, size, bold=True, numerals=numerals)
    wide = run.ink[2] - run.ink[0]
    line = max(0.35, height * 0.02)
    return (
        Text(run=run, x=micrometres(middle - (run.ink[0] + run.ink[2]) / 2), y=base, color=color),
        base_rule(middle, base, wide + 2 * _RULE_REACH * height, line, color),
    )


def numeral_height(numbers: Iterable[int], most: float, width: float, numerals: Numerals) -> float:
    """The height, at most `most`, at which the rules of all these numbers are at most `width` mm wide."""
    size = 1 / letters.numeral_ratio(bold=True)
    runs = [letters.run(str(n), size, bold=True, numerals=numerals) for n in numbers]
    widest = max(run.ink[2] - run.ink[0] for run in runs) + 2 * _RULE_REACH
    return min(most, width / widest)


def base_rule(middle: float, base: float, width: float, line: float, color: Color = INK) -> Line:
    """The short rule a numeral stands on, so that 6 and 9 cannot be read upside down."""
    y = base + line / 2 + 2 * line
    return Line(x1=middle - width / 2, y1=y, x2=middle + width / 2, y2=y, color=color, line=line)


def centered(text: str, middle: float, base: float, size: float, *, color: Color = INK) -> Text:
    """A word about `middle` with its base line at `base`, `size` mm an em."""
    run = letters.run(text, size)
    return Text(run=run, x=micrometres(middle - run.width / 2), y=micrometres(base), color=color)


def words_block(words: Sequence[str], box: Rect, most: float, *, color: Color = INK) -> tuple[Text, ...]:
    """One word a line, centred in the box, all of one size (at most `most` mm an em)."""
    lead = 1.3
    size = letters.shrink_to(tuple(words), box.width, min(most, box.height / (lead * len(words))))
    middle = box.left + box.width / 2
    top = box.top + (box.height - lead * size * len(words)) / 2
    return tuple(
        centered(word, middle, top + lead * size * i + size * 0.95, size, color=color)
        for i, word in enumerate(words)
    )


def set_marked(pieces: Sequence[Piece]) -> tuple[Piece, ...]:
    """The pieces with the small line that says where each belongs: child, set, n of N."""
    total = len(pieces)
    return tuple(
        replace(piece, mark=f"{piece.child} · {piece.set} · {n}/{total}") for n, piece in enumerate(pieces, 1)
    )


def picture(drawing: Drawing, box: Rect, *, turn: float = 0, mirror: bool = False) -> Picture:
    """The drawing as large as the box allows, in its middle."""
    scale = min(box.width / drawing.width, box.height / drawing.height)
    width, height = micrometres(drawing.width * scale), micrometres(drawing.height * scale)
    return Picture(
        drawing=drawing,
        x=micrometres(box.left + (box.width - width) / 2),
        y=micrometres(box.top + (box.height - height) / 2),
        width=width,
        height=height,
        turn=turn,
        mirror=mirror,
    )


def border(theme: "Theme", ink: "Ink", strip: Rect) -> tuple[Picture, ...]:
    """The theme's border along a strip, all its ink inside it; () for a theme without one."""
    if theme.border is None:
        return ()
    return (picture(theme.border.strip(ink, length=strip.width, height=strip.height), strip),)


def is_border(drawing: Drawing) -> bool:
    """Whether a drawing is the ornament of a theme, not one of its motifs."""
    return "/border " in drawing.name


def pictures(drawing: Drawing, boxes: Iterable[Rect]) -> tuple[Picture, ...]:
    """The drawing in each of the boxes."""
    return tuple(picture(drawing, box) for box in boxes)


def shape_of(drawing: Drawing) -> tuple[float, float]:
    """Width and height of a drawing as shares of its longer side."""
    longer = max(drawing.width, drawing.height)
    return drawing.width / longer, drawing.height / longer


def hatching(box: Rect, *, gap: float = 1.6, color: Color = FAINT, line: float = 0.35) -> tuple[Mark, ...]:
    """Light slanting lines that fill a box: a control that does not shine through."""
    marks: list[Mark] = []
    steps = int((box.width + box.height) / gap)
    for i in range(1, steps + 1):
        reach = i * gap
        x1, y1 = box.left + min(reach, box.width), box.top + max(0.0, reach - box.width)
        x2, y2 = box.left + max(0.0, reach - box.height), box.top + min(reach, box.height)
        if abs(x1 - x2) < gap / 4:
            continue
        marks.append(Line(x1=x1, y1=y1, x2=x2, y2=y2, color=color, line=line))
    return tuple(marks)


def blank_face(size: tuple[float, float], color: Color) -> Face:
    """A face with its hairline only."""
    return Face(marks=(hairline(size, color),))
