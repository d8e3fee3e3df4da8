"""`printkit note`: what it keeps of a tray, and each way it can be asked wrongly."""

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from printkit import cli
from printkit.journal import JOURNAL, read_journal

PACK = """\
title = "Rock pool summer"
[[children]]
name = "Wren"
numbers = [1, 5]
materials = ["counting-cards", { make = "clip-cards", set = "clips | pegs", numbers = [1, 4], choices = 4 }]
[[children]]
name = "Juno"
numbers = [1, 9]
sums_to = 9
materials = ["strips"]
"""


@pytest.fixture
def file(tmp_path, monkeypatch) -> Path:
    """A pack file, on the 25th of November 2026."""
    monkeypatch.setattr(cli, "_today", lambda: date(2026, 11, 25))
    path = tmp_path / "shelf.toml"
    path.write_text(PACK, encoding="utf-8")
    return path


def note(*arguments: object):
    """printkit note with these arguments."""
    return CliRunner().invoke(cli.commands, ["note", *map(str, arguments)])


def test_a_note_keeps_the_tray_as_it_was_played(file, tmp_path):
    """Child, set, day, the range and settings as played, theme, title and words."""
    result = note(file, "wren", "clips | pegs", "sure", "--say", "twice,\nalone")
    entry = read_journal(tmp_path / JOURNAL).entries[0]

    assert (result.exit_code, result.stderr) == (0, "")
    assert (entry.child, entry.set, entry.result) == ("Wren", "clips | pegs", "sure")
    assert (entry.on, entry.title, entry.said) == (date(2026, 11, 25), "Rock pool summer", "twice,\nalone")
    assert dict(entry.played) == {
        "make": "clip-cards",
        "numbers": (1, 4),
        "lookalike": 2,
        "theme": "rock-pool",
        "choices": 4,
    }
    assert result.stdout == (
        f"{tmp_path / JOURNAL}: 2026-11-25 | Wren | clips \\| pegs | sure | make clip-cards; numbers 1-4; "
        'lookalike 2; theme rock-pool; choices 4 | Rock pool summer | "twice,\\nalone"\n'
    )


def test_an_earlier_day(file, tmp_path):
    """--on gives the day; today is the last one allowed."""
    assert note(file, "Juno", "strips", "not yet", "--on", "2026-11-03").exit_code == 0
    assert note(file, "Juno", "strips", "growing", "--on", "2026-11-25").exit_code == 0
    days = [entry.on.day for entry in read_journal(tmp_path / JOURNAL).entries]

    assert days == [3, 25]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (
            ["Wrem", "strips", "sure"],
            "CHILD: there is no child 'Wrem'; allowed: Wren or Juno; did you mean 'Wren'?",
        ),
        (
            ["Wren", "clip pegs", "sure"],
            "SET: there is no set 'clip pegs' among Wren's trays; allowed: counting-cards or clips | pegs; "
            "did you mean 'clips | pegs'?",
        ),
        (
            ["Juno", "strips", "sur"],
            "RESULT: there is no result 'sur'; allowed: sure, growing, not-yet or unused; "
            "did you mean 'sure'?",
        ),
        (
            ["Juno", "strips", "sure", "--on", "2026-11-26"],
            "--on: 2026-11-26 lies in the future; allowed: today (2026-11-25) or a day before it",
        ),
        (
            ["Juno", "strips", "sure", "--on", "yesterday"],
            "--on: 'yesterday' is no day; allowed: a day such as 2026-11-25",
        ),
        (
            ["Pim", "strips", "sure", "--on", "2027-11-26"],
            "--on: 2027-11-26 lies in the future; allowed: today (2026-11-25) or a day before it\n"
            "CHILD: there is no child 'Pim'; allowed: Wren or Juno",
        ),
    ],
)
def test_what_is_wrong_is_said_and_nothing_written(file, tmp_path, arguments, said):
    """One sentence for each thing wrong, exit code 2, no line in the journal."""
    result = note(file, *arguments)

    assert (result.exit_code, result.stderr, result.stdout) == (2, f"{said}\n", "")
    assert not (tmp_path / JOURNAL).exists()


def test_a_journal_that_cannot_be_written_is_the_machines_fault(file, tmp_path):
    """A folder in the journal's place: exit code 1 and its name, no traceback."""
    (tmp_path / JOURNAL).mkdir()
    result = note(file, "Juno", "strips", "sure")

    assert result.exit_code == 1
    assert result.stderr.startswith(f"{tmp_path / JOURNAL}: ")
