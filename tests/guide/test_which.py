"""Which sheet holds what, how many pouches, the drawings of cuts, and next steps without printing."""

from collections import Counter
from itertools import combinations

import pytest
from guide.guides import summer, whole_text
from guide.test_trays import guide_set

from printkit.guide.cuts import patterns, steps
from printkit.guide.drawn import diagram
from printkit.guide.flow import look_of
from printkit.guide.laminating import _a_pouch, is_wiped, pouches
from printkit.guide.trays import tray_words
from printkit.guide.which import fronts, held, sheets_with
from printkit.materials import materials
from printkit.pieces import Text
from printkit.texts import catalogue
from printkit.units import PAPERS

ENGLISH = catalogue("en")


def test_the_sheets_hold_every_piece_once():
    """Added up over all sheets, each set has as many pieces as it was made with."""
    made = summer()
    found = Counter()
    for file in made.files:
        for page in fronts(file):
            for name, count in held(page)[0]:
                found[file.child, name] += count

    assert found == {(item.tray.child.name, item.tray.set): len(item.own) for item in made.sets}


def test_a_set_names_just_the_sheets_that_hold_it():
    """The sheets told of a tray are those on which the map names it."""
    made = summer()
    for item in made.sets:
        mapped = {
            file.name: tuple(
                number
                for number, page in enumerate(fronts(file), 1)
                if file.child == item.tray.child.name and item.tray.set in dict(held(page)[0])
            )
            for file in made.files
        }

        assert sheets_with(item, made.files) == {name: sheets for name, sheets in mapped.items() if sheets}


def test_the_guide_says_what_is_on_a_sheet():
    """Read back from the PDF: which trays' pieces a sheet holds, and how many."""
    assert "Sheet 1 Counting cards: 5 pieces" in whole_text(summer())


@pytest.mark.parametrize(
    ("size", "count"), [((62.0, 88.0), 9), ((190.0, 269.0), 1), ((50.0, 186.0), 5), ((94.0, 125.0), 4)]
)
def test_pieces_in_a_pouch_keep_six_millimeters_apart(size, count):
    """On A4: 3 x 3 cards of 62 x 88 mm need 198 x 276 mm, four of 94 x 125 mm 194 x 256 mm."""
    assert _a_pouch(PAPERS["a4"], size) == count


def test_whole_sheets_take_a_pouch_each():
    """Laminated whole, everything takes as many pouches as there are sheets; what is wiped takes fewer."""
    made = summer()
    (everything,) = pouches(made.sets, made.files)
    (wiped,) = pouches([item for item in made.sets if is_wiped(item)], made.files)

    assert everything.whole == sum(len(fronts(file)) for file in made.files)
    assert 0 < wiped.whole < everything.whole
    assert 0 < wiped.cut_first < everything.cut_first


@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
def test_numbers_in_drawings_can_be_read(paper):
    """No two numbers of a drawing touch; the first and the last of each step are there."""
    made = summer(paper=paper)
    look = look_of(made.pack.paper, made.pack.margin, (0.2, 0.4, 0.4))
    for pattern in patterns(made.files):
        figures = [mark for mark in diagram(look, pattern)[0] if isinstance(mark, Text)]
        numbers = {mark.run.text for mark in figures}
        told = steps(pattern.paper, pattern.cuts)

        assert {str(n) for step in told for n in (step.first, step.last)} <= numbers
        assert not any(a.bounds().meets(b.bounds()) for a, b in combinations(figures, 2))


@pytest.mark.parametrize("name", sorted(materials()))
def test_the_first_next_step_needs_no_printing(name):
    """What comes first names no setting of the pack file; something else is proposed behind it."""
    words = tray_words(guide_set({"make": name}, theme="rock-pool", sums_to=5), ENGLISH)

    assert "\x02" not in words.next[0]
    assert len(words.next) > 1
