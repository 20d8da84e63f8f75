"""What every command shares: refusals with their exit code, and writing results whole or not at all."""

import contextlib
import os
from collections.abc import Iterable
from difflib import get_close_matches
from pathlib import Path
from typing import TextIO

__all__ = [
    "BadFileError",
    "CommandError",
    "UsageError",
    "WriteError",
    "can_hold",
    "let_go",
    "no_such",
    "write",
]


class CommandError(Exception):
    """Why a command stops, for the user; `code` is the exit code."""

    code = 2


class UsageError(CommandError):
    """An option or value is wrong."""


class BadFileError(CommandError):
    """A file cannot be used."""

    code = 3


class WriteError(CommandError):
    """A result cannot be written."""

    code = 4


def no_such(what: str, name: str, allowed: Iterable[str]) -> str:
    """One sentence: there is no such thing, and the nearest one, or all of them."""
    names = list(allowed)
    near = get_close_matches(name[:40], names, n=1)
    if near:
        return f"There is no {what} '{name}'; did you mean {near[0]}?"
    return f"There is no {what} '{name}'; allowed: {', '.join(names)}."


def can_hold(path: Path) -> Path:
    """The path, when its folder is there; WriteError otherwise. Asked before long work, not after."""
    if path.is_dir():
        raise WriteError(f"'{path}' cannot be written: it is a folder.")
    if not path.parent.is_dir():
        raise WriteError(f"'{path}' cannot be written: there is no folder '{path.parent}'.")
    return path


def write(path: Path, data: bytes) -> None:
    """Put `data` in the file's place in one step; a device or pipe is written to as it is."""
    can_hold(path)
    target = Path(os.path.realpath(path))
    part = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        if target.exists() and not target.is_file():
            target.write_bytes(data)
            return
        try:
            part.write_bytes(data)
            os.replace(part, target)
        finally:
            part.unlink(missing_ok=True)
    except OSError as error:
        raise WriteError(f"'{path}' cannot be written: {error.strerror or error}.") from None


def let_go(stream: TextIO) -> None:
    """Give up a stream that takes no more, so that the interpreter does not try again at its end."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
