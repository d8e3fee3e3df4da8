"""Any pack file whose keys are legal is read, and is planned or refused in words."""

import tomllib

import pytest
from hypothesis import given, settings
from strategies import PLAIN_THEME, legal_pack, legal_toml, made_of, plain_room, read, room_of, tray

from printkit.build import plan
from printkit.errors import PrintkitError
from printkit.materials import materials
from printkit.sheets import turned_to_fit


@given(legal_pack())
def test_the_text_of_a_legal_pack_says_what_was_meant(made):
    """Written as TOML and read by the standard reader it is the same again."""
    assert tomllib.loads(legal_toml(made)) == made


@given(legal_pack())
def test_a_legal_pack_is_read(made):
    """Every child and tray of the file is there, in its order, with its own keys."""
    pack = read(made)
    assert [item.child.name for item in pack.children] == [child["name"] for child in made["children"]]
    for item, child in zip(pack.children, made["children"], strict=True):
        kinds = [entry if isinstance(entry, str) else entry["make"] for entry in child["materials"]]
        assert [asked.material for asked in item.trays] == kinds
        numbers = child.get("numbers", made.get("numbers", [1, 10]))
        assert item.child.numbers == tuple(numbers)
        for asked, entry in zip(item.trays, child["materials"], strict=True):
            stock = entry.get("stock") if isinstance(entry, dict) else None
            assert asked.stock == (stock or materials()[asked.material].stock)


@settings(max_examples=30)
@given(legal_pack(themes=(PLAIN_THEME,)))
def test_a_legal_pack_is_planned_or_refused_in_words(made):
    """What cannot be made is told with its place in the file; nothing else goes wrong."""
    pack = read(made)
    planned, problems = _planned(pack)
    for problem in problems:
        assert problem.place.startswith("pack.toml, line ")
        assert problem.found
    assert (planned is None) == bool(problems)
    if planned is None:
        return
    assert len(planned.sets) == sum(len(item.trays) for item in pack.children)
    names = [file.name for file in planned.files]
    assert len(set(names)) == len(names)


def _planned(pack):
    try:
        return plan(pack), ()
    except PrintkitError as error:
        return None, error.problems


ODD_PAPERS = ([150.00037, 200.00037], [123.45678, 210.98765], [210, 297])


@pytest.mark.parametrize("paper", ODD_PAPERS)
@pytest.mark.parametrize("make", [name for name in materials() if name != "tracing"])
def test_a_paper_with_odd_lengths_takes_every_material(make, paper):
    """Pieces are whole micrometres long, papers need not be: none is refused for the rounding."""
    assert_fits(make, paper)


@pytest.mark.parametrize("paper", ODD_PAPERS)
def test_a_paper_with_odd_lengths_takes_tracing(paper):
    """A sheet of rows to trace, used whole, is never larger than the room it fills."""
    assert_fits("tracing", paper)


def assert_fits(make: str, paper: list[float]) -> None:
    """The defaults of a material make pieces that fit a sheet of that paper."""
    asked = tray(make, {"paper": paper, "numbers": [1, 5], "sums_to": 5})
    assert plain_room(asked)
    made = made_of(asked)
    assert made.problems == ()
    assert all(turned_to_fit(piece, room_of(asked)) is not None for piece in made.pieces)
