"""Papers are those of the standards, and one millimetre is 72/25.4 points."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.units import PAPERS, Rect, inches, micrometres, points

lengths = st.floats(-500, 500)
rects = st.builds(Rect, lengths, lengths, st.floats(0, 300), st.floats(0, 300))


@pytest.mark.parametrize(
    ("name", "millimetres", "in_points"),
    [
        # ISO 216; the points are computed.
        ("a3", (297, 420), (841.890, 1190.551)),
        ("a4", (210, 297), (595.276, 841.890)),
        ("a5", (148, 210), (419.528, 595.276)),
        # ANSI/ASME Y14.1: 8.5 x 11 in; Legal 8.5 x 14 in is common practice.
        ("letter", (215.9, 279.4), (612, 792)),
        ("legal", (215.9, 355.6), (612, 1008)),
    ],
)
def test_papers_are_those_of_the_standards(name, millimetres, in_points):
    """Width and height in mm, upright, and what a PDF page of that paper measures in points."""
    assert PAPERS[name] == millimetres
    assert [round(points(side), 3) for side in PAPERS[name]] == list(in_points)
    assert PAPERS[name][0] < PAPERS[name][1]


def test_iso_papers_halve_into_one_another():
    """Each A size is the next larger one folded, rounded down to whole mm (ISO 216)."""
    for larger, smaller in (("a3", "a4"), ("a4", "a5")):
        assert PAPERS[smaller] == (PAPERS[larger][1] // 2, PAPERS[larger][0])


def test_there_are_no_other_papers():
    """The words of a pack file for papers are these five."""
    assert sorted(PAPERS) == ["a3", "a4", "a5", "legal", "letter"]


def test_an_inch_is_exactly_25_4_millimetres():
    """25.4 mm are 1 inch and 72 points (ISO 32000-1: 1/72 inch); 1 mm is 2.834645669 points."""
    assert inches(25.4) == 1
    assert abs(points(25.4) - 72) < 1e-12
    assert round(points(1), 9) == 2.834645669


@given(lengths)
def test_micrometres_are_whole_and_near(length):
    """A length moves by half a micrometre at most, stays there when rounded again, and is never -0."""
    rounded = micrometres(length)
    assert abs(rounded - length) <= 0.0005 + 1e-9
    assert micrometres(rounded) == rounded
    assert str(rounded) != "-0.0"


@given(rects, st.floats(-20, 20))
def test_inset_moves_every_side_by_as_much(rect, by):
    """Each side of the inner rectangle lies `by` mm inside."""
    inner = rect.inset(by)
    assert inner.left - rect.left == pytest.approx(by)
    assert rect.right - inner.right == pytest.approx(by)
    assert inner.top - rect.top == pytest.approx(by)
    assert rect.bottom - inner.bottom == pytest.approx(by)
    assert rect.holds(inner) == (by >= 0 or abs(by) <= 1e-6)


@given(rects, rects)
def test_meeting_goes_both_ways_and_holding_implies_it(one, two):
    """Two rectangles meet each other or not; one of some size that is held is met."""
    assert one.meets(two) == two.meets(one)
    if one.holds(two) and min(two.width, two.height) > 0.001:
        assert one.meets(two)


def test_neighbours_that_share_a_border_do_not_meet():
    """A common edge is no overlap."""
    assert not Rect(0, 0, 10, 10).meets(Rect(10, 0, 10, 10))
    assert not Rect(0, 0, 10, 10).meets(Rect(3, 10, 10, 10))
    assert Rect(0, 0, 10, 10).meets(Rect(9.9, 9.9, 10, 10))
    assert Rect(0, 0, 10, 10).holds(Rect(0, 0, 10, 10))
