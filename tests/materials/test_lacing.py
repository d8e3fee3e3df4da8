"""Lacing: holes far enough from one another and from the edge, by geometry on every motif of all themes."""

import io
import math
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path

import faces
import numpy
import own_pictures
import pytest
import resvg_py
from PIL import Image, ImageDraw
from scipy import ndimage
from strategies import PLAIN_THEME, made_of, tray

from printkit.materials.contours import distance_to, holds, places_along, silhouette
from printkit.materials.lacing import APART, CLEAR, EDGE, HOLE, RIM, SHORTEST, laced
from printkit.materials.layout import CONTENT_INSET
from printkit.pictures import built_in, load_theme
from printkit.pieces import Dot, Drawing, Shape
from printkit.units import Rect

THEMES = built_in()


@cache
def inside(theme: str, motif: str) -> numpy.ndarray:
    """What a motif covers with its gaps filled, drawn by another renderer, cropped to its ink."""
    file = load_theme(theme, Path(), "theme").folder / f"{motif}.svg"
    png = resvg_py.svg_to_bytes(svg_path=str(file), width=600)
    alpha = numpy.asarray(Image.open(io.BytesIO(bytes(png))).convert("RGBA"))[:, :, 3] > 127
    rows, columns = numpy.flatnonzero(alpha.any(axis=1)), numpy.flatnonzero(alpha.any(axis=0))
    return ndimage.binary_fill_holes(alpha[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1])


def holes(piece) -> list[Dot]:
    """The rings of the holes."""
    return [mark for mark in piece.front.marks if isinstance(mark, Dot) and mark.stroke is not None]


@pytest.mark.parametrize("theme", THEMES)
def test_holes_keep_their_distances_on_every_motif(theme):
    """As short as pictures may be: centers are 15 mm apart, edges of holes 8 mm inside the card's contour
    and 2 mm outside the picture. The picture is that of another renderer, the contour drawn by Pillow.
    """
    for motif in load_theme(theme, Path(), "theme").motifs:
        found = laced(motif, "color", SHORTEST, 20.0)
        assert found.why_not == ""
        assert min(math.dist(a, b) for a, b in combinations(found.places, 2)) >= APART
        covered = inside(theme, motif.key)
        scale, pad = max(covered.shape) / SHORTEST, 150
        covered = numpy.pad(covered, pad)
        card = Image.new("1", covered.shape[::-1], 0)
        corners = [(x * scale + pad, y * scale + pad) for x, y in found.contour]
        ImageDraw.Draw(card).polygon(corners, fill=1)
        deep = ndimage.distance_transform_edt(numpy.asarray(card)) / scale
        away = ndimage.distance_transform_edt(~covered) / scale
        for x, y in found.places:
            at = round(y * scale + pad), round(x * scale + pad)
            # Two tenths for what another renderer and whole pixels may differ by.
            assert deep[at] >= HOLE / 2 + EDGE - 0.2, motif.key
            assert away[at] >= HOLE / 2 + CLEAR - 0.2, motif.key


def test_facts_say_what_is_drawn():
    """Number, places, spacing and distances are those of the marks; the start has the large dot."""
    for piece in made_of(tray("lacing", {"theme": "rock-pool"}, count=3)).pieces:
        facts = piece.facts
        marks = holes(piece)
        assert [(mark.x, mark.y) for mark in marks] == list(facts.places)
        assert len(marks) == facts.holes >= 8
        assert all(2 * mark.bounds().width / 2 == pytest.approx(HOLE) for mark in marks)
        steps = [math.dist(a, b) for a, b in pairwise((*facts.places, facts.places[0]))]
        assert max(steps) <= facts.spacing + 0.01
        assert facts.spacing >= 20
        assert min(math.dist(a, b) for a, b in combinations(facts.places, 2)) == pytest.approx(
            facts.closest, abs=0.01
        )
        assert facts.closest >= APART
        assert facts.to_edge >= EDGE
        assert facts.to_picture >= CLEAR
        assert facts.lace >= 1.3 * facts.spacing * facts.holes - 0.2
        dots = [mark for mark in piece.front.marks if isinstance(mark, Dot) and mark.stroke is None]
        assert [(dot.x, dot.y) for dot in dots] == list(facts.places)
        assert [dot.radius > 1 for dot in dots] == [True] + [False] * (facts.holes - 1)


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "a3"])
def test_cards_are_as_large_as_the_paper_allows(paper):
    """The picture is 81 to 160 mm long, 120 and more with its rim, and fits the sheet, 6 mm from the cut."""
    made = made_of(tray("lacing", {"paper": paper, "theme": "rock-pool"}))
    assert len(made.pieces) == 2
    for piece in made.pieces:
        assert SHORTEST <= piece.facts.length <= 160
        shown, edge = faces.pictures(piece.front)
        assert max(shown.width, shown.height) == piece.facts.length
        assert max(edge.width, edge.height) >= 120 - 1
        assert edge.bounds().holds(shown.bounds().inset(-RIM + 1), faces.NEAR)
        assert Rect(0, 0, piece.width, piece.height).inset(CONTENT_INSET - 0.5).holds(edge.bounds())
        faces.assert_mark_is_clear(piece, backs=False)


@pytest.mark.parametrize(("size", "length"), [("small", 120), ("medium", 150), ("large", 180)])
def test_sizes_are_lengths(size, length):
    """Small, medium and large pictures."""
    made = made_of(tray("lacing", motif="square", size=size, paper="a3"))

    assert made.pieces[0].facts.length == length


def test_a_closer_spacing_gives_more_holes():
    """With 15 mm there are more holes than with 30, none closer than 15 mm."""
    many, few = (made_of(tray("lacing", motif="square", spacing=gap)).pieces[0].facts for gap in (15, 30))

    assert many.holes > few.holes
    assert many.closest >= APART
    assert few.spacing >= 30


# --- what cannot be laced --------------------------------------------------------------------


def parts_theme(folder: Path) -> str:
    """A theme of two discs side by side, one disc and a stick; only the two lie in parts."""
    folder.mkdir()
    disc = '<circle cx="{x}" cy="30" r="28" fill="#1f5fa8"/>'
    head = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 130 60">'
    (folder / "pair.svg").write_text(f"{head}{disc.format(x=30)}{disc.format(x=100)}</svg>")
    (folder / "one.svg").write_text(f"{head}{disc.format(x=60)}</svg>")
    (folder / "stick.svg").write_text(f'{head}<rect width="130" height="12" fill="#b5432f"/></svg>')
    return str(folder)


def test_a_silhouette_in_parts_is_refused(tmp_path):
    """The error says in how many parts, and which motifs would do."""
    (found,) = made_of(tray("lacing", {"theme": parts_theme(tmp_path / "discs")}, motif="pair")).problems

    assert found.place.endswith("(children[0].materials[0].motif)")
    assert found.found == "'pair' lies in 2 parts, and a lace holds only one together"
    assert found.allowed == "one or stick"


def test_a_thin_motif_is_laced(tmp_path):
    """Holes go round a stick as well, as they lie in the rim."""
    theme = {"theme": parts_theme(tmp_path / "discs")}
    (piece,) = made_of(tray("lacing", theme, motif="stick")).pieces
    assert piece.facts.to_picture >= CLEAR


@pytest.mark.parametrize(
    ("child", "settings", "key", "said", "allowed"),
    [
        ({}, {"motif": "dsc"}, "motif", "the theme has no motif 'dsc'", "disc"),
        (
            {}, {"motif": "square", "length": 200}, "length",
            "a card of 251 x 254 mm, with 'square' 200 mm long, is larger than the sheet", "190 x 269 mm",
        ),
        (
            {}, {"motif": "square", "size": [100, 100]}, "size",
            "on a card of 100 x 100 mm the picture is shorter than 81 mm", "at least 132 x 135 mm",
        ),
        ({}, {"count": 12}, "count", "the theme has no 12 pictures that can be laced", "at most "),
    ],
)  # fmt: skip
def test_what_cannot_be_made_is_told(child, settings, key, said, allowed):
    """Each refusal stands at its key and says what would do."""
    (found,) = made_of(tray("lacing", child, **settings)).problems

    assert found.place.endswith(f".{key})")
    assert found.found == said
    assert allowed in found.allowed


def test_a_single_photo_is_laced(tmp_path):
    """A folder with one photo: the holes go round the whole of it."""
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "pear.jpg").write_bytes(own_pictures.jpeg(1))
    made = made_of(tray("lacing", {"theme": str(tmp_path / "mine")}))

    (piece,) = made.pieces
    shown, _ = faces.pictures(piece.front)
    assert not any(
        shown.bounds().inset(-HOLE / 2 - CLEAR + 0.1).holds(Rect(x, y, 0, 0)) for x, y in piece.facts.places
    )


# --- contours --------------------------------------------------------------------------------


def square(side: float, hole: float = 0) -> Drawing:
    """A square, perhaps with a square gap in its middle."""

    def edges(start: float, end: float):
        corners = [(start, start), (end, start), (end, end), (start, end)]
        return (("M", *corners[0]), *(("L", *corner) for corner in corners[1:]), ("Z",))

    path = edges(0, side) + (edges((side - hole) / 2, (side + hole) / 2) if hole else ())
    return Drawing(
        name="square", width=side, height=side, shapes=(Shape(path=path, fill=(0,), even_odd=True),)
    )


@pytest.mark.parametrize("hole", [0, 20])
def test_the_contour_of_a_square_is_its_edge(hole):
    """Gaps within are no part of the contour; distances from it are exact to half a millimeter."""
    shape = silhouette(square(100, hole), 100, 100)

    assert shape.parts == 1
    assert distance_to((50, 50), shape.contour) == pytest.approx(50, abs=0.3)
    assert distance_to((20, 70), shape.contour) == pytest.approx(20, abs=0.3)
    assert holds(shape.contour, (50, 50))
    assert not holds(shape.contour, (101, 50))


def test_places_lie_evenly_along_a_way():
    """On the edges of a square of 40 mm, eight places lie 20 mm apart, from the start that was asked for."""
    found = places_along(((0, 0), (40, 0), (40, 40), (0, 40)), 8, 10)

    assert found == ((10, 0), (30, 0), (40, 10), (40, 30), (30, 40), (10, 40), (0, 30), (0, 10))


def test_plain_theme_has_motifs_to_lace():
    """The discs and squares of the tests' own theme can be laced."""
    assert {piece.key for piece in made_of(tray("lacing", {"theme": PLAIN_THEME})).pieces}
