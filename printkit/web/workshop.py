"""Pieces, sheets and their pictures, each made once: kept by what they were made from, with a bound.

Kept by content: the tray with all its settings (but not where they stand in the file), the seed and the
theme's pictures. So a change makes anew only what it changes.
"""

import io
import itertools
import os
import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from printkit.build import Plan, Wish, make_tray, plan, summary
from printkit.errors import PrintkitError, Problem
from printkit.limits import MOST_SHEETS
from printkit.materials import Made, material_keys
from printkit.pack import Pack, Tray
from printkit.pack.family import family_beside
from printkit.pack.reader import pack_of
from printkit.resources import resource
from printkit.sheets import Page, SheetFile

WORKERS = 2
"""Design choice: one picture while another is drawn; more would only wait for each other."""

_TRAYS, _PLANS, _PICTURES, _PACKS = 120, 24, 400, 8


class Kept:
    """The values last used, at most `most` of them; each is made by one thread while others wait for it."""

    def __init__(self, most: int):
        self._most = most
        self._values: OrderedDict[Hashable, Any] = OrderedDict()
        self._making: dict[Hashable, threading.Lock] = {}
        self._lock = threading.Lock()

    def get(
        self, key: Hashable, make: Callable[[], Any], keeps: Callable[[Any], bool] = lambda _: True
    ) -> Any:
        """The value of a key, made now if it is not there. Raises what `make` raises."""
        with self._lock:
            if key in self._values:
                self._values.move_to_end(key)
                return self._values[key]
            mine = self._making.setdefault(key, threading.Lock())
        with mine:
            with self._lock:
                if key in self._values:
                    return self._values[key]
            try:
                value = make()
                if keeps(value):
                    with self._lock:
                        self._values[key] = value
                        while len(self._values) > self._most:
                            self._values.popitem(last=False)
            finally:
                with self._lock:
                    self._making.pop(key, None)
        return value

    def __len__(self) -> int:
        return len(self._values)


class Workshop:
    """What the page asks of the library, kept while it is likely to be asked again."""

    def __init__(self) -> None:
        self._trays, self._plans = Kept(_TRAYS), Kept(_PLANS)
        self._pictures, self._packs = Kept(_PICTURES), Kept(_PACKS)
        self._marks, self._numbers = Kept(2000), itertools.count(1)
        self._pixels = threading.Lock()  # the rasteriser knows no threads
        self._pool = ThreadPoolExecutor(WORKERS, thread_name_prefix="preview")

    # --- reading ---

    def pack(self, path: Path, data: bytes) -> Pack:
        """The pack that a file would be with these bytes. Raises PrintkitError."""
        home = family_beside(path)
        key = (path, data, home and home.read_bytes(), _states(path.parent))
        read = partial(pack_of, path, data, material_keys())
        return self._packs.get(key, read, partial(_stands_on_its_folder, path.parent))

    def problems(self, path: Path, data: bytes, before: bytes | None = None) -> tuple[Problem, ...]:
        """What is wrong with a pack; trays that are as they were `before` are not looked at again."""
        try:
            pack = self.pack(path, data)
        except PrintkitError as error:
            return error.problems
        known: set[Hashable] = set()
        if before is not None:
            try:
                old = self.pack(path, before)
                known = {_key(old, tray) for item in old.children for tray in item.trays}
            except PrintkitError:
                pass
        trays = [tray for item in pack.children for tray in item.trays if _key(pack, tray) not in known]
        return tuple(problem for tray in trays for problem in self.made(pack.seed, tray).problems)

    # --- making ---

    def made(self, seed: int, tray: Tray) -> Made:
        """The pieces of a tray."""
        bare = (seed, _bare(tray))
        return self._trays.get(bare, lambda: make_tray(seed, tray), lambda made: not made.problems)

    def set_plan(self, pack: Pack, tray: Tray) -> Plan:
        """The sheets of one tray by itself. Raises PrintkitError."""
        wish = Wish(child=tray.child.name, set=tray.set)
        return self._plans.get(("set", _key(pack, tray)), lambda: plan(pack, wish, MOST_SHEETS, self.made))

    def pack_plan(self, pack: Pack) -> Plan:
        """The sheets of the whole pack. Raises PrintkitError."""
        return self._plans.get(("pack", pack), lambda: plan(pack, Wish(), MOST_SHEETS, self.made))

    def summary(self, made: Plan) -> dict[str, Any]:
        """What a plan comes to: pieces, sheets, cuts, ink, things to gather."""
        return self._plans.get(("summary", id(made)), lambda: (made, summary(made)))[1]

    # --- pictures ---

    def mark(self, *parts: Hashable) -> str:
        """A short word that is another one whenever the content is another; it stands in addresses."""
        return self._marks.get(parts, lambda: f"{id(self):x}-{next(self._numbers)}")

    def tray_mark(self, pack: Pack, tray: Tray) -> str:
        """The mark of a tray's content."""
        return self.mark(_key(pack, tray))

    def piece_png(self, pack: Pack, tray: Tray, number: int, side: str, dpi: int) -> bytes | None:
        """One side of a piece as a PNG; None if there is no such piece or back."""
        pieces = self.made(pack.seed, tray).pieces
        if number >= len(pieces) or (side == "back" and pieces[number].back is None):
            return None
        key = ("piece", _key(pack, tray), number, side, dpi)

        def page() -> Page:
            from printkit.shown import piece_page

            return piece_page(pieces[number], "back" if side == "back" else "front")

        return self.png(key, page, dpi)

    def page_png(self, mark: str, file: SheetFile, number: int, dpi: int) -> bytes:
        """One page of a file of sheets as a PNG; `mark` tells what it was made from."""
        return self.png(("page", mark, file.name, number, dpi), lambda: file.pages[number], dpi)

    def png(self, key: Hashable, page: Callable[[], Page], dpi: int) -> bytes:
        """A page as a PNG, drawn by one of the workers."""
        return self._pictures.get(key, lambda: self._pool.submit(self._drawn, page, dpi).result())

    def _drawn(self, page: Callable[[], Page], dpi: int) -> bytes:
        from printkit.shown import page_images
        from printkit.writer import write

        data = write([page()], title="preview", language="en").data
        out = io.BytesIO()
        with self._pixels:
            (image,) = page_images(data, dpi)
        image.save(out, "PNG", compress_level=4)
        return out.getvalue()

    def picture(self, key: Hashable, make: Callable[[], bytes]) -> bytes:
        """Any other picture, kept like those of pages."""
        return self._pictures.get(key, lambda: self._pool.submit(make).result())

    def close(self) -> None:
        """Lets the workers end."""
        self._pool.shutdown(wait=False, cancel_futures=True)


def _key(pack: Pack, tray: Tray) -> Hashable:
    """What a tray's pieces, label and sheets are made from."""
    return (pack.seed, pack.title, pack.guide, pack.units, _bare(tray))


def _bare(tray: Tray) -> Tray:
    """A tray without where its keys stand, which changes when a line is added above."""
    return replace(tray, places=(), sources=())


def _states(folder: Path) -> tuple[tuple[str, int, int], ...]:
    """What tells whether a family's own pictures were changed: names, times and sizes of files in folders."""
    found = []
    for entry in sorted(os.scandir(folder), key=lambda entry: entry.name):
        if (
            entry.is_dir()
            and not entry.name.startswith(".")
            and not Path(entry.path, "manifest.json").exists()
        ):
            for file in os.scandir(entry.path):
                state = file.stat()
                found.append((f"{entry.name}/{file.name}", state.st_mtime_ns, state.st_size))
    return tuple(sorted(found))


def _stands_on_its_folder(folder: Path, pack: Pack) -> bool:
    """Whether nothing outside of the pack file's folder can change what it says."""
    homes = (resource("themes"), folder)
    children = [
        child for item in pack.children for child in (item.child, *(tray.child for tray in item.trays))
    ]
    return all(child.letters is None and child.theme.folder.parent in homes for child in children)
