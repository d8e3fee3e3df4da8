"""What can be seen between two looks of a picture at print size, measured on small images.

A change counts where it is at least 1 mm thick, so that the thin slivers between two almost equal
contours do not count (a young child resolves 1 mm at arm's length: three times the 0.29 mm that
20/50, the pass level of vision screening at three years, resolves at 400 mm).
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from printkit.pictures.colors import LACKING, LUMA, difference, simulated
from printkit.pictures.flatten import layers
from printkit.pictures.motifs import Ink, Motif
from printkit.pieces import Drawing

if TYPE_CHECKING:
    from PIL import Image

# Five pixels a mm: a square of 5 x 5 pixels is 1 mm. Each pixel is the mean of 4 rows with exact
# coverage along the row, so areas are finer than the pixels.
PIXELS_PER_MM = 5
MARGIN = 6

# Floors (design choices): a smaller or fainter change is no difference that a child can be asked for.
AREA_SHARE = 0.04
AREA_MM2 = 3.0
COLOR_CONTRAST = 20.0  # CIEDE2000
LACKING_CONTRAST = 10.0  # the same as seen by people who lack a kind of cone
GRAY_CONTRAST = 0.12  # of the way from black to white
LINE_SHARE = 0.04
LINE_MM2 = 1.5

# A pixel has changed when a channel differs by this much of 255; half the gray floor, so that the
# soft edges of a change count with it.
_STEP = 15
_SAMPLES = 500
_MIRROR_SIZE = 30.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """A drawing as it is placed: turned clockwise by `turn` degrees, mirrored first, scaled."""

    drawing: Drawing
    turn: float = 0.0
    mirror: bool = False
    scale: float = 1.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Change:
    """How far two looks differ: mm2 changed, that as a share of the first one's ink, mean CIEDE2000."""

    area: float
    share: float
    contrast: float


@dataclass(frozen=True, slots=True, eq=False)
class Pixels:
    """A look at print size in the middle of a square: its colors on white, and what it covers."""

    colors: "Image.Image"
    cover: "Image.Image"


def pixels(look: Look, size: float) -> Pixels:
    """The look where the longer side of its drawing at scale 1 is `size` mm.

    `turn` is a multiple of 90.
    """
    from PIL import Image, ImageOps

    side = math.ceil(size * PIXELS_PER_MM) + 2 * MARGIN
    longest = size * look.scale * PIXELS_PER_MM
    images = layers(look.drawing, side, side, longest)
    if look.mirror:
        images = tuple(ImageOps.mirror(image) for image in images)
    turns = {
        90: Image.Transpose.ROTATE_270, 180: Image.Transpose.ROTATE_180, 270: Image.Transpose.ROTATE_90
    }  # fmt: skip
    turn = turns.get(round(look.turn) % 360)
    if turn is not None:
        images = tuple(image.transpose(turn) for image in images)
    return Pixels(*images)


def color_change(one: Pixels, two: Pixels) -> Change | None:
    """What changes from one to the other, if it can be seen in color, however colors are seen, and in gray."""
    mask = _clumps(_differing(one.colors, two.colors))
    ink, area = _area(one.cover), _area(mask)
    if area < max(AREA_MM2, AREA_SHARE * ink) or gray_change(one, two) is None:
        return None
    pairs = _sampled(one.colors, two.colors, mask)
    contrast = _mean_difference(pairs)
    if contrast < COLOR_CONTRAST or any(
        _mean_difference([(simulated(a, kind), simulated(b, kind)) for a, b in pairs]) < LACKING_CONTRAST
        for kind in LACKING
    ):
        return None
    return Change(area=area, share=area / ink, contrast=contrast)


def gray_change(one: Pixels, two: Pixels) -> Change | None:
    """What changes from one to the other, if it can be seen in gray."""
    first, second = _gray(one.colors), _gray(two.colors)
    mask = _clumps(_differing(first, second))
    ink, area = _area(one.cover), _area(mask)
    if area < max(AREA_MM2, AREA_SHARE * ink) or _gray_contrast(first, second, mask) < GRAY_CONTRAST:
        return None
    contrast = _mean_difference(_sampled(first.convert("RGB"), second.convert("RGB"), mask))
    return Change(area=area, share=area / ink, contrast=contrast)


def line_change(one: Pixels, two: Pixels) -> Change | None:
    """What changes between two outlines; lines that only shift by less than 0.6 mm do not count."""
    first, second = _black(one.colors), _black(two.colors)
    changed = _either(_without(first, _near(second)), _without(second, _near(first)))
    ink, area = _area(first), _area(changed)
    if area < max(LINE_MM2, LINE_SHARE * ink):
        return None
    return Change(area=area, share=area / ink, contrast=100.0)


def mirror_change(motif: Motif) -> float:
    """How much of a motif changes when left and right do, as a share of what it covers."""
    from PIL import ImageChops, ImageOps, ImageStat

    seen = pixels(Look(drawing=motif.drawing("color", size=_MIRROR_SIZE)), _MIRROR_SIZE)
    bands = ImageChops.difference(seen.colors, ImageOps.mirror(seen.colors)).split()
    largest = bands[0]
    for band in bands[1:]:
        largest = ImageChops.lighter(largest, band)
    covered = seen.cover.point(_from(128))
    return ImageStat.Stat(largest.point(_from(41))).sum[0] / max(1.0, ImageStat.Stat(covered).sum[0])


# --- masks -----------------------------------------------------------------------------------


def _differing(one: "Image.Image", two: "Image.Image") -> "Image.Image":
    """Where any channel differs clearly (L, 0 or 255)."""
    from PIL import ImageChops

    bands = ImageChops.difference(one, two).split()
    largest = bands[0]
    for band in bands[1:]:
        largest = ImageChops.lighter(largest, band)
    return largest.point(_from(_STEP))


def _clumps(mask: "Image.Image") -> "Image.Image":
    """The mask without what is thinner than 1 mm."""
    from PIL import ImageFilter

    reach = PIXELS_PER_MM // 2
    core = mask.filter(ImageFilter.BoxBlur(reach)).point(_from(255))
    return core.filter(ImageFilter.BoxBlur(reach)).point(_from(1))


def _near(mask: "Image.Image") -> "Image.Image":
    """The mask grown by 0.6 mm."""
    from PIL import ImageFilter

    return mask.filter(ImageFilter.BoxBlur(round(0.6 * PIXELS_PER_MM))).point(_from(1))


def _black(colors: "Image.Image") -> "Image.Image":
    from PIL import ImageChops

    return ImageChops.invert(_gray(colors)).point(_from(96))


def _without(mask: "Image.Image", other: "Image.Image") -> "Image.Image":
    from PIL import ImageChops

    return ImageChops.subtract(mask, other)


def _either(mask: "Image.Image", other: "Image.Image") -> "Image.Image":
    from PIL import ImageChops

    return ImageChops.lighter(mask, other)


def _gray(colors: "Image.Image") -> "Image.Image":
    """As a gray printer prints it: the same weights that drawings are turned gray with."""
    return colors.convert("L", (*LUMA, 0))


@cache
def _from(floor: int) -> list[int]:
    """A table that turns values from `floor` up into 255 and the rest into 0."""
    return [0] * floor + [255] * (256 - floor)


def _area(mask: "Image.Image") -> float:
    """What the mask covers in mm2."""
    from PIL import ImageStat

    return ImageStat.Stat(mask).sum[0] / 255 / PIXELS_PER_MM**2


# --- contrast --------------------------------------------------------------------------------


Bytes = tuple[int, int, int]


def _sampled(one: "Image.Image", two: "Image.Image", mask: "Image.Image") -> list[tuple[Bytes, Bytes]]:
    """The colors in both images of some five hundred of the pixels in the mask."""
    from PIL import Image

    box = mask.getbbox()
    if box is None:
        return []
    images = [image.crop(box) for image in (one, two, mask)]
    step = max(1, round(math.sqrt(images[0].width * images[0].height / _SAMPLES)))
    size = (-(-images[0].width // step), -(-images[0].height // step))
    first, second, inside = (image.resize(size, Image.Resampling.NEAREST).tobytes() for image in images)
    # Soft edges hold many colors; in steps of 8 they are few, and measured once.
    first, second = (bytes(value & 0xF8 for value in data) for data in (first, second))
    return [
        ((first[i], first[i + 1], first[i + 2]), (second[i], second[i + 1], second[i + 2]))
        for i in (3 * place for place, value in enumerate(inside) if value)
    ]


def _mean_difference(pairs: list[tuple[Bytes, Bytes]]) -> float:
    """The mean CIEDE2000 of pairs of colors; 0 for none."""
    return sum(difference(one, two) for one, two in pairs) / max(1, len(pairs))


def _gray_contrast(one: "Image.Image", two: "Image.Image", mask: "Image.Image") -> float:
    from PIL import ImageChops, ImageStat

    if mask.getbbox() is None:
        return 0.0
    return ImageStat.Stat(ImageChops.difference(one, two), mask).mean[0] / 255


def measure(ink: Ink, photo: bool = False) -> Callable[[Pixels, Pixels], Change | None]:
    """How looks printed in that ink are compared; a photo prints gray where outlines are asked for."""
    if ink == "color":
        return color_change
    return line_change if ink == "outline" and not photo else gray_change


# --- separate things -------------------------------------------------------------------------


def things(cover: "Image.Image") -> int:
    """How many separate things a mask shows; pixels that touch at a corner hang together."""
    above: list[tuple[int, int, int]] = []
    roots: list[int] = []
    width = cover.width
    data = cover.point(_from(128)).tobytes()
    for row in range(cover.height):
        runs: list[tuple[int, int, int]] = []
        for start, end in _runs(data[row * width : (row + 1) * width]):
            touching = {_root(roots, label) for a, b, label in above if a <= end and start <= b}
            if not touching:
                roots.append(len(roots))
                touching = {len(roots) - 1}
            label = min(touching)
            for other in touching:
                roots[other] = label
            runs.append((start, end, label))
        above = runs
    return sum(root == i for i, root in enumerate(roots))


def _root(roots: list[int], label: int) -> int:
    while roots[label] != label:
        label = roots[label]
    return label


def _runs(row: bytes) -> Iterator[tuple[int, int]]:
    """Start and end (exclusive) of each stretch of 255 in a row of 0 and 255."""
    end = 0
    while (start := row.find(b"\xff", end)) >= 0:
        end = row.find(b"\x00", start)
        if end < 0:
            end = len(row)
        yield start, end
