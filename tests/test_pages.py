"""Packs made at random, read back from their pages alone: counted, measured, laid back on front."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from reader import ReadPage, read_file, read_folder, read_manifest
from sheet_reader import check_whole, judged, sheets_of

from printkit.cli import commands
from printkit.units import PAPERS

PLAIN = (Path(__file__).parent / "fixtures" / "plain").as_posix()
SAMPLES = Path(__file__).parent.parent / "samples"
FLIPS = ("long", "short", "hand")


def make(folder: Path, text: str, *arguments: str) -> Path:
    """The folder of a pack made from a text."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "pack.toml").write_text(text, encoding="utf-8")
    result = CliRunner().invoke(commands, ["make", str(folder / "pack.toml"), *arguments])
    assert (result.exit_code, result.stderr) == (0, "")
    return folder / "pack"


@st.composite
def packs(draw) -> str:
    """A small pack of one child with two trays, on any paper, in any ink, turned any way."""
    first = draw(st.integers(0, 12))
    last = first + draw(st.integers(0, 4))
    arrange = draw(st.sampled_from(["auto", "line", "ring", "frame"]))
    if last <= 6:
        arrange = draw(st.sampled_from(["auto", "line", "ring", "frame", "dice", "scatter"]))
    layout = draw(st.sampled_from(["whole", "back", "pair", "triple"]))
    words, result = (draw(st.sampled_from(["number", "phrase", "none"])) for _ in range(2))
    languages = draw(st.sampled_from([["en"], ["es", "pl"], ["uk", "de"], ["pt-PT", "fr"]]))
    sums = draw(st.integers(2, 12))
    choices, level = draw(st.sampled_from([3, 4])), draw(st.integers(1, 6))
    operation = draw(st.sampled_from(["add", "subtract", "both"]))
    unknown = draw(st.sampled_from(["result", "change", "start", "mixed"]))
    second = draw(
        st.sampled_from(
            [
                f'make = "clip-cards", choices = {choices}, arrange = "{arrange}"',
                f'make = "strips", count = 4, operation = "{operation}", unknown = "{unknown}", '
                f'words = "{result}"',
                f'make = "odd-one-out", count = 3, lookalike = {level}',
                f'make = "tracing", numbers = [{last}, {last}]',
            ]
        )
    )
    return (
        f'theme = "{PLAIN}"\npaper = "{draw(st.sampled_from(sorted(PAPERS)))}"\n'
        f'ink = "{draw(st.sampled_from(["color", "gray", "outline"]))}"\n'
        f'flip = "{draw(st.sampled_from(FLIPS))}"\nlanguages = {json.dumps(languages)}\n'
        f"seed = {draw(st.integers(0, 999))}\n"
        f'[[children]]\nname = "Wren"\nnumbers = [{first}, {last}]\nsums_to = {sums}\n'
        f'materials = [{{ make = "counting-cards", layout = "{layout}", arrange = "{arrange}", '
        f'words = "{words}" }}, {{ {second} }}]\n'
    )


# --- what is said of every page --------------------------------------------------------------


def words_of(pages: list[ReadPage]) -> None:
    """Each word that a piece's facts name, or the phrase in its place, stands on one of its pages."""
    carried: dict[str, str] = {}
    for page in pages:
        for piece in page.entry["pieces"]:
            carried[piece["id"]] = f"{carried.get(piece['id'], '')} {' '.join(page.text.split())}"
    for page in pages:
        for piece in page.entry["pieces"]:
            facts = piece.get("facts", {})
            for word in (facts.get("words", {}) | facts.get("phrases", {})).values():
                assert word in carried[piece["id"]], (piece["id"], word)


@given(text=packs())
@settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_pages_are_true_and_fit(text, tmp_path_factory):
    """Any small pack: what the pages show is what the manifest says, to the millimetre."""
    folder = make(tmp_path_factory.mktemp("pack"), text)
    manifest = read_manifest(folder)
    pages = [page for item in sheets_of(manifest) for page in read_file(folder, item)]

    assert list(judged(pages, manifest)) == []
    words_of(pages)
    for page in pages:
        for piece in page.entry["pieces"]:
            facts = piece.get("facts", {})
            if piece["material"] == "counting-cards" and "numeral" in facts and facts["numeral"] is None:
                assert not facts["words"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", [path.name for path in sorted(SAMPLES.glob("*.toml"))])
def test_the_samples_make_and_fit_their_paper(name, paper, tmp_path):
    """Each sample on A4 and on Letter: every page exactly the paper, the guide's too, every word found."""
    result = CliRunner().invoke(
        commands, ["make", str(SAMPLES / name), "-o", str(tmp_path / "out"), "--paper", paper]
    )
    assert (result.exit_code, result.stderr) == (0, "")
    pages = read_folder(tmp_path / "out", pixels=False)

    for page in pages:
        assert page.size == pytest.approx(PAPERS[paper], abs=0.01)
    words_of(pages)
    assert list(check_whole([page for page in pages if page.file["file"] != "guide.pdf"])) == []


def test_key_pages_stand_for_backs(tmp_path):
    """With flip none no page is a back, and the guide has the answers."""
    text = (
        f'theme = "{PLAIN}"\nflip = "none"\n[[children]]\nname = "Wren"\nnumbers = [2, 4]\nsums_to = 3\n'
        'materials = ["clip-cards", "strips"]\n'
    )
    folder = make(tmp_path, text)
    pages = read_folder(folder, pixels=False)
    guide = " ".join(page.text for page in pages if page.file["file"] == "guide.pdf")

    assert {page.entry["side"] for page in pages} == {"front"}
    assert "1 + 1 = 2" in guide
    assert "2 + 1 = 3" in guide
