"""What odd-one-out tells the guide and the labels: where the odd one lies and what is different."""

from collections.abc import Iterable, Sequence

from printkit.materials.guidance import Guidance, Holding, Key, Say
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    """'only turned (level 5 of 6)'."""
    level = tray.child.lookalike
    return say("label.lookalike", kind=say(f"label.levels.{level}"), level=level)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    level = f"level-{tray.child.lookalike}"
    return Holding(variants=("sheet", level) if tray.settings.form == "sheet" else (level,))


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    """A line for each round; what is different stands in each where the rounds differ in that."""
    places = [place for number, piece in enumerate(pieces, 1) for place in _places(piece, number, say)]
    kinds = [kind for piece in pieces for kind in _several(piece.facts.difference)]
    if len(set(kinds)) == 1:
        return Key(lines=tuple(places), always=say(f"guide.difference.{kinds[0]}"))
    return Key(
        lines=tuple(
            say("guide.keys.odd-one-out.both", place=place, difference=say(f"guide.difference.{kind}"))
            for place, kind in zip(places, kinds, strict=True)
        )
    )


def _places(piece: Piece, number: int, say: Say) -> Iterable[str]:
    """Where the odd one lies, a line for each round."""
    facts = piece.facts
    if isinstance(facts.odd, int):
        return (say("guide.keys.odd-one-out.card", n=number, place=facts.odd + 1),)
    across = facts.boxes // len(facts.odd)
    return tuple(
        say("guide.keys.odd-one-out.row", n=number, row=row + 1, place=odd - row * across + 1)
        for row, odd in enumerate(facts.odd)
    )


def _several(difference: str | Sequence[str]) -> Sequence[str]:
    return (difference,) if isinstance(difference, str) else difference


GUIDANCE = Guidance(about=_about, holding=_holding, key=_key, keyed=True)
