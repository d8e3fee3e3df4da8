"""The keys of a pack file: what may stand in the pack, in a child and in a tray."""

from dataclasses import dataclass
from typing import Any

from printkit.checks import (
    AnyOf,
    Check,
    Either,
    Extent,
    Flag,
    Millimetres,
    OneOf,
    Range,
    TableOf,
    Whole,
    Words,
    Wrong,
    found,
    is_number,
)
from printkit.errors import listing, nearest
from printkit.pack.starting import Start
from printkit.units import PAPERS
from printkit.words import choices, languages

SIZES = ("small", "medium", "large")
NEEDS = ("large", "easy-grip", "color-safe")
"""What a child may need: things and numerals large, pieces easy to hold, no difference by color alone."""
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


@dataclass(frozen=True, slots=True)
class Shift:
    """[right, down] in mm, each at most `most` to either side."""

    most: float

    def read(self, value: Any) -> Any:
        if (
            isinstance(value, list)
            and len(value) == 2
            and all(is_number(item) and abs(item) <= self.most for item in value)
        ):
            return (float(value[0]), float(value[1]))
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return f"[right, down], each -{self.most:g} to {self.most:g} mm"


class SetNames:
    """A list of names of sets; which sets there are is asked later."""

    def read(self, value: Any) -> Any:
        if isinstance(value, list) and all(isinstance(name, str) for name in value):
            return tuple(value)
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return 'a list of sets, such as ["clip-cards"]'


WISHES = ("keep", "skip", "again")
"""Keys of a child that name sets for which the adult's word stands above the rule of climbing."""


class Names:
    """A list of two or more texts."""

    def read(self, value: Any) -> Any:
        if isinstance(value, list) and len(value) > 1 and all(isinstance(name, str) for name in value):
            return tuple(value)
        return Wrong(found=found(value), allowed=self.allowed())

    def allowed(self) -> str:
        return "a list of two or more children's names"


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


class Choices(TableOf):
    """A table of languages, each with the choice of number words it is to have."""

    def read(self, value: Any) -> Any:
        if not isinstance(value, dict):
            return Wrong(found=found(value), allowed=self.allowed())
        checks = {tag.lower(): (tag, check) for tag, check in self.keys}
        read = {}
        for written, name in value.items():
            if written.lower() not in checks:
                return Wrong(
                    found=f"there is nothing to choose for '{written}'",
                    allowed="a language that has choices ('printkit list languages' shows them)",
                    nearest=nearest(written, dict(self.keys)),
                )
            tag, check = checks[written.lower()]
            read[tag] = check.read(name)
            if isinstance(read[tag], Wrong):
                wrong = read[tag]
                return Wrong(found=f"{wrong.found} for {tag}", allowed=_quoted(check), nearest=wrong.nearest)
        return read

    def allowed(self) -> str:
        return """a table of choices, such as words.fr = "1990" ('printkit list languages' shows them)"""


def _quoted(check: Any) -> str:
    """The words of a check as a pack file writes them: one may be a number, such as "1990"."""
    return listing(f'"{word}"' for word in check.words)


@dataclass(frozen=True, slots=True)
class NoTable:
    """What the check reads, a table excepted: that is the child's key of the same name."""

    key: str
    check: Check

    def read(self, value: Any) -> Any:
        if not isinstance(value, dict):
            return self.check.read(value)
        return Wrong(
            found=f"{found(value)}, which is chosen for a child or the whole pack, not for one material",
            allowed=f"'{self.key}' as a table beside the child's name or at the top of the file, here "
            + self.check.allowed(),
        )

    def allowed(self) -> str:
        return self.check.allowed()


_FLIP = OneOf(("long", "short", "hand", "none"))
KEYS: dict[str, tuple[Check, Any]] = {
    "theme": (Words("the name of a built-in theme or the path of a folder"), "rock-pool"),
    "paper": (Either(OneOf(tuple(PAPERS)), Extent(SMALLEST_PAPER, LARGEST_PAPER)), "a4"),
    "languages": (Languages(), ("en",)),
    "words": (
        Choices(
            tuple(
                (
                    language.tag,
                    OneOf(
                        tuple(item.name for item in choices(language.tag)),
                        tuple((word, item.name) for item in choices(language.tag) for word in item.also),
                    ),
                )
                for language in languages()
                if choices(language.tag)
            )
        ),
        {},
    ),
    "unreviewed": (Flag(), False),
    "letters": (Words("the path of a TOML file with stroke letters"), None),
    "guide": (Words("a language tag such as 'en'"), "en"),
    "units": (OneOf(("mm", "in", "both")), None),
    "ink": (OneOf(("color", "gray", "outline"), (("colour", "color"), ("grey", "gray"))), "color"),
    "flip": (Either(_FLIP, TableOf((("plain", _FLIP), ("card", _FLIP)))), {}),
    "margin": (Millimetres(3, 40), 10.0),
    "back_shift": (Shift(10), (0.0, 0.0)),
    "save": (OneOf(("paper", "order")), "paper"),
    "gap": (Millimetres(0, 20), 0.0),
    "corner": (Millimetres(0, 8), 0.0),
    "stack": (Flag(), False),
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
    "digits": (OneOf(("western", "native")), "western"),
    "numbers": (Range(0, 100), (1, 10)),
    "sums_to": (Whole(2, 100), None),
    "lookalike": (Whole(1, 6), 2),
    "hand": (OneOf(("left", "right")), "right"),
    "needs": (AnyOf(NEEDS, (("colour-safe", "color-safe"),)), ()),
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
    own = {"title": Words(), "seed": Whole(0, 2**63 - 1), "weeks": Whole(1, 20)}
    own |= {"start": Start(), "children": Tables()}
    return key_checks() | own | {"materials": Anything(), "shared": Anything()}


def child_checks() -> dict[str, Check]:
    """The checks of what may stand in a child's table."""
    wishes = {key: SetNames() for key in WISHES}
    own = {"name": Words("a name"), "start": Start(), "materials": Anything()}
    return key_checks() | own | wishes


def shared_checks() -> dict[str, Check]:
    """The checks of what may stand in a table of those who share trays."""
    return child_checks() | {"with": Names()}


SEASON = ("theme", "materials", *WISHES)
"""What belongs to a season: no key of a family's file, be it at the top or in a child's table."""


def family_checks() -> dict[str, Check]:
    """The checks of what may stand at the top of a family's file."""
    return _without_season(key_checks() | {"start": Start(), "children": Tables()})


def family_child_checks() -> dict[str, Check]:
    """The checks of what may stand in a child's table of a family's file."""
    return _without_season(child_checks())


def _without_season(checks: dict[str, Check]) -> dict[str, Check]:
    return {key: check for key, check in checks.items() if key not in SEASON}


def tray_checks(settings: dict[str, Check]) -> dict[str, Check]:
    """The checks of what may stand in a material's table; its own settings come in and win."""
    keys = key_checks()
    own = {
        key: NoTable(key, check) if isinstance(keys.get(key), TableOf) else check
        for key, check in settings.items()
    }
    return (
        keys
        | own
        | {
            "make": Words(),
            "set": Words("a name"),
            "stock": OneOf(("card", "plain")),
            "size": Either(OneOf(SIZES), Extent(20, LARGEST_PAPER)),
        }
    )
