"""What patterns tell the guide and the labels: the rules of the strips, how each goes on."""

from collections.abc import Sequence
from typing import Any, Literal

from printkit.materials import needs
from printkit.materials.guidance import Guidance, Holding, Key, Say, when
from printkit.materials.patterns.rules import GROWING, RULES, letters_of
from printkit.pack import Tray
from printkit.pieces import Piece


def fill_of(tray: Tray) -> Literal["tiles", "counters"]:
    """What patterns are continued with: as asked for, or what the child can grip."""
    return tray.settings.fill or ("counters" if needs.places(tray.child) else "tiles")


def _about(tray: Tray, say: Say) -> str:
    """'patterns AB, AAB and ABC'."""
    rules = sorted(tray.settings.rules, key=RULES.index)
    said = [say("label.growing") if rule == GROWING else rule for rule in rules]
    return say("label.patterns", rules=tuple(said))


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    return Holding(
        variants=("counters",) if fill_of(tray) == "counters" else (),
        notes=when(
            kinds=fill_of(tray) == "counters",
            tiles=fill_of(tray) == "tiles",
            growing=GROWING in settings.rules,
        ),
    )


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    strips = [piece.facts for piece in pieces if piece.facts.shown]
    return Key(lines=tuple(_line(facts, say) for facts in strips))


def _line(facts: Any, say: Say) -> str:
    """'Strip 3 (AAB): A A B'."""
    rule = say("label.growing") if facts.rule == GROWING else facts.rule
    return say("guide.keys.patterns.entry", n=facts.strip, rule=rule, missing=" ".join(facts.missing))


def _examples(facts: Sequence[Any], spelled: Any) -> dict[str, str]:
    """`kinds`: how many kinds of counters the strips ask for."""
    return {"kinds": str(max(len(letters_of(fact.rule)) for fact in facts))}


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples, key=_key)
