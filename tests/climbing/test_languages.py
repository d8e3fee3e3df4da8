"""What `next` says is said in each language: the names of rungs, and what is wrong with a line."""

from datetime import date, timedelta

import pytest

from printkit.climbing import Proposal, faults, reason
from printkit.journal import JOURNAL, RESULTS, parse, read_journal
from printkit.ladder import before, rungs
from printkit.pack import Pack
from printkit.texts import Note, catalogue, catalogue_languages

LANGUAGES = catalogue_languages()
OTHERS = tuple(language for language in LANGUAGES if language != "en")
DAYS = (date(2026, 11, 25), date(2026, 12, 2))
LINES = (
    "Wren liked this one",
    "Wren | clips",
    "2026-11-25 | Wren | clips | sure | well done",
    "yesterday | Wren | clips | sure",
    "2026-11-25 | Wren | clips | shure",
    "2026-11-25 | Wren | clips | blue",
    '2026-11-25 | "" | clips | sure',
    "2026-11-25 | Wren | clips | sure\\",
    '2026-11-25 | Wren | clips | sure | "on her',
    '2026-11-25 | Wren | clips | sure | make clip-cards; numbers [1 | Title | ""',
)


def test_every_rung_has_a_phrase_in_every_language():
    """Each language names just the rungs there are, and says of each what English does not say."""
    names = {rung.name for rung in rungs()}
    english = catalogue("en").find("next.rungs")
    for language in LANGUAGES:
        said = catalogue(language).find("next.rungs")
        assert set(said) == names, language
        assert all(phrase and phrase == phrase.strip(" .:;") for phrase in said.values()), language
        assert language == "en" or not set(said.values()) & set(english.values())


@pytest.mark.parametrize("language", LANGUAGES)
def test_phrases_of_one_ladder_tell_its_rungs_apart(language):
    """No rung is named like the one below it."""
    words = catalogue(language)
    for rung in rungs():
        lower = before(rung)
        assert lower is None or words.say(f"next.rungs.{rung.name}") != words.say(f"next.rungs.{lower.name}")


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_proposal_names_its_rung_in_the_language(language):
    """Up or back, the reason holds the phrase of that language."""
    words = catalogue(language)
    for rung in rungs():
        for key in ("sure", "hard"):
            proposal = Proposal(
                child="Wren", track=rung.track, sets=("tray",), move="stay",
                at=before(rung), to=rung, reason=key, days=DAYS,
            )  # fmt: skip
            assert words.say(f"next.rungs.{rung.name}") in reason(proposal, words)


def test_english_comes_from_the_catalogue():
    """What a rung says of itself is the English phrase."""
    assert all(rung.says == catalogue("en").say(f"next.rungs.{rung.name}") for rung in rungs())


@pytest.mark.parametrize("language", OTHERS)
def test_why_a_line_is_no_note_is_said_in_the_language(language):
    """No reason is left in English, and what stands in the line is told as it stands there."""
    words = catalogue(language)
    for line in LINES:
        why = parse(line)
        assert isinstance(why, Note)
        assert words.told(why) != why
    assert "yesterday" in words.told(parse(LINES[3]))
    assert "'sure'" in words.told(parse(LINES[4]))


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_results_are_named_as_they_are_written(language):
    """The words that a line may hold are the same in every language."""
    said = catalogue(language).say("next.broken.result", found="blue")
    assert all(result in said for result in RESULTS)


def test_a_line_that_is_no_note_in_german(tmp_path):
    """The whole sentence, with the place in German."""
    file = tmp_path / JOURNAL
    file.write_bytes(b"# kept by hand\nWren liked this one\n2026-11-26 | Wr\xe9n | clips | sure\n")
    pack = Pack(
        title="Spring pond", seed=1, guide="de", units="mm", paper=(210.0, 297.0), margin=10.0, children=()
    )
    said = faults(read_journal(file), pack, {}, DAYS[0] + timedelta(days=9), catalogue("de"))

    assert said == (
        "journal.txt, Zeile 2 ist keine Notiz und zählt nicht mit: "
        "sie hat 1 Teil zwischen ihren senkrechten Strichen; eine Notiz hat 4 oder 7",
        "journal.txt, Zeile 3 ist keine Notiz und zählt nicht mit: das ist kein Text in UTF-8",
    )
