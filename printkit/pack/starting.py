"""`start`: rungs of the ladders by name, and the keys and settings that they set for a child.

What a child's or tray's table writes itself wins. A rung's settings belong to its own keys: a tray
that has other numbers than its rung, or writes one of those settings itself, takes none of them.
"""

from collections.abc import Container, Iterable, Mapping
from typing import Any

from printkit import ladder
from printkit.checks import Wrong, found, shown
from printkit.errors import listing, nearest


class Start:
    """The name of a rung, or a list of them, at most one of a ladder; read as a tuple of names."""

    def read(self, value: Any) -> Any:
        names = value if isinstance(value, list) else [value]
        if not names or not all(isinstance(name, str) for name in names):
            return Wrong(found=found(value), allowed=self.allowed())
        known = {rung.name: rung.track for rung in ladder.rungs()}
        tracks: dict[str, str] = {}
        for name in names:
            if name not in known:
                near = nearest(name, known)
                allowed = _rungs_of(known[near]) if near else self.allowed()
                return Wrong(found=f"there is no rung {shown(name)}", allowed=allowed, nearest=near)
            if known[name] in tracks:
                said = f"{shown(tracks[known[name]])} and {shown(name)} are both rungs of {known[name]}"
                return Wrong(found=said, allowed=f"one rung each of {listing(ladder.tracks(), 'and')}")
            tracks[known[name]] = name
        return tuple(names)

    def allowed(self) -> str:
        return (
            "the name of a rung that 'printkit list rungs' shows, such as \"count-1-5\", or a list of them, "
            "one a ladder"
        )


def _rungs_of(track: str) -> str:
    """'for operations add-within-5, both-within-5 ...'"""
    return f"for {track} {listing(rung.name for rung in ladder.rungs(track))}"


def together(above: tuple[str, ...], own: tuple[str, ...]) -> tuple[str, ...]:
    """The rungs of a child: its own, and those of the pack for the other ladders."""
    taken = {ladder.rung(name).track for name in own}
    return (*(name for name in above if ladder.rung(name).track not in taken), *own)


def rung_keys(start: Iterable[str]) -> dict[str, Any]:
    """The keys that these rungs set."""
    return {key: value for name in start for key, value in ladder.rung(name).keys}


def left_notes(start: Iterable[str], own: Mapping[str, Any], whose: str) -> list[str]:
    """A sentence for each key that is written otherwise than its rung has it."""
    notes = []
    for rung in map(ladder.rung, start):
        for key, value in rung.keys:
            if key in own and own[key] != value:
                said = f"{whose}'s own" if whose else "the pack's own"
                notes.append(
                    f"{said} {key} = {shown(own[key])} is kept, not {shown(value)} of the rung '{rung.name}'"
                )
    return notes


def rung_settings(start: Iterable[str], material: str, keys: Any, own: Container[str]) -> dict[str, Any]:
    """The settings that a tray has from its rungs; `keys` (a `Child`) are the tray's, `own` those it writes."""
    for rung in map(ladder.rung, start):
        given = rung.of(material)
        if given and not any(key in own for key in given):
            fits = all(_within(getattr(keys, key), value) for key, value in rung.keys)
            return given if fits else {}
    return {}


def _within(own: Any, value: Any) -> bool:
    """Whether a range lies in the rung's; a sum or a level must be the rung's own."""
    if isinstance(value, tuple):
        return value[0] <= own[0] and own[1] <= value[1]
    return own == value
