"""How much paper a pack may ask for: told before anything is laid out or written, and allowed when meant."""

import json

import pytest
from click.testing import CliRunner
from strategies import made_of, read, tray

from printkit.build import plan
from printkit.cli import commands
from printkit.errors import PrintkitError
from printkit.limits import least_sheets, sheets_of, too_many
from printkit.sheets import frame_of

PACK = """\
flip = "hand"
[[children]]
name = "Wren"
numbers = [1, 9]
materials = [{ make = "counting-cards", layout = "back", size = [101, 140] }]
"""


def run(folder, *arguments: str):
    """printkit with these arguments and the pack of nine cards so large that each has a sheet of its own."""
    (folder / "shelf.toml").write_text(PACK, encoding="utf-8")
    return CliRunner().invoke(commands, [arguments[0], str(folder / "shelf.toml"), *arguments[1:]])


@pytest.mark.parametrize("command", ["check", "make"])
def test_too_many_sheets_are_told_and_nothing_is_written(command, tmp_path):
    """The sentence says how many there are and what to do; the disk is left alone."""
    needed = json.loads(run(tmp_path, "check", "--json").stdout)["files"]
    sheets = sum(item["sheets"] for item in needed if "-backs" not in item["file"])
    result = run(tmp_path, command, "--sheets", str(sheets - 1))

    assert result.exit_code == 2
    assert result.stderr == (
        f"--sheets: the pack comes to {sheets} sheets; allowed: at most {sheets - 1}, or --sheets {sheets} "
        "for all of them\n"
    )
    assert [path.name for path in tmp_path.iterdir()] == ["shelf.toml"]


def test_as_many_as_said_are_made(tmp_path):
    """With --sheets the very number is allowed; backs fed by hand are no sheets of their own."""
    made = plan(read({"flip": "hand", "children": [{"name": "Wren", "materials": ["clip-cards"]}]}))
    fronts = [page for file in made.files for page in file.pages if page.side == "front"]

    assert sheets_of(made.files) == len(fronts)
    assert run(tmp_path, "make", "--sheets", "10").exit_code == 0


def test_a_slip_of_the_pen_is_not_laid_out(monkeypatch):
    """Where the area alone is too much, sheets are never laid out, and counting stops in time."""
    from printkit import build

    monkeypatch.setattr(build, "sheet_files", lambda *_: pytest.fail("sheets were laid out"))
    counted = []
    monkeypatch.setattr(build, "least_sheets", lambda pieces, frame: counted.append(1) or 8.0)
    children = [{"name": f"Pim {n}", "numbers": [1, 2], "materials": ["clip-cards"]} for n in range(9)]
    with pytest.raises(PrintkitError) as caught:
        build.plan(read({"children": children}), most_sheets=3)

    assert [str(problem) for problem in caught.value.problems] == [
        "--sheets: the pack comes to at least 32 sheets; allowed: at most 3, or as many as you say "
        "with --sheets"
    ]
    assert len(counted) == 4


@pytest.mark.parametrize("material", ["counting-cards", "clip-cards", "tracing", "odd-one-out"])
def test_the_area_never_counts_too_many(material):
    """What pieces need at least is never more than the sheets they get."""
    asked = tray(material, {"numbers": [1, 12]})
    pieces = made_of(asked).pieces
    child = {"name": "Wren", "numbers": [1, 12], "materials": [material]}
    made = plan(read({"children": [child]}))

    assert 0 < least_sheets(pieces, frame_of(asked)) <= sheets_of(made.files)


def test_what_is_within_the_limit_is_no_problem():
    """The limit itself is allowed."""
    assert too_many(2000, 2000, counted=True) is None
