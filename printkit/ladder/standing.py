"""On which rung a child stands, told from keys and settings as they were played."""

from collections.abc import Mapping
from typing import Any

from printkit.ladder.climbing import rungs
from printkit.ladder.rungs import Rung


def standing(
    track: str, keys: Mapping[str, Any], settings: Mapping[str, Mapping[str, Any]] | None = None
) -> Rung | None:
    """The rung of a ladder that what was played comes closest to; None if it reaches none.

    `keys` are a child's or tray's (`numbers`, `sums_to`, `lookalike`), `settings` each material's by its
    name, as far as they are known. A rung is covered where the range ends as high (and has the 0 that a
    rung begins with), or the sum or level is as high. Of the rungs that have the keys of the highest one
    covered, the one counts that agrees in most settings of the materials played; of two that agree
    equally the lower one: nobody is credited with what was not seen. KeyError if there is no such ladder.
    """
    ladder = rungs(track)
    covered = [rung for rung in ladder if _covered(rung, keys)]
    if not covered:
        return None
    level = [rung for rung in covered if rung.keys == covered[-1].keys]
    return max(level, key=lambda rung: (*_agreement(rung, settings or {}), -ladder.index(rung)))


def _covered(rung: Rung, keys: Mapping[str, Any]) -> bool:
    return all(keys.get(key) is not None and _reaches(keys[key], value) for key, value in rung.keys)


def _reaches(own: Any, value: Any) -> bool:
    if not isinstance(value, tuple):
        return own >= value
    (low, high), (least, most) = own, value
    return high > most or (high == most and (low == 0 or least > 0))


def _agreement(rung: Rung, settings: Mapping[str, Mapping[str, Any]]) -> tuple[int, int]:
    """How many settings of the materials played are as on the rung, and minus how many are not."""
    told = [
        _plain(settings[material][key]) == _plain(value)
        for material, given in rung.settings
        if material in settings
        for key, value in given
        if key in settings[material]
    ]
    return sum(told), sum(told) - len(told)


def _plain(value: Any) -> Any:
    """A list and a tuple are the same here, and so are a word and a list of that one word."""
    if isinstance(value, list | tuple):
        return tuple(value)
    return (value,) if isinstance(value, str) else value
