"""Tracing cards: one big numeral for a finger or a pen, its words below."""

from collections.abc import Callable
from typing import Any

from printkit import letters
from printkit.letters import traced as pen
from printkit.letters.helps import BESIDE
from printkit.letters.strokes import ASCENDER
from printkit.letters.traced import Style
from printkit.materials.base import Made, Need, Room, problem, refused
from printkit.materials.layout import INK, SOFT, accent, content, fits_sheet, hairline, set_marked
from printkit.materials.tracing.plan import Texts
from printkit.materials.tracing.rows import em, has_strokes
from printkit.pack import Tray
from printkit.pieces import Face, Line, Mark, Piece, Text
from printkit.units import micrometres

LOWEST, HIGHEST, USUAL = 60.0, 150.0, 80.0
"""Heights of a card's numeral in mm."""
NAMED = {"small": 60.0, "medium": 80.0, "large": 120.0}
_AIR = 7.0
"""mm free round the numeral, inside the hairline."""
_WORD = 9.0
"""mm a line of words takes."""


def card_made(
    tray: Tray, room: Room, texts: Texts, facts: Callable[..., Any], notes: tuple[str, ...]
) -> Made:
    """A card for each number, all of one size."""
    asked = tray.settings.line_height
    if tray.settings.rows is not None:
        return refused(problem(tray, "rows", "a card has no rows", "no rows, or another form"))
    if asked is not None and not LOWEST <= asked <= HIGHEST:
        found = f"{asked:g} mm is no height for a card's numeral"
        return refused(problem(tray, "line_height", found, f"{LOWEST:g} to {HIGHEST:g} mm"))
    size, height = _measures(tray, room, texts, asked)
    if height < LOWEST or not fits_sheet(size, room):
        key = "size" if tray.size is not None else "line_height" if asked else "paper"
        return refused(_too_large(tray, room, texts, key, asked))
    pieces = [_piece(tray, size, height, texts, number, facts) for number in texts.numbers]
    return Made(pieces=tuple(set_marked(pieces)), needs=(Need(what="wipe-off pen", count=1),), notes=notes)


def _measures(tray: Tray, room: Room, texts: Texts, asked: float | None) -> tuple[tuple[float, float], float]:
    """The size of the cards and the height of their numerals."""
    if isinstance(tray.size, tuple):
        return tray.size, asked or _largest(texts, lambda height: _within(texts, height, tray.size))
    if tray.size is not None:
        height = asked or NAMED[tray.size]
        return _size(texts, height), height
    if asked:
        return _size(texts, asked), asked
    half = Room(room.width, room.height / 2)
    two = _largest(texts, lambda height: fits_sheet(_size(texts, height), half), USUAL)
    fitting = two or _largest(texts, lambda height: fits_sheet(_size(texts, height), room), USUAL)
    return _size(texts, fitting), fitting


def _largest(texts: Texts, fits: Callable[[float], bool], most: float = HIGHEST) -> float:
    """The largest whole height at which something fits, 0 if none does."""
    return next((float(h) for h in range(int(most), int(LOWEST) - 1, -1) if fits(float(h))), 0.0)


def _within(texts: Texts, height: float, size: tuple[float, float]) -> bool:
    wide, high = _size(texts, height)
    return wide <= size[0] + 1e-6 and high <= size[1] + 1e-6


def _size(texts: Texts, height: float) -> tuple[float, float]:
    """The smallest card for numerals of that height."""
    widest = max(_wide(str(number), height, texts) for number in texts.numbers)
    outside = content((100.0, 100.0))
    edge = 100.0 - outside.width
    words = _WORD * (len(texts.columns) - 1)
    above = _above(texts, height)
    high = 100.0 - outside.height + 2 * _AIR + above + height + _below(height) + words
    return micrometres(max(texts.narrowest, widest + edge + 2 * _AIR)), micrometres(high)


def _wide(text: str, height: float, texts: Texts) -> float:
    if has_strokes(text, texts.writing.numerals):
        aside = BESIDE * height / ASCENDER if texts.writing.help == "arrows" else 0.0
        return pen.width(text, _style(texts, height)) + 2 * aside + pen.ROAD_WIDE * height
    left, _, right, _ = letters.run(text, em(height), numerals=texts.writing.numerals).ink
    return right - left


def _above(texts: Texts, height: float) -> float:
    """What signs and the line itself take over the top line."""
    signed = texts.writing.help == "arrows"
    highest = max(pen.reach(str(number), signed, texts.writing.numerals)[0] for number in texts.numbers)
    return max(highest * height, pen.ROAD_WIDE * height / 2) + 1.0


def _below(height: float) -> float:
    return pen.ROAD_WIDE * height / 2 + 3.0


def _style(texts: Texts, height: float) -> Style:
    return Style(height=height, manner="road", signs=texts.writing.help, numerals=texts.writing.numerals)


def _too_large(tray: Tray, room: Room, texts: Texts, key: str, asked: float | None):
    most = _largest(texts, lambda height: fits_sheet(_size(texts, height), room))
    wide, high = _size(texts, asked or LOWEST)
    found = f"a numeral {asked or LOWEST:g} mm high needs a card of {wide:.1f} x {high:.1f} mm"
    if key == "line_height" and most:
        return problem(tray, key, found, f"at most {most:g} mm")
    if key == "size" and most:
        return problem(tray, key, found, f"at least that, or no size: {most:g} mm fits this paper")
    return problem(tray, key, found, "larger paper, or numbers with fewer figures")


def _piece(tray: Tray, size, height: float, texts: Texts, number: int, facts) -> Piece:
    text, *words = texts.of(number)
    inside = content(size)
    marks: list[Mark] = [hairline(size, accent(tray))]
    lines = _WORD * len(words)
    above, below = _above(texts, height), _below(height)
    spare = inside.height - (2 * _AIR + above + height + below + lines)
    base = micrometres(inside.top + _AIR + above + height + spare / 2)
    for y in (base - height, base):
        y = micrometres(y)
        marks.append(Line(x1=inside.left, y1=y, x2=inside.right, y2=y, color=SOFT, line=0.2))
    marks.append(_numeral(text, inside, base, height, texts))
    for line, word in enumerate(words, 1):
        run = letters.fit(word, inside.width - 4, 6.5, most=7.0)
        left, _, right, _ = run.ink
        x = inside.left + (inside.width - (right - left)) / 2 - left
        y = base + below + line * _WORD - 2.5
        marks.append(Text(run=run, x=micrometres(x), y=micrometres(y), color=INK))
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=str(number),
        width=size[0],
        height=size[1],
        front=Face(marks=tuple(marks)),
        facts=facts(numeral=number, words=dict(zip(tray.child.languages, words, strict=True))),
        stock=tray.stock,
    )


def _numeral(text: str, inside, base: float, height: float, texts: Texts) -> Mark:
    if has_strokes(text, texts.writing.numerals):
        style = _style(texts, height)
        x = inside.left + (inside.width - pen.width(text, style)) / 2
        return pen.traced(text, style, micrometres(x), base)
    numerals = texts.writing.numerals
    left, _, right, _ = letters.run(text, em(height), numerals=numerals).ink
    x = inside.left + (inside.width - (right - left)) / 2 - left
    return letters.hollow(
        text, em(height), micrometres(x), base, color=pen.TRACE, width=0.5, numerals=numerals
    )
