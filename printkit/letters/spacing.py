"""Optical spacing: the white between neighbouring strokes is equal, not the distance of their boxes."""

import unicodedata
from functools import cache

from printkit.letters import paths
from printkit.letters.numerals import PLAIN_NUMERALS, Numerals
from printkit.letters.strokes import letter

_WHITE = 4.6
"""The mean white between two letters, in units of the grid (found by looking)."""
_DEEPEST = 3.2
"""White deeper than this behind a letter's foremost point counts no further: it belongs to the letter."""
_CLOSEST = 3.0
"""Strokes of two letters are never nearer than this."""
_FIGURES = 4.6
"""Figures stand wider apart: each is read by itself."""
_APOSTROPHE = 1.8
_SPACE = 9.0
_BAND = 1.0
_LOW, _HIGH = -11, 27


@cache
def _sides(character: str, numerals: Numerals) -> tuple[tuple[float | None, float | None], ...]:
    """For each band of height: the leftmost and the rightmost point of the letter there."""
    bands: list[list[float]] = [[] for _ in range(_LOW, _HIGH)]
    drawn = letter(character, numerals)
    for stroke in drawn.strokes if drawn else ():
        points = [stroke.dot] if stroke.dot else paths.flat(stroke.curves, 0.5)
        for x, y in points:
            bands[min(max(int((y - _LOW) // _BAND), 0), len(bands) - 1)].append(x)
    return tuple((min(band), max(band)) if band else (None, None) for band in bands)


@cache
def distance(first: str, second: str, numerals: Numerals) -> float:
    """From the origin of one letter to that of the next."""
    left, right = _sides(first, numerals), _sides(second, numerals)
    edge = max((hi for _, hi in left if hi is not None), default=0.0)
    start = min((lo for lo, _ in right if lo is not None), default=0.0)
    body = range(-_LOW, -_LOW + 10)  # the zone of x decides, as in reading
    if not any(right[i][0] is not None for i in body) or not any(left[i][1] is not None for i in body):
        return edge - start + _APOSTROPHE  # an apostrophe stands between its neighbours, over none
    white = [
        min(_DEEPEST, edge - left[i][1] if left[i][1] is not None else _DEEPEST)
        + min(_DEEPEST, right[i][0] - start if right[i][0] is not None else _DEEPEST)
        for i in body
    ]
    gap = _WHITE - 0.75 * sum(white) / len(white)
    step = edge - start + gap
    nearest = min(
        (
            right[j][0] - left[i][1]
            for i in range(len(left))
            if left[i][1] is not None
            for j in range(max(0, i - 2), min(len(right), i + 3))
            if right[j][0] is not None
        ),
        default=None,
    )
    closest = _FIGURES if first.isdecimal() else _CLOSEST
    return step if nearest is None else max(step, closest - nearest)


@cache
def laid(
    text: str, numerals: Numerals = PLAIN_NUMERALS, extra: float = 0.0
) -> tuple[tuple[tuple[str, float], ...], float]:
    """Where each letter of a text begins, and how far its centre lines reach, in units of the grid.

    `extra` is put between all letters, as room for signs beside the strokes.
    """
    places: list[tuple[str, float]] = []
    x, before = 0.0, ""
    for char in unicodedata.normalize("NFC", text):
        if char == " ":
            before = ""
            x += _SPACE + (_end(places, numerals) - x if places else 0.0)
            continue
        if before:
            x += distance(before, char, numerals) + extra
        elif places:
            x -= min((lo for lo, _ in _sides(char, numerals) if lo is not None), default=0.0)
        places.append((char, x))
        before = char
    first = (
        min((lo for lo, _ in _sides(places[0][0], numerals) if lo is not None), default=0.0) if places else 0
    )
    shifted = tuple((char, at - first) for char, at in places)
    return shifted, _end(places, numerals) - first


def _end(places: list[tuple[str, float]], numerals: Numerals) -> float:
    """The rightmost point of what was laid so far."""
    return max(
        (at + hi for char, at in places[-3:] for _, hi in _sides(char, numerals) if hi is not None),
        default=0.0,
    )
