"""The ball from launch to rest: flight, landings, slide and roll, and where each hands over.

One walk, one law: picture, cloud and command line all call `run_ball`. Rim and flagstick are a law of
their own (physics.cup). Other rigid scenery (wall, lip, tree) is not walked here: the walk stops where
the ball enters its box with code SCENERY + box and starts again from wherever the scenery leaves the
ball. Where such a box overlaps the hole's, the hole is part of that scenery.
"""

from math import atan2, cos, hypot, nan, sin, sqrt
from typing import NamedTuple

import numpy as np

from physics.bounce import land, plugs, settles
from physics.compiled import law
from physics.constants import GRAVITY
from physics.cup import FLEW_OFF, IN_HOLE, ROLLED_OFF, meet_hole
from physics.equipment import BALL_RADIUS, HOLE_DEPTH, HOLE_RADIUS
from physics.flight import FLIGHT_STEP, fly_step, hermite
from physics.hole import STICK_REACH, half_chord, half_width
from physics.roll import reach_time, roll_pull, slide_pull, slips, slope_holds
from physics.runlog import (
    BOUNCING,
    FLYING,
    NO_LOG,
    RESTING,
    ROLLING,
    SLIDING,
    TOUCHING,
    Floats,
    Instant,
    log_row,
)
from physics.terrain import Field, above_one, clearance, entry, height_at, nearest, segment_at

__all__ = [
    "HOLED", "LOST", "NO_LOG", "OUT", "REST", "SCENERY", "WATER", "BallRun", "capture_speed", "run_ball",
]  # fmt: skip

REST, HOLED, WATER, OUT, LOST, SCENERY = 0, 1, 2, 3, 4, 5
TOUCH, TAKE_OFF, GO_ON = -1, -2, -3  # inside the walk only

CAPTURE = 1.31  # m/s, free fall past the middle of the hole; Holmes 1991 (from memory), derived 1.314
TIME_LIMIT = 120.0  # s
HOP = 0.15  # m/s off the next ground that lifts the ball at a ridge, assumed
STILL = 0.01  # m/s, slower at the bottom of a hollow is at rest, assumed
LOG_ROLL = 0.020  # s between logged samples on the ground
PIECES = 20_000  # straight pieces rolled or hops flown before the ball is given up
FINE = 1.0 / 64.0  # least share of a step between looks for the ground
GRAZE = 1e-9  # m/s into the ground that counts as meeting it; less is rounding of a ball leaving along it
SUNK = 1e-7  # m in the ground that counts as lying in it; less is rounding
LIFTS = 20  # lifts out of one face after another before the ball counts as out
RIM_WIDTH = 1e-6  # m beyond the rim that still counts as over the hole: a ball left at the rim is on it


@law
def capture_speed(offset: float) -> float:
    """Fastest roll (m/s) that drops on a line `offset` (m) off the hole's middle; Penner 2002 putting."""
    share = offset / HOLE_RADIUS
    return max(0.0, CAPTURE * (1.0 - share * share))


@law
def _inside(field: Field, box: int, x: float, y: float, offset: float) -> bool:
    """Whether the ball's centre is in a box; the hole counts while the centre is over it."""
    if box == field.cup and abs(x - field.hole) < half_chord(offset) + RIM_WIDTH:
        return True
    if box >= field.boxes.shape[0]:
        return False
    b = field.boxes[box]
    return bool(b[0] <= x <= b[2] and b[1] <= y <= b[3])


@law
def _first_box(
    field: Field, x0: float, y0: float, x1: float, y1: float, offset: float, skip: int
) -> tuple[float, int]:
    """Earliest share 0..1 of a straight way at which water or scenery is met (2 if never), and its code."""
    best, code = 2.0, GO_ON
    for i in range(field.water.shape[0]):
        b = field.water[i]
        share = entry(x0, y0, x1, y1, b[0], b[1], b[2], b[3])
        if share < best:
            best, code = share, WATER
    for i in range(field.boxes.shape[0]):
        if i == skip or (i == field.cup and abs(offset) >= STICK_REACH):
            continue
        b = field.boxes[i]
        share = entry(x0, y0, x1, y1, b[0], b[1], b[2], b[3])
        if share < best:
            best, code = share, SCENERY + i
    return best, code


# ---- in the air


@law
def _touch(field: Field, h: float, a: Instant, b: Instant) -> tuple[float, float, int]:
    """Share of the step a to b at which the ball meets the ground moving into it (2 if not), tilt, segment.

    Walks on by the gap over the greatest speed, so it cannot step past a ridge.
    """
    reach = 1.02 * h * max(hypot(a[3], a[4]), hypot(b[3], b[4])) + 1e-6
    if clearance(field, a[1], a[2]) + clearance(field, b[1], b[2]) > reach:
        return 2.0, 0.0, 0
    if above_one(field, a[1], b[1], b[2]):
        return 2.0, 0.0, 0
    q, gap = 0.0, nearest(field, a[1], a[2])[0]
    while q < 1.0:
        ahead = min(1.0, q + max(gap / reach, FINE))
        x, vx = hermite(ahead, h, a[1], a[3], b[1], b[3])
        y, vy = hermite(ahead, h, a[2], a[4], b[2], b[4])
        new, tilt, seg = nearest(field, x, y)
        if new <= 0.0 and vx * sin(tilt) - vy * cos(tilt) > GRAZE:
            return (_refine(field, h, a, b, q, ahead, gap, new) if gap > 0.0 else q), tilt, seg
        q, gap = ahead, new
    return 2.0, 0.0, 0


@law
def _refine(
    field: Field, h: float, a: Instant, b: Instant, low: float, high: float, above: float, below: float
) -> float:
    """Share between low (clear, by `above`) and high (in the ground) where the gap closes; Illinois rule."""
    for _ in range(40):
        mid = (low * below - high * above) / (below - above)
        x, _ = hermite(mid, h, a[1], a[3], b[1], b[3])
        y, _ = hermite(mid, h, a[2], a[4], b[2], b[4])
        gap, _, _ = nearest(field, x, y)
        if gap > 0.0:
            low, above, below = mid, gap, 0.5 * below
            if gap < 1e-10:
                break
        else:
            high, below, above = mid, gap, 0.5 * above
    return low


@law
def _partway(field: Field, h: float, a: Instant, b: Instant, q: float, floor: float) -> Instant:
    """State at share q of a flight step: place by the cubic, the rest by a shorter step."""
    _, _, vx, vy, spin = fly_step(a[1], a[2], a[3], a[4], a[5], q * h, field.wind, floor)
    x, _ = hermite(q, h, a[1], a[3], b[1], b[3])
    y, _ = hermite(q, h, a[2], a[4], b[2], b[4])
    return a[0] + q * h, x, y, vx, vy, spin


@law
def _peak(a: Instant, b: Instant) -> float:
    """Greatest height of the centre during a step."""
    if a[4] > 0.0 > b[4]:
        return a[2] + 0.5 * a[4] * a[4] * (b[0] - a[0]) / (a[4] - b[4])
    return max(a[2], b[2])


@law
def _fly(
    field: Field, state: Instant, offset: float, skip: int, step: float, log: Floats, n: int
) -> tuple[int, Instant, int, int, float, float, int]:
    """Fly until ground (TOUCH), water, scenery or time limit: code, state, skip, n, apex, tilt, segment."""
    apex, floor, tilt, seg = state[2], 0.0, 0.0, 0
    while state[0] < TIME_LIMIT:
        if skip >= 0 and not _inside(field, skip, state[1], state[2], offset):
            skip = -1
        if field.wind != 0.0:
            floor = height_at(field, state[1])
        x, y, vx, vy, spin = fly_step(
            state[1], state[2], state[3], state[4], state[5], step, field.wind, floor
        )
        end = (state[0] + step, x, y, vx, vy, spin)
        q, tilt, seg = _touch(field, step, state, end)
        stop, code = end, GO_ON
        if q <= 1.0:
            stop, code = _partway(field, step, state, end, q, floor), TOUCH
        share, met = _first_box(field, state[1], state[2], stop[1], stop[2], offset, skip)
        if share <= 1.0:
            q = share * min(q, 1.0)
            stop, code = _partway(field, step, state, end, q, floor), met
        apex = max(apex, _peak(state, stop))
        state = stop
        if code != GO_ON:
            return code, state, skip, n, apex, tilt, seg
        n = log_row(log, n, state, FLYING)
    return LOST, state, skip, n, apex, tilt, seg


@law
def _lifted(field: Field, x: float, y: float) -> tuple[float, float, int]:
    """Height at which a ball sunk at (x, y) is out of the ground, straight up; tilt and segment there."""
    gap, tilt, seg = nearest(field, x, y)
    for _ in range(LIFTS):
        if gap >= -SUNK:
            break
        y -= gap / max(0.5, cos(tilt))  # off a ridge or a cliff: in shorter steps
        gap, tilt, seg = nearest(field, x, y)
    return y, tilt, seg


@law
def _land(
    field: Field, state: Instant, tilt: float, seg: int, offset: float, skip: int, log: Floats, n: int
) -> tuple[int, Instant, int, int]:
    """Meet the ground: code (GO_ON: settled, TAKE_OFF: bounced), state, segment, n.

    In a hollow the nearest face may be the one the ball has just left: then `tilt`, `seg` of the
    face it goes into count. A ball that has not left its lie below the surface is lifted onto the
    ground and pays for it; one too slow for that, or plugged, stays as deep as it is.
    """
    t, x, deep, vx, vy, spin = state
    if skip != field.cup and half_width(offset) > 0.0 and abs(x - field.hole) < half_chord(offset):
        return SCENERY + field.cup, state, seg, n
    y, near, under = _lifted(field, x, deep)
    if y > deep or vx * sin(near) - vy * cos(near) > GRAZE:
        tilt, seg = near, under
    surface = field.surfaces[field.ground[seg].surface]
    wx, wy, turn = land(vx, vy, spin, tilt, surface)
    if plugs(vx, vy, wy * cos(tilt) - wx * sin(tilt), tilt, surface):
        n = log_row(log, n, (t, x, deep, wx, wy, turn), BOUNCING)
        return REST, (t, x, deep, 0.0, 0.0, 0.0), seg, n
    if y > deep:
        left = wx * wx + wy * wy - 2.0 * GRAVITY * (y - deep)
        if left <= 0.0:
            return REST, (t, x, deep, 0.0, 0.0, 0.0), seg, n
        slower = sqrt(left / (wx * wx + wy * wy))
        wx, wy = slower * wx, slower * wy
    new = (t, x, y, wx, wy, turn)
    n = log_row(log, n, new, BOUNCING)
    return (GO_ON if settles(wx, wy, tilt) else TAKE_OFF), new, seg, n


# ---- on the ground: segment, place s along it, speed u along it


@law
def _on_ground(field: Field, seg: int, t: float, s: float, u: float, spin: float) -> Instant:
    """State of a ball that touches segment `seg` at s and moves along it at u."""
    c, d = cos(field.ground[seg].tilt), sin(field.ground[seg].tilt)
    x = field.ground[seg].x + s * c - BALL_RADIUS * d
    y = field.ground[seg].y + s * d + BALL_RADIUS * c
    return t, x, y, u * c, u * d, spin


@law
def _piece(field: Field, seg: int, u: float, spin: float) -> tuple[float, float, float, int]:
    """Acceleration, rate of spin, time until slip or motion ends, and way of slip (0: rolling)."""
    tilt, surface = field.ground[seg].tilt, field.surfaces[field.ground[seg].surface]
    way = slips(u, spin, tilt, surface)
    if way == 0:
        a = roll_pull(u, tilt, surface)
        return a, -a / BALL_RADIUS, (-u / a if u * a < 0.0 else np.inf), 0
    a, turn, time = slide_pull(u, spin, way, tilt, surface)
    if u * a < 0.0:
        time = min(time, -u / a)
    return a, turn, time, way


@law
def _moved(u: float, spin: float, a: float, turn: float, time: float, way: int) -> tuple[float, float]:
    """Speed and spin after a piece, free of rounding where motion or slip just ended."""
    v, w = u + a * time, spin + turn * time
    if u * a < 0.0 and abs(v) < 1e-12 * (1.0 + abs(u)):
        v = 0.0
    if way == 0 or abs(v + BALL_RADIUS * w) < 1e-9:
        w = -v / BALL_RADIUS
    return v, w


@law
def _ridge(field: Field, left: int, seg: int, side: int, u: float, spin: float) -> tuple[int, float, float]:
    """Over the knot right of `left`, ground falling away: code and u, spin beyond; u turned if too slow.

    The centre swings about the knot, so it rises or falls by R times the change of the cosine.
    """
    turn = field.ground[left].tilt - field.ground[left + 1].tilt
    here, there = cos(field.ground[seg].tilt), cos(field.ground[seg + side].tilt)
    lifts = u * u > 1.01 * GRAVITY * BALL_RADIUS * here  # else its weight holds it down
    if abs(u) * sin(turn) > HOP and lifts:
        return TAKE_OFF, u, spin
    rolling = abs(u + BALL_RADIUS * spin) < 1e-9
    give = (10.0 / 7.0 if rolling else 2.0) * GRAVITY * BALL_RADIUS
    top = 1.0 if field.ground[left].tilt > 0.0 > field.ground[left + 1].tilt else max(here, there)
    if u * u <= give * (top - here):
        u = -u
        return GO_ON, u, (-u / BALL_RADIUS if rolling else spin)
    u = side * sqrt(u * u - give * (there - here))
    return GO_ON, u, (-u / BALL_RADIUS if rolling else spin)


@law
def _push(field: Field, seg: int, spin: float) -> float:
    """Acceleration along a segment of a ball that stands on it, spinning or not; 0 if it stays."""
    a, _, _, way = _piece(field, seg, 0.0, spin)
    g = field.ground[seg]
    return 0.0 if way == 0 and slope_holds(g.tilt, field.surfaces[g.surface]) else a


@law
def _cross(
    field: Field, seg: int, side: int, t: float, u: float, spin: float
) -> tuple[int, int, float, Instant]:
    """Pass the knot at one end of a segment: code, segment, u, and the state (for a take-off)."""
    here = _on_ground(field, seg, t, field.ground[seg].last if side > 0 else field.ground[seg].first, u, spin)
    left, new = (seg, seg + 1) if side > 0 else (seg - 1, seg - 1)
    if field.ground[left + 1].tilt <= field.ground[left].tilt:
        code, out, turn = _ridge(field, left, seg, side, u, spin)
        same = u * out < 0.0
        state = (t, here[1], here[2], here[3], here[4], turn)
        return code, (seg if same else new), out, state
    tilt = field.ground[new].tilt
    vx, vy, turn = land(here[3], here[4], spin, tilt, field.surfaces[field.ground[new].surface])
    state = (t, here[1], here[2], vx, vy, turn)
    if not settles(vx, vy, tilt):
        return TAKE_OFF, new, u, state
    u = vx * cos(tilt) + vy * sin(tilt)
    if abs(u) < STILL and side * _push(field, seg, spin) >= 0.0 >= side * _push(field, new, turn):
        return REST, seg, 0.0, (t, here[1], here[2], 0.0, 0.0, 0.0)  # pinned between both faces
    return GO_ON, new, u, state


@law
def _trail(
    field: Field, seg: int, t: float, s: float, u: float, spin: float,
    a: float, turn: float, time: float, phase: float, log: Floats, n: int,
) -> int:  # fmt: skip
    """Log a piece by its closed form, every LOG_ROLL seconds and at its end."""
    if log.shape[0] == 0:
        return 0
    for k in range(1, int(time / LOG_ROLL) + 1):
        d = k * LOG_ROLL
        place = s + u * d + 0.5 * a * d * d
        n = log_row(log, n, _on_ground(field, seg, t + d, place, u + a * d, spin + turn * d), phase)
    place = s + u * time + 0.5 * a * time * time
    return log_row(log, n, _on_ground(field, seg, t + time, place, u + a * time, spin + turn * time), phase)


@law
def _met(field: Field, a: Instant, b: Instant, offset: float, skip: int) -> tuple[float, int]:
    """Share of a way on the ground at which water, scenery or the hole is met, and the code."""
    share, code = _first_box(field, a[1], a[2], b[1], b[2], offset, skip)
    half = half_chord(offset)
    if half > 0.0 and skip != field.cup and field.hole == field.hole:  # nan: no hole
        rim = entry(a[1], 0.0, b[1], 0.0, field.hole - half, -1.0, field.hole + half, 1.0)
        if rim < share:
            return rim, SCENERY + field.cup
    return share, code


@law
def _time_to(share: float, s: float, end: float, u: float, a: float) -> float:
    """Time at which a ball from s has gone `share` of its way to `end` (no turn between)."""
    gap = share * (end - s)
    if gap == 0.0:
        return 0.0
    root = sqrt(max(0.0, u * u + 2.0 * a * gap))
    return 2.0 * abs(gap) / (abs(u) + root)


@law
def _stroll(
    field: Field, seg: int, t: float, s: float, u: float, spin: float,
    offset: float, skip: int, log: Floats, n: int,
) -> tuple[int, Instant, int, int]:  # fmt: skip
    """Slide and roll until rest, take-off, hole, water, scenery or the time limit: code, state, skip, n."""
    for _ in range(PIECES):
        here = _on_ground(field, seg, t, s, u, spin)
        if t >= TIME_LIMIT:
            break
        if skip >= 0 and not _inside(field, skip, here[1], here[2], offset):
            skip = -1
        a, turn, time, way = _piece(field, seg, u, spin)
        if (
            u == 0.0
            and way == 0
            and slope_holds(field.ground[seg].tilt, field.surfaces[field.ground[seg].surface])
        ):
            share, code = _met(field, here, here, offset, skip)
            return (code if share <= 1.0 else REST), here, skip, n
        leave, side = reach_time(s, u, a, field.ground[seg].first, field.ground[seg].last)
        time = min(time, TIME_LIMIT + 1.0 - t)
        if leave > time:
            side = 0  # it does not get as far as the end of this ground
        time = min(time, leave)
        end = s + u * time + 0.5 * a * time * time
        there = _on_ground(field, seg, t + time, end, u, spin)
        share, code = _met(field, here, there, offset, skip)
        if share <= 1.0:
            time = min(time, _time_to(share, s, end, u, a))
            end, side = s + share * (end - s), 0
        n = _trail(field, seg, t, s, u, spin, a, turn, time, SLIDING if way else ROLLING, log, n)
        u, spin = _moved(u, spin, a, turn, time, way)
        t, s = t + time, end
        if share <= 1.0:
            return code, _on_ground(field, seg, t, s, u, spin), skip, n
        if side != 0:
            old = seg
            code, seg, u, state = _cross(field, seg, side, t, u, spin)
            spin = state[5]
            if code != GO_ON:
                return code, state, skip, n
            turned = seg == old
            s = field.ground[seg].first if (side > 0) != turned else field.ground[seg].last
    return LOST, here, skip, n


@law
def _drop(field: Field, state: Instant, log: Floats, n: int) -> tuple[Instant, int]:
    """Fall from the rim to the bottom of the hole, for the picture and the clock."""
    t, x, _, vx, _, spin = state
    depth = HOLE_DEPTH
    time = sqrt(2.0 * depth / GRAVITY)
    ground = height_at(field, field.hole)
    for k in range(1, 9):
        d = time * k / 8.0
        side = min(
            max(x + vx * d, field.hole - HOLE_RADIUS + BALL_RADIUS), field.hole + HOLE_RADIUS - BALL_RADIUS
        )
        now = (t + d, side, ground + BALL_RADIUS - 0.5 * GRAVITY * d * d, vx, -GRAVITY * d, spin)
        n = log_row(log, n, now, TOUCHING)
    return (t + time, field.hole, ground + BALL_RADIUS - depth, 0.0, 0.0, 0.0), n


@law
def _step_on(
    field: Field, state: Instant, seg: int, offset: float, skip: int, log: Floats, n: int
) -> tuple[int, Instant, int, int]:
    """Put the ball on segment `seg` and let it slide and roll; a slow one over the hole drops."""
    t, x, y, vx, vy, spin = state
    c, d = cos(field.ground[seg].tilt), sin(field.ground[seg].tilt)
    s = (x - field.ground[seg].x) * c + (y - field.ground[seg].y) * d
    s = min(max(s, field.ground[seg].first), field.ground[seg].last)
    u = vx * c + vy * d
    code, state, skip, n = _stroll(field, seg, t, s, u, spin, offset, skip, log, n)
    if code == SCENERY + field.cup and hypot(state[3], state[4]) <= capture_speed(offset):
        state, n = _drop(field, state, log, n)
        code = HOLED
    return code, state, skip, n


@law
def _at_hole(
    field: Field, state: Instant, offset: float, log: Floats, n: int
) -> tuple[int, Instant, int, int, float]:
    """Rim and stick, or over them: code, state, skip, n, greatest height of the centre."""
    if half_width(offset) == 0.0:  # only a roll comes here so far off: it goes on over the hole
        return GO_ON, state, field.cup, n, state[2]
    end, state, n, top = meet_hole(field, state, offset, log, n)
    code = TAKE_OFF if end == FLEW_OFF else GO_ON if end == ROLLED_OFF else HOLED if end == IN_HOLE else REST
    return code, state, -1, n, top


@law
def _verdict(field: Field, code: int, x: float) -> int:
    """A ball at rest wholly beyond a boundary is out (Rules of Golf: judged where it comes to rest)."""
    if code == REST and (x - BALL_RADIUS > field.hi or x + BALL_RADIUS < field.lo):
        return OUT
    return code


class BallRun(NamedTuple):
    """How a walk of the ball ended. SI, rad; the first landing is nan where there was none."""

    code: int  # REST, HOLED, WATER, OUT, LOST, or SCENERY + number of the box
    t: float  # s
    x: float  # m, the ball's centre
    y: float
    vx: float  # m/s
    vy: float
    spin: float  # rad/s, + backspin
    logged: int  # rows of the log
    carry: float  # x (m) of the first landing
    landing_angle: float  # rad, down from level
    landing_speed: float  # m/s
    apex: float  # greatest height (m) of the centre


@law
def run_ball(
    field: Field, x: float, y: float, vx: float, vy: float, spin: float, offset: float,
    airborne: bool, log: Floats, skip: int = -1, step: float = FLIGHT_STEP,
) -> BallRun:  # fmt: skip
    """Play a ball from (x, y) (centre, m) until it stops or scenery takes over.

    `offset`: sideways distance (m) of its line from the hole's middle. `log`: float64 (cap, 7) rows
    t, x, y, vx, vy, spin, phase code, or NO_LOG; it never changes the result. `skip`: box the ball
    has just come out of, not entered again until its centre has been outside; -1 for none. Code
    SCENERY + i of the result: box i, never the hole's unless other scenery overlaps it.
    """
    state = (0.0, x, y, vx, vy, spin)
    n = log_row(log, 0, state, FLYING if airborne else ROLLING)
    apex, carry, steep, fast = y, nan, nan, nan
    code, seg = (TAKE_OFF if airborne else GO_ON), segment_at(field, x)
    for _ in range(PIECES):
        if code == TAKE_OFF:
            code, state, skip, n, peak, tilt, seg = _fly(field, state, offset, skip, step, log, n)
            apex = max(apex, peak)
            if code == TOUCH:
                if carry != carry:
                    carry, fast = state[1], hypot(state[3], state[4])
                    steep = atan2(-state[4], abs(state[3]))
                code, state, seg, n = _land(field, state, tilt, seg, offset, skip, log, n)
        elif code == GO_ON:
            code, state, skip, n = _step_on(field, state, seg, offset, skip, log, n)
        elif code == SCENERY + field.cup and (not field.joined or half_width(offset) == 0.0):
            code, state, skip, n, peak = _at_hole(field, state, offset, log, n)
            apex, seg = max(apex, peak), segment_at(field, state[1])
        else:
            break
    if code < 0:
        code = LOST
    code = _verdict(field, code, state[1])
    n = log_row(log, n, state, TOUCHING if code >= SCENERY else RESTING)
    t, x, y, vx, vy, spin = state
    if code == HOLED:
        x = field.hole  # wherever it rattles, it counts as in the hole
    return BallRun(code, t, x, y, vx, vy, spin, n, carry, steep, fast, apex)
