"""What compare tells the guide."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, bold, when, word
from printkit.pack import Tray
from printkit.pieces import Piece


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    asks, shown = tray.settings.asks, pieces[0].facts.shown
    return Holding(
        variants=(f"{shown}-{asks}", asks),
        notes=when(
            zero=any(0 in (*piece.facts.numbers, piece.facts.sample) for piece in pieces),
            numerals=shown == "numerals",
        ),
        next=when(next_show=shown == "things"),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`n` the answer of a card, `s` its sample or the other number."""
    fact = facts[len(facts) // 2]
    other = fact.sample if fact.sample is not None else fact.numbers[1 - fact.answer]
    return {"n": word(fact.numbers[fact.answer], spelled), "s": word(other, spelled)}


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(_answer(piece.facts, n, say) for n, piece in enumerate(pieces, 1)))


def _answer(facts: Any, n: int, say: Say) -> str:
    numbers = " · ".join(
        bold(str(number)) if place == facts.answer else str(number)
        for place, number in enumerate(facts.numbers)
    )
    entry = "pair" if facts.sample is None else "sample"
    return say(f"guide.keys.compare.{entry}", n=n, sample=facts.sample, numbers=numbers)


GUIDANCE = Guidance(holding=_holding, examples=_examples, key=_key)
