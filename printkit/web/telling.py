"""Problems of the pack reader, each beside the field it belongs to."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from printkit.errors import Problem
from printkit.web.edits import Path

_EXACT = re.compile(r" \(([A-Za-z_][^()\s]*)\)$")
_STEP = re.compile(r"\[(\d+)\]|\.?([^.\[\]]+)")


def path_of(place: str) -> Path:
    """The path at the end of a place: '(children[1].numbers)'; () if it names none."""
    exact = _EXACT.search(place)
    if not exact:
        return ()
    return tuple(int(step[1]) if step[1] else step[2] for step in _STEP.finditer(exact[1]))


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """Problems by the field they stand beside, and those of no field of this page."""

    beside: dict[str, tuple[str, ...]]
    above: tuple[tuple[str, Path], ...]

    def __bool__(self) -> bool:
        return bool(self.beside or self.above)


NOTHING = Told(beside={}, above=())


def told(problems: Iterable[Problem], fields: Sequence[Path]) -> Told:
    """Each problem at the innermost field that it lies in, or above the page with its whole sentence."""
    beside: dict[str, list[str]] = {}
    above: list[tuple[str, Path]] = []
    for problem in problems:
        path = path_of(problem.place)
        holding = [own for own in fields if path and path[: len(own)] == own]
        if holding:
            beside.setdefault(spot(max(holding, key=len)), []).append(sentence(problem))
        else:
            above.append((str(problem), path))
    return Told(beside={name: tuple(said) for name, said in beside.items()}, above=tuple(above))


def spot(path: Path) -> str:
    """The id of the field of a path: 'children-1-numbers'."""
    return "-".join(str(part) for part in path)


def sentence(problem: Problem) -> str:
    """The reader's own sentence without its place, which is where it is shown."""
    said = str(replace(problem, place=""))[2:]
    return said[:1].upper() + said[1:]
