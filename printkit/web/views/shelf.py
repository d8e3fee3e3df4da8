"""Which trays: the shelves of all children, one tray with its settings, another tray."""

from dataclasses import fields as data_fields
from typing import Any

from flask import abort, request
from werkzeug.wrappers import Response

from printkit.errors import PrintkitError
from printkit.materials import materials
from printkit.pack import Pack, Tray
from printkit.pack.keys import KEYS, tray_checks
from printkit.pieces import Piece
from printkit.planner.areas import area_of_material
from printkit.planner.model import AREAS
from printkit.web import edits
from printkit.web.fields import Field, Level, changes_of, fields_of
from printkit.web.sheets_seen import Leaf, leaves
from printkit.web.telling import Told
from printkit.web.views import common
from printkit.web.views.common import Opened
from printkit.web.views.family import paths
from printkit.web.views.pictures import new_set, shown_piece

NAMED = ("set", "size", "stock")
"""Keys of every tray that are not its material's own."""
_WITH_SUMS = ("strips",)
"""Materials that cannot be made without a child's `sums_to`."""


@common.routes.get("/p/<name>/trays")
def trays(name: str) -> Response:
    """A shelf a child, each tray shown as one of its real pieces."""
    return _trays(common.opened(name))


def _trays(now: Opened, refused: Told | None = None) -> Response:
    shelves = [
        {
            "child": found.name,
            "trays": [_shown(now, number, place, entry) for place, entry in enumerate(found.listed)],
        }
        for number, found in enumerate(now.shelves)
    ]
    status = 422 if refused else 200
    return common.pack_page("trays.html", now, "trays", status=status, refused=refused, shelves=shelves)


def _shown(now: Opened, child: int, place: int, entry: Any) -> dict[str, Any]:
    """What the shelf shows of a tray."""
    make = (
        entry if isinstance(entry, str) else str(entry.get("make", "?")) if isinstance(entry, dict) else "?"
    )
    called = entry.get("set") if isinstance(entry, dict) else None
    title = common.words().material(make) if make in materials() else make
    shown = {"title": str(called) if called else title, "material": title, "mark": ""}
    tray = now.tray(child, place)
    if tray is not None and now.pack is not None:
        shown["mark"] = common.workshop().tray_mark(now.pack, tray)
    return shown


# --- one tray --------------------------------------------------------------------------------


def _table(now: Opened, child: int, tray: int) -> dict[str, Any]:
    """A tray as a table; not found if there is none, or no material of its name."""
    listed = now.shelf(child).listed
    if tray >= len(listed):
        abort(404)
    entry = listed[tray]
    table = {"make": entry} if isinstance(entry, str) else entry
    if not isinstance(table, dict) or table.get("make") not in materials():
        abort(404)
    return table


def tray_fields(now: Opened, child: int, tray: int, posted: Any = None) -> tuple[tuple[Field, ...], ...]:
    """A tray's own settings, what every tray has, and in what it may differ from the child."""
    table = _table(now, child, tray)
    material = materials()[table["make"]]
    own = {field.name: field for field in data_fields(material.settings)}
    checks = tray_checks({key: field.metadata["check"] for key, field in own.items()})
    checked = now.tray(child, tray)
    above = now.above_trays(child) | {key: field.default for key, field in own.items()}
    level = Level(
        path=(*now.shelf(child).path, "materials", tray),
        table=table,
        above=above | {"stock": material.stock, "set": common.words().material(material.name)},
        words=common.words(),
        motifs=_motifs(checked),
        tags=common.tags(),
        says={key: field.metadata["says"] for key, field in own.items()},
    )
    rest = [key for key in KEYS if key not in own]
    groups = (tuple(own), NAMED, rest)
    return tuple(fields_of(keys, checks, level, posted) for keys in groups)


def _motifs(tray: Tray | None) -> tuple[tuple[str, str], ...]:
    if tray is None:
        return ()
    language = common.words().language
    return tuple((motif.key, motif.name(language)) for motif in tray.child.theme.motifs)


def _tray(now: Opened, child: int, tray: int, refused: Told | None = None, posted: bool = False) -> Response:
    own, named, rest = tray_fields(now, child, tray, request.form if posted else None)
    table = _table(now, child, tray)
    material = materials()[table["make"]]
    ready = now.tray(child, tray)
    seen = _seen(now.pack, ready) if ready is not None and now.pack is not None else {}
    return common.pack_page(
        "tray.html", now, "trays", status=422 if refused else 200, refused=refused,
        child=child, tray=tray, child_name=now.shelf(child).name,
        count=len(now.shelf(child).listed),
        own=own, named=named, rest=rest, material=common.words().material(material.name),
        called=str(table.get("set", "")), line=material.line, **seen,
    )  # fmt: skip


def _seen(pack: Pack, tray: Tray) -> dict[str, Any]:
    """Pieces and sheets of a tray, and what they come to."""
    workshop = common.workshop()
    made = workshop.made(pack.seed, tray)
    mark = workshop.tray_mark(pack, tray)
    try:
        plan = workshop.set_plan(pack, tray)
    except PrintkitError as error:
        return {"wrong": [str(problem) for problem in error.problems]}
    first = shown_piece(pack, tray)
    several = len(made.pieces)
    shown = list(dict.fromkeys((first, 0, several - 1)))[:3]
    return {
        "mark": mark,
        "pieces": [_piece(number, made.pieces[number]) for number in shown],
        "leaves": leaves(plan.files),
        "told_of": workshop.summary(plan),
        "notes": [*made.notes],
    }


def _piece(number: int, piece: Piece) -> dict[str, Any]:
    """A wide piece has its back below it, any other beside it."""
    return {"number": number, "back": piece.back is not None, "wide": piece.width > 1.6 * piece.height}


@common.routes.get("/p/<name>/<int:child>/<int:tray>")
def tray(name: str, child: int, tray: int) -> Response:
    """One tray: its pieces, its sheets, its settings."""
    return _tray(common.opened(name), child, tray)


@common.routes.post("/p/<name>/<int:child>/<int:tray>")
def save_tray(name: str, child: int, tray: int) -> Response:
    """Saves a tray's settings."""
    now = common.current(name)
    fields = [field for group in tray_fields(now, child, tray, request.form) for field in group]
    changes = changes_of(fields, request.form, _table(now, child, tray))
    refused = common.changed(now, changes, paths(fields)) if changes else None
    if refused:
        return _tray(now, child, tray, refused, True)
    return common.back("tray", name=name, child=child, tray=tray)


@common.routes.post("/p/<name>/<int:child>/<int:tray>/remove")
def remove_tray(name: str, child: int, tray: int) -> Response:
    """Takes a tray off the shelf; the child's last one stays."""
    now = common.current(name)
    _table(now, child, tray)
    refused = common.save(now, lambda data: edits.tray_removed(data, now.shelf(child).path, tray))
    return _tray(now, child, tray, refused) if refused else common.back("trays", name=name)


@common.routes.post("/p/<name>/<int:child>/<int:tray>/move/<int:to>")
def move_tray(name: str, child: int, tray: int, to: int) -> Response:
    """Puts a tray at another place of its shelf."""
    now = common.current(name)
    _table(now, child, tray)
    if to >= len(now.shelf(child).listed):
        abort(404)
    refused = common.save(now, lambda data: edits.tray_moved(data, now.shelf(child).path, tray, to))
    if refused:
        return _tray(now, child, tray, refused)
    return common.back("tray", name=name, child=child, tray=to)


# --- another tray ----------------------------------------------------------------------------


def _offers(now: Opened, child: int, refused: Told | None = None, pressed: str = "") -> Response:
    has = [item if isinstance(item, str) else item.get("make") for item in now.shelf(child).listed]
    adds = {**now.above_trays(child), **now.shelf(child).table}.get("sums_to")
    offers = [
        {
            "name": item.name,
            "title": common.words().material(item.name),
            "line": item.line,
            "has": item.name in has,
            "sums": item.name in _WITH_SUMS and not adds,
            "area": "has" if item.name in has else area_of_material(item.name),
        }
        for item in materials().values()
    ]
    areas = [
        (area, several)
        for area in (*AREAS, "has")
        if (several := [offer for offer in offers if offer["area"] == area])
    ]
    return common.pack_page(
        "offers.html", now, "trays", status=422 if refused else 200, refused=refused, child=child,
        child_name=now.shelf(child).name, offers=areas, pressed=pressed,
    )  # fmt: skip


@common.routes.get("/p/<name>/<int:child>/add")
def offers(name: str, child: int) -> Response:
    """Every material, as a piece made for this child."""
    return _offers(common.opened(name), child)


@common.routes.post("/p/<name>/<int:child>/add")
def add_tray(name: str, child: int) -> Response:
    """Puts a tray on a child's shelf."""
    now = common.current(name)
    now.shelf(child)
    material = request.form.get("material", "")
    if material not in materials():
        abort(404)
    own = new_set(now, child, material)
    number = len(now.shelf(child).listed)
    refused = common.save(now, lambda data: edits.tray_added(data, now.shelf(child).path, material, own))
    if refused:
        return _offers(now, child, refused, material)
    return common.back("tray", name=name, child=child, tray=number)


# --- sheets of one tray ----------------------------------------------------------------------


@common.routes.get("/p/<name>/<int:child>/<int:tray>/leaf/<int:number>")
def set_leaf(name: str, child: int, tray: int, number: int) -> Response:
    """One sheet of a tray, large, to leaf through."""
    now = common.opened(name)
    ready = now.tray(child, tray)
    if ready is None or now.pack is None:
        abort(404)
    try:
        found = leaves(common.workshop().set_plan(now.pack, ready).files)
    except PrintkitError:
        abort(404)
    here = {"name": name, "child": child, "tray": tray}
    mark = common.workshop().tray_mark(now.pack, ready)
    return leaf_page(
        now, "trays", found, number,
        lambda file, page: common.link("set_sheet", **here, file=file, number=page, v=mark, size="large"),
        lambda other, **more: common.link("set_leaf", **here, number=other, **more),
        common.link("tray", **here),
    )  # fmt: skip


def leaf_page(
    now: Opened, station: str, found: tuple[Leaf, ...], number: int, picture: Any, leaf: Any, up: str
) -> Response:
    """The page of one sheet: its front and back, or the back laid over the front."""
    if number >= len(found):
        abort(404)
    this = found[number]
    over = request.args.get("over") == "1" and this.back is not None
    return common.pack_page(
        "leaf.html", now, station, leaf=this, number=number, count=len(found), over=over,
        front=picture(*this.front), back=picture(*this.back) if this.back else "",
        before=leaf(number - 1, over=int(over)) if number else "",
        after=leaf(number + 1, over=int(over)) if number + 1 < len(found) else "",
        switch=leaf(number, over=0 if over else 1) if this.back else "", up=up,
    )  # fmt: skip
