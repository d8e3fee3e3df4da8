"""The SVG reader: the same pixels as a renderer nobody here wrote, ids, styles, notes."""

import io
from pathlib import Path

import numpy
import pytest
import resvg_py
from PIL import Image

from printkit.pictures.flatten import rasterise
from printkit.pictures.svg import Artwork, read_svg
from printkit.pieces import Shape

HERE = Path(__file__).resolve().parent
DRAWINGS = sorted((HERE.parent / "fixtures" / "svg").glob("*.svg"))
HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def read(inside: str, at: str = 'viewBox="0 0 100 100"') -> Artwork:
    return read_svg(f"{HEAD} {at}>{inside}</svg>".encode(), "gull.svg")


def only_shape(inside: str) -> Shape:
    (item,) = read(inside).items
    return item.shape


def pixels_off(drawing: Image.Image, reference: Image.Image) -> tuple[float, float]:
    """The mean difference of all channels, and the share of pixels off by more than 24 of 255."""
    one, two = (numpy.asarray(image.convert("RGB"), dtype=int) for image in (drawing, reference))
    apart = numpy.abs(one - two)
    return float(apart.mean()), float((apart.max(axis=2) > 24).mean())


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_drawings_look_as_another_renderer_draws_them(path):
    """Every feature the reader promises gives resvg's pixels, but for the rounding of edges."""
    drawing = rasterise(read_svg(path.read_bytes(), path.name).drawing, 240)
    png = resvg_py.svg_to_bytes(
        svg_string=path.read_text("utf-8"),
        width=drawing.width,
        height=drawing.height,
        background="white",
        dpi=96,
    )
    reference = Image.open(io.BytesIO(png))
    assert reference.size == drawing.size
    mean, off = pixels_off(drawing, reference)
    assert mean < 0.6
    assert off < 0.004


def test_features_named_in_the_drawings_are_all_drawn():
    """No drawing of a promised feature carries a note."""
    assert [read_svg(path.read_bytes(), path.name).notes for path in DRAWINGS] == [()] * len(DRAWINGS)


# --- paths and boxes ---------------------------------------------------------------------------


def test_the_view_box_moves_to_the_origin():
    """A shape at the corner of the viewBox lies at 0, 0."""
    art = read('<path d="M10 20h30v40z"/>', 'viewBox="10 20 30 40"')
    assert (art.width, art.height) == (30, 40)
    assert art.items[0].shape.path == (
        ("M", 0.0, 0.0),
        ("L", 30.0, 0.0),
        ("L", 30.0, 40.0),
        ("L", 0.0, 0.0),
        ("Z",),
    )


def test_without_a_view_box_width_and_height_count():
    """Width and height, here in millimetres, give the size when there is no viewBox."""
    art = read('<path d="M0 0h9v9z"/>', 'width="25.4mm" height="1in"')
    assert (art.width, art.height) == pytest.approx((96, 96))


def test_circles_become_four_curves():
    """A circle is a closed path of curves through its four extremes."""
    path = only_shape('<circle cx="50" cy="40" r="30"/>').path
    ends = [step[-2:] for step in path if step[0] != "Z"]
    assert {(20.0, 40.0), (80.0, 40.0)} <= set(ends)
    assert [step[0] for step in path] == ["M", "C", "C", "C", "C", "Z"]


def test_what_lies_outside_the_sheet_is_left_out():
    """A shape wholly outside the viewBox is no part of the drawing."""
    art = read('<rect width="9" height="9"/><rect x="200" width="9" height="9"/>')
    assert len(art.items) == 1


@pytest.mark.parametrize(
    "inside",
    [
        '<rect width="0" height="9"/>',
        '<circle r="-4"/>',
        '<polygon points="1 2"/>',
        '<path d=""/>',
        '<rect width="9" height="9" display="none"/>',
        '<g display="none"><rect width="9" height="9"/></g>',
        '<rect width="9" height="9" visibility="hidden"/>',
        '<rect width="9" height="9" opacity="0"/>',
        '<rect width="9" height="9" fill="none"/>',
        '<rect width="9" height="9" fill="none" stroke="red" stroke-width="0"/>',
        '<g transform="scale(0)"><rect width="9" height="9"/></g>',
        '<defs><rect width="9" height="9"/></defs>',
        '<symbol><rect width="9" height="9"/></symbol>',
        '<circle cx="NaN" cy="5" r="nan"/>',
    ],
)
def test_what_paints_nothing_is_no_shape(inside):
    """Hidden, empty and unpainted elements leave only the shape beside them."""
    art = read(f'{inside}<path id="rest" d="M1 1h8v8z"/>')
    assert [item.ids for item in art.items] == [("rest",)]


def test_a_broken_path_is_named_in_a_note():
    """Of a path with an error the readable start is drawn, and the note says so."""
    art = read('<path d="M10 10h30v30h-30z M60 60 L 70"/>')
    assert art.items[0].shape.path[-1] == ("M", 60.0, 60.0)
    assert art.notes == ("without the unreadable part of a path",)


# --- paint -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("paint", "color"),
    [
        ("#f00", (1.0, 0.0, 0.0)),
        ("#808080", (0.502,)),
        ("red", (1.0, 0.0, 0.0)),
        ("ReBeccaPurple", (0.4, 0.2, 0.6)),
        ("rgb(255, 0, 51)", (1.0, 0.0, 0.2)),
        ("rgb(100% 0% 20% / 50%)", (1.0, 0.0, 0.2)),
        ("hsl(120, 100%, 50%)", (0.0, 1.0, 0.0)),
        ("white", (1.0,)),
        ("currentColor", (0.0,)),
        ("url(#missing) lime", (0.0, 1.0, 0.0)),
        ("no color at all", (0.0,)),
    ],
)
def test_colors_are_read_in_every_usual_form(paint, color):
    """Names, hex, rgb() and hsl() give sRGB; equal channels become one number."""
    assert only_shape(f'<rect width="9" height="9" fill="{paint}"/>').fill == color


def test_opacities_multiply():
    """Group, element, fill and color alpha come together in one number."""
    shape = only_shape(
        '<g opacity=".5"><path d="M1 1h8v8z" fill="#ff000080" fill-opacity=".5" opacity="50%"/></g>'
    )
    assert shape.fill_opacity == pytest.approx(128 / 255 / 8, abs=1e-4)


def test_line_widths_follow_the_transform():
    """A stroke under scale(3) is three times as wide."""
    shape = only_shape('<g transform="scale(3)"><path d="M1 1h9" stroke="red" stroke-width="2"/></g>')
    assert shape.stroke_width == pytest.approx(6)


STOPS = (
    '<linearGradient id="a"><stop offset="0" stop-color="red"/><stop offset=".5" stop-color="red"/>'
    '<stop offset="1" stop-color="blue" stop-opacity=".5"/></linearGradient>'
)


def test_gradients_keep_their_stops():
    """Offsets, colors and alphas of the gradient referred to; nothing is noted."""
    art = read(f'{STOPS}<linearGradient id="b" xlink:href="#a"/><rect width="9" height="9" fill="url(#b)"/>')
    gradient = art.items[0].shape.fill_gradient
    assert gradient.stops == (
        (0.0, (1.0, 0.0, 0.0), 1.0),
        (0.5, (1.0, 0.0, 0.0), 1.0),
        (1.0, (0.0, 0.0, 1.0), 0.5),
    )
    assert art.notes == ()


def test_gradients_stand_for_the_mean_of_their_stops():
    """Half red, half blending to half-clear blue: the mean counts each part by how solid it is."""
    shape = only_shape(f'{STOPS}<rect width="9" height="9" fill="url(#a)"/>')
    # The integral of color times alpha: red 0.5 + 0.5 (2 + 0.5) / 6, blue 0.5 (1 + 1) / 6, alpha 0.875.
    assert shape.fill == pytest.approx((0.7083 / 0.875, 0.0, 0.1667 / 0.875), abs=1e-3)
    assert shape.fill_opacity == 1


def test_gradients_turn_gray_and_other_colors_with_their_shape():
    """About another color the stops lie as far apart as before; about a gray they are gray."""
    gradient = only_shape(f'{STOPS}<rect width="9" height="9" fill="url(#a)"/>').fill_gradient
    assert gradient.about(gradient.mean) == gradient.stops
    gray = 0.2126 * gradient.mean[0] + 0.0722 * gradient.mean[2]
    reds, blue = (0.2126,), (0.0722,)
    assert [stop[1] for stop in gradient.about((gray,))] == [
        pytest.approx(each, abs=1e-4) for each in (reds, reds, blue)
    ]
    brighter = [stop[1] for stop in gradient.about((gray + 0.1,))]
    assert brighter == [pytest.approx((each[0] + 0.1,), abs=1e-4) for each in (reds, reds, blue)]


def test_gradients_lie_where_their_path_lies():
    """Measured from the path's start, so that a drawing far from the origin has the same numbers."""
    near, far = (
        only_shape(
            f'<g transform="translate({x} 3)"><linearGradient id="a" gradientUnits="userSpaceOnUse" x2="8">'
            '<stop stop-color="red"/><stop offset="1"/></linearGradient>'
            '<path d="M1 1h8v8z" fill="url(#a)"/></g>'
        )
        for x in (0, 50)
    )
    assert near.fill_gradient == far.fill_gradient
    assert near.path != far.path


# SVG 2, 14.2.4: a gradient whose stops are all alike, or that has no length or radius, is one color.
@pytest.mark.parametrize(
    "gradient",
    [
        '<linearGradient id="a"><stop offset=".3" stop-color="lime"/></linearGradient>',
        '<linearGradient id="a"><stop stop-color="lime"/><stop offset="1" stop-color="#0f0"/>'
        "</linearGradient>",
        '<linearGradient id="a" x2="0"><stop/><stop offset="1" stop-color="lime"/></linearGradient>',
        '<radialGradient id="a" r="0"><stop/><stop offset="1" stop-color="lime"/></radialGradient>',
    ],
)
def test_gradients_in_which_nothing_varies_are_one_color(gradient):
    """The last color is painted flat."""
    shape = only_shape(f'{gradient}<rect width="9" height="9" fill="url(#a)"/>')
    assert (shape.fill, shape.fill_gradient) == ((0.0, 1.0, 0.0), None)


def test_a_transform_is_taken_over_from_the_gradient_referred_to():
    """SVG 2, 14.2.2: href gives every attribute that the gradient does not have itself."""
    shape = only_shape(
        '<linearGradient id="a" gradientUnits="userSpaceOnUse" gradientTransform="scale(3)">'
        '<stop/><stop offset="1" stop-color="red"/></linearGradient>'
        '<linearGradient id="b" href="#a" x2="5"/><path d="M0 0h9v9z" fill="url(#b)"/>'
    )
    assert shape.fill_gradient.matrix == (3, 0, 0, 3, 0, 0)
    assert shape.fill_gradient.ends == (0, 0, 5, 0)


def test_gradients_that_refer_to_each_other_paint_nothing():
    """A circle of references ends."""
    art = read(
        '<linearGradient id="a" href="#b"/><linearGradient id="b" href="#a"/>'
        '<rect width="9" height="9" fill="url(#a)"/><path id="rest" d="M1 1h8v8z"/>'
    )
    assert [item.ids for item in art.items] == [("rest",)]


# --- ids, shades, notes ------------------------------------------------------------------------


def test_shapes_know_the_elements_they_lie_in():
    """Ids are gathered from the outermost to the shape, through <use>."""
    art = read(
        '<defs><path id="feather" d="M1 1h8v8z"/></defs>'
        '<g id="wing"><use id="left" href="#feather"/>'
        '<path id="bone" class="shade fine" d="M1 1h8v8z"/></g>'
    )
    assert [(item.ids, item.shade) for item in art.items] == [
        (("wing", "left", "feather"), False),
        (("wing", "bone"), True),
    ]


@pytest.mark.parametrize(
    ("inside", "note"),
    [
        ('<g filter="url(#f)">{}</g>', "without its blur or shadow (filter)"),
        ('<g style="mask:url(#m)">{}</g>', "without its mask"),
        (
            '<clipPath id="c"><path d="M0 0h9v9z"/>'
            '<path clip-rule="evenodd" d="M0 0h9v9zM2 2h2v2z"/></clipPath>'
            '<g clip-path="url(#c)">{}</g>',
            "with a simpler edge where it is clipped (clipPath)",
        ),
        ('<g style="mix-blend-mode:multiply">{}</g>', "without blending"),
        ("<text>gull</text>{}", "without its text (turn letters into paths)"),
        ('<image href="gull.png" width="9" height="9"/>{}', "without the photo inside it"),
        (
            '<pattern id="p"/><path d="M1 1h8v8z" fill="url(#p) red"/>{}',
            "without its pattern",
        ),
        (
            '<path d="M1 1h8" stroke="red" marker-end="url(#m)"/>{}',
            "without arrowheads (marker)",
        ),
        (
            '<path d="M1 1h8" stroke="red" transform="scale(3 1)"/>{}',
            "with lines of one width where they were stretched",
        ),
        (
            "<style>@media print {{ path {{ fill: red }} }}</style>{}",
            "without the style rules it cannot read",
        ),
        ("<style>path:hover {{ fill: red }}</style>{}", "without the style rules it cannot read"),
        ("<path d='M1 1h8v8z'><animate attributeName='x'/></path>{}", "without movement"),
    ],
)
def test_what_cannot_be_drawn_is_named(inside, note):
    """Each thing that is drawn otherwise, or not at all, is said in one note."""
    art = read(inside.format('<path d="M1 1h8v8z"/>'))
    assert art.notes == (note,)


def test_what_is_not_seen_is_not_named():
    """Notes tell of what a viewer would have shown: nothing of titles, empty text or hidden groups."""
    art = read(
        "<title>gull</title><metadata>x</metadata><text> </text><filter id='f'/>"
        "<g display='none' filter='url(#f)'><text>hidden</text></g><path d='M1 1h8v8z'/>"
    )
    assert art.notes == ()


# --- groups, clips, dashes ---------------------------------------------------------------------


def test_groups_are_see_through_as_a_whole_only_where_shapes_meet():
    """Shapes that overlap share a layer; shapes apart are each made fainter."""
    apart = read('<g opacity=".5"><path d="M1 1h8v8z"/><path d="M20 1h8v8z"/></g>').items
    assert [(item.shape.fill_opacity, item.shape.layers) for item in apart] == [(0.5, ())] * 2
    meeting = read('<g opacity=".5"><path d="M1 1h8v8z"/><path d="M2 1h8v8z"/></g>').items
    assert [(item.shape.fill_opacity, item.shape.layers) for item in meeting] == [(1.0, ((1, 0.5),))] * 2


def test_clips_that_cut_nothing_are_left_out():
    """A sheet that holds the whole shape, as drawing programs write it, is no clip; one outside hides it."""
    art = read(
        '<clipPath id="c"><path d="M0 0h60v60H0z"/></clipPath><g clip-path="url(#c)">'
        '<path id="in" d="M1 1h8v8z"/><path id="across" d="M55 1h8v8z"/><path id="out" d="M80 1h8v8z"/></g>'
    )
    assert [(item.ids, len(item.shape.clips)) for item in art.items] == [(("in",), 0), (("across",), 1)]


@pytest.mark.parametrize(
    ("clip", "kept"),
    [
        ("", 0),
        ('<rect width="20" height="20" display="none"/>', 0),
        ('<rect width="20" height="20" visibility="hidden"/>', 0),
        ('<rect width="5" height="5"/>', 1),
        ('<use href="#missing"/>', 0),
    ],
)
def test_a_clip_without_anything_in_it_hides_all(clip, kept):
    """SVG 2 and CSS Masking 1, 5.1: what lies outside every shown child is not drawn."""
    art = read(
        f'<clipPath id="c">{clip}</clipPath><path d="M1 1h8v8z" clip-path="url(#c)"/><path d="M50 1h8v8z"/>'
    )
    assert len(art.items) == 1 + kept


def test_dashes_scale_with_the_line():
    """Lengths are in the drawing's units; an odd list counts twice, an offset turns within it."""
    shape = only_shape(
        '<g transform="scale(2)">'
        '<path d="M1 1h40" stroke="red" stroke-dasharray="5 1 2" stroke-dashoffset="-3"/></g>'
    )
    assert shape.dash == (10, 2, 4, 10, 2, 4)
    assert shape.dash_start == 26


@pytest.mark.parametrize("dashes", ["none", "0 0", "4 -1", "dotted"])
def test_lists_that_are_no_dashes_leave_the_line_whole(dashes):
    """SVG 2, 13.5.6: a negative length or a sum of nothing turns dashes off."""
    assert only_shape(f'<path d="M1 1h40" stroke="red" stroke-dasharray="{dashes}"/>').dash is None


# Selectors Level 4, 17: ids weigh more than classes, those more than elements; then the later wins.
@pytest.mark.parametrize(
    ("rules", "color"),
    [
        ("path { fill: red } .a { fill: lime }", (0.0, 1.0, 0.0)),
        (".a { fill: lime } path { fill: red }", (0.0, 1.0, 0.0)),
        ("#x { fill: blue } path.a { fill: red } .b { fill: lime }", (0.0, 0.0, 1.0)),
        (".a { fill: red } .b { fill: lime } .a { fill: blue }", (0.0, 0.0, 1.0)),
        (".b { fill: red } * { fill: lime } rect { fill: blue }", (1.0, 0.0, 0.0)),
        ("rect.a { fill: red } #y { fill: red } .c { fill: red }", (0.2, 0.4, 0.6)),
        ("@import url(x.css); path { fill: lime !important } /* path { fill: red } */", (0.0, 1.0, 0.0)),
        (".a, .z { fill: lime; } .z { fill: red }", (0.0, 1.0, 0.0)),
        ("svg path { fill: lime } g path, path path { fill: red }", (0.0, 1.0, 0.0)),
        ("svg>path { fill: lime } g > path { fill: red }", (0.0, 1.0, 0.0)),
        (".a.b { fill: lime } path.a { fill: red }", (0.0, 1.0, 0.0)),
        (
            "@media (prefers-color-scheme: dark) { path { fill: red } #x { fill: red } } .a { fill: lime }",
            (0.0, 1.0, 0.0),
        ),
        (
            "@font-face { src: url(a.woff) } @keyframes k { to { fill: red } } .a { fill: lime }",
            (0.0, 1.0, 0.0),
        ),
        (".a { fill: lime", (0.0, 1.0, 0.0)),
        ("svg .a { fill: red } .a.b { fill: lime } .a.z { fill: red }", (0.0, 1.0, 0.0)),
        ("path#x.b { fill: lime } svg #x { fill: red }", (0.0, 1.0, 0.0)),
    ],
)
def test_style_rules_follow_the_cascade(rules, color):
    """Heavier selectors win, then later ones; attributes yield to any rule."""
    shape = only_shape(f'<style>{rules}</style><path id="x" class="a b" fill="#369" d="M1 1h8v8z"/>')
    assert shape.fill == color
