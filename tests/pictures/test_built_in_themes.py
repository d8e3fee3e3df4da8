"""What every theme that comes with printkit promises, measured on its pictures."""

from pathlib import Path

import numpy
import pytest
from scipy import ndimage

from printkit.pictures import Look, Motif, Theme, built_in, differences, load_theme
from printkit.pictures.differences import LEVELS, seen_at_all_sizes
from printkit.pictures.flatten import rasterise
from printkit.pictures.grays import APART, neighbors
from printkit.pictures.kept import INKS, SIZES, kept_for
from printkit.pictures.plurals import categories
from printkit.pictures.seen import mirror_change, pixels
from printkit.pieces import Color

LANGUAGES = {"en", "es", "fr", "de", "pt-PT", "pt-BR", "it", "nl", "pl"}
THEMES = {name: load_theme(name, Path(), "") for name in built_in()}
MOTIFS = [(theme, motif) for theme in THEMES.values() for motif in theme.motifs]

# 12 mm, the smallest picture on a card, at 300 dpi.
SMALLEST = round(12 / 25.4 * 300)


def names(value: object) -> str:
    return value.key if isinstance(value, Motif) else value.name if isinstance(value, Theme) else value


each_theme = pytest.mark.parametrize("theme", THEMES.values(), ids=names)
each_motif = pytest.mark.parametrize(("theme", "motif"), MOTIFS, ids=names)


def test_there_are_themes_for_every_season():
    """Eight themes, two a season; the one that a pack file means when it names none is among them."""
    seasons = [theme.season for theme in THEMES.values()]
    assert {season: seasons.count(season) for season in seasons} == {
        "spring": 2, "summer": 2, "autumn": 2, "winter": 2
    }  # fmt: skip
    assert "rock-pool" in THEMES


@each_motif
@pytest.mark.parametrize("ink", INKS)
def test_motifs_are_one_connected_thing(theme, motif, ink):
    """At 12 mm each motif is one thing in every ink: what counts is all that is not paper around it."""
    image = rasterise(motif.drawing(ink, size=12), SMALLEST, SMALLEST)
    ink_there = numpy.pad(numpy.asarray(image).min(axis=2) < 245, 1)
    thing = ndimage.binary_fill_holes(ink_there)
    assert ndimage.label(thing, structure=numpy.ones((3, 3)))[1] == 1


@each_motif
def test_motifs_name_at_least_four_parts(theme, motif):
    """Parts that can be left out or recolored, for odd-one-out."""
    assert len(motif.parts) >= 4


@each_motif
def test_motifs_are_drawn_as_their_files_say(theme, motif):
    """Built-in art uses nothing that the reader does not draw."""
    assert motif.notes == ()


@each_motif
@pytest.mark.parametrize("ink", INKS)
def test_motifs_fill_their_box_and_stay_in_it(theme, motif, ink):
    """The file's square is filled to 70 % or more in one direction, and nothing reaches out of it."""
    sheet = motif.source.drawing
    assert sheet.width == sheet.height
    drawing = motif.drawing(ink, size=12)
    edge = 0.5 if ink == "outline" else 0
    assert 0.7 * sheet.width <= max(drawing.width, drawing.height) <= sheet.width * (1 + edge / 6)


@each_motif
def test_neighbors_stay_apart_in_gray(theme, motif):
    """Where two colors meet, their grays differ by 1.3 to 1 or more (WCAG 2's contrast)."""
    shapes = [item.shape for item in motif.source.items if not item.shade]
    printed = motif.drawing("gray", size=12).shapes
    colored = motif.drawing("color", size=12).shapes
    grays = {one.fill: two.fill for one, two in zip(colored, printed, strict=True)}
    grays |= {one.stroke: two.stroke for one, two in zip(colored, printed, strict=True)}
    pairs = neighbors(shapes, motif.source.width, motif.source.height)
    assert pairs
    for one, two in pairs:
        assert contrast(grays[one], grays[two]) >= APART, (one, two)


def contrast(one: Color, two: Color) -> float:
    """(L1 + 0.05) / (L2 + 0.05), https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio."""
    (dark,), (light,) = sorted((one, two))
    lit, dim = (
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in (light, dark)
    )
    return (lit + 0.05) / (dim + 0.05)


@each_motif
def test_motifs_have_names_in_all_promised_languages(theme, motif):
    """Each with just the plural forms that CLDR's rules for whole numbers ask for."""
    named = dict(motif.names)
    assert set(named) == {tag for tag, _ in theme.titles} == LANGUAGES
    for tag, name in named.items():
        forms = dict(name.forms)
        assert set(forms) == set(categories(tag))
        assert all(form == form.strip() != "" for form in forms.values())
        assert name.gender in {
            "en": ("",),
            "nl": ("c", "n"),
            "pl": ("m", "f", "n"),
            "de": ("m", "f", "n"),
        }.get(tag, ("m", "f"))


@each_theme
@pytest.mark.parametrize("tag", sorted(LANGUAGES))
def test_motifs_of_a_theme_have_names_of_their_own(theme, tag):
    """No two pictures of a theme are called the same, for one or for many."""
    for n in (1, 2, 5):
        named = [motif.name(tag, n).casefold() for motif in theme.motifs]
        assert len(set(named)) == len(named)


@each_motif
def test_symmetry_is_as_the_theme_says(theme, motif):
    """What is called symmetric differs from its mirror image by at most 1 %, what is not by over 5 %."""
    drawing = motif.drawing("color", size=30)
    whole, mirrored = (pixels(Look(drawing=drawing, mirror=mirror), 30) for mirror in (False, True))
    apart = numpy.abs(numpy.asarray(whole.colors, dtype=int) - numpy.asarray(mirrored.colors, dtype=int)).max(
        axis=2
    )
    share = (apart > 40).sum() / (numpy.asarray(whole.cover) > 127).sum()
    assert motif.symmetric is not None
    assert share <= 0.01 if motif.symmetric else share > 0.05
    assert mirror_change(motif) == pytest.approx(share, abs=0.005)


@each_motif
def test_what_faces_a_side_is_not_symmetric(theme, motif):
    """Only what differs left and right can be said to face one of them."""
    assert motif.faces in ("", "left", "right")
    assert not (motif.faces and motif.symmetric)


@each_theme
def test_themes_have_enough_of_everything(theme):
    """Fourteen motifs, most of them things to count, some alike left and right and some not, colors."""
    assert len(theme.motifs) >= 14
    assert len(theme.counted) >= 8
    assert sum(motif.symmetric is True for motif in theme.motifs) >= 4
    assert sum(motif.symmetric is False for motif in theme.motifs) >= 4
    assert len(theme.palette) >= 5
    assert len(theme.accent) in (1, 3)


@each_theme
@pytest.mark.parametrize("ink", INKS)
def test_themes_have_differences_of_every_level(theme, ink):
    """Odd-one-out can be made at every level in every ink, with more than one motif."""
    for level in LEVELS:
        assert len({each.motif for each in differences(theme, level, ink, SIZES[1])}) >= 4


@each_theme
def test_kept_differences_are_those_measured_anew(theme):
    """What is kept beside a theme was measured on just these pictures; one ink and level of each motif is measured again."""
    kept = kept_for(theme.folder)
    assert kept is not None, f"python -m printkit.pictures.keeping {theme.name}"
    number = sorted(THEMES).index(theme.name)
    for at, motif in enumerate(theme.motifs):
        ink, level = INKS[(at + number) % 3], LEVELS[(at + number // 3) % len(LEVELS)]
        entries = kept.entries[ink, level, motif.key]
        assert entries == seen_at_all_sizes(theme, motif, level, ink), (ink, level, motif.key)
