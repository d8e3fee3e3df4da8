"""The plain ground behind a photographed or painted thing -> see-through, with a soft edge."""

from typing import TYPE_CHECKING

from printkit.pictures.tree import UnusableError

if TYPE_CHECKING:
    from PIL import Image

# Design choices, in steps of 255: closer to the ground than the first is ground, further than the
# second is picture, and what lies between is the soft edge.
_GROUND, _PICTURE = 18, 60
_SMALL = 400  # pixels of the longer side on which the ground is followed inwards from the edge
_PLAIN = 0.85  # of the edge must be ground


def is_plain(image: "Image.Image") -> bool:
    """Whether the edges of a picture (L, RGB, RGBA) show one ground all round."""
    if image.mode == "RGBA" and image.getchannel("A").getextrema() != (255, 255):
        return False
    small = _shrunk(image.convert("RGB"))
    return _share_of_edge(_distance(small, _ground(small))) >= _PLAIN


def without_ground(image: "Image.Image") -> "Image.Image":
    """The picture as RGBA, its ground wholly transparent; what has transparent parts stays as it is.

    The ground is what looks like the edge of the picture and hangs together with it: a white
    belly on white paper stays. Raises UnusableError when the edges show no plain ground, or nothing
    but ground is there.
    """
    from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageOps

    if image.mode == "RGBA" and image.getchannel("A").getextrema() != (255, 255):
        return image
    inks = image.convert("RGB")
    small = _shrunk(inks)
    ground = _ground(small)
    apart = _distance(small, ground)
    if _share_of_edge(apart) < _PLAIN:
        raise UnusableError(
            "trim is asked for, but the edges of the picture show no plain ground",
            "a picture on one even color, or no trim",
        )
    # 0 where it may be ground; a frame of ground lets it in from all sides.
    maybe = apart.filter(ImageFilter.MedianFilter(3)).point(_steps(_PICTURE // 2))
    framed = ImageOps.expand(maybe, 1, 0)
    ImageDraw.floodfill(framed, (0, 0), 128)
    outside = framed.crop((1, 1, 1 + small.width, 1 + small.height)).point([0] * 128 + [255] + [0] * 127)
    if outside.getextrema()[0] == 255:
        raise UnusableError("trim is asked for, but there is nothing but plain ground in the picture")
    near = outside.filter(ImageFilter.MaxFilter(5)).resize(inks.size, Image.Resampling.BILINEAR)
    far = outside.filter(ImageFilter.MinFilter(5)).resize(inks.size, Image.Resampling.BILINEAR)
    soft = _distance(inks, ground).point(_ramp())
    # Well inside the ground all is ground, well inside the picture all is picture.
    alpha = ImageChops.lighter(soft, ImageOps.invert(near))
    alpha = ImageChops.darker(alpha, ImageOps.invert(far))
    cut = inks.convert("RGBA")
    cut.putalpha(alpha)
    return cut


def _shrunk(image: "Image.Image") -> "Image.Image":
    from PIL import Image

    small = image.copy()
    small.thumbnail((_SMALL, _SMALL), Image.Resampling.BOX)
    return small


def _edge(image: "Image.Image") -> bytes:
    """The outermost pixels of an image, one after the other."""
    wide, high = image.size
    sides = ((0, 0, wide, 1), (0, high - 1, wide, high), (0, 0, 1, high), (wide - 1, 0, wide, high))
    return b"".join(image.crop(side).tobytes() for side in sides)


def _ground(image: "Image.Image") -> tuple[int, int, int]:
    """The middle value of each channel along the edge."""
    edge = _edge(image)
    red, green, blue = (sorted(edge[i::3])[len(edge) // 6] for i in range(3))
    return red, green, blue


def _distance(image: "Image.Image", color: tuple[int, int, int]) -> "Image.Image":
    """How far each pixel is from a color, in the channel where it is furthest."""
    from PIL import Image, ImageChops

    red, green, blue = ImageChops.difference(image, Image.new("RGB", image.size, color)).split()
    return ImageChops.lighter(ImageChops.lighter(red, green), blue)


def _share_of_edge(apart: "Image.Image") -> float:
    edge = _edge(apart)
    return sum(value <= _PICTURE // 2 for value in edge) / len(edge)


def _steps(floor: int) -> list[int]:
    return [0] * (floor + 1) + [255] * (255 - floor)


def _ramp() -> list[int]:
    return [round(255 * min(1.0, max(0.0, (value - _GROUND) / (_PICTURE - _GROUND)))) for value in range(256)]
