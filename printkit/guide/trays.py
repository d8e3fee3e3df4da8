"""What the guide says about one tray: which of the catalogue's sentences hold for its settings.

A material's sentences stand under `materials.<name>`; a sub-table named by a variant wins over
them, field by field; `notes.<word>` are single sentences that hold on top.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from printkit.guide.examples import examples
from printkit.guide.lines import say, say_all
from printkit.guide.sets import GuideSet, has_back, unprinted_control
from printkit.pack import Tray
from printkit.pieces import Hollow, Traced
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
    holding = VARIANTS.get(tray.material, _plain)(item)
    values = _values(tray) | examples(item, texts.language)

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
        next=tuple(sentence for word in holding.next for sentence in found(word)) + following,
    )


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


# --- which sentences hold --------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, slots=True)
class Holding:
    """Variants, the most special first; notes that hold on top; fields that come before `next`."""

    variants: Words = ()
    notes: Words = ()
    next: Words = ()


def _plain(item: GuideSet) -> Holding:
    return Holding()


def _when(**conditions: bool) -> Words:
    return tuple(word for word, holds in conditions.items() if holds)


def _counting_cards(item: GuideSet) -> Holding:
    settings = item.tray.settings
    names = [f"layout-{settings.layout}"]
    if settings.things == "places":
        names = [f"places-{settings.layout}", "places", *names]
    bare = settings.words == "none"
    languages = len(item.tray.child.languages) > 1 and not bare
    return Holding(
        variants=tuple(each for name in names for each in ((f"bare-{name}", name) if bare else (name,))),
        notes=_when(zero=_has_zero(item), languages=languages),
    )


def _has_zero(item: GuideSet) -> bool:
    return item.tray.child.numbers[0] == 0


def _strips(item: GuideSet) -> Holding:
    settings = item.tray.settings
    grounds = {area.ground for piece in item.own for area in piece.front.areas}
    shown = "places" if "places" in grounds else "pictures" if grounds else "none"
    task = f"{settings.operation}-{settings.unknown}"
    return Holding(
        variants=(f"{shown}-{task}", task, settings.unknown, settings.operation),
        notes=_when(
            frame=shown != "none",
            places=shown == "places",
            none=shown == "none",
            own=settings.own > 0,
        ),
        next=_when(next_help=shown != "none"),
    )


def _tracing(item: GuideSet) -> Holding:
    settings = item.tray.settings
    marks = [mark for piece in item.pieces for mark in piece.front.marks]
    traced = any(isinstance(mark, Traced) for mark in marks)
    return Holding(
        variants=(settings.form, *_when(arrows=settings.help == "arrows" and traced)),
        notes=_when(
            arrows=settings.help == "arrows" and traced,
            hollow=any(isinstance(mark, Hollow) for mark in marks),
            left=item.tray.child.hand == "left" and settings.form != "card",
        ),
    )


def _clip_cards(item: GuideSet) -> Holding:
    return Holding(variants=_when(three=item.tray.settings.choices < 4), notes=_when(zero=_has_zero(item)))


def _odd_one_out(item: GuideSet) -> Holding:
    level = f"level-{item.tray.child.lookalike}"
    return Holding(variants=("sheet", level) if item.tray.settings.form == "sheet" else (level,))


VARIANTS: Mapping[str, Callable[[GuideSet], Holding]] = {
    "counting-cards": _counting_cards,
    "strips": _strips,
    "tracing": _tracing,
    "clip-cards": _clip_cards,
    "odd-one-out": _odd_one_out,
}
