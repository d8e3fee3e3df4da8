"""A card with one patch of color, a small picture below it, and its place on the back."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from printkit.materials import needs
from printkit.materials.layout import INK, accent, content, hairline, hatching, picture
from printkit.pack import Tray
from printkit.pictures.colors import lab
from printkit.pieces import Box, Color, Dot, Face, Mark
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Motif

LEAST_PATCH = 12.0
"""mm of the shorter side of the smallest patch (design choice)."""
_PICTURE, _GAP = 13.0, 3.0
_LINE = 0.6
"""mm of the black lines that make grays."""
SPREAD = _LINE / (_LINE + 0.1)
"""What of a printed line is drawn: ink and toner run about 0.05 mm to either side (from memory)."""
_RING, _RINGS_APART = 2.6, 2.4
_SOFT: Color = (0.7,)


@dataclass(frozen=True, kw_only=True, slots=True)
class Patch:
    """A patch of one color; with `lines` a gray made of black lines."""

    color: Color
    lines: bool = False

    @property
    def covered(self) -> float:
        """The share that black lines cover as drawn: printed, light from all of it is that of the gray."""
        if not self.lines:
            return 0.0
        light, ink = _luminance(self.color), _luminance(INK)
        return round(SPREAD * (1 - light) / (1 - ink), 4)


def _luminance(color: Color) -> float:
    """CIE luminance of a color, white is 1."""
    lightness = lab(color)[0]
    return ((lightness + 16) / 116) ** 3 if lightness > 8 else lightness * 27 / 24389


def patch_box(size: tuple[float, float], *, pictured: bool, shown: float = _PICTURE) -> Rect:
    """Where the patch lies on a card, with room for a picture `shown` mm high below it or not."""
    box = content(size)
    share = 0.22 if shown <= _PICTURE else 0.34
    below = min(shown, share * box.height) + _GAP if pictured else 0.0
    return Rect(box.left, box.top, box.width, micrometres(box.height - below))


def faces_of(
    tray: Tray, size: tuple[float, float], patch: Patch, motif: "Motif | None", place: int, count: int
) -> tuple[Face, Face, Rect]:
    """Front and back of a card, and where its own ring lies on the back."""
    frame = hairline(size, accent(tray))
    box = patch_box(size, pictured=motif is not None, shown=needs.least_thing(tray.child, _PICTURE))
    marks: list[Mark] = [frame, *_patch_marks(patch, box)]
    if motif is not None:
        whole = content(size)
        high = whole.bottom - box.bottom - _GAP
        drawing = motif.drawing(tray.child.ink, size=round(high, 1))
        below = Rect(whole.left + (whole.width - 1.6 * high) / 2, box.bottom + _GAP, 1.6 * high, high)
        marks.append(picture(drawing, below))
    rings, control = _rings(size, place, count)
    return Face(marks=tuple(marks)), Face(marks=(frame, *rings)), control


def _patch_marks(patch: Patch, box: Rect) -> tuple[Mark, ...]:
    if not patch.lines:
        return (Box(x=box.left, y=box.top, width=box.width, height=box.height, radius=3, fill=patch.color),)
    gap = _LINE / patch.covered * 2**0.5
    edge = Box(x=box.left, y=box.top, width=box.width, height=box.height, stroke=INK, line=0.3)
    inner = box.inset(0.3)
    edge = Box(
        x=inner.left, y=inner.top, width=inner.width, height=inner.height, radius=0.5, stroke=INK, line=0.3
    )
    return (*hatching(box.inset(0.3), gap=gap, color=INK, line=_LINE), edge)


def _rings(size: tuple[float, float], place: int, count: int) -> tuple[tuple[Mark, ...], Rect]:
    """A row of rings, one for each place, that of the card filled with light lines."""
    box = content(size)
    unit = min(1.0, box.width / (count * 2 * _RING + (count - 1) * _RINGS_APART))
    radius, step = _RING * unit, (2 * _RING + _RINGS_APART) * unit
    left = box.left + box.width / 2 - step * (count - 1) / 2
    y = micrometres(box.top + box.height / 2)
    marks: list[Mark] = []
    for i in range(count):
        x = micrometres(left + i * step)
        marks.append(Dot(x=x, y=y, radius=micrometres(radius), stroke=_SOFT, line=0.3))
    x = micrometres(left + (place - 1) * step)
    marks.append(Dot(x=x, y=y, radius=micrometres(0.62 * radius), fill=_SOFT))
    own = Rect(micrometres(x - radius), micrometres(y - radius), 2 * radius, 2 * radius)
    return tuple(marks), Rect(*(micrometres(part) for part in own))
