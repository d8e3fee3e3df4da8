"""Strips: the facts against closed counts, the faces against the facts."""

from collections import Counter

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import made_of, room_of, tray

from printkit import letters
from printkit.chance import Chance
from printkit.letters import Numerals
from printkit.materials.layout import FAINT, INK, SMALLEST_THING, content
from printkit.materials.strips.facts import UNKNOWNS, chosen_facts, facts_within, tasks
from printkit.pieces import Box, Dot, Line, Picture, Piece, Text
from printkit.units import Rect

OPERATIONS = ("add", "subtract")
SAFE = set("0123456789+-own")
MINUS = "\N{MINUS SIGN}"


def strips(child=None, seed=0, **settings):
    """The pieces of a set of strips that can be made."""
    made = made_of(tray("strips", {"sums_to": 10, **(child or {})}, **settings), seed)
    assert made.problems == ()
    return made.pieces


def told(child=None, **settings):
    """The one problem of a set of strips that cannot be made."""
    made = made_of(tray("strips", {"sums_to": 10, **(child or {})}, **settings))
    assert made.pieces == ()
    (problem,) = made.problems
    return problem


# --- facts -----------------------------------------------------------------------------------


# Triangular numbers, OEIS A000217: with zeros T(n + 1), without T(n - 1).
@pytest.mark.parametrize(
    ("most", "with_zeros", "without"),
    [(3, 10, 3), (5, 21, 10), (10, 66, 45), (12, 91, 66), (20, 231, 190), (100, 5151, 4950)],
)
@pytest.mark.parametrize("operation", OPERATIONS)
def test_as_many_facts_as_closed_counts_say(most, with_zeros, without, operation):
    """Within n there are (n+1)(n+2)/2 ordered facts with zeros and n(n-1)/2 without."""
    counts = [len(set(facts_within(most, operation, zero=zero))) for zero in (True, False)]

    assert counts == [with_zeros, without]


@given(most=st.integers(2, 40), operation=st.sampled_from(OPERATIONS), zero=st.booleans())
def test_every_fact_is_true_and_within(most, operation, zero):
    """a + b or a - b is the result, and no number leaves the range."""
    least = 0 if zero else 1

    for fact in facts_within(most, operation, zero=zero):
        assert fact.result == (fact.a + fact.b if operation == "add" else fact.a - fact.b)
        assert all(least <= number <= most for number in fact.numbers)


@st.composite
def choices(draw):
    """What a set may ask for, and the facts chosen for it."""
    most, count, zero = draw(st.integers(2, 15)), draw(st.integers(1, 200)), draw(st.booleans())
    setting = draw(st.sampled_from((*OPERATIONS, "both")))
    shuffled = draw(st.booleans())
    chance = Chance(draw(st.integers(0, 99)), "Wren", "strips")
    facts = chosen_facts(most, setting, count, zero=zero, shuffled=shuffled, chance=chance)
    return most, count, zero, setting, shuffled, facts


@given(choices())
def test_none_comes_again_until_all_have_appeared(drawn):
    """Read in order, each full pass holds every fact of its operation once."""
    most, count, zero, setting, _, facts = drawn

    assert len(facts) == count
    for operation in OPERATIONS if setting == "both" else (setting,):
        own = [fact for fact in facts if fact.operation == operation]
        every = set(facts_within(most, operation, zero=zero))
        for start in range(0, len(own), len(every)):
            part = own[start : start + len(every)]
            assert len(set(part)) == len(part)
            assert set(part) <= every


@given(choices())
def test_the_choice_is_even_over_the_sums(drawn):
    """No sum has two strips more than another that has facts left."""
    most, _, zero, setting, _, facts = drawn
    operation = "add" if setting == "both" else setting
    own = [fact for fact in facts if fact.operation == operation]
    every = facts_within(most, operation, zero=zero)
    assume(len(own) <= len(every))
    there = Counter(fact.whole for fact in every)
    chosen = Counter(fact.whole for fact in own)
    open_sums = [whole for whole in there if chosen[whole] < there[whole]]

    for whole in open_sums:
        assert max(chosen.values(), default=0) <= chosen[whole] + 1


@given(choices())
def test_both_takes_turns(drawn):
    """With 'both' additions and subtractions alternate and are as many, or one addition more."""
    *_, setting, _, facts = drawn
    assume(setting == "both")

    assert [fact.operation for fact in facts] == [OPERATIONS[i % 2] for i in range(len(facts))]


def test_climbing_is_from_small_to_large():
    """Sums climb unless they are shuffled; shuffled strips hold the same facts."""
    climbing = strips({"sums_to": 10}, count=20)
    shuffled = strips({"sums_to": 10}, count=20, order="shuffled")
    sums = [piece.facts.result for piece in climbing]

    assert sums == sorted(sums)
    assert [piece.key for piece in shuffled] != [piece.key for piece in climbing]
    assert {piece.key for piece in shuffled} == {piece.key for piece in climbing}


def test_every_fact_has_its_chance():
    """With fewer strips than facts, other seeds choose other facts, and none is left out for good."""
    seen = {piece.key for seed in range(60) for piece in strips({"sums_to": 5}, seed, count=3)}

    assert seen == {fact.key for fact in facts_within(5, "add", zero=False)}


@given(seed=st.integers(0, 999), count=st.integers(1, 60), most=st.integers(2, 12))
def test_mixed_asks_for_each_place_as_often(seed, count, most):
    """Result, change and start differ by one strip at most; a fact that comes again asks anew first."""
    chance = Chance(seed, "Wren", "strips")
    facts = chosen_facts(most, "add", count, zero=False, shuffled=False, chance=chance)
    todo = tasks(facts, "mixed", chance)
    counts = Counter(task.unknown for task in todo)

    assert max(counts.values()) - min(counts[unknown] for unknown in UNKNOWNS) <= 1
    assert len({task.key for task in todo}) == count


def test_mixed_hangs_on_chance():
    """Another seed spreads the unknown in another way."""
    asked = {tuple(piece.facts.unknown for piece in strips(None, seed, unknown="mixed")) for seed in range(8)}

    assert len(asked) > 1


@pytest.mark.parametrize(("most", "count"), [(2, 1), (3, 3), (5, 10), (6, 12), (100, 12)])
def test_twelve_strips_or_all_facts(most, count):
    """Without a count a set has twelve strips, or as many as there are facts."""
    assert len(strips({"sums_to": most})) == count


def test_without_zeros_unless_asked_for():
    """0 stands in an equation only with zero = true, and then it does."""
    numbers = {True: set(), False: set()}
    for zero, seen in numbers.items():
        for piece in strips({"sums_to": 3}, operation="both", zero=zero, count=20):
            seen |= {piece.facts.a, piece.facts.b, piece.facts.result}

    assert numbers == {True: {0, 1, 2, 3}, False: {1, 2, 3}}


# --- faces -----------------------------------------------------------------------------------


@st.composite
def sets(draw):
    """What a pack file asks for: (child, settings), on paper from large to small."""
    settings = {
        "operation": draw(st.sampled_from((*OPERATIONS, "both"))),
        "unknown": draw(st.sampled_from((*UNKNOWNS, "mixed"))),
        "zero": draw(st.booleans()),
        "own": draw(st.integers(0, 2)),
        "count": draw(st.integers(1, 14)),
    }
    if draw(st.booleans()):
        settings["help"] = draw(st.sampled_from(("pictures", "places", "none")))
    child = {
        "sums_to": draw(st.integers(2, 24) | st.just(100)),
        "paper": draw(
            st.sampled_from(("a4", "letter", "a5", "a3"))
            | st.lists(st.integers(120, 500), min_size=2, max_size=2)
        ),
        "margin": draw(st.integers(3, 20)),
        "counter": draw(st.integers(8, 40)),
        "ink": draw(st.sampled_from(("color", "gray", "outline"))),
    }
    size = draw(st.none() | st.sampled_from(("small", "medium", "large")))
    if size:
        settings["size"] = size
    return child, settings


def texts(face):
    """The texts of a face from left to right."""
    marks = [mark for mark in face.marks if isinstance(mark, Text)]
    return sorted(marks, key=lambda mark: mark.x)


def answer_boxes(piece: Piece):
    """The empty boxes to write in: solid, low on the strip, in ink."""
    return [mark for mark in piece.front.marks if isinstance(mark, Box) and mark.stroke == INK]


def crosses(face):
    """The slanting lines of a face."""
    return [mark for mark in face.marks if isinstance(mark, Line) and mark.y1 != mark.y2]


@given(sets())
def test_faces_are_true_and_keep_their_distances(asked):
    """Whatever fits is inside the insets, apart, countable, and says what the facts say."""
    child, settings = asked
    made = made_of(tray("strips", child, **settings))
    assume(made.pieces)

    for piece in made.pieces:
        check_insets(piece)
        check_things(piece)
        check_equation(piece)
        check_rules(piece)
    things = [mark for piece in made.pieces for mark in piece.front.marks if isinstance(mark, Picture)]
    assert len({(mark.drawing.name, mark.width, mark.height) for mark in things}) <= 1
    assert all(max(mark.width, mark.height) >= SMALLEST_THING for mark in things)
    assert len({(piece.width, piece.height) for piece in made.pieces}) == 1


def check_insets(piece: Piece) -> None:
    """The hairline lies at 4 mm, everything else at 6 mm, the strip of the set mark is free."""
    size = (piece.width, piece.height)
    for face in (piece.front, piece.back):
        hairline, *others = face.marks
        assert (hairline.x, hairline.y) == (4.0, 4.0)
        assert (hairline.width, hairline.height) == (piece.width - 8, piece.height - 8)
        for mark in others:
            assert content(size).holds(mark.bounds())


def check_things(piece: Piece) -> None:
    """Each area holds its things and no more; things lie apart; nothing covers anything."""
    face = piece.front
    things = [mark.bounds() for mark in face.marks if isinstance(mark, Picture)]
    for area in face.areas:
        inside = [thing for thing in things if area.box.holds(thing, 2e-3)]
        assert len(inside) == area.things
    assert sum(area.things for area in face.areas) == len(things)
    for i, thing in enumerate(things):
        apart = min(thing.width, thing.height) * 0.2
        wide = Rect(thing.left - apart, thing.top - apart, thing.width + 2 * apart, thing.height + 2 * apart)
        assert not any(wide.meets(other) for other in things[:i])
    solid = [mark.bounds() for mark in (*texts(face), *answer_boxes(piece))]
    assert not any(mark.meets(thing) for mark in solid for thing in things)
    assert not any(mark.meets(other) for i, mark in enumerate(solid) for other in solid[:i])


def check_equation(piece: Piece) -> None:
    """Read from left to right the front is the equation without the unknown, the back all of it."""
    facts = piece.facts
    front = [mark.run.text for mark in texts(piece.front)]
    if facts.operation is None:
        assert (facts.a, facts.b, facts.result, facts.unknown) == (None,) * 4
        assert len(answer_boxes(piece)) == 3
        assert front in (["="], ["+", "="], [MINUS, "="])
        assert (len(piece.back.marks), piece.control) == (1, None)
        return
    sign = "+" if facts.operation == "add" else MINUS
    place = {"start": 0, "change": 2, "result": 4}[facts.unknown]
    whole = [str(facts.a), sign, str(facts.b), "=", str(facts.result)]
    assert front == [*whole[:place], *whole[place + 1 :]]
    assert len(answer_boxes(piece)) == 1
    assert [mark.run.text for mark in texts(piece.back)] == whole
    assert {mark.color for mark in piece.back.marks[1:]} == {(0.5,)}
    assert all(piece.control.holds(mark.bounds()) for mark in piece.back.marks[1:])


def check_rules(piece: Piece) -> None:
    """Every loose numeral stands on a short rule a little below it, at least as wide as its ink."""
    for face in (piece.front, piece.back):
        rules = [mark for mark in face.marks if isinstance(mark, Line) and mark.y1 == mark.y2]
        numerals = [mark for mark in texts(face) if mark.run.text.isdigit()]
        assert len(rules) == len(numerals)
        for mark in numerals:
            ink = mark.bounds()
            assert any(
                rule.x1 <= ink.left and ink.right <= rule.x2 and 0 < rule.y1 - mark.y < 2 for rule in rules
            )


@pytest.mark.parametrize(
    ("unknown", "drawn"),
    [("result", ("a", "b")), ("change", ("a", "result")), ("start", ("b", "result"))],
)
@pytest.mark.parametrize("operation", OPERATIONS)
def test_only_known_numbers_are_drawn(unknown, drawn, operation):
    """Above each known number lie its things, above the unknown an empty place."""
    if (operation, unknown) == ("subtract", "result"):
        drawn = ("a",)

    for piece in strips(operation=operation, unknown=unknown):
        counts = [area.things for area in piece.front.areas]
        empty = [mark for mark in piece.front.marks if isinstance(mark, Box) and mark.stroke == FAINT]
        assert counts == [getattr(piece.facts, name) for name in drawn]
        assert len(empty) == 1


def test_what_is_taken_away_is_crossed():
    """Where the result is asked for, the last b of the a things are crossed by a line within each."""
    for piece in strips(operation="subtract"):
        things = [mark.bounds() for mark in piece.front.marks if isinstance(mark, Picture)]
        lines = crosses(piece.front)
        (area,) = piece.front.areas
        assert area.ground == "crossed"
        assert len(things) == piece.facts.a
        for line, thing in zip(lines, things[piece.facts.a - piece.facts.b :], strict=True):
            assert thing.holds(line.bounds())


@pytest.mark.parametrize("unknown", ["change", "start"])
def test_nothing_is_crossed_where_the_rest_is_known(unknown):
    """Crosses stand only where the result of a subtraction is asked for."""
    pieces = [*strips(operation="subtract", unknown=unknown), *strips(operation="add")]

    assert [line for piece in pieces for line in crosses(piece.front)] == []
    assert {area.ground for piece in pieces for area in piece.front.areas} == {"none"}


@given(counter=st.integers(8, 40), unknown=st.sampled_from((*UNKNOWNS, "mixed")))
def test_places_are_two_mm_larger_than_the_counters(counter, unknown):
    """As many round places as the known numbers say, apart, and as many counters as one strip needs."""
    asked = tray("strips", {"sums_to": 6, "counter": counter}, unknown=unknown, help="places")
    made = made_of(asked)
    assume(made.pieces)
    most = 0

    for piece in made.pieces:
        facts = piece.facts
        named = {"start": facts.a, "change": facts.b, "result": facts.result}
        known = [number for name, number in named.items() if name != facts.unknown]
        dots = [mark.bounds() for mark in piece.front.marks if isinstance(mark, Dot)]
        most = max(most, len(dots))
        assert len(dots) == sum(known)
        assert {(area.things, area.ground) for area in piece.front.areas} == {(0, "places")}
        assert all(abs(dot.width - counter - 2) < 0.1 for dot in dots)
        around = [dot.inset(-0.9) for dot in dots]
        assert not any(dot.meets(other) for i, dot in enumerate(around) for other in around[:i])
    (need,) = [need for need in made.needs if need.what == "counters"]
    assert (need.count, need.size) == (most, counter)


def test_zeros_lie_in_a_frame():
    """In a set with zeros every group has a frame, so that an empty one is seen to be empty."""
    for piece in strips({"sums_to": 4}, zero=True, count=15):
        boxes = [mark for mark in piece.front.marks[1:] if isinstance(mark, Box)]
        frames = [mark for mark in boxes if mark.stroke not in (INK, FAINT)]
        assert len(frames) == len(piece.front.areas)
        for frame, area in zip(frames, piece.front.areas, strict=True):
            assert frame.bounds().holds(area.box)


def test_own_strips_are_blank():
    """Blank strips come last, have a place for the sign where both are possible, and no answer."""
    for operation, signs in (("add", ["+", "="]), ("subtract", [MINUS, "="]), ("both", ["="])):
        pieces = strips(operation=operation, own=2)
        assert [piece.key for piece in pieces[-2:]] == ["own-1", "own-2"]
        blank = pieces[-1]
        assert [mark.run.text for mark in texts(blank.front)] == signs
        assert len([mark for mark in blank.front.marks if isinstance(mark, Dot)]) == (operation == "both")


def test_keys_are_safe_and_unique():
    """Keys name equations, stay apart when a fact comes again, and can stand in file names."""
    keys = [piece.key for piece in strips({"sums_to": 4}, operation="both", count=40, own=3)]

    assert len(set(keys)) == 43
    assert set("".join(keys)) <= SAFE
    assert {"2+2", "2+2-2", "3-1", "own-1"} <= set(keys)


def test_numerals_follow_the_child():
    """The forms of 1, 4 and 7 are those of the family, in front and behind."""
    forms = {"one": "foot", "four": "open", "seven": "barred"}
    piece = next(p for p in strips({"numerals": forms}, count=45) if p.key == "4+1")
    four, behind = texts(piece.front)[0], texts(piece.back)[0]

    wanted = letters.run("4", 1.0, bold=True, numerals=Numerals(**forms)).glyphs
    plain = letters.run("4", 1.0, numerals=Numerals(**forms)).glyphs
    assert (four.run.glyphs, behind.run.glyphs) == (wanted, plain)
    assert wanted != letters.run("4", 1.0, bold=True).glyphs


# --- sizes -----------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(("size", "sheet"), [(None, 6), ("small", 10), ("medium", 6), ("large", 4)])
def test_strips_fill_a_sheet(paper, size, sheet):
    """The named sizes stand as often on A4 as on Letter; without a size the smallest that pleases."""
    asked = tray("strips", {"paper": paper, "sums_to": 5}, **({"size": size} if size else {}))
    piece, room = made_of(asked).pieces[0], room_of(asked)

    upright = int(room.width // piece.width) * int(room.height // piece.height)
    turned = int(room.width // piece.height) * int(room.height // piece.width)
    assert max(upright, turned) == sheet


@given(
    most=st.integers(2, 100),
    paper=st.lists(st.integers(100, 1000), min_size=2, max_size=2),
    margin=st.integers(3, 40),
    counter=st.integers(8, 60),
    settings=st.fixed_dictionaries(
        {
            "operation": st.sampled_from((*OPERATIONS, "both")),
            "unknown": st.sampled_from((*UNKNOWNS, "mixed")),
        }
    ),
)
def test_defaults_work_on_any_paper(most, paper, margin, counter, settings):
    """Without a wish for size or help there are strips on every sheet that can hold an equation."""
    child = {"sums_to": most, "paper": paper, "margin": margin, "counter": counter}
    asked = tray("strips", child, **settings)
    room = room_of(asked)
    assume(max(room) >= 76 and min(room) >= 30)

    made = made_of(asked)

    assert made.problems == ()
    piece = made.pieces[0]
    assert min(piece.width, piece.height) <= min(room) + 1e-6
    assert max(piece.width, piece.height) <= max(room) + 1e-6


def test_pictures_come_by_themselves_to_twenty():
    """Things are drawn to 20 unless help says otherwise, and never unasked beyond."""
    drawn = {most: bool(strips({"sums_to": most})[0].front.areas) for most in (5, 20, 21, 100)}

    assert drawn == {5: True, 20: True, 21: False, 100: False}
    assert not strips({"sums_to": 5}, help="none")[0].front.areas


# --- what cannot be --------------------------------------------------------------------------


def test_sums_to_is_asked_for():
    """Without the largest sum there is no set."""
    (problem,) = made_of(tray("strips")).problems

    assert problem.found == "strips need sums_to, the largest sum"
    assert problem.allowed == "sums_to = a whole number from 2 to 100"


@pytest.mark.parametrize(
    ("help", "found"),
    [
        ("pictures", "things of 5 mm for sums to 100 do not fit a strip of 124 x 38 mm"),
        ("places", "places of 24 mm for sums to 100 do not fit a strip of 124 x 38 mm"),
    ],
)
def test_help_that_does_not_fit_names_what_would(help, found):
    """The sentence names the size; without help the same set can be made."""
    problem = told({"sums_to": 100}, help=help, size="small")

    assert problem.found == found
    assert problem.allowed.endswith("a larger strip or help = 'none'")
    assert strips({"sums_to": 100}, help="none", size="small")


@pytest.mark.parametrize("help", ["pictures", "places"])
@pytest.mark.parametrize("settings", [{}, {"unknown": "mixed", "operation": "both"}, {"zero": True}])
def test_the_largest_sum_named_fits(help, settings):
    """The sum that the sentence names can be made; the next one cannot."""
    child = {"paper": [120, 130], "sums_to": 100}
    problem = told(child, help=help, **settings)
    largest = int(problem.allowed.split("sums_to up to ")[1].split(",")[0])

    assert strips({**child, "sums_to": largest}, help=help, **settings)
    assert told({**child, "sums_to": largest + 1}, help=help, **settings)


def test_a_strip_too_small_for_its_equation():
    """The sentence says how large it must be, and that is enough."""
    problem = told({"sums_to": 100}, size=[60, 40])
    wide, high = (float(side) for side in problem.allowed[9:-3].split(" x "))

    assert problem.found == "an equation to 100 does not fit a strip of 60 x 40 mm"
    assert strips({"sums_to": 100}, size=[wide, high])


def test_a_strip_larger_than_the_sheet():
    """A size that no sheet holds is refused."""
    assert told(size=[260, 200]).found == "a piece of 260 x 200 mm is larger than the sheet"


# --- stability -------------------------------------------------------------------------------


def test_the_same_again_and_nothing_but_names_matters():
    """Twice the same; ink and paper change no choice; another child or seed does."""
    keys = keys_of({"sums_to": 20})

    assert strips({"sums_to": 20}, unknown="mixed") == strips({"sums_to": 20}, unknown="mixed")
    assert keys == keys_of({"sums_to": 20, "ink": "gray", "paper": "a5"})
    assert keys != keys_of({"sums_to": 20, "name": "Juno"})
    assert keys != keys_of({"sums_to": 20}, 1)


def keys_of(child, seed=0):
    """The keys of a mixed set."""
    return [piece.key for piece in strips(child, seed, unknown="mixed")]


def test_blank_strips_change_no_other():
    """Asking for blank strips leaves the others as they are, their set marks aside."""
    plain, more = strips(), strips(own=3)

    assert [(p.key, p.front, p.back) for p in plain] == [(p.key, p.front, p.back) for p in more[:-3]]


# --- the result in words ---------------------------------------------------------------------


def behind(piece):
    """The words on the back, from top to bottom."""
    return [
        mark.run.text
        for mark in piece.back.marks[1:]
        if isinstance(mark, Text) and mark.run.text[0].isalpha()
    ]


def test_backs_are_bare_unless_words_are_asked_for():
    """Words are a wish: without it neither the back nor the facts have any."""
    for piece in strips():
        assert behind(piece) == []
        assert (piece.facts.words, piece.facts.phrases) == ({}, {})


@pytest.mark.parametrize(
    ("words", "operation", "says"),
    [
        ("number", "add", {"en": "two", "pl": "dwa"}),
        ("phrase", "add", {"en": "two crabs", "pl": "dwa kraby"}),
        ("phrase", "subtract", {"en": "one crab", "pl": "jeden krab"}),
    ],
)
def test_the_back_says_the_result(words, operation, says):
    """Under the whole equation stands its result, in each language, in the thin gray of the back."""
    child = {"theme": "rock-pool", "languages": ["en", "pl"], "sums_to": 2}
    (piece,) = strips(child, words=words, operation=operation, motif="crab")
    assert behind(piece) == list(says.values())
    assert (piece.facts.phrases or piece.facts.words) == says
    assert list(piece.facts.words) == ["en", "pl"]
    assert {mark.color for mark in piece.back.marks[1:]} == {(0.5,)}
    assert behind(strips(child, own=1, words=words)[-1]) == []


@given(sets(), st.sampled_from(("number", "phrase")), st.booleans())
def test_words_behind_have_room(asked, words, two):
    """On every size of strip the words lie inside, below the equation and within the control."""
    child, settings = asked
    child |= {"theme": "rock-pool", "languages": ["de", "pl"] if two else ["es"]}
    made = made_of(tray("strips", child, **settings, words=words))
    assume(made.pieces)
    for piece in made.pieces:
        check_insets(piece)
        if piece.control is None:
            continue
        marks = [mark for mark in piece.back.marks[1:] if isinstance(mark, Text)]
        assert all(piece.control.holds(mark.bounds(), 1e-3) for mark in piece.back.marks[1:])
        bounds = [mark.bounds() for mark in marks]
        assert not any(one.meets(other) for i, one in enumerate(bounds) for other in bounds[:i])
        equation = [mark for mark in marks if not mark.run.text[0].isalpha()]
        said = marks[len(equation) :]
        assert max(mark.y for mark in equation) < min(mark.bounds().top for mark in said)
        wanted = [piece.facts.phrases.get(tag, word) for tag, word in piece.facts.words.items()]
        assert [mark.run.text for mark in said] == wanted
        pictured = any(isinstance(mark, Picture) for mark in piece.front.marks)
        assert set(piece.facts.phrases) <= (set(piece.facts.words) if words == "phrase" else set())
        assert pictured or not piece.facts.phrases


def test_nothing_is_named_that_is_not_drawn():
    """Without pictures there are no crabs to speak of: the number word alone, and check says so."""
    child = {"theme": "rock-pool", "sums_to": 2}
    made = made_of(tray("strips", child, words="phrase", help="none"))
    assert behind(made.pieces[0]) == ["two"]
    assert made.notes == ("no pictures are counted here, so the number words stand without a name",)


# --- read from the right ---------------------------------------------------------------------


def from_right(face):
    """The texts of a face from right to left."""
    return [mark.run.text for mark in reversed(texts(face))]


@given(sets())
def test_read_from_the_right_it_is_the_same_equation(asked):
    """Numbers, signs, boxes and groups change sides; facts, digits and distances stay as they are."""
    child, settings = asked
    left = made_of(tray("strips", child, **settings)).pieces
    right = made_of(tray("strips", child, **settings, equations="right-to-left")).pieces
    assume(left)

    assert [(piece.key, piece.facts) for piece in right] == [(piece.key, piece.facts) for piece in left]
    for one, two in zip(left, right, strict=True):
        check_insets(two)
        check_things(two)
        check_rules(two)
        for face, mirrored in ((one.front, two.front), (one.back, two.back)):
            assert from_right(mirrored) == [mark.run.text for mark in texts(face)]
            for mark, other in zip(face.marks, mirrored.marks, strict=True):
                here, there = mark.bounds(), other.bounds()
                middle = one.width - (there.left + there.right) / 2
                assert (here.left + here.right) / 2 == pytest.approx(middle, abs=0.01)
                assert tuple(here)[1:] == pytest.approx(tuple(there)[1:], abs=0.01)
                if isinstance(mark, Text):
                    assert mark.run.glyphs == other.run.glyphs


def test_five_take_away_three_from_the_right():
    """Read from the right the strip says 5, minus, 3, equals; the crossed things are the last ones."""
    pieces = strips(operation="subtract", count=45, equations="right-to-left")
    piece = next(piece for piece in pieces if piece.key == "5-3")
    things = sorted(mark.x for mark in piece.front.marks if isinstance(mark, Picture))

    assert from_right(piece.front) == ["5", MINUS, "3", "="]
    assert from_right(piece.back) == ["5", MINUS, "3", "=", "2"]
    assert all(line.x1 < things[3] for line in crosses(piece.front))
    assert answer_boxes(piece)[0].x < min(mark.x for mark in texts(piece.front))


@pytest.mark.parametrize("direction", ["ltr", "rtl"])
def test_the_leading_language_gives_the_direction(direction, monkeypatch):
    """Unless the tray says otherwise its leading language does, as the table of languages has it."""
    from dataclasses import replace

    from printkit.materials import strips as module
    from printkit.words import find

    def with_direction(tag, place):
        return replace(find(tag, place), equations=direction if tag == "de" else "ltr")

    monkeypatch.setattr(module, "find", with_direction)
    signs = {"ltr": ["2", "=", "1", "+", "1"], "rtl": ["1", "+", "1", "=", "2"]}
    child = {"languages": ["de", "en"], "sums_to": 2}

    assert from_right(strips(child)[0].back) == ["2", "=", "1", "+", "1"][:: 1 if direction == "ltr" else -1]
    assert from_right(strips(child, equations="left-to-right")[0].back) == signs["ltr"]
    assert from_right(strips(child | {"languages": ["en", "de"]})[0].back) == signs["ltr"]
