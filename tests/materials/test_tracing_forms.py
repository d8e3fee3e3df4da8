"""Tracing beyond the usual strips: big numerals on cards, fading rows, help, other scripts."""

import pytest
from strategies import made_of, room_of, tray

from printkit.letters import traced as pen
from printkit.pieces import Hollow, Line, Text, Traced


def pieces_of(child=None, **settings):
    """The pieces of a set that can be made."""
    made = made_of(tray("tracing", child or {}, **settings))
    assert made.problems == ()
    return made.pieces


def problem_of(child=None, **settings):
    """The one problem of a set that cannot be made."""
    (problem,) = made_of(tray("tracing", child or {}, **settings)).problems
    return problem


def manner(mark: Traced) -> str:
    """How a word is written, told from its lines alone."""
    strokes = [s for d, _, _ in mark.letters for s in d.shapes if s.stroke is not None and s.fill is None]
    if not strokes:
        return "starts"
    if any(s.stroke == (1.0,) for s in strokes):
        return "hollow"
    if any(s.stroke == pen.MODEL for s in strokes):
        return "solid"
    dashes = [s.dash for s in strokes if s.dash]
    return "dotted" if any(on < 0.2 for on, _ in dashes) else "dashed"


def signs(mark: Traced) -> int:
    """How many rings show the start of a stroke."""
    return sum(
        s.stroke == pen.SIGN and s.fill == (1.0,) for drawing, _, _ in mark.letters for s in drawing.shapes
    )


def words(piece) -> list[Traced]:
    """The traced marks of a piece, in drawing order."""
    return [mark for mark in piece.front.marks if isinstance(mark, Traced)]


# --- help and fading -------------------------------------------------------------------------


@pytest.mark.parametrize("help_", ["arrows", "dots", "none"])
def test_only_the_first_model_has_help(help_):
    """Rings stand on the first word of the first row of each text, nowhere else."""
    (piece,) = pieces_of({"numbers": [4, 4]}, help=help_, line_height=12)
    by_text = {text: [m for m in words(piece) if m.run.text == text] for text in ("4", "four")}

    for marks in by_text.values():
        assert bool(signs(marks[0])) == (help_ != "none")
        assert not any(signs(mark) for mark in marks[1:])


def test_words_fade_in_the_order_asked_for():
    """Along each first row: solid, dashed, dotted, hollow, starts; then the last to the row's end."""
    fade = ["solid", "dashed", "dotted", "hollow", "starts"]
    (piece,) = pieces_of({"numbers": [7, 7]}, fade=fade, line_height=8, rows=1)
    numerals = [mark for mark in words(piece) if mark.run.text == "7"]

    assert [manner(mark) for mark in numerals] == (fade + ["starts"] * 20)[: len(numerals)]
    assert len(numerals) >= 5


def test_an_empty_place_ends_a_fading_row():
    """After 'empty' nothing more is written on the row."""
    (piece,) = pieces_of({"numbers": [3, 3]}, fade=["solid", "dashed", "empty"], line_height=10, rows=1)

    assert [manner(m) for m in words(piece) if m.run.text == "3"] == ["solid", "dashed"]


@pytest.mark.parametrize(
    ("fade", "said"), [(["bold"], "'bold'"), ([], "[]"), ("solid", "'solid'"), (["solid"] * 13, "solid")]
)
def test_other_words_cannot_be_asked_for(fade, said):
    """The reader of the pack file refuses them."""
    from printkit.errors import PrintkitError

    with pytest.raises(PrintkitError, match=said.replace("[", r"\[").replace("]", r"\]")):
        tray("tracing", {}, fade=fade)


# --- cards -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("height", "numbers"), [(60, [1, 10]), (100, [0, 9]), (150, [3, 5])])
def test_a_numeral_is_as_high_as_asked_for(height, numbers):
    """From the base line to the top line; the line's width and the signs come on top."""
    for piece in pieces_of({"numbers": numbers}, form="card", line_height=height):
        top, base = (mark for mark in piece.front.marks if isinstance(mark, Line))
        assert base.y1 - top.y1 == pytest.approx(height, abs=2e-3)
        (mark,) = words(piece)
        assert mark.run.text == str(piece.facts.numeral)
        assert mark.y == pytest.approx(base.y1)
        assert piece.cut
        assert piece.front.areas == ()


def test_cards_keep_inside_and_carry_their_words():
    """Nothing comes nearer than 6 mm to the cut; each word stands below the numeral."""
    for piece in pieces_of({"numbers": [0, 20], "languages": ["en", "fi"]}, form="card"):
        for mark in words(piece) + [m for m in piece.front.marks if isinstance(m, Text)]:
            box = mark.bounds()
            assert min(box.left, box.top, piece.width - box.right, piece.height - box.bottom) >= 6 - 1e-3
        texts = [mark.run.text for mark in piece.front.marks if isinstance(mark, Text)]
        assert texts == list(piece.facts.words.values())


def test_two_cards_stand_on_a_sheet():
    """By itself a card is as large as lets two of them share a sheet."""
    room = room_of(tray("tracing", {}, form="card"))
    piece = pieces_of({"numbers": [1, 10]}, form="card")[0]
    wide, high = sorted((piece.width, piece.height))

    assert wide <= room.height / 2 or 2 * wide <= room.height
    assert high <= room.width


@pytest.mark.parametrize(
    ("settings", "found", "allowed"),
    [
        ({"line_height": 40}, "40 mm is no height for a card's numeral", "60 to 150 mm"),
        ({"rows": 2}, "a card has no rows", "no rows, or another form"),
    ],
)
def test_what_a_card_cannot_have(settings, found, allowed):
    """Line heights of rows, and rows."""
    problem = problem_of(form="card", **settings)

    assert (problem.found, problem.allowed) == (found, allowed)


def test_a_numeral_too_large_for_the_paper():
    """The sentence names the largest height that fits, and it does."""
    child = {"numbers": [88, 88]}
    problem = problem_of(child, form="card", line_height=150)
    most = float(problem.allowed.removeprefix("at most ").removesuffix(" mm"))

    assert problem.found.startswith("a numeral 150 mm high needs a card of ")
    assert pieces_of(child, form="card", line_height=most)
    assert problem_of(child, form="card", line_height=most + 1)


def test_a_row_is_not_as_high_as_a_card():
    """60 mm is for cards only."""
    problem = problem_of(line_height=60)

    assert (problem.found, problem.allowed) == (
        "60 mm is the height of a card's numeral",
        "8 to 40 mm, or form = 'card'",
    )


# --- other scripts ---------------------------------------------------------------------------


@pytest.mark.parametrize("tag", ["ar", "he", "fa", "th", "ja", "ko", "ka", "hy", "el"])
def test_words_without_strokes_are_hollow(tag):
    """The numeral is traced, the word hollow beside its model; `check` says so."""
    made = made_of(tray("tracing", {"numbers": [5, 6], "languages": [tag]}))

    for piece in made.pieces:
        assert {mark.run.text for mark in words(piece)} == {str(piece.facts.numeral)}
        hollow = {mark.run.text for mark in piece.front.marks if isinstance(mark, Hollow)}
        assert hollow == set(piece.facts.words.values())
    (note,) = made.notes
    assert note.endswith(": hollow letters, because their strokes are not known")
    assert f"'{made.pieces[0].facts.words[tag]}'" in note


def test_rows_run_from_the_right():
    """With a leading language from the right the model with help stands at the right end."""
    (piece,) = pieces_of({"numbers": [5, 5], "languages": ["he", "en"]})
    numerals = [mark for mark in words(piece) if mark.run.text == "5"]
    english = [mark for mark in words(piece) if mark.run.text == "five"]

    assert signs(max(numerals, key=lambda mark: mark.x))
    assert signs(min(english, key=lambda mark: mark.x))


def test_native_digits_are_hollow():
    """The strokes of other digits are not known either."""
    (piece,) = pieces_of({"numbers": [5, 5], "languages": ["ar"], "digits": "native"})
    texts = {mark.run.text for mark in piece.front.marks if isinstance(mark, Hollow)}

    assert texts == {"٥", piece.facts.words["ar"]}
    assert words(piece) == []
