"""Compare: which group is more or fewer, which has as many, one more or one fewer; a patch behind it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from printkit.chance import Chance
from printkit.checks import OneOf, Whole, Words, setting
from printkit.errors import listing
from printkit.materials import arrange as arranging
from printkit.materials import needs
from printkit.materials.base import Made, Material, Room, problem, refused
from printkit.materials.compare.guidance import GUIDANCE
from printkit.materials.compare.tasks import ASKS, MOST, Asks, Task, chosen, paired, pairs, samples, spaced
from printkit.materials.frames import frame_marks
from printkit.materials.layout import (
    INK,
    MARK_STRIP,
    SMALLEST_THING,
    SOFT,
    accent,
    content,
    hairline,
    hatching,
    numeral,
    numeral_height,
    pictures,
    set_marked,
    shape_of,
    size_problem,
)
from printkit.materials.making import fitting_sizes, piece_of
from printkit.materials.motifs import ChosenMotif, chosen_motif
from printkit.pack import Tray
from printkit.pieces import Area, Box, Face, Ground, Mark, Piece
from printkit.texts import Note
from printkit.units import Rect, micrometres


@dataclass(frozen=True, kw_only=True, slots=True)
class Settings:
    """What can be set for compare."""

    asks: Literal["more", "fewer", "as-many", "one-more", "one-fewer"] = setting(
        "more",
        OneOf(ASKS),
        "which of two is more or fewer; which of three has as many, one more or one fewer",
    )
    show: Literal["things", "numerals"] | None = setting(
        None, OneOf(("things", "numerals")), "groups of things, or numerals; unset: things to 10"
    )
    apart: int | None = setting(
        None, Whole(1, 50), "by how much two groups differ; unset: from far apart to near"
    )
    arrange: str = setting("auto", OneOf((*arranging.ARRANGEMENTS, "auto")), "how the things lie")
    count: int = setting(8, Whole(1, 60), "how many cards")
    motif: str | None = setting(None, Words("the name of a motif"), "which picture of the theme is counted")


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """The numbers to choose from, from the left; `answer` counts from 0. `sample` stands above them."""

    asks: Asks
    numbers: tuple[int, ...]
    answer: int
    sample: int | None
    shown: Literal["things", "numerals"]


SIZES = {
    #          lying         fits a sheet of A4 and of Letter
    "small":  (88.0, 62.0),   # 9 and 8 times
    "medium": (94.0, 83.5),   # 6 times
    "large":  (125.0, 94.0),  # 4 times
}  # fmt: skip
THINGS_TO = 10
"""Unasked, groups are drawn up to this number: groups of up to 10 are compared (CCSSM K.CC.C.6)."""
_PLEASING, _LARGEST_THING = 6.5, 15.0
_SMALLEST_FIGURE = 7.0
_GAP = 4.0


@dataclass(frozen=True, kw_only=True, slots=True)
class _Look:
    """What all cards of a set have in common; `thing` is the size of a thing or a numeral in mm."""

    tray: Tray
    seed: int
    size: tuple[float, float]
    thing: float
    shape: tuple[float, float]
    show: Literal["things", "numerals"]


def make(seed: int, tray: Tray, room: Room) -> Made:
    """Cards with two groups, or with a sample and three groups to choose from."""
    settings: Settings = tray.settings
    motif = chosen_motif(seed, tray)
    if not motif.ok:
        return refused(motif.problem)
    tasks, notes, wrong = _tasks(seed, tray)
    show = settings.show or ("things" if max(_every(tasks), default=0) <= THINGS_TO else "numerals")
    wrong = wrong or (_impossible(tray, tasks) if show == "things" else None)
    if wrong:
        return refused(wrong)
    sizes = fitting_sizes(tray, room, SIZES)
    if not sizes:
        return refused(
            size_problem(tray, room, tray.size if isinstance(tray.size, tuple) else SIZES["small"])
        )
    look = _found(seed, tray, sizes, tasks, motif, show)
    if look is None:
        return refused(_too_many(tray, sizes[-1], tasks, show))
    pieces = [_card(look, motif, task, n) for n, task in enumerate(tasks, 1)]
    return Made(pieces=set_marked(pieces), notes=notes)


# --- which cards -----------------------------------------------------------------------------


def _tasks(seed: int, tray: Tray):
    """The cards, what `check` says of them, and what is wrong."""
    settings: Settings = tray.settings
    first, last = tray.child.numbers
    least = 0 if first == 0 else 1
    chance = Chance(seed, tray.child.name, tray.set, "answers")
    if settings.asks in ("more", "fewer"):
        low, high = (first, last) if first < last else (max(least, first - 1), min(MOST, last + 1))
        found = pairs(low, high, settings.apart)
        if not found:
            nothing = f"no two numbers from {low} to {high} are {settings.apart} apart"
            return (), (), problem(tray, "apart", nothing, f"1 to {high - low}")
        notes = () if first < last else (Note("notes.compare_alone", number=first),)
        return paired(settings.asks, spaced(found, settings.count), chance), notes, None
    found = spaced(samples(settings.asks, first, last, least), settings.count)
    return chosen(settings.asks, found, least, chance), (), None


def _every(tasks: Sequence[Task]) -> list[int]:
    """All numbers on the cards."""
    return [n for task in tasks for n in (*task.numbers, *(() if task.sample is None else (task.sample,)))]


def _lies(tray: Tray, number: int, *, sample: bool) -> str:
    """How a group lies. A sample of which as many are looked for lies otherwise, so that it is counted."""
    wanted = tray.settings.arrange
    if wanted != "auto":
        return wanted
    if sample and tray.settings.asks == "as-many" and arranging.possible(number, "scatter"):
        return "scatter"
    return arranging.picked(number)


def _impossible(tray: Tray, tasks: Sequence[Task]):
    bad = arranging.impossible([(n, _lies(tray, n, sample=False)) for n in sorted(set(_every(tasks)))])
    return problem(tray, "arrange", bad, arranging.LIMITS) if bad else None


# --- sizes -----------------------------------------------------------------------------------


def _boxes(size: tuple[float, float], task: Task) -> tuple[Rect | None, tuple[Rect, ...]]:
    """The box of the sample, if there is one, and those to choose from."""
    box = content(size)
    box = Rect(box.left, box.top + MARK_STRIP / 2, box.width, box.height - MARK_STRIP / 2)
    count = len(task.numbers)
    wide = (box.width - _GAP * (count - 1)) / count
    if task.sample is None:
        return None, tuple(
            _rounded(box.left + i * (wide + _GAP), box.top, wide, box.height) for i in range(count)
        )
    between = max(_GAP, 0.07 * box.height)
    high = (box.height - between) / 2
    upper = min(box.width, max(wide, 1.25 * high))
    sample = _rounded(box.left + (box.width - upper) / 2, box.top, upper, high)
    top = box.top + high + between
    return sample, tuple(_rounded(box.left + i * (wide + _GAP), top, wide, high) for i in range(count))


def _rounded(*parts: float) -> Rect:
    return Rect(*(micrometres(part) for part in parts))


def _held(tray: Tray, size: tuple[float, float], task: Task) -> list[tuple[int, Rect, bool]]:
    """Number, box and whether it is the sample, for every group of a card."""
    sample, boxes = _boxes(size, task)
    groups = [(n, box, False) for n, box in zip(task.numbers, boxes, strict=True)]
    return groups if sample is None else [(task.sample, sample, True), *groups]


def _inner(box: Rect, lies: str = "frame") -> Rect:
    """Where a group may lie: frames come nearer to the edge of their box than things do."""
    return box.inset(2.0 if lies == "frame" else 4.0)


def _chance(seed: int, tray: Tray, number: int, *, sample: bool) -> Chance:
    return Chance(seed, tray.child.name, tray.set, f"{'sample' if sample else 'group'} {number}")


def _thing(seed: int, tray: Tray, size, tasks: Sequence[Task], shape, show) -> float:
    """The largest size at which every group fits its box, in mm."""
    held = {item for task in tasks for item in _held(tray, size, task)}
    inner = [_inner(box, "things") for _, box, _ in held]
    if min(min(box.width, box.height) for box in inner) <= 0:
        return 0.0
    if show == "numerals":
        most = min(40.0, 0.62 * min(box.height for box in inner))
        return numeral_height(_every(tasks), most, min(box.width for box in inner), tray.child.numerals)
    least = min(
        arranging.largest(n, lies, _inner(box, lies), *shape, _chance(seed, tray, n, sample=sample))
        for n, box, sample in held
        for lies in (_lies(tray, n, sample=sample),)
    )
    return min(
        least,
        needs.least_thing(tray.child, _LARGEST_THING),
        0.42 * min(min(box.width, box.height) for box in inner),
    )


def _found(seed, tray, sizes, tasks, motif: ChosenMotif, show) -> _Look | None:
    """The smallest card whose things please, or else the smallest that holds them."""
    shape = shape_of(motif.drawing(20.0))
    floors = (_PLEASING, SMALLEST_THING) if show == "things" else (_SMALLEST_FIGURE,)
    things = [(size, _thing(seed, tray, size, tasks, shape, show)) for size in sizes]
    fitting = [
        _Look(tray=tray, seed=seed, size=size, thing=thing, shape=shape, show=show)
        for floor in floors
        for size, thing in things
        if thing >= floor
    ]
    return needs.nearest(fitting, _merit)


def _merit(look: _Look) -> float:
    """How far a card meets the need of a child who needs what stands on it large."""
    if look.show == "numerals":
        return needs.merit(look.tray.child, numeral=look.thing)
    return needs.merit(look.tray.child, look.thing)


def _too_many(tray: Tray, size, tasks: Sequence[Task], show):
    most = max(_every(tasks))
    what = f"things of {SMALLEST_THING:g} mm" if show == "things" else "numerals"
    ways = [*(["show = 'numerals'"] if show == "things" else []), "a larger card", "smaller numbers"]
    return problem(
        tray,
        "size" if tray.size is not None else "show",
        f"groups of up to {most} {what} do not fit a card of {size[0]:g} x {size[1]:g} mm"
        if show == "things"
        else f"numerals to {most} do not fit a card of {size[0]:g} x {size[1]:g} mm",
        listing(ways),
    )


# --- drawing ---------------------------------------------------------------------------------


def _card(look: _Look, motif: ChosenMotif, task: Task, n: int) -> Piece:
    tray = look.tray
    frame = hairline(look.size, accent(tray))
    marks: list[Mark] = [frame]
    areas: list[Area] = []
    for number, box, sample in _held(tray, look.size, task):
        marks.append(_edge(box, sample=sample))
        if look.show == "numerals":
            base = micrometres(box.top + (box.height + look.thing) / 2 - 0.05 * look.thing)
            middle = box.left + box.width / 2
            marks += numeral(str(number), middle, base, look.thing, tray.child.numerals)
            continue
        drawn, ground = _group(look, motif, number, box, sample=sample)
        marks += drawn
        areas.append(Area(box=box.inset(1.7), things=number, ground=ground))
    _, boxes = _boxes(look.size, task)
    back, control = _back(look, boxes[task.answer])
    facts = Facts(
        asks=tray.settings.asks, numbers=task.numbers, answer=task.answer, sample=task.sample, shown=look.show
    )
    front = Face(marks=tuple(marks), areas=tuple(areas))
    return piece_of(tray, look.size, str(n), front, facts, back=back, boxes=boxes, control=control)


def _edge(box: Rect, *, sample: bool) -> Box:
    """The frame of a group; that of a sample is the strong one."""
    line = 0.9 if sample else 0.35
    edge = box.inset(line / 2)
    return Box(
        x=micrometres(edge.left), y=micrometres(edge.top), width=micrometres(edge.width),
        height=micrometres(edge.height), radius=3, stroke=INK if sample else SOFT, line=line,
    )  # fmt: skip


def _group(look: _Look, motif: ChosenMotif, number: int, box: Rect, *, sample: bool):
    """The things of a group, and on which ground they lie."""
    lies = _lies(look.tray, number, sample=sample)
    inner = _inner(box, lies)
    chance = _chance(look.seed, look.tray, number, sample=sample)
    marks: list[Mark] = []
    ground: Ground = "none"
    if lies == "frame":
        ground = "frame"
        for frame in arranging.frames(number, inner, look.thing / arranging.FRAME_FILL):
            marks += frame_marks(frame)
    laid = arranging.laid(number, lies, inner, look.thing, *look.shape, chance)
    return [*marks, *pictures(motif.drawing(look.thing), laid)], ground


def _back(look: _Look, right: Rect) -> tuple[Face, Rect]:
    """A light patch behind the right group, seen after turning the card like a page."""
    behind = Rect(micrometres(look.size[0] - right.right), right.top, right.width, right.height)
    patch = behind.inset(min(right.width, right.height) * 0.22)
    control = _rounded(*patch)
    outline = Box(
        x=control.left, y=control.top, width=control.width, height=control.height,
        radius=1.5, stroke=(0.7,), line=0.3,
    )  # fmt: skip
    marks = (hairline(look.size, accent(look.tray)), outline, *hatching(control.inset(0.8)))
    return Face(marks=marks), control


MATERIAL = Material(
    name="compare",
    order=60,
    line="which of two is more or fewer, which of three has as many, one more or one fewer",
    track="counting",
    settings=Settings,
    facts=Facts,
    stock="card",
    make=make,
    guidance=GUIDANCE,
)
