"""What halves tell the guide and the labels: which cards belong together."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, word
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    """'halves', 'thirds' or 'quarters'."""
    return say(f"label.parts.{tray.settings.parts}")


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    parts = f"parts-{tray.settings.parts}"
    if tray.settings.parts == 2 and not all(piece.facts.mirrored for piece in _own(pieces)):
        return Holding(variants=("unlike", parts), notes=("edges",))
    return Holding(variants=(parts,), notes=("edges",))


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`n`: how many parts make a whole."""
    return {"n": word(facts[0].parts, spelled)}


def _own(pieces: Sequence[Piece]) -> Sequence[Piece]:
    return [piece for piece in pieces if hasattr(piece.facts, "mirrored")]


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    """'Card 3: shell, part 1 of 2 from the left'."""
    return Key(
        lines=tuple(
            say(
                "guide.keys.halves.entry", n=n, motif=piece.facts.motif,
                part=piece.facts.part, parts=piece.facts.parts,
            )
            for n, piece in enumerate(pieces, 1)
        )
    )  # fmt: skip


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples, key=_key)
