"""Whose shelf, which season, on what paper: the keys of the pack and of its children."""

from collections.abc import Iterable, Sequence
from typing import Any

from flask import request
from werkzeug.wrappers import Response

from printkit.pack.keys import KEYS, child_checks, pack_checks
from printkit.web import edits
from printkit.web.fields import Field, Level, changes_of, fields_of
from printkit.web.telling import Told
from printkit.web.views import common
from printkit.web.views.common import Opened

EVERYONE = ("languages", "guide", "words")
CHILD = ("name", "numbers", "sums_to", "languages", "hand", "lookalike", "needs")
SEASON = ("title", "theme", "weeks")
PAPER = ("paper", "ink", "flip", "counter", "margin", "back_shift")
_ELSEWHERE = {*EVERYONE, *CHILD, *SEASON, *PAPER, "letters"}
PAPER_MORE = (*(key for key in KEYS if key not in _ELSEWHERE), "letters", "seed")
"""Every other key has its place too: a new one comes up here by itself."""


def _level(now: Opened, child: int | None = None) -> Level:
    spoken = common.words()
    if child is None:
        return Level(path=(), table=now.table, above=now.above_pack, words=spoken, tags=common.tags())
    return Level(
        path=("children", child), table=now.child(child),
        above=now.above_children(now.child(child).get("name")), words=spoken,
        tags=common.tags(),
    )  # fmt: skip


def pack_fields(now: Opened, keys: Iterable[str], posted: Any = None) -> tuple[Field, ...]:
    """Fields of keys at the top of the pack file."""
    return fields_of(keys, pack_checks(), _level(now), posted)


def child_fields(now: Opened, child: int, posted: Any = None) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
    """A child's usual fields, and those in which it may differ from the pack."""
    level, known = _level(now, child), child_checks()
    more = ["start", *(key for key in KEYS if key not in CHILD)]
    return fields_of(CHILD, known, level, posted), fields_of(more, known, level, posted)


def paths(fields: Iterable[Field]) -> list[edits.Path]:
    """Where problems of some fields may lie."""
    return [path for field in fields for path in field.paths]


def _save(now: Opened, fields: Sequence[Field], table: Any, others: Iterable[Field] = ()) -> Told | None:
    changes = changes_of(fields, request.form, table)
    return common.changed(now, changes, paths([*fields, *others])) if changes else None


def _onward(here: str, after: str, name: str) -> Response:
    """After saving: on to the next station if the button said so."""
    return common.back(after if request.form.get("then") == "next" else here, name=name)


# --- whose shelf -----------------------------------------------------------------------------


@common.routes.get("/p/<name>/")
def pack(name: str) -> Response:
    """A pack's first page is its shelf."""
    common.opened(name)
    return common.back("trays", name=name)


def _children(now: Opened, refused: Told | None = None, posted: int | None = None) -> Response:
    forms = [
        child_fields(now, number, request.form if posted == number else None)
        for number in range(len(now.children))
    ]
    everyone = pack_fields(now, EVERYONE, request.form if posted == -1 else None)
    status = 422 if refused else 200
    return common.pack_page(
        "children.html", now, "children", status=status, refused=refused, forms=forms, everyone=everyone,
        typed=request.form if posted == -2 else {},
    )  # fmt: skip


@common.routes.get("/p/<name>/children")
def children(name: str) -> Response:
    """Every child as a form, and the family's languages."""
    return _children(common.opened(name))


@common.routes.post("/p/<name>/children")
def save_everyone(name: str) -> Response:
    """Saves what holds for everyone."""
    now = common.current(name)
    refused = _save(now, pack_fields(now, EVERYONE, request.form), now.table)
    return _children(now, refused, -1) if refused else common.back("children", name=name)


@common.routes.post("/p/<name>/children/<int:child>")
def save_child(name: str, child: int) -> Response:
    """Saves one child."""
    now = common.current(name)
    usual, more = child_fields(now, child, request.form)
    others = [field for number in range(len(now.children)) for field in child_fields(now, number)[0]]
    refused = _save(now, [*usual, *more], now.child(child), others)
    return _children(now, refused, child) if refused else common.back("children", name=name)


@common.routes.post("/p/<name>/children/add")
def add_child(name: str) -> Response:
    """One more child, with a first tray."""
    now = common.current(name)
    called = request.form.get("name", "").strip()
    numbers = [request.form.get("numbers.0", "1"), request.form.get("numbers.1", "5")]
    table = {
        "name": called,
        "numbers": [int(text) if text.strip().isdigit() else text for text in numbers],
        "materials": ["counting-cards"],
    }
    number = len(now.children)
    spots: list[edits.Path] = [("children", number, "name"), ("children", number, "numbers")]
    refused = common.save(now, lambda data: edits.child_added(data, table), spots)
    return _children(now, refused, -2) if refused else common.back("children", name=name)


@common.routes.post("/p/<name>/children/<int:child>/remove")
def remove_child(name: str, child: int) -> Response:
    """Takes a child and its trays out of the pack; the last one stays."""
    now = common.current(name)
    now.child(child)
    refused = common.save(now, lambda data: edits.child_removed(data, child))
    return _children(now, refused) if refused else common.back("children", name=name)


# --- which season ----------------------------------------------------------------------------


def _season(now: Opened, refused: Told | None = None, posted: bool = False, **values: Any) -> Response:
    from printkit.web.views.pictures import own_themes

    fields = pack_fields(now, SEASON, request.form if posted else None)
    return common.pack_page(
        "season.html", now, "season", status=values.pop("status", 422 if refused else 200), refused=refused,
        fields=fields, own=[name for name in own_themes() if name != now.source.name], **values,
    )  # fmt: skip


@common.routes.get("/p/<name>/season")
def season(name: str) -> Response:
    """The title, and the themes by their pictures."""
    return _season(common.opened(name))


@common.routes.post("/p/<name>/season")
def save_season(name: str) -> Response:
    """Saves title and theme."""
    now = common.current(name)
    refused = _save(now, pack_fields(now, SEASON, request.form), now.table)
    return _season(now, refused, True) if refused else _onward("season", "trays", name)


# --- what paper ------------------------------------------------------------------------------


def _paper(now: Opened, refused: Told | None = None, posted: bool = False) -> Response:
    form = request.form if posted else None
    return common.pack_page(
        "paper.html", now, "paper", status=422 if refused else 200, refused=refused,
        fields=pack_fields(now, PAPER, form), more=pack_fields(now, PAPER_MORE, form),
    )  # fmt: skip


@common.routes.get("/p/<name>/paper")
def paper(name: str) -> Response:
    """The paper, the printer and the counters."""
    return _paper(common.opened(name))


@common.routes.post("/p/<name>/paper")
def save_paper(name: str) -> Response:
    """Saves paper, printer and counters."""
    now = common.current(name)
    refused = _save(now, pack_fields(now, (*PAPER, *PAPER_MORE), request.form), now.table)
    return _paper(now, refused, True) if refused else _onward("paper", "printing", name)


@common.routes.get("/p/<name>/printer-test.pdf")
def printer_test(name: str) -> Response:
    """The page that shows scale, margins and the shift of backs, for this pack's paper, in the page's language."""
    from printkit.printer_test import printer_test_pdf

    now = common.opened(name)
    paper = now.pack.paper if now.pack else (210.0, 297.0)
    flip = now.pack.children[0].child.flip.plain if now.pack else "long"
    spoken = common.words().materials.language
    data = printer_test_pdf(list(paper), flip if flip != "none" else "long", spoken)
    answer = common.current_app.make_response(data)
    answer.mimetype = "application/pdf"
    return answer


# --- the family's own pictures ---------------------------------------------------------------


@common.routes.post("/p/<name>/own-theme")
def own_theme(name: str) -> Response:
    """Takes pictures; tells by file what is wrong with those that cannot be used."""
    from printkit.web.own_pictures import Sent, take
    from printkit.web.safety import MOST_FILE

    now = common.current(name)
    sent = [file for file in request.files.getlist("files") if file.filename]
    files = []
    for file in sent:
        data = file.stream.read(MOST_FILE + 1)
        files.append(Sent(name=file.filename or "", data=data if len(data) <= MOST_FILE else None))
        file.close()
    if not files:
        return common.back("season", name=name)
    languages = now.table.get("languages")
    tags = [tag for tag in languages if isinstance(tag, str)] if isinstance(languages, list) else ["en"]
    taken = take(common.folder(), request.form.get("called", "").strip(), files, tags)
    return _season(now, taken=taken, status=200 if taken.theme else 422)
