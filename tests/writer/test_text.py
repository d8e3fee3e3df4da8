"""What is written as text: drawn as shaped, and still text for those who search or copy."""

import io

import numpy as np
import pypdfium2

from printkit import letters
from printkit.letters import Numerals
from printkit.pieces import Text
from printkit.sheets import Page
from printkit.writer import write


def page_of(*texts: str, numerals: Numerals | None = None) -> bytes:
    """The PDF of a page with one text a line."""
    marks = tuple(
        Text(run=letters.run(text, 8.0, numerals=numerals), x=10.0, y=20.0 + 12.0 * n)
        for n, text in enumerate(texts)
    )
    return write([Page(width=100.0, height=80.0, marks=marks)], title="t", language="en").data


def pixels(data: bytes) -> np.ndarray:
    """The page as a foreign reader draws it."""
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    try:
        return document[0].render(scale=2).to_numpy().copy()
    finally:
        document.close()


def text(data: bytes) -> str:
    """The page as a foreign reader copies it."""
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    try:
        return document[0].get_textpage().get_text_range()
    finally:
        document.close()


def test_a_letter_the_typeface_lacks_leaves_the_others_alone():
    """What cannot be drawn is white; every letter behind it is still itself."""
    assert np.array_equal(pixels(page_of("\U0001f600", "Cautions")), pixels(page_of("", "Cautions")))


def test_other_numerals_are_still_digits_to_copy():
    """An open 4 and a barred 7 look different and copy as 4 and 7."""
    plain = page_of("1 4 7", "147", numerals=Numerals())
    other = page_of("1 4 7", "147", numerals=Numerals(one="foot", four="open", seven="barred"))

    assert not np.array_equal(pixels(plain), pixels(other))
    assert text(plain).split() == text(other).split() == ["1", "4", "7", "147"]


def test_marks_above_letters_are_raised():
    """An accent without a letter of its own stands above its letter, and copies with it."""
    assert "x\u0302" in text(page_of("x\u0302"))
    assert pixels(page_of("x\u0302")).min() < 100
