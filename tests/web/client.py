"""A browser in a few lines: the page's test client with the token and version of the page it looks at."""

import re
from functools import cache
from pathlib import Path

from printkit.web.app import create_app
from printkit.web.workshop import Workshop

HERE = "http://127.0.0.1:8137"
PACK = """\
# Our shelf.
title     = "By the pool"
theme     = "rock-pool"        # near the sea
languages = ["en", "es"]
flip      = "long"

[[children]]                   # three and a half
name      = "Wren"
numbers   = [1, 4]
materials = [
    "counting-cards",          # the first
    { make = "clip-cards", choices = 4 },
]

[[children]]
name      = "Juno"
numbers   = [1, 6]
sums_to   = 6
materials = [{ make = "strips", count = 3 }]
"""


@cache
def shared():
    """One workshop for all tests: what one has made, the next need not make."""
    return Workshop()


class Browser:
    """Asks the page of a folder of packs."""

    def __init__(self, folder: Path, pack: str = PACK):
        self.folder = folder
        self.file = folder / "pool.toml"
        if pack:
            self.file.write_bytes(pack.encode())
        self.app = create_app(folder, workshop=shared())
        self.client = self.app.test_client()
        self.token = self.app.config["TOKEN"]

    def get(self, path, **more):
        return self.client.get(path, base_url=HERE, **more)

    def post(self, path, data=None, **more):
        """Posts as the page's own form would, unless `data` says otherwise."""
        from printkit.web.folder import Folder

        source = Folder(self.folder).read("pool")
        own = {"token": self.token, "version": source.version if source else ""}
        return self.client.post(path, base_url=HERE, data=own | dict(data or {}), **more)

    def form(self, path, action):
        """What the form of that action on a page would send, unchanged."""
        body = self.get(path).get_data(as_text=True)
        form = re.search(rf'<form[^>]*action="{re.escape(action)}".*?</form>', body, re.DOTALL)[0]
        return fields(form)

    def text(self):
        return self.file.read_text(encoding="utf-8")


def fields(form):
    """Name -> value (a list where several are sent) of a form in HTML."""
    from html.parser import HTMLParser

    found: dict[str, list[str]] = {}

    class Reader(HTMLParser):
        select = ""

        def handle_starttag(self, tag, attrs):
            at = dict(attrs)
            name = at.get("name", "")
            if tag == "input" and name:
                ticked = at.get("type") not in ("checkbox", "radio") or "checked" in at
                if ticked and at.get("type") != "file":
                    found.setdefault(name, []).append(at.get("value", ""))
            elif tag == "select":
                self.select = name
                found.setdefault(name, []).append("")
            elif tag == "option" and "selected" in at:
                found[self.select][-1] = at.get("value", "")

    Reader().feed(form)
    return {name: values[0] if len(values) == 1 else values for name, values in found.items()}


def files_of(folder):
    """Every file of a folder with its bytes."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }
