"""What is on every page, so that any program can check the pages: made of sheets and facts alone."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, fields, is_dataclass
from typing import Any

from printkit.files import safe_name
from printkit.pack import Child, Pack, Source, Tray
from printkit.pieces import Piece
from printkit.sheets.model import Cut, Page, Placed, SheetFile
from printkit.units import Rect

FORMAT = 1


@dataclass(frozen=True, kw_only=True, slots=True)
class FileRecord:
    """A written PDF as the manifest lists it; `sheet_file` is None for the guide."""

    name: str
    content: str
    pages: tuple[Page, ...]
    paper: tuple[float, float]
    sheet_file: SheetFile | None = None


def piece_id(piece: Piece) -> str:
    """'wren/counting-cards/4'."""
    return "/".join([safe_name(piece.child), safe_name(piece.set), piece.key])


def manifest(pack: Pack, made_with: str, records: Sequence[FileRecord], sha256: Mapping[str, str]) -> bytes:
    """The manifest as JSON text; `sha256` holds the hash of every file moved in, previews too."""
    listed = {record.name for record in records}
    data = {
        "format": FORMAT,
        "title": pack.title,
        "made_with": made_with,
        "seed": pack.seed,
        "settings": settings(pack),
    }
    # File by file, as the plain values of a large pack take more memory than its text.
    files = [_text(_file(record, sha256), "  ") for record in records]
    files += [
        _text({"file": name, "sha256": sha}, "  ") for name, sha in sha256.items() if name not in listed
    ]
    head = _text(data).removesuffix(b"\n}")
    return b"".join([head, b',\n "files": [\n', b",\n".join(files), b"\n ]\n}\n"])


def _text(value: Any, indent: str = "") -> bytes:
    """The value as JSON, each line behind `indent`."""
    text = json.dumps(value, ensure_ascii=False, indent=1)
    return "\n".join(f"{indent}{line}" for line in text.split("\n")).encode()


def settings(pack: Pack) -> dict[str, Any]:
    """Every key of the pack with its defaults filled in, as a pack file would say it.

    `sources` name the level (`pack.levels.Rank`) that says each key that is no default; `users` are the
    children who share, each with its own numbers.
    """
    return {
        "title": pack.title,
        "seed": pack.seed,
        "guide": pack.guide,
        "weeks": pack.weeks,
        **({"family": pack.family} if pack.family else {}),
        "children": [
            {
                **_child(item.child),
                "sources": _sources(item.sources),
                "materials": [
                    {
                        "make": tray.material,
                        "set": tray.set,
                        "stock": tray.stock,
                        **({"size": tray.size} if tray.size is not None else {}),
                        **_changed(tray, item.child),
                        **asdict(tray.settings),
                        **({"sources": _sources(tray.sources)} if tray.sources else {}),
                    }
                    for tray in item.trays
                ],
            }
            for item in pack.children
        ],
    }


def _sources(sources: Sequence[Source]) -> dict[str, str]:
    return {source.key: source.level for source in sources}


def _child(child: Child) -> dict[str, Any]:
    values = {field.name: getattr(child, field.name) for field in fields(child)}
    del values["paper_name"]
    del values["users"]
    if child.users:
        values["users"] = [asdict(user) for user in child.users]
    values["words"] = dict(child.words)
    values["numerals"] = {key: getattr(child.numerals, key) for key in ("one", "four", "seven")}
    values["theme"] = child.theme.name
    values["paper"] = child.paper_name if child.paper_name != "own" else list(child.paper)
    return {
        key: asdict(value) if is_dataclass(value) else list(value) if isinstance(value, tuple) else value
        for key, value in values.items()
    }


def _changed(tray: Tray, child: Child) -> dict[str, Any]:
    """The child's keys that the tray sets anew."""
    mine, theirs = _child(tray.child), _child(child)
    return {key: value for key, value in mine.items() if value != theirs[key]}


def _file(record: FileRecord, sha256: Mapping[str, str]) -> dict[str, Any]:
    file = record.sheet_file
    entry: dict[str, Any] = {"file": record.name}
    if file is not None:
        entry |= {"child": file.child, "stock": file.stock, "flip": _flip(file), "sheets": file.sheets}
    return entry | {
        "paper_mm": list(record.paper),
        "content": record.content,
        "sha256": sha256[record.name],
        "pages": [_page(number, page) for number, page in enumerate(record.pages, 1)],
    }


def _flip(file: SheetFile) -> str:
    """How front and back of this file lie; 'none' when nothing in it has a back."""
    backs = any(page.side == "back" for page in file.pages)
    return file.flip if backs or file.name.endswith("-fronts.pdf") else "none"


def _page(number: int, page: Page) -> dict[str, Any]:
    return {
        "page": number,
        "side": page.side,
        "cuts": [_cut(cut) for cut in page.cuts],
        "pieces": [_placed(item) for item in page.placed],
    }


def _cut(cut: Cut) -> dict[str, Any]:
    """A cut, and where its number stands on the sheet if there was room for it."""
    entry: dict[str, Any] = {"n": cut.n, "from": [cut.x1, cut.y1], "to": [cut.x2, cut.y2]}
    return entry if cut.number is None else entry | {"number_mm": _box(cut.number)}


def _placed(item: Placed) -> dict[str, Any]:
    piece = item.piece
    entry: dict[str, Any] = {
        "id": piece_id(piece),
        "set": piece.set,
        "material": piece.material,
        "turn": item.turn,
        "box_mm": _box(item.box),
    }
    if item.side == "back":
        if piece.control is not None:
            entry["control_mm"] = _box(item.on_page(piece.control))
        return entry
    entry["areas"] = [
        {"box_mm": _box(item.on_page(area.box)), "things": area.things, "ground": area.ground}
        for area in item.areas
    ]
    if piece.zones:
        entry["zones_mm"] = [_box(item.on_page(zone)) for zone in piece.zones]
    if piece.boxes:
        entry["boxes_mm"] = [_box(item.on_page(box)) for box in piece.boxes]
    entry["facts"] = _facts(piece.facts) if piece.facts is not None else {}
    return entry


def _facts(facts: Any) -> dict[str, Any]:
    """The facts of a piece; those marked as sparse only where they say something."""
    silent = {field.name for field in fields(facts) if field.metadata.get("sparse")}
    return {key: value for key, value in asdict(facts).items() if value or key not in silent}


def _box(rect: Rect) -> list[float]:
    return [round(value, 3) + 0.0 for value in rect]
