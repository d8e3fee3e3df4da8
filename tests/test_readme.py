"""README and DEVELOPERS say what is so: the table of materials, the commands, the example pack."""

import re
from dataclasses import fields
from pathlib import Path

import pytest
from click.testing import CliRunner

from printkit.cli import commands
from printkit.materials import materials

TOP = Path(__file__).parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")


def material_rows() -> list[str]:
    """The rows of README's table, as the registry has them."""
    return [
        f"| `{item.name}` | {item.line} | {', '.join(f'`{field.name}`' for field in fields(item.settings))} |"
        for item in materials().values()
    ]


def setting_rows() -> list[str]:
    """The rows of README's table of settings, as the settings' own checks have them."""
    return [
        f"| `{item.name}` | `{field.name}` | {field.metadata['check'].allowed()} | {field.metadata['says']} |"
        for item in materials().values()
        for field in fields(item.settings)
    ]


def block(name: str) -> str:
    """The code block behind a marker such as <!-- sample -->."""
    return re.search(rf"<!-- {name} -->\n```\w*\n(.*?)\n```", README, re.DOTALL)[1]


def test_the_table_of_materials_is_the_registry():
    """Every material stands in README with its line and its settings; nothing else does."""
    table = re.search(r"<!-- materials -->\n(.*?)\n<!-- /materials -->", README, re.DOTALL)[1]

    assert table.splitlines()[2:] == material_rows()


def test_the_table_of_settings_is_that_of_the_checks():
    """Every setting stands in README with what is allowed and what it does."""
    table = re.search(r"<!-- settings -->\n(.*?)\n<!-- /settings -->", README, re.DOTALL)[1]

    assert table.splitlines()[2:] == setting_rows()


def test_every_setting_has_its_words():
    """Each setting of each material says what it does and what is allowed."""
    for item in materials().values():
        for field in fields(item.settings):
            assert field.metadata["says"]
            assert field.metadata["check"].allowed()


def test_every_command_is_in_the_readme():
    """A command that works is told of."""
    missing = [name for name in commands.commands if f"printkit {name}" not in README]

    assert missing == []


def test_every_option_of_make_is_in_the_readme():
    """Each option of make is named."""
    make = commands.commands["make"]
    options = [option for parameter in make.params for option in parameter.opts if option.startswith("--")]
    missing = [option for option in options if option not in README and option != "--output"]

    assert missing == []


@pytest.mark.parametrize("number", range(len(re.findall(r"```toml\n", README))))
def test_the_example_pack_works(number, tmp_path):
    """Every pack file in README passes check."""
    text = re.findall(r"```toml\n(.*?)\n```", README, re.DOTALL)[number]
    (tmp_path / "shelf.toml").write_text(text, encoding="utf-8")
    result = CliRunner().invoke(commands, ["check", str(tmp_path / "shelf.toml")])

    assert (result.exit_code, result.stderr) == (0, "")


def test_the_example_of_a_family_works(tmp_path):
    """README's family and its season, side by side, pass check for both children and those who share."""
    for kind, name in (("family", "family.toml"), ("season", "autumn.toml")):
        (text,) = re.findall(rf"```toml {kind}\n(.*?)\n```", README, re.DOTALL)
        (tmp_path / name).write_text(text, encoding="utf-8")
    result = CliRunner().invoke(commands, ["check", str(tmp_path / "autumn.toml")])

    assert (result.exit_code, result.stderr) == (0, "")
    assert "Wren: numbers = [1, 5] (family.toml, line 7)" in result.stdout
    assert "Wren & Juno: bingo" in result.stdout


@pytest.mark.parametrize("season", ["autumn", "winter"])
def test_the_sample_of_a_family_works(season):
    """Each season of the sample family passes check, with what the family's file says."""
    result = CliRunner().invoke(commands, ["check", str(TOP / "samples" / "family" / f"{season}.toml")])

    assert (result.exit_code, result.stderr) == (0, "")
    assert "margin = 6 (family.toml, line 5)" in result.stdout


def test_the_two_commands_set_everything_up():
    """The sample command makes a sample that is there; the test command runs the tests."""
    sample = re.search(r"samples/[\w-]+\.toml", block("sample"))[0]

    assert (TOP / sample).is_file()
    assert block("tests").endswith("pytest -n auto")


def test_every_dependency_has_its_reason():
    """Each package that is installed is named in DEVELOPERS."""
    import tomllib

    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = project["dependencies"] + project["optional-dependencies"]["test"]
    names = [re.match(r"[\w-]+", item)[0] for item in needed]

    assert [name for name in names if f"`{name}`" not in DEVELOPERS] == []


def test_every_part_of_the_package_is_in_the_house():
    """DEVELOPERS names each module and folder of the package."""
    parts = {path.name for path in (TOP / "printkit").iterdir() if not path.name.startswith("__")}

    assert sorted(part for part in parts if f"`{part.removesuffix('.py')}`" not in DEVELOPERS) == []
