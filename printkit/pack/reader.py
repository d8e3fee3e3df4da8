"""The reader: TOML -> `Pack` with every default filled in, every problem told at once."""

from collections.abc import Mapping, Sequence
from dataclasses import fields
from pathlib import Path
from typing import Any

from printkit.checks import found, read_keys, shown
from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.files import name_fault
from printkit.letters import missing
from printkit.pack.family import FAMILY, Household, family_beside, read_household
from printkit.pack.keys import KEYS, WISHES, pack_checks, tray_checks
from printkit.pack.levels import Level, laid, sources
from printkit.pack.model import Child, ChildTrays, MaterialKeys, Pack, Tray, User
from printkit.pack.naming import check_name, check_set_name, twin_of
from printkit.pack.origin import Keys, Origin, origin_of
from printkit.pack.people import Group, Person, gather_groups, gather_people, shared_tables
from printkit.pack.resolving import Resolver, usual_units
from printkit.pack.sharing import in_common
from printkit.pack.starting import left_notes, rung_settings, together
from printkit.pack.told import Told


def read_pack(
    file: Path,
    materials: Mapping[str, MaterialKeys],
    overrides: Mapping[str, Any] | None = None,
    family: Path | None = None,
) -> Pack:
    """The pack of a file, laid over the family's file; `overrides` (of the command line) win over both.

    The family's file is `family`, or family.toml in the pack file's folder if there is one. Raises
    PrintkitError with every problem of the files, and OSError if one cannot be read.
    """
    return pack_of(file, file.read_bytes(), materials, overrides, family)


def pack_of(
    file: Path,
    data: bytes,
    materials: Mapping[str, MaterialKeys],
    overrides: Mapping[str, Any] | None = None,
    family: Path | None = None,
) -> Pack:
    """The pack that a file would be with these bytes: an edit is looked at before it is written.

    Raises what `read_pack` raises; the family's file and folders of pictures are looked for beside the file.
    """
    home = family or family_beside(file)
    origins: list[Origin] = []
    problems: list[Problem] = []
    for path, text in ((file, data), *([(home, home.read_bytes())] if home else [])):
        try:
            origins.append(origin_of(path, text))
        except PrintkitError as error:
            problems += error.problems
    if problems:
        raise PrintkitError(problems)
    pack, households = origins[0], origins[1:]
    if pack.name.casefold() == FAMILY and not _has_materials(pack.raw):
        said = "holds what stays from season to season, and no materials"
        raise PrintkitError([Problem(place=pack.name, found=said, allowed="the pack file of a season")])
    return _Reader(pack, households, materials, overrides or {}).pack()


def _has_materials(raw: Mapping[str, Any]) -> bool:
    children = raw.get("children")
    tables = [raw, *(children if isinstance(children, list) else [])]
    return "shared" in raw or any(isinstance(table, dict) and "materials" in table for table in tables)


class _Reader:
    """Reads a pack file over a family's; keeps what is wrong until all was looked at."""

    def __init__(
        self,
        origin: Origin,
        family: Sequence[Origin],
        materials: Mapping[str, MaterialKeys],
        overrides: Mapping[str, Any],
    ):
        self.origin, self.family, self.materials = origin, family, materials
        self.told = Told(without=overrides)
        self.resolver = Resolver(self.told, origin.folder)
        self.overrides = overrides
        self.refused: set[Keys] = set()

    def pack(self) -> Pack:
        top = self.told.level("pack", self.origin, self.origin.raw, (), "", pack_checks())
        self.command = Level(rank="command line", values=self.read_overrides())
        home = Household()
        for origin in self.family:
            home = read_household(origin, self.told)
        self.wide = (*home.top, top)
        self.units = usual_units((*self.wide, self.command))
        pack_child = self.resolver.child("", (*self.wide, self.command), self.units)
        if lacking := missing(top.values.get("title", "")):
            said = f"the title holds {shown(lacking)}, which the typeface cannot draw"
            self.told.say(self.origin.place(("title",)), said, "Latin, Greek or Cyrillic letters")
        self.check_listed("materials" in top.values, ("materials",), self.origin.raw.get("materials"))
        people, children = self.children(home, top)
        if self.told.problems or pack_child is None:
            raise PrintkitError(self.told.problems)
        return Pack(
            title=top.values.get("title", Path(self.origin.name).stem),
            seed=self.command.values.get("seed", top.values.get("seed", 0)),
            guide=pack_child.guide,
            units=pack_child.units,
            paper=pack_child.paper,
            margin=pack_child.margin,
            children=children,
            people=people,
            weeks=top.values.get("weeks", 6),
            family=home.name,
            notes=tuple(dict.fromkeys(self.told.notes)),
        )

    def read_overrides(self) -> dict[str, Any]:
        values, wrongs = read_keys(self.overrides, pack_checks())
        for key, wrong in wrongs.items():
            self.told.say(f"--{key}", wrong.found, wrong.allowed, wrong.nearest)
        return values

    # --- children and those who share ---

    def children(self, home: Household, top: Level) -> tuple[tuple[Child, ...], tuple[ChildTrays, ...]]:
        """Every single child; then those who have trays, and those who share some."""
        people = gather_people(self.origin, home, top, self.told)
        groups = gather_groups(self.origin, home, people, self.told)
        sharing = {name for group in groups for name in group.names}
        unclear = len(groups) < len(shared_tables(self.origin))
        singles: dict[str, Child] = {}
        made: list[ChildTrays] = []
        sets: dict[str, list[str]] = {}
        for person in people:
            child = self.child(person)
            if child is not None:
                singles[person.name] = child
            own = sets.setdefault(person.name, [])
            if person.listed is not None or not (person.name in sharing or unclear):
                made += self.made(person, child, own)
        names = [person.name for person in people]
        for group in groups:
            made += self.shared(group, people, singles, sets, names)
        return tuple(singles.values()), tuple(made)

    def child(self, person: Person, users: tuple[User, ...] = ()) -> Child | None:
        levels = (*person.levels, self.command)
        self.told.notes += _rungs_left(person.levels)
        child = self.resolver.child(person.name, levels, self.units, users)
        if child is not None:
            self.resolver.check_languages(child, levels)
        return child

    def made(self, person: Person, child: Child | None, sets: list[str]) -> list[ChildTrays]:
        """What is made for someone; nothing if that is not clear."""
        trays = self.trays(person, child, sets)
        if child is None or not trays:
            return []
        said = laid((*person.levels, self.command))
        wishes = self.wishes(person, [tray.set for tray in trays])
        return [ChildTrays(child=child, trays=tuple(trays), sources=sources(said), **wishes)]

    def wishes(self, person: Person, sets: list[str]) -> dict[str, tuple[str, ...]]:
        """The sets that `keep`, `skip` and `again` name; one that is none of these is told."""
        wishes: dict[str, tuple[str, ...]] = {}
        for level in (level for level in person.levels if level.rank in ("child", "shared")):
            for key, names in ((key, level.values[key]) for key in WISHES if key in level.values):
                wishes[key] = names
                for name in (name for name in names if twin_of(name, sets) is None):
                    said = f"there is no set {shown(name)} among {person.name}'s trays"
                    self.told.say(level.place(key), said, listing(sets), nearest(name, sets))
        return wishes

    def shared(
        self,
        group: Group,
        people: Sequence[Person],
        singles: Mapping[str, Child],
        sets: Mapping[str, list[str]],
        names: list[str],
    ) -> list[ChildTrays]:
        """The trays that several children share."""
        name, path, table = group.name, group.level.path, group.table
        place = self.origin.place((*path, "name") if "name" in table else path)
        if "name" not in table and name_fault(name):
            self.told.say(place, "the names are too long together", 'name = "..." in this table')
        else:
            check_name(self.told, place, name)
        twin = twin_of(name, names)
        if twin is not None:
            said = f"{shown(twin)} and {shown(name)} would have files of one name"
            self.told.say(place, said, 'name = "..." with a name of its own')
        names.append(name)
        if any(who not in singles for who in group.names):
            return []
        levels = {person.name: person.levels for person in people}
        each = [laid((*levels[who], self.command)) for who in group.names]
        common = in_common(group.names, each, laid((*self.wide, self.command)))
        users = tuple(User(name=who, numbers=singles[who].numbers) for who in group.names)
        person = Person(
            name=name,
            levels=(*self.wide, *common, group.level),
            listed=table.get("materials"),
            here=(*path, "materials"),
            path=path,
        )
        made = self.made(person, self.child(person, users), [])
        for tray in (tray for item in made for tray in item.trays):
            having = [who for who in group.names if twin_of(tray.set, sets[who]) is not None]
            if having:
                verb = "have" if len(having) > 1 else "has"
                said = f"{listing(having, 'and')} {verb} a set {shown(tray.set)} too"
                self.told.say(tray.place("set"), said, 'set = "..." with a name of its own')
            for who in group.names:
                sets[who].append(tray.set)
        return made

    # --- trays ---

    def trays(self, person: Person, child: Child | None, sets: list[str]) -> list[Tray]:
        listed, here = person.listed, person.here
        if listed is None:
            place = self.origin.place(person.path, person.name)
            self.told.say(place, "has no materials", self.materials_allowed())
            return []
        if not self.check_listed(True, here, listed, "" if here == ("materials",) else person.name):
            return []
        if here in self.refused:
            return []  # the same list was told for another child
        before = len(self.told.problems)
        read = [self.tray(entry, child, person, (*here, n), sets) for n, entry in enumerate(listed)]
        if len(self.told.problems) > before:
            self.refused.add(here)
        return [tray for tray in read if tray is not None]

    def check_listed(self, given: bool, here: Keys, listed: Any, whose: str = "") -> bool:
        """Whether materials, if they are given, are a list of some; told if not."""
        wrong = given and (not isinstance(listed, list) or not listed)
        if wrong:
            said = "has no materials" if listed == [] else found(listed)
            self.told.say(self.origin.place(here, whose), said, self.materials_allowed())
        return not wrong

    def materials_allowed(self) -> str:
        return f"a list of {listing(sorted(self.materials))}, each a word or a table with make = ..."

    def tray(
        self, entry: Any, child: Child | None, person: Person, path: Keys, sets: list[str]
    ) -> Tray | None:
        whose = person.name
        table = {"make": entry} if isinstance(entry, str) else entry
        if not isinstance(table, dict) or "make" not in table:
            self.told.say(self.origin.place(path, whose), found(entry), self.materials_allowed())
            return None
        material = table["make"]
        if not isinstance(material, str) or material not in self.materials:
            where = path if isinstance(entry, str) else (*path, "make")
            near = nearest(material, self.materials) if isinstance(material, str) else ""
            said = f"there is no material {shown(material)}"
            self.told.say(self.origin.place(where, whose), said, listing(sorted(self.materials)), near)
            return None
        known = self.materials[material]
        name = table.get("set", material)
        owner = f"{whose}'s {name}"
        own = {field.name: field.metadata["check"] for field in fields(known.settings)}
        values = self.told.level("tray", self.origin, table, path, owner, tray_checks(own)).values
        at = (*path, "set") if "set" in table else path
        check_set_name(self.told, self.origin.place(at, owner), name, sets)
        keys = {key: value for key, value in values.items() if key in KEYS and key not in own}
        level = Level(rank="tray", values=keys, origin=self.origin, path=path, whose=owner)
        levels = (*person.levels, level, self.command)
        resolved = None if child is None else self.resolver.child(whose, levels, self.units, child.users)
        if resolved is None:
            return None
        if keys.keys() & {"languages", "digits", "unreviewed"}:
            self.resolver.check_languages(resolved, levels)
        self.told.notes.extend(resolved.theme.notes_in(resolved.ink))
        said = laid(levels)
        given = rung_settings(resolved.start, material, resolved, values.keys())
        places = {"": self.origin.place(path, owner)} | {
            key: said["start"].place(owner) for key in given
        }
        places |= {
            key: word.place(owner)
            for key, word in said.items()
            if key not in own and word.level.rank != "children"
        }
        places |= {key: self.origin.place((*path, key), owner) for key in table if key not in places}
        return Tray(
            material=material,
            set=name,
            child=resolved,
            stock=values.get("stock", known.stock),
            size=values.get("size"),
            settings=known.settings(**(given | {key: values[key] for key in own if key in values})),
            places=tuple(places.items()),
            sources=sources(said, "tray"),
        )


def _rungs_left(levels: Sequence[Level]) -> list[str]:
    """A note for each key that a level writes otherwise than the rung has it that holds there."""
    notes: list[str] = []
    start: tuple[str, ...] = ()
    for level in levels:
        start = together(start, level.values.get("start", ()))
        whose = "the family" if level.rank == "family" else level.whose
        if level.rank != "children":
            notes += left_notes(start, level.values, whose)
    return notes
