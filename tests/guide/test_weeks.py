"""The guide week by week: who gets what on which day and why, and the tables."""

import re
from functools import cache

import pytest
from guide.guides import pages_of, texts_of, whole_text
from strategies import PLAIN_THEME, read

from printkit.build import Plan, plan
from printkit.guide.weeks import plan_of
from printkit.pieces import Box, Dot
from printkit.planner.days import days, leaving

KEYS = {
    "title": "Rock pool summer",
    "theme": PLAIN_THEME,
    "children": [
        {
            "name": "Wren",
            "numbers": [1, 4],
            "materials": [
                "counting-cards",
                {"make": "counting-cards", "set": "count out", "things": "places"},
                "clip-cards",
                {"make": "sizes", "size": "small"},
                "halves",
                "paths",
                {"make": "lacing", "count": 1},
                "odd-one-out",
            ],
        },
        {"name": "Juno", "numbers": [6, 8], "sums_to": 8, "materials": ["clip-cards", "strips", "tiles"]},
    ],
}
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday")


@cache
def season_pack(weeks: int = 5, paper: str = "a4") -> Plan:
    """Two children, the younger with more than fits on a shelf."""
    return plan(read({**KEYS, "weeks": weeks, "paper": paper}))


@cache
def page_texts(weeks: int = 5, paper: str = "a4") -> list[str]:
    """The text of each page."""
    return texts_of(pages_of(season_pack(weeks, paper)))


def week_text(number: int, weeks: int = 5) -> str:
    """What is said of a week, up to the next one."""
    text = " ".join(page_texts(weeks))
    begin = re.search(rf"Week {number} from ", text).end()
    end = re.search(rf"Weeks? {number + 1} |Keys For you|$", text[begin:]).start()
    return text[begin : begin + end]


@pytest.mark.parametrize("number", [1, 2, 3, 4])
def test_each_move_is_told_on_its_day(number):
    """What comes out and what goes in is told under its day, with child, tray and reason."""
    made = season_pack()
    text = week_text(number)
    for day in days(plan_of(made.pack, made.sets), number):
        if not day.events:
            continue
        part = text[text.index(DAYS[day.number - 1]) :]
        part = part[: min([part.index(name) for name in (*DAYS[day.number :], "Look for") if name in part])]
        for event in day.events:
            assert f"{event.child}: put out and show " in part
            assert part.count("Into the basket: ") == sum(bool(e.away) for e in day.events)


def test_tuesday_of_the_third_week_by_hand():
    """A stranger reads who gets what on that Tuesday, what goes, and why."""
    assert re.search(
        r"Monday .*? Juno: nothing comes or goes this week\. Tuesday Wren: put out and show Lacing "
        r"\(page \d+\), the next for the hands, after Halves\. Into the basket: Counting cards, out since "
        r"week 1\. On the shelf now for counting: “count out”\. Wednesday",
        week_text(3),
    )


def test_every_tray_on_the_shelf_has_a_row_of_four_boxes():
    """Each week's table has a row a tray out for a day or more, with a box for each of the four words."""
    made = season_pack()
    pages = pages_of(made)
    for item in plan_of(made.pack, made.sets).children[0].weeks[:4]:
        number = next(place for place, text in enumerate(page_texts()) if f"Week {item.number} from" in text)
        season = plan_of(made.pack, made.sets)
        weeks = [child.weeks[item.number - 1] for child in season.children]
        out = sum(len(week.out) for week in weeks if week.changes)
        out += sum(len(leaving(season, item.number, child.child)) for child in season.children)
        boxes = [mark for mark in pages[number].marks if isinstance(mark, Box) and mark.width == mark.height]
        assert len(boxes) == 4 * out
        assert "Date sure growing not yet unused In a word" in page_texts()[number]


def test_a_week_is_one_page_for_all_children():
    """Five weeks take six pages at most: the plan at a glance, and a page each."""
    found = [
        place
        for place, text in enumerate(page_texts())
        if re.search(r"Week \d from|Week by week One|At a glance", text)
    ]

    assert len(found) <= 6
    assert found == list(range(found[0], found[0] + len(found)))


def test_the_plan_at_a_glance_has_a_dot_for_each_week_out():
    """As many full dots as sets, rings for the other weeks out, and a dot in a ring where one comes back."""
    made = season_pack()
    number = next(place for place, text in enumerate(page_texts()) if "At a glance" in text)
    plan_ = plan_of(made.pack, made.sets)
    weeks = [week for child in plan_.children for week in child.weeks]
    dots = [mark for mark in pages_of(made)[number].marks if isinstance(mark, Dot)]
    full = [dot for dot in dots if dot.fill is not None and dot.radius == 1.35]
    rings = [dot for dot in dots if dot.fill is None]

    new, back = sum(len(week.new) for week in weeks), sum(len(week.back) for week in weeks)
    assert len(full) == new + 1  # one more in the legend
    goes = sum(
        len(leaving(plan_, week.number, child.child)) for child in plan_.children for week in child.weeks
    )
    assert len(rings) == sum(len(week.out) for week in weeks) + goes - new + 3
    assert back > 0 and goes > 0


def test_a_tray_that_leaves_on_a_later_day_has_a_row_until_then():
    """In the week in which a tray leaves on Tuesday there is a row to tick what was seen before."""
    assert "Counting cards until Tuesday" in week_text(3)


def test_weeks_without_a_change_are_one_line():
    """Weeks in which nothing comes or goes are told together, with the page of the table to print again."""
    text = " ".join(page_texts(12))
    found = re.search(
        r"Weeks? (\d+)(?: and | to )?(\d*) Nothing comes or goes\. Keep .*? print page (\d+) once more", text
    )

    assert found
    assert "On the shelf this week" in page_texts(12)[int(found[3]) - 1]


def test_few_trays_all_stay_and_the_guide_says_so():
    """Where all fit on the shelf, that is said, and the last week is the favorites' all the same."""
    child = {"name": "Wren", "numbers": [1, 3], "materials": ["counting-cards", "clip-cards"]}
    text = whole_text(plan(read({"theme": PLAIN_THEME, "children": [child]})))

    assert "All of Wren’s trays fit on the shelf: once out, each stays out." in text
    assert "Weeks 2 to 5 Nothing comes or goes." in text
    assert "Week 6 Nothing comes or goes. The last week belongs to the favorites" in text


def test_too_many_trays_for_the_weeks_are_told():
    """The guide names the number of weeks that would be calm."""
    text = " ".join(page_texts(3))

    assert "Wren has many trays for 3 weeks" in text
    assert "With weeks = 4 there is time for all." in text


@pytest.mark.parametrize("paper", ["a5", "a4", "letter", "a3"])
def test_the_tables_fit_the_paper(paper):
    """On every paper the heads of the table to tick are on one line, the words of the journal in order."""
    assert any("sure growing not yet unused" in text for text in page_texts(5, paper))


def test_a_calendar_of_one_month_is_begun_with_that_month():
    """What hangs is new in the week it goes up; a board of one month waits for its first day."""
    for keys in ({}, {"month": 4, "year": 2027}):
        own = ["counting-cards", "clip-cards", {"make": "calendar", **keys}]
        child = {"name": "Wren", "numbers": [1, 10], "materials": own}
        other = {**KEYS["children"][0], "name": "Pim"}
        made = plan(read({"theme": PLAIN_THEME, "weeks": 5, "children": [child, other]}))
        text = whole_text(made)

        assert "Calendar new on Monday" in text
        assert ("begin it on the first day of that month" in text) is bool(keys)


def test_the_places_of_the_shelf_are_stated():
    """The guide says how many places a child's shelf has: as many as are ever out at once."""
    assert "Places on the shelf for each child: about 6." in " ".join(page_texts())


@pytest.mark.parametrize("number", [1, 2, 3, 4])
def test_each_new_tray_has_something_to_look_for(number):
    """Each tray that is new in a week has a sentence on what to look for, or the week says where they are."""
    made = season_pack()
    text = week_text(number)
    part = text[text.index("Look for") : text.index("On the shelf this week")]
    new = sum(len(item.weeks[number - 1].new) for item in plan_of(made.pack, made.sets).children)

    told = len(re.findall(r"\((?:Wren|Juno)\):", part))
    assert told == new or (told < new and "stands on its page" in part)


def test_a_child_without_a_change_has_one_line_instead_of_rows():
    """Where nothing changes for a child, a line names the week and the page of its table."""
    found = re.search(
        r"Juno: the same trays as in week 1\. To tick them, print page (\d+) once more", week_text(3)
    )

    assert found
    assert "Week 1 from" in page_texts()[int(found[1]) - 1]
