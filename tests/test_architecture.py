"""The house: which room may know which, measured in the imports themselves."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

root = Path(__file__).parents[1]
house = root / "build_tools"
rooms = ("circuit", "laws", "figure", "page", "site")
only_in = {
    "schemdraw": ("figure/schematic.py",),
    "jinja2": ("page/",),
    "mkdocs": ("site/",),
    "numpy": ("laws/solution.py", "figure/"),  # a second opinion on currents; plain geometry in drawings
}
modules = sorted(path for path in house.rglob("*.py"))


def imports(path: Path) -> set[str]:
    """Every module that a file imports, wherever in it."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found.update(name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written in full"
            found.update({node.module or "", *(f"{node.module}.{name.name}" for name in node.names)})
    return found


@pytest.mark.parametrize("path", [path for path in modules if path.parent != house], ids=lambda path: str(path.relative_to(house)))
def test_a_room_imports_only_from_rooms_above_it(path: Path) -> None:
    """circuit, laws, figure, page, site: data flows one way. Only the site calls the pipeline, which stands outside."""
    room = path.relative_to(house).parts[0]
    allowed = rooms[: rooms.index(room) + 1]

    for name in imports(path):
        if name.startswith("build_tools.") and not (room == "site" and name.startswith("build_tools.pipeline")):
            assert name.split(".")[1] in allowed, f"{room} imports {name}"


@pytest.mark.parametrize("path", modules, ids=lambda path: str(path.relative_to(house)))
def test_each_package_is_known_in_one_place(path: Path) -> None:
    """What changes with a package changes in one room."""
    here = path.relative_to(house).as_posix()

    for name in imports(path):
        places = only_in.get(name.split(".")[0], ("",))
        assert here.startswith(places), f"{here} imports {name}"


@pytest.mark.parametrize("path", modules, ids=lambda path: str(path.relative_to(house)))
def test_a_module_has_one_subject(path: Path) -> None:
    """At most about 300 lines, and a docstring that says what it is for."""
    text = path.read_text(encoding="utf-8")

    assert len(text.splitlines()) <= 310
    assert ast.get_docstring(ast.parse(text))


def test_the_top_level_is_as_agreed() -> None:
    """Nothing else stands at the top of the repository."""
    import subprocess

    listed = subprocess.run(["git", "ls-files"], cwd=root, capture_output=True, text=True, check=True).stdout.split()
    top = {path.split("/")[0] for path in listed}

    assert top <= {
        "README.md",
        "DEVELOPERS.md",
        "mkdocs.yml",
        "pyproject.toml",
        "docs",
        "circuits",
        "build_tools",
        "tests",
        ".ci",
        ".gitignore",
    }


def test_no_file_names_the_host_of_a_package_registry() -> None:
    """An address of a registry in a file would break the build elsewhere."""
    import subprocess

    pattern = r"(index-url|extra-index|find-links|registry) *[=:]? *https?://"
    found = subprocess.run(["git", "grep", "-nIE", pattern, "--", "."], cwd=root, capture_output=True, text=True).stdout

    assert found == ""
