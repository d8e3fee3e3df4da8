"""The ladders: one new idea a rung, a third kept, an expectation served, a pack that can be made."""

import re

import pytest

from printkit import ladder
from printkit.materials import material_keys, materials, track_of

RUNGS = ladder.rungs()
STEPS = [rung for rung in RUNGS if ladder.before(rung) is not None]


def by_name(rung: ladder.Rung) -> str:
    """The name of a test's rung."""
    return rung.name


def kinds(facts) -> set[str]:
    """What sort of thing facts are: 'number', 'parts', 'unknown' ..."""
    return {fact[0] for fact in facts}


def test_the_ladders_are_four():
    """Counting, operations, looking and writing are climbed separately; names are unique and kebab case."""
    assert ladder.tracks() == ("counting", "operations", "looking", "writing")
    assert [rung for track in ladder.tracks() for rung in ladder.rungs(track)] == list(RUNGS)
    assert len({rung.name for rung in RUNGS}) == len(RUNGS)
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", rung.name) for rung in RUNGS)


def test_up_and_down_are_the_same_way():
    """Whatever comes after a rung has it before; only ends have nothing further."""
    for track in ladder.tracks():
        rungs = ladder.rungs(track)
        assert [ladder.after(rung) for rung in rungs] == [*rungs[1:], None]
        assert [ladder.before(rung) for rung in rungs] == [None, *rungs[:-1]]


def test_no_rung_of_that_name():
    """An unknown name or ladder is a KeyError."""
    with pytest.raises(KeyError):
        ladder.rung("count-1-6")
    with pytest.raises(KeyError):
        ladder.rungs("singing")


@pytest.mark.parametrize("rung", STEPS, ids=by_name)
def test_a_third_of_the_last_rung_stays(rung):
    """At least a third of what a child met on the rung below is met again, for confidence."""
    last = ladder.before(rung).facts()

    assert 3 * len(rung.facts() & last) >= len(last)
    assert ladder.kept_on(rung) == rung.facts() & last


@pytest.mark.parametrize("rung", STEPS, ids=by_name)
def test_a_third_of_the_numbers_and_parts_stays(rung):
    """The same holds of the numbers alone, and of the parts of sums alone."""
    for kind in ("number", "parts"):
        here, last = (
            {fact for fact in each.facts() if fact[0] == kind} for each in (rung, ladder.before(rung))
        )
        assert 3 * len(here & last) >= len(last)


@pytest.mark.parametrize("rung", STEPS, ids=by_name)
def test_a_rung_brings_one_new_idea(rung):
    """What is new is something, and all of one kind."""
    assert len(kinds(ladder.new_on(rung))) == 1


@pytest.mark.parametrize("rung", STEPS, ids=by_name)
def test_what_is_new_is_new(rung):
    """It was on no rung below, or, where all was met before, not on the last one."""
    lower = ladder.rungs(rung.track)[: ladder.rungs(rung.track).index(rung)]
    before = frozenset().union(*(each.facts() for each in lower))
    new = ladder.new_on(rung)

    assert new <= rung.facts() - lower[-1].facts()
    assert new == rung.facts() - before or rung.facts() <= before


@pytest.mark.parametrize("rung", RUNGS, ids=by_name)
def test_a_rung_serves_a_published_expectation(rung):
    """Each names framework, code and source, with the status of the source; no age is promised."""
    assert rung.expectation
    for each in rung.expectation:
        assert each.framework and each.code and each.says and each.source
        assert each.status in ("S", "M")
        assert not re.search(r"\b(age|years? old|months?)\b", each.says)
        assert each.status == "S" or "memory" in each.source


# Common Core, K and grade 1 (facts counted there: floor(n squared / 4) pairs of parts, neither 0, within n).
@pytest.mark.parametrize(
    ("name", "count"), [("add-within-5", 6), ("add-within-10", 25), ("both-within-20", 100)]
)
def test_parts_are_as_many_as_counted(name, count):
    """Within 5, 10 and 20 there are 6, 25 and 100 families of two parts (closed form)."""
    assert sum(fact[0] == "parts" for fact in ladder.rung(name).facts()) == count


def test_doubles_and_ten_are_what_they_say():
    """Doubles add 6 + 6 to 10 + 10; what goes through ten has one-digit parts; ten is made of two parts."""
    assert ladder.new_on(ladder.rung("doubles")) == {("parts", n, n) for n in range(6, 11)}
    assert ladder.new_on(ladder.rung("make-ten")) == {("parts", n, 10 - n) for n in range(1, 6)}
    through = ladder.new_on(ladder.rung("bridge-ten"))
    assert through == {("parts", a, b) for a in range(2, 9) for b in range(a + 1, 10) if a + b > 10}


def test_unknowns_come_in_the_order_of_the_table():
    """Within 10 and within 20 the result is asked first, then the change, then the start (CCSSM table 1)."""
    for most in (10, 20):
        asked = [
            rung.of("strips")["unknown"]
            for rung in ladder.rungs("operations")
            if rung.keys == (("sums_to", most),) and rung.name != "make-ten"
        ]
        order = list(dict.fromkeys(asked))
        assert order[:3] == ["result", "change", "start"]


def test_scattered_things_stay_within_ten():
    """Lines to 20, scattered things to 10, faces of a die to 6 (CCSSM K.CC.B.5; a die)."""
    most = {"line": 20, "scatter": 10, "dice": 6, "frame": 100}
    for rung in ladder.rungs("counting"):
        (lies,) = rung.of("counting-cards")["arrange"]
        assert dict(rung.keys)["numbers"][1] <= most[lies]


@pytest.mark.parametrize("rung", RUNGS, ids=by_name)
def test_settings_are_those_of_materials_of_the_same_ladder(rung):
    """A rung sets only what a material has, legal values, and only of materials that climb its ladder."""
    for material, given in rung.settings:
        assert track_of(material) == rung.track
        made = material_keys()[material].settings(**dict(given))
        for name, value in given:
            check = type(made).__dataclass_fields__[name].metadata["check"]
            plain = list(value) if isinstance(value, tuple) else value
            assert check.read(plain) == value


def test_every_material_has_its_ladder_or_none():
    """A material tells its ladder itself; some are climbed by none."""
    assert {item.track for item in materials().values()} == {*ladder.tracks(), None}
    assert track_of("lacing") is None
    assert track_of("no such material") is None


def test_rungs_that_change_nothing_are_passed_over():
    """With a child's materials the next rung is one that sets something else for them."""
    assert ladder.after(ladder.rung("count-4-10")).name == "twos-4-10"
    assert ladder.after(ladder.rung("count-4-10"), ["counting-cards"]).name == "scattered-4-10"
    assert ladder.before(ladder.rung("scattered-4-10"), ["counting-cards"]).name == "twos-4-10"
    assert ladder.after(ladder.rung("straight-ways"), ["tracing"]).name == "big-numerals"
    assert ladder.after(ladder.rung("straight-ways"), ["strips"]) is None
