"""Text -> lines: words, some of them bold, broken to a width and set on base lines. mm throughout."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from printkit import letters
from printkit.pieces import Color, Text
from printkit.texts import Catalogue
from printkit.units import micrometres

LEAD = 1.4
"""Distance of base lines as a share of the size."""
_BASE = 0.97
"""The base line below the top of its line: ascenders (0.78 em) and descenders (0.24) in the middle."""
_SLACK = 1e-6
_TURN = "\x01"
_CODE = re.compile("`([^`]*)`")
# A number stays with its unit, and both sides of a times sign stay together.
_JOINED = re.compile(r"(?<=[\d.]) (?=(?:mm|in|g/m²|lb|%)(?:\W|$))| (?=×)|(?<=×) ")


@dataclass(frozen=True, kw_only=True, slots=True)
class Style:
    """How a text is set: mm an em, colour, all of it bold or not."""

    size: float
    color: Color
    bold: bool = False

    @property
    def step(self) -> float:
        """From one base line to the next, in mm."""
        return self.size * LEAD


Word = tuple[tuple[str, bool], ...]
"""What stands between two spaces: stretches of text, each bold or not."""


def say(texts: Catalogue, key: str, **values: Any) -> str:
    """A sentence of the catalogue, its **bold** parts marked; a name's own stars stay stars.

    What stands in `backticks` is bold and is never broken.

    Raises KeyError for a gap in the catalogue.
    """
    return _filled(texts.find(key), values)


def say_all(texts: Catalogue, key: str, **values: Any) -> tuple[str, ...]:
    """The sentences of a list in the catalogue; a single sentence counts as a list of one."""
    found = texts.find(key)
    several = [found] if isinstance(found, str) else found
    return tuple(_filled(line, values) for line in several)


def say_count(texts: Catalogue, key: str, n: int, **values: Any) -> str:
    """The form for one or for several of something: `key.one`, `key.other`."""
    return say(texts, f"{key}.{'one' if n == 1 else 'other'}", n=n, **values)


def _filled(line: Any, values: dict[str, Any]) -> str:
    marked = _CODE.sub(lambda code: bold(code[1].replace(" ", "\xa0")), str(line).replace("**", _TURN))
    return marked.format(**values)


def bold(text: str) -> str:
    """The text, marked to be set bold."""
    return f"{_TURN}{text}{_TURN}"


def words(text: str, style: Style) -> list[Word]:
    """The words of a text, in order."""
    kept = _JOINED.sub("\xa0", text)
    found: list[list[tuple[str, bool]]] = [[]]
    for number, stretch in enumerate(kept.split(_TURN)):
        heavy = style.bold or number % 2 == 1
        for place, part in enumerate(re.split(r"[ \n\t]+", stretch)):
            if place:
                found.append([])
            if part:
                found[-1].append((part.replace("\xa0", " "), heavy))
    return [tuple(word) for word in found if word]


def _wide(word: Word, size: float) -> float:
    return sum(letters.text_width(text, size, bold=heavy) for text, heavy in word)


def _broken(word: Word, size: float, width: float) -> Iterator[Word]:
    """A word wider than a line, in parts that are not, after a hyphen or full stop if it has one."""
    if _wide(word, size) <= width + _SLACK:
        yield word
        return
    line: list[tuple[str, bool]] = []
    for sign in ((sign, heavy) for text, heavy in word for sign in text):
        if line and _wide((*line, sign), size) > width:
            end = max((i for i, (text, _) in enumerate(line, 1) if text in "-."), default=len(line))
            yield tuple(line[:end])
            line = line[end:]
        line.append(sign)
    yield tuple(line)


def broken(text: str, style: Style, width: float) -> list[list[Word]]:
    """The lines of a text, each at most `width` mm wide."""
    space = letters.text_width(" ", style.size, bold=style.bold)
    lines: list[list[Word]] = [[]]
    used = 0.0
    for whole in words(text, style):
        for part in _broken(whole, style.size, width):
            wide = _wide(part, style.size)
            if lines[-1] and used + space + wide > width + _SLACK:
                lines.append([])
                used = 0.0
            used += wide + (space if lines[-1] else 0.0)
            lines[-1].append(part)
    return lines


def width_of(text: str, style: Style) -> float:
    """The width of a text on one line."""
    found = words(text, style)
    space = letters.text_width(" ", style.size, bold=style.bold)
    return sum(_wide(word, style.size) for word in found) + space * max(0, len(found) - 1)


def set_line(line: Sequence[Word], style: Style, x: float, top: float = 0.0) -> tuple[Text, ...]:
    """One line with its left end at `x`, its line box beginning at `top`."""
    runs: list[tuple[str, bool]] = []
    for number, word in enumerate(line):
        for place, (text, heavy) in enumerate(word):
            lead = " " if number and not place else ""
            if runs and runs[-1][1] == heavy:
                runs[-1] = (runs[-1][0] + lead + text, heavy)
            else:
                if lead and runs:
                    runs[-1] = (runs[-1][0] + lead, runs[-1][1])
                runs.append((text, heavy))
    marks = []
    pen, base = x, micrometres(top + _BASE * style.size)
    for text, heavy in runs:
        run = letters.run(text, style.size, bold=heavy)
        marks.append(Text(run=run, x=micrometres(pen), y=base, color=style.color))
        pen += run.width
    return tuple(marks)


def set_text(text: str, style: Style, x: float, width: float, top: float = 0.0) -> tuple[Text, ...]:
    """All lines of a text, one under the other."""
    return tuple(
        mark
        for number, line in enumerate(broken(text, style, width))
        for mark in set_line(line, style, x, top + number * style.step)
    )
