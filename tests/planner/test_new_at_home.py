"""`new` beside a family's file: what stands there is not said again."""

import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from printkit.cli import commands
from printkit.materials import material_keys
from printkit.pack.reader import read_pack

FAMILY = """\
paper     = "letter"
languages = ["en", "es"]
margin    = 12

[[children]]
name      = "Pim"
numbers   = [1, 4]
hand      = "left"

[[children]]
name      = "Juno"
numbers   = [6, 14]
sums_to   = 7
"""


@pytest.fixture
def home(tmp_path) -> Path:
    """A folder with a family's file."""
    (tmp_path / "family.toml").write_text(FAMILY, encoding="utf-8")
    return tmp_path


def new(file: Path, *options: str):
    """What `new` says, and the file as it stands there and as it is read."""
    result = CliRunner().invoke(commands, ["new", str(file), *options])
    assert result.exit_code == 0, result.stderr
    return tomllib.loads(file.read_text(encoding="utf-8")), read_pack(file, material_keys())


def test_the_familys_children_and_settings_are_taken(home):
    """Without a word the trays are for the family's children; the file repeats nothing of theirs."""
    raw, pack = new(home / "autumn.toml", "--season", "autumn")

    assert not {"paper", "languages", "counter", "flip", "ink", "margin"} & raw.keys()
    assert [sorted(item) for item in raw["children"]] == [["materials", "name"]] * 2
    assert [(item.child.name, item.child.numbers) for item in pack.children] == [
        ("Pim", (1, 4)),
        ("Juno", (6, 14)),
    ]
    assert (pack.margin, pack.children[0].child.hand, pack.children[1].child.sums_to) == (12, "left", 7)
    assert pack.children[0].child.languages == ("en", "es")


def test_what_an_option_says_wins_over_the_family(home):
    """A child named with numbers, and the paper of one season, stand in the pack file."""
    raw, pack = new(home / "autumn.toml", "--paper", "a4", "--child", "Pim:1-10", "--child", "Juno")

    assert raw["paper"] == "a4"
    assert [item.child.numbers for item in pack.children] == [(1, 10), (6, 14)]


def test_a_family_without_children_leaves_them_to_new(home):
    """A family's file with the printer's settings only: the child comes from the options."""
    (home / "family.toml").write_text("margin = 12\n", encoding="utf-8")
    _, pack = new(home / "autumn.toml", "--child", "Wren:1-5")

    assert [(item.child.name, item.child.margin) for item in pack.children] == [("Wren", 12)]


def test_a_family_with_problems_is_told(home):
    """What is wrong in the family's file is told, and nothing is written."""
    (home / "family.toml").write_text(FAMILY.replace("[1, 4]", "[4, 1]"), encoding="utf-8")
    result = CliRunner().invoke(commands, ["new", str(home / "autumn.toml")])

    assert result.exit_code == 2
    assert result.stderr.startswith("family.toml, line 7, Pim")
    assert not (home / "autumn.toml").exists()
