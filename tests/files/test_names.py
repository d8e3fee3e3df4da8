"""Names of files: readable, safe on every system, and known to mean one file."""

import ntpath
import sys
import unicodedata
from pathlib import PureWindowsPath

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from printkit.files import distinct, name_fault, safe_name, same_name
from printkit.files.names import MOST_BYTES, stays_inside

TURN = "\N{RIGHT-TO-LEFT OVERRIDE}"

# Microsoft, 'Naming Files, Paths, and Namespaces': reserved whatever the case (from memory).
PORTS = [f"{port}{digit}" for port in ("COM", "LPT") for digit in "123456789¹²³"]
DEVICES = ["CON", "PRN", "AUX", "NUL", *PORTS]

# The characters Windows takes in no name (same page), and those that Unix and macOS take in none.
UNSAFE = set('<>:"/\\|?*') | {chr(code) for code in range(32)} | {"\x7f"}

HARD = "aZéΣσ\u0301\u0323ßİıñ \t-_./\\:*?$con1¹中ק👧\u200d\ufe0f\ud800"
texts = st.text(max_size=70) | st.text(alphabet=st.sampled_from(HARD), max_size=40)
settled = settings(derandomize=True, deadline=None, max_examples=400)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Wren", "wren"),
        ("José María", "josé-maría"),
        ("Jose\u0301 Mari\u0301a", "josé-maría"),
        ("take away", "take-away"),
        ("  how many?  ", "how-many"),
        ("O'Neil", "o-neil"),
        ("1 : 2 : 3", "1-2-3"),
        ("--.. night sky ..--", "night-sky"),
        ("Anna & Bo", "anna-bo"),
        ("first_snow", "first_snow"),
        ("Ναυσικά", "ναυσικά"),
        ("Ёлка", "ёлка"),
        ("נועה", "נועה"),
        ("ليلى", "ليلى"),
        ("小雨", "小雨"),
        ("हिमानी", "हिमानी"),
        ("CON", "con_"),
        ("Lpt1", "lpt1_"),
        ("com¹", "com¹_"),
        ("conin$", "conin"),
        ("console", "console"),
        ("con.pdf", "con-pdf"),
        ("Juno 🐚", "juno"),
        ("Juno\N{ZERO WIDTH JOINER}\N{VARIATION SELECTOR-16}", "juno"),
        (f"Ju{TURN}no", "juno"),
        ("../../rock pool", "rock-pool"),
        ("C:\\fruit stall", "c-fruit-stall"),
        ("line\nbreak\0", "line-break"),
        ("\u0301\u0301", "unnamed"),
        ("🐚", "unnamed"),
        ("", "unnamed"),
        ("a" * 300, "a" * 80),
        ("水" * 60, "水" * 26),
        ("a" * 79 + "é", "a" * 79),
        ("a" * 79 + " snow", "a" * 79),
        # In one piece the last letter would fit, its second accent would not.
        ("a" * 77 + "ẹ\u0302\u0330\u0330", "a" * 77),
    ],
)
def test_the_safe_name_is_as_near_to_the_text_as_every_disk_allows(text, name):
    """Letters stay, in lower case; anything a disk or a shell might mind becomes one dash."""
    assert safe_name(text) == name


@settled
@given(texts)
@example("ΑΣ ΑΣ.")
@example("İ\u0323")
@example("e\u200d\u0301")
@example("a" * 76 + "\u0301" * 40)
def test_any_text_has_a_safe_name(text):
    """Of any text: not empty, short in bytes, NFC, no unsafe sign, no edge that Windows drops."""
    name = safe_name(text)
    assert 0 < len(name.encode()) <= MOST_BYTES
    assert unicodedata.is_normalized("NFC", name)
    assert not UNSAFE & set(name)
    assert not {unicodedata.category(sign) for sign in name} & {"Cc", "Cf", "Cs", "Zs", "Zl", "Zp"}
    assert not {name[0], name[-1]} & set(".- ")
    assert not windows_reserves(name)
    assert not windows_reserves(f"{name}.pdf")
    assert safe_name(name) == name
    assert stays_inside(f"{name}-{name}.manifest.json")


@settled
@given(texts)
def test_a_name_without_fault_keeps_something_to_read(text):
    """Whatever the check lets pass has a letter or a digit in its file's name."""
    if not name_fault(text):
        name = safe_name(text)
        assert any(unicodedata.category(sign)[0] in "LN" for sign in name)
        assert name != "unnamed" or "unnamed" in text.lower()


def windows_reserves(name: str) -> bool:
    """What Python's own rules for Windows say."""
    if hasattr(ntpath, "isreserved"):
        return ntpath.isreserved(name)
    return PureWindowsPath(name).is_reserved()


def test_all_of_windows_devices_are_renamed_and_refused():
    """Each device's name gives a file that Windows allows, and is no name for a child or set."""
    for device in [*DEVICES, *(device.lower() for device in DEVICES), "CONIN$", "conout$"]:
        assert windows_reserves(device)
        assert not windows_reserves(safe_name(device))
        assert name_fault(device) == "is a name that Windows keeps for devices"
        assert not stays_inside(device)
        assert not stays_inside(f"{device}.pdf")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("", "is empty"),
        (" \t ", "is empty"),
        ("rock/pool", "holds '/'"),
        ("rock\\pool", "holds '\\'"),
        ("rock..pool", "holds '..'"),
        ("..", "holds '..'"),
        ("rock\npool", "holds a control character"),
        ("rock\0pool", "holds a control character"),
        ("rock\x85pool", "holds a control character"),
        ("rock\u2028pool", "holds a control character"),
        (f"rock{TURN}pool", "holds a character that turns the direction of writing"),
        ("rock\ud800pool", "holds half a character"),
        ("a" * 61, "is too long (over 60 characters)"),
        ("水" * 61, "is too long (over 60 characters)"),
        ("...x." + "y" * 60, "holds '..'"),
        ("con", "is a name that Windows keeps for devices"),
        (" Nul. ", "is a name that Windows keeps for devices"),
        ("conout$", "is a name that Windows keeps for devices"),
        ("?!", "holds no letter and no digit"),
        ("__", "holds no letter and no digit"),
        ("👧", "holds no letter and no digit"),
        ("\N{ZERO WIDTH SPACE}", "holds no letter and no digit"),
    ],
)
def test_a_fault_reads_on_after_the_name(text, fault):
    """Each kind of bad name is told in plain words."""
    assert name_fault(text) == fault


@pytest.mark.parametrize(
    "text",
    [
        "Wren", "José María", "Jose\u0301", "O'Neil", "J.J.", "take away", "how many?", "5", "1 : 2",
        "נועה", "ليلى", "小雨", "हिमानी", "علی\N{ZERO WIDTH NON-JOINER}رضا", "Juno 🐚",
        "Connie", "com10", "a" * 60, "e\u0301" * 60,
    ],
)  # fmt: skip
def test_ordinary_names_have_no_fault(text):
    """Names that families use pass, whatever the script, and so do marks between letters."""
    assert name_fault(text) == ""


@pytest.mark.parametrize(
    ("a", "b", "same"),
    [
        ("Wren", "WREN", True),
        ("José", "Jose\u0301", True),
        ("José", "Jose", False),
        ("Weiß", "WEISS", True),
        ("ΝΙΚΟΣ", "Νικος", True),
        ("take away", "take-away", True),
        ("Juno", "Juno 🐚", True),
        ("ﬁg", "fig", True),
        ("İnci", "inci", False),
        ("ılgaz", "ilgaz", True),
        ("con", "con_", True),
        ("Wren", "Juno", False),
        ("1", "2", False),
        ("水" * 27, "水" * 28, True),
        ("\ud800", "", True),
    ],
)
def test_names_that_some_disk_takes_for_one_are_the_same(a, b, same):
    """Case, accents written apart, and what a file's name drops make no difference."""
    assert same_name(a, b) is same
    assert same_name(b, a) is same


def test_letters_with_one_capital_are_the_same_name():
    """Disks compare names by the capital of each letter (NTFS, exFAT: from memory); so do we."""
    capitals: dict[str, str] = {}
    for code in range(sys.maxunicode + 1):
        letter = chr(code)
        capital = letter.upper()
        if unicodedata.category(letter)[0] == "L" and len(capital) == 1:
            assert same_name(letter, capitals.setdefault(capital, letter)), hex(code)


@settled
@given(texts)
def test_the_way_a_name_is_written_does_not_matter(text):
    """Composed or decomposed, a text is the same name as itself and as its file's name."""
    assert same_name(text, safe_name(text))
    assert same_name(unicodedata.normalize("NFD", text), unicodedata.normalize("NFC", text))


@pytest.mark.parametrize(
    "file", ["guide.pdf", "josé-card.pdf", "preview/guide-1.png", "wren-strips.manifest.json", "preview"]
)
def test_plain_names_stay_inside(file):
    """A file of the folder or of its preview folder may be written and removed."""
    assert stays_inside(file)


@pytest.mark.parametrize(
    "file",
    [
        "", "/", ".", "..", "../guide.pdf", "/etc/guide.pdf", "preview/../guide.pdf",
        "preview//guide.pdf", "preview/", "other/guide.pdf", "preview/more/guide.pdf",
        "..\\guide.pdf", "C:guide.pdf", "C:\\guide.pdf", "\\\\host\\guide.pdf",
        "guide.pdf:stream", "guide.pdf.", "guide.pdf ", ".hidden", "preview/.hidden",
        "nul", "con.pdf", "CON .pdf", "a\0b", "a\nb", "\ud800", "a" * 256, 7, None, ["guide.pdf"],
        "/preview/guide.pdf", "./guide.pdf", "preview\\guide.pdf", "guide*.pdf",
    ],
)  # fmt: skip
def test_names_that_lead_elsewhere_are_seen(file):
    """No way out of the folder, into hidden files or to a device, on any system."""
    assert not stays_inside(file)


@pytest.mark.parametrize(
    ("names", "taken", "made"),
    [
        (["wren-a", "wren-b"], [], ("wren-a", "wren-b")),
        (["wren-a-b", "wren-a-b", "WREN-A-B"], [], ("wren-a-b", "wren-a-b-2", "WREN-A-B-3")),
        (["wren-a", "wren-a-2", "wren-a"], [], ("wren-a", "wren-a-2", "wren-a-3")),
        (["wren-card"], ["wren-card"], ("wren-card-2",)),
        (["wren-a", "wren-a-backs"], [], ("wren-a", "wren-a-backs-2")),
        (["wren-a-fronts", "wren-a"], [], ("wren-a-fronts", "wren-a-2")),
    ],
)
def test_names_that_would_meet_are_numbered(names, taken, made):
    """The first keeps its name; names are apart with every ending that their files may have."""
    assert distinct(names, taken) == made
