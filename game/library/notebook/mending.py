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
from typing import Any

from game.library.notebook.copies import last_copy
from game.library.notebook.files import name_after, newest, opened
from game.library.notebook.pages import COLUMNS
from game.library.notebook.rows import SHARED, AttemptRow, RowError, attempt_of_row
from game.library.notebook.schema import migrate
from game.library.notebook.store import part_hash, put_attempt
from levels.attempts import Attempt, NamedCause

__all__ = ["Mended", "mend"]

BATCH = 256  # rows looked for in the smallest file
MOST_EMPTY = 20_000  # numbers without a row in a row after which none is thought to follow, assumed
LEAST_ROW = 200  # bytes of a row at least: bounds how far rows are looked for
_OTHERS = ("earlier", "day_lines", "outside", "picks")


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
            for end in ("", "-wal"):
                beside = damaged.with_name(damaged.name + end)
                if beside.exists():
                    shutil.copyfile(beside, room / beside.name)
            for attempt in _salvaged(room / damaged.name, connection):
                _try(connection, lambda c, one=attempt: put_attempt(c, one))  # type: ignore[misc]
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


def _salvaged(damaged: Path, new: sqlite3.Connection) -> list[Attempt]:
    """The sound attempts of a damaged file; what they share also out of the new one, made from a copy."""
    try:
        old = opened(damaged, 1.0)
    except sqlite3.Error:
        return []
    try:
        return _Salvage(old, new).attempts(damaged.stat().st_size // LEAST_ROW + BATCH)
    finally:
        old.close()


class _Salvage:
    """Reads row by row and without joins, so that one torn page costs the rows on it and no others."""

    def __init__(self, old: sqlite3.Connection, new: sqlite3.Connection) -> None:
        self._sources = (old, new)
        self._texts: dict[int, str | None] = {}
        self._names: dict[int, str | None] = {}

    def attempts(self, most: int) -> list[Attempt]:
        """Every sound one; numbers up to `most` are tried, until many in a row are empty."""
        out: list[Attempt] = []
        empty = 0
        for number in range(1, most + 1):
            found = self._attempt(number)
            out += [found] if found else []
            empty = 0 if found else empty + 1
            if empty > MOST_EMPTY:
                break
        return out

    def _attempt(self, number: int) -> Attempt | None:
        row = _one(self._sources[0], _ROW, number)
        if row is None:
            return None
        seal, player, *values = row
        shared, columns = values[: len(SHARED)], values[len(SHARED) :]
        texts = [self._texts.setdefault(own, self._text(own)) for own in shared]
        name = self._names.setdefault(player, self._name(player))
        if name is None or None in texts:
            return None
        whole = {"player": name, **dict(zip(COLUMNS, columns, strict=True))}
        cause = _one(self._sources[0], "SELECT chosen, true FROM causes WHERE uid = ?", whole["uid"])
        parts = {part: text for part, text in zip(SHARED, texts, strict=True) if text is not None}
        try:
            return attempt_of_row(AttemptRow(whole, parts), seal, NamedCause(*cause) if cause else None)
        except RowError:
            return None

    def _text(self, own: int) -> str | None:
        if own in self._texts:
            return self._texts[own]
        for source in self._sources:
            found = _one(source, "SELECT hash, text FROM parts WHERE id = ?", own)
            if found and found[0] == part_hash(found[1]):
                return str(found[1])
        return None

    def _name(self, own: int) -> str | None:
        if own in self._names:
            return self._names[own]
        found = [_one(source, "SELECT name FROM players WHERE id = ?", own) for source in self._sources]
        return next((str(one[0]) for one in found if one), None)


_ROW = (
    f"SELECT seal, player_id, {', '.join(f'{name}_id' for name in SHARED)}, {', '.join(COLUMNS)} "
    "FROM attempts WHERE id = ?"
)


def _one(source: sqlite3.Connection, asked: str, value: Any) -> tuple[Any, ...] | None:
    """The row that is asked for; None where there is none or damage lies in the way."""
    try:
        found: tuple[Any, ...] | None = source.execute(asked, (value,)).fetchone()
    except sqlite3.Error:
        return None
    return found


def _take_others(connection: sqlite3.Connection, damaged: Path) -> None:
    """What is not an attempt, as far as it can be read: earlier progress, days' lines, drills outside,
    picks."""
    try:
        old = opened(damaged, 1.0)
    except sqlite3.Error:
        return
    try:
        for table in _OTHERS:
            try:
                found = old.execute(f"SELECT p.name, t.* FROM {table} t JOIN players p ON p.id = t.player_id")
                columns = [column for column, *_ in found.description[1:]]  # an older file has fewer
                rows = [(name, dict(zip(columns, values, strict=True))) for name, *values in found]
            except sqlite3.Error:
                continue
            for name, row in rows:
                _try(connection, lambda c, t=table, n=name, r=row: _put_other(c, t, n, r))  # type: ignore[misc]
    finally:
        old.close()


def _put_other(connection: sqlite3.Connection, table: str, player: str, row: dict[str, object]) -> None:
    connection.execute("INSERT INTO players (name) VALUES (?) ON CONFLICT DO NOTHING", (player,))
    (own,) = connection.execute("SELECT id FROM players WHERE name = ?", (player,)).fetchone()
    row = {**row, "player_id": own}
    places = ", ".join("?" * len(row))
    told = f"INSERT INTO {table} ({', '.join(row)}) VALUES ({places}) ON CONFLICT DO NOTHING"
    connection.execute(told, tuple(row.values()))
