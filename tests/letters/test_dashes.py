"""Dashes to trace: even, ink at every end and corner, no stretch drawn twice."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.letters import paths
from printkit.letters.dashes import Pen, dashed, fitted
from printkit.letters.strokes import Letter, Stroke, characters, letter
from printkit.letters.traced import line_width

LETTERS = tuple("abcdefghijklmnopqrstuvwxyzßæøđłABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789бджзиймфцщыюя")


def pen_at(height: float) -> Pen:
    """The pen of a line height in mm, in units of the grid."""
    line = line_width(height) * 20 / height
    return Pen(width=line, on=1.4 * line, off=2.0 * line)


def measured(curves) -> list[tuple[float, float, float]]:
    """Points of a path with the length up to them, measured anew by small steps."""
    found, run, before = [], 0.0, None
    for curve in curves:
        for i in range(401):
            x, y = paths.at(curve, i / 400)
            run += math.dist(before, (x, y)) if before else 0.0
            before = (x, y)
            found.append((x, y, run))
    return found


def inked(piece) -> list[tuple[float, float]]:
    """The points of a piece that lie on a dash."""
    spots = measured(piece.curves)
    if piece.dash is None:
        return [(x, y) for x, y, _ in spots]
    on, off = piece.dash
    return [(x, y) for x, y, run in spots if run % (on + off) <= on + 1e-6]


@given(
    st.floats(2, 400),
    st.floats(0.3, 3),
    st.booleans(),
)
def test_dashes_and_gaps_fill_a_length_exactly(length, line, closed):
    """n dashes and n - 1 gaps (n on a closed path) are as long as the piece, each near the wish."""
    pen = Pen(width=line, on=1.75 * line, off=2.25 * line)
    dash = fitted(length, pen, closed)
    if dash is None:
        assert length < 2 * pen.on + pen.off
        return
    on, off = dash
    gaps = round(length / (on + off)) if closed else round((length - on) / (on + off))
    dashes = gaps if closed else gaps + 1

    assert dashes * on + gaps * off == pytest.approx(length, rel=1e-9)
    assert on / pen.on == pytest.approx(off / pen.off)
    if not closed:
        assert 0.6 < on / pen.on < 1.5


@pytest.mark.parametrize("char", LETTERS)
@pytest.mark.parametrize("height", [8, 18, 80])
def test_gaps_of_a_piece_are_even(char, height):
    """Measured along the path, each gap is as long as the next, to 5 %; ink lies at both ends."""
    for piece in dashed(letter(char), pen_at(height)):
        if piece.dash is None:
            continue
        on, off = piece.dash
        whole = measured(piece.curves)[-1][2]
        count = (whole - on) / (on + off)
        closed = paths.is_closed(piece.curves) and abs(whole / (on + off) - round(whole / (on + off))) < 0.02
        slack = 0.0 if closed else abs(count - round(count)) * (on + off)
        assert slack < 0.05 * off


@pytest.mark.parametrize("char", LETTERS)
def test_ends_and_corners_are_ink(char):
    """Where the pen starts, turns and stops there is ink within a line's width."""
    pen = pen_at(18)
    each = letter(char)
    spots = [spot for piece in dashed(each, pen) for spot in inked(piece)]
    for stroke in each.strokes:
        for part in stroke.parts:
            marks = [piece[0][0] for piece in paths.corners(part)] + [part[-1][3]]
            for mark in marks:
                assert min(math.dist(mark, spot) for spot in spots) <= 1.1 * pen.width


@pytest.mark.parametrize("char", LETTERS)
def test_no_stretch_is_drawn_twice(char):
    """Two dashes meet at ends and crossings only, never side by side."""
    pen = pen_at(18)
    pieces = dashed(letter(char), pen)
    for one, other in ((a, b) for i, a in enumerate(pieces) for b in pieces[i + 1 :]):
        line = measured(other.curves)[::10]
        beside = [spot for spot in measured(one.curves)[::10] if near(spot, line, 0.6 * pen.width)]
        runs = sum(b[2] - a[2] for a, b in pairwise(beside) if b[2] - a[2] < 0.5)
        assert runs < 3.2 * pen.width


def near(spot, line, reach: float) -> bool:
    """Whether a point is nearer to a line of points than `reach`."""
    return any(math.dist(spot[:2], other[:2]) < reach for other in line)


def test_marks_are_drawn_whole():
    """Accents are too small to be broken."""
    for char in characters():
        each = letter(char)
        marks = sum(len(stroke.parts) for stroke in each.strokes if stroke.mark)
        solid = sum(piece.dash is None for piece in dashed(each, pen_at(18)))
        assert solid >= marks


def test_a_bow_that_leaves_a_stem_is_dashed_off_it():
    """The bow of n begins a line's width beside the stem, not on it."""
    pen = pen_at(18)
    stem, bow, *_ = dashed(letter("n"), pen)

    assert all(x == pytest.approx(0) for x, _, _ in measured(stem.curves))
    assert bow.curves[0][0][0] >= 0.8 * pen.width


def test_a_lonely_line():
    """A straight stroke as long as three dashes and two gaps has just these."""
    pen = Pen(width=1.0, on=2.0, off=3.0)
    line = Letter(character="x", width=0, strokes=(Stroke(parts=((paths.line((0, 0), (0, 12)),),)),))
    (piece,) = dashed(line, pen)

    assert piece.dash == pytest.approx((2.0, 3.0))
