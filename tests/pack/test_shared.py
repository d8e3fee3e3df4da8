"""Trays that several children share: whom they are for, what holds for them, who uses which numbers."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, legal_entry, legal_pack, made_of, pack_keys, read, tray

from printkit.build import plan
from printkit.cli import commands
from printkit.errors import PrintkitError
from printkit.labels import set_numbers, shared_numbers, users_words
from printkit.materials import material_keys, materials
from printkit.pack import ChildTrays, Pack
from printkit.pack.reader import read_pack

CHILDREN = """\
[[children]]
name = "Wren"
numbers = [1, 5]
sums_to = 5
lookalike = 3
materials = ["paths"]
[[children]]
name = "Juno"
numbers = [8, 14]
sums_to = 10
lookalike = 5
materials = ["clip-cards"]
"""


def pack_of(folder: Path, text: str, family: str = "") -> Pack:
    """The pack of a text in the plain theme, beside a family's file if there is one."""
    if family:
        (folder / "family.toml").write_text(family, encoding="utf-8")
    file = folder / "pack.toml"
    file.write_text(f'theme = "{PLAIN_THEME}"\n{text}', encoding="utf-8")
    return read_pack(file, material_keys())


def shared(folder: Path, table: str, children: str = CHILDREN, top: str = "") -> ChildTrays:
    """What is shared of a pack that ends in a table [shared]."""
    return pack_of(folder, f"{top}{children}[shared]\n{table}\n").children[-1]


# --- what holds ------------------------------------------------------------------------------

SPANS = st.tuples(st.integers(0, 100), st.integers(0, 100)).map(sorted)


@given(st.lists(st.tuples(SPANS, st.none() | st.integers(2, 100), st.integers(1, 6)), min_size=2, max_size=4))
def test_numbers_hold_for_all_and_no_one_is_asked_too_much(tmp_path_factory, asked):
    """Numbers from the smallest first to the largest last, the largest sum, the easiest level of looking."""
    text = ""
    for name, (span, most, level) in zip(("Wren", "Juno", "Pim", "Zoë"), asked, strict=False):
        text += f'[[children]]\nname = "{name}"\nnumbers = {span}\nlookalike = {level}\n'
        text += f"sums_to = {most}\n" if most else ""
    child = shared(tmp_path_factory.mktemp("shared"), 'materials = ["paths"]', text).child
    sums = [most for _, most, _ in asked if most]

    assert child.numbers == (min(span[0] for span, _, _ in asked), max(span[1] for span, _, _ in asked))
    assert child.sums_to == max(sums, default=None)
    assert child.lookalike == min(level for _, _, level in asked)
    assert [user.numbers for user in child.users] == [tuple(span) for span, _, _ in asked]


def test_what_all_have_alike_holds_else_what_the_pack_says(tmp_path):
    """Two left hands share for the left; languages that differ give way to the pack's."""
    children = CHILDREN.replace("lookalike", 'hand = "left"\ngap = 3\nlookalike').replace(
        'name = "Juno"', 'name = "Juno"\nlanguages = ["pt-PT"]\ncounter = 25'
    )
    child = shared(tmp_path, 'materials = ["bingo"]', children, 'languages = ["es"]\n').child

    assert (child.hand, child.gap, child.languages, child.counter) == ("left", 3.0, ("es",), 25.0)


def test_the_table_itself_and_its_trays_have_the_last_word(tmp_path):
    """Keys of the table win over what the children have in common, a tray's over both."""
    item = shared(
        tmp_path,
        'numbers = [1, 20]\nlookalike = 6\nmaterials = ["bingo", { make = "clip-cards", set = "ours", '
        "numbers = [2, 4] }]",
    )

    assert (item.child.numbers, item.child.lookalike, item.child.sums_to) == ((1, 20), 6, 10)
    assert item.trays[1].child.numbers == (2, 4)
    assert {source.key: source.level for source in item.sources} == {
        "theme": "pack", "numbers": "shared", "sums_to": "children", "lookalike": "shared",
    }  # fmt: skip


def test_rungs_of_those_who_share(tmp_path):
    """Numbers from the rungs of all; where they stand on one rung, it is theirs together."""
    children = CHILDREN.replace("numbers = [1, 5]", 'start = "count-1-5"')
    differ = shared(tmp_path, 'materials = ["bingo"]', children).child
    alike = shared(
        tmp_path, 'materials = ["bingo"]', children.replace("numbers = [8, 14]", 'start = "count-1-5"')
    ).child

    assert (differ.numbers, differ.start) == ((1, 14), ())
    assert (alike.numbers, alike.start) == ((1, 5), ("count-1-5",))


def test_letters_of_all_are_theirs(tmp_path):
    """A file of letters that each of them names is read from where it lies."""
    (tmp_path / "own.toml").write_text('[letters]\nn = "9: M0 10 L0 0"\n', encoding="utf-8")
    children = CHILDREN.replace("lookalike", 'letters = "own.toml"\nlookalike')

    assert shared(tmp_path, 'materials = ["tracing"]', children).child.numerals.strokes == (
        ("n", "9: M0 10 L0 0"),
    )


# --- for whom --------------------------------------------------------------------------------


def test_a_table_without_names_is_for_all_children_of_the_pack(tmp_path):
    """All whom the pack makes anything for, in its order; else those whom `with` names, in that order."""
    more = CHILDREN + '[[children]]\nname = "Pim"\nmaterials = ["paths"]\n'
    everyone = shared(tmp_path, 'materials = ["dominoes"]', more)
    some = shared(tmp_path, 'with = ["Pim", "wren"]\nmaterials = ["dominoes"]', more)

    assert everyone.child.name == "Wren, Juno & Pim"
    assert some.child.name == "Pim & Wren"


def test_children_may_have_nothing_but_what_they_share(tmp_path):
    """A child of the family, or one of the pack without materials, comes in by the shared table."""
    family = '[[children]]\nname = "Wren"\nnumbers = [1, 5]\n[[children]]\nname = "Juno"\n'
    only = pack_of(tmp_path, '[shared]\nmaterials = ["dominoes"]\n', family)
    named = pack_of(
        tmp_path,
        '[[children]]\nname = "Pim"\n[shared]\nwith = ["Pim", "Juno"]\nmaterials = ["dominoes"]\n',
        family,
    )

    assert [item.child.name for item in only.children] == ["Wren & Juno"]
    assert [child.name for child in only.people] == ["Wren", "Juno"]
    assert [item.child.name for item in named.children] == ["Pim & Juno"]


def test_several_tables_for_several_groups(tmp_path):
    """Each has names, trays and files of its own; `name` says what a group is called."""
    pack = pack_of(
        tmp_path,
        CHILDREN
        + '[[children]]\nname = "Pim"\nmaterials = ["paths"]\n'
        + '[[shared]]\nmaterials = ["dominoes"]\nname = "Everyone"\n'
        + '[[shared]]\nwith = ["Wren", "Pim"]\nmaterials = ["bingo"]\n',
    )

    assert [item.child.name for item in pack.children[-2:]] == ["Everyone", "Wren & Pim"]
    names = {file.name.split("-card")[0] for file in plan(pack).files}
    assert names == {"wren", "juno", "pim", "everyone", "wren-pim"}


def test_who_uses_a_set(tmp_path):
    """A pack tells each child's trays, shared ones too, and who has a set, however names are written."""
    pack = pack_of(tmp_path, CHILDREN + '[shared]\nmaterials = ["dominoes"]\n')

    assert [each.set for each in pack.trays_of("wren")] == ["paths", "dominoes"]
    assert pack.who_uses("Dominoes") == ("Wren", "Juno")
    assert pack.who_uses("clip-cards") == ("Juno",)
    assert (pack.person("JUNO").numbers, pack.person("Pim")) == ((8, 14), None)


def test_a_childs_own_cards_stay_as_they_were(tmp_path):
    """With a shared table every child's own files keep their bytes."""
    runs = {"alone": CHILDREN, "sharing": CHILDREN + '[shared]\nmaterials = ["counting-cards"]\n'}
    for name, text in runs.items():
        pack_of(tmp_path, text)
        done = CliRunner().invoke(commands, ["make", str(tmp_path / "pack.toml"), "-o", str(tmp_path / name)])
        assert (done.exit_code, done.stderr) == (0, "")

    own = [path.name for path in (tmp_path / "alone").glob("*-card*.pdf")]
    assert len(own) == 3
    for name in own:
        assert (tmp_path / "alone" / name).read_bytes() == (tmp_path / "sharing" / name).read_bytes()


# --- who uses which numbers ------------------------------------------------------------------


@pytest.mark.parametrize("make", ["counting-cards", "clip-cards", "ten-frames", "dominoes", "number-line"])
def test_a_set_holds_the_numbers_that_are_told(make, tmp_path):
    """Every number that a label gives to a child stands in the set itself."""
    (ours,) = shared(tmp_path, f'materials = [{{ make = "{make}", set = "ours" }}]').trays
    facts = [piece.facts for piece in made_of(ours).pieces]
    names = ("quantity", "numeral", "filled", "values", "left", "right", "first", "last", "numbers")
    held: set[int] = set()
    for fact in facts:
        for name in names:
            value = getattr(fact, name, None)
            held |= set(value) if isinstance(value, tuple) else {value}
    if make == "number-line":
        held = set(range(min(held - {None}), max(held - {None}) + 1))

    told = [part for part in shared_numbers(ours).values() if part is not None]
    assert told
    for first, last in told:
        assert set(range(first, last + 1)) <= held


def test_the_words_for_those_who_share(tmp_path):
    """Ranges where they differ, nothing where all is alike, names where the set is called otherwise."""
    item = shared(
        tmp_path,
        'name = "Both"\nmaterials = ["clip-cards", { make = "counting-cards", set = "few", numbers = [4, 8] }, '
        '{ make = "counting-cards", set = "small", numbers = [2, 4] }, "paths"]',
        CHILDREN.replace('["paths"]', '["lacing"]').replace('["clip-cards"]', '["lacing"]'),
    )

    assert [users_words(each) for each in item.trays] == [
        "Wren 1–5, Juno 8–14", "Wren 4–5, Juno 8", "Wren 2–4", "Wren, Juno",
    ]  # fmt: skip
    alike = CHILDREN.replace("[8, 14]", "[1, 5]")
    assert [users_words(each) for each in shared(tmp_path, 'materials = ["bingo"]', alike).trays] == [""]


def test_only_a_whole_range_is_told():
    """A material that is about something else than numbers, or picks some, tells no range."""
    keys = {"numbers": [3, 9], "sums_to": 9}
    spans = {name: set_numbers(tray(name, keys)) for name in materials()}

    assert spans["counting-cards"] == (3, 9)
    assert [spans[name] for name in ("strips", "odd-one-out", "lacing", "paths", "shades")] == [None] * 5


def test_a_child_who_finds_none_of_its_numbers(tmp_path):
    """check says so: dominoes from the first number on do not reach the older child's."""
    pack = pack_of(tmp_path, CHILDREN + '[shared]\nmaterials = ["dominoes"]\n')

    assert "Wren & Juno's dominoes: none of Juno's numbers are in it" in map(str, plan(pack).pack.notes)


def test_labels_and_guide_name_those_who_share(tmp_path):
    """The label's text and the guide's, once, and the manifest's users."""
    import pypdfium2

    pack_of(tmp_path, CHILDREN + '[shared]\nmaterials = ["bingo"]\n')
    done = CliRunner().invoke(commands, ["make", str(tmp_path / "pack.toml"), "-o", str(tmp_path / "out")])
    assert (done.exit_code, done.stderr) == (0, "")

    def text(name: str) -> str:
        with pypdfium2.PdfDocument(tmp_path / "out" / name) as document:
            return "\n".join(page.get_textpage().get_text_bounded() for page in document)

    labels = "".join(text(path.name) for path in (tmp_path / "out").glob("wren-juno-*.pdf"))
    assert labels.count("Wren 1–5, Juno 8–14") == 1
    assert "3 trays for Wren and Juno," in text("guide.pdf").replace("\r\n", "\n")
    assert text("guide.pdf").count("numbers 1 to 14 (Wren 1–5, Juno 8–14)") == 2  # of them, of the tray
    told = json.loads((tmp_path / "out" / "manifest.json").read_text(encoding="utf-8"))
    assert [child.get("users") for child in told["settings"]["children"]] == [
        None, None, [{"name": "Wren", "numbers": [1, 5]}, {"name": "Juno", "numbers": [8, 14]}],
    ]  # fmt: skip


def test_loose_parts_are_told_of_for_the_youngest(tmp_path):
    """The caution for a small child stands at a shared tray if one of those who share is small."""
    from printkit.guide import guide_pages

    def cautions(text: str) -> int:
        made = plan(pack_of(tmp_path, text))
        pages = guide_pages(made.pack, made.sets, made.files)
        words = (mark.run.text for page in pages for mark in page.marks if hasattr(mark, "run"))
        return " ".join(words).count("Not for a child under three: point")

    table = '[shared]\nmaterials = ["bingo"]\n'
    assert cautions(CHILDREN + table) > cautions(CHILDREN.replace("[1, 5]", "[1, 6]") + table)


# --- bad input -------------------------------------------------------------------------------

MATERIALS = ", ".join(sorted(material_keys())[:-1]) + f" or {sorted(material_keys())[-1]}"
LIST = f"a list of {MATERIALS}, each a word or a table with make = ..."
ONE = '[[children]]\nname = "Wren"\nmaterials = ["paths"]\n'
TWO = ONE + ONE.replace("Wren", "Juno")

SENTENCES = {
    "a name that no child has": (
        TWO + '[shared]\nwith = ["Wren", "Jumo"]\nmaterials = ["bingo"]\n',
        "pack.toml, line 8 (shared.with): there is no child 'Jumo'; allowed: Wren or Juno; "
        "did you mean 'Juno'?",
    ),
    "one name": (
        TWO + '[shared]\nwith = ["Wren"]\nmaterials = ["bingo"]\n',
        "pack.toml, line 8, those who share (shared.with): found ['Wren']; "
        "allowed: a list of two or more children's names",
    ),
    "one child twice": (
        TWO + '[shared]\nwith = ["Wren", "wren"]\nmaterials = ["bingo"]\n',
        "pack.toml, line 8 (shared.with): names 'Wren' twice; allowed: each child once",
    ),
    "one child alone": (
        ONE + '[shared]\nmaterials = ["bingo"]\n',
        "pack.toml, line 4 (shared): is for Wren alone; "
        "allowed: two or more children; one child's materials stand in its own table",
    ),
    "no materials": (
        TWO + "[shared]\nnumbers = [1, 5]\n",
        f"pack.toml, line 7, Wren & Juno (shared): has no materials; allowed: {LIST}",
    ),
    "a misspelt key": (
        TWO + '[[shared]]\nnummbers = [1, 5]\nmaterials = ["bingo"]\n',
        "pack.toml, line 8, Wren & Juno (shared[0].nummbers): 'nummbers' is no key here; allowed: {keys}; "
        "did you mean 'numbers'?",
    ),
    "no table": (
        "shared = 3\n" + TWO,
        "pack.toml, line 1 (shared): found 3; "
        "allowed: a table [shared] with materials, or several tables [[shared]]",
    ),
    "a name that no child has, and nobody blamed for it": (
        '[[children]]\nname = "Wren"\n[shared]\nwith = ["Wren", "Jumo"]\nmaterials = ["bingo"]\n',
        "pack.toml, line 4 (shared.with): there is no child 'Jumo'; allowed: Wren",
    ),
    "names too long together": (
        "".join(ONE.replace("Wren", letter * 20) for letter in "abc") + '[shared]\nmaterials = ["bingo"]\n',
        'pack.toml, line 10 (shared): the names are too long together; allowed: name = "..." in this table',
    ),
    "two groups of one name": (
        TWO + '[[shared]]\nmaterials = ["bingo"]\n[[shared]]\nmaterials = ["dominoes"]\n',
        "pack.toml, line 9 (shared[1]): 'Wren & Juno' and 'Wren & Juno' would have files of one name; "
        'allowed: name = "..." with a name of its own',
    ),
    "a group with a child's name": (
        TWO + '[shared]\nname = "wren"\nmaterials = ["bingo"]\n',
        "pack.toml, line 8 (shared.name): 'Wren' and 'wren' would have files of one name; "
        'allowed: name = "..." with a name of its own',
    ),
    "a set that a child has already": (
        TWO + '[shared]\nmaterials = [{ make = "bingo", set = "Paths" }]\n',
        "pack.toml, line 8, Wren & Juno's Paths (shared.materials[0].set): Wren and Juno have a set 'Paths' too; "
        'allowed: set = "..." with a name of its own',
    ),
    "a material that cannot be made": (
        TWO + '[shared]\nmaterials = ["strips"]\n',
        "pack.toml, line 8, Wren & Juno's strips (shared.materials[0]): strips need sums_to, the largest sum; "
        "allowed: sums_to = a whole number from 2 to 100",
    ),
}


@pytest.mark.parametrize("kind", SENTENCES)
def test_bad_input_is_told_in_a_whole_sentence(kind, tmp_path):
    """Exit code 2 and the very sentence; nothing is written."""
    from printkit.errors import listing
    from printkit.pack.keys import shared_checks

    text, sentence = SENTENCES[kind]
    (tmp_path / "pack.toml").write_text(text, encoding="utf-8")
    result = CliRunner().invoke(commands, ["make", str(tmp_path / "pack.toml")])

    assert result.stderr == sentence.replace("{keys}", listing(sorted(shared_checks()))) + "\n"
    assert (result.exit_code, result.stdout) == (2, "")
    assert [path.name for path in tmp_path.iterdir()] == ["pack.toml"]


@given(st.data(), legal_pack(themes=(PLAIN_THEME,)), st.sampled_from(list(materials())))
@settings(max_examples=15)
def test_a_legal_table_is_planned_or_refused_in_words(data, made, kind):
    """Any legal keys and settings of those who share: planned, with their users, or told with the place."""
    names = [child["name"] for child in made["children"]]
    assume(len(names) > 1)
    keys = data.draw(st.fixed_dictionaries({}, optional=pack_keys()))
    entry = data.draw(legal_entry(kind, PLAIN_THEME))
    pack = read({**made, "shared": {**keys, "materials": [{**entry, "set": "for all of us"}]}})

    assert [user.name for user in pack.children[-1].child.users] == names
    assert all(pack.trays_of(name)[-1].set == "for all of us" for name in names)
    try:
        sets = plan(replace(pack, children=pack.children[-1:])).sets
    except PrintkitError as error:
        for problem in error.problems:
            assert problem.place.startswith("pack.toml, line ")
    else:
        assert [item.users for item in sets] == [tuple(names)]
