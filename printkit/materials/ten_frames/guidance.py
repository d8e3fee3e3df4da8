"""What ten-frames tell the guide."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, when, word
from printkit.pack import Tray
from printkit.pieces import Piece


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    if settings.form == "mats":
        return Holding(variants=("mats",))
    fill = settings.fill[0] if len(settings.fill) == 1 else "several"
    return Holding(
        variants=(
            f"asks-{settings.asks}",
            *(("row",) if fill == "fives" and tray.child.numbers[1] <= 5 else ()),
            f"fill-{fill}",
        ),
        notes=when(
            zero=tray.child.numbers[0] == 0,
            languages=len(tray.child.languages) > 1
            and settings.words != "none"
            and tray.child.flip.of(tray.stock) != "none",
        ),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`n`: a number of the set, with what is still empty as `m`; `five` of a row and `two` of a pair."""
    always = {"five": word(5, spelled), "two": word(2, spelled)}
    cards = [fact for fact in facts if fact.numeral is not None]
    if not cards:
        return always
    fact = next((fact for fact in cards if 5 < fact.quantity < 10), cards[-1])
    return always | {"n": word(fact.quantity, spelled), "m": word(fact.empty, spelled)}


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(_answer(piece.facts, say) for piece in pieces if piece.back is not None))


def _answer(facts: Any, say: Say) -> str:
    words = ", ".join(facts.words.values())
    if not words:
        return say("guide.keys.ten-frames.bare", quantity=facts.quantity, numeral=facts.numeral)
    return say("guide.keys.ten-frames.entry", quantity=facts.quantity, numeral=facts.numeral, words=words)


GUIDANCE = Guidance(holding=_holding, examples=_examples, key=_key)
