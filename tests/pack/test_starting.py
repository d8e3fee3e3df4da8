"""`start`: what a rung sets for a child, what wins over it, and what is said of that."""

from dataclasses import asdict, replace

import pytest
from strategies import PLAIN_THEME, read

from printkit import ladder
from printkit.build import plan
from printkit.errors import PrintkitError

MATERIALS = ["counting-cards", "strips", "tracing"]


def pack_of(child: dict, **keys):
    """A pack of one child."""
    return read(keys | {"children": [{"name": "Wren", "materials": MATERIALS} | child]})


def settings_of(pack, material: str) -> dict:
    """The settings of the first tray of a material."""
    return next(asdict(t.settings) for item in pack.children for t in item.trays if t.material == material)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("track", ladder.tracks())
def test_every_rung_makes_a_pack(track, paper):
    """On A4 and on Letter all materials that a rung sets can be made, and have what it sets."""
    rungs = ladder.rungs(track)
    more = ["odd-one-out"] if track == "looking" else []
    children = [
        {"name": rung.name, "start": rung.name, "materials": [name for name, _ in rung.settings] + more}
        for rung in rungs
    ]
    pack = read({"theme": PLAIN_THEME, "paper": paper, "save": "order", "children": children})
    for rung, item in zip(rungs, pack.children, strict=True):
        for tray in item.trays:
            assert {key: getattr(tray.child, key) for key, _ in rung.keys} == dict(rung.keys)
            assert asdict(tray.settings).items() >= rung.of(tray.material).items()
    assert pack.notes == ()
    different = replace(pack, children=tuple(_once(pack.children)))
    assert len(plan(different).sets) == sum(len(item.trays) for item in different.children)
    assert all(item.trays for item in different.children)


def _once(children):
    """The children with each of their trays that is not as one before it: what is alike is made once."""
    seen = []
    for item in children:
        trays = []
        for tray in item.trays:
            alike = (tray.child.numbers, tray.child.sums_to, tray.child.lookalike, tray.settings)
            if alike not in seen:
                seen.append(alike)
                trays.append(tray)
        yield replace(item, trays=tuple(trays))


def test_a_rung_sets_keys_and_settings():
    """A child on a rung has its numbers, and its materials what the rung gives them; others stay as usual."""
    pack = pack_of({"start": ["scattered-4-10", "make-ten"]})
    child = pack.children[0].child

    assert (child.numbers, child.sums_to, child.lookalike) == ((4, 10), 10, 2)
    assert child.start == ("scattered-4-10", "make-ten")
    assert settings_of(pack, "counting-cards")["arrange"] == ("scatter",)
    assert settings_of(pack, "strips")["pick"] == "exact"
    assert settings_of(pack, "tracing") == settings_of(pack_of({"sums_to": 5}), "tracing")


def test_what_the_child_writes_wins_with_a_note():
    """Numbers of its own are kept, and the note tells both; the rung's settings stay off a wider range."""
    pack = pack_of({"start": "scattered-4-10", "numbers": [1, 20], "sums_to": 5})

    assert pack.children[0].child.numbers == (1, 20)
    assert settings_of(pack, "counting-cards")["arrange"] == ("auto",)
    assert pack.notes == ("Wren's own numbers = [1, 20] is kept, not [4, 10] of the rung 'scattered-4-10'",)
    plan(pack)


def test_numbers_as_the_rung_has_them_need_no_note():
    """The same numbers written out are no contradiction."""
    assert pack_of({"start": "count-1-5", "numbers": [1, 5], "sums_to": 5}).notes == ()


def test_a_narrower_range_stays_on_the_rung():
    """Fewer of the rung's numbers still lie as the rung has them."""
    pack = pack_of({"start": "scattered-4-10", "numbers": [4, 8], "sums_to": 5})

    assert settings_of(pack, "counting-cards")["arrange"] == ("scatter",)


def test_a_tray_that_sets_one_of_them_takes_none():
    """A tray's own setting wins, and the rung's others, made to go with it, stay off this tray."""
    trays = [
        {"make": "strips", "set": "on the rung", "own": 2},
        {"make": "strips", "set": "own", "operation": "subtract"},
    ]
    first, second = (
        tray.settings for tray in pack_of({"start": "bridge-ten", "materials": trays}).children[0].trays
    )

    assert (first.pick, first.known, first.own) == ("through-ten", 10, 2)
    assert (second.operation, second.pick, second.known) == ("subtract", "any", None)


def test_a_tray_with_other_sums_leaves_the_rung():
    """A tray's own sums_to wins; sums through ten are not asked within ten."""
    trays = [{"make": "strips", "sums_to": 10}]
    pack = pack_of({"start": "bridge-ten", "materials": trays})

    assert settings_of(pack, "strips")["pick"] == "any"
    assert pack.children[0].trays[0].child.sums_to == 10


def test_the_pack_starts_all_children_and_each_may_start_anew():
    """A rung at the top holds for every child; a child's own replaces that of the same ladder only."""
    pack = read(
        {
            "start": ["count-1-5", "add-within-5"],
            "children": [
                {"name": "Wren", "materials": MATERIALS},
                {"name": "Juno", "start": "count-4-10", "materials": MATERIALS},
                {"name": "Pim", "numbers": [1, 3], "materials": MATERIALS},
            ],
        }
    )
    wren, juno, pim = (item.child for item in pack.children)

    assert (wren.numbers, wren.sums_to) == ((1, 5), 5)
    assert (juno.numbers, juno.sums_to, set(juno.start)) == ((4, 10), 5, {"count-4-10", "add-within-5"})
    assert pim.numbers == (1, 3)
    assert pack.notes == ("Pim's own numbers = [1, 3] is kept, not [1, 5] of the rung 'count-1-5'",)


def test_the_chart_keeps_its_own_start():
    """`start` in a hundred chart's table is its first number, no rung."""
    trays = [{"make": "hundred-chart", "start": 0}]
    pack = pack_of({"start": "count-10-20", "materials": trays})

    assert settings_of(pack, "hundred-chart")["start"] == 0


def test_what_cannot_be_made_is_placed_at_the_rung():
    """A problem with what a rung set names the line of `start`, as nothing else was written."""
    with pytest.raises(PrintkitError) as caught:
        plan(pack_of({"start": "big-numerals", "materials": [{"make": "tracing", "paper": [100, 100]}]}))

    (problem,) = caught.value.problems
    assert problem.place.endswith("Wren's tracing (children[0].start)")


@pytest.mark.parametrize("tag", ["en", "de", "pl", "fi"])
def test_long_words_are_traced_on_lower_lines(tag):
    """A rung's lines are as high as its words allow; it never asks for what does not fit."""
    start = ["count-15-30", "words-at-24"]
    pack = pack_of({"start": start, "materials": ["tracing"]}, languages=[tag])

    assert len(plan(pack).sets[0].pieces) == 16
