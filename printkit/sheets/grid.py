"""Pieces -> rows on sheets, and the straight cuts that free them.

A sheet is a stack of rows; every piece of a row has one size. Neighbouring rows with the same
columns are one block: it is cut off whole, then into columns, then each column into pieces. That
needs the fewest cuts (columns first: C + 1 + C(R - 1); rows first: R - 1 + R(C + 1)).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from printkit.pieces import Piece
from printkit.sheets.model import FOOT, Cut, Placed
from printkit.units import Rect, micrometres

_SLACK = 2e-3  # two micrometres: lengths of pieces are rounded, those of papers need not be


@dataclass(frozen=True, kw_only=True, slots=True)
class Frame:
    """The paper and what of it can be used, in mm."""

    width: float
    height: float
    margin: float

    @property
    def room(self) -> tuple[float, float]:
        """Usable width and height: within the margins, above the foot."""
        return (
            micrometres(self.width - 2 * self.margin),
            micrometres(self.height - 2 * self.margin - FOOT),
        )

    @property
    def foot(self) -> float:
        """Where the foot begins, from the top of the page."""
        return micrometres(self.height - self.margin - FOOT)


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """Pieces side by side, all `width` x `height` mm on the sheet, `columns` of them when full."""

    pieces: tuple[Piece, ...]
    width: float
    height: float
    columns: int
    turned: bool


def turned_to_fit(piece: Piece, room: tuple[float, float]) -> bool | None:
    """Whether more such pieces fit a sheet turned than upright; None if not even one fits."""
    upright = _per_sheet(piece.width, piece.height, room)
    turned = _per_sheet(piece.height, piece.width, room)
    if not upright and not turned:
        return None
    return turned > upright


def _per_sheet(width: float, height: float, room: tuple[float, float]) -> int:
    return int((room[0] + _SLACK) // width) * int((room[1] + _SLACK) // height)


def rows(pieces: Sequence[Piece], room: tuple[float, float]) -> list[Row]:
    """The pieces in rows, in their order; every piece must fit (see `turned_to_fit`)."""
    made: list[Row] = []
    for piece in pieces:
        turned = bool(turned_to_fit(piece, room))
        width, height = (piece.height, piece.width) if turned else (piece.width, piece.height)
        last = made[-1] if made else None
        alike = last and (last.width, last.height, last.turned) == (width, height, turned)
        if alike and piece.cut and len(last.pieces) < last.columns:
            made[-1] = Row(
                pieces=(*last.pieces, piece),
                width=width,
                height=height,
                columns=last.columns,
                turned=turned,
            )
        else:
            columns = max(1, int((room[0] + _SLACK) // width))
            made.append(Row(pieces=(piece,), width=width, height=height, columns=columns, turned=turned))
    return made


def stacked(made: Sequence[Row], room_height: float) -> list[tuple[Row, ...]]:
    """The rows on sheets, in order; a sheet used uncut holds nothing else."""
    sheets: list[list[Row]] = []
    used = 0.0
    for row in made:
        whole = not row.pieces[0].cut
        alone = whole or (sheets and not sheets[-1][0].pieces[0].cut)
        if not sheets or alone or used + row.height > room_height + _SLACK:
            sheets.append([])
            used = 0.0
        sheets[-1].append(row)
        used += row.height
    return [tuple(sheet) for sheet in sheets]


def place(sheet: Sequence[Row], frame: Frame) -> tuple[Placed, ...]:
    """Where the pieces of a sheet's front lie.

    All rows begin at the left margin and the last one stands on the foot, so that one cut at the
    left and the one that takes the foot off serve every row; a sheet used whole begins at the top.
    """
    placed: list[Placed] = []
    top = _top(sheet, frame)
    for row in sheet:
        for number, piece in enumerate(row.pieces):
            box = Rect(
                micrometres(frame.margin + number * row.width), micrometres(top), row.width, row.height
            )
            placed.append(Placed(piece=piece, side="front", box=box, turn=90 if row.turned else 0))
        top += row.height
    return tuple(placed)


def _top(sheet: Sequence[Row], frame: Frame) -> float:
    """Where the first row begins."""
    if not sheet[0].pieces[0].cut:
        return frame.margin
    return max(frame.margin, frame.foot - sum(row.height for row in sheet))


_Line = tuple[float, float, float, float]


def cuts(sheet: Sequence[Row], frame: Frame) -> tuple[Cut, ...]:
    """The cuts of a sheet in order, each across the part still in hand.

    The first takes the foot off, the second the top, the third the left edge of all rows; then
    the blocks are parted, and each block is cut into columns and these into pieces.
    """
    if not sheet[0].pieces[0].cut:
        return ()
    left, top = frame.margin, _top(sheet, frame)
    lines: list[_Line] = [
        (0.0, frame.foot, frame.width, frame.foot),
        (0.0, top, frame.width, top),
        (left, top, left, frame.foot),
    ]
    inside: list[_Line] = []
    blocks = _blocks(sheet)
    for number, block in enumerate(blocks):
        last = number == len(blocks) - 1
        bottom = frame.foot if last else top + sum(row.height for row in block)
        if not last:
            lines.append((left, bottom, frame.width, bottom))
        inside += _block_cuts(block, left, top, bottom)
        top = bottom
    return tuple(
        Cut(n=n, x1=micrometres(x1), y1=micrometres(y1), x2=micrometres(x2), y2=micrometres(y2))
        for n, (x1, y1, x2, y2) in enumerate(lines + inside, 1)
    )


def _blocks(sheet: Sequence[Row]) -> list[list[Row]]:
    """Neighbouring rows with the same columns."""
    blocks: list[list[Row]] = []
    for row in sheet:
        if blocks and (blocks[-1][0].width, blocks[-1][0].columns) == (row.width, row.columns):
            blocks[-1].append(row)
        else:
            blocks.append([row])
    return blocks


def _block_cuts(block: Sequence[Row], left: float, top: float, bottom: float) -> list[_Line]:
    """Into columns, each from the top of the block to its bottom, then each column into pieces."""
    width = block[0].width
    used = max(len(row.pieces) for row in block)
    lines: list[_Line] = [(left + i * width, top, left + i * width, bottom) for i in range(1, used + 1)]
    for column in range(used):
        x, y = left + column * width, top
        for above, below in pairwise(block):
            y += above.height
            if max(len(above.pieces), len(below.pieces)) > column:
                lines.append((x, y, x + width, y))
    return lines
