"""Languages with a list of our own, which the spelling library lacks or counts in another way.

The lists were read through against CLDR 48; what is not as CLDR has it stands beside the list. No
other authority was found but those named here.
"""

from typing import Any

from printkit.words.lists import LISTS
from printkit.words.model import Row
from printkit.words.rows import row


def _listed(tag: str, name: str, own_name: str, sample: str, *also: str, **more: Any) -> Row:
    return row(tag, name, own_name, sample, *also, words=LISTS[tag], **more)


ROWS = (
    _listed("af", "Afrikaans", "Afrikaans", "een, twee, drie", "afr"),
    _listed(
        "bg",
        "Bulgarian",
        "български",
        "едно, две, три",
        "bul",
        script="Cyrl",
        checked="CLDR 48; Institute for Bulgarian Language for the short forms",
    ),
    _listed(
        "bs",
        "Bosnian",
        "bosanski",
        "jedan, dva, tri",
        "bos",
        checked="CLDR 48; its Croatian and Serbian lists for 11 and 16",
    ),
    _listed(
        "el",
        "Greek",
        "Ελληνικά",
        "ένα, δύο, τρία",
        "ell",
        "gre",
        "gr",
        script="Grek",
        checked="CLDR 48; sxolikos.wordpress.com for 90",
    ),
    _listed(
        "et",
        "Estonian",
        "eesti",
        "üks, kaks, kolm",
        "est",
        checked="CLDR 48; 100 is sada, ükssada is right too",
    ),
    _listed(
        "fa-AF",
        "Dari",
        "دری",
        "یک, دو, سه",
        "prs",
        script="Arab",
        digits="۰۱۲۳۴۵۶۷۸۹",
    ),
    _listed(
        "ga",
        "Irish",
        "Gaeilge",
        "a haon, a dó, a trí",
        "gle",
        checked="CLDR 48, which agrees throughout, with the particle a",
    ),
    _listed("hr", "Croatian", "hrvatski", "jedan, dva, tri", "hrv"),
    _listed(
        "hy",
        "Armenian",
        "հայերեն",
        "մեկ, երկու, երեք",
        "hye",
        "arm",
        script="Armn",
        checked="CLDR 48; 100 is հարյուր, from memory",
    ),
    _listed(
        "ja",
        "Japanese",
        "日本語",
        "いち, に, さん",
        "jpn",
        "jp",
        script="Jpan",
        checked="num2words 0.5.14 for the reading; CLDR 48 for the kanji",
    ),
    _listed("ka", "Georgian", "ქართული", "ერთი, ორი, სამი", "kat", "geo", script="Geor"),
    _listed(
        "ko",
        "Korean",
        "한국어",
        "하나, 둘, 셋",
        "kor",
        "kr",
        script="Kore",
        checked="CLDR 48; 11 to 19 as one word, from memory",
    ),
    _listed("ky", "Kyrgyz", "кыргызча", "бир, эки, үч", "kir", "kg", script="Cyrl"),
    _listed(
        "mk",
        "Macedonian",
        "македонски",
        "еден, два, три",
        "mkd",
        "mac",
        script="Cyrl",
        checked="CLDR 48; makedonskijazik.mk for 100",
    ),
    _listed("ms", "Malay", "Bahasa Melayu", "satu, dua, tiga", "msa", "may", "zsm", "melayu", "malaysian"),
    _listed("mt", "Maltese", "Malti", "wieħed, tnejn, tlieta", "mlt"),
    _listed("nn", "Norwegian Nynorsk", "norsk nynorsk", "éin, to, tre", "nno", "nynorsk"),
    _listed("sq", "Albanian", "shqip", "një, dy, tre", "sqi", "alb"),
    _listed(
        "sr-Cyrl",
        "Serbian (Cyrillic)",
        "српски (ћирилица)",
        "један, два, три",
        "српски",
        script="Cyrl",
        checked="CLDR 48; 21 is двадесет један, without и",
    ),
    _listed("sw", "Swahili", "Kiswahili", "moja, mbili, tatu", "swa", "swh"),
)
