"""Runs are as wide as the typeface says, fit where they must, and show the numerals a family teaches."""

import unicodedata
from functools import cache
from itertools import pairwise

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from printkit import letters
from printkit.letters import Numerals
from printkit.resources import resource
from printkit.words import languages, spell

FONTS = {False: "Andika-Regular", True: "Andika-Bold"}
FORMS = [
    Numerals(one=one, four=four, seven=seven)
    for one in ("flag", "foot")
    for four in ("closed", "open")
    for seven in ("plain", "barred")
]
ENGLISH = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
words = st.lists(
    st.text(st.sampled_from(ENGLISH + "éñßłãç'-,.·"), min_size=1, max_size=14), min_size=1, max_size=30
)
sizes = st.floats(1, 60)


@cache
def opened(bold: bool) -> TTFont:
    """The typeface file, read by another library than the one that shapes."""
    return TTFont(resource(f"fonts/{FONTS[bold]}.ttf"))


# --- widths ----------------------------------------------------------------------------------


@pytest.mark.parametrize("bold", [False, True])
def test_single_letters_are_as_wide_as_the_typeface_says(bold):
    """A letter's width is its advance in the table 'hmtx' (OpenType), times the size of the em."""
    font = opened(bold)
    names, upem = font.getBestCmap(), font["head"].unitsPerEm
    own_forms = Numerals(one="foot")  # the forms that the typeface has without any feature
    for letter in [sign for sign in ENGLISH + "éñßłãçжю" if not sign.isdigit()]:
        advance = font["hmtx"][names[ord(letter)]][0]
        run = letters.run(letter, 10.0, bold=bold, numerals=own_forms)
        assert run.width == pytest.approx(10 * advance / upem, abs=1e-9)
        assert [glyph[0] for glyph in run.glyphs] == [font.getGlyphID(names[ord(letter)])]


@pytest.mark.parametrize("bold", [False, True])
def test_ink_is_that_of_the_outlines(bold):
    """The box of a letter's ink is that of its outline in the table 'glyf', y turned down."""
    font = opened(bold)
    names, upem, glyphs = font.getBestCmap(), font["head"].unitsPerEm, font["glyf"]
    for letter in "abglpyAQ":
        outline = glyphs[names[ord(letter)]]
        box = (outline.xMin, -outline.yMax, outline.xMax, -outline.yMin)
        run = letters.run(letter, 10.0, bold=bold, numerals=Numerals(one="foot"))
        assert run.ink == pytest.approx([10 * side / upem for side in box], abs=0.01)


@given(words, sizes, st.booleans())
def test_widths_grow_with_the_size(some, size, bold):
    """Twice the em is twice the width and twice the ink; `text_width` is the width of the run."""
    text = " ".join(some)
    one, two = letters.run(text, size, bold=bold), letters.run(text, 2 * size, bold=bold)
    assert two.width == pytest.approx(2 * one.width)
    assert two.ink == pytest.approx([2 * side for side in one.ink])
    assert letters.text_width(text, size, bold=bold) == pytest.approx(one.width)
    assert sum(glyph[1] for glyph in one.glyphs) * size / 1000 == pytest.approx(one.width)


@pytest.mark.parametrize("tag", [language.tag for language in languages() if language.direction == "ltr"])
def test_number_words_of_every_language_can_be_drawn_and_read_back(tag):
    """No word needs a letter the typeface lacks, and the glyphs of a run stand for its whole text."""
    for number in (*range(21), 21, 35, 60, 70, 80, 99, 100):
        word = spell(tag, number)
        assert letters.missing(word) == ""
        run = letters.run(word, 5.0)
        assert all(glyph[0] != 0 for glyph in run.glyphs)
        assert "".join(glyph[4] for glyph in run.glyphs) == word


@pytest.mark.parametrize("text", ["fish shelf", "office", "cafe\u0301", "o\u0302\u0323 va", "a\u0308\u0301b"])
def test_text_is_read_back_as_it_was_written(text):
    """Joined or marked letters tell their text once, in order."""
    assert "".join(glyph[4] for glyph in letters.run(text, 5.0).glyphs) == text


@pytest.mark.parametrize("text", ["fi", "fl", "ff", "ffi"])
def test_letters_are_not_joined(text):
    """Each letter is a glyph of its own: a child looks for the letters it knows."""
    alone = [letters.run(char, 5.0).glyphs[0][0] for char in text]
    assert [glyph[0] for glyph in letters.run(text, 5.0).glyphs] == alone


@pytest.mark.parametrize(
    ("text", "lacking"),
    [("one, två", ""), ("龍 fish 龍", "龍"), ("Wren \N{FISH}", "\N{FISH}"), ("a\tb\u200d", "")],
)
def test_what_cannot_be_drawn_is_named(text, lacking):
    """Letters without a glyph are told, each once; spaces and invisible marks are none."""
    assert letters.missing(text) == lacking
    assert all(unicodedata.category(char) != "Cf" for char in letters.missing(text))


# --- numerals --------------------------------------------------------------------------------


def glyph(text: str, numerals: Numerals, bold: bool) -> int:
    """The glyph of one letter."""
    return letters.run(text, 10.0, bold=bold, numerals=numerals).glyphs[0][0]


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("numerals", FORMS)
def test_forms_change_one_four_and_seven_only(numerals, bold):
    """Each choice changes its own numeral, and no other letter or numeral."""
    plain = Numerals()
    changed = {text for text in ENGLISH if glyph(text, numerals, bold) != glyph(text, plain, bold)}
    wanted = {
        text
        for text, asked, usual in (
            ("1", numerals.one, plain.one),
            ("4", numerals.four, plain.four),
            ("7", numerals.seven, plain.seven),
        )
        if asked != usual
    }  # fmt: skip
    assert changed == wanted


@pytest.mark.parametrize("bold", [False, True])
def test_a_barred_seven_has_more_ink_than_a_plain_one(bold):
    """The bar is an addition: the outline of the barred 7 has more points, and the foot widens the 1."""
    font = opened(bold)

    def points(numerals: Numerals, text: str) -> int:
        name = font.getGlyphName(glyph(text, numerals, bold))
        return len(font["glyf"][name].getCoordinates(font["glyf"])[0])

    assert points(Numerals(seven="barred"), "7") > points(Numerals(), "7")
    flag, foot = (letters.run("1", 10.0, bold=bold, numerals=Numerals(one=form)) for form in ("flag", "foot"))
    assert foot.ink[2] - foot.ink[0] > flag.ink[2] - flag.ink[0]


@pytest.mark.parametrize("numerals", FORMS)
def test_forms_hold_inside_longer_numbers(numerals):
    """14, 47 and 71 are made of the same forms as 1, 4 and 7 alone."""
    for text in ("14", "47", "71", "100"):
        run = letters.run(text, 10.0, numerals=numerals)
        assert [item[0] for item in run.glyphs] == [glyph(digit, numerals, False) for digit in text]


# --- fitting ---------------------------------------------------------------------------------


@given(words, st.floats(5, 200), st.floats(2, 60), st.floats(2, 100), st.booleans())
def test_a_fitted_run_fits_and_is_the_largest(some, width, height, most, bold):
    """Ink and advance stay in the box; half a percent more would not, unless it is `most` already."""
    text = " ".join(some)
    run = letters.fit(text, width, height, most=most, bold=bold)
    left, top, right, bottom = run.ink
    assert right - left <= width + 1e-6
    assert run.width <= width + 1e-6
    assert bottom - top <= height + 1e-6
    assert run.size <= most
    bigger = 1.005
    assert (
        run.size == most or max(run.width, right - left) * bigger > width or (bottom - top) * bigger > height
    )


@given(words, st.floats(5, 200), st.floats(2, 40))
def test_texts_shrunk_together_fit_together(some, width, most):
    """One size for all, at which the widest is as wide as allowed or the size is `most`."""
    size = letters.shrink_to(tuple(some), width, most)
    widest = max(letters.text_width(text, size) for text in some)
    assert widest <= width + 1e-6
    assert size == most or widest == pytest.approx(width)
    assert size <= most


def test_nothing_shrinks_nothing():
    """Without a text the size is the largest allowed."""
    assert letters.shrink_to((), 10, 7.5) == 7.5


def test_an_empty_text_is_a_run_of_no_width():
    """Nothing to write is nothing drawn; two spaces in a row, with an empty word between, are kept."""
    assert letters.run("", 5.0).width == 0
    assert letters.shrink_to(("",), 10, 7.5) == 7.5
    assert " ".join(letters.wrap("rock  pool", 3.0, 50.0)) == "rock  pool"


@given(words, st.floats(2, 8), st.floats(10, 190), st.booleans())
def test_wrapping_keeps_every_word_and_the_width(some, size, width, bold):
    """Lines joined by spaces are the text again; a line is too wide only if it is a single word."""
    text = " ".join(some)
    lines = letters.wrap(text, size, width, bold=bold)
    assert " ".join(lines) == text
    for line in lines:
        assert letters.text_width(line, size, bold=bold) <= width + 0.02 * size or " " not in line


@given(words, st.floats(2, 8), st.floats(10, 190))
def test_wrapping_breaks_only_where_it_must(some, size, width):
    """The first word of a line would not have fitted the line before."""
    lines = letters.wrap(" ".join(some), size, width)
    for before, after in pairwise(lines):
        word = after.split(" ")[0]
        assert letters.text_width(f"{before} {word}", size) > width - 0.02 * size


# --- heights ---------------------------------------------------------------------------------


@pytest.mark.parametrize("bold", [False, True])
def test_heights_are_those_of_the_outlines(bold):
    """The height of numerals is that of the 7, which has no overshoot (table 'glyf')."""
    font = opened(bold)
    top = font["glyf"][font.getBestCmap()[ord("7")]].yMax / font["head"].unitsPerEm
    assert letters.numeral_ratio(bold=bold) == pytest.approx(top, abs=0.001)


def test_letters_stand_between_their_lines():
    """x is as high as the typeface says (OS/2 sxHeight), l and d higher; g goes below the base line."""
    font = opened(False)
    upem = font["head"].unitsPerEm
    assert letters.x_height_ratio() == pytest.approx(font["OS/2"].sxHeight / upem, abs=0.02)
    assert letters.ascender_ratio() > letters.x_height_ratio() > 0.4
    lowest = min(font["glyf"][font.getBestCmap()[ord(letter)]].yMin for letter in "gpqyj")
    assert letters.descender_ratio() == pytest.approx(-lowest / upem, abs=0.001)


def test_a_and_g_are_single_storey():
    """The infant letterforms: a is a bowl with a stem, g a bowl with an open tail; I, l and 1 differ."""
    font = opened(False)
    shapes = font.getGlyphSet()
    for letter, contours in (("a", 2), ("g", 2), ("o", 2), ("l", 1)):
        pen = DecomposingRecordingPen(shapes)
        shapes[font.getBestCmap()[ord(letter)]].draw(pen)
        assert sum(name == "moveTo" for name, _ in pen.value) == contours
    assert len({letters.run(letter, 10.0).glyphs[0][0] for letter in "Il1"}) == 3


@given(st.integers(0, 100), st.booleans())
def test_figures_of_a_numeral_stand_evenly(number, bold):
    """Between two figures of a numeral lies the same white, whatever the figures are."""
    run = letters.run(str(number), 10.0, bold=bold, numerals=Numerals())
    font = opened(bold)
    glyphs, upem = font["glyf"], font["head"].unitsPerEm
    names = font.getGlyphOrder()
    edges, pen = [], 0.0
    for glyph, advance, dx, _, _ in run.glyphs:
        outline = glyphs[names[glyph]]
        edges.append((pen + dx + outline.xMin * 1000 / upem, pen + dx + outline.xMax * 1000 / upem))
        pen += advance
    whites = [after[0] - before[1] for before, after in pairwise(edges)]
    assert whites == pytest.approx([110.0] * len(whites), abs=0.5)
