"""Which kind of shot a set-up is for, and whether it is matched: what the intended stroke does, unspoilt.

The kind follows from how the ball comes down and runs on a level green, not from the loft in hand: a low
runner lands flat, a high soft shot lands steep and rolls less than it flies (common practice). Matched
is the coach's check: the lean that set-up and motion bring to impact against the lean that was set.
"""

from dataclasses import dataclass
from functools import cache
from math import cos, degrees, inf, isnan, nan, pi, radians, sin
from typing import Any, Literal, get_args

import numpy as np
from numpy.typing import NDArray

from physics.address import Motion, Setup
from physics.cause import CLOSE
from physics.compiled import as_record, law
from physics.corridor import bench, intended_strike, stroke_of
from physics.course import Course, Ground
from physics.equipment import BALL_RADIUS, Club
from physics.run import NO_LOG, run_ball
from physics.shot import lie_of
from physics.sole import Soil
from physics.strike import LOG_COLUMNS
from physics.swing import Stroke
from physics.terrain import Field, build_field

__all__ = [
    "BORDER", "FAMILIES", "HIGH_FROM", "LOW_BELOW", "Family", "Intended", "Kinds", "apart_from",
    "family_of", "is_matched",
]  # fmt: skip

Floats = NDArray[np.float64]
Family = Literal["low", "standard", "high"]
FAMILIES: tuple[Family, ...] = get_args(Family)
LOW_BELOW = radians(33.0)  # landing angle on a level green; assumed: between pitching and gap wedge
HIGH_FROM = radians(45.0)  # assumed
SOFT = 1.0  # roll over carry up to which a steep shot is soft, assumed
BORDER = radians(3.0)  # of either side of a border where both names are right, assumed


@dataclass(frozen=True)
class Intended:
    """What a set-up and its motion mean to do. SI, rad; nan where the ball is not met."""

    lean_added: float  # delivered beyond the promise, the player's habit included
    landing: float  # angle down from the level
    roll: float  # over carry


@law
def _intended(
    club: Any,
    surface: Any,
    lift: float,
    stroke: Stroke,
    green: Field,
    work: Soil,
    log: Floats,
    no_log: Floats,
) -> tuple[float, float, float]:
    """Lean added, landing angle (rad) and roll over carry of the stroke as it is meant."""
    link, speed, angle, spin = intended_strike(club, surface, lift, stroke, work, log)
    added = link.delivered - link.promised
    if speed <= 0.0:
        return added, nan, nan
    run = run_ball(green, 0.0, BALL_RADIUS, speed * cos(angle), speed * sin(angle), spin, 0.0, True, no_log)
    return added, run.landing_angle, (run.x - run.carry) / max(run.carry, 0.01)


@cache
def _green() -> Field:
    return build_field(Course(Ground((-5.0, 400.0), (0.0, 0.0), ("green",))))


@cache
def _record(club: Club) -> Any:
    return as_record(club)


class Kinds:
    """The kinds of set-ups on one course."""

    def __init__(self, course: Course) -> None:
        surface, _, _ = lie_of(course)
        self._surface, self._lift = as_record(surface), course.lie.lift
        self._log = np.zeros((0, LOG_COLUMNS))

    def intended(self, setup: Setup, motion: Motion) -> Intended:
        """What the stroke means to do from this lie."""
        club, stroke = _record(setup.club), stroke_of(setup, motion)
        return Intended(
            *_intended(club, self._surface, self._lift, stroke, _green(), bench(), self._log, NO_LOG)
        )


def family_of(meant: Intended) -> Family:
    """The kind of shot; standard where the ball is not met."""
    if meant.landing < LOW_BELOW:
        return "low"
    return "high" if meant.landing >= HIGH_FROM and meant.roll <= SOFT else "standard"


def is_matched(meant: Intended) -> bool:
    """Whether the handle comes back close to where it was set (common practice: within 3 degrees)."""
    return abs(degrees(meant.lean_added)) <= CLOSE + 1e-9


def apart_from(family: Family, meant: Intended) -> float:
    """How far (degrees) the landing lies outside a family's; 0 inside, and within BORDER of it."""
    if isnan(meant.landing):
        return degrees(pi / 2)
    borders = (-inf, LOW_BELOW, HIGH_FROM, inf)
    low, high = borders[FAMILIES.index(family) :][:2]
    return degrees(max(low - BORDER - meant.landing, meant.landing - high - BORDER, 0.0))
