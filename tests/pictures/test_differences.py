"""Odd one out: a difference is used where it is there and can be seen, and nowhere else."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from scipy import ndimage

from printkit.pictures import Difference, Look, Motif, Theme, differences
from printkit.pictures.differences import LEVELS, SMALLER
from printkit.pictures.motifs import Ink
from printkit.pictures.seen import PIXELS_PER_MM, measure, pixels, things

INKS: tuple[Ink, ...] = ("color", "gray", "outline")
SIZE = 20.0


def found(theme: Theme, level: int, ink: Ink = "color", motif: str = "") -> list[tuple[str, ...]]:
    """Motif and what is said of each difference."""
    return [
        (each.motif, *each.said)
        for each in differences(theme, level, ink, SIZE)
        if not motif or each.motif == motif
    ]


def one_motif_theme(motif: Motif) -> Theme:
    return Theme(
        name="kitchen garden",
        folder=Path(),
        motifs=(motif,),
        titles=(),
        season="",
        accent=(0.5,),
        palette=(),
    )


# --- which differences there are ---------------------------------------------------------------


def test_other_motifs_of_another_and_of_a_like_color_share_the_theme(plain):
    """Each other motif stands in level 1 or 2; of all colors violet is like the disc's blue."""
    assert found(plain, 1, motif="disc") == [
        ("disc", "another motif", key) for key in ("square", "brick", "tower", "flag")
    ]
    assert found(plain, 2, motif="disc") == [("disc", "another motif", "corner")]


@pytest.mark.parametrize("ink", INKS)
def test_every_motif_has_another_of_either_kind(plain, ink):
    """Levels 1 and 2 are never empty where a theme has three motifs or more."""
    for level in (1, 2):
        assert {each.motif for each in differences(plain, level, ink, SIZE)} >= {
            "corner",
            "flag",
            "disc",
        }


def test_sizes_differ_by_more_than_a_third(plain):
    """Every motif can be the small one among large ones, or the other way round."""
    for motif in plain.motifs:
        assert found(plain, 3, motif=motif.key) == [(motif.key, "smaller"), (motif.key, "larger")]
    disc = differences(plain, 3, "color", SIZE)[0]
    assert (disc.alike.scale, disc.odd.scale) == (1, SMALLER)
    # A ring between discs of 20 and 12.4 mm: pi (10^2 - 6.2^2) = 193 mm2.
    assert disc.area == pytest.approx(193, rel=0.06)


def test_large_parts_are_missed_and_small_ones_are_not(plain):
    """The tower's arms and spot count; its speck of 1 mm does not, and its trunk stays."""
    missing = [said[2] for said in found(plain, 4, motif="tower") if said[1] == "part missing"]
    assert missing == ["left arm", "right arm", "spot"]


def test_recolored_parts_have_another_color_that_is_not_white(plain):
    """The palette's white would only make a part vanish."""
    recolored = [each for each in differences(plain, 4, "color", SIZE) if each.kind == "part recolored"]
    assert {"spot", "cloth", "pole"} <= {each.said[1] for each in recolored}
    for each in recolored:
        before, after = (set(look.drawing.shapes) for look in (each.alike, each.odd))
        assert all(shape.fill != (1.0,) for shape in after - before)


@pytest.mark.parametrize("ink", INKS)
def test_turns_show_only_on_what_is_not_round(plain, ink):
    """A disc and a square look the same after a quarter turn, a brick after half, a flag never."""
    turns = {key: [said[2] for said in found(plain, 5, ink, key)] for key in ("disc", "square", "brick")}
    assert turns == {"disc": [], "square": [], "brick": ["90", "270"]}
    assert [said[2] for said in found(plain, 5, ink, "flag")] == ["180", "90", "270"]


@pytest.mark.parametrize("ink", INKS)
def test_only_what_has_a_left_and_a_right_is_mirrored(plain, ink):
    """A mirrored disc is no difference; a mirrored flag is one."""
    assert found(plain, 6, ink) == [("corner", "mirrored"), ("flag", "mirrored")]


def test_symmetry_is_measured_where_the_theme_says_nothing(motif_of):
    """A picture that is its own mirror image is not mirrored, one that is not is."""
    even = motif_of('<path d="M20 20h60l-30 60z" fill="#333"/>')
    uneven = motif_of('<path d="M20 20h60v60z" fill="#333"/>')
    assert even.symmetric is None
    assert found(one_motif_theme(even), 6) == []
    assert found(one_motif_theme(uneven), 6) == [("boat", "mirrored")]


def test_slivers_are_no_difference(motif_of):
    """A contour that is off by half a millimeter all around covers much and shows little."""
    tilted = motif_of('<path d="M20 20h60v60h-58z" fill="#333"/>')
    assert found(one_motif_theme(tilted), 6) == []


def test_faint_changes_are_no_difference(motif_of):
    """A part that is hardly lighter than what lies beneath it is not asked for."""

    def spot(color: str) -> list[tuple[str, ...]]:
        return found(
            one_motif_theme(
                motif_of(
                    '<rect width="90" height="90" fill="#808080"/>'
                    f'<circle id="spot" cx="45" cy="45" r="20" fill="{color}"/>'
                )
            ),
            4,
        )

    assert ("boat", "part missing", "spot") in spot("#e0e0e0")
    assert ("boat", "part missing", "spot") not in spot("#888888")


def test_colors_of_one_gray_are_no_difference_on_paper(motif_of):
    """Red and green that print as one gray cannot be told apart on every printer: not used."""
    # 0.2126 * 200 + 0.7152 * 60 = 85.4; 0.7152 * 119 = 85.1.
    motif = motif_of(
        '<rect width="90" height="90" fill="rgb(200,60,0)"/>'
        '<circle id="spot" cx="45" cy="45" r="20" fill="rgb(0,119,0)"/>'
    )
    said = [said[1:] for said in found(one_motif_theme(motif), 4)]
    assert ("part missing", "spot") not in said
    assert ("part recolored", "spot") in said


def test_a_picture_never_falls_apart(motif_of):
    """A part that holds others together, or is most of the picture, is not left out."""
    barbell = motif_of(
        '<g id="bar"><rect x="20" y="45" width="60" height="10" fill="#333"/></g>'
        '<rect id="left-disc" x="5" y="25" width="20" height="50" fill="#a33"/>'
        '<rect id="right-disc" x="75" y="25" width="20" height="50" fill="#a33"/>'
    )
    missing = [said[2] for said in found(one_motif_theme(barbell), 4) if said[1] == "part missing"]
    assert missing == ["left disc", "right disc"]


# --- what holds for all of them ----------------------------------------------------------------


@pytest.fixture(scope="session")
def all_differences(plain) -> list[tuple[Ink, Difference]]:
    """Every difference of the plain theme in all inks."""
    return [(ink, each) for ink in INKS for level in LEVELS for each in differences(plain, level, ink, SIZE)]


def test_what_is_said_is_so(all_differences):
    """Level, kind and looks agree: one thing differs, and it is the thing that is named."""
    kinds = {
        1: {"another motif"}, 2: {"another motif"}, 3: {"smaller", "larger"},
        4: {"part missing", "part recolored"}, 5: {"turned"}, 6: {"mirrored"},
    }  # fmt: skip
    for _, each in all_differences:
        assert each.kind in kinds[each.level]
        assert each.said[0] == each.kind
        alike, odd = each.alike, each.odd
        assert (odd.turn != 0) == (each.kind == "turned")
        assert odd.mirror == (each.kind == "mirrored")
        assert (odd.scale != alike.scale) == (each.kind in ("smaller", "larger"))
        if each.level != 3:
            assert (odd.drawing is alike.drawing) == (each.kind in ("turned", "mirrored"))


def test_every_difference_lies_above_the_floors(all_differences):
    """At least 3 mm2 in color and gray, 1.5 mm2 of line in outline, and a difference of 20 in color."""
    assert len(all_differences) > 100
    for ink, each in all_differences:
        assert each.area >= (1.5 if ink == "outline" else 3)
        assert each.contrast >= (20 if ink == "color" else 5)


def test_differences_in_color_show_in_gray_too(plain):
    """Each pair drawn in color is told apart by the measure of a gray printer."""
    for level in LEVELS:
        for each in differences(plain, level, "color", SIZE):
            alike, odd = (pixels(look, SIZE) for look in (each.alike, each.odd))
            assert measure("gray")(alike, odd) is not None


def test_equal_requests_give_the_same_answer(plain):
    """Results and drawings are kept, so that equal pictures are one object on paper."""
    first, second = (differences(plain, 4, "color", SIZE) for _ in range(2))
    assert first is second
    whole = plain.motif("tower").drawing("color", size=SIZE)
    assert all(each.alike.drawing is whole for each in first if each.motif == "tower")


# --- measuring ---------------------------------------------------------------------------------


def test_looks_are_turned_clockwise_about_the_middle(plain):
    """A flag turned by 90 degrees has its cloth, at the top right before, at the bottom right."""
    flag = plain.motif("flag").drawing("color", size=SIZE)
    upright, turned = (pixels(Look(drawing=flag, turn=turn), SIZE).colors for turn in (0, 90))
    side = upright.width
    assert turned.size == (side, side)
    cloth = upright.getpixel((round(side * 0.6), round(side * 0.25)))
    assert cloth == (0xD9, 0x82, 0x2B)
    # (x, y) from the middle goes to (-y, x) with y down.
    assert turned.getpixel((round(side * 0.75), round(side * 0.6))) == cloth
    four = upright
    for _ in range(4):
        four = four.transpose(Image.Transpose.ROTATE_270)
    assert four.tobytes() == upright.tobytes()


def test_looks_are_mirrored_left_to_right(plain):
    """The cloth of a mirrored flag is on the left of its pole."""
    flag = plain.motif("flag").drawing("color", size=SIZE)
    plain_look, mirrored = (pixels(Look(drawing=flag, mirror=mirror), SIZE).colors for mirror in (0, 1))
    side = plain_look.width
    at = (round(side * 0.6), round(side * 0.25))
    assert mirrored.getpixel((side - 1 - at[0], at[1])) == plain_look.getpixel(at)


def test_print_size_is_what_is_measured(plain):
    """The square of 20 mm covers 400 mm2."""
    square = plain.motif("square").drawing("color", size=SIZE)
    cover = pixels(Look(drawing=square), SIZE).cover
    assert sum(cover.tobytes()) / 255 / PIXELS_PER_MM**2 == pytest.approx(400, rel=1e-3)


@given(st.lists(st.tuples(*[st.integers(0, 30)] * 4), max_size=8))
def test_separate_things_are_counted_as_another_counter_does(boxes):
    """Things joined at edges or corners are one, as scipy's labelling has it."""
    import numpy

    image = Image.new("L", (32, 32), 0)
    draw = ImageDraw.Draw(image)
    for x1, y1, x2, y2 in boxes:
        draw.rectangle((min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)), outline=255)
    expected = ndimage.label(numpy.asarray(image) > 127, structure=numpy.ones((3, 3)))[1]
    assert things(image) == expected
