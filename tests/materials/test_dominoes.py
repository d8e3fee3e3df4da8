"""Dominoes: the whole set and nothing twice, each half what it says."""

from collections import Counter
from itertools import combinations_with_replacement

import faces
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import made_of, tray

from printkit.guide import GuideSet
from printkit.guide.trays import tray_words
from printkit.materials import materials
from printkit.materials.dominoes import halves_of
from printkit.materials.dominoes.values import tiles_of
from printkit.texts import catalogue

FEW = settings(max_examples=25)


@st.composite
def sets(draw):
    """A tray of dominoes with small numbers, and what it makes."""
    first = draw(st.integers(0, 9))
    last = min(12, first + draw(st.integers(0, 9)))
    child = {"numbers": [first, last], "paper": draw(st.sampled_from(("a4", "letter", "a5", [130, 180])))}
    child["ink"] = draw(st.sampled_from(("color", "gray", "outline")))
    wanted = {"halves": draw(st.sampled_from(("things", "mixed")))}
    if last > first and draw(st.booleans()):
        wanted["values"] = draw(st.integers(2, last - first + 1))
    asked = tray("dominoes", child, **wanted)
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assert made.problems == ()
    return faces.Set(asked, made.pieces, seed)


@pytest.mark.parametrize("values", range(1, 14))
def test_the_closed_count_of_tiles(values):
    """(n + 1)(n + 2) / 2 tiles for 0 to n, against counting every two numbers once."""
    n = values - 1
    every = list(combinations_with_replacement(range(values), 2))

    assert tiles_of(values) == (n + 1) * (n + 2) // 2 == len(every)


@pytest.mark.parametrize(("last", "tiles", "pips"), [(6, 28, 168), (9, 55, 495)])
def test_the_usual_sets(last, tiles, pips):
    """Double six has 28 tiles and 168 things, double nine 55 and 495 (n(n + 1)(n + 2) / 2)."""
    made = made_of(tray("dominoes", {"numbers": [0, last]}, values=last + 1))

    assert len(made.pieces) == tiles
    assert sum(area.things for piece in made.pieces for area in piece.front.areas) == pips


@FEW
@given(sets())
def test_every_two_numbers_lie_together_once(made):
    """No tile is missing and none comes twice, whichever way round it is held."""
    tiles = Counter(tuple(sorted((piece.facts.left, piece.facts.right))) for piece in made.pieces)
    values = {value for tile in tiles for value in tile}

    assert set(tiles.values()) == {1}
    assert len(tiles) == tiles_of(len(values))
    assert values == set(range(min(values), max(values) + 1))
    wanted = made.asked.settings.values
    assert len(values) == wanted if wanted else 4 <= len(values) <= 7


@FEW
@given(sets())
def test_each_half_shows_its_number(made):
    """Things in an area of their own half, or a numeral in that half."""
    for piece in made.pieces:
        facts, halves = piece.facts, halves_of((piece.width, piece.height))
        areas, numerals = list(piece.front.areas), faces.numerals(piece.front)
        for number, how, half in zip((facts.left, facts.right), facts.shows, halves, strict=True):
            if how == "things":
                (area,) = [area for area in areas if half.holds(area.box, faces.NEAR)]
                assert area.things == number
                inside = [p for p in faces.pictures(piece.front) if area.box.holds(p.bounds(), faces.NEAR)]
                assert len(inside) == number
            else:
                (text,) = [text for text in numerals if half.meets(text.bounds())]
                assert text.run.text == str(number)
        assert len(areas) + len(numerals) == 2


@FEW
@given(sets())
def test_tiles_keep_their_distances(made):
    """4 and 6 mm from the cut, the corner of the set mark free, things apart and large enough."""
    for piece in made.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=False)
        faces.assert_numerals_stand_on_rules(piece.front)
        shown = [picture.bounds() for picture in faces.pictures(piece.front)]
        assert all(max(box.width, box.height) >= 5 - faces.NEAR for box in shown)
        assert not any(
            one.inset(-0.3).meets(two.inset(-0.3)) for i, one in enumerate(shown) for two in shown[:i]
        )


@pytest.mark.parametrize("values", range(4, 11))
def test_numerals_and_things_are_evenly_spread(values):
    """On mixed tiles every number is a numeral as often as a group of things, but for one or two."""
    made = made_of(tray("dominoes", {"numbers": [1, values]}, values=values, halves="mixed"))
    shown = Counter(
        (number, how)
        for piece in made.pieces
        for number, how in zip((piece.facts.left, piece.facts.right), piece.facts.shows, strict=True)
    )

    assert all(set(piece.facts.shows) == {"things", "numeral"} for piece in made.pieces)
    for number in range(1, values + 1):
        assert abs(shown[number, "things"] - shown[number, "numeral"]) <= 2


# --- a ring of all tiles ---------------------------------------------------------------------


def rings_of_all(values: int) -> bool:
    """Whether all tiles of so many numbers can lie in one ring, by trying every way."""
    tiles = list(combinations_with_replacement(range(values), 2))
    start = tiles[0]

    def goes_on(end: int, left: frozenset) -> bool:
        if not left:
            return end == start[0]
        return any(
            goes_on(two if one == end else one, left - {(one, two)}) for one, two in left if end in (one, two)
        )

    return goes_on(start[1], frozenset(tiles[1:]))


@pytest.mark.parametrize("values", [2, 3, 4, 5])
def test_the_whole_set_lies_in_a_ring_where_the_guide_says_so(values):
    """The note on the ring stands where trying every order finds one, and nowhere else."""
    asked = tray("dominoes", {"numbers": [1, values]}, values=values)
    made = made_of(asked)
    item = GuideSet(tray=asked, material=materials()["dominoes"], pieces=made.pieces, needs=made.needs)
    notes = " ".join(tray_words(item, catalogue("en")).notes)

    assert ("in one ring" in notes) == rings_of_all(values)


# --- which numbers ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("numbers", "used"),
    [
        ([0, 6], (0, 6)),
        ([1, 10], (1, 6)),
        ([3, 12], (3, 6)),
        ([4, 20], (4, 10)),
        ([0, 100], (0, 6)),
        ([5, 5], (2, 5)),
        ([1, 2], (1, 4)),
        ([0, 1], (0, 3)),
    ],
)
def test_which_numbers_are_taken(numbers, used):
    """Up to seven from the first on, at least four: downwards where there is room, and `check` says so."""
    made = made_of(tray("dominoes", {"numbers": numbers}))
    values = {value for piece in made.pieces for value in (piece.facts.left, piece.facts.right)}

    assert (min(values), max(values)) == used
    told = f"the {tiles_of(len(values))} tiles show the numbers {used[0]} to {used[1]}"
    assert made.notes == (() if tuple(numbers) == used else (told,))


@pytest.mark.parametrize(
    ("child", "settings", "found", "allowed"),
    [
        (
            {"numbers": [3, 6]},
            {"values": 5},
            "5 different numbers, but from 3 to 6 there are only 4",
            "at most 4, or a wider range of numbers",
        ),
        (
            {"numbers": [5, 12]},
            {"size": "small"},
            "11 things of 5 mm or more do not fit half a tile of 62 x 41.5 mm",
            "at most 6 there, or a larger tile",
        ),
    ],
)
def test_what_cannot_be_made_is_told(child, settings, found, allowed):
    """More numbers than the range holds; more things than half a tile holds."""
    (problem,) = made_of(tray("dominoes", child, **settings)).problems

    assert (problem.found, problem.allowed) == (found, allowed)
