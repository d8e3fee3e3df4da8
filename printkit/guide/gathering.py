"""What to gather for all trays, and the cautions that belong to it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from printkit.guide.blocks import Column, Row, items, paragraph, section, table
from printkit.guide.flow import Look, Strip, glued, spaced
from printkit.guide.laminating import LAMINATE
from printkit.guide.lines import say, say_all, say_count
from printkit.guide.sets import GuideSet, has_small_parts
from printkit.labels import length, sides
from printkit.texts import Catalogue


@dataclass(frozen=True, kw_only=True, slots=True)
class Total:
    """One kind of loose thing: how many the fullest tray takes, and how many all trays together."""

    what: str
    size: float
    most: int
    sum: int


def totals(sets: Sequence[GuideSet]) -> tuple[Total, ...]:
    """What all trays need; things of different sizes are different things."""
    found: dict[tuple[str, float], list[int]] = {}
    for item in sets:
        own: dict[tuple[str, float], int] = {}
        for need in item.needs:
            own[need.what, need.size] = own.get((need.what, need.size), 0) + need.count
        for key, count in own.items():
            found.setdefault(key, []).append(count)
    return tuple(
        Total(what=what, size=size, most=max(counts), sum=sum(counts))
        for (what, size), counts in found.items()
        if max(counts)
    )


def gathering(
    look: Look, sets: Sequence[GuideSet], units: str, texts: Catalogue, known: Mapping[str, int]
) -> tuple[Strip, ...]:
    """The section 'Gather'; `known` holds the page on which pouches are counted."""
    strips = [*section(look, say(texts, "guide.gather.title"), "gather")]
    found = totals(sets)
    if found:
        strips += spaced(paragraph(look, say(texts, "guide.gather.how")), 1.0)
        strips += _table(look, found, units, texts)
    largest = max(
        ((piece.width, piece.height) for item in sets for piece in item.own if piece.cut),
        key=lambda size: (max(size), min(size)),
        default=None,
    )
    words = [
        say(texts, "guide.gather.tools", page=known.get(LAMINATE, 1)),
        say_count(texts, "guide.gather.bags", len(sets)),
    ]
    if largest is not None:
        words.append(say(texts, "guide.gather.largest", size=sides(largest, units, texts)))
    if any(not piece.cut for item in sets for piece in item.own):
        words.append(say(texts, "guide.gather.folder"))
    strips += paragraph(look, " ".join(words), 4.0 if found else 1.0)
    return tuple(strips)


def _table(look: Look, found: Sequence[Total], units: str, texts: Catalogue) -> tuple[Strip, ...]:
    columns = (
        Column(title=say(texts, "guide.gather.thing")),
        Column(title=say(texts, "guide.gather.one_tray"), lean="right"),
        Column(title=say(texts, "guide.gather.all_trays"), lean="right"),
    )
    rows = [Row(cells=(_thing(total, units, texts), str(total.most), str(total.sum))) for total in found]
    return table(look, columns, rows, left=look.body_left, width=look.body, full=True)


def _thing(total: Total, units: str, texts: Catalogue) -> str:
    name = say(texts, f"guide.gather.things.{total.what}")
    if not total.size:
        return name
    return say(texts, "guide.gather.across", thing=name, size=length(total.size, units, texts))


def cautions(look: Look, sets: Sequence[GuideSet], units: str, texts: Catalogue) -> tuple[Strip, ...]:
    """The section 'Cautions': short, in plain words, leaving the law to the country's own rules."""
    strips = [*section(look, say(texts, "guide.cautions.title"), "cautions")]
    limit = length(32.0, units, texts)
    lines = say_all(texts, "guide.cautions.small", limit=limit) if has_small_parts(sets) else ()
    if any(need.what == "laces" for item in sets for need in item.needs):
        lines += say_all(texts, "guide.cautions.cords")
    if any(need.what == "pegs" for item in sets for need in item.needs):
        lines += say_all(texts, "guide.cautions.pegs")
    if any(item.tray.material == "outdoors" for item in sets):
        lines += say_all(texts, "guide.cautions.outdoors")
    lines += say_all(texts, "guide.cautions.always")
    return glued((*strips, *spaced(items(look, lines, left=0.0, width=look.wide), 1.0)), last=False)
