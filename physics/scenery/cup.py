"""Hole and flagstick as pymunk solids: used where other scenery overlaps them; elsewhere `physics.cup` rules.

The law is tested against these solids.
"""

from physics.course import Course, Hole
from physics.equipment import BALL, FLAGSTICK, HOLE_DEPTH, HOLE_RADIUS
from physics.hole import (
    EDGE,
    LINER_DEPTH,
    LINER_RESTITUTION,
    RIM_FRICTION,
    RIM_RESTITUTION,
    ROUNDING,
    STICK_FRICTION,
    half_chord,
    half_width,
    stick_met,
)
from physics.scenery.region import MARGIN, Cup, Graze, SceneryRegion
from physics.scenery.solid import Solid, ground_height, turf

__all__ = ["hole", "opening"]


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

    The banks brake no roll: where the opening is narrowed, they stand where there is no ground. They end in
    the rim's point; the soil starts a rounding below, or a ball rolling in would stumble over its upper end.
    """
    left, right = cup.left - ROUNDING, cup.right + ROUNDING
    tops = ground_height(course, cup.left) - 2 * ROUNDING, ground_height(course, cup.right) - 2 * ROUNDING
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
    """The stick as a post, or as a graze when the ball is turned aside more than stopped."""
    near, kept, passes = stick_met(offset)
    if near == 0.0:
        return (), None
    top = cup.rim + FLAGSTICK.height
    if passes:
        return (), Graze(x, near, top + BALL.radius, kept)
    half = near - BALL.radius
    return (Solid("stick", ((x, cup.floor), (x, top - half)), half, kept, STICK_FRICTION),), None


def hole(course: Course, item: Hole, offset: float) -> SceneryRegion | None:
    """Cup, rim and flagstick on a path at `offset` (m) from the middle; None beside the hole.

    The box spans the true chord. On a path so far off that the ball passes it holds level turf only.
    """
    if abs(offset) >= HOLE_RADIUS:
        return None
    chord = half_chord(offset)
    left, right = item.x - chord - EDGE, item.x + chord + EDGE
    low, high = sorted((ground_height(course, left), ground_height(course, right)))
    cup = opening(course, item, offset)
    post, graze = _stick(item.x, cup, offset) if cup and item.flagstick else ((), None)
    top = high + (FLAGSTICK.height if post or graze else 0.0) + BALL.radius + MARGIN
    box = (left, low - HOLE_DEPTH - MARGIN, right, top)
    return SceneryRegion("hole", box, (_lining(course, cup) if cup else ()) + post, cup=cup, graze=graze)
