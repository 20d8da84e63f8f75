"""One attempt as a notebook keeps it: what was to be played, how, by whom, when, and what came of it.

An attempt holds all that its shot needs to be played again, exact to the last digit: course, club, address,
stroke, the player's spread, the seed and what that made of the spread. Plain values without a clock or a
file. A simulated result is no measure of anybody's skill.
"""

from dataclasses import astuple, dataclass, field
from datetime import date, datetime, timedelta
from math import isnan

import numpy as np

from levels.facts import shot_facts
from levels.families import Family, Kinds, family_of
from levels.files import parse_scenario, scenario_text
from levels.scenario import Scenario
from levels.scoring import Prediction, Verdict, strike_word
from levels.teaching import Goal
from physics.address import Intention
from physics.cause import lie_surface
from physics.course import Course
from physics.results import Outcome, Shot
from physics.shot import replay
from physics.spread import Spread, Stray

__all__ = [
    "PRACTICE_PARTS", "Attempt", "AttemptResult", "AttemptTask", "NamedCause", "attempt_of", "replayed",
    "result_of", "same_as_kept", "task_of",
]  # fmt: skip

PRACTICE_PARTS = ("", "blocked", "serial", "mixed", "review", "test")  # "" for a shot at will
_ANY = Goal(strike="solid")  # facts of a shot that nobody set a goal for


@dataclass(frozen=True)
class AttemptTask:
    """What was to be played. `text` is the scenario's TOML as it was then; "" on the Bench."""

    course: Course
    name: str = ""  # the scenario's, as progress knows it
    title: str = ""
    digest: str = ""  # as its proof carries it
    text: str = field(default="", repr=False)

    @property
    def scenario(self) -> Scenario | None:
        """The scenario as it was; None on the Bench. ScenarioError when it is none of today's."""
        return parse_scenario(self.text, self.name) if self.text else None


@dataclass(frozen=True)
class AttemptResult:
    """What came of it. SI, rad; None where it never came to that, or nothing was asked."""

    outcome: str
    contact: str
    strike: str  # dig, brush or thin, as it is called
    solid: bool
    as_set: bool  # solid, and the ball did what the address promised
    handle_return: float | None  # shaft lean at the ball minus at address
    carry: float | None
    rest: float
    leave: float | None
    strokes: float | None  # expected to hole out, this one included
    reference_strokes: float | None  # the same of the scenario's reference, on average
    met: bool | None  # every goal

    @property
    def holed(self) -> bool:
        """Whether it went in."""
        return self.outcome == Outcome.HOLED


@dataclass(frozen=True)
class NamedCause:
    """The cause a player chose out of three, and the one that replay found."""

    chosen: str
    true: str

    @property
    def right(self) -> bool:
        """Whether the choice was right."""
        return self.chosen == self.true


@dataclass(frozen=True)
class Attempt:
    """One stroke played. `when` carries the player's own offset from UTC, so that its day is theirs."""

    player: str
    when: datetime
    task: AttemptTask
    intention: Intention
    spread: Spread
    seed: int
    stray: Stray
    result: AttemptResult
    lie: str  # surface under the ball
    family: Family
    distance: float | None  # m from ball to hole
    call: Prediction | None = None  # None where nothing was called
    passed: bool = False  # whether the task stood passed with this stroke
    hints: int = 0  # shown before it
    cause: NamedCause | None = None
    part: str = ""  # one of PRACTICE_PARTS
    assignment: str = ""  # id of the assignment it belongs to
    uid: str = ""  # given by the notebook; the same attempt is kept once

    def __post_init__(self) -> None:
        if self.when.utcoffset() is None:
            raise ValueError("an attempt needs a time with its offset from UTC")
        if self.when.utcoffset() != timedelta(seconds=self.offset):
            raise ValueError("an attempt's offset from UTC has to be in whole seconds")
        if self.part not in PRACTICE_PARTS:
            allowed = ", ".join(PRACTICE_PARTS[1:])
            raise ValueError(f"'{self.part}' is no part of practice; allowed: {allowed}")

    @property
    def offset(self) -> int:
        """The player's own time minus UTC (s)."""
        away = self.when.utcoffset()
        return 0 if away is None else int(away.total_seconds())

    @property
    def day(self) -> date:
        """The day by the player's own clock and place."""
        return self.when.date()

    @property
    def stop_gap(self) -> float | None:
        """How far (m) it stopped beyond the call; None without one."""
        return None if self.call is None or self.call.stop is None else self.result.rest - self.call.stop

    @property
    def strike_right(self) -> bool | None:
        """Whether the call of the strike came true; None without one."""
        return (
            None if self.call is None or self.call.strike is None else self.call.strike == self.result.strike
        )


def _number(value: float) -> float | None:
    return None if isnan(value) else float(value)


def task_of(name: str, scenario: Scenario) -> AttemptTask:
    """A scenario as a task."""
    return AttemptTask(scenario.course(), name, scenario.title, scenario.digest, scenario_text(scenario))


def result_of(shot: Shot, verdict: Verdict | None = None) -> AttemptResult:
    """What came of a shot; with the verdict of its scenario what that was worth."""
    facts = shot_facts(_ANY, shot)
    return AttemptResult(
        outcome=str(shot.run.outcome),
        contact=str(shot.strike.contact),
        strike=strike_word(shot),
        solid=shot.strike.solid,
        as_set=shot.strike.as_set,
        handle_return=_number(shot.strike.lean - shot.setup.shaft_lean),
        carry=_number(shot.run.carry) if shot.launch else None,
        rest=float(shot.run.rest),
        leave=_number(float(facts.leave[0])),
        strokes=_number(float(facts.strokes[0])),
        reference_strokes=_number(verdict.reference_strokes) if verdict else None,
        met=verdict.met if verdict else None,
    )


def attempt_of(
    shot: Shot, player: str, when: datetime, task: AttemptTask | None = None,
    verdict: Verdict | None = None, *, call: Prediction | None = None, passed: bool = False, hints: int = 0,
    part: str = "", assignment: str = "",
) -> Attempt:  # fmt: skip
    """The attempt that this shot was. Works out what kind of shot it was meant to be: a fraction of a shot.

    >>> from datetime import timezone
    >>> from physics.address import Motion, Setup
    >>> from physics.course import level_course
    >>> from physics.shot import play
    >>> shot = play(level_course("fairway", 8.0), Setup(), Motion())
    >>> one = attempt_of(shot, "Robin", datetime(2025, 11, 3, 18, 30, tzinfo=timezone.utc))
    >>> one.lie, one.family, one.distance, one.result.solid, replayed(one) == shot
    ('fairway', 'standard', 8.0, True, True)
    """
    meant = Kinds(shot.course).intended(shot.setup, shot.motion)
    asked = call is not None and (call.landing, call.stop, call.strike) != (None, None, None)
    return Attempt(
        player, when, task or AttemptTask(shot.course), Intention(shot.setup, shot.motion), shot.spread,
        shot.seed, shot.stray, result_of(shot, verdict), lie_surface(shot.course).name, family_of(meant),
        shot.course.hole.x if shot.course.hole else None, call if asked else None, passed, hints, part=part,
        assignment=assignment,
    )  # fmt: skip


def replayed(attempt: Attempt) -> Shot:
    """The shot of an attempt, bit for bit while the laws are the ones it was played with."""
    meant = attempt.intention
    stray = np.array(astuple(attempt.stray), dtype=np.float64)
    return replay(attempt.task.course, meant.setup, meant.motion, attempt.spread, attempt.seed, stray)


def same_as_kept(attempt: Attempt, shot: Shot) -> bool:
    """Whether a replay did what the attempt had kept; false once a law has changed since."""
    kept, now = attempt.result, result_of(shot)
    same = ("outcome", "contact", "strike", "handle_return", "carry", "rest")
    return all(getattr(kept, name) == getattr(now, name) for name in same)
