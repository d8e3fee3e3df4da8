"""The first page: the packs of the folder, and a new one."""

from typing import Any

from flask import request
from werkzeug.wrappers import Response

from printkit.errors import PrintkitError, Problem
from printkit.units import PAPERS
from printkit.web.views import common
from printkit.web.words import page_languages


@common.routes.get("/")
def home() -> Response:
    """What there is in the folder; an empty one offers to begin."""
    packs = [_told(name) for name in common.folder().names()]
    return _home(packs)


def _told(name: str) -> dict[str, Any]:
    """What the first page says of a pack: only what stands in the file, so that it is quick."""
    now = common.written(name)
    theme = now.table.get("theme", "rock-pool")
    return {
        "name": name,
        "title": common.title(now),
        "children": ", ".join(now.names),
        "season": common.theme_title(theme),
        "theme": theme,
        "wrong": not now.table,
    }


def _home(packs: list[dict[str, Any]], status: int = 200, **values: Any) -> Response:
    return common.page(
        "home.html",
        status,
        packs=packs,
        folder=str(common.folder().root),
        themes=common.themes(),
        papers=[(paper, common.words().word(paper, "paper")) for paper in PAPERS],
        tags=common.tags(),
        values={
            "title": "", "child": "", "first": "1", "last": "5", "theme": "", "paper": "a4",
            "languages": [common.words().language, ""], **values.get("typed", {}),
        },
        problems=values.get("problems", ()),
    )  # fmt: skip


@common.routes.post("/begin")
def begin() -> Response:
    """Writes the first pack file of a season."""
    from printkit.planner.balance import NewChild
    from printkit.starter import Answers, at_home, new_child, write_new

    form = request.form
    typed: dict[str, Any] = {
        key: form.get(key, "").strip() for key in ("title", "child", "first", "last", "theme", "paper")
    }
    typed["languages"] = [form.get("languages.0", ""), form.get("languages.1", "")]
    theme = typed["theme"] or "rock-pool"
    name = common.folder().free_name(typed["title"] or common.theme_title(theme))
    file = common.folder().root / f"{name}.toml"
    try:
        numbers = new_child("", f"{typed['first']}-{typed['last']}").numbers
        answers = Answers(
            children=(NewChild(name=typed["child"], numbers=numbers),),
            title=typed["title"] or common.theme_title(theme),
            theme=theme,
            paper=typed["paper"],
            languages=tuple(tag for tag in typed["languages"] if tag),
            family=at_home(file)[0],
        )
        common.folder().root.mkdir(parents=True, exist_ok=True)
        write_new(file, answers)
    except PrintkitError as error:
        return _home([], 422, typed=typed, problems=[_said(problem) for problem in error.problems])
    return common.back("children", name=name)


def _said(problem: Problem) -> str:
    from printkit.web.telling import sentence

    return sentence(problem)


@common.routes.post("/language")
def language() -> Response:
    """Chooses the page's language by hand; the browser keeps it."""
    from flask import redirect

    chosen = request.form.get("language", "")
    target = request.form.get("back", "/")
    inside = target.startswith("/") and not target.startswith(("//", "/\\"))
    answer = redirect(target if inside else "/", 303)
    if chosen in page_languages():
        answer.set_cookie(common.COOKIE, chosen, max_age=31536000, samesite="Strict", httponly=True)
    return answer
