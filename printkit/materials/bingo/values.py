"""What a game of bingo is played with: its numbers or pictures, and what the caller shows."""

from typing import TYPE_CHECKING

from printkit.chance import Chance
from printkit.materials.bingo.boards import LEAST_VALUES, MOST_VALUES, cells_of, usual_shape
from printkit.materials.quantities import spread_choice, widened
from printkit.pack import Tray

if TYPE_CHECKING:
    from printkit.pictures import Motif

MOST_CALLED_IN_THINGS = 20
"""How many things call a number, unless asked for: CCSSM K.CC.B.5 asks 'how many?' of up to 20."""


def least_values(tray: Tray) -> int:
    """How many numbers the boards need: one more than a board has cells."""
    shape = tray.settings.shape
    return cells_of(shape) + 1 if shape else LEAST_VALUES


def used(tray: Tray) -> tuple[int, int]:
    """The first and the last number of the game."""
    return widened(tray.child.numbers, least_values(tray))


def shape_of_boards(tray: Tray, values: int) -> str:
    """The shape asked for, or the one that suits so many values."""
    return tray.settings.shape or usual_shape(values)


def most_values(tray: Tray) -> int:
    """How many values a game has at most: twenty, or twice what a board holds."""
    shape = tray.settings.shape
    return max(MOST_VALUES, 2 * cells_of(shape) if shape else 0)


def numbers_of(seed: int, tray: Tray) -> tuple[int, ...]:
    """The numbers of a game, rising: all of the range, or a spread choice where it is long."""
    first, last = used(tray)
    chance = Chance(seed, tray.child.name, tray.set, "numbers")
    return spread_choice(range(first, last + 1), most_values(tray), chance)


def motifs_of(seed: int, tray: Tray) -> tuple["Motif", ...]:
    """The pictures of a game, in the theme's order."""
    motifs = tray.child.theme.motifs
    chance = Chance(seed, tray.child.name, tray.set, "motifs")
    kept = set(chance.shuffled(range(len(motifs)))[: most_values(tray)])
    return tuple(motif for n, motif in enumerate(motifs) if n in kept)


def calls_for(tray: Tray) -> str:
    """What the calling cards show: what is asked for, or what makes a child work out the match."""
    settings = tray.settings
    if settings.board == "pictures":
        return "pictures"
    if settings.calls is not None:
        return settings.calls
    if settings.board != "numerals":
        return "numerals"
    return "things" if used(tray)[1] <= MOST_CALLED_IN_THINGS else "words"
