"""Colors against published values: CIEDE2000, CIELAB, the luma weights of Rec. 709."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.pictures.colors import ciede2000, difference, from_hex, gray, lab, plain

# Sharma, Wu and Dalal, 'The CIEDE2000 color-difference formula', Color Research and Application
# 30(1):21-30, 2005, Table 1: L a b of both colors and their difference.
SHARMA = [
    ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
    ((50, 3.1571, -77.2803), (50, 0, -82.7485), 2.8615),
    ((50, 2.8361, -74.0200), (50, 0, -82.7485), 3.4412),
    ((50, -1.3802, -84.2814), (50, 0, -82.7485), 1.0000),
    ((50, -1.1848, -84.8006), (50, 0, -82.7485), 1.0000),
    ((50, -0.9009, -85.5211), (50, 0, -82.7485), 1.0000),
    ((50, 0, 0), (50, -1, 2), 2.3669),
    ((50, -1, 2), (50, 0, 0), 2.3669),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0009), 7.1792),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0010), 7.1792),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0011), 7.2195),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0012), 7.2195),
    ((50, -0.0010, 2.4900), (50, 0.0009, -2.4900), 4.8045),
    ((50, -0.0010, 2.4900), (50, 0.0010, -2.4900), 4.8045),
    ((50, -0.0010, 2.4900), (50, 0.0011, -2.4900), 4.7461),
    ((50, 2.5, 0), (50, 0, -2.5), 4.3065),
    ((50, 2.5, 0), (73, 25, -18), 27.1492),
    ((50, 2.5, 0), (61, -5, 29), 22.8977),
    ((50, 2.5, 0), (56, -27, -3), 31.9030),
    ((50, 2.5, 0), (58, 24, 15), 19.4535),
    ((50, 2.5, 0), (50, 3.1736, 0.5854), 1.0000),
    ((50, 2.5, 0), (50, 3.2972, 0), 1.0000),
    ((50, 2.5, 0), (50, 1.8634, 0.5757), 1.0000),
    ((50, 2.5, 0), (50, 3.2592, 0.3350), 1.0000),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((63.0109, -31.0961, -5.8663), (62.8187, -29.7946, -4.0864), 1.2630),
    ((61.2901, 3.7196, -5.3901), (61.4292, 2.2480, -4.9620), 1.8731),
    ((35.0831, -44.1164, 3.7933), (35.0232, -40.0716, 1.5901), 1.8645),
    ((22.7233, 20.0904, -46.6940), (23.0331, 14.9730, -42.5619), 2.0373),
    ((36.4612, 47.8580, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
    ((90.8027, -2.0831, 1.4410), (91.1528, -1.6435, 0.0447), 1.4441),
    ((90.9257, -0.5406, -0.9208), (88.6381, -0.8985, -0.7239), 1.5381),
    ((6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
    ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
]

labs = st.tuples(st.floats(0, 100), st.floats(-110, 110), st.floats(-110, 110))
channels = st.tuples(*[st.integers(0, 255)] * 3)


@pytest.mark.parametrize(("one", "two", "expected"), SHARMA)
def test_ciede2000_gives_the_published_differences(one, two, expected):
    """Each of the 34 published pairs comes out to four decimals."""
    assert ciede2000(one, two) == pytest.approx(expected, abs=5e-5)


@given(labs, labs)
def test_ciede2000_is_symmetric_and_zero_for_equal_colors(one, two):
    """The order of the colors does not matter, and a color does not differ from itself."""
    assert ciede2000(one, two) == pytest.approx(ciede2000(two, one), abs=1e-9)
    assert ciede2000(one, one) == 0


def test_lab_of_pure_red_is_the_usual_one():
    """Red in sRGB under D65 is 53.24, 80.09, 67.20 (computed; the value quoted everywhere)."""
    assert lab((1.0, 0.0, 0.0)) == pytest.approx((53.2408, 80.0925, 67.2032), abs=2e-3)


def test_black_and_white_are_a_hundred_apart():
    """CIEDE2000 of black and white is 100."""
    assert difference((0, 0, 0), (255, 255, 255)) == pytest.approx(100, abs=1e-3)


# ITU-R BT.709, item 3.2: E'Y = 0.2126 E'R + 0.7152 E'G + 0.0722 E'B.
@pytest.mark.parametrize(
    ("color", "expected"),
    [
        ((1.0, 0.0, 0.0), 0.2126),
        ((0.0, 1.0, 0.0), 0.7152),
        ((0.0, 0.0, 1.0), 0.0722),
        ((1.0, 1.0, 1.0), 1.0),
        ((0.4,), 0.4),
    ],
)
def test_gray_weighs_colors_as_rec_709(color, expected):
    """A color's gray is its luma; a gray stays as it is."""
    assert gray(color) == pytest.approx((expected,))


@given(channels)
def test_gray_lies_between_the_channels(channel):
    """No gray is lighter than the lightest channel or darker than the darkest."""
    color = tuple(value / 255 for value in channel)
    (value,) = gray(color)
    assert min(color) - 1e-4 <= value <= max(color) + 1e-4


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("#ff8000", ((1.0, 0.502, 0.0), 1.0)),
        ("#F80", ((1.0, 0.5333, 0.0), 1.0)),
        ("#808080", ((0.502,), 1.0)),
        ("#ff800080", ((1.0, 0.502, 0.0), 128 / 255)),
        ("#f808", ((1.0, 0.5333, 0.0), 136 / 255)),
        ("#ff80", ((1.0, 1.0, 0.5333), 0.0)),
        ("ff8000", None),
        ("#ff800", None),
        ("#ggg", None),
        ("", None),
    ],
)
def test_hex_colors_are_read_in_all_four_lengths(text, expected):
    """Three, four, six and eight digits give color and alpha; anything else gives nothing."""
    assert from_hex(text) == expected


@given(st.floats(0, 1), st.floats(0, 1))
def test_plain_writes_grays_as_one_number(value, other):
    """Equal channels become one number; others stay three."""
    assert plain((value, value, value)) == (value,)
    if value != other:
        assert plain((value, other, value)) == (value, other, value)
