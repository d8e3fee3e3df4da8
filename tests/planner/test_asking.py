"""What `new` asks on a terminal."""

import click
import pytest
from click.testing import CliRunner

from printkit.asking import answered, asked
from printkit.planner.balance import NewChild

NOTHING = {"season": None, "theme": None, "paper": None, "languages": None, "weeks": None, "numbers": None}


def answers(lines, family="", home=(), **said):
    """What comes of these lines typed at the questions, and what was printed."""
    found = []

    @click.command()
    def command():
        found.append(answered(asked({**NOTHING, "children": (), **said}, family, home), family, home))

    result = CliRunner().invoke(command, input="\n".join(lines) + "\n")
    assert result.exception is None, result.output
    return found[0], result.output


def test_several_children_are_asked_for_until_a_name_is_empty():
    """Season, theme, each child with its numbers, languages, paper and weeks, one after the other."""
    lines = ["Spring", "", "Pim", "1-4", "Wren", "1-10", "", "en,es", "letter", "8"]
    found, _ = answers(lines)

    assert found.children == (NewChild(name="Pim", numbers=(1, 4)), NewChild(name="Wren", numbers=(1, 10)))
    assert (found.season, found.theme) == ("Spring", "spring-pond")
    assert (found.languages, found.paper, found.weeks) == (("en", "es"), "letter", 8)


def test_enter_takes_what_is_proposed():
    """A family that only presses Enter gets one child, six weeks and A4."""
    found, _ = answers([""] * 8)

    assert found.children == (NewChild(name="Wren", numbers=(1, 5)),)
    assert (found.theme, found.paper, found.weeks) == ("rock-pool", "a4", 6)


@pytest.mark.parametrize(
    ("said", "question"),
    [({"season": "Fall"}, "Season"), ({"children": ("Juno:8-14",)}, "child"), ({"weeks": 4}, "Weeks")],
)
def test_what_an_option_said_is_not_asked(said, question):
    """An option answers beforehand."""
    _, output = answers([""] * 8, **said)

    assert question not in output


def test_a_child_without_numbers_is_asked_for_them():
    """--child Juno asks for her numbers only."""
    found, output = answers(["", "", "8-14", "", "", ""], children=("Juno",))

    assert found.children == (NewChild(name="Juno", numbers=(8, 14)),)
    assert "Juno's numbers" in output
    assert "The child's name" not in output


def test_beside_a_familys_file_only_the_season_is_asked():
    """Children, languages and paper of the family are known: season, theme and weeks are left."""
    home = (NewChild(name="Pim", numbers=(1, 4), at_home=True),)
    found, output = answers(["Winter", "", "4"], family="family.toml", home=home)

    assert found.children == home
    assert (found.season, found.theme, found.weeks) == ("Winter", "first-snow", 4)
    assert (found.paper, found.languages) == ("", ())
    assert "Paper" not in output
