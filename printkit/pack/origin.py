"""A TOML file as it was read, with the line of each key, so that problems can say where they are."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from printkit.checks import is_whole
from printkit.errors import PrintkitError, Problem
from printkit.toml_lines import key_lines

Keys = tuple[str | int, ...]
"""The way to a value: ('children', 1, 'numbers')."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Origin:
    """What a file says; `folder` is where paths in it start."""

    name: str
    folder: Path
    raw: Mapping[str, Any]
    lines: Mapping[Keys, int]

    def place(self, path: Keys, whose: str = "") -> str:
        """'pack.toml, line 23, Juno's strips (children[1].materials[0].unknown)'."""
        owner = f", {whose}" if whose else ""
        exact = f" ({dotted(path)})" if path else ""
        return f"{self.spot(path)}{owner}{exact}"

    def spot(self, path: Keys) -> str:
        """'pack.toml, line 23'; the file alone where the path has no line."""
        number = self.line(path)
        return f"{self.name}, line {number}" if number else self.name

    def line(self, path: Keys) -> int:
        """The line of a key, or of the nearest thing that holds it; 0 if there is none.

        A table written as `words.fr = ...` begins with the first of its own keys.
        """
        while path and path not in self.lines:
            inside = [line for known, line in self.lines.items() if known[: len(path)] == path]
            if inside:
                return min(inside)
            path = path[:-1]
        return self.lines[path] if path else 0


def origin_of(file: Path, data: bytes) -> Origin:
    """What a TOML file says that holds these bytes. Raises PrintkitError if they are no UTF-8 or no TOML."""
    name = file.name
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise PrintkitError(
            [
                Problem(
                    place=f"{name}, line {line}",
                    found="is no UTF-8 text",
                    allowed="a text file saved as UTF-8",
                )
            ]
        ) from None
    try:
        raw = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        said = str(error) if isinstance(error, ValueError) else "is nested too deeply"
        raise PrintkitError([Problem(place=name, found=f"cannot be read as TOML: {said}")]) from None
    return Origin(name=name, folder=file.parent, raw=raw, lines=key_lines(text))


def dotted(path: Keys) -> str:
    """children[1].materials[0].unknown"""
    text = ""
    for part in path:
        text += f"[{part}]" if is_whole(part) else f".{part}" if text else str(part)
    return text
