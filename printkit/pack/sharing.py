"""What several children who share trays have in common.

Rules (design choices): the numbers run from the smallest first to the largest last, sums go to the
largest, looking closely keeps to the easiest level that one of them has, places are drawn for the
largest counters, and what one of them needs holds for all. Any other key is theirs if all of them have
it alike; else the whole pack's holds.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from printkit.pack.keys import KEYS
from printkit.pack.levels import ALL_KEYS, Level, Said

_RULES: dict[str, Callable[[Sequence[Any]], Any]] = {
    "numbers": lambda ranges: (min(first for first, _ in ranges), max(last for _, last in ranges)),
    "sums_to": lambda sums: max((most for most in sums if most is not None), default=None),
    "lookalike": min,
    "counter": max,
    "needs": lambda several: tuple(dict.fromkeys(need for needs in several for need in needs)),
}


def together(names: Sequence[str]) -> str:
    """What several children are called: 'Wren & Juno', 'Wren, Juno & Pim'."""
    return f"{', '.join(names[:-1])} & {names[-1]}" if len(names) > 1 else "".join(names)


def in_common(
    names: Sequence[str], each: Sequence[Mapping[str, Said]], wide: Mapping[str, Said]
) -> list[Level]:
    """The levels that hold what children have in common, where that is not what holds for the pack.

    `each` has the words for each child, `wide` those for the whole pack.
    """
    values: dict[str, Any] = {}
    paths: list[Level] = []
    for key in ALL_KEYS:
        found = [_value(key, said) for said in each]
        if key in _RULES:
            common = _RULES[key](found)
        elif all(value == found[0] for value in found):
            common = found[0]
        else:
            continue
        if common == _value(key, wide):
            continue
        if key == "letters":  # a path: it begins where the file lies that names it
            paths.append(replace(each[0][key].level, values={key: common}))
        else:
            values[key] = common
    return [*paths, Level(rank="children", values=values, whose=together(names))]


def _value(key: str, said: Mapping[str, Said]) -> Any:
    return said[key].value if key in said else KEYS[key][1] if key in KEYS else ()
