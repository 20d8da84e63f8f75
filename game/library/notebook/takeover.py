"""Takes the progress file of older versions into the notebook, scenario by scenario, nothing lost.

The file itself stays as it is. Where an older version has played on meanwhile, its further tries are taken
over too; a file that was taken over adds nothing twice.
"""

import json
import sqlite3
from pathlib import Path

from game.library.notebook.store import FIRST_PLAYER, Notebook
from game.library.progress import kept_progress

__all__ = ["take_over_progress"]


def take_over_progress(book: Notebook, home: Path) -> str:
    """Take it over for the first player. Returns a sentence where the file could not be used, else "".

    What attempts there are counts on from it: progress is a view of both.
    """
    progress, problem = kept_progress(home)
    if not progress.scenarios:
        return problem
    player = book.players[0] if book.players else FIRST_PLAYER
    rows = [
        (
            key,
            past.tries,
            int(past.done),
            json.dumps(past.results),
            json.dumps(past.gaps),
            json.dumps(past.calls),
        )
        for key, past in progress.scenarios.items()
    ]

    def put(connection: sqlite3.Connection) -> None:
        connection.execute("INSERT INTO players (name) VALUES (?) ON CONFLICT DO NOTHING", (player,))
        connection.executemany(
            "INSERT INTO earlier (player_id, scenario, tries, done, results, gaps, calls) "
            "SELECT id, ?, ?, ?, ?, ?, ? FROM players WHERE name = ? "
            "ON CONFLICT DO UPDATE SET tries = excluded.tries, done = max(done, excluded.done), "
            "results = excluded.results, gaps = excluded.gaps, calls = excluded.calls "
            "WHERE excluded.tries > tries",
            [(*row, player) for row in rows],
        )

    book.later(put)
    return problem
