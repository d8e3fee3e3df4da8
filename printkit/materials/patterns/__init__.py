"""Patterns: strips that begin AB, AAB, ABB, ABC or grow, to be continued with tiles or counters."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from printkit.checks import OneOf, Whole, WordOrWords, setting
from printkit.errors import listing
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.layout import fits_sheet, set_marked, size_problem
from printkit.materials.making import piece_of
from printkit.materials.named import MotifNames
from printkit.materials.naming import SPARSE
from printkit.materials.patterns.faces import (
    GOOD,
    HIGHEST_AROUND,
    LEAST,
    Thing,
    Way,
    largest_thing,
    strip_faces,
    tile_face,
    tile_side,
)
from printkit.materials.patterns.guidance import GUIDANCE, fill_of
from printkit.materials.patterns.rules import (
    GROWING,
    RULES,
    is_clear,
    least_places,
    least_shown,
    letters_of,
    word,
)
from printkit.materials.patterns.things import Chosen, chosen_things
from printkit.pack import Tray
from printkit.pieces import Piece

SIZES = {
    #          lying          fits a sheet of A4 and of Letter
    "small":  (190.0, 31.0),   # 8 and 8 times
    "medium": (190.0, 35.9),   # 7 and 7 times
    "large":  (251.0, 47.0),   # 4 and 4 times
}  # fmt: skip
_STRIPS = 5
_SHOWN, _PLACES = 6, 3


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for patterns."""

    rules: tuple[str, ...] = setting(
        ("AB", "AAB", "ABB", "ABC"),
        WordOrWords(RULES),
        "what comes again and again; growing: A B AA B AAA B, one more each time",
    )
    fill: Literal["tiles", "counters"] | None = setting(
        None,
        OneOf(("tiles", "counters")),
        "what it is continued with: tiles with the same pictures, or counters of a kind for each picture; "
        "unset: tiles, or counters for a child who needs an easy grip",
    )
    count: int | None = setting(
        None, Whole(1, 24), "how many strips, the rules by turns; unset: 5, or one a rule"
    )
    shown: int | None = setting(
        None, Whole(4, 20), "how many pictures stand on a strip; unset: 6, or 9 where it grows"
    )
    places: int | None = setting(None, Whole(1, 12), "how many places follow; unset: 3, or 5 where it grows")
    differ: Literal["pictures", "sizes"] | None = setting(
        None,
        OneOf(("pictures", "sizes")),
        "what makes the pattern: different pictures, or one picture large and small; unset: pictures "
        "where the theme has enough",
    )
    motifs: tuple[str, ...] = setting((), MotifNames(), "which pictures it is made of; unset: by chance")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a strip, or of a tile (one letter in `tile`, nothing shown).

    `shown` and `missing` are the pattern in letters: what is drawn, and what continues it. `motifs` are the
    pictures by letter, `lengths` how long each is printed in mm. `strip` counts from 1.
    """

    strip: int
    rule: str
    motifs: dict[str, str]
    lengths: dict[str, float]
    shown: str = field(default="", metadata=SPARSE)
    missing: str = field(default="", metadata=SPARSE)
    tile: str = field(default="", metadata=SPARSE)


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Strips with the beginning of a pattern and places, and the tiles for all of them."""
    rules = _rules(tray)
    unclear = [problem for rule in dict.fromkeys(rules) for problem in _unclear(tray, rule)]
    if unclear:
        return refused(*unclear)
    sizes = [size for size in _sizes(tray, room) if fits_sheet(size, room)]
    if not sizes:
        return refused(size_problem(tray, room, _sizes(tray, room)[0]))
    chosen = chosen_things(seed, tray, [letters_of(rule) for rule in rules])
    if not isinstance(chosen, Chosen):
        return refused(chosen)
    found = {size: _thing(tray, size, rules) for size in sizes}
    least = max(LEAST, LEAST / chosen.smallest)
    size = next(
        (size for size in sizes if found[size] >= max(needs.least_thing(tray.child, GOOD), least)),
        max(sizes, key=found.__getitem__),
    )
    if found[size] < least:
        return refused(_too_long(tray, size, rules, least))
    pieces = _pieces(tray, size, rules, chosen, found[size])
    return Made(pieces=pieces, needs=_needs(tray, rules), notes=chosen.notes)


# --- which strips ----------------------------------------------------------------------------


def _rules(tray: Tray) -> tuple[str, ...]:
    """The rule of each strip, easy ones first."""
    wanted = sorted(tray.settings.rules, key=RULES.index)
    count = tray.settings.count or max(_STRIPS, len(wanted))
    return tuple(
        wanted[i * len(wanted) // count] if count >= len(wanted) else wanted[i] for i in range(count)
    )


def shown_of(tray: Tray, rule: str) -> int:
    """How many pictures a strip with that rule shows."""
    return tray.settings.shown or (least_shown(rule) if rule == GROWING else _SHOWN)


def places_of(tray: Tray, rule: str) -> int:
    """How many places it has."""
    usual = least_places(rule, shown_of(tray, rule)) if rule == GROWING else _PLACES
    return tray.settings.places or usual


def _unclear(tray: Tray, rule: str):
    """The problem with a strip that could go on in more than one way, if it could."""
    shown, places = shown_of(tray, rule), places_of(tray, rule)
    if shown >= least_shown(rule) and is_clear(rule, shown, places):
        return ()
    return (
        problem(
            tray,
            "shown",
            f"a pattern {rule} of which {shown} pictures are shown could go on in more than one way",
            f"at least {least_shown(rule)} pictures shown"
            + ("" if rule != GROWING or tray.settings.shown is None else ", or another rule"),
        ),
    )


def _needs(tray: Tray, rules: tuple[str, ...]) -> tuple[Need, ...]:
    """Counters for the strip that takes most, and one more of each kind to say what it stands for."""
    if fill_of(tray) == "tiles":
        return ()
    count = max(places_of(tray, rule) + len(letters_of(rule)) for rule in rules)
    return (Need(what="counters", count=count, size=tray.child.counter),)


# --- sizes -----------------------------------------------------------------------------------


def _sizes(tray: Tray, room: Room) -> tuple[tuple[float, float], ...]:
    """The sizes a strip may have: the one asked for, or across the sheet and along it."""
    if isinstance(tray.size, tuple):
        return (tray.size,)
    if tray.size is not None:
        return (SIZES[tray.size],)
    (across, low), (along, high) = SIZES["medium"], SIZES["large"]
    least = needs.least_piece(tray.child)
    low, high = max(low, least), max(high, least)
    lower = max(low, tray.child.counter + 2 + HIGHEST_AROUND) if fill_of(tray) == "counters" else low
    higher = max(high, lower)
    return ((min(across, room.width), lower), (min(along, max(room.width, room.height)), higher))


def _way(tray: Tray) -> Way:
    counter = tray.child.counter + 2 if fill_of(tray) == "counters" else None
    return Way(ring=counter)


def _thing(tray: Tray, size: tuple[float, float], rules: tuple[str, ...]) -> float:
    """mm of the longer side of the pictures: all strips of a set have one size of tiles."""
    return min(
        largest_thing(size, shown_of(tray, rule), places_of(tray, rule), _way(tray)) for rule in set(rules)
    )


def _too_long(tray: Tray, size: tuple[float, float], rules: tuple[str, ...], least: float):
    """The problem with a pattern that is longer than its strip, and what would fit."""
    way = _way(tray)

    def fits(shown: int, places: int) -> bool:
        return largest_thing(size, shown, places, way) >= least

    bad = [rule for rule in dict.fromkeys(rules) if not fits(shown_of(tray, rule), places_of(tray, rule))]
    rule = bad[0]
    shown, places = shown_of(tray, rule), places_of(tray, rule)
    could = []
    most = max((n for n in range(1, places) if fits(shown, n)), default=0)
    fewest = least_shown(rule)
    if most:
        could.append(f"places = {most}")
    if shown > fewest and fits(fewest, places):
        could.append(f"shown = {fewest}")
    fine = [other for other in RULES if other != rule and fits(shown_of(tray, other), places_of(tray, other))]
    if fine and GROWING in bad:
        could.append(f"rules of {listing(fine)}")
    if way.ring is not None and largest_thing(size, shown, places, Way()) >= least:
        could.append('fill = "tiles"')
    could.append("a larger size" if tray.size is not None else "larger paper")
    what = "places" if way.ring is None else f"places of {way.ring:g} mm"
    return problem(
        tray,
        _key(tray),
        f"a pattern {rule} with {shown} pictures and {places} {what} is longer or higher than a strip of "
        f"{size[0]:g} x {size[1]:g} mm",
        listing(could),
    )


def _key(tray: Tray) -> str:
    """The setting that would mend a strip that is too long."""
    if tray.settings.places is not None:
        return "places"
    if tray.settings.shown is not None:
        return "shown"
    return "size" if tray.size is not None else "paper"


# --- pieces ----------------------------------------------------------------------------------


def _pieces(tray: Tray, size, rules: tuple[str, ...], chosen: Chosen, thing: float) -> tuple[Piece, ...]:
    """All strips, then the tiles for each of them."""
    strips, tiles = [], []
    for n, (rule, things) in enumerate(zip(rules, chosen.strips, strict=True), 1):
        drawn = {letter: item.drawn(tray.child.ink, thing) for letter, item in things.items()}
        strips.append(_strip(tray, size, n, rule, drawn, thing))
        if fill_of(tray) == "tiles":
            tiles += _tiles(tray, n, rule, drawn, thing)
    return (*set_marked(strips), *tiles)


def _facts(n: int, rule: str, drawn: Mapping[str, Thing], **more: str) -> Facts:
    return Facts(
        strip=n,
        rule=rule,
        motifs={letter: item.motif.key for letter, item in drawn.items()},
        lengths={letter: item.length for letter, item in drawn.items()},
        **more,
    )


def _strip(tray: Tray, size, n: int, rule: str, drawn: Mapping[str, Thing], thing: float) -> Piece:
    shown, places = shown_of(tray, rule), places_of(tray, rule)
    whole = word(rule, shown + places)
    front, back, control = strip_faces(tray, size, whole[:shown], whole[shown:], drawn, thing, _way(tray))
    facts = _facts(n, rule, drawn, shown=whole[:shown], missing=whole[shown:])
    return piece_of(tray, size, str(n), front, facts, back=back, control=control)


def copies_of(missing: str, letters: str) -> int:
    """How many tiles there are of each picture: as many as the most used needs, so that none is told."""
    return max(Counter(missing)[letter] for letter in letters)


def _tiles(tray: Tray, n: int, rule: str, drawn: Mapping[str, Thing], thing: float) -> list[Piece]:
    shown = shown_of(tray, rule)
    missing = word(rule, shown + places_of(tray, rule))[shown:]
    side = tile_side(thing)
    return [
        piece_of(
            tray, (side, side), f"{n}-{letter.lower()}-{copy}", tile_face(side, item),
            _facts(n, rule, {letter: item}, tile=letter),
        )
        for letter, item in drawn.items()
        for copy in range(1, copies_of(missing, letters_of(rule)) + 1)
    ]  # fmt: skip


MATERIAL = Material(
    name="patterns",
    order=102,
    line="strips that begin AB, AAB, ABB, ABC or grow, to be continued with tiles or counters",
    track="looking",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
