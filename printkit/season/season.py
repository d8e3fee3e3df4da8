"""From a season's pack file and the proposals to the pack file of the next season."""

import re
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import tomlkit

from printkit.build import plan
from printkit.climbing import Proposal
from printkit.climbing.places import Kinds
from printkit.errors import PrintkitError, Problem
from printkit.journal import Entry
from printkit.pack import Pack
from printkit.pack.reader import read_pack
from printkit.pictures import load_theme
from printkit.season.rewrite import Rewriting, rewrite
from printkit.season.shelves import change
from printkit.season.themes import next_theme, theme_word
from printkit.texts import Catalogue


@dataclass(frozen=True, kw_only=True, slots=True)
class Season:
    """What the next season is to be: its title and theme; what is not given is found."""

    title: str | None = None
    theme: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Basis:
    """What the next season begins from: the file and the family's, the pack read from them, the notes."""

    file: Path
    family: Path | None
    pack: Pack
    entries: tuple[Entry, ...]
    kinds: Kinds
    words: Catalogue


def next_season(
    basis: Basis, proposals: Sequence[Proposal], out: Path, wish: Season
) -> tuple[str, tuple[str, ...]]:
    """The text of the next season's pack file, which makes a legal pack, and what to know about it.

    A tray whose next step cannot be printed stays as it is, with a note. Raises PrintkitError if the
    file cannot be written there, or the pack has problems all the same; OSError.
    """
    check_place(basis.file, out)
    notes: list[str] = []
    left = list(proposals)
    while True:
        text, said = _text(basis, left, out, wish)
        try:
            _try(text, basis, out)
        except PrintkitError as error:
            stuck = _stuck(basis, out, left, wish)
            if not stuck:
                raise
            why = str(error.problems[0]).partition(": ")[2]
            notes += [_stays(proposal, why, basis.words) for proposal in left if proposal in stuck]
            left = [_staying(each) if each in stuck else each for each in left]
            continue
        return text, (*notes, *said, *_dated(basis))


def _dated(basis: Basis) -> list[str]:
    """Boards with the dates of one month, which nobody can guess for the next season."""
    return [
        basis.words.say("next.file.month", child=item.child.name, set=tray.set)
        for item in basis.pack.children
        for tray in item.trays
        if getattr(tray.settings, "month", None) is not None
    ]


def write_season(out: Path, text: str) -> None:
    """Writes the file, which must not exist yet. Raises FileExistsError, OSError."""
    with out.open("x", encoding="utf-8", newline="") as file:
        file.write(text)


def check_place(file: Path, out: Path) -> None:
    """Refuses a place where the file would take another one's, or leave journal and family behind."""
    problem = None
    if out.resolve() == file.resolve():
        problem = ("is the pack file itself", "the name of a new file")
    elif out.exists() or out.is_symlink():
        problem = ("is there already", "the name of a new file")
    elif out.resolve().parent != file.resolve().parent:
        problem = (
            f"lies in another folder than {file.name}",
            "a new name beside it, where the journal and the family's file are",
        )
    if problem:
        raise PrintkitError([Problem(place="-o", found=f"'{out}' {problem[0]}", allowed=problem[1])])


# --- the text --------------------------------------------------------------------------------


def _text(basis: Basis, proposals: Iterable[Proposal], out: Path, wish: Season) -> tuple[str, list[str]]:
    data = basis.file.read_bytes().decode("utf-8-sig")
    windows = "\r\n" in data
    document = tomlkit.parse(data.replace("\r\n", "\n"))
    by = Rewriting(pack=basis.pack, kinds=basis.kinds, words=basis.words)
    said = rewrite(document, proposals, by)
    dress = _dress(document, basis, out, wish)
    for key in dress.keys() & document.keys():
        document[key] = dress[key]
    text = _named(tomlkit.dumps(document), basis.file.name, out.name)
    for key in ("theme", "title"):
        text = _with_line(text, key, dress[key]) if key in dress.keys() - document.keys() else text
    return text.replace("\n", "\r\n") if windows else text, said


def _named(text: str, old: str, new: str) -> str:
    """Remarks that tell how to call the tool name the new file."""
    return re.sub(rf"(?m)^(#.*\bprintkit \w+ ){re.escape(old)}(?=\s|$)", rf"\g<1>{new}", text)


def _dress(document: Any, basis: Basis, out: Path, wish: Season) -> dict[str, str]:
    """The new theme and title; pictures that only the old theme has are no longer asked for."""
    current = str(document.get("theme", "rock-pool"))
    word = (
        theme_word(wish.theme, out.parent)
        if wish.theme is not None
        else next_theme(_theme_name(basis), basis.entries)
    )
    theme = load_theme(word, out.parent, "--theme")
    title = wish.title or (document.get("title") if word == current else theme.title(basis.pack.guide))
    motifs = {motif.key for motif in theme.motifs}
    shared = document.get("shared", [])
    tables = [document, *document.get("children", []), *(shared if isinstance(shared, list) else [shared])]
    for table in tables:
        listed = table.get("materials", [])
        for number, entry in enumerate(list(listed)):
            if not isinstance(entry, str):
                change(listed, number, {}, _strange(entry, motifs))
    return {"theme": word} | ({} if title is None else {"title": str(title)})


def _strange(entry: Any, motifs: set[str]) -> list[str]:
    """The keys of a tray that name pictures which the theme does not have."""
    found = []
    for key in ("motif", "motifs"):
        value = entry.get(key, [])
        names = [value] if isinstance(value, str) else list(value)
        if any(str(name) not in motifs for name in names):
            found.append(key)
    return found


def _theme_name(basis: Basis) -> str:
    return basis.pack.people[0].theme.name if basis.pack.people else ""


def _with_line(text: str, key: str, value: str) -> str:
    """A key of the whole pack that the file did not have: below the remarks that it begins with."""
    head = re.match(r"(?:#[^\n]*\n)*", text)
    at = head.end() if head else 0
    return f"{text[:at]}{key} = {tomlkit.item(value).as_string()}\n{text[at:]}"


# --- trying it -------------------------------------------------------------------------------


def _try(text: str, basis: Basis, out: Path) -> None:
    """Plans the pack that the text describes, beside its place. Raises PrintkitError that names `out`."""
    with tempfile.NamedTemporaryFile(
        dir=out.parent, prefix=".printkit-", suffix=".toml", delete=False
    ) as trial:
        path = Path(trial.name)
        trial.write(text.encode("utf-8"))
    try:
        plan(read_pack(path, basis.kinds, {}, basis.family))
    except PrintkitError as error:
        raise PrintkitError(
            replace(problem, place=problem.place.replace(path.name, out.name)) for problem in error.problems
        ) from None
    finally:
        path.unlink()


def _stuck(basis: Basis, out: Path, proposals: Sequence[Proposal], wish: Season) -> tuple[Proposal, ...]:
    """The proposals that cannot be printed, each tried alone; none if that does not explain it."""
    moving = [each for each in proposals if each.move not in ("stay", "rest") or each.change == "material"]
    still = [_staying(each) if each in moving else each for each in proposals]
    if not _prints(basis, still, out, wish):
        return ()
    return tuple(
        each
        for each in moving
        if not _prints(basis, [each if other is each else _staying(other) for other in proposals], out, wish)
    )


def _prints(basis: Basis, proposals: Sequence[Proposal], out: Path, wish: Season) -> bool:
    try:
        _try(_text(basis, proposals, out, wish)[0], basis, out)
    except PrintkitError:
        return False
    return True


def _staying(proposal: Proposal) -> Proposal:
    return replace(proposal, move="stay", to=proposal.at, again=(), change="")


def _stays(proposal: Proposal, why: str, words: Catalogue) -> str:
    sets = ", ".join(proposal.sets)
    return words.say("next.file.stays", child=proposal.child, set=sets, why=why)
