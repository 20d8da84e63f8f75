"""Where the notebook lies, and how its file is opened: for writing, for reading alone, or in memory.

A damaged notebook is never written over: what is saved from it goes into a new file with the next number,
and the highest number is the one in use.
"""

import re
import sqlite3
from pathlib import Path
from typing import Any

__all__ = ["copy_folder", "is_corrupt", "is_unavailable", "name_after", "newest", "opened", "opened_to_read"]

_NAME = re.compile(r"notebook(?:-(\d{1,6}))?\.db")
_CORRUPT = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_FORMAT}
_UNAVAILABLE = {
    sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_READONLY, sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_FULL, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM, sqlite3.SQLITE_NOLFS,
    sqlite3.SQLITE_PROTOCOL, sqlite3.SQLITE_NOMEM, sqlite3.SQLITE_TOOBIG,
}  # fmt: skip


def newest(home: Path) -> Path:
    """The notebook in use below that folder, there or not."""
    try:
        names = [found for one in home.iterdir() if (found := _NAME.fullmatch(one.name))]
    except OSError:
        names = []
    last = max(names, key=lambda name: int(name[1] or 1), default=None)
    return home / (last[0] if last else "notebook.db")


def name_after(path: Path) -> Path:
    """The name of the notebook that follows this one."""
    found = _NAME.fullmatch(path.name)
    number = int(found[1] or 1) if found else 1
    return path.with_name(f"notebook-{number + 1}.db")


def copy_folder(home: Path) -> Path:
    """Where the daily copies lie."""
    return home / "notebook-copies"


def is_corrupt(error: sqlite3.Error) -> bool:
    """Whether the file itself is damaged."""
    if _code(error) in _CORRUPT:
        return True
    # a schema that lost a table or a column says only that there is none
    return isinstance(error, sqlite3.OperationalError) and _code(error) == sqlite3.SQLITE_ERROR


def is_unavailable(error: sqlite3.Error) -> bool:
    """Whether disk, rights or another window stand in the way for now."""
    return _code(error) in _UNAVAILABLE


def _code(error: sqlite3.Error) -> int:
    return int(getattr(error, "sqlite_errorcode", 0)) & 0xFF  # without what is extended


class _Connection(sqlite3.Connection):
    """A connection that says of a torn schema that it is damaged: SQLite quotes it in what it says, and
    Python cannot read that."""

    def execute(self, *asked: Any) -> sqlite3.Cursor:
        """As always."""
        try:
            return super().execute(*asked)
        except UnicodeDecodeError:
            error = sqlite3.DatabaseError("malformed database schema")
            error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
            raise error from None


def opened(path: Path | str, patience: float) -> sqlite3.Connection:
    """A connection for writing, made where there is none. Waits `patience` (s) for other windows."""
    connection = sqlite3.connect(path, timeout=patience, isolation_level=None, factory=_Connection)
    try:
        _guard(connection)
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = NORMAL")
    except sqlite3.Error:
        connection.close()
        raise
    return connection


def opened_to_read(path: Path, patience: float) -> sqlite3.Connection:
    """A connection that cannot write. Where not even a lock can be written, the file as it lies."""
    error: sqlite3.Error | None = None
    for how in ("mode=ro", "immutable=1"):
        uri = f"{path.absolute().as_uri()}?{how}"
        connection = sqlite3.connect(
            uri, uri=True, timeout=patience, isolation_level=None, factory=_Connection
        )
        try:
            _guard(connection)
            connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
        except sqlite3.Error as found:
            error = error or found
            connection.close()
        else:
            return connection
    raise error or sqlite3.OperationalError("cannot be opened")


def _guard(connection: sqlite3.Connection) -> None:
    """Keep links between tables, let triggers see replaced rows, trust nothing a damaged schema says."""
    connection.text_factory = lambda raw: raw.decode("utf-8", "replace")  # a torn text fails its seal
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA recursive_triggers = ON")
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA cell_size_check = ON")
