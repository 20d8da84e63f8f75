"""The hole of the Rules and its flagstick, cut by the plane of the ball's path.

A path that passes the middle at `offset` crosses the hole on a chord of half width
sqrt(R_h^2 - offset^2). A ball off the middle is also turned sideways by the rim and lips out, which a
plane cannot show; the opening is narrowed for it, so that capture falls off as published.
"""

from math import sqrt

from physics.course import Course, Hole
from physics.equipment import BALL, FLAGSTICK, HOLE_DEPTH, HOLE_RADIUS
from physics.scenery.region import MARGIN, Cup, Graze, Region
from physics.scenery.solid import GRAVITY, ROUNDING, Solid, ground_height, turf

__all__ = ["free_fall_limit", "half_width", "hole", "opening"]

EDGE = 0.005  # m of ground beside the opening that belongs to the hole, assumed
# Assumed: the soil at the rim hardly springs. Chosen so that the fastest ball that falls in over the middle
# is near 1.63 m/s (Holmes 1991, from memory); restitution 0 gives 1.60, 0.1 gives 1.70 (measured here).
RIM_RESTITUTION = 0.05
RIM_FRICTION = 0.3  # assumed; of no effect on capture above 0.2
LINER_DEPTH = 0.0254  # m below the ground, Rules of Golf: a liner lies at least this deep (from memory)
LINER_RESTITUTION = 0.4  # assumed: plastic
# Fitted here to 1.63 (1 - (offset / R_h)^2) m/s (Penner 2002, from memory). At 0.76 R_h the opening is as
# tight as a plane allows; further off a ball passes here. Slower than published, it never comes here: the
# walk over the ground drops it (physics.run).
NARROWING = 0.0564  # m
TIGHTEST = 0.022  # m
PASSING = 0.77
# Assumed, none measured that we know of: restitution 0.3-0.5. At these values the fastest ball that a
# stick dead in its way drops into the hole was measured at 2.5 m/s; with a friction of 0.1 it would be 1.7.
STICK_RESTITUTION = 0.3
STICK_FRICTION = 0.0


def half_width(offset: float) -> float:
    """Half the opening (m) for a path at `offset` (m) from the middle of the hole; 0 = the ball passes.

    Narrowed from R_h by NARROWING (offset / R_h)^2, but never below what lets the ball through.
    """
    share = abs(offset) / HOLE_RADIUS
    return max(HOLE_RADIUS - NARROWING * share**2, TIGHTEST) if share < PASSING else 0.0


def free_fall_limit(half: float) -> float:
    """Fastest ball (m/s) whose centre falls to the far rim's level over a chord of half width `half` (m).

    It has 2 half - R of way while it falls by R (derived; 1.314 m/s over the middle, 1.31 quoted
    from Holmes 1991, from memory).
    """
    return (2.0 * half - BALL.radius) * sqrt(GRAVITY / (2.0 * BALL.radius))


def opening(course: Course, item: Hole, offset: float) -> Cup | None:
    """The cup in the ball's plane; None when the ball passes."""
    half = half_width(offset)
    if half == 0.0:
        return None
    left, right = item.x - half, item.x + half
    rim = min(ground_height(course, left), ground_height(course, right))
    return Cup(left, right, rim, rim - HOLE_DEPTH)


def _lining(course: Course, cup: Cup) -> tuple[Solid, ...]:
    """Ground up to both rims, soil below them, then the liner.

    The banks brake no roll: where the opening is narrowed, they stand where there is no ground.
    """
    left, right = cup.left - ROUNDING, cup.right + ROUNDING
    tops = ground_height(course, cup.left) - ROUNDING, ground_height(course, cup.right) - ROUNDING
    seam, floor = cup.rim - LINER_DEPTH, cup.floor - ROUNDING
    soil = (((left, seam), (left, tops[0])), ((right, seam), (right, tops[1])))
    liner = (((left, floor), (left, seam)), ((right, floor), (right, seam)), ((left, floor), (right, floor)))
    banks = (*turf(course, cup.left - 0.2, left), *turf(course, right, cup.right + 0.2))
    return (
        *(Solid("rim", b.points, ROUNDING, RIM_RESTITUTION, RIM_FRICTION, 0.0) for b in banks),
        *(Solid("rim", s, ROUNDING, RIM_RESTITUTION, RIM_FRICTION) for s in soil),
        *(Solid("cup", s, ROUNDING, LINER_RESTITUTION, RIM_FRICTION) for s in liner),
    )


def _stick(x: float, cup: Cup, offset: float) -> tuple[tuple[Solid, ...], Graze | None]:
    """The stick as a post, or as a graze when the ball is turned aside more than stopped.

    Seen from above the blow turns by phi, sin phi = offset / (R + r_stick). cos^2 phi of it acts along the
    path, so the ball comes back while (1 + e) cos^2 phi > 1. It leaves with v sqrt(e^2 cos^2 phi + sin^2 phi)
    in its new direction (derived); the plane turns with it, so that no speed is lost from sight.
    """
    reach = BALL.radius + FLAGSTICK.radius
    if abs(offset) >= reach:
        return (), None
    facing = 1.0 - (offset / reach) ** 2
    near = reach * sqrt(facing)
    kept = sqrt(STICK_RESTITUTION**2 * facing + 1.0 - facing)
    top = cup.rim + FLAGSTICK.height
    if (1.0 + STICK_RESTITUTION) * facing < 1.0:
        return (), Graze(x, near, top + BALL.radius, kept)
    half = near - BALL.radius
    return (Solid("stick", ((x, cup.floor), (x, top - half)), half, kept, STICK_FRICTION),), None


def hole(course: Course, item: Hole, offset: float) -> Region | None:
    """Cup, rim and flagstick on a path at `offset` (m) from the middle; None beside the hole.

    The box spans the true chord. On a path so far off that the ball passes it holds level turf only.
    """
    if abs(offset) >= HOLE_RADIUS:
        return None
    chord = sqrt(HOLE_RADIUS**2 - offset**2)
    left, right = item.x - chord - EDGE, item.x + chord + EDGE
    low, high = sorted((ground_height(course, left), ground_height(course, right)))
    cup = opening(course, item, offset)
    post, graze = _stick(item.x, cup, offset) if cup and item.flagstick else ((), None)
    top = high + (FLAGSTICK.height if post or graze else 0.0) + BALL.radius + MARGIN
    box = (left, low - HOLE_DEPTH - MARGIN, right, top)
    return Region("hole", box, (_lining(course, cup) if cup else ()) + post, cup=cup, graze=graze)
