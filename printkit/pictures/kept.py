"""What can be told apart in a theme, measured once and kept beside it in differences.json.

Only built-in themes have the file; it holds a fingerprint of the pictures it was measured on. It is
written anew with `python -m printkit.pictures.keeping THEME...`, which takes about a minute a theme.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from printkit.pictures.motifs import Ink
from printkit.resources import resource

FILE = "differences.json"
SIZES = (12.0, 20.0, 32.0)
"""mm of the pictures that are measured; a difference seen at one of them is seen in larger ones."""
INKS: tuple[Ink, ...] = ("color", "gray", "outline")

Said = tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Entry:
    """A difference that can be seen at SIZES[first] and above.

    `choice` counts the ways to show it; `area` in mm2 and `contrast` are those at the largest size.
    """

    first: int
    choice: int
    area: float
    contrast: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Kept:
    """What is kept of one theme, by ink, level and motif."""

    entries: Mapping[tuple[str, int, str], Mapping[Said, Entry]]

    def seen(self, ink: Ink, level: int, motif: str, size: float) -> dict[Said, Entry]:
        """What differs visibly in pictures of `size` mm, at least the smallest of SIZES."""
        found = self.entries.get((ink, level, motif), {})
        return {said: entry for said, entry in found.items() if SIZES[entry.first] <= size}


@lru_cache(maxsize=32)
def kept_for(folder: Path) -> Kept | None:
    """What is kept beside a built-in theme; None for a family's own, or if its pictures have changed."""
    file = folder / FILE
    if folder.parent != resource("themes") or not file.is_file():
        return None
    data = json.loads(file.read_text(encoding="utf-8"))
    if data["pictures"] != fingerprint(folder):
        return None
    return Kept(
        entries={
            (ink, int(level), motif): {
                tuple(said): Entry(first=first, choice=choice, area=area, contrast=contrast)
                for *said, first, choice, area, contrast in found
            }
            for ink, levels in data["seen"].items()
            for level, motifs in levels.items()
            for motif, found in motifs.items()
        }
    )


def fingerprint(folder: Path) -> str:
    """The sha256 of the pictures and of theme.toml, whatever their line ends."""
    whole = sha256()
    for path in sorted([*folder.glob("*.svg"), folder / "theme.toml"]):
        whole.update(path.name.encode() + b"\0" + path.read_bytes().replace(b"\r\n", b"\n") + b"\0")
    return whole.hexdigest()
