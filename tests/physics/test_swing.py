"""The two-link swing: its geometry, its energy, and what must come out of it unforced."""

from dataclasses import replace
from math import atan, cos, degrees, hypot, radians, sin, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from physics.address import CONTROLS, Motion, Setup
from physics.compiled import as_record
from physics.contact_geometry import arc_attack, arc_height
from physics.corridor import stroke_of
from physics.equipment import BAG, BALL
from physics.face import open_face
from physics.head import ELEMENTS, edge_centre, lowest_point, reach_of_face, sole_elements
from physics.shot import flat_spot
from physics.swing import (
    REACH,
    WRIST,
    Links,
    arm_acceleration,
    arm_rate,
    club_angle,
    edge,
    edge_velocity,
    fold,
    head_behind,
    hub_follows,
    lean_of,
    links,
    plane_angle,
    potential,
    reach,
    whole_inertia,
)


def head_of(setup: Setup) -> tuple[float, np.ndarray]:
    """Loft of the opened face and the sole strips."""
    face, strips = open_face(setup.club, setup.face_open), np.zeros((ELEMENTS, 5))
    sole_elements(face.bounce, setup.club.sole_width, setup.club.camber, setup.club.edge_radius, strips)
    return face.loft, strips


def link_of(setup: Setup | None = None, motion: Motion | None = None, **stroke: float) -> Links:
    setup = setup or Setup()
    loft, strips = head_of(setup)
    made = stroke_of(setup, motion or Motion())._replace(**stroke)
    return links(as_record(setup.club), made, loft, strips)


def attack(link: Links) -> float:
    vx, vy = edge_velocity(link, link.arm_ball)
    return atan(vy / vx)


def sole_height(link: Links, setup: Setup) -> float:
    """Height of the sole over the ground as the head comes to the ball (m)."""
    _, y, lean = edge(link, link.arm_ball)
    return y + lowest_point(head_of(setup)[1], lean)


@st.composite
def strokes(draw: st.DrawFn) -> tuple[Setup, Motion]:
    value = {c.name: draw(st.floats(c.low, c.high)) for c in CONTROLS.values()}
    owners = ("setup", "motion")
    setup, motion = ({n: v for n, v in value.items() if CONTROLS[n].owner == o} for o in owners)
    return Setup(club=BAG[draw(st.sampled_from(sorted(BAG)))], **setup), Motion(**motion)


# ---- geometry


@settings(deadline=None)
@given(st.floats(-0.6, 0.6), st.floats(0.8, 1.0))
def test_lean_and_plane_angle_undo_each_other(lean: float, sine: float) -> None:
    assert lean_of(plane_angle(lean, sine), sine) == pytest.approx(lean, abs=1e-12)


@settings(deadline=None)
@given(st.floats(-1.0, 1.0), st.floats(-0.5, 1.5))
def test_fold_derivatives_are_those_of_the_fold(arm: float, at: float) -> None:
    h = 1e-5
    (low, low_rate, _), (high, high_rate, _) = fold(arm - h, at), fold(arm + h, at)
    _, rate, curl = fold(arm, at)
    assert (high - low) / (2.0 * h) == pytest.approx(rate, abs=1e-8)
    assert (high_rate - low_rate) / (2.0 * h) == pytest.approx(curl, abs=1e-7)


@settings(deadline=None)
@given(strokes())
def test_velocity_is_the_derivative_of_the_way(stroke: tuple[Setup, Motion]) -> None:
    link, h = link_of(*stroke), 1e-6
    for arm in (link.arm_ball - 0.1, link.arm_ball, link.arm_ball + 0.3):
        (x0, y0, _), (x1, y1, _) = edge(link, arm - h), edge(link, arm + h)
        vx, vy = edge_velocity(link, arm)
        rate = arm_rate(link, arm)
        assert rate * (x1 - x0) / (2.0 * h) == pytest.approx(vx, abs=1e-6 * (1.0 + rate))
        assert rate * (y1 - y0) / (2.0 * h) == pytest.approx(vy, abs=1e-6 * (1.0 + rate))


def matched(setup: Setup, motion: Motion) -> Setup:
    """The set-up with the lean that its motion brings back, so that it is promised too."""
    for _ in range(40):
        setup = replace(setup, shaft_lean=link_of(setup, motion).by_motion)
    return setup


@pytest.mark.parametrize("name", sorted(BAG))
@pytest.mark.parametrize("release", [0.7, 1.0, 1.4])
def test_matched_stroke_brings_sole_to_the_ground_and_head_to_the_ball(name: str, release: float) -> None:
    """The sole at the depth it was meant to have; edge and face of a head on the level just touch a ball."""
    motion = Motion(release=release, depth=0.0)
    setup = matched(Setup(club=BAG[name]), motion)
    link = link_of(setup, motion)
    assert sole_height(link, setup) == pytest.approx(0.0, abs=1e-12)
    assert link.promised == pytest.approx(link.delivered, abs=1e-12)
    assert sole_height(link_of(setup, replace(motion, depth=0.003)), setup) == pytest.approx(
        -0.003, abs=1e-12
    )
    x, _, lean = edge(link, link.arm_ball)
    r = setup.club.edge_radius
    level = r - edge_centre(r, lean)[1]  # height of the edge of a head whose rounding rests on the ground
    far = reach_of_face(x, level, lean, setup.club.loft, r, 0.0, BALL.radius)[0]
    assert far == pytest.approx(BALL.radius, abs=1e-12)


def test_weight_stance_and_handle_move_the_hub_toward_the_target() -> None:
    hub = link_of().hub_x
    assert link_of(Setup(lead_weight=0.8)).hub_x > hub
    assert link_of(Setup(lead_weight=0.5, stance_width=0.1, shaft_lean=0.0)).hub_x == pytest.approx(0.02)
    assert link_of(along=0.01).hub_x == pytest.approx(hub + 0.01)
    # stance width holds the hub between the feet: a wide one lets it go along with the handle less
    moved = [
        link_of(Setup(lead_weight=0.5, stance_width=w, shaft_lean=0.15)).hub_x - 0.02
        for w in (0.05, 0.2, 0.45)
    ]
    assert moved[0] > moved[1] > moved[2] == pytest.approx(0.0, abs=1e-12)
    assert hub_follows(0.45) == 0.0


@settings(deadline=None)
@given(st.floats(-0.09, 0.09), st.sampled_from(sorted(BAG)), st.floats(-0.1, 0.3))
def test_rigid_swing_follows_the_arc(offset: float, name: str, lean: float) -> None:
    """Release 1 and no fold near the ball: a circle of radius R in the plane, so R / sin(lie) seen face-on.

    Closed forms derived (see physics.contact_geometry); they differ from the ellipse of the side
    view from the fourth order on: 0.1 mm and 0.1 degrees at most within 9 cm.
    """
    link = link_of(Setup(club=BAG[name], shaft_lean=lean), Motion(follow_through=1.0))
    a, c = link.arm_ball, link.club_ball
    hand = complex(0.0, -REACH) * np.exp(1j * a)
    club = complex(0.0, -link.length) * np.exp(1j * c)
    radius = abs(hand + club) / link.sine
    lowest = a - (np.angle(hand + club) + np.pi / 2.0)
    bottom, _, _ = edge(link, lowest)
    assert bottom == pytest.approx(link.hub_x, abs=1e-6)
    arm = lowest + np.arcsin(offset / abs(hand + club))
    x, y, _ = edge(link, arm)
    vx, vy = edge_velocity(link, arm)
    assert x - bottom == pytest.approx(offset, abs=1e-6)  # the fold is far off, not nothing
    assert y - edge(link, lowest)[1] == pytest.approx(arc_height(offset, radius), abs=1e-4)
    if arm_rate(link, arm) > 0.0:
        assert atan(vy / vx) == pytest.approx(arc_attack(offset, radius), abs=radians(0.1))


def test_flat_spot_of_a_rigid_swing_has_the_length_of_the_arc() -> None:
    """Closed form: 2 sqrt(2 R h) with R the arc's radius and h = 2 mm (derived)."""
    link = link_of(Setup(shaft_lean=0.0), Motion(follow_through=1.0))
    lag = link.arm_ball - link.club_ball
    plane = np.sqrt(REACH**2 + link.length**2 + 2.0 * REACH * link.length * cos(lag))
    low, flat = flat_spot(link)
    assert low == pytest.approx(link.hub_x, abs=1e-3)
    assert flat == pytest.approx(2.0 * np.sqrt(2.0 * plane / link.sine * 2e-3), rel=0.01)


# ---- energy


def lagrangian_terms(link: Links, arm: float) -> tuple[float, float]:
    """Inertia and potential of arms and club from the place of the club's mass centre alone (derived)."""
    far = link.club_moment / link.club_mass

    def centre(a: float) -> complex:
        """In the swing plane, hub at the origin, the second axis up."""
        c = link.club_ball + link.release * (a - link.arm_ball)
        return reach(link, a) * complex(sin(a), -cos(a)) + far * complex(sin(c), -cos(c))

    h = 1e-5
    rate = abs(centre(arm + h) - centre(arm - h)) / (2.0 * h)
    own = link.club_inertia - link.club_mass * far * far
    inertia = link.arm_inertia + link.club_mass * rate**2 + own * link.release**2
    height = -link.arm_moment * cos(arm) + link.club_mass * centre(arm).imag
    return inertia, 9.81 * link.sine * height


@settings(deadline=None, max_examples=40)
@given(strokes(), st.floats(-0.5, 0.8))
def test_inertia_and_potential_are_those_of_two_bodies(stroke: tuple[Setup, Motion], off: float) -> None:
    link = link_of(*stroke)
    inertia, height = lagrangian_terms(link, link.arm_ball + off)
    assert whole_inertia(link, link.arm_ball + off) == pytest.approx(inertia, rel=1e-7)
    assert potential(link, link.arm_ball + off) == pytest.approx(height, abs=1e-9)


@pytest.mark.parametrize(
    ("release", "follow_through", "swing_deg"), [(1.0, 0.6, 45), (0.5, 1.0, 30), (1.7, 0.1, 90)]
)
def test_speed_is_that_of_the_driven_pendulum(
    release: float, follow_through: float, swing_deg: float
) -> None:
    """Against scipy's solve_ivp of the Lagrange equation of the constrained two links: 1e-6."""
    link = link_of(None, Motion(radians(swing_deg), release, follow_through))

    def motion(_: float, state: np.ndarray) -> list[float]:
        arm, rate = state
        h = 1e-4
        (m0, v0), (m1, v1) = lagrangian_terms(link, arm - h), lagrangian_terms(link, arm + h)
        bend, pull = (m1 - m0) / (2.0 * h), (v1 - v0) / (2.0 * h)
        inertia = lagrangian_terms(link, arm)[0]
        return [rate, (link.torque - pull - 0.5 * bend * rate**2) / inertia]

    def at_ball(_: float, state: np.ndarray) -> float:
        return state[0] - link.arm_ball

    at_ball.terminal = True  # type: ignore[attr-defined]
    out = solve_ivp(
        motion, (0.0, 3.0), [link.arm_top, 0.0], events=at_ball, rtol=1e-9, atol=1e-11, dense_output=True
    )
    assert out.t_events[0].size == 1
    assert arm_rate(link, link.arm_ball) == pytest.approx(out.y_events[0][0][1], rel=1e-6)
    for t in np.linspace(0.3, 0.95, 5) * out.t_events[0][0]:
        arm, rate = out.sol(t)
        assert arm_rate(link, arm) == pytest.approx(rate, rel=1e-5)
        assert arm_acceleration(link, arm) == pytest.approx(motion(t, out.sol(t))[1], rel=1e-4, abs=1e-4)


def test_brake_brings_the_arms_to_rest_at_the_finish() -> None:
    link = link_of()
    assert arm_rate(link, link.arm_ball) == pytest.approx(arm_rate(link, link.arm_ball + 1e-9), rel=1e-6)
    assert arm_rate(link, link.arm_finish) == pytest.approx(0.0, abs=1e-5)
    assert arm_rate(link, link.arm_top) == 0.0


@settings(deadline=None)
@given(st.floats(0.6, 1.4))
def test_speed_stray_scales_the_whole_swing(factor: float) -> None:
    plain, strayed = link_of(), link_of(speed=factor)
    for off in (-0.4, 0.0, 0.2):
        want = factor * arm_rate(plain, plain.arm_ball + off)
        assert arm_rate(strayed, plain.arm_ball + off) == pytest.approx(want)


def test_longer_swing_is_faster_throughout_its_range() -> None:
    control = CONTROLS["swing_length"]
    turns = np.linspace(control.low, control.high, 12)
    speeds = [hypot(*edge_velocity(link, link.arm_ball)) for t in turns if (link := link_of(None, Motion(t)))]
    assert (np.diff(speeds) > 0.0).all()


# ---- what must come out, unforced (common practice; sizes derived)


@pytest.mark.parametrize("extra_deg", [3.0, 6.0, 9.0, 12.0])
def test_extra_lean_takes_loft_and_bounce_one_for_one_and_shortens_the_reach(extra_deg: float) -> None:
    """Common practice: lean kept to impact delofts, loses bounce and arrives high; the rise is closed-form.

    With the head at its place, the side-view height of the head under the hub is
    sin(lie) (R cos a + L cos c); derived here from the lean alone.
    """
    plain = Motion(depth=0.0)
    setup = matched(Setup(), plain)
    extra = replace(plain, lean_change=radians(extra_deg))
    link = link_of(setup, replace(extra, drop=0.0))
    _, _, lean = edge(link, link.arm_ball)
    assert degrees(lean - setup.shaft_lean) == pytest.approx(extra_deg, abs=1e-9)
    loft, strips = head_of(setup)
    length, sine = setup.club.length - WRIST, sin(setup.club.lie)

    def under_hub(handle: float) -> float:
        across = -sin(atan(tan(handle) * sine)) * length
        arm = (head_behind(loft, handle, setup.club.edge_radius) - link.hub_x - across) / REACH
        return sine * (REACH * np.sqrt(1.0 - arm**2) + np.sqrt(length**2 - across**2))

    lost = under_hub(setup.shaft_lean) - under_hub(lean)
    sole = lowest_point(strips, lean) - lowest_point(strips, setup.shaft_lean)
    assert lost > 0.0
    assert sole_height(link, setup) == pytest.approx(lost + sole, abs=1e-9)
    made_up = link_of(setup, extra)
    assert sole_height(made_up, setup) == pytest.approx(0.0, abs=1e-12)
    meant = link_of(setup, plain)
    assert edge(made_up, made_up.arm_ball)[1] < edge(meant, meant.arm_ball)[1]  # edge lower


def test_ball_back_with_handle_forward_steepens_the_attack() -> None:
    """Common practice; at least one degree for 4 cm and 5 degrees."""
    plain = link_of(Setup(ball_position=-0.02, shaft_lean=radians(5)))
    back = link_of(Setup(ball_position=-0.06, shaft_lean=radians(10)))
    assert degrees(attack(back)) < degrees(attack(plain)) - 1.0


def test_ball_forward_with_upright_shaft_and_more_release_shallows_and_adds_loft() -> None:
    """Common practice; at least one degree of attack and five degrees of loft."""
    plain, setup = link_of(), Setup(ball_position=0.03, shaft_lean=0.0)
    soft = link_of(setup, Motion(release=1.4, follow_through=0.3))
    assert degrees(attack(soft)) > degrees(attack(plain)) + 1.0
    assert degrees(edge(plain, plain.arm_ball)[2] - edge(soft, soft.arm_ball)[2]) > 5.0


def flat_mm(release: float, follow_through: float) -> float:
    return 1e3 * flat_spot(link_of(None, Motion(release=release, follow_through=follow_through)))[1]


def test_matched_release_and_arc_lengthen_the_flat_spot() -> None:
    """Common practice: low release wants a long follow-through, high release does as well with a short one.

    Together the matched pairs beat the crossed pairs, and low release with folding arms is the
    shortest of all. A single matched pair need not beat a single crossed one.
    """
    low, high = 0.5, 1.8
    together = flat_mm(low, 1.0) + flat_mm(high, 0.0)
    crossed = flat_mm(low, 0.0) + flat_mm(high, 1.0)
    assert together > crossed + 4.0
    assert flat_mm(low, 0.0) < min(flat_mm(low, 1.0), flat_mm(high, 0.0), flat_mm(high, 1.0)) - 8.0


def rise_mm(release: float, follow_through: float) -> tuple[float, float]:
    """How far the head sinks at most under its height at the ball, and how high it is 0.6 rad later (mm)."""
    link = link_of(None, Motion(release=release, follow_through=follow_through))
    here = edge(link, link.arm_ball)[1]
    heights = [1e3 * (edge(link, link.arm_ball + a)[1] - here) for a in np.linspace(0.0, 0.6, 121)]
    return -min(heights), heights[-1]


def test_release_without_folding_drives_the_head_down_past_the_ball() -> None:
    """Common practice. With long arms every step of release sinks the head further, up to a plain flop's;
    beyond, the shaft comes back past upright and the reach shortens again."""
    sinks = [rise_mm(release, 1.0)[0] for release in (0.5, 0.7, 1.0, 1.4)]
    assert (np.diff(sinks) > 0.2).all()
    assert sinks[-1] > 1.5


def test_folding_without_release_lifts_the_head() -> None:
    """Common practice. With little release folding arms bring the head up soon after the ball, not at it."""
    folded, long = rise_mm(0.5, 0.0), rise_mm(0.5, 1.0)
    assert folded[1] > long[1] + 15.0
    attacks = [degrees(attack(link_of(None, Motion(follow_through=f)))) for f in (0.0, 1.0)]
    assert attacks[0] == pytest.approx(attacks[1], abs=1.0)


def test_straying_hub_moves_the_head_by_as_much() -> None:
    plain, moved = link_of(), link_of(up=0.005)
    assert edge(moved, moved.arm_ball)[1] - edge(plain, plain.arm_ball)[1] == pytest.approx(0.005)


def test_plain_python_and_compiled_law_agree() -> None:
    link = link_of()
    for law in (arm_rate, whole_inertia, potential, club_angle):
        assert law.py_func(link, -0.1) == pytest.approx(law(link, -0.1), rel=1e-12)  # type: ignore[attr-defined]
    other = replace(Setup(), lead_weight=0.7)
    assert link_of(other).hub_x != link.hub_x
