"""Watching: notes for the journal, what comes next with its reason, the next season's file."""

from datetime import date

import pytest
from click.testing import CliRunner
from web.client import Browser

from printkit.cli import commands
from printkit.journal import read_journal
from printkit.materials import material_keys
from printkit.pack.reader import read_pack

WATCH = "/p/pool/watch"


@pytest.fixture
def browser(tmp_path):
    found = Browser(tmp_path)
    found.app.config["TODAY"] = lambda: date(2026, 11, 25)
    return found


def test_a_note_is_the_line_of_the_command_line(browser, tmp_path):
    """A note written here is the very line that `printkit note` writes."""
    said = {
        "child": "Wren",
        "set": "clip-cards",
        "result": "sure",
        "on": "2026-11-20",
        "said": "twice | today",
    }
    answer = browser.post(WATCH, said)
    from_page = (tmp_path / "journal.txt").read_bytes()
    (tmp_path / "journal.txt").unlink()

    words = [
        "note",
        str(browser.file),
        "Wren",
        "clip-cards",
        "sure",
        "--on",
        "2026-11-20",
        "--say",
        "twice | today",
    ]
    assert CliRunner().invoke(commands, words).exit_code == 0

    assert answer.status_code == 303
    assert (tmp_path / "journal.txt").read_bytes() == from_page


def test_what_comes_next_is_told(browser):
    """After notes on two days the page tells the next step with the reason, as `printkit next` does."""
    for day in ("2026-11-10", "2026-11-17"):
        browser.post(WATCH, {"child": "Wren", "set": "counting-cards", "result": "sure", "on": day})

    body = browser.get(f"{WATCH}?child=Wren").get_data(as_text=True)
    told = CliRunner().invoke(commands, ["next", str(browser.file), "--on", "2026-11-25"]).output

    line = next(line.strip() for line in told.splitlines() if "counting-cards" in line)
    assert line in body.replace("&#39;", "'")
    assert "2026-11-17" in body


def test_the_next_season_in_one_step(browser, tmp_path):
    """The next season's pack file is written beside this one, which stays."""
    before = browser.text()

    answer = browser.post("/p/pool/next", {"title": "Night walks", "theme": "night-sky"})

    assert answer.headers["Location"] == "/p/night-walks/trays"
    pack = read_pack(tmp_path / "night-walks.toml", material_keys())
    assert (pack.title, pack.children[0].child.theme.name) == ("Night walks", "night-sky")
    assert browser.text() == before


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"child": "Nobody"}, "There is no child 'Nobody'"),
        ({"set": "../x"}, "There is no set '../x' among Wren's trays"),
        ({"result": "great"}, "There is no result 'great'"),
        ({"on": "2026-12-24"}, "lies in the future"),
        ({"on": "soon"}, "is no day"),
    ],
)
def test_wrong_notes(browser, tmp_path, wrong, said):
    """A wrong note is told in the journal's own words and not written."""
    right = {"child": "Wren", "set": "clip-cards", "result": "sure", "on": ""}

    answer = browser.post(WATCH, right | wrong)

    assert answer.status_code == 422
    assert said in answer.get_data(as_text=True).replace("&#39;", "'")
    assert not (tmp_path / "journal.txt").exists()


def test_no_note_without_a_tray(browser, tmp_path):
    """Where no tray is chosen the page says so beside the trays, keeps what was typed and writes nothing."""
    answer = browser.post(WATCH, {"child": "Wren", "result": "sure", "said": "twice"})

    body = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert "Choose the tray first" in body.partition('id="wrong-tray"')[2].partition("</div>")[0]
    assert 'value="twice"' in body
    assert not (tmp_path / "journal.txt").exists()


def test_the_notes_of_the_pack_stand_below(browser):
    """Notes about all children of the pack, the newest first."""
    for child, tray, day in (("Wren", "clip-cards", "2026-11-20"), ("Juno", "strips", "2026-11-22"),
                             ("Wren", "counting-cards", "2026-11-21"), ("Wren", "clip-cards", "2026-11-22")):
        browser.post(WATCH, {"child": child, "set": tray, "result": "sure", "on": day})

    body = browser.get(WATCH).get_data(as_text=True).partition("The notes kept, the newest first")[2]
    lines = ["2026-11-22: Wren, clip-cards", "2026-11-22: Juno, strips", "2026-11-21: Wren, counting-cards",
             "2026-11-20: Wren, clip-cards"]
    places = [body.index(line) for line in lines]
    assert places == sorted(places)


def test_lines_stay_lines(browser, tmp_path):
    """A line break in a remark does not make a second note, and markup is shown as text."""
    said = "<i>all\r\n2026-11-20 | Wren | clip-cards | sure"
    browser.post(WATCH, {"child": "Wren", "set": "clip-cards", "result": "growing", "said": said})

    assert len(read_journal(tmp_path / "journal.txt").entries) == 1
    assert "<i>all" not in browser.get(WATCH).get_data(as_text=True)


def test_a_broken_journal_has_its_page(browser, tmp_path):
    """Lines that are no notes are told, the page works."""
    (tmp_path / "journal.txt").write_bytes(b"no note at all\n")
    assert "journal.txt, line 1" in browser.get(WATCH).get_data(as_text=True)
    (tmp_path / "journal.txt").write_bytes("x".encode("utf-16"))
    assert "is no UTF-8 text" in browser.get(WATCH).get_data(as_text=True)
