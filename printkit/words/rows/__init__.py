"""The rows of the table of languages, by where their words come from.

English and own names after CLDR 48, with the country or the letters in brackets where one language
has several rows; 'Bahasa Indonesia' and 'Bahasa Melayu' are common practice, 'tetun' is from memory.
Further words that a person may write for a language: the three-letter codes of ISO 639-2, which CLDR
lists too.
"""

from collections.abc import Mapping

from printkit.words.model import Language, Row

AGREES = "CLDR 48, which agrees throughout"

RIGHT_TO_LEFT = frozenset({"Arab", "Hebr"})


def row(
    tag: str,
    name: str,
    own_name: str,
    sample: str,
    *also: str,
    code: str = "",
    script: str = "Latn",
    digits: str = "",
    checked: str = AGREES,
    words: Mapping[int, str] | None = None,
    characters: tuple[tuple[str, str], ...] = (),
    reviewed: bool = True,
) -> Row:
    """A row; `sample` has the words of 1, 2 and 3 with ', ' between."""
    one, two, three = sample.split(", ")
    language = Language(
        tag=tag,
        name=name,
        own_name=own_name,
        script=script,
        sample=(one, two, three),
        direction="rtl" if script in RIGHT_TO_LEFT else "ltr",
        digits=digits,
        reviewed=reviewed,
        checked=checked,
    )
    return Row(language=language, code=code, words=words or {}, characters=characters, also=also)
