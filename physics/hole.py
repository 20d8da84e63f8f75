"""The hole of the Rules and its flagstick, cut by the plane of the ball's path: measures and materials.

A path that passes the middle at `offset` crosses the hole on a chord of half width
sqrt(R_h^2 - offset^2). A ball off the middle is also turned sideways by the rim and lips out, which a
plane cannot show; the opening is narrowed for it, so that capture falls off as published.
"""

from math import sqrt

from physics.compiled import law
from physics.constants import GRAVITY, INCH
from physics.equipment import BALL_RADIUS, FLAGSTICK, HOLE_RADIUS

__all__ = [
    "EDGE", "LINER_DEPTH", "LINER_RESTITUTION", "RIM_FRICTION", "RIM_RESTITUTION", "ROUNDING",
    "STICK_FRICTION", "STICK_REACH", "free_fall_limit", "half_chord", "half_width", "stick_met",
]  # fmt: skip

EDGE = 0.005  # m of ground beside the opening that belongs to the hole, assumed
ROUNDING = 0.5e-3  # m, assumed: edges of turf are not knives
# Assumed: the soil at the rim hardly springs. Chosen so that the fastest ball that falls in over the middle
# is near 1.63 m/s (Holmes 1991, from memory): 1.66; restitution 0 gives 1.62, 0.1 gives 1.72 (measured here).
RIM_RESTITUTION = 0.05
RIM_FRICTION = 0.3  # assumed; of no effect on capture above 0.2
LINER_DEPTH = INCH  # m below the ground, Rules of Golf: a liner lies at least this deep (from memory)
LINER_RESTITUTION = 0.4  # assumed: plastic
# Fitted here to 1.63 (1 - (offset / R_h)^2) m/s (Penner 2002, from memory). At 0.76 R_h the opening is as
# tight as a plane allows; further off a ball passes here. Slower than published, it never comes here: the
# walk over the ground drops it (physics.run).
NARROWING = 0.0564  # m
TIGHTEST = 0.022  # m
PASSING = 0.77
# Assumed, none measured that we know of: restitution 0.3-0.5. At these values the fastest ball that a
# stick dead in its way drops into the hole was measured at 2.6 m/s; with a friction of 0.1 it would be 1.8.
STICK_RESTITUTION = 0.3
STICK_FRICTION = 0.0
STICK_REACH = BALL_RADIUS + FLAGSTICK.radius  # m, sideways offset within which the stick is met


@law
def half_chord(offset: float) -> float:
    """Half the way across the hole (m) on a line passing its centre at `offset`; 0 when it misses."""
    return sqrt(HOLE_RADIUS * HOLE_RADIUS - offset * offset) if abs(offset) < HOLE_RADIUS else 0.0


@law
def half_width(offset: float) -> float:
    """Half the opening (m) for a path at `offset` (m) from the middle of the hole; 0 = the ball passes.

    Narrowed from R_h by NARROWING (offset / R_h)^2, but never below what lets the ball through.
    """
    share = abs(offset) / HOLE_RADIUS
    return max(HOLE_RADIUS - NARROWING * share * share, TIGHTEST) if share < PASSING else 0.0


@law
def stick_met(offset: float) -> tuple[float, float, bool]:
    """Reach (m) of the stick for the ball's centre (0: not met), share of speed kept, and whether it passes.

    Seen from above the blow turns by phi, sin phi = offset / (R + r_stick). cos^2 phi of it acts along the
    path, so the ball comes back while (1 + e) cos^2 phi > 1; else it passes. It leaves with
    v sqrt(e^2 cos^2 phi + sin^2 phi) in its new direction (derived); the plane turns with it, so that no
    speed is lost from sight.
    """
    if abs(offset) >= STICK_REACH:
        return 0.0, 1.0, True
    share = offset / STICK_REACH
    facing = 1.0 - share * share
    kept = sqrt(STICK_RESTITUTION * STICK_RESTITUTION * facing + 1.0 - facing)
    return STICK_REACH * sqrt(facing), kept, (1.0 + STICK_RESTITUTION) * facing < 1.0


def free_fall_limit(half: float) -> float:
    """Fastest ball (m/s) whose centre falls to the far rim's level over a chord of half width `half` (m).

    It has 2 half - R of way while it falls by R (derived; 1.314 m/s over the middle, 1.31 quoted
    from Holmes 1991, from memory).
    """
    return (2.0 * half - BALL_RADIUS) * sqrt(GRAVITY / (2.0 * BALL_RADIUS))
