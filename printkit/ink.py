"""How much ink faces take: the share of their paper that would be covered, estimated from the marks.

An estimate for comparing sets: the area of each picture's shapes by their darkness, one over the
other not taken off. 'Keep fills light' is common practice: dark areas curl and crack on card.
"""

import math
from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import Any

from printkit.pieces import Box, Color, Dot, Drawing, Face, Hollow, Line, Mark, Picture, Piece, Text, Traced


def coverage(pieces: Sequence[Piece]) -> float:
    """The share (0 to 1) of the paper of these pieces that ink covers, both sides together."""
    paper = sum(piece.width * piece.height for piece in pieces)
    inked = sum(_face(face) for piece in pieces for face in (piece.front, piece.back) if face)
    return min(1.0, inked / paper) if paper else 0.0


def _face(face: Face) -> float:
    return sum(_mark(mark) for mark in face.marks)


def _darkness(color: Color) -> float:
    return 1 - sum(color) / len(color)


def _mark(mark: Mark) -> float:
    """Covered mm2 of one mark."""
    match mark:
        case Picture():
            return mark.width * mark.height * _drawing(mark.drawing)
        case Text():
            left, top, right, bottom = mark.run.ink
            return 0.35 * (right - left) * (bottom - top) * _darkness(mark.color)
        case Traced():
            return sum(_lines(drawing) for drawing, _, _ in mark.letters)
        case Hollow():
            return mark.run.width * mark.width * 4 * _darkness(mark.color)
        case Box():
            fill = _darkness(mark.fill) * mark.width * mark.height if mark.fill is not None else 0.0
            edge = 2 * (mark.width + mark.height) * mark.line if mark.stroke is not None else 0.0
            return fill + edge
        case Dot():
            fill = _darkness(mark.fill) * 3.14 * mark.radius**2 if mark.fill is not None else 0.0
            return fill + (6.28 * mark.radius * mark.line if mark.stroke is not None else 0.0)
        case Line():
            return (abs(mark.x2 - mark.x1) + abs(mark.y2 - mark.y1)) * mark.line * _darkness(mark.color)


@cache
def _lines(drawing: Drawing) -> float:
    """Covered mm2 of strokes: their length, between control points, by their width."""
    covered = 0.0
    for shape in drawing.shapes:
        if shape.stroke is not None:
            ends = [step[-2:] for step in shape.path if step[0] != "Z"]
            length = sum(math.dist(a, b) for a, b in pairwise(ends))
            drawn = shape.dash[0] / sum(shape.dash) if shape.dash else 1.0
            covered += length * drawn * shape.stroke_width * _darkness(shape.stroke)
    return covered


@cache
def _drawing(drawing: Drawing) -> float:
    """The mean darkness of a drawing over its box."""
    from printkit.pictures import rasterise

    image: Any = rasterise(drawing, 16).convert("L")
    histogram = image.histogram()
    pixels = image.width * image.height
    return sum((255 - value) * count for value, count in enumerate(histogram)) / (255 * pixels)
