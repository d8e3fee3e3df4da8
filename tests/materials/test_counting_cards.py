"""Counting cards: what is printed is true, fits, and tells a child nothing but the number."""

import re
from collections import Counter

import faces
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit.materials import arrange as arranging
from printkit.pieces import Box, Dot
from printkit.sheets import turned_to_fit
from printkit.units import PAPERS, Rect
from printkit.words import spell

NEAR = faces.NEAR
FEW = settings(max_examples=25)
LAYOUTS = ("whole", "back", "pair", "triple")


@st.composite
def sets(draw, layouts=LAYOUTS, things=("drawn", "places")):
    """A tray of counting cards that can be made, and what it makes."""
    arrange = draw(st.just("auto") | faces.arrangements())
    child = draw(faces.children(numbers=draw(faces.numbers_for(arrange))))
    asked = tray(
        "counting-cards", child, arrange=arrange,
        layout=draw(st.sampled_from(layouts)), things=draw(st.sampled_from(things)),
    )  # fmt: skip
    seed = draw(st.integers(0, 99))
    made = made_of(asked, seed)
    assume(made.pieces)  # long lines and large counters do not fit small papers
    return faces.Set(asked, made.pieces, seed)


def sides(pieces):
    """Every piece with each of its drawn sides."""
    return [(piece, face) for piece in pieces for face in faces.faces(piece)]


# --- what is made ----------------------------------------------------------------------------


@FEW
@given(sets())
def test_each_number_has_its_cards(made):
    """One card a number and way to lie: whole, with a back, as a pair, or a pair with a control card."""
    first, last = made.asked.child.numbers
    ways = len(made.asked.settings.arrange)
    each = {"whole": 1, "back": 1, "pair": 2, "triple": 3}[made.asked.settings.layout]
    counted = Counter(piece.facts.quantity for piece in made.pieces)
    assert counted == dict.fromkeys(range(first, last + 1), ways * each)
    assert len({piece.key for piece in made.pieces}) == len(made.pieces)


@pytest.mark.parametrize(
    ("layout", "keys", "backs"),
    [
        ("whole", ["4"], [False]),
        ("back", ["4"], [True]),
        ("pair", ["4-things", "4-label"], [False, False]),
        ("triple", ["4-control", "4-things", "4-label"], [False, False, False]),
    ],
)
def test_layouts_put_things_and_names_where_they_say(layout, keys, backs):
    """Together on one side, front and back, apart, or apart with a card that shows both."""
    pieces = made_of(tray("counting-cards", {"numbers": [4, 4]}, layout=layout)).pieces
    assert [piece.key for piece in pieces] == keys
    assert [piece.back is not None for piece in pieces] == backs
    for piece in pieces:
        has_things = bool(faces.pictures(piece.front))
        has_name = bool(faces.texts(piece.front))
        kind = "both" if layout == "whole" else piece.key.partition("-")[2] or "things"
        assert (has_things, has_name) == {
            "both": (True, True),
            "control": (True, True),
            "things": (True, False),
            "label": (False, True),
        }[kind]
        if piece.back is not None:
            assert not faces.pictures(piece.back)
            assert [text.run.text for text in faces.texts(piece.back)] == ["4", "four"]


@FEW
@given(sets(things=("drawn",)))
def test_as_many_things_lie_in_the_area_as_the_facts_say(made):
    """An area holds as many pictures as it tells, the card's quantity, and no picture lies elsewhere."""
    for piece, face in sides(made.pieces):
        shown = faces.pictures(face)
        assert len(shown) == sum(area.things for area in face.areas)
        for area in face.areas:
            assert area.things == piece.facts.quantity
            assert all(area.box.holds(picture.bounds(), NEAR) for picture in shown)


@FEW
@given(sets(things=("drawn",)))
def test_on_open_ground_nothing_else_lies_where_things_are_counted(made):
    """With ground 'none' only pictures touch the area; frames are told as such."""
    for piece, face in sides(made.pieces):
        for area in face.areas:
            assert area.ground == ("frame" if piece.facts.arrangement == "frame" else "none")
            round_it = {id(mark) for mark in faces.grounds(face, piece)}
            others = [
                mark for mark in face.marks
                if mark not in faces.pictures(face) and not faces.is_hairline(mark, piece)
                and id(mark) not in round_it
            ]  # fmt: skip
            touching = [mark for mark in others if area.box.meets(mark.bounds(), NEAR)]
            assert bool(touching) == (area.ground == "frame")


@FEW
@given(sets(things=("places",)))
def test_places_are_two_millimetres_larger_than_the_counters(made):
    """As many empty rings as the number, each 2 mm wider than a counter (derived), none touching."""
    counter = made.asked.child.counter
    for piece, face in sides(made.pieces):
        rings = [mark for mark in face.marks if isinstance(mark, Dot)]
        assert not faces.pictures(face)
        assert len(rings) == (piece.facts.quantity if face.areas else 0)
        assert {2 * ring.radius for ring in rings} <= {counter + 2.0}
        for i, one in enumerate(rings):
            for two in rings[:i]:
                assert ((one.x - two.x) ** 2 + (one.y - two.y) ** 2) ** 0.5 >= counter + 4 - NEAR
        assert [(area.things, area.ground) for area in face.areas] in ([], [(0, "places")])
        if face.areas:
            assert str(piece.facts.quantity) in [text.run.text for text in faces.numerals(face)]


@FEW
@given(sets(things=("places",)))
def test_counters_are_gathered_for_the_fullest_card(made):
    """The tray asks for as many counters as its largest number, of the child's size."""
    needs = made_of(made.asked, made.seed).needs
    child = made.asked.child
    assert [(need.what, need.count, need.size) for need in needs] == [
        ("counters", child.numbers[1], child.counter)
    ]


@FEW
@given(sets())
def test_numerals_and_words_say_the_number(made):
    """Each numeral is the card's own, each word spelled by the table of words, in the child's order."""
    tags = made.asked.child.languages
    for piece, face in sides(made.pieces):
        number = piece.facts.quantity
        assert {text.run.text for text in faces.numerals(face)} <= {str(number)}
        words = [text.run.text for text in faces.texts(face) if text not in faces.numerals(face)]
        assert words in ([], [spell(tag, number) for tag in tags])
        if piece.facts.words:
            assert piece.facts.words == {tag: spell(tag, number) for tag in tags}
            assert piece.facts.numeral == number
        faces.assert_numerals_stand_on_rules(face)


@FEW
@given(sets())
def test_facts_tell_only_what_the_card_carries(made):
    """A piece has words on a side if its facts have them, and none otherwise; so with numerals."""
    for piece in made.pieces:
        texts = [text.run.text for face in faces.faces(piece) for text in faces.texts(face)]
        digits = [text for text in texts if text.isdigit()]
        assert bool(piece.facts.words) == (len(texts) > len(digits))
        assert (piece.facts.numeral is not None) == bool(digits)


# --- nothing but the number ------------------------------------------------------------------


@FEW
@given(sets(things=("drawn",)))
def test_things_have_one_look_and_one_size_in_the_whole_set(made):
    """The same picture, equally large on every card, at least 5 mm long; cards have one size too."""
    shown = [picture for _, face in sides(made.pieces) for picture in faces.pictures(face)]
    assert len({(picture.width, picture.height, picture.drawing) for picture in shown}) <= 1
    assert all(max(picture.width, picture.height) >= 5 - NEAR for picture in shown)
    assert len({(piece.width, piece.height) for piece in made.pieces}) == 1


@FEW
@given(sets())
def test_zero_lies_on_the_same_ground_as_all_numbers(made):
    """If a set holds 0, every place for things has the same light outline; otherwise none has any."""
    grounds = {faces.grounds(face, piece) for piece, face in sides(made.pieces) if face.areas}
    assert len(grounds) == 1
    assert len(grounds.pop()) == (made.asked.child.numbers[0] == 0)


@FEW
@given(sets())
def test_no_face_is_another_one_turned(made):
    """No face of the set equals another face turned by half a turn."""
    assume(len(made.asked.settings.arrange) == 1)
    faces.assert_none_is_another_turned(made.pieces)


def test_numerals_alone_would_be_taken_for_one_another():
    """The check sees 6 and 9 as each other where the rule is missing, and apart where it is there."""
    pieces = made_of(tray("counting-cards", {"numbers": [6, 9]}, layout="pair")).pieces
    labels = {piece.key: piece for piece in pieces if piece.key.endswith("label")}
    six, nine = labels["6-label"], labels["9-label"]
    (figure,) = faces.numerals(six.front)
    (other,) = faces.numerals(nine.front)
    assert figure.run.size == other.run.size
    box = figure.bounds()
    turned = faces.upside_down(type(six.front)(marks=(figure,)), six)
    here = (round(six.width - box.left - box.width / 2), round(six.height - box.top - box.height / 2))
    assert turned == {("Text", "9", *here)}
    assert faces.upside_down(six.front, six) != faces.upright(nine.front, nine)


# --- distances -------------------------------------------------------------------------------


@FEW
@given(sets())
def test_faces_keep_their_distance_from_the_cut(made):
    """The hairline keeps 4 mm and all else 6 mm, and the card fits its sheet."""
    for piece in made.pieces:
        faces.assert_inside(piece)
        assert turned_to_fit(piece, room_of(made.asked)) is not None


@pytest.mark.parametrize("backs", [True, False])
@FEW
@given(made=sets())
def test_the_set_mark_has_its_corner(made, backs):
    """Nothing is drawn where the small line that names the set will stand, on either side."""
    for piece in made.pieces:
        faces.assert_mark_is_clear(piece, backs=backs)


@FEW
@given(sets())
def test_things_numeral_and_words_do_not_touch(made):
    """Numeral, words and the place for things each have room of their own."""
    for piece, face in sides(made.pieces):
        parts = [area.box for area in face.areas] + [text.bounds() for text in faces.texts(face)]
        assert not any(one.meets(two) for i, one in enumerate(parts) for two in parts[:i]), piece.key


# --- every legal child -----------------------------------------------------------------------


@pytest.mark.parametrize("paper", list(PAPERS))
@settings(max_examples=12)
@given(data=st.data())
def test_defaults_work_for_every_child_on_named_papers(paper, data):
    """Any numbers from 0 to 100, any two languages, on A5 to A3, Letter and Legal with usual margins."""
    numbers = sorted(data.draw(st.tuples(st.integers(0, 100), st.integers(0, 100))))
    margin = data.draw(st.sampled_from((3, 10, 20)))
    child = data.draw(faces.children(numbers=numbers, margin=margin, paper=paper))
    made = made_of(tray("counting-cards", child))
    assert made.problems == ()
    assert len(made.pieces) == numbers[1] - numbers[0] + 1


def test_a_small_paper_holds_numbers_to_ten():
    """On 100 x 100 mm, the smallest paper there is, the usual range is possible."""
    child = {"paper": [100, 100], "numbers": [1, 10], "languages": ["en", "pt-PT"]}
    assert len(made_of(tray("counting-cards", child)).pieces) == 10


@pytest.mark.parametrize(
    ("paper", "margin"), [([100, 150], 10), ([100, 100], 3), ([105, 148], 15), ("a5", 35)]
)
def test_what_is_said_to_fit_does_fit(paper, margin):
    """Where numbers are too large, the one the sentence allows can be made, and ten more cannot."""
    child = {"paper": paper, "margin": margin, "numbers": [1, 100]}
    (problem,) = made_of(tray("counting-cards", child)).problems
    assert problem.found.startswith("100 things of 5 mm or more do not fit")
    most = int(re.match(r"at most (\d+) there", problem.allowed).group(1))
    assert made_of(tray("counting-cards", child | {"numbers": [1, most]})).problems == ()
    assert made_of(tray("counting-cards", child | {"numbers": [1, most + 10]})).problems != ()


def test_a_range_of_large_numbers_is_told_what_would_fit():
    """That 90 things are too many does not mean that none fit: fewer than the first number may."""
    child = {"numbers": [90, 95]}
    (problem,) = made_of(tray("counting-cards", child, size="medium")).problems
    most = int(re.match(r"at most (\d+) there", problem.allowed).group(1))
    assert made_of(tray("counting-cards", {"numbers": [1, most]}, size="medium")).pieces
    assert most >= 10


# --- what cannot be made ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("child", "wanted", "said"),
    [
        ({}, {"arrange": "dice"}, "7 to 10 cannot be laid as 'dice'"),
        (
            {"numbers": [9, 12]},
            {"arrange": ["ring", "scatter"]},
            "11 and 12 cannot be laid as 'scatter'",
        ),
        ({}, {"arrange": "array"}, "1 to 3, 5 and 7 cannot be laid as 'array'"),
        ({}, {"motif": "kite"}, "the theme has no motif 'kite'"),
        ({}, {"size": [300, 200]}, "a piece of 300 x 200 mm is larger than the sheet"),
        (
            {"numbers": [1, 90]},
            {"size": "small"},
            "90 things of 5 mm or more do not fit a card of 47 x 62 mm",
        ),
        (
            {"numbers": [1, 30]},
            {"size": "medium", "things": "places"},
            "30 places of 24 mm do not fit a card of 62 x 88 mm",
        ),
    ],
)
def test_what_cannot_be_made_is_said(child, wanted, said):
    """Nothing is made, and the sentence names the numbers or the word in the way."""
    made = made_of(tray("counting-cards", child, **wanted))
    assert made.pieces == ()
    assert [problem.found for problem in made.problems] == [said]


def test_impossible_arrangements_tell_what_is_possible():
    """The problem of an arrangement lists what each can hold."""
    (problem,) = made_of(tray("counting-cards", {}, arrange="dice")).problems
    assert problem.allowed == arranging.LIMITS
    assert "children[0].materials[0].arrange" in problem.place


def test_an_own_size_is_kept():
    """A width and height in mm are what the card has."""
    made = made_of(tray("counting-cards", {"numbers": [1, 5]}, size=[80, 100.5]))
    assert {(piece.width, piece.height) for piece in made.pieces} == {(80.0, 100.5)}
    frame = made.pieces[0].front.marks[0]
    assert isinstance(frame, Box)
    assert Rect(4, 4, 72, 92.5) == Rect(frame.x, frame.y, frame.width, frame.height)


# --- what is counted, in words ---------------------------------------------------------------


def shown_words(face):
    """The texts of a face that are no numerals, from top to bottom."""
    return [text.run.text for text in faces.texts(face) if text not in faces.numerals(face)]


def named(words, languages, numbers=(1, 3), **settings):
    """What the material makes of rock pool motifs with phrases or without words."""
    child = {"theme": "rock-pool", "languages": list(languages), "numbers": list(numbers)}
    return made_of(tray("counting-cards", child, words=words, **settings))


@pytest.mark.parametrize(
    ("languages", "motif", "numbers", "said"),
    [
        (["en"], "crab", (0, 2), ["zero crabs", "one crab", "two crabs"]),
        (["es"], "sea-star", (1, 2), ["una estrella de mar", "dos estrellas de mar"]),
        (["pt-PT"], "crab", (1, 2), ["um caranguejo", "dois caranguejos"]),
        (["pt-BR"], "jellyfish", (0, 2), ["zero água-viva", "uma água-viva", "duas águas-vivas"]),
        (["de"], "crab", (1, 2), ["eine Krabbe", "zwei Krabben"]),
        (["fr"], "sea-star", (0, 2), ["zéro étoile de mer", "une étoile de mer", "deux étoiles de mer"]),
        (["it"], "anemone", (1, 2), ["un anemone di mare", "due anemoni di mare"]),
        (["nl"], "crab", (1, 2), ["één krab", "twee krabben"]),
        (["pl"], "crab", (4, 5), ["cztery kraby", "pięć krabów"]),
        (["pl"], "sea-star", (1, 2), ["jedna rozgwiazda", "dwie rozgwiazdy"]),
    ],
)
def test_phrases_say_what_is_counted(languages, motif, numbers, said):
    """Under the numeral stands the phrase; the facts keep the bare word beside it."""
    made = named("phrase", languages, numbers, motif=motif)
    assert made.notes == ()
    for piece, phrase in zip(made.pieces, said, strict=True):
        assert " ".join(shown_words(piece.front)) == phrase
        assert piece.facts.phrases == {languages[0]: phrase}
        assert piece.facts.words == {languages[0]: spell(languages[0], piece.facts.quantity)}


def test_a_phrase_keeps_the_family_s_spelling():
    """The choice of words holds within a phrase, its gender does not."""
    child = {"theme": "rock-pool", "languages": ["fr"], "numbers": [21, 21], "words": {"fr": "1990"}}
    (piece,) = made_of(tray("counting-cards", child, words="phrase", motif="sea-star")).pieces
    assert piece.facts.words == {"fr": "vingt-et-un"}
    assert piece.facts.phrases == {"fr": "vingt-et-une étoiles de mer"}


@pytest.mark.parametrize(
    ("languages", "note"),
    [
        (["en", "pl"], "the theme has no name for disc in pl"),
        (["pt-BR", "fr"], "the theme has no name for disc in pt-BR and fr"),
        (["cs", "en"], "number and name are not put together in cs"),
    ],
)
def test_a_language_without_names_has_the_number_alone(languages, note):
    """Its line has the bare word, the other language its phrase, and check says why."""
    asked = tray("counting-cards", {"languages": languages, "numbers": [2, 2]}, words="phrase", motif="disc")
    made = made_of(asked)
    (piece,) = made.pieces
    assert made.notes == (f"{note}, so the number word stands alone",)
    assert list(piece.facts.phrases) == [tag for tag in languages if tag == "en"]
    assert [piece.facts.phrases.get(tag, spell(tag, 2)) for tag in languages] == shown_words(piece.front)


def test_a_plural_that_is_missing_is_not_guessed(tmp_path):
    """A theme that tells one form only, or no gender, has no phrases where they are needed."""
    (tmp_path / "pond").mkdir()
    square = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M1 1h7v7h-7z"/></svg>'
    (tmp_path / "pond" / "frog.svg").write_text(square, encoding="utf-8")
    (tmp_path / "pond" / "theme.toml").write_text(
        'motifs.frog.names = { en = "frog", es = { one = "rana", other = "ranas" } }', encoding="utf-8"
    )
    child = {"theme": (tmp_path / "pond").as_posix(), "languages": ["en", "es"], "numbers": [1, 2]}
    made = made_of(tray("counting-cards", child, words="phrase"))
    assert made.notes == (
        "the theme has no form 'one' of frog in en, so the number word stands alone",
        "the theme has no gender of frog in es, so the number word stands alone",
    )
    assert [piece.facts.phrases for piece in made.pieces] == [{}, {}]


def test_where_nothing_is_drawn_nothing_is_named():
    """Empty places for counters are no crabs: the number word alone, and check says so."""
    made = named("phrase", ["en"], things="places")
    assert made.notes == ("no pictures are counted here, so the number words stand without a name",)
    assert [shown_words(piece.front) for piece in made.pieces] == [["one"], ["two"], ["three"]]


@pytest.mark.parametrize("layout", LAYOUTS)
def test_without_words_there_are_none(layout):
    """Numerals only, on the card and in the facts, and more room for things."""
    bare, usual = named("none", ["en"], layout=layout), named("number", ["en"], layout=layout)
    assert bare.notes == ()
    for piece, face in sides(bare.pieces):
        assert shown_words(face) == []
        assert (piece.facts.words, piece.facts.phrases) == ({}, {})
    assert [piece.facts.numeral for piece in bare.pieces] == [piece.facts.numeral for piece in usual.pieces]


def test_a_wide_low_label_keeps_its_words():
    """On a label that is wider than high the words grow smaller before they leave the card."""
    child = {"numbers": [1, 3], "languages": ["en", "es"]}
    made = made_of(tray("counting-cards", child, layout="back", size=[120, 40]))
    assert made.pieces
    for piece in made.pieces:
        faces.assert_inside(piece)


LONG = [["pl", "it"], ["de", "fr"], ["es", "pt-PT"], ["nl", "en"], ["pt-BR"]]


@FEW
@given(
    languages=st.sampled_from(LONG),
    motif=st.sampled_from(("seahorse", "anemone", "crab")),
    layout=st.sampled_from(LAYOUTS),
    first=st.sampled_from((0, 1, 20, 70)),
    paper=st.sampled_from(("a4", "letter", "a5", [150, 150])),
)
def test_phrases_have_room_on_every_card(languages, motif, layout, first, paper):
    """Long ones are set smaller or in two lines: inside the card, apart from all else, equally large."""
    child = {"theme": "rock-pool", "languages": languages, "numbers": [first, first + 8], "paper": paper}
    made = made_of(tray("counting-cards", child, words="phrase", motif=motif, layout=layout))
    assume(made.pieces)
    sizes = {}
    for piece, face in sides(made.pieces):
        faces.assert_inside(piece)
        faces.assert_mark_is_clear(piece, backs=True)
        parts = [area.box for area in face.areas] + [text.bounds() for text in faces.texts(face)]
        assert not any(one.meets(two) for i, one in enumerate(parts) for two in parts[:i]), piece.key
        words = [text for text in faces.texts(face) if text not in faces.numerals(face)]
        kind = piece.key.partition("-")[2], face is piece.back
        sizes.setdefault(kind, set()).update(text.run.size for text in words)
        if words:
            assert " ".join(shown_words(face)) == " ".join(piece.facts.phrases[tag] for tag in languages)
            assert min(text.run.size for text in words) >= 2.1  # the size of the set mark
    assert all(len(each) <= 1 for each in sizes.values())
