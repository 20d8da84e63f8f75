"""What one scenario has worked out beside the picture: the try, the coach's way, and how well it matches."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from functools import partial

from game.play.causes import removals_of
from game.play.round import Round
from game.shot_view.session import Shown, shown_with_spray
from game.shot_view.spray import throw
from levels.attempts import Attempt, attempt_of, task_of
from levels.scenario import Scenario
from levels.scoring import Match, Verdict, judge, match
from levels.strokes import ManyStrokes, strokes_in_parts
from physics.course import Course
from physics.results import Shot
from physics.shot import play
from physics.spread import EXACT, PLAYERS

__all__ = ["Matched", "Tried", "example_of", "match_of", "shot_of", "strokes_of"]


@dataclass(frozen=True)
class Tried(Shown):
    """A try, what it was worth, and what the notebook takes down; None where nobody practises."""

    verdict: Verdict
    attempt: Attempt | None


@dataclass(frozen=True)
class Matched:
    """How forgiving a shot's set-up is."""

    shot: Shot
    match: Match


def shot_of(r: Round, course: Course) -> Callable[[], Tried]:
    """The try of this Round, with its own seed; now is when it is played."""
    when = datetime.now().astimezone()

    def job() -> Tried:
        shot = play(course, r.setup, r.motion, PLAYERS[r.scenario.player], r.seed)
        removals_of(shot)  # beside the picture, so that the question why finds it done
        verdict = judge(r.scenario, shot)
        return Tried(shot, throw(shot), verdict, attempt_in(r, shot, verdict, when))

    return job


def attempt_in(r: Round, shot: Shot, verdict: Verdict, when: datetime) -> Attempt | None:
    """The try as the notebook keeps it, but for whether the task is passed with it."""
    own = r.practice
    if not own.player:
        return None
    return attempt_of(
        shot, own.player, when, task_of(r.key, r.scenario), verdict, call=r.call, hints=r.hints,
        part=own.part, assignment=own.assignment,
    )  # fmt: skip


def example_of(scenario: Scenario, course: Course) -> Callable[[], Shown]:
    """The coach's set-up without spread. ValueError where there is none."""
    reference = scenario.reference_shot()
    if reference is None:
        raise ValueError("there is no worked example here")

    def job() -> Shown:
        return shown_with_spray(play(course, *reference, EXACT))

    return job


def match_of(scenario: Scenario, shot: Shot) -> Callable[[], Matched]:
    """The same set-up played many times, judged."""
    return lambda: Matched(shot, match(scenario, shot))


def strokes_of(scenario: Scenario, course: Course, shot: Shot) -> Callable[[], Iterator[ManyStrokes]]:
    """Many strokes of the shot's set-up by the scenario's player, more at each step."""
    return partial(strokes_in_parts, course, shot.setup, shot.motion, PLAYERS[scenario.player])
