"""The plan of a day, made out of the notebook beside the picture: over many attempts it takes its time."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from game.library.notebook.doors import asked_beside
from game.library.notebook.pages import task_days_of
from game.library.notebook.store import Notebook
from game.notebook.practice_list import PractisedTask, practice_list
from levels.practice import DayPlan, ReviewDue, TaskDay, day_plan, days_by_task, review_due

__all__ = ["DayMade", "day_job"]


@dataclass(frozen=True)
class DayMade:
    """The plan with what it was made from. `due` and `passed` (the day of it) are of tasks once passed."""

    player: str
    day: date
    junior: bool
    tasks: dict[str, PractisedTask]
    plan: DayPlan
    due: dict[str, ReviewDue]
    passed: dict[str, date]


def day_job(book: Notebook, player: str, day: date, junior: bool) -> Callable[[], DayMade]:
    """A job for the worker.

    Only the days before count, so that what is played today ticks the plan off and does not change it.
    """
    home, known = book.home, asked_beside(book, lambda own: task_days_of(own, player))
    return lambda: _made(known(), player, day, junior, home)


def _made(
    known: tuple[TaskDay, ...], player: str, day: date, junior: bool, home: Path | None
) -> DayMade:  # fmt: skip
    tasks = {task.key: task for task in practice_list(home)}
    days = tuple(one for one in known if one.day < day)
    due: dict[str, ReviewDue] = {}
    passed: dict[str, date] = {}
    for task, own in days_by_task(days).items():
        if task in tasks and (found := review_due(task, own, day)):
            due[task], passed[task] = found, min(one.day for one in own if one.passed)
    plan = day_plan(tuple(tasks), days, day, day.toordinal(), junior)
    return DayMade(player, day, junior, tasks, plan, due, passed)
