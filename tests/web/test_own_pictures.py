"""Own pictures sent from the browser: the good ones stay, every fault is told by file."""

import pytest
from hostile import svg
from web.client import HERE, Browser, files_of

from printkit.materials import material_keys
from printkit.pack.reader import read_pack
from printkit.web import own_pictures
from printkit.web.folder import Folder
from printkit.web.own_pictures import Sent
from printkit.web.safety import MOST_FILE

GOOD = svg('<rect x="10" y="10" width="80" height="60" fill="#c33"/>')
OTHER = svg('<circle cx="50" cy="50" r="40" fill="#36c"/>')


@pytest.fixture
def browser(tmp_path):
    return Browser(tmp_path)


def send(browser, files, called="Garden shed"):
    """Posts pictures as a browser does."""
    source = Folder(browser.folder).read("pool")
    texts = {"token": browser.token, "version": source.version, "called": called}
    parts = [f'name="{name}"\r\n\r\n{text}'.encode() for name, text in texts.items()]
    parts += [f'name="files"; filename="{name}"\r\n\r\n'.encode() + data for name, data in files]
    body = b"".join(b"--edge\r\nContent-Disposition: form-data; " + part + b"\r\n" for part in parts)
    return browser.client.post(
        "/p/pool/own-theme",
        base_url=HERE,
        data=body + b"--edge--\r\n",
        content_type="multipart/form-data; boundary=edge",
    )


def test_good_and_broken_together(browser):
    """The good pictures become a theme in a folder of its own; the broken one is named with its fault."""
    answer = send(browser, [("Watering can.svg", GOOD), ("spade.svg", OTHER), ("rake.png", b"no picture")])

    body = answer.get_data(as_text=True)
    assert answer.status_code == 200
    assert "<b>rake.png</b>: " in body
    assert "2 pictures are ready" in body
    assert sorted(path.name for path in (browser.folder / "garden-shed").iterdir()) == [
        "spade.svg",
        "theme.toml",
        "watering-can.svg",
    ]


def test_the_theme_can_be_used(browser):
    """A press of the button behind it makes it the pack's theme; its picture is shown."""
    send(browser, [("can.svg", GOOD), ("spade.svg", OTHER), ("shed.svg", GOOD)])

    answer = browser.post("/p/pool/season", {"theme.here": "1", "theme": "garden-shed"})

    assert answer.status_code == 303
    assert read_pack(browser.file, material_keys()).children[0].child.theme.name == "garden-shed"
    assert browser.get("/theme.png?name=garden-shed").mimetype == "image/png"


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("shed.png", GOOD, "this is not a PNG, JPEG or WebP picture"),
        ("shed.svg", b"<html><p>no", "this is a web page"),
        ("shed.svg", b"", "the file is empty"),
        ("shed.heic", b"x", "export it as JPEG"),
        ("shed", b"x", "there is no picture"),
        ("shed.exe", b"MZ", "there is no picture"),
        ("../../shed.toml", b"title = 1", "there is no picture"),
        ("theme.toml", b"title = 1", ""),
        ("\x00.svg", b"", "the file is empty"),
    ],
)
def test_nothing_to_use(browser, name, data, said):
    """Where nothing can be used it is told, and the folder is as it was."""
    before = files_of(browser.folder)

    answer = send(browser, [(name, data)])

    assert answer.status_code == 422
    assert said.lower() in answer.get_data(as_text=True).replace("&#39;", "'").lower()
    assert files_of(browser.folder) == before
    assert [path.name for path in browser.folder.iterdir()] == ["pool.toml"]


def test_names_from_the_browser(browser):
    """A path in a file's name is none here, and two pictures of one name both stay."""
    sent = [Sent(name=name, data=GOOD) for name in ("../up/can.svg", "C:\\x\\can.svg", "CON.svg")]

    taken = own_pictures.take(Folder(browser.folder), "../x", sent, ["en"])

    folder = browser.folder / taken.theme
    assert folder.parent == browser.folder
    assert sorted(path.name for path in folder.glob("*.svg")) == ["can-2.svg", "can.svg", "picture.svg"]


def test_too_large(browser):
    """A file above 20 MB is told, the others stay."""
    answer = send(browser, [("can.svg", GOOD), ("big.png", b"\x00" * (MOST_FILE + 1))])

    assert "<b>big.png</b>: The file is larger than 20 MB" in answer.get_data(as_text=True)
    assert not (browser.folder / "garden-shed" / "big.png").exists()


def test_too_much_in_all(browser, monkeypatch):
    """More than 200 MB in all is refused before anything is looked at."""
    monkeypatch.setattr("printkit.web.safety.MOST_FILES", 10_000)

    answer = send(browser, [("can.svg", GOOD), ("big.png", b"\x00" * 20_000)])

    assert answer.status_code == 413
    assert [path.name for path in browser.folder.iterdir()] == ["pool.toml"]


def test_a_failing_disk_leaves_nothing(browser, monkeypatch):
    """Where the folder cannot be moved in, nothing of it stays."""

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(own_pictures.os, "rename", full)
    answer = send(browser, [("can.svg", GOOD)])

    assert answer.status_code == 507
    assert [path.name for path in browser.folder.iterdir()] == ["pool.toml"]


def test_changed_pictures_are_seen(browser):
    """A picture that is changed in its folder is another one on the page at once."""
    send(browser, [("can.svg", GOOD), ("spade.svg", OTHER), ("shed.svg", GOOD)])
    browser.post("/p/pool/season", {"theme.here": "1", "theme": "garden-shed"})
    before = browser.get("/p/pool/0/0/piece.png").data
    for file in (browser.folder / "garden-shed").glob("*.svg"):
        file.write_bytes(OTHER + b"<!-- more -->")

    assert browser.get("/p/pool/0/0/piece.png").data != before
