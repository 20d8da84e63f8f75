"""The rule of the told word: what is shown is made from values; nothing is read back out of a sentence."""

import ast
from pathlib import Path

import pytest

HOUSE = Path(__file__).parent.parent
FLOORS = ("bench", "chapters", "draw", "handout", "ladder", "play", "shot_view", "text")
FILES = [f for floor in FLOORS for f in sorted((HOUSE / "game" / floor).rglob("*.py"))]
READS = {"endswith", "partition", "removesuffix", "rpartition", "rsplit", "split", "splitlines", "startswith"}
BROKEN_INTO_LINES = {
    ("game/draw/type.py", "wrap"), ("game/draw/printed.py", "print_lines"),
    ("game/shot_view/sentence.py", "_words"),
}  # fmt: skip
NO_TOLD_TEXT = {  # what these look at was written by a person or is a name, and was never told by the program
    ("game/chapters/contents.py", "page_of"): "key of a scenario",
    ("game/chapters/coach_note.py", "_stopped"): "a coach's own words, closed by a full stop",
    ("game/text/typed.py", ""): "a number and its unit as a person typed them",
    ("game/shot_view/sentence.py", "_flow"): "blank kept by _words at the edge of a word, for a line break",
}


def reads(source: str) -> list[tuple[str, str]]:
    """(function, what) of every place where text is taken apart (`layout` and `np` split no text)."""
    out: list[tuple[str, str]] = []

    def look(node: ast.AST, inside: str) -> None:
        if isinstance(node, ast.FunctionDef):
            inside = node.name
        if isinstance(node, ast.Import) and any(name.name == "re" for name in node.names):
            out.append((inside, "import re"))
        if isinstance(node, ast.ImportFrom) and node.module == "re":
            out.append((inside, "import re"))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in READS:
            of = node.func.value
            if not (isinstance(of, ast.Name) and of.id in ("layout", "np")):
                out.append((inside, node.func.attr))
        for child in ast.iter_child_nodes(node):
            look(child, inside)

    look(ast.parse(source), "")
    return out


@pytest.mark.parametrize("file", FILES, ids=lambda f: str(f.relative_to(HOUSE / "game")))
def test_nothing_is_read_out_of_told_text(file: Path) -> None:
    name = file.relative_to(HOUSE).as_posix()
    allowed = BROKEN_INTO_LINES | set(NO_TOLD_TEXT)
    found = [(where, what) for where, what in reads(file.read_text()) if (name, where) not in allowed]
    assert found == []


def test_what_is_allowed_is_there() -> None:
    for name, where in BROKEN_INTO_LINES | set(NO_TOLD_TEXT):
        assert where in [inside for inside, _ in reads((HOUSE / name).read_text())], (name, where)


def test_the_guard_sees_what_it_is_for() -> None:
    assert reads("import re") == reads("from re import sub") == [("", "import re")]
    assert reads("def bare(mark):\n    return mark.text.split()[0]") == [("bare", "split")]
    assert reads("own = [t for t in told if t.startswith('hole')]") == [("", "startswith")]
    assert reads("a, b = layout.split(box, (1, 1))") == []
