"""The plan of a pack: areas of trays, reasons, what goes together and what stands."""

import pytest
from hypothesis import assume, given, settings
from strategies import PLAIN_THEME, legal_pack, read

from printkit.errors import PrintkitError
from printkit.materials import materials
from printkit.planner import season
from printkit.planner.areas import _AREA, area_of, step_of
from printkit.planner.model import AREAS
from printkit.planner.told import WIDTH, plan_lines, plan_values, reason_words
from printkit.texts import catalogue

ENGLISH = catalogue("en")
CHILD = {"name": "Wren", "numbers": [1, 10], "sums_to": 10}
MANY = [
    "counting-cards", "clip-cards", "ten-frames", "sizes", "odd-one-out", "halves", "lacing", "paths",
    "strips", "tiles", {"make": "calendar", "month": 4, "year": 2027},
]  # fmt: skip


def trays(*listed, **keys):
    """The trays of a child with these materials."""
    child = {**CHILD, **keys, "materials": list(listed)}
    return read({"theme": PLAIN_THEME, "children": [child]}).children[0]


def planned(*listed, weeks=6, **keys):
    """The plan of a child with these materials."""
    return season([trays(*listed, **keys)], weeks).children[0]


@pytest.mark.parametrize("name", sorted(materials()))
def test_every_material_has_an_area(name):
    """The planner knows what each material of the registry is for, by its ladder if by nothing else."""
    assert _AREA.get(name, materials()[name].track) in AREAS


@pytest.mark.parametrize(
    ("tray", "area"),
    [
        ("pairs", "looking"),
        ({"make": "pairs", "match": "numeral-things"}, "counting"),
        ("paths", "writing"),
        ({"make": "paths", "form": "snip"}, "hands"),
        ({"make": "tracing", "form": "card"}, "writing"),
        ("part-whole", "operations"),
    ],
)
def test_the_area_of_a_tray_follows_its_settings(tray, area):
    """What a tray is for depends on its material, and for some on a setting."""
    assert area_of(trays(tray).trays[0]) == area


@pytest.mark.parametrize(
    ("easier", "harder"),
    [
        ({"make": "strips", "operation": "add"}, {"make": "strips", "operation": "subtract"}),
        ({"make": "strips", "sums_to": 5}, {"make": "strips", "sums_to": 10}),
        ({"make": "strips"}, {"make": "strips", "unknown": "start"}),
        ({"make": "counting-cards", "numbers": [1, 5]}, {"make": "counting-cards", "numbers": [3, 8]}),
        ({"make": "odd-one-out", "lookalike": 1}, {"make": "odd-one-out", "lookalike": 3}),
        ({"make": "tracing", "form": "card"}, {"make": "tracing"}),
        ({"make": "halves"}, {"make": "halves", "parts": 4}),
        ("place-mats", "strips"),
        ("counting-cards", "hundred-chart"),
    ],
)
def test_harder_trays_come_after_easier_ones(easier, harder):
    """Of two trays of an area the one that asks more comes later, however the file lists them."""
    named = [{"set": name, **({"make": tray} if isinstance(tray, str) else tray)}
             for name, tray in (("harder", harder), ("easier", easier))]  # fmt: skip
    found = trays(*named).trays
    steps = {tray.set: step_of(tray, place) for place, tray in enumerate(found)}

    assert steps["easier"] < steps["harder"]


@settings(max_examples=30)
@given(legal_pack(themes=(PLAIN_THEME,)))
def test_every_set_of_a_pack_is_out_and_has_a_reason(keys):
    """Each set of each child comes once, with a sentence why; whatever is out was new or stayed."""
    try:
        pack = read(keys)
    except PrintkitError:
        assume(False)
    plan = season(pack.children, pack.weeks)

    assert [item.child for item in plan.children] == [item.child.name for item in pack.children]
    for item, own in zip(plan.children, pack.children, strict=True):
        came = [move for week in item.weeks for move in week.new]
        assert sorted(move.set for move in came) == sorted(tray.set for tray in own.trays)
        assert len(item.weeks) == pack.weeks
        for move in (move for week in item.weeks for move in (*week.new, *week.back, *week.away)):
            assert reason_words(move.reason, str, ENGLISH)


@settings(max_examples=15)
@given(legal_pack(themes=(PLAIN_THEME,)))
def test_a_childs_plan_depends_on_no_other_child(keys):
    """The plan of one child alone is its plan among others."""
    try:
        pack = read(keys)
    except PrintkitError:
        assume(False)
    together = season(pack.children, pack.weeks).children

    assert together == tuple(season([item], pack.weeks).children[0] for item in pack.children)


def test_tiles_come_and_go_with_their_strips():
    """Loose numerals are out exactly when the strips are that they fit, and take no place of their own."""
    item = planned(*MANY, {"make": "strips", "set": "take away", "operation": "subtract"}, "part-whole")

    assert all(("tiles" in week.out) == ("strips" in week.out) for week in item.weeks)
    assert item.first_week("tiles") == item.first_week("strips")


def test_tiles_alone_are_a_tray_like_others():
    """Without strips or mats with boxes, tiles come by themselves."""
    item = planned("counting-cards", "tiles", {"make": "place-mats", "boxes": False})

    assert [move.reason.key for week in item.weeks for move in week.new if move.set == "tiles"] == ["follows"]


def test_a_calendar_stands_all_season():
    """The month is up from the first week to the last and takes no place on the shelf."""
    item = planned(*MANY)

    assert item.standing == ("calendar",)
    assert all("calendar" in week.out for week in item.weeks)
    assert all(len(set(week.out) - {"calendar", "tiles"}) <= 7 for week in item.weeks)


def test_few_sets_all_stay():
    """Five sets are all out from the first week; the plan says so."""
    item = planned("counting-cards", "clip-cards", "sizes", "lacing", "paths")

    assert item.all_stay
    assert {week.out for week in item.weeks} == {item.weeks[0].out}


def test_too_many_sets_are_told():
    """Where more than two would come a week, the plan says how many weeks would be calm."""
    assert planned(*MANY, weeks=6).calm is None
    assert planned(*MANY, weeks=3).calm == 4


def test_reasons_by_hand():
    """The sentences of a small season, as they should read."""
    item = planned(*MANY)
    said = {
        (week.number, move.set): reason_words(move.reason, str, ENGLISH)
        for week in item.weeks
        for move in (*week.new, *week.back, *week.away)
    }

    assert said[1, "counting-cards"] == "the easiest for counting"
    assert said[1, "calendar"] == "always in sight, takes no place on the shelf"
    assert said[1, "paths"] == "the only one for writing, so it stays"
    assert said[2, "strips"] == "the first for adding and taking away; it builds on counting-cards"
    assert said[2, "tiles"] == "goes with strips"
    assert said[2, "clip-cards"] == "the next for counting, after counting-cards"
    assert said[3, "counting-cards"] == "out since week 1. On the shelf now for counting: clip-cards"
    assert said[4, "sizes"] == "out since week 1. On the shelf now for looking closely: odd-one-out"
    assert said[6, "counting-cards"] == "known since week 1"


@settings(max_examples=20)
@given(legal_pack(themes=(PLAIN_THEME,)))
def test_the_table_is_readable_at_eighty_columns(keys):
    """No line of the table is wider than eighty columns, and each set has one row."""
    try:
        pack = read(keys)
    except PrintkitError:
        assume(False)
    lines = list(plan_lines(plan_values(season(pack.children, pack.weeks), ENGLISH)))
    rows = [line for line in lines if line.startswith("    ") and line.rstrip()[-1] in "NxB."
            and line.split()[-1] in ("N", "x", "B", ".")]  # fmt: skip

    assert max(map(len, lines)) <= WIDTH
    assert len(rows) == sum(len(item.trays) for item in pack.children)


def test_the_table_by_hand():
    """The whole table of a small season."""
    plan = season([trays(*MANY[:9])], 5)

    assert list(plan_lines(plan_values(plan, ENGLISH))) == [
        "Week by week (N new, x out, B back again, . in the basket):",
        "  Wren              1  2  3  4  5",
        "    counting-cards  N  x  .  .  B",
        "    sizes           N  x  .  .  B",
        "    halves          N  x  x  .  .",
        "    paths           N  x  x  x  x",
        "    strips          .  N  x  x  x",
        "    clip-cards      .  N  x  x  .",
        "    odd-one-out     .  .  N  x  .",
        "    lacing          .  .  N  x  x",
        "    ten-frames      .  .  .  N  x",
        "  Why, and on which day: in the guide; with --json here too.",
    ]
