"""Choices of the other languages."""

from printkit.words.build import changed, compound, numbered
from printkit.words.lists.europe import GREEK
from printkit.words.lists.series import JAPANESE_KANJI, KOREAN_SINO
from printkit.words.model import Choice

_WELSH_FEMININE = {2: "dwy", 3: "tair", 4: "pedair"}
_WELSH_TENS = numbered(
    10, 10, "un deg, dau ddeg, tri deg, pedwar deg, pum deg, chwe deg, saith deg, wyth deg, naw deg"
)
_WELSH = (
    Choice(
        name="decimal",
        says="counting by tens, as in schools: 21 is dau ddeg un",
        checked="en.wikibooks.org, Welsh/Numbers; CLDR 48",
        also=("masculine",),
    ),
    Choice(
        name="feminine",
        says="2 is dwy, 3 tair, 4 pedair",
        checked="CLDR 48, feminine",
        words=_WELSH_FEMININE | compound(_WELSH_TENS, _WELSH_FEMININE, "{ten} {unit}"),
    ),
    Choice(
        name="sero", says="0 is sero", checked="from memory: dim and sero are both used", words={0: "sero"}
    ),
)

_HEBREW_ONES = numbered(1, 1, "אחד, שניים, שלושה, ארבעה, חמישה, שישה, שבעה, שמונה, תשעה")
# 2 alone is שניים, where CLDR 48 has the form before a noun; 12 has one yod, as the feminine has it
# in both sources (from memory).
_HEBREW = (
    Choice(name="feminine", says="as one counts", checked="CLDR 48", also=("counting",)),
    Choice(
        name="masculine",
        says="before masculine nouns: 1 is אחד, 3 שלושה",
        checked="CLDR 48, masculine; 2 and 12 from memory",
        words={number: word for number, word in _HEBREW_ONES.items() if number != 8}
        | {10: "עשרה"}
        | {10 + number: f"{word} עשר" for number, word in (_HEBREW_ONES | {2: "שנים"}).items()}
        | {
            number: word
            for number, word in compound(
                numbered(20, 10, "עשרים, שלושים, ארבעים, חמישים, שישים, שבעים, שמונים, תשעים"),
                _HEBREW_ONES,
                "{ten} ו{unit}",
            ).items()
            if number % 10 != 8
        },
    ),
)

_HUNGARIAN = (
    Choice(name="kettő", says="2 is kettő, as one counts", checked="CLDR 48"),
    Choice(
        name="két",
        says="before a noun: 2 is két, 12 tizenkét",
        checked="from memory: grammars agree",
        words={2: "két"}
        | compound(
            numbered(
                10,
                10,
                "tizen, huszon, harminc, negyven, ötven, hatvan, hetven, nyolcvan, kilencven",
            ),
            {2: "két"},
        ),
    ),
)

_GREEK = (
    Choice(name="επτά", says="7, 8, 9 are επτά, οκτώ, εννέα", checked="CLDR 48", also=("epta",)),
    Choice(
        name="εφτά",
        says="7, 8, 9 are εφτά, οχτώ, εννιά",
        checked="from memory: both right",
        words=changed(GREEK, ("επτά", "εφτά"), ("οκτώ", "οχτώ"), ("εννέα", "εννιά")),
        also=("efta",),
    ),
)

_JAPANESE = (
    Choice(
        name="kana", says="いち、に、さん, for young children", checked="as num2words reads numbers aloud"
    ),
    Choice(
        name="kanji",
        says="一、二、三",
        checked="CLDR 48; 0 is 零, 〇 is right too",
        words=JAPANESE_KANJI,
    ),
)

_KOREAN = (
    Choice(
        name="native",
        says="하나, 둘, 셋, for counting things",
        checked="CLDR 48, native; 11 to 19 as one word, from memory",
    ),
    Choice(
        name="sino",
        says="일, 이, 삼, for reading numerals and for sums",
        checked="CLDR 48; 0 is 영 in number work",
        words={number: word for number, word in KOREAN_SINO.items() if number not in (0, 100)},
    ),
)

_VIETNAMESE = (
    Choice(name="bốn", says="24 is hai mươi bốn", checked="vietvoz.com, numbers in Vietnamese"),
    Choice(
        name="tư",
        says="24 is hai mươi tư",
        checked="CLDR 48; en.wiktionary.org, tứ",
        words=compound(
            numbered(
                20,
                10,
                "hai mươi, ba mươi, bốn mươi, năm mươi, sáu mươi, bảy mươi, tám mươi, chín mươi",
            ),
            {4: "tư"},
            "{ten} {unit}",
        ),
    ),
)

CHOICES = {
    "ar": (
        Choice(name="مائة", says="100 is مائة", checked="CLDR 48"),
        Choice(
            name="مئة",
            says="100 is مئة, by country",
            checked="from memory: both are used",
            words={100: "مئة"},
        ),
    ),
    "cy": _WELSH,
    "el": _GREEK,
    "et": (
        Choice(name="sada", says="100 is sada", checked="from memory: both right"),
        Choice(name="ükssada", says="100 is ükssada", checked="CLDR 48", words={100: "ükssada"}),
    ),
    "he": _HEBREW,
    "hu": _HUNGARIAN,
    "id": (
        Choice(name="nol", says="0 is nol", checked="CLDR 48"),
        Choice(name="kosong", says="0 is kosong", checked="CLDR 42", words={0: "kosong"}),
    ),
    "ja": _JAPANESE,
    "ko": _KOREAN,
    "sw": (
        Choice(name="mia moja", says="100 is mia moja", checked="CLDR 48"),
        Choice(name="mia", says="100 is mia", checked="from memory: both right", words={100: "mia"}),
    ),
    "vi": _VIETNAMESE,
}
