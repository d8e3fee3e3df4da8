"""Which typeface draws which letter: one face a script, found by code point."""

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from printkit.resources import resource

REGULAR, BOLD = "Andika-Regular", "Andika-Bold"
"""Latin, Cyrillic, the digits of every page and all marks between words."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Script:
    """The letters that one face draws: `letters` as a class of a regular expression."""

    font: str
    letters: str
    turned: bool = False  # written from the right


# Ranges after the blocks of Unicode 16 (Blocks.txt).
SCRIPTS = (
    Script(font="NotoSans-Regular", letters="\u0370-\u03ff\u1f00-\u1fff"),
    Script(font="NotoSansArmenian-Regular", letters="\u0530-\u058f\ufb13-\ufb17"),
    Script(font="NotoSansHebrew-Regular", letters="\u0590-\u05ff\ufb1d-\ufb4f", turned=True),
    Script(
        font="NotoNaskhArabic-Regular",
        letters="\u0600-\u06ff\u0750-\u077f\u08a0-\u08ff\ufb50-\ufdff\ufe70-\ufefc",
        turned=True,
    ),
    Script(font="NotoSansBengali-Regular", letters="\u0964\u0965\u0980-\u09ff"),
    Script(font="NotoSansTelugu-Regular", letters="\u0c00-\u0c7f"),
    Script(font="NotoSansThaiLooped-Regular", letters="\u0e00-\u0e7f"),
    Script(font="NotoSansGeorgian-Regular", letters="\u10a0-\u10ff\u1c90-\u1cbf\u2d00-\u2d2f"),
    Script(font="NotoSansEthiopic-Regular", letters="\u1200-\u139f\u2d80-\u2ddf\uab00-\uab2f"),
    Script(font="NotoSansKR-numerals", letters="\u1100-\u11ff\u3130-\u318f\uac00-\ud7ff"),
    Script(
        font="NotoSansJP-numerals",
        letters="\u3000-\u30ff\u31f0-\u31ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff\uff01-\uffef",
    ),
)

_OTHER = re.compile("[" + "".join(script.letters for script in SCRIPTS) + "]")
_ONE_OF = tuple((re.compile(f"[{script.letters}]"), script) for script in SCRIPTS)


def is_plain(text: str) -> bool:
    """Whether the infant letterform alone draws `text`, from the left."""
    return _OTHER.search(text) is None


@cache
def script_of(char: str) -> Script | None:
    """The script that a letter belongs to; None for those of the infant letterform, and for marks."""
    return next((script for letters, script in _ONE_OF if letters.match(char)), None)


def font_of(char: str) -> str:
    """The face that draws a letter by itself."""
    script = script_of(char)
    return script.font if script else REGULAR


@cache
def face(font: str) -> Any:
    """The face, opened at its first use."""
    import uharfbuzz

    blob = uharfbuzz.Blob.from_file_path(str(resource(f"fonts/{font}.ttf")))
    return uharfbuzz.Font(uharfbuzz.Face(blob))


def has(font: str, char: str) -> bool:
    """Whether a face has a glyph for the letter."""
    return bool(face(font).get_nominal_glyph(ord(char)))


def missing(text: str) -> str:
    """The characters of `text` that no typeface can draw, each once, in order."""
    import unicodedata

    drawable = (
        char for char in dict.fromkeys(text) if not char.isspace() and unicodedata.category(char) != "Cf"
    )
    return "".join(char for char in drawable if not has(font_of(char), char))


@cache
def glyph_advance(font: str, glyph: int) -> float:
    """The unshaped advance of a glyph in 1/1000 em."""
    opened = face(font)
    return opened.get_glyph_h_advance(glyph) * 1000 / opened.face.upem
