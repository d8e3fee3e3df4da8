"""Where the colors of shades come from: the pictures of a theme, and a palette of our own."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from printkit.chance import Chance
from printkit.materials.shades.colors import (
    FINEST,
    OFF_WHITE,
    PALETTE,
    Ends,
    apart,
    as_bytes,
    color_of,
    safe_steps,
    series,
)
from printkit.pack import Tray
from printkit.pictures.colors import difference, lab
from printkit.pieces import Color

if TYPE_CHECKING:
    from printkit.pictures import Motif

_WHITE = (255, 255, 255)
_DARKEST = 15.0
"""CIE lightness of the darkest color that is told from black (design choice)."""
_GRAYEST = 8.0
"""CIELAB chroma below which a color is called gray here (design choice)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """A color, and the picture it is of, if any."""

    color: Color
    motif: "Motif | None" = None


def colors_for_series(seed: int, tray: Tray, first: "Motif", safe: bool) -> tuple[Source, ...]:
    """One color a series, all clearly different: those of pictures, then our own.

    The first is that of the motif that was chosen, where it has a color.
    """
    chance = Chance(seed, tray.child.name, tray.set, "colors")
    others = [motif for motif in tray.child.theme.counted if motif is not first]
    pictured = [
        Source(color=color, motif=motif)
        for motif in (first, *chance.shuffled(others))
        if (color := _leading(motif)) is not None and _inky(color)
    ]
    wanted = tray.settings.colors
    return _different([*pictured, *_own()], wanted, safe, lambda color: not safe or _safe_series(color))


def _leading(motif: "Motif") -> Color | None:
    """The color that stands for a picture: its largest that is no gray, else its largest."""
    colored = (color for color in motif.large_colors if math.hypot(*lab(color)[1:]) >= _GRAYEST)
    return next(colored, motif.main_color)


def _safe_series(color: Color) -> bool:
    """Whether even its finest steps are seen by everybody."""
    return safe_steps([shade for point in series(color, 5, FINEST, Ends()) if (shade := color_of(point))])


def colors_for_pairs(seed: int, tray: Tray, motif: "Motif", count: int, safe: bool) -> tuple[Source, ...]:
    """Colors for pairs: those of the motif, then those of the theme, then our own; `count` or fewer.

    If our own palette alone gives more, it is taken.
    """
    theme = tray.child.theme
    others = [item for item in theme.motifs if item is not motif]
    found = _different(
        [
            *_colors(motif),
            *(Source(color=color) for _, color in theme.palette),
            *(source for other in others for source in _colors(other)),
            *_own(),
        ],
        count,
        safe,
    )
    if len(found) >= count:
        return found
    own = _different(_own(), count, safe)
    return own if len(own) > len(found) else found


def _own() -> list[Source]:
    return [Source(color=color) for color in PALETTE]


def _colors(motif: "Motif") -> Iterable[Source]:
    """The colors of a picture, the largest first; then those of its parts; none for a photo."""
    parts = (motif.part_color(part) for part in motif.parts)
    colors = (*motif.large_colors, *(color for color in parts if color is not None))
    return [Source(color=color, motif=motif) for color in dict.fromkeys(colors)]


def _different(
    sources: Iterable[Source], count: int, safe: bool, also=lambda color: True
) -> tuple[Source, ...]:
    """The first `count` that can all be told apart and from the paper."""
    kept: list[Source] = []
    for source in sources:
        if len(kept) == count:
            break
        if _inky(source.color) and also(source.color) and _new(source.color, kept, safe):
            kept.append(source)
    return tuple(kept)


def _new(color: Color, kept: Sequence[Source], safe: bool) -> bool:
    return all(apart(color, other.color, safe) for other in kept)


def _inky(color: Color) -> bool:
    """Whether a color is seen on white paper and is not nearly black."""
    return difference(as_bytes(color), _WHITE) >= OFF_WHITE and lab(color)[0] >= _DARKEST
