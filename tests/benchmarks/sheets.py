"""The sheets of both samples through the writer, beside the same marks drawn straight with the PDF library.

    python tests/benchmarks/sheets.py [ROUNDS]

Prints for each sample bytes a page and ms a page of both and their ratios. 'Straight' is what its
handbook leads to: a canvas with its fonts, each drawing a form that is placed again and again, lines,
boxes and words where they stand. It leaves out what its forms cannot do: opacity, gradients, clips, and
the outlines of hollow words, so that it does rather less. Times are the best of ROUNDS, in turns.
"""

import io
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from printkit.build import plan
from printkit.materials import material_keys
from printkit.pack.reader import read_pack
from printkit.pieces import Box, Dot, Drawing, Hollow, Line, Picture, Text, Traced
from printkit.resources import resource
from printkit.sheets import Page, SheetFile
from printkit.units import POINTS_PER_MM as K
from printkit.writer import CUT_COLOR, CUT_DASH, CUT_LINE, write

SAMPLES = Path(__file__).parents[2] / "samples"
MOST_BYTES, MOST_TIME = 1.2, 1.5  # design choice


def main(rounds: int) -> None:
    """Measures each sample and prints a line for it."""
    for file in sorted(SAMPLES.glob("*.toml")):
        files = plan(read_pack(file, material_keys())).files
        pages = sum(len(item.pages) for item in files)
        ours, straight = [], []
        for _ in range(rounds):
            ours.append(measured(_ours, files))
            straight.append(measured(_straight, files))
        (one, fast), (other, plain) = min(ours, key=lambda row: row[1]), min(straight, key=lambda row: row[1])
        print(
            f"{file.stem}: {pages} pages; bytes a page {one / pages:.0f} to {other / pages:.0f}, "
            f"ratio {one / other:.2f} (at most {MOST_BYTES}); ms a page {1000 * fast / pages:.2f} to "
            f"{1000 * plain / pages:.2f}, ratio {fast / plain:.2f} (at most {MOST_TIME})"
        )


def measured(way: Any, files: Sequence[SheetFile]) -> tuple[int, float]:
    """The bytes of all files together, and the seconds they took."""
    start = time.perf_counter()
    size = sum(len(way(file)) for file in files)
    return size, time.perf_counter() - start


def _ours(file: SheetFile) -> bytes:
    return write(file.pages, title=file.name, language="en", duplex=file.duplex, label=file.child).data


# --- straight --------------------------------------------------------------------------------


def _straight(file: SheetFile) -> bytes:
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0  # its usual text encoding of streams would make it a quarter larger
    out = io.BytesIO()
    canvas = Canvas(out, pageCompression=1, invariant=1, initialFontName=_font(_first(file.pages)))
    canvas.setTitle(file.name)
    forms: dict[Drawing, str] = {}
    for number, page in enumerate(file.pages):
        canvas.setPageSize((page.width * K, page.height * K))
        canvas.translate(0, page.height * K)
        for mark in page.bookmarks:
            canvas.bookmarkPage(f"b{number}{mark.title}")
            canvas.addOutlineEntry(mark.title, f"b{number}{mark.title}", mark.level)
        canvas.setStrokeGray(CUT_COLOR[0])
        canvas.setLineWidth(CUT_LINE * K)
        canvas.setDash([step * K for step in CUT_DASH])
        for cut in page.cuts:
            canvas.line(cut.x1 * K, -cut.y1 * K, cut.x2 * K, -cut.y2 * K)
        canvas.setDash()
        _draw(canvas, page.marks, forms)
        for placed in page.placed:
            box = placed.box
            canvas.saveState()
            corner = {
                0: (box.left, box.top),
                90: (box.right, box.top),
                180: (box.right, box.bottom),
                270: (box.left, box.bottom),
            }[placed.turn]
            canvas.translate(corner[0] * K, -corner[1] * K)
            canvas.rotate(-placed.turn)
            _draw(canvas, placed.marks, forms)
            canvas.restoreState()
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _first(pages: Sequence[Page]) -> str:
    return next(mark.run.font for page in pages for mark in page.marks if isinstance(mark, Text))


_REGISTERED: set[str] = set()


def _font(name: str) -> str:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    if name not in _REGISTERED:
        pdfmetrics.registerFont(TTFont(name, str(resource(f"fonts/{name}.ttf"))))
        _REGISTERED.add(name)
    return name


def _draw(canvas: Any, marks: Sequence[Any], forms: dict[Drawing, str]) -> None:
    for mark in marks:
        match mark:
            case Picture():
                _place(canvas, mark, forms)
            case Text() | Hollow():
                canvas.setFillColorRGB(*_rgb(mark.color))
                canvas.setFont(_font(mark.run.font), mark.run.size * K)
                canvas.drawString(mark.x * K, -mark.y * K, mark.run.text)
            case Traced():
                for drawing, dx, dy in mark.letters:
                    _place(canvas, _letter(mark, drawing, dx, dy), forms)
                canvas.setFont(_font(mark.run.font), mark.run.size * K)
                canvas.drawString(mark.x * K, -mark.y * K, mark.run.text, mode=3)
            case Line():
                _pen(canvas, mark.color, mark.line, mark.dash)
                canvas.setLineCap(1 if mark.round_ends else 0)
                canvas.line(mark.x1 * K, -mark.y1 * K, mark.x2 * K, -mark.y2 * K)
            case Box():
                drawn = _paints(canvas, mark)
                size = (mark.x * K, -(mark.y + mark.height) * K, mark.width * K, mark.height * K)
                if mark.radius:
                    canvas.roundRect(*size, mark.radius * K, **drawn)
                else:
                    canvas.rect(*size, **drawn)
            case Dot():
                canvas.circle(mark.x * K, -mark.y * K, mark.radius * K, **_paints(canvas, mark))


def _letter(mark: Traced, drawing: Drawing, dx: float, dy: float) -> Picture:
    return Picture(drawing=drawing, x=mark.x + dx, y=mark.y + dy, width=drawing.width, height=drawing.height)


def _rgb(color: tuple[float, ...]) -> tuple[float, ...]:
    return color * 3 if len(color) == 1 else color


def _pen(canvas: Any, color: tuple[float, ...], width: float, dash: tuple[float, float] | None) -> None:
    canvas.setStrokeColorRGB(*_rgb(color))
    canvas.setLineWidth(width * K)
    canvas.setDash([step * K for step in dash] if dash else [])


def _paints(canvas: Any, mark: Box | Dot) -> dict[str, int]:
    if mark.fill is not None:
        canvas.setFillColorRGB(*_rgb(mark.fill))
    if mark.stroke is not None:
        _pen(canvas, mark.stroke, mark.line, mark.dash)
    return {"fill": int(mark.fill is not None), "stroke": int(mark.stroke is not None)}


def _place(canvas: Any, mark: Picture, forms: dict[Drawing, str]) -> None:
    drawing = mark.drawing
    if drawing not in forms:
        forms[drawing] = f"d{len(forms)}"
        canvas.beginForm(forms[drawing], 0, 0, drawing.width, drawing.height)
        _shapes(canvas, drawing)
        canvas.endForm()
    canvas.saveState()
    canvas.translate((mark.x + mark.width / 2) * K, -(mark.y + mark.height / 2) * K)
    if mark.turn:
        canvas.rotate(-mark.turn)
    across = mark.width * K / drawing.width * (-1 if mark.mirror else 1)
    canvas.scale(across, mark.height * K / drawing.height)
    canvas.translate(-drawing.width / 2, -drawing.height / 2)
    canvas.doForm(forms[drawing])
    canvas.restoreState()


def _shapes(canvas: Any, drawing: Drawing) -> None:
    canvas.translate(0, drawing.height)
    canvas.scale(1, -1)
    for shape in drawing.shapes:
        if shape.fill is not None:
            canvas.setFillColorRGB(*_rgb(shape.fill))
        if shape.stroke is not None:
            canvas.setStrokeColorRGB(*_rgb(shape.stroke))
            canvas.setLineWidth(shape.stroke_width)
            canvas.setLineCap({"butt": 0, "round": 1, "square": 2}[shape.cap])
            canvas.setLineJoin({"miter": 0, "round": 1, "bevel": 2}[shape.join])
            canvas.setDash(list(shape.dash or ()), shape.dash_start)
        path = canvas.beginPath()
        for step in shape.path:
            match step[0]:
                case "M":
                    path.moveTo(*step[1:])
                case "L":
                    path.lineTo(*step[1:])
                case "C":
                    path.curveTo(*step[1:])
                case "Z":
                    path.close()
        canvas.drawPath(
            path,
            fill=int(shape.fill is not None),
            stroke=int(shape.stroke is not None),
            fillMode=0 if shape.even_odd else 1,
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3)
