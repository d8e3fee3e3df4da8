"""The tags: which are offered, which are refused and with what words."""

import json
import subprocess
import sys
import unicodedata
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

WAITING = {"am", "bn", "ce", "te", "tet", "tg"}
# What CLDR 48 has and the library lacks; each list is checked in test_number_words.
OWN = {"af", "bg", "bs", "de-CH", "el", "et", "fa-AF", "ga", "hr", "hy", "ka", "ky", "mk", "ms", "mt", "nn"}
OWN |= {"sq", "sr-Cyrl", "sw"}


def problem_of(tag):
    with pytest.raises(PrintkitError) as caught:
        find(tag, "languages")
    (problem,) = caught.value.problems
    return problem


def test_offered_are_the_decided_languages():
    """Offered are what is decided, what waits for a native reader, and our own lists."""
    decided = {
        verdict["tag"]
        for verdict in ADJUDICATED.values()
        if verdict["class"] in "AB" and verdict["offer"] == "yes"
    }
    waiting = {
        verdict["tag"]
        for verdict in ADJUDICATED.values()
        if verdict["offer"] == "after a native reader has seen the list"
    }
    assert waiting == WAITING
    assert decided | waiting | OWN == OFFERED


def test_languages_are_sorted_and_complete():
    """Languages come sorted by tag, each once, with every field filled in."""
    tags = [language.tag for language in languages()]
    assert tags == sorted(set(tags)) and len(tags) == len(ROWS)
    for language in languages():
        assert language.name and language.own_name and language.checked
        assert len(language.sample) == 3 and len(language.script) == 4


def test_only_arabic_and_hebrew_letters_run_from_the_right():
    """Direction follows the script; a sum runs from the left in every language (no source says otherwise)."""
    for language in languages():
        from_the_right = unicodedata.bidirectional(language.own_name[0]) in ("R", "AL")
        assert (language.direction == "rtl") == from_the_right
        assert language.equations == "ltr"


def test_native_digits_are_the_ten_digits_of_the_script():
    """Native digits stand for 0 to 9 place by place (Unicode's numeric values); never the western ones."""
    native = {language.tag: language.digits for language in languages() if language.digits}
    assert set(native) == {"ar", "bn", "fa", "fa-AF", "te", "th"}
    for digits in native.values():
        assert [unicodedata.decimal(digit) for digit in digits] == list(range(10))
        assert not digits.isascii()


def test_rows_name_codes_that_the_library_has():
    """Each row names its converter exactly, so that the library never guesses by the first letters."""
    assert {row.code for row in ROWS if row.code} <= set(num2words.CONVERTER_CLASSES)


def test_what_no_source_settles_waits_for_a_reader():
    """Exactly the languages without a decided list wait for a native reader."""
    assert {language.tag for language in languages() if not language.reviewed} == WAITING


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
    assert verdict["offer"] == "no"
    assert "can be trusted" in problem_of(verdict["tag"]).found


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
            "languages: 'no' does not say which Norwegian: Bokmål or Nynorsk; allowed: nb (Bokmål) or"
            " nn (Nynorsk)",
        ),
        (
            "sr",
            "languages: 'sr' does not say which letters: Serbian is written in Cyrillic and in Latin ones;"
            " allowed: sr-Cyrl or sr-Latn",
        ),
        (
            "de-LI",
            f"languages: 'de-LI' is not a language tag used here; allowed: {SHOWN}; did you mean 'de-CH'?",
        ),
        (
            "zh",
            "languages: 'zh' is not offered: the typeface does not have the letters of Chinese yet;"
            f" allowed: {SHOWN}",
        ),
        (
            "hi",
            "languages: 'hi' is not offered before a native reader of Hindi has seen its number"
            f" words; allowed: {SHOWN}",
        ),
        (
            "kn",
            "languages: 'kn' is not offered: no list of number words in Kannada was found that can be"
            f" trusted; allowed: {SHOWN}",
        ),
        (
            "eu",
            "languages: 'eu' is not offered: the number words of Basque have not been checked yet;"
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
        ("ar-EG", "ar"),
        ("est", "et"),
        ("prs", "fa-AF"),
        ("fas", "fa"),
        ("iw", "he"),
        ("Hebrew", "he"),
        ("Bengali", "bn"),
        ("nno", "nn"),
        ("nn-NO", "nn"),
        ("српски", "sr-Cyrl"),
        ("srpski", "sr-Latn"),
        ("日本語", "ja"),
        ("한국어", "ko"),
        ("jp", "ja"),
        ("gr", "el"),
        ("ms-MY", "ms"),
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
        ("fil", "Filipino"),
        ("tgl", "Filipino"),
        ("fao", "Faroese"),
        ("ltz", "Luxembourgish"),
        ("zh-Hant-TW", "Chinese"),
        ("Portugese", "Portuguese"),
        ("pt-AO", "Portuguese"),
        ("sr-RS", "Serbian"),
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
