"""What the list for outside tells the guide and the labels."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    return say(f"label.outdoors.{'counted' if tray.settings.counted else 'plain'}")


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    return Holding(variants=when(counted=tray.settings.counted), notes=when(languages=_two(pieces)))


def _two(pieces: Sequence[Piece]) -> bool:
    items = [item for piece in pieces for item in getattr(piece.facts, "items", ())]
    return any(len(item.texts) > 1 for item in items)


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`thing`: what stands beside the first picture."""
    return {"thing": next(iter(facts[0].items[0].texts.values()))}


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples)
