"""Halves: pictures cut straight down into two, three or four cards that make a whole again."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from printkit.chance import Chance
from printkit.checks import Whole, Words, setting
from printkit.errors import listing, nearest
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.cropping import cropped, paled
from printkit.materials.halves.guidance import GUIDANCE
from printkit.materials.layout import (
    CONTENT_INSET,
    FAINT,
    HAIRLINE_INSET,
    MARK_STRIP,
    accent,
    content,
    fits_sheet,
    hairline,
    hatching,
    picture,
    set_marked,
    shape_of,
    size_problem,
)
from printkit.materials.making import piece_of
from printkit.materials.naming import SPARSE
from printkit.pack import Tray
from printkit.pieces import Box, Face, Line, Mark, Picture, Piece
from printkit.texts import Note
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Motif

LEAST = 8.0
"""mm of the picture that each outer part shows at least (design choice)."""
_SHORTEST = 25.0
"""mm of the longer side of the smallest whole picture (design choice)."""
_USUAL = {2: 6, 3: 4, 4: 4}
_OTHERWISE = {True: "a theme with wider pictures", False: "a narrower card, or a theme with wider pictures"}
_ALIKE = 0.01
"""The share of a picture that may change in the mirror; what a theme calls symmetric keeps within it."""
SIZES = {
    #      parts: small, medium, large; each fills A4 and Letter well
    2: {"small": (31.0, 62.0), "medium": (47.0, 83.5), "large": (94.0, 125.0)},
    3: {"small": (31.0, 83.5), "medium": (62.0, 125.0), "large": (62.0, 134.0)},
    4: {"small": (23.5, 83.5), "medium": (47.0, 125.0), "large": (47.0, 134.0)},
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for halves."""

    parts: int = setting(2, Whole(2, 4), "how many cards make one picture; two are mirror halves")
    count: int | None = setting(
        None, Whole(1, 20), "how many pictures; unset: 6 in halves, else 4, or all that would do"
    )
    motif: str | None = setting(
        None, Words("the name of a motif"), "the one picture of the theme that is cut"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a part: `part` counts from 1, from the left, to `parts`.

    The whole picture is `whole` mm (width, height); this card shows of it what lies between the two
    shares of its width in `shows`. `mirrored` says that its left half is the mirror image of its right.
    """

    motif: str
    part: int
    parts: int
    whole: tuple[float, float]
    shows: tuple[float, float]
    mirrored: bool = field(default=False, metadata=SPARSE)


def make(seed: int, tray: Tray, room: Room) -> Made:
    """The parts of some pictures, each part on a card of its own, next to its neighbor."""
    parts = tray.settings.parts
    fitting = [size for size in _sizes(tray, room) if fits_sheet(size, room)]
    sizes = [size for size in fitting if _shown(size, parts)]
    if not sizes:
        return refused(_no_size(tray, room, bool(fitting)))
    size = next((size for size in sizes if _fitting(tray, size)), sizes[-1])
    motifs, notes = _motifs(seed, tray, size)
    if isinstance(motifs, Made):
        return motifs
    pieces = [piece for motif in motifs for piece in _parts(tray, size, motif)]
    return Made(pieces=set_marked(pieces), notes=notes)


def _sizes(tray: Tray, room: Room) -> tuple[tuple[float, float], ...]:
    """The sizes a card may have: the one asked for, or the usual ones and one made for a small sheet."""
    named = SIZES[tray.settings.parts]
    if isinstance(tray.size, tuple):
        return (tray.size,)
    if tray.size is not None:
        return (named[tray.size],)
    width, height = named["medium"]
    own = (micrometres(min(width, room.width / tray.settings.parts)), min(room.height, height))
    wanted = (named["medium"], own, named["small"], (own[0], min(room.height, 83.5)))
    least = needs.least_piece(tray.child)
    wanted = tuple(dict.fromkeys((max(wide, least), max(high, least)) for wide, high in wanted))
    return tuple(sorted(wanted, key=lambda size: _columns(size, room) % tray.settings.parts))


def _columns(size: tuple[float, float], room: Room) -> int:
    """How many cards lie side by side on a sheet: best some whole pictures, whose parts stay neighbors."""
    return int((room.width + 1e-6) // size[0])


def _no_size(tray: Tray, room: Room, fits: bool):
    """Why no card can be made: too large for the sheet, or too small for a part."""
    parts = tray.settings.parts
    size = tray.size if isinstance(tray.size, tuple) else SIZES[parts][tray.size or "small"]
    if not fits:
        return size_problem(tray, room, size)
    least = (CONTENT_INSET + LEAST, _SHORTEST + 2 * CONTENT_INSET + MARK_STRIP)
    return problem(
        tray,
        "size",
        f"a card of {size[0]:g} x {size[1]:g} mm is too small for a part of a picture",
        f"at least {least[0]:g} x {least[1]:g} mm",
    )


def _shown(size: tuple[float, float], parts: int) -> bool:
    """Whether a card of this size can hold a part at all: something to see, and a way between seams."""
    box = whole_box(size, parts)
    inner = size[0] - CONTENT_INSET
    return inner >= LEAST and min(box.width, box.height) >= _SHORTEST


# --- which pictures --------------------------------------------------------------------------


def whole_box(size: tuple[float, float], parts: int) -> Rect:
    """Where the whole picture lies on all its cards laid side by side, from their top left corner."""
    width, height = size
    return Rect(
        CONTENT_INSET, CONTENT_INSET,
        parts * width - 2 * CONTENT_INSET, height - 2 * CONTENT_INSET - MARK_STRIP,
    )  # fmt: skip


def _wide(motif: "Motif", size: tuple[float, float], parts: int) -> float:
    """How many mm wide the whole picture of a motif is."""
    box = whole_box(size, parts)
    wide, high = shape_of(motif.drawing("color", size=40.0))
    return wide * min(box.width / wide, box.height / high)


def _reaches(motif: "Motif", size: tuple[float, float], parts: int) -> bool:
    """Whether the outer parts show enough of it."""
    return _wide(motif, size, parts) >= (parts - 2) * size[0] + 2 * LEAST


def is_symmetric(motif: "Motif") -> bool:
    """Whether left and right are alike: as the theme says, else measured."""
    from printkit.pictures.seen import mirror_change

    return mirror_change(motif) <= _ALIKE if motif.symmetric is None else motif.symmetric


def _fitting(tray: Tray, size: tuple[float, float]) -> tuple["Motif", ...]:
    """The motifs of the theme that would do; one thing each first, as they are seen best."""
    parts = tray.settings.parts
    found = [motif for motif in tray.child.theme.motifs if _reaches(motif, size, parts)]
    if parts == 2:
        found = [motif for motif in found if is_symmetric(motif)]
    return tuple(sorted(found, key=lambda motif: not motif.counted))


def _motifs(seed: int, tray: Tray, size) -> "tuple[tuple[Motif, ...] | Made, tuple[str, ...]]":
    """The pictures to be cut, in the theme's order, and what `check` says of them."""
    settings: Settings = tray.settings
    good = _fitting(tray, size)
    if settings.motif is not None:
        return _asked(tray, size, good), ()
    if settings.count is not None and settings.count > max(1, len(good)):
        why = "pictures alike left and right" if settings.parts == 2 else "pictures wide enough to be cut"
        names = listing([motif.key for motif in good], last="and")
        return refused(
            problem(
                tray,
                "count",
                f"the theme has no {settings.count} {why}",
                f"at most {len(good)} with this theme: {names}" if good else "a theme that has such pictures",
            )
        ), ()
    if not good:
        return _none_fits(seed, tray, size)
    chance = Chance(seed, tray.child.name, tray.set, "pictures")
    wanted = settings.count or _USUAL[settings.parts]
    first = [motif for motif in good if motif.counted]
    order = (*chance.shuffled(first), *(motif for motif in good if not motif.counted))
    kept = {motif.key for motif in order[:wanted]}
    return tuple(motif for motif in tray.child.theme.motifs if motif.key in kept), ()


def _none_fits(seed: int, tray: Tray, size) -> "tuple[tuple[Motif, ...] | Made, tuple[str, ...]]":
    """With no picture that is right, the widest are cut all the same, and `check` says so."""
    parts, motifs = tray.settings.parts, tray.child.theme.motifs
    wide = [motif for motif in motifs if _reaches(motif, size, parts)]
    if not wide:
        return refused(
            problem(
                tray,
                "parts",
                f"the theme has no picture wide enough to be cut into {parts}",
                f"fewer parts, or {_OTHERWISE[tray.size is None]}",
            )
        ), ()
    chance = Chance(seed, tray.child.name, tray.set, "pictures")
    kept = {motif.key for motif in chance.shuffled(wide)[: _USUAL[parts]]}
    note = Note("notes.no_symmetry")
    return tuple(motif for motif in motifs if motif.key in kept), (note,)


def _asked(tray: Tray, size, good: tuple["Motif", ...]) -> "tuple[Motif, ...] | Made":
    """The one picture that the pack file names."""
    settings: Settings = tray.settings
    theme, wanted = tray.child.theme, settings.motif
    keys = [motif.key for motif in theme.motifs]
    if wanted not in keys:
        found, near = f"the theme has no motif '{wanted}'", nearest(wanted, keys)
        return refused(problem(tray, "motif", found, listing(keys), near))
    if settings.count is not None and settings.count > 1:
        found = f"with one motif named there is 1 picture, not {settings.count}"
        return refused(problem(tray, "count", found, "count = 1, or no motif"))
    motif = next(motif for motif in good if motif.key == wanted) if wanted in {m.key for m in good} else None
    if motif is not None:
        return (motif,)
    why = (
        f"'{wanted}' is not alike left and right, so it has no two halves to match"
        if settings.parts == 2 and _reaches(theme.motif(wanted), size, 2)
        else f"'{wanted}' is too slender to be cut into {settings.parts}"
    )
    return refused(
        problem(tray, "motif", why, listing([item.key for item in good]) or _OTHERWISE[tray.size is None])
    )


# --- drawing ---------------------------------------------------------------------------------


def _parts(tray: Tray, size: tuple[float, float], motif: "Motif") -> list[Piece]:
    """The cards of one picture, from the left."""
    parts = tray.settings.parts
    box = whole_box(size, parts)
    wide, high = shape_of(motif.drawing(tray.child.ink, size=40.0))
    longest = min(box.width / wide, box.height / high)
    drawing = motif.drawing(tray.child.ink, size=round(longest, 1))
    whole = picture(drawing, box)
    small = paled(motif.drawing("gray" if motif.is_photo else "outline", size=20.0))
    mirrored = parts == 2 and is_symmetric(motif)
    pieces = []
    for number in range(parts):
        left, right = seen(size, parts, number)
        start, end = max(left, whole.x), min(right, whole.x + whole.width)
        shares = ((start - whole.x) / whole.width, (end - whole.x) / whole.width)
        shown = Picture(
            drawing=cropped(drawing, *shares),
            x=micrometres(start - number * size[0]),
            y=whole.y,
            width=micrometres(end - start),
            height=whole.height,
        )
        facts = Facts(
            motif=motif.key, part=number + 1, parts=parts, whole=(whole.width, whole.height),
            shows=(round(shares[0], 4), round(shares[1], 4)), mirrored=mirrored,
        )  # fmt: skip
        back, control = _back(tray, size, small, number)
        pieces.append(
            piece_of(
                tray, size, f"{motif.key}-{number + 1}",
                Face(marks=(shown, *_open_frame(tray, size, number))), facts, back=back, control=control,
            )
        )  # fmt: skip
    return pieces


def seen(size: tuple[float, float], parts: int, number: int) -> tuple[float, float]:
    """From where to where a card may show its picture, in mm from the left of all cards side by side.

    It runs right up to the inner cuts: cards laid edge to edge are the whole picture. Neighbors on a
    sheet show it whole too, so that a cut a little beside the line does no harm.
    """
    left = number * size[0] + (0.0 if number else CONTENT_INSET)
    right = (number + 1) * size[0] - (0.0 if number < parts - 1 else CONTENT_INSET)
    return left, right


def _open_frame(tray: Tray, size: tuple[float, float], number: int) -> tuple[Line, ...]:
    """The fine frame round all cards side by side, as much of it as lies on this one."""
    width, height = size
    color, last = accent(tray), tray.settings.parts - 1
    left = HAIRLINE_INSET if number == 0 else 0.0
    right = width - (HAIRLINE_INSET if number == last else 0.0)
    top, bottom = HAIRLINE_INSET, height - HAIRLINE_INSET

    def line(x1: float, y1: float, x2: float, y2: float) -> Line:
        return Line(x1=x1, y1=y1, x2=x2, y2=y2, color=color, line=0.25)

    lines = [line(left, top, right, top), line(left, bottom, right, bottom)]
    if number == 0:
        lines.append(line(left, top, left, bottom))
    if number == last:
        lines.append(line(right, top, right, bottom))
    return tuple(lines)


def _back(tray: Tray, size: tuple[float, float], small, number: int) -> tuple[Face, Rect]:
    """The control: the whole picture, small and pale, and below it which part of it this is."""
    parts = tray.settings.parts
    box = content(size)
    cell = min(8.0, box.width / parts)
    across, high = parts * cell, 0.75 * cell
    gap = 3.0
    room = Rect(box.left, box.top, box.width, box.height - high - gap)
    side = min(26.0, room.width, room.height)
    top = box.top + (box.height - side - gap - high) / 2
    shown = picture(small, Rect(box.left + (box.width - side) / 2, top, side, side))
    marks: list[Mark] = [hairline(size, accent(tray)), shown]
    left, y = box.left + (box.width - across) / 2, top + side + gap
    own = Rect(micrometres(left + number * cell), micrometres(y), micrometres(cell), micrometres(high))
    marks += hatching(own.inset(0.6), gap=1.1, color=FAINT, line=0.45)
    for i in range(parts):
        marks.append(
            Box(
                x=micrometres(left + i * cell), y=own.top, width=own.width, height=own.height,
                stroke=(0.7,), line=0.3,
            )
        )  # fmt: skip
    return Face(marks=tuple(marks)), own


MATERIAL = Material(
    name="halves",
    order=105,
    line="pictures cut straight down into halves, thirds or quarters, to be made whole again",
    track="looking",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
