"""What a coach reads in a pupil's answer: per task what was tried and how it went, and what comes next.

Days, not minutes; trends of one's own, no ranking (Epton and others 2017; practice and learning diverge).
It tells what simulated shots did. Nothing here is a measure of anybody's skill.
"""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from levels.answers import AnswerFile, AnswerLine, intention_of, lines_by_task
from levels.chapters import builtin_chapters
from levels.draft import library_text
from levels.files import load_library
from levels.forgiveness import NEAR
from levels.intervals import Estimate, share_estimate
from levels.packs import LONGEST_TITLE, Member, Pack
from levels.plan import LATEST
from levels.scenario import Scenario
from levels.strengths import ENOUGH
from physics.address import Intention

__all__ = ["Proposal", "Review", "ReviewFlag", "SetupError", "TaskReview", "next_assignment", "review"]

FIRST, LAST = 5, 5  # calls compared at either end
TOO_EASY, TOO_HARD = 0.90, 0.50  # of the tries, from ENOUGH tries on, assumed
ReviewFlag = Literal["too easy", "too hard", ""]
HELD = 0.65  # share of a retest that counts as held, assumed


@dataclass(frozen=True)
class SetupError:
    """The part of the set-up that was off most often when a shot missed its goal; against the reference."""

    control: str
    way: int  # 1 too much, -1 too little
    count: int
    missed: int  # shots that missed, of which `count` had this
    line: int  # number of the attempt that shows it most, to play again


@dataclass(frozen=True)
class TaskReview:
    """One task of the assignment."""

    name: str
    title: str
    tries: int
    days: int
    met: Estimate | None  # share of tries that met every goal
    passed: bool
    first_gap: float | None  # m, mean distance between called and real stop of the first five calls
    last_gap: float | None  # the same of the last five; both None with fewer than ten calls
    causes_right: int
    causes_asked: int
    error: SetupError | None
    first_test: Estimate | None
    retest: Estimate | None
    flag: ReviewFlag
    changed: bool  # whether some attempts were at another version of the scenario


@dataclass(frozen=True)
class Proposal:
    """What the next assignment may hold: tasks to repeat, and built-in ones that follow."""

    repeat: tuple[str, ...]
    next: tuple[str, ...]


@dataclass(frozen=True)
class Review:
    """The whole answer at a glance."""

    assignment: str
    pupil: str
    words: str
    tasks: tuple[TaskReview, ...]
    days: tuple[date, ...]  # on which anything was practised
    shots_planned: int | None  # of the drill
    shots_done: int
    drill_days: int  # sittings in which as many shots as planned were played
    retest_planned: date | None
    retest_done: date | None
    outside: tuple[tuple[date, int, int], ...]  # self-reported: day, shots, came off
    strangers: tuple[str, ...]  # tasks in the answer that the assignment does not have
    proposal: Proposal


def review(pack: Pack, answer: AnswerFile) -> Review:
    """The review of an answer to this assignment. ValueError when it answers another one."""
    if not pack.id or pack.id != answer.assignment:
        raise ValueError(f"it answers the assignment {answer.assignment}, not {pack.id or 'this pack'}")
    by_task = lines_by_task(answer)
    names = [member.name for member in pack.members]
    tasks = tuple(_task(m.name, m.scenario, answer, by_task.get(m.name, ())) for m in pack.members)
    counts = Counter(line.day for line in answer.attempts if line.task in names)
    tests = _test_days([line for line in answer.attempts if line.task in names])
    plan = pack.plan
    return Review(
        answer.assignment, answer.pupil, answer.words, tasks, tuple(sorted(counts)),
        plan.shots if plan else None, sum(counts.values()),
        sum(count >= plan.shots for count in counts.values()) if plan else 0,
        plan.retest if plan else None, tests[-1] if len(tests) > 1 else None,
        tuple((one.day, one.shots, one.came_off) for one in answer.outside),
        tuple(name for name in by_task if name not in names), _proposal(pack, tasks),
    )  # fmt: skip


def _task(name: str, scenario: Scenario, answer: AnswerFile, numbers: Sequence[int]) -> TaskReview:
    lines = [answer.attempts[i] for i in numbers]
    met = share_estimate(sum(line.met for line in lines), len(lines))
    gaps = [abs(line.stop_gap_m) for line in lines if line.stop_gap_m is not None]
    both = len(gaps) >= FIRST + LAST
    asked = [line.cause_right for line in lines if line.cause_right is not None]
    tests = _test_days(lines)
    return TaskReview(
        name, scenario.title, len(lines), len({line.day for line in lines}), met,
        any(line.passed for line in lines),
        sum(gaps[:FIRST]) / FIRST if both else None, sum(gaps[-LAST:]) / LAST if both else None,
        sum(asked), len(asked), _error(scenario, answer, numbers),
        _test(lines, tests[0]) if tests else None, _test(lines, tests[-1]) if len(tests) > 1 else None,
        _flag(met), any(line.digest != scenario.digest for line in lines),
    )  # fmt: skip


def _test_days(lines: Sequence[AnswerLine]) -> list[date]:
    return sorted({line.day for line in lines if line.part == "test"})


def _test(lines: Sequence[AnswerLine], day: date) -> Estimate | None:
    results = [line.met for line in lines if line.part == "test" and line.day == day]
    return share_estimate(sum(results), len(results))


def _flag(met: Estimate | None) -> ReviewFlag:
    if met is None or met.count < ENOUGH:
        return ""
    return "too easy" if met.value > TOO_EASY else "too hard" if met.value < TOO_HARD else ""


# ---- the set-up


def _error(scenario: Scenario, answer: AnswerFile, numbers: Sequence[int]) -> SetupError | None:
    """The most frequent error of shots that missed; None without a reference or where none stands out."""
    shot = scenario.reference_shot()
    missed = [
        i for i in numbers if not answer.attempts[i].met and answer.attempts[i].digest == scenario.digest
    ]
    if shot is None or not missed:
        return None
    best = Intention(*shot)
    found = {i: _farthest(scenario, best, intention_of(answer.attempts[i], scenario)) for i in missed}
    kinds = Counter((name, way) for name, way, off in found.values() if off > 1.0)
    if not kinds:
        return None
    (name, way), count = max(kinds.items(), key=lambda one: (one[1], one[0]))
    own = [i for i in missed if found[i][:2] == (name, way) and found[i][2] > 1.0]
    return SetupError(name, way, count, len(missed), max(own, key=lambda i: found[i][2]))


def _farthest(scenario: Scenario, best: Intention, played: Intention) -> tuple[str, int, float]:
    """The open control farthest from the reference: name, way, and how far in units of NEAR of its width."""
    found = ("", 0, 0.0)
    for name in scenario.open_controls:
        low, high = scenario.limits_of(name)
        off = (played.value(name) - best.value(name)) / (NEAR * (high - low))
        if abs(off) > found[2]:
            found = (name, 1 if off > 0.0 else -1, abs(off))
    return found


# ---- what comes next


def _proposal(pack: Pack, tasks: Sequence[TaskReview]) -> Proposal:
    again = tuple(task.name for task in tasks if _repeats(task))
    known = {member.name for member in pack.members}
    after: list[str] = []
    for task in tasks:
        if not _repeats(task) and (follower := _follower(task.name)) and follower not in (*known, *after):
            after.append(follower)
    return Proposal(again, tuple(after))


def _repeats(task: TaskReview) -> bool:
    return not task.passed or (task.retest is not None and task.retest.value < HELD)


def _follower(name: str) -> str | None:
    """The built-in scenario after this one in its chapter; None for the last, and for one's own."""
    for chapter in builtin_chapters():
        names = [entry.name for entry in chapter.entries]
        if name in names[:-1]:
            return names[names.index(name) + 1]
    return None


def next_assignment(pack: Pack, proposal: Proposal, made: date) -> Pack | None:
    """A new assignment filled in from the proposal, for the coach to change; None when nothing is left.

    The plan keeps focus and drill, and has its retest as many days on as before. It gets its id when it is
    handed out.
    """
    again = [member for member in pack.members if member.name in proposal.repeat]
    new = [Member(name, library_text(name), load_library(name)) for name in proposal.next]
    if not again and not new:
        return None
    plan = pack.plan
    if plan is not None:
        away = min((plan.retest - plan.made).days, LATEST)
        plan = plan.model_copy(update={"made": made, "retest": made + timedelta(days=away)})
    return Pack(_next_title(pack.title), (*again, *new), pack.words, plan)


def _next_title(title: str) -> str:
    """`Week one` becomes `Week one (2)`, that `Week one (3)`: two tabs of one name cannot be told apart."""
    counted = re.fullmatch(r"(.*) \((\d{1,3})\)", title, re.DOTALL)
    stem, number = (counted[1], int(counted[2]) + 1) if counted else (title, 2)
    end = f" ({number})"
    return stem[: LONGEST_TITLE - len(end)].rstrip() + end
