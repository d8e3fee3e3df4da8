"""How a pattern lies on its strip: pictures in a row, places behind them, the answer on the back."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from printkit.materials.layout import (
    CONTENT_INSET,
    MARK_STRIP,
    SMALLEST_THING,
    SOFT,
    accent,
    content,
    hairline,
    picture,
)
from printkit.materials.tile_faces import PLAY
from printkit.pack import Tray
from printkit.pieces import Area, Box, Dot, Drawing, Face, Mark, Picture
from printkit.units import Rect, micrometres

if TYPE_CHECKING:
    from printkit.pictures import Motif

GOOD = 9.0
"""mm of a picture on a strip that is seen well from a small chair (design choice)."""
LEAST = SMALLEST_THING
TILE_INSET = 2.2
"""mm that a picture keeps from the cut of its tile: a printer drifts by 1 to 2 mm (common practice)."""
_APART = 3.0
"""mm between two pictures."""
_BETWEEN = 5.0
"""mm more between the last picture and the first place."""
_PLACES_APART = 1.6
_RINGS_APART = 2.0
_LINE = 0.3
HIGHEST_AROUND = 2 * CONTENT_INSET + MARK_STRIP + 1.0
"""mm of a strip's height that no place can have."""
_BACK_LARGEST = 12.0
_PAD = 2.5


@dataclass(frozen=True, kw_only=True, slots=True)
class Thing:
    """What stands for a letter: a motif, as it is drawn, `length` mm long."""

    motif: "Motif"
    drawing: Drawing
    length: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Way:
    """What places are for: tiles, or counters in rings of `ring` mm."""

    ring: float | None = None

    def place(self, thing: float) -> float:
        """mm across a place for tiles with pictures of `thing` mm."""
        return tile_side(thing) + PLAY if self.ring is None else self.ring

    @property
    def apart(self) -> float:
        """mm between two places."""
        return _PLACES_APART if self.ring is None else _RINGS_APART


def tile_side(thing: float) -> float:
    """mm of the side of a tile, in whole tenths."""
    return round(thing + 2 * TILE_INSET, 1)


def largest_thing(size: tuple[float, float], shown: int, places: int, way: Way) -> float:
    """The longest side, in mm and whole tenths, that the pictures of a strip can have; 0 for none."""
    box = content(size)
    fixed = (shown - 1) * _APART + _BETWEEN + places * way.apart + 2 * _LINE
    if way.ring is not None:
        if way.ring + 2 * _LINE > box.height:
            return 0.0
        across = (box.width - fixed - places * way.ring) / shown
        return max(0.0, _tenths(min(across, box.height, way.ring)))
    around = 2 * TILE_INSET + PLAY
    across = (box.width - fixed - places * around) / (shown + places)
    return max(0.0, _tenths(min(across, box.height - around - 2 * _LINE)))


def _tenths(length: float) -> float:
    return int(length * 10 + 1e-6) / 10


def strip_faces(
    tray: Tray,
    size: tuple[float, float],
    shown: str,
    missing: str,
    drawn: Mapping[str, Thing],
    thing: float,
    way: Way,
) -> tuple[Face, Face, Rect]:
    """Front and back of a strip, and where the answer stands on the back."""
    box = content(size)
    place = way.place(thing)
    wide = len(shown) * (thing + _APART) - _APART + _BETWEEN + len(missing) * (place + way.apart)
    left = box.left + (box.width - wide) / 2
    middle = box.top + box.height / 2
    marks: list[Mark] = [hairline(size, accent(tray))]
    for i, letter in enumerate(shown):
        marks.append(_placed(drawn[letter], left + i * (thing + _APART) + thing / 2, middle))
    end = left + len(shown) * (thing + _APART) - _APART
    begin = end + _BETWEEN + way.apart
    for i in range(len(missing)):
        x = begin + i * (place + way.apart)
        marks.append(_place(Rect(x, middle - place / 2, place, place), way))
    front = Face(marks=tuple(marks), areas=_areas(box, end, len(shown), drawn))
    back, control = _back(tray, size, end - left, missing, drawn, thing)
    return front, back, control


def _areas(box: Rect, end: float, count: int, drawn: Mapping[str, Thing]) -> tuple[Area, ...]:
    """The pictures, where each is one thing, and the places behind them."""
    parting = micrometres(end + _BETWEEN / 2)
    things = Area(box=Rect(box.left, box.top, parting - box.left, box.height), things=count)
    places = Area(
        box=Rect(parting, box.top, micrometres(box.right - parting), box.height), things=0, ground="places"
    )
    return (things, places) if all(item.motif.counted for item in drawn.values()) else (places,)


def _placed(item: Thing, x: float, y: float) -> Picture:
    half = item.length / 2
    return picture(item.drawing, Rect(x - half, y - half, item.length, item.length))


def _place(box: Rect, way: Way) -> Mark:
    if way.ring is not None:
        return Dot(
            x=micrometres(box.left + box.width / 2), y=micrometres(box.top + box.height / 2),
            radius=way.ring / 2, stroke=SOFT, line=_LINE,
        )  # fmt: skip
    return Box(
        x=micrometres(box.left), y=micrometres(box.top), width=box.width, height=box.height,
        radius=2, stroke=SOFT, line=_LINE,
    )  # fmt: skip


def _back(tray: Tray, size, behind: float, missing: str, drawn, thing: float) -> tuple[Face, Rect]:
    """What continues the strip, small, behind the pictures of the front: no place shines through."""
    box = content(size)
    count = len(missing)
    step = min(thing, _BACK_LARGEST, box.height - 2 * _PAD, (behind - 2 * _PAD) / count - 2)
    pitch = step + 2
    wide, high = count * pitch - 2 + 2 * _PAD, step + 2 * _PAD
    right = box.right - max(0.0, (behind - wide) / 2)
    control = Rect(
        micrometres(right - wide), micrometres(box.top + (box.height - high) / 2),
        micrometres(wide), micrometres(high),
    )  # fmt: skip
    marks: list[Mark] = [
        hairline(size, accent(tray)),
        Box(
            x=control.left, y=control.top, width=control.width, height=control.height,
            radius=2, stroke=(0.7,), line=0.3,
        ),
    ]  # fmt: skip
    for i, letter in enumerate(missing):
        item = drawn[letter]
        length = step * item.length / max(other.length for other in drawn.values())
        half = length / 2
        x, y = control.left + _PAD + i * pitch + step / 2, control.top + _PAD + step / 2
        drawing = item.motif.drawing(tray.child.ink, size=round(length, 1))
        marks.append(picture(drawing, Rect(x - half, y - half, length, length)))
    return Face(marks=tuple(marks)), control


def tile_face(side: float, item: Thing) -> Face:
    """A tile with one picture."""
    return Face(marks=(_placed(item, side / 2, side / 2),), areas=_tile_area(side, item))


def _tile_area(side: float, item: Thing) -> tuple[Area, ...]:
    return (Area(box=Rect(0, 0, side, side).inset(TILE_INSET / 2), things=1),) if item.motif.counted else ()
