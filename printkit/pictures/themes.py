"""Themes: a folder of pictures and, perhaps, a theme.toml with names and colors."""

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.pictures.borders import Border
from printkit.pictures.described import Described, MotifWords, read_description
from printkit.pictures.motifs import Ink, Motif, spoken
from printkit.pictures.plurals import best
from printkit.pieces import Color
from printkit.resources import resource

DRAWINGS = (".svg",)
PHOTOS = (".png", ".jpg", ".jpeg", ".webp")
PICTURES = DRAWINGS + PHOTOS
MAX_PICTURES = 200
_ENOUGH = 40_000_001
"""Bytes read of a file: one more than any kind of picture may have."""
BORDER = "ornament/border.svg"
"""Where a theme may keep its border: a strip that goes on to the left and right without a seam."""

# Pictures that cannot be read, and what would help.
_OTHER_PICTURES = {
    ".svgz": "save it as a plain SVG",
    ".heic": "export it as JPEG",
    ".heif": "export it as JPEG",
    ".avif": "export it as JPEG",
    ".gif": "save it as PNG",
    ".bmp": "save it as PNG",
    ".tif": "save it as PNG",
    ".tiff": "save it as PNG",
}


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Theme:
    """Motifs that go together, in teaching order, with the theme's words and colors.

    `season` is 'spring', 'summer', 'autumn', 'winter' or ''. `accent` is for hairlines and headings,
    `border` for pages of the adult: where things are counted there is no ornament.
    """

    name: str
    folder: Path
    motifs: tuple[Motif, ...]
    titles: tuple[tuple[str, str], ...]
    season: str
    accent: Color
    palette: tuple[tuple[str, Color], ...]
    border: Border | None = None

    def title(self, tag: str) -> str:
        """The theme's title in a language (BCP 47 tag); in English, or its name, for want of that."""
        found = best(tag, self.titles)
        if found:
            return found[1]
        words = spoken(self.name)
        return words[:1].upper() + words[1:]

    def motif(self, key: str) -> Motif:
        """The motif of that key. Raises PrintkitError if there is none."""
        for motif in self.motifs:
            if motif.key == key:
                return motif
        keys = [motif.key for motif in self.motifs]
        raise PrintkitError(
            [
                Problem(
                    place=f"theme {self.name}",
                    found=f"there is no motif '{key}'",
                    allowed=listing(keys),
                    nearest=nearest(key, keys),
                )
            ]
        )

    @property
    def counted(self) -> tuple[Motif, ...]:
        """The motifs that show one thing each, to be counted; all where the theme says so of none."""
        return tuple(motif for motif in self.motifs if motif.counted) or self.motifs

    @property
    def notes(self) -> tuple[str, ...]:
        """What is drawn otherwise than its file says, one sentence a picture."""
        return tuple(_note(motif, motif.notes) for motif in self.motifs if motif.notes)

    def notes_in(self, ink: Ink) -> tuple[str, ...]:
        """The notes that hold in one ink."""
        noted = ((motif, motif.notes_in(ink)) for motif in self.motifs)
        return tuple(_note(motif, notes) for motif, notes in noted if notes)


def _note(motif: Motif, notes: tuple[str, ...]) -> str:
    return f"{motif.file}: drawn {listing(notes, last='and')}"


def built_in() -> tuple[str, ...]:
    """The names of the themes that come with printkit, in alphabetical order."""
    folder = resource("themes")
    if not folder.is_dir():
        return ()
    return tuple(sorted(path.name for path in folder.iterdir() if (path / "theme.toml").is_file()))


def load_theme(name_or_path: str, base: Path, place: str) -> Theme:
    """A built-in theme by its name, or the theme in a folder, whose path is taken from `base`.

    `place` says where the name stands, for problems with the name itself; problems inside the
    folder name the file. Raises PrintkitError with all problems of the folder. A folder that has
    not changed gives the same theme again.
    """
    if name_or_path in built_in():
        return _loaded(resource(f"themes/{name_or_path}"), name_or_path, name_or_path)
    folder = base / name_or_path
    if not name_or_path.strip() or not _is_folder(folder):
        raise PrintkitError([_missing(name_or_path, folder, place)])
    return _loaded(folder, folder.resolve().name, name_or_path.rstrip("/\\"))


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except OSError:  # such as a name that is too long
        return False


def _missing(name: str, folder: Path, place: str) -> Problem:
    known = built_in()
    found = f"there is no built-in theme and no folder '{name}'"
    if not name.strip():
        found = "the theme has no name"
    elif len(name) < 200 and folder.exists():
        found = f"'{name}' is a file, not a folder of pictures"
    return Problem(
        place=place,
        found=found,
        allowed=f"{listing(known, last='and')}, or a folder's path" if known else "a folder's path",
        nearest=nearest(name, known),
    )


def _loaded(folder: Path, name: str, shown: str) -> Theme:
    files = sorted(path for path in folder.iterdir() if not path.name.startswith(".") and path.is_file())
    border = folder / BORDER
    states = [*files, border] if border.is_file() else files
    state = tuple(
        (path.relative_to(folder).as_posix(), path.stat().st_size, path.stat().st_mtime_ns) for path in states
    )
    return _read(folder, name, shown, state)


@lru_cache(maxsize=32)
def _read(folder: Path, name: str, shown: str, state: tuple[tuple[str, int, int], ...]) -> Theme:
    """The theme in a folder whose files are in that state (names, sizes, times)."""
    files = [folder / file for file, _, _ in state if file != BORDER]
    pictures = [path for path in files if path.suffix.lower() in PICTURES]
    problems = list(_crowd(pictures, files, shown))
    described, troubles = _description(folder, shown, [path.stem for path in pictures])
    problems += troubles
    motifs = []
    for path in pictures[:MAX_PICTURES]:
        try:
            motifs.append(_motif(path, name, shown, described.motif(path.stem)))
        except PrintkitError as error:
            problems += error.problems
    border = None
    if any(file == BORDER for file, _, _ in state):
        try:
            border = _border(folder / BORDER, name, shown)
        except PrintkitError as error:
            problems += error.problems
    if problems:
        raise PrintkitError(problems)
    order = {key: i for i, (key, _) in enumerate(described.motifs)}
    motifs.sort(key=lambda motif: order.get(motif.key, len(order)))
    return Theme(
        name=name,
        folder=folder,
        motifs=tuple(motifs),
        titles=described.titles,
        season=described.season,
        accent=described.accent,
        palette=described.palette,
        border=border,
    )


def _border(path: Path, name: str, shown: str) -> Border:
    from printkit.pictures.svg import read_svg

    return Border(theme=name, source=read_svg(path.read_bytes(), f"{shown}/{BORDER}"))


def _crowd(pictures: list[Path], files: list[Path], shown: str) -> Any:
    """What is wrong with the files taken together."""
    stems = [path.stem.casefold() for path in pictures]
    for path in files:
        hint = _OTHER_PICTURES.get(path.suffix.lower())
        if hint and path.stem.casefold() not in stems:
            yield Problem(
                place=f"{shown}/{path.name}",
                found=f"pictures of this kind cannot be read; {hint}",
                allowed="SVG, PNG, JPEG or WebP",
            )
    for i, path in enumerate(pictures):
        first = pictures[stems.index(stems[i])]
        if first is not path:
            yield Problem(
                place=f"{shown}/{path.name}",
                found=f"it has the same name as {first.name}; give each picture a name of its own",
            )
    if len(pictures) > MAX_PICTURES:
        yield Problem(
            place=shown,
            found=f"there are {len(pictures)} pictures in the folder",
            allowed=f"at most {MAX_PICTURES}",
        )
    if not pictures:
        yield Problem(
            place=shown,
            found="there is no picture in the folder",
            allowed="at least one SVG, PNG, JPEG or WebP file",
        )


def _description(folder: Path, shown: str, keys: list[str]) -> tuple[Described, list[Problem]]:
    path = folder / "theme.toml"
    if not path.is_file():
        return Described(), []
    return read_description(path.read_bytes(), f"{shown}/theme.toml", keys)


def _motif(path: Path, theme: str, shown: str, words: MotifWords) -> Motif:
    place = f"{shown}/{path.name}"
    with path.open("rb") as file:
        data = file.read(_ENOUGH)
    if path.suffix.lower() in DRAWINGS:
        from printkit.pictures.svg import read_svg

        source: Any = read_svg(data, place)
        if words.trim:
            found = "trim is for photos and painted pictures; this is a drawing"
            raise PrintkitError([Problem(place=place, found=found, allowed="no trim")])
    else:
        from printkit.pictures.raster import read_photo

        source = read_photo(data, place, trim=words.trim)
    return Motif(
        key=path.stem,
        file=place,
        theme=theme,
        source=source,
        names=words.names,
        symmetric=words.symmetric,
        counted=words.counted,
        faces=words.faces,
    )
