"""What shades tell the guide and the labels: which card comes where, how far apart the shades are."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, when
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    """'from light to dark' or 'colors two by two'."""
    return say(f"label.shades.{tray.settings.form}")


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    gray = tray.child.ink != "color"
    pairs = tray.settings.form == "pairs"
    return Holding(
        variants=when(pairs=pairs),
        notes=when(
            steps=not pairs,
            apart=pairs,
            series=not pairs and tray.settings.colors > 1,
            gray=gray,
            ink=not gray,
        ),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, object]:
    """`step`: the CIEDE2000 from each to the next, or the least between any two colors."""
    return {"step": round(min(fact.step for fact in facts), 1)}


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(_line(piece.facts, n, say) for n, piece in enumerate(pieces, 1)))


def _line(facts: Any, n: int, say: Say) -> str:
    """'Card 3: place 3 of 5', or 'Card 3: pair 2'."""
    return say(f"guide.keys.shades.{facts.form}", n=n, place=facts.place, count=facts.count)


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples, key=_key)
