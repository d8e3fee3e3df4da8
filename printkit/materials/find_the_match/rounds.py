"""Which look-alikes a sample of find-the-match has: what is measured to differ from it, and no more."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from printkit.chance import Chance
from printkit.errors import Problem, listing
from printkit.materials.base import problem
from printkit.pack import Tray

if TYPE_CHECKING:
    from printkit.pictures import Difference, Look, Motif

KINDS = 6
"""How many sorts of look-alikes a field has at most: more is not harder, only restless."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Round:
    """The sample and its look-alikes, before they are laid."""

    motif: str
    sample: "Look"
    kinds: tuple["Difference", ...]


def rounds(seed: int, tray: Tray, size: float) -> list[Round]:
    """As many rounds as asked for, every motif once before any comes again."""
    chance = Chance(seed, tray.child.name, tray.set, "rounds")
    theme, found = tray.child.theme, []
    for motif in chance.shuffled(theme.motifs):
        round_ = _round(tray, motif, round(size, 1), chance.again(motif.key))
        if round_ is not None:
            found.append(round_)
        if len(found) == tray.settings.count:
            break
    return [found[n % len(found)] for n in range(tray.settings.count)] if found else []


def _round(tray: Tray, motif: "Motif", size: float, chance: Chance) -> Round | None:
    """The sample of one motif with the look-alikes that can be told from it; None if none can."""
    alike: dict[Look, list[Difference]] = {}
    for difference in _differences(tray, motif, size, chance):
        kinds = alike.setdefault(difference.alike, [])
        if all(difference.odd != other.odd for other in kinds):
            kinds.append(difference)
        if len(kinds) == KINDS:
            break
    if not alike:
        return None
    sample, kinds = max(alike.items(), key=lambda item: len(item[1]))
    return Round(motif=motif.key, sample=sample, kinds=tuple(kinds))


def _differences(tray: Tray, motif: "Motif", size: float, chance: Chance) -> Iterator["Difference"]:
    """What can be seen to differ from a motif, in a chance order, measured one by one."""
    from printkit.pictures import candidates

    child = tray.child
    for candidate in chance.shuffled(candidates(child.theme, motif, child.lookalike, child.ink, size)):
        found = candidate()
        if found is not None:
            yield found


def none_visible(tray: Tray, size: float) -> Problem:
    """No picture of the theme has a look-alike of this level; says which levels there are."""
    from printkit.pictures import differences

    child = tray.child
    levels = [n for n in range(1, 7) if differences(child.theme, n, child.ink, round(size, 1))]
    return problem(
        tray,
        "lookalike",
        f"the theme '{child.theme.name}' has no difference of look-alike level {child.lookalike} "
        f"that can be seen in {child.ink} and in gray",
        f"{listing(levels) or 'none with this theme'}; a theme with more or richer pictures has more",
    )
