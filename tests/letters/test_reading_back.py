"""An independent reader (Tesseract) reads the words that are to be traced, drawn solid at 18 mm.

Where the reader or a language's data is not installed the test is skipped.
"""

import difflib
import shutil
import subprocess
from collections import Counter
from functools import cache

import pypdfium2
import pytest

from printkit.letters.traced import Style, traced, width
from printkit.sheets.model import Page
from printkit.words import spell
from printkit.writer import write

DATA = {
    "en": "eng",
    "es": "spa",
    "fr": "fra",
    "de": "deu",
    "pt-PT": "por",
    "it": "ita",
    "nl": "nld",
    "pl": "pol",
    "sv": "swe",
    "tr": "tur",
}
SOLID = Style(height=18, manner="solid")
WIDE = 300.0

pytestmark = pytest.mark.ocr


@cache
def installed() -> frozenset[str]:
    """The languages whose data the reader has; none without the reader."""
    if not shutil.which("tesseract"):
        return frozenset()
    told = subprocess.run(["tesseract", "--list-langs"], capture_output=True, text=True, check=False)
    return frozenset(told.stdout.split())


def page_of(words: list[str]) -> Page:
    """The words in rows, well apart."""
    marks, x, y = [], 10.0, 10.0
    for word in words:
        if x + width(word, SOLID) > WIDE - 20:
            x, y = 10.0, y + 36
        marks.append(traced(word, SOLID, x, y + 18))
        x += width(word, SOLID) + 14
    return Page(width=WIDE, height=y + 40, marks=tuple(marks))


def read(words: list[str], data: str, folder) -> str:
    """What the reader sees on the page of those words."""
    pdf = write([page_of(words)], title="words", language="en").data
    picture = folder / "words.png"
    with pypdfium2.PdfDocument(pdf) as document:
        document[0].render(scale=0.85).to_pil().convert("L").save(picture)
    command = ["tesseract", str(picture), "-", "-l", data, "--psm", "6"]
    return " ".join(subprocess.run(command, capture_output=True, text=True, check=True).stdout.split())


@pytest.mark.parametrize("tag", DATA)
def test_words_read_back(tag, tmp_path):
    """At least 97 % of the letters of the words 0 to 100, and none read as another in most places."""
    if DATA[tag] not in installed():
        pytest.skip(f"Tesseract with its data for {tag} is not installed")
    spelled = (spell(tag, number) for number in range(101))
    words = list(dict.fromkeys(part for word in spelled for part in word.replace("-", " ").split()))
    expected = " ".join(words)
    matcher = difflib.SequenceMatcher(None, expected, read(words, DATA[tag], tmp_path), autojunk=False)
    right: Counter[str] = Counter()
    for block in matcher.get_matching_blocks():
        right.update(expected[block.a : block.a + block.size])
    letters = Counter(expected)
    del letters[" "], right[" "]

    assert right.total() >= 0.97 * letters.total()
    assert [char for char, count in letters.items() if right[char] < count / 2] == []
