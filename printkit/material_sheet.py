"""Pieces of every material on paper, made as a pack would make them: the picture in README."""

import tempfile
import zlib
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

from printkit import letters
from printkit.materials import Material, Room, material_keys, materials
from printkit.materials.layout import picture
from printkit.pack import Tray
from printkit.pack.reader import read_pack
from printkit.pictures import built_in
from printkit.pieces import Color, Drawing, Mark, Piece, Raster, Text
from printkit.sheets import frame_of
from printkit.sheets.model import Page, Side
from printkit.shown import page_images, piece_page, write_shown
from printkit.units import PAPERS, Rect, micrometres

_WIDE, _HIGH = PAPERS["a4"]
_MARGIN = 10.0
_COLUMNS, _ROWS = 2, 4
_ACROSS = (_WIDE - 2 * _MARGIN) / _COLUMNS
_DOWN = (_HIGH - 2 * _MARGIN) / _ROWS
_GAP = 4.0
_CAPTION = 16.0
_INK: Color = (0.12,)
_QUIET: Color = (0.42,)
_DPI = 200
_CHILD = """\
theme = "{theme}"
languages = ["en", "es"]
flip = "long"
seed = 5
[[children]]
name = "Wren"
numbers = [1, 8]
sums_to = 8
lookalike = 4
materials = ["{material}"]
"""


def write_material_sheet(file: Path) -> None:
    """Writes the sheet as a PDF or a PNG (see `shown`). Raises PrintkitError, OSError."""
    write_shown(material_pages(), file, title="Materials", kind="materials", dpi=110)


def material_pages() -> tuple[Page, ...]:
    """A4 pages with two or three faces of each material, its name and its one line."""
    cells = [
        _cell(item, theme, number % (_COLUMNS * _ROWS))
        for number, (item, theme) in enumerate(zip(materials().values(), _themes(), strict=False))
    ]
    many = _COLUMNS * _ROWS
    return tuple(
        Page(
            width=_WIDE,
            height=_HIGH,
            marks=tuple(mark for cell in cells[first : first + many] for mark in cell),
        )
        for first in range(0, len(cells), many)
    )


def _themes() -> Iterator[str]:
    """The built-in themes by turns, without end."""
    while True:
        yield from built_in()


def _cell(material: Material, theme: str, place: int) -> list[Mark]:
    left = _MARGIN + _ACROSS * (place % _COLUMNS)
    top = _MARGIN + _DOWN * (place // _COLUMNS)
    room = Rect(left, top, _ACROSS - _GAP, _DOWN - _CAPTION - _GAP)
    marks: list[Mark] = list(_faces(_pieces(material, theme), room))
    base = room.bottom + 5.5
    marks.append(_text(material.name, left, base, 4.2, bold=True, color=_INK))
    line = f"{material.line[:1].upper()}{material.line[1:]}."
    for i, words in enumerate(letters.wrap(line, 2.9, _ACROSS - _GAP)):
        marks.append(_text(words, left, base + 4.2 * (i + 1), 2.9, bold=False, color=_QUIET))
    return marks


def _text(text: str, x: float, base: float, size: float, *, bold: bool, color: Color) -> Text:
    run = letters.run(text, size, bold=bold)
    return Text(run=run, x=micrometres(x), y=micrometres(base), color=color)


def _pieces(material: Material, theme: str) -> Sequence[Piece]:
    tray = _tray(material.name, theme)
    made = material.make(5, tray, Room(*frame_of(tray).room))
    return made.pieces


def _tray(material: str, theme: str) -> Tray:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "pack.toml"
        file.write_text(_CHILD.format(theme=theme, material=material), encoding="utf-8")
        return read_pack(file, material_keys()).children[0].trays[0]


def _faces(pieces: Sequence[Piece], room: Rect) -> Iterator[Mark]:
    """The largest piece, one of the usual size and a back if there is any, as large as the room allows."""
    largest = max(pieces, key=lambda piece: piece.width * piece.height)
    sizes = Counter((piece.width, piece.height) for piece in pieces)
    usual = [piece for piece in pieces if (piece.width, piece.height) == sizes.most_common(1)[0][0]]
    shown: list[tuple[Piece, Side]] = [(largest, "front")]
    other = usual[len(usual) // 2]
    if other is not largest:
        shown.append((other, "front"))
    if shown[-1][0].back is not None:
        shown.append((shown[-1][0], "back"))
    gaps = _GAP * (len(shown) - 1)
    wide = sum(piece.width for piece, _ in shown)
    if wide / (room.width - gaps) > 2.2 * max(piece.height for piece, _ in shown) / room.height:
        yield from _under_each_other(shown, room)
        return
    scale = min((room.width - gaps) / wide, room.height / max(piece.height for piece, _ in shown))
    x = room.left
    for piece, side in shown:
        size = (piece.width * scale, piece.height * scale)
        yield picture(_drawn(piece, side), Rect(x, room.bottom - size[1], *size))
        x += size[0] + _GAP


def _under_each_other(shown: Sequence[tuple[Piece, Side]], room: Rect) -> Iterator[Mark]:
    high = sum(piece.height for piece, _ in shown)
    gaps = _GAP * (len(shown) - 1)
    scale = min((room.height - gaps) / high, room.width / max(piece.width for piece, _ in shown))
    y = room.bottom - high * scale - gaps
    for piece, side in shown:
        size = (piece.width * scale, piece.height * scale)
        yield picture(_drawn(piece, side), Rect(room.left, y, *size))
        y += size[1] + _GAP


def _drawn(piece: Piece, side: Side) -> Drawing:
    """One side of a piece in pixels, on a page of its own size."""
    from printkit.writer import write

    (image,) = page_images(write([piece_page(piece, side)], title=piece.key, language="en").data, _DPI)
    raster = Raster(
        data=zlib.compress(image.tobytes(), 9),
        filter="FlateDecode",
        width_px=image.width,
        height_px=image.height,
        channels=3,
    )
    return Drawing(
        name=f"{piece.material} {piece.key} {side}", width=image.width, height=image.height, raster=raster
    )
