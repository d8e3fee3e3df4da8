"""The rule of climbing on one ladder: what was seen -> what comes next, and why."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.climbing import Seen, judge
from printkit.journal import RESULTS

START = date(2026, 9, 1)
AT = 3
LETTERS = {"s": "sure", "g": "growing", "n": "not-yet", "u": "unused"}


def seen(text: str) -> list[Seen]:
    """'s g 4n 2s': a note a day, on rung 3 unless a number says otherwise; '=' joins notes of one day."""
    notes = []
    for number, day in enumerate(text.split()):
        for note in day.split("="):
            level = int(note[:-1]) if note[:-1].isdecimal() else AT
            theme = "night-sky" if "*" in note else "rock-pool"
            material = "dominoes" if "+" in note else "clip-cards"
            notes.append(
                Seen(
                    on=START + timedelta(days=number),
                    level=level,
                    result=LETTERS[note[-1]],
                    theme=theme,
                    material=material,
                )
            )
    return notes


@pytest.mark.parametrize(
    ("story", "move", "reason"),
    [
        ("", "stay", "no-note"),
        ("s", "stay", "sure-once"),
        ("s=s", "stay", "sure-once"),
        ("s s", "up", "sure"),
        ("s g s", "up", "sure"),
        ("s s s", "up", "sure"),
        ("n s s", "up", "sure"),
        ("n n s s", "up", "sure"),
        ("s s u", "up", "sure"),
        ("g", "stay", "growing"),
        ("g g g g g", "stay", "growing"),
        ("s s g", "stay", "growing"),
        ("s s=g", "stay", "growing"),
        ("n", "stay", "hard-once"),
        ("n=n", "stay", "hard-once"),
        ("s n", "stay", "hard-once"),
        ("s n s", "stay", "sure-once"),
        ("n g n", "stay", "hard-once"),
        ("n n", "back", "hard"),
        ("s s n n", "back", "hard"),
        ("n u n", "back", "hard"),
        ("n n u", "back", "hard"),
        ("n n g", "stay", "growing"),
        ("u", "stay", "unused"),
        ("s u", "stay", "unused"),
        ("u u u", "stay", "unused"),
        ("u s", "stay", "sure-once"),
        ("u=s", "stay", "sure-once"),
        ("u *u", "stay", "unused-again"),
        ("u *u *+u", "rest", "unused-still"),
        ("u *u s *+u", "stay", "unused"),
        # other rungs of the same ladder
        ("2s 2s", "stay", "no-note"),
        ("2s 2s s s", "up", "sure"),
        ("s 2s s", "up", "sure"),
        ("s s 4n 4n", "stay", "no-note"),
        ("s s 4n 4n s", "stay", "sure-once"),
        ("s s 4n 4n s s", "up", "sure"),
        ("n n 2s 2s n", "stay", "hard-once"),
        ("n n 2s 2s n n", "back", "hard"),
        ("n 2s n", "back", "hard"),
    ],
)
def test_what_was_seen_and_what_comes_next(story, move, reason):
    """The whole table of the rule: two sure days go on, two hard days in a row go back, else it stays."""
    verdict = judge(seen(story), AT)

    assert (verdict.move, verdict.reason) == (move, reason)


def test_the_days_are_those_of_the_reason():
    """A verdict tells the days it rests on."""
    assert judge(seen("n s g s"), AT).days == (START + timedelta(days=1), START + timedelta(days=3))


def test_after_a_long_pause_it_starts_anew():
    """Hard days from before a rest of four weeks do not count with those after it."""
    before = seen("n n")
    weeks = [Seen(on=START + timedelta(days=1, weeks=pause), level=AT, result="not-yet") for pause in (3, 4)]

    assert [judge([*before, late], AT).reason for late in weeks] == ["hard", "hard-once"]


def test_at_the_ends_of_the_ladder_it_rests():
    """Nothing harder: what is sure rests. Nothing easier: what is too hard rests."""
    last, first = judge(seen("s s"), AT, last=True), judge(seen("n n"), AT, first=True)

    assert (last.move, last.reason) == ("rest", "sure-at-last")
    assert (first.move, first.reason) == ("rest", "hard-at-first")


@pytest.mark.parametrize(("story", "change"), [("u", "theme"), ("u *u", "material"), ("g", "")])
def test_left_lying_changes_all_but_the_level(story, change):
    """First the theme changes, then the material; never the rung."""
    verdict = judge(seen(story), AT)

    assert (verdict.move, verdict.change) == ("stay", change)


stories = st.lists(
    st.builds(
        Seen,
        on=st.integers(0, 12).map(lambda days: START + timedelta(days=days)),
        level=st.integers(2, 4),
        result=st.sampled_from(RESULTS),
        theme=st.sampled_from(["rock-pool", "night-sky"]),
        material=st.sampled_from(["clip-cards", "dominoes"]),
    ),
    max_size=12,
)


@given(stories, st.randoms())
def test_the_order_of_lines_does_not_matter(notes, chance):
    """Journals of two houses can be put together in any order."""
    mixed = list(notes)
    chance.shuffle(mixed)

    assert judge(mixed, AT) == judge(notes, AT)


@given(stories)
def test_left_lying_alone_never_changes_the_level(notes):
    """Whatever was seen elsewhere: notes that only say 'unused' on this rung move nobody up or back."""
    lying = [note for note in notes if note.level != AT or note.result == "unused"]

    assert judge(lying, AT).move in ("stay", "rest")
