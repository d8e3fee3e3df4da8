"""Watch: what was seen at the shelf, what comes next and why, the next season in one step."""

from datetime import date
from typing import Any

from flask import request
from werkzeug.wrappers import Response

from printkit.climbing import faults, propose, told, words_of
from printkit.errors import PrintkitError
from printkit.files import same_name
from printkit.journal import RESULTS, append, journal_file, noted, read_journal
from printkit.materials import materials
from printkit.pack import Pack
from printkit.web.telling import path_of, sentence
from printkit.web.views import common
from printkit.web.views.common import Opened

_LATEST = 30


def _today() -> date:
    found: date = common.current_app.config["TODAY"]()
    return found


@common.routes.get("/p/<name>/watch")
def watch(name: str) -> Response:
    """A page for the tablet beside the shelf."""
    return _watch(common.opened(name))


def _watch(now: Opened, status: int = 200, **values: Any) -> Response:
    if now.pack is None:
        return common.pack_page("watch.html", now, "watch", people=[])
    people = [child.name for child in now.pack.people]
    wished = request.values.get("child", "")
    chosen = next((name for name in people if same_name(name, wished)), people[0] if people else "")
    notes = reversed(common.notes_of(now))  # of one day the one written last comes first
    return common.pack_page(
        "watch.html", now, "watch", status=status, people=people, chosen=chosen,
        trays=_trays(now, now.pack, chosen), results=RESULTS, today=_today().isoformat(),
        latest=sorted(notes, key=lambda entry: entry.on, reverse=True)[:_LATEST],
        **({"problems": (), "typed": {}, "no_tray": False} | _next(now, now.pack) | values),
    )  # fmt: skip


def _trays(now: Opened, pack: Pack, child: str) -> list[dict[str, Any]]:
    """The trays a child uses, own and shared, with the place of each one's picture."""
    places = {shelf.path: number for number, shelf in enumerate(now.shelves)}
    found = []
    for tray in pack.trays_of(child):
        *owner, _, place = path_of(tray.place())
        title = common.words().material(tray.material) if tray.set == tray.material else tray.set
        found.append(
            {
                "set": tray.set,
                "title": title,
                "shelf": places.get(tuple(owner), 0),
                "place": place,
                "mark": common.workshop().tray_mark(pack, tray),
            }
        )
    return found


def _next(now: Opened, pack: Pack) -> dict[str, Any]:
    """What comes next for each child, each line with its reason."""
    try:
        journal = read_journal(journal_file(now.source.path))
    except PrintkitError as error:
        return {"proposals": [], "faults": [str(problem) for problem in error.problems]}
    day, words = _today(), words_of(pack)
    found = propose(pack, journal.entries, materials(), day)
    return {
        "proposals": list(told(found, words)),
        "faults": list(faults(journal, pack, materials(), day, words)),
    }


@common.routes.post("/p/<name>/watch")
def note(name: str) -> Response:
    """Writes one note into the family's journal."""
    now = common.opened(name)
    if now.pack is None:
        return _watch(now)
    form = request.form
    typed = {key: form.get(key, "").strip() for key in ("child", "set", "result", "on", "said")}
    if not typed["set"]:
        return _watch(now, 422, no_tray=True, typed=typed)
    try:
        entry = noted(
            now.pack, typed["child"], typed["set"], typed["result"],
            today=_today(), on=typed["on"] or None, said=" ".join(typed["said"].split()),
        )  # fmt: skip
    except PrintkitError as error:
        return _watch(now, 422, problems=[sentence(problem) for problem in error.problems], typed=typed)
    append(journal_file(now.source.path), entry)
    return common.back("watch", name=name, child=entry.child, noted=entry.set)


@common.routes.post("/p/<name>/next")
def next_season(name: str) -> Response:
    """Writes the pack file of the next season beside this one."""
    from printkit.season import Basis, Season, write_season
    from printkit.season import next_season as made

    now = common.current(name)
    if now.pack is None:
        return _watch(now)
    title, theme = (request.form.get(key, "").strip() or None for key in ("title", "theme"))
    out = now.source.path.with_name(f"{common.folder().free_name(title or name)}.toml")
    words, day = words_of(now.pack), _today()
    try:
        entries = read_journal(journal_file(now.source.path)).entries
        proposals = propose(now.pack, entries, materials(), day)
        basis = Basis(
            file=now.source.path, family=None, pack=now.pack, entries=entries, kinds=materials(), words=words
        )
        text, _ = made(basis, proposals, out, Season(title=title, theme=theme))
        write_season(out, text)
    except PrintkitError as error:
        return _watch(now, 422, problems=[sentence(problem) for problem in error.problems])
    return common.back("trays", name=out.stem)
