"""No word of the guide stands in code: a guide in a made-up language has none of English left."""

import re
from typing import Any

from guide.guides import summer
from test_catalogues import sentences

from printkit.guide.content import guide
from printkit.labels import storage_label
from printkit.materials import Room
from printkit.pieces import Text
from printkit.sheets.layout import SetPieces, sheet_files
from printkit.texts import Catalogue, catalogue

KEPT = re.compile(r"`[^`]*`|\{[^}]*\}|\*\*|\bmm\b")
LETTERS = re.compile(r"[^\W\d_]")
WORDS = re.compile(r"[^\W\d_]+")
PARTS = ("comma", "before", "soft")


def made_up(value: Any) -> Any:
    """Sentences with x for each letter, but for values, settings and units."""
    if isinstance(value, dict):
        return {key: part if key in PARTS else made_up(part) for key, part in value.items()}
    if isinstance(value, list):
        return [made_up(line) for line in value]
    kept = [found[0] for found in KEPT.finditer(value)]
    others = [LETTERS.sub("x", part) for part in KEPT.split(value)]
    return "".join(part for pair in zip(others, [*kept, ""], strict=True) for part in pair)


MADE_UP = Catalogue(
    language="es", entries=tuple((key, made_up(part)) for key, part in catalogue("en").entries)
)


def said(marks) -> set[str]:
    """The words of marks that are not made up."""
    runs = [mark.run.text for mark in marks if isinstance(mark, Text)]
    return {word.lower() for run in runs for word in WORDS.findall(run) if set(word.lower()) != {"x"}}


def names() -> set[str]:
    """What a pack itself is called by, settings, and numbers in words: these stay as they are."""
    made = summer()
    english = sentences(dict(catalogue("en").entries))
    codes = [code for _, line in english for code in re.findall("`.*?`", str(line))]
    own = [made.pack.title, "mm", *codes, *(file.name for file in made.files)]
    for item in made.sets:
        child = item.tray.child
        own += [child.name, item.tray.set, item.tray.material, child.theme.title("es")]
        own += [child.spelled("es", n) for n in range(21)]
    return {word.lower() for name in (*own, "inglés", "portugués (Portugal)") for word in WORDS.findall(name)}


def test_the_guide_has_no_words_of_its_own():
    """Every word of the guide comes from the catalogue, or from the pack."""
    made = summer()
    pages = guide(made.pack, made.sets, made.files, MADE_UP)

    assert set().union(*(said(page.marks) for page in pages)) <= names()


def test_labels_have_no_words_of_their_own():
    """So does every word of the labels for bags and trays."""
    made = summer()
    for item in made.sets:
        label = storage_label(item.tray, item.own, item.needs, Room(190, 269), MADE_UP, made.pack.title)

        assert said(label.front.marks) <= names()


def test_sheets_have_no_words_of_their_own():
    """So does every word that stands on sheets beside the pieces."""
    made = summer()
    wrens = [item for item in made.sets if item.tray.child.name == "Wren"]
    sets = [SetPieces(tray=item.tray, pieces=item.own) for item in wrens]
    files = tuple(sheet_files("wren", sets, MADE_UP))

    assert files
    for file in files:
        for page in file.pages:
            assert said(page.marks) <= names()
