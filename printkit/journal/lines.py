"""A note as a line of text and back.

    2026-11-25 | Wren | clip-cards | sure | make clip-cards; numbers 1-5 | Rock pool summer | "on her own"

Seven parts; by hand four will do (day, child, set, result), or five with words in quotes behind. A
part may stand in quotes, and must if it is empty or begins with one. A backslash takes the meaning from
the sign behind it; \\n is a line break. The last part is always in quotes, so that a line which was
cut off can be told from a whole one.
"""

import json
import re
import unicodedata
from datetime import date
from typing import Any

from printkit.checks import shown
from printkit.errors import nearest
from printkit.journal.model import RESULTS, Entry
from printkit.texts import Note

_QUOTED = re.compile(r'\s*"((?:\\.|[^"\\])*)"\s*(?:\||$)')
_BARE = re.compile(r"\s*((?:\\.|[^|\\])*?)\s*(?:\||$)")
_ESCAPE = re.compile(r"\\(u[0-9a-fA-F]{4}|.)")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_WORD = re.compile(r"[^\W\d_][\w./-]*")
_SPAN = re.compile(r"([0-9]+)-([0-9]+)")
_NAMED = {"n": "\n", "r": "\r", "t": "\t"}
_CONSTANTS = ("true", "false", "null", "NaN", "Infinity")


def entry_line(entry: Entry) -> str:
    """The line of a note, without a line end."""
    parts = (
        entry.on.isoformat(),
        _part(entry.child),
        _part(entry.set),
        entry.result,
        _part("; ".join(f"{key} {_value(value)}" for key, value in entry.played)),
        _part(entry.title),
        f'"{_escaped(entry.said, quote=True)}"',
    )
    return " | ".join(parts)


def parse(text: str, line: int = 0) -> Entry | Note:
    """The note of a line, or why it is none."""
    parts = _parts(text)
    if isinstance(parts, Note):
        return parts
    count = len(parts)
    if count == 5 and not text.rstrip().endswith('"'):
        return Note("next.broken.five_parts")
    if count not in (4, 5, 7):
        return Note("next.broken.one_part") if count == 1 else Note("next.broken.parts", n=count)
    day = read_day(parts[0])
    if day is None:
        return Note("next.broken.day", found=parts[0])
    result = read_result(parts[3])
    if result not in RESULTS:
        said, near = Note("next.broken.result", found=parts[3]), nearest(result, RESULTS)
        return Note("next.notes.meant", said=said, name=shown(near)) if near else said
    if not parts[1] or not parts[2]:
        return Note("next.broken.names")
    played = _played(parts[4]) if count == 7 else ()
    if isinstance(played, Note):
        return played
    return Entry(
        on=day,
        child=parts[1],
        set=parts[2],
        result=result,
        played=played,
        title=parts[5] if count == 7 else "",
        said=parts[-1] if count > 4 else "",
        line=line,
    )


def read_day(text: str) -> date | None:
    """The day of a text such as 2026-11-25; None if it is none."""
    if not _DAY.fullmatch(text):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def read_result(text: str) -> Any:
    """A result as it is written everywhere: 'Not yet' is 'not-yet'. Other words come back as they are."""
    word = "-".join(text.casefold().replace("_", " ").replace("-", " ").split())
    return word if word in RESULTS else text


# --- parts -----------------------------------------------------------------------------------


def _parts(text: str) -> list[str] | Note:
    """The parts between upright lines, or why they cannot be told apart."""
    parts: list[str] = []
    at = 0
    while True:
        match = _QUOTED.match(text, at)
        if match is None:
            match = _BARE.match(text, at)
            if match is None:
                return Note("next.broken.backslash")
            if match[1].startswith('"'):
                return Note("next.broken.quote")
        parts.append(_plain(match[1]))
        at = match.end()
        if not match[0].endswith("|"):
            return parts


def _part(text: str) -> str:
    """A text as one part of a line."""
    if not text or text != text.strip() or text.startswith('"'):
        return f'"{_escaped(text, quote=True)}"'
    return _escaped(text)


def _escaped(text: str, *, quote: bool = False) -> str:
    marks = '\\|"' if quote else "\\|"
    return "".join(f"\\{sign}" if sign in marks else _kept(sign) for sign in text)


def _kept(sign: str) -> str:
    """A sign that leaves the line one line and can be written as UTF-8."""
    match unicodedata.category(sign):
        case "Cc" | "Zl" | "Zp":
            return next(
                (f"\\{name}" for name, meant in _NAMED.items() if meant == sign), f"\\u{ord(sign):04x}"
            )
        case "Cs":  # half a character: no text file can hold it
            return "\ufffd"
    return sign


def _plain(text: str) -> str:
    return _ESCAPE.sub(_meant, text)


def _meant(match: re.Match[str]) -> str:
    named = match[1]
    if len(named) == 1:
        return _NAMED.get(named, named)
    sign = chr(int(named[1:], 16))
    return "\ufffd" if unicodedata.category(sign) == "Cs" else sign


# --- the tray as played ----------------------------------------------------------------------


def _value(value: Any) -> str:
    """A setting's value: a word as it is, a range as 1-5, all else as JSON without semicolons."""
    match value:
        case str() if _WORD.fullmatch(value) and value not in _CONSTANTS:
            return value
        case (int(first), int(last)) if first >= 0 and last >= 0 and not _flag(first, last):
            return f"{first}-{last}"
    return json.dumps(value, ensure_ascii=False).replace(";", "\\u003b")


def _flag(*values: Any) -> bool:
    return any(isinstance(value, bool) for value in values)


def _played(text: str) -> tuple[tuple[str, Any], ...] | Note:
    """The settings of 'make clip-cards; numbers 1-5', or why they cannot be read."""
    read: list[tuple[str, Any]] = []
    for piece in text.split(";"):
        if not piece.strip():
            continue
        key, _, written = piece.strip().partition(" ")
        try:
            read.append((key, _read(written.strip())))
        except ValueError:
            return Note("next.broken.setting", found=piece.strip())
    return tuple(read)


def _read(text: str) -> Any:
    """The value of a setting. Raises ValueError for what is none."""
    if span := _SPAN.fullmatch(text):
        return (int(span[1]), int(span[2]))
    if _WORD.fullmatch(text) and text not in _CONSTANTS:
        return text
    try:
        return _frozen(json.loads(text))
    except RecursionError:
        raise ValueError("nested too deeply") from None


def _frozen(value: Any) -> Any:
    return tuple(_frozen(item) for item in value) if isinstance(value, list) else value
