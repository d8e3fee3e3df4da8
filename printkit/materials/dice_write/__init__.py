"""Roll and write: sheets on which a roll of the dice is written, traced and colored or laid out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import chain
from typing import Any, Literal

from printkit.checks import OneOf, Whole, Words, setting
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.dice_write.sides import Columns, Look, Side, columns, face_of, parted, side_of
from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when, word
from printkit.materials.layout import accent
from printkit.materials.motifs import chosen_motif
from printkit.pack import Tray
from printkit.pieces import Face, Piece
from printkit.texts import Note


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for dice-write."""

    dice: int = setting(1, Whole(1, 2), "one die (1 to 6) or two (2 to 12), on the front")
    second: Literal["language", "harder", "none"] | None = setting(
        None,
        OneOf(("language", "harder", "none")),
        "the other side: the second language, two dice, or nothing; unset: the second language if there is"
        " one, else two dice",
    )
    task: Literal["color", "place"] = setting(
        "color", OneOf(("color", "place")), "color that many pictures, or lay that many counters"
    )
    numeral: Literal["write", "trace"] = setting(
        "write", OneOf(("write", "trace")), "an empty line for the numeral, or one to trace"
    )
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is colored")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What stands on a sheet, from top to bottom: front, and back if there is one."""

    front: Side
    back: Side | None = None


_Laid = tuple[Side, Columns]


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A sheet, or a few, for one die or two; used whole."""
    settings: Settings = tray.settings
    if tray.size is not None:
        return refused(problem(tray, "size", "a sheet to roll and write on fills the whole sheet", "no size"))
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    sides = _sides(tray)
    if isinstance(sides, str):
        return refused(problem(tray, "second", sides, _SECOND))
    child = tray.child
    placed = settings.task == "place"
    photo = motif.motif.is_photo and not placed
    look = Look(
        child=child,
        motif=None if photo else motif,
        counter=child.counter if placed else 0.0,
        traced_numerals=settings.numeral == "trace",
        accent=accent(tray),
    )
    size = (room.width, room.height)
    laid: list[list[_Laid]] = []
    for side in sides:
        found = columns(side, look, size)
        if found is None:
            return refused(_too_large(tray, side, look, room))
        laid.append([(part, found[0]) for part in parted(side, found[1])])
    pieces = _pieces(tray, look, size, laid)
    lines = min(found.height for side in laid for _, found in side)
    notes = (Note("notes.no_coloring"),) if photo else ()
    return Made(
        pieces=tuple(pieces), needs=_needs(tray, sides), notes=(*notes, *needs.narrow_line(child, lines))
    )


_SECOND = "a second language beside the first, second = 'harder', or second = 'none'"


def _sides(tray: Tray) -> tuple[Side, ...] | str:
    """The sides from the first to the last, or why there is no second one."""
    settings: Settings = tray.settings
    child = tray.child
    first, *more = child.languages
    front = side_of(child, settings.dice, first)
    second = settings.second or ("language" if more else "harder" if settings.dice == 1 else "none")
    if second == "language":
        if not more:
            return "there is no second language for the other side"
        return (front, side_of(child, settings.dice, more[0]))
    if second == "harder":
        if settings.dice == 2:
            return "two dice are the harder side already"
        return (front, side_of(child, 2, first))
    return (front,)


def _needs(tray: Tray, sides: Sequence[Side]) -> tuple[Need, ...]:
    most = max(max(side.numbers) for side in sides)
    counters = (Need(what="counters", count=most, size=tray.child.counter),)
    return (
        Need(what="dice", count=max(side.dice for side in sides)),
        Need(what="wipe-off pen", count=1),
        *(counters if tray.settings.task == "place" else ()),
    )


def _too_large(tray: Tray, side: Side, look: Look, room: Room):
    """A word that is longer than its line, or counters that find no room."""
    size = (room.width, room.height)
    if look.counter:
        fitting = (float(mm) for mm in range(int(look.counter), 7, -1))
        most = next((mm for mm in fitting if columns(side, replace(look, counter=mm), size)), 0.0)
        if most:
            found = f"places for {side.numbers[-1]} counters of {look.counter:g} mm do not fit the sheet"
            return problem(tray, "counter", found, f"at most {most:g} mm there, or task = 'color'")
    found = (
        f"rows with {side.numbers[-1]} things do not fit a sheet of {room.width:.4g} x {room.height:.4g} mm"
    )
    return problem(tray, "paper", found, "larger paper, such as a5, a4 or letter")


# --- pieces ----------------------------------------------------------------------------------


def _pieces(tray: Tray, look: Look, size: tuple[float, float], laid: list[list[_Laid]]) -> list[Piece]:
    """Sheet by sheet; the other side lies behind the first unless backs are not printed."""
    apart = tray.child.flip.of(tray.stock) == "none"
    fronts, backs = (list(chain(*laid)), []) if apart or len(laid) == 1 else laid
    if len(backs) > len(fronts):
        fronts, backs = [*fronts, *backs[len(fronts) :]], backs[: len(fronts)]
    pieces = []
    for n, front in enumerate(fronts):
        back = backs[n] if n < len(backs) else None
        pieces.append(
            Piece(
                child=tray.child.name,
                set=tray.set,
                material=tray.material,
                key=f"sheet-{n + 1}",
                width=size[0],
                height=size[1],
                front=_face(front, look, size),
                back=_face(back, look, size) if back else None,
                facts=Facts(front=front[0], back=back[0] if back else None),
                stock=tray.stock,
                cut=False,
            )
        )
    return pieces


def _face(laid: _Laid, look: Look, size: tuple[float, float]) -> Face:
    side, places = laid
    return face_of(side, look, places, size)


# --- what the guide says ---------------------------------------------------------------------


def _about(tray: Tray, say: Say) -> str:
    """'numbers 1 to 6', of all sides together."""
    sides = _sides(tray)
    numbers = [n for side in sides if isinstance(side, Side) for n in side.numbers]
    return say("label.numbers", first=min(numbers), last=max(numbers))


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    sides = [side for piece in pieces for side in (piece.facts.front, piece.facts.back) if side]
    return Holding(
        variants=when(two=tray.settings.dice == 2, place=tray.settings.task == "place"),
        notes=when(
            languages=len({side.language for side in sides}) > 1,
            harder=len({side.dice for side in sides}) > 1,
        ),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`n`: a number of the sheet."""
    numbers = facts[0].front.numbers
    return {"n": word(numbers[min(3, len(numbers) - 1)], spelled)}


MATERIAL = Material(
    name="dice-write",
    order=150,
    line="roll a die or two, write the numeral, trace the word, color or lay out that many",
    track="writing",
    settings=Settings,
    facts=Facts,
    stock="plain",
    make=make,
    guidance=Guidance(about=_about, holding=_holding, examples=_examples),
)
