"""A family's file: what stays from season to season, and whose word wins."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, legal_pack, legal_toml

from printkit.build import summary
from printkit.cli import commands
from printkit.materials import material_keys
from printkit.pack import Pack
from printkit.pack.family import family_beside
from printkit.pack.reader import read_pack
from printkit.pack.sources import settings_lines, settings_of

FAMILY = """\
margin = 8
[[children]]
name = "Wren"
numbers = [1, 5]
[[children]]
name = "Juno"
numbers = [8, 14]
[[children]]
name = "Pim"
"""


def season(folder: Path, text: str, family: str = FAMILY, **overrides: Any) -> Pack:
    """The pack of a season's file beside a family's, in the plain theme."""
    (folder / "family.toml").write_text(family, encoding="utf-8")
    file = folder / "autumn.toml"
    file.write_text(f'theme = "{PLAIN_THEME}"\n{text}', encoding="utf-8")
    return read_pack(file, material_keys(), overrides)


def numbers(pack: Pack) -> dict[str, tuple[int, int]]:
    """Each child that anything is made for, with its numbers."""
    return {item.child.name: item.child.numbers for item in pack.children}


# --- whose word wins -------------------------------------------------------------------------

LEVELS = ("family", "child in family", "pack", "child", "tray", "command line")


@given(st.sets(st.sampled_from(LEVELS)))
def test_the_strongest_word_wins(tmp_path_factory, speaking):
    """Family, child in the family, pack, child, tray, command line: the last one that says a key has it."""
    word = {level: f"counter = {20 + place}\n" for place, level in enumerate(LEVELS)}
    family = f'{word["family"] * ("family" in speaking)}[[children]]\nname = "Wren"\n'
    family += word["child in family"] * ("child in family" in speaking)
    entry = ', { make = "clip-cards", counter = 24 }' * ("tray" in speaking)
    text = f'{word["pack"] * ("pack" in speaking)}[[children]]\nname = "Wren"\n'
    text += f'{word["child"] * ("child" in speaking)}materials = ["counting-cards"{entry}]\n'
    overrides = {"counter": 25} if "command line" in speaking else {}
    pack = season(tmp_path_factory.mktemp("family"), text, family, **overrides)
    (item,) = pack.children

    strongest = max((LEVELS.index(level) for level in speaking - {"tray"}), default=2)
    assert item.child.counter == 20 + strongest
    said = {source.key: source.level for source in item.sources}
    assert said.get("counter") == (LEVELS[strongest] if speaking - {"tray"} else None)
    if "tray" in speaking:
        assert item.trays[1].child.counter == max(24, 20 + strongest)
        assert [source.key for source in item.trays[1].sources] == ["counter"] * (strongest < 5)


def test_tables_are_set_in_part(tmp_path):
    """Flip, numerals and words of each level keep what the others set of them."""
    family = (
        'flip = { card = "long" }\nnumerals = { one = "foot" }\nwords.fr = "1990"\n'
        '[[children]]\nname = "Wren"\nnumerals = { four = "open" }\n'
    )
    text = (
        'flip = { plain = "short" }\nnumerals = { seven = "barred" }\n[[children]]\nname = "Wren"\n'
        'words.nb = "sju"\nmaterials = ["tracing"]\n'
    )
    child = season(tmp_path, text, family).children[0].child

    assert (child.flip.plain, child.flip.card) == ("short", "long")
    assert (child.numerals.one, child.numerals.four, child.numerals.seven) == ("foot", "open", "barred")
    assert dict(child.words) == {"fr": "1990", "nb": "sju"}


@settings(max_examples=30)
@given(legal_pack(themes=(PLAIN_THEME,)), st.randoms(use_true_random=False))
def test_what_moves_into_the_family_holds_as_before(tmp_path_factory, made, chance):
    """A pack read alone, and with any of its keys moved into a family's file, is the same pack."""
    folder = tmp_path_factory.mktemp("moved")
    (folder / "alone").mkdir()
    alone = folder / "alone" / "pack.toml"
    alone.write_text(legal_toml(made), encoding="utf-8")
    kept = ("theme", "title", "seed", "weeks", "children", "name", "materials")
    moved = {key: made[key] for key in made if key not in kept and chance.random() < 0.5}
    left = {key: value for key, value in made.items() if key not in moved}
    family, children = [], []
    for child in made["children"]:
        gone = {
            key: child[key] for key in child if key not in kept and key not in left and chance.random() < 0.5
        }
        family.append({"name": child["name"], **gone})
        children.append({key: value for key, value in child.items() if key not in gone})
    (folder / "family.toml").write_text(legal_toml({**moved, "children": family}), encoding="utf-8")
    file = folder / "pack.toml"
    file.write_text(legal_toml({**left, "children": children}), encoding="utf-8")

    before, after = (read_pack(each, material_keys()) for each in (alone, file))
    assert [item.child for item in after.children] == [item.child for item in before.children]
    assert [tray.child for item in after.children for tray in item.trays] == [
        tray.child for item in before.children for tray in item.trays
    ]
    assert (after.units, after.paper, after.margin) == (before.units, before.paper, before.margin)


def test_the_same_pages_from_two_files(tmp_path):
    """Printed from a family's file and a season's, each PDF has the bytes that one file gives."""
    (tmp_path / "one.toml").write_text(
        f'theme = "{PLAIN_THEME}"\ntitle = "Pond"\nmargin = 8\n[[children]]\nname = "Wren"\nnumbers = [1, 5]\n'
        'materials = ["clip-cards"]\n',
        encoding="utf-8",
    )
    run("make", tmp_path / "one.toml", "-o", tmp_path / "one")
    season(tmp_path, 'title = "Pond"\n[[children]]\nname = "Wren"\nmaterials = ["clip-cards"]\n')
    run("make", tmp_path / "autumn.toml", "-o", tmp_path / "two")

    pdfs = sorted(path.name for path in (tmp_path / "one").glob("*.pdf"))
    assert pdfs == sorted(path.name for path in (tmp_path / "two").glob("*.pdf"))
    for name in pdfs:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_a_rung_of_the_family_gives_way_to_a_rung_of_the_season(tmp_path):
    """Rungs are words like any other: laid below what their own level writes, above weaker levels."""
    family = '[[children]]\nname = "Wren"\nstart = ["count-1-5", "add-within-5"]\n'
    text = '[[children]]\nname = "Wren"\nstart = "count-4-10"\nmaterials = ["clip-cards", "strips"]\n'
    (item,) = season(tmp_path, text, family).children

    assert (item.child.numbers, item.child.sums_to) == ((4, 10), 5)
    assert {source.key: (source.file, source.line) for source in item.sources if source.key != "theme"} == {
        "numbers": ("autumn.toml", 4),
        "sums_to": ("family.toml", 3),
        "start": ("autumn.toml", 4),
    }


def test_numbers_of_the_season_win_over_a_rung_of_the_family(tmp_path):
    """What is kept instead of the rung's is told."""
    family = '[[children]]\nname = "Wren"\nstart = "count-1-5"\n'
    pack = season(tmp_path, 'numbers = [1, 8]\nmaterials = ["clip-cards"]\n', family)

    assert pack.children[0].child.numbers == (1, 8)
    assert pack.notes == ("the pack's own numbers = [1, 8] is kept, not [1, 5] of the rung 'count-1-5'",)


# --- for whom --------------------------------------------------------------------------------


def test_a_season_says_theme_and_materials_only(tmp_path):
    """Materials at the top are made for every child of the family, with its own numbers."""
    pack = season(tmp_path, 'materials = ["counting-cards", "paths"]\n')

    assert numbers(pack) == {"Wren": (1, 5), "Juno": (8, 14), "Pim": (1, 10)}
    assert all(
        [tray.material for tray in item.trays] == ["counting-cards", "paths"] for item in pack.children
    )


def test_a_child_has_its_own_materials_or_those_of_all(tmp_path):
    """A child that the file names takes its own list, else the one at the top; the family's order stays."""
    pack = season(
        tmp_path,
        'materials = ["paths"]\n[[children]]\nname = "Juno"\nmaterials = ["clip-cards"]\n'
        '[[children]]\nname = "wren"\nnumbers = [2, 3]\n',
    )

    assert numbers(pack) == {"wren": (2, 3), "Juno": (8, 14), "Pim": (1, 10)}
    assert list(numbers(pack)) == ["wren", "Juno", "Pim"]
    assert [item.trays[0].material for item in pack.children] == ["paths", "clip-cards", "paths"]


def test_a_child_of_the_family_that_the_season_leaves_out(tmp_path):
    """Without materials at the top only those children are made for whom the pack file names."""
    pack = season(tmp_path, '[[children]]\nname = "Pim"\nmaterials = ["paths"]\n')

    assert numbers(pack) == {"Pim": (1, 10)}
    assert [child.name for child in pack.people] == ["Pim"]


def test_a_child_that_the_family_does_not_know(tmp_path):
    """It stands alone, with what the family has for all; a name like another is asked about."""
    text = '[[children]]\nname = "{}"\nmaterials = ["paths"]\n'
    slip, guest = season(tmp_path, text.format("Wrenn")), season(tmp_path, text.format("Zoë"))

    assert numbers(slip) == {"Wrenn": (1, 10)}
    assert slip.children[0].child.margin == 8
    assert slip.notes == (
        "autumn.toml, line 3 (children[0].name): 'Wrenn' is not in family.toml, so nothing is taken from "
        "there but what holds for all; did you mean 'Wren'?",
    )
    assert guest.notes == ()


def test_letters_lie_beside_the_file_that_names_them(tmp_path):
    """A path in the family's file begins in the family's folder, wherever the season's file lies."""
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "ours.toml").write_text('[letters]\nn = "9: M0 10 L0 0"\n', encoding="utf-8")
    family = tmp_path / "home" / "household.toml"
    family.write_text('letters = "ours.toml"\n[[children]]\nname = "Wren"\n', encoding="utf-8")
    file = tmp_path / "autumn.toml"
    file.write_text('materials = ["tracing"]\n', encoding="utf-8")

    pack = read_pack(file, material_keys(), family=family)
    assert pack.children[0].child.numerals.strokes == (("n", "9: M0 10 L0 0"),)
    assert pack.family == "household.toml"


def test_the_family_lies_beside_the_pack_file(tmp_path):
    """family.toml in the folder is found; a pack file of that very name is not its own family."""
    assert family_beside(tmp_path / "autumn.toml") is None
    (tmp_path / "family.toml").write_text("", encoding="utf-8")

    assert family_beside(tmp_path / "autumn.toml") == tmp_path / "family.toml"
    assert family_beside(tmp_path / "family.toml") is None


# --- what is told ----------------------------------------------------------------------------


def run(*arguments: str | Path):
    """printkit with these arguments."""
    return CliRunner().invoke(commands, [str(argument) for argument in arguments])


def test_check_says_where_each_word_came_from(tmp_path):
    """What holds for all first, then each child's, with the file and line; the usual values are left out."""
    pack = season(
        tmp_path,
        'counter = 22\nlanguages = ["es"]\n[[children]]\nname = "Wren"\nmaterials = '
        '["clip-cards", { make = "counting-cards", set = "few", numbers = [2, 3] }]\n'
        '[[children]]\nname = "Juno"\nsums_to = 5\nmaterials = ["clip-cards"]\n',
        FAMILY.replace("numbers = [8, 14]", 'languages = ["pt-PT"]'),
        paper="a5",
    )

    theme = f"'{PLAIN_THEME}'" if len(PLAIN_THEME) < 59 else f"'{PLAIN_THEME[:56]}..."
    assert settings_lines(settings_of(pack)) == [
        f"all: theme = {theme} (autumn.toml, line 1), paper = 'a5' (command line), "
        "languages = ['es'] (autumn.toml, line 3), margin = 8 (family.toml, line 1)",
        "Wren: numbers = [1, 5] (family.toml, line 4)",
        "Wren's few: numbers = [2, 3] (autumn.toml, line 6)",
        "Juno: languages = ['es'] (autumn.toml, line 3, wins over family.toml, line 7), "
        "sums_to = 5 (autumn.toml, line 9)",
    ]


def test_check_prints_the_lines_and_json_holds_the_values(tmp_path):
    """The lines stand in what check prints; --json has each key with level, file and line."""
    season(tmp_path, 'materials = ["paths"]\n')
    said = run("check", tmp_path / "autumn.toml").stdout
    rows = json.loads(run("check", tmp_path / "autumn.toml", "--json").stdout)["settings"]

    assert "    Juno: numbers = [8, 14] (family.toml, line 7)\n" in said
    assert [row for row in rows if (row["child"], row["key"]) == ("Juno", "numbers")] == [
        {
            "child": "Juno", "set": None, "key": "numbers", "value": "[8, 14]", "level": "child in family",
            "file": "family.toml", "line": 7, "over": "", "usual": False,
        }
    ]  # fmt: skip


def test_the_manifest_holds_every_key_and_who_said_it(tmp_path):
    """Resolved settings, the level of each word, the family's file by its name alone."""
    season(
        tmp_path,
        '[[children]]\nname = "Juno"\nmaterials = [{ make = "clip-cards", numbers = [9, 10] }]\n',
    )
    assert run("make", tmp_path / "autumn.toml").exit_code == 0
    text = (tmp_path / "autumn" / "manifest.json").read_text(encoding="utf-8")
    told = json.loads(text)["settings"]
    (child,) = told["children"]

    assert (told["family"], child["numbers"], child["margin"]) == ("family.toml", [8, 14], 8.0)
    assert child["sources"] == {"theme": "pack", "margin": "family", "numbers": "child in family"}
    assert child["materials"][0]["sources"] == {"numbers": "tray"}
    assert str(tmp_path) not in text


def test_another_family_by_its_name(tmp_path):
    """--family wins over the file beside the pack file, for check and for make."""
    season(tmp_path, 'materials = ["paths"]\n')
    other = tmp_path / "cousins.toml"
    other.write_text('[[children]]\nname = "Zoë"\n', encoding="utf-8")

    told = json.loads(run("check", tmp_path / "autumn.toml", "--family", other, "--json").stdout)
    assert {item["child"] for item in told["sets"]} == {"Zoë"}
    assert run("make", tmp_path / "autumn.toml", "--family", other).exit_code == 0
    assert (tmp_path / "autumn" / "zoë-card.pdf").is_file()


# --- bad input -------------------------------------------------------------------------------

MATERIALS = ", ".join(sorted(material_keys())[:-1]) + f" or {sorted(material_keys())[-1]}"
LIST = f"a list of {MATERIALS}, each a word or a table with make = ..."

# The family's text, the season's, what is said.
SENTENCES = {
    "a word that is wrong": (
        'counter = "wide"\n',
        'materials = ["paths"]\n[[children]]\nname = "Wren"\n',
        "family.toml, line 1 (counter): found 'wide'; allowed: 8 to 60 mm",
    ),
    "a child's word that is wrong": (
        '[[children]]\nname = "Wren"\nnumbers = [5, 1]\n',
        'materials = ["paths"]\n',
        "family.toml, line 3, Wren (children[0].numbers): [5, 1] runs backwards; "
        "allowed: [1, 5], the smaller first",
    ),
    "a child that no pack names is looked at too": (
        '[[children]]\nname = "Pim"\nhand = "lft"\n',
        '[[children]]\nname = "Wren"\nmaterials = ["paths"]\n',
        "family.toml, line 3, Pim (children[0].hand): found 'lft'; allowed: left or right; "
        "did you mean 'left'?",
    ),
    "a theme in the family": (
        'theme = "rock-pool"\n[[children]]\nname = "Wren"\n',
        'materials = ["paths"]\n',
        "family.toml, line 1 (theme): 'theme' belongs to the season; "
        "allowed: 'theme' in the season's pack file, not here",
    ),
    "materials of a child in the family": (
        '[[children]]\nname = "Wren"\nmaterials = ["paths"]\n',
        'materials = ["paths"]\n',
        "family.toml, line 3, Wren (children[0].materials): 'materials' belongs to the season; "
        "allowed: 'materials' in the season's pack file, not here",
    ),
    "a misspelt key": (
        '[[children]]\nname = "Wren"\nnummbers = [1, 5]\n',
        'materials = ["paths"]\n',
        "family.toml, line 3, Wren (children[0].nummbers): 'nummbers' is no key here; allowed: {child_keys}; "
        "did you mean 'numbers'?",
    ),
    "a language of the family, told once": (
        'languages = ["xx"]\n[[children]]\nname = "Wren"\n[[children]]\nname = "Juno"\n',
        'materials = ["paths", "tracing"]\n',
        "family.toml, line 1 (languages): 'xx' is not a language tag used here; "
        "allowed: a tag that 'printkit list languages' shows, such as en, es or pt-PT",
    ),
    "two children of one name": (
        '[[children]]\nname = "Wren"\n[[children]]\nname = "wren"\n',
        'materials = ["paths"]\n',
        "family.toml, line 4 (children[1].name): 'Wren' and 'wren' would have files of one name; "
        "allowed: names that differ in more than upper and lower case",
    ),
    "children that are no tables": (
        "children = 3\n",
        'materials = ["paths"]\n',
        "family.toml, line 1 (children): found 3; allowed: tables [[children]], one a child",
    ),
    "letters that are not there": (
        'letters = "own.toml"\n[[children]]\nname = "Wren"\n',
        'materials = ["paths"]\n',
        "family.toml, line 1 (letters): there is no file 'own.toml'; allowed: the path of a TOML file",
    ),
    "no TOML in either file": (
        "margin =\n",
        "title = \n",
        "autumn.toml: cannot be read as TOML: Invalid value (at line 1, column 9)\n"
        "family.toml: cannot be read as TOML: Invalid value (at line 1, column 9)",
    ),
    "no children and no materials": (
        '[[children]]\nname = "Wren"\n',
        'title = "Autumn"\n',
        "autumn.toml: has no children; allowed: a table [[children]] with a name and materials, "
        "or materials = [...] at the top for the children of family.toml",
    ),
    "materials for nobody": (
        "margin = 8\n",
        'materials = ["paths"]\n',
        "autumn.toml: has no children; allowed: a table [[children]] with a name, "
        "here or in family.toml beside this file",
    ),
    "a child without materials": (
        '[[children]]\nname = "Wren"\n',
        '[[children]]\nname = "Wren"\n',
        f"autumn.toml, line 1, Wren (children[0]): has no materials; allowed: {LIST}",
    ),
    "an empty list for all": (
        '[[children]]\nname = "Wren"\n',
        "materials = []\n",
        f"autumn.toml, line 1 (materials): has no materials; allowed: {LIST}",
    ),
    "a misspelt material for all, told once": (
        '[[children]]\nname = "Wren"\n[[children]]\nname = "Juno"\n',
        'materials = ["path"]\n',
        f"autumn.toml, line 1, Wren (materials[0]): there is no material 'path'; allowed: {MATERIALS}; "
        "did you mean 'paths'?",
    ),
    "what one child lacks for a material of all": (
        '[[children]]\nname = "Wren"\nsums_to = 5\n[[children]]\nname = "Juno"\n',
        'materials = ["strips"]\n',
        "autumn.toml, line 1, Juno's strips (materials[0]): strips need sums_to, the largest sum; "
        "allowed: sums_to = a whole number from 2 to 100",
    ),
    "a family's key that does not suit a material": (
        '[[children]]\nname = "Wren"\nnumbers = [1, 60]\n',
        'materials = [{ make = "counting-cards", size = "small" }]\n',
        "autumn.toml, line 1, Wren's counting-cards (materials[0].size): 60 things of 5 mm or more do not fit a "
        "card of 47 x 62 mm; allowed: at most 10 there, or a larger card",
    ),
}


@pytest.mark.parametrize("kind", SENTENCES)
def test_bad_input_names_the_right_file(kind, tmp_path):
    """Exit code 2 and the very sentence, with the file and line where the word stands; nothing is written."""
    from printkit.errors import listing
    from printkit.pack.keys import family_child_checks

    family, text, sentence = SENTENCES[kind]
    (tmp_path / "family.toml").write_text(family, encoding="utf-8")
    (tmp_path / "autumn.toml").write_text(text, encoding="utf-8")
    result = run("make", tmp_path / "autumn.toml")

    keys = listing(sorted(family_child_checks()))
    assert result.stderr == sentence.replace("{child_keys}", keys) + "\n"
    assert (result.exit_code, result.stdout) == (2, "")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["autumn.toml", "family.toml"]


def test_the_family_is_no_pack(tmp_path):
    """Making the family's own file says what it is."""
    (tmp_path / "family.toml").write_text(FAMILY, encoding="utf-8")
    result = run("check", tmp_path / "family.toml")

    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == (
        "family.toml: holds what stays from season to season, and no materials; "
        "allowed: the pack file of a season\n"
    )


def test_a_family_that_is_not_there(tmp_path):
    """A file named by --family that is missing is the machine's failure: exit code 1 and its name."""
    season(tmp_path, 'materials = ["paths"]\n')
    result = run("check", tmp_path / "autumn.toml", "--family", tmp_path / "none.toml")

    assert result.exit_code == 1
    assert result.stderr.startswith(f"{tmp_path / 'none.toml'}: ")


def test_summary_lists_the_settings_of_what_is_made(tmp_path):
    """One child's part tells that child's settings only."""
    from printkit.build import Wish, plan

    pack = season(tmp_path, 'materials = ["paths"]\n')
    told = summary(plan(pack, Wish(child="Juno")))

    assert {row["child"] for row in told["settings"]} == {"Juno"}
