"""What the page writes or names in words of the catalogues is in the page's language."""

import io

import pypdf
import pytest
from web.client import Browser

from printkit.texts import catalogue
from printkit.web.words import page_languages, page_words


@pytest.mark.parametrize("language", page_languages())
def test_the_printer_test_speaks_the_pages_language(language, tmp_path):
    """The sheet that is opened from the page of the paper is titled as the page speaks."""
    answer = Browser(tmp_path).get("/p/pool/printer-test.pdf", headers={"Accept-Language": language})
    reader = pypdf.PdfReader(io.BytesIO(answer.get_data()))

    assert answer.status_code == 200
    assert catalogue(language).say("printer_test.back_title") in reader.pages[1].extract_text()


@pytest.mark.parametrize("language", page_languages())
def test_rungs_are_named_in_the_pages_language(language):
    """What is new on a rung, as the list to choose from says it."""
    assert page_words(language).rung("doubles") == catalogue(language).say("next.rungs.doubles")
