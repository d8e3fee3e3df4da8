"""Keys: the answers that the guide prints are those of the facts."""

import pytest
from guide.guides import pages_of, summer, texts_of
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, legal_entry, made_of, plain_room, read

from printkit.guide import GuideSet
from printkit.guide.keys import key_of, needs_key
from printkit.guide.sets import has_back
from printkit.materials import materials
from printkit.texts import catalogue

ENGLISH = catalogue("en")
BOLD = "\x01"


def a_set(entry, **child):
    """A set made for one child."""
    keys = {"name": "Wren", "theme": PLAIN_THEME, "sums_to": 10, **child}
    asked = read({"children": [{**keys, "materials": [entry]}]}).children[0].trays[0]
    made = made_of(asked)
    assert made.problems == ()
    return GuideSet(tray=asked, material=materials()[asked.material], pieces=made.pieces, needs=made.needs)


def entries(item):
    """The key of a set."""
    return key_of(item, ENGLISH).lines


def test_clip_cards_name_the_place_of_the_answer():
    """Each card's numerals in order, the right one bold, and its place counted from the left."""
    item = a_set({"make": "clip-cards", "choices": 4}, numbers=[0, 6], flip="none")

    for n, (piece, entry) in enumerate(zip(item.pieces, entries(item), strict=True), 1):
        shown = [str(choice) for choice in piece.facts.choices]
        place = shown.index(str(piece.facts.quantity))
        shown[place] = f"{BOLD}{shown[place]}{BOLD}"
        assert entry == f"Card {n}: {' · '.join(shown)} (place {place + 1})"


@pytest.mark.parametrize("operation", ["add", "subtract", "both"])
@pytest.mark.parametrize("unknown", ["result", "change", "start", "mixed"])
def test_strips_tell_true_equations(operation, unknown):
    """Every equation of the key is true, and the number that is asked for is bold."""
    item = a_set(
        {"make": "strips", "operation": operation, "unknown": unknown, "own": 2, "count": 9}, flip="none"
    )
    found = entries(item)

    assert len(found) == 9
    for piece, entry in zip(item.pieces, found, strict=False):
        left, right = entry.replace(BOLD, "").replace("\N{MINUS SIGN}", "-").split(" = ")
        a, sign, b = left.split()
        assert int(right) == (int(a) + int(b) if sign == "+" else int(a) - int(b))
        asked = {"start": a, "change": b, "result": right}[piece.facts.unknown]
        assert entry.split(BOLD)[1] == asked


@pytest.mark.parametrize("level", [1, 3, 5])
def test_odd_one_out_names_the_odd_picture(level):
    """Each card's odd picture is told by its place in reading order, from one."""
    item = a_set("odd-one-out", lookalike=level, theme="rock-pool")

    for n, (piece, entry) in enumerate(zip(item.pieces, entries(item), strict=True), 1):
        assert f"{entry},".startswith(f"Card {n}: picture {piece.facts.odd + 1},")


def test_differences_of_one_kind_are_told_once():
    """Where all cards differ in one way no line repeats it; where they do not every line tells its own."""
    same = a_set("odd-one-out", lookalike=5, theme="rock-pool")
    mixed = a_set({"make": "odd-one-out", "count": 20}, lookalike=4, theme="rock-pool")
    kinds = [piece.facts.difference for piece in mixed.pieces]

    assert len(set(kinds)) > 1
    assert key_of(same, ENGLISH).always == "turned"
    assert [entry for entry in entries(same) if "turned" in entry] == []
    assert key_of(mixed, ENGLISH).always == ""
    for entry, kind in zip(entries(mixed), kinds, strict=True):
        assert entry.endswith(f", {ENGLISH.say(f'guide.difference.{kind}')}")


def test_rows_of_a_sheet_are_told_one_by_one():
    """On sheets every row has its own line, the pictures of a row counted from the left."""
    item = a_set({"make": "odd-one-out", "form": "sheet", "count": 8}, lookalike=1)
    told = [
        f"Sheet {n}, row {row}: picture {odd - 4 * (row - 1) + 1},"
        for n, piece in enumerate(item.pieces, 1)
        for row, odd in enumerate(piece.facts.odd, 1)
    ]
    found = entries(item)

    assert len(found) == 8
    assert all(f"{entry},".startswith(start) for entry, start in zip(found, told, strict=True))


def test_counting_cards_tell_numeral_and_words():
    """Where numeral and words would stand on the back, the key tells both."""
    item = a_set(
        {"make": "counting-cards", "layout": "back"}, numbers=[1, 3], flip="none", languages=["en", "es"]
    )

    assert entries(item) == ("1: one, uno", "2: two, dos", "3: three, tres")


def test_counting_cards_without_words_tell_the_numeral():
    """Where the back would have the numeral alone, so has the key."""
    item = a_set({"make": "counting-cards", "layout": "back", "words": "none"}, numbers=[1, 3], flip="none")

    assert entries(item) == ("1", "2", "3")


@settings(max_examples=30)
@given(st.data())
def test_every_difference_has_words(data):
    """The kinds of difference that any level makes are told in words of the catalogue."""
    level = data.draw(st.integers(1, 6))
    item = a_set({"make": "odd-one-out", "count": 20}, lookalike=level, theme="rock-pool")

    for piece in item.pieces:
        assert ENGLISH.has(f"guide.difference.{piece.facts.difference}")


@pytest.mark.parametrize("make", sorted(materials()))
def test_backs_that_are_not_printed_have_a_key(make):
    """With flip 'none' every set that has backs tells each answer in the guide."""
    entry = {"make": make, **({"layout": "back"} if make == "counting-cards" else {})}
    unprinted, printed = (a_set(entry, flip=flip, numbers=[1, 4]) for flip in ("none", "long"))
    keyed = materials()[make].guidance.keyed

    assert needs_key(unprinted) == (keyed or has_back(unprinted))
    backed = [piece for piece in unprinted.pieces if piece.back is not None] or unprinted.pieces
    assert not needs_key(unprinted) or len(entries(unprinted)) == len(backed)
    assert needs_key(printed) == keyed


@settings(max_examples=25)
@given(st.sampled_from(sorted(materials())).flatmap(lambda make: legal_entry(make, PLAIN_THEME)))
def test_whatever_has_a_back_has_a_key(entry):
    """No settings of any material give backs for which the guide knows no answers."""
    child = {"name": "Wren", "theme": PLAIN_THEME, "sums_to": 12, "flip": "none"}
    asked = read({"children": [{**child, "materials": [entry]}]}).children[0].trays[0]
    assume(plain_room(asked))
    made = made_of(asked)
    assume(made.pieces)
    item = GuideSet(tray=asked, material=materials()[asked.material], pieces=made.pieces, needs=made.needs)

    assert not needs_key(item) or entries(item) or all(piece.facts.operation is None for piece in item.own)


def test_the_key_page_holds_every_entry():
    """Read back from the PDF, the section 'Keys' has the answers of every keyed set."""
    made = summer(flip="none")
    pages = texts_of(pages_of(made))
    start = next(n for n, text in enumerate(pages) if "Keys For you, and for a child" in text)
    text = " ".join(pages[start:])
    keyed = [item for item in made.sets if needs_key(item)]

    assert {item.tray.material for item in keyed} == {
        "counting-cards", "clip-cards", "strips", "odd-one-out",
    }  # fmt: skip
    for item in keyed:
        for entry in entries(item):
            assert entry.replace(BOLD, "") in text


def test_pictures_in_a_key_have_their_names():
    """A key names a picture as the theme does in the guide's language."""
    item = a_set("halves", theme="rock-pool", flip="none")
    theme = item.tray.child.theme
    names = [theme.motif(piece.facts.motif).name("es") for piece in item.pieces]

    lines = key_of(item, catalogue("es")).lines

    assert [line.partition(": ")[2].partition(",")[0] for line in lines] == names
    assert names[0] not in entries(item)[0]
