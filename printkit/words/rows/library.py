"""Languages that num2words 0.5.14 spells, our corrections laid over it.

`checked` says what it was compared with, for every number from 0 to 100. Where two spellings are
both right, `choices` has the other one.
"""

from typing import Any

from printkit.words.corrections import (
    ARABIC,
    BELGIAN_FRENCH,
    DANISH,
    LITHUANIAN,
    NORWEGIAN,
    SWEDISH,
    TURKISH,
    WELSH,
)
from printkit.words.model import Row
from printkit.words.rows import row


def _spelled(tag: str, name: str, own_name: str, sample: str, *also: str, code: str = "", **more: Any) -> Row:
    """A row for the library, whose name for a language is the tag unless `code` says otherwise."""
    return row(tag, name, own_name, sample, *also, code=code or tag, **more)


FRENCH = "CLDR 48; averbode.be for the hyphens, as before 1990"

ROWS = (
    _spelled(
        "ar",
        "Arabic",
        "العربية",
        "واحد, اثنان, ثلاثة",
        "ara",
        script="Arab",
        digits="٠١٢٣٤٥٦٧٨٩",
        checked="CLDR 48; mbrf.ae for 2, al3nan.net for 21 to 99",
        words=ARABIC,
    ),
    _spelled(
        "az",
        "Azerbaijani",
        "azərbaycan",
        "bir, iki, üç",
        "aze",
        checked="CLDR 48; a published course for 60 and 80",
    ),
    _spelled(
        "be",
        "Belarusian",
        "беларуская",
        "адзін, два, тры",
        "bel",
        script="Cyrl",
        checked="CLDR 48; spelling rules of 2008 for 50 and 60",
    ),
    _spelled("ca", "Catalan", "català", "un, dos, tres", "cat", checked="CLDR 48; 1 is un, u is right too"),
    # 1 is jedna, as one counts; jeden goes with a masculine noun. 21 also jedenadvacet.
    _spelled(
        "cs",
        "Czech",
        "čeština",
        "jedna, dva, tři",
        "ces",
        "cze",
        "cz",
        checked="CLDR 48; 1 is jedna, from memory",
    ),
    _spelled(
        "cy",
        "Welsh",
        "Cymraeg",
        "un, dau, tri",
        "cym",
        "wel",
        checked="CLDR 48; counting by tens, as in schools",
        words=WELSH,
    ),
    _spelled(
        "da",
        "Danish",
        "dansk",
        "en, to, tre",
        "dan",
        "dk",
        checked="CLDR 48; published notes on en, tres, hundrede",
        words=DANISH,
    ),
    _spelled("de", "German", "Deutsch", "eins, zwei, drei", "deu", "ger"),
    # Dreissig: Switzerland and Liechtenstein write no ß.
    _spelled(
        "de-CH",
        "German (Switzerland)",
        "Deutsch (Schweiz)",
        "eins, zwei, drei",
        "de-li",
        code="de",
        checked="CLDR 48, which agrees throughout",
        characters=(("ß", "ss"),),
    ),
    _spelled("en", "English", "English", "one, two, three", "eng", "gb", "us"),
    _spelled("en-IN", "English (India)", "English (India)", "one, two, three", code="en_IN"),
    _spelled("en-NG", "English (Nigeria)", "English (Nigeria)", "one, two, three", code="en_NG"),
    _spelled("eo", "Esperanto", "Esperanto", "unu, du, tri", "epo", checked="CLDR 48; PMEG 23.1.1 for 0"),
    # uno, veintiuno: the name of the number; un, veintiún, una stand before a noun.
    _spelled("es", "Spanish", "español", "uno, dos, tres", "spa", "castilian", "castellano"),
    _spelled("es-CO", "Spanish (Colombia)", "español (Colombia)", "uno, dos, tres", code="es_CO"),
    _spelled("es-CR", "Spanish (Costa Rica)", "español (Costa Rica)", "uno, dos, tres", code="es_CR"),
    _spelled("es-GT", "Spanish (Guatemala)", "español (Guatemala)", "uno, dos, tres", code="es_GT"),
    _spelled("es-NI", "Spanish (Nicaragua)", "español (Nicaragua)", "uno, dos, tres", code="es_NI"),
    _spelled("es-VE", "Spanish (Venezuela)", "español (Venezuela)", "uno, dos, tres", code="es_VE"),
    _spelled(
        "fa",
        "Persian",
        "فارسی",
        "یک, دو, سه",
        "fas",
        "per",
        "farsi",
        script="Arab",
        digits="۰۱۲۳۴۵۶۷۸۹",
    ),
    _spelled("fi", "Finnish", "suomi", "yksi, kaksi, kolme", "fin"),
    _spelled("fr", "French", "français", "un, deux, trois", "fra", "fre", checked=FRENCH),
    _spelled(
        "fr-BE",
        "French (Belgium)",
        "français (Belgique)",
        "un, deux, trois",
        code="fr_BE",
        checked=FRENCH,
        words=BELGIAN_FRENCH,
    ),
    # 80 is huitante (Vaud, Valais, Fribourg); Geneva, Neuchâtel and Jura say quatre-vingts,
    # as fr-BE does (from memory).
    _spelled(
        "fr-CH", "French (Switzerland)", "français (Suisse)", "un, deux, trois", code="fr_CH", checked=FRENCH
    ),
    _spelled(
        "fr-DZ", "French (Algeria)", "français (Algérie)", "un, deux, trois", code="fr_DZ", checked=FRENCH
    ),
    # Feminine, as one counts. Without vowel points.
    _spelled("he", "Hebrew", "עברית", "אחת, שתיים, שלוש", "heb", "iw", script="Hebr"),
    _spelled("hu", "Hungarian", "magyar", "egy, kettő, három", "hun"),
    _spelled("id", "Indonesian", "Bahasa Indonesia", "satu, dua, tiga", "ind", "Indonesia"),
    # 100 is eitt hundrað, hundrað is right too.
    _spelled(
        "is",
        "Icelandic",
        "íslenska",
        "einn, tveir, þrír",
        "isl",
        "ice",
        checked="CLDR 48; a published table of numerals for 7",
    ),
    _spelled("it", "Italian", "italiano", "uno, due, tre", "ita"),
    _spelled("kk", "Kazakh", "қазақ тілі", "бір, екі, үш", "kaz", "kz", code="kz", script="Cyrl"),
    _spelled("lt", "Lithuanian", "lietuvių", "vienas, du, trys", "lit", words=LITHUANIAN),
    _spelled(
        "lv",
        "Latvian",
        "latviešu",
        "viens, divi, trīs",
        "lav",
        checked="CLDR 48; orthography of ailab.lv for 100",
    ),
    _spelled(
        "nb",
        "Norwegian Bokmål",
        "norsk bokmål",
        "én, to, tre",
        "nob",
        "bokmål",
        code="no",
        checked="CLDR 48; 100 is hundre",
        words=NORWEGIAN,
    ),
    # 1 is één on a card that stands alone: een reads as the article.
    _spelled(
        "nl",
        "Dutch",
        "Nederlands",
        "één, twee, drie",
        "nld",
        "dut",
        "flemish",
        "vlaams",
        checked="CLDR 48; 1 is één, een is right too",
    ),
    _spelled("pl", "Polish", "polski", "jeden, dwa, trzy", "pol"),
    # 14 is catorze, quatorze is right too.
    _spelled(
        "pt-BR",
        "Portuguese (Brazil)",
        "português (Brasil)",
        "um, dois, três",
        "brazilian portuguese",
        code="pt_BR",
    ),
    _spelled(
        "pt-PT",
        "Portuguese (Portugal)",
        "português (Portugal)",
        "um, dois, três",
        "european portuguese",
        code="pt",
    ),
    _spelled(
        "ro",
        "Romanian",
        "română",
        "unu, doi, trei",
        "ron",
        "rum",
        checked="CLDR 48; DOOM of 2005 for 14, 16, 60",
    ),
    _spelled("ru", "Russian", "русский", "один, два, три", "rus", script="Cyrl"),
    _spelled(
        "sk",
        "Slovak",
        "slovenčina",
        "jeden, dva, tri",
        "slk",
        "slo",
        checked="CLDR 48; 100 is sto, from memory",
    ),
    # 2 is dve, as in counting and sums; dva goes with a masculine noun.
    _spelled(
        "sl",
        "Slovenian",
        "slovenščina",
        "ena, dve, tri",
        "slv",
        "slovene",
        checked="CLDR 48; Pravopis for 21 to 99",
    ),
    # dvadeset jedan; dvadeset i jedan is right too.
    _spelled(
        "sr-Latn",
        "Serbian (Latin)",
        "srpski (latinica)",
        "jedan, dva, tri",
        "srpski",
        code="sr",
        checked="CLDR 48; 21 is dvadeset jedan, without i",
    ),
    _spelled(
        "sv",
        "Swedish",
        "svenska",
        "ett, två, tre",
        "swe",
        checked="CLDR 48; published notes on fyrtio",
        words=SWEDISH,
    ),
    _spelled("th", "Thai", "ไทย", "หนึ่ง, สอง, สาม", "tha", script="Thai", digits="๐๑๒๓๔๕๖๗๘๙"),
    _spelled(
        "tr",
        "Turkish",
        "Türkçe",
        "bir, iki, üç",
        "tur",
        checked="CLDR 48; the rule of TDK: written apart",
        words=TURKISH,
    ),
    # The library has the typewriter's tick; U+02BC and U+2019 look alike, and U+2019 is on keyboards.
    _spelled(
        "uk",
        "Ukrainian",
        "українська",
        "один, два, три",
        "ukr",
        "ua",
        script="Cyrl",
        checked="CLDR 48; apostrophe U+2019",
        characters=(("'", "\u2019"),),
    ),
    # 24 is hai mươi bốn; hai mươi tư is right too.
    _spelled(
        "vi",
        "Vietnamese",
        "Tiếng Việt",
        "một, hai, ba",
        "vie",
        "vn",
        checked="CLDR 48; 24 ends in bốn, tư is right too",
    ),
)
