"""Odd one out: three alike, one different, for every level and every ink."""

from collections import Counter
from pathlib import Path

import faces
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from strategies import made_of, tray

from printkit.pictures import differences, load_theme
from printkit.pieces import Box, Picture
from printkit.units import Rect

NEAR = faces.NEAR
FEW = settings(max_examples=20)
UNSHRUNK = settings(max_examples=20, phases=[Phase.generate])  # each smaller try measures anew
INKS = ("color", "gray", "outline")
LEVELS = range(1, 7)


@st.composite
def sets(draw, forms=("cards", "sheet")):
    """A tray of odd-one-out that can be made, and what it makes."""
    level = draw(st.integers(1, 6))
    child = draw(faces.children(lookalike=level, margin=draw(st.sampled_from((3, 10)))))
    child = {key: value for key, value in child.items() if key not in ("languages", "counter")}
    wanted = {"form": draw(st.sampled_from(forms))}
    count = draw(st.none() | st.integers(1, 20))
    if count:
        wanted["count"] = count
    asked = tray("odd-one-out", child, **wanted)
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assert made.problems == ()
    return faces.Set(asked, made.pieces, seed)


def look(picture: Picture, box: Rect) -> tuple:
    """What a picture shows, wherever its box lies (a box may be a micrometre wider by rounding)."""
    return (
        picture.drawing, picture.width, picture.height, picture.turn, picture.mirror,
        round(picture.x - box.left, 2), round(picture.y - box.top, 2),
    )  # fmt: skip


def rounds(piece) -> list[tuple[list[tuple], list[Rect]]]:
    """The looks and boxes of each round of four, in reading order."""
    shown = faces.pictures(piece.front)
    assert len(shown) == len(piece.boxes)
    looks = []
    for box in piece.boxes:
        (inside,) = [picture for picture in shown if box.holds(picture.bounds(), NEAR)]
        looks.append(look(inside, box))
    return [(looks[i : i + 4], list(piece.boxes[i : i + 4])) for i in range(0, len(looks), 4)]


def same_look(one: tuple, two: tuple) -> bool:
    """Whether two looks are one and the same, but for rounding of their place."""
    return one[:5] == two[:5] and all(abs(a - b) < 0.02 for a, b in zip(one[5:], two[5:], strict=True))


@FEW
@given(sets())
def test_exactly_one_of_four_differs(made):
    """Three are really equal (the same drawing, size, turn) and the one at `odd` is not."""
    for piece in made.pieces:
        odd = piece.facts.odd if isinstance(piece.facts.odd, tuple) else (piece.facts.odd,)
        each = rounds(piece)
        assert piece.facts.boxes == 4 * len(each) == len(piece.boxes)
        assert len(odd) == len(each)
        for n, (looks, _) in enumerate(each):
            place = odd[n] - 4 * n
            assert 0 <= place < 4
            alike = [item for i, item in enumerate(looks) if i != place]
            assert all(same_look(alike[0], item) for item in alike)
            assert not same_look(alike[0], looks[place])


@FEW
@given(sets())
def test_boxes_lie_in_reading_order_and_hold_one_thing_each(made):
    """Boxes run from left to right, row by row, apart from each other, all of one size."""
    for piece in made.pieces:
        order = [(round(box.top, 1), box.left) for box in piece.boxes]
        assert order == sorted(order)
        assert not any(one.meets(two, -1.0) for i, one in enumerate(piece.boxes) for two in piece.boxes[:i])
        assert len({(box.width, box.height) for box in piece.boxes}) == 1
        assert [area.things for area in piece.front.areas] == [1] * len(piece.boxes)
        assert all(box.holds(area.box) for box, area in zip(piece.boxes, piece.front.areas, strict=True))
        outlines = [mark for mark in piece.front.marks if isinstance(mark, Box)]
        assert len(outlines) == len(piece.boxes) + (1 if piece.cut else 0)


@FEW
@given(sets())
def test_the_odd_ones_are_spread_evenly(made):
    """Over the set each of the four places is the odd one equally often, but for one."""
    odd = [
        place % 4
        for piece in made.pieces
        for place in (piece.facts.odd if isinstance(piece.facts.odd, tuple) else (piece.facts.odd,))
    ]
    uses = Counter(odd)
    counts = [uses[place] for place in range(4)]
    assert max(counts) - min(counts) <= 1


@FEW
@given(sets())
def test_as_many_rounds_as_asked_for(made):
    """Eight cards or one full sheet if nothing is asked; otherwise the count."""
    total = sum(piece.facts.boxes // 4 for piece in made.pieces)
    form = made.asked.settings.form
    if made.asked.settings.count:
        assert total == made.asked.settings.count
    elif form == "cards":
        assert total == len(made.pieces) == 8
    else:
        assert len(made.pieces) == 1
    assert all(piece.cut == (form == "cards") for piece in made.pieces)


@FEW
@given(sets(forms=("cards",)))
def test_the_control_lies_behind_the_odd_one(made):
    """Turned like a page, the hatching on the back lies behind the box of the odd one only."""
    for piece in made.pieces:
        control = piece.control
        seen = Rect(piece.width - control.right, control.top, control.width, control.height)
        assert piece.boxes[piece.facts.odd].holds(seen, NEAR)
        inked = [mark for mark in piece.back.marks if not faces.is_hairline(mark, piece)]
        assert inked
        assert all(control.inset(-0.2).holds(mark.bounds(), NEAR) for mark in inked)


@UNSHRUNK
@given(sets(forms=("cards",)))
def test_faces_keep_their_distances(made):
    """The hairline keeps 4 mm from the cut and all else 6 mm."""
    for piece in made.pieces:
        faces.assert_inside(piece)


@pytest.mark.parametrize("backs", [True, False])
@FEW
@given(made=sets(forms=("cards",)))
def test_the_set_mark_has_its_corner(made, backs):
    """Nothing is drawn where the small line that names the set will stand, on either side."""
    for piece in made.pieces:
        faces.assert_mark_is_clear(piece, backs=backs)


@FEW
@given(sets(forms=("sheet",)))
def test_a_sheet_is_used_whole(made):
    """A sheet of rows is as large as the paper without its margins and its foot of 8 mm."""
    paper, margin = made.asked.child.paper, made.asked.child.margin
    for piece in made.pieces:
        assert abs(piece.width - (paper[0] - 2 * margin)) < NEAR
        assert abs(piece.height - (paper[1] - 2 * margin - 8)) < NEAR


@FEW
@given(sets(forms=("sheet",)))
def test_no_mark_of_a_sheet_lies_in_its_margins(made):
    """Rows of four lie within the usable sheet, their outlines too."""
    for piece in made.pieces:
        whole = Rect(0, 0, piece.width, piece.height)
        assert all(whole.holds(mark.bounds(), NEAR) for mark in piece.front.marks)


# --- differences -----------------------------------------------------------------------------


@pytest.mark.parametrize("ink", INKS)
@pytest.mark.parametrize("level", LEVELS)
def test_the_rock_pool_has_differences_at_every_level_in_every_ink(level, ink):
    """Each of the six levels has several rounds, with several pictures, in color, gray and outline."""
    theme = load_theme("rock-pool", Path(), "theme")
    found = differences(theme, level, ink, 19.0)
    assert len(found) >= 5
    assert len({item.motif for item in found}) >= 4
    assert all(item.alike != item.odd for item in found)


def test_every_picture_comes_once_before_any_comes_again():
    """With fewer cards than motifs no motif is alike on two of them."""
    made = made_of(tray("odd-one-out", {"lookalike": 1, "theme": "rock-pool"}, count=8))
    alike = []
    for piece in made.pieces:
        ((looks, _),) = rounds(piece)
        alike.append(looks[(piece.facts.odd + 1) % 4][0].name)
    assert len(set(alike)) == 8


def test_another_child_has_other_cards():
    """Chance hangs on the child's name: the same level gives another order of places."""
    orders = set()
    for name in ("Wren", "Juno", "Bo", "Zoë", "Ana Rita"):
        made = made_of(tray("odd-one-out", {"name": name}))
        orders.add(tuple(piece.facts.odd for piece in made.pieces))
    assert len(orders) >= 4


# --- what cannot be made ---------------------------------------------------------------------


def test_boxes_too_small_to_look_closely_are_refused():
    """A card of 40 x 40 mm has no room for four pictures."""
    made = made_of(tray("odd-one-out", {}, size=[40, 40]))
    assert made.pieces == ()
    (problem,) = made.problems
    assert "too small to look closely" in problem.found


def test_the_least_size_that_is_said_to_do_does():
    """46 x 52 mm, which the sentence allows, can be made."""
    assert len(made_of(tray("odd-one-out", {}, size=[46, 52])).pieces) == 8


def test_a_small_paper_takes_a_card_as_large_as_the_sheet():
    """On 100 x 100 mm half a sheet is too low for four boxes, the whole of it is not."""
    made = made_of(tray("odd-one-out", {"paper": [100, 100]}))
    assert len(made.pieces) == 8
