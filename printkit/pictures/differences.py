"""Odd one out: pairs of looks that differ in one way, from easy to hard, each difference measured.

Level 1: another motif of another color. 2: another motif of a like color. 3: the size. 4: a part
is missing or has another color. 5: turned. 6: mirrored. What cannot be seen, in the printed ink
and on a gray printer, is not used (the floors stand in `seen`).
"""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache, partial

from printkit.pictures.colors import difference, gray, lab, rgb
from printkit.pictures.motifs import Ink, Motif, spoken
from printkit.pictures.seen import Look, Pixels, measure, pixels, things
from printkit.pictures.themes import Theme
from printkit.pieces import WHITE, Color

SMALLER = 0.62
TURNS = (180, 90, 270)
MOST_OTHERS = 11  # motifs that each motif is compared with, so that large folders take no minutes
MOST = 0.6  # of what a picture covers; a design choice
DARKEST = 35.0  # CIE lightness; a design choice: a part in near-black looks burnt, not odd
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


Candidate = Callable[[], Difference | None]
"""A difference that has not been measured yet: called, it is the difference, or None if unseen."""


@lru_cache(maxsize=128)
def differences(theme: Theme, level: int, ink: Ink, size: float) -> tuple[Difference, ...]:
    """All differences of a level that can be seen in pictures `size` mm long, in a stable order."""
    found = (
        candidate() for motif in theme.motifs for candidate in candidates(theme, motif, level, ink, size)
    )
    return tuple(each for each in found if each is not None)


@lru_cache(maxsize=1024)
def candidates(theme: Theme, motif: Motif, level: int, ink: Ink, size: float) -> tuple[Candidate, ...]:
    """What might differ in one motif, in a stable order; each is measured once, when it is called."""
    search = _Search(theme=theme, level=level, ink=ink, size=size)
    return tuple(cache(each) for each in _LEVELS[level](search, motif))


@lru_cache(maxsize=256)
def _printed(motif: Motif, ink: Ink, size: float) -> tuple[Look, Pixels]:
    """The motif as it is, and its pixels."""
    look = Look(drawing=motif.drawing(ink, size=size))
    return look, pixels(look, size)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Search:
    """What is looked for; each method finds the differences of one motif."""

    theme: Theme
    level: int
    ink: Ink
    size: float

    def pixels(self, look: Look) -> Pixels:
        return pixels(look, self.size)

    def printed(self, motif: Motif) -> tuple[Look, Pixels]:
        return _printed(motif, self.ink, self.size)

    def compared(
        self, motif: Motif, said: tuple[str, ...], alike: tuple[Look, Pixels], odd: tuple[Look, Pixels]
    ) -> Difference | None:
        """The difference of two looks, if it can be seen."""
        seen = measure(self.ink, motif.is_photo)(alike[1], odd[1])
        if seen is None:
            return None
        return Difference(
            motif=motif.key,
            level=self.level,
            kind=said[0],
            said=said,
            alike=alike[0],
            odd=odd[0],
            area=round(seen.area, 1),
            contrast=round(seen.contrast, 1),
        )

    def others(self, motif: Motif) -> Iterator[Candidate]:
        """Another motif: of another color on level 1, of a like color on level 2."""
        for other in _like_and_unlike(self.theme, motif, self.ink, self.size)[self.level - 1]:
            yield partial(self.another, motif, other)

    def another(self, motif: Motif, other: Motif) -> Difference | None:
        said = ("another motif", other.key)
        return self.compared(motif, said, self.printed(motif), self.printed(other))

    def sizes(self, motif: Motif) -> Iterator[Candidate]:
        """A small one among large ones, a large one among small ones."""
        yield partial(self.resized, motif, smaller=True)
        yield partial(self.resized, motif, smaller=False)

    def resized(self, motif: Motif, *, smaller: bool) -> Difference | None:
        whole = self.printed(motif)
        look = Look(drawing=motif.drawing(self.ink, size=self.size * SMALLER), scale=SMALLER)
        small = look, self.pixels(look)
        if smaller:
            return self.compared(motif, ("smaller",), whole, small)
        return self.compared(motif, ("larger",), small, whole)

    def parts(self, motif: Motif) -> Iterator[Candidate]:
        """A part left out where the rest holds together; in another color where there is color."""
        for part in motif.parts:
            yield partial(self.without, motif, part)
        for number, part in enumerate(motif.parts if self.ink != "outline" else ()):
            yield partial(self.recolored, motif, part, number)

    def without(self, motif: Motif, part: str) -> Difference | None:
        whole = self.printed(motif)
        look = Look(drawing=motif.drawing(self.ink, size=self.size, hide=(part,)))
        rest = look, self.pixels(look)
        if not _holds_together(whole[1], rest[1]):
            return None
        return self.compared(motif, ("part missing", spoken(part)), whole, rest)

    def recolored(self, motif: Motif, part: str, number: int) -> Difference | None:
        """A part in the first of its other colors that can be seen."""
        drawings = (
            motif.drawing(self.ink, size=self.size, recolor=((part, color),))
            for color in _other_colors(self.theme, motif, part, number)
        )
        said = ("part recolored", spoken(part))
        tried = (self.as_it_is_and(motif, said, Look(drawing=drawing)) for drawing in drawings)
        return next((found for found in tried if found is not None), None)

    def turned(self, motif: Motif) -> Iterator[Candidate]:
        """Half a turn and the quarter turns."""
        for turn in TURNS:
            yield partial(self.placed, motif, ("turned", str(turn)), turn=turn)

    def mirrored(self, motif: Motif) -> Iterator[Candidate]:
        """Left and right changed, unless the theme calls the motif symmetric."""
        if not motif.symmetric:
            yield partial(self.placed, motif, ("mirrored",), mirror=True)

    def placed(
        self, motif: Motif, said: tuple[str, ...], *, turn: float = 0.0, mirror: bool = False
    ) -> Difference | None:
        drawing = self.printed(motif)[0].drawing
        return self.as_it_is_and(motif, said, Look(drawing=drawing, turn=turn, mirror=mirror))

    def as_it_is_and(self, motif: Motif, said: tuple[str, ...], odd: Look) -> Difference | None:
        return self.compared(motif, said, self.printed(motif), (odd, self.pixels(odd)))


_LEVELS = {
    1: _Search.others,
    2: _Search.others,
    3: _Search.sizes,
    4: _Search.parts,
    5: _Search.turned,
    6: _Search.mirrored,
}
LEVELS = tuple(_LEVELS)


# --- like and unlike -------------------------------------------------------------------------


def _like_and_unlike(theme: Theme, motif: Motif, ink: Ink, size: float) -> tuple[list[Motif], list[Motif]]:
    """The other motifs of another color, and those of a like color; neither empty if there is any other.

    On a gray printer colors are close together, and in outline there are none: there the nearer half,
    in gray or in shape, stands for the like ones.
    """
    others = [other for other in theme.motifs if other is not motif]
    others.sort(key=lambda other: _apart(motif, other, ink, size))
    if ink == "color":
        like = sum(_apart(motif, other, ink, size) < LIKE_COLOR for other in others)
    else:
        like = len(others) // 2
    like = min(max(like, 1), max(len(others) - 1, 1))
    near = others[: min(like, MOST_OTHERS)]
    unlike = others[like:] or others
    if ink == "color":
        unlike = [other for other in unlike if _share_no_color(motif, other)] or unlike
    far = unlike[-MOST_OTHERS:]
    order = theme.motifs.index
    return sorted(far, key=order), sorted(near, key=order)


@lru_cache(maxsize=4096)
def _share_no_color(one: Motif, two: Motif) -> bool:
    """Whether no large color of one comes near a large color of the other."""
    return all(
        difference(_bytes(first), _bytes(second)) >= LIKE_COLOR
        for first in one.large_colors
        for second in two.large_colors
    )


@lru_cache(maxsize=4096)
def _apart(one: Motif, two: Motif, ink: Ink, size: float) -> float:
    """How unlike two motifs are: by their main colors, or in outline by what they cover."""
    from PIL import ImageChops, ImageStat

    if ink == "outline":
        (_, first), (_, second) = (_printed(motif, ink, size) for motif in (one, two))
        return ImageStat.Stat(ImageChops.difference(first.cover, second.cover)).mean[0]
    return difference(_main_color(one, ink, size), _main_color(two, ink, size))


@lru_cache(maxsize=512)
def _main_color(motif: Motif, ink: Ink, size: float) -> tuple[int, int, int]:
    """The color that covers most of the picture; of a photo in steps of 16."""
    drawn = motif.main_color
    if drawn is not None:
        return _bytes(gray(drawn) if ink == "gray" else drawn)
    _, seen = _printed(motif, ink, size)
    data, cover = seen.colors.tobytes(), seen.cover.tobytes()
    counts = Counter(
        (data[3 * i] & 0xF0, data[3 * i + 1] & 0xF0, data[3 * i + 2] & 0xF0)
        for i in range(0, len(cover), 3)
        if cover[i] == 255
    )
    return counts.most_common(1)[0][0] if counts else (0, 0, 0)


# --- parts -----------------------------------------------------------------------------------


def _holds_together(whole: Pixels, rest: Pixels) -> bool:
    """Whether most of a picture is left, and in no more separate things than before."""
    from PIL import ImageStat

    left, all_of_it = (ImageStat.Stat(seen.cover).sum[0] for seen in (rest, whole))
    return left >= MOST * all_of_it and things(rest.cover) <= things(whole.cover)


def _other_colors(theme: Theme, motif: Motif, part: str, number: int) -> list[Color]:
    """Colors for a part: one that is clearly another, by turns, and the most different one.

    None is so light that the part would be lost on white paper, or nearly black.
    """
    own = motif.part_color(part)
    if own is None:
        return []
    colors = [color for _, color in theme.palette] or list(_SPARE)
    inky = [color for color in colors if _told_apart(color, WHITE) >= LIKE_COLOR and lab(color)[0] >= DARKEST]
    clear = [color for color in inky if _told_apart(own, color) >= LIKE_COLOR]
    inky.sort(key=lambda color: -_told_apart(own, color))
    return clear[number % len(clear) :][:1] + inky[:1] if clear else inky[:1]


def _told_apart(one: Color, two: Color) -> float:
    """How far two colors differ in CIEDE2000, on a gray printer too, where half of it must do."""
    in_color = difference(*(_bytes(color) for color in (one, two)))
    in_gray = difference(*(_bytes(gray(color)) for color in (one, two)))
    return min(in_color, 2 * in_gray)


def _bytes(color: Color) -> tuple[int, int, int]:
    red, green, blue = (round(part * 255) for part in rgb(color))
    return red, green, blue
