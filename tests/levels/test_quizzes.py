"""The right answer of a quiz is the replayed cause: changed alone, it brings the starting stroke furthest.

Each answer names a part of the starting set-up and the way it is off. The part is moved that way, in steps
to the end of its limits, with nothing else touched, and its best place counts. All answers are played with
the same strays, so that they are compared stroke by stroke.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import pytest
from numpy.typing import NDArray
from stand import Stand, changed, on_level_ground, stand, still_air

from levels.closeness import closeness
from levels.facts import cloud_facts
from levels.files import library
from levels.teaching import Goal
from physics.address import Intention
from physics.course import Course
from physics.equipment import BAG, Club
from physics.run import HOLED, WATER
from physics.spread import PLAYERS

Floats = NDArray[np.float64]
Case = tuple[Intention, Course]
STEPS = 5
COUNT = {"steady": 60, "club": 60, "beginner": 240}  # strokes a case: the wider the spread, the more
SURE = 2.0  # standard errors of the difference
CLEARLY = 2.0  # degrees of launch


@dataclass(frozen=True)
class Part:
    """What an answer blames: a control to raise or lower, clubs with more or less of something, a course."""

    control: str = ""
    up: bool = True
    club: Callable[[Club, Club], bool] | None = None  # which other clubs answer it, beside the one in hand
    course: Callable[[Course], Course] | None = None

    def cases(self, s: Stand) -> list[Case]:
        """Every way of putting this part right, the starting stroke first."""
        start = s.start
        if self.course is not None:
            return [(start, s.course), (start, self.course(s.course))]
        if self.club is not None:
            held = start.setup.club
            offered = [BAG[name] for name in s.made.clubs or tuple(BAG)]
            fit = [club for club in offered if self.club(club, held)]
            assert fit, "no club to try"
            return [(start, s.course), *((start.with_club(club.name), s.course) for club in fit)]
        values = np.linspace(start.value(self.control), s.made.limits_of(self.control)[self.up], STEPS)
        assert values[0] != values[-1], "already at its limit"
        return [(start.with_value(self.control, float(v)), s.course) for v in values]


def less(control: str) -> Part:
    """The answer says there was too much of it."""
    return Part(control, up=False)


def more(control: str) -> Part:
    """The answer says there was too little of it."""
    return Part(control)


LESS_LOFT = Part(club=lambda club, held: club.loft < held.loft)
MORE_LOFT = Part(club=lambda club, held: club.loft > held.loft)
LESS_BOUNCE = Part(club=lambda club, held: club.bounce < held.bounce)

# What the question asks about, and the part behind each answer in order
STRIKE, MATCH, CLEAR, LEAVE, GOALS, LOWER, HIGHER = (
    "struck as asked", "handle return", "flown over", "near the hole", "every goal", "lower start",
    "higher start",
)  # fmt: skip
QUIZZES: dict[str, tuple[str, tuple[Part, Part, Part]]] = {
    "first-brush": (STRIKE, (more("lead_weight"), more("swing_length"), LESS_LOFT)),
    "two-tees": (STRIKE, (less("swing_length"), less("ball_position"), less("lead_weight"))),
    "how-deep": (STRIKE, (less("ball_position"), less("swing_length"), less("depth"))),
    "plain-chip": (STRIKE, (less("lean_change"), more("swing_length"), more("ball_position"))),
    "tight-collar": (GOALS, (less("swing_length"), less("shaft_lean"), more("ball_position"))),
    "damp-hollow": (STRIKE, (less("shaft_lean"), more("ball_position"), more("swing_length"))),
    "under-the-willow": (LOWER, (more("swing_length"), less("ball_position"), LESS_LOFT)),
    "sheepfold-wall": (HIGHER, (more("swing_length"), MORE_LOFT, more("ball_position"))),
    "the-shelf": (STRIKE, (less("shaft_lean"), more("swing_length"), more("depth"))),
    "anywhere-green": (STRIKE, (less("ball_position"), less("swing_length"), LESS_LOFT)),
    "long-green": (LEAVE, (less("ball_position"), more("swing_length"), LESS_LOFT)),
    "over-the-ridge": (GOALS, (LESS_LOFT, less("ball_position"), more("swing_length"))),
    "over-the-bunker": (MATCH, (more("face_open"), less("shaft_lean"), more("swing_length"))),
    "the-hummock": (STRIKE, (more("face_open"), less("shaft_lean"), more("swing_length"))),
    "short-sided": (STRIKE, (more("ball_position"), more("face_open"), more("swing_length"))),
    "thick-collar": (STRIKE, (MORE_LOFT, less("shaft_lean"), less("swing_length"))),
    "greenside-sand": (CLEAR, (less("shaft_lean"), more("swing_length"), more("face_open"))),
    "fried-egg": (STRIKE, (less("ball_position"), more("swing_length"), more("depth"))),
    "old-divot": (STRIKE, (less("swing_length"), more("shaft_lean"), less("ball_position"))),
    "after-rain": (LEAVE, (more("swing_length"), LESS_BOUNCE, more("depth"))),
    "quick-and-down": (STRIKE, (less("ball_position"), less("shaft_lean"), less("swing_length"))),
    "up-the-bank": (STRIKE, (Part(course=on_level_ground), less("ball_position"), more("swing_length"))),
    "north-wind": (STRIKE, (Part(course=still_air), more("swing_length"), less("ball_position"))),
    "downhill-lie": (HIGHER, (Part(course=on_level_ground), more("ball_position"), more("swing_length"))),
    "hold-it-off": (MATCH, (less("swing_length"), less("release"), more("shaft_lean"))),
    "soft-hands": (MATCH, (more("ball_position"), more("release"), more("swing_length"))),
    "steady-handle": (MATCH, (more("swing_length"), more("shaft_lean"), more("lean_change"))),
    "front-pin": (CLEAR, (more("ball_position"), more("swing_length"), more("face_open"))),
    "last-green": (GOALS, (less("swing_length"), less("ball_position"), less("shaft_lean"))),
}
ASKS_A_FACT = {"back-tier"}


def _asked(s: Stand, what: str) -> Goal:
    """The part of the goal that the question asks about."""
    goal = s.made.goal
    return {
        GOALS: goal,
        STRIKE: Goal(strike=goal.strike or "solid"),
        LEAVE: Goal(leave_m=goal.leave_m or 3.0),
        MATCH: Goal(match_deg=goal.match_deg or 3.0),
        CLEAR: Goal(must_clear=goal.must_clear, strike=None if goal.must_clear else "solid"),
    }[what]


def _nearness(s: Stand, what: str, case: Case) -> Floats:
    """How near each stroke of the scenario's player comes to what is asked, shape (n,)."""
    goal, (stroke, course) = _asked(s, what), case
    player = s.made.player
    facts = cloud_facts(goal, course, stroke.setup, stroke.motion, PLAYERS[player], 0, COUNT[player])
    return closeness(goal, facts)


def _best(s: Stand, what: str, part: Part) -> Floats:
    return max((_nearness(s, what, case) for case in part.cases(s)), key=lambda near: float(near.mean()))


def _launch_gained(s: Stand, what: str, part: Part) -> float:
    """Most degrees that this part alone turns the launch the way that is asked; a missed ball gains none."""
    first, *others = (s.shot(stroke, course).launch for stroke, course in part.cases(s))
    assert first is not None
    sign = 1.0 if what == HIGHER else -1.0
    gains = [sign * float(np.degrees(o.angle - first.angle)) for o in others if o is not None]
    return max([0.0, *gains])


def test_every_scenario_has_its_quiz_here() -> None:
    assert {f"harrow-fen-{name}" for name in QUIZZES.keys() | ASKS_A_FACT} == set(library())


@pytest.mark.parametrize("name", QUIZZES)
def test_right_answer_is_the_replayed_cause(name: str) -> None:
    s = stand(name)
    assert s.made.question is not None
    what, parts = QUIZZES[name]
    right = s.made.question.right - 1
    others = [i for i in range(3) if i != right]
    if what in (LOWER, HIGHER):
        gained = [_launch_gained(s, what, part) for part in parts]
        assert all(gained[right] > gained[i] + CLEARLY for i in others), gained
        return
    near = [_best(s, what, part) for part in parts]
    start = _nearness(s, what, (s.start, s.course))
    for other in (start, *(near[i] for i in others)):
        ahead = near[right] - other
        error = float(ahead.std() / np.sqrt(len(ahead)))
        assert ahead.mean() > max(SURE * error, 0.01), [float(n.mean()) for n in (start, *near)]


def test_the_running_shot_keeps_more_balls_dry() -> None:
    """Back step: the reference against the best high flight to the flagstick, and the two false answers."""
    s = stand("back-tier")
    assert s.made.question is not None
    assert "Fewer of its misses reach the water" in s.made.question.choices[s.made.question.right - 1]
    assert s.made.hole is not None
    flying = changed(s.matched, "LW", ball_position_cm=3.0, shaft_lean_deg=5.5, follow_through=0.4)
    flown = s.many(s.swing_for(flying, s.made.hole.x_m - 0.5))
    run_up = s.many(s.matched)
    wet, dry = np.mean(flown.code == WATER), np.mean(run_up.code == WATER)
    assert wet > 0.05
    assert dry < 0.03
    assert np.mean(run_up.code == HOLED) < 0.2, "it does not always go in"
    before_step = (run_up.rest > 10.0) & (run_up.rest < 14.0)
    assert before_step.mean() < 0.5, "the step does not stop every ball"
