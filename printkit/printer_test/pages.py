"""The two pages of the printer test: what stands where on them, so that grids lie behind crosses."""

from collections.abc import Callable
from dataclasses import replace

from printkit import letters
from printkit.pieces import Mark
from printkit.printer_test.edges import edges
from printkit.printer_test.patterns import (
    LABEL,
    REACH,
    bars,
    cross,
    fine_lines,
    grays,
    grid,
    small_letters,
    upright,
)
from printkit.printer_test.setting import Sheet, between, entry, form, form_width, title, writing
from printkit.sheets.model import Bookmark, Page
from printkit.texts import Catalogue, catalogue
from printkit.units import micrometres

_SHARE, _MOST, _LEAST = 1 / 58, 5.2, 1.7
"""The body: that share of the paper's width, at most and at least so many mm an em; the largest that fits."""
_ABOVE, _BELOW = 14.5, 15.5
"""mm above and below the middle of crosses and grids that they need."""
_AIR = 4.0
"""The most that is added above an entry, as a share of the size of the text."""
_SPARE = 2.6
"""What a page with a column for titles keeps for air, as a share of the size of the text."""
_ENTRIES = 2
"""So many stand above the crosses and grids, and so many below."""
_BESIDE = 15.0
"""mm at the right of the text that the upright bar needs."""

Part = tuple[list[Mark], float]
"""Marks, and how far down they reach."""


def test_pages(paper: tuple[float, float], flip: str, language: str = "en") -> tuple[Page, Page]:
    """Front and back of the test. Read upright, crosses and grids lie behind each other.

    Over the short edge ('short') what is at the top of the front lies at the foot of the back.
    """
    texts = catalogue(language)
    size = _size(paper, texts, flip)
    sheets = _sheets(paper, texts, flip, size)
    middles = _middles(sheets)[:2]
    parts = ((_front_above, _front_below), (_back_above, _back_below))
    front, back = (
        Page(
            width=paper[0],
            height=paper[1],
            side=sheet.side,
            marks=(*edges(*paper), *_marks(sheet, *drawn, middle)),
            bookmarks=(Bookmark(title=sheet.say(sheet.side)),),
        )
        for sheet, drawn, middle in zip(sheets, parts, middles, strict=True)
    )
    return front, back


def _sheets(paper: tuple[float, float], texts: Catalogue, flip: str, size: float) -> tuple[Sheet, Sheet]:
    front = Sheet(width=paper[0], height=paper[1], size=size, flip=flip, texts=texts, side="front")
    return front, replace(front, side="back")


def _size(paper: tuple[float, float], texts: Catalogue, flip: str) -> float:
    """The largest body text with which neither page runs over."""
    low, high = _LEAST, round(min(paper[0] * _SHARE, _MOST), 2)
    if _fits(_sheets(paper, texts, flip, high)):
        return high
    while high - low > 0.03:
        size = round((low + high) / 2, 2)
        low, high = (size, high) if _fits(_sheets(paper, texts, flip, size)) else (low, size)
    return low


def _fits(sheets: tuple[Sheet, Sheet]) -> bool:
    front = sheets[0]
    return _middles(sheets)[2] >= (_SPARE * front.size if front.wide else 0.0)


def _middles(sheets: tuple[Sheet, Sheet]) -> tuple[float, float, float]:
    """How far down crosses and grids have their middles, and the mm to spare on the fuller page."""
    front, back = sheets
    least = [_front_above(front)[1] + _ABOVE, _back_above(back)[1] + _ABOVE]
    most = [front.room.bottom - end for end in (_front_below(front, 0.0)[1], _back_below(back, 0.0)[1])]
    # Turned over the short edge, what lies y mm from the top is y mm from the foot of the other side.
    if front.flip == "short":
        low, high = max(least[0], front.height - most[1]), min(most[0], front.height - least[1])
        middle = micrometres((low + high) / 2)
        return middle, micrometres(front.height - middle), high - low
    low, high = max(least), min(most)
    middle = micrometres(low + min((high - low) / 2, _ENTRIES * _AIR * front.size))
    return middle, middle, high - low


def _marks(
    sheet: Sheet, above: Callable[[Sheet], Part], below: Callable[[Sheet, float], Part], middle: float
) -> tuple[Mark, ...]:
    """The two parts of a page, with the air there is spread among their entries."""
    over = _aired(sheet, (middle - _ABOVE - above(sheet)[1]) / (_ENTRIES + 0.6))
    under = _aired(sheet, (sheet.room.bottom - below(sheet, middle)[1]) / _ENTRIES)
    return (*above(over)[0], *below(under, middle)[0])


def _aired(sheet: Sheet, air: float) -> Sheet:
    return replace(sheet, air=micrometres(max(0.0, min(air, _AIR * sheet.size))))


# --- the front -------------------------------------------------------------------------------


def _front_above(sheet: Sheet) -> Part:
    marks = [*title(sheet)]
    top = entry(marks, sheet, 1, "print", f"print.{sheet.flip}", sheet.room.top + 3.4 * sheet.size)
    begin = micrometres(top + sheet.air)
    top = micrometres(entry(marks, sheet, 2, "scale", "scale", top, less=_BESIDE))
    marks += bars(sheet.left, top, sheet.say("bar_mm"), sheet.say("bar_in"))
    marks += upright(micrometres(sheet.room.right - 1.6), micrometres(begin + 0.5), sheet.say("bar_mm"))
    return marks, max(top + 9.0, begin + 51.0 - _ABOVE - _BELOW)


def _front_below(sheet: Sheet, middle: float) -> Part:
    left, right = sheet.targets
    marks = [mark for x in (left, right) for mark in cross(x, middle)]
    lines = letters.wrap(sheet.say("crosses"), 0.85 * sheet.size, right - left - 30.0)
    marks += between(sheet, lines, sheet.width / 2, middle)
    top = entry(marks, sheet, 3, "margin", "margin", middle + _BELOW)
    marks += form(sheet.say("margin_fields"), sheet.size, sheet.left, top, sheet.blank)
    top = writing(marks, sheet, "margin", top + 1.9 * sheet.style.step)
    top = micrometres(entry(marks, sheet, 4, "fine", "fine", top))
    wide = sheet.room.right - sheet.left
    marks += grays(sheet.left, top, wide)
    marks += fine_lines(sheet.left, micrometres(top + 11.0), wide, sheet.texts)
    marks += small_letters(sheet.left, micrometres(top + 17.0), wide)
    return marks, top + 23.0


# --- the back --------------------------------------------------------------------------------


def _back_above(sheet: Sheet) -> Part:
    marks = [*title(sheet)]
    top = entry(marks, sheet, 5, "far", f"far_{sheet.flip}", sheet.room.top + 3.4 * sheet.size)
    return marks, entry(marks, sheet, 6, "read", "read", top)


def _back_below(sheet: Sheet, middle: float) -> Part:
    size, (left, right) = 0.95 * sheet.size, sheet.targets
    marks = [mark for x in (left, right) for mark in grid(x, middle)]
    free = left + REACH, right - REACH - LABEL
    marks += between(sheet, sheet.texts.find("printer_test.legend"), sum(free) / 2, middle)
    top = middle + _BELOW + 0.4
    for x, key in ((left, "grid_left"), (right, "grid_right")):
        line, blank = sheet.say(key), 0.8 * sheet.blank
        marks += form(line, size, x - form_width(line, size, blank) / 2, top, blank)
    top = entry(marks, sheet, 7, "askew", "askew", top + 2.6 * size)
    top = entry(marks, sheet, 8, "shift", "shift", top)
    return marks, writing(marks, sheet, "shift", top)
