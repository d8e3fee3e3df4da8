"""A set of files moves into a folder as a whole, whatever happens meanwhile."""

import builtins
import errno
import hashlib
import json
import os
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import printkit
from printkit.files import disk, plain, write_whole

MANIFEST = "manifest.json"
HIDDEN = ".printkit-"

OLD = {"guide.pdf": b"old guide", "wren-card.pdf": b"old card", "preview/guide-1.png": b"old page"}
NEW = {"guide.pdf": b"new guide", "juno-card.pdf": b"new card", "wren-plain.pdf": b"new plain"}
EXTRACT = {"wren-strips.pdf": b"three strips"}
EXTRACT_MANIFEST = "wren-strips.manifest.json"
OWN = {"notes.txt": b"laminate the small ones", "photos/pond.jpg": b"spring pond"}


def manifest(hashes: dict[str, str]) -> bytes:
    files = [{"file": file, "sha256": digest} for file, digest in hashes.items()]
    return json.dumps({"format": 1, "files": files}).encode()


def whole(files: dict[str, bytes], name: str = MANIFEST) -> dict[str, bytes]:
    """What a folder holds when these files were written as a whole."""
    hashes = {file: hashlib.sha256(data).hexdigest() for file, data in files.items()}
    return {**files, name: manifest(hashes)}


def write(folder: Path, files: dict[str, bytes], name: str = MANIFEST) -> tuple[str, ...]:
    return write_whole(folder, iter(files.items()), name, manifest)


def lay(folder: Path, files: dict[str, bytes]) -> None:
    for file, data in files.items():
        (folder / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / file).write_bytes(data)


def contents(folder: Path) -> dict[str, bytes]:
    """All files with their bytes, and empty folders with none; hidden leftovers apart."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else b""
        for path in folder.rglob("*")
        if HIDDEN not in str(path.relative_to(folder)) and (path.is_file() or not any(path.iterdir()))
    }


def leftovers(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir() if path.name.startswith(HIDDEN)]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a pack and files of the family's own."""
    folder = tmp_path / "rock-pool"
    lay(folder, OWN)
    write(folder, OLD)
    return folder


# --- without trouble -------------------------------------------------------------------------


def test_a_first_run_makes_the_folder_and_leaves_nothing_else(tmp_path):
    """Folders above are made as well; only the files and their manifest stay."""
    folder = tmp_path / "autumn" / "harvest market"
    write(folder, OLD)
    assert contents(tmp_path / "autumn") == {f"harvest market/{k}": v for k, v in whole(OLD).items()}
    assert leftovers(folder) == []


def test_a_mapping_does_as_well_as_an_iterator(tmp_path):
    """Both give the same folder."""
    write_whole(tmp_path, OLD, MANIFEST, manifest)
    assert contents(tmp_path) == whole(OLD)


def test_a_remake_removes_what_only_the_earlier_manifest_lists(folder):
    """The family's own files stay, and the preview folder goes with its last page."""
    write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN
    assert not (folder / "preview").exists()
    assert leftovers(folder) == []


def test_a_preview_folder_with_other_files_stays(folder):
    """Only the pages that the earlier manifest lists leave it."""
    lay(folder, {"preview/drawn-by-wren.png": b"sea star"})
    write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN | {"preview/drawn-by-wren.png": b"sea star"}


def test_each_file_is_on_the_disk_before_the_next_is_asked_for(tmp_path):
    """The earlier file is staged, and no file stands in the folder yet, when the next is made."""

    def files() -> Iterator[tuple[str, bytes]]:
        for number in range(3):
            staged = sorted(path.read_bytes() for path in tmp_path.glob(f"{HIDDEN}*/*"))
            assert staged == [b"page %d" % before for before in range(number)]
            assert contents(tmp_path) == {}
            yield f"page-{number}.pdf", b"page %d" % number

    write_whole(tmp_path, files(), MANIFEST, manifest)
    assert len(contents(tmp_path)) == 4


def test_the_manifest_moves_in_last(folder, monkeypatch):
    """When the new manifest arrives, all other new files are there and all stale ones are gone."""
    seen = {}

    def replace(source, target, real=os.replace):
        if Path(target) == folder / MANIFEST:
            seen.update(contents(folder))
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    write(folder, NEW)
    assert {file: data for file, data in seen.items() if data} == NEW | OWN


def test_all_is_forced_to_the_disk_before_the_plan_appears(folder, monkeypatch):
    """A plan found after a power cut never names a file whose bytes are missing."""
    forced, waiting = set(), []

    def fsync(handle, real=os.fsync):
        forced.add(os.fstat(handle).st_ino)
        real(handle)

    def replace(source, target, real=os.replace):
        if Path(target).name == "plan.json":
            waiting.extend(path.stat().st_ino for path in Path(target).parent.iterdir())
        real(source, target)

    monkeypatch.setattr(os, "fsync", fsync)
    monkeypatch.setattr(os, "replace", replace)
    write(folder, NEW)
    assert len(waiting) == len(whole(NEW)) + 1
    assert forced.issuperset(waiting)


def test_an_extract_leaves_the_pack_beside_it_alone(folder):
    """An extract has a manifest of its own; remaking one of the two never touches the other."""
    write(folder, EXTRACT, EXTRACT_MANIFEST)
    extract = whole(EXTRACT, EXTRACT_MANIFEST)
    assert contents(folder) == whole(OLD) | OWN | extract
    write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN | extract
    write(folder, {"wren-strips-backs.pdf": b"backs"}, EXTRACT_MANIFEST)
    extract = whole({"wren-strips-backs.pdf": b"backs"}, EXTRACT_MANIFEST)
    assert contents(folder) == whole(NEW) | OWN | extract


def test_a_file_that_two_manifests_list_is_not_removed(folder):
    """What the pack no longer has, but an extract still lists, stays."""
    write(folder, EXTRACT, EXTRACT_MANIFEST)
    listing = manifest({"wren-card.pdf": "0", "wren-strips.pdf": "0"})
    lay(folder, {EXTRACT_MANIFEST: listing})
    write(folder, NEW)
    assert contents(folder)["wren-card.pdf"] == OLD["wren-card.pdf"]


@pytest.mark.parametrize(
    "damaged",
    [
        b"",
        b"{",
        b"\xff\xfe\x00",
        b"[]",
        b"7",
        b'{"files": 7}',
        b'{"files": [7]}',
        b'{"files": [{"file": ["notes.txt"], "sha256": ""}]}',
        b'{"files": [{"file": "notes.txt"}]}',
        b"[" * 100_000,
    ],
    ids=range(10),
)
def test_a_manifest_that_cannot_be_read_removes_nothing(tmp_path, damaged):
    """It counts as a file of somebody else's: it is named and everything stays."""
    lay(tmp_path, OWN | {MANIFEST: damaged})
    with pytest.raises(FileExistsError) as caught:
        write(tmp_path, NEW)
    assert plain(caught.value) == (
        f"{tmp_path / MANIFEST}: is there already and no earlier run made it; "
        "move it away or choose another folder"
    )
    assert contents(tmp_path) == OWN | {MANIFEST: damaged}


# --- what may never be lost ------------------------------------------------------------------


def test_a_file_of_the_familys_own_is_never_replaced(folder):
    """A new file whose name is taken by one that no manifest lists stops the run."""
    lay(folder, {"juno-card.pdf": b"my own"})
    with pytest.raises(FileExistsError, match=r"no earlier run made it.*juno-card\.pdf"):
        write(folder, NEW)
    assert contents(folder) == whole(OLD) | OWN | {"juno-card.pdf": b"my own"}
    assert leftovers(folder) == []


def test_an_equal_file_is_no_obstacle(folder):
    """A pack whose manifest was deleted can be made again, as its files are the same."""
    (folder / MANIFEST).unlink()
    write(folder, OLD)
    assert contents(folder) == whole(OLD) | OWN


@pytest.mark.parametrize(
    ("file", "name"), [("wren-card.pdf", EXTRACT_MANIFEST), (MANIFEST, "a.manifest.json")]
)
def test_an_extract_never_takes_the_place_of_a_file_of_the_pack(folder, file, name):
    """Its file's name belongs to the pack's manifest: the run stops and says so."""
    with pytest.raises(FileExistsError, match=r"belongs to 'manifest\.json' and is not overwritten"):
        write(folder, {file: b"other"}, name)
    assert contents(folder) == whole(OLD) | OWN


@pytest.mark.parametrize("kind", ["above", "absolute", "hidden", "deep", "backslash", "folder"])
def test_a_manipulated_manifest_removes_nothing_elsewhere(folder, kind):
    """Names that lead out of the folder, to hidden files or to folders are passed over."""
    outside = folder.parent / "letters.pdf"
    lay(folder, {".hidden": b"x", "photos/deep.pdf": b"x"})
    outside.write_bytes(b"kept")
    before = contents(folder)
    names = {
        "above": "../letters.pdf",
        "absolute": str(outside),
        "hidden": ".hidden",
        "deep": "photos/deep.pdf",
        "backslash": "..\\letters.pdf",
        "folder": "photos",
    }
    digest = hashlib.sha256(b"kept" if kind in ("above", "absolute", "backslash") else b"x").hexdigest()
    listed = {file: hashlib.sha256(data).hexdigest() for file, data in OLD.items()}
    lay(folder, {MANIFEST: manifest(listed | {names[kind]: digest})})
    write(folder, NEW)
    kept = {file: data for file, data in before.items() if file not in OLD}
    assert contents(folder) == kept | whole(NEW)
    assert outside.read_bytes() == b"kept"


def link(path: Path, target: Path) -> None:
    try:
        path.symlink_to(target, target_is_directory=target.is_dir())
    except OSError:
        pytest.skip("this system lets the tests make no links")


def test_a_listed_link_is_removed_but_not_what_it_leads_to(folder):
    """A link to the listed bytes, in the place of a stale or of a new file, goes; its target stays."""
    for file in ("wren-card.pdf", "guide.pdf"):
        (folder / file).replace(folder.parent / file)
        link(folder / file, folder.parent / file)
    write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN
    assert not (folder / "guide.pdf").is_symlink()
    assert (folder.parent / "guide.pdf").read_bytes() == OLD["guide.pdf"]
    assert (folder.parent / "wren-card.pdf").read_bytes() == OLD["wren-card.pdf"]


def test_a_listed_link_to_other_bytes_or_nowhere_stays(folder):
    """It is not what an earlier run made."""
    for file, target in (("wren-card.pdf", "letters.pdf"), ("preview/guide-1.png", "nowhere")):
        (folder / file).unlink()
        link(folder / file, folder.parent / target)
    (folder.parent / "letters.pdf").write_bytes(b"kept")
    assert set(write(folder, NEW)) == {"wren-card.pdf", "preview/guide-1.png"}
    assert os.path.islink(folder / "wren-card.pdf")
    assert os.path.islink(folder / "preview/guide-1.png")


def test_a_stale_file_that_was_changed_stays_and_is_named(folder):
    """What the family drew into a file that the new pack lacks is theirs; the rest goes."""
    lay(folder, {"wren-card.pdf": b"with notes of our own"})
    assert write(folder, NEW) == ("wren-card.pdf",)
    assert contents(folder) == whole(NEW) | OWN | {"wren-card.pdf": b"with notes of our own"}
    assert write(folder, NEW) == ()


def test_a_manifest_made_by_hand_removes_and_replaces_nothing_of_the_familys(folder):
    """Listing a file without its true hash does not make it one of the pack."""
    lay(folder, {MANIFEST: manifest(dict.fromkeys(["notes.txt", "wren-plain.pdf"], "0" * 64))})
    for file in OLD:
        (folder / file).unlink()
    assert write(folder, NEW) == ("notes.txt",)
    lay(folder, {MANIFEST: manifest({"juno-card.pdf": "0" * 64}), "juno-card.pdf": b"my own"})
    (folder / "guide.pdf").unlink()
    (folder / "wren-plain.pdf").unlink()
    with pytest.raises(FileExistsError, match="was changed since it was made") as caught:
        write(folder, NEW)
    assert caught.value.filename == str(folder / "juno-card.pdf")
    assert contents(folder).items() >= (OWN | {"juno-card.pdf": b"my own"}).items()


def test_a_file_that_was_changed_is_not_replaced(folder):
    """The run stops, says which, and everything stays; one changed to the new bytes is no obstacle."""
    lay(folder, {"guide.pdf": b"with notes of our own"})
    with pytest.raises(FileExistsError) as caught:
        write(folder, NEW)
    assert plain(caught.value) == (
        f"{folder / 'guide.pdf'}: was changed since it was made; move it away or choose another folder"
    )
    assert contents(folder) == whole(OLD) | OWN | {"guide.pdf": b"with notes of our own"}
    assert leftovers(folder) == []
    lay(folder, {"guide.pdf": NEW["guide.pdf"]})
    write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN


def test_a_link_that_no_manifest_lists_stays(folder):
    """Even if it leads to a file that equals the new one."""
    copy = folder.parent / "copy.pdf"
    copy.write_bytes(NEW["juno-card.pdf"])
    link(folder / "juno-card.pdf", copy)
    with pytest.raises(FileExistsError):
        write(folder, NEW)
    assert (folder / "juno-card.pdf").is_symlink()


@pytest.mark.parametrize("where", ["outside", "inside", "junction"])
def test_a_preview_folder_that_is_a_link_is_not_entered(folder, monkeypatch, where):
    """Nothing is removed through it, and nothing is written through it; so with a junction."""
    elsewhere = (folder if where == "inside" else folder.parent) / "elsewhere"
    lay(elsewhere, {"guide-1.png": b"kept"})
    (folder / "preview/guide-1.png").unlink()
    (folder / "preview").rmdir()
    link(folder / "preview", elsewhere)
    if where == "junction":  # which Windows does not call a link
        monkeypatch.setattr(Path, "is_symlink", lambda path: False)
    with pytest.raises(NotADirectoryError, match="is no folder of its own; move it away"):
        write(folder, OLD)
    write(folder, NEW)
    assert contents(elsewhere) == {"guide-1.png": b"kept"}
    assert os.path.islink(folder / "preview")


def test_a_staging_folder_that_is_a_link_is_not_emptied(folder):
    """The run stops before it deletes leftovers in another place."""
    elsewhere = folder.parent / "elsewhere"
    lay(elsewhere, {"1.new": b"kept", "plan.json": b"kept"})
    link(folder / f"{HIDDEN}staging", elsewhere)
    with pytest.raises(FileExistsError, match="is in the way; delete it"):
        write(folder, NEW)
    assert contents(elsewhere) == {"1.new": b"kept", "plan.json": b"kept"}
    assert contents(folder).items() >= (whole(OLD) | OWN).items()


def test_a_manipulated_plan_moves_nothing_elsewhere(folder):
    """A plan with a name that leads out of the folder is no plan; its files are thrown away."""
    outside = folder.parent / "letters.pdf"
    outside.write_bytes(b"kept")
    steps = [{"number": 1, "file": "../letters.pdf", "new": False}]
    plan = json.dumps({"format": 1, "fresh_preview": False, "steps": steps}).encode()
    lay(folder, {f"{HIDDEN}staging/plan.json": plan})
    write(folder, NEW)
    assert outside.read_bytes() == b"kept"
    assert contents(folder) == whole(NEW) | OWN
    assert leftovers(folder) == []


def test_a_folder_in_the_place_of_a_file_stays(folder):
    """The run stops, names it, and the earlier pack is untouched."""
    lay(folder, {"juno-card.pdf/inside.txt": b"kept"})
    before = contents(folder)
    with pytest.raises(IsADirectoryError, match=r"is a folder; move it away.*juno-card\.pdf"):
        write(folder, NEW)
    assert contents(folder) == before
    assert leftovers(folder) == []


@pytest.mark.parametrize("file", ["../guide.pdf", "/guide.pdf", "deep/guide.pdf", "nul", ".hidden", ""])
def test_only_plain_names_are_written(folder, file):
    """A name that leads elsewhere is a fault of the caller, and nothing is written."""
    with pytest.raises(ValueError, match="is no name for a file of a pack"):
        write(folder, {"guide.pdf": b"new", file: b"new"})
    assert contents(folder) == whole(OLD) | OWN


@pytest.mark.parametrize("twin", ["guide.pdf", "GUIDE.pdf", "MANIFEST.json"])
def test_two_files_of_one_name_are_not_written(folder, twin):
    """Names that are one on some disk are a fault of the caller."""
    with pytest.raises(ValueError, match="have one name"):
        write_whole(folder, iter([("guide.pdf", b"a"), (twin, b"b")]), MANIFEST, manifest)
    assert contents(folder) == whole(OLD) | OWN


@pytest.mark.parametrize(
    "broken",
    [
        lambda hashes: b"{}",
        lambda hashes: manifest({}),
        lambda hashes: manifest(dict.fromkeys(hashes, "0")),
        lambda hashes: manifest(hashes | {"notes.txt": "0"}),
    ],
)
def test_a_manifest_must_list_what_is_written(folder, broken):
    """Otherwise the next run could not tell its own files; nothing is written."""
    with pytest.raises(ValueError, match="must list each file"):
        write_whole(folder, NEW, MANIFEST, broken)
    assert contents(folder) == whole(OLD) | OWN
    assert leftovers(folder) == []


# --- runs that fail --------------------------------------------------------------------------


def test_an_error_while_files_are_made_leaves_the_earlier_pack(folder):
    """It comes through as it is, and nothing staged is left."""

    def files() -> Iterator[tuple[str, bytes]]:
        yield "guide.pdf", b"half"
        raise LookupError("no such picture")

    with pytest.raises(LookupError, match="no such picture"):
        write_whole(folder, files(), MANIFEST, manifest)
    assert contents(folder) == whole(OLD) | OWN
    assert leftovers(folder) == []


def test_a_failed_first_run_leaves_no_folder(tmp_path):
    """Folders that were made for it are removed again; those with other files stay."""

    def files() -> Iterator[tuple[str, bytes]]:
        yield "guide.pdf", b"half"
        raise LookupError("no such picture")

    with pytest.raises(LookupError):
        write_whole(tmp_path / "autumn" / "market", files(), MANIFEST, manifest)
    assert contents(tmp_path) == {}
    lay(tmp_path, {"winter/plan.txt": b"snow"})
    with pytest.raises(LookupError):
        write_whole(tmp_path / "winter" / "first-snow", files(), MANIFEST, manifest)
    assert contents(tmp_path) == {"winter/plan.txt": b"snow"}


def test_a_file_in_the_place_of_the_folder_is_named(tmp_path):
    """Also one in the place of a folder above."""
    lay(tmp_path, {"pond": b"a file"})
    with pytest.raises(NotADirectoryError) as caught:
        write(tmp_path / "pond", NEW)
    assert plain(caught.value) == f"{tmp_path / 'pond'}: is a file, not a folder"
    with pytest.raises(OSError, match="spring") as caught:
        write(tmp_path / "pond" / "spring", NEW)
    assert caught.value.filename == str(tmp_path / "pond" / "spring")
    assert contents(tmp_path) == {"pond": b"a file"}


def test_a_folder_that_cannot_be_written_is_named(folder, monkeypatch):
    """The error names the folder, not a hidden file in it."""

    def refuse(path, mode):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    monkeypatch.setattr(disk, "open", refuse, raising=False)
    with pytest.raises(PermissionError) as caught:
        write(folder, NEW)
    assert plain(caught.value) == f"{folder}: {os.strerror(errno.EACCES)}"
    assert contents(folder) == whole(OLD) | OWN


def test_a_folder_that_cannot_be_made_is_named(tmp_path, monkeypatch):
    """The error names the folder that was asked for."""

    def refuse(path, mode=0o777):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    monkeypatch.setattr(os, "mkdir", refuse)
    with pytest.raises(PermissionError) as caught:
        write(tmp_path / "pond", NEW)
    assert caught.value.filename == str(tmp_path / "pond")


@pytest.mark.parametrize("held", ["guide.pdf", "wren-card.pdf", "preview/guide-1.png", MANIFEST])
def test_a_file_that_is_held_open_stops_the_run(folder, monkeypatch, held):
    """As Windows has it: what was moved is put back, the error names the file and the likely cause."""

    def replace(source, target, real=os.replace):
        if folder / held in (Path(source), Path(target)):
            raise refusal()
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(PermissionError) as caught:
        write(folder, NEW)
    said = os.strerror(errno.EACCES)
    assert plain(caught.value) == f"{folder / held}: {said}; perhaps another program holds it open"
    assert contents(folder) == whole(OLD) | OWN
    assert leftovers(folder) == []


def test_a_full_disk_leaves_the_earlier_pack(folder, monkeypatch):
    """The error names the file that found no room, and nothing staged is left."""

    def full(path, data, real=disk.write):
        real(path, data[:2])
        if data == NEW["juno-card.pdf"]:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(disk, "write", full)
    with pytest.raises(OSError, match=r"juno-card\.pdf") as caught:
        write(folder, NEW)
    assert caught.value.errno == errno.ENOSPC
    assert contents(folder) == whole(OLD) | OWN
    assert leftovers(folder) == []


def test_a_run_that_cannot_put_back_says_so_and_the_next_finishes(folder, monkeypatch):
    """The disk went away in the middle: the plan stays, and a later run completes it first."""
    calls = []

    def replace(source, target, real=os.replace):
        calls.append(target)
        if len(calls) > 4:
            raise OSError(errno.EIO, "The disk is gone", str(source))
        real(source, target)

    said = "The disk is gone; some files are moved in, the next run will finish"
    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", replace)
        with pytest.raises(OSError, match=said):
            write(folder, NEW)
    assert contents(folder) not in (whole(OLD) | OWN, whole(NEW) | OWN)
    write(folder, EXTRACT, EXTRACT_MANIFEST)
    assert contents(folder) == whole(NEW) | OWN | whole(EXTRACT, EXTRACT_MANIFEST)
    assert leftovers(folder) == []


def test_a_plan_that_cannot_be_completed_is_undone(folder, monkeypatch):
    """The run after a killed one finds a file held open: it puts back the pack of before."""
    last = last_call(monkeypatch, "replace")
    with faults(monkeypatch, last, dead=True, only="replace"), pytest.raises(Killed):
        write(folder, NEW)
    assert contents(folder) not in (whole(OLD) | OWN, whole(NEW) | OWN)

    def replace(source, target, real=os.replace):
        if Path(target) == folder / MANIFEST and Path(source).suffix == ".new":
            raise refusal()
        real(source, target)

    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", replace)
        with pytest.raises(PermissionError):
            write(folder, EXTRACT, EXTRACT_MANIFEST)
    assert contents(folder) == whole(OLD) | OWN
    assert leftovers(folder) == []


def test_putting_back_may_be_killed(tmp_path, monkeypatch, quick):
    """A run that failed and was killed at any call after that leaves one whole pack all the same."""

    def replace(source, target, real=os.replace):
        if Path(target).name == MANIFEST and Path(source).suffix == ".new":
            raise refusal()
        real(source, target)

    outcomes = set()
    for at in range(1, 200):
        folder = fresh_folder(tmp_path, at)
        with monkeypatch.context() as patch:
            patch.setattr(os, "replace", replace)
            with faults(patch, at, dead=True), pytest.raises((Killed, PermissionError)) as caught:
                write(folder, NEW)
        write(folder, EXTRACT, EXTRACT_MANIFEST)
        extract = whole(EXTRACT, EXTRACT_MANIFEST)
        after = contents(folder)
        assert after in (whole(OLD) | OWN | extract, whole(NEW) | OWN | extract), at
        assert leftovers(folder) == []
        outcomes.add("juno-card.pdf" in after)
        if caught.type is PermissionError:
            break
    assert caught.type is PermissionError
    assert outcomes == {True, False}


def test_a_file_laid_into_a_half_made_pack_stays(folder, monkeypatch):
    """The killed run had removed a stale file; the family's own of that name is not taken for it."""
    last = last_call(monkeypatch, "replace")
    with faults(monkeypatch, last, dead=True, only="replace"), pytest.raises(Killed):
        write(folder, NEW)
    assert not (folder / "wren-card.pdf").exists()
    lay(folder, {"wren-card.pdf": b"my own"})
    write(folder, EXTRACT, EXTRACT_MANIFEST)
    kept = OWN | {"wren-card.pdf": b"my own"}
    assert contents(folder) == whole(NEW) | kept | whole(EXTRACT, EXTRACT_MANIFEST)


def test_a_run_that_is_stopped_once_all_is_final_keeps_the_new_pack(folder, monkeypatch):
    """Ctrl-C in the last moment undoes nothing."""

    def unlink(path, real=os.unlink):
        real(path)
        if Path(path).name == "plan.json":
            raise KeyboardInterrupt

    monkeypatch.setattr(os, "unlink", unlink)
    with pytest.raises(KeyboardInterrupt):
        write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN
    assert leftovers(folder) == []


def test_a_run_that_is_stopped_while_moving_in_puts_back(folder, monkeypatch):
    """Ctrl-C in the middle leaves the earlier pack."""

    def replace(source, target, real=os.replace):
        if Path(target) == folder / "wren-plain.pdf":
            monkeypatch.setattr(os, "replace", real)
            raise KeyboardInterrupt
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(KeyboardInterrupt):
        write(folder, NEW)
    assert contents(folder) == whole(OLD) | OWN
    assert leftovers(folder) == []


def test_leftovers_that_cannot_be_deleted_harm_nobody(folder, monkeypatch):
    """They stay hidden, are used by no later run, and go as soon as the system lets them."""

    def keep(path, real=os.unlink):
        if Path(path).suffix == ".old":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
        real(path)

    with monkeypatch.context() as patch:
        patch.setattr(os, "unlink", keep)
        write(folder, NEW)
        assert contents(folder) == whole(NEW) | OWN
        write(folder, OLD)
        assert contents(folder) == whole(OLD) | OWN
        assert leftovers(folder) != []
    write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN
    assert leftovers(folder) == []


# --- trouble at every call in turn -----------------------------------------------------------


class Killed(BaseException):
    """The end of a run that no handler can do anything about."""


class Calls:
    """Counts the calls that reach the disk; from the one at `at` on they fail, or only that one."""

    def __init__(self, at: int, dead: bool, error: Callable[[], BaseException], only: str = ""):
        self.at, self.dead, self.error, self.only = at, dead, error, only
        self.count = 0

    def reach(self, name: str, path: object = None) -> None:
        self.count += self.only in ("", name)
        now = self.count == self.at and self.only in ("", name)
        if now or (self.dead and self.count >= self.at > 0):
            error = self.error()
            if isinstance(error, OSError) and isinstance(path, str | os.PathLike):
                error.filename = os.fspath(path)
            raise error

    def wrap(self, name: str, real: Callable) -> Callable:
        def call(*args, **kwargs):
            self.reach(name, args[0])
            return real(*args, **kwargs)

        return call

    def open(self, path, mode):
        self.reach("open", path)
        file = builtins.open(path, mode)  # noqa: SIM115 (the caller closes it)
        return Writing(file, self) if mode == "xb" else file


class Writing:
    """A file that stops half way when its writing fails."""

    def __init__(self, file, calls: Calls):
        self.file, self.calls = file, calls

    def __enter__(self):
        return self

    def __exit__(self, *error):
        self.file.close()

    def write(self, data: bytes) -> None:
        self.file.write(data[: len(data) // 2])
        self.calls.reach("write")
        self.file.write(data[len(data) // 2 :])

    def __getattr__(self, name: str):
        return getattr(self.file, name)


DISK_CALLS = ("replace", "mkdir", "rmdir", "unlink", "listdir", "lstat", "stat", "fsync")


@contextmanager
def faults(monkeypatch, at=0, dead=False, error=Killed, only="") -> Iterator[Calls]:
    """The disk's calls fail at the given one; with `dead` all after it too, as for a killed run."""
    calls = Calls(at, dead, error, only)
    with monkeypatch.context() as patch:
        for name in DISK_CALLS:
            patch.setattr(os, name, calls.wrap(name, getattr(os, name)))
        patch.setattr(disk, "open", calls.open, raising=False)
        yield calls


def last_call(monkeypatch, only: str = "") -> int:
    """How many calls (of one kind) remaking the old pack as the new one takes."""
    with TemporaryDirectory() as name:
        lay(Path(name), OWN)
        write(Path(name), OLD)
        with faults(monkeypatch, only=only) as calls:
            write(Path(name), NEW)
    return calls.count


def fresh_folder(place: Path, number: int) -> Path:
    folder = place / str(number)
    lay(folder, OWN)
    write(folder, OLD)
    return folder


def trouble(folder: Path, files: dict[str, bytes]) -> str:
    """What a run says that fails on the disk; '' when it goes well."""
    try:
        write(folder, files)
    except OSError as error:
        return plain(error)
    return ""


def refusal() -> OSError:
    return PermissionError(errno.EACCES, os.strerror(errno.EACCES))


def no_room() -> OSError:
    return OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


@pytest.fixture
def quick(monkeypatch):
    """Nothing here outlives a power cut, so nothing need be forced to the disk."""
    monkeypatch.setattr(os, "fsync", lambda handle: None)


@pytest.mark.parametrize(
    ("error", "only"),
    [(refusal, ""), (no_room, "write"), (no_room, "open"), (no_room, "mkdir"), (no_room, "fsync")],
)
def test_one_failing_call_leaves_the_old_pack_or_the_new(tmp_path, monkeypatch, quick, error, only):
    """Whichever call fails: an error means the old pack, success the new; a next run leaves no trace."""
    outcomes = set()
    for at in range(1, last_call(monkeypatch, only) + 1):
        folder = fresh_folder(tmp_path, at)
        with faults(monkeypatch, at, error=error, only=only):
            said = trouble(folder, NEW)
        expected = OLD if said else NEW
        assert HIDDEN not in said
        assert said.startswith(str(folder)) or not said
        files = {file: data for file, data in contents(folder).items() if data}
        assert files == whole(expected) | OWN, at
        outcomes.add(expected is NEW)
        write(folder, EXTRACT, EXTRACT_MANIFEST)
        assert leftovers(folder) == []
        write(folder, OLD)
        assert contents(folder) == whole(OLD) | OWN | whole(EXTRACT, EXTRACT_MANIFEST)
    assert outcomes == ({False} if only in ("write", "open") else {True, False})


@pytest.mark.parametrize("error", [Killed, refusal], ids=["killed", "disk gone"])
def test_a_run_that_ends_at_any_call_is_completed_or_undone(tmp_path, monkeypatch, quick, error):
    """Killed, or left by the disk, at every call in turn: the next run, of another set, settles it."""
    outcomes = set()
    for at in range(1, last_call(monkeypatch) + 1):
        folder = fresh_folder(tmp_path, at)
        with faults(monkeypatch, at, dead=True, error=error), suppress(Killed, OSError):
            write(folder, NEW)
        write(folder, EXTRACT, EXTRACT_MANIFEST)
        after = contents(folder)
        extract = whole(EXTRACT, EXTRACT_MANIFEST)
        assert after in (whole(OLD) | OWN | extract, whole(NEW) | OWN | extract), at
        assert leftovers(folder) == []
        outcomes.add("juno-card.pdf" in after)
        write(folder, NEW)
        assert contents(folder) == whole(NEW) | OWN | extract
    assert outcomes == {True, False}


def test_completing_may_itself_be_killed(tmp_path, monkeypatch, quick):
    """A second run that dies while it completes the first is completed by the third."""
    total = last_call(monkeypatch)
    for first in range(total // 2, total + 1, 3):
        for second in range(1, 40, 4):
            folder = fresh_folder(tmp_path, first * 1000 + second)
            for at in (first, second):
                with faults(monkeypatch, at, dead=True), suppress(Killed):
                    write(folder, NEW)
            write(folder, EXTRACT, EXTRACT_MANIFEST)
            extract = whole(EXTRACT, EXTRACT_MANIFEST)
            assert contents(folder) in (whole(OLD) | OWN | extract, whole(NEW) | OWN | extract)
            assert leftovers(folder) == []


packs = st.dictionaries(
    st.sampled_from(["guide.pdf", "a.pdf", "b.pdf", "preview/a.png", "preview/b.png"]),
    st.binary(min_size=1, max_size=3),
    max_size=4,
)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.tuples(packs, st.integers(0, 90), st.booleans()), min_size=1, max_size=4))
def test_any_series_of_runs_keeps_whole_packs(series):
    """After each run, and a next one of another set, the folder holds one of the packs asked for."""
    with TemporaryDirectory() as name, pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", lambda handle: None)
        folder = Path(name)
        lay(folder, OWN)
        extract = whole(EXTRACT, EXTRACT_MANIFEST)
        before = {}
        for files, at, dead in series:
            error = Killed if dead else refusal
            with faults(patch, at, dead=dead, error=error), suppress(Killed, OSError):
                write(folder, files)
            write(folder, EXTRACT, EXTRACT_MANIFEST)
            after = {file: data for file, data in contents(folder).items() if file not in OWN | extract}
            assert after in (before, whole(files))
            assert contents(folder) == after | OWN | extract
            assert leftovers(folder) == []
            before = after


def in_another_process(script: str, *words: object) -> subprocess.CompletedProcess:
    """Runs a script with this package and this module at hand."""
    prelude = (
        "import os, sys\n"
        "from pathlib import Path\n"
        f"sys.path[:0] = [{str(Path(printkit.__file__).parents[1])!r}, {str(Path(__file__).parent)!r}]\n"
        f"from {Path(__file__).stem} import NEW, write\n"
    )
    command = [sys.executable, "-c", prelude + script, *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)


@pytest.mark.parametrize("at", [2, 5, 9])
def test_a_process_that_is_killed_while_moving_in_is_completed(folder, at):
    """A real end in the middle: its lock is gone with it, and the next run completes the pack."""
    script = """
calls = []
def replace(source, target, real=os.replace):
    calls.append(source)
    if len(calls) == int(sys.argv[2]):
        os._exit(9)
    real(source, target)
os.replace = replace
write(Path(sys.argv[1]), NEW)
"""
    ended = in_another_process(script, folder, at)
    assert ended.returncode == 9, ended.stderr
    assert leftovers(folder) != []
    write(folder, EXTRACT, EXTRACT_MANIFEST)
    assert contents(folder) == whole(NEW) | OWN | whole(EXTRACT, EXTRACT_MANIFEST)
    assert leftovers(folder) == []


# --- two runs at once ------------------------------------------------------------------------


def test_a_second_run_at_the_same_time_is_refused(folder):
    """From the same process or another: it says so, changes nothing, and the first goes on."""
    said = []

    def files() -> Iterator[tuple[str, bytes]]:
        yield "guide.pdf", NEW["guide.pdf"]
        with pytest.raises(BlockingIOError) as caught:
            write(folder, EXTRACT, EXTRACT_MANIFEST)
        said.append(plain(caught.value))
        ended = in_another_process("write(Path(sys.argv[1]), NEW)", folder)
        said.append(ended.stderr)
        yield from [item for item in NEW.items() if item[0] != "guide.pdf"]

    write_whole(folder, files(), MANIFEST, manifest)
    sentence = "another run is writing here; wait until it is done, then try again"
    assert said[0] == f"{folder}: {sentence}"
    assert "BlockingIOError" in said[1]
    assert sentence in said[1]
    assert contents(folder) == whole(NEW) | OWN
    assert leftovers(folder) == []


def test_runs_that_take_turns_leave_one_whole_pack(tmp_path):
    """Many at once, each trying until it may: the last one's pack is whole, and no lock is left."""

    def run(number: int) -> None:
        for _ in range(5):
            while True:
                try:
                    write(tmp_path / "pond", {"guide.pdf": b"%d" % number, f"{number}.pdf": b"own"})
                    break
                except BlockingIOError:
                    continue

    threads = [threading.Thread(target=run, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    after = contents(tmp_path / "pond")
    winner = after["guide.pdf"].decode()
    assert after == whole({"guide.pdf": winner.encode(), f"{winner}.pdf": b"own"})
    assert leftovers(tmp_path / "pond") == []


def test_the_file_of_a_lock_locks_nobody_out(folder):
    """One that a crash left is only a file: the next run takes it and deletes it."""
    lay(folder, {f"{HIDDEN}lock": b""})
    write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN
    assert leftovers(folder) == []


class WindowsLocks:
    """Stands in for msvcrt: locks are held by file until it is closed."""

    LK_NBLCK = 2

    def __init__(self, error: int = 0):
        self.error = error
        self.locked: list[tuple[int, int]] = []

    def locking(self, handle: int, mode: int, length: int) -> None:
        assert mode == self.LK_NBLCK
        assert os.lseek(handle, 0, os.SEEK_CUR) == 0
        if self.error:
            raise OSError(self.error, os.strerror(self.error))
        self.locked.append((handle, length))


def test_windows_locks_are_used_where_there_are_no_others(folder, monkeypatch):
    """One byte is locked; a lock that another run holds is told in the same words."""
    monkeypatch.setattr(disk, "fcntl", None)
    locks = WindowsLocks()
    monkeypatch.setitem(sys.modules, "msvcrt", locks)
    write(folder, NEW)
    assert [length for _, length in locks.locked] == [1]
    assert leftovers(folder) == []
    monkeypatch.setitem(sys.modules, "msvcrt", WindowsLocks(errno.EACCES))
    with pytest.raises(BlockingIOError, match="another run is writing here"):
        write(folder, OLD)
    assert contents(folder) == whole(NEW) | OWN


@pytest.mark.parametrize("code", [errno.ENOLCK, errno.EOPNOTSUPP])
def test_a_disk_that_knows_no_locks_can_be_written(folder, monkeypatch, code):
    """Some network folders have none: the run goes on without."""
    monkeypatch.setattr(disk, "fcntl", None)
    monkeypatch.setitem(sys.modules, "msvcrt", WindowsLocks(code))
    write(folder, NEW)
    assert contents(folder) == whole(NEW) | OWN


def test_a_lock_that_fails_otherwise_is_an_error_of_the_disk(folder, monkeypatch):
    """It is not taken for another run."""
    monkeypatch.setattr(disk, "fcntl", None)
    monkeypatch.setitem(sys.modules, "msvcrt", WindowsLocks(errno.EIO))
    with pytest.raises(OSError, match=os.strerror(errno.EIO)) as caught:
        write(folder, NEW)
    assert caught.value.filename == str(folder)


@pytest.mark.parametrize("held", [1, 2, 3])
def test_a_file_that_is_held_for_a_moment_is_waited_for(folder, monkeypatch, held):
    """As with scanners on Windows: tried again after each pause, given up after the last."""
    monkeypatch.setattr(disk, "_PAUSES", (0, 0))
    tries = []

    def replace(source, target, real=os.replace):
        if Path(source) == folder / "guide.pdf" and len(tries) < held:
            tries.append(source)
            raise refusal()
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    if held < 3:
        write(folder, NEW)
        assert contents(folder) == whole(NEW) | OWN
    else:
        with pytest.raises(PermissionError):
            write(folder, NEW)
        assert contents(folder) == whole(OLD) | OWN
    assert len(tries) == held


def test_an_error_is_one_plain_line():
    """The file first, then what the system says; never empty."""
    assert plain(OSError(errno.ENOSPC, "No room", "guide.pdf")) == "guide.pdf: No room"
    assert plain(OSError("No room")) == "No room"
    assert plain(PermissionError()) == "PermissionError"
