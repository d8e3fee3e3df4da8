"""The plan in words and plain values: a table of 80 columns for `check`, values for JSON, reasons."""

from collections.abc import Callable, Iterator
from typing import Any

from printkit.planner.model import Move, Reason, Season, Week
from printkit.texts import Catalogue

WIDTH = 80
_LONGEST = 30
"""Columns for the name of a set, at most."""
NEW, STAYS, BACK, BASKET = "N", "x", "B", "."

Title = Callable[[str], str]
"""What a set of the child is called where it is told."""


def reason_words(reason: Reason, title: Title, texts: Catalogue) -> str:
    """Why a set comes or goes, as a sentence without its full stop."""
    key = f"weeks.reason.{reason.key}"
    if reason.key == "makes_room":
        key += "" if reason.others else "_alone"
    joined = ", ".join(title(name) for name in reason.others)
    return texts.say(key, area=texts.say(f"weeks.area.{reason.area}"), others=joined, n=reason.weeks)


def plan_values(season: Season, texts: Catalogue) -> list[dict[str, Any]]:
    """The plan for JSON: each child's weeks with the names of sets as the pack file has them."""
    return [
        {
            "child": item.child,
            "all_stay": item.all_stay,
            "calm_weeks": item.calm,
            "areas": dict(item.areas),
            "standing": list(item.standing),
            "weeks": [_week(week, texts) for week in item.weeks],
        }
        for item in season.children
    ]


def _week(week: Week, texts: Catalogue) -> dict[str, Any]:
    def moves(found: tuple[Move, ...]) -> list[dict[str, str]]:
        return [
            {"set": move.set, "why": reason_words(move.reason, lambda name: name, texts)} for move in found
        ]

    return {
        "week": week.number,
        "new": moves(week.new),
        "back": moves(week.back),
        "away": moves(week.away),
        "out": list(week.out),
    }


def plan_lines(values: list[dict[str, Any]]) -> Iterator[str]:
    """The table of `check`, from the values that JSON has: a row a set, a column a week."""
    if not any(item["weeks"] for item in values):
        return
    count = max(len(item["weeks"]) for item in values)
    yield "Week by week (N new, x out, B back again, . in the basket):"
    names = [name for item in values for name in item["areas"]]
    room = WIDTH - 4 - 3 * count
    wide = min(max(map(len, names), default=0), _LONGEST, room)
    for item in values:
        numbers = "".join(f"{number:>3}" for number in range(1, count + 1))
        yield f"  {_cut(item['child'], wide + 2):<{wide + 2}}{numbers}"
        for name in _in_order(item):
            signs = "".join(f"{sign:>3}" for sign in _signs(item, name))
            yield f"    {_cut(name, wide):<{wide}}{signs}"
        if item["all_stay"]:
            yield "    All of these fit on the shelf: once out, each stays out."
        if item["calm_weeks"]:
            yield (
                f"    These are many sets for {'one week' if count == 1 else f'{count} weeks'}: "
                f"weeks = {item['calm_weeks']} would be calmer, or fewer sets."
            )
    yield "  Why, and on which day: in the guide; with --json here too."


def _in_order(item: dict[str, Any]) -> list[str]:
    return [move["set"] for week in item["weeks"] for move in week["new"]]


def _signs(item: dict[str, Any], name: str) -> Iterator[str]:
    for week in item["weeks"]:
        if name in (move["set"] for move in week["new"]):
            yield NEW
        elif name in (move["set"] for move in week["back"]):
            yield BACK
        else:
            yield STAYS if name in week["out"] else BASKET


def _cut(name: str, wide: int) -> str:
    return name if len(name) <= wide else f"{name[: wide - 1]}…"
