"""Behaviour of the sand law; numbers from outside are in tests/published."""

from math import cos, hypot, pi, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.granular import resistive_alpha, sand_push, sand_stress

angle = st.floats(-pi, pi)
SAND = (1.2e6, 1550.0, 1.0, 0.0)  # grain, density, inertia, cohesive yield


@given(tilt=angle, heading=angle)
@settings(max_examples=200, deadline=None)
def test_mirror_and_half_turn(tilt, heading):
    """Backward motion is the mirror picture, and a plate turned by 180 degrees is the same plate."""
    x, z = resistive_alpha(tilt, heading)
    if abs(cos(heading)) > 1e-9:
        mirror_x, mirror_z = resistive_alpha(-tilt, pi - heading)
        assert (mirror_x, mirror_z) == pytest.approx((-x, z), abs=1e-12)
    assert resistive_alpha(tilt + pi, heading) == pytest.approx((x, z), abs=1e-12)


@given(tilt=angle, heading=angle, depth=st.floats(1e-4, 0.05), speed=st.floats(0.01, 20.0))
@settings(max_examples=200, deadline=None)
def test_compiled_plain_and_vector_forms_agree(tilt, heading, depth, speed):
    arguments = (tilt, heading, depth, speed, 1.2e6, 1550.0, 1.1, 5e3)
    compiled = sand_stress(*arguments)
    assert compiled == pytest.approx(sand_stress.py_func(*arguments), rel=1e-10, abs=1e-6)
    assert resistive_alpha(tilt, heading) == pytest.approx(resistive_alpha.py_func(tilt, heading), abs=1e-13)
    vector = (sin(tilt), -cos(tilt), speed * cos(heading), -speed * sin(heading), depth, *arguments[4:])
    assert sand_push(*vector) == pytest.approx(compiled, rel=1e-7, abs=1e-3)
    assert sand_push(*vector) == pytest.approx(sand_push.py_func(*vector), rel=1e-9, abs=1e-4)


@given(tilt=angle, heading=angle)
@settings(max_examples=200, deadline=None)
def test_only_a_leading_face_is_pushed(tilt, heading):
    stress = sand_stress(tilt, heading, 0.01, 7.0, *SAND)
    leads = sin(tilt) * cos(heading) + cos(tilt) * sin(heading)
    if leads < -1e-9:
        assert stress == (0.0, 0.0)
    elif leads > 1e-3:
        assert hypot(*stress) > 0.0
    assert sand_stress(tilt, heading, -1e-3, 7.0, *SAND) == (0.0, 0.0)


def test_a_resting_element_is_not_pushed():
    assert sand_stress(0.0, pi / 2, 0.01, 0.0, *SAND) == (0.0, 0.0)
    assert sand_push(0.0, -1.0, 0.0, 0.0, 0.01, *SAND) == (0.0, 0.0)


def test_letting_go_has_no_jump():
    """Stress, cohesion included, fades to zero as an element stops leading."""
    near = sand_stress(0.1, -0.1 + 1e-6, 0.01, 7.0, 1.2e6, 1550.0, 1.0, 5e3)
    past = sand_stress(0.1, -0.1 - 1e-6, 0.01, 7.0, 1.2e6, 1550.0, 1.0, 5e3)
    assert hypot(*near) < 10.0
    assert past == (0.0, 0.0)


def test_momentum_of_grains_acts_on_the_normal():
    """Only the speed term changes with speed: lambda rho v_n^2 against the outward normal."""
    tilt, heading = radians(10), radians(5)
    slow = np.array(sand_stress(tilt, heading, 0.005, 4.0, *SAND))
    fast = np.array(sand_stress(tilt, heading, 0.005, 8.0, *SAND))
    pressure = 1550.0 * (8.0**2 - 4.0**2) * sin(tilt + heading) ** 2
    assert fast - slow == pytest.approx(-pressure * np.array([sin(tilt), -cos(tilt)]))


def test_damp_sand_adds_cohesion_on_the_normal():
    tilt, heading = radians(10), radians(5)
    dry = np.array(sand_stress(tilt, heading, 0.005, 7.0, *SAND))
    damp = np.array(sand_stress(tilt, heading, 0.005, 7.0, 1.2e6, 1550.0, 1.0, 2e4))
    assert damp - dry == pytest.approx(-2e4 * np.array([sin(tilt), -cos(tilt)]))


def test_stress_grows_with_depth_and_scale():
    at = (radians(10), radians(5))
    once = np.array(sand_stress(*at, 0.005, 7.0, 1.2e6, 0.0, 0.0, 0.0))
    assert np.array(sand_stress(*at, 0.010, 7.0, 1.2e6, 0.0, 0.0, 0.0)) == pytest.approx(2 * once)
    assert np.array(sand_stress(*at, 0.005, 7.0, 3.6e6, 0.0, 0.0, 0.0)) == pytest.approx(3 * once)


def test_sand_takes_energy_from_every_leading_face():
    """Power of the grains' slow resistance alone is never positive, any tilt, any heading."""
    worst = -1.0
    for tilt in np.linspace(-pi, pi, 121):
        for heading in np.linspace(-pi, pi, 121):
            x, y = sand_stress(tilt, heading, 0.01, 7.0, 1.2e6, 0.0, 0.0, 0.0)
            worst = max(worst, x * cos(heading) - y * sin(heading))
    assert worst <= 0.0


def test_raised_leading_edge_lifts_and_lofted_face_drags_back():
    """A bouncy sole is pushed up; a 56-degree face moving level is pushed back."""
    sole_x, sole_y = sand_stress(radians(10), 0.0, 0.01, 7.0, *SAND)
    assert sole_y > 0.0
    assert sole_x < 0.0
    face_x, face_y = sand_stress(radians(90 + 56), 0.0, 0.01, 7.0, *SAND)
    assert face_x < 0.0
    assert face_y < sole_y
