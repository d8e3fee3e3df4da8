"""Cuts in the guide: every cut of every sheet, in order, at its place, each pattern once."""

from collections import Counter
from itertools import accumulate

import pytest
from guide.guides import summer, whole_text
from hypothesis import given
from hypothesis import strategies as st

from printkit.guide.cuts import patterns, sheet_numbers, step_words, steps
from printkit.labels import lengths
from printkit.pieces import Face, Piece
from printkit.sheets.batches import Given, Rules, laid_out
from printkit.sheets.grid import Frame
from printkit.sheets.model import Cut
from printkit.sheets.trimming import cuts_of
from printkit.texts import catalogue
from printkit.units import PAPERS

ENGLISH = catalogue("en")
SIZES = ((62.0, 88.0), (94.0, 125.0), (92.0, 44.0), (186.0, 41.0), (47.5, 62.0))


def cuts_for(pieces: list[Piece], frame: Frame) -> list[tuple[Cut, ...]]:
    """The cuts of each sheet for these pieces."""
    given = [Given(piece=piece, number=number, run="cards") for number, piece in enumerate(pieces)]
    sheets, _ = laid_out(given, frame, Rules())
    return [cuts_of(sheet.boxes, (frame.width, frame.height), frame.foot) for sheet in sheets]


@st.composite
def a_sheet(draw):
    """A paper, and the cuts of a sheet of pieces of one to three sizes on it."""
    paper = PAPERS[draw(st.sampled_from(("a4", "letter")))]
    frame = Frame(width=paper[0], height=paper[1], margin=draw(st.sampled_from((5.0, 10.0))))
    runs = draw(st.lists(st.tuples(st.sampled_from(SIZES), st.integers(1, 9)), min_size=1, max_size=3))
    pieces = [
        Piece(
            child="Wren", set="cards", material="counting-cards", key=str(n),
            width=size[0], height=size[1], front=Face(marks=()),
        )
        for size, count in runs
        for n in range(count)
    ]  # fmt: skip
    return paper, draw(st.sampled_from(cuts_for(pieces, frame)))


def told(step):
    """The places of a step's cuts, in their order: (x or y, where), as many as the step counts."""
    places = [("x" if step.kind in ("down", "left", "part_down") else "y", at) for at in step.at]
    return places * max(1, len(step.columns))


@given(a_sheet())
def test_steps_name_every_cut_at_its_place(sheet):
    """Told one by one, the steps give the sheet's cuts back: number, direction and place."""
    paper, sheet_cuts = sheet
    named = [place for step in steps(paper, sheet_cuts) for place in told(step)]
    drawn = [("x", cut.x1) if cut.x1 == cut.x2 else ("y", cut.y1) for cut in sheet_cuts]

    assert named == drawn


@given(a_sheet())
def test_steps_are_numbered_as_the_cuts(sheet):
    """The steps follow one another without a gap, from the first cut to the last."""
    paper, sheet_cuts = sheet
    numbers = [n for step in steps(paper, sheet_cuts) for n in range(step.first, step.last + 1)]

    assert numbers == [cut.n for cut in sheet_cuts]


@given(a_sheet())
def test_the_foot_comes_first(sheet):
    """The first step takes the foot off, alone."""
    paper, sheet_cuts = sheet
    first = steps(paper, sheet_cuts)[0]

    assert (first.kind, first.first, first.last) == ("foot", 1, 1)


@given(a_sheet())
def test_columns_are_counted_from_the_left(sheet):
    """A step within columns names those whose cuts it holds."""
    paper, sheet_cuts = sheet
    by_number = {cut.n: cut for cut in sheet_cuts}
    left, down = [], []
    for step in steps(paper, sheet_cuts):
        own = [by_number[n].x1 for n in range(step.first, step.last + 1)]
        if step.kind == "left":
            left = own
        if step.kind == "down":
            down = [*left, *own]
            left = left or own[:1]
        if step.kind == "column":
            lefts = dict.fromkeys(by_number[n].x1 for n in range(step.first, step.last + 1))
            assert [down.index(left) + 1 for left in lefts] == list(step.columns)


def test_nine_cards_on_a4_in_words():
    """The words for the usual sheet of nine cards, whole."""
    frame = Frame(width=210.0, height=297.0, margin=10.0)
    pieces = [
        Piece(
            child="Wren", set="cards", material="counting-cards", key=str(n), width=62.0, height=88.0,
            front=Face(marks=()),
        )
        for n in range(9)
    ]  # fmt: skip
    (cuts,) = cuts_for(pieces, frame)
    said = step_words(steps((210.0, 297.0), cuts), "mm", ENGLISH)

    assert said == (
        ("1", "Foot off, 279 mm from the top"),
        ("2", "Top off, 15 mm from the top"),
        ("3–6", "Down, 10, 72, 134 and 196 mm from the left · then every 62 mm"),
        ("7–12", "Each column across, 103 and 191 mm from the top · every 88 mm"),
    )


@given(a_sheet())
def test_fresh_measures_lead_to_the_same_places(sheet):
    """Added up from the fresh edge, or from the first cut, they give the places on the whole sheet."""
    paper, sheet_cuts = sheet
    for step in steps(paper, sheet_cuts):
        begun = [] if step.edge is None else [step.edge]
        places = [*begun, *step.at]

        assert [*begun, *step.at[: 1 - len(begun)]] == places[:1]
        assert list(accumulate(step.fresh, initial=places[0])) == pytest.approx(places)


@given(a_sheet())
def test_fresh_edges_were_cut_before(sheet):
    """Nothing but a cut that was made before is called a fresh edge."""
    paper, sheet_cuts = sheet
    for step in steps(paper, sheet_cuts):
        made = sheet_cuts[: step.first - 1]
        upright = step.kind in ("down", "left", "part_down")
        edges = [cut.x1 if upright else cut.y1 for cut in made if (cut.x1 == cut.x2) == upright]

        assert step.edge is None or step.edge in edges


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("units", ["mm", "in", "both"])
def test_the_guide_names_the_cuts_of_the_sheets(paper, units):
    """Read back from the PDF, the guide holds the places of every sheet's cuts."""
    made = summer(paper=paper, units=units)
    text = whole_text(made)

    for file in made.files:
        for page in file.pages:
            for step in steps((page.width, page.height), page.cuts):
                assert lengths(step.at, units, ENGLISH) in text


def test_every_sheet_is_told_once():
    """Each front of each file belongs to one pattern, and its cuts are the pattern's."""
    made = summer()
    by_name = {file.name: [page for page in file.pages if page.side == "front"] for file in made.files}
    found = Counter()
    for pattern in patterns(made.files):
        for name, numbers in pattern.sheets:
            for number in numbers:
                found[name, number] += 1
                assert by_name[name][number - 1].cuts == pattern.cuts

    assert found == Counter(
        (name, number) for name, pages in by_name.items() for number, _ in enumerate(pages, 1)
    )


def test_sheets_cut_alike_are_told_together():
    """No two patterns have the same cuts on the same paper."""
    found = patterns(summer().files)

    assert len({(pattern.paper, pattern.cuts) for pattern in found}) == len(found)


def test_sheets_without_cuts_are_named():
    """Whole sheets are told apart from those to be cut."""
    made = summer()
    (plain,) = (file for file in made.files if file.name == "juno-plain.pdf")
    whole = [number for number, page in enumerate(plain.pages, 1) if not page.cuts]

    assert whole
    assert f"Nothing to cut: {sheet_numbers(whole, ENGLISH)} of juno-plain.pdf." in whole_text(made)


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ((2,), "sheet 2"),
        ((1, 2), "sheets 1 and 2"),
        ((1, 2, 3), "sheets 1 to 3"),
        ((1, 2, 4), "sheets 1, 2 and 4"),
    ],
)
def test_sheets_in_words(numbers, words):
    """Neighbors are told as a range, others one by one."""
    assert sheet_numbers(numbers, ENGLISH) == words
