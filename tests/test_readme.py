"""The README's commands are the ones CI runs, and its pictures exist."""

import re
from pathlib import Path

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_ci_runs_the_readme_test_command() -> None:
    command = next(line for line in README.splitlines() if "-m pytest" in line)
    assert command in (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()


def test_pictures_exist() -> None:
    pictures = re.findall(r"!\[[^]]*]\(([^)]+)\)", README)
    assert pictures
    assert [p for p in pictures if not (ROOT / p).is_file()] == []
