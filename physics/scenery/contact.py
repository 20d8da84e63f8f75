"""A ball among solids, stepped in a pymunk space until they part.

Gravity is given as half a kick before and half after each step, so that free flight between touches
is exact; air drag and lift are left out inside a box (a few centimetres, but for a canopy, where
leaves count for more). In touch a step is at most 1/4000 s and 0.2 mm long; clear of everything it
is at most half the gap, so no speed can tunnel. One thread, fixed order of solids: the same call gives
the same result, bit for bit.
"""

import threading
from dataclasses import dataclass
from math import atan2, copysign, hypot, inf, sqrt

from physics.ballstate import BallState
from physics.bounce import SETTLE, land, plugs
from physics.constants import GRAVITY
from physics.course import Course
from physics.equipment import BALL
from physics.scenery.region import Cup, Graze, Leaves, overlap
from physics.scenery.regions import regions
from physics.scenery.scene import ANY, GROUND, OBJECT, ContactSpace, Mover, Near, step_length
from physics.scenery.solid import Box

__all__ = ["ContactResult", "Sample", "contact"]

Sample = tuple[float, float, float, float, float, float]

NEAR = 5e-4  # m, a gap below this is touch; more than TOUCH_WAY, so that no landing is stepped over
BESIDE_GAP = 1e-3  # m from what a rolling ball has just run into, assumed: more than a step in touch
STILL = 0.01  # m/s, slower than this ...
STILL_TIME = 0.05  # s, ... for so long is rest
LONGEST = 20.0  # s, no contact lasts longer
RATTLE = 0.6  # s that a holed ball is followed for the picture
LOW_HOP = 0.3  # m, a hop lower than this is followed in vacuum, assumed
EVERY = 0.002  # s between samples
SPACES = 16  # spaces that a thread keeps


@dataclass(frozen=True)
class ContactResult:
    """Ball after scenery. `outcome`: 'free' (parted), 'holed' or 'rest' (stays where it is).

    `airborne` tells a flying from a rolling ball; `samples` are (t, x, y, vx, vy, spin) from entry to
    parting; `met` names the kinds of solid that turned the ball, in order, and leaves it went through;
    `met_at` (s) is when each was first met.
    """

    state: BallState
    outcome: str
    airborne: bool
    samples: tuple[Sample, ...]
    met: tuple[str, ...]
    met_at: tuple[float, ...] = ()


def _gone(box: Box, ball: Mover) -> bool:
    """Whether the ball is beyond a side of the box and not coming back over it.

    A low hop over the top that falls back into the box is not a parting.
    """
    x, y, vx, vy = ball.x, ball.y, ball.vx, ball.vy
    over = y >= box[3] and vy >= 0.0
    if over and vy * vy < 2.0 * GRAVITY * LOW_HOP:
        over = not box[0] < x + 2.0 * vx * vy / GRAVITY < box[2]
    aside = (x <= box[0] and vx <= 0.0) or (x >= box[2] and vx >= 0.0)
    return over or aside or (y <= box[1] and vy <= 0.0)


def _rolling_loss(ball: Mover, under: Near, dt: float) -> None:
    """Rolling resistance of what carries the ball: both speed along it and spin lose."""
    if under.solid is None or under.gap > NEAR or under.ny < 0.5:
        return
    loss = under.solid.roll * GRAVITY * under.ny * dt
    along = ball.vx * under.ny - ball.vy * under.nx
    less = copysign(min(abs(along), loss), along)
    ball.vx, ball.vy = ball.vx - less * under.ny, ball.vy + less * under.nx
    ball.spin -= copysign(min(abs(ball.spin), loss / BALL.radius), ball.spin)


def _in_leaves(ball: Mover, leaves: tuple[Leaves, ...], dt: float) -> bool:
    """Speed lost on the way through leaves: dv/ds = -k v, so v falls to v / (1 + k v dt); True inside any."""
    inside = False
    for disc in leaves:
        if disc.per_metre > 0.0 and hypot(ball.x - disc.x, ball.y - disc.y) < disc.radius:
            kept = 1.0 / (1.0 + disc.per_metre * ball.speed * dt)
            ball.vx, ball.vy = ball.vx * kept, ball.vy * kept
            inside = True
    return inside


def _landed(scene: ContactSpace, under: Near) -> tuple[bool, bool]:
    """Apply the law of landing where the ball drops on ground: (landed, plugged)."""
    if under.gap > NEAR:
        return False, False
    ground = under if under.solid and under.solid.surface else scene.near(GROUND)
    ball, solid = scene.ball, ground.solid
    vx, vy = ball.vx, ball.vy
    if solid is None or ground.gap > NEAR or vx * ground.nx + vy * ground.ny > -SETTLE:
        return False, False
    tilt = atan2(-ground.nx, ground.ny)
    surface = scene.record(solid)
    out = land(vx, vy, ball.spin, tilt, surface)
    ball.vx, ball.vy, ball.spin = out[0], out[1], out[2]
    return True, plugs(vx, vy, out[0] * ground.nx + out[1] * ground.ny, tilt, surface)


def _grazed(ball: Mover, graze: Graze) -> bool:
    """Slow a ball that brushes the stick; True once done."""
    ahead = (graze.x - ball.x) * ball.vx > 0.0
    if abs(ball.x - graze.x) > graze.reach or ball.y > graze.top or not ahead:
        return False
    ball.vx *= graze.passed
    return True


def _caught(ball: Mover, cup: Cup) -> bool:
    """Whether the ball lies so deep in the cup that all its energy cannot lift it to the rim again."""
    if not cup.left < ball.x < cup.right or ball.y > cup.rim - BALL.radius:
        return False
    share = BALL.inertia / BALL.mass
    lift = (ball.speed**2 + share * ball.spin**2) / (2.0 * GRAVITY)
    return ball.y + lift < cup.rim


class _Walk:
    """The run of one contact: steps, samples and how it ends."""

    def __init__(self, scene: ContactSpace, box: Box, start: float, rattle: float) -> None:
        self.scene, self.box, self.start, self.t = scene, box, start, start
        self.rattle = rattle  # s that a holed ball is followed
        self.samples: list[Sample] = []
        self.met: list[str] = []
        self.met_at: list[float] = []
        self.still = 0.0
        self.caught = inf  # time at which the hole had the ball for good
        self.grazed = scene.graze is None
        self.under = scene.near(ANY)

    def sample(self) -> None:
        ball = self.scene.ball
        self.samples.append((self.t, ball.x, ball.y, ball.vx, ball.vy, ball.spin))

    def run(self) -> str:
        """Step until the ball is free, holed or at rest."""
        self.sample()
        while self.t - self.start < LONGEST:
            self._advance()
            end = self._end()
            if end == "free":
                self.sample()
                return end
            if end:
                return self._stop(end)
        return self._stop("holed" if self.caught < inf else "rest")

    def _stop(self, end: str) -> str:
        """The ball stays: no motion is left in its last sample."""
        ball = self.scene.ball
        ball.vx = ball.vy = ball.spin = 0.0
        self.sample()
        return end

    def _advance(self) -> None:
        scene, ball = self.scene, self.scene.ball
        under = self.under
        dt = step_length(under.gap, ball.speed)
        vx, vy = ball.vx, ball.vy
        scene.step(dt)
        self.t += dt
        turned = sqrt((ball.vx - vx) ** 2 + (ball.vy - vy) ** 2) > 0.02 + GRAVITY * dt
        if turned:
            self._meet_turning(under)
        _rolling_loss(ball, under, dt)
        if _in_leaves(ball, scene.leaves, dt) and "leaves" not in self.met:
            self._meet("leaves")
        if scene.graze and not self.grazed and _grazed(ball, scene.graze):
            self.grazed = True
            self._meet("stick")
        self.under = scene.near(ANY)
        if turned or self.t - self.samples[-1][0] >= EVERY:
            self.sample()
        self._count_still(dt)

    def _meet_turning(self, under: Near) -> None:
        """Note what turned the ball: what it was nearest to, or what it ran into along the ground."""
        if under.solid and not under.solid.surface:
            self._meet(under.solid.kind)
            return
        beside = self.scene.near(OBJECT)
        if beside.solid and beside.gap < BESIDE_GAP:
            self._meet(beside.solid.kind)

    def _meet(self, kind: str) -> None:
        if not self.met or self.met[-1] != kind:
            self.met.append(kind)
            self.met_at.append(self.t)

    def _count_still(self, dt: float) -> None:
        ball = self.scene.ball
        slow = ball.speed < STILL and abs(ball.spin) * BALL.radius < STILL
        self.still = self.still + dt if slow and self.under.gap < NEAR else 0.0

    def _end(self) -> str:
        scene, ball = self.scene, self.scene.ball
        landed, plugged = _landed(scene, self.under)
        if landed:
            self.sample()
        if scene.cup and self.caught == inf and _caught(ball, scene.cup):
            self.caught = self.t
        if self.caught < inf:
            return "holed" if self.still > STILL_TIME or self.t >= self.caught + self.rattle else ""
        if plugged or self.still > STILL_TIME:
            return "rest"
        return "free" if _gone(self.box, ball) else ""


class _Kept(threading.local):
    """The last few spaces of a thread, each with its box."""

    def __init__(self) -> None:
        self.spaces: dict[tuple[Course, int, int], tuple[ContactSpace, Box]] = {}


_kept = _Kept()


def _space(course: Course, box: int, offset: float, seed: int) -> tuple[ContactSpace, Box]:
    """The space of a box, kept for the next ball unless the hole is in it: that is another for every path."""
    key = (course, box, seed)
    if key in _kept.spaces:
        return _kept.spaces[key]
    found = regions(course, offset, seed)
    own = found[box]
    made = ContactSpace(tuple(r for r in found if overlap(r.box, own.box)), own.box, course), own.box
    widest = regions(course, 0.0, seed)  # the hole reaches furthest where the path crosses its middle
    if not any(r.kind == "hole" and overlap(r.box, own.box) for r in widest):
        if len(_kept.spaces) >= SPACES:
            _kept.spaces.pop(next(iter(_kept.spaces)))
        _kept.spaces[key] = made
    return made


def contact(
    course: Course, box: int, state: BallState, offset: float, seed: int, picture: bool = True
) -> ContactResult:
    """Follow the ball through box number `box` of `scenery_boxes(course, offset)` until it parts or stays.

    `state` is the ball as it enters; `offset` (m) how far beside the middle of the hole its path
    passes; `seed` grows the branches of a tree. Without `picture` a
    holed ball is not followed to the bottom; nothing else differs. Energy never rises. IndexError
    for a box that is not there.
    """
    scene, around = _space(course, box, offset, seed)
    scene.begin(state)
    walk = _Walk(scene, around, state.t, RATTLE if picture else 0.0)
    outcome = walk.run()
    last = BallState(*walk.samples[-1])
    under = walk.under
    rising = last.vx * under.nx + last.vy * under.ny
    airborne = outcome == "free" and (under.gap > 1e-3 or rising > SETTLE or under.ny < 0.5)
    return ContactResult(last, outcome, airborne, tuple(walk.samples), tuple(walk.met), tuple(walk.met_at))
