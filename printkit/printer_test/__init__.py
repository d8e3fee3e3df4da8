"""The printer test: a sheet from which scale, margin and the shift of backs are read off.

In: a paper, how it is turned over, a language. Out: a front and a back, like any sheet's, in one PDF.
"""

from pathlib import Path

from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.pack.keys import KEYS
from printkit.printer_test.pages import test_pages
from printkit.texts import catalogue_languages
from printkit.units import PAPERS

__all__ = ["language_of", "paper_of", "printer_test_pdf", "test_pages", "write_printer_test"]

SMALLEST = PAPERS["a5"]
_SUBJECT = "printkit printer test"


def paper_of(value: str | list[float]) -> tuple[float, float]:
    """Width and height in mm, upright, of a paper by its name or its two sides in mm.

    Raises PrintkitError for what is no paper, or one smaller than A5, which has no room for the test.
    """
    from printkit.checks import Wrong, shown

    read = KEYS["paper"][0].read(value)
    if isinstance(read, Wrong):
        problem = Problem(place="--paper", found=read.found, allowed=read.allowed, nearest=read.nearest)
        raise PrintkitError([problem])
    width, height = sorted(PAPERS[read] if isinstance(read, str) else read)
    if width < SMALLEST[0] or height < SMALLEST[1]:
        allowed = f"{SMALLEST[0]:g} x {SMALLEST[1]:g} mm (A5) or more, to have room for the test"
        raise PrintkitError([Problem(place="--paper", found=f"found {shown(value)}", allowed=allowed)])
    return width, height


def language_of(tag: str) -> str:
    """A language that the test speaks, by its tag in whatever case. Raises PrintkitError for any other."""
    from printkit.checks import shown

    known = catalogue_languages()
    if tag.casefold() not in known:
        found, near = f"there is no printer test in {shown(tag)}", nearest(tag.casefold(), known)
        raise PrintkitError([Problem(place="--language", found=found, allowed=listing(known), nearest=near)])
    return tag.casefold()


def write_printer_test(file: Path, paper: str | list[float], flip: str, language: str = "en") -> None:
    """Writes the test as a PDF; an earlier test is replaced, any other file is not.

    `flip` is 'long', 'short' or 'hand', `language` the tag of a language of the guide. Raises
    PrintkitError for a paper, a language, or a file that is there already; OSError.
    """
    from printkit.files import replace_file

    data = printer_test_pdf(paper, flip, language)
    if file.exists() and not _is_ours(file):
        found = f"there is another file '{file}' already"
        raise PrintkitError([Problem(place="-o", found=found, allowed="the name of a new file")])
    replace_file(file, data)


def printer_test_pdf(paper: str | list[float], flip: str, language: str = "en") -> bytes:
    """The test as a PDF. Raises PrintkitError for a paper that is too small for it, or a language."""
    from printkit.writer import write

    duplex = flip if flip in ("long", "short") else "none"
    spoken = language_of(language)
    pages = test_pages(paper_of(paper), flip, spoken)
    return write(pages, title=_SUBJECT, language=spoken, duplex=duplex).data


def _is_ours(file: Path) -> bool:
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(file.read_bytes())
        try:
            return document.get_metadata_dict().get("Title", "") == _SUBJECT
        finally:
            document.close()
    except (pypdfium2.PdfiumError, OSError, ValueError):
        return False
