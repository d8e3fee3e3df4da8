"""Hostile, damaged and mistaken files: one sentence each that names the file, and no traceback."""

import gzip
import http.server
import threading

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.errors import PrintkitError
from printkit.pictures.svg import read_svg

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def svg(inside: str, at: str = 'viewBox="0 0 100 100"', before: str = "") -> bytes:
    return f"{before}{HEAD} {at}>{inside}</svg>".encode()


SQUARE = '<rect width="50" height="50"/>'
LAUGHS = '<!DOCTYPE svg [<!ENTITY a0 "lol">{}]>'.format(
    "".join('<!ENTITY a{} "{}">'.format(i, f"&a{i - 1};" * 10) for i in range(1, 10))
)
TREE = '<defs><rect id="u0" width="1" height="1"/>{}</defs><use href="#u8"/>'.format(
    "".join('<g id="u{}">{}</g>'.format(i, f'<use href="#u{i - 1}"/>' * 10) for i in range(1, 9))
)
FILES = {
    "empty": (b"", "the file is empty"),
    "blank": (b" \n ", "the file is empty"),
    "png": (
        b"\x89PNG\r\n\x1a\n",
        "this is not an SVG drawing but a PNG picture; give the file the ending .png",
    ),
    "jpeg": (
        b"\xff\xd8\xff\xe0",
        "this is not an SVG drawing but a JPEG picture; give the file the ending .jpg",
    ),
    "pdf": (b"%PDF-1.7", "this is not an SVG drawing but a PDF; export the drawing as SVG"),
    "gzip": (
        gzip.compress(svg(SQUARE)),
        "this is not an SVG drawing but a compressed SVG; save it as a plain SVG",
    ),
    "html": (b"<!DOCTYPE html><html><p>no", "this is a web page, not an SVG drawing"),
    "whole html": (b"<html><body>no</body></html>", "this is a web page, not an SVG drawing"),
    "other xml": (b"<note>no</note>", "this is not an SVG drawing: it starts with <note>"),
    "words": (b"a gull", "the drawing is damaged or breaks off at line 1; save it anew as SVG"),
    "truncated": (
        svg("\n" + SQUARE)[:-20],
        "the drawing is damaged or breaks off at line 2; save it anew as SVG",
    ),
    "odd encoding": (
        b'<?xml version="1.0" encoding="klingon"?><svg/>',
        "the drawing is in an encoding that cannot be read; save it as UTF-8",
    ),
    "no size": (
        svg(SQUARE, ""),
        "the drawing has no size: it needs a viewBox, or a width and a height",
    ),
    "size in percent": (
        svg(SQUARE, 'width="100%" height="100%"'),
        "the drawing has no size: it needs a viewBox, or a width and a height",
    ),
    "no viewBox to speak of": (
        svg(SQUARE, 'viewBox="0 0 0 0"'),
        "the drawing's size, 0 by 0, cannot be drawn",
    ),
    "dust": (
        svg(SQUARE, 'viewBox="0 0 1e-9 1e-9"'),
        "the drawing's size, 1e-09 by 1e-09, cannot be drawn",
    ),
    "nothing": (svg(""), "nothing of the drawing can be seen"),
    "nothing inside": (
        svg('<rect x="500" width="9" height="9"/>'),
        "nothing of the drawing can be seen",
    ),
    "just outside": (
        svg('<path d="M-3 10v20" stroke="red" stroke-width="4"/>'),
        "nothing of the drawing can be seen",
    ),
    "not a number": (svg('<path d="M NaN 0 L 10 inf"/>'), "nothing of the drawing can be seen"),
    "huge number": (
        svg('<rect width="1e400" height="5"/>'),
        "the drawing holds a number that is too large; allowed: up to 10,000,000",
    ),
    "huge path": (
        svg('<path d="M1e308 0L-1e308 5 5 5z"/>'),
        "the drawing holds a number that is too large; allowed: up to 10,000,000",
    ),
    "huge transform": (
        svg(f'<g transform="scale(1e6)"><g transform="scale(1e6)">{SQUARE}</g></g>'),
        "the drawing holds a number that is too large; allowed: up to 10,000,000",
    ),
    "entity of a file": (
        svg("&e;", before='<!DOCTYPE svg [<!ENTITY e SYSTEM "file:///etc/passwd">]>'),
        "the drawing refers to another file by an entity; save it as a plain SVG",
    ),
    "parameter entity": (
        svg(SQUARE, before='<!DOCTYPE svg [<!ENTITY % p "x"> %p;]>'),
        "the drawing refers to another file by an entity; save it as a plain SVG",
    ),
    "laughs": (
        svg("&a9;", before=LAUGHS),
        "the drawing holds an entity that grows when read; save it as a plain SVG",
    ),
    "long entity": (
        svg("&a;" * 99, before='<!DOCTYPE svg [<!ENTITY a "{}">]>'.format("x" * 999)),
        "the drawing holds an entity that grows when read; save it as a plain SVG",
    ),
    "too large": (svg(" " * 2_100_000), "the drawing is 2.1 MB large; allowed: at most 2 MB"),
    "too many elements": (
        svg("<g/>" * 20_001),
        "the drawing has too many elements; allowed: at most 20,000",
    ),
    "too deep": (
        svg("<g>" * 1000 + "</g>" * 1000),
        "the drawing's groups are nested too deep; allowed: at most 64 levels",
    ),
    "too long a path": (
        svg('<path d="M0 0{}"/>'.format("l1 1" * 50_001)),
        "the drawing holds a path that is too long; allowed: at most 50,000 points",
    ),
    "too many points": (
        svg('<path id="a" d="M0 0{}"/>'.format("l1 1" * 12_000) + '<use href="#a"/>' * 20),
        "the drawing is too intricate; allowed: at most 200,000 points",
    ),
    "too long a transform": (
        svg('<g transform="{}">{}</g>'.format("scale(1)" * 2000, SQUARE)),
        "the drawing holds a transform that is too long; allowed: at most 2,000 characters",
    ),
    "too long a dash": (
        svg('<g style="stroke-dasharray:{}">{}</g>'.format("1 " * 2000, SQUARE)),
        "the drawing holds a stroke-dasharray that is too long; allowed: at most 2,000 characters",
    ),
    "too long a style": (
        svg(f"<style>{'a' * 200_001}</style>"),
        "the drawing's style sheet is too long; allowed: at most 200 kB",
    ),
    "use of itself": (
        svg('<g id="a"><use href="#a"/></g>'),
        "the drawing's <use> elements lead in a circle or too deep",
    ),
    "use of each other": (
        svg('<g id="a"><use href="#b"/></g><g id="b"><use xlink:href="#a"/></g>'),
        "the drawing's <use> elements lead in a circle or too deep",
    ),
    "use of use": (
        svg(TREE),
        "the drawing repeats its parts too often; allowed: at most 20,000 parts",
    ),
}


@pytest.mark.parametrize(("data", "sentence"), FILES.values(), ids=FILES)
def test_files_that_are_refused_say_why(data, sentence):
    """The whole sentence, with the file's name in front, and no other problem."""
    with pytest.raises(PrintkitError) as caught:
        read_svg(data, "pond/frog.svg")
    assert [str(problem) for problem in caught.value.problems] == [f"pond/frog.svg: {sentence}"]


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
