"""Stroke letters beside the printed ones: the centre line lies within the glyph, made a little fatter."""

from itertools import pairwise

import numpy
import pytest
import uharfbuzz
from PIL import Image, ImageDraw
from scipy import ndimage

from printkit.letters import paths
from printkit.letters.strokes import letter
from printkit.resources import resource

SIZE = 400
FAT = 15
OTHERWISE = {"1", "y"}
"""Drawn otherwise than in print by design: the printed 1 stands on a foot, the printed y is bent."""


def printed_font() -> uharfbuzz.Font:
    """The typeface of the printed words."""
    blob = uharfbuzz.Blob.from_file_path(str(resource("fonts/Andika-Regular.ttf")))
    return uharfbuzz.Font(uharfbuzz.Face(blob))


def extents(font: uharfbuzz.Font, char: str) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of a glyph, in units of the typeface."""
    found = font.get_glyph_extents(font.get_nominal_glyph(ord(char)))
    return (
        found.x_bearing,
        found.y_bearing + found.height,
        found.x_bearing + found.width,
        found.y_bearing,
    )


def glyph(font: uharfbuzz.Font, char: str) -> numpy.ndarray:
    """The printed letter, made fatter; its rows run down from 2 * SIZE - SIZE / 2."""
    commands: list[tuple] = []
    pen = uharfbuzz.DrawFuncs()
    pen.set_move_to_func(lambda x, y, data: commands.append(("M", x, y)))
    pen.set_line_to_func(lambda x, y, data: commands.append(("L", x, y)))
    pen.set_quadratic_to_func(lambda a, b, x, y, data: commands.append(("Q", a, b, x, y)))
    pen.set_cubic_to_func(lambda a, b, c, d, x, y, data: commands.append(("C", a, b, c, d, x, y)))
    pen.set_close_path_func(lambda data: commands.append(("Z",)))
    font.draw_glyph(font.get_nominal_glyph(ord(char)), pen, None)
    contours: list[list[tuple[float, float]]] = []
    for name, *v in commands:
        if name == "M":
            contours.append([(v[0], v[1])])
        elif name == "L":
            contours[-1].append((v[0], v[1]))
        elif name == "Q":
            (x0, y0), (x1, y1, x2, y2) = contours[-1][-1], v
            contours[-1] += [
                (
                    (1 - t) ** 2 * x0 + 2 * t * (1 - t) * x1 + t * t * x2,
                    (1 - t) ** 2 * y0 + 2 * t * (1 - t) * y1 + t * t * y2,
                )
                for t in (0.25, 0.5, 0.75, 1)
            ]
    winding = numpy.zeros((2 * SIZE, 2 * SIZE), int)
    for contour in contours:
        image = Image.new("1", winding.shape[::-1])
        ImageDraw.Draw(image).polygon([pixel(*point) for point in contour], fill=1)
        turned = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise([*contour, contour[0]]))
        winding += numpy.asarray(image) * (1 if turned > 0 else -1)
    return ndimage.binary_dilation(winding != 0, iterations=FAT)


def pixel(x: float, y: float) -> tuple[float, float]:
    """Units of the typeface (2048 an em) to pixels."""
    scale = SIZE / 1500
    return x * scale + SIZE / 4, 1.4 * SIZE - y * scale


def laid(font: uharfbuzz.Font, char: str) -> list[tuple[float, float]]:
    """The centre line stretched to the glyph: as wide, its zones as high, half a stem inside."""
    every = [p for s in letter(char).strokes for p in ([s.dot] if s.dot else paths.flat(s.curves, 0.1))]
    left, _, right, top = extents(font, char)
    stem = extents(font, "l")[2] - extents(font, "l")[0]
    half, low = stem / 2, extents(font, "p")[1]
    middle = extents(font, "x")[3]
    high = top if max(y for _, y in every) > 19 else extents(font, "l")[3]
    xs = [x for x, _ in every]
    wide = max(xs) - min(xs)
    places = numpy.interp(
        [y for _, y in every], [-10, 0, 10, 20], [low + half, half, middle - half, high - half]
    )
    if char.isupper() or char.isdecimal():
        places = numpy.interp([y for _, y in every], [0, 20], [half, high - half])
    spread = right - left - stem
    return [
        pixel(left + half + ((x - min(xs)) / wide * spread if wide else spread / 2), y)
        for (x, _), y in zip(every, places, strict=True)
    ]


LETTERS = sorted({*"abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"} - OTHERWISE)


@pytest.mark.parametrize("char", LETTERS)
def test_the_centre_line_lies_within_the_printed_letter(char):
    """At least nine tenths of it."""
    font = printed_font()
    printed = glyph(font, char)
    inside = sum(printed[int(y), int(x)] for x, y in laid(font, char))

    assert inside >= 0.9 * len(laid(font, char))
