"""An answer read beside the picture, with its assignment and each task's tries day by day."""

from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from game.library.assignments import assignment_of, keep_assignment
from game.library.shelf import first
from game.shot_view.session import Shown, shown_with_spray
from game.text.answered import gone_wrong_words
from levels.answers import AnswerFile, intention_of, lines_by_task, read_answer
from levels.packs import Pack, read_pack
from levels.reading import ScenarioError
from levels.review import Review, TaskReview, review
from physics.address import Intention
from physics.shot import play
from physics.spread import PLAYERS

__all__ = [
    "ReadAnswer",
    "TaskTries",
    "from_library",
    "read_for_review",
    "shot_of_line",
    "tries_of",
    "with_pack",
]


@dataclass(frozen=True)
class ReadAnswer:
    """A sound answer; `pack` and `found` are None while its assignment is not at hand."""

    answer: AnswerFile
    pack: Pack | None = None
    found: Review | None = None


@dataclass(frozen=True)
class TaskTries:
    """Whether each try met its goal, in order, by day; `days` are all days of the answer."""

    days: tuple[date, ...]
    met: tuple[tuple[bool, ...], ...]


def read_for_review(home: Path | None, path: str | Path) -> ReadAnswer | str:
    """The answer in a file, or one sentence. Reads only."""
    try:
        answer = read_answer(path)
    except ScenarioError as error:
        return first(error.problems)
    return (from_library(home, answer) if home else None) or ReadAnswer(answer)


def from_library(home: Path, answer: AnswerFile) -> ReadAnswer | None:
    """The answer with its pack, where that is at hand."""
    pack = assignment_of(home, answer.assignment)
    return None if pack is None else ReadAnswer(answer, pack, review(pack, answer))


def with_pack(home: Path | None, answer: AnswerFile, path: str | Path) -> ReadAnswer | str:
    """The same answer with its pack from a file, which is kept for the next one; or one sentence."""
    try:
        pack = read_pack(path)
    except ScenarioError as error:
        return first(error.problems)
    if pack.id != answer.assignment:
        return gone_wrong_words(answer.assignment, pack.id)
    if home is not None and not pack.problems:
        with suppress(OSError):  # it is read all the same; next time it has to be given again
            keep_assignment(home, pack)
    return ReadAnswer(answer, pack, review(pack, answer))


def tries_of(answer: AnswerFile, found: Review) -> dict[str, TaskTries]:
    """Every task's tries on the days on which anything was practised."""
    by_task = lines_by_task(answer)
    out: dict[str, TaskTries] = {}
    for task in found.tasks:
        lines = [answer.attempts[i] for i in by_task.get(task.name, ())]
        met = tuple(tuple(line.met for line in lines if line.day == day) for day in found.days)
        out[task.name] = TaskTries(found.days, met)
    return out


def shot_of_line(read: ReadAnswer, task: TaskReview) -> tuple[Shown, tuple[str, float]]:
    """The shot that shows a task's most frequent set-up error, played again; and that control with its value
    (SI) in the coach's set-up. ValueError without one."""
    if task.error is None or read.pack is None:
        raise ValueError("there is no shot to show")
    scenario = next(m.scenario for m in read.pack.members if m.name == task.name)
    reference = scenario.reference_shot()
    if reference is None:
        raise ValueError("there is no set-up to compare with")
    line = read.answer.attempts[task.error.line]
    meant = intention_of(line, scenario)
    shot = play(scenario.course(), meant.setup, meant.motion, PLAYERS[scenario.player], line.seed)
    name = task.error.control
    return shown_with_spray(shot), (name, Intention(*reference).value(name))
