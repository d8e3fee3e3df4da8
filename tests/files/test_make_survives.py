"""The command `make` under a failing disk, killed at any moment, and run twice at once."""

import errno
import hashlib
import json
import os
import random
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

import printkit
from printkit.cli import commands
from printkit.files import disk

PLAIN = (Path(__file__).parents[1] / "fixtures" / "plain").as_posix()
HIDDEN = ".printkit-"
OWN = {"notes.txt": b"laminate the small ones", "photos/pond.jpg": b"spring pond"}

PACK = """\
theme = "{theme}"
languages = ["en"]
[[children]]
name = "{child}"
numbers = [2, 3]
materials = [{{ make = "counting-cards", layout = "{layout}" }}]
"""


def run(*arguments: object):
    """printkit with these arguments, in this process."""
    return CliRunner().invoke(commands, [str(argument) for argument in arguments])


def contents(folder: Path) -> dict[str, bytes]:
    """All files that can be seen, with their bytes."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and HIDDEN not in path.as_posix()
    }


def leftovers(folder: Path) -> list[str]:
    """What is hidden in a folder."""
    return [path.name for path in folder.iterdir() if path.name.startswith(HIDDEN)]


@pytest.fixture(scope="module")
def packs(tmp_path_factory) -> tuple[Path, dict[str, bytes], dict[str, bytes]]:
    """A place with old.toml and new.toml, and what each makes; they share some names of files."""
    place = tmp_path_factory.mktemp("packs")
    made = []
    for name, child, layout in (("old", "Wren", "back"), ("new", "Juno", "whole")):
        text = PACK.format(theme=PLAIN, child=child, layout=layout)
        (place / f"{name}.toml").write_text(text, encoding="utf-8")
        assert run("make", place / f"{name}.toml", "-o", place / name).exit_code == 0
        made.append(contents(place / name))
    assert made[0].keys() & made[1].keys() == {"guide.pdf", "manifest.json"}
    return place, *made


def old_folder(place: Path, folder: Path) -> Path:
    """A folder with the old pack and files of the family's own."""
    shutil.copytree(place / "old", folder)
    for file, data in OWN.items():
        (folder / file).parent.mkdir(exist_ok=True)
        (folder / file).write_bytes(data)
    return folder


# --- the disk fails --------------------------------------------------------------------------


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES])
def test_make_leaves_the_old_pack_when_any_file_cannot_be_written(packs, tmp_path, monkeypatch, code):
    """At each file in turn: exit code 1, one plain line that names a file of the pack, nothing changed."""
    place, old, new = packs
    folder = old_folder(place, tmp_path / "shelf")
    at = 0
    while True:
        at += 1
        written: list[Path] = []

        def write(path, data, real=disk.write, written=written, at=at):
            written.append(path)
            if len(written) == at:
                real(path, data[: len(data) // 2])
                raise OSError(code, os.strerror(code), str(path))
            real(path, data)

        with monkeypatch.context() as patch:
            patch.setattr(disk, "write", write)
            result = run("make", place / "new.toml", "-o", folder)
        if len(written) < at:
            break
        assert result.exit_code == 1
        assert result.stderr.count("\n") == 1
        assert os.strerror(code) in result.stderr
        assert HIDDEN not in result.stderr
        assert contents(folder) == old | OWN
        assert leftovers(folder) == []
    assert at > len(new)
    assert contents(folder) == new | OWN


# --- the run is killed -----------------------------------------------------------------------

KILLED = """
import builtins, os, signal, sys
sys.path.insert(0, sys.argv.pop(1))
last, names = int(sys.argv.pop(1)), sys.argv.pop(1).split(",")
from printkit.files import disk
calls = 0
def counted(real):
    def call(*arguments, **named):
        global calls
        calls += 1
        if calls == last:
            os.kill(os.getpid(), getattr(signal, "SIGKILL", signal.SIGTERM))
        return real(*arguments, **named)
    return call
if "open" in names:
    disk.open = counted(builtins.open)
for name in set(names) - {"open"}:
    setattr(os, name, counted(getattr(os, name)))
"""
MAKE = "from printkit.cli import main\nmain()\n"
MOVE = """
import json
from pathlib import Path
from printkit.files import write_whole
pack, folder = Path(sys.argv[1]), Path(sys.argv[2])
listed = json.loads((pack / "manifest.json").read_bytes())["files"]
files = {row["file"]: (pack / row["file"]).read_bytes() for row in listed}
write_whole(folder, files, "manifest.json", lambda hashes: (pack / "manifest.json").read_bytes())
"""
SOURCE = str(Path(printkit.__file__).parents[1])


ALL = "open,replace,unlink,mkdir,rmdir,listdir,fsync,lstat"


def killed_at(last: int, script: str, *words: object, calls: str = ALL) -> int:
    """The exit code of another process that was killed at that one of the disk's calls."""
    command = [sys.executable, "-c", KILLED + script, SOURCE, str(last), calls, *map(str, words)]
    return subprocess.run(command, capture_output=True, timeout=120, check=False).returncode


def check_killed(folder: Path, old: dict[str, bytes], new: dict[str, bytes]) -> bool:
    """Each file is whole, the family's own are there; whether the move-in had begun."""
    found = contents(folder)
    for file, data in found.items():
        assert data in (old.get(file), new.get(file), OWN.get(file)), file
    assert found.items() >= OWN.items()
    began = (folder / f"{HIDDEN}staging" / "plan.json").exists()
    if not began:
        assert found in (old | OWN, new | OWN)
    return began


def test_a_run_killed_at_random_moments_leaves_whole_files(packs, tmp_path):
    """A real kill at calls drawn by chance: whole files then, and the new pack after the next run."""
    place, old, new = packs
    began = set()
    for number, last in enumerate(random.Random(5).sample(range(2, 90), 10)):
        folder = old_folder(place, tmp_path / str(number))
        code = killed_at(last, MOVE, place / "new", folder)
        assert code in (0, -getattr(signal, "SIGKILL", 15), getattr(signal, "SIGTERM", 15))
        began.add(check_killed(folder, old, new))
        assert killed_at(0, MOVE, place / "new", folder) == 0
        assert contents(folder) == new | OWN
        assert leftovers(folder) == []
    assert began == {True, False}


@pytest.mark.parametrize(("last", "begun"), [(1, False), (4, True)])
def test_make_killed_is_made_good_by_the_next_make(packs, tmp_path, last, begun):
    """The command itself, killed just before its plan is in place, and at the third move after it."""
    place, old, new = packs
    folder = old_folder(place, tmp_path / "shelf")
    assert killed_at(last, MAKE, "make", place / "new.toml", "-o", folder, calls="replace") != 0
    assert check_killed(folder, old, new) == begun
    assert run("make", place / "new.toml", "-o", folder).exit_code == 0
    assert contents(folder) == new | OWN
    assert leftovers(folder) == []


# --- two at once -----------------------------------------------------------------------------


def test_two_makes_at_once_end_with_one_whole_pack(packs, tmp_path):
    """Two processes start together: who comes second is refused or makes its pack after the first."""
    place, old, new = packs
    folder = tmp_path / "shelf"
    command = [sys.executable, "-c", f"import sys; sys.path.insert(0, sys.argv.pop(1))\n{MAKE}", SOURCE]
    runs = [
        subprocess.Popen(
            [*command, "make", str(place / f"{name}.toml"), "-o", str(folder)],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )
        for name in ("old", "new")
    ]
    said = [each.communicate(timeout=120)[1] for each in runs]
    codes = [each.returncode for each in runs]
    assert 0 in codes
    for code, stderr in zip(codes, said, strict=True):
        assert code == 0 or (code == 1 and "another run is writing here" in stderr)
    assert contents(folder) in (old, new)
    assert leftovers(folder) == []
    listed = json.loads((folder / "manifest.json").read_bytes())["files"]
    for row in listed:
        assert hashlib.sha256((folder / row["file"]).read_bytes()).hexdigest() == row["sha256"]


# --- what the family should know --------------------------------------------------------------


def test_make_says_which_changed_file_it_left(packs, tmp_path):
    """A stale file with the family's own notes in it stays; a line after the names says so."""
    place, _, new = packs
    folder = old_folder(place, tmp_path / "shelf")
    (folder / "wren-card-backs.pdf").write_bytes(b"with notes of our own")
    sentence = "'wren-card-backs.pdf' was changed since it was made; the pack no longer has it, but it stays"
    result = run("make", place / "new.toml", "-o", folder)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.splitlines()[-1] == f"note: {sentence}"
    assert contents(folder) == new | OWN | {"wren-card-backs.pdf": b"with notes of our own"}


def test_extracts_whose_names_would_meet_have_names_of_their_own(tmp_path):
    """'Wren' with 'a b' and 'Wren a' with 'b'; names that meet with an ending, or a file of the pack."""
    made = '{{ make = "counting-cards", set = "{0}", layout = "whole" }}'
    trays = {"Wren": ["a b", "b fronts", "b"], "Wren a": ["b"], "Wren card": ["fronts"]}
    text = f'theme = "{PLAIN}"\nnumbers = [2, 2]\n' + "".join(
        f'[[children]]\nname = "{child}"\nmaterials = [{", ".join(made.format(name) for name in sets)}]\n'
        for child, sets in trays.items()
    )
    (tmp_path / "shelf.toml").write_text(text, encoding="utf-8")
    wishes = [
        ("Wren", "a b", "wren-a-b"),
        ("Wren a", "b", "wren-a-b-2"),
        ("Wren", "b fronts", "wren-b-fronts"),
        ("Wren", "b", "wren-b-2"),
        ("Wren card", "fronts", "wren-card-fronts-2"),
    ]
    for child, name, stem in reversed(wishes):
        result = run("make", tmp_path / "shelf.toml", "--child", child, "--only", name)
        assert (result.exit_code, result.stderr) == (0, "")
        lines = [Path(line).name for line in result.stdout.splitlines()]
        assert lines == [f"{stem}.pdf", f"{stem}.manifest.json"]
    assert len(contents(tmp_path / "shelf")) == 10
