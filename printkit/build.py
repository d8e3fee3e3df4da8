"""The whole way: pack -> pieces -> sheets -> files. Both doors, command line and web, call this.

Each stage tells what is wrong and goes on; everything is raised together once all was tried.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from printkit import __version__
from printkit.errors import PrintkitError, Problem, listing, nearest
from printkit.files import distinct, safe_name, same_name, write_whole
from printkit.guide import GuideSet, guide_pages
from printkit.labels import motif_of, own_motif, shared_numbers, storage_label
from printkit.limits import ENOUGH, MOST_SHEETS, least_sheets, sheets_of, too_many
from printkit.manifest import FileRecord, manifest
from printkit.materials import Made, Room, materials
from printkit.materials.layout import size_problem
from printkit.pack import ChildTrays, Pack, Tray
from printkit.pack.sources import settings_of
from printkit.pieces import Picture
from printkit.planner import Season, season
from printkit.planner.told import plan_values
from printkit.sheets import Page, SetPieces, SheetFile, frame_of, sheet_files, turned_to_fit
from printkit.texts import Note, catalogue

MADE_WITH = f"printkit {__version__}"
Progress = Callable[[str, int, int], None]
NO_SEASON = Season(children=())


@dataclass(frozen=True, kw_only=True, slots=True)
class Plan:
    """All that will be written: the trays with their pieces, and the children's sheets.

    `stems` has for each set how the files of an extract of it begin; `season` is which sets are out in
    which week, empty for an extract.
    """

    pack: Pack
    sets: tuple[GuideSet, ...]
    files: tuple[SheetFile, ...]
    stems: tuple[str, ...]
    season: Season = NO_SEASON


@dataclass(frozen=True, kw_only=True, slots=True)
class Wish:
    """A part of a pack: one child's, one set's, some pieces'."""

    child: str | None = None
    set: str | None = None
    pieces: tuple[str, ...] = ()

    @property
    def extract(self) -> bool:
        """Whether only sets or pieces are wanted, to lie beside the pack."""
        return self.set is not None or bool(self.pieces)


def plan(
    pack: Pack,
    wish: Wish = Wish(),
    most_sheets: int = MOST_SHEETS,
    make: Callable[[int, Tray], Made] | None = None,
) -> Plan:
    """The pieces and sheets of a pack, or of the part wished for.

    `make` stands in for `make_tray` where its results are kept.

    Raises PrintkitError with every problem of every material, or of the wish, or if there are more
    than `most_sheets` sheets; nothing is laid out or drawn then.
    """
    children = _wished_children(pack, wish)
    problems: list[Problem] = []
    notes: list[str] = []
    sets: list[GuideSet] = []
    least = 0.0
    for tray in (tray for item in children for tray in item.trays):
        made = (make or make_tray)(pack.seed, tray)
        problems += made.problems
        least += 0.0 if wish.pieces else least_sheets(made.pieces, frame_of(tray))
        if least > most_sheets:  # nothing is kept any more, only counted
            sets.clear()
            if least > ENOUGH * most_sheets:
                break
            continue
        notes += [
            Note("notes.of_tray", child=tray.child.name, set=tray.set, note=note) for note in made.notes
        ]
        notes += _unused(tray)
        if made.pieces:
            kind = materials()[tray.material]
            sets.append(GuideSet(tray=tray, material=kind, pieces=made.pieces, needs=made.needs))
    if problems:
        raise PrintkitError(problems)
    _check_sheets(least, most_sheets, counted=False)
    if wish.pieces:
        sets = _wished_pieces(sets, wish)
    kept = replace(pack, children=tuple(children), notes=(*pack.notes, *notes))
    stems = _stems(pack, sets)
    files = tuple(_extract_files(kept, sets, stems, wish) if wish.extract else _pack_files(kept, sets))
    _check_names(files)
    _check_sheets(sheets_of(files), most_sheets, counted=True)
    weeks = NO_SEASON if wish.extract else season(kept.children, pack.weeks)
    return Plan(pack=kept, sets=tuple(sets), files=files, stems=stems, season=weeks)


def _unused(tray: Tray) -> Iterator[str]:
    """A note for each of those who share a set that holds none of their numbers."""
    for name, part in shared_numbers(tray).items():
        if part is None:
            yield f"{tray.child.name}'s {tray.set}: none of {name}'s numbers are in it"


def _check_sheets(sheets: float, most: int, *, counted: bool) -> None:
    problem = too_many(sheets, most, counted=counted)
    if problem is not None:
        raise PrintkitError([problem])


def unfit(pack: Pack) -> tuple[Tray, ...]:
    """The trays of a pack that cannot be made as they are asked for."""
    return tuple(tray for item in pack.children for tray in item.trays if make_tray(pack.seed, tray).problems)


def make_tray(seed: int, tray: Tray) -> Made:
    """The pieces of one tray, or why there are none; none is too large for its sheet."""
    room = Room(*frame_of(tray).room)
    if room.width < 40 or room.height < 40:
        return Made(problems=(size_problem(tray, room, (40.0, 40.0)),))
    made = materials()[tray.material].make(seed, tray, room)
    too_large = next((piece for piece in made.pieces if turned_to_fit(piece, room) is None), None)
    if too_large is not None:
        return Made(problems=(size_problem(tray, room, (too_large.width, too_large.height)),))
    return made


# --- the part wished for ---------------------------------------------------------------------


def _wished_children(pack: Pack, wish: Wish) -> list[ChildTrays]:
    children = list(pack.children)
    if wish.child is not None:
        names = [item.child.name for item in children]
        children = [item for item in children if same_name(item.child.name, wish.child)]
        if not children:
            raise PrintkitError([_unknown("--child", "child", wish.child, names)])
    if wish.set is None:
        return children
    sets = [tray.set for item in children for tray in item.trays]
    found = [
        replace(item, trays=trays)
        for item in children
        if (trays := tuple(tray for tray in item.trays if same_name(tray.set, wish.set)))
    ]
    if not found:
        raise PrintkitError([_unknown("--only", "set", wish.set, list(dict.fromkeys(sets)))])
    return found


def _wished_pieces(sets: Sequence[GuideSet], wish: Wish) -> list[GuideSet]:
    keys = list(dict.fromkeys(piece.key for item in sets for piece in item.pieces))
    unknown = [key for key in wish.pieces if key not in keys]
    if unknown:
        raise PrintkitError(_unknown("--pieces", "piece", key, keys) for key in unknown)
    kept = [
        replace(item, pieces=tuple(piece for piece in item.pieces if piece.key in wish.pieces))
        for item in sets
    ]
    return [item for item in kept if item.pieces]


def _unknown(place: str, what: str, word: str, words: Sequence[str]) -> Problem:
    shown = words if len(words) <= 12 else [*words[:12], "..."]
    return Problem(
        place=place,
        found=f"there is no {what} '{word}'",
        allowed=listing(shown),
        nearest=nearest(word, words),
    )


# --- sheets ----------------------------------------------------------------------------------


def _pack_files(pack: Pack, sets: Sequence[GuideSet]) -> Iterator[SheetFile]:
    texts = catalogue(pack.guide)
    for item in pack.children:
        mine = [made for made in sets if made.tray.child.name == item.child.name]
        laid = [SetPieces(tray=made.tray, pieces=made.pieces) for made in mine]
        yield from sheet_files(safe_name(item.child.name), [*laid, *_labels(pack, mine)], texts)


def _labels(pack: Pack, sets: Sequence[GuideSet]) -> Iterator[SetPieces]:
    """A storage label a set, together on one sheet: on card if the child has any."""
    stock = "card" if any(made.tray.stock == "card" for made in sets) else "plain"
    texts, taken = catalogue(pack.guide), set()
    known = {own_motif(made.pieces) for made in sets}
    for made in sets:
        tray = replace(made.tray, stock=stock)
        room = Room(*frame_of(tray).room)
        label = storage_label(tray, made.pieces, made.needs, room, texts, pack.title, taken, known)
        taken |= {motif_of(mark.drawing) for mark in label.front.marks if isinstance(mark, Picture)}
        yield SetPieces(tray=tray, pieces=(replace(label, stock=stock),), run="labels of all sets")


def _stems(pack: Pack, sets: Sequence[GuideSet]) -> tuple[str, ...]:
    """<child>-<set> for each set, as the whole pack has it: no two alike, none like the pack's own files."""
    trays = [tray for item in pack.children for tray in item.trays]
    own = [f"{safe_name(item.child.name)}-{stock}" for item in pack.children for stock in ("card", "plain")]
    names = distinct((f"{safe_name(tray.child.name)}-{safe_name(tray.set)}" for tray in trays), own)
    found = {(tray.child.name, tray.set): name for tray, name in zip(trays, names, strict=True)}
    return tuple(found[made.tray.child.name, made.tray.set] for made in sets)


def _extract_files(
    pack: Pack, sets: Sequence[GuideSet], stems: Sequence[str], wish: Wish
) -> Iterator[SheetFile]:
    """<child>-<set>.pdf: the sets or pieces wished for, without labels when pieces were lost."""
    texts = catalogue(pack.guide)
    for made, name in zip(sets, stems, strict=True):
        laid = [SetPieces(tray=made.tray, pieces=made.pieces)]
        if not wish.pieces:
            laid += _labels(pack, [made])
        for file in sheet_files("", laid, texts):
            yield replace(file, name=_extract_name(name, file))


def _extract_name(name: str, file: SheetFile) -> str:
    """'-card-fronts.pdf' -> '<name>-fronts.pdf': one set's file needs no stock in its name."""
    rest = file.name.removeprefix(f"-{file.stock}")
    return f"{name}{rest}"


def _check_names(files: Sequence[SheetFile]) -> None:
    seen: set[str] = set()
    for file in files:
        if file.name.casefold() in seen:
            said = f"two files would be called '{file.name}'"
            allowed = "names of children and sets that give different file names"
            raise PrintkitError([Problem(place=file.child, found=said, allowed=allowed)])
        seen.add(file.name.casefold())


# --- writing ---------------------------------------------------------------------------------


def usual_folder(file: Path, pack: Pack, wish: Wish = Wish()) -> Path:
    """The pack file's name without its ending, beside it; one child's part has a folder of its own."""
    folder = file.with_suffix("") if file.suffix else file.with_name(f"{file.name}-pack")
    if wish.child is not None and not wish.extract:
        name = safe_name(pack.children[0].child.name)
        return folder.with_name(f"{folder.name}-{name}")
    return folder


def write(
    made: Plan,
    folder: Path,
    wish: Wish = Wish(),
    *,
    preview: bool = False,
    progress: Progress = lambda name, done, total: None,
    note: Callable[[str], None] = lambda said: None,
) -> tuple[str, ...]:
    """Writes a plan into a folder as a whole; returns the names of its files, the manifest last.

    `progress` is called with each file's name, its number and how many there are, `note` with what
    the family should know of files that stay though the pack no longer has them. Raises OSError if the
    folder cannot be written; an earlier pack is then as it was.
    """
    if wish.extract and len(made.sets) > 1:
        parts = [_part(made, number, wish) for number in range(len(made.sets))]
        return tuple(
            name
            for part in parts
            for name in write(part, folder, wish, preview=preview, progress=progress, note=note)
        )
    records: list[FileRecord] = []
    names: list[str] = []

    def files() -> Iterator[tuple[str, bytes]]:
        for name, data in _documents(made, wish, records, progress):
            names.append(name)
            yield name, data
            if preview:
                for number, png in enumerate(_previews(data), 1):
                    picture = f"preview/{name.removesuffix('.pdf')}-{number:02d}.png"
                    names.append(picture)
                    yield picture, png

    name = _manifest_name(made, wish)
    left = write_whole(folder, files(), name, lambda sha256: manifest(made.pack, MADE_WITH, records, sha256))
    for file in left:
        note(f"'{file}' was changed since it was made; the pack no longer has it, but it stays")
    return (*names, name)


def _part(made: Plan, number: int, wish: Wish) -> Plan:
    """One set of an extract by itself: it has a manifest of its own."""
    sets, stems = made.sets[number : number + 1], made.stems[number : number + 1]
    files = tuple(_extract_files(made.pack, sets, stems, wish))
    return replace(made, sets=sets, stems=stems, files=files)


def _manifest_name(made: Plan, wish: Wish) -> str:
    if not wish.extract:
        return "manifest.json"
    return f"{made.stems[0]}.manifest.json"


def _documents(
    made: Plan, wish: Wish, records: list[FileRecord], progress: Progress
) -> Iterator[tuple[str, bytes]]:
    from printkit.writer import write as written

    pack = made.pack
    total = len(made.files) + (0 if wish.extract else 1)
    number = 0
    if not wish.extract:
        number += 1
        progress("guide.pdf", number, total)
        pages = guide_pages(pack, made.sets, made.files)
        pdf = written(pages, title=pack.title, language=pack.guide)
        records.append(
            FileRecord(
                name="guide.pdf", content=pdf.content, pages=tuple(_bare(page) for page in pages),
                paper=(pages[0].width, pages[0].height),
            )
        )  # fmt: skip
        yield "guide.pdf", pdf.data
    for file in made.files:
        number += 1
        progress(file.name, number, total)
        title = f"{pack.title}: {file.name.removesuffix('.pdf')}"
        pdf = written(file.pages, title=title, language=pack.guide, duplex=file.duplex, label=file.child)
        records.append(
            FileRecord(
                name=file.name, content=pdf.content, pages=file.pages, paper=file.paper, sheet_file=file
            )
        )
        yield file.name, pdf.data


def _bare(page: Page) -> Page:
    """A page without its marks, which the manifest does not list."""
    return replace(page, marks=(), bookmarks=())


def _previews(data: bytes) -> Iterator[bytes]:
    """A PNG of each page at 100 dots an inch."""
    import io

    from printkit.shown import page_images

    for image in page_images(data, 100):
        picture = io.BytesIO()
        image.save(picture, "PNG")
        yield picture.getvalue()


# --- what would be made ----------------------------------------------------------------------


def summary(made: Plan) -> dict[str, Any]:
    """What a plan would make, in plain values: pieces, sheets, cuts, ink, things to gather."""
    from printkit.ink import coverage

    return {
        "title": made.pack.title,
        "sets": [
            {
                "child": item.tray.child.name,
                "set": item.tray.set,
                "material": item.tray.material,
                "stock": item.tray.stock,
                "pieces": len(item.pieces),
                "size_mm": sorted({(piece.width, piece.height) for piece in item.pieces}),
                "ink": round(coverage(item.pieces), 3),
                "gather": {need.what: need.count for need in item.needs},
            }
            for item in made.sets
        ],
        "files": [
            {
                "file": file.name,
                "child": file.child,
                "stock": file.stock,
                "sheets": file.sheets,
                "pages": len(file.pages),
                "cuts": sum(len(page.cuts) for page in file.pages),
            }
            for file in made.files
        ],
        "paper": _paper_used(made.files),
        "weeks": plan_values(made.season, catalogue("en")),
        "settings": settings_of(made.pack),
        "notes": list(made.pack.notes),
    }


def _paper_used(files: Sequence[SheetFile]) -> list[dict[str, Any]]:
    """The sheets of each child and stock, and how many no layout of the pieces can do without."""
    from printkit.guide.sets import backs_only

    found: dict[tuple[str, str], list[int]] = {}
    for file in files:
        if not backs_only(file):
            used = found.setdefault((file.child, file.stock), [0, 0])
            used[0] += file.sheets
            used[1] += file.least
    return [
        {"child": child, "stock": stock, "sheets": sheets, "least": least}
        for (child, stock), (sheets, least) in found.items()
    ]
