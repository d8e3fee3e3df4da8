"""A note is one line, readable by people, and nothing of it is lost on the way there and back."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from printkit.journal import RESULTS, Entry, entry_line, parse

texts = st.text(max_size=40)
names = texts.filter(lambda text: text.strip() != "")
flat = st.booleans() | st.integers(-50, 200) | st.floats(-99, 99) | texts
keys = st.from_regex(r"[a-z_]{1,12}", fullmatch=True)
entries = st.builds(
    Entry,
    on=st.dates(),
    child=names,
    set=names,
    result=st.sampled_from(RESULTS),
    played=st.lists(st.tuples(keys, flat | st.lists(flat, max_size=3).map(tuple)), max_size=5).map(tuple),
    title=texts,
    said=texts,
)


@given(entries)
def test_there_and_back(entry):
    """Names and words with upright lines, quotes, backslashes or line breaks come back as they were."""
    line = entry_line(entry)

    assert parse(line) == entry
    assert len(line.splitlines()) == 1


@given(entries.filter(lambda entry: entry.title), st.data())
def test_a_line_cut_off_is_no_note_or_says_the_same(entry, data):
    """A beginning of a line tells nothing that is not so: it is refused, or a short note that is true."""
    line = entry_line(entry)
    cut = parse(line[: data.draw(st.integers(0, len(line) - 1))])

    same = [(entry.on, entry.child, entry.set, entry.result)]
    assert isinstance(cut, str) or [(cut.on, cut.child, cut.set, cut.result)] == same
    assert isinstance(cut, str) or cut.played in ((), entry.played)


def test_the_line_reads_as_a_sentence_would():
    """The whole line of a usual note."""
    entry = Entry(
        on=date(2026, 11, 25),
        child="Wren",
        set="at a glance",
        result="not-yet",
        played=(
            ("make", "counting-cards"),
            ("numbers", (1, 5)),
            ("theme", "rock-pool"),
            ("arrange", ("dice", "line")),
        ),
        title="Rock pool summer",
        said='says "six" for 5',
    )

    assert entry_line(entry) == (
        '2026-11-25 | Wren | at a glance | not-yet | make counting-cards; numbers 1-5; theme rock-pool; '
        'arrange ["dice", "line"] | Rock pool summer | "says \\"six\\" for 5"'
    )  # fmt: skip


@pytest.mark.parametrize(
    "line",
    [
        "2026-11-25 | Wren | clip-cards | sure",
        "2026-11-25|Wren|clip-cards|SURE",
        '  2026-11-25 |  "Wren" | clip-cards | Sure | "all alone"  ',
        '2026-11-25 | Wren | clip-cards | sure | "one | two"',
        "2026-11-25 | Wren | clip-cards | sure | | | by hand",
    ],
)
def test_lines_by_hand(line):
    """Four parts do; spaces, capitals and quotes are taken as they come."""
    entry = parse(line)

    assert (entry.on, entry.child, entry.set) == (date(2026, 11, 25), "Wren", "clip-cards")
    assert entry.result == "sure"


def test_not_yet_is_read_in_every_spelling():
    """'not yet' and 'Not_Yet' are 'not-yet'."""
    written = [parse(f"2026-11-25 | Wren | clips | {word}") for word in ("not yet", "Not_Yet", "NOT-YET")]

    assert {entry.result for entry in written} == {"not-yet"}


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("hello", "has 1 part between its upright lines; 4 or 7 make a note"),
        (
            "2026-11-25 | Wren | clips | sure | numbers 1-1",
            "has 5 parts; 4 or 7 make a note, or 5 with the last one in quotes",
        ),
        (
            "2026-02-30 | Wren | clips | sure",
            "begins with '2026-02-30', which is no day such as 2026-11-25",
        ),
        ("20261125 | Wren | clips | sure", "begins with '20261125', which is no day such as 2026-11-25"),
        (
            "2026-11-25 | Wren | clips | grown",
            "has 'grown' where sure, growing, not-yet or unused stands; did you mean 'growing'?",
        ),
        ("2026-11-25 | | clips | sure", "does not name both the child and the set"),
        (
            '2026-11-25 | Wren | clips | sure | numbers [1, | Shelf | ""',
            "has 'numbers [1,' among the settings, where a name and a value stand",
        ),
        (
            '2026-11-25 | Wren | clips | sure | numbers 1-5 | Shelf | "half a wo',
            "opens a quote that never closes; perhaps it was cut off",
        ),
        ("2026-11-25 | Wren | clips | sure\\", "ends in a lone backslash; perhaps it was cut off"),
    ],
)
def test_what_is_no_note_says_why(line, why):
    """The whole sentence for each kind of broken line."""
    assert parse(line) == why
