"""A card page with 120 motifs beside the same page with shared forms placed straight by the PDF library.

Run: python tests/benchmarks/motifs.py. 120 placements of the motifs of a theme, ten in a row, on A4
and in each ink: prints the bytes of both files and their ratio. To reach: at most 1.2.
"""

import io
from pathlib import Path

from printkit.pictures import built_in, load_theme
from printkit.pictures.motifs import Ink
from printkit.pieces import Drawing, Picture, Shape
from printkit.sheets.model import Page
from printkit.units import POINTS_PER_MM
from printkit.writer import write

WIDTH, HEIGHT, SIZE = 210.0, 297.0, 17.0
COUNT, ACROSS = 120, 10


def pictures(theme: str, ink: Ink) -> list[Picture]:
    """The motifs by turns, in rows."""
    motifs = load_theme(theme, Path(), theme).motifs
    placed = []
    for i in range(COUNT):
        drawing = motifs[i % len(motifs)].drawing(ink, size=SIZE)
        scale = SIZE / max(drawing.width, drawing.height)
        placed.append(
            Picture(
                drawing=drawing,
                x=12 + i % ACROSS * 19,
                y=12 + i // ACROSS * 22,
                width=drawing.width * scale,
                height=drawing.height * scale,
            )
        )
    return placed


def ours(marks: list[Picture]) -> bytes:
    """The page through printkit's writer."""
    page = Page(width=WIDTH, height=HEIGHT, marks=tuple(marks))
    return write([page], title="motifs", language="en").data


def straight(marks: list[Picture]) -> bytes:
    """The page through the PDF library's canvas: each drawing one form, drawn by path objects."""
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0
    out = io.BytesIO()
    canvas = Canvas(
        out, pagesize=(WIDTH * POINTS_PER_MM, HEIGHT * POINTS_PER_MM), invariant=1, pageCompression=1
    )
    names: dict[Drawing, str] = {}
    for mark in marks:
        if mark.drawing not in names:
            names[mark.drawing] = f"D{len(names)}"
            canvas.beginForm(names[mark.drawing], 0, 0, mark.drawing.width, mark.drawing.height)
            canvas.transform(1, 0, 0, -1, 0, mark.drawing.height)
            for shape in mark.drawing.shapes:
                _draw(canvas, shape)
            canvas.endForm()
    for mark in marks:
        scale = mark.width / mark.drawing.width * POINTS_PER_MM
        canvas.saveState()
        canvas.transform(
            scale, 0, 0, scale, mark.x * POINTS_PER_MM, (HEIGHT - mark.y - mark.height) * POINTS_PER_MM
        )
        canvas.doForm(names[mark.drawing])
        canvas.restoreState()
    canvas.save()
    return out.getvalue()


def _draw(canvas, shape: Shape) -> None:
    path = canvas.beginPath()
    methods = {"M": path.moveTo, "L": path.lineTo, "C": path.curveTo}
    for operator, *values in shape.path:
        methods[operator](*values) if operator != "Z" else path.close()
    if shape.fill is not None:
        canvas.setFillColor(_color(shape.fill), alpha=shape.fill_opacity)
    if shape.stroke is not None:
        canvas.setStrokeColor(_color(shape.stroke), alpha=shape.stroke_opacity)
        canvas.setLineWidth(shape.stroke_width)
        canvas.setLineCap(("butt", "round", "square").index(shape.cap))
        canvas.setLineJoin(("miter", "round", "bevel").index(shape.join))
    canvas.drawPath(
        path, fill=shape.fill is not None, stroke=shape.stroke is not None, fillMode=not shape.even_odd
    )


def _color(color):
    from reportlab.lib.colors import Color

    red, green, blue = color * 3 if len(color) == 1 else color
    return Color(red, green, blue)


def main() -> None:
    """Prints a line a theme and ink, and the largest ratio."""
    largest = 0.0
    for theme in built_in():
        for ink in ("color", "gray", "outline"):
            marks = pictures(theme, ink)
            one, two = len(ours(marks)), len(straight(marks))
            largest = max(largest, one / two)
            print(f"{theme:16} {ink:8} {one:8,} bytes, straight {two:8,} bytes, ratio {one / two:.2f}")
    print(f"largest ratio {largest:.2f} (to reach: at most 1.2)")


if __name__ == "__main__":
    main()
