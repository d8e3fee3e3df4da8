"""Scripts beside the Latin one: the right face, joined and turned as readers expect, and still text."""

import hashlib
import io
import re
import sys
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
import resvg_py
import uharfbuzz
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from scipy import ndimage

from printkit import letters
from printkit.letters import Numerals
from printkit.pieces import Mark, Run, Text
from printkit.resources import resource
from printkit.sheets import Page
from printkit.units import POINTS_PER_MM
from printkit.words import choices, languages, spell
from printkit.writer import write

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))
from numeral_subsets import FACES, HIRAGANA, KATAKANA  # noqa: E402

FONTS_OF_SCRIPTS = {
    "Arab": "NotoNaskhArabic-Regular",
    "Armn": "NotoSansArmenian-Regular",
    "Beng": "NotoSansBengali-Regular",
    "Ethi": "NotoSansEthiopic-Regular",
    "Geor": "NotoSansGeorgian-Regular",
    "Grek": "NotoSans-Regular",
    "Hebr": "NotoSansHebrew-Regular",
    "Jpan": "NotoSansJP-numerals",
    "Kore": "NotoSansKR-numerals",
    "Telu": "NotoSansTelugu-Regular",
    "Thai": "NotoSansThaiLooped-Regular",
}
OTHERS = [language for language in languages() if language.script not in ("Latn", "Cyrl")]
FONTS = {language.tag: FONTS_OF_SCRIPTS[language.script] for language in OTHERS}
TURNED = [language.tag for language in OTHERS if language.direction == "rtl"]
# The digits of Unicode 16, category Nd.
DIGITS = {
    "ar": "٠١٢٣٤٥٦٧٨٩",
    "fa": "۰۱۲۳۴۵۶۷۸۹",
    "bn": "০১২৩৪৫৬৭৮৯",
    "te": "౦౧౨౩౪౫౬౭౮౯",
    "th": "๐๑๒๓๔๕๖๗๘๙",
}


@cache
def words(tag: str) -> tuple[str, ...]:
    """The words 0 to 100, and behind them those that a choice of spelling has otherwise."""
    named = [spell(tag, number) for number in range(101)]
    chosen = [spell(tag, number, choice.name) for choice in choices(tag) for number in range(101)]
    return (*named, *dict.fromkeys(word for word in chosen if word not in named))


each_tag = pytest.mark.parametrize("tag", FONTS)


# --- the files -------------------------------------------------------------------------------


def test_files_are_those_of_the_table():
    """Each typeface is the file whose sha256 stands in fonts/README.md; together they stay small."""
    said = (resource("fonts") / "README.md").read_text(encoding="utf-8")
    listed = dict(re.findall(r"\| `([\w-]+\.ttf)` .* `([0-9a-f]{64})` \|", said))
    found = {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in resource("fonts").glob("*.ttf")
    }
    assert listed == found
    assert sum(path.stat().st_size for path in resource("fonts").rglob("*.*")) < 4_000_000


def test_each_typeface_has_its_copyright_line_beside_it():
    """The notice inside each file stands in one of the licence texts; no reserved name is borne."""
    texts = {path.name: path.read_text(encoding="utf-8") for path in resource("fonts").glob("OFL-*.txt")}
    assert all("SIL OPEN FONT LICENSE Version 1.1" in text for text in texts.values())
    for path in resource("fonts").glob("Noto*.ttf"):
        names = TTFont(path)["name"]
        assert any(f"{path.name}: {names.getDebugName(0)}" in text for text in texts.values())
        assert "Source" not in names.getDebugName(1)


@pytest.mark.parametrize("name", FACES)
def test_reduced_typefaces_hold_what_they_were_made_of(name):
    """The two that are reduced have exactly the letters their script lists."""
    assert set(TTFont(resource(f"fonts/{name}.ttf")).getBestCmap()) == {ord(char) for char in FACES[name]}


# --- faces -----------------------------------------------------------------------------------


@each_tag
def test_every_number_word_has_its_letters(tag):
    """No word 0 to 100 lacks a letter, and one face draws all of it."""
    for word in words(tag):
        assert letters.missing(word) == ""
        run = letters.run(word, 5.0)
        assert {span.font for span in run.spans} == {FONTS[tag]} == {run.font}
        assert all(glyph[0] for glyph in run.glyphs)


def test_names_of_languages_have_their_letters():
    """Every language can be named by its own name, and every kana can be written."""
    assert letters.missing("".join(language.own_name for language in languages())) == ""
    assert letters.missing(HIRAGANA + KATAKANA) == ""


@pytest.mark.parametrize(
    ("text", "lacking"), [("桜 さくら", "桜"), ("नमस्ते", "नमस्ते"), ("가 하나", "가"), ("سلمى 7 Wren", "")]
)
def test_what_no_face_has_is_told(text, lacking):
    """Letters of scripts without a face, and of the reduced ones what was left out."""
    assert set(letters.missing(text)) == set(lacking)


@each_tag
def test_digits_are_those_of_the_one_numeral_face(tag):
    """A western digit beside a word is the glyph it is alone, in the numeral face."""
    run = letters.run(f"{words(tag)[7]} 17", 5.0)
    digits = [item[0] for item in glyphs_of(run, "Andika-Regular") if item[4] in "17" and item[4]]
    assert digits == [item[0] for item in letters.run("17", 5.0).glyphs]


@given(st.sampled_from(sorted(FONTS)), st.integers(0, 100), st.floats(1, 60))
def test_spans_cover_the_glyphs(tag, number, size):
    """Spans hold each glyph once, and the run is as wide as its glyphs."""
    run = letters.run(f"{words(tag)[number]} · {number} Wren", size)
    assert sum(span.glyphs for span in run.spans) == len(run.glyphs)
    assert sum(glyph[1] for glyph in run.glyphs) * size / 1000 == pytest.approx(run.width)
    assert letters.text_width(run.text, size) == pytest.approx(run.width)


def glyphs_of(run: Run, font: str) -> list[tuple]:
    """The glyphs of a run that one face draws."""
    found, start = [], 0
    for span in run.spans:
        found += run.glyphs[start : start + span.glyphs] if span.font == font else ()
        start += span.glyphs
    return found


# --- shaping ---------------------------------------------------------------------------------


def test_arabic_letters_join():
    """Letters inside a word have other forms than alone."""
    for word in ("سبعة", "خمسة", "یک"):
        alone = [letters.run(char, 5.0).glyphs[0][0] for char in reversed(word)]
        joined = [item[0] for item in letters.run(word, 5.0).glyphs if item[4]]
        assert len(joined) == len(alone)
        assert sum(one != two for one, two in zip(joined, alone, strict=True)) >= len(word) - 1


@pytest.mark.parametrize("tag", TURNED)
def test_words_from_the_right_are_drawn_in_that_order(tag):
    """From left to right the glyphs stand for the word from its end to its beginning."""
    for word in words(tag):
        told = [item[4] for item in letters.run(word, 5.0).glyphs if item[4]]
        assert "".join(reversed(told)) == word


@pytest.mark.parametrize("tag", [tag for tag in FONTS if tag not in TURNED])
def test_words_from_the_left_are_told_in_their_order(tag):
    """Whatever was reordered or joined, the glyphs together stand for the word."""
    for word in words(tag):
        assert "".join(item[4] for item in letters.run(word, 5.0).glyphs) == word


@pytest.mark.parametrize(("bare", "marked"), [("สี", "สี่"), ("หนึง", "หนึ่ง"), ("ยี", "ยี่"), ("ปี", "ปี้")])
def test_tone_marks_stand_above_the_vowel(bare, marked):
    """A tone mark is set on the vowel above a Thai letter, never into it: else 4 has no tone."""
    height = letters.run(bare, 10.0).ink[1] - letters.run(marked, 10.0).ink[1]
    assert 0.5 < height < 3.0


def seen(text: str) -> str:
    """What is drawn, told from left to right."""
    return "".join(item[4] for item in letters.run(text, 5.0).glyphs)


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("סלע · 17", "17 · עלס"),
        ("סלע · 5 − 3 = 2", "5 − 3 = 2 · עלס"),
        ("סלע 1-10", "1-10 עלס"),
        ("סלע · counting cards · 1 of 14", "עלס · counting cards · 1 of 14"),
        ("Wren, סלע אבן, 17 cards", "Wren, ןבא עלס, 17 cards"),
        ("שלום (Wren 3) אבן", "ןבא (Wren 3) םולש"),
        ("rock סלע 12 אבן pool", "rock ןבא 12 עלס pool"),
    ],
)
def test_order_in_mixed_lines(text, order):
    """A line keeps the direction of most of its letters; figures and sums are never turned round."""
    assert seen(text) == order


def test_brackets_open_towards_what_they_hold():
    """In a line from the right the bracket that comes first opens to the left (Unicode, Bidi_Mirrored)."""
    opening, closing = (letters.run(f"x{char}", 5.0).glyphs[1][0] for char in "()")
    glyphs = [item[0] for item in letters.run("סלע (אבן) חול", 5.0).glyphs]
    assert glyphs.index(closing) > glyphs.index(opening) if closing in glyphs else opening not in glyphs


@given(st.sampled_from(TURNED), st.integers(0, 100), st.integers(0, 999), st.booleans())
def test_digits_of_a_number_never_reverse(tag, number, other, before):
    """A number beside a word from the right reads as it was written."""
    word = words(tag)[number]
    assert str(other) in seen(f"{other} {word}" if before else f"{word} {other}")


def test_digits_and_arabic_letters_are_shaped_apart():
    """No span holds both digits and letters from the right."""
    for text in ("سلمى 7", "سلمى ٧", "٧سلمى7", "دو۲"):
        run, start = letters.run(text, 5.0), 0
        for span in run.spans:
            told = "".join(item[4] for item in run.glyphs[start : start + span.glyphs])
            assert not (re.search(r"\d", told) and re.search(r"[^\W\d]", told))
            start += span.glyphs


# --- native digits ---------------------------------------------------------------------------


@pytest.mark.parametrize("tag", DIGITS)
def test_numbers_are_written_in_the_digits_that_are_taught(tag):
    """12 is one-two in those digits, in order, as high as the western ones, evenly spaced."""
    numerals = Numerals(digits=DIGITS[tag])
    for bold in (False, True):
        for number in ("0", "7", "12", "40", "100"):
            run = letters.run(number, 10.0, bold=bold, numerals=numerals)
            wanted = "".join(DIGITS[tag][int(digit)] for digit in number)
            assert run.text == "".join(item[4] for item in run.glyphs) == wanted
            assert {span.font for span in run.spans} == {FONTS[tag]}
        inks = [letters.run(digit, 10.0, bold=bold, numerals=numerals).ink for digit in "0123456789"]
        highest = max(-top for _, top, _, _ in inks)
        assert highest == pytest.approx(10 * letters.numeral_ratio(bold=bold), rel=0.02)
        assert max(bottom for *_, bottom in inks) < 0.4  # each stands on the rule below it
        whites = gaps(letters.run("1234567890", 10.0, bold=bold, numerals=numerals))
        assert whites == pytest.approx([1.1] * 9)


def gaps(run: Run) -> list[float]:
    """The white between neighbouring glyphs of a run of one span, in mm."""
    (span,) = run.spans
    font = TTFont(resource(f"fonts/{span.font}.ttf"))
    outlines, names = font["glyf"], font.getGlyphOrder()
    unit = 1000 * span.scale / font["head"].unitsPerEm
    edges, pen = [], 0.0
    for glyph, advance, dx, *_ in run.glyphs:
        outline = outlines[names[glyph]]
        edges.append((pen + dx + outline.xMin * unit, pen + dx + outline.xMax * unit))
        pen += advance
    return [(two[0] - one[1]) * run.size / 1000 for one, two in pairwise(edges)]


def test_words_and_sums_keep_their_digits():
    """Only a text of digits is rewritten; without numerals nothing is."""
    numerals = Numerals(digits=DIGITS["fa"])
    assert letters.run("3 of 7", 5.0, numerals=numerals).text == "3 of 7"
    assert letters.run("37", 5.0).text == "37"
    assert letters.fit("37", 30, 30, numerals=numerals).text == "۳۷"
    assert letters.hollow("37", 9, 0, 0, color=(0.5,), width=0.3, numerals=numerals).run.text == "۳۷"


# --- on the page -----------------------------------------------------------------------------

SIDE, STEP = 800 / POINTS_PER_MM, 9.0


def page_of(marks: list[Mark]) -> bytes:
    """The PDF of one page."""
    return write([Page(width=SIDE, height=SIDE, marks=tuple(marks))], title="t", language="en").data


def read(data: bytes) -> list[str]:
    """The lines of the page as a foreign reader copies them."""
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    try:
        return document[0].get_textpage().get_text_range().split("\r\n")
    finally:
        document.close()


def lines(texts: tuple[str, ...], numerals: Numerals | None = None, hollow: bool = False) -> list[Mark]:
    """A text a line."""
    return [
        letters.hollow(text, 6.0, 10, STEP * (n + 1), color=(0.4,), width=0.2)
        if hollow
        else Text(run=letters.run(text, 6.0, numerals=numerals), x=10, y=STEP * (n + 1))
        for n, text in enumerate(texts)
    ]


@pytest.mark.parametrize("hollow", [False, True])
@each_tag
def test_words_are_copied_as_they_are_written(tag, hollow):
    """PDFium, which knows nothing of the shaping, copies each word 0 to 100 whole."""
    for start in range(0, len(words(tag)), 30):
        some = words(tag)[start : start + 30]
        assert read(page_of(lines(some, hollow=hollow))) == list(some)


def test_mixed_lines_and_names_are_copied_as_they_are_written():
    """Names, labels of two scripts and words with joined lam and alef."""
    texts = (
        "سلمى · 7",
        "سلمى · counting cards · 1 of 4",
        "ثلاثة وثلاثون",
        "さくら · 3",
        "ন্যান্সি 4",
        "น้ำ 12",
        "Σοφία",
    )
    assert read(page_of(lines(texts))) == list(texts)


@pytest.mark.parametrize("tag", DIGITS)
def test_native_digits_are_copied_as_such(tag):
    """A number in native digits is text in these digits."""
    numbers = ("0", "12", "40")
    native = str.maketrans("0123456789", DIGITS[tag])
    data = page_of(lines(numbers, numerals=Numerals(digits=DIGITS[tag])))
    assert read(data) == [number.translate(native) for number in numbers]


DOTS = 3.0  # pixels a point


def drawn(run: Run, x: float, y: float) -> np.ndarray:
    """The ink of a run on a page, as PDFium draws it."""
    document = pypdfium2.PdfDocument(io.BytesIO(page_of([Text(run=run, x=x, y=y)])))
    try:
        return document[0].render(scale=DOTS).to_numpy()[..., 0] < 128
    finally:
        document.close()


def outlined(word: str, font: str, size: float, x: float, y: float) -> np.ndarray:
    """The ink of the outlines at the places that HarfBuzz gives them by itself, as resvg draws them."""
    path = resource(f"fonts/{font}.ttf")
    shaper = uharfbuzz.Font(uharfbuzz.Face(path.read_bytes()))
    buffer = uharfbuzz.Buffer()
    buffer.add_str(word)
    buffer.guess_segment_properties()
    uharfbuzz.shape(shaper, buffer, {"liga": False})  # letters that may be joined stand alone
    opened = TTFont(path)
    names, outlines = opened.getGlyphOrder(), opened.getGlyphSet()
    scale = POINTS_PER_MM * DOTS
    unit = size * scale / opened["head"].unitsPerEm
    pen, shapes = 0.0, []
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        shape = SVGPathPen(outlines)
        outlines[names[info.codepoint]].draw(shape)
        left = x * scale + (pen + place.x_offset) * unit
        base = y * scale - place.y_offset * unit
        shapes.append(
            f'<path transform="matrix({unit} 0 0 {-unit} {left} {base})" d="{shape.getCommands()}"/>'
        )
        pen += place.x_advance
    side = round(SIDE * scale)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{side}" height="{side}">'
        f'<rect width="{side}" height="{side}" fill="white"/>{"".join(shapes)}</svg>'
    )
    image = Image.open(io.BytesIO(resvg_py.svg_to_bytes(svg_string=svg)))
    return np.asarray(image.convert("L")) < 128


LONG = [(tag, max((spell(tag, number) for number in range(101)), key=len)) for tag in FONTS]
MARKED = [("bn", "চৌষট্টি"), ("ar", "ثُلَاثَة"), ("he", "נֹעַם"), ("th", "พี่น้ำ")]


@pytest.mark.parametrize(("tag", "word"), [*LONG, *MARKED])
def test_the_page_shows_what_the_shaper_placed(tag, word):
    """No ink is more than a pixel away from the outlines where HarfBuzz places them, and none is missing."""
    page, wanted = drawn(letters.run(word, 20.0), 20, 60), outlined(word, FONTS[tag], 20.0, 20, 60)
    assert wanted.sum() > 1000
    strange, lacking = page & ~grown(wanted), wanted & ~grown(page)
    assert strange.sum() + lacking.sum() < 0.001 * wanted.sum()


def grown(ink: np.ndarray) -> np.ndarray:
    """The ink and all pixels beside it: PDFium sets each glyph on a whole pixel."""
    return ndimage.binary_dilation(ink, np.ones((3, 3)))


@each_tag
def test_ink_boxes_hold_the_ink(tag):
    """What is measured is what is drawn: marks above and below a letter count, too."""
    run = letters.run(words(tag)[24], 20.0)
    rows, columns = np.nonzero(drawn(run, 20, 60))
    scale = POINTS_PER_MM * DOTS
    left, top, right, bottom = run.ink
    box = (20 + left, 60 + top, 20 + right, 60 + bottom)
    found = (columns.min(), rows.min(), columns.max() + 1, rows.max() + 1)
    assert found == pytest.approx([side * scale for side in box], abs=2.0)


def test_a_stretch_without_glyphs_leaves_the_next_in_its_place():
    """White of the width of what no face has, and the letters of another face behind it where measured."""
    run = letters.run("龍 सागर סלע", 20.0)
    _, columns = np.nonzero(drawn(run, 20, 60))
    assert columns.min() == pytest.approx((20 + run.ink[0]) * POINTS_PER_MM * DOTS, abs=2.0)
    assert run.ink[0] >= 0 and run.ink[2] <= run.width


def test_bytes_do_not_know_what_was_made_before():
    """The same page after another one, and made twice, is the same file."""
    first = page_of(lines(words("bn")[10:30]))
    page_of(lines(words("bn")[60:80] + words("ar")[:10]))
    assert page_of(lines(words("bn")[10:30])) == first
