"""Sheets that are cut alike as piles: cut together, the piles on one another are in teaching order.

That is cut-and-stack (imposition manuals): of N cards on S sheets of k places, place p of sheet s holds
card p * S + s, and is empty if there is none. Laid on one another, pile 0 on top, the cut piles give 0 to
N - 1. The first sheet is the top one.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from printkit.sheets.alike import Slot


@dataclass(frozen=True, slots=True)
class Laid:
    """The pieces of one sheet by their numbers, the slot of each, and all slots that are cut out.

    Slots are measured from the top left of the room.
    """

    pieces: tuple[int, ...]
    slots: tuple[Slot, ...]
    cut: tuple[Slot, ...]


def piled(sheets: Sequence[Laid]) -> list[Laid]:
    """The same pieces, dealt anew within each pile; sheets keep their order.

    A sheet joins the pile of an earlier one whose slots hold all of its own. Pieces change places with
    pieces of the same slots' sizes only.
    """
    piles: list[list[Laid]] = []
    for sheet in sorted(sheets, key=lambda sheet: -len(sheet.slots)):
        pile = next((pile for pile in piles if _holds(pile[0], sheet)), None)
        if pile is None:
            piles.append([sheet])
        else:
            pile.append(sheet)
    return [sheet for pile in piles for sheet in dealt(pile)]


def in_order(sheets: Sequence[Laid], runs: Sequence[str]) -> list[Laid]:
    """The sheets so that those of each run follow one another as its pieces do.

    Of the sheets that can come next, the one whose last piece is the first.
    """
    waiting: dict[str, list[Laid]] = {}
    for sheet in sheets:
        for run in dict.fromkeys(runs[number] for number in sheet.pieces):
            waiting.setdefault(run, []).append(sheet)
    for run, own in waiting.items():
        own.sort(key=lambda sheet: min(number for number in sheet.pieces if runs[number] == run))
    ordered: list[Laid] = []
    left = sorted(sheets, key=lambda sheet: max(sheet.pieces))
    while left:
        free = (
            sheet
            for sheet in left
            if all(waiting[run][0] is sheet for run in {runs[number] for number in sheet.pieces})
        )
        sheet = next(free, left[0])
        left.remove(sheet)
        ordered.append(sheet)
        for own in waiting.values():
            if sheet in own:
                own.remove(sheet)
    return ordered


def _holds(full: Laid, sheet: Laid) -> bool:
    return set(sheet.slots) <= set(full.slots)


def dealt(pile: Sequence[Laid]) -> list[Laid]:
    """The pieces of a pile of sheets, its fullest first, in the order of cut-and-stack."""
    count = len(pile)
    if count == 1:
        return list(pile)
    slots = pile[0].slots
    dealt: list[list[tuple[int, Slot]]] = [[] for _ in pile]
    for kind in dict.fromkeys(_kind(slot) for slot in slots):
        own = sorted((slot for slot in slots if _kind(slot) == kind), key=lambda slot: (slot.top, slot.left))
        pieces = sorted(
            number
            for sheet in pile
            for number, slot in zip(sheet.pieces, sheet.slots, strict=True)
            if _kind(slot) == kind
        )
        for place, slot in enumerate(own):
            for sheet in range(count):
                card = place * count + sheet
                if card < len(pieces):
                    dealt[sheet].append((pieces[card], slot))
    return [
        Laid(tuple(number for number, _ in sheet), tuple(slot for _, slot in sheet), slots)
        for sheet in (sorted(sheet) for sheet in dealt)
        if sheet
    ]


def _kind(slot: Slot) -> tuple[int, int]:
    """Upright and turned slots of one size hold the same pieces."""
    return min(slot.width, slot.height), max(slot.width, slot.height)
