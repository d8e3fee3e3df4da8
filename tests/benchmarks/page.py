"""How long a change takes on the page, beside the same sheet made by the library.

python tests/benchmarks/page.py: 50 single settings of the biggest sample are changed one after the other;
printed are the medians of 'change, page with its numbers, picture of the piece and of the sheet' and of
'read the pack, plan that one set, draw the sheet', their ratio, and the memory at the end.
"""

import re
import resource
import shutil
import statistics
import tempfile
import time
import tomllib
from pathlib import Path

from printkit.build import Wish, plan
from printkit.materials import material_keys
from printkit.pack.reader import read_pack
from printkit.shown import page_images
from printkit.web.app import create_app
from printkit.web.folder import Folder
from printkit.writer import write

SAMPLE = Path(__file__).parents[2] / "samples" / "whole-shelf-spring.toml"
HERE = "http://127.0.0.1:8137"
NAME, TRAY, SET, KEY = "Juno", 2, "strips", "count"


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        file = root / SAMPLE.name
        shutil.copyfile(SAMPLE, file)
        app = create_app(root)
        client, token = app.test_client(), app.config["TOKEN"]
        children = [child["name"] for child in tomllib.loads(file.read_text(encoding="utf-8"))["children"]]
        by_page, by_library = [], []
        for number in range(52):
            here = f"/p/{file.stem}/{children.index(NAME)}/{TRAY}"
            version = Folder(root).read(file.stem).version
            said = {"token": token, "version": version, f"{KEY}.here": "1", KEY: str(3 + number)}
            begin = time.perf_counter()
            answer = client.post(here, base_url=HERE, data=said, follow_redirects=True)
            pictures = re.findall(r'src="([^"]+/(?:piece|sheet)/[^"]+)"', answer.get_data(as_text=True))
            assert answer.status_code == 200 and len(pictures) > 1
            for picture in (pictures[0], pictures[-1]):
                assert client.get(picture.replace("&amp;", "&"), base_url=HERE).status_code == 200
            middle = time.perf_counter()
            made = plan(read_pack(file, material_keys()), Wish(child=NAME, set=SET))
            data = write([made.files[0].pages[0]], title="sheet", language="en").data
            next(page_images(data, 72)).save(root / "sheet.png")
            by_page.append(middle - begin)
            by_library.append(time.perf_counter() - middle)
    page, library = statistics.median(by_page[2:]), statistics.median(by_library[2:])
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(f"page {page * 1000:.0f} ms, library {library * 1000:.0f} ms, ratio {page / library:.2f}")
    print(f"memory at most {most} MB")


if __name__ == "__main__":
    main()
