"""Number words of further languages of Europe and the Caucasus."""

from printkit.words.build import compound, hundred, numbered

ALBANIAN = hundred(
    "zero, një, dy, tre, katër, pesë, gjashtë, shtatë, tetë, nëntë",
    "dhjetë, njëmbëdhjetë, dymbëdhjetë, trembëdhjetë, katërmbëdhjetë, pesëmbëdhjetë, gjashtëmbëdhjetë, "
    "shtatëmbëdhjetë, tetëmbëdhjetë, nëntëmbëdhjetë",
    "njëzet, tridhjetë, dyzet, pesëdhjetë, gjashtëdhjetë, shtatëdhjetë, tetëdhjetë, nëntëdhjetë",
    "njëqind",
    "{ten} e {unit}",
)

# 100 is հարյուր; CLDR 48 puts its 'one' before it.
ARMENIAN = hundred(
    "զրո, մեկ, երկու, երեք, չորս, հինգ, վեց, յոթ, ութ, ինը",
    "տասն, տասնմեկ, տասներկու, տասներեք, տասնչորս, տասնհինգ, տասնվեց, տասնյոթ, տասնութ, տասնինը",
    "քսան, երեսուն, քառասուն, հիսուն, վաթսուն, յոթանասուն, ութսուն, իննասուն",
    "հարյուր",
    "{ten}{unit}",
)

# 100 alone on a card is sada; ükssada, as CLDR 48 has it, is right too.
ESTONIAN = hundred(
    "null, üks, kaks, kolm, neli, viis, kuus, seitse, kaheksa, üheksa",
    "kümme, üksteist, kaksteist, kolmteist, neliteist, viisteist, kuusteist, seitseteist, kaheksateist, "
    "üheksateist",
    "kakskümmend, kolmkümmend, nelikümmend, viiskümmend, kuuskümmend, seitsekümmend, kaheksakümmend, "
    "üheksakümmend",
    "sada",
    "{ten} {unit}",
)

# The older nineteen words stand after 20, 40, 60 and 80.
_GEORGIAN_BELOW_TWENTY = numbered(
    1,
    1,
    "ერთი, ორი, სამი, ოთხი, ხუთი, ექვსი, შვიდი, რვა, ცხრა, ათი, თერთმეტი, თორმეტი, ცამეტი, თოთხმეტი, "
    "თხუთმეტი, თექვსმეტი, ჩვიდმეტი, თრვამეტი, ცხრამეტი",
)
_GEORGIAN_TWENTIES = numbered(20, 20, "ოც, ორმოც, სამოც, ოთხმოც")
GEORGIAN = (
    {0: "ნული", 100: "ასი"}
    | _GEORGIAN_BELOW_TWENTY
    | {twenty: word + "ი" for twenty, word in _GEORGIAN_TWENTIES.items()}
    | compound(_GEORGIAN_TWENTIES, _GEORGIAN_BELOW_TWENTY, "{ten}და{unit}")
)

# 90 is ενενήντα (sxolikos.wordpress.com), CLDR 48 has a second ν. Επτά, οκτώ, εννέα or εφτά, οχτώ,
# εννιά: both right.
GREEK = hundred(
    "μηδέν, ένα, δύο, τρία, τέσσερα, πέντε, έξι, επτά, οκτώ, εννέα",
    "δέκα, έντεκα, δώδεκα, δεκατρία, δεκατέσσερα, δεκαπέντε, δεκαέξι, δεκαεπτά, δεκαοκτώ, δεκαεννέα",
    "είκοσι, τριάντα, σαράντα, πενήντα, εξήντα, εβδομήντα, ογδόντα, ενενήντα",
    "εκατό",
    "{ten} {unit}",
)

# With the particle a, as one counts; only 20, 30 ... 100 stand without it. It puts an h before a vowel.
_IRISH_UNITS = "a haon, a dó, a trí, a ceathair, a cúig, a sé, a seacht, a hocht, a naoi"
IRISH = hundred(
    f"a náid, {_IRISH_UNITS}",
    "a deich, " + ", ".join(f"{word} déag" for word in _IRISH_UNITS.split(", ")),
    "fiche, tríocha, daichead, caoga, seasca, seachtó, ochtó, nócha",
    "céad",
    "{ten} {unit}",
) | {12: "a dó dhéag"}

_MALTESE_UNITS = "wieħed, tnejn, tlieta, erbgħa, ħamsa, sitta, sebgħa, tmienja, disgħa"
MALTESE = hundred(
    f"żero, {_MALTESE_UNITS}",
    "għaxra, ħdax, tnax, tlettax, erbatax, ħmistax, sittax, sbatax, tmintax, dsatax",
    "għoxrin, tletin, erbgħin, ħamsin, sittin, sebgħin, tmenin, disgħin",
    "mija",
    "{unit} u {ten}",
)

# Éin or ein: both right.
NYNORSK = hundred(
    "null, éin, to, tre, fire, fem, seks, sju, åtte, ni",
    "ti, elleve, tolv, tretten, fjorten, femten, seksten, sytten, atten, nitten",
    "tjue, tretti, førti, femti, seksti, sytti, åtti, nitti",
    "eitt hundre",
    "{ten}{unit}",
)

LISTS = {
    "el": GREEK,
    "et": ESTONIAN,
    "ga": IRISH,
    "hy": ARMENIAN,
    "ka": GEORGIAN,
    "mt": MALTESE,
    "nn": NYNORSK,
    "sq": ALBANIAN,
}
