"""The command line: a thin door. Exit code 0 done, 2 the request is wrong, 1 the machine failed."""

import json
import sys
from collections.abc import Callable
from datetime import date, datetime
from functools import partial, wraps
from pathlib import Path
from typing import Any

import click

from printkit import __version__
from printkit.errors import PrintkitError, Problem, nearest


def main() -> None:
    """Runs the command line in UTF-8, whatever the console is set to."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    commands()


def _told(command: Callable[..., None]) -> Callable[..., None]:
    """Turns problems into sentences on stderr and exit code 2, failures of the machine into 1."""

    @wraps(command)
    def run(*args: Any, **kwargs: Any) -> None:
        try:
            command(*args, **kwargs)
        except PrintkitError as error:
            for problem in error.problems:
                click.echo(str(problem), err=True)
            sys.exit(2)
        except OSError as error:
            from printkit.files import plain

            click.echo(plain(error), err=True)
            sys.exit(1)

    return run


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="printkit")
def commands() -> None:
    """Makes print-ready maths trays for small children from one short pack file."""


# --- options shared by check and make --------------------------------------------------------


_family = click.option(
    "--family",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="The family's file; family.toml beside the pack file if unset.",
)


def _overrides(command: Callable[..., None]) -> Callable[..., None]:
    """The options whose word wins over the pack file."""
    for option in (
        click.option("--sheets", type=click.IntRange(1), help="Allows so many sheets; 2000 if unset."),
        click.option("--seed", type=int, help="Another number gives other chance layouts."),
        click.option("--ink", help="color, gray or outline."),
        click.option("--languages", help="One or two language tags, such as en,es."),
        click.option("--paper", help="a3, a4, a5, letter, legal or WIDTHxHEIGHT in mm."),
        click.option("--theme", help="A built-in theme or the path of a folder."),
        click.option("--only", metavar="SET", help="One set, into a file of its own beside the pack."),
        click.option("--child", help="One child's part of the pack."),
        _family,
    ):
        command = option(command)
    return command


def _read(file: Path, options: dict[str, Any]) -> Any:
    """The pack of a file with the command line's words laid over it."""
    from printkit.materials import material_keys
    from printkit.pack.reader import read_pack

    said: dict[str, Any] = {key: options[key] for key in ("theme", "ink", "seed") if options[key] is not None}
    if options["paper"] is not None:
        said["paper"] = _paper(options["paper"])
    if options["languages"] is not None:
        said["languages"] = [tag.strip() for tag in options["languages"].split(",")]
    if said.get("theme", "").strip() and Path(said["theme"]).is_dir():
        said["theme"] = str(Path(said["theme"]).resolve())
    return read_pack(file, material_keys(), said, options.get("family"))


def _paper(text: str) -> Any:
    """'letter' as it is; '210x297' as a list of two numbers."""
    parts = text.lower().split("x")
    try:
        return [float(part) for part in parts] if len(parts) == 2 else text
    except ValueError:
        return text


def _wish(options: dict[str, Any]) -> Any:
    from printkit.build import Wish

    pieces = options.get("pieces")
    keys = tuple(key.strip() for key in pieces.split(",") if key.strip()) if pieces else ()
    return Wish(child=options["child"], set=options["only"], pieces=keys)


def _plan(file: Path, options: dict[str, Any]) -> Any:
    from printkit.build import plan
    from printkit.limits import MOST_SHEETS

    return plan(_read(file, options), _wish(options), options["sheets"] or MOST_SHEETS)


# --- commands --------------------------------------------------------------------------------


@commands.command()
@click.argument("file", required=False, default="pack.toml", type=click.Path(path_type=Path))
@click.option("--season", help="A word or two for the title, such as Spring; it may choose the theme.")
@click.option("--theme", help="A built-in theme or the path of a folder.")
@click.option("--paper", help="a3, a4, a5, letter or legal.")
@click.option("--languages", help="One or two language tags, such as en,es.")
@click.option("--weeks", type=click.IntRange(1, 20), help="How many weeks the season lasts; 6 if unset.")
@click.option(
    "--child",
    "children",
    multiple=True,
    metavar="NAME[:1-5[:left]]",
    help="A child with its numbers, and the hand if it is the left one; once for each child.",
)
@click.option("--numbers", help="The numbers of a child that has none, such as 1-5.")
@_told
def new(file: Path, **answers: Any) -> None:
    """Writes a commented pack file with balanced trays for each child; never overwrites one.

    Beside a family.toml the children are those of the family, and what stands there is not said again.
    """
    from printkit.asking import answered, asked
    from printkit.starter import at_home, write_new

    home = at_home(file)
    asks = sys.stdin.isatty() and sys.stdout.isatty()
    said = asked(answers, *home) if asks and not file.exists() else answers
    left_out = write_new(file, answered(said, *home))
    click.echo(f"Wrote {file}. Look through it, then: printkit check {file}")
    for child, name in left_out:
        click.echo(f"note: left out {child}'s {name}: this paper or theme has no room for it")


@commands.command()
@click.argument("file", type=click.Path(path_type=Path))
@_overrides
@click.option("--json", "as_json", is_flag=True, help="As JSON.")
@_told
def check(file: Path, as_json: bool, **options: Any) -> None:
    """Reads a pack file and says what would be made; writes nothing."""
    from printkit.build import summary
    from printkit.report import report

    made = summary(_plan(file, options))
    if as_json:
        click.echo(json.dumps(made, ensure_ascii=False, indent=1))
        return
    for line in report(made):
        click.echo(line)


@commands.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("-o", "--output", type=click.Path(path_type=Path), metavar="DIR", help="Where to write.")
@_overrides
@click.option("--pieces", help="Pieces by their keys, such as 4,7 (a lost card).")
@click.option("--preview", is_flag=True, help="A PNG of every page as well.")
@click.option("--json", "as_json", is_flag=True, help="What was made, as JSON.")
@_told
def make(file: Path, output: Path | None, preview: bool, as_json: bool, **options: Any) -> None:
    """Makes the pack: PDFs, the guide and the manifest, whole or not at all."""
    from printkit.build import summary, usual_folder, write

    wish = _wish(options)
    made = _plan(file, options)
    folder = output or usual_folder(file, made.pack, wish)
    _check_folder(folder, wish)
    shows = sys.stderr.isatty() and not as_json
    notes: list[str] = []
    progress = _progress if shows else _silent
    names = write(made, folder, wish, preview=preview, progress=progress, note=notes.append)
    if as_json:
        told = summary(made) | {"folder": str(folder), "written": list(names)}
        told["notes"] += notes
        click.echo(json.dumps(told, ensure_ascii=False, indent=1))
        return
    for name in names:
        if not name.startswith("preview/"):
            click.echo(str(folder / name))
    for said in notes:
        click.echo(f"note: {said}")


def _check_folder(folder: Path, wish: Any) -> None:
    """One child's part must not take the place of a whole pack: its files would be removed."""
    from printkit.files import same_name

    if wish.child is None or wish.extract:
        return
    try:
        listed = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))["files"]
        children = {item["child"] for item in listed if item.get("child")}
    except (OSError, ValueError, KeyError, TypeError):
        return
    if any(not same_name(child, wish.child) for child in children):
        raise PrintkitError(
            [
                Problem(
                    place="-o",
                    found=f"'{folder}' holds the pack of {len(children)} children",
                    allowed="another folder for one child's part",
                )
            ]
        )


def _progress(name: str, done: int, total: int) -> None:
    end = "\n" if done == total else ""
    click.echo(f"\r\x1b[K{done} of {total}: {name}{end}", err=True, nl=False)


def _silent(name: str, done: int, total: int) -> None:
    """Says nothing: in a pipe long work stays silent."""


def _draw(what: str, out: Path) -> None:
    """Draws what is listed: letters into a new PDF, materials as a PDF or PNG."""
    if what == "materials":
        from printkit.material_sheet import write_material_sheet

        write_material_sheet(out)
    elif what == "letters":
        from printkit.letter_sheets import write_letters

        if out.exists():
            found = f"there is a file '{out}' already"
            raise PrintkitError([Problem(place="-o", found=found, allowed="the name of a new file")])
        write_letters(out)
    else:
        allowed = "with letters or materials only"
        raise PrintkitError([Problem(place="-o", found=f"{what} are not drawn", allowed=allowed)])
    click.echo(str(out))


@commands.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("child")
@click.argument("set_name", metavar="SET")
@click.argument("result", metavar="[sure|growing|not-yet|unused]")
@click.option("--on", metavar="DATE", help="The day it was seen, such as 2026-11-25; today if unset.")
@click.option("--say", default="", metavar="TEXT", help="Your own words about it.")
@_family
@_told
def note(
    file: Path, child: str, set_name: str, result: str, on: str | None, say: str, family: Path | None
) -> None:
    """Writes down how a child got on with a set: one line in journal.txt beside the pack file."""
    from printkit.journal import append, entry_line, journal_file, noted

    entry = noted(_plain_pack(file, family), child, set_name, result, today=_today(), on=on, said=say)
    append(journal_file(file), entry)
    click.echo(f"{journal_file(file)}: {entry_line(entry)}")


@commands.command(name="next")
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "out",
    type=click.Path(path_type=Path),
    metavar="NEW",
    help="Writes the pack file of the next season.",
)
@click.option("--title", help="The next season's title; the theme's if unset.")
@click.option("--theme", help="The next season's theme; the next built-in one if unset.")
@click.option("--on", metavar="DATE", help="As if it were that day, such as 2026-11-25; today if unset.")
@click.option("--json", "as_json", is_flag=True, help="As JSON.")
@_family
@_told
def next_(
    file: Path,
    out: Path | None,
    title: str | None,
    theme: str | None,
    on: str | None,
    as_json: bool,
    family: Path | None,
) -> None:
    """Says for each child what comes next, and why, from what was noted in journal.txt."""
    from printkit.climbing import as_json_values, faults, propose, told, words_of
    from printkit.journal import day_of, journal_file, read_journal
    from printkit.materials import materials

    day = day_of(on, _today())
    if out is None and (title is not None or theme is not None):
        option = "--title" if title is not None else "--theme"
        raise PrintkitError([Problem(place=option, found="changes a new file", allowed="with -o only")])
    pack = _plain_pack(file, family)
    journal = read_journal(journal_file(file))
    proposals = propose(pack, journal.entries, materials(), day)
    words = words_of(pack)
    notes = list(faults(journal, pack, materials(), day, words))
    if out is not None:
        from printkit.season import Basis, Season, next_season, write_season

        basis = Basis(
            file=file,
            family=family,
            pack=pack,
            entries=journal.entries,
            kinds=materials(),
            words=words,
        )
        text, said = next_season(basis, proposals, out, Season(title=title, theme=theme))
        write_season(out, text)
        notes += said
    if as_json:
        made = {"title": pack.title, "next": as_json_values(proposals, words), "notes": notes}
        made |= {} if out is None else {"written": str(out)}
        click.echo(json.dumps(made, ensure_ascii=False, indent=1))
        return
    for child, lines in told(proposals, words):
        click.echo(child)
        for line in lines:
            click.echo(f"  {line}")
    for note in notes:
        click.echo(f"note: {note}")
    if out is not None:
        click.echo(f"Wrote {out}. Look through it, then: printkit make {out}")


def _plain_pack(file: Path, family: Path | None) -> Any:
    """The pack as its file and the family's have it."""
    from printkit.materials import material_keys
    from printkit.pack.reader import read_pack

    return read_pack(file, material_keys(), {}, family)


def _today() -> date:
    """The one look at the clock; everything else is told the day."""
    return datetime.now().date()


@commands.command(name="printer-test")
@click.option(
    "-o",
    "out",
    default="printer-test.pdf",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="Where to write.",
)
@click.option("--paper", default="a4", help="a3, a4, a5, letter, legal or WIDTHxHEIGHT in mm.")
@click.option(
    "--flip",
    default="long",
    type=click.Choice(["long", "short", "hand"]),
    help="How the sheet is turned for its back: over the long or short edge, or by hand.",
)
@click.option("--language", default="en", help="The language of the sheet, one that the guide speaks.")
@_told
def printer_test(out: Path, paper: str, flip: str, language: str) -> None:
    """Writes a sheet that tells what to put into the pack file for your printer: margin and back_shift."""
    from printkit.printer_test import write_printer_test

    write_printer_test(out, _paper(paper), flip, language)
    click.echo(str(out))


@commands.group()
def theme() -> None:
    """A theme from your own pictures, and what a theme looks like."""


@theme.command(name="new")
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--languages", default="en", help="Languages to prepare names in, such as en,es.")
@_told
def theme_new(folder: Path, languages: str) -> None:
    """Writes a theme.toml into a folder of pictures (SVG, PNG, JPEG, WebP); never overwrites one."""
    from printkit.theme_folder import write_description

    file, made = write_description(folder, _tags(languages))
    count = len(made.motifs)
    click.echo(f"Wrote {file} for {count} picture{'' if count == 1 else 's'}. Put the names right, then:")
    click.echo(f"  printkit theme show {folder} -o look.pdf")
    for note in made.notes:
        click.echo(f"note: {note}")


@theme.command(name="show")
@click.argument("theme", metavar="NAME_OR_FOLDER")
@click.option("-o", "out", required=True, metavar="FILE", type=click.Path(path_type=Path), help="PDF or PNG.")
@_told
def theme_show(theme: str, out: Path) -> None:
    """Draws a theme's contact sheet: every picture in three inks and sizes, its names and parts."""
    from printkit.contact_sheet import write_contact_sheet
    from printkit.pictures import load_theme

    shown = load_theme(theme, Path(), "NAME_OR_FOLDER")
    write_contact_sheet(shown, out)
    click.echo(str(out))
    for note in shown.notes:
        click.echo(f"note: {note}")


def _tags(text: str) -> list[str]:
    """Language tags as a list. Raises PrintkitError for one that no language has."""
    from printkit.words import languages

    known = [item.tag for item in languages()]
    tags = [tag.strip() for tag in text.split(",") if tag.strip()]
    unknown = [tag for tag in tags if tag not in known]
    if unknown or not tags:
        raise PrintkitError(
            Problem(
                place="--languages",
                found=f"there is no language '{tag}'",
                allowed="a tag of printkit list languages",
                nearest=nearest(tag, known),
            )
            for tag in unknown or [text]
        )
    return tags


@commands.command()
@click.argument("folder", default=".", type=click.Path(path_type=Path))
@click.option("--port", type=click.IntRange(1, 65535), help="Where it listens; 8137 if unset and free.")
@click.option("--no-browser", is_flag=True, help="Opens no browser.")
@click.option("--address", default="127.0.0.1", help="Another address lets other devices in.")
@_told
def serve(folder: Path, port: int | None, no_browser: bool, address: str) -> None:
    """Opens a page on which the pack files of a folder are put together by looking, and printed."""
    from printkit.web import serve as served

    served(folder, address=address, port=port, browser=not no_browser, say=partial(click.echo, err=True))


@commands.command(name="list")
@click.argument("what", type=click.Choice(["themes", "materials", "languages", "papers", "letters", "rungs"]))
@click.option("--json", "as_json", is_flag=True, help="As JSON.")
@click.option(
    "-o",
    "out",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="Draws letters (PDF) or materials (PDF, PNG).",
)
@_told
def list_(what: str, as_json: bool, out: Path | None) -> None:
    """Says what there is, one line each."""
    from printkit.listing import entries, line

    if out is not None:
        _draw(what, out)
        return
    found = entries(what)
    if as_json:
        click.echo(json.dumps(found, ensure_ascii=False, indent=1))
        return
    for entry in found:
        click.echo(line(what, entry))
