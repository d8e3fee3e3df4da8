"""Few sheets, and on them the pieces of a set together and in order; piles that come out in order."""

from collections import Counter

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from sheets.test_grid import piece, sheets_of

from printkit.pieces import Box, Face, Piece
from printkit.sheets.alike import Slot
from printkit.sheets.batches import Given, Rules, Sheet, laid_out
from printkit.sheets.corners import with_corner
from printkit.sheets.grid import Frame, turned_to_fit
from printkit.sheets.numbers import numbered
from printkit.sheets.piles import Laid, dealt
from printkit.sheets.trimming import cuts_of
from printkit.units import PAPERS, Rect

USUAL = Rules()
A4 = Frame(width=210.0, height=297.0, margin=10.0)
SIZES = ((62, 88), (94, 125), (92, 44), (186, 50), (94, 83.5), (47, 62), (102.866, 151.6), (190, 165.25))


@st.composite
def shelves(draw) -> list[Piece]:
    """Sets of the usual sizes, each of one size."""
    sets = draw(st.lists(st.tuples(st.sampled_from(SIZES), st.integers(1, 12)), min_size=1, max_size=5))
    return [piece(f"{number}-{n}", *size) for number, (size, count) in enumerate(sets) for n in range(count)]


def run_of(key: str) -> str:
    """The set that a key names."""
    return key.split("-")[0]


def keys(sheet: Sheet) -> list[str]:
    """The pieces of a sheet in their order."""
    return [item.piece.key for item in sheet.placed]


def all_laid(pieces: list[Piece], rules: Rules = USUAL) -> tuple[list[Sheet], int]:
    """Sheets of A4, and how many are needed at least."""
    given = [Given(piece=item, number=n, run=run_of(item.key)) for n, item in enumerate(pieces)]
    return laid_out(given, A4, rules)


@given(shelves())
@settings(max_examples=30)
def test_thrift_never_needs_more_sheets_than_order(pieces):
    """Laid out together, pieces need no more sheets than set by set, and no fewer than the bound."""
    sheets, least = all_laid(pieces)
    assert least <= len(sheets) <= len(all_laid(pieces, Rules(save="order"))[0])


@given(shelves())
@settings(max_examples=30)
def test_in_order_no_two_sets_share_a_sheet(pieces):
    """`save = "order"`: one set a sheet, the sets one after the other, each from first to last."""
    sheets, _ = all_laid(pieces, Rules(save="order"))
    assert all(len({run_of(key) for key in keys(sheet)}) == 1 for sheet in sheets)
    assert [key for sheet in sheets for key in keys(sheet)] == [item.key for item in pieces]


@given(shelves())
@settings(max_examples=30)
def test_sets_stay_apart_where_sharing_a_sheet_saves_none(pieces):
    """When a sheet for each set costs no more than the best layout found, no set is torn apart."""
    sheets, _ = all_laid(pieces)
    apart = all_laid(pieces, Rules(save="order"))[0]
    assume(len(apart) == len(sheets))
    mine = Counter(run for sheet in sheets for run in {run_of(key) for key in keys(sheet)})
    best = Counter(run for sheet in apart for run in {run_of(key) for key in keys(sheet)})
    assert mine == best


@given(shelves())
@settings(max_examples=30)
def test_pieces_of_a_set_come_in_reading_order(pieces):
    """From sheet to sheet and, as one reads, on each sheet, a set's pieces of one way go up."""
    sheets, _ = all_laid(pieces)
    order = {item.key: n for n, item in enumerate(pieces)}
    for run in {run_of(item.key) for item in pieces}:
        firsts = [[order[key] for key in keys(sheet) if run_of(key) == run] for sheet in sheets]
        flat = [number for numbers in firsts for number in numbers]
        assert flat == sorted(flat)
    for sheet in sheets:
        for turn in (0, 90):
            read = sorted(
                (item for item in sheet.placed if item.turn == turn),
                key=lambda item: (item.box.top, item.box.left),
            )
            for run in {run_of(key) for key in keys(sheet)}:
                own = [order[item.piece.key] for item in read if run_of(item.piece.key) == run]
                assert own == sorted(own)


def test_small_labels_fill_what_larger_cards_leave():
    """Seven cards of 94 x 83.5 mm and six labels of 92 x 44 mm need two sheets of A4, not three."""
    pieces = [piece(f"a-{n}", 94, 83.5) for n in range(7)] + [piece(f"b-{n}", 92, 44) for n in range(6)]
    sheets, least = all_laid(pieces)
    assert (len(sheets), least) == (2, 2)
    assert len(all_laid(pieces, Rules(save="order"))[0]) == 3
    assert keys(sheets[0]) == [f"a-{n}" for n in range(6)]


def test_pieces_without_a_back_lie_apart_unless_that_costs_a_sheet():
    """Four cards and four labels share a sheet; where both fill sheets of their own they do not."""
    cards = [piece(f"a-{n}", 62, 88) for n in range(4)]
    labels = [piece(f"b-{n}", 92, 44) for n in range(4)]

    def sides(pieces: list[Piece]) -> list[set[str]]:
        given = [
            Given(piece=item, number=n, run=run_of(item.key), side=run_of(item.key) == "a")
            for n, item in enumerate(pieces)
        ]
        return [{run_of(key) for key in keys(sheet)} for sheet in laid_out(given, A4, Rules())[0]]

    assert sides([*cards, *labels]) == [{"a", "b"}]
    assert sides(
        [piece(f"a-{n}", 62, 88) for n in range(7)] + [piece(f"b-{n}", 92, 44) for n in range(10)]
    ) == [
        {"a"},
        {"b"},
    ]


# --- piles -----------------------------------------------------------------------------------


def pile_of(count: int, places: int) -> list[Laid]:
    """Sheets filled one after the other, as they come from the layout."""
    slots = tuple(Slot(0, 10 * n, 20, 10) for n in range(places))
    return [
        Laid(tuple(range(start, min(start + places, count))), slots[: count - start], slots[: count - start])
        for start in range(0, count, places)
    ]


def test_ten_cards_on_three_sheets_of_four():
    """Place p of sheet s holds card p * S + s (imposition manuals): [0,3,6,9], [1,4,7], [2,5,8]."""
    sheets = dealt(pile_of(10, 4))
    assert [sheet.pieces for sheet in sheets] == [(0, 3, 6, 9), (1, 4, 7), (2, 5, 8)]


@given(st.integers(1, 60), st.integers(1, 12))
def test_cut_piles_on_one_another_are_in_order(count, places):
    """Pile by pile, from the top sheet down, the cards come out from first to last, none twice."""
    sheets = dealt(pile_of(count, places))
    slots = sorted({slot for sheet in sheets for slot in sheet.slots}, key=lambda slot: slot.top)
    stacked = [
        number
        for slot in slots
        for sheet in sheets
        for number, own in zip(sheet.pieces, sheet.slots, strict=True)
        if own == slot
    ]
    assert stacked == list(range(count))


@given(shelves())
@settings(max_examples=20)
def test_sheets_of_a_pile_are_cut_alike(pieces):
    """With `stack`, no sheet is added, and the sheets of one set that hold nothing else are cut alike."""
    sheets, _ = all_laid(pieces, Rules(stack=True))
    assert len(sheets) == len(all_laid(pieces)[0])
    alone: dict[str, set] = {}
    for sheet in sheets:
        runs = {run_of(key) for key in keys(sheet)}
        ways = {item.turn for item in sheet.placed}
        if len(runs) == 1 and ways == {0} and len(sheet.boxes) > 1:
            alone.setdefault(runs.pop(), set()).add(sheet.boxes)
    assert all(len(boxes) == 1 for boxes in alone.values())


# --- gap, corners, numbers -------------------------------------------------------------------


def test_a_gap_makes_two_cuts_of_one():
    """Between two cards side by side, here on their sides, run two lines, as far apart as the gap."""
    (sheet,) = sheets_of([piece("a-0", 62, 88), piece("a-1", 62, 88)], A4, Rules(gap=2.5))
    cuts = cuts_of(sheet.boxes, (210.0, 297.0), A4.foot)
    assert sorted(cut.x1 for cut in cuts if cut.x1 == cut.x2) == [10, 98, 100.5, 188.5]


def test_a_gap_is_not_needed_beyond_the_last_piece():
    """Two pieces of 93 mm and a gap of 4 mm fill the 190 mm between the margins exactly."""
    assert len(sheets_of([piece(f"a-{n}", 93, 88) for n in range(2)], A4, Rules(gap=4.0))) == 1


def test_corners_to_cut_round_are_arcs_in_the_corners():
    """Each arc ends on the edges, a radius from its corner; nothing else is added, nor anything for 0."""
    front = Face(marks=(Box(x=4, y=4, width=54, height=80, stroke=(0.5,)),))
    card = Piece(child="Wren", set="things", material="plain", key="1", width=62.0, height=88.0, front=front)
    arcs, *others = with_corner(card, 5.0).front.marks
    ends = {point for shape in arcs.drawing.shapes for point in (shape.path[0][1:], shape.path[1][5:])}
    assert ends == {(0, 5), (5, 0), (57, 0), (62, 5), (0, 83), (5, 88), (57, 88), (62, 83)}
    assert tuple(others) == front.marks
    assert with_corner(card, 0.0) == card


@given(shelves(), st.sampled_from(("a4", "letter")))
@settings(max_examples=30)
def test_numbers_of_cuts_lie_on_no_piece_and_clear_of_every_line(pieces, name):
    """A number stands on what is left over, within the margins, above the foot, near its own line."""
    frame = Frame(width=PAPERS[name][0], height=PAPERS[name][1], margin=10.0)
    assume(all(turned_to_fit(item, frame.room) is not None for item in pieces))
    for sheet in sheets_of(pieces, frame):
        cuts = cuts_of(sheet.boxes, (frame.width, frame.height), frame.foot)
        named, marks = numbered(cuts, sheet.boxes, frame)
        assert [mark.run.text for mark in marks] == [str(cut.n) for cut in named if cut.number]
        for cut, mark in zip([cut for cut in named if cut.number], marks, strict=True):
            box = mark.bounds()
            assert mark.run.size <= 5 * 25.4 / 72
            assert cut.number.holds(box, 0.01)
            assert Rect(10, 10, frame.width - 20, frame.height - 28).holds(box, 0.01)
            assert not any(box.meets(piece_box) for piece_box in sheet.boxes)
            lines = [Rect(each.x1, each.y1, each.x2 - each.x1, each.y2 - each.y1) for each in cuts]
            assert not any(box.meets(line.inset(-1.0)) for line in lines)
            own = Rect(cut.x1, cut.y1, cut.x2 - cut.x1, cut.y2 - cut.y1)
            assert box.meets(own.inset(-4.0))


@pytest.mark.parametrize("boxes", [((0, 0, 2, 1), (2, 0, 1, 2), (1, 2, 2, 1), (0, 1, 1, 2), (1, 1, 1, 1))])
def test_a_layout_that_no_straight_cut_parts_is_refused(boxes):
    """The pinwheel of five pieces, the smallest layout that is not guillotine."""
    with pytest.raises(ValueError, match="no straight cuts"):
        cuts_of(
            [Rect(10 + 20 * x, 10 + 20 * y, 20 * w, 20 * h) for x, y, w, h in boxes], (100.0, 150.0), 132.0
        )
