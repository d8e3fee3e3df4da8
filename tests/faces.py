"""What every face must keep, read from its marks: distances from the cut, numerals on their rules."""

from collections.abc import Iterator
from typing import NamedTuple

from hypothesis import strategies as st
from strategies import legal_value, pack_keys, written_languages

from printkit.pack import Tray
from printkit.pieces import Box, Face, Line, Mark, Picture, Piece, Text
from printkit.sheets.foot import with_mark
from printkit.units import PAPERS, Rect

NEAR = 0.003


class Set(NamedTuple):
    """A tray and the pieces it makes; its repr says how to make it again, not what is drawn."""

    asked: Tray
    pieces: tuple[Piece, ...]
    seed: int

    def __repr__(self) -> str:
        child = self.asked.child
        return (
            f"Set({self.asked.material}, {self.asked.settings}, size {self.asked.size}, "
            f"seed {self.seed}, "
            f"paper {child.paper}, margin {child.margin}, numbers {child.numbers}, {child.languages}, "
            f"{child.ink}, counter {child.counter}, {child.numerals})"
        )


def faces(piece: Piece) -> Iterator[Face]:
    """The sides of a piece that are drawn on."""
    yield piece.front
    if piece.back is not None:
        yield piece.back


def is_hairline(mark: Mark, piece: Piece) -> bool:
    """Whether a mark is the fine frame of a card: an empty box 4 mm inside the cut."""
    return isinstance(mark, Box) and mark.fill is None and mark.line <= 0.3 and _same(
        Rect(mark.x, mark.y, mark.width, mark.height), Rect(0, 0, piece.width, piece.height).inset(4)
    )  # fmt: skip


def _same(one: Rect, two: Rect) -> bool:
    return all(abs(a - b) <= NEAR for a, b in zip(one, two, strict=True))


def inked(mark: Mark) -> Rect:
    """The bounds of a mark; an upright or level line with straight ends has no ink beyond them."""
    box = mark.bounds()
    if not isinstance(mark, Line) or mark.round_ends:
        return box
    half = mark.line / 2
    if mark.x1 == mark.x2:
        return Rect(box.left, box.top + half, box.width, box.height - 2 * half)
    if mark.y1 == mark.y2:
        return Rect(box.left + half, box.top, box.width - 2 * half, box.height)
    return box


def assert_inside(piece: Piece) -> None:
    """One hairline 4 mm inside the cut, all else at least 6 mm; a home printer drifts by 1 to 2 mm."""
    safe = Rect(0, 0, piece.width, piece.height).inset(6)
    for face in faces(piece):
        assert sum(is_hairline(mark, piece) for mark in face.marks) == 1
        for mark in face.marks:
            assert is_hairline(mark, piece) or safe.holds(inked(mark), NEAR), mark


def assert_mark_is_clear(piece: Piece, *, backs: bool) -> None:
    """The set mark touches nothing that is drawn on its face, the hairline round it left out."""
    marked = with_mark(piece, backs)
    for before, after in zip(faces(piece), faces(marked), strict=True):
        for added in after.marks[len(before.marks) :]:
            touched = [mark for mark in before.marks if _touches(added.bounds(), mark, piece)]
            assert not touched, touched
            assert Rect(0, 0, piece.width, piece.height).inset(6).holds(added.bounds(), NEAR)


def _touches(bounds: Rect, mark: Mark, piece: Piece) -> bool:
    return not is_hairline(mark, piece) and bounds.meets(mark.bounds())


def texts(face: Face) -> list[Text]:
    """The runs of text on a face."""
    return [mark for mark in face.marks if isinstance(mark, Text)]


def numerals(face: Face) -> list[Text]:
    """The texts that are digits only."""
    return [text for text in texts(face) if text.run.text.isdigit()]


def pictures(face: Face) -> list[Picture]:
    """The pictures on a face."""
    return [mark for mark in face.marks if isinstance(mark, Picture)]


def assert_numerals_stand_on_rules(face: Face) -> None:
    """Under every loose numeral runs a short rule, so that 6 and 9 cannot be read upside down."""
    rules = [mark for mark in face.marks if isinstance(mark, Line) and mark.y1 == mark.y2]
    for text in numerals(face):
        box = text.bounds()
        under = [
            rule for rule in rules
            if box.bottom - 0.05 * box.height <= rule.y1 - rule.line / 2
            and rule.y1 <= box.bottom + 0.2 * box.height
            and rule.x1 <= box.left + NEAR and rule.x2 >= box.right - NEAR
            and rule.x2 - rule.x1 < box.width + 0.4 * box.height
        ]  # fmt: skip
        assert len(under) == 1, text.run.text


# --- turned upside down ----------------------------------------------------------------------

_UPSIDE_DOWN = {"0": "0", "1": "1", "6": "9", "8": "8", "9": "6"}


def upside_down(face: Face, piece: Piece) -> set[tuple]:
    """What a face shows when it is turned by 180 degrees, with 6 and 9 taken for each other.

    Pictures and lines are taken as their boxes, as if all looked the same when turned.
    """
    return {_shown(mark, piece, turned=True) for mark in face.marks}


def upright(face: Face, piece: Piece) -> set[tuple]:
    """What a face shows as it stands, told in the same way."""
    return {_shown(mark, piece, turned=False) for mark in face.marks}


def _shown(mark: Mark, piece: Piece, *, turned: bool) -> tuple:
    box = mark.bounds()
    left, top = (piece.width - box.right, piece.height - box.bottom) if turned else (box.left, box.top)
    place = tuple(round(part, 1) + 0.0 for part in (left, top, box.width, box.height))
    if not isinstance(mark, Text):
        return (type(mark).__name__, place)
    text = mark.run.text
    if turned:
        flipped = [_UPSIDE_DOWN.get(char) for char in reversed(text)]
        text = "".join(flipped) if all(flipped) else f"{text} upside down"
    return ("Text", text, round(box.left + box.width / 2) if not turned else round(left + box.width / 2),
            round(top + box.height / 2))  # fmt: skip


def assert_none_is_another_turned(pieces: tuple[Piece, ...]) -> None:
    """No face of a set equals another one that was turned by half a turn."""
    shown = [(piece, face) for piece in pieces for face in faces(piece)]
    upright_ones = [upright(face, piece) for piece, face in shown]
    turned_ones = [upside_down(face, piece) for piece, face in shown]
    for i, one in enumerate(upright_ones):
        for j, two in enumerate(turned_ones):
            assert i == j or one != two, (shown[i][0].key, shown[j][0].key)


# --- legal children --------------------------------------------------------------------------

PAPERS_AND_OWN = [*PAPERS, [130, 180], [180.5, 240.25], [150.00037, 200.00037]]


def children(**fixed) -> st.SearchStrategy[dict]:
    """What a child may set: paper, margin, languages, ink, counters, numerals; `fixed` are given."""
    tags = st.sampled_from(written_languages())
    keys = {
        "paper": st.sampled_from(PAPERS_AND_OWN),
        "margin": st.sampled_from((3, 6.35, 10, 15)),
        "languages": st.lists(tags, min_size=1, max_size=2, unique=True),
        "counter": st.sampled_from((10, 18, 22)),
        "ink": pack_keys()["ink"],
        "numerals": pack_keys()["numerals"],
    }
    given = {key: st.just(value) for key, value in fixed.items()}
    return st.fixed_dictionaries(
        given, optional={key: value for key, value in keys.items() if key not in fixed}
    )


@st.composite
def numbers_for(draw, arrange) -> list[int]:
    """A range of numbers that can be laid in every way of `arrange`, a few numbers long."""
    names = [arrange] if isinstance(arrange, str) else list(arrange)
    if "array" in names:
        first, last = draw(st.sampled_from(((4, 4), (6, 6), (8, 10), (14, 16), (20, 20))))
        narrow = {"dice": 6, "scatter": 5}
        if any(last > narrow.get(name, 20) for name in names):
            first, last = 4, 4
        return [first, last]
    most = min({"line": 20, "ring": 20, "dice": 6, "scatter": 5}.get(name, 100) for name in names)
    first = draw(st.integers(0, most))
    return [first, min(most, first + draw(st.integers(0, 9)))]


def arrangements() -> st.SearchStrategy[str | list[str]]:
    """One way to lie, or several."""
    from dataclasses import fields

    from printkit.materials import materials

    settings = {field.name: field for field in fields(materials()["counting-cards"].settings)}
    return legal_value(settings["arrange"].metadata["check"])


def grounds(face: Face, piece: Piece) -> tuple[Box, ...]:
    """The boxes round the place where things lie, the hairline left out."""
    return tuple(
        mark
        for mark in face.marks
        if isinstance(mark, Box) and not is_hairline(mark, piece)
        and any(mark.bounds().holds(area.box) for area in face.areas)
    )  # fmt: skip
