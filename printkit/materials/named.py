"""Which motifs a list or a set of labels shows, and what they are called there."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from printkit.checks import Wrong, found
from printkit.errors import Problem, listing, nearest
from printkit.materials.base import problem
from printkit.pack import Child, Tray
from printkit.texts import Note

if TYPE_CHECKING:
    from printkit.pictures import Motif


@dataclass(frozen=True, slots=True)
class MotifNames:
    """The name of a motif, or a list of different ones; always read as a tuple.

    Which motifs there are is asked later: the theme is not known where settings are read.
    """

    def read(self, value: Any) -> Any:
        several = value if isinstance(value, list) else [value]
        names = [name.strip() for name in several if isinstance(name, str) and name.strip()]
        if not several or len(names) < len(several) or len(set(names)) < len(names):
            return Wrong(found=found(value), allowed=self.allowed())
        return tuple(names)

    def allowed(self) -> str:
        return "the name of a motif, or a list of different ones"


def wanted_motifs(
    tray: Tray, names: Sequence[str], pool: Sequence["Motif"]
) -> tuple[tuple["Motif", ...], tuple[Problem, ...]]:
    """The motifs of these names in their order, all of `pool` for none; a problem for each wrong name."""
    if not names:
        return tuple(pool), ()
    by_key = {motif.key: motif for motif in tray.child.theme.motifs}
    problems = tuple(
        problem(tray, "motifs", f"the theme has no motif '{name}'", listing(by_key), nearest(name, by_key))
        for name in names
        if name not in by_key
    )
    return tuple(by_key[name] for name in names if name in by_key), problems


Called = tuple[tuple[str, str], ...]
"""What a motif is called: (language tag, name), one a language."""


def called(motif: "Motif", child: Child, n: int = 1) -> Called:
    """The names of `n` of a motif in the child's languages.

    Where the theme has none of them, the one it has in English or of the file's name stands in.
    """
    from printkit.pictures.plurals import best, category, own

    names = [(tag, own(tag, motif.names)) for tag in child.languages]
    said = tuple((tag, name.form(category(tag, n))) for tag, name in names if name is not None)
    if said:
        return said
    leading = child.languages[0]
    other = best(leading, motif.names)
    return ((other[0] if other else leading, motif.name(leading, n)),)


def unnamed(motifs: Sequence["Motif"], child: Child) -> tuple[str, ...]:
    """A sentence for each language in which the theme does not name every motif; none for bare files."""
    notes = []
    for tag in child.languages:
        missing = [motif.key for motif in motifs if motif.names and tag not in dict(called(motif, child))]
        if missing:
            many = len(missing) > 4
            notes.append(
                Note("notes.unnamed_many", tag=tag)
                if many
                else Note("notes.unnamed", motifs=tuple(missing), tag=tag)
            )
    return tuple(notes)
