"""What dominoes tell the guide and the labels."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.dominoes.values import used
from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when, word
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    """'numbers 0 to 6': those on the tiles."""
    first, last = used(tray)
    return say("label.numbers", first=first, last=last)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    first, last = used(tray)
    # Each number meets all others: with an odd count of numbers every one has an even number of ends.
    odd = (last - first + 1) % 2 == 1
    return Holding(
        variants=when(mixed=tray.settings.halves == "mixed"), notes=when(zero=first == 0, ring=odd)
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`n`: a number of the set, three or the next one where there is a choice."""
    values = sorted({fact.left for fact in facts} | {fact.right for fact in facts})
    return {"n": word(next((n for n in values if n >= 3), values[-1]), spelled)}


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples)
