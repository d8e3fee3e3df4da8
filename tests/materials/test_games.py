"""Games and looking: the defaults are made for every child, whatever its numbers, paper and theme."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from reader import count_things, cropped, ink_share, read_file, read_manifest
from strategies import PLAIN_THEME, made_of, room_of, tray

from printkit.cli import commands
from printkit.sheets import turned_to_fit

GAMES = ("find-the-match", "pairs", "dominoes", "bingo")
CHILDREN = (
    {"numbers": [0, 0], "paper": "a5", "ink": "outline"},
    {"numbers": [0, 100], "paper": "letter", "languages": ["th", "de"]},
    {"numbers": [1, 3], "paper": "a3", "flip": "none", "counter": 40},
    {"numbers": [100, 100], "paper": "a4", "lookalike": 1},
    {"numbers": [88, 97], "paper": "letter", "languages": ["fr"], "digits": "western", "lookalike": 3},
    {"numbers": [5, 5], "paper": [130, 180], "languages": ["ar", "en"], "ink": "gray", "lookalike": 5},
    {"numbers": [1, 10], "paper": "legal", "theme": "kitchen-garden", "lookalike": 6, "flip": "short"},
)


@pytest.mark.parametrize("child", CHILDREN, ids=lambda child: str(child["numbers"]))
@pytest.mark.parametrize("make", GAMES)
def test_the_defaults_are_made_for_every_child(make, child):
    """Nothing is refused, and every piece fits a sheet of the child's paper."""
    asked = tray(make, {"theme": PLAIN_THEME, **child})
    made = made_of(asked)

    assert made.problems == ()
    assert made.pieces
    assert all(turned_to_fit(piece, room_of(asked)) is not None for piece in made.pieces)
    assert len({piece.key for piece in made.pieces}) == len(made.pieces)


@pytest.mark.parametrize(
    ("make", "wanted"), [("find-the-match", {"lookalike": 5}), ("dominoes", {}), ("bingo", {})]
)
def test_one_picture_is_enough_where_pictures_are_counted_or_turned(make, wanted, tmp_path):
    """A folder with a single picture makes all games but those that match pictures with pictures."""
    shutil.copy(Path(PLAIN_THEME) / "flag.svg", tmp_path / "flag.svg")
    made = made_of(tray(make, {"theme": str(tmp_path), "numbers": [1, 5], **wanted}))

    assert made.problems == ()


@pytest.mark.parametrize("make", GAMES)
def test_another_seed_makes_other_pieces(make):
    """The seed alone decides: the same one gives the same pieces, another one others."""
    asked = tray(make, {"numbers": [1, 12], "theme": "kitchen-garden", "lookalike": 5})

    assert made_of(asked, 3) == made_of(asked, 3)
    assert made_of(asked, 3).pieces != made_of(asked, 4).pieces


PACK = """
theme = "{theme}"
ink = "{ink}"
paper = "{paper}"
[[children]]
name = "Wren"
numbers = [0, 7]
languages = ["en", "es"]
lookalike = {level}
materials = [{{ make = "find-the-match", count = 1 }}, {{ make = "pairs", match = "numeral-things" }},
             {{ make = "pairs", set = "words", match = "word-word", pairs = 3 }},
             {{ make = "dominoes", halves = "mixed", values = 4 }},
             {{ make = "bingo", board = "things", calls = "words", boards = 2 }}]
"""


@pytest.mark.parametrize(("paper", "ink", "level"), [("a4", "color", 5), ("letter", "outline", 1)])
def test_pages_show_what_the_manifest_says(paper, ink, level, tmp_path):
    """Read back from the pages alone: things counted in every area, words found, backs all alike."""
    text = PACK.format(theme=Path(PLAIN_THEME).as_posix(), ink=ink, paper=paper, level=level)
    (tmp_path / "pack.toml").write_text(text, encoding="utf-8")
    result = CliRunner().invoke(commands, ["make", str(tmp_path / "pack.toml"), "-o", str(tmp_path / "out")])
    assert (result.exit_code, result.stderr) == (0, "")
    manifest = read_manifest(tmp_path / "out")
    pages = [page for file in manifest["files"] if file["file"] != "guide.pdf"
             for page in read_file(tmp_path / "out", file)]  # fmt: skip
    placed = [(page, piece) for page in pages for piece in page.entry["pieces"]]

    areas = [(page, piece, area) for page, piece in placed for area in piece.get("areas", ())]
    counted = [each for each in areas if each[2]["ground"] == "none"]
    assert len(counted) > 40
    for page, piece, area in counted:
        assert count_things(cropped(page, area["box_mm"], -0.2)) == area["things"], piece["id"]
    for page, piece in placed:
        facts = piece.get("facts", {})
        for word in (*facts.get("words", {}).values(), *facts.get("written", ())):
            assert word in page.text, piece["id"]
    backs = [(page, piece) for page, piece in placed if page.entry["side"] == "back"]
    shares = {ink_share(cropped(page, piece["box_mm"], 5)).__round__(2) for page, piece in backs}
    assert backs
    assert len(shares) <= 2, "the backs of one set are one pattern"
