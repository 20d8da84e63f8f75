"""What the pages ask of the notebook: a page of history, how the scenarios stand, the numbers of the map.

Every question reads a few rows or one index, so that a hundred thousand attempts cost no wait.
"""

import json
import sqlite3
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import Any

from game.library.notebook.rows import EPOCH, SHARED, AttemptRow, RowError, attempt_of_row
from game.library.notebook.store import Notebook
from game.library.progress import KEPT_GAPS, Past, Progress, calls_true
from levels.attempts import Attempt, NamedCause
from levels.families import FAMILIES
from levels.practice import TaskDay, sitting_of, task_days
from levels.scoring import Prediction
from levels.strengths import PlaceTally, ShotPlace, band_of
from levels.teaching import MOST_SHOTS

__all__ = [
    "COLUMNS",
    "attempts_count",
    "attempts_of",
    "day_lines_of",
    "history",
    "map_of",
    "outside_of",
    "past_of",
    "progress_of",
    "results_of",
    "task_days_of",
    "times_of_sitting",
]

PAGE = 50  # attempts of a page of history
MOST_A_SITTING = 500  # shots that are looked at, assumed: hours without a break
COLUMNS = (
    "uid", "utc_us", "offset_s", "day", "scenario", "title", "digest", "controls", "stray", "seed", "lie",
    "family", "distance_m", "call_landing_m", "call_stop_m", "call_strike", "outcome", "contact", "strike",
    "solid", "as_set", "handle_return_rad", "carry_m", "rest_m", "leave_m", "strokes", "reference_strokes",
    "met", "passed", "hints", "part", "assignment",
)  # fmt: skip
_SELECT = (
    "SELECT a.id, a.seal, p.name, "
    + ", ".join(f"a.{name}" for name in COLUMNS)
    + ", "
    + ", ".join(f"{name}.text" for name in SHARED)
    + ", c.chosen, c.true FROM attempts a JOIN players p ON p.id = a.player_id "
    + " ".join(f"JOIN parts {name} ON {name}.id = a.{name}_id" for name in SHARED)
    + " LEFT JOIN causes c ON c.uid = a.uid"
)


def _read(found: tuple[Any, ...]) -> Attempt:
    """RowError where the row is not whole."""
    _, seal, player, *values = found
    columns = {"player": player, **dict(zip(COLUMNS, values[: len(COLUMNS)], strict=True))}
    *texts, chosen, true = values[len(COLUMNS) :]
    cause = None if chosen is None else NamedCause(chosen, true)
    return attempt_of_row(AttemptRow(columns, dict(zip(SHARED, texts, strict=True))), seal, cause)


def rows_where(connection: sqlite3.Connection, where: str, values: tuple[Any, ...]) -> Iterator[Attempt]:
    """The sound attempts that a condition and an order pick, one by one."""
    for found in connection.execute(f"{_SELECT} {where}", values):
        try:
            yield _read(found)
        except RowError:
            continue


def history(
    book: Notebook, player: str, page: int = 0, *, words: str = "", day: date | None = None, size: int = PAGE
) -> tuple[Attempt, ...]:
    """A page of a player's attempts, the newest first; those whose scenario or strike has these words."""
    held = [a for a in reversed(book.held) if a.player == player and _fits(a, words, day)]
    if page * size < len(held):
        first, start = held[page * size : (page + 1) * size], 0
    else:
        first, start = [], page * size - len(held)
    out: list[Attempt] = list(first)
    with book.reading() as connection:
        numbers = _numbers(connection, player, words, day, size - len(first), start)
        marks = ", ".join("?" * len(numbers))
        out += rows_where(connection, f"WHERE a.id IN ({marks}) ORDER BY a.id DESC", numbers)
    return tuple(out)


def _numbers(
    connection: sqlite3.Connection, player: str, words: str, day: date | None, size: int, start: int
) -> tuple[int, ...]:
    """Numbers of the attempts of a page, found in indexes alone."""
    if (own := _player(connection, player)) is None:
        return ()
    where = "player_id = ?"
    values: list[Any] = [own]
    if words:  # few different ones are said of many attempts
        said = connection.execute("SELECT DISTINCT words FROM attempts WHERE player_id = ?", (own,))
        fitting = [one for (one,) in said if words.lower() in one.lower()]
        where += f" AND words IN ({', '.join('?' * len(fitting))})"
        values += fitting
    if day:
        where, values = f"{where} AND day = ?", [*values, day.isoformat()]
    found = connection.execute(
        f"SELECT id FROM attempts WHERE {where} ORDER BY id DESC LIMIT ? OFFSET ?", (*values, size, start)
    )
    return tuple(number for (number,) in found)


def _fits(attempt: Attempt, words: str, day: date | None) -> bool:
    task, result = attempt.task, attempt.result
    said = (task.name, task.title, attempt.lie, result.strike, result.contact, result.outcome)
    return (day is None or attempt.day == day) and words.lower() in " ".join(said).lower()


def attempts_of(
    book: Notebook, player: str | None = None, *, scenario: str | None = None, assignment: str | None = None,
    since: date | None = None,
) -> Iterator[Attempt]:  # fmt: skip
    """Attempts, oldest first, those held in memory last. Read one by one."""
    asked = [
        ("p.name = ?", player), ("a.scenario = ?", scenario), ("a.assignment = ?", assignment),
        ("a.day >= ?", since and since.isoformat()),
    ]  # fmt: skip
    asked = [(text, value) for text, value in asked if value is not None]
    where = f"WHERE {' AND '.join(text for text, _ in asked)} " if asked else ""
    with book.reading() as connection:
        yield from rows_where(connection, f"{where}ORDER BY a.id", tuple(value for _, value in asked))
    for one in book.held:
        told = (one.player, one.task.name, one.assignment)
        same = all(
            want in (None, is_) for want, is_ in zip((player, scenario, assignment), told, strict=True)
        )
        if same and (since is None or one.day >= since):
            yield one


# ---- how the scenarios stand


def past_of(book: Notebook, player: str, scenario: str) -> Past:
    """A scenario's past: what the progress file had, and every attempt since."""
    past = Past()
    with book.reading() as connection:
        if (own := _player(connection, player)) is not None:
            past = _past(connection, own, scenario)
    return _with_held(book, player, {scenario: past})[scenario]


# from one name to the next by the index, instead of over every attempt
_SCENARIOS = """
WITH RECURSIVE names (name) AS (
    SELECT min(scenario) FROM attempts WHERE player_id = ?1 AND scenario > ''
    UNION ALL
    SELECT (SELECT min(scenario) FROM attempts WHERE player_id = ?1 AND scenario > name)
    FROM names WHERE name IS NOT NULL
)
SELECT name FROM names WHERE name IS NOT NULL UNION SELECT scenario FROM earlier WHERE player_id = ?1
"""


def progress_of(book: Notebook, player: str) -> Progress:
    """The past of every scenario a player has tried. A view: nothing is kept besides the attempts."""
    pasts: dict[str, Past] = {}
    with book.reading() as connection:
        if (own := _player(connection, player)) is not None:
            names = connection.execute(_SCENARIOS, (own,))
            pasts = {name: _past(connection, own, name) for (name,) in names.fetchall()}
    return Progress(_with_held(book, player, pasts))


def _player(connection: sqlite3.Connection, name: str) -> int | None:
    found = connection.execute("SELECT id FROM players WHERE name = ?", (name,)).fetchone()
    return None if found is None else int(found[0])


def _past(connection: sqlite3.Connection, player: int, scenario: str) -> Past:
    own = (player, scenario)
    where = "FROM attempts WHERE player_id = ? AND scenario = ?"
    tries, done = connection.execute(f"SELECT count(*), max(passed) {where}", own).fetchone()
    newest = f"{where} AND met IS NOT NULL ORDER BY id DESC LIMIT {MOST_SHOTS}"
    results = [bool(met) for (met,) in connection.execute(f"SELECT met {newest}", own)][::-1]
    newest = f"{where} AND stop_gap_m IS NOT NULL ORDER BY id DESC LIMIT {KEPT_GAPS}"
    gaps = [float(gap) for (gap,) in connection.execute(f"SELECT stop_gap_m {newest}", own)][::-1]
    calls = _calls(connection, own)
    old = connection.execute(
        "SELECT tries, done, results, gaps, calls FROM earlier WHERE player_id = ? AND scenario = ?", own
    ).fetchone()
    if old is None:
        return Past(tries, bool(done), tuple(results), tuple(gaps), calls)
    older_results, older_gaps = map(bool, json.loads(old[2])), map(float, json.loads(old[3]))
    older_calls = map(bool, json.loads(old[4]))
    return Past(
        old[0] + tries, bool(old[1] or done), (*older_results, *results)[-MOST_SHOTS:],
        (*older_gaps, *gaps)[-KEPT_GAPS:], (*older_calls, *calls)[-KEPT_GAPS:],
    )  # fmt: skip


def _calls(connection: sqlite3.Connection, own: tuple[int, str]) -> tuple[bool, ...]:
    """Whether the newest calls of landing and strike came true, oldest first."""
    rows = connection.execute(
        "SELECT call_landing_m, call_strike, carry_m, strike FROM attempts WHERE player_id = ? AND "
        "scenario = ? AND (call_landing_m IS NOT NULL OR call_strike IS NOT NULL) ORDER BY id DESC LIMIT ?",
        (*own, KEPT_GAPS),
    ).fetchall()
    true = [calls_true(Prediction(landing, None, called), carry, strike)
            for landing, called, carry, strike in reversed(rows)]  # fmt: skip
    return tuple(one for calls in true for one in calls)[-KEPT_GAPS:]


def _with_held(book: Notebook, player: str, pasts: dict[str, Past]) -> dict[str, Past]:
    for one in book.held:
        if one.player == player and one.task.name and one.result.met is not None:
            gap = float("nan") if one.stop_gap is None else one.stop_gap
            past = pasts.get(one.task.name, Past())
            calls = calls_true(one.call or Prediction(), one.result.carry, one.result.strike)
            pasts = {**pasts, one.task.name: past.after(one.result.met, one.passed, gap, calls)}
    return pasts


# ---- the map


def map_of(book: Notebook, player: str) -> dict[ShotPlace, PlaceTally]:
    """The sums behind the strengths map, for all attempts on the disk; `levels.strengths` reads them."""
    rows: list[tuple[Any, ...]] = []
    with book.reading() as connection:
        rows = connection.execute(
            "SELECT lie, family, decimetres, scored, strokes, strokes_squared, solid, tries, called, gap, "
            "gap_squared FROM tallies WHERE player_id = (SELECT id FROM players WHERE name = ?)",
            (player,),
        ).fetchall()
    out: dict[ShotPlace, PlaceTally] = {}
    for lie, family, decimetres, *sums in rows:
        if family not in FAMILIES:
            continue  # as in a row that is no attempt of this program's
        place = ShotPlace(lie, family, band_of(decimetres / 10.0))
        out[place] = out.get(place, PlaceTally()).plus(PlaceTally(*sums))
    return out


# ---- the plan


def results_of(book: Notebook, player: str, scenario: str) -> tuple[bool, ...]:
    """Whether each attempt at a scenario met its goal, oldest first."""
    rows: list[tuple[int]] = []
    with book.reading() as connection:
        if (own := _player(connection, player)) is not None:
            rows = connection.execute(
                "SELECT met FROM attempts WHERE player_id = ? AND scenario = ? AND met IS NOT NULL "
                "ORDER BY id",
                (own, scenario),
            ).fetchall()
    held = [
        bool(one.result.met)
        for one in book.held
        if (one.player, one.task.name) == (player, scenario) and one.result.met is not None
    ]
    return (*(bool(met) for (met,) in rows), *held)


def task_days_of(book: Notebook, player: str) -> tuple[TaskDay, ...]:
    """What each day brought each task a player has tried; the plan is made of it."""
    rows: list[tuple[str, str, int, int, int]] = []
    with book.reading() as connection:
        if (own := _player(connection, player)) is not None:
            rows = connection.execute(
                "SELECT scenario, day, max(passed), sum(part = 'review'), sum(part = 'review' AND met IS 1) "
                "FROM attempts WHERE player_id = ? AND scenario > '' GROUP BY scenario, day",
                (own,),
            ).fetchall()
    kept = [TaskDay(name, date.fromisoformat(day), bool(p), n, good) for name, day, p, n, good in rows]
    return (*kept, *task_days(one for one in book.held if one.player == player and one.task.name))


def times_of_sitting(book: Notebook, player: str) -> tuple[datetime, ...]:
    """When the shots of a player's last sitting were played, oldest first: in any window, over midnight."""
    rows: list[tuple[int]] = []
    with book.reading() as connection:
        asked = "SELECT utc_us FROM attempts WHERE player_id = ? ORDER BY id DESC LIMIT ?"
        rows = connection.execute(asked, (_player(connection, player), MOST_A_SITTING)).fetchall()
    kept = (EPOCH + timedelta(microseconds=at) for (at,) in rows)
    return sitting_of((*kept, *(one.when for one in book.held if one.player == player)))


def attempts_count(book: Notebook, player: str) -> int:
    """How many attempts a player has in the notebook: a sum that grows with each of them."""
    row: tuple[int] | None = None
    with book.reading() as connection:
        row = connection.execute("SELECT attempts FROM players WHERE name = ?", (player,)).fetchone()
    return (row[0] if row else 0) + sum(one.player == player for one in book.held)


# ---- a day's line, drills outside


def day_lines_of(book: Notebook, player: str) -> dict[date, str]:
    """The one free line of each day."""
    rows: list[tuple[str, str]] = []
    with book.reading() as connection:
        rows = connection.execute(
            "SELECT day, line FROM day_lines JOIN players ON id = player_id WHERE name = ? ORDER BY day",
            (player,),
        ).fetchall()
    return {date.fromisoformat(day): line for day, line in rows}


def outside_of(book: Notebook, player: str, assignment: str) -> tuple[tuple[date, int, int], ...]:
    """Drills outside as the player tells them: day, shots, how many came off."""
    rows: list[tuple[str, int, int]] = []
    with book.reading() as connection:
        rows = connection.execute(
            "SELECT day, shots, came_off FROM outside JOIN players p ON p.id = player_id "
            "WHERE name = ? AND assignment = ? ORDER BY outside.id",
            (player, assignment),
        ).fetchall()
    return tuple((date.fromisoformat(day), shots, came_off) for day, shots, came_off in rows)
