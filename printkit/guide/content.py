"""The guide put together: its sections in order, its page numbers settled."""

from collections.abc import Mapping, Sequence

from printkit.guide.cutting import cutting
from printkit.guide.flow import Look, Strip, look_of, pages, settled
from printkit.guide.gathering import cautions, gathering
from printkit.guide.lines import say
from printkit.guide.opening import first_page
from printkit.guide.printing import printing
from printkit.guide.sets import GuideSet, first_child
from printkit.guide.teaching import keyed, keys, trays
from printkit.materials.layout import accent
from printkit.pack import Pack
from printkit.sheets.model import Page, SheetFile
from printkit.texts import Catalogue


def guide(
    pack: Pack, sets: Sequence[GuideSet], files: Sequence[SheetFile], texts: Catalogue
) -> tuple[Page, ...]:
    """The pages of the guide in the language of `texts`. Raises KeyError for a gap in the catalogue."""
    look = look_of(pack.paper, pack.margin, accent(sets[0].tray))

    def strips(known: Mapping[str, int]) -> tuple[Strip, ...]:
        return (
            *first_page(look, pack, sets, files, texts, contents(sets, texts), known),
            *printing(look, sets, files, pack.units, texts),
            *cutting(look, sets, files, pack.units, texts),
            *gathering(look, sets, pack.units, texts),
            *trays(look, sets, pack.units, texts, known),
            *keys(look, sets, texts),
            *cautions(look, sets, pack.units, texts),
        )

    return pages(settled(strips, look), look, (pack.title, say(texts, "guide.head")))


def contents(sets: Sequence[GuideSet], texts: Catalogue) -> dict[str, str]:
    """The title of each section by its anchor."""
    names = ["print", "cut", "gather", "trays", *(["keys"] if keyed(sets, texts) else []), "cautions"]
    return {name: say(texts, f"guide.{name}.title") for name in names}
