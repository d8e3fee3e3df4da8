"""Choices of the Germanic languages."""

from printkit.words.build import compound, numbered
from printkit.words.model import Choice

_NORWEGIAN_TENS = numbered(20, 10, "tjue, tretti, førti, femti, seksti, sytti, åtti, nitti")
_NORWEGIAN_FORMS = "no.wikipedia.org, Tallord; Bokmål permits both"

_BOKMAL = (
    Choice(name="sju", says="7 is sju, 1 is én", checked="CLDR 48; no.wikipedia.org, Tallord", also=("én",)),
    Choice(
        name="syv",
        says="7 is syv, 27 tjuesyv",
        checked=_NORWEGIAN_FORMS,
        words={7: "syv"} | compound(_NORWEGIAN_TENS, {7: "syv"}),
    ),
    Choice(
        name="en",
        says="1 is en, without the accent",
        checked=_NORWEGIAN_FORMS,
        words={1: "en"} | compound(_NORWEGIAN_TENS, {1: "en"}),
    ),
    Choice(
        name="neuter",
        says="1 is ett, 21 tjueett",
        checked="CLDR 48, neuter",
        words={1: "ett"} | compound(_NORWEGIAN_TENS, {1: "ett"}),
        also=("ett",),
    ),
    Choice(name="feminine", says="1 is ei", checked="CLDR 48, feminine", words={1: "ei"}, also=("ei",)),
)

_NYNORSK = (
    Choice(name="éin", says="1 is éin, with the accent", checked="CLDR 48"),
    Choice(
        name="ein",
        says="1 is ein, without the accent",
        checked="from memory: both right",
        words={1: "ein"} | compound(_NORWEGIAN_TENS, {1: "ein"}),
    ),
)

_GERMAN = (
    Choice(name="eins", says="1 is eins, 100 einhundert, as one counts", checked="CLDR 48"),
    Choice(
        name="ein",
        says="before a masculine or neuter noun: 1 is ein",
        checked="CLDR 48, masculine",
        words={1: "ein"},
        also=("masculine", "neuter"),
    ),
    Choice(
        name="eine",
        says="before a feminine noun: 1 is eine",
        checked="CLDR 48, feminine",
        words={1: "eine"},
        also=("feminine",),
    ),
    Choice(
        name="hundert",
        says="100 is hundert",
        checked="Duden has both (from memory)",
        words={100: "hundert"},
    ),
)

_SWEDISH_TENS = numbered(20, 10, "tjugo, trettio, fyrtio, femtio, sextio, sjuttio, åttio, nittio")
_SWEDISH = (
    Choice(name="ett", says="1 is ett, as one counts", checked="CLDR 48", also=("neuter",)),
    Choice(
        name="en",
        says="before a noun with en: 1 is en, 21 tjugoen",
        checked="CLDR 48, reale; sprakbruk.fi, tjugoen eller tjugoett",
        words={1: "en"} | compound(_SWEDISH_TENS, {1: "en"}),
    ),
    Choice(
        name="hundra",
        says="100 is hundra",
        checked="from memory: both right",
        words={100: "hundra"},
    ),
)

_ICELANDIC_TENS = numbered(20, 10, "tuttugu, þrjátíu, fjörutíu, fimmtíu, sextíu, sjötíu, áttatíu, níutíu")


def _icelandic(units: str) -> dict[int, str]:
    ones = numbered(1, 1, units)
    return ones | compound(_ICELANDIC_TENS, ones, "{ten} og {unit}")


_ICELANDIC = (
    Choice(name="masculine", says="1 is einn, 2 tveir, as one counts", checked="CLDR 48", also=("einn",)),
    Choice(
        name="feminine",
        says="1 to 4 are ein, tvær, þrjár, fjórar",
        checked="CLDR 48, feminine",
        words=_icelandic("ein, tvær, þrjár, fjórar"),
    ),
    Choice(
        name="neuter",
        says="1 to 4 are eitt, tvö, þrjú, fjögur",
        checked="CLDR 48, neuter",
        words=_icelandic("eitt, tvö, þrjú, fjögur"),
    ),
    Choice(
        name="hundrað",
        says="100 is hundrað",
        checked="www2.hu-berlin.de/bragi, b4_260_tolur_nb.htm: with or without eitt",
        words={100: "hundrað"},
    ),
)

CHOICES = {
    "da": (
        Choice(name="en", says="1 is en, as one counts", checked="arabeskacademy.com/talord-2"),
        Choice(
            name="et",
            says="before a neuter noun: 1 is et",
            checked="CLDR 48",
            words={1: "et"},
            also=("neuter",),
        ),
    ),
    "de": _GERMAN,
    "de-CH": _GERMAN,
    "is": _ICELANDIC,
    "nb": _BOKMAL,
    "nl": (
        Choice(
            name="één",
            says="1 is één, which cannot be read as the article",
            checked="CLDR 48, stressed; nl.wikipedia.org, Hoofdtelwoord",
        ),
        Choice(
            name="een",
            says="1 is een, without the accents",
            checked="CLDR 48; nl.wikipedia.org, Hoofdtelwoord",
            words={1: "een"},
        ),
    ),
    "nn": _NYNORSK,
    "sv": _SWEDISH,
}
