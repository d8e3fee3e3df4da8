"""What an adult says about a tray -> a note, or all that is wrong with it."""

from collections.abc import Iterable
from dataclasses import fields
from datetime import date
from typing import Any

from printkit.checks import shown
from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.files import same_name
from printkit.journal.lines import read_day, read_result
from printkit.journal.model import RESULTS, Entry
from printkit.pack import Child, Pack, Tray


def noted(
    pack: Pack, child: str, set_name: str, result: str, *, today: date, on: str | None = None, said: str = ""
) -> Entry:
    """The note about one of the pack's trays.

    `on` is a day such as 2026-11-25, not after `today`; unset: today. Raises PrintkitError with all that
    is wrong with it.
    """
    problems: list[Problem] = []
    day = _day(on, today, problems)
    seen = read_result(result)
    if seen not in RESULTS:
        problems.append(_unknown("RESULT", "result", result, RESULTS))
    person, tray = _tray(pack, child, set_name, problems)
    if problems or person is None or tray is None or day is None:
        raise PrintkitError(problems)
    return Entry(
        on=day,
        child=person.name,
        set=tray.set,
        result=seen,
        played=played_in(tray, person),
        title=pack.title,
        said=said.strip(),
    )


def day_of(on: str | None, today: date) -> date:
    """The day that --on gives, not after `today`; today if unset. Raises PrintkitError."""
    problems: list[Problem] = []
    day = _day(on, today, problems)
    if day is None:
        raise PrintkitError(problems)
    return day


def _day(on: str | None, today: date, problems: list[Problem]) -> date | None:
    """The day; None if what is wrong with it was told."""
    day = today if on is None else read_day(on)
    if day is None:
        told = Problem(place="--on", found=f"{shown(on)} is no day", allowed="a day such as 2026-11-25")
    elif day > today:
        allowed = f"today ({today.isoformat()}) or a day before it"
        told = Problem(place="--on", found=f"{day.isoformat()} lies in the future", allowed=allowed)
    else:
        return day
    problems.append(told)
    return None


def _tray(pack: Pack, child: str, set_name: str, problems: list[Problem]) -> tuple[Child | None, Tray | None]:
    """The child and its tray, own or shared; what is unknown is told."""
    person = pack.person(child)
    if person is None:
        problems.append(_unknown("CHILD", "child", child, [each.name for each in pack.people]))
        return None, None
    trays = pack.trays_of(person.name)
    tray = next((tray for tray in trays if same_name(tray.set, set_name)), None)
    if tray is None:
        known = [tray.set for tray in trays]
        problems.append(_unknown("SET", "set", set_name, known, f" among {person.name}'s trays"))
    return person, tray


def _unknown(place: str, kind: str, word: str, known: Iterable[str], where: str = "") -> Problem:
    words = list(known)
    return Problem(
        place=place,
        found=f"there is no {kind} {shown(word)}{where}",
        allowed=listing(words),
        nearest=nearest(word, words),
    )


def played_in(tray: Tray, person: Child) -> tuple[tuple[str, Any], ...]:
    """The tray's keys as a note keeps them: what was trained, in which theme, with which settings.

    Of a tray that several share, the numbers are the child's own, and the sums no larger.
    """
    child = tray.child
    shared = bool(child.users)
    sums = [most for most in (child.sums_to, person.sums_to) if most is not None]
    keys = {
        "make": tray.material,
        "numbers": person.numbers if shared else child.numbers,
        "sums_to": min(sums) if shared and sums else child.sums_to,
        "lookalike": child.lookalike,
        "theme": child.theme.name,
    }
    own = {
        field.name: getattr(tray.settings, field.name)
        for field in fields(tray.settings)
        if getattr(tray.settings, field.name) != field.default
    }
    return tuple((key, value) for key, value in (keys | own).items() if value is not None)
