"""What a child needs: pieces of every material measured in mm, with large, easy-grip and color-safe."""

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, read, room_of, tray

from printkit.build import plan, summary
from printkit.materials import materials, needs
from printkit.materials.layout import is_border
from printkit.pieces import Picture, Text, Traced
from printkit.sheets import turned_to_fit

NEEDS = ("large", "easy-grip", "color-safe")
EVERY = tuple(materials())
PAPERS = ("a4", "letter")
FIRST = {"numbers": [1, 5], "sums_to": 5, "theme": PLAIN_THEME}
"""A young child, for whom all that is needed finds room on a sheet with most materials."""


@cache
def made(name, wanted, paper="a4", first=1, last=5):
    """What a material makes by its defaults for a child with those needs."""
    child = {**FIRST, "paper": paper, "needs": list(wanted), "numbers": [first, last], "sums_to": max(2, last)}
    asked = tray(name, child)
    return asked, made_of(asked)


def things(pieces):
    """mm of the longer side of each picture on a front."""
    marks = (mark for piece in pieces for mark in piece.front.marks if isinstance(mark, Picture))
    return [max(mark.width, mark.height) for mark in marks if not is_border(mark.drawing)]


def numerals(pieces):
    """mm of the height of each numeral on a front."""
    marks = (mark for piece in pieces for mark in piece.front.marks if isinstance(mark, Text | Traced))
    return [mark.bounds().height for mark in marks if mark.run.text.isdigit()]


def sides(name, pieces):
    """mm of the shorter side of each piece that a child takes in hand."""
    handled = materials()[name].handled
    return [min(piece.width, piece.height) for piece in pieces if piece.cut and handled(piece)]


# --- the table -------------------------------------------------------------------------------


def test_the_table_says_what_each_need_asks_for():
    """20 mm things, 40 mm numerals, 70 mm pieces, 28 mm from choice to choice, 25 mm lines (the contract)."""
    child = tray("counting-cards", {"needs": list(NEEDS)}).child

    assert (needs.least_thing(child), needs.least_numeral(child)) == (20, 40)
    assert (needs.least_piece(child), needs.pitch(child), needs.line(child, 8.0)) == (70, 28, 25)


def test_a_child_without_needs_gets_what_all_children_get():
    """The table changes nothing for it."""
    child = tray("counting-cards").child

    assert (needs.least_thing(child, 6.0), needs.least_numeral(child, 7.0)) == (6, 7)
    assert (needs.least_piece(child, 31.0), needs.pitch(child), needs.line(child, 8.0)) == (31, 20, 8)
    assert needs.merit(child, thing=1.0, numeral=1.0) == 1


def test_large_counters_have_their_rings_apart():
    """A ring is 2 mm larger than its counter, and 4 mm or more lie between two of them."""
    child = tray("clip-cards", {"needs": "easy-grip", "counter": 40}).child

    assert needs.pitch(child) >= 40 + 2 + 4


@pytest.mark.parametrize(
    "written, read_as",
    [("large", ("large",)), (["color-safe", "large"], ("large", "color-safe")), ([], ()),
     ("colour-safe", ("color-safe",)), (["large", "large"], ("large",))],
)  # fmt: skip
def test_needs_are_a_word_or_a_list(written, read_as):
    """In any order, in either spelling; an empty list takes back what stands above."""
    assert tray("counting-cards", {"needs": written}).child.needs == read_as


def test_a_tray_may_set_needs_anew():
    """Pack, child and tray: the nearest one wins."""
    made = {
        "needs": "large",
        "children": [{"name": "Wren", "materials": ["bingo", {"make": "pairs", "needs": ["easy-grip"]}]}],
    }
    bingo, pairs = read(made).children[0].trays

    assert (bingo.child.needs, pairs.child.needs) == (("large",), ("easy-grip",))


# --- every material --------------------------------------------------------------------------


ANY = [("large",), ("easy-grip",), NEEDS]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("wanted", ANY, ids="+".join)
@pytest.mark.parametrize("name", EVERY)
def test_every_material_meets_a_need_or_says_so(name, wanted, paper):
    """The smallest thing, numeral and piece of a set reach what is needed, or a note tells how large it is."""
    asked, found = made(name, wanted, paper)
    assert found.problems == ()
    said = " ".join(found.notes)

    if "large" in wanted:
        assert min(things(found.pieces), default=20) >= 19.9 or "smallest things" in said
        assert min(numerals(found.pieces), default=40) >= 39.0 or "smallest numerals" in said
    if "easy-grip" in wanted:
        assert min(sides(name, found.pieces), default=70) >= 70 or "smallest pieces" in said
    assert all(turned_to_fit(piece, room_of(asked)) is not None for piece in found.pieces)


SMALL_NUMERALS = {"bar-chart", "calendar", "dice-write", "hundred-chart", "tiles"}
SMALL_PIECES = {"calendar", "hundred-chart"}
"""Materials that cannot meet a need even with the numbers 1 to 5: seven weekdays or ten numbers side by side,
rows of a chart, two whole words to a row, tiles that fit the boxes of an equation."""


@pytest.mark.parametrize("name", EVERY)
def test_with_small_numbers_things_and_numerals_are_large(name):
    """For the numbers 1 to 5 on A4 a need gives way in few materials only."""
    _, found = made(name, ("large",))

    assert "smallest things" not in " ".join(found.notes)
    assert ("smallest numerals" in " ".join(found.notes)) == (name in SMALL_NUMERALS)


@pytest.mark.parametrize("name", EVERY)
def test_with_small_numbers_pieces_are_easy_to_grip(name):
    """What a child takes in hand is 70 mm on either side, except what must fit places on a board."""
    _, found = made(name, ("easy-grip",))

    assert ("smallest pieces" in " ".join(found.notes)) == (name in SMALL_PIECES)
