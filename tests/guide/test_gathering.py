"""What is gathered: added up over all trays, and over none but those that need it."""

from dataclasses import replace

import pytest
from guide.guides import pages_of, summer, texts_of, whole_text
from hypothesis import given
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, read, tray

from printkit.build import plan
from printkit.guide import GuideSet
from printkit.guide.gathering import totals
from printkit.materials import Need, materials

NEEDS = st.builds(
    Need,
    what=st.sampled_from(("counters", "pegs", "pencil", "wipe-off pen")),
    count=st.integers(1, 30),
    size=st.sampled_from((0.0, 20.0, 22.0)),
)


def a_set(needs):
    """A set of counting cards that needs just that."""
    asked = tray("counting-cards", {"numbers": [1, 2]})
    kind = materials()["counting-cards"]
    return GuideSet(tray=asked, material=kind, pieces=made_of(asked).pieces, needs=tuple(needs))


A_SET = a_set(())


@given(st.lists(st.lists(NEEDS, max_size=3), min_size=1, max_size=4))
def test_needs_are_added_up(trays):
    """All trays at once need the sum of every need; one at a time what the fullest tray takes."""
    found = totals([replace(A_SET, needs=tuple(needs)) for needs in trays])

    kinds = {(need.what, need.size) for needs in trays for need in needs}
    assert {(total.what, total.size) for total in found} == kinds
    for total in found:
        each = [
            sum(need.count for need in needs if (need.what, need.size) == (total.what, total.size))
            for needs in trays
        ]
        assert (total.most, total.sum) == (max(each), sum(each))


def test_the_table_of_the_summer_pack():
    """Wren lays 5 counters, Juno 9: one tray at a time takes 9, both take 14; pegs 5 and 4."""
    text = whole_text(summer())

    assert "Counters or buttons of 22 mm 9 14" in text
    assert "Clothespins 5 9" in text
    assert "Wipe-off pens and a cloth, for what is laminated or in a clear sleeve 1 1" in text
    assert "Pencils 1 1" in text
    assert "9 bags or bowls keep the trays apart" in text
    assert "a laminator and pouches, counted on page" in text


def test_counters_of_two_sizes_are_two_things():
    """A child with smaller counters gets a line of its own."""
    places = {"make": "counting-cards", "things": "places"}
    children = [
        {"name": "Wren", "numbers": [1, 3], "materials": [places]},
        {"name": "Juno", "numbers": [1, 4], "counter": 18, "materials": [places]},
    ]
    text = whole_text(plan(read({"theme": PLAIN_THEME, "children": children})))

    assert "of 22 mm 3 3" in text
    assert "of 18 mm 4 4" in text


def test_nothing_to_gather_needs_no_table():
    """A pack of plain cards asks for a bag, and for no counters."""
    children = [{"name": "Wren", "numbers": [1, 3], "materials": ["counting-cards"]}]
    text = whole_text(plan(read({"theme": PLAIN_THEME, "children": children})))

    assert "One bag or bowl keeps the tray’s pieces together." in text
    assert "All trays at once" not in text
    assert "Small parts" not in text


@pytest.mark.parametrize("units", ["mm", "in"])
def test_trays_with_small_parts_say_so(units):
    """Counters and clothespins call for a caution, in general and at the tray, once each.

    Where the child counts no further than five, and may be under three, it says what to do instead.

    The cylinder for small parts is 31.75 mm across (16 CFR 1501.4).
    """
    pages = texts_of(pages_of(summer(units=units)))
    text = " ".join(pages)

    large = {"mm": "5 cm", "in": "2 in"}[units]
    assert text.count(f"Not for a child under three: point, or use things larger than {large} instead.") == 2
    assert text.count("Small parts: not for a child under three.") == 2
    assert {"mm": "pieces under 32 mm are", "in": "pieces under 1.26 in are"}[units] in text


def test_pieces_cut_smaller_than_the_cylinder_are_small_parts():
    """A set without counters is a small part too when its pieces are cut that narrow."""
    narrow = replace(A_SET, pieces=tuple(replace(piece, width=31.0) for piece in A_SET.pieces))
    child = {"name": "Wren", "materials": ["counting-cards"]}
    made = plan(read({"theme": PLAIN_THEME, "children": [child]}))

    assert "Small parts:" in whole_text(replace(made, sets=(narrow,)))
    assert "Small parts:" not in whole_text(made)
