"""A good copy of the notebook a day, made by SQLite's own backup and checked whole before it counts."""

import os
import sqlite3
from datetime import date
from pathlib import Path

from game.library.log import logger
from game.library.notebook.files import copy_folder, newest, opened_to_read

__all__ = ["KEPT_COPIES", "is_whole", "keep_copy", "last_copy"]

KEPT_COPIES = 3  # the newest days', assumed


def keep_copy(home: Path, today: date) -> Path | None:
    """Keep today's copy unless it is there; older ones than the newest few go. None where it cannot be.

    Takes as long as reading the file does: a job for the worker. A copy that is not whole is thrown away
    and takes no good one's place.
    """
    target = copy_folder(home) / f"notebook-{today.isoformat()}.db"
    source = newest(home)
    if target.exists() or not source.exists():
        return target if target.exists() else None
    part = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        _back_up(source, part)
        if not is_whole(part):
            logger.warning("The notebook's copy of %s is not whole and not kept.", today)
            return None
        os.replace(part, target)
        for old in _copies(home)[:-KEPT_COPIES]:
            old.unlink(missing_ok=True)
    except (OSError, sqlite3.Error) as error:
        logger.warning("The notebook's copy of %s could not be kept: %s", today, error)
        return None
    finally:
        part.unlink(missing_ok=True)
    return target


def _back_up(source: Path, part: Path) -> None:
    part.unlink(missing_ok=True)
    reader, writer = opened_to_read(source, 1.0), sqlite3.connect(part)
    try:
        reader.backup(writer)
        writer.execute("PRAGMA journal_mode = DELETE")  # a copy is one file
    finally:
        writer.close()
        reader.close()


def is_whole(path: Path) -> bool:
    """Whether SQLite finds nothing wrong in the file. Read alone."""
    try:
        connection = opened_to_read(path, 1.0)
        try:
            return bool(connection.execute("PRAGMA integrity_check(1)").fetchone() == ("ok",))
        finally:
            connection.close()
    except sqlite3.Error:
        return False


def last_copy(home: Path) -> Path | None:
    """The newest copy that is whole; None without one."""
    return next((path for path in reversed(_copies(home)) if is_whole(path)), None)


def _copies(home: Path) -> list[Path]:
    return sorted(copy_folder(home).glob("notebook-????-??-??.db"))
