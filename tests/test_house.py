"""The rule of the house: physics imports only physics, levels imports physics, game imports both."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

HOUSE = Path(__file__).parent.parent
FORBIDDEN = {
    "physics": {"levels", "game", "assets", "pygame", "pydantic", "tests"},
    "levels": {"game", "assets", "pygame", "tests"},
    "assets": {"physics", "levels", "game", "tests"},
    "game": {"tests"},
}


def imported(source: str) -> Iterator[str]:
    """Top-level package of every import in the source, wherever it stands, also by name."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name.split(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield "." if node.level else str(node.module).split(".")[0]
        elif isinstance(node, ast.Call) and "import" in ast.unparse(node.func) and node.args:
            name = node.args[0]
            if isinstance(name, ast.Constant) and isinstance(name.value, str):
                yield name.value.split(".")[0]


def files_of(package: str) -> list[Path]:
    return sorted((HOUSE / package).rglob("*.py"))


@pytest.mark.parametrize("package", FORBIDDEN)
def test_package_imports_only_what_the_house_allows(package: str) -> None:
    broken = [
        f"{path.relative_to(HOUSE)} imports {name}"
        for path in files_of(package)
        for name in imported(path.read_text(encoding="utf-8"))
        if name in FORBIDDEN[package] or name == "."
    ]
    assert broken == []


@pytest.mark.parametrize("package", ["physics", "levels", "game"])
def test_there_is_something_to_check(package: str) -> None:
    assert files_of(package)


@pytest.mark.parametrize(
    "source",
    [
        "import pygame",
        "import numpy, pygame.draw",
        "from pygame import draw",
        "def f():\n    import pygame",
        "if True:\n    from pygame.math import Vector2",
        "import importlib\nimportlib.import_module('pygame.draw')",
        "__import__('pygame')",
    ],
)
def test_the_check_sees_every_way_to_import(source: str) -> None:
    assert "pygame" in set(imported(source))


def test_a_relative_import_is_seen() -> None:
    assert list(imported("from . import shot")) == ["."]
