"""Find the match: a sample, a field of look-alikes, and no clue but looking."""

import faces
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.chance import Chance
from printkit.guide import GuideSet
from printkit.guide.keys import key_of
from printkit.materials import materials
from printkit.materials.find_the_match.field import grid_in, others_laid, rings, target_places
from printkit.pieces import Dot
from printkit.texts import catalogue
from printkit.units import Rect

NEAR = faces.NEAR
FEW = settings(max_examples=15, phases=[Phase.generate])


@st.composite
def sets(draw, sizes=(None, "medium", "large", [120, 180])):
    """A tray of find-the-match on a usual paper, and what it makes."""
    child = {
        "lookalike": draw(st.integers(1, 6)),
        "paper": draw(st.sampled_from(("a4", "letter"))),
        "counter": draw(st.sampled_from((10, 22))),
        "ink": draw(st.sampled_from(("color", "gray", "outline"))),
    }
    wanted = {"count": draw(st.integers(1, 3))}
    size = draw(st.sampled_from(sizes))
    if size is not None:
        wanted["size"] = size
    field = draw(st.none() | st.integers(12, 24))
    if field:
        wanted["field"] = field
    told = draw(st.sampled_from((None, "numeral", "none")))
    if told:
        wanted["told"] = told
    asked = tray("find-the-match", child, **wanted)
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assert made.problems == ()
    return faces.Set(asked, made.pieces, seed)


def look(picture, box):
    """What a picture shows and where in its square it lies."""
    return (
        picture.drawing, picture.width, picture.height, picture.turn, picture.mirror,
        round(picture.x - box.left, 1), round(picture.y - box.top, 1),
    )  # fmt: skip


def shown(piece):
    """The sample's look and those of the field, in reading order."""
    sample, *field = faces.pictures(piece.front)
    square = piece.front.areas[0].box.inset(1.8)
    return look(sample, square), [look(each, box) for each, box in zip(field, piece.boxes, strict=True)]


@FEW
@given(sets())
def test_targets_are_those_like_the_sample_and_no_others(made):
    """At each place of `targets` lies exactly what the sample shows, at every other place something else."""
    for piece in made.pieces:
        sample, field = shown(piece)
        facts = piece.facts
        assert len(field) == facts.field == len(facts.targets) + len(facts.others)
        same = [n for n, each in enumerate(field) if each[:5] == sample[:5]]
        assert tuple(same) == facts.targets
        assert 2 <= len(same) <= facts.field // 3


@FEW
@given(sets())
def test_everything_lies_apart_and_can_be_counted(made):
    """One thing an area; no two pictures of a field come nearer than a tenth of their side."""
    for piece in made.pieces:
        areas = [area for area in piece.front.areas if area.ground == "none"]
        assert [area.things for area in areas] == [1] * (piece.facts.field + 1)
        side = piece.boxes[0].width
        assert side >= 10
        grown = [box.inset(-side / 10 / 2) for box in piece.boxes]
        assert not any(one.meets(two) for i, one in enumerate(grown) for two in grown[:i])
        for picture, box in zip(faces.pictures(piece.front)[1:], piece.boxes, strict=True):
            assert box.holds(picture.bounds(), NEAR)


@FEW
@given(sets())
def test_faces_stay_within_the_piece(made):
    """Cards keep 4 and 6 mm from the cut and their corner for the set mark; sheets keep within the sheet."""
    for piece in made.pieces:
        if piece.cut:
            faces.assert_inside(piece)
            faces.assert_mark_is_clear(piece, backs=False)
        else:
            whole = Rect(0, 0, *room_of(made.asked))
            assert all(whole.holds(mark.bounds(), NEAR) for mark in piece.front.marks)
        faces.assert_numerals_stand_on_rules(piece.front)


@FEW
@given(sets(sizes=(None,)))
def test_the_child_is_told_how_many_to_find(made):
    """As many places for counters as targets, or that numeral, or nothing."""
    for piece in made.pieces:
        dots = [mark for mark in piece.front.marks if isinstance(mark, Dot)]
        numerals = [text.run.text for text in faces.numerals(piece.front)]
        told = piece.facts.told
        assert len(dots) == (len(piece.facts.targets) if told == "places" else 0)
        assert numerals == ([str(len(piece.facts.targets))] if told == "numeral" else [])
        for i, one in enumerate(dots):
            assert one.radius == made.asked.child.counter / 2 + 1
            for two in dots[:i]:
                assert ((one.x - two.x) ** 2 + (one.y - two.y) ** 2) ** 0.5 > 2 * one.radius + 1


# --- the field -------------------------------------------------------------------------------


@given(st.integers(12, 40), st.integers(1, 13), st.integers(0, 999))
def test_no_two_targets_are_neighbors(field, wanted, seed):
    """However many of up to a third are asked for, none lies beside, above or below another."""
    grid = grid_in(Rect(0, 0, 190, 200), field)
    neighbors = grid.neighbors()
    count = min(wanted, field // 3)
    places = target_places(neighbors, count, Chance(seed, "test"))

    assert len(places) == count == len(set(places))
    assert all(two not in neighbors[one] for one in places for two in places)


@given(st.integers(12, 40), st.integers(1, 6), st.integers(0, 999))
def test_alike_others_lie_apart_where_there_are_sorts_enough(field, kinds, seed):
    """With four sorts or more no two alike are neighbors; every sort is used about as often."""
    grid = grid_in(Rect(0, 0, 190, 200), field)
    neighbors = grid.neighbors()
    chance = Chance(seed, "test")
    targets = target_places(neighbors, field // 4, chance)
    laid = others_laid(neighbors, targets, kinds, chance)

    assert tuple(n for n, kind in enumerate(laid) if kind is None) == targets
    if kinds >= 4:
        pairs = ((i, j) for i, near in enumerate(neighbors) for j in near if laid[i] is not None)
        assert all(laid[i] != laid[j] for i, j in pairs)
    uses = [laid.count(kind) for kind in range(kinds)]
    assert max(uses) - min(uses) <= 4


@given(st.integers(12, 40), st.floats(60, 200), st.floats(60, 260))
def test_grids_hold_all_pictures_in_reading_order(field, width, height):
    """Rows from the top, each from the left; at most the last one is not full; squares within the box."""
    box = Rect(0, 0, width, height)
    grid = grid_in(box, field)
    squares = grid.squares()

    assert len(squares) == field
    assert [(s.top, s.left) for s in squares] == sorted((s.top, s.left) for s in squares)
    assert all(box.holds(square, NEAR) for square in squares)
    assert (grid.rows - 1) * grid.columns < field <= grid.rows * grid.columns


@given(st.integers(1, 13), st.integers(1, 3), st.floats(10, 40), st.floats(40, 200), st.floats(20, 120))
def test_places_for_counters_lie_in_their_box(count, lines, place, width, height):
    """All of them within the box, or none."""
    box = Rect(5, 5, width, height)
    found = rings(count, lines, box, place)
    if found is None:
        return
    half = place / 2
    assert len(found) == count
    assert all(box.holds(Rect(x - half, y - half, place, place), NEAR) for x, y in found)


def test_the_number_of_targets_changes_from_sheet_to_sheet():
    """Over many sheets it is not always the same, so that it has to be looked at."""
    made = made_of(tray("find-the-match", {"lookalike": 1}, count=12))

    assert len({len(piece.facts.targets) for piece in made.pieces}) > 1
    assert made.needs[0].count == max(len(piece.facts.targets) for piece in made.pieces)


def test_the_key_tells_rows_and_places():
    """Each target stands in the key by its row from the top and its place from the left."""
    asked = tray("find-the-match", {"lookalike": 5}, count=2)
    made = made_of(asked)
    item = GuideSet(tray=asked, material=materials()["find-the-match"], pieces=made.pieces, needs=made.needs)

    for n, (piece, line) in enumerate(zip(made.pieces, key_of(item, catalogue("en")).lines, strict=True), 1):
        told = set()
        start, rest = line.split(": ", 1)
        assert start == f"Sheet {n}, {len(piece.facts.targets)} in all"
        for row in rest.split("; "):
            number, places = row.removeprefix("row ").split(": ")
            told |= {(int(number) - 1) * piece.facts.columns + int(place) - 1 for place in places.split(", ")}
        assert told == set(piece.facts.targets)


# --- bad input -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("settings", "found", "allowed"),
    [
        (
            {"targets": 9},
            "9 of 20 would leave too few others to look through",
            "at most 6 of 20, or a larger field",
        ),
        (
            {"field": 40, "size": "small"},
            "a sample and 40 pictures of 10 mm or more do not fit 94 x 125 mm",
            "a larger piece or larger paper, or a smaller field",
        ),
        (
            {"size": [200, 300]},
            "a piece of 200 x 300 mm is larger than the sheet",
            "at most 190 x 269 mm within the margins and above the foot",
        ),
    ],
)
def test_what_cannot_be_laid_is_told(settings, found, allowed):
    """Too many targets, a field too large for its piece, a piece too large for its sheet."""
    (problem,) = made_of(tray("find-the-match", {}, **settings)).problems

    assert (problem.found, problem.allowed) == (found, allowed)


def test_large_counters_are_noted():
    """Counters that reach over the neighbors are made for, and told of."""
    made = made_of(tray("find-the-match", {"counter": 60, "lookalike": 1}))

    assert made.pieces
    assert made.notes[0].startswith("counters of 60 mm reach over the neighbors")
