"""The file around the pages: boxes, wishes to the viewer, title and language, labels, fonts, other readers.

Entries are those of ISO 32000-1:2008 (7.7.3.3 pages, 12.2 viewer preferences, 12.4.2 page labels, 14.3.3
information, 14.11.2 boxes).
"""

import io
import re
import shutil
import subprocess
import zlib
from pathlib import Path

import pypdf
import pypdfium2
import pytest
from click.testing import CliRunner

from printkit import letters
from printkit.cli import commands
from printkit.pieces import Box, Text
from printkit.sheets import Page
from printkit.sheets.model import Bookmark
from printkit.writer import Written, write

PAPER = (215.9, 279.4)
PACK = """\
title = "Kitchen garden"
theme = "rock-pool"
flip = { card = "short", plain = "hand" }
languages = ["en", "uk"]
[[children]]
name = "Zoë"
numbers = [2, 5]
sums_to = 5
materials = ["counting-cards", "clip-cards", { make = "strips", count = 4, stock = "plain" },
    { make = "tracing", form = "card", numbers = [3, 4] }, { make = "odd-one-out", ink = "gray", count = 4 }]
"""
READERS = {
    "qpdf": ["qpdf", "--check", "--no-warn", "{file}"],
    "poppler": ["pdftoppm", "-r", "20", "-png", "{file}", "{folder}/page"],
    "Ghostscript": ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dPDFSTOPONERROR", "-sDEVICE=nullpage", "{file}"],
    "MuPDF": ["mutool", "draw", "-q", "-r", "20", "-F", "pnm", "-o", "/dev/null", "{file}"],
}


def written(**about: str) -> Written:
    """Two pages with a bookmark each and a few words."""
    pages = [
        Page(
            width=PAPER[0],
            height=PAPER[1],
            marks=(
                Text(run=letters.run(word, 8.0), x=20.0, y=30.0),
                Box(x=20.0, y=40.0, width=9.0, height=9.0),
            ),
            bookmarks=(Bookmark(title=word),),
        )
        for word in ("plums", "пара")
    ]
    return write(pages, title="Fruit stall", language="pt-PT", **about)


def read(made: Written) -> pypdf.PdfReader:
    """What a strict foreign reader makes of it."""
    return pypdf.PdfReader(io.BytesIO(made.data), strict=True)


@pytest.fixture(scope="module")
def pack(tmp_path_factory) -> Path:
    """The folder of a small pack of two scripts, three materials with backs and both inks."""
    folder = tmp_path_factory.mktemp("file")
    (folder / "shelf.toml").write_text(PACK, encoding="utf-8")
    result = CliRunner().invoke(commands, ["make", str(folder / "shelf.toml")])
    assert result.exit_code == 0, result.stderr
    return folder / "shelf"


def test_the_page_is_the_paper_in_all_its_boxes():
    """Media, crop, bleed and trim box are the paper; every page has a parent."""
    for page in read(written()).pages:
        for name in ("/MediaBox", "/CropBox", "/BleedBox", "/TrimBox"):
            assert [float(value) for value in page[name]] == [0, 0, 612, 792]
        assert "/UserUnit" not in page
        assert page["/Parent"]["/Type"] == "/Pages"


@pytest.mark.parametrize(
    ("duplex", "wish"),
    [("long", "/DuplexFlipLongEdge"), ("short", "/DuplexFlipShortEdge"), ("none", "/Simplex")],
)
def test_the_viewer_is_asked_for_true_size_and_the_right_turn(duplex, wish):
    """No scaling, the duplex turn, the title in the window, the language."""
    root = read(written(duplex=duplex)).trailer["/Root"]

    assert dict(root["/ViewerPreferences"].get_object()) == {
        "/PrintScaling": "/None",
        "/Duplex": wish,
        "/DisplayDocTitle": True,
    }
    assert root["/Lang"] == "pt-PT"


def test_a_title_and_neither_author_nor_clock():
    """The file says its title and what made it; nobody's name, no date."""
    about = read(written()).trailer["/Info"]

    assert dict(about) == {"/Title": "Fruit stall", "/Creator": "printkit", "/Producer": "printkit"}


def test_pages_are_called_by_their_child():
    """A viewer calls the pages of a child 'Zoë 1' and 'Zoë 2', those without a label 1 and 2."""
    assert read(written(label="Zoë")).page_labels == ["Zoë 1", "Zoë 2"]
    assert read(written()).page_labels == ["1", "2"]


def test_bookmarks_lead_to_their_pages():
    """Each bookmark has its title and opens its own page."""
    reader = read(written())

    assert [(mark.title, reader.get_destination_page_number(mark)) for mark in reader.outline] == [
        ("plums", 0),
        ("пара", 1),
    ]


def test_fonts_are_embedded_and_reduced():
    """Every font carries its own outlines, only those used, under a tag of six letters (9.6.4)."""
    reader = read(written())
    fonts = [font.get_object() for font in reader.pages[0]["/Resources"]["/Font"].values()]

    assert fonts
    for font in fonts:
        inner = font["/DescendantFonts"][0].get_object()
        file = inner["/FontDescriptor"]["/FontFile2"].get_data()
        assert re.fullmatch(r"/[A-Z]{6}\+[\w-]+", font["/BaseFont"])
        assert 0 < len(file) < 25_000
    assert all(b"Helvetica" not in item for item in written().data.split(b"endobj"))


def test_the_content_does_not_hang_on_the_packing(monkeypatch):
    """Another zlib gives other bytes and the same content; another word another content."""
    first = written()
    packed = zlib.compress
    monkeypatch.setattr(zlib, "compress", lambda data, level: packed(data, 1))
    other = written()

    assert other.data != first.data
    assert other.content == first.content
    assert written(label="Pim").content != first.content


def test_sets_are_bookmarks_and_the_child_is_on_the_label(pack):
    """Each file of sheets has its sets as bookmarks and its child before the number of each page."""
    files = [path for path in pack.glob("*.pdf") if path.name != "guide.pdf"]

    assert len(files) >= 3
    for path in files:
        reader = pypdf.PdfReader(path, strict=True)
        assert reader.page_labels == [f"Zoë {number}" for number in range(1, len(reader.pages) + 1)]
        assert reader.outline


def test_two_libraries_read_every_page(pack):
    """pypdf in its strict mode and pdfium open and read every page of a pack."""
    for path in pack.glob("*.pdf"):
        strict = pypdf.PdfReader(path, strict=True)
        document = pypdfium2.PdfDocument(path)
        try:
            assert len(document) == len(strict.pages) > 0
            for number, page in enumerate(strict.pages):
                assert page.extract_text() is not None
                assert document[number].render(scale=0.2).to_numpy().size
        finally:
            document.close()


@pytest.mark.parametrize("name", READERS)
def test_other_readers_have_nothing_to_say(name, pack, tmp_path):
    """A program of its own kind opens every file of a pack without an error or a warning."""
    program = READERS[name][0]
    if not shutil.which(program):
        pytest.skip(f"{program} is not installed")
    for path in sorted(pack.glob("*.pdf")):
        command = [part.format(file=path, folder=tmp_path) for part in READERS[name]]
        done = subprocess.run(command, capture_output=True, text=True)
        # Some builds of MuPDF say that whatever the file.
        said = [line for line in done.stderr.splitlines() if "ICC support is not available" not in line]
        assert (path.name, done.returncode, said) == (path.name, 0, [])
