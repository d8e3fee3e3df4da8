"""Outdoors: a line for each thing, as many places to tick as it says, within what the child counts."""

import pytest
from faces import (
    assert_inside,
    assert_mark_is_clear,
    assert_numerals_stand_on_rules,
    numerals,
    pictures,
    texts,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, room_of, tray

from printkit.pictures import load_theme
from printkit.pieces import Box, Line
from printkit.sheets import turned_to_fit


def items(made):
    """The lines of all lists in their order."""
    return [item for piece in made.pieces for item in piece.facts.items]


def ticks(piece):
    """The places to tick on a list, by the line they stand on."""
    boxes = [mark for mark in piece.front.marks if isinstance(mark, Box) and mark.line == 0.45]
    rules = sorted(
        mark.y1
        for mark in piece.front.marks
        if isinstance(mark, Line) and mark.x2 - mark.x1 > piece.width / 2
    )
    found = [0] * len(piece.facts.items)
    for box in boxes:
        found[sum(rule <= box.y for rule in rules) - 1] += 1
    return found


def test_every_motif_stands_on_one_line():
    """All pictures of the theme, in its order, each with one place to tick."""
    made = made_of(tray("outdoors", {"theme": "rock-pool", "languages": ["en", "es"]}))
    theme = load_theme("rock-pool", None, "theme")

    assert [item.motif for item in items(made)] == [motif.key for motif in theme.motifs]
    for item, motif in zip(items(made), theme.motifs, strict=True):
        assert item.texts == {"en": motif.name("en"), "es": motif.name("es")}
    for piece in made.pieces:
        assert ticks(piece) == [1] * len(piece.facts.items)


@settings(max_examples=25)
@given(
    st.tuples(st.integers(0, 100), st.integers(0, 100)).map(sorted),
    st.sampled_from([["en"], ["es", "pl"], ["fi"], ["ar", "en"]]),
    st.integers(0, 99),
)
def test_a_counted_line_has_as_many_places_as_it_says(numbers, languages, seed):
    """Numeral, places and phrase agree; the number is one the child counts to, at most ten."""
    first, last = numbers
    made = made_of(
        tray("outdoors", {"numbers": list(numbers), "languages": languages}, counted=True), seed=seed
    )
    allowed = range(max(1, first), min(10, last) + 1) or range(1, 11)

    for piece in made.pieces:
        counts = [item.places for item in piece.facts.items]
        assert ticks(piece) == counts
        assert [int(text.run.text) for text in numerals(piece.front)] == counts
        assert set(counts) <= set(allowed)


def test_phrases_are_those_of_the_number():
    """'three discs' in each language, gender and plural as the theme has them."""
    made = made_of(
        tray("outdoors", {"numbers": [3, 3], "languages": ["en", "es"]}, counted=True, motifs="disc")
    )

    assert items(made)[0].texts == {"en": "three discs", "es": "tres discos"}


def test_what_shows_several_things_is_not_counted():
    """With numbers such motifs are left out, and refused when named."""
    theme = {"theme": "kitchen-garden"}
    several = [motif.key for motif in load_theme("kitchen-garden", None, "theme").motifs if not motif.counted]
    made = made_of(tray("outdoors", theme, counted=True))
    (problem,) = made_of(tray("outdoors", theme, counted=True, motifs=[several[0], "bee"])).problems

    assert several
    assert not set(several) & {item.motif for item in items(made)}
    assert problem.found == f"'{several[0]}' shows several things, so it cannot be counted"
    assert "bee" in problem.allowed


@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_pencil_does_not_cover_the_picture(hand):
    """Places to tick lie on the side of the writing hand."""
    made = made_of(tray("outdoors", {"hand": hand}))
    for piece in made.pieces:
        boxes = [mark for mark in piece.front.marks if isinstance(mark, Box) and mark.line == 0.45]
        for box, picture in zip(boxes, pictures(piece.front), strict=True):
            assert (box.x < picture.x) == (hand == "left")


@pytest.mark.parametrize("counted", [False, True])
@pytest.mark.parametrize("size", [None, "small", "medium", "large", [80, 160]])
@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
def test_every_list_keeps_its_distances(counted, size, paper):
    """One hairline, all else 6 mm inside the cut, numerals on rules, nothing touching."""
    child = {"paper": paper, "languages": ["pt-PT", "es"], "theme": "rock-pool", "numbers": [0, 10]}
    asked = tray("outdoors", child, counted=counted, **({"size": size} if size else {}))
    made = made_of(asked)
    if paper == "a5" and size in ("medium", "large"):
        assert "larger than the sheet" in made.problems[0].found
        return
    assert made.problems == ()
    for piece in made.pieces:
        assert turned_to_fit(piece, room_of(asked)) is not None
        assert_inside(piece)
        assert_mark_is_clear(piece, backs=False)
        if counted:
            assert_numerals_stand_on_rules(piece.front)
        marks = [*pictures(piece.front), *texts(piece.front)]
        marks += [mark for mark in piece.front.marks if isinstance(mark, Box) and mark.line == 0.45]
        bounds = [mark.bounds() for mark in marks]
        for i, one in enumerate(bounds):
            assert not any(one.meets(other) for other in bounds[:i])


def test_one_motif_makes_a_short_list():
    """A list is no longer than its lines, unless a size is asked for."""
    one = made_of(tray("outdoors", {"theme": PLAIN_THEME}, motifs="disc")).pieces[0]
    all_of_them = made_of(tray("outdoors", {"theme": PLAIN_THEME})).pieces[0]

    assert one.height < 65 < all_of_them.height <= 250


def test_a_list_that_is_too_small_is_told():
    """Not even one line on the list: what would do."""
    (problem,) = made_of(tray("outdoors", size=[60, 30])).problems

    assert problem.found == "not even one line fits a list of 60 x 30 mm"
    assert problem.allowed == "at least 80 x 70 mm"
