"""Photos: turned, converted, shrunk, cropped, without metadata; what cannot be used says why."""

import io
import zlib

import pytest
from PIL import Image, ImageCms

from printkit.errors import PrintkitError
from printkit.pictures.flatten import opened, rasterise
from printkit.pictures.raster import MAX_SIDE, in_gray, read_photo


def encoded(image: Image.Image, kind: str = "PNG", **options: object) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def noise(width: int, height: int, mode: str = "RGB") -> Image.Image:
    """A picture that no lossless method makes small."""
    channels = {"L": 1, "RGB": 3, "CMYK": 4}[mode]
    seed, values = 12345, bytearray()
    for _ in range(width * height * channels):
        seed = (seed * 1103515245 + 12345) % 2**31
        values.append(seed >> 16 & 255)
    return Image.frombytes(mode, (width, height), bytes(values))


def halves(left: object, right: object, mode: str = "RGB", size: tuple[int, int] = (400, 200)) -> Image.Image:
    """A picture of two colors side by side."""
    image = Image.new(mode, size, left)
    image.paste(right, (size[0] // 2, 0, *size))
    return image


def test_few_colors_are_kept_without_loss():
    """A painted picture's pixels stand in the PDF as they were."""
    image = halves("#2f6f8f", "#e8cf9f")
    raster = read_photo(encoded(image), "boat.png").raster
    assert (raster.filter, raster.channels, raster.mask) == ("FlateDecode", 3, None)
    assert zlib.decompress(raster.data) == image.tobytes()


@pytest.mark.parametrize("kind", ["JPEG", "WEBP", "PNG"])
def test_photos_become_jpeg(kind):
    """A picture of many colors is kept as JPEG, whatever it came as."""
    raster = read_photo(encoded(noise(300, 200), kind), "market").raster
    assert raster.filter == "DCTDecode"
    assert (raster.width_px, raster.height_px) == (300, 200)


def test_large_pictures_are_shrunk_to_300_dpi_at_120_mm():
    """The longer side has at most 1417 pixels, the proportions stay."""
    raster = read_photo(encoded(halves("red", "blue", size=(4000, 1000))), "boat.png").raster
    assert MAX_SIDE == 1417
    assert (raster.width_px, raster.height_px) == (1417, 354)


# Exif 2.3, 4.6.4 A, tag Orientation: 6 means the 0th row is the visual right-hand side.
def test_pictures_are_turned_upright():
    """A picture taken with the camera on its side is turned as its metadata say."""
    image = halves("red", "blue", size=(400, 200))
    exif = Image.Exif()
    exif[0x0112] = 6
    raster = read_photo(encoded(image, "PNG", exif=exif), "boat.png").raster
    pixels, _ = opened(raster)
    assert pixels.size == (200, 400)
    assert (pixels.getpixel((100, 10)), pixels.getpixel((100, 390))) == ((255, 0, 0), (0, 0, 255))


def test_metadata_are_left_behind():
    """Neither place nor time of a photo gets into the PDF."""
    exif = Image.Exif()
    exif[0x010E] = "taken at our garden gate"
    data = encoded(noise(64, 64), "JPEG", exif=exif, comment=b"at home")
    assert b"garden gate" in data
    raster = read_photo(data, "gate.jpg").raster
    assert b"garden" not in raster.data
    assert b"home" not in raster.data
    assert b"Exif" not in raster.data


def test_16_bit_grays_keep_their_tone():
    """Half of 65535 is half of 255, not white."""
    image = Image.frombytes("I;16", (20, 20), b"\x00\x80" * 400)
    raster = read_photo(encoded(image), "snow.png").raster
    assert raster.channels == 1
    assert set(zlib.decompress(raster.data)) == {127} or set(zlib.decompress(raster.data)) == {128}


def test_other_color_spaces_become_srgb():
    """A picture is converted by its profile: here one in which red and green have changed places."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    # ICC.1:2022, 7.3: the table of tags holds each signature once, followed by where its data lie.
    swapped = profile.replace(b"rXYZ", b"?XYZ", 1).replace(b"gXYZ", b"rXYZ", 1).replace(b"?XYZ", b"gXYZ", 1)
    image = halves((255, 0, 0), (0, 0, 255))
    pixels, _ = opened(read_photo(encoded(image, icc_profile=swapped), "boat.png").raster)
    assert pixels.getpixel((10, 10)) == pytest.approx((0, 255, 0), abs=3)
    pixels, _ = opened(read_photo(encoded(image, icc_profile=profile), "boat.png").raster)
    assert pixels.getpixel((10, 10)) == pytest.approx((255, 0, 0), abs=3)


@pytest.mark.parametrize("profile", [b"no profile at all", b"\0" * 400])
def test_unreadable_profiles_are_passed_over(profile):
    """A picture with a damaged profile is printed by its bare numbers."""
    image = halves((255, 0, 0), (0, 0, 255))
    pixels, _ = opened(read_photo(encoded(image, icc_profile=profile), "boat.png").raster)
    assert pixels.getpixel((10, 10)) == (255, 0, 0)


def test_cmyk_is_printed_in_rgb():
    """A JPEG for offset printing comes out in three channels, red where it was red."""
    image = Image.new("CMYK", (64, 64), (0, 255, 255, 0))
    raster = read_photo(encoded(image, "JPEG"), "stall.jpg").raster
    red, green, blue = opened(raster)[0].getpixel((9, 9))
    assert raster.channels == 3
    assert red > 200 > 80 > max(green, blue)


def test_transparency_becomes_a_soft_mask():
    """Alpha stands in a mask of its own, and its empty margins are cut off."""
    image = Image.new("RGBA", (100, 80), (0, 0, 0, 0))
    image.paste((200, 30, 30, 255), (10, 20, 50, 70))
    image.paste((200, 30, 30, 128), (50, 20, 60, 70))
    photo = read_photo(encoded(image), "crab.png")
    assert (photo.raster.width_px, photo.raster.height_px) == (50, 50)
    alpha = zlib.decompress(photo.raster.mask)
    assert alpha[:50] == b"\xff" * 40 + b"\x80" * 10
    drawn = rasterise(photo.drawing(), 50)
    assert drawn.getpixel((5, 5)) == (200, 30, 30)
    assert drawn.getpixel((45, 5)) == pytest.approx((227, 142, 142), abs=1)


def test_opaque_alpha_needs_no_mask():
    """An alpha channel that hides nothing is dropped."""
    image = Image.new("RGBA", (40, 40), (200, 30, 30, 255))
    assert read_photo(encoded(image), "crab.png").raster.mask is None


def test_gray_pictures_have_one_channel():
    """A colorless picture is kept in shades of gray, so that only black ink is used."""
    assert read_photo(encoded(halves("#444444", "#cccccc")), "snow.png").raster.channels == 1


def test_in_gray_weighs_colors_as_drawings_do():
    """Red turns to the gray that Rec. 709 gives it: 0.2126 of 255."""
    raster = in_gray(read_photo(encoded(halves((255, 0, 0), (0, 255, 0))), "boat.png").raster)
    assert raster.channels == 1
    values = zlib.decompress(raster.data)
    assert (values[0], values[-1]) == pytest.approx((54, 182), abs=1)


def test_pictures_with_few_pixels_are_noted():
    """A small picture says how large it can be printed sharply: 150 dpi."""
    assert read_photo(encoded(noise(150, 90)), "gull.png").notes == (
        "from few pixels: sharp up to 25 mm only",
    )
    assert read_photo(encoded(noise(400, 90)), "gull.png").notes == ()


def test_moving_pictures_are_noted():
    """Of an animation the first picture is taken, and that is said."""
    frames = [Image.new("RGB", (400, 400), color) for color in ("red", "blue")]
    data = encoded(frames[0], "WEBP", save_all=True, append_images=frames[1:], lossless=True)
    photo = read_photo(data, "gull.webp")
    assert photo.notes == ("with the first of its pictures only (it moves)",)
    assert opened(photo.raster)[0].getpixel((5, 5)) == (255, 0, 0)


BOMB = encoded(Image.new("1", (12000, 12000)))
# The first chunk of a PNG with 30000 x 30000 pixels of one bit.
WIDE = b"IHDR" + (30000).to_bytes(4, "big") * 2 + bytes([1, 0, 0, 0, 0])
REFUSED = {
    "empty": (b"", "the file is empty"),
    "svg": (b"<svg/>", "this is not a PNG, JPEG or WebP picture; save it as one of these"),
    "gif": (
        encoded(Image.new("L", (20, 20)), "GIF"),
        "this is not a PNG, JPEG or WebP picture; save it as one of these",
    ),
    "cut off": (
        encoded(noise(64, 64), "JPEG")[:900],
        "the picture is damaged or breaks off; save it anew",
    ),
    "cut off png": (encoded(noise(64, 64))[:900], "the picture is damaged or breaks off; save it anew"),
    "transparent": (
        encoded(Image.new("RGBA", (20, 20), (9, 9, 9, 0))),
        "the picture is wholly transparent",
    ),
    "dot": (
        encoded(Image.new("L", (7, 300))),
        "the picture has only 7 x 300 pixels; allowed: at least 8 on each side",
    ),
    "bomb": (BOMB, "the picture has 12000 x 12000 pixels; allowed: at most 50 million"),
    "great bomb": (
        BOMB[:12] + WIDE + zlib.crc32(WIDE).to_bytes(4, "big") + BOMB[33:],
        "the picture has far too many pixels; allowed: at most 50 million",
    ),
    "heavy": (b"\xff" * 41_000_000, "the picture is 41 MB large; allowed: at most 40 MB"),
}


@pytest.mark.parametrize(("data", "sentence"), REFUSED.values(), ids=REFUSED)
def test_pictures_that_are_refused_say_why(data, sentence):
    """The whole sentence, with the file's name in front, and no other problem."""
    with pytest.raises(PrintkitError) as caught:
        read_photo(data, "pond/frog.png")
    assert [str(problem) for problem in caught.value.problems] == [f"pond/frog.png: {sentence}"]
