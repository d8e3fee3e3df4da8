"""Why a language is not offered, and which tag was probably meant."""

import difflib
import re
from dataclasses import dataclass

from printkit.errors import Problem
from printkit.words.table import ROWS

ANY = "a tag that 'printkit list languages' shows, such as en, es or pt-PT"


@dataclass(frozen=True, kw_only=True, slots=True)
class Refusal:
    """`found` reads on after the tag; `allowed` and `nearest` as in Problem."""

    found: str
    allowed: str = ANY
    nearest: str = ""


# --- refused for one reason of their own ---------------------------------------------------------

_ALONE = {
    # CLDR and BCP 47 read plain pt as Brazil, the spelling library as Portugal.
    "pt por portuguese português": Refusal(
        found="does not say which Portuguese: 16 is dezasseis in Portugal, dezesseis in Brazil",
        allowed="pt-PT or pt-BR",
    ),
    "sr srp serbian": Refusal(
        found="does not say which letters: Serbian is written in Cyrillic and in Latin ones",
        allowed="sr-Cyrl or sr-Latn",
    ),
    "no nor norwegian norsk": Refusal(
        found="does not say which Norwegian: Bokmål or Nynorsk",
        allowed="nb (Bokmål) or nn (Nynorsk)",
    ),
}

# --- refused for a reason that several share ------------------------------------------------------

_TYPEFACE = "is not offered: the typeface does not have the letters of {name} yet"
_READER = "is not offered before a native reader of {name} has seen its number words"
_DOUBTFUL = "is not offered: no list of number words in {name} was found that can be trusted"
_UNCHECKED = "is not offered: the number words of {name} have not been checked yet"

_GROUPS = {
    # The words are checked; the letters are thousands.
    _TYPEFACE: (
        ("Cantonese", "yue"),
        ("Chinese", "zh zho chi mandarin cn"),
    ),
    # Two sources differ, or there is one only, and no published list settles it.
    _READER: (
        ("Faroese", "fo fao"),
        ("Gujarati", "gu guj"),
        ("Hindi", "hi hin"),
        ("Kalaallisut", "kl kal greenlandic"),
        ("Khmer", "km khm"),
        ("Luxembourgish", "lb ltz"),
        ("Nepali", "ne nep"),
        ("Northern Sami", "se sme"),
        ("Sundanese", "su sun"),
    ),
    # What there is has words unjoined, letters of another script, or dictionary accents.
    _DOUBTFUL: (
        ("Burmese", "my mya bur"),
        ("Filipino", "fil tl tgl tagalog"),
        ("Kannada", "kn kan"),
        ("Lao", "lo lao"),
        ("Quechua", "qu que"),
        ("Tamil", "ta tam"),
    ),
    _UNCHECKED: (
        ("Basque", "eu eus baq"),
        ("Breton", "br bre"),
        ("Galician", "gl glg"),
        ("Hausa", "ha hau"),
        ("Hawaiian", "haw"),
        ("Kurdish", "ku kur"),
        ("Latin", "la lat"),
        ("Malayalam", "ml mal"),
        ("Māori", "mi mri mao"),
        ("Marathi", "mr mar"),
        ("Mongolian", "mn mon"),
        ("Occitan", "oc oci"),
        ("Punjabi", "pa pan"),
        ("Scottish Gaelic", "gd gla"),
        ("Sinhala", "si sin"),
        ("Somali", "so som"),
        ("Urdu", "ur urd"),
        ("Uzbek", "uz uzb"),
        ("Xhosa", "xh xho"),
        ("Yoruba", "yo yor"),
        ("Zulu", "zu zul"),
    ),
}

# Word a person may write (in lower case) -> the refusal, or the tag that is offered instead.
_REFUSALS = {word: refusal for words, refusal in _ALONE.items() for word in words.split()} | {
    word: Refusal(found=reason.format(name=name))
    for reason, group in _GROUPS.items()
    for name, words in group
    for word in (name.casefold(), *words.split())
}
_MEANT = {
    word.casefold(): row.language.tag
    for row in ROWS
    for word in (row.language.tag, row.language.name, row.language.own_name, *row.also)
}
_KNOWN = tuple(_REFUSALS | _MEANT)

_TAG = re.compile(r"[a-z]{2,3}(-[a-z0-9]{1,8})+")
_LONGEST = 40


def explain(tag: object, place: str) -> Problem:
    """What to say at `place` about a tag that is not in the table."""
    if not isinstance(tag, str):
        return Problem(place=place, found=f"{tag!r} is not a word in quotes", allowed=ANY)
    shown = repr(tag if len(tag) <= _LONGEST else tag[:_LONGEST] + "...")
    word = _known_word(tag)
    refusal = _REFUSALS.get(word) or Refusal(
        found="is not a language tag used here", nearest=_MEANT.get(word, "")
    )
    return Problem(
        place=place, found=f"{shown} {refusal.found}", allowed=refusal.allowed, nearest=refusal.nearest
    )


def _known_word(tag: str) -> str:
    """The known word that is meant: the same, the tag without its region, or one spelled alike."""
    word = tag.strip().replace("_", "-").casefold()
    if word in _KNOWN or len(word) > _LONGEST:
        return word
    if _TAG.fullmatch(word):
        return _known_word(word.rpartition("-")[0])
    # Short words lie too near to each other: 'est' is Estonian, not es.
    names = [name for name in _KNOWN if len(name) > 3]
    close = difflib.get_close_matches(word, names, n=1, cutoff=0.8) if len(word) > 3 else []
    return close[0] if close else ""
