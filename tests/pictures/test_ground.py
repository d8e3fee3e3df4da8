"""Trim: the plain ground behind a photographed thing goes, the thing stays."""

import numpy
import pytest
from PIL import Image, ImageDraw, ImageFilter

from printkit.pictures.ground import is_plain, without_ground
from printkit.pictures.tree import UnusableError

PAPER = (236, 230, 220)


def photo(size: int = 600, noise: int = 0) -> Image.Image:
    """A red apple with a spot of the color of the paper, on paper; noise as a camera adds it."""
    image = Image.new("RGB", (size, size), PAPER)
    draw = ImageDraw.Draw(image)
    draw.ellipse([size * 0.25, size * 0.3, size * 0.75, size * 0.8], fill=(190, 40, 45))
    draw.ellipse([size * 0.45, size * 0.45, size * 0.55, size * 0.55], fill=PAPER)
    image = image.filter(ImageFilter.GaussianBlur(1))
    if noise:
        values = numpy.asarray(image, dtype=int)
        values = values + numpy.random.default_rng(1).integers(-noise, noise + 1, values.shape)
        image = Image.fromarray(values.clip(0, 255).astype("uint8"))
    return image


@pytest.mark.parametrize("noise", [0, 8])
def test_the_ground_goes_and_the_thing_stays(noise):
    """Alpha is nothing over the ground, all over the apple, and its area that of a disc."""
    cut = without_ground(photo(noise=noise))
    alpha = numpy.asarray(cut.getchannel("A"))
    assert (alpha[:100] == 0).all() and (alpha[:, :100] == 0).all()
    assert (alpha[300:330, 200:260] == 255).all()
    assert alpha.sum() / 255 == pytest.approx(numpy.pi * 150**2, rel=0.02)


def test_what_looks_like_the_ground_inside_the_thing_stays():
    """A spot of the paper's color within the apple is part of the apple."""
    alpha = numpy.asarray(without_ground(photo()).getchannel("A"))
    assert (alpha[280:320, 280:320] == 255).all()


def test_edges_are_soft():
    """Between nothing and all lie some in-between values, and no more than a few pixels of them."""
    alpha = numpy.asarray(without_ground(photo()).getchannel("A"))
    soft = ((alpha > 10) & (alpha < 245)).sum()
    assert 0.3 * numpy.pi * 300 < soft < 6 * numpy.pi * 300


def test_a_busy_ground_is_refused():
    """Half sky, half grass is no plain ground."""
    image = photo()
    image.paste((60, 120, 60), (0, 300, 600, 600))
    assert not is_plain(image)
    with pytest.raises(UnusableError, match="no plain ground"):
        without_ground(image)


def test_nothing_but_ground_is_refused():
    """A blank sheet has nothing to keep."""
    with pytest.raises(UnusableError, match="nothing but plain ground"):
        without_ground(Image.new("RGB", (200, 200), PAPER))


def test_transparent_pictures_stay_as_they_are():
    """Where somebody cut the ground away already, nothing is done."""
    image = Image.new("RGBA", (60, 60), (255, 255, 255, 0))
    image.paste((20, 30, 40, 255), (20, 20, 40, 40))
    assert without_ground(image) is image
    assert not is_plain(image)
