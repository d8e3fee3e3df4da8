"""Number words before a noun, against CLDR's forms by gender."""

import json
from pathlib import Path

import pytest

from printkit.words import choices, spell
from printkit.words.phrases import has_rule, joined, phrase_word

# Unicode CLDR 48: see the README beside the file.
GENDERS = json.loads(
    (Path(__file__).parent.parent / "reference" / "plurals" / "cldr-48-genders.json").read_text(
        encoding="utf-8"
    )
)
PHRASED = ("de", "en", "es", "fr", "it", "nl", "pl", "pt-BR", "pt-PT")
# Italian 21 and its like: ventuna is rare before a noun, ventuno is right for both genders.
ITALIAN_ONES = {str(n) for n in range(21, 100, 10)}


def form(tag: str, n: int, gender: str, noun: str = "gr", choice: str = "") -> str | None:
    return phrase_word(tag, n, gender, noun, spell(tag, n, choice))


@pytest.mark.parametrize(
    ("tag", "gender", "rows"),
    [
        ("de", "f", "de%spellout-cardinal-feminine"),
        ("de", "m", "de%spellout-cardinal-masculine"),
        ("es", "f", "es%spellout-cardinal-feminine"),
        ("es", "m", "es%spellout-cardinal-masculine"),
        ("fr", "f", "fr%spellout-cardinal-feminine"),
        ("it", "f", "it%spellout-cardinal-feminine"),
        ("pl", "f", "pl%spellout-cardinal-feminine"),
        ("pl", "n", "pl%spellout-cardinal-neuter"),
        ("pt-BR", "f", "pt%spellout-cardinal-feminine"),
        ("pt-PT", "f", "pt_PT%spellout-cardinal-feminine"),
    ],
)
def test_forms_by_gender_are_those_of_cldr(tag, gender, rows):
    """Where CLDR has another word for a gender it is that one, and the counting word elsewhere."""
    different = {n: word for n, word in GENDERS[rows].items() if tag != "it" or n not in ITALIAN_ONES}
    choice = "1990" if tag == "fr" else ""  # CLDR spells French as of 1990
    for n in range(101):
        assert form(tag, n, gender, choice=choice) == different.get(str(n), spell(tag, n, choice)), n


@pytest.mark.parametrize("tag", PHRASED)
def test_the_family_s_choice_changes_no_gender(tag):
    """Whatever gender the family counts in, a noun's own wins; their spelling stays."""
    gendered = [n for n in range(101) if form(tag, n, "m") != form(tag, n, "f")]
    for choice in (item.name for item in choices(tag)):
        spelling = "1990" if "1990" in choice else ""
        for n in gendered:
            for gender in ("m", "f"):
                wanted = form(tag, n, gender, choice=spelling)
                assert form(tag, n, gender, choice=choice) == wanted, (choice, n)


@pytest.mark.parametrize(
    ("tag", "n", "gender", "noun", "said"),
    [
        ("en", 0, "", "crabs", "zero crabs"),
        ("en", 1, "", "crab", "one crab"),
        ("es", 1, "f", "estrella", "una estrella"),
        ("es", 2, "f", "estrellas", "dos estrellas"),
        ("es", 21, "m", "cangrejos", "veintiún cangrejos"),
        ("es", 31, "f", "estrellas", "treinta y una estrellas"),
        ("es", 0, "f", "estrellas", "cero estrellas"),
        ("es", 1, "f", "alga", "un alga"),
        ("es", 1, "f", "águila", "un águila"),
        ("es", 1, "f", "anémona de mar", "una anémona de mar"),
        ("es", 1, "f", "abeja", "una abeja"),
        ("es-CO", 1, "m", "barco", "un barco"),
        ("fr", 0, "f", "étoile", "zéro étoile"),
        ("fr", 1, "f", "étoile", "une étoile"),
        ("fr", 21, "f", "étoiles", "vingt et une étoiles"),
        ("fr", 71, "f", "étoiles", "soixante et onze étoiles"),
        ("fr", 81, "f", "étoiles", "quatre-vingt-une étoiles"),
        ("fr-BE", 71, "f", "étoiles", "septante et une étoiles"),
        ("de", 1, "f", "Krabbe", "eine Krabbe"),
        ("de", 1, "m", "Seestern", "ein Seestern"),
        ("de", 1, "n", "Boot", "ein Boot"),
        ("de", 21, "n", "Boote", "einundzwanzig Boote"),
        ("pt-PT", 1, "m", "caranguejo", "um caranguejo"),
        ("pt-BR", 22, "f", "estrelas", "vinte e duas estrelas"),
        ("it", 1, "m", "granchio", "un granchio"),
        ("it", 1, "m", "squalo", "uno squalo"),
        ("it", 1, "m", "gnomo", "uno gnomo"),
        ("it", 1, "m", "uccello", "un uccello"),
        ("it", 1, "f", "stella", "una stella"),
        ("it", 1, "f", "onda", "un’onda"),
        ("it", 21, "f", "stelle", "ventuno stelle"),
        ("nl", 1, "c", "krab", "één krab"),
        ("nl", 1, "", "krab", "één krab"),
        ("pl", 1, "m", "krab", "jeden krab"),
        ("pl", 2, "m", "kraby", "dwa kraby"),
        ("pl", 2, "f", "gwiazdy", "dwie gwiazdy"),
        ("pl", 2, "n", "wiaderka", "dwa wiaderka"),
        ("pl", 5, "m", "krabów", "pięć krabów"),
        ("pl", 12, "f", "gwiazd", "dwanaście gwiazd"),
        ("pl", 21, "f", "gwiazd", "dwadzieścia jeden gwiazd"),
        ("pl", 22, "f", "gwiazdy", "dwadzieścia dwie gwiazdy"),
    ],
)
def test_phrases_a_school_would_sign(tag, n, gender, noun, said):
    """The number word in the gender of its noun, and the sound of it where that matters."""
    assert joined(form(tag, n, gender, noun), noun) == said


@pytest.mark.parametrize("tag", ["de", "es", "fr", "it", "pl", "pt-PT", "pt-BR"])
def test_without_a_gender_there_is_no_guess(tag):
    """Where the word hangs on a gender that nobody told, there is none; elsewhere there is."""
    assert form(tag, 1, "") is None
    assert form(tag, 5, "") == spell(tag, 5)


@pytest.mark.parametrize("tag", ["cs", "sv", "ar", "ja", "xx"])
def test_a_language_without_a_rule_has_no_phrase(tag):
    """Nothing is put together by guess."""
    assert not has_rule(tag)
    assert phrase_word(tag, 3, "m", "x", "y") is None
