"""The keys `words`, `digits` and `unreviewed`: what a child's words and digits are in the end."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import PLAIN_THEME

from printkit.checks import OneOf, setting
from printkit.errors import PrintkitError
from printkit.letters import Numerals
from printkit.manifest import settings
from printkit.materials import material_keys
from printkit.pack import Child, MaterialKeys
from printkit.pack.reader import read_pack
from printkit.words import choices, languages, spell


@dataclass(frozen=True, kw_only=True, slots=True)
class OwnWords:
    """Settings of a material that has a `words` of its own."""

    words: str = setting("number", OneOf(("number", "none")), "what is said")


def pack_of(folder: Path, text: str, overrides: dict[str, Any] | None = None) -> Any:
    """The pack of a text, its material `labels` with a setting `words` of its own."""
    file = folder / "pack.toml"
    file.write_text(f'theme = "{PLAIN_THEME}"\n{text}', encoding="utf-8")
    keys = {**material_keys(), "labels": MaterialKeys(settings=OwnWords, stock="card")}
    return read_pack(file, keys, overrides)


def told(folder: Path, text: str, overrides: dict[str, Any] | None = None) -> list[str]:
    """What is said of a text that is refused."""
    with pytest.raises(PrintkitError) as caught:
        pack_of(folder, text, overrides)
    return [str(problem) for problem in caught.value.problems]


def tray_children(folder: Path, text: str, overrides: dict[str, Any] | None = None) -> list[Child]:
    """The child as each tray of the first one sees it."""
    return [tray.child for tray in pack_of(folder, text, overrides).children[0].trays]


CHILD = '[[children]]\nname = "Wren"\n'


def test_a_child_spells_as_its_family_chose(tmp_path):
    """The pack's choices reach the child, who adds and changes some; a tray changes them for itself."""
    plain, feminine = tray_children(
        tmp_path,
        'words.fr = "1990"\nwords.nb = "syv"\n'
        + CHILD
        + 'words = { NB = "sju", es = "masculine" }\n'
        + 'materials = ["tracing", { make = "clip-cards", words.fr = "feminine" }]\n',
    )
    assert plain.words == (("es", "un"), ("fr", "1990"), ("nb", "sju"))
    assert (plain.spelled("fr", 21), plain.spelled("es", 21), plain.spelled("nb", 7)) == (
        "vingt-et-un",
        "veintiún",
        "sju",
    )
    assert feminine.spelled("fr", 21) == "vingt et une"
    assert plain.spelled("de", 100) == "einhundert"


@given(st.data())
def test_any_choice_can_be_written_in_a_pack_file(tmp_path_factory, data):
    """Each choice of the table, by its name or another word, is read and spelled."""
    tag = data.draw(st.sampled_from([item.tag for item in languages() if choices(item.tag)]))
    choice = data.draw(st.sampled_from(choices(tag)))
    written = data.draw(st.sampled_from((choice.name, *choice.also)))
    (child,) = tray_children(
        tmp_path_factory.mktemp("pack"),
        CHILD + f'words."{tag}" = "{written}"\nmaterials = ["tracing"]\n',
    )
    assert child.words == ((tag, choice.name),)
    assert all(child.spelled(tag, number) == spell(tag, number, choice.name) for number in range(101))


def test_a_materials_own_setting_wins_over_the_childs_key(tmp_path):
    """`words` in the table of a material that has such a setting is that setting; the choices stay."""
    (tray,) = (
        pack_of(
            tmp_path,
            'words.fr = "1990"\n' + CHILD + 'materials = [{ make = "labels", words = "none" }]\n',
        )
        .children[0]
        .trays
    )
    assert (tray.settings.words, tray.child.words) == ("none", (("fr", "1990"),))
    assert "materials[0].words" in tray.place("words")


def test_a_material_without_its_setting_named_does_not_take_the_childs(tmp_path):
    """The child's choices are no setting of a material, nor is their line its place."""
    text = CHILD + 'words.fr = "1990"\nmaterials = ["labels"]\n'
    (tray,) = pack_of(tmp_path, text).children[0].trays
    assert tray.settings.words == "number" and tray.place("words") == tray.place()


def test_choices_in_the_table_of_such_a_material_are_told_their_place(tmp_path):
    """A table of choices where the material wants a word is sent to the child."""
    text = CHILD + 'materials = [{ make = "labels", words = { fr = "1990" } }]\n'
    assert told(tmp_path, text) == [
        "pack.toml, line 4, Wren's labels (children[0].materials[0].words): found { fr = '1990' }, which is "
        "chosen for a child or the whole pack, not for one material; allowed: 'words' as a table beside the "
        "child's name or at the top of the file, here number or none"
    ]


def test_native_digits_are_those_of_the_leading_language(tmp_path):
    """The numerals hold the digits of the first language, for a tray those of its own, and their forms."""
    children = tray_children(
        tmp_path,
        'languages = ["en", "fa"]\nnumerals.seven = "barred"\n'
        + CHILD
        + 'languages = ["fa", "en"]\ndigits = "native"\nmaterials = ["tracing", '
        + '{ make = "clip-cards", languages = ["th"] }, '
        + '{ make = "odd-one-out", languages = ["he"], digits = "western" }]\n',
    )
    assert [child.numerals.digits for child in children] == ["۰۱۲۳۴۵۶۷۸۹", "๐๑๒๓๔๕๖๗๘๙", Numerals().digits]
    assert all(child.numerals.seven == "barred" for child in children)


def test_digits_are_western_unless_asked_for(tmp_path):
    """A language with digits of its own is printed with western ones by default."""
    (child,) = tray_children(tmp_path, 'languages = ["ar"]\n' + CHILD + 'materials = ["tracing"]\n')
    assert (child.digits, child.numerals) == ("western", Numerals())


def test_native_digits_need_a_leading_language_that_has_them(tmp_path):
    """The place is where `digits` stands; what the pack says alone is judged by each child."""
    head = 'digits = "native"\n'
    assert tray_children(tmp_path, head + CHILD + 'languages = ["ar"]\nmaterials = ["tracing"]\n')
    (said,) = told(tmp_path, head + CHILD + 'materials = ["tracing", "clip-cards"]\n' + CHILD.replace(
        "Wren", "Juno") + 'languages = ["ar"]\nmaterials = ["tracing"]\n')  # fmt: skip
    assert said.startswith(
        "pack.toml, line 2 (digits): found 'native', but English, which leads, has no digits"
    )
    (said,) = told(
        tmp_path,
        CHILD + 'languages = ["ar"]\ndigits = "native"\n'
        'materials = [{ make = "tracing", languages = ["he"] }]\n',
    )
    assert said.startswith("pack.toml, line 5, Wren (children[0].digits): found 'native', but Hebrew")


WAITS = "waits for a native reader: the number words in Bangla are not settled"


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ('languages = ["bn"]\n' + CHILD + 'materials = ["tracing"]\n', "line 2 (languages)"),
        (
            CHILD + 'languages = ["en", "bn"]\nmaterials = ["tracing"]\n',
            "line 4, Wren (children[0].languages)",
        ),
        (
            CHILD + 'materials = [{ make = "tracing", languages = ["bn"] }]\n',
            "line 4, Wren's tracing (children[0].materials[0].languages)",
        ),
        (
            'unreviewed = true\nlanguages = ["bn"]\n'
            + CHILD
            + 'unreviewed = false\nmaterials = ["tracing"]\n',
            "line 3 (languages)",
        ),
    ],
)
def test_a_language_that_waits_for_a_reader_is_refused_once(tmp_path, text, place):
    """Without the line that takes the risk, the language is refused where it is named."""
    assert told(tmp_path, text) == [
        f"pack.toml, {place}: 'bn' {WAITS}; allowed: the line unreviewed = true beside it, "
        "to print them all the same"
    ]


def test_a_waiting_language_on_the_command_line_is_refused_too(tmp_path):
    """The option is named, and the pack file's line lets it pass."""
    text = CHILD + 'materials = ["tracing"]\n'
    (said,) = told(tmp_path, text, {"languages": ["bn"]})
    assert said.startswith(f"--languages: 'bn' {WAITS}")
    assert tray_children(tmp_path, text + "unreviewed = true\n", {"languages": ["bn"]})


def test_a_waiting_language_is_printed_when_the_pack_says_so(tmp_path):
    """unreviewed = true in pack, child or tray lets its languages pass."""
    for head, own, at in (
        ("unreviewed = true\n", "", ""),
        ("", "unreviewed = true\n", ""),
        ("", "", "unreviewed = true, "),
    ):
        text = f'{head}{CHILD}{own}materials = [{{ make = "tracing", {at}languages = ["te", "am"] }}]\n'
        (child,) = tray_children(tmp_path, text)
        assert child.languages == ("te", "am") and child.unreviewed


def test_the_manifest_says_the_keys_as_a_pack_file_does(tmp_path):
    """Choices are a table, digits a word, and the numerals have the forms alone."""
    pack = pack_of(
        tmp_path,
        'languages = ["ar"]\ndigits = "native"\nwords.fr = "1990"\n' + CHILD + 'materials = ["tracing"]\n',
    )
    (child,) = settings(pack)["children"]
    assert (child["words"], child["digits"], child["unreviewed"]) == ({"fr": "1990"}, "native", False)
    assert child["numerals"] == {"one": "flag", "four": "closed", "seven": "plain"}
