"""What the calendar tells the guide and the labels."""

from collections.abc import Sequence
from typing import Any

from printkit.materials.calendar.names import names_a_region
from printkit.materials.guidance import Guidance, Holding, Say, Spelled, when
from printkit.pack import Tray
from printkit.pieces import Piece


def _about(tray: Tray, say: Say) -> str:
    settings = tray.settings
    if settings.month is None:
        return say("label.calendar.plain")
    return say("label.calendar.dated", month=say(f"label.months.{settings.month}"), year=settings.year)


def _variants(tray: Tray) -> tuple[str, ...]:
    marked, dated = bool(tray.settings.marks), tray.settings.month is not None
    return when(**{"dated-marked": dated and marked, "dated": dated, "marked": marked})


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    boards = [piece for piece in pieces if getattr(piece.facts, "kind", "") == "board"]
    names = [getattr(piece.facts, "names", ()) for piece in pieces]
    return Holding(
        variants=_variants(tray),
        notes=when(
            region=tray.settings.region is None and not names_a_region(tray.child.languages[0]),
            parts=len(boards) > 1,
            film=True,
            marks=bool(tray.settings.marks),
            languages=any(len(each) > 1 for each in names),
        ),
    )


def _examples(facts: Sequence[Any], spelled: Spelled) -> dict[str, str]:
    """`weekday` and `following`: the first two weekdays of the week, as the labels name them."""
    named = [next(iter(fact.names.values())) for fact in facts if fact.kind == "weekday"]
    return (
        {"weekday": named[0], "following": named[1]} if len(named) > 1 else {"weekday": "", "following": ""}
    )


GUIDANCE = Guidance(about=_about, holding=_holding, examples=_examples)
