"""The notebook of one window: attempts go in by `log`, one at a time, and are never changed.

What the disk does not take is held in memory, tried again with the next attempt, and said once. A damaged
file is read as far as it goes and no more written; `mending` makes a new one out of it.
"""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, datetime
from hashlib import sha256
from pathlib import Path
from secrets import token_hex
from typing import Literal, Self

from game.library.notebook.files import is_corrupt, is_unavailable, newest, opened, opened_to_read
from game.library.notebook.rows import SHARED, AttemptRow, row_of
from game.library.notebook.schema import NewerNotebookError, is_older, migrate
from levels.attempts import Attempt, NamedCause

__all__ = [
    "FIRST_PLAYER",
    "LONGEST_NAME",
    "Notebook",
    "NotebookState",
    "part_hash",
    "player_name",
    "put_attempt",
    "put_row",
]

NotebookState = Literal["open", "away", "damaged", "newer"]
FIRST_PLAYER = "Player 1"
LONGEST_NAME = 40  # characters of a player's name
PATIENCE = 1.0  # s to wait for another window, assumed: a write takes well under a millisecond
Pending = Callable[[sqlite3.Connection], None]

AWAY = "The notebook cannot be written ({why}); your shots are held in memory and tried again."
DAMAGED = "The notebook {name} is damaged: it is only read now, your shots are held until it is mended."
NEWER = "The notebook {name} was written by a newer version of this program; it is only read."


class Notebook:
    """The notebook below `home`; without a home it lives in memory. For one thread; others open their own.

    >>> from datetime import datetime, timezone
    >>> from levels.attempts import attempt_of
    >>> from physics.address import Motion, Setup
    >>> from physics.course import level_course
    >>> from physics.shot import play
    >>> shot = play(level_course("fairway", 8.0), Setup(), Motion())
    >>> with Notebook(None) as book:
    ...     kept = book.log(attempt_of(shot, book.player, datetime.now(timezone.utc)))
    ...     book.state, len(book.held)
    ('open', 0)
    """

    def __init__(self, home: Path | None, patience: float = PATIENCE) -> None:
        self.home, self.patience = home, patience
        self.path = newest(home) if home else None
        self.state: NotebookState = "open"
        self.problem = ""  # why it is not open, one sentence
        self.readable = True  # whether what is on the disk can be read
        self.held: tuple[Attempt, ...] = ()  # not yet on the disk
        self._pending: list[Pending] = []
        self._said: set[NotebookState] = set()
        self.rest_said: dict[str, datetime] = {}  # when a rest was last proposed to whom, in this window
        self.connection = self._open()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Try once more to write what is held, and let the file go."""
        self.flush()
        self.connection.close()

    # ---- opening

    def _open(self) -> sqlite3.Connection:
        if self.path is None:
            return _in_memory()
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            connection = opened(self.path, self.patience)
        except OSError as error:
            self._stand("away", AWAY.format(why=error.strerror or error))
        except sqlite3.Error as error:
            self._trouble(error)
        else:
            try:
                migrate(connection)
                self._stand("open", "")
                return connection
            except NewerNotebookError:
                self._stand("newer", NEWER.format(name=self.path.name))
            except sqlite3.Error as error:
                self._trouble(error)
            connection.close()
        try:
            self.readable = True
            return _as_of_today(opened_to_read(self.path, self.patience))
        except sqlite3.Error:
            self.readable = not self.path.exists()
            return _in_memory()

    def _trouble(self, error: sqlite3.Error) -> None:
        """Note what stands in the way. Anything but disk, rights or damage is a fault of ours and goes on."""
        if is_unavailable(error):
            self._stand("away", AWAY.format(why=str(error)))
        elif is_corrupt(error) and self.path is not None:
            self._stand("damaged", DAMAGED.format(name=self.path.name))
        else:
            raise error

    def _stand(self, state: NotebookState, problem: str) -> None:
        self.state, self.problem = state, problem

    def new_problem(self) -> str:
        """What stands in the way; each state is told once a window, for a full disk comes and goes.
        "" while there is nothing new to say; `held` shows how many shots wait."""
        if not self.problem or self.state in self._said:
            return ""
        self._said.add(self.state)
        return self.problem

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """The connection for questions; a file found damaged ends the question quietly, not the window."""
        try:
            yield self.connection
        except sqlite3.Error as error:
            self._trouble(error)

    # ---- writing

    def log(self, attempt: Attempt) -> Attempt:
        """Keep an attempt, and what was held before it. Returns it with its uid."""
        if not attempt.uid:
            attempt = replace(attempt, uid=token_hex(8))
        self.held = (*self.held, attempt)
        self.flush()
        return attempt

    def log_cause(self, uid: str, cause: NamedCause) -> None:
        """Keep which cause was chosen for an attempt; the first choice stands."""
        self.held = tuple(replace(a, cause=cause) if a.uid == uid and not a.cause else a for a in self.held)
        if all(a.uid != uid for a in self.held):
            self.later(lambda connection: _put_cause(connection, uid, cause))

    def log_outside(self, player: str, assignment: str, day: date, shots: int, came_off: int) -> None:
        """Keep what a player says of a drill outside; nobody measured it."""
        values = (assignment, day.isoformat(), shots, came_off)

        def put_outside(connection: sqlite3.Connection) -> None:
            told = "INSERT INTO outside (player_id, assignment, day, shots, came_off) VALUES (?, ?, ?, ?, ?)"
            connection.execute(told, (_player_id(connection, player), *values))

        self.later(put_outside)

    def write_line(self, player: str, day: date, line: str) -> None:
        """Keep the one free line of a day, in the place of an older one."""

        def put_line(connection: sqlite3.Connection) -> None:
            told = "INSERT INTO day_lines VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET line = excluded.line"
            connection.execute(told, (_player_id(connection, player), day.isoformat(), line))

        self.later(put_line)

    def add_player(self, name: str) -> str:
        """Add a player, or find them again. Returns the name as it is kept. ValueError for an odd name."""
        name = player_name(name)
        self.later(lambda connection: (_player_id(connection, name), None)[1])
        return next((one for one in self.players if one.casefold() == name.casefold()), name)

    def later(self, pending: Pending) -> None:
        """Do something more to the file, now or as soon as it can be written."""
        self._pending.append(pending)
        self.flush()

    def flush(self) -> bool:
        """Write what is held, all of it or nothing. True when nothing is left."""
        if not self.held and not self._pending:
            return True
        if self.state in ("away", "damaged") and not self._again():
            return False
        if self.state != "open":
            return False
        connection = self.connection
        try:
            connection.execute("BEGIN IMMEDIATE")
            for attempt in self.held:
                put_attempt(connection, attempt)
            for pending in self._pending:
                pending(connection)
            connection.execute("COMMIT")
        except sqlite3.Error as error:
            _roll_back(connection)
            self._trouble(error)
            return False
        self.held = ()
        self._pending.clear()
        return True

    def _again(self) -> bool:
        """Open once more: the disk may have room by now, another window may have mended the file."""
        newer = newest(self.home) if self.home else None
        if self.state == "damaged" and newer == self.path:
            return False
        self.path = newer
        self.connection.close()
        self.connection = self._open()
        return self.state == "open"

    def reopen(self) -> bool:
        """Open the newest file, once a damaged one is mended, and write what is held; whether all is well."""
        return self._again() and self.flush()

    # ---- players

    @property
    def players(self) -> tuple[str, ...]:
        """Everybody on this machine, the first first."""
        rows: list[tuple[str]] = []
        with self.reading() as connection:
            rows = connection.execute("SELECT name FROM players ORDER BY id").fetchall()
        return tuple(name for (name,) in rows)

    @property
    def player(self) -> str:
        """The first player's name."""
        return next(iter(self.players), FIRST_PLAYER)


def player_name(name: str) -> str:
    """A player's name without blanks around it. ValueError, one sentence, when it cannot be one."""
    name = " ".join(name.split())
    if not 1 <= len(name) <= LONGEST_NAME or not name.isprintable() or name[0] in "=+-@":
        raise ValueError(f"A name has 1 to {LONGEST_NAME} letters and does not begin with = + - or @.")
    return name


def put_attempt(connection: sqlite3.Connection, attempt: Attempt) -> None:
    """Add one attempt inside a transaction; one that is there already is left as it is."""
    put_row(connection, row_of(attempt))
    if attempt.cause:
        _put_cause(connection, attempt.uid, attempt.cause)


def put_row(connection: sqlite3.Connection, row: AttemptRow) -> None:
    """Add one row, sealed, inside a transaction."""
    columns = row.sealed()
    values = {
        "player_id": _player_id(connection, columns.pop("player")),
        **{f"{name}_id": _part_id(connection, row, name) for name in SHARED},
        **columns,
    }
    places = ", ".join("?" * len(values))
    connection.execute(
        f"INSERT INTO attempts ({', '.join(values)}) VALUES ({places}) ON CONFLICT (uid) DO NOTHING",
        tuple(values.values()),
    )


def _put_cause(connection: sqlite3.Connection, uid: str, cause: NamedCause) -> None:
    told = "INSERT INTO causes SELECT ?, ?, ? WHERE EXISTS (SELECT 1 FROM attempts WHERE uid = ?)"
    connection.execute(f"{told} ON CONFLICT DO NOTHING", (uid, cause.chosen, cause.true, uid))


def _player_id(connection: sqlite3.Connection, name: str) -> int:
    connection.execute("INSERT INTO players (name) VALUES (?) ON CONFLICT DO NOTHING", (name,))
    return int(connection.execute("SELECT id FROM players WHERE name = ?", (name,)).fetchone()[0])


def part_hash(text: str) -> str:
    """What a shared part is found by."""
    return sha256(text.encode()).hexdigest()


def _part_id(connection: sqlite3.Connection, row: AttemptRow, name: str) -> int:
    text = row.parts[name]
    own = part_hash(text)
    connection.execute("INSERT INTO parts (hash, text) VALUES (?, ?) ON CONFLICT DO NOTHING", (own, text))
    return int(connection.execute("SELECT id FROM parts WHERE hash = ?", (own,)).fetchone()[0])


def _roll_back(connection: sqlite3.Connection) -> None:
    try:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
    except sqlite3.Error:
        return  # SQLite has given the transaction up by itself


def _as_of_today(kept: sqlite3.Connection) -> sqlite3.Connection:
    """A file that can only be read, its tables as today's version has them: those of an older one are
    brought up in memory."""
    if not is_older(kept):
        return kept
    made = sqlite3.connect(":memory:", isolation_level=None)
    try:
        kept.backup(made)
        migrate(made)
    except sqlite3.Error:  # damaged too: it is read as far as it goes
        made.close()
        return kept
    kept.close()
    return made


def _in_memory() -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:", isolation_level=None)
    migrate(connection)
    return connection
