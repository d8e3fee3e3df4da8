"""The forms: what they show, what they save, what they refuse."""

import re
import tomllib

import pytest
from web.client import PACK, Browser

from printkit.materials import material_keys, materials
from printkit.pack.keys import pack_checks
from printkit.pack.reader import read_pack

STATIONS = ("children", "season", "trays", "paper", "print")
FORMS = (
    ("/p/pool/children", "/p/pool/children/0"),
    ("/p/pool/children", "/p/pool/children/1"),
    ("/p/pool/children", "/p/pool/children"),
    ("/p/pool/season", "/p/pool/season"),
    ("/p/pool/paper", "/p/pool/paper"),
    ("/p/pool/0/0", "/p/pool/0/0"),
    ("/p/pool/0/1", "/p/pool/0/1"),
    ("/p/pool/1/0", "/p/pool/1/0"),
)


@pytest.fixture
def browser(tmp_path):
    return Browser(tmp_path)


@pytest.mark.parametrize(("page", "action"), FORMS)
def test_an_unchanged_form_changes_nothing(browser, page, action):
    """Saving what a form shows leaves the file byte for byte as it was."""
    answer = browser.post(action, browser.form(page, action))

    assert answer.status_code == 303
    assert browser.text() == PACK


@pytest.mark.parametrize(
    ("page", "action", "typed", "line"),
    [
        FORMS[0] + ({"numbers.1": "5"}, "numbers   = [1, 5]"),
        FORMS[0] + ({"sums_to": "5"}, "sums_to   = 5"),
        FORMS[0] + ({"hand": "left"}, 'hand      = "left"'),
        FORMS[1] + ({"start": ["", "add-within-5", "", ""]}, 'start     = "add-within-5"'),
        FORMS[1] + ({"needs": ["large", "easy-grip"]}, 'needs     = ["large", "easy-grip"]'),
        FORMS[1] + ({"languages.0": "de"}, 'languages = ["de"]'),
        FORMS[2] + ({"languages.1": "fr"}, 'languages = ["en", "fr"]'),
        FORMS[2] + ({"words.es": "masculine"}, 'words     = { es = "masculine" }'),
        FORMS[3] + ({"title": "Low tide"}, 'title     = "Low tide"'),
        FORMS[3] + ({"theme": "night-sky"}, 'theme     = "night-sky"        # near the sea'),
        FORMS[4] + ({"margin": "12,5"}, "margin    = 12.5"),
        FORMS[4] + ({"paper.0": "letter"}, 'paper     = "letter"'),
        FORMS[4] + ({"paper.0": "own", "paper.1": "200", "paper.2": "250"}, "paper     = [200, 250]"),
        FORMS[4] + ({"flip.card": "hand"}, 'flip      = { plain = "long", card = "hand" }'),
        FORMS[4] + ({"numerals.seven": "barred"}, 'numerals  = { seven = "barred" }'),
        FORMS[4] + ({"back_shift.0": "0.5", "back_shift.1": "-1"}, "back_shift = [0.5, -1]"),
        FORMS[5]
        + ({"layout": "back"}, '    { make = "counting-cards", layout = "back" },          # the first'),
        FORMS[5]
        + (
            {"arrange": ["dice", "line"]},
            '    { make = "counting-cards", arrange = ["dice", "line"] },          # the first',
        ),
        FORMS[5]
        + (
            {"numbers.0": "2", "numbers.1": "3"},
            '    { make = "counting-cards", numbers = [2, 3] },          # the first',
        ),
        FORMS[6] + ({"choices": ""}, '    { make = "clip-cards" },'),
        FORMS[6] + ({"size.0": "small"}, '    { make = "clip-cards", choices = 4, size = "small" },'),
        FORMS[7] + ({"zero": "true"}, 'materials = [{ make = "strips", count = 3, zero = true }]'),
        FORMS[7] + ({"motif": "crab"}, 'materials = [{ make = "strips", count = 3, motif = "crab" }]'),
    ],
)  # fmt: skip
def test_saving(browser, page, action, typed, line):
    """What is typed comes into its line of the file, the rest stays, and the command line reads it."""
    before = browser.text().splitlines()

    answer = browser.post(action, browser.form(page, action) | typed)

    after = browser.text().splitlines()
    assert answer.status_code == 303
    assert [new for new in after if new not in before] == [line]
    assert len([old for old in before if old not in after]) <= 1
    assert read_pack(browser.file, material_keys()).children


@pytest.mark.parametrize(
    ("page", "action", "typed", "spot", "said"),
    [
        FORMS[0] + ({"numbers.0": "9"}, "children-0-numbers", "allowed: [4, 9], the smaller first"),
        FORMS[0]
        + (
            {"numbers.1": "five"},
            "children-0-numbers",
            "Found [1, 'five']; allowed: [first, last], two whole numbers from 0 to 100",
        ),
        FORMS[0]
        + (
            {"name": "juno"},
            "children-1-name",
            "'juno' and 'Juno' would have files of one name",
        ),
        FORMS[0] + ({"name": ""}, None, "a child has no name"),
        FORMS[0] + ({"lookalike": "9"}, "children-0-lookalike", "allowed: a whole number from 1 to 6"),
        FORMS[4] + ({"margin": "2"}, "margin", "Found 2; allowed: 3 to 40 mm"),
        FORMS[5] + ({"motif": "whale"}, "children-0-materials-0-motif", "The theme has no motif 'whale'"),
        FORMS[6] + ({"choices": "7"}, "children-0-materials-1-choices", "a whole number from 3 to 4"),
        FORMS[3] + ({"theme": "rock-pol"}, "theme", "did you mean 'rock-pool'?"),
        FORMS[1] + ({"sums_to": ""}, None, "Juno's strips"),
    ],
)  # fmt: skip
def test_refusing(browser, page, action, typed, spot, said):
    """A wrong value is not written; the reader's own sentence stands beside its field, or above the page."""
    answer = browser.post(action, browser.form(page, action) | typed)

    body = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert browser.text() == PACK
    place = body if spot is None else re.search(rf'id="wrong-{spot}">(.*?)</div>', body, re.DOTALL)[1]
    assert said in place.replace("&#39;", "'")


@pytest.mark.parametrize(("form", "after"), [(FORMS[3], "trays"), (FORMS[4], "print")])
def test_save_and_go_on(browser, form, after):
    """The main button saves and leads to the next page; what is refused stays where it is."""
    typed = browser.form(*form) | {"title": "Low tide", "margin": "12", "then": "next"}
    answer = browser.post(form[1], typed)
    assert answer.headers["Location"] == f"/p/pool/{after}"
    assert browser.text() != PACK

    wrong = browser.post(form[1], browser.form(*form) | {"margin": "2", "weeks": "90", "then": "next"})
    assert wrong.status_code == 422


def test_lookalikes_have_words(browser):
    """How closely a child looks is a choice of six, each with what a look-alike differs in."""
    body = browser.get("/p/pool/children").get_data(as_text=True)
    choice = re.search(r'<select id="children-0-lookalike".*?</select>', body, re.DOTALL)[0]
    assert re.findall(r'value="(\d)"', choice) == list("123456")
    assert "4: a part missing or changed" in choice

    browser.post(FORMS[0][1], browser.form(*FORMS[0]) | {"lookalike": "4"})
    assert tomllib.loads(browser.text())["children"][0]["lookalike"] == 4


def test_offers_by_area(browser):
    """Trays to add stand by area, those the child has last; one that needs sums says so where none are set."""
    body = browser.get("/p/pool/0/add").get_data(as_text=True).replace("&#39;", "'")
    heads = re.findall(r'<h2 id="area-(\w+)"', body)
    assert heads == ["counting", "looking", "hands", "writing", "operations", "has"]
    last = body.partition('id="area-has"')[2]
    assert set(re.findall(r'id="offer-([\w-]+)"', last)) == {"counting-cards", "clip-cards"}
    assert last.count("Put a second one") == 2
    assert len(re.findall(r'id="offer-', body)) == len(materials())
    assert body.count("up to what number Wren adds") == 1
    assert "up to what number" not in browser.get("/p/pool/1/add").get_data(as_text=True)


def test_what_was_typed_is_still_there(browser):
    """A refused form shows what was typed, right and wrong."""
    typed = browser.form(*FORMS[0]) | {"numbers.1": "five", "sums_to": "4"}

    browser_form = browser.post(FORMS[0][1], typed).get_data(as_text=True)

    assert 'value="five"' in browser_form
    assert re.search(r'name="sums_to" value="4"', browser_form)


def test_the_later_of_two_tabs_is_told(browser):
    """A form of an earlier state is refused with the word for it, and the other's change stays."""
    stale = browser.form(*FORMS[0]) | {"numbers.1": "3"}
    browser.post(FORMS[1][1], browser.form(*FORMS[1]) | {"numbers.1": "7"})
    after = browser.text()

    answer = browser.client.post(FORMS[0][1], base_url="http://127.0.0.1:8137", data=stale)

    assert answer.status_code == 409
    assert "changed meanwhile" in answer.get_data(as_text=True)
    assert browser.text() == after


def test_an_editor_counts_as_another_tab(browser):
    """What an editor wrote between is not overwritten."""
    stale = browser.form(*FORMS[3]) | {"title": "Other"}
    browser.file.write_text(PACK.replace("By the pool", "By the sea"), encoding="utf-8")

    assert browser.client.post(FORMS[3][1], base_url="http://127.0.0.1:8137", data=stale).status_code == 409
    assert "By the sea" in browser.text()


def test_names_are_text(browser):
    """A name with markup is shown as the text it is, on every page."""
    browser.file.write_text(
        PACK.replace('"Wren"', '"W <b>& x"').replace('"By the pool"', '"<script>alert(1)</script>"'),
        encoding="utf-8",
    )
    for page in (*(f"/p/pool/{station}" for station in STATIONS), "/", "/p/pool/0/0", "/p/pool/0/add"):
        body = browser.get(page).get_data(as_text=True)
        assert "<script>alert" not in body
        assert "W <b>" not in body
        assert "W &lt;b&gt;&amp; x" in body or page == "/p/pool/season"


def test_a_broken_file_is_told(browser):
    """A pack file with faults is shown with them, and can be mended one by one."""
    browser.file.write_text(PACK.replace("[1, 4]", "[4, 1]").replace("[1, 6]", "[1, 600]"), encoding="utf-8")
    body = browser.get("/p/pool/children").get_data(as_text=True)
    assert "runs backwards" in body

    answer = browser.post(FORMS[0][1], browser.form(*FORMS[0]) | {"numbers.0": "1", "numbers.1": "4"})

    assert answer.status_code == 303
    assert "[1, 4]" in browser.text()
    for page in (*(f"/p/pool/{station}" for station in STATIONS), "/", "/p/pool/0/0"):
        assert browser.get(page).status_code == 200


@pytest.mark.parametrize(
    "text", ["title = ", "\x00", 'children = "x"', "children = [1]", "[[children]]\nmaterials = 3"]
)
def test_any_file_has_its_page(browser, text):
    """A file that is no pack ends in sentences too."""
    browser.file.write_text(text, encoding="utf-8")

    for station in STATIONS:
        assert browser.get(f"/p/pool/{station}").status_code == 200
    assert browser.get("/").status_code == 200


@pytest.mark.parametrize("name", materials())
def test_every_setting_has_its_field(browser, name):
    """Each setting of a material has a field with the material's own explanation."""
    browser.file.write_text(
        'languages = ["en", "es"]\n[[children]]\nname = "Wren"\nnumbers = [1, 6]\nsums_to = 6\n'
        f'materials = ["{name}"]\n',
        encoding="utf-8",
    )
    from dataclasses import fields

    body = browser.get("/p/pool/0/0").get_data(as_text=True).replace("&#39;", "'")
    for field in fields(materials()[name].settings):
        assert f'name="{field.name}.here"' in body
        assert field.metadata["says"][1:] in body

    answer = browser.post("/p/pool/0/0", browser.form("/p/pool/0/0", "/p/pool/0/0"))
    assert answer.status_code == 303
    assert f'["{name}"]' in browser.text()


def test_every_key_of_a_pack_has_its_field(browser):
    """Each key that may stand at the top of a pack file is asked for somewhere."""
    bodies = "".join(
        browser.get(f"/p/pool/{page}").get_data(as_text=True) for page in ("children", "season", "paper")
    )

    for key in pack_checks().keys() - {"children", "materials", "shared", "start"}:
        assert re.search(rf'name="{key}(\.\w+)?\.here"', bodies), key


def test_trays_and_children_come_and_go(browser):
    """A tray is put on, moved, taken off; a child comes and goes."""
    browser.post("/p/pool/0/add", {"material": "pairs"})
    browser.post("/p/pool/0/add", {"material": "pairs"})
    browser.post("/p/pool/0/3/move/0", {})
    browser.post("/p/pool/0/1/remove", {})
    browser.post("/p/pool/children/add", {"name": "Pim", "numbers.0": "1", "numbers.1": "3"})
    browser.post("/p/pool/children/1/remove", {})

    children = tomllib.loads(browser.text())["children"]
    assert [child["name"] for child in children] == ["Wren", "Pim"]
    assert children[0]["materials"] == [
        {"make": "pairs", "set": "pairs 2"},
        {"make": "clip-cards", "choices": 4},
        "pairs",
    ]


def test_beginning(tmp_path):
    """An empty folder offers to begin; the answers are a pack file that the command line reads."""
    browser = Browser(tmp_path / "new", pack="")
    assert browser.get("/").status_code == 200
    assert not (tmp_path / "new").exists()

    answer = browser.post(
        "/begin",
        {
            "child": "Wren", "first": "1", "last": "4", "languages.0": "fr", "languages.1": "en",
            "theme": "rock-pool", "paper": "letter", "title": "",
        },
    )  # fmt: skip

    assert answer.headers["Location"] == "/p/rock-pool/children"
    pack = read_pack(tmp_path / "new" / "rock-pool.toml", material_keys())
    child = pack.children[0].child
    assert (child.name, child.numbers, child.languages) == ("Wren", (1, 4), ("fr", "en"))
    assert (child.theme.name, child.paper_name) == ("rock-pool", "letter")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"child": "a/b"}, "holds '/'"),
        ({"child": "Wren", "first": "x"}, "first and last, such as 1-5"),
        ({"child": "Wren", "last": "500"}, "two whole numbers from 0 to 100"),
        ({"child": "Wren", "theme": "nowhere"}, "here is no built-in theme"),
    ],
)
def test_beginning_wrongly(tmp_path, typed, said):
    """A wrong answer is told in the reader's words; nothing is written."""
    browser = Browser(tmp_path / "new", pack="")
    answers = {
        "child": "",
        "first": "1",
        "last": "4",
        "languages.0": "en",
        "theme": "rock-pool",
        "paper": "a4",
    }

    answer = browser.post("/begin", answers | typed)

    assert answer.status_code == 422
    assert said in answer.get_data(as_text=True).replace("&#39;", "'")
    assert not list(tmp_path.rglob("*.toml"))


# --- a family's file, shared trays -----------------------------------------------------------

FAMILY = """\
languages = ["fr"]
margin = 14
[[children]]
name = "Wren"
numbers = [1, 9]
hand = "left"
[[children]]
name = "Pim"
numbers = [1, 3]
"""
SHARED = (
    PACK.replace('languages = ["en", "es"]\n', "").replace("numbers   = [1, 4]\n", "")
    + """
[[shared]]
with      = ["Wren", "Juno"]
materials = ["pairs", "bingo"]
"""
)


def test_what_the_family_says_holds(tmp_path):
    """What the family's file says is shown where the pack says nothing; it is no pack itself."""
    (tmp_path / "family.toml").write_text(FAMILY, encoding="utf-8")
    browser = Browser(tmp_path, SHARED)

    children = browser.get("/p/pool/children").get_data(as_text=True)
    assert "as usual: 1–9" in children
    assert "as usual: left" in children
    assert "as usual: Français" in children
    assert "as usual: 14" in browser.get("/p/pool/paper").get_data(as_text=True)
    assert "/p/family/" not in browser.get("/").get_data(as_text=True)


def test_shared_trays_have_their_shelf(tmp_path):
    """Trays that children share stand on a shelf of their own, where they are shown and changed."""
    browser = Browser(tmp_path, SHARED)
    assert "Shared: Wren, Juno" in browser.get("/p/pool/trays").get_data(as_text=True)
    assert browser.get("/p/pool/2/0/piece.png").mimetype == "image/png"

    answer = browser.post("/p/pool/2/0", browser.form("/p/pool/2/0", "/p/pool/2/0") | {"pairs": "4"})
    browser.post("/p/pool/2/add", {"material": "dominoes"})
    browser.post("/p/pool/2/1/remove", {})

    assert answer.status_code == 303
    assert tomllib.loads(browser.text())["shared"][0]["materials"] == [
        {"make": "pairs", "pairs": 4},
        "dominoes",
    ]


def test_one_list_for_all(tmp_path):
    """Materials at the top of the file stand on one shelf for everyone."""
    browser = Browser(
        tmp_path, 'materials = ["counting-cards"]\n[[children]]\nname = "Wren"\nnumbers = [1, 3]\n'
    )

    assert "For everyone" in browser.get("/p/pool/trays").get_data(as_text=True)
    browser.post("/p/pool/1/0", {"layout.here": "1", "layout": "back"})

    assert tomllib.loads(browser.text())["materials"] == [{"make": "counting-cards", "layout": "back"}]
