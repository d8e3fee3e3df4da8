"""Backs laid over their fronts, as the paper is turned over: pages and manifest alone."""

from collections.abc import Iterator

import numpy as np
from reader import MM, ReadPage, mirrored
from sheet_entries import ON_LINE, around, clear, setting
from sheet_lines import INKED


def pairs(pages: list[ReadPage]) -> list[tuple[ReadPage, ReadPage]]:
    """Each back with its front: the page before it, or the same page of the file of fronts."""
    fronts = {(page.path.name, page.entry["page"]): page for page in pages if page.entry["side"] == "front"}
    made = []
    for back in (page for page in pages if page.entry["side"] == "back"):
        name, number = back.path.name, back.entry["page"]
        if back.file["flip"] == "hand":
            key = (name.replace("-backs.pdf", "-fronts.pdf"), number)
        else:
            key = (name, number - 1)
        if key in fronts:
            made.append((fronts[key], back))
    return made


def check_backs(front: ReadPage, back: ReadPage, manifest: dict) -> Iterator[str]:
    """Turned over as the file says, each back lies on its own front, its control under what it marks."""
    flip = back.file["flip"]
    shift = setting(back, manifest, "back_shift") or (0.0, 0.0)
    printed = np.roll(back.pixels, (round(-shift[1] * MM), round(-shift[0] * MM)), axis=(0, 1))
    through = printed[::-1] if flip == "short" else printed[:, ::-1]
    if flip not in ("long", "short", "hand") or through.shape != front.pixels.shape:
        yield f"a back cannot be laid over its front ({flip})"
        return
    names = [piece["id"] for piece in front.entry["pieces"]]
    if sorted(names) != sorted(piece["id"] for piece in back.entry["pieces"]):
        yield "front and back do not hold the same pieces"
    for behind in back.entry["pieces"]:
        if behind["id"] not in names:
            continue
        piece = front.piece(behind["id"])
        box = mirrored(_moved(behind["box_mm"], shift), flip, front.size)
        if not np.allclose(box, piece["box_mm"], atol=0.02):
            yield f"the back of {piece['id']} lies at {box}, the front at {piece['box_mm']}"
        yield from _check_ink_behind(through, front, piece)
        if "control_mm" in behind:
            control = mirrored(_moved(behind["control_mm"], shift), flip, front.size)
            yield from _check_control(through, front, piece, control)


def _moved(box: list[float], shift: tuple[float, float]) -> list[float]:
    """Where a printer that is off by just the shift, the other way, lays a box of the back page."""
    return [box[0] - shift[0], box[1] - shift[1], box[2], box[3]]


def _window(box: list[float], inset: float, shape: tuple[int, ...]) -> tuple[slice, slice]:
    left, top, width, height = box
    return around((left, top, left + width, top + height), -inset, shape)


def _check_ink_behind(through: np.ndarray, front: ReadPage, piece: dict) -> Iterator[str]:
    """What shows through lies well within the piece; a frame on both sides is one frame."""
    rows, columns = _window(piece["box_mm"], 0, through.shape)
    behind, before = through[rows, columns] < INKED, front.pixels[rows, columns] < INKED
    inner = _window([0, 0, *piece["box_mm"][2:]], clear(piece), behind.shape)
    edge = behind.copy()
    edge[inner] = False
    if front.entry["cuts"] and edge.any():
        yield f"the ink behind {piece['id']} runs over its edge"
    frames = [_frame(ink[inner]) for ink in (before, behind)]
    if all(frames) and max(abs(a - b) for a, b in zip(*frames, strict=True)) > ON_LINE * MM + 1:
        yield f"the frame behind {piece['id']} is not behind that of its front"


def _frame(ink: np.ndarray) -> tuple[int, int, int, int] | None:
    """The box of a frame: lines along most of each side, close to the edge; None if there is none."""
    rows, columns = (np.flatnonzero(ink.mean(axis=axis) > 0.7) for axis in (1, 0))
    if rows.size < 2 or columns.size < 2:
        return None
    near = round(1.5 * MM)
    sides = (rows[0], len(ink) - 1 - rows[-1], columns[0], ink.shape[1] - 1 - columns[-1])
    return (rows[0], rows[-1], columns[0], columns[-1]) if max(sides) <= near else None


def _check_control(through: np.ndarray, front: ReadPage, piece: dict, control: list[float]) -> Iterator[str]:
    """The ink of a control lies behind the choice it marks; behind others is a set mark at most."""
    shape = through.shape
    if not (through[_window(control, 0, shape)] < 250).any():
        yield f"the control of {piece['id']} has no ink"
    facts = piece["facts"]
    choices = piece.get("zones_mm") or piece.get("boxes_mm")
    right = facts.get("answer", facts.get("odd"))
    if choices is None or right is None:
        return
    middle = np.add(control[:2], control[2:]) - np.divide(control[2:], 2)
    far = [float(np.hypot(*(np.add(box[:2], np.divide(box[2:], 2)) - middle))) for box in choices]
    if int(np.argmin(far)) != right:
        yield f"the control of {piece['id']} lies under choice {int(np.argmin(far))}, right is {right}"
    shares = [float((through[_window(choice, 1, shape)] < 250).mean()) for choice in choices]
    others = [share for number, share in enumerate(shares) if number != right]
    if shares[right] < 0.05 or shares[right] < 1.4 * max(others):
        yield f"the control of {piece['id']} marks its choices by {shares}, right is {right}"
