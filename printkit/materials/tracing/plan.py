"""How the rows and pictures of a tracing strip lie, and how large they can be in a given space.

From top to bottom: rows for the numeral, then rows for the word in each language. The things lie
beside the rows of the numeral, or in a band above them, or are left out.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from printkit.materials.layout import SMALLEST_THING, content
from printkit.materials.strips import groups as groups
from printkit.materials.strips.groups import Shape
from printkit.materials.tracing.rows import Row, Span, Writing, copies, fillings, reach
from printkit.units import Rect, micrometres

Mode = Literal["beside", "above", "none"]

LARGEST_THING = 13.0
_PLEASING = 6.5
"""mm: smaller things are drawn only where there is no room for more."""
_LEAST_GAP = 0.5
"""Space between two rows, in line heights (common practice)."""
_BETWEEN = 0.1
"""What lies at least between ink of two rows, in line heights."""
_ITEM_GAP = 0.15
"""What more lies between the rows of two words, in line heights."""
_SHARE = 0.44
"""The part of the width that things beside the numeral take."""
_PAD = 1.5
"""mm that the ground of a set with 0 needs around its things."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Texts:
    """What is written for each number of a set: its numeral and its words, in order, and how.

    `leftward` tells of the numeral and of each language whether its rows run from the right; `large` is
    the size in mm to which things grow for a child who needs that, `narrowest` the least width of a card.
    """

    numbers: tuple[int, ...]
    items: tuple[tuple[str, ...], ...]
    writing: Writing
    leftward: tuple[bool, ...]
    large: float = 0.0
    narrowest: float = 62.0

    def of(self, number: int) -> tuple[str, ...]:
        return self.items[self.numbers.index(number)]

    @property
    def columns(self) -> tuple[tuple[str, ...], ...]:
        """All numerals, all words of the first language, all of the second."""
        return tuple(zip(*self.items, strict=True))


@dataclass(frozen=True, kw_only=True, slots=True)
class Things:
    """The size of the set's things and the place where they lie."""

    box: Rect
    size: float
    across: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Plan:
    """What all strips of a set share."""

    size: tuple[float, float]
    height: float
    rows: int
    gap: float
    mode: Mode
    top: float
    spans: tuple[Span, ...]
    extra: tuple[bool, ...]
    things: Things | None


def inner(size: tuple[float, float]) -> Rect:
    """The part of a strip that is drawn on: a little air inside the hairline."""
    box = content(size)
    return Rect(box.left + 2.0, box.top + 2.0, box.width - 4.0, box.height - 3.0)


AROUND = 18.0
"""mm of a strip's height that lie outside `inner`: insets, air and the place of the set mark."""


def planned(
    width: float, limit: float, height: float, rows: int, mode: Mode, texts: Texts, shape: Shape,
    *, fill: bool,
) -> Plan | None:  # fmt: skip
    """The plan of strips `width` mm wide and at most `limit` mm high, or None if it does not fit.

    `height` is the line height; `fill` makes the strip `limit` high and spreads the rows over it.
    """
    for thing in _thing_sizes(mode, fill, texts.large):
        spans = _spans(inner((width, 100.0)), mode, len(texts.columns))
        found = _with_things(width, limit, height, rows, mode, texts, shape, spans, thing, fill)
        if found:
            return found
    return None


def _thing_sizes(mode: Mode, fill: bool, large: float = 0.0) -> tuple[float, ...]:
    """Sizes of things tried in turn, in mm; where a sheet is to be filled, large ones first."""
    if mode == "none":
        return (0.0,)
    if large:
        return (large, 0.8 * large, 12.0, _PLEASING, SMALLEST_THING)
    return (13.0, 11.0, 9.0, _PLEASING, SMALLEST_THING) if fill else (_PLEASING, SMALLEST_THING)


def _spans(box: Rect, mode: Mode, items: int) -> tuple[Span, ...]:
    full = Span(left=box.left, right=box.right)
    left = box.left + _SHARE * box.width + 5.0 if mode == "beside" else box.left
    return (Span(left=left, right=box.right), *((full,) * (items - 1)))


def _with_things(width, limit, height, rows, mode, texts, shape, spans, thing, fill) -> Plan | None:
    columns = texts.columns
    counts = [
        [copies(text, height, span.room, texts.writing) for text in column]
        for column, span in zip(columns, spans, strict=True)
    ]
    if min(min(column) for column in counts) < 1 or (mode == "beside" and min(counts[0]) < 3):
        return None
    extra = tuple(min(column) < 2 for column in counts)
    lines = [rows + more for more in extra]
    written = [text for column in columns for text in column]
    up, down = reach(written, height, texts.writing)
    plain, _ = reach(written, height, replace(texts.writing, help="none"))
    # Signs stand on first rows only; the row before is empty, unless each text has one row.
    over = max(plain + down, up) if rows > 1 else up + down
    gap = max(_LEAST_GAP * height, over + _BETWEEN * height)
    box = inner((width, limit))
    most = max(texts.numbers)
    pad = _PAD if min(texts.numbers) == 0 else 0.0
    band = _band(most, box.width - 2 * pad, shape, thing) + 2 * pad + 5.0 if mode == "above" else 0.0
    if mode == "above" and band == 2 * pad + 5.0 and most:
        return None
    between = len(columns) - 1
    used = band + up + sum(lines) * height + (sum(lines) - 1) * gap + between * _ITEM_GAP * height + down
    if used > box.height + 1e-6:
        return None
    if fill:
        gap += (box.height - used) / max(1, sum(lines) - 1)
    size = (micrometres(width), limit if fill else micrometres(used + AROUND))
    things = None
    if mode != "none":
        inside = inner(size)
        place = (
            Rect(inside.left, inside.top, inside.width, band - 5.0)
            if mode == "above"
            else Rect(
                inside.left,
                inside.top + up,
                _SHARE * inside.width,
                lines[0] * height + (lines[0] - 1) * gap,
            )
        )
        things = _things(most, place.inset(pad), shape, thing, texts.large)
        if things is None:
            return None
    return Plan(
        size=size, height=height, rows=rows, gap=gap, mode=mode,
        top=inner(size).top + band + up, spans=spans, extra=extra, things=things,
    )  # fmt: skip


def _blocks(most: int) -> range:
    return range(max(1, -(-most // 10)), 0, -1)


def _band(most: int, width: float, shape: Shape, thing: float) -> float:
    """The height of a band for `most` things, as many tens side by side as fit; 0 if none does."""
    for across in _blocks(most):
        wide, high = groups.extent(most, across, shape)
        if wide * thing <= width:
            return high * thing
    return 0.0


def _things(most: int, box: Rect, shape: Shape, least: float, large: float) -> Things | None:
    """The largest things of which `most` lie in the box, if they are not under `least`."""
    if not most:
        return Things(box=box, size=least, across=1)
    sizes = {
        across: groups.largest((most,), across, shape, box.width, box.height) for across in _blocks(most)
    }
    best = max(sizes, key=sizes.__getitem__)
    size = min(max(LARGEST_THING, large), sizes[best])
    if size < least - 1e-6:
        return None
    return Things(box=box, size=max(least, int(size * 100) / 100), across=best)


def rows_of(plan: Plan, number: int, texts: Texts) -> Iterator[Row]:
    """The rows of one strip from top to bottom."""
    top = plan.top
    columns = zip(texts.of(number), plan.spans, plan.extra, texts.leftward, strict=True)
    for text, span, extra, leftward in columns:
        long = copies(text, plan.height, span.room, texts.writing) < 2
        for line, filled in enumerate(fillings(plan.rows, long=long, extra=extra)):
            yield Row(
                text=text,
                filled=filled,
                span=span,
                top=micrometres(top),
                first=not line,
                leftward=leftward,
            )
            top += plan.height + plan.gap
        top += _ITEM_GAP * plan.height
