"""What the letters of patterns stand for: pictures that can be told apart, or one in several sizes."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from printkit.chance import Chance
from printkit.errors import Problem
from printkit.materials.base import problem
from printkit.materials.named import wanted_motifs
from printkit.materials.patterns.faces import Thing
from printkit.pack import Tray
from printkit.texts import Note

if TYPE_CHECKING:
    from printkit.pictures import Ink, Motif

SCALES = {2: (1.0, 0.55), 3: (1.0, 0.7, 0.45)}
"""Sizes of one picture, as shares of the largest: at most seven tenths of the one before (design choice)."""
_COMPARED = 12.0
"""mm at which two pictures are compared."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Scaled:
    """A motif at a share of the full size."""

    motif: "Motif"
    scale: float

    def drawn(self, ink: "Ink", full: float) -> Thing:
        """As it is drawn where the largest picture is `full` mm long."""
        length = round(full * self.scale, 3)
        return Thing(motif=self.motif, drawing=self.motif.drawing(ink, size=round(length, 1)), length=length)


@dataclass(frozen=True, kw_only=True, slots=True)
class Chosen:
    """What each letter of each strip stands for."""

    strips: tuple[Mapping[str, Scaled], ...]
    notes: tuple[str, ...] = ()

    @property
    def smallest(self) -> float:
        """The smallest share of the full size that is drawn."""
        return min(item.scale for strip in self.strips for item in strip.values())


def chosen_things(seed: int, tray: Tray, letters: Sequence[str]) -> "Chosen | Problem":
    """Things for strips with these letters, other pictures on each where the theme has them."""
    asked = tray.settings.motifs
    most = max(len(item) for item in letters)
    pool, problems = wanted_motifs(tray, asked, _pool(tray, most))
    if problems:
        return problems[0]
    chance = Chance(seed, tray.child.name, tray.set, "pictures")
    differ = tray.settings.differ
    if differ != "sizes":
        strips = _by_pictures(tray, letters, chance.shuffled(pool))
        if strips is not None:
            return Chosen(strips=strips)
        if differ == "pictures":
            return _too_few(tray, most, bool(asked))
    notes = () if differ == "sizes" else (_sized(most, bool(asked)),)
    return Chosen(strips=_by_sizes(letters, chance.shuffled(pool), chance), notes=notes)


def _pool(tray: Tray, most: int) -> "Sequence[Motif]":
    """Pictures of one thing each, where there are enough of them."""
    theme = tray.child.theme
    return theme.counted if len(theme.counted) >= most else theme.motifs


def _sized(most: int, asked: bool) -> str:
    return Note("notes.sized_asked" if asked else "notes.sized", most=most)


def _too_few(tray: Tray, most: int, asked: bool) -> Problem:
    where = "among these motifs" if asked else f"in the theme '{tray.child.theme.name}'"
    return problem(
        tray,
        "motifs" if asked else "differ",
        f"there are no {most} pictures {where} that can be told apart in {tray.child.ink}",
        f'at least {most} motifs, or differ = "sizes"',
    )


def _by_pictures(tray: Tray, letters: Sequence[str], pool) -> tuple[dict[str, Scaled], ...] | None:
    """Pictures for each strip, those used least first; None if too few can be told apart."""
    uses: Counter[str] = Counter()
    strips = []
    for strip in letters:
        ordered = sorted(pool, key=lambda motif: uses[motif.key])
        found = next(
            (group for first in ordered if len(group := _apart(first, ordered, tray.child.ink, len(strip)))
             == len(strip)),
            None,
        )  # fmt: skip
        if found is None:
            return None
        uses.update(motif.key for motif in found)
        strips.append(
            {letter: Scaled(motif=motif, scale=1.0) for letter, motif in zip(strip, found, strict=True)}
        )
    return tuple(strips)


def _apart(first: "Motif", ordered: "Sequence[Motif]", ink: "Ink", count: int) -> "list[Motif]":
    """Up to `count` motifs from the first on that can all be told apart."""
    group = [first]
    for motif in ordered:
        if len(group) == count:
            break
        if motif is not first and all(told_apart(motif, other, ink) for other in group):
            group.append(motif)
    return group


@lru_cache(maxsize=2048)
def told_apart(one: "Motif", two: "Motif", ink: "Ink") -> bool:
    """Whether two pictures are seen as different in an ink, by the floors of `pictures.seen`."""
    from printkit.pictures.seen import Look, measure, pixels

    looks = [pixels(Look(drawing=motif.drawing(ink, size=_COMPARED)), _COMPARED) for motif in (one, two)]
    return measure(ink, one.is_photo or two.is_photo)(looks[0], looks[1]) is not None


def _by_sizes(letters: Sequence[str], pool, chance: Chance) -> tuple[dict[str, Scaled], ...]:
    """One picture a strip, its sizes in a chance order."""
    return tuple(
        {
            letter: Scaled(motif=pool[n % len(pool)], scale=scale)
            for letter, scale in zip(
                strip, chance.again(f"sizes/{n}").shuffled(SCALES[len(strip)]), strict=True
            )
        }
        for n, strip in enumerate(letters)
    )
