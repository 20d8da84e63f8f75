"""The first minute: what a pupil is asked to try next, and what has been worked out to come of it.

Every promise is the very stroke that will be played, strays included, worked out before it is made.
"""

from dataclasses import dataclass
from enum import StrEnum
from math import degrees, radians

from levels.lessons import Share
from physics.address import CONTROLS, Intention
from physics.cloud import cloud
from physics.course import Course
from physics.results import Shot, TurfAction
from physics.shot import play
from physics.spread import Spread

__all__ = [
    "HIDES", "LEAN", "NextMove", "NextThing", "dug_in", "lean_that_digs", "lean_that_mends", "solid_with",
]  # fmt: skip

LEAN = "lean_change"  # the control the lesson is about
LEAST, MOST = 6, round(degrees(CONTROLS[LEAN].high))  # degrees of added lean tried for a dig
MENDS = (0.0, 3.0, 6.0, 9.0)  # degrees tried for a stroke that comes off, the matched one first
HIDES = radians(12.0)  # added lean that is counted where no lean digs
COUNTED = 400  # strokes


class NextMove(StrEnum):
    """What the pupil is asked to do."""

    ADD = "add lean"  # the stroke will dig
    LIE = "go to another lie"  # here it hides; there it digs
    MEND = "take lean out"  # the stroke will come off
    FEWER = "take lean out, counted"  # the next one still fails; more come off


@dataclass(frozen=True)
class NextThing:
    """`value` (rad) of added lean, `lie` for NextMove.LIE. `now` and `then`: solid shares with the lean there
    is (none added for LIE) and with what is spoken of; counted where one stroke does not say it."""

    asked: NextMove
    value: float = 0.0
    lie: str = ""
    now: Share | None = None
    then: Share | None = None


def dug_in(shot: Shot) -> bool:
    """Whether the edge dug and spoilt the stroke."""
    return shot.strike.turf is TurfAction.DIG and not shot.strike.solid


def lean_that_digs(course: Course, stroke: Intention, spread: Spread, seed: int) -> float | None:
    """The least added lean (rad, whole degrees) from which on, to the control's end, this stroke digs."""
    found = None
    for lean in range(MOST, LEAST - 1, -1):
        if not dug_in(_played(course, stroke, spread, seed, radians(lean))):
            break
        found = radians(lean)
    return found


def lean_that_mends(course: Course, stroke: Intention, spread: Spread, seed: int) -> float | None:
    """The first of MENDS (rad), less than there is, with which this stroke is struck solid."""
    less = [radians(lean) for lean in MENDS if radians(lean) < stroke.value(LEAN)]
    return next((v for v in less if _played(course, stroke, spread, seed, v).strike.solid), None)


def solid_with(course: Course, stroke: Intention, spread: Spread, lean: float) -> Share:
    """How often the stroke is solid with so much lean added (rad)."""
    with_lean = stroke.with_value(LEAN, lean)
    many = cloud(course, with_lean.setup, with_lean.motion, spread, 0, COUNTED)
    return Share(many.solid_share, COUNTED)


def _played(course: Course, stroke: Intention, spread: Spread, seed: int, lean: float) -> Shot:
    with_lean = stroke.with_value(LEAN, lean)
    return play(course, with_lean.setup, with_lean.motion, spread, seed)
