"""The checked pack: every key resolved for every child and tray."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from printkit.letters import Numerals
from printkit.pieces import Stock
from printkit.words import spell

if TYPE_CHECKING:
    from printkit.pictures import Theme


@dataclass(frozen=True, kw_only=True, slots=True)
class Flips:
    """How the paper is turned over for its back, by stock."""

    plain: Literal["long", "short", "hand", "none"] = "long"
    card: Literal["long", "short", "hand", "none"] = "hand"

    def of(self, stock: Stock) -> Literal["long", "short", "hand", "none"]:
        return self.card if stock == "card" else self.plain


@dataclass(frozen=True, kw_only=True, slots=True)
class Child:
    """A child with every key resolved.

    `paper` is (width, height) in mm, upright; `back_shift` by how many mm backs are moved to the right
    and down on their page, against what the printer is off by; `words` the choice of number words by
    language tag; `numerals` holds the digits of the leading language if `digits` is 'native'.
    """

    name: str
    theme: "Theme"
    paper: tuple[float, float]
    paper_name: str
    languages: tuple[str, ...]
    words: tuple[tuple[str, str], ...]
    unreviewed: bool
    letters: str | None
    guide: str
    units: Literal["mm", "in", "both"]
    ink: Literal["color", "gray", "outline"]
    flip: Flips
    margin: float
    back_shift: tuple[float, float]
    save: Literal["paper", "order"]
    gap: float
    corner: float
    stack: bool
    counter: float
    numerals: Numerals
    digits: Literal["western", "native"]
    numbers: tuple[int, int]
    sums_to: int | None
    lookalike: int
    hand: Literal["left", "right"]

    def spelled(self, tag: str, number: int) -> str:
        """The number word as this child's family chose it. Raises what `words.spell` raises."""
        return spell(tag, number, dict(self.words).get(tag, ""))


@dataclass(frozen=True, kw_only=True, slots=True)
class Tray:
    """What one material makes for one child; `child` holds the keys as this tray sees them."""

    material: str
    set: str
    child: Child
    stock: Stock
    size: str | tuple[float, float] | None
    settings: Any
    places: tuple[tuple[str, str], ...]

    def place(self, key: str = "") -> str:
        """Where `key` stands for this tray, as problems name it; the tray itself if nowhere."""
        places = dict(self.places)
        return places.get(key, places[""])


@dataclass(frozen=True, kw_only=True, slots=True)
class ChildTrays:
    """A child and the trays made for it, in the order of the pack file.

    `keep`, `skip` and `again` name sets for which the adult's word stands above the rule of climbing:
    left as they are; left out of the next season; there to be repeated as long as they are used.
    """

    child: Child
    trays: tuple[Tray, ...]
    keep: tuple[str, ...] = ()
    skip: tuple[str, ...] = ()
    again: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Pack:
    """All that is made for one season."""

    title: str
    seed: int
    guide: str
    units: Literal["mm", "in", "both"]
    paper: tuple[float, float]
    margin: float
    children: tuple[ChildTrays, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class MaterialKeys:
    """What the pack reader must know of a material: its settings' class, usual stock and ladder."""

    settings: type
    stock: Stock
    track: str | None = None
