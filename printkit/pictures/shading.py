"""Gradients -> pixels, as a PDF viewer draws them, with nothing but the standard library and pillow."""

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from printkit.pictures.colors import rgb
from printkit.pieces import Color, Gradient

if TYPE_CHECKING:
    from PIL import Image

# Colors along a gradient are looked up in as many steps.
_STEPS = 2048

Matrix = tuple[float, float, float, float, float, float]


def shaded(gradient: Gradient, color: Color, to_pixels: Matrix, size: tuple[int, int]) -> "Image.Image":
    """The gradient about `color` on an RGBA image.

    `to_pixels` leads from the units of the drawing, measured from the shape's start, to pixels.
    """
    from PIL import Image

    table = _table(gradient.about(color))
    back = _inverse(_product(to_pixels, gradient.matrix))
    width, height = size
    if back is None:
        return Image.frombytes("RGBA", size, table[-1] * width * height)
    rows = (
        _along(gradient.ends, back, size) if len(gradient.ends) == 4 else _across(gradient.ends, back, size)
    )
    return Image.frombytes("RGBA", size, b"".join(table[step] for row in rows for step in row))


def _along(ends: tuple[float, ...], back: Matrix, size: tuple[int, int]) -> Iterator[list[int]]:
    """The step of each pixel, row by row, of a gradient along a line."""
    x0, y0, x1, y1 = ends
    dx, dy = x1 - x0, y1 - y0
    scale = (_STEPS - 1) / (dx * dx + dy * dy)
    per_x, per_y = (back[0] * dx + back[1] * dy) * scale, (back[2] * dx + back[3] * dy) * scale
    first = ((back[4] - x0) * dx + (back[5] - y0) * dy) * scale + (per_x + per_y) / 2
    width, height = size
    for y in range(height):
        start = first + per_y * y
        yield [min(max(round(start + per_x * x), 0), _STEPS - 1) for x in range(width)]


def _across(ends: tuple[float, ...], back: Matrix, size: tuple[int, int]) -> Iterator[list[int]]:
    """The step of each pixel, row by row, of a gradient from a circle to one around it.

    A point lies on the circle of t where |p - c(t)| = r(t): a quadratic equation, of which the larger
    root counts.
    """
    fx, fy, r0, x1, y1, r1 = ends
    dx, dy, dr = x1 - fx, y1 - fy, r1 - r0
    a = dx * dx + dy * dy - dr * dr
    width, height = size
    top = _STEPS - 1
    sqrt = math.sqrt
    for y in range(height):
        u = back[0] * 0.5 + back[2] * (y + 0.5) + back[4] - fx
        v = back[1] * 0.5 + back[3] * (y + 0.5) + back[5] - fy
        b0, b1 = u * dx + v * dy + r0 * dr, back[0] * dx + back[1] * dy
        q0, q1 = u * u + v * v - r0 * r0, 2 * (u * back[0] + v * back[1])
        q2 = back[0] ** 2 + back[1] ** 2
        row = []
        for x in range(width):
            b = b0 + b1 * x
            t = (b - sqrt(max(0.0, b * b - a * (q0 + x * (q1 + x * q2))))) / a
            row.append(min(max(round(t * top), 0), top))
        yield row


@lru_cache(maxsize=256)
def _table(stops: tuple[tuple[float, Color, float], ...]) -> list[bytes]:
    """Red, green, blue and alpha at each step."""
    table = []
    runs = [(one, two) for one, two in pairwise(stops) if two[0] > one[0]]
    run = 0
    for step in range(_STEPS):
        t = step / (_STEPS - 1)
        while run < len(runs) - 1 and t > runs[run][1][0]:
            run += 1
        (start, one, alpha), (end, two, other) = runs[run]
        share = (t - start) / (end - start)
        values = (*(a + share * (b - a) for a, b in zip(rgb(one), rgb(two), strict=True)),)
        solid = alpha + share * (other - alpha)
        table.append(bytes(round(255 * min(1.0, max(0.0, value))) for value in (*values, solid)))
    return table


def _product(outer: Matrix, inner: Matrix) -> Matrix:
    """The matrix that goes through `inner` first."""
    a, b, c, d, e, f = outer
    g, h, i, j, k, m = inner
    return (
        a * g + c * h,
        b * g + d * h,
        a * i + c * j,
        b * i + d * j,
        a * k + c * m + e,
        b * k + d * m + f,
    )


def _inverse(matrix: Matrix) -> Matrix | None:
    a, b, c, d, e, f = matrix
    size = a * d - b * c
    if not size:
        return None
    return (
        d / size,
        -b / size,
        -c / size,
        a / size,
        (c * f - d * e) / size,
        (b * e - a * f) / size,
    )
