"""A family's own theme: written from pictures, shown on a contact sheet, printed like a built-in one."""

import json
import tomllib
from pathlib import Path

import own_pictures
import pypdfium2
import pytest
from click.testing import CliRunner
from PIL import Image

from printkit.cli import commands
from printkit.pictures import load_theme

PACK = """\
title = "Our garden"
theme = "our-garden"
languages = ["en", "es"]
[[children]]
name = "Wren"
numbers = [1, 4]
sums_to = 4
materials = [
  { make = "counting-cards", motif = "apple" },
  { make = "counting-cards", set = "drawn", motif = "lemon", ink = "gray" },
  "clip-cards", { make = "strips", count = 3 },
  "odd-one-out", { make = "odd-one-out", set = "closer", lookalike = 3, form = "sheet" },
]
"""


def run(*arguments: str | Path):
    """printkit with these arguments."""
    return CliRunner().invoke(commands, [str(argument) for argument in arguments])


def pdf_text(file: Path) -> str:
    """All text of a PDF."""
    document = pypdfium2.PdfDocument(file)
    try:
        return "\n".join(page.get_textpage().get_text_range() for page in document)
    finally:
        document.close()


def test_a_theme_is_written_from_pictures(tmp_path):
    """Each picture has an entry with English names from its file's name; other languages wait as remarks."""
    folder = own_pictures.folder(tmp_path)
    told = run("theme", "new", folder, "--languages", "en,pl")
    text = (folder / "theme.toml").read_text(encoding="utf-8")
    motifs = tomllib.loads(text)["motifs"]

    assert (told.exit_code, told.stderr) == (0, "")
    assert told.stdout.startswith(f"Wrote {folder / 'theme.toml'} for 10 pictures.")
    assert set(motifs) == {
        "lemon", "leek", "kite", "umbrella", "pumpkin", "scarf", "apple", "pear_2", "IMG 0412", "plum"
    }  # fmt: skip
    assert motifs["leek"]["names"] == {"en": {"one": "leek", "other": "leeks"}}
    assert motifs["pear_2"]["names"]["en"] == {"one": "pear", "other": "pears"}
    assert motifs["IMG 0412"]["names"]["en"] == {"one": "img", "other": "imgs"}
    assert '# pl = { one = "leek", few = "leek", many = "leek" }' in text
    assert text.count("# trim = true") == 3


def test_remarks_of_a_new_theme_can_be_taken_away(tmp_path):
    """Every remark that holds a line of TOML makes a legal theme once its sign is gone."""
    folder = own_pictures.folder(tmp_path)
    run("theme", "new", folder, "--languages", "en,pl,de")
    file = folder / "theme.toml"
    lines = [
        line[2:] if line.startswith("# ") and " = " in line and "theme = " not in line else line
        for line in file.read_text(encoding="utf-8").splitlines()
    ]
    file.write_text("\n".join(lines), encoding="utf-8")
    theme = load_theme("our-garden", tmp_path, "the test")

    assert theme.motif("leek").name("pl", 5) == "leek"
    assert theme.motif("apple").source.raster.mask is not None


def test_a_theme_that_is_there_is_not_written_over(tmp_path):
    """Somebody may have translated it."""
    folder = own_pictures.folder(tmp_path)
    (folder / "theme.toml").write_text('season = "spring"\n', encoding="utf-8")
    told = run("theme", "new", folder)

    assert (told.exit_code, told.stdout) == (2, "")
    assert told.stderr == f"{folder / 'theme.toml'}: is there already; allowed: a folder without one\n"
    assert (folder / "theme.toml").read_text(encoding="utf-8") == 'season = "spring"\n'


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("nowhere", "FOLDER: there is no folder '{}'; allowed: a folder of pictures\n"),
        ("file.svg", "FOLDER: '{}' is a file; allowed: a folder of pictures\n"),
        (
            "empty",
            "{}: there is no picture in the folder; allowed: at least one SVG, PNG, JPEG or WebP file\n",
        ),
    ],
)
def test_what_is_no_folder_of_pictures_is_refused(tmp_path, name, sentence):
    """One sentence, and nothing is written."""
    (tmp_path / "file.svg").write_text("<svg/>", encoding="utf-8")
    (tmp_path / "empty").mkdir()
    told = run("theme", "new", tmp_path / name)

    assert (told.exit_code, told.stderr) == (2, sentence.format(tmp_path / name))
    assert list((tmp_path / "empty").iterdir()) == []


def test_all_faults_of_the_pictures_are_told_and_nothing_is_written(tmp_path):
    """A broken photo and a harmful drawing, in one run; the good ones do not hide them."""
    folder = own_pictures.folder(tmp_path)
    (folder / "apple.jpg").write_bytes(own_pictures.jpeg()[:2000])
    (folder / "kite.svg").write_text("<svg viewBox='0 0 1 1'><g", encoding="utf-8")
    told = run("theme", "new", folder)

    assert told.exit_code == 2
    assert [line.split(":")[0].rsplit("/")[-1] for line in told.stderr.splitlines()] == [
        "apple.jpg",
        "kite.svg",
    ]
    assert not (folder / "theme.toml").exists()


def test_a_language_must_be_known(tmp_path):
    """The nearest right tag is offered."""
    told = run("theme", "new", own_pictures.folder(tmp_path), "--languages", "en,plx")

    assert told.exit_code == 2
    assert told.stderr == (
        "--languages: there is no language 'plx'; allowed: a tag of printkit list languages; "
        "did you mean 'pl'?\n"
    )


@pytest.mark.parametrize("ending", ["pdf", "png"])
def test_a_theme_is_shown(tmp_path, ending):
    """The sheet can be made anew over an earlier one."""
    file = tmp_path / f"look.{ending}"
    first = run("theme", "show", "rock-pool", "-o", file)
    data = file.read_bytes()
    again = run("theme", "show", "rock-pool", "-o", file)

    assert (first.exit_code, first.stdout, first.stderr) == (0, f"{file}\n", "")
    assert again.exit_code == 0
    assert file.read_bytes() == data
    assert sorted(path.name for path in tmp_path.iterdir()) == [file.name]


def test_the_contact_sheet_tells_names_and_parts(tmp_path):
    """Every motif with its key, its names in all languages and its parts; at a glance with its name."""
    file = tmp_path / "look.pdf"
    run("theme", "show", "rock-pool", "-o", file)
    text = " ".join(pdf_text(file).split())
    for motif in load_theme("rock-pool", Path(), "").motifs:
        assert text.count(motif.name("en")) >= 2
        assert motif.name("pl", 5) in text
        assert all(part.replace("-", " ") in text for part in motif.parts)


def test_the_contact_sheet_shows_each_motif_in_three_inks_at_three_sizes():
    """Nine pictures a motif beside the one at a glance: as many drawings are placed on the pages."""
    from printkit.contact_sheet import INKS, SIZES, contact_pages
    from printkit.pieces import Picture

    theme = load_theme("rock-pool", Path(), "")
    placed = [mark for page in contact_pages(theme) for mark in page.marks if type(mark) is Picture]
    border = [mark for mark in placed if "border" in mark.drawing.name]
    assert len(placed) - len(border) == len(theme.motifs) * (1 + len(INKS) * len(SIZES))
    for page in contact_pages(theme):
        for mark in page.marks:
            box = mark.bounds()
            assert 5 <= box.left and box.right <= page.width - 5
            assert 5 <= box.top and box.bottom <= page.height - 5


def test_notes_of_a_theme_are_said(tmp_path):
    """What cannot be drawn is named on the terminal and on the sheet."""
    folder = tmp_path / "pond"
    folder.mkdir()
    (folder / "frog.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">'
        '<circle cx="50" cy="50" r="40" fill="#393"/><text x="9" y="50">Frog</text></svg>',
        encoding="utf-8",
    )
    told = run("theme", "show", folder, "-o", tmp_path / "look.pdf")

    assert told.stdout.splitlines()[1:] == [
        f"note: {folder}/frog.svg: drawn without its text (turn letters into paths)"
    ]
    assert "without its text" in pdf_text(tmp_path / "look.pdf")


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (
            ("rock-pol", "-o", "{}/look.pdf"),
            "NAME_OR_FOLDER: there is no built-in theme and no folder 'rock-pol'",
        ),
        (("rock-pool", "-o", "{}/look.gif"), "-o: '{}/look.gif' ends in '.gif'; allowed: .pdf or .png\n"),
        (
            ("rock-pool", "-o", "{}/plum.png"),
            "-o: there is another file '{}/plum.png' already; allowed: the name of a new file\n",
        ),
    ],
)
def test_what_cannot_be_shown_is_refused(tmp_path, arguments, sentence):
    """A family's own picture is never written over."""
    (tmp_path / "plum.png").write_bytes(own_pictures.png())
    told = run("theme", "show", *(word.format(tmp_path) for word in arguments))

    assert (told.exit_code, told.stdout) == (2, "")
    assert told.stderr.startswith(sentence.format(tmp_path))
    assert (tmp_path / "plum.png").read_bytes() == own_pictures.png()


def test_a_pack_of_own_pictures_is_made_like_any_other(tmp_path):
    """Ten pictures of a family, half of them photos: all trays are made, and no photo tells where."""
    folder = own_pictures.folder(tmp_path)
    run("theme", "new", folder)
    toml = folder / "theme.toml"
    toml.write_text(toml.read_text(encoding="utf-8").replace("# trim", "trim"), encoding="utf-8")
    pack = tmp_path / "pack.toml"
    pack.write_text(PACK, encoding="utf-8")
    told = run("make", pack, "-o", tmp_path / "out")

    assert (told.exit_code, told.stderr) == (0, "")
    manifest = json.loads((tmp_path / "out" / "manifest.json").read_text(encoding="utf-8"))
    assert {piece["set"] for file in manifest["files"] for page in file["pages"] for piece in page["pieces"]} >= {
        "counting-cards", "drawn", "clip-cards", "strips", "odd-one-out", "closer"
    }  # fmt: skip
    for file in (tmp_path / "out").glob("*.pdf"):
        data = file.read_bytes()
        assert b"Rock Lane" not in data
        assert b"Exif" not in data
        assert b"GPS" not in data


def test_a_photo_is_kept_once_in_a_file(tmp_path):
    """However often it is placed; at most 300 dots an inch at the largest size it is drawn."""
    folder = own_pictures.folder(tmp_path)
    pack = tmp_path / "pack.toml"
    pack.write_text(
        'theme = "our-garden"\ntitle = "Apples"\n[[children]]\nname = "Wren"\nnumbers = [1, 5]\n'
        'materials = [{ make = "counting-cards", motif = "apple" }]\n',
        encoding="utf-8",
    )
    assert run("make", pack, "-o", tmp_path / "out").exit_code == 0
    for file in (tmp_path / "out").glob("wren*.pdf"):
        assert file.read_bytes().count(b"/DCTDecode") == 1
        document = pypdfium2.PdfDocument(file)
        images = {
            image.get_px_size()
            for page in document
            for image in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE], max_depth=4)
        }
        document.close()
        assert all(max(size) <= 120 / 25.4 * 300 + 1 for size in images)
    with Image.open(folder / "apple.jpg") as image:
        assert image.getexif()[0x0112] == 6
