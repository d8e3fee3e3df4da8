"""Facts that are marked as sparse stand in the manifest only where they say something."""

import json

import pytest
from strategies import read

from printkit.build import plan
from printkit.manifest import FileRecord, manifest


def facts_of(entry, **child):
    """The facts that the manifest of a small pack lists."""
    keys = {"name": "Wren", "theme": "rock-pool", "numbers": [2, 2], "sums_to": 2, **child}
    made = plan(read({"children": [{**keys, "materials": [entry]}]}))
    records = [
        FileRecord(name=file.name, content="", pages=file.pages, paper=file.paper, sheet_file=file)
        for file in made.files
    ]
    told = json.loads(manifest(made.pack, "a test", records, {record.name: "" for record in records}))
    pieces = [piece for file in told["files"] for page in file["pages"] for piece in page["pieces"]]
    return [piece["facts"] for piece in pieces if piece.get("facts") and "label" not in piece["facts"]]


@pytest.mark.parametrize(
    ("entry", "facts"),
    [
        ({"make": "counting-cards"}, {"words": {"es": "dos"}}),
        ({"make": "counting-cards", "words": "none"}, {"words": {}}),
        (
            {"make": "counting-cards", "words": "phrase", "motif": "sea-star"},
            {"words": {"es": "dos"}, "phrases": {"es": "dos estrellas de mar"}},
        ),
        ({"make": "strips"}, {}),
        ({"make": "strips", "words": "number"}, {"words": {"es": "dos"}}),
        (
            {"make": "strips", "words": "phrase", "motif": "crab"},
            {"words": {"es": "dos"}, "phrases": {"es": "dos cangrejos"}},
        ),
    ],
)
def test_phrases_stand_in_the_manifest_where_there_are_any(entry, facts):
    """Bare words always beside them; nothing is listed that the piece does not carry."""
    (found,) = facts_of(entry, languages=["es"])
    assert {key: value for key, value in found.items() if key in ("words", "phrases")} == facts


def test_notes_of_a_tray_say_whose_it_is():
    """What a theme has no names for is told with the child and the set, by check."""
    pack = read(
        {
            "languages": ["en", "cs"],
            "children": [
                {
                    "name": "Wren",
                    "materials": [{"make": "counting-cards", "words": "phrase", "motif": "crab"}],
                }
            ],
        }
    )
    assert plan(pack).pack.notes == (
        "Wren's counting-cards: number and name are not put together in cs, so the number word stands alone",
    )
