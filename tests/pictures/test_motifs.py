"""Motifs: tight boxes, inks, parts left out and recolored, the same object for the same wish."""

import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.errors import PrintkitError
from printkit.pictures.colors import LUMA
from printkit.pictures.flatten import layers, shape_bounds
from printkit.pictures.motifs import Motif, Name, outline_width
from printkit.pictures.raster import Photo
from printkit.pieces import BLACK, WHITE, Drawing, Raster

INKS = ("color", "gray", "outline")


def ink_box(drawing: Drawing) -> tuple[float, ...]:
    boxes = [shape_bounds(shape, 1e-3) for shape in drawing.shapes]
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


# --- the box -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "box"),
    [("disc", (80, 80)), ("square", (80, 80)), ("brick", (80, 40)), ("corner", (60, 80))],
)
def test_drawings_are_cropped_to_their_ink(plain, key, box):
    """Width and height are those of the shape itself, whatever margin its file has."""
    drawing = plain.motif(key).drawing("color", size=20)
    assert (drawing.width, drawing.height) == box


@pytest.mark.parametrize("ink", INKS)
@pytest.mark.parametrize("key", ["disc", "square", "brick", "tower", "corner", "flag"])
def test_ink_touches_all_four_sides(plain, ink, key):
    """In every ink the box is the ink's own, the width of outlines included."""
    drawing = plain.motif(key).drawing(ink, size=20)
    assert ink_box(drawing) == pytest.approx((0, 0, drawing.width, drawing.height), abs=2e-3)


def test_lines_count_with_their_width(motif_of):
    """A bar with butt ends is cropped to its width, one with round ends to its caps too."""
    butt = motif_of('<path d="M20 50h40" stroke="#333" stroke-width="10"/>')
    assert ink_size(butt) == pytest.approx((40, 10), abs=1e-3)
    round_ends = motif_of('<path d="M20 50h40" stroke="#333" stroke-width="10" stroke-linecap="round"/>')
    assert ink_size(round_ends) == pytest.approx((50, 10), abs=1e-3)


def ink_size(motif: Motif) -> tuple[float, float]:
    drawing = motif.drawing("color", size=20)
    return drawing.width, drawing.height


def test_ink_outside_the_sheet_is_cut_off(motif_of):
    """A shape that reaches out of its viewBox is cropped to it, as viewers show it."""
    assert ink_size(motif_of('<circle cx="90" cy="50" r="30" fill="#333"/>')) == pytest.approx((40, 60))


def test_variations_share_the_box_of_the_whole(plain):
    """A picture without its arm lies where the whole lies, at the same size."""
    tower = plain.motif("tower")
    for ink in INKS:
        whole = tower.drawing(ink, size=20)
        part = tower.drawing(ink, size=20, hide=("left-arm",))
        assert (part.width, part.height) == (whole.width, whole.height)
        assert set(part.shapes) < set(whole.shapes)


# --- inks --------------------------------------------------------------------------------------


def test_gray_is_the_luma_of_the_color(plain):
    """Each color becomes one number, its luma by Rec. 709 (ITU-R BT.709, 3.2)."""
    (shape,) = plain.motif("disc").drawing("gray", size=20).shapes
    parts = (0x1F / 255, 0x5F / 255, 0xA8 / 255)
    expected = sum(weight * part for weight, part in zip(LUMA, parts, strict=True))
    assert shape.fill == pytest.approx((expected,), abs=1e-3)


@pytest.mark.parametrize("ink", ["gray", "outline"])
@pytest.mark.parametrize("key", ["disc", "square", "brick", "tower", "corner", "flag"])
def test_gray_and_outline_have_one_channel(plain, ink, key):
    """Nothing but gray is written, so that a printer spends black ink only."""
    for shape in plain.motif(key).drawing(ink, size=20).shapes:
        for paint in (shape.fill, shape.stroke):
            assert paint is None or len(paint) == 1


def test_equal_channels_are_gray_in_color_too(plain):
    """A gray picture in color is written in one channel."""
    (shape,) = plain.motif("brick").drawing("color", size=20).shapes
    assert shape.fill == pytest.approx((0x4A / 255,), abs=1e-4)


def test_outlines_are_white_with_a_black_edge(plain):
    """Shades are left out; every other shape is white, its edge black with round joins.

    But for the speck of 0.8 mm: its edges would run together.
    """
    tower = plain.motif("tower")
    color, outline = (tower.drawing(ink, size=20) for ink in ("color", "outline"))
    assert len(outline.shapes) == len(color.shapes) - 1
    *large, speck = outline.shapes
    for shape in large:
        assert (shape.fill, shape.stroke, shape.join, shape.cap) == (WHITE, BLACK, "round", "round")
        assert (shape.fill_opacity, shape.stroke_opacity) == (1, 1)
    assert (speck.fill, speck.stroke) == (BLACK, None)


@pytest.mark.parametrize(("height", "fill"), [(2, BLACK), (8, WHITE)])
def test_what_is_thinner_than_two_edges_becomes_a_line(motif_of, height, fill):
    """A bar of 0.4 mm is one black line, one of 1.6 mm is white with an edge of 0.5 mm."""
    motif = motif_of(f'<rect x="0" y="9" width="100" height="{height}" fill="red"/>')
    (shape,) = motif.drawing("outline", size=20).shapes
    assert shape.fill == fill
    assert (shape.stroke is None) == (fill == BLACK)


@given(st.floats(8, 200))
def test_outlines_have_their_width_on_paper(motif_of, size):
    """At print size the edge is as wide as promised: 0.35 to 1 mm."""
    drawing = motif_of('<rect x="9" y="9" width="80" height="30" fill="red"/>').drawing("outline", size=size)
    (shape,) = drawing.shapes
    printed = shape.stroke_width * size / max(drawing.width, drawing.height)
    assert printed == pytest.approx(outline_width(size), rel=2e-3)
    assert 0.35 <= outline_width(size) <= 1


def test_a_large_outline_is_as_wide_after_a_smaller_one(motif_of):
    """A motif drawn at 40 mm and then at 160 mm has lines of 1 mm on both: neither hangs on the other."""
    motif = motif_of('<path d="M20 20h60v60h-60z" fill="#333"/>')
    for size in (40, 160, 40):
        drawing = motif.drawing("outline", size=size)
        printed = drawing.shapes[0].stroke_width * size / max(drawing.width, drawing.height)
        assert printed == pytest.approx(1, rel=2e-3)


def test_outlines_are_1_mm_wide_on_pictures_to_color_in():
    """Pictures to color in have an edge of 1 mm, smaller ones a finer one."""
    assert [outline_width(size) for size in (5, 20, 40, 300)] == pytest.approx([0.35, 0.5, 1, 1])


def test_wide_lines_become_bands_to_color_in(motif_of):
    """A line much wider than the edge is white inside; a thin one is drawn with the edge's own width."""
    wide = motif_of('<path d="M20 50h60" stroke="#333" stroke-width="20"/>').drawing("outline", size=20)
    black, white = wide.shapes
    assert (black.stroke, white.stroke) == (BLACK, WHITE)
    edge = (black.stroke_width - white.stroke_width) / 2
    assert edge * 20 / wide.width == pytest.approx(0.5, rel=1e-2)
    thin = motif_of('<path d="M20 50h60" stroke="#333" stroke-width="1"/>').drawing("outline", size=20)
    assert [shape.stroke for shape in thin.shapes] == [BLACK]
    assert thin.shapes[0].stroke_width * 20 / thin.width == pytest.approx(0.5, rel=1e-2)


# --- parts -------------------------------------------------------------------------------------


def test_parts_are_the_ids_a_person_chose(motif_of):
    """Ids of programs, of the whole and of nothing visible are no parts."""
    motif = motif_of(
        '<g id="boat"><path id="path1234" d="M1 1h8v8z"/><path id="left-sail" d="M1 1h8v8z"/>'
        '<g id="Layer_1"><path id="oar-2" d="M1 1h8v8z"/></g><g id="wake"/>'
        '<path id="g" d="M1 1h8v8z"/></g>'
    )
    assert motif.parts == ("left-sail", "oar-2")


def test_hidden_parts_leave_what_is_beneath(plain):
    """Without its spot the tower's trunk shows there."""
    tower = plain.motif("tower")
    whole, without = (
        layers(tower.drawing("color", size=20, hide=hide), 80, 80)[0] for hide in ((), ("spot",))
    )
    spot = (40, 20)
    assert (whole.getpixel(spot), without.getpixel(spot)) == ((0xF2, 0xD3, 0x5E), (0x3F, 0x7D, 0x3A))
    assert whole.getpixel((40, 60)) == without.getpixel((40, 60))


def test_recoloring_replaces_the_color_that_covers_most(motif_of):
    """The leaf turns yellow with its stalk of the same green; its brown vein and its shade stay."""
    motif = motif_of(
        '<path id="pot" d="M60 60h9v9z"/><g id="leaf"><rect width="40" height="40" fill="#2f9e44"/>'
        '<path d="M0 0v60" fill="none" stroke="#2f9e44" stroke-width="4"/>'
        '<path d="M1 1h8v8z" fill="#862e0a"/>'
        '<path class="shade" d="M9 9h30v30z" fill="#2f9e44"/></g>'
    )
    yellow = (1.0, 0.8, 0.0)
    shapes = motif.drawing("color", size=20, recolor=(("leaf", yellow),)).shapes
    before = motif.drawing("color", size=20).shapes
    paints = [shape.fill or shape.stroke for shape in shapes]
    assert paints[1:3] == [yellow, yellow]
    assert [paints[0], *paints[3:]] == [shape.fill for shape in (before[0], *before[3:])]
    assert motif.part_color("leaf") == before[1].fill


def test_recolored_parts_are_gray_in_gray(plain):
    """A new color goes through the ink as the old one did."""
    drawing = plain.motif("tower").drawing("gray", size=20, recolor=(("spot", (1.0, 0.0, 0.0)),))
    assert (0.2126,) in [shape.fill for shape in drawing.shapes]


def test_unknown_parts_are_named(plain):
    """A part that is not there is a problem with the file, the parts there are and the nearest word."""
    with pytest.raises(PrintkitError) as caught:
        plain.motif("tower").drawing("color", size=20, hide=("left-ram",))
    assert str(caught.value) == (
        "plain/tower.svg: there is no part 'left-ram'; "
        "allowed: left-arm, right-arm, trunk, spot or speck; did you mean 'left-arm'?"
    )
    with pytest.raises(PrintkitError) as caught:
        plain.motif("disc").drawing("color", size=20, recolor=(("rim", BLACK),))
    assert str(caught.value) == (
        "plain/disc.svg: there is no part 'rim'; allowed: none, as the picture has no named parts"
    )


# --- the same object ---------------------------------------------------------------------------


def test_equal_wishes_give_the_same_drawing(plain):
    """So that the writer stores each drawing once; what does not depend on the size ignores it."""
    tower = plain.motif("tower")
    yellow = (1.0, 0.8, 0.0)
    for ink in INKS:
        for wish in ({}, {"hide": ("spot",)}, {"recolor": (("spot", yellow),)}):
            assert tower.drawing(ink, size=20, **wish) is tower.drawing(ink, size=20, **wish)
    assert tower.drawing("color", size=20) is tower.drawing("color", size=35)
    assert tower.drawing("outline", size=20) is not tower.drawing("outline", size=35)


def test_different_wishes_have_different_names(plain):
    """A drawing's name tells theme, motif, ink, size of outlines and variation."""
    tower = plain.motif("tower")
    names = [
        tower.drawing("color", size=20).name,
        tower.drawing("gray", size=20).name,
        tower.drawing("outline", size=20).name,
        tower.drawing("outline", size=35).name,
        tower.drawing("color", size=20, hide=("spot",)).name,
        tower.drawing("color", size=20, recolor=(("spot", (1.0, 0.8, 0.0)),)).name,
    ]
    assert names == [
        "plain/tower color",
        "plain/tower gray",
        "plain/tower outline at 20 mm",
        "plain/tower outline at 35 mm",
        "plain/tower color without spot",
        "plain/tower color spot 1 0.8 0",
    ]


# --- photos and names --------------------------------------------------------------------------


def photo_motif() -> Motif:
    raster = Raster(
        data=zlib.compress(b"\xc8\x1e\x1e"), filter="FlateDecode",
        width_px=1, height_px=1, channels=3,
    )  # fmt: skip
    return Motif(key="frog", file="pond/frog.png", theme="pond", source=Photo(name="frog", raster=raster))


def test_photos_print_gray_where_outlines_are_asked_for():
    """A photo has no parts and no outline; in outline it is gray, and that is said."""
    frog = photo_motif()
    assert (frog.is_photo, frog.parts) == (True, ())
    assert frog.drawing("outline", size=20).raster == frog.drawing("gray", size=20).raster
    assert frog.drawing("gray", size=20).raster.channels == 1
    assert frog.notes_in("color") == ()
    assert frog.notes_in("outline") == ("in gray, as a photo has no outline",)


@pytest.mark.parametrize(
    ("tag", "n", "expected"),
    [
        ("en", 1, "snail"),
        ("en", 2, "snails"),
        ("en-GB", 0, "snails"),
        ("fr", 0, "escargot"),
        ("fr-CA", 2, "escargots"),
        ("pl", 1, "ślimak"),
        ("pl", 3, "ślimaki"),
        ("pl", 12, "ślimaków"),
        ("pt", 2, "caracóis"),
        ("pt-BR", 1, "caracol"),
        ("ja", 5, "かたつむり"),
        ("fi", 2, "snails"),
    ],
)
def test_names_follow_language_and_number(tag, n, expected):
    """The tag's own name, else its language's, else English; the form by CLDR's plural categories."""
    names = {
        "en": {"one": "snail", "other": "snails"},
        "fr": {"one": "escargot", "other": "escargots"},
        "pl": {"one": "ślimak", "few": "ślimaki", "many": "ślimaków", "other": "ślimaka"},
        "pt-PT": {"one": "caracol", "other": "caracóis"},
        "ja": {"other": "かたつむり"},
    }
    motif = Motif(
        key="snail",
        file="snail.svg",
        theme="pond",
        source=photo_motif().source,
        names=tuple((tag, Name(forms=tuple(forms.items()))) for tag, forms in names.items()),
    )
    assert motif.name(tag, n) == expected


def test_without_names_the_key_is_spoken():
    """A motif that has no names at all is called by its file."""
    motif = Motif(key="sea_star-2", file="", theme="", source=photo_motif().source)
    assert motif.name("es", 3) == "sea star 2"


# CLDR supplemental plurals, as unpkg.com/cldr@7.9.0 has them: categories of these numbers.
@pytest.mark.parametrize(
    ("tag", "expected"),
    [
        ("en", "other one other other other other other other other other other other other"),
        ("fr", "one one other other other other other other other other other other other"),
        ("pl", "many one few few few many many many many many few many many"),
        ("ru", "many one few few few many many many many one few many one"),
        ("ar", "zero one two few few few few many many many many many many"),
        ("cy", "zero one two few other other many other other other other other other"),
        ("ja", "other other other other other other other other other other other other other"),
    ],
)
def test_plural_categories_are_those_of_cldr(tag, expected):
    """Each number from the table falls into its published category."""
    from printkit.pictures.plurals import category

    numbers = (0, 1, 2, 3, 4, 5, 6, 11, 12, 21, 22, 25, 31)
    assert " ".join(category(tag, n) for n in numbers) == expected


# --- eyes in outline -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("drawn", "stays"),
    [
        ('<circle cx="50" cy="50" r="8" fill="#332"/>', True),
        ('<ellipse cx="50" cy="50" rx="8" ry="6" fill="#332"/>', False),
        ('<rect x="42" y="42" width="16" height="16" fill="#332"/>', False),
        ('<circle cx="50" cy="50" r="8" fill="#aaa"/>', False),
        ('<circle cx="50" cy="50" r="14" fill="#332"/>', False),
    ],
    ids=["an eye", "an ellipse", "a square", "a light disc", "a large disc"],
)
def test_small_dark_discs_stay_black_in_outline(motif_of, drawn, stays):
    """Eyes, buttons and hubs are black discs without an edge; all else is white to be colored in."""
    motif = motif_of(f'<rect x="5" y="5" width="90" height="90" fill="tan"/>{drawn}')
    _, shape = motif.drawing("outline", size=30).shapes
    assert (shape.fill, shape.stroke) == ((BLACK, None) if stays else (WHITE, BLACK))


def test_glints_of_eyes_stay_in_outline(motif_of):
    """A light shade on a black eye is a white glint; shades elsewhere are left out."""
    glint = '<circle class="shade" cx="{}" cy="48" r="2" fill="#fed" fill-opacity="0.8"/>'
    motif = motif_of(
        '<rect x="5" y="5" width="90" height="90" fill="tan"/><circle cx="50" cy="50" r="8" fill="#332"/>'
        + glint.format(48) + glint.format(80)
    )  # fmt: skip
    _, eye, white = motif.drawing("outline", size=30).shapes
    assert (eye.fill, white.fill, white.fill_opacity, white.stroke) == (BLACK, WHITE, 1.0, None)


@pytest.mark.parametrize("sizes", [(150, 46), (46, 150)])
def test_outlines_keep_their_width_whatever_was_drawn_before(motif_of, sizes):
    """Pictures of 40 mm and more have lines of 1 mm, the first one drawn and the second."""
    motif = motif_of('<rect x="9" y="9" width="80" height="30" fill="red"/>')
    for size in sizes:
        drawing = motif.drawing("outline", size=size)
        printed = drawing.shapes[0].stroke_width * size / max(drawing.width, drawing.height)
        assert printed == pytest.approx(1.0, rel=1e-2)
