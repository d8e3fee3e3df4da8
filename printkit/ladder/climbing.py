"""The four ladders in order, and the way up and down them."""

from collections.abc import Iterable

from printkit.ladder import counting, looking, operations, writing
from printkit.ladder.rungs import Fact, Rung

_LADDERS = {ladder.TRACK: ladder.RUNGS for ladder in (counting, operations, looking, writing)}
_BY_NAME = {rung.name: rung for ladder in _LADDERS.values() for rung in ladder}


def tracks() -> tuple[str, ...]:
    """The ladders by their names: 'counting', 'operations', 'looking', 'writing'."""
    return tuple(_LADDERS)


def rungs(track: str | None = None) -> tuple[Rung, ...]:
    """The rungs of a ladder from the lowest up, or those of all ladders. KeyError if there is no such ladder."""
    return tuple(_BY_NAME.values()) if track is None else _LADDERS[track]


def rung(name: str) -> Rung:
    """The rung of that name. KeyError if there is none."""
    return _BY_NAME[name]


def after(rung: Rung, materials: Iterable[str] | None = None) -> Rung | None:
    """The next rung up, None from the highest.

    With `materials` (the child's, by name) rungs that change nothing for them are passed over.
    """
    return _next(rung, 1, materials)


def before(rung: Rung, materials: Iterable[str] | None = None) -> Rung | None:
    """The next rung down, None from the lowest; with `materials` the highest that differs for them."""
    return _next(rung, -1, materials)


def _next(rung: Rung, step: int, materials: Iterable[str] | None) -> Rung | None:
    ladder = _LADDERS[rung.track]
    own = None if materials is None else frozenset(materials)
    place = ladder.index(rung) + step
    while 0 <= place < len(ladder) and own is not None and not differ(rung, ladder[place], own):
        place += step
    return ladder[place] if 0 <= place < len(ladder) else None


def differ(one: Rung, other: Rung, materials: Iterable[str]) -> bool:
    """Whether the two rungs set anything differently for a child that has these materials."""
    return one.keys != other.keys or any(one.of(name) != other.of(name) for name in materials)


def new_on(rung: Rung) -> frozenset[Fact]:
    """What a child meets here for the first time on this ladder.

    Where all of it was met before, apart: what was not on the rung just below. All of one kind.
    """
    ladder = _LADDERS[rung.track]
    lower = ladder[: ladder.index(rung)]
    new = rung.facts() - frozenset[Fact]().union(*(each.facts() for each in lower))
    return new or (rung.facts() - lower[-1].facts())


def kept_on(rung: Rung) -> frozenset[Fact]:
    """What a child meets here that was on the rung just below: what keeps it confident."""
    lower = before(rung)
    return rung.facts() & lower.facts() if lower else frozenset()
