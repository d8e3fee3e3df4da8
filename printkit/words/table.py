"""The one table of languages: what a pack file may name, and what stands behind each name.

English and own names after CLDR 48, 'Bahasa Indonesia' excepted (common practice). Further words
that a person may write for a language: the three-letter codes of ISO 639-2, which CLDR lists too.

`checked` says what num2words 0.5.14 was compared with, for every number from 0 to 100. Where two
spellings are both right, a comment names the one that is printed. No row was read by a native
reader so far, hence `reviewed` is False throughout.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from printkit.words.corrections import (
    BELGIAN_FRENCH,
    DANISH,
    LITHUANIAN,
    NORWEGIAN,
    SWEDISH,
    TURKISH,
    WELSH,
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Language:
    """A language that is offered.

    `tag` is BCP 47, `own_name` what its speakers call it, `script` ISO 15924, `checked` what the
    spellings were compared with, `reviewed` whether a native reader has read all of them.
    """

    tag: str
    name: str
    own_name: str
    script: str
    direction: Literal["ltr", "rtl"]
    reviewed: bool
    checked: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """A language and how it is spelled.

    `code` is the exact name num2words has for it, `corrections` the numbers whose word is another,
    `characters` what is replaced in every other word, `also` further words a person may write for it.
    """

    language: Language
    code: str
    corrections: Mapping[int, str] = field(default_factory=dict)
    characters: tuple[tuple[str, str], ...] = ()
    also: tuple[str, ...] = ()


AGREES = "CLDR 48 agrees throughout"


def _row(
    tag: str,
    name: str,
    own_name: str,
    *also: str,
    code: str = "",
    script: str = "Latn",
    checked: str = AGREES,
    corrections: Mapping[int, str] | None = None,
    characters: tuple[tuple[str, str], ...] = (),
) -> Row:
    language = Language(
        tag=tag,
        name=name,
        own_name=own_name,
        script=script,
        direction="ltr",
        reviewed=False,
        checked=checked,
    )
    return Row(
        language=language,
        code=code or tag,
        corrections=corrections or {},
        characters=characters,
        also=also,
    )


FRENCH = "CLDR 48; hyphens as before 1990"

ROWS = (
    _row("az", "Azerbaijani", "azərbaycan", "aze", checked="CLDR 48; a published course for 60 and 80"),
    _row(
        "be",
        "Belarusian",
        "беларуская",
        "bel",
        script="Cyrl",
        checked="CLDR 48; spelling rules of 2008 for 50 and 60",
    ),
    _row("ca", "Catalan", "català", "cat", checked="CLDR 48; 1 is un, u is right too"),
    # 1 is jedna, as one counts; jeden goes with a masculine noun. 21 also jedenadvacet.
    _row("cs", "Czech", "čeština", "ces", "cze", "cz", checked="CLDR 48; 1 is jedna, from memory"),
    _row(
        "cy",
        "Welsh",
        "Cymraeg",
        "cym",
        "wel",
        checked="CLDR 48; counting by tens, as in schools",
        corrections=WELSH,
    ),
    _row(
        "da",
        "Danish",
        "dansk",
        "dan",
        "dk",
        checked="CLDR 48; published notes on en, tres, hundrede",
        corrections=DANISH,
    ),
    # 100 is einhundert, hundert is right too. Switzerland writes dreissig: not this row.
    _row("de", "German", "Deutsch", "deu", "ger"),
    _row("en", "English", "English", "eng", "gb", "us"),
    _row("en-IN", "English (India)", "English (India)", code="en_IN"),
    _row("en-NG", "English (Nigeria)", "English (Nigeria)", code="en_NG"),
    _row("eo", "Esperanto", "Esperanto", "epo", checked="CLDR 48; PMEG 23.1.1 for 0"),
    # uno, veintiuno: the name of the number; un, veintiún, una stand before a noun.
    _row("es", "Spanish", "español", "spa", "castilian", "castellano"),
    _row("es-CO", "Spanish (Colombia)", "español (Colombia)", code="es_CO"),
    _row("es-CR", "Spanish (Costa Rica)", "español (Costa Rica)", code="es_CR"),
    _row("es-GT", "Spanish (Guatemala)", "español (Guatemala)", code="es_GT"),
    _row("es-NI", "Spanish (Nicaragua)", "español (Nicaragua)", code="es_NI"),
    _row("es-VE", "Spanish (Venezuela)", "español (Venezuela)", code="es_VE"),
    _row("fi", "Finnish", "suomi", "fin"),
    # vingt et un throughout; vingt-et-un (1990) is right too.
    _row("fr", "French", "français", "fra", "fre", checked=FRENCH),
    _row(
        "fr-BE",
        "French (Belgium)",
        "français (Belgique)",
        code="fr_BE",
        checked=FRENCH,
        corrections=BELGIAN_FRENCH,
    ),
    # 80 is huitante (Vaud, Valais, Fribourg); Geneva, Neuchâtel and Jura say quatre-vingts,
    # as fr-BE does (from memory).
    _row("fr-CH", "French (Switzerland)", "français (Suisse)", code="fr_CH", checked=FRENCH),
    _row("fr-DZ", "French (Algeria)", "français (Algérie)", code="fr_DZ", checked=FRENCH),
    _row("hu", "Hungarian", "magyar", "hun"),
    _row("id", "Indonesian", "Bahasa Indonesia", "ind", "Indonesia"),
    # 100 is eitt hundrað, hundrað is right too.
    _row(
        "is",
        "Icelandic",
        "íslenska",
        "isl",
        "ice",
        checked="CLDR 48; a published table of numerals for 7",
    ),
    _row("it", "Italian", "italiano", "ita"),
    _row("kk", "Kazakh", "қазақ тілі", "kaz", "kz", code="kz", script="Cyrl"),
    _row("lt", "Lithuanian", "lietuvių", "lit", corrections=LITHUANIAN),
    _row("lv", "Latvian", "latviešu", "lav", checked="CLDR 48; orthography of ailab.lv for 100"),
    _row(
        "nb",
        "Norwegian Bokmål",
        "norsk bokmål",
        "nob",
        "bokmål",
        code="no",
        checked="CLDR 48; 100 is hundre",
        corrections=NORWEGIAN,
    ),
    # 1 is één on a card that stands alone: een reads as the article.
    _row(
        "nl",
        "Dutch",
        "Nederlands",
        "nld",
        "dut",
        "flemish",
        "vlaams",
        checked="CLDR 48; 1 is één, een is right too",
    ),
    _row("pl", "Polish", "polski", "pol"),
    # 14 is catorze, quatorze is right too.
    _row("pt-BR", "Portuguese (Brazil)", "português (Brasil)", "brazilian portuguese", code="pt_BR"),
    _row("pt-PT", "Portuguese (Portugal)", "português (Portugal)", "european portuguese", code="pt"),
    _row("ro", "Romanian", "română", "ron", "rum", checked="CLDR 48; DOOM of 2005 for 14, 16, 60"),
    _row("ru", "Russian", "русский", "rus", script="Cyrl"),
    _row("sk", "Slovak", "slovenčina", "slk", "slo", checked="CLDR 48; 100 is sto, from memory"),
    # 2 is dve, as in counting and sums; dva goes with a masculine noun.
    _row("sl", "Slovenian", "slovenščina", "slv", "slovene", checked="CLDR 48; Pravopis for 21 to 99"),
    # dvadeset jedan; dvadeset i jedan is right too.
    _row(
        "sr-Latn",
        "Serbian (Latin)",
        "srpski (latinica)",
        "srpski",
        code="sr",
        checked="CLDR 48; 21 is dvadeset jedan, without i",
    ),
    _row(
        "sv",
        "Swedish",
        "svenska",
        "swe",
        checked="CLDR 48; published notes on fyrtio",
        corrections=SWEDISH,
    ),
    _row(
        "tr",
        "Turkish",
        "Türkçe",
        "tur",
        checked="CLDR 48; the rule of TDK: written apart",
        corrections=TURKISH,
    ),
    # The library has the typewriter's tick; U+02BC and U+2019 look alike, and U+2019 is on keyboards.
    _row(
        "uk",
        "Ukrainian",
        "українська",
        "ukr",
        "ua",
        script="Cyrl",
        checked="CLDR 48; apostrophe U+2019",
        characters=(("'", "\u2019"),),
    ),
    # 24 is hai mươi bốn; hai mươi tư is right too.
    _row(
        "vi",
        "Vietnamese",
        "Tiếng Việt",
        "vie",
        "vn",
        checked="CLDR 48; 24 ends in bốn, tư is right too",
    ),
)
