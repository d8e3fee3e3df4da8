"""Patterns: each strip goes on in one way only, tiles fit their places, backs tell the truth."""

from collections import Counter
from itertools import pairwise, product

import faces
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, room_of, tray

from printkit.materials.patterns import MATERIAL, SIZES, copies_of
from printkit.materials.patterns.rules import (
    GROWING,
    RULES,
    UNITS,
    continuations,
    is_clear,
    least_places,
    least_shown,
    word,
)
from printkit.pieces import Box, Dot
from printkit.units import Rect

FEW = settings(max_examples=20)


def written_out(rule, length):
    """The pattern as a child would say it, group by group: worked out here another way."""
    said = ""
    for group in range(1, length + 1):
        said += UNITS[rule] if rule in UNITS else "A" * group + "B"
    return said[:length]


@pytest.mark.parametrize("rule", RULES)
def test_patterns_are_what_their_names_say(rule):
    """AAB is AABAAB..., growing is A B AA B AAA B."""
    assert all(word(rule, length) == written_out(rule, length) for length in range(1, 30))


@pytest.mark.parametrize("rule", sorted(UNITS))
@pytest.mark.parametrize("shown", range(4, 13))
def test_no_shorter_rule_fits_what_is_shown(rule, shown):
    """Of all words that could come again and again, the rule's own is the only one that is no repeat of it.

    Tried are all words over A, B and C of up to half the shown part, so that each is seen twice.
    """
    part = word(rule, shown)
    fitting = {
        "".join(unit)
        for length in range(1, shown // 2 + 1)
        for unit in product("ABC", repeat=length)
        if ("".join(unit) * shown).startswith(part)
    }
    if shown >= least_shown(rule):
        shortest = min(fitting, key=len)
        assert shortest == UNITS[rule]
        assert all(unit == shortest * (len(unit) // len(shortest)) for unit in fitting)
    else:
        assert UNITS[rule] not in fitting


@pytest.mark.parametrize("rule", RULES)
def test_the_least_shown_part_is_clear_and_a_shorter_one_is_not(rule):
    """From there on a strip goes on in one way, however many places follow."""
    least = least_shown(rule)

    assert all(is_clear(rule, shown, places) for shown in range(least, 20) for places in range(1, 12))
    assert not is_clear(rule, least - 1, least_places(rule, least - 1))


def test_other_rules_are_tried_too():
    """Two and more ways are found where there are: a run could come again or grow."""
    assert continuations("AAAA", 2) == {"AA"}
    assert continuations("ABBABBBABBBB", 5) == {"ABBBB"}
    assert continuations("ABABAB", 2) == {"AB"}
    assert continuations("ABAABAAABABAABAAAB", 4) == {"ABAA"}
    assert continuations("ABC", 3) == set()


# --- what is made ----------------------------------------------------------------------------


@st.composite
def sets(draw, **fixed):
    """A tray of patterns on paper that has room for it."""
    child = draw(faces.children(paper=draw(st.sampled_from(("a4", "letter", "a5"))), margin=10))
    wanted = {
        "rules": draw(st.lists(st.sampled_from(RULES[:4]), min_size=1, max_size=4, unique=True)),
        "differ": draw(st.sampled_from(("pictures", "sizes"))),
        "count": draw(st.integers(1, 6)),
        **fixed,
    }
    asked = tray("patterns", child, **wanted)
    made = made_of(asked, draw(st.integers(0, 9)))
    assert made.problems == ()
    return faces.Set(asked, made.pieces, 0)


def strips(item):
    """The pieces that show a pattern."""
    return [piece for piece in item.pieces if piece.facts.shown]


def tiles(item):
    """The loose pieces."""
    return [piece for piece in item.pieces if piece.facts.tile]


def looks(face):
    """The pictures of a face from the left: name and length as printed."""
    found = sorted(faces.pictures(face), key=lambda mark: mark.x + mark.width / 2)
    return [(mark.drawing.name.split("/")[-1].split()[0], max(mark.width, mark.height)) for mark in found]


def places(piece):
    """The boxes or rings to be filled, from the left."""
    return [
        mark.bounds()
        for mark in piece.front.marks
        if isinstance(mark, Box | Dot) and not faces.is_hairline(mark, piece)
    ]


@FEW
@given(sets())
def test_facts_say_what_is_drawn(item):
    """Read from the left, pictures and their lengths are those of the letters; places are as many."""
    for piece in strips(item):
        facts = piece.facts
        assert facts.shown + facts.missing == written_out(facts.rule, len(facts.shown + facts.missing))
        for letter, (name, length) in zip(facts.shown, looks(piece.front), strict=True):
            assert (name, length) == (facts.motifs[letter], pytest.approx(facts.lengths[letter], abs=0.002))
        assert len(places(piece)) == len(facts.missing)
        things, empty = piece.front.areas
        assert (things.things, empty.things, empty.ground) == (len(facts.shown), 0, "places")
        assert all(empty.box.holds(place) for place in places(piece))
        assert all(things.box.holds(mark.bounds()) for mark in faces.pictures(piece.front))


@FEW
@given(sets())
def test_the_back_shows_what_is_missing(item):
    """In order from the left within the control, behind the pictures of the front, not behind its places."""
    for piece in strips(item):
        facts = piece.facts
        assert [name for name, _ in looks(piece.back)] == [facts.motifs[letter] for letter in facts.missing]
        sizes = [length for _, length in looks(piece.back)]
        for one, letter in zip(sizes, facts.missing, strict=True):
            for two, other in zip(sizes, facts.missing, strict=True):
                assert (one > two + 0.2) == (facts.lengths[letter] > facts.lengths[other])
        assert all(piece.control.holds(mark.bounds()) for mark in faces.pictures(piece.back))
        behind = piece.width - piece.control.left
        assert behind < min(place.left for place in places(piece))


@FEW
@given(sets())
def test_tiles_fit_their_places(item):
    """A tile is a square a millimeter smaller than its place, its picture as long as on the strip."""
    for piece in strips(item):
        own = [tile for tile in tiles(item) if tile.facts.strip == piece.facts.strip]
        counts = Counter(tile.facts.tile for tile in own)
        letters = sorted(piece.facts.motifs)
        assert counts == dict.fromkeys(letters, copies_of(piece.facts.missing, "".join(letters)))
        assert all(counts[letter] >= piece.facts.missing.count(letter) for letter in letters)
        for tile in own:
            for place in places(piece):
                assert place.width - 0.3 - tile.width == pytest.approx(1.0, abs=0.002)
                assert place.height - 0.3 - tile.height == pytest.approx(1.0, abs=0.002)
            ((name, length),) = looks(tile.front)
            assert name == piece.facts.motifs[tile.facts.tile]
            assert length == pytest.approx(piece.facts.lengths[tile.facts.tile], abs=0.002)
            (mark,) = faces.pictures(tile.front)
            assert Rect(0, 0, tile.width, tile.height).inset(2).holds(mark.bounds())


@FEW
@given(sets())
def test_strips_keep_their_distances(item):
    """Hairlines at 4 mm, all else at 6 mm, set marks free; no two pictures or places nearer than 1 mm."""
    for piece in strips(item):
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=True)
        faces.assert_mark_is_clear(piece, backs=False)
        row = sorted([mark.bounds() for mark in faces.pictures(piece.front)] + places(piece))
        assert all(one.right + 1 <= two.left for one, two in pairwise(row))


@pytest.mark.parametrize("counter", [10, 22, 30])
def test_rings_fit_the_counters(counter):
    """With counters the places are rings two millimeters larger, and no tiles are made."""
    made = made_of(tray("patterns", {"counter": counter}, fill="counters"))

    assert all(piece.facts.shown for piece in made.pieces)
    for piece in made.pieces:
        rings = [mark for mark in piece.front.marks if isinstance(mark, Dot)]
        assert [2 * ring.radius for ring in rings] == [counter + 2] * 3
    (need,) = made.needs
    assert (need.what, need.count, need.size) == ("counters", 6, counter)


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "a3", [130, 180]])
@pytest.mark.parametrize("ink", ["color", "gray", "outline"])
def test_defaults_work_everywhere(paper, ink):
    """Five strips that are easy to hard, each with its tiles."""
    made = made_of(tray("patterns", {"paper": paper, "ink": ink}))

    shown = [piece for piece in made.pieces if piece.facts.shown]
    assert made.problems == ()
    assert [piece.facts.rule for piece in shown] == ["AB", "AB", "AAB", "ABB", "ABC"]


def test_sizes_fill_sheets():
    """Strips of each size lie on A4 and Letter as often as their table says."""
    for name, times in (("small", 8), ("medium", 7), ("large", 4)):
        wide, high = SIZES[name]
        for paper in ("a4", "letter"):
            width, height = room_of(tray("patterns", {"paper": paper}))
            if wide > width:
                width, height = height, width
            assert int(height // high) * int(width // wide) == times


def test_growing_strips_show_three_groups():
    """A B AA B AAA B, and the places take the next group whole."""
    made = made_of(tray("patterns", rules=GROWING, count=1))

    assert made.pieces[0].facts.shown == "ABAABAAAB"
    assert made.pieces[0].facts.missing == "AAAAB"


def test_pictures_are_chosen_and_told_apart():
    """Named motifs are taken in some order; one alone makes a pattern of sizes, and check says so."""
    named = made_of(tray("patterns", rules="ABC", count=1, motifs=["disc", "flag", "tower"]))
    alone = made_of(tray("patterns", rules="AB", count=1, motifs=["disc"]))

    assert set(named.pieces[0].facts.motifs.values()) == {"disc", "flag", "tower"}
    assert set(alone.pieces[0].facts.motifs.values()) == {"disc"}
    assert alone.notes == (
        "these motifs are fewer than 2 pictures that can be told apart, so each pattern is one picture "
        "large and small",
    )


# --- bad input -------------------------------------------------------------------------------


def only(**wanted):
    """The one problem of a tray."""
    (found,) = made_of(tray("patterns", **wanted)).problems
    return found


def test_a_part_that_could_go_on_otherwise_is_refused():
    """With how many pictures it would be clear."""
    found = only(rules="AAB", shown=5)

    assert found.place.endswith("(children[0].materials[0].shown)")
    assert found.found == "a pattern AAB of which 5 pictures are shown could go on in more than one way"
    assert found.allowed == "at least 6 pictures shown"


def test_a_pattern_longer_than_its_strip_is_refused():
    """What is told as fitting does fit, and no more."""
    found = only(rules="AB", size=[150, 31], places=12)

    assert found.place.endswith("(children[0].materials[0].places)")
    assert found.found == (
        "a pattern AB with 6 pictures and 12 places is longer or higher than a strip of 150 x 31 mm"
    )
    most = int(found.allowed.split()[2].rstrip(","))
    assert found.allowed == f"places = {most} or a larger size"
    assert made_of(tray("patterns", rules="AB", size=[150, 31], places=most)).problems == ()
    assert made_of(tray("patterns", rules="AB", size=[150, 31], places=most + 1)).problems != ()


def test_too_few_pictures_are_refused():
    """Where different pictures are asked for there must be enough of them."""
    found = only(rules="ABC", differ="pictures", motifs=["disc", "flag"])

    assert found.found == "there are no 3 pictures among these motifs that can be told apart in color"
    assert found.allowed == 'at least 3 motifs, or differ = "sizes"'
    assert only(motifs=["dsc"]).nearest == "disc"


def test_the_key_tells_letters():
    """A line a strip, with the rule and what is missing."""
    from printkit.texts import catalogue

    pieces = made_of(tray("patterns", {"theme": PLAIN_THEME}, rules=["AB", "growing"], count=2)).pieces
    key = MATERIAL.guidance.key(pieces, catalogue("en").say)

    assert key.lines == ("Strip 1 (AB): A B A", "Strip 2 (growing): A A A A B")
