"""Roll and write: a row for every number that can come up, its things counted, its word to trace."""

import itertools

import pytest
from faces import is_hairline, pictures, texts
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, room_of, tray, written_languages

from printkit.materials.base import Need
from printkit.pieces import Dot, Hollow, Traced
from printkit.units import Rect
from printkit.words import spell


def sides(made):
    """Every side with its face, fronts first."""
    return [
        (side, face)
        for piece in made.pieces
        for side, face in ((piece.facts.front, piece.front), (piece.facts.back, piece.back))
        if side
    ]


def traced_words(face):
    """The words and numerals that are to be traced or colored in."""
    return [mark.run.text for mark in face.marks if isinstance(mark, (Traced, Hollow))]


def pips(face):
    """How many dots each die shows, from the top down."""
    dots = [mark for mark in face.marks if isinstance(mark, Dot) and mark.fill is not None]
    groups = itertools.groupby(sorted(dots, key=lambda dot: dot.y), key=lambda dot: round(dot.y // 20))
    return sum(len(list(group)) for _, group in groups)


@pytest.mark.parametrize(("dice", "rolled"), [(1, range(1, 7)), (2, range(2, 13))])
def test_there_is_a_row_for_every_roll(dice, rolled):
    """Every sum that so many dice can show has one row, and nothing else has."""
    shown = {sum(faces) for faces in itertools.product(range(1, 7), repeat=dice)}
    made = made_of(tray("dice-write", dice=dice, second="none"))
    numbers = [n for side, _ in sides(made) for n in side.numbers]

    assert numbers == sorted(shown) == list(rolled)


@settings(max_examples=20)
@given(
    st.sampled_from(written_languages(range(13))),
    st.sampled_from([1, 2]),
    st.sampled_from(["write", "trace"]),
    st.sampled_from(["a4", "letter", "a5"]),
)
def test_rows_have_their_words_and_things(tag, dice, numeral, paper):
    """The words of the facts stand there to be traced; in each row lie as many things as its number."""
    made = made_of(
        tray("dice-write", {"languages": [tag], "paper": paper}, dice=dice, numeral=numeral, second="none")
    )
    assert made.problems == ()
    for side, face in sides(made):
        assert side.spelled == tuple(spell(tag, n) for n in side.numbers)
        figures = [str(n) for n in side.numbers] if numeral == "trace" else []
        assert sorted(traced_words(face)) == sorted([*side.spelled, *figures])
        assert [area.things for area in face.areas] == list(side.numbers)
        for area, number in zip(face.areas, side.numbers, strict=True):
            inside = [mark for mark in pictures(face) if area.box.holds(mark.bounds(), 0.01)]
            assert len(inside) == number
        heads = [text.run.text for text in texts(face)]
        assert heads == ([str(n) for n in side.numbers] if dice == 2 else [])
        assert pips(face) == (sum(side.numbers) if dice == 1 else 0)


def test_things_are_to_be_colored_and_never_touch():
    """They are outlines in every ink, all of one size, a clear gap between any two."""
    for ink in ("color", "gray", "outline"):
        made = made_of(tray("dice-write", {"ink": ink, "theme": "first-snow"}))
        for _, face in sides(made):
            drawn = pictures(face)
            assert all(" outline" in mark.drawing.name for mark in drawn)
            assert len({(mark.width, mark.height) for mark in drawn}) == 1
            bounds = [mark.bounds() for mark in drawn]
            assert not any(one.inset(-0.5).meets(two) for one, two in itertools.combinations(bounds, 2))


@pytest.mark.parametrize("dice", [1, 2])
def test_places_are_two_millimeters_larger_than_the_counters(dice):
    """As many rings as the row says, none touching another or a word."""
    made = made_of(tray("dice-write", {"counter": 20}, dice=dice, task="place", second="none"))
    for side, face in sides(made):
        rings = [mark for mark in face.marks if isinstance(mark, Dot) and mark.fill is None]
        others = [mark.bounds() for mark in face.marks if isinstance(mark, Traced)]
        assert len(rings) == sum(side.numbers)
        assert {round(mark.bounds().width, 3) for mark in rings} == {22.0}
        for one, two in itertools.combinations(rings, 2):
            assert ((one.x - two.x) ** 2 + (one.y - two.y) ** 2) ** 0.5 > 22
        assert not any(ring.bounds().meets(box) for ring in rings for box in others)


@pytest.mark.parametrize(
    ("child", "wish", "expected"),
    [
        ({"languages": ["en", "es"]}, {}, [(1, "en"), (1, "es")]),
        ({"languages": ["en"]}, {}, [(1, "en"), (2, "en"), (2, "en")]),
        ({"languages": ["en"]}, {"dice": 2}, [(2, "en")] * 2),
        ({"languages": ["en", "es"]}, {"second": "harder"}, [(1, "en"), (2, "en"), (2, "en")]),
        ({"languages": ["en", "es"]}, {"second": "none"}, [(1, "en")]),
        ({"languages": ["en", "es"]}, {"dice": 2}, [(2, "en"), (2, "es")] * 2),
    ],
)
def test_the_other_side(child, wish, expected):
    """The second language behind the first, two dice where there is none, or nothing."""
    made = made_of(tray("dice-write", child, **wish))

    assert [(side.dice, side.language) for side, _ in sides(made)] == expected
    assert (made.pieces[0].back is not None) == (len(set(expected)) == 2)


def test_things_are_large_enough_to_color():
    """On A4 and Letter every thing is 12 mm long or more, however many there are."""
    for paper, dice in itertools.product(("a4", "letter"), (1, 2)):
        for _, face in sides(made_of(tray("dice-write", {"paper": paper}, dice=dice))):
            assert all(max(mark.width, mark.height) >= 12 for mark in pictures(face))


def test_sides_are_sheets_of_their_own_without_backs():
    """Where backs are not printed the other side is no control, but a sheet like the first."""
    made = made_of(tray("dice-write", {"languages": ["en", "es"], "flip": "none"}))

    assert [piece.back for piece in made.pieces] == [None, None]
    assert [piece.facts.front.language for piece in made.pieces] == ["en", "es"]


@settings(max_examples=15)
@given(
    st.lists(st.sampled_from(written_languages(range(13))), min_size=1, max_size=2, unique=True),
    st.sampled_from(["a3", "a4", "letter", "legal", "a5", [150, 200], [123.45678, 210.98765]]),
    st.sampled_from(["color", "place"]),
    st.sampled_from(["long", "none"]),
)
def test_everything_stands_on_the_sheet(languages, paper, task, flip):
    """On every paper: a hairline, all else 6 mm inside the edge, rows one under the other."""
    asked = tray(
        "dice-write", {"languages": languages, "paper": paper, "flip": flip, "counter": 12}, task=task
    )
    made = made_of(asked)
    sheet = Rect(0, 0, *room_of(asked))

    assert made.problems == ()
    for _, face in sides(made):
        inner = sheet.inset(6)
        assert is_hairline(face.marks[0], made.pieces[0])
        assert all(inner.holds(mark.bounds(), 0.01) for mark in face.marks[1:])
        boxes = [area.box for area in face.areas]
        assert all(one.bottom <= two.top + 0.01 for one, two in itertools.pairwise(boxes))


def test_what_to_gather():
    """Dice by the harder side, a pen, and counters for the largest number where they are laid."""
    plain = made_of(tray("dice-write", {"languages": ["en", "es"]}))
    placed = made_of(tray("dice-write", {"counter": 20}, task="place"))

    assert plain.needs == (Need(what="dice", count=1), Need(what="wipe-off pen", count=1))
    assert placed.needs == (
        Need(what="dice", count=2),
        Need(what="wipe-off pen", count=1),
        Need(what="counters", count=12, size=20.0),
    )


@pytest.mark.parametrize(
    ("child", "wrong", "found", "allowed"),
    [
        (
            {},
            {"second": "language"},
            "there is no second language for the other side",
            "a second language beside the first, second = 'harder', or second = 'none'",
        ),
        (
            {},
            {"dice": 2, "second": "harder"},
            "two dice are the harder side already",
            "a second language beside the first, second = 'harder', or second = 'none'",
        ),
        ({}, {"size": "small"}, "a sheet to roll and write on fills the whole sheet", "no size"),
        (
            {"counter": 60, "paper": "a5"},
            {"task": "place", "second": "none"},
            "places for 6 counters of 60 mm do not fit the sheet",
            "at most 47 mm there, or task = 'color'",
        ),
        (
            {"theme": PLAIN_THEME},
            {"motif": "disk"},
            "the theme has no motif 'disk'",
            "disc, square, brick, tower, corner or flag",
        ),
    ],
)
def test_what_cannot_be_made_is_told(child, wrong, found, allowed):
    """What is wrong, and what would do."""
    (problem,) = made_of(tray("dice-write", child, **wrong)).problems

    assert (problem.found, problem.allowed) == (found, allowed)
