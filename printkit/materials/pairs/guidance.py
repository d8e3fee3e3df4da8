"""What pairs tell the guide and the labels."""

from collections.abc import Sequence

from printkit.materials.guidance import Guidance, Holding, Say, numbers, when
from printkit.pack import Tray
from printkit.pieces import Piece

_USUAL = 6
"""Pairs where no number is asked for."""


def _about(tray: Tray, say: Say) -> str:
    """'pictures', the numbers, or how many of them where not all are in the set."""
    if tray.settings.match == "pictures":
        return say("label.pictures")
    first, last = tray.child.numbers
    count = tray.settings.pairs or _USUAL
    if last - first + 1 > count:
        return say("label.chosen", n=count, first=first, last=last)
    return numbers(tray, say)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    named = any(piece.facts.name for piece in pieces)
    zero = any(piece.facts.quantity == 0 for piece in pieces)
    return Holding(
        variants=(*when(named=named), settings.match),
        notes=when(zero=zero, languages=named and len(tray.child.languages) > 1),
    )


GUIDANCE = Guidance(about=_about, holding=_holding)
