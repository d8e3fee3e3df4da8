"""Which picture of the theme a set counts: one for the whole set, so that nothing is matched by look."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from printkit.chance import Chance
from printkit.errors import Problem, listing, nearest
from printkit.materials.base import problem
from printkit.pack import Tray
from printkit.pieces import Drawing

if TYPE_CHECKING:
    from printkit.pictures import Motif


@dataclass(frozen=True, kw_only=True, slots=True)
class ChosenMotif:
    """The motif of a set, or the problem with the one that was asked for."""

    tray: Tray
    motif: "Motif | None" = None
    problem: Problem | None = None

    @property
    def ok(self) -> bool:
        return self.motif is not None

    def drawing(self, size: float) -> Drawing:
        """The motif in the tray's ink, meant to be printed `size` mm long."""
        return self.motif.drawing(self.tray.child.ink, size=round(size, 1))


def chosen_motif(seed: int, tray: Tray) -> ChosenMotif:
    """The motif the pack file names, or one by chance that hangs on child and set only."""
    theme = tray.child.theme
    wanted = tray.settings.motif
    if wanted is None:
        chance = Chance(seed, tray.child.name, tray.set, "motif")
        return ChosenMotif(tray=tray, motif=chance.choice(theme.counted))
    found = next((motif for motif in theme.motifs if motif.key == wanted), None)
    if found is None:
        keys = [motif.key for motif in theme.motifs]
        return ChosenMotif(
            tray=tray,
            problem=problem(
                tray, "motif", f"the theme has no motif '{wanted}'", listing(keys), nearest(wanted, keys)
            ),
        )
    return ChosenMotif(tray=tray, motif=found)
