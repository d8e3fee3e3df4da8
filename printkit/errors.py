"""What is wrong with a request, as values; an error that carries all of them at once."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Problem:
    """One thing wrong: where, what was found, what is allowed, the nearest right word.

    `found` reads on after 'place: '; `allowed` after 'allowed: '; both without a full stop.
    """

    place: str
    found: str
    allowed: str = ""
    nearest: str = ""

    def __str__(self) -> str:
        sentence = f"{self.place}: {self.found}"
        if self.allowed:
            sentence += f"; allowed: {self.allowed}"
        if self.nearest:
            sentence += f"; did you mean '{self.nearest}'?"
        return sentence


class PrintkitError(Exception):
    """A request that cannot be met; holds every problem found, in order."""

    def __init__(self, problems: Iterable[Problem]):
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def nearest(word: str, words: Iterable[str]) -> str:
    """The word of `words` most like `word`, or '' if none is near."""
    import difflib

    known = {candidate.casefold(): candidate for candidate in words}
    close = difflib.get_close_matches(str(word).casefold(), known, n=1, cutoff=0.6)
    return known[close[0]] if close else ""


def listing(words: Iterable[object], last: str = "or") -> str:
    """'a, b or c'."""
    names = [str(word) for word in words]
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"
