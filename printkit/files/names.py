"""Names that every system takes for a file, and which of them mean one file."""

import itertools
import re
import unicodedata
from collections.abc import Iterable

MOST_CHARACTERS = 60
"""The longest name of a child or a set."""

MOST_BYTES = 80
"""The longest part of a file's name: two and an ending stay under the 255 bytes of most disks."""

PREVIEW = "preview"
"""The one folder inside a pack's folder that may hold files of the pack."""

# Microsoft, 'Naming Files, Paths, and Namespaces' and 'CreateFile, Consoles' (from memory); the list
# of ntpath.isreserved in CPython 3.13 is the same.
_DEVICES = frozenset(
    {"con", "prn", "aux", "nul", "conin$", "conout$"}
    | {port + digit for port in ("com", "lpt") for digit in "123456789¹²³"}
)
# Unicode's Default_Ignorable_Code_Point that are no format characters (from memory).
_UNSEEN = re.compile(
    "[\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u3164\ufe00-\ufe0f\uffa0\U000e0000-\U000e0fff]"
)
# Unicode Standard Annex 9, section 2: embeddings, overrides and isolates.
_TURNING = re.compile("[\u202a-\u202e\u2066-\u2069]")
# What Windows keeps for itself (the same page of Microsoft's), and halves of characters.
_UNSAFE = re.compile('[\0-\x1f\x7f/\\\\:*?"<>|\ud800-\udfff]')
_CONTROLS = ("Cc", "Zl", "Zp")


def safe_name(text: str) -> str:
    """The part of a file's name for a child or set: 'José María' gives 'josé-maría'.

    Letters and digits of every script stay, in lower case and NFC; all between them becomes one
    '-'. At most MOST_BYTES bytes of UTF-8, no name of a Windows device, unchanged when applied again.
    A text without letters or digits gives 'unnamed' (`name_fault` refuses it before).
    """
    name = _cut(_letters(text)) or "unnamed"
    return f"{name}_" if name in _DEVICES else name


def name_fault(text: str) -> str:
    """Why a text cannot be a child's or set's name, reading on after the name; '' if it can."""
    kinds = {unicodedata.category(sign) for sign in text}
    letters = _letters(text)
    faults = (
        ("is empty", not text.strip()),
        ("holds a control character", not kinds.isdisjoint(_CONTROLS)),
        ("holds a character that turns the direction of writing", _TURNING.search(text)),
        ("holds half a character", "Cs" in kinds),
        ("holds '/'", "/" in text),
        ("holds '\\'", "\\" in text),
        ("holds '..'", ".." in text),
        (
            f"is too long (over {MOST_CHARACTERS} characters)",
            len(unicodedata.normalize("NFC", text)) > MOST_CHARACTERS,
        ),
        (
            "is a name that Windows keeps for devices",
            letters in _DEVICES or text.strip(" .").lower() in _DEVICES,
        ),
        ("holds no letter and no digit", not any(_is_letter(sign) for sign in letters)),
    )
    return next((fault for fault, holds in faults if holds), "")


def same_name(a: str, b: str) -> bool:
    """Whether two names give one file on a disk that ignores case and the way accents are written."""
    return key(safe_name(a)) == key(safe_name(b))


def key(name: str) -> str:
    """Equal for names that some disk takes for one.

    Caseless and compatible as in the Unicode Standard, section 3.13, D146; by capitals first, since
    exFAT's own table has one capital for 'i' and the dotless i of Turkish (from memory).
    """
    folded = unicodedata.normalize("NFD", name).upper().casefold()
    return unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", folded).casefold())


_ENDINGS = ("", "-fronts", "-backs", "-onesided")


def distinct(names: Iterable[str], taken: Iterable[str] = ()) -> tuple[str, ...]:
    """The names in their order, a number behind those that would give a file of a name before them.

    `taken` are names that come first; the files of a name end in nothing, '-fronts' or the like.
    """

    def files(name: str) -> set[str]:
        return {key(f"{name}{ending}") for ending in _ENDINGS}

    known = {file for name in taken for file in files(name)}
    made: list[str] = []
    for name in names:
        numbered = (f"{name}-{number}" for number in itertools.count(2))
        own = next(each for each in itertools.chain([name], numbered) if known.isdisjoint(files(each)))
        known |= files(own)
        made.append(own)
    return tuple(made)


def stays_inside(file: object) -> bool:
    """Whether this is the name of a file in a folder, or in its preview folder, on every system."""
    if not isinstance(file, str):
        return False
    above, slash, name = file.rpartition("/")
    return (
        above == (PREVIEW if slash else "")
        and 0 < len(name.encode(errors="replace")) <= 255
        and not _UNSAFE.search(name)
        and name[0] not in ". "
        and name[-1] not in ". "
        and name.partition(".")[0].rstrip().lower() not in _DEVICES
    )


def _is_letter(sign: str) -> bool:
    return unicodedata.category(sign)[0] in "LN"


def _is_accent(sign: str) -> bool:
    return unicodedata.category(sign)[0] == "M"


def _letters(text: str) -> str:
    seen = (sign for sign in _UNSEEN.sub("", text) if unicodedata.category(sign) != "Cf")
    lower = unicodedata.normalize("NFC", "".join(seen)).lower()
    kept = ""
    for sign in unicodedata.normalize("NFC", lower):
        in_gap = kept[-1:] in ("", "-")
        if _is_letter(sign) or sign == "_":
            kept += sign
        elif not in_gap:
            kept += sign if _is_accent(sign) else "-"
    return kept.rstrip("-")


def _cut(name: str) -> str:
    """The name's beginning in at most MOST_BYTES bytes; a letter keeps all its accents or goes."""
    start = name.encode()[:MOST_BYTES].decode(errors="ignore")
    end = len(start)
    while 0 < end < len(name) and _is_accent(name[end]):
        end -= 1
    return (start[:end] or start).rstrip("-")
