"""Letters: text is shaped, measured and fitted here, and nowhere else.

In: text and a size in mm an em; out: runs (`pieces.Run`) that the writer draws as they are.
"""

from printkit.letters.faces import missing
from printkit.letters.numerals import PLAIN_NUMERALS, Numerals
from printkit.letters.shape import (
    ascender_ratio,
    descender_ratio,
    fit,
    hollow,
    numeral_ratio,
    run,
    shrink_to,
    text_width,
    wrap,
    x_height_ratio,
)

__all__ = [
    "PLAIN_NUMERALS",
    "Numerals",
    "ascender_ratio",
    "descender_ratio",
    "fit",
    "hollow",
    "missing",
    "numeral_ratio",
    "run",
    "shrink_to",
    "text_width",
    "wrap",
    "x_height_ratio",
]
