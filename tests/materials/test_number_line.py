"""Number lines: every number once, evenly apart over all joints, nothing cut where segments meet."""

from itertools import pairwise

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.materials.number_line import written
from printkit.pieces import Line, Picture, Text
from printkit.sheets import turned_to_fit
from printkit.units import Rect

FEW = settings(max_examples=12)


@st.composite
def lines(draw):
    """A number line that can be made, and its segments."""
    first = draw(st.integers(0, 99))
    last = draw(st.integers(first + 1, 100))
    keys = draw(
        st.fixed_dictionaries(
            {},
            optional={
                "range": st.just([first, last]),
                "shown": st.sampled_from(["all", "fives", "tens", "ends"]),
                "size": st.sampled_from(["small", "medium", "large", [180, 45]]),
                "step": st.sampled_from([14, 20, 31.5]),
            },
        )
    )
    asked = tray("number-line", draw(faces.children(numbers=[first, last])), **keys)
    made = made_of(asked)
    assume(made.pieces)
    return faces.Set(asked, made.pieces, 0)


def level(piece):
    """The line itself."""
    (found,) = [
        mark for mark in piece.front.marks
        if isinstance(mark, Line) and mark.y1 == mark.y2 and mark.line == 0.8
    ]  # fmt: skip
    return found


@FEW
@given(lines())
def test_every_number_lies_on_one_segment(made):
    """The segments together hold the range, each number once and in order."""
    first, last = made.asked.settings.range or made.asked.child.numbers
    numbers = [n for piece in made.pieces for n in range(piece.facts.first, piece.facts.last + 1)]
    assert numbers == list(range(first, last + 1))
    assert [piece.facts.segment for piece in made.pieces] == list(range(1, len(made.pieces) + 1))


@FEW
@given(lines())
def test_glued_together_all_numbers_lie_one_step_apart(made):
    """With each left edge laid on the joint before it, the whole line is even to a hundredth of a mm."""
    places, start = [], 0.0
    for piece in made.pieces:
        places += [start + x for x in piece.facts.places_mm]
        start += piece.facts.joint_mm or 0.0
    steps = [b - a for a, b in pairwise(places)]
    assert all(abs(step - made.pieces[0].facts.step_mm) < 0.01 for step in steps)
    assert [piece.facts.joint_mm is None for piece in made.pieces].count(True) == 1


@FEW
@given(lines())
def test_ticks_and_numerals_stand_where_the_facts_say(made):
    """One mark at each place; a numeral under each that is shown, in the middle of its mark."""
    for piece in made.pieces:
        facts = piece.facts
        ticks = [
            mark.x1 for mark in piece.front.marks
            if isinstance(mark, Line) and mark.x1 == mark.x2 and mark.line >= 0.6
        ]  # fmt: skip
        assert ticks == list(facts.places_mm)
        by_number = dict(zip(range(facts.first, facts.last + 1), facts.places_mm, strict=True))
        told = [mark for mark in piece.front.marks if isinstance(mark, Text)]
        numerals = made.asked.child.numerals
        assert [text.run.text for text in told] == [numerals.written(str(n)) for n in facts.shown]
        for text, number in zip(told, facts.shown, strict=True):
            box = text.bounds()
            assert abs(box.left + box.width / 2 - by_number[number]) < 0.01
        faces.assert_numerals_stand_on_rules(piece.front)


@FEW
@given(lines())
def test_nothing_but_the_line_comes_near_a_cut_or_under_an_edge(made):
    """6 mm from every cut, and no numeral or picture lies under the edge that is glued beside it."""
    for piece in made.pieces:
        safe = Rect(0, 0, piece.width, piece.height).inset(6)
        joint = piece.facts.joint_mm
        for mark in piece.front.marks:
            if mark is not level(piece):
                assert safe.holds(faces.inked(mark), 0.01), mark
            if isinstance(mark, Text | Picture) and joint is not None:
                assert mark.bounds().right <= joint - 0.4
        faces.assert_mark_is_clear(piece, backs=False)
        assert turned_to_fit(piece, room_of(made.asked)) is not None


@FEW
@given(lines())
def test_the_line_runs_on_over_every_joint(made):
    """It begins at the left edge of each later segment and reaches 3 mm under the next one."""
    for n, piece in enumerate(made.pieces):
        line = level(piece)
        assert (line.x1 == 0.0) == (n > 0)
        if piece.facts.joint_mm is not None:
            assert line.x2 == pytest.approx(piece.facts.joint_mm + 3.0, abs=0.002)


@FEW
@given(lines())
def test_marks_of_neighbors_do_not_touch(made):
    """Numerals with their rules and pictures stand apart from those beside them."""
    for piece in made.pieces:
        for kind in (Text, Picture):
            boxes = [mark.bounds() for mark in piece.front.marks if isinstance(mark, kind)]
            assert all(a.right + 1.0 <= b.left for a, b in pairwise(boxes))


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(("most", "segments"), [(10, 1), (20, 2), (100, {7, 8})])
def test_the_usual_lines_take_few_segments(paper, most, segments):
    """To 10 one strip, to 20 two, to 100 seven on A4 and eight on Letter; steps of 16 mm or more."""
    pieces = made_of(tray("number-line", {"paper": paper}, range=[1 if most == 10 else 0, most])).pieces
    assert len(pieces) in (segments if isinstance(segments, set) else {segments})
    assert pieces[0].facts.step_mm >= 16.0


@pytest.mark.parametrize(
    ("shown", "numbers"),
    [
        ("all", tuple(range(3, 22))),
        ("fives", (3, 5, 10, 15, 20, 21)),
        ("tens", (3, 10, 20, 21)),
        ("ends", (3, 21)),
    ],
)
def test_which_numerals_are_written(shown, numbers):
    """Both ends always, between them all, every fifth, every tenth or none."""
    assert written(shown, 3, 21) == numbers


@pytest.mark.parametrize(("number", "ends"), [(0, (0, 1)), (7, (6, 8)), (100, (99, 100))])
def test_a_single_number_has_its_neighbors(number, ends):
    """A range of one number makes no line, and `check` says what is drawn instead."""
    made = made_of(tray("number-line", {"numbers": [number, number]}))
    assert (made.pieces[0].facts.first, made.pieces[-1].facts.last) == ends
    assert made.notes == (f"{number} alone makes no line, so it runs from {ends[0]} to {ends[1]}",)


@pytest.mark.parametrize(
    ("keys", "found", "allowed"),
    [
        (
            {"step": 12, "range": [0, 100]},
            "numerals to 100 do not fit 12 mm apart on segments of 269 mm",
            "a step of 18 to 30 mm, or none",
        ),
        (
            {"size": [180, 30]},
            "a number line does not fit a height of 30 mm",
            "at least 34 mm",
        ),
        (
            {"size": [41, 40], "range": [10, 90]},
            "a segment of 41 mm is too short for a number line to 90",
            "at least 80 mm",
        ),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_told(keys, found, allowed):
    """The sentence says which step, height or length would do."""
    (problem,) = made_of(tray("number-line", {"paper": "a4"}, **keys)).problems
    assert (problem.found, problem.allowed) == (found, allowed)
