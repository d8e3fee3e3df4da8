"""What there is to choose from: themes, materials, languages, papers; as plain values and as lines."""

from collections.abc import Callable
from dataclasses import asdict, fields
from typing import Any

from printkit.checks import shown
from printkit.resources import resource
from printkit.units import PAPERS, inches

_TRACED = ("Latn", "Cyrl")
"""Scripts whose letters are drawn stroke by stroke; the words of others are hollow, to colour in."""


def entries(what: str) -> list[dict[str, Any]]:
    """The things of a kind; each has at least `name`, the word a pack file uses."""
    return _ENTRIES[what]()


def line(what: str, entry: dict[str, Any]) -> str:
    """One entry as a line for people."""
    return _LINES[what](entry)


def _themes() -> list[dict[str, Any]]:
    """The built-in themes as their descriptions tell; no picture is read."""
    import tomllib

    entries = []
    for file in sorted(resource("themes").glob("*/theme.toml")):
        described = tomllib.loads(file.read_text(encoding="utf-8"))
        entries.append(
            {
                "name": file.parent.name,
                "title": described["title"]["en"],
                "titles": dict(described["title"]),
                "season": described["season"],
                "motifs": list(described["motifs"]),
            }
        )
    return entries


def _materials() -> list[dict[str, Any]]:
    from printkit.materials import materials

    return [
        {
            "name": item.name,
            "line": item.line,
            "stock": item.stock,
            "settings": [
                {
                    "name": field.name,
                    "allowed": field.metadata["check"].allowed(),
                    "default": field.default,
                    "says": field.metadata["says"],
                }
                for field in fields(item.settings)
            ],
        }
        for item in materials().values()
    ]


def _languages() -> list[dict[str, Any]]:
    from printkit.words import choices, languages

    return [
        {
            "name": item.tag,
            "language": item.name,
            "own_name": item.own_name,
            "script": item.script,
            "direction": item.direction,
            "equations": item.equations,
            "digits": item.digits,
            "sample": list(item.sample),
            "traced": "tracing" if item.script in _TRACED else "hollow",
            "reviewed": item.reviewed,
            "checked": item.checked,
            "choices": [
                {"name": choice.name, "says": choice.says, "checked": choice.checked}
                for choice in choices(item.tag)
            ],
        }
        for item in languages()
    ]


def _letters() -> list[dict[str, Any]]:
    import unicodedata

    from printkit.letters.strokes import characters, letter

    return [
        {"name": char, "unicode": unicodedata.name(char).lower(), "strokes": len(letter(char).strokes)}
        for char in characters()
    ]


def _papers() -> list[dict[str, Any]]:
    return [
        {"name": name, "width_mm": width, "height_mm": height} for name, (width, height) in PAPERS.items()
    ]


def _rungs() -> list[dict[str, Any]]:
    from printkit.ladder import rungs

    return [
        {
            "name": item.name,
            "track": item.track,
            "new": item.says,
            "keys": dict(item.keys),
            "settings": {material: dict(given) for material, given in item.settings},
            "expectations": [asdict(each) for each in item.expectation],
        }
        for item in rungs()
    ]


def _theme_line(entry: dict[str, Any]) -> str:
    return f"{entry['name']}: {entry['title']} ({entry['season']}): {', '.join(entry['motifs'])}"


def _material_line(entry: dict[str, Any]) -> str:
    settings = ", ".join(item["name"] for item in entry["settings"])
    return f"{entry['name']}: {entry['line']} (on {entry['stock']}; settings: {settings})"


def _language_line(entry: dict[str, Any]) -> str:
    """'nb: Norwegian Bokmål, norsk bokmål, Latn: én, to, tre; tracing; checked against ...'."""
    parts = [
        f"{entry['name']}: {entry['language']}, {entry['own_name']}, {entry['script']}: "
        + ", ".join(entry["sample"]),
        entry["traced"],
    ]
    if entry["digits"]:
        parts.append(f"native digits {entry['digits']}")
    if not entry["reviewed"]:
        parts.append("waits for a native reader: needs unreviewed = true")
    parts.append(f"checked against {entry['checked']}")
    if entry["choices"]:
        usual, *others = (f"{choice['name']} ({choice['says']})" for choice in entry["choices"])
        parts.append(f"words: {', '.join((usual, *others))}")
    return "; ".join(parts)


def _letter_line(entry: dict[str, Any]) -> str:
    count = entry["strokes"]
    return f"{entry['name']}: {entry['unicode']}, {count} {'stroke' if count == 1 else 'strokes'}"


def _paper_line(entry: dict[str, Any]) -> str:
    width, height = entry["width_mm"], entry["height_mm"]
    return f"{entry['name']}: {width:g} x {height:g} mm, {inches(width):.2f} x {inches(height):.2f} in"


def _rung_line(entry: dict[str, Any]) -> str:
    """'count-1-5: counting: up to 5 things; numbers = [1, 5]; counting-cards: arrange = 'line' ...'"""
    parts = [f"{entry['name']}: {entry['track']}: {entry['new']}"]
    parts += [_set(entry["keys"])] if entry["keys"] else []
    parts += [f"{material}: {_set(given)}" for material, given in entry["settings"].items()]
    serves = " and ".join(
        f"{each['framework']}, {each['code']} ({each['says']})" for each in entry["expectations"]
    )
    return f"{'; '.join(parts)}; serves {serves}"


def _set(given: dict[str, Any]) -> str:
    """'arrange = 'line', rows = 1': a list of one word is written as that word."""
    plain = {
        key: value[0] if isinstance(value, tuple) and len(value) == 1 else value
        for key, value in given.items()
    }
    return ", ".join(f"{key} = {shown(value)}" for key, value in plain.items())


_ENTRIES: dict[str, Callable[[], list[dict[str, Any]]]] = {
    "themes": _themes,
    "materials": _materials,
    "languages": _languages,
    "papers": _papers,
    "letters": _letters,
    "rungs": _rungs,
}
_LINES: dict[str, Callable[[dict[str, Any]], str]] = {
    "themes": _theme_line,
    "materials": _material_line,
    "languages": _language_line,
    "papers": _paper_line,
    "letters": _letter_line,
    "rungs": _rung_line,
}
