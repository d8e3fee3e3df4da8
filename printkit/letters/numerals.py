"""The forms of 1, 4 and 7 that a family teaches; the same in print and in tracing."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, kw_only=True, slots=True)
class Numerals:
    """How 1, 4 and 7 are drawn. Andika has each form as a character variant (see fonts/README.md)."""

    one: Literal["flag", "foot"] = "flag"
    four: Literal["closed", "open"] = "closed"
    seven: Literal["plain", "barred"] = "plain"

    def features(self) -> tuple[str, ...]:
        """The OpenType features that draw these forms."""
        chosen = (
            ("cv01", self.one == "flag"),
            ("cv04", self.four == "open"),
            ("cv07", self.seven == "barred"),
        )
        return tuple(feature for feature, wanted in chosen if wanted)


PLAIN_NUMERALS = Numerals()
