"""Changes to the text of a pack file: comments, order and layout of all that is not changed stay.

A change names a path, ('children', 1, 'numbers'), and a plain value or UNSET. What the text says
afterwards is compared with the same change made to plain values, so that no slip of the layout-keeping
writer can reach the file.
"""

import copy
import tomllib
from collections.abc import Callable, Iterable, Mapping
from typing import Any

import tomlkit
from tomlkit.items import AbstractTable, AoT, Array, InlineTable, SingleKey

Path = tuple[str | int, ...]


class _Unset:
    """The value of a key that is taken out."""

    def __repr__(self) -> str:
        return "UNSET"


UNSET = _Unset()
_LAST = ("materials",)
"""Keys that other keys of their table stand before."""
_MARK = b"\xef\xbb\xbf"


class CannotEditError(Exception):
    """The file is laid out so that it cannot be changed here without losing something."""


def plain(data: bytes) -> dict[str, Any]:
    """What a pack file says. Raises ValueError for what is no UTF-8 or no TOML."""
    return tomllib.loads(data.decode("utf-8-sig"))


def changed(data: bytes, changes: Mapping[Path, Any]) -> bytes:
    """The file with some keys set anew or taken out. Raises ValueError, CannotEditError."""

    def to_plain(table: dict[str, Any]) -> None:
        for path, value in changes.items():
            _set_plain(table, path, value)

    def to_text(document: Any) -> None:
        for path, value in changes.items():
            _set(document, path, value)

    return _edited(data, to_plain, to_text)


def tray_added(data: bytes, at: Path, material: str, own: Mapping[str, Any]) -> bytes:
    """The file with one more tray at the end of the list of the table `at`."""
    entry = {"make": material, **own} if own else material

    def to_plain(table: dict[str, Any]) -> None:
        _at(table, at).setdefault("materials", []).append(copy.deepcopy(entry))

    def to_text(document: Any) -> None:
        table = _at(document, at)
        if "materials" not in table:
            table["materials"] = tomlkit.array()
        table["materials"].append(_item(entry))

    return _edited(data, to_plain, to_text)


def tray_removed(data: bytes, at: Path, tray: int) -> bytes:
    """The file without one tray."""
    return _edited(
        data,
        lambda table: _at(table, at)["materials"].pop(tray),
        lambda document: _at(document, at)["materials"].pop(tray),
    )


def tray_moved(data: bytes, at: Path, tray: int, to: int) -> bytes:
    """The file with a tray at another place of the same list."""

    def to_plain(table: dict[str, Any]) -> None:
        listed = _at(table, at)["materials"]
        listed.insert(to, listed.pop(tray))

    def to_text(document: Any) -> None:
        listed = _at(document, at)["materials"]
        order = list(listed)
        order.insert(to, order.pop(tray))
        for number, item in enumerate(order):
            if listed[number] is not item:
                listed[number] = item

    return _edited(data, to_plain, to_text)


def child_added(data: bytes, table: Mapping[str, Any]) -> bytes:
    """The file with one more child at its end."""

    def to_plain(pack: dict[str, Any]) -> None:
        pack.setdefault("children", []).append(copy.deepcopy(dict(table)))

    def to_text(document: Any) -> None:
        listed = document.get("children")
        if isinstance(listed, Array):
            listed.append(_item(dict(table)))
            return
        fresh = tomlkit.table()
        for key, value in table.items():
            fresh[key] = _item(value)
        if isinstance(listed, AoT):
            listed[-1].add(tomlkit.nl())
            listed.append(fresh)
        else:
            several = tomlkit.aot()
            several.append(fresh)
            document["children"] = several

    return _edited(data, to_plain, to_text)


def child_removed(data: bytes, child: int) -> bytes:
    """The file without one child and all its trays."""
    return _edited(
        data, lambda table: table["children"].pop(child), lambda document: document["children"].pop(child)
    )


# --- behind them -----------------------------------------------------------------------------


def _at(table: Any, path: Path) -> Any:
    for part in path:
        table = table[part]
    return table


def _edited(data: bytes, to_plain: Callable[[Any], Any], to_text: Callable[[Any], Any]) -> bytes:
    wanted = plain(data)
    to_plain(wanted)
    text = data.decode("utf-8-sig")
    crlf = "\r\n" in text
    try:
        document = tomlkit.parse(text.replace("\r\n", "\n"))
        to_text(document)
        written = tomlkit.dumps(document)
        right = tomllib.loads(written) == wanted
    except Exception as error:  # whatever goes wrong inside: the file stays as it is
        raise CannotEditError(str(error)) from error
    if not right:
        raise CannotEditError
    out = written.replace("\n", "\r\n") if crlf else written
    return (_MARK if data.startswith(_MARK) else b"") + out.encode("utf-8")


def _set_plain(table: Any, path: Path, value: Any) -> None:
    """The same in plain values."""
    part, *rest = path
    if not rest:
        if value is not UNSET:
            table[part] = copy.deepcopy(value)
        elif part in table:
            del table[part]
        return
    if isinstance(part, str) and part not in table:
        if value is UNSET:
            return
        table[part] = {}
    if isinstance(rest[0], str) and isinstance(table[part], str):
        table[part] = {"make": table[part]} if isinstance(part, int) else {}
    _set_plain(table[part], tuple(rest), value)


def _set(table: Any, path: Path, value: Any) -> None:
    """Sets a key in a document. A table within one line, or a tray that is a word, is written anew."""
    part, *rest = path
    if not rest:
        _put(table, part, value)
    elif isinstance(part, str) and part not in table:
        if value is not UNSET:
            _put(table, part, _nested(tuple(rest), value))
    elif isinstance(table[part], InlineTable | str) and isinstance(rest[0], str):
        holder = {"": table[part].unwrap()} if isinstance(part, str) else ["", table[part].unwrap()]
        _set_plain(holder, ("" if isinstance(part, str) else 1, *rest), value)
        table[part] = _item(holder["" if isinstance(part, str) else 1])
    else:
        _set(table[part], tuple(rest), value)


def _nested(path: Path, value: Any) -> Any:
    """Tables around a value: ('fr',) and '1990' give {'fr': '1990'}."""
    return {str(path[0]): _nested(path[1:], value)} if path else value


def _put(table: Any, key: str | int, value: Any) -> None:
    if value is UNSET:
        if key in table:
            del table[key]
    elif isinstance(key, int) or key in table:
        table[key] = _item(value)
    else:
        _add(table, key, _item(value))


def _add(table: Any, key: str, item: Any) -> None:
    """A new key behind the last simple line of a table, its equals sign below that of its neighbor."""
    body = table if isinstance(table, tomlkit.TOMLDocument) else table.value
    own = [
        known
        for known, value in body.body
        if isinstance(known, SingleKey)
        and not isinstance(value, AbstractTable | AoT)
        and known.key not in _LAST
    ]
    if not own:
        table[key] = item
        return
    wide = len(own[-1].as_string()) + own[-1].sep.find("=")
    fresh = SingleKey(key)
    fresh.sep = " " * max(1, wide - len(fresh.as_string())) + "= "
    body._insert_after(own[-1], fresh, item)


def _item(value: Any) -> Any:
    """A plain value as an item; tables are written inline, long lists of words one a line."""
    if isinstance(value, Mapping):
        pairs = ", ".join(
            f"{SingleKey(key).as_string()} = {_item(each).as_string()}" for key, each in value.items()
        )
        return tomlkit.value(f"{{ {pairs} }}" if pairs else "{}")
    if isinstance(value, list | tuple):
        array = tomlkit.array()
        for each in value:
            array.append(_item(each))
        words = all(isinstance(each, str | Mapping) for each in value)
        return array.multiline(words and _long(value))
    return tomlkit.item(value)


def _long(values: Iterable[Any]) -> bool:
    """Whether a list of words is better written one a line."""
    return sum(len(str(value)) + 4 for value in values) > 60
