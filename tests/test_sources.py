"""Every outside check says where its number is from, in words another reader can follow up."""

import ast
import re
from pathlib import Path

import pytest

PUBLISHED = sorted((Path(__file__).parent / "published").glob("test_*.py"))
NAME = r"[A-Z][\w'-]+"
# Author or body and year (Penner 2002; Li, Zhang & Goldman 2013; Wong (2008)), a standard, or a plain word
SOURCE = re.compile(
    rf"{NAME}(?: et al\.)?(?:'s [\w -]+)?,? \(?(?:1[89]|20)\d\d\b|\bASTM [A-Z]\d+\b|\b[Cc]ommon practice\b"
    r"|\b[Dd]erived\b|\b[Ff]rom memory\b|\bSciPy\b"
)
VAGUE = re.compile(
    r"\b(?:published|worked) (?:example|problem|figures?|blade)|\btextbook\b|\ban open\b"
    r"|\b(?:well|is|are) known\b|\bsome(?:one|where)\b|\bliterature\b",
    re.IGNORECASE,
)


def checks(source: str) -> list[tuple[str, str]]:
    """Name and docstring, on one line, of every test in a source."""
    tests = [
        node for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
    ]  # fmt: skip
    return [(test.name, " ".join((ast.get_docstring(test) or "").split())) for test in tests]


@pytest.mark.parametrize("path", PUBLISHED, ids=[path.stem for path in PUBLISHED])
def test_every_outside_check_names_its_source(path: Path) -> None:
    found = checks(path.read_text(encoding="utf-8"))
    assert found
    assert [name for name, words in found if not SOURCE.search(words)] == []


@pytest.mark.parametrize("path", PUBLISHED, ids=[path.stem for path in PUBLISHED])
def test_no_source_is_vague(path: Path) -> None:
    """A source nobody can look up is said to be from memory."""
    assert [found[0] for found in VAGUE.finditer(" ".join(path.read_text(encoding="utf-8").split()))] == []


@pytest.mark.parametrize(
    ("words", "named"),
    [
        ("Penner 2002 (putting): 1.63.", True),
        ("Li, Zhang & Goldman 2013, table S2.", True),
        ("Measured by Cochran & Stobbs (1968).", True),
        ("Dropped as in ASTM D5874.", True),
        ("Half an oscillation, derived.", True),
        ("0.1 %.", False),
        ("A published value within 0.1 %.", False),
        ("Stimpmeter at 2000 mm.", False),
        ("", False),
    ],
)
def test_the_rule_tells_a_source_from_none(words: str, named: bool) -> None:
    assert bool(SOURCE.search(words)) is named


def test_a_check_without_words_is_found() -> None:
    assert checks("def test_a():\n    pass\n") == [("test_a", "")]
