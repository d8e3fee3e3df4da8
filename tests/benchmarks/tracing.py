"""Tracing sheets beside the same paths drawn straight with the PDF library: prints the ratio.

Run: python tests/benchmarks/tracing.py. Words 0 to 20 in two languages on A4. Each way runs in a
process of its own with nothing kept from before; imports are not counted. To reach: at most 1.5.
"""

import json
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

PACK = """\
theme = "{theme}"
[[children]]
name = "Wren"
numbers = [0, 20]
languages = ["en", "es"]
materials = ["tracing"]
"""
THEME = Path(__file__).resolve().parents[1] / "fixtures" / "plain"
ROUNDS = 5


def planned(folder: Path):
    """The pack's files, from its text."""
    from printkit.build import plan
    from printkit.materials import material_keys
    from printkit.pack.reader import read_pack

    file = folder / "pack.toml"
    file.write_text(PACK.format(theme=THEME.as_posix()), encoding="utf-8")
    return plan(read_pack(file, material_keys())).files


def ours(folder: Path) -> float:
    """Seconds from the read pack to bytes."""
    import reportlab.pdfbase.pdfdoc  # noqa: F401
    import uharfbuzz  # noqa: F401

    from printkit.build import plan
    from printkit.materials import material_keys
    from printkit.pack.reader import read_pack
    from printkit.writer import write

    file = folder / "pack.toml"
    file.write_text(PACK.format(theme=THEME.as_posix()), encoding="utf-8")
    pack = read_pack(file, material_keys())
    start = time.perf_counter()
    for each in plan(pack).files:
        write(each.pages, title=each.name, language="en")
    return time.perf_counter() - start


def straight(folder: Path) -> float:
    """Seconds for the same lines, dashes and letters, drawn one by one on canvas pages."""
    from reportlab.lib.units import mm
    from reportlab.pdfgen.canvas import Canvas

    from printkit.pieces import Line, Traced

    pages = [
        [(mark, placed.box.left, placed.box.top) for placed in page.placed for mark in placed.marks]
        for each in planned(folder)
        for page in each.pages
    ]
    start = time.perf_counter()
    canvas = Canvas(str(folder / "straight.pdf"), pagesize=(210 * mm, 297 * mm), pageCompression=1)
    for page in pages:
        for mark, left, top in page:
            if isinstance(mark, Line):
                canvas.setLineWidth(mark.line * mm)
                canvas.setDash(*([mark.dash] if mark.dash else []))
                y = (297 - top - mark.y1) * mm
                canvas.line((left + mark.x1) * mm, y, (left + mark.x2) * mm, y)
            elif isinstance(mark, Traced):
                for drawing, dx, dy in mark.letters:
                    for shape in drawing.shapes:
                        draw(canvas, shape, left + mark.x + dx, 297 - top - mark.y - dy, mm)
        canvas.showPage()
    canvas.save()
    return time.perf_counter() - start


def draw(canvas, shape, x: float, y: float, mm: float) -> None:
    """One shape with its top left at (x, y), y up."""
    canvas.setLineWidth(shape.stroke_width * mm)
    canvas.setLineCap(1)
    canvas.setDash([v * mm for v in shape.dash] if shape.dash else [])
    path = canvas.beginPath()
    for name, *v in shape.path:
        points = [(x + a) * mm if i % 2 == 0 else (y - a) * mm for i, a in enumerate(v)]
        if name == "M":
            path.moveTo(*points)
        elif name == "L":
            path.lineTo(*points)
        elif name == "C":
            path.curveTo(*points)
        else:
            path.close()
    canvas.drawPath(path, stroke=int(shape.stroke is not None), fill=int(shape.fill is not None))


def main() -> None:
    """Prints both times and their ratio."""
    if len(sys.argv) > 1:
        with tempfile.TemporaryDirectory() as folder:
            print(json.dumps({"ours": ours, "straight": straight}[sys.argv[1]](Path(folder))))
        return
    found = {
        way: [
            float(subprocess.run([sys.executable, __file__, way], capture_output=True, check=True).stdout)
            for _ in range(ROUNDS)
        ]
        for way in ("ours", "straight")
    }
    own, other = (statistics.median(found[way]) for way in ("ours", "straight"))
    print(f"printkit {own:.3f} s, the same paths straight {other:.3f} s")
    print(f"ratio {own / other:.2f}")


if __name__ == "__main__":
    main()
