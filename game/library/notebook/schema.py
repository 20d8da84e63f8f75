"""The tables of the notebook, and the numbered steps that bring an older file up to today's.

Attempts are only ever added: triggers refuse to change or delete them. What many attempts share (club,
course, spread, scenario text) is kept once, under the hash of its text. The sums behind the map grow with
each attempt, in the same transaction.
"""

import sqlite3
from collections.abc import Mapping, Sequence

__all__ = ["NEWEST", "NewerNotebookError", "is_older", "migrate"]

_APPEND_ONLY = ("attempts", "causes", "parts", "outside")
_FIRST = """
CREATE TABLE players (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE
) STRICT;
CREATE TABLE parts (
    id INTEGER PRIMARY KEY,
    hash TEXT NOT NULL UNIQUE,
    text TEXT NOT NULL
) STRICT;
CREATE TABLE attempts (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    seal TEXT NOT NULL,
    player_id INTEGER NOT NULL REFERENCES players (id),
    utc_us INTEGER NOT NULL,
    offset_s INTEGER NOT NULL,
    day TEXT NOT NULL,
    scenario TEXT NOT NULL,
    title TEXT NOT NULL,
    digest TEXT NOT NULL,
    text_id INTEGER NOT NULL REFERENCES parts (id),
    course_id INTEGER NOT NULL REFERENCES parts (id),
    club_id INTEGER NOT NULL REFERENCES parts (id),
    spread_id INTEGER NOT NULL REFERENCES parts (id),
    controls TEXT NOT NULL,
    stray TEXT NOT NULL,
    seed INTEGER NOT NULL,
    lie TEXT NOT NULL,
    family TEXT NOT NULL,
    distance_m REAL,
    call_landing_m REAL,
    call_stop_m REAL,
    call_strike TEXT,
    outcome TEXT NOT NULL,
    contact TEXT NOT NULL,
    strike TEXT NOT NULL,
    solid INTEGER NOT NULL,
    as_set INTEGER NOT NULL,
    handle_return_rad REAL,
    carry_m REAL,
    rest_m REAL NOT NULL,
    leave_m REAL,
    strokes REAL,
    reference_strokes REAL,
    met INTEGER,
    passed INTEGER NOT NULL,
    hints INTEGER NOT NULL,
    part TEXT NOT NULL,
    assignment TEXT NOT NULL,
    stop_gap_m REAL GENERATED ALWAYS AS (rest_m - call_stop_m) STORED,
    words TEXT GENERATED ALWAYS AS (
        scenario || ' ' || title || ' ' || lie || ' ' || strike || ' ' || contact || ' ' || outcome
    ) STORED
) STRICT;
CREATE INDEX attempts_of_player ON attempts (player_id);
CREATE INDEX attempts_by_words ON attempts (player_id, words);
CREATE INDEX attempts_of_scenario ON attempts (player_id, scenario, id, met, passed, stop_gap_m);
CREATE INDEX attempts_of_day ON attempts (player_id, day);
CREATE INDEX attempts_of_assignment ON attempts (assignment, player_id);
CREATE TABLE tallies (
    player_id INTEGER NOT NULL REFERENCES players (id),
    lie TEXT NOT NULL,
    family TEXT NOT NULL,
    decimetres INTEGER NOT NULL,
    scored INTEGER NOT NULL,
    strokes REAL NOT NULL,
    strokes_squared REAL NOT NULL,
    solid INTEGER NOT NULL,
    tries INTEGER NOT NULL,
    called INTEGER NOT NULL,
    gap REAL NOT NULL,
    gap_squared REAL NOT NULL,
    PRIMARY KEY (player_id, lie, family, decimetres)
) STRICT;
CREATE TRIGGER attempts_are_counted AFTER INSERT ON attempts WHEN NEW.distance_m IS NOT NULL
BEGIN
    INSERT INTO tallies VALUES (
        NEW.player_id, NEW.lie, NEW.family, CAST(NEW.distance_m * 10.0 AS INTEGER),
        NEW.strokes IS NOT NULL, ifnull(NEW.strokes, 0.0), ifnull(NEW.strokes * NEW.strokes, 0.0),
        NEW.solid, 1, NEW.stop_gap_m IS NOT NULL, ifnull(abs(NEW.stop_gap_m), 0.0),
        ifnull(NEW.stop_gap_m * NEW.stop_gap_m, 0.0)
    ) ON CONFLICT (player_id, lie, family, decimetres) DO UPDATE SET
        scored = scored + excluded.scored, strokes = strokes + excluded.strokes,
        strokes_squared = strokes_squared + excluded.strokes_squared, solid = solid + excluded.solid,
        tries = tries + excluded.tries, called = called + excluded.called, gap = gap + excluded.gap,
        gap_squared = gap_squared + excluded.gap_squared;
END;
CREATE TABLE causes (
    uid TEXT PRIMARY KEY REFERENCES attempts (uid),
    chosen TEXT NOT NULL,
    true TEXT NOT NULL
) STRICT;
CREATE TABLE outside (
    id INTEGER PRIMARY KEY,
    player_id INTEGER NOT NULL REFERENCES players (id),
    assignment TEXT NOT NULL,
    day TEXT NOT NULL,
    shots INTEGER NOT NULL,
    came_off INTEGER NOT NULL
) STRICT;
CREATE TABLE day_lines (
    player_id INTEGER NOT NULL REFERENCES players (id),
    day TEXT NOT NULL,
    line TEXT NOT NULL,
    PRIMARY KEY (player_id, day)
) STRICT;
CREATE TABLE earlier (
    player_id INTEGER NOT NULL REFERENCES players (id),
    scenario TEXT NOT NULL,
    tries INTEGER NOT NULL,
    done INTEGER NOT NULL,
    results TEXT NOT NULL,
    gaps TEXT NOT NULL,
    PRIMARY KEY (player_id, scenario)
) STRICT;
"""
_CALLS = """
ALTER TABLE earlier ADD COLUMN calls TEXT NOT NULL DEFAULT '[]';
CREATE INDEX attempts_called
    ON attempts (player_id, scenario, id, call_landing_m, call_strike, carry_m, strike)
    WHERE call_landing_m IS NOT NULL OR call_strike IS NOT NULL;
CREATE INDEX attempts_by_task_and_day ON attempts (player_id, scenario, day, passed, part, met);
"""
_PICKS = """
CREATE TABLE picks (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    player_id INTEGER NOT NULL REFERENCES players (id),
    utc_us INTEGER NOT NULL,
    offset_s INTEGER NOT NULL,
    day TEXT NOT NULL,
    situation TEXT NOT NULL,
    title TEXT NOT NULL,
    chooser TEXT NOT NULL,
    picked TEXT NOT NULL,
    best TEXT NOT NULL,
    picked_strokes REAL NOT NULL,
    best_strokes REAL NOT NULL,
    as_good INTEGER NOT NULL,
    UNIQUE (player_id, situation)
) STRICT;
"""
_COUNTS = """
ALTER TABLE players ADD COLUMN attempts INTEGER NOT NULL DEFAULT 0;
UPDATE players SET attempts = (SELECT count(*) FROM attempts WHERE player_id = players.id);
CREATE TRIGGER attempts_are_numbered AFTER INSERT ON attempts
BEGIN UPDATE players SET attempts = attempts + 1 WHERE id = NEW.player_id; END;
"""


def _refusals(tables: Sequence[str]) -> str:
    """Triggers that let nothing in these tables be changed or deleted."""
    return "".join(
        f"CREATE TRIGGER {table}_are_never_{done} BEFORE {verb} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} are only ever added'); END;\n"
        for table in tables
        for verb, done in (("UPDATE", "changed"), ("DELETE", "deleted"))
    )


MIGRATIONS: dict[int, str] = {  # n: from user_version n to n + 1
    0: _FIRST + _refusals(_APPEND_ONLY),
    1: _CALLS,
    2: _PICKS + _refusals(["picks"]),
    3: _COUNTS,
}
NEWEST = len(MIGRATIONS)


class NewerNotebookError(Exception):
    """A notebook that a newer version of this program has written."""


def migrate(connection: sqlite3.Connection, steps: Mapping[int, str] = MIGRATIONS) -> None:
    """Bring the file up to the newest version, each step whole or not at all. NewerNotebookError, or what
    SQLite says. Two windows may begin at once: the second waits, then finds the work done."""
    while (found := _version(connection)) != len(steps):
        if found > len(steps):
            raise NewerNotebookError(found)
        if found < 0:
            error = sqlite3.DatabaseError("malformed version")
            error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
            raise error
        connection.execute("BEGIN IMMEDIATE")
        try:
            if _version(connection) == found:
                for statement in _statements(steps[found]):
                    connection.execute(statement)
                connection.execute(f"PRAGMA user_version = {found + 1}")
            connection.execute("COMMIT")
        finally:
            if connection.in_transaction:
                connection.execute("ROLLBACK")


def is_older(connection: sqlite3.Connection) -> bool:
    """Whether a file has tables, and an older version of this program has made them."""
    return 0 < _version(connection) < NEWEST


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _statements(script: str) -> list[str]:
    """The statements of a script one by one: `executescript` would end the transaction first."""
    out, statement = [], ""
    for piece in script.split(";"):
        statement += piece + ";"
        if sqlite3.complete_statement(statement):
            out.append(statement)
            statement = ""
    return out
