"""Shades by even steps: from light to dark along one hue, each step equal in CIEDE2000."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations, pairwise

from printkit.pictures.colors import LACKING, ciede2000, difference, lab, rgb, simulated
from printkit.pieces import Color

Lab = tuple[float, float, float]

LIGHTEST, DARKEST = 90.0, 26.0
"""CIE lightness of the ends of a series: off the white of the paper, not yet black (design choice)."""
LINES_LIGHTEST, LINES_DARKEST = 92.0, 46.0
"""The same where shades are drawn with black lines: beyond them the lines run together."""
FINEST = 8.0
"""CIEDE2000 of the finest step (design choice): twice what a home printer may be off by (from memory)."""
FINEST_LACKING = 4.0
"""The same as seen by people who lack a kind of cone: half, like the floors of `pictures.seen`."""
APART, APART_LACKING = 20.0, 10.0
"""CIEDE2000 that different colors differ by at least: the floors of `pictures.seen`."""
PALETTE: tuple[Color, ...] = tuple(
    tuple(round(int(digits[i : i + 2], 16) / 255, 4) for i in (0, 2, 4))
    for digits in ("154975", "d6d848", "8a1635", "81dff8", "99681a", "ba71e9", "488e73", "f8aea6")
)
"""Colors of our own that everybody tells apart: found by search for the largest least difference, measured
with common color vision and with each kind of cone lacking (a test measures it again)."""
OFF_WHITE = 12.0
"""CIEDE2000 that a color differs from white paper by at least (design choice)."""

# XYZ to linear sRGB, the inverse of the matrix of IEC 61966-2-1, and the D65 white.
_RGB = (
    (3.2404542, -1.5371385, -0.4985314),
    (-0.9692660, 1.8760108, 0.0415560),
    (0.0556434, -0.2040259, 1.0572252),
)
_WHITE = (0.95047, 1.0, 1.08883)
_FULL = 0.85
"""Share of the strongest printable chroma that a shade may have."""


@dataclass(frozen=True, slots=True)
class Ends:
    """The lightness of the lightest and the darkest shade that a series may hold."""

    light: float = LIGHTEST
    dark: float = DARKEST


# --- one hue ---------------------------------------------------------------------------------


def color_of(point: Lab) -> Color | None:
    """The sRGB color of a CIELAB color, four decimals; None if no screen or printer file can hold it."""
    light, a, b = point
    middle = (light + 16) / 116
    xyz = [
        _back(part) * white
        for part, white in zip((middle + a / 500, middle, middle - b / 200), _WHITE, strict=True)
    ]
    linear = [sum(weight * part for weight, part in zip(row, xyz, strict=True)) for row in _RGB]
    if any(part < -1e-4 or part > 1 + 1e-4 for part in linear):
        return None
    return tuple(round(_encoded(min(1.0, max(0.0, part))), 4) for part in linear)


def _back(share: float) -> float:
    """The inverse of the CIE 1976 lightness function."""
    return share**3 if share**3 > 216 / 24389 else (116 * share - 16) / (24389 / 27)


def _encoded(part: float) -> float:
    return 12.92 * part if part <= 0.0031308 else 1.055 * part ** (1 / 2.4) - 0.055


def along(color: Color) -> Callable[[float], Lab]:
    """The shades of a color: lightness -> CIELAB of its hue, no stronger than it, all printable."""
    _, a, b = lab(color)
    chroma, hue = math.hypot(a, b), math.atan2(b, a)
    if chroma < 4:
        return lambda light: (light, 0.0, 0.0)
    cos, sin = math.cos(hue), math.sin(hue)

    def shade(light: float) -> Lab:
        below = math.floor(light)
        near, far = (_strongest(whole, cos, sin) for whole in (below, below + 1))
        strength = min(chroma, _FULL * (near + (far - near) * (light - below)))
        return light, strength * cos, strength * sin

    return shade


@lru_cache(maxsize=8192)
def _strongest(light: int, cos: float, sin: float) -> float:
    """The strongest printable chroma of a hue at one lightness, to a hundredth."""
    low, high = 0.0, 140.0
    for _ in range(14):
        half = (low + high) / 2
        low, high = (half, high) if color_of((light, half * cos, half * sin)) else (low, half)
    return low


# --- even steps ------------------------------------------------------------------------------


def _down(shade: Callable[[float], Lab], light: float, step: float) -> float:
    """The lightness one step below `light`; a negative one if there is none."""
    start, low, high = shade(light), -1.0, light
    for _ in range(30):
        half = (low + high) / 2
        near = half < 0 or ciede2000(start, shade(half)) > step
        low, high = (half, high) if near else (low, half)
    return high


def _walked(shade: Callable[[float], Lab], light: float, step: float, count: int) -> list[float]:
    lights = [light]
    while len(lights) < count and lights[-1] > 0:
        lights.append(_down(shade, lights[-1], step))
    return lights


@lru_cache(maxsize=512)
def widest_step(color: Color, count: int, ends: Ends) -> float:
    """The CIEDE2000 from each to the next of `count` shades that reach from end to end."""
    shade = along(color)
    low, high = 0.0, 100.0
    for _ in range(26):
        half = (low + high) / 2
        lights = _walked(shade, ends.light, half, count)
        fits = len(lights) == count and lights[-1] >= ends.dark
        low, high = (half, high) if fits else (low, half)
    return low


def most_shades(color: Color, step: float, ends: Ends) -> int:
    """How many shades by such steps lie between the ends."""
    shade, lights = along(color), [ends.light]
    while (lower := _down(shade, lights[-1], step)) >= ends.dark:
        lights.append(lower)
    return len(lights)


@lru_cache(maxsize=512)
def series(color: Color, count: int, step: float, ends: Ends) -> tuple[Lab, ...]:
    """`count` shades of a color from light to dark, each `step` (CIEDE2000) from the next.

    They lie in the middle between the ends. `step` is at most `widest_step`.
    """
    shade = along(color)
    low, high = ends.dark, ends.light
    for _ in range(26):
        half = (low + high) / 2
        lights = _walked(shade, half, step, count)
        below = lights[-1] - ends.dark if len(lights) == count else -1.0
        low, high = (low, half) if below > ends.light - half else (half, high)
    return tuple(shade(light) for light in _walked(shade, high, step, count))


# --- colors side by side ---------------------------------------------------------------------


def as_bytes(color: Color) -> tuple[int, int, int]:
    """Red, green and blue from 0 to 255."""
    red, green, blue = (round(255 * part) for part in rgb(color))
    return red, green, blue


def apart(one: Color, two: Color, safe: bool) -> bool:
    """Whether two colors are clearly different, where `safe` to people who lack a kind of cone too."""
    first, second = as_bytes(one), as_bytes(two)
    return difference(first, second) >= APART and (
        not safe
        or all(
            difference(simulated(first, kind), simulated(second, kind)) >= APART_LACKING for kind in LACKING
        )
    )


def safe_steps(colors: Sequence[Color]) -> bool:
    """Whether neighbors in a series are told apart by people who lack a kind of cone."""
    return all(
        difference(simulated(as_bytes(one), kind), simulated(as_bytes(two), kind)) >= FINEST_LACKING
        for one, two in pairwise(colors)
        for kind in LACKING
    )


def least_apart(colors: Sequence[Color]) -> float:
    """The smallest CIEDE2000 between any two of the colors."""
    return min(ciede2000(lab(one), lab(two)) for one, two in combinations(colors, 2))
