"""What the guide says about one tray: which of the catalogue's sentences hold for its settings.

A material's sentences stand under `materials.<name>`; a sub-table named by a variant wins over
them, field by field; `notes.<word>` are single sentences that hold on top.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from printkit.guide.lines import say, say_all
from printkit.pack import Tray
from printkit.texts import Catalogue

Words = tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class TrayWords:
    """What is said about a tray; all empty but `what` for a material the catalogue does not know."""

    what: str
    notes: Words = ()
    present: Words = ()
    watch: Words = ()
    next: Words = ()

    @property
    def teaching(self) -> tuple[Words, Words, Words, Words]:
        """What two trays of a kind have in common."""
        return (self.present, self.watch, self.next, self.notes)


def tray_words(tray: Tray, line: str, texts: Catalogue) -> TrayWords:
    """The sentences for a tray. `line` stands in for an unknown material.

    Raises KeyError for a material that the catalogue knows only in part.
    """
    key = f"materials.{tray.material}"
    if not texts.has(key):
        return TrayWords(what=f"{line[:1].upper()}{line[1:]}.")
    variants, conditions = VARIANTS.get(tray.material, _plain)(tray)

    def found(field: str) -> Words:
        places = (f"{key}.{variant}.{field}" for variant in variants)
        place = next((place for place in places if texts.has(place)), f"{key}.{field}")
        return say_all(texts, place, **_values(tray))

    notes = [f"{key}.notes.{condition}" for condition in conditions]
    return TrayWords(
        what=" ".join(found("what")),
        notes=tuple(say(texts, note, **_values(tray)) for note in notes),
        present=found("present"),
        watch=found("watch"),
        next=found("next"),
    )


def _values(tray: Tray) -> dict[str, object]:
    """What a sentence may name."""
    child = tray.child
    return {
        "first": child.numbers[0],
        "last": child.numbers[1],
        "most": child.sums_to or 10,
        "level": child.lookalike,
        "harder": child.lookalike + 1,
        "child": child.name,
    }


# --- which sentences hold --------------------------------------------------------------------

Holding = tuple[Words, Words]
"""Variants, the most special first, and the notes that hold on top."""


def _plain(tray: Tray) -> Holding:
    return (), ()


def _when(**conditions: bool) -> Words:
    return tuple(word.replace("_", "-") for word, holds in conditions.items() if holds)


def _counting_cards(tray: Tray) -> Holding:
    settings = tray.settings
    zero = tray.child.numbers[0] == 0
    if settings.things == "places":
        return (f"places-{settings.layout}", "places"), _when(zero=zero)
    return (settings.layout,), _when(zero=zero)


def _strips(tray: Tray) -> Holding:
    settings = tray.settings
    return (
        (f"{settings.operation}-{settings.unknown}", settings.unknown, settings.operation),
        (),
    )


def _tracing(tray: Tray) -> Holding:
    return (tray.settings.form,), _when(left=tray.child.hand == "left")


def _clip_cards(tray: Tray) -> Holding:
    return (), _when(zero=tray.child.numbers[0] == 0)


def _odd_one_out(tray: Tray) -> Holding:
    return (f"level-{tray.child.lookalike}",), _when(sheet=tray.settings.form == "sheet")


VARIANTS: Mapping[str, Callable[[Tray], Holding]] = {
    "counting-cards": _counting_cards,
    "strips": _strips,
    "tracing": _tracing,
    "clip-cards": _clip_cards,
    "odd-one-out": _odd_one_out,
}
