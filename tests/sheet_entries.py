"""What the manifest says of a page of sheets, and where that lies among its pixels."""

import numpy as np
from reader import MM, ReadPage
from scipy import ndimage

FOOT = 8.0
"""mm of the strip within the margins that says what sheet it is (the design's section 6)."""
CLEAR = 3.5
"""mm inside a cut that stay white: the hairline lies at 4 mm, less its own half and a pixel."""
CLEAR_SMALL = 1.5
"""mm inside the cuts of a piece under 20 mm across, such as a tile, that stay white (our choice)."""
ON_LINE = 0.3
"""mm by which a drawn cut may differ from the manifest's."""

Line = tuple[float, float, float, float]
Box = tuple[float, float, float, float]


def setting(page: ReadPage, manifest: dict, key: str):
    """A setting of the page's child, or of the tray of its first piece where that sets it anew."""
    child = next(each for each in manifest["settings"]["children"] if each["name"] == page.file["child"])
    tray = page.entry["pieces"][0]["set"]
    own = next((each for each in child["materials"] if each["set"] == tray), {})
    return own.get(key, child.get(key))


def margin_of(page: ReadPage, manifest: dict) -> float:
    """mm kept free: the margin, and what a moved back would lose of it (backs are white 3.75 mm inside)."""
    shift = setting(page, manifest, "back_shift") or (0, 0)
    turned = setting(page, manifest, "flip")[page.file["stock"]] != "none"
    return setting(page, manifest, "margin") + max(0, *(abs(each) - 3.75 for each in shift if turned), 0)


def cuts_of(page: ReadPage) -> list[Line]:
    """The cuts in their order, each from left to right or from top to bottom."""
    return [
        (
            min(cut["from"][0], cut["to"][0]),
            min(cut["from"][1], cut["to"][1]),
            max(cut["from"][0], cut["to"][0]),
            max(cut["from"][1], cut["to"][1]),
        )
        for cut in sorted(page.entry["cuts"], key=lambda cut: cut["n"])
    ]


def printed(line: Line, page: ReadPage, margin: float) -> Line:
    """What of a cut is drawn: edge strips that a printer does not reach stay empty."""
    x1, y1, x2, y2 = line
    right, bottom = page.size[0] - margin, page.size[1] - margin
    return max(x1, margin), max(y1, margin), min(x2, right), min(y2, bottom)


def around(line: Line, reach: float, shape: tuple[int, ...]) -> tuple[slice, slice]:
    """Rows and columns of the pixels that lie within `reach` mm of a line along the paper."""
    x1, y1, x2, y2 = line
    rows = slice(max(0, round((y1 - reach) * MM)), min(shape[0], round((y2 + reach) * MM)))
    columns = slice(max(0, round((x1 - reach) * MM)), min(shape[1], round((x2 + reach) * MM)))
    return rows, columns


def along_cuts(page: ReadPage, margin: float, reach: float) -> np.ndarray:
    """Which pixels lie within `reach` mm of any cut's drawn part."""
    near = np.zeros(page.pixels.shape, bool)
    for cut in cuts_of(page):
        near[around(printed(cut, page, margin), reach, near.shape)] = True
    return near


def clear(piece: dict) -> float:
    """mm inside a piece's cuts that stay white."""
    return CLEAR if min(piece["box_mm"][2:]) >= 20 else CLEAR_SMALL


def parted(page: ReadPage) -> list[Line]:
    """Edges shared by two parts of one picture, by their facts: there the cut is meant to part it."""
    parts = [
        piece for piece in page.entry["pieces"] if {"motif", "part", "parts"} <= piece.get("facts", {}).keys()
    ]
    lines = []
    for one in parts:
        for two in parts:
            (x, y, width, height), other = one["box_mm"], two["box_mm"]
            if one["set"] != two["set"] or one["facts"]["motif"] != two["facts"]["motif"]:
                continue
            if np.allclose((x + width, y, height), (other[0], other[1], other[3]), atol=0.01):
                lines.append((x + width, y, x + width, y + height))
            if np.allclose((x, y + height, width), (other[0], other[1], other[2]), atol=0.01):
                lines.append((x, y + height, x + width, y + height))
    return lines


def without_scissor_marks(page: ReadPage, manifest: dict) -> np.ndarray:
    """The pixels without what is printed for the scissors: the cuts' numbers, arcs at round corners."""
    pixels = page.pixels.copy()
    for cut in page.entry["cuts"]:
        if "number_mm" in cut:
            left, top, width, height = cut["number_mm"]
            pixels[around((left, top, left + width, top + height), 0.35, pixels.shape)] = 255
    for x1, y1, x2, y2 in parted(page):
        across, down = (CLEAR, 0) if x1 == x2 else (0, CLEAR)
        within = (x1 - across + down, y1 + across - down, x2 + across - down, y2 - across + down)
        pixels[around(within, 0, pixels.shape)] = 255
    radius = setting(page, manifest, "corner") or 0
    if radius and page.entry["cuts"]:
        for piece in page.entry["pieces"]:
            left, top, width, height = piece["box_mm"]
            for x, inward in ((left, 1), (left + width, -1)):
                for y, downward in ((top, 1), (top + height, -1)):
                    middle = (x + inward * radius, y + downward * radius)
                    _blank_arc(pixels, (x, y), middle, radius)
    return pixels


def _blank_arc(
    pixels: np.ndarray, corner: tuple[float, float], middle: tuple[float, float], radius: float
) -> None:
    """Makes white what lies within 0.45 mm of a quarter circle between a corner and its middle."""
    (x1, x2), (y1, y2) = (sorted(pair) for pair in zip(corner, middle, strict=True))
    window = around((x1, y1, x2, y2), 0.1, pixels.shape)
    rows, columns = np.ogrid[window]
    far = np.hypot((columns + 0.5) / MM - middle[0], (rows + 0.5) / MM - middle[1])
    pixels[window][np.abs(far - radius) < 0.45] = 255


def spots(mask: np.ndarray, most: int = 3) -> str:
    """Where the ink of a mask lies: the middles of its largest parts, in mm."""
    labels, found = ndimage.label(mask, structure=np.ones((3, 3)))
    sizes = np.bincount(labels.ravel())[1:]
    largest = 1 + np.argsort(-sizes)[:most]
    middles = ndimage.center_of_mass(mask, labels, largest) if found else []
    return ", ".join(f"({x / MM:.1f}, {y / MM:.1f})" for y, x in middles)
