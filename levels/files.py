"""Scenario files: read with every problem told, written whole or not at all, and the built-in library."""

import os
import re
import shutil
import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any

import tomli_w
from pydantic import ValidationError

from levels.locate import line_of, lines_of
from levels.migrations import migrated
from levels.problems import key_text, problems_of
from levels.rules import Found, Loc
from levels.scenario import Scenario

__all__ = [
    "LARGEST", "ScenarioError", "library", "load_library", "parse_scenario", "read_scenario", "replace_file",
    "scenario_text", "write_scenario",
]  # fmt: skip

LARGEST = 1_000_000  # bytes
_PART = r"""(?:[A-Za-z0-9_-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*"""
_DEEP_KEY = re.compile(rf"(?<![A-Za-z0-9_-])(?:{_PART}){{32}}")  # the reader's time grows with its square
_PLACE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")


class ScenarioError(ValueError):
    """A scenario that cannot be used. `problems` holds the sentences, one for each thing wrong."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__("\n".join(problems))
        self.problems = tuple(problems)


def read_scenario(path: str | os.PathLike[str]) -> Scenario:
    """The scenario in a file. ScenarioError tells everything wrong with it."""
    name = os.path.basename(path)
    try:
        with open(path, "rb") as file:
            raw = file.read(LARGEST + 1)
    except OSError as error:
        raise ScenarioError([f"{name}: cannot be read: {error.strerror or error}."]) from None
    return parse_scenario(_decoded(raw, name), name)


def parse_scenario(text: str, name: str = "scenario") -> Scenario:
    """The scenario in a TOML text; `name` is the file's, for messages. ScenarioError as above."""
    try:
        data = _tables(text, name)
        try:
            data = migrated(data)
        except ValueError as error:
            raise _error(name, text, [(("format",), str(error))]) from None
        try:
            return Scenario.model_validate(data)
        except ValidationError as error:
            raise _error(name, text, problems_of(error)) from None
    except RecursionError:
        raise ScenarioError([f"{name}: is nested too deeply; allowed: lists of tables, no deeper."]) from None


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


def replace_file(path: str | os.PathLike[str], text: str) -> None:
    """Put `text` (UTF-8) in the place of the file in one step, keeping the rights of the old one."""
    target = Path(os.path.realpath(path))
    part = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        with open(part, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, part)
        os.replace(part, target)
    finally:
        part.unlink(missing_ok=True)


def library() -> tuple[str, ...]:
    """Names of the built-in scenarios, in order."""
    entries = (files("levels") / "library").iterdir()
    return tuple(sorted(e.name.removesuffix(".toml") for e in entries if e.name.endswith(".toml")))


def load_library(name: str) -> Scenario:
    """A built-in scenario. ScenarioError names the allowed ones."""
    if name not in library():
        raise ScenarioError([f"'{name}' is no built-in scenario; allowed: {', '.join(library())}."])
    file = f"{name}.toml"
    return parse_scenario(_decoded((files("levels") / "library" / file).read_bytes(), file), file)


def _decoded(raw: bytes, name: str) -> str:
    if len(raw) > LARGEST:
        raise ScenarioError([f"{name}: is too large; allowed: {LARGEST} bytes."])
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise ScenarioError([f"{name}, line {line}: is not UTF-8 text; allowed: UTF-8 only."]) from None


def _tables(text: str, name: str) -> dict[str, Any]:
    if len(text) > LARGEST:
        raise ScenarioError([f"{name}: is too large; allowed: {LARGEST} bytes."])
    if deep := _DEEP_KEY.search(text):
        line = text.count("\n", 0, deep.start()) + 1
        raise ScenarioError([f"{name}, line {line}: has too many dots in a row; allowed: 31 dotted names."])
    try:
        return tomllib.loads(text)
    except ValueError as error:  # TOMLDecodeError, and what int() says of endless digits
        place = _PLACE.search(str(error))
        told = _PLACE.sub("", str(error)).rstrip(".")
        last = str(text.count("\n") + 1)
        where = f"{name}, line {place[1] or last}" if place else name
        raise ScenarioError([f"{where}: is not TOML: {told}."]) from None


def _error(name: str, text: str, found: Found) -> ScenarioError:
    lines = lines_of(text)
    placed = sorted(((line_of(lines, loc), loc, what) for loc, what in found), key=lambda one: one[0] or 0)
    return ScenarioError([_told(name, *one) for one in placed])


def _told(name: str, line: int | None, loc: Loc, what: str) -> str:
    where = name if line is None else f"{name}, line {line}"
    return f"{where}, {key_text(loc)}: {what.rstrip('.')}."
