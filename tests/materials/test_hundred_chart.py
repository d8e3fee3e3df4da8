"""Hundred chart: every number in its place or missing, a tile for each blank, the whole chart behind."""

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.materials.hundred_chart import BLANKS, blanks_of
from printkit.sheets import turned_to_fit
from printkit.units import Rect

FEW = settings(max_examples=8)


@st.composite
def charts(draw):
    """A tray with a chart that can be made, and its pieces."""
    first = draw(st.integers(0, 100))
    asked = tray(
        "hundred-chart",
        draw(faces.children(numbers=[first, min(100, first + draw(st.integers(0, 60)))])),
        start=draw(st.integers(0, 1)),
        rows=draw(st.integers(1, 10)),
        blanks=draw(st.sampled_from(BLANKS)),
        tiles=draw(st.booleans()),
        **draw(st.fixed_dictionaries({}, optional={"size": st.sampled_from(["small", [170, 170]])})),
    )
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assume(made.pieces)
    return faces.Set(asked, made.pieces, seed)


@FEW
@given(charts())
def test_every_number_stands_in_its_place_or_is_missing(made):
    """Row by row, ten in each; a number stands in the middle of its place, a blank has none."""
    chart = made.pieces[0]
    facts, written = chart.facts, made.asked.child.numerals.written
    numbers = range(facts.first, facts.last + 1)
    shown = [n for n in numbers if n not in facts.blanks]
    texts = faces.texts(chart.front)
    assert [text.run.text for text in texts] == [written(str(n)) for n in shown]
    assert len(numbers) == 10 * made.asked.settings.rows
    middles = {n: (t.bounds().left + t.bounds().width / 2, t.y) for n, t in zip(shown, texts, strict=True)}
    for n in shown:
        for m in (n + 1, n + 10):
            if m in middles and (m == n + 10 or (n - facts.first) % 10 < 9):
                across, down = (a - b for a, b in zip(middles[m], middles[n], strict=True))
                wanted = (facts.cell_mm, 0) if m == n + 1 else (0, facts.cell_mm)
                assert (across, down) == pytest.approx(wanted, abs=0.01)


@FEW
@given(charts())
def test_each_blank_has_a_tile_that_fits_its_place(made):
    """One tile a blank, 1 mm smaller than the place; its numeral keeps 2 mm from the cut, on its rule."""
    chart, *tiles = made.pieces
    wanted = chart.facts.blanks if made.asked.settings.tiles else ()
    assert tuple(tile.facts.numeral for tile in tiles) == wanted
    for tile in tiles:
        assert (tile.width, tile.height) == pytest.approx((chart.facts.cell_mm - 1,) * 2)
        inner = Rect(0, 0, tile.width, tile.height).inset(2.0)
        assert all(inner.holds(faces.inked(mark), 0.1) for mark in tile.front.marks)
        assert inner.holds(faces.texts(tile.front)[0].bounds(), 0.05)
        faces.assert_numerals_stand_on_rules(tile.front)
        assert turned_to_fit(tile, room_of(made.asked)) is not None


@FEW
@given(charts())
def test_the_back_shows_all_numbers_behind_their_places(made):
    """Turned like a page the whole chart stands behind the front's, what is missing there darker."""
    chart = made.pieces[0]
    if not chart.facts.blanks:
        assert chart.back is None
        return
    written = made.asked.child.numerals.written
    numbers = range(chart.facts.first, chart.facts.last + 1)
    texts = faces.texts(chart.back)
    assert [text.run.text for text in texts] == [written(str(n)) for n in numbers]
    dark = {n for n, text in zip(numbers, texts, strict=True) if text.color[0] < 0.6}
    assert dark == set(chart.facts.blanks)
    assert chart.control.width == pytest.approx(10 * chart.facts.cell_mm)


@FEW
@given(charts())
def test_a_whole_sheet_stays_within_it_and_a_cut_chart_keeps_its_distances(made):
    """Uncut charts stay in the room of the sheet; cut ones have hairline and safe distance."""
    chart = made.pieces[0]
    if chart.cut:
        faces.assert_inside(chart)
        return
    sheet = Rect(0, 0, chart.width, chart.height)
    assert (chart.width, chart.height) == tuple(room_of(made.asked))
    assert all(sheet.holds(mark.bounds(), faces.NEAR) for face in faces.faces(chart) for mark in face.marks)


@pytest.mark.parametrize(
    ("blanks", "numbers"),
    [
        ("evens", tuple(range(2, 21, 2))),
        ("fives", (5, 10, 15, 20)),
        ("tens", (10, 20)),
        ("all", tuple(range(1, 21))),
        ("none", ()),
        ("range", (4, 5, 6)),
    ],
)
def test_which_numbers_are_missing(blanks, numbers):
    """Every second, fifth or tenth, all, none, or those of the child."""
    asked = tray("hundred-chart", {"numbers": [4, 6]}, rows=2, blanks=blanks)
    assert blanks_of(0, asked) == numbers


@pytest.mark.parametrize(("numbers", "count"), [([1, 5], 2), ([1, 30], 10), ([1, 100], 20), ([40, 40], 1)])
def test_some_are_a_third_of_the_childs_numbers(numbers, count):
    """20 at most, all within the child's numbers, none beside or below another."""
    for seed in range(6):
        found = blanks_of(seed, tray("hundred-chart", {"numbers": numbers}))
        assert len(found) == count
        assert all(numbers[0] <= n <= numbers[1] for n in found)
        if count > 2:
            assert not any(b - a in (1, 10) for a in found for b in found)


def test_numbers_beyond_the_chart_leave_the_whole_of_it():
    """A child whose numbers do not stand on the chart has blanks anywhere on it."""
    found = blanks_of(0, tray("hundred-chart", {"numbers": [60, 80]}, rows=3))
    assert len(found) == 10
    assert max(found) <= 30


def test_places_that_are_too_small_are_told():
    """The sentence gives the least size."""
    (problem,) = made_of(tray("hundred-chart", {"paper": "a4"}, size=[90, 90])).problems
    assert problem.found == "places of 7.2 mm are too small for numbers and tiles"
    assert problem.allowed.startswith("at least ")
    assert problem.allowed.endswith(" mm high")
