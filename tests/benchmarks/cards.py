"""The work 'cards-N': N A4 pages of 3 x 4 counting cards through printkit's own pieces, sheets and writer.

    python tests/benchmarks/cards.py N OUT

Card i (from 0 through the whole document) shows k = i mod 20 + 1 copies of one motif of eight
paths on a 5 x 4 lattice, a 40 pt numeral and the word for k in English and Spanish.
"""

import sys
from pathlib import Path

from printkit import letters
from printkit.pieces import Area, Drawing, Face, Picture, Piece, Shape, Text
from printkit.sheets.batches import Given, Rules, laid_out
from printkit.sheets.foot import front_foot
from printkit.sheets.grid import Frame
from printkit.sheets.model import Page
from printkit.sheets.trimming import cuts_of
from printkit.units import POINTS_PER_MM, Rect
from printkit.words import spell
from printkit.writer import write

FRAME = Frame(width=210.0, height=297.0, margin=6.0)
WIDTH, HEIGHT = 190 / 3, 277 / 4
INK = (0.12, 0.16, 0.22)
DARK, RED = (0.125, 0.188, 0.227), (0.847, 0.267, 0.18)
WHITE, TAN = (1.0, 1.0, 1.0), (0.941, 0.714, 0.353)


def _ellipse(x, y, rx, ry):
    k = 0.5523
    return (
        ("M", x + rx, y),
        ("C", x + rx, y + k * ry, x + k * rx, y + ry, x, y + ry),
        ("C", x - k * rx, y + ry, x - rx, y + k * ry, x - rx, y),
        ("C", x - rx, y - k * ry, x - k * rx, y - ry, x, y - ry),
        ("C", x + k * rx, y - ry, x + rx, y - k * ry, x + rx, y),
        ("Z",),
    )


def _beetle() -> Drawing:
    """Eight filled paths of about seventy operators."""
    legs = tuple(
        step
        for y in (30, 50, 70)
        for step in (
            ("M", 4, y), ("C", 20, y - 8, 40, y - 6, 50, y), ("C", 60, y - 6, 80, y - 8, 96, y),
            ("L", 95, y + 4), ("C", 78, y - 2, 60, y, 50, y + 5), ("C", 40, y, 22, y - 2, 5, y + 4), ("Z",),
        )
    )  # fmt: skip
    paths = (
        (DARK, legs),
        (DARK, _ellipse(50, 58, 36, 38)),
        (DARK, _ellipse(50, 22, 20, 14)),
        (RED, _ellipse(33, 62, 16, 30)),
        (RED, _ellipse(67, 62, 16, 30)),
        (DARK, _ellipse(33, 52, 6, 6) + _ellipse(67, 52, 6, 6) + _ellipse(36, 74, 5, 5)),
        (WHITE, _ellipse(41, 20, 4, 4)),
        (TAN, _ellipse(34, 42, 9, 3)),
    )
    shapes = tuple(Shape(path=path, fill=fill) for fill, path in paths)
    return Drawing(name="beetle", width=100, height=100, shapes=shapes)


def _piece(number: int, count: int, beetle: Drawing, texts) -> Piece:
    side = 27 / POINTS_PER_MM
    across, down = (WIDTH - 16 / POINTS_PER_MM) / 5, 30 / POINTS_PER_MM
    left = 8 / POINTS_PER_MM + (across - side) / 2
    marks = [
        Picture(drawing=beetle, x=left + i % 5 * across, y=2.8 + i // 5 * down, width=side, height=side)
        for i in range(count)
    ]
    for run, base in zip(texts[count], (160, 176, 190), strict=True):
        marks.append(Text(run=run, x=WIDTH / 2 - run.width / 2, y=base / POINTS_PER_MM, color=INK))
    area = Area(box=Rect(0, 0, WIDTH, 45), things=count)
    return Piece(
        child="Wren", set="cards", material="counting-cards", key=str(number), width=WIDTH,
        height=HEIGHT, front=Face(marks=tuple(marks), areas=(area,)),
    )  # fmt: skip


def main(pages: int, out: Path) -> None:
    """Writes the file."""
    beetle = _beetle()
    size = 40 / POINTS_PER_MM
    texts = {
        k: (
            letters.run(str(k), size),
            letters.run(spell("en", k), size * 0.3),
            letters.run(spell("es", k), size * 0.3),
        )
        for k in range(1, 21)
    }
    pieces = [_piece(i, i % 20 + 1, beetle, texts) for i in range(12 * pages)]
    given = [Given(piece=piece, number=number, run="cards") for number, piece in enumerate(pieces)]
    laid, _ = laid_out(given, FRAME, Rules())
    cuts = cuts_of(laid[0].boxes, (FRAME.width, FRAME.height), FRAME.foot)
    sheets = (
        Page(
            width=FRAME.width,
            height=FRAME.height,
            placed=sheet.placed,
            cuts=cuts,
            marks=front_foot(FRAME, f"Wren · cards · card · sheet {n} of {pages}", "50 mm", "2 in"),
        )
        for n, sheet in enumerate(laid, 1)
    )
    out.write_bytes(write(sheets, title="cards", language="en").data)


if __name__ == "__main__":
    main(int(sys.argv[1]), Path(sys.argv[2]))
