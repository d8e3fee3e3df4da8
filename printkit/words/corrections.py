"""Words that num2words 0.5.14 gets wrong, or that are not the ones a child counts with.

Each maps a number to the word that is printed; the authority stands beside it.
"""


def _compound(tens: dict[int, str], units: dict[int, str], between: str = "") -> dict[int, str]:
    """Every tens word followed by every units word."""
    return {
        ten + unit: f"{ten_word}{between}{unit_word}"
        for ten, ten_word in tens.items()
        for unit, unit_word in units.items()
    }


def _numbered(first: int, step: int, words: str) -> dict[int, str]:
    """Words, one a comma, numbered from `first` by `step`."""
    return {first + step * place: word for place, word in enumerate(words.split(", "))}


# Hundre is neuter, never 'en hundre': heinzelnisse.info, Grundzahlen und Ordnungszahlen.
# 1 én and 7 sju, with all that end in them: no.wikipedia.org Tallord and CLDR 48; en and syv are
# permitted too. Sju is the commoner word in schools (from memory).
NORWEGIAN = {
    1: "én",
    7: "sju",
    100: "hundre",
} | _compound(
    _numbered(20, 10, "tjue, tretti, førti, femti, seksti, sytti, åtti, nitti"), {1: "én", 7: "sju"}
)

# Counting is en, to, tre; et is the neuter: arabeskacademy.com/talord-2, CLDR 48 (common gender).
# Tres has no d: svd.se, Språkbloggen, 2011-06-20; en.wikibooks.org Danish/Lesson_3.
# Hundrede alone: arabeskacademy.com/talord-2, CLDR 48.
DANISH = {
    1: "en",
    60: "tres",
    100: "hundrede",
} | {
    60 + unit: f"{word}ogtres"
    for unit, word in _numbered(1, 1, "en, to, tre, fire, fem, seks, syv, otte, ni").items()
}

# Fyrtio: svenskaengelska.se/rakneord.html; the Swedish language council, quoted by sprakbruk.fi.
SWEDISH = {40: "fyrtio"} | _compound(
    {40: "fyrtio"}, _numbered(1, 1, "ett, två, tre, fyra, fem, sex, sju, åtta, nio")
)

# Numbers of more than one word are written apart (joined on cheques only): TDK, quoted by
# sabah.com.tr 'On beş nasıl yazılır' and edebiyatogretmeni.info/sayilarin-yazilisi.htm; CLDR 48.
TURKISH = _compound(
    _numbered(10, 10, "on, yirmi, otuz, kırk, elli, altmış, yetmiş, seksen, doksan"),
    _numbered(1, 1, "bir, iki, üç, dört, beş, altı, yedi, sekiz, dokuz"),
    between=" ",
)

# Schools count by tens; the library has the older count by twenties: en.wikibooks.org Welsh/Numbers,
# liquisearch.com welsh_language/counting_system; words from CLDR 48.
_WELSH_TENS = _numbered(
    10,
    10,
    "un deg, dau ddeg, tri deg, pedwar deg, pum deg, chwe deg, saith deg, wyth deg, naw deg",
)
WELSH = _compound(
    _WELSH_TENS,
    _numbered(1, 1, "un, dau, tri, pedwar, pump, chwech, saith, wyth, naw"),
    between=" ",
) | {ten: word for ten, word in _WELSH_TENS.items() if ten > 10}

# Quatre-vingts with s, quatre-vingt-un without et: monsu.desiderio.free.fr/atelier/numeraux.html.
BELGIAN_FRENCH = {80: "quatre-vingts", 81: "quatre-vingt-un"}

# Šimtas alone on a card; vienas šimtas is right too: CLDR 48.
LITHUANIAN = {100: "šimtas"}
