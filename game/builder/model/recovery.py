"""Recovery files: unsaved work kept beside the settings after every action, found after a sudden end.

Each document has a file of its own, and beside it a lock which the system lets go when the process ends,
however it ends: a file whose lock is free belongs to nobody alive.
"""

import json
import sys
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from secrets import token_hex
from time import time
from typing import IO, Any

import tomli_w

from game.library.set_aside import set_aside
from levels.draft import Draft
from levels.whole_file import replace_file

__all__ = ["Keeper", "Snapshot", "take_stale"]

FOLDER, FORMAT = "recovery", 1
YOUNG = 86_400.0  # s, assumed: no document stays without a word for longer than a day between lock and file


@dataclass(frozen=True)
class Snapshot:
    """What is kept of a document: its file, its text as last saved, and the draft as it stands."""

    path: Path | None
    text: str
    draft: Draft


class Keeper:
    """Keeps one document. OSError where the disk refuses."""

    def __init__(self, home: Path) -> None:
        self._folder = home / FOLDER
        self._file = _fresh(self._folder)
        self._lock: IO[bytes] | None = None

    def keep(self, kept: Snapshot) -> None:
        """Write it whole or leave the old one."""
        self._folder.mkdir(parents=True, exist_ok=True)
        while self._lock is None:
            self._file = _fresh(self._folder)
            self._lock = _locked(self._file.with_suffix(".lock"))
        replace_file(self._file, _text(kept))

    def clear(self) -> None:
        """Nothing is kept any more."""
        self._file.unlink(missing_ok=True)

    def close(self) -> None:
        """Clear, and let the lock go."""
        self.clear()
        if self._lock is not None:
            self._lock.close()
            self._lock = None
            self._file.with_suffix(".lock").unlink(missing_ok=True)


def take_stale(home: Path, keeper: Keeper) -> tuple[Snapshot | None, str]:
    """The newest document nobody alive keeps, now kept by `keeper`; and a sentence about a bad file.

    (None, "") when there is none. Further ones are left for the next time.
    """
    folder = home / FOLDER
    _sweep(folder)
    found = [f for f in folder.glob("*.json") if not f.name.endswith(".bad.json")] if folder.is_dir() else []
    told = ""
    for file in sorted(found, key=_age):
        lock = _locked(file.with_suffix(".lock"))
        if lock is None:
            continue
        with lock:
            try:
                kept = _snapshot(file.read_text(encoding="utf-8"))
            except FileNotFoundError:
                continue  # it was closed just now
            except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
                why, aside = set_aside(file, error)
                told = f"Unsaved work could not be read ({why}); it is kept as {aside or file.name}."
                continue
            keeper.keep(kept)
            file.unlink(missing_ok=True)
        file.with_suffix(".lock").unlink(missing_ok=True)
        return kept, told
    return None, told


def _fresh(folder: Path) -> Path:
    return folder / f"{token_hex(8)}.json"


def _sweep(folder: Path) -> None:
    """Take away what the dead left that keeps nothing. What is young may still be somebody's."""
    halves = folder.glob(".*.part")  # written when the end came
    locks = (lock for lock in folder.glob("*.lock") if not lock.with_suffix(".json").exists())
    for file in (*halves, *locks):
        if -_age(file) < time() - YOUNG:
            with suppress(OSError):
                file.unlink()


def _age(file: Path) -> float:
    """Smaller the newer."""
    try:
        return -file.stat().st_mtime
    except OSError:
        return 0.0


def _text(kept: Snapshot) -> str:
    entry = {
        "format": FORMAT,
        "path": str(kept.path) if kept.path else None,
        "text": kept.text,
        "draft": tomli_w.dumps(kept.draft.data),
    }
    return json.dumps(entry)


def _snapshot(text: str) -> Snapshot:
    entry: Any = json.loads(text)
    if not isinstance(entry, dict) or entry.get("format") != FORMAT or not isinstance(entry["text"], str):
        raise ValueError("it holds no draft")
    path, text = entry["path"], entry["text"]
    if text:
        Draft.parse(text, "its saved text")
    return Snapshot(Path(path) if path else None, text, Draft.parse(entry["draft"], "its draft"))


if sys.platform == "win32":
    import msvcrt

    def _lock_now(file: IO[bytes]) -> None:
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock_now(file: IO[bytes]) -> None:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _locked(path: Path) -> IO[bytes] | None:
    """The file open and locked, None while another holds it."""
    file = open(path, "ab")  # noqa: SIM115  # stays open as long as the lock is wanted
    try:
        _lock_now(file)
    except OSError:
        file.close()
        return None
    return file
