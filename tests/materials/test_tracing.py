"""Tracing: rows, models and letters measured on the faces; the things counted."""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import made_of, room_of, tray, written_languages

from printkit import letters
from printkit.letters import Numerals
from printkit.letters import traced as pen
from printkit.materials.layout import SMALLEST_THING, content
from printkit.pieces import Box, Hollow, Line, Picture, Piece, Text, Traced
from printkit.units import Rect
from printkit.words import find, spell

HEIGHTS = (18, 16, 14, 12, 10, 8)
TRACED = tuple(tag for tag in written_languages() if find(tag, "test").script in ("Latn", "Cyrl"))


def traced(child=None, seed=0, **settings) -> tuple[Piece, ...]:
    """The pieces of a set that can be made."""
    made = made_of(tray("tracing", child or {}, **settings), seed)
    assert made.problems == ()
    return made.pieces


def told(child=None, **settings):
    """The one problem of a set that cannot be made."""
    made = made_of(tray("tracing", child or {}, **settings))
    assert made.pieces == ()
    (problem,) = made.problems
    return problem


def ruled(piece: Piece) -> list[tuple[Line, Line, Line]]:
    """The rows of a face: top, dashed middle and base line, from top to bottom."""
    lines = [mark for mark in piece.front.marks if isinstance(mark, Line)]
    return [tuple(lines[i : i + 3]) for i in range(0, len(lines), 3)]


def written(piece: Piece) -> list[list[Text | Hollow | Traced]]:
    """What stands on each row, from left to right."""
    marks = [mark for mark in piece.front.marks if isinstance(mark, Text | Hollow | Traced)]
    return [
        sorted((mark for mark in marks if abs(mark.y - base.y1) < 1e-6), key=lambda mark: mark.x)
        for _, _, base in ruled(piece)
    ]


def line_height(piece: Piece) -> float:
    """The distance from top line to base line of the first row, in mm."""
    top, _, base = ruled(piece)[0]
    return round(base.y1 - top.y1, 3)


def is_model(mark: Text | Hollow | Traced) -> bool:
    """Whether a word is written solid."""
    if isinstance(mark, Traced):
        return any(
            shape.stroke == pen.MODEL or shape.fill == pen.MODEL
            for drawing, _, _ in mark.letters
            for shape in drawing.shapes
        )
    return isinstance(mark, Text)


def word_left(mark: Text | Hollow | Traced) -> float:
    """Where the first letter of a word begins, in mm from the left of the face."""
    return mark.x if isinstance(mark, Traced) else mark.x + mark.run.ink[0]


def word_width(mark_or_word, height: float) -> float:
    """How wide a word in stroke letters is on lines of that height."""
    word = mark_or_word if isinstance(mark_or_word, str) else mark_or_word.run.text
    return pen.width(word, pen.Style(height=height, manner="solid", extra=1.5))


# --- what stands on a piece ------------------------------------------------------------------


@st.composite
def sets(draw):
    """What a pack file asks for: (child, settings), on paper from large to small."""
    first = draw(st.integers(0, 100))
    settings = {"form": draw(st.sampled_from(("strips", "sheet")))}
    if draw(st.booleans()):
        settings["line_height"] = draw(st.integers(8, 24))
    if draw(st.booleans()):
        settings["rows"] = draw(st.integers(1, 6))
    if settings["form"] == "strips" and draw(st.booleans()):
        settings["size"] = draw(st.sampled_from(("small", "medium", "large")))
    child = {
        "numbers": [first, min(100, first + draw(st.integers(0, 8)))],
        "paper": draw(
            st.sampled_from(("a4", "letter", "a5", "a3"))
            | st.lists(st.integers(110, 500), min_size=2, max_size=2)
        ),
        "margin": draw(st.integers(3, 20)),
        "languages": draw(st.lists(st.sampled_from(TRACED), min_size=1, max_size=2, unique=True)),
        "ink": draw(st.sampled_from(("color", "gray", "outline"))),
    }
    return child, settings


@given(sets())
def test_faces_are_true_and_keep_their_distances(drawn):
    """Whatever fits is inside the insets, apart, countable, and holds the right words."""
    child, settings = drawn
    made = made_of(tray("tracing", child, **settings))
    assume(made.pieces)
    first, last = child["numbers"]

    assert [piece.key for piece in made.pieces] == [str(n) for n in range(first, last + 1)]
    assert len({(piece.width, piece.height, len(ruled(piece))) for piece in made.pieces}) == 1
    assert len({bool(piece.front.areas) for piece in made.pieces}) == 1
    for number, piece in enumerate(made.pieces, first):
        assert piece.facts.numeral == number
        assert piece.facts.words == {tag: spell(tag, number) for tag in child["languages"]}
        check_insets(piece)
        check_things(piece)
        check_rows(piece)
        check_words(piece)


def check_insets(piece: Piece) -> None:
    """The hairline lies at 4 mm, everything else at 6 mm, the strip of the set mark is free."""
    hairline, *others = piece.front.marks

    assert Rect(0, 0, piece.width, piece.height).inset(4) == Rect(
        hairline.x, hairline.y, hairline.width, hairline.height
    )
    for mark in others:
        assert content((piece.width, piece.height)).holds(mark.bounds(), 1e-3)


def check_things(piece: Piece) -> None:
    """As many things as the numeral says, apart, large enough, with nothing else between them."""
    things = [mark.bounds() for mark in piece.front.marks if isinstance(mark, Picture)]
    others = [mark.bounds() for mark in piece.front.marks[1:] if not isinstance(mark, Picture | Box)]
    if not piece.front.areas:
        assert things == []
        return
    (area,) = piece.front.areas
    assert (area.things, len(things), area.ground) == (piece.facts.numeral, area.things, "none")
    assert all(area.box.holds(thing, 2e-3) for thing in things)
    assert not any(area.box.meets(other) for other in others)
    for i, thing in enumerate(things):
        assert max(thing.width, thing.height) >= SMALLEST_THING - 1e-3
        apart = 0.25 * max(thing.width, thing.height) - 2e-3
        wide = Rect(thing.left - apart, thing.top - apart, thing.width + 2 * apart, thing.height + 2 * apart)
        assert not any(wide.meets(other) for other in things[:i])


def check_rows(piece: Piece) -> None:
    """All rows are of one height, the middle line is at the height of x, letters reach the top line."""
    height = line_height(piece)
    bottom = 0.0
    for (top, middle, base), marks in zip(ruled(piece), written(piece), strict=True):
        assert base.y1 - top.y1 == pytest.approx(height, abs=2e-3)
        assert base.y1 - middle.y1 == pytest.approx(height / 2, abs=2e-3)
        assert (top.dash, base.dash, bool(middle.dash)) == (None, None, True)
        for mark in marks:
            assert top.x1 <= mark.bounds().left
            assert mark.bounds().right <= top.x2
            assert mark.bounds().top > bottom
        bottom = max([base.y1, *(mark.bounds().bottom for mark in marks)])


def check_words(piece: Piece) -> None:
    """Rows come in order: numeral, then each word; a model first, hollow copies, empty rows last."""
    texts = [str(piece.facts.numeral), *piece.facts.words.values()]
    rows = [list(dict.fromkeys(mark.run.text for mark in marks)) for marks in written(piece)]

    assert list(dict.fromkeys(row[0] for row in rows if row)) == list(dict.fromkeys(texts))
    assert all(len(row) <= 1 for row in rows)
    for text in dict.fromkeys(texts):
        own = [marks for marks, row in zip(written(piece), rows, strict=True) if row == [text]]
        assert is_model(own[0][0])
        assert any(not is_model(mark) for marks in own for mark in marks)


# --- models for either hand ------------------------------------------------------------------


@given(
    number=st.integers(0, 100),
    tag=st.sampled_from(TRACED),
    height=st.sampled_from(HEIGHTS),
)
def test_models_stand_at_both_ends(number, tag, height):
    """Solid at both ends with even gaps where three fit; two: one to trace; one: rows of their own."""
    child = {"numbers": [number, number], "languages": [tag]}
    made = made_of(tray("tracing", child, line_height=height, rows=2))
    assume(made.pieces)

    for (_, _, base), marks in zip(ruled(made.pieces[0]), written(made.pieces[0]), strict=True):
        solid = [is_model(mark) for mark in marks]
        boxes = [word_left(mark) for mark in marks]
        steps = [after - before for before, after in pairwise(boxes)]
        if len(marks) >= 3:
            assert solid == [True, *([False] * (len(marks) - 2)), True]
            assert max(steps) - min(steps) < 3e-3
        elif len(marks) == 2:
            assert solid == [True, False]
        if marks:
            assert boxes[0] - base.x1 == pytest.approx(1.0 + 2.5 * height / 20, abs=2e-3)
        if len(marks) >= 2:
            end = boxes[-1] + word_width(marks[-1], height)
            assert base.x2 - end == pytest.approx(1.0, abs=3e-3)


def test_a_word_that_fills_its_line_has_rows_of_its_own():
    """Model, hollow copy and empty row, one below the other."""
    (piece,) = traced({"numbers": [17, 17]}, line_height=20)
    word = written(piece)[2:]

    assert [[is_model(mark) for mark in marks] for marks in word] == [[True], [False], []]


@pytest.mark.parametrize(("rows", "copies"), [(1, 1), (2, 1), (3, 2), (4, 2), (5, 3), (6, 3)])
def test_rows_to_write(rows, copies):
    """As many rows as asked for, for the numeral and for the word; half of them hold copies."""
    (piece,) = traced({"numbers": [2, 2]}, rows=rows, line_height=8)
    filled = [bool(marks) for marks in written(piece)]

    assert filled == ([True] * copies + [False] * (rows - copies)) * 2


def test_numerals_to_trace_follow_the_forms_of_the_family():
    """The numerals to trace have the very forms of 1, 4 and 7 that are printed."""
    forms = {"one": "foot", "four": "open", "seven": "barred"}
    (piece,) = traced({"numbers": [47, 47], "numerals": forms})
    (plain,) = traced({"numbers": [47, 47]})
    for mark, usual in zip(written(piece)[0], written(plain)[0], strict=False):
        assert [drawing.name for drawing, _, _ in mark.letters] == ["4", "7"]
        assert all(
            ours.shapes != theirs.shapes
            for (ours, _, _), (theirs, _, _) in zip(mark.letters, usual.letters, strict=True)
        )
    wanted = letters.run("47", 1.0, numerals=Numerals(**forms)).glyphs
    assert {mark.run.glyphs for mark in written(piece)[0]} == {wanted}


# --- sizes -----------------------------------------------------------------------------------


@given(
    first=st.integers(0, 100),
    more=st.integers(0, 100),
    tags=st.lists(st.sampled_from(TRACED), min_size=1, max_size=2, unique=True),
    paper=st.sampled_from(("a4", "letter", "legal", "a3")),
)
def test_the_largest_line_height_at_which_every_word_fits(first, more, tags, paper):
    """By itself the line height is the largest of six at which no word is longer than its line.

    A sheet that cannot hold the things and two rows of each word at that height has smaller ones, and
    so has one on which smaller letters let two strips stand.
    """
    child = {"numbers": [first, min(100, first + more)], "languages": tags, "paper": paper}
    pieces = traced(child)
    words = [word for piece in pieces for word in piece.facts.words.values()]
    _, _, base = ruled(pieces[0])[-1]
    line = base.x2 - base.x1 - 2

    fitting = [h for h in HEIGHTS if max(word_width(word, h) + 2.5 * h / 20 for word in words) <= line + 1e-6]
    if line_height(pieces[0]) != fitting[0]:
        larger = made_of(tray("tracing", child, line_height=fitting[0], rows=2))
        assert line_height(pieces[0]) < fitting[0]
        half = room_of(tray("tracing", child)).height / 2
        assert (
            larger.problems
            or not larger.pieces[0].front.areas
            or larger.pieces[0].height > half >= pieces[0].height - 1e-6
        )


@given(
    numbers=st.tuples(st.integers(0, 100), st.integers(0, 100)).map(sorted),
    tags=st.lists(st.sampled_from(TRACED), min_size=1, max_size=2, unique=True),
    paper=st.sampled_from(("a4", "letter", "legal", "a3")),
    margin=st.integers(3, 40),
    form=st.sampled_from(("strips", "sheet")),
)
def test_defaults_work_for_every_child(numbers, tags, paper, margin, form):
    """Any numbers and any two languages have strips and sheets on every named paper from A4 up."""
    child = {"numbers": numbers, "languages": tags, "paper": paper, "margin": margin}
    asked = tray("tracing", child, form=form)
    room, made = room_of(asked), made_of(asked)

    assert made.problems == ()
    sides = sorted((made.pieces[0].width, made.pieces[0].height))
    assert sides[0] <= min(room) + 1e-6
    assert sides[1] <= max(room) + 1e-6


@pytest.mark.parametrize("tag", TRACED)
def test_every_language_on_a_small_sheet(tag):
    """The longest words to 100 can be traced on A5, along the sheet if need be."""
    assert len(traced({"numbers": [0, 100], "languages": [tag], "paper": "a5"})) == 101


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_two_strips_to_ten_fit_a_sheet(paper):
    """English strips to ten stand twice on A4 and on Letter, as wide as the sheet allows."""
    asked = tray("tracing", {"paper": paper})
    piece, room = made_of(asked).pieces[0], room_of(asked)

    assert piece.width == min(190, room.width)
    assert int(room.height // piece.height) == 2
    assert piece.cut
    assert piece.mark == "Wren · tracing · 1/10"


@pytest.mark.parametrize(("size", "high"), [("small", 83), ("medium", 125), ("large", 269)])
def test_named_sizes(size, high):
    """A named size is a height: a third, a half, the whole of a sheet."""
    assert {(piece.width, piece.height) for piece in traced(size=size)} == {(190, high)}


def test_sheets_fill_the_page():
    """A sheet is as large as the page allows, uncut, without a set mark, its rows spread evenly."""
    asked = tray("tracing", {"numbers": [3, 5]}, form="sheet")
    room, pieces = room_of(asked), made_of(asked).pieces

    for piece in pieces:
        assert (piece.width, piece.height, piece.cut, piece.mark) == (room.width, room.height, False, "")
        bases = [base.y1 for _, _, base in ruled(piece)]
        steps = [after - before for before, after in pairwise(bases)]
        assert max(steps) < 1.3 * min(steps)
        assert bases[-1] > 0.9 * piece.height


# --- things ----------------------------------------------------------------------------------


@pytest.mark.parametrize("numbers", [(1, 10), (11, 20), (95, 100)])
def test_things_are_of_one_size(numbers):
    """One picture and one size in a set, up to a hundred."""
    pieces = traced({"numbers": list(numbers)})
    things = [mark for piece in pieces for mark in piece.front.marks if isinstance(mark, Picture)]

    assert len({(mark.drawing.name, mark.width, mark.height) for mark in things}) == 1
    assert len(things) == sum(range(numbers[0], numbers[1] + 1))


def test_nothing_lies_in_a_place_that_is_seen():
    """In a set with 0 each place has an outline, so that the empty one is seen to be empty."""
    for piece in traced({"numbers": [0, 3]}):
        outlines = [mark for mark in piece.front.marks[1:] if isinstance(mark, Box)]
        (area,) = piece.front.areas
        assert len(outlines) == 1
        assert outlines[0].bounds().holds(area.box)


def test_things_stay_away_together():
    """Where the largest number has no room for its things, no piece of the set has any."""
    pieces = traced({"numbers": [1, 100], "paper": [110, 120]})

    assert not any(piece.front.areas for piece in pieces)
    assert not any(isinstance(mark, Picture) for piece in pieces for mark in piece.front.marks)


# --- what cannot be --------------------------------------------------------------------------


@pytest.mark.parametrize(("tag", "word"), [("en", "seventeen"), ("fi", "kahdeksantoista")])
def test_a_line_height_too_large_for_a_word(tag, word):
    """The sentence names the word and the largest line height, which then fits."""
    child = {"numbers": [17, 18], "languages": [tag]}
    problem = told(child, line_height=40)
    largest = float(problem.allowed.removeprefix("a line height of at most ").removesuffix(" mm"))

    assert problem.found.startswith(f"'{word}' is ")
    assert problem.place.endswith("(children[0].materials[0].line_height)")
    assert traced(child, line_height=largest)
    assert told(child, line_height=round(largest + 0.1, 1)).found.startswith(f"'{word}' is ")


def test_more_rows_than_a_sheet_holds():
    """The sentence says how many rows fit, and they do."""
    child = {"languages": ["en", "es"]}
    problem = told(child, rows=6, line_height=18)
    most = int(problem.allowed.removeprefix("at most "))

    assert problem.found == "6 rows for each word do not fit"
    assert traced(child, rows=most, line_height=18)
    assert told(child, rows=most + 1, line_height=18)


def test_a_line_height_too_large_for_the_sheet():
    """Where every word fits but the rows do not, the sentence says which line height does."""
    child = {"numbers": [1, 1], "paper": [130, 110], "languages": ["en", "es"]}
    problem = told(child, line_height=24)
    largest = float(problem.allowed.removeprefix("at most ").removesuffix(" mm"))

    assert problem.found == "rows of 24 mm do not fit one below the other"
    assert traced(child, line_height=largest)


def test_a_word_longer_than_the_paper():
    """On paper too small for a word there is no strip, and the sentence names the word."""
    child = {"numbers": [88, 88], "languages": ["fi"], "paper": [100, 100]}

    assert "'kahdeksankymmentäkahdeksan' is " in told(child).found


def test_a_strip_too_low():
    """The sentence says how high a strip must be, and that is enough."""
    problem = told(size=[150, 40])
    high = float(problem.allowed.split()[2])

    assert problem.found == "the rows do not fit a strip of 150 x 40 mm"
    assert traced(size=[150, high])


def test_a_sheet_has_no_size():
    """A whole sheet takes no size of its own."""
    assert told(form="sheet", size="small").found == "a tracing sheet fills the whole sheet"


# --- stability -------------------------------------------------------------------------------


def test_only_the_picture_hangs_on_chance():
    """Twice the same; other seeds change the picture alone; more numbers change no words."""
    one, two = traced(), traced()
    others = [traced(None, seed) for seed in range(1, 8)]

    assert one == two
    for pieces in others:
        assert [piece.facts for piece in pieces] == [piece.facts for piece in one]
        assert [written(piece) for piece in pieces] == [written(piece) for piece in one]
    assert len({picture_name(pieces) for pieces in others}) > 1


def picture_name(pieces: tuple[Piece, ...]) -> str:
    """The name of the picture on the first piece."""
    return next(mark.drawing.name for mark in pieces[0].front.marks if isinstance(mark, Picture))


def test_more_numbers_keep_the_picture():
    """A longer range has the same picture and the same words as a shorter one."""
    short, long = traced({"numbers": [1, 5]}), traced({"numbers": [1, 10]})

    assert picture_name(short) == picture_name(long)
    assert [piece.facts for piece in short] == [piece.facts for piece in long[:5]]
