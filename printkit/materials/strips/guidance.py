"""What strips tell the guide and the labels."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.guidance import Guidance, Holding, Key, Say, Spelled, bold, counted, when, word
from printkit.pack import Tray
from printkit.pieces import Piece

SIGNS = {"add": "+", "subtract": "\N{MINUS SIGN}"}


def _about(tray: Tray, say: Say) -> str:
    """'sums to 5'."""
    operation = tray.settings.operation
    kind = operation if operation in ("add", "subtract") else "both"
    return say(f"label.sums.{kind}", most=tray.child.sums_to)


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    grounds = {area.ground for piece in pieces for area in piece.front.areas}
    shown = "places" if "places" in grounds else "pictures" if grounds else "none"
    task = f"{settings.operation}-{settings.unknown}"
    return Holding(
        variants=(f"{shown}-{task}", task, settings.unknown, settings.operation),
        notes=when(
            frame=shown != "none",
            places=shown == "places",
            none=shown == "none",
            own=settings.own > 0,
        ),
        next=when(next_help=shown != "none"),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`a`, `b`, `r`: a line of the set; `larger`, `on`, `change`, `back`: how it is counted."""
    lines = [fact for fact in facts if fact.operation is not None]
    if not lines:
        return {}
    # The first line is often 1 + 1, which shows little; of two alike none is the larger.
    plain = (
        fact
        for unlike, least in ((True, 2), (True, 1), (False, 2), (False, 1))
        for fact in lines
        if min(fact.a, fact.b, fact.result) >= least and not (unlike and fact.a == fact.b)
    )
    fact = next(plain, lines[0])
    a, b, r = fact.a, fact.b, fact.result
    low, high = min(a, r), max(a, r)
    return {
        "a": word(a, spelled),
        "b": word(b, spelled),
        "r": word(r, spelled),
        "larger": word(max(a, b), spelled),
        "on": counted(max(a, b), r, spelled),
        "change": counted(low, high, spelled),
        "back": counted(high, low, spelled),
    }


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(equation(piece.facts) for piece in pieces if piece.facts.operation is not None))


def equation(facts: Any) -> str:
    """'3 + 2 = 5', the number that is asked for in bold."""
    a, b, result = (
        bold(str(value)) if facts.unknown == place else str(value)
        for place, value in (("start", facts.a), ("change", facts.b), ("result", facts.result))
    )
    return f"{a} {SIGNS[facts.operation]} {b} = {result}"


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples, key=_key)
