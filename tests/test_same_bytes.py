"""The same pack gives the same bytes, whatever was made before and wherever it is made."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from printkit.build import Wish, plan
from printkit.cli import commands
from printkit.materials import material_keys
from printkit.pack.reader import read_pack

ONE = """\
languages = ["en", "pl"]
seed = 5
[[children]]
name = "Wren"
numbers = [0, 6]
sums_to = 5
lookalike = 3
materials = [{ make = "counting-cards", arrange = "scatter" }, "clip-cards", "strips", "tracing", "odd-one-out"]
"""
OTHER = """\
languages = ["fr", "uk"]
[[children]]
name = "Juno"
numbers = [4, 7]
numerals = { four = "open", seven = "barred" }
materials = ["tracing", "counting-cards"]
"""


def made(folder: Path, text: str) -> dict[str, bytes]:
    """Every file of a pack, made in this process."""
    folder.mkdir()
    (folder / "pack.toml").write_text(text, encoding="utf-8")
    result = CliRunner().invoke(commands, ["make", str(folder / "pack.toml")])
    assert result.exit_code == 0, result.stderr
    return {path.name: path.read_bytes() for path in (folder / "pack").iterdir() if path.is_file()}


def test_twice_and_after_another(tmp_path):
    """Made first, made again, made after a pack with other letters: the same bytes."""
    first = made(tmp_path / "a", ONE)
    made(tmp_path / "b", OTHER)
    again = made(tmp_path / "c", ONE)

    assert first == again


@pytest.mark.parametrize(
    "surroundings",
    [
        {"PYTHONHASHSEED": "1"},
        {"PYTHONHASHSEED": "2", "TZ": "Pacific/Auckland"},
        {"LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR.UTF-8", "TZ": "America/St_Johns"},
    ],
)
def test_in_other_surroundings(surroundings, tmp_path):
    """Another hash seed, time zone, locale and working folder: the same bytes."""
    here = made(tmp_path / "a", ONE)
    other = tmp_path / "b"
    other.mkdir()
    (other / "pack.toml").write_text(ONE, encoding="utf-8")
    subprocess.run(
        [sys.executable, "-m", "printkit", "make", "pack.toml"],
        check=True,
        cwd=other,
        env=os.environ | surroundings,
        capture_output=True,
    )
    there = {path.name: path.read_bytes() for path in (other / "pack").iterdir() if path.is_file()}

    assert here == there


def test_one_card_made_alone_is_the_card_of_the_pack(tmp_path):
    """Every piece made alone equals that piece in the pack, mark for mark."""
    file = tmp_path / "pack.toml"
    file.write_text(ONE, encoding="utf-8")
    pack = read_pack(file, material_keys())
    whole = {(item.tray.set, piece.key): piece for item in plan(pack).sets for piece in item.pieces}
    picked = [keys for number, keys in enumerate(sorted(whole)) if number % 4 == 0]

    for name, key in picked:
        alone = plan(pack, Wish(set=name, pieces=(key,))).sets
        assert [item.pieces for item in alone] == [(whole[name, key],)]


def test_another_child_changes_no_piece(tmp_path):
    """A child, a tray or a number more changes no piece of the scattered cards."""
    file = tmp_path / "pack.toml"
    file.write_text(ONE, encoding="utf-8")
    before = plan(read_pack(file, material_keys()))
    more = ONE + OTHER[OTHER.index("[[children]]") :]
    file.write_text(more, encoding="utf-8")
    after = plan(read_pack(file, material_keys()))

    assert [item.pieces for item in before.sets] == [item.pieces for item in after.sets[: len(before.sets)]]


def test_the_content_hash_hangs_on_what_is_drawn(tmp_path):
    """Another seed gives another content for scattered cards; the same seed the same."""
    first = json.loads(made(tmp_path / "a", ONE)["manifest.json"])
    again = json.loads(made(tmp_path / "b", ONE)["manifest.json"])
    other = json.loads(made(tmp_path / "c", ONE.replace("seed = 5", "seed = 6"))["manifest.json"])

    def contents(manifest):
        return [item["content"] for item in manifest["files"]]

    assert contents(first) == contents(again)
    assert contents(first) != contents(other)
