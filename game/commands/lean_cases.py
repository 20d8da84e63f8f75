"""One chip played with more and more lean and the same small mistake: what the coach's picture shows."""

from dataclasses import replace
from math import radians

from game.draw.demonstration import Case
from physics.address import Motion, Setup
from physics.cloud import cloud
from physics.course import Course
from physics.shot import play
from physics.spread import PLAYERS

__all__ = ["LEANS", "LOWS", "cases", "forgiven"]

LEANS = (0.0, 3.0, 6.0, 9.0)  # degrees of lean beyond the address
LOWS = (0.006, 0.005, 0.004)  # m the sole may arrive too low: 1 to 1.5 standard deviations of a club player
STROKES = 400  # of each cloud
PLAYER = "club"


def forgiven(course: Course, setup: Setup, motion: Motion) -> float:
    """The largest of LOWS that the chip as it is set still stands: struck solid. The least when none."""
    for low in LOWS:
        if play(course, setup, replace(motion, depth=motion.depth + low)).strike.solid:
            return low
    return LOWS[-1]


def cases(
    course: Course, setup: Setup, motion: Motion, leans: tuple[float, ...] = LEANS,
    low: float | None = None, count: int = STROKES,
) -> tuple[Case, ...]:  # fmt: skip
    """Play the chip at each extra lean (degrees) with the sole `low` m too deep; None: what is forgiven.

    The cloud is aimed as `motion` is: how low a stroke comes in is then the player's own spread.
    """
    out = []
    low = forgiven(course, setup, motion) if low is None else low
    for extra in leans:
        leaning = replace(motion, lean_change=motion.lean_change + radians(extra))
        aimed = play(course, setup, leaning)
        shot = play(course, setup, replace(leaning, depth=motion.depth + low))
        many = cloud(course, setup, leaning, PLAYERS[PLAYER], seed=0, count=count)
        out.append(Case(radians(extra), shot, shot.strike.low - aimed.strike.low, many.solid_share, count))
    return tuple(out)
