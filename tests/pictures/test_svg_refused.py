"""Hostile, damaged and mistaken files: one sentence each that names the file, and no traceback."""

import http.server
import threading

import pytest
from hostile import DRAWN, FILES, SQUARE, svg
from hypothesis import given
from hypothesis import strategies as st

from printkit.errors import PrintkitError
from printkit.pictures.svg import read_svg


@pytest.mark.parametrize(("data", "sentence"), FILES.values(), ids=FILES)
def test_files_that_are_refused_say_why(data, sentence):
    """The whole sentence, with the file's name in front, and no other problem."""
    with pytest.raises(PrintkitError) as caught:
        read_svg(data, "pond/frog.svg")
    assert [str(problem) for problem in caught.value.problems] == [f"pond/frog.svg: {sentence}"]


@pytest.mark.parametrize(("data", "notes"), DRAWN.values(), ids=DRAWN)
def test_files_that_only_look_harmful_are_drawn(data, notes):
    """What is not needed is left out; what is drawn otherwise is named."""
    assert read_svg(data, "pond/frog.svg").notes == notes


def test_nothing_outside_the_file_is_read(tmp_path):
    """No address in a drawing is followed: neither in pictures, <use>, styles nor the document type."""
    asked = []

    class Listener(http.server.BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            self.send_response(404)
            self.end_headers()

        def log_message(self, *_: object) -> None:
            pass

    server = http.server.HTTPServer(("127.0.0.1", 0), Listener)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    site = f"http://127.0.0.1:{server.server_port}"
    (tmp_path / "canary.svg").write_bytes(svg('<g id="a"><rect width="99" height="99"/></g>'))
    data = svg(
        f'<image width="9" height="9" href="{site}/image.png"/><use href="{site}/use.svg#a"/>'
        f'<use href="{(tmp_path / "canary.svg").as_uri()}#a"/><script href="{site}/script.js"/>'
        f"<style>@import url({site}/style.css);</style>"
        f'<path id="rest" d="M1 1h8v8z" fill="url({site}/paint.svg#a)"/>',
        before=f'<?xml-stylesheet href="{site}/sheet.css"?><!DOCTYPE svg SYSTEM "{site}/svg.dtd">',
    )
    try:
        art = read_svg(data, "frog.svg")
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
    assert [item.ids for item in art.items] == [("rest",)]
    assert art.notes == ("without the photo inside it",)
    assert asked == []


def outcome(data: bytes) -> str:
    try:
        read_svg(data, "frog.svg")
    except PrintkitError as error:
        return "one problem" if len(error.problems) == 1 else "many problems"
    return "drawn"


@given(st.binary(max_size=200))
def test_any_bytes_end_in_a_drawing_or_a_problem(data):
    """Bytes of any kind raise nothing but a PrintkitError."""
    assert outcome(data) in ("drawn", "one problem")


_WORDS = st.text(alphabet="MmLlCcAaQqZz0123456789.,-+eE NnIi%#()\"'url", max_size=60)


@given(_WORDS, _WORDS, _WORDS, st.sampled_from(["path", "rect", "circle", "polygon", "use", "g"]))
def test_any_attributes_end_in_a_drawing_or_a_problem(path, paint, transform, tag):
    """Attribute values of any kind raise nothing but a PrintkitError."""
    from xml.sax.saxutils import quoteattr

    element = (
        f"<{tag} d={quoteattr(path)} width={quoteattr(path)} height='9' r={quoteattr(path)}"
        f" points={quoteattr(path)} fill={quoteattr(paint)} stroke={quoteattr(paint)}"
        f" stroke-width={quoteattr(path)} style={quoteattr(paint)} transform={quoteattr(transform)}/>"
    )
    assert outcome(svg(element + SQUARE)) in ("drawn", "one problem")
