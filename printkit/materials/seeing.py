"""What all materials do for a child with `needs` once they have made their pieces.

Fronts become black on white, and what is smaller than the needs ask for is told in a note: measured
on the pieces themselves, so that a note can neither be forgotten nor be wrong.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import fields, replace

from printkit.checks import Millimetres
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room
from printkit.materials.layout import is_border
from printkit.pack import Tray
from printkit.pieces import BLACK, Box, Color, Dot, Face, Hollow, Line, Mark, Picture, Piece, Text, Traced

_SLACK = 0.05
"""mm that nobody sees: sizes are rounded to whole micrometres and texts to their outlines."""
_DARK, _PALE = 0.3, 0.7
"""Grays up to the first become black, those up to the second (places, frames) six tenths as light. Paler lines,
which only part one thing from another, stay behind what is to be seen."""


def answering(material: Material) -> Material:
    """The material, as it answers to the needs of each child."""

    def made(seed: int, tray: Tray, room: Room) -> Made:
        found = _possible(material.make, seed, tray, room)
        if not tray.child.needs or not found.pieces:
            return found
        pieces = found.pieces
        if needs.is_large(tray.child):
            pieces = tuple(
                replace(piece, front=blackened(piece.front), back=piece.back and inked(piece.back))
                for piece in pieces
            )
        short = shortfalls(tray, pieces, material.handled)
        return replace(found, pieces=pieces, notes=(*found.notes, *short))

    return replace(material, make=made)


def _possible(make: Callable[[int, Tray, Room], Made], seed: int, tray: Tray, room: Room) -> Made:
    """What is made; where a need leaves no way to make it, what is made without that need.

    A size that the pack file asks for, or small paper, wins over a need: the measured notes tell it.
    """
    found = make(seed, tray, room)
    asked = tray.child.needs
    for left_out in (("large",), ("easy-grip",), ("large", "easy-grip")):
        if not found.problems:
            break
        if set(left_out) <= set(asked):
            kept = tuple(need for need in asked if need not in left_out)
            found = make(seed, replace(tray, child=replace(tray.child, needs=kept)), room)
    return found


# --- black on white --------------------------------------------------------------------------


def blackened(face: Face) -> Face:
    """The face with black letters, numerals and rules; places and frames darker than usual."""
    return replace(face, marks=tuple(_darker(mark) for mark in face.marks))


def inked(face: Face) -> Face:
    """The face with what is nearly black in black; a control stays too light to shine through."""
    return replace(
        face,
        marks=tuple(
            replace(mark, color=BLACK)
            if isinstance(mark, Text | Line) and _is_gray(mark.color, _DARK)
            else mark
            for mark in face.marks
        ),
    )


def _darker(mark: Mark) -> Mark:
    match mark:
        case Text():
            return replace(mark, color=BLACK if _is_gray(mark.color, _SECOND) else mark.color)
        case Line():
            return replace(mark, color=dark(mark.color))
        case Box() | Dot() if mark.stroke is not None:
            return replace(mark, stroke=dark(mark.stroke))
    return mark


_SECOND = 0.5
"""The lightest gray of words, those of a second language, that becomes black."""


def _is_gray(color: Color, lightest: float) -> bool:
    return len(color) == 1 and color[0] <= lightest


def dark(color: Color) -> Color:
    """A dark gray made black, a lighter one darker; pale lines and colors as they are."""
    if len(color) != 1 or color[0] > _PALE:
        return color
    return BLACK if color[0] <= _DARK else (round(0.6 * color[0], 3),)


# --- what falls short ------------------------------------------------------------------------


def things(pieces: Sequence[Piece]) -> Iterator[float]:
    """The longer sides, in mm, of the pictures on the fronts; ornaments are none."""
    for piece in pieces:
        for mark in piece.front.marks:
            if isinstance(mark, Picture) and not is_border(mark.drawing):
                yield max(mark.width, mark.height)


def numerals(pieces: Sequence[Piece]) -> Iterator[float]:
    """The heights, in mm, of the numerals on the fronts."""
    for piece in pieces:
        for mark in piece.front.marks:
            if isinstance(mark, Text | Hollow | Traced) and mark.run.text.isdigit():
                yield mark.bounds().height if isinstance(mark, Traced) else -mark.run.ink[1]


def sides(pieces: Sequence[Piece], handled: Callable[[Piece], bool]) -> Iterator[float]:
    """The shorter sides, in mm, of the pieces that a child takes in hand."""
    return (min(piece.width, piece.height) for piece in pieces if piece.cut and handled(piece))


def shortfalls(tray: Tray, pieces: Sequence[Piece], handled: Callable[[Piece], bool]) -> tuple[str, ...]:
    """A sentence for each need that these pieces do not meet."""
    child = tray.child
    measured = (
        ("large", "things", "across", things(pieces), needs.least_thing(child, 0.0)),
        ("large", "numerals", "high", numerals(pieces), needs.least_numeral(child)),
        ("easy-grip", "pieces", "on their shorter side", sides(pieces, handled), needs.least_piece(child)),
    )
    why = _why(tray)
    return tuple(
        f"the smallest {what} are {least:.3g} mm {way}, '{need}' asks for {wanted:g} mm: {why}"
        for need, what, way, found, wanted in measured
        if wanted and (least := min(found, default=wanted)) < wanted - _SLACK
    )


def _why(tray: Tray) -> str:
    """What keeps the pieces small: lengths that the pack file asks for, or else the paper."""
    asked = [
        field.name
        for field in fields(tray.settings)
        if isinstance(field.metadata["check"], Millimetres) and getattr(tray.settings, field.name) is not None
    ]
    if tray.size is not None:
        asked.insert(0, "size")
    if asked:
        return f"without {' and '.join(asked)} they are as large as the paper allows"
    return "smaller numbers, fewer at once or larger paper leave room for more"
