"""The guide put together: its sections in order, its page numbers settled."""

from collections.abc import Mapping, Sequence

from printkit.guide.cutting import cutting
from printkit.guide.flow import Strip, height_of, look_of, pages, settled
from printkit.guide.gathering import cautions, gathering
from printkit.guide.lines import say
from printkit.guide.opening import first_page
from printkit.guide.printing import printing
from printkit.guide.sets import GuideSet
from printkit.guide.teaching import keyed, keys, trays
from printkit.guide.weeks import weeks
from printkit.materials.layout import accent
from printkit.pack import Pack
from printkit.sheets.model import Page, SheetFile
from printkit.texts import Catalogue


def guide(
    pack: Pack, sets: Sequence[GuideSet], files: Sequence[SheetFile], texts: Catalogue
) -> tuple[Page, ...]:
    """The pages of the guide in the language of `texts`. Raises KeyError for a gap in the catalogue."""
    look = look_of(pack.paper, pack.margin, accent(pack.children[0].trays[0]))

    def strips(known: Mapping[str, int]) -> tuple[Strip, ...]:
        opening = (
            *first_page(look, pack, sets, files, texts, contents(sets, texts), known),
            *cautions(look, sets, pack.units, texts),
        )
        # A full first page stays by itself; where there is room, what follows goes on below it.
        alone = 2 / 3 * look.room <= height_of(opening) <= look.room
        return (
            *opening,
            *printing(look, sets, files, pack.units, texts, fresh=alone),
            *gathering(look, sets, pack.units, texts, known),
            *cutting(look, sets, files, pack.units, texts),
            *trays(look, pack, sets, files, texts, known),
            *weeks(look, pack, sets, texts, known),
            *keys(look, sets, texts),
        )

    return pages(settled(strips, look), look, (pack.title, say(texts, "guide.head")))


def contents(sets: Sequence[GuideSet], texts: Catalogue) -> dict[str, str]:
    """The title of each section by its anchor."""
    names = ["cautions", "print", "gather", "cut", "trays", "weeks"]
    names += ["keys"] if keyed(sets, texts) else []
    return {name: say(texts, f"guide.{name}.title") for name in names}
