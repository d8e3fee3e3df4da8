"""Legal pack files as hypothesis strategies, derived from the checks that read them.

What a pack file may hold stands in the checks of `printkit.pack` and of the materials' settings;
the values here are drawn from those checks, so that a new key is tried without a new line here.
"""

import json
import math
import tempfile
from collections.abc import Mapping
from dataclasses import fields
from functools import singledispatch
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from printkit import checks
from printkit.letters import missing
from printkit.materials import Made, Room, material_keys, materials
from printkit.pack import Pack, Tray
from printkit.pack.keys import KEYS, SIZES, Languages, Shift
from printkit.pack.reader import read_pack
from printkit.pictures import load_theme
from printkit.sheets import frame_of
from printkit.words import languages, spell

PLAIN_THEME = str(Path(__file__).parent / "fixtures" / "plain")
"""A theme of discs and squares: quick to read, exact to count."""
THEMES = ("rock-pool", PLAIN_THEME)
NAMES = ("Wren", "Juno", "Zoë", "Łucja", "Мила", "Ana Rita", "Bo")
SETS = ("counting", "on the tray", "morning 2", "é meu", "take away")


# --- values from checks ----------------------------------------------------------------------


@singledispatch
def legal_value(check: Any) -> st.SearchStrategy[Any]:
    """Values that the check reads without a complaint, as TOML gives them."""
    raise NotImplementedError(f"no legal values are known for {check!r}")


@legal_value.register
def _(check: checks.OneOf):
    return st.sampled_from([*check.words, *(word for word, _ in check.also)])


@legal_value.register
def _(check: checks.Several):
    return st.lists(legal_value(check.each), min_size=1, max_size=check.most)


@legal_value.register
def _(check: checks.Whole):
    return st.integers(check.low, check.high)


@legal_value.register
def _(check: checks.Millimetres):
    return _lengths(check.low, check.high)


@legal_value.register
def _(check: checks.Flag):
    return st.booleans()


@legal_value.register
def _(check: checks.WordOrWords):
    words = st.sampled_from(check.words)
    return words | st.lists(words, min_size=1, max_size=3, unique=True)


@legal_value.register
def _(check: checks.AnyOf):
    words = st.sampled_from([*check.words, *(word for word, _ in check.also)])
    return words | st.lists(words, max_size=3)


@legal_value.register
def _(check: checks.Range):
    number = st.integers(check.low, check.high)
    return st.tuples(number, number).map(sorted)


@legal_value.register
def _(check: checks.Extent):
    side = _lengths(check.low, check.high)
    return st.lists(side, min_size=2, max_size=2)


@legal_value.register
def _(check: Shift):
    length = st.integers(-round(check.most * 4), round(check.most * 4)).map(lambda n: n / 4)
    return st.lists(length, min_size=2, max_size=2)


@legal_value.register
def _(check: checks.Either):
    return legal_value(check.first) | legal_value(check.second)


@legal_value.register
def _(check: checks.TableOf):
    return st.fixed_dictionaries({}, optional={key: legal_value(item) for key, item in check.keys})


@legal_value.register
def _(check: Languages):
    tags = st.sampled_from([language.tag for language in languages() if language.reviewed])
    return st.lists(tags, min_size=1, max_size=2, unique=True)


def _lengths(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths in mm: whole ones, tenths, and some with more digits than a micrometre."""
    whole = st.integers(math.ceil(low), int(high)).map(float)
    tenths = st.integers(math.ceil(low * 10), int(high * 10)).map(lambda n: n / 10)
    return whole | tenths | st.floats(low, high).map(lambda n: min(high, max(low, round(n, 5))))


# --- packs -----------------------------------------------------------------------------------


def pack_keys(*without: str) -> dict[str, st.SearchStrategy[Any]]:
    """A strategy for each key that pack, child and tray may set, the files of a family left to the caller."""
    kept = {key: check for key, (check, _) in KEYS.items() if key not in ("theme", "letters", *without)}
    fixed = {"guide": "en", "digits": "western"}  # native digits need a leading language that has them
    return {key: st.just(fixed[key]) if key in fixed else legal_value(check) for key, check in kept.items()}


def own_settings(material: str, theme: str = "rock-pool") -> dict[str, st.SearchStrategy[Any]]:
    """A strategy for each setting of a material; a motif is one of the theme's."""
    keys = [motif.key for motif in load_theme(theme, Path(), "theme").motifs]
    named = {
        "motif": st.sampled_from(keys),
        "motifs": st.lists(st.sampled_from(keys), min_size=1, max_size=6, unique=True),
    }
    return {
        field.name: named[field.name] if field.name in named else legal_value(field.metadata["check"])
        for field in fields(materials()[material].settings)
    }


@st.composite
def legal_entry(draw, material: str, theme: str = "rock-pool") -> dict[str, Any]:
    """One entry of `materials`: a table with settings of its own and keys set anew."""
    entry = {"make": material}
    entry |= draw(st.fixed_dictionaries({}, optional=own_settings(material, theme)))
    entry |= draw(
        st.fixed_dictionaries(
            {},
            optional={
                "stock": st.sampled_from(("card", "plain")),
                "size": st.sampled_from(SIZES) | st.lists(_lengths(40, 190), min_size=2, max_size=2),
            },
        )
    )
    return entry


@st.composite
def legal_pack(draw, themes: tuple[str, ...] = THEMES) -> dict[str, Any]:
    """A pack file as a dict that `read_pack` takes; what it asks for may still be impossible to make."""
    theme = draw(st.sampled_from(themes))
    made: dict[str, Any] = {"theme": theme}
    made |= draw(
        st.fixed_dictionaries(
            {},
            optional={
                "title": st.sampled_from(("Rock pool summer", "First snow, again", "Night sky \\ “now”")),
                "seed": st.integers(0, 2**63 - 1),
                "weeks": st.integers(1, 20),
                **pack_keys(),
            },
        )
    )
    names = draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=3, unique=True))
    made["children"] = [draw(_legal_child(name, theme)) for name in names]
    return made


@st.composite
def _legal_child(draw, name: str, theme: str) -> dict[str, Any]:
    child = {"name": name, **draw(st.fixed_dictionaries({}, optional=pack_keys()))}
    kinds = draw(st.lists(st.sampled_from(list(materials())), min_size=1, max_size=3))
    child["materials"] = []
    for kind, set_name in zip(kinds, draw(st.permutations(SETS)), strict=False):
        entry = draw(legal_entry(kind, theme))
        plain_word = draw(st.booleans()) and kinds.count(kind) == 1
        child["materials"].append(kind if plain_word else {**entry, "set": set_name})
    return child


def legal_toml(made: Mapping[str, Any]) -> str:
    """The text of a pack file: the pack's keys, then a table [[children]] for each child."""
    lines = [f"{key} = {toml_value(value)}" for key, value in made.items() if key != "children"]
    for child in made.get("children", ()):
        lines += ["", "[[children]]"]
        lines += [f"{key} = {toml_value(value)}" for key, value in child.items()]
    return "\n".join(lines) + "\n"


def toml_value(value: Any) -> str:
    """A value the way TOML writes it, tables inline."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
        case Mapping():
            return f"{{ {', '.join(f'{key} = {toml_value(item)}' for key, item in value.items())} }}"
        case list() | tuple():
            return f"[{', '.join(toml_value(item) for item in value)}]"
        case _:
            return repr(value)


# --- reading and making ----------------------------------------------------------------------


def read(made: Mapping[str, Any]) -> Pack:
    """The pack of a dict, read from a file like any other."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "pack.toml"
        file.write_text(legal_toml(made), encoding="utf-8")
        return read_pack(file, material_keys())


def tray(make: str, child: Mapping[str, Any] | None = None, **settings: Any) -> Tray:
    """One tray of a child called Wren, with the plain theme unless `child` says otherwise."""
    keys = {"theme": PLAIN_THEME, "name": "Wren", **(child or {})}
    made = {"children": [{**keys, "materials": [{"make": make, **settings}]}]}
    return read(made).children[0].trays[0]


def room_of(asked: Tray) -> Room:
    """What of a sheet a tray's pieces may fill."""
    return Room(*frame_of(asked).room)


def made_of(asked: Tray, seed: int = 0) -> Made:
    """What the tray's material makes."""
    return materials()[asked.material].make(seed, asked, room_of(asked))


def plain_room(asked: Tray) -> bool:
    """Whether the sheet is large enough for anything at all: the build refuses less than 40 mm."""
    return min(room_of(asked)) >= 40


def written_languages(numbers: range = range(101)) -> tuple[str, ...]:
    """The tags of the languages whose number words the typeface can draw."""
    return tuple(
        language.tag
        for language in languages()
        if language.reviewed and not missing("".join(spell(language.tag, number) for number in numbers))
    )
