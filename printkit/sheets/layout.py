"""Pieces -> the files of a child: sheets by stock, fronts and backs in the printer's order.

Pieces are grouped by what one file can hold: one stock, one paper, one way of turning over,
with or without backs.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from printkit.pack import Tray
from printkit.pieces import Piece, Stock
from printkit.sheets.duplex import behind
from printkit.sheets.foot import back_foot, front_foot, with_mark
from printkit.sheets.grid import Frame, Row, cuts, place, rows, stacked
from printkit.sheets.model import Bookmark, Flip, Page, SheetFile
from printkit.texts import Catalogue


@dataclass(frozen=True, kw_only=True, slots=True)
class SetPieces:
    """A tray and its pieces, as they go to the sheets."""

    tray: Tray
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Group:
    """What one file can hold."""

    stock: Stock
    flip: Flip
    paper: tuple[float, float]
    paper_name: str
    margin: float
    backs: bool


def frame_of(tray: Tray) -> Frame:
    """The paper of a tray and its margins."""
    return Frame(width=tray.child.paper[0], height=tray.child.paper[1], margin=tray.child.margin)


def sheet_files(name: str, sets: Sequence[SetPieces], texts: Catalogue) -> tuple[SheetFile, ...]:
    """The files of one child, `name` being the safe form of the child's name.

    Every piece must fit its sheet. With flip 'none' nothing has a back on paper.
    """
    groups: dict[_Group, list[SetPieces]] = {}
    for item in sets:
        for backs in (True, False):
            flip = item.tray.child.flip.of(item.tray.stock)
            pieces = tuple(
                piece for piece in item.pieces if (piece.back is not None and flip != "none") == backs
            )
            if pieces:
                group = _Group(
                    stock=item.tray.stock, flip=flip, paper=item.tray.child.paper,
                    paper_name=item.tray.child.paper_name, margin=item.tray.child.margin, backs=backs,
                )  # fmt: skip
                groups.setdefault(group, []).append(replace(item, pieces=pieces))
    ordered = sorted(groups, key=lambda group: (group.stock, not group.backs))
    files: list[SheetFile] = []
    for group in ordered:
        base = _file_base(name, group, ordered)
        files += _files(base, group, groups[group], texts)
    return tuple(files)


def _file_base(name: str, group: _Group, groups: Sequence[_Group]) -> str:
    """<child>-card, with what else sets the file apart from the child's others."""
    same_stock = [other for other in groups if other.stock == group.stock]
    parts = [name, group.stock]
    if len({other.paper for other in same_stock}) > 1:
        named = group.paper_name != "own"
        parts.append(group.paper_name if named else f"{group.paper[0]:g}x{group.paper[1]:g}")
    if len({other.margin for other in same_stock}) > 1:
        parts.append(f"margin-{group.margin:g}".replace(".", "-"))
    if len({other.flip for other in same_stock if other.backs == group.backs}) > 1:
        parts.append(f"flip-{group.flip}")
    if not group.backs and any(other.backs for other in same_stock):
        parts.append("onesided")
    return "-".join(parts)


def _files(base: str, group: _Group, sets: Sequence[SetPieces], texts: Catalogue) -> list[SheetFile]:
    frame = Frame(width=group.paper[0], height=group.paper[1], margin=group.margin)
    pieces = [with_mark(piece, group.backs) for item in sets for piece in item.pieces]
    sheets = stacked(rows(pieces, frame.room), frame.room[1])
    pages = list(_pages(sheets, group, frame, texts))
    child = sets[0].tray.child.name

    def file(name: str, kept: Iterable[Page], duplex: str) -> SheetFile:
        return SheetFile(
            name=f"{name}.pdf", child=child, stock=group.stock, flip=group.flip, paper=group.paper,
            pages=tuple(kept), duplex=duplex, sheets=len(sheets),
        )  # fmt: skip

    if group.backs and group.flip == "hand":
        return [
            file(f"{base}-fronts", (page for page in pages if page.side == "front"), "none"),
            file(f"{base}-backs", (page for page in pages if page.side == "back"), "none"),
        ]
    return [file(base, pages, group.flip if group.backs else "none")]


def _pages(
    sheets: Sequence[tuple[Row, ...]], group: _Group, frame: Frame, texts: Catalogue
) -> Iterable[Page]:
    told: set[str] = set()
    hand = texts.say("sheet.first") if group.backs and group.flip == "hand" else ""
    for n, sheet in enumerate(sheets, 1):
        placed = place(sheet, frame)
        sets = list(dict.fromkeys(item.piece.set for item in placed))
        new = [name for name in sets if name not in told]
        told.update(new)
        bookmarks = tuple(Bookmark(title=name) for name in new)
        words = {
            "child": placed[0].piece.child,
            "sets": ", ".join(sets),
            "stock": texts.say(f"sheet.{group.stock}"),
            "n": n,
            "total": len(sheets),
        }
        yield Page(
            width=frame.width,
            height=frame.height,
            side="front",
            placed=placed,
            cuts=cuts(sheet, frame),
            margin=frame.margin,
            marks=front_foot(
                frame,
                texts.say("sheet.foot", **words),
                texts.say("sheet.bar_mm"),
                texts.say("sheet.bar_in"),
                hand,
            ),
            bookmarks=bookmarks,
        )
        if group.backs:
            yield Page(
                width=frame.width,
                height=frame.height,
                side="back",
                placed=tuple(behind(item, group.flip, group.paper) for item in placed),
                marks=back_foot(frame, texts.say("sheet.back", **words), group.flip == "short", hand),
                bookmarks=bookmarks if group.flip == "hand" else (),
            )
