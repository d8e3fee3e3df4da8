"""Where n things lie in a box: line, array, ring, dice, frame, scatter; all of one size.

Things are boxes of `wide` x `high` shares of their longer side `size` (mm). Two things never come
nearer than a quarter of `size`, across or down. Limits follow CCSSM K.CC.B.5 ('how many?' for up
to 20 things in a line, an array or a circle, up to 10 scattered) and the faces of a die.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from printkit.chance import Chance
from printkit.errors import listing
from printkit.units import Rect, micrometres

_DIE_STEP = 1.7
"""Widest distance of neighbouring pips, in sizes: near enough to be seen as one face."""
GAP = 0.25
"""Least clear gap between two things, in sizes."""
FRAME_FILL = 0.78
"""How much of a frame's cell a thing fills."""
ARRANGEMENTS = ("line", "array", "ring", "dice", "frame", "scatter")
_MOST = {"line": 20, "array": 20, "ring": 20, "dice": 6, "frame": 100, "scatter": 10}

LIMITS = (
    "line, array and ring to 20, an array only where two or more even rows can be made, "
    "scatter to 10, dice to 6, frame to 100, or auto"
)

# The layout of a western die on a 3 x 3 grid (column, row).
_PIPS = {
    1: ((1, 1),),
    2: ((0, 0), (2, 2)),
    3: ((0, 0), (1, 1), (2, 2)),
    4: ((0, 0), (2, 0), (0, 2), (2, 2)),
    5: ((0, 0), (2, 0), (1, 1), (0, 2), (2, 2)),
    6: ((0, 0), (2, 0), (0, 1), (2, 1), (0, 2), (2, 2)),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Frame:
    """A frame of two fives of cells, `cell` mm each, with its top left corner.

    The fives lie one above the other, or stand side by side if `upright`.
    """

    left: float
    top: float
    cell: float
    upright: bool = False

    @property
    def box(self) -> Rect:
        """The whole frame."""
        across, down = (2, 5) if self.upright else (5, 2)
        return Rect(self.left, self.top, across * self.cell, down * self.cell)

    def place(self, number: int) -> Rect:
        """The cell of place 0 to 9: one five is filled before the other."""
        five, along = divmod(number, 5)
        column, row = (five, along) if self.upright else (along, five)
        return Rect(self.left + column * self.cell, self.top + row * self.cell, self.cell, self.cell)


def possible(count: int, arrange: str) -> bool:
    """Whether `count` things can be arranged so."""
    if arrange == "array":
        return count == 0 or (count <= _MOST["array"] and bool(_array_shapes(count)))
    return count <= _MOST[arrange]


def impossible(wanted: Sequence[tuple[int, str]]) -> str:
    """'7, 8 and 10 cannot be laid as dice' for the first arrangement that fails, or ''."""
    for arrange in dict.fromkeys(name for _, name in wanted):
        bad = [count for count, name in wanted if name == arrange and not possible(count, name)]
        if bad:
            return f"{listing(_runs(bad), 'and')} cannot be laid as '{arrange}'"
    return ""


def _runs(numbers: Sequence[int]) -> list[str]:
    """1, 2, 3, 5 -> '1 to 3', '5'."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return [
        text
        for run in runs
        for text in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run])
    ]


def picked(count: int) -> str:
    """What 'auto' picks: the face of a die where there is one, frames (5 + n, tens) beyond.

    Small numbers are seen at once in a canonical pattern, larger ones by fives and tens
    (Clements 1999; learning trajectories of subitising).
    """
    return "dice" if count <= 6 else "frame"


def largest(count: int, arrange: str, box: Rect, wide: float, high: float, chance: Chance) -> float:
    """The largest size in mm at which `count` things can lie so in the box."""
    if box.width <= 0 or box.height <= 0:
        return 0.0
    if count == 0 and arrange != "frame":
        return 1000.0
    return _LARGEST[arrange](count, box.width, box.height, wide, high, chance)


def laid(
    count: int, arrange: str, box: Rect, size: float, wide: float, high: float, chance: Chance
) -> tuple[Rect, ...]:
    """The boxes of `count` things of that size (at most the largest), about the middle of the box."""
    if count == 0:
        return ()
    centers = _CENTERS[arrange](count, box, size, wide, high, chance)
    return tuple(
        Rect(
            micrometres(x - size * wide / 2),
            micrometres(y - size * high / 2),
            micrometres(size * wide),
            micrometres(size * high),
        )
        for x, y in centers
    )


def apart(boxes: tuple[Rect, ...], gap: float) -> bool:
    """Whether no two boxes come nearer than `gap` across or down."""
    return all(
        max(
            abs((a.left + a.width / 2) - (b.left + b.width / 2)) - (a.width + b.width) / 2,
            abs((a.top + a.height / 2) - (b.top + b.height / 2)) - (a.height + b.height) / 2,
        )
        >= gap - 1e-6
        for i, a in enumerate(boxes)
        for b in boxes[:i]
    )


# --- line, array, dice -----------------------------------------------------------------------


def _grid_size(columns: int, rows: int, width: float, height: float, wide: float, high: float) -> float:
    across = width / (columns * wide + (columns - 1) * GAP)
    down = height / (rows * high + (rows - 1) * GAP)
    return min(across, down)


def _spread(count: int, middle: float, room: float, step: float) -> tuple[float, ...]:
    """`count` places about `middle`, `step` apart or a little more where there is room."""
    step = min(step * 1.35, max(step, room / max(count, 1)))
    first = middle - step * (count - 1) / 2
    return tuple(first + step * i for i in range(count))


def _line_size(count, width, height, wide, high, chance) -> float:
    return max(
        _grid_size(count, 1, width, height, wide, high), _grid_size(1, count, width, height, wide, high)
    )


def _line(count, box, size, wide, high, chance):
    flat = _grid_size(count, 1, box.width, box.height, wide, high)
    upright = _grid_size(1, count, box.width, box.height, wide, high)
    columns, rows = (count, 1) if flat >= upright else (1, count)
    return _grid(columns, rows, box, size, wide, high)


def _grid(columns: int, rows: int, box: Rect, size: float, wide: float, high: float):
    xs = _spread(columns, box.left + box.width / 2, box.width, size * (wide + GAP))
    ys = _spread(rows, box.top + box.height / 2, box.height, size * (high + GAP))
    return tuple((x, y) for y in ys for x in xs)


def _array_shapes(count: int) -> tuple[tuple[int, int], ...]:
    return tuple(
        (count // rows, rows) for rows in range(2, count // 2 + 1) if count % rows == 0 and count // rows >= 2
    )


def _best_array(count, box_width, box_height, wide, high) -> tuple[int, int]:
    return max(_array_shapes(count), key=lambda shape: _grid_size(*shape, box_width, box_height, wide, high))


def _array_size(count, width, height, wide, high, chance) -> float:
    return _grid_size(*_best_array(count, width, height, wide, high), width, height, wide, high)


def _array(count, box, size, wide, high, chance):
    shape = _best_array(count, box.width, box.height, wide, high)
    return _grid(*shape, box, size, wide, high)


def _dice_size(count, width, height, wide, high, chance) -> float:
    side = min(width, height)
    return _grid_size(3, 3, side, side, wide, high)


def _dice(count, box, size, wide, high, chance):
    side = min(box.width, box.height)
    step = max(size * (max(wide, high) + GAP), min((side - size) / 2, _DIE_STEP * size))
    middle_x, middle_y = box.left + box.width / 2, box.top + box.height / 2
    return tuple((middle_x + (c - 1) * step, middle_y + (r - 1) * step) for c, r in _PIPS[count])


# --- ring ------------------------------------------------------------------------------------


def _on_circle(count: int, radius: float) -> tuple[tuple[float, float], ...]:
    """Places on a circle, the first at the top; one alone lies in the middle."""
    if count == 1:
        return ((0.0, 0.0),)
    turns = [2 * math.pi * i / count for i in range(count)]
    return tuple((radius * math.sin(turn), -radius * math.cos(turn)) for turn in turns)


def _ring_fits(count: int, side: float, size: float, wide: float, high: float) -> bool:
    radius = (side - size * max(wide, high)) / 2
    if radius <= 0:
        return False
    boxes = tuple(
        Rect(x - size * wide / 2, y - size * high / 2, size * wide, size * high)
        for x, y in _on_circle(count, radius)
    )
    return apart(boxes, GAP * size)


def _ring_size(count, width, height, wide, high, chance) -> float:
    side = min(width, height)
    low, top = 0.0, side * 0.45
    for _ in range(40):
        half = (low + top) / 2
        low, top = (half, top) if _ring_fits(count, side, half, wide, high) else (low, half)
    return low


def _ring(count, box, size, wide, high, chance):
    radius = (min(box.width, box.height) - size * max(wide, high)) / 2
    middle_x, middle_y = box.left + box.width / 2, box.top + box.height / 2
    return tuple((middle_x + x, middle_y + y) for x, y in _on_circle(count, radius))


# --- frames of ten ---------------------------------------------------------------------------


def frames(
    count: int, box: Rect, cell: float | None = None, shape: tuple[int, int] | None = None
) -> tuple[Frame, ...]:
    """Frames for `count` things, one a ten and at least one, with cells of `cell` mm or the largest.

    `shape` is LYING or UPRIGHT. Unasked they stand upright in a box that is clearly taller than wide:
    the same for every number.
    """
    number = max(1, math.ceil(count / 10))
    shape = shape or _shape(box.width, box.height)
    columns, rows, most = _frame_grid(number, box.width, box.height, shape)
    cell = most if cell is None else cell
    if cell < most:
        fitting = [
            c for c in range(1, number + 1)
            if _side(c, shape[0]) * cell <= box.width + 1e-6
            and _side(math.ceil(number / c), shape[1]) * cell <= box.height + 1e-6
        ]  # fmt: skip
        columns = min(fitting, key=lambda c: (abs(c - columns), c), default=columns)
        rows = math.ceil(number / columns)
    left = box.left + (box.width - _side(columns, shape[0]) * cell) / 2
    top = box.top + (box.height - _side(rows, shape[1]) * cell) / 2
    return tuple(
        Frame(
            left=left + (i % columns) * cell * (shape[0] + _BETWEEN),
            top=top + (i // columns) * cell * (shape[1] + _BETWEEN),
            cell=cell,
            upright=shape == UPRIGHT,
        )
        for i in range(number)
    )


LYING, UPRIGHT = (5, 2), (2, 5)
"""Cells across and down of a frame."""
_BETWEEN = 0.5
"""Space between two frames, in cells."""
_TALL = 1.2
"""From this height to width on a box counts as taller than wide."""


def _shape(width: float, height: float) -> tuple[int, int]:
    """How the frames in a box stand."""
    return UPRIGHT if height > _TALL * width else LYING


def _side(frames_along: int, cells: int) -> float:
    """How many cells so many frames take one after the other."""
    return cells * frames_along + _BETWEEN * (frames_along - 1)


@cache
def _frame_grid(number: int, width: float, height: float, shape: tuple[int, int]) -> tuple[int, int, float]:
    """Columns, rows and the largest cell for that many frames in a box."""
    across, down = shape

    def cell(columns: int) -> float:
        rows = math.ceil(number / columns)
        return min(width / _side(columns, across), height / _side(rows, down))

    columns = max(range(1, number + 1), key=lambda c: (cell(c), -c))
    return columns, math.ceil(number / columns), cell(columns)


def _frame_size(count, width, height, wide, high, chance) -> float:
    number = max(1, math.ceil(count / 10))
    return _frame_grid(number, width, height, _shape(width, height))[2] * FRAME_FILL


def _frame(count, box, size, wide, high, chance):
    places = [
        frame.place(i)
        for number, frame in enumerate(frames(count, box, size / FRAME_FILL))
        for i in range(min(10, count - 10 * number))
    ]
    return tuple((place.left + place.width / 2, place.top + place.height / 2) for place in places)


# --- scatter ---------------------------------------------------------------------------------


def _scatter_size(count, width, height, wide, high, chance) -> float:
    # What a search finds in reasonable time: the more things, the more room each of them needs.
    room = 2.6 + 0.4 * max(0, count - 6)
    size = min(width / (wide + GAP), height / (high + GAP), math.sqrt(width * height / (room * count)))
    if count == 1:
        size *= 0.6
    box = Rect(0, 0, width, height)
    while not _scattered(count, box, size, wide, high, chance):
        size *= 0.94
    return size


def _scatter(count, box, size, wide, high, chance):
    places = _scattered(count, box, size, wide, high, chance)
    smaller = size
    while not places:
        smaller *= 0.94
        places = _scattered(count, box, smaller, wide, high, chance)
    return places


def _scattered(count, box, size, wide, high, chance: Chance):
    """Places without any order in them, or () when a bounded search finds none."""
    for attempt in range(40):
        draw = chance.again(f"{count}/{attempt}")
        places: list[tuple[float, float]] = []
        for _ in range(40 * count):
            x = draw.between(box.left + size * wide / 2, box.right - size * wide / 2)
            y = draw.between(box.top + size * high / 2, box.bottom - size * high / 2)
            if _clear(x, y, places, size, wide, high):
                places.append((x, y))
            if len(places) == count:
                break
        if len(places) == count and looks_scattered(tuple(places), size):
            return tuple(places)
    return ()


def _clear(x, y, places, size, wide, high) -> bool:
    return all(
        max(abs(x - a) - size * wide, abs(y - b) - size * high) >= GAP * size for a, b in places
    ) and not any(_off_line((x, y), a, b) <= GAP * size for i, a in enumerate(places) for b in places[:i])


def looks_scattered(places: tuple[tuple[float, float], ...], size: float) -> bool:
    """No three centres near one line, nearest neighbours unevenly far, nothing like a die's face."""
    return (
        not _three_in_line(places, GAP * size)
        and (len(places) < 4 or _uneven(places))
        and not _like_die(places)
    )


def _three_in_line(places, near: float) -> bool:
    return any(
        _off_line(a, b, c) <= near
        for i, a in enumerate(places)
        for j, b in enumerate(places[:i])
        for c in places[:j]
    )


def _off_line(a, b, c) -> float:
    """How far the three are from a line through two of them: the least height of their triangle."""
    twice_area = abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]))
    longest = max(math.dist(a, b), math.dist(a, c), math.dist(b, c))
    return twice_area / longest if longest else 0.0


def _uneven(places) -> bool:
    nearest = [min(math.dist(a, b) for b in places if b is not a) for a in places]
    return max(nearest) > 1.1 * min(nearest)


def _like_die(places) -> bool:
    """Whether the places, moved and scaled alone, come near the face of a die (or it turned)."""
    count = len(places)
    if not 2 <= count <= 6:
        return False
    faces = [_PIPS[count], tuple((row, 2 - column) for column, row in _PIPS[count])]
    return any(_near_pattern(_normal(places), _normal(face)) for face in faces)


def _normal(places) -> tuple[tuple[float, float], ...]:
    mean_x = sum(x for x, _ in places) / len(places)
    mean_y = sum(y for _, y in places) / len(places)
    reach = max(math.dist((x, y), (mean_x, mean_y)) for x, y in places) or 1.0
    return tuple(((x - mean_x) / reach, (y - mean_y) / reach) for x, y in places)


def _near_pattern(places, pattern, near: float = 0.3) -> bool:
    return all(min(math.dist(pip, place) for place in places) < near for pip in pattern)


_Size = Callable[[int, float, float, float, float, Chance], float]
_LARGEST: dict[str, _Size] = {
    "line": _line_size,
    "array": _array_size,
    "ring": _ring_size,
    "dice": _dice_size,
    "frame": _frame_size,
    "scatter": _scatter_size,
}
_CENTERS = {
    "line": _line,
    "array": _array,
    "ring": _ring,
    "dice": _dice,
    "frame": _frame,
    "scatter": _scatter,
}


def grid_for(count: int, box: Rect, place: float) -> tuple[tuple[float, float], ...] | None:
    """Middles of `count` round places of `place` mm in even rows, at least 2 mm apart; None if too many."""
    if box.width < place or box.height < place:
        return None
    step = place + 2.0
    for columns in sorted(range(1, count + 1), key=lambda c: (abs(c - _even_columns(count, box)), c)):
        rows = math.ceil(count / columns)
        if columns * step - 2.0 <= box.width + 1e-6 and rows * step - 2.0 <= box.height + 1e-6:
            break
    else:
        return None
    middle, places = box.left + box.width / 2, []
    for row, y in enumerate(_spread(rows, box.top + box.height / 2, box.height, step)):
        here = min(columns, count - row * columns)
        wide = min(step * 1.35, max(step, box.width / columns))
        places += [(micrometres(middle + (i - (here - 1) / 2) * wide), micrometres(y)) for i in range(here)]
    return tuple(places)


def _even_columns(count: int, box: Rect) -> float:
    """How many columns make cells about square; fives are easiest to see."""
    best = math.sqrt(count * box.width / box.height)
    return 5.0 if count > 5 and best >= 4 else best
