"""Edits keep what they do not change: comments, order, layout."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from printkit.web import edits
from printkit.web.edits import UNSET

SAMPLES = Path(__file__).parents[2] / "samples"
PACK = b"""\
# Our shelf.
title     = "By the pool"      # where we were
flip      = { plain = "long", card = "hand" }
words.es  = "feminine"

[[children]]                   # three
name      = "Wren"
numbers   = [1, 4]
materials = [
    "counting-cards",          # the first
    { make = "clip-cards", choices = 4 },
]

[[children]]
name      = "Juno"
materials = ["tiles"]
"""


def changed_lines(before, after):
    """The lines that only one of two texts has."""
    old, new = before.decode().splitlines(), after.decode().splitlines()
    return [line for line in old if line not in new], [line for line in new if line not in old]


@pytest.mark.parametrize(
    ("changes", "gone", "come"),
    [
        (
            {("title",): "Süd"},
            ['title     = "By the pool"      # where we were'],
            ['title     = "Süd"      # where we were'],
        ),
        ({("margin",): 12.5}, [], ["margin    = 12.5"]),
        ({("children", 0, "numbers"): [1, 5]}, ["numbers   = [1, 4]"], ["numbers   = [1, 5]"]),
        ({("children", 0, "sums_to"): 5}, [], ["sums_to   = 5"]),
        (
            {("children", 0, "materials", 0, "layout"): "back"},
            ['    "counting-cards",          # the first'],
            ['    { make = "counting-cards", layout = "back" },          # the first'],
        ),
        (
            {("children", 0, "materials", 1, "choices"): UNSET},
            ['    { make = "clip-cards", choices = 4 },'],
            ['    { make = "clip-cards" },'],
        ),
        (
            {("flip", "plain"): "short"},
            ['flip      = { plain = "long", card = "hand" }'],
            ['flip      = { plain = "short", card = "hand" }'],
        ),
        ({("words", "es"): "masculine"}, ['words.es  = "feminine"'], ['words.es  = "masculine"']),
        ({("children", 1, "words", "fr"): "1990"}, [], ['words     = { fr = "1990" }']),
    ],
)
def test_one_line(changes, gone, come):
    """A change touches its own line only."""
    assert changed_lines(PACK, edits.changed(PACK, changes)) == (gone, come)


def test_new_keys_stand_before_the_trays():
    """A child's new key comes before its list of trays, which may be long."""
    lines = edits.changed(PACK, {("children", 0, "sums_to"): 5}).decode().splitlines()

    assert lines.index("sums_to   = 5") < lines.index("materials = [")


def test_trays_come_go_and_move():
    """A tray is added at the end, taken out, moved; the lines of the others stay."""
    assert changed_lines(PACK, edits.tray_added(PACK, ("children", 0), "pairs", {})) == ([], ['    "pairs",'])
    assert changed_lines(PACK, edits.tray_removed(PACK, ("children", 0), 1)) == (
        ['    { make = "clip-cards", choices = 4 },'],
        [],
    )
    moved = tomllib.loads(edits.tray_moved(PACK, ("children", 0), 0, 1).decode())
    assert moved["children"][0]["materials"][1] == "counting-cards"


def test_children_come_and_go():
    """A child is added behind the last and taken out with its trays."""
    more = edits.child_added(PACK, {"name": "Pim", "numbers": [1, 3], "materials": ["tiles"]})
    assert more.startswith(PACK)
    assert [child["name"] for child in tomllib.loads(more.decode())["children"]] == ["Wren", "Juno", "Pim"]
    assert b"Wren" not in edits.child_removed(PACK, 0)


@pytest.mark.parametrize("ending", [b"\n", b"\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_ends_and_mark(ending, mark):
    """Line ends of Windows and a byte order mark stay."""
    data = mark + PACK.replace(b"\n", ending)

    after = edits.changed(data, {("children", 0, "sums_to"): 5})

    assert after.startswith(mark)
    assert after.count(b"\r\n") == (after.count(b"\n") if ending == b"\r\n" else 0)


@pytest.mark.parametrize("sample", sorted(SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_samples(sample):
    """On each sample pack every edit says what it should and no comment is lost."""
    data = sample.read_bytes()
    for after in (
        edits.changed(data, {("children", 0, "numbers"): [2, 3], ("gap",): 2}),
        edits.tray_added(data, ("children", 0), "tiles", {"set": "more"}),
        edits.tray_moved(data, ("children", 0), 0, 2),
        edits.child_added(data, {"name": "New", "materials": ["tiles"]}),
    ):
        assert [line for line in data.splitlines() if b"#" in line] == [
            line for line in after.splitlines() if b"#" in line
        ]


@settings(max_examples=15)
@given(text=st.text(max_size=40))
def test_any_text(text):
    """Whatever is typed is a text in the file, never more."""
    if any("\ud800" <= sign <= "\udfff" for sign in text):
        return
    after = edits.changed(PACK, {("children", 0, "name"): text, ("children", 0, "materials", 1, "set"): text})

    read = tomllib.loads(after.decode())
    assert read["children"][0]["name"] == text
    assert read["children"][0]["materials"][1]["set"] == text
    assert len(read["children"]) == 2
