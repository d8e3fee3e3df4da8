"""Bad input: each kind with its whole sentence; nothing written, nothing lost, no traceback."""

import errno
import os
from pathlib import Path

import pytest
from click.testing import CliRunner

from printkit.cli import commands

MATERIALS = (
    "bar-chart, bingo, calendar, clip-cards, compare, counting-cards, dice-write, dominoes, find-the-match, halves, "
    "hundred-chart, labels, lacing, number-line, odd-one-out, outdoors, pairs, part-whole, paths, patterns, "
    "place-mats, shades, sizes, strips, ten-frames, tiles or tracing"
)
LIST = f"a list of {MATERIALS}, each a word or a table with make = ..."
NAME = "a name that can stand in the name of a file"
PACK_KEYS = (
    "back_shift, children, corner, counter, digits, flip, gap, guide, hand, ink, languages, letters, lookalike, "
    "margin, materials, needs, numbers, numerals, paper, save, seed, shared, stack, start, sums_to, theme, title, "
    "units, unreviewed, weeks or words"
)
CHILD_KEYS = (
    "again, back_shift, corner, counter, digits, flip, gap, guide, hand, ink, keep, languages, letters, "
    "lookalike, margin, materials, name, needs, numbers, numerals, paper, save, skip, stack, start, sums_to, "
    "theme, units, unreviewed or words"
)
RUNG = "the name of a rung that 'printkit list rungs' shows, such as \"count-1-5\", or a list of them, one a ladder"
PAPERS = "a3, a4, a5, letter or legal, or [width, height], each 100 to 1000 mm"
TAGS = "a tag that 'printkit list languages' shows, such as en, es or pt-PT"


def child(*, name: str = "Wren", materials: str = '["counting-cards"]', more: str = "") -> str:
    """A child's table; its name stands on the line after the header, its materials on the next."""
    return f'[[children]]\nname = "{name}"\nmaterials = {materials}\n{more}'


# A pack file's text -> what is said of it, line by line.
SENTENCES = {
    "a misspelt key": (
        'titel = "Shelf"\n' + child(),
        f"pack.toml, line 1 (titel): 'titel' is no key here; allowed: {PACK_KEYS}; did you mean 'title'?",
    ),
    "a key of the child misspelt": (
        child(more="nummbers = [1, 5]\n"),
        "pack.toml, line 4, Wren (children[0].nummbers): 'nummbers' is no key here; "
        f"allowed: {CHILD_KEYS}; did you mean 'numbers'?",
    ),
    "a set to keep that is none of the child's": (
        child(more='keep = ["counting-carts"]\n'),
        "pack.toml, line 4, Wren (children[0].keep): there is no set 'counting-carts' among Wren's "
        "trays; allowed: counting-cards; did you mean 'counting-cards'?",
    ),
    "a set to skip that is no list": (
        child(more='skip = "clip-cards"\n'),
        "pack.toml, line 4, Wren (children[0].skip): found 'clip-cards'; "
        'allowed: a list of sets, such as ["clip-cards"]',
    ),
    "a need that is not known": (
        child(more='needs = "larg"\n'),
        "pack.toml, line 4, Wren (children[0].needs): found 'larg'; "
        "allowed: large, easy-grip or color-safe, or a list of any of them; did you mean 'large'?",
    ),
    "a need among others that is not known": (
        child(materials='[{ make = "clip-cards", needs = ["large", "grip"] }]'),
        "pack.toml, line 3, Wren's clip-cards (children[0].materials[0].needs): found 'grip'; "
        "allowed: large, easy-grip or color-safe, or a list of any of them; did you mean 'easy-grip'?",
    ),
    "a need that is a number": (
        "needs = 20\n" + child(),
        "pack.toml, line 1 (needs): found 20; "
        "allowed: large, easy-grip or color-safe, or a list of any of them",
    ),
    "a shift of backs that is one number": (
        "back_shift = 2\n" + child(),
        "pack.toml, line 1 (back_shift): found 2; allowed: [right, down], each -10 to 10 mm",
    ),
    "a shift of backs beyond any printer's": (
        child(more="back_shift = [0.5, -12]\n"),
        "pack.toml, line 4, Wren (children[0].back_shift): found [0.5, -12]; "
        "allowed: [right, down], each -10 to 10 mm",
    ),
    "a shift of backs without down": (
        child(materials='[{ make = "clip-cards", back_shift = [1] }]'),
        "pack.toml, line 3, Wren's clip-cards (children[0].materials[0].back_shift): found [1]; "
        "allowed: [right, down], each -10 to 10 mm",
    ),
    "a misspelt material": (
        child(materials='["counting-card"]'),
        "pack.toml, line 3, Wren (children[0].materials[0]): there is no material 'counting-card'; "
        f"allowed: {MATERIALS}; did you mean 'counting-cards'?",
    ),
    "a misspelt value": (
        child(materials='[{ make = "strips", sums_to = 5, unknown = "chnge" }]'),
        "pack.toml, line 3, Wren's strips (children[0].materials[0].unknown): found 'chnge'; "
        "allowed: result, change, start or mixed; did you mean 'change'?",
    ),
    "a misspelt word in a table": (
        'flip = { card = "longg" }\n' + child(),
        "pack.toml, line 1 (flip): found 'longg' as card; allowed: long, short, hand or none; "
        "did you mean 'long'?",
    ),
    "a rung misspelt": (
        child(more='start = "coutn-1-5"\n'),
        "pack.toml, line 4, Wren (children[0].start): there is no rung 'coutn-1-5'; allowed: for counting "
        "count-1-3, count-1-5, see-1-5, frames-1-5, scattered-1-5, count-4-10, twos-4-10, scattered-4-10, zero, "
        "write-to-10, count-7-14, count-10-20, write-to-20, read-to-20, count-15-30, count-25-45, count-38-60, "
        "count-52-80, count-70-100 or tens-to-100; did you mean 'count-1-5'?",
    ),
    "a rung that is like none": (
        'start = ["the moon"]\n' + child(),
        f"pack.toml, line 1 (start): there is no rung 'the moon'; allowed: {RUNG}",
    ),
    "two rungs of one ladder": (
        child(more='start = ["count-1-5", "make-ten", "zero"]\n'),
        "pack.toml, line 4, Wren (children[0].start): 'count-1-5' and 'zero' are both rungs of counting; "
        "allowed: one rung each of counting, operations, looking and writing",
    ),
    "a rung that is a number": (
        child(more="start = 5\n"),
        f"pack.toml, line 4, Wren (children[0].start): found 5; allowed: {RUNG}",
    ),
    "strips through ten within ten": (
        child(materials='[{ make = "strips", sums_to = 10, pick = "through-ten" }]'),
        "pack.toml, line 3, Wren's strips (children[0].materials[0].pick): nothing within 10 goes through ten; "
        "allowed: sums_to from 11 on, or another pick",
    ),
    "a range that runs backwards": (
        child(more="numbers = [5, 1]\n"),
        "pack.toml, line 4, Wren (children[0].numbers): [5, 1] runs backwards; "
        "allowed: [1, 5], the smaller first",
    ),
    "true for a number": (
        child(more="sums_to = true\n"),
        "pack.toml, line 4, Wren (children[0].sums_to): found true; allowed: a whole number from 2 to 100",
    ),
    "not a number": (
        "margin = nan\n" + child(),
        "pack.toml, line 1 (margin): found nan; allowed: 3 to 40 mm",
    ),
    "no weeks": (
        "weeks = 0\n" + child(),
        "pack.toml, line 1 (weeks): found 0; allowed: a whole number from 1 to 20",
    ),
    "a million metres": (
        "counter = 1e9\n" + child(),
        "pack.toml, line 1 (counter): found 1e+09; allowed: 8 to 60 mm",
    ),
    "a range beyond a hundred": (
        child(more="numbers = [0, 101]\n"),
        "pack.toml, line 4, Wren (children[0].numbers): found [0, 101]; "
        "allowed: [first, last], two whole numbers from 0 to 100",
    ),
    "an unknown language": (
        'languages = ["xx"]\n' + child(),
        f"pack.toml, line 1 (languages): 'xx' is not a language tag used here; allowed: {TAGS}",
    ),
    "a language by its name": (
        'languages = ["english"]\n' + child(),
        f"pack.toml, line 1 (languages): 'english' is not a language tag used here; allowed: {TAGS}; "
        "did you mean 'en'?",
    ),
    "Portuguese of no country": (
        'languages = ["pt"]\n' + child(),
        "pack.toml, line 1 (languages): 'pt' does not say which Portuguese: 16 is dezasseis in Portugal, "
        "dezesseis in Brazil; allowed: pt-PT or pt-BR",
    ),
    "three languages": (
        'languages = ["en", "es", "fr"]\n' + child(),
        "pack.toml, line 1 (languages): found ['en', 'es', 'fr']; "
        'allowed: a list of one or two language tags, such as ["en", "es"]',
    ),
    "one language twice": (
        'languages = ["en", "EN"]\n' + child(),
        "pack.toml, line 1 (languages): names 'en' twice; allowed: two different languages, or one",
    ),
    "a language that waits for a reader": (
        'languages = ["bn"]\n' + child(),
        "pack.toml, line 1 (languages): 'bn' waits for a native reader: the number words in Bangla are not "
        "settled; allowed: the line unreviewed = true beside it, to print them all the same",
    ),
    "native digits of a language without": (
        'digits = "native"\n' + child(),
        "pack.toml, line 1 (digits): found 'native', but English, which leads, has no digits of its own; "
        'allowed: "western", or a language that has them first, such as "ar"',
    ),
    "a choice of words as a number": (
        child(more="words.fr = 1990\n"),
        'pack.toml, line 4, Wren (children[0].words): found 1990 for fr; allowed: "traditional", "1990", '
        '"feminine" or "1990 feminine"',
    ),
    "a misspelt choice of words": (
        'words = { nb = "syvv" }\n' + child(),
        'pack.toml, line 1 (words): found \'syvv\' for nb; allowed: "sju", "syv", "en", "neuter" or '
        "\"feminine\"; did you mean 'syv'?",
    ),
    "a choice of words where there is none": (
        child(more='words.en = "british"\n'),
        "pack.toml, line 4, Wren (children[0].words): there is nothing to choose for 'en'; allowed: "
        "a language that has choices ('printkit list languages' shows them)",
    ),
    "a choice of words without its language": (
        'words = "1990"\n' + child(),
        "pack.toml, line 1 (words): found '1990'; allowed: a table of choices, such as words.fr = \"1990\" "
        "('printkit list languages' shows them)",
    ),
    "an unknown paper": (
        'paper = "a44"\n' + child(),
        f"pack.toml, line 1 (paper): found 'a44'; allowed: {PAPERS}; did you mean 'a4'?",
    ),
    "a tiny paper": (
        "paper = [50, 50]\n" + child(),
        f"pack.toml, line 1 (paper): found [50, 50]; allowed: {PAPERS}",
    ),
    "a theme that is not there": (
        'theme = "rock-pol"\n' + child(),
        "pack.toml, line 1 (theme): there is no built-in theme and no folder 'rock-pol'; "
        "allowed: first-snow, fruit-stall, harvest-market, kitchen-garden, night-sky, rainy-street, rock-pool "
        "and spring-pond, or a folder's path; did you mean 'rock-pool'?",
    ),
    "strips without sums_to": (
        child(materials='["strips"]'),
        "pack.toml, line 3, Wren's strips (children[0].materials[0]): strips need sums_to, the largest sum; "
        "allowed: sums_to = a whole number from 2 to 100",
    ),
    "an arrangement that cannot be": (
        child(materials='[{ make = "counting-cards", arrange = "dice", numbers = [5, 9] }]'),
        "pack.toml, line 3, Wren's counting-cards (children[0].materials[0].arrange): "
        "7 to 9 cannot be laid as 'dice'; allowed: line, array and ring to 20, an array only where two or "
        "more even rows can be made, scatter to 10, dice to 6, frame to 100, or auto",
    ),
    "an array of primes": (
        child(materials='[{ make = "clip-cards", arrange = "array", numbers = [4, 9] }]'),
        "pack.toml, line 3, Wren's clip-cards (children[0].materials[0].arrange): "
        "5 and 7 cannot be laid as 'array'; allowed: line, array and ring to 20, an array only where two or "
        "more even rows can be made, scatter to 10, dice to 6, frame to 100, or auto",
    ),
    "a piece larger than the sheet": (
        child(materials='[{ make = "counting-cards", size = [300, 300] }]'),
        "pack.toml, line 3, Wren's counting-cards (children[0].materials[0].size): "
        "a piece of 300 x 300 mm is larger than the sheet; "
        "allowed: at most 190 x 269 mm within the margins and above the foot",
    ),
    "things too many for the card": (
        child(materials='[{ make = "counting-cards", size = "small", numbers = [1, 60] }]'),
        "pack.toml, line 3, Wren's counting-cards (children[0].materials[0].size): "
        "60 things of 5 mm or more do not fit a card of 47 x 62 mm; allowed: at most 10 there, "
        "or a larger card",
    ),
    "a motif that is not in the theme": (
        child(materials='[{ make = "counting-cards", motif = "crabb" }]'),
        "pack.toml, line 3, Wren's counting-cards (children[0].materials[0].motif): "
        "the theme has no motif 'crabb'; allowed: crab, sea-star, shell, jellyfish, anemone, bucket, fish, "
        "snail, seahorse, gull, shrimp, boat, octopus, seal or lighthouse; did you mean 'crab'?",
    ),
    "no children": (
        'title = "Shelf"\n',
        "pack.toml: has no children; allowed: a table [[children]] with a name and materials",
    ),
    "a gap that is no length": (
        'gap = "wide"\n' + child(),
        "pack.toml, line 1 (gap): found 'wide'; allowed: 0 to 20 mm",
    ),
    "a corner that is too round": (
        child(more="corner = 12\n"),
        "pack.toml, line 4, Wren (children[0].corner): found 12; allowed: 0 to 8 mm",
    ),
    "a way to save that is not known": (
        'save = "papers"\n' + child(),
        "pack.toml, line 1 (save): found 'papers'; allowed: paper or order; did you mean 'paper'?",
    ),
    "no materials": (
        child(materials="[]"),
        f"pack.toml, line 3, Wren (children[0].materials): has no materials; allowed: {LIST}",
    ),
    "a child without a name": (
        '[[children]]\nmaterials = ["counting-cards"]\n',
        'pack.toml, line 1 (children[0]): a child has no name; allowed: name = "..."',
    ),
    "two children of one name": (
        child() + child(name="WREN"),
        "pack.toml, line 5 (children[1].name): 'Wren' and 'WREN' would have files of one name; "
        "allowed: names that differ in more than upper and lower case",
    ),
    "two sets of one name": (
        child(materials='["clip-cards", "clip-cards"]'),
        "pack.toml, line 3, Wren's clip-cards (children[0].materials[1]): the set 'clip-cards' occurs twice; "
        'allowed: set = "..." with a name of its own',
    ),
    "two sets that differ in case": (
        child(materials='[{ make = "clip-cards", set = "A" }, { make = "counting-cards", set = "a" }]'),
        "pack.toml, line 3, Wren's a (children[0].materials[1].set): the sets 'A' and 'a' would have files of "
        'one name; allowed: set = "..." with a name of its own',
    ),
    "a set with the name of the pack's files": (
        child(materials='[{ make = "clip-cards", set = "card" }]'),
        "pack.toml, line 3, Wren's card (children[0].materials[0].set): 'card' is the name of one of the "
        "pack's own files; allowed: another name",
    ),
    "a name with a slash": (
        child(name="a/b"),
        f"pack.toml, line 2 (children[0].name): 'a/b' holds '/'; allowed: {NAME}",
    ),
    "a name with dots": (
        child(name="a..b"),
        f"pack.toml, line 2 (children[0].name): 'a..b' holds '..'; allowed: {NAME}",
    ),
    "a name with a control character": (
        child(name="a\\u0007b"),
        f"pack.toml, line 2 (children[0].name): 'a\\u0007b' holds a control character; allowed: {NAME}",
    ),
    "a name that Windows keeps": (
        child(name="CON"),
        f"pack.toml, line 2 (children[0].name): 'CON' is a name that Windows keeps for devices; allowed: {NAME}",
    ),
    "the guide's name": (
        child(name="Guide"),
        "pack.toml, line 2 (children[0].name): 'Guide' is the name of one of the pack's own files; "
        "allowed: another name",
    ),
    "letters that cannot be drawn": (
        child(name="小雨"),
        "pack.toml, line 2 (children[0].name): '小雨' holds '小雨', which the typeface cannot draw; "
        "allowed: Latin, Greek or Cyrillic letters",
    ),
    "a title that cannot be drawn": (
        'title = "雪"\n' + child(),
        "pack.toml, line 1 (title): the title holds '雪', which the typeface cannot draw; "
        "allowed: Latin, Greek or Cyrillic letters",
    ),
    "a list for a material": (
        child(materials="[{ make = [] }]"),
        f"pack.toml, line 3, Wren (children[0].materials[0].make): there is no material []; allowed: {MATERIALS}",
    ),
    "a card too low for its things": (
        child(materials='[{ make = "counting-cards", size = [62, 35], arrange = "scatter" }]'),
        "pack.toml, line 3, Wren's counting-cards (children[0].materials[0].size): 10 things of 5 mm or more "
        "do not fit a card of 62 x 35 mm; allowed: at most 0 there, or a larger card",
    ),
    "no TOML": (
        "title = \n",
        "pack.toml: cannot be read as TOML: Invalid value (at line 1, column 9)",
    ),
    "all at once": (
        'papr = "a4"\nlanguages = ["xx"]\n' + child(more='numbers = [9, 2]\nhand = "lft"\n'),
        f"pack.toml, line 1 (papr): 'papr' is no key here; allowed: {PACK_KEYS}; did you mean 'paper'?\n"
        f"pack.toml, line 2 (languages): 'xx' is not a language tag used here; allowed: {TAGS}\n"
        "pack.toml, line 6, Wren (children[0].numbers): [9, 2] runs backwards; "
        "allowed: [2, 9], the smaller first\n"
        "pack.toml, line 7, Wren (children[0].hand): found 'lft'; allowed: left or right; "
        "did you mean 'left'?",
    ),
    "every material tells its own": (
        child(materials='["strips", { make = "clip-cards", arrange = "scatter", numbers = [9, 12] }]'),
        "pack.toml, line 3, Wren's strips (children[0].materials[0]): strips need sums_to, the largest sum; "
        "allowed: sums_to = a whole number from 2 to 100\n"
        "pack.toml, line 3, Wren's clip-cards (children[0].materials[1].arrange): "
        "11 and 12 cannot be laid as 'scatter'; allowed: line, array and ring to 20, an array only where two "
        "or more even rows can be made, scatter to 10, dice to 6, frame to 100, or auto",
    ),
}


def run(folder: Path, text: str | bytes, *arguments: str):
    """`printkit make` on a text, in a folder of its own."""
    file = folder / "pack.toml"
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return CliRunner().invoke(commands, ["make", str(file), "-o", str(folder / "out"), *arguments])


@pytest.mark.parametrize("kind", SENTENCES)
def test_bad_input_is_told_in_a_whole_sentence(kind, tmp_path):
    """Exit code 2, the very sentence on stderr, no traceback, no file."""
    text, sentence = SENTENCES[kind]

    result = run(tmp_path, text)

    assert result.stderr == sentence + "\n"
    assert (result.exit_code, result.stdout) == (2, "")
    assert [path.name for path in tmp_path.iterdir()] == ["pack.toml"]


def test_a_file_that_is_no_utf8(tmp_path):
    """A file in another encoding is named with the line where it fails."""
    result = run(tmp_path, 'title = "x"\nname = "José"\n'.encode("latin-1"))

    assert result.exit_code == 2
    assert result.stderr == "pack.toml, line 2: is no UTF-8 text; allowed: a text file saved as UTF-8\n"


def test_a_byte_order_mark_is_no_mistake(tmp_path):
    """A file with a byte order mark is read like any other."""
    result = run(tmp_path, b"\xef\xbb\xbf" + child(more="numbers = [1, 2]\n").encode())

    assert (result.exit_code, result.stderr) == (0, "")


def test_british_spellings_are_read(tmp_path):
    """grey is gray."""
    result = run(tmp_path, 'ink = "grey"\n' + child(more="numbers = [1, 2]\n"))

    assert (result.exit_code, result.stderr) == (0, "")


def white_picture() -> bytes:
    """A PNG on which nothing can be seen."""
    import io

    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (200, 200), "white").save(out, "PNG")
    return out.getvalue()


@pytest.mark.parametrize(
    ("files", "sentence"),
    [
        (
            {},
            "ours: there is no picture in the folder; allowed: at least one SVG, PNG, JPEG or WebP file",
        ),
        (
            {"crab.svg": b"<svg"},
            "ours/crab.svg: the drawing is damaged or breaks off at line 1; save it anew as SVG",
        ),
        (
            {"crab.png": b"no picture"},
            "ours/crab.png: this is not a PNG, JPEG or WebP picture; save it as one of these",
        ),
        (
            {"crab.png": white_picture()},
            "ours/crab.png: the picture is white all over: nothing of it would be seen on paper",
        ),
    ],
    ids=["empty folder", "broken SVG", "broken PNG", "white PNG"],
)
def test_a_folder_of_pictures_that_cannot_be_read(files, sentence, tmp_path):
    """A theme folder without a readable picture is told with the file's name."""
    (tmp_path / "ours").mkdir()
    for name, data in files.items():
        (tmp_path / "ours" / name).write_bytes(data)

    result = run(tmp_path, 'theme = "ours"\n' + child())

    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == sentence + "\n"


def test_a_pack_file_that_is_not_there(tmp_path):
    """A missing file is the machine's failure: exit code 1 and its name."""
    result = CliRunner().invoke(commands, ["make", str(tmp_path / "none.toml")])

    assert result.exit_code == 1
    assert result.stderr == f"{tmp_path / 'none.toml'}: {os.strerror(errno.ENOENT)}\n"


def earlier_pack(folder: Path) -> dict[str, bytes]:
    """A pack that was made before, and a file of the family's own beside it."""
    result = run(folder, child(more="numbers = [1, 2]\n"))
    assert result.exit_code == 0, result.stderr
    (folder / "out" / "notes.txt").write_text("ours", encoding="utf-8")
    return contents(folder / "out")


def contents(folder: Path) -> dict[str, bytes]:
    """Every file of a folder with its bytes."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_wrong_pack_file_leaves_the_earlier_pack(tmp_path):
    """A remake that is refused changes nothing."""
    before = earlier_pack(tmp_path)

    assert run(tmp_path, child(more="numbers = [5, 1]\n")).exit_code == 2
    assert contents(tmp_path / "out") == before


@pytest.mark.parametrize(
    ("number", "sentence"),
    [
        (errno.ENOSPC, "No space left on device"),
        (errno.EACCES, "Permission denied; perhaps another program holds it open"),
        (errno.EIO, "Input/output error"),
    ],
)
def test_a_disk_that_fails_leaves_the_earlier_pack(number, sentence, tmp_path, monkeypatch):
    """A full disk, a PDF held open, a broken disk: exit code 1, one plain line, the earlier pack whole."""
    before = earlier_pack(tmp_path)
    replace = os.replace

    def fails(source, target, **kwargs):
        if str(source).endswith("wren-card.pdf"):
            raise OSError(number, sentence.split(";")[0], str(source))
        return replace(source, target, **kwargs)

    monkeypatch.setattr(os, "replace", fails)
    result = run(tmp_path, child(more="numbers = [1, 3]\n"))
    monkeypatch.undo()

    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == f"{tmp_path / 'out' / 'wren-card.pdf'}: {sentence}\n"
    assert contents(tmp_path / "out") == before


def test_an_output_folder_that_is_a_file(tmp_path):
    """A file in the place of the folder is named, and stays as it is."""
    (tmp_path / "out").write_text("ours", encoding="utf-8")

    result = run(tmp_path, child(more="numbers = [1, 2]\n"))

    assert result.exit_code == 1
    assert result.stderr == f"{tmp_path / 'out'}: is a file, not a folder\n"
    assert (tmp_path / "out").read_text(encoding="utf-8") == "ours"
