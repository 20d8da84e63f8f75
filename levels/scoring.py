"""What a shot was worth in a scenario: goals one by one, strokes, match, and the gap to what was called.

No stars, no lives: every mark is a distance, an angle or a count of strokes. Values only: their words are
made where they are told.
"""

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from math import isnan, nan

import numpy as np

from levels.facts import COUNT, SEED, Facts, goals_asked, meets, shot_facts
from levels.scenario import Scenario
from physics.cause import lean_match
from physics.cloud import Cloud, cloud, worth
from physics.putting import PUTTERS
from physics.results import Contact, Meeting, Outcome, Shot, TurfAction
from physics.run import REST
from physics.spread import PLAYERS
from physics.terrain import build_field

__all__ = [
    "GoalMark",
    "Match",
    "Prediction",
    "PredictionGap",
    "StrikeName",
    "Verdict",
    "judge",
    "match",
    "prediction_gap",
    "reference_cloud",
    "strike_name",
    "strike_word",
]  # fmt: skip

# ---- strike


class StrikeName(StrEnum):
    """The strike in the trade's words, as `physics.quality` judges it by the ball."""

    SOLID = "solid"
    SPLASH = "splash"  # the sand carried the ball as it should
    FAT = "fat"
    THIN = "thin"
    TOPPED = "topped"
    WEAK = "weak"  # off the face, with nothing of the ground before it, and yet short
    TWICE = "twice"
    MISSED = "missed"


_STRUCK = {
    Contact.SOLID: StrikeName.SOLID, Contact.SPLASHED: StrikeName.SPLASH, Contact.FAT: StrikeName.FAT,
    Contact.THIN: StrikeName.THIN, Contact.TOPPED: StrikeName.TOPPED, Contact.TWICE: StrikeName.TWICE,
    Contact.MISSED: StrikeName.MISSED,
}  # fmt: skip


def strike_name(shot: Shot) -> StrikeName:
    """What the strike was. The judge's "thin" holds everything that is neither solid nor fat; a ball that
    leaves the face and falls short is none of it thin."""
    k = shot.strike
    weak = k.contact is Contact.THIN and k.met is Meeting.FACE and k.struck_gap < 0.0
    return StrikeName.WEAK if weak else _STRUCK[k.contact]


# ---- verdict


@dataclass(frozen=True)
class GoalMark:
    """One goal: whether it was met, and what was measured for it.

    `value` (SI, nan where it never came to that) is for leave_m the distance left, for land_between_m the
    carry, for must_clear the height over the place, for ceiling_m the apex, for match_deg the shaft lean at
    the ball minus at address, for strike the depth of the mark.
    """

    kind: str  # key of the goal table
    met: bool
    value: float


@dataclass(frozen=True)
class Verdict:
    """A shot against its scenario. `past` is how far beyond the hole it ended (m, - short of it)."""

    goals: tuple[GoalMark, ...]
    met: bool  # every goal
    leave: float  # m
    past: float
    strokes: float  # expected to hole out, this one included
    reference_strokes: float  # the same of the reference, on average; nan without a reference
    outcome: Outcome
    struck: StrikeName


def judge(scenario: Scenario, shot: Shot) -> Verdict:
    """Mark one shot, played in this scenario's course."""
    goal, facts = scenario.goal, shot_facts(scenario.goal, shot)
    marks = tuple(
        GoalMark(kind, bool(meets(kind, goal, facts)[0]), _measured(kind, facts))
        for kind in goals_asked(goal)
    )
    reference = reference_cloud(scenario)
    best = reference.mean_strokes if reference else nan
    leave, strokes = float(facts.leave[0]), float(facts.strokes[0])
    return Verdict(
        marks, all(mark.met for mark in marks), leave, shot.run.rest - scenario.hole.x_m, strokes, best,
        shot.run.outcome, strike_name(shot),
    )  # fmt: skip


def _measured(kind: str, facts: Facts) -> float:
    """What is measured for a goal, as GoalMark has it."""
    values = {
        "leave_m": facts.leave, "land_between_m": facts.carry, "must_clear": facts.height,
        "ceiling_m": facts.apex, "match_deg": facts.lean_off, "strike": facts.depth,
    }  # fmt: skip
    return float(values[kind][0])


@lru_cache(maxsize=64)
def reference_cloud(scenario: Scenario) -> Cloud | None:
    """The reference played many times by the scenario's player; None without a reference."""
    shot = scenario.reference_shot()
    if shot is None:
        return None
    return cloud(scenario.course(), *shot, PLAYERS[scenario.player], SEED, COUNT)


# ---- match


@dataclass(frozen=True)
class Match:
    """How forgiving a set-up is, whatever this one shot did.

    `share`: 1 when its expected strokes are the reference's, 0 when it is worth no more than a stroke
    that leaves the ball where it lies; nan without a reference. `lean` is the coach's check.
    """

    strokes: float
    best: float
    share: float
    lean: str


def match(scenario: Scenario, shot: Shot, count: int = COUNT) -> Match:
    """Play the shot's set-up many times with the scenario's player and set it beside the reference."""
    course, spread = scenario.course(), PLAYERS[scenario.player]
    strokes = cloud(course, shot.setup, shot.motion, spread, SEED, count).mean_strokes
    reference = reference_cloud(scenario)
    best = reference.mean_strokes if reference else nan
    still, rest = np.zeros(1), np.full(1, float(REST))
    wasted = float(worth(course, build_field(course), still, still, rest, PUTTERS[spread.putter])[0, 1])
    gain = wasted - best
    share = nan if isnan(best) else float(np.clip((wasted - strokes) / gain, 0.0, 1.0)) if gain > 0.0 else 0.0
    return Match(strokes, best, share, lean_match(shot))


# ---- prediction


@dataclass(frozen=True)
class Prediction:
    """What the player called before the shot; None for what was not asked."""

    landing: float | None = None  # m
    stop: float | None = None  # m
    strike: str | None = None  # solid, fat or thin

    @property
    def none(self) -> bool:
        """Whether nothing was called."""
        return self.landing is None and self.stop is None and self.strike is None


@dataclass(frozen=True)
class PredictionGap:
    """Called against what happened. Gaps in m, + when the ball went further than called; nan where it never
    came to that, None where nothing was called."""

    landing: float | None
    stop: float | None
    strike_called: str | None
    strike_was: str

    @property
    def strike_right(self) -> bool | None:
        """Whether the call of the strike came true; None without one."""
        return None if self.strike_called is None else self.strike_called == self.strike_was


def strike_word(shot: Shot) -> str:
    """The strike as it can be called: solid, fat or thin; else weak, twice or missed, which no call names.

    A splash is solid, a topped ball thin; a club that stays in the ground before the ball is fat.
    """
    was = strike_name(shot)
    if was is StrikeName.MISSED:
        return "missed" if shot.strike.turf is TurfAction.NONE else "fat"
    return {StrikeName.SPLASH: "solid", StrikeName.TOPPED: "thin"}.get(was, was.value)


def prediction_gap(prediction: Prediction, shot: Shot) -> PredictionGap:
    """The gap between what was called and what happened."""
    carry = shot.run.carry if shot.launch else nan
    landing = None if prediction.landing is None else carry - prediction.landing
    stop = None if prediction.stop is None else shot.run.rest - prediction.stop
    return PredictionGap(landing, stop, prediction.strike, strike_word(shot))
