"""Children who learn fast, slowly, in jumps and backwards, over 60 weeks of notes and proposals."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path

import pytest

from printkit.climbing import Proposal, propose
from printkit.climbing.moving import changes
from printkit.climbing.places import place_of_tray
from printkit.climbing.rule import SURE_DAYS
from printkit.journal import Entry
from printkit.journal.noting import played_in
from printkit.ladder import rungs
from printkit.materials import materials
from printkit.pack import Pack, Tray
from printkit.pack.reader import read_pack

START = date(2026, 1, 5)
WEEKS = 60
KINDS = materials()
PACK = """\
title = "Shelf"
theme = "{theme}"
[[children]]
name = "Wren"
numbers = [1, 5]
sums_to = 5
lookalike = 1
materials = ["clip-cards", "dominoes", "counting-cards", "strips", "odd-one-out", "find-the-match", "tracing"]
"""
PLAIN = (Path(__file__).parents[1] / "fixtures" / "plain").as_posix()


def fast(week: int) -> float:
    """Climbs three rungs in four weeks."""
    return 0.75 * week


def slow(week: int) -> float:
    """A rung in ten weeks."""
    return 0.1 * week


def jumping(week: int) -> float:
    """Nothing for nine weeks, then four rungs at once."""
    return 4.0 * (week // 10)


def backwards(week: int) -> float:
    """Climbs, forgets nearly all of it in the summer, and climbs again."""
    return 0.4 * week if week < 25 else 1.0 + 0.3 * (week - 25)


CHILDREN = (fast, slow, jumping, backwards)


@dataclass(frozen=True, kw_only=True, slots=True)
class Week:
    """The levels that lay on the shelf by set, what was noted on them, and what was proposed then."""

    levels: dict[str, int]
    tracks: dict[str, str]
    noted: tuple[Entry, ...]
    proposals: tuple[Proposal, ...]


def seen(skill: float, level: int, week: int, place: int) -> str:
    """What an adult would note: half a rung above is sure, half below is growing; now and then unused."""
    if (week * 7 + place * 5) % 11 == 0:
        return "unused"
    if skill >= level + 0.5:
        return "sure"
    return "growing" if skill >= level - 0.5 else "not-yet"


def moved(tray: Tray, proposal: Proposal) -> Tray:
    """The tray on its new rung."""
    to = changes(tray, proposal.at, proposal.to)
    usual = {name: tray.settings.__dataclass_fields__[name].default for name in to.dropped}
    return replace(
        tray,
        child=replace(tray.child, **dict(to.keys)),
        settings=replace(tray.settings, **usual, **dict(to.settings)),
    )


def followed(pack: Pack, proposals: tuple[Proposal, ...], away: dict[str, Tray]) -> Pack:
    """The shelf as the proposals have it; what rests lies in `away`."""
    item = pack.children[0]
    trays = {tray.set: tray for tray in item.trays}
    for proposal in proposals:
        for name in proposal.sets:
            if proposal.move in ("widen", "step-up", "step-back"):
                trays[name] = moved(trays[name], proposal)
            elif proposal.move == "rest" and name in trays:
                away[name] = trays.pop(name)
            elif proposal.move == "return":
                trays[name] = away.pop(name)
    return replace(pack, children=(replace(item, trays=tuple(trays.values())),))


@cache
def weeks(learns: Callable[[int], float], folder: Path) -> tuple[Week, ...]:
    """Sixty weeks: each week every tray is noted on one day, then what is proposed is done."""
    file = folder / "shelf.toml"
    file.write_text(PACK.replace("{theme}", PLAIN), encoding="utf-8")
    pack = read_pack(file, KINDS)
    person = pack.people[0]
    away: dict[str, Tray] = {}
    entries: list[Entry] = []
    told: list[Week] = []
    for week in range(WEEKS):
        today = START + timedelta(weeks=week)
        places = {tray.set: place_of_tray(tray, person, KINDS) for tray in pack.children[0].trays}
        noted = tuple(
            Entry(
                on=today,
                child="Wren",
                set=tray.set,
                result=seen(learns(week), places[tray.set].level, week, number),
                played=played_in(tray, person),
                title=f"Season {week // 6}",
            )
            for number, tray in enumerate(pack.children[0].trays)
        )
        entries += noted
        proposals = propose(pack, entries, KINDS, today)
        levels = {name: place.level for name, place in places.items()}
        tracks = {name: place.track for name, place in places.items()}
        told.append(Week(levels=levels, tracks=tracks, noted=noted, proposals=proposals))
        pack = followed(pack, proposals, away)
    return tuple(told)


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """One folder for all children's shelves."""
    return tmp_path_factory.mktemp("shelves")


@pytest.mark.parametrize("learns", CHILDREN, ids=lambda child: child.__name__)
def test_nobody_stays_on_what_is_sure(learns, folder):
    """On no rung is a tray sure for more than three noted days before it moves on."""
    sure: dict[str, int] = {}
    for before, week in zip((None, *weeks(learns, folder)), weeks(learns, folder), strict=False):
        for entry in week.noted:
            moved_on = before is None or before.levels.get(entry.set) != week.levels[entry.set]
            days = 0 if moved_on or entry.result == "not-yet" else sure.get(entry.set, 0)
            sure[entry.set] = days + (entry.result == "sure")
            assert sure[entry.set] <= 3


@pytest.mark.parametrize("learns", CHILDREN, ids=lambda child: child.__name__)
def test_nobody_meets_two_new_rungs_at_once(learns, folder):
    """From week to week at most one rung of a ladder comes that is above all that lay there before."""
    met: dict[str, int] = {}
    for week in weeks(learns, folder):
        for track in set(week.tracks.values()):
            levels = {week.levels[name] for name, each in week.tracks.items() if each == track}
            new = {level for level in levels if level > met.get(track, max(levels))}
            met[track] = max(met.get(track, -1), *levels)
            assert len(new) <= 1


@pytest.mark.parametrize("learns", CHILDREN, ids=lambda child: child.__name__)
def test_what_was_hard_comes_back(learns, folder):
    """Every rung that was too hard lies there again later, if the child became sure of the easier one."""
    told = weeks(learns, folder)
    for number, week in enumerate(told):
        for proposal in (each for each in week.proposals if each.move == "step-back"):
            later = [each for each in told[number + 1 :] if proposal.sets[0] in each.levels]
            hard = rungs(proposal.track).index(proposal.at)
            easier = rungs(proposal.track).index(proposal.to)
            sure = [
                entry
                for each in later
                for entry in each.noted
                if (entry.set, entry.result) == (proposal.sets[0], "sure")
                and each.levels[entry.set] == easier
            ]
            back = any(each.levels[proposal.sets[0]] >= hard for each in later)
            assert back or len(sure) <= SURE_DAYS


@pytest.mark.parametrize("learns", CHILDREN, ids=lambda child: child.__name__)
def test_left_lying_keeps_the_level(learns, folder):
    """A tray that was left lying on its last day, and never tried on this rung, stays on its rung."""
    for week in weeks(learns, folder):
        for proposal in week.proposals:
            assert not proposal.change or proposal.to == proposal.at


def test_the_fast_get_further_than_the_slow(folder):
    """After sixty weeks the fast child is at the top of counting, the slow one on the way."""
    tops = {
        child.__name__: max(week.levels.get("counting-cards", -1) for week in weeks(child, folder))
        for child in (fast, slow)
    }

    assert tops["slow"] >= 4
    assert tops["fast"] > tops["slow"]


@pytest.mark.parametrize("learns", CHILDREN, ids=lambda child: child.__name__)
def test_each_rests_and_comes_back(learns, folder):
    """Whatever rests because it was too hard is brought back within sixty weeks, if there are four left."""
    told = weeks(learns, folder)
    for number, week in enumerate(told[:-5]):
        resting = {
            name
            for each in week.proposals
            if each.reason in ("hard-at-first", "unused-still")
            for name in each.sets
        }
        tracks = {week.tracks[name] for name in resting}
        later = told[number + 5]
        assert tracks <= set(later.tracks.values())
