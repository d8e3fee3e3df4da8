"""The printed page beside an independent renderer: every promised feature, every built-in motif."""

import io
from pathlib import Path

import numpy
import pypdfium2
import pytest
import resvg_py
from PIL import Image

from printkit.pictures import built_in
from printkit.pictures.svg import read_svg
from printkit.pieces import Drawing, Picture
from printkit.resources import resource
from printkit.sheets.model import Page
from printkit.writer import write

FIXTURES = Path(__file__).resolve().parent.parent / "fixtures" / "svg"
DRAWINGS = sorted(FIXTURES.glob("*.svg"))
MOTIFS = [path for theme in built_in() for path in sorted(resource(f"themes/{theme}").glob("*.svg"))]

PIXELS = 200
# The page is drawn larger and reduced: viewers widen hairlines to a pixel.
OVER = 4


def printed(drawing: Drawing) -> Image.Image:
    """What a PDF viewer shows of a page that holds the drawing and nothing else."""
    height = max(1, round(PIXELS * drawing.height / drawing.width))
    side = 100.0
    picture = Picture(drawing=drawing, x=0, y=0, width=side, height=side * height / PIXELS)
    page = Page(width=picture.width, height=picture.height, marks=(picture,))
    document = pypdfium2.PdfDocument(write([page], title="test", language="en").data)
    try:
        large = document[0].render(scale=PIXELS * OVER / document[0].get_width()).to_pil()
    finally:
        document.close()
    return large.convert("RGB").resize((PIXELS * OVER, height * OVER)).reduce(OVER)


def reference(path: Path, size: tuple[int, int]) -> Image.Image:
    """What resvg draws of the file, on white."""
    png = resvg_py.svg_to_bytes(
        svg_string=path.read_text("utf-8"), width=size[0], height=size[1], background="white", dpi=96
    )
    image = Image.open(io.BytesIO(png)).convert("RGB")
    # Where the height comes to half a pixel, the two round differently.
    return image if image.size == size else image.resize(size)


@pytest.mark.parametrize("path", [*DRAWINGS, *MOTIFS], ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_pages_show_what_another_renderer_shows(path):
    """On the page, the mean difference of all pixels is under one percent of the way from black to white."""
    page = printed(read_svg(path.read_bytes(), path.name).drawing)
    other = reference(path, page.size)
    apart = numpy.abs(numpy.asarray(page, dtype=int) - numpy.asarray(other, dtype=int))
    assert apart.mean() / 255 < 0.01
    # A feature that is lost may be small: few pixels are clearly off.
    assert (apart.max(axis=2) > 24).mean() < 0.02
