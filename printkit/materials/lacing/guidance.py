"""What lacing tells the guide and the labels: how many holes, how long a lace."""

from collections.abc import Sequence
from typing import Any

from printkit.materials import needs
from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when
from printkit.pack import Tray
from printkit.pieces import Piece
from printkit.texts import Span
from printkit.units import inches

_CLOSE = 16.0
"""mm from hole to hole below which a set proposes no closer ones."""


def _about(tray: Tray, say: Say) -> str:
    return say("label.lacing")


SPACING = 20.0
"""mm from hole to hole where nothing else is asked for (design choice)."""


def spacing_of(tray: Tray) -> float:
    """mm from hole to hole: as asked for, or what the child's hand needs."""
    usual = needs.GRIP_PITCH if needs.is_easy_grip(tray.child) else SPACING
    return usual if tray.settings.spacing is None else tray.settings.spacing


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    return Holding(variants=when(close=spacing_of(tray) <= _CLOSE), notes=("cords", "punch", "lace"))


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, object]:
    """`lace_cm`, `lace_in`: a length that does for every card of the set; `holes`: how many each has."""
    longest = max(fact.lace for fact in facts)
    counts = sorted({fact.holes for fact in facts})
    holes = counts[0] if len(counts) == 1 else Span(first=counts[0], last=counts[-1])
    return {"lace_cm": longest / 10, "lace_in": round(inches(longest)), "holes": holes}


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples)
