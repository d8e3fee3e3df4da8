"""Levels of words -> a child with every key resolved."""

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path

from printkit.checks import shown
from printkit.errors import PrintkitError
from printkit.letters import Numerals
from printkit.letters.own import read_own
from printkit.pack.keys import key_defaults
from printkit.pack.levels import Level, Said, laid
from printkit.pack.model import Child, Flips, User
from printkit.pack.told import Told
from printkit.pictures import Theme, load_theme
from printkit.texts import Note, catalogue_languages
from printkit.units import PAPERS
from printkit.words import find


class Resolver:
    """Makes children of levels; `folder` is where a theme of the command line is looked for."""

    def __init__(self, told: Told, folder: Path):
        self.told, self.folder = told, folder
        self.theme, self.letters = cache(self._theme), cache(self._letters)

    def child(
        self, name: str, levels: Sequence[Level], units: str, users: tuple[User, ...] = ()
    ) -> Child | None:
        """The child as the levels, the weakest first, say it; None if its theme cannot be had.

        `units` are those of a pack that names none.
        """
        said = laid(levels)
        values = key_defaults() | {key: word.value for key, word in said.items()}
        theme = self.theme(values["theme"], self.base(said, "theme"), _place(said, "theme"))
        languages = self.languages(values["languages"], _place(said, "languages"))
        paper, named = values["paper"], isinstance(values["paper"], str)
        strokes = ()
        if values["letters"]:
            strokes = self.letters(
                values["letters"], self.base(said, "letters"), _place(said, "letters")
            )
        native = find(languages[0], "languages").digits if values["digits"] == "native" else ""
        values |= {
            "name": name,
            "users": users,
            "theme": theme,
            "languages": languages,
            "paper": PAPERS[paper] if named else (min(paper), max(paper)),
            "paper_name": paper if named else "own",
            "guide": self.guide(values["guide"], _place(said, "guide")),
            "units": values["units"] or units,
            "flip": Flips(**values["flip"]),
            "words": tuple(sorted(values["words"].items())),
            "numerals": Numerals(
                **values["numerals"], strokes=strokes, digits=native or Numerals().digits
            ),
        }
        return Child(**values) if theme is not None else None

    def base(self, said: Mapping[str, Said], key: str) -> Path:
        """The folder in which a path that a key names begins: that of the file it stands in."""
        origin = said[key].level.origin if key in said else None
        return origin.folder if origin is not None else self.folder

    def _theme(self, name: str, base: Path, place: str) -> Theme | None:
        try:
            return load_theme(name, base, place)
        except PrintkitError as error:
            self.told.add(*error.problems)
            return None

    def _letters(self, name: str, base: Path, place: str) -> tuple[tuple[str, str], ...]:
        try:
            return read_own(base / name, place)
        except PrintkitError as error:
            self.told.add(*error.problems)
            return ()

    def languages(self, tags: tuple[str, ...], place: str) -> tuple[str, ...]:
        """The tags as the table of languages writes them; English if none is known."""
        known: list[str] = []
        for tag in tags:
            try:
                known.append(find(tag, place).tag)
            except PrintkitError as error:
                self.told.add(*error.problems)
        if len(known) == 2 and known[0] == known[1]:
            self.told.say(place, f"names {shown(known[0])} twice", "two different languages, or one")
        return tuple(known) or ("en",)

    def guide(self, tag: str, place: str) -> str:
        """The guide's language, or English if the guide does not speak it."""
        try:
            language = find(tag, place)
        except PrintkitError as error:
            self.told.add(*error.problems)
            return "en"
        if language.tag in catalogue_languages():
            return language.tag
        self.told.notes.append(Note("notes.guide_language", language=language.name))
        return "en"

    def check_languages(self, child: Child, levels: Sequence[Level]) -> None:
        """Words that wait for a reader need a word for it, native digits a language that has them."""
        known = [find(tag, "languages") for tag in child.languages]
        for language in known:
            if not language.reviewed and not child.unreviewed:
                said = (
                    f"{shown(language.tag)} waits for a native reader: the number words in {language.name} "
                    "are not settled"
                )
                allowed = "the line unreviewed = true beside it, to print them all the same"
                self.told.say(_place(laid(levels), "languages"), said, allowed)
        if child.digits == "native" and not known[0].digits:
            said = f"found 'native', but {known[0].name}, which leads, has no digits of its own"
            allowed = '"western", or a language that has them first, such as "ar"'
            self.told.say(_place(laid(levels), "digits"), said, allowed)


def usual_units(wide: Sequence[Level]) -> str:
    """The guide's units where no level sets them: both on letter and legal, the papers of inches.

    `wide` are the levels that speak for the whole pack.
    """
    said = laid(wide)
    paper = said["paper"].value if "paper" in said else "a4"
    return "both" if paper in ("letter", "legal") else "mm"


def _place(said: Mapping[str, Said], key: str) -> str:
    return said[key].place() if key in said else key
