"""Stroke letters: they join, keep their lines, compose with marks, and cover what the languages write."""

import math
import re
import unicodedata

import pytest
from babel import Locale, localedata

from printkit.letters import paths
from printkit.letters.dashes import Pen
from printkit.letters.strokes import Letter, Stroke, bounds, characters, lacking, letter, parse
from printkit.letters.traced import line_width
from printkit.materials.calendar.names import names_in
from printkit.words import languages, spell

TRACED = tuple(language.tag for language in languages() if language.script in ("Latn", "Cyrl"))
PLAIN = tuple(
    char for char in characters() if len(unicodedata.normalize("NFD", char)) == 1 and char not in "-'’ʼ"
)
COMPOSED = tuple(char for char in characters() if len(unicodedata.normalize("NFD", char)) > 1)
TOUCHING = {"\u0327", "\u0328", "\u031b"}
"""Cedilla, ogonek and horn hang on their letter."""
TWO_PARTS = set("ыЫ")
OVER = {"Ґ": 24.5, "ґ": 20, "Ø": 21.6}
UNIT = 18 / 20
"""mm of a unit of the grid at a line height of 18 mm."""


def points(stroke: Stroke) -> list[tuple[float, float]]:
    """Points along a stroke, close together."""
    return [stroke.dot] if stroke.dot else paths.flat(stroke.curves, 0.1)


def apart(one: Stroke, other: Stroke) -> float:
    """The least distance between the centre lines of two strokes."""
    return min(math.dist(p, q) for p in points(one) for q in points(other))


def groups(strokes: list[Stroke], reach: float = 0.15) -> int:
    """Into how many pieces that do not meet the strokes fall."""
    rest, count = list(strokes), 0
    while rest:
        count += 1
        group = [rest.pop()]
        while near := [s for s in rest if any(apart(s, member) <= reach for member in group)]:
            group += near
            rest = [s for s in rest if s not in near]
    return count


def drawn(char: str) -> Letter:
    """The strokes of a character that must have some."""
    found = letter(char)
    assert found is not None
    return found


# --- one letter ------------------------------------------------------------------------------


@pytest.mark.parametrize("char", PLAIN)
def test_strokes_that_should_meet_leave_no_gap(char):
    """A letter is of one piece, its dots apart; only ы stands in two parts."""
    strokes = [stroke for stroke in drawn(char).strokes if stroke.parts]

    assert groups(strokes) == (2 if char in TWO_PARTS else 1)


@pytest.mark.parametrize("char", PLAIN)
def test_a_pen_that_goes_on_over_ink_finds_it(char):
    """A part that begins without a lift of the pen touches the parts before it."""
    for stroke in drawn(char).strokes:
        for number, part in enumerate(stroke.parts[1:], 1):
            before = Stroke(parts=stroke.parts[:number])
            assert apart(before, Stroke(parts=(part,))) < 0.15


@pytest.mark.parametrize("char", PLAIN)
def test_letters_stay_within_their_lines(char):
    """From the descender's line to the top line; marks and some strokes through a letter reach over."""
    lowest, highest = bounds([drawn(char)])

    assert lowest >= -10.01
    assert highest <= OVER.get(char, 20.01)


@pytest.mark.parametrize("char", PLAIN)
def test_letters_are_as_wide_as_they_say(char):
    """The width of the data is that of the strokes, bars and flags beside them excepted."""
    xs = [x for stroke in drawn(char).strokes for x, _ in points(stroke)]

    assert -3.3 <= min(xs) <= 1
    assert drawn(char).width - 1.6 <= max(xs) <= drawn(char).width + 5.1


@pytest.mark.parametrize("char", PLAIN)
def test_no_stroke_is_shorter_than_two_dashes(char):
    """At a line height of 18 mm each stroke has room for two dashes and a gap."""
    line = line_width(18) / UNIT
    pen = Pen(width=line, on=1.75 * line, off=2.25 * line)
    for stroke in drawn(char).strokes:
        if stroke.parts:
            assert paths.length(stroke.curves) >= 2 * pen.on + pen.off - 0.5


@pytest.mark.parametrize("char", COMPOSED)
def test_marks_keep_off_their_letter_unless_they_hang_on_it(char):
    """White lies between a letter and its marks, and between two marks; cedilla, ogonek, horn touch."""
    each = drawn(char)
    base = [stroke for stroke in each.strokes if not stroke.mark]
    marks = [stroke for stroke in each.strokes if stroke.mark]
    names = set(unicodedata.normalize("NFD", char)[1:])
    line = line_width(18) / UNIT
    commas = {"\u0327"} if unicodedata.normalize("NFD", char)[0] in "gkklnrGKLNR" else set()

    assert base
    assert marks
    for mark in marks:
        near = min(apart(mark, stroke) for stroke in base)
        if not names & (TOUCHING - commas):
            assert near > line * 1.2, f"a mark of {char} is {near:.2f} from its letter"
        else:
            assert near < 0.15 or near > line * 1.2


def test_letters_under_a_mark_lose_their_dot():
    """í has no dot, ï two, i one."""
    assert [sum(s.dot is not None for s in drawn(char).strokes) for char in "iíïj"] == [1, 0, 2, 1]


def test_marks_that_print_draws_otherwise():
    """ď ť ľ carry an apostrophe beside them, ģ a comma above, ķ ļ ņ one below that does not touch."""
    for char in "ďťľ":
        mark = drawn(char).strokes[-1]
        assert min(x for x, _ in points(mark)) > max(
            x for s in drawn(char).strokes[:-1] for x, y in points(s) if y > 15
        )
    assert min(y for _, y in points(drawn("ģ").strokes[-1])) > 10
    for char in "ķļņ":
        assert max(y for _, y in points(drawn(char).strokes[-1])) < -1


# --- coverage --------------------------------------------------------------------------------


@pytest.mark.parametrize("tag", TRACED)
def test_every_letter_of_the_number_words(tag):
    """All words from 0 to 100 can be traced, also when they begin a sentence."""
    words = "".join(spell(tag, number) for number in range(101))

    assert lacking(words) == ""
    assert lacking("".join(char.upper() for char in words if len(char.upper()) == 1)) == ""


@pytest.mark.parametrize("tag", TRACED)
def test_every_letter_of_months_and_weekdays(tag):
    """The names of months and days, as CLDR has them, can be traced too.

    Read as the calendar reads them: Babel's own look-up would change what other tests read.
    """
    if tag == "tet":
        pytest.skip("CLDR has no names in Tetum")
    locale = Locale.parse(tag.partition("-")[0] if tag != "sr-Latn" else "sr_Latn")
    alone = names_in(str(locale).replace("_", "-"))
    dated = localedata.load(str(locale))["months"]["format"]["wide"]
    names = [*alone.months, *alone.weekdays, *dict(dated).values()]

    assert lacking("".join(names).replace("ⁱ", "")) == ""


def test_what_has_no_strokes_is_told():
    """Letters of other scripts are named, each once; spaces need no strokes."""
    assert lacking("ab ሀሁሀ") == "ሀሁ"
    assert letter("ሀ") is None


# --- the path language -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("9 M0 0 L1 1", "a letter is 'width: path', with a width from 0 to 40"),
        ("x: M0 0 L1 1", "a letter is 'width: path', with a width from 0 to 40"),
        ("9: L1 1", "L comes before M"),
        ("9: M0 0", "a path draws a line, a curve, an arc or a dot"),
        ("9: M0 0 L1", "L needs 2 numbers"),
        ("9: M0 0 Q1 1 2 2", "'Q1 1 2 2' is no command and no number"),
        ("9: 3 4", "'3' stands where a command is due: M, L, C, A or D"),
        ("9: M0 0 L1 1 M2 2 L3 3", "M begins a path; a pen that is lifted begins a new one"),
    ],
)
def test_a_path_that_cannot_be_read_says_why(line, said):
    """The message names what stands there and what was expected."""
    with pytest.raises(paths.PathError, match="^" + re.escape(said) + "$"):
        parse("n", line)
