"""What a new pack file holds for a child, by its numbers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import read

from printkit.build import unfit
from printkit.planner import season
from printkit.planner.balance import NewChild, balanced
from printkit.planner.rotation import calm_weeks
from printkit.starter import Answers, new_child, starter, usual_theme
from printkit.units import PAPERS

RANGES = ((1, 4), (1, 5), (0, 5), (1, 10), (3, 9), (1, 20), (8, 14), (0, 100), (20, 40), (90, 100))
NUMBERS = st.tuples(st.integers(0, 100), st.integers(0, 100)).map(lambda pair: tuple(sorted(pair)))


def text_of(*children, **keys):
    """The text of a new pack file for these children."""
    return starter("shelf.toml", Answers(children=children, **keys))


def pack_of(tmp_path, *children, **keys):
    """The pack that a new file describes."""
    from printkit.materials import material_keys
    from printkit.pack.reader import read_pack

    file = tmp_path / "shelf.toml"
    file.write_text(text_of(*children, **keys), encoding="utf-8")
    return read_pack(file, material_keys())


@given(NUMBERS)
def test_a_child_has_sets_for_each_area(numbers):
    """Two sets or more for each area, sums only beyond 5; eight to fourteen sets, with names that differ."""
    found = balanced(NewChild(name="Wren", numbers=numbers))
    areas = [item.area for item in found]

    assert {"counting", "looking", "hands", "writing"} <= set(areas)
    assert ("operations" in areas) == (numbers[1] > 5)
    assert all(areas.count(area) >= 2 for area in set(areas))
    assert len({item.name for item in found}) == len(found)
    assert 8 <= len(found) <= 14


@given(NUMBERS, st.integers(1, 20))
def test_a_short_season_has_fewer_sets(numbers, weeks):
    """Never more than come calmly in the weeks, five or more all the same; six weeks have room for all."""
    child = NewChild(name="Wren", numbers=numbers)
    found = balanced(child, weeks)
    own = [item for item in found if item.make not in ("calendar", "tiles")]

    assert len(own) >= 5
    assert calm_weeks(len(own)) <= weeks
    assert all(item in balanced(child) for item in found)
    assert weeks < 6 or found == balanced(child)


def test_small_and_older_children_have_their_own_kinds():
    """Who counts to five follows ways, laces, sorts; who counts to a hundred has strips, line and chart."""
    small = {item.make for item in balanced(NewChild(name="Pim", numbers=(1, 5)))}
    older = {item.make for item in balanced(NewChild(name="Juno", numbers=(0, 100)))}

    assert {"paths", "lacing", "sizes", "halves", "odd-one-out", "counting-cards"} <= small
    assert {"strips", "part-whole", "number-line", "dice-write", "hundred-chart", "calendar"} <= older
    assert not small & {"strips", "part-whole", "place-mats", "tiles", "hundred-chart"}
    assert not older & {"paths", "lacing", "sizes", "counting-cards"}


@pytest.mark.parametrize("numbers", RANGES)
def test_the_shelf_of_a_new_pack_is_calm(tmp_path, numbers):
    """In six weeks no more than two new ones come a week, and four to seven are out at once."""
    pack = pack_of(tmp_path, NewChild(name="Wren", numbers=numbers))
    item = season(pack.children, pack.weeks).children[0]
    extra = {"tiles", *item.standing}

    assert item.calm is None
    assert all(4 <= len(set(week.out) - extra) <= 7 for week in item.weeks)


@pytest.mark.parametrize(
    ("numbers", "paper"), [((1, 5), "letter"), ((3, 9), "a4"), ((8, 14), "letter"), ((0, 100), "a4")]
)
def test_all_of_a_new_pack_fits_the_usual_papers(tmp_path, numbers, paper):
    """On A4 and Letter nothing has to be left out."""
    assert unfit(pack_of(tmp_path, NewChild(name="Wren", numbers=numbers), paper=paper)) == ()


@settings(max_examples=25)
@given(NUMBERS, st.sampled_from(sorted(PAPERS)), st.integers(1, 20), st.sampled_from(["left", "right"]))
def test_every_answer_makes_a_legal_file(numbers, paper, weeks, hand):
    """Whatever numbers, paper, weeks and hand are answered, the file reads, with those very values."""
    import tomllib

    child = NewChild(name='Zoë "Z"', numbers=numbers, hand=hand)
    raw = tomllib.loads(text_of(child, paper=paper, weeks=weeks))
    raw["children"][0]["name"] = "Zoë"
    pack = read(raw)

    assert pack.weeks == weeks
    assert pack.children[0].child.numbers == numbers
    assert pack.children[0].child.hand == hand
    assert len(pack.children[0].trays) == len(balanced(child, weeks))


def test_what_is_left_out_is_not_written():
    """A set that does not fit is in nobody's list but the others' stay."""
    answers = Answers(children=(NewChild(name="Pim", numbers=(1, 5)), NewChild(name="Wren", numbers=(1, 5))))
    text = starter("shelf.toml", answers, [("Pim", "lacing")])

    assert text.count('"lacing"') == 1
    assert starter("shelf.toml", answers).count('"lacing"') == 2


@pytest.mark.parametrize(
    ("season_words", "theme", "title"),
    [
        ("Spring", "spring-pond", "Spring pond"),
        ("summer 2027", "rock-pool", "Rock pool, summer 2027"),
        ("late autumn", "harvest-market", "Harvest market, late autumn"),
        ("Winter", "first-snow", "First snow, Winter"),
        ("", "rock-pool", "Our next shelf"),
        ("when it rains", "rock-pool", "Rock pool, when it rains"),
    ],
)
def test_a_season_names_title_and_theme(season_words, theme, title):
    """The season's word chooses a theme unless one is named; the title says theme and season once."""
    assert usual_theme(season_words) == theme
    assert f'title     = "{title}"' in starter("shelf.toml", Answers(season=season_words))


@pytest.mark.parametrize(
    ("text", "child"),
    [
        ("Wren", NewChild(name="Wren", numbers=(2, 6))),
        ("Wren:1-5", NewChild(name="Wren", numbers=(1, 5))),
        (" Juno : 8-14 : left", NewChild(name="Juno", numbers=(8, 14), hand="left")),
        ("Pim::left", NewChild(name="Pim", numbers=(2, 6), hand="left")),
    ],
)
def test_a_child_in_a_few_signs(text, child):
    """Name, numbers and hand between colons; numbers that are not said come from elsewhere."""
    assert new_child(text, "2-6") == child
