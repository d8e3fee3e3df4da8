"""Count-and-clip cards: count the things, put a clothespin on the right numeral, look behind it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from printkit.chance import Chance
from printkit.checks import Whole, WordOrWords, Words, setting
from printkit.materials import arrange as arranging
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.frames import frame_marks, ground_marks
from printkit.materials.guidance import Guidance, Holding, Key, Say, bold, when
from printkit.materials.layout import (
    CONTENT_INSET,
    HAIRLINE_INSET,
    MARK_STRIP,
    SMALLEST_THING,
    SOFT,
    accent,
    fits_sheet,
    hairline,
    hatching,
    numeral,
    numeral_height,
    pictures,
    set_marked,
    shape_of,
    size_problem,
    sizes_for,
)
from printkit.materials.motifs import ChosenMotif, chosen_motif
from printkit.materials.spread import spread_places
from printkit.pack import Tray
from printkit.pieces import Area, Box, Dot, Face, Ground, Line, Mark, Piece
from printkit.units import Rect, micrometres

ZONE_DEPTH = 16.0
"""mm from the cut that a clothespin may cover; jaws cover the outer 10 to 20 mm (from memory)."""
LEAST_PITCH = needs.PEG_PITCH
"""mm between two clip zones, for a child without other needs."""
CONTROL_WIDTH = 18.0
"""mm of the bar on the back; wider than a peg, so that it shows beside it."""
CONTROL_NEAR, CONTROL_FAR = 10.0, 25.0
"""The bar reaches from here to there, in mm inside the edge, so that it shows below a peg too."""
SIZES = {
    #          lying         fits a sheet of A4 and of Letter
    "small":  (88.0, 62.0),   # 9 and 8 times
    "medium": (94.0, 83.5),   # 6 and 6 times
    "large":  (125.0, 94.0),  # 4 and 4 times
}  # fmt: skip
_FIGURE_GAP = 9.0
"""mm that stay free between a numeral and the edges of its zone, both sides together."""


_BESIDE_RINGS = 9.0
"""mm of things that are not lost beside rings for counters; smaller ones only where there is no room."""
_LARGE_GAP = 5.0
"""mm beside a numeral that is large for a child's sake: the line between zones tells them apart."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for clip cards."""

    choices: int = setting(3, Whole(3, 4), "how many numerals to choose from")
    arrange: tuple[str, ...] = setting(
        ("auto",),
        WordOrWords((*arranging.ARRANGEMENTS, "auto")),
        "how the things lie; with a list every number gets one card each",
    )
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is counted")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a clip card; `answer` counts from 0, from the left of the upright card."""

    quantity: int
    arrangement: str
    choices: tuple[int, ...]
    answer: int


@dataclass(frozen=True, kw_only=True, slots=True)
class _Card:
    number: int
    arrange: str
    key: str


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of clip cards for the child's numbers."""
    cards = _cards(tray)
    wrong = _impossible(tray, cards)
    if wrong:
        return refused(wrong)
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    wide_enough = 2 * HAIRLINE_INSET + needs.pitch(tray.child) * tray.settings.choices
    high_enough = 50.0 + zone_depth(tray) - ZONE_DEPTH
    sizes = [
        size for size in sizes_for(tray, room, SIZES) if size[0] >= wide_enough and size[1] >= high_enough
    ]
    if not sizes and tray.size is not None and needs.is_easy_grip(tray.child):
        return _pegged(seed, tray, room)
    if not sizes:
        asked = tray.size if isinstance(tray.size, tuple) else None
        if (asked and fits_sheet(asked, room)) or isinstance(tray.size, str):
            return refused(
                problem(
                    tray,
                    "size",
                    f"a card of this size has no room for {tray.settings.choices} {_marker(tray)}",
                    f"at least {wide_enough:g} x {high_enough:g} mm",
                )
            )
        return refused(size_problem(tray, room, asked or (wide_enough, high_enough)))
    if not fits_sheet(sizes[0], room):
        return refused(size_problem(tray, room, sizes[0]))
    found = []
    for size in sizes:
        thing = _thing(seed, tray, cards, size, motif)
        if thing >= SMALLEST_THING:
            merit = needs.merit(tray.child, thing, _figure(tray, size, cards))
            if needs.places(tray.child):
                merit = min(merit, thing / _BESIDE_RINGS)
            found.append((merit, size, thing))
            if merit >= 1:
                break
    if found:
        _, size, thing = max(found, key=lambda item: item[0])
        return _made(seed, tray, cards, size, thing, motif)
    return refused(_too_many(seed, tray, cards, sizes[-1], motif))


def _pegged(seed: int, tray: Tray, room: Room) -> Made:
    """Cards of the size asked for, which has no room for rings: they are for clothespins."""
    others = tuple(need for need in tray.child.needs if need != "easy-grip")
    made = make(seed, replace(tray, child=replace(tray.child, needs=others)), room)
    if not made.pieces:
        return made
    note = (
        f"the size asked for has no room for {tray.settings.choices} rings {needs.pitch(tray.child):g} mm "
        "apart, as 'easy-grip' asks for, so the numerals are for clothespins"
    )
    return replace(made, notes=(*made.notes, note))


def _marker(tray: Tray) -> str:
    return "counters" if needs.places(tray.child) else "clothespins"


def _cards(tray: Tray) -> list[_Card]:
    first, last = tray.child.numbers
    wanted = tray.settings.arrange
    return [
        _Card(
            number=number,
            arrange=arranging.picked(number) if name == "auto" else name,
            key=str(number) if len(wanted) == 1 else f"{number}-{name}",
        )
        for number in range(first, last + 1)
        for name in wanted
    ]


def _impossible(tray: Tray, cards: list[_Card]):
    bad = arranging.impossible([(card.number, card.arrange) for card in cards])
    return problem(tray, "arrange", bad, arranging.LIMITS) if bad else None


# --- choices ---------------------------------------------------------------------------------


def allowed_places(number: int, first: int, count: int) -> tuple[int, ...]:
    """Where the answer may stand among `count` rising neighbours.

    The choices may leave the child's range, but never go below 1 unless the range holds 0.
    """
    least = 0 if first == 0 else 1
    return tuple(place for place in range(count) if number - place >= least)


def _answers(seed: int, tray: Tray, cards: list[_Card]) -> tuple[int, ...]:
    first = tray.child.numbers[0]
    chance = Chance(seed, tray.child.name, tray.set, "places")
    return spread_places(
        [allowed_places(card.number, first, tray.settings.choices) for card in cards], chance
    )


# --- sizes -----------------------------------------------------------------------------------


def ring(tray: Tray) -> float:
    """mm across of the ring for a counter, or 0 where the choices are for clothespins."""
    return tray.child.counter + 2 if needs.places(tray.child) else 0.0


def zone_depth(tray: Tray) -> float:
    """mm from the lower edge that belong to the clothespin, or to the ring for a counter."""
    place = ring(tray)
    return CONTENT_INSET + MARK_STRIP + place + 1.5 if place else ZONE_DEPTH


def _things_box(tray: Tray, size: tuple[float, float]) -> Rect:
    width, height = size
    top = CONTENT_INSET + 1
    bottom = height - zone_depth(tray) - _figure_height(tray, size) - 9
    return Rect(CONTENT_INSET + 1, top, width - 2 * CONTENT_INSET - 2, bottom - top)


def _figure_height(tray: Tray, size: tuple[float, float]) -> float:
    usual = min(18.0, 0.17 * size[1])
    return max(usual, min(needs.least_numeral(tray.child), 0.3 * size[1]))


def _chance(seed: int, tray: Tray, card: _Card) -> Chance:
    return Chance(seed, tray.child.name, tray.set, card.key)


def _thing(seed, tray, cards, size, motif: ChosenMotif) -> float:
    box = _things_box(tray, size)
    wide, high = shape_of(motif.drawing(20.0))
    most = min(
        arranging.largest(card.number, card.arrange, box, wide, high, _chance(seed, tray, card))
        for card in cards
    )
    return min(most, 0.45 * min(box.width, box.height))


def _too_many(seed, tray, cards, size, motif: ChosenMotif):
    last = max(card.number for card in cards)
    ways = sorted({card.arrange for card in cards})

    def fits(number: int) -> bool:
        trial = [
            _Card(number=number, arrange=arrange, key=str(number))
            for arrange in ways
            if arranging.possible(number, arrange)
        ]
        return bool(trial) and _thing(seed, tray, trial, size, motif) >= SMALLEST_THING

    most = max((number for number in range(1, last) if fits(number)), default=0)
    return problem(
        tray,
        "size" if tray.size is not None else "numbers",
        f"{last} things of {SMALLEST_THING:g} mm or more do not fit a card of {size[0]:g} x {size[1]:g} mm",
        f"at most {most} there, or a larger card",
    )


# --- drawing ---------------------------------------------------------------------------------


def _made(seed, tray, cards, size, thing, motif: ChosenMotif) -> Made:
    drawing = motif.drawing(thing)
    wide, high = shape_of(drawing)
    box = _things_box(tray, size)
    grounded = tray.child.numbers[0] == 0
    figure = _figure(tray, size, cards)
    pieces = []
    for card, answer in zip(cards, _answers(seed, tray, cards), strict=True):
        ground: Ground = "none"
        marks: list[Mark] = [hairline(size, accent(tray))]
        if grounded:
            marks += ground_marks(box)
        if card.arrange == "frame":
            ground = "frame"
            for frame in arranging.frames(card.number, box, thing / arranging.FRAME_FILL):
                marks += frame_marks(frame)
        boxes = arranging.laid(card.number, card.arrange, box, thing, wide, high, _chance(seed, tray, card))
        choices = tuple(card.number - answer + i for i in range(tray.settings.choices))
        zones = _zones(tray, size, len(choices))
        marks += pictures(drawing, boxes)
        marks += _choice_marks(tray, size, choices, zones, figure)
        back, control = _control(tray, size, zones[answer])
        pieces.append(
            Piece(
                child=tray.child.name,
                set=tray.set,
                material=tray.material,
                key=card.key,
                width=size[0],
                height=size[1],
                front=Face(marks=tuple(marks), areas=(Area(box=box, things=card.number, ground=ground),)),
                back=back,
                facts=Facts(quantity=card.number, arrangement=card.arrange, choices=choices, answer=answer),
                stock=tray.stock,
                zones=zones,
                control=control,
            )
        )
    count = min(len(pieces), 10)
    need = (
        Need(what="counters", count=count, size=tray.child.counter)
        if needs.places(tray.child)
        else Need(what="pegs", count=count)
    )
    return Made(pieces=set_marked(pieces), needs=(need,))


def _zones(tray: Tray, size: tuple[float, float], count: int) -> tuple[Rect, ...]:
    """The clip zones along the lower edge, from the left, within the hairline's sides."""
    pitch = (size[0] - 2 * HAIRLINE_INSET) / count
    depth = zone_depth(tray)
    return tuple(
        Rect(
            micrometres(HAIRLINE_INSET + i * pitch),
            micrometres(size[1] - depth),
            micrometres(pitch),
            micrometres(depth),
        )
        for i in range(count)
    )


def _figure(tray: Tray, size, cards: list[_Card]) -> float:
    """The height of all numerals of the set: the widest one has room above its zone."""
    count = tray.settings.choices
    last = max(card.number for card in cards) + count - 1
    gap = _LARGE_GAP if needs.is_large(tray.child) else _FIGURE_GAP
    room = _zones(tray, size, count)[0].width - gap
    return numeral_height(range(last + 1), _figure_height(tray, size), room, tray.child.numerals)


def _choice_marks(tray: Tray, size, choices, zones, height: float) -> list[Mark]:
    """The numerals above their zones, with a ring where the jaws or the counter go and fine lines between."""
    marks: list[Mark] = []
    base = size[1] - zone_depth(tray) - 2.2
    radius = ring(tray) / 2 or 2.4
    for choice, zone in zip(choices, zones, strict=True):
        middle = zone.left + zone.width / 2
        marks += numeral(str(choice), middle, base, height, tray.child.numerals)
        marks.append(
            Dot(
                x=middle,
                y=micrometres(size[1] - CONTENT_INSET - MARK_STRIP - radius - 0.2),
                radius=radius,
                stroke=SOFT,
                line=0.3,
            )
        )
    for zone in zones[1:]:
        top, bottom = base - height, size[1] - CONTENT_INSET - MARK_STRIP
        marks.append(Line(x1=zone.left, y1=top, x2=zone.left, y2=bottom, color=(0.75,), line=0.2))
    return marks


def _control(tray: Tray, size, zone: Rect) -> tuple[Face, Rect]:
    """The back: a light bar behind the right zone, seen after turning the card like a page."""
    middle = size[0] - (zone.left + zone.width / 2)
    half = min(CONTROL_WIDTH, zone.width - 2) / 2
    left = max(middle - half, CONTENT_INSET + 0.2)
    right = min(middle + half, size[0] - CONTENT_INSET - 0.2)
    far = micrometres(max(CONTROL_FAR, zone.height - 2)) if needs.places(tray.child) else CONTROL_FAR
    bar = Rect(micrometres(left), size[1] - far, micrometres(right - left), far - CONTROL_NEAR)
    outline = Box(
        x=bar.left, y=bar.top, width=bar.width, height=bar.height, radius=1.5, stroke=(0.7,), line=0.3
    )
    return Face(marks=(hairline(size, accent(tray)), outline, *hatching(bar.inset(0.8)))), bar


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    return Holding(
        variants=when(rings=pieces[0].zones[0].height > ZONE_DEPTH, three=tray.settings.choices < 4),
        notes=when(zero=tray.child.numbers[0] == 0),
    )


def _key(pieces: Sequence[Piece], say: Say) -> Key:
    return Key(lines=tuple(_answer(piece.facts, number, say) for number, piece in enumerate(pieces, 1)))


def _answer(facts: Facts, number: int, say: Say) -> str:
    choices = [
        bold(str(choice)) if place == facts.answer else str(choice)
        for place, choice in enumerate(facts.choices)
    ]
    return say("guide.keys.clip-cards.entry", n=number, place=facts.answer + 1, choices=" · ".join(choices))


MATERIAL = Material(
    name="clip-cards",
    order=40,
    line="things to count and three or four numerals; a clothespin marks the right one",
    track="counting",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=Guidance(holding=_holding, key=_key),
)
