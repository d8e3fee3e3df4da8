"""What a fill or stroke comes to: one color and alpha, gradients as the mean of their stops."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from printkit.pictures.colors import plain, rgb
from printkit.pictures.css import Reference, StyleSheet, Tint, length, paint, share, tint
from printkit.pictures.tree import Node

_FLAT = "with one flat color for each gradient"
_PATTERN = "without its pattern"
_UNSEEN: Tint = ((0.0,), 0.0)

Stop = tuple[float, float, float, float, float]  # offset, red, green, blue, alpha


@dataclass(kw_only=True, slots=True)
class Paints:
    """The style rules and named elements of a drawing; `notes` gathers what is drawn otherwise."""

    sheet: StyleSheet = field(default_factory=StyleSheet)
    by_id: dict[str, Node] = field(default_factory=dict)
    notes: set[str] = field(default_factory=set)

    def color(self, text: str, style: dict[str, str]) -> Tint | None:
        """Color and alpha of the value of fill or stroke; None when nothing is painted."""
        found = paint(text, _current(style))
        if not isinstance(found, Reference):
            return found
        node = self.by_id.get(found.id)
        if node is None:
            return found.otherwise
        if node.tag not in ("linearGradient", "radialGradient"):
            self.notes.add(_PATTERN)
            return found.otherwise
        self.notes.add(_FLAT)
        return _mean(self._stops(node))

    def _stops(self, gradient: Node) -> list[Stop]:
        """The stops of a gradient, or of the one it refers to if it has none of its own."""
        seen: set[str] = set()
        node: Node | None = gradient
        while node is not None:
            stops = [child for child in node.children if child.tag == "stop"]
            name = node.attributes.get("href", "")[1:]
            if stops or name in seen:
                return list(self._placed(stops))
            seen.add(name)
            node = self.by_id.get(name)
        return []

    def _placed(self, stops: list[Node]) -> Iterator[Stop]:
        last = 0.0
        for stop in stops:
            own = self.sheet.own(stop)
            last = max(last, min(1.0, length(stop.attributes.get("offset"), 0.0, 1.0)))
            color, alpha = tint(own.get("stop-color", "black"), _current(own)) or _UNSEEN
            yield last, *rgb(color), alpha * share(own.get("stop-opacity"))


def _current(style: dict[str, str]) -> Tint:
    return tint(style.get("color", "black")) or _UNSEEN


def _mean(stops: list[Stop]) -> Tint | None:
    """The mean color and alpha along the whole length of a gradient."""
    if not stops:
        return None
    whole = [(0.0, *stops[0][1:]), *stops, (1.0, *stops[-1][1:])]
    total = [0.0] * 4
    for (start, *here), (end, *there) in zip(whole, whole[1:], strict=False):
        for i, (one, two) in enumerate(zip(here, there, strict=True)):
            total[i] += (end - start) * (one + two) / 2
    return plain(tuple(round(part, 4) for part in total[:3])), round(total[3], 4)
