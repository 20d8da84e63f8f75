"""The strike: the intended swing under turf reaction, and where and how the ball is met.

While the head is in the air the intended curve is simply followed. From the first touch of ground
the two links move under the torques of the intended motion plus the turf force: a fat strike slows
the head, kicks the handle forward and lifts or buries the sole. Contact is stepped at
`CONTACT_STEP` (half of it moves the launch of nine strokes in ten by less than 0.1 %; a chunked one
by up to 4 %), clear air at `AIR_STEP`. The strike lives in the frame of the slope under the ball.

Left out: the hub itself does not move, earth riding on the face adds no mass.
"""

from math import atan2, cos, exp, hypot, nan, sin
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from physics.compiled import law
from physics.constants import GRAVITY
from physics.equipment import BALL_MASS, BALL_RADIUS
from physics.explosion import CARRIED, packed_film, sand_blow, stream_force
from physics.head import ELEMENTS, FACE_LENGTH, edge_centre, lowest_point, reach_of_face
from physics.impact import oblique_impact
from physics.sole import Load, Soil, ground_load, working_bounce, yield_pressure
from physics.surfaces import SAND
from physics.swing import Links, arm_rate, club_angle, edge, edge_velocity
from physics.twolink import (
    Drive,
    HeadPose,
    Limbs,
    drive_at,
    drive_between,
    halfway,
    head_pose,
    kicked,
    knocked,
    next_drive,
    rewound,
)

__all__ = ["LOG_COLUMNS", "Blow", "strike_ball"]

Floats = NDArray[np.float64]

CONTACT_STEP = 75.0e-6  # s
AIR_STEP = 300.0e-6  # s
TORQUE_STEP = 1.0e-3  # s between the knots of the intended torques
LONGEST = 0.16  # s of integration: the head is then far past the ball
CHIP_HEIGHT = 0.030  # m of face over which cut earth spreads, assumed
EARTH_FRICTION = 0.12  # ball on face through earth or grass, assumed within 0.09-0.15
EARTH_FRICTION_SCALE = 0.5e-3  # m of earth that make the face slippery, assumed
EARTH_DAMPING_SCALE = 8.0e-3  # m of earth that take 63 % of the rebound, assumed
STANDING_GRASS = 0.04  # m of grass the head wades through where it drags (30-60 mm in rough)
APART = 0.010  # m between ball and face after which they cannot meet again, assumed
PARTED = 1.0e-4  # m between them that makes a second touch a second blow, assumed
STOPPED = 0.3  # m/s, a slower head plays no shot, assumed
TOUCH = 1.0e-3  # m of penetration that counts as touching the ground, assumed
NEAR_GROUND = 1.0e-3  # m over the ground at which contact steps begin
LOG_COLUMNS = 7 + ELEMENTS  # t, edge x, edge y, lean, speed, arm, club, pressures


class Blow(NamedTuple):
    """Numbers of one strike, in the frame of the slope (m, s, rad)."""

    met: int  # 0 missed, 1 face, 2 edge below the equator, 3 edge above
    double: int
    ball_x: float
    ball_y: float
    ball_vx: float
    ball_vy: float
    spin: float
    time: float
    speed_before: float  # intended at the ball
    speed_at_ball: float
    speed_after: float
    lean: float
    attack: float
    edge_height: float  # over the ball's lowest point
    lead: float
    dug: float  # m of edge depth before the ball
    deepest: float
    cushion: float
    stuck: int
    logged: int
    lift: float  # N s given by the sole up to the end
    pull: float  # N s drawn down by cutting
    incidence: float  # rad, sole to its motion at first touch: bounce + descent
    stream: float  # N s the ball got from thrown sand before the blow


class Ball(NamedTuple):
    """The ball while the head is near."""

    x: float
    y: float
    vx: float
    vy: float
    spin: float


class Hit(NamedTuple):
    """The first meeting of head and ball, and whether there was a second."""

    met: int
    double: int
    time: float
    speed: float
    lean: float
    attack: float
    edge_height: float
    lead: float
    cushion: float


class Encounter(NamedTuple):
    """Head and ball so far: the ball, what met it, and how near they are."""

    ball: Ball
    launch: Ball  # as it last left sand or club
    hit: Hit
    thrown: Hit  # what the meeting was, should nothing but thrown sand reach the ball
    gap: float  # m between ball and head, less the sand packed between them
    film: float  # m of earth or sand between face and ball
    stream: float  # N s the ball had from thrown sand
    parted: bool  # far enough apart since the blow that another touch is another blow
    apart: bool  # too far apart to meet again


class Tally(NamedTuple):
    """What the ground did so far."""

    first_x: float  # edge at the first touch, nan before
    incidence: float
    earth: float  # m2 of earth cut before the ball, per metre of edge
    dug: float
    deepest: float
    lift: float
    pull: float


@law
def _met(
    link: Links, arm: float, loft: float, edge_radius: float, elements: Floats, clearance: float, by: float
) -> bool:
    """Whether the intended head at an arm angle is in the ground, at the ball or past it."""
    x, y, lean = edge(link, arm)
    return bool(
        y + lowest_point(elements, lean) < clearance
        or x > 0.5 * BALL_RADIUS
        or reach_of_face(x, y, lean, loft, edge_radius, 0.0, by)[0] < BALL_RADIUS
    )


@law
def _first_touch(
    link: Links, loft: float, edge_radius: float, elements: Floats, clearance: float, by: float
) -> tuple[float, bool]:
    """Arm angle of the first touch of ground or ball along the intended swing (True: touched).

    Marched coarsely, then halved 30 times; the clear start is kept so that a step never begins
    inside the ground.
    """
    stop = link.arm_ball + 0.25
    low = max(link.arm_top + 1.0e-3, link.arm_ball - 0.6)
    step = 0.02
    arm = low
    touched = False
    while arm < stop:
        arm = min(arm + step, stop)
        if _met(link, arm, loft, edge_radius, elements, clearance, by):
            touched = True
            break
        low = arm
    if not touched:
        return arm, False
    high = arm
    for _ in range(30):
        middle = 0.5 * (low + high)
        if _met(link, middle, loft, edge_radius, elements, clearance, by):
            high = middle
        else:
            low = middle
    return low, True


@law
def _time_to_ball(link: Links, arm: float) -> float:
    """Time (s) from an arm angle to the ball along the intended swing, Simpson on 1 / rate."""
    n = 16
    h = (link.arm_ball - arm) / n
    total = 0.0
    for i in range(n + 1):
        weight = 1.0 if i in (0, n) else (4.0 if i % 2 == 1 else 2.0)
        total += weight / max(arm_rate(link, arm + i * h), 1.0e-3)
    return total * h / 3.0


@law
def _counted(
    tally: Tally, load: Load, head: HeadPose, clear: float, elements: Floats, met: int, dt: float
) -> Tally:
    """The tally one step on; earth and digging count only up to the ball."""
    first_x, incidence = tally.first_x, tally.incidence
    if first_x != first_x and -clear > TOUCH:
        first_x = head.x
        incidence = working_bounce(elements, head.lean) - atan2(head.vy, head.vx)
    earth, dug = tally.earth, tally.dug
    if met == 0:
        earth += load.taken * max(head.vx, 0.0) * dt
        dug = max(dug, load.taken)
    return Tally(
        first_x, incidence, earth, dug, max(tally.deepest, -clear),
        tally.lift + load.lift * dt, tally.pull + load.pull * dt,
    )  # fmt: skip


@law
def _blow(
    head: HeadPose, loft: float, edge_radius: float, ball: Ball, film: float, head_mass: float, surface: Any
) -> tuple[Ball, float, float, float, float, float]:
    """Ball after the head met it; contact point from the edge, impulse, distance up the face.

    Earth or sand between face and ball takes grip and rebound away (scales assumed).
    """
    _, nx, ny, along = reach_of_face(head.x, head.y, head.lean, loft, edge_radius, ball.x, ball.y)
    cx, cy = edge_centre(edge_radius, head.lean)
    held = min(max(along, 0.0), FACE_LENGTH)
    fx, fy = cos(loft - head.lean), sin(loft - head.lean)
    px, py = cx + edge_radius * nx - held * fy, cy + edge_radius * ny + held * fx
    if surface.kind == SAND:
        nx, ny, mu, lively = sand_blow(film, nx, ny, fx, fy, surface)
    else:
        mu = EARTH_FRICTION + (surface.face_friction - EARTH_FRICTION) * exp(-film / EARTH_FRICTION_SCALE)
        lively = exp(-film / EARTH_DAMPING_SCALE)
    sx, sy, spin, j_n, j_t = oblique_impact(
        head.vx - head.turn * py - ball.vx, head.vy + head.turn * px - ball.vy, nx, ny, head_mass, mu, lively
    )
    struck = Ball(ball.x, ball.y, ball.vx + sx, ball.vy + sy, ball.spin + spin)
    return struck, px, py, j_n * nx + j_t * ny, j_n * ny - j_t * nx, along


@law
def _edge_depth(head: HeadPose, edge_radius: float) -> float:
    """How far (m) the lowest point of the rounded edge is under the ground."""
    return edge_radius - head.y - edge_centre(edge_radius, head.lean)[1]


@law
def _film(head: HeadPose, edge_radius: float, earth: float, surface: Any) -> float:
    """Earth or sand (m) between face and ball: what the edge cut, or what the edge's depth leaves packed."""
    if surface.kind == SAND:
        return packed_film(_edge_depth(head, edge_radius))
    return earth / CHIP_HEIGHT


@law
def _carried(
    ball: Ball, head: HeadPose, loft: float, edge_radius: float, beta: float, surface: Any, dt: float
) -> tuple[Ball, float]:
    """The ball a step on in the stream of sand before the face, and the impulse (N s) it got."""
    depth = _edge_depth(head, edge_radius)
    ahead = ball.x - head.x - BALL_RADIUS * cos(beta)
    rake = 1.5707963267948966 - (loft - head.lean)
    over = ball.y - BALL_RADIUS - (head.y + edge_centre(edge_radius, head.lean)[1] - edge_radius)
    fx, fy = stream_force(depth, ahead, over, head.vx, rake, beta, ball.vx, ball.vy, surface.density)
    vx, vy = ball.vx + fx / BALL_MASS * dt, ball.vy + fy / BALL_MASS * dt
    return Ball(ball.x + vx * dt, ball.y + vy * dt, vx, vy, ball.spin), hypot(fx, fy) * dt


@law
def _hit(
    hit: Hit, tally: Tally, head: HeadPose, along: float, film: float, raised: float, time: float, felt: bool
) -> Hit:
    """Where and how the ball was met; a felt second touch is a double hit."""
    if hit.met > 0:
        return Hit(
            hit.met, 1 if felt else hit.double, hit.time, hit.speed, hit.lean, hit.attack,
            hit.edge_height, hit.lead, hit.cushion,
        )  # fmt: skip
    height = head.y - raised
    met = 1 if along >= 0.0 else (2 if height < BALL_RADIUS else 3)
    lead = max(head.x - tally.first_x, 0.0) if tally.first_x == tally.first_x else 0.0
    return Hit(
        met, 0, time, hypot(head.vx, head.vy), head.lean, atan2(head.vy, head.vx), height, lead, film
    )  # fmt: skip


@law
def _noted(log: Floats, row: int, time: float, head: HeadPose, limbs: Limbs, pressure: Floats) -> int:
    """Write one row of the log; returns the rows written."""
    log[row, 0], log[row, 1], log[row, 2], log[row, 3] = time, head.x, head.y, head.lean
    log[row, 4], log[row, 5], log[row, 6] = hypot(head.vx, head.vy), limbs.arm, limbs.club
    log[row, 7:] = pressure
    return row + 1


@law
def _step(
    link: Links, limbs: Limbs, drive: Drive, loft: float, edge_radius: float, soil: Soil, surface: Any,
    limit: float, beta: float, dt: float,
) -> tuple[Limbs, Limbs, HeadPose, float, Load]:  # fmt: skip
    """One step of the limbs: after it, at its middle, the head there, its clearance (m), and the load."""
    mid = halfway(limbs, dt)
    head = head_pose(link, mid)
    clear = head.y + lowest_point(soil.elements, head.lean)
    load = Load(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, beta)
    if clear < 0.0:
        load = ground_load(head, loft, edge_radius, dt, soil, surface, limit, beta)
    else:
        soil.pressure[:] = 0.0
    fx, fy = load.fx, load.fy
    if surface.grass_drag > 0.0 and clear < STANDING_GRASS:
        speed = max(hypot(head.vx, head.vy), 1.0e-6)
        fx -= surface.grass_drag * head.vx / speed
        fy -= surface.grass_drag * head.vy / speed
    moved = kicked(link, limbs, mid, drive, fx, fy, load.moment, head.pitch, dt)
    return moved, mid, head, clear, Load(fx, fy, load.moment, load.taken, load.lift, load.pull, load.beta)


@law
def _gap(head: HeadPose, loft: float, edge_radius: float, ball: Ball, between_them: float) -> float:
    """How far (m) the ball is from the head and what is packed before its face; below 0 inside it."""
    reach = reach_of_face(head.x, head.y, head.lean, loft, edge_radius, ball.x, ball.y)[0]
    return reach - BALL_RADIUS - between_them


@law
def _at_first_touch(
    link: Links, loft: float, edge_radius: float, elements: Floats, surface: Any, raised: float
) -> tuple[Limbs, Drive, float]:
    """Limbs, drive and time (s) of the intended swing where it first touches grass, ground or ball."""
    grass = STANDING_GRASS if surface.grass_drag > 0.0 else 0.0
    arm, _ = _first_touch(link, loft, edge_radius, elements, grass, raised + BALL_RADIUS)
    drive = drive_at(link, arm)
    limbs = Limbs(
        arm, club_angle(link, arm), drive.reach,
        drive.arm_turn, link.release * drive.arm_turn, drive.reach_rate, 0.0, 0.0, 0.0,
    )  # fmt: skip
    return limbs, drive, -_time_to_ball(link, arm)


@law
def _before_the_blow(link: Links, arm: float, loft: float, edge_radius: float, raised: float) -> Encounter:
    """The ball at rest and the head on its way, at an arm angle of the intended swing."""
    ball = Ball(0.0, raised + BALL_RADIUS, 0.0, 0.0, 0.0)
    nothing = Hit(0, 0, nan, nan, nan, nan, nan, 0.0, 0.0)
    gap = reach_of_face(*edge(link, arm), loft, edge_radius, ball.x, ball.y)[0] - BALL_RADIUS
    return Encounter(ball, ball, nothing, nothing, gap, 0.0, 0.0, False, False)


@law
def _ball_stepped(
    e: Encounter, tally: Tally, head: HeadPose, clear: float, loft: float, edge_radius: float, beta: float,
    surface: Any, raised: float, time: float, dt: float,
) -> Encounter:  # fmt: skip
    """The encounter a step on: the ball flies, lies, or rides on the sand before the face."""
    ball, launch, thrown, film, stream = e.ball, e.launch, e.thrown, e.film, e.stream
    if e.hit.met > 0:
        ball = Ball(ball.x + ball.vx * dt, ball.y + ball.vy * dt, ball.vx, ball.vy - GRAVITY * dt, ball.spin)
    elif surface.kind == SAND and beta > 0.0 and clear < 0.0:
        ball, push = _carried(ball, head, loft, edge_radius, beta, surface, dt)
        if push > 0.0 and stream == 0.0:
            film = _film(head, edge_radius, tally.earth, surface)
            thrown = _hit(e.hit, tally, head, 0.0, film, raised, time, False)
        stream += push
        launch = ball if push > 0.0 else launch  # where the sand let go of it, should nothing follow
    film = _film(head, edge_radius, tally.earth, surface) if e.hit.met == 0 else film
    gap = _gap(head, loft, edge_radius, ball, film if surface.kind == SAND else 0.0)
    parted = e.parted or (e.hit.met > 0 and gap > PARTED)
    apart = e.apart or (e.hit.met > 0 and gap > APART)
    return Encounter(ball, launch, e.hit, thrown, gap, film, stream, parted, apart)


@law
def _touches(e: Encounter) -> bool:
    """Whether head and ball meet now, for the first time or once more."""
    return e.gap <= 0.0 and (e.hit.met == 0 or (e.parted and not e.apart and e.hit.met < 3))


@law
def _struck(
    link: Links, limbs: Limbs, e: Encounter, early: float, tally: Tally, loft: float, club: Any,
    surface: Any, raised: float, time: float,
) -> tuple[Limbs, Encounter]:  # fmt: skip
    """Limbs and encounter after the blow, from the limbs rewound to the moment (s, `early`) of touch."""
    head, ball = head_pose(link, limbs), e.ball
    ball = Ball(ball.x - early * ball.vx, ball.y - early * ball.vy, ball.vx, ball.vy, ball.spin)
    ball, px, py, jx, jy, along = _blow(head, loft, club.edge_radius, ball, e.film, club.head_mass, surface)
    hit = _hit(e.hit, tally, head, along, e.film, raised, time, jx != 0.0 or jy != 0.0)
    limbs = knocked(link, limbs, head.pitch, px, py, jx, jy)
    apart = e.apart or (surface.kind == SAND and e.film > CARRIED)  # the sand lets go of it once
    return limbs, Encounter(ball, ball, hit, e.thrown, 0.0, e.film, e.stream, False, apart)


@law
def _stopped(head: HeadPose) -> bool:
    """Whether the ground has stopped the head."""
    return hypot(head.vx, head.vy) < STOPPED or head.vx < 0.0


@law
def _over(e: Encounter, head: HeadPose, clear: float, time: float, out_of_ground: float, whole: bool) -> bool:
    """Whether the head is so far past the ball that nothing of the strike can follow."""
    past = e.hit.met > 0 or head.x > e.ball.x + 0.06
    if head.x > 0.38 or (past and not whole and e.hit.met == 0):
        return True
    # not before ball and head have parted for good: the same strike as without `whole`
    parted = whole and (e.apart or e.hit.met == 0)
    return parted and past and clear > 0.03 and time > out_of_ground + 4.0e-3


@law
def _result(
    e: Encounter, hit: Hit, tally: Tally, speed_before: float, speed_after: float, stuck: int, logged: int
) -> Blow:
    """The numbers of the strike."""
    ball = e.launch
    return Blow(
        hit.met, hit.double, ball.x, ball.y, ball.vx, ball.vy, ball.spin, hit.time,
        speed_before, hit.speed, speed_after, hit.lean, hit.attack, hit.edge_height, hit.lead, tally.dug,
        tally.deepest, hit.cushion, stuck, logged, tally.lift, tally.pull, tally.incidence, e.stream,
    )  # fmt: skip


@law
def strike_ball(
    club: Any, surface: Any, lift: float, link: Links, loft: float, soil: Soil, log: Floats,
    whole: bool, fineness: float,
) -> Blow:  # fmt: skip
    """Carry the intended swing through ground and ball.

    `lift` raises the ball over what the surface does. `soil` is wiped here and holds the ground
    afterwards. `log`, shape (n, LOG_COLUMNS), may have no rows. `whole` False stops once the ball can
    no longer be met again: the blow on the ball is the same. `fineness` scales every step.
    """
    soil.pressed[:], soil.cut[:], soil.slip[:] = 0.0, 0.0, 0.0
    limit = yield_pressure(surface)
    raised = surface.ball_raise + lift
    round_edge = club.edge_radius
    limbs, knot, start = _at_first_touch(link, loft, round_edge, soil.elements, surface, raised)
    after, time, knot_time = next_drive(link, knot, TORQUE_STEP), start, start
    intended = edge_velocity(link, link.arm_ball)
    speed_before = speed_after = hypot(intended[0], intended[1])
    e = _before_the_blow(link, limbs.arm, loft, round_edge, raised)
    tally = Tally(nan, nan, 0.0, 0.0, 0.0, 0.0, 0.0)
    beta, out_of_ground, touching = -1.0, 0.0, True
    stuck, logged, steps = 0, 0, 0
    while speed_before >= STOPPED and time - start < LONGEST:  # else the arms cannot bring the club here
        dt = (CONTACT_STEP if touching else AIR_STEP) * fineness
        while time + 0.5 * dt > knot_time + TORQUE_STEP:
            knot, after = after, next_drive(link, after, TORQUE_STEP)
            knot_time += TORQUE_STEP
        drive = drive_between(knot, after, (time + 0.5 * dt - knot_time) / TORQUE_STEP)
        limbs, mid, head, clear, load = _step(
            link, limbs, drive, loft, round_edge, soil, surface, limit, beta, dt
        )
        beta = load.beta
        if clear < 0.0:
            tally = _counted(tally, load, head, clear, soil.elements, e.hit.met, dt)
            out_of_ground, speed_after = time + dt, hypot(head.vx, head.vy)
        time += dt
        touching = clear < NEAR_GROUND or load.fx != 0.0
        if logged < log.shape[0] and (e.hit.met == 0 or steps % (4 if touching else 2) == 0):
            logged = _noted(log, logged, time - 0.5 * dt, head, mid, soil.pressure)
        steps += 1
        before = e.gap
        e = _ball_stepped(
            e, tally, head_pose(link, limbs), clear, loft, round_edge, beta, surface, raised, time, dt
        )
        if _touches(e):
            # back to the moment of touch: the gap is taken as linear in the step, the pose is rewound
            early = dt * e.gap / (e.gap - before) if before > e.gap else 0.0
            time -= early
            logged -= 1 if logged > 0 and log[logged - 1, 0] > time else 0
            limbs, e = _struck(
                link, rewound(limbs, early), e, early, tally, loft, club, surface, raised, time
            )
            touching = True
        if e.apart and not whole:
            break
        if _stopped(head):
            stuck, speed_after = (1 if clear < 0.0 else 0), hypot(head.vx, head.vy)
            break
        if _over(e, head, clear, time, out_of_ground, whole):
            break
    hit = e.hit
    if hit.met == 0 and hypot(e.ball.vx, e.ball.vy) > STOPPED:  # only the sand reached it
        hit = e.thrown
    if hit.met > 0 and out_of_ground < hit.time:
        speed_after = hypot(head.vx, head.vy)
    return _result(e, hit, tally, speed_before, speed_after, stuck, logged)
