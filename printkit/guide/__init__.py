"""The guide for the adult: print, cut, gather, present, watch. Made of the pieces and facts of a pack.

In: the checked pack, its sets with what was made for them, the files of sheets. Out: pages of
marks, like any sheet's, which the writer draws.
"""

from collections.abc import Sequence

from printkit.guide.sets import GuideSet
from printkit.pack import Pack
from printkit.sheets.model import Page, SheetFile
from printkit.texts import catalogue

__all__ = ["GuideSet", "guide_pages"]


def guide_pages(pack: Pack, sets: Sequence[GuideSet], files: Sequence[SheetFile]) -> tuple[Page, ...]:
    """The pages of the guide on the pack's paper, in its guide's language and its units.

    `sets` are all sets of the pack in its order, `files` all files of sheets. Paper that leaves less
    than 100 x 130 mm to read on is passed over for A4. Raises KeyError if the catalogue of that
    language has a gap.
    """
    from printkit.guide.content import guide  # `check` and lists do without it

    return guide(pack, sets, files, catalogue(pack.guide))
