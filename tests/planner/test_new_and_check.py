"""The commands `new` and `check` as far as they plan a season."""

import json
import shutil
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from printkit.cli import commands

PLAIN = Path(__file__).parent.parent / "fixtures" / "plain"

PACK = """\
title = "Shelf"
languages = ["en"]
[[children]]
name = "Wren"
numbers = [1, 4]
lookalike = 1
materials = ["counting-cards", "clip-cards", "sizes", "halves", "lacing", "paths", "odd-one-out"]
[[children]]
name = "Juno"
numbers = [8, 10]
materials = [{ make = "counting-cards", layout = "back" }]
"""


def run(*arguments: str | Path):
    """printkit with these arguments."""
    return CliRunner().invoke(commands, [str(argument) for argument in arguments])


def write_pack(folder: Path) -> Path:
    """A pack file of two children."""
    path = folder / "shelf.toml"
    path.write_text(PACK, encoding="utf-8")
    return path


def names(folder: Path) -> list[str]:
    """The names of the files of a folder."""
    return sorted(path.name for path in folder.iterdir())


def test_new_writes_trays_for_several_children(tmp_path):
    """Each --child has a table of its own; season, weeks and a hand are taken by options too."""
    path = tmp_path / "spring.toml"
    result = run(
        "new", path, "--season", "Spring", "--weeks", "4", "--child", "Pim:1-4:left", "--child", "Wren:1-10"
    )
    pack = tomllib.loads(path.read_text(encoding="utf-8"))

    assert result.exit_code == 0
    assert (pack["title"], pack["theme"], pack["weeks"]) == ("Spring pond", "spring-pond", 4)
    assert [(item["name"], item["numbers"], item["hand"]) for item in pack["children"]] == [
        ("Pim", [1, 4], "left"),
        ("Wren", [1, 10], "right"),
    ]


def test_new_leaves_out_what_the_theme_has_no_pictures_for(tmp_path):
    """With a theme of one picture, beside the file, pairs are left out and named; the file makes a pack."""
    (tmp_path / "one").mkdir()
    picture = next(iter(sorted(PLAIN.glob("*.svg"))))
    shutil.copy(picture, tmp_path / "one" / "thing.svg")
    run("theme", "new", tmp_path / "one")
    path = tmp_path / "small.toml"
    result = run("new", path, "--child", "Juno:1-4", "--theme", "one")
    listed = tomllib.loads(path.read_text(encoding="utf-8"))["children"][0]["materials"]

    assert result.exit_code == 0
    assert "note: left out Juno's pairs: this paper or theme has no room for it" in result.stdout
    assert "pairs" not in listed
    assert "sizes" in listed


@pytest.mark.parametrize("child", ["Wren:one", "Wren:1-5:both", "Wren:1-5:left:4"])
def test_new_refuses_a_child_it_cannot_read(tmp_path, child):
    """A --child that is no name with numbers and hand is told, and nothing is written."""
    result = run("new", tmp_path / "first.toml", "--child", child)

    assert result.exit_code == 2
    assert result.stderr.startswith("--child: found '") or result.stderr.startswith("--child: '")
    assert names(tmp_path) == []


def test_check_shows_the_plan_as_a_table_and_as_json(tmp_path):
    """A row a set and a column a week; JSON has the same weeks with a reason for each move."""
    file = write_pack(tmp_path)
    lines = run("check", file).stdout.splitlines()
    plan = json.loads(run("check", file, "--json").stdout)["weeks"]
    table = lines[lines.index("Week by week (N new, x out, B back again, . in the basket):") :]

    assert all(len(line) <= 80 for line in table)
    for item in plan:
        assert [week["week"] for week in item["weeks"]] == [1, 2, 3, 4, 5, 6]
        for move in (move for week in item["weeks"] for move in (*week["new"], *week["back"], *week["away"])):
            assert move["why"]
            assert any(line.strip().startswith(move["set"]) for line in table)


def test_check_of_one_set_has_no_plan(tmp_path):
    """A part of a pack has no weeks of its own."""
    result = run("check", write_pack(tmp_path), "--only", "clip-cards")

    assert "Week by week" not in result.stdout
