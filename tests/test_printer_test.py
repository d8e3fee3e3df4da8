"""The printer test: what can be measured on it is as long and lies where it says, on both sides."""

import io
import re
import tomllib
from functools import cache
from itertools import combinations
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2
import pytest
from click.testing import CliRunner

from printkit.cli import commands
from printkit.pieces import Dot, Line, Text
from printkit.printer_test import paper_of
from printkit.printer_test import test_pages as drawn
from printkit.printer_test.edges import INSET, STEPS
from printkit.sheets.model import Page
from printkit.texts import catalogue, catalogue_languages
from printkit.units import PAPERS, Rect
from printkit.writer import write

FLIPS = ("long", "short", "hand")
DARK = 170
PX = 10
"""Pixels a mm: 254 dpi."""


@cache
def pages_of(paper: tuple[float, float], flip: str, language: str = "en") -> tuple[Page, Page]:
    """Front and back."""
    return drawn(paper, flip, language)


def pixels(page: Page) -> np.ndarray:
    """The page in gray, ten pixels a mm."""
    document = pypdfium2.PdfDocument(write([page], title="t", language="en").data)
    try:
        return document[0].render(scale=PX * 25.4 / 72).to_numpy()[..., :3].max(axis=2)
    finally:
        document.close()


def runs(line: np.ndarray) -> list[tuple[int, int]]:
    """Where dark stretches begin and how long they are."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], (line < DARK).astype(int), [0]])))
    return [(int(start), int(end - start)) for start, end in edges.reshape(-1, 2)]


def longest(line: np.ndarray) -> int:
    """How long its longest dark stretch is."""
    return max((length for _, length in runs(line)), default=0)


@pytest.fixture(scope="module")
def a4() -> list[np.ndarray]:
    """Front and back on A4, two-sided over the long edge."""
    return [pixels(page) for page in pages_of(PAPERS["a4"], "long")]


def test_the_bars_are_fifty_millimeters_and_two_inches(a4):
    """On the front lie one line of 50 mm and one of 50.8 mm (2 in), with their ends of 0.2 mm."""
    lengths = {length for row in a4[0][350:1200] for _, length in runs(row) if length > 400}
    bars = sorted(length / PX for length in lengths if length < 600)

    assert bars[0] - 0.2 == pytest.approx(50.0, abs=0.15)
    assert bars[-1] - 0.2 == pytest.approx(50.8, abs=0.15)


def test_one_bar_of_fifty_millimeters_stands_upright(a4):
    """Down the front there is one line of 50 mm, so that both directions are measured."""
    columns = np.rot90(a4[0][350:-350, 350:-350])
    lengths = {length for column in columns for _, length in runs(column) if length > 400}

    assert [length / PX - 0.2 for length in lengths] == pytest.approx([50.0], abs=0.15)


@pytest.mark.parametrize("turns", range(4))
@pytest.mark.parametrize("side", [0, 1])
def test_each_step_of_a_stair_is_a_millimeter_farther_in(a4, side, turns):
    """On each side of either page, step n is a line n mm from the edge, and the steps go one way."""
    page = np.rot90(a4[side], turns)
    middles = []
    for step in range(1, STEPS + 1):
        long = [run for run in runs(page[step * PX]) if run[1] > 30]
        assert [length / PX for _, length in long] == pytest.approx([3.7], abs=0.2)
        assert not [run for run in runs(page[step * PX - 4]) if run[1] > 30]
        middles.append(long[0][0])

    way = np.diff(middles)
    assert (way > 30).all() or (way < -30).all()


@pytest.mark.parametrize("side", [0, 1])
def test_every_side_has_a_ruler_of_millimeters_and_inches(a4, side):
    """Above the line of each ruler stand marks 1 mm apart, below it marks an eighth of an inch apart."""
    for turns in range(4):
        page = np.rot90(a4[side], turns)
        width = page.shape[1]
        line = next(row for row in range(200, 320) if longest(page[row]) > 0.6 * width)
        over, under = (
            [start + length / 2 for start, length in runs(page[row]) if 300 < start < width - 300]
            for row in (line - 5, line + 6)
        )
        assert np.diff(over) == pytest.approx([PX] * (len(over) - 1), abs=1.5)
        assert np.diff(under) == pytest.approx([25.4 / 8 * PX] * (len(under) - 1), abs=1.5)
        assert len(over) > 100 and len(under) > 30


def crosses(page: Page) -> list[tuple[float, float]]:
    """The middles of the crosses, which stand in rings."""
    return sorted((mark.x, mark.y) for mark in page.marks if isinstance(mark, Dot))


def grids(page: Page) -> list[tuple[float, float]]:
    """The middles of the grids: where a line of 20 mm down crosses one of 20 mm across, both strong."""
    strong = [mark for mark in page.marks if isinstance(mark, Line) and mark.line == 0.3]
    down = [mark for mark in strong if mark.x1 == mark.x2 and abs(mark.y2 - mark.y1 - 20) < 0.01]
    across = [mark for mark in strong if mark.y1 == mark.y2 and abs(mark.x2 - mark.x1 - 20) < 0.01]
    return sorted((one.x1, other.y1) for one in down for other in across if other.x1 < one.x1 < other.x2)


@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
@pytest.mark.parametrize("flip", FLIPS)
def test_each_grid_lies_behind_its_cross(flip, paper):
    """Without any shift the cross of the front shows in the middle of the grid on the back."""
    width, height = PAPERS[paper]
    front, back = pages_of((width, height), flip)
    through = [(x, height - y) if flip == "short" else (width - x, y) for x, y in crosses(front)]

    assert len(through) == 2
    assert np.array(grids(back)) == pytest.approx(np.array(sorted(through)), abs=0.002)


@pytest.mark.parametrize("paper", [*PAPERS.values(), (160.0, 400.0), (500.0, 520.0)])
@pytest.mark.parametrize(
    ("language", "flip"),
    [(tag, flip) for tag in catalogue_languages() for flip in FLIPS if tag == "en" or flip == "hand"],
)
def test_nothing_runs_over(language, flip, paper):
    """On any paper, in any language, no words lie on others, and only numbers and units leave the rulers."""
    room = Rect(0, 0, *paper).inset(INSET - 0.5)
    for page in pages_of(paper, flip, language):
        words = [mark for mark in page.marks if isinstance(mark, Text)]
        boxes = [mark.bounds() for mark in words]
        assert [
            (one.run.text, other.run.text)
            for (one, box), (other, beside) in combinations(zip(words, boxes, strict=True), 2)
            if box.meets(beside, slack=0.1)
        ] == []
        outside = [mark.run.text for mark, box in zip(words, boxes, strict=True) if not room.holds(box)]
        assert {text for text in outside if not text.isdigit()} == {"mm", "in"}
        assert all(Rect(0, 0, *paper).holds(mark.bounds()) for mark in page.marks)


def text_of(flip: str, number: int) -> str:
    """The words of a page as a foreign reader copies them, on one line."""
    data = write(pages_of(PAPERS["a4"], flip)[number : number + 1], title="t", language="en").data
    return " ".join(pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text().split())


@pytest.mark.parametrize("flip", FLIPS)
def test_the_page_says_what_to_do(flip):
    """It names the setting of the printer, how backs come, where both keys are written, and its side."""
    front, back = text_of(flip, 0), text_of(flip, 1)

    assert "FRONT" in front and "BACK" in back
    assert "actual size (100 %)" in front
    assert "margin =" in front and "49.5 to 50.5 mm" in front
    assert "back_shift = [" in back
    assert all("above the first [[children]]" in page for page in (front, back))
    turned = {"long": "flip on the long edge", "short": "flip on the short edge", "hand": "goes in first"}
    assert turned[flip] in front


@pytest.mark.parametrize("flip", FLIPS)
def test_the_minus_is_the_one_that_is_typed(flip):
    """Grids, sentences and the example have the hyphen that a pack file takes, and no other sign."""
    back = text_of(flip, 1)

    assert "−" not in back and "–" not in back
    assert {"-10", "-5"} <= set(back.split())


@pytest.mark.parametrize("flip", FLIPS)
def test_the_examples_are_true(flip):
    """The shift is the average of two readings that are not crooked; the margin is the largest plus 1."""
    front, back = text_of(flip, 0), text_of(flip, 1)
    one, other, shift = (
        tomllib.loads(f"pair = {pair}")["pair"] for pair in re.findall(r"\[-?[\d.]+, -?[\d.]+\]", back)[:3]
    )
    readings = [int(n) for n in re.search(r"example ([\d, and]+):", front)[1].replace("and", ",").split(",")]

    assert shift == [(a + b) / 2 for a, b in zip(one, other, strict=True)]
    assert all(abs(a - b) < 1 for a, b in zip(one, other, strict=True))
    assert f"margin = {max(readings) + 1}." in front


@pytest.mark.parametrize("flip", FLIPS)
def test_the_steps_are_numbered_through(flip):
    """Each entry has its number, 1 to 8 over both pages, in the order in which it is read."""
    numbers = [
        mark.run.text
        for page in pages_of(PAPERS["a4"], flip)
        for mark in sorted((m for m in page.marks if isinstance(m, Text) and m.color == (1.0,)), key=by_y)
    ]

    assert numbers == [str(number) for number in range(1, 9)]


def by_y(mark: Text) -> float:
    """How far down the page its base line lies."""
    return mark.y


@pytest.mark.parametrize("side", [0, 1])
def test_the_zero_lines_of_a_grid_are_whole(side):
    """No line of a grid is drawn over a stronger one."""
    page = pages_of(PAPERS["a4"], ("long", "short")[side])[1]
    x, y = grids(page)[0]
    widths = [
        mark.line
        for mark in page.marks
        if isinstance(mark, Line)
        and mark.line in (0.1, 0.2, 0.3)
        and abs((mark.x1 + mark.x2) / 2 - x) <= 10
        and abs((mark.y1 + mark.y2) / 2 - y) <= 10
        and abs(abs(mark.x2 - mark.x1) + abs(mark.y2 - mark.y1) - 20) < 0.01
    ]

    assert len(widths) == 42
    assert widths == sorted(widths)


# --- the command -----------------------------------------------------------------------------


def run(*arguments: str | Path):
    """printkit printer-test with these arguments."""
    return CliRunner().invoke(commands, ["printer-test", *(str(argument) for argument in arguments)])


def test_the_command_writes_two_pages_and_writes_them_anew(tmp_path):
    """A front and a back, the same bytes each time; an earlier test is replaced."""
    file = tmp_path / "test.pdf"
    first = run("-o", file)
    data = file.read_bytes()
    again = run("-o", file, "--flip", "short", "--paper", "letter")
    reader = pypdf.PdfReader(file, strict=True)

    assert (first.exit_code, first.stdout, first.stderr) == (0, f"{file}\n", "")
    assert again.exit_code == 0
    assert [float(value) for value in reader.pages[1].mediabox[2:]] == [612, 792]
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/Duplex"] == "/DuplexFlipShortEdge"
    assert len(reader.pages) == 2
    run("-o", file)
    assert file.read_bytes() == data


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (
            ["--paper", "a44"],
            "--paper: found 'a44'; allowed: a3, a4, a5, letter or legal, or [width, height], "
            "each 100 to 1000 mm; did you mean 'a4'?",
        ),
        (
            ["--paper", "100x150"],
            "--paper: found [100, 150]; allowed: 148 x 210 mm (A5) or more, to have room for the test",
        ),
        (
            ["--language", "dee"],
            "--language: there is no printer test in 'dee'; allowed: de, en, es or fr; did you mean 'de'?",
        ),
    ],
)
def test_a_paper_or_a_language_that_will_not_do(arguments, sentence, tmp_path):
    """No such paper or language, or a paper that is too small: a sentence, and nothing is written."""
    result = run("-o", tmp_path / "test.pdf", *arguments)

    assert (result.exit_code, result.stderr) == (2, f"{sentence}\n")
    assert list(tmp_path.iterdir()) == []


def words_on(file: Path) -> str:
    """All that stands on the pages, without spaces and line ends."""
    return "".join("".join(page.extract_text().split()) for page in pypdf.PdfReader(file).pages)


@pytest.mark.parametrize("language", catalogue_languages())
def test_the_sheet_speaks_the_language(language, tmp_path):
    """Titles, the name of the paper and decimals are the language's, and the PDF says which it is."""
    file, texts = tmp_path / "test.pdf", catalogue(language)
    result = run("-o", file, "--language", language.upper(), "--paper", "legal")
    said, paper = words_on(file), texts.say("guide.papers.legal")

    assert (result.exit_code, result.stderr) == (0, "")
    for key in ("about", "front_title", "back_title", "top", "crosses"):
        assert "".join(texts.say(f"printer_test.{key}", paper=paper).split()) in said
    assert f"{texts.number(0.25)}mm" in said
    assert pypdf.PdfReader(file).trailer["/Root"]["/Lang"] == language


def test_a_file_of_the_familys_own_is_kept(tmp_path):
    """What is no printer test is not overwritten."""
    file = tmp_path / "test.pdf"
    file.write_text("ours", encoding="utf-8")
    result = run("-o", file)

    assert result.exit_code == 2
    assert result.stderr == f"-o: there is another file '{file}' already; allowed: the name of a new file\n"
    assert file.read_text(encoding="utf-8") == "ours"


def test_a_paper_lies_upright():
    """Width and height may be said either way round."""
    assert paper_of([297.0, 210.0]) == paper_of("a4") == (210.0, 297.0)
