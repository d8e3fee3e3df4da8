"""Counting cards: things, a numeral and its words; on one card, front and back, or apart to be matched."""

from dataclasses import dataclass, field, replace
from typing import Literal

from printkit.chance import Chance
from printkit.checks import OneOf, WordOrWords, Words, setting
from printkit.materials import arrange as arranging
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.counting_cards.guidance import GUIDANCE
from printkit.materials.frames import frame_marks, ground_marks
from printkit.materials.layout import (
    BEHIND,
    INK,
    SMALLEST_THING,
    SOFT,
    accent,
    content,
    fits_sheet,
    hairline,
    numeral,
    numeral_height,
    pictures,
    set_marked,
    shape_of,
    size_problem,
    sizes_for,
)
from printkit.materials.motifs import ChosenMotif, chosen_motif
from printkit.materials.naming import MODES, SPARSE, Naming, height_of, naming, written
from printkit.pack import Tray
from printkit.pieces import Area, Color, Dot, Drawing, Face, Ground, Mark, Piece
from printkit.units import Rect, micrometres


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for counting cards."""

    layout: Literal["whole", "back", "pair", "triple"] = setting(
        "whole",
        OneOf(("whole", "back", "pair", "triple")),
        "things, numeral and words on one card; numeral and words on the back; apart; with a control card",
    )
    things: Literal["drawn", "places"] = setting(
        "drawn", OneOf(("drawn", "places")), "things drawn, or empty places for loose counters"
    )
    arrange: tuple[str, ...] = setting(
        ("auto",),
        WordOrWords((*arranging.ARRANGEMENTS, "auto")),
        "how the things lie; with a list every number gets one card each",
    )
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is counted")
    words: Literal["number", "phrase", "none"] = setting(
        "number", OneOf(MODES), "number words, what is counted with them (three crabs), or no words"
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a counting card; `numeral` and `words` only where the card carries them.

    `words` are bare number words; a language in `phrases` has its phrase on the card instead.
    """

    quantity: int
    arrangement: str | None
    numeral: int | None
    words: dict[str, str]
    phrases: dict[str, str] = field(default_factory=dict, metadata=SPARSE)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Card:
    """One arrangement of one number, before it is drawn."""

    number: int
    arrange: str
    key: str


@dataclass(frozen=True, kw_only=True, slots=True)
class _Plan:
    """What all cards of the set share: sizes, the picture, the size of a thing, the words."""

    tray: Tray
    naming: Naming
    seed: int
    size: tuple[float, float]
    thing: float
    drawing: Drawing | None
    wide: float
    high: float
    grounded: bool

    def chance(self, card: _Card) -> Chance:
        return _chance(self.seed, self.tray, card)


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of counting cards for the child's numbers."""
    settings: Settings = tray.settings
    cards = _cards(tray)
    wrong = _impossible(tray, cards)
    if wrong:
        return refused(wrong)
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    sizes = sizes_for(tray, room)
    if not sizes or not fits_sheet(sizes[0], room):
        return refused(size_problem(tray, room, sizes[0] if sizes else (62.0, 88.0)))
    words, notes = _naming(tray, motif)
    plan = _plan(seed, words, tray, cards, sizes, motif)
    if plan is None:
        return refused(_too_many(seed, words, tray, cards, sizes[-1], motif))
    pieces = [piece for card in cards for piece in _pieces(plan, card)]
    gather = ()
    if settings.things == "places":
        most = max(card.number for card in cards)
        gather = (Need(what="counters", count=most, size=tray.child.counter),)
    return Made(pieces=set_marked(pieces), needs=gather, notes=notes)


# --- which cards -----------------------------------------------------------------------------


def _cards(tray: Tray) -> list[_Card]:
    first, last = tray.child.numbers
    wanted = tray.settings.arrange
    cards = []
    for number in range(first, last + 1):
        for name in wanted:
            arrange = arranging.picked(number) if name == "auto" else name
            key = str(number) if len(wanted) == 1 else f"{number}-{name}"
            cards.append(_Card(number=number, arrange=arrange, key=key))
    return cards


def _impossible(tray: Tray, cards: list[_Card]):
    if tray.settings.things == "places":
        return None
    bad = arranging.impossible([(card.number, card.arrange) for card in cards])
    return problem(tray, "arrange", bad, arranging.LIMITS) if bad else None


def _naming(tray: Tray, motif: ChosenMotif) -> tuple[Naming, tuple[str, ...]]:
    counted = motif.motif if tray.settings.things == "drawn" else None
    return naming(tray.child, tray.settings.words, counted, _numbers(tray))


def _numbers(tray: Tray) -> range:
    first, last = tray.child.numbers
    return range(first, last + 1)


def _chance(seed: int, tray: Tray, card: _Card) -> Chance:
    return Chance(seed, tray.child.name, tray.set, card.key)


# --- sizes -----------------------------------------------------------------------------------


def _plan(seed, words, tray, cards, sizes, motif) -> _Plan | None:
    """The smallest card on which things are large enough; None if none is.

    For a child who needs them large it is the card that comes nearest to it.
    """
    settings: Settings = tray.settings
    found: list[tuple[float, _Plan]] = []
    drawing = motif.drawing(20.0) if settings.things == "drawn" else None
    wide, high = shape_of(drawing) if drawing else (1.0, 1.0)
    grounded = tray.child.numbers[0] == 0
    for size in sizes:
        if settings.things == "places":
            place = tray.child.counter + 2
            box = _things_box(tray, words, size)
            fits = all(_places_fit(card.number, box, place) for card in cards)
            thing = place if fits else 0.0
        else:
            box = _things_box(tray, words, size)
            thing = min(_largest(seed, tray, card, box, wide, high) for card in cards)
            thing = min(thing, 0.42 * min(box.width, box.height))
        if thing >= SMALLEST_THING:
            plan = _Plan(
                tray=tray, naming=words, seed=seed, size=size, thing=thing, drawing=drawing,
                wide=wide, high=high, grounded=grounded,
            )  # fmt: skip
            merit = needs.merit(tray.child, thing, _figure_high(plan))
            found.append((merit, plan))
            if merit >= 1 or len(sizes) == 1:
                break
    if not found:
        return None
    plan = max(found, key=lambda item: item[0])[1]
    return replace(plan, drawing=motif.drawing(plan.thing) if drawing else None)


def _figure_high(plan: _Plan) -> float | None:
    """The height of the numerals of a set in mm; None where no card shows any."""
    layout, places = plan.tray.settings.layout, plan.tray.settings.things == "places"
    if layout in ("whole", "triple"):
        box = _parts(plan.tray, plan.naming, plan.size)[1]
    elif places:
        box = _with_numeral(plan.tray, plan.size)[1]
    elif layout == "pair":
        box = content(plan.size)
        box = Rect(box.left, box.top, box.width, 0.42 * box.height)
    else:
        return None
    return numeral_height(_numbers(plan.tray), box.height - _RULE, box.width, plan.tray.child.numerals)


_RULE = 1.5
"""mm under a numeral that its rule takes."""


def _tall(tray: Tray, usual: float, most: float) -> float:
    """The height of the box of a numeral: what is usual, or what the child needs, up to `most`."""
    wanted = needs.least_numeral(tray.child)
    return max(usual, min(wanted + _RULE, most)) if wanted else usual


def _largest(seed, tray, card, box, wide, high) -> float:
    return arranging.largest(card.number, card.arrange, box, wide, high, _chance(seed, tray, card))


def _places_fit(number: int, box: Rect, place: float) -> bool:
    return number == 0 or arranging.grid_for(number, box, place) is not None


def _too_many(seed, words, tray, cards, size, motif):
    box = _things_box(tray, words, size)
    last = tray.child.numbers[1]
    if tray.settings.things == "places":
        place = tray.child.counter + 2
        what = f"places of {place:g} mm"
    else:
        wide, high = shape_of(motif.drawing(20.0))
        what = f"things of {SMALLEST_THING:g} mm or more"
    ways = sorted({card.arrange for card in cards})

    def fits(number: int) -> bool:
        if tray.settings.things == "places":
            return _places_fit(number, box, place)
        trial = [
            _Card(number=number, arrange=arrange, key=str(number))
            for arrange in ways
            if arranging.possible(number, arrange)
        ]
        return bool(trial) and all(
            _largest(seed, tray, card, box, wide, high) >= SMALLEST_THING for card in trial
        )

    most = max((number for number in range(1, last) if fits(number)), default=0)
    return problem(
        tray,
        "size" if tray.size is not None else "numbers",
        f"{last} {what} do not fit a card of {size[0]:g} x {size[1]:g} mm",
        f"at most {most} there, or a larger card",
    )


# --- drawing ---------------------------------------------------------------------------------


def _parts(tray: Tray, naming: Naming, size: tuple[float, float]) -> tuple[Rect, Rect, Rect]:
    """The boxes for things, numeral and words on a card that shows all three, from top to bottom."""
    box = content(size)
    words_high = height_of(naming, _numbers(tray), box.width, _small_words(tray, size))
    numeral_high = _tall(tray, min(26.0, 0.22 * box.height), 0.36 * box.height)
    gap = 3.0 if words_high else 1.5
    words = Rect(box.left, box.bottom - words_high, box.width, words_high)
    figure = Rect(box.left, words.top - gap - numeral_high, box.width, numeral_high)
    if words_high and needs.is_large(tray.child) and box.width > _LYING * box.height:
        # Beside each other numeral and words leave more height to the things.
        half = box.width / 2
        figure = Rect(box.left, box.bottom - _OVER_MARK - numeral_high, half, numeral_high)
        words = Rect(box.left + half, figure.top + (numeral_high - words_high) / 2, half, words_high)
    apart = 4.5 if figure.width < box.width else 5.0
    things = Rect(box.left + 1, box.top + 1, box.width - 2, figure.top - apart - box.top - 1)
    return things, figure, words


_OVER_MARK = 2.5
"""mm that the rule of a large numeral keeps from the set mark below it."""
_LYING = 1.2
"""How much wider than high a card is on which words stand beside a large numeral."""


def _small_words(tray: Tray, size: tuple[float, float]) -> float:
    """The largest words on a card that shows things too, in mm an em."""
    return min(12.0 if needs.is_large(tray.child) else 6.0, size[0] * 0.085)


def _things_box(tray: Tray, naming: Naming, size: tuple[float, float]) -> Rect:
    """Where the things lie on the cards of this tray."""
    layout = tray.settings.layout
    if layout in ("whole", "triple"):
        return _parts(tray, naming, size)[0]
    if tray.settings.things == "places":
        return _with_numeral(tray, size)[0]
    return content(size).inset(1.5)


def _with_numeral(tray: Tray, size: tuple[float, float]) -> tuple[Rect, Rect]:
    """The boxes for places and for the numeral that says how many to lay."""
    box = content(size)
    high = _tall(tray, min(26.0, 0.24 * box.height), 0.36 * box.height)
    figure = Rect(box.left, box.bottom - high - 1.5, box.width, high)
    return Rect(box.left + 1, box.top + 1, box.width - 2, figure.top - 4 - box.top - 1), figure


def _centered(box: Rect, size: tuple[float, float]) -> Rect:
    """A box of the same size in the middle of the card, for a card that shows things alone."""
    whole = content(size)
    return Rect(box.left, micrometres(whole.top + (whole.height - box.height) / 2), box.width, box.height)


def _things(plan: _Plan, card: _Card, box: Rect) -> tuple[tuple[Mark, ...], tuple[Area, ...]]:
    """The marks of the things in their arrangement, and the area in which they can be counted."""
    ground: Ground = "none"
    marks: list[Mark] = list(ground_marks(box)) if plan.grounded else []
    if plan.tray.settings.things == "places":
        places = arranging.grid_for(card.number, box, plan.thing) if card.number else ()
        radius = plan.tray.child.counter / 2 + 1
        marks += [Dot(x=x, y=y, radius=radius, stroke=SOFT, line=0.3) for x, y in places]
        return tuple(marks), (Area(box=box, things=0, ground="places"),)
    if card.arrange == "frame":
        ground = "frame"
        for frame in arranging.frames(card.number, box, plan.thing / arranging.FRAME_FILL):
            marks += frame_marks(frame)
    boxes = arranging.laid(
        card.number, card.arrange, box, plan.thing, plan.wide, plan.high, plan.chance(card)
    )
    marks += pictures(plan.drawing, boxes)
    return tuple(marks), (Area(box=box, things=card.number, ground=ground),)


def _figure(plan: _Plan, number: int, box: Rect, color: Color = INK) -> tuple[Mark, ...]:
    """The numeral in the middle of a box; as high as the widest of the set allows."""
    first, last = plan.tray.child.numbers
    numerals = plan.tray.child.numerals
    height = numeral_height(range(first, last + 1), box.height - _RULE, box.width, numerals)
    base = box.top + (box.height + height - 1.5) / 2
    return numeral(str(number), box.left + box.width / 2, base, height, numerals, color=color)


def _label_marks(plan: _Plan, number: int, color: Color) -> tuple[Mark, ...]:
    """Numeral and words large in the middle of a card of their own."""
    box = content(plan.size)
    word = min(9.0, plan.size[0] * 0.11)
    numbers = _numbers(plan.tray)
    words_high = height_of(plan.naming, numbers, box.width, word)
    if words_high > box.height / 2:
        word *= box.height / 2 / words_high
        words_high = height_of(plan.naming, numbers, box.width, word)
    gap = max(4.0, 0.07 * box.height) if words_high else 0.0
    high = min(0.42 * box.height, 60.0, box.height - gap - words_high - 1)
    top = box.top + (box.height - high - gap - words_high) / 2
    figure = Rect(box.left, top, box.width, high)
    under = Rect(box.left, figure.bottom + gap, box.width, words_high)
    return (
        *_figure(plan, number, figure, color),
        *written(plan.naming, numbers, number, under, word, color=color),
    )


def _pieces(plan: _Plan, card: _Card) -> list[Piece]:
    """The pieces of one card, by the layout."""
    tray, number = plan.tray, card.number
    frame = hairline(plan.size, accent(tray))
    places = tray.settings.things == "places"
    arrangement = None if places else card.arrange
    facts = Facts(
        quantity=number,
        arrangement=arrangement,
        numeral=number,
        words=plan.naming.words(number),
        phrases=plan.naming.phrases(number),
    )
    box = _things_box(tray, plan.naming, plan.size)
    thing_marks, areas = _things(plan, card, box)
    if tray.settings.layout == "triple" and not places:
        lone_marks, lone_areas = _things(plan, card, _centered(box, plan.size))
    else:
        lone_marks, lone_areas = thing_marks, areas
    _, figure_box, words_box = _parts(tray, plan.naming, plan.size)
    whole = Face(
        marks=(
            frame,
            *thing_marks,
            *_figure(plan, number, figure_box),
            *written(plan.naming, _numbers(tray), number, words_box, _small_words(plan.tray, plan.size)),
        ),
        areas=areas,
    )
    behind = tray.settings.layout == "back"
    label = Face(marks=(frame, *_label_marks(plan, number, BEHIND if behind else INK)))
    asked = _figure(plan, number, _with_numeral(tray, plan.size)[1]) if places else ()
    things = Face(marks=(frame, *lone_marks, *asked), areas=lone_areas)
    bare = replace(facts, words={}, phrases={}, numeral=number if places else None)
    named = replace(facts, arrangement=None)

    def piece(key: str, front: Face, facts: Facts, back: Face | None = None) -> Piece:
        return Piece(
            child=tray.child.name,
            set=tray.set,
            material=tray.material,
            key=key,
            width=plan.size[0],
            height=plan.size[1],
            front=front,
            back=back,
            facts=facts,
            stock=tray.stock,
        )

    match tray.settings.layout:
        case "whole":
            return [piece(card.key, whole, facts)]
        case "back":
            return [piece(card.key, things, facts, label)]
        case "pair":
            return [
                piece(f"{card.key}-things", things, bare),
                piece(f"{card.key}-label", label, named),
            ]
        case _:
            return [
                piece(f"{card.key}-control", whole, facts),
                piece(f"{card.key}-things", things, bare),
                piece(f"{card.key}-label", label, named),
            ]


MATERIAL = Material(
    name="counting-cards",
    order=10,
    line="things to count with their numeral and words, on one card, on its back or apart",
    track="counting",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
