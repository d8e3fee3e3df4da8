"""What every theme that comes with printkit promises, measured on its pictures."""

from pathlib import Path

import numpy
import pytest
from scipy import ndimage

from printkit.pictures import Look, Motif, Theme, built_in, differences, load_theme
from printkit.pictures.differences import LEVELS
from printkit.pictures.flatten import rasterise
from printkit.pictures.seen import pixels

INKS = ("color", "gray", "outline")
THEMES = {name: load_theme(name, Path(), "") for name in built_in()}
MOTIFS = [(theme, motif) for theme in THEMES.values() for motif in theme.motifs]

# 12 mm, the smallest picture on a card, at 300 dpi.
SMALLEST = round(12 / 25.4 * 300)


def names(value: object) -> str:
    return value.key if isinstance(value, Motif) else value.name if isinstance(value, Theme) else value


each_theme = pytest.mark.parametrize("theme", THEMES.values(), ids=names)
each_motif = pytest.mark.parametrize(("theme", "motif"), MOTIFS, ids=names)


def test_there_is_a_theme():
    """The theme that a pack file means when it names none is there."""
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
def test_motifs_have_names_in_all_languages_of_the_theme(theme, motif):
    """Each language of the title has a name for one and for many."""
    named = {tag for tag, _ in motif.names}
    assert named == {tag for tag, _ in theme.titles}
    assert "en" in named
    for tag, name in motif.names:
        assert all(form.strip() for _, form in name.forms)
        assert motif.name(tag, 1)
        assert motif.name(tag, 5)


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


@each_theme
def test_themes_have_twelve_motifs_a_season_and_colors(theme):
    """Enough pictures for a set of cards, and what the pages take from the theme."""
    assert len(theme.motifs) >= 12
    assert theme.season
    assert len(theme.palette) >= 4
    assert len(theme.accent) in (1, 3)


@each_theme
@pytest.mark.parametrize("ink", INKS)
def test_themes_have_differences_of_every_level(theme, ink):
    """Odd-one-out can be made at every level in every ink, with more than one motif."""
    for level in LEVELS:
        assert len({each.motif for each in differences(theme, level, ink, 20.0)}) >= 4
