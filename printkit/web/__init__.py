"""The page: the second thin door. All state is the folder of pack files; all rules are the library's."""

import threading
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import socket

    from flask import Flask

PORT = 8137
"""Where the page listens unless told otherwise; the next free one if it is taken."""


def serve(folder: Path, *, address: str, port: int | None, browser: bool, say: Callable[[str], None]) -> None:
    """Serves the page of a folder until it is stopped.

    Raises PrintkitError if `folder` is a file, OSError if the address cannot be listened on.
    """
    import logging
    import webbrowser

    from werkzeug.serving import make_server

    from printkit.errors import PrintkitError, Problem
    from printkit.web.app import create_app
    from printkit.web.safety import is_loopback

    if folder.exists() and not folder.is_dir():
        found = f"'{folder}' is a file"
        raise PrintkitError([Problem(place="FOLDER", found=found, allowed="a folder of pack files")])
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    listener = _listen(address, port)
    port = listener.getsockname()[1]
    app = create_app(folder, address, port)
    server = make_server(address, port, app, threaded=True, fd=listener.fileno())
    shown = f"[{address}]" if ":" in address else address
    url = f"http://{shown}:{port}/"
    if not is_loopback(address):
        say(
            f"Warning: at {address} anyone in the same network can see and change these packs. "
            "Stop with Ctrl-C when you are done."
        )
    say(f"The page is at {url} (stop with Ctrl-C)")
    threading.Thread(target=_warm, args=(app,), daemon=True, name="warm").start()
    if browser:
        threading.Thread(target=webbrowser.open, args=(url,), daemon=True).start()
    try:
        server.serve_forever()  # ends at Ctrl-C
        say("Stopped.")
    finally:
        app.config["MAKERS"].stop()
        server.server_close()
        app.config["WORKSHOP"].close()
        listener.close()


def _listen(address: str, port: int | None) -> "socket.socket":
    import socket

    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    for wished in (PORT, 0) if port is None else (port,):
        listener = socket.socket(family, socket.SOCK_STREAM)
        try:
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            listener.bind((address, wished))
            listener.listen(64)
        except OSError:
            listener.close()
            if wished == PORT and port is None:
                continue
            raise
        return listener
    raise OSError(f"nothing free at {address}")


def _warm(app: "Flask") -> None:
    """Loads libraries and pictures while the family looks at the first page, so that the next is quick."""
    from contextlib import suppress

    from printkit.errors import PrintkitError
    from printkit.pictures import built_in
    from printkit.web.theme_pictures import theme_picture

    folder, workshop = app.config["FOLDER"], app.config["WORKSHOP"]
    with suppress(OSError, PrintkitError, RuntimeError):
        for name in folder.names()[:3]:
            source = folder.read(name)
            if source is not None:
                workshop.pack(source.path, source.data)
        for theme in built_in():
            theme_picture(workshop, folder.root, theme)
