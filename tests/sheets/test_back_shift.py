"""Backs moved against what the printer is off by: on paper each lies behind its front, none in the margin."""

import pytest
from strategies import read

from printkit.build import plan
from printkit.pieces import Dot, Line
from printkit.printer_test import test_pages as drawn
from printkit.sheets import Frame, Page, SheetFile
from printkit.sheets.foot import back_foot
from printkit.units import PAPERS, Rect

FLIPS = ("long", "short", "hand")


def files_of(flip: str, shift: tuple[float, float], **keys) -> tuple[SheetFile, ...]:
    """The files of a child with cards that have backs."""
    child = {"name": "Juno", "numbers": [3, 9], "sums_to": 6, "materials": ["clip-cards", "strips"]}
    made = {"paper": "a4", "flip": flip, "back_shift": list(shift), **keys, "children": [child]}
    return plan(read(made)).files


def pairs(files: tuple[SheetFile, ...]) -> list[tuple[Page, Page]]:
    """Each front with its back."""
    pages = [page for file in files if any(page.side == "back" for page in file.pages) for page in file.pages]
    fronts = [
        page for file in files if "onesided" not in file.name for page in file.pages if page.side == "front"
    ]
    return list(zip(fronts, (page for page in pages if page.side == "back"), strict=True))


def through(box: Rect, flip: str, paper: tuple[float, float]) -> Rect:
    """Where a box of the back lies, seen through the paper from the front."""
    if flip == "short":
        return Rect(box.left, paper[1] - box.bottom, box.width, box.height)
    return Rect(paper[0] - box.right, box.top, box.width, box.height)


def printed(box: Rect, off: tuple[float, float]) -> Rect:
    """Where a printer that is off by so much, to the right and down, prints a box."""
    return Rect(box.left + off[0], box.top + off[1], box.width, box.height)


@pytest.mark.parametrize("shift", [(0.0, 0.0), (1.5, -0.75), (-3.0, 4.0), (-10.0, 10.0)])
@pytest.mark.parametrize("flip", FLIPS)
def test_a_printer_that_is_off_prints_backs_behind_fronts(flip, shift):
    """What the printer is off by and what backs are moved by cancel out, for each way of turning."""
    for front, back in pairs(files_of(flip, shift)):
        off = (-shift[0], -shift[1])
        behind = [through(printed(item.box, off), flip, (back.width, back.height)) for item in back.placed]
        assert [tuple(box) for box in behind] == [
            pytest.approx(tuple(item.box), abs=0.002) for item in front.placed
        ]


@pytest.mark.parametrize("shift", [(4.0, -4.0), (10.0, 10.0), (-10.0, 2.0), (0.5, -10.0)])
@pytest.mark.parametrize("flip", FLIPS)
def test_moved_backs_stay_out_of_the_margin(flip, shift):
    """Whatever backs are moved by, nothing on them lies in the margin."""
    for _, back in pairs(files_of(flip, shift, margin=5)):
        room = Rect(0, 0, back.width, back.height).inset(5 - 1e-6)
        assert all(room.holds(mark.bounds()) for mark in back.marks)
        assert all(room.holds(item.on_page(mark.bounds())) for item in back.placed for mark in item.marks)


def test_fronts_stay_where_they_are():
    """A small shift moves no front, no cut and no file; other shifts of one child have files of their own."""
    plain, moved = files_of("long", (0.0, 0.0)), files_of("long", (2.0, -3.0))
    child = {
        "name": "Pim", "numbers": [3, 5], "flip": "hand", "back_shift": [1, 1],
        "materials": ["clip-cards", {"make": "clip-cards", "set": "more", "back_shift": [0, -2.5]}],
    }  # fmt: skip
    names = {file.name for file in plan(read({"children": [child]})).files}

    assert [file.name for file in plain] == [file.name for file in moved]
    assert [(page.placed, page.cuts) for file in plain for page in file.pages if page.side == "front"] == [
        (page.placed, page.cuts) for file in moved for page in file.pages if page.side == "front"
    ]
    assert {"pim-card-shift-1-1-backs.pdf", "pim-card-shift-0--2-5-backs.pdf"} <= names


@pytest.mark.parametrize("short", [True, False])
def test_the_foot_of_a_back_moves_along_as_far_as_there_is_room(short):
    """The line on the back moves with the backs, but never into the margin."""
    frame = Frame(width=210.0, height=297.0, margin=10.0)
    still, moved, far = (
        back_foot(frame, "rainy street", short, shift=shift)[0] for shift in ((0, 0), (2, 1), (-10, 10))
    )

    assert (moved.x - still.x, moved.y - still.y) == pytest.approx((2, 1), abs=0.05)
    assert Rect(0, 0, 210, 297).inset(10 - 1e-3).holds(far.bounds())


@pytest.mark.parametrize("flip", FLIPS)
def test_what_is_read_off_the_test_is_what_the_pack_needs(flip):
    """A printer is off: what the grids then show, as back_shift, brings the backs behind their fronts."""
    off, paper = (1.25, -2.0), PAPERS["letter"]
    front, back = drawn(paper, flip)
    cross = min((mark.x, mark.y) for mark in front.marks if isinstance(mark, Dot))
    shown = through(Rect(*cross, 0, 0), flip, paper)
    axes = [mark for mark in back.marks if isinstance(mark, Line) and mark.line == 0.3]
    middles = [(one.x1, two.y1) for one in axes for two in axes if one.x1 == one.x2 and two.x2 - two.x1 == 20]
    grid = min(middles, key=lambda middle: abs(middle[0] - shown.left) + abs(middle[1] - shown.top))
    reading = (shown.left - (grid[0] + off[0]), shown.top - (grid[1] + off[1]))

    assert reading == pytest.approx((-1.25, 2.0), abs=0.002)
    for one, other in pairs(files_of(flip, reading, paper="letter")):
        behind = [through(printed(item.box, off), flip, paper) for item in other.placed]
        assert [tuple(box) for box in behind] == [
            pytest.approx(tuple(item.box), abs=0.003) for item in one.placed
        ]
