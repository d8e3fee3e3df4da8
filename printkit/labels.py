"""The label of a set for its bag or tray, and the words that labels and guide share about a tray."""

from collections import Counter
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace

from printkit import letters
from printkit.materials import materials
from printkit.materials.base import Need, Room
from printkit.materials.guidance import Guidance
from printkit.materials.layout import (
    CONTENT_INSET,
    HAIRLINE_INSET,
    INK,
    accent,
    hairline,
    is_border,
    picture,
)
from printkit.pack import Child, Tray
from printkit.pieces import Color, Drawing, Face, Mark, Picture, Piece, Text
from printkit.texts import Catalogue
from printkit.units import Rect, inches, micrometres

SIZE = (92.0, 44.0)
"""mm of a label: two lie side by side between margins of 10 mm on A4 and Letter."""
_QUIET: Color = (0.38,)
_READABLE = 3.0
"""mm an em below which a line of a label is rather parted."""
_AIR = 1.0
"""mm between a picture and the edge of its spot: it keeps more than 2 mm from the frame."""


@dataclass(frozen=True, kw_only=True, slots=True)
class LabelFacts:
    """What a label says: which set, how many pieces, how many of what to gather."""

    label: str
    pieces: int
    gather: dict[str, int]


# --- words -----------------------------------------------------------------------------------


def length(mm: float, units: str, texts: Catalogue) -> str:
    """A length in words: '28 mm', '1.10 in', or '28 mm (1.10 in)'; of mm one decimal at most."""
    return _measured((mm,), units, texts, lambda numbers: numbers[0])


def lengths(several: Sequence[float], units: str, texts: Catalogue) -> str:
    """Several lengths with one unit: '12, 74 and 136 mm (0.47, 2.91 and 5.35 in)'."""
    return _measured(several, units, texts, texts.listing)


def span(ends: tuple[float, float], units: str, texts: Catalogue) -> str:
    """From one length to another: '2 to 3 mm (0.08 to 0.12 in)'."""
    return _measured(
        ends, units, texts, lambda numbers: texts.say("list.to", first=numbers[0], last=numbers[1])
    )


def sides(size: tuple[float, float], units: str, texts: Catalogue) -> str:
    """Width and height: '62 × 88 mm', '2.44 × 3.46 in', or both."""
    return _measured(size, units, texts, " × ".join)


def _measured(
    several: Sequence[float], units: str, texts: Catalogue, joined: Callable[[list[str]], str]
) -> str:
    """Lengths in their units. Nobody cuts finer than a tenth of a mm."""
    metric = f"{joined([texts.number(mm, 1) for mm in several])} mm"
    imperial = f"{joined([texts.fixed(inches(mm), 2) for mm in several])} in"
    return {"mm": metric, "in": imperial}.get(units, f"{metric} ({imperial})")


def set_title(tray: Tray, texts: Catalogue) -> str:
    """What a set is called: the material's title, with the set's own name behind it if it has one."""
    title = material_title(tray.material, texts)
    if tray.set == tray.material:
        return title
    return texts.say("label.named", title=title, name=tray.set)


def material_title(material: str, texts: Catalogue) -> str:
    """The title of a material, or its name in plain words if the catalogue does not know it."""
    key = f"materials.{material}"
    if texts.has(key):
        return texts.say(f"{key}.title")
    return material.replace("-", " ").capitalize()


def range_words(tray: Tray, texts: Catalogue) -> str:
    """What a set is about: 'numbers 1 to 5', 'sums to 5', 'only turned (level 5 of 6)'."""
    found = materials().get(tray.material)
    return (found.guidance if found else Guidance()).about(tray, texts.say)


def gathered(needs: Sequence[Need]) -> dict[str, int]:
    """How many of what a set needs, several needs of one kind added up."""
    found: dict[str, int] = {}
    for need in needs:
        found[need.what] = found.get(need.what, 0) + need.count
    return {what: count for what, count in found.items() if count}


def gather_words(needs: Sequence[Need], units: str, texts: Catalogue) -> tuple[str, ...]:
    """What to gather, one phrase a thing: '10 counters of 22 mm', '1 wipe-off pen'."""
    totals: dict[tuple[str, float], int] = {}
    for need in needs:
        totals[need.what, need.size] = totals.get((need.what, need.size), 0) + need.count
    return tuple(
        gather_phrase(what, count, size, units, texts) for (what, size), count in totals.items() if count
    )


def gather_phrase(what: str, count: int, size: float, units: str, texts: Catalogue) -> str:
    """'10 counters of 22 mm'; without a size just '10 counters'."""
    phrase = texts.count(f"label.things.{what}", count)
    if not size:
        return phrase
    return texts.say("label.across", thing=phrase, size=length(size, units, texts))


def pieces_words(count: int, texts: Catalogue) -> str:
    """'1 piece', '9 pieces'."""
    return texts.count("label.pieces", count)


# --- those who share -------------------------------------------------------------------------


def set_numbers(tray: Tray) -> tuple[int, int] | None:
    """The first and last number of a set, if it holds every number between; None if it has no such range."""
    told: list[tuple[int, int]] = []

    def say(key: str, **values: int) -> str:
        if key in ("label.number", "label.numbers"):
            told.append((values["first"], values.get("last", values["first"])))
        return ""

    found = materials().get(tray.material)
    (found.guidance if found else Guidance()).about(tray, say)
    return told[0] if told else None


def shared_numbers(tray: Tray) -> dict[str, tuple[int, int] | None]:
    """Which of a set's numbers each of those who share it uses: those in the child's own range.

    None for a child who uses none of them. Empty where a set has no range, or one child alone.
    """
    whole = set_numbers(tray)
    if whole is None:
        return {}
    cut = {
        user.name: (max(whole[0], user.numbers[0]), min(whole[1], user.numbers[1]))
        for user in tray.child.users
    }
    return {name: part if part[0] <= part[1] else None for name, part in cut.items()}


def users_words(tray: Tray) -> str:
    """'Wren 1–5, Juno 8–14': who uses which numbers of a shared set; '' if nothing is to be told.

    Names alone where the set has no range or all use the same numbers, and only if the set is not
    called by the names anyway.
    """
    numbers = shared_numbers(tray)
    names = [user.name for user in tray.child.users]
    if len(set(numbers.values())) > 1:
        parts = [f"{name} {_dashed(part)}" for name, part in numbers.items() if part is not None]
        return ", ".join(parts)
    return "" if all(name in tray.child.name for name in names) else ", ".join(names)


def own_numbers(child: Child) -> str:
    """'Wren 1–5, Juno 8–14': the own numbers of each of those who share; '' for one child."""
    return ", ".join(f"{user.name} {_dashed(user.numbers)}" for user in child.users)


def _dashed(part: tuple[int, int]) -> str:
    return f"{part[0]}–{part[1]}" if part[0] < part[1] else str(part[0])


# --- the label -------------------------------------------------------------------------------


def storage_label(
    tray: Tray,
    pieces: Sequence[Piece],
    needs: Sequence[Need],
    room: Room,
    texts: Catalogue,
    title: str,
    taken: Collection[str] = (),
    others: Collection[str] = (),
) -> Piece:
    """The label of a set: child, what it is, range, number of pieces, what to gather.

    It measures 92 x 44 mm, or as much of that as the sheet's room holds. `pieces` are the set's own
    pieces, the label itself not among them; `title` is the pack's, in small letters above. Motifs in
    `taken` (`motif_of`) stand on other labels already, those in `others` on the pieces of other sets.
    """
    size = (min(SIZE[0], max(room)), min(SIZE[1], min(room)))
    box = Rect(0.0, 0.0, *size).inset(CONTENT_INSET)
    marks: list[Mark] = []
    if min(size) > 2 * HAIRLINE_INSET:
        marks.append(hairline(size, accent(tray)))
    if min(box.width, box.height) > 4:
        if box.width > 60:
            side = min(22.0, box.height)
            spot = Rect(box.right - side, box.top, side, box.height).inset(_AIR)
            marks.append(picture(_drawing(tray, pieces, taken, others), spot))
            box = Rect(box.left, box.top, box.width - side - 4.0, box.height)
        marks += _set(_lines(tray, pieces, needs, texts, title), box)
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key="label",
        width=size[0],
        height=size[1],
        front=Face(marks=tuple(marks)),
        facts=LabelFacts(label=tray.set, pieces=len(pieces), gather=gathered(needs)),
        stock=tray.stock,
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class _Line:
    text: str
    size: float
    bold: bool = False
    color: Color = INK
    parts: int = 1


def _lines(tray: Tray, pieces, needs, texts: Catalogue, title: str) -> list[_Line]:
    about = f"{range_words(tray, texts)} · {pieces_words(len(pieces), texts)}"
    lines = [
        _Line(text=title, size=2.6, color=_QUIET),
        _Line(text=tray.child.name, size=8.0, bold=True),
        _Line(text=set_title(tray, texts), size=5.0),
        _Line(text=about, size=3.6, color=_QUIET, parts=2),
    ]
    users = users_words(tray)
    if users:
        lines.append(_Line(text=users, size=3.6, color=_QUIET))
    things = gather_words(needs, tray.child.units, texts)
    if things:
        words = texts.say("label.gather", things=", ".join(things))
        lines.append(_Line(text=words, size=3.6, color=_QUIET, parts=2))
    return lines


def _parted(line: _Line, width: float) -> list[_Line]:
    """A line as two where it may be parted and would get too small to read as one."""
    words = line.text.split(" ")
    if line.parts < 2 or letters.text_width(line.text, _READABLE) <= width or len(words) < 2:
        return [line]
    fitting = [
        n for n in range(len(words) - 1, 0, -1) if letters.text_width(" ".join(words[:n]), _READABLE) <= width
    ] or [1]
    first = next((n for n in fitting if words[n][:1] in "(·" or words[n - 1].endswith(",")), fitting[0])
    halves = (" ".join(words[:first]).removesuffix(" ·"), " ".join(words[first:]).removeprefix("· "))
    return [replace(line, text=half) for half in halves]


def _set(lines: Sequence[_Line], box: Rect) -> list[Mark]:
    """The lines one under the other in the middle of the box's height, each as wide as it allows."""
    lead = 1.32
    lines = [part for line in lines for part in _parted(line, box.width)]
    scale = min(1.0, box.height / sum(lead * line.size for line in lines))
    sizes = [letters.shrink_to((line.text,), box.width, line.size * scale, bold=line.bold) for line in lines]
    runs = [letters.run(line.text, size, bold=line.bold) for line, size in zip(lines, sizes, strict=True)]
    # Ink counts where it is taller than a line, as with two accents on a capital.
    above = [max(0.95 * run.size, -run.ink[1]) for run in runs]
    below = [max((lead - 0.95) * run.size, run.ink[3]) for run in runs]
    top = box.top + max(0.0, box.height - sum(above) - sum(below)) / 2
    marks: list[Mark] = []
    for line, run, up, down in zip(lines, runs, above, below, strict=True):
        x, y = micrometres(box.left - min(0.0, run.ink[0])), micrometres(top + up)
        marks.append(Text(run=run, x=x, y=y, color=line.color))
        top += up + down
    return marks


def _drawing(
    tray: Tray, pieces: Sequence[Piece], taken: Collection[str], others: Collection[str]
) -> Drawing:
    """A picture that the set shows, or one of the theme: a child who cannot read finds the tray by it.

    Rather two labels are alike than that one shows what lies on another tray.
    """
    shown = _ranked(pieces[:3])
    motifs = tray.child.theme.motifs
    plain = [motif.drawing(tray.child.ink, size=22.0) for motif in motifs]
    whole = {drawing.name for drawing in plain}
    # Further on in a set a picture may be varied, or part of one.
    more = [drawing for drawing in _ranked(pieces) if drawing.name in whole]
    own = (each for each in (*shown[:1], *more) if motif_of(each) not in taken)
    free = (each for each in plain if motif_of(each) not in taken and motif_of(each) not in others)
    return next(own, None) or next(free, None) or (shown or plain)[0]


def own_motif(pieces: Sequence[Piece]) -> str:
    """The motif that a set is known by, '' for one without pictures."""
    return next((motif_of(drawing) for drawing in _ranked(pieces[:3])), "")


def _ranked(pieces: Sequence[Piece]) -> list[Drawing]:
    """The pictures on the fronts, the commonest first, as a single one may be the odd one out."""
    counts = Counter(
        mark.drawing
        for piece in pieces
        for mark in piece.front.marks
        if isinstance(mark, Picture) and not is_border(mark.drawing)
    )
    return [drawing for drawing, _ in counts.most_common()]


def motif_of(drawing: Drawing) -> str:
    """Theme and motif of a picture, however it is varied or inked."""
    return drawing.name.partition(" ")[0]
