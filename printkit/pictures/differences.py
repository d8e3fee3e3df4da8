"""Odd one out: pairs of looks that differ in one way, from easy to hard, each difference measured.

Level 1: another motif of another color. 2: another motif of a like color. 3: the size. 4: a part
is missing or has another color. 5: turned. 6: mirrored. What cannot be seen, in the printed ink
and on a gray printer, is not used (the floors stand in `seen`). What can be seen in a built-in theme
is measured when the theme is made, and kept beside it (`kept`).
"""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache, partial

from printkit.pictures.colors import difference, gray, lab, rgb
from printkit.pictures.kept import SIZES, Entry, Said, kept_for
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
_COMPARED = 20.0  # mm of the pictures whose outlines are compared

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
    said: Said
    alike: Look
    odd: Look
    area: float
    contrast: float


Candidate = Callable[[], Difference | None]
"""A difference that has not been measured yet: called, it is the difference, or None if unseen."""

Looks = Callable[[], tuple[Look, Look]]
"""How all but one look, and the odd one; drawn when called."""


@lru_cache(maxsize=128)
def differences(theme: Theme, level: int, ink: Ink, size: float) -> tuple[Difference, ...]:
    """All differences of a level that can be seen in pictures `size` mm long, in a stable order."""
    found = (
        candidate() for motif in theme.motifs for candidate in candidates(theme, motif, level, ink, size)
    )
    return tuple(each for each in found if each is not None)


@lru_cache(maxsize=1024)
def candidates(theme: Theme, motif: Motif, level: int, ink: Ink, size: float) -> tuple[Candidate, ...]:
    """What might differ in one motif, in a stable order; each is measured once, when it is called.

    What is kept beside a theme is not measured again.
    """
    search = _Search(theme=theme, level=level, ink=ink, size=size)
    ideas = _LEVELS[level](search, motif)
    kept = kept_for(theme.folder)
    if kept is None or size < SIZES[0]:
        return tuple(cache(partial(search.measured, motif, said, looks)) for said, looks in ideas)
    known = kept.seen(ink, level, motif.key, size)
    return tuple(
        cache(partial(search.known, motif, said, looks[known[said].choice], known[said]))
        for said, looks in ideas
        if said in known
    )


def seen_at_all_sizes(theme: Theme, motif: Motif, level: int, ink: Ink) -> dict[Said, Entry]:
    """What is kept of one motif: each difference from the smallest kept size on at which it is seen."""
    found: dict[Said, Entry] = {}
    for first, size in reversed(tuple(enumerate(SIZES))):
        search = _Search(theme=theme, level=level, ink=ink, size=size)
        for said, looks in _LEVELS[level](search, motif):
            larger = found.get(said)
            if first < len(SIZES) - 1 and (larger is None or larger.first > first + 1):
                continue
            for choice, each in enumerate(looks):
                seen = search.measured(motif, said, (each,))
                if seen is not None:
                    break
            else:
                continue
            if larger is None:
                found[said] = Entry(first=first, choice=choice, area=seen.area, contrast=seen.contrast)
            elif larger.choice == choice:
                found[said] = Entry(first=first, choice=choice, area=larger.area, contrast=larger.contrast)
    return found


@lru_cache(maxsize=256)
def _printed(motif: Motif, ink: Ink, size: float) -> tuple[Look, Pixels]:
    """The motif as it is, and its pixels."""
    look = Look(drawing=motif.drawing(ink, size=size))
    return look, pixels(look, size)


Idea = tuple[Said, tuple[Looks, ...]]
"""What might be said to differ, and ways to show it, the first that can be seen is taken."""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Search:
    """What is looked for; each method finds ideas for one motif."""

    theme: Theme
    level: int
    ink: Ink
    size: float

    def measured(self, motif: Motif, said: Said, looks: tuple[Looks, ...]) -> Difference | None:
        """The first of the ways that can be told apart."""
        compare = measure(self.ink, motif.is_photo)
        for pair in looks:
            alike, odd = pair()
            one, two = self.pixels(motif, alike), self.pixels(motif, odd)
            if said[0] == "part missing" and not _holds_together(one, two):
                continue
            seen = compare(one, two)
            if seen is not None:
                return self.difference(motif, said, (alike, odd), seen.area, seen.contrast)
        return None

    def known(self, motif: Motif, said: Said, looks: Looks, entry: Entry) -> Difference:
        """A difference that was measured at the largest kept size."""
        return self.difference(
            motif, said, looks(), entry.area * (self.size / SIZES[-1]) ** 2, entry.contrast
        )

    def difference(
        self, motif: Motif, said: Said, looks: tuple[Look, Look], area: float, contrast: float
    ) -> Difference:
        return Difference(
            motif=motif.key,
            level=self.level,
            kind=said[0],
            said=said,
            alike=looks[0],
            odd=looks[1],
            area=round(area, 1),
            contrast=round(contrast, 1),
        )

    def pixels(self, motif: Motif, look: Look) -> Pixels:
        if look == self.whole(motif):
            return _printed(motif, self.ink, self.size)[1]
        return pixels(look, self.size)

    def whole(self, motif: Motif) -> Look:
        return Look(drawing=motif.drawing(self.ink, size=self.size))

    def others(self, motif: Motif) -> Iterator[Idea]:
        """Another motif: of another color on level 1, of a like color on level 2."""
        for other in _like_and_unlike(self.theme, motif, self.ink)[self.level - 1]:
            yield ("another motif", other.key), (partial(self.another, motif, other),)

    def another(self, motif: Motif, other: Motif) -> tuple[Look, Look]:
        return self.whole(motif), self.whole(other)

    def sizes(self, motif: Motif) -> Iterator[Idea]:
        """A small one among large ones, a large one among small ones."""
        yield ("smaller",), (partial(self.resized, motif, smaller=True),)
        yield ("larger",), (partial(self.resized, motif, smaller=False),)

    def resized(self, motif: Motif, *, smaller: bool) -> tuple[Look, Look]:
        whole = self.whole(motif)
        small = Look(drawing=motif.drawing(self.ink, size=self.size * SMALLER), scale=SMALLER)
        return (whole, small) if smaller else (small, whole)

    def parts(self, motif: Motif) -> Iterator[Idea]:
        """A part left out where the rest holds together; in another color where there is color."""
        for part in motif.parts:
            yield ("part missing", spoken(part)), (partial(self.without, motif, part),)
        for number, part in enumerate(motif.parts if self.ink != "outline" else ()):
            colors = _other_colors(self.theme, motif, part, number)
            ways = tuple(partial(self.recolored, motif, part, color) for color in colors)
            yield ("part recolored", spoken(part)), ways

    def without(self, motif: Motif, part: str) -> tuple[Look, Look]:
        odd = motif.drawing(self.ink, size=self.size, hide=(part,))
        return self.whole(motif), Look(drawing=odd)

    def recolored(self, motif: Motif, part: str, color: Color) -> tuple[Look, Look]:
        odd = motif.drawing(self.ink, size=self.size, recolor=((part, color),))
        return self.whole(motif), Look(drawing=odd)

    def turned(self, motif: Motif) -> Iterator[Idea]:
        """Half a turn and the quarter turns."""
        for turn in TURNS:
            yield ("turned", str(turn)), (partial(self.placed, motif, turn=turn),)

    def mirrored(self, motif: Motif) -> Iterator[Idea]:
        """Left and right changed, unless the theme calls the motif symmetric."""
        if not motif.symmetric:
            yield ("mirrored",), (partial(self.placed, motif, mirror=True),)

    def placed(self, motif: Motif, *, turn: float = 0.0, mirror: bool = False) -> tuple[Look, Look]:
        whole = self.whole(motif)
        return whole, Look(drawing=whole.drawing, turn=turn, mirror=mirror)


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


@lru_cache(maxsize=1024)
def _like_and_unlike(theme: Theme, motif: Motif, ink: Ink) -> tuple[list[Motif], list[Motif]]:
    """The other motifs of another color, and those of a like color; neither empty if there is any other.

    On a gray printer colors are close together, and in outline there are none: there the nearer half,
    in gray or in shape, stands for the like ones.
    """
    others = [other for other in theme.motifs if other is not motif]
    others.sort(key=lambda other: _apart(motif, other, ink))
    if ink == "color":
        like = sum(_apart(motif, other, ink) < LIKE_COLOR for other in others)
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
def _apart(one: Motif, two: Motif, ink: Ink) -> float:
    """How unlike two motifs are: by their main colors, or in outline by what they cover."""
    from PIL import ImageChops, ImageStat

    if ink == "outline":
        (_, first), (_, second) = (_printed(motif, ink, _COMPARED) for motif in (one, two))
        return ImageStat.Stat(ImageChops.difference(first.cover, second.cover)).mean[0]
    return difference(_main_color(one, ink), _main_color(two, ink))


@lru_cache(maxsize=512)
def _main_color(motif: Motif, ink: Ink) -> tuple[int, int, int]:
    """The color that covers most of the picture; of a photo in steps of 16."""
    drawn = motif.main_color
    if drawn is not None:
        return _bytes(gray(drawn) if ink == "gray" else drawn)
    _, seen = _printed(motif, ink, _COMPARED)
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
