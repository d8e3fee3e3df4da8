"""The application: the folder, the workshop, the checks before each request, the pages."""

from datetime import date
from pathlib import Path

from flask import Flask, abort, g, send_from_directory
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response

from printkit.files import plain
from printkit.web.folder import Folder
from printkit.web.making import Makers
from printkit.web.safety import guard
from printkit.web.views import common, family, pictures, printing, shelf, start, watch
from printkit.web.workshop import Workshop

MODULES = (start, family, shelf, pictures, printing, watch)


def create_app(
    folder: Path, address: str = "127.0.0.1", port: int = 8137, workshop: Workshop | None = None
) -> Flask:
    """The page of a folder of pack files, for requests to that address and port.

    `workshop` may be that of another page, with what it has made already.
    """
    app = Flask("printkit.web", static_folder=None)
    workshop = workshop or Workshop()
    app.config.update(FOLDER=Folder(folder), WORKSHOP=workshop, MAKERS=Makers(workshop), TODAY=date.today)
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.jinja_env.globals["ladders"] = common.ladders  # used in macros, which see no page's values
    guard(app, address, port)
    app.register_blueprint(common.routes)

    @app.get("/static/<file>")
    def static(file: str) -> Response:
        if file not in ("page.css", "page.js"):
            abort(404)
        return send_from_directory(Path(__file__).parent / "static", file)

    @app.errorhandler(HTTPException)
    def refused(error: HTTPException) -> Response:
        """An answer that is none, in plain words."""
        if error.response is not None:
            return error.get_response()
        code = error.code or 500
        g.setdefault("token", "")
        words = common.words()
        key = f"refused.{code}" if words.has(f"refused.{code}") else "refused.unknown"
        return common.page("refused.html", code, said=words.say(key))

    @app.errorhandler(OSError)
    def failed(error: OSError) -> Response:
        """The machine failed: a full disk, a folder without permission."""
        return common.page("refused.html", 507, said=plain(error))

    return app
