"""Packs and their guides for these tests: made once, read back by a foreign reader."""

import io
from functools import cache

import pypdf
from strategies import PLAIN_THEME, read

from printkit.build import Plan, plan
from printkit.guide import guide_pages
from printkit.sheets.model import Page
from printkit.writer import write

SUMMER = {
    "title": "Rock pool summer",
    "theme": PLAIN_THEME,
    "flip": {"plain": "long", "card": "hand"},
    "children": [
        {
            "name": "Wren",
            "numbers": [1, 5],
            "hand": "left",
            "languages": ["en", "pt-PT"],
            "materials": [
                "counting-cards",
                {"make": "counting-cards", "set": "count out", "things": "places", "layout": "back"},
                "clip-cards",
                "odd-one-out",
                "tracing",
            ],
        },
        {
            "name": "Juno",
            "numbers": [6, 9],
            "sums_to": 10,
            "materials": [
                {"make": "counting-cards", "set": "count out", "things": "places", "layout": "pair"},
                {"make": "clip-cards", "choices": 4},
                {"make": "strips", "set": "take away", "operation": "subtract", "count": 6},
                {"make": "odd-one-out", "form": "sheet", "stock": "plain"},
            ],
        },
    ],
}
"""Two children with every material; backs fed by hand, and sheets of both stocks."""


@cache
def summer(paper: str = "a4", units: str = "mm", flip: str = "", ink: str = "color") -> Plan:
    """The summer pack, planned; a `flip` holds for both stocks."""
    keys = {"paper": paper, "units": units, "ink": ink} | ({"flip": flip} if flip else {})
    return plan(read({**SUMMER, **keys}))


def pages_of(made: Plan) -> tuple[Page, ...]:
    """The pages of the guide of a plan."""
    return guide_pages(made.pack, made.sets, made.files)


def texts_of(pages: tuple[Page, ...]) -> list[str]:
    """What a foreign reader finds on each page, spaces and breaks as single spaces."""
    data = write(pages, title="guide", language="en").data
    reader = pypdf.PdfReader(io.BytesIO(data), strict=True)
    return [" ".join(page.extract_text().split()) for page in reader.pages]


def whole_text(made: Plan) -> str:
    """The text of a whole guide."""
    return " ".join(texts_of(pages_of(made)))
