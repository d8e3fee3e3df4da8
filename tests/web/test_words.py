"""The page's sentences: every language has all of them, with the same gaps to fill."""

import re
import string
import tomllib

import pytest

from printkit.resources import resource
from printkit.web.words import page_languages


def sentences(language):
    """Dotted key -> sentence."""
    found = {}

    def walk(table, at):
        for key, value in table.items():
            if isinstance(value, dict):
                walk(value, f"{at}{key}.")
            else:
                found[f"{at}{key}"] = value

    walk(tomllib.loads((resource("texts") / language / "page.toml").read_text(encoding="utf-8"))["page"], "")
    return found


def gaps(sentence):
    return {name for _, name, _, _ in string.Formatter().parse(sentence) if name}


def test_four_languages():
    """English, Spanish, French and German."""
    assert set(page_languages()) == {"en", "es", "fr", "de"}


@pytest.mark.parametrize("language", page_languages())
def test_every_sentence_is_there(language):
    """No sentence is missing or without a use in English, and each fills in the same values."""
    english, own = sentences("en"), sentences(language)

    assert own.keys() == english.keys()
    different = {key for key in own if gaps(own[key]) != gaps(english[key]) and not key.endswith(".one")}
    assert different == set()


def test_every_sentence_is_used():
    """Each key stands in a template or a module, whole or by its beginning."""
    package = resource("web")
    used = "".join(
        path.read_text(encoding="utf-8") for path in (*package.rglob("*.py"), *package.rglob("*.html"))
    )
    by_name = (
        "keys.", "values.", "stations.", "refused.4", "print.short_", "tray.sheets_", "tray.front",
        "tray.back", "watch.", "offers.areas.",
    )  # fmt: skip
    unused = [
        key
        for key in sentences("en")
        if not key.startswith(by_name)
        and not re.search(rf"""['"]{re.escape(re.sub(r"[.](one|other)$", "", key))}['"]""", used)
    ]

    assert unused == []


@pytest.mark.parametrize("language", page_languages())
def test_a_word_is_said_by_its_key(language):
    """The same word of a pack file means another thing under another key; each choice of a key differs."""
    from printkit.pack.keys import KEYS
    from printkit.web.words import page_words

    words = page_words(language)
    assert words.word("plain", "numerals.seven") != words.word("plain", "stock")
    assert words.word("long", "flip.card") == words.word("long", "flip")
    assert words.word("plain", "") == "plain"
    for key in ("ink", "units", "digits", "save", "hand", "needs"):
        options = KEYS[key][0].words
        assert len({words.word(option, key) for option in options}) == len(options)
        assert all(words.has(f"values.{key}.{option}") for option in options)
