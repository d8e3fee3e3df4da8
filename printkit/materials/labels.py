"""Labels for trays and shelves, and name cards: picture and name, picture, name."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from printkit import letters
from printkit.checks import OneOf, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when
from printkit.materials.layout import (
    INK,
    accent,
    centered,
    content,
    fits_sheet,
    hairline,
    picture,
    set_marked,
    size_problem,
    sizes_for,
)
from printkit.materials.named import Called, MotifNames, called, unnamed, wanted_motifs
from printkit.pack import Tray
from printkit.pieces import Color, Face, Mark, Piece, Text
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Motif

Kind = Literal["both", "picture", "name"]

SECOND: Color = (0.42,)
"""The second language: clear, yet lighter than the first."""
TRAY_SIZES = {"small": (72.0, 36.0), "medium": (94.0, 44.0), "large": (188.0, 83.0)}
SHELF_SIZES = {"small": (94.0, 32.0), "medium": (188.0, 41.0), "large": (188.0, 62.0)}
"""mm of labels: whole numbers of them fill a sheet of A4 and of Letter (design choice)."""
LOWEST_NAME = 34.0
"""mm of a name card at least."""
SMALLEST_WORD = 2.4
"""mm an em of the smallest name that may be printed: 7 pt."""
_AIR = 1.5


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for labels."""

    form: Literal["cards", "tray", "shelf"] = setting(
        "cards",
        OneOf(("cards", "tray", "shelf")),
        "name cards in threes (picture and name, picture, name), labels for trays, long ones for shelves",
    )
    motifs: tuple[str, ...] = setting((), MotifNames(), "which pictures of the theme; unset: all")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What a label or card shows: a motif, its names by language, and which of the two is printed."""

    motif: str
    kind: Kind
    names: dict[str, str]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Item:
    motif: "Motif"
    names: Called


@dataclass(frozen=True, kw_only=True, slots=True)
class _Lettering:
    """The size of the names of a set in mm an em: of the first language and of the second."""

    first: float
    second: float

    def of(self, n: int) -> float:
        return self.second if n else self.first


_SECOND_SIZE = 0.85
"""How large the second language is beside the first, where it is not too long."""
_LEAST_SECOND = 0.65
_LEAD = 1.35


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Labels, or name cards in threes, for motifs of the theme."""
    settings: Settings = tray.settings
    motifs, problems = wanted_motifs(tray, settings.motifs, tray.child.theme.motifs)
    if problems:
        return refused(*problems)
    items = tuple(_Item(motif=motif, names=called(motif, tray.child)) for motif in motifs)
    size = _size(tray, room)
    if size is None or not fits_sheet(size, room):
        return refused(size_problem(tray, room, size or TRAY_SIZES["medium"]))
    pieces = _cards(tray, items, size) if settings.form == "cards" else _labels(tray, items, size)
    if isinstance(pieces, str):
        return refused(problem(tray, "size", pieces, "a larger size, or shorter names in theme.toml"))
    return Made(pieces=set_marked(pieces), notes=unnamed(motifs, tray.child))


def _size(tray: Tray, room: Room) -> tuple[float, float] | None:
    """The size of a picture card or of a label."""
    if tray.settings.form == "cards":
        return next(iter(sizes_for(tray, room)), None)
    if isinstance(tray.size, tuple):
        return tray.size
    named = TRAY_SIZES if tray.settings.form == "tray" else SHELF_SIZES
    if tray.size is not None:
        return named[tray.size]
    fitting = [named["medium"], named["small"], (min(room.width, 60.0), 32.0)]
    return next((size for size in fitting if fits_sheet(size, room)), None)


# --- words -----------------------------------------------------------------------------------


def _lettering(tray: Tray, items: Sequence[_Item], width: float, height: float, most: float) -> _Lettering:
    """The size at which every name fits the width and all lines of a label its height."""
    lines = max(len(item.names) for item in items)
    per_line = _LEAD * (1 + _SECOND_SIZE * (lines - 1))
    firsts = tuple(item.names[0][1] for item in items)
    others = tuple(name for item in items for _, name in item.names[1:])
    first = letters.shrink_to(firsts, width, min(most, height / per_line))
    second = letters.shrink_to(others, width, first * _SECOND_SIZE) if others else first
    return _Lettering(first=min(first, second / _LEAST_SECOND), second=second)


def _high(names: Called, lettering: _Lettering) -> float:
    return sum(_LEAD * lettering.of(n) for n in range(len(names)))


def _name_marks(names: Called, box: Rect, lettering: _Lettering, *, left: bool = False) -> list[Text]:
    """The names one under the other in the middle of a box, or along its left edge."""
    y = box.top + (box.height - _high(names, lettering)) / 2
    marks = []
    for n, (_, name) in enumerate(names):
        size = lettering.of(n)
        base, color = y + 0.98 * size, INK if n == 0 else SECOND
        if left:
            run = letters.run(name, size)
            x = micrometres(box.left - min(0.0, run.ink[0]))
            marks.append(Text(run=run, x=x, y=micrometres(base), color=color))
        else:
            marks.append(centered(name, box.left + box.width / 2, base, size, color=color))
        y += _LEAD * size
    return marks


# --- pieces ----------------------------------------------------------------------------------


def _piece(tray: Tray, item: _Item, kind: Kind, size: tuple[float, float], marks: Sequence[Mark]) -> Piece:
    key = item.motif.key if tray.settings.form != "cards" else f"{item.motif.key}-{kind}"
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=key,
        width=size[0],
        height=size[1],
        front=Face(marks=(hairline(size, accent(tray)), *marks)),
        facts=Facts(motif=item.motif.key, kind=kind, names={} if kind == "picture" else dict(item.names)),
        stock=tray.stock,
    )


def _drawn(tray: Tray, item: _Item, box: Rect) -> Mark:
    side = max(box.width, box.height)
    return picture(item.motif.drawing(tray.child.ink, size=round(side, 1)), box)


def _cards(tray: Tray, items: Sequence[_Item], size: tuple[float, float]) -> list[Piece] | str:
    """All cards with picture and name, then all pictures, then all names, so that each kind is cut alike."""
    inner = content(size)
    most = min(9.0, 0.115 * size[0])
    lettering = _lettering(tray, items, inner.width - 2 * _AIR, 0.4 * inner.height, most)
    if min(lettering.first, lettering.second) < SMALLEST_WORD or inner.height < 18:
        return f"names of {SMALLEST_WORD:g} mm do not fit a card of {size[0]:g} x {size[1]:g} mm"
    words_high = max(_high(item.names, lettering) for item in items)
    words = Rect(inner.left, inner.bottom - words_high - _AIR, inner.width, words_high)
    above = Rect(inner.left, inner.top, inner.width, words.top - 4 - inner.top).inset(_AIR)
    side = min(above.width, above.height)
    over = Rect(inner.left + (inner.width - side) / 2, above.top, side, above.height)
    alone = Rect(over.left, inner.top + (inner.height - over.height) / 2 + 1.5, side, over.height)
    low = (
        size[0],
        micrometres(min(size[1], max(LOWEST_NAME, words_high + 24.0, needs.least_piece(tray.child)))),
    )
    name_box = content(low)
    pieces = [
        _piece(
            tray, item, "both", size, (_drawn(tray, item, over), *_name_marks(item.names, words, lettering))
        )
        for item in items
    ]
    pieces += [_piece(tray, item, "picture", size, (_drawn(tray, item, alone),)) for item in items]
    pieces += [
        _piece(tray, item, "name", low, _name_marks(item.names, name_box, lettering)) for item in items
    ]
    return pieces


def _labels(tray: Tray, items: Sequence[_Item], size: tuple[float, float]) -> list[Piece] | str:
    """Picture at the left, names beside it."""
    inner = content(size)
    side = min(inner.height - _AIR, 0.36 * inner.width)
    spot = Rect(inner.left + _AIR, inner.top + (inner.height - side) / 2, side, side)
    left = spot.right + 0.09 * size[1] + 2
    words = Rect(left, inner.top, inner.right - _AIR - left, inner.height)
    if words.width < 8 or side < 8:
        return f"picture and name do not fit a label of {size[0]:g} x {size[1]:g} mm"
    lettering = _lettering(tray, items, words.width, words.height, 0.4 * size[1])
    if min(lettering.first, lettering.second) < SMALLEST_WORD:
        return f"names of {SMALLEST_WORD:g} mm do not fit a label of {size[0]:g} x {size[1]:g} mm"
    return [
        _piece(
            tray, item, "both", size,
            (_drawn(tray, item, spot), *_name_marks(item.names, words, lettering, left=True)),
        )
        for item in items
    ]  # fmt: skip


# --- what the guide says ---------------------------------------------------------------------


def _about(tray: Tray, say: Say) -> str:
    """'name cards', 'labels for trays', 'labels for shelves'."""
    return say(f"label.labels.{tray.settings.form}")


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    two = any(len(piece.facts.names) > 1 for piece in pieces if isinstance(piece.facts, Facts))
    return Holding(variants=(tray.settings.form,), notes=when(languages=two))


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`thing`: the name of the first motif."""
    names = next((fact.names for fact in facts if fact.names), {})
    return {"thing": next(iter(names.values()), "")}


MATERIAL = Material(
    name="labels",
    order=240,
    line="name cards in threes (picture and name, picture, name); labels for trays and shelves",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=Guidance(about=_about, holding=_holding, examples=_examples),
    handled=lambda piece: piece.key.endswith(("-both", "-picture", "-name")),
)
