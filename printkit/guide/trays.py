"""What the guide says about one tray: which of the catalogue's sentences hold for its settings.

A material's sentences stand under `materials.<name>`; a sub-table named by a variant wins over
them, field by field; `notes.<word>` are single sentences that hold on top.
"""

from dataclasses import dataclass
from functools import partial

from printkit.guide.lines import say, say_all
from printkit.guide.sets import GuideSet, has_back, unprinted_control
from printkit.materials.guidance import Words
from printkit.pack import Tray
from printkit.texts import Catalogue


@dataclass(frozen=True, kw_only=True, slots=True)
class TrayWords:
    """What is said about a tray; all empty but `what` for a material the catalogue does not know.

    The first of `next` needs nothing printed.
    """

    what: str
    notes: Words = ()
    present: Words = ()
    watch: Words = ()
    next: Words = ()

    @property
    def shown(self) -> tuple[Words, Words]:
        """How it is shown and watched: what trays of a kind may have in common."""
        return (self.present, self.watch)


def tray_words(item: GuideSet, texts: Catalogue) -> TrayWords:
    """The sentences for a set.

    Raises KeyError for a material that the catalogue knows only in part.
    """
    tray, line = item.tray, item.material.line
    key = f"materials.{tray.material}"
    if not texts.has(key):
        return TrayWords(what=f"{line[:1].upper()}{line[1:]}.")
    holding = item.material.guidance.holding(tray, item.pieces)
    values = _values(tray) | _examples(item, texts.language)

    def place(field: str) -> str:
        places = (f"{key}.{variant}.{field}" for variant in holding.variants)
        return next((place for place in places if texts.has(place)), f"{key}.{field}")

    def found(field: str) -> Words:
        return say_all(texts, place(field), **values)

    what, present, watch, following = found("what"), found("present"), found("watch"), found("next")
    if unprinted_control(item):
        present += (say(texts, "guide.trays.check_key"),)
    elif has_back(item):
        what += found("back")
        present += found("check")
        watch += found("watch_back")
    return TrayWords(
        what=" ".join(what),
        notes=tuple(say(texts, f"{key}.notes.{word}", **values) for word in holding.notes),
        present=present,
        watch=watch,
        next=found("again") + tuple(line for word in holding.next for line in found(word)) + following,
    )


def _examples(item: GuideSet, language: str) -> dict[str, object]:
    """Words that stand in the set itself; a name with a capital is the same word with a capital letter."""
    facts = [piece.facts for piece in item.own]
    found = (
        item.material.guidance.examples(facts, partial(item.tray.child.spelled, language)) if facts else {}
    )
    capital = {
        name.capitalize(): word[:1].upper() + word[1:]
        for name, word in found.items()
        if isinstance(word, str)
    }
    return {**found, **capital}


def _values(tray: Tray) -> dict[str, object]:
    """What a sentence may name."""
    child = tray.child
    return {
        "first": child.numbers[0],
        "last": child.numbers[1],
        "level": child.lookalike,
        "harder": child.lookalike + 1,
        "child": child.name,
    }
