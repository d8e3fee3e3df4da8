"""What the tests of pictures share: the folder of fixtures and the theme of plain shapes."""

from collections.abc import Callable
from pathlib import Path

import pytest

from printkit.pictures import Motif, Theme, load_theme
from printkit.pictures.motifs import Motif as MadeMotif
from printkit.pictures.svg import read_svg

FIXTURES = Path(__file__).resolve().parent.parent / "fixtures"


@pytest.fixture(scope="session")
def fixtures() -> Path:
    """The folder of test files."""
    return FIXTURES


@pytest.fixture(scope="session")
def plain() -> Theme:
    """The theme of discs and squares."""
    return load_theme("plain", FIXTURES, "the test")


@pytest.fixture(scope="session")
def motif_of() -> Callable[[str], Motif]:
    """Makes a motif of what stands inside an SVG of 100 x 100."""

    def make(inside: str, box: str = "0 0 100 100") -> Motif:
        data = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}">{inside}</svg>'
        art = read_svg(data.encode(), "boat.svg")
        return MadeMotif(key="boat", file="boat.svg", theme="kitchen garden", source=art)

    return make
