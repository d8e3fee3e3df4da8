"""What must change in a tray so that it stands on another rung."""

from dataclasses import dataclass, fields
from typing import Any

from printkit.ladder import Rung
from printkit.pack import Tray

_OWN_RANGES = {"numbers": ("range",), "sums_to": ("total",)}
"""Settings of a tray's own that would hide a change of the key."""
BY_THE_WAY = frozenset(
    {"motif", "motifs", "own", "count", "order", "words", "copies", "rows"}
    | {"line_height", "line_most", "width"}
)
"""Settings that make no other task on one rung."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Changes:
    """Keys of the child and settings of the tray to be set anew, and settings to be left out."""

    keys: tuple[tuple[str, Any], ...] = ()
    settings: tuple[tuple[str, Any], ...] = ()
    dropped: tuple[str, ...] = ()


def changes(tray: Tray, at: Rung | None, to: Rung) -> Changes:
    """From rung `at` (None: below the first) to rung `to`; what both have alike stays as the adult set it."""
    known = [field.name for field in fields(tray.settings)]
    old, new = (dict(rung.keys) if rung else {} for rung in (at, to))
    keys = {key: value for key, value in new.items() if old.get(key) != value}
    had = at.of(tray.material) if at else {}
    gets = to.of(tray.material)
    settings = {key: value for key, value in gets.items() if key in known and had.get(key) != value}
    dropped = [
        key
        for key, value in had.items()
        if key in known and key not in gets and getattr(tray.settings, key) == value
    ]
    if "line_most" in settings and (height := getattr(tray.settings, "line_height", None)) is not None:
        if height <= settings["line_most"]:
            del settings["line_most"]  # the family's own lines are as low already
        else:
            dropped.append("line_height")
    dropped += [
        name for key in keys for name in _OWN_RANGES.get(key, ()) if name in known and name not in gets
    ]
    return Changes(keys=tuple(keys.items()), settings=tuple(settings.items()), dropped=tuple(dropped))


def same_task(tray: Tray, changed: Changes, other: Tray) -> bool:
    """Whether the changed tray would be the same to a child as another one of its material."""
    if tray.material != other.material:
        return False
    given = dict(changed.settings)
    return all(
        getattr(other.settings, field.name)
        == (
            field.default
            if field.name in changed.dropped
            else given.get(field.name, getattr(tray.settings, field.name))
        )
        for field in fields(tray.settings)
        if field.name not in BY_THE_WAY
    )
