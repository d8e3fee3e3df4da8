"""Pack and journal -> what to put out next for each child; pure: no file, no clock.

Each tray climbs by what was seen of it; trays on the same rung of a ladder go together unless what was
seen of them speaks against it. On one ladder at most one
rung is new at a time: where several trays could climb to different new ones, those that were sure on
more days go first.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from printkit.climbing.model import Move, Proposal
from printkit.climbing.moving import changes, same_task
from printkit.climbing.places import Kinds, Place, place_of_tray, seen_in
from printkit.climbing.rule import CHOSEN_DAYS, REST_WEEKS, Seen, Verdict, days_of, judge
from printkit.files import same_name
from printkit.journal import Entry
from printkit.ladder import Rung, after, before, rungs, tracks
from printkit.pack import Child, ChildTrays, Pack, Tray

_WIDER = ("numbers", "sums_to")
"""Keys whose change widens what is practiced; any other step is a step up."""
_SURE = ("sure", "sure-there", "sure-at-last")
_COMES_BACK = ("hard-at-first", "unused-still")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Group:
    """Trays of a child on one rung, and all that was seen of them and of trays that are gone."""

    place: Place
    trays: tuple[Tray, ...]
    seen: tuple[Seen, ...]
    verdict: Verdict
    to: Rung | None

    @property
    def target(self) -> int:
        return Place(track=self.place.track, rung=self.to).level

    @property
    def sets(self) -> tuple[str, ...]:
        return tuple(tray.set for tray in self.trays)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Shelved:
    """A tray on a child's shelf, its own or shared: where it stands, and the adult's word for it."""

    tray: Tray
    place: Place | None
    wish: str


def propose(pack: Pack, entries: Iterable[Entry], kinds: Kinds, today: date) -> tuple[Proposal, ...]:
    """What comes next for each child and ladder. Notes after `today` are not counted."""
    past = [entry for entry in entries if entry.on <= today]
    return tuple(
        proposal
        for person in pack.people
        for proposal in _for_child(
            person,
            _shelf(pack, person, kinds),
            [entry for entry in past if same_name(entry.child, person.name)],
            kinds,
            today,
        )
    )


def _shelf(pack: Pack, person: Child, kinds: Kinds) -> list[_Shelved]:
    mine = pack.trays_of(person.name)
    return [
        _Shelved(tray=tray, place=place_of_tray(tray, person, kinds), wish=_wish(item, tray))
        for item in pack.children
        for tray in item.trays
        if any(tray is each for each in mine)
    ]


def _for_child(
    person: Child, shelf: Sequence[_Shelved], entries: Sequence[Entry], kinds: Kinds, today: date
) -> Iterable[Proposal]:
    name, trays = person.name, [each.tray for each in shelf]
    placed = [(entry, seen_in(entry, trays, person, kinds)) for entry in entries]
    for track in tracks():
        notes = [(entry, seen[1]) for entry, seen in placed if seen and seen[0] == track]
        seen = [note for _, note in notes]
        own = [each for each in shelf if each.place is not None and each.place.track == track]
        yield from (_proposal(name, group) for group in _one_new_rung(_groups(own, seen), notes))
        for each in own:
            if each.wish:
                yield _wished(name, each.tray, each.place, each.wish, seen)
        if not own and notes:
            yield from _resting(name, track, notes, today)


# --- trays on one rung -----------------------------------------------------------------------


def _groups(own: Sequence[_Shelved], seen: Sequence[Seen]) -> list[_Group]:
    """The trays that climb, those of one rung and one verdict together, from the highest rung down."""
    notes = _Notes(
        notes=tuple(seen),
        trays=tuple(each.tray for each in own),
        places=tuple(each.place for each in own if each.place),
    )
    places = {each.place.level: each.place for each in own if each.place and not each.wish}
    made: list[_Group] = []
    for level in sorted(places, reverse=True):
        climbing = [
            each.tray for each in own if not each.wish and each.place and each.place.level == level
        ]
        made += _on_one_rung(climbing, places[level], notes)
    return made


@dataclass(frozen=True, kw_only=True, slots=True)
class _Notes:
    """A child's notes on one ladder, and all trays that the child has there now."""

    notes: tuple[Seen, ...]
    trays: tuple[Tray, ...]
    places: tuple[Place, ...]

    def about(self, trays: Iterable[Tray]) -> tuple[Seen, ...]:
        """The notes about these trays, and about those that are gone."""
        own = [tray.set for tray in trays]
        others = [tray.set for tray in self.trays if tray.set not in own]
        return tuple(
            note for note in self.notes if not any(same_name(note.set, name) for name in others)
        )


def _on_one_rung(trays: Sequence[Tray], place: Place, notes: _Notes) -> Iterable[_Group]:
    """Each tray by its own notes where they decide; else all that are left by their notes together.

    Of those that are still undecided, a tray goes along with the others if its own notes do not speak
    against it.
    """
    verdicts = {tray.set: _verdict([tray], place, notes) for tray in trays}
    open_ones = [tray for tray in trays if verdicts[tray.set].move == "stay"]
    pooled = _verdict(open_ones, place, notes) if len(open_ones) > 1 else Verdict(move="stay", reason="")
    moves = {verdict.move: verdict for verdict in verdicts.values()}
    for tray in open_ones:
        own = verdicts[tray.set]
        if pooled.move != "stay":
            verdicts[tray.set] = pooled
        elif "up" in moves and "back" not in moves and own.reason in ("no-note", "sure-once"):
            verdicts[tray.set] = moves["up"]
        elif "back" in moves and "up" not in moves and own.reason == "no-note":
            verdicts[tray.set] = moves["back"]
    for tray in trays:
        verdicts[tray.set] = _unless_there(tray, verdicts[tray.set], place, notes)
    kinds = dict.fromkeys((each.move, each.reason, each.change) for each in verdicts.values())
    for kind in kinds:
        alike = {
            name: each for name, each in verdicts.items() if (each.move, each.reason, each.change) == kind
        }
        yield _group(tuple(tray for tray in trays if tray.set in alike), place, notes, alike.values())


def _unless_there(tray: Tray, verdict: Verdict, place: Place, notes: _Notes) -> Verdict:
    """Where the same task already lies on the shelf one rung on, the tray rests instead of becoming a twin."""
    up, down = neighbors(place, [tray.material])
    to = {"up": up, "back": down}.get(verdict.move)
    if to is None:
        return verdict
    moved = changes(tray, place.rung, to)
    twins = [
        other
        for other, at in zip(notes.trays, notes.places, strict=True)
        if other is not tray and at.rung == to and same_task(tray, moved, other)
    ]
    return replace(verdict, move="rest", reason=f"{verdict.reason}-there") if twins else verdict


def _verdict(trays: Sequence[Tray], place: Place, notes: _Notes) -> Verdict:
    up, down = neighbors(place, [tray.material for tray in trays])
    return judge(notes.about(trays), place.level, first=down is None, last=up is None)


def _group(trays: tuple[Tray, ...], place: Place, notes: _Notes, verdicts: Iterable[Verdict]) -> _Group:
    """Trays of one verdict; its days are those of all of them."""
    each = list(verdicts)
    days = tuple(sorted({day for verdict in each for day in verdict.days}))
    up, down = neighbors(place, [tray.material for tray in trays])
    to = {"up": up, "back": down}.get(each[0].move, place.rung)
    verdict = replace(each[0], days=days)
    return _Group(place=place, trays=trays, seen=notes.about(trays), verdict=verdict, to=to)


def neighbors(place: Place, materials: Iterable[str]) -> tuple[Rung | None, Rung | None]:
    """The next rung up and down that is another one for these materials."""
    if place.rung is None:
        return rungs(place.track)[0], None
    own = tuple(materials)
    return after(place.rung, own), before(place.rung, own)


def _one_new_rung(groups: Sequence[_Group], notes: Sequence[tuple[Entry, Seen]]) -> list[_Group]:
    """The groups, those that would bring a second new rung told to wait."""
    met = max([*(group.place.level for group in groups), *(seen.level for _, seen in notes)], default=0)
    new = [group for group in groups if group.verdict.move == "up" and group.target > met]
    if not new:
        return list(groups)
    first = max(new, key=lambda group: (len(group.verdict.days), -group.target)).target
    return [
        replace(group, verdict=replace(group.verdict, move="stay", reason="waits"), to=group.place.rung)
        if group in new and group.target != first
        else group
        for group in groups
    ]


def _proposal(child: str, group: _Group) -> Proposal:
    verdict = group.verdict
    again = _chosen(group) if verdict.reason in _SURE else ()
    move = _move(verdict, group.place.rung, group.to)
    return Proposal(
        child=child,
        track=group.place.track,
        sets=group.sets,
        move="stay" if again and move == "rest" else move,
        at=group.place.rung,
        to=group.to,
        reason=verdict.reason,
        days=verdict.days,
        change=verdict.change,
        again=again,
    )


def _move(verdict: Verdict, at: Rung | None, to: Rung | None) -> Move:
    match verdict.move:
        case "up":
            old, new = dict(at.keys if at else ()), dict(to.keys if to else ())
            return "widen" if any(old.get(key) != new.get(key) for key in _WIDER) else "step-up"
        case "back":
            return "step-back"
        case move:
            return move


def _chosen(group: _Group) -> tuple[str, ...]:
    """The set that was sure on most days, if on so many that the child chose it for its own sake."""
    days = {
        tray.set: len([day for day in days_of(_of(tray, group.seen, group.place)) if day.result == "sure"])
        for tray in group.trays
    }
    most = max(days, key=lambda name: days[name])
    return (most,) if days[most] >= CHOSEN_DAYS else ()


def _of(tray: Tray, seen: Iterable[Seen], place: Place) -> list[Seen]:
    return [note for note in seen if same_name(note.set, tray.set) and note.level == place.level]


# --- the adult's word, and what rests --------------------------------------------------------


def _wish(item: ChildTrays, tray: Tray) -> str:
    """'keep', 'skip' or 'again' if a tray is named there by the pack file; '' if not."""
    lists = (("keep", item.keep), ("skip", item.skip), ("again", item.again))
    return next((wish for wish, names in lists if any(same_name(name, tray.set) for name in names)), "")


def _wished(child: str, tray: Tray, place: Place, wish: str, seen: Sequence[Seen]) -> Proposal:
    days = days_of(note for note in seen if same_name(note.set, tray.set))
    lies = bool(days) and days[-1].result == "unused"
    move: Move = "rest" if wish == "skip" or (wish == "again" and lies) else "stay"
    return Proposal(
        child=child,
        track=place.track,
        sets=(tray.set,),
        move=move,
        at=place.rung,
        to=place.rung,
        reason=f"{wish}-unused" if lies and wish != "skip" else wish,
        days=(days[-1].on,) if lies and wish != "skip" else (),
    )


def _resting(
    child: str, track: str, notes: Sequence[tuple[Entry, Seen]], today: date
) -> Iterable[Proposal]:
    """What was put away as too hard or was left lying, and has no tray now: it comes back after a rest."""
    entry, latest = max(notes, key=lambda note: note[0].on)
    place = Place(track=track, rung=rungs(track)[latest.level] if latest.level >= 0 else None)
    up, down = neighbors(place, [latest.material])
    verdict = judge([seen for _, seen in notes], latest.level, first=down is None, last=up is None)
    if verdict.move != "rest" or verdict.reason not in _COMES_BACK:
        return
    back = (today - entry.on).days >= 7 * REST_WEEKS
    yield Proposal(
        child=child,
        track=track,
        sets=(entry.set,),
        move="return" if back else "rest",
        at=place.rung,
        to=place.rung,
        reason="rested" if back else "resting",
        days=(entry.on,),
        played=entry.played,
    )
