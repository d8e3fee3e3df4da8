"""A family's own stroke letters: read from a file, used for tracing, refused in words."""

import pytest

from printkit.errors import PrintkitError
from printkit.letters import Numerals
from printkit.letters.own import read_own
from printkit.letters.strokes import letter
from printkit.letters.traced import Style, drawn

BENT = "8: M3.2 17 L3.2 3 A 6 3 2.8 3 180 300 ; M0 10 L6.4 10"
ALLOWED = '; allowed: [letters] with lines such as n = "9: M0 10 L0 0 > M0 5.5 A 4.5 5.5 4.5 4.5 180 0 L9 0"'


def own(tmp_path, text: str):
    """What stands in a file of that text."""
    file = tmp_path / "own.toml"
    file.write_text(text, encoding="utf-8")
    return read_own(file, "pack.toml, line 2 (letters)")


def test_a_letter_is_replaced_with_its_marks_and_no_other(tmp_path):
    """t and ť are the family's, u is ours."""
    numerals = Numerals(strokes=own(tmp_path, f'[letters]\nt = "{BENT}"\n'))

    assert letter("t", numerals) != letter("t")
    assert letter("ť", numerals).strokes[:2] == letter("t", numerals).strokes
    assert letter("u", numerals) == letter("u")
    for char in "tť":
        ours, theirs = (
            drawn(char, Style(height=18, manner="dashed", numerals=n)) for n in (Numerals(), numerals)
        )
        assert ours != theirs


def test_a_letter_that_we_lack_can_be_given(tmp_path):
    """A letter of another script has strokes then."""
    numerals = Numerals(strokes=own(tmp_path, '[letters]\n"ሀ" = "9: M0 10 L4 0 L8 10"\n'))

    assert letter("ሀ") is None
    assert letter("ሀ", numerals).width == 9


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[letters]\nn = "9: M0 0 L1"\n', "own.toml, line 2, letters.n: L needs 2 numbers" + ALLOWED),
        (
            '[letters]\na = "9: M0 0 L1 1"\nnn = "9: M0 0 L1 1"\n',
            "own.toml, line 3, letters.nn: 'nn' is not one character" + ALLOWED,
        ),
        (
            '[letters]\nl = "0: M0 40 L0 0"\n',
            "own.toml, line 2, letters.l: it reaches from 0 to 40; the lines are at -10, 0, 10 and 20"
            + ALLOWED,
        ),
        ("[letters]\nl = 3\n", "own.toml, line 2, letters.l: its line is not a text in quotes" + ALLOWED),
        ("[strokes]\n", "own.toml: holds something else than the table [letters]" + ALLOWED),
    ],
)
def test_what_is_wrong_is_told(tmp_path, text, said):
    """The sentence names the file, the line, the letter, and shows a line that would be right."""
    with pytest.raises(PrintkitError) as caught:
        own(tmp_path, text)

    assert [str(problem) for problem in caught.value.problems] == [said]


def test_a_file_that_is_not_there(tmp_path):
    """The sentence stands at the key of the pack file."""
    with pytest.raises(PrintkitError, match=r"there is no file 'none\.toml'"):
        read_own(tmp_path / "none.toml", "pack.toml, line 2 (letters)")
