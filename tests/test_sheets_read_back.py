"""Sheets read back from their pages alone; and for each thing that is read, that a fault is seen."""

import copy
import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pypdf
import pytest
from click.testing import CliRunner
from reader import MM, ReadPage, read_file, read_manifest
from scipy import ndimage
from sheet_lines import bars
from sheet_reader import PAGE_CHECKS, counted, faults, judged, sheets_of

from printkit.cli import commands

PLAIN = (Path(__file__).parent / "fixtures" / "plain").as_posix()
SAMPLES = Path(__file__).parent.parent / "samples"


def make(file: Path, out: Path) -> Path:
    """The folder that a pack file's pack was made into."""
    result = CliRunner().invoke(commands, ["make", str(file), "-o", str(out)])
    assert (result.exit_code, result.stderr) == (0, "")
    return out


def pack(place: Path, keys: str, child: str) -> Path:
    """The folder of a pack for one child, made from the lines of a pack file."""
    file = place / "shelf.toml"
    file.write_text(f'{keys}\n[[children]]\nname = "Wren"\nsums_to = 4\n{child}\n', encoding="utf-8")
    return make(file, place / "made")


# --- whole packs -----------------------------------------------------------------------------

NASTY = {
    "small paper, thin margin, turned over the short edge, gray": (
        f'theme = "{PLAIN}"\npaper = "a5"\nmargin = 5\nflip = "short"\nink = "gray"',
        'numbers = [5, 6]\nmaterials = [{ make = "counting-cards", layout = "back" }, "clip-cards", '
        '{ make = "strips", count = 2, size = "small" }]',
    ),
    "wide margin, written from the right, turned over the long edge": (
        'paper = "letter"\nmargin = 20\nflip = "long"\nlanguages = ["he", "ar"]',
        'numbers = [1, 3]\nmaterials = [{ make = "counting-cards", layout = "back" }, "clip-cards", '
        '{ make = "odd-one-out", count = 2 }]',
    ),
    "long paper, fed by hand, outlines, Japanese": (
        'paper = "legal"\nflip = "hand"\nink = "outline"\nlanguages = ["ja"]',
        'numbers = [2, 3]\nmaterials = ["clip-cards", { make = "odd-one-out", count = 3 }, '
        '{ make = "counting-cards", arrange = "frame" }]',
    ),
    "paper of the family's own, sizes mixed, turned over the short edge": (
        f'theme = "{PLAIN}"\npaper = [180, 260]\nmargin = 7.5\nflip = "short"',
        'numbers = [1, 2]\nmaterials = [{ make = "counting-cards", size = "small", layout = "back" }, '
        '{ make = "clip-cards", size = "large" }, { make = "strips", size = [150, 61.3], count = 2 }, '
        '{ make = "counting-cards", set = "big", size = "large", things = "places" }]',
    ),
    "gaps, round corners, cut as a pile, backs moved for the printer": (
        f'theme = "{PLAIN}"\nflip = "short"\ngap = 4\ncorner = 6\nstack = true\nback_shift = [1.5, -1]',
        'numbers = [2, 4]\nmaterials = [{ make = "counting-cards", layout = "back" }, "clip-cards"]',
    ),
    "tracing on cards and whole sheets": (
        'paper = "a4"\nmargin = 12',
        'numbers = [3, 4]\nmaterials = [{ make = "tracing", form = "sheet" }, '
        '{ make = "tracing", set = "big", form = "card" }]',
    ),
}


@pytest.mark.parametrize("kind", NASTY)
def test_sheets_can_be_cut_and_are_what_the_manifest_says(kind, tmp_path):
    """Cuts, margins, pieces, counts, bars and backs, on paper and with settings of every kind."""
    assert faults(pack(tmp_path, *NASTY[kind])) == []


def test_a_child_with_every_material_can_cut_its_sheets(tmp_path):
    """All materials together, mixed on sheets; the first pages of each file are read."""
    listed = CliRunner().invoke(commands, ["list", "materials", "--json"])
    names = json.dumps([item["name"] for item in json.loads(listed.stdout)])
    folder = pack(tmp_path, f'theme = "{PLAIN}"\nflip = "short"', f"numbers = [2, 3]\nmaterials = {names}")
    assert faults(folder, first_pages=2) == []


@pytest.mark.parametrize(("name", "first"), [("rock-pool-summer", 1), ("first-snow-winter", 2)])
def test_the_samples_can_be_cut_and_are_what_their_manifest_says(name, first, tmp_path):
    """The first pages of every file; `python tests/sheet_reader.py FOLDER` reads all of them."""
    assert faults(make(SAMPLES / f"{name}.toml", tmp_path / "made"), first_pages=first) == []


# --- every fault is seen ---------------------------------------------------------------------

Read = tuple[list[ReadPage], dict]
Break = Callable[[list[ReadPage]], list[ReadPage] | None]


@pytest.fixture(scope="module")
def sheet(tmp_path_factory) -> Read:
    """A front and its back with three kinds of cards, turned over the long edge, and their manifest."""
    folder = pack(
        tmp_path_factory.mktemp("broken"),
        f'theme = "{PLAIN}"\nflip = "long"',
        'numbers = [2, 3]\nmaterials = [{ make = "counting-cards", layout = "back" }, "clip-cards", '
        '{ make = "odd-one-out", count = 2 }]',
    )
    manifest = read_manifest(folder)
    file = next(file for file in sheets_of(manifest) if file["file"] == "wren-card.pdf")
    return read_file(folder, file, only=(1, 2)), manifest


def copied(pages: list[ReadPage]) -> list[ReadPage]:
    """Pages that may be broken."""
    return [
        replace(
            page,
            file=copy.deepcopy(page.file),
            entry=copy.deepcopy(page.entry),
            pixels=page.pixels.copy(),
        )
        for page in pages
    ]


def area(page: ReadPage, left: float, top: float, width: float, height: float) -> np.ndarray:
    """The pixels of a box in mm, to be painted."""
    rows = slice(round(top * MM), round((top + height) * MM))
    return page.pixels[rows, round(left * MM) : round((left + width) * MM)]


def test_the_sheet_to_be_broken_is_sound(sheet):
    """Before it is broken nothing is wrong with it, and it holds what is going to be broken."""
    (front, back), manifest = sheet
    assert list(judged([front, back], manifest)) == []
    assert {piece["material"] for piece in back.entry["pieces"]} >= {"counting-cards", "clip-cards"}
    assert len(front.entry["cuts"]) >= 6


def moved_cut(pages):
    """The manifest has a cut 1 mm from where it is drawn."""
    cut = pages[0].entry["cuts"][0]
    for end in ("from", "to"):
        cut[end][1] += 1


def undrawn_cut(pages):
    """A cut is missing on the page."""
    (x1, y), (x2, _) = pages[0].entry["cuts"][0]["from"], pages[0].entry["cuts"][0]["to"]
    area(pages[0], x1, y - 0.5, x2 - x1, 1)[:] = 255


def half_drawn_cut(pages):
    """A cut stops 6 mm before its end."""
    right = pages[0].size[0] - 10
    area(pages[0], right - 6, pages[0].entry["cuts"][0]["from"][1] - 0.5, 6, 1)[:] = 255


def solid_cut(pages):
    """A cut is drawn through, not dashed."""
    strip = area(pages[0], 10, pages[0].entry["cuts"][0]["from"][1] - 0.5, 190, 1)
    strip[:] = 255
    strip[len(strip) // 2] = 150


def cut_that_nobody_lists(pages):
    """A cut was drawn that the manifest does not have."""
    del pages[0].entry["cuts"][-1]


def cuts_in_the_wrong_order(pages):
    """The last cut comes first."""
    first, last = pages[0].entry["cuts"][0], pages[0].entry["cuts"][-1]
    first["n"], last["n"] = last["n"], first["n"]


def short_cut(pages):
    """A cut does not reach the edge of the part in hand."""
    pages[0].entry["cuts"][1]["to"][0] -= 5


def number_left_out(pages):
    """The cuts are not numbered one by one."""
    pages[0].entry["cuts"][-1]["n"] += 1


def line_across_a_cut(pages):
    """Ink of a face reaches over the cut."""
    cut = pages[0].entry["cuts"][0]
    area(pages[0], 60, cut["from"][1] - 2, 0.3, 4)[:] = 0


def number_on_a_piece(pages):
    """The number of a cut is printed on a piece."""
    left, top, *_ = pages[0].entry["pieces"][0]["box_mm"]
    pages[0].entry["cuts"][0]["number_mm"] = [left + 20, top + 6, 1, 1.2]


def number_not_printed(pages):
    """A cut has no number on the page, though the manifest says where it is."""
    cut = next(cut for cut in pages[0].entry["cuts"] if "number_mm" in cut)
    area(pages[0], *cut["number_mm"])[:] = 255


def ink_in_the_margin(pages):
    """A speck 4 mm from the edge."""
    area(pages[0], 100, 4, 0.5, 0.5)[:] = 100


def another_paper(pages):
    """The page is smaller than the paper."""
    pages[0].file["paper_mm"] = [210, 298]


def piece_not_printed(pages):
    """A piece's place is white."""
    area(pages[0], *pages[0].entry["pieces"][0]["box_mm"])[:] = 255


def ink_at_the_edge(pages):
    """A face has ink 2 mm inside the cut."""
    left, top, width, _ = pages[0].entry["pieces"][0]["box_mm"]
    area(pages[0], left + 10, top + 2, width - 20, 0.3)[:] = 0


def piece_nobody_lists(pages):
    """The manifest does not know a piece that is printed, on either side."""
    name = pages[0].entry["pieces"][0]["id"]
    for page in pages:
        page.entry["pieces"] = [piece for piece in page.entry["pieces"] if piece["id"] != name]


def thing_too_few(pages):
    """One of the things to count is not printed."""
    piece = next(piece for piece in pages[0].entry["pieces"] if piece["areas"][0]["things"] == 2)
    left, top, width, height = piece["areas"][0]["box_mm"]
    shown = area(pages[0], left, top, width, height)
    labels, _ = ndimage.label(shown < 245)
    shown[labels == labels.max()] = 255


def thing_too_many(pages):
    """There is a speck of ink of 3 mm among the things."""
    piece = next(piece for piece in pages[0].entry["pieces"] if piece["areas"])
    left, top, *_ = piece["areas"][0]["box_mm"]
    area(pages[0], left, top, 3, 3)[:] = 0


def shifted_back(pages):
    """The back is printed 3 mm to the side."""
    pages[1] = replace(pages[1], pixels=np.roll(pages[1].pixels, round(3 * MM), axis=1))


def slightly_shifted_back(pages):
    """The back is printed 0.7 mm too low."""
    pages[1] = replace(pages[1], pixels=np.roll(pages[1].pixels, round(0.7 * MM), axis=0))


def turned_over_the_other_edge(pages):
    """The file says short, the pages lie as for long."""
    for page in pages:
        page.file["flip"] = "short"


def misplaced_control(pages):
    """The control of a clip card is printed under its neighbour."""
    behind = next(piece for piece in pages[1].entry["pieces"] if "clip" in piece["id"])
    left, top, width, height = behind["control_mm"]
    other = left + 28 if left < behind["box_mm"][0] + 40 else left - 28
    control = area(pages[1], left, top, width, height)
    rows, columns = control.shape
    start = round(other * MM)
    pages[1].pixels[round(top * MM) :][:rows, start : start + columns] = control
    control[:] = 255


def wrong_answer(pages):
    """The front's answer is another than the one behind which the control lies."""
    piece = next(piece for piece in pages[0].entry["pieces"] if "answer" in piece["facts"])
    piece["facts"]["answer"] = (piece["facts"]["answer"] + 1) % 3


def backs_changed(pages):
    """Two backs of one size have changed places."""
    one, two = [piece for piece in pages[1].entry["pieces"] if "counting" in piece["id"]][:2]
    one["box_mm"], two["box_mm"] = two["box_mm"], one["box_mm"]


def piece_twice(pages):
    """A piece is listed twice."""
    pages[0].entry["pieces"].append(pages[0].entry["pieces"][0])


def front_missing(pages):
    """There is a back without its front."""
    del pages[0]


BREAKS = {
    moved_cut: "check_cut_lines",
    undrawn_cut: "check_cut_lines",
    half_drawn_cut: "check_cut_lines",
    solid_cut: "check_cut_lines",
    cut_that_nobody_lists: "check_cut_lines",
    cuts_in_the_wrong_order: "check_guillotine",
    short_cut: "check_guillotine",
    number_left_out: "check_guillotine",
    line_across_a_cut: "check_crossing",
    number_on_a_piece: "check_numbers",
    number_not_printed: "check_numbers",
    ink_in_the_margin: "check_margin",
    another_paper: "check_margin",
    piece_not_printed: "check_pieces",
    ink_at_the_edge: "check_pieces",
    piece_nobody_lists: "check_pieces",
    thing_too_few: "check_counts",
    thing_too_many: "check_counts",
    shifted_back: "check_backs",
    slightly_shifted_back: "check_backs",
    turned_over_the_other_edge: "check_backs",
    misplaced_control: "check_backs",
    wrong_answer: "check_backs",
    backs_changed: "check_backs",
    piece_twice: "check_whole",
    front_missing: "check_whole",
}


@pytest.mark.parametrize("spoil", BREAKS, ids=lambda spoil: spoil.__name__)
def test_a_broken_sheet_is_seen(spoil, sheet):
    """The check that is there for this fault reports it."""
    pages, manifest = copied(sheet[0]), sheet[1]
    spoil(pages)
    assert any(fault.check == BREAKS[spoil] for fault in judged(pages, manifest))


def test_every_check_has_a_fault_that_it_sees():
    """No check is there that was never seen to fail; that of the bars has a test of its own."""
    checks = {check.__name__ for check in PAGE_CHECKS} | {"check_backs", "check_whole"}
    assert set(BREAKS.values()) | {"check_bars"} == checks


def test_a_scaled_page_is_seen(sheet, tmp_path):
    """Printed at 99.7 per cent, as by a viewer that fits pages to the paper, the bars are too short."""
    front = sheet[0][0]
    writer = pypdf.PdfWriter(front.path)
    for page in writer.pages:
        page.add_transformation(pypdf.Transformation().scale(0.997))
    writer.write(tmp_path / "scaled.pdf")
    found = list(judged([replace(front, path=tmp_path / "scaled.pdf")], sheet[1]))
    assert [fault.check for fault in found] == ["check_bars"]
    assert json.loads(found[0].said[len("the bars are ") :].partition(" mm")[0]) == pytest.approx(
        [49.85, 50.648], abs=0.05
    )


# --- the reader's own eyes -------------------------------------------------------------------


def test_bars_are_measured_between_the_middles_of_their_end_strokes():
    """A bar drawn to the pixel: strokes 3 wide, 1000 apart; longer text beside it is none."""
    ink = np.zeros((120, 2000), bool)
    ink[58:63, 100:1101] = True
    for middle in (100, 1100):
        ink[40:80, middle - 1 : middle + 2] = True
    ink[20:30, 1200:1400] = True
    assert bars(ink, 20.0) == [50.0]


@pytest.mark.parametrize("things", [0, 1, 4])
def test_things_in_a_frame_are_counted_without_the_frame(things):
    """Two rows of five cells of 9 mm; discs and rings lie in some."""
    cell = round(9 * MM)
    pixels = np.full((2 * cell + 20, 5 * cell + 20), 255, np.uint8)
    for row in range(3):
        pixels[10 + row * cell, 10 : 10 + 5 * cell + 1] = 120
    for column in range(6):
        pixels[10 : 10 + 2 * cell + 1, 10 + column * cell] = 120
    y, x = np.ogrid[: pixels.shape[0], : pixels.shape[1]]
    for number in range(things):
        far = np.hypot(y - 10 - cell / 2, x - 10 - cell * (number + 0.5))
        pixels[(far < cell / 3) & ((far > cell / 4) | (number % 2 == 0))] = 60
    assert counted(pixels, "frame") == things


@pytest.mark.parametrize(("inner", "things"), [(None, 0), (0.4, 1)])
def test_empty_places_hold_no_thing(inner, things):
    """A thin ring is a place to lay something; what lies in it counts."""
    y, x = np.ogrid[:200, :200]
    far = np.hypot(y - 100, x - 100)
    pixels = np.where(np.abs(far - 80) < 1.2, 180, 255).astype(np.uint8)
    if inner:
        pixels[far < 80 * inner] = 60
    assert counted(pixels, "places") == things
