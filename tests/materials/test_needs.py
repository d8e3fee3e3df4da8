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
    child = {
        **FIRST,
        "paper": paper,
        "needs": list(wanted),
        "numbers": [first, last],
        "sums_to": max(2, last),
    }
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


@pytest.mark.parametrize(
    "wanted, paper",
    [(("large",), "a4"), (("easy-grip",), "a4"), (NEEDS, "letter")],
    ids=["large", "easy-grip", "all"],
)
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


@pytest.mark.parametrize("name", EVERY)
def test_the_widest_range_of_numbers_is_made_with_every_need(name):
    """Up to 100 works by default: where a need cannot be met it gives way, and nothing leaves its piece."""
    asked, found = made(name, NEEDS, "letter", 71 if name == "tracing" else 0, 100)

    assert found.problems == ()
    for piece in found.pieces:
        assert turned_to_fit(piece, room_of(asked)) is not None
        for mark in piece.front.marks:
            box = mark.bounds()
            assert box.left >= -0.5 and box.top >= -0.5
            assert box.right <= piece.width + 0.5 and box.bottom <= piece.height + 0.5


@pytest.mark.parametrize("lookalike", range(1, 7))
@pytest.mark.parametrize("name", ["odd-one-out", "find-the-match"])
def test_pictures_to_look_at_closely_are_large_at_every_level(name, lookalike):
    """Also the smaller one of two sizes, and turned ones."""
    found = made_of(tray(name, {"needs": "large", "lookalike": lookalike, "theme": "rock-pool"}))

    assert min(things(found.pieces)) >= 19.9


@pytest.mark.parametrize("help", ["pictures", "places", "none"])
@pytest.mark.parametrize("wanted", ANY, ids="+".join)
def test_strips_with_every_help_keep_what_they_show_on_themselves(wanted, help):
    """Boxes for tiles of 70 mm drive neither things nor places off a strip."""
    child = {**FIRST, "needs": list(wanted), "sums_to": 10}
    found = made_of(tray("strips", child, help=help, own=1))

    assert found.problems == ()
    for piece in found.pieces:
        boxes = [mark.bounds() for mark in piece.front.marks]
        assert min(box.top for box in boxes) >= 3.8 and min(box.left for box in boxes) >= 3.8
        assert max(box.bottom for box in boxes) <= piece.height - 3.8


# --- large -----------------------------------------------------------------------------------


@pytest.mark.parametrize("name", EVERY)
def test_large_is_black_on_white(name):
    """Letters and numerals on fronts are in full black, where they are gray for other children."""
    _, found = made(name, ("large",))
    texts = [mark for piece in found.pieces for mark in piece.front.marks if isinstance(mark, Text)]

    assert {mark.color for mark in texts if len(mark.color) == 1 and mark.color[0] <= 0.5} <= {(0.0,)}


def test_what_is_asked_for_wins_over_a_need_with_a_note():
    """A size and a line height of the pack file stay; a note says by how much they are less than needed."""
    child = {**FIRST, "needs": ["large", "easy-grip"]}
    cards = made_of(tray("counting-cards", child, size="small"))
    lines = made_of(tray("tracing", child, line_height=12))

    assert {(piece.width, piece.height) for piece in cards.pieces} == {(47.0, 62.0)}
    assert any("'easy-grip' asks for 70 mm: without size" in note for note in cards.notes)
    assert any("without line_height" in note for note in lines.notes)
    assert "lines to write on or to follow are 12 mm, 'easy-grip' asks for 25 mm" in lines.notes


def test_a_need_that_gives_way_is_told_by_check():
    """The note stands in the summary with the child's name and the set."""
    made = {
        "theme": PLAIN_THEME,
        "children": [
            {"name": "Wren", "numbers": [60, 66], "needs": "large", "materials": ["counting-cards"]}
        ],
    }
    notes = summary(plan(read(made)))["notes"]

    assert any(note.startswith("Wren's counting-cards: the smallest things are ") for note in notes)


def test_a_need_that_is_met_is_not_talked_about():
    """No note where all is as large as asked for."""
    assert made("counting-cards", NEEDS)[1].notes == ()


# --- easy-grip -------------------------------------------------------------------------------


@pytest.mark.parametrize("counter", [12, 22, 40])
def test_a_ring_for_a_counter_stands_in_place_of_a_clothespin(counter):
    """The rings hold the counters and lie 28 mm or more apart; counters are gathered, and no pegs."""
    asked = tray("clip-cards", {**FIRST, "needs": "easy-grip", "counter": counter})
    found = made_of(asked)

    assert [(need.what, need.size) for need in found.needs] == [("counters", counter)]
    for piece in found.pieces:
        middles = [zone.left + zone.width / 2 for zone in piece.zones]
        steps = [after - before for before, after in zip(middles, middles[1:], strict=False)]
        assert min(steps) >= max(28, counter + 6) - 0.01
        rings = [mark.bounds() for mark in piece.front.marks if type(mark).__name__ == "Dot"]
        assert len(rings) == len(piece.zones)
        for ring, zone in zip(rings, piece.zones, strict=True):
            assert ring.width >= counter + 2 and zone.holds(ring, slack=0.2)


def test_cards_too_small_for_rings_are_for_clothespins():
    """The size asked for wins, with a note."""
    found = made_of(tray("clip-cards", {**FIRST, "needs": "easy-grip"}, size="small"))

    assert [need.what for need in found.needs] == ["pegs"]
    assert any("no room for 3 rings" in note for note in found.notes)


def test_tiles_of_70_mm_fit_the_boxes_of_the_strips():
    """The strips of the same child have boxes that take the tiles."""
    child = {**FIRST, "needs": "easy-grip"}
    tiles = [piece for piece in made_of(tray("tiles", child)).pieces if piece.facts.numeral is not None]
    strips = made_of(tray("strips", child)).pieces
    boxes = [
        mark for piece in strips for mark in piece.front.marks
        if type(mark).__name__ == "Box" and mark.width > 50 and mark.height > 50 and mark.width < 100
    ]  # fmt: skip

    assert {(tile.width, tile.height) for tile in tiles} == {(70.0, 70.0)}
    assert len(boxes) == len(strips)
    assert all(box.width > 70 and box.height > 70 for box in boxes)


@pytest.mark.parametrize("form", ["follow", "snip"])
def test_ways_are_broad(form):
    """25 mm from edge to edge, every one of them."""
    found = made_of(tray("paths", {**FIRST, "needs": "easy-grip"}, form=form))

    assert {piece.facts.width for piece in found.pieces} == {25.0}


def test_holes_for_a_lace_lie_farther_apart():
    """28 mm, as choices do."""
    found = made_of(tray("lacing", {"needs": "easy-grip"}))

    assert min(piece.facts.spacing for piece in found.pieces) >= 28


# --- color-safe ------------------------------------------------------------------------------


@pytest.mark.parametrize("wanted, safe", [("color-safe", True), ([], False)])
def test_shades_are_safe_for_a_child_who_needs_it(wanted, safe):
    """Unless the pack file says otherwise."""
    from printkit.materials.shades import is_safe

    assert is_safe(tray("shades", {"needs": wanted})) == safe
    assert is_safe(tray("shades", {"needs": wanted}, safe=not safe)) != safe


@pytest.mark.parametrize("theme", ["rock-pool"])
def test_differences_of_color_are_seen_by_all_eyes(theme):
    """Recolored parts of odd-one-out differ by 10 (CIEDE2000) or more in every simulation, and in gray."""
    from printkit.pictures import differences
    from printkit.pictures.seen import color_change, pixels

    found = tray("odd-one-out", {"theme": theme, "needs": "color-safe", "lookalike": 4})
    recolored = [
        item for item in differences(found.child.theme, 4, "color", 20.0) if item.kind == "part recolored"
    ]

    for item in recolored[:6]:
        assert color_change(pixels(item.alike, 20.0), pixels(item.odd, 20.0)) is not None


@settings(max_examples=10)
@given(
    st.sampled_from(EVERY),
    st.lists(st.sampled_from(NEEDS), max_size=3),
    st.tuples(st.integers(0, 100), st.integers(0, 100)).map(sorted),
    st.sampled_from(PAPERS),
)
def test_any_legal_child_gets_every_material(name, wanted, numbers, paper):
    """Whatever the numbers and the needs, the defaults of every material make pieces on A4 and on Letter."""
    child = {
        "theme": PLAIN_THEME,
        "paper": paper,
        "needs": wanted,
        "numbers": numbers,
        "sums_to": max(2, numbers[1]),
    }

    found = made_of(tray(name, child))

    assert found.problems == () and found.pieces
