"""Number words put together by rule: a few words in, all that are made of them out."""

from collections.abc import Mapping


def numbered(first: int, step: int, words: str) -> dict[int, str]:
    """Words, one a comma, numbered from `first` by `step`."""
    return {first + step * place: word for place, word in enumerate(words.split(", "))}


def compound(
    tens: Mapping[int, str], units: Mapping[int, str], pattern: str = "{ten}{unit}"
) -> dict[int, str]:
    """Every tens word with every units word, in the order of the pattern."""
    return {
        ten + unit: pattern.format(ten=ten_word, unit=unit_word)
        for ten, ten_word in tens.items()
        for unit, unit_word in units.items()
    }


def hundred(below: str, teens: str, tens: str, hundred: str, pattern: str, units: str = "") -> dict[int, str]:
    """All words from 0 to 100.

    `below` has 0 to 9, `teens` 10 to 19, `tens` 20, 30 to 90, each with ', ' between; `units` are the
    words of 1 to 9 inside a compound if they differ.
    """
    ones = numbered(0, 1, below)
    round_tens = numbered(20, 10, tens)
    inside = numbered(1, 1, units) if units else {unit: ones[unit] for unit in range(1, 10)}
    return ones | numbered(10, 1, teens) | round_tens | compound(round_tens, inside, pattern) | {100: hundred}


def replaced(words: Mapping[int, str], *pairs: tuple[str, str]) -> dict[int, str]:
    """The words with parts replaced, in order."""
    out = {}
    for number, word in words.items():
        for old, new in pairs:
            word = word.replace(old, new)
        out[number] = word
    return out


def changed(words: Mapping[int, str], *pairs: tuple[str, str]) -> dict[int, str]:
    """Only those of the replaced words that differ."""
    return {number: word for number, word in replaced(words, *pairs).items() if word != words[number]}
