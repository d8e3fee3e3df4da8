"""Requests that must fail: each has its answer, and the folder is unchanged after each."""

import socket
import threading

import pytest
from web.client import HERE, Browser, files_of
from werkzeug.serving import make_server

from printkit.web.safety import host_allowed

CHILD = "/p/pool/children/0"
RENAMED = {"name": "Pim", "name.here": "1"}


@pytest.fixture(scope="module")
def browser(tmp_path_factory):
    """A folder with one pack, and a file outside of it that nobody should see."""
    root = tmp_path_factory.mktemp("served")
    (root / "secret.toml").write_text("title = 'hidden words'", encoding="utf-8")
    folder = root / "packs"
    folder.mkdir()
    return Browser(folder)


def posts(browser, *, headers=None, host=HERE, path=CHILD, **data):
    sent = {"token": browser.token, "version": "x", **RENAMED} | data
    return browser.client.post(path, base_url=host, headers=headers or {}, data=sent)


# name -> (what is asked, the status of the answer)
REFUSED = {
    "foreign host": (lambda b: b.client.get("/", base_url="http://rock-pool.example:8137"), 403),
    "host of another port": (lambda b: b.client.get("/", base_url="http://127.0.0.1:9999"), 403),
    "host without a port": (lambda b: b.client.get("/", base_url="http://127.0.0.1"), 403),
    "host that begins like ours": (
        lambda b: b.client.get("/", base_url="http://127.0.0.1.example:8137"),
        403,
    ),
    "foreign host with the token": (lambda b: posts(b, host="http://rock-pool.example:8137"), 403),
    "foreign origin": (lambda b: posts(b, headers={"Origin": "http://rock-pool.example"}), 403),
    "no origin at all": (lambda b: posts(b, headers={"Origin": "null"}), 403),
    "origin of another port": (lambda b: posts(b, headers={"Origin": "http://127.0.0.1:1"}), 403),
    "origin of another scheme": (lambda b: posts(b, headers={"Origin": "https://127.0.0.1:8137"}), 403),
    "foreign origin that only looks": (
        lambda b: b.get("/", headers={"Origin": "http://rock-pool.example"}),
        403,
    ),
    "cross-site post": (lambda b: posts(b, headers={"Sec-Fetch-Site": "cross-site"}), 403),
    "picture in another site": (
        lambda b: b.get(
            "/p/pool/0/0/piece.png", headers={"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}
        ),
        403,
    ),
    "no token": (lambda b: b.client.post(CHILD, base_url=HERE, data=RENAMED), 403),
    "wrong token": (lambda b: posts(b, token="0" * 43), 403),
    "token that is no ASCII": (lambda b: posts(b, token="é"), 403),
    "token in the address": (
        lambda b: b.client.post(f"{CHILD}?token={b.token}", base_url=HERE, data=RENAMED),
        403,
    ),
    "token in JSON": (
        lambda b: b.client.post(CHILD, base_url=HERE, json={"token": b.token, **RENAMED}),
        403,
    ),
    "stale version": (lambda b: posts(b), 409),
    "no version": (lambda b: posts(b, version=""), 409),
    "giant form": (lambda b: b.post(CHILD, {"name": "x" * 2_000_000}), 413),
    "many fields": (
        lambda b: b.post(CHILD, {f"f{n}": "" for n in range(2_500)}, content_type="multipart/form-data"),
        413,
    ),
    "unknown pack": (lambda b: b.get("/p/none/trays"), 404),
    "parent of the folder": (lambda b: b.get("/p/../secret/trays"), 404),
    "parent, encoded": (lambda b: b.get("/p/%2e%2e%2fsecret/trays"), 404),
    "parent in a name": (lambda b: b.get("/p/..%5csecret/trays"), 404),
    "absolute name": (lambda b: b.get("/p/%2fetc%2fpasswd/trays"), 404),
    "absolute file": (lambda b: b.get("/p/pool/made/%2fetc%2fpasswd"), 404),
    "parent of the made files": (lambda b: b.get("/p/pool/made/..%2fpool.toml"), 404),
    "pack file as a made file": (lambda b: b.get("/p/pool/made/pool.toml"), 404),
    "parent of the static files": (lambda b: b.get("/static/..%2fapp.py"), 404),
    "parent of the typefaces": (lambda b: b.get("/font/..%2fREADME.md"), 404),
    "theme outside": (lambda b: b.get("/theme.png?name=../packs"), 404),
    "absolute theme": (lambda b: b.get("/theme.png?name=/etc"), 404),
    "unknown child": (lambda b: b.post("/p/pool/children/7", RENAMED), 404),
    "unknown child to look at": (lambda b: b.get("/p/pool/7/0"), 404),
    "unknown tray": (lambda b: b.get("/p/pool/0/7"), 404),
    "unknown tray to change": (lambda b: b.post("/p/pool/0/7", {}), 404),
    "unknown tray to take off": (lambda b: b.post("/p/pool/0/7/remove", {}), 404),
    "tray to a place that is none": (lambda b: b.post("/p/pool/0/0/move/9", {}), 404),
    "unknown material": (lambda b: b.post("/p/pool/0/add", {"material": "../x"}), 404),
    "unknown piece": (lambda b: b.get("/p/pool/0/0/piece/99/front.png"), 404),
    "unknown sheet": (lambda b: b.get("/p/pool/0/0/sheet/9/0.png"), 404),
    "number below none": (lambda b: b.get("/p/pool/-1/0"), 404),
    "number too long": (lambda b: b.get(f"/p/pool/{'9' * 400}/0"), 404),
    "changing by looking": (lambda b: b.get("/p/pool/0/0/remove"), 405),
    "deleting": (lambda b: b.client.delete("/p/pool/trays", base_url=HERE), 403),
    "name that is a path": (
        lambda b: b.post("/begin", {"child": "Wren", "title": "../../out", "theme": "../x"}),
        422,
    ),
    "child that is a path": (
        lambda b: b.post("/p/pool/children/add", {"name": "../Pim", "numbers.0": "1", "numbers.1": "3"}),
        422,
    ),
    "theme that is outside": (
        lambda b: b.post("/p/pool/season", {"theme": "../none", "theme.here": "1"}),
        422,
    ),
    "numbers that are none": (
        lambda b: b.post(CHILD, {"numbers.here": "1", "numbers.0": "one", "numbers.1": "1e999"}),
        422,
    ),
    "last tray": (lambda b: b.post("/p/pool/1/0/remove", {}), 422),
}


@pytest.mark.parametrize("case", REFUSED)
def test_refused(browser, case):
    """Each such request is answered as the table says, and nothing in the folder is another."""
    ask, status = REFUSED[case]
    before = files_of(browser.folder.parent)

    answer = ask(browser)

    assert answer.status_code == status
    assert "hidden words" not in answer.get_data(as_text=True)
    assert files_of(browser.folder.parent) == before


def test_headers(browser):
    """Every page forbids scripts of others, frames and guessing at kinds of files."""
    answer = browser.get("/p/pool/trays")

    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"


@pytest.mark.parametrize("page", ["/", "/p/pool/children", "/p/pool/0/1", "/p/pool/print", "/p/pool/0/add"])
def test_no_script_or_style_in_the_page(browser, page):
    """No page holds a script, a style or an address outside, which the policy would forbid anyway."""
    body = browser.get(page).get_data(as_text=True)

    assert " style=" not in body
    assert "<style" not in body
    assert " onclick" not in body
    assert body.count("<script") == body.count('<script src="/static/page.js"')
    assert "//" not in body.replace("http://127.0.0.1:8137/", "").replace("<!doctype", "")


@pytest.mark.parametrize(
    ("host", "address", "allowed"),
    [
        ("127.0.0.1:8137", "127.0.0.1", True),
        ("localhost:8137", "127.0.0.1", True),
        ("[::1]:8137", "::1", True),
        ("192.168.1.7:8137", "127.0.0.1", False),
        ("192.168.1.7:8137", "192.168.1.7", True),
        ("192.168.1.7:8137", "0.0.0.0", True),
        ("shelf.example:8137", "0.0.0.0", False),
        ("127.0.0.1:8137@example", "127.0.0.1", False),
        ("", "127.0.0.1", False),
    ],
)
def test_hosts(host, address, allowed):
    """Only this machine's own addresses are hosts; names that could be turned to it are none."""
    assert host_allowed(host, address, 8137) is allowed


def test_raw_requests(browser):
    """What no client would send is refused too: two hosts, no host, a path with two dots."""
    server = make_server("127.0.0.1", 0, browser.app, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    answers = []
    try:
        for request in (
            b"GET / HTTP/1.1\r\nHost: rock-pool.example\r\nConnection: close\r\n\r\n",
            b"GET / HTTP/1.1\r\nConnection: close\r\n\r\n",
            b"GET http://rock-pool.example/ HTTP/1.1\r\nHost: rock-pool.example:8137\r\n"
            b"Connection: close\r\n\r\n",
            b"GET /p/../../secret.toml HTTP/1.1\r\nHost: 127.0.0.1:8137\r\nConnection: close\r\n\r\n",
        ):
            with socket.create_connection(server.server_address[:2], timeout=10) as line:
                line.sendall(request)
                answers.append(line.makefile("rb").readline().split()[1])
    finally:
        server.shutdown()
        thread.join()
        server.server_close()

    assert answers == [b"403", b"403", b"403", b"404"]
