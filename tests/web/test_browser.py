"""The whole way in a browser: by mouse and keyboard, without scripts, narrow and wide, four languages."""

import os
import shutil
import threading
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner
from hostile import svg
from web.client import PACK, files_of, shared
from werkzeug.serving import make_server

from printkit.cli import commands
from printkit.web.app import create_app
from printkit.web.words import page_languages

pytestmark = pytest.mark.browser
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
AXE = Path(os.environ.get("AXE", "axe.min.js"))
PAGES = (
    "/", "/p/pool/children", "/p/pool/season", "/p/pool/trays", "/p/pool/0/1", "/p/pool/0/add",
    "/p/pool/paper", "/p/pool/print", "/p/pool/leaf/0", "/p/pool/leaf/0?over=1",
    "/p/pool/lost?child=0&tray=1",
    "/p/pool/watch", "/nothing",
)  # fmt: skip


@pytest.fixture(scope="module")
def chromium():
    """Debian's browser; where there is none these tests are skipped."""
    sync_api = pytest.importorskip("playwright.sync_api", reason="Playwright is not installed")
    if CHROMIUM is None:
        pytest.skip("no Chromium here")
    with sync_api.sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield browser
        browser.close()


@pytest.fixture
def served(tmp_path):
    """The page of an empty folder on a port of its own: (address, folder)."""
    import socket

    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    app = create_app(tmp_path / "packs", port=port, workshop=shared())
    server = make_server("127.0.0.1", port, app, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{port}", tmp_path / "packs"
    server.shutdown()
    thread.join()
    server.server_close()


def written(served):
    """A pack file in the folder."""
    url, folder = served
    folder.mkdir(exist_ok=True)
    (folder / "pool.toml").write_text(PACK, encoding="utf-8")
    return url, folder


def context(chromium, **more):
    found = chromium.new_context(**({"viewport": {"width": 1280, "height": 900}} | more))
    found.set_default_timeout(120_000)
    return found


def test_from_an_empty_folder_to_the_files(chromium, served):
    """Begin, two children, theme, tray, setting, make, open: the files are the command line's."""
    url, folder = served
    with context(chromium) as tab:
        page = tab.new_page()
        page.goto(url)
        page.get_by_label("What is the child called?").fill("Wren")
        page.get_by_label("to", exact=True).fill("4")
        page.get_by_label("Rock pool").check()
        page.get_by_role("button", name="Put the first trays").click()
        page.get_by_label("Name", exact=True).last.fill("Juno")
        page.get_by_role("button", name="Add the child").click()
        page.get_by_role("link", name="Next: Which season").click()
        page.get_by_label("Name of the pack").fill("Low tide")
        page.get_by_label("Name of the pack").blur()
        page.get_by_text("Saved", exact=True).wait_for()
        page.get_by_role("button", name="Save and go on: Which trays").click()
        page.get_by_role("link", name="Put another tray on Juno's shelf").click()
        page.locator("#offer-pairs button").click()
        before = page.locator(".pieces img").first.get_attribute("src")
        page.get_by_label("Pairs", exact=True).fill("3")
        page.get_by_label("Pairs", exact=True).blur()
        page.get_by_text("Saved", exact=True).wait_for()
        assert page.locator(".pieces img").first.get_attribute("src") != before
        page.get_by_role("link", name="Print").first.click()
        page.get_by_role("button", name="Make the PDFs").click()
        page.get_by_text("All files are made.").wait_for()
        with page.expect_download() as saved:
            page.get_by_role("link", name="Save all together").click()
        assert saved.value.suggested_filename == "rock-pool.zip"

    result = CliRunner().invoke(commands, ["make", str(folder / "rock-pool.toml"), "-o", str(folder / "cli")])
    assert result.exit_code == 0
    assert files_of(folder / "cli") == files_of(folder / "rock-pool")
    text = (folder / "rock-pool.toml").read_text(encoding="utf-8")
    assert 'title     = "Low tide"' in text
    trays = tomllib.loads(text)["children"][1]["materials"]
    assert 3 in [tray.get("pairs") for tray in trays if isinstance(tray, dict)]
    assert "# one: flag" not in text


def test_a_wrong_value_is_told_beside_its_field(chromium, served):
    """With scripts a refused value stays on the page with its sentence, and the file stays as it was."""
    url, folder = written(served)
    with context(chromium) as tab:
        page = tab.new_page()
        page.goto(f"{url}/p/pool/paper")
        margin = page.get_by_label("Margin")
        margin.fill("2")
        margin.blur()
        page.get_by_text("Found 2; allowed: 3 to 40 mm").last.wait_for()
        assert margin.input_value() == "2"
        assert margin.get_attribute("aria-invalid") == "true"
        assert (folder / "pool.toml").read_text(encoding="utf-8") == PACK
        margin.fill("12")
        margin.blur()
        page.get_by_text("Saved", exact=True).wait_for()
        assert margin.get_attribute("aria-invalid") is None
    assert "margin    = 12" in (folder / "pool.toml").read_text(encoding="utf-8")


def test_two_tabs(chromium, served):
    """The later of two tabs is told; what the first wrote stays."""
    url, folder = written(served)
    with context(chromium) as tab:
        one, two = tab.new_page(), tab.new_page()
        for page in (one, two):
            page.goto(f"{url}/p/pool/paper")
        one.get_by_label("Margin").fill("12")
        one.get_by_label("Margin").blur()
        one.get_by_text("Saved", exact=True).wait_for()
        two.get_by_label("Margin").fill("15")
        two.get_by_label("Margin").blur()
        two.get_by_text("The pack was changed meanwhile").wait_for()
    assert "margin    = 12" in (folder / "pool.toml").read_text(encoding="utf-8")


def test_keyboard_alone(chromium, served):
    """Tab reaches every link and button in the order of the page, with a visible focus; Enter works."""
    url, folder = written(served)
    with context(chromium) as tab:
        page = tab.new_page()
        page.goto(f"{url}/p/pool/trays")
        reached = []
        for _ in range(40):
            page.keyboard.press("Tab")
            seen = page.evaluate(
                "(() => { const e = document.activeElement; return [e.tagName, e.textContent.trim(), "
                "getComputedStyle(e).outlineStyle, getComputedStyle(e).outlineWidth] })()"
            )
            if seen[0] == "BODY":
                break
            reached.append(seen)
        wanted = page.locator("a, button, select").count()
        assert len(reached) == wanted
        assert all(style != "none" and width != "0px" for _, _, style, width in reached)
        page.get_by_role("link", name="Count and clip").focus()
        page.keyboard.press("Enter")
        page.wait_for_url("**/p/pool/0/1")
        page.get_by_label("Choices").focus()
        page.keyboard.press("Control+a")
        page.keyboard.type("3")
        page.keyboard.press("Enter")
        page.get_by_text("Saved", exact=True).wait_for()
        page.get_by_label("Choices").fill("4")
        page.get_by_role("button", name="Move to the left").press("Enter")
        page.wait_for_url("**/p/pool/0/0")
    assert "choices = 4" in (folder / "pool.toml").read_text(encoding="utf-8")


def test_without_scripts(chromium, served):
    """With scripts off the forms save by their buttons, and making is followed by loading again."""
    url, folder = written(served)
    with context(chromium, java_script_enabled=False) as tab:
        page = tab.new_page()
        page.goto(f"{url}/p/pool/paper")
        page.get_by_label("Margin").fill("12")
        page.get_by_role("button", name="Save and go on: Print").click()
        page.wait_for_url("**/print")
        assert "margin    = 12" in (folder / "pool.toml").read_text(encoding="utf-8")
        page.get_by_role("link", name="Print").first.click()
        page.get_by_role("button", name="Make the PDFs").click()
        page.get_by_text("All files are made.").wait_for()
    assert (folder / "pool" / "guide.pdf").exists()


def test_own_pictures(chromium, served, tmp_path):
    """Pictures with a broken one among them: the good are kept and used, the broken one is named."""
    url, folder = written(served)
    for number, color in enumerate(("c33", "36c", "393")):
        (tmp_path / f"thing {number}.svg").write_bytes(
            svg(
                f'<rect x="{10 + 9 * number}" y="10" width="50" height="{40 + 20 * number}" fill="#{color}"/>'
            )
        )
    (tmp_path / "broken.png").write_bytes(b"no picture")
    with context(chromium) as tab:
        page = tab.new_page()
        page.goto(f"{url}/p/pool/season")
        page.get_by_label("What do these pictures show?").fill("Our shed")
        page.locator("input[type=file]").set_input_files(
            [*tmp_path.glob("thing*.svg"), tmp_path / "broken.png"]
        )
        page.get_by_role("button", name="Look at them").click()
        page.get_by_text("3 pictures are ready to use").wait_for()
        assert page.get_by_text("broken.png").count() == 1
        page.get_by_role("button", name="Use 'our-shed'").click()
        page.wait_for_url("**/season")
    assert 'theme     = "our-shed"' in (folder / "pool.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(("width", "scheme"), [(360, "dark"), (1280, "light")])
def test_accessible(chromium, served, width, scheme):
    """On no page axe-core finds anything of level A or AA; nothing is wider than the window."""
    if not AXE.exists():
        pytest.skip("axe-core is not here; AXE names its axe.min.js")
    url, _ = written(served)
    rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
    found = []
    with context(
        chromium, viewport={"width": width, "height": 900}, color_scheme=scheme, bypass_csp=True
    ) as tab:
        page = tab.new_page()
        for path in PAGES:
            page.goto(url + path)
            page.evaluate("document.querySelectorAll('details').forEach((part) => { part.open = true })")
            page.add_script_tag(path=str(AXE))
            result = page.evaluate("(tags) => axe.run({ runOnly: tags })", rules)
            found += [
                (path, item["id"], node["html"][:120])
                for item in result["violations"]
                for node in item["nodes"]
            ]
            wide = page.evaluate("document.documentElement.scrollWidth")
            found += [(path, "too wide", wide)] if wide > width else []
    assert found == []


@pytest.mark.parametrize("language", page_languages())
def test_languages(chromium, served, language):
    """The page speaks as the browser asks, and otherwise if told so by hand."""
    url, _ = written(served)
    with context(chromium, locale=language, viewport={"width": 360, "height": 800}) as tab:
        page = tab.new_page()
        for path in PAGES[::2]:
            page.goto(url + path)
            assert page.locator("html").get_attribute("lang") == language
            assert page.evaluate("document.documentElement.scrollWidth") <= 360
        other = next(tag for tag in page_languages() if tag != language or len(page_languages()) == 1)
        page.goto(url)
        page.locator("#tongue").select_option(other)
        page.locator(".tongue button").click()
        page.wait_for_function("(tag) => document.documentElement.lang === tag", arg=other)
