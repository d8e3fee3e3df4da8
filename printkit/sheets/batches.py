"""The pieces that go to one kind of paper -> sheets: which piece where, and what is to be cut out.

Whole sheets stay alone. All other pieces are laid out together (`save` paper) or run by run (`save`
order); with `stack`, sheets that are cut alike form a pile whose cut piles, laid on one another, are in
teaching order.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from printkit.pieces import Piece
from printkit.sheets.alike import Slot
from printkit.sheets.grid import SLACK, Frame, turned_to_fit
from printkit.sheets.model import Placed
from printkit.sheets.piles import Laid, in_order, piled
from printkit.sheets.thrift import thrifty
from printkit.units import Rect, micrometres


@dataclass(frozen=True, kw_only=True, slots=True)
class Rules:
    """How sheets are filled: what to save, mm between pieces, whether sheets are cut in piles."""

    save: Literal["paper", "order"] = "paper"
    gap: float = 0.0
    stack: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Given:
    """A piece, its number in the child's order, and the run of pieces that it is kept with.

    Pieces of another `side` (those without a back) share a sheet with it only where that saves one.
    """

    piece: Piece
    number: int
    run: str
    side: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Sheet:
    """A front: where its pieces lie, and the boxes that its cuts free (none on a whole sheet).

    `order` is the number of the last piece on it and on the sheets before it.
    """

    placed: tuple[Placed, ...]
    boxes: tuple[Rect, ...]
    order: int


def laid_out(given: Sequence[Given], frame: Frame, rules: Rules) -> tuple[list[Sheet], int]:
    """The sheets in the order of their pieces, and how many no layout can do without.

    Every piece must fit (see `turned_to_fit`).
    """
    whole = [item for item in given if not item.piece.cut]
    cut = [item for item in given if item.piece.cut]
    sheets = [_alone(item, frame) for item in whole]
    least = len(whole)
    if cut:
        layout = thrifty(
            [_size(item.piece, frame, rules.gap) for item in cut],
            [item.run for item in cut],
            [item.side for item in cut],
            _room(frame, rules.gap),
            alone=rules.save == "order",
        )
        least += layout.bound
        made = piled(layout.sheets) if rules.stack else layout.sheets
        order = -1
        for sheet in in_order(made, [item.run for item in cut]):
            order = max(order, *(cut[number].number for number in sheet.pieces))
            sheets.append(_sheet(sheet, order, cut, frame, rules.gap))
    return sorted(sheets, key=lambda sheet: sheet.order), least


def _room(frame: Frame, gap: float) -> tuple[int, int]:
    """The room in micrometres; a gap beyond the last piece of a row may lie outside of it."""
    width, height = (round((length + SLACK + gap) * 1000) for length in frame.room)
    return width, height


def _size(piece: Piece, frame: Frame, gap: float) -> tuple[int, int]:
    width, height = (round((length + gap) * 1000) for length in (piece.width, piece.height))
    return width, height


def _alone(item: Given, frame: Frame) -> Sheet:
    """A sheet used whole begins at the top."""
    piece = item.piece
    turned = bool(turned_to_fit(piece, frame.room))
    size = (piece.height, piece.width) if turned else (piece.width, piece.height)
    box = Rect(frame.margin, frame.margin, *size)
    placed = Placed(piece=piece, side="front", box=box, turn=90 if turned else 0)
    return Sheet(placed=(placed,), boxes=(), order=item.number)


def _sheet(laid: Laid, order: int, given: Sequence[Given], frame: Frame, gap: float) -> Sheet:
    """Slots -> places: all begin at the left margin, and the last row stands on the foot.

    So the cuts at the left and over the foot serve all rows.
    """
    space = round(gap * 1000)
    low = max(slot.top + slot.height for slot in laid.cut) - space
    left, top = round(frame.margin * 1000), round(frame.foot * 1000) - low
    top = max(top, round(frame.margin * 1000))

    def box(slot: Slot, size: tuple[float, float]) -> Rect:
        return Rect(micrometres((left + slot.left) / 1000), micrometres((top + slot.top) / 1000), *size)

    placed = []
    for number, slot in zip(laid.pieces, laid.slots, strict=True):
        piece = given[number].piece
        turned = (slot.width, slot.height) != _size(piece, frame, gap)
        size = (piece.height, piece.width) if turned else (piece.width, piece.height)
        placed.append(Placed(piece=piece, side="front", box=box(slot, size), turn=90 if turned else 0))
    boxes = tuple(box(slot, ((slot.width - space) / 1000, (slot.height - space) / 1000)) for slot in laid.cut)
    return Sheet(placed=tuple(placed), boxes=boxes, order=order)
