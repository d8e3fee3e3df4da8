"""Catalogues of sentences: every language says the same things, and writes numbers and lists its own way."""

import string
from collections.abc import Iterator
from typing import Any

import pytest
from babel import Locale

from printkit.texts import Catalogue, Note, Span, catalogue, catalogue_languages

PLURALS = {"zero", "one", "two", "few", "many", "other"}
ENGLISH = catalogue("en")
SPANISH = catalogue("es")


def forms(table: dict[str, Any]) -> bool:
    """Whether a table holds the plural forms of one sentence."""
    return "other" in table and set(table) <= PLURALS


def sentences(table: dict[str, Any], path: str = "") -> Iterator[tuple[str, Any]]:
    """Each sentence, list of sentences or table of plural forms with its dotted key."""
    for key, value in table.items():
        if isinstance(value, dict) and not forms(value):
            yield from sentences(value, f"{path}{key}.")
        else:
            yield f"{path}{key}", value


def fields_of(value: Any) -> set[str]:
    """The names in braces of a sentence, or of several."""
    lines = value if isinstance(value, list) else [value]
    return {name for line in lines for _, name, _, _ in string.Formatter().parse(str(line)) if name}


def named(value: Any) -> set[str]:
    """The values a text names; one with a capital letter, to begin a sentence, is the same value."""
    return {name.lower() for name in fields_of(value)}


def of(language: str) -> dict[str, Any]:
    """The sentences of a language by key."""
    return dict(sentences(dict(catalogue(language).entries)))


@pytest.mark.parametrize("language", catalogue_languages())
def test_every_language_has_the_keys_of_english(language):
    """No sentence is missing, and none is there that nobody asks for."""
    assert set(of(language)) == set(of("en"))


@pytest.mark.parametrize("language", catalogue_languages())
def test_every_sentence_has_the_fields_of_english(language):
    """A translation names just the values that the English one names; plural forms may leave out {n}."""
    english = of("en")
    for key, value in of(language).items():
        if isinstance(value, dict):
            assert isinstance(english[key], dict), key
            wanted = named(english[key]["other"])
            assert named(value["other"]) == wanted, key
            for form in value.values():
                assert named(form) | {"n"} == wanted | {"n"}, key
        else:
            assert named(value) == named(english[key]), key


@pytest.mark.parametrize("language", catalogue_languages())
def test_plural_forms_are_those_of_the_language(language):
    """No form stands in a catalogue that its language never asks for (CLDR); `other` is always there."""
    known = {*Locale.parse(language, sep="-").plural_form.tags, "other"}
    for key, value in of(language).items():
        assert not isinstance(value, dict) or set(value) <= known, key


@pytest.mark.parametrize("language", catalogue_languages())
def test_decimals_have_the_mark_of_the_language(language):
    """The mark before decimals is CLDR's."""
    symbols = Locale.parse(language, sep="-").number_symbols
    mark = symbols.get("latn", symbols)["decimal"]

    assert catalogue(language).find("number.decimal") == mark


@pytest.mark.parametrize(
    ("value", "said"), [(62.0, "62"), (83.5, "83.5"), (14.95, "14.95"), (0.0, "0"), (100.0, "100")]
)
def test_numbers_have_no_more_decimals_than_they_need(value, said):
    """Zeros at the end of the decimals are left out, those of whole numbers are not."""
    assert ENGLISH.number(value) == said


def test_lists_and_numbers_are_written_by_the_language():
    """Tuples, spans and decimals follow the language: joining word, mark, semicolons amid decimal commas."""
    assert ENGLISH.listing(["a", "b", "c"], "or") == "a, b or c"
    assert ENGLISH.listing([]) == ""
    assert SPANISH.listing(["a", "b", "c"]) == "a, b y c"
    assert "tienen 17,2; 22,4 y 29 mm de alto" in SPANISH.say(
        "materials.sizes.notes.heights", heights=(17.2, 22.4, 29.0), ratio=1.3
    )
    assert SPANISH.listing([Span(first=2, last=3)]) == "2 a 3"


def test_a_joining_word_gives_way_before_its_own_sound():
    """Spanish: e for y before i-, but not before hie-; u for o before o-."""
    assert SPANISH.listing(["español", "inglés"]) == "español e inglés"
    assert SPANISH.listing(["agua", "hielo"]) == "agua y hielo"
    assert SPANISH.listing(["siete", "ocho"], "or") == "siete u ocho"
    assert SPANISH.listing([7, 80], "or") == "7 u 80"
    assert SPANISH.listing([10, 11], "or") == "10 u 11"
    assert SPANISH.listing([100, 110], "or") == "100 o 110"


@pytest.mark.parametrize(("n", "form"), [(1, "one"), (3, "few"), (5, "many"), (22, "few")])
def test_plural_forms_follow_the_number(n, form):
    """Polish: 1 one, 2 to 4 and 22 few, 5 many (CLDR)."""
    polish = Catalogue(language="pl", entries=(("p", {"one": "", "few": "", "many": "", "other": ""}),))

    assert polish.form("p", n) == f"p.{form}"


def test_a_form_that_is_not_told_apart_is_other():
    """A catalogue without French's `many` uses `other` for a million, and `one` for none."""
    french = Catalogue(language="fr", entries=(("p", {"one": "pièce", "other": "pièces"}),))

    assert [french.count("p", n) for n in (0, 1, 2, 1_000_000)] == ["pièce", "pièce", "pièces", "pièces"]


def test_a_note_is_english_and_can_be_said_otherwise():
    """What `check` tells in English the guide tells in its own language; plain sentences stay."""
    note = Note("notes.compare_alone", number=3)

    assert note == "3 alone cannot be compared, so its neighbors stand beside it"
    assert SPANISH.told(note) == "3 por sí solo no se puede comparar, así que lo acompañan sus vecinos"
    assert SPANISH.told("leaf.svg: drawn gray") == "leaf.svg: drawn gray"
