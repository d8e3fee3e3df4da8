"""Sheets judged by their pages and the manifest alone: cuts, margins, pieces, counts, backs, bars.

Every check takes what was read and returns sentences about what is wrong, none when all is well.
By hand over a whole pack: `python tests/sheet_reader.py FOLDER`.
"""

import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from reader import MM, ReadPage, close_up, count_things, cropped, inside, read_file, read_manifest
from scipy import ndimage
from sheet_backs import check_backs, pairs
from sheet_entries import (
    FOOT,
    ON_LINE,
    Box,
    Line,
    along_cuts,
    around,
    clear,
    cuts_of,
    margin_of,
    parted,
    printed,
    setting,
    spots,
    without_scissor_marks,
)
from sheet_lines import INKED, Dashed, bars, level_dashes, level_lines


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong: which check found it, on which page, what it is."""

    check: str
    page: str
    said: str


# --- cut lines, found as dashes --------------------------------------------------------------


def check_cut_lines(page: ReadPage, manifest: dict) -> Iterator[str]:
    """Each cut is drawn as a dashed line where the manifest has it, and no such line is drawn elsewhere."""
    margin = margin_of(page, manifest)
    lines = [(n, printed(cut, page, margin)) for n, cut in enumerate(cuts_of(page), 1)]
    pixels = without_scissor_marks(page, manifest)
    reach = 3.5 if setting(page, manifest, "corner") else 2.0  # an arc runs along the line for a while
    for level in (True, False):
        dashes = level_dashes(pixels if level else np.ascontiguousarray(pixels.T))
        mine = [
            (n, (y1 + y2) / 2 if level else (x1 + x2) / 2, *((x1, x2) if level else (y1, y2)))
            for n, (x1, y1, x2, y2) in lines
            if (abs(y2 - y1) < abs(x2 - x1)) == level
        ]
        middles = (dashes[:, 0] + 0.5) / MM
        edges = [(y1, x1, x2) if level else (x1, y1, y2) for x1, y1, x2, y2 in parted(page)]
        for n, across, start, end in mine:
            on_it = dashes[np.abs(middles - across) <= ON_LINE]
            marks = [(left / MM, right / MM) for left, right in on_it[:, 1:3]]
            bare = [
                float(at)
                for at in np.arange(start, end, 0.5)
                if not any(left - reach <= at <= right + reach for left, right in marks)
                and not any(abs(across - at_edge) < 0.01 and a <= at <= b for at_edge, a, b in edges)
            ]
            if bare:
                yield f"cut {n} at {across:.2f} mm is not drawn from {bare[0]:.1f} to {bare[-1]:.1f} mm"
        found = level_lines(dashes)
        own = [line for line in found if any(abs(line.across - across) <= ON_LINE for _, across, *_ in mine)]
        for line in found:
            like_a_cut = any(
                abs(line.pitch - each.pitch) < 0.2 and abs(line.tone - each.tone) < 25 for each in own
            )
            if like_a_cut and not _covered(line, [each[1:] for each in mine]):
                yield (
                    f"a dashed line at {line.across:.2f} mm from {line.start:.1f} to {line.end:.1f} mm "
                    f"{'level' if level else 'upright'} is no cut"
                )


def _covered(line: Dashed, cuts: list[tuple[float, float, float]]) -> bool:
    """Whether cuts on this very line run along all of it, with no more than a dash's gap between."""
    at = line.start + 0.5
    for across, start, end in sorted(cuts, key=lambda cut: cut[1]):
        if abs(across - line.across) <= ON_LINE and start <= at + 2.5:
            at = max(at, end)
    return at >= line.end - 2.5  # a letter of the foot may stand where a next dash would


# --- cuts: can they be made, and do they cross anything? -------------------------------------


def check_guillotine(page: ReadPage, manifest: dict) -> Iterator[str]:
    """Each cut in its turn runs straight across one part in hand; at the end each piece is a part."""
    if page.entry["side"] == "back":
        return
    numbers = [cut["n"] for cut in page.entry["cuts"]]
    if sorted(numbers) != list(range(1, len(numbers) + 1)):
        yield f"the cuts are numbered {numbers}"
    boxes = [piece["box_mm"] for piece in page.entry["pieces"]]
    if not numbers:
        if len(boxes) != 1:
            yield f"{len(boxes)} pieces and no cuts"
        return
    parts: list[Box] = [(0.0, 0.0, *page.file["paper_mm"])]
    for n, cut in enumerate(cuts_of(page), 1):
        halved = [(part, halves) for part in parts if (halves := _halves(part, cut))]
        if len(halved) != 1:
            yield f"cut {n} runs across {len(halved)} parts, not one"
            continue
        part, halves = halved[0]
        parts.remove(part)
        parts += halves
    for piece, box in zip(page.entry["pieces"], boxes, strict=True):
        if not any(np.allclose(box, (x1, y1, x2 - x1, y2 - y1), atol=0.01) for x1, y1, x2, y2 in parts):
            yield f"{piece['id']} is no part of its own after the last cut"


def _halves(part: Box, cut: Line) -> list[Box]:
    """The two parts that a cut makes of one; none unless it runs from edge to edge of it."""
    (left, top, right, bottom), (x1, y1, x2, y2) = part, cut
    if y1 == y2 and top < y1 < bottom and np.allclose((x1, x2), (left, right), atol=0.01):
        return [(left, top, right, y1), (left, y1, right, bottom)]
    if x1 == x2 and left < x1 < right and np.allclose((y1, y2), (top, bottom), atol=0.01):
        return [(left, top, x1, bottom), (x1, top, right, bottom)]
    return []


def check_crossing(page: ReadPage, manifest: dict) -> Iterator[str]:
    """Beside each cut the paper is white but for other cuts: no ink crosses or touches one."""
    margin = margin_of(page, manifest)
    beside = along_cuts(page, margin, 0.8) & ~along_cuts(page, margin, ON_LINE)
    ink = beside & (without_scissor_marks(page, manifest) < INKED)
    if ink.any():
        yield f"ink crosses a cut at {spots(ink)} mm"


# --- ink where it belongs --------------------------------------------------------------------


def check_numbers(page: ReadPage, manifest: dict) -> Iterator[str]:
    """A number printed at a cut has ink, and lies on no piece and no other number."""
    boxes = [(cut["n"], cut["number_mm"]) for cut in page.entry["cuts"] if "number_mm" in cut]
    taken = [piece["box_mm"] for piece in page.entry["pieces"]]
    for n, box in boxes:
        if not (cropped(page, box) < INKED).any():
            yield f"the number of cut {n} is not printed"
        if any(_overlap(box, other) for other in taken):
            yield f"the number of cut {n} lies on a piece or another number"
        taken.append(box)


def _overlap(one: list[float], two: list[float]) -> bool:
    return all(min(one[i] + one[i + 2], two[i] + two[i + 2]) - max(one[i], two[i]) > 0.01 for i in (0, 1))


def check_margin(page: ReadPage, manifest: dict) -> Iterator[str]:
    """Nothing is printed in the margin, and the page has the size of the paper."""
    if not np.allclose(page.size, page.file["paper_mm"], atol=0.01):
        yield f"the page is {page.size} mm, the paper {page.file['paper_mm']}"
    edge = int((setting(page, manifest, "margin") - 0.2) * MM)
    outside = page.pixels < INKED
    outside[edge:-edge, edge:-edge] = False
    if outside.any():
        yield f"ink in the margin at {spots(outside)} mm"


def check_pieces(page: ReadPage, manifest: dict) -> Iterator[str]:
    """Each piece has ink, well inside its box; what is left over is white but for cuts and foot."""
    margin = margin_of(page, manifest)
    ink = (without_scissor_marks(page, manifest) < INKED) & ~along_cuts(page, margin, ON_LINE)
    for piece in page.entry["pieces"]:
        left, top, width, height = piece["box_mm"]
        whole = around((left, top, left + width, top + height), 0, ink.shape)
        middle = around((left, top, left + width, top + height), -clear(piece), ink.shape)
        if page.entry["side"] == "front" and not ink[middle].any():
            yield f"{piece['id']} is empty"
        ink[middle] = False
        if page.entry["cuts"] and ink[whole].any():
            yield f"{piece['id']} has ink at its edge"
        ink[around((left, top, left + width, top + height), 0.2, ink.shape)] = False
    shift = setting(page, manifest, "back_shift") or (0, 0)
    ink[_foot_rows(page, margin, abs(shift[1]), ink.shape)] = False
    if ink.any():
        yield f"ink on what is left over at {spots(ink)} mm"


def _foot_rows(page: ReadPage, margin: float, shift: float, shape: tuple[int, ...]) -> slice:
    """The rows of the foot: under the pieces, or behind those of the front."""
    height = FOOT + (shift if page.entry["side"] == "back" else 0)
    if page.entry["side"] == "back" and page.file["flip"] == "short":
        return slice(0, int((margin + height) * MM))
    return slice(int((page.size[1] - margin - height) * MM), shape[0])


def check_counts(page: ReadPage, manifest: dict) -> Iterator[str]:
    """In each area lie as many things as the manifest says, whatever is drawn around them."""
    for piece in page.entry["pieces"]:
        if page.entry["side"] == "front" and not inside(piece["box_mm"], [0, 0, *page.size]):
            yield f"{piece['id']} leaves the paper"
        for area in piece.get("areas", []):
            if not inside(area["box_mm"], piece["box_mm"]):
                yield f"{piece['id']} has an area outside of it"
            seen = counted(cropped(page, area["box_mm"], -0.2), area["ground"])
            if seen != area["things"]:
                yield f"{piece['id']} shows {seen} things, not {area['things']}"


def counted(pixels: np.ndarray, ground: str) -> int:
    """How many things lie on a ground: frames have long straight lines, places are thin rings."""
    if ground in ("none", "crossed"):
        return count_things(pixels)
    ink = pixels < INKED
    if ground == "places":
        kept = ndimage.binary_opening(ink, np.ones((6, 6)))
    else:
        length = round(14 * MM)
        straight = np.zeros_like(ink)
        for axis in (0, 1):
            runs = ndimage.minimum_filter1d(ink.astype(np.uint8), length, axis=axis, mode="constant")
            straight |= runs > 0
        labels, _ = ndimage.label(ink, structure=np.ones((3, 3)))
        kept = ink & ~np.isin(labels, np.unique(labels[straight & ink]))
    return count_things(np.where(kept, 0, 255).astype(np.uint8))


# --- the foot's bars -------------------------------------------------------------------------

BARS = (50.0, 50.8)
"""mm: the bar of 50 mm and that of two inches."""
FINE = 600


def check_bars(page: ReadPage, manifest: dict) -> Iterator[str]:
    """The foot of each front has a bar of 50 mm and one of 2 inches, true to 0.1 mm."""
    if page.entry["side"] == "back":
        return
    margin = margin_of(page, manifest)
    width, height = page.size
    foot = [margin - 1, height - margin - FOOT + 0.5, width - 2 * margin + 2, FOOT]
    lengths = bars(close_up(page, foot, FINE) < 128, FINE / 25.4)
    if len(lengths) != 2 or not np.allclose(lengths, BARS, rtol=0, atol=0.1):
        yield f"the bars are {lengths} mm, not {list(BARS)}"


# --- all of it -------------------------------------------------------------------------------

Check = Callable[[ReadPage, dict], Iterator[str]]
PAGE_CHECKS: tuple[Check, ...] = (
    check_margin,
    check_cut_lines,
    check_guillotine,
    check_crossing,
    check_numbers,
    check_pieces,
    check_counts,
    check_bars,
)


def sheets_of(manifest: dict) -> list[dict]:
    """The files of a manifest that hold sheets."""
    return [file for file in manifest["files"] if "child" in file]


def check_whole(pages: list[ReadPage]) -> Iterator[str]:
    """Each piece is on one front, and each back has its front."""
    seen = Counter(
        piece["id"] for page in pages if page.entry["side"] == "front" for piece in page.entry["pieces"]
    )
    yield from (f"{name} is there {count} times" for name, count in seen.items() if count > 1)
    backs = sum(page.entry["side"] == "back" for page in pages)
    if len(pairs(pages)) != backs:
        yield f"{backs} backs, but {len(pairs(pages))} with a front"


def faults(folder: Path, first_pages: int | None = None) -> list[Fault]:
    """All that is wrong with the sheets of a folder, or with the first pages of each file."""
    manifest = read_manifest(folder)
    only = None if first_pages is None else range(1, first_pages + 1)
    pages = [page for file in sheets_of(manifest) for page in read_file(folder, file, only=only)]
    return list(judged(pages, manifest))


def judged(pages: list[ReadPage], manifest: dict) -> Iterator[Fault]:
    """All that is wrong with these pages."""
    for page in pages:
        name = f"{page.path.name}, page {page.entry['page']}"
        for check in PAGE_CHECKS:
            yield from (Fault(check.__name__, name, said) for said in check(page, manifest))
    for front, back in pairs(pages):
        name = f"{back.path.name}, page {back.entry['page']}"
        yield from (Fault("check_backs", name, said) for said in check_backs(front, back, manifest))
    yield from (Fault("check_whole", "all", said) for said in check_whole(pages))


if __name__ == "__main__":
    for fault in faults(Path(sys.argv[1])):
        print(f"{fault.page}: {fault.check}: {fault.said}")
