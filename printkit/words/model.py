"""What a language and a choice of spelling are."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal


@dataclass(frozen=True, kw_only=True, slots=True)
class Language:
    """A language of the table.

    `tag` is BCP 47, `own_name` what its speakers call it, `script` ISO 15924. `direction` is that of
    its writing, `equations` that of a sum such as 5 - 3: from the left everywhere, since no source
    for another direction was found. `digits` are ten native digits from zero on, '' if there are none
    that stand for 0-9 place by place. `sample` holds the words of 1, 2 and 3, `checked` what the
    spellings were compared with. `reviewed` is False where the published sources leave words open
    that only a native reader can settle: such a language needs `unreviewed = true` in the pack file.
    """

    tag: str
    name: str
    own_name: str
    script: str
    sample: tuple[str, str, str]
    direction: Literal["ltr", "rtl"] = "ltr"
    equations: Literal["ltr", "rtl"] = "ltr"
    digits: str = ""
    reviewed: bool = True
    checked: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Choice:
    """One of several right ways to count in a language.

    `name` is what a pack file says, `also` other words for it, `says` what it is in plain words.
    `words` holds the words that differ from the language's usual ones, by number; the first choice of
    a language is the usual one and has none. `checked` names the authority.
    """

    name: str
    says: str
    checked: str
    words: Mapping[int, str] = field(default_factory=dict)
    also: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """A language and how it is spelled.

    `code` is the exact name num2words has for it, '' for a list of our own. `words` holds our own list,
    or the words in which the library is not followed; `characters` what is replaced in every word of
    the library; `also` further words a person may write for the language.
    """

    language: Language
    code: str = ""
    words: Mapping[int, str] = field(default_factory=dict)
    characters: tuple[tuple[str, str], ...] = ()
    also: tuple[str, ...] = ()
