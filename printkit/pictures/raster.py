"""Photos and painted pictures (PNG, JPEG, WebP) -> bytes ready for the PDF, without metadata.

Turned upright, in sRGB, 8 bits a channel, at most 300 dpi at the largest size they are drawn.
"""

import io
import zlib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from printkit.errors import PrintkitError, Problem
from printkit.pictures.colors import LUMA
from printkit.pictures.flatten import opened
from printkit.pictures.ground import is_plain, without_ground
from printkit.pictures.tree import UnusableError
from printkit.pieces import Drawing, Raster
from printkit.units import MM_PER_INCH

if TYPE_CHECKING:
    from PIL import Image

MAX_BYTES = 40_000_000
MAX_PIXELS = 50_000_000
MIN_SIDE = 8
LARGEST_MM = 120.0
DPI = 300
COARSE_DPI = 150
JPEG_QUALITY = 88

MAX_SIDE = round(LARGEST_MM / MM_PER_INCH * DPI)


@dataclass(frozen=True, kw_only=True, slots=True)
class Photo:
    """A prepared picture and what is to be said of it, each to be read after 'drawn'."""

    name: str
    raster: Raster
    notes: tuple[str, ...] = ()

    def drawing(self, raster: Raster | None = None) -> Drawing:
        """The picture as a drawing, one unit a pixel; `raster` stands in for its own."""
        raster = raster or self.raster
        return Drawing(name=self.name, width=raster.width_px, height=raster.height_px, raster=raster)


def read_photo(data: bytes, name: str, *, trim: bool = False) -> Photo:
    """The picture in a PNG, JPEG or WebP file; transparent margins are cut off.

    `trim` makes the plain ground behind the thing transparent first. Raises PrintkitError with one
    Problem whose place is `name` when the file is none of these, damaged, too large, too small or
    wholly transparent, or has no plain ground to trim.
    """
    try:
        image, kind, notes = _upright(data)
        if trim:
            image = without_ground(image)
        return _prepared(image, kind, name, notes)
    except UnusableError as refused:
        problem = Problem(place=name, found=refused.found, allowed=refused.allowed)
        raise PrintkitError([problem]) from None


def has_plain_ground(data: bytes) -> bool:
    """Whether the picture in a file stands on one even ground that could be trimmed away."""
    try:
        return is_plain(_upright(data)[0])
    except UnusableError:
        return False


def in_gray(raster: Raster) -> Raster:
    """The same picture in shades of gray, weighted as drawings are."""
    if raster.channels == 1:
        return raster
    image, _ = opened(raster)
    gray = image.convert("L", (*LUMA, 0))
    data = _flate(gray) if raster.filter == "FlateDecode" else _jpeg(gray)
    return Raster(
        data=data,
        filter=raster.filter,
        width_px=raster.width_px,
        height_px=raster.height_px,
        channels=1,
        mask=raster.mask,
    )


# --- reading ---------------------------------------------------------------------------------


def _upright(data: bytes) -> tuple["Image.Image", str, tuple[str, ...]]:
    """The pixels as they are meant to be seen, shrunk, in sRGB; the kind of file; notes."""
    import warnings

    from PIL import Image, UnidentifiedImageError

    if not data:
        raise UnusableError("the file is empty")
    if len(data) > MAX_BYTES:
        raise UnusableError(
            f"the picture is {len(data) / 1e6:.0f} MB large", f"at most {MAX_BYTES // 1_000_000} MB"
        )
    with warnings.catch_warnings():
        # Pillow warns of odd metadata and of many pixels; neither matters here.
        warnings.simplefilter("ignore")
        try:
            image = Image.open(io.BytesIO(data), formats=("PNG", "JPEG", "WEBP"))
        except Image.DecompressionBombError:
            raise UnusableError("the picture has far too many pixels", _PIXELS) from None
        except UnidentifiedImageError:
            raise UnusableError("this is not a PNG, JPEG or WebP picture; save it as one of these") from None
        except Exception:
            raise UnusableError(_DAMAGED) from None
        if image.width * image.height > MAX_PIXELS:
            raise UnusableError(f"the picture has {image.width} x {image.height} pixels", _PIXELS)
        if min(image.size) < MIN_SIDE:
            raise UnusableError(
                f"the picture has only {image.width} x {image.height} pixels",
                f"at least {MIN_SIDE} on each side",
            )
        kind = "JPEG" if image.format == "MPO" else str(image.format)
        moving = kind != "JPEG" and getattr(image, "n_frames", 1) > 1
        # The decoders read bytes that anyone may have made; whatever they raise is a damaged file.
        try:
            if kind == "JPEG" and image.mode in ("RGB", "L"):
                image.draft(image.mode, (MAX_SIDE, MAX_SIDE))
            image.load()
            profile = image.info.get("icc_profile")
            image = _eight_bits(_turned(image))
            image.thumbnail((MAX_SIDE, MAX_SIDE), Image.Resampling.LANCZOS)
            image = _in_srgb(image, profile)
        except Exception:
            raise UnusableError(_DAMAGED) from None
    return image, kind, ("with the first of its pictures only (it moves)",) if moving else ()


_PIXELS = f"at most {MAX_PIXELS // 1_000_000} million"
_DAMAGED = "the picture is damaged or breaks off; save it anew"


def _turned(image: "Image.Image") -> "Image.Image":
    """The picture as the camera was held; odd metadata leaves it as it lies."""
    from PIL import ImageOps

    try:
        return ImageOps.exif_transpose(image)
    except Exception:
        return image


def _eight_bits(image: "Image.Image") -> "Image.Image":
    """The picture as L, RGB, RGBA or CMYK; 16-bit gray is scaled, which convert('L') would clip."""
    if image.mode in ("F", "I") or image.mode.startswith("I;"):
        return image.convert("I").point(lambda value: value * (1 / 257)).convert("L")
    if image.mode in ("RGBA", "LA", "PA", "La", "RGBa") or "transparency" in image.info:
        return image.convert("RGBA")
    if image.mode in ("L", "1"):
        return image.convert("L")
    return image if image.mode == "CMYK" else image.convert("RGB")


def _in_srgb(image: "Image.Image", profile: bytes | None) -> "Image.Image":
    """The picture with its numbers in sRGB; a profile that cannot be read is passed over."""
    from PIL import ImageCms

    alpha = image.getchannel("A") if image.mode == "RGBA" else None
    inks = image.convert("RGB") if alpha is not None else image
    if profile:
        try:
            source: Any = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            target: Any = ImageCms.createProfile("sRGB")
            inks = ImageCms.profileToProfile(inks, source, target, outputMode="RGB") or inks
        except (ImageCms.PyCMSError, OSError, ValueError):
            pass
    if inks.mode == "CMYK":
        inks = inks.convert("RGB")
    if alpha is not None:
        inks.putalpha(alpha)
    return inks


# --- preparing -------------------------------------------------------------------------------


_PALEST = 235
"""The darkest gray (of 255) that a picture must reach to be seen on white paper (design choice)."""


def _prepared(image: "Image.Image", kind: str, name: str, notes: tuple[str, ...]) -> Photo:
    from PIL import Image

    mask = None
    if image.mode == "RGBA":
        alpha = image.getchannel("A")
        seen = alpha.getbbox()
        if seen is None:
            raise UnusableError("the picture is wholly transparent")
        image, alpha = image.crop(seen), alpha.crop(seen)
        # What lies under fully transparent pixels would only cost bytes.
        white = Image.new("RGB", image.size, "white")
        white.paste(image.convert("RGB"), (0, 0), alpha.point([0] + [255] * 255))
        image = white
        if alpha.getextrema() != (255, 255):
            mask = _flate(alpha)
    if image.convert("L").getextrema()[0] > _PALEST:
        raise UnusableError("the picture is white all over: nothing of it would be seen on paper")
    if image.mode == "RGB" and _is_gray(image):
        image = image.getchannel("R")
    longest = max(image.size)
    sharp_mm = longest / COARSE_DPI * MM_PER_INCH
    if sharp_mm < LARGEST_MM / 2:
        notes = (*notes, f"from few pixels: sharp up to {sharp_mm:.0f} mm only")
    data, name_of_filter = _smaller(image, kind)
    raster = Raster(
        data=data,
        filter=name_of_filter,
        width_px=image.width,
        height_px=image.height,
        channels=1 if image.mode == "L" else 3,
        mask=mask,
    )
    return Photo(name=name, raster=raster, notes=notes)


def _is_gray(image: "Image.Image") -> bool:
    from PIL import ImageChops

    red, green, blue = image.split()
    return not (ImageChops.difference(red, green).getbbox() or ImageChops.difference(red, blue).getbbox())


def _smaller(image: "Image.Image", kind: str) -> tuple[bytes, Any]:
    """JPEG for photos; without loss for few colors, or where that costs little."""
    jpeg = _jpeg(image)
    if kind == "JPEG":
        return jpeg, "DCTDecode"
    flate = _flate(image)
    if image.getcolors(256) is not None or len(flate) <= 1.5 * len(jpeg):
        return flate, "FlateDecode"
    return jpeg, "DCTDecode"


def _flate(image: "Image.Image") -> bytes:
    return zlib.compress(image.tobytes(), 9)


def _jpeg(image: "Image.Image") -> bytes:
    from PIL import Image

    out = io.BytesIO()
    # By its pixels alone, as saving would carry over comments; optimize=True fails on noisy pictures.
    bare = Image.frombytes(image.mode, image.size, image.tobytes())
    bare.save(out, "JPEG", quality=JPEG_QUALITY, subsampling=0)
    return out.getvalue()
