"""The rules of the house: which floor may import which, no circle, doors, one meaning a name."""

import ast
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

HOUSE = Path(__file__).parent.parent
FORBIDDEN = {
    "physics": {"levels", "game", "assets", "pygame", "pydantic", "tests"},
    "levels": {"game", "assets", "pygame", "tests"},
    "assets": {"physics", "levels", "game", "tests"},
    "game": {"tests"},
}
FLOORS = (  # from the ground; a file may import its own floor's folder and every floor below
    ("startup", "text", "library"),
    ("draw",),
    ("ui",),
    ("sound",),
    ("shot_view",),
    ("handout",),  # pages and clips to take home
    ("bench", "play", "chapters", "ladder", "builder", "notebook", "choosing", "own_player"),  # screens
    ("app",),
    ("commands",),
    ("cli",),
    ("__main__",),
)
SCREENS = FLOORS[6]
COMMAND = {"add_options", "run"}  # every command and the window have these two, called by `cli` alone
PURE = ("text", "draw", "builder/model")  # nothing here plays a shot


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


def module_of(path: Path) -> str:
    return ".".join(path.relative_to(HOUSE).with_suffix("").parts).removesuffix(".__init__")


@cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def imports() -> dict[str, set[str]]:
    """Module of ours -> modules of ours that it imports, wherever the import stands in the file."""
    paths = {module_of(p): p for package in ("physics", "levels", "game") for p in files_of(package)}
    found: dict[str, set[str]] = {}
    for module, path in paths.items():
        names: set[str] = set()
        for node in ast.walk(tree_of(path)):
            if isinstance(node, ast.Import):
                names |= {alias.name for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                whole = {f"{node.module}.{alias.name}" for alias in node.names}
                names |= {name if name in paths else str(node.module) for name in whole}
        found[module] = names & paths.keys()
    return found


def floor_of(part: str) -> int:
    return next(i for i, floor in enumerate(FLOORS) if part in floor)


def part_of(module: str) -> str:
    return module.split(".")[1] if "." in module else "text"  # `game` itself holds a docstring


def circles(graph: dict[str, set[str]]) -> list[list[str]]:
    """Groups of modules that reach each other; peeled from both ends, what is left is circular."""
    left = {module: set(targets) - {module} for module, targets in graph.items()}
    while True:
        used = set().union(*left.values()) if left else set()
        ends = {m for m, targets in left.items() if not targets & left.keys() or m not in used}
        if not ends:
            return [sorted(left)] if left else []
        left = {m: targets - ends for m, targets in left.items() if m not in ends}


def public_names(path: Path) -> set[str]:
    """What `__all__` names and the file itself defines."""
    named: set[str] = set()
    defined: set[str] = set()
    for node in tree_of(path).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            defined.add(node.name)
        targets = node.targets if isinstance(node, ast.Assign) else []
        targets = [node.target] if isinstance(node, ast.AnnAssign) else targets
        for target in targets:
            names = target.elts if isinstance(target, ast.Tuple) else [target]
            defined |= {n.id for n in names if isinstance(n, ast.Name)}
            if isinstance(target, ast.Name) and target.id == "__all__":
                assert isinstance(node, ast.Assign | ast.AnnAssign)
                assert node.value is not None
                named = set(ast.literal_eval(node.value))
    return named & defined


@pytest.mark.parametrize("package", FORBIDDEN)
def test_package_imports_only_what_the_house_allows(package: str) -> None:
    broken = [
        f"{path.relative_to(HOUSE)} imports {name}"
        for path in files_of(package)
        for name in imported(path.read_text(encoding="utf-8"))
        if name in FORBIDDEN[package] or name == "."
    ]
    assert broken == []


def test_no_floor_imports_a_higher_one() -> None:
    broken = [
        f"{module} imports {target}"
        for module, targets in imports().items()
        for target in targets
        if module.startswith("game.") and target.startswith("game.")
        if floor_of(part_of(target)) > floor_of(part_of(module))
    ]
    assert broken == []


def test_a_screen_knows_another_only_by_its_door() -> None:
    broken = [
        f"{module} imports {target}"
        for module, targets in imports().items()
        for target in targets
        if {part_of(module), part_of(target)} <= set(SCREENS) and part_of(module) != part_of(target)
        if target.count(".") > 1
    ]
    assert broken == []


def test_nothing_imports_in_a_circle() -> None:
    assert circles(imports()) == []


def test_no_public_name_has_two_meanings() -> None:
    homes: dict[str, list[str]] = defaultdict(list)
    for package in ("physics", "levels", "game"):
        for path in files_of(package):
            for name in public_names(path) - COMMAND:
                homes[name].append(module_of(path))
    assert {name: found for name, found in homes.items() if len(found) > 1} == {}


def test_every_file_says_what_it_is_and_what_it_offers() -> None:
    broken = [
        str(path.relative_to(HOUSE))
        for package in ("physics", "levels", "game")
        for path in files_of(package)
        if path.name not in ("__init__.py", "__main__.py")
        if not ast.get_docstring(tree_of(path)) or "__all__" not in path.read_text(encoding="utf-8")
    ]
    assert broken == []


@pytest.mark.parametrize("folder", PURE)
def test_pictures_words_and_drafts_play_no_shot(folder: str) -> None:
    playing = {"physics.cloud.cloud", "physics.shot.play", "physics.shot.replay", "physics.cloud.play_many"}
    broken = [
        f"{path.relative_to(HOUSE)} imports {node.module}.{alias.name}"
        for path in files_of(f"game/{folder}")
        for node in ast.walk(tree_of(path))
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
        if f"{node.module}.{alias.name}" in playing
    ]
    assert broken == []


def test_only_the_worker_catches_everything() -> None:
    broad = [
        f"{path.relative_to(HOUSE)}:{node.lineno}"
        for package in ("physics", "levels", "game")
        for path in files_of(package)
        for node in ast.walk(tree_of(path))
        if isinstance(node, ast.ExceptHandler)
        if node.type is None or ast.unparse(node.type) in ("Exception", "BaseException")
    ]
    assert [place.split(":")[0] for place in broad] == ["game/ui/work.py"]  # with its traceback in the log


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


def test_circles_are_seen() -> None:
    graph = {"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": {"c"}, "e": {"a"}}
    assert circles(graph) == [["b", "c"]]
    assert circles({"a": {"b"}, "b": set()}) == []
    assert circles({"a": {"b"}, "b": {"a"}, "c": {"d"}, "d": {"c"}}) == [["a", "b", "c", "d"]]
