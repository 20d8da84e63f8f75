"""Flight laws from inside: symmetry, energy and order of the step."""

from math import cos, hypot, isclose, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.constants import GRAVITY
from physics.equipment import BALL
from physics.flight import FLIGHT_STEP, air_force, fly_step, hermite, wind_at

speeds = st.floats(0.5, 40.0)
angles = st.floats(-1.5, 1.5)
spins = st.floats(-900.0, 900.0)


def energy(y: float, vx: float, vy: float, spin: float) -> float:
    """Energy per mass (m2/s2)."""
    return GRAVITY * y + 0.5 * (vx * vx + vy * vy) + 0.2 * BALL.radius**2 * spin * spin


@settings(max_examples=200, deadline=None)
@given(speeds, angles, spins)
def test_still_air_never_adds_energy(v: float, angle: float, spin: float) -> None:
    a = (0.0, 5.0, v * cos(angle), v * sin(angle), spin)
    b = fly_step(*a, FLIGHT_STEP, 0.0, 0.0)
    assert energy(*b[1:]) <= energy(*a[1:]) + 1e-7


@settings(max_examples=100, deadline=None)
@given(speeds, angles, spins, st.floats(-8.0, 8.0))
def test_flight_mirrors(v: float, angle: float, spin: float, wind: float) -> None:
    x, y, vx, vy, w = fly_step(0.0, 2.0, v * cos(angle), v * sin(angle), spin, FLIGHT_STEP, wind, 0.0)
    mx, my, mvx, mvy, mw = fly_step(0.0, 2.0, -v * cos(angle), v * sin(angle), -spin, FLIGHT_STEP, -wind, 0.0)
    assert (mx, my, mvx, mvy, mw) == pytest.approx((-x, y, -vx, vy, -w), abs=1e-12)


def test_backspin_lifts_and_topspin_presses() -> None:
    plain = air_force(1.0, 15.0, 0.0, 0.0, 0.0)[1]
    assert air_force(1.0, 15.0, 0.0, 300.0, 0.0)[1] > plain > air_force(1.0, 15.0, 0.0, -300.0, 0.0)[1]


def test_drag_has_no_step_where_its_law_changes() -> None:
    below, above = (air_force(1.0, v, 0.0, 0.0, 0.0)[0] for v in (14.0 - 1e-9, 14.0 + 1e-9))
    assert isclose(below, above, rel_tol=1e-8)


def test_wind_grows_with_height_through_its_told_value() -> None:
    assert wind_at(10.0, 5.0) == pytest.approx(5.0)
    assert 0.0 == wind_at(0.0, 5.0) < wind_at(0.1, 5.0) < wind_at(1.0, 5.0) < 5.0


def test_step_is_of_fourth_order() -> None:
    """Halving the step divides the error by about 16 (classical Runge-Kutta)."""

    def after(h: float) -> tuple[float, float]:
        s = (0.0, 1.0, 7.0, 8.0, 300.0)
        for _ in range(round(0.8 / h)):
            s = fly_step(*s, h, 0.0, 0.0)
        return s[0], s[1]

    x, y = after(0.0025)
    coarse, fine = (hypot(after(h)[0] - x, after(h)[1] - y) for h in (0.08, 0.04))
    assert 12.0 < coarse / fine < 22.0


def test_cubic_between_is_exact_for_a_parabola() -> None:
    """Place and speed of free fall, and its ends."""
    place, speed = hermite(0.3, 0.1, 1.0, 2.0, 1.0 + 0.2 - 0.5 * GRAVITY * 0.01, 2.0 - GRAVITY * 0.1)
    assert place == pytest.approx(1.0 + 2.0 * 0.03 - 0.5 * GRAVITY * 0.03**2)
    assert speed == pytest.approx(2.0 - GRAVITY * 0.03)


def test_plain_python_form_agrees() -> None:
    args = (3.0, 12.0, 4.0, 250.0, -3.0)
    assert air_force.py_func(*args) == pytest.approx(air_force(*args), rel=1e-14)  # type: ignore[attr-defined]
