"""Pairs: two cards of everything, and backs that tell none from another."""

from collections import Counter
from itertools import combinations

import faces
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, tray

from printkit.sheets.foot import with_mark
from printkit.words import languages, spell

MATCHES = ("pictures", "numeral-things", "numeral-word", "word-word")
FEW = settings(max_examples=30)


@st.composite
def sets(draw, matches=MATCHES):
    """A tray of pairs that can be made, and what it makes."""
    match = draw(st.sampled_from(matches))
    first = draw(st.integers(0, 12))
    child = {"numbers": [first, first + draw(st.integers(0, 6))]}
    child["paper"] = draw(st.sampled_from(("a4", "letter", "a5", [130, 180])))
    child["ink"] = draw(st.sampled_from(("color", "gray", "outline")))
    child["flip"] = draw(st.sampled_from(("long", "hand", "none")))
    child["languages"] = draw(st.sampled_from((["en", "es"], ["de", "uk"], ["th", "fr"])))
    wanted = {"match": match, "names": draw(st.booleans())}
    if match in ("pictures", "numeral-word") and draw(st.booleans()):
        wanted["size"] = draw(st.sampled_from(("small", "medium", "large")))
    asked = tray("pairs", child, **wanted)
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assert made.problems == ()
    return faces.Set(asked, made.pieces, seed)


def said(made, facts):
    """What a card means: the motif, or the number that is shown, written or spelled."""
    if facts.motif is not None:
        return facts.motif
    if facts.words:
        ((tag, word), *_) = facts.words.items()
        return next(n for n in range(101) if made.asked.child.spelled(tag, n) == word)
    return facts.numeral if facts.shows == "numeral" else facts.quantity


@FEW
@given(sets())
def test_two_cards_and_no_more_belong_together(made):
    """The two cards of a pair mean the same, cards of different pairs never do."""
    pairs = {}
    for piece in made.pieces:
        pairs.setdefault(piece.facts.pair, []).append(said(made, piece.facts))

    assert all(len(cards) == 2 and cards[0] == cards[1] for cards in pairs.values())
    assert len({cards[0] for cards in pairs.values()}) == len(pairs) >= 3


@FEW
@given(sets())
def test_what_each_kind_of_pair_shows(made):
    """Pictures twice; else the two sides that the setting names."""
    kinds = {
        "pictures": ("picture", "picture"),
        "numeral-things": ("numeral", "things"),
        "numeral-word": ("numeral", "word"),
        "word-word": ("word", "word"),
    }[made.asked.settings.match]
    shown = [piece.facts.shows for piece in made.pieces]

    assert shown == list(kinds) * (len(shown) // 2)


@FEW
@given(sets())
def test_cards_show_their_facts(made):
    """Numerals, words and things stand on the card as its facts say."""
    for piece in made.pieces:
        facts = piece.facts
        texts = [text.run.text for text in faces.texts(piece.front)]
        things = sum(area.things for area in piece.front.areas)
        assert [int(text) for text in texts if text.isdecimal()] == (
            [facts.numeral] if facts.numeral is not None else []
        )
        assert all(word in texts for word in (*facts.words.values(), *facts.name.values()))
        expected = {"picture": 1, "things": facts.quantity}.get(facts.shows, 0)
        assert things == len(faces.pictures(piece.front)) == expected


@FEW
@given(sets())
def test_backs_are_all_alike(made):
    """With its set mark on it no back can be told from another; without backs nothing is drawn there."""
    printed = made.asked.child.flip.of(made.asked.stock) != "none"
    backs = [with_mark(piece, backs=printed).back for piece in made.pieces]

    assert all((back is not None) == printed for back in backs)
    assert all(back == backs[0] for back in backs)


@FEW
@given(sets())
def test_every_card_says_which_it_is(made):
    """'n of N' stands on each front, whether its back is printed or not."""
    printed = made.asked.child.flip.of(made.asked.stock) != "none"
    total = len(made.pieces)
    for n, piece in enumerate(made.pieces, 1):
        texts = [text.run.text for text in faces.texts(with_mark(piece, backs=printed).front)]
        assert sum(text.endswith(f"{n} of {total}") for text in texts) == 1


@FEW
@given(sets())
def test_cards_keep_their_distances(made):
    """4 and 6 mm from the cut, the corner of the set mark free, numerals on their rules."""
    printed = made.asked.child.flip.of(made.asked.stock) != "none"
    for piece in made.pieces:
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=printed)
        faces.assert_numerals_stand_on_rules(piece.front)
        texts = [text.bounds() for text in faces.texts(piece.front)]
        pictures = [picture.bounds() for picture in faces.pictures(piece.front)]
        assert not any(one.meets(two) for one, two in combinations([*texts, *pictures], 2))


def test_names_stand_in_both_languages():
    """The first card of a pair has the name in the first language, the second in the second."""
    made = made_of(tray("pairs", {"languages": ["en", "es"]}, names=True))
    tags = [list(piece.facts.name) for piece in made.pieces]

    assert tags == [["en"], ["es"]] * 6


def test_names_that_are_lacking_are_told():
    """A language the theme has no names in is left out, and `check` says so."""
    made = made_of(tray("pairs", {"languages": ["en", "uk"]}, names=True))

    assert {tag for piece in made.pieces for tag in piece.facts.name} == {"en"}
    assert made.notes == ("the theme has no names for all pictures in uk",)


def test_no_word_means_two_numbers_of_a_set():
    """'tres' is three in Spanish and sixty in Danish: only one of the two numbers is in the set."""
    asked = tray("pairs", {"languages": ["es", "da"], "numbers": [3, 60]}, match="word-word", pairs=30)
    pair_of = {}
    for piece in made_of(asked).pieces:
        for word in piece.facts.words.values():
            assert pair_of.setdefault(word, piece.facts.pair) == piece.facts.pair


def test_one_language_has_no_word_for_two_numbers():
    """Within a language every number up to 100 has a word of its own."""
    for language in languages():
        if language.reviewed:
            words = Counter(spell(language.tag, n) for n in range(101))
            assert max(words.values()) == 1, language.tag


# --- bad input -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("child", "wanted", "found", "allowed"),
    [
        (
            {},
            {"pairs": 9},
            "9 pairs of pictures, but the theme 'plain' has only 6 pictures",
            "at most 6 pairs",
        ),
        (
            {},
            {"match": "word-word"},
            "pairs of words need two languages, found en alone",
            'two languages, such as ["en", "es"], or match = \'numeral-word\'',
        ),
        (
            {"numbers": [1, 5]},
            {"match": "numeral-word", "pairs": 6},
            "6 pairs, but there are only 5 numbers from 1 to 5",
            "at most 5 pairs, or a wider range of numbers",
        ),
        (
            {"numbers": [19, 24]},
            {"match": "numeral-things", "size": "small"},
            "24 things of 5 mm or more do not fit a card of 47 x 47 mm",
            "at most 20 there, or a larger card",
        ),
    ],
)
def test_what_cannot_be_made_is_told(child, wanted, found, allowed):
    """Too few motifs, languages or numbers; things too many for their card."""
    (problem,) = made_of(tray("pairs", child, **wanted)).problems

    assert (problem.found, problem.allowed) == (found, allowed)


def test_a_theme_of_one_picture_is_refused(tmp_path):
    """One picture makes no game; the sentence says what would."""
    (tmp_path / "disc.svg").write_bytes((tmp_path.__class__(PLAIN_THEME) / "disc.svg").read_bytes())
    (problem,) = made_of(tray("pairs", {"theme": str(tmp_path)})).problems

    assert problem.found.endswith("has only 1 picture")
    assert problem.allowed == "a theme with 3 pictures or more, or match = 'numeral-things'"


def test_too_few_numbers_are_widened():
    """A child of one number still has three pairs, of the numbers below it, and `check` says so."""
    made = made_of(tray("pairs", {"numbers": [5, 5]}, match="numeral-things"))

    assert [piece.facts.numeral for piece in made.pieces[::2]] == [3, 4, 5]
    assert made.notes == ("3 pairs are needed, so numbers from 3 to 5 are used",)
