"""What bingo tells the guide and the labels."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.bingo.values import calls_for, used
from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when, word
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    """'pictures', or the numbers of the game."""
    if tray.settings.board == "pictures":
        return say("label.pictures")
    first, last = used(tray)
    return say("label.numbers", first=first, last=last)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    calls = calls_for(tray)
    zero = settings.board != "pictures" and used(tray)[0] == 0 and "things" in (settings.board, calls)
    return Holding(
        variants=(f"{settings.board}-{calls}", f"calls-{calls}"),
        notes=when(rows=settings.win == "row", full=settings.win == "board", zero=zero),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`n`: a number that is called, three or the next one where there is a choice."""
    numbers = sorted(fact.calls for fact in facts if isinstance(fact.calls, int))
    if not numbers:
        return {}
    return {"n": word(next((n for n in numbers if n >= 3), numbers[-1]), spelled)}


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples)
