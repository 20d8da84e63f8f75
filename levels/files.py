"""Scenario files: read with every problem told, written whole or not at all, and the built-in library."""

import os
from importlib.resources import files

import tomli_w
from pydantic import ValidationError

from levels.locate import line_of, lines_of
from levels.migrations import migrated
from levels.problems import key_text, problems_of
from levels.reading import ScenarioError, decoded, file_name, read_text, tables
from levels.rules import Faults, Loc
from levels.scenario import Scenario
from levels.whole_file import replace_file

__all__ = [
    "ScenarioError", "library", "load_library", "parse_scenario", "read_scenario",
    "scenario_text", "told", "write_scenario",
]  # fmt: skip

MOST_TOLD = 60  # sentences about one file; who has more to mend begins with these


def read_scenario(path: str | os.PathLike[str]) -> Scenario:
    """The scenario in a file. ScenarioError tells everything wrong with it.

    >>> read_scenario("nowhere.toml")
    Traceback (most recent call last):
    levels.reading.ScenarioError: nowhere.toml: cannot be read: No such file or directory.
    """
    return parse_scenario(read_text(path), file_name(path))


def parse_scenario(text: str, name: str = "scenario") -> Scenario:
    """The scenario in a TOML text; `name` is the file's, for messages. ScenarioError as above.

    >>> from levels.draft import library_text
    >>> scenario = parse_scenario(library_text("harrow-fen-after-rain"))
    >>> scenario.title, scenario.course().hole.x
    ('Harrow Fen: after the rain', 8.5)
    >>> parse_scenario("title = 3")
    Traceback (most recent call last):
    levels.reading.ScenarioError: scenario, format: is missing; allowed: 1.
    """
    text = text.removeprefix("\ufeff")
    data = tables(text, name)
    try:
        data = migrated(data)
    except ValueError as error:
        raise ScenarioError(told(name, text, [(("format",), str(error))])) from None
    try:
        return Scenario.model_validate(data)
    except ValidationError as error:
        raise ScenarioError(told(name, text, problems_of(error))) from None


def scenario_text(scenario: Scenario) -> str:
    """TOML that reads back as an equal scenario."""
    return tomli_w.dumps(scenario.model_dump(exclude_none=True), multiline_strings=True)


def write_scenario(path: str | os.PathLike[str], scenario: Scenario) -> None:
    """Write the file whole or leave the old one.

    ScenarioError when the scenario breaks a rule (a copy changed without validation can), OSError when
    the disk refuses.
    """
    text = scenario_text(scenario)
    parse_scenario(text, os.path.basename(path))
    replace_file(path, text)


def library() -> tuple[str, ...]:
    """Names of the built-in scenarios, in order."""
    entries = (files("levels") / "library").iterdir()
    return tuple(sorted(e.name.removesuffix(".toml") for e in entries if e.name.endswith(".toml")))


def load_library(name: str) -> Scenario:
    """A built-in scenario. ScenarioError names the allowed ones.

    >>> load_library(library()[0]).player
    'steady'
    """
    if name not in library():
        raise ScenarioError([f"'{name}' is no built-in scenario; allowed: {', '.join(library())}."])
    file = f"{name}.toml"
    return parse_scenario(decoded((files("levels") / "library" / file).read_bytes(), file), file)


def told(name: str, text: str, found: Faults) -> list[str]:
    """What was found wrong in a TOML text as sentences with line and key, in the order of the lines."""
    try:
        lines = lines_of(text) if found else {}
    except RecursionError:  # lists in lists, as deep as the reader itself still bears
        lines = {}
    placed = sorted(((line_of(lines, loc), loc, what) for loc, what in found), key=lambda one: one[0] or 0)
    sentences = [_told(name, *one) for one in placed[:MOST_TOLD]]
    if (more := len(placed) - MOST_TOLD) > 0:
        sentences.append(f"{name}: has {more} more problems; allowed: none, fix these first.")
    return sentences


def _told(name: str, line: int | None, loc: Loc, what: str) -> str:
    where = name if line is None else f"{name}, line {line}"
    return f"{where}, {key_text(loc)}: {what.rstrip('.')}."
