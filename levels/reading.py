"""Reading of files and texts from anyone: plain files of a bounded size, as TOML tables."""

import os
import re
import stat
import tomllib
from typing import Any

__all__ = [
    "LARGEST_SCENARIO", "STRUCTURE", "ScenarioError", "decoded", "file_name", "legible", "read_text",
    "structure", "tables",
]  # fmt: skip

LARGEST_SCENARIO = 1_000_000  # bytes of a scenario
STRUCTURE = 200_000  # characters outside texts and comments; five times the largest legal scenario
_TOKEN = re.compile(  # texts and comments; no alternative may fail late, or hostile files cost their square
    r'"""(?:[^"\\]++|\\.?|"(?!""))*+(?:"""|\Z)' r"|'''(?:[^']++|'(?!''))*+(?:'''|\Z)"
    r'|"(?:[^"\\\n]++|\\[^\n]?)*+"?' r"|'[^'\n]*+'?|#[^\n]*+", re.DOTALL,
)  # fmt: skip
_DEEP_KEY = re.compile(r"(?<![\w-])(?:[\w-]++[ \t]*+\.[ \t]*+){8}", re.ASCII)  # costs the reader its square
# tomllib (3.11) tells a place only at the end of its message
_PLACE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
_TOLD = 160  # characters of what the TOML reader says; it may quote a key of any length


class ScenarioError(ValueError):
    """A scenario that cannot be used. `problems` holds the sentences, one for each thing wrong."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__("\n".join(problems))
        self.problems = tuple(problems)


def file_name(path: str | os.PathLike[str]) -> str:
    """The file's name fit for a sentence: at most 80 characters, all of them seen."""
    return legible(os.fsdecode(os.path.basename(path)))


def legible(words: str) -> str:
    """At most 80 characters, a sign in the place of each that nobody sees, or that turns the line around."""
    plain = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in words[:81])
    return plain if len(plain) <= 80 else plain[:79] + "\N{HORIZONTAL ELLIPSIS}"


def read_text(path: str | os.PathLike[str], largest: int = LARGEST_SCENARIO) -> str:
    """The UTF-8 text of a plain file, a byte-order mark at its head included. ScenarioError otherwise.

    Folders, pipes and devices are refused before they are opened: some wait for ever, some never end.
    """
    name = file_name(path)
    try:
        raw = _read(path, largest)
    except OSError as error:
        raise ScenarioError([f"{name}: cannot be read: {error.strerror or error}."]) from None
    except ValueError:  # a name with a NUL in it
        raise ScenarioError([f"{name}: cannot be read: there can be no such file."]) from None
    return decoded(raw, name, largest)


def _read(path: str | os.PathLike[str], largest: int) -> bytes:
    _refuse_odd(os.stat(path))
    flags = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    with open(os.open(path, flags), "rb") as file:
        _refuse_odd(os.fstat(file.fileno()))  # another may stand there by now
        return file.read(largest + 1) or b""  # a file that will not say anything now says None


def _refuse_odd(found: os.stat_result) -> None:
    if stat.S_ISDIR(found.st_mode):
        raise OSError("it is a folder")
    if not stat.S_ISREG(found.st_mode):
        raise OSError("it is no plain file")


def decoded(raw: bytes, name: str, largest: int = LARGEST_SCENARIO) -> str:
    """The text of a file's bytes. ScenarioError when there are too many or they are not UTF-8."""
    if len(raw) > largest:
        raise ScenarioError([f"{name}: is too large; allowed: {largest} bytes."])
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise ScenarioError([f"{name}, line {line}: is not UTF-8 text; allowed: UTF-8 only."]) from None


def structure(text: str) -> int:
    """Characters outside texts and comments, and one for each escape: what reading time grows with."""
    return len(_TOKEN.sub(_short, text)) + text.count("\\")


def _short(token: re.Match[str]) -> str:
    """A text of one line may be a key; one of several lines and a comment are nothing but words."""
    return "" if token[0].startswith(("#", '"""', "'''")) else "q"


def _deep_line(text: str) -> int | None:
    """Line of the first key with too many dots; None without one."""
    bones = _TOKEN.sub(lambda token: _short(token) or "\n" * token[0].count("\n"), text)
    deep = _DEEP_KEY.search(bones)
    return deep and bones.count("\n", 0, deep.start()) + 1


def tables(text: str, name: str, largest: int = LARGEST_SCENARIO) -> dict[str, Any]:
    """The tables of a TOML text, without its byte-order mark. ScenarioError when it is none."""
    if len(text) > largest:
        raise ScenarioError([f"{name}: is too large; allowed: {largest} bytes."])
    if len(text) > STRUCTURE / 2 and structure(text) > STRUCTURE:
        allowed = f"{STRUCTURE} characters outside texts and comments"
        raise ScenarioError([f"{name}: holds too much; allowed: {allowed}."])
    if line := _deep_line(text):
        raise ScenarioError([f"{name}, line {line}: has too many dots in a row; allowed: 7 dotted names."])
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except ValueError as error:  # TOMLDecodeError, and what int() says of endless digits
        place = _PLACE.search(str(error))
        told = _PLACE.sub("", str(error)).rstrip(".")[:_TOLD]
        last = str(text.count("\n") + 1)
        where = f"{name}, line {place[1] or last}" if place else name
        raise ScenarioError([f"{where}: is not TOML: {told}."]) from None
    except RecursionError:
        raise ScenarioError([f"{name}: is nested too deeply; allowed: lists of tables, no deeper."]) from None
