"""What a tray is for: its area, its place in teaching order, and whether it takes a place on the shelf."""

from collections.abc import Sequence

from printkit.materials import materials
from printkit.pack import Tray
from printkit.planner.model import Area

_KINDS: tuple[tuple[str, Area], ...] = (
    ("counting-cards", "counting"),
    ("clip-cards", "counting"),
    ("ten-frames", "counting"),
    ("dominoes", "counting"),
    ("compare", "counting"),
    ("bingo", "counting"),
    ("pairs of numbers", "counting"),
    ("number-line", "counting"),
    ("hundred-chart", "counting"),
    ("calendar", "counting"),
    ("pairs", "looking"),
    ("sizes", "looking"),
    ("odd-one-out", "looking"),
    ("patterns", "looking"),
    ("shades", "looking"),
    ("labels", "looking"),
    ("find-the-match", "looking"),
    ("halves", "hands"),
    ("lacing", "hands"),
    ("snipping", "hands"),
    ("outdoors", "hands"),
    ("paths", "writing"),
    ("big numerals", "writing"),
    ("tracing", "writing"),
    ("dice-write", "writing"),
    ("place-mats", "operations"),
    ("part-whole", "operations"),
    ("strips", "operations"),
    ("tiles", "operations"),
)
"""Kinds of trays, those of an area from easy to hard (design choice: hands, then pictures, then signs). A
material that is not named comes after these, for what its `track` says."""

_RANK = {kind: number for number, (kind, _) in enumerate(_KINDS)}
_AREA = dict(_KINDS)
_HARDER = {
    "operation": ("add", "subtract", "both"),
    "unknown": ("result", "part", "change", "both", "start", "whole", "mixed"),
    "choices": (3, 4),
    "layout": ("whole", "back", "triple", "pair"),
    "form": ("card", "strips", "sheet"),
    "parts": (2, 3, 4),
}
"""Settings of which later values are harder; values not named count as easy."""


def kind_of(tray: Tray) -> str:
    """The kind of a tray: its material, or a word of its own where a setting changes what it is for."""
    settings = tray.settings
    match tray.material:
        case "pairs" if settings.match != "pictures":
            return "pairs of numbers"
        case "paths" if settings.form == "snip":
            return "snipping"
        case "tracing" if settings.form == "card":
            return "big numerals"
        case _:
            return tray.material


def area_of(tray: Tray) -> Area:
    """What a tray is for; a material that the list does not name is for the ladder it climbs, else the hands."""
    found = materials().get(tray.material)
    return _AREA.get(kind_of(tray)) or (found.track if found else None) or "hands"


def area_of_material(name: str) -> Area:
    """What a tray of a material is for as it comes, without settings of its own."""
    return _AREA.get(name) or materials()[name].track or "hands"


def step_of(tray: Tray, place: int) -> tuple[int, ...]:
    """Where a tray stands among those of its area: kind, how far it reaches, settings, place in the file."""
    child, area = tray.child, area_of(tray)
    reach = {
        "counting": child.numbers[1],
        "writing": child.numbers[1],
        "operations": child.sums_to or child.numbers[1],
        "looking": child.lookalike,
        "hands": 0,
    }[area]
    rank = _RANK.get(kind_of(tray), len(_RANK))
    found = materials().get(tray.material)
    return (rank, found.order if found else 0, reach, *(_setting(tray, key) for key in _HARDER), place)


def _setting(tray: Tray, key: str) -> int:
    value, values = getattr(tray.settings, key, None), _HARDER[key]
    return values.index(value) if value in values else 0


def stands(tray: Tray) -> bool:
    """Whether it hangs or sticks somewhere all season: the month, labels for trays and shelves."""
    return tray.material == "calendar" or (tray.material == "labels" and tray.settings.form != "cards")


def partner(tray: Tray, trays: Sequence[Tray]) -> Tray | None:
    """The tray that this one goes with: loose numerals go with strips, or with mats that have boxes.

    Of several strips those for which they were made, else the first.
    """
    if tray.material != "tiles":
        return None
    strips = [other for other in trays if other.material == "strips"]
    mats = [other for other in trays if other.material == "place-mats" and other.settings.boxes]
    same = [other for other in strips if _frame(other) == _frame(tray)]
    return next(iter([*same, *strips, *mats]), None)


def _frame(tray: Tray) -> tuple[str, str, str | None]:
    return (tray.settings.operation, tray.settings.unknown, tray.settings.help)
