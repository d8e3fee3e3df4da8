"""Stroke letterforms: character -> the pen's paths on a grid of three equal zones.

Base line 0, height of x 10, ascenders and numerals 20, descenders -10, y up. Marks are strokes of
their own and are placed by anchors, so that every accented letter composes. The data lies in
fonts/strokes/; a file of the same form may replace single letters.
"""

import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from printkit.letters import paths
from printkit.letters.numerals import PLAIN_NUMERALS, Numerals
from printkit.letters.paths import Curve, PathError, Point
from printkit.resources import resource

X_HEIGHT, ASCENDER, DESCENDER = 10.0, 20.0, -10.0
_FILES = ("latin.toml", "cyrillic.toml")
_SIDE = 0.3
_MARKS = {
    "\u0300": "grave",
    "\u0301": "acute",
    "\u0302": "circumflex",
    "\u0303": "tilde",
    "\u0304": "macron",
    "\u0306": "breve",
    "\u0307": "dot-above",
    "\u0308": "diaeresis",
    "\u0309": "hook-above",
    "\u030a": "ring",
    "\u030b": "double-acute",
    "\u030c": "caron",
    "\u031b": "horn",
    "\u0323": "dot-below",
    "\u0326": "comma-below",
    "\u0327": "cedilla",
    "\u0328": "ogonek",
}
_COMMA_BELOW = frozenset("gkklnrGKLNR")
"""With a cedilla in Unicode, with a comma in print: the Latvian letters (Unicode chart U+0100)."""
_CARON_BESIDE = frozenset("dltL")
"""With a caron in Unicode, with an apostrophe in print: Czech and Slovak (Unicode chart U+0100)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Stroke:
    """What is drawn without lifting the pen: parts that each begin on the ink of an earlier one.

    A dot has no parts, only its place. `mark` is true for strokes of accents and of punctuation.
    """

    parts: tuple[tuple[Curve, ...], ...] = ()
    dot: Point | None = None
    mark: bool = False

    @property
    def curves(self) -> tuple[Curve, ...]:
        return tuple(curve for part in self.parts for curve in part)


@dataclass(frozen=True, kw_only=True, slots=True)
class Letter:
    """A character's strokes in their order, and its width in units of the grid."""

    character: str
    width: float
    strokes: tuple[Stroke, ...]


def parse(character: str, described: str) -> Letter:
    """A letter from its line of data, 'width: path ; path'. Raises PathError."""
    head, colon, tail = described.partition(":")
    try:
        width = float(head)
    except ValueError:
        width = -1.0
    if not colon or not 0 <= width <= 40:
        raise PathError("a letter is 'width: path', with a width from 0 to 40")
    return Letter(character=character, width=width, strokes=_strokes(tail, mark=not character.isalnum()))


def _strokes(text: str, mark: bool = False) -> tuple[Stroke, ...]:
    found = []
    for each in text.split(";"):
        read = [paths.read(part) for part in each.split(">")]
        dot = read[0][1]
        if dot is not None:
            found.append(Stroke(dot=dot, mark=mark))
        else:
            found.append(Stroke(parts=tuple(curves for curves, _ in read), mark=mark))
    return tuple(found)


@cache
def _data(file: str) -> dict[str, Any]:
    import tomllib

    return tomllib.loads(resource(f"fonts/strokes/{file}").read_text(encoding="utf-8"))


@cache
def _own() -> Mapping[str, str]:
    """All letters of the data: character -> its line."""
    return {character: line for file in _FILES for character, line in _data(file)["letters"].items()}


@cache
def letter(character: str, numerals: Numerals = PLAIN_NUMERALS) -> Letter | None:
    """The strokes of one character (with its marks), or None if the data has no such letter."""
    if own := dict(numerals.strokes).get(character):
        return parse(character, own)
    for name, numeral, chosen in (
        ("one-foot", "1", numerals.one == "foot"),
        ("four-open", "4", numerals.four == "open"),
        ("seven-barred", "7", numerals.seven == "barred"),
    ):
        if chosen and character == numeral:
            return parse(character, _data("latin.toml")["numerals"][name])
    line = _own().get(character)
    if line is not None:
        return _scaled(character, line) if line.startswith("=") else parse(character, line)
    base, *marks = unicodedata.normalize("NFD", character)
    if not marks or any(each not in _MARKS for each in marks) or not letter(base, numerals):
        return None
    return _composed(character, base, [_MARKS[each] for each in marks], numerals)


def _scaled(character: str, line: str) -> Letter:
    _, name, wide, high = line.split()
    sx, sy = float(wide), float(high)
    like = letter(name)
    if like is None:
        raise PathError(f"'{character}' is drawn like '{name}', which is not there")
    if sx == sy == 1:
        return Letter(character=character, width=like.width, strokes=like.strokes)
    strokes = tuple(
        Stroke(
            parts=tuple(
                tuple(tuple((x * sx, y * sy) for x, y in curve) for curve in part)  # type: ignore[misc]
                for part in stroke.parts
            ),
            dot=(stroke.dot[0] * sx, stroke.dot[1] * sy) if stroke.dot else None,
            mark=stroke.mark,
        )
        for stroke in like.strokes
    )
    return Letter(character=character, width=like.width * sx, strokes=strokes)


def _composed(character: str, base: str, marks: list[str], numerals: Numerals) -> Letter:
    dotless = {"i": "ı", "j": "ȷ", "і": "ı", "ј": "ȷ"}
    above = any(_mark(name)[0] == "above" for name in marks)
    plain = letter(dotless.get(base, base) if above else base, numerals)
    assert plain is not None
    strokes = list(plain.strokes)
    lift = 0.0
    shift = 0.0
    for name in marks:
        name = _printed(name, base)
        kind, parts = _mark(name)
        x, y = _anchor(kind, base, plain.width)
        strokes += [_placed(stroke, x + shift, y + lift) for stroke in parts]
        if kind == "above" and name == "circumflex":
            shift, lift = 4.6, 1.6  # a second mark stands at the right shoulder of the first
        elif kind == "above":
            lift += 4.6
    return Letter(character=character, width=plain.width, strokes=tuple(strokes))


def _printed(name: str, base: str) -> str:
    """The form a mark has in print with that letter."""
    if name == "caron" and base in _CARON_BESIDE:
        return "caron-beside"
    if name == "cedilla" and base in _COMMA_BELOW:
        return "turned-comma" if base == "g" else "comma-below"
    return name


@cache
def _mark(name: str) -> tuple[str, tuple[Stroke, ...]]:
    kind, _, path = _data("marks.toml")["marks"][name].partition(":")
    return kind, _strokes(path, mark=True)


def _anchor(kind: str, base: str, width: float) -> Point:
    own = _data("marks.toml")["anchors"].get(kind, {}).get(base)
    if own:
        return (own[0], own[1])
    if kind == "above":
        return (width / 2, X_HEIGHT if base.islower() else ASCENDER)
    if kind == "beside":
        return (width, ASCENDER)
    return (width if kind == "foot" else width / 2, 0.0)


def _placed(stroke: Stroke, dx: float, dy: float) -> Stroke:
    return Stroke(
        parts=tuple(paths.moved(part, dx, dy) for part in stroke.parts),
        dot=(stroke.dot[0] + dx, stroke.dot[1] + dy) if stroke.dot else None,
        mark=True,
    )


def lacking(text: str, numerals: Numerals = PLAIN_NUMERALS) -> str:
    """The characters of `text` that have no strokes, each once, in order; a space needs none."""
    every = dict.fromkeys(unicodedata.normalize("NFC", text))
    return "".join(char for char in every if char != " " and not letter(char, numerals))


_BLOCKS = ((0xC0, 0x250), (0x400, 0x530), (0x1E00, 0x1F00))
"""Latin, Cyrillic and their letters with marks, as Unicode has them."""


def characters() -> tuple[str, ...]:
    """Every character that can be drawn: those of the data in their order, then those with marks."""
    composed = (chr(code) for first, last in _BLOCKS for code in range(first, last))
    return tuple(dict.fromkeys((*_own(), *(char for char in composed if letter(char)))))


def bounds(letters: Iterable[Letter]) -> tuple[float, float]:
    """The lowest and the highest point of the letters' centre lines."""
    heights = [
        y
        for each in letters
        for stroke in each.strokes
        for _, y in ([stroke.dot] if stroke.dot else paths.flat(stroke.curves))
    ]
    return min(heights, default=0.0), max(heights, default=0.0)
