"""The foot under the pieces measures the print; set marks say where a piece belongs."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.letters import run
from printkit.pieces import Face, Line, Piece, Text
from printkit.sheets.foot import back_foot, front_foot, with_mark
from printkit.sheets.grid import Frame
from printkit.units import PAPERS, Rect

LONG = "Wren · counting cards, counting in the morning · card · sheet 1 of 12"
HAND = "the top edge goes in first"


def frame(paper: tuple[float, float], margin: float = 10.0) -> Frame:
    """A paper with its margin."""
    return Frame(width=paper[0], height=paper[1], margin=margin)


def level_lines(marks) -> list[Line]:
    """The horizontal lines."""
    return [mark for mark in marks if isinstance(mark, Line) and mark.y1 == mark.y2]


frames = st.builds(
    frame,
    st.sampled_from([*PAPERS.values(), (100.0, 150.0), (123.4, 200.7)]),
    st.sampled_from((3.0, 6.35, 10.0, 15.0)),
)


@given(frames)
def test_the_bars_are_fifty_millimetres_and_two_inches_long(made):
    """The two bars that show the scale are 50 mm and 2 x 25.4 = 50.8 mm, exactly."""
    bars = level_lines(front_foot(made, LONG, "50 mm", "2 in"))
    assert sorted(round(abs(bar.x2 - bar.x1), 9) for bar in bars) == [50.0, 50.8]


@given(frames)
def test_the_bars_end_at_ticks(made):
    """Each end of a bar has a tick across it, so that a ruler can be laid there."""
    marks = front_foot(made, LONG, "50 mm", "2 in")
    ticks = [mark for mark in marks if isinstance(mark, Line) and mark.x1 == mark.x2]
    for bar in level_lines(marks):
        for x in (bar.x1, bar.x2):
            assert any(tick.x1 == x and tick.y1 < bar.y1 < tick.y2 for tick in ticks)


@pytest.mark.parametrize("hand", ["", HAND])
@given(made=frames, text=st.sampled_from((LONG, LONG * 3, "Bo")))
def test_the_foot_stays_in_its_strip_of_eight_millimetres(made, text, hand):
    """Everything in a foot lies within the margins and between the pieces and the bottom margin."""
    strip = Rect(made.margin, made.height - made.margin - 8, made.width - 2 * made.margin, 8)
    for mark in (
        *front_foot(made, text, "50 mm", "2 in", hand),
        *back_foot(made, text, flipped_short=False, first=hand),
    ):
        assert strip.holds(mark.bounds(), 0.15), mark


@given(made=frames, text=st.sampled_from((LONG, LONG * 3, "Bo")))
def test_the_foot_of_a_back_turned_over_the_short_edge_lies_at_the_top(made, text):
    """Over the short edge the foot of the front comes to lie behind the top of the back page."""
    strip = Rect(made.margin, made.margin, made.width - 2 * made.margin, 8)
    for mark in back_foot(made, text, flipped_short=True):
        assert strip.holds(mark.bounds(), 0.15)


@given(made=frames, text=st.sampled_from((LONG, "Bo")))
def test_the_texts_of_a_foot_do_not_run_into_one_another(made, text):
    """The sheet's name, the labels of the bars and the word beside the arrow stay apart."""
    texts = [
        mark.bounds() for mark in front_foot(made, text, "50 mm", "2 in", HAND) if isinstance(mark, Text)
    ]
    assert len(texts) == 4
    assert not any(one.meets(two) for i, one in enumerate(texts) for two in texts[:i])


# --- set marks -------------------------------------------------------------------------------


def piece(mark: str, *, back: bool, cut: bool = True, width: float = 62.0) -> Piece:
    """A piece with a set mark to print."""
    return Piece(
        child="Wren", set="things", material="plain", key="1", width=width, height=88.0,
        front=Face(marks=()), back=Face(marks=()) if back else None, mark=mark, cut=cut,
    )  # fmt: skip


@given(
    width=st.floats(40, 190),
    mark=st.sampled_from(("Bo · counting · 1 of 9", "Ana Rita · " + "on the tray " * 8 + "· 10 of 101")),
)
def test_a_set_mark_is_small_and_in_the_lower_left_corner(width, mark):
    """At most 6 pt (2.117 mm an em), 6 mm inside the cut, in the corner at the lower left."""
    marked = with_mark(piece(mark, back=True, width=width), backs=True)
    (text,) = marked.back.marks
    assert text.run.size <= 6 * 25.4 / 72
    bounds = text.bounds()
    assert Rect(0, 0, width, 88.0).inset(6.0).holds(bounds, 0.01)
    assert bounds.left < 6.5
    assert bounds.bottom > 88 - 6 - 1
    assert bounds.height < 3.0


@pytest.mark.parametrize(
    ("back", "backs", "side"),
    [(True, True, "back"), (True, False, "front"), (False, True, "front"), (False, False, "front")],
)
def test_a_set_mark_stands_on_the_back_if_one_is_printed(back, backs, side):
    """On the back; on the front when the piece has none or when backs are not printed."""
    marked = with_mark(piece("Bo · counting · 1 of 9", back=back), backs=backs)
    faces = {"front": marked.front, "back": marked.back}
    assert [name for name, face in faces.items() if face and face.marks] == [side]


@pytest.mark.parametrize("asked", [piece("", back=True), piece("Bo · 1 of 1", back=True, cut=False)])
def test_a_whole_sheet_or_a_piece_without_a_mark_stays_as_it_is(asked):
    """A sheet used uncut says what it is in its foot."""
    assert with_mark(asked, backs=True) == asked


def test_a_mark_changes_nothing_else():
    """The mark is added behind what is there already."""
    text = Text(run=run("6", 10.0), x=20, y=30)
    filled = replace(piece("Bo · counting · 1 of 9", back=False), front=Face(marks=(text,)))
    marked = with_mark(filled, backs=False)
    assert marked.front.marks[0] == text
    assert len(marked.front.marks) == 2
    assert replace(marked, front=filled.front) == filled
