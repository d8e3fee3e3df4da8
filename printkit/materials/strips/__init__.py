"""Strips: addition and subtraction facts to complete, with things or places for counters above."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

from printkit.chance import Chance
from printkit.checks import Flag, OneOf, Whole, Words, setting
from printkit.errors import Problem, listing
from printkit.materials import needs
from printkit.materials.base import Made, Material, Need, Room, problem, refused
from printkit.materials.layout import (
    SMALLEST_THING,
    accent,
    fits_sheet,
    set_marked,
    shape_of,
    size_problem,
)
from printkit.materials.motifs import ChosenMotif, chosen_motif
from printkit.materials.naming import MODES, SPARSE, naming
from printkit.materials.strips.equation import Figures
from printkit.materials.strips.faces import Look, back, counters, front, own_back, own_front
from printkit.materials.strips.facts import (
    UNKNOWNS,
    Task,
    operations,
    tasks,
)
from printkit.materials.strips.groups import Shape
from printkit.materials.strips.guidance import GUIDANCE
from printkit.materials.strips.picking import PICKS, Picking, none_picked, picked_facts
from printkit.materials.strips.plan import Fit, Help, Wants, fitted, met
from printkit.materials.tile_faces import PLAY
from printkit.pack import Tray
from printkit.pieces import Face, Piece
from printkit.units import Rect
from printkit.words import find


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for strips."""

    operation: Literal["add", "subtract", "both"] = setting(
        "add", OneOf(("add", "subtract", "both")), "put together, take away, or half of each"
    )
    unknown: Literal["result", "change", "start", "mixed"] = setting(
        "result",
        OneOf((*UNKNOWNS, "mixed")),
        "which number is asked for: the result, the second, the first, or each as often",
    )
    pick: Literal["any", "exact", "doubles", "through-ten"] = setting(
        "any",
        OneOf(PICKS),
        "which facts: any, those of sums_to itself, doubles, or those that go through ten (8 + 6, 14 - 6)",
    )
    known: int | None = setting(
        None, Whole(2, 100), "the sum the child is sure of: a third of the strips stay within it"
    )
    help: Literal["pictures", "places", "none"] | None = setting(
        None,
        OneOf(("pictures", "places", "none")),
        "things drawn above the numbers, places for counters, or neither; "
        "unset: pictures to 20 where they fit",
    )
    own: int = setting(0, Whole(0, 24), "blank strips for the child's own equations")
    order: Literal["climbing", "shuffled"] = setting(
        "climbing", OneOf(("climbing", "shuffled")), "from small to large, or in any order"
    )
    count: int | None = setting(None, Whole(1, 200), "how many strips; unset: at most 12")
    zero: bool = setting(False, Flag(), "whether 0 may stand in an equation")
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is counted")
    words: Literal["number", "phrase", "none"] = setting(
        "none",
        OneOf(MODES),
        "the result in words on the back: its number word, with what is counted (five crabs), or none",
    )
    equations: Literal["auto", "left-to-right", "right-to-left"] = setting(
        "auto",
        OneOf(("auto", "left-to-right", "right-to-left")),
        "from which side the equation is read; auto: as the leading language does",
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """a operation b = result; 'change' is b, 'start' is a. All None on a strip for an own equation.

    `words` are the bare number words of the result where the back carries them; a language in
    `phrases` has its phrase there instead.
    """

    operation: Literal["add", "subtract"] | None
    a: int | None
    b: int | None
    result: int | None
    unknown: Literal["result", "change", "start"] | None
    words: dict[str, str] = field(default_factory=dict, metadata=SPARSE)
    phrases: dict[str, str] = field(default_factory=dict, metadata=SPARSE)


LARGE_BOX = 30.0
"""mm of a box from which on it is one for tiles, not for writing."""
USUAL = 12
"""Strips in a set when no number is asked for: two sheets of six."""
PICTURES_TO = 20
"""Unasked, things are drawn up to this sum: within 20 with objects and drawings (CCSSM 1.OA.A.1)."""
LONG = 186.0
NAMED = {
    #          length height  fits a sheet of A4 and of Letter
    "small":  (124.0, 38.0),  # 10 times, turned
    "medium": (LONG, 41.0),   # 6 times
    "large":  (LONG, 62.0),   # 4 times
}  # fmt: skip


def make(seed: int, tray: Tray, room: Room) -> Made:
    """A set of strips within the child's `sums_to`."""
    most = tray.child.sums_to
    if most is None:
        return refused(
            problem(
                tray,
                "sums_to",
                "strips need sums_to, the largest sum",
                "sums_to = a whole number from 2 to 100",
            )
        )
    lacking = none_picked(_picking(tray, most))
    if lacking is not None:
        return refused(problem(tray, *lacking))
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    sizes = tuple(_sizes(tray, room))
    if isinstance(tray.size, tuple | str) and not fits_sheet(sizes[0], room):
        return refused(size_problem(tray, room, sizes[0]))
    found = _found(tray, motif, most, sizes, room)
    if found is None:
        return refused(_too_large(tray, motif, most, sizes, room))
    wants, fit = found
    todo = _tasks(seed, tray, most)
    results = tuple(task.fact.result for task in todo)
    counted = motif.motif if wants.help == "pictures" else None
    words, notes = naming(tray.child, tray.settings.words, counted, results)
    look = Look(
        fit=fit,
        wants=wants,
        drawing=motif.drawing(fit.thing) if wants.help == "pictures" else None,
        frame=accent(tray),
        numerals=tray.child.numerals,
        place=wants.place,
        naming=words,
        results=results,
        leftward=_leftward(tray),
    )
    pieces = [_piece(look, tray, task) for task in todo] + _own(look, tray)
    gather = [Need(what="wipe-off pen", count=1)]
    if wants.help == "places":
        gather.insert(0, Need(what="counters", count=counters(todo), size=tray.child.counter))
    return Made(pieces=set_marked(pieces), needs=tuple(gather), notes=notes)


def _leftward(tray: Tray) -> bool:
    """Whether equations are read from the right."""
    wanted = tray.settings.equations
    if wanted != "auto":
        return wanted == "right-to-left"
    return find(tray.child.languages[0], "languages").equations == "rtl"


def figures_of(tray: Tray, room: Room, motif: ChosenMotif) -> Figures | None:
    """How large a tray of strips would write, and how large its boxes are; None if it cannot be made.

    `tray` has settings of strips; with pictures the size hangs on the shape of the motif.
    """
    found = _found(tray, motif, tray.child.sums_to, tuple(_sizes(tray, room)), room)
    return found[1].how if found else None


# --- which strips ----------------------------------------------------------------------------


def _tasks(seed: int, tray: Tray, most: int) -> tuple[Task, ...]:
    settings: Settings = tray.settings
    chance = Chance(seed, tray.child.name, tray.set)
    facts = picked_facts(
        _picking(tray, most),
        settings.count,
        USUAL,
        shuffled=settings.order == "shuffled",
        chance=chance.again("facts"),
    )
    return tasks(facts, settings.unknown, chance.again("unknown"))


def _picking(tray: Tray, most: int) -> Picking:
    settings: Settings = tray.settings
    return Picking(
        most=most,
        operation=settings.operation,
        pick=settings.pick,
        known=settings.known,
        zero=settings.zero,
    )


def _piece(look: Look, tray: Tray, task: Task) -> Piece:
    fact = task.fact
    facts = Facts(
        operation=fact.operation,
        a=fact.a,
        b=fact.b,
        result=fact.result,
        unknown=task.unknown,
        words=look.naming.words(fact.result),
        phrases=look.naming.phrases(fact.result),
    )
    behind, control = back(look, fact)
    return _strip(look, tray, task.key, front(look, task), behind, facts, control)


def _own(look: Look, tray: Tray) -> list[Piece]:
    kinds = operations(tray.settings.operation)
    face = own_front(look, kinds[0] if len(kinds) == 1 else None)
    facts = Facts(operation=None, a=None, b=None, result=None, unknown=None)
    return [
        _strip(look, tray, f"own-{n}", face, own_back(look), facts) for n in range(1, tray.settings.own + 1)
    ]


def _strip(
    look: Look, tray: Tray, key: str, face: Face, behind: Face, facts: Facts, control: Rect | None = None
) -> Piece:
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=key,
        width=look.fit.size[0],
        height=look.fit.size[1],
        front=face,
        back=behind,
        facts=facts,
        stock=tray.stock,
        control=control,
    )


# --- sizes -----------------------------------------------------------------------------------


def _sizes(tray: Tray, room: Room) -> Iterator[tuple[float, float]]:
    """The sizes a strip may have: the one asked for, or all that fit, most to a sheet first."""
    if isinstance(tray.size, tuple):
        yield tray.size
        return
    if tray.size is not None:
        yield NAMED[tray.size]
        return
    longer, shorter = max(room), min(room)
    lengths = [LONG] if longer >= LONG else [longer, shorter]
    heights = [41.0, 50.0, 62.0, 83.0, 125.0]
    extra: set[tuple[float, float]] = set()
    if longer < LONG:
        heights += [31.0, 36.0]
    least = needs.least_piece(tray.child)
    if needs.is_large(tray.child) or least:
        heights = [height for height in heights if height >= least]
        for long, short in ((longer, shorter), (shorter, longer)):
            for parts in (1, 2, 3):
                if (size := (long, math.floor(2 * short / parts) / 2))[1] >= least:
                    extra.add(size)
    tried = {(length, height) for length in lengths for height in heights}
    tried |= extra | {tuple(room), (room.height, room.width), (longer, shorter)}
    fitting = (size for size in tried if fits_sheet(size, room))
    yield from sorted(fitting, key=lambda size: (-_to_a_sheet(size, room), -size[0] * size[1], size))


def _to_a_sheet(size: tuple[float, float], room: Room) -> int:
    def grid(width: float, height: float) -> int:
        return int((room.width + 1e-6) // width) * int((room.height + 1e-6) // height)

    return max(grid(*size), grid(size[1], size[0]))


_STEPS: dict[Help, tuple[float, ...]] = {
    "pictures": (6.0, SMALLEST_THING),
    "places": (0.0,),
    "none": (14.0, 11.0, 9.0, 7.0, 0.0),
}
"""Sizes of things (without them: of numerals) in mm that are asked for in turn: first what pleases."""


def _helps(tray: Tray, most: int) -> tuple[Help, ...]:
    """The help asked for, or what is tried in turn."""
    if tray.settings.help is not None:
        return (tray.settings.help,)
    return ("pictures", "none") if most <= PICTURES_TO else ("none",)


def _wants(tray: Tray, motif: ChosenMotif, most: int, help: Help, box: float = 0.0) -> Wants:
    settings: Settings = tray.settings
    unknowns = UNKNOWNS if settings.unknown == "mixed" else (settings.unknown,)
    return Wants(
        most=most,
        kinds=tuple((kind, unknown) for kind in operations(settings.operation) for unknown in unknowns),
        zero=settings.zero,
        help=help,
        place=tray.child.counter + 2,
        shape=Shape(*shape_of(motif.drawing(20.0))),
        numerals=tray.child.numerals,
        box=box,
        large_thing=needs.least_thing(tray.child, 0.0),
        large_numeral=needs.least_numeral(tray.child),
    )


def _boxes(tray: Tray) -> tuple[float, ...]:
    """The least sides of boxes in mm, tried in turn: those of a tile for a hand that does not pinch,
    those of a line to write on, those of everybody."""
    if not needs.is_easy_grip(tray.child):
        return (0.0,)
    return (needs.least_piece(tray.child) + PLAY, needs.line(tray.child, 0.0), 0.0)


def _found(tray, motif, most, sizes, room) -> tuple[Wants, Fit] | None:
    """The first size that pleases, or else the first that holds the set.

    Boxes are as large as asked for, those for tiles only where two strips or more find room on a sheet.
    """
    large = needs.is_large(tray.child)
    find = _found_large if large else _found_usual
    for box in _boxes(tray):
        found = find(tray, motif, most, sizes, box)
        if found and (box <= LARGE_BOX or _to_a_sheet(found[1].size, room) > 1 or tray.size is not None):
            return found
    return None


def _found_large(tray, motif, most, sizes, box) -> tuple[Wants, Fit] | None:
    """The first size that is large enough, or else the one that comes nearest.

    Unasked, things are drawn only where they can be as large as the child needs them.
    """
    helps = _helps(tray, most)
    for help in helps:
        wants = _wants(tray, motif, most, help, box)
        fits = [fit for size in sizes if (fit := fitted(size, wants))]
        best = max(fits, key=lambda fit: met(fit, wants), default=None)
        if best and (help == helps[-1] or met(best, wants) >= 1):
            return wants, best
    return None


def _found_usual(tray, motif, most, sizes, box) -> tuple[Wants, Fit] | None:
    for help in _helps(tray, most):
        wants = _wants(tray, motif, most, help, box)
        fits: list[Fit] = []
        for size in sizes:
            fit = fitted(size, wants)
            if fit and fit.merit >= _STEPS[help][0]:
                return wants, fit
            fits += [fit] if fit else []
        for least in _STEPS[help]:
            for fit in fits:
                if fit.merit >= least:
                    return wants, fit
    return None


def _too_large(tray, motif, most, sizes, room) -> Problem:
    """Why nothing fits: the things asked for, the size asked for, or the sheet."""
    help = _helps(tray, most)[-1]
    given = f"a strip of {sizes[0][0]:g} x {sizes[0][1]:g} mm" if tray.size is not None else ""
    if help == "none":
        length, height = _least_plain(_wants(tray, motif, most, "none"))
        if not given:
            return size_problem(tray, room, (length, height))
        return problem(
            tray,
            "size",
            f"an equation to {most} does not fit {given}",
            f"at least {length:g} x {height:g} mm",
        )
    things = (
        f"things of {SMALLEST_THING:g} mm"
        if help == "pictures"
        else f"places of {tray.child.counter + 2:g} mm"
    )
    largest = _largest_sum(tray, motif, most, sizes, room)
    ways = [f"sums_to up to {largest}"] if largest >= 2 else []
    ways += ["a larger strip" if given else "larger paper", "help = 'none'"]
    return problem(
        tray,
        "help",
        f"{things} for sums to {most} do not fit {given or 'a strip on this paper'}",
        listing(ways),
    )


def _largest_sum(tray, motif, most, sizes, room) -> int:
    """The largest sum whose help fits; 1 if none does."""
    low, high = 1, most
    while high - low > 1:
        half = (low + high) // 2
        low, high = (half, high) if _found(tray, motif, half, sizes, room) else (low, half)
    return low


def _least_plain(wants: Wants) -> tuple[float, float]:
    """The smallest strip, in whole mm, that holds an equation of the set."""
    height = next(h for h in range(20, 60) if fitted((1000.0, float(h)), wants))
    length = next(w for w in range(20, 400) if fitted((float(w), float(height)), wants))
    return (float(length), float(height))


MATERIAL = Material(
    name="strips",
    order=30,
    line="addition and subtraction strips to complete, the answer in thin figures behind",
    track="operations",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
