"""Which kind of shot a set-up is for: low, standard or high, by the loft it means to bring to the ball.

The planned loft is that of the face as it is opened, less the shaft lean at address and less the change
of lean the stroke intends. It is the one number in which club, face and hands agree, it is known before
the swing, and it sets height and roll (common practice: the less loft, the lower and the longer the run).
"""

from math import degrees, inf, radians
from typing import Literal, get_args

from physics.address import Motion, Setup
from physics.face import open_face

__all__ = ["EDGE", "FAMILIES", "HIGH_FROM", "LOW_BELOW", "Family", "apart_from", "family_of", "planned_loft"]

Family = Literal["low", "standard", "high"]
FAMILIES: tuple[Family, ...] = get_args(Family)
LOW_BELOW = radians(40.0)  # assumed: with HIGH_FROM, 27 of the 29 built-in references keep their name
HIGH_FROM = radians(53.0)  # assumed
EDGE = radians(3.0)  # of either side of a border where both names are right, assumed


def planned_loft(setup: Setup, motion: Motion) -> float:
    """Loft (rad) that the set-up and the intended stroke bring to the ball."""
    return open_face(setup.club, setup.face_open).loft - setup.shaft_lean - motion.lean_change


def family_of(setup: Setup, motion: Motion) -> Family:
    """The kind of shot of a set-up and the stroke intended with it."""
    loft = planned_loft(setup, motion)
    return "low" if loft < LOW_BELOW else "standard" if loft < HIGH_FROM else "high"


def apart_from(family: Family, setup: Setup, motion: Motion) -> float:
    """How far (degrees) the planned loft lies outside a family's; 0 inside, and within EDGE of it."""
    loft = planned_loft(setup, motion)
    borders = (-inf, LOW_BELOW, HIGH_FROM, inf)
    low, high = borders[FAMILIES.index(family) :][:2]
    return degrees(max(low - EDGE - loft, loft - high - EDGE, 0.0))
