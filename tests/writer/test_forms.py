"""Forms of drawings: gradients, see-through groups and clips reach the page, in color and in gray."""

import io
from dataclasses import replace

import pypdf
import pypdfium2
import pytest

from printkit.forms import form_of
from printkit.pieces import Clip, Drawing, Gradient, Picture, Shape
from printkit.sheets.model import Page
from printkit.writer import write

SQUARE = (("M", 10.0, 10.0), ("L", 90.0, 10.0), ("L", 90.0, 90.0), ("L", 10.0, 90.0), ("Z",))
RED, BLUE = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
# From the left edge of the square to its right edge.
ACROSS = Gradient(
    ends=(0.0, 0.0, 80.0, 0.0),
    stops=((0.0, RED, 1.0), (1.0, BLUE, 1.0)),
    matrix=(1.0, 0.0, 0.0, 1.0, 0.0, 0.0),
    mean=(0.5, 0.0, 0.5),
)
ROUND = replace(ACROSS, ends=(40.0, 40.0, 0.0, 40.0, 40.0, 40.0))
FADING = replace(ACROSS, stops=((0.0, RED, 1.0), (1.0, RED, 0.0)), mean=RED)


def pdf(*shapes: Shape) -> bytes:
    """A page of 100 mm that holds the shapes as one picture."""
    drawing = Drawing(name="rain drop", width=100, height=100, shapes=shapes)
    picture = Picture(drawing=drawing, x=0, y=0, width=100, height=100)
    return write([Page(width=100, height=100, marks=(picture,))], title="test", language="en").data


def seen(*shapes: Shape) -> list[tuple[int, int, int]]:
    """The colors along the middle of the page, at each tenth of its width."""
    document = pypdfium2.PdfDocument(pdf(*shapes))
    try:
        image = document[0].render(scale=200 / document[0].get_width()).to_pil().convert("RGB")
    finally:
        document.close()
    return [image.getpixel((20 * i + 1, 99)) for i in range(10)]


def near(*color: float) -> object:
    return pytest.approx(color, abs=6)


def test_gradients_run_along_their_line():
    """Red at the left edge, blue at the right one, half of each in the middle, white outside."""
    colors = seen(Shape(path=SQUARE, fill=ACROSS.mean, fill_gradient=ACROSS))
    assert colors[0] == (255, 255, 255)
    assert [colors[i] for i in (1, 5, 8)] == [near(252, 0, 3), near(126, 0, 129), near(30, 0, 225)]


def test_gradients_run_from_the_middle_of_their_circle():
    """Red in the middle, more and more blue towards both sides."""
    colors = seen(Shape(path=SQUARE, fill=ROUND.mean, fill_gradient=ROUND))
    assert [colors[i] for i in (1, 3, 5)] == [near(3, 0, 252), near(130, 0, 125), near(251, 0, 4)]


def test_lines_have_gradients_too():
    """A thick line in a gradient; under it the fill is not painted over."""
    line = (("M", 10.0, 50.0), ("L", 90.0, 50.0))
    colors = seen(Shape(path=line, stroke=ACROSS.mean, stroke_width=20, stroke_gradient=ACROSS))
    assert [colors[i] for i in (1, 5)] == [near(252, 0, 3), near(126, 0, 129)]


def test_gradients_fade():
    """A gradient that ends in nothing shows the paper there; at half opacity twice as much of it."""
    shape = Shape(path=SQUARE, fill=RED, fill_gradient=FADING)
    assert [seen(shape)[i] for i in (1, 5, 8)] == [near(255, 3, 3), near(255, 129, 129), near(255, 225, 225)]
    half = seen(replace(shape, fill_opacity=0.5))
    assert [half[i] for i in (1, 5)] == [near(255, 129, 129), near(255, 192, 192)]


def test_gradients_follow_another_color():
    """Recolored, a shape keeps how much it varies; in gray it is written in DeviceGray throughout."""
    gray = 0.2126 * 0.5 + 0.0722 * 0.5
    shape = Shape(path=SQUARE, fill=(round(gray, 4),), fill_gradient=ACROSS)
    colors = seen(shape)
    assert [colors[i] for i in (1, 8)] == [near(*[54] * 3), near(*[23] * 3)]
    form = form_of(Drawing(name="", width=100, height=100, shapes=(shape,)))
    ((_, pattern),) = form.patterns
    assert "DeviceGray" in pattern
    assert "DeviceRGB" not in pattern


def test_groups_are_see_through_as_a_whole():
    """Two squares of one layer at half opacity are no darker where they meet."""
    left = Shape(path=SQUARE, fill=RED, layers=((1, 0.5),))
    moved = tuple((step[0], *(value / 2 + 20 for value in step[1:])) for step in SQUARE)
    colors = seen(left, replace(left, path=moved))
    assert colors[2] == colors[5] == near(255, 128, 128)
    apart = seen(
        replace(left, layers=(), fill_opacity=0.5), replace(left, path=moved, layers=(), fill_opacity=0.5)
    )
    assert apart[5] == near(255, 64, 64)


def test_shapes_show_where_their_clips_do():
    """A clip is measured from the path's start; two clips leave what both hold."""
    right = Clip(paths=((("M", 40.0, 0.0), ("L", 80.0, 0.0), ("L", 80.0, 80.0), ("L", 40.0, 80.0), ("Z",)),))
    narrow = Clip(paths=((("M", 0.0, 0.0), ("L", 60.0, 0.0), ("L", 60.0, 80.0), ("L", 0.0, 80.0), ("Z",)),))
    white, red = (255, 255, 255), (255, 0, 0)
    shape = Shape(path=SQUARE, fill=RED, clips=(right,))
    assert [seen(shape)[i] for i in (2, 5, 8)] == [white, red, red]
    both = seen(replace(shape, clips=(right, narrow)))
    assert [both[i] for i in (2, 5, 8)] == [white, red, white]


def test_a_line_shows_the_fill_beneath_it():
    """SVG 2, 13.3: the line is painted over the fill, so that a half-clear one is mixed with it."""
    shape = Shape(path=SQUARE, fill=RED, stroke=BLUE, stroke_width=40, stroke_opacity=0.5)
    colors = seen(shape)
    assert (colors[0], colors[2], colors[5]) == (near(127, 127, 255), near(128, 0, 127), near(255, 0, 0))


def test_numbers_have_no_exponents():
    """PDF knows none (ISO 32000-1, 7.3.3), however small or large a gradient's numbers are."""
    small = replace(ACROSS, ends=(0.0, 0.0, 8e-7, 0.0), matrix=(1e8, 0.0, 0.0, 1e8, 1e-7, 12345678.9))
    form = form_of(
        Drawing(name="", width=100, height=100, shapes=(Shape(path=SQUARE, fill=RED, fill_gradient=small),))
    )
    ((_, pattern),) = form.patterns
    assert "e" not in pattern.replace("Pattern", "").replace("Type", "").split("/Coords")[1].split("]")[0]
    assert "e" not in pattern.split("/Matrix")[1]


def test_small_drawings_keep_their_details():
    """A drawing one unit wide is written with as many figures as a large one."""
    tiny = Shape(path=(("M", 0.1234, 0.1), ("L", 0.9, 0.1), ("L", 0.9, 0.8)), fill=RED)
    assert "0.1234" in form_of(Drawing(name="", width=1, height=1, shapes=(tiny,))).content


def test_equal_drawings_are_equal_bytes():
    """Everything at once, twice, in one strict file."""
    shapes = (
        Shape(path=SQUARE, fill=RED, fill_gradient=FADING, layers=((1, 0.5),)),
        Shape(path=SQUARE, stroke=BLUE, stroke_width=4, stroke_gradient=ROUND, layers=((1, 0.5), (2, 0.25))),
        Shape(path=SQUARE, fill=BLUE, fill_gradient=ACROSS, clips=(Clip(paths=(SQUARE,), even_odd=True),)),
    )
    data = pdf(*shapes)
    assert data == pdf(*shapes)
    reader = pypdf.PdfReader(io.BytesIO(data), strict=True)
    form = reader.pages[0]["/Resources"]["/XObject"]["/D0"]
    assert set(form["/Resources"]) == {"/ExtGState", "/XObject", "/Pattern"}
    inner = form["/Resources"]["/XObject"]["/X0"]
    masks = [state["/SMask"] for state in inner["/Resources"]["/ExtGState"].values() if "/SMask" in state]
    assert [mask["/S"] for mask in masks] == ["/Luminosity"]
    assert inner["/Group"]["/S"] == "/Transparency"
