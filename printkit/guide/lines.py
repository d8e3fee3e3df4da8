"""Text -> lines: words, some bold, some in small gray, broken and set on base lines. mm throughout."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from printkit import letters
from printkit.pieces import Color, Text
from printkit.texts import BOLD, Catalogue
from printkit.texts import bold as bold
from printkit.units import micrometres

LEAD = 1.38
"""Distance of base lines as a share of the size."""
_BASE = 0.97
"""The base line below the top of its line: ascenders (0.78 em) and descenders (0.24) in the middle."""
_SLACK = 1e-6
_ASIDE = "\x02"
_CODE = re.compile(r"(\()?`([^`]*)`(?(1)\))")
QUIET: Color = (0.38,)
_SMALLER = 0.86
"""What is said aside, as a share of the size around it."""
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


Face = Literal["", "bold", "aside"]
Word = tuple[tuple[str, Face], ...]
"""What stands between two spaces: stretches of text, each with its face."""


def say(texts: Catalogue, key: str, **values: Any) -> str:
    """A sentence of the catalogue, its **bold** parts marked; a name's own stars stay stars.

    What stands in `backticks` is small and gray, its parentheses too, and is never broken.

    Raises KeyError for a gap in the catalogue.
    """
    return _filled(texts.find(key), texts.written(values))


def say_all(texts: Catalogue, key: str, **values: Any) -> tuple[str, ...]:
    """The sentences of a list in the catalogue; a single sentence counts as a list of one."""
    found = texts.find(key)
    several = [found] if isinstance(found, str) else found
    written = texts.written(values)
    return tuple(_filled(line, written) for line in several)


def say_count(texts: Catalogue, key: str, n: int, **values: Any) -> str:
    """The form for so many of something, by the language's plural forms: `key.one`, `key.other`."""
    return say(texts, texts.form(key, n), n=n, **values)


def _filled(line: Any, values: dict[str, Any]) -> str:
    marked = _CODE.sub(_code, str(line).replace("**", BOLD))
    return marked.format(**values)


def _code(found: re.Match[str]) -> str:
    kept = found[2].replace(" ", "\xa0")
    return aside(f"({kept})" if found[1] else kept)


def aside(text: str) -> str:
    """The text, marked to be set small and gray."""
    return f"{_ASIDE}{text}{_ASIDE}"


def words(text: str, style: Style) -> list[Word]:
    """The words of a text, in order."""
    kept = _JOINED.sub("\xa0", text)
    found: list[list[tuple[str, Face]]] = [[]]
    usual: Face = "bold" if style.bold else ""
    face = usual
    for stretch in re.split(f"([{BOLD}{_ASIDE}])", kept):
        if stretch in (BOLD, _ASIDE):
            turned: Face = "bold" if stretch == BOLD else "aside"
            face = usual if face == turned else turned
            continue
        for place, part in enumerate(re.split(r"[ \n\t]+", stretch)):
            if place:
                found.append([])
            if part:
                found[-1].append((part.replace("\xa0", " "), face))
    return [tuple(word) for word in found if word]


def _hand(style: Style, face: Face) -> Style:
    """How a stretch of that face is set amid text of a style."""
    if face == "aside":
        return Style(size=style.size * _SMALLER, color=QUIET)
    return Style(size=style.size, color=style.color, bold=face == "bold")


def _wide(word: Word, size: float) -> float:
    return sum(
        letters.text_width(text, size * (_SMALLER if face == "aside" else 1.0), bold=face == "bold")
        for text, face in word
    )


def _broken(word: Word, size: float, width: float) -> Iterator[Word]:
    """A word wider than a line, in parts that are not, after a hyphen or full stop if it has one."""
    if _wide(word, size) <= width + _SLACK:
        yield word
        return
    line: list[tuple[str, Face]] = []
    for sign in ((sign, face) for text, face in word for sign in text):
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
    runs: list[tuple[str, Face]] = []
    for number, word in enumerate(line):
        for place, (text, face) in enumerate(word):
            lead = " " if number and not place else ""
            if runs and runs[-1][1] == face:
                runs[-1] = (runs[-1][0] + lead + text, face)
            else:
                if lead and runs:
                    runs[-1] = (runs[-1][0] + lead, runs[-1][1])
                runs.append((text, face))
    marks = []
    pen, base = x, micrometres(top + _BASE * style.size)
    for text, face in runs:
        hand = _hand(style, face)
        run = letters.run(text, hand.size, bold=hand.bold)
        marks.append(Text(run=run, x=micrometres(pen), y=base, color=hand.color))
        pen += run.width
    return tuple(marks)


def set_text(text: str, style: Style, x: float, width: float, top: float = 0.0) -> tuple[Text, ...]:
    """All lines of a text, one under the other."""
    return tuple(
        mark
        for number, line in enumerate(broken(text, style, width))
        for mark in set_line(line, style, x, top + number * style.step)
    )
