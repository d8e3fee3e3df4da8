"""The paper and what of it can be used; whether a piece fits, and which way round more of them do."""

from dataclasses import dataclass

from printkit.pieces import Piece
from printkit.sheets.model import FOOT
from printkit.units import micrometres

SLACK = 2e-3
"""mm, two micrometres: lengths of pieces are rounded, those of papers need not be."""


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


def turned_to_fit(piece: Piece, room: tuple[float, float]) -> bool | None:
    """Whether more such pieces fit a sheet turned than upright; None if not even one fits."""
    upright = _per_sheet(piece.width, piece.height, room)
    turned = _per_sheet(piece.height, piece.width, room)
    if not upright and not turned:
        return None
    return turned > upright


def _per_sheet(width: float, height: float, room: tuple[float, float]) -> int:
    return int((room[0] + SLACK) // width) * int((room[1] + SLACK) // height)
