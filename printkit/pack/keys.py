"""The keys of a pack file: what may stand in the pack, in a child and in a tray."""

from typing import Any

from printkit.checks import (
    Check,
    Either,
    Extent,
    Millimetres,
    OneOf,
    Range,
    TableOf,
    Whole,
    Words,
    Wrong,
    found,
)
from printkit.units import PAPERS

SIZES = ("small", "medium", "large")
SMALLEST_PAPER, LARGEST_PAPER = 100.0, 1000.0
RESERVED = ("guide", "manifest", "preview")
"""Names that the pack's own files have, so no child can."""


class Languages:
    """One or two language tags; the table of languages is asked later, by name."""

    def read(self, value: Any) -> Any:
        if (
            isinstance(value, list)
            and 1 <= len(value) <= 2
            and all(isinstance(tag, str) and tag for tag in value)
        ):
            return tuple(value)
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return 'a list of one or two language tags, such as ["en", "es"]'


class Tables:
    """A list of tables."""

    def read(self, value: Any) -> Any:
        if isinstance(value, list) and all(isinstance(item, dict) for item in value):
            return value
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return "tables [[children]], one a child"


class Anything:
    """A value that is looked at elsewhere."""

    def read(self, value: Any) -> Any:
        return True

    def allowed(self) -> str:
        return ""


_FLIP = OneOf(("long", "short", "hand", "none"))
KEYS: dict[str, tuple[Check, Any]] = {
    "theme": (Words("the name of a built-in theme or the path of a folder"), "rock-pool"),
    "paper": (Either(OneOf(tuple(PAPERS)), Extent(SMALLEST_PAPER, LARGEST_PAPER)), "a4"),
    "languages": (Languages(), ("en",)),
    "guide": (Words("a language tag such as 'en'"), "en"),
    "units": (OneOf(("mm", "in", "both")), None),
    "ink": (OneOf(("color", "gray", "outline"), (("colour", "color"), ("grey", "gray"))), "color"),
    "flip": (Either(_FLIP, TableOf((("plain", _FLIP), ("card", _FLIP)))), {}),
    "margin": (Millimetres(3, 40), 10.0),
    "counter": (Millimetres(8, 60), 22.0),
    "numerals": (
        TableOf(
            (
                ("one", OneOf(("flag", "foot"))),
                ("four", OneOf(("closed", "open"))),
                ("seven", OneOf(("plain", "barred"))),
            )
        ),
        {},
    ),
    "numbers": (Range(0, 100), (1, 10)),
    "sums_to": (Whole(2, 100), None),
    "lookalike": (Whole(1, 6), 2),
    "hand": (OneOf(("left", "right")), "right"),
}
"""What may stand in the pack, in a child and in a tray: key -> (check, default)."""


def key_checks() -> dict[str, Check]:
    """The check of every key that pack, children and trays share."""
    return {key: check for key, (check, _) in KEYS.items()}


def key_defaults() -> dict[str, Any]:
    """The default of every such key."""
    return {key: default for key, (_, default) in KEYS.items()}


def pack_checks() -> dict[str, Check]:
    """The checks of what may stand at the top of a pack file."""
    return key_checks() | {"title": Words(), "seed": Whole(0, 2**63 - 1), "children": Tables()}


def child_checks() -> dict[str, Check]:
    """The checks of what may stand in a child's table."""
    return key_checks() | {"name": Words("a name"), "materials": Anything()}


def tray_checks(settings: dict[str, Check]) -> dict[str, Check]:
    """The checks of what may stand in a material's table; its own settings come in."""
    return (
        key_checks()
        | settings
        | {
            "make": Words(),
            "set": Words("a name"),
            "stock": OneOf(("card", "plain")),
            "size": Either(OneOf(SIZES), Extent(20, LARGEST_PAPER)),
        }
    )
