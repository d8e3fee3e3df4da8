"""What a rung is: the keys and settings it stands for, what a child meets on it, what it serves."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from printkit.texts import catalogue

Pairs = tuple[tuple[str, Any], ...]
Fact = tuple[Any, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Expectation:
    """What a published framework expects, in our words; no age goes with it.

    `status` is 'S' where the text was seen in a public copy (`source` says where), 'M' where it is
    told from memory of the source and still to be verified.
    """

    framework: str
    code: str
    says: str
    status: str
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Rung:
    """One step of a ladder.

    `keys` are keys of a child (`numbers`, `sums_to`, `lookalike`) as the pack reader gives them,
    `settings` the settings of materials by their names.
    `met` is what `facts()` returns.
    """

    name: str
    track: str
    keys: Pairs
    settings: tuple[tuple[str, Pairs], ...]
    expectation: tuple[Expectation, ...]
    met: frozenset[Fact]

    @property
    def says(self) -> str:
        """The one thing that is new on it, in English; each catalogue has it in `next.rungs`."""
        return catalogue("en").say(f"next.rungs.{self.name}")

    def facts(self) -> frozenset[Fact]:
        """What a child meets on this rung, as (kind, value ...): ('number', 4), ('parts', 2, 3) ..."""
        return self.met

    def of(self, material: str) -> dict[str, Any]:
        """The settings it gives a material."""
        return dict(dict(self.settings).get(material, ()))


def made(
    track: str,
    name: str,
    expectation: tuple[Expectation, ...],
    facts: frozenset[Fact],
    keys: Mapping[str, Any],
    settings: Mapping[str, Mapping[str, Any]],
) -> Rung:
    """A rung from plain mappings; a material without settings is left out."""
    return Rung(
        name=name,
        track=track,
        keys=tuple(keys.items()),
        settings=tuple((material, tuple(given.items())) for material, given in settings.items() if given),
        expectation=expectation,
        met=facts,
    )
