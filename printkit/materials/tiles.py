"""Tiles: loose numerals and signs that fit the boxes of strips, for children who do not write yet."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from printkit.checks import Flag, OneOf, Whole, setting
from printkit.materials import needs, strips
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.guidance import Guidance, Holding, Say, when
from printkit.materials.making import piece_of
from printkit.materials.motifs import ChosenMotif
from printkit.materials.strips.equation import Figures
from printkit.materials.strips.facts import UNKNOWNS
from printkit.materials.tile_faces import PLAY, TILE_INSET, numeral_tile, sign_tile, tile_height
from printkit.pack import Tray
from printkit.pieces import Piece
from printkit.units import micrometres

MINUS = "\N{MINUS SIGN}"
SIGNS = {"plus": "+", "minus": MINUS, "equals": "="}


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for tiles; the first three, and `size`, as the strips have them."""

    operation: Literal["add", "subtract", "both"] = setting(
        "add", OneOf(("add", "subtract", "both")), "the operation of the strips that the tiles are for"
    )
    unknown: Literal["result", "change", "start", "mixed"] = setting(
        "result", OneOf((*UNKNOWNS, "mixed")), "which number those strips ask for"
    )
    help: Literal["pictures", "places", "none"] | None = setting(
        None, OneOf(("pictures", "places", "none")), "what stands above the numbers of those strips"
    )
    kind: Literal["numbers", "digits"] | None = setting(
        None,
        OneOf(("numbers", "digits")),
        "whole numbers, or single digits to be laid side by side; unset: numbers to 20, digits beyond",
    )
    copies: int = setting(2, Whole(1, 6), "how many of each tile")
    signs: bool = setting(True, Flag(), "whether there are tiles with plus, minus and equals")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is on a tile: a `numeral` or a `sign`; `box_mm` is the smallest box of strips it fits."""

    numeral: int | None
    sign: str | None
    box_mm: tuple[float, float]


_SMALLEST_FIGURE = 3.0
_WIDE_TILE, _WIDE_INSET = 60.0, 9.0
_NUMBERS_TO = 20


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Tiles for the strips that these settings, in a tray of strips, would make."""
    most = most_of(tray)
    how = box_of(tray, room, most)
    if how is None:
        return refused(
            problem(
                tray,
                "size" if tray.size is not None else "help",
                f"there are no strips for sums to {most} that these settings could make",
                "the settings of strips that can be made ('printkit check' tells)",
            )
        )
    digits = _digits(tray, most)
    numbers = range(10) if digits else range(most + 1)
    size = tile_size(how, len(str(most)) if digits else 1)
    height = tile_height(numbers, size, tray.child.numerals, _inset(size))
    if height < _SMALLEST_FIGURE:
        return refused(
            problem(
                tray,
                "kind" if not digits else "size",
                f"a tile of {size[0]:.3g} x {size[1]:.3g} mm is too small for its numeral",
                "kind = 'digits', or larger strips (size = 'large')" if not digits else "larger strips",
            )
        )
    box = (how.box, micrometres(how.high))
    pieces = [
        piece_of(
            tray, size, f"{number}-{copy}", numeral_tile(number, size, height, tray.child.numerals),
            Facts(numeral=number, sign=None, box_mm=box),
        )
        for number in numbers
        for copy in range(1, tray.settings.copies + 1)
    ]  # fmt: skip
    return Made(pieces=(*pieces, *_signs(tray, how, size, height, box)))


def _inset(size: tuple[float, float]) -> float:
    """mm that a numeral keeps from the cut: more on a large tile, where it would crowd its neighbors."""
    return _WIDE_INSET if min(size) >= _WIDE_TILE else TILE_INSET


def most_of(tray: Tray) -> int:
    """The largest number that tiles must lay: the child's largest sum, else its last number."""
    child = tray.child
    return child.sums_to or max(2, child.numbers[1])


def _digits(tray: Tray, most: int) -> bool:
    kind = tray.settings.kind
    return most > _NUMBERS_TO if kind is None else kind == "digits"


# --- boxes -----------------------------------------------------------------------------------


def box_of(tray: Tray, room: Room, most: int) -> Figures | None:
    """The smallest figures and boxes that strips with these settings have, whichever motif they show."""
    asked = replace(
        tray,
        material="strips",
        child=replace(tray.child, sums_to=most),
        settings=strips.Settings(
            operation=tray.settings.operation, unknown=tray.settings.unknown, help=tray.settings.help
        ),
    )
    found = [strips.figures_of(asked, room, motif) for motif in _motifs(asked)]
    fitting = [how for how in found if how is not None]
    return min(fitting, key=lambda how: (how.high, how.box), default=None)


def _motifs(tray: Tray) -> Iterator[ChosenMotif]:
    """The motifs that strips may show; the narrowest and the widest decide, but all are cheap to ask."""
    shapes = {}
    for motif in tray.child.theme.counted:
        chosen = ChosenMotif(tray=tray, motif=motif)
        drawing = chosen.drawing(20.0)
        shapes.setdefault(round(drawing.width / drawing.height, 2), chosen)
    yield from shapes.values()


def tile_size(how: Figures, beside: int) -> tuple[float, float]:
    """The size of a tile of which `beside` lie side by side in a box, in mm."""
    wide = (how.box - PLAY) / beside
    return (math.floor(wide * 10) / 10, math.floor((how.high - PLAY) * 10) / 10)


def _signs(
    tray: Tray, how: Figures, size: tuple[float, float], height: float, box: tuple[float, float]
) -> list[Piece]:
    """Tiles for the place between two boxes."""
    if not tray.settings.signs:
        return []
    wide = min(size[1], math.floor((how.slot - PLAY) * 10) / 10)
    wide = max(wide, min(size[1], needs.least_piece(tray.child)))
    return [
        piece_of(
            tray, (wide, size[1]), f"{name}-{copy}", sign_tile(sign, (wide, size[1]), height),
            Facts(numeral=None, sign=sign, box_mm=box),
        )
        for name, sign in SIGNS.items()
        for copy in range(1, tray.settings.copies + 1)
    ]  # fmt: skip


# --- guidance --------------------------------------------------------------------------------


def _about(tray: Tray, say: Say) -> str:
    return say("label.numbers", first=0, last=most_of(tray))


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    digits = _digits(tray, most_of(tray))
    return Holding(
        variants=("digits",) if digits else (),
        notes=when(signs=tray.settings.signs, small=True),
    )


MATERIAL = Material(
    name="tiles",
    order=54,
    line="loose numerals and signs that fit the boxes of strips and mats",
    track="operations",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=Guidance(about=_about, holding=_holding),
)
