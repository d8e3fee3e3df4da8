"""The <style> rules of a drawing, and what they say of an element.

Read: elements, .class, #id, *, several of them together, lists, and inside (a b) or right inside (a > b).
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from printkit.pictures.css import PROPERTIES, Style, declared, without_comments
from printkit.pictures.tree import Node, UnusableError

MAX_STYLE = 100_000
MAX_VALUE = 2_000
MAX_RULES = 2_000
# Rules that look at the elements around one are tried one after the other, this often in all.
MAX_TRIES = 30_000

_COMPOUND = re.compile(r"(\*|[A-Za-z][\w-]*)?((?:[.#][\w-]+)*)")
_MARK = re.compile(r"[.#][\w-]+")
_STEP = re.compile(r"\s*(>)\s*|\s+")


_BRACE = re.compile(r"[{}]")
# Where a rule's selectors end, or a statement such as @import.
_MARKED = re.compile(r"[;{]")
# Blocks that change nothing on white paper.
_UNSHOWN = re.compile(r"@(font-face|(-\w+-)?keyframes|page|media.*(dark|hover|motion|max-|min-))", re.DOTALL)


@dataclass(frozen=True, slots=True)
class _Compound:
    """What one element must be: its tag ('' for any), its classes and id; how it lies in the one before."""

    tag: str
    classes: frozenset[str]
    id: str
    child: bool = False

    def fits(self, node: Node) -> bool:
        return (
            self.tag in ("", node.tag)
            and (not self.id or node.attributes.get("id") == self.id)
            and self.classes.issubset(node.classes)
        )


@dataclass(frozen=True, slots=True, order=True)
class _Said:
    """A value and what it yields to: heavier selectors, then later ones."""

    weight: tuple[int, int, int]
    number: int
    value: str


@dataclass(frozen=True, slots=True)
class _Rule:
    """A selector of several steps, with what it says."""

    steps: tuple[_Compound, ...]
    said: dict[str, _Said]


@dataclass(slots=True)
class StyleSheet:
    """The rules of a drawing's <style> elements.

    `simple` holds, by '.class', '#id', element or '*', and then by the element asked for ('' for any),
    what is said last of each property; `others` the rules that ask for more, by one of their marks.
    """

    simple: dict[str, dict[str, dict[str, _Said]]] = field(default_factory=dict)
    others: dict[str, list[_Rule]] = field(default_factory=dict)
    unread: bool = False
    _count: int = 0
    _tries: int = 0
    _known: dict[int, Style] = field(default_factory=dict)

    def add(self, text: str) -> None:
        """Read one <style> element; selectors of other kinds are left and remembered in `unread`."""
        if len(text) > MAX_STYLE:
            raise UnusableError("the drawing's style sheet is too long", f"at most {MAX_STYLE // 1000} kB")
        for selectors, body in self._blocks(without_comments(text)):
            declarations = declared(body)
            for selector in selectors.split(","):
                self._add_rule(selector.strip(), declarations)

    def _blocks(self, text: str) -> Iterator[tuple[str, str]]:
        """Selectors and what they say; of what starts with @ nothing is read, and nothing is followed."""
        place = 0
        while match := _MARKED.search(text, place):
            before = text[place : match.start()].strip()
            if match[0] == ";":
                place = match.end()
                continue
            if not before.startswith("@"):
                place = text.find("}", match.end()) % (len(text) + 1)
                yield before, text[match.end() : place]
                place += 1
                continue
            place = _block_end(text, match.end())
            self.unread = self.unread or not _UNSHOWN.match(before)

    def _add_rule(self, selector: str, declarations: Style) -> None:
        steps = _steps(selector)
        if not steps:
            self.unread = self.unread or bool(declarations)
            return
        weight = (
            sum(bool(step.id) for step in steps),
            sum(len(step.classes) for step in steps),
            sum(bool(step.tag) for step in steps),
        )
        self._count += 1
        if self._count > MAX_RULES:
            raise UnusableError("the drawing has too many style rules", f"at most {MAX_RULES:,}")
        said = {name: _Said(weight, self._count, value) for name, value in declarations.items()}
        last = steps[-1]
        marks = [*("." + name for name in sorted(last.classes)), *(["#" + last.id] if last.id else [])]
        if len(steps) == 1 and len(marks) < 2:
            key = marks[0] if marks else last.tag or "*"
            self.simple.setdefault(key, {}).setdefault(last.tag, {}).update(said)
        else:
            self.others.setdefault(marks[-1] if marks else last.tag or "*", []).append(_Rule(steps, said))

    def own(self, node: Node) -> Style:
        """What the element itself says: attributes, then rules by weight, then its style attribute."""
        known = self._known.get(id(node))
        if known is None:
            known = self._known[id(node)] = self._own(node)
        return known

    def _own(self, node: Node) -> Style:
        own = {key: value for key, value in node.attributes.items() if key in PROPERTIES}
        if self.simple or self.others:
            own |= self._ruled(node)
        if "style" in node.attributes:
            own |= declared(node.attributes["style"])
        for name, value in (*own.items(), ("class", node.attributes.get("class", ""))):
            if len(value) > MAX_VALUE:
                raise UnusableError(
                    f"the drawing holds a {name} that is too long", f"at most {MAX_VALUE:,} characters"
                )
        return own

    def _ruled(self, node: Node) -> Style:
        """What the rules say of an element."""
        keys = ["*", node.tag, *("." + name for name in node.classes)]
        keys.append("#" + node.attributes.get("id", ""))
        best: dict[str, _Said] = {}
        for key in dict.fromkeys(keys):
            for tag in ("", node.tag):
                _yield_to(best, self.simple.get(key, {}).get(tag, {}))
            for rule in self.others.get(key, ()):
                self._tries += 1
                if self._tries > MAX_TRIES:
                    raise UnusableError("the drawing's style rules take too long to follow")
                if _applies(rule.steps, node):
                    _yield_to(best, rule.said)
        return {name: said.value for name, said in best.items()}


def _block_end(text: str, place: int) -> int:
    """Where a block ends that was opened before `place`, with the blocks within it."""
    depth = 1
    while depth and (match := _BRACE.search(text, place)):
        depth += 1 if match[0] == "{" else -1
        place = match.end()
    return len(text) if depth else place


def _yield_to(best: dict[str, _Said], said: dict[str, _Said]) -> None:
    for name, value in said.items():
        best[name] = max(value, best.get(name, value))


def _steps(selector: str) -> tuple[_Compound, ...]:
    """The steps of a selector from the outermost in; none for one that cannot be read."""
    parts = _STEP.split(selector)
    steps = []
    for text, child in zip(parts[::2], [None, *parts[1::2]], strict=True):
        match = _COMPOUND.fullmatch(text)
        if not text or match is None:
            return ()
        marks = _MARK.findall(match[2])
        ids = {mark[1:] for mark in marks if mark[0] == "#"}
        if len(ids) > 1:
            return ()
        tag = "" if match[1] in (None, "*") else match[1]
        classes = frozenset(mark[1:] for mark in marks if mark[0] == ".")
        steps.append(_Compound(tag, classes, "".join(ids), child is not None))
    return tuple(steps)


def _applies(steps: tuple[_Compound, ...], node: Node) -> bool:
    """Whether the element is the last step and lies in others as the steps before ask."""
    if not steps[-1].fits(node):
        return False
    places = [node]
    for outer, inner in zip(reversed(steps[:-1]), reversed(steps[1:]), strict=True):
        places = [around for place in places for around in _around(place, inner.child) if outer.fits(around)]
        # The innermost that fits leaves the most room; of it and those further out each counts once.
        places = list({id(place): place for place in places}.values())
        if not places:
            return False
    return True


def _around(node: Node, only_parent: bool) -> Iterable[Node]:
    parent = node.parent
    while parent is not None:
        yield parent
        if only_parent:
            return
        parent = parent.parent
