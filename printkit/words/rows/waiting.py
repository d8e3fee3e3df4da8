"""Languages that wait for a native reader: num2words 0.5.14 spells them, but no source settles all.

A pack file must say `unreviewed = true` for them.
"""

from typing import Any

from printkit.words.corrections import AMHARIC, BANGLA, TAJIK, TELUGU
from printkit.words.model import Row
from printkit.words.rows import row


def _waiting(tag: str, name: str, own_name: str, sample: str, *also: str, **more: Any) -> Row:
    return row(tag, name, own_name, sample, *also, code=tag, reviewed=False, **more)


ROWS = (
    # The letters that stand for numbers in Ethiopic are added up and have no zero: no native digits.
    _waiting(
        "am",
        "Amharic",
        "አማርኛ",
        "አንድ, ሁለት, ሦስት",
        "amh",
        script="Ethi",
        checked="languagesandnumbers.com for the pattern; letters of equal sound vary",
        words=AMHARIC,
    ),
    _waiting(
        "bn",
        "Bangla",
        "বাংলা",
        "এক, দুই, তিন",
        "ben",
        "bengali",
        script="Beng",
        digits="০১২৩৪৫৬৭৮৯",
        checked="en.wikibooks.org, Bengali/Numbers; indic-numtowords 1.1.0; spellings vary",
        words=BANGLA,
    ),
    _waiting(
        "ce",
        "Chechen",
        "нохчийн",
        "цхьаъ, шиъ, кхоъ",
        "che",
        script="Cyrl",
        checked="kzref.org for 1 to 18 and 20; 19 is open",
    ),
    _waiting(
        "te",
        "Telugu",
        "తెలుగు",
        "ఒకటి, రెండు, మూడు",
        "tel",
        script="Telu",
        digits="౦౧౨౩౪౫౬౭౮౯",
        checked="vemurione.blogspot.com, Counting; indic-numtowords 1.1.0; 5 and 30 vary",
        words=TELUGU,
    ),
    _waiting(
        "tet",
        "Tetum",
        "tetun",
        "ida, rua, tolu",
        checked="a published course for 1 to 20 and the pattern; 0 and 60 were not found",
    ),
    _waiting(
        "tg",
        "Tajik",
        "тоҷикӣ",
        "як, ду, се",
        "tgk",
        script="Cyrl",
        checked="en.wiktionary.org for 0 to 30; 9 and 13 vary",
        words=TAJIK,
    ),
)
