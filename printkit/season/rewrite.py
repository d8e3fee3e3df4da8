"""Proposals laid into a pack file that is held as a document with its layout."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from printkit.climbing import Proposal, remark
from printkit.climbing.moving import BY_THE_WAY, Changes, changes
from printkit.climbing.places import Kinds, place_of_tray
from printkit.files import name_fault, same_name
from printkit.pack import Child, Pack, Tray
from printkit.season import shelves
from printkit.season.shelves import Table
from printkit.texts import Catalogue

_RANGES = ("numbers", "sums_to", "lookalike")
_TOTALS = ("part-whole", "place-mats")
"""Materials whose whole follows the numbers where no sums are set."""
_UNNAMED = BY_THE_WAY | {"arrange", "fill", "field", "known", "fade", "help"}
"""Settings that the name a family gave a tray hardly tells of."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Rewriting:
    """What a rewriting goes by: the pack as it was, and the words to say it with."""

    pack: Pack
    kinds: Kinds
    words: Catalogue

    @property
    def mark(self) -> str:
        return self.words.say("next.file.mark")


def rewrite(document: Table, proposals: Iterable[Proposal], by: Rewriting) -> list[str]:
    """Changes the document child by child; what was left as it was, and why, as sentences."""
    notes: list[str] = []
    given = list(proposals)
    for table in document.get("children", []):
        shelves.clear_remarks(table, by.mark)
    for person in by.pack.people:
        own = [each for each in given if each.child == person.name]
        notes += _Shelf(document, person, by).follow(own)
    return notes


class _Shelf:
    """One child's part of the document while it is changed."""

    def __init__(self, document: Table, person: Child, by: Rewriting):
        self.document, self.person, self.by = document, person, by
        item = next((each for each in by.pack.children if same_name(each.child.name, person.name)), None)
        self.item = item
        self.trays = list(item.trays) if item else []
        self.entries = shelves.read_trays(document, person.name) if item else []
        self.materials = {tray.material for tray in by.pack.trays_of(person.name)}
        self.renamed: dict[str, str] = {}
        self.notes: list[str] = []

    def follow(self, proposals: Sequence[Proposal]) -> list[str]:
        for proposal in proposals:
            mine = [tray for name in proposal.sets if (tray := self.tray(name)) is not None]
            for name in proposal.again:
                self.repeat(name, proposal)
            match proposal.move:
                case "widen" | "step-up" | "step-back":
                    self.move(proposal, mine)
                case "rest":
                    for tray in mine:
                        self.leave_out(tray)
                case "return":
                    self.bring_back(proposal)
                case _ if proposal.change == "material":
                    for tray in mine:
                        self.other_material(tray)
                case _ if proposal.change == "theme":
                    for tray in mine:
                        self.change(tray, {}, ["theme"])
        for old, new in self.renamed.items():
            listed = self.listed()
            at = shelves.place_of(listed, old)
            named = {} if new == shelves.as_table(listed[at])["make"] else {"set": new}
            shelves.change(listed, at, named, ["set"])
        return self.notes

    def tray(self, name: str) -> Tray | None:
        """The child's own tray of that name; None for one that is shared or gone."""
        return next((tray for tray in self.trays if same_name(tray.set, name)), None)

    def entry(self, tray: Tray) -> dict[str, Any]:
        """The tray as the file of the last season has it."""
        return next(entry for entry in self.entries if same_name(shelves.set_of(entry), tray.set))

    def listed(self) -> Any:
        return shelves.trays_of(self.document, self.person.name)

    def change(self, tray: Tray, new: Mapping[str, Any], dropped: Iterable[str] = ()) -> None:
        entry = self.entry(tray)
        going = [key for key in dropped if key in entry]
        if new or going:
            listed = self.listed()
            plain = {key: shelves.written(value) for key, value in new.items()}
            shelves.change(listed, shelves.place_of(listed, tray.set), plain, going)

    # --- on another rung ---

    def move(self, proposal: Proposal, mine: Sequence[Tray]) -> None:
        to = proposal.to
        if to is None:
            return
        if self.starts_anew(proposal, mine):
            return
        moves = {tray.set: changes(tray, proposal.at, to) for tray in mine}
        keys = {key: value for moved in moves.values() for key, value in moved.keys}
        if not mine:  # all of them are shared: their numbers follow the child's own
            old = dict(proposal.at.keys) if proposal.at else {}
            keys = {key: value for key, value in to.keys if old.get(key) != value}
        of_child = [key for key in keys if self.holds_for_all(key, mine, proposal.track)]
        for key in of_child:
            self.put(key, keys[key], proposal)
        for tray in mine:
            self.carry(tray, moves[tray.set], of_child)

    def holds_for_all(self, key: str, mine: Sequence[Tray], track: str) -> bool:
        """Whether every tray of the ladder that takes this key from the child goes to the new value."""
        others = [
            tray
            for tray in self.trays
            if key not in self.entry(tray) and self.climbs(tray, track) and not self.is_wished(tray)
        ]
        takers = [tray for tray in mine if key not in self.entry(tray)]
        return (bool(takers) or not mine) and all(any(tray is each for each in mine) for tray in others)

    def climbs(self, tray: Tray, track: str) -> bool:
        place = place_of_tray(tray, self.person, self.by.kinds)
        return place is not None and place.track == track

    def is_wished(self, tray: Tray) -> bool:
        item = self.item
        names = (*item.keep, *item.skip, *item.again) if item else ()
        return any(same_name(name, tray.set) for name in names)

    def put(self, key: str, value: Any, proposal: Proposal) -> None:
        """A key of the child; what must not follow it is held where it was."""
        for tray in self.trays:
            if key in self.entry(tray):
                continue
            if self.is_wished(tray) and self.climbs(tray, proposal.track):
                self.change(tray, {key: getattr(tray.child, key)})
            if key == "numbers" and tray.material in _TOTALS and tray.child.sums_to is None:
                whole = max(2, min(10, tray.child.numbers[1]))
                if "total" not in self.entry(tray):
                    self.change(tray, {"total": whole})
        table = shelves.made_child_table(self.document, self.person.name)
        shelves.put(table, key, shelves.written(value))
        shelves.remark(table, key, remark(proposal, self.by.words), self.by.mark)

    def carry(self, tray: Tray, moved: Changes, of_child: Sequence[str]) -> None:
        """A tray's own keys and settings; a name that told of the old task goes."""
        entry = self.entry(tray)
        keys = {key: value for key, value in moved.keys if key not in of_child or key in entry}
        if "set" in entry and any(key not in _UNNAMED for key, _ in moved.settings):
            taken = [each.set for each in self.by.pack.trays_of(self.person.name) if each is not tray]
            self.renamed[tray.set] = _fresh_name(tray.material, [*taken, *self.renamed.values()])
        self.change(tray, keys | dict(moved.settings), moved.dropped)

    def starts_anew(self, proposal: Proposal, mine: Sequence[Tray]) -> bool:
        """A child that starts on a rung by name starts on the new one, if that is all there is to say.

        That is so where all its trays of the ladder go, and none has keys or settings of its own there.
        """
        table = shelves.child_table(self.document, self.person.name)
        names = list(getattr(self.person, "start", ()))
        at, to = proposal.at, proposal.to
        if table is None or "start" not in table or at is None or to is None or at.name not in names:
            return False
        keys = {key for each in (at, to) for key, _ in each.keys}
        ours = [tray for tray in self.trays if self.climbs(tray, proposal.track)]
        told = [
            key
            for tray in ours
            for key in self.entry(tray)
            if key in keys or key in at.of(tray.material) or key in to.of(tray.material)
        ]
        if told or keys & table.keys() or any(all(tray is not each for each in mine) for tray in ours):
            return False
        fresh = [to.name if name == at.name else name for name in names]
        shelves.put(table, "start", fresh if len(fresh) > 1 else fresh[0])
        shelves.remark(table, "start", remark(proposal, self.by.words), self.by.mark)
        return True

    # --- away, back, again ---

    def leave_out(self, tray: Tray) -> None:
        listed = self.listed()
        if len(listed) == 1:
            self.say("alone", tray)
            return
        del listed[shelves.place_of(listed, tray.set)]
        self.trays = [each for each in self.trays if each is not tray]
        table = shelves.child_table(self.document, self.person.name)
        for key in ("keep", "skip", "again"):
            if table is None or key not in table:
                continue
            left = [name for name in table[key].unwrap() if not same_name(name, tray.set)]
            if left:
                table[key] = left
            else:
                del table[key]

    def repeat(self, name: str, proposal: Proposal) -> None:
        """The tray stays as it is, to be repeated: under its own name, or as a copy beside the new one."""
        tray = self.tray(name)
        if tray is None:
            return
        if proposal.move != "stay":
            fresh = self.by.words.say("next.again", set=tray.set)
            taken = [each.set for each in self.by.pack.trays_of(self.person.name)]
            if name_fault(fresh) or any(same_name(fresh, each) for each in taken):
                return
            held = {key: value for key in _RANGES if (value := self.held(tray, key, proposal)) is not None}
            entry = self.held_settings(tray, proposal) | self.entry(tray) | {"set": fresh} | held
            listed = self.listed()
            shelves.insert(listed, shelves.place_of(listed, tray.set) + 1, entry)
            name = fresh
        table = shelves.made_child_table(self.document, self.person.name)
        known = table["again"].unwrap() if "again" in table else []
        shelves.put(table, "again", [*known, name])

    def held(self, tray: Tray, key: str, proposal: Proposal) -> Any:
        """A key that the copy must hold, as the child's own is about to change."""
        moved = dict(proposal.to.keys) if proposal.to else {}
        value = getattr(tray.child, key)
        return shelves.written(value) if key in moved and key not in self.entry(tray) else None

    def held_settings(self, tray: Tray, proposal: Proposal) -> dict[str, Any]:
        """Settings that the copy has from the rung its child starts on, which is about to change."""
        if proposal.at is None or not getattr(self.person, "start", ()):
            return {}
        entry = {"make": tray.material}
        given = proposal.at.of(tray.material)
        known = self.by.kinds[tray.material].settings.__dataclass_fields__
        return entry | {
            key: shelves.written(value)
            for key, value in given.items()
            if key in known and getattr(tray.settings, key) == value
        }

    def bring_back(self, proposal: Proposal) -> None:
        played = dict(proposal.played)
        kind = self.by.kinds[played["make"]]
        known = set(kind.settings.__dataclass_fields__) | {"numbers", "sums_to", "lookalike"}
        own = {
            key: shelves.written(value)
            for key, value in played.items()
            if key in known and key not in ("motif", "motifs") and getattr(self.person, key, None) != value
        }
        name = proposal.sets[0]
        named = {} if name == played["make"] else {"set": name}
        listed = self.listed()
        shelves.insert(listed, len(listed), {"make": played["make"]} | named | own)

    def other_material(self, tray: Tray) -> None:
        """Another material of the same ladder that the child does not have yet."""
        place = place_of_tray(tray, self.person, self.by.kinds)
        named = {name for name, _ in place.rung.settings} if place and place.rung else set()
        if place is None:
            return
        taken = self.materials | {"tiles"}  # tiles are of no use without their strips
        others = [
            name for name, kind in self.by.kinds.items() if kind.track == place.track and name not in taken
        ]
        keyed = place.rung is not None and bool(place.rung.keys)
        fit = [name for name in others if name in named] or (others if keyed else [])
        if not fit:
            return
        settings = place.rung.of(fit[0]) if place.rung else {}
        known = self.by.kinds[fit[0]].settings.__dataclass_fields__
        entry = self.entry(tray)
        new = {key: value for key, value in settings.items() if key in known} | {"make": fit[0]}
        self.change(tray, new, [key for key in entry if key not in ("make", *_RANGES)])
        self.materials.add(fit[0])
        self.trays = [each for each in self.trays if each is not tray]

    def say(self, key: str, tray: Tray) -> None:
        self.notes.append(self.by.words.say(f"next.file.{key}", child=self.person.name, set=tray.set))


def _fresh_name(material: str, taken: Sequence[str]) -> str:
    """The material's name, or 'strips 2' where another set of the child has that name."""
    numbered = (f"{material} {number}" for number in range(2, len(taken) + 3))
    return next(name for name in (material, *numbered) if not any(same_name(name, each) for each in taken))
