"""Behaviour of the cutting law; numbers from outside are in tests/published."""

from math import isfinite, pi, radians

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.cutting import (
    cutting_factors,
    cutting_force,
    easiest_plane,
    pull_reversal_rake,
    reece_force,
)

soils = st.tuples(
    st.floats(1200.0, 2000.0),  # density
    st.floats(0.0, 60e3),  # cohesion
    st.floats(radians(5), radians(40)),  # phi
    st.floats(radians(0), radians(25)),  # delta
)
cuts = st.tuples(st.floats(0.5e-3, 30e-3), st.floats(0.0, 20.0), st.floats(radians(15), radians(95)))


def scanned(depth, speed, rake, soil):
    """Least P of the whole equation over a fine scan of planes (N per metre of width)."""
    density, cohesion, phi, delta = soil
    planes = np.linspace(0.005, pi - rake - delta - phi - 0.005, 1500)
    return min(
        reece_force(depth, 1.0, speed, rake, b, density, cohesion, 0.0, 0.0, phi, delta)[0] for b in planes
    )


@given(cut=cuts, soil=soils)
@settings(max_examples=60, deadline=None)
def test_no_other_plane_is_easier(cut, soil):
    """The algebraic minimum agrees with the full equation there, and a scan finds nothing lower."""
    depth, speed, rake = cut
    density, cohesion, phi, delta = soil
    drag, pull, beta = cutting_force(depth, 1.0, speed, rake, density, cohesion, phi, delta, 0.0)
    whole, whole_drag, whole_pull = reece_force(
        depth, 1.0, speed, rake, beta, density, cohesion, 0.0, 0.0, phi, delta
    )
    assert drag == pytest.approx(whole_drag, rel=1e-8)
    assert pull == pytest.approx(whole_pull, rel=1e-8, abs=1e-8 * whole)
    assert whole <= scanned(depth, speed, rake, soil) * (1.0 + 1e-9)


@given(cut=cuts, soil=soils, beta0=st.floats(0.01, 1.5))
@settings(max_examples=200, deadline=None)
def test_any_warm_start_finds_the_cold_answer(cut, soil, beta0):
    """Where the search starts changes nothing, so a replay is the same to rounding."""
    depth, speed, rake = cut
    density, cohesion, phi, delta = soil
    cold = cutting_force(depth, 0.07, speed, rake, density, cohesion, phi, delta, 0.0)
    warm = cutting_force(depth, 0.07, speed, rake, density, cohesion, phi, delta, beta0)
    assert warm == pytest.approx(cold, rel=1e-8, abs=1e-9)


@given(cut=cuts, soil=soils)
@settings(max_examples=20, deadline=None)
def test_compiled_and_plain_agree(cut, soil):
    depth, speed, rake = cut
    density, cohesion, phi, delta = soil
    arguments = (depth, 0.07, speed, rake, density, cohesion, phi, delta, 0.0)
    assert cutting_force(*arguments) == pytest.approx(cutting_force.py_func(*arguments), rel=1e-9, abs=1e-9)
    plane = (depth, speed, rake, density, cohesion, phi, delta, 0.5)
    assert easiest_plane(*plane) == pytest.approx(easiest_plane.py_func(*plane), rel=1e-9)
    wedge = (rake, 0.3, phi, delta)
    assert cutting_factors(*wedge) == pytest.approx(cutting_factors.py_func(*wedge), rel=1e-12)
    full = (depth, 0.07, speed, rake, 0.3, density, cohesion, 1e3, 2e3, phi, delta)
    assert reece_force(*full) == pytest.approx(reece_force.py_func(*full), rel=1e-12)


@pytest.mark.parametrize("rake_deg", [34, 45, 60, 75, 90])
@pytest.mark.parametrize("beta_deg", [15, 25, 35])
def test_sine_form_of_the_factors(rake_deg, beta_deg):
    """Swick & Perumpral 1988 write the factors with sines; the two forms are one (algebra)."""
    a, b, phi, delta = map(radians, (rake_deg, beta_deg, 30, 20))
    s = np.sin(a + b + phi + delta)
    ng, nc, _, nq, nv = cutting_factors(a, b, phi, delta)
    length = 1.0 / np.tan(a) + 1.0 / np.tan(b)
    assert ng == pytest.approx(0.5 * length * np.sin(phi + b) / s, rel=1e-12)
    assert nq == pytest.approx(length * np.sin(phi + b) / s, rel=1e-12)
    assert nc == pytest.approx(np.cos(phi) / (np.sin(b) * s), rel=1e-12)
    assert nv == pytest.approx(np.sin(a) * np.cos(phi) / (np.sin(a + b) * s), rel=1e-12)


def test_adhesion_and_surcharge_add_their_own_share():
    """Each term enters the whole equation once: P is linear in adhesion and in surcharge."""
    depth, width, rake, beta, phi, delta = 5e-3, 0.07, radians(45), radians(40), 0.5, 0.3
    _, _, na, nq, _ = cutting_factors(rake, beta, phi, delta)

    def force(adhesion, surcharge):
        return reece_force(depth, width, 7.0, rake, beta, 1600.0, 2e4, adhesion, surcharge, phi, delta)

    bare, bare_drag, bare_pull = force(0.0, 0.0)
    sticky, drag, pull = force(2e3, 0.0)
    assert sticky - bare == pytest.approx(2e3 * na * depth * width)
    extra = sticky - bare
    assert drag - bare_drag == pytest.approx(
        extra * np.sin(rake + delta) + 2e3 * depth * width / np.tan(rake)
    )
    assert pull - bare_pull == pytest.approx(extra * np.cos(rake + delta) - 2e3 * depth * width)
    assert force(0.0, 3e3)[0] - bare == pytest.approx(3e3 * nq * depth * width)


@pytest.mark.parametrize("delta_deg", [12, 18, 20, 22])
def test_pull_turns_from_down_to_up_at_its_rake(delta_deg):
    """A lofted face draws the head in, a steep one throws it out; the change is where stated."""
    delta = radians(delta_deg)
    turn = pull_reversal_rake(delta)
    soil = (1600.0, 20e3, radians(30), delta)
    assert cutting_force(5e-3, 0.07, 7.0, turn - 0.01, *soil, 0.0)[1] > 0.0
    assert cutting_force(5e-3, 0.07, 7.0, turn + 0.01, *soil, 0.0)[1] < 0.0
    drag, pull, _ = cutting_force(5e-3, 0.07, 7.0, turn, *soil, 0.0)
    assert abs(pull) < 1e-9 * drag


def test_drag_grows_with_depth_speed_and_cohesion():
    base = cutting_force(5e-3, 0.07, 7.0, 0.8, 1600.0, 2e4, 0.5, 0.35, 0.0)[0]
    assert cutting_force(6e-3, 0.07, 7.0, 0.8, 1600.0, 2e4, 0.5, 0.35, 0.0)[0] > base
    assert cutting_force(5e-3, 0.07, 8.0, 0.8, 1600.0, 2e4, 0.5, 0.35, 0.0)[0] > base
    assert cutting_force(5e-3, 0.07, 7.0, 0.8, 1600.0, 3e4, 0.5, 0.35, 0.0)[0] > base


def test_force_is_continuous_as_the_edge_goes_in():
    """No jump at the surface: force fades with depth, and no cut gives none and keeps the plane."""
    soil = (1600.0, 2e4, 0.5, 0.35)
    assert cutting_force(0.0, 0.07, 7.0, 0.8, *soil, 0.4) == (0.0, 0.0, 0.4)
    assert cutting_force(-1e-3, 0.07, 7.0, 0.8, *soil, 0.4) == (0.0, 0.0, 0.4)
    assert cutting_force(5e-3, 0.07, 7.0, 0.8, 0.0, 0.0, 0.5, 0.35, 0.4) == (0.0, 0.0, 0.4)
    full = cutting_force(5e-3, 0.07, 7.0, 0.8, *soil, 0.0)[0]
    assert cutting_force(5e-7, 0.07, 7.0, 0.8, *soil, 0.0)[0] == pytest.approx(full * 1e-4, rel=0.01)


@pytest.mark.parametrize("rake", [-0.5, 0.0, 0.01, 2.0, 3.1, 4.0])
@pytest.mark.parametrize("soil", [(1600.0, 2e4, 0.5, 0.35), (1600.0, 0.0, 0.0, 0.0), (0.0, 1e3, 0.0, 0.0)])
def test_impossible_blades_stay_finite(rake, soil):
    """Rakes outside the wedge's range are held at its edge; frictionless soil does not break it."""
    assert all(map(isfinite, cutting_force(5e-3, 0.07, 7.0, rake, *soil, 0.0)))
    assert all(map(isfinite, cutting_force(5e-3, 0.07, 0.0, rake, *soil, 0.0)))
