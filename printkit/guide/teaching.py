"""The trays, child by child: what each is, how to present it, what to watch for, what comes next."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from printkit.guide.blocks import columned, items, labelled, paragraph, section, small, subsection
from printkit.guide.flow import Look, Strip, glued, height_of, spaced
from printkit.guide.keys import key_note, key_of, needs_key
from printkit.guide.lines import bold, say, say_count
from printkit.guide.sets import (
    GuideSet,
    by_child,
    has_loose_things,
    has_small_parts,
    sizes_of,
    tray_anchor,
    unprinted_control,
)
from printkit.guide.trays import TrayWords, tray_words
from printkit.guide.which import sheets_of_files, sheets_with
from printkit.labels import (
    gather_words,
    own_numbers,
    range_words,
    set_title,
    sides,
    users_words,
)
from printkit.materials.layout import picture
from printkit.pack import Child, Pack
from printkit.pieces import Mark
from printkit.sheets.model import SheetFile
from printkit.texts import Catalogue
from printkit.units import Rect
from printkit.words import find

_PICTURE = 13.0
NO_SHEETS: Mapping[str, Sequence[int]] = MappingProxyType({})
YOUNG = 5
"""A child who counts no further may be under three (design choice)."""


def trays(
    look: Look,
    pack: Pack,
    sets: Sequence[GuideSet],
    files: Sequence[SheetFile],
    texts: Catalogue,
    known: Mapping[str, int],
) -> tuple[Strip, ...]:
    """The section 'Trays'. Trays that are shown alike are told once; the later ones name the page."""
    units = pack.units
    children = {item.child.name: item.child for item in pack.children}
    strips = [*section(look, say(texts, "guide.trays.title"), "trays", want=90.0)]
    strips += spaced(paragraph(look, say(texts, "guide.trays.how")), 1.0)
    told: dict[tuple, GuideSet] = {}
    noted: set[tuple[str, str]] = set()
    for number, (child, own) in enumerate(by_child(sets).items()):
        strips += _child(look, children.get(child, own[0].tray.child), number, texts)
        for item in own:
            words = tray_words(item, texts)
            before = told.setdefault((item.tray.material, words.shown), item)
            name = item.tray.child.name
            notes = tuple(note for note in words.notes if (name, note) not in noted)
            noted.update((name, note) for note in notes)
            facts = facts_lines(item, units, texts, sheets_with(item, files))
            strips += _whole(
                look, _tray(look, item, replace(words, notes=notes), before, facts, units, texts, known)
            )
    return tuple(strips)


def _child(look: Look, child: Child, number: int, texts: Catalogue) -> tuple[Strip, ...]:
    """The child's heading with a picture of the theme at the right, and who it is about."""
    width = look.wide - _PICTURE - 4.0
    title = subsection(look, child.name, share=1.5, gap=9.0, want=80.0, level=1, color=True, width=width)
    motifs = child.theme.motifs
    motif = motifs[(3 + number) % len(motifs)]
    box = Rect(look.wide - _PICTURE, 0.0, _PICTURE, _PICTURE)
    marks: list[Mark] = [*title[0].marks, picture(motif.drawing(child.ink, size=_PICTURE), box)]
    strips = [replace(title[0], marks=tuple(marks)), *title[1:]]
    return glued((*strips, *small(look, about_child(child, texts), width=width)))


def about_child(child: Child, texts: Catalogue) -> str:
    """'numbers 1 to 5 · words in English and Portuguese · writes with the left hand'."""
    first, last = child.numbers
    kind = "number" if first == last else "numbers"
    own = own_numbers(child)
    parts = [say(texts, f"guide.child.{kind}", first=first, last=last) + (f" ({own})" if own else "")]
    if child.sums_to is not None:
        parts.append(say(texts, "guide.child.sums", most=child.sums_to))
    languages = [_language(tag, texts) for tag in child.languages]
    parts.append(say(texts, "guide.child.words", languages=tuple(languages)))
    if child.hand == "left":
        parts.append(say(texts, "guide.child.left"))
    return " · ".join(parts)


def _language(tag: str, texts: Catalogue) -> str:
    language = find(tag, "languages")
    if texts.language == "en":
        return language.name
    from babel import Locale, UnknownLocaleError

    try:
        return Locale.parse(tag, sep="-").get_display_name(texts.language) or language.own_name
    except (UnknownLocaleError, ValueError):
        return language.own_name


def _tray(
    look: Look,
    item: GuideSet,
    words: TrayWords,
    before: GuideSet,
    facts: Sequence[str],
    units: str,
    texts: Catalogue,
    known: Mapping[str, int],
) -> tuple[Strip, ...]:
    strips = [*subsection(look, set_title(item.tray, texts), anchor=tray_anchor(item), want=46.0)]
    for line in facts:
        strips += glued(small(look, line))
    about = [words.what]
    if keyed([item], texts):
        printed = "unprinted" if unprinted_control(item) else "printed"
        about.append(say(texts, f"guide.trays.key_{printed}", page=known.get("keys", 1)))
    about += [*words.notes, *_caution(item, units, texts)]
    strips += paragraph(look, " ".join(about), 1.2)
    if not words.present:
        return tuple(strips)
    several = len(words.next) > 1
    following = items(look, words.next) if several else paragraph(look, words.next[0], 0.0)
    after = labelled(look, say(texts, "guide.trays.next"), following)
    if before is not item:
        other = say(texts, "guide.childs", child=before.tray.child.name, set=set_title(before.tray, texts))
        page = known.get(tray_anchor(before), 1)
        alike = paragraph(look, say(texts, "guide.trays.as", other=other, page=page), 1.0)
        return (*strips, *glued(alike), *after)
    present = items(look, words.present, numbered=True)
    watch = labelled(look, say(texts, "guide.trays.watch"), items(look, words.watch))
    return (
        *strips,
        *labelled(look, say(texts, "guide.trays.present"), present),
        *glued((*watch, *after), last=False),
    )


def _whole(look: Look, strips: Sequence[Strip]) -> tuple[Strip, ...]:
    """A tray that fits a page is not parted."""
    return glued(strips, last=False) if height_of(strips) <= look.room else tuple(strips)


def _caution(item: GuideSet, units: str, texts: Catalogue) -> tuple[str, ...]:
    """The line on small parts, if there are any; plainer where the child may be under three."""
    if not has_small_parts([item]):
        return ()
    child = item.tray.child
    least = min((user.numbers[1] for user in child.users), default=child.numbers[1])
    young = has_loose_things(item) and min(least, child.numbers[1]) <= YOUNG
    return (bold(say(texts, f"guide.trays.young.{units}" if young else "guide.trays.small")),)


def facts_lines(
    item: GuideSet, units: str, texts: Catalogue, sheets: Mapping[str, Sequence[int]] = NO_SHEETS
) -> tuple[str, ...]:
    """What a tray is about, its pieces and things to gather; then where its pieces come from.

    'numbers 1 to 5 · 9 pieces of 62 × 88 mm, card · gather 9 clothespins', 'from sheet 2 of juno-card.pdf
    · marked clip-cards'.
    """
    users = users_words(item.tray)
    about = range_words(item.tray, texts) + (f" ({users})" if users else "")
    parts = [about, _pieces(item, units, texts)]
    where = [say(texts, "guide.trays.sheets", sheets=sheets_of_files(sheets, texts))] if sheets else []
    things = gather_words(item.needs, units, texts)
    if things:
        parts.append(say(texts, "guide.trays.gather", things=things))
    named = item.tray.set.casefold() != set_title(item.tray, texts).casefold()
    if named and item.tray.set == item.tray.material:
        where.append(say(texts, "guide.trays.named", set=item.tray.set))
    return tuple(" · ".join(line) for line in (parts, where) if line)


def _pieces(item: GuideSet, units: str, texts: Catalogue) -> str:
    """'9 pieces of 62 × 88 mm, card', '7 pieces, card: 1 of 190 × 269 mm and 6 of 17 × 17 mm'."""
    own = item.own
    stock = say(texts, f"guide.stock.{item.tray.stock}")
    if own and all(not piece.cut for piece in own):
        return say_count(texts, "guide.trays.whole", len(own), stock=stock)
    sizes = sizes_of(own)
    if len(sizes) < 2:
        shown = "".join(sides(size, units, texts) for size in sizes)
        return say_count(texts, "guide.trays.pieces", len(own), size=shown, stock=stock)
    sized = tuple(
        say(texts, "guide.trays.sized", n=count, size=sides(size, units, texts))
        for size, count in Counter((piece.width, piece.height) for piece in own).items()
    )
    return say(texts, "guide.trays.several", n=len(own), stock=stock, sizes=sized)


def keyed(sets: Sequence[GuideSet], texts: Catalogue) -> tuple[GuideSet, ...]:
    """The sets whose answers stand in the guide."""
    return tuple(item for item in sets if needs_key(item) and key_of(item, texts).lines)


def keys(look: Look, sets: Sequence[GuideSet], texts: Catalogue) -> tuple[Strip, ...]:
    """The section 'Keys', if there is anything to tell."""
    found = keyed(sets, texts)
    if not found:
        return ()
    strips = [*section(look, say(texts, "guide.keys.title"), "keys")]
    strips += spaced(paragraph(look, say(texts, "guide.keys.how")), 1.0)
    for item in found:
        title = say(texts, "guide.childs", child=item.tray.child.name, set=set_title(item.tray, texts))
        key = key_of(item, texts)
        if key.always:
            title = say(texts, "guide.keys.always", title=title, always=key.always)
        strips += subsection(look, title, share=1.05, gap=5.0, want=24.0)
        note = key_note(item, texts)
        if note:
            strips += glued(small(look, note))
        strips += columned(look, key.lines, left=0.0, width=look.wide, gap=1.0)
    return tuple(strips)
