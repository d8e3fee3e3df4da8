"""What find-the-match tells the guide and the labels: where the ones like the sample lie."""

from collections.abc import Sequence

from printkit.materials.guidance import Guidance, Holding, Key, Say
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    """'only turned (level 5 of 6)'."""
    level = tray.child.lookalike
    return say("label.lookalike", kind=say(f"label.levels.{level}"), level=level)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    told = pieces[0].facts.told if pieces else "places"
    return Holding(variants=(f"level-{tray.child.lookalike}", f"told-{told}"))


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(_line(piece, n, say) for n, piece in enumerate(pieces, 1)))


def _line(piece: Piece, n: int, say: Say) -> str:
    """'Sheet 2: 5 in all. Row 1: 2 and 5; row 3: 1 ...'."""
    facts, kind = piece.facts, "card" if piece.cut else "sheet"
    rows: dict[int, list[str]] = {}
    for target in facts.targets:
        rows.setdefault(target // facts.columns + 1, []).append(str(target % facts.columns + 1))
    places = "; ".join(
        say("guide.keys.find-the-match.row", row=row, places=", ".join(found)) for row, found in rows.items()
    )
    return say(f"guide.keys.find-the-match.{kind}", n=n, count=len(facts.targets), places=places)


GUIDANCE = Guidance(about=_about, holding=_holding, key=_key, keyed=True)
