"""Corners that are to be cut round: a light arc in each corner of a piece's front."""

from dataclasses import replace

from printkit.pieces import Drawing, Face, Picture, Piece, Shape

_ROUND = 0.5523
"""How far the handles of a quarter circle reach, in radii (common practice; off by 0.03 % at most)."""
_INK = (0.62,)
_LINE = 0.15


def with_corner(piece: Piece, radius: float) -> Piece:
    """The piece with arcs of `radius` mm to cut along with scissors; as it is for 0 or a whole sheet."""
    if not radius or not piece.cut:
        return piece
    width, height = piece.width, piece.height
    shapes = tuple(
        Shape(path=_arc(x, y, dx * radius, dy * radius), stroke=_INK, stroke_width=_LINE)
        for x, dx in ((0.0, 1), (width, -1))
        for y, dy in ((0.0, 1), (height, -1))
    )
    arcs = Drawing(name="corners", width=width, height=height, shapes=shapes)
    mark = Picture(drawing=arcs, x=0.0, y=0.0, width=width, height=height)
    return replace(piece, front=Face(marks=(mark, *piece.front.marks), areas=piece.front.areas))


def _arc(x: float, y: float, dx: float, dy: float) -> tuple[tuple[str | float, ...], ...]:
    """A quarter circle from one edge to the other, about the corner at (x, y)."""
    near = 1 - _ROUND
    return (
        ("M", x, y + dy),
        ("C", x, y + near * dy, x + near * dx, y, x + dx, y),
    )
