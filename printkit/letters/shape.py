"""Text -> runs: shaped with HarfBuzz, measured once, in the units the writer draws in."""

from collections.abc import Iterable
from functools import cache
from itertools import pairwise

from printkit.letters.faces import BOLD, REGULAR, face, font_of, is_plain
from printkit.letters.numerals import PLAIN_NUMERALS, Numerals
from printkit.letters.scripts import stretches
from printkit.pieces import Color, Hollow, Run, Span

Glyph = tuple[int, float, float, float, str]
Ink = tuple[float, float, float, float]

_FIGURE_SIDE = 55.0
"""White on either side of a figure within a numeral, in 1/1000 em: the typeface's own figures all
have the width of a 0, which makes 11 fall apart."""

_OVERSHOOT = 40.0
"""How far round figures reach below the base line at most, in 1/1000 em; more is a tail."""

_MIRRORED = str.maketrans("()[]{}<>«»‹›", ")(][}{><»«›‹")
"""Drawn as each other in text from the right (Unicode, Bidi_Mirroring_Glyph)."""


def _glyphs(text: str, font: str, features: tuple[str, ...], turned: bool) -> list[Glyph]:
    """The glyphs of a text of one face and direction, from left to right, in 1/1000 em."""
    import uharfbuzz

    opened = face(font)
    scale = 1000 / opened.face.upem
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    buffer.direction = "rtl" if turned else "ltr"
    buffer.language = "en"  # else that of the machine
    # A child must see each letter by itself: no joined fi or fl.
    uharfbuzz.shape(opened, buffer, {"liga": False, **dict.fromkeys(features, True)})
    infos, positions = buffer.glyph_infos or [], buffer.glyph_positions or []
    ends = dict(pairwise([*sorted({info.cluster for info in infos}), len(text)]))
    glyphs, told = [], set()
    for info, position in zip(infos, positions, strict=True):
        stands_for = "" if info.cluster in told else text[info.cluster : ends[info.cluster]]
        told.add(info.cluster)
        stands_for = stands_for.translate(_MIRRORED) if turned else stands_for
        glyphs.append(
            _glyph(
                info.codepoint,
                position.x_advance * scale,
                position.x_offset * scale,
                position.y_offset * scale,
                stands_for,
            )
        )
    return glyphs


@cache
def _glyph(glyph: int, advance: float, dx: float, dy: float, text: str) -> Glyph:
    """The one such glyph: a pack has a million of a hundred different ones."""
    return (glyph, advance, dx, dy, text)


def _scaled(glyph: Glyph, scale: float) -> Glyph:
    return (glyph[0], glyph[1] * scale, glyph[2] * scale, glyph[3] * scale, glyph[4])


def _even(glyphs: Iterable[Glyph], font: str, times: float = 1.0) -> list[Glyph]:
    """Figures with the same white on either side of each."""
    opened = face(font)
    scale = times * 1000 / opened.face.upem
    placed = []
    for glyph, advance, dx, dy, text in glyphs:
        extents = opened.get_glyph_extents(glyph)
        if extents:
            dx = _FIGURE_SIDE - extents.x_bearing * scale
            advance = 2 * _FIGURE_SIDE + extents.width * scale
        placed.append((glyph, advance, dx, dy, text))
    return placed


def _standing(glyphs: list[Glyph], span: Span) -> list[Glyph]:
    """A numeral raised so that its lowest figure stands on the base line, as it has a rule there."""
    depth = -_box([(span, glyphs)])[1][3]
    lift = depth if depth > _OVERSHOOT else 0.0
    return [(glyph, advance, dx, dy + lift, text) for glyph, advance, dx, dy, text in glyphs]


def _box(spans: Iterable[tuple[Span, list[Glyph]]]) -> tuple[float, Ink]:
    """Advance and ink box (left, top, right, bottom; y up) of glyphs that stand side by side."""
    pen = 0.0
    left = bottom = float("inf")
    right = top = float("-inf")
    for span, glyphs in spans:
        opened = face(span.font)
        scale = span.scale * 1000 / opened.face.upem
        for glyph, advance, dx, dy, _ in glyphs:
            extents = opened.get_glyph_extents(glyph)
            if glyph and extents and extents.width:
                start = pen + dx + extents.x_bearing * scale
                peak = dy + extents.y_bearing * scale
                left, right = min(left, start), max(right, start + extents.width * scale)
                top, bottom = max(top, peak), min(bottom, peak + extents.height * scale)
            pen += advance
    return pen, (left, top, right, bottom) if right > left else (0.0, 0.0, 0.0, 0.0)


@cache
def _shaped(
    text: str, base: str, numerals: Numerals | None
) -> tuple[tuple[Glyph, ...], tuple[Span, ...], float, Ink]:
    """Glyphs, spans (none where `base` draws all), advance and ink box, all in 1/1000 em, y up."""
    features = (numerals or PLAIN_NUMERALS).features()
    even = numerals is not None and text.isdecimal()
    if is_plain(text):
        glyphs = _glyphs(text, base, features, False)
        glyphs = _even(glyphs, base) if even else glyphs
        return (tuple(glyphs), (), *_box([(Span(font=base, glyphs=len(glyphs)), glyphs)]))
    parts = []
    for stretch in stretches(text, base):
        own = features if stretch.font == base else ()
        glyphs = _glyphs(stretch.text, stretch.font, own, stretch.turned)
        said = "" if stretch.turned or _tells(glyphs, stretch.font) else stretch.text
        scale = _figure_scale(numerals.digits, base) if even and text[0] in numerals.digits else 1.0
        if even:
            glyphs = _even((_scaled(glyph, scale) for glyph in glyphs), stretch.font, scale)
            glyphs = _standing(glyphs, Span(font=stretch.font, glyphs=len(glyphs), scale=scale))
        parts.append((Span(font=stretch.font, glyphs=len(glyphs), scale=scale, said=said), glyphs))
    all_glyphs = tuple(glyph for _, glyphs in parts for glyph in glyphs)
    return (all_glyphs, tuple(span for span, _ in parts), *_box(parts))


@cache
def _figure_scale(digits: str, base: str) -> float:
    """How much larger digits of another script are drawn, so that they are as high as the western."""
    highest = max(_digit_height(digit) for digit in digits)
    return numeral_ratio(bold=base == BOLD) / highest


def _digit_height(digit: str) -> float:
    opened = face(font_of(digit))
    return opened.get_glyph_extents(opened.get_nominal_glyph(ord(digit))).y_bearing / opened.face.upem


def _tells(glyphs: Iterable[Glyph], font: str) -> bool:
    """Whether each glyph is the one of its letter, so that together they tell the text."""
    opened = face(font)
    return font in (REGULAR, BOLD) or all(
        len(text) == 1 and opened.get_nominal_glyph(ord(text)) == glyph for glyph, *_, text in glyphs
    )


def run(text: str, size: float, *, bold: bool = False, numerals: Numerals | None = None) -> Run:
    """`text` shaped at `size` mm an em: in the infant letterform, other scripts in a face of their own.

    With `numerals` it is a numeral (or a word) for the child: its figures have those digits and forms
    and stand evenly; without, it is running text. What no face has is a glyph 0, drawn as white.
    Only the infant letterform has a bold.
    """
    text = numerals.written(text) if numerals else text
    glyphs, spans, advance, (left, top, right, bottom) = _shaped(text, BOLD if bold else REGULAR, numerals)
    unit = size / 1000
    return Run(
        text=text,
        font=spans[0].font if spans else BOLD if bold else REGULAR,
        size=size,
        glyphs=glyphs,
        width=advance * unit,
        ink=(left * unit, -top * unit, right * unit, -bottom * unit),
        spans=spans,
    )


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """The advance of `text` in mm at `size` mm an em."""
    return _shaped(text, BOLD if bold else REGULAR, None)[2] * size / 1000


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
