"""Shades: cards with one color each, to be put in order from light to dark or joined in twos."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from printkit.checks import Flag, Millimetres, OneOf, Whole, Words, setting
from printkit.errors import Problem, listing
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.layout import set_marked, size_problem
from printkit.materials.making import fitting_sizes, piece_of
from printkit.materials.motifs import chosen_motif
from printkit.materials.naming import SPARSE
from printkit.materials.shades.colors import (
    FINEST,
    LINES_DARKEST,
    LINES_LIGHTEST,
    Ends,
    color_of,
    least_apart,
    most_shades,
    series,
    widest_step,
)
from printkit.materials.shades.faces import LEAST_PATCH, Patch, faces_of, patch_box
from printkit.materials.shades.guidance import GUIDANCE
from printkit.materials.shades.sources import Source, colors_for_pairs, colors_for_series
from printkit.pack import Tray
from printkit.pieces import Color, Piece
from printkit.texts import Note

_SHADES, _PAIRS = 5, 6
MOST = 8
_NAMED = {
    "small": (47.0, 62.0),
    "medium": (62.0, 88.0),
    "large": (94.0, 125.0),
}
_GRAY: Color = (0.5,)


class Step(Millimetres):
    """A color difference from one shade to the next."""

    def allowed(self) -> str:
        return f"a number from {self.low:g} to {self.high:g} (CIEDE2000); finer steps are hard to see"


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for shades."""

    form: Literal["order", "pairs"] = setting(
        "order", OneOf(("order", "pairs")), "to be put in order from light to dark, or two by two alike"
    )
    count: int | None = setting(
        None, Whole(3, MOST), "how many shades of each color, or how many pairs; unset: 5 shades, 6 pairs"
    )
    colors: int = setting(1, Whole(1, 3), "how many colors to put in order, each with another picture below")
    step: float | None = setting(
        None, Step(FINEST, 30.0), "how far each shade is from the next; unset: as far as light and dark allow"
    )
    safe: bool | None = setting(
        None,
        Flag(),
        "whether people who lack a kind of cone tell all colors apart too; unset: only if the child needs it",
    )
    motif: str | None = setting(
        None, Words("the name of a motif"), "the picture of the theme whose colors are shown"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a card: its `color` as printed (gray, or red, green and blue, from 0 to 1).

    In a series `place` counts from 1, the lightest, to `count`, and `step` is the CIEDE2000 to the next. In
    pairs `place` is the number of the pair, `step` the least between any two of the colors. `motif` is the
    picture whose color it is; `lines` the share of the patch that black lines cover where they make the gray.
    """

    form: str
    color: Color
    place: int
    count: int
    step: float
    motif: str = field(default="", metadata=SPARSE)
    lines: float = field(default=0.0, metadata=SPARSE)


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of cards with a patch of color each."""
    first = chosen_motif(seed, tray)
    if first.motif is None:
        return Made(problems=(first.problem,) if first.problem else ())
    sizes = fitting_sizes(tray, room, _NAMED) or _own(tray, room)
    if not sizes:
        asked = tray.size if isinstance(tray.size, tuple) else _NAMED[tray.size or "medium"]
        return refused(size_problem(tray, room, asked))
    patch = patch_box(sizes[0], pictured=True)
    if min(patch.width, patch.height) < LEAST_PATCH:
        return refused(_too_small(tray, sizes[0]))
    if tray.settings.form == "pairs" and tray.child.ink == "color":
        return _pairs(seed, tray, sizes[0], first.motif)
    return _ordered(seed, tray, sizes[0], first.motif)


def is_safe(tray: Tray) -> bool:
    """Whether colors must be told apart by people who lack a kind of cone."""
    wanted = tray.settings.safe
    return needs.is_color_safe(tray.child) if wanted is None else wanted


def count_of(tray: Tray) -> int:
    """How many shades a color has, or how many pairs there are."""
    settings: Settings = tray.settings
    if settings.count is not None:
        return settings.count
    return _SHADES if settings.form == "order" or tray.child.ink != "color" else _PAIRS


def _own(tray: Tray, room: Room) -> tuple[tuple[float, float], ...]:
    """A card for a small sheet, where no size was asked for."""
    if tray.size is not None:
        return ()
    return ((min(62.0, room.width), min(88.0, room.height)),)


def _too_small(tray: Tray, size: tuple[float, float]) -> Problem:
    return problem(
        tray,
        "size" if tray.size is not None else "paper",
        f"a card of {size[0]:g} x {size[1]:g} mm has no room for a patch of color",
        "at least 30 x 46 mm",
    )


# --- from light to dark ----------------------------------------------------------------------


def _ends(tray: Tray) -> Ends:
    return Ends(LINES_LIGHTEST, LINES_DARKEST) if tray.child.ink == "outline" else Ends()


def _ordered(seed: int, tray: Tray, size: tuple[float, float], motif) -> Made:
    """Series from light to dark; without color also the pairs, as every gray on two cards."""
    settings: Settings = tray.settings
    if tray.child.ink == "color":
        sources = colors_for_series(seed, tray, motif, is_safe(tray))
    elif settings.colors == 1 or settings.form == "pairs":
        sources = (Source(color=_GRAY, motif=motif),)
    else:
        return refused(
            problem(
                tray,
                "colors",
                f'with ink = "{tray.child.ink}" there is one row of grays only',
                'colors = 1, or ink = "color"',
            )
        )
    wrong = [found for found in (_too_fine(tray, source.color) for source in sources) if found]
    if wrong:
        return refused(wrong[0])
    pieces: list[Piece] = []
    for n, source in enumerate(sources, 1):
        pieces += _series(tray, size, source, f"{n}-" if len(sources) > 1 else "")
    return Made(pieces=set_marked(pieces), notes=_notes(tray))


def _notes(tray: Tray) -> tuple[str, ...]:
    if tray.child.ink == "color":
        return ()
    return (Note("notes.shades_lines" if tray.child.ink == "outline" else "notes.shades_gray"),)


def _too_fine(tray: Tray, color: Color) -> Problem | None:
    """The problem with more shades than can be told apart, or steps that lead too far."""
    settings: Settings = tray.settings
    count, ends = count_of(tray), _ends(tray)
    widest = widest_step(color, count, ends)
    step = settings.step or FINEST
    if widest >= step:
        return None
    most = most_shades(color, step, ends)
    could = [f"count = {most} at most"] if most >= 3 else []
    if settings.step is not None and widest >= FINEST:
        could.append(f"step = {_down(widest)} at most")
    if tray.child.ink == "outline" and widest_step(color, count, Ends()) >= step:
        could.append('ink = "color" or "gray"')
    key = "step" if settings.step is not None else "count"
    found = (
        f"{count} shades by steps of {step:g} reach further than from light to dark"
        if settings.step is not None
        else f"{count} shades between light and dark lie {widest:.1f} apart, too fine to see "
        f"(at least {FINEST:g})"
    )
    return problem(tray, key, found, listing(could) or "fewer shades")


def _down(value: float) -> str:
    return f"{int(value * 10) / 10:g}"


def _series(tray: Tray, size, source: Source, prefix: str) -> list[Piece]:
    """The cards of one color, the lightest first; two of each where they are pairs."""
    count, ends = count_of(tray), _ends(tray)
    step = tray.settings.step or int(widest_step(source.color, count, ends) * 100) / 100
    shades = [_printed(color_of(point), source.color) for point in series(source.color, count, step, ends)]
    pairs = tray.settings.form == "pairs"
    found = []
    for place, color in enumerate(shades, 1):
        patch = Patch(color=color, lines=tray.child.ink == "outline")
        facts = Facts(
            form=tray.settings.form, color=color, place=place, count=count, step=step,
            motif=source.motif.key if source.motif else "", lines=patch.covered,
        )  # fmt: skip
        for copy in ("a", "b") if pairs else ("",):
            key = f"{prefix}{place}{copy}"
            found.append(_card(tray, size, key, patch, facts, source))
    return found


def _printed(color: Color | None, source: Color) -> Color:
    """The color as it is written: grays in black ink only."""
    if color is None:
        raise ValueError("a shade beyond what can be printed")
    if len(source) == 1:
        return (round(sum(color) / 3, 4),)
    return color


# --- two by two ------------------------------------------------------------------------------


def _pairs(seed: int, tray: Tray, size: tuple[float, float], motif) -> Made:
    count, safe = count_of(tray), is_safe(tray)
    sources = colors_for_pairs(seed, tray, motif, count, safe)
    if len(sources) < count:
        return refused(
            problem(
                tray,
                "count",
                f"there are no {count} colors that all differ clearly from each other",
                f"count = {len(sources)} at most with this theme" + (", or safe = false" if safe else ""),
            )
        )
    own = all(source.motif is motif for source in sources)
    step = int(least_apart([source.color for source in sources]) * 100) / 100
    pieces = []
    for place, source in enumerate(sources, 1):
        shown = Source(color=source.color, motif=motif if own else None)
        facts = Facts(
            form="pairs", color=source.color, place=place, count=count, step=step,
            motif=source.motif.key if source.motif else "",
        )  # fmt: skip
        patch = Patch(color=source.color)
        pieces += [_card(tray, size, f"{place}{copy}", patch, facts, shown) for copy in ("a", "b")]
    return Made(pieces=set_marked(pieces))


def _card(tray: Tray, size, key: str, patch: Patch, facts: Facts, source: Source) -> Piece:
    front, back, control = faces_of(tray, size, patch, source.motif, facts.place, facts.count)
    return piece_of(tray, size, key, front, facts, back=back, control=control)


def colors_of(pieces: Sequence[Piece]) -> tuple[Color, ...]:
    """The different colors of a set, in the order of its cards."""
    return tuple(dict.fromkeys(piece.facts.color for piece in pieces))


MATERIAL = Material(
    name="shades",
    order=108,
    line="cards with one color each, to be put in order from light to dark or joined in twos",
    track="looking",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
