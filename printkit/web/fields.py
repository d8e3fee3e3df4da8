"""Checks -> form fields, and what a form says -> values as a pack file writes them.

A field left empty is a key that is not set: what holds then is shown beside it. So a form writes only
what the family really chose.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from printkit import checks
from printkit.checks import Check, Wrong
from printkit.ladder import rungs
from printkit.pack.keys import Choices, Languages, NoTable, Shift
from printkit.web.edits import UNSET, Path
from printkit.web.telling import spot
from printkit.web.words import PageWords, spoken

Kind = Literal[
    "choice", "number", "text", "pair", "boxes", "list", "word-or-pair", "table", "languages", "theme"
]
LOOKALIKE = "lookalike"
"""The key whose numbers have words: what a look-alike differs in."""
OWN = "own"
"""The option of a choice that two numbers stand beside."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Option:
    """One thing to choose; `chosen` if the form shows it so."""

    value: str
    label: str
    chosen: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Field:
    """One key as a form shows it.

    `values` are the texts in its boxes, in order; `usual` is what holds if they are empty.
    """

    key: str
    name: str
    path: Path
    check: Check
    kind: Kind
    label: str
    hint: str
    values: tuple[str, ...] = ()
    options: tuple[Option, ...] = ()
    parts: tuple["Field", ...] = ()
    part_labels: tuple[str, ...] = ()
    usual: str = ""
    given: bool = False

    @property
    def id(self) -> str:
        return spot(self.path)

    @property
    def paths(self) -> tuple[Path, ...]:
        """Where problems of this field may lie."""
        return (self.path, *(part.path for part in self.parts))


@dataclass(frozen=True, kw_only=True, slots=True)
class Level:
    """A table of a pack file: where it stands, what it sets itself and what would hold without that.

    `motifs` are the pictures of the theme that holds here: key and name. `tags` the languages to choose
    from, with their names.
    """

    path: Path
    table: Mapping[str, Any]
    above: Mapping[str, Any]
    words: PageWords
    motifs: tuple[tuple[str, str], ...] = ()
    tags: tuple[tuple[str, str], ...] = ()
    says: Mapping[str, str] | None = None


def fields_of(
    keys: Iterable[str], known: Mapping[str, Check], level: Level, posted: Mapping[str, Any] | None = None
) -> tuple[Field, ...]:
    """The fields of some keys; with `posted` (a form's values) they show what was typed."""
    return tuple(
        _field(key, key, known[key], level, (*level.path, key), posted) for key in keys if key in known
    )


def _field(
    key: str, name: str, check: Check, level: Level, path: Path, posted: Any, inside: str = ""
) -> Field:
    check = check.check if isinstance(check, NoTable) else check
    table, above = level.table, level.above
    if inside:
        table = table.get(inside) if isinstance(table.get(inside), Mapping) else {}
        over = above.get(inside)
        above = over if isinstance(over, Mapping) else {} if not isinstance(over, str) else {key: over}
    kind = _kind(key, check, level)
    written = table.get(key)
    given = key in table
    scope = "" if level.says is not None and key in level.says else name  # a setting's words are its own
    usual = _usual(above.get(key), check, level, scope)
    label, hint = _words(key, name, check, level)
    common: dict[str, Any] = {
        "key": key, "name": name, "path": path, "check": check, "kind": kind, "label": label, "hint": hint,
        "usual": usual, "given": given,
    }  # fmt: skip
    holder = check.second if isinstance(check, checks.Either) else check
    if isinstance(holder, checks.TableOf):
        parts = tuple(
            _field(part, f"{name}.{part}", each, level, (*path, part), posted, inside=key)
            for part, each in _parts(holder, level)
        )
        if isinstance(written, str):  # one word for all parts
            parts = tuple(_with_word(part, written, posted) for part in parts)
        return Field(**common, parts=parts)
    values = _values(kind, written) if posted is None else tuple(posted.getlist(name))
    if kind in ("pair", "word-or-pair", "languages") and posted is not None:
        boxes = 3 if kind == "word-or-pair" else 2
        values = tuple(posted.get(f"{name}.{n}", "") for n in range(boxes))
    return Field(
        **common, values=values, options=_options(kind, check, level, values, scope), part_labels=_boxes(key, level)
    )


def _with_word(part: Field, word: str, posted: Any) -> Field:
    from dataclasses import replace

    if posted is not None:
        return part
    options = tuple(replace(option, chosen=option.value == word) for option in part.options)
    return replace(part, values=(word,), options=options, given=True)


def _parts(check: checks.TableOf, level: Level) -> Sequence[tuple[str, Check]]:
    """The keys of a table; of choices of number words only those of the languages that hold."""
    if isinstance(check, Choices):
        tags = {**level.above, **level.table}.get("languages", ())
        return [(tag, each) for tag, each in check.keys if tag in tags]
    return check.keys


def _kind(key: str, check: Check, level: Level) -> Kind:
    if key == "theme":
        return "theme"
    if key == LOOKALIKE:
        return "choice"
    if key in ("motif", "motifs") and level.motifs:
        return "choice" if key == "motif" else "boxes"
    match check:
        case checks.OneOf() | checks.Flag():
            return "choice"
        case checks.Whole() | checks.Millimetres():
            return "number"
        case checks.WordOrWords() | checks.AnyOf():
            return "boxes"
        case checks.Range() | checks.Extent() | Shift():
            return "pair"
        case checks.Several():
            return "list"
        case checks.Either(second=checks.TableOf()) | checks.TableOf():
            return "table"
        case checks.Either():
            return "word-or-pair"
        case Languages():
            return "languages"
    if key == "guide":
        return "choice"
    if key == "start":
        return "rungs"
    return "text"


# --- showing ---------------------------------------------------------------------------------


def _words(key: str, name: str, check: Check, level: Level) -> tuple[str, str]:
    """Label and explanation: a material's own for its settings, the page's for the pack's keys."""
    words = level.words
    if level.says is not None and key in level.says:
        return _first_up(spoken(key)), _first_up(level.says[key])
    if words.has(f"keys.{name}.label"):
        hint = f"keys.{name}.hint"
        return words.say(f"keys.{name}.label"), words.say(hint) if words.has(hint) else ""
    if isinstance(check, checks.OneOf) and name.startswith("words."):
        return dict(level.tags).get(key, key), ""
    return _first_up(spoken(key)), _first_up(check.allowed())


def _first_up(text: str) -> str:
    return text[:1].upper() + text[1:]


def _boxes(key: str, level: Level) -> tuple[str, ...]:
    """The names of the two boxes of a pair."""
    words = level.words
    name = f"keys.{key}.boxes"
    return tuple(words.say(name).split("|")) if words.has(name) else tuple(words.say("form.boxes").split("|"))


def _usual(value: Any, check: Check, level: Level, scope: str) -> str:
    """What holds if the field is empty, in words; '' for 'as it comes'."""
    words = level.words
    match value:
        case None | () | {} | []:
            return ""
        case bool():
            return words.say("form.yes" if value else "form.no")
        case int() if scope.partition(".")[0] == LOOKALIKE:
            return _level_of(value, words)
        case int() | float():
            return f"{value:g}"
        case str():
            return dict(level.tags).get(value, words.word(value, scope))
        case list() | tuple():
            if isinstance(check, Languages):
                return ", ".join(dict(level.tags).get(tag, tag) for tag in value)
            dash = (
                "–"
                if isinstance(check, checks.Range)
                else " × "
                if isinstance(check, checks.Either)
                else ", "
            )
            return dash.join(
                f"{item:g}" if checks.is_number(item) else words.word(str(item), scope) for item in value
            )
    return ""


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if checks.is_number(value):
        return f"{value:g}" if isinstance(value, float) else str(value)
    return "" if value is None else str(value)


def _values(kind: Kind, written: Any) -> tuple[str, ...]:
    """What a file says, as the texts of the field's boxes."""
    several = written if isinstance(written, list) else None
    match kind:
        case "pair" | "languages":
            found = [_text(item) for item in several or ([written] if written is not None else [])]
            return tuple([*found, "", ""][:2])
        case "word-or-pair":
            if several is not None:
                return (OWN, *((*map(_text, several), "", "")[:2]))
            return (_text(written), "", "")
        case "list":
            return (", ".join(map(_text, several)) if several is not None else _text(written),)
        case "boxes" | "rungs":
            return tuple(map(_text, several)) if several is not None else (_text(written),) if written else ()
    return (_text(written),)


def _options(
    kind: Kind, check: Check, level: Level, values: tuple[str, ...], scope: str
) -> tuple[Option, ...]:
    pairs: Iterable[tuple[str, str]]
    words = level.words
    match kind, check:
        case "choice", checks.Whole(low=low, high=high):
            pairs = ((str(number), _level_of(number, words)) for number in range(low, high + 1))
        case "rungs", _:
            pairs = [(rung.name, f"{rung.name}: {words.rung(rung.name)}") for rung in rungs()]
        case "choice", checks.Flag():
            pairs = (("true", words.say("form.yes")), ("false", words.say("form.no")))
        case "choice" | "boxes", checks.OneOf() | checks.WordOrWords() | checks.AnyOf():
            pairs = ((word, words.word(word, scope)) for word in check.words)
        case "choice" | "boxes", _:
            pairs = level.motifs if level.motifs and check is not None and not level.tags else level.tags
        case "word-or-pair", checks.Either(first=checks.OneOf(words=several)):
            pairs = [*((word, words.word(word, scope)) for word in several), (OWN, words.say("form.own"))]
        case "languages", _:
            pairs = level.tags
        case _:
            return ()
    shown = _spellings(check, values)
    listed = list(pairs)
    known = {value for value, _ in listed}
    listed += [(value, value) for value in shown[:1] if value and value not in known and kind == "choice"]
    return tuple(Option(value=value, label=label, chosen=value in shown) for value, label in listed)


def _level_of(number: int, words: PageWords) -> str:
    """'4: a part missing or changed', as the labels say it."""
    return f"{number}: {words.materials.say(f'label.levels.{number}')}"


def _spellings(check: Check, values: tuple[str, ...]) -> tuple[str, ...]:
    """'colour' is shown as 'color'."""
    also = dict(check.also) if isinstance(check, checks.OneOf | checks.AnyOf) else {}
    return tuple(also.get(value, value) for value in values)


# --- reading ---------------------------------------------------------------------------------


def changes_of(fields: Iterable[Field], form: Any, table: Mapping[str, Any]) -> dict[Path, Any]:
    """What a form changes in a table, by paths: only what reads otherwise than what stands there."""
    found: dict[Path, Any] = {}
    for field in fields:
        if field.kind == "table":
            found |= _table_changes(field, form, table.get(field.key))
            continue
        value = _value(field, form)
        if value is not None and not _same(field.check, table.get(field.key, UNSET), value):
            found[field.path] = value
    return found


def _table_changes(field: Field, form: Any, written: Any) -> dict[Path, Any]:
    """The parts of a table are changed one by one; a single word for all becomes a table."""
    if isinstance(written, str):
        now = {part.key: written for part in field.parts}
    else:
        now = dict(written) if isinstance(written, Mapping) else {}
    new = dict(now)
    for part in field.parts:
        value = _value(part, form)
        if value is UNSET:
            new.pop(part.key, None)
        elif value is not None and not _same(part.check, now.get(part.key, UNSET), value):
            new[part.key] = value
    if new == now:
        return {}
    if not new:
        return {field.path: UNSET}
    if not isinstance(written, Mapping):
        return {field.path: new}
    return {
        (*field.path, key): new.get(key, UNSET)
        for key in {*now, *new}
        if new.get(key, UNSET) != now.get(key, UNSET)
    }


def _same(check: Check, written: Any, value: Any) -> bool:
    """Whether two ways to write a value read alike."""
    if written is UNSET or value is UNSET:
        return written is value
    a, b = check.read(written), check.read(value)
    if isinstance(a, Wrong) or isinstance(b, Wrong):
        return bool(written == value)
    if isinstance(check, checks.WordOrWords | checks.AnyOf):
        return set(a) == set(b)
    return bool(a == b)


def _value(field: Field, form: Any) -> Any:
    """What a form says for a field: a value, UNSET, or None if the form does not hold the field."""
    name = field.name
    if f"{name}.here" not in form:
        return None
    typed = [text.strip() for text in form.getlist(name)]
    match field.kind:
        case "boxes" | "rungs":
            chosen = [text for text in typed if text]
            return UNSET if not chosen else chosen[0] if len(chosen) == 1 else chosen
        case "pair" | "languages":
            two = [form.get(f"{name}.{n}", "").strip() for n in range(2)]
            if field.kind == "languages":
                return [tag for tag in two if tag] or UNSET
            return UNSET if not any(two) else [_number(text) for text in two]
        case "word-or-pair":
            word, *two = [form.get(f"{name}.{n}", "").strip() for n in range(3)]
            return [_number(text) for text in two] if word == OWN else word or UNSET
        case "list":
            items = [_number(text.strip()) for text in (typed or [""])[0].split(",") if text.strip()]
            return items or UNSET
    text = typed[0] if typed else ""
    if not text:
        return UNSET
    if isinstance(field.check, checks.Flag):
        return {"true": True, "false": False}.get(text, text)
    if isinstance(field.check, checks.OneOf | checks.Words) or field.kind == "theme":
        return text
    return _number(text)


def _number(text: str) -> Any:
    """'12' and '12,5' as numbers, anything else as the text it is."""
    try:
        return int(text)
    except ValueError:
        pass
    try:
        number = float(text.replace(",", "."))
    except ValueError:
        return text
    return number if checks.is_number(number) else text
