"""Picks: which option a player thought best, kept before the answer was seen, with what came of it.

A place is asked once: whoever has seen the answer predicts nothing any more.
"""

import sqlite3
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from typing import Any

from game.library.notebook.rows import EPOCH, microseconds_of
from game.library.notebook.store import Notebook

__all__ = ["Pick", "PickTally", "log_pick", "pick_tally", "picks_of"]


@dataclass(frozen=True)
class Pick:
    """One prediction. `situation` is the digest of place and player, `chooser` whose strokes were played;
    options by name, their expected strokes to hole out; `as_good`: the best, or not to be told from it."""

    player: str
    when: datetime  # with its offset
    situation: str
    title: str
    chooser: str
    picked: str
    best: str
    picked_strokes: float
    best_strokes: float
    as_good: bool


@dataclass(frozen=True)
class PickTally:
    """How many of the picks so far were as good as the best."""

    good: int
    picks: int


def log_pick(book: Notebook, pick: Pick) -> None:
    """Keep a pick, now or as soon as the notebook can be written. ValueError without an offset."""
    offset = pick.when.utcoffset()
    if offset is None:
        raise ValueError("a pick needs a time with its offset")
    values = (
        microseconds_of(pick.when),
        int(offset.total_seconds()), pick.when.date().isoformat(), pick.situation, pick.title, pick.chooser,
        pick.picked, pick.best, pick.picked_strokes, pick.best_strokes, int(pick.as_good), pick.player,
    )  # fmt: skip

    def put(connection: sqlite3.Connection) -> None:
        connection.execute("INSERT INTO players (name) VALUES (?) ON CONFLICT DO NOTHING", (pick.player,))
        connection.execute(
            "INSERT INTO picks (utc_us, offset_s, day, situation, title, chooser, picked, best, "
            "picked_strokes, best_strokes, as_good, player_id) "
            "SELECT ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, id FROM players WHERE name = ? ON CONFLICT DO NOTHING",
            values,
        )

    book.later(put)


def picks_of(book: Notebook, player: str) -> tuple[Pick, ...]:
    """Every pick of a player, oldest first."""
    rows: list[tuple[Any, ...]] = []
    with book.reading() as connection:
        rows = connection.execute(
            "SELECT p.name, utc_us, offset_s, situation, title, chooser, picked, best, picked_strokes, "
            "best_strokes, as_good FROM picks k JOIN players p ON p.id = k.player_id WHERE p.name = ? "
            "ORDER BY k.id",
            (player,),
        ).fetchall()
    return tuple(
        Pick(name, _time(utc, offset), place, title, chooser, picked, best, own, least, bool(good))
        for name, utc, offset, place, title, chooser, picked, best, own, least, good in rows
    )


def pick_tally(book: Notebook, player: str) -> PickTally:
    """The sums of a player's picks."""
    row: tuple[int, int | None] = (0, 0)
    with book.reading() as connection:
        row = connection.execute(
            "SELECT count(*), sum(as_good) FROM picks k JOIN players p ON p.id = k.player_id "
            "WHERE p.name = ?",
            (player,),
        ).fetchone()
    return PickTally(row[1] or 0, row[0])


def _time(utc_us: int, offset_s: int) -> datetime:
    return (EPOCH + timedelta(microseconds=utc_us)).astimezone(timezone(timedelta(seconds=offset_s)))
