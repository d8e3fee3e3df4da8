"""Number words of South Slavic languages."""

from printkit.words.build import hundred

# Short forms are recommended, the long ones (двадесет) right too: Institute for Bulgarian Language,
# ibl.bas.bg. Едно and две are what one counts with: CLDR 48.
BULGARIAN = hundred(
    "нула, едно, две, три, четири, пет, шест, седем, осем, девет",
    "десет, единайсет, дванайсет, тринайсет, четиринайсет, петнайсет, шестнайсет, седемнайсет, "
    "осемнайсет, деветнайсет",
    "двайсет, трийсет, четиресет, петдесет, шейсет, седемдесет, осемдесет, деветдесет",
    "сто",
    "{ten} и {unit}",
)

# 100 is сто (makedonskijazik.mk), never CLDR's еднасто.
MACEDONIAN = hundred(
    "нула, еден, два, три, четири, пет, шест, седум, осум, девет",
    "десет, единаесет, дванаесет, тринаесет, четиринаесет, петнаесет, шеснаесет, седумнаесет, "
    "осумнаесет, деветнаесет",
    "дваесет, триесет, четириесет, педесет, шеесет, седумдесет, осумдесет, деведесет",
    "сто",
    "{ten} и {unit}",
)

# As the Latin list, letter by letter; и between ten and unit is right too: CLDR 48 has it,
# sr.wikipedia.org, Brojevi (vrsta reči) does without.
SERBIAN = hundred(
    "нула, један, два, три, четири, пет, шест, седам, осам, девет",
    "десет, једанаест, дванаест, тринаест, четрнаест, петнаест, шеснаест, седамнаест, осамнаест, деветнаест",
    "двадесет, тридесет, четрдесет, педесет, шездесет, седамдесет, осамдесет, деведесет",
    "сто",
    "{ten} {unit}",
)

_BELOW_TEN = "nula, jedan, dva, tri, četiri, pet, šest, sedam, osam, devet"
_TEENS = (
    "deset, jedanaest, dvanaest, trinaest, četrnaest, petnaest, šesnaest, sedamnaest, osamnaest, devetnaest"
)
_TENS = "dvadeset, trideset, četrdeset, pedeset, šezdeset, sedamdeset, osamdeset, devedeset"

CROATIAN = hundred(_BELOW_TEN, _TEENS, _TENS, "sto", "{ten} i {unit}")

# 11 is jedanaest and 16 šesnaest, as CLDR 48 has them for Croatian and Serbian; its Bosnian list has
# jedenaest and šestnaest (from memory: neither is standard).
BOSNIAN = hundred(_BELOW_TEN, _TEENS, _TENS, "sto", "{ten} {unit}")

LISTS = {"bg": BULGARIAN, "bs": BOSNIAN, "hr": CROATIAN, "mk": MACEDONIAN, "sr-Cyrl": SERBIAN}
