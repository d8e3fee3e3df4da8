"""Halves: laid edge to edge the parts are the picture, pixel by pixel."""

import faces
import numpy
import own_pictures
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, tray

from printkit.materials.halves import LEAST, is_symmetric, seen, whole_box
from printkit.pictures import built_in, load_theme, rasterise
from printkit.pieces import Drawing, Line
from printkit.units import Rect

FEW = settings(max_examples=12)
PIXELS = 8
"""A mm."""


@st.composite
def sets(draw, parts=(2, 3, 4)):
    """A tray of halves on a paper that has room for it, and what it makes."""
    child = draw(faces.children(margin=draw(st.sampled_from((3, 10)))))
    asked = tray("halves", child, parts=draw(st.sampled_from(parts)))
    made = made_of(asked, draw(st.integers(0, 9)))
    assert made.problems == ()
    return faces.Set(asked, made.pieces, 0)


def together(pieces):
    """The cards of each picture, from the left."""
    groups = {}
    for piece in pieces:
        groups.setdefault(piece.facts.motif, []).append(piece)
    return groups


def pixels_of(drawing: Drawing, width: float, height: float):
    """A drawing printed that large, as pixels."""
    image = rasterise(drawing, round(width * PIXELS), round(height * PIXELS))
    return numpy.asarray(image, dtype=int)


def in_mm(pixels):
    """Means over square millimeters, which even out where pixels happen to lie."""
    high, wide = (side // PIXELS for side in pixels.shape[:2])
    cut = pixels[: high * PIXELS, : wide * PIXELS]
    return cut.reshape(high, PIXELS, wide, PIXELS, 3).mean(axis=(1, 3))


@pytest.mark.parametrize(
    ("theme", "motif", "ink"),
    [("rock-pool", "shell", ink) for ink in ("color", "gray", "outline")] + [(PLAIN_THEME, "disc", "color")],
)
def test_halves_laid_together_are_the_picture(theme, motif, ink):
    """Drawn side by side as the facts say, the halves are the whole, without a gap."""
    made = made_of(tray("halves", {"theme": theme, "ink": ink}, motif=motif))
    asked = tray("halves", {"theme": theme, "ink": ink}, motif=motif)
    width, height = made.pieces[0].facts.whole
    whole = pixels_of(asked.child.theme.motif(motif).drawing(ink, size=max(width, height)), width, height)
    laid = numpy.full_like(whole, 255)
    for number, piece in enumerate(made.pieces):
        (part,) = faces.pictures(piece.front)
        drawn = pixels_of(part.drawing, part.width, part.height)
        x = number * piece.width + part.x - (len(made.pieces) * piece.width - width) / 2
        left = round(x * PIXELS)
        assert left == round(piece.facts.shows[0] * width * PIXELS)
        laid[:, left : left + drawn.shape[1]] = drawn[:, : laid.shape[1] - left]
    apart = numpy.abs(in_mm(whole) - in_mm(laid)).max(axis=2)
    assert apart.max() < 60


@FEW
@given(sets())
def test_parts_are_one_picture_in_one_place(item):
    """All parts of a picture lie equally high, go on where the last one stopped, and show enough of it."""
    parts = item.asked.settings.parts
    for cards in together(item.pieces).values():
        assert [piece.facts.part for piece in cards] == list(range(1, parts + 1))
        assert len({(piece.width, piece.height) for piece in cards}) == 1
        shown = [faces.pictures(piece.front)[0] for piece in cards]
        assert len({(one.y, one.height) for one in shown}) == 1
        size = (cards[0].width, cards[0].height)
        assert max(cards[0].facts.whole) <= max(whole_box(size, parts)[2:]) + 0.01
        for number, (piece, one) in enumerate(zip(cards, shown, strict=True)):
            left = number * size[0] + one.x
            start, end = seen(size, parts, number)
            assert start - 0.01 <= left <= left + one.width <= end + 0.01
            assert one.width >= LEAST - 0.01
            if number:
                assert one.x == 0
            if number < parts - 1:
                assert one.x + one.width == pytest.approx(size[0], abs=0.002)
            first, last = piece.facts.shows
            assert (last - first) * piece.facts.whole[0] == pytest.approx(one.width, abs=0.05)
        assert cards[0].facts.shows[0] == 0
        assert cards[-1].facts.shows[1] == 1


@FEW
@given(sets())
def test_nothing_comes_near_an_outer_cut(item):
    """On outer edges frames keep 4 mm and pictures 6 mm; on inner ones both run up to the cut."""
    parts = item.asked.settings.parts
    for piece in item.pieces:
        at = piece.facts.part
        left = 6 if at == 1 else 0
        right = 6 if at == parts else 0
        inside = Rect(left, 6, piece.width - left - right, piece.height - 15)
        for mark in piece.front.marks:
            if isinstance(mark, Line):
                level = mark.y1 == mark.y2
                assert not level or mark.y1 in (4, piece.height - 4)
                assert level or mark.x1 in (4, piece.width - 4)
                assert min(mark.x1, piece.width - mark.x2) >= 0
            else:
                assert inside.holds(mark.bounds(), faces.NEAR)
        safe = Rect(0, 0, piece.width, piece.height).inset(6)
        assert all(
            faces.is_hairline(mark, piece) or safe.holds(mark.bounds(), 0.2) for mark in piece.back.marks
        )
        faces.assert_mark_is_clear(piece, backs=True)
        faces.assert_mark_is_clear(piece, backs=False)


@FEW
@given(sets())
def test_the_control_shows_which_part_it_is(item):
    """On the back the boxes of all parts stand in a row; the card's own is the control."""
    for piece in item.pieces:
        row = [mark for mark in piece.back.marks if getattr(mark, "radius", None) == 0]
        assert len(row) == piece.facts.parts
        own = row[piece.facts.part - 1]
        assert (own.x, own.y, own.width, own.height) == tuple(piece.control)
        assert len({id(faces.pictures(one.back)[0].drawing) for one in item.pieces}) == len(
            together(item.pieces)
        )


@pytest.mark.parametrize("theme", built_in())
def test_halves_are_mirror_images(theme):
    """Every picture that is cut in two is alike left and right: the facts say so, and the theme does."""
    asked = tray("halves", {"theme": theme}, count=4)
    for piece in made_of(asked).pieces:
        assert piece.facts.mirrored
        assert asked.child.theme.motif(piece.facts.motif).symmetric


def test_the_whole_picture_lies_in_the_middle_of_its_cards():
    """The cut runs through the middle of the picture: both halves are equally wide."""
    for cards in together(made_of(tray("halves", {"theme": "rock-pool"})).pieces).values():
        left, right = (faces.pictures(piece.front)[0] for piece in cards)
        assert left.width == pytest.approx(right.width, abs=0.003)


def test_a_picture_that_is_not_symmetric_is_refused():
    """The error names those that would do; each of them does."""
    (found,) = made_of(tray("halves", {"theme": "rock-pool"}, motif="fish")).problems

    assert found.found == "'fish' is not alike left and right, so it has no two halves to match"
    named = found.allowed.replace(" or ", ", ").split(", ")
    theme = load_theme("rock-pool", None, "theme")
    assert sorted(named) == sorted(motif.key for motif in theme.motifs if motif.symmetric)
    for motif in named:
        assert made_of(tray("halves", {"theme": "rock-pool"}, motif=motif)).pieces


@pytest.mark.parametrize(
    ("settings", "key", "said", "allowed"),
    [
        ({"motif": "dsc"}, "motif", "the theme has no motif 'dsc'", "disc"),
        ({"count": 9}, "count", "the theme has no 9 pictures alike left and right", "at most 4 with"),
        ({"motif": "disc", "count": 3}, "count", "with one motif named there is 1 picture, not 3", "= 1"),
        ({"motif": "flag", "parts": 4}, "motif", "'flag' is too slender to be cut into 4", "disc"),
        ({"size": [300, 300]}, "size", "a piece of 300 x 300 mm is larger than the sheet", "190 x 269"),
        (
            {"size": [40, 20]}, "size", "a card of 40 x 20 mm is too small for a part of a picture",
            "at least 14 x 40 mm",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_cut_is_told(settings, key, said, allowed):
    """Each refusal stands at its key and says what would do."""
    (found,) = made_of(tray("halves", **settings)).problems

    assert found.place.endswith(f".{key})")
    assert found.found == said
    assert allowed in found.allowed


def test_photos_are_cut_too(tmp_path):
    """A folder with one photo: its halves have its pixels, and check says that they differ."""
    folder = tmp_path / "mine"
    folder.mkdir()
    (folder / "pear.jpg").write_bytes(own_pictures.jpeg(1))
    asked = tray("halves", {"theme": str(folder)})
    made = made_of(asked)
    (motif,) = asked.child.theme.motifs

    assert len(made.pieces) == 2
    assert not is_symmetric(motif) or made.notes == ()
    whole = numpy.asarray(rasterise(motif.drawing("color", size=60), 300), dtype=int)
    left, right = (
        numpy.asarray(rasterise(faces.pictures(p.front)[0].drawing, 150), dtype=int) for p in made.pieces
    )
    assert numpy.abs(whole[:, :140].mean() - left[:, :140].mean()) < 6
    assert numpy.abs(whole[:, 160:].mean() - right[:, 10:].mean()) < 6
