"""One chip on a level course, written the plain way: scipy's solve_ivp with events, Python floats.

The yardstick for the compiled corridor, of another make: adaptive Runge-Kutta in place of the fixed
steps, events in place of the walk, equations of motion in place of closed forms on the ground. The
laws are the same ones, as plain Python. Left out, so choose a stroke that needs none of it: sand, mat,
dragging grass, a second touch, slopes, wind, scenery.
"""

from bisect import bisect_right
from collections.abc import Callable
from math import cos, hypot, sin
from types import FunctionType
from typing import Any, NamedTuple

import numpy as np
from scipy.integrate import solve_ivp

from physics.address import Motion, Setup
from physics.bounce import land, settles
from physics.corridor import stroke_of
from physics.course import Course
from physics.equipment import BALL
from physics.face import opened_head
from physics.flight import air_force
from physics.head import EDGE_ELEMENTS, EDGE_WIDTH, ELEMENTS, SOLE_WIDTH, reach_of_face, sole_elements
from physics.roll import roll_pull, slide_pull, slips
from physics.sole import CELL, CELLS, GROUND_LEFT, _edge_cut, _turf_element, yield_pressure
from physics.strike import CONTACT_STEP, Ball, _blow, _film
from physics.surfaces import SURFACES, Surface, green
from physics.swing import Links, arm_rate, club_angle, edge, links
from physics.twolink import HeadPose, Limbs, drive_at, head_pose, kicked

__all__ = ["PlainShot", "plain", "plain_shot"]

State = list[float]
Event = Callable[[float, State], float]
LONGEST = 60.0  # s, no flight or roll lasts longer
FORGET = 1.0e-4  # s in which a strip out of the ground forgets its slip, assumed: one contact step or so
STOPPED = 1e-6  # m/s, slower slip or motion has ended
STRICT = {"rtol": 1e-8, "atol": 1e-10}


class PlainShot(NamedTuple):
    """Ball speed (m/s) off the face, and where the ball rests (m)."""

    speed: float
    rest: float


PLAIN: dict[Any, Any] = {}


def plain(law: Any) -> Any:
    """The law as a plain Python function that calls plain Python functions, all the way down."""
    if law not in PLAIN:
        function = law.py_func
        names = dict(function.__globals__)
        PLAIN[law] = FunctionType(function.__code__, names, function.__name__, function.__defaults__)
        for name in function.__code__.co_names:
            if hasattr(names.get(name), "py_func"):
                names[name] = plain(names[name])
    return PLAIN[law]


def crossing(function: Event, direction: float = 0.0) -> Event:
    """The function as an event that ends the integration."""
    function.terminal, function.direction = True, direction  # type: ignore[attr-defined]
    return function


# ---- the strike


class Head(NamedTuple):
    """The head of one stroke and the lie it meets: strips as tuples, ground columns as lists."""

    link: Links
    loft: float
    edge_radius: float
    strips: list[State]
    surface: Surface
    limit: float
    pressed: State
    cut: State


def address(setup: Setup, motion: Motion, surface: Surface) -> Head:
    """The links and the sole of the intended stroke, over fresh ground."""
    club, stroke = setup.club, stroke_of(setup, motion)
    loft, bounce, _ = plain(opened_head)(club, stroke.face_open)
    strips = np.zeros((ELEMENTS, 5))
    plain(sole_elements)(bounce, club.sole_width, club.camber, club.edge_radius, strips)
    link = Links(*map(float, plain(links)(club, stroke, loft, strips)))
    limit = plain(yield_pressure)(surface)
    ground = [0.0] * CELLS
    return Head(link, loft, club.edge_radius, strips.tolist(), surface, limit, ground, ground.copy())


def clearance(head: Head, y: float, lean: float) -> float:
    """Height (m) of the lowest strip over the ground."""
    c, s = cos(lean), sin(lean)
    return y + min(0.0, min(e[1] * c - e[0] * s for e in head.strips))


def sole_force(head: Head, pose: HeadPose, slip: State) -> tuple[float, float, float, State]:
    """Force (N), moment (N m) of turf on the sole, and the rate (m/s) at which each strip slips."""
    fx, fy, moment, rates = 0.0, 0.0, 0.0, []
    c, s = cos(pose.lean), sin(pose.lean)
    for i, (x, y, out_x, out_y, length) in enumerate(head.strips):
        ex, ey = x * c + y * s, y * c - x * s
        depth = -(pose.y + ey)
        if depth <= 0.0:
            rates.append(-slip[i] / FORGET)
            continue
        nx, ny = out_x * c + out_y * s, out_y * c - out_x * s
        ux, uy = pose.vx - pose.turn * ey, pose.vy + pose.turn * ex
        vn, vt = ux * nx + uy * ny, uy * nx - ux * ny
        cell = int((pose.x + ex - GROUND_LEFT) / CELL)
        p, shear = plain(_turf_element)(
            depth, cell, vn, vt, max(slip[i], 0.0), head.surface, head.limit, head.pressed, head.cut
        )
        area = length * (EDGE_WIDTH if i < EDGE_ELEMENTS else SOLE_WIDTH)
        px, py = (shear * ny - p * nx) * area, (-p * ny - shear * nx) * area
        fx, fy, moment = fx + px, fy + py, moment + ex * py - ey * px
        rates.append(abs(vt))
    return fx, fy, moment, rates


def limbs_of(state: State) -> Limbs:
    return Limbs(*state[:6], 0.0, 0.0, 0.0)


def strike_rate(head: Head) -> Callable[[float, State], State]:
    """Rates of arm, club, reach, their rates, intended arm angle, earth before the ball, slip of strips."""
    pose_at, drive_of, kick, cutting = plain(head_pose), plain(drive_at), plain(kicked), plain(_edge_cut)

    def rate(_: float, values: Any) -> State:
        state = values.tolist()
        limbs = limbs_of(state)
        pose = pose_at(head.link, limbs)
        fx, fy, moment, slips_by = sole_force(head, pose, state[8:])
        gx, gy, _, taken = cutting(pose, head.loft, head.edge_radius, -1.0, head.surface, head.cut)
        drive = drive_of(head.link, state[6])
        up = kick(head.link, limbs, limbs, drive, fx + gx, fy + gy, moment, pose.pitch, 0.0)[6:]
        return [*state[3:6], *up, drive.arm_turn, taken * max(pose.vx, 0.0), *slips_by]

    return rate


def between(head: Head, x: float, y: float, lean: float, ball_y: float) -> float:
    """Distance (m) of the ball at 0 from edge and face of a head there."""
    far = plain(reach_of_face)(x, y, lean, head.loft, head.edge_radius, 0.0, ball_y)[0]
    return float(far) - BALL.radius


def first_touch(head: Head, ball_y: float) -> float:
    """Arm angle at which the intended swing brings the sole to the ground, or the head to the ball."""
    rate, where, link = plain(arm_rate), plain(edge), head.link

    def near(_: float, arm: State) -> float:
        x, y, lean = where(link, float(arm[0]))
        return min(clearance(head, y, lean), between(head, x, y, lean, ball_y))

    start = [max(link.arm_top + 1e-3, link.arm_ball - 0.6)]
    way = solve_ivp(
        lambda _, arm: [rate(link, float(arm[0]))], (0.0, 1.0), start, events=crossing(near, -1.0), **STRICT
    )
    return float(way.y[0, -1])


def strike(setup: Setup, motion: Motion, surface: Surface, lift: float) -> Ball:
    """The ball just after the blow. ValueError when the club misses it."""
    head = address(setup, motion, surface)
    link, ball = head.link, Ball(0.0, surface.ball_raise + lift + BALL.radius, 0.0, 0.0, 0.0)
    arm = first_touch(head, ball.y)
    drive = plain(drive_at)(link, arm)
    start = [
        arm, plain(club_angle)(link, arm), drive.reach,
        drive.arm_turn, link.release * drive.arm_turn, drive.reach_rate, arm, *[0.0] * (1 + ELEMENTS),
    ]  # fmt: skip
    pose_at = plain(head_pose)

    def gap(_: float, state: State) -> float:
        pose = pose_at(link, limbs_of(state))
        return between(head, pose.x, pose.y, pose.lean, ball.y)

    # The ground only ever gets deeper, so a look ahead by a stage of a step does no harm.
    way = solve_ivp(
        strike_rate(head), (0.0, 0.16), start, events=crossing(gap, -1.0),
        max_step=CONTACT_STEP, rtol=1e-3, atol=1e-4,
    )  # fmt: skip
    if way.status != 1:
        raise ValueError("this stroke does not meet the ball")
    pose = pose_at(link, limbs_of(way.y[:, -1].tolist()))
    film = plain(_film)(pose, head.edge_radius, float(way.y[7, -1]), surface)
    mass, edge_radius = setup.club.head_mass, head.edge_radius
    struck: Ball = plain(_blow)(pose, head.loft, edge_radius, ball, film, mass, surface)[0]
    return struck


# ---- the run


def surface_under(course: Course, x: float) -> Surface:
    """The surface at x, as it plays today; the course is of ordinary firmness."""
    ground = course.ground
    i = min(max(bisect_right(ground.x, x) - 1, 0), len(ground.surfaces) - 1)
    name = ground.surfaces[i]
    return green(course.green_speed) if name == "green" else SURFACES[name]


def fly(ball: Ball) -> Ball:
    """To the ground: the state just before it lands."""
    force = plain(air_force)

    def rate(_: float, state: State) -> State:
        y, vx, vy, spin = map(float, state[1:])
        return [vx, vy, *force(y, vx, vy, spin, 0.0)]

    state = list(ball)
    # to the top first: a hop within one step would begin and end on the ground, and its event be missed
    ends = [crossing(lambda _, s: s[3], -1.0)] if ball.vy > 0.0 else []
    for end in [*ends, crossing(lambda _, s: s[1] - BALL.radius, -1.0)]:
        state = solve_ivp(rate, (0.0, LONGEST), state, "DOP853", events=end, **STRICT).y[:, -1]
    x, _, vx, vy, spin = map(float, state)
    return Ball(x, BALL.radius, vx, vy, spin)


def roll(course: Course, x: float, u: float, spin: float) -> float:
    """Slide and roll to rest from x at u (m/s): where. Pieces end with slip, motion or surface."""
    slide, drag, slip = plain(slide_pull), plain(roll_pull), u + BALL.radius * spin
    while abs(u) > STOPPED or abs(slip) > STOPPED:
        surface = surface_under(course, x + 1e-9 * u)
        way = plain(slips)(u, spin, 0.0, surface) if abs(slip) > STOPPED else 0

        def rate(_: float, state: State, surface: Surface = surface, way: int = way) -> State:
            if way:
                return [float(state[1]), *slide(float(state[1]), float(state[2]), way, 0.0, surface)[:2]]
            pull = drag(float(state[1]), 0.0, surface)
            return [float(state[1]), pull, -pull / BALL.radius]

        knots = [knot for knot in course.ground.x if abs(knot - x) > 1e-9]
        ends = [crossing(lambda _, s, knot=knot: s[0] - knot) for knot in knots]
        ends.append(crossing(lambda _, s: s[1] + BALL.radius * s[2]) if way else crossing(lambda _, s: s[1]))
        piece = solve_ivp(rate, (0.0, LONGEST), [x, u, spin], events=ends, **STRICT)
        x, u, spin = map(float, piece.y[:, -1])
        slip = u + BALL.radius * spin
    return x


def plain_shot(course: Course, setup: Setup, motion: Motion) -> PlainShot:
    """One shot without stray on a level course of plain turf. ValueError when the club misses the ball."""
    lie = SURFACES[course.lie.surface or surface_under(course, 0.0).name]
    ball = strike(setup, motion, lie, course.lie.lift)
    speed = hypot(ball.vx, ball.vy)
    while True:
        ball = fly(ball)
        vx, vy, spin = plain(land)(ball.vx, ball.vy, ball.spin, 0.0, surface_under(course, ball.x))
        ball = Ball(ball.x, ball.y, vx, vy, spin)
        if plain(settles)(vx, vy, 0.0):
            return PlainShot(speed, roll(course, ball.x, vx, spin))
