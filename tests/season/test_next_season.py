"""`printkit next -o`: the old file but for what the proposals change, and it prints."""

import difflib
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from printkit import cli
from printkit.build import plan
from printkit.materials import materials
from printkit.pack.reader import read_pack

PLAIN = (Path(__file__).parents[1] / "fixtures" / "plain").as_posix()
PACK = f"""\
# Two children by the rock pool.
#   printkit make summer.toml
title     = "Rock pool summer"
theme     = "{PLAIN}"     # ours
languages = ["en"]

[[children]]                     # three and a half
name      = "Wren"
numbers   = [1, 5]               # counts to five
sums_to   = 5
materials = [
    {{ make = "clip-cards", arrange = "scatter" }},   # with the wooden pegs
    "odd-one-out",
    {{ make = "strips", set = "plus", count = 4 }},
]

[[children]]
name      = "Juno"
numbers   = [1, 5]
materials = ["dominoes", "tracing"]
"""


@pytest.fixture
def file(tmp_path, monkeypatch) -> Path:
    """The summer's pack file, read on the first of December."""
    monkeypatch.setattr(cli, "_today", lambda: date(2026, 12, 1))
    path = tmp_path / "summer.toml"
    path.write_text(PACK, encoding="utf-8", newline="")
    return path


def run(*arguments: object):
    """printkit with these arguments."""
    return CliRunner().invoke(cli.commands, [str(each) for each in arguments])


REMARKS = [f"#   printkit make {season}.toml" for season in ("summer", "autumn", "winter")]


def noted(file: Path, *lines: str) -> None:
    """A journal of lines such as '11-25 Wren clip-cards sure'."""
    written = []
    for text in lines:
        day, child, rest = text.split(" ", 2)
        set_name, result = rest.rsplit(" ", 1)
        written.append(f"2026-{day} | {child} | {set_name} | {result}\n")
    (file.parent / "journal.txt").write_text("".join(written), encoding="utf-8")


def turned(file: Path, *options: object, name: str = "autumn.toml") -> list[str]:
    """The lines taken out (-), then those put in (+), on the way to the next season, which must print."""
    out = file.parent / name
    result = run("next", file, "-o", out, "--title", "Rock pool summer", "--theme", PLAIN, *options)
    assert (result.exit_code, result.stderr) == (0, "")
    plan(read_pack(out, materials()))
    old, new = (path.read_text(encoding="utf-8").splitlines() for path in (file, out))
    changed = list(difflib.ndiff(old, new))
    return [line for sign in "-+" for line in changed if line[0] == sign and line[2:] not in REMARKS]


WREN = ("11-24 Wren clip-cards sure", "11-25 Wren clip-cards sure")
JUNO = ("11-24 Juno dominoes sure", "11-25 Juno dominoes sure")


def test_nothing_noted_nothing_changed(file):
    """Without notes the file stays as it is, but for its own name in the remarks."""
    assert turned(file) == []
    text = (file.parent / "autumn.toml").read_text(encoding="utf-8")
    assert text == PACK.replace("summer.toml", "autumn.toml")


def test_only_what_changes_is_changed(file):
    """A range that widens is one line, with its reason behind it; remarks and layout stay."""
    noted(file, *JUNO)

    assert turned(file) == [
        "- numbers   = [1, 5]",
        "+ numbers   = [4, 10] # next: sure on two different days",
    ]


def test_the_familys_own_remark_stays(file):
    """Behind a line with a remark of its own no reason is written; a tray changes in its own line."""
    noted(file, *WREN)

    assert turned(file) == [
        "- numbers   = [1, 5]               # counts to five",
        '-     { make = "clip-cards", arrange = "scatter" },   # with the wooden pegs',
        "+ numbers   = [4, 10]               # counts to five",
        '+     { make = "clip-cards", arrange = "frame" },   # with the wooden pegs',
    ]


def test_a_name_that_told_of_the_old_task_goes(file):
    """Strips called 'plus' that take away as well are no longer called 'plus'."""
    noted(file, "11-24 Wren plus sure", "11-25 Wren plus sure")

    assert turned(file) == [
        '-     { make = "strips", set = "plus", count = 4 },',
        '+     { make = "strips", count = 4, operation = "both" },',
    ]


def test_a_name_stays_where_only_a_length_changes(file):
    """Ways to follow that become narrower are still called as the family calls them."""
    ways = 'materials = [{ make = "paths", set = "snip", form = "snip" }]'
    file.write_text(PACK.replace('materials = ["dominoes", "tracing"]', ways), encoding="utf-8")
    noted(file, "11-24 Juno snip sure", "11-25 Juno snip sure")

    assert turned(file) == [
        f"- {ways}",
        '+ materials = [{ make = "paths", set = "snip", form = "snip", width = 10 }]',
    ]


def test_what_was_chosen_again_and_again_stays_beside(file):
    """Sure on three days: the tray as it was lies beside the new one, named as a repetition."""
    noted(file, *JUNO, "11-26 Juno dominoes sure")

    assert turned(file) == [
        "- numbers   = [1, 5]",
        '- materials = ["dominoes", "tracing"]',
        "+ numbers   = [4, 10] # next: sure on 3 different days",
        '+ materials = ["dominoes", '
        '{ make = "dominoes", set = "dominoes again", numbers = [1, 5] }, "tracing"]',
        '+ again     = ["dominoes again"]',
    ]


def test_the_season_after_next(file):
    """A second turn takes the old reason away and writes the new one; what is repeated stays."""
    noted(file, *JUNO, "11-26 Juno dominoes sure")
    turned(file)
    second = file.parent / "autumn.toml"
    day = "make dominoes; numbers 4-10"
    with (file.parent / "journal.txt").open("a", encoding="utf-8") as out:
        out.writelines(f'2026-11-{n} | Juno | dominoes | not-yet | {day} | Autumn | ""\n' for n in (28, 29))

    assert turned(second, name="winter.toml") == [
        "- numbers   = [4, 10] # next: sure on 3 different days",
        "+ numbers   = [1, 5] # next: not yet on two days in a row",
    ]


def test_keep_and_skip(file):
    """What is kept stays as it is though the rule would change it; what is skipped goes, and its word too."""
    wishes = 'name      = "Juno"\nkeep = ["dominoes"]\nskip = ["tracing"]\n'
    file.write_text(PACK.replace('name      = "Juno"\n', wishes), encoding="utf-8")
    noted(file, *JUNO)

    assert turned(file) == [
        '- skip = ["tracing"]',
        '- materials = ["dominoes", "tracing"]',
        '+ materials = ["dominoes"]',
    ]


def test_the_last_material_stays(file):
    """A child keeps at least one material, and it is said."""
    text = PACK.replace('["dominoes", "tracing"]', '[{ make = "dominoes", numbers = [1, 3] }]')
    file.write_text(text, encoding="utf-8")
    noted(file, "11-24 Juno dominoes not-yet", "11-25 Juno dominoes not-yet")
    out = file.parent / "autumn.toml"
    result = run("next", file, "-o", out, "--theme", PLAIN)

    assert "note: Juno: dominoes rests, but stays in the file as a child needs at least one" in result.stdout
    plan(read_pack(out, materials()))


def test_what_cannot_be_printed_stays(file):
    """A tray too small for the next step stays as it is, which is said; the rest goes on."""
    small = '{ make = "counting-cards", set = "clip-cards", size = [40, 50], arrange'
    text = PACK.replace('{ make = "clip-cards", arrange', small)
    file.write_text(text, encoding="utf-8")
    noted(file, *WREN, *JUNO)
    out = file.parent / "autumn.toml"
    result = run("next", file, "-o", out, "--theme", PLAIN, "--title", "Rock pool summer")
    pack = read_pack(out, materials())

    assert (result.exit_code, result.stderr) == (0, "")
    assert "note: Wren: clip-cards stays as it is, as its next step cannot be printed: " in result.stdout
    assert [item.child.numbers for item in pack.children] == [(1, 5), (4, 10)]


def test_the_next_theme_brings_its_title_and_drops_pictures_it_lacks(file):
    """Unset, the theme is the next built-in one that no note knows; its title is the season's."""
    text = PACK.replace('{ make = "strips", set = "plus", count = 4 }', '{ make = "strips", motif = "disc" }')
    file.write_text(text, encoding="utf-8")
    (file.parent / "journal.txt").write_text(
        "".join(
            f'2026-0{month}-01 | Wren | x | growing | make lacing; theme {theme} | Old | ""\n'
            for month, theme in enumerate(("kitchen-garden", "spring-pond", "fruit-stall"), 1)
        ),
        encoding="utf-8",
    )
    out = file.parent / "autumn.toml"
    result = run("next", file, "-o", out)
    pack = read_pack(out, materials())

    assert result.exit_code == 0
    assert (pack.title, pack.children[0].child.theme.name) == ("Rock pool", "rock-pool")
    assert "disc" not in out.read_text(encoding="utf-8")


def test_windows_line_ends_stay(file):
    """A file with Windows line ends gives a file with Windows line ends, and no others."""
    file.write_bytes(PACK.replace("\n", "\r\n").encode())
    noted(file, *JUNO)
    turned(file)
    data = (file.parent / "autumn.toml").read_bytes()

    assert data.count(b"\n") == data.count(b"\r\n") > 15


def test_children_of_the_familys_file(file):
    """A child whom only the family's file names gets a table with what has changed, and no more."""
    (file.parent / "family.toml").write_text(
        '[[children]]\nname = "Wren"\nnumbers = [1, 5]\n[[children]]\nname = "Pim"\nnumbers = [1, 3]\n',
        encoding="utf-8",
    )
    file.write_text(
        f'theme = "{PLAIN}"\ntitle = "Rock pool summer"\nmaterials = ["dominoes", "odd-one-out"]\n',
        encoding="utf-8",
    )
    noted(file, "11-24 Wren dominoes sure", "11-25 Wren dominoes sure")

    assert turned(file) == [
        "+ ",
        "+ [[children]]",
        '+ name = "Wren"',
        "+ numbers = [4, 10] # next: sure on two different days",
    ]


def test_a_child_that_starts_on_a_rung_starts_on_the_next(file):
    """Where a rung is named instead of numbers, the next one is named; the other ladder's stays."""
    named = 'name      = "Juno"\nstart     = ["count-1-5", "words-at-24"]\n'
    text = PACK.replace('name      = "Juno"\nnumbers   = [1, 5]\n', named)
    file.write_text(text, encoding="utf-8")
    noted(file, *JUNO)

    assert turned(file) == [
        '- start     = ["count-1-5", "words-at-24"]',
        '+ start     = ["count-4-10", "words-at-24"] # next: sure on two different days',
    ]


@pytest.mark.parametrize(
    ("out", "said"),
    [
        ("summer.toml", "is the pack file itself; allowed: the name of a new file"),
        ("journal.txt", "is there already; allowed: the name of a new file"),
        (
            "next/autumn.toml",
            "lies in another folder than summer.toml; "
            "allowed: a new name beside it, where the journal and the family's file are",
        ),
    ],
)
def test_no_file_is_overwritten(file, out, said):
    """The pack file itself, one that is there, one in another folder: a sentence, exit code 2, no change."""
    noted(file, *JUNO)
    before = {path.name: path.read_bytes() for path in file.parent.iterdir()}
    result = run("next", file, "-o", file.parent / out, "--theme", PLAIN)

    assert (result.exit_code, result.stderr) == (2, f"-o: '{file.parent / out}' {said}\n")
    assert {path.name: path.read_bytes() for path in file.parent.iterdir()} == before


def test_title_and_theme_are_for_a_new_file(file):
    """Without -o there is nothing that a title could be written into."""
    result = run("next", file, "--title", "Autumn")

    assert (result.exit_code, result.stderr) == (2, "--title: changes a new file; allowed: with -o only\n")


def test_proposals_as_json(file):
    """--json: an object with the proposals, the notes and the sentence for people."""
    import json

    noted(file, *JUNO, "11-30 Pim dominoes sure")
    told = json.loads(run("next", file, "--json").stdout)
    dominoes = next(each for each in told["next"] if each["sets"] == ["dominoes"])

    assert told["title"] == "Rock pool summer"
    assert {key: dominoes[key] for key in ("child", "track", "move", "from", "to", "reason", "days")} == {
        "child": "Juno",
        "track": "counting",
        "move": "widen",
        "from": "count-1-5",
        "to": "count-4-10",
        "reason": "sure",
        "days": ["2026-11-24", "2026-11-25"],
    }
    assert told["notes"] == ["journal.txt, line 3: there is no child 'Pim' in this pack"]
