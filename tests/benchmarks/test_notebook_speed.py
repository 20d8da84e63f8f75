"""What the pages of a notebook ask, with 100,000 attempts in it against 1,000, in one run.

The ratios and times are reported, not asserted: a shared machine decides. A page that reads an index or a
few rows costs about the same in both; the map and the progress read an index of all attempts. Run with
`pytest tests/benchmarks/test_notebook_speed.py --benchmark-enable -s`.
"""

import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from time import perf_counter
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))
from practised import START, made_up

from game.library.notebook.pages import (
    attempts_count,
    day_lines_of,
    history,
    map_of,
    past_of,
    progress_of,
    results_of,
    task_days_of,
    times_of_sitting,
)
from game.library.notebook.rows import AttemptRow, row_of
from game.library.notebook.store import Notebook, put_row
from levels.files import library
from levels.practice import day_plan
from levels.strengths import strengths

FEW, MANY = 1_000, 100_000
TASKS = library()


def filled(home: Path, count: int) -> Notebook:
    """Attempts over all built-in scenarios, lies, kinds and distances, three hundred a day."""
    book = Notebook(home)
    plain = row_of(made_up(0))
    book.connection.execute("BEGIN")
    for i in range(count):
        day = START + timedelta(days=i // 300)
        own = {
            "uid": f"{i:016x}",
            "scenario": TASKS[i % len(TASKS)],
            "day": day.date().isoformat(),
            "utc_us": plain.columns["utc_us"] + 20_000_000 * i,
            "lie": ("fairway", "rough", "sand", "fringe")[i % 4],
            "family": ("low", "standard", "high")[i % 3],
            "distance_m": 3.0 + i % 23,
            "met": int(i % 3 > 0),
            "solid": int(i % 4 > 0),
            "strokes": 2.0 + i % 7 / 5,
            "rest_m": 8.0 + i % 9 / 4,
        }
        put_row(book.connection, AttemptRow({**plain.columns, **own}, plain.parts))
    book.connection.execute("COMMIT")
    return book


def opened_anew(home: Path | None) -> None:
    """What the first page asks as the window comes to it."""
    with Notebook(home) as own:
        history(own, own.player)
        attempts_count(own, own.player)
        day_lines_of(own, own.player)


PAGES: dict[str, Callable[[Notebook], Any]] = {
    "opened anew, first page": lambda book: opened_anew(book.home),
    "history, first page": lambda book: history(book, "Robin"),
    "history, hundredth page": lambda book: history(book, "Robin", 100),
    "history, words that are there": lambda book: history(book, "Robin", words="harrow"),
    "history, words that are nowhere": lambda book: history(book, "Robin", words="no such words"),
    "history, a day": lambda book: history(book, "Robin", day=date(2025, 11, 5)),
    "one scenario's past": lambda book: past_of(book, "Robin", TASKS[3]),
    "progress of all": lambda book: progress_of(book, "Robin"),
    "strengths map": lambda book: strengths(map_of(book, "Robin")),
    "plan of a day": lambda book: day_plan(TASKS, task_days_of(book, "Robin"), date(2026, 11, 5), 1),
    "results of a scenario": lambda book: results_of(book, "Robin", TASKS[3]),
    "times of the last sitting": lambda book: times_of_sitting(book, "Robin"),
    "how many attempts": lambda book: attempts_count(book, "Robin"),
    "one attempt more": lambda book: book.log(replace(made_up(0), uid="")),
}


def seconds(ask: Callable[[Notebook], Any], book: Notebook) -> float:
    """The least of five."""
    times = []
    for _ in range(5):
        start = perf_counter()
        ask(book)
        times.append(perf_counter() - start)
    return min(times)


def test_pages_of_a_full_notebook(benchmark: Any, tmp_path: Path) -> None:
    few, many = (FEW, MANY) if benchmark.enabled else (50, 500)
    small, large = filled(tmp_path / "small", few), filled(tmp_path / "large", many)
    found = benchmark.pedantic(
        lambda: {name: (seconds(ask, small), seconds(ask, large)) for name, ask in PAGES.items()}, rounds=1
    )
    assert found.keys() == PAGES.keys()
    for name, (base, full) in found.items():
        benchmark.extra_info[name] = full / base
        print(f"{name:32} {1e3 * full:7.2f} ms with {many}, {full / base:6.1f} times {few}")
    small.close()
    large.close()
