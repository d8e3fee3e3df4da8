"""Looking and making: pictures of real pieces, and the very files of the command line."""

import io
import os
import threading
import zipfile

import pytest
from click.testing import CliRunner
from PIL import Image
from web.client import Browser, files_of

from printkit.cli import commands
from printkit.web import making
from printkit.web.making import Makers
from printkit.web.sheets_seen import leaves


@pytest.fixture
def browser(tmp_path):
    return Browser(tmp_path)


def made(browser, data=None):
    """Presses the button and waits for what comes of it."""
    browser.post("/p/pool/make", data or {})
    job = browser.app.config["MAKERS"].of("pool")
    job.thread.join()
    return job


def test_the_same_files_as_the_command_line(browser, tmp_path):
    """What the page makes is byte for byte what `printkit make` makes, in the same folder."""
    assert made(browser).state == "done"
    from_page = files_of(tmp_path / "pool")

    other = tmp_path / "other"
    result = CliRunner().invoke(commands, ["make", str(browser.file), "-o", str(other)])

    assert result.exit_code == 0
    assert files_of(other) == from_page
    assert "guide.pdf" in from_page


def test_the_files_can_be_had(browser, tmp_path):
    """Each file opens and saves, all together as a ZIP; the page names the folder and 'actual size'."""
    made(browser)
    body = browser.get("/p/pool/print").get_data(as_text=True)
    names = [path.name for path in (tmp_path / "pool").glob("*.pdf")]

    assert str(tmp_path / "pool") in body
    assert "actual size" in body
    for name in names:
        assert f'href="/p/pool/made/{name}"' in body
        answer = browser.get(f"/p/pool/made/{name}")
        assert answer.data == (tmp_path / "pool" / name).read_bytes()
        assert answer.mimetype == "application/pdf"
        answer.close()
    saved = browser.get(f"/p/pool/made/{names[0]}?save=1")
    assert "attachment" in saved.headers["Content-Disposition"]
    saved.close()
    with zipfile.ZipFile(io.BytesIO(browser.get("/p/pool/made.zip").data)) as together:
        assert sorted(together.namelist()) == sorted(f"pool/{name}" for name in names)


def test_changed_since(browser, tmp_path):
    """A pack that was changed after it was made says so."""
    made(browser)
    assert "was changed since" not in browser.get("/p/pool/print").get_data(as_text=True)
    for file in (tmp_path / "pool").iterdir():
        os.utime(file, (1_000_000_000, 1_000_000_000))
    browser.post("/p/pool/children/0", {"hand.here": "1", "hand": "left"})

    assert "was changed since" in browser.get("/p/pool/print").get_data(as_text=True)


def test_a_lost_card(browser, tmp_path):
    """One piece is made again in a file of its own beside the pack."""
    made(browser)
    body = browser.get("/p/pool/lost?child=0&tray=1").get_data(as_text=True)
    assert 'name="pieces" value="3"' in body

    job = made(browser, {"child": "Wren", "set": "clip-cards", "pieces": ["3"]})

    assert job.state == "done"
    assert (tmp_path / "pool" / "wren-clip-cards.pdf").exists()
    assert "wren-clip-cards.pdf" in browser.get("/p/pool/print").get_data(as_text=True)


def test_stopping_leaves_what_was_there(browser, tmp_path, monkeypatch):
    """A stop in the middle leaves the earlier pack whole, byte for byte."""
    made(browser)
    before = files_of(tmp_path / "pool")
    browser.post("/p/pool/children/0", {"hand.here": "1", "hand": "left"})
    reached, go_on = threading.Event(), threading.Event()
    write = making.write

    def slow(*args, progress, **more):
        def told(file, done, total):
            if done == 2:
                reached.set()
                go_on.wait(30)
            progress(file, done, total)

        return write(*args, progress=told, **more)

    monkeypatch.setattr(making, "write", slow)
    browser.post("/p/pool/make", {})
    assert reached.wait(60)
    assert "data-poll" in browser.get("/p/pool/print").get_data(as_text=True)
    browser.post("/p/pool/stop", {})
    go_on.set()
    job = browser.app.config["MAKERS"].of("pool")
    job.thread.join()

    assert job.state == "stopped"
    assert files_of(tmp_path / "pool") == before
    assert "Stopped" in browser.get("/p/pool/print").get_data(as_text=True)


def test_the_server_stops_in_the_middle(browser, tmp_path, monkeypatch):
    """When the server ends while a pack is made, the making ends first, and nothing half stays."""
    reached, go_on = threading.Event(), threading.Event()
    write = making.write

    def slow(*args, progress, **more):
        def told(file, done, total):
            reached.set()
            go_on.wait(30)
            progress(file, done, total)

        return write(*args, progress=told, **more)

    monkeypatch.setattr(making, "write", slow)
    browser.post("/p/pool/make", {})
    assert reached.wait(60)
    threading.Timer(0.1, go_on.set).start()
    browser.app.config["MAKERS"].stop()

    assert browser.app.config["MAKERS"].of("pool").state == "stopped"
    assert [path.name for path in tmp_path.iterdir()] == ["pool.toml"]


def test_a_failure_is_told(browser, tmp_path):
    """Where the folder cannot be written the page says why."""
    (tmp_path / "pool").write_text("no folder", encoding="utf-8")

    assert made(browser).state == "failed"
    assert "is a file, not a folder" in browser.get("/p/pool/print").get_data(as_text=True)


def test_one_at_a_time(browser, monkeypatch):
    """A second press while a pack is being made begins nothing."""
    makers: Makers = browser.app.config["MAKERS"]
    hold = threading.Event()
    monkeypatch.setattr(making, "write", lambda *_, **__: hold.wait(30) and ())
    browser.post("/p/pool/make", {})
    first = makers.of("pool")
    browser.post("/p/pool/make", {})
    hold.set()
    first.thread.join()

    assert makers.of("pool") is first


# --- looking ---------------------------------------------------------------------------------


def picture(browser, path):
    answer = browser.get(path)
    assert answer.status_code == 200
    return Image.open(io.BytesIO(answer.data)).convert("RGB")


def test_pieces_are_shown_in_their_proportions(browser):
    """A piece's picture has the proportions of the card and is not empty."""
    shown = picture(browser, "/p/pool/0/0/piece/0/front.png")

    assert abs(shown.width / shown.height - 62 / 88) < 0.01
    assert len(shown.getcolors(100_000)) > 10
    assert browser.get("/p/pool/1/0/piece/0/back.png").status_code == 200


def test_a_change_gives_another_address(browser):
    """A changed tray's picture has a new address, the others keep theirs."""

    def addresses():
        body = browser.get("/p/pool/trays").get_data(as_text=True)
        return [part.partition('"')[0] for part in body.split('img src="')[1:]]

    before = addresses()
    browser.post("/p/pool/0/1", {"choices.here": "1", "choices": "3"})
    after = addresses()

    assert before[0] == after[0] and before[2] == after[2]
    assert before[1] != after[1]
    browser.post("/p/pool/0/1", {"choices.here": "1", "choices": "4"})
    assert addresses() == before


def test_offers_are_made_for_the_child(browser):
    """An offered material is shown with the child's own numbers and theme; nothing is written."""
    before = browser.text()

    assert picture(browser, "/p/pool/0/offer/pairs.png").width > 50
    assert browser.get("/p/pool/0/offer/strips.png").status_code == 404
    assert browser.text() == before


@pytest.mark.parametrize("flip", ["long", "short", "hand"])
def test_every_sheet_has_its_own_back(browser, flip):
    """The back shown with a front is the one that holds the same pieces."""
    browser.file.write_text(browser.text().replace('"long"', f'"{flip}"'), encoding="utf-8")
    from web.client import shared

    pack = shared().pack(browser.file, browser.file.read_bytes())
    files = shared().pack_plan(pack).files
    found = leaves(files)

    assert any(leaf.back for leaf in found)
    for leaf in found:
        if leaf.back is None:
            continue
        front, back = (files[file].pages[page] for file, page in (leaf.front, leaf.back))
        backed = {placed.piece.key for placed in front.placed if placed.piece.back is not None}
        assert {placed.piece.key for placed in back.placed} - {"label"} == backed - {"label"}
        assert leaf.turned == ("down" if flip == "short" else "across")


def test_the_back_laid_over_the_front(browser):
    """The switch lays the back over the front, in the way the paper is turned."""
    body = browser.get("/p/pool/leaf/0?over=1").get_data(as_text=True)

    assert 'class="sheet over across"' in body
    assert body.count("<img") == 2


def test_kept_pictures_are_bounded():
    """No more is kept than the bound says, and what is kept is not made twice."""
    from printkit.web.workshop import Kept

    kept, made_keys = Kept(3), []
    for key in (1, 2, 1, 3, 4, 1, 2):
        kept.get(key, lambda key=key: made_keys.append(key) or key)

    assert len(kept) == 3
    assert made_keys == [1, 2, 3, 4, 2]


def test_kept_values_are_made_once_by_many():
    """Many threads that ask for one thing at once get one thing."""
    from printkit.web.workshop import Kept

    kept, made_keys = Kept(3), []

    def make():
        asking.wait()
        made_keys.append(1)
        return object()

    got, asking = [], threading.Event()
    threads = [threading.Thread(target=lambda: got.append(kept.get("x", make))) for _ in range(8)]
    for thread in threads:
        thread.start()
    asking.set()
    for thread in threads:
        thread.join()

    assert len(made_keys) == 1
    assert len(set(map(id, got))) == 1


def test_pictures_drawn_at_once_are_those_drawn_alone(browser):
    """Eight pictures asked for together are pixel for pixel those asked for one by one."""
    from web.client import HERE

    from printkit.web.app import create_app

    paths = [f"/p/pool/0/{tray}/piece/{n}/front.png" for tray in (0, 1) for n in range(4)]
    alone = [browser.get(path).data for path in paths]
    fresh = create_app(browser.folder)
    got: dict[str, bytes] = {}

    def ask(path):
        got[path] = fresh.test_client().get(path, base_url=HERE).data

    threads = [threading.Thread(target=ask, args=(path,)) for path in paths]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    fresh.config["WORKSHOP"].close()

    assert [got[path] for path in paths] == alone
