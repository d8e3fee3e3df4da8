"""What is said about each tray: no material without texts, no hint that a pack file would refuse."""

import re
import tomllib
from dataclasses import fields, replace

import pytest
from guide.guides import pages_of, summer, texts_of, whole_text
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, legal_entry, made_of, plain_room, read

from printkit.checks import Wrong
from printkit.guide import GuideSet
from printkit.guide.content import guide
from printkit.guide.trays import tray_words
from printkit.materials import Material, materials
from printkit.pack.keys import KEYS
from printkit.texts import Catalogue, catalogue, catalogue_languages
from printkit.words import spell

ENGLISH = catalogue("en")
SAID_IN_CODE = re.compile("`([^`]*)`")


def guide_set(entry, **child):
    """A set made for one child, or None if it cannot be made."""
    keys = {"name": "Wren", "theme": PLAIN_THEME, "sums_to": 10, **child}
    asked = read({"children": [{**keys, "materials": [entry]}]}).children[0].trays[0]
    if not plain_room(asked):
        return None
    made = made_of(asked)
    if not made.pieces:
        return None
    kind = materials()[asked.material]
    return GuideSet(tray=asked, material=kind, pieces=made.pieces, needs=made.needs)


def leaves(found, path=()):
    """Every sentence of a catalogue with its path."""
    if isinstance(found, dict):
        return [leaf for key, item in found.items() for leaf in leaves(item, (*path, key))]
    return [(path, line) for line in (found if isinstance(found, list) else [found])]


def without(texts: Catalogue, *path: str) -> Catalogue:
    """The catalogue with one entry taken out."""

    def cut(table, rest):
        if len(rest) == 1:
            return {key: item for key, item in table.items() if key != rest[0]}
        return table | {rest[0]: cut(table[rest[0]], rest[1:])}

    return Catalogue(language=texts.language, entries=tuple(cut(dict(texts.entries), path).items()))


# --- texts -----------------------------------------------------------------------------------


@pytest.mark.parametrize("language", catalogue_languages())
@pytest.mark.parametrize("name", sorted(materials()))
def test_every_material_has_texts(name, language):
    """Each material of the registry has a title and says what it is, how to show it, what comes next."""
    texts = catalogue(language)
    parts = ("title", "what", "present", "watch", "next")

    assert all(texts.has(f"materials.{name}.{part}") for part in parts)


@settings(max_examples=60)
@given(
    st.sampled_from(sorted(materials())).flatmap(lambda make: legal_entry(make, PLAIN_THEME)),
    st.integers(1, 6),
    st.sampled_from(("long", "hand", "none")),
)
def test_any_settings_have_their_sentences(entry, level, flip):
    """Whatever a tray is set to, nothing is missing, and no list is longer than one can take in."""
    child = {"numbers": [0, 6], "languages": ["en", "es"], "hand": "left"}
    item = guide_set(entry, lookalike=level, flip=flip, **child)
    assume(item)
    words = tray_words(item, ENGLISH)

    assert words.what
    assert 3 <= len(words.present) <= 5
    assert 2 <= len(words.watch) <= 5
    assert 2 <= len(words.next) <= 4


@pytest.mark.parametrize("name", sorted(materials()))
def test_what_the_guide_proposes_can_be_written_in_a_pack_file(name):
    """Each `key` or `key = value` in a material's sentences is a key it has, with a value it takes."""
    table = ENGLISH.find(f"materials.{name}")
    checks = {key: check for key, (check, _) in KEYS.items()}
    checks |= {field.name: field.metadata["check"] for field in fields(materials()[name].settings)}
    codes = [code for _, line in leaves(table) for code in SAID_IN_CODE.findall(line)]

    assert codes
    for code in codes:
        key, _, value = code.partition(" = ")
        assert key in checks
        if value:
            written = tomllib.loads(code.format(harder=3))[key]
            assert not isinstance(checks[key].read(written), Wrong)


@pytest.mark.parametrize("language", catalogue_languages())
def test_sentences_have_whole_marks(language):
    """Marks for bold and code come in pairs; quotation marks and dashes are real ones."""
    data = dict(catalogue(language).entries)
    for path, line in leaves({key: data[key] for key in ("guide", "label", "materials")}):
        plain = SAID_IN_CODE.sub("", line)

        assert line.count("**") % 2 == 0, path
        assert line.count("`") % 2 == 0, path
        assert not re.search("[\"']|--", plain), path


def test_last_level_names_no_harder_one():
    """At level 5 the guide proposes level 6, and at level 6 no other."""
    five, six = (
        " ".join(tray_words(guide_set("odd-one-out", lookalike=level, theme="rock-pool"), ENGLISH).next)
        for level in (5, 6)
    )

    assert "lookalike\xa0=\xa06" in five
    assert "lookalike" not in six


def test_backs_are_spoken_of_only_where_they_are_printed():
    """A set whose backs are not printed is checked with the key instead."""
    printed, unprinted = (
        tray_words(guide_set({"make": "counting-cards", "layout": "back"}, flip=flip), ENGLISH)
        for flip in ("long", "none")
    )

    assert "Turn the card over" in printed.present[-1]
    assert "Keys" in unprinted.present[-1]
    assert "turn" not in " ".join((*unprinted.present, *unprinted.watch)).lower()


@pytest.mark.parametrize("things", ["drawn", "places"])
@pytest.mark.parametrize("layout", ["whole", "back", "pair", "triple"])
def test_cards_without_words_are_not_said_to_have_any(layout, things):
    """What a set of bare counting cards is, and its notes, speak of no words."""
    entry = {"make": "counting-cards", "layout": layout, "things": things}
    child = {"numbers": [1, 3], "languages": ["en", "es"]}
    bare = tray_words(guide_set(entry | {"words": "none"}, **child), ENGLISH)
    usual = tray_words(guide_set(entry, **child), ENGLISH)

    assert not re.search(r"\bwords?\b|\bname\b", " ".join((bare.what, *bare.notes, *bare.next)))
    assert "words" in " ".join(usual.notes)
    assert bare.what != usual.what or things == "places"


def test_no_pictures_to_take_away():
    """Strips without pictures are not told to lose them, nor to be counted by touching."""
    bare = tray_words(guide_set({"make": "strips", "help": "none"}), ENGLISH)
    drawn = tray_words(guide_set({"make": "strips", "help": "pictures"}), ENGLISH)

    assert "help" not in " ".join(bare.next)
    assert "help" in " ".join(drawn.next)
    assert bare.present != drawn.present


# --- examples --------------------------------------------------------------------------------

SAID = re.compile("“([^”]*)”")
NUMBERS = {spell("en", n): n for n in range(101)}


def named(sentences):
    """The numbers that are spoken in sentences: the words between quotation marks, and figures."""
    spoken = " ".join(said for line in sentences for said in SAID.findall(line)).lower()
    words = re.findall(r"[a-z]+(?:-[a-z]+)?", spoken)
    return {NUMBERS[word] for word in words if word in NUMBERS} | {int(n) for n in re.findall(r"\d+", spoken)}


@pytest.mark.parametrize("language", catalogue_languages())
def test_no_example_stands_in_a_catalogue(language):
    """Sentences about materials hold no figures, and nothing spoken in them a number."""
    for path, line in leaves(catalogue(language).find("materials")):
        bare = re.sub(r"`[^`]*`|\{[^}]*\}", "", line)

        assert not re.search(r"\d", bare), path
        assert not named([bare]) - {1}, path


@settings(max_examples=40)
@given(legal_entry("strips", PLAIN_THEME), st.sampled_from(("long", "none")))
def test_strips_are_shown_with_a_line_of_the_set(entry, flip):
    """Every number that is spoken belongs to one strip: its parts, its result, and what lies between."""
    item = guide_set(entry, flip=flip)
    assume(item)
    spoken = named(tray_words(item, ENGLISH).present)
    lines = [piece.facts for piece in item.own if piece.facts.operation]

    assert not spoken or any(
        spoken <= {line.a, line.b, *range(min(line.a, line.result), max(line.a, line.result) + 1)}
        or spoken <= {line.a, line.b, *range(min(line.b, line.result), max(line.b, line.result) + 1)}
        for line in lines
    )


@settings(max_examples=40)
@given(legal_entry("counting-cards", PLAIN_THEME), st.integers(0, 20), st.integers(0, 6))
def test_counting_cards_are_shown_with_a_number_of_the_set(entry, first, more):
    """The number that is spoken lies on one of the cards."""
    item = guide_set({"numbers": [first, first + more], **entry}, flip="long")
    assume(item)

    assert named(tray_words(item, ENGLISH).present) <= {piece.facts.quantity for piece in item.own}


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ({}, "two, and four|Four; five, six"),
        ({"unknown": "change"}, "two, and how many more make six|three, four, … six: four"),
        ({"operation": "subtract", "help": "none"}, "six take away four leaves …|Five, four, … two"),
    ],
)
def test_counting_on_and_back_in_words(settings, said):
    """The larger number is counted on from, a long count leaves out what lies between."""
    item = guide_set({"make": "strips", "count": 3, **settings})
    lines = tuple(
        replace(piece, facts=replace(piece.facts, **dict(zip(("a", "b", "result"), numbers, strict=True))))
        for piece, numbers in zip(item.own, [(1, 1, 2), LINES[settings.get("operation")]], strict=False)
    )
    present = " ".join(tray_words(replace(item, pieces=lines), ENGLISH).present)

    for words in said.split("|"):
        assert words.lower() in present.lower()


LINES = {None: (2, 4, 6), "subtract": (6, 4, 2)}


def test_own_strips_are_spoken_of_where_there_are_any():
    """Blank strips are explained in sets that have them, the frame where it is drawn."""
    own, bare = (
        " ".join(tray_words(guide_set({"make": "strips", **keys}), ENGLISH).notes)
        for keys in ({"own": 2, "help": "pictures"}, {"help": "none"})
    )

    assert "blank strips" in own
    assert "frame above the box" in own
    assert "blank strips" not in bare
    assert "frame above the box" not in bare


# --- gaps ------------------------------------------------------------------------------------


def made_guide(texts):
    """The guide of the summer pack in the sentences of a catalogue."""
    made = summer()
    return guide(made.pack, made.sets, made.files, texts)


@pytest.mark.parametrize(
    "gap",
    [
        ("guide", "print", "scale"),
        ("guide", "print", "hand"),
        ("guide", "cut", "foot"),
        ("guide", "laminate"),
        ("guide", "gather", "things", "pegs"),
        ("guide", "trays", "present"),
        ("guide", "keys", "odd-one-out"),
        ("guide", "cautions", "always"),
        ("label", "numbers"),
        ("materials", "counting-cards", "what"),
        ("materials", "clip-cards", "watch"),
        ("materials", "tracing", "notes", "left"),
    ],
    ids=".".join,
)
def test_a_gap_in_the_catalogue_is_an_error(gap):
    """A sentence that is missing is told by its key, and never skipped in silence."""
    with pytest.raises(KeyError, match=gap[-1]):
        made_guide(without(ENGLISH, *gap))


def test_a_material_without_texts_still_has_its_place():
    """A material the catalogue does not know is named and described by its one line."""
    made = summer()
    known = made.sets[0]
    knots = Material(
        name="knots-and-bows", order=90, line="ribbons to tie", settings=type(known.tray.settings),
        facts=known.material.facts, stock="card", make=known.material.make,
    )  # fmt: skip
    own = replace(known, tray=replace(known.tray, material=knots.name, set=knots.name), material=knots)
    text = whole_text(replace(made, sets=(own,)))

    assert "Knots and bows" in text
    assert "Ribbons to tie." in text


# --- told once -------------------------------------------------------------------------------


def test_trays_that_are_shown_alike_are_told_once():
    """The second child's clip cards point to the first's instead of saying it all again."""
    text = " ".join(texts_of(pages_of(summer())))

    assert text.count("clip a clothespin over its ring") == 1
    assert "Shown and watched like Wren’s “Count and clip”, page" in text


def test_each_child_is_introduced():
    """Under a child's name stand its numbers, its languages and its hand."""
    text = whole_text(summer())

    assert (
        "Wren numbers 1 to 5 · words in English and Portuguese (Portugal) · writes with the left hand"
    ) in text
    assert "Juno numbers 6 to 9 · sums up to 10 · words in English" in text


def test_a_tray_with_numbers_of_its_own_leaves_the_child_as_it_is():
    """The child's line gives the child's numbers, each tray's line its own."""
    made = summer()
    first = made.sets[0]
    tray = replace(first.tray, child=replace(first.tray.child, numbers=(2, 3)))
    text = whole_text(replace(made, sets=(replace(first, tray=tray), *made.sets[1:])))

    assert "Wren numbers 1 to 5 ·" in text
    assert "Counting cards numbers 2 to 3 ·" in text


def test_a_tray_is_headed_by_the_name_on_its_cards():
    """The set's own name, as the foot of the sheets and the cards have it, stands in the heading."""
    made = summer()
    text = whole_text(made)

    for item in made.sets:
        title = ENGLISH.say(f"materials.{item.tray.material}.title")
        own = item.tray.set != item.tray.material
        marked = own or title.casefold() == item.tray.set
        assert (f"{title}: {item.tray.set} " if own else f"{title} ") in text
        assert marked or f"· marked {item.tray.set} " in text
