"""Bingo: boards that differ, that can all win, and a call for everything on them."""

from collections import Counter
from itertools import combinations, permutations

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, tray

from printkit.chance import Chance
from printkit.materials.bingo.boards import SHAPES, boards, most_boards, rows_of, sides_of, usual_shape
from printkit.materials.quantities import widened

FEW = settings(max_examples=25)


@st.composite
def sets(draw):
    """A tray of bingo that can be made, and what it makes."""
    first = draw(st.integers(0, 12))
    child = {"numbers": [first, first + draw(st.integers(0, 12))]}
    child["paper"] = draw(st.sampled_from(("a4", "letter", "a5", [130, 180])))
    child["ink"] = draw(st.sampled_from(("color", "gray", "outline")))
    child["languages"] = draw(st.sampled_from((["en"], ["en", "es"], ["th"])))
    board = draw(st.sampled_from(("numerals", "things", "words", "pictures")))
    wanted = {"board": board}
    if board != "pictures":
        wanted |= draw(
            st.fixed_dictionaries({}, optional={"calls": st.sampled_from(("numerals", "things", "words"))})
        )
    wanted |= draw(
        st.fixed_dictionaries(
            {},
            optional={
                "boards": st.integers(2, 5),
                "win": st.sampled_from(("board", "row")),
                "shape": st.sampled_from(("2x2", "2x3")),
            },
        )
    )
    asked = tray("bingo", child, **wanted)
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assume(not made.problems)
    return faces.Set(asked, made.pieces, seed)


def parted(made):
    """The boards and the calling cards of a set."""
    pieces = made.pieces
    return [p for p in pieces if p.facts.cells], [p for p in pieces if p.facts.calls is not None]


@FEW
@given(sets())
def test_boards_differ_pairwise_and_every_cell_is_called(made):
    """No two boards hold the same; nothing stands twice on one; each value has exactly one card."""
    laid, cards = parted(made)
    calls = Counter(card.facts.calls for card in cards)

    assert len(laid) == made.asked.settings.boards
    assert len({frozenset(board.facts.cells) for board in laid}) == len(laid)
    assert all(len(set(board.facts.cells)) == len(board.facts.cells) for board in laid)
    assert set(calls.values()) == {1}
    assert {cell for board in laid for cell in board.facts.cells} <= set(calls)


@FEW
@given(sets())
def test_boards_show_their_cells(made):
    """In each cell lies its value, as things, numeral, word or picture, and nothing outside."""
    laid, _ = parted(made)
    for board in laid:
        assert len(board.boxes) == len(board.facts.cells) and len(board.boxes) % board.facts.columns == 0
        texts, pictures = faces.texts(board.front), faces.pictures(board.front)
        areas = board.front.areas
        for value, cell in zip(board.facts.cells, board.boxes, strict=True):
            here = [text.run.text for text in texts if cell.holds(text.bounds(), faces.NEAR)]
            inside = [each for each in pictures if cell.holds(each.bounds(), faces.NEAR)]
            counted = [area.things for area in areas if cell.holds(area.box, faces.NEAR)]
            match board.facts.shows:
                case "numerals":
                    assert here == [str(value)]
                case "words":
                    assert here == [made.asked.child.spelled(made.asked.child.languages[0], value)]
                case "things":
                    assert counted == [value] == [len(inside)]
                case _:
                    assert counted == [1] == [len(inside)]
                    assert f"/{value} " in inside[0].drawing.name
        assert list(board.facts.written) == (
            [t.run.text for t in texts] if board.facts.shows == "words" else []
        )


@FEW
@given(sets())
def test_cards_show_what_they_call(made):
    """A calling card carries its value in its own way, words in every language."""
    _, cards = parted(made)
    child = made.asked.child
    for card in cards:
        texts = [text.run.text for text in faces.texts(card.front)]
        value = card.facts.calls
        match card.facts.shows:
            case "numerals":
                assert texts == [str(value)]
            case "words":
                assert card.facts.words == {tag: child.spelled(tag, value) for tag in child.languages}
                assert texts == list(card.facts.words.values())
            case "things":
                assert [area.things for area in card.front.areas] == [value]
                assert len(faces.pictures(card.front)) == value
            case _:
                (shown,) = faces.pictures(card.front)
                assert f"/{value} " in shown.drawing.name


@FEW
@given(sets())
def test_pieces_keep_their_distances(made):
    """4 and 6 mm from the cut, the corner of the set mark free, numerals on their rules."""
    for piece in made.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=False)
        faces.assert_numerals_stand_on_rules(piece.front)


# --- boards that can all win -----------------------------------------------------------------


def winners(laid, columns, values, win):
    """For each board in how many orders of all calls it alone is the first to win."""
    wins = Counter()
    goals = [rows_of(board, columns) if win == "row" else [frozenset(board)] for board in laid]
    for order in permutations(range(values)):
        for called in range(1, values + 1):
            first = set(order[:called])
            done = [n for n, each in enumerate(goals) if any(goal <= first for goal in each)]
            if done:
                if len(done) == 1:
                    wins[done[0]] += 1
                break
    return wins


@pytest.mark.parametrize("win", ["board", "row"])
@pytest.mark.parametrize(("values", "count"), [(5, 2), (5, 3), (5, 5), (6, 4), (6, 6), (7, 4)])
def test_every_board_wins_alone_in_some_order(values, count, win):
    """Trying all orders of calls: for each board there are some after which it alone has won."""
    laid = boards(values, 2, 2, count, Chance(count, "test"), rows_differ=win == "row")

    wins = winners(laid, 2, values, win)
    assert set(wins) == set(range(count))


@given(st.sampled_from(SHAPES), st.integers(1, 8), st.integers(2, 8), st.integers(0, 99))
def test_boards_are_even(shape, more, count, seed):
    """All differ, every value stands on as many boards as any other, but for one."""
    rows, columns = sides_of(shape)
    values = rows * columns + more
    assume(count <= most_boards(values, rows * columns))
    laid = boards(values, rows, columns, count, Chance(seed, "test"), rows_differ=False)
    uses = Counter(value for board in laid for value in board)
    counts = [uses[value] for value in range(values)]

    assert len({frozenset(board) for board in laid}) == count
    assert max(counts) - min(counts) <= (1 if count < most_boards(values, rows * columns) / 2 else 2)


@given(st.integers(9, 20), st.integers(2, 6), st.integers(0, 99))
def test_rows_all_differ_where_rows_win(values, count, seed):
    """No row of a board holds the same as a row of another."""
    laid = boards(values, 2, 3, count, Chance(seed, "test"), rows_differ=True)
    every = [row for board in laid for row in rows_of(board, 3)]

    assert len(set(every)) == len(every) == 2 * count
    assert not any(one <= two for one, two in combinations(every, 2))


def test_the_usual_shape_leaves_out_a_third():
    """Boards hold at most two thirds of the values, so that they differ by more than one."""
    assert [usual_shape(values) for values in (5, 6, 8, 9, 10, 13, 14, 101)] == [
        "2x2", "2x2", "2x2", "2x3", "2x3", "2x3", "3x3", "3x3",
    ]  # fmt: skip


# --- which numbers ---------------------------------------------------------------------------


@given(st.integers(0, 100), st.integers(0, 100), st.integers(1, 17))
def test_a_range_is_widened_as_little_as_needed(one, two, least):
    """It holds the old one and at least so many numbers, from 0 to 100, 0 only where it was there."""
    first, last = min(one, two), max(one, two)
    low, high = widened((first, last), least)

    assert 0 <= low <= first <= last <= high <= 100
    assert high - low + 1 == max(least, last - first + 1)
    assert low > 0 or first == 0
    assert high == last or low == min(first, 1)


@pytest.mark.parametrize(
    ("numbers", "called"),
    [([1, 3], range(1, 6)), ([7, 7], range(3, 8)), ([1, 10], range(1, 11)), ([0, 2], range(5))],
)
def test_all_numbers_of_a_short_range_are_called(numbers, called):
    """Up to twenty numbers there is a card for each; fewer than five are filled up."""
    _, cards = parted(faces.Set(None, made_of(tray("bingo", {"numbers": numbers})).pieces, 0))

    assert [card.facts.calls for card in cards] == list(called)


def test_a_long_range_is_thinned_out():
    """Of a hundred numbers twenty are played, from all parts of the range."""
    _, cards = parted(faces.Set(None, made_of(tray("bingo", {"numbers": [1, 100]})).pieces, 0))
    called = [card.facts.calls for card in cards]

    assert len(called) == 20
    assert [(n - 1) // 5 for n in called] == list(range(20))


# --- bad input -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("child", "wanted", "found", "allowed"),
    [
        (
            {},
            {"board": "pictures", "shape": "3x3"},
            "boards of pictures need 10 of them, but the theme 'plain' has only 6 pictures",
            "a theme with more pictures, a smaller shape or board = 'numerals'",
        ),
        (
            {},
            {"board": "pictures", "calls": "words"},
            "words cannot call pictures",
            "leave it out, and pictures call them",
        ),
        (
            {"numbers": [1, 5]},
            {"boards": 6},
            "6 boards of 2 x 2 that all differ cannot be made of 5 values",
            "at most 5, or a wider range, or a smaller shape",
        ),
        (
            {"numbers": [1, 20]},
            {"board": "things", "shape": "4x4"},
            "20 things of 5 mm or more do not fit a cell of 38 x 20.8 mm on a board of 188 x 125 mm",
            "larger boards, or a smaller shape, smaller numbers, or board = 'numerals'",
        ),
    ],
)
def test_what_cannot_be_made_is_told(child, wanted, found, allowed):
    """Too few motifs or numbers, calls that do not fit, things too many for a cell."""
    (problem,) = made_of(tray("bingo", child, **wanted)).problems

    assert (problem.found, problem.allowed) == (found, allowed)
