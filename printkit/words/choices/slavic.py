"""Choices of the Slavic and Baltic languages."""

from printkit.words.build import changed, compound, numbered, replaced
from printkit.words.lists.slavic import BULGARIAN, CROATIAN, SERBIAN
from printkit.words.model import Choice

_AGREE = "from memory: the unit agrees as in Russian and Ukrainian, for which CLDR 48 has the lists"


def _gendered(tens: str, units: dict[int, str], between: str = " ") -> dict[int, str]:
    """The units alone and after 20, 30 to 90."""
    return units | compound(numbered(20, 10, tens), units, "{ten}" + between + "{unit}")


def _genders(
    tens: str, usual: str, feminine: dict[int, str], neuter: dict[int, str], checked: tuple[str, str]
) -> tuple[Choice, ...]:
    """Masculine, as one counts, feminine and neuter."""
    return (
        Choice(name="masculine", says=f"{usual}, as one counts", checked="CLDR 48"),
        *(
            Choice(
                name=name,
                says=_says(units),
                checked=source,
                words=_gendered(tens, units),
            )
            for name, units, source in zip(("feminine", "neuter"), (feminine, neuter), checked, strict=True)
        ),
    )


def _says(units: dict[int, str]) -> str:
    return ", ".join(
        f"{number} is {word}" if place == 0 else f"{number} {word}"
        for place, (number, word) in enumerate(units.items())
    )


_CLDR = ("CLDR 48, feminine", "CLDR 48, neuter")

_BELARUSIAN = _genders(
    "дваццаць, трыццаць, сорак, пяцьдзясят, шэсцьдзясят, семдзесят, восемдзесят, дзевяноста",
    "1 is адзін, 2 два",
    {1: "адна", 2: "дзве"},
    {1: "адно"},
    (_AGREE, _AGREE),
)
_RUSSIAN = (
    *_genders(
        "двадцать, тридцать, сорок, пятьдесят, шестьдесят, семьдесят, восемьдесят, девяносто",
        "1 is один, 2 два",
        {1: "одна", 2: "две"},
        {1: "одно"},
        _CLDR,
    ),
    Choice(name="нуль", says="0 is нуль", checked="from memory: both right", words={0: "нуль"}),
)
_UKRAINIAN = _genders(
    "двадцять, тридцять, сорок, п\u2019ятдесят, шістдесят, сімдесят, вісімдесят, дев\u2019яносто",
    "1 is один, 2 два",
    {1: "одна", 2: "дві"},
    {1: "одне"},
    _CLDR,
)

# --- Czech, Slovak, Polish, Slovenian ------------------------------------------------------------

_CZECH_TENS = "dvacet, třicet, čtyřicet, padesát, šedesát, sedmdesát, osmdesát, devadesát"
_CZECH = (
    Choice(name="counting", says="1 is jedna, 2 dva, as one counts", checked="from memory"),
    Choice(
        name="masculine",
        says="1 is jeden, 2 dva",
        checked="CLDR 48",
        words=_gendered(_CZECH_TENS, {1: "jeden"}),
    ),
    Choice(
        name="feminine",
        says="1 is jedna, 2 dvě",
        checked="CLDR 48, feminine",
        words=_gendered(_CZECH_TENS, {2: "dvě"}),
    ),
    Choice(
        name="neuter",
        says="1 is jedno, 2 dvě",
        checked="CLDR 48, neuter",
        words=_gendered(_CZECH_TENS, {1: "jedno", 2: "dvě"}),
    ),
    Choice(
        name="jedenadvacet",
        says="the unit first: 21 is jedenadvacet",
        checked="from memory: both ways are right",
        words=compound(
            numbered(20, 10, _CZECH_TENS),
            numbered(1, 1, "jedena, dvaa, třia, čtyřia, pěta, šesta, sedma, osma, devěta"),
            "{unit}{ten}",
        ),
    ),
)

# Dvadsaťjeden, dvadsaťdva stay as they are before any noun (from memory).
_SLOVAK = (
    Choice(name="masculine", says="1 is jeden, 2 dva, as one counts", checked="CLDR 48"),
    Choice(name="feminine", says="1 is jedna, 2 dve", checked="from memory", words={1: "jedna", 2: "dve"}),
    Choice(name="neuter", says="1 is jedno, 2 dve", checked="from memory", words={1: "jedno", 2: "dve"}),
)

_POLISH = (
    Choice(name="masculine", says="1 is jeden, 2 dwa, as one counts", checked="CLDR 48"),
    Choice(
        name="feminine",
        says="1 is jedna, 2 dwie",
        checked="CLDR 48, feminine",
        words={1: "jedna"}
        | _gendered(
            "dwadzieścia, trzydzieści, czterdzieści, pięćdziesiąt, sześćdziesiąt, siedemdziesiąt, "
            "osiemdziesiąt, dziewięćdziesiąt",
            {2: "dwie"},
        ),
    ),
    Choice(name="neuter", says="1 is jedno", checked="CLDR 48, neuter", words={1: "jedno"}),
)

_SLOVENIAN = (
    Choice(name="dve", says="2 is dve, as in counting and sums", checked="franček.si 3.4.4"),
    Choice(
        name="dva",
        says="2 is dva, as before a masculine noun",
        checked="CLDR 48",
        words={2: "dva"},
    ),
)

# --- South Slavic --------------------------------------------------------------------------------

_WITH_OR_WITHOUT = "sr.wikipedia.org, Brojevi (vrsta reči), without; CLDR 48 with: both right"
_LATIN = tuple(zip("абвгдеђжзијклмнопрстћуфхцчш", "abvgdeđžzijklmnoprstćufhcčš", strict=True))


def _south_slavic(name: str, words: dict[int, str], old: str, new: str, checked: str) -> Choice:
    return Choice(
        name=name,
        says=f"21 is {name}",
        checked=checked,
        words=changed({number: words[number] for number in words if number > 20}, (old, new)),
    )


_SERBIAN_TENS = "двадесет, тридесет, четрдесет, педесет, шездесет, седамдесет, осамдесет, деведесет"
_SERBIAN = (
    Choice(name="двадесет један", says="21 is двадесет један", checked=_WITH_OR_WITHOUT),
    _south_slavic("двадесет и један", SERBIAN, " ", " и ", _WITH_OR_WITHOUT),
    Choice(
        name="feminine",
        says="1 is једна, 2 две",
        checked="from memory",
        words=_gendered(_SERBIAN_TENS, {1: "једна", 2: "две"}),
    ),
    Choice(
        name="neuter",
        says="1 is једно",
        checked="from memory",
        words=_gendered(_SERBIAN_TENS, {1: "једно"}),
    ),
)


def _in_latin(choice: Choice) -> Choice:
    """A choice of Cyrillic Serbian in Latin letters."""
    name, says, *words = replaced(
        dict(enumerate((choice.name, choice.says, *choice.words.values()))), *_LATIN
    ).values()
    return Choice(
        name=name, says=says, checked=choice.checked, words=dict(zip(choice.words, words, strict=True))
    )


_CROATIAN = (
    Choice(name="dvadeset i jedan", says="21 is dvadeset i jedan", checked="CLDR 48"),
    _south_slavic("dvadeset jedan", CROATIAN, " i ", " ", "both right (from memory)"),
)

# The old long forms: from 11 to 19, and 20, 30, 40, 60.
_BULGARIAN = (
    Choice(
        name="short", says="20 is двайсет, 11 единайсет", checked="CLDR 48; Institute for Bulgarian Language"
    ),
    Choice(
        name="long",
        says="20 is двадесет, 11 единадесет",
        checked="Institute for Bulgarian Language, ibl.bas.bg: right too",
        words=changed(
            BULGARIAN,
            ("шейсет", "шестдесет"),
            ("двайсет", "двадесет"),
            ("трийсет", "тридесет"),
            ("четиресет", "четиридесет"),
            ("найсет", "надесет"),
        ),
    ),
)

# --- Baltic --------------------------------------------------------------------------------------

_LITHUANIAN_UNITS = numbered(
    1, 1, "viena, dvi, trys, keturios, penkios, šešios, septynios, aštuonios, devynios"
)
_LITHUANIAN = (
    Choice(name="masculine", says="1 is vienas, 2 du, as one counts", checked="CLDR 48"),
    Choice(
        name="feminine",
        says="1 is viena, 2 dvi, 4 keturios",
        checked="from memory",
        words={
            number: word
            for number, word in _gendered(
                "dvidešimt, trisdešimt, keturiasdešimt, penkiasdešimt, šešiasdešimt, septyniasdešimt, "
                "aštuoniasdešimt, devyniasdešimt",
                _LITHUANIAN_UNITS,
            ).items()
            if number % 10 != 3  # trys is both
        },
    ),
    Choice(
        name="vienas šimtas",
        says="100 is vienas šimtas",
        checked="from memory: both right",
        words={100: "vienas šimtas"},
    ),
)
_LATVIAN = (
    Choice(name="simts", says="100 is simts", checked="valoda.ailab.lv, skvp.htm: both right"),
    Choice(
        name="simt",
        says="100 is simt",
        checked="CLDR 48; valoda.ailab.lv, skvp.htm",
        words={100: "simt"},
    ),
)

CHOICES = {
    "be": _BELARUSIAN,
    "bg": _BULGARIAN,
    "cs": _CZECH,
    "hr": _CROATIAN,
    "lt": _LITHUANIAN,
    "lv": _LATVIAN,
    "pl": _POLISH,
    "ru": _RUSSIAN,
    "sk": _SLOVAK,
    "sl": _SLOVENIAN,
    "sr-Cyrl": _SERBIAN,
    "sr-Latn": tuple(_in_latin(choice) for choice in _SERBIAN),
    "uk": _UKRAINIAN,
}
