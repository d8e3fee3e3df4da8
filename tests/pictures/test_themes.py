"""Themes: what a folder gives, what its theme.toml adds, and every problem of both in plain words."""

import io
import os
import shutil
from pathlib import Path

import pytest
from PIL import Image

from printkit.errors import PrintkitError
from printkit.pictures import built_in, load_theme
from printkit.pictures.described import CALM

SQUARE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path id="a" d="M1 1h7v7z"/></svg>'


def photo(kind: str = "PNG") -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (400, 400), "#2f6f8f").save(out, kind)
    return out.getvalue()


def folder(root: Path, files: dict[str, str | bytes]) -> Path:
    """A folder 'pond' with these files."""
    (root / "pond").mkdir()
    for name, content in files.items():
        data = content.encode() if isinstance(content, str) else content
        (root / "pond" / name).write_bytes(data)
    return root


def problems(name: str, base: Path) -> list[str]:
    with pytest.raises(PrintkitError) as caught:
        load_theme(name, base, "pack.toml, line 2 (theme)")
    return [str(problem) for problem in caught.value.problems]


# --- what a folder gives -----------------------------------------------------------------------


def test_a_theme_reads_its_words_and_colors(plain):
    """Titles, season, accent, palette, names, gender and symmetry come from theme.toml."""
    assert (plain.name, plain.season) == ("plain", "winter")
    assert [plain.title(tag) for tag in ("en", "es-MX", "pt", "de")] == [
        "Plain shapes",
        "Figuras",
        "Figuras simples",
        "Plain shapes",
    ]
    assert plain.accent == (0.2, 0.4, 0.6)
    assert dict(plain.palette)["white"] == (1.0,)
    tower = plain.motif("tower")
    assert [tower.name("en", n) for n in (1, 2)] == ["tower", "towers"]
    assert (tower.gender("es"), tower.gender("en"), tower.symmetric) == ("f", "", True)
    assert plain.notes == ()


def test_motifs_come_in_the_order_of_theme_toml(plain):
    """The first motif named is the first motif."""
    assert [motif.key for motif in plain.motifs] == [
        "disc", "square", "brick", "tower", "corner", "flag"
    ]  # fmt: skip


def test_pictures_that_are_not_named_come_last_by_file_name(tmp_path):
    """theme.toml may name some of the pictures only."""
    files = dict.fromkeys(("newt.svg", "frog.svg", "reed.svg", "duck.svg"), SQUARE)
    folder(tmp_path, files | {"theme.toml": "[motifs.reed]\n[motifs.duck]"})
    keys = [motif.key for motif in load_theme("pond", tmp_path, "").motifs]
    assert keys == ["reed", "duck", "frog", "newt"]


def test_a_folder_of_pictures_is_a_theme(tmp_path):
    """Without theme.toml names come from the files and the accent is a calm gray-blue."""
    folder(tmp_path, {"sea_star.svg": SQUARE, "pond frog.PNG": photo(), "notes.txt": "x", ".hidden": "x"})
    theme = load_theme("pond", tmp_path, "")
    assert [motif.key for motif in theme.motifs] == ["pond frog", "sea_star"]
    assert [motif.name("es", 3) for motif in theme.motifs] == ["pond frog", "sea star"]
    assert (theme.title("de"), theme.season, theme.accent) == ("Pond", "", CALM)
    assert theme.folder == tmp_path / "pond"


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
def test_photos_are_known_by_their_content(tmp_path, kind):
    """A picture with the ending of another kind is read all the same."""
    folder(tmp_path, {"frog.png": photo(kind)})
    assert load_theme("pond", tmp_path, "").motif("frog").is_photo


def test_paths_are_taken_from_the_base(tmp_path):
    """A theme may lie beside, above or below the pack file, or be named in full."""
    folder(tmp_path, {"frog.svg": SQUARE})
    (tmp_path / "packs").mkdir()
    for name, base in (
        ("pond", tmp_path),
        ("../pond/", tmp_path / "packs"),
        ("./pond", tmp_path),
        (str(tmp_path / "pond"), Path("elsewhere")),
    ):
        assert load_theme(name, base, "").name == "pond"


def test_an_unchanged_folder_gives_the_same_theme(tmp_path):
    """So that its drawings stay the same objects; a changed folder is read anew."""
    folder(tmp_path, {"frog.svg": SQUARE})
    first = load_theme("pond", tmp_path, "")
    assert load_theme("pond", tmp_path, "") is first
    (tmp_path / "pond" / "newt.svg").write_text(SQUARE)
    assert [motif.key for motif in load_theme("pond", tmp_path, "").motifs] == ["frog", "newt"]
    os.utime(tmp_path / "pond" / "frog.svg", ns=(1, 1))
    assert load_theme("pond", tmp_path, "") is not first


def test_notes_name_the_file(tmp_path):
    """What is drawn otherwise than in its file is said in one sentence a picture."""
    shadow = SQUARE.replace("<path", '<text>frog</text><path filter="url(#f)"')
    folder(tmp_path, {"frog.svg": shadow, "newt.png": photo()})
    theme = load_theme("pond", tmp_path, "")
    lost = "without its blur or shadow (filter) and without its text (turn letters into paths)"
    assert theme.notes == (f"pond/frog.svg: drawn {lost}",)
    assert theme.notes_in("outline") == (
        f"pond/frog.svg: drawn {lost}",
        "pond/newt.png: drawn in gray, as a photo has no outline",
    )


# --- problems ----------------------------------------------------------------------------------

PATHS = {
    "nearly": (
        "rock-pol",
        "pack.toml, line 2 (theme): there is no built-in theme and no folder 'rock-pol'; "
        "allowed: {}, or a folder's path; did you mean 'rock-pool'?",
    ),
    "far": (
        "pictures/of/ours",
        "pack.toml, line 2 (theme): there is no built-in theme and no folder 'pictures/of/ours'; "
        "allowed: {}, or a folder's path",
    ),
    "file": (
        "file.txt",
        "pack.toml, line 2 (theme): 'file.txt' is a file, not a folder of pictures; "
        "allowed: {}, or a folder's path",
    ),
    "blank": (
        " ",
        "pack.toml, line 2 (theme): the theme has no name; allowed: {}, or a folder's path",
    ),
}


@pytest.mark.parametrize(("name", "sentence"), PATHS.values(), ids=PATHS)
def test_themes_that_are_not_there_name_the_nearest(tmp_path, name, sentence):
    """The sentence names the place, the built-in themes and the nearest word."""
    (tmp_path / "file.txt").write_text("x")
    names = ", ".join(built_in()[:-1]) + " and " + built_in()[-1] if built_in()[1:] else built_in()[0]
    assert problems(name, tmp_path) == [sentence.format(names)]


FOLDERS: dict[str, tuple[dict[str, str | bytes], list[str]]] = {
    "empty": (
        {},
        ["pond: there is no picture in the folder; allowed: at least one SVG, PNG, JPEG or WebP file"],
    ),
    "unreadable": (
        {"frog.svg": "<svg", "newt.png": b"no", "duck.svg": SQUARE, "reed.svg": photo()},
        [
            "pond/frog.svg: the drawing is damaged or breaks off at line 1; save it anew as SVG",
            "pond/newt.png: this is not a PNG, JPEG or WebP picture; save it as one of these",
            "pond/reed.svg: this is not an SVG drawing but a PNG picture; give the file the ending .png",
        ],
    ),
    "other kinds": (
        {"frog.heic": b"x", "newt.GIF": b"x", "duck.svgz": b"x", "reed.svg": SQUARE, "reed.tiff": b"x"},
        [
            "pond/duck.svgz: pictures of this kind cannot be read; save it as a plain SVG; "
            "allowed: SVG, PNG, JPEG or WebP",
            "pond/frog.heic: pictures of this kind cannot be read; export it as JPEG; "
            "allowed: SVG, PNG, JPEG or WebP",
            "pond/newt.GIF: pictures of this kind cannot be read; save it as PNG; "
            "allowed: SVG, PNG, JPEG or WebP",
        ],
    ),
    "same names": (
        {"frog.png": photo(), "frog.svg": SQUARE, "reed.svg": SQUARE},
        ["pond/frog.svg: it has the same name as frog.png; give each picture a name of its own"],
    ),
    "crowd": (
        {f"frog-{number}.svg": SQUARE for number in range(201)},
        ["pond: there are 201 pictures in the folder; allowed: at most 200"],
    ),
    "not toml": (
        {"frog.svg": SQUARE, "theme.toml": "title = 'Pond"},
        [
            'pond/theme.toml: this is not TOML: expected "\'" (at end of document)',
        ],
    ),
    "not utf-8": (
        {"frog.svg": SQUARE, "theme.toml": "title = 'Étang'".encode("latin-1")},
        ["pond/theme.toml: the file is not in UTF-8; save it as UTF-8"],
    ),
    "unknown keys": (
        {
            "frog.svg": SQUARE,
            "theme.toml": "titel = 'Pond'\nsesaon = 'spring'\n[motifs.frog]\nname = {}\n[motifs.forg]\n",
        },
        [
            "pond/theme.toml: unknown key 'titel'; "
            "allowed: title, season, accent, palette or motifs; did you mean 'title'?",
            "pond/theme.toml: unknown key 'sesaon'; "
            "allowed: title, season, accent, palette or motifs; did you mean 'season'?",
            "pond/theme.toml, motifs.forg: there is no picture of that name; "
            "allowed: frog; did you mean 'frog'?",
            "pond/theme.toml, motifs.frog: unknown key 'name'; "
            "allowed: names, symmetric, counted, faces or trim; did you mean 'names'?",
        ],
    ),
    "wrong values": (
        {
            "frog.svg": SQUARE,
            "theme.toml": "title = { en = 3 }\nseason = 'sumer'\naccent = 'blue'\n"
            "palette = ['#fff']\nmotifs = { frog = { symmetric = 'yes', faces = 'up', names = 'frog' } }",
        },
        [
            "pond/theme.toml, title.en: 3 is not a word; allowed: a text in quotes",
            "pond/theme.toml, season: 'sumer' is not known here; "
            "allowed: spring, summer, autumn or winter; did you mean 'summer'?",
            "pond/theme.toml, accent: 'blue' is not a color; allowed: six digits such as '#2f6f8f'",
            "pond/theme.toml, palette: a list is not a table; "
            'allowed: one color a name, such as sand = "#e8cf9f"',
            "pond/theme.toml, motifs.frog.symmetric: 'yes' is not known here; allowed: true or false",
            "pond/theme.toml, motifs.frog.faces: 'up' is not known here; allowed: left or right",
            "pond/theme.toml, motifs.frog.names: 'frog' is not a table; allowed: one entry a language",
        ],
    ),
    "wrong names": (
        {
            "frog.svg": SQUARE,
            "theme.toml": "motifs.frog.names = "
            "{ en = { one = 'frog', othr = 'frogs' }, es = { other = '', gender = 'fem' }, de = true }\n"
            "palette = { moss = '#88b36780', clay = true }\nseason = 4",
        },
        [
            "pond/theme.toml, season: 4 is not known here; allowed: spring, summer, autumn or winter",
            "pond/theme.toml, palette.moss: '#88b36780' is not a color; "
            "allowed: six digits such as '#2f6f8f'",
            "pond/theme.toml, palette.clay: true is not a color; allowed: six digits such as '#2f6f8f'",
            "pond/theme.toml, motifs.frog.names.en: unknown key 'othr'; "
            "allowed: zero, one, two, few, many, other or gender; did you mean 'other'?",
            "pond/theme.toml, motifs.frog.names.en: the form 'other' is missing; "
            "allowed: zero, one, two, few, many or other",
            "pond/theme.toml, motifs.frog.names.es.gender: 'fem' is not known here; allowed: m, f, n or c",
            "pond/theme.toml, motifs.frog.names.es.other: '' is not a word; allowed: a text in quotes",
            "pond/theme.toml, motifs.frog.names.de: true is not a table; "
            'allowed: forms such as { one = "crab", other = "crabs" }',
        ],
    ),
    "everything at once": (
        {"frog.svg": "", "newt.bmp": b"x", "theme.toml": "accent = 1"},
        [
            "pond/newt.bmp: pictures of this kind cannot be read; save it as PNG; "
            "allowed: SVG, PNG, JPEG or WebP",
            "pond/theme.toml, accent: 1 is not a color; allowed: six digits such as '#2f6f8f'",
            "pond/frog.svg: the file is empty",
        ],
    ),
}


@pytest.mark.parametrize(("files", "sentences"), FOLDERS.values(), ids=FOLDERS)
def test_all_problems_of_a_folder_are_told_at_once(tmp_path, files, sentences):
    """Whole sentences, each naming its file, in one error."""
    assert problems("pond", folder(tmp_path, files)) == sentences


def test_names_that_differ_in_case_only_are_the_same(tmp_path):
    """'Frog.svg' and 'frog.png' cannot both be a motif, on any system."""
    folder(tmp_path, {"Frog.svg": SQUARE, "frog.png": photo()})
    assert problems("pond", tmp_path) == [
        "pond/frog.png: it has the same name as Frog.svg; give each picture a name of its own"
    ]


def test_a_motif_that_is_not_there_is_named(plain):
    """The sentence lists the motifs and the nearest word."""
    with pytest.raises(PrintkitError) as caught:
        plain.motif("dsic")
    assert str(caught.value) == (
        "theme plain: there is no motif 'dsic'; "
        "allowed: disc, square, brick, tower, corner or flag; did you mean 'disc'?"
    )


def test_a_byte_order_mark_does_not_matter(tmp_path):
    """theme.toml is read with or without the mark that some editors write."""
    folder(tmp_path, {"frog.svg": SQUARE, "theme.toml": "\ufefftitle = 'Pond life'".encode()})
    assert load_theme("pond", tmp_path, "").title("en") == "Pond life"


def test_built_in_themes_are_found_by_name(fixtures):
    """A built-in name wins over a folder; a folder of that name is reached by its path."""
    assert "rock-pool" in built_in()
    assert load_theme("rock-pool", fixtures, "").name == "rock-pool"


def test_a_folder_named_as_a_built_in_theme_is_reached_by_its_path(tmp_path):
    """'./rock-pool' is the folder beside the pack file."""
    folder(tmp_path, {"frog.svg": SQUARE})
    shutil.move(tmp_path / "pond", tmp_path / "rock-pool")
    assert [motif.key for motif in load_theme("./rock-pool", tmp_path, "").motifs] == ["frog"]
    assert len(load_theme("rock-pool", tmp_path, "").motifs) > 1
