"""Sizes: one ratio from each picture to the next, measured on the marks themselves."""

from itertools import pairwise

import faces
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, tray

from printkit.checks import Wrong
from printkit.materials.sizes import COARSEST, FINEST, MATERIAL, SMALLEST, Ratio, exponents
from printkit.pieces import Line

FEW = settings(max_examples=14)


@st.composite
def sets(draw, **fixed):
    """A tray of sizes on a paper that has room for it, and what it makes."""
    child = draw(faces.children(margin=draw(st.sampled_from((3, 10)))))
    wanted = {
        "form": draw(st.sampled_from(("order", "groups"))),
        "count": draw(st.integers(3, 7)),
        "pictures": draw(st.integers(1, 3)),
        **fixed,
    }
    asked = tray("sizes", child, **wanted)
    made = made_of(asked, draw(st.integers(0, 9)))
    assert made.problems == ()
    return faces.Set(asked, made.pieces, 0)


def shown(piece):
    """The one picture of a card."""
    (picture,) = faces.pictures(piece.front)
    return picture


def series(item, motif):
    """The cards of one motif in their order, headings left out."""
    return [piece for piece in item.pieces if piece.facts.motif == motif and not piece.facts.heading]


@FEW
@given(sets())
def test_each_picture_is_one_ratio_larger_than_the_one_before(item):
    """Heights on the page follow ratio to the power of the steps between, to a micrometre's rounding."""
    form, count = item.asked.settings.form, item.asked.settings.count
    for motif in {piece.facts.motif for piece in item.pieces}:
        cards = series(item, motif)
        assert [piece.facts.place for piece in cards] == list(range(1, count + 1))
        for (one, two), (before, after) in zip(
            pairwise(cards), pairwise(exponents(count, form)), strict=True
        ):
            ratio = one.facts.ratio ** (after - before)
            assert shown(two).height == pytest.approx(shown(one).height * ratio, abs=0.002)
            outlines = 0.03 if item.asked.child.ink == "outline" else 0.0
            assert shown(two).width == pytest.approx(shown(one).width * ratio, rel=outlines, abs=0.003)


@FEW
@given(sets())
def test_facts_say_what_is_drawn(item):
    """Height, width and picture of a card are those of its facts, and steps can be seen."""
    for piece in item.pieces:
        picture = shown(piece)
        assert (picture.height, picture.width) == (piece.facts.height, piece.facts.width)
        assert FINEST <= piece.facts.ratio <= COARSEST
        assert max(picture.height, picture.width) >= SMALLEST - 0.01


@FEW
@given(sets())
def test_cards_are_alike_but_for_the_picture(item):
    """All cards have one size and one ground line, on which every picture stands."""
    assert len({(piece.width, piece.height) for piece in item.pieces}) == 1
    grounds = set()
    for piece in item.pieces:
        (ground,) = [mark for mark in piece.front.marks if isinstance(mark, Line)]
        grounds.add(ground)
        feet = faces.inked(shown(piece)).bottom
        assert ground.y1 - ground.line / 2 - 0.02 <= feet <= ground.y1
    assert len(grounds) == 1


@FEW
@given(sets())
def test_faces_keep_their_distances(item):
    """Hairlines at 4 mm, all else at 6 mm, set marks free."""
    for piece in item.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=True)
        faces.assert_mark_is_clear(piece, backs=False)


@pytest.mark.parametrize("count", range(3, 8))
def test_groups_are_set_apart_by_a_step_left_out(count):
    """Between the largest small one and the smallest large one lie two steps."""
    made = made_of(tray("sizes", form="groups", count=count))
    cards = [piece for piece in made.pieces if not piece.facts.heading]
    small = [piece for piece in cards if piece.facts.group == "small"]
    large = [piece for piece in cards if piece.facts.group == "large"]

    assert len(small) - len(large) in (0, 1)
    gap = min(p.facts.height for p in large) / max(p.facts.height for p in small)
    assert gap == pytest.approx(cards[0].facts.ratio ** 2, abs=0.001)
    headings = [piece for piece in made.pieces if piece.facts.heading]
    assert [piece.facts.group for piece in headings] == ["small", "large"]
    assert headings[0].facts.height == small[0].facts.height
    assert headings[1].facts.height == large[-1].facts.height


@FEW
@given(sets())
def test_the_control_is_the_cards_own_pillar(item):
    """Of pillars that rise from the left, the hatched one has the place of the card, or of its group."""
    for piece in item.pieces:
        pillars = [mark for mark in piece.back.marks if getattr(mark, "radius", 0) == 0.6]
        heights = [mark.height for mark in pillars]
        assert heights == sorted(heights)
        place = {"small": 1, "large": 2}.get(piece.facts.group, piece.facts.place)
        assert len(pillars) == (2 if piece.facts.group else piece.facts.count)
        own = pillars[place - 1]
        assert (own.x, own.y, own.width, own.height) == tuple(piece.control)


@pytest.mark.parametrize("value", [1.0, 1.149, 0.5, 2.01, "big", True])
def test_a_ratio_that_cannot_be_seen_is_refused(value):
    """Below 1.15 and beyond 2, and what is no number."""
    wrong = Ratio(FINEST, COARSEST).read(value)

    assert isinstance(wrong, Wrong)
    assert wrong.allowed == "a number from 1.15 to 2; finer steps are hard to see"


def test_steps_too_coarse_for_the_card_say_what_would_do():
    """What is told as possible is possible, and no more."""
    (found,) = made_of(tray("sizes", count=7, ratio=1.8, size="medium")).problems

    assert found.place.endswith("(children[0].materials[0].ratio)")
    assert found.found == (
        "with 7 sizes by steps of 1.8 on a card of 62 x 88 mm the smallest picture is 1.5 mm long, too small "
        "to see well"
    )
    assert found.allowed == (
        "7 sizes by steps of at most 1.30, 3 sizes by steps of at most 2.00, or a larger card"
    )
    assert made_of(tray("sizes", count=7, ratio=1.3, size="medium")).pieces


def test_too_many_pictures_are_refused():
    """The theme of six has six."""
    made = made_of(tray("sizes", {"theme": PLAIN_THEME}, pictures=3))
    assert len({piece.facts.motif for piece in made.pieces}) == 3
    (found,) = made_of(tray("sizes", motif="dsc")).problems
    assert found.nearest == "disc"


def test_the_guide_tells_heights():
    """Heights in mm with one decimal, from the smallest."""
    pieces = made_of(tray("sizes", count=3)).pieces
    told = MATERIAL.guidance.examples([piece.facts for piece in pieces], str)

    heights = tuple(round(piece.facts.height, 1) for piece in pieces)
    assert told == {"heights": heights, "ratio": 1.3}
