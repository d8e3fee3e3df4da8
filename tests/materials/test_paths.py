"""Paths: ways of the width that is said, that never come near themselves, from picture to picture."""

import math
from itertools import pairwise

import faces
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import made_of, tray

from printkit.materials.lanes import CLEAR, KINDS, LEAST_SWING
from printkit.pictures import built_in
from printkit.pieces import Dot, Picture
from printkit.sheets.foot import with_mark

FEW = settings(max_examples=14)


@st.composite
def sets(draw, forms=("follow", "snip")):
    """A tray of paths on a paper that has room for it, and what it makes."""
    child = draw(
        faces.children(margin=draw(st.sampled_from((3, 10))), hand=draw(st.sampled_from(("left", "right"))))
    )
    kinds = draw(st.lists(st.sampled_from(KINDS), min_size=1, max_size=3, unique=True))
    asked = tray(
        "paths", child, form=draw(st.sampled_from(forms)), kinds=kinds, count=draw(st.integers(1, 6)),
    )  # fmt: skip
    made = made_of(asked, draw(st.integers(0, 9)))
    assert made.problems == ()
    return faces.Set(asked, made.pieces, 0)


def ways(piece) -> list[Picture]:
    """The ways of a strip."""
    return [mark for mark in faces.pictures(piece.front) if mark.drawing.name.startswith("a way")]


def motifs(piece) -> list[Picture]:
    """The pictures of a strip."""
    return [mark for mark in faces.pictures(piece.front) if not mark.drawing.name.startswith("a way")]


def middle_line(way: Picture) -> list[tuple[float, float]]:
    """The middle line of a way on its strip."""
    return [(way.x + x, way.y + y) for _, x, y in way.drawing.shapes[0].path]


def sampled(points, step=1.0):
    """Points about every millimeter along a line, each with its way from the start."""
    found, done = [], 0.0
    for a, b in pairwise(points):
        length = math.dist(a, b)
        parts = max(1, round(length / step))
        found += [
            (done + length * i / parts, (a[0] + (b[0] - a[0]) * i / parts, a[1] + (b[1] - a[1]) * i / parts))
            for i in range(parts)
        ]
        done += length
    return [*found, (done, points[-1])]


@FEW
@given(sets())
def test_a_way_is_as_wide_and_long_as_its_facts_say(item):
    """Width and length are measured on what is drawn; ways are 6 to 20 mm wide."""
    for piece in item.pieces:
        assert len(ways(piece)) == piece.facts.lanes
        for way in ways(piece):
            outer, inner = way.drawing.shapes
            assert outer.stroke_width == piece.facts.width
            assert inner.stroke_width == piece.facts.width - 1
            assert outer.path == inner.path
            points = middle_line(way)
            assert sum(math.dist(a, b) for a, b in pairwise(points)) == pytest.approx(
                piece.facts.length, abs=0.1
            )
            assert 6 <= piece.facts.width <= 20
            assert way.width == pytest.approx(way.drawing.width)


@settings(max_examples=12)
@given(sets())
def test_a_way_keeps_clear_of_itself(item):
    """Stretches that are not neighbors along the way lie apart by more than its width."""
    for piece in item.pieces:
        for way in ways(piece):
            width = piece.facts.width
            points = sampled(middle_line(way), 1.5)
            near = 2 * (width + CLEAR)
            for i, (at, one) in enumerate(points):
                assert all(
                    math.dist(one, other) > width + CLEAR / 4
                    for there, other in points[i:]
                    if there - at > near
                ), piece.key


@FEW
@given(sets())
def test_bends_are_as_many_as_said(item):
    """Lines have none; waves and corners turn up and down as often as the facts say, by 4 mm or more."""
    for piece in item.pieces:
        (way, *_) = ways(piece)
        points = middle_line(way)
        if piece.facts.kind == "lines":
            assert piece.facts.bends == 0
            assert len(points) == 2
            continue
        assert piece.facts.bends >= 1
        heights = [y for _, y in points]
        assert max(heights) - min(heights) >= LEAST_SWING
        turns = [b - a for a, b in pairwise(heights) if abs(b - a) > 1e-6]
        extremes = sum(1 for a, b in pairwise(turns) if (a > 0) != (b > 0))
        upright = any(abs(a[0] - b[0]) < 1e-6 for a, b in pairwise(points))
        assert len(points) - 2 == piece.facts.bends if upright else extremes == piece.facts.bends


@FEW
@given(sets())
def test_nothing_touches(item):
    """Pictures, ways and the set mark lie apart, and all keep their distance from the cut."""
    for piece in item.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=False)
        shown = faces.pictures(piece.front)
        boxes = [mark.bounds() for mark in shown]
        assert not any(a.meets(b) for i, a in enumerate(boxes) for b in boxes[:i]), piece.key


@FEW
@given(sets(forms=("follow",)))
def test_a_way_leads_from_picture_to_picture(item):
    """The dot stands at the start, near the first picture; the last point is near the goal."""
    for piece in item.pieces:
        start, goal = motifs(piece)
        (way,) = ways(piece)
        (dot,) = [mark for mark in piece.front.marks if isinstance(mark, Dot)]
        points = middle_line(way)
        assert (dot.x, dot.y) == pytest.approx(points[0], abs=0.002)
        names = [
            start.drawing.name.split("/")[1].split(" ")[0],
            goal.drawing.name.split("/")[1].split(" ")[0],
        ]
        assert names == [piece.facts.start, piece.facts.goal]
        assert names[0] != names[1]
        assert (start.x < goal.x) == (piece.facts.runs == "left") == (points[0][0] < points[-1][0])


@pytest.mark.parametrize(("languages", "runs"), [(["en"], "left"), (["ar"], "right"), (["es", "he"], "left")])
def test_ways_run_as_the_leading_language_does(languages, runs):
    """From the right where one writes from the right."""
    made = made_of(tray("paths", {"languages": languages}))

    assert {piece.facts.runs for piece in made.pieces} == {runs}


@pytest.mark.parametrize(("hand", "held"), [("right", "left"), ("left", "right")])
def test_a_strip_is_held_by_the_hand_without_scissors(hand, held):
    """The one picture lies at the end that is held, the cut begins at the other end."""
    for piece in made_of(tray("paths", {"hand": hand}, form="snip")).pieces:
        (goal,) = motifs(piece)
        assert piece.facts.held == held
        assert (goal.x + goal.width / 2 < piece.width / 2) == (held == "left")
        first, last = middle_line(ways(piece)[0])[0], middle_line(ways(piece)[-1])[-1]
        free = 0 if held == "right" else piece.width
        assert abs(first[0] - free) < abs(last[0] - free)


def test_ways_grow_narrow_within_a_kind():
    """From 16 mm down to 8 where no width is asked for; else all have the width asked for."""
    unset = made_of(tray("paths", count=5)).pieces
    for kind in KINDS:
        assert [piece.facts.width for piece in unset if piece.facts.kind == kind] == [16, 14, 12, 10, 8]
    assert {piece.facts.width for piece in made_of(tray("paths", width=7.5)).pieces} == {7.5}


def test_snips_are_parted_by_ten_millimeters():
    """Several short ways straight across, so that every snip cuts off a bit of one size."""
    for piece in made_of(tray("paths", form="snip", kinds="lines")).pieces:
        assert piece.facts.lanes >= 4
        at = sorted(middle_line(way)[0][0] for way in ways(piece))
        assert all(b - a == pytest.approx(piece.facts.width + 10, abs=0.01) for a, b in pairwise(at))


def test_a_strip_too_small_for_its_way_says_what_would_do():
    """What is proposed can be made."""
    (found,) = made_of(tray("paths", size="small", width=20)).problems

    assert found.place.endswith("(children[0].materials[0].size)")
    assert found.found == "a strip of 125 x 41.8 mm has no room for waves 20 mm wide"
    assert found.allowed == "ways of at most 14 mm or a larger strip, such as 188 x 62 mm"
    assert made_of(tray("paths", size="small", width=14)).pieces
    assert made_of(tray("paths", width=20)).pieces


def test_every_way_may_lead_to_one_picture():
    """With a motif named all ways end there."""
    made = made_of(tray("paths", motif="flag"))

    assert {piece.facts.goal for piece in made.pieces} == {"flag"}
    assert all(piece.facts.start != "flag" for piece in made.pieces)


@settings(max_examples=8)
@given(st.sampled_from(built_in()), st.sampled_from(("en", "ar")), st.integers(0, 9))
def test_a_traveler_sets_off_along_the_way(theme, tag, seed):
    """What could travel starts, looking along the way; what the way leads to stays where it is."""
    asked = tray("paths", {"theme": theme, "languages": [tag]})
    faces_of = {motif.key: motif.faces for motif in asked.child.theme.motifs}
    for piece in made_of(asked, seed).pieces:
        start, goal = motifs(piece)
        along = {"left": "right", "right": "left"}[piece.facts.runs]
        own = faces_of[piece.facts.start]
        assert own
        assert start.mirror == (own != along)
        assert not faces_of[piece.facts.goal]
        assert not goal.mirror


def test_ways_of_a_theme_without_travelers_are_as_they_were():
    """Where no picture is said to face a side, any two of them stand at the ends, as they are drawn."""
    made = made_of(tray("paths", count=6)).pieces
    assert len({piece.facts.start for piece in made}) >= 3
    assert not any(mark.mirror for piece in made for mark in motifs(piece))


@FEW
@given(sets())
def test_pictures_keep_two_millimeters_from_the_set_mark(item):
    """The small print lies in white."""
    for piece in item.pieces:
        (mark,) = with_mark(piece, backs=False).front.marks[len(piece.front.marks) :]
        around = mark.bounds().inset(-1.99)
        assert not any(around.meets(each.bounds()) for each in motifs(piece)), piece.key
