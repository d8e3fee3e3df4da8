"""The pages of the guide: margins, type, headings, bookmarks, and what can be read on them."""

import io
import re
from dataclasses import replace
from itertools import combinations

import pypdf
import pytest
from guide.guides import SUMMER, pages_of, summer, texts_of, whole_text
from hypothesis import assume, given, settings
from strategies import PLAIN_THEME, legal_pack, read

from printkit.build import plan
from printkit.errors import PrintkitError
from printkit.guide.flow import LEAST_MARGIN, look_of
from printkit.pieces import Text
from printkit.texts import catalogue
from printkit.units import PAPERS, Rect
from printkit.writer import write

HANG = 1.0
"""mm that a letter's ink may hang over the end of its line, as the tail of a j does."""
ENGLISH = catalogue("en")
WIDE_NAME = "W" * 60
LABELS = ("Present", "Watch for", "Next step")
TALL_NAME = "Ågnés Šýlvia, a name as long as any name of any child may be"


def inside(page, paper, margin):
    """The part of a page on which the guide may print."""
    own = max(margin, LEAST_MARGIN) if (page.width, page.height) == paper else LEAST_MARGIN
    return Rect(0, 0, page.width, page.height).inset(own)


def strayed(made):
    """Marks of a guide that lie outside its margins."""
    return [
        (number, mark)
        for number, page in enumerate(pages_of(made), 1)
        for mark in page.marks
        if not inside(page, made.pack.paper, made.pack.margin).holds(mark.bounds(), HANG)
    ]


def overlapping(made):
    """Pairs of texts of a guide that run into each other."""
    found = []
    for number, page in enumerate(pages_of(made), 1):
        texts = [mark for mark in page.marks if isinstance(mark, Text) and mark.run.text.strip()]
        found += [
            (number, a.run.text, b.run.text)
            for a, b in combinations(texts, 2)
            if a.bounds().inset(0.02).meets(b.bounds())
        ]
    return found


# --- where marks lie -------------------------------------------------------------------------


@settings(max_examples=15)
@given(legal_pack(themes=(PLAIN_THEME,)))
def test_nothing_strays_and_no_text_overlaps(keys):
    """On any paper, for any pack, marks stay within the margins and texts keep clear of each other."""
    try:
        made = plan(read(keys))
    except PrintkitError:
        assume(False)

    assert strayed(made) == []
    assert overlapping(made) == []


@pytest.mark.parametrize("name", [WIDE_NAME, TALL_NAME])
@pytest.mark.parametrize("paper", ["a5", "a4", "letter"])
def test_the_longest_names_fit(name, paper):
    """Names of sixty characters are broken, never run over the edge or into other text."""
    child = {"name": name, "numbers": [1, 2], "materials": [{"make": "clip-cards", "set": name[::-1]}]}
    made = plan(read({"theme": PLAIN_THEME, "paper": paper, "units": "both", "children": [child]}))

    assert strayed(made) == []
    assert overlapping(made) == []


def test_paper_too_small_to_read_on_is_passed_over_for_a4():
    """With margins that leave less than 100 x 130 mm the guide is laid out on A4."""
    assert (look_of((100.0, 150.0), 5, (0.2,)).width, look_of((105.0, 148.0), 5, (0.2,)).height) == (
        PAPERS["a4"]
    )
    assert look_of(PAPERS["a5"], 5, (0.2,)).width == PAPERS["a5"][0]


@pytest.mark.parametrize("paper", ["a5", "a4", "letter", "legal", "a3"])
def test_no_heading_stands_last_on_a_page(paper):
    """The lowest line above the page number is never a heading."""
    for page in pages_of(summer(paper=paper)):
        texts = [mark for mark in page.marks if isinstance(mark, Text)]
        number, *rest = sorted(texts, key=lambda mark: -mark.y)
        lowest = [mark for mark in rest if mark.y == rest[0].y]

        assert number.run.text.isdigit()
        assert all(mark.run.size <= 3.8 for mark in lowest)


@pytest.mark.parametrize("color", [(0.95, 0.9, 0.2), (0.18, 0.44, 0.56), (1.0, 1.0, 1.0)])
def test_headings_can_be_read(color):
    """Headings in the theme's color have a contrast of 4.5 on white (WCAG 2.2, 1.4.3)."""

    def linear(value):
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    accent = look_of(PAPERS["a4"], 10, color).accent
    red, green, blue = accent if len(accent) == 3 else accent * 3
    luminance = 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)

    assert 1.05 / (luminance + 0.05) >= 4.5


def test_other_inks_have_no_color():
    """In gray and in outline every color of the guide's own marks is a gray."""
    for ink in ("gray", "outline"):
        marks = [mark for page in pages_of(summer(ink=ink)) for mark in page.marks]
        colors = {getattr(mark, "color", None) or getattr(mark, "fill", None) or (0,) for mark in marks}

        assert all(len(set(color)) == 1 for color in colors)


# --- what stands on them ---------------------------------------------------------------------


def test_the_first_page_shows_the_pack_at_a_glance():
    """Title, theme, every child, every tray with its range and its number of pieces."""
    made = summer()
    first = texts_of(pages_of(made))[0]

    assert first.startswith("Rock pool summer")
    assert "9 trays for Wren and Juno" in first
    for row in (
        "Counting cards numbers 1 to 5 5 card",
        "Counting cards: count out numbers 6 to 9 8 card",
        "Equation strips: take away taking away, up to 10 6 card",
        "Odd one out another thing, alike in color (level 2 of 6) 8 card",
        "Tracing numbers 1 to 5 5 plain paper",
    ):
        assert row in first


def test_every_file_is_named_with_its_sheets():
    """The table of files gives each file's name and how many sheets it takes; backs take none."""
    made = summer()
    text = whole_text(made)

    for file in made.files:
        sheets = "(same sheets)" if "-backs" in file.name else file.sheets
        assert f"{file.name} {sheets} {'card' if file.stock == 'card' else 'plain paper'}" in text


@pytest.mark.parametrize("flip", ["hand", "long", "none"])
def test_the_sheets_of_the_table_add_up(flip):
    """The figures in the table of files are together those of the total below it."""
    text = whole_text(summer(flip=flip))
    rows = re.findall(r"[\w-]+\.pdf (\d+) (card|plain paper) (?:on|off)", text)
    card, plain = (sum(int(n) for n, stock in rows if stock == name) for name in ("card", "plain paper"))

    assert f"In all {card} sheets of card and {plain} sheets of plain paper, size A4." in text


def test_sheets_are_counted_once_for_front_and_back():
    """Files of backs use no paper of their own: the total counts fronts and one-sided sheets."""
    made = summer()
    sheets = {
        stock: sum(f.sheets for f in made.files if f.stock == stock and "-backs" not in f.name)
        for stock in ("card", "plain")
    }

    assert (
        f"In all {sheets['card']} sheets of card and {sheets['plain']} sheets of plain paper, size A4."
        in (whole_text(made))
    )


@pytest.mark.parametrize(
    ("flip", "said", "unsaid"),
    [
        ("hand", "off; on the sheets of wren-card-fronts.pdf", "flip on the"),
        ("long", "flip on the long edge", "-fronts"),
        ("short", "flip on the short edge", "-fronts"),
        ("none", "The backs are not printed", "flip on the"),
    ],
)
def test_only_what_this_pack_needs_is_explained(flip, said, unsaid):
    """The guide tells how these files are turned over, and nothing about other ways."""
    text = whole_text(summer(flip=flip))

    assert said in text
    assert unsaid not in text


def test_lengths_come_in_the_units_of_the_pack():
    """Millimeters only, inches only, or both."""
    metric, imperial, both = (whole_text(summer(units=units)) for units in ("mm", "in", "both"))

    assert "62 × 88 mm" in metric
    assert " in)" not in metric
    assert "2.44 × 3.46 in" in imperial
    assert " mm" not in imperial
    assert "62 × 88 mm (2.44 × 3.46 in)" in both


def test_the_bar_tells_every_usual_wrong_setting():
    """A page fitted to other paper or into margins reads less than the guide calls right.

    The ratios follow from the papers and from margins of 3 mm, the least of home printers (makers'
    data); a print between 99 and 101 % is right.
    """
    a4, letter = PAPERS["a4"], PAPERS["letter"]
    ratios = [
        min(letter[0] / a4[0], letter[1] / a4[1]),
        min(a4[0] / letter[0], a4[1] / letter[1]),
        *(min((side - 6) / side for side in paper) for paper in (a4, letter)),
    ]
    text = whole_text(summer(units="both"))

    assert all(50 * ratio < 49.5 and 2 * ratio < 1.98 for ratio in ratios)
    assert "49.5 to 50.5 mm is right." in text
    assert "1.98 to 2.02 in is right." in text
    assert "Less or more?" in text


@pytest.mark.parametrize(
    ("ink", "said"),
    [("color", "Print in color"), ("gray", "Black and white"), ("outline", "Black and white")],
)
def test_color_is_asked_for_where_the_ink_is_color(ink, said):
    """A pack in color says so in the settings; the others do without."""
    assert said in whole_text(summer(ink=ink))


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
def test_the_paper_is_named(paper):
    """The settings name the paper that is to be chosen."""
    assert f"Choose {ENGLISH.say(f'guide.papers.{paper}')} paper," in whole_text(summer(paper=paper))


@pytest.mark.parametrize("paper", ["a5", "a4", "letter"])
def test_cautions_come_before_any_cut(paper):
    """Blades and small parts are spoken of before the first cut, and before anything is printed."""
    text = whole_text(summer(paper=paper))

    assert text.index("Blades and heat.") < text.index("Settings") < text.index("Foot off")
    assert text.index("Small parts.") < text.index("Foot off")


@pytest.mark.parametrize("paper", ["a4", "letter", "legal"])
def test_no_tray_is_parted(paper):
    """A tray's steps, what to watch for and what comes next stand on one page."""
    for text in texts_of(pages_of(summer(paper=paper))):
        alike = text.count("Shown and watched like")
        steps, watched, later = (len(re.findall(rf"\b{word}\b", text)) for word in LABELS)

        assert steps == watched == later - alike


@pytest.mark.parametrize(
    ("title", "subtitle"),
    [("Plain shapes, June", "A guide for the adult"), ("June", "Plain shapes · a guide for the adult")],
)
def test_the_theme_is_not_named_twice(title, subtitle):
    """A title that holds the theme's needs no theme below it."""
    made = summer()
    named = replace(made, pack=replace(made.pack, title=title))

    assert texts_of(pages_of(named))[0].startswith(f"{title} {subtitle} ")


def test_notes_of_the_pack_stand_on_the_first_page():
    """What the pack has to say about itself is told before anything is printed."""
    made = summer()
    noted = replace(made, pack=replace(made.pack, notes=("The guide speaks English.",)))

    assert "The guide speaks English." in texts_of(pages_of(noted))[0]
    assert "Good to know" not in whole_text(made)


def test_many_notes_run_over_several_pages():
    """A hundred notes leave the page neither at its foot nor at its side."""
    made = summer()
    many = tuple(f"Note {n}: a picture is drawn otherwise than its file says." for n in range(100))
    noted = replace(made, pack=replace(made.pack, notes=many))

    text = whole_text(noted)

    assert strayed(noted) == []
    assert [n for n in range(100) if f"Note {n}:" not in text] == []


def test_page_numbers_in_the_text_are_right():
    """'In this guide' and the hints at other pages lead where they say."""
    texts = texts_of(pages_of(summer()))
    contents = texts[0].split("In this guide")[1]

    for title in ("Print", "Cut", "Gather", "Cautions", "The trays", "Week by week", "Keys"):
        page = int(re.search(rf"{title},\s+page\s(\d+)", contents)[1])
        assert f"{title} " in texts[page - 1].removeprefix("Rock pool summer Guide")
    hint = next(text for text in texts if "Shown and watched like" in text)
    page = int(hint.split("Shown and watched like")[1].split("page ")[1].split(".")[0])
    assert "Count and clip" in texts[page - 1]


def test_pages_are_numbered():
    """Every page ends with its number."""
    for number, page in enumerate(pages_of(summer()), 1):
        assert any(isinstance(mark, Text) and mark.run.text == str(number) for mark in page.marks)


def test_bookmarks_lead_to_sections_and_children():
    """The outline lists the sections, with the children below the trays and the weeks below theirs."""
    data = write(pages_of(summer()), title="guide", language="en").data
    outline = pypdf.PdfReader(io.BytesIO(data), strict=True).outline
    titles = [[item.title for item in entry] if isinstance(entry, list) else entry.title for entry in outline]

    assert titles == [
        "Rock pool summer", "Cautions", "Print", "Gather", "Cut", "The trays", ["Wren", "Juno"],
        "Week by week", ["Week 1", "Weeks 2 to 5", "Week 6"], "Keys",
    ]  # fmt: skip


def test_a_guide_is_the_same_each_time():
    """Equal packs give equal pages."""
    assert pages_of(summer()) == pages_of(plan(read({**SUMMER, "paper": "a4", "units": "mm"})))
