"""Where a child stands, told from what was played."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit import ladder
from printkit.materials import material_keys

SCATTERED = {"counting-cards": {"arrange": ["scatter"], "layout": "whole"}}


def settings_of(rung: ladder.Rung) -> dict[str, dict]:
    """All settings of the materials of a rung, as they are played on it."""
    made = {material: material_keys()[material].settings(**dict(given)) for material, given in rung.settings}
    return {
        material: {name: getattr(settings, name) for name in settings.__dataclass_fields__}
        for material, settings in made.items()
    }


@pytest.mark.parametrize("rung", ladder.rungs(), ids=lambda rung: rung.name)
def test_a_child_that_plays_a_rung_stands_on_it(rung):
    """Keys and settings as the rung sets them lead back to the very rung."""
    assert ladder.standing(rung.track, dict(rung.keys), settings_of(rung)) == rung


@pytest.mark.parametrize(
    ("track", "keys", "settings", "name"),
    [
        ("counting", {"numbers": (1, 5)}, {}, "count-1-5"),
        ("counting", {"numbers": [1, 7]}, {}, "count-1-5"),
        ("counting", {"numbers": (1, 10)}, {}, "count-4-10"),
        ("counting", {"numbers": (0, 10)}, {}, "zero"),
        ("counting", {"numbers": (8, 14)}, {}, "count-7-14"),
        ("counting", {"numbers": (0, 100)}, {}, "count-70-100"),
        ("counting", {"numbers": (4, 10)}, SCATTERED, "scattered-4-10"),
        ("counting", {"numbers": (4, 8)}, SCATTERED, "scattered-1-5"),
        ("operations", {"sums_to": 10}, {"strips": {"operation": "subtract"}}, "take-away-within-10"),
        ("operations", {"sums_to": 12}, {"strips": {"unknown": "start"}}, "start-within-10"),
        ("looking", {"lookalike": 3}, {}, "another-size"),
        ("writing", {}, {"tracing": {"form": "card"}}, "big-numerals"),
        ("writing", {}, {"paths": {"kinds": ("lines", "waves"), "width": None}}, "wavy-ways"),
    ],
)
def test_what_was_played_comes_closest_to(track, keys, settings, name):
    """The highest keys that are covered count, then the settings; in doubt the lower rung."""
    assert ladder.standing(track, keys, settings).name == name


@pytest.mark.parametrize(
    ("track", "keys"),
    [("counting", {"numbers": (1, 2)}), ("operations", {"sums_to": None}), ("operations", {})],
)
def test_below_the_lowest_rung_there_is_none(track, keys):
    """Who reaches no rung, or has no such key, stands on none."""
    assert ladder.standing(track, keys) is None


@given(st.integers(0, 100), st.integers(0, 100), st.integers(0, 100))
def test_more_numbers_never_stand_lower(low, high, higher):
    """A range that ends higher stands as high or higher on the ladder."""
    low, high, higher = sorted((low, high, higher))
    rungs = [None, *ladder.rungs("counting")]
    places = [
        rungs.index(ladder.standing("counting", {"numbers": (low, last)}, {})) for last in (high, higher)
    ]
    assert places == sorted(places)
