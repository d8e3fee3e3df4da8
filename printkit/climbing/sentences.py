"""Proposals and the journal's faults in words, from the catalogue."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import groupby
from typing import Any

from printkit.checks import shown
from printkit.climbing.model import Proposal
from printkit.climbing.places import Kinds
from printkit.climbing.rule import REST_WEEKS
from printkit.errors import nearest
from printkit.files import same_name
from printkit.journal import JOURNAL, Entry, Journal
from printkit.ladder import Rung
from printkit.pack import Pack
from printkit.texts import Catalogue, catalogue


def words_of(pack: Pack) -> Catalogue:
    """The catalogue of the adult's language; the English one where it does not speak of this yet."""
    spoken = catalogue(pack.guide)
    return spoken if spoken.has("next.reasons") else catalogue("en")


def told(proposals: Iterable[Proposal], words: Catalogue) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each child's name with a line for each proposal; one line if nothing was noted at all."""
    for child, group in groupby(proposals, key=lambda proposal: proposal.child):
        each = list(group)
        if all(proposal.reason == "no-note" for proposal in each):
            yield child, (words.say("next.nothing"),)
        else:
            yield child, tuple(line(proposal, words) for proposal in each)


def line(proposal: Proposal, words: Catalogue) -> str:
    """'counting (clip-cards): widen: sure on two different days (...): on to 4-10 (up to 10 things)'."""
    said = words.say(
        "next.line",
        track=words.say(f"next.tracks.{proposal.track}"),
        sets=", ".join(proposal.sets),
        move=words.say(f"next.moves.{proposal.move}"),
        reason=reason(proposal, words),
    )
    more = [
        words.say("next.stays" if proposal.move == "stay" else "next.beside", set=name)
        for name in proposal.again
    ]
    return "; ".join([said, *more])


def reason(proposal: Proposal, words: Catalogue) -> str:
    """Why, in words: 'sure on two different days (2026-11-25, 2026-12-02): on to 4-10 (up to 10 things)'."""
    said = words.say(
        f"next.reasons.{proposal.reason}",
        days=_many("next.days", len(proposal.days), words),
        running=_many("next.running", len(proposal.days), words),
        dates=", ".join(day.isoformat() for day in proposal.days),
        to=_goal(proposal.at, proposal.to, words) if proposal.to else "",
        weeks=REST_WEEKS,
    )
    kept = _kept(proposal.at, proposal.to) if proposal.move == "widen" else None
    if kept is None:
        return said
    numbers = words.say("next.numbers", first=kept[0], last=kept[1])
    return f"{said}; {words.say('next.kept', numbers=numbers)}"


def remark(proposal: Proposal, words: Catalogue) -> str:
    """The reason in a few words, to stand behind a line of a pack file: 'sure on two different days'."""
    key = f"next.file.{proposal.reason}"
    count = len(proposal.days)
    return words.say(
        key if words.has(key) else f"next.reasons.{proposal.reason}",
        days=_many("next.days", count, words),
        running=_many("next.running", count, words),
    )


def as_json_values(proposals: Iterable[Proposal], words: Catalogue) -> list[dict[str, Any]]:
    """Proposals as plain values for programs; `says` is the line for people."""
    return [
        {
            "child": each.child,
            "track": each.track,
            "sets": list(each.sets),
            "move": each.move,
            "from": each.at.name if each.at else None,
            "to": each.to.name if each.to else None,
            "reason": each.reason,
            "days": [day.isoformat() for day in each.days],
            "change": each.change or None,
            "beside": list(each.again),
            "says": line(each, words),
        }
        for each in proposals
    ]


def _many(key: str, count: int, words: Catalogue) -> str:
    own = f"{key}.{count}"
    return words.say(own if words.has(own) else f"{key}.other", n=count)


def _goal(at: Rung | None, to: Rung, words: Catalogue) -> str:
    """'4-10 (up to 10 things)' where the numbers change; else what is new on the rung."""
    says = words.say(f"next.rungs.{to.name}")
    old, new = dict(at.keys if at else ()), dict(to.keys)
    if new.get("numbers") != old.get("numbers"):
        first, last = new["numbers"]
        return words.say("next.goal", what=words.say("next.numbers", first=first, last=last), says=says)
    if new.get("sums_to") != old.get("sums_to"):
        return words.say("next.goal", what=words.say("next.sums", most=new["sums_to"]), says=says)
    return says


def _kept(at: Rung | None, to: Rung | None) -> tuple[int, int] | None:
    """The numbers of the rung before that are met again on the next one."""
    old, new = (dict(rung.keys).get("numbers") if rung else None for rung in (at, to))
    if old is None or new is None:
        return None
    first, last = max(old[0], new[0]), min(old[1], new[1])
    return (first, last) if first <= last else None


def faults(journal: Journal, pack: Pack, kinds: Kinds, today: date, words: Catalogue) -> tuple[str, ...]:
    """What of the journal is not counted, and why: a sentence each, in the order of its lines."""
    said = [
        (each.line, words.say("next.notes.broken", place=_place(each.line, words), why=each.why))
        for each in journal.broken
    ]
    strangers: set[str] = set()
    for entry in journal.entries:
        person = pack.person(entry.child)
        if entry.on > today:
            said.append((entry.line, words.say("next.notes.future", place=_place(entry.line, words))))
        elif person is None and entry.child not in strangers:
            strangers.add(entry.child)
            said.append((entry.line, _stranger(entry, [each.name for each in pack.people], words)))
        elif person is not None and not _is_clear(entry, pack, kinds):
            values = {"place": _place(entry.line, words), "child": person.name, "name": shown(entry.set)}
            said.append((entry.line, words.say("next.notes.tray", **values)))
    return tuple(text for _, text in sorted(said))


def _place(number: int, words: Catalogue) -> str:
    return words.say("next.notes.place", file=JOURNAL, n=number)


def _stranger(entry: Entry, names: Sequence[str], words: Catalogue) -> str:
    said = words.say("next.notes.child", place=_place(entry.line, words), name=shown(entry.child))
    near = nearest(entry.child, names)
    return words.say("next.notes.meant", said=said, name=shown(near)) if near else said


def _is_clear(entry: Entry, pack: Pack, kinds: Kinds) -> bool:
    """Whether a note says which material it is about, or its set still exists."""
    make: Any = dict(entry.played).get("make")
    if isinstance(make, str):
        return make in kinds
    return any(same_name(tray.set, entry.set) for tray in pack.trays_of(entry.child))
