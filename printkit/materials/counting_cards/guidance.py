"""What counting cards tell the guide."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, when, word
from printkit.pack import Tray
from printkit.pieces import Piece


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    names = [f"layout-{settings.layout}"]
    if settings.things == "places":
        names = [f"places-{settings.layout}", "places", *names]
    bare = settings.words == "none"
    return Holding(
        variants=tuple(each for name in names for each in ((f"bare-{name}", name) if bare else (name,))),
        notes=when(zero=tray.child.numbers[0] == 0, languages=len(tray.child.languages) > 1 and not bare),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`n`: a number of the set, three or the next one where there is a choice."""
    numbers = sorted({fact.quantity for fact in facts})
    return {"n": word(next((n for n in numbers if n >= 3), numbers[-1]), spelled)}


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(_answer(piece.facts, say) for piece in pieces if piece.back is not None))


def _answer(facts: Any, say: Say) -> str:
    words = ", ".join(facts.words.values())
    if not words:
        return str(facts.quantity)
    return say("guide.keys.counting-cards.entry", quantity=facts.quantity, words=words)


GUIDANCE = Guidance(holding=_holding, examples=_examples, key=_key)
