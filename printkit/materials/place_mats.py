"""Place mats: two sets and their total as fields for loose counters, with boxes for the numbers."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from printkit.checks import Flag, OneOf, Whole, setting
from printkit.errors import listing
from printkit.materials import arrange as arranging
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when, word
from printkit.materials.layout import INK, SOFT, accent, border, content, fits_sheet, hairline, size_problem
from printkit.materials.making import piece_of
from printkit.materials.strips.equation import SLOT, Figures, equation, figures
from printkit.pack import Tray
from printkit.pieces import Area, Box, Dot, Face, Mark, Piece
from printkit.units import Rect, micrometres


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for place mats."""

    operation: Literal["add", "subtract"] = setting(
        "add",
        OneOf(("add", "subtract")),
        "two sets and their total, or a total, what is taken and what is left",
    )
    places: Literal["open", "rings"] = setting(
        "open", OneOf(("open", "rings")), "open fields, or a ring for each counter"
    )
    total: int | None = setting(
        None, Whole(2, 20), "the largest total; unset: the child's sums_to or last number, from 2 to 10"
    )
    boxes: bool = setting(True, Flag(), "whether boxes for the numbers stand beside the fields")
    count: int = setting(1, Whole(1, 12), "how many mats")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a mat: `rings` of its two sets and its total, all 0 on open fields.

    The fields are numbered as the number sentence has them: first, second, result. `box_mm` is the
    width and height of its boxes, None without.
    """

    operation: Literal["add", "subtract"]
    total: int
    rings: tuple[int, int, int]
    box_mm: tuple[float, float] | None


_FIGURES = (16.0, 14.0, 12.0, 10.0, 8.0)
"""mm of the numerals that the boxes are made for; large ones as on large strips, smaller on small mats."""
_GAP = 5.0
_PAD = 3.0
_BORDER = 13.0
_LEAST_FIELD = 30.0
"""mm of the smaller side of a field at least: a few counters and a small hand (design choice)."""
SIZES = {"small": (188.0, 125.0), "medium": (188.0, 250.0), "large": (188.0, 250.0)}


def make(seed: int, tray: Tray, room: Room) -> Made:
    """One mat or several alike: a whole sheet each, or cut to the size asked for."""
    whole = not isinstance(tray.size, tuple) and tray.size != "small"
    size = tray.size if isinstance(tray.size, tuple) else SIZES["small"] if not whole else tuple(room)
    if not fits_sheet(size, room):
        return refused(size_problem(tray, room, size))
    fields = _fields(tray, size, whole=whole)
    total = total_of(tray)
    wrong = _wrong(tray, size, fields, total)
    if wrong:
        return refused(wrong)
    pieces = [_mat(tray, size, fields, total, n, whole=whole) for n in range(1, tray.settings.count + 1)]
    gather = [Need(what="counters", count=total, size=tray.child.counter)]
    if tray.settings.boxes:
        gather.append(Need(what="wipe-off pen", count=1))
    return Made(pieces=tuple(pieces), needs=tuple(gather))


def total_of(tray: Tray) -> int:
    """The largest total of a mat: the one asked for, or what fits the child."""
    child = tray.child
    return tray.settings.total or max(2, min(10, child.sums_to or child.numbers[1]))


# --- fields ----------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class _Fields:
    """The fields by their part of the number sentence, its band, the strip of the border."""

    first: Rect
    second: Rect
    result: Rect
    band: Rect | None
    border: Rect | None

    @property
    def all(self) -> tuple[Rect, Rect, Rect]:
        return (self.first, self.second, self.result)


def _fields(tray: Tray, size: tuple[float, float], *, whole: bool) -> _Fields:
    """Two fields side by side and the large one: below them to put together, above them to take away."""
    box = Rect(0, 0, *size).inset(1.0) if whole else content(size).inset(1.5)
    strip = None
    if whole and box.height > 200 and tray.child.theme.border is not None:
        strip = Rect(box.left, box.top, box.width, _BORDER)
        box = Rect(box.left, box.top + _BORDER + _GAP, box.width, box.height - _BORDER - _GAP)
    band = None
    if tray.settings.boxes:
        high = _how(tray, box.width).high
        band = Rect(box.left, box.bottom - high, box.width, high)
        box = Rect(box.left, box.top, box.width, box.height - high - _GAP)
    high, wide = (box.height - _GAP) / 2, (box.width - _GAP) / 2
    add = tray.settings.operation == "add"
    pair = box.top if add else box.top + high + _GAP
    alone = box.top + high + _GAP if add else box.top
    left, right = _rounded(box.left, pair, wide, high), _rounded(box.left + wide + _GAP, pair, wide, high)
    large = _rounded(box.left, alone, box.width, high)
    parts = (left, right, large) if add else (large, left, right)
    return _Fields(first=parts[0], second=parts[1], result=parts[2], band=band, border=strip)


def _rounded(*parts: float) -> Rect:
    return Rect(*(micrometres(part) for part in parts))


def _how(tray: Tray, width: float) -> Figures:
    """The largest boxes, as strips have them, of which three fit side by side, or the smallest."""
    digits = len(str(total_of(tray)))
    least = needs.line(tray.child, 0.0)
    numerals = tray.child.numerals
    tried = [figures(height, digits, numerals, least) for height in _FIGURES]
    if least:
        tried += [figures(height, digits, numerals) for height in _FIGURES]
    return next((how for how in tried if _sentence_width(how) <= width), tried[-1])


def _sentence_width(how: Figures) -> float:
    return 3 * how.box + 2 * SLOT * how.height


def _rings(tray: Tray, total: int) -> tuple[int, int, int]:
    return (total, total, total) if tray.settings.places == "rings" else (0, 0, 0)


def _wrong(tray: Tray, size: tuple[float, float], fields: _Fields, total: int):
    """Why the mat cannot be: fields too small, too narrow for the boxes, or rings that do not fit."""
    key = "size" if tray.size is not None else "paper"
    band = fields.band
    if band is not None and _sentence_width(_how(tray, band.width)) > band.width:
        return problem(
            tray, "boxes", f"a mat {size[0]:.4g} mm wide has no room for three boxes", "boxes = false"
        )
    if min(min(field.width, field.height) for field in fields.all) < _LEAST_FIELD:
        return problem(
            tray,
            key,
            f"the fields of a mat of {size[0]:.4g} x {size[1]:.4g} mm are too small for counters",
            "at least 100 x 130 mm",
        )
    if tray.settings.places == "open":
        return None
    place = tray.child.counter + 2

    def fits(count: int) -> bool:
        return all(arranging.grid_for(count, field.inset(_PAD), place) for field in fields.all)

    if fits(total):
        return None
    most = max((n for n in range(2, total) if fits(n)), default=0)
    possible = ([f"total = {most} or less"] if most else []) + ["smaller counters", "places = 'open'"]
    return problem(
        tray, "places", f"{total} rings of {place:g} mm do not fit a field of the mat", listing(possible)
    )


# --- drawing ---------------------------------------------------------------------------------


def _mat(tray: Tray, size: tuple[float, float], fields: _Fields, total: int, n: int, *, whole: bool) -> Piece:
    marks: list[Mark] = [] if whole else [hairline(size, accent(tray))]
    if fields.border is not None:
        marks += border(tray.child.theme, tray.child.ink, fields.border)
    areas: list[Area] = []
    rings = _rings(tray, total)
    large = max(fields.all, key=lambda field: field.width)
    for field, count in zip(fields.all, rings, strict=True):
        marks.append(_edge(field, 0.8 if field is large else 0.4, INK if field is large else SOFT))
        box = field.inset(_PAD)
        place = tray.child.counter + 2
        for x, y in arranging.grid_for(count, box, place) or () if count else ():
            marks.append(Dot(x=x, y=y, radius=place / 2 - 0.15, stroke=SOFT, line=0.3))
        areas.append(Area(box=box, things=0, ground="places" if count else "none"))
    how = _how(tray, fields.band.width) if fields.band is not None else None
    if how is not None:
        marks += _sentence(tray, how, fields.band)
    facts = Facts(
        operation=tray.settings.operation,
        total=total,
        rings=rings,
        box_mm=(how.box, micrometres(how.high)) if how is not None else None,
    )
    return piece_of(
        tray, size, f"mat-{n}", Face(marks=tuple(marks), areas=tuple(areas)), facts, cut=not whole
    )


def _edge(field: Rect, line: float, color) -> Box:
    edge = field.inset(line / 2)
    return Box(
        x=micrometres(edge.left), y=micrometres(edge.top), width=micrometres(edge.width),
        height=micrometres(edge.height), radius=6, stroke=color, line=line,
    )  # fmt: skip


def _sentence(tray: Tray, how: Figures, band: Rect) -> tuple[Mark, ...]:
    """Three empty boxes with their signs, in the middle of the band."""
    sign = "+" if tray.settings.operation == "add" else "\N{MINUS SIGN}"
    slot = SLOT * how.height
    left = band.left + (band.width - _sentence_width(how)) / 2
    columns = [(left + i * (how.box + slot), how.box) for i in range(3)]
    return equation(how, (None, None, None), sign, columns, band.top)


# --- guidance --------------------------------------------------------------------------------


def _about(tray: Tray, say: Say) -> str:
    return say(f"label.sums.{tray.settings.operation}", most=total_of(tray))


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    bare = "" if settings.boxes else "bare-"
    return Holding(
        variants=(f"{bare}{settings.operation}", settings.operation),
        notes=when(rings=settings.places == "rings", tiles=settings.boxes),
        next=when(next_rings=settings.places == "rings"),
    )


def _examples(facts: Sequence[Facts], spelled: Spelled) -> dict[str, str]:
    """`a` and `b` make `r`, a sum of the mat."""
    total = facts[0].total
    r = min(total, 5)
    a = r - r // 2
    return {"a": word(a, spelled), "b": word(r - a, spelled), "r": word(r, spelled)}


MATERIAL = Material(
    name="place-mats",
    order=52,
    line="mats with two sets and their total for loose counters, with boxes for the numbers",
    track="operations",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=Guidance(about=_about, holding=_holding, examples=_examples),
)
