"""The house stands as it was drawn: imports go one way, the PDF library stays in the writer."""

import ast
from pathlib import Path

import pytest

import printkit

PACKAGE = Path(printkit.__file__).parent
FLOORS = (
    ("units", "errors", "resources", "chance", "checks", "toml_lines"),
    ("pieces",),
    ("files", "texts"),
    ("words", "letters", "pictures"),
    ("ladder",),
    ("pack",),
    ("materials",),
    ("sheets",),
    ("labels", "planner", "guide", "manifest", "ink", "forms", "limits", "journal", "climbing"),
    ("writer",),
    ("shown",),
    (
        "build",
        "listing",
        "report",
        "letter_sheets",
        "contact_sheet",
        "material_sheet",
        "printer_test",
        "theme_folder",
        "starter",
        "season",
    ),
    ("asking",),
    ("cli", "web"),
    ("__main__",),
)
HEAVY = {
    "babel",
    "reportlab",
    "num2words",
    "PIL",
    "fontTools",
    "uharfbuzz",
    "pypdfium2",
    "pypdf",
    "flask",
    "tomlkit",
}


def modules() -> list[Path]:
    """Every module of the package."""
    return sorted(path for path in PACKAGE.rglob("*.py") if path != PACKAGE / "__init__.py")


def part(path: Path) -> str:
    """The module or folder at the top of the package that a file belongs to."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def floor(name: str) -> int:
    """How high a part stands: it may import from its own floor and from those below."""
    return next(level for level, names in enumerate(FLOORS) if name in names)


def imported(path: Path, *, top_only: bool = False) -> list[str]:
    """Dotted names of the modules a file imports."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = tree.body if top_only else ast.walk(tree)
    names = []
    for node in nodes:
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names.append(node.module or "")
    return names


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_go_one_way(path):
    """A part imports only from parts that stand below it, or beside it on the same floor."""
    above = [
        name
        for name in imported(path)
        if name.startswith("printkit.") and floor(name.split(".")[1]) > floor(part(path))
    ]

    assert above == []


def test_parts_of_one_floor_form_no_ring():
    """Within a floor imports run one way too: no part is reached again from itself."""
    arrows: dict[str, set[str]] = {}
    for path in modules():
        targets = {name.split(".")[1] for name in imported(path) if name.startswith("printkit.")}
        arrows.setdefault(part(path), set()).update(targets - {part(path)})
    reached = {name: set(targets) for name, targets in arrows.items()}
    for _ in reached:
        for targets in reached.values():
            targets.update(*(reached.get(target, set()) for target in list(targets)))

    assert [name for name, targets in reached.items() if name in targets] == []


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_only_the_writer_knows_the_pdf_library(path):
    """No other module imports reportlab."""
    knows = any(name.split(".")[0] == "reportlab" for name in imported(path))

    assert knows == (part(path) == "writer")


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_heavy_libraries_are_imported_where_used(path):
    """No module loads a heavy library at its top, so that lists and help start fast."""
    heavy = {name.split(".")[0] for name in imported(path, top_only=True)} & HEAVY

    allowed = {"pictures": {"fontTools"}, "season": {"tomlkit"}, "web": {"flask", "tomlkit"}}
    assert heavy <= allowed.get(part(path), set())


def test_every_part_has_its_floor():
    """A new module is given its place in the order above."""
    known = {name for names in FLOORS for name in names}

    assert {part(path) for path in modules()} <= known
