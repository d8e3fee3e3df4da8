"""theme.toml -> titles, colors and names, with everything wrong in it told at once."""

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from printkit.errors import Problem, listing, nearest
from printkit.pictures.colors import from_hex
from printkit.pictures.motifs import Name
from printkit.pictures.plurals import CATEGORIES, WITHOUT_OTHER
from printkit.pieces import Color

SEASONS = ("spring", "summer", "autumn", "winter")
GENDERS = ("m", "f", "n", "c")

# A calm gray-blue, for themes that name no accent.
CALM: Color = (0.3608, 0.4706, 0.549)

_TOP_KEYS = ("title", "season", "accent", "palette", "motifs")
_MOTIF_KEYS = ("names", "symmetric", "counted", "faces", "trim")
FACES = ("left", "right")
_NAME_KEYS = (*CATEGORIES, "gender")


@dataclass(frozen=True, kw_only=True, slots=True)
class MotifWords:
    """What theme.toml says of one motif.

    `counted` is false where the picture shows several things, such as a nest with eggs, so that it is
    no thing to count; `faces` is 'left' or 'right' for what could travel that way, else ''; `trim`
    makes a photo's plain ground transparent.
    """

    names: tuple[tuple[str, Name], ...] = ()
    symmetric: bool | None = None
    counted: bool = True
    faces: str = ""
    trim: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Described:
    """What theme.toml says; the defaults are those of a folder without one."""

    titles: tuple[tuple[str, str], ...] = ()
    season: str = ""
    accent: Color = CALM
    palette: tuple[tuple[str, Color], ...] = ()
    motifs: tuple[tuple[str, MotifWords], ...] = ()

    def motif(self, key: str) -> MotifWords:
        """What is said of a motif; nothing if it is not named."""
        return dict(self.motifs).get(key, MotifWords())


def read_description(data: bytes, place: str, keys: list[str]) -> tuple[Described, list[Problem]]:
    """The content of a theme.toml, and its problems; `keys` are the names of the pictures there are."""
    try:
        table = tomllib.loads(data.decode("utf-8-sig"))
    except UnicodeDecodeError:
        return Described(), [Problem(place=place, found="the file is not in UTF-8; save it as UTF-8")]
    except (ValueError, RecursionError) as error:
        return Described(), [Problem(place=place, found=f"this is not TOML: {_uncapitalized(error)}")]
    return _Reading(place=place, problems=[]).everything(table, keys)


def _uncapitalized(error: Exception) -> str:
    text = str(error)
    return text[:1].lower() + text[1:]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Reading:
    """Reads one table after the other, gathering problems."""

    place: str
    problems: list[Problem]

    def everything(self, table: dict[str, Any], keys: list[str]) -> tuple[Described, list[Problem]]:
        self.known(table, _TOP_KEYS, "")
        described = Described(
            titles=self.titles(table.get("title", {})),
            season=self.word(table.get("season", ""), ("", *SEASONS), "season"),
            accent=self.color(table.get("accent"), "accent") or CALM,
            palette=self.palette(table.get("palette", {})),
            motifs=self.motifs(table.get("motifs", {}), keys),
        )
        return described, self.problems

    def wrong(self, path: str, found: str, allowed: str = "", near: str = "") -> None:
        place = f"{self.place}, {path}" if path else self.place
        self.problems.append(Problem(place=place, found=found, allowed=allowed, nearest=near))

    def known(self, table: dict[str, Any], allowed: Iterable[str], path: str) -> None:
        for key in table:
            if key not in allowed:
                self.wrong(path, f"unknown key '{key}'", listing(allowed), nearest(key, allowed))

    def table(self, value: Any, path: str, what: str) -> dict[str, Any]:
        if isinstance(value, dict):
            return value
        self.wrong(path, f"{_shown(value)} is not a table", what)
        return {}

    def text(self, value: Any, path: str) -> str:
        if isinstance(value, str) and value.strip():
            return value.strip()
        self.wrong(path, f"{_shown(value)} is not a word", "a text in quotes")
        return ""

    def word(self, value: Any, allowed: tuple[str, ...], path: str) -> str:
        if isinstance(value, str) and value in allowed:
            return value
        words = [word for word in allowed if word]
        near = nearest(value, words) if isinstance(value, str) else ""
        self.wrong(path, f"{_shown(value)} is not known here", listing(words), near)
        return ""

    def titles(self, value: Any) -> tuple[tuple[str, str], ...]:
        if isinstance(value, str):
            return (("en", self.text(value, "title")),)
        table = self.table(value, "title", 'one text a language, such as { en = "Rock pool" }')
        return tuple((tag, self.text(title, f"title.{tag}")) for tag, title in table.items())

    def palette(self, value: Any) -> tuple[tuple[str, Color], ...]:
        table = self.table(value, "palette", 'one color a name, such as sand = "#e8cf9f"')
        read = ((name, self.color(color, f"palette.{name}")) for name, color in table.items())
        return tuple((name, color) for name, color in read if color is not None)

    def color(self, value: Any, path: str) -> Color | None:
        if value is None:
            return None
        found = from_hex(value) if isinstance(value, str) else None
        if found is None or found[1] < 1:
            self.wrong(path, f"{_shown(value)} is not a color", "six digits such as '#2f6f8f'")
            return None
        return found[0]

    def motifs(self, value: Any, keys: list[str]) -> tuple[tuple[str, MotifWords], ...]:
        table = self.table(value, "motifs", "one table a picture, such as [motifs.crab]")
        for key in table:
            if key not in keys:
                self.wrong(
                    f"motifs.{key}",
                    "there is no picture of that name",
                    listing(keys),
                    nearest(key, keys),
                )
        return tuple((key, self.motif(words, f"motifs.{key}")) for key, words in table.items())

    def motif(self, value: Any, path: str) -> MotifWords:
        table = self.table(value, path, "a table with names, symmetric, counted, faces and trim")
        self.known(table, _MOTIF_KEYS, path)
        symmetric = self.truth(table, "symmetric", path)
        counted = self.truth(table, "counted", path)
        faces = self.word(table.get("faces", ""), ("", *FACES), f"{path}.faces")
        trim = self.truth(table, "trim", path)
        path = f"{path}.names"
        names = self.table(table.get("names", {}), path, "one entry a language")
        return MotifWords(
            names=tuple((tag, self.name(name, f"{path}.{tag}")) for tag, name in names.items()),
            symmetric=symmetric,
            counted=counted is not False,
            faces=faces,
            trim=bool(trim),
        )

    def truth(self, table: dict[str, Any], key: str, path: str) -> bool | None:
        value = table.get(key)
        if value is None or isinstance(value, bool):
            return value
        self.wrong(f"{path}.{key}", f"{_shown(value)} is not known here", "true or false")
        return None

    def name(self, value: Any, path: str) -> Name:
        if isinstance(value, str):
            return Name(forms=(("other", self.text(value, path)),))
        table = self.table(value, path, 'forms such as { one = "crab", other = "crabs" }')
        self.known(table, _NAME_KEYS, path)
        whole = path.rpartition(".")[2].partition("-")[0] in WITHOUT_OTHER and "many" in table
        if isinstance(value, dict) and "other" not in table and not whole:
            self.wrong(path, "the form 'other' is missing", listing(CATEGORIES))
        gender = self.word(table.get("gender", ""), ("", *GENDERS), f"{path}.gender")
        forms = ((form, self.text(table[form], f"{path}.{form}")) for form in CATEGORIES if form in table)
        return Name(forms=tuple(forms) or (("other", ""),), gender=gender)


def _shown(value: Any) -> str:
    """A value as the file has it, for sentences."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    return f"'{value}'" if isinstance(value, str) else str(value)
