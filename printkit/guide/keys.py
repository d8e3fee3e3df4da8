"""The answers of pieces as short lines, worked out from their facts: one function a material."""

from collections.abc import Callable, Mapping, Sequence

from printkit.guide.lines import bold, say
from printkit.guide.sets import GuideSet, unprinted_control
from printkit.pieces import Piece
from printkit.texts import Catalogue

SIGNS = {"add": "+", "subtract": "\N{MINUS SIGN}"}

Entries = Callable[[Piece, int, Catalogue], tuple[str, ...]]
"""The answers of a piece with its number in the set."""


def needs_key(item: GuideSet) -> bool:
    """Whether the guide tells the answers: always where looking is the task, else if no back does."""
    return item.tray.material in ALWAYS or unprinted_control(item)


def key_entries(item: GuideSet, texts: Catalogue) -> tuple[str, ...]:
    """The answers of a set, one short line each, in the order of its pieces (their 'n of N')."""
    entries = KEYS.get(item.tray.material)
    if entries is None:
        return ()
    if common_difference(item):
        entries = _odd_place
    return tuple(line for number, piece in enumerate(item.own, 1) for line in entries(piece, number, texts))


def common_difference(item: GuideSet) -> str | None:
    """The kind of difference that all rounds of a set share; None if they do not, or have none."""
    told = [getattr(piece.facts, "difference", None) for piece in item.own]
    kinds = {kind for each in told for kind in ((each,) if isinstance(each, str) else each or (None,))}
    return kinds.pop() if len(kinds) == 1 else None


def key_note(item: GuideSet, texts: Catalogue) -> str:
    """How the answers of a set are to be read; '' if that is plain."""
    key = f"guide.keys.{item.tray.material}.note"
    return say(texts, key) if texts.has(key) else ""


def _counting_card(piece: Piece, number: int, texts: Catalogue) -> tuple[str, ...]:
    facts = piece.facts
    if piece.back is None:
        return ()
    words = ", ".join(facts.words.values())
    if not words:
        return (str(facts.quantity),)
    return (say(texts, "guide.keys.counting-cards.entry", quantity=facts.quantity, words=words),)


def _clip_card(piece: Piece, number: int, texts: Catalogue) -> tuple[str, ...]:
    facts = piece.facts
    choices = [
        bold(str(choice)) if place == facts.answer else str(choice)
        for place, choice in enumerate(facts.choices)
    ]
    return (
        say(
            texts,
            "guide.keys.clip-cards.entry",
            n=number,
            place=facts.answer + 1,
            choices=" · ".join(choices),
        ),
    )


def _strip(piece: Piece, number: int, texts: Catalogue) -> tuple[str, ...]:
    return () if piece.facts.operation is None else (equation(piece.facts),)


def equation(facts) -> str:
    """'3 + 2 = 5', the number that is asked for in bold."""
    a, b, result = (
        bold(str(value)) if facts.unknown == place else str(value)
        for place, value in (("start", facts.a), ("change", facts.b), ("result", facts.result))
    )
    return f"{a} {SIGNS[facts.operation]} {b} = {result}"


def _odd_one(piece: Piece, number: int, texts: Catalogue) -> tuple[str, ...]:
    """Where the odd one lies and what is different about it, a line for each round."""
    places = _odd_place(piece, number, texts)
    kinds = _several(piece.facts.difference, len(places))
    return tuple(
        say(texts, "guide.keys.odd-one-out.both", place=place, difference=difference(kind, texts))
        for place, kind in zip(places, kinds, strict=True)
    )


def _odd_place(piece: Piece, number: int, texts: Catalogue) -> tuple[str, ...]:
    """Where the odd one lies, a line for each round."""
    facts = piece.facts
    if isinstance(facts.odd, int):
        return (say(texts, "guide.keys.odd-one-out.card", n=number, place=facts.odd + 1),)
    across = facts.boxes // len(facts.odd)
    return tuple(
        say(texts, "guide.keys.odd-one-out.row", n=number, row=row + 1, place=odd - row * across + 1)
        for row, odd in enumerate(facts.odd)
    )


def _several(difference, rows: int) -> Sequence[str]:
    return (difference,) * rows if isinstance(difference, str) else difference


def difference(kind: str, texts: Catalogue) -> str:
    """What is different, in words; the kind itself if the catalogue does not know it."""
    key = f"guide.difference.{kind}"
    return say(texts, key) if texts.has(key) else kind


KEYS: Mapping[str, Entries] = {
    "counting-cards": _counting_card,
    "strips": _strip,
    "clip-cards": _clip_card,
    "odd-one-out": _odd_one,
}
ALWAYS = ("odd-one-out",)
