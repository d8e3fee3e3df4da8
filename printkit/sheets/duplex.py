"""What lies behind what: fronts -> backs, mirrored for the way the paper is turned over."""

from printkit.sheets.model import Flip, Placed
from printkit.units import Rect, micrometres


def behind(front: Placed, flip: Flip, paper: tuple[float, float]) -> Placed:
    """The back of a placed piece on the back page of its sheet.

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
    return Placed(piece=front.piece, side="back", box=there, turn=turn)
