"""A family's own pictures, made here: photos as phones write them, painted pictures, drawings."""

import io
import random
from pathlib import Path
from shutil import copyfile

from PIL import Image, ImageDraw, ImageFilter

SVG = Path(__file__).resolve().parent / "fixtures" / "svg"

DRAWINGS = ("lemon", "leek", "kite", "umbrella", "pumpkin", "scarf")
PHOTOS = ("apple.jpg", "pear_2.jpg", "IMG 0412.jpg")
PAINTED = ("plum.png",)


def folder(parent: Path, name: str = "our-garden") -> Path:
    """A folder of ten pictures: six drawings, three photos of a phone and a painted one."""
    made = parent / name
    made.mkdir()
    for drawing in DRAWINGS:
        copyfile(SVG / f"{drawing}.svg", made / f"{drawing}.svg")
    for number, photo in enumerate(PHOTOS):
        (made / photo).write_bytes(jpeg(number))
    (made / "plum.png").write_bytes(png())
    return made


def jpeg(number: int = 0) -> bytes:
    """A round fruit on a table, 900 x 1200 pixels held sideways, with the place of the home in it."""
    image = Image.new("RGB", (1200, 900), (228, 222, 214))
    draw = ImageDraw.Draw(image)
    color = ((186, 44, 40), (150, 170, 60), (214, 120, 30))[number % 3]
    draw.ellipse([330, 180, 870, 720], fill=color)
    draw.rectangle([860, 430, 960, 470], fill=(90, 60, 40))
    image = image.filter(ImageFilter.GaussianBlur(2))
    noise = random.Random(number)
    for _ in range(4000):
        place = noise.randrange(1200), noise.randrange(900)
        value = image.getpixel(place)
        image.putpixel(place, tuple(max(0, min(255, part + noise.randint(-6, 6))) for part in value))
    exif = Image.Exif()
    exif[0x0112] = 6  # turn to the right, as TIFF's Orientation says it
    exif[0x010E] = "taken at 12 Rock Lane"
    exif.get_ifd(0x8825)[2] = (51.0, 30.0, 0.0)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=90, exif=exif, comment=b"Rock Lane")
    return out.getvalue()


def png() -> bytes:
    """A painted plum with a soft edge on nothing."""
    image = Image.new("RGBA", (400, 400), (0, 0, 0, 0))
    draw = ImageDraw.Draw(image)
    draw.ellipse([60, 80, 340, 360], fill=(104, 60, 130, 255))
    draw.line([200, 90, 240, 20], fill=(90, 120, 50, 255), width=22)
    out = io.BytesIO()
    image.filter(ImageFilter.GaussianBlur(3)).save(out, "PNG")
    return out.getvalue()
