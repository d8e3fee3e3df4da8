"""Bingo: boards that all differ and can all win, and cards to call from."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from printkit.chance import Chance
from printkit.checks import OneOf, Whole, Words, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.bingo.boards import SHAPES, boards, most_boards, sides_of
from printkit.materials.bingo.faces import (
    AIR,
    SMALLEST_WORD,
    Shown,
    board_cells,
    board_face,
    call_box,
    call_face,
    drawing_size,
    word_size,
)
from printkit.materials.bingo.guidance import GUIDANCE
from printkit.materials.bingo.values import (
    calls_for,
    least_values,
    motifs_of,
    numbers_of,
    shape_of_boards,
    used,
)
from printkit.materials.layout import SMALLEST_THING, fits_sheet, set_marked, size_problem
from printkit.materials.motifs import chosen_motif
from printkit.materials.naming import SPARSE
from printkit.materials.quantities import quantities
from printkit.pack import Tray
from printkit.pieces import Face, Piece
from printkit.texts import Note
from printkit.units import Rect

BOARDS = {
    #                          on a sheet of A4 and of Letter
    "small": (94.0, 125.0),  # 4 and 4
    "medium": (188.0, 125.0),  # 2 and 2
    "large": (188.0, 251.0),  # 1 and 1
}
CARDS = ((47.0, 62.0), (62.0, 88.0), (94.0, 125.0), (188.0, 125.0))
"""Calling cards: 16, 9, 4, 2 on A4; the smallest that has room."""
Shows = Literal["numerals", "things", "words", "pictures"]
Size = tuple[float, float]
_CLEAR_THING = 7.0
"""mm of things on a card that is held up for all to see, where there is room (design choice)."""
_SMALLEST_NUMERAL = 8.0
"""mm of the smallest cell side that a numeral can be read in across a table (design choice)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for bingo."""

    board: Literal["numerals", "things", "words", "pictures"] = setting(
        "numerals", OneOf(("numerals", "things", "words", "pictures")), "what the boards show"
    )
    calls: Literal["numerals", "things", "words"] | None = setting(
        None,
        OneOf(("numerals", "things", "words")),
        "what the calling cards show; unset: things for boards of numerals (words beyond 20), else numerals",
    )
    boards: int = setting(4, Whole(2, 12), "how many boards, one a player")
    shape: Literal["2x2", "2x3", "3x3", "3x4", "4x4"] | None = setting(
        None, OneOf(SHAPES), "rows and columns of a board; unset: what suits the numbers, up to 3x3"
    )
    win: Literal["board", "row"] = setting(
        "board", OneOf(("board", "row")), "who wins: the first full board, or the first full row across"
    )
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is counted")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What is true of a board or of a calling card.

    A board has `cells`, its numbers or names of motifs in reading order, `columns` to a row; a card
    `calls` one of them. `words` are what a card carries, `written` what the cells of a board do.
    """

    shows: Shows
    calls: int | str | None = None
    cells: tuple[int | str, ...] = ()
    columns: int = 0
    words: dict[str, str] = field(default_factory=dict, metadata=SPARSE)
    written: tuple[str, ...] = field(default=(), metadata=SPARSE)


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Boards, and a calling card for every value of the game."""
    settings: Settings = tray.settings
    size = _board_size(tray, room)
    if not fits_sheet(size, room):
        return refused(size_problem(tray, room, size))
    wrong = _impossible(tray) or chosen_motif(seed, tray).problem
    if wrong is not None:
        return refused(wrong)
    values = _values(seed, tray)
    rows, columns = _laid_out(shape_of_boards(tray, len(values)), size)
    if settings.boards > most_boards(len(values), rows * columns):
        return refused(_too_many_boards(tray, len(values), rows, columns))
    chance = Chance(seed, tray.child.name, tray.set, "boards")
    laid = boards(len(values), rows, columns, settings.boards, chance, rows_differ=settings.win == "row")
    if laid is None:
        return refused(_rows_alike(tray, len(values), rows, columns))
    on_board = _shown(seed, tray, values, settings.board, board_cells(size, rows, columns)[0])
    wrong = _too_small(tray, on_board, size, board_cells(size, rows, columns)[0])
    if wrong is not None:
        return refused(wrong)
    cards = _cards(seed, tray, room, values)
    if cards is None:
        return refused(_calls_too_many(tray, values))
    pieces = [
        _board(on_board, size, (rows, columns), [values[i] for i in board], n)
        for n, board in enumerate(laid, 1)
    ]
    pieces += [_call(cards[0], cards[1], value) for value in values]
    gather = (Need(what="counters", count=rows * columns * settings.boards, size=tray.child.counter),)
    return Made(
        pieces=set_marked(pieces), needs=gather, notes=_notes(tray, board_cells(size, rows, columns)[0])
    )


def _board_size(tray: Tray, room: Room) -> Size:
    """The size asked for; half a sheet if none is, or all of it where that is larger than the sheet."""
    if isinstance(tray.size, tuple):
        return tray.size
    if tray.size is not None:
        return BOARDS[tray.size]
    if needs.is_large(tray.child):
        return tuple(room)
    return BOARDS["medium"] if fits_sheet(BOARDS["medium"], room) else tuple(room)


def _laid_out(shape: str, size: Size) -> tuple[int, int]:
    """Rows and columns: the longer way along the longer side."""
    rows, columns = sides_of(shape)
    return (columns, rows) if size[1] > size[0] else (rows, columns)


def _values(seed: int, tray: Tray) -> tuple[int | str, ...]:
    if tray.settings.board == "pictures":
        return tuple(motif.key for motif in motifs_of(seed, tray))
    return numbers_of(seed, tray)


def _notes(tray: Tray, cell: Rect) -> tuple[str, ...]:
    notes = []
    numbers = tray.child.numbers
    if tray.settings.board != "pictures" and used(tray) != numbers:
        first, last = used(tray)
        notes.append(Note("notes.bingo_numbers", count=least_values(tray), first=first, last=last))
    across = min(cell.width, cell.height) + 2 * AIR
    if tray.child.counter > across:
        notes.append(Note("notes.over_cells", counter=float(tray.child.counter), across=round(across, 1)))
    return tuple(notes)


# --- what cannot be made ---------------------------------------------------------------------


def _impossible(tray: Tray):
    settings: Settings = tray.settings
    if settings.board == "pictures":
        if settings.calls is not None:
            return problem(
                tray,
                "calls",
                f"{settings.calls} cannot call pictures",
                "leave it out, and pictures call them",
            )
        there, needed = len(tray.child.theme.motifs), least_values(tray)
        if there < needed:
            pictures = "1 picture" if there == 1 else f"{there} pictures"
            return problem(
                tray,
                "theme",
                f"boards of pictures need {needed} of them, "
                f"but the theme '{tray.child.theme.name}' has only {pictures}",
                "a theme with more pictures, a smaller shape or board = 'numerals'",
            )
    return None


def _too_many_boards(tray: Tray, values: int, rows: int, columns: int):
    most = most_boards(values, rows * columns)
    return problem(
        tray,
        "boards",
        f"{tray.settings.boards} boards of {rows} x {columns} that all differ "
        f"cannot be made of {values} values",
        f"at most {most}, or a wider range, or a smaller shape",
    )


def _rows_alike(tray: Tray, values: int, rows: int, columns: int):
    return problem(
        tray,
        "boards",
        f"{tray.settings.boards} boards of {rows} x {columns} whose rows all differ were not found "
        f"with {values} values",
        "fewer boards, a wider range, or win = 'board'",
    )


def _too_small(tray: Tray, shown: Shown, size: Size, cell: Rect):
    """What is too small to be read or counted on the boards."""
    mend = "larger boards, or a smaller shape"
    if shown.how == "things" and shown.things.thing < SMALLEST_THING:
        found = f"{shown.numbers[-1]} things of {SMALLEST_THING:g} mm or more do not fit a cell"
        mend += ", smaller numbers, or board = 'numerals'"
    elif shown.how == "words" and shown.word < SMALLEST_WORD:
        found = f"the words would be smaller than {SMALLEST_WORD:g} mm in a cell"
    elif min(cell.width, cell.height) < _SMALLEST_NUMERAL:
        found = "nothing can be read in a cell"
    else:
        return None
    return problem(
        tray,
        "size" if tray.size is not None else "board",
        f"{found} of {cell.width:.3g} x {cell.height:.3g} mm on a board of {size[0]:.4g} x {size[1]:.4g} mm",
        mend,
    )


def _calls_too_many(tray: Tray, values: Sequence[int | str]):
    return problem(
        tray,
        "calls",
        f"{values[-1]} things of {SMALLEST_THING:g} mm or more do not fit a card as large as the sheet"
        if calls_for(tray) == "things"
        else "the words do not fit a card as large as the sheet",
        "calls = 'numerals', or smaller numbers",
    )


# --- how values are shown --------------------------------------------------------------------


def _shown(
    seed: int, tray: Tray, values: Sequence[int | str], how: str, box: Rect, *, languages: int = 1
) -> Shown:
    """The values as large as all of them allow in a box."""
    child = tray.child
    if how == "pictures":
        chosen = [motif for motif in child.theme.motifs if motif.key in values]
        size = drawing_size(box)
        return Shown(how=how, tray=tray, drawings={m.key: m.drawing(child.ink, size=size) for m in chosen})
    numbers = tuple(int(value) for value in values)
    if how == "things":
        return Shown(
            how=how, tray=tray, numbers=numbers, things=quantities(chosen_motif(seed, tray), numbers, box)
        )
    if how == "words":
        tags = child.languages[:languages]
        words = {n: tuple(child.spelled(tag, n) for tag in tags) for n in numbers}
        return Shown(how=how, tray=tray, numbers=numbers, words=words, word=word_size(words, box))
    return Shown(how=how, tray=tray, numbers=numbers)


def _cards(seed: int, tray: Tray, room: Room, values: Sequence[int | str]) -> tuple[Shown, Size] | None:
    """How the calling cards show the values, on the smallest card where they are clear, or large enough."""
    how = calls_for(tray)
    edge = needs.least_piece(tray.child)
    cards = dict.fromkeys((max(wide, edge), max(high, edge)) for wide, high in CARDS)
    sizes = [size for size in (*cards, tuple(room)) if fits_sheet(size, room)]
    # A board has room for one language; the card that calls says all of them.
    found = [(_shown(seed, tray, values, how, call_box(size), languages=2), size) for size in sizes]
    for least in (needs.least_thing(tray.child, _CLEAR_THING), _CLEAR_THING, SMALLEST_THING):
        for shown, size in found:
            things = shown.how != "things" or shown.things.thing >= least
            words = shown.how != "words" or shown.word >= SMALLEST_WORD
            if things and words:
                return shown, size
    return None


# --- pieces ----------------------------------------------------------------------------------


def _board(shown: Shown, size: Size, shape: tuple[int, int], values: Sequence[int | str], n: int) -> Piece:
    rows, columns = shape
    written = tuple(line for value in values for line in shown.words.get(value, ()))
    facts = Facts(shows=shown.how, cells=tuple(values), columns=columns, written=written)
    face = board_face(size, rows, columns, values, shown)
    return _piece(shown.tray, f"board-{n}", size, face, facts, board_cells(size, rows, columns))


def _call(shown: Shown, size: Size, value: int | str) -> Piece:
    languages = shown.tray.child.languages
    words = dict(zip(languages, shown.words.get(value, ()), strict=False))
    facts = Facts(shows=shown.how, calls=value, words=words)
    return _piece(shown.tray, f"call-{value}", size, call_face(size, value, shown), facts)


def _piece(tray: Tray, key: str, size: Size, face: Face, facts: Facts, boxes: tuple[Rect, ...] = ()) -> Piece:
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=key,
        width=size[0],
        height=size[1],
        front=face,
        facts=facts,
        stock=tray.stock,
        boxes=boxes,
    )


MATERIAL = Material(
    name="bingo",
    order=130,
    line="boards that all differ and can all win, with cards to call numerals, things, words or pictures",
    track="counting",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
