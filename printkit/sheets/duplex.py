"""What lies behind what: fronts -> backs, mirrored for the way the paper is turned over."""

from printkit.sheets.model import Flip, Placed
from printkit.units import Rect, micrometres

Shift = tuple[float, float]

CLEAR = 3.75
"""mm a back keeps free inside its cut (hairlines run at 4): moved by no more, it stays out of the margin."""


def behind(front: Placed, flip: Flip, paper: tuple[float, float], shift: Shift = (0.0, 0.0)) -> Placed:
    """The back of a placed piece on the back page of its sheet, moved right and down by `shift` mm.

    The box is the one in the file; a printer that is off by as much the other way prints it behind its front.

    A back is drawn as it is read when the piece is turned over like the page of a book. Over the
    long edge (and fed by hand likewise) left and right change places; over the short edge top and
    bottom do, and the back stands upside down on its page.
    """
    box = front.box
    if flip == "short":
        there = Rect(box.left, micrometres(paper[1] - box.bottom), box.width, box.height)
        turn = (180 - front.turn) % 360
    else:
        there = Rect(micrometres(paper[0] - box.right), box.top, box.width, box.height)
        turn = -front.turn % 360
    moved = there._replace(left=micrometres(there.left + shift[0]), top=micrometres(there.top + shift[1]))
    return Placed(piece=front.piece, side="back", box=moved, turn=turn)


def margin_with(margin: float, shift: Shift) -> float:
    """The margin that keeps the backs out of it when they are moved by `shift` mm."""
    return micrometres(margin + max(0.0, abs(shift[0]) - CLEAR, abs(shift[1]) - CLEAR))
