"""The practice plan: what to play today, in which order, how hard, and when it comes back.

Pure functions of attempts and dates: no clock inside. Days are the player's own, as each attempt kept
them. An attempt dated after `today` (a clock that was set back since) counts as today's.

Order: from blocked over serial to mixed holds better than either alone (Porter and Magill 2010, not always
repeated: Dias and Mendes 2010), and hardly at all for the young (Czyz and others 2024). Reviews that are
spaced out hold better than those together (Latimier, Peyre and Ramus 2021). All numbers are design, assumed.
"""

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from itertools import pairwise

from levels.attempts import Attempt

__all__ = [
    "BLOCK",
    "REVIEW_DAYS",
    "REVIEW_EVERY",
    "REVIEW_SHOTS",
    "SITTING_BREAK",
    "DayPlan",
    "Planned",
    "ReviewDue",
    "Rhythm",
    "TaskDay",
    "day_plan",
    "days_by_task",
    "drill",
    "new_distances",
    "nudge",
    "review_due",
    "rhythm_of",
    "task_days",
]  # fmt: skip

BLOCK = 8  # shots of each third of a drill
REVIEW_DAYS = (2, 7, 21)  # after the task was passed
REVIEW_EVERY = 28  # days from then on
REVIEW_SHOTS = 6
REVIEW_PASS = 4  # of those that have to meet the goal; else the task starts its reviews over
SITTING_BREAK = timedelta(minutes=10)  # without a shot after which a new sitting begins
_GAPS = (REVIEW_DAYS[0], *(b - a for a, b in pairwise(REVIEW_DAYS)))


@dataclass(frozen=True)
class Rhythm:
    """How a sitting is kept for a player or a junior."""

    minutes: int  # after which a rest is proposed
    mixed_first: bool  # whether a task that was never passed is practised mixed as well
    example_first: bool  # a worked example before the first try
    every_cause: bool  # the cause is told after every shot until the task goes well


def rhythm_of(junior: bool) -> Rhythm:
    """Juniors: shorter, no mixing before the task is passed once, example first, every cause told
    (Sinha and Kapur 2021; Sullivan, Kantak and Burtner 2008)."""
    return Rhythm(15, False, True, True) if junior else Rhythm(20, True, False, False)


@dataclass(frozen=True)
class Planned:
    """One shot of a drill: which task, in which part of practice."""

    task: str
    part: str  # of levels.attempts.PRACTICE_PARTS


def drill(tasks: Sequence[str], seed: int, mixed: bool = True) -> tuple[Planned, ...]:
    """Eight of the first task, eight in turn, eight mixed with no task twice running where there are two.

    >>> [p.task for p in drill(("a", "b", "c"), seed=1)[8:16]]
    ['a', 'b', 'c', 'a', 'b', 'c', 'a', 'b']
    """
    if not tasks:
        return ()
    out = [Planned(tasks[0], "blocked")] * BLOCK
    out += [Planned(tasks[i % len(tasks)], "serial") for i in range(BLOCK)]
    if mixed:
        out += [Planned(task, "mixed") for task in _mixed(tasks, BLOCK, seed, out[-1].task)]
    return tuple(out)


def _mixed(tasks: Sequence[str], count: int, seed: int, before: str = "") -> list[str]:
    """Tasks by chance, as evenly as they go, none twice running where there are two."""
    chance, played = random.Random(seed), dict.fromkeys(tasks, 0)
    out: list[str] = []
    for _ in range(count):
        last = out[-1] if out else before
        others = [task for task in played if task != last] or list(played)
        least = min(played[task] for task in others)
        out.append(chance.choice([task for task in others if played[task] <= least + 1]))
        played[out[-1]] += 1
    return out


# ---- reviews


@dataclass(frozen=True)
class TaskDay:
    """What one day brought a task: whether it was passed, review shots and how many met the goal."""

    task: str
    day: date
    passed: bool = False
    reviews: int = 0
    good: int = 0

    def plus(self, other: "TaskDay") -> "TaskDay":
        """Both as one day's."""
        return replace(
            self, passed=self.passed or other.passed, reviews=self.reviews + other.reviews,
            good=self.good + other.good,
        )  # fmt: skip

    @property
    def review_held(self) -> bool | None:
        """Whether the review went well, in proportion to its shots; None without a review."""
        return self.good * REVIEW_SHOTS >= REVIEW_PASS * self.reviews if self.reviews else None


def task_days(attempts: Iterable[Attempt]) -> tuple[TaskDay, ...]:
    """Attempts at tasks, task by task and day by day."""
    out: dict[tuple[str, date], TaskDay] = {}
    for one in attempts:
        review = one.part == "review"
        told = TaskDay(one.task.name, one.day, one.passed, int(review), int(review and bool(one.result.met)))
        key = (told.task, told.day)
        out[key] = out[key].plus(told) if key in out else told
    return tuple(out.values())


def days_by_task(played: Iterable[TaskDay]) -> dict[str, list[TaskDay]]:
    """The days of each task, in the order they come."""
    out: dict[str, list[TaskDay]] = {}
    for one in played:
        out.setdefault(one.task, []).append(one)
    return out


@dataclass(frozen=True)
class ReviewDue:
    """When a task comes back: `stage` reviews in a row went well since it was passed."""

    task: str
    stage: int
    due: date


def review_due(task: str, played: Iterable[TaskDay], today: date) -> ReviewDue | None:
    """The next review of a task from all its days; None before it was passed.

    A review counts on the day it fell due or later; gaps run from the day it was really done, so a late
    one pushes the next. Fewer than REVIEW_PASS of REVIEW_SHOTS good ones start over from that day.
    """
    since: date | None = None
    stage = 0
    days: dict[date, TaskDay] = {}
    for one in played:
        if one.task == task:
            day = min(one.day, today)
            days[day] = days[day].plus(one) if day in days else one
    for day in sorted(days):
        if since is None:
            since = day if days[day].passed else None
            continue
        held = days[day].review_held
        if held is not None and day >= since + timedelta(days=_gap(stage)):
            stage, since = (stage + 1 if held else 0), day
    return None if since is None else ReviewDue(task, stage, since + timedelta(days=_gap(stage)))


def _gap(stage: int) -> int:
    return _GAPS[stage] if stage < len(_GAPS) else REVIEW_EVERY


# ---- today


@dataclass(frozen=True)
class DayPlan:
    """What to play today: reviews that are due (mixed), then the drill. Either may be empty."""

    reviews: tuple[Planned, ...]
    drill: tuple[Planned, ...]
    rhythm: Rhythm


def day_plan(
    tasks: Sequence[str], played: Sequence[TaskDay], today: date, seed: int, junior: bool = False
) -> DayPlan:
    """The plan of a day over tasks in their order: what is due comes back mixed, REVIEW_SHOTS together and
    no task more often than needed; the drill is for the tasks not yet passed, at most three at a time."""
    rhythm = rhythm_of(junior)
    own = days_by_task(played)
    found = {task: review_due(task, own.get(task, ()), today) for task in tasks}
    due = sorted(
        (one for one in found.values() if one and one.due <= today), key=lambda one: (one.due, one.task)
    )
    count = max(REVIEW_SHOTS, len(due)) if due else 0
    reviews = _mixed([one.task for one in due], count, seed) if due else []
    new = [task for task in tasks if found[task] is None][:3]
    return DayPlan(
        tuple(Planned(task, "review") for task in reviews), drill(new, seed, rhythm.mixed_first), rhythm
    )


def sitting_of(times: Iterable[datetime]) -> tuple[datetime, ...]:
    """The last of these times of shots between which there was no long break, oldest first.

    Times carry their zones: neither summer time nor a flight makes a sitting longer.
    """
    out: list[datetime] = []
    for when in sorted(times, reverse=True):
        if out and out[-1] - when > SITTING_BREAK:
            break
        out.append(when)
    return tuple(reversed(out))


def nudge(times: Iterable[datetime], junior: bool = False) -> bool:
    """Whether the last sitting has been long enough to propose a rest, from the times of its shots."""
    sitting = sitting_of(times)
    return bool(sitting) and sitting[-1] - sitting[0] >= timedelta(minutes=rhythm_of(junior).minutes)


def new_distances(practised: Iterable[float]) -> tuple[float, ...]:
    """Distances (m) for the test that were never practised: in the middle of the widest gap, and one gap
    beyond the farthest. Empty with fewer than two different ones.

    >>> new_distances([3.0, 6.0, 9.0])
    (4.5, 12.0)
    """
    known = sorted(set(practised))
    if len(known) < 2:
        return ()
    gaps = [(b - a, -a) for a, b in pairwise(known)]
    wide, start = max(gaps)
    return -start + 0.5 * wide, known[-1] + (known[-1] - known[-2])
