"""Flattening and rasterising: areas and boxes against geometry, fill rules, lines, opacity."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageStat

from printkit.pictures.flatten import layers, rasterise, shape_bounds
from printkit.pictures.paths import bounds
from printkit.pictures.strokes import area, flat, widened
from printkit.pictures.svg import read_svg
from printkit.pieces import BLACK, Drawing, Shape

SQUARE = (("M", 10, 10), ("L", 90, 10), ("L", 90, 90), ("L", 10, 90), ("Z",))
INNER = (("M", 30, 30), ("L", 70, 30), ("L", 70, 70), ("L", 30, 70), ("Z",))
INNER_BACK = (INNER[0], *INNER[3:0:-1], ("Z",))


def drawing(*shapes: Shape) -> Drawing:
    return Drawing(name="test", width=100, height=100, shapes=shapes)


def covered(*shapes: Shape) -> float:
    """The area covered, in square units of the drawing; rows are a sixteenth of a unit high."""
    _, cover = layers(drawing(*shapes), 400, 400)
    return ImageStat.Stat(cover).sum[0] / 255 / 16


def circle(radius: float) -> tuple:
    art = read_svg(
        f'<svg viewBox="0 0 100 100"><circle cx="50" cy="50" r="{radius}"/></svg>'.encode(), "disc"
    )
    return art.items[0].shape.path


@given(st.floats(1, 45))
def test_discs_cover_their_area(radius):
    """A disc covers pi r2, to a part in two hundred and a quarter of a square unit."""
    expected = math.pi * radius**2
    found = covered(Shape(path=circle(radius), fill=BLACK))
    assert found == pytest.approx(expected, rel=0.005, abs=0.25)


@pytest.mark.parametrize(
    ("inner", "even_odd", "expected"),
    [(INNER, False, 6400), (INNER, True, 4800), (INNER_BACK, False, 4800), (INNER_BACK, True, 4800)],
)
def test_fill_rules_decide_what_is_a_hole(inner, even_odd, expected):
    """SVG 2, 13.4.2: by nonzero only a path that runs back cuts a hole, by evenodd any."""
    shape = Shape(path=SQUARE + inner, fill=BLACK, even_odd=even_odd)
    assert covered(shape) == pytest.approx(expected, abs=0.5)


@given(st.floats(0.5, 30), st.floats(5, 80), st.sampled_from(["butt", "square", "round"]))
def test_lines_cover_their_length_and_width(width, length, cap):
    """A straight line covers length times width, and what its ends add, to the height of a row."""
    middle, start = 50.0, 50 - length / 2
    path = (("M", start, middle), ("L", start + length, middle))
    ends = {"butt": 0, "square": width**2, "round": math.pi * width**2 / 4}[cap]
    left, right = start - width / 2, start + length + width / 2
    if left > 0 and right < 100:
        found = covered(Shape(path=path, stroke=BLACK, stroke_width=width, cap=cap))
        assert found == pytest.approx(length * width + ends, rel=0.01, abs=(length + width) / 16)


@pytest.mark.parametrize(
    ("join", "expected"),
    # Two bars of 10 x 40 that meet at a right angle, and the corner: 25 in common, 25, 25 pi / 4 or
    # 12.5 added outside.
    [("miter", 800 - 25 + 25), ("round", 800 - 25 + 25 * math.pi / 4), ("bevel", 800 - 25 + 12.5)],
)
def test_joins_fill_the_corner(join, expected):
    """A right angle is closed by a square, a quarter disc or a triangle."""
    path = (("M", 20, 60), ("L", 60, 60), ("L", 60, 20))
    assert covered(Shape(path=path, stroke=BLACK, stroke_width=10, join=join)) == pytest.approx(
        expected, abs=0.5
    )


def test_sharp_miters_are_cut():
    """SVG 2, 13.5.5: a miter of more than four widths, below 29 degrees, is beveled."""

    def tip(degrees: float) -> float:
        reach = 40 * math.tan(math.radians(degrees / 2))
        path = (("M", 50 - reach, 90), ("L", 50, 50), ("L", 50 + reach, 90))
        return shape_bounds(Shape(path=path, stroke=BLACK, stroke_width=8), 1e-3)[1]

    assert tip(30) == pytest.approx(50 - 4 / math.sin(math.radians(15)), abs=1e-6)
    assert tip(28) > 45.9


def test_crossings_of_one_line_count_once():
    """A half-transparent line that crosses itself is no darker at the crossing."""
    path = (("M", 20, 20), ("L", 80, 80), ("L", 80, 20), ("L", 20, 80))
    image = rasterise(drawing(Shape(path=path, stroke=BLACK, stroke_width=10, stroke_opacity=0.5)), 100)
    assert image.getpixel((50, 50)) == image.getpixel((30, 30)) == pytest.approx((127, 127, 127), abs=1)


def test_dots_are_lines_without_length():
    """SVG 2, 13.5.4: a point is a disc with round ends, a square with square ones, else nothing."""
    for cap, expected in (("butt", 0), ("square", 100), ("round", 25 * math.pi)):
        shape = Shape(path=(("M", 50, 50), ("Z",)), stroke=BLACK, stroke_width=10, cap=cap)
        assert covered(shape) == pytest.approx(expected, abs=0.5)


def test_colors_lie_over_one_another():
    """Half-transparent blue over red is the mean of the two; outside, the paper stays white."""
    red = Shape(path=SQUARE, fill=(1.0, 0.0, 0.0))
    blue = Shape(path=INNER, fill=(0.0, 0.0, 1.0), fill_opacity=0.5)
    image = rasterise(drawing(red, blue), 100)
    assert [image.getpixel(at) for at in ((50, 50), (20, 20), (5, 5))] == [
        pytest.approx((127, 0, 128), abs=1),
        (255, 0, 0),
        (255, 255, 255),
    ]


def test_drawings_keep_their_proportions():
    """Without a height the image has the drawing's own; with one the drawing is centered."""
    wide = Drawing(name="test", width=100, height=50, shapes=(Shape(path=SQUARE, fill=BLACK),))
    assert rasterise(wide, 80).size == (80, 40)
    assert rasterise(wide, 80, 80).size == (80, 80)
    assert rasterise(wide, 80, 80).getpixel((40, 19)) == (255, 255, 255)
    assert rasterise(wide, 80, 80).getpixel((40, 30)) == (0, 0, 0)


def test_what_reaches_out_of_the_box_is_cut_off():
    """The drawing is clipped to its box, as in the PDF, though the image has room beside it."""
    narrow = Drawing(name="test", width=40, height=100, shapes=(Shape(path=SQUARE, fill=BLACK),))
    image = rasterise(narrow, 100, 100)
    assert [image.getpixel((x, 50)) for x in (29, 31, 69, 71)] == [
        (255, 255, 255), (255, 255, 255), (0, 0, 0), (255, 255, 255)
    ]  # fmt: skip


# --- lines and boxes ---------------------------------------------------------------------------

numbers = st.floats(0, 100).map(lambda value: round(value, 2))
points = st.tuples(numbers, numbers)
curves = st.tuples(points, points, points, points)


@given(curves)
def test_boxes_of_curves_are_tight(curve):
    """The box of a curve holds every point of it, and each of its sides is touched."""
    (start, *rest) = curve
    path = (("M", *start), ("C", *(value for point in rest for value in point)))
    left, top, right, bottom = bounds(path)
    ((line, closed),) = flat(path, 1e-4)
    assert not closed
    xs, ys = zip(*line, strict=True)
    assert (min(xs), min(ys), max(xs), max(ys)) == pytest.approx((left, top, right, bottom), abs=2e-2)
    assert left - 1e-9 <= min(xs)
    assert max(xs) <= right + 1e-9


@given(st.lists(points, min_size=1, max_size=6), st.booleans(), st.floats(0.1, 20))
def test_polygons_of_a_line_all_turn_the_same_way(line, closed, width):
    """Only then is their union what the nonzero rule fills."""
    for cap, join in (("butt", "miter"), ("round", "round"), ("square", "bevel")):
        for polygon in widened(line, closed, width, cap, join, 0.01):
            assert area(polygon) >= 0


@given(st.floats(1, 40), st.floats(0.5, 18))
def test_boxes_of_rings_take_the_width_into_account(radius, width):
    """The box of a circle's line reaches half its width beyond the circle."""
    shape = Shape(path=circle(radius), stroke=BLACK, stroke_width=width, cap="round", join="round")
    reach = radius + width / 2
    assert shape_bounds(shape, 1e-3) == pytest.approx(
        (50 - reach, 50 - reach, 50 + reach, 50 + reach), abs=2e-3
    )
    sharp = Shape(path=circle(radius), stroke=BLACK, stroke_width=width)
    assert shape_bounds(sharp, 1e-3) == pytest.approx(
        (50 - reach, 50 - reach, 50 + reach, 50 + reach), abs=1e-2
    )
