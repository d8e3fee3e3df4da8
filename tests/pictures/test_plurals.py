"""Plural categories against the numbers that CLDR publishes for each."""

import json
import re
from pathlib import Path

import pytest

from printkit.pictures.plurals import CATEGORIES, WITHOUT_OTHER, category, own
from printkit.words import languages

# Unicode CLDR 48, cldr-core 48.2.0: see the README beside the file.
SAMPLES = json.loads(
    (Path(__file__).parent.parent / "reference" / "plurals" / "cldr-48-samples.json").read_text(
        encoding="utf-8"
    )
)


def numbers(samples: str) -> list[int]:
    """The whole numbers of '0, 2~16, 100, 1c6, …', those in compact form left out."""
    found = []
    for first, last in re.findall(r"(?<![\dc])(\d+)(?:~(\d+))?(?![\dc])", samples):
        found += range(int(first), int(last or first) + 1)
    return found


@pytest.mark.parametrize("tag", SAMPLES)
def test_every_published_sample_has_its_category(tag):
    """Each sample number of each plural class falls into that class."""
    for wanted, samples in SAMPLES[tag].items():
        assert wanted in CATEGORIES
        for n in numbers(samples):
            assert category(tag, n) == wanted, n


def test_samples_are_read_as_they_are_meant():
    """Ranges are whole, compact forms and the dots are left out."""
    assert numbers("0, 2~4, 100, 1c6, 2c6, …") == [0, 2, 3, 4, 100]


@pytest.mark.parametrize(
    ("tag", "like"), [("pt-BR", "pt"), ("es-MX", "es"), ("EN-gb", "en"), ("sr-Latn", "sr"), ("fr-BE", "fr")]
)
def test_regions_and_scripts_take_the_language_s_rule(tag, like):
    """A tag with a region or a script counts as its language does."""
    assert [category(tag, n) for n in range(101)] == [category(like, n) for n in range(101)]


@pytest.mark.parametrize("tag", ["xx", "tlh-Latn", "e", "", "a b", "x-own"])
def test_a_language_cldr_does_not_know_has_one_and_other(tag):
    """1 is 'one', the rest 'other'."""
    assert [category(tag, n) for n in (0, 1, 2, 11)] == ["other", "one", "other", "other"]


def test_languages_without_other_are_known():
    """Of all languages offered, those whose numbers 0 to 100 never take 'other' are in the list."""
    without = {
        language.tag.partition("-")[0]
        for language in languages()
        if "other" not in {category(language.tag, n) for n in range(101)}
    }

    assert without <= WITHOUT_OTHER
    assert all("other" not in {category(tag, n) for n in range(101)} for tag in WITHOUT_OTHER)


@pytest.mark.parametrize(
    ("tag", "found"),
    [
        ("pt-PT", "caranguejo"),
        ("PT-pt", "caranguejo"),
        ("pt-BR", None),
        ("es-CO", "cangrejo"),
        ("fr", None),
        ("zh-Hant-TW", "蟹"),
    ],
)
def test_own_is_never_a_sister_s(tag, found):
    """The entry of the tag or of the language above it; Portugal's word is not Brazil's."""
    entries = (("en", "crab"), ("es", "cangrejo"), ("pt-PT", "caranguejo"), ("zh-Hant", "蟹"))
    assert own(tag, entries) == found
