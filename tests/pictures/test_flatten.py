"""Flattening and rasterising: areas and boxes against geometry, fill rules, lines, opacity."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageStat

from printkit.pictures.flatten import layers, rasterise, shape_bounds
from printkit.pictures.paths import backwards, bounds, oriented
from printkit.pictures.strokes import area, flat, widened
from printkit.pictures.svg import read_svg
from printkit.pieces import BLACK, Clip, Drawing, Gradient, Shape

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


# --- gradients, layers, clips, dashes ----------------------------------------------------------

RED, BLUE = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
# From the left edge of the square to its right edge.
ACROSS = Gradient(
    ends=(0.0, 0.0, 80.0, 0.0),
    stops=((0.0, RED, 1.0), (1.0, BLUE, 1.0)),
    matrix=(1.0, 0.0, 0.0, 1.0, 0.0, 0.0),
    mean=(0.5, 0.0, 0.5),
)


@given(st.integers(100, 300), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_gradients_have_their_color_at_each_point(side, x, y):
    """Along a line the color is that of the share of the way, to a step of 255 and half a pixel."""
    image = rasterise(drawing(Shape(path=SQUARE, fill=ACROSS.mean, fill_gradient=ACROSS)), side)
    column, row = (int((0.12 + 0.75 * each) * side) for each in (x, y))
    share = ((column + 0.5) / side - 0.1) / 0.8
    assert image.getpixel((column, row)) == pytest.approx((255 * (1 - share), 0, 255 * share), abs=2)


@given(st.floats(0, 2 * math.pi), st.floats(0.05, 0.95))
def test_circles_of_a_gradient_have_one_color(angle, share):
    """Between two circles with different middles, each point of the circle in between has its color."""
    focus, middle, radius = (30.0, 40.0), (40.0, 40.0), 40.0
    gradient = replace(ACROSS, ends=(*focus, 0.0, *middle, radius))
    image = rasterise(drawing(Shape(path=SQUARE, fill=ACROSS.mean, fill_gradient=gradient)), 400)
    x = focus[0] + share * (middle[0] - focus[0]) + share * radius * math.cos(angle)
    y = focus[1] + share * (middle[1] - focus[1]) + share * radius * math.sin(angle)
    found = image.getpixel((int(4 * (10 + x)), int(4 * (10 + y))))
    assert found == pytest.approx((255 * (1 - share), 0, 255 * share), abs=4)


def test_gradients_that_fade_cover_less():
    """From solid to clear: on the whole half of the square."""
    fading = replace(ACROSS, stops=((0.0, RED, 1.0), (1.0, RED, 0.0)))
    assert covered(Shape(path=SQUARE, fill=RED, fill_gradient=fading)) == pytest.approx(3200, rel=5e-3)


def test_layers_fade_together():
    """Two squares of one layer are no darker where they meet; what a layer covers fades with it."""
    shapes = [Shape(path=path, fill=RED, layers=((1, 0.5),)) for path in (SQUARE, INNER)]
    image = rasterise(drawing(*shapes), 100)
    assert image.getpixel((20, 20)) == image.getpixel((50, 50)) == pytest.approx((255, 127, 127), abs=1)
    assert covered(*shapes) == pytest.approx(3200, rel=5e-3)


def test_clips_leave_what_they_all_hold():
    """Measured from the path's start: the right half of the square, and of that the upper half."""
    right, upper = (
        Clip(paths=((("M", x, 0), ("L", 80, 0), ("L", 80, y), ("L", x, y), ("Z",)),))
        for x, y in ((40, 80), (0, 40))
    )
    assert covered(Shape(path=SQUARE, fill=BLACK, clips=(right,))) == pytest.approx(3200, abs=1)
    both = Shape(path=SQUARE, fill=BLACK, clips=(right, upper))
    assert covered(both) == pytest.approx(1600, abs=1)
    assert shape_bounds(both, 1e-3) == pytest.approx((50, 10, 90, 50))


@given(
    st.lists(st.floats(1, 12), min_size=2, max_size=4).filter(lambda dash: len(dash) % 2 == 0),
    st.floats(0, 30),
)
def test_dashes_cover_their_share(dash, start):
    """A straight line of butt ends covers the lengths that are on, wherever the pattern starts."""
    line = Shape(
        path=(("M", 10, 50), ("L", 90, 50)), stroke=BLACK, stroke_width=8, dash=tuple(dash), dash_start=start
    )
    edges = [0.0]
    while edges[-1] < start + 80:
        edges.append(edges[-1] + dash[(len(edges) - 1) % len(dash)])
    on = sum(
        max(0.0, min(b, start + 80) - max(a, start)) for a, b in zip(edges[::2], edges[1::2], strict=False)
    )
    assert covered(line) == pytest.approx(8 * on, rel=0.01, abs=2)


@given(st.sampled_from([SQUARE, SQUARE + INNER, SQUARE + INNER_BACK]))
def test_paths_run_backwards_keep_their_area(path):
    """Turned about, a path covers the same; turned the right way, it stays as it is."""
    turned = backwards(path)
    assert covered(Shape(path=turned, fill=BLACK, even_odd=True)) == pytest.approx(
        covered(Shape(path=path, fill=BLACK, even_odd=True)), abs=0.5
    )
    assert oriented(path) == path
    assert sum(area(points) for points, _ in flat(turned, 0.1)) < 0
    assert sum(area(points) for points, _ in flat(oriented(turned), 0.1)) > 0


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
