"""Odd one out: pairs of looks that differ in one way, from easy to hard, each difference measured.

Level 1: another motif of another color. 2: another motif of a like color. 3: the size. 4: a part
is missing or has another color. 5: turned. 6: mirrored. What cannot be seen, in the printed ink
and on a gray printer, is not used (the floors stand in `seen`).
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from printkit.pictures.colors import difference, gray, rgb
from printkit.pictures.motifs import Ink, Motif, spoken
from printkit.pictures.seen import Change, Look, Pixels, measure, pixels
from printkit.pictures.themes import Theme
from printkit.pieces import Color

LEVELS = (1, 2, 3, 4, 5, 6)
SMALLER = 0.62
TURNS = (180, 90, 270)
LIKE_COLOR = 20.0  # CIEDE2000; a design choice, the floor at which colors count as clearly different

# For themes without a palette: light, middle and dark, warm and cool.
_SPARE: tuple[Color, ...] = (
    (0.95, 0.84, 0.55),
    (0.85, 0.42, 0.33),
    (0.36, 0.6, 0.72),
    (0.24, 0.29, 0.42),
    (0.55, 0.71, 0.42),
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Difference:
    """One motif shown alike several times, and once in a way that differs.

    `kind` is 'another motif', 'smaller', 'larger', 'part missing', 'part recolored', 'turned' or
    'mirrored'; `said` is the kind followed by what it is about: the other motif's key, the part,
    the degrees clockwise. `area` is the changed area in mm2 at print size, `contrast` its mean
    CIEDE2000 in the printed ink (100 for black lines on white).
    """

    motif: str
    level: int
    kind: str
    said: tuple[str, ...]
    alike: Look
    odd: Look
    area: float
    contrast: float


@lru_cache(maxsize=128)
def differences(theme: Theme, level: int, ink: Ink, size: float) -> tuple[Difference, ...]:
    """All differences of a level that can be seen when pictures are `size` mm long, in a stable order."""
    found = _LEVELS[level](theme, ink, size)
    return tuple(difference for difference in found if difference is not None)


@lru_cache(maxsize=512)
def _printed(motif: Motif, ink: Ink, size: float) -> tuple[Look, Pixels]:
    """The motif as it is, and its pixels."""
    look = Look(drawing=motif.drawing(ink, size=size))
    return look, pixels(look, size)


def _compared(
    motif: Motif,
    level: int,
    ink: Ink,
    size: float,
    said: tuple[str, ...],
    odd: Look,
    odd_pixels: Pixels | None = None,
    alike: Look | None = None,
) -> Difference | None:
    """The difference, if it can be seen."""
    whole, whole_pixels = _printed(motif, ink, size)
    if alike is not None:
        whole, whole_pixels = alike, pixels(alike, size)
    seen: Change | None = measure(ink, motif.is_photo)(whole_pixels, odd_pixels or pixels(odd, size))
    if seen is None:
        return None
    return Difference(
        motif=motif.key,
        level=level,
        kind=said[0],
        said=said,
        alike=whole,
        odd=odd,
        area=round(seen.area, 1),
        contrast=round(seen.contrast, 1),
    )


# --- the levels ------------------------------------------------------------------------------


def _others(level: int, theme: Theme, ink: Ink, size: float) -> Iterator[Difference | None]:
    for motif in theme.motifs:
        for other in _like_and_unlike(theme, motif, ink, size)[level - 1]:
            look, seen = _printed(other, ink, size)
            yield _compared(motif, level, ink, size, ("another motif", other.key), look, seen)


def _like_and_unlike(
    theme: Theme, motif: Motif, ink: Ink, size: float
) -> tuple[list[Motif], list[Motif]]:
    """The other motifs of another color, and those of a like color; neither empty if there is any other.

    In outline there is no color, so the nearer half in shape stands for the like ones.
    """
    others = [other for other in theme.motifs if other is not motif]
    others.sort(key=lambda other: _apart(motif, other, ink, size))
    if ink == "outline":
        like = len(others) // 2
    else:
        like = sum(_apart(motif, other, ink, size) < LIKE_COLOR for other in others)
    like = min(max(like, 1), max(len(others) - 1, 1))
    keys = {other.key for other in others[:like]}
    ordered = [other for other in theme.motifs if other is not motif]
    unlike = [other for other in ordered if other.key not in keys] or ordered
    return unlike, [other for other in ordered if other.key in keys]


@lru_cache(maxsize=4096)
def _apart(one: Motif, two: Motif, ink: Ink, size: float) -> float:
    """How unlike two motifs are: by their main colors, or in outline by what they cover."""
    from PIL import ImageChops, ImageStat

    (_, first), (_, second) = (_printed(motif, ink, size) for motif in (one, two))
    if ink == "outline":
        return ImageStat.Stat(ImageChops.difference(first.cover, second.cover)).mean[0]
    return difference(_main_color(first), _main_color(second))


def _main_color(seen: Pixels) -> tuple[int, int, int]:
    """The color that covers most of the picture, in steps of 16."""
    from collections import Counter

    data, cover = seen.colors.tobytes(), seen.cover.tobytes()
    counts = Counter(
        (data[3 * i] & 0xF0, data[3 * i + 1] & 0xF0, data[3 * i + 2] & 0xF0)
        for i in range(0, len(cover), 3)
        if cover[i] == 255
    )
    return counts.most_common(1)[0][0] if counts else (0, 0, 0)


def _sizes(theme: Theme, ink: Ink, size: float) -> Iterator[Difference | None]:
    for motif in theme.motifs:
        small = Look(drawing=motif.drawing(ink, size=size * SMALLER), scale=SMALLER)
        whole, seen = _printed(motif, ink, size)
        yield _compared(motif, 3, ink, size, ("smaller",), small)
        yield _compared(motif, 3, ink, size, ("larger",), whole, seen, alike=small)


def _parts(theme: Theme, ink: Ink, size: float) -> Iterator[Difference | None]:
    for motif in theme.motifs:
        for part in motif.parts:
            without = Look(drawing=motif.drawing(ink, size=size, hide=(part,)))
            yield _compared(motif, 4, ink, size, ("part missing", spoken(part)), without)
        if ink == "outline":
            continue
        for part in motif.parts:
            color = _other_color(theme, motif, part)
            if color is None:
                continue
            painted = Look(drawing=motif.drawing(ink, size=size, recolor=((part, color),)))
            yield _compared(motif, 4, ink, size, ("part recolored", spoken(part)), painted)


def _other_color(theme: Theme, motif: Motif, part: str) -> Color | None:
    """The theme's color that differs most from a part's own, in color and in gray alike."""
    own = motif.part_color(part)
    if own is None:
        return None

    def apart(color: Color) -> float:
        hues = (tuple(round(value * 255) for value in rgb(each)) for each in (own, color))
        grays = (tuple(round(value * 255) for value in rgb(gray(each))) for each in (own, color))
        return min(difference(*hues), 2 * difference(*grays))

    colors = [color for _, color in theme.palette] or list(_SPARE)
    return max(colors, key=apart)


def _turned(theme: Theme, ink: Ink, size: float) -> Iterator[Difference | None]:
    for motif in theme.motifs:
        for turn in TURNS:
            look = Look(drawing=motif.drawing(ink, size=size), turn=turn)
            yield _compared(motif, 5, ink, size, ("turned", str(turn)), look)


def _mirrored(theme: Theme, ink: Ink, size: float) -> Iterator[Difference | None]:
    for motif in theme.motifs:
        if not motif.symmetric:
            look = Look(drawing=motif.drawing(ink, size=size), mirror=True)
            yield _compared(motif, 6, ink, size, ("mirrored",), look)


_LEVELS = {
    1: lambda theme, ink, size: _others(1, theme, ink, size),
    2: lambda theme, ink, size: _others(2, theme, ink, size),
    3: _sizes,
    4: _parts,
    5: _turned,
    6: _mirrored,
}
