"""Bar charts: each kind is there as often as the facts say, and its column can hold it."""

from collections import Counter
from itertools import pairwise

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.chance import Chance
from printkit.materials import bar_chart
from printkit.pieces import Box, Picture

FEW = settings(max_examples=20)


@st.composite
def charts(draw):
    """A tray of charts that can be made, and its sheets or cards."""
    asked = tray(
        "bar-chart",
        draw(faces.children(numbers=[1, draw(st.integers(1, 20))])),
        count=draw(st.integers(1, 3)),
        **draw(
            st.fixed_dictionaries(
                {},
                optional={
                    "kinds": st.integers(2, 3),
                    "most": st.integers(2, 10),
                    "size": st.sampled_from(["medium", "large"]),
                },
            )
        ),
    )
    made = made_of(asked)
    assume(made.pieces or asked.size is None)
    assert made.problems == ()
    return faces.Set(asked, made.pieces, 0)


def pictures(piece):
    return [mark for mark in piece.front.marks if isinstance(mark, Picture)]


@FEW
@given(charts())
def test_things_are_there_as_the_facts_say_and_never_touch(made):
    """Each motif lies in the field as often as its column is to be colored; gaps between all things."""
    for piece in made.pieces:
        field, *feet = piece.front.areas
        lying = [mark for mark in pictures(piece) if field.box.holds(mark.bounds(), faces.NEAR)]
        found = Counter(mark.drawing.name.split("/")[-1].split(" ")[0] for mark in lying)
        assert found == Counter(dict(zip(piece.facts.motifs, piece.facts.counts, strict=True)))
        assert field.things == len(lying) == sum(piece.facts.counts)
        boxes = [mark.bounds() for mark in lying]
        assert not any(one.inset(-0.4).meets(two) for i, one in enumerate(boxes) for two in boxes[i + 1 :])
        standing = [
            next(mark for mark in pictures(piece) if foot.box.holds(mark.bounds(), faces.NEAR))
            for foot in feet
        ]
        assert [mark.drawing.name.split("/")[-1].split(" ")[0] for mark in standing] == list(
            piece.facts.motifs
        )


@FEW
@given(charts())
def test_columns_stand_over_their_pictures_and_are_high_enough(made):
    """`rows` boxes stand above each other over every picture, and the highest count fills a column."""
    for piece in made.pieces:
        _, *feet = piece.front.areas
        cells = [m for m in piece.front.marks if isinstance(m, Box) and m.bounds().width < 40]
        assert len(cells) == piece.facts.rows * len(feet)
        for foot in feet:
            column = [c.bounds() for c in cells if foot.box.left < c.bounds().left < foot.box.right]
            assert len(column) == piece.facts.rows
            assert all(one.bottom < foot.box.top + 0.01 for one in column)
            assert all(low.top > high.bottom for high, low in pairwise(sorted(column, key=lambda c: c.top)))
        assert max(piece.facts.counts) == piece.facts.rows


@given(st.integers(2, 5), st.integers(2, 10), st.integers(0, 10**6))
def test_counts_differ_and_hold_the_most(kinds, most, seed):
    """There is one kind of which there is most and one of which there are fewest."""
    most = max(kinds, most)
    found = bar_chart.counts(kinds, most, Chance(seed, "chart"))
    assert len(found) == len(set(found)) == kinds
    assert max(found) == most
    assert min(found) >= 1


@FEW
@given(charts())
def test_cards_keep_their_distances_and_sheets_their_edge(made):
    """Cut cards have hairline and safe distance, uncut sheets fill the room."""
    for piece in made.pieces:
        if piece.cut:
            faces.assert_inside(piece)
        else:
            assert (piece.width, piece.height) == room_of(made.asked)[:2]


@pytest.mark.parametrize("numbers", ([0, 0], [1, 1], [0, 100], [99, 100]))
@pytest.mark.parametrize("paper", ("a5", "letter", "a3"))
def test_every_child_gets_its_charts(numbers, paper):
    """The defaults make two sheets of at least four rows and at most ten."""
    made = made_of(tray("bar-chart", {"numbers": numbers, "paper": paper}))
    assert [4 <= piece.facts.rows <= 10 for piece in made.pieces] == [True, True]


@pytest.mark.parametrize(
    ("keys", "found", "allowed"),
    [
        ({"size": [60, 60]}, "a chart of 3 columns up to 10 does not fit 60 x 60 mm",
         "a larger piece, fewer kinds or a smaller most"),
        ({"motifs": ["carrot"]}, "motifs names 1 picture to count, for 2 columns",
         "more names, or a smaller kinds"),
        ({"motifs": ["carrot", "nest"], "theme": "spring-pond"}, "the theme has no motif 'carrot'", None),
    ],
)  # fmt: skip
def test_what_cannot_be_made_is_told(keys, found, allowed):
    """The sentence says what is too small, too few or not there, and what would do."""
    child = {"paper": "a4", "theme": keys.pop("theme", "kitchen-garden")}
    problem = made_of(tray("bar-chart", child, **keys)).problems[0]
    assert problem.found == found
    assert allowed is None or problem.allowed == allowed
