"""The season week by week: what comes out on which day and why, what to look for, a table to tick."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from printkit.guide.blocks import items, labelled, paragraph, section, small, subsection
from printkit.guide.flow import Look, Strip, glued, height_of, spaced
from printkit.guide.lines import bold, say, say_all, say_count
from printkit.guide.sets import GuideSet, by_child
from printkit.guide.teaching import tray_anchor
from printkit.guide.ticks import Row, date_line, legend, overview, side_by_side, tick_table
from printkit.guide.trays import tray_words
from printkit.labels import set_title
from printkit.pack import Pack, Tray
from printkit.planner import ChildPlan, Move, Season, Week, child_plan
from printkit.planner.days import Day, Event, days, leaving, still_out
from printkit.planner.told import reason_words
from printkit.texts import Catalogue

_MOST_ACROSS = 8
"""With no more weeks than these two children's tables stand side by side."""


class _Book(NamedTuple):
    """What every part of the section is told."""

    look: Look
    plan: Season
    sets: Mapping[tuple[str, str], GuideSet]
    texts: Catalogue
    known: Mapping[str, int]

    def say(self, key: str, **values: object) -> str:
        return say(self.texts, f"weeks.guide.{key}", **values)

    def title(self, child: str, name: str) -> str:
        return set_title(self.sets[child, name].tray, self.texts)

    def short(self, child: str, name: str) -> str:
        """A set within a sentence: its own name in quotation marks, else what its material is called."""
        tray = self.sets[child, name].tray
        if tray.set == tray.material:
            return set_title(tray, self.texts)
        return say(self.texts, "guide.quoted", title=tray.set)

    def why(self, child: str, move: Move) -> str:
        return reason_words(move.reason, lambda name: self.short(child, name), self.texts)

    def page(self, child: str, move: Move) -> int:
        """Where the guide says how the set is shown."""
        return self.known.get(tray_anchor(self.sets[child, move.set]), 1)

    def listed(self, words: Sequence[str]) -> str:
        return self.texts.listing(words)


def plan_of(pack: Pack, sets: Sequence[GuideSet]) -> Season:
    """The plan of the sets that were made."""
    return Season(
        children=tuple(
            child_plan(child, [item.tray for item in own], pack.weeks)
            for child, own in by_child(sets).items()
        )
    )


def weeks(
    look: Look, pack: Pack, sets: Sequence[GuideSet], texts: Catalogue, known: Mapping[str, int]
) -> tuple[Strip, ...]:
    """The section 'Week by week': the plan at a glance, then a page a week."""
    found = {(item.tray.child.name, item.tray.set): item for item in sets}
    book = _Book(look, plan_of(pack, sets), found, texts, known)
    strips = [*section(look, say(texts, "guide.weeks.title"), "weeks", fresh=True, want=90.0)]
    strips += spaced(paragraph(look, book.say("how")), 1.0)
    strips += spaced(items(look, say_all(texts, "weeks.guide.rules", n=_places(book.plan))), 1.5)
    strips += spaced(paragraph(look, book.say("tick")), 1.5)
    strips += _glance(book)
    for numbers in _runs(book.plan):
        strips += _week(book, numbers[0]) if _changes(book.plan, numbers[0]) else _quiet(book, numbers)
    return tuple(strips)


def _places(plan: Season) -> int:
    """How many places a child's shelf has: the most that are out at once, but for what hangs or goes along."""
    most = 1
    for item in plan.children:
        along = {m.set for week in item.weeks for m in week.new if m.reason.key in ("stands", "together")}
        most = max(most, *(len(set(week.out) - along) for week in item.weeks))
    return most


def _glance(book: _Book) -> Iterator[Strip]:
    look = book.look
    yield from subsection(look, book.say("overview"), want=60.0)
    words = {sign: book.say(f"legend_{sign}") for sign in ("new", "out", "goes", "back")}
    yield from legend(look, words, book.say("legend_basket"))
    tables = [
        overview(look, item.child, list(_rows(book, item)), len(item.weeks), across=_across(book))
        for item in book.plan.children
    ]
    for number in range(0, len(tables), _across(book)):
        row = side_by_side(look, tables[number : number + _across(book)])
        yield from glued(row, last=False) if height_of(row) <= look.room else row
    for item in book.plan.children:
        yield from _notes(book, item)


def _across(book: _Book) -> int:
    """How many tables at a glance stand side by side."""
    return 2 if book.look.side and book.plan.length <= _MOST_ACROSS and len(book.plan.children) > 1 else 1


def _rows(book: _Book, item: ChildPlan) -> Iterator[tuple[str, tuple[str, ...]]]:
    goes = [leaving(book.plan, week.number, item.child) for week in item.weeks]
    for name in (move.set for week in item.weeks for move in week.new):
        signs = (_sign(week, name, own) for week, own in zip(item.weeks, goes, strict=True))
        yield book.title(item.child, name), tuple(signs)


def _sign(week: Week, name: str, goes: Mapping[str, int]) -> str:
    if name in goes:
        return "goes"
    if name in (move.set for move in week.new):
        return "new"
    if name in (move.set for move in week.back):
        return "back"
    return "out" if name in week.out else ""


def _notes(book: _Book, item: ChildPlan) -> tuple[Strip, ...]:
    notes = []
    if item.all_stay:
        notes.append(book.say("all_stay", child=item.child))
    if item.calm is not None:
        crowded = "weeks.guide.crowded"
        notes.append(say_count(book.texts, crowded, len(item.weeks), child=item.child, calm=item.calm))
    return tuple(strip for note in notes for strip in small(book.look, note, gap=1.2))


# --- weeks -----------------------------------------------------------------------------------


def _changes(plan: Season, number: int) -> bool:
    return number == 1 or any(item.weeks[number - 1].changes for item in plan.children)


def _runs(plan: Season) -> list[list[int]]:
    """The weeks one by one, those without a change together; the last is told by itself."""
    runs: list[list[int]] = []
    for number in range(1, plan.length + 1):
        quiet = not _changes(plan, number) and number < plan.length
        if quiet and runs and not _changes(plan, runs[-1][0]):
            runs[-1].append(number)
        else:
            runs.append([number])
    return runs


def _quiet(book: _Book, numbers: Sequence[int]) -> tuple[Strip, ...]:
    """Weeks in which nothing comes or goes, in one line."""
    first, last = numbers[0], numbers[-1]
    key = "title" if first == last else "pair" if last == first + 1 else "span"
    before = next(n for n in range(first, 0, -1) if _changes(book.plan, n))
    title = book.say(key, n=first, first=first, last=last)
    end = first == last == book.plan.length
    said = book.say("same_last" if end else "same", page=book.known.get(f"ticks {before}", 1))
    anchor = f"week {first}"
    strips = subsection(book.look, title, share=1.5, gap=9.0, anchor=anchor, level=1, color=True)
    return (*strips, *paragraph(book.look, said, 1.2))


def _week(book: _Book, number: int) -> tuple[Strip, ...]:
    """A week's page; if it is too full, fewer sentences on what to look for, else it is parted."""
    look = book.look
    title = subsection(
        look, book.say("title", n=number), share=1.5, gap=9.0, anchor=f"week {number}", level=1, color=True
    )
    week_days = days(book.plan, number)
    strips: list[Strip] = [*title[:-1], date_line(look, title[-1], book.say("from"))]
    for place, (first, last) in enumerate(_spans(week_days)):
        lines = list(_day(book, number, week_days[first - 1]))
        own = labelled(look, _day_words(book, first, last), items(look, lines))
        strips += own if place else spaced(own, 1.5)
    below = _ticks(book, number, week_days)
    found = list(_watch(book, number))
    for most in range(len(found), 0, -1):
        told = found if most == len(found) else [*found[:most], book.say("watch_more")]
        watch = labelled(look, book.say("watch"), items(look, told))
        whole = (*strips, *watch, *below)
        if height_of(whole) <= look.room:
            return glued(whole, last=False)
    watch = labelled(look, book.say("watch"), items(look, found))
    return (*_whole(look, (*strips, *watch)), *_whole(look, below))


def _whole(look: Look, strips: tuple[Strip, ...]) -> tuple[Strip, ...]:
    return glued(strips, last=False) if height_of(strips) <= look.room else strips


def _spans(week_days: Sequence[Day]) -> list[tuple[int, int]]:
    """First and last of the days that are told together: those from Tuesday on without anything new."""
    spans: list[tuple[int, int]] = []
    for day in week_days:
        quiet = day.number > 1 and not day.events
        if quiet and spans and spans[-1][0] > 1 and not week_days[spans[-1][0] - 1].events:
            spans[-1] = (spans[-1][0], day.number)
        else:
            spans.append((day.number, day.number))
    return spans


def _day_words(book: _Book, first: int, last: int) -> str:
    names = {n: say(book.texts, f"weeks.days.{n}") for n in (first, last)}
    said = names[first]
    if first != last:
        key = "two" if last == first + 1 else "more"
        said = say(book.texts, f"weeks.days.{key}", first=names[first], last=names[last])
    return f"{said[:1].upper()}{said[1:]}"


def _day(book: _Book, number: int, day: Day) -> Iterator[str]:
    last = number == book.plan.length > 2
    if day.number == 1:
        key = "first" if number == 1 else "last" if last else "later"
        yield book.say(f"prepare.{key}")
        still = [item.child for item in book.plan.children if not item.weeks[number - 1].changes]
        if still:
            yield book.say("do.still", children=book.listed(still))
    week = days(book.plan, number)
    for event in day.events:
        yield from _event(book, still_out(event, week[day.number :]))
    if not day.events and day.number > 1:
        yield book.say("do.nothing")


def _event(book: _Book, event: Event) -> Iterator[str]:
    child = event.child
    said = []
    for move in event.new:
        if move.reason.key == "stands":
            names, page, why = _names(book, child, [move]), book.page(child, move), book.why(child, move)
            said.append(book.say("do.stands", child=child, trays=names, page=page, why=why))
            if _of_one_month(book.sets[child, move.set].tray):
                said.append(book.say("do.month"))
    shown = [move for move in event.new if move.reason.key != "stands"]
    if shown:
        said.append(
            book.say(
                "do.new",
                child=child,
                trays=_names(book, child, shown),
                page=book.page(child, shown[0]),
                why=book.why(child, shown[0]),
            )
        )
    for move in event.back:
        if move.reason.key != "together":
            said.append(
                book.say("do.back", child=child, trays=_names(book, child, [move]), why=book.why(child, move))
            )
    for group in _with_partners(event.away):
        said.append(book.say("do.away", trays=_names(book, child, group), why=book.why(child, group[0])))
    yield " ".join(said)


def _of_one_month(tray: Tray) -> bool:
    return tray.material == "calendar" and tray.settings.month is not None


def _with_partners(moves: Sequence[Move]) -> list[list[Move]]:
    groups: list[list[Move]] = []
    for move in moves:
        if move.reason.key == "together" and groups:
            groups[-1].append(move)
        else:
            groups.append([move])
    return groups


def _names(book: _Book, child: str, moves: Sequence[Move]) -> str:
    return book.listed([bold(book.title(child, move.set)) for move in moves])


def _watch(book: _Book, number: int) -> Iterator[str]:
    """What to look for: one general sentence, then one of each tray that is shown anew."""
    last = number == book.plan.length > 2
    key = {1: "first", 2: "second"}.get(number, "middle")
    yield book.say(f"general.{'last' if last else key}")
    told: set[str] = set()
    key = "looked" if len(book.plan.children) > 1 else "looked_one"
    new = [
        [(item.child, move.set) for move in item.weeks[number - 1].new if move.reason.key != "stands"]
        for item in book.plan.children
    ]
    for place in range(max(map(len, new), default=0)):
        for own in (sets[place] for sets in new if place < len(sets)):
            lines = tray_words(book.sets[own], book.texts).watch
            for line in [*(line for line in lines if line not in told), *lines][:1]:
                told.add(line)
                yield book.say(key, title=book.title(*own), child=own[0], watch=line)


def _ticks(book: _Book, number: int, week_days: Sequence[Day]) -> tuple[Strip, ...]:
    """The table to tick: a row for each tray that is out for a day or more, each child's together.

    A child for whom nothing changes has a line instead, with the page that has its rows.
    """
    shown = {
        (event.child, move.set): day.number for day in week_days for event in day.events for move in event.new
    }
    rows = []
    same: list[Strip] = []
    for item in book.plan.children:
        week = item.weeks[number - 1]
        before = next((n for n in range(number, 1, -1) if item.weeks[n - 1].changes), 1)
        if before < number and week.out:
            page = book.known.get(f"ticks {before}", 1)
            note = book.say("same_child", child=item.child, n=before, page=page)
            same += small(book.look, note, gap=2.0)
            continue
        back = {move.set for move in week.back}
        goes = leaving(book.plan, number, item.child)
        for place, name in enumerate((*goes, *week.out)):
            since = ""
            if name in goes:
                since = book.say("day_goes", day=say(book.texts, f"weeks.days.{goes[name]}"))
            elif (item.child, name) in shown:
                day = say(book.texts, f"weeks.days.{shown[item.child, name]}")
                since = book.say("day_new", day=day)
            elif name in item.standing:
                since = book.say("standing")
            elif name in back:
                since = book.say("day_back")
            rows.append(
                Row(child="" if place else item.child, tray=book.title(item.child, name), since=since)
            )
    look = book.look
    heading = subsection(look, book.say("on_shelf"), gap=4.5, anchor=f"ticks {number}")
    return (*heading, *tick_table(look, rows, book.texts), *same)
