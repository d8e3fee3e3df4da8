"""Hostile, damaged and mistaken SVG files, and the sentence that each is refused with."""

import gzip

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
    "not a number": (
        svg('<path d="M NaN 0 L 10 inf"/>'),
        "nothing of the drawing can be seen, as it is drawn without the unreadable part of a path; "
        "save it as PNG instead",
    ),
    "only a photo": (
        svg('<image width="100" height="100" href="file:///etc/passwd"/>'),
        "nothing of the drawing can be seen, as it is drawn without the photo inside it; "
        "save it as PNG instead",
    ),
    "only a photo's own data": (
        svg('<image width="100" height="100" href="data:image/png;base64,iVBORw0KGgo="/><text>gull</text>'),
        "nothing of the drawing can be seen, as it is drawn without its text (turn letters into paths) and "
        "without the photo inside it; save it as PNG instead",
    ),
    "use of another file": (
        svg('<use xlink:href="http://127.0.0.1:9/frog.svg#a"/>'),
        "nothing of the drawing can be seen",
    ),
    "huge size": (
        svg(SQUARE, 'width="1e9" height="1e9"'),
        "the drawing holds a number that is too large; allowed: up to 10,000,000",
    ),
    "size that is no number": (
        svg(SQUARE, 'viewBox="0 0 NaN inf"'),
        "the drawing has no size: it needs a viewBox, or a width and a height",
    ),
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
    "a million points": (
        svg('<path d="M0 0{}"/>'.format("".join(f"L{i % 100} {i * 7 % 100}" for i in range(1_000_000)))),
        "the drawing is 5.8 MB large; allowed: at most 2 MB",
    ),
    "a hundred thousand points": (
        svg('<path d="M0 0{}"/>'.format("".join(f"L{i % 100} {i * 7 % 100}" for i in range(100_000)))),
        "the drawing holds a path that is too long; allowed: at most 20,000 points",
    ),
    "a hundred thousand elements": (
        svg('<rect width="1" height="1"/>' * 60_000),
        "the drawing has too many elements; allowed: at most 20,000",
    ),
    "a hundred thousand groups": (
        svg("<g>" * 100_000 + "</g>" * 100_000),
        "the drawing's groups are nested too deep; allowed: at most 64 levels",
    ),
    "clips of many points": (
        svg(
            '<clipPath id="c"><path d="M0 0{}"/></clipPath>'.format("l1 1" * 9_000)
            + '<rect width="99" height="99" clip-path="url(#c)"/>' * 500
        ),
        "the drawing is too intricate; allowed: at most 60,000 points",
    ),
    "groups clipped over and over": (
        svg(
            '<clipPath id="c"><circle r="50"/></clipPath>{}{}{}'.format(
                '<g opacity=".9" clip-path="url(#c)">' * 60, SQUARE * 4_000, "</g>" * 60
            )
        ),
        "the drawing is too intricate; allowed: at most 60,000 points",
    ),
    "many gradients of many stops": (
        svg(
            '<linearGradient id="a" x2=".0001" spreadMethod="repeat">{}</linearGradient>{}'.format(
                "".join(f'<stop offset="{i / 250}" stop-color="#{i:03x}"/>' for i in range(250)),
                '<rect width="99" height="99" fill="url(#a)"/>' * 15_000,
            )
        ),
        "the drawing is too intricate; allowed: at most 60,000 points",
    ),
    "many rules": (
        svg("<style>{}</style>{}".format("g .a{fill:red}" * 1_900, '<g><path class="a"/></g>' * 5_000)),
        "the drawing's style rules take too long to follow",
    ),
    "too many rules": (
        svg(f"<style>{'g .a{fill:red}' * 6_000}</style>{SQUARE}"),
        "the drawing has too many style rules; allowed: at most 2,000",
    ),
    "too long a class": (
        svg(f'<g class="{"a " * 2000}">{SQUARE}</g>'),
        "the drawing holds a class that is too long; allowed: at most 2,000 characters",
    ),
    "too long a path": (
        svg('<path d="M0 0{}"/>'.format("l1 1" * 20_001)),
        "the drawing holds a path that is too long; allowed: at most 20,000 points",
    ),
    "too many points": (
        svg('<path id="a" d="M0 0{}"/>'.format("l1 1" * 12_000) + '<use href="#a"/>' * 20),
        "the drawing is too intricate; allowed: at most 60,000 points",
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
        svg(f"<style>{'a' * 100_001}</style>"),
        "the drawing's style sheet is too long; allowed: at most 100 kB",
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
        "the drawing repeats its parts too often; allowed: at most 5,000 parts",
    ),
}

# What only looks harmful, and the notes that it is drawn with.
DRAWN = {
    "document type elsewhere": (
        svg(SQUARE, before='<!DOCTYPE svg SYSTEM "http://127.0.0.1:9/svg.dtd">'),
        (),
    ),
    "style sheet elsewhere": (
        svg(SQUARE, before='<?xml-stylesheet href="http://127.0.0.1:9/a.css" type="text/css"?>'),
        (),
    ),
    "import in a style": (svg(f"<style>@import url(http://127.0.0.1:9/a.css);</style>{SQUARE}"), ()),
    "script": (svg(f'<script>alert(1)</script><g onload="alert(2)">{SQUARE}</g>'), ()),
    "photo beside a shape": (
        svg(f'<image width="9" height="9" href="../canary.png"/>{SQUARE}'),
        ("without the photo inside it",),
    ),
    "gradients in a circle": (
        svg(
            '<linearGradient id="a" href="#b"/><linearGradient id="b" href="#a"/>'
            f'<g fill="url(#a)">{SQUARE}</g>{SQUARE}'
        ),
        (),
    ),
    "clips in a circle": (
        svg(
            '<clipPath id="a" clip-path="url(#a)"><rect width="9" height="9" clip-path="url(#a)"/></clipPath>'
            f'<g clip-path="url(#a)">{SQUARE}</g>'
        ),
        ("with a simpler edge where it is clipped (clipPath)",),
    ),
    "no viewBox": (svg(SQUARE, 'width="100" height="100"'), ()),
    "two-byte letters": (svg(SQUARE).decode().encode("utf-16"), ()),
    "numbers that are none": (svg(f'<circle cx="NaN" cy="5" r="nan"/>{SQUARE}'), ()),
}
