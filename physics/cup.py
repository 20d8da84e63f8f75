"""The law of a ball at the hole: rim, walls, bottom and flagstick, until it parts, is holed or rests.

Event-driven where it can be: clear of everything the ball flies its exact parabola, and the instant at
which a gap closes is found within the step. What stays in touch (a ball on the bank, turning about
the rim, lying on the bottom) is pressed by one impulse a step of at most 1/4000 s. Impulses have
restitution and Coulomb friction on a rigid sphere and can only take energy. Air is left out: a few
centimetres. The same scene in pymunk is what this law is tested against (tests/physics/test_cup.py).
"""

from math import cos, hypot, inf, sqrt
from typing import Any, NamedTuple

from physics.bounce import SETTLE
from physics.compiled import law
from physics.constants import GRAVITY
from physics.equipment import BALL_RADIUS, FLAGSTICK, HOLE_DEPTH
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
from physics.runlog import AT_STICK, TOUCHING, Floats, Instant, log_row
from physics.scenery.region import MARGIN
from physics.terrain import Field, height_at, segment_at, slope_at

__all__ = ["FLEW_OFF", "IN_HOLE", "ROLLED_OFF", "STAYED", "meet_hole"]

ROLLED_OFF, FLEW_OFF, IN_HOLE, STAYED = 0, 1, 2, 3
LEFT, RIGHT, FLOOR, STICK = 0, 1, 2, 3  # what is met: near and far bank with rim and wall, bottom, stick

TOUCH_STEP = 1.0 / 4000.0  # s, longest step in touch
LYING_STEP = 1.0 / 2000.0  # s, step of a ball on the level bottom
TOUCH_WAY = 4e-4  # m, longest way in touch: passing the rim on a chord so long misses it by 1 um at most
CLEAR_WAY = 0.03  # m, longest way in clear air
CLOSED = 1e-7  # m, a gap below this is touch
SOFT = 0.01  # m/s, a slower touch does not spring, assumed (2 um high)
STILL = 0.01  # m/s, slower than this ...
STILL_TIME = 0.05  # s, ... for so long is rest
NEAR = 5e-4  # m, closer than this the ball may count as lying on something
LONGEST = 20.0  # s, no contact lasts longer
RATTLE = 0.6  # s that a holed ball is followed
LOW_HOP = 0.3  # m, a hop lower than this is followed in vacuum, assumed
EVERY = 0.002  # s between logged samples
TURNED = 0.02  # m/s of change that is logged at once
FLOOR_ROLL = 0.05  # rolling deceleration over g on the liner's bottom, assumed
_STICK_HEIGHT = FLAGSTICK.height
_ROUND = BALL_RADIUS + ROUNDING  # from the ball's centre to the middle of a rim's rounding, in touch

Pair = tuple[int, int]  # segments of the two rims
Four = tuple[float, float, float, float]
Moving = tuple[float, float, float, float, float]  # x, y, vx, vy, spin


class Cup(NamedTuple):
    """Hole and stick in the plane of one path (m). A rim's point is the middle of its rounding."""

    left: float  # x of the opening's edges
    right: float
    left_x: float  # rims
    left_y: float
    right_x: float
    right_y: float
    rim: float  # y of the lower edge
    bottom: float  # y of the centre of a ball on the bottom
    x: float  # of the stick
    reach: float  # stick: gap is 0 at this distance of the centre; 0 for none
    stick_top: float  # y of the middle of its round top
    kept: float
    passes: bool  # the stick only slows the ball
    box: Four  # x least, y least, x most, y most of centres that may be touched


@law
def cup_of(field: Field, offset: float) -> Cup:
    """Hole of the field on a path at `offset` (m), half_width(offset) > 0; the box spans the true chord."""
    half, chord = half_width(offset), half_chord(offset) + EDGE
    left, right = field.hole - half, field.hole + half
    # So deep below the ground that the rounding runs smoothly into its slope: less, and a ball would stumble.
    left_y = height_at(field, left - ROUNDING) - ROUNDING / cos(slope_at(field, left - ROUNDING))
    right_y = height_at(field, right + ROUNDING) - ROUNDING / cos(slope_at(field, right + ROUNDING))
    rim = min(height_at(field, left), height_at(field, right))
    reach, kept, passes = 0.0, 1.0, True
    if field.boxes.shape[0] > field.cup:
        reach, kept, passes = stick_met(offset)
    ends = height_at(field, field.hole - chord), height_at(field, field.hole + chord)
    top = max(ends[0], ends[1]) + (_STICK_HEIGHT if reach > 0.0 else 0.0) + BALL_RADIUS + MARGIN
    low = min(ends[0], ends[1]) - HOLE_DEPTH - MARGIN
    return Cup(
        left, right, left - ROUNDING, left_y, right + ROUNDING, right_y, rim, rim - HOLE_DEPTH + BALL_RADIUS,
        field.hole, reach, rim + _STICK_HEIGHT - (reach - BALL_RADIUS), kept, passes,
        (field.hole - chord, low, field.hole + chord, top),
    )  # fmt: skip


# ---- gaps


@law
def _bank(
    ground: Any, seg: int, side: int, ex: float, ey: float, x: float, y: float
) -> tuple[float, float, float]:
    """Gap to the ground on one side (-1 near, +1 far) of the opening that ends in the rim (ex, ey); normal.

    Segments outward from `seg`, the rim's own. Off the rim's point the ground's edge is round.
    """
    dx, dy = x - ex, y - ey
    if side * dx < 0.0 and dy < 0.0:  # down in the hole: the wall below the rim is nearer
        return -side * dx - _ROUND, -side * 1.0, 0.0
    d = hypot(dx, dy)
    best, nx, ny = d - _ROUND, dx / d, dy / d
    while 0 <= seg < len(ground):
        g = ground[seg]
        low, high = (g.x, min(g.x + g.width, ex)) if side < 0 else (max(g.x, ex), g.x + g.width)
        if (low if side > 0 else -high) > side * x + best + BALL_RADIUS:
            break
        at = g.x + ((x - g.x) + (y - g.y) * g.slope) / (1.0 + g.slope * g.slope)
        at = min(max(at, low), high)
        if (at - ex) * side > 0.0:
            dx, dy = x - at, y - (g.y + g.slope * (at - g.x))
            d = hypot(dx, dy)
            if d - BALL_RADIUS < best:
                best, nx, ny = d - BALL_RADIUS, dx / d, dy / d
        seg += side
    return best, nx, ny


@law
def _stick(cup: Cup, x: float, y: float) -> tuple[float, float, float]:
    """Gap to the stick as a post with a round top; infinite when it is not there or lets the ball pass."""
    if cup.passes:
        return inf, 1.0, 0.0
    dx, dy = x - cup.x, max(0.0, y - cup.stick_top)
    d = hypot(dx, dy)
    return (d - cup.reach, dx / d, dy / d) if d > 0.0 else (-cup.reach, -1.0, 0.0)


@law
def _gap(ground: Any, cup: Cup, segs: Pair, thing: int, x: float, y: float) -> tuple[float, float, float]:
    """Gap (m) between ball and one thing, unit vector from the thing to the ball."""
    if thing == LEFT:
        return _bank(ground, segs[0], -1, cup.left_x, cup.left_y, x, y)
    if thing == RIGHT:
        return _bank(ground, segs[1], 1, cup.right_x, cup.right_y, x, y)
    if thing == FLOOR:
        return y - cup.bottom, 0.0, 1.0
    return _stick(cup, x, y)


@law
def _gaps(ground: Any, cup: Cup, segs: Pair, x: float, y: float) -> Four:
    """Gap to each thing."""
    return (
        _gap(ground, cup, segs, LEFT, x, y)[0],
        _gap(ground, cup, segs, RIGHT, x, y)[0],
        y - cup.bottom,
        _stick(cup, x, y)[0],
    )


# ---- one step


@law
def _step_length(cup: Cup, now: Moving, gaps: Four) -> float:
    """Longest safe step (s): what a ball thrown straight down needs for the least gap, no less than in touch.

    Below rim and top of the stick all sides are upright, so that only the speed across counts; going up
    from there makes room.
    """
    _, y, vx, vy, _ = now
    speed = hypot(vx, vy)
    if y < min(cup.left_y, cup.right_y, cup.stick_top):
        aside = min(gaps[LEFT] if vx < 0.0 else gaps[RIGHT], gaps[STICK])
        drop = 2.0 * gaps[FLOOR] / (sqrt(vy * vy + 2.0 * GRAVITY * max(0.0, gaps[FLOOR])) - vy + 1e-12)
        return min(EVERY, max(LYING_STEP, drop), max(TOUCH_STEP, aside / (abs(vx) + 1e-12)))
    touch = min(TOUCH_STEP, TOUCH_WAY / (speed + GRAVITY * TOUCH_STEP))
    way = max(0.0, min(min(gaps), CLEAR_WAY))
    return max(touch, 2.0 * way / (speed + sqrt(speed * speed + 2.0 * GRAVITY * way) + 1e-12))


@law
def _closing(
    ground: Any, cup: Cup, segs: Pair, thing: int, now: Moving, dt: float, above: float, below: float
) -> float:
    """Time within dt at which the gap to a thing falls from `above` to just over 0; Illinois rule."""
    low, high, side = 0.0, dt, 0
    for _ in range(40):
        mid = (low * below - high * above) / (below - above)
        gap = _gap(
            ground, cup, segs, thing, now[0] + now[2] * mid, now[1] + (now[3] - 0.5 * GRAVITY * mid) * mid
        )[0]
        if gap >= 0.0:
            low, above = mid, gap
            if gap < CLOSED:
                break
            below = 0.5 * below if side == 1 else below
            side = 1
        else:
            high, below = mid, gap
            above = 0.5 * above if side == -1 else above
            side = -1
    return low


@law
def _first_touch(ground: Any, cup: Cup, segs: Pair, now: Moving, gaps: Four, dt: float) -> float:
    """The step, cut short where something that was clear is met."""
    for thing in range(4):
        reached = (hypot(now[2], now[3]) + 0.5 * GRAVITY * dt) * dt
        if CLOSED < gaps[thing] <= reached:
            x, y = now[0] + now[2] * dt, now[1] + (now[3] - 0.5 * GRAVITY * dt) * dt
            after = _gap(ground, cup, segs, thing, x, y)[0]
            if after < 0.0:
                dt = _closing(ground, cup, segs, thing, now, dt, gaps[thing], after)
    return dt


@law
def _skin(cup: Cup, thing: int, y: float) -> tuple[float, float]:
    """Restitution and friction of a thing where a ball with its centre at y meets it."""
    if thing == STICK:
        return cup.kept, STICK_FRICTION
    if thing == FLOOR or y < cup.rim - LINER_DEPTH:
        return LINER_RESTITUTION, RIM_FRICTION
    return RIM_RESTITUTION, RIM_FRICTION


@law
def _blow(
    vx: float, vy: float, spin: float, nx: float, ny: float, e: float, grip: float
) -> tuple[float, float, float]:
    """Velocity and spin after an impulse along (nx, ny), with friction on a rigid sphere.

    Sticking takes 2/7 of the slip as an impulse a mass: 1 / (1 + m R^2 / I) (derived).
    """
    into = -(vx * nx + vy * ny)
    if into <= 0.0:
        return vx, vy, spin
    push = (1.0 + (e if into > SOFT else 0.0)) * into
    slip = vx * ny - vy * nx + BALL_RADIUS * spin  # of the touching point, along (ny, -nx)
    drag = min(max(slip * 2.0 / 7.0, -grip * push), grip * push)
    vx, vy = vx + push * nx - drag * ny, vy + push * ny + drag * nx
    return vx, vy, spin - 2.5 * drag / BALL_RADIUS


@law
def _twice_motion(vx: float, vy: float, spin: float) -> float:
    """Twice the energy of motion over mass (J/kg) of a solid sphere."""
    return vx * vx + vy * vy + 0.4 * BALL_RADIUS * BALL_RADIUS * spin * spin


@law
def _pressed(ground: Any, cup: Cup, segs: Pair, now: Moving, gaps: Four) -> Moving:
    """Push the ball off whatever it touches: twice round, for a ball between two things.

    The sinking of one step in touch is taken back. What that lifts is paid by the motion.
    """
    x, y, vx, vy, spin = now
    for _ in range(2):
        for thing in range(4):
            if gaps[thing] < CLOSED:
                gap, nx, ny = _gap(ground, cup, segs, thing, x, y)
                e, grip = _skin(cup, thing, y)
                vx, vy, spin = _blow(vx, vy, spin, nx, ny, e, grip)
                if gap < 0.0:
                    x, y = x - gap * nx, y - gap * ny
    left = max(0.0, _twice_motion(now[2], now[3], now[4]) - 2.0 * GRAVITY * (y - now[1]))
    has = _twice_motion(vx, vy, spin)
    kept = sqrt(left / has) if has > left else 1.0
    return x, y, kept * vx, kept * vy, kept * spin


@law
def _slowed_on_floor(now: Moving, dt: float) -> Moving:
    """Rolling resistance of the bottom: both speed and spin lose."""
    x, y, vx, vy, spin = now
    loss = FLOOR_ROLL * GRAVITY * dt
    vx -= min(max(vx, -loss), loss)
    turn = loss / BALL_RADIUS
    spin -= min(max(spin, -turn), turn)
    return x, y, vx, vy, spin


@law
def _grazes(cup: Cup, x: float, now: Moving) -> bool:
    """Whether the ball that came from x has just reached the near side of a stick that lets it pass."""
    way = 1.0 if now[2] > 0.0 else -1.0
    ahead = (cup.x - x) * way > 0.0 and (now[0] - cup.x) * way >= -cup.reach
    return ahead and now[1] <= cup.stick_top + cup.reach


# ---- how it ends


@law
def _caught(cup: Cup, now: Moving) -> bool:
    """Whether the ball lies so deep in the cup that all its energy cannot lift it to the rim again."""
    x, y, vx, vy, spin = now
    if not cup.left < x < cup.right or y > cup.rim - BALL_RADIUS:
        return False
    lift = _twice_motion(vx, vy, spin) / (2.0 * GRAVITY)
    return y + lift < cup.rim


@law
def _gone(box: Four, now: Moving) -> bool:
    """Whether the ball is beyond a side of the box and not coming back over it.

    A low hop over the top that falls back into the box is not a parting.
    """
    x, y, vx, vy, _ = now
    over = y >= box[3] and vy >= 0.0
    if over and vy * vy < 2.0 * GRAVITY * LOW_HOP:
        over = not box[0] < x + 2.0 * vx * vy / GRAVITY < box[2]
    aside = (x <= box[0] and vx <= 0.0) or (x >= box[2] and vx >= 0.0)
    return over or aside or (y <= box[1] and vy <= 0.0)


@law
def _flies(ground: Any, cup: Cup, segs: Pair, now: Moving) -> bool:
    """Whether a ball that has parted is in the air rather than on the bank."""
    best, nx, ny = inf, 0.0, 1.0
    for thing in range(4):
        gap, ax, ay = _gap(ground, cup, segs, thing, now[0], now[1])
        if gap < best:
            best, nx, ny = gap, ax, ay
    return best > 1e-3 or now[2] * nx + now[3] * ny > SETTLE or ny < 0.5


@law
def meet_hole(
    field: Field, state: Instant, offset: float, log: Floats, n: int
) -> tuple[int, Instant, int, float]:
    """Follow the ball from where it meets rim or stick; the path has half_width(`offset`) > 0.

    Returns ROLLED_OFF, FLEW_OFF, IN_HOLE or STAYED, the ball, rows logged, greatest height of the centre.
    """
    cup = cup_of(field, offset)
    ground = field.ground
    segs = segment_at(field, cup.left_x), segment_at(field, cup.right_x)
    start, x, y, vx, vy, spin = state
    now = (x, y, vx, vy, spin)
    t, logged, still, caught, top, grazed = start, start, 0.0, inf, y, cup.reach == 0.0 or not cup.passes
    gaps = _gaps(ground, cup, segs, x, y)
    phase = TOUCHING
    while t < start + LONGEST:
        x, y, vx, vy, spin = now
        dt = _first_touch(ground, cup, segs, now, gaps, _step_length(cup, now, gaps))
        fell = vy - GRAVITY * dt
        t += dt
        if vy > 0.0 > fell:
            top = max(top, y + 0.5 * vy * vy / GRAVITY)
        now = (x + vx * dt, y + 0.5 * (vy + fell) * dt, vx, fell, spin)
        gaps = _gaps(ground, cup, segs, now[0], now[1])
        at_stick = gaps[STICK] < CLOSED
        if min(gaps) < CLOSED:
            now = _pressed(ground, cup, segs, now, gaps)
            gaps = _gaps(ground, cup, segs, now[0], now[1])
        if gaps[FLOOR] < CLOSED:
            now = _slowed_on_floor(now, dt)
        if not grazed and _grazes(cup, x, now):
            grazed, now = True, (now[0], now[1], now[2] * cup.kept, now[3], now[4])
            phase = AT_STICK
        if at_stick and hypot(now[2] - vx, now[3] - fell) > TURNED:
            phase = AT_STICK
        top = max(top, now[1])
        if t - logged >= EVERY or hypot(now[2] - vx, now[3] - fell) > TURNED:
            logged, n = t, log_row(log, n, (t, now[0], now[1], now[2], now[3], now[4]), phase)
            phase = TOUCHING
        slow = hypot(now[2], now[3]) < STILL and abs(now[4]) * BALL_RADIUS < STILL
        still = still + dt if slow and min(gaps) < NEAR else 0.0
        if caught == inf and _caught(cup, now):
            caught = t
        if caught < inf:
            if still > STILL_TIME or t >= caught + RATTLE:
                break
        elif still > STILL_TIME:
            break
        elif _gone(cup.box, now):
            n = log_row(log, n, (t, now[0], now[1], now[2], now[3], now[4]), TOUCHING)
            code = FLEW_OFF if _flies(ground, cup, segs, now) else ROLLED_OFF
            return code, (t, now[0], now[1], now[2], now[3], now[4]), n, top
    return (IN_HOLE if caught < inf else STAYED), (t, now[0], now[1], 0.0, 0.0, 0.0), n, top
