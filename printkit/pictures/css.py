"""The words inside SVG attributes: numbers with units, transforms, paints, declarations."""

import colorsys
import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from printkit.pictures.colors import from_hex, plain
from printkit.pictures.tree import UnusableError
from printkit.pieces import BLACK, Color

MAX_NUMBER = 1e7

# CSS 2.1 absolute units at 96 to the inch; em and ex for the default font of 16.
_UNITS = {
    "": 1.0, "px": 1.0, "pt": 96 / 72, "pc": 16.0, "in": 96.0, "mm": 96 / 25.4, "cm": 96 / 2.54,
    "q": 96 / 101.6, "em": 16.0, "rem": 16.0, "ex": 8.0,
}  # fmt: skip

_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_CALL = re.compile(r"(?<![A-Za-z])([A-Za-z]+)\s*\(([^()]*)\)")
_URL = re.compile(r"url\(\s*[\"']?#([^\"')]*?)[\"']?\s*\)")

INHERITED = frozenset(
    {
        "clip-rule", "color", "fill", "fill-opacity", "fill-rule", "marker", "marker-end", "marker-mid",
        "marker-start", "paint-order", "stroke", "stroke-dasharray", "stroke-dashoffset",
        "stroke-linecap", "stroke-linejoin",
        "stroke-miterlimit", "stroke-opacity", "stroke-width", "visibility",
    }
)  # fmt: skip
_OWN = frozenset(
    {
        "clip-path", "display", "filter", "mask", "mix-blend-mode", "opacity", "overflow", "stop-color",
        "stop-opacity", "transform",
    }
)  # fmt: skip
PROPERTIES = INHERITED | _OWN


Style = dict[str, str]


# --- numbers ---------------------------------------------------------------------------------


def bounded(value: float) -> float:
    """The number itself, or UnusableError when it is too large to draw with."""
    if not abs(value) < MAX_NUMBER:
        raise UnusableError("the drawing holds a number that is too large", f"up to {MAX_NUMBER:,.0f}")
    return value


def length(text: str | None, default: float = 0.0, whole: float = 1.0) -> float:
    """A length in user units; a percentage is taken of `whole`; `default` for what cannot be read."""
    match = _NUMBER.match(text.strip()) if text else None
    if match is None or text is None:
        return default
    unit = text.strip()[match.end() :].strip().lower()
    factor = whole / 100 if unit == "%" else _UNITS.get(unit)
    return default if factor is None else bounded(float(match[0]) * factor)


def numbers(text: str | None) -> list[float]:
    """All the numbers in a list such as a viewBox or the points of a polygon."""
    return [bounded(float(number)) for number in _NUMBER.findall(text or "")]


def share(text: str | None) -> float:
    """An opacity, 0 to 1; 1 for what cannot be read."""
    return min(1.0, max(0.0, length(text, 1.0, 1.0)))


@lru_cache(maxsize=256)
def transform(text: str | None) -> Any:
    """A fontTools Transform for the value of a transform attribute."""
    from fontTools.misc.transform import Transform

    result = Transform()
    if not text:
        return result
    for name, inside in _CALL.findall(text):
        a = numbers(inside)
        match name, len(a):
            case "matrix", 6:
                result = result.transform(a)
            case "translate", 1 | 2:
                result = result.translate(a[0], a[1] if len(a) == 2 else 0)
            case "scale", 1 | 2:
                result = result.scale(a[0], a[-1])
            case "rotate", 1:
                result = result.rotate(math.radians(a[0]))
            case "rotate", 3:
                result = result.translate(a[1], a[2]).rotate(math.radians(a[0]))
                result = result.translate(-a[1], -a[2])
            case "skewX", 1:
                result = result.skew(math.radians(a[0]), 0)
            case "skewY", 1:
                result = result.skew(0, math.radians(a[0]))
    return result


# --- paint -----------------------------------------------------------------------------------

Tint = tuple[Color, float]


@dataclass(frozen=True, kw_only=True, slots=True)
class Reference:
    """A paint that is defined elsewhere in the drawing, and what stands in when it is not there."""

    id: str
    otherwise: Tint | None


def paint(text: str, current: Tint = (BLACK, 1.0)) -> Tint | Reference | None:
    """The color and alpha of a fill or stroke; a Reference for url(#id); None for none."""
    text = text.strip()
    match = _URL.match(text)
    if match:
        rest = text[match.end() :].strip()
        otherwise = paint(rest, current) if rest else None
        return Reference(id=match[1], otherwise=otherwise if isinstance(otherwise, tuple) else None)
    return tint(text, current)


def target(text: str | None) -> str:
    """The id in url(#id), or ''."""
    match = _URL.match((text or "").strip())
    return match[1] if match else ""


@lru_cache(maxsize=1024)
def tint(text: str, current: Tint = (BLACK, 1.0)) -> Tint | None:
    """A plain color with its alpha; None for 'none'; black for what cannot be read."""
    text = text.strip()
    word = text.lower()
    if word in ("", "none", "transparent"):
        return None
    if word == "currentcolor":
        return current
    if word.startswith("#"):
        return from_hex(text) or (BLACK, 1.0)
    call = _CALL.fullmatch(text)
    if call:
        return _color_function(call[1].lower(), call[2])
    return _named(word) or BLACK, 1.0


def _named(word: str) -> Color | None:
    """One of the color names of CSS, from pillow's table of them."""
    from PIL.ImageColor import getrgb

    try:
        red, green, blue = getrgb(word)[:3] if word.isalpha() else ()
    except ValueError:
        return None
    return plain((round(red / 255, 4), round(green / 255, 4), round(blue / 255, 4)))


def _color_function(name: str, inside: str) -> Tint:
    parts = [
        (float(match[0]), inside[match.end() :].lstrip()[:1] == "%") for match in _NUMBER.finditer(inside)
    ]
    if len(parts) < 3 or name not in ("rgb", "rgba", "hsl", "hsla"):
        return BLACK, 1.0
    alpha = 1.0
    if len(parts) > 3:
        alpha = _between(parts[3][0] / (100 if parts[3][1] else 1))
    if name.startswith("rgb"):
        values = [_between(value / (100 if percent else 255)) for value, percent in parts[:3]]
    else:
        hue, saturation, light = (value for value, _ in parts[:3])
        hls = (hue % 360 / 360, _between(light / 100), _between(saturation / 100))
        values = list(colorsys.hls_to_rgb(*hls))
    return plain(tuple(round(value, 4) for value in values)), alpha


def _between(value: float) -> float:
    return min(1.0, max(0.0, value))


# --- styles --------------------------------------------------------------------------------------


def declared(text: str) -> Style:
    """The known properties in 'name: value; name: value'."""
    found = {}
    for declaration in without_comments(text).split(";"):
        name, _, value = declaration.partition(":")
        value = value.replace("!important", "").strip()
        if value and name.strip() in PROPERTIES:
            found[name.strip()] = value
    return found


def inherit(above: Style, own: Style) -> Style:
    """The style of an element from that of its parent and what it says itself."""
    said = {key: value for key, value in own.items() if value != "inherit"}
    return {key: value for key, value in above.items() if key in INHERITED} | said


def without_comments(text: str) -> str:
    """CSS without what stands between /* and */."""
    return "".join(_outside(text.split("/*")))


def _outside(parts: list[str]) -> Iterable[str]:
    yield parts[0]
    for part in parts[1:]:
        yield part.partition("*/")[2]
