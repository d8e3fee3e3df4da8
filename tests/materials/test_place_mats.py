"""Place mats: three fields that hold the counters, boxes as strips have them."""

from itertools import combinations

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.pieces import Box, Dot
from printkit.units import Rect

FEW = settings(max_examples=15)


@st.composite
def mats(draw):
    """A tray of mats that can be made, and its mats."""
    asked = tray(
        "place-mats",
        draw(faces.children(numbers=[1, draw(st.integers(1, 12))])),
        operation=draw(st.sampled_from(["add", "subtract"])),
        places=draw(st.sampled_from(["open", "rings"])),
        boxes=draw(st.booleans()),
        count=draw(st.integers(1, 2)),
        **draw(st.fixed_dictionaries({}, optional={"size": st.sampled_from(["small", "large", [150, 170]])})),
    )
    made = made_of(asked)
    assume(made.pieces)
    return faces.Set(asked, made.pieces, 0)


@FEW
@given(mats())
def test_fields_hold_their_rings_and_nothing_else(made):
    """Three fields apart from each other; as many rings in each as told, 2 mm wider than counters."""
    counter = made.asked.child.counter
    for piece in made.pieces:
        fields = [area.box for area in piece.front.areas]
        assert len(fields) == 3
        assert not any(a.meets(b) for a, b in combinations(fields, 2))
        rings = [mark for mark in piece.front.marks if isinstance(mark, Dot)]
        held = [sum(box.holds(ring.bounds(), faces.NEAR) for ring in rings) for box in fields]
        assert tuple(held) == piece.facts.rings
        assert len(rings) == sum(held)
        assert all(ring.bounds().width == pytest.approx(counter + 2, abs=0.01) for ring in rings)
        if made.asked.settings.places == "open":
            others = [mark for mark in piece.front.marks if any(mark.bounds().meets(box) for box in fields)]
            assert all(any(mark.bounds().holds(box) for box in fields) for mark in others)


@FEW
@given(mats())
def test_a_whole_sheet_stays_within_it_and_a_cut_mat_keeps_its_distances(made):
    """Uncut mats fill the room of the sheet; cut ones have hairline and safe distance."""
    for piece in made.pieces:
        if piece.cut:
            faces.assert_inside(piece)
            continue
        assert (piece.width, piece.height) == tuple(room_of(made.asked))
        sheet = Rect(0, 0, piece.width, piece.height)
        assert all(sheet.holds(mark.bounds(), faces.NEAR) for mark in piece.front.marks)


@FEW
@given(mats())
def test_boxes_are_three_alike_as_the_facts_say(made):
    """Width and height of each empty box, below all fields, with the sign of the operation between."""
    sign = {"add": "+", "subtract": "\N{MINUS SIGN}"}[made.asked.settings.operation]
    for piece in made.pieces:
        lowest = max(area.box.bottom for area in piece.front.areas)
        boxes = [
            mark.bounds() for mark in piece.front.marks
            if isinstance(mark, Box) and mark.radius == 1.5 and mark.y > lowest
        ]  # fmt: skip
        assert len(boxes) == (3 if made.asked.settings.boxes else 0)
        said = [text.run.text for text in faces.texts(piece.front)]
        assert said == ([sign, "="] if boxes else [])
        assert (piece.facts.box_mm is None) == (not boxes)
        for box in boxes:
            assert (box.width, box.height) == pytest.approx(piece.facts.box_mm, abs=0.01)


@pytest.mark.parametrize("operation", ["add", "subtract"])
def test_the_total_has_the_large_field(operation):
    """Put together the result is the large one, taken away the first; the others are equally wide."""
    piece = made_of(tray("place-mats", operation=operation)).pieces[0]
    widths = [area.box.width for area in piece.front.areas]
    total = 2 if operation == "add" else 0
    parts = [width for i, width in enumerate(widths) if i != total]
    assert widths[total] == max(widths)
    assert parts[0] == parts[1] < widths[total]


@pytest.mark.parametrize(
    ("keys", "found", "allowed"),
    [
        (
            {"places": "rings", "total": 20},
            "20 rings of 24 mm do not fit a field of the mat",
            "total = 12 or less, smaller counters or places = 'open'",
        ),
        (
            {"size": [60, 100]},
            "a mat 60 mm wide has no room for three boxes",
            "boxes = false",
        ),
        (
            {"size": [70, 70], "boxes": False},
            "the fields of a mat of 70 x 70 mm are too small for counters",
            "at least 100 x 130 mm",
        ),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_told(keys, found, allowed):
    """The sentence says which total or size would do."""
    (problem,) = made_of(tray("place-mats", {"paper": "a4"}, **keys)).problems
    assert (problem.found, problem.allowed) == (found, allowed)
