"""A set of files with its manifest, written into a folder: all of them or none.

Staged first, each file forced to the disk; then planned; then moved in, the manifest last (see
`moving_in`). Until the plan is written the folder's own files are not touched.
"""

import errno
import hashlib
import itertools
import json
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path

from printkit.files import disk
from printkit.files.moving_in import STAGING, Plan, Step, clear, move_in, settle, staged, write_plan
from printkit.files.names import PREVIEW, key, stays_inside

MANIFEST = "manifest.json"
"""A pack's own manifest; that of an extract beside it is called '<name>.manifest.json'."""


def write_whole(
    folder: Path,
    files: Mapping[str, bytes] | Iterable[tuple[str, bytes]],
    manifest_name: str,
    manifest_bytes: Callable[[dict[str, str]], bytes],
) -> tuple[str, ...]:
    """Writes the files and, last, their manifest into the folder, which is made if need be.

    `files` gives names ('guide.pdf', 'preview/guide-1.png') and contents; it may be an iterator:
    each file is on the disk before the next is asked for. `manifest_bytes` gets name -> SHA-256 (in
    hexadecimal digits) and returns JSON whose list 'files' gives 'file' and 'sha256' of each.

    Files that the earlier `manifest_name` lists and the new one does not are removed, but only those
    that still have the SHA-256 listed there: the names of the others are returned. Nothing else in the
    folder is touched. What a killed run left is completed or thrown away first.

    Raises OSError, with the earlier files as they were: the disk is full, a file is held open,
    another run is writing here (BlockingIOError), a new file would take the place of one that the
    earlier manifest does not list, that was changed since, or that another manifest lists
    (FileExistsError). Raises ValueError for
    names and manifests that break the rules above, and whatever `files` raises.
    """
    folder = Path(folder)
    fresh = list(itertools.takewhile(lambda path: not disk.there(path), (folder, *folder.parents)))
    try:
        _make(folder)
        with disk.alone(folder):
            settle(folder)
            plan, changed = _stage(folder, files, manifest_name, manifest_bytes)
            move_in(folder, plan)
            return changed
    except BaseException:
        for path in fresh:
            with suppress(OSError):
                os.rmdir(path)
        raise


def _make(folder: Path) -> None:
    with disk.about(folder):
        if folder.exists() and not folder.is_dir():
            raise OSError(errno.ENOTDIR, "is a file, not a folder")
        os.makedirs(folder, exist_ok=True)


def _stage(
    folder: Path,
    files: Mapping[str, bytes] | Iterable[tuple[str, bytes]],
    manifest_name: str,
    manifest_bytes: Callable[[dict[str, str]], bytes],
) -> tuple[Plan, tuple[str, ...]]:
    """Stages all files and writes the plan; after a failure nothing of it is left.

    The names are those of stale files that stay, as they were changed.
    """
    try:
        with disk.about(folder):
            os.makedirs(folder / STAGING, exist_ok=True)
            numbers = _free_numbers(folder)
        steps: list[Step] = []
        hashes: dict[str, str] = {}
        for file, data in files.items() if isinstance(files, Mapping) else files:
            steps.append(_stage_file(folder, next(numbers), file, data))
            hashes[file] = hashlib.sha256(data).hexdigest()
        manifest = manifest_bytes(dict(hashes))
        _check_manifest(manifest_name, manifest, hashes)
        last = _stage_file(folder, next(numbers), manifest_name, manifest)

        taken = {key(step.file) for step in (*steps, last)}
        if len(taken) <= len(steps):
            raise ValueError(f"two files for '{folder}' have one name: {', '.join(hashes)}")
        earlier = _earlier(folder, manifest_name)
        others = _others(folder, manifest_name)
        for step in (*steps, last):
            _check_place(folder, step, earlier, others)
        stale = _stale(folder, earlier, taken.union(others))
        changed = tuple(file for file in stale if not _as_listed(folder / file, earlier[file]))
        going = [Step(number=next(numbers), file=file, new=False) for file in stale if file not in changed]
        fresh_preview = not disk.there(folder / PREVIEW)
        plan = Plan(steps=(*steps, *going, last), fresh_preview=fresh_preview)
        with disk.about(folder):
            write_plan(folder, plan)
        return plan, changed
    except BaseException:
        clear(folder)
        raise


def _free_numbers(folder: Path) -> Iterator[int]:
    """Numbers above those of leftovers that could not be deleted, as Windows has them."""
    taken = [name.partition(".")[0] for name in os.listdir(folder / STAGING)]
    return itertools.count(1 + max((int(number) for number in taken if number.isdecimal()), default=0))


def _stage_file(folder: Path, number: int, file: str, data: bytes) -> Step:
    if not stays_inside(file):
        raise ValueError(f"'{file}' is no name for a file of a pack")
    with disk.about(folder / file):
        disk.write(staged(folder, number), data)
    return Step(number=number, file=file, new=True)


def _check_manifest(name: str, manifest: bytes, hashes: dict[str, str]) -> None:
    if _listed(manifest) != hashes:
        raise ValueError(f"'{name}' must list each file with its 'file' and 'sha256', and no other")


def _listed(manifest: bytes) -> dict[str, str] | None:
    """File -> SHA-256 as a manifest lists them, but for names that lead elsewhere; None if broken."""
    try:
        rows = {row["file"]: row["sha256"] for row in json.loads(manifest)["files"]}
    except (ValueError, TypeError, LookupError, RecursionError):
        return None
    return {file: digest for file, digest in rows.items() if stays_inside(file)}


def _earlier(folder: Path, manifest_name: str) -> dict[str, str]:
    """File -> SHA-256 of what the manifest of that name in the folder lists; nothing if it is none.

    The manifest itself is among them, as any bytes ('').
    """
    path = folder / manifest_name
    if not disk.is_file(path) or path.is_symlink():
        return {}
    with disk.about(path):
        listed = _listed(path.read_bytes())
    return {} if listed is None else {**listed, manifest_name: ""}


def _as_listed(path: Path, digest: str) -> bool:
    """Whether a file (or what a link leads to) still has the bytes that a manifest lists."""
    if not digest:
        return True
    try:
        with disk.about(path), open(path, "rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest() == digest
    except FileNotFoundError:  # a link that leads nowhere
        return False


def _others(folder: Path, manifest_name: str) -> dict[str, str]:
    """Key of a file -> the other manifest in the folder that it belongs to."""
    with disk.about(folder):
        names = sorted(os.listdir(folder))
    return {
        key(file): name
        for name in names
        if (name == MANIFEST or name.endswith(f".{MANIFEST}")) and key(name) != key(manifest_name)
        for file in _earlier(folder, name)
    }


def _check_place(folder: Path, step: Step, earlier: dict[str, str], others: dict[str, str]) -> None:
    """Refuses to take the place of what no earlier run with this manifest wrote."""
    path = folder / step.file
    if owner := others.get(key(step.file)):
        raise OSError(errno.EEXIST, f"belongs to '{owner}' and is not overwritten", str(path))
    if path.parent != folder and disk.there(path.parent) and not disk.is_inner(path.parent):
        raise OSError(errno.ENOTDIR, "is no folder of its own; move it away", str(path.parent))
    if not disk.there(path):
        return
    if not disk.is_file(path):
        raise OSError(errno.EISDIR, "is a folder; move it away", str(path))
    listed = step.file in earlier
    if (listed and _as_listed(path, earlier[step.file])) or _is_copy(path, staged(folder, step.number)):
        return
    said = "was changed since it was made" if listed else "is there already and no earlier run made it"
    raise OSError(errno.EEXIST, f"{said}; move it away or choose another folder", str(path))


def _is_copy(path: Path, other: Path) -> bool:
    with disk.about(path):
        return not path.is_symlink() and path.read_bytes() == other.read_bytes()


def _stale(folder: Path, earlier: Iterable[str], kept: set[str]) -> list[str]:
    """Files and links that the earlier manifest lists and whose keys nobody keeps."""
    return [
        file
        for file in earlier
        if key(file) not in kept
        and ("/" not in file or disk.is_inner(folder / PREVIEW))
        and disk.is_file(folder / file)
    ]
