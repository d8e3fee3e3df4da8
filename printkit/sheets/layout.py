"""Pieces -> the files of a child: sheets by stock, fronts and backs in the printer's order.

Pieces are grouped by what can share a sheet: one stock, one paper and margin, one way of turning over.
Sheets without any back have a file of their own.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from printkit.pack import Tray
from printkit.pieces import Piece, Stock, Text
from printkit.sheets.batches import Given, Rules, Sheet, laid_out
from printkit.sheets.corners import with_corner
from printkit.sheets.duplex import Shift, behind, margin_with
from printkit.sheets.foot import back_foot, front_foot, with_mark
from printkit.sheets.grid import Frame
from printkit.sheets.model import Bookmark, Cut, Flip, Page, Placed, SheetFile
from printkit.sheets.numbers import numbered
from printkit.sheets.trimming import cuts_of
from printkit.texts import Catalogue
from printkit.units import Rect


@dataclass(frozen=True, kw_only=True, slots=True)
class SetPieces:
    """A tray and its pieces, as they go to the sheets; sets of one `run` are kept together."""

    tray: Tray
    pieces: tuple[Piece, ...]
    run: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Group:
    """What can share a sheet."""

    stock: Stock
    flip: Flip
    paper: tuple[float, float]
    paper_name: str
    margin: float
    back_shift: Shift

    @property
    def frame(self) -> Frame:
        return Frame(width=self.paper[0], height=self.paper[1], margin=self.margin)

    def backed(self, piece: Piece) -> bool:
        """Whether something is printed on the piece's back."""
        return piece.back is not None and self.flip != "none"


@dataclass(frozen=True, kw_only=True, slots=True)
class _Pile:
    """The sheets that one file holds."""

    group: _Group
    backs: bool
    sheets: tuple[Sheet, ...]


def frame_of(tray: Tray) -> Frame:
    """The paper of a tray and its margins, wider where its backs are moved far."""
    margin = margin_with(tray.child.margin, _shift(tray))
    return Frame(width=tray.child.paper[0], height=tray.child.paper[1], margin=margin)


def _shift(tray: Tray) -> Shift:
    return (0.0, 0.0) if tray.child.flip.of(tray.stock) == "none" else tray.child.back_shift


def sheet_files(name: str, sets: Sequence[SetPieces], texts: Catalogue) -> tuple[SheetFile, ...]:
    """The files of one child, `name` being the safe form of the child's name.

    Every piece must fit its sheet. With flip 'none' nothing has a back on paper.
    """
    groups: dict[_Group, list[SetPieces]] = {}
    for item in sets:
        child = item.tray.child
        group = _Group(
            stock=item.tray.stock, flip=child.flip.of(item.tray.stock), paper=child.paper,
            paper_name=child.paper_name, margin=frame_of(item.tray).margin, back_shift=_shift(item.tray),
        )  # fmt: skip
        groups.setdefault(group, []).append(item)
    piles: list[_Pile] = []
    bounds: dict[_Group, int] = {}
    for group, own in groups.items():
        sheets, bounds[group] = _sheets(group, own)
        for backs in (True, False):
            kept = tuple(sheet for sheet in sheets if _backed(sheet, group) == backs)
            piles += [_Pile(group=group, backs=backs, sheets=kept)] if kept else []
    piles.sort(key=lambda pile: (pile.group.stock, not pile.backs))
    files: list[SheetFile] = []
    for pile in piles:
        first = not any(other.group == pile.group for other in piles[: piles.index(pile)])
        least = bounds[pile.group] if first else 0
        files += _files(_file_base(name, pile, piles), pile, least, texts)
    return tuple(files)


def _backed(sheet: Sheet, group: _Group) -> bool:
    return any(group.backed(item.piece) for item in sheet.placed)


def _sheets(group: _Group, sets: Sequence[SetPieces]) -> tuple[list[Sheet], int]:
    """The sheets of a group, and how many no layout can do without; sets with other rules lie apart."""
    batches: dict[Rules, list[Given]] = {}
    number = 0
    for item in sets:
        child = item.tray.child
        rules = Rules(save=child.save, gap=child.gap, stack=child.stack)
        for piece in item.pieces:
            marked = with_corner(with_mark(piece, group.flip != "none"), child.corner)
            given = Given(
                piece=marked, number=number, run=item.run or item.tray.set, side=group.backed(piece)
            )
            batches.setdefault(rules, []).append(given)
            number += 1
    made = [laid_out(given, group.frame, rules) for rules, given in batches.items()]
    sheets = sorted((sheet for own, _ in made for sheet in own), key=lambda sheet: sheet.order)
    return sheets, sum(least for _, least in made)


def _file_base(name: str, pile: _Pile, piles: Sequence[_Pile]) -> str:
    """<child>-card, with what else sets the file apart from the child's others."""
    group = pile.group
    same_stock = [other for other in piles if other.group.stock == group.stock]
    parts = [name, group.stock]
    if len({other.group.paper for other in same_stock}) > 1:
        named = group.paper_name != "own"
        parts.append(group.paper_name if named else f"{group.paper[0]:g}x{group.paper[1]:g}")
    if len({other.group.margin for other in same_stock}) > 1:
        parts.append(f"margin-{group.margin:g}".replace(".", "-"))
    if len({other.group.flip for other in same_stock if other.backs == pile.backs}) > 1:
        parts.append(f"flip-{group.flip}")
    if len({other.group.back_shift for other in same_stock if other.backs == pile.backs}) > 1:
        parts.append(f"shift-{group.back_shift[0]:g}-{group.back_shift[1]:g}".replace(".", "-"))
    if not pile.backs and any(other.backs for other in same_stock):
        parts.append("onesided")
    return "-".join(parts)


def _files(base: str, pile: _Pile, least: int, texts: Catalogue) -> list[SheetFile]:
    group = pile.group
    stock = texts.say(f"sheet.{group.stock}")
    if base.endswith("-onesided"):
        stock = texts.say("sheet.onesided", stock=stock)
    pages = list(_pages(pile, stock, texts))
    child = pile.sheets[0].placed[0].piece.child

    def file(name: str, kept: Iterable[Page], duplex: str) -> SheetFile:
        return SheetFile(
            name=f"{name}.pdf", child=child, stock=group.stock, flip=group.flip, paper=group.paper,
            pages=tuple(kept), duplex=duplex, sheets=len(pile.sheets), least=least,
        )  # fmt: skip

    if pile.backs and group.flip == "hand":
        return [
            file(f"{base}-fronts", (page for page in pages if page.side == "front"), "none"),
            file(f"{base}-backs", (page for page in pages if page.side == "back"), "none"),
        ]
    return [file(base, pages, group.flip if pile.backs else "none")]


def _whole(placed: Sequence[Placed]) -> str:
    """' 3/8': the number of a sheet that is used whole, as cut pieces have it in their corner; else ''."""
    marks = [item.piece.mark for item in placed if not item.piece.cut]
    return f" {marks[0].rpartition(' ')[2]}" if len(marks) == len(placed) == 1 and marks[0] else ""


def _pages(pile: _Pile, stock: str, texts: Catalogue) -> Iterable[Page]:
    group, frame = pile.group, pile.group.frame
    told: set[str] = set()
    known: dict[tuple[Rect, ...], tuple[tuple[Cut, ...], tuple[Text, ...]]] = {(): ((), ())}
    hand = texts.say("sheet.first") if pile.backs and group.flip == "hand" else ""
    for n, sheet in enumerate(pile.sheets, 1):
        placed = sheet.placed
        if sheet.boxes not in known:
            plain = cuts_of(sheet.boxes, group.paper, frame.foot)
            known[sheet.boxes] = numbered(plain, sheet.boxes, frame)
        cuts, numbers = known[sheet.boxes]
        sets = list(dict.fromkeys(item.piece.set for item in placed))
        new = [name for name in sets if name not in told]
        told.update(new)
        bookmarks = tuple(Bookmark(title=name) for name in new)
        words = {
            "child": placed[0].piece.child,
            "sets": ", ".join(sets) + _whole(placed),
            "stock": stock,
            "n": n,
            "total": len(pile.sheets),
        }
        yield Page(
            width=frame.width,
            height=frame.height,
            side="front",
            placed=placed,
            cuts=cuts,
            margin=frame.margin,
            marks=(
                *numbers,
                *front_foot(
                    frame,
                    texts.say("sheet.foot", **words),
                    texts.say("sheet.bar_mm"),
                    texts.say("sheet.bar_in"),
                    hand,
                ),
            ),
            bookmarks=bookmarks,
        )
        if pile.backs:
            yield Page(
                width=frame.width,
                height=frame.height,
                side="back",
                placed=tuple(behind(item, group.flip, group.paper, group.back_shift) for item in placed),
                marks=back_foot(
                    frame, texts.say("sheet.back", **words), group.flip == "short", hand, group.back_shift
                ),
                bookmarks=bookmarks if group.flip == "hand" else (),
            )
