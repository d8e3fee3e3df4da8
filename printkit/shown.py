"""Sheets made to be looked at: a PDF, or a PNG of its pages; only a sheet of the same kind is replaced."""

import io
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from printkit.errors import PrintkitError, Problem
from printkit.pieces import Piece
from printkit.sheets.model import Page, Placed, Side
from printkit.units import Rect

if TYPE_CHECKING:
    from PIL import Image

KINDS = (".pdf", ".png")


def write_shown(pages: Iterable[Page], file: Path, *, title: str, kind: str, dpi: int = 100) -> None:
    """Writes pages as a PDF or, two by two, as one PNG; by the file's ending.

    `kind` tells what the sheet is ('contact sheet'): an earlier one of that kind is replaced, any other
    file is not. Raises PrintkitError, OSError.
    """
    from printkit.files import replace_file

    ending = file.suffix.lower()
    if ending not in KINDS:
        raise PrintkitError(
            [Problem(place="-o", found=f"'{file}' ends in '{file.suffix}'", allowed=" or ".join(KINDS))]
        )
    if file.exists() and _kind_of(file) != kind:
        found = f"there is another file '{file}' already"
        raise PrintkitError([Problem(place="-o", found=found, allowed="the name of a new file")])
    from printkit.writer import write

    data = write(pages, title=f"{title} · printkit {kind}", language="en").data
    replace_file(file, data if ending == ".pdf" else _as_png(data, kind, dpi))


def page_images(pdf: bytes, dpi: int) -> Iterator["Image.Image"]:
    """Each page of a PDF as pixels."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        for page in document:
            yield page.render(scale=dpi / 72).to_pil().convert("RGB")
    finally:
        document.close()


def piece_page(piece: Piece, side: Side = "front") -> Page:
    """One side of a piece on a page of its own size."""
    box = Rect(0.0, 0.0, piece.width, piece.height)
    placed = Placed(piece=piece, side=side, box=box, turn=0)
    return Page(width=piece.width, height=piece.height, placed=(placed,))


def _kind_of(file: Path) -> str:
    """What kind of sheet a file says it is; '' for any other file."""
    import pypdfium2
    from PIL import Image

    try:
        if file.suffix.lower() == ".png":
            with Image.open(file, formats=("PNG",)) as image:
                said: Any = image.info.get("Description", "")
        else:
            document = pypdfium2.PdfDocument(file.read_bytes())
            try:
                said = document.get_metadata_dict().get("Title", "")
            finally:
                document.close()
    except (pypdfium2.PdfiumError, OSError, ValueError):
        return ""
    return str(said).rpartition("printkit ")[2] if "printkit " in str(said) else ""


def _as_png(pdf: bytes, kind: str, dpi: int) -> bytes:
    """The pages two by two, in as many colors as flat drawings need."""
    from PIL import Image
    from PIL.PngImagePlugin import PngInfo

    pages = list(page_images(pdf, dpi))
    wide, high = pages[0].size
    across = min(2, len(pages))
    whole = Image.new("RGB", (wide * across, high * -(-len(pages) // across)), "white")
    for i, page in enumerate(pages):
        whole.paste(page, (wide * (i % across), high * (i // across)))
    told = PngInfo()
    told.add_text("Description", f"printkit {kind}")
    out = io.BytesIO()
    small = whole.quantize(256, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
    small.save(out, "PNG", optimize=True, pnginfo=told)
    return out.getvalue()
