"""The trays, child by child: what each is, how to present it, what to watch for, what comes next."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from printkit.errors import listing
from printkit.guide.blocks import columned, items, labelled, paragraph, section, small, subsection
from printkit.guide.flow import Look, Strip, glued, height_of, spaced
from printkit.guide.keys import key_note, key_of, needs_key
from printkit.guide.lines import aside, bold, say, say_count
from printkit.guide.sets import (
    GuideSet,
    by_child,
    has_loose_things,
    has_small_parts,
    sizes_of,
    unprinted_control,
)
from printkit.guide.trays import TrayWords, tray_words
from printkit.labels import (
    gather_words,
    material_title,
    own_numbers,
    range_words,
    set_title,
    sides,
    users_words,
)
from printkit.materials.layout import picture
from printkit.pack import Child, Pack
from printkit.pieces import Mark
from printkit.texts import Catalogue
from printkit.units import Rect
from printkit.words import find

_PICTURE = 13.0
YOUNG = 5
"""A child who counts no further may be under three (design choice)."""


def tray_anchor(item: GuideSet) -> str:
    """The name by which the pages of the guide know a tray."""
    return f"tray {item.tray.child.name}/{item.tray.set}"


def trays(
    look: Look, pack: Pack, sets: Sequence[GuideSet], texts: Catalogue, known: Mapping[str, int]
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
            strips += _whole(
                look, _tray(look, item, replace(words, notes=notes), before, units, texts, known)
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
    parts.append(say(texts, "guide.child.words", languages=listing(languages, say(texts, "guide.and"))))
    if child.hand == "left":
        parts.append(say(texts, "guide.child.left"))
    return " · ".join(parts)


def _language(tag: str, texts: Catalogue) -> str:
    language = find(tag, "languages")
    return language.name if texts.language == "en" else language.own_name


def _tray(
    look: Look,
    item: GuideSet,
    words: TrayWords,
    before: GuideSet,
    units: str,
    texts: Catalogue,
    known: Mapping[str, int],
) -> tuple[Strip, ...]:
    named = {"title": material_title(item.tray.material, texts), "set": aside(item.tray.set)}
    title = say(texts, "guide.trays.heading", **named)
    strips = [*subsection(look, title, anchor=tray_anchor(item), want=46.0)]
    strips += glued(small(look, facts_line(item, units, texts)))
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


def facts_line(item: GuideSet, units: str, texts: Catalogue) -> str:
    """'numbers 1 to 5 · 9 pieces of 62 × 88 mm, card · gather 10 counters of 22 mm'."""
    own = item.own
    sizes = listing([sides(size, units) for size in sizes_of(own)], say(texts, "guide.and"))
    whole = bool(own) and all(not piece.cut for piece in own)
    stock = say(texts, f"guide.stock.{item.tray.stock}")
    users = users_words(item.tray)
    parts = [range_words(item.tray, texts) + (f" ({users})" if users else "")]
    if whole:
        parts.append(say_count(texts, "guide.trays.whole", len(own), stock=stock))
    else:
        parts.append(say_count(texts, "guide.trays.pieces", len(own), size=sizes, stock=stock))
    things = gather_words(item.needs, units, texts)
    if things:
        things = listing(things, say(texts, "guide.and"))
        parts.append(say(texts, "guide.trays.gather", things=things))
    return " · ".join(parts)


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
