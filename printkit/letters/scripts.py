"""A text of several scripts -> stretches of one face and one direction, in the order they are drawn.

The order is that of the Unicode Bidirectional Algorithm (UAX #9) for plain lines, with two rules of
our own: a line runs from the right only when most of its letters do, and a number, range or sum
written in figures is one stretch that always runs from the left.
"""

import re
import unicodedata
from dataclasses import dataclass
from itertools import groupby, pairwise

from printkit.letters.faces import REGULAR, has, script_of

# Figures with what ties them into one: 3.5, 1-10, 12/3, 5 − 3 = 2.
_FIGURES = re.compile(r"\d+(?:(?:[.,:/'’-]|\s?[+−–×÷=<>]\s?)\d+)*")


@dataclass(frozen=True, kw_only=True, slots=True)
class Stretch:
    """Letters of one face and direction, shaped at one go; `turned` when they run from the right."""

    text: str
    font: str
    turned: bool


def stretches(text: str, base_font: str = REGULAR) -> tuple[Stretch, ...]:
    """The parts of `text` from left to right; what belongs to no script is drawn with `base_font`."""
    fonts, levels = _fonts(text, base_font), _levels(text)
    order = []
    for (font, level), group in groupby(range(len(text)), key=lambda place: (fonts[place], levels[place])):
        places = list(group)
        part = text[places[0] : places[-1] + 1]
        order.append((level, Stretch(text=part, font=font, turned=level % 2 == 1)))
    for least in range(max(levels, default=0), 0, -1):
        order = _turn(order, least)
    return tuple(stretch for _, stretch in order)


def _turn(order: list[tuple[int, Stretch]], least: int) -> list[tuple[int, Stretch]]:
    """Each row of neighbours of at least that level, turned round (UAX #9, rule L2)."""
    turned: list[tuple[int, Stretch]] = []
    for deep, row in groupby(order, key=lambda item: item[0] >= least):
        items = list(row)
        turned += reversed(items) if deep else items
    return turned


# --- faces -----------------------------------------------------------------------------------


def _fonts(text: str, base: str) -> list[str]:
    """The face of each character. Marks and spaces within one script are drawn with its face."""
    own = [_own_font(char, base) for char in text]
    before: list[str | None] = []
    last = None
    for char, font in zip(text, own, strict=True):
        if font is None and unicodedata.category(char) in ("Mn", "Mc", "Me", "Cf"):
            font = last  # goes with the letter it stands on
        last = font or last
        before.append(last)
    after: list[str | None] = []
    last = None
    for font in reversed(own):
        last = font or last
        after.append(last)
    after.reverse()
    return [
        font or _common_font(char, one, two, base)
        for char, font, one, two in zip(text, own, before, after, strict=True)
    ]


def _own_font(char: str, base: str) -> str | None:
    script = script_of(char)
    if script:
        return script.font
    return base if char.isalnum() else None


def _common_font(char: str, before: str | None, after: str | None, base: str) -> str:
    mark = unicodedata.category(char) in ("Mn", "Mc", "Me", "Cf")
    if before and (mark or before == after) and (has(before, char) or unicodedata.category(char) == "Cf"):
        return before
    return base


# --- directions ------------------------------------------------------------------------------


def _levels(text: str) -> list[int]:
    """Even: from the left; odd: from the right; higher: inside the other (UAX #9)."""
    kinds = _kinds(text)
    base = 1 if kinds.count("R") > kinds.count("L") else 0
    return _base_right(kinds) if base else _base_left(kinds)


def _kinds(text: str) -> list[str]:
    """R and L for letters, N for figures and what ties them, a space for all else."""
    kinds = [_kind(char) for char in text]
    for found in _FIGURES.finditer(text):
        kinds[found.start() : found.end()] = "N" * (found.end() - found.start())
    for place, char in enumerate(text):
        if place and unicodedata.category(char) in ("Mn", "Me", "Cf"):
            kinds[place] = kinds[place - 1]
    return kinds


def _kind(char: str) -> str:
    if char.isdecimal():
        return "N"
    script = script_of(char)
    if not char.isalpha():
        return " "
    return "R" if script and script.turned else "L"


def _base_right(kinds: list[str]) -> list[int]:
    """Letters from the left are islands, with the figures behind them and the marks between; figures too."""
    strong, behind = "R", []
    for kind in kinds:
        strong = kind if kind in "LR" else strong
        behind.append("L" if kind == "N" and strong == "L" else kind)
    return [1 if kind in "R " else 2 for kind in _filled(behind, "L")]


def _base_left(kinds: list[str]) -> list[int]:
    """Letters from the right are islands; marks and figures between two of them go with them."""
    filled = _filled(kinds, "R")
    return [1 if kind == "R" else 2 if kind == "n" else 0 for kind in filled]


def _filled(kinds: list[str], island: str) -> list[str]:
    """Marks between two letters of an island belong to it, and figures there stand in it as 'n'."""
    filled = list(kinds)
    places = [place for place, kind in enumerate(kinds) if kind == island]
    for one, two in pairwise(places):
        between = kinds[one + 1 : two]
        if all(kind in " N" for kind in between):
            filled[one + 1 : two] = [island if kind == " " else "n" for kind in between]
    return filled
