"""A starter pack file with comments, for `printkit new`."""

import json
import re
from pathlib import Path

from printkit.errors import PrintkitError, Problem

_STARTER = """\
# A printkit pack: all that is made for one season. Change what you like, then
#   printkit check {file}   says what would be made
#   printkit make {file}    makes the PDFs and the guide
# Lengths are in mm. A line that starts with # is only a remark.

title     = {title}
theme     = {theme}        # a built-in theme (printkit list themes) or a folder of pictures
paper     = {paper}               # a3 a4 a5 letter legal, or [width, height]
languages = {languages}             # one or two; the first leads (printkit list languages)
ink       = "color"            # color, gray, or outline to colour in
flip      = {{ plain = "long", card = "hand" }}   # how paper is turned for its back: long, short, hand, none
counter   = 22                 # mm across your loose counters
numerals  = {{ one = "flag", four = "closed", seven = "plain" }}
seed      = 1                  # another number gives other chance layouts

[[children]]
name      = {child}
numbers   = {numbers}             # the counting range, within 0 to 100
sums_to   = 5                  # addition and subtraction within
lookalike = 1                  # how closely to look: 1 easy to 6 hard
hand      = "right"
materials = [
    "counting-cards",
    "clip-cards",
    "odd-one-out",
    "tracing",
    {{ make = "strips", operation = "add" }},
]

# Another child? Copy the lines from [[children]] on. A child may set any key above anew:
# [[children]]
# name      = "Juno"
# numbers   = [8, 14]
# sums_to   = 10
# materials = ["counting-cards", {{ make = "strips", set = "take away", operation = "subtract" }}]
"""


def starter(
    file: str,
    theme: str | None = None,
    paper: str | None = None,
    languages: str | None = None,
    child: str | None = None,
    numbers: str | None = None,
    title: str | None = None,
) -> str:
    """The text of a starter pack file. Raises PrintkitError for numbers that are no range."""
    tags = [tag.strip() for tag in (languages or "en").split(",")]
    return _STARTER.format(
        file=file,
        title=_quoted(title or "Our next shelf"),
        theme=_quoted(theme or "rock-pool"),
        paper=_quoted(paper or "a4"),
        languages=f"[{', '.join(_quoted(tag) for tag in tags)}]",
        child=_quoted(child or "Wren"),
        numbers=_range(numbers or "1-5"),
    )


def _quoted(text: str) -> str:
    """A TOML basic string: JSON's escapes are TOML's too."""
    return json.dumps(text, ensure_ascii=False)


def _range(text: str) -> str:
    match = re.fullmatch(r"\s*(\d+)\s*(?:-|–|to|,)\s*(\d+)\s*", text)
    if not match:
        raise PrintkitError(
            [Problem(place="--numbers", found=f"'{text}'", allowed="first and last, such as 1-5")]
        )
    return f"[{int(match[1])}, {int(match[2])}]"


def write_new(file: Path, text: str) -> None:
    """Writes the text to a file that must not exist yet, and only if it makes a legal pack.

    Raises PrintkitError if the file exists or the pack it describes has problems; OSError.
    """
    import tempfile

    from printkit.build import plan
    from printkit.materials import material_keys
    from printkit.pack.reader import read_pack

    if file.exists():
        raise PrintkitError(
            [Problem(place=str(file), found="is there already", allowed="a name that is not taken yet")]
        )
    with tempfile.TemporaryDirectory() as folder:
        trial = Path(folder) / file.name
        trial.write_text(text, encoding="utf-8", newline="\n")
        plan(read_pack(trial, material_keys()))
    with file.open("x", encoding="utf-8", newline="\n") as out:
        out.write(text)
