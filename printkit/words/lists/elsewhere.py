"""Number words of further languages of Africa and Asia."""

from printkit.words.build import hundred

AFRIKAANS = hundred(
    "nul, een, twee, drie, vier, vyf, ses, sewe, agt, nege",
    "tien, elf, twaalf, dertien, veertien, vyftien, sestien, sewentien, agttien, negentien",
    "twintig, dertig, veertig, vyftig, sestig, sewentig, tagtig, negentig",
    "honderd",
    "{unit}-en-{ten}",
)

# As Persian, but for 19.
DARI = hundred(
    "صفر, یک, دو, سه, چهار, پنج, شش, هفت, هشت, نه",
    "ده, یازده, دوازده, سیزده, چهارده, پانزده, شانزده, هفده, هجده, نزده",
    "بیست, سی, چهل, پنجاه, شصت, هفتاد, هشتاد, نود",
    "صد",
    "{ten} و {unit}",
)

_KYRGYZ_UNITS = "бир, эки, үч, төрт, беш, алты, жети, сегиз, тогуз"
KYRGYZ = hundred(
    f"нөл, {_KYRGYZ_UNITS}",
    "он, " + ", ".join(f"он {unit}" for unit in _KYRGYZ_UNITS.split(", ")),
    "жыйырма, отуз, кырк, элүү, алтымыш, жетимиш, сексен, токсон",
    "жүз",
    "{ten} {unit}",
)

_MALAY_UNITS = "satu, dua, tiga, empat, lima, enam, tujuh, lapan, sembilan"
MALAY = hundred(
    f"kosong, {_MALAY_UNITS}",
    "sepuluh, sebelas, " + ", ".join(f"{unit} belas" for unit in _MALAY_UNITS.split(", ")[1:]),
    ", ".join(f"{unit} puluh" for unit in _MALAY_UNITS.split(", ")[1:]),
    "seratus",
    "{ten} {unit}",
)

# 100 is mia moja, mia is right too.
_SWAHILI_UNITS = "moja, mbili, tatu, nne, tano, sita, saba, nane, tisa"
SWAHILI = hundred(
    f"sifuri, {_SWAHILI_UNITS}",
    "kumi, " + ", ".join(f"kumi na {unit}" for unit in _SWAHILI_UNITS.split(", ")),
    "ishirini, thelathini, arobaini, hamsini, sitini, sabini, themanini, tisini",
    "mia moja",
    "{ten} na {unit}",
)

LISTS = {
    "af": AFRIKAANS,
    "fa-AF": DARI,
    "ky": KYRGYZ,
    "ms": MALAY,
    "sw": SWAHILI,
}
