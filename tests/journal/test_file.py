"""The journal's file: whatever happens to it, no note is lost and every fault is told once."""

import os
import signal
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from printkit.errors import PrintkitError
from printkit.journal import JOURNAL, Entry, append, entry_line, journal_file, read_journal

WREN = Entry(on=date(2026, 11, 25), child="Wren", set="clip-cards", result="sure", title="Shelf")
JUNO = Entry(on=date(2026, 11, 26), child="Juno", set="strips", result="growing", title="Shelf", said="ñ")


def seen(file: Path) -> list[tuple[str, str]]:
    """Child and result of each note."""
    return [(entry.child, entry.result) for entry in read_journal(file).entries]


def test_a_journal_begins_with_how_it_is_read(tmp_path):
    """The first note brings remarks above it; later ones are a line each."""
    file = journal_file(tmp_path / "shelf.toml")
    append(file, WREN)
    append(file, JUNO)
    lines = file.read_text(encoding="utf-8").splitlines()

    assert file.name == JOURNAL
    assert [line[:1] for line in lines] == ["#", "#", "#", "2", "2"]
    assert lines[3:] == [entry_line(WREN), entry_line(JUNO)]
    assert [entry.line for entry in read_journal(file).entries] == [4, 5]


def test_no_file_is_a_journal_without_notes(tmp_path):
    """A family that noted nothing yet has an empty journal."""
    assert read_journal(tmp_path / JOURNAL).entries == ()


@pytest.mark.parametrize("cut", range(1, len(entry_line(WREN)) + 1))
def test_cut_off_anywhere_the_line_stays_and_the_next_is_whole(tmp_path, cut):
    """A crash in mid-line loses no other note; what is left is kept and told, or is a true short note."""
    file = tmp_path / JOURNAL
    append(file, JUNO)
    torn = entry_line(WREN).encode()[:cut]
    with file.open("ab") as out:
        out.write(torn)
    append(file, JUNO)
    journal = read_journal(file)

    juno = [entry for entry in journal.entries if entry.child == "Juno"]
    others = [entry for entry in journal.entries if entry.child != "Juno"]
    assert len(juno) == 2
    assert len(others) + len(journal.broken) == 1
    assert torn + b"\n" in file.read_bytes()
    assert all(entry.result == "sure" for entry in others)
    assert all(broken.line == 5 and broken.text == torn.decode().strip() for broken in journal.broken)


def test_cut_off_between_look_and_write(tmp_path, monkeypatch):
    """Another writer that dies after our look at the end costs us no note: ours is written again."""
    file = tmp_path / JOURNAL
    append(file, JUNO)
    with file.open("ab") as out:
        out.write(b"2026-11-2")
    monkeypatch.setattr("printkit.journal.file._beginning", lambda handle: b"")
    append(file, JUNO)

    assert seen(file) == [("Juno", "growing")] * 2
    assert [broken.line for broken in read_journal(file).broken] == [5]


def test_windows_line_ends_a_mark_and_remarks(tmp_path):
    """An editor's byte order mark and line ends, blank lines and remarks do not matter."""
    file = tmp_path / JOURNAL
    text = f"\ufeff# ours\r\n\r\n{entry_line(WREN)}\r\n   \r\n2026-11-27 | Wren | clips | not yet\r\n"
    file.write_bytes(text.encode())
    append(file, JUNO)

    assert seen(file) == [("Wren", "sure"), ("Wren", "not-yet"), ("Juno", "growing")]
    assert file.read_bytes().startswith(text.encode())


def test_a_last_line_without_an_end_is_a_note(tmp_path):
    """What an editor left without a line end is read, and stands alone once another note comes."""
    file = tmp_path / JOURNAL
    file.write_text("2026-11-24 | Wren | clips | sure", encoding="utf-8")
    append(file, JUNO)

    assert seen(file) == [("Wren", "sure"), ("Juno", "growing")]


def test_broken_lines_are_told_and_kept(tmp_path):
    """Lines that are no notes are told by their numbers and stay in the file."""
    file = tmp_path / JOURNAL
    data = entry_line(WREN).encode() + b"\nWren liked this one\n2026-11-26 | Wr\xe9n | clips | sure\n"
    file.write_bytes(data)
    append(file, JUNO)
    journal = read_journal(file)

    assert [(broken.line, broken.why) for broken in journal.broken] == [
        (2, "has 1 part between its upright lines; 4 or 7 make a note"),
        (3, "is no UTF-8 text"),
    ]
    assert seen(file) == [("Wren", "sure"), ("Juno", "growing")]
    assert file.read_bytes().startswith(data)


def test_a_wide_text_is_told(tmp_path):
    """A file saved as UTF-16 is refused with one sentence."""
    file = tmp_path / JOURNAL
    file.write_text(entry_line(WREN), encoding="utf-16")

    with pytest.raises(PrintkitError, match=r"journal\.txt: is no UTF-8 text; allowed: a text file saved"):
        read_journal(file)


WRITER = """
import sys
from datetime import date
from pathlib import Path
from printkit.journal import Entry, append
file, child, count = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
for number in range(count):
    said = f"{number} " + "x" * (number % 7 * 40)
    append(file, Entry(on=date(2026, 11, 25), child=child, set="s", result="sure", title="T", said=said))
    print(number, flush=True)
"""


def writer(file: Path, child: str, count: int) -> subprocess.Popen:
    """Another process that writes so many notes."""
    command = [sys.executable, "-c", WRITER, str(file), child, str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def test_two_writers_at_once(tmp_path):
    """Two processes that write at the same time leave every line of both, each whole."""
    file = tmp_path / JOURNAL
    writers = [writer(file, child, 150) for child in ("Wren", "Juno")]
    for process in writers:
        process.communicate()
    journal = read_journal(file)

    assert journal.broken == ()
    for child in ("Wren", "Juno"):
        numbers = [int(entry.said.split()[0]) for entry in journal.entries if entry.child == child]
        assert numbers == list(range(150))


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such signal")
def test_a_writer_killed_loses_only_what_it_had_not_said(tmp_path):
    """Every note that was said to be written is there after a kill, and the next one is whole."""
    file = tmp_path / JOURNAL
    process = writer(file, "Wren", 100_000)
    said = [process.stdout.readline() for _ in range(30)]
    process.send_signal(signal.SIGKILL)
    said += process.communicate()[0].splitlines(keepends=True)
    append(file, JUNO)
    whole = [int(number) for number in said if number.endswith("\n")]
    numbers = [int(entry.said.split()[0]) for entry in read_journal(file).entries[:-1]]

    assert numbers[: len(whole)] == whole
    assert seen(file)[-1] == ("Juno", "growing")
