"""Putting a page or clip in its place: one sentence where that cannot be done, and never half a file."""

from pathlib import Path

from levels.whole_file import replace_bytes

__all__ = ["HandoutError", "LetterError", "hold", "put"]


class HandoutError(Exception):
    """Why a page or clip was not written, in one sentence."""


class LetterError(HandoutError):
    """A word holds a letter that the page cannot show."""


def hold(path: Path) -> None:
    """HandoutError when the path is a folder or its folder is missing. Asked before long work."""
    if path.is_dir():
        raise HandoutError(f"'{path}' cannot be written: it is a folder.")
    if not path.parent.is_dir():
        raise HandoutError(f"'{path}' cannot be written: there is no folder '{path.parent}'.")


def put(path: Path, data: bytes) -> None:
    """The data in the file's place in one step. HandoutError when the disk refuses."""
    hold(path)
    try:
        replace_bytes(path, data)
    except OSError as error:
        raise HandoutError(f"'{path}' cannot be written: {error.strerror or error}.") from None
