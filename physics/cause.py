"""What a shot is judged by: the lean that came back against the lean that was set, and the ground it met."""

from bisect import bisect_right
from math import degrees, isnan

from physics.course import Course
from physics.results import Shot
from physics.surfaces import MAT, SAND, SURFACES, Surface

__all__ = ["CLOSE", "FIGHTING", "MATCHED", "ground_of", "lean_match", "lie_surface"]

MATCHED, CLOSE, FIGHTING = 1.0, 3.0, 6.0  # degrees of lean back to address, common practice


def ground_of(course: Course) -> str:
    """What the ball lies on and the club goes through, in a word: turf, sand or mat."""
    return {SAND: "sand", MAT: "mat"}.get(lie_surface(course).kind, "turf")


def lie_surface(course: Course) -> Surface:
    """The surface the ball lies on."""
    ground = course.ground
    at = min(max(bisect_right(ground.x, 0.0) - 1, 0), len(ground.surfaces) - 1)
    return SURFACES[course.lie.surface or ground.surfaces[at]]


def lean_match(shot: Shot) -> str:
    """The coach's check: shaft lean back at the ball against address (common practice).

    >>> from physics.address import Motion, Setup
    >>> from physics.course import level_course
    >>> from physics.shot import play
    >>> lean_match(play(level_course("fairway", 8.0), Setup(), Motion(lean_change=0.15)))
    'fighting itself'
    """
    if isnan(shot.strike.lean):
        return "not met"
    off = abs(degrees(shot.strike.lean - shot.setup.shaft_lean))
    if off <= MATCHED:
        return "matched"
    if off <= CLOSE:
        return "close"
    return "fighting itself" if off > FIGHTING else "apart"
