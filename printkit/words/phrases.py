"""Number words that agree with a noun: una estrella, dois caranguejos, dwie gwiazdy.

Each rule takes the counting word of a number, in whatever spelling or gender the family chose, and
gives the form that stands before the noun. Only languages with a rule here have phrases.
Forms by gender: CLDR 48, spellout rules for masculine, feminine and neuter, against which the tests
compare; the rest is named at its rule.
"""

import re
from collections.abc import Callable

Rule = Callable[[int, str, str, str], str | None]


def has_rule(tag: str) -> bool:
    """Whether phrases can be built in a language (BCP 47 tag)."""
    return _language(tag) in _RULES


def phrase_word(tag: str, n: int, gender: str, noun: str, word: str) -> str | None:
    """The form of a number word that stands before a noun; None if it cannot be told.

    `n` is from 0 to 100 and `word` what one counts with; `gender` is 'm', 'f', 'n', 'c' or '' for a
    noun whose gender is not known; `noun` is in the form that follows `n`. In Polish 'm' is for animals
    and things: men are counted otherwise.
    """
    rule = _RULES.get(_language(tag))
    return rule(n, gender, noun, word) if rule else None


def joined(word: str, noun: str) -> str:
    """The phrase: a space between, but none after an elision (un'onda)."""
    return word + noun if elided(word) else f"{word} {noun}"


def elided(word: str) -> bool:
    """Whether a number word is joined to its noun without a space."""
    return word.endswith(("'", "\u2019"))


def _language(tag: str) -> str:
    return tag.casefold().partition("-")[0]


def _ends_in(digit: int, n: int) -> bool:
    """Whether the last word of a number is that of a digit: 1, 21, 31 and not 11."""
    return n % 10 == digit and n // 10 != 1


def _same(n: int, gender: str, noun: str, word: str) -> str:
    return word


def _spanish(n: int, gender: str, noun: str, word: str) -> str | None:
    stem = re.sub(r"(uno|una|un|ún)$", "", word)
    if not _ends_in(1, n) or stem == word:
        return word
    if gender == "f":
        return "un" if n == 1 and _stressed_a(noun) else stem + "una"
    return stem + ("ún" if stem.endswith("veinti") else "un") if gender == "m" else None


_VOWELS = "aeiouáéíóúü"


def _stressed_a(noun: str) -> bool:
    """Whether a Spanish noun begins with a stressed a, as in un alga, un águila.

    Diccionario panhispánico de dudas, 'un' (from memory). Without an accent mark a word that ends in
    a vowel is stressed on the last syllable but one, so a word of two syllables on its first.
    """
    first = noun.casefold().split(" ")[0]
    if re.match(r"h?á", first):
        return True
    syllables = re.findall(f"[{_VOWELS}]+", first)
    return bool(re.fullmatch(r"h?a[a-zñü]*[aeo]", first)) and len(syllables) == 2


def _french(n: int, gender: str, noun: str, word: str) -> str | None:
    stem = re.sub(r"une?$", "", word)
    if not _ends_in(1, n) or stem == word:  # 71 and 91 may end in onze
        return word
    return stem + {"m": "un", "f": "une"}[gender] if gender in ("m", "f") else None


def _portuguese(n: int, gender: str, noun: str, word: str) -> str | None:
    for digit, masculine, feminine in ((1, "um", "uma"), (2, "dois", "duas")):
        stem = re.sub(f"({feminine}|{masculine})$", "", word)
        if _ends_in(digit, n) and stem != word:
            return stem + {"m": masculine, "f": feminine}[gender] if gender in ("m", "f") else None
    return word


_ITALIAN_UNO = re.compile(r"s[^aeiouàèéìòù]|z|gn|ps|pn|x|y|j|i[aeou]")


def _italian(n: int, gender: str, noun: str, word: str) -> str | None:
    """Un, uno, una and un' follow the sound after them (any grammar); 21 ventuno never changes."""
    if n != 1:
        return word
    sound = noun.casefold()
    if gender == "m":
        return "uno" if _ITALIAN_UNO.match(sound) else "un"
    if gender == "f":
        vowel = sound[:1] in "aeiouàèéìòù" and not _ITALIAN_UNO.match(sound)
        return "un\u2019" if vowel else "una"
    return None


def _german(n: int, gender: str, noun: str, word: str) -> str | None:
    if n != 1:
        return word
    return {"m": "ein", "f": "eine", "n": "ein"}.get(gender)


def _polish(n: int, gender: str, noun: str, word: str) -> str | None:
    if n == 1:
        return {"m": "jeden", "f": "jedna", "n": "jedno"}.get(gender)
    stem = re.sub(r"(dwa|dwie)$", "", word)
    if not _ends_in(2, n) or stem == word:  # 21 dwadzieścia jeden never changes
        return word
    return stem + {"m": "dwa", "f": "dwie", "n": "dwa"}[gender] if gender in ("m", "f", "n") else None


_RULES: dict[str, Rule] = {
    "de": _german,
    "en": _same,
    "es": _spanish,
    "fr": _french,
    "it": _italian,
    "nl": _same,
    "pl": _polish,
    "pt": _portuguese,
}
