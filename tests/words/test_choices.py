"""The choices of spelling and gender: every word of each against published data, or literally.

The data and its sources are described in reference/number-words/README.md.
"""

import json
import re
import unicodedata
from pathlib import Path

import pytest

from printkit.errors import PrintkitError
from printkit.words import choices, choose, languages, spell

REFERENCE = Path(__file__).resolve().parents[1] / "reference" / "number-words"
CLDR = json.loads((REFERENCE / "cldr-48-cardinals.json").read_text(encoding="utf-8"))
VARIANTS = json.loads((REFERENCE / "cldr-48-variants.json").read_text(encoding="utf-8"))

ALL = [(language.tag, choice) for language in languages() for choice in choices(language.tag)]
OTHERS = [(language.tag, choice) for language in languages() for choice in choices(language.tag)[1:]]
NUMBERS = range(101)


def name(value):
    return value if isinstance(value, str) else value.name


AND_ONE = ("-et-", " et ")
DOOM = (("^patrusprezece$", "paisprezece"), ("^șase(sprezece|zeci)", r"șai\1"), ("^o? ?una sută$", "o sută"))

# (tag, choice) -> locale, rule set ('' for the counting form), and the changes to CLDR's word: where a
# language differs from CLDR in its usual words, it does so in its choices. Sources: test_number_words.
PUBLISHED = {
    ("ca", "u"): ("ca", "", ()),
    ("ca", "feminine"): ("ca", "feminine", ()),
    ("cs", "masculine"): ("cs", "", ()),
    ("cs", "feminine"): ("cs", "feminine", ()),
    ("cs", "neuter"): ("cs", "neuter", ()),
    ("cy", "feminine"): ("cy", "feminine", (("^un (deg|cant)$", r"\1"),)),
    ("da", "et"): ("da", "", ()),
    ("de", "ein"): ("de", "masculine", ()),
    ("de", "eine"): ("de", "feminine", ()),
    ("de-CH", "ein"): ("de", "masculine", (("ß", "ss"),)),
    ("de-CH", "eine"): ("de", "feminine", (("ß", "ss"),)),
    ("et", "ükssada"): ("et", "", ()),
    ("fr", "1990"): ("fr", "", ()),
    ("fr", "feminine"): ("fr", "feminine", (AND_ONE,)),
    ("fr", "1990 feminine"): ("fr", "feminine", ()),
    ("fr-DZ", "1990"): ("fr", "", ()),
    ("fr-DZ", "feminine"): ("fr", "feminine", (AND_ONE,)),
    ("fr-DZ", "1990 feminine"): ("fr", "feminine", ()),
    ("fr-BE", "1990"): ("fr_BE", "", ((r"^quatre-vingt (?=\w)", "quatre-vingt-"),)),
    ("fr-CH", "1990"): ("fr_CH", "", ()),
    # 2 alone, and 12 with one yod as in the feminine of both sources: from memory.
    ("he", "masculine"): ("he", "masculine", (("^שני$", "שניים"), ("^שניים עשר$", "שנים עשר"))),
    ("hr", "dvadeset jedan"): ("hr", "", ((" i ", " "),)),
    ("is", "feminine"): ("is", "feminine", (("sjó$", "sjö"), ("^eitthundrað$", "eitt hundrað"))),
    ("is", "neuter"): ("is", "neuter", (("sjó$", "sjö"), ("^eitthundrað$", "eitt hundrað"))),
    # 21 ventuna before a noun is rare: from memory.
    ("it", "una"): ("it", "feminine", (("una$", "uno"), ("^uno$", "una"))),
    ("ja", "kanji"): ("ja", "", (("^〇$", "零"),)),
    ("ko", "sino"): ("ko", "", (("^공$", "영"),)),
    ("lv", "simt"): ("lv", "", ()),
    ("nb", "neuter"): ("no", "neuter", (("^ett hundre$", "hundre"),)),
    ("nb", "feminine"): ("no", "feminine", (("^ett hundre$", "hundre"),)),
    ("nl", "een"): ("nl", "", ()),
    ("pl", "feminine"): ("pl", "feminine", ()),
    ("pl", "neuter"): ("pl", "neuter", ()),
    ("pt-BR", "feminine"): ("pt", "feminine", ()),
    ("pt-PT", "feminine"): ("pt_PT", "feminine", ()),
    ("ro", "feminine"): ("ro", "feminine", DOOM),
    ("ru", "feminine"): ("ru", "feminine", ()),
    ("ru", "neuter"): ("ru", "neuter", ()),
    # CLDR's counting form is the one with и; the Latin list says the same.
    ("sr-Cyrl", "двадесет и један"): ("sr", "", ()),
    ("sr-Latn", "dvadeset i jedan"): ("sr_Latn", "", ()),
    ("sv", "en"): ("sv", "reale", ()),
    ("uk", "feminine"): ("uk", "feminine", (("\u02bc", "\u2019"),)),
    ("uk", "neuter"): ("uk", "neuter", (("\u02bc", "\u2019"),)),
    ("vi", "tư"): ("vi", "", ()),
} | {
    (tag, chosen): ("es", kind, ())
    for tag in ("es", "es-CO", "es-CR", "es-GT", "es-NI", "es-VE")
    for chosen, kind in (("un", "masculine"), ("una", "feminine"))
}  # fmt: skip

TENS = range(20, 100, 10)


def after_tens(*units):
    return {*units, *(ten + unit for ten in TENS for unit in units)}


# (tag, choice) -> the numbers whose words differ from the usual ones, and some or all of those words.
# No published list has these; the statement or 'from memory' stands beside each.
LITERAL = {
    # From memory: both are used, by country.
    ("ar", "مئة"): ({100}, {100: "مئة"}),
    # From memory: as in Russian and Ukrainian.
    ("be", "feminine"): (
        after_tens(1, 2), {1: "адна", 2: "дзве", 21: "дваццаць адна", 92: "дзевяноста дзве"}
    ),
    ("be", "neuter"): (after_tens(1), {1: "адно", 51: "пяцьдзясят адно"}),
    # ibl.bas.bg: the long forms are right too.
    ("bg", "long"): (
        {*range(11, 50), *range(60, 70)} ,
        {
            11: "единадесет", 14: "четиринадесет", 16: "шестнадесет", 20: "двадесет",
            21: "двадесет и едно", 30: "тридесет", 40: "четиридесет", 60: "шестдесет",
        },
    ),
    # From memory; 21 and 22 also in the adjudication.
    ("cs", "jedenadvacet"): (
        {ten + unit for ten in TENS for unit in range(1, 10)},
        {
            21: "jedenadvacet", 22: "dvaadvacet", 23: "třiadvacet", 24: "čtyřiadvacet", 25: "pětadvacet",
            26: "šestadvacet", 27: "sedmadvacet", 28: "osmadvacet", 29: "devětadvacet", 31: "jedenatřicet",
            99: "devětadevadesát",
        },
    ),
    # From memory: dim and sero are both used.
    ("cy", "sero"): ({0}, {0: "sero"}),
    # From memory: Duden has both.
    ("de", "hundert"): ({100}, {100: "hundert"}),
    ("de-CH", "hundert"): ({100}, {100: "hundert"}),
    # From memory: both right.
    ("el", "εφτά"): (
        {unit + ten for ten in (0, 10, *TENS) for unit in (7, 8, 9)},
        {
            7: "εφτά", 8: "οχτώ", 9: "εννιά", 17: "δεκαεφτά", 18: "δεκαοχτώ", 19: "δεκαεννιά",
            27: "είκοσι εφτά",
        },
    ),
    # monsu.desiderio.free.fr/atelier/numeraux.html: quatre-vingts with s, quatre-vingt-un without et.
    ("fr-CH", "quatre-vingts"): (
        set(range(80, 90)), {80: "quatre-vingts", 81: "quatre-vingt-un", 89: "quatre-vingt-neuf"}
    ),
    # As in France, with the regional tens: from memory.
    ("fr-BE", "feminine"): (
        {1, 21, 31, 41, 51, 61, 71, 81, 91},
        {1: "une", 21: "vingt et une", 71: "septante et une", 81: "quatre-vingt-une", 91: "nonante et une"},
    ),
    ("fr-BE", "1990 feminine"): (
        {1, 21, 31, 41, 51, 61, 71, 81, 91},
        {1: "une", 21: "vingt-et-une", 71: "septante-et-une", 81: "quatre-vingt-une", 91: "nonante-et-une"},
    ),
    ("fr-CH", "feminine"): (
        {1, 21, 31, 41, 51, 61, 71, 81, 91},
        {1: "une", 21: "vingt et une", 71: "septante et une", 81: "huitante et une", 91: "nonante et une"},
    ),
    ("fr-CH", "1990 feminine"): (
        {1, 21, 31, 41, 51, 61, 71, 81, 91},
        {1: "une", 21: "vingt-et-une", 71: "septante-et-une", 81: "huitante-et-une", 91: "nonante-et-une"},
    ),
    # From memory: két and what ends in it stand before a noun.
    ("hu", "két"): (
        {2, 12} | {ten + 2 for ten in TENS},
        {2: "két", 12: "tizenkét", 22: "huszonkét", 32: "harminckét", 42: "negyvenkét", 92: "kilencvenkét"},
    ),
    # CLDR 42.
    ("id", "kosong"): ({0}, {0: "kosong"}),
    # www2.hu-berlin.de/bragi, b4_260_tolur_nb.htm: (eitt) hundrað.
    ("is", "hundrað"): ({100}, {100: "hundrað"}),
    # From memory: every grammar.
    ("it", "un"): ({1}, {1: "un"}),
    # From memory.
    ("lt", "feminine"): (
        after_tens(1, 2, 4, 5, 6, 7, 8, 9),
        {
            1: "viena", 2: "dvi", 4: "keturios", 5: "penkios", 6: "šešios", 7: "septynios",
            8: "aštuonios", 9: "devynios", 21: "dvidešimt viena", 34: "trisdešimt keturios",
        },
    ),
    ("lt", "vienas šimtas"): ({100}, {100: "vienas šimtas"}),
    # no.wikipedia.org, Tallord: sju and syv, én and en; 17 is sytten in both.
    ("nb", "syv"): (after_tens(7), {7: "syv", 27: "tjuesyv", 77: "syttisyv"}),
    ("nb", "en"): (after_tens(1), {1: "en", 21: "tjueen", 91: "nittien"}),
    # From memory: the accent may be left out.
    ("nn", "ein"): (after_tens(1), {1: "ein", 21: "tjueein"}),
    # From memory: both are accepted in Brazil.
    ("pt-BR", "quatorze"): ({14}, {14: "quatorze"}),
    # From memory: both right.
    ("ru", "нуль"): ({0}, {0: "нуль"}),
    # From memory; 21, 22 and so on do not change.
    ("sk", "feminine"): ({1, 2}, {1: "jedna", 2: "dve"}),
    ("sk", "neuter"): ({1, 2}, {1: "jedno", 2: "dve"}),
    # CLDR 48 counts so; 22 dvaindvajset is the same in both.
    ("sl", "dva"): ({2}, {2: "dva"}),
    # From memory.
    ("sr-Cyrl", "feminine"): (
        after_tens(1, 2), {1: "једна", 2: "две", 21: "двадесет једна", 22: "двадесет две"}
    ),
    ("sr-Cyrl", "neuter"): (after_tens(1), {1: "једно", 21: "двадесет једно"}),
    ("sr-Latn", "feminine"): (
        after_tens(1, 2), {1: "jedna", 2: "dve", 21: "dvadeset jedna", 22: "dvadeset dve"}
    ),
    ("sr-Latn", "neuter"): (after_tens(1), {1: "jedno", 21: "dvadeset jedno"}),
    # From memory: both right.
    ("sv", "hundra"): ({100}, {100: "hundra"}),
    ("sw", "mia"): ({100}, {100: "mia"}),
}  # fmt: skip


def test_every_choice_is_checked():
    """Each choice that is not the usual one is compared with a published list or stands here literally."""
    checked = [*PUBLISHED, *LITERAL]
    assert sorted(checked) == sorted((tag, choice.name) for tag, choice in OTHERS)


@pytest.mark.parametrize(("tag", "chosen"), PUBLISHED, ids=name)
def test_words_are_those_of_the_published_list(tag, chosen):
    """Every word from 0 to 100 is CLDR's for that gender or series, after the changes listed."""
    locale, kind, changes = PUBLISHED[tag, chosen]
    usual = CLDR[locale]
    varied = VARIANTS[f"{locale}%spellout-cardinal-{kind}"] if kind else {}
    for number in NUMBERS:
        expected = varied.get(str(number), usual[str(number)])
        for pattern, instead in changes:
            expected = re.sub(pattern, instead, expected)
        # What both leave alone is the usual word, which is checked for itself.
        if expected != usual[str(number)] or spell(tag, number, chosen) != spell(tag, number):
            assert spell(tag, number, chosen) == expected


@pytest.mark.parametrize(("tag", "chosen"), LITERAL, ids=name)
def test_words_without_a_published_list_are_these(tag, chosen):
    """The choice changes these numbers and no others, and to these words."""
    numbers, words = LITERAL[tag, chosen]
    assert {number for number in NUMBERS if spell(tag, number, chosen) != spell(tag, number)} == numbers
    assert {number: spell(tag, number, chosen) for number in words} == words


def test_native_korean_is_the_published_list_in_one_word():
    """The usual Korean words are CLDR's native ones, 11 to 19 without their space (from memory)."""
    published = VARIANTS["ko%spellout-cardinal-native"]
    assert [spell("ko", number) for number in range(100)] == [
        published[str(number)].replace(" ", "") for number in range(100)
    ]
    assert spell("ko", 100) == spell("ko", 100, "sino") == "백"


def test_japanese_kana_are_the_usual_reading():
    """The usual Japanese words are as the spelling library reads numbers aloud; 0 is れい."""
    from num2words import num2words

    assert spell("ja", 0) == "れい"
    assert [spell("ja", number) for number in range(1, 101)] == [
        num2words(number, lang="ja", reading=True) for number in range(1, 101)
    ]


@pytest.mark.parametrize(("tag", "choice"), ALL, ids=name)
def test_words_of_a_choice_are_clean(tag, choice):
    """With a choice too, words are composed, singly spaced, and no two numbers share one."""
    words = [spell(tag, number, choice.name) for number in NUMBERS]
    assert len(set(words)) == len(words)
    assert all(unicodedata.is_normalized("NFC", word) and word.split(" ") == word.split() for word in words)


@pytest.mark.parametrize("tag", sorted({tag for tag, _ in ALL}))
def test_the_first_choice_is_the_usual_one(tag):
    """The first choice changes nothing, the others do; names and other words for them are distinct."""
    usual, *others = choices(tag)
    assert others and not usual.words and all(choice.words for choice in others)
    assert all(spell(tag, number, usual.name) == spell(tag, number) for number in NUMBERS)
    named = [word for choice in choices(tag) for word in (choice.name, *choice.also)]
    assert len(set(named)) == len(named)


@pytest.mark.parametrize(("tag", "choice"), OTHERS, ids=name)
def test_a_choice_says_what_it_changes(tag, choice):
    """No word is listed that is the usual one, and each choice names its authority."""
    assert all(spell(tag, number, choice.name) != spell(tag, number) for number in choice.words)
    assert choice.says and choice.checked


def test_a_choice_is_found_by_other_words_too():
    """The genders of Spanish are un and una, however they are asked for."""
    assert spell("es", 21, "feminine") == spell("es", 21, "una") == "veintiuna"
    assert spell("es", 21, "masculine") == spell("es", 21, "un") == "veintiún"
    assert spell("es", 21) == spell("es", 21, "uno") == "veintiuno"


@pytest.mark.parametrize(
    ("tag", "wish", "sentence"),
    [
        (
            "nb",
            "sjv",
            "words: Norwegian Bokmål has no choice 'sjv'; allowed: sju, syv, en, neuter or feminine; "
            "did you mean 'syv'?",
        ),
        (
            "en",
            "british",
            "words: there is nothing to choose in the number words of English; "
            "allowed: to leave this line out",
        ),
    ],
)
def test_a_choice_that_is_not_there_is_told(tag, wish, sentence):
    """A wrong choice is told with those there are."""
    with pytest.raises(PrintkitError) as caught:
        choose(tag, wish, "words")
    assert [str(problem) for problem in caught.value.problems] == [sentence]
    with pytest.raises(PrintkitError):
        spell(tag, 7, wish)
