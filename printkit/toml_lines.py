"""The line on which each key of a TOML text stands; the standard reader does not tell.

The text must already have passed `tomllib`, so this walk only has to find its way.
"""

import re
import tomllib

Path = tuple[str | int, ...]

_SPACE = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_LITERAL = re.compile(r"[^,\]}\s#]+(?:[ ][0-9:.Z+-]+)?")
_STRINGS = (
    re.compile(r'"""(?:\\.|[^\\])*?"{3,5}', re.DOTALL),
    re.compile(r"'''.*?'{3,5}", re.DOTALL),
    re.compile(r'"(?:\\.|[^"\\\n])*"'),
    re.compile(r"'[^'\n]*'"),
)


def key_lines(text: str) -> dict[Path, int]:
    """The line (from 1) of every key and list item: ('children', 1, 'numbers') -> 23."""
    return _Walk(text.replace("\r\n", "\n")).document()


class _Walk:
    """A cursor over one text."""

    def __init__(self, text: str):
        self.text, self.at, self.lines = text, 0, {}
        self.counts: dict[Path, int] = {}

    def document(self) -> dict[Path, int]:
        here: Path = ()
        self.skip()
        while self.at < len(self.text):
            if self.text.startswith("[[", self.at):
                here = self.header(2)
            elif self.text[self.at] == "[":
                here = self.header(1)
            else:
                self.pair(here)
            self.skip()
        return self.lines

    def header(self, brackets: int) -> Path:
        line = self.line()
        self.at += brackets
        names = self.dotted()
        self.at += brackets
        here = (*self.inside((), names[:-1]), names[-1])
        if brackets == 2:
            number = self.counts.get(here, -1) + 1
            self.counts[here] = number
            here = (*here, number)
        else:
            here = self.inside((), names)
        self.lines.setdefault(here, line)
        return here

    def inside(self, base: Path, names: tuple[str, ...]) -> Path:
        """The path of `names`, going into the last table of each array of tables on the way."""
        for name in names:
            base = (*base, name)
            if base in self.counts:
                base = (*base, self.counts[base])
        return base

    def pair(self, here: Path) -> None:
        line = self.line()
        path = (*here, *self.dotted())
        self.lines.setdefault(path, line)
        self.at += 1
        self.skip()
        self.value(path)

    def value(self, path: Path) -> None:
        if self.text[self.at] == "[":
            self.items(path)
        elif self.text[self.at] == "{":
            self.inline(path)
        elif self.text[self.at] in "\"'":
            self.string()
        else:
            self.at = _LITERAL.match(self.text, self.at).end()

    def items(self, path: Path) -> None:
        self.at += 1
        number = 0
        self.skip()
        while self.text[self.at] != "]":
            self.lines[*path, number] = self.line()
            self.value((*path, number))
            number += 1
            self.skip()
            if self.text[self.at] == ",":
                self.at += 1
                self.skip()
        self.at += 1

    def inline(self, path: Path) -> None:
        self.at += 1
        self.skip()
        while self.text[self.at] != "}":
            self.pair(path)
            self.skip()
            if self.text[self.at] == ",":
                self.at += 1
                self.skip()
        self.at += 1

    def dotted(self) -> tuple[str, ...]:
        names = []
        while True:
            self.skip()
            if self.text[self.at] in "\"'":
                names.append(tomllib.loads(f"key = {self.string()}")["key"])
            else:
                word = _BARE.match(self.text, self.at)
                names.append(word.group())
                self.at = word.end()
            self.skip()
            if self.text[self.at] != ".":
                return tuple(names)
            self.at += 1

    def string(self) -> str:
        match = next(found for rule in _STRINGS if (found := rule.match(self.text, self.at)))
        self.at = match.end()
        return match.group()

    def skip(self) -> None:
        self.at = _SPACE.match(self.text, self.at).end()

    def line(self) -> int:
        return self.text.count("\n", 0, self.at) + 1
