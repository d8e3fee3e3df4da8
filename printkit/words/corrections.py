"""Words that num2words 0.5.14 gets wrong, or that are not the ones a child counts with.

Each maps a number to the word that is printed; the authority stands beside it.
"""

from printkit.words.build import compound, numbered

# Hundre is neuter, never 'en hundre': heinzelnisse.info, Grundzahlen und Ordnungszahlen.
# 1 én and 7 sju, with all that end in them: no.wikipedia.org Tallord and CLDR 48; en and syv are
# permitted too. Sju is the commoner word in schools (from memory).
NORWEGIAN = {
    1: "én",
    7: "sju",
    100: "hundre",
} | compound(numbered(20, 10, "tjue, tretti, førti, femti, seksti, sytti, åtti, nitti"), {1: "én", 7: "sju"})

# Counting is en, to, tre; et is the neuter: arabeskacademy.com/talord-2, CLDR 48 (common gender).
# Tres has no d: svd.se, Språkbloggen, 2011-06-20; en.wikibooks.org Danish/Lesson_3.
# Hundrede alone: arabeskacademy.com/talord-2, CLDR 48.
DANISH = {
    1: "en",
    60: "tres",
    100: "hundrede",
} | {
    60 + unit: f"{word}ogtres"
    for unit, word in numbered(1, 1, "en, to, tre, fire, fem, seks, syv, otte, ni").items()
}

# Fyrtio: svenskaengelska.se/rakneord.html; the Swedish language council, quoted by sprakbruk.fi.
SWEDISH = {40: "fyrtio"} | compound(
    {40: "fyrtio"}, numbered(1, 1, "ett, två, tre, fyra, fem, sex, sju, åtta, nio")
)

# Numbers of more than one word are written apart (joined on cheques only): TDK, quoted by
# sabah.com.tr 'On beş nasıl yazılır' and edebiyatogretmeni.info/sayilarin-yazilisi.htm; CLDR 48.
TURKISH = compound(
    numbered(10, 10, "on, yirmi, otuz, kırk, elli, altmış, yetmiş, seksen, doksan"),
    numbered(1, 1, "bir, iki, üç, dört, beş, altı, yedi, sekiz, dokuz"),
    "{ten} {unit}",
)

# Schools count by tens; the library has the older count by twenties: en.wikibooks.org Welsh/Numbers,
# liquisearch.com welsh_language/counting_system; words from CLDR 48.
_WELSH_TENS = numbered(
    10,
    10,
    "un deg, dau ddeg, tri deg, pedwar deg, pum deg, chwe deg, saith deg, wyth deg, naw deg",
)
WELSH = compound(
    _WELSH_TENS,
    numbered(1, 1, "un, dau, tri, pedwar, pump, chwech, saith, wyth, naw"),
    "{ten} {unit}",
) | {ten: word for ten, word in _WELSH_TENS.items() if ten > 10}

# Quatre-vingts with s, quatre-vingt-un without et: monsu.desiderio.free.fr/atelier/numeraux.html.
BELGIAN_FRENCH = {80: "quatre-vingts", 81: "quatre-vingt-un"}

# Šimtas alone on a card, as CLDR 48 has it; vienas šimtas is right too (from memory).
LITHUANIAN = {100: "šimtas"}

# The conjunction wa is joined to the next word: al3nan.net (numbers and counted nouns),
# toroktadres.blogspot.com 2019/03; CLDR 48. 2 is written without hamza: mbrf.ae.
ARABIC = compound(
    numbered(20, 10, "عشرون, ثلاثون, أربعون, خمسون, ستون, سبعون, ثمانون, تسعون"),
    numbered(1, 1, "واحد, اثنان, ثلاثة, أربعة, خمسة, ستة, سبعة, ثمانية, تسعة"),
    "{unit} و{ten}",
)

# --- languages that wait for a native reader ------------------------------------------------------

# One first word through 11 to 19: languagesandnumbers.com, Amharic; from memory.
AMHARIC = {16: "አሥራ ስድስት"}

# en.wikibooks.org, Bengali/Numbers, and AI4Bharat indic-numtowords 1.1.0; 49, 59, 66, 69, 79 and 89
# from the latter alone.
BANGLA = {
    15: "পনেরো",
    16: "ষোলো",
    17: "সতেরো",
    29: "ঊনত্রিশ",
    35: "পঁয়ত্রিশ",
    37: "সাঁইত্রিশ",
    39: "ঊনচল্লিশ",
    44: "চুয়াল্লিশ",
    49: "ঊনপঞ্চাশ",
    59: "ঊনষাট",
    66: "ছেষট্টি",
    69: "ঊনসত্তর",
    79: "ঊনআশি",
    89: "ঊননব্বই",
}

# vemurione.blogspot.com 2020/04, Counting, and AI4Bharat indic-numtowords 1.1.0; 0 from the latter
# alone, 35 spelled as the other numbers in -5.
TELUGU = {
    0: "సున్నా",
    14: "పద్నాలుగు",
    15: "పదిహేను",
    18: "పద్దెనిమిది",
    35: "ముప్పై అయిదు",
    100: "వంద",
}

# en.wiktionary.org, Module:number_list/data/tg; talktajiktoday.com: сӣ alone, сию in compounds.
TAJIK = {30: "сӣ"}
