"""Writes what can be told apart in built-in themes: `python -m printkit.pictures.keeping THEME...`."""

import json
import sys
from collections.abc import Mapping
from pathlib import Path

from printkit.pictures.differences import LEVELS, seen_at_all_sizes
from printkit.pictures.kept import FILE, INKS, fingerprint
from printkit.pictures.themes import load_theme


def write(name: str) -> Path:
    """Measures a built-in theme and writes the file beside it."""
    theme = load_theme(name, Path(), "THEME")
    seen = {
        ink: {
            str(level): {
                motif.key: [
                    [*said, entry.first, entry.choice, entry.area, entry.contrast]
                    for said, entry in seen_at_all_sizes(theme, motif, level, ink).items()
                ]
                for motif in theme.motifs
            }
            for level in LEVELS
        }
        for ink in INKS
    }
    file = theme.folder / FILE
    file.write_text(_lines(fingerprint(theme.folder), seen), encoding="utf-8", newline="\n")
    return file


def _lines(pictures: str, seen: Mapping[str, Mapping[str, Mapping[str, list]]]) -> str:
    """JSON with a motif a line, so that changes can be read."""
    inks = []
    for ink, levels in seen.items():
        told = []
        for level, motifs in levels.items():
            rows = (f"    {json.dumps(key)}: {json.dumps(found)}" for key, found in motifs.items())
            told.append(f'   "{level}": {{\n' + ",\n".join(rows) + "}")
        inks.append(f'  "{ink}": {{\n' + ",\n".join(told) + "}")
    return f'{{"pictures": "{pictures}",\n "seen": {{\n' + ",\n".join(inks) + "}}\n"


if __name__ == "__main__":
    for theme_name in sys.argv[1:]:
        print(write(theme_name))
