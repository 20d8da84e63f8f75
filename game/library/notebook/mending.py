"""A damaged notebook mended: the last good copy, and every sound row of the damaged file, in a new file.

The damaged file stays as it lies, with what SQLite keeps beside it. Rows prove themselves by their seal.
"""

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from game.library.notebook.copies import last_copy
from game.library.notebook.files import name_after, newest, opened
from game.library.notebook.pages import rows_where
from game.library.notebook.schema import migrate
from game.library.notebook.store import put
from levels.attempts import Attempt

__all__ = ["Mended", "mend"]

BATCH = 256  # rows asked for at once; a batch with damage in it is asked row by row
LEAST_ROW = 200  # bytes of a row at least: bounds how far rows are looked for
_OTHERS = ("earlier", "day_lines", "outside")


@dataclass(frozen=True)
class Mended:
    """The new notebook: attempts that came from the last good copy, and those only the damaged file had."""

    path: Path
    from_copy: int
    salvaged: int
    copy: str  # the copy's day; "" without one

    @property
    def sentence(self) -> str:
        """What was done, in one sentence."""
        copy = f"{self.from_copy} from the copy of {self.copy} and " if self.copy else ""
        return (
            f"The notebook is mended: {copy}{self.salvaged} attempts out of the damaged file "
            f"are in {self.path.name}; the damaged file stays as it is."
        )


def mend(home: Path) -> Mended:
    """Make a new notebook beside the damaged one. OSError or sqlite3.Error when the disk refuses.

    Where another window was faster, its new notebook stands and the sound rows are looked for no more.
    """
    damaged, copy = newest(home), last_copy(home)
    target = name_after(damaged)
    room = Path(tempfile.mkdtemp(prefix=".mending-", dir=home))
    try:
        made = room / "new.db"
        if copy:
            shutil.copyfile(copy, made)
        connection = opened(made, 1.0)
        try:
            migrate(connection)
            before = _count(connection)
            for attempt in salvaged(damaged, room):
                _try(connection, lambda c, one=attempt: put(c, one))  # type: ignore[misc]
            _take_others(connection, room / damaged.name)
            after = _count(connection)
            connection.execute("PRAGMA journal_mode = DELETE")  # one file, whole under its name
        finally:
            connection.close()
        _name(made, target)
        return Mended(target, before, after - before, copy.stem.removeprefix("notebook-") if copy else "")
    finally:
        shutil.rmtree(room, ignore_errors=True)


def _name(made: Path, target: Path) -> None:
    """Give the finished file its name, in nobody's place."""
    try:
        os.link(made, target)
    except FileExistsError:
        return
    except OSError:  # a disk without links
        if not target.exists():
            os.rename(made, target)


def _count(connection: sqlite3.Connection) -> int:
    return int(connection.execute("SELECT count(*) FROM attempts").fetchone()[0])


def _try(connection: sqlite3.Connection, act: Callable[[sqlite3.Connection], None]) -> None:
    connection.execute("BEGIN IMMEDIATE")
    try:
        act(connection)
        connection.execute("COMMIT")
    except sqlite3.IntegrityError:
        connection.execute("ROLLBACK")


def salvaged(damaged: Path, room: Path) -> list[Attempt]:
    """The sound attempts of a damaged file, read from copies of it in `room`."""
    for end in ("", "-wal"):
        beside = damaged.with_name(damaged.name + end)
        if beside.exists():
            shutil.copyfile(beside, room / beside.name)
    try:
        connection = opened(room / damaged.name, 1.0)
    except sqlite3.Error:
        return []
    try:
        return _sound(connection, damaged.stat().st_size // LEAST_ROW + BATCH)
    finally:
        connection.close()


def _sound(connection: sqlite3.Connection, most: int) -> list[Attempt]:
    out: list[Attempt] = []
    empty = 0
    first = 1
    while first <= most and empty < 64:
        found = _asked(connection, first, first + BATCH - 1)
        if found is None:
            rows = [_asked(connection, i, i) for i in range(first, first + BATCH)]
            found = [one for row in rows if row for one in row]
        out += found
        empty = 0 if found else empty + 1
        first += BATCH
    return out


def _asked(connection: sqlite3.Connection, first: int, last: int) -> list[Attempt] | None:
    """Sound rows with these numbers; None where damage lies among them."""
    try:
        return list(rows_where(connection, "WHERE a.id BETWEEN ? AND ? ORDER BY a.id", (first, last)))
    except sqlite3.Error:
        return None


def _take_others(connection: sqlite3.Connection, damaged: Path) -> None:
    """What is not an attempt, as far as it can be read: earlier progress, days' lines, drills outside."""
    try:
        old = opened(damaged, 1.0)
    except sqlite3.Error:
        return
    try:
        for table in _OTHERS:
            try:
                rows = old.execute(
                    f"SELECT p.name, t.* FROM {table} t JOIN players p ON p.id = t.player_id"
                ).fetchall()
            except sqlite3.Error:
                continue
            for name, *values in rows:
                _try(connection, lambda c, t=table, n=name, v=values: _put_other(c, t, n, v))  # type: ignore[misc]
    finally:
        old.close()


def _put_other(connection: sqlite3.Connection, table: str, player: str, values: list[object]) -> None:
    connection.execute("INSERT INTO players (name) VALUES (?) ON CONFLICT DO NOTHING", (player,))
    (own,) = connection.execute("SELECT id FROM players WHERE name = ?", (player,)).fetchone()
    at = 1 if table == "outside" else 0  # where the player's number stands
    row = [*values[:at], own, *values[at + 1 :]]
    places = ", ".join("?" * len(row))
    connection.execute(f"INSERT INTO {table} VALUES ({places}) ON CONFLICT DO NOTHING", row)
