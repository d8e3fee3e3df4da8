"""The checked pack: every key resolved for every child and tray."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from printkit.files import same_name
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
class User:
    """One of the children who share trays, and the child's own numbers."""

    name: str
    numbers: tuple[int, int]


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """Where the word for a key came from.

    `value` is as a pack file writes it; `level` who says it (see `levels.Rank`); `file` and `line` where
    it stands, '' and 0 if in no file; `over` where a child's own word in the family's file stands
    that it wins over, '' if there is none; `usual` whether the value is the default one.
    """

    key: str
    value: str
    level: str
    file: str = ""
    line: int = 0
    over: str = ""
    usual: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Child:
    """A child with every key resolved.

    `paper` is (width, height) in mm, upright; `back_shift` by how many mm backs are moved to the right
    and down on their page, against what the printer is off by; `words` the choice of number words by
    language tag; `numerals` holds the digits of the leading language if `digits` is 'native'; `needs` holds
    any of 'large', 'easy-grip' and 'color-safe', in this order; `start` the rungs it stands on, at most one a
    ladder. `users` are those who share these trays; then this is no single child, and `name` is what they are
    called.
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
    needs: tuple[str, ...]
    users: tuple[User, ...] = ()
    start: tuple[str, ...] = ()

    def spelled(self, tag: str, number: int) -> str:
        """The number word as this child's family chose it. Raises what `words.spell` raises."""
        return spell(tag, number, dict(self.words).get(tag, ""))


@dataclass(frozen=True, kw_only=True, slots=True)
class Tray:
    """What one material makes for one child; `child` holds the keys as this tray sees them.

    `sources` say where the keys stand that the tray itself sets anew.
    """

    material: str
    set: str
    child: Child
    stock: Stock
    size: str | tuple[float, float] | None
    settings: Any
    places: tuple[tuple[str, str], ...]
    sources: tuple[Source, ...] = ()

    def place(self, key: str = "") -> str:
        """Where `key` stands for this tray, as problems name it; the tray itself if nowhere."""
        places = dict(self.places)
        return places.get(key, places[""])


@dataclass(frozen=True, kw_only=True, slots=True)
class ChildTrays:
    """A child, or several who share (`child.users`), and the trays made, in the order of the pack file.

    `keep`, `skip` and `again` name sets for which the adult's word stands above the rule of climbing:
    left as they are; left out of the next season; there to be repeated as long as they are used.
    """

    child: Child
    trays: tuple[Tray, ...]
    sources: tuple[Source, ...] = ()
    keep: tuple[str, ...] = ()
    skip: tuple[str, ...] = ()
    again: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Pack:
    """All that is made for one season.

    `children` are those who have trays of their own, then those who share some; `people` every single
    child of the pack with its own keys; `family` the name of the family's file that was read, '' if none;
    `weeks` how long the season lasts.
    """

    title: str
    seed: int
    guide: str
    units: Literal["mm", "in", "both"]
    paper: tuple[float, float]
    margin: float
    children: tuple[ChildTrays, ...]
    weeks: int = 6
    people: tuple[Child, ...] = ()
    family: str = ""
    notes: tuple[str, ...] = ()

    def person(self, name: str) -> Child | None:
        """The child of that name, however it is written ('wren' is Wren); None if there is none."""
        return next((child for child in self.people if same_name(child.name, name)), None)

    def trays_of(self, name: str) -> tuple[Tray, ...]:
        """The trays that a child uses: its own, then those it shares. Their sets differ in name."""
        return tuple(
            tray
            for item in self.children
            if any(same_name(user, name) for user in _names(item.child))
            for tray in item.trays
        )

    def who_uses(self, set_name: str) -> tuple[str, ...]:
        """The names of all children who have a set of that name, shared or of their own."""
        users = (
            user
            for item in self.children
            if any(same_name(tray.set, set_name) for tray in item.trays)
            for user in _names(item.child)
        )
        return tuple(dict.fromkeys(users))


def _names(child: Child) -> tuple[str, ...]:
    """The single children behind a name."""
    return tuple(user.name for user in child.users) or (child.name,)


@dataclass(frozen=True, kw_only=True, slots=True)
class MaterialKeys:
    """What the pack reader must know of a material: its settings' class and its usual stock."""

    settings: type
    stock: Stock
