"""The digits that a family teaches, the forms of 1, 4 and 7, and letters of its own to trace."""

from dataclasses import dataclass
from typing import Literal

WESTERN = "0123456789"


@dataclass(frozen=True, kw_only=True, slots=True)
class Numerals:
    """How 1, 4 and 7 are drawn. Andika has each form as a character variant (see fonts/README.md).

    `digits` are the ten digits from zero up that numbers are written with; the forms of 1, 4 and 7
    are those of the western ones. `strokes` are stroke letters that replace ours in tracing, as
    (character, line of data) in the form of `letters.strokes`.
    """

    one: Literal["flag", "foot"] = "flag"
    four: Literal["closed", "open"] = "closed"
    seven: Literal["plain", "barred"] = "plain"
    digits: str = WESTERN
    strokes: tuple[tuple[str, str], ...] = ()

    def features(self) -> tuple[str, ...]:
        """The OpenType features that draw these forms."""
        chosen = (
            ("cv01", self.one == "flag"),
            ("cv04", self.four == "open"),
            ("cv07", self.seven == "barred"),
        )
        return tuple(feature for feature, wanted in chosen if wanted)

    def written(self, text: str) -> str:
        """A number of western digits in the digits that are taught; any other text as it is."""
        if self.digits == WESTERN or not (text.isascii() and text.isdecimal()):
            return text
        return "".join(self.digits[int(char)] for char in text)


PLAIN_NUMERALS = Numerals()
