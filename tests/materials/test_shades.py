"""Shades: steps equal in CIEDE2000, colors that everybody tells apart, places told truly behind."""

import math
from itertools import combinations, pairwise
from pathlib import Path

import faces
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, tray

from printkit.materials.shades import MATERIAL, colors_of
from printkit.materials.shades.colors import (
    APART,
    APART_LACKING,
    FINEST,
    FINEST_LACKING,
    PALETTE,
    Ends,
    as_bytes,
    color_of,
    most_shades,
    series,
    widest_step,
)
from printkit.materials.shades.faces import SPREAD
from printkit.pictures import load_theme
from printkit.pictures.colors import LACKING, ciede2000, difference, lab, simulated
from printkit.pieces import Box, Line

FEW = settings(max_examples=12)
channel = st.integers(0, 255).map(lambda value: round(value / 255, 4))
colors = st.tuples(channel, channel, channel)


def step_of(one, two):
    """CIEDE2000 of two colors as printed; the formula is checked against Sharma's 34 pairs elsewhere."""
    return ciede2000(lab(one), lab(two))


def as_seen(color, kind):
    """A color as someone with a color-vision deficiency sees it; None is common vision."""
    return as_bytes(color) if kind is None else simulated(as_bytes(color), kind)


# --- series ----------------------------------------------------------------------------------


@settings(max_examples=30)
@given(colors, st.integers(3, 7))
def test_steps_are_equal(color, count):
    """From each shade to the next it is the same CIEDE2000, to a twentieth, lighter to darker, all printable."""
    step = widest_step(color, count, Ends())
    points = series(color, count, step, Ends())
    shades = [color_of(point) for point in points]

    assert len(shades) == count
    assert None not in shades
    assert all(abs(step_of(one, two) - step) < 0.05 for one, two in pairwise(shades))
    assert all(one[0] > two[0] for one, two in pairwise(points))
    assert Ends().dark - 0.01 <= points[-1][0] <= points[0][0] <= Ends().light


@settings(max_examples=20)
@given(colors, st.floats(FINEST, 15))
def test_as_many_shades_as_are_promised(color, step):
    """As many shades by a step as are told to fit do fit, one more does not."""
    most = most_shades(color, step, Ends())

    assert most < 2 or widest_step(color, most, Ends()) >= step - 1e-4
    assert widest_step(color, most + 1, Ends()) < step


def test_a_color_comes_back_from_cielab():
    """What goes through CIELAB and back differs by at most one of the four decimals kept."""
    for color in (*PALETTE, (0.1, 0.9, 0.3), (1.0, 1.0, 1.0), (0.0, 0.0, 0.0)):
        assert color_of(lab(color)) == pytest.approx(color, abs=0.00015)


def test_our_palette_is_told_apart_by_everybody():
    """Half as far again as the floors: any two, with common color vision and without a kind of cone."""
    for one, two in combinations(PALETTE, 2):
        assert difference(as_bytes(one), as_bytes(two)) >= 1.5 * APART
        for kind in LACKING:
            assert difference(as_seen(one, kind), as_seen(two, kind)) >= 1.5 * APART_LACKING


# --- sets ------------------------------------------------------------------------------------


@st.composite
def sets(draw, **fixed):
    """A tray of shades that can be made, and what it makes."""
    child = draw(faces.children(margin=10, paper=draw(st.sampled_from(("a4", "letter", "a5")))))
    ink = child.get("ink", "color")
    gray = ink not in ("color", "colour")
    wanted = {
        "form": draw(st.sampled_from(("order", "pairs"))),
        "count": draw(st.integers(3, 5 if gray else 7)),
        "colors": 1 if gray else draw(st.integers(1, 3)),
        "safe": draw(st.booleans()),
        **fixed,
    }
    theme = draw(st.sampled_from(("rock-pool", "kitchen-garden", PLAIN_THEME)))
    asked = tray("shades", {**child, "theme": theme}, **wanted)
    made = made_of(asked, draw(st.integers(0, 9)))
    assert made.problems == ()
    return faces.Set(asked, made.pieces, 0)


def patch(piece):
    """The box that is filled with the color of a card."""
    (found,) = [mark for mark in piece.front.marks if isinstance(mark, Box) and mark.fill is not None]
    return found


def covered(piece):
    """The share that parallel slanted lines cover: their width over the way from one to the next."""
    lines = [mark for mark in piece.front.marks if isinstance(mark, Line)]
    offsets = [(line.x1 + line.y1) / math.sqrt(2) for line in lines]
    apart = [two - one for one, two in pairwise(sorted(offsets))]
    return lines[0].line / (sum(apart) / len(apart))


@FEW
@given(sets())
def test_cards_show_the_color_of_their_facts(item):
    """A patch of that very color; in outline as much black as makes that gray."""
    for piece in item.pieces:
        facts = piece.facts
        if facts.lines:
            assert covered(piece) == pytest.approx(facts.lines, rel=0.01)
            luminance = [((lab(color)[0] + 16) / 116) ** 3 for color in ((0.2,), facts.color)]
            ink = ((0.13 + 0.055) / 1.055) ** 2.4
            assert 1 - facts.lines / SPREAD * (1 - ink) == pytest.approx(luminance[1], abs=0.001)
        else:
            assert patch(piece).fill == facts.color
        assert (len(facts.color) == 1) == (item.asked.child.ink != "color") or facts.motif


@FEW
@given(sets(form="order"))
def test_each_series_runs_by_equal_steps(item):
    """Card by card from the lightest, by the step of the facts, which can be seen."""
    by_motif = {}
    for piece in item.pieces:
        by_motif.setdefault(piece.key.split("-")[0] if "-" in piece.key else "", []).append(piece.facts)
    assert len(by_motif) == item.asked.settings.colors
    for facts in by_motif.values():
        assert [fact.place for fact in facts] == list(range(1, item.asked.settings.count + 1))
        for one, two in pairwise(facts):
            assert step_of(one.color, two.color) == pytest.approx(one.step, abs=0.05)
            assert one.step >= FINEST
            for kind in LACKING if item.asked.settings.safe else ():
                assert difference(as_seen(one.color, kind), as_seen(two.color, kind)) >= FINEST_LACKING


@FEW
@given(sets(form="pairs"))
def test_pairs_are_alike_and_all_others_are_not(item):
    """Two cards of each color; any two colors differ by the step of the facts at least."""
    count, safe = item.asked.settings.count, item.asked.settings.safe
    found = colors_of(item.pieces)
    kinds = (None, *LACKING) if safe else (None,)

    assert len(found) == count
    assert len(item.pieces) == 2 * count
    for color in found:
        assert len({piece.facts.place for piece in item.pieces if piece.facts.color == color}) == 1
    floors = {None: item.pieces[0].facts.step - 0.05}
    if item.asked.child.ink == "color":
        assert floors[None] >= APART - 0.1
        floors |= dict.fromkeys(LACKING, APART_LACKING)
    else:
        floors |= dict.fromkeys(LACKING, FINEST_LACKING)
    for one, two in combinations(found, 2):
        for kind in kinds:
            assert difference(as_seen(one, kind), as_seen(two, kind)) >= floors[kind] - 0.4


@FEW
@given(sets())
def test_the_back_shows_the_place(item):
    """Rings in a row, one a place; the filled one, from the left, is the card's own."""
    for piece in item.pieces:
        rings = [
            mark for mark in piece.back.marks if getattr(mark, "stroke", None) and hasattr(mark, "radius")
        ]
        rings = sorted((ring for ring in rings if not isinstance(ring, Box)), key=lambda ring: ring.x)
        (filled,) = [mark for mark in piece.back.marks if getattr(mark, "fill", None)]
        assert len(rings) == piece.facts.count
        assert rings[piece.facts.place - 1].x == filled.x
        assert piece.control.holds(filled.bounds())


@FEW
@given(sets())
def test_faces_keep_their_distances(item):
    """Hairlines at 4 mm, all else at 6 mm, set marks free."""
    for piece in item.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=True)
        faces.assert_mark_is_clear(piece, backs=False)


@pytest.mark.parametrize("theme", ["first-snow", "fruit-stall", "harvest-market", "night-sky", "spring-pond"])
@pytest.mark.parametrize("ink", ["color", "gray", "outline"])
def test_defaults_work_with_every_theme(theme, ink):
    """Five shades in every ink, and in color as many pairs as anyone asks for."""
    assert len(made_of(tray("shades", {"theme": theme, "ink": ink})).pieces) == 5
    for safe in (True, False):
        made = made_of(tray("shades", {"theme": theme}, form="pairs", count=8, safe=safe))
        assert len(made.pieces) == 16


def test_rows_of_shades_are_of_different_pictures():
    """With three colors each has a picture of the theme that has this color."""
    made = made_of(tray("shades", {"theme": "first-snow"}, colors=3))
    names = dict.fromkeys(piece.facts.motif for piece in made.pieces)

    assert len(names) == 3
    motifs = {motif.key: motif for motif in load_theme("first-snow", Path(), "theme").motifs}
    assert all(motifs[name].main_color is not None for name in names)
    for piece in made.pieces:
        assert [mark.drawing.name for mark in faces.pictures(piece.front)] == [
            f"first-snow/{piece.facts.motif} color"
        ]


# --- bad input -------------------------------------------------------------------------------


def only(child=None, **wanted):
    """The one problem of a tray."""
    (found,) = made_of(tray("shades", child, **wanted)).problems
    return found


def test_black_lines_say_what_ink_would_do():
    """Seven shades of lines run together; grays and colors would not."""
    found = only({"ink": "outline"}, count=7)

    assert found.found == "7 shades between light and dark lie 6.1 apart, too fine to see (at least 8)"
    assert found.allowed == 'count = 5 at most or ink = "color" or "gray"'
    assert made_of(tray("shades", {"ink": "gray"}, count=7)).pieces
    assert made_of(tray("shades", {"ink": "outline"}, count=5)).pieces


def test_steps_that_reach_too_far_are_refused():
    """With both ways out."""
    found = only({"theme": "first-snow"}, step=20, motif="mitten")

    assert found.found == "5 shades by steps of 20 reach further than from light to dark"
    most, widest = found.allowed.removesuffix(" at most").split(" at most or step = ")
    assert made_of(tray("shades", {"theme": "first-snow"}, step=float(widest), motif="mitten")).pieces
    fewer = int(most.removeprefix("count = "))
    assert made_of(tray("shades", {"theme": "first-snow"}, step=20, count=fewer, motif="mitten")).pieces


@pytest.mark.parametrize("ink", ["gray", "outline"])
def test_without_color_there_is_one_row(ink):
    """Two rows of grays would be the same row."""
    found = only({"ink": ink}, colors=2)

    assert found.found == f'with ink = "{ink}" there is one row of grays only'
    assert found.allowed == 'colors = 1, or ink = "color"'


def test_the_key_tells_places():
    """A line a card."""
    from printkit.texts import catalogue

    pieces = made_of(tray("shades", count=3)).pieces
    key = MATERIAL.guidance.key(pieces, catalogue("en").say)

    assert key.lines == ("Card 1: place 1 of 3", "Card 2: place 2 of 3", "Card 3: place 3 of 3")
