"""The number of each cut, small and light beside the end of its line, wherever the paper is left over there.

A number lies on no piece, within the margins, above the foot, and clear of every line. A cut between pieces
that leave no room goes without: the guide has a drawing with the numbers too.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from printkit import letters
from printkit.pieces import Text
from printkit.sheets.grid import Frame
from printkit.sheets.model import Cut
from printkit.units import Rect, micrometres

_SIZE = 1.7
"""mm an em: under 5 pt."""
_INK = (0.5,)
_CLEAR = 1.15
"""mm between a number and any line."""
_APART = 0.6


def numbered(
    cuts: Sequence[Cut], boxes: Sequence[Rect], frame: Frame
) -> tuple[tuple[Cut, ...], tuple[Text, ...]]:
    """The cuts, each with the box of its number if there is room for one, and the numbers themselves."""
    usable = Rect(frame.margin, frame.margin, *frame.room)
    lines = [_drawn(cut, frame) for cut in cuts]
    taken = [line.inset(-_CLEAR) for line in lines] + list(boxes)
    named: list[Cut] = []
    marks: list[Text] = []
    for cut, line in zip(cuts, lines, strict=True):
        run = letters.run(str(cut.n), _SIZE)
        left, top, right, bottom = run.ink
        size = (right - left, bottom - top)
        there = next(
            (
                box
                for box in _places(line, size)
                if usable.holds(box) and not any(box.meets(other) for other in taken)
            ),
            None,
        )
        if there is None:
            named.append(cut)
            continue
        box = Rect(*(micrometres(value) for value in there))
        named.append(replace(cut, number=box))
        taken.append(box.inset(-_APART))
        mark = Text(run=run, x=micrometres(box.left - left), y=micrometres(box.top - top), color=_INK)
        marks.append(mark)
    return tuple(named), tuple(marks)


def _drawn(cut: Cut, frame: Frame) -> Rect:
    """What of a cut is drawn: within the margins."""
    left, top = max(cut.x1, frame.margin), max(cut.y1, frame.margin)
    right = min(cut.x2, frame.width - frame.margin)
    return Rect(left, top, right - left, min(cut.y2, frame.height - frame.margin) - top)


def _places(line: Rect, size: tuple[float, float]) -> Iterator[Rect]:
    """Where the number of a line may stand: beyond either end and a little aside, or beside it there.

    Straight beyond its end it could be taken for one dash more.
    """
    width, height = size
    away, aside = _CLEAR + 0.01, 0.5
    if line.width:
        beside = (line.top - aside - height, line.top + aside)
        for x in (line.right + away, line.left - away - width):
            yield from (Rect(x, y, *size) for y in beside)
        for x in (line.right - width - away, line.left + away):
            yield Rect(x, line.top - away - height, *size)
            yield Rect(x, line.top + away, *size)
        return
    beside = (line.left + aside, line.left - aside - width)
    for y in (line.top - away - height, line.bottom + away):
        yield from (Rect(x, y, *size) for x in beside)
    for y in (line.top + away, line.bottom - away - height):
        yield Rect(line.left + away, y, *size)
        yield Rect(line.left - away - width, y, *size)
