"""Draws the picture of the page for README: python tests/page_picture.py samples/page.png"""

import io
import shutil
import sys
import tempfile
import threading
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright
from werkzeug.serving import make_server

from printkit.web.app import create_app

SAMPLE = Path(__file__).parents[1] / "samples" / "rock-pool-summer.toml"
SHOWN = (("trays", 1180, 860), ("trays", 360, 860))
_GAP = 24


def pictures(folder: Path) -> list[Image.Image]:
    """The shelf of the sample pack, on a desk screen and on a phone."""
    shutil.copyfile(SAMPLE, folder / SAMPLE.name)
    port = 8139
    server = make_server("127.0.0.1", port, create_app(folder, port=port), threaded=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    found = []
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for station, wide, high in SHOWN:
            page = browser.new_page(viewport={"width": wide, "height": high})
            page.goto(f"http://127.0.0.1:{port}/p/{SAMPLE.stem}/{station}")
            page.wait_for_load_state("networkidle")
            found.append(Image.open(io.BytesIO(page.screenshot())).convert("RGB"))
        browser.close()
    server.shutdown()
    return found


def main(out: Path) -> None:
    with tempfile.TemporaryDirectory() as folder:
        found = pictures(Path(folder))
    wide = sum(image.width for image in found) + _GAP * (len(found) - 1)
    whole = Image.new("RGB", (wide, max(image.height for image in found)), "white")
    left = 0
    for image in found:
        whole.paste(image, (left, 0))
        left += image.width + _GAP
    whole.quantize(160).save(out, optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
