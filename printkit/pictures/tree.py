"""The bytes of an SVG file -> a tree of elements, within limits that no honest drawing comes near.

Nothing outside the file is ever read: entities that stand for files or for other entities are refused.
"""

from dataclasses import dataclass, field
from typing import Any
from xml.parsers import expat

MAX_BYTES = 2_000_000
MAX_ELEMENTS = 20_000
MAX_DEPTH = 64
MAX_ENTITY = 256

_SVG = "http://www.w3.org/2000/svg"
_XLINK_HREF = "http://www.w3.org/1999/xlink href"

_OTHER_KINDS = (
    (b"\x89PNG", "a PNG picture; give the file the ending .png"),
    (b"\xff\xd8\xff", "a JPEG picture; give the file the ending .jpg"),
    (b"RIFF", "a WebP picture; give the file the ending .webp"),
    (b"GIF8", "a GIF picture; save it as PNG"),
    (b"%PDF", "a PDF; export the drawing as SVG"),
    (b"%!PS", "a PostScript file; export the drawing as SVG"),
    (b"\x1f\x8b", "a compressed SVG; save it as a plain SVG"),
)


class UnusableError(Exception):
    """A picture that cannot be used; `found` and `allowed` are those of a Problem."""

    def __init__(self, found: str, allowed: str = ""):
        super().__init__(found)
        self.found = found
        self.allowed = allowed


@dataclass(slots=True, eq=False)
class Node:
    """One element: its tag and attributes without their namespaces, its children, its text."""

    tag: str
    attributes: dict[str, str]
    children: list["Node"] = field(default_factory=list)
    text: str = ""
    parent: "Node | None" = field(default=None, repr=False)

    @property
    def classes(self) -> list[str]:
        return self.attributes.get("class", "").split()


def read_tree(data: bytes) -> Node:
    """The root element. Raises UnusableError for whatever is not a whole, harmless SVG file."""
    if not data.strip():
        raise UnusableError("the file is empty")
    for start, kind in _OTHER_KINDS:
        if data.startswith(start):
            raise UnusableError(f"this is not an SVG drawing but {kind}")
    if len(data) > MAX_BYTES:
        raise UnusableError(
            f"the drawing is {len(data) / 1e6:.1f} MB large", f"at most {MAX_BYTES / 1e6:.0f} MB"
        )
    root = Node("", {})
    try:
        _parser(root).Parse(data, True)
    except expat.ExpatError as error:
        if _is_web_page(data):
            raise UnusableError("this is a web page, not an SVG drawing") from None
        raise UnusableError(
            f"the drawing is damaged or breaks off at line {error.lineno}; save it anew as SVG"
        ) from None
    except (LookupError, ValueError):
        raise UnusableError("the drawing is in an encoding that cannot be read; save it as UTF-8") from None
    svg = root.children[0]
    if svg.tag != "svg":
        if _is_web_page(data):
            raise UnusableError("this is a web page, not an SVG drawing")
        raise UnusableError(f"this is not an SVG drawing: it starts with <{svg.tag or 'something else'}>")
    return svg


def _is_web_page(data: bytes) -> bool:
    head = data[:512].lstrip().lower()
    return head.startswith((b"<!doctype html", b"<html"))


def _parser(root: Node) -> Any:
    """An expat parser that hangs what it reads under `root`."""
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.buffer_text = True
    open_nodes = [root]
    count = 0

    def start(name: str, attributes: dict[str, str]) -> None:
        nonlocal count
        count += 1
        if count > MAX_ELEMENTS:
            raise UnusableError("the drawing has too many elements", f"at most {MAX_ELEMENTS:,}")
        if len(open_nodes) > MAX_DEPTH:
            raise UnusableError("the drawing's groups are nested too deep", f"at most {MAX_DEPTH} levels")
        own = {key: value for key, value in attributes.items() if " " not in key}
        if _XLINK_HREF in attributes:
            own.setdefault("href", attributes[_XLINK_HREF])
        space, _, tag = name.rpartition(" ")
        node = Node(tag if space in ("", _SVG) else "", own, parent=open_nodes[-1])
        open_nodes[-1].children.append(node)
        open_nodes.append(node)

    def end(name: str) -> None:
        open_nodes.pop()

    def text(piece: str) -> None:
        open_nodes[-1].text += piece

    def entity(
        name: str, is_parameter: bool, value: str | None, base: str, system: str, public: str, note: str
    ) -> None:
        # Older drawing programs declare namespaces as short entities; those are harmless.
        if is_parameter or value is None:
            raise UnusableError("the drawing refers to another file by an entity; save it as a plain SVG")
        if len(value) > MAX_ENTITY or "&" in value or "<" in value:
            raise UnusableError("the drawing holds an entity that grows when read; save it as a plain SVG")

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.CharacterDataHandler = text
    parser.EntityDeclHandler = entity
    # 0 stops the parser; no file is opened for an external entity.
    parser.ExternalEntityRefHandler = lambda *_: 0
    return parser
