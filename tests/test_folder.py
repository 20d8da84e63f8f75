"""The folder for people without Python: its spec names all that the program reads and loads by itself.

Building it takes minutes: `.ci/folder` does, and plays a shot from it with an empty PATH.
"""

import ast
import os
import re
from importlib.util import find_spec
from pathlib import Path

ROOT = Path(__file__).parent.parent
SPEC = (ROOT / ".ci" / "folder.spec").read_text(encoding="utf-8")
OURS = ("game", "levels", "physics", "assets")


def named(variable: str) -> list[str]:
    """A list of the spec, by the name of its variable or argument."""
    for node in ast.walk(ast.parse(SPEC)):
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == variable:
            return list(ast.literal_eval(node.value))
        if isinstance(node, ast.keyword) and node.arg == variable and isinstance(node.value, ast.List):
            try:
                return list(ast.literal_eval(node.value))
            except ValueError:
                continue
    raise AssertionError(f"the spec names no {variable}")


def imported() -> set[str]:
    """Top-level packages that the program imports, wherever the import stands."""
    found = set()
    for package in OURS:
        for path in (ROOT / package).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Import):
                    found |= {alias.name.split(".")[0] for alias in node.names}
                elif isinstance(node, ast.ImportFrom) and node.module:
                    found.add(node.module.split(".")[0])
    return found


def test_every_package_of_ours_goes_in_whole_and_as_source() -> None:
    assert set(named("OURS")) == set(OURS)
    assert "collect_submodules(package)" in SPEC, "screens and commands are loaded by name"
    assert 'module_collection_mode={package: "py" for package in OURS}' in SPEC, "laws are keyed by source"


def test_every_kind_of_data_file_goes_in() -> None:
    taken = {Path(pattern).suffix for pattern in named("includes")}
    there = {
        path.suffix
        for package in OURS
        for path in (ROOT / package).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts and "pictures" not in path.parts
    }
    assert there - {".py"} <= taken
    assert "fontpkg_inter" in SPEC, "the type"


def test_nothing_is_left_out_that_a_shot_or_the_window_imports() -> None:
    # `sweep --plot`, MP4 of `clip`, and numba's own linear algebra, which no law calls
    extra = {"av", "matplotlib", "scipy"}
    assert set(named("excludes")) & imported() <= extra
    for path in (ROOT / "physics").rglob("*.py"):
        source = path.read_text(encoding="utf-8")
        assert "@law" not in source or not re.search(r"np\.linalg|scipy", source), path


def test_its_start_is_there_and_what_builds_it_can_be_run() -> None:
    assert find_spec("game.__main__") is not None
    assert os.access(ROOT / ".ci" / "folder", os.X_OK)
