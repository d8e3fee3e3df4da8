"""Sheets as data: where each piece lies on its page, where the cuts run. mm from the page's top left."""

from dataclasses import dataclass
from typing import Literal

from printkit.pieces import Area, Mark, Piece, Stock
from printkit.units import Rect

Side = Literal["front", "back"]
Flip = Literal["long", "short", "hand", "none"]

FOOT = 8.0
"""Height in mm of the strip inside the bottom margin that the first cut takes off."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Placed:
    """One side of a piece on a page: its box there, and how far it is turned clockwise."""

    piece: Piece
    side: Side
    box: Rect
    turn: Literal[0, 90, 180, 270]

    @property
    def marks(self) -> tuple[Mark, ...]:
        face = self.piece.front if self.side == "front" else self.piece.back
        return face.marks if face else ()

    @property
    def areas(self) -> tuple[Area, ...]:
        face = self.piece.front if self.side == "front" else self.piece.back
        return face.areas if face else ()

    def on_page(self, rect: Rect) -> Rect:
        """Where a rectangle of the upright face lies on the page."""
        width, height = self.piece.width, self.piece.height
        left, top, wide, high = rect
        match self.turn:
            case 0:
                moved = (left, top, wide, high)
            case 90:
                moved = (height - top - high, left, high, wide)
            case 180:
                moved = (width - left - wide, height - top - high, wide, high)
            case _:
                moved = (top, width - left - wide, high, wide)
        return Rect(self.box.left + moved[0], self.box.top + moved[1], moved[2], moved[3])


@dataclass(frozen=True, kw_only=True, slots=True)
class Cut:
    """The `n`th straight cut of a sheet, across the part still in hand.

    `number` is where its number is printed, if there was room for it.
    """

    n: int
    x1: float
    y1: float
    x2: float
    y2: float
    number: Rect | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Bookmark:
    """A title that leads to a page, `level` 0 or 1."""

    title: str
    level: int = 0


@dataclass(frozen=True, kw_only=True, slots=True)
class Page:
    """One side of a sheet, or a page of the guide. Cut lines are drawn within `margin` mm."""

    width: float
    height: float
    side: Side = "front"
    placed: tuple[Placed, ...] = ()
    cuts: tuple[Cut, ...] = ()
    margin: float = 0.0
    marks: tuple[Mark, ...] = ()
    bookmarks: tuple[Bookmark, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class SheetFile:
    """The pages that stand in one PDF. `duplex` is what the file asks the printer for.

    `least` is how many sheets no layout of these pieces can do without; files whose sheets were laid out
    together have it once, in the first.
    """

    name: str
    child: str
    stock: Stock
    flip: Flip
    paper: tuple[float, float]
    pages: tuple[Page, ...]
    duplex: Literal["long", "short", "none"]
    sheets: int
    least: int = 0
