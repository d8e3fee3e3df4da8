"""The folder of pack files: all the state there is.

Names from a browser are looked up among those there are, never joined to a path.
"""

import hashlib
import os
import threading
from dataclasses import dataclass
from pathlib import Path

from printkit.files import name_fault, replace_file, safe_name

NO_PACKS = ("family", "theme")
"""TOML files of these names are no packs."""


class ChangedMeanwhileError(Exception):
    """The file is no longer what the browser showed: another tab or an editor wrote it."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """A pack file as it stands; its `version` goes with each form, so that the later of two is told."""

    name: str
    path: Path
    data: bytes

    @property
    def version(self) -> str:
        return hashlib.sha256(self.data).hexdigest()[:20]


class Folder:
    """The pack files that lie directly in one folder."""

    def __init__(self, root: Path):
        self.root = root.resolve()
        self._lock = threading.Lock()

    def names(self) -> tuple[str, ...]:
        """The names of the pack files without their ending, the one written last first."""
        found = {path.stem: path.stat().st_mtime_ns for path in self._files()}
        return tuple(sorted(found, key=lambda name: (-found[name], name)))

    def _files(self) -> list[Path]:
        try:
            entries = sorted(os.scandir(self.root), key=lambda entry: entry.name)
        except FileNotFoundError:
            return []
        return [
            Path(entry.path)
            for entry in entries
            if entry.name.endswith(".toml")
            and not entry.name.startswith(".")
            and entry.is_file(follow_symlinks=False)
            and entry.name.removesuffix(".toml") not in NO_PACKS
        ]

    def read(self, name: str) -> Source | None:
        """The pack file of that name; None if there is none. Raises OSError."""
        path = next((path for path in self._files() if path.stem == name), None)
        return None if path is None else Source(name=name, path=path, data=path.read_bytes())

    def write(self, source: Source, data: bytes) -> Source:
        """Writes a pack file anew. Raises ChangedMeanwhileError if it is no longer `source`; OSError."""
        with self._lock:
            now = self.read(source.name)
            if now is None or now.version != source.version:
                raise ChangedMeanwhileError
            replace_file(source.path, data)
        return Source(name=source.name, path=source.path, data=data)

    def free_name(self, wished: str, ending: str = ".toml") -> str:
        """A name that nothing in the folder has yet, made of the words wished for."""
        stem = "pack" if name_fault(wished) else safe_name(wished)
        stem = stem if stem not in NO_PACKS else f"{stem}-pack"
        number, name = 1, stem
        while any((self.root / f"{name}{end}").exists() for end in dict.fromkeys(("", ".toml", ending))):
            number += 1
            name = f"{stem}-{number}"
        return name
