"""Every key and item of a TOML text is found on its own line, however the text is written."""

import sys
import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from printkit.toml_lines import key_lines

# --- texts made with known lines -------------------------------------------------------------


class Written:
    """A text in the making, and the line of each path in it."""

    def __init__(self):
        self.text, self.lines = "", {}

    def add(self, more: str) -> None:
        """More text at the end."""
        self.text += more

    def mark(self, path: tuple) -> None:
        """Here stands the key or item of that path."""
        self.lines.setdefault(path, self.text.count("\n") + 1)


names = st.sampled_from(("name", "numbers", "a-b", "3", "_x", "set", "make", "Z9"))
quoted = st.sampled_from(('"a b"', "'c.d'", '"#"', "'[x]'", '"="', '"é"'))
keys = names | quoted
noise = st.sampled_from(("", " ", "\n", '  # [[children]] = "\n', "\n\n", "\t", " # '''\n"))
scalars = st.sampled_from(
    (
        "1",
        "-2.5e3",
        "true",
        "0xff",
        "inf",
        "1979-05-27T07:32:00Z",
        "1979-05-27 07:32:00",
        "1979-05-27 07:32:00.25+01:00",
        "07:32:00",
        '"plain"',
        "'it is # no comment'",
        '"\\" ] } #"',
        '""',
        "''",
        '"""one"""',
        '"""\none = 1\n[two]\n"""',
        "'''\n# no\n'''",
        '""""quoted""""',
        '"""\\\n   a \\""" b"""',
        "''''x''''",
        '""""""',
        "'''''''''"[:6],
    )
)


def bare(key: str) -> str:
    """The name of a key without its quotes."""
    return key[1:-1] if key[0] in "\"'" else key


@st.composite
def written(draw) -> Written:
    """A TOML text with tables, arrays of tables, dotted keys, nested values and remarks."""
    made = Written()
    _pairs(draw, made, (), set())
    arrays: dict[str, int] = {}
    tables = draw(st.lists(st.tuples(st.booleans(), keys), max_size=4))
    seen = {path[0] for path in made.lines}
    for array, key in tables:
        name = bare(key)
        if (name in seen and name not in arrays) or (name in arrays and not array):
            continue
        seen.add(name)
        made.add(draw(noise).replace("\t", "").replace(" ", "") or "\n")
        if not made.text.endswith("\n"):
            made.add("\n")
        if array:
            arrays[name] = arrays.get(name, -1) + 1
            path = (name, arrays[name])
            made.mark(path)
            made.add(f"[[ {key} ]]")
        else:
            path = (name,)
            made.mark(path)
            made.add(f"[{key}]")
        made.add("  # here\n")
        _pairs(draw, made, path, set())
        if array and draw(st.booleans()):
            made.mark((*path, "inner"))
            made.add(f"[{key}.inner]\n")
            _pairs(draw, made, (*path, "inner"), set())
    return made


def _pairs(draw, made: Written, here: tuple, used: set[str]) -> None:
    for key in draw(st.lists(keys, max_size=4)):
        if bare(key) in used:
            continue
        used.add(bare(key))
        made.add(draw(st.sampled_from(("", "  ", "\n", '# remark "\n'))))
        path = (*here, bare(key))
        dotted = draw(st.booleans())
        more = draw(keys) if dotted else None
        full = (*path, bare(more)) if more else path
        made.mark(full)
        made.add(f"{key} . {more} =" if more else f"{key}=")
        made.add(" ")
        _value(draw, made, full, 0)
        made.add(draw(st.sampled_from(("\n", " # end\n", "\n\n"))))


def _value(draw, made: Written, path: tuple, depth: int) -> None:
    kind = draw(st.sampled_from(("scalar", "list", "table"))) if depth < 3 else "scalar"
    if kind == "scalar":
        made.add(draw(scalars))
    elif kind == "list":
        made.add("[")
        for i in range(draw(st.integers(0, 3))):
            made.add(draw(noise))
            made.mark((*path, i))
            _value(draw, made, (*path, i), depth + 1)
            made.add(draw(noise))
            made.add(",")
        made.add(draw(noise))
        made.add("]")
    else:
        made.add("{")
        chosen = draw(st.lists(keys, max_size=3, unique_by=bare))
        for i, key in enumerate(chosen):
            made.add(" , " if i else " ")
            made.mark((*path, bare(key)))
            made.add(f"{key} = ")
            _value(draw, made, (*path, bare(key)), depth + 1)
        made.add(" }")


@settings(max_examples=150)
@given(written(), st.booleans())
def test_each_key_and_item_is_found_on_its_line(made, windows):
    """Keys, dotted keys, headers, items of lists and keys of inline tables, with either end of line."""
    text = made.text.replace("\n", "\r\n") if windows else made.text
    tomllib.loads(text)
    found = key_lines(text)
    assert {path: found.get(path) for path in made.lines} == made.lines


# --- any text at all -------------------------------------------------------------------------


def paths(value: Any, here: tuple = ()) -> list[tuple]:
    """Every path in a read text."""
    found = [here] if here else []
    if isinstance(value, dict):
        for key, item in value.items():
            found += paths(item, (*here, key))
    elif isinstance(value, list):
        for number, item in enumerate(value):
            found += paths(item, (*here, number))
    return found


pieces = st.sampled_from(
    (
        "a",
        "b",
        "a.b",
        "=",
        " = ",
        "\n",
        "\n",
        "[",
        "]",
        "[[",
        "]]",
        "{",
        "}",
        ",",
        " ",
        "1",
        "1\n",
        '"',
        "'",
        '"""',
        "'''",
        "#",
        "# x\n",
        "\\",
        "x = 1\n",
        "[t]\n",
        "[[t]]\n",
        "[t.u]\n",
        '"s"',
        "'s'",
        "é",
        "1979-05-27 07:32:00",
        "\t",
        "\r\n",
        ".",
        "true",
        "-",
        "+1_0",
        "k = [\n1,\n2]\n",
        "i = {a = 1, b.c = [{}]}\n",
    )
)

lines = st.sampled_from(
    (
        "x = 1\n",
        "y = [\n1, # ]\n2]\n",
        "[t]\n",
        "[[u]]\n",
        "[t.v]\n",
        "[[u.w]]\n",
        "[u.z]\n",
        "[[t.s]]\n",
        'a.b = """\n#"""\n',
        "a.c = {b = [], d.e = [{}, [1]]}\r\n",
        "# [no]\n",
        "\n",
        "m = [[1, [2]], [\n]]\n",
        "'q r' = 1979-05-27 07:32:00\n",
        "n = '''\n[x]\n''' # end\n",
    )
)


@settings(max_examples=600)
@given(st.lists(lines | pieces, max_size=9).map("".join))
def test_no_text_that_can_be_read_is_lost(text):
    """Whatever the standard reader takes can be walked, and every key and value has a line."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    found = key_lines(text)
    last = text.count("\n") + 1
    assert all(1 <= line <= last for line in found.values())
    leaves = [path for path in paths(data) if path not in found]
    # a table that is only named on the way to another ([t.u], a.b = 1) has no line of its own
    assert all(any(other[: len(path)] == path for other in found) for path in leaves)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a = 1\nb = 2", {("a",): 1, ("b",): 2}),
        ("\n\n# c\na = [1,\n 2,\n # three\n 3]", {("a",): 4, ("a", 0): 4, ("a", 1): 5, ("a", 2): 7}),
        ('a = """\nb = 1\n"""\nc = 1', {("a",): 1, ("c",): 4}),
        ("a = '''\n'''\nc = 1", {("a",): 1, ("c",): 3}),
        ('a = "\\"b = 1"\nc = 1', {("a",): 1, ("c",): 2}),
        ('a = """x\\"""y"""\nc = 1', {("a",): 1, ("c",): 2}),
        ('a = """"""\nc = 1', {("a",): 1, ("c",): 2}),
        ('a = """x"""""\nc = 1', {("a",): 1, ("c",): 2}),
        ("a = 1 # = [\nb = 2\r\nc = 3", {("a",): 1, ("b",): 2, ("c",): 3}),
        ("[[p]]\nn = 1\n[[p]]\n\nn = 2", {("p", 0): 1, ("p", 0, "n"): 2, ("p", 1): 3, ("p", 1, "n"): 5}),
        (
            "[[p]]\n[[p.q]]\nn = 1\n[[p.q]]\nn = 2\n[[p]]\n[[p.q]]\nn = 3",
            {("p", 0, "q", 0, "n"): 3, ("p", 0, "q", 1, "n"): 5, ("p", 1, "q", 0, "n"): 8},
        ),
        ("a.b.c = 1\na.b.d = 2", {("a", "b", "c"): 1, ("a", "b", "d"): 2}),
        ("'a.b'.c = 1", {("a.b", "c"): 1}),
        ("a = { b = 1, c = { d = [\n2] } }", {("a", "b"): 1, ("a", "c", "d"): 1, ("a", "c", "d", 0): 2}),
        ("d = 1979-05-27 07:32:00Z # x\ne = 1", {("d",): 1, ("e",): 2}),
        ("d = [1979-05-27 , 1979-05-27 07:32:00 ]\ne = 1", {("d", 1): 1, ("e",): 2}),
        ("[ t . 'u' ] # x\na = 1", {("t", "u"): 1, ("t", "u", "a"): 2}),
    ],
)
def test_tricky_texts(text, expected):
    """Strings of several lines, remarks, dates with a space, nested tables and arrays of tables."""
    tomllib.loads(text)
    found = key_lines(text)
    assert {path: found.get(path) for path in expected} == expected


def test_an_escape_in_a_key_is_read():
    """A key written with an escape is found under the name it has."""
    text = '"a\\u0062" = 1\n"c\\"d" = 2\n'
    assert key_lines(text) == dict.fromkeys(((key,) for key in tomllib.loads(text)), 1) | {('c"d',): 2}


def test_an_empty_text_has_no_lines():
    """Nothing stands nowhere."""
    assert key_lines("") == {}
    assert key_lines("# only a remark") == {}


@pytest.mark.parametrize(("start", "end"), [("[", "]"), ("{a=", "}")])
def test_depth_is_no_trap(start, end):
    """A text nested as deeply as the standard reader takes it is walked too."""
    deep = 1
    while deep < sys.getrecursionlimit():
        try:
            tomllib.loads(f"x = {start * (deep + 7)}1{end * (deep + 7)}")
        except (RecursionError, tomllib.TOMLDecodeError):
            break
        deep += 7
    text = f"x = {start * deep}1{end * deep}"
    tomllib.loads(text)
    assert key_lines(text)["x",] == 1
