"""Labels for bags and trays: true, small enough, everything well inside the cut."""

from itertools import combinations

import pytest
from guide.guides import summer
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, read, room_of, tray

from printkit.labels import (
    LabelFacts,
    gather_words,
    gathered,
    length,
    lengths,
    motif_of,
    range_words,
    set_title,
    sides,
    storage_label,
)
from printkit.materials import Need, Room
from printkit.pieces import Box, Picture, Text
from printkit.texts import catalogue
from printkit.units import Rect

ENGLISH = catalogue("en")


def label(asked, room=None, title="Rock pool summer", **more):
    """The label of a tray."""
    made = made_of(asked)
    pieces, needs = more.get("pieces", made.pieces), more.get("needs", made.needs)
    return storage_label(asked, pieces, needs, room or room_of(asked), ENGLISH, title)


def words(piece):
    """The lines of a label from top to bottom."""
    texts = [mark for mark in piece.front.marks if isinstance(mark, Text)]
    return [mark.run.text for mark in sorted(texts, key=lambda mark: mark.y)]


def test_a_label_says_whose_what_how_many():
    """Pack, child, set, range and number of pieces, what to gather."""
    asked = tray("counting-cards", {"numbers": [1, 5]}, things="places", set="count out")

    assert words(label(asked)) == [
        "Rock pool summer",
        "Wren",
        "Counting cards: count out",
        "numbers 1 to 5 · 5 pieces",
        "Gather 5 counters of 22 mm",
    ]


def test_long_lines_are_parted_rather_than_small():
    """What a set is about, too long to be read on one line, stands on two."""
    asked = tray("odd-one-out", {"lookalike": 4, "theme": "rock-pool"})

    assert words(label(asked))[3:] == ["a part missing or changed", "(level 4 of 6) · 8 pieces"]


@pytest.mark.parametrize("name", ["Wren", "Juno"])
def test_labels_of_a_child_have_pictures_of_their_own(name):
    """While the theme has motifs left no two labels of a child show the same one."""
    labels = [
        item.piece
        for file in summer().files
        for page in file.pages
        if page.side == "front"
        for item in page.placed
        if isinstance(item.piece.facts, LabelFacts) and item.piece.child == name
    ]
    marks = [mark for piece in labels for mark in piece.front.marks if isinstance(mark, Picture)]
    motifs = {motif_of(mark.drawing) for mark in marks}

    assert len(motifs) == min(len(labels), len(summer().pack.children[0].child.theme.motifs))


def test_a_label_is_a_piece_of_its_set():
    """It carries the tray's child, set, material and stock, and facts of its own."""
    asked = tray("clip-cards", {"numbers": [1, 3]}, stock="plain", set="clips")
    made = label(asked)

    assert (made.child, made.set, made.material, made.key) == ("Wren", "clips", "clip-cards", "label")
    assert (made.stock, made.back, made.cut) == ("plain", None, True)
    assert made.facts == LabelFacts(label="clips", pieces=3, gather={"pegs": 3})


@given(st.integers(0, 7))
def test_a_label_counts_the_pieces_it_is_given(count):
    """When only some pieces are printed the label counts those."""
    asked = tray("counting-cards", {"numbers": [1, 7]})
    made = label(asked, pieces=made_of(asked).pieces[:count])

    assert made.facts.pieces == count
    assert f"{count} piece{'' if count == 1 else 's'}" in words(made)[3]


@settings(max_examples=60)
@given(
    st.floats(40, 280),
    st.floats(40, 400),
    st.sampled_from(("Wren", "Jürgen-Ågnés", "W" * 60)),
    st.sampled_from(("counting-cards", "clip-cards")),
)
def test_everything_lies_six_millimeters_inside_the_cut(width, height, name, material):
    """In any room a label fits it; its hairline keeps 4 mm from the cut and the rest 6 mm."""
    asked = tray(material, {"name": name, "numbers": [1, 3]}, set=name[::-1])
    made = label(asked, Room(width, height), title="A season with a rather long name, in full")
    face = Rect(0, 0, made.width, made.height)

    assert max(made.width, made.height) <= max(width, height)
    assert min(made.width, made.height) <= min(width, height)
    assert (made.width, made.height) <= (92, 44)
    for mark in made.front.marks:
        assert face.inset(3.8 if isinstance(mark, Box) else 6).holds(mark.bounds(), 0.01)


@settings(max_examples=40)
@given(st.floats(40, 280), st.floats(40, 400), st.sampled_from(("Wren", "Ågnés", "W" * 60)))
def test_nothing_on_a_label_overlaps(width, height, name):
    """Lines and picture keep clear of each other."""
    asked = tray("clip-cards", {"name": name, "numbers": [1, 3]})
    made = label(asked, Room(width, height))
    boxes = [mark.bounds() for mark in made.front.marks if isinstance(mark, Text | Picture)]

    assert not any(a.meets(b) for a, b in combinations(boxes, 2))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_two_labels_stand_side_by_side(paper):
    """Between margins of 10 mm two labels lie beside each other."""
    asked = tray("counting-cards", {"paper": paper})

    assert 2 * label(asked).width <= room_of(asked).width


def test_a_label_shows_a_picture_of_its_set():
    """A child who cannot read yet finds the tray by the thing that is counted in it."""
    asked = tray("counting-cards", {"numbers": [1, 3]})
    pictures = [mark for mark in label(asked).front.marks if isinstance(mark, Picture)]
    counted = {
        mark.drawing
        for piece in made_of(asked).pieces
        for mark in piece.front.marks
        if isinstance(mark, Picture)
    }

    assert len(pictures) == 1
    assert pictures[0].drawing in counted


@pytest.mark.parametrize(
    ("material", "settings"),
    [
        ("counting-cards", {"things": "places"}),
        ("counting-cards", {}),
        ("tracing", {}),
        ("strips", {"help": "none"}),
        ("clip-cards", {}),
        ("odd-one-out", {}),
    ],
)
def test_every_label_has_a_picture_clear_of_its_frame(material, settings):
    """A set that shows no picture takes the theme's first; it keeps 2 mm from the frame."""
    child = {"numbers": [1, 3], "sums_to": 5, "lookalike": 3}
    marks = label(tray(material, child, **settings)).front.marks
    (frame,) = (mark.bounds() for mark in marks if isinstance(mark, Box))
    pictures = [mark.bounds() for mark in marks if isinstance(mark, Picture)]

    assert len(pictures) == 1
    assert frame.inset(2.0).holds(pictures[0])


# --- words -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("entry", "child", "said"),
    [
        ("counting-cards", {"numbers": [1, 5]}, "numbers 1 to 5"),
        ("counting-cards", {"numbers": [4, 4]}, "the number 4"),
        ("tracing", {"numbers": [8, 14]}, "numbers 8 to 14"),
        ({"make": "strips"}, {"sums_to": 5}, "sums up to 5"),
        ({"make": "strips", "operation": "subtract"}, {"sums_to": 10}, "taking away, up to 10"),
        ({"make": "strips", "operation": "both"}, {"sums_to": 10}, "adding and taking away, up to 10"),
        ("odd-one-out", {"lookalike": 3}, "another size (level 3 of 6)"),
    ],
)
def test_ranges_in_words(entry, child, said):
    """Each material says what it is about: numbers, sums, or how closely to look."""
    keys = {"theme": PLAIN_THEME, "name": "Wren", **child, "materials": [entry]}

    assert range_words(read({"children": [keys]}).children[0].trays[0], ENGLISH) == said


def test_a_set_without_a_name_has_its_materials_title():
    """A set's own name follows the title; the material's name does not."""
    assert set_title(tray("clip-cards"), ENGLISH) == "Count and clip"
    assert set_title(tray("clip-cards", set="after lunch"), ENGLISH) == "Count and clip: after lunch"


@pytest.mark.parametrize(
    ("mm", "units", "said"),
    [
        (28.0, "mm", "28 mm"),
        (28.0, "in", "1.10 in"),
        (28.0, "both", "28 mm (1.10 in)"),
        (83.5, "mm", "83.5 mm"),
        (14.95, "mm", "15 mm"),
        (0.0, "both", "0 mm (0.00 in)"),
    ],
)
def test_lengths_in_words(mm, units, said):
    """mm with at most one decimal, inches with two."""
    assert length(mm, units, ENGLISH) == said


def test_several_lengths_share_their_unit():
    """A list of lengths names its unit once, and an area its sides."""
    assert lengths((12.0, 74.0, 136.0), "both", ENGLISH) == "12, 74 and 136 mm (0.47, 2.91 and 5.35 in)"
    assert sides((62.0, 88.0), "both", ENGLISH) == "62 × 88 mm (2.44 × 3.46 in)"


def test_needs_of_one_kind_are_one_phrase():
    """Two needs of the same thing are added up; nothing is asked for that is not needed."""
    needs = (
        Need(what="counters", count=4, size=22.0),
        Need(what="pegs", count=1),
        Need(what="counters", count=6, size=22.0),
        Need(what="pencil", count=0),
    )

    assert gathered(needs) == {"counters": 10, "pegs": 1}
    assert gather_words(needs, "mm", ENGLISH) == ("10 counters of 22 mm", "1 clothespin")
