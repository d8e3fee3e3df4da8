"""Tiles: they fit the boxes of the strips they are for, whichever motif those show."""

from collections import Counter
from dataclasses import replace

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.pieces import Box
from printkit.sheets import turned_to_fit
from printkit.units import Rect

FEW = settings(max_examples=10)


@st.composite
def sets(draw):
    """A tray of tiles that can be made, its pieces, and the settings that strips have in common with it."""
    shared = draw(
        st.fixed_dictionaries(
            {},
            optional={
                "operation": st.sampled_from(["add", "subtract", "both"]),
                "unknown": st.sampled_from(["result", "change", "start", "mixed"]),
                "help": st.sampled_from(["pictures", "places", "none"]),
                "size": st.sampled_from(["small", "medium", "large"]),
            },
        )
    )
    child = draw(faces.children(sums_to=draw(st.sampled_from([2, 5, 9, 10, 18, 20, 40, 100]))))
    asked = tray("tiles", child, **shared)
    made = made_of(asked)
    assume(made.pieces)
    return faces.Set(asked, made.pieces, 0), child, shared


def boxes(piece):
    """The empty boxes for numbers of a strip."""
    return [
        mark.bounds() for mark in piece.front.marks
        if isinstance(mark, Box) and mark.radius == 1.5 and mark.line == 0.3
    ]  # fmt: skip


@FEW
@given(sets(), st.integers(0, 5))
def test_tiles_fit_every_box_of_the_strips(found, seed):
    """For any seed, so any motif: tiles of one number fit inside each box, with 1 mm of play."""
    made, child, shared = found
    strips = made_of(tray("strips", child, **shared), seed)
    assume(strips.pieces)
    digits = len(str(made.asked.child.sums_to)) if made.asked.child.sums_to > 20 else 1
    tiles = [piece for piece in made.pieces if piece.facts.numeral is not None]
    for strip in strips.pieces:
        for box in boxes(strip):
            assert digits * tiles[0].width <= box.width - 0.9
            assert tiles[0].height <= box.height - 0.9


@FEW
@given(sets())
def test_every_number_and_sign_is_there(found):
    """0 to the largest sum, or the ten digits beyond 20, two of each; plus, minus and equals."""
    made, _, _ = found
    most = made.asked.child.sums_to
    counted = Counter(piece.facts.numeral for piece in made.pieces if piece.facts.sign is None)
    assert counted == dict.fromkeys(range(most + 1) if most <= 20 else range(10), 2)
    signs = Counter(piece.facts.sign for piece in made.pieces if piece.facts.sign)
    assert signs == {"+": 2, "\N{MINUS SIGN}": 2, "=": 2}


@FEW
@given(sets())
def test_what_is_on_a_tile_is_what_it_says_and_is_not_cut(found):
    """One text a tile, at least 2 mm from the cut; numerals on their rules, signs without."""
    made, _, _ = found
    written = made.asked.child.numerals.written
    for piece in made.pieces:
        (text,) = faces.texts(piece.front)
        facts = piece.facts
        assert text.run.text == (facts.sign or written(str(facts.numeral)))
        safe = Rect(0, 0, piece.width, piece.height).inset(2.0)
        assert all(safe.holds(faces.inked(mark), 0.1) for mark in piece.front.marks)
        assert len(piece.front.marks) == (1 if facts.sign else 2)
        faces.assert_numerals_stand_on_rules(piece.front)
        assert turned_to_fit(piece, room_of(made.asked)) is not None


def test_six_and_nine_are_not_each_other_turned():
    """The rule under a numeral tells which way up it is."""
    pieces = made_of(tray("tiles", {"sums_to": 10}, copies=1)).pieces
    faces.assert_none_is_another_turned(tuple(replace(piece, back=None) for piece in pieces))


@pytest.mark.parametrize(
    ("child", "most"),
    [({"numbers": [0, 0]}, 2), ({"numbers": [3, 8]}, 8), ({"numbers": [1, 9], "sums_to": 5}, 5)],
)
def test_without_sums_the_childs_numbers_count(child, most):
    """Tiles go to the largest sum, else to the child's last number, at least to 2."""
    pieces = made_of(tray("tiles", child)).pieces
    assert max(piece.facts.numeral for piece in pieces if piece.facts.sign is None) == most


@pytest.mark.parametrize(
    ("child", "keys", "found", "allowed"),
    [
        (
            {"sums_to": 100}, {"help": "places"},
            "there are no strips for sums to 100 that these settings could make",
            "the settings of strips that can be made ('printkit check' tells)",
        ),
    ],
)  # fmt: skip
def test_tiles_for_impossible_strips_are_told(child, keys, found, allowed):
    """What strips cannot do tiles cannot fit."""
    (problem,) = made_of(tray("tiles", child, **keys)).problems
    assert (problem.found, problem.allowed) == (found, allowed)
