"""What a ball can touch: solids, and the course's ground as solids.

A solid is one convex shape with a rounding: a disc (one point), a bar (two) or a polygon. The
picture draws the same solids that the ball meets.
"""

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from physics.course import Course
from physics.hole import ROUNDING
from physics.surfaces import SURFACES, Surface, as_played

__all__ = ["Box", "PlanePoint", "Solid", "ground_height", "played_surface", "turf"]

PlanePoint = tuple[float, float]
Box = tuple[float, float, float, float]  # xmin, ymin, xmax, ymax of the ball's centre


@dataclass(frozen=True)
class Solid:
    """One fixed body. `points` in m: 1 a disc, 2 a bar, 3 or more a convex polygon; `radius` rounds it.

    `roll` is the rolling deceleration over g of a ball that it carries. A solid with a `surface` is
    ground: a ball that drops on it obeys the law of landing, its restitution serves slower touches.
    """

    kind: str
    points: tuple[PlanePoint, ...]
    radius: float
    restitution: float
    friction: float
    roll: float = 0.05  # assumed: wood and boards, close to a green
    surface: Surface | None = None


def ground_height(course: Course, x: float) -> float:
    """Height (m) of the profile at x; level beyond its ends."""
    xs, ys = course.ground.x, course.ground.y
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    i = bisect_right(xs, x) - 1
    return ys[i] + (ys[i + 1] - ys[i]) * (x - xs[i]) / (xs[i + 1] - xs[i])


def played_surface(course: Course, x: float) -> Surface:
    """Surface at x, as it plays today."""
    names = course.ground.surfaces
    i = min(max(bisect_right(course.ground.x, x) - 1, 0), len(names) - 1)
    return as_played(SURFACES[names[i]], course.green_speed, course.firmness)


def _bar(course: Course, a: float, b: float) -> Solid:
    """Ground from a to b (m, within one stretch), its rounded upper side on the profile."""
    rise, run = ground_height(course, b) - ground_height(course, a), b - a
    length = hypot(run, rise)
    dx, dy = ROUNDING * rise / length, -ROUNDING * run / length
    ya, yb = ground_height(course, a), ground_height(course, b)
    skin = played_surface(course, 0.5 * (a + b))
    ends = ((a + dx, ya + dy), (b + dx, yb + dy))
    return Solid("turf", ends, ROUNDING, 0.0, skin.slide, skin.roll, skin)


def turf(course: Course, left: float, right: float) -> tuple[Solid, ...]:
    """Ground from left to right (m) as bars, one a stretch of the profile."""
    cuts = [left, *(x for x in course.ground.x if left < x < right), right]
    return tuple(_bar(course, a, b) for a, b in pairwise(cuts) if b - a > 1e-9)
