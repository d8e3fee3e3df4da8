"""Pack and journal together: what is proposed for each child and ladder, and the sentence that says why."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from printkit.climbing import line, propose, words_of
from printkit.journal import parse
from printkit.materials import materials
from printkit.pack.reader import read_pack

TODAY = date(2026, 12, 1)


def pack(folder: Path, children: str):
    """The pack of these tables of children."""
    file = folder / "shelf.toml"
    file.write_text(f'title = "Shelf"\n{children}', encoding="utf-8")
    return read_pack(file, materials())


def child(name: str = "Wren", more: str = 'materials = ["clip-cards"]', numbers: str = "[1, 5]") -> str:
    """A child's table."""
    return f'[[children]]\nname = "{name}"\nnumbers = {numbers}\n{more}\n'


def notes(*lines: str) -> list:
    """Notes, short ones as by hand: '11-25 Wren clip-cards sure'."""
    made = []
    for text in lines:
        day, name, rest = text.split(" ", 2)
        set_name, result = rest.rsplit(" ", 1)
        made.append(parse(f"2026-{day} | {name} | {set_name} | {result}"))
    return made


def proposed(folder: Path, children: str, *lines: str, today: date = TODAY) -> list[tuple[str, str, str]]:
    """Sets, move and reason of each proposal."""
    made = propose(pack(folder, children), notes(*lines), materials(), today)
    return [(", ".join(each.sets), each.move, each.reason) for each in made]


SURE = ("11-24 Wren clip-cards sure", "11-25 Wren clip-cards sure")


@pytest.mark.parametrize(
    ("numbers", "more", "lines", "says"),
    [
        (
            "[1, 5]",
            'materials = [{ make = "clip-cards", arrange = "scatter" }]',
            SURE,
            "counting (clip-cards): widen: sure on two different days (2026-11-24, 2026-11-25): "
            "on to 4-10 (up to 10 things); 4-5 stay for confidence",
        ),
        (
            "[1, 5]",
            'materials = ["clip-cards"]',
            SURE,
            "counting (clip-cards): step up: sure on two different days (2026-11-24, 2026-11-25): "
            "on to things that lie as on a die, to be seen at once",
        ),
        (
            "[1, 5]",
            'materials = ["clip-cards"]',
            ("11-24 Wren clip-cards not-yet", "11-25 Wren clip-cards not-yet"),
            "counting (clip-cards): step back: not yet on two days in a row (2026-11-24, 2026-11-25): "
            "back to 1-3 (1 to 3 things in a line); what was hard comes back later",
        ),
        (
            "[1, 5]",
            'sums_to = 5\nmaterials = [{ make = "strips", unknown = "change" }]',
            ("11-24 Wren strips sure", "11-25 Wren strips sure"),
            "adding and taking away (strips): widen: sure on two different days (2026-11-24, 2026-11-25): "
            "on to sums to 10 (what makes ten)",
        ),
        (
            "[1, 5]",
            'materials = ["clip-cards"]',
            ("11-25 Wren clip-cards growing",),
            "counting (clip-cards): stay: growing (2026-11-25): it stays until it is sure",
        ),
        (
            "[1, 5]",
            'materials = ["clip-cards"]',
            ("11-25 Wren clip-cards unused",),
            "counting (clip-cards): stay: left lying (2026-11-25): another theme, the same level",
        ),
        (
            "[1, 3]",
            'materials = ["clip-cards"]',
            ("11-24 Wren clip-cards not-yet", "11-25 Wren clip-cards not-yet"),
            "counting (clip-cards): rest: not yet on two days in a row (2026-11-24, 2026-11-25), and nothing "
            "easier comes: it rests for 4 weeks",
        ),
        (
            "[1, 5]",
            'keep = ["clip-cards"]\nmaterials = ["clip-cards"]',
            SURE,
            "counting (clip-cards): stay: you said keep",
        ),
        (
            "[1, 5]",
            'skip = ["clip-cards"]\nmaterials = ["clip-cards"]',
            SURE,
            "counting (clip-cards): rest: you said skip",
        ),
    ],
)
def test_the_whole_sentence(tmp_path, numbers, more, lines, says):
    """Ladder, trays, move and the reason with its days, as they are printed."""
    shelf = pack(tmp_path, child(more=more, numbers=numbers))
    made = propose(shelf, notes(*lines), materials(), TODAY)

    assert [line(each, words_of(shelf)) for each in made] == [says]


def test_ladders_climb_separately(tmp_path):
    """Sure of counting, not yet at adding, growing in writing: each ladder goes its own way."""
    more = 'sums_to = 10\nmaterials = ["clip-cards", "strips", "tracing", "odd-one-out"]'
    lines = [*SURE, "11-24 Wren strips not-yet", "11-25 Wren strips not-yet", "11-25 Wren tracing growing"]

    assert proposed(tmp_path, child(more=more), *lines) == [
        ("clip-cards", "step-up", "sure"),
        ("strips", "step-back", "hard"),
        ("odd-one-out", "stay", "no-note"),
        ("tracing", "stay", "growing"),
    ]


def test_trays_of_one_rung_count_together(tmp_path):
    """One tray sure on one day, another one on another day: sure of the rung on two different days."""
    more = 'materials = ["clip-cards", "counting-cards"]'
    lines = ["11-24 Wren clip-cards sure", "11-25 Wren counting-cards sure"]

    assert proposed(tmp_path, child(more=more), *lines) == [("clip-cards, counting-cards", "step-up", "sure")]


def test_a_tray_without_notes_goes_along(tmp_path):
    """A tray of the same rung that was not noted goes to the same next rung; one with another next stays."""
    more = 'materials = ["clip-cards", "counting-cards", "dominoes"]'

    assert proposed(tmp_path, child(more=more), *SURE) == [
        ("clip-cards, counting-cards", "step-up", "sure"),
        ("dominoes", "stay", "no-note"),
    ]


def test_a_tray_whose_own_notes_speak_against_it_stays(tmp_path):
    """One tray climbs by its own notes; the one that is growing is not dragged along."""
    more = 'materials = ["clip-cards", "counting-cards"]'
    lines = [*SURE, "11-26 Wren counting-cards growing"]

    assert proposed(tmp_path, child(more=more), *lines) == [
        ("clip-cards", "step-up", "sure"),
        ("counting-cards", "stay", "growing"),
    ]


def test_one_new_rung_at_a_time(tmp_path):
    """Two trays on different rungs could both bring something new: only one does, the other waits."""
    more = (
        'materials = [{ make = "clip-cards", arrange = "scatter" }, "compare", '
        '{ make = "counting-cards", arrange = "frame" }]'
    )
    lines = [*SURE, "11-24 Wren compare sure", "11-25 Wren compare sure", "11-26 Wren compare sure"]
    lines += ["11-24 Wren counting-cards sure", "11-25 Wren counting-cards sure"]
    made = propose(pack(tmp_path, child(more=more)), notes(*lines), materials(), TODAY)

    assert {each.sets[0]: (each.move, each.reason, each.to.name) for each in made} == {
        "clip-cards": ("widen", "sure", "count-4-10"),
        "counting-cards": ("step-up", "sure", "scattered-1-5"),
        "compare": ("widen", "sure", "count-4-10"),
    }


def test_the_other_new_rung_waits(tmp_path):
    """What would be a second new rung at once waits; what was sure on more days goes first."""
    more = 'materials = ["clip-cards", "dominoes"]'
    both = [*SURE, "11-24 Wren dominoes sure", "11-25 Wren dominoes sure"]
    first = proposed(tmp_path, child(more=more), *both)
    later = proposed(tmp_path, child(more=more), *both, "11-26 Wren dominoes sure")

    assert first == [("clip-cards", "step-up", "sure"), ("dominoes", "stay", "waits")]
    assert later == [("clip-cards", "stay", "waits"), ("dominoes", "widen", "sure")]


def test_the_next_step_may_lie_there_already(tmp_path):
    """A tray that would become the twin of another one rests; one chosen again and again stays."""
    more = (
        'sums_to = 10\nmaterials = [{ make = "strips", set = "plus" }, '
        '{ make = "strips", set = "minus", operation = "subtract" }]'
    )
    lines = ["11-24 Wren plus sure", "11-25 Wren plus sure"]
    rests = proposed(tmp_path, child(more=more), *lines)
    stays = proposed(tmp_path, child(more=more), *lines, "11-26 Wren plus sure")

    assert ("plus", "rest", "sure-there") in rests
    assert ("plus", "stay", "sure-there") in stays


def test_chosen_for_its_own_sake(tmp_path):
    """Sure on three days, so the child chose it again: it stays beside the new one."""
    made = propose(pack(tmp_path, child()), notes(*SURE, "11-26 Wren clip-cards sure"), materials(), TODAY)

    assert [(each.move, each.again) for each in made] == [("step-up", ("clip-cards",))]


@pytest.mark.parametrize(("result", "move"), [("sure", "stay"), ("unused", "rest")])
def test_a_repetition_stays_as_long_as_it_is_used(tmp_path, result, move):
    """A tray that is only repeated never climbs; it goes when it is left lying."""
    more = 'again = ["clip-cards"]\nmaterials = ["clip-cards"]'
    lines = [*SURE, f"11-26 Wren clip-cards {result}"]

    assert [each[1] for each in proposed(tmp_path, child(more=more), *lines)] == [move]


def test_what_rested_as_too_hard_comes_back(tmp_path):
    """Put away at the first rung: it rests for four weeks, then it is brought back as it was."""
    played = "make clip-cards; numbers 1-3"
    lines = [parse(f'2026-10-{day} | Wren | clips | not-yet | {played} | Shelf | ""') for day in (11, 12)]
    shelf = pack(tmp_path, child(more='materials = ["odd-one-out"]'))
    moves = []
    for weeks in (3, 4):
        day = date(2026, 10, 12) + timedelta(weeks=weeks)
        counting = propose(shelf, lines, materials(), day)[0]
        moves.append((counting.sets, counting.move, counting.reason))

    assert moves == [(("clips",), "rest", "resting"), (("clips",), "return", "rested")]


def test_notes_after_today_are_not_counted(tmp_path):
    """The day that is asked about ends what is looked at."""
    assert proposed(tmp_path, child(), *SURE, today=date(2026, 11, 24)) == [
        ("clip-cards", "stay", "sure-once")
    ]


def test_the_range_played_counts_not_the_one_of_today(tmp_path):
    """Two sure days on the numbers of last season say nothing about the new ones."""
    lines = [
        parse(f'2026-11-{day} | Wren | clip-cards | sure | make clip-cards; numbers 1-5 | Shelf | ""')
        for day in (24, 25)
    ]
    made = propose(pack(tmp_path, child(numbers="[4, 10]")), lines, materials(), TODAY)

    assert [(each.move, each.reason) for each in made] == [("stay", "no-note")]


def test_a_shared_tray_counts_for_each_child_alone(tmp_path):
    """Notes stay per child: what one of two is sure of moves only that one."""
    tables = (
        child("Wren", 'materials = ["odd-one-out"]')
        + child("Juno", 'materials = ["odd-one-out"]')
        + '[shared]\nwith = ["Wren", "Juno"]\nmaterials = ["clip-cards"]\n'
    )
    made = propose(pack(tmp_path, tables), notes(*SURE), materials(), TODAY)

    assert [(each.child, each.move) for each in made if each.track == "counting"] == [
        ("Wren", "step-up"),
        ("Juno", "stay"),
    ]


def test_lines_by_hand_that_make_no_sense_harm_nobody(tmp_path):
    """Unknown materials, ranges that are none, foreign settings: no error, and nothing is made of them."""
    played = [
        "make cliff-cards; numbers 1-5",
        "make clip-cards; numbers 5-1; sums_to 3",
        "make clip-cards; numbers [1, 2, 3]; arrange 7",
        "make tracing; line_height tall; fade 3; form 4",
        "make paths; width true; kinds 1-2",
        "make number-line; range twelve; numbers true",
        "make part-whole; total ten",
        "make [1, 2]",
        "numbers 1-5",
    ]
    lines = [parse(f'2026-11-25 | Wren | x | sure | {text} | Shelf | ""') for text in played]
    made = propose(pack(tmp_path, child()), lines, materials(), TODAY)

    assert [(each.move, each.reason) for each in made] == [("stay", "no-note")]
