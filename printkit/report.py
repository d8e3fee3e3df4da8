"""What a plan would make, in lines of plain words: the answer of `check`."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from printkit.errors import listing
from printkit.pack.sources import settings_lines
from printkit.planner.told import plan_lines
from printkit.texts import catalogue


def report(made: Mapping[str, Any]) -> Iterator[str]:
    """The lines for a `build.summary`: sets, files, paper, settings, notes, weeks."""
    yield made["title"]
    yield from (f"  {_set(item)}" for item in made["sets"])
    for item in made["files"]:
        sheets, cuts = _count("sheet", item["sheets"]), _count("cut", item["cuts"])
        yield f"  {item['file']}: {sheets} of {_stock(item)}, {cuts}"
    yield from _paper(made["paper"])
    settings = settings_lines(made["settings"])
    if settings:
        yield "  settings other than the usual ones, and where they stand:"
    yield from (f"    {line}" for line in settings)
    yield from (f"  note: {note}" for note in made["notes"])
    yield from plan_lines(made["weeks"])


def _set(item: Mapping[str, Any]) -> str:
    """'Wren: clip-cards: 5 pieces of 94 x 83.5 mm on card, ink about 5%; gather 5 clothespins'."""
    texts = catalogue("en")
    things = [texts.count(f"label.things.{what}", count) for what, count in item["gather"].items()]
    gather = f"; gather {listing(things, 'and')}" if things else ""
    return (
        f"{item['child']}: {item['set']}: {_count('piece', item['pieces'])} of {_sizes(item['size_mm'])} "
        f"on {_stock(item)}, ink about {item['ink']:.0%}{gather}"
    )


def _sizes(sizes: Sequence[tuple[float, float]]) -> str:
    """'62 x 88 mm'; of more than three sizes the smallest and the largest."""
    shown = list(dict.fromkeys(f"{round(width, 1):g} x {round(height, 1):g} mm" for width, height in sizes))
    if len(shown) > 3:
        ordered = sorted(sizes, key=lambda size: size[0] * size[1])
        small, large = (f"{round(wide, 1):g} x {round(high, 1):g} mm" for wide, high in (ordered[0], ordered[-1]))
        return f"{len(shown)} sizes from {small} to {large}"
    return listing(shown, "and")


def _paper(paper: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    sheets = dict.fromkeys(("card", "plain"), 0)
    for item in paper:
        count = _count("sheet", item["sheets"])
        yield f"  {item['child']}: {count} of {_stock(item)}; no layout needs fewer than {item['least']}"
        sheets[item["stock"]] += item["sheets"]
    card, plain = _count("sheet", sheets["card"]), sheets["plain"]
    yield f"  in all {card} of card, {plain} of plain paper, and the guide"


def _stock(item: Mapping[str, Any]) -> str:
    return {"card": "card", "plain": "plain paper"}[item["stock"]]


def _count(what: str, count: int) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"
