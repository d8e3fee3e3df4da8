"""The tags: which are offered, which are refused and with what words."""

import json
import subprocess
import sys
from pathlib import Path

import num2words
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from printkit.errors import PrintkitError
from printkit.words import find, languages, spell
from printkit.words.table import ROWS

REFERENCE = Path(__file__).resolve().parents[1] / "reference" / "number-words"
ADJUDICATED = json.loads((REFERENCE / "adjudicated.json").read_text(encoding="utf-8"))

OFFERED = {language.tag for language in languages()}
SHOWN = "a tag that 'printkit list languages' shows, such as en, es or pt-PT"

# Scripts that the typeface lacks, by ISO 15924.
OTHER_SCRIPTS = {"ar", "fa", "he", "ja", "ko", "th"}


def problem_of(tag):
    with pytest.raises(PrintkitError) as caught:
        find(tag, "languages")
    (problem,) = caught.value.problems
    return problem


def test_offered_are_the_decided_languages_in_letters_we_have():
    """Offered is exactly what is decided without a native reader, in Latin or Cyrillic letters."""
    decided = {
        verdict["tag"]
        for verdict in ADJUDICATED.values()
        if verdict["class"] in "AB" and verdict["offer"] == "yes"
    }
    assert decided - OTHER_SCRIPTS == OFFERED


def test_languages_are_sorted_and_complete():
    """Languages come sorted by tag, each once, with every field filled in."""
    tags = [language.tag for language in languages()]
    assert tags == sorted(set(tags)) and len(tags) == len(ROWS)
    for language in languages():
        assert language.name and language.own_name and language.checked
        assert language.script in {"Latn", "Cyrl"} and language.direction == "ltr"


def test_rows_name_codes_that_the_library_has():
    """Each row names its converter exactly, so that the library never guesses by the first letters."""
    assert {row.code for row in ROWS} <= set(num2words.CONVERTER_CLASSES)


def test_no_row_is_called_reviewed_without_a_reader():
    """No native reader has read a list so far, and no row says otherwise."""
    assert not [language.tag for language in languages() if language.reviewed]


@pytest.mark.parametrize("tag", sorted(OFFERED))
def test_every_offered_tag_is_found_in_any_case(tag):
    """A tag is found in lower, upper and its own case, and comes back as the table has it."""
    assert find(tag, "here").tag == find(tag.lower(), "here").tag == find(tag.upper(), "here").tag == tag


@given(st.sampled_from(sorted(OFFERED)), st.lists(st.booleans(), min_size=10, max_size=10))
@settings(derandomize=True, deadline=None)
def test_case_never_matters(tag, capitals):
    """However the letters of a tag are capitalized, it is the same language."""
    written = "".join(c.upper() if capital else c.lower() for c, capital in zip(tag, capitals, strict=False))
    assert find(written, "here").tag == tag


@pytest.mark.parametrize(
    "verdict",
    [verdict for verdict in ADJUDICATED.values() if verdict["tag"] not in OFFERED],
    ids=lambda verdict: verdict["tag"],
)
def test_every_other_language_of_the_library_is_refused_with_its_reason(verdict):
    """A language the library could spell but should not is refused, and the reason is the right one."""
    found = problem_of(verdict["tag"]).found
    if verdict["tag"] in OTHER_SCRIPTS:
        assert "the typeface does not have the letters of" in found
    elif verdict["offer"] == "no":
        assert "can be trusted" in found
    else:
        assert "native reader" in found


@pytest.mark.parametrize(
    "tag, sentence",
    [
        (
            "pt",
            "languages: 'pt' does not say which Portuguese: 16 is dezasseis in Portugal, dezesseis in"
            " Brazil; allowed: pt-PT or pt-BR",
        ),
        (
            "no",
            "languages: 'no' does not say which Norwegian: Bokmål is nb, and Nynorsk is not offered"
            f" yet; allowed: {SHOWN}; did you mean 'nb'?",
        ),
        (
            "sr",
            "languages: 'sr' means Cyrillic letters, which are not offered for Serbian yet; allowed:"
            " sr-Latn, in Latin letters",
        ),
        (
            "de-CH",
            "languages: 'de-CH' needs dreissig instead of dreißig, which is not offered yet; allowed:"
            f" {SHOWN}",
        ),
        (
            "ar",
            "languages: 'ar' is not offered: the typeface does not have the letters of Arabic yet;"
            f" allowed: {SHOWN}",
        ),
        (
            "bn",
            "languages: 'bn' is not offered before a native reader of Bangla has seen its number"
            f" words; allowed: {SHOWN}",
        ),
        (
            "kn",
            "languages: 'kn' is not offered: no list of number words in Kannada was found that can be"
            f" trusted; allowed: {SHOWN}",
        ),
        (
            "et",
            "languages: 'et' is not offered: the number words of Estonian have not been checked yet;"
            f" allowed: {SHOWN}",
        ),
        (
            "en-GB",
            f"languages: 'en-GB' is not a language tag used here; allowed: {SHOWN}; did you mean 'en'?",
        ),
        ("xx", f"languages: 'xx' is not a language tag used here; allowed: {SHOWN}"),
        (7, f"languages: 7 is not a word in quotes; allowed: {SHOWN}"),
    ],
)
def test_refusals_are_said_in_plain_words(tag, sentence):
    """Each kind of refusal reads as one sentence: where, what is wrong, what would be right."""
    assert str(problem_of(tag)) == sentence


@pytest.mark.parametrize(
    "tag, right",
    [
        ("english", "en"),
        ("eng", "en"),
        ("en-US", "en"),
        ("de-DE", "de"),
        ("Deutsch", "de"),
        ("español", "es"),
        ("espanol", "es"),
        ("spa", "es"),
        ("es-MX", "es"),
        ("es-419", "es"),
        ("pt_BR", "pt-BR"),
        ("Portuguese (Portugal)", "pt-PT"),
        ("fr-CA", "fr"),
        ("ces", "cs"),
        ("slk", "sk"),
        ("kz", "kk"),
        ("қазақ тілі", "kk"),
        ("Norwegian Bokmal", "nb"),
        ("nb-NO", "nb"),
        ("sr-Latn-RS", "sr-Latn"),
        ("Ukranian", "uk"),
        (" en ", "en"),
        ("e\u017f", "es"),
        ("\u212a\u212a", "kk"),
    ],
)
def test_near_misses_get_the_right_tag(tag, right):
    """A name, a three-letter code, a region or a slip is refused and answered with the right tag."""
    assert problem_of(tag).nearest == right


@pytest.mark.parametrize(
    "tag, name",
    [
        ("est", "Estonian"),
        ("fil", "Filipino"),
        ("tgl", "Filipino"),
        ("fao", "Faroese"),
        ("ar-EG", "Arabic"),
        ("Bengali", "Bangla"),
        ("zh-Hant-TW", "Chinese"),
        ("Portugese", "Portuguese"),
        ("pt-AO", "Portuguese"),
        ("sr-RS", "Serbian"),
        ("nno", "Norwegian Nynorsk"),
        ("latin", "Latin"),
    ],
)
def test_codes_that_the_library_mistakes_are_named_rightly(tag, name):
    """A tag whose first two letters are another language is explained as the language it stands for."""
    problem = problem_of(tag)
    assert name in problem.found and problem.nearest == ""


@pytest.mark.parametrize("tag", ["enx", "esq", "x", "", "xx-YY", "klingon", "en" * 40])
def test_no_guess_is_made_from_too_little(tag):
    """Short codes lie too near to each other: an unknown one gets no guess, nor does nonsense."""
    assert problem_of(tag).nearest == ""


@pytest.fixture
def no_library(monkeypatch):
    """Makes any use of the spelling library fail the test."""

    def fail(*args, **kwargs):
        raise AssertionError(f"the library was asked for {args} {kwargs}")

    monkeypatch.setattr(num2words, "num2words", fail)


LIKE_TAGS = st.from_regex(r"[A-Za-z]{2,3}([-_][A-Za-z0-9]{2,4}){0,2}", fullmatch=True)


@given(st.one_of(st.text(), LIKE_TAGS, st.sampled_from(sorted(num2words.CONVERTER_CLASSES))))
@settings(derandomize=True, deadline=None)
def test_text_outside_the_table_is_always_refused(tag):
    """Whatever is not in the table is refused in one line and offers only what is in the table."""
    if tag.isascii() and tag.lower() in {offered.lower() for offered in OFFERED}:
        assert find(tag, "here").tag in OFFERED
    else:
        problem = problem_of(tag)
        assert problem.nearest in OFFERED | {""} and "\n" not in str(problem)
        with pytest.raises(PrintkitError):
            spell(tag, 7)


def test_the_library_never_sees_a_tag_outside_the_table(no_library):
    """For text outside the table the spelling library is not called at all."""

    @given(st.one_of(st.text(), LIKE_TAGS))
    @settings(derandomize=True, deadline=None)
    def check(tag):
        if not tag.isascii() or tag.lower() not in {offered.lower() for offered in OFFERED}:
            with pytest.raises(PrintkitError):
                spell(tag, 7)

    check()


def test_the_guard_sees_a_call_to_the_library(no_library):
    """The guard used above does notice when the library is called."""
    from printkit.words import _library_word

    with pytest.raises(AssertionError, match="the library was asked"):
        _library_word(ROWS[0], 7)


def test_listing_languages_loads_no_library():
    """Finding and listing languages does not import the spelling library."""
    program = (
        "import sys; from printkit.words import find, languages; languages(); find('en', 'here');"
        "print('num2words' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
