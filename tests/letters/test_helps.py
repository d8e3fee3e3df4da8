"""Signs beside the strokes: a dot at each start, arrows and numbers that touch nothing."""

import math
from itertools import pairwise

import pytest

from printkit.letters import paths
from printkit.letters.helps import BESIDE, DOT, NUMBER, RIGHT, helps
from printkit.letters.strokes import letter

LETTERS = tuple(
    "abcdefghijklmnopqrstuvwxyzßæœøðþəđħłŋABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789абвгдежзийклмнопрстуфхцчшщъыьэюя"
)


def ink(char: str) -> list[tuple[float, float]]:
    """Points along all strokes and the dots of a letter."""
    return [p for s in letter(char).strokes for p in ([s.dot] if s.dot else paths.flat(s.curves, 0.2))]


@pytest.mark.parametrize("char", LETTERS)
def test_each_stroke_has_its_start(char):
    """A dot where the pen is set down, in the order of the strokes; dots of i and j need none."""
    strokes = [stroke for stroke in letter(char).strokes if stroke.parts and not stroke.mark]

    assert list(helps(letter(char)).starts) == [stroke.parts[0][0][0] for stroke in strokes]


@pytest.mark.parametrize("char", LETTERS)
def test_strokes_are_numbered_where_there_are_several(char):
    """1, 2, 3 beside the starts; a letter of one stroke has no number."""
    found = helps(letter(char))
    count = len(found.starts)

    assert [number for number, _ in found.numbers] == (
        [str(n) for n in range(1, count + 1)] if count > 1 else []
    )
    for (_, place), start in zip(found.numbers, found.starts, strict=False):
        assert math.dist(place, start) < DOT + 1.8 * NUMBER


@pytest.mark.parametrize("char", LETTERS)
def test_signs_touch_nothing(char):
    """White lies between numbers and strokes, arrows and strokes, and between any two signs."""
    found, strokes = helps(letter(char)), ink(char)
    half = 0.35 * NUMBER
    for number, (_, (x, y)) in enumerate(found.numbers):
        assert min(math.dist((x, y), p) for p in strokes) > half + 0.5
        for _, other in found.numbers[:number]:
            assert math.dist((x, y), other) > 2 * half
        for start in found.starts:
            assert math.dist((x, y), start) > half + DOT - 0.2
    for arrow in found.arrows:
        assert min(math.dist(p, q) for p in arrow.points for q in strokes) > 1.2
        for _, place in found.numbers:
            assert min(math.dist(p, place) for p in arrow.points) > half


@pytest.mark.parametrize("char", LETTERS)
def test_arrows_go_the_way_of_the_pen(char):
    """Beside the nearest stretch of the stroke an arrow runs the same way."""
    for arrow in helps(letter(char)).arrows:
        (ax, ay), (bx, by) = arrow.points[0], arrow.points[-1]
        best = max(
            (bx - ax) * (q[0] - p[0]) + (by - ay) * (q[1] - p[1])
            for stroke in letter(char).strokes
            if stroke.parts
            for part in stroke.parts
            for p, q in pairwise(paths.flat(part, 0.5))
            if math.dist(p, arrow.points[0]) < 2.5
        )
        assert best > 0


@pytest.mark.parametrize("char", LETTERS)
def test_signs_stay_out_of_the_next_letter(char):
    """Nothing lies right of a letter, and nothing further left than the room kept there."""
    xs = [x for x, _ in ink(char)]
    found = helps(letter(char))
    places = [x for _, (x, _) in found.numbers] + [x for arrow in found.arrows for x, _ in arrow.points]

    assert all(min(xs) - BESIDE <= x <= max(xs) + RIGHT for x in places)


def test_every_letter_of_one_stroke_shows_its_way():
    """Letters a child learns first have an arrow."""
    for char in "acdegilmnopqrsuvwz0123678":
        assert helps(letter(char)).arrows, char
