"""Choices of the Romance languages."""

from printkit.words.build import changed, compound, numbered
from printkit.words.model import Choice

_CLDR_FEMININE = "CLDR 48, feminine"
_CLDR_MASCULINE = "CLDR 48, masculine"

# --- French --------------------------------------------------------------------------------------

_SPELLINGS = "averbode.be, La nouvelle orthographe; sophieviguiercorrectrice.com: both right"
_FRENCH_TENS = numbered(20, 10, "vingt, trente, quarante, cinquante, soixante")
_FRANCE_AND_ONE = compound(_FRENCH_TENS, {1: "un"}, "{ten} et {unit}") | {71: "soixante et onze"}
_BELGIUM_AND_ONE = compound(_FRENCH_TENS | {70: "septante", 90: "nonante"}, {1: "un"}, "{ten} et {unit}")
_SWITZERLAND_AND_ONE = _BELGIUM_AND_ONE | {81: "huitante et un"}


def _french(and_one: dict[int, str], eighty_one: dict[int, str], *more: Choice) -> tuple[Choice, ...]:
    """`and_one` are the numbers in '... et un', `eighty_one` the feminine of 81 where it has no et."""
    feminine = {1: "une"} | changed(and_one, ("et un", "et une")) | eighty_one
    return (
        Choice(name="traditional", says="21 is vingt et un", checked=_SPELLINGS),
        Choice(
            name="1990",
            says="hyphens as in the spelling of 1990: 21 is vingt-et-un",
            checked="CLDR 48; " + _SPELLINGS,
            words=changed(and_one, (" et ", "-et-")),
        ),
        Choice(
            name="feminine",
            says="1 is une, 21 vingt et une",
            checked=_CLDR_FEMININE,
            words=feminine,
            also=("une",),
        ),
        Choice(
            name="1990 feminine",
            says="1 is une, 21 vingt-et-une",
            checked=_CLDR_FEMININE,
            words=changed(and_one | feminine, (" et ", "-et-")) | {1: "une"} | eighty_one,
        ),
        *more,
    )


_QUATRE_VINGTS = Choice(
    name="quatre-vingts",
    says="80 is quatre-vingts, as in Geneva, Neuchâtel and Jura",
    checked="cantons from memory; spelling: monsu.desiderio.free.fr/atelier/numeraux.html",
    words={80: "quatre-vingts"}
    | compound(
        {80: "quatre-vingt"},
        numbered(1, 1, "un, deux, trois, quatre, cinq, six, sept, huit, neuf"),
        "{ten}-{unit}",
    ),
)
_FRANCE = _french(_FRANCE_AND_ONE, {81: "quatre-vingt-une"})

# --- Spanish, Portuguese, Italian, Catalan, Romanian ---------------------------------------------

_SPANISH_TENS = numbered(30, 10, "treinta, cuarenta, cincuenta, sesenta, setenta, ochenta, noventa")
_SPANISH = (
    Choice(name="uno", says="the name of the number, as one counts", checked="CLDR 48", also=("counting",)),
    Choice(
        name="un",
        says="before a masculine noun: 1 is un, 21 veintiún",
        checked=_CLDR_MASCULINE,
        words={1: "un", 21: "veintiún"} | compound(_SPANISH_TENS, {1: "un"}, "{ten} y {unit}"),
        also=("masculine",),
    ),
    Choice(
        name="una",
        says="before a feminine noun: 1 is una, 21 veintiuna",
        checked=_CLDR_FEMININE,
        words={1: "una", 21: "veintiuna"} | compound(_SPANISH_TENS, {1: "una"}, "{ten} y {unit}"),
        also=("feminine",),
    ),
)

_PORTUGUESE_FEMININE = Choice(
    name="feminine",
    says="1 is uma, 2 duas, 21 vinte e uma",
    checked=_CLDR_FEMININE,
    words={1: "uma", 2: "duas"}
    | compound(
        numbered(20, 10, "vinte, trinta, quarenta, cinquenta, sessenta, setenta, oitenta, noventa"),
        {1: "uma", 2: "duas"},
        "{ten} e {unit}",
    ),
    also=("uma",),
)

# 21 ventuno stays: CLDR 48 has ventuna, which before a noun is rare (from memory).
_ITALIAN = (
    Choice(name="uno", says="the name of the number, as one counts", checked="CLDR 48", also=("counting",)),
    Choice(
        name="un",
        says="before a masculine noun: 1 is un",
        checked="from memory: grammars agree",
        words={1: "un"},
        also=("masculine",),
    ),
    Choice(
        name="una",
        says="before a feminine noun: 1 is una",
        checked=_CLDR_FEMININE,
        words={1: "una"},
        also=("feminine",),
    ),
)

_CATALAN_TENS = numbered(30, 10, "trenta, quaranta, cinquanta, seixanta, setanta, vuitanta, noranta")


def _catalan(units: dict[int, str]) -> dict[int, str]:
    return units | compound({20: "vint-i"} | _CATALAN_TENS, units, "{ten}-{unit}")


_CATALAN = (
    Choice(
        name="un",
        says="1 is un, as one counts",
        checked="SALT, svnlliurexnet.gva.es, u_un.html: un and u are both right",
        also=("masculine",),
    ),
    Choice(
        name="u",
        says="1 is u, 21 vint-i-u",
        checked="CLDR 48; SALT, svnlliurexnet.gva.es, u_un.html",
        words=_catalan({1: "u"}),
    ),
    Choice(
        name="feminine",
        says="1 is una, 2 dues, 21 vint-i-una",
        checked=_CLDR_FEMININE,
        words=_catalan({1: "una", 2: "dues"}),
        also=("una",),
    ),
)

_ROMANIAN = (
    Choice(name="masculine", says="1 is unu, 2 doi, as one counts", checked="CLDR 48", also=("unu",)),
    Choice(
        name="feminine",
        says="1 is una, 2 două, 12 douăsprezece",
        checked="CLDR 48, feminine; DOOM of 2005 for 60",
        words={1: "una", 2: "două", 12: "douăsprezece"}
        | compound(
            numbered(
                20, 10, "douăzeci, treizeci, patruzeci, cincizeci, șaizeci, șaptezeci, optzeci, nouăzeci"
            ),
            {1: "una", 2: "două"},
            "{ten} și {unit}",
        ),
        also=("una",),
    ),
)

CHOICES = {
    "ca": _CATALAN,
    "fr": _FRANCE,
    "fr-BE": _french(_BELGIUM_AND_ONE, {81: "quatre-vingt-une"}),
    "fr-CH": _french(_SWITZERLAND_AND_ONE, {}, _QUATRE_VINGTS),
    "fr-DZ": _FRANCE,
    "it": _ITALIAN,
    "pt-BR": (
        Choice(name="catorze", says="14 is catorze", checked="CLDR 48", also=("masculine",)),
        Choice(
            name="quatorze",
            says="14 is quatorze",
            checked="from memory: both are accepted in Brazil",
            words={14: "quatorze"},
        ),
        _PORTUGUESE_FEMININE,
    ),
    "pt-PT": (
        Choice(name="masculine", says="1 is um, 2 dois, as one counts", checked="CLDR 48", also=("um",)),
        _PORTUGUESE_FEMININE,
    ),
    "ro": _ROMANIAN,
} | dict.fromkeys(("es", "es-CO", "es-CR", "es-GT", "es-NI", "es-VE"), _SPANISH)
