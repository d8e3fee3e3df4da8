"""Trays and notes placed on their ladders: which track, which rung."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from functools import lru_cache
from typing import Any

from printkit.checks import Wrong
from printkit.climbing.rule import Seen
from printkit.files.names import key, safe_name
from printkit.journal import Entry
from printkit.journal.noting import played_in
from printkit.ladder import Rung, rungs, standing
from printkit.materials import Material
from printkit.pack import Child, Tray
from printkit.pack.keys import key_checks

Kinds = Mapping[str, Material]

BELOW = -1
"""The level of what lies below a ladder's first rung."""

_SPANS = {"number-line": "range"}
"""Materials with a setting of their own for the child's numbers."""
_TOTALS = ("part-whole", "place-mats")
"""Materials whose whole is `total`, or `sums_to`, or the child's last number up to ten."""
_LARGEST_WHOLE = 10
_HEIGHTS = ("line_height", "line_most")
_CARD_HEIGHT, _LINE_HEIGHT = 80.0, 18.0
"""mm of a big numeral and of ruled lines where they are not set and the paper allows."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """Where something stands: its track and the rung there, None below the first one."""

    track: str
    rung: Rung | None

    @property
    def level(self) -> int:
        return BELOW if self.rung is None else rungs(self.track).index(self.rung)


@lru_cache(maxsize=1024)
def set_key(name: str) -> str:
    """Equal for names of sets that mean one: 'Clip Cards' and 'clip-cards'."""
    return key(safe_name(name))


def place_of_tray(tray: Tray, person: Child, kinds: Kinds) -> Place | None:
    """Where a child's tray stands; None if its material climbs no ladder."""
    return _place(dict(played_in(tray, person)), kinds)


def seen_in(
    entries: Iterable[Entry], trays: Sequence[Tray], person: Child, kinds: Kinds
) -> list[tuple[str, Entry, Seen]]:
    """The notes that belong to a ladder, each with its track and placed there.

    A short line written by hand is taken for the tray of that name among the child's `trays`.
    """
    known = {set_key(tray.set): tray for tray in trays}
    places: dict[str, Place | None] = {}
    found = []
    for entry in entries:
        tray = known.get(set_key(entry.set))
        played = dict(entry.played)
        if "make" not in played:
            played = {} if tray is None else dict(played_in(tray, person)) | played
        told = repr(played)
        if told not in places:
            places[told] = _place(played, kinds)
        place = places[told]
        if place is not None:
            seen = Seen(
                on=entry.on,
                level=place.level,
                result=entry.result,
                set=set_key(entry.set),
                material=played["make"],
                theme=str(played.get("theme", "")),
            )
            found.append((place.track, entry, seen))
    return found


def _place(played: Mapping[str, Any], kinds: Kinds) -> Place | None:
    material = played.get("make")
    kind = kinds.get(material) if isinstance(material, str) else None
    if kind is None or kind.track is None:
        return None
    settings = {field.name: played.get(field.name, field.default) for field in fields(kind.settings)}
    keys = _checked(played)
    if material in _TOTALS:
        total = settings.get("total")
        whole = min(keys["numbers"][1], _LARGEST_WHOLE) if "numbers" in keys else None
        keys["sums_to"] = total if isinstance(total, int) else keys.get("sums_to", whole)
    span = _span(settings.get(_SPANS.get(material, "")))
    if span:
        keys["numbers"] = span
    usual = settings | _as_on_rungs(material, settings, kind.track)
    return Place(track=kind.track, rung=standing(kind.track, keys, {material: usual}))


def _as_on_rungs(material: str, settings: Mapping[str, Any], track: str) -> dict[str, Any]:
    """Settings that are lengths, as the rungs have them: that of the last rung reached.

    An unset one counts as what a sheet of usual paper gets; whole sheets to trace are strips to a
    ladder. Low lines count for what they are only with the help to trace that a rung of low lines has.
    """
    if material == "tracing" and settings.get("form") == "card":
        return {"line_height": _CARD_HEIGHT}
    if material == "tracing":
        fade = settings.get("fade") or None
        of_lines = [given for rung in rungs(track) if (given := rung.of(material)).get("form") == "strips"]
        known = [_height(given) for given in of_lines if given.get("fade") == fade]
        height = _reached(_height(settings), known or [_LINE_HEIGHT])
        return {"form": "strips"} | {name: height for name in _HEIGHTS if name in of_lines[0]}
    if material == "paths":
        widths = [given["width"] for rung in rungs(track) if (given := rung.of(material))]
        width = settings.get("width")
        return {"width": _reached(width if isinstance(width, int | float) else max(widths), widths)}
    return {}


def _height(settings: Mapping[str, Any]) -> float:
    named = (settings.get(name) for name in _HEIGHTS)
    return next((height for height in named if isinstance(height, int | float)), _LINE_HEIGHT)


def _reached(length: Any, known: list[float]) -> float:
    """The length of the last rung reached, where less is harder; the easiest one if none is."""
    return min((each for each in known if each >= length), default=max(known))


def _checked(played: Mapping[str, Any]) -> dict[str, Any]:
    """The keys of a child among what was played, as far as they make sense: lines are edited by hand."""
    checks = key_checks()
    read = {}
    for name in ("numbers", "sums_to", "lookalike"):
        value = played.get(name)
        found = checks[name].read(list(value) if isinstance(value, tuple) else value)
        if not isinstance(found, Wrong):
            read[name] = found
    return read


def _span(value: Any) -> tuple[int, int] | None:
    match value:
        case (int(first), int(last)):
            return (first, last)
    return None
