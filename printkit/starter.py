"""A new pack file with comments, for `printkit new`: balanced trays for each child of a season."""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from printkit.errors import PrintkitError, Problem
from printkit.pack import Pack
from printkit.planner.balance import NewChild, NewSet, balanced

THEMES = {
    "spring": "spring-pond",
    "summer": "rock-pool",
    "autumn": "harvest-market",
    "fall": "harvest-market",
    "winter": "first-snow",
}
"""A theme for a season that names none."""

AREA_WORDS = {
    "counting": "counting",
    "looking": "looking closely",
    "hands": "the hands",
    "writing": "writing",
    "operations": "adding and taking away",
}

_HEAD = """\
# A printkit pack: all that is made for one season. Change what you like, then
#   printkit check {file}   says what would be made, and what is out in which week
#   printkit make {file}    makes the PDFs and the guide
# Lengths are in mm. A line that starts with # is only a remark.
"""

_FAMILY = """\
# What stays from season to season stands in {family}; what is written here wins over it.
"""

_PRINTER = """\
ink       = "color"            # color, gray, or outline to color in
flip      = { plain = "long", card = "hand" }   # how paper is turned for its back: long, short, hand, none
counter   = 22                 # mm across your loose counters
numerals  = { one = "flag", four = "closed", seven = "plain" }
"""

_FOOT = """\
seed      = 1                  # another number gives other chance layouts

# Some trays of each child are on the shelf at once, the others wait in a basket and take turns.
# Strike out what you do not want; printkit list materials says what else there is.
# A child may set any key above anew; a material's table any key of its child.
"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Answers:
    """What a new pack file is made of; `season` is a word or two, such as 'Spring' or 'Summer 2027'.

    `title` is made of theme and season if it is empty. `family` is the name of the family's file beside
    it, '' if there is none: what that file holds is not said again, and paper and languages only where
    they are given here.
    """

    children: tuple[NewChild, ...] = (NewChild(name="Wren", numbers=(1, 5)),)
    season: str = ""
    title: str = ""
    theme: str | None = None
    paper: str = ""
    languages: tuple[str, ...] = ()
    weeks: int = 6
    family: str = ""


def usual_theme(season: str) -> str:
    """The theme for a season that names none: by its word, else the rock pool."""
    words = re.findall(r"\w+", season.casefold())
    return next((THEMES[word] for word in words if word in THEMES), "rock-pool")


def new_child(text: str, numbers: str | None = None, home: Sequence[NewChild] = ()) -> NewChild:
    """The child of 'Wren', 'Wren:1-5' or 'Wren:1-5:left'; `numbers` count where the text has none.

    A name alone may be that of a child `home` knows. Raises PrintkitError for numbers that are no range
    and a hand that is none.
    """
    name, *more = (part.strip() for part in text.split(":"))
    known = next((child for child in home if child.name == name), None)
    if known is not None and not more and numbers is None:
        return known
    hand = more[1] if len(more) == 2 else "right"
    if len(more) > 2 or hand not in ("left", "right"):
        allowed = "a name, numbers and perhaps the hand that writes, such as Wren:1-5 or Wren:1-5:left"
        raise PrintkitError([Problem(place="--child", found=f"'{text}'", allowed=allowed)])
    return NewChild(
        name=name,
        numbers=_range(more[0], "--child") if more and more[0] else _range(numbers or "1-5", "--numbers"),
        hand=hand,
    )


def at_home(file: Path) -> tuple[str, tuple[NewChild, ...]]:
    """The name of the family's file beside a pack file, and its children; '' and none without one.

    Raises PrintkitError for a family's file that has problems, OSError if it cannot be read.
    """
    import tomllib

    from printkit.materials import material_keys
    from printkit.pack.family import family_beside
    from printkit.pack.reader import pack_of

    home = family_beside(file)
    if home is None:
        return "", ()
    try:
        if not tomllib.loads(home.read_text(encoding="utf-8-sig")).get("children"):
            return home.name, ()
    except ValueError:
        pass  # told by the reader
    pack = pack_of(file, b'materials = ["labels"]', material_keys())
    children = (
        NewChild(name=child.name, numbers=child.numbers, hand=child.hand, at_home=True, sums=child.sums_to)
        for child in pack.people
    )
    return home.name, tuple(children)


def tags(text: str) -> tuple[str, ...]:
    """'en, es' -> ('en', 'es')."""
    return tuple(tag.strip() for tag in text.split(","))


def starter(file: str, answers: Answers, without: Sequence[tuple[str, str]] = ()) -> str:
    """The text of a new pack file; `without` are pairs of child and set that are left out."""
    theme, home = answers.theme or usual_theme(answers.season), answers.family
    paper, languages = answers.paper or "a4", list(answers.languages) or ["en"]
    lines = [
        f"title     = {_toml(answers.title or _title(answers.season, theme))}",
        _line("theme", theme, "a built-in theme (printkit list themes) or a folder of pictures"),
    ]
    if answers.paper or not home:
        lines.append(_line("paper", paper, "a3 a4 a5 letter legal, or [width, height]"))
    if answers.languages or not home:
        lines.append(_line("languages", languages, "one or two; the first leads (printkit list languages)"))
    weeks = "how long the season lasts, 1 to 20: the guide has a page a week"
    lines.append(_line("weeks", answers.weeks, weeks))
    head = _HEAD.format(file=file) + (_FAMILY.format(family=home) if home else "")
    middle = "\n".join(lines) + "\n" + ("" if home else _PRINTER)
    return f"{head}\n{middle}{_FOOT}" + "".join(
        _child(child, answers.weeks, without) for child in answers.children
    )


def _line(key: str, value: Any, says: str) -> str:
    return f"{key:<9} = {_toml(value):<18} # {says}"


def _title(season: str, theme: str) -> str:
    """'Rock pool, summer'; a word that the theme's name has already is not said twice."""
    name = Path(theme).name.replace("-", " ").capitalize()
    words = [word for word in season.split() if word.casefold() not in name.casefold().split()]
    if not season.strip():
        return "Our next shelf"
    return f"{name}, {' '.join(words)}" if words else name


def _child(child: NewChild, weeks: int, without: Sequence[tuple[str, str]]) -> str:
    lines = ["", "[[children]]", f"name      = {_toml(child.name)}"]
    sums = _line("sums_to", child.sums_to, "addition and subtraction within")
    if child.at_home:
        if child.sums is None and child.sums_to is not None:
            lines.append(sums)
    else:
        lines.append(_line("numbers", list(child.numbers), "the counting range, within 0 to 100"))
        later = "# sums_to = 5                  # addition and subtraction within: once counting is sure"
        lines.append(later if child.sums_to is None else sums)
        lines.append(_line("lookalike", child.lookalike, "how closely to look: 1 easy to 6 hard"))
        lines.append(_line("hand", child.hand, "left or right"))
    lines.append("materials = [")
    kept = [item for item in balanced(child, weeks) if (child.name, item.name) not in without]
    for number, item in enumerate(kept):
        if not number or kept[number - 1].area != item.area:
            lines.append(f"    # {AREA_WORDS[item.area]}")
        lines.append(f"    {_set(item)},")
    return "\n".join([*lines, "]", ""])


def _set(item: NewSet) -> str:
    if not item.keys:
        return _toml(item.make)
    keys = "".join(f", {key} = {_toml(value)}" for key, value in item.keys)
    return f"{{ make = {_toml(item.make)}{keys} }}"


def _toml(value: Any) -> str:
    """A TOML value: JSON's texts, numbers, lists and truth values are TOML's too."""
    return json.dumps(value, ensure_ascii=False)


def _range(text: str, place: str) -> tuple[int, int]:
    match = re.fullmatch(r"\s*(\d+)\s*(?:-|–|to|,)\s*(\d+)\s*", text)
    if not match:
        raise PrintkitError([Problem(place=place, found=f"'{text}'", allowed="first and last, such as 1-5")])
    return (int(match[1]), int(match[2]))


def write_new(file: Path, answers: Answers) -> tuple[tuple[str, str], ...]:
    """Writes a pack file that must not exist yet, and only if it makes a legal pack.

    What this paper or theme has no room for is left out; returns those pairs of child and set. Raises
    PrintkitError if the file exists or the pack it describes has problems; OSError.
    """
    from printkit.build import plan

    if file.exists():
        raise PrintkitError(
            [Problem(place=str(file), found="is there already", allowed="a name that is not taken yet")]
        )
    pack = _tried(file, answers, ())
    without = _unfit(pack)
    plan(_tried(file, answers, without) if without else pack)
    with file.open("x", encoding="utf-8", newline="\n") as out:
        out.write(starter(file.name, answers, without))
    return without


def _tried(file: Path, answers: Answers, without: Sequence[tuple[str, str]]) -> Pack:
    """The pack as it would be read from that file."""
    from printkit.materials import material_keys
    from printkit.pack.reader import pack_of

    return pack_of(file, starter(file.name, answers, without).encode(), material_keys())


def _unfit(pack: Pack) -> tuple[tuple[str, str], ...]:
    from printkit.build import unfit

    return tuple((tray.child.name, tray.set) for tray in unfit(pack))
