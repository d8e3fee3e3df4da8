"""Gray ink: what lies side by side stays apart on a printer with black ink only."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.pictures.colors import gray
from printkit.pictures.grays import APART, PALEST, neighbors, tones
from printkit.pieces import Color, Shape


def square(left: float, top: float, side: float, color: Color) -> Shape:
    path = (
        ("M", left, top), ("L", left + side, top), ("L", left + side, top + side), ("L", left, top + side), ("Z",)
    )  # fmt: skip
    return Shape(path=path, fill=color)


def level(tone: Color) -> float:
    """ln(L + 0.05) with L as WCAG 2 defines relative luminance."""
    (value,) = tone
    return math.log((value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4) + 0.05)


# 0.2126 * 200 + 0.7152 * 60 = 85.4; 0.7152 * 119 = 85.1: one gray on paper.
RED, GREEN = (200 / 255, 60 / 255, 0.0), (0.0, 119 / 255, 0.0)


def test_colors_meet_where_they_share_an_edge():
    """The left squares touch, the third stands apart from both."""
    blue = (0.0, 0.0, 1.0)
    shapes = [square(0, 0, 40, RED), square(40, 0, 40, GREEN), square(85, 60, 15, blue)]
    assert neighbors(shapes, 100, 100) == [(RED, GREEN)]


def test_a_color_laid_over_another_meets_it():
    """A spot on a square meets the square alone."""
    assert neighbors([square(10, 10, 80, RED), square(30, 30, 20, GREEN)], 100, 100) == [(RED, GREEN)]


def test_neighbors_of_one_luminance_are_moved_apart():
    """Red beside green of the same gray; each moves by half of what it takes."""
    found = tones([square(0, 0, 50, RED), square(50, 0, 50, GREEN)], 100, 100)
    assert abs(level(found[RED]) - level(found[GREEN])) >= math.log(APART)
    assert level(found[RED]) + level(found[GREEN]) == pytest.approx(
        level(gray(RED)) + level(gray(GREEN)), abs=0.01
    )


def test_colors_that_do_not_meet_keep_their_grays():
    """Nothing is moved where nothing need be."""
    shapes = [square(0, 0, 30, RED), square(60, 60, 30, GREEN)]
    assert tones(shapes, 100, 100) == {RED: gray(RED), GREEN: gray(GREEN)}


@given(st.lists(st.tuples(*[st.integers(0, 255)] * 3), min_size=2, max_size=7, unique=True))
def test_stripes_of_any_colors_stay_apart(colors):
    """Each stripe differs from the next; none becomes paler than may be unless it was."""
    stripes = [tuple(part / 255 for part in color) for color in colors]
    wide = 100 / len(stripes)
    shapes = [square(i * wide, 0, wide, color) for i, color in enumerate(stripes)]
    found = tones(shapes, 100, 100)
    for one, two in zip(stripes, stripes[1:], strict=False):
        assert abs(level(found[one]) - level(found[two])) >= math.log(APART)
    for color in stripes:
        assert found[color][0] <= max(PALEST + 1e-3, gray(color)[0])
