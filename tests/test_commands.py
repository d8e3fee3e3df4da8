"""The command line: what each command writes and says, and with which exit code."""

import json
import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest
from click.testing import CliRunner

from printkit.cli import commands

PACK = """\
title = "Shelf"
seed = 3
languages = ["en", "es"]
[[children]]
name = "Wren"
numbers = [1, 4]
sums_to = 4
lookalike = 1
materials = ["counting-cards", "clip-cards", { make = "strips", count = 3 }, "odd-one-out"]
[[children]]
name = "Juno"
numbers = [8, 10]
materials = [{ make = "counting-cards", layout = "back" }]
"""


def run(*arguments: str | Path):
    """printkit with these arguments."""
    return CliRunner().invoke(commands, [str(argument) for argument in arguments])


@pytest.fixture
def file(tmp_path) -> Path:
    """A pack file of two children."""
    path = tmp_path / "shelf.toml"
    path.write_text(PACK, encoding="utf-8")
    return path


def names(folder: Path) -> list[str]:
    """The names of the files of a folder."""
    return sorted(path.name for path in folder.iterdir())


def test_make_writes_the_pack_beside_its_file(file, tmp_path):
    """The folder has the pack file's name; every file is said on stdout, nothing on stderr."""
    result = run("make", file)

    assert (result.exit_code, result.stderr) == (0, "")
    assert names(tmp_path / "shelf") == [
        "guide.pdf",
        "juno-card-backs.pdf",
        "juno-card-fronts.pdf",
        "manifest.json",
        "wren-card-backs.pdf",
        "wren-card-fronts.pdf",
        "wren-card-onesided.pdf",
    ]
    assert sorted(result.stdout.split("\n")[:-1]) == [
        str(tmp_path / "shelf" / name) for name in names(tmp_path / "shelf")
    ]


def test_check_writes_nothing(file, tmp_path):
    """check says pieces, sheets, cuts, ink and things to gather, and leaves the disk alone."""
    result = run("check", file)

    assert (result.exit_code, result.stderr) == (0, "")
    assert "Wren: counting-cards: 4 pieces of 62 x 88 mm on card" in result.stdout
    assert "gather" in result.stdout
    assert names(tmp_path) == ["shelf.toml"]


def test_check_as_json_counts_what_make_makes(file, tmp_path):
    """The sheets and pieces that check promises are those in the manifest."""
    told = json.loads(run("check", file, "--json").stdout)
    run("make", file)
    manifest = json.loads((tmp_path / "shelf" / "manifest.json").read_text(encoding="utf-8"))
    made = {item["file"]: item["sheets"] for item in manifest["files"] if "sheets" in item}
    fronts = {
        piece["id"]: piece["set"]
        for item in manifest["files"]
        for page in item.get("pages", [])
        for piece in page["pieces"]
        if not piece["id"].endswith("/label")
    }

    assert {item["file"]: item["sheets"] for item in told["files"]} == made
    assert sum(item["pieces"] for item in told["sets"]) == len(fronts)


def test_words_on_the_command_line_win(file, tmp_path):
    """Paper, ink, languages, seed and theme of the command line win over the file."""
    result = run(
        "make", file, "--paper", "letter", "--ink", "gray", "--languages", "fr", "--seed", "9", "--json"
    )
    manifest = json.loads((tmp_path / "shelf" / "manifest.json").read_text(encoding="utf-8"))
    child = manifest["settings"]["children"][0]

    assert result.exit_code == 0
    assert all(item["paper_mm"] == [215.9, 279.4] for item in manifest["files"])
    assert (child["ink"], child["languages"], manifest["seed"]) == ("gray", ["fr"], 9)


def test_a_wrong_word_on_the_command_line_is_told(file):
    """An option's problem names the option."""
    result = run("check", file, "--ink", "sepia")

    assert result.exit_code == 2
    assert result.stderr == "--ink: found 'sepia'; allowed: color, gray or outline\n"


def test_one_set_lies_beside_the_pack(file, tmp_path):
    """--only writes <child>-<set>.pdf with a manifest of its own and leaves the pack alone."""
    run("make", file)
    folder = tmp_path / "shelf"
    before = {path.name: path.read_bytes() for path in folder.iterdir()}

    result = run("make", file, "--child", "wren", "--only", "counting-cards")
    after = {path.name: path.read_bytes() for path in folder.iterdir()}

    assert (result.exit_code, result.stderr) == (0, "")
    assert sorted(after.keys() - before.keys()) == [
        "wren-counting-cards.manifest.json",
        "wren-counting-cards.pdf",
    ]
    assert {name: after[name] for name in before} == before


def test_a_lost_card_is_made_again(file, tmp_path):
    """--pieces makes only those pieces, by their keys."""
    result = run("make", file, "--child", "Wren", "--only", "clip-cards", "--pieces", "2,4")
    manifest = json.loads((tmp_path / "shelf" / "wren-clip-cards.manifest.json").read_text(encoding="utf-8"))
    ids = {piece["id"] for item in manifest["files"] for page in item["pages"] for piece in page["pieces"]}

    assert (result.exit_code, result.stderr) == (0, "")
    assert ids == {"wren/clip-cards/2", "wren/clip-cards/4"}


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["--only", "clip-card"], "--only: there is no set 'clip-card'; allowed: counting-cards, clip-cards, "
         "strips or odd-one-out; did you mean 'clip-cards'?\n"),
        (["--child", "Wrenn"], "--child: there is no child 'Wrenn'; allowed: Wren or Juno; "
         "did you mean 'Wren'?\n"),
        (["--only", "clip-cards", "--pieces", "9"], "--pieces: there is no piece '9'; allowed: 1, 2, 3 or 4\n"),
    ],
)  # fmt: skip
def test_a_part_that_is_not_there(arguments, sentence, file):
    """A wish that names nothing is told with what there is."""
    result = run("make", file, *arguments)

    assert (result.exit_code, result.stdout, result.stderr) == (2, "", sentence)


def test_one_childs_part_has_a_folder_of_its_own(file, tmp_path):
    """--child makes that child's pack beside the whole one, and never in its place."""
    run("make", file)
    result = run("make", file, "--child", "juno")

    assert result.exit_code == 0
    assert names(tmp_path / "shelf-juno") == [
        "guide.pdf",
        "juno-card-backs.pdf",
        "juno-card-fronts.pdf",
        "manifest.json",
    ]
    assert run("make", file, "--child", "juno", "-o", tmp_path / "shelf").exit_code == 2
    assert "wren-card-fronts.pdf" in names(tmp_path / "shelf")


def test_preview_adds_a_picture_a_page(file, tmp_path):
    """--preview writes a PNG of each page; a later make without it takes them away again."""
    run("make", file, "--child", "juno", "--preview", "-o", tmp_path / "out")
    pictures = names(tmp_path / "out" / "preview")
    run("make", file, "--child", "juno", "-o", tmp_path / "out")

    assert "juno-card-fronts-01.png" in pictures
    assert not list(tmp_path.glob("out/preview/*.png"))


def test_new_writes_a_pack_that_works_and_never_overwrites(tmp_path):
    """new answers by options, makes a legal pack, and leaves a file that is there alone."""
    path = tmp_path / "first.toml"
    result = run(
        "new", path, "--child", "Ida", "--numbers", "2-6", "--languages", "en,de", "--paper", "letter"
    )
    again = run("new", path)

    assert result.exit_code == 0
    assert run("check", path).exit_code == 0
    assert 'name      = "Ida"' in path.read_text(encoding="utf-8")
    assert again.exit_code == 2
    assert again.stderr == f"{path}: is there already; allowed: a name that is not taken yet\n"


def test_new_refuses_what_no_pack_can_hold(tmp_path):
    """A wrong answer writes no file."""
    result = run("new", tmp_path / "first.toml", "--numbers", "6-2")

    assert result.exit_code == 2
    assert "runs backwards" in result.stderr
    assert names(tmp_path) == []


@pytest.mark.parametrize("what", ["themes", "materials", "languages", "papers", "letters", "rungs"])
def test_list_says_what_there_is(what):
    """Each list has a line an entry; as JSON each entry has a name."""
    lines = run("list", what).stdout.splitlines()
    entries = json.loads(run("list", what, "--json").stdout)

    assert len(lines) == len(entries) > 0
    assert all(entry["name"] for entry in entries)
    assert all(line.startswith(entry["name"]) for line, entry in zip(lines, entries, strict=True))


def test_list_tells_what_programs_need():
    """Themes have their motifs, languages whether a native reader has seen them."""
    themes = json.loads(run("list", "themes", "--json").stdout)
    languages = json.loads(run("list", "languages", "--json").stdout)

    assert "crab" in next(entry for entry in themes if entry["name"] == "rock-pool")["motifs"]
    assert all(entry["reviewed"] in (True, False) for entry in languages)


@pytest.mark.parametrize(
    "line",
    [
        "ka: Georgian, ქართული, Geor: ერთი, ორი, სამი; hollow; checked against CLDR 48, which agrees "
        "throughout",
        "te: Telugu, తెలుగు, Telu: ఒకటి, రెండు, మూడు; hollow; native digits ౦౧౨౩౪౫౬౭౮౯; waits for a native "
        "reader: needs unreviewed = true; checked against vemurione.blogspot.com, Counting; "
        "indic-numtowords 1.1.0; 5 and 30 vary",
        "lv: Latvian, latviešu, Latn: viens, divi, trīs; tracing; checked against CLDR 48; orthography of "
        "ailab.lv for 100; words: simts (100 is simts), simt (100 is simt)",
    ],
)
def test_a_language_is_listed_with_its_words_and_authority(line):
    """A language's line: names, script, 1 to 3, how it is traced, its reader, its authority, its choices."""
    assert line in run("list", "languages").stdout.splitlines()


def test_languages_as_json_hold_the_whole_row():
    """As JSON a language has its script, directions, digits, sample, choices with their authority."""
    entries = {entry["name"]: entry for entry in json.loads(run("list", "languages", "--json").stdout)}

    assert entries["ar"]["direction"] == "rtl" and entries["ar"]["equations"] == "ltr"
    assert entries["fa"]["digits"] == "۰۱۲۳۴۵۶۷۸۹"
    assert entries["ko"]["sample"] == ["하나", "둘", "셋"]
    assert entries["be"]["traced"] == "tracing" and entries["el"]["traced"] == "hollow"
    assert {name for name, entry in entries.items() if not entry["reviewed"]} == {
        "am", "bn", "ce", "te", "tet", "tg",
    }  # fmt: skip
    assert [choice["name"] for choice in entries["nb"]["choices"]] == [
        "sju",
        "syv",
        "en",
        "neuter",
        "feminine",
    ]
    assert all(
        choice["says"] and choice["checked"] for entry in entries.values() for choice in entry["choices"]
    )


def test_a_wrong_command_is_a_wrong_request():
    """Usage errors have exit code 2."""
    assert run("mkae").exit_code == 2
    assert run("list", "colours").exit_code == 2


def test_light_commands_load_no_heavy_library():
    """Help and lists start without the libraries of the writer, the words and the pictures."""
    code = (
        "import sys; from click.testing import CliRunner; from printkit.cli import commands\n"
        "for words in (['--help'], ['list', 'materials'], ['list', 'languages'], ['list', 'papers']):\n"
        "    assert CliRunner().invoke(commands, words).exit_code == 0\n"
        "heavy = {'reportlab', 'num2words', 'PIL', 'fontTools', 'uharfbuzz', 'pypdfium2'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"


def test_output_is_utf8_in_any_locale(file, tmp_path):
    """A console without UTF-8 does not break names of other languages."""
    done = subprocess.run(
        [sys.executable, "-m", "printkit", "list", "languages"],
        capture_output=True,
        check=True,
        env={"LC_ALL": "C", "PYTHONIOENCODING": "ascii", "PATH": ""},
    )

    assert "español" in done.stdout.decode("utf-8")


def test_letters_are_drawn_into_a_new_file(tmp_path):
    """Every letter with strokes stands on a page with its character beside it."""
    file = tmp_path / "letters.pdf"
    told = run("list", "letters", "-o", file)
    listed = json.loads(run("list", "letters", "--json").stdout)

    assert (told.exit_code, told.stdout) == (0, f"{file}\n")
    with pypdfium2.PdfDocument(file) as document:
        text = "".join(page.get_textpage().get_text_bounded() for page in document)
    assert [entry["name"] for entry in listed if entry["name"] not in text] == []
    again = run("list", "letters", "-o", file)
    assert again.exit_code == 2
    assert again.stderr == f"-o: there is a file '{file}' already; allowed: the name of a new file\n"


def test_only_letters_are_drawn(tmp_path):
    """-o with anything else is refused, and nothing is written."""
    told = run("list", "themes", "-o", tmp_path / "themes.pdf")

    assert (told.exit_code, told.stderr) == (
        2,
        "-o: themes are not drawn; allowed: with letters or materials only\n",
    )
    assert list(tmp_path.iterdir()) == []
