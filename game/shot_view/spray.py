"""How loosened turf and sand fly and lie: pymunk bodies, stepped once a shot into a track to look up.

For the picture only. Pieces touch the ground and not one another, so each has its own clock that starts
when it is cut loose, and scrubbing back and forth shows the same flight.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import cos, exp, inf, sin

import numpy as np
import pymunk
from numpy.typing import NDArray
from pymunk import batch

from game.draw.turf import divot_floor
from game.shot_view.spray_seed import Clod, clods_of
from physics.constants import GRAVITY
from physics.results import Shot
from physics.shot import lie_of

__all__ = ["STEP", "Track", "ground_under", "throw"]

Floats = NDArray[np.float64]
Point = tuple[float, float]

STEP = 1.0 / 500.0  # s
KEPT = 2  # steps between samples of the track
LONGEST = 1.6  # s a piece may fly and tumble
DRAG_TIME = 0.9  # s in which the air takes a piece's speed down to a third, assumed
GRIP, BOUNCE = 0.9, 0.12  # of a piece on grass or sand, assumed
SOLID = 0.010  # m, half the thickness of the crust that holds, more than any piece falls in a step
REACH = 4.0  # m of ground either side of the ball that pieces may come to lie on
ASLEEP = 0.04, 0.1  # s below so many m/s after which a piece lies still
LYING = 2e-3  # m from its last place a piece counts as lying there
SETTLE = 1e-28  # share of an overlap left after a second: pushed out within some 15 ms


@dataclass(frozen=True, eq=False)
class Track:
    """Flights of all pieces: x, y (m, of the world) and angle (rad), one row a sample of `step` s since
    each piece was cut loose, one column a piece."""

    pieces: tuple[Clod, ...]
    step: float
    x: Floats
    y: Floats
    angle: Floats
    born: Floats  # s on the shot's line

    @cached_property
    def _landings(self) -> list[float]:
        away = np.hypot(self.x - self.x[-1], self.y - self.y[-1]) > LYING
        last = np.where(away.any(axis=0), len(self.x) - np.argmax(away[::-1], axis=0), 0)
        return [float(v) * self.step for v in last]

    def landed(self, piece: int) -> float:
        """Age (s) at which a piece has come to where it stays."""
        return self._landings[piece]

    def at(self, time: float, still: bool = False) -> tuple[NDArray[np.intp], Floats, Floats, Floats]:
        """Pieces loose at a time (s), and their x, y and angle. `still`: where they come to rest."""
        loose = np.flatnonzero(self.born <= time)
        if still:
            return loose, self.x[-1, loose], self.y[-1, loose], self.angle[-1, loose]
        age = np.minimum((time - self.born[loose]) / self.step, len(self.x) - 1.0)
        k = np.minimum(age.astype(int), max(len(self.x) - 2, 0))
        share, after = age - k, np.minimum(k + 1, len(self.x) - 1)
        now = [v[k, loose] + share * (v[after, loose] - v[k, loose]) for v in (self.x, self.y, self.angle)]
        return loose, now[0], now[1], now[2]


def ground_under(shot: Shot) -> list[Point]:
    """The ground (m, of the world) after the strike, left to right."""
    ground, (xs, ys) = shot.course.ground, divot_floor(shot)
    cut = list(zip(xs[::4].tolist(), ys[::4].tolist(), strict=True))
    gx, gy = np.asarray(ground.x), np.asarray(ground.y)
    free = [(float(x), float(y)) for x, y in zip(gx, gy, strict=True) if -REACH < x < REACH]
    ends = [(x, float(np.interp(x, gx, gy))) for x in (-REACH, REACH)]
    if cut:
        ends += [(x, float(np.interp(x, gx, gy))) for x in (cut[0][0] - 0.004, cut[-1][0] + 0.004)]
        free = [p for p in free if not cut[0][0] - 0.004 < p[0] < cut[-1][0] + 0.004]
    return sorted({*free, *ends, *cut})


def throw(shot: Shot) -> Track:
    """Fly every piece of the shot. Pure: the same shot gives the same track."""
    clods = clods_of(shot)
    born = np.array([c.born for c in clods])
    if not clods:
        none = np.zeros((1, 0))
        return Track((), STEP, none, none, none, born)
    _, low, tilt = lie_of(shot.course)
    space = _space(ground_under(shot))
    for clod in clods:
        _add(space, clod, low, tilt)
    rows = _flown(space, len(clods))
    return Track(clods, KEPT * STEP, rows[:, :, 0], rows[:, :, 1], rows[:, :, 2], born)


def _space(ground: list[Point]) -> pymunk.Space:
    """Air that slows and ground that holds."""
    space = pymunk.Space(threaded=False)
    space.gravity = 0.0, -GRAVITY
    space.damping = exp(-1.0 / DRAG_TIME)
    space.iterations = 4
    space.collision_slop = 1e-4
    space.collision_bias = SETTLE
    space.sleep_time_threshold, space.idle_speed_threshold = ASLEEP
    line = np.array(ground)
    tangent = np.gradient(line, axis=0)  # of both neighbours: round ends then stand out at no corner
    tangent /= np.hypot(*tangent.T)[:, None]
    under = line + SOLID * tangent[:, ::-1] * (1.0, -1.0)
    for a, b in pairwise(under.tolist()):
        part = pymunk.Segment(space.static_body, a, b, SOLID)
        part.friction, part.elasticity = GRIP, 1.0
        space.add(part)
    return space


def _add(space: pymunk.Space, clod: Clod, low: float, tilt: float) -> None:
    """One piece at its place, off with its speed. Only clumps turn."""
    c, s = cos(tilt), sin(tilt)
    x, y = clod.at
    vx, vy = clod.velocity
    shape: pymunk.Shape
    if clod.outline:
        moment = pymunk.moment_for_poly(clod.area, clod.outline)
        body = pymunk.Body(clod.area, moment)
        shape = pymunk.Poly(body, clod.outline)
    else:
        body = pymunk.Body(clod.area, inf)
        shape = pymunk.Circle(body, clod.radius)
    body.position = x * c - y * s, low + x * s + y * c
    body.velocity = vx * c - vy * s, vx * s + vy * c
    body.angle, body.angular_velocity = tilt, clod.turning
    shape.friction, shape.elasticity = 1.0, BOUNCE
    shape.filter = pymunk.ShapeFilter(group=1)
    space.add(body, shape)


def _flown(space: pymunk.Space, count: int) -> Floats:
    """Samples of x, y, angle of every piece, shape (samples, count, 3), until all lie still."""
    bodies = list(space.bodies)
    rows = [np.array([(*b.position, b.angle) for b in bodies])]
    fields = batch.BodyFields.BODY_ID | batch.BodyFields.POSITION | batch.BodyFields.ANGLE
    buffers, own = batch.Buffer(), np.array([b.id for b in bodies])
    order = np.argsort(own)
    for k in range(round(LONGEST / STEP)):
        space.step(STEP)
        if k % KEPT != KEPT - 1:
            continue
        buffers.clear()
        batch.get_space_bodies(space, fields, buffers)
        ids = np.frombuffer(buffers.int_buf(), dtype=np.intp)
        values = np.frombuffer(buffers.float_buf(), dtype=np.float64).reshape(-1, 3)
        row = np.empty((count, 3))
        mine = np.isin(ids, own)  # the ground is a body too
        row[order] = values[mine][np.argsort(ids[mine])]
        rows.append(row)
        if k % 25 == KEPT - 1 and all(b.is_sleeping for b in bodies):
            break
    return np.array(rows)
