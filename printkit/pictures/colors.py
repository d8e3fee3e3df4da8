"""Colors as the eye and a gray printer see them: gray values, CIELAB, CIEDE2000; hex colors."""

import math
import re
from functools import lru_cache

from printkit.pieces import Color

# Rec. 709 luma weights (ITU-R BT.709), used on the sRGB values as they stand.
LUMA = (0.2126, 0.7152, 0.0722)

# sRGB to XYZ and the D65 white (IEC 61966-2-1).
_XYZ = (
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)
_WHITE = (0.95047, 1.0, 1.08883)

_HEX = re.compile(r"#(?:[0-9a-fA-F]{3,4}|[0-9a-fA-F]{6}|[0-9a-fA-F]{8})")


def plain(color: Color) -> Color:
    """The color in as few numbers as tell it: equal red, green and blue become (gray,)."""
    if len(color) == 3 and color[0] == color[1] == color[2]:
        return (color[0],)
    return color


def rgb(color: Color) -> tuple[float, float, float]:
    """The color as red, green and blue from 0 to 1."""
    red, green, blue = color * 3 if len(color) == 1 else color
    return red, green, blue


def gray(color: Color) -> Color:
    """What a gray printer makes of the color, as (gray,): 0 is black, 1 is white."""
    if len(color) == 1:
        return color
    return (round(sum(weight * part for weight, part in zip(LUMA, color, strict=True)), 4),)


def from_hex(text: str) -> tuple[Color, float] | None:
    """Color and alpha of '#rgb', '#rgba', '#rrggbb' or '#rrggbbaa'; None for any other text."""
    if not _HEX.fullmatch(text):
        return None
    digits = text[1:] if len(text) > 5 else "".join(digit * 2 for digit in text[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in range(0, len(digits), 2)]
    alpha = parts[3] if len(parts) == 4 else 1.0
    return plain(tuple(round(part, 4) for part in parts[:3])), alpha


def lab(color: Color) -> tuple[float, float, float]:
    """CIELAB of an sRGB color (D65)."""
    linear = [_linear(part) for part in rgb(color)]
    x, y, z = (
        _lightness(sum(weight * part for weight, part in zip(row, linear, strict=True)) / white)
        for row, white in zip(_XYZ, _WHITE, strict=True)
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _lightness(share: float) -> float:
    """The CIE 1976 lightness function with the exact constants of CIE 15."""
    return share ** (1 / 3) if share > 216 / 24389 else (24389 / 27 * share + 16) / 116


def ciede2000(one: tuple[float, float, float], two: tuple[float, float, float]) -> float:
    """The color difference CIEDE2000 of two CIELAB colors, all weights 1.

    After Sharma, Wu and Dalal, Color Research and Application 30(1), 2005; their hue rules are
    followed in degrees.
    """
    l1, a1, b1 = one
    l2, a2, b2 = two
    chroma = ((math.hypot(a1, b1) + math.hypot(a2, b2)) / 2) ** 7
    stretch = 1 + (1 - math.sqrt(chroma / (chroma + 25.0**7))) / 2
    c1, c2 = math.hypot(a1 * stretch, b1), math.hypot(a2 * stretch, b2)
    h1, h2 = _hue(a1 * stretch, b1), _hue(a2 * stretch, b2)

    turn = h2 - h1
    if c1 * c2 == 0:
        turn, mean_hue = 0.0, h1 + h2
    elif abs(turn) <= 180:
        mean_hue = (h1 + h2) / 2
    else:
        mean_hue = (h1 + h2 + (360 if h1 + h2 < 360 else -360)) / 2
        turn += 360 if turn < 0 else -360
    d_light, d_chroma = l2 - l1, c2 - c1
    d_hue = 2 * math.sqrt(c1 * c2) * math.sin(math.radians(turn / 2))

    mean_light, mean_chroma = (l1 + l2) / 2, (c1 + c2) / 2
    t = (
        1
        - 0.17 * _cos(mean_hue - 30)
        + 0.24 * _cos(2 * mean_hue)
        + 0.32 * _cos(3 * mean_hue + 6)
        - 0.20 * _cos(4 * mean_hue - 63)
    )
    off = (mean_light - 50) ** 2
    s_light = 1 + 0.015 * off / math.sqrt(20 + off)
    s_chroma = 1 + 0.045 * mean_chroma
    s_hue = 1 + 0.015 * mean_chroma * t
    power = mean_chroma**7
    rotation = -2 * math.sqrt(power / (power + 25.0**7))
    rotation *= math.sin(math.radians(60 * math.exp(-(((mean_hue - 275) / 25) ** 2))))
    light, saturation, hue = d_light / s_light, d_chroma / s_chroma, d_hue / s_hue
    squared = light**2 + saturation**2 + hue**2 + rotation * saturation * hue
    return math.sqrt(max(0.0, squared))


def _hue(a: float, b: float) -> float:
    return math.degrees(math.atan2(b, a)) % 360 if a or b else 0.0


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))


# How linear red, green and blue look to people who lack one kind of cone, severity 1.0.
# Machado, Oliveira and Fernandes, IEEE TVCG 15(6), 2009, doi 10.1109/TVCG.2009.113.
_LACKING = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
LACKING = tuple(_LACKING)


@lru_cache(maxsize=16384)
def simulated(color: tuple[int, int, int], kind: str) -> tuple[int, int, int]:
    """An sRGB color in bytes as someone with that color-vision deficiency (of LACKING) sees it."""
    linear = [_linear(part / 255) for part in color]
    red, green, blue = (
        round(255 * _encoded(sum(weight * part for weight, part in zip(row, linear, strict=True))))
        for row in _LACKING[kind]
    )
    return red, green, blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4


def _encoded(part: float) -> float:
    part = min(1.0, max(0.0, part))
    return 12.92 * part if part <= 0.0031308 else 1.055 * part ** (1 / 2.4) - 0.055


@lru_cache(maxsize=8192)
def difference(one: tuple[int, int, int], two: tuple[int, int, int]) -> float:
    """CIEDE2000 of two sRGB colors given as bytes."""
    return ciede2000(_lab_of_bytes(one), _lab_of_bytes(two))


@lru_cache(maxsize=4096)
def _lab_of_bytes(color: tuple[int, int, int]) -> tuple[float, float, float]:
    return lab(tuple(part / 255 for part in color))
