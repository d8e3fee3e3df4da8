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
from printkit.climbing.moving import Changes, changes, same_task
from printkit.climbing.places import Kinds, Place, place_of_tray, seen_in, set_key
from printkit.climbing.rule import CHOSEN_DAYS, REST_WEEKS, Seen, Verdict, days_of, judge
from printkit.files import same_name
from printkit.journal import Entry
from printkit.ladder import Rung, after, before, differ, rungs, tracks
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
    placed = seen_in(entries, trays, person, kinds)
    for track in tracks():
        notes = [(entry, note) for on, entry, note in placed if on == track]
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
    notes = _Notes(notes=tuple(seen), shelf=tuple(own))
    places = {each.place.level: each.place for each in own if each.place and not each.wish}
    made: list[_Group] = []
    for level in sorted(places, reverse=True):
        climbing = [each.tray for each in own if not each.wish and each.place and each.place.level == level]
        made += _on_one_rung(climbing, places[level], notes)
    return made


@dataclass(frozen=True, kw_only=True, slots=True)
class _Notes:
    """A child's notes on one ladder, and all trays that the child has there now."""

    notes: tuple[Seen, ...]
    shelf: tuple[_Shelved, ...]

    def about(self, trays: Iterable[Tray]) -> tuple[Seen, ...]:
        """The notes about these trays, and about those that are gone."""
        own = {set_key(tray.set) for tray in trays}
        others = {set_key(each.tray.set) for each in self.shelf} - own
        return tuple(note for note in self.notes if note.set not in others)

    def have_twin(self, tray: Tray, moved: Changes, to: Rung) -> bool:
        """Whether another tray that climbs stands on that rung and is what the moved one would become."""
        return any(
            each.tray is not tray
            and not each.wish
            and each.place is not None
            and each.place.rung == to
            and same_task(tray, moved, each.tray)
            for each in self.shelf
        )


@dataclass(frozen=True, kw_only=True, slots=True)
class _Aim:
    """A tray's verdict, and the rung it leads to."""

    tray: Tray
    verdict: Verdict
    to: Rung | None


def _on_one_rung(trays: Sequence[Tray], place: Place, notes: _Notes) -> Iterable[_Group]:
    """Each tray by its own notes where they decide; else all that are left by their notes together.

    A tray that is still undecided goes along with others to their rung if its own notes do not speak
    against it.
    """
    own = [_aimed(tray, _verdict([tray], place, notes), place, notes) for tray in trays]
    left = [aim.tray for aim in own if aim.verdict.move == "stay"]
    together = _verdict(left, place, notes) if len(left) > 1 else None
    if together is not None and together.move != "stay":
        own = [_aimed(aim.tray, together, place, notes) if aim.tray in left else aim for aim in own]
    moves = {aim.verdict.move for aim in own}
    groups: dict[tuple[object, ...], list[_Aim]] = {}
    for aim in own:
        led = _along(aim, own, place, notes) if len(moves & {"up", "back"}) == 1 else aim
        kind = (led.verdict.move, led.verdict.reason, led.verdict.change, led.to)
        groups.setdefault(kind, []).append(led)
    for alike in groups.values():
        of_group = tuple(aim.tray for aim in alike)
        days = tuple(sorted({day for aim in alike for day in aim.verdict.days}))
        yield _Group(
            place=place,
            trays=of_group,
            seen=notes.about(of_group),
            verdict=replace(alike[0].verdict, days=days),
            to=alike[0].to,
        )


def _along(aim: _Aim, others: Sequence[_Aim], place: Place, notes: _Notes) -> _Aim:
    """The tray with those that go up or back, if it would go to their rung; else as it was."""
    leader = next(other for other in others if other.verdict.move in ("up", "back"))
    willing = ("no-note", "sure-once") if leader.verdict.move == "up" else ("no-note",)
    if aim.verdict.reason not in willing:
        return aim
    led = _aimed(aim.tray, leader.verdict, place, notes)
    goes = any(other.to == led.to and other.verdict.move == led.verdict.move for other in others)
    return led if goes else aim


def _aimed(tray: Tray, verdict: Verdict, place: Place, notes: _Notes) -> _Aim:
    """A tray's verdict and where it leads: each material has the rungs that change it.

    Where nothing is harder or easier for it, it rests; where the same task already lies on the shelf one
    rung on, it rests instead of becoming a twin.
    """
    if verdict.move not in ("up", "back"):
        return _Aim(tray=tray, verdict=verdict, to=place.rung)
    up, down = neighbors(place, [tray.material])
    to = up if verdict.move == "up" else down
    if to is None:
        reason = "sure-at-last" if verdict.move == "up" else "hard-at-first"
    else:
        moved = changes(tray, place.rung, to)
        reason = f"{verdict.reason}-there" if notes.have_twin(tray, moved, to) else ""
    if reason:
        return _Aim(tray=tray, verdict=replace(verdict, move="rest", reason=reason), to=place.rung)
    return _Aim(tray=tray, verdict=verdict, to=to)


def _verdict(trays: Sequence[Tray], place: Place, notes: _Notes) -> Verdict:
    up, down = neighbors(place, [tray.material for tray in trays])
    return judge(notes.about(trays), place.level, first=down is None, last=up is None)


def neighbors(place: Place, materials: Iterable[str]) -> tuple[Rung | None, Rung | None]:
    """The next rung up and down that is another one for these materials, and one for them at all.

    Of rungs that are alike for them the lowest counts, as it does for where a tray stands.
    """
    if place.rung is None:
        return rungs(place.track)[0], None
    own = tuple(materials)
    up, down = after(place.rung, own), before(place.rung, own)
    while up is not None and not _is_for(up, own):
        up = after(up, own)
    while down is not None and not _is_for(down, own):
        down = before(down, own)
    while down is not None and (lower := before(down)) and not differ(down, lower, own):
        down = lower
    return up, down


def _is_for(rung: Rung, materials: Iterable[str]) -> bool:
    """Whether a rung says anything about one of these materials."""
    return bool(rung.keys) or any(rung.of(name) for name in materials)


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
    return [note for note in seen if note.set == set_key(tray.set) and note.level == place.level]


# --- the adult's word, and what rests --------------------------------------------------------


def _wish(item: ChildTrays, tray: Tray) -> str:
    """'keep', 'skip' or 'again' if a tray is named there by the pack file; '' if not."""
    lists = (("keep", item.keep), ("skip", item.skip), ("again", item.again))
    return next((wish for wish, names in lists if any(same_name(name, tray.set) for name in names)), "")


def _wished(child: str, tray: Tray, place: Place, wish: str, seen: Sequence[Seen]) -> Proposal:
    days = days_of(note for note in seen if note.set == set_key(tray.set))
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


def _resting(child: str, track: str, notes: Sequence[tuple[Entry, Seen]], today: date) -> Iterable[Proposal]:
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
