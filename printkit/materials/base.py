"""What a material is: a name, settings, facts and one pure function that makes pieces."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, NamedTuple

from printkit.errors import Problem
from printkit.materials.guidance import Guidance
from printkit.pack import Tray
from printkit.pieces import Piece, Stock


class Room(NamedTuple):
    """Usable width and height of an upright sheet in mm: no margins, no foot."""

    width: float
    height: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Need:
    """Something to gather for a tray: `count` of it, and how many mm across if that matters.

    `what` is a key of `label.things` and `guide.gather.things` in the catalogues: 'counters', 'pegs', 'pencil' ...
    """

    what: str
    count: int
    size: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Made:
    """The pieces of a tray, or the problems that keep them from being made.

    `notes` say where something is drawn otherwise than asked for, each a sentence without its tray.
    """

    pieces: tuple[Piece, ...] = ()
    needs: tuple[Need, ...] = ()
    problems: tuple[Problem, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Material:
    """A kind of thing made. `make` is pure: (seed, tray, room) -> `Made`.

    `settings` and `facts` are frozen data classes; the fields of `settings` are made with
    `checks.setting`. `line` is its one line for lists. `stock` is the paper it usually asks for.
    `guidance` is what it tells the guide and the labels; `handled` says which of its pieces a child
    takes in hand. `track` is the ladder that a child climbs with it ('counting', 'operations', 'looking',
    'writing'), None where nothing gets harder.
    """

    name: str
    order: int
    line: str
    settings: type
    facts: type
    stock: Stock
    make: Callable[[int, Tray, Room], Made]
    guidance: Guidance = Guidance()
    handled: Callable[[Piece], bool] = lambda piece: piece.cut
    track: str | None = None


def problem(tray: Tray, key: str, found: str, allowed: str = "", nearest: str = "") -> Problem:
    """A problem of this tray, placed at the key that would mend it."""
    return Problem(place=tray.place(key), found=found, allowed=allowed, nearest=nearest)


def refused(*problems: Problem) -> Made:
    """Nothing made, and why."""
    return Made(problems=problems)


Facts = Any
