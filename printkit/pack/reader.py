"""The reader: TOML -> `Pack` with every default filled in, every problem told at once."""

import tomllib
from collections.abc import Mapping
from dataclasses import fields, replace
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from printkit.checks import Check, found, is_whole, read_keys, shown
from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.files import name_fault, safe_name, same_name
from printkit.letters import Numerals, missing
from printkit.letters.own import read_own
from printkit.pack.keys import KEYS, RESERVED, child_checks, key_defaults, pack_checks, tray_checks
from printkit.pack.model import Child, ChildTrays, Flips, MaterialKeys, Pack, Tray
from printkit.pictures import Theme, load_theme
from printkit.texts import catalogue_languages
from printkit.toml_lines import key_lines
from printkit.units import PAPERS
from printkit.words import find


def read_pack(
    file: Path, materials: Mapping[str, MaterialKeys], overrides: Mapping[str, Any] | None = None
) -> Pack:
    """The pack of a file; `overrides` (from the command line) win over pack, child and tray.

    Raises PrintkitError with every problem of the file, and OSError if it cannot be read.
    """
    return pack_of(file, file.read_bytes(), materials, overrides)


def pack_of(
    file: Path,
    data: bytes,
    materials: Mapping[str, MaterialKeys],
    overrides: Mapping[str, Any] | None = None,
) -> Pack:
    """The pack that a file would be with these bytes: an edit is looked at before it is written.

    Raises PrintkitError with every problem; folders of pictures are looked for beside the file.
    """
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
    return _Reader(file, raw, key_lines(text), materials, dict(overrides or {})).pack()


class Level(NamedTuple):
    """A table that may set keys: a tray's, a child's; where it stands and whose it is."""

    table: Mapping[str, Any]
    path: tuple[str | int, ...]
    whose: str


class _Reader:
    """Reads one file; keeps what is wrong until all was looked at."""

    def __init__(
        self,
        file: Path,
        raw: dict[str, Any],
        lines: Mapping[tuple[str | int, ...], int],
        materials: Mapping[str, MaterialKeys],
        overrides: dict[str, Any],
    ):
        self.file, self.raw, self.lines = file, raw, lines
        self.materials, self.overrides = materials, overrides
        self.problems: list[Problem] = []
        self.notes: list[str] = []
        self.theme = cache(self._theme)

    def pack(self) -> Pack:
        raw = {key: value for key, value in self.raw.items() if key not in self.overrides}
        checks = pack_checks()
        values = self.read(raw, checks, (), "")
        values |= self.read_overrides(checks)
        pack_child = self.resolve(values, key_defaults(), (), "")
        if lacking := missing(values.get("title", "")):
            said = f"the title holds {shown(lacking)}, which the typeface cannot draw"
            self.say(("title",), "", said, "Latin, Greek or Cyrillic letters")
        children = self.children(values.get("children"), pack_child, raw)
        if self.problems:
            raise PrintkitError(self.problems)
        return Pack(
            title=values.get("title", self.file.stem),
            seed=values.get("seed", 0),
            guide=pack_child.guide,
            units=pack_child.units,
            paper=pack_child.paper,
            margin=pack_child.margin,
            children=tuple(children),
            notes=tuple(dict.fromkeys(self.notes)),
        )

    def read_overrides(self, checks: Mapping[str, Check]) -> dict[str, Any]:
        values, wrongs = read_keys(self.overrides, checks)
        for key, wrong in wrongs.items():
            self.problems.append(
                Problem(place=f"--{key}", found=wrong.found, allowed=wrong.allowed, nearest=wrong.nearest)
            )
        return values

    # --- children and trays ---

    def children(self, tables: Any, pack_child: Child | None, raw: dict[str, Any]) -> list[ChildTrays]:
        if tables is None:
            if "children" not in raw:
                self.say((), "", "has no children", "a table [[children]] with a name and materials")
            return []
        if not tables:
            self.say(("children",), "", "has no children", "a table [[children]] with a name and materials")
        read: list[ChildTrays] = []
        names: list[str] = []
        for number, table in enumerate(tables):
            path = ("children", number)
            whose = table.get("name") if isinstance(table.get("name"), str) else f"child {number + 1}"
            self.name(table, path, names)
            values = self.read(self.without_overrides(table), child_checks(), path, whose)
            child = self.resolve(values, pack_child, path, whose)
            if child is not None:
                self.check_languages(child, Level(table, path, whose))
            trays = self.trays(table, child, path, whose)
            if child is not None:
                read.append(ChildTrays(child=child, trays=tuple(trays)))
        return read

    def without_overrides(self, table: Mapping[str, Any]) -> dict[str, Any]:
        return {key: value for key, value in table.items() if key not in self.overrides}

    def name(self, table: Mapping[str, Any], path: tuple[str | int, ...], names: list[str]) -> None:
        name = table.get("name")
        here = (*path, "name")
        if name is None:
            self.say(path, "", "a child has no name", 'name = "..."')
            return
        if not isinstance(name, str):
            return
        fault = name_fault(name)
        if fault:
            self.say(here, "", f"{shown(name)} {fault}", "a name that can stand in the name of a file")
        elif any(same_name(name, word) for word in RESERVED):
            self.say(here, "", f"{shown(name)} is the name of one of the pack's own files", "another name")
        elif lacking := missing(name):
            self.say(
                here, "", f"{shown(name)} holds {shown(lacking)}, which the typeface cannot draw",
                "Latin, Greek or Cyrillic letters",
            )  # fmt: skip
        twin = next((other for other in names if same_name(name, other)), None)
        if twin is not None:
            said = f"{shown(twin)} and {shown(name)} would have files of one name"
            self.say(here, "", said, "names that differ in more than upper and lower case")
        names.append(name)

    def trays(
        self, table: Mapping[str, Any], child: Child | None, path: tuple[str | int, ...], whose: str
    ) -> list[Tray]:
        listed = table.get("materials")
        here = (*path, "materials")
        if not isinstance(listed, list) or not listed:
            said = "has no materials" if listed in (None, []) else found(listed)
            self.say(here if listed is not None else path, whose, said, self.materials_allowed())
            return []
        read: list[Tray] = []
        sets: list[str] = []
        for number, entry in enumerate(listed):
            tray = self.tray(entry, child, (*here, number), whose, sets)
            if tray is not None:
                read.append(tray)
        return read

    def materials_allowed(self) -> str:
        return f"a list of {listing(sorted(self.materials))}, each a word or a table with make = ..."

    def tray(
        self, entry: Any, child: Child | None, path: tuple[str | int, ...], whose: str, sets: list[str]
    ) -> Tray | None:
        table = {"make": entry} if isinstance(entry, str) else entry
        if not isinstance(table, dict) or "make" not in table:
            self.say(path, whose, found(entry), self.materials_allowed())
            return None
        material = table["make"]
        if not isinstance(material, str) or material not in self.materials:
            where = path if isinstance(entry, str) else (*path, "make")
            near = nearest(material, self.materials) if isinstance(material, str) else ""
            self.say(
                where,
                whose,
                f"there is no material {shown(material)}",
                listing(sorted(self.materials)),
                near,
            )
            return None
        known = self.materials[material]
        name = table.get("set", material)
        owner = f"{whose}'s {name}"
        own = {field.name: field.metadata["check"] for field in fields(known.settings)}
        values = self.read(self.without_overrides(table), tray_checks(own), path, owner)
        self.set_name(name, sets, path, owner, "set" in table)
        keys = {key: value for key, value in values.items() if key not in own}
        resolved = self.resolve(keys, child, path, owner)
        if resolved is None:
            return None
        if keys.keys() & {"languages", "digits", "unreviewed"}:
            above = self.raw["children"][path[1]]
            self.check_languages(resolved, Level(table, path, owner), Level(above, path[:2], whose))
        self.notes.extend(resolved.theme.notes_in(resolved.ink))
        places = [("", self.place(path, owner))]
        places += [(key, self.place((*path, key), owner)) for key in table]
        above = {**self.raw, **self.raw["children"][path[1]]}
        for key in KEYS:
            if key not in own and key not in table and key in above and key not in self.overrides:
                at = (*path[:2], key) if key in self.raw["children"][path[1]] else (key,)
                places.append((key, self.place(at, owner)))
        return Tray(
            material=material,
            set=name,
            child=resolved,
            stock=values.get("stock", known.stock),
            size=values.get("size"),
            settings=known.settings(**{key: values[key] for key in own if key in values}),
            places=tuple(places),
        )

    def set_name(
        self, name: Any, sets: list[str], path: tuple[str | int, ...], owner: str, given: bool
    ) -> None:
        if not isinstance(name, str):
            return
        here = (*path, "set") if given else path
        fault = name_fault(name)
        if fault:
            self.say(here, owner, f"{shown(name)} {fault}", "a name that can stand in the name of a file")
        elif lacking := missing(name):
            self.say(
                here, owner, f"{shown(name)} holds {shown(lacking)}, which the typeface cannot draw",
                "Latin, Greek or Cyrillic letters",
            )  # fmt: skip
        elif safe_name(name).split("-")[0] in ("card", "plain"):
            self.say(here, owner, f"{shown(name)} is the name of one of the pack's own files", "another name")
        twin = next((other for other in sets if same_name(name, other)), None)
        if twin is not None:
            said = (
                f"the set {shown(name)} occurs twice"
                if twin == name
                else f"the sets {shown(twin)} and {shown(name)} would have files of one name"
            )
            self.say(here, owner, said, 'set = "..." with a name of its own')
        sets.append(name)

    # --- resolving ---

    def resolve(
        self, values: Mapping[str, Any], above: Child | Mapping[str, Any] | None, path: Any, whose: str
    ) -> Child | None:
        """The keys of `values` laid over those `above` (a child's, or the defaults)."""
        if above is None:
            return None
        if isinstance(above, Child):
            base = {field.name: getattr(above, field.name) for field in fields(Child)}
        else:
            base = dict(above) | {
                "name": "",
                "paper_name": "a4",
                "flip": Flips(),
                "numerals": Numerals(),
                "words": (),
            }
            values = {"theme": base["theme"], "paper": base["paper"], "guide": base["guide"]} | values
        new = {key: value for key, value in values.items() if key in base}
        ok = True
        if "theme" in values:
            new["theme"] = self.theme(values["theme"], self.place((*path, "theme"), whose))
            ok = new["theme"] is not None
        if "paper" in values:
            named = isinstance(values["paper"], str)
            new["paper"] = PAPERS[values["paper"]] if named else _upright(values["paper"])
            new["paper_name"] = values["paper"] if named else "own"
        if "languages" in values:
            tags = self.languages(values["languages"], (*path, "languages"), whose)
            new["languages"] = tags or base["languages"]
        if "guide" in values:
            new["guide"] = self.guide(values["guide"], (*path, "guide"), whose)
        if "flip" in values:
            flip = values["flip"]
            stocks = {"plain": flip, "card": flip} if isinstance(flip, str) else flip
            new["flip"] = replace(base["flip"], **stocks)
        if "numerals" in values:
            new["numerals"] = replace(base["numerals"], **values["numerals"])
        if "words" in values:
            new["words"] = tuple(sorted({**dict(base["words"]), **values["words"]}.items()))
        if values.get("letters"):
            place = self.place((*path, "letters"), whose)
            strokes = self.own_letters(values["letters"], place)
            new["numerals"] = replace(new.get("numerals", base["numerals"]), strokes=strokes)
        both = base | new
        if {"languages", "digits", "numerals"} & new.keys():
            western = Numerals().digits
            native = find(both["languages"][0], "languages").digits
            digits = native if both["digits"] == "native" and native else western
            new["numerals"] = replace(both["numerals"], digits=digits)
        if "paper" in new and "units" not in new and not isinstance(above, Child):
            new["units"] = "both" if new["paper_name"] in ("letter", "legal") else "mm"
        return Child(**(base | new)) if ok else None

    def _theme(self, name: str, place: str) -> Theme | None:
        try:
            theme = load_theme(name, self.file.parent, place)
        except PrintkitError as error:
            self.problems.extend(error.problems)
            return None
        return theme

    def own_letters(self, name: str, place: str) -> tuple[tuple[str, str], ...]:
        """The stroke letters of the family's own file, relative to the pack file."""
        try:
            return read_own(self.file.parent / name, place)
        except PrintkitError as error:
            self.problems += [problem for problem in error.problems if problem not in self.problems]
            return ()

    def languages(self, tags: tuple[str, ...], path: Any, whose: str) -> tuple[str, ...]:
        known: list[str] = []
        for tag in tags:
            try:
                known.append(find(tag, self.place(path, whose)).tag)
            except PrintkitError as error:
                self.problems.extend(error.problems)
        if len(known) == 2 and known[0] == known[1]:
            self.say(path, whose, f"names {shown(known[0])} twice", "two different languages, or one")
        return tuple(known)

    def check_languages(self, child: Child, *levels: Level) -> None:
        """Words that wait for a reader need a word for it, native digits a language that has them."""
        known = [find(tag, "languages") for tag in child.languages]
        for language in known:
            if not language.reviewed and not child.unreviewed:
                said = (
                    f"{shown(language.tag)} waits for a native reader: the number words in {language.name} "
                    "are not settled"
                )
                self.say_of(
                    "languages",
                    levels,
                    said,
                    "the line unreviewed = true beside it, to print them all the same",
                )
        if child.digits == "native" and not known[0].digits:
            said = f"found 'native', but {known[0].name}, which leads, has no digits of its own"
            self.say_of("digits", levels, said, '"western", or a language that has them first, such as "ar"')

    def say_of(self, key: str, levels: tuple[Level, ...], said: str, allowed: str) -> None:
        """Tells once what is wrong with a key, where the tray, its child or the pack sets it."""
        setting = (level for level in levels if key in level.table and key not in self.overrides)
        level = next(setting, Level({}, (), ""))
        place = self.place((*level.path, key), level.whose)
        problem = Problem(place=place, found=said, allowed=allowed)
        if problem not in self.problems:
            self.problems.append(problem)

    def guide(self, tag: str, path: Any, whose: str) -> str:
        try:
            language = find(tag, self.place(path, whose))
        except PrintkitError as error:
            self.problems.extend(error.problems)
            return "en"
        if language.tag in catalogue_languages():
            return language.tag
        self.notes.append(f"The guide does not speak {language.name} yet, so it is in English.")
        return "en"

    # --- telling ---

    def read(
        self, table: Mapping[str, Any], checks: Mapping[str, Check], path: Any, whose: str
    ) -> dict[str, Any]:
        values, wrongs = read_keys(table, checks)
        for key, wrong in wrongs.items():
            self.say((*path, key), whose, wrong.found, wrong.allowed, wrong.nearest)
        return values

    def say(self, path: Any, whose: str, said: str, allowed: str = "", near: str = "") -> None:
        self.problems.append(
            Problem(place=self.place(path, whose), found=said, allowed=allowed, nearest=near)
        )

    def place(self, path: tuple[str | int, ...], whose: str) -> str:
        """'pack.toml, line 23, Juno's strips (children[1].materials[0].unknown)'."""
        key = path[0] if path and path[0] in self.overrides else ""
        if key:
            return f"--{key}"
        number = self.line(path)
        line = f", line {number}" if number else ""
        owner = f", {whose}" if whose else ""
        exact = f" ({dotted(path)})" if path else ""
        return f"{self.file.name}{line}{owner}{exact}"

    def line(self, path: tuple[str | int, ...]) -> int:
        """The line of a key, or of the nearest thing that holds it; 0 if there is none.

        A table written as `words.fr = ...` begins with the first of its own keys.
        """
        while path and path not in self.lines:
            inside = [line for known, line in self.lines.items() if known[: len(path)] == path]
            if inside:
                return min(inside)
            path = path[:-1]
        return self.lines[path] if path else 0


def _upright(paper: tuple[float, float]) -> tuple[float, float]:
    return (min(paper), max(paper))


def dotted(path: tuple[str | int, ...]) -> str:
    """children[1].materials[0].unknown"""
    text = ""
    for part in path:
        text += f"[{part}]" if is_whole(part) else f".{part}" if text else str(part)
    return text
