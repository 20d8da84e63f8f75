"""The strike: two links under ground forces, and the meeting of head and ball."""

from dataclasses import replace
from math import cos, degrees, hypot, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from physics.address import Motion, Setup
from physics.compiled import as_record
from physics.contact_geometry import clean_contact_height, edge_contact_normal
from physics.corridor import bench, strike_stray, stroke_of
from physics.equipment import BAG, BALL
from physics.head import edge_centre
from physics.impact import TANGENT_RESTITUTION
from physics.quality import NO_STANDARD
from physics.spread import PLAYERS, draw_strays
from physics.strike import LOG_COLUMNS, STANDING_GRASS, Blow
from physics.surfaces import SURFACES, Surface
from physics.swing import Links, arm_acceleration, arm_rate, club_angle, edge, reach
from physics.twolink import ARM_DAMPING, ARM_GIVE_MASS, ARM_STIFFNESS

EXACTLY = np.array([1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0])
FAIRWAY = SURFACES["fairway"]


def strike(
    setup: Setup | None = None,
    motion: Motion | None = None,
    surface: Surface = FAIRWAY,
    *,
    lift: float = 0.0,
    up: float = 0.0,
    stray: np.ndarray = EXACTLY,
    whole: bool = True,
    fineness: float = 1.0,
    log: np.ndarray | None = None,
) -> tuple[Blow, Links]:
    """One strike; `up` (m) raises the hub."""
    setup, motion = setup or Setup(), motion or Motion()
    strayed = stray.copy()
    strayed[2] += up
    log = np.zeros((0, LOG_COLUMNS)) if log is None else log
    out = strike_stray(
        as_record(setup.club), as_record(surface), lift, stroke_of(setup, motion), strayed, bench(), log,
        whole, NO_STANDARD, fineness,
    )  # fmt: skip
    return out[0], out[1]


# ---- the two links without ground, and under a known force

NO_BALL = -5.0  # m: a ball far under the ground is never met


def flown(drag: float, motion: Motion) -> tuple[np.ndarray, Links]:
    """Log of a swing 15 mm over the ground through grass that pulls with `drag` (N) against the head.

    Grass makes the strike begin 40 mm over the ground, so a long stretch is integrated.
    """
    log = np.zeros((4096, LOG_COLUMNS))
    surface = replace(FAIRWAY, grass_drag=drag)
    blow, link = strike(None, motion, surface, lift=NO_BALL, up=0.015, log=log)
    assert blow.met == 0
    assert blow.deepest == 0.0
    return log[: blow.logged], link


MOTIONS = [Motion(), Motion(release=1.5, follow_through=0.3), Motion(release=0.6, follow_through=0.1)]


@pytest.mark.parametrize("motion", MOTIONS)
def test_without_force_the_links_follow_the_intended_swing(motion: Motion) -> None:
    """The torques of inverse dynamics bring back the motion they were computed from: 6e-5 at most.

    Up to the ball 1e-6 (m, rad), over more than 15 cm of head travel. There the drive turns into the brake
    within one knot of the torques (1 ms), which costs up to 6e-5 over the next 15 cm: a short
    follow-through brakes hardest.
    """
    log, link = flown(1e-12, motion)
    early = log[:, 0] < 0.0
    assert np.ptp(log[early, 1]) > 0.15
    want = np.array([(*edge(link, arm), club_angle(link, arm)) for arm in log[:, 5]])
    off = abs(log[:, [1, 2, 3, 6]] - want).max(axis=1)
    assert off[early].max() < 1e-6
    assert off.max() < 6e-5


def mechanics(link: Links) -> tuple[object, object]:
    """Mass matrix and remaining terms of (arm, club, reach), from the club's mass centre alone (derived).

    The arms turn about the hub; the club is one body at `far` from the wrist with its own inertia; the
    giving part of the arms moves along the reach only. Plane inclined: gravity times its sine.
    """
    far = link.club_moment / link.club_mass
    own = link.club_inertia - link.club_mass * far * far
    g = 9.81 * link.sine

    def mass(q: np.ndarray) -> np.ndarray:
        a, c, r = q
        J = np.array([[r * cos(a), far * cos(c), sin(a)], [r * sin(a), far * sin(c), -cos(a)]])
        return link.club_mass * J.T @ J + np.diag([link.arm_inertia, own, ARM_GIVE_MASS])

    def rest(q: np.ndarray, v: np.ndarray) -> np.ndarray:
        """Everything but M q'' on the left-hand side of the Lagrange equations."""
        a, c, r = q
        J = np.array([[r * cos(a), far * cos(c), sin(a)], [r * sin(a), far * sin(c), -cos(a)]])
        bend = np.array([
            -r * sin(a) * v[0] ** 2 - far * sin(c) * v[1] ** 2 + 2.0 * cos(a) * v[0] * v[2],
            r * cos(a) * v[0] ** 2 + far * cos(c) * v[1] ** 2 + 2.0 * sin(a) * v[0] * v[2],
        ])  # fmt: skip
        weight = np.array([link.arm_moment * g * sin(a), 0.0, 0.0])
        return link.club_mass * J.T @ (bend + np.array([0.0, g])) + weight

    return mass, rest


def intended(link: Links, arm: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """q, q', q'' of the intended swing; the reach by central differences along the arc."""
    h, rate, up = 1e-4, arm_rate(link, arm), arm_acceleration(link, arm)
    r0, r, r1 = (reach(link, arm + k) for k in (-h, 0.0, h))
    slope, curl = (r1 - r0) / (2.0 * h), (r1 - 2.0 * r + r0) / h**2
    q = np.array([arm, club_angle(link, arm), r])
    v = np.array([1.0, link.release, slope]) * rate
    return q, v, np.array([1.0, link.release, slope]) * up + np.array([0.0, 0.0, curl]) * rate**2


def test_links_under_a_known_force_against_scipy() -> None:
    """Head dragged with 20 N against its motion; scipy's solve_ivp of the Lagrange equations.

    Written here from the club's mass centre, without the library's mass matrix. Up to the ball 1 um,
    where the drag has moved the head by more than 3 cm. There the drive turns into the brake within one
    knot of the torques: after it half a percent of what the drag moves.
    """
    drag, motion = 20.0, Motion(release=1.3, follow_through=0.4)
    log, link = flown(drag, motion)
    mass, rest = mechanics(link)
    first = link.arm_ball - 0.6
    plan = solve_ivp(
        lambda t, a: [arm_rate(link, a[0])], (0.0, 0.6), [first], rtol=1e-10, atol=1e-12, dense_output=True,
    )  # fmt: skip
    zero = np.interp(link.arm_ball, plan.sol(np.linspace(0, 0.6, 60001))[0], np.linspace(0, 0.6, 60001))

    def head(q: np.ndarray) -> np.ndarray:
        a, c, r = q
        across = link.hub_x + r * sin(a) + link.length * sin(c)
        return np.array([across, link.hub_y - link.sine * (r * cos(a) + link.length * cos(c))])

    start, stop = log[0, 0] - 37.5e-6, log[-1, 0]
    grid = np.linspace(start - 1e-3, stop + 1e-3, 400)
    rows = [intended(link, plan.sol(t + zero)[0]) for t in grid]
    table = np.array([(q, v, mass(q) @ up + rest(q, v)) for q, v, up in rows])  # type: ignore[operator]

    def at(t: float, k: int) -> np.ndarray:
        return np.array([np.interp(t, grid, table[:, k, i]) for i in range(3)])

    def swing(t: float, state: np.ndarray) -> np.ndarray:
        q, v = state[:3], state[3:]
        meant, rate = at(t, 0), at(t, 1)
        torque = at(t, 2)
        torque[2] += ARM_STIFFNESS * (meant[2] - q[2]) + ARM_DAMPING * (rate[2] - v[2])
        a, c, r = q
        J = np.array([
            [r * cos(a), link.length * cos(c), sin(a)],
            [link.sine * r * sin(a), link.sine * link.length * sin(c), -link.sine * cos(a)],
        ])  # fmt: skip
        moving = J @ v
        torque = torque - J.T @ (drag * moving / np.hypot(*moving))
        return np.concatenate([v, np.linalg.solve(mass(q), torque - rest(q, v))])  # type: ignore[operator]

    begin = intended(link, plan.sol(start + zero)[0])
    out = solve_ivp(
        swing,
        (start, stop),
        np.concatenate(begin[:2]),
        t_eval=log[1:, 0],
        rtol=1e-9,
        atol=1e-11,
        max_step=1e-3,
    )
    places = np.array([head(q) for q in out.y[:3].T])
    meant = np.array([edge(link, plan.sol(t + zero)[0])[:2] for t in log[1:, 0]])
    off, moved = abs(places - log[1:, 1:3]).max(axis=1), abs(places - meant).max()
    early = log[1:, 0] < 0.0
    assert moved > 0.1
    assert abs((places - meant)[early]).max() > 0.03
    assert off[early].max() < 5e-6  # the last knot of the torques reaches a millisecond past the ball
    assert off.max() < 0.005 * moved


# ---- head and ball


def test_clean_blow_is_the_oblique_impact_of_the_head_as_it_moves() -> None:
    """Momentum along the normal and grip: e from speed, head 0.3 kg; turning of the head adds under 1 %."""
    blow, _ = strike(None, Motion(), up=0.004)
    loft = BAG["SW"].loft - blow.lean
    assert blow.met == 1
    v_n = blow.speed_at_ball * cos(loft - blow.attack)
    v_t = blow.speed_at_ball * sin(loft - blow.attack)
    light = BALL.mass / BAG["SW"].head_mass
    e = 0.86 - 0.0029 * v_n
    u_n = blow.ball_vx * cos(loft) + blow.ball_vy * sin(loft)
    u_t = blow.ball_vx * sin(loft) - blow.ball_vy * cos(loft)
    assert u_n == pytest.approx((1.0 + e) * v_n / (1.0 + light), rel=0.02)
    assert u_t == pytest.approx(
        min(FAIRWAY.face_friction * u_n, (1 + TANGENT_RESTITUTION) * v_t / (light + 3.5)), rel=0.02
    )
    assert blow.spin == pytest.approx(2.5 * u_t / BALL.radius, rel=1e-9)


def kind_at(height: float) -> Blow:
    """Strike with the edge at about `height` (m) over the ball's lowest point as it comes to the ball."""
    plain = strike(Setup(), Motion(), up=0.05)[1]
    return strike(Setup(), Motion(), up=height + FAIRWAY.ball_raise - edge(plain, plain.arm_ball)[1] + 0.05)[
        0
    ]


def test_height_of_the_edge_decides_face_edge_or_air() -> None:
    """Closed form: the face meets the ball first while the middle of the rounded edge, r, is no higher than
    R - (R + r) sin loft, which is the sharp edge's rule for a ball of R + r; air from 2 R (derived)."""
    r, lean = BAG["SW"].edge_radius, strike()[1].delivered
    top = clean_contact_height(BALL.radius + r, BAG["SW"].loft - lean) - r - edge_centre(r, lean)[1]
    kinds = [(h, kind_at(h).met) for h in np.linspace(0.0, 0.048, 49)]
    for height, met in kinds:
        if (
            abs(height - top) > 1e-3
            and abs(height - BALL.radius) > 1.5e-3
            and abs(height - 2 * BALL.radius) > 2e-3
        ):
            want = (
                1 if height < top else 2 if height < BALL.radius else 3 if height < 2.0 * BALL.radius else 0
            )
            assert met == want, f"edge {height * 1e3:.1f} mm up"
    assert {met for _, met in kinds} == {0, 1, 2, 3}


@pytest.mark.parametrize("height_mm", [8.0, 12.0, 16.0])
def test_thin_strike_sends_the_ball_along_the_edge_normal(height_mm: float) -> None:
    """Launch between the normal from edge to ball and the head's own way, nearer the normal (derived)."""
    blow = kind_at(height_mm / 1e3)
    assert blow.met == 2
    r = BAG["SW"].edge_radius
    middle = blow.edge_height + edge_centre(r, blow.lean)[1]
    normal = edge_contact_normal(BALL.radius + r, middle + r)  # of the round edge, as if of a point in it
    launch = np.arctan2(blow.ball_vy, blow.ball_vx)
    assert blow.attack < launch < normal
    assert normal - launch < 0.5 * (normal - blow.attack)


def test_topped_ball_is_driven_down_and_rolls_forward() -> None:
    blow = kind_at(0.028)
    assert blow.met == 3
    assert blow.ball_vy < 0.0
    assert blow.spin < 0.0


# ---- ground


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(["green", "fringe", "tight", "fairway", "soft", "rough", "mat"]),
    st.floats(-0.004, 0.010), st.floats(-8, 15), st.sampled_from(sorted(BAG)),
)  # fmt: skip
def test_ground_slows_the_head(surface: str, depth: float, lean_deg: float, name: str) -> None:
    """Head speed at the ball is at most that of the same swing over no ground, hands' give aside (2 %)."""
    setup, motion = Setup(club=BAG[name]), Motion(depth=depth, lean_change=radians(lean_deg))
    blow, _ = strike(setup, motion, SURFACES[surface])
    if blow.met == 0:
        return
    assert blow.speed_at_ball < 1.02 * blow.speed_before
    assert blow.deepest >= 0.0
    assert blow.speed_after < 1.05 * blow.speed_before


def test_clean_strike_over_the_ground_loses_nothing_before_the_ball() -> None:
    blow, _ = strike(up=0.004)
    assert blow.speed_at_ball == pytest.approx(blow.speed_before, rel=2e-3)
    assert (blow.lead, blow.dug, blow.cushion) == (0.0, 0.0, 0.0)


def test_deeper_means_more_turf_and_less_ball() -> None:
    blows = [strike(None, Motion(depth=d / 1e3))[0] for d in (0, 3, 6, 9, 12, 15)]
    taken = [1.0 - b.speed_at_ball / b.speed_before for b in blows]
    ball = [hypot(b.ball_vx, b.ball_vy) for b in blows]
    assert (np.diff(taken) > 0.0).all()
    assert (np.diff(ball) < 0.0).all()
    assert (np.diff([b.lead for b in blows]) > 0.0).all()


def test_leading_edge_without_bounce_digs_where_bounce_skids() -> None:
    """Common practice: kept lean exposes the edge, which then cuts deeper than the sole would sink."""
    sole = strike(Setup(club=BAG["SW-high"], shaft_lean=0.0), Motion(depth=0.008))[0]
    bare = strike(
        Setup(club=BAG["SW-low"], shaft_lean=radians(5)), Motion(lean_change=radians(10), depth=0.008)
    )[0]
    assert bare.incidence < sole.incidence
    assert bare.dug > 2.0 * max(sole.dug, 1e-3)


def test_push_of_the_ground_lifts_the_head() -> None:
    """A sole that bears leaves the ground higher than it was headed, sooner than without ground."""
    log, free = np.zeros((4096, LOG_COLUMNS)), np.zeros((4096, LOG_COLUMNS))
    hard, _ = strike(None, Motion(depth=0.006), SURFACES["tight"], log=log)
    _, link = strike(None, Motion(depth=0.006), up=0.05, log=free)
    meant = [edge(link, a)[1] - 0.05 for a in log[: hard.logged, 5]]
    assert hard.lift > 0.5
    assert (log[: hard.logged, 2] - meant).max() > 3e-3


def test_whole_and_short_strike_give_the_same_ball() -> None:
    """The cloud stops where the ball can no longer be met; the blow must be the one of the picture."""
    for i, stray in enumerate(draw_strays(PLAYERS["beginner"], 4, 60)):
        surface = SURFACES[("fairway", "soft", "mat", "sand")[i % 4]]
        whole, short = (strike(None, Motion(), surface, stray=stray, whole=w)[0] for w in (True, False))
        assert whole[:6] == short[:6]
        assert np.array_equal(whole[6:8], short[6:8], equal_nan=True)


def test_half_steps_move_the_launch_little() -> None:
    """Club player's strokes on fairway: nine of ten launches move by under 0.2 % when steps are halved."""
    moved = []
    for stray in draw_strays(PLAYERS["club"], 7, 120):
        a, b = (strike(stray=stray, whole=False, fineness=f)[0] for f in (1.0, 0.5))
        if a.met and a.met == b.met:
            speed = hypot(a.ball_vx, a.ball_vy)
            moved.append(hypot(a.ball_vx - b.ball_vx, a.ball_vy - b.ball_vy) / speed)
        else:
            moved.append(float(a.met != b.met))
    assert np.quantile(moved, 0.9) < 2e-3


# ---- what cannot be played


def test_arms_that_cannot_bring_the_club_miss() -> None:
    """No legal set-up is so weak; a stroke that strays to a twentieth of its speed is."""
    feeble = EXACTLY.copy()
    feeble[0] = 0.05
    blow, _ = strike(Setup(ball_position=0.12), Motion(swing_length=radians(10)), stray=feeble)
    assert blow.speed_before < 0.3
    assert (blow.met, blow.stuck, blow.deepest) == (0, 0, 0.0)


def test_a_head_that_stops_in_the_air_is_not_stuck_in_the_turf() -> None:
    for seed in range(4):
        for stray in draw_strays(PLAYERS["beginner"], seed, 25):
            blow, _ = strike(Setup(ball_position=0.08), Motion(radians(10)), stray=stray)
            assert not (blow.stuck and blow.deepest == 0.0)


def test_sand_takes_more_the_deeper_and_the_ball_rides_out_on_it() -> None:
    """Common practice: a splash with the opened sand wedge goes under the ball; deeper is shorter."""
    setup = Setup(face_open=radians(15), shaft_lean=0.0, ball_position=0.03)
    blows = [
        strike(setup, Motion(radians(80), 1.3, 0.6, depth=d / 1e3), SURFACES["sand"])[0] for d in (14, 17, 20)
    ]
    assert [b.met for b in blows] == [1, 1, 1]
    assert (np.diff([b.speed_at_ball / b.speed_before for b in blows]) < 0.0).all()
    assert (np.diff([hypot(b.ball_vx, b.ball_vy) for b in blows]) < 0.0).all()
    assert (np.diff([b.cushion for b in blows]) > 0.0).all()
    for b in blows:  # order of magnitude: sand.md gives 0.35-0.55 of the head speed at 35-50 degrees
        assert 33.0 < degrees(np.arctan2(b.ball_vy, b.ball_vx)) < 50.0
        assert 0.25 < hypot(b.ball_vx, b.ball_vy) / b.speed_before < 0.6


def test_strike_begins_where_the_grass_does() -> None:
    log = np.zeros((4096, LOG_COLUMNS))
    strike(surface=replace(FAIRWAY, grass_drag=1.0), lift=NO_BALL, up=0.02, log=log)
    assert log[0, 2] == pytest.approx(STANDING_GRASS, abs=0.01)
