"""What part-whole cards tell the guide and the labels."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, bold, when, word
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    """'the number 5', or 'numbers 2 to 5' where each whole has its card."""
    settings, child = tray.settings, tray.child
    total = settings.total or max(2, min(10, child.sums_to or child.numbers[1]))
    if settings.unknown == "both" and total > 2:
        return say("label.whole.several", first=2, last=total)
    return say("label.whole.one", last=total)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    return Holding(
        variants=(f"{settings.show}-{settings.unknown}", settings.unknown, settings.show),
        notes=when(zero=settings.zero),
        next=when(next_show=settings.show != "numerals"),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`w` a whole, `a` what is known of it, `b` the other part."""
    fact = facts[len(facts) // 2]
    parts = fact.parts or fact.ways[len(fact.ways) // 2]
    known, asked = parts if fact.unknown != "left" else (parts[1], parts[0])
    return {"w": word(fact.whole, spelled), "a": word(known, spelled), "b": word(asked, spelled)}


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(_answer(piece.facts, say) for piece in pieces))


def _answer(facts: Any, say: Say) -> str:
    if facts.parts is None:
        pairs = ", ".join(f"{a} + {b}" for a, b in facts.ways)
        return say("guide.keys.part-whole.ways", whole=facts.whole, ways=pairs)
    left, right = facts.parts
    whole, left, right = (
        bold(str(n)) if name == facts.unknown else str(n)
        for name, n in (("whole", facts.whole), ("left", left), ("right", right))
    )
    return say("guide.keys.part-whole.entry", whole=whole, left=left, right=right)


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples, key=_key)
