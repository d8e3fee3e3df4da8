"""The questions of `printkit new` on a terminal."""

from collections.abc import Iterator, Sequence
from typing import Any

import click

from printkit.planner.balance import NewChild
from printkit.starter import Answers, new_child, tags, usual_theme


def answered(said: dict[str, Any], family: str = "", home: Sequence[NewChild] = ()) -> Answers:
    """What was said, each key by its option's name; what was not said has its default.

    `family` is the name of the family's file, `home` are its children: all of them, if none was named.
    Raises PrintkitError for a child that cannot be read.
    """
    children = tuple(new_child(text, said["numbers"], home) for text in said["children"]) or tuple(home)
    given = {key: said[key] for key in ("season", "theme", "paper", "weeks") if said.get(key)}
    if said["languages"]:
        given["languages"] = tags(said["languages"])
    return Answers(children=children or (new_child("Wren", said["numbers"]),), family=family, **given)


def asked(said: dict[str, Any], family: str = "", home: Sequence[NewChild] = ()) -> dict[str, Any]:
    """What was said, and the answers on the terminal to what neither option nor family's file said."""
    found = dict(said)

    def ask(key: str, question: str, usual: Any) -> None:
        if found[key] is None:
            found[key] = click.prompt(question, default=usual, type=type(usual))

    ask("season", "Season (a word or two for the title)", "Summer")
    ask("theme", "Theme", usual_theme(found["season"]))
    names = [child.name for child in home]
    said_children = tuple(
        text if text in names else _with_numbers(text, found["numbers"]) for text in found["children"]
    )
    found["children"] = said_children or (() if home else tuple(_children(found["numbers"])))
    if not family:
        ask("languages", "Language or languages (such as en or en,es)", "en")
        ask("paper", "Paper in the printer", "a4")
    ask("weeks", "Weeks", 6)
    return found


def _children(numbers: str | None) -> Iterator[str]:
    """Child after child, until a name is left empty: 'Wren:1-5'."""
    name = click.prompt("The child's name", default="Wren")
    while name:
        yield _with_numbers(name, numbers)
        name = click.prompt("Another child's name (empty: no more)", default="", show_default=False)


def _with_numbers(child: str, numbers: str | None) -> str:
    """'Wren:1-5', asked for if neither the child's words nor `numbers` say it."""
    if ":" in child:
        return child
    own = numbers or click.prompt(f"{child}'s numbers", default="1-5")
    return f"{child}:{own}"
