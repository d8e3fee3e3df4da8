"""The journal's file: read with every fault told, and appended to so that nothing is ever lost."""

import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from printkit.errors import PrintkitError, Problem
from printkit.files.disk import about, sync
from printkit.journal.lines import entry_line, parse
from printkit.journal.model import Broken, Entry, Journal
from printkit.texts import Note

JOURNAL = "journal.txt"
"""The name of a family's journal, beside its pack files."""

_HEAD = """\
# The family's journal, kept by printkit note; nothing is sent anywhere. One line a note:
# day | child | set | sure, growing, not-yet or unused | the tray as played | the pack | "words"
# Lines may be added, mended and put in another order by hand: day, child, set and result will do.
"""
_WIDE = (b"\xff\xfe", b"\xfe\xff")
"""How a text begins that was saved as UTF-16."""
_LOCKED_BYTE = 2**30
"""Windows locks this byte, far behind any text, so that readers are not locked out."""


def journal_file(pack_file: Path) -> Path:
    """The journal of the family whose pack file this is."""
    return pack_file.parent / JOURNAL


def read_journal(file: Path) -> Journal:
    """All notes of a file; no notes if there is no file.

    Raises PrintkitError for a file that was saved as UTF-16, and OSError if it cannot be read.
    """
    try:
        with about(file):
            data = file.read_bytes()
    except FileNotFoundError:
        return Journal()
    if data.startswith(_WIDE):
        raise PrintkitError(
            [Problem(place=file.name, found="is no UTF-8 text", allowed="a text file saved as UTF-8")]
        )
    entries: list[Entry] = []
    broken: list[Broken] = []
    for number, raw in enumerate(re.split(rb"\r\n|\n|\r", data.removeprefix(b"\xef\xbb\xbf")), 1):
        text = raw.decode("utf-8", "replace").strip()
        if not text or text.startswith("#"):
            continue
        read = parse(text, number) if _is_text(raw) else Note("next.broken.encoding")
        if isinstance(read, Note):
            broken.append(Broken(line=number, text=text, why=read))
        else:
            entries.append(read)
    return Journal(entries=tuple(entries), broken=tuple(broken))


def _is_text(raw: bytes) -> bool:
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def append(file: Path, entry: Entry) -> None:
    """Adds a note as a line of its own; once this returns, it outlasts a power cut.

    Each line is one write at the end of the file, so two writers need no lock to leave each other's
    lines whole. A last line without an end (cut off by a crash, or left so by an editor) stays as it is
    and gets its end. Raises OSError; what was there before is there still.
    """
    line = f"{entry_line(entry)}\n".encode()
    fresh = not file.exists()
    with about(file):
        handle = os.open(file, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0), 0o666)
        try:
            with _undisturbed(handle):
                if not _whole(handle, _beginning(handle) + line, line):
                    # Another writer was cut off between our look at the end and our writing there.
                    _whole(handle, b"\n" + line, line)
            os.fsync(handle)
        finally:
            os.close(handle)
    if fresh:
        sync(file.parent)


def _beginning(handle: int) -> bytes:
    """What must come before a new line: the head of a new file, or the end of the last line."""
    size = os.fstat(handle).st_size
    if size == 0:
        return _HEAD.encode()
    return b"" if _byte(handle, size - 1) in b"\r\n" else b"\n"


def _whole(handle: int, data: bytes, line: bytes) -> bool:
    """Writes at the end in one go; whether the line then stands at the beginning of a line."""
    written = os.write(handle, data)
    if written < len(data):
        raise OSError(28, "No space left on device")
    start = os.lseek(handle, 0, os.SEEK_CUR) - len(line)
    return start == 0 or _byte(handle, start - 1) in b"\r\n"


def _byte(handle: int, at: int) -> bytes:
    os.lseek(handle, at, os.SEEK_SET)
    return os.read(handle, 1)


@contextmanager
def _undisturbed(handle: int) -> Iterator[None]:
    """Windows finds the end and writes there in two steps, so there (and only there) a lock is needed."""
    try:
        import msvcrt
    except ImportError:
        yield
        return
    os.lseek(handle, _LOCKED_BYTE, os.SEEK_SET)
    msvcrt.locking(handle, msvcrt.LK_LOCK, 1)  # waits up to ten seconds
    try:
        yield
    finally:
        os.lseek(handle, _LOCKED_BYTE, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_UNLCK, 1)
