"""Lengths in millimetres, papers from their standards, and the one way from mm to points."""

from typing import NamedTuple

MM_PER_INCH = 25.4
POINTS_PER_INCH = 72
POINTS_PER_MM = POINTS_PER_INCH / MM_PER_INCH

# ISO 216 for A sizes; ANSI/ASME Y14.1 for Letter; Legal is 8.5 x 14 in (common practice).
PAPERS = {
    #          width  height
    "a3": (297.0, 420.0),
    "a4": (210.0, 297.0),
    "a5": (148.0, 210.0),
    "letter": (215.9, 279.4),
    "legal": (215.9, 355.6),
}


class Rect(NamedTuple):
    """A rectangle in mm, measured from a top left corner, y down."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def bottom(self) -> float:
        return self.top + self.height

    def inset(self, by: float) -> "Rect":
        """The rectangle that lies `by` mm inside on every side."""
        return Rect(self.left + by, self.top + by, self.width - 2 * by, self.height - 2 * by)

    def holds(self, other: "Rect", slack: float = 1e-6) -> bool:
        """Whether `other` lies inside, borders included."""
        return (
            other.left >= self.left - slack
            and other.top >= self.top - slack
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )

    def meets(self, other: "Rect", slack: float = 1e-6) -> bool:
        """Whether the two share more than a border."""
        return (
            self.left < other.right - slack
            and other.left < self.right - slack
            and self.top < other.bottom - slack
            and other.top < self.bottom - slack
        )


def points(mm: float) -> float:
    """mm in PDF points (1/72 inch)."""
    return mm * POINTS_PER_MM


def inches(mm: float) -> float:
    """mm in inches."""
    return mm / MM_PER_INCH


def micrometres(mm: float) -> float:
    """mm rounded to a whole micrometre, so that a page does not hang on the last bit of a float."""
    return round(mm, 3) + 0.0
