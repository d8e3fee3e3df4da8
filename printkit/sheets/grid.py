"""Pieces -> rows on sheets, and the straight cuts that free them.

A sheet is a stack of rows; every piece of a row has one size. Neighbouring rows with the same
columns are one block: it is cut off whole, then into columns, then each column into pieces. That
needs the fewest cuts (columns first: C + 1 + C(R - 1); rows first: R - 1 + R(C + 1)).
"""

from collections.abc import Sequence
from dataclasses import dataclass

from printkit.pieces import Piece
from printkit.sheets.model import FOOT, Cut, Placed
from printkit.units import Rect, micrometres

_SLACK = 1e-6


@dataclass(frozen=True, kw_only=True, slots=True)
class Frame:
    """The paper and what of it can be used, in mm."""

    width: float
    height: float
    margin: float

    @property
    def room(self) -> tuple[float, float]:
        """Usable width and height: within the margins, above the foot."""
        return (self.width - 2 * self.margin, self.height - 2 * self.margin - FOOT)

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
    """Where the pieces of a sheet's front lie: rows from the top margin down, each in the middle."""
    placed: list[Placed] = []
    top = frame.margin
    for row in sheet:
        left = _row_left(row, frame)
        for number, piece in enumerate(row.pieces):
            box = Rect(micrometres(left + number * row.width), micrometres(top), row.width, row.height)
            placed.append(Placed(piece=piece, side="front", box=box, turn=90 if row.turned else 0))
        top += row.height
    return tuple(placed)


def _row_left(row: Row, frame: Frame) -> float:
    return (frame.width - row.columns * row.width) / 2


def cuts(sheet: Sequence[Row], frame: Frame) -> tuple[Cut, ...]:
    """The cuts of a sheet in order, each across the part still in hand; the first takes the foot off."""
    if not sheet[0].pieces[0].cut:
        return ()
    lines: list[tuple[float, float, float, float]] = [(0.0, frame.foot, frame.width, frame.foot)]
    inside: list[tuple[float, float, float, float]] = []
    top = frame.margin
    lines.append((0.0, top, frame.width, top))
    for block in _blocks(sheet):
        bottom = top + sum(row.height for row in block)
        if abs(bottom - frame.foot) > _SLACK:
            lines.append((0.0, bottom, frame.width, bottom))
        inside += _block_cuts(block, top, bottom, frame)
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


def _block_cuts(
    block: Sequence[Row], top: float, bottom: float, frame: Frame
) -> list[tuple[float, float, float, float]]:
    left = _row_left(block[0], frame)
    width = block[0].width
    used = max(len(row.pieces) for row in block)
    lines = [(left + i * width, top, left + i * width, bottom) for i in range(used + 1)]
    for column in range(used):
        x = left + column * width
        y = top
        for number, row in enumerate(block):
            y += row.height
            if len(row.pieces) > column and number < len(block) - 1:
                lines.append((x, y, x + width, y))
    return lines
