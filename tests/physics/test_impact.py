"""Behaviour of the blow of club on ball; numbers from outside are in tests/published."""

from math import atan2, cos, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.equipment import BALL
from physics.impact import face_restitution, oblique_impact

blows = st.tuples(
    st.floats(0.1, 45.0),  # speed
    st.floats(-pi, pi),  # direction of the head
    st.floats(-pi, pi),  # direction of the contact normal
    st.floats(0.15, 1.0),  # head mass
    st.floats(0.0, 1.0),  # friction
    st.floats(0.0, 2.0),  # scale on restitution
)


def struck(blow, tangent=0.10):
    speed, way, normal, mass, mu, scale = blow
    return oblique_impact(
        speed * cos(way), speed * sin(way), cos(normal), sin(normal), mass, mu, scale, tangent
    )


@given(blow=blows, tangent=st.floats(0.0, 0.2))
@settings(max_examples=300, deadline=None)
def test_momentum_and_spin_follow_the_impulses_and_no_energy_appears(blow, tangent):
    speed, way, normal, mass, mu, _ = blow
    vx, vy, spin, along, across = struck(blow, tangent)
    nx, ny = cos(normal), sin(normal)
    jx, jy = along * nx + across * ny, along * ny - across * nx
    assert (BALL.mass * vx, BALL.mass * vy) == pytest.approx((jx, jy), abs=1e-9)
    assert BALL.inertia * spin == pytest.approx(BALL.radius * across, abs=1e-12)
    assert abs(across) <= mu * along + 1e-12
    head = (speed * cos(way) - jx / mass, speed * sin(way) - jy / mass)
    before = 0.5 * mass * speed**2
    after = 0.5 * mass * hypot(*head) ** 2 + 0.5 * BALL.mass * hypot(vx, vy) ** 2
    after += 0.5 * BALL.inertia * spin**2
    assert after <= before * (1.0 + 1e-12)


@given(blow=blows)
@settings(max_examples=100, deadline=None)
def test_ball_and_head_part_with_the_stated_restitution(blow):
    speed, way, normal, mass, _, scale = blow
    v_n = speed * cos(way - normal)
    vx, vy, _, along, _ = struck(blow)
    if v_n <= 0.0:
        assert (vx, vy, along) == (0.0, 0.0, 0.0)
        return
    parting = vx * cos(normal) + vy * sin(normal) - (v_n - along / mass)
    assert parting == pytest.approx(min(scale * face_restitution(v_n), 0.95) * v_n, abs=1e-9)


@given(blow=blows, turn=st.floats(-pi, pi))
@settings(max_examples=100, deadline=None)
def test_turning_the_picture_turns_the_answer(blow, turn):
    speed, way, normal, *rest = blow
    vx, vy, spin, along, across = struck(blow)
    tx, ty, t_spin, t_along, t_across = struck((speed, way + turn, normal + turn, *rest))
    assert (t_spin, t_along, t_across) == pytest.approx((spin, along, across), abs=1e-8)
    turned = (vx * cos(turn) - vy * sin(turn), vx * sin(turn) + vy * cos(turn))
    assert (tx, ty) == pytest.approx(turned, abs=1e-9)


@given(blow=blows)
@settings(max_examples=50, deadline=None)
def test_compiled_and_plain_agree(blow):
    speed, way, normal, mass, mu, scale = blow
    arguments = (speed * cos(way), speed * sin(way), cos(normal), sin(normal), mass, mu, scale)
    plain = oblique_impact.py_func(*arguments)
    assert oblique_impact(*arguments) == pytest.approx(plain, rel=1e-12, abs=1e-12)
    assert face_restitution(speed) == pytest.approx(face_restitution.py_func(speed), rel=1e-15)


@pytest.mark.parametrize("loft", [0.3, 0.7, 1.0])
def test_lofted_face_gives_backspin_and_launch_below_loft(loft):
    vx, vy, spin, along, across = oblique_impact(10.0, 0.0, cos(loft), sin(loft), 0.3, 0.4, 1.0)
    assert spin > 0.0
    assert across > 0.0
    assert along > 0.0
    assert 0.0 < atan2(vy, vx) < loft


def test_edge_above_the_equator_drives_the_ball_down_with_topspin():
    """A topped ball: the normal points down, and so does the ball; rubbing up turns it forward."""
    vx, vy, spin, along, _ = oblique_impact(8.0, 0.0, cos(0.4), -sin(0.4), 0.3, 0.3, 1.0)
    assert vx > 0.0
    assert vy < 0.0
    assert spin < 0.0
    assert along > 0.0


def test_wet_face_flies_higher_with_less_spin():
    """A slipping face (flier): spin falls and launch rises (Cornish, Otto & Strangwood: wet grooves)."""
    dry = oblique_impact(10.0, 0.0, cos(0.8), sin(0.8), 0.3, 0.4, 1.0)
    wet = oblique_impact(10.0, 0.0, cos(0.8), sin(0.8), 0.3, 0.1, 1.0)
    assert wet[2] < dry[2]
    assert atan2(wet[1], wet[0]) > atan2(dry[1], dry[0])


def test_head_moving_away_does_not_strike():
    assert oblique_impact(-5.0, 0.0, 1.0, 0.0, 0.3, 0.4, 1.0) == (0.0, 0.0, 0.0, 0.0, 0.0)


def test_restitution_never_negative():
    assert face_restitution(1000.0) == 0.0
