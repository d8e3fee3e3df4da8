"""A theme.toml for a folder of a family's own pictures, with what can be told from the files."""

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from printkit.errors import PrintkitError, Problem
from printkit.pictures import Motif, Theme, load_theme, spoken
from printkit.pictures.colors import difference, lab, rgb
from printkit.pictures.plurals import WITHOUT_OTHER, categories
from printkit.pieces import Color

FILE = "theme.toml"

_HEAD = """\
# A theme of your own. Look at it:  printkit theme show {folder} -o look.pdf
# Use it in a pack file beside this folder:  theme = "{folder}"
# A line that starts with # is only a remark.

title  = {{ {titles} }}
season = ""          # spring, summer, autumn, winter, or nothing
accent = "{accent}"   # hairlines and headings: a dark color

# Colors that parts can take in odd-one-out.
[palette]
"""

_NAMES = """\

# The names come from the files' names: put them right, and say them in your languages. {forms}
"""


def described(folder: Path, tags: Sequence[str]) -> str:
    """The text of a theme.toml for the pictures in a folder, with names to fill in for the languages.

    `tags` are BCP 47. Raises PrintkitError with all that is wrong with the pictures.
    """
    theme = load_theme(str(folder.resolve()), folder, "FOLDER")
    title = _title(folder)
    others = [tag for tag in tags if _base(tag) != "en"]
    titles = ", ".join(f"{_key(tag)} = {_quoted(title)}" for tag in ("en", *others))
    colors = _palette(theme)
    head = _HEAD.format(folder=folder.resolve().name, titles=titles, accent=_hex(_accent(colors)))
    palette = "".join(f'{name} = "{_hex(color)}"\n' for name, color in colors)
    forms = " ".join(f"{tag} needs {_listed(_forms(tag))}." for tag in others)
    motifs = "".join(_motif(motif, theme, others) for motif in theme.motifs)
    return head + palette + _NAMES.format(forms=forms).replace(" \n", "\n") + motifs


def write_description(folder: Path, tags: Sequence[str]) -> tuple[Path, Theme]:
    """Writes theme.toml into a folder of pictures; returns it and the theme it makes.

    Raises PrintkitError, before anything is written, if there is one already, a picture cannot be
    used, or a language is not known; OSError.
    """
    if not folder.is_dir():
        found = f"'{folder}' is a file" if folder.exists() else f"there is no folder '{folder}'"
        raise PrintkitError([Problem(place="FOLDER", found=found, allowed="a folder of pictures")])
    file = folder / FILE
    if file.exists():
        found = "is there already"
        raise PrintkitError([Problem(place=str(file), found=found, allowed="a folder without one")])
    text = described(folder, tags)
    with file.open("x", encoding="utf-8", newline="\n") as out:
        out.write(text)
    return file, load_theme(str(folder.resolve()), folder, "FOLDER")


def _motif(motif: Motif, theme: Theme, others: Sequence[str]) -> str:
    name = _word(motif.key)
    lines = [
        "",
        f"[motifs.{_key(motif.key)}]",
        *_facts(motif, theme),
        f"[motifs.{_key(motif.key)}.names]",
        f"en = {{ one = {_quoted(name)}, other = {_quoted(_plural(name))} }}",
    ]
    for tag in others:
        forms = ", ".join(f"{form} = {_quoted(name)}" for form in _forms(tag))
        lines.append(f"# {_key(tag)} = {{ {forms} }}")
    return "\n".join(lines) + "\n"


def _facts(motif: Motif, theme: Theme) -> Iterator[str]:
    from printkit.pictures.raster import has_plain_ground
    from printkit.pictures.seen import mirror_change

    share = mirror_change(motif)
    if share <= 0.01 or share > 0.05:
        alike = share <= 0.01
        said = "left and right are alike" if alike else "left and right differ"
        yield f"symmetric = {'true' if alike else 'false'}   # {said}, as measured"
        if not alike:
            yield '# faces = "right"   # or "left": which way it would travel, if it can'
    if motif.is_photo and has_plain_ground((theme.folder / Path(motif.file).name).read_bytes()):
        yield "# trim = true   # takes the plain ground away"


# --- words -----------------------------------------------------------------------------------


def _title(folder: Path) -> str:
    words = spoken(folder.resolve().name) or "Our pictures"
    return words[:1].upper() + words[1:]


def _word(key: str) -> str:
    """A file's name as a word: without the number that a camera or a copy gave it."""
    words = re.sub(r"\s*\(?\d+\)?$", "", spoken(key)).strip()
    return words if words and not words.isupper() else words.lower() or spoken(key)


def _plural(word: str) -> str:
    """The regular English plural; what is irregular must be put right by hand."""
    if re.search(r"[^aeiou]y$", word):
        return word[:-1] + "ies"
    return word + ("es" if re.search(r"(?:s|x|z|ch|sh)$", word) else "s")


def _base(tag: str) -> str:
    return tag.split("-")[0].lower()


def _forms(tag: str) -> tuple[str, ...]:
    """The plural forms that names need in a language."""
    return tuple(form for form in categories(tag) if form != "other" or _base(tag) not in WITHOUT_OTHER)


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else _quoted(name)


def _quoted(text: str) -> str:
    import json

    return json.dumps(text, ensure_ascii=False)


# --- colors ----------------------------------------------------------------------------------

_ENOUGH = 6
_APART = 18.0  # CIEDE2000, a design choice: nearer colors count as one


def _palette(theme: Theme) -> list[tuple[str, Color]]:
    """Up to six colors of the drawings that are clearly different, most frequent motif first."""
    found: list[Color] = []
    for motif in theme.motifs:
        for color in motif.large_colors:
            if all(difference(_bytes(color), _bytes(other)) >= _APART for other in found):
                found.append(color)
    inky = [color for color in found if lab(color)[0] < 92][:_ENOUGH]
    return [(f"color-{i}", color) for i, color in enumerate(inky, 1)]


def _accent(colors: Sequence[tuple[str, Color]]) -> Color:
    """The first color dark enough to read, or a calm gray-blue."""
    from printkit.pictures.described import CALM

    return next((color for _, color in colors if 20 <= lab(color)[0] <= 55), CALM)


def _bytes(color: Color) -> tuple[int, int, int]:
    red, green, blue = (round(part * 255) for part in rgb(color))
    return red, green, blue


def _hex(color: Color) -> str:
    return "#" + "".join(f"{value:02x}" for value in _bytes(color))
