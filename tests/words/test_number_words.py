"""The spellings: every word from 0 to 100 of every language against published data.

The data and its sources are described in reference/number-words/README.md.
"""

import json
import re
import unicodedata
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from num2words import num2words

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

# Languages that are offered though the library lacks them; the locale if it is not the tag.
OWN = {"de-CH": "de_CH", "fa-AF": "fa_AF", "sr-Cyrl": "sr"} | {
    tag: tag
    for tag in (
        "af",
        "bg",
        "bs",
        "el",
        "et",
        "ga",
        "hr",
        "hy",
        "ka",
        "ky",
        "mk",
        "ms",
        "mt",
        "nn",
        "sq",
        "sw",
    )
}
# The usual words are another series than the one that was compared: see test_choices.
COMPARED = {"ja": "kanji", "ko": "sino"}
# CLDR has no list, or one that is unusable from 10 on (Amharic).
WITHOUT_CLDR = {"am", "bn", "ce", "te", "tet", "tg"}

# tag -> (pattern in CLDR's word, what is printed instead), each with the published statement that
# decides it. Where both are right the second half says so.
CHANGES = {
    # mbrf.ae: no hamza in 2; 11 by gender as in 13 to 19.
    "ar": ((r"^إث", "اث"), ("^إحدى عشر$", "أحد عشر")),
    # fa.wikibooks.org, Azerbaijani lesson 5; 100: both right.
    "az": ((r"^atmış", "altmış"), (r"^səqsən", "səksən"), (r"^bir yüz$", "yüz")),
    # Spelling rules of 2008, § 37, pravilna.seveleu.com/rules/37; CLDR has a Latin i in адзін.
    "be": ((r"^(пяцьдз|шэсцьдз)есят", r"\1ясят"), ("i", "і")),
    # 11 and 16 as CLDR has them for hr and sr_Latn.
    "bs": (("^jedenaest$", "jedanaest"), ("^šestnaest$", "šesnaest")),
    # Both right when counting: SALT, svnlliurexnet.gva.es, u_un.html.
    "ca": ((r"\bu$", "un"),),
    # From memory: jeden is masculine, jedna is what one counts.
    "cs": ((r"jeden$", "jedna"),),
    # kids.kiddle.co/Welsh_numerals: deg, cant; 'un deg' and 'un cant' are built by rule.
    "cy": ((r"^un (deg|cant)$", r"\1"),),
    # arabeskacademy.com/talord-2: en, to, tre.
    "da": ((r"^et$", "en"),),
    # sxolikos.wordpress.com.
    "el": (("^εννε", "ενε"),),
    # PMEG 23.1.1.
    "eo": ((r"^nulo$", "nul"),),
    # Both right, from memory.
    "et": (("^ükssada$", "sada"),),
    # Both right: averbode.be, La nouvelle orthographe.
    "fr": (("-et-", " et "),),
    "fr-BE": (("-et-", " et "), (r"^quatre-vingt (?=\w)", "quatre-vingt-")),
    "fr-CH": (("-et-", " et "),),
    "fr-DZ": (("-et-", " et "),),
    # Both right, from memory.
    "hy": (("^մեկհարյուր$", "հարյուր"),),
    # www2.hu-berlin.de/bragi, b4_260_tolur_nb.htm: sjö, eitt hundrað.
    "is": ((r"sjó$", "sjö"), (r"^eitthundrað$", "eitt hundrað")),
    # Both right.
    "ja": (("^〇$", "零"),),
    # From memory: 공 is for digits read aloud.
    "ko": (("^공$", "영"),),
    # Both right: valoda.ailab.lv/latval/vidusskolai/orto/skvp.htm.
    "lv": ((r"^simt$", "simts"),),
    # makedonskijazik.mk.
    "mk": (("^еднасто$", "сто"),),
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
    "sr-Cyrl": ((" и ", " "),),
    "sr-Latn": ((" i ", " "),),
    # Same shape: en.wikipedia.org, Modifier letter apostrophe.
    "uk": (("\u02bc", "\u2019"),),
    # Both right: en.wiktionary.org tứ; vietvoz.com, numbers in Vietnamese.
    "vi": ((r" tư$", " bốn"),),
}


def cldr_word(tag, number):
    return CLDR[OWN.get(tag) or VERDICTS[tag]["cldr_locale"]][str(number)]


def compared(tag, number):
    return spell(tag, number, COMPARED.get(tag, ""))


def library(code, number):
    """The library's word without spaces at its ends, composed."""
    return unicodedata.normalize("NFC", " ".join(num2words(number, lang=code).split()))


def same_apostrophe(word):
    return word.replace("\u2019", "\u02bc")


@pytest.mark.parametrize("tag", [tag for tag in TAGS if tag not in OWN])
def test_each_word_is_published_or_decided(tag):
    """A word equals CLDR's, or is a decided correction, or CLDR's is wrong, or both are right."""
    verdict = VERDICTS[tag]
    for number in NUMBERS:
        word, key = same_apostrophe(compared(tag, number)), str(number)
        if key in verdict.get("corrections", {}):
            assert word == unicodedata.normalize("NFC", verdict["corrections"][key])
        elif key in verdict.get("cldr_wrong", {}):
            assert word != verdict["cldr_wrong"][key]
        elif key not in verdict.get("both_right", ()) and verdict["cldr_locale"]:
            assert word == cldr_word(tag, number)


@pytest.mark.parametrize("tag", [tag for tag in TAGS if tag not in WITHOUT_CLDR])
def test_words_differ_from_cldr_only_as_listed(tag):
    """Every word is CLDR's after the changes listed for its language, and no other change."""
    for number in NUMBERS:
        expected = cldr_word(tag, number)
        for pattern, instead in CHANGES.get(tag, ()):
            expected = re.sub(pattern, instead, expected)
        assert compared(tag, number) == expected


@pytest.mark.parametrize("tag", sorted(WITHOUT_CLDR))
def test_languages_without_a_list_wait_and_are_the_librarys_as_corrected(tag):
    """What no published list settles waits for a reader, and only the listed words were changed."""
    (language,) = (language for language in languages() if language.tag == tag)
    corrected = VERDICTS[tag].get("corrections", {})
    for number in NUMBERS:
        word = corrected.get(str(number), library(tag, number))
        assert spell(tag, number) == unicodedata.normalize("NFC", word)
    assert not language.reviewed


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
        ("ar", 21, "واحد وعشرون"),
        ("ar", 11, "أحد عشر"),
        ("de-CH", 30, "dreissig"),
        ("de-CH", 33, "dreiunddreissig"),
        ("el", 90, "ενενήντα"),
        ("bs", 16, "šesnaest"),
        ("ga", 12, "a dó dhéag"),
        ("hy", 22, "քսաներկու"),
        ("ka", 39, "ოცდაცხრამეტი"),
        ("ko", 11, "열하나"),
        ("ko", 20, "스물"),
        ("ja", 14, "じゅうよん"),
        ("sr-Cyrl", 21, "двадесет један"),
        ("fa-AF", 19, "نزده"),
        ("fa", 19, "نوزده"),
        ("th", 21, "ยี่สิบเอ็ด"),
    ],
)
def test_words_that_go_wrong_easily(tag, number, word):
    """Words whose spelling a library, a region or a gender could spoil are the counting words."""
    assert spell(tag, number) == word


# What the adjudication writes otherwise: two right words, both scripts, or a pattern.
DEFAULTS = {
    "cy": "decimal: ... deg, un deg un, un deg dau ... dau ddeg (as taught in maths)",
    "nb": "én (en), to, tre ... sju ... tjue",
    "nl": "een (or één), twee, drie",
    "sr-Latn": "један, два, три (Cyrillic first in Serbian schools) / jedan, dva, tri",
}


@pytest.mark.parametrize("tag", [tag for tag in TAGS if tag in VERDICTS])
def test_default_variant_is_what_is_printed(tag):
    """The sample is the counting form that the adjudication gives as default."""
    default = VERDICTS[tag]["default_variant"]
    words = [spell(tag, number) for number in (1, 2, 3)]
    if tag in DEFAULTS:
        assert default == DEFAULTS[tag]
    else:
        assert default.startswith(tuple(mark.join(words) for mark in (", ", "، ", "、", "፣ ", " ")))


@each_tag
def test_words_within_a_language_differ(tag):
    """No two numbers from 0 to 100 share a word."""
    assert len({spell(tag, number) for number in NUMBERS}) == len(NUMBERS)


@each_tag
def test_words_are_clean_text(tag):
    """Words are NFC, lower case, with single spaces and nothing but letters, hyphen, apostrophe."""
    for number in NUMBERS:
        word = spell(tag, number)
        # Chechen writes its palochka U+04C0 the same in capitals and small letters.
        assert unicodedata.is_normalized("NFC", word)
        assert word.replace("\u04c0", "") == word.replace("\u04c0", "").lower()
        assert word.split(" ") == word.split() and word
        assert all(c.isalpha() or c in "- \u2019" or unicodedata.category(c) in ("Mn", "Mc") for c in word)


# ISO 15924 -> how Unicode names the letters of the script.
SCRIPTS = {
    "Arab": "ARABIC",
    "Armn": "ARMENIAN",
    "Beng": "BENGALI",
    "Cyrl": "CYRILLIC",
    "Ethi": "ETHIOPIC",
    "Geor": "GEORGIAN",
    "Grek": "GREEK",
    "Hebr": "HEBREW",
    "Jpan": ("HIRAGANA", "CJK"),
    "Kore": "HANGUL",
    "Latn": "LATIN",
    "Telu": "TELUGU",
    "Thai": "THAI",
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.language.tag)
def test_letters_belong_to_the_script(row):
    """Each letter of a word and of the own name is of the language's script: no Latin i in Cyrillic."""
    script = SCRIPTS[row.language.script]
    words = [spell(row.language.tag, number) for number in NUMBERS]
    for letter in filter(str.isalpha, "".join([*words, row.language.own_name])):
        assert unicodedata.name(letter).startswith(script)


@pytest.mark.parametrize("face", ["Andika-Regular.ttf", "Andika-Bold.ttf"])
def test_the_typeface_has_every_letter(face):
    """Every character of every Latin and Cyrillic word, English name and own name is in the typeface."""
    with TTFont(resource(f"fonts/{face}"), lazy=True) as font:
        known = font.getBestCmap()
    written = [language for language in languages() if language.script in ("Latn", "Cyrl")]
    text = {c for language in written for number in NUMBERS for c in spell(language.tag, number)}
    text |= {c for language in written for c in language.name + language.own_name}
    assert {c for c in text if ord(c) not in known} == set()


@pytest.mark.parametrize("row", [row for row in ROWS if row.code], ids=lambda row: row.language.tag)
def test_corrections_are_decided_or_a_right_choice(row):
    """A row corrects what the adjudication corrects, and chooses only between right words."""
    verdict = VERDICTS["de" if row.language.tag == "de-CH" else row.language.tag]
    choices = {int(number) for number in verdict.get("both_right", ())}
    decided = {
        int(number)
        for number, word in verdict.get("corrections", {}).items()
        if library(row.code, int(number)) != unicodedata.normalize("NFC", word)
    }
    if row.characters:
        assert not row.words
    else:
        assert decided <= set(row.words) <= decided | choices


@pytest.mark.parametrize("row", [row for row in ROWS if not row.code], ids=lambda row: row.language.tag)
def test_own_lists_are_whole(row):
    """A list of our own has each number from 0 to 100 and no other, so that the library is never asked."""
    assert sorted(row.words) == list(NUMBERS) and not row.characters


def test_the_licence_travels_along():
    """The licence of the CLDR data lies beside it."""
    licence = (REFERENCE / "UNICODE-LICENSE.txt").read_text(encoding="utf-8")
    assert licence.startswith("UNICODE LICENSE V3") and "Copyright" in licence


def test_the_same_word_comes_back():
    """Asking twice, or in another case of the tag, gives the same word."""
    assert spell("pt-PT", 17) == spell("PT-pt", 17) == spell("pt-PT", 17) == "dezassete"


@pytest.mark.parametrize("number", [-1, 101, 1000, True, False, 2.0, "7", None])
def test_only_whole_numbers_up_to_a_hundred_have_words(number):
    """Any other number is refused, true and false included, whatever was asked for before."""
    assert spell("en", 1) == "one"
    with pytest.raises(ValueError, match="whole numbers 0 to 100"):
        spell("en", number)


@each_tag
def test_sample_is_one_two_three(tag):
    """The sample of a language, kept in the table, is its words of 1, 2 and 3."""
    assert sample(tag) == ", ".join(spell(tag, number) for number in (1, 2, 3))


def test_the_sample_is_found_in_any_case():
    """A tag in capitals has the same sample."""
    assert sample("EN") == "one, two, three"
