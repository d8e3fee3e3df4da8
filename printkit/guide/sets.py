"""What the guide is told of each set, and the small questions it asks about it."""

from collections.abc import Sequence
from dataclasses import dataclass

from printkit.labels import LabelFacts
from printkit.materials.base import Material, Need
from printkit.pack import Tray
from printkit.pieces import Piece
from printkit.sheets.model import SheetFile

SMALL_PART = 31.75
"""mm across of the cylinder for small parts (16 CFR 1501.4): a flat piece that is wider cannot fit."""


@dataclass(frozen=True, kw_only=True, slots=True)
class GuideSet:
    """A set as the guide sees it; a label among `pieces` is not counted as a piece of the set."""

    tray: Tray
    material: Material
    pieces: tuple[Piece, ...]
    needs: tuple[Need, ...]

    @property
    def own(self) -> tuple[Piece, ...]:
        """The pieces without the label."""
        return tuple(piece for piece in self.pieces if not is_label(piece))

    @property
    def users(self) -> tuple[str, ...]:
        """The names of the children who use the set."""
        return tuple(user.name for user in self.tray.child.users) or (self.tray.child.name,)


def tray_anchor(item: GuideSet) -> str:
    """The name by which the pages of the guide know a tray."""
    return f"tray {item.tray.child.name}/{item.tray.set}"


def is_label(piece: Piece) -> bool:
    """Whether the piece is the label of its set's bag or tray."""
    return isinstance(piece.facts, LabelFacts)


def by_child(sets: Sequence[GuideSet]) -> dict[str, list[GuideSet]]:
    """The sets of each child, children in the order of the pack."""
    found: dict[str, list[GuideSet]] = {}
    for item in sets:
        found.setdefault(item.tray.child.name, []).append(item)
    return found


def backs_only(file: SheetFile) -> bool:
    """Whether the file holds the backs of another file's sheets."""
    return bool(file.pages) and all(page.side == "back" for page in file.pages)


def has_backs(file: SheetFile) -> bool:
    """Whether a page of the file is a back."""
    return any(page.side == "back" for page in file.pages)


def fronts_for(file: SheetFile, files: Sequence[SheetFile]) -> SheetFile | None:
    """The file whose fronts belong to a file of backs: it holds the same pieces."""
    keys = {_id(placed.piece) for page in file.pages for placed in page.placed}
    return next(
        (
            other
            for other in files
            if not backs_only(other)
            and keys & {_id(placed.piece) for page in other.pages for placed in page.placed}
        ),
        None,
    )


def _id(piece: Piece) -> tuple[str, str, str]:
    return (piece.child, piece.set, piece.key)


def sheets_by_stock(files: Sequence[SheetFile], child: str | None = None) -> dict[str, int]:
    """How many sheets of each stock, of one child or of all; backs use none of their own."""
    found: dict[str, int] = {}
    for file in files:
        if child in (None, file.child) and not backs_only(file):
            found[file.stock] = found.get(file.stock, 0) + file.sheets
    return found


def has_back(item: GuideSet) -> bool:
    """Whether pieces of the set have a back, printed or not."""
    return any(piece.back is not None for piece in item.own)


def unprinted_control(item: GuideSet) -> bool:
    """Whether the set has backs that are not printed, so that its key stands in the guide."""
    return has_back(item) and item.tray.child.flip.of(item.tray.stock) == "none"


def has_labels(files: Sequence[SheetFile]) -> bool:
    """Whether the sheets hold labels for bags or trays."""
    return any(is_label(item.piece) for file in files for page in file.pages for item in page.placed)


def has_loose_things(item: GuideSet) -> bool:
    """Whether small things are handled with the set: counters, clothespins or dice."""
    return any(need.what in ("counters", "pegs", "dice") for need in item.needs)


def has_small_parts(sets: Sequence[GuideSet]) -> bool:
    """Whether anything of the sets is a small part: counters, pegs, or a piece cut that small."""
    loose = any(has_loose_things(item) for item in sets)
    cut = (piece for item in sets for piece in item.own if piece.cut)
    return loose or any(min(piece.width, piece.height) <= SMALL_PART for piece in cut)


def sizes_of(pieces: Sequence[Piece]) -> tuple[tuple[float, float], ...]:
    """The different sizes of pieces, each once."""
    return tuple(dict.fromkeys((piece.width, piece.height) for piece in pieces))
