"""The strike: the intended swing under turf reaction, and where and how the ball is met.

While the head is in the air the intended curve is simply followed. From the first touch of ground
the two links move under the torques of the intended motion (inverse dynamics) plus the turf force
through the Jacobian of the head: a fat strike slows the head, kicks the handle forward and lifts
or buries the sole. A third coordinate, the reach, lets the arms give: two links in line under a
fixed hub would carry any upward push, and no bounce could ever lift the head. Contact is stepped at `CONTACT_STEP` (half of it moves the launch of nine strokes in ten by less
than 0.1 %; a chunked one by up to 2 %), clear air at `AIR_STEP`. The strike lives in the frame of the slope under the ball.

Left out: the hub itself does not move, earth riding on the face adds no mass, one column of ground
does not push its neighbour.
"""

from math import atan2, cos, exp, hypot, nan, sin, sqrt, tan
from typing import NamedTuple

import numpy as np

from physics.bearing import bearing_pressure, plate_pressure
from physics.compiled import law
from physics.cutting import cutting_force
from physics.equipment import BALL
from physics.granular import sand_push
from physics.head import EDGE_ELEMENTS, EDGE_WIDTH, ELEMENTS, FACE_LENGTH, SOLE_WIDTH, lowest_point
from physics.impact import oblique_impact
from physics.surfaces import MAT, SAND
from physics.swing import (
    GRAVITY,
    Links,
    arm_acceleration,
    arm_rate,
    club_angle,
    edge,
    edge_velocity,
    fold,
    lean_of,
    reach,
)

__all__ = ["CELL", "CELLS", "GROUND_LEFT", "LOG_COLUMNS", "Blow", "strike_ball"]

RADIUS = BALL.radius
CELL = 1.0e-3  # m, ground column
CELLS = 800
GROUND_LEFT = -0.40  # m from the ball
CONTACT_STEP = 75.0e-6  # s
AIR_STEP = 300.0e-6  # s
TORQUE_STEP = 1.0e-3  # s between the knots of the intended torques
LONGEST = 0.16  # s of integration: the head is then far past the ball
ROOT_MAT = 0.020  # m, depth of the root mat (10-20 mm, sod literature), upper end
ROOT_MAT_FADE = 1.0e-3  # m over which the mat ends, assumed
FACE_STRIPS = 5  # strips of the face that sand can push on
FACE_IN_SAND = 0.040  # m of face they cover, assumed
CHIP_HEIGHT = 0.030  # m of face over which cut earth spreads, assumed
EARTH_FRICTION = 0.12  # ball on face through earth or grass, assumed within 0.09-0.15
EARTH_FRICTION_SCALE = 0.5e-3  # m of earth that make the face slippery, assumed
EARTH_DAMPING_SCALE = 8.0e-3  # m of earth that take 63 % of the rebound, assumed
# kg that move with the club when the arms give. About 1 kg of hands and forearms (assumed) along the
# shaft, in series with the club cocking out of the plane about the wrists (0.33 kg at the head):
# sin^2 64 / (1.0 + 0.46) + cos^2 64 / 0.33 = 1 / 0.88 kg upright (derived), which this value gives.
ARM_GIVE_MASS = 0.25
ARM_STIFFNESS = 1.0e3  # N/m of elbows and shoulders, assumed
ARM_DAMPING = 15.0  # N s/m, about a quarter of critical, assumed
APART = 0.010  # m between ball and face after which they cannot meet again, assumed
TOUCH = 1.0e-3  # m of penetration that counts as touching the ground, assumed
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
    lift: float  # N s given by sole and edge up to the end
    pull: float  # N s drawn down by cutting
    incidence: float  # rad, sole to its motion at first touch: bounce + descent


@law
def _knot(link: Links, arm: float) -> tuple[float, float, float, float, float, float, float]:
    """What the swing intends at an arm angle.

    Torques on arms and club (N m), pull along the arms (N), arm rate, reach, its rate, arm angle.
    """
    rate = arm_rate(link, arm)
    speed_up = arm_acceleration(link, arm)
    club = club_angle(link, arm)
    r = reach(link, arm)
    _, drawn, curled = fold(arm, link.fold_at)
    r1 = -drawn * rate
    r2 = -curled * rate * rate - drawn * speed_up
    lag = arm - club
    club_rate = link.release * rate
    club_up = link.release * speed_up
    weight = GRAVITY * link.sine
    cm, cs = link.club_mass, link.club_moment
    on_arm = (
        (link.arm_inertia + cm * r * r) * speed_up
        + 2.0 * cm * r * r1 * rate
        + r * cs * (club_up * cos(lag) + club_rate**2 * sin(lag))
        + (link.arm_moment + cm * r) * weight * sin(arm)
    )
    on_club = (
        link.club_inertia * club_up
        + cs * ((r2 - r * rate * rate) * sin(lag) + (r * speed_up + 2.0 * r1 * rate) * cos(lag))
        + cs * weight * sin(club)
    )
    along = (
        (cm + ARM_GIVE_MASS) * r2
        - cm * r * rate * rate
        + cs * (club_up * sin(lag) - club_rate**2 * cos(lag))
        - cm * weight * cos(arm)
    )
    return on_arm, on_club, along, rate, r, r1, arm


@law
def _next_knot(link: Links, knot: tuple[float, float, float, float, float, float, float], step: float):  # type: ignore[no-untyped-def]
    """The knot one step later along the intended swing (midpoint rule); held once the arms stop."""
    arm = knot[6]
    middle = arm + 0.5 * step * knot[3]
    return _knot(link, min(arm + step * arm_rate(link, middle), link.arm_finish))


@law
def _accelerations(
    link: Links, r: float, lag: float, on_arm: float, on_club: float, on_reach: float
) -> tuple[float, float, float]:
    """Solve the mass matrix of (arm, club, reach) for the right-hand sides; impulses give kicks."""
    m_aa = link.arm_inertia + link.club_mass * r * r
    m_ac = r * link.club_moment * cos(lag)
    m_cr = link.club_moment * sin(lag)
    m_rr = link.club_mass + ARM_GIVE_MASS
    # arm and reach do not couple, so both are put in terms of the club
    whole = link.club_inertia - m_ac * m_ac / m_aa - m_cr * m_cr / m_rr
    club = (on_club - m_ac * on_arm / m_aa - m_cr * on_reach / m_rr) / whole
    return (on_arm - m_ac * club) / m_aa, club, (on_reach - m_cr * club) / m_rr


@law
def _pose(
    link: Links, arm: float, club: float, r: float, arm_turn: float, club_turn: float, reach_rate: float
) -> tuple[float, float, float, float, float, float, float]:
    """Leading edge x, y, lean, its velocity, the head's turning rate, and that rate per club rate."""
    ca, sa, cc, sc = cos(arm), sin(arm), cos(club), sin(club)
    x = link.hub_x + r * sa + link.length * sc
    y = link.hub_y - link.sine * (r * ca + link.length * cc)
    vx = reach_rate * sa + r * ca * arm_turn + link.length * cc * club_turn
    vy = link.sine * (-reach_rate * ca + r * sa * arm_turn + link.length * sc * club_turn)
    pitch = link.sine / (sc * sc + link.sine * link.sine * cc * cc)
    return x, y, lean_of(club, link.sine), vx, vy, pitch * club_turn, pitch


@law
def _turf_element(
    depth: float, cell: int, vn: float, vt: float, slip: float, surface: np.record,
    limit: float, pressed: np.ndarray, cut: np.ndarray,
) -> tuple[float, float]:  # fmt: skip
    """Pressure and shear (Pa, against vt) of turf or mat on a sole strip; remembers the deepest press."""
    bearing_depth = depth - cut[cell]
    if bearing_depth <= 0.0 and pressed[cell] <= 0.0:
        return 0.0, 0.0
    pressure = plate_pressure(
        bearing_depth, pressed[cell], surface.stiffness, limit, surface.rebound,
        surface.cover, surface.cover_share,
    )  # fmt: skip
    if bearing_depth > pressed[cell]:
        pressed[cell] = bearing_depth
    if pressure > 0.0 and vn > 0.0:
        pressure += surface.inertia * surface.density * vn * vn
    shear = pressure * tan(surface.steel_angle) * (1.0 - exp(-slip / surface.shear_travel))
    return pressure, shear if vt > 0.0 else -shear


@law
def _sole_force(
    x: float, y: float, lean: float, vx: float, vy: float, turn: float, dt: float,
    elements: np.ndarray, slip: np.ndarray, surface: np.record, limit: float,
    pressed: np.ndarray, cut: np.ndarray, pressure: np.ndarray,
) -> tuple[float, float, float]:  # fmt: skip
    """Force x, y (N) and moment about the leading edge (N m, counter-clockwise) of ground on the sole."""
    fx, fy, moment = 0.0, 0.0, 0.0
    c, s = cos(lean), sin(lean)
    for i in range(elements.shape[0]):
        pressure[i] = 0.0
        ex = elements[i, 0] * c + elements[i, 1] * s
        ey = elements[i, 1] * c - elements[i, 0] * s
        depth = -(y + ey)
        if depth <= 0.0:
            slip[i] = 0.0
            continue
        cell = int((x + ex - GROUND_LEFT) / CELL)
        if cell < 0 or cell >= CELLS:
            continue
        nx = elements[i, 2] * c + elements[i, 3] * s
        ny = elements[i, 3] * c - elements[i, 2] * s
        ux = vx - turn * ey
        uy = vy + turn * ex
        vn = ux * nx + uy * ny
        vt = -ux * ny + uy * nx
        area = elements[i, 4] * (EDGE_WIDTH if i < EDGE_ELEMENTS else SOLE_WIDTH)
        if surface.kind == SAND:
            px, py = sand_push(
                nx, ny, ux, uy, depth, surface.grain, surface.density, surface.inertia,
                limit * min(1.0, depth / 2.0e-3),
            )  # fmt: skip
            pressure[i] = -(px * nx + py * ny)
            if vn > 0.0 and depth > pressed[cell]:
                pressed[cell] = depth
        else:
            slip[i] += abs(vt) * dt
            p, shear = _turf_element(depth, cell, vn, vt, slip[i], surface, limit, pressed, cut)
            pressure[i] = p
            px = -p * nx + shear * ny
            py = -p * ny - shear * nx
        fx += px * area
        fy += py * area
        moment += (ex * py - ey * px) * area
    return fx, fy, moment


@law
def _face_in_sand(
    x: float, y: float, lean: float, loft: float, vx: float, vy: float, turn: float, surface: np.record
) -> tuple[float, float, float]:
    """Force and moment of sand on the buried part of the face (dynamic resistive force theory)."""
    fx, fy, moment = 0.0, 0.0, 0.0
    nx, ny = cos(loft - lean), sin(loft - lean)
    length = FACE_IN_SAND / FACE_STRIPS
    for i in range(FACE_STRIPS):
        along = (i + 0.5) * length
        ex, ey = -along * ny, along * nx
        depth = -(y + ey)
        if depth <= 0.0:
            break
        px, py = sand_push(
            nx, ny, vx - turn * ey, vy + turn * ex, depth, surface.grain, surface.density,
            surface.inertia, 0.0,
        )  # fmt: skip
        fx += px * length * EDGE_WIDTH
        fy += py * length * EDGE_WIDTH
        moment += (ex * py - ey * px) * length * EDGE_WIDTH
    return fx, fy, moment


@law
def _edge_cut(
    x: float, y: float, lean: float, loft: float, vx: float, vy: float, edge_radius: float,
    beta: float, surface: np.record, cut: np.ndarray,
) -> tuple[float, float, float, float]:  # fmt: skip
    """Force x, y (N) of turf cut by edge and face, the failure plane, and the depth cut (m).

    Earth-moving equation at rake 90 degrees - dynamic loft, plus the roots as a line force against
    the motion. A rounded edge slides before it cuts: the cut grows in over one edge radius (blend
    assumed).
    """
    depth = -y
    if depth <= 0.0 or vx <= 0.0:
        return 0.0, 0.0, beta, 0.0
    share = min(1.0, depth / edge_radius)
    drag, pull, beta = cutting_force(
        depth, EDGE_WIDTH, vx, 1.5707963267948966 - (loft - lean), surface.density,
        surface.cohesion, surface.friction_angle, surface.steel_angle, beta,
    )  # fmt: skip
    speed = hypot(vx, vy)
    below = min(max((ROOT_MAT - depth) / ROOT_MAT_FADE, 0.0), 1.0)
    roots = surface.root_line * EDGE_WIDTH * below
    fx = -share * (drag + roots * vx / speed)
    fy = -share * (pull + roots * vy / speed)
    cell = int((x - GROUND_LEFT) / CELL)
    taken = share * depth
    if 0 <= cell < CELLS and taken > cut[cell]:
        cut[cell] = taken
    return fx, fy, beta, taken


@law
def _gap(
    x: float, y: float, lean: float, loft: float, bx: float, by: float
) -> tuple[float, float, float, float]:
    """Gap (m) between ball and face segment, contact normal, and how far up the face (m, < 0 edge)."""
    nx, ny = cos(loft - lean), sin(loft - lean)
    dx, dy = bx - x, by - y
    along = -dx * ny + dy * nx
    held = min(max(along, 0.0), FACE_LENGTH)
    px, py = dx + held * ny, dy - held * nx
    distance = sqrt(px * px + py * py)
    return distance - RADIUS, px / distance, py / distance, along


@law
def _first_touch(
    link: Links, loft: float, elements: np.ndarray, clearance: float, by: float
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
        x, y, lean = edge(link, arm)
        near = y + lowest_point(elements, lean) < clearance
        if near or _gap(x, y, lean, loft, 0.0, by)[0] < 0.0 or x > 0.5 * RADIUS:
            touched = True
            break
        low = arm
    if not touched:
        return arm, False
    high = arm
    for _ in range(30):
        middle = 0.5 * (low + high)
        x, y, lean = edge(link, middle)
        if (
            y + lowest_point(elements, lean) < clearance
            or _gap(x, y, lean, loft, 0.0, by)[0] < 0.0
            or x > 0.5 * RADIUS
        ):
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
def strike_ball(
    club: np.record, surface: np.record, lift: float, link: Links, loft: float,
    elements: np.ndarray, pressed: np.ndarray, cut: np.ndarray, slip: np.ndarray,
    pressure: np.ndarray, log: np.ndarray, whole: bool, fineness: float,
) -> Blow:  # fmt: skip
    """Carry the intended swing through ground and ball.

    `lift` raises the ball over what the surface does. `pressed`, `cut` shape (CELLS,) and `slip`,
    `pressure` shape (ELEMENTS,) are zeroed here and hold the ground afterwards. `log` shape
    (n, LOG_COLUMNS), n may be 0. `whole` False stops once the ball can no longer be met again: the
    blow on the ball is the same. `fineness` scales every step.
    """
    pressed[:] = 0.0
    cut[:] = 0.0
    slip[:] = 0.0
    limit = bearing_pressure(surface.cohesion, surface.friction_angle) if surface.kind != MAT else 1.0e9
    raised = surface.ball_raise + lift
    bx, by = 0.0, raised + RADIUS
    grass = 0.04 if surface.grass_drag > 0.0 else 0.0  # m of standing grass, ball notes: 30-60 mm
    arm, _ = _first_touch(link, loft, elements, grass, by)
    club_at = club_angle(link, arm)
    knot = _knot(link, arm)
    after = _next_knot(link, knot, TORQUE_STEP)
    arm_speed, club_speed = knot[3], link.release * knot[3]
    r, reach_speed = knot[4], knot[5]
    time = -_time_to_ball(link, arm)
    knot_time = time
    bvx, bvy, spin = 0.0, 0.0, 0.0
    ball_x, ball_y = bx, by
    launch = (bx, by, 0.0, 0.0)
    intended = edge_velocity(link, link.arm_ball)
    speed_before = hypot(intended[0], intended[1])
    met, double, stuck, logged = 0, 0, 0, 0
    hit_time, hit_speed, hit_lean, hit_attack, hit_edge = nan, nan, nan, nan, nan
    lead, dug, cushion, earth, first_x = 0.0, 0.0, 0.0, 0.0, nan
    up, down, incidence = 0.0, 0.0, nan
    beta, deepest, parted, apart, touching = -1.0, 0.0, False, False, True
    arm_up, club_up, reach_up = 0.0, 0.0, 0.0
    start = time
    gap = _gap(*edge(link, arm), loft, bx, by)[0]
    speed_after = speed_before
    sine, length, cm, cs = link.sine, link.length, link.club_mass, link.club_moment
    weight = GRAVITY * sine
    out_of_ground = 0.0
    step_count = 0
    while time - start < LONGEST:
        dt = (CONTACT_STEP if touching else AIR_STEP) * fineness
        while time + 0.5 * dt > knot_time + TORQUE_STEP:
            knot = after
            after = _next_knot(link, knot, TORQUE_STEP)
            knot_time += TORQUE_STEP
        w = (time + 0.5 * dt - knot_time) / TORQUE_STEP
        on_arm = knot[0] + w * (after[0] - knot[0])
        on_club = knot[1] + w * (after[1] - knot[1])
        along_arm = knot[2] + w * (after[2] - knot[2])
        r_meant = knot[4] + w * (after[4] - knot[4])
        r1_meant = knot[5] + w * (after[5] - knot[5])
        # half a drift, one kick with the speed foreseen at the middle, half a drift
        arm += 0.5 * dt * arm_speed
        club_at += 0.5 * dt * club_speed
        r += 0.5 * dt * reach_speed
        r1 = reach_speed + 0.5 * dt * reach_up
        av = arm_speed + 0.5 * dt * arm_up
        cv = club_speed + 0.5 * dt * club_up
        lag = arm - club_at
        ca, sa, cc, sc = cos(arm), sin(arm), cos(club_at), sin(club_at)
        x, y, lean, vx, vy, turn, pitch = _pose(link, arm, club_at, r, av, cv, r1)
        clear = y + lowest_point(elements, lean)
        fx, fy, moment = 0.0, 0.0, 0.0
        if clear < 0.0:
            fx, fy, moment = _sole_force(
                x, y, lean, vx, vy, turn, dt, elements, slip, surface, limit, pressed, cut, pressure
            )
            up += max(fy, 0.0) * dt
            if surface.kind == SAND:
                gx, gy, gm = _face_in_sand(x, y, lean, loft, vx, vy, turn, surface)
                fx, fy, moment = fx + gx, fy + gy, moment + gm
                taken = max(-y, 0.0)
            elif surface.kind == MAT:
                taken = 0.0
            else:
                gx, gy, beta, taken = _edge_cut(
                    x, y, lean, loft, vx, vy, club.edge_radius, beta, surface, cut
                )
                fx, fy = fx + gx, fy + gy
                down += max(-gy, 0.0) * dt
            deepest = max(deepest, -clear)
            if first_x != first_x and -clear > TOUCH:
                first_x = x
                incidence = lean_bounce(elements, lean) - atan2(vy, vx)
            if met == 0:
                earth += taken * max(vx, 0.0) * dt
                dug = max(dug, taken)
        else:
            pressure[:] = 0.0
        if clear < grass and surface.grass_drag > 0.0:
            speed = max(hypot(vx, vy), 1.0e-6)
            fx -= surface.grass_drag * vx / speed
            fy -= surface.grass_drag * vy / speed
        q_arm = fx * r * ca + fy * sine * r * sa
        q_club = fx * length * cc + fy * sine * length * sc + moment * pitch
        q_reach = fx * sa - fy * sine * ca
        give = ARM_STIFFNESS * (r_meant - r) + ARM_DAMPING * (r1_meant - r1)
        arm_up, club_up, reach_up = _accelerations(
            link, r, lag,
            on_arm + q_arm - 2.0 * cm * r * r1 * av - r * cs * sin(lag) * cv * cv
            - (link.arm_moment + cm * r) * weight * sa,
            on_club + q_club + cs * (r * av * av * sin(lag) - 2.0 * r1 * av * cos(lag)) - cs * weight * sc,
            along_arm + q_reach + give + cm * r * av * av + cs * cv * cv * cos(lag) + cm * weight * ca,
        )  # fmt: skip
        arm_speed += dt * arm_up
        club_speed += dt * club_up
        reach_speed += dt * reach_up
        arm += 0.5 * dt * arm_speed
        club_at += 0.5 * dt * club_speed
        r += 0.5 * dt * reach_speed
        time += dt
        touching = clear < 1.0e-3 or fx != 0.0
        head_speed = hypot(vx, vy)
        if logged < log.shape[0] and (step_count % (4 if touching else 2) == 0 or met == 0):
            log[logged, 0] = time - 0.5 * dt
            log[logged, 1], log[logged, 2], log[logged, 3] = x, y, lean
            log[logged, 4], log[logged, 5], log[logged, 6] = head_speed, arm, club_at
            log[logged, 7:] = pressure
            logged += 1
        step_count += 1

        # the ball, at the end of the step
        x_end = link.hub_x + r * sin(arm) + length * sin(club_at)
        y_end = link.hub_y - sine * (r * cos(arm) + length * cos(club_at))
        lean_end = lean_of(club_at, sine)
        if met > 0:
            ball_x += bvx * dt
            ball_y += bvy * dt
            bvy -= GRAVITY * dt
        old_gap = gap
        gap, nx, ny, along = _gap(x_end, y_end, lean_end, loft, ball_x, ball_y)
        parted = parted or (met > 0 and gap > 1.0e-4)
        apart = apart or (met > 0 and gap > APART)
        if gap <= 0.0 and (met == 0 or (parted and not apart and met < 3)):
            # back to the moment of touch: the gap is taken as linear in the step, the pose is rewound
            early = dt * gap / (gap - old_gap) if old_gap > gap else 0.0
            time -= early
            arm, club_at, r = arm - early * arm_speed, club_at - early * club_speed, r - early * reach_speed
            arm_speed -= early * arm_up
            club_speed -= early * club_up
            reach_speed -= early * reach_up
            ball_x, ball_y = ball_x - early * bvx, ball_y - early * bvy
            x, y, lean, vx, vy, turn, pitch = _pose(link, arm, club_at, r, arm_speed, club_speed, reach_speed)
            _, nx, ny, along = _gap(x, y, lean, loft, ball_x, ball_y)
            held = min(max(along, 0.0), FACE_LENGTH)
            px, py = -held * sin(loft - lean), held * cos(loft - lean)
            film = earth / CHIP_HEIGHT
            mu = EARTH_FRICTION + (surface.face_friction - EARTH_FRICTION) * exp(-film / EARTH_FRICTION_SCALE)
            sx, sy, s_spin, j_n, j_t = oblique_impact(
                vx - turn * py - bvx, vy + turn * px - bvy, nx, ny, club.head_mass, mu,
                exp(-film / EARTH_DAMPING_SCALE),
            )  # fmt: skip
            if met == 0:
                hit_time, hit_speed, hit_lean = time, hypot(vx, vy), lean
                hit_attack, hit_edge = atan2(vy, vx), y - raised
                met = 1 if along >= 0.0 else (2 if hit_edge < RADIUS else 3)
                cushion = film
                lead = max(x - first_x, 0.0) if first_x == first_x else 0.0
            elif j_n > 0.0:
                double = 1
            parted = False
            bvx, bvy, spin = bvx + sx, bvy + sy, spin + s_spin
            launch = (ball_x, ball_y, bvx, bvy)
            jx, jy = j_n * nx + j_t * ny, j_n * ny - j_t * nx
            kick = _accelerations(
                link, r, arm - club_at,
                -(jx * r * cos(arm) + jy * sine * r * sin(arm)),
                -length * (jx * cos(club_at) + jy * sine * sin(club_at)) - (px * jy - py * jx) * pitch,
                -(jx * sin(arm) - jy * sine * cos(arm)),
            )  # fmt: skip
            arm_speed, club_speed, reach_speed = arm_speed + kick[0], club_speed + kick[1], reach_speed + kick[2]
            gap = 0.0
            touching = True
        if clear < 0.0:
            out_of_ground = time
            speed_after = head_speed
        if apart and not whole:
            break
        if head_speed < 0.3 or vx < 0.0:
            stuck = 1
            speed_after = head_speed
            break
        if x > 0.38 or (met == 0 and x > 0.06 and not whole):
            break
        if whole and (met > 0 or x > 0.06) and clear > 0.03 and time > out_of_ground + 4.0e-3:
            break
    if met > 0 and out_of_ground < hit_time:
        speed_after = head_speed
    return Blow(
        met, double, launch[0], launch[1], launch[2], launch[3], spin, hit_time, speed_before, hit_speed, speed_after,
        hit_lean, hit_attack, hit_edge, lead, dug, deepest, cushion, stuck, logged, up, down, incidence,
    )  # fmt: skip


@law
def lean_bounce(elements: np.ndarray, lean: float) -> float:
    """Effective bounce (rad): the sole's chord under the leading edge at that lean."""
    last = elements.shape[0] - 1
    first = EDGE_ELEMENTS
    return atan2(elements[first, 1] - elements[last, 1], elements[first, 0] - elements[last, 0]) - lean
