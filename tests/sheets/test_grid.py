"""Pieces lie whole on their sheets, and straight cuts, done one after the other, free every one."""

from dataclasses import dataclass, replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from printkit.pieces import Face, Piece
from printkit.sheets.batches import Given, Rules, Sheet, laid_out
from printkit.sheets.grid import Frame, turned_to_fit
from printkit.sheets.model import FOOT, Cut
from printkit.sheets.trimming import cuts_of
from printkit.units import PAPERS, Rect

USUAL = Rules()
NEAR = 0.002
"""mm: places are whole micrometres, so two sums of them may differ by one or two."""


def piece(key: str, width: float, height: float, cut: bool = True) -> Piece:
    """A piece without anything on it."""
    return Piece(
        child="Wren", set="things", material="plain", key=key,
        width=width, height=height, front=Face(marks=()), cut=cut,
    )  # fmt: skip


def paper(name: str, margin: float = 10.0) -> Frame:
    """A named paper with its margin."""
    width, height = PAPERS[name]
    return Frame(width=width, height=height, margin=margin)


def sheets_of(pieces: list[Piece], frame: Frame, rules: Rules = USUAL) -> list[Sheet]:
    """The sheets for these pieces; what stands before the dash of a key names the run."""
    given = [
        Given(piece=piece, number=number, run=piece.key.split("-")[0]) for number, piece in enumerate(pieces)
    ]
    return laid_out(given, frame, rules)[0]


def cuts(sheet: Sheet, frame: Frame) -> tuple[Cut, ...]:
    """The cuts of a sheet; a whole sheet has none."""
    return cuts_of(sheet.boxes, (frame.width, frame.height), frame.foot) if sheet.boxes else ()


@st.composite
def frames(draw) -> Frame:
    """Papers a home printer takes, or one's own, with whole and with odd lengths."""
    side = st.integers(100, 420) | st.floats(100, 420).map(lambda n: round(n, 5))
    own = st.tuples(side, side).map(sorted)
    width, height = draw(st.sampled_from(list(PAPERS.values())) | own)
    margin = draw(st.sampled_from((3.0, 6.35, 10.0, 15.0, 20.0)))
    return Frame(width=float(width), height=float(height), margin=margin)


ALL_RULES = st.builds(
    Rules,
    save=st.sampled_from(("paper", "order")),
    gap=st.sampled_from((0.0, 0.0, 1.5, 4.25)),
    stack=st.booleans(),
)


@st.composite
def filled(draw) -> tuple[Frame, list[Piece]]:
    """A paper and runs of pieces of one size each, all of which fit it; some are whole sheets."""
    frame = draw(frames())
    room = frame.room
    lengths = st.integers(20, 200).map(float) | st.floats(20, 200).map(lambda n: round(n, 4))
    widths = draw(st.lists(lengths, min_size=1, max_size=2))
    pieces: list[Piece] = []
    for run in range(draw(st.integers(1, 4))):
        whole = draw(st.integers(0, 5)) == 0
        size = room if whole else (draw(st.sampled_from(widths)), draw(lengths))
        count = draw(st.integers(1, 3 if whole else 14))
        pieces += [piece(f"{run}-{n}", *size, cut=not whole) for n in range(count)]
    assume(all(turned_to_fit(item, room) is not None for item in pieces))
    return frame, pieces


# --- places ----------------------------------------------------------------------------------


@given(filled(), ALL_RULES)
def test_every_piece_lies_once_inside_the_room_and_on_no_other(made, rules):
    """Each piece is placed once, within the margins, above the foot, no nearer to a neighbor than the gap."""
    frame, pieces = made
    usable = Rect(frame.margin, frame.margin, *frame.room)
    placed = [sheet.placed for sheet in sheets_of(pieces, frame, rules)]
    keys = [item.piece.key for sheet in placed for item in sheet]
    assert sorted(keys) == sorted(piece.key for piece in pieces)
    for sheet in placed:
        for i, item in enumerate(sheet):
            sides = (item.piece.width, item.piece.height)
            assert (item.box.width, item.box.height) == (sides if item.turn == 0 else sides[::-1])
            assert usable.holds(item.box, NEAR)
            around = item.box.inset(-rules.gap)
            assert not any(around.meets(other.box, NEAR) for other in sheet[:i])


@given(filled())
def test_a_sheet_used_whole_is_not_cut_and_holds_nothing_else(made):
    """A piece that stays uncut has a sheet to itself, without any cut."""
    frame, pieces = made
    for sheet in sheets_of(pieces, frame):
        placed = sheet.placed
        if any(not item.piece.cut for item in placed):
            assert len(placed) == 1
            assert cuts(sheet, frame) == ()


@pytest.mark.parametrize(
    ("name", "size", "count", "turn"),
    [
        ("a4", (62, 88), 9, 0),
        ("letter", (62, 88), 8, 90),
        ("a4", (47, 62), 16, 0),
        ("letter", (47, 62), 16, 0),
        ("a4", (94, 125), 4, 0),
        ("letter", (94, 125), 4, 0),
        ("a4", (92, 44), 12, 0),
        ("letter", (92, 44), 10, 0),
    ],
)
def test_default_sizes_fill_both_usual_papers(name, size, count, turn):
    """The 62 x 88 mm card stands nine times on A4 and lies eight times on Letter (design choice)."""
    frame = paper(name)
    many = [piece(f"all-{n}", *size) for n in range(2 * count)]
    sheets = sheets_of(many, frame)
    assert [len(sheet.placed) for sheet in sheets] == [count, count]
    assert {item.turn for item in sheets[0].placed} == {turn}


def test_rows_of_both_ways_are_mixed_where_that_saves_a_sheet():
    """Of 47 x 62 mm, 16 stand on A4, 17 with a column of turned ones: 34 need two sheets, not three."""
    frame = paper("a4")
    sheets = sheets_of([piece(f"all-{n}", 47, 62) for n in range(34)], frame)
    assert [len(sheet.placed) for sheet in sheets] == [17, 17]
    assert {item.turn for item in sheets[0].placed} == {0, 90}
    assert_freed([piece(f"all-{n}", 47, 62) for n in range(34)], frame)


def test_a_piece_larger_than_the_room_fits_neither_way():
    """190 x 269 mm is left of A4 inside 10 mm and the foot; a millimetre more fits neither way."""
    room = paper("a4").room
    assert room == (190, 269)
    assert turned_to_fit(piece("1", 190, 269), room) is False
    assert turned_to_fit(piece("1", 269, 190), room) is True
    assert turned_to_fit(piece("1", 191, 191), room) is None


# --- cuts: a trimmer that does what it is told ------------------------------------------------


@dataclass(frozen=True)
class Hand:
    """The parts of a sheet that lie on the table, each a rectangle of the whole sheet's mm."""

    parts: tuple[Rect, ...]

    def after(self, cut) -> "Hand":
        """The parts after one cut, which must go across exactly one of them, from edge to edge."""
        crossed = [part for part in self.parts if _enters(cut, part)]
        assert len(crossed) == 1, f"cut {cut.n} goes across {len(crossed)} parts"
        part = crossed[0]
        if cut.x1 == cut.x2:
            assert abs(cut.y1 - part.top) <= NEAR
            assert abs(cut.y2 - part.bottom) <= NEAR
            halves = (
                Rect(part.left, part.top, cut.x1 - part.left, part.height),
                Rect(cut.x1, part.top, part.right - cut.x1, part.height),
            )
        else:
            assert cut.y1 == cut.y2, f"cut {cut.n} is slanting"
            assert abs(cut.x1 - part.left) <= NEAR
            assert abs(cut.x2 - part.right) <= NEAR
            halves = (
                Rect(part.left, part.top, part.width, cut.y1 - part.top),
                Rect(part.left, cut.y1, part.width, part.bottom - cut.y1),
            )
        return Hand(tuple(other for other in self.parts if other is not part) + halves)


def _enters(cut, part: Rect) -> bool:
    line = Rect(cut.x1, cut.y1, cut.x2 - cut.x1, cut.y2 - cut.y1)
    return (
        part.left + NEAR < line.right
        and line.left < part.right - NEAR
        and part.top + NEAR < line.bottom
        and line.top < part.bottom - NEAR
    )


def trimmed(sheet, frame: Frame) -> Hand:
    """What lies on the table after all cuts of a sheet."""
    hand = Hand((Rect(0, 0, frame.width, frame.height),))
    for cut in cuts(sheet, frame):
        hand = hand.after(cut)
    return hand


def same(one: Rect, two: Rect) -> bool:
    """Whether two rectangles are one, but for the rounding."""
    return all(abs(a - b) <= NEAR for a, b in zip(one, two, strict=True))


def assert_freed(pieces: list[Piece], frame: Frame, rules: Rules = USUAL) -> None:
    """Every piece is one part by itself once all cuts are done."""
    for sheet in sheets_of(pieces, frame, rules):
        placed = sheet.placed
        if not placed[0].piece.cut:
            continue
        parts = trimmed(sheet, frame).parts
        for item in placed:
            assert sum(same(item.box, part) for part in parts) == 1, item.box


@given(filled(), ALL_RULES)
def test_the_cuts_in_order_free_every_piece(made, rules):
    """Each cut goes across one part still in hand, and at the end every piece is one part by itself."""
    frame, pieces = made
    assert_freed(pieces, frame, rules)


def test_what_lies_beside_a_short_row_comes_off():
    """A row of one card above a full row of the same columns leaves no strip of waste on the others."""
    assert_freed([piece("1", 60, 50), *(piece(f"2-{n}", 60, 70) for n in range(3))], paper("a4"))


def test_a_piece_that_ends_at_the_foot_needs_no_second_cut_there():
    """The foot's cut frees it already, also on a paper whose height is no whole micrometre."""
    assert_freed([piece("1", 60, 172.00037)], Frame(width=150.0, height=200.00037, margin=10.0))


@given(filled())
def test_no_cut_passes_through_a_piece(made):
    """A cut runs along the pieces' edges, never across one."""
    frame, pieces = made
    for sheet in sheets_of(pieces, frame):
        for cut in cuts(sheet, frame):
            assert not any(_enters(cut, item.box) for item in sheet.placed)


@given(filled())
def test_the_first_cut_takes_the_foot_off_and_no_other_enters_it(made):
    """The foot of 8 mm inside the bottom margin goes first (design choice)."""
    frame, pieces = made
    for sheet in sheets_of(pieces, frame):
        first, *others = cuts(sheet, frame) or (None,)
        if first is None:
            continue
        foot = frame.height - frame.margin - 8
        assert FOOT == 8
        assert (first.n, first.x1, first.x2) == (1, 0.0, round(frame.width, 3))
        assert abs(first.y1 - foot) <= NEAR
        assert first.y2 == first.y1
        assert all(max(cut.y1, cut.y2) <= foot + NEAR for cut in others)
        assert [cut.n for cut in others] == list(range(2, len(others) + 2))


def test_a_full_sheet_of_nine_needs_twelve_cuts():
    """Foot, top and left edge, one beside each column, two in each of three columns: 3 + 3 + 3 x 2."""
    frame = paper("a4")
    (sheet,) = sheets_of([piece(f"all-{n}", 62, 88) for n in range(9)], frame)
    assert len(cuts(sheet, frame)) == 12


def test_neighbours_share_one_cut():
    """Between two cards side by side runs a single line: three lines for two cards, not four."""
    frame = paper("a4")
    (sheet,) = sheets_of([piece(f"all-{n}", 62, 88) for n in range(2)], frame)
    upright = sorted(cut.x1 for cut in cuts(sheet, frame) if cut.x1 == cut.x2)
    assert upright == [10, 72, 134]


def test_pieces_of_a_row_keep_their_size_when_the_sheet_is_not_full():
    """A last row with one card begins where the rows above begin, so that its cut is theirs."""
    frame = paper("a4")
    (sheet,) = sheets_of([piece(f"all-{n}", 62, 88) for n in range(4)], frame)
    lefts = [item.box.left for item in sheet.placed]
    assert lefts == [10, 72, 134, 10]
    assert replace(frame, margin=3.0).room == (204, 283)
