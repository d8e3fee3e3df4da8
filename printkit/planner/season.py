"""The plan of a season: the children's trays -> which sets are out in which week, and why."""

from collections.abc import Iterable, Sequence

from printkit.pack import ChildTrays, Tray
from printkit.planner.areas import area_of, partner, stands, step_of
from printkit.planner.model import Area, ChildPlan, Move, Reason, Season, Week
from printkit.planner.rotation import Thing, Turn, calm_weeks, turns


def season(children: Iterable[ChildTrays], weeks: int) -> Season:
    """The weeks of each child by the rules of `rotation`: a child's plan depends on no other child."""
    return Season(children=tuple(child_plan(item.child.name, item.trays, weeks) for item in children))


def child_plan(child: str, trays: Sequence[Tray], weeks: int) -> ChildPlan:
    """The weeks of one child. Sets that go together come and go together; standing ones are always out."""
    areas = {tray.set: area_of(tray) for tray in trays}
    standing = tuple(tray.set for tray in trays if stands(tray))
    with_it: dict[str, list[str]] = {}
    for tray in trays:
        other = partner(tray, trays)
        if other is not None:
            with_it.setdefault(other.set, []).append(tray.set)
    joined = {name for names in with_it.values() for name in names}
    things = [
        Thing(name=tray.set, area=areas[tray.set], step=step_of(tray, place))
        for place, tray in enumerate(trays)
        if tray.set not in standing and tray.set not in joined
    ]
    found = turns(things, weeks)
    reasons = _Reasons(found, areas, with_it, standing)
    calm = calm_weeks(len(things))
    return ChildPlan(
        child=child,
        weeks=tuple(reasons.week(number, turn) for number, turn in enumerate(found, 1)),
        areas=tuple(areas.items()),
        standing=standing,
        all_stay=bool(things) and calm <= weeks and not any(turn.away for turn in found),
        calm=calm if calm > weeks else None,
    )


class _Reasons:
    """Lays moves and their reasons over bare turns."""

    def __init__(
        self,
        found: Sequence[Turn],
        areas: dict[str, Area],
        with_it: dict[str, list[str]],
        standing: tuple[str, ...],
    ):
        self.found, self.areas, self.with_it, self.standing = found, areas, with_it, standing
        self.order = [name for turn in found for name in turn.new]

    def week(self, number: int, turn: Turn) -> Week:
        first = self.standing if number == 1 else ()
        new = [Move(set=name, reason=Reason(key="stands", area=self.areas[name])) for name in first]
        new += self.moves(turn.new, self.comes)
        return Week(
            number=number,
            new=tuple(new),
            back=self.moves(turn.back, self.returns),
            away=self.moves(turn.away, lambda name: self.goes(name, turn)),
            out=(*self.standing, *self.together(turn.out)),
        )

    def moves(self, names: Iterable[str], reason) -> tuple[Move, ...]:
        """A move for each name, and for what goes with it."""
        found: list[Move] = []
        for name in names:
            found.append(Move(set=name, reason=reason(name)))
            found += (
                Move(set=other, reason=Reason(key="together", area=self.areas[other], others=(name,)))
                for other in self.with_it.get(name, ())
            )
        return tuple(found)

    def together(self, names: Iterable[str]) -> list[str]:
        return [each for name in names for each in (name, *self.with_it.get(name, ()))]

    def comes(self, name: str) -> Reason:
        area = self.areas[name]
        own = [other for other in self.order if self.areas[other] == area]
        place = own.index(name)
        if place:
            return Reason(key="follows", area=area, others=(own[place - 1],))
        if area == "operations":
            counting = next((other for other in self.order if self.areas[other] == "counting"), None)
            if counting is not None:
                return Reason(key="sums", area=area, others=(counting,))
        return Reason(key="only" if len(own) == 1 else "opens", area=area)

    def returns(self, name: str) -> Reason:
        return Reason(key="favorite", area=self.areas[name], weeks=self.came(name))

    def came(self, name: str) -> int:
        """The week in which a set came."""
        return next(number for number, turn in enumerate(self.found, 1) if name in turn.new)

    def goes(self, name: str, turn: Turn) -> Reason:
        area = self.areas[name]
        others = tuple(other for other in turn.out if self.areas[other] == area)
        return Reason(key="makes_room", area=area, others=others, weeks=self.came(name))
