"""The space in which one ball meets solids: what is near, and one step.

The solver starts each touch from the impulses of the step before and takes them as scaled to an equal
step. Steps in touch therefore have a few fixed lengths, and changing between them starts afresh:
without this a ball could gain energy.
"""

from dataclasses import dataclass
from math import ceil, inf, log2, sqrt
from typing import Any

import pymunk

from physics.ballstate import BallState
from physics.compiled import as_record
from physics.constants import GRAVITY
from physics.course import Course
from physics.equipment import BALL
from physics.scenery.region import Cup, Graze, Leaves, SceneryRegion
from physics.scenery.solid import Box, Solid, turf

__all__ = ["ANY", "GROUND", "OBJECT", "ContactSpace", "Mover", "Near", "step_length"]

TOUCH_STEP = 1.0 / 4000.0  # s, longest step in touch
TOUCH_WAY = 4e-4  # m, longest way in touch
CLEAR_WAY = 0.03  # m, longest way in clear air
BESIDE = 0.3  # m of ground on both sides of a box
BALL_KIND, GROUND, OBJECT = 1, 2, 4
ANY = GROUND | OBJECT
FILTERS = {sort: pymunk.ShapeFilter(mask=sort) for sort in (GROUND, OBJECT, ANY)}


def step_length(gap: float, speed: float) -> float:
    """Longest safe step (s). In touch TOUCH_STEP, halved until the ball goes less than TOUCH_WAY.

    Clear of everything: what a ball thrown straight down needs for half the gap, CLEAR_WAY at most.
    """
    fastest = speed + GRAVITY * TOUCH_STEP
    touch = TOUCH_STEP * 0.5 ** max(0, ceil(log2(TOUCH_STEP * fastest / TOUCH_WAY)))
    way = max(0.0, min(0.5 * gap, CLEAR_WAY))
    return float(max(touch, 2.0 * way / (speed + sqrt(speed * speed + 2.0 * GRAVITY * way) + 1e-12)))


@dataclass(frozen=True)
class Near:
    """Nearest solid of a sort: gap (m), unit vector from it to the ball, the solid (None: none near)."""

    gap: float
    nx: float
    ny: float
    solid: Solid | None


NOTHING = Near(inf, 0.0, 1.0, None)


@dataclass
class Mover:
    """The ball's motion in SI, read from the space once a step: each reading costs as much as a law."""

    x: float
    y: float
    vx: float
    vy: float
    spin: float

    @property
    def speed(self) -> float:
        """Speed of the centre (m/s)."""
        return sqrt(self.vx**2 + self.vy**2)


class ContactSpace:
    """One ball in one region: the space, and the questions the walk asks of it. It serves one ball after
    the other: a canopy is two hundred pieces of wood, and to build them costs more than the ball's way."""

    def __init__(self, found: tuple[SceneryRegion, ...], box: Box, course: Course) -> None:
        self.space = pymunk.Space(threaded=False)
        self.space.collision_slop = 1e-5
        self.space.collision_persistence = 1
        self.solids: dict[pymunk.Shape, Solid] = {}
        cups = [r.cup for r in found if r.cup]
        for solid in (*(s for r in found for s in r.solids), *_ground(course, box, cups)):
            self._add(solid)
        self.cup: Cup | None = cups[0] if cups else None
        self.graze: Graze | None = next((r.graze for r in found if r.graze), None)
        self.leaves: tuple[Leaves, ...] = tuple(r.leaves for r in found if r.leaves)
        self.records: dict[Solid, Any] = {}

    def begin(self, start: BallState) -> None:
        """A ball enters, with a body of its own: nothing is left of the one before."""
        self.space.remove(*self.space.bodies, *(shape for body in self.space.bodies for shape in body.shapes))
        self.last_step = 0.0
        self.ball = Mover(start.x, start.y, start.vx, start.vy, start.spin)
        self.body = pymunk.Body(BALL.mass, BALL.inertia)
        self.body.position = start.x, start.y
        self.body.angular_velocity = start.spin  # counter-clockwise is backspin for a ball moving to +x
        self.circle = pymunk.Circle(self.body, BALL.radius)
        self.circle.elasticity = self.circle.friction = 1.0
        self.circle.filter = pymunk.ShapeFilter(categories=BALL_KIND)
        self.space.add(self.body, self.circle)

    def _add(self, solid: Solid) -> None:
        body, p = self.space.static_body, solid.points
        shape: pymunk.Shape
        if len(p) == 1:
            shape = pymunk.Circle(body, solid.radius, p[0])
        elif len(p) == 2:
            shape = pymunk.Segment(body, p[0], p[1], solid.radius)
        else:
            shape = pymunk.Poly(body, p, radius=solid.radius)
        shape.elasticity, shape.friction = solid.restitution, solid.friction
        shape.filter = pymunk.ShapeFilter(categories=GROUND if solid.surface else OBJECT)
        self.space.add(shape)
        self.solids[shape] = solid

    def near(self, sort: int) -> Near:
        """Nearest solid of the sort within a metre."""
        found = self.space.point_query_nearest((self.ball.x, self.ball.y), 1.0, FILTERS[sort])
        if found is None or found.shape is None:
            return NOTHING
        return Near(found.distance - BALL.radius, *found.gradient, self.solids[found.shape])

    def step(self, dt: float) -> None:
        """Half the kick of gravity, move and touch, the other half."""
        if dt != self.last_step:
            self.space.remove(self.circle)  # forgets the impulses of the last step
            self.space.add(self.circle)
            self.last_step = dt
        kick, ball, body = 0.5 * GRAVITY * dt, self.ball, self.body
        body.velocity = ball.vx, ball.vy - kick
        body.angular_velocity = ball.spin
        self.space.step(dt)
        ball.x, ball.y = body.position
        vx, vy = body.velocity
        ball.vx, ball.vy, ball.spin = vx, vy - kick, body.angular_velocity

    def record(self, solid: Solid) -> Any:
        """The surface of ground as the law of landing reads it."""
        if solid not in self.records:
            self.records[solid] = as_record(solid.surface)
        return self.records[solid]


def _ground(course: Course, box: Box, cups: list[Cup]) -> tuple[Solid, ...]:
    """Ground under and beside the box, less the hole and its banks."""
    left, right = box[0] - BESIDE, box[2] + BESIDE
    if not cups:
        return turf(course, left, right)
    a, b = cups[0].left - 0.2, cups[0].right + 0.2
    return (*turf(course, left, max(left, a)), *turf(course, min(b, right), right))
