"""Pictures: pieces, sheets and themes, drawn when asked for; typefaces."""

from dataclasses import replace

from flask import abort, request, send_file
from werkzeug.wrappers import Response

from printkit.errors import PrintkitError
from printkit.pack import Pack, Tray
from printkit.resources import resource
from printkit.web import edits
from printkit.web.theme_pictures import theme_picture
from printkit.web.views import common

FACES = ("Andika-Regular.ttf", "Andika-Bold.ttf", "NotoSans-Regular.ttf")
_SMALL, _LARGE = 72, 130
"""Dots an inch: design choice, sharp at the sizes the page shows."""


def _png(data: bytes) -> Response:
    """A picture whose address names its content may be kept as long as the browser likes."""
    answer = common.current_app.make_response(data)
    answer.mimetype = "image/png"
    if request.args.get("v"):
        answer.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer


def _dpi() -> int:
    return _LARGE if request.args.get("size") == "large" else _SMALL


@common.routes.get("/font/<file>")
def font(file: str) -> Response:
    """A typeface of the package."""
    if file not in FACES:
        abort(404)
    answer = send_file(resource("fonts") / file, mimetype="font/ttf")
    answer.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer


@common.routes.get("/p/<name>/<int:child>/<int:tray>/piece/<int:number>/<side>.png")
def piece(name: str, child: int, tray: int, number: int, side: str) -> Response:
    """One side of a piece of a tray."""
    pack, found = _tray(common.opened(name), child, tray)
    data = common.workshop().piece_png(pack, found, number, side, _dpi())
    return _png(data) if data is not None else abort(404)


@common.routes.get("/p/<name>/<int:child>/<int:tray>/piece.png")
def standing(name: str, child: int, tray: int) -> Response:
    """The piece that stands for a tray on its shelf."""
    pack, found = _tray(common.opened(name), child, tray)
    data = common.workshop().piece_png(pack, found, shown_piece(pack, found), "front", _dpi())
    return _png(data) if data is not None else abort(404)


@common.routes.get("/p/<name>/<int:child>/offer/<material>.png")
def offer(name: str, child: int, material: str) -> Response:
    """A piece of a material that the child does not have yet, made for this child."""
    now = common.opened(name)
    pack, tray = trial(now, child, material)
    number = shown_piece(pack, tray)
    data = common.workshop().piece_png(pack, tray, number, "front", _SMALL)
    return _png(data) if data is not None else abort(404)


@common.routes.get("/p/<name>/<int:child>/<int:tray>/sheet/<int:file>/<int:number>.png")
def set_sheet(name: str, child: int, tray: int, file: int, number: int) -> Response:
    """A page of the sheets of one tray by itself."""
    pack, found = _tray(common.opened(name), child, tray)
    try:
        files = common.workshop().set_plan(pack, found).files
    except PrintkitError:
        abort(404)
    if file >= len(files) or number >= len(files[file].pages):
        abort(404)
    mark = common.workshop().tray_mark(pack, found)
    return _png(common.workshop().page_png(mark, files[file], number, _dpi()))


@common.routes.get("/p/<name>/sheet/<int:file>/<int:number>.png")
def sheet(name: str, file: int, number: int) -> Response:
    """A page of the whole pack's sheets."""
    now = common.opened(name)
    if now.pack is None:
        abort(404)
    try:
        plan = common.workshop().pack_plan(now.pack)
    except PrintkitError:
        abort(404)
    if file >= len(plan.files) or number >= len(plan.files[file].pages):
        abort(404)
    return _png(common.workshop().page_png(str(id(plan)), plan.files[file], number, _dpi()))


@common.routes.get("/theme.png")
def theme() -> Response:
    """Pictures of a theme: a built-in one, or a folder of the family's own beside the pack files."""
    from printkit.pictures import built_in

    name = request.args.get("name", "")
    if name not in built_in() and name not in own_themes():
        abort(404)
    try:
        return _png(theme_picture(common.workshop(), common.folder().root, name))
    except PrintkitError:
        abort(404)


def own_themes() -> tuple[str, ...]:
    """Folders beside the pack files that hold pictures at their top."""
    from printkit.pictures.themes import PICTURES

    root = common.folder().root
    if not root.is_dir():
        return ()
    return tuple(
        sorted(
            path.name
            for path in root.iterdir()
            if path.is_dir()
            and not path.is_symlink()
            and not path.name.startswith(".")
            and not (path / "manifest.json").exists()
            and any(file.suffix.lower() in PICTURES for file in path.iterdir())
        )
    )


def _tray(now: common.Opened, child: int, tray: int) -> tuple[Pack, Tray]:
    found = now.tray(child, tray)
    if now.pack is None or found is None:
        abort(404)
    return now.pack, found


def trial(now: common.Opened, child: int, material: str) -> tuple[Pack, Tray]:
    """A pack with one more tray, not written anywhere; not found if it cannot be."""
    path, number = now.shelf(child).path, len(now.shelf(child).listed)
    try:
        data = edits.tray_added(now.source.data, path, material, new_set(now, child, material))
        pack = common.workshop().pack(now.source.path, data)
    except (PrintkitError, edits.CannotEditError):
        abort(404)
    return _tray(replace(now, pack=pack, table=edits.plain(data)), child, number)


def new_set(now: common.Opened, child: int, material: str) -> dict[str, str]:
    """A name of its own for a further set of a material that the child has already."""
    from printkit.files import same_name

    names = [
        str(item if isinstance(item, str) else item.get("set", item.get("make", "")))
        for item in now.shelf(child).listed
        if isinstance(item, str | dict)
    ]
    number, name = 1, material
    while any(same_name(name, other) for other in names):
        number += 1
        name = f"{material} {number}"
    return {} if number == 1 else {"set": name}


def shown_piece(pack: Pack, tray: Tray) -> int:
    """The piece that stands for a tray: the largest number is dull, the first one often too."""
    pieces = common.workshop().made(pack.seed, tray).pieces
    return min(3, len(pieces) - 1) if pieces else 0
