"""A family's own pictures, sent from the browser: each goes through the pictures' reader before it stays."""

import os
import shutil
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from printkit.errors import PrintkitError, Problem
from printkit.files import name_fault, safe_name
from printkit.pictures import load_theme
from printkit.pictures.themes import MAX_PICTURES
from printkit.theme_folder import write_description
from printkit.web.folder import Folder

TOO_LARGE = Problem(place="", found="the file is larger than 20 MB", allowed="at most 20 MB a picture")
"""A limit of sending; the reader has its own besides."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Sent:
    """A file as the browser sent it; `data` is None if it was too large to be read."""

    name: str
    data: bytes | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Taken:
    """What came of the files: the theme's folder ('' if none can be used), its pictures, all faults."""

    theme: str
    count: int
    faults: tuple[tuple[str, str], ...]


def take(folder: Folder, called: str, files: Sequence[Sent], tags: Sequence[str]) -> Taken:
    """Makes a theme of the files that can be read; tells what is wrong with each of the others.

    The folder appears with all its pictures or not at all. `tags` are the languages to prepare names in.
    Raises OSError.
    """
    faults: list[tuple[str, str]] = []
    folder.root.mkdir(parents=True, exist_ok=True)
    staged = Path(tempfile.mkdtemp(prefix=".pictures-", dir=folder.root))
    try:
        shown = _write(staged, files[: MAX_PICTURES + 1], faults)
        while shown:
            try:
                load_theme(staged.name, folder.root, "FOLDER")
                break
            except PrintkitError as error:
                wrong = _by_file(error.problems, staged.name)
                faults += [(shown.get(file, file), said) for file, said in wrong]
                gone = {file for file, _ in wrong} & set(shown) or set(shown)
                for file in gone:
                    (staged / file).unlink()
                    del shown[file]
        if not shown:
            return Taken(theme="", count=0, faults=tuple(faults))
        name = folder.free_name(called or "our pictures")
        final = folder.root / name
        os.rename(staged, final)
        write_description(final, tags)
        return Taken(theme=name, count=len(shown), faults=tuple(faults))
    finally:
        shutil.rmtree(staged, ignore_errors=True)


def _write(staged: Path, files: Iterable[Sent], faults: list[tuple[str, str]]) -> dict[str, str]:
    """Writes what was sent under safe names; returns those with the names as sent."""
    shown: dict[str, str] = {}
    for sent in files:
        plain = sent.name.replace("\\", "/").rpartition("/")[2]
        stem, ending = os.path.splitext(plain)
        if sent.data is None:
            faults.append((plain, _sentence(TOO_LARGE)))
            continue
        base = "picture" if name_fault(stem) else safe_name(stem)
        ending = ending.lower() if ending[1:].isalnum() and ending.isascii() else ""
        number, file = 1, f"{base}{ending}"
        while any(Path(file).stem == Path(other).stem for other in shown):
            number += 1
            file = f"{base}-{number}{ending}"
        (staged / file).write_bytes(sent.data)
        shown[file] = plain
    return shown


def _by_file(problems: Iterable[Problem], folder: str) -> list[tuple[str, str]]:
    """What is wrong, by the name of the file; '' for what is wrong with all of them together."""
    return [(problem.place.removeprefix(folder).lstrip("/"), _sentence(problem)) for problem in problems]


def _sentence(problem: Problem) -> str:
    said = problem.found + (f"; allowed: {problem.allowed}" if problem.allowed else "")
    return said[:1].upper() + said[1:]
