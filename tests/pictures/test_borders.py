"""Borders: lengths of ornament that become one strip, whole on every side and without a seam."""

from dataclasses import replace
from pathlib import Path

import numpy
import pytest
from scipy import ndimage

from printkit.materials.layout import border
from printkit.pictures import built_in, load_theme
from printkit.pictures.borders import Border
from printkit.pictures.flatten import rasterise
from printkit.pictures.kept import INKS
from printkit.pictures.paths import shifted
from printkit.pictures.svg import read_svg
from printkit.units import Rect

THEMES = {name: load_theme(name, Path(), "") for name in built_in()}
ROOMS = ((60.0, 10.0), (40.0, 6.0))
"""mm of strips as materials and the guide have them, if shorter."""
SCALE = 12
"""Pixels a mm."""

each_strip = pytest.mark.parametrize(
    ("theme", "ink", "room"),
    [(theme, ink, room) for theme in THEMES.values() for ink in INKS for room in ROOMS],
    ids=lambda value: getattr(value, "name", str(value)),
)


def strip_of(theme_border, ink, room):
    return theme_border.strip(ink, length=room[0], height=room[1])


def seen(drawing, room, around=0.0):
    """The strip as pixels, with so many of its units of paper around it."""
    shapes = tuple(replace(each, path=shifted(each.path, around, around, 6)) for each in drawing.shapes)
    larger = replace(
        drawing, width=drawing.width + 2 * around, height=drawing.height + 2 * around, shapes=shapes
    )
    scale = room[0] * SCALE / drawing.width
    image = rasterise(larger, round(larger.width * scale), round(larger.height * scale))
    return numpy.asarray(image, dtype=int), round(around * scale)


def darkest_outside(image, edge):
    """The darkest value of the paper around a strip, a pixel at its edge aside."""
    paper = image.min(axis=2).copy()
    paper[edge - 1 : -edge + 1, edge - 1 : -edge + 1] = 255
    return paper.min()


@each_strip
def test_no_border_is_sliced(theme, ink, room):
    """Nothing of a strip reaches beyond its box on any side, so that nothing is cut off there."""
    image, edge = seen(strip_of(theme.border, ink, room), room, around=3.0)
    assert darkest_outside(image, edge) == 255


@each_strip
def test_borders_fit_their_room(theme, ink, room):
    """A strip is as long as asked for and at most as high, and not much lower."""
    strip = Rect(7.0, 9.0, *room)
    (drawn,) = border(theme, ink, strip)
    assert drawn.width == pytest.approx(room[0], abs=0.02 * room[0])
    assert drawn.height <= room[1] + 1e-6
    assert strip.holds(Rect(drawn.x, drawn.y, drawn.width, drawn.height))
    assert theme.border.source.notes == ()
    assert len({item.shape.fill or item.shape.stroke for item in theme.border.source.items}) >= 2


each_theme_and_room = pytest.mark.parametrize(
    ("theme", "room"),
    [(theme, room) for theme in THEMES.values() for room in ROOMS],
    ids=lambda value: getattr(value, "name", str(value)),
)


@each_theme_and_room
def test_outlined_borders_have_no_line_inside_a_color(theme, room):
    """What lies deep inside one color is white to be colored in: no seam, no stem through the ground."""
    colored, _ = seen(strip_of(theme.border, "color", room), room)
    outlined, _ = seen(strip_of(theme.border, "outline", room), room)
    assert colored.shape == outlined.shape
    assert lines_inside(colored, outlined) == 0


@each_theme_and_room
def test_colored_borders_have_no_gap(theme, room):
    """Where lengths meet no pixel is lighter than both beside it."""
    drawing = strip_of(theme.border, "color", room)
    image = seen(drawing, room)[0].min(axis=2)
    joints = joints_of(drawing, theme.border.source.width)
    assert joints
    for joint in joints:
        at = round(joint * room[0] * SCALE / drawing.width)
        near = image[:, at - 2 : at + 3]
        assert (near[:, 2] - numpy.maximum(near[:, 0], near[:, -1])).max() <= 8


def joints_of(drawing, length):
    """Where lengths meet: along the line that goes on through all of them."""
    long = next(each.path for each in drawing.shapes if across(each.path) > length)
    return [long[0][1] + at * length for at in range(1, round(across(long) / length))]


def across(path):
    """From where a line starts to where it ends, left to right; nothing for a closed one."""
    return path[-1][-2] - path[0][1] if path[-1][0] != "Z" else 0.0


def lines_inside(colored, outlined):
    """How many pixels are dark in outline though all within 0.8 mm about them is one color."""
    reach = round(0.8 * SCALE)
    one_color = numpy.ones(colored.shape[:2], dtype=bool)
    for channel in numpy.moveaxis(colored, 2, 0):
        across = ndimage.maximum_filter(channel, 2 * reach + 1) - ndimage.minimum_filter(
            channel, 2 * reach + 1
        )
        one_color &= across == 0
    return int((one_color & (colored.min(axis=2) < 250) & (outlined.max(axis=2) < 128)).sum())


WAVE = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20">
<path id="band" fill="#246" d="M0 2 L40 2 L40 18 L0 18 Z"/></svg>"""
SPLIT = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20">
<g fill="#246"><circle cx="0" cy="10" r="8"/><circle cx="40" cy="10" r="8"/></g></svg>"""


@pytest.mark.parametrize("drawn", [WAVE, SPLIT], ids=["a filled band", "a disc on the joint"])
def test_filled_shapes_meet_without_a_seam(drawn):
    """A border of a family's own may be drawn of filled shapes that end at the joint or lie across it."""
    own = Border(theme="own", source=read_svg(drawn.encode(), "border.svg"))
    room = (50.0, 10.0)
    colored, _ = seen(strip_of(own, "color", room), room)
    outlined, _ = seen(strip_of(own, "outline", room), room)
    assert (colored.min(axis=2) < 250).any()
    assert lines_inside(colored, outlined) == 0
    middle = colored[colored.shape[0] // 2].min(axis=1)
    assert (middle[1:-1] - numpy.maximum(middle[:-2], middle[2:])).max() <= 8
    image, edge = seen(strip_of(own, "outline", room), room, around=3.0)
    assert darkest_outside(image, edge) == 255


def test_a_cut_edge_inside_a_color_is_seen():
    """The test above would have found the seams of lengths that are outlined one by one."""
    own = Border(theme="own", source=read_svg(WAVE.encode(), "border.svg"))
    room = (50.0, 10.0)
    colored, _ = seen(strip_of(own, "color", room), room)
    cut = seen(strip_of(own, "outline", room), room)[0]
    cut[:, cut.shape[1] // 2] = 0
    assert lines_inside(colored, cut) > 0
