"""What a shot was worth in a scenario: goals one by one, strokes, match, and the gap to what was called.

No stars, no lives: every mark is a distance, a count of strokes or a plain sentence.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import degrees, isnan, nan

import numpy as np

from levels.facts import COUNT, SEED, Facts, meets, shot_facts
from levels.facts import goals_asked as asked
from levels.scenario import Scenario
from levels.teaching import Goal
from physics.cause import lean_match
from physics.cloud import Cloud, cloud, worth
from physics.constants import YARD
from physics.putting import PUTTERS
from physics.results import Contact, Outcome, Shot, TurfAction
from physics.run import REST
from physics.spread import PLAYERS
from physics.terrain import build_field

__all__ = [
    "GoalMark", "Match", "Prediction", "PredictionGap", "Verdict", "judge", "match", "prediction_gap",
    "reference_cloud", "strike_word", "tasks",
]  # fmt: skip


# ---- words


def _length(metres: float, yards: bool) -> str:
    return f"{metres / YARD:.1f} yd" if yards else f"{metres:.1f} m"


def _height(metres: float, yards: bool) -> str:
    return f"{metres / YARD * 3.0:.1f} ft" if yards else f"{metres:.1f} m"


_STRIKE_TASK = {
    "solid": "Strike it solid.",
    "clean": "Meet the ball first, or nearly first.",
    "brush": "Brush the grass and leave hardly a mark.",
    "splash": "Splash it out: let the sand carry the ball.",
}


def _task(kind: str, goal: Goal, yards: bool) -> str:
    match kind:
        case "leave_m":
            return f"Stop within {_length(goal.leave_m or 0.0, yards)} of the hole."
        case "land_between_m":
            near, far = goal.land_between_m or (0.0, 0.0)
            return f"Land between {_length(near, yards)} and {_length(far, yards)}."
        case "must_clear":
            clear = goal.must_clear
            assert clear is not None
            where = _length(clear.x_m, yards)
            return f"Fly at least {_height(clear.height_m, yards)} high, {where} away."
        case "match_deg":
            return f"Bring the handle back within {goal.match_deg:g} degrees of where you set it."
        case _:
            return _STRIKE_TASK[goal.strike or "solid"]


def tasks(goal: Goal, yards: bool = False) -> tuple[str, ...]:
    """What has to be done, one plain sentence a goal, and last how often."""
    told = [_task(kind, goal, yards) for kind in asked(goal)]
    if goal.shots > 1:
        row = " in a row" if goal.in_a_row and goal.successes > 1 else ""
        told.append(f"Do it {goal.successes} times{row} in {goal.shots} shots.".replace("1 times", "once"))
    return tuple(told)


def _told(kind: str, goal: Goal, f: Facts, shot: Shot, yards: bool) -> str:
    """What the shot did about one goal."""
    match kind:
        case "leave_m":
            return _stop_told(shot, float(f.leave[0]), yards)
        case "land_between_m":
            carry = float(f.carry[0])
            return "It never landed." if isnan(carry) else f"It landed {_length(carry, yards)} away."
        case "must_clear":
            over = float(f.height[0])
            return "It never flew that far." if isnan(over) else f"It flew over {_height(over, yards)} high."
        case "match_deg":
            off = degrees(float(f.lean_off[0]))
            if isnan(off):
                return "The club never met the ball."
            way = "forward" if off > 0.0 else "back"
            return f"The handle came back {abs(off):.0f} degrees further {way}."
        case _:
            return _strike_told(shot)


def _stop_told(shot: Shot, leave: float, yards: bool) -> str:
    match shot.run.outcome:
        case Outcome.REST | Outcome.MISSED | Outcome.STUCK:
            return f"It stopped {_length(leave, yards)} from the hole."
        case Outcome.LOST:
            return "It never came to rest."
        case outcome:
            told = {Outcome.HOLED: "into the hole", Outcome.WATER: "into the water"}
            return f"It went {told.get(outcome, 'out of bounds')}."


_STRUCK = {
    Contact.MISSED: "The club never met the ball.",
    Contact.THIN: "The strike was thin.",
    Contact.TOPPED: "The edge caught the ball above its middle.",
    Contact.FAT: "The strike was fat.",
    Contact.TWICE: "The club met the ball twice.",
    Contact.SPLASHED: "The sand carried the ball.",
    Contact.SOLID: "The strike was solid.",
}


def _strike_told(shot: Shot) -> str:
    k = shot.strike
    mark = f"left a mark {k.depth * 1e3:.0f} mm deep" if k.depth > 0.5e-3 else "left no mark"
    return f"{_STRUCK[k.contact]} The club {mark}."


# ---- verdict


@dataclass(frozen=True)
class GoalMark:
    """One goal: what was asked, what happened, and whether that met it."""

    kind: str  # key of the goal table
    met: bool
    asked: str
    told: str


@dataclass(frozen=True)
class Verdict:
    """A shot against its scenario. `past` is how far beyond the hole it ended (m, - short of it)."""

    goals: tuple[GoalMark, ...]
    met: bool  # every goal
    leave: float  # m
    past: float
    strokes: float  # expected to hole out, this one included
    reference_strokes: float  # the same of the reference, on average; nan without a reference
    words: str


def judge(scenario: Scenario, shot: Shot, yards: bool = False) -> Verdict:
    """Mark one shot, played in this scenario's course."""
    goal, facts = scenario.goal, shot_facts(scenario.goal, shot)
    marks = tuple(
        GoalMark(
            kind, bool(meets(kind, goal, facts)[0]), _task(kind, goal, yards),
            _told(kind, goal, facts, shot, yards),
        )
        for kind in asked(goal)
    )  # fmt: skip
    reference = reference_cloud(scenario)
    best = reference.mean_strokes if reference else nan
    leave, strokes = float(facts.leave[0]), float(facts.strokes[0])
    return Verdict(
        marks, all(mark.met for mark in marks), leave, shot.run.rest - scenario.hole.x_m, strokes, best,
        _summary(_stop_told(shot, leave, yards), strokes, best),
    )  # fmt: skip


def _summary(stop: str, strokes: float, best: float) -> str:
    told = f"{stop} From there it takes {strokes:.1f} strokes in all, this one included."
    return told if isnan(best) else f"{told} A matched set-up takes {best:.1f} on average."


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
    strike: str | None = None  # dig, brush or thin


@dataclass(frozen=True)
class PredictionGap:
    """Called against what happened. Gaps in m, + when the ball went further than called; nan: no gap."""

    landing: float
    stop: float
    strike_called: str | None
    strike_was: str
    words: tuple[str, ...]

    @property
    def strike_right(self) -> bool | None:
        """Whether the call of the strike came true; None without one."""
        return None if self.strike_called is None else self.strike_called == self.strike_was


def strike_word(shot: Shot) -> str:
    """The strike as it is called: dig (turf took too much), thin (the edge met it, or nothing), brush."""
    k = shot.strike
    if k.contact in (Contact.THIN, Contact.TOPPED):
        return "thin"
    if k.contact is Contact.MISSED:
        return "dig" if shot.run.outcome is Outcome.STUCK else "thin"
    return "dig" if k.turf is TurfAction.DIG or k.contact is Contact.FAT else "brush"


def prediction_gap(prediction: Prediction, shot: Shot, yards: bool = False) -> PredictionGap:
    """The gap between what was called and what happened."""
    was, words = strike_word(shot), []
    carry = shot.run.carry if shot.launch else nan
    landing = nan if prediction.landing is None else carry - prediction.landing
    stop = nan if prediction.stop is None else shot.run.rest - prediction.stop
    if prediction.landing is not None:
        words.append(_gap_told("landed", landing, yards))
    if prediction.stop is not None:
        words.append(_gap_told("stopped", stop, yards))
    if prediction.strike is not None:
        same = prediction.strike == was
        words.append(f"You called {prediction.strike}, and so it was." if same
                     else f"You called {prediction.strike}; it was {was}.")  # fmt: skip
    return PredictionGap(landing, stop, prediction.strike, was, tuple(words))


CLOSE_CALL = 0.05  # m, a gap too small to tell, assumed


def _gap_told(verb: str, gap: float, yards: bool) -> str:
    if isnan(gap):
        return f"It never {verb}."
    if abs(gap) < CLOSE_CALL:
        return f"It {verb} where you called it."
    return f"It {verb} {_length(abs(gap), yards)} {'further than' if gap > 0 else 'short of'} your mark."
