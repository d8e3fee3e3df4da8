"""Look, make, print: the sheets to leaf through, the making, the files, one lost card."""

import io
import json
import zipfile
from pathlib import Path
from typing import Any

from flask import abort, request, send_file
from werkzeug.wrappers import Response

from printkit.build import Wish, usual_folder
from printkit.errors import PrintkitError
from printkit.files.names import stays_inside
from printkit.pack import Pack
from printkit.web.sheets_seen import leaves
from printkit.web.views import common
from printkit.web.views.common import Opened
from printkit.web.views.shelf import leaf_page

_MANIFEST = "manifest.json"


@common.routes.get("/p/<name>/print")
def printing(name: str) -> Response:
    """What the pack comes to, every sheet, and the way to make it."""
    return _printing(common.opened(name))


def _printing(now: Opened, **values: Any) -> Response:
    seen: dict[str, Any] = {"wrong": [str(problem) for problem in now.problems]}
    if now.pack is not None:
        try:
            plan = common.workshop().pack_plan(now.pack)
            made = common.workshop().summary(plan)
            sheets = dict.fromkeys(("card", "plain"), 0)
            for item in made["paper"]:
                sheets[item["stock"]] += item["sheets"]
            seen = {
                "made": made, "sheets": sheets, "leaves": leaves(plan.files), "mark": id(plan), "wrong": [],
                "gather": _gather(made), "titles": _titles(now.pack),
            }  # fmt: skip
        except PrintkitError as error:
            seen = {"wrong": [str(problem) for problem in error.problems]}
    job = common.makers().of(now.source.name)
    files, folder, stale = _files(now)
    return common.pack_page(
        "print.html", now, "print", job=job, files=files, folder=str(folder), stale=stale,
        **(seen | values),
    )  # fmt: skip


def _titles(pack: Pack) -> dict[str, str]:
    """What each tray is called: in the family's own words, else as its material."""
    trays = (tray for item in pack.children for tray in item.trays)
    return {
        tray.set: common.words().material(tray.material) if tray.set == tray.material else tray.set
        for tray in trays
    }


def _gather(made: dict[str, Any]) -> list[tuple[str, int]]:
    """What to gather for all trays: of each thing as many as the tray that needs most."""
    most: dict[str, int] = {}
    for item in made["sets"]:
        for what, count in item["gather"].items():
            most[what] = max(most.get(what, 0), count)
    return sorted(most.items())


def _folder(now: Opened) -> Path:
    """Where the pack is made: the same folder as the command line's."""
    return now.source.path.with_suffix("") if now.pack is None else usual_folder(now.source.path, now.pack)


def _files(now: Opened) -> tuple[list[dict[str, Any]], Path, bool]:
    """The files that the manifests in the pack's folder list, and whether the pack was changed since."""
    folder = _folder(now)
    found: list[dict[str, Any]] = []
    if not folder.is_dir() or folder.is_symlink():
        return [], folder, False
    stale = False
    for manifest in sorted(folder.glob(f"*{_MANIFEST}"), key=lambda path: path.name != _MANIFEST):
        for row in _listed(manifest):
            path = folder / row["file"]
            if path.is_file() and not path.is_symlink():
                shown = {
                    "file": row["file"],
                    "pages": len(row.get("pages") or ()),
                    "kilobytes": max(1, path.stat().st_size // 1000),
                    "extra": manifest.name != _MANIFEST,
                }
                found.append(shown)
        if manifest.name == _MANIFEST:
            stale = now.source.path.stat().st_mtime > manifest.stat().st_mtime
    return found, folder, stale


def _listed(manifest: Path) -> list[dict[str, Any]]:
    try:
        rows = json.loads(manifest.read_text(encoding="utf-8"))["files"]
        return [row for row in rows if stays_inside(row["file"]) and row["file"].endswith(".pdf")]
    except (OSError, ValueError, TypeError, LookupError):
        return []


@common.routes.post("/p/<name>/make")
def make(name: str) -> Response:
    """Begins to make the pack, or one lost card of it."""
    now = common.current(name)
    wish = Wish()
    if request.form.get("set"):
        pieces = tuple(key for key in request.form.getlist("pieces") if key)
        wish = Wish(child=request.form.get("child") or None, set=request.form["set"], pieces=pieces)
    common.makers().start(name, now.source.path, now.source.data, wish)
    return common.back("printing", name=name, _anchor="making")


@common.routes.post("/p/<name>/stop")
def stop(name: str) -> Response:
    """Stops making; the earlier pack stays as it was."""
    common.opened(name)
    job = common.makers().of(name)
    if job is not None:
        job.stop.set()
    return common.back("printing", name=name, _anchor="making")


@common.routes.get("/p/<name>/made/<file>")
def made(name: str, file: str) -> Response:
    """One of the files that were made, to open or to save."""
    files, folder, _ = _files(common.opened(name))
    if file not in [item["file"] for item in files]:
        abort(404)
    return send_file(
        folder / file, mimetype="application/pdf", as_attachment=request.args.get("save") == "1",
        download_name=file, conditional=True,
    )  # fmt: skip


@common.routes.get("/p/<name>/made.zip")
def made_zip(name: str) -> Response:
    """All files of the pack together."""
    files, folder, _ = _files(common.opened(name))
    if not files:
        abort(404)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as together:
        for item in files:
            together.write(folder / item["file"], f"{folder.name}/{item['file']}")
    out.seek(0)
    return send_file(out, mimetype="application/zip", as_attachment=True, download_name=f"{folder.name}.zip")


@common.routes.get("/p/<name>/leaf/<int:number>")
def leaf(name: str, number: int) -> Response:
    """One sheet of the pack, large, to leaf through."""
    now = common.opened(name)
    if now.pack is None:
        abort(404)
    try:
        plan = common.workshop().pack_plan(now.pack)
    except PrintkitError:
        abort(404)
    return leaf_page(
        now, "print", leaves(plan.files), number,
        lambda file, page: common.link("sheet", name=name, file=file, number=page, v=id(plan), size="large"),
        lambda other, **more: common.link("leaf", name=name, number=other, **more),
        common.link("printing", name=name),
    )  # fmt: skip


@common.routes.get("/p/<name>/lost")
def lost(name: str) -> Response:
    """One lost card again: the pieces of a set, to choose from."""
    now = common.opened(name)
    if now.pack is None:
        return common.back("printing", name=name)
    trays = [
        (number, place, tray)
        for number, item in enumerate(now.pack.children)
        for place, tray in enumerate(item.trays)
    ]
    wished = (request.args.get("child", "0"), request.args.get("tray", ""))
    chosen = next(((c, t, tray) for c, t, tray in trays if (str(c), str(t)) == wished), None)
    pieces: list[Any] = []
    if chosen is not None:
        pieces = list(common.workshop().made(now.pack.seed, chosen[2]).pieces)
    return common.pack_page("lost.html", now, "print", trays=trays, chosen=chosen, pieces=pieces[:200])
