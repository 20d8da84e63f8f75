"""Real shots to draw, played once."""

from functools import cache
from math import radians

from physics.address import Motion, Setup
from physics.course import level_course
from physics.results import Shot
from physics.shot import play

__all__ = ["chip", "leaning", "over"]


@cache
def chip() -> Shot:
    """A plain chip."""
    return play(level_course("fairway", 8.0), Setup(), Motion())


@cache
def leaning() -> Shot:
    """The same with the handle coming back nine degrees further forward."""
    return play(level_course("fairway", 8.0), Setup(), Motion(lean_change=radians(9)))


@cache
def over() -> Shot:
    """The club aimed far over the ball: it is missed."""
    return play(level_course("fairway", 8.0), Setup(), Motion(depth=-0.06))
