"""A family's own stroke letters: a TOML file whose letters replace ours one by one."""

from pathlib import Path
from typing import Any

from printkit.errors import PrintkitError, Problem
from printkit.letters.paths import PathError
from printkit.letters.strokes import bounds, parse
from printkit.toml_lines import key_lines

_HIGHEST, _LOWEST = 27.0, -13.0
_ALLOWED = '[letters] with lines such as n = "9: M0 10 L0 0 > M0 5.5 A 4.5 5.5 4.5 4.5 180 0 L9 0"'


def read_own(file: Path, place: str) -> tuple[tuple[str, str], ...]:
    """The letters of a file as (character, line), sorted.

    `place` names the pack's key in problems. Raises PrintkitError: no such file, no TOML, no table
    `letters`, a line that cannot be read, a letter that reaches out of its lines.
    """
    import tomllib

    try:
        text = file.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise _refused(place, f"there is no file '{file.name}'", "the path of a TOML file") from None
    except (OSError, UnicodeDecodeError) as error:
        raise _refused(place, f"'{file.name}' cannot be read: {error}", "a TOML file in UTF-8") from None
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _refused(file.name, f"is no TOML: {error}", _ALLOWED) from None
    letters = data.get("letters")
    if not isinstance(letters, dict) or not letters or len(data) > 1:
        raise _refused(file.name, "holds something else than the table [letters]", _ALLOWED)
    lines = key_lines(text)
    problems = [
        Problem(
            place=f"{file.name}, line {lines.get(('letters', name), 1)}, letters.{name}",
            found=said,
            allowed=_ALLOWED,
        )
        for name, line in letters.items()
        if (said := _fault(name, line))
    ]
    if problems:
        raise PrintkitError(problems)
    return tuple(sorted(letters.items()))


def _fault(name: str, line: Any) -> str:
    """What is wrong with a letter, or nothing."""
    if len(name) != 1:
        return f"'{name}' is not one character"
    if not isinstance(line, str):
        return "its line is not a text in quotes"
    try:
        found = parse(name, line)
    except PathError as error:
        return str(error)
    low, high = bounds([found])
    if low < _LOWEST or high > _HIGHEST:
        return f"it reaches from {low:g} to {high:g}; the lines are at -10, 0, 10 and 20"
    return ""


def _refused(place: str, found: str, allowed: str) -> PrintkitError:
    return PrintkitError([Problem(place=place, found=found, allowed=allowed)])
