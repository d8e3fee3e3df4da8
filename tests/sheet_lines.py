"""Lines found in pixels: dashed ones by their even dashes, bars by the strokes at their ends."""

from dataclasses import dataclass

import numpy as np
from reader import MM

INKED = 245
"""Darker than this is ink; pdfium draws the thinnest lines of a page well below it."""


@dataclass(frozen=True)
class Dashed:
    """A found dashed line: where it runs across (mm), from where to where along, its pitch and tone."""

    across: float
    start: float
    end: float
    pitch: float
    tone: int


def level_dashes(pixels: np.ndarray) -> np.ndarray:
    """Short thin level strokes, a row of pixels each: which row, left end, right end, tone."""
    ink = pixels < INKED
    four = ink[:-3] & ink[1:-2] & ink[2:-1] & ink[3:]
    thin = ink.copy()
    for shift in range(4):
        thin[shift : shift + len(four)] &= ~four
    row, left, right = level_runs(thin)
    kept = (right - left >= 2) & (right - left <= 2.6 * MM)
    row, left, right = row[kept], left[kept], right[kept]
    return np.column_stack([row, left, right, pixels[row, (left + right) // 2]])


def level_runs(mask: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Which rows have runs of set pixels, where each begins and where it ends."""
    padded = np.pad(mask, ((0, 0), (1, 1)))
    flat = padded.ravel()
    ends = np.flatnonzero(flat[1:] != flat[:-1])
    row, left = np.divmod(ends[::2], padded.shape[1])
    return row, left, ends[1::2] % padded.shape[1]


def level_lines(dashes: np.ndarray) -> list[Dashed]:
    """Chains of at least eight dashes in one row, even in length and pitch (letters of a line are not)."""
    lines: list[Dashed] = []
    step = np.where(np.diff(dashes[:, 0]) == 0, np.diff(dashes[:, 1]), 10**6)
    even = (np.abs(np.diff(step)) <= 1) & (step[1:] < 7 * MM)
    rows, counts = np.unique(dashes[1:-1, 0][even], return_counts=True)
    for number in rows[counts >= 4]:
        row = dashes[dashes[:, 0] == number]
        row = row[np.abs(row[:, 3] - np.median(row[:, 3])) < 25]
        if len(row) < 6:
            continue
        pitch = float(np.median(np.diff(row[:, 1])))
        for chain in np.split(row, np.flatnonzero(np.abs(np.diff(row[:, 1]) - pitch) > 1) + 1):
            lengths = chain[:, 2] - chain[:, 1]
            if len(chain) >= 8 and np.mean(np.abs(lengths - np.median(lengths)) <= 1) > 0.7:
                lines.append(
                    Dashed(
                        across=(number + 0.5) / MM,
                        start=chain[0, 1] / MM,
                        end=chain[-1, 2] / MM,
                        pitch=pitch / MM,
                        tone=int(np.median(chain[:, 3])),
                    )
                )
    return lines


def bars(ink: np.ndarray, mm: float) -> list[float]:
    """Lengths in mm of level bars, from the middle of the stroke at one end to that at the other."""
    lengths = []
    last = -mm
    for row, left, right in zip(*level_runs(ink), strict=True):
        if right - left < 20 * mm or row - last < mm:
            continue
        last = row
        above = ink[max(0, row - round(0.3 * mm))]
        reach = round(0.4 * mm)
        ends = [np.flatnonzero(above[max(0, at - reach) : at + reach]) for at in (left, right)]
        if all(stroke.size for stroke in ends):
            starts = [max(0, at - reach) for at in (left, right)]
            middle = [at + (stroke[0] + stroke[-1]) / 2 for at, stroke in zip(starts, ends, strict=True)]
            lengths.append(round(float(middle[1] - middle[0]) / mm, 3))
    return sorted(lengths)
