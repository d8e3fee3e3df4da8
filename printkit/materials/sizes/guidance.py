"""What sizes tell the guide and the labels: how high the pictures are, which card comes where."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, when
from printkit.pack import Tray
from printkit.pieces import Piece

_MOST = 7
"""Sizes beyond which a set proposes no more."""


def _about(tray: Tray, say: Say) -> str:
    """'5 sizes'."""
    return say("label.sizes", n=tray.settings.count)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    grouped = settings.form == "groups"
    heights = "series" if settings.pictures > 1 else "apart" if grouped else "heights"
    return Holding(variants=when(groups=grouped, most=settings.count == _MOST), notes=(heights,))


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, object]:
    """`heights`: those of the first picture in mm, from the smallest; `ratio`: the step."""
    first = facts[0].motif
    heights = [fact.height for fact in facts if fact.motif == first and not fact.heading]
    return {
        "heights": tuple(round(height, 1) for height in heights),
        "ratio": round(facts[0].ratio, 2),
    }


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(_line(piece.facts, n, say) for n, piece in enumerate(pieces, 1)))


def _line(facts: Any, n: int, say: Say) -> str:
    """'Card 3: size 3, 23.4 mm high'; where cards are sorted the group instead."""
    if facts.heading:
        return say("guide.keys.sizes.heading", n=n, group=say(f"guide.keys.sizes.groups.{facts.group}"))
    if facts.group:
        group = say(f"guide.keys.sizes.groups.{facts.group}")
        return say("guide.keys.sizes.sorted", n=n, group=group, height=round(facts.height, 1))
    return say("guide.keys.sizes.ordered", n=n, place=facts.place, height=round(facts.height, 1))


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples, key=_key)
