"""Pairs: cards that lie face down and belong together in twos; their backs are all alike."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from printkit.chance import Chance
from printkit.checks import Flag, OneOf, Whole, Words, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.layout import SMALLEST_THING, content, fits_sheet, size_problem, sizes_for
from printkit.materials.motifs import ChosenMotif, chosen_motif
from printkit.materials.naming import SPARSE
from printkit.materials.pairs.faces import SMALLEST_WORD, Lettered, front, patterned_back
from printkit.materials.pairs.guidance import GUIDANCE
from printkit.materials.quantities import Quantities, quantities, spread_choice, widened
from printkit.pack import Tray
from printkit.pieces import Drawing, Face, Piece
from printkit.texts import Note

if TYPE_CHECKING:
    from printkit.pictures import Motif

SIZES = {
    #          square          on a sheet of A4 and of Letter
    "small": (47.0, 47.0),  # 20 and 20
    "medium": (62.0, 62.0),  # 12 and 12
    "large": (83.0, 83.0),  # 6 and 6
}
PAIRS = 6
"""How many pairs there are if nothing is asked for: one sheet of medium cards."""
LEAST_PAIRS = 3
"""Fewer are no game."""
MATCHES = ("pictures", "numeral-things", "numeral-word", "word-word")


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for pairs."""

    match: Literal["pictures", "numeral-things", "numeral-word", "word-word"] = setting(
        "pictures",
        OneOf(MATCHES),
        "what belongs together: two like pictures, numeral and things, numeral and word, "
        "the word in two languages",
    )
    pairs: int | None = setting(None, Whole(LEAST_PAIRS, 30), "how many pairs; unset: six")
    names: bool = setting(False, Flag(), "the name under each picture; with two languages one card in each")
    motif: str | None = setting(
        None, Words("the name of a motif"), "which picture of the theme is counted (numeral-things)"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a card: which pair it is of, counted from 1, and what it shows."""

    pair: int
    shows: Literal["picture", "things", "numeral", "word"]
    motif: str | None = None
    quantity: int | None = None
    numeral: int | None = None
    words: dict[str, str] = field(default_factory=dict, metadata=SPARSE)
    name: dict[str, str] = field(default_factory=dict, metadata=SPARSE)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Card:
    """What one card shows, before it is drawn."""

    facts: Facts
    drawing: Drawing | None = None
    lines: tuple[str, ...] = ()


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of pairs."""
    sizes = sizes_for(tray, room, SIZES)
    if not sizes or not fits_sheet(sizes[0], room):
        return refused(size_problem(tray, room, sizes[0] if sizes else SIZES["small"]))
    if tray.settings.match == "pictures":
        return _with_pictures(seed, tray, sizes[0])
    return _with_numbers(seed, tray, sizes)


# --- pictures --------------------------------------------------------------------------------


def _with_pictures(seed: int, tray: Tray, size: tuple[float, float]) -> Made:
    motifs = tray.child.theme.motifs
    count = tray.settings.pairs or min(PAIRS, max(LEAST_PAIRS, len(motifs)))
    if count > len(motifs):
        return refused(_too_few_motifs(tray, count))
    chosen = Chance(seed, tray.child.name, tray.set, "motifs").shuffled(motifs)[:count]
    languages, notes = _name_languages(tray, chosen)
    cards = []
    for pair, motif in enumerate(chosen, 1):
        for place in range(2):
            name = _name(motif, languages, place)
            facts = Facts(pair=pair, shows="picture", motif=motif.key, name=name)
            drawing = motif.drawing(tray.child.ink, size=round(0.7 * min(size), 1))
            cards.append(_Card(facts=facts, drawing=drawing, lines=tuple(name.values())))
    return _made(tray, size, cards, notes=notes)


def _too_few_motifs(tray: Tray, count: int):
    motifs = tray.child.theme.motifs
    there = f"{len(motifs)} picture" if len(motifs) == 1 else f"{len(motifs)} pictures"
    if len(motifs) >= LEAST_PAIRS:
        allowed = f"at most {len(motifs)} pairs"
    else:
        allowed = f"a theme with {LEAST_PAIRS} pictures or more, or match = 'numeral-things'"
    return problem(
        tray,
        "pairs" if tray.settings.pairs else "theme",
        f"{count} pairs of pictures, but the theme '{tray.child.theme.name}' has only {there}",
        allowed,
    )


def _name_languages(tray: Tray, motifs: tuple["Motif", ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The languages in which the pictures are named, and what `check` says of the others."""
    if not tray.settings.names:
        return (), ()
    from printkit.pictures.plurals import own

    named = tuple(tag for tag in tray.child.languages if all(own(tag, motif.names) for motif in motifs))
    lacking = [tag for tag in tray.child.languages if tag not in named]
    if not lacking:
        return named, ()
    return named, (Note("notes.no_pair_names", tags=tuple(lacking)),)


def _name(motif: "Motif", languages: tuple[str, ...], place: int) -> dict[str, str]:
    """The name on the first or second card of a pair, by language; none without a language."""
    if not languages:
        return {}
    tag = languages[place % len(languages)]
    return {tag: motif.name(tag)}


# --- numbers ---------------------------------------------------------------------------------


def _with_numbers(seed: int, tray: Tray, sizes: tuple[tuple[float, float], ...]) -> Made:
    settings, child = tray.settings, tray.child
    if settings.match == "word-word" and len(child.languages) < 2:
        return refused(
            problem(
                tray,
                "languages",
                f"pairs of words need two languages, found {child.languages[0]} alone",
                'two languages, such as ["en", "es"], or match = \'numeral-word\'',
            )
        )
    first, last = widened(child.numbers, LEAST_PAIRS)
    every = _told_apart(tray, range(first, last + 1))
    if settings.pairs is not None and settings.pairs > len(every):
        return refused(
            problem(
                tray,
                "pairs",
                f"{settings.pairs} pairs, but there are only {len(every)} numbers from {first} to {last}",
                f"at most {len(every)} pairs, or a wider range of numbers",
            )
        )
    chance = Chance(seed, child.name, tray.set, "numbers")
    numbers = spread_choice(every, settings.pairs or PAIRS, chance)
    notes = ()
    if (first, last) != child.numbers:
        notes = (Note("notes.pair_numbers", pairs=LEAST_PAIRS, first=first, last=last),)
    cards = [card for pair, number in enumerate(numbers, 1) for card in _number_cards(tray, pair, number)]
    if settings.match != "numeral-things":
        return _made(tray, sizes[0], cards, notes=notes)
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    tried = ((size, quantities(motif, numbers, content(size).inset(1))) for size in sizes)
    found = needs.nearest(
        (item for item in tried if item[1].thing >= SMALLEST_THING),
        lambda item: needs.merit(child, item[1].thing),
    )
    if found:
        return _made(tray, found[0], cards, found[1], notes)
    return refused(_too_many(tray, numbers, sizes[-1], motif))


def _told_apart(tray: Tray, numbers: range) -> tuple[int, ...]:
    """The numbers whose words mean no other one of them in the second language ('tres')."""
    if tray.settings.match != "word-word":
        return tuple(numbers)
    meant: dict[str, int] = {}
    kept = []
    for number in numbers:
        words = {tray.child.spelled(tag, number) for tag in tray.child.languages}
        if all(meant.get(word, number) == number for word in words):
            meant |= dict.fromkeys(words, number)
            kept.append(number)
    return tuple(kept)


def _number_cards(tray: Tray, pair: int, number: int) -> tuple[_Card, _Card]:
    words = {tag: tray.child.spelled(tag, number) for tag in tray.child.languages}
    numeral = _Card(facts=Facts(pair=pair, shows="numeral", numeral=number))
    match tray.settings.match:
        case "numeral-things":
            return numeral, _Card(facts=Facts(pair=pair, shows="things", quantity=number))
        case "numeral-word":
            facts = Facts(pair=pair, shows="word", words=words)
            return numeral, _Card(facts=facts, lines=tuple(words.values()))
        case _:
            one, two = (
                _Card(facts=Facts(pair=pair, shows="word", words={tag: word}), lines=(word,))
                for tag, word in words.items()
            )
            return one, two


def _too_many(tray: Tray, numbers: tuple[int, ...], size: tuple[float, float], motif: ChosenMotif):
    box = content(size).inset(1)
    most = max(
        (n for n in range(1, 101) if quantities(motif, range(n + 1), box).thing >= SMALLEST_THING), default=0
    )
    return problem(
        tray,
        "size" if tray.size is not None else "numbers",
        f"{numbers[-1]} things of {SMALLEST_THING:g} mm or more do not fit a card of "
        f"{size[0]:.4g} x {size[1]:.4g} mm",
        f"at most {most} there, or a larger card",
    )


# --- pieces ----------------------------------------------------------------------------------


def _made(
    tray: Tray,
    size: tuple[float, float],
    cards: list[_Card],
    things: Quantities | None = None,
    notes: tuple[str, ...] = (),
) -> Made:
    lettered = Lettered.of([card.lines for card in cards], size, under=tray.settings.match == "pictures")
    if lettered.lines and lettered.size < SMALLEST_WORD:
        return refused(
            problem(
                tray,
                "size",
                f"the words would be smaller than {SMALLEST_WORD:g} mm on cards of "
                f"{size[0]:.4g} x {size[1]:.4g} mm",
                "a larger card, such as 'large'",
            )
        )
    printed = tray.child.flip.of(tray.stock) != "none"
    back = patterned_back(tray, size) if printed else None
    numerals = tuple(card.facts.numeral for card in cards if card.facts.numeral is not None)
    total = len(cards)
    pieces = []
    for n, card in enumerate(cards, 1):
        place = f"{n} of {total}"
        face: Face = front(
            tray, size, card.facts, card.drawing, card.lines, things, lettered, numerals,
            place if printed else "",
        )  # fmt: skip
        # What stands on the back may tell no card from another.
        whose = f"{tray.child.name} · {tray.set}"
        pieces.append(
            Piece(
                child=tray.child.name,
                set=tray.set,
                material=tray.material,
                key=str(n),
                width=size[0],
                height=size[1],
                front=face,
                back=back,
                facts=card.facts,
                stock=tray.stock,
                mark=whose if printed else f"{whose} · {place}",
            )
        )
    return Made(pieces=tuple(pieces), notes=notes)


MATERIAL = Material(
    name="pairs",
    order=120,
    line="cards that lie face down and belong together in twos: pictures, or numeral, things and word",
    track="looking",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
