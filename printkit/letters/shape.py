"""Text -> runs: shaped with HarfBuzz, measured once, in the units the writer draws in."""

from functools import cache
from itertools import pairwise
from typing import Any

from printkit.letters.numerals import PLAIN_NUMERALS, Numerals
from printkit.pieces import Color, Hollow, Run
from printkit.resources import resource

REGULAR, BOLD = "Andika-Regular", "Andika-Bold"


_FIGURE_SIDE = 55.0
"""White on either side of a figure within a numeral, in 1/1000 em: the typeface's own figures all
have the width of a 0, which makes 11 fall apart."""


@cache
def _face(font: str) -> Any:
    import uharfbuzz

    blob = uharfbuzz.Blob.from_file_path(str(resource(f"fonts/{font}.ttf")))
    return uharfbuzz.Font(uharfbuzz.Face(blob))


@cache
def _shaped(text: str, font: str, numerals: Numerals | None) -> tuple[Any, float, tuple[float, ...]]:
    """Glyphs, advance and ink box (left, top, right, bottom; y up), all in 1/1000 em."""
    features = (numerals or PLAIN_NUMERALS).features()
    import uharfbuzz

    face = _face(font)
    scale = 1000 / face.face.upem
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    # A child must see each letter by itself: no joined fi or fl.
    uharfbuzz.shape(face, buffer, {"liga": False, **dict.fromkeys(features, True)})
    infos, positions = buffer.glyph_infos or [], buffer.glyph_positions or []
    ends = dict(pairwise([*sorted({info.cluster for info in infos}), len(text)]))
    glyphs, told, pen = [], set(), 0.0
    even = numerals is not None and text.isdecimal()
    left = bottom = float("inf")
    right = top = float("-inf")
    for info, position in zip(infos, positions, strict=True):
        stands_for = "" if info.cluster in told else text[info.cluster : ends[info.cluster]]
        told.add(info.cluster)
        advance, dx, dy = (
            position.x_advance * scale,
            position.x_offset * scale,
            position.y_offset * scale,
        )
        extents = face.get_glyph_extents(info.codepoint)
        if even and extents:
            dx, advance = (
                _FIGURE_SIDE - extents.x_bearing * scale,
                2 * _FIGURE_SIDE + extents.width * scale,
            )
        glyphs.append((info.codepoint, advance, dx, dy, stands_for))
        if extents and extents.width:
            start = pen + dx + extents.x_bearing * scale
            peak = dy + extents.y_bearing * scale
            left, right = min(left, start), max(right, start + extents.width * scale)
            top, bottom = max(top, peak), min(bottom, peak + extents.height * scale)
        pen += advance
    ink = (left, top, right, bottom) if right > left else (0.0, 0.0, 0.0, 0.0)
    return tuple(glyphs), pen, ink


def run(text: str, size: float, *, bold: bool = False, numerals: Numerals | None = None) -> Run:
    """`text` shaped at `size` mm an em in the infant letterform.

    With `numerals` it is a numeral (or a word) for the child: its figures have those forms and stand
    evenly; without, it is running text.
    """
    font = BOLD if bold else REGULAR
    glyphs, advance, (left, top, right, bottom) = _shaped(text, font, numerals)
    unit = size / 1000
    return Run(
        text=text,
        font=font,
        size=size,
        glyphs=glyphs,
        width=advance * unit,
        ink=(left * unit, -top * unit, right * unit, -bottom * unit),
    )


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """The advance of `text` in mm at `size` mm an em."""
    return _shaped(text, BOLD if bold else REGULAR, None)[1] * size / 1000


def fit(
    text: str,
    width: float,
    height: float,
    *,
    most: float = 1000.0,
    bold: bool = False,
    numerals: Numerals | None = None,
) -> Run:
    """The largest run of `text` (at most `most` mm an em) whose ink fits `width` x `height` mm."""
    at_one = run(text, 1.0, bold=bold, numerals=numerals)
    left, top, right, bottom = at_one.ink
    size = min(most, width / max(right - left, 1e-9, at_one.width), height / max(bottom - top, 1e-9))
    return run(text, size, bold=bold, numerals=numerals)


def shrink_to(texts: tuple[str, ...], width: float, most: float, *, bold: bool = False) -> float:
    """The largest size, at most `most`, at which the widest of `texts` is at most `width` mm wide."""
    widest = max((text_width(text, 1.0, bold=bold) for text in texts), default=0.0)
    return min(most, width / widest) if widest else most


def hollow(
    text: str,
    size: float,
    x: float,
    y: float,
    *,
    color: Color,
    width: float,
    numerals: Numerals = PLAIN_NUMERALS,
) -> Hollow:
    """The outlines of the typeface's letters, to colour in, with their pen's start at (x, y)."""
    return Hollow(run=run(text, size, numerals=numerals), x=x, y=y, color=color, width=width)


def missing(text: str) -> str:
    """The characters of `text` that the typeface cannot draw, each once, in order."""
    import unicodedata

    drawable = (
        char for char in dict.fromkeys(text) if not char.isspace() and unicodedata.category(char) != "Cf"
    )
    return "".join(char for char in drawable if not _face(REGULAR).get_nominal_glyph(ord(char)))


def wrap(text: str, size: float, width: float, *, bold: bool = False) -> tuple[str, ...]:
    """`text` broken at its spaces into lines of at most `width` mm; a longer word stands alone."""
    space = text_width(" ", size, bold=bold)
    lines: list[str] = []
    line, used = [], 0.0
    for word in text.split(" "):
        wide = text_width(word, size, bold=bold)
        if line and used + space + wide > width:
            lines.append(" ".join(line))
            line, used = [], 0.0
        used += wide + (space if line else 0.0)
        line.append(word)
    lines.append(" ".join(line))
    return tuple(lines)


@cache
def _height(text: str, bold: bool) -> float:
    return -run(text, 1.0, bold=bold).ink[1]


def numeral_ratio(*, bold: bool = False) -> float:
    """Height of a numeral's ink above the base line, as a share of the em (7 has no overshoot)."""
    return _height("7", bold)


def ascender_ratio() -> float:
    """Height of l above the base line, as a share of the em."""
    return max(_height("l", False), _height("d", False))


def x_height_ratio() -> float:
    """Height of x above the base line, as a share of the em."""
    return _height("x", False)


@cache
def descender_ratio() -> float:
    """Depth of p and g below the base line, as a share of the em."""
    return max(run(letter, 1.0).ink[3] for letter in "gpqyj")


@cache
def glyph_advance(font: str, glyph: int) -> float:
    """The unshaped advance of a glyph in 1/1000 em."""
    face = _face(font)
    return face.get_glyph_h_advance(glyph) * 1000 / face.face.upem
