"""The ladder of writing: ways to follow, big numerals, words on ruled lines, lower lines, less to trace.

Heights and the order are a design choice between the conventions named.
"""

from collections.abc import Mapping
from typing import Any

from printkit.ladder import expectations as is_asked
from printkit.ladder.rungs import Expectation, Fact, Rung, made

TRACK = "writing"
_KINDS = ("lines", "waves", "corners")
_WAYS = {"kinds": _KINDS, "width": 10.0}
"""The ways that stay on the shelf once letters have begun."""


def _way(name: str, kinds: int, width: float, *expectation: Expectation) -> Rung:
    """Ways to follow, `width` mm broad, so many kinds of them."""
    given = {"kinds": _KINDS[:kinds], "width": width}
    return made(TRACK, name, expectation, frozenset(_ways_met(given)), {}, {"paths": given})


def _ways_met(given: Mapping[str, Any]) -> set[Fact]:
    return {("follows", kind) for kind in given["kinds"]} | {("way", given["width"])}


def _traced(name: str, tracing: Mapping[str, Any], *expectation: Expectation, numeral: str = "trace") -> Rung:
    """Numerals and words to trace; on dice sheets the `numeral` is traced or written."""
    met = {("line height", tracing.get("line_most") or tracing["line_height"])} | _ways_met(_WAYS)
    met |= {("help", manner) for manner in tracing.get("fade", ()) if manner != "solid"}
    met |= {("numerals", "alone")} if numeral == "write" else set()
    settings = {"paths": _WAYS, "tracing": tracing, "dice-write": {"numeral": numeral}}
    return made(TRACK, name, expectation, frozenset(met), {}, settings)


def _lines(height: float, *fade: str) -> dict[str, Any]:
    """Ruled lines of `height` mm; without `fade` a model at both ends and dashed words to trace."""
    return {"form": "strips", "line_most": height} | ({"fade": fade} if fade else {})


RUNGS = (
    _way("straight-ways", 1, 16.0, is_asked.GRIP),
    _way("wavy-ways", 2, 16.0, is_asked.GRIP),
    _way("ways-with-corners", 3, 16.0, is_asked.GRIP),
    _way("narrow-ways", 3, 10.0, is_asked.GRIP),
    _traced("big-numerals", {"form": "card", "line_height": 80.0}, is_asked.SOME_NUMERALS),
    _traced("words-at-24", _lines(24.0), is_asked.WIDE_LINES),
    _traced("words-at-18", _lines(18.0), is_asked.WIDE_LINES, is_asked.SOME_NUMERALS),
    _traced("words-at-14", _lines(14.0), is_asked.LINES_13, is_asked.DIGITS),
    _traced("dotted-words", _lines(14.0, "solid", "dotted"), is_asked.DIGITS),
    _traced("start-dots", _lines(14.0, "solid", "dotted", "starts"), is_asked.DIGITS),
    _traced(
        "numerals-alone", _lines(14.0, "solid", "dotted", "starts"),
        is_asked.DIGITS, is_asked.ZERO, numeral="write",
    ),
    _traced(
        "words-alone", _lines(14.0, "solid", "dotted", "starts", "empty"),
        is_asked.DIGITS, numeral="write",
    ),
    _traced(
        "words-at-10", _lines(10.0, "solid", "dotted", "starts", "empty"),
        is_asked.SHORT_5, is_asked.SIZE_OF_LETTERS, numeral="write",
    ),
)  # fmt: skip
