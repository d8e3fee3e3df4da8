"""Backs lie behind their fronts: the paper is turned over here without the code that does it."""

from collections.abc import Callable

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, read, room_of

from printkit.pieces import Face, Piece
from printkit.sheets import SetPieces, sheet_files
from printkit.sheets.batches import Given, Rules, laid_out
from printkit.sheets.duplex import behind
from printkit.sheets.grid import Frame, turned_to_fit
from printkit.sheets.model import Placed
from printkit.texts import catalogue
from printkit.units import PAPERS, Rect

NEAR = 0.003
Point = tuple[float, float]
FLIPS = ("long", "short", "hand")


def piece(key: str, width: float, height: float) -> Piece:
    """A piece with an empty back."""
    return Piece(
        child="Wren", set="things", material="plain", key=key,
        width=width, height=height, front=Face(marks=()), back=Face(marks=()),
    )  # fmt: skip


def sheets_of(pieces: list[Piece], frame: Frame) -> list[tuple[Placed, ...]]:
    """The fronts of the sheets for pieces of one set."""
    given = [Given(piece=piece, number=number, run="things") for number, piece in enumerate(pieces)]
    return [sheet.placed for sheet in laid_out(given, frame, Rules())[0]]


# --- paper in the hand -----------------------------------------------------------------------


def onto_page(placed: Placed, point: Point) -> Point:
    """Where a point of the upright face lies on its page, after the face was turned clockwise."""
    x, y = point
    width, height = placed.piece.width, placed.piece.height
    turned = {
        0: (x, y),
        90: (height - y, x),
        180: (width - x, height - y),
        270: (y, width - x),
    }[placed.turn]
    return placed.box.left + turned[0], placed.box.top + turned[1]


def from_page(placed: Placed, point: Point) -> Point:
    """The point of the upright face that lies there on the page."""
    x, y = point[0] - placed.box.left, point[1] - placed.box.top
    width, height = placed.piece.width, placed.piece.height
    return {
        0: (x, y),
        90: (y, height - x),
        180: (width - x, height - y),
        270: (width - y, x),
    }[placed.turn]


def through_paper(flip: str, paper: tuple[float, float]) -> Callable[[Point], Point]:
    """From a point of the front page to the point of the back page that is behind it.

    Portrait paper turned over its long edge changes left and right, over its short edge top and
    bottom (ISO 32000-1, table 150: DuplexFlipLongEdge, DuplexFlipShortEdge). Fed again by hand,
    with the same edge first, it is turned over its long edge.
    """
    width, height = paper
    if flip == "short":
        return lambda point: (point[0], height - point[1])
    return lambda point: (width - point[0], point[1])


@st.composite
def placed_pieces(draw) -> tuple[Placed, tuple[float, float]]:
    """A piece on a page, upright or turned, and the paper."""
    paper = draw(st.sampled_from(list(PAPERS.values())))
    frame = Frame(width=paper[0], height=paper[1], margin=10.0)
    width, height = draw(st.integers(20, 120)), draw(st.integers(20, 120))
    many = [piece(str(n), width, height) for n in range(draw(st.integers(1, 9)))]
    assume(turned_to_fit(many[0], frame.room) is not None)
    return draw(st.sampled_from(sheets_of(many, frame)[0])), paper


@pytest.mark.parametrize("flip", FLIPS)
@given(made=placed_pieces())
def test_a_back_reads_like_the_next_page_of_a_book(made, flip):
    """What is drawn at (width - x, y) of the back lies behind (x, y) of the front, however placed."""
    front, paper = made
    back = behind(front, flip, paper)
    assert (back.side, back.piece) == ("back", front.piece)
    wide = front.piece.width
    for x, y in ((0.0, 0.0), (wide, 3.0), (7.0, front.piece.height)):
        there = through_paper(flip, paper)(onto_page(front, (x, y)))
        x_back, y_back = from_page(back, there)
        assert (abs(x_back - (wide - x)) <= NEAR, abs(y_back - y) <= NEAR) == (True, True)


@given(placed_pieces())
def test_a_placed_rectangle_is_turned_with_its_face(made):
    """`on_page` moves a rectangle as it moves the corners."""
    placed, _ = made
    rect = Rect(1, 2, 5, 9)
    corners = [onto_page(placed, (x, y)) for x in (1, 6) for y in (2, 11)]
    moved = placed.on_page(rect)
    assert abs(moved.left - min(x for x, _ in corners)) <= NEAR
    assert abs(moved.top - min(y for _, y in corners)) <= NEAR
    assert abs(moved.right - max(x for x, _ in corners)) <= NEAR
    assert abs(moved.bottom - max(y for _, y in corners)) <= NEAR


# --- the grid of a full sheet ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("flip", "mapping"),
    [
        ("long", lambda r, c, rows, columns: (r, columns - 1 - c)),
        ("hand", lambda r, c, rows, columns: (r, columns - 1 - c)),
        ("short", lambda r, c, rows, columns: (rows - 1 - r, c)),
    ],
)
@pytest.mark.parametrize(("name", "columns"), [("a4", 3), ("letter", 2)])
def test_cells_of_a_grid_are_backed_by_the_mirrored_cell(flip, mapping, name, columns):
    """Portrait: over the long edge (r, c) is backed by (r, C-1-c), over the short edge by (R-1-r, c).

    The mapping is computed on a turned sheet; a back over the short edge stands upside down.
    """
    paper = PAPERS[name]
    frame = Frame(width=paper[0], height=paper[1], margin=10.0)
    count = {"a4": 9, "letter": 8}[name]
    many = [piece(str(n), 62, 88) for n in range(count)]
    (fronts,) = sheets_of(many, frame)
    backs = [behind(item, flip, paper) for item in fronts]
    ordered = sorted(backs, key=lambda item: (item.box.top, item.box.left))
    cells = {item.piece.key: divmod(n, columns) for n, item in enumerate(ordered)}
    down = count // columns
    for n, item in enumerate(fronts):
        assert cells[item.piece.key] == mapping(*divmod(n, columns), down, columns)
    front_turn = 0 if name == "a4" else 90
    upright = {"long": -front_turn, "hand": -front_turn, "short": 180 - front_turn}[flip] % 360
    assert {item.turn for item in backs} == {upright}


# --- files -----------------------------------------------------------------------------------


def files_of(flip: str, paper: object = "a4", **child):
    """The files of a child with cards that have backs and cards that have none."""
    made = read(
        {
            "theme": PLAIN_THEME,
            "children": [
                {
                    "name": "Wren", "numbers": [1, 5], "paper": paper, "flip": flip, **child,
                    "materials": [
                        "counting-cards",
                        "clip-cards",
                        {"make": "odd-one-out", "stock": "plain"},
                    ],
                }
            ],
        }
    )  # fmt: skip
    trays = made.children[0].trays
    sets = [SetPieces(tray=tray, pieces=made_of(tray).pieces) for tray in trays]
    return sets, sheet_files("wren", sets, catalogue("en"))


def keys(pages) -> list[tuple[str, str]]:
    """Set and key of every piece on these pages."""
    return [(item.piece.set, item.piece.key) for page in pages for item in page.placed]


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", [180, 210]])
@pytest.mark.parametrize("flip", ["long", "short"])
def test_two_sided_files_alternate_front_and_back(flip, paper):
    """Front, back, front, back, each with the pieces of its front; the file asks for that turn."""
    _, files = files_of(flip, paper)
    two_sided = [file for file in files if any(page.side == "back" for page in file.pages)]
    assert sorted(file.stock for file in two_sided) == ["card", "plain"]
    for file in two_sided:
        assert [page.side for page in file.pages] == ["front", "back"] * file.sheets
        assert file.duplex == flip
        for front, back in zip(file.pages[::2], file.pages[1::2], strict=True):
            assert keys([front]) == keys([back])
    for file in files:
        if file not in two_sided:
            assert {page.side for page in file.pages} == {"front"}
            assert file.duplex == "none"


def test_by_hand_fronts_and_backs_are_two_files():
    """Fed again by hand, backs have a file of their own, sheet for sheet like the fronts."""
    _, files = files_of("hand")
    named = {file.name: file for file in files}
    fronts, backs = named["wren-card-fronts.pdf"], named["wren-card-backs.pdf"]
    assert {page.side for page in fronts.pages} == {"front"}
    assert {page.side for page in backs.pages} == {"back"}
    assert [keys([page]) for page in fronts.pages] == [keys([page]) for page in backs.pages]
    assert (fronts.duplex, backs.duplex) == ("none", "none")


@pytest.mark.parametrize("flip", ["long", "short", "hand", "none"])
def test_every_piece_stands_in_one_file_once(flip):
    """All pieces of all sets are on the fronts, once each; without a flip there is no back at all."""
    sets, files = files_of(flip)
    fronts = keys(page for file in files for page in file.pages if page.side == "front")
    assert sorted(fronts) == sorted((item.tray.set, piece.key) for item in sets for piece in item.pieces)
    backs = keys(page for file in files for page in file.pages if page.side == "back")
    with_back = [
        (item.tray.set, piece.key) for item in sets for piece in item.pieces if piece.back is not None
    ]
    assert sorted(backs) == ([] if flip == "none" else sorted(with_back))


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", [180, 210]])
@pytest.mark.parametrize("flip", FLIPS)
def test_a_control_lies_behind_its_own_zone_on_paper(flip, paper):
    """Seen through the sheet, a clip card's bar lies within the zone of the answer and in no other."""
    sets, files = files_of(flip, paper)
    size = room_of(sets[0].tray)
    assert size.width > 0
    fronts = [page for file in files for page in file.pages if page.side == "front"]
    backs = [page for file in files for page in file.pages if page.side == "back"]
    front_of = {id(item.piece): item for page in fronts for item in page.placed}
    checked = 0
    for page in backs:
        for back in page.placed:
            if back.piece.material != "clip-cards":
                continue
            front = next(
                item for item in front_of.values()
                if (item.piece.set, item.piece.key) == (back.piece.set, back.piece.key)
            )  # fmt: skip
            look = through_paper(flip, (page.width, page.height))  # its own inverse
            control = back.piece.control
            ends = [
                from_page(front, look(onto_page(back, (x, control.top))))[0]
                for x in (control.left, control.right)
            ]
            zone = back.piece.zones[back.piece.facts.answer]
            assert zone.left - NEAR <= min(ends)
            assert max(ends) <= zone.right + NEAR
            checked += 1
    assert checked == 5
