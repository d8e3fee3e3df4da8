"""Who sets off on a way, and where it leads: a traveler that faces the way, and a thing that stays."""

from typing import TYPE_CHECKING

from printkit.chance import Chance
from printkit.pack import Tray

if TYPE_CHECKING:
    from printkit.pictures import Motif


def pair(tray: Tray, chance: Chance, goal: "Motif | None") -> "tuple[Motif, Motif]":
    """A picture to start from and another one to come to; the same where there is no other.

    Where the theme says which way things face, one of these sets off, and the way leads to a thing
    that stays, unless the tray names its goal.
    """
    mixed = chance.shuffled(tray.child.theme.counted)
    travelers = [motif for motif in mixed if motif.faces]
    still = [motif for motif in mixed if not motif.faces]
    end = goal or (still[0] if travelers and still else mixed[0])
    start = next((motif for motif in (*travelers, *mixed) if motif is not end), end)
    return start, end


def turned(motif: "Motif", runs: str) -> bool:
    """Whether a traveler has to be mirrored to look along a way that is followed from the side `runs`."""
    return motif.faces == runs
