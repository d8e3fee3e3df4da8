"""Labels and name cards: each picture beside its own name, in threes that belong together."""

import pytest
from faces import assert_inside, assert_mark_is_clear, pictures, texts
from strategies import PLAIN_THEME, made_of, room_of, tray

from printkit.pictures import load_theme
from printkit.sheets import turned_to_fit


def shown(piece):
    """The names of the drawings on a piece and its texts."""
    return [mark.drawing.name for mark in pictures(piece.front)], [
        text.run.text for text in texts(piece.front)
    ]


def test_each_motif_has_three_cards():
    """Picture and name, the picture alone, the name alone: the same picture and the same names."""
    made = made_of(tray("labels", {"languages": ["en", "es"], "theme": PLAIN_THEME}))
    by_kind = {}
    for piece in made.pieces:
        by_kind.setdefault(piece.facts.motif, {})[piece.facts.kind] = piece

    assert list(by_kind) == ["disc", "square", "brick", "tower", "corner", "flag"]
    for motif, cards in by_kind.items():
        assert list(cards) == ["both", "picture", "name"]
        drawn, words = shown(cards["both"])
        assert drawn == [f"plain/{motif} color"]
        assert words == list(cards["both"].facts.names.values())
        assert shown(cards["picture"]) == (drawn, [])
        assert shown(cards["name"]) == ([], words)
    assert by_kind["brick"]["both"].facts.names == {"en": "brick", "es": "ladrillo"}


def test_a_name_is_as_large_on_both_of_its_cards():
    """The word beside the picture and the word alone can be laid on each other."""
    made = made_of(tray("labels", {"languages": ["en", "pl"], "theme": "kitchen-garden"}))
    sizes = {}
    for piece in made.pieces:
        for n, text in enumerate(texts(piece.front)):
            sizes.setdefault(n, set()).add(text.run.size)

    assert [len(found) for found in sizes.values()] == [1, 1]


@pytest.mark.parametrize("form", ["tray", "shelf"])
def test_a_label_has_picture_and_names(form):
    """One label a motif, the picture left of its names, nothing touching."""
    made = made_of(tray("labels", {"languages": ["de", "fr"], "theme": "first-snow"}, form=form))
    theme = load_theme("first-snow", None, "theme")

    assert [piece.facts.motif for piece in made.pieces] == [motif.key for motif in theme.motifs]
    for piece, motif in zip(made.pieces, theme.motifs, strict=True):
        assert piece.facts.names == {"de": motif.name("de"), "fr": motif.name("fr")}
        (picture,) = pictures(piece.front)
        assert all(picture.bounds().right < text.bounds().left for text in texts(piece.front))


@pytest.mark.parametrize("form", ["cards", "tray", "shelf"])
@pytest.mark.parametrize("paper", ["a4", "letter", "a5", [150, 200]])
@pytest.mark.parametrize("size", [None, "small", "medium"])
def test_every_label_keeps_its_distances(form, paper, size):
    """One hairline, all else 6 mm inside the cut, the set mark clear; what fits no sheet is said."""
    asked = tray(
        "labels",
        {"paper": paper, "languages": ["pt-BR", "pl"], "theme": "kitchen-garden", "ink": "outline"},
        form=form,
        **({"size": size} if size else {}),
    )
    made = made_of(asked)
    if size and made.problems:
        assert "larger than the sheet" in made.problems[0].found
        return
    assert made.problems == ()
    for piece in made.pieces:
        assert turned_to_fit(piece, room_of(asked)) is not None
        assert_inside(piece)
        assert_mark_is_clear(piece, backs=False)


def test_only_the_motifs_that_were_named():
    """In the order of the pack file, one or several."""
    several = made_of(tray("labels", {"theme": PLAIN_THEME}, form="tray", motifs=["flag", "disc"]))
    one = made_of(tray("labels", {"theme": PLAIN_THEME}, form="tray", motifs="disc"))

    assert [piece.facts.motif for piece in several.pieces] == ["flag", "disc"]
    assert [piece.facts.motif for piece in one.pieces] == ["disc"]


def test_a_language_without_names_is_told():
    """Where the theme has no name in one of two languages the other stands alone; else English does."""
    both = made_of(tray("labels", {"theme": "kitchen-garden", "languages": ["fi", "es"]}, motifs="bee"))
    none = made_of(tray("labels", {"theme": "kitchen-garden", "languages": ["fi"]}, motifs="bee"))

    assert both.notes == none.notes == ("the theme has no name for bee in fi",)
    assert both.pieces[0].facts.names == {"es": "abeja"}
    assert none.pieces[0].facts.names == {"en": "bee"}


def test_a_folder_without_names_uses_those_of_its_files(tmp_path):
    """A picture that nobody named is called what its file is called, without a complaint."""
    source = load_theme(PLAIN_THEME, tmp_path, "theme").folder / "disc.svg"
    (tmp_path / "sea_glass.svg").write_bytes(source.read_bytes())
    made = made_of(tray("labels", {"theme": str(tmp_path), "languages": ["cs"]}))

    assert made.notes == ()
    assert made.pieces[0].facts.names == {"cs": "sea glass"}


@pytest.mark.parametrize(
    ("wrong", "found", "allowed", "nearest"),
    [
        (
            {"motifs": ["disc", "squere"]},
            "the theme has no motif 'squere'",
            "disc, square, brick, tower, corner or flag",
            "square",
        ),
        (
            {"form": "tray", "size": [30, 20]},
            "picture and name do not fit a label of 30 x 20 mm",
            "a larger size, or shorter names in theme.toml",
            "",
        ),
        (
            {"size": [40, 30]},
            "names of 2.4 mm do not fit a card of 40 x 30 mm",
            "a larger size, or shorter names in theme.toml",
            "",
        ),
    ],
)
def test_what_cannot_be_made_is_told(wrong, found, allowed, nearest):
    """A motif that is not there, a label too small for its words."""
    (problem,) = made_of(tray("labels", {"theme": PLAIN_THEME}, **wrong)).problems

    assert (problem.found, problem.allowed, problem.nearest) == (found, allowed, nearest)
