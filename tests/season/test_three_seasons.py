"""Three seasons through the commands, weeks apart: each file is written by the one before, and prints."""

import json
from datetime import date
from pathlib import Path

from click.testing import CliRunner

from printkit import cli
from printkit.materials import materials
from printkit.pack.reader import read_pack

PLAIN = (Path(__file__).parents[1] / "fixtures" / "plain").as_posix()
PACK = f"""\
title     = "First"
theme     = "{PLAIN}"
[[children]]
name      = "Wren"
numbers   = [1, 3]
sums_to   = 5
materials = ["dominoes", "strips"]      # two trays
"""


def run(*arguments: object) -> str:
    """What printkit says with these arguments, which must go well."""
    result = CliRunner().invoke(cli.commands, [str(each) for each in arguments])
    assert (result.exit_code, result.stderr) == (0, "")
    return result.stdout


def child(file: Path):
    """The child of a pack file."""
    return read_pack(file, materials()).people[0]


def test_three_seasons(tmp_path, monkeypatch):
    """Up, back, and up again: numbers follow what was noted, sums their own ladder; one journal holds all."""
    monkeypatch.setattr(cli, "_today", lambda: date(2027, 6, 1))
    first, second, third, fourth = (
        tmp_path / f"{name}.toml" for name in ("first", "second", "third", "fourth")
    )
    first.write_text(PACK, encoding="utf-8")
    for day in ("2026-09-10", "2026-09-24"):
        run("note", first, "Wren", "dominoes", "sure", "--on", day)
    run("note", first, "Wren", "strips", "growing", "--on", "2026-09-24")
    run("next", first, "-o", second, "--on", "2026-10-01", "--theme", PLAIN, "--title", "Second")
    for day in ("2026-10-20", "2026-11-03"):
        run("note", second, "Wren", "dominoes", "not-yet", "--on", day)
        run("note", second, "Wren", "strips", "sure", "--on", day, "--say", "laughed")
    run("next", second, "-o", third, "--on", "2026-11-10", "--theme", PLAIN, "--title", "Third")
    for day in ("2027-01-12", "2027-01-26"):
        run("note", third, "Wren", "dominoes", "sure", "--on", day)
    said = run("next", third, "-o", fourth, "--on", "2027-02-01", "--theme", PLAIN, "--title", "Fourth")
    seasons = [child(file) for file in (first, second, third, fourth)]

    assert [each.numbers for each in seasons] == [(1, 3), (1, 5), (1, 3), (1, 5)]
    assert "counting (dominoes): widen: sure on two different days (2027-01-12, 2027-01-26)" in said
    assert 'materials = ["dominoes", "strips"]      # two trays' in second.read_text(encoding="utf-8")
    assert '{ make = "strips", operation = "both" }' in third.read_text(encoding="utf-8")
    assert len((tmp_path / "journal.txt").read_text(encoding="utf-8").splitlines()) == 3 + 9
    assert run("check", fourth).startswith("Fourth")


def test_a_family_walks_from_an_empty_folder(tmp_path, monkeypatch):
    """new, check, make, note, next, make: three seasons weeks apart, and no file was edited by hand.

    What was sure comes wider in the next season, the printed pages and the journal's words agree.
    """
    monkeypatch.setattr(cli, "_today", lambda: date(2027, 6, 1))
    spring, summer, autumn = (tmp_path / f"{name}.toml" for name in ("spring", "summer", "autumn"))
    run("new", spring, "--season", "spring", "--theme", PLAIN, "--child", "Pim:1-3", "--weeks", "1")
    assert "Week by week" in run("check", spring)
    run("make", spring)
    sets = [tray.set for tray in read_pack(spring, materials()).trays_of("Pim")]
    assert "counting-cards" in sets
    for day in ("2027-03-02", "2027-03-09"):
        run("note", spring, "Pim", "counting-cards", "sure", "--on", day)
    run("next", spring, "-o", summer, "--on", "2027-04-01", "--theme", PLAIN, "--title", "Summer")
    run("make", summer)
    for day in ("2027-04-20", "2027-05-04"):
        run("note", summer, "Pim", "counting-cards", "not-yet", "--on", day)
    run("next", summer, "-o", autumn, "--on", "2027-05-10", "--theme", PLAIN, "--title", "Autumn")
    run("make", autumn)

    numbers = [child(file).numbers for file in (spring, summer, autumn)]
    assert numbers == [(1, 3), (1, 5), (1, 3)]
    made = [
        json.loads((tmp_path / f"{name}/manifest.json").read_text("utf-8"))
        for name in ("spring", "summer", "autumn")
    ]
    cards = [
        sum(
            p["set"] == "counting-cards"
            for f in one["files"]
            for page in f.get("pages", [])
            for p in page["pieces"]
            if page["side"] == "front"
        )
        for one in made
    ]
    assert [card - cards[0] for card in cards] == [0, 2, 0]
    assert [line.split(" | ")[3] for line in journal(tmp_path)] == ["sure", "sure", "not-yet", "not-yet"]


def journal(folder: Path) -> list[str]:
    """The notes of a family, without the remarks."""
    text = (folder / "journal.txt").read_text(encoding="utf-8")
    return [line for line in text.splitlines() if not line.startswith("#")]
