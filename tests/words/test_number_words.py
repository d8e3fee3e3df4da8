"""The spellings: every word from 0 to 100 of every language against published data.

The data and its sources are described in reference/number-words/README.md.
"""

import json
import re
import unicodedata
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from printkit.resources import resource
from printkit.words import languages, sample, spell
from printkit.words.table import ROWS

REFERENCE = Path(__file__).resolve().parents[1] / "reference" / "number-words"
ADJUDICATED = json.loads((REFERENCE / "adjudicated.json").read_text(encoding="utf-8"))
CLDR = json.loads((REFERENCE / "cldr-48-cardinals.json").read_text(encoding="utf-8"))
VERDICTS = {verdict["tag"]: verdict for verdict in ADJUDICATED.values()}

TAGS = [language.tag for language in languages()]
NUMBERS = range(101)
each_tag = pytest.mark.parametrize("tag", TAGS)

# tag -> (pattern in CLDR's word, what is printed instead), each with the published statement that
# decides it. Where both are right the second half says so.
CHANGES = {
    # fa.wikibooks.org, Azerbaijani lesson 5; 100: both right.
    "az": ((r"^atmış", "altmış"), (r"^səqsən", "səksən"), (r"^bir yüz$", "yüz")),
    # Spelling rules of 2008, § 37, pravilna.seveleu.com/rules/37; CLDR has a Latin i in адзін.
    "be": ((r"^(пяцьдз|шэсцьдз)есят", r"\1ясят"), ("i", "і")),
    # Both right when counting: SALT, svnlliurexnet.gva.es, u_un.html.
    "ca": ((r"\bu$", "un"),),
    # From memory: jeden is masculine, jedna is what one counts.
    "cs": ((r"jeden$", "jedna"),),
    # kids.kiddle.co/Welsh_numerals: deg, cant; 'un deg' and 'un cant' are built by rule.
    "cy": ((r"^un (deg|cant)$", r"\1"),),
    # arabeskacademy.com/talord-2: en, to, tre.
    "da": ((r"^et$", "en"),),
    # PMEG 23.1.1.
    "eo": ((r"^nulo$", "nul"),),
    # Both right: averbode.be, La nouvelle orthographe.
    "fr": (("-et-", " et "),),
    "fr-BE": (("-et-", " et "), (r"^quatre-vingt (?=\w)", "quatre-vingt-")),
    "fr-CH": (("-et-", " et "),),
    "fr-DZ": (("-et-", " et "),),
    # www2.hu-berlin.de/bragi, b4_260_tolur_nb.htm: sjö, eitt hundrað.
    "is": ((r"sjó$", "sjö"), (r"^eitthundrað$", "eitt hundrað")),
    # Both right: valoda.ailab.lv/latval/vidusskolai/orto/skvp.htm.
    "lv": ((r"^simt$", "simts"),),
    # Both right: nl.wikipedia.org, Hoofdtelwoord.
    "nl": ((r"^een$", "één"),),
    # DOOM of 2005, quoted by cosminsontica.ro.
    "ro": (
        (r"^patrusprezece$", "paisprezece"),
        (r"^șase(sprezece|zeci)", r"șai\1"),
        (r"^una sută$", "o sută"),
    ),
    # From memory.
    "sk": ((r"^jednasto$", "sto"),),
    # Pravopis, pravopisi.trojina.si, and franček.si 3.4.4: the unit first, joined by -in-.
    "sl": (
        (r"^dva$", "dve"),
        (r"^štrinajst$", "štirinajst"),
        (r"^asemnajst$", "osemnajst"),
        (r"^dvaset", "dvajset"),
        (r"^(\w+) (\w+)$", r"\2in\1"),
    ),
    # Both right: sr.wikipedia.org, Brojevi (vrsta reči).
    "sr-Latn": ((" i ", " "),),
    # Same shape: en.wikipedia.org, Modifier letter apostrophe.
    "uk": (("\u02bc", "\u2019"),),
    # Both right: en.wiktionary.org tứ; vietvoz.com, numbers in Vietnamese.
    "vi": ((r" tư$", " bốn"),),
}


def cldr_word(tag, number):
    return CLDR[VERDICTS[tag]["cldr_locale"]][str(number)]


def same_apostrophe(word):
    return word.replace("\u2019", "\u02bc")


@each_tag
def test_each_word_is_published_or_decided(tag):
    """A word equals CLDR's, or is a decided correction, or CLDR's is wrong, or both are right."""
    verdict = VERDICTS[tag]
    for number in NUMBERS:
        word, key = same_apostrophe(spell(tag, number)), str(number)
        if key in verdict.get("corrections", {}):
            assert word == verdict["corrections"][key]
        elif key in verdict.get("cldr_wrong", {}):
            assert word != verdict["cldr_wrong"][key]
        elif key not in verdict.get("both_right", ()):
            assert word == cldr_word(tag, number)


@each_tag
def test_words_differ_from_cldr_only_as_listed(tag):
    """Every word is CLDR's after the changes listed for its language, and no other change."""
    for number in NUMBERS:
        expected = cldr_word(tag, number)
        for pattern, instead in CHANGES.get(tag, ()):
            expected = re.sub(pattern, instead, expected)
        assert spell(tag, number) == expected


@pytest.mark.parametrize(
    "tag, number, word",
    [
        # Authorities: reference/number-words/adjudicated.json, or CLDR 48 where it lists none.
        ("en", 14, "fourteen"),
        ("es", 16, "dieciséis"),
        ("es", 21, "veintiuno"),
        ("pt-PT", 16, "dezasseis"),
        ("pt-BR", 16, "dezesseis"),
        ("fr", 80, "quatre-vingts"),
        ("fr-BE", 80, "quatre-vingts"),
        ("fr-CH", 80, "huitante"),
        ("fr-BE", 70, "septante"),
        ("it", 23, "ventitré"),
        ("de", 30, "dreißig"),
        ("cy", 15, "un deg pump"),
        ("sv", 42, "fyrtiotvå"),
        ("tr", 15, "on beş"),
        ("da", 1, "en"),
        ("da", 21, "enogtyve"),
        ("da", 65, "femogtres"),
        ("nb", 1, "én"),
        ("nb", 27, "tjuesju"),
        ("nb", 17, "sytten"),
        ("nb", 100, "hundre"),
        ("nl", 1, "één"),
        ("nl", 21, "eenentwintig"),
        ("lt", 100, "šimtas"),
        ("sl", 21, "enaindvajset"),
        ("uk", 5, "п\u2019ять"),
        ("kk", 20, "жиырма"),
        ("ro", 14, "paisprezece"),
    ],
)
def test_words_that_go_wrong_easily(tag, number, word):
    """Words whose spelling a library, a region or a gender could spoil are the counting words."""
    assert spell(tag, number) == word


@each_tag
def test_default_variant_is_what_is_printed(tag):
    """The sample is the counting form that the adjudication gives as default."""
    default = VERDICTS[tag]["default_variant"]
    if tag == "cy":
        assert sample(tag) == "un, dau, tri"  # its default variant describes 10 and up
    elif tag == "nb":
        assert sample(tag) == "én, to, tre" and default.startswith("én (en), to, tre")
    elif tag == "nl":
        assert sample(tag) == "één, twee, drie" and default == "een (or één), twee, drie"
    elif tag == "sr-Latn":
        assert default.endswith("/ " + sample(tag))
    else:
        assert default.startswith(sample(tag))


@each_tag
def test_words_within_a_language_differ(tag):
    """No two numbers from 0 to 100 share a word."""
    assert len({spell(tag, number) for number in NUMBERS}) == len(NUMBERS)


@each_tag
def test_words_are_clean_text(tag):
    """Words are NFC, lower case, with single spaces and nothing but letters, hyphen, apostrophe."""
    for number in NUMBERS:
        word = spell(tag, number)
        assert unicodedata.is_normalized("NFC", word) and word == word.lower()
        assert word.split(" ") == word.split() and word
        assert all(c.isalpha() or c in "- \u2019" for c in word)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.language.tag)
def test_letters_belong_to_the_script(row):
    """Each letter of a word and of the own name is of the language's script: no Latin i in Cyrillic."""
    script = {"Latn": "LATIN", "Cyrl": "CYRILLIC"}[row.language.script]
    words = [spell(row.language.tag, number) for number in NUMBERS]
    for letter in filter(str.isalpha, "".join([*words, row.language.own_name])):
        assert unicodedata.name(letter).startswith(script)


@pytest.mark.parametrize("face", ["Andika-Regular.ttf", "Andika-Bold.ttf"])
def test_the_typeface_has_every_letter(face):
    """Every character of every word, English name and own name is in the typeface."""
    with TTFont(resource(f"fonts/{face}"), lazy=True) as font:
        known = font.getBestCmap()
    text = {c for tag in TAGS for number in NUMBERS for c in spell(tag, number)}
    text |= {c for language in languages() for c in language.name + language.own_name}
    assert {c for c in text if ord(c) not in known} == set()


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.language.tag)
def test_corrections_are_decided_or_a_right_choice(row):
    """A row corrects what the adjudication corrects, and chooses only between right words."""
    verdict = VERDICTS[row.language.tag]
    decided = {int(number) for number in verdict.get("corrections", {})}
    choices = {int(number) for number in verdict.get("both_right", ())}
    if row.characters:
        assert not row.corrections and decided
    else:
        assert decided <= set(row.corrections) <= decided | choices


def test_the_same_word_comes_back():
    """Asking twice, or in another case of the tag, gives the same word."""
    assert spell("pt-PT", 17) == spell("PT-pt", 17) == spell("pt-PT", 17) == "dezassete"


@pytest.mark.parametrize("number", [-1, 101, 1000, True, False, 2.0, "7", None])
def test_only_whole_numbers_up_to_a_hundred_have_words(number):
    """Any other number is refused, true and false included, whatever was asked for before."""
    assert spell("en", 1) == "one"
    with pytest.raises(ValueError, match="whole numbers 0 to 100"):
        spell("en", number)


def test_sample_is_one_two_three():
    """The sample of a language is its first three words."""
    assert sample("EN") == "one, two, three"
