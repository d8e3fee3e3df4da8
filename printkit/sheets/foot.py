"""The strip under the pieces: two bars to measure the print by, and what sheet this is.

The set mark of each piece is made here too: both are small lines that say where paper belongs.
"""

from dataclasses import replace

from printkit import letters
from printkit.pieces import Face, Line, Mark, Piece, Text
from printkit.sheets.grid import Frame
from printkit.sheets.model import FOOT
from printkit.units import MM_PER_INCH, Rect, micrometres

_INK = (0.35,)
_TEXT = 2.5
_LABEL = 1.9
_MARK = 2.1
_MARK_INSET = 6.0
_MARK_INK = (0.4,)
_MARK_FRONT = (0.55,)
"""Paler beside the pictures of a front."""


def front_foot(frame: Frame, text: str, bar_mm: str, bar_in: str, first: str = "") -> tuple[Mark, ...]:
    """The foot of a front: what sheet it is, a bar of 50 mm and one of 2 inches.

    `first` says which edge goes in first when the paper is fed again by hand; an arrow shows it.
    """
    left, top = frame.margin, frame.foot
    width = frame.room[0]
    marks = [_line(text, left, top + 3.1, width), *_bar(left, top + 4.9, 50.0, bar_mm)]
    marks += _bar(left, top + 7.2, 2 * MM_PER_INCH, bar_in)
    return (*marks, *_arrow(frame, top + FOOT - 0.6, first))


def back_foot(
    frame: Frame,
    text: str,
    flipped_short: bool,
    first: str = "",
    shift: tuple[float, float] = (0.0, 0.0),
) -> tuple[Mark, ...]:
    """The foot of a back, behind that of its front: which sheet it belongs to.

    `shift` moves it to the right and down with the backs above it, but never into the margin.
    """
    top = frame.margin if flipped_short else frame.foot
    line = _line(text, frame.margin, top + 3.1, frame.room[0])
    return (_within(frame, line, *shift), *_arrow(frame, top + FOOT - 0.6, first))


def _within(frame: Frame, line: Text, right: float, down: float) -> Text:
    """The line moved as far as it goes within the margins."""
    ink, room = line.bounds(), Rect(frame.margin, frame.margin, frame.room[0], frame.room[1] + FOOT)
    right = min(max(right, room.left - ink.left), room.right - ink.right)
    down = min(max(down, room.top - ink.top), room.bottom - ink.bottom)
    return replace(line, x=micrometres(line.x + right), y=micrometres(line.y + down))


def _line(text: str, x: float, y: float, width: float) -> Text:
    size = letters.shrink_to((text,), width, _TEXT)
    return Text(run=letters.run(text, size), x=x, y=y, color=_INK)


def _bar(left: float, y: float, length: float, label: str) -> tuple[Mark, ...]:
    right = left + length
    return (
        Line(x1=left, y1=y, x2=right, y2=y, color=_INK, line=0.25),
        Line(x1=left, y1=y - 0.6, x2=left, y2=y + 0.6, color=_INK, line=0.2),
        Line(x1=right, y1=y - 0.6, x2=right, y2=y + 0.6, color=_INK, line=0.2),
        Text(run=letters.run(label, _LABEL), x=right + 1.5, y=y + 0.65, color=_INK),
    )


def _arrow(frame: Frame, base: float, text: str) -> tuple[Mark, ...]:
    """An upward arrow at the right with its text, when there is one."""
    if not text:
        return ()
    right = frame.width - frame.margin
    x, tip = right - 1.4, base - 4.0
    size = letters.shrink_to((text,), max(10.0, frame.room[0] - 68.0), 2.3)
    run = letters.run(text, size)
    return (
        Line(x1=x, y1=base, x2=x, y2=tip, color=_INK, line=0.4),
        Line(x1=x, y1=tip, x2=x - 1.1, y2=tip + 1.5, color=_INK, line=0.4),
        Line(x1=x, y1=tip, x2=x + 1.1, y2=tip + 1.5, color=_INK, line=0.4),
        Text(run=run, x=micrometres(x - 2.5 - run.width), y=base - 0.3, color=_INK),
    )


def with_mark(piece: Piece, backs: bool) -> Piece:
    """The piece with its set mark in the lower left corner: on the back, or on the front if one-sided."""
    if not piece.mark or not piece.cut:
        return piece
    size = letters.shrink_to((piece.mark,), piece.width - 2 * _MARK_INSET, _MARK)
    mark = Text(
        run=letters.run(piece.mark, size),
        x=_MARK_INSET,
        y=micrometres(piece.height - _MARK_INSET - 0.3 * size),
        color=_MARK_INK,
    )
    if piece.back is not None and backs:
        return replace(piece, back=_added(piece.back, mark))
    return replace(piece, front=_added(piece.front, replace(mark, color=_MARK_FRONT)))


def _added(face: Face, mark: Mark) -> Face:
    return replace(face, marks=(*face.marks, mark))
