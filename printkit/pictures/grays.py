"""Colors -> grays in which neighboring shapes of a drawing stay apart on a printer with black ink only.

Two colors may have one luminance, such as a red chilli and its green stalk. Where such shapes meet,
their grays are moved apart, each as little as it takes, the darker one staying the darker one.
"""

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from printkit.pictures.colors import gray
from printkit.pictures.flatten import rasterise
from printkit.pieces import Color, Drawing, Shape

APART = 1.3
"""The contrast of neighbors, (L1 + 0.05) / (L2 + 0.05) as WCAG 2 defines it; a design choice."""
PALEST = 0.93
"""No gray is moved up to more than this, so that it can be told from paper; a design choice."""

# Small enough to be quick, large enough for every part that can be seen on a small picture.
_SIDE = 128
# Neighbors meet along so many pixels; the soft edge between them is up to so many pixels wide.
_MEET, _EDGE = 4, 3
_ROUNDS = 500

Pair = tuple[Color, Color]


def tones(shapes: Sequence[Shape], width: float, height: float) -> dict[Color, Color]:
    """A gray for each color of the shapes, which lie in a box of that size in any unit."""
    colors = list(dict.fromkeys(color for shape in shapes for color in (shape.fill, shape.stroke) if color))
    plain = {color: gray(color) for color in colors}
    levels = {color: _level(tone[0]) for color, tone in plain.items()}
    ranks = {color: i for i, color in enumerate(sorted(colors, key=lambda color: levels[color]))}
    met = [tuple(sorted(pair, key=ranks.__getitem__)) for pair in neighbors(shapes, width, height)]
    moved = _spread(levels, sorted(met, key=lambda pair: (ranks[pair[0]], ranks[pair[1]])))
    return {
        color: plain[color] if moved[color] == levels[color] else (round(_tone(moved[color]), 4),)
        for color in colors
    }


def neighbors(shapes: Sequence[Shape], width: float, height: float) -> list[Pair]:
    """The pairs of colors that meet anywhere in the picture, see-through shapes aside."""
    solid = [shape for shape in shapes if _is_solid(shape)]
    colors = list(dict.fromkeys(color for shape in solid for color in (shape.fill, shape.stroke) if color))
    codes = {color: _code(i) for i, color in enumerate(colors)}
    known = {tuple(round(part * 255) for part in code): color for color, code in codes.items()}
    coded = tuple(
        replace(
            shape,
            fill=codes[shape.fill] if shape.fill else None,
            stroke=codes[shape.stroke] if shape.stroke else None,
            fill_opacity=1.0,
            stroke_opacity=1.0,
            fill_gradient=None,
            stroke_gradient=None,
            layers=(),
        )
        for shape in solid
    )
    scale = _SIDE / max(width, height)
    size = (max(1, round(width * scale)), max(1, round(height * scale)))
    image = rasterise(Drawing(name="", width=width, height=height, shapes=coded), *size)
    data = image.tobytes()
    seen = [known.get((data[i], data[i + 1], data[i + 2])) for i in range(0, len(data), 3)]
    white = [data[i : i + 3] == b"\xff\xff\xff" for i in range(0, len(data), 3)]
    rows = [range(y * size[0], (y + 1) * size[0]) for y in range(size[1])]
    columns = [range(x, size[0] * size[1], size[0]) for x in range(size[0])]
    counts: Counter[Pair] = Counter()
    for line in (*rows, *columns):
        counts.update(_meetings([(seen[i], white[i]) for i in line]))
    order = colors.index
    found = [tuple(sorted(pair, key=order)) for pair in counts]
    return [pair for pair in dict.fromkeys(found) if counts[pair] + counts[pair[1], pair[0]] >= _MEET]


def _is_solid(shape: Shape) -> bool:
    """Whether next to nothing can be seen through the shape."""
    through = min(shape.fill_opacity, shape.stroke_opacity)
    return through * math.prod(opacity for _, opacity in shape.layers) > 0.9


def _meetings(line: Iterable[tuple[Color | None, bool]]) -> Iterable[Pair]:
    """Two colors that follow each other with no more than a soft edge between them."""
    # Positions of pixels of a pure color or of paper; what lies between is a mixture.
    pure = [(place, color) for place, (color, paper) in enumerate(line) if color or paper]
    for (before, one), (after, two) in pairwise(pure):
        if one and two and one != two and after - before <= _EDGE:
            yield one, two


def _code(number: int) -> Color:
    """A color for each number whose mixtures are no other number's color."""
    return ((number * 37 % 251) / 255, (number * 101 % 241) / 255, (number * 173 % 239) / 255)


def _spread(levels: dict[Color, float], pairs: Sequence[Pair]) -> dict[Color, float]:
    """The levels moved until the second of each pair lies far enough above the first."""
    # A little more than asked, for what rounding takes away.
    need = math.log(APART) + 0.004
    least, most = _level(0.0), _level(PALEST)
    moved = dict(levels)
    for _ in range(_ROUNDS):
        changed = False
        for dark, light in pairs:
            short = need - (moved[light] - moved[dark])
            if short <= 1e-9:
                continue
            changed = True
            up = min(short / 2, max(0.0, most - moved[light]))
            down = min(short - up, max(0.0, moved[dark] - least))
            moved[light] += up
            moved[dark] -= down
        if not changed:
            break
    return moved


def _level(tone: float) -> float:
    """The logarithm in which equal steps are equal contrasts (luminance as WCAG 2 defines it)."""
    linear = tone / 12.92 if tone <= 0.04045 else ((tone + 0.055) / 1.055) ** 2.4
    return math.log(linear + 0.05)


def _tone(level: float) -> float:
    linear = max(0.0, math.exp(level) - 0.05)
    return 12.92 * linear if linear <= 0.0031308 else 1.055 * linear ** (1 / 2.4) - 0.055
