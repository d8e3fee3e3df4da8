"""What every page needs: the pack it is about, the words it speaks, saving with its refusals."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from flask import Blueprint, abort, current_app, g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from printkit.errors import PrintkitError, Problem
from printkit.files import same_name
from printkit.journal import Entry, journal_file, read_journal
from printkit.ladder import rungs
from printkit.pack import Pack, Tray
from printkit.pack.family import FAMILY
from printkit.pack.keys import KEYS, key_defaults
from printkit.web import edits
from printkit.web.fields import Option
from printkit.web.folder import ChangedMeanwhileError, Folder, Source
from printkit.web.making import Makers
from printkit.web.telling import NOTHING, Told, path_of, told
from printkit.web.words import PageWords, page_languages, page_words
from printkit.web.workshop import Workshop

STATIONS = ("children", "season", "trays", "paper", "print", "watch")
_ENDPOINTS = {"print": "printing"}
COOKIE = "language"
routes = Blueprint("page", __name__)
"""Every page; the modules beside this one add theirs."""


def folder() -> Folder:
    found: Folder = current_app.config["FOLDER"]
    return found


def workshop() -> Workshop:
    found: Workshop = current_app.config["WORKSHOP"]
    return found


def makers() -> Makers:
    found: Makers = current_app.config["MAKERS"]
    return found


def words() -> PageWords:
    """The page's words: chosen by hand, else as the browser asks."""
    if "words" not in g:
        known = page_languages()
        chosen = request.cookies.get(COOKIE, "")
        wished = chosen if chosen in known else request.accept_languages.best_match(known, "en")
        g.words = page_words(wished or "en")
    found: PageWords = g.words
    return found


@dataclass(frozen=True, kw_only=True, slots=True)
class Shelf:
    """A list of materials in a pack file: a child's own, that of some who share, or one for all."""

    path: edits.Path
    name: str
    table: dict[str, Any]

    @property
    def listed(self) -> list[Any]:
        listed = self.table.get("materials")
        return listed if isinstance(listed, list) else []


@dataclass(frozen=True, kw_only=True, slots=True)
class Opened:
    """A pack file as it stands: its plain values, and the pack if nothing is wrong with it.

    `home` is what the family's file says, which holds where the pack file says nothing.
    """

    source: Source
    table: dict[str, Any]
    home: dict[str, Any]
    pack: Pack | None
    problems: tuple[Problem, ...]

    @property
    def children(self) -> list[dict[str, Any]]:
        return _tables(self.table.get("children"))

    @property
    def names(self) -> list[str]:
        """Whom the pack is made for, as far as can be told."""
        if self.pack is not None:
            return [child.name for child in self.pack.people]
        return [str(child.get("name", "?")) for child in self.children]

    def child(self, number: int) -> dict[str, Any]:
        """A child's table; not found if there is no such child."""
        if number >= len(self.children):
            abort(404)
        return self.children[number]

    @property
    def shelves(self) -> list[Shelf]:
        """The children's shelves in the order of the file, then those that are shared."""
        own = [
            Shelf(path=("children", number), name=str(table.get("name", "?")), table=table)
            for number, table in enumerate(self.children)
        ]
        shared = self.table.get("shared")
        paths: list[tuple[edits.Path, dict[str, Any]]] = (
            [(("shared",), shared)]
            if isinstance(shared, dict)
            else [(("shared", number), table) for number, table in enumerate(_tables(shared))]
        )
        several = [
            Shelf(path=path, name=str(table.get("name") or _together(table.get("with"))), table=table)
            for path, table in paths
        ]
        everyone = (
            [Shelf(path=(), name=_together(None), table=self.table)] if "materials" in self.table else []
        )
        return [*own, *several, *everyone]

    def shelf(self, number: int) -> Shelf:
        """A shelf; not found if there is no such one."""
        found = self.shelves
        if number >= len(found):
            abort(404)
        return found[number]

    def tray(self, number: int, place: int) -> Tray | None:
        """The checked tray at a place of a shelf; None where the file has problems."""
        path = (*self.shelf(number).path, "materials", place)
        trays = (tray for item in (self.pack.children if self.pack else ()) for tray in item.trays)
        return next((tray for tray in trays if path_of(tray.place()) == path), None)

    @property
    def above_pack(self) -> dict[str, Any]:
        """What holds where the pack file says nothing."""
        return key_defaults() | _keys(self.home)

    def above_children(self, name: Any) -> dict[str, Any]:
        """What holds for a child that sets nothing itself."""
        at_home = next(
            (child for child in _tables(self.home.get("children")) if child.get("name") == name), {}
        )
        return self.above_pack | _keys(at_home) | _keys(self.table)

    def above_trays(self, number: int) -> dict[str, Any]:
        """What holds for a tray that sets nothing itself."""
        shelf = self.shelf(number)
        return self.above_children(shelf.table.get("name")) | _keys(shelf.table)


def _tables(value: Any) -> list[dict[str, Any]]:
    return [item for item in value if isinstance(item, dict)] if isinstance(value, list) else []


def _keys(table: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in table.items() if key in KEYS}


def _together(names: Any) -> str:
    """'Wren and Juno'; everyone if none are named."""
    if isinstance(names, list) and names:
        return words().say("trays.sharing", names=", ".join(map(str, names)))
    return words().say("children.everyone")


def opened(name: str) -> Opened:
    """The pack of that name, checked; not found if the folder has none."""
    now = written(name)
    try:
        return replace(now, pack=workshop().pack(now.source.path, now.source.data))
    except PrintkitError as error:
        return replace(now, problems=error.problems)


def written(name: str) -> Opened:
    """What a pack file says, without looking whether it is right; not found if there is none."""
    source = folder().read(name)
    if source is None:
        abort(404)
    try:
        table = edits.plain(source.data)
    except (ValueError, RecursionError):
        table = {}
    return Opened(source=source, table=table, home=_home(), pack=None, problems=())


def _home() -> dict[str, Any]:
    """What the family's file says, as far as it can be read; its faults are told with the pack's."""
    try:
        return edits.plain((folder().root / FAMILY).read_bytes())
    except (OSError, ValueError, RecursionError):
        return {}


def page(template: str, status: int = 200, **values: Any) -> Response:
    """A page in the words of whoever looks at it."""
    spoken = words()
    own: dict[str, Any] = {
        "words": spoken,
        "say": spoken.say,
        "token": g.token,
        "languages": page_languages(),
        "stations": (),
        "told": NOTHING,
        "gathered": gathered,
    }
    body = render_template(template, **(own | values))
    return current_app.make_response((body, status))


def pack_page(
    template: str, now: Opened, station: str, *, status: int = 200, refused: Told | None = None, **values: Any
) -> Response:
    """A page of a pack: with the stations of the way, and what is wrong with the file or the wish."""
    if now.problems and not now.table:
        return page("broken.html", 200, now=now, station=station, title=title(now), stations=stations(now))
    return page(
        template,
        status,
        now=now,
        name=now.source.name,
        version=now.source.version,
        title=title(now),
        station=station,
        stations=stations(now),
        told=refused or NOTHING,
        refused=refused is not None,
        **({"themes": themes()} | values),
    )


def gathered(things: Any) -> str:
    """'20 counters, 3 pencils', in the words of the labels."""
    texts = words().materials
    said = []
    for what, count in dict(things).items():
        form = f"label.things.{what}.{'one' if count == 1 else 'other'}"
        said.append(texts.say(form, n=count) if texts.has(form) else f"{count} {what}")
    return ", ".join(said)


def ladders(options: Sequence[Option]) -> list[tuple[str, list[Option]]]:
    """The rungs to choose from, ladder by ladder, each with its name."""
    track = {rung.name: rung.track for rung in rungs()}
    texts = words().materials if words().materials.has("next.tracks") else page_words("en").materials
    found: dict[str, list[Option]] = {}
    for option in options:
        found.setdefault(track[option.value], []).append(option)
    return [(texts.say(f"next.tracks.{name}"), several) for name, several in found.items()]


def title(now: Opened) -> str:
    said = now.table.get("title")
    return said if isinstance(said, str) and said.strip() else now.source.name


def stations(now: Opened) -> list[dict[str, str]]:
    """The stations with what was decided there."""
    return [
        {
            "name": name,
            "href": link(_ENDPOINTS.get(name, name), name=now.source.name),
            "label": words().say(f"stations.{name}"),
            "answer": _answer(name, now),
        }
        for name in STATIONS
    ]


def _answer(station: str, now: Opened) -> str:
    spoken = words()
    match station:
        case "children":
            return ", ".join(now.names)
        case "season":
            theme = now.table.get("theme", now.above_pack["theme"])
            return theme_title(theme)
        case "trays":
            count = sum(len(shelf.listed) for shelf in now.shelves)
            return spoken.count("trays.count", count)
        case "paper":
            paper = now.table.get("paper", now.above_pack["paper"])
            ink = now.table.get("ink", now.above_pack["ink"])
            named = paper if isinstance(paper, str) else "own"
            return f"{spoken.word(named, 'paper')}, {spoken.word(ink, 'ink') if isinstance(ink, str) else ''}"
        case "watch":
            return spoken.count("watch.count", len(notes_of(now)))
    job = makers().of(now.source.name)
    return spoken.say(f"print.short_{job.state}") if job else spoken.say("print.short_none")


def themes() -> list[tuple[str, str]]:
    """The built-in themes and their titles."""
    return [(name, theme_title(name)) for name in _titles()]


def notes_of(now: Opened) -> tuple[Entry, ...]:
    """The notes about the children of a pack, as far as the journal can be read."""
    try:
        entries = read_journal(journal_file(now.source.path)).entries
    except (PrintkitError, OSError):
        return ()
    return tuple(entry for entry in entries if any(same_name(entry.child, name) for name in now.names))


def theme_title(name: Any) -> str:
    """A theme's title in the page's language, read from its description only."""
    titles = _titles().get(name, {}) if isinstance(name, str) else {}
    return str(titles.get(words().language, titles.get("en", name)))


@cache
def _titles() -> dict[str, dict[str, str]]:
    """The titles of the built-in themes, which nobody changes while the page is open."""
    from printkit.listing import entries

    return {entry["name"]: entry["titles"] for entry in entries("themes")}


# --- saving ----------------------------------------------------------------------------------


def current(name: str) -> Opened:
    """The pack a form is about; if it was changed since the form was shown, the answer says so."""
    now = opened(name)
    if request.form.get("version") != now.source.version:
        conflict(now)
    return now


def conflict(now: Opened) -> None:
    """Ends the request: somebody else wrote the file."""
    abort(pack_page("conflict.html", now, "", status=409, back=request.referrer or ""))


def save(now: Opened, edit: Callable[[bytes], bytes], fields: Sequence[edits.Path] = ()) -> Told | None:
    """Writes an edit; returns what is wrong with it instead, if anything new is. An edit that is
    refused leaves the file as it was."""
    try:
        data = edit(now.source.data)
    except edits.CannotEditError:
        return Told(beside={}, above=((words().say("cannot_edit", file=now.source.path.name), ()),))
    if data == now.source.data:
        return None
    problems = workshop().problems(now.source.path, data, now.source.data)
    before = {(problem.found, problem.allowed) for problem in now.problems}
    fresh = [problem for problem in problems if (problem.found, problem.allowed) not in before]
    if fresh:
        return told(fresh, fields)
    try:
        folder().write(now.source, data)
    except ChangedMeanwhileError:
        conflict(opened(now.source.name))
    return None


def changed(now: Opened, changes: Mapping[edits.Path, Any], fields: Sequence[edits.Path] = ()) -> Told | None:
    """Writes keys set anew or taken out."""
    return save(now, lambda data: edits.changed(data, changes), fields)


def link(endpoint: str, **values: Any) -> str:
    """The address of a page."""
    return url_for(f"page.{endpoint}", **values)


def back(endpoint: str, **values: Any) -> Response:
    """After a change the page is asked for anew, so that loading it again changes nothing twice."""
    return redirect(link(endpoint, **values), 303)


@cache
def tags() -> tuple[tuple[str, str], ...]:
    """The languages of children, with their own names."""
    from printkit.listing import entries

    found = entries("languages")
    twice = Counter(entry["own_name"] for entry in found)
    named = [
        (tag, f"{own} ({tag})" if twice[own] > 1 else f"{own[:1].upper()}{own[1:]}")
        for tag, own in ((entry["name"], entry["own_name"]) for entry in found)
    ]
    return tuple(sorted(named, key=lambda pair: pair[1].casefold()))
