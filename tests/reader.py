"""An independent reader: knows only PDF pages and the manifest, nothing of the code that drew them."""

import json
from collections.abc import Container
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2
from scipy import ndimage

DPI = 150
MM = DPI / 25.4
_BARELY = 1 - 1e-9
"""A page of just 1650 pixels must not become one of 1651, and all on it larger, by a float's last digit."""


@dataclass(frozen=True)
class ReadPage:
    """One page: its entries in the manifest, its pixels (0 black to 255 white), its text, its size in mm."""

    path: Path
    file: dict
    entry: dict
    pixels: np.ndarray
    text: str
    size: tuple[float, float]

    def piece(self, piece_id: str) -> dict:
        """The entry of a piece on this page."""
        return next(piece for piece in self.entry["pieces"] if piece["id"] == piece_id)


def read_manifest(folder: Path) -> dict:
    """What the manifest of a folder says."""
    return json.loads((folder / "manifest.json").read_text(encoding="utf-8"))


def read_folder(folder: Path, *, pixels: bool = True) -> list[ReadPage]:
    """Every page of every PDF that the manifest of a folder lists."""
    files = read_manifest(folder)["files"]
    return [page for file in files for page in read_file(folder, file, pixels=pixels)]


def read_file(
    folder: Path, file: dict, *, pixels: bool = True, only: Container[int] | None = None
) -> list[ReadPage]:
    """The pages of one file of the manifest, or `only` those; it must open strictly in a foreign reader."""
    if "pages" not in file:
        return []
    path = folder / file["file"]
    strict = pypdf.PdfReader(path, strict=True)
    document = pypdfium2.PdfDocument(path)
    assert len(document) == len(strict.pages) == len(file["pages"])
    pages = []
    for number, entry in enumerate(file["pages"]):
        if only is not None and entry["page"] not in only:
            continue
        page = document[number]
        box = strict.pages[number].mediabox
        size = (float(box.width) / 72 * 25.4, float(box.height) / 72 * 25.4)
        image = (
            page.render(scale=DPI / 72 * _BARELY).to_numpy() if pixels else np.full((1, 1, 3), 255, np.uint8)
        )
        textpage = page.get_textpage()
        pages.append(
            ReadPage(
                path=path,
                file=file,
                entry=entry,
                pixels=image[..., :3].min(axis=2),
                text=textpage.get_text_range(),
                size=size,
            )
        )
        textpage.close()
        page.close()
    document.close()
    return pages


def close_up(page: ReadPage, box: list[float], dpi: int) -> np.ndarray:
    """The pixels of a box in mm, drawn anew at a finer grain."""
    left, top, width, height = (value / 25.4 * 72 for value in box)
    across, down = (value / 25.4 * 72 for value in page.size)
    crop = (left, down - top - height, across - left - width, top)
    document = pypdfium2.PdfDocument(page.path)
    sheet = document[page.entry["page"] - 1]
    image = sheet.render(scale=dpi / 72 * _BARELY, crop=crop).to_numpy()
    sheet.close()
    document.close()
    return image[..., :3].min(axis=2)


def cropped(page: ReadPage, box: list[float], inset: float = 0.0) -> np.ndarray:
    """The pixels of a box in mm, `inset` mm inside it."""
    left, top, width, height = box
    rows = slice(round((top + inset) * MM), round((top + height - inset) * MM))
    columns = slice(round((left + inset) * MM), round((left + width - inset) * MM))
    return page.pixels[rows, columns]


def count_things(pixels: np.ndarray, least_mm2: float = 1.0) -> int:
    """How many separate inked things there are, specks and what lies inside an outline left out."""
    solid = ndimage.binary_fill_holes(pixels < 225)
    labels, found = ndimage.label(solid, structure=np.ones((3, 3)))
    areas = ndimage.sum_labels(np.ones_like(labels), labels, range(1, found + 1))
    return int((np.asarray(areas) >= least_mm2 * MM**2).sum())


def ink_share(pixels: np.ndarray, light: int = 250) -> float:
    """The share of the pixels that carry any ink."""
    return float((pixels < light).mean()) if pixels.size else 0.0


def mirrored(box: list[float], flip: str, size: tuple[float, float]) -> list[float]:
    """Where a box of the back lies, seen through the paper from the front, for the way it was turned over."""
    left, top, width, height = box
    if flip == "short":
        return [left, size[1] - top - height, width, height]
    return [size[0] - left - width, top, width, height]


def inside(inner: list[float], outer: list[float], slack: float = 0.05) -> bool:
    """Whether a box lies within another, in mm."""
    return (
        inner[0] >= outer[0] - slack
        and inner[1] >= outer[1] - slack
        and inner[0] + inner[2] <= outer[0] + outer[2] + slack
        and inner[1] + inner[3] <= outer[1] + outer[3] + slack
    )
