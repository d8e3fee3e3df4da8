"""The calendar: days where they belong, names as CLDR has them, tiles that fit the board."""

import subprocess
import sys
from dataclasses import replace

import pytest
from faces import assert_inside, assert_mark_is_clear, assert_numerals_stand_on_rules, numerals, texts
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import PLAIN_THEME, made_of, room_of, tray, written_languages

from printkit.errors import PrintkitError
from printkit.materials.calendar.board import CLEAR
from printkit.materials.calendar.names import (
    REGIONS,
    first_weekday,
    lead,
    month_length,
    names_in,
    region_of,
    rows_of,
    starts_on,
    weekdays_from,
)
from printkit.pieces import Box, Picture
from printkit.sheets import turned_to_fit

SUNDAY, MONDAY, SATURDAY = 7, 1, 6

# Babel 2.18 over CLDR 48 and Python's calendar, as tabled in the reference facts: rows of a month where
# weeks begin on Sunday, Monday, Saturday.
ROWS = {
    (2026, 2): (4, 5, 5), (2027, 2): (5, 4, 5), (2026, 3): (5, 6, 5),
    (2026, 5): (6, 5, 6), (2026, 8): (6, 6, 5), (2030, 12): (5, 6, 5),
}  # fmt: skip

# CLDR, week data: regions whose weeks begin on Sunday, Monday, Saturday.
BEGIN = {
    SUNDAY: ("US", "MX", "BR", "JP", "SG", "IL", "IN"),
    MONDAY: ("GB", "ES", "FR", "DE", "IT", "NL", "PL", "RU", "CN", "AO", "CV"),
    SATURDAY: ("EG", "AF"),
}

# CLDR 48, names that stand alone (January and Monday); from memory where Babel is not the source.
NAMES = {
    "en": ("January", "Monday"), "es": ("enero", "lunes"), "fr": ("janvier", "lundi"),
    "pt-BR": ("janeiro", "segunda-feira"), "pl": ("styczeń", "poniedziałek"), "ru": ("январь", "понедельник"),
    "cs": ("leden", "pondělí"), "az": ("yanvar", "bazar ertəsi"), "cy": ("Ionawr", "Dydd Llun"),
    "de": ("Januar", "Montag"), "it": ("gennaio", "lunedì"), "nl": ("januari", "maandag"),
}  # fmt: skip


def pieces_of(kind, made):
    """The pieces of one kind: board, day, month, weekday."""
    return [piece for piece in made.pieces if piece.facts.kind == kind]


def leap(year):
    """The Gregorian rule."""
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


# --- dates -----------------------------------------------------------------------------------


def test_four_hundred_years_counted_day_by_day():
    """From Saturday, 1 January 2000, every month of 400 years has its length and begins on its weekday."""
    lengths = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    weekday = SATURDAY
    for year in range(2000, 2400):
        for month, usual in enumerate(lengths, 1):
            days = usual + (month == 2 and leap(year))
            assert (month_length(year, month), starts_on(year, month)) == (days, weekday)
            weekday = (weekday - 1 + days) % 7 + 1
    assert weekday == SATURDAY


@pytest.mark.parametrize("year_month", ROWS)
def test_rows_of_months(year_month):
    """February 2026 takes four rows from Sunday, August 2026 takes six, and the others of the table."""
    found = tuple(rows_of(*year_month, begin) for begin in (SUNDAY, MONDAY, SATURDAY))

    assert found == ROWS[year_month]


def test_a_month_takes_four_to_six_rows():
    """No month of 400 years needs another number of rows, wherever weeks begin; all three occur."""
    found = {
        rows_of(year, month, begin)
        for year in range(1900, 2200)
        for month in range(1, 13)
        for begin in range(1, 8)
    }

    assert found == {4, 5, 6}


@pytest.mark.parametrize("begin", BEGIN)
def test_weeks_begin_by_region(begin):
    """Sunday, Monday or Saturday, as CLDR has it for the region."""
    assert {first_weekday(region) for region in BEGIN[begin]} == {begin}


def test_every_region_begins_its_week_somewhere():
    """All regions have a first weekday, among those that CLDR knows; an unknown one that of the world."""
    assert {first_weekday(region) for region in REGIONS[::9]} <= {MONDAY, 5, SATURDAY, SUNDAY}
    assert first_weekday("AQ") == MONDAY
    assert len(set(REGIONS)) == len(REGIONS) == 249  # ISO 3166-1


@pytest.mark.parametrize(
    ("tag", "region"),
    [("en", "US"), ("en-IN", "IN"), ("pt-PT", "PT"), ("sr-Latn", "RS"), ("ar", "EG"), ("fa-AF", "AF")],
)
def test_a_language_without_region_has_its_likeliest(tag, region):
    """The tag's own region, else the one of CLDR's likely subtags."""
    assert region_of(tag) == region


# --- names -----------------------------------------------------------------------------------


@pytest.mark.parametrize("tag", NAMES)
def test_names_stand_alone(tag):
    """January and Monday in the form and the case in which they stand alone."""
    names = names_in(tag)

    assert (names.month(1), names.weekday(1)) == NAMES[tag]


def test_names_do_not_hang_on_what_was_read_before():
    """Read in one go or each in a process of its own, a language has the same names."""
    tags = ("az", "kk", "en", "bg", "th", "sw", "de", "ar")
    here = {tag: (names_in(tag).months, names_in(tag).weekdays) for tag in tags}
    code = (
        "import sys; from printkit.materials.calendar.names import names_in as n; "
        "t = sys.argv[1]; sys.stdout.buffer.write(repr((n(t).months, n(t).weekdays)).encode())"
    )
    for tag in ("en", "bg", "sw"):
        alone = subprocess.run([sys.executable, "-c", code, tag], capture_output=True, check=True).stdout
        assert alone.decode() == repr(here[tag])


def test_every_written_language_has_whole_names_or_none():
    """Twelve different months and seven different weekdays, each of them with letters."""
    for tag in written_languages(range(3)):
        names = names_in(tag)
        if names is None:
            continue
        assert len(set(names.months)) == 12
        assert len(set(names.weekdays)) == 7
        assert all(name.strip() == name != "" for name in (*names.months, *names.weekdays))
        assert not any(
            name.startswith("M0") or name in ("Mon", "Sun") for name in (*names.months, *names.weekdays)
        )


def test_names_that_cannot_be_written_stand_in_english():
    """Without letters for the names the set says so; a second language alone then has the labels."""
    alone, second = (made_of(tray("calendar", {"languages": tags})) for tags in (["ja"], ["ja", "es"]))

    assert alone.notes == (
        "the names of months and weekdays cannot be written in ja, so they stand in English",
    )
    assert second.notes == ("the names of months and weekdays cannot be written in ja, so they are left out",)
    assert pieces_of("month", alone)[2].facts.names == {"en": "March"}
    assert pieces_of("month", second)[2].facts.names == {"es": "marzo"}


# --- what is made ----------------------------------------------------------------------------


def test_a_set_has_every_tile_and_label_once():
    """31 tiles, 12 months, 7 weekdays from the first of the week on, and the board."""
    made = made_of(tray("calendar", {"languages": ["en", "pl"]}, region="GB"))

    assert [piece.facts.day for piece in pieces_of("day", made)] == list(range(1, 32))
    assert [piece.facts.month for piece in pieces_of("month", made)] == list(range(1, 13))
    assert [piece.facts.weekday for piece in pieces_of("weekday", made)] == [1, 2, 3, 4, 5, 6, 7]
    assert pieces_of("weekday", made)[1].facts.names == {"en": "Tuesday", "pl": "wtorek"}
    assert sum(len(piece.facts.columns) for piece in pieces_of("board", made)) == 7


def test_labels_and_tiles_show_what_they_are():
    """The numeral of its day on each tile, the names of its facts on each label."""
    made = made_of(tray("calendar", {"languages": ["en", "ar"]}))

    for piece in pieces_of("day", made):
        assert [text.run.text for text in texts(piece.front)] == [str(piece.facts.day)]
    for piece in (*pieces_of("month", made), *pieces_of("weekday", made)):
        assert [text.run.text for text in texts(piece.front)] == list(piece.facts.names.values())


@settings(max_examples=20)
@given(
    st.integers(1900, 2199), st.integers(1, 12), st.sampled_from(["US", "GB", "EG", "MV"]),
    st.sampled_from(["en", "he"]),
)  # fmt: skip
def test_every_day_lies_under_its_weekday(year, month, region, tag):
    """On a dated board each numeral stands in the column of its weekday and the row of its week."""
    asked = tray("calendar", {"languages": [tag]}, month=month, year=year, region=region)
    made = made_of(asked)
    days = {}
    for board in pieces_of("board", made):
        wide = (board.width - 12) / len(board.facts.columns)
        for text in numerals(board.front):
            if int(text.run.text) > 31:
                assert int(text.run.text) == year
                continue
            box = text.bounds()
            column = int((box.left + box.width / 2 - 6) // wide)
            days[int(text.run.text)] = (board.facts.columns[column], round(text.y, 1))

    first = starts_on(year, month)
    lines = sorted({base for _, base in days.values()})
    assert sorted(days) == list(range(1, month_length(year, month) + 1))
    for day, (weekday, base) in days.items():
        assert weekday == (first - 1 + day - 1) % 7 + 1
        week = (lead(year, month, first_weekday(region)) + day - 1) // 7
        assert lines.index(base) == week


def test_weeks_run_from_the_right_where_the_language_does():
    """In Hebrew the first day of the week is the column at the right end."""
    made = made_of(tray("calendar", {"languages": ["he"]}))
    columns = [weekday for board in pieces_of("board", made) for weekday in board.facts.columns]

    assert columns == list(reversed(weekdays_from(SUNDAY)))


@pytest.mark.parametrize("paper", ["a3", "a4", "letter", "a5"])
@pytest.mark.parametrize("dates", [{}, {"month": 8, "year": 2026, "marks": [1, 9]}])
def test_tiles_and_labels_fit_their_places(paper, dates):
    """Each place is 1.4 mm larger than what lies on it, and there is one for every day."""
    made = made_of(tray("calendar", {"paper": paper}, **dates))
    day, label = pieces_of("day", made)[0], pieces_of("month", made)[0]
    boxes = [
        mark for board in pieces_of("board", made) for mark in board.front.marks
        if isinstance(mark, Box) and mark.radius == 1.8
    ]  # fmt: skip

    def holds(piece):
        size = (piece.width + CLEAR - 0.6, piece.height + CLEAR - 0.6)
        return [box for box in boxes if (box.width, box.height) == pytest.approx(size, abs=0.002)]

    assert len(holds(day)) == (31 if dates else 42)
    assert len(holds(label)) == 2


def test_tiles_are_no_small_parts_on_common_paper():
    """On A4 and Letter a tile is wider and higher than the 31.75 mm of the test cylinder (16 CFR 1501.4)."""
    for paper in ("a4", "letter"):
        tile = pieces_of("day", made_of(tray("calendar", {"paper": paper})))[0]

        assert min(tile.width, tile.height) > 31.75


@pytest.mark.parametrize("paper", ["a3", "a4", "letter", "legal", "a5", [150, 200], [123.45678, 210.98765]])
@pytest.mark.parametrize("size", [None, "small"])
def test_every_face_keeps_its_distances(paper, size):
    """One hairline, all else 6 mm inside the cut, numerals on rules, nothing under the set mark."""
    child = {"paper": paper, "languages": ["pt-BR", "de"], "theme": "first-snow", "numbers": [60, 99]}
    asked = tray("calendar", child, month=5, year=2026, marks=[1, 31], **({"size": size} if size else {}))
    made = made_of(asked)

    assert made.problems == ()
    for piece in made.pieces:
        assert turned_to_fit(piece, room_of(asked)) is not None
        assert_inside(piece)
        assert_mark_is_clear(piece, backs=False)
        assert_numerals_stand_on_rules(piece.front)


def test_nothing_touches_on_a_tile():
    """Numeral, picture and the bar of a marked day lie clear of each other."""
    for paper in ("a4", "a3", "a5"):
        made = made_of(
            tray("calendar", {"paper": paper, "theme": "kitchen-garden"}, marks=list(range(1, 32)))
        )
        for piece in pieces_of("day", made):
            bounds = [mark.bounds() for mark in piece.front.marks[1:]]
            assert piece.facts.marked is True
            for i, one in enumerate(bounds):
                assert not any(one.meets(other) for other in bounds[:i])


def test_tiles_without_room_for_a_picture_say_so():
    """On small paper the numeral comes before the picture, and check tells."""
    small, usual = (made_of(tray("calendar", {"paper": paper})) for paper in ([150, 200], "a4"))

    assert small.notes == ("the tiles are too small for a picture beside the numeral",)
    assert not any(isinstance(mark, Picture) for mark in pieces_of("day", small)[0].front.marks)
    assert usual.notes == ()
    assert any(isinstance(mark, Picture) for mark in pieces_of("day", usual)[0].front.marks)


def test_no_clock_is_read():
    """The same pack makes the same pieces whenever it is made, and no month but the one asked for."""
    asked = tray("calendar")

    assert made_of(asked) == made_of(asked)
    assert pieces_of("board", made_of(asked))[0].facts.month is None
    assert {piece.facts.year for piece in made_of(asked).pieces} == {None}


# --- bad input -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wrong", "found", "allowed"),
    [
        (
            {"month": 2, "year": 2027, "marks": [14, 29]},
            "month 2 of 2027 has no day 29",
            "1 to 28",
        ),
        (
            {"month": 2},
            "month = 2 stands without a year",
            "month and year together, or neither for a board without dates",
        ),
        (
            {"year": 2027},
            "year = 2027 stands without a month",
            "month and year together, or neither for a board without dates",
        ),
        (
            {"size": [20, 20]},
            "no board for tiles of the size 20 x 20 mm fits the sheet",
            "tiles from 22 x 19 mm up; 43.1 x 32 mm fit",
        ),
        ({"motif": "discs"}, "the theme has no motif 'discs'", "disc, square, brick, tower, corner or flag"),
    ],
)
def test_what_cannot_be_made_is_told(wrong, found, allowed):
    """A day that the month lacks, a month without its year, tiles too small."""
    (problem,) = made_of(tray("calendar", {"theme": PLAIN_THEME}, **wrong)).problems

    assert (problem.found, problem.allowed) == (found, allowed)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"month": 13, "year": 2026}, "found 13; allowed: a whole number from 1 to 12"),
        ({"month": 2, "year": 1582}, "found 1582; allowed: a whole number from 1900 to 2199"),
        ({"region": "XX"}, "found 'XX'; allowed: a region in two letters, such as GB, MX or US"),
        ({"marks": [32]}, "found 32; allowed: a whole number from 1 to 31"),
    ],
)
def test_what_does_not_exist_is_refused_when_read(wrong, said):
    """No month 13, no region XX, no day 32: the sentence says which would do."""
    with pytest.raises(PrintkitError) as refused:
        tray("calendar", **wrong)

    (problem,) = refused.value.problems
    assert f"{problem.found}; allowed: {problem.allowed}" == said


def test_regions_are_read_in_any_case():
    """gb and UK are GB."""
    assert [tray("calendar", region=word).settings.region for word in ("gb", "UK", "GB")] == ["GB"] * 3


def test_a_leap_day_can_be_marked():
    """29 February stands in 2028, and not in 2100."""
    asked = tray("calendar", month=2, year=2028, marks=[29])

    assert pieces_of("board", made_of(asked))[0].facts.marked == (29,)
    assert made_of(replace(asked, settings=replace(asked.settings, year=2100))).problems
