"""The guide for contributors names only what is there."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
QUOTED = sorted(set(re.findall(r"`([^`\n]+)`", TEXT)))
TOP = ("assets", "game", "levels", "physics", "tests")
PATHS = [q for q in QUOTED if q.split("/")[0] in TOP and "/" in q and "*" not in q]
# `Desk.play` (`game/bench/acts.py`), `State` in ... : a name, then the file that has it
NAMED = re.findall(r"`([A-Z]\w+)(?:\.(\w+))?`\s+\((?:`([\w/]+\.py)`)\)", TEXT)
LONE = [q for q in QUOTED if re.fullmatch(r"\w+\.py", q)]


def test_there_is_enough_to_check() -> None:
    assert len(PATHS) > 40
    assert len(NAMED) >= 4


@pytest.mark.parametrize("path", PATHS)
def test_every_path_is_there(path: str) -> None:
    assert (ROOT / path).exists()


@pytest.mark.parametrize("name", LONE)
def test_every_file_named_by_itself_is_in_a_package(name: str) -> None:
    assert any(next((ROOT / top).rglob(name), None) for top in TOP) or (ROOT / name).exists()


@pytest.mark.parametrize(("owner", "member", "path"), NAMED)
def test_every_class_and_member_is_in_the_file_beside_it(owner: str, member: str, path: str) -> None:
    tree = ast.parse((ROOT / path).read_text(encoding="utf-8"))
    found = next(n for n in ast.walk(tree) if isinstance(n, ast.ClassDef) and n.name == owner)
    assert not member or any(isinstance(n, ast.FunctionDef) and n.name == member for n in found.body)
