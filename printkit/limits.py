"""How much paper a pack may ask for, so that a slip of the pen does not eat the machine."""

import math
from collections.abc import Iterable, Sequence

from printkit.errors import Problem
from printkit.pieces import Piece
from printkit.sheets import Frame, SheetFile

MOST_SHEETS = 2000
"""Design choice: four packets of paper, and what 300 MB of memory suffice for."""

ENOUGH = 10
"""Counting goes on to so many times what is allowed."""


def sheets_of(files: Iterable[SheetFile]) -> int:
    """Sheets of paper of all files; a file of backs is printed on those of its fronts."""
    return sum(file.sheets for file in files if any(page.side == "front" for page in file.pages))


def least_sheets(pieces: Sequence[Piece], frame: Frame) -> float:
    """What the pieces need at least, in sheets: their share of a sheet's room, uncut ones a sheet each."""
    wide, high = frame.room
    cut = sum(piece.width * piece.height for piece in pieces if piece.cut)
    return cut / (wide * high) + sum(not piece.cut for piece in pieces)


def too_many(sheets: float, most: int, *, counted: bool) -> Problem | None:
    """What is wrong with so many sheets, if anything; if not `counted`, they are the least there can be."""
    if sheets <= most:
        return None
    whole = math.ceil(sheets)
    found = f"the pack comes to {'' if counted else 'at least '}{whole} sheets"
    enough = f"--sheets {whole} for all of them" if counted else "as many as you say with --sheets"
    return Problem(place="--sheets", found=found, allowed=f"at most {most}, or {enough}")
