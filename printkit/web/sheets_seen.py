"""Sheets as one holds them: a front with what lies behind it."""

from collections.abc import Sequence
from dataclasses import dataclass

from printkit.sheets import SheetFile


@dataclass(frozen=True, kw_only=True, slots=True)
class Leaf:
    """One sheet of paper: (file, page) of its front and of its back; how the back is turned over it.

    `turned` is 'across' where the sheet is turned like a page, 'down' where over its short edge.
    """

    front: tuple[int, int]
    back: tuple[int, int] | None
    turned: str
    child: str
    stock: str
    file: str
    sets: tuple[str, ...]
    cuts: int
    width: float
    height: float


def leaves(files: Sequence[SheetFile]) -> tuple[Leaf, ...]:
    """Every sheet in the order of printing, with its own back."""
    found: list[Leaf] = []
    names = {file.name: number for number, file in enumerate(files)}
    for number, file in enumerate(files):
        for place, page in enumerate(file.pages):
            if page.side != "front":
                continue
            sets = dict.fromkeys(placed.piece.set for placed in page.placed)
            leaf = Leaf(
                front=(number, place), back=_back(files, names, number, place),
                turned="down" if file.flip == "short" else "across", child=file.child, stock=file.stock,
                file=file.name, sets=tuple(sets), cuts=len(page.cuts), width=page.width,
                height=page.height,
            )  # fmt: skip
            found.append(leaf)
    return tuple(found)


def _back(
    files: Sequence[SheetFile], names: dict[str, int], number: int, place: int
) -> tuple[int, int] | None:
    """What is printed behind a front: the next page, or the same page of the file of backs."""
    file = files[number]
    if file.name.endswith("-fronts.pdf"):
        other = names.get(file.name.replace("-fronts.pdf", "-backs.pdf"))
        return None if other is None or place >= len(files[other].pages) else (other, place)
    if place + 1 < len(file.pages) and file.pages[place + 1].side == "back":
        return (number, place + 1)
    return None
